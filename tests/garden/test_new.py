"""The first garden file: read without mistakes, dated without doubts, on both halves of the world."""

from __future__ import annotations

from pathlib import Path

import pytest

from sowsheet.garden.new import first_garden
from sowsheet.garden.read import read_garden
from sowsheet.garden.records import Garden
from sowsheet.reading.mistakes import Mistake
from sowsheet.schedule.plan import schedule
from sowsheet.trays.plan import space_doubts, tray_plan
from tests.made import catalogue

SITES = [
    (52.4, "10 May", "12 October", "average"),
    (52.4, "29 May", "23 September", "safe"),
    (43.0, "15 April", "5 November", "average"),
    (60.0, "5 June", "5 September", "average"),
    (-37.5, "20 September", "25 May", "average"),
    (-43.0, "20 October", "1 May", "average"),
]


def written(folder: Path, text: str) -> Garden:
    """The garden of a first garden file, which has to be without mistakes."""
    path = folder / "garden.yaml"
    path.write_text(text, encoding="utf-8")
    mistakes: list[Mistake] = []
    garden = read_garden(path, catalogue().names, mistakes)
    assert mistakes == []
    assert garden is not None
    return garden


@pytest.mark.parametrize("season", [2026, 2027, 2028])
@pytest.mark.parametrize("site", SITES)
def test_sound_as_it_stands(tmp_path: Path, site: tuple[float, str, str, str], season: int) -> None:
    garden = written(tmp_path, first_garden("Tern Hollow", season, *site))
    assert 4 <= len(garden.beds) <= 6
    assert (garden.name, garden.season, garden.site.latitude) == ("Tern Hollow", season, site[0])
    assert garden.site.last_frost and garden.site.first_frost
    assert garden.site.last_frost.meaning == garden.site.first_frost.meaning == site[3]
    dated, mistakes = schedule(garden, catalogue().crop)
    assert mistakes == []
    assert [d.what for d in (*dated.doubts, *space_doubts(garden, tray_plan(dated, garden)))] == []


@pytest.mark.parametrize("name", ["Tern's Hollow", "Beds: a to d", "#1", "  two  words ", "- dash", "'quoted'", "12"])
def test_any_name_is_read_back(tmp_path: Path, name: str) -> None:
    garden = written(tmp_path, first_garden(name, 2027, 52.4, "10 May", "12 October", "average"))
    assert garden.name == " ".join(name.split())


def test_a_name_that_cannot_be_printed_is_cleaned(tmp_path: Path) -> None:
    garden = written(tmp_path, first_garden("Tern\t\x07🥕 Hollow", 2027, 52.4, "10 May", "12 October", "average"))
    assert garden.name == "Tern Hollow"


def test_frost_dates_may_be_unknown(tmp_path: Path) -> None:
    garden = written(tmp_path, first_garden("Tern Hollow", 2027, 52.4, "", "", "average"))
    assert (garden.site.last_frost, garden.site.first_frost) == (None, None)
