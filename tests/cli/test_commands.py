"""The commands as a grower meets them: what they print, where, and how they end."""

from __future__ import annotations

import csv
import json
import os
import shlex
import signal
import subprocess
import sys
from datetime import date
from pathlib import Path

import pypdfium2
import pytest
from typer.testing import CliRunner, Result

from sowsheet.cli.app import app
from sowsheet.cli.print_ import SheetName
from sowsheet.garden import beds, habits, places, read, site
from tests.examples import GARDENS, ROOT

FOUR = ROOT / "out_examples" / "four-beds" / "garden.yaml"
TWELVE = ROOT / "out_examples" / "twelve-beds" / "garden.yaml"
SHEETS = {f"{name.value}.pdf" for name in SheetName}


def run(*args: object) -> Result:
    return CliRunner().invoke(app, [str(a) for a in args])


def broken(folder: Path, old: str, new: str) -> Path:
    text = FOUR.read_text(encoding="utf-8")
    assert old in text
    path = folder / "garden.yaml"
    path.write_text(text.replace(old, new), encoding="utf-8")
    return path


def test_print_writes_all_sheets(tmp_path: Path) -> None:
    result = run("print", FOUR, "--out", tmp_path / "sheets")
    assert result.exit_code == 0, result.output
    assert {p.name for p in (tmp_path / "sheets").iterdir()} == SHEETS
    assert result.stdout == ""  # quiet when piped


def test_print_one_sheet_on_another_paper(tmp_path: Path) -> None:
    result = run("print", FOUR, "wall-chart", "--paper", "a2", "--out", tmp_path)
    assert result.exit_code == 0, result.output
    assert {p.name for p in tmp_path.iterdir()} == {"wall-chart.pdf"}
    width, height = pypdfium2.PdfDocument(tmp_path / "wall-chart.pdf")[0].get_size()
    assert (round(width), round(height)) == (1684, 1191)


def test_a_date_of_printing_only_when_asked_for(tmp_path: Path) -> None:
    run("print", FOUR, "--out", tmp_path / "plain")
    run("print", FOUR, "--out", tmp_path / "dated", "--today", "2026-11-25")
    for name in SHEETS:
        plain, dated = (
            pypdfium2.PdfDocument(tmp_path / folder / name)[0].get_textpage().get_text_bounded()
            for folder in ("plain", "dated")
        )
        assert "25 November 2026" in dated
        assert "25 November 2026" not in plain


def test_two_processes_write_the_same_bytes(tmp_path: Path) -> None:
    for folder in ("one", "two"):
        command = [sys.executable, "-m", "sowsheet", "print", str(FOUR), "--out", str(tmp_path / folder)]
        subprocess.run(command, check=True)
    for name in SHEETS:
        assert (tmp_path / "one" / name).read_bytes() == (tmp_path / "two" / name).read_bytes()


def test_a_mistake_writes_nothing_and_ends_with_2(tmp_path: Path) -> None:
    path = broken(tmp_path, "then spinach", "then spinich")
    result = run("print", path, "--out", tmp_path / "sheets")
    assert result.exit_code == 2
    assert not (tmp_path / "sheets").exists()
    first, line, mark, *cure = result.stderr.splitlines()
    at = path.read_text(encoding="utf-8").splitlines()
    row = next(n for n, text in enumerate(at, 1) if "spinich" in text)
    assert first.startswith(f"{path}:{row}:{at[row - 1].index('spinich') + 1}: ")
    assert line.strip() == at[row - 1].strip()
    assert mark.index("^") == line.index("spinich")
    assert "spinach" in " ".join(cure)


def test_all_mistakes_at_once_in_order(tmp_path: Path) -> None:
    path = broken(tmp_path, "season: 2027", "seasn: 2027")
    text = path.read_text(encoding="utf-8").replace("then spinach", "then spinich").replace("52.4", "95")
    path.write_text(text, encoding="utf-8")
    result = run("check", path)
    assert result.exit_code == 2
    heads = [line for line in result.stderr.splitlines() if line.startswith(str(path))]
    rows = [int(head.removeprefix(f"{path}:").split(":")[0]) for head in heads]
    assert len(heads) == 3  # the slip of a needed key is one mistake, not two
    assert rows == sorted(rows)


