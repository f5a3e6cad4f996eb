"""What is taken for granted has a name in the file's language, and changes it with `--language`."""

from __future__ import annotations

from pathlib import Path

import pytest

from sowsheet.cli.common import LanguageTag, plan_of
from sowsheet.exports.tell import told_back
from sowsheet.schedule.records import Batch

TEXT = """\
garden: Tern Hollow
season: 2027
site: {{latitude: 52.4, last frost: 10 May (average), first frost: 12 October (average)}}
beds are: 6 m x 1.2 m
{more}beds:
  North 1: {line}
"""


def planned(
    folder: Path, line: str, more: str = "", language: LanguageTag | None = None
) -> tuple[list[str], list[Batch], str]:
    """The names of a garden's places, its batches, and all that `check` tells."""
    path = folder / "garden.yaml"
    path.write_text(TEXT.format(line=line, more=more), encoding="utf-8")
    plan = plan_of(path, language)
    told = "\n".join(told_back(plan.garden, plan.schedule, plan.doubts, plan.noticed))
    return [place.name for place in plan.garden.places], list(plan.schedule.batches), told


def test_places_have_names_of_the_files_language(tmp_path: Path) -> None:
    line = "sałata 15 May raised at the ciepła półka and podwórze"
    places, (batch,), _ = planned(tmp_path, line, "language: pl\n")
    assert places == ["ciepła półka", "stół w szklarni", "podwórze"]
    assert batch.route[0] == "ciepła półka"


@pytest.mark.parametrize("written", ["en", "pl"])
def test_places_that_a_line_names_change_with_the_language(tmp_path: Path, written: str) -> None:
    shelf = {"en": "warm shelf", "pl": "ciepła półka"}[written]
    line, more = f"lettuce 15 May raised at the {shelf}", f"language: {written}\n"
    places, (batch,), _ = planned(tmp_path, line, more, LanguageTag.ES)
    assert places == ["estante caliente", "mesa del invernadero", "patio"]
    assert batch.route == ("estante caliente", "mesa del invernadero", "patio")


def test_a_place_of_the_growers_keeps_its_name_and_takes_none_away(tmp_path: Path) -> None:
    more = "language: pl\nplaces: {patio: {for: growing on, under: polytunnel}}\n"
    assert planned(tmp_path, "lettuce 15 May", more)[0] == ["patio", "ciepła półka", "podwórze"]
    there = planned(tmp_path, "lettuce 15 May", more, LanguageTag.ES)[0]
    assert there == ["patio", "estante caliente", "patio para endurecer"]


@pytest.mark.parametrize("language", [LanguageTag.PL, LanguageTag.ES])
def test_no_tray_that_is_taken_for_granted_has_its_english_name(tmp_path: Path, language: LanguageTag) -> None:
    told = planned(tmp_path, "lettuce 15 May, then tomatoes", language=language)[2]
    assert {"pl": "60 komórek", "es": "60 alvéolos"}[language] in told
    assert not any(word in told for word in ("60-cell", "9 cm pots", "seed tray", "warm shelf"))
