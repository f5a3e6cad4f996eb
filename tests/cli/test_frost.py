"""`sowsheet frost`: the table, the JSON, the page, and how a bad record ends."""

from __future__ import annotations

import csv
import io
import json
from datetime import date
from functools import cache
from pathlib import Path

import pypdfium2
import pytest
from typer.testing import CliRunner, Result

from sowsheet.cli.app import app
from sowsheet.sheets.frost_sheet import frost_sheet
from sowsheet.sheets.paint import measure, unprintable
from sowsheet.sheets.shapes import Box, Sheet, Words
from sowsheet.site.frosts import frosts, is_south
from sowsheet.site.record import Record
from sowsheet.words.language import language_of
from tests.published.test_frost_dates import nights, record
from tests.sheets.pages import collisions, outside
from tests.site.weather import lines, low_c, made


def run(*args: object) -> Result:
    return CliRunner().invoke(app, ["frost", *(str(a) for a in args)])


@pytest.fixture(scope="module")
def brussels(tmp_path_factory: pytest.TempPathFactory) -> Path:
    path = tmp_path_factory.mktemp("frost") / "brussels.csv"
    text = ["date,tmin (C)", *(f"{day},{low}" for day, low in nights("brussels"))]
    path.write_text("\n".join(text), encoding="utf-8")
    return path


def test_the_table_says_it_in_plain_words(brussels: Path) -> None:
    result = run(brussels)
    assert result.exit_code == 0, result.output
    head, *table = [line for line in result.stdout.splitlines() if line.strip()]
    assert head == f"{brussels}: 30 years, 1976 to 2005, north of the equator"
    assert table[0].split("  ")[-2:] == ["in 9 years of 10", "years"]
    (zero,) = [line for line in table if line.startswith("0 °C")]
    assert " ".join(zero.split()) == "0 °C last frost in spring: later than 29 April 11 April 11 March 30 of 30"
    assert [line.split("  ")[0] for line in table if "in spring" in line] == ["0 °C", "-2 °C", "-4 °C", "2 °C"]
    assert table[-2:] == ["  last frost: 11 April (average)", "  first frost: 14 November (average)"]


def test_json_has_just_what_was_promised(brussels: Path) -> None:
    result = run(brussels, "--threshold", "0", "--threshold", "-20", "--format", "json")
    assert result.exit_code == 0, result.output
    assert json.loads(result.stdout) == {
        "schema": 1,
        "years": 30,
        "thresholds": [
            {
                "threshold_c": 0.0,
                "last_spring": {"p10": "03-11", "p50": "04-11", "p90": "04-29"},
                "first_autumn": {"p10": "10-30", "p50": "11-14", "p90": "12-02"},
            },
            {
                "threshold_c": -20.0,
                "last_spring": {"p10": None, "p50": None, "p90": None},
                "first_autumn": {"p10": None, "p50": None, "p90": None},
            },
        ],
    }


def test_csv_has_a_row_for_each_half(brussels: Path) -> None:
    rows = list(csv.DictReader(io.StringIO(run(brussels, "--format", "csv").stdout)))
    assert len(rows) == 8
    assert rows[2] == {
        "threshold_c": "-2",
        "what": "last_spring",
        "p10": "02-11",
        "p50": "03-03",
        "p90": "04-09",
        "years_with": "28",
        "years": "30",
    }


def test_thresholds_in_fahrenheit(brussels: Path) -> None:
    one, other = (json.loads(run(brussels, "--threshold", t, "--format", "json").stdout) for t in ("32 F", "0C"))
    assert one == other
    assert run(brussels, "--threshold", "cold").exit_code == 2


def test_the_hemisphere_can_be_overruled(brussels: Path) -> None:
    found = json.loads(run(brussels, "--south", "--format", "json").stdout)
    assert found["years"] == 29
    assert found["thresholds"][0]["last_spring"]["p90"].startswith("12-")
    assert json.loads(run(brussels, "--north", "--format", "json").stdout)["years"] == 30


def write(folder: Path, text: list[str]) -> Path:
    path = folder / "station.csv"
    path.write_text("\n".join(text), encoding="utf-8")
    return path


def test_what_is_noticed_goes_beside_the_answer(tmp_path: Path) -> None:
    body = lines(date(2001, 1, 1), date(2004, 12, 31))
    body[198] = "2001-07-18,-72,20"
    path = write(tmp_path, ["date,tmin (C),tmax (C)", *body])
    table = run(path)
    assert "Noticed: 1 line left out, the minimum is colder than -60 C or warmer than 60 C: line 200." in table.stdout
    assert "Noticed: a short record: 4 years" in table.stdout
    assert "4 of 4 (few)" in table.stdout
    as_json = run(path, "--format", "json")
    assert json.loads(as_json.stdout)["years"] == 4
    assert "line 200" in as_json.stderr


