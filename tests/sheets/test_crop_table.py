"""The table of all crops: every kind once, nothing cut, and the dates that a plan would take."""

from __future__ import annotations

from datetime import date
from functools import cache
from itertools import pairwise

import pytest

from sowsheet.catalogue.records import Kind
from sowsheet.garden.records import Site
from sowsheet.schedule.kind_year import KindYear, Span, kind_year
from sowsheet.schedule.plan import context_of
from sowsheet.sheets.crop_rows import COLUMNS, NONE, CropRow, anchored_row, aside, columns, dated_row, foot
from sowsheet.sheets.crop_table import Heading, crop_table, kinds_counted
from sowsheet.sheets.paint import measure, unprintable
from sowsheet.sheets.shapes import Sheet, Words
from sowsheet.site.climate import climate_of
from sowsheet.words.language import capital, language_of
from tests.made import SOUTH, catalogue, garden, sound
from tests.sheets.pages import collisions, outside

ENGLISH = language_of("en")
PAPERS = ("A1", "A2", "A3", "A4", "Letter", "Tabloid")


def kinds() -> list[Kind]:
    return [kind for crop in catalogue().crops.values() for kind in crop.kinds]


@cache
def years(south: bool = False) -> dict[str, KindYear]:
    place = garden("leeks", mistakes=[], **({"site": SOUTH} if south else {}))  # type: ignore[arg-type]
    ctx = context_of(place, catalogue().crop)
    return {kind.name: kind_year(ctx, kind) for kind in kinds()}


@cache
def rows(which: str) -> tuple[CropRow, ...]:
    if which == "tied":
        return tuple(anchored_row(ENGLISH, kind, imperial=True) for kind in kinds())
    return tuple(dated_row(ENGLISH, year, imperial=which == "south") for year in years(which == "south").values())


@cache
def sheet_of(which: str, paper: str) -> Sheet:
    place = garden("leeks", mistakes=[])
    heading = Heading(
        ENGLISH,
        aside(ENGLISH, None if which == "tied" else place, climate_of(place)),
        foot(ENGLISH, None),
        columns(ENGLISH, which != "north"),
        date(2027, 3, 1),
    )
    return crop_table(rows(which), heading, paper, measure())


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("which", ["north", "south", "tied"])
def test_every_cell_stands_whole_on_paper_and_clear_of_its_neighbours(which: str, paper: str) -> None:
    sheet = sheet_of(which, paper)
    assert list(outside(sheet)) == []
    assert unprintable(sheet) == set()
    printed: list[str] = []
    for page in sheet.pages:
        assert collisions(page) == []
        printed += [shape.text for shape in page.shapes if isinstance(shape, Words)]
    whole = " ".join(printed)
    for row in rows(which):
        for cell in row.cells:
            assert all(word in whole for word in cell.split()), cell


def test_every_kind_has_its_line_and_its_crop_is_not_parted() -> None:
    assert {row.cells[0].partition(" (")[0] for row in rows("north")} == {capital(kind.name) for kind in kinds()}
    assert "Radicchio (chicory)" in {row.cells[0] for row in rows("north")}
    assert all(len(row.cells) == len(COLUMNS) for row in rows("north"))
    names = {row.cells[0]: row.crop for row in rows("north")}
    pages = [
        [names[s.text] for s in page.shapes if isinstance(s, Words) and s.face == "semi bold" and s.text in names]
        for page in sheet_of("north", "A4").pages
    ]
    for one, other in pairwise(pages):
        assert not set(one) & set(other)


def test_it_says_how_many() -> None:
    found = kinds_counted(ENGLISH, rows("north"))
    assert found == f"{len(catalogue().crops)} crops, {len(kinds())} kinds"


@pytest.mark.parametrize("name", ["leek", "headed lettuce", "tomato", "winter cabbage"])
def test_its_dates_are_those_that_a_plan_would_take(name: str) -> None:
    year = years()[name]
    first, last = year.planted[0].first, year.planted[0].last
    for day, sown in ((first, None), (last, year.sown[-1].last)):
        batch = sound(f"{name} {day.day} {day:%B}")[0]
        assert batch.kind.name == name
        assert batch.stages.plant is not None
        assert batch.stages.plant.day == day
        assert batch.stages.sow is not None
        assert year.sown[0].first <= batch.stages.sow.day <= year.sown[-1].last
        assert sown is None or not year.glass or batch.stages.sow.day <= sown


def test_tender_crops_wait_until_frost_is_unlikely() -> None:
    """Held out: the published windows of extension tables put tomatoes 1 to 2 weeks after the last frost."""
    assert date(2027, 5, 17) <= years()["tomato"].planted[0].first <= date(2027, 6, 7)


def test_a_garden_without_frost_dates_leaves_what_hangs_on_them_blank() -> None:
    place = garden("leeks 1 June", mistakes=[], site=Site(52.4))
    ctx = context_of(place, catalogue().crop)
    leek = next(kind for kind in kinds() if kind.name == "winter cabbage")
    tomato = next(kind for kind in kinds() if kind.crop == "tomato")
    assert kind_year(ctx, leek).planted  # hangs on midsummer
    assert kind_year(ctx, tomato).planted == ()
    assert dated_row(ENGLISH, kind_year(ctx, tomato), imperial=False).cells[6] == NONE


def test_spans_are_in_order_and_within_a_year() -> None:
    for south in (False, True):
        for name, year in years(south).items():
            for spans in (year.sown, year.planted, year.glass, year.direct, year.picked):
                for one in spans:
                    assert isinstance(one, Span)
                    assert 0 <= (one.last - one.first).days <= 400, f"{name}: {one}"
                assert list(spans) == sorted(spans, key=lambda s: s.first), name
