"""The year on one page for the pocket: every sowing on it, nothing over another thing, folded between the quarters."""

from __future__ import annotations

from datetime import date

import msgspec
import pytest
from hypothesis import given
from hypothesis import strategies as st

from sowsheet.garden.records import Garden, Site
from sowsheet.schedule.plan import schedule
from sowsheet.sheets.shapes import Sheet
from sowsheet.sheets.year_glance import year_glance
from tests.examples import GARDENS, plan
from tests.made import NORTH, SOUTH, catalogue, garden
from tests.sheets.any_garden import BED_NAMES, FEW, LINES
from tests.sheets.pages import WIDTH, collisions, outside, texts, unprintable


def page_of(made: Garden, paper: str = "A4", printed_on: date | None = None) -> Sheet:
    dated, _ = schedule(made, catalogue().crop)
    return year_glance(dated, made, paper, WIDTH, printed_on)


@pytest.mark.parametrize("paper", ["A4", "Letter"])
@pytest.mark.parametrize("name", GARDENS)
def test_nothing_lies_outside_or_over_another_thing_or_a_fold(name: str, paper: str) -> None:
    sheet = year_glance(plan(name).schedule, plan(name).garden, paper, WIDTH, date(2026, 11, 25))
    (page,) = sheet.pages
    assert list(outside(sheet)) == []
    assert collisions(page) == []
    assert not [t.text for t in texts(page) if t.left < page.width / 2 < t.right]
    assert not [t.text for t in texts(page) if t.top < page.height / 2 < t.bottom]


@pytest.mark.parametrize("name", GARDENS)
def test_every_sowing_is_on_it_in_its_week(name: str) -> None:
    (page,) = year_glance(plan(name).schedule, plan(name).garden, "A4", WIDTH, None).pages
    said = " ".join(t.text for t in texts(page))
    season = plan(name).schedule.season
    for batch in plan(name).schedule.batches:
        if batch.raised == "tray" and batch.stages.sow and season.start <= batch.stages.sow.day <= season.end:
            week = batch.stages.sow.day.isocalendar().week
            assert f" {week} " in f" {said} ", batch.name
            assert batch.word.split()[0].lower() in said.lower()


@pytest.mark.parametrize(
    ("season", "line", "head", "deed"),
    [
        (2027, "broad beans sown direct 2 January", "weeks 53 to 4, Mondays 28, 4, 11, 18, 25", "53 Broad beans"),
        (2024, "broad beans sown direct 31 December", "weeks 49 to 1, Mondays 2, 9, 16, 23, 30", "1 Broad beans"),
    ],
)
def test_a_week_over_new_year_is_in_the_month_at_its_side(season: int, line: str, head: str, deed: str) -> None:
    (page,) = page_of(garden(line, mistakes=[], season=season)).pages
    said = " ".join(" ".join(t.text for t in texts(page)).split())
    assert head in said
    assert f"Beds {deed}" in said


@FEW
@given(
    st.lists(LINES, min_size=1, max_size=40),
    BED_NAMES,
    st.sampled_from([NORTH, SOUTH, Site(52.4)]),
    st.sampled_from([2026, 2027]),
    st.sampled_from(["A4", "Letter"]),
)
def test_any_garden_has_one_page(lines: list[str], bed: str, site: Site, season: int, paper: str) -> None:
    made = garden(*lines, mistakes=[], site=site, season=season, also=("40 lettuce every week April to August",))
    sheet = page_of(msgspec.structs.replace(made, name=f"{bed} · {bed} · {bed}"), paper, date(2026, 12, 31))
    (page,) = sheet.pages
    assert list(outside(sheet)) == []
    assert unprintable(sheet) == set()
    assert collisions(page) == []


def test_what_does_not_fit_is_counted() -> None:
    lines = [f"kale (n{n}, a long name to fill the page with) 1 May, then spinach (m{n}) 20 August" for n in range(150)]
    (page,) = page_of(garden(*lines, mistakes=[])).pages
    assert any("more line" in t.text and "wall chart" in t.text for t in texts(page))
    assert collisions(page) == []


def test_a_southern_year_begins_in_july() -> None:
    (page,) = year_glance(plan("southern").schedule, plan("southern").garden, "Letter", WIDTH, None).pages
    months = [t.text for t in texts(page) if t.text in ("July", "June", "January")]
    assert months == ["July", "January", "June"]