@pytest.mark.parametrize(
    ("kind", "says"),
    [("missing", "no such file"), ("folder", "folder"), ("binary", "text"), ("empty", "empty")],
)
def test_files_that_are_none(tmp_path: Path, kind: str, says: str) -> None:
    path = tmp_path / "garden.yaml"
    if kind == "folder":
        path.mkdir()
    elif kind == "binary":
        path.write_bytes(bytes(range(256)))
    elif kind == "empty":
        path.write_text("", encoding="utf-8")
    result = run("print", path, "--out", tmp_path / "sheets")
    assert result.exit_code == 2
    assert says in result.stderr
    assert result.stderr.startswith(str(path))
    assert "Traceback" not in result.output
    assert not (tmp_path / "sheets").exists()


def test_strict_makes_doubts_fatal(tmp_path: Path) -> None:
    doubtful = broken(tmp_path, "One: lettuce", "One: tomatoes (early) 1 April, then lettuce")
    assert run("check", doubtful).exit_code == 0
    result = run("print", doubtful, "--strict", "--out", tmp_path / "sheets")
    assert result.exit_code == 1
    assert "doubt" in result.stderr
    assert not (tmp_path / "sheets").exists()


def test_check_tells_back_every_bed() -> None:
    result = run("check", TWELVE)
    assert result.exit_code == 0
    for bed in ("North 1", "South 4", "Glass 2"):
        assert bed in result.stdout
    assert "you wrote `September`, any day from 1 September to 30 September fits" in result.stdout


STAGES = [
    "chit",
    "sow",
    "up",
    "to_light",
    "prick_out",
    "pot_on",
    "harden",
    "ready",
    "holds",
    "plant",
    "cover_on",
    "cover_off",
    "first_pick",
    "last_pick",
    "clear",
]


@pytest.mark.parametrize("garden", GARDENS)
def test_dates_as_json(garden: str) -> None:
    result = run("dates", ROOT / "out_examples" / garden / "garden.yaml", "--format", "json")
    data = json.loads(result.stdout)
    assert data["schema"] == 1
    assert data["batches"]
    for batch in data["batches"]:
        assert {"name", "crop", "kind", "bed", "amount", "stages"} <= batch.keys()
        assert set(batch["amount"]) == {"number", "unit"}
        assert list(batch["stages"]) == STAGES
        for stage in batch["stages"].values():
            assert stage is None or set(stage) == {"date", "low", "high", "basis", "why"}
    for doubt in data["doubts"]:
        assert set(doubt) == {"code", "batch", "what", "why", "cure"}
    names = [b["name"] for b in data["batches"]]
    assert len(names) == len(set(names))


@pytest.mark.parametrize("garden", GARDENS)
def test_trays_as_json(garden: str) -> None:
    result = run("trays", ROOT / "out_examples" / garden / "garden.yaml", "--format", "json")
    data = json.loads(result.stdout)
    assert data["schema"] == 1
    for sowing in data["sowings"]:
        assert {"batch", "week", "tray", "trays", "cells", "plants", "seeds", "shares"} <= sowing.keys()
    for week in data["weeks"]:
        assert {"iso_year", "iso_week", "monday", "places"} <= week.keys()
        for place in week["places"]:
            assert {"place", "trays", "room"} <= place.keys()


def test_jobs_of_one_week() -> None:
    week = run("jobs", TWELVE, "--week", "2027-W13", "--format", "json")
    data = json.loads(week.stdout)
    assert data["monday"] == "2027-03-29"
    assert all("2027-03-29" <= job["date"] <= "2027-04-04" for job in data["jobs"])
    same = run("jobs", TWELVE, "--today", "2027-04-01", "--format", "json")
    assert json.loads(same.stdout) == data


@pytest.mark.parametrize("args", [("jobs", FOUR, "--week", "99"), ("print", FOUR, "--today", "tomorrow")])
def test_options_that_make_no_sense(args: tuple[object, ...], tmp_path: Path) -> None:
    result = run(*args)
    assert result.exit_code == 2
    assert "Traceback" not in result.output


def test_csv_has_a_row_a_batch() -> None:
    rows = run("dates", FOUR, "--format", "csv").stdout.splitlines()
    batches = json.loads(run("dates", FOUR, "--format", "json").stdout)["batches"]
    assert len(rows) == len(batches) + 1


@pytest.mark.parametrize("command", ["new", "check", "print", "dates", "trays", "jobs", "crops"])
def test_help_has_an_example(command: str) -> None:
    result = run(command, "--help")
    assert result.exit_code == 0
    assert f"sowsheet {command} " in result.stdout


