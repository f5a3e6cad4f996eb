"""Cards, labels, and charts of any weeks in any order, of gardens that nobody has thought of."""

from __future__ import annotations

from functools import cache

import msgspec
import pytest
from hypothesis import given
from hypothesis import strategies as st

from sowsheet.buying.list import shopping_list
from sowsheet.garden.records import Garden, Site
from sowsheet.jobs.make import jobs
from sowsheet.schedule.plan import schedule
from sowsheet.schedule.records import Schedule
from sowsheet.sheets import tray_plan as tray_sheet
from sowsheet.sheets.bed_chart import bed_chart
from sowsheet.sheets.furniture import MM
from sowsheet.sheets.job_sheets import job_sheets
from sowsheet.sheets.shapes import Sheet
from sowsheet.sheets.shopping_sheet import shopping_sheet
from sowsheet.sheets.tray_labels import grid_of, tray_labels
from sowsheet.sheets.view import Order, View, spans_of
from sowsheet.sheets.wall_chart import wall_chart
from sowsheet.sheets.weekend_card import weekend_cards
from sowsheet.trays.plan import tray_plan
from sowsheet.trays.records import TrayPlan
from tests.made import NORTH, SOUTH, catalogue, garden
from tests.sheets.any_garden import BED_NAMES, FEW, LINES
from tests.sheets.pages import WIDTH, collisions, outside, unprintable, written_over

ORDERS: tuple[Order, ...] = ("sowing", "bed", "crop", "place")
SITES = st.sampled_from([NORTH, SOUTH, Site(52.4)])
LISTS = st.lists(LINES, min_size=1, max_size=12)
SEASONS = st.sampled_from([2026, 2027, 2032])  # of 53 weeks, of 52, and after a leap day


LANGUAGES = st.sampled_from(["en", "pl", "es"])


@cache
def made(
    lines: tuple[str, ...], bed: str, site: Site, season: int, language: str = "en"
) -> tuple[Schedule, TrayPlan, Garden]:
    also = ("40 lettuce every 2 weeks May to July",)
    grown = garden(*lines, mistakes=[], site=site, season=season, also=also)
    beds = tuple(msgspec.structs.replace(b, name=f"{bed} {n}") for n, b in enumerate(grown.beds, 1))
    grown = msgspec.structs.replace(grown, beds=beds, name=f"{bed} · {bed}", language=language)
    dated, _ = schedule(grown, catalogue().crop)
    return dated, tray_plan(dated, grown), grown


def clean(sheet: Sheet, margin: float = 10 * MM) -> None:
    assert list(outside(sheet, margin)) == []
    assert unprintable(sheet) == set()
    for page in sheet.pages:
        assert collisions(page) == []


@FEW
@given(LISTS, BED_NAMES, SITES, SEASONS, st.sampled_from(["A4", "Letter"]), LANGUAGES)
def test_cards_and_labels(lines: list[str], bed: str, site: Site, season: int, paper: str, language: str) -> None:
    dated, trays, grown = made(tuple(lines), bed, site, season, language)
    clean(weekend_cards(dated, trays, grown, paper, WIDTH))
    for size in ("", "125 x 16", "38 x 20"):
        clean(tray_labels(dated, trays, grown, paper, WIDTH, grid=grid_of(size, paper)), 5 * MM)


@FEW
@given(LISTS, BED_NAMES, SITES, SEASONS, st.sampled_from(["A3", "Letter"]), LANGUAGES)
def test_job_sheets_tray_plan_and_shopping_list(
    lines: list[str], bed: str, site: Site, season: int, paper: str, language: str
) -> None:
    dated, trays, grown = made(tuple(lines), bed, site, season, language)
    told = jobs(dated, trays, grown)
    for large in (False, True):
        sheet = job_sheets(dated, trays, told, grown, paper, WIDTH, None, large)
        clean(sheet)
    clean(tray_sheet.tray_plan(dated, trays, told, grown, paper, WIDTH, None))
    clean(shopping_sheet(shopping_list(grown, dated, trays), grown, dated.season.years, paper, WIDTH, None))


@FEW
@given(
    LISTS,
    BED_NAMES,
    SITES,
    SEASONS,
    st.sampled_from(ORDERS),
    st.sampled_from(["half", "quarter"]),
    st.sampled_from([0.7, 1.0, 1.4]),
    LANGUAGES,
)
def test_charts_of_some_weeks(
    lines: list[str], bed: str, site: Site, season: int, order: Order, weeks: str, far: float, language: str
) -> None:
    dated, trays, grown = made(tuple(lines), bed, site, season, language)
    view = View(far, order, spans_of(weeks, dated.season) or ())
    for sheet in (
        wall_chart(dated, trays, grown, "A3", WIDTH, None, view=view),
        bed_chart(dated, trays, grown, "A3", WIDTH, None, view),
    ):
        clean(sheet)
        for page in sheet.pages:
            assert list(written_over(page)) == []


@pytest.mark.parametrize("paper", ["A4", "A1"])
def test_three_hundred_batches(paper: str) -> None:
    lines = [f"lettuce (n{n}) 1 May, then kale (k{n}) mid-July, then lamb's lettuce mid-October" for n in range(100)]
    dated, trays, grown = made(tuple(lines), "Plot", NORTH, 2026)
    assert len(dated.batches) >= 300
    clean(weekend_cards(dated, trays, grown, paper, WIDTH))
    clean(tray_labels(dated, trays, grown, paper, WIDTH), 5 * MM)
    clean(bed_chart(dated, trays, grown, paper, WIDTH, None))
    for order in ORDERS:
        clean(wall_chart(dated, trays, grown, paper, WIDTH, None, view=View(order=order)))