def test_a_unit_that_nobody_tells(tmp_path: Path) -> None:
    winter = lines(date(2001, 1, 1), date(2001, 2, 28), fahrenheit=True)
    path = write(tmp_path, ["date,tmin,tmax", *winter])
    result = run(path)
    assert result.exit_code == 2
    assert result.stderr.startswith(f"{path}:1:1: nothing tells whether")
    assert "--unit F" in result.stderr
    again = run(path, "--unit", "f")
    assert again.exit_code == 2  # two months are no year
    assert "neither half of the year" in again.stderr
    assert "no year is whole" in run(path, "--unit", "F", "--north").stderr


def test_a_record_that_cannot_be_read_writes_nothing(tmp_path: Path) -> None:
    path = write(tmp_path, ["day,rain", "2001-01-01,3"])
    result = run(path, "--pdf", "--out", tmp_path / "sheets")
    assert result.exit_code == 2
    assert f"{path}:1:1: there is no column of minimum temperatures" in result.stderr
    assert not (tmp_path / "sheets").exists()
    assert "no such file" in run(tmp_path / "none.csv").stderr
    assert "folder" in run(tmp_path).stderr


def test_the_page(brussels: Path, tmp_path: Path) -> None:
    result = run(brussels, "--pdf", "--out", tmp_path)
    assert result.exit_code == 0, result.output
    document = pypdfium2.PdfDocument(tmp_path / "frost.pdf")
    assert len(document) == 1
    width, height = document[0].get_size()
    assert (round(width), round(height)) == (842, 595)
    text = document[0].get_textpage().get_text_bounded()
    for words in ("29 April", "1 in 10 later", "30 years, 1976 to 2005", "last frost: 11 April (average)", "−2 °C"):
        assert words in text
    assert run(brussels, "--pdf", "--out", tmp_path, *(f"--threshold={n}" for n in range(7))).exit_code == 2


@cache
def known(which: str) -> Record:
    if which == "mild":
        return made(
            lambda d: round(low_c(d, mean=11.0, swing=8.0) + weather_c(d), 1), date(2001, 1, 1), date(2030, 12, 31)
        )
    if which == "warm":
        return made(lambda d: low_c(d, mean=20.0, swing=5.0), date(2001, 1, 1), date(2003, 12, 31))
    return record(which, "F" if which.endswith("_f") else "C")


def weather_c(day: date) -> float:
    """Something like weather, -6 to 6 C, the same each time."""
    return (day.toordinal() * 7919 % 121) / 10 - 6


def sheet(which: str, paper: str, thresholds: tuple[float, ...], language: str = "en") -> Sheet:
    place = known(which)
    south = is_south(place)
    assert south is not None
    told = [frosts(place, t, south) for t in thresholds]
    return frost_sheet(place, told, frosts(place, 0.0, south), paper, measure(), language_of(language))


@pytest.mark.parametrize("language", ["en", "pl", "es"])
@pytest.mark.parametrize("paper", ["A4", "Letter", "A3", "Tabloid"])
@pytest.mark.parametrize("thresholds", [(0.0,), (0.0, -2.0, -4.0, 2.0), (3.0, 2.0, 0.0, -1.0, -2.2, -4.0)], ids=len)
@pytest.mark.parametrize("which", ["brussels", "champion", "cordoba", "clemson_f", "mild", "warm"])
def test_everything_stands_on_the_page_and_nothing_runs_into_another(
    which: str, thresholds: tuple[float, ...], paper: str, language: str
) -> None:
    made_sheet = sheet(which, paper, thresholds, language)
    (page,) = made_sheet.pages
    assert list(outside(made_sheet)) == []
    assert collisions(page) == []
    assert unprintable(made_sheet) == set()
    least = min(shape.size_pt for shape in page.shapes if isinstance(shape, Words))
    assert least >= 8.7  # 16 minutes of arc from 47 cm; 9.25 on A4


@pytest.mark.parametrize("which", ["brussels", "clemson_f", "cordoba", "mild"])
def test_a_dot_a_year_and_none_over_another(which: str) -> None:
    place = known(which)
    south = is_south(place)
    assert south is not None
    found = frosts(place, 2.0, south)
    (page,) = sheet(which, "A4", (2.0,)).pages
    dots = [s for s in page.shapes if isinstance(s, Box) and s.radius][2:]  # the first two are the legend's
    assert len(dots) == len(found.last_spring.days) + len(found.first_autumn.days)
    at = [(s.x + s.width / 2, s.y + s.height / 2, s.radius) for s in dots]
    apart = [(a, b) for n, a in enumerate(at) for b in at[n + 1 :]]
    assert all((a[0] - b[0]) ** 2 + (a[1] - b[1]) ** 2 >= (a[2] + b[2]) ** 2 * 0.99 for a, b in apart)