def test_new_writes_a_garden_that_prints(tmp_path: Path) -> None:
    folder = tmp_path / "my garden"
    result = run("new", folder, "--yes", "--today", "2026-11-25")
    assert result.exit_code == 0, result.output
    assert "sowsheet print" in result.stdout
    printed = run("print", folder / "garden.yaml", "--out", tmp_path / "sheets", "--strict")
    assert printed.exit_code == 0, printed.output
    again = run("new", folder, "--yes")
    assert again.exit_code == 2
    assert "is there already" in again.stderr


def test_crops_are_listed_and_shown() -> None:
    listed = run("crops").stdout
    for crop in ("leek", "lamb's lettuce", "winter squash", "spring onion"):
        assert crop in listed
    page = run("crops", "leek", "--sources").stdout
    assert "Allium" in page
    assert "practice" in page
    slip = run("crops", "leak")
    assert slip.exit_code == 2
    assert "leek" in slip.stderr


def test_the_version_needs_nothing_heavy() -> None:
    code = "import sys; sys.argv = ['sowsheet', '--version']; from sowsheet.__main__ import main; main();"
    code += "print([m for m in ('typer', 'reportlab', 'yaml', 'msgspec') if m in sys.modules])"
    command = [sys.executable, "-c", code]
    out = subprocess.run(command, check=True, capture_output=True, text=True).stdout
    assert out.splitlines()[0].startswith("sowsheet ")
    assert out.splitlines()[1] == "[]"


def test_readme_shows_the_garden_that_it_names() -> None:
    readme = (ROOT / "README.md").read_text(encoding="utf-8")
    block = readme.split("```yaml\n", 1)[1].split("```", 1)[0]
    assert block == FOUR.read_text(encoding="utf-8")


def readme_blocks() -> list[str]:
    """The garden files that README shows."""
    text = (ROOT / "README.md").read_text(encoding="utf-8")
    return [block.split("```", 1)[0] for block in text.split("```yaml\n")[1:]]


def test_readme_second_garden_is_sound(tmp_path: Path) -> None:
    (tmp_path / "garden.yaml").write_text(readme_blocks()[1], encoding="utf-8")
    (tmp_path / "own.yaml").write_text("crop: kale\nspace: {rows: 45 cm}\n", encoding="utf-8")
    result = run("check", tmp_path / "garden.yaml")
    assert result.exit_code == 0, result.output


KEYS = {
    *(read._NEEDED + read._MAY_BE_LEFT_OUT),
    *(site._KEYS + site._MONTHLY_KEYS),
    *(places._PLACE_KEYS + places._TRAY_KEYS),
    *(habits._KEYS + beds._KEYS),
}


@pytest.mark.parametrize("key", sorted(KEYS))
def test_readme_names_every_key(key: str) -> None:
    text = (ROOT / "README.md").read_text(encoding="utf-8")
    section = text.split("## What a garden file may say\n", 1)[1].split("\n## ", 1)[0]
    table, example = section.split("```yaml\n", 1)
    assert f"`{key}`" in table
    assert key in {"work days", "garden"} or f"{key}:" in example


def test_every_table_of_keys_is_looked_up() -> None:
    known = {
        key
        for module in (read, site, places, habits, beds)
        for name, value in vars(module).items()
        if name.endswith("KEYS") or name in ("_NEEDED", "_MAY_BE_LEFT_OUT")
        for key in value
    }
    assert known == KEYS


GARDEN = """\
garden: Tern Hollow
season: 2027
site: {latitude: 52.4, last frost: 10 May (average), first frost: 12 October (average)}
places:
  shelf: {for: germinating, held at: 20 C, room: 19 trays}
  yard: {for: hardening off}
beds are: 6 m x 1.2 m
beds:
  A: maybe lettuce mid-May, then leeks 10 July
"""


def written(folder: Path, *changes: tuple[str, str]) -> Path:
    """`GARDEN` with some of its words changed."""
    text = GARDEN
    for old, new in changes:
        assert old in text
        text = text.replace(old, new)
    path = folder / "garden.yaml"
    path.write_text(text, encoding="utf-8")
    return path


@pytest.mark.parametrize(
    ("old", "new", "told"),
    [
        ("10 May", "29 February", "last frost 29 February (average: later in half of all years)"),
        (
            "52.4, last frost: 10 May (average), first frost: 12 October",
            "37.5 S, last frost: 20 September (average), first frost: 29 February",
            "first frost 29 February (average: earlier in half of all years)",
        ),
    ],
)
def test_a_frost_on_a_leap_day(tmp_path: Path, old: str, new: str, told: str) -> None:
    result = run("check", written(tmp_path, (old, new)))
    assert result.exit_code == 0, result.output
    assert told in result.stdout


