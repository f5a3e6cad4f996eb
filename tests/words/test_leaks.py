"""Whatever is printed or shown is made of phrases: in a language of Greek letters no English word is left."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date
from functools import cache

import msgspec
import pytest

from sowsheet.buying.list import shopping_list
from sowsheet.catalogue.catalogue import Catalogue
from sowsheet.catalogue.kind_rows import rows_of
from sowsheet.catalogue.records import Kind
from sowsheet.cli.common import Plan
from sowsheet.cli.frost import USUAL_C
from sowsheet.cli.print_ import Printing, SheetName
from sowsheet.exports.shopping import shopping_rows
from sowsheet.exports.why import why_lines
from sowsheet.schedule.kind_year import kind_year
from sowsheet.schedule.plan import context_of
from sowsheet.sheets.crop_rows import anchored_row, aside, columns, dated_row, foot
from sowsheet.sheets.crop_table import Heading, crop_table, kinds_counted
from sowsheet.sheets.frost_sheet import frost_sheet
from sowsheet.sheets.paint import measure
from sowsheet.sheets.poster_grid import grid_of
from sowsheet.site.frosts import frosts
from sowsheet.words.language import language_of
from tests.examples import GARDENS, ROOT
from tests.made import catalogue
from tests.words.pseudo import leaks, names_of, plan_in, pseudo, said_on, words_of

GREEK = pseudo(language_of("en"))


@cache
def plan(garden: str) -> Plan:
    return plan_in(GREEK, ROOT / "out_examples" / garden / "garden.yaml")


def kinds() -> list[Kind]:
    return [kind for crop in catalogue().crops.values() for kind in crop.kinds]


def test_a_leak_is_seen() -> None:
    said = ["Σοω 5 cm", "{what} is late", "`sowsheet check`", "Glass 1", "12 in", "12 in May", "Lett… here"]
    assert leaks(said, ["Glass 1", "what"]) == ["May", "here", "is", "late"]
    assert GREEK.say("tray plan.week", week=9) == "Τραϋσ, ωεεκ 9"


@pytest.mark.parametrize("name", SheetName)
@pytest.mark.parametrize("garden", GARDENS)
def test_a_sheet_is_made_of_phrases(garden: str, name: SheetName) -> None:
    whole = plan(garden)
    sheet = Printing(whole, "A3", date(2027, 2, 1)).sheet(name)
    assert leaks(said_on(sheet), names_of(whole)) == []
    assert sheet.language == "el"


@pytest.mark.parametrize(("name", "grid"), [("wall-chart", "3x2"), ("bed-chart", "2x1"), ("year-at-a-glance", "2x2")])
def test_a_poster_is_made_of_phrases(name: str, grid: str) -> None:
    whole, sheets = plan("twelve-beds"), grid_of(grid, "A4")
    assert sheets is not None
    sheet = Printing(whole, "A4", date(2027, 2, 1)).poster(SheetName(name), sheets)
    assert leaks(said_on(sheet), names_of(whole)) == []
    assert sheet.language == "el"


def test_the_shopping_table_is_made_of_phrases() -> None:
    whole = plan("twelve-beds")
    rows = shopping_rows(shopping_list(whole.garden, whole.schedule, whole.trays), whole.garden)
    assert leaks((cell for row in rows for cell in row), names_of(whole)) == []


def test_the_frost_page_is_made_of_phrases() -> None:
    whole = plan("own-weather")
    record = whole.schedule.climate.record
    assert record is not None
    record = msgspec.structs.replace(record, file="station.csv")
    told = [frosts(record, threshold, False) for threshold in USUAL_C]
    sheet = frost_sheet(record, told, told[0], "A4", measure(), GREEK)
    # what is to be written into the garden file is its own vocabulary
    own = ["station.csv", "last frost: 1 April (average)", "first frost: 1 November (average)"]
    assert leaks(said_on(sheet), own) == []


@pytest.mark.parametrize("dated", [True, False])
def test_the_crop_table_is_made_of_phrases(dated: bool) -> None:
    garden = plan("twelve-beds").garden
    ctx = context_of(garden, catalogue().crop)
    shown, climate = (garden, ctx.climate) if dated else (None, None)
    rows = [
        dated_row(GREEK, kind_year(ctx, kind), False) if dated else anchored_row(GREEK, kind, False) for kind in kinds()
    ]
    said = f"{aside(GREEK, shown, climate)}; {kinds_counted(GREEK, rows)}"
    heading = Heading(GREEK, said, foot(GREEK, climate), columns(GREEK, False), date(2027, 2, 1))
    sheet = crop_table(rows, heading, "A3", measure())
    assert leaks(said_on(sheet), [garden.name, *(name for kind in kinds() for name in (kind.name, kind.crop))]) == []


def test_the_page_of_every_crop_is_made_of_phrases() -> None:
    for kind in kinds():
        rows = rows_of(GREEK, kind)
        said = (text for row in rows for text in (row.heading, row.label, row.text))
        assert leaks(said, words_of(kind)) == [], kind.name


def test_how_days_become_warmth_is_made_of_phrases() -> None:
    assert leaks(why_lines(kinds(), GREEK), (kind.name for kind in kinds())) == []


@pytest.mark.parametrize("language", ["pl", "es"])
def test_a_list_of_crops_is_in_the_order_of_its_alphabet(language: str) -> None:
    names = [crop.kinds[0].name for crop in Catalogue.open([], language=language).load(None, []).in_order]
    assert _before(names, {"pl": ("brukiew", "buraki ćwikłowe"), "es": ("ajos de otoño", "albahaca")}[language])
    words = language_of(language)
    alike = {"pl": ["cukinia", "ćma", "dynia", "lak", "łan"], "es": ["ánade", "ananás", "nuez", "ñame", "ocra"]}
    assert sorted(alike[language], key=words.sort_key) == alike[language]


def _before(names: Iterable[str], pair: tuple[str, str]) -> bool:
    found = list(names)
    return found.index(pair[0]) < found.index(pair[1])
