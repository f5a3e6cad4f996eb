"""The first garden file: read without mistakes, dated without doubts, on both halves of the world, in any language."""

from __future__ import annotations

import re
from functools import cache
from pathlib import Path

import pytest

from sowsheet.catalogue.catalogue import Catalogue
from sowsheet.cli.common import LanguageTag, plan_of
from sowsheet.garden.new import first_garden
from sowsheet.garden.read import read_garden
from sowsheet.garden.records import Garden
from sowsheet.reading.mistakes import Mistake
from sowsheet.reading.tokens import MONTHS
from sowsheet.schedule.plan import schedule
from sowsheet.trays.plan import space_doubts, tray_plan
from sowsheet.words.language import LANGUAGES, language_of
from tests import made
from tests.in_english import EN

SITES = [
    (52.4, "10 May", "12 October", "average"),
    (52.4, "29 May", "23 September", "safe"),
    (43.0, "15 April", "5 November", "average"),
    (60.0, "5 June", "5 September", "average"),
    (-37.5, "20 September", "25 May", "average"),
    (-43.0, "20 October", "1 May", "average"),
]


@cache
def catalogue(tag: str = "en") -> Catalogue:
    """The whole shipped catalogue in a language, read once."""
    return made.catalogue() if tag == "en" else Catalogue.open([], language=tag).load(None, [])


def written(folder: Path, text: str, tag: str = "en") -> Garden:
    """The garden of a first garden file, which has to be without mistakes."""
    path = folder / "garden.yaml"
    path.write_text(text, encoding="utf-8")
    mistakes: list[Mistake] = []
    garden = read_garden(path, catalogue(tag).names, mistakes)
    assert mistakes == []
    assert garden is not None
    return garden


@pytest.mark.parametrize("season", [2026, 2027, 2028])
@pytest.mark.parametrize("site", SITES)
@pytest.mark.parametrize("tag", LANGUAGES)
def test_sound_as_it_stands(tmp_path: Path, tag: str, site: tuple[float, str, str, str], season: int) -> None:
    garden = written(tmp_path, first_garden("Tern Hollow", season, *site, language_of(tag)), tag)
    assert garden.language == tag
    assert 4 <= len(garden.beds) <= 6
    assert (garden.name, garden.season, garden.site.latitude) == ("Tern Hollow", season, site[0])
    assert garden.site.last_frost and garden.site.first_frost
    assert garden.site.last_frost.meaning == garden.site.first_frost.meaning == site[3]
    dated, mistakes = schedule(garden, catalogue(tag).crop)
    assert mistakes == []
    assert [d.what for d in (*dated.doubts, *space_doubts(garden, tray_plan(dated, garden)))] == []


@pytest.mark.parametrize("name", ["Tern's Hollow", "Beds: a to d", "#1", "  two  words ", "- dash", "'quoted'", "12"])
def test_any_name_is_read_back(tmp_path: Path, name: str) -> None:
    garden = written(tmp_path, first_garden(name, 2027, 52.4, "10 May", "12 October", "average", EN))
    assert garden.name == " ".join(name.split())


def test_a_name_that_cannot_be_printed_is_cleaned(tmp_path: Path) -> None:
    garden = written(tmp_path, first_garden("Tern\t\x07🥕 Hollow", 2027, 52.4, "10 May", "12 October", "average", EN))
    assert garden.name == "Tern Hollow"


def test_frost_dates_may_be_unknown(tmp_path: Path) -> None:
    garden = written(tmp_path, first_garden("Tern Hollow", 2027, 52.4, "", "", "average", EN))
    assert (garden.site.last_frost, garden.site.first_frost) == (None, None)


@pytest.mark.parametrize("tag", ["pl", "es"])
def test_only_what_the_file_has_one_word_for_is_english(tag: str) -> None:
    """Comments, names and crops are the reader's: the two files have only keys and the plan's own words in common."""
    other = set(re.findall(r"[^\W\d_]{3,}", first_garden("A", 2027, 60, "", "", "average", language_of(tag))))
    ours = set(re.findall(r"[^\W\d_]{3,}", first_garden("A", 2027, 60, "", "", "average", EN)))
    vocabulary = """Sowsheet sowsheet check print yaml garden season site latitude last first frost average safe
        temperatures min max places for germinating growing hardening off held under unheated glass indoors outdoors
        room trays cells pots size cell volume owned work days Tuesday Saturday house spare fleece weeks beds are
        sow also planted since there then maybe when free rows row sown direct nothing and early mid late
        idea"""  # the last is Spanish too
    assert ours & other - {*vocabulary.split(), *(month.title() for month in MONTHS)} == set()


def test_a_first_garden_in_one_language_is_printed_in_another(tmp_path: Path) -> None:
    path = tmp_path / "garden.yaml"
    path.write_text(first_garden("A", 2027, *SITES[0], language_of("pl")), encoding="utf-8")
    plan = plan_of(path, LanguageTag.ES)
    assert plan.doubts == ()
    assert {"lechugas acogolladas", "ajos de otoño"} <= {batch.word for batch in plan.schedule.batches}