def shell(*args: object, out: int) -> tuple[int, str]:
    """The command in a process of its own, its answer going to `out`: exit code and stderr."""
    command = [sys.executable, "-m", "sowsheet", *(str(a) for a in args)]
    done = subprocess.run(command, stdout=out, stderr=subprocess.PIPE, text=True, check=False)
    return done.returncode, done.stderr


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="no full device here")
@pytest.mark.parametrize("how", ["table", "csv", "json"])
def test_an_answer_that_cannot_be_written_is_one_line(how: str) -> None:
    full = os.open("/dev/full", os.O_WRONLY)
    code, said = shell("dates", FOUR, "--format", how, out=full)
    os.close(full)
    assert code == 2
    assert len(said.splitlines()) == 1
    assert said.startswith("sowsheet: cannot write the answer")


@pytest.mark.skipif(os.name != "posix", reason="pipes end otherwise there")
@pytest.mark.parametrize("how", ["table", "csv", "json"])
def test_a_closed_pipe_ends_quietly(how: str) -> None:
    reader, writer = os.pipe()
    os.close(reader)
    code, said = shell("dates", FOUR, "--format", how, out=writer)
    os.close(writer)
    assert said == ""
    assert code == -signal.SIGPIPE


def test_maybe_is_marked_in_tables_and_csv(tmp_path: Path) -> None:
    path = written(tmp_path)
    lines = run("trays", path).stdout.splitlines()
    assert any("A lettuce (maybe)  " in line for line in lines)
    assert any("A leek  " in line for line in lines)
    assert any(" 0 + 2 maybe of 19 " in line for line in lines)
    head, *rows = csv.reader(run("trays", path, "--format", "csv").stdout.splitlines())
    told = {row[head.index("batch")]: row[head.index("maybe")] for row in rows}
    assert told == {"A lettuce": "yes", "A leek": ""}
    week = run("dates", path, "--format", "json").stdout
    sown = json.loads(week)["batches"][0]["stages"]["sow"]["date"]
    jobs = run("jobs", path, "--week", date.fromisoformat(sown).isocalendar().week).stdout
    assert "lettuce (maybe)  " in jobs


EDGE = """
garden: Edge
season: 2027
site: {latitude: 52.4, last frost: 10 May (average), first frost: 12 October (average)}
beds are: 6 m x 1.2 m
beds: {A: broad beans sown direct 2 January}
"""


def test_a_week_by_its_number_is_the_seasons(tmp_path: Path) -> None:
    path = tmp_path / "edge.yaml"
    path.write_text(EDGE, encoding="utf-8")
    assert "broad beans" in run("jobs", path, "--week", "53").stdout
    assert run("jobs", path, "--week", "53").stdout == run("jobs", path, "--week", "2026-W53").stdout
    south = run("jobs", ROOT / "out_examples" / "southern" / "garden.yaml", "--week", "2", "--format", "json").stdout
    assert json.loads(south)["monday"] == "2028-01-10"


def test_nothing_to_do_says_the_day_as_the_sheets_do() -> None:
    said = run("jobs", FOUR, "--today", "2026-11-25").stdout
    assert said == "Nothing to do in week 48, Monday 23 November 2026.\n"


def test_new_quotes_what_is_to_be_pasted(tmp_path: Path) -> None:
    said = run("new", tmp_path / "my garden", "--yes").stdout
    commands = [line.partition("sowsheet ")[2] for line in said.splitlines() if "sowsheet " in line]
    target = str(tmp_path / "my garden" / "garden.yaml")
    assert [shlex.split(c) for c in commands] == [["check", target], ["print", target]]


@pytest.mark.skipif(os.name != "posix", reason="no such terminals there")
def test_a_terminal_is_told_of_each_sheet_as_it_is_made(tmp_path: Path) -> None:
    path = written(tmp_path, ("mid-May", "1 March"))
    terminal, end = os.openpty()
    code, said = shell("print", path, "--out", tmp_path / "sheets", out=end)
    os.close(end)
    lines = os.read(terminal, 65536).decode().splitlines()
    os.close(terminal)
    assert (code, said) == (0, "")
    times = {
        words.split(":")[0]: int(ms)
        for ms, _, words in (line.strip().partition(" ms  ") for line in lines[: len(SHEETS) + 1])
    }
    assert all(times[name.value] >= 0 for name in SheetName)
    assert any(line.endswith("wall-chart: 1 page") for line in lines)
    assert all(str(tmp_path / "sheets" / name) in lines[len(SHEETS) + 1] for name in SHEETS)
    doubts = len(json.loads(run("dates", path, "--format", "json").stdout)["doubts"])
    assert doubts
    assert f"see `sowsheet check {path}`" in lines[len(SHEETS) + 2]


