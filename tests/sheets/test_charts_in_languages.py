"""The charts and the year in other languages: no English word, nothing over another thing, plurals by grammar."""

from __future__ import annotations

import re
from datetime import date
from io import BytesIO
from typing import get_args, get_type_hints

import msgspec
import pikepdf
import pytest

from sowsheet.cli.print_ import Printing, SheetName
from sowsheet.schedule.records import Amount, Cover, Gap
from sowsheet.sheets.bed_chart import LEGEND as BED_LEGEND
from sowsheet.sheets.chart_foot import LEGEND
from sowsheet.sheets.paint import pdf_bytes
from sowsheet.sheets.shapes import Sheet, Words
from sowsheet.sheets.spoken import place_said, sums_said, weeks
from sowsheet.sheets.view import Span, sheet_mark
from sowsheet.sheets.year_glance import DEEDS
from sowsheet.trays.records import PlaceWeek
from sowsheet.words.language import LANGUAGES, language_of
from tests.examples import plan
from tests.sheets.pages import collisions, outside

SHEETS = (SheetName.WALL_CHART, SheetName.BED_CHART, SheetName.YEAR)


def sheet_in(language: str, garden: str, name: SheetName) -> Sheet:
    whole = plan(garden)
    spoken = msgspec.structs.replace(whole, garden=msgspec.structs.replace(whole.garden, language=language))
    return Printing(spoken, "A3", date(2027, 9, 22)).sheet(name)


def words_of(sheet: Sheet) -> set[str]:
    """Every word that is printed or heard, in lower case."""
    texts = [sheet.title, *(mark for _, mark in sheet.bookmarks)]
    for page in sheet.pages:
        texts += [shape.text for shape in page.shapes if isinstance(shape, Words)]
        texts += [tag.words for tag in page.tags]
    return {word for text in texts for word in re.findall(r"[^\W\d_]{2,}", text.lower())}


ENGLISH = """
    sow sown plant plants pick picking clear hardening cover covered maybe nothing empty rests
    week weeks monday mondays year years sheet dates frost daylight mean first last tray trays room
    read for with the and in
"""


@pytest.mark.parametrize("name", SHEETS)
@pytest.mark.parametrize("garden", ["twelve-beds", "own-weather"])
@pytest.mark.parametrize("language", ["pl", "es"])
def test_a_chart_speaks_its_language_and_fits(language: str, garden: str, name: SheetName) -> None:
    english, sheet = sheet_in("en", garden, name), sheet_in(language, garden, name)
    known = set(ENGLISH.split())
    assert len(known & words_of(english)) > 10
    assert known & words_of(sheet) == set()
    assert list(outside(sheet)) == []
    assert [found for page in sheet.pages for found in collisions(page)] == []
    with pikepdf.open(BytesIO(pdf_bytes(sheet))) as pdf:
        assert str(pdf.Root.Lang) == language
    assert len(sheet.pages) == len(english.pages)


@pytest.mark.parametrize("tag", LANGUAGES)
def test_what_is_chosen_by_a_record_has_its_phrase(tag: str) -> None:
    phrases = language_of(tag).phrases
    units, kinds = (get_args(get_type_hints(r)[field]) for r, field in ((Amount, "unit"), (Cover, "kind")))
    gaps = get_args(get_type_hints(Gap)["what"])
    wanted = [f"unit.{unit}" for unit in units] + [f"spoken.under.{kind}" for kind in kinds]
    wanted += [f"{head}.{gap}" for gap in gaps for head in ("spoken.gap", "spoken.gap on", "bed chart.gap")]
    wanted += [f"{head}.{raised}" for head in ("chart.begun", "chart.begun for") for raised in ("tray", "drill", "set")]
    wanted += [f"{head}.{raised}" for head in ("spoken.direct", "spoken.direct in") for raised in ("drill", "set")]
    wanted += [f"chart.mark.{key}" for key in LEGEND] + [f"bed chart.mark.{key}" for key in BED_LEGEND]
    wanted += [f"year.deed.{deed}" for deed in DEEDS]
    assert len(wanted) > 50
    assert [key for key in wanted if key not in phrases] == []


def test_numbers_take_their_plural_and_weeks_their_order() -> None:
    polish, spanish, american = language_of("pl"), language_of("es"), language_of("en-US")
    assert [polish.say("unit.plants", n=n, number=n) for n in (1, 3, 12, 22)] == [
        "1 roślina",
        "3 rośliny",
        "12 roślin",
        "22 rośliny",
    ]
    assert [spanish.say("bench.room", n=n) for n in (1, 2)] == ["sitio para 1 bandeja", "sitio para 2 bandejas"]
    november, january = date(2026, 11, 4), date(2027, 1, 20)
    assert weeks(spanish, november, january, 2027) == "semana 45 de 2026 a semana 3"
    assert sums_said(polish, "Palety", [(date(2027, 3, 1), 2)], 2027) == "Palety: 2 (tydzień 9)."
    full = PlaceWeek("shelf", date(2027, 3, 1), 7, 6, 1.2, maybe=2)
    told = place_said(american, "shelf", 6, [full], 2027)
    assert told == "Shelf, room for 6 trays: 7 and maybe 2 in week 9 (over)."
    assert american.say("spoken.under.fleece", weeks="week 9") == "under row cover week 9"
    span = Span(date(2027, 3, 8), date(2027, 5, 31))
    assert sheet_mark(spanish, span, 0) == "Semanas 10 a 22, hoja 1"