def test_days_that_are_no_work_days_are_one_line(tmp_path: Path) -> None:
    also = "sow also:\n  - 30 kale 15 May\n  - 30 kale mid-May\n"
    path = written(tmp_path, ("mid-May", "15 May"), ("beds are", f"{also}work days: Tuesday\nbeds are"))
    said = run("check", path).stdout
    days = "A headed lettuce Saturday 15 May; A leek Saturday 10 July; kale sown Saturday 15 May"
    assert f"  Not on a work day, as you wrote: {days}.\n" in said
    assert "no work day" not in said


@pytest.mark.parametrize("name", ["leak", "moonflower"])
def test_an_unknown_crop_says_how_to_list_and_to_add(name: str) -> None:
    said = run("crops", name).stderr
    assert "`sowsheet crops`" in said
    assert "`crops: own.yaml`" in said


def test_a_new_crop_file_is_begun_filled_in_and_never_written_over(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    begun = run("crops", "--new", "sea kale", "--raised", "set")
    assert begun.exit_code == 0
    assert "Written: sea-kale.yaml" in begun.stdout
    missing = run("crops", "sea-kale.yaml")
    assert missing.exit_code == 2
    assert "`what` is still empty" in missing.stderr
    again = run("crops", "--new", "sea kale")
    assert again.exit_code == 2
    assert "not touched" in again.stderr
    assert "the catalogue has `leek` already" in run("crops", "--new", "leek").stderr
    assert "is no name for a crop" in run("crops", "--new", "../leek").stderr


@pytest.mark.parametrize("garden", [None, "southern"])
def test_all_crops_are_printed_as_a_table(tmp_path: Path, garden: str | None) -> None:
    dated = [] if garden is None else ["--garden", ROOT / "out_examples" / garden / "garden.yaml"]
    assert run("crops", "--pdf", "--out", tmp_path, *dated).exit_code == 0
    document = pypdfium2.PdfDocument(tmp_path / "crops.pdf")
    text = "".join(page.get_textpage().get_text_range() for page in document)
    assert "Autumn-set onion" in text
    assert ("Saltbush Corner" in text) == (garden == "southern")


@pytest.mark.parametrize(
    ("option", "value", "cure"),
    [
        ("--distance", "far", "--distance '1 m'"),
        ("--distance", "9 m", "0.3 to 2 m on A3"),
        ("--weeks", "60", "weeks of the season 2027"),
        ("--weeks", "30-20", "weeks of the season 2027"),
        ("--labels", "9 x 9", "63.5 x 38.1 mm"),
    ],
)
def test_what_cannot_be_printed_so_is_told_with_what_can(option: str, value: str, cure: str, tmp_path: Path) -> None:
    result = run("print", FOUR, "wall-chart", option, value, "--out", tmp_path / "no")
    assert result.exit_code == 2
    assert cure in result.output
    assert not (tmp_path / "no").exists()


def test_letters_that_the_fonts_lack_are_told(tmp_path: Path) -> None:
    text = FOUR.read_text(encoding="utf-8").replace("Plover Yard", "Plover \u7551", 1)
    (tmp_path / "garden.yaml").write_text(text, encoding="utf-8")
    result = run("print", tmp_path / "garden.yaml", "wall-chart", "--out", tmp_path / "out")
    assert result.exit_code == 0
    assert "\u7551 (U+7551)" in result.output
    assert "lack" not in run("print", FOUR, "wall-chart", "--out", tmp_path / "plain").output


def test_large_job_sheets_and_some_weeks_of_labels(tmp_path: Path) -> None:
    run("print", FOUR, "job-sheets", "tray-labels", "--out", tmp_path / "usual")
    run("print", FOUR, "job-sheets", "tray-labels", "--large", "--weeks", "9-12", "--out", tmp_path / "other")
    usual, other = (
        [pypdfium2.PdfDocument(tmp_path / folder / f"{name}.pdf") for name in ("job-sheets", "tray-labels")]
        for folder in ("usual", "other")
    )
    assert len(other[0]) > len(usual[0])
    assert len(other[1]) < len(usual[1])
