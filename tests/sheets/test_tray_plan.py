"""The tray plan as it lies by the bench: sums, the shared tray, moves, room."""

from __future__ import annotations

import re
from collections import Counter
from datetime import date

import msgspec
import pytest

from sowsheet.buying.list import shopping_list
from sowsheet.garden.records import Place, Room
from sowsheet.jobs.make import jobs
from sowsheet.reading.mistakes import Mistake
from sowsheet.schedule.plan import schedule as dated
from sowsheet.sheets.furniture import MM
from sowsheet.sheets.room import window_around
from sowsheet.sheets.shapes import Box, Page, Sheet, Words
from sowsheet.sheets.tray_plan import MOVES, TRAY_LONG, tray_plan
from sowsheet.site.season import monday_of
from sowsheet.trays.plan import tray_plan as trays_of
from sowsheet.trays.records import SharedTray, TrayPart
from tests import made
from tests.sheets.pages import (
    WIDTH,
    collisions,
    outside,
    printed_outside,
    read,
    smallest_box,
    texts,
    tick_boxes,
    unprintable,
)
from tests.sheets.sample_trays import BENCH, garden, sample
from tests.sheets.test_job_sheets import PLANS, Plan

WARM = Place("shelf", ("germinating",), Room(trays=9), held_at_c=20.0)


def sheet_of(plan: Plan, paper: str = "A4") -> Sheet:
    schedule, trays, place = plan
    return tray_plan(schedule, trays, jobs(*plan), place, paper, WIDTH, date(2027, 2, 1))


@pytest.fixture(scope="module", params=[(name, paper) for name in PLANS for paper in ("A4", "Tabloid")], ids=str)
def sheet(request: pytest.FixtureRequest) -> Sheet:
    name, paper = request.param
    return sheet_of(PLANS[name](), paper)


@pytest.fixture(scope="module")
def plain() -> Sheet:
    return sheet_of(sample())


def page_of(sheet: Sheet, week: int) -> Page:
    """The first page of a week."""
    return next(p for p in sheet.pages if any(t.text == f"Trays, week {week}" for t in texts(p)))


def said(page: Page) -> str:
    return " ".join(" ".join(t.text for t in texts(page)).split())


def test_nothing_lies_outside_the_margins(sheet: Sheet) -> None:
    assert list(outside(sheet)) == []


def test_nor_does_the_pdf_itself() -> None:
    assert list(printed_outside(sheet_of(sample()), pages=6)) == []


def test_nothing_runs_into_anything(sheet: Sheet) -> None:
    assert [pair for page in sheet.pages for pair in collisions(page)] == []


def test_every_letter_can_be_printed_and_boxes_are_7_mm(sheet: Sheet) -> None:
    assert unprintable(sheet) == set()
    assert smallest_box(sheet) >= 7 - 1e-6


def test_what_is_sown_and_moved_is_14_pt(plain: Sheet) -> None:
    found = [word for words in read(plain, pages=4) for word in words]
    assert min(size for _, size in found) >= 10
    assert {size for text, size in found if text in {"Onions", "440,", "airing"}} == {14.0}
    assert all(size >= 12 for text, size in found if text in {"clumps", "spare"})


def test_a_box_for_each_sowing_and_each_move(plain: Sheet) -> None:
    schedule, trays, place = sample()
    moves = [j for j in jobs(schedule, trays, place) if j.verb in MOVES]
    assert sum(len(tick_boxes(page)) for page in plain.pages) == len(trays.sowings) + len(moves)
    dashed = [b for page in plain.pages for b in tick_boxes(page) if b.dashed]
    assert len(dashed) == sum(s.maybe for s in trays.sowings) + sum(j.maybe for j in moves)


def test_weeks_without_work_have_no_page_and_are_named(plain: Sheet) -> None:
    schedule, trays, place = sample()
    worked = {s.monday for s in trays.sowings} | {
        monday_of(j.day) for j in jobs(schedule, trays, place) if j.verb in MOVES
    }
    titles = {int(t.text.rsplit(" ", 1)[1]) for p in plain.pages for t in texts(p) if t.text.startswith("Trays, week")}
    assert titles == {m.isocalendar().week for m in worked}
    assert "Nothing to sow or move in weeks 29 to 31." in said(page_of(plain, 28))


@pytest.mark.parametrize(
    ("week", "words"),
    [
        (6, "4 rows of 20 = 80 clumps + 8 spare = 88 cells, 2 trays of 60, 32 cells left. For South 1."),
        (7, "80 plants + 8 spare = 88; 15 % come up empty: 104 cells, 2 trays of 60, 16 cells left."),
        (9, "136 clumps + 14 spare = 150 cells, 2 full trays and 30 cells of a shared tray."),
        (9, "22 plants + 3 spare = 25 cells, 25 cells in the last tray of beetroot. For North 2."),
        (10, "68 plants + 7 spare = 75 to prick out."),
        (6, "2 of 60 88 440, 5 to a cell airing shelf"),
    ],
)
def test_sums_can_be_followed_by_hand(plain: Sheet, week: int, words: str) -> None:
    assert words in said(page_of(plain, week))


def test_every_sum_adds_up(plain: Sheet) -> None:
    """Read from the paper: places + spare = wanted; cells = full trays' cells - left."""
    found = 0
    for page in plain.pages:
        for places, spare, cells in re.findall(r"(\d+) (?:plants|clumps) \+ (\d+) spare = (\d+) cells", said(page)):
            assert int(places) + int(spare) == int(cells)
            found += 1
        for cells, trays, size, left in re.findall(r"(\d+) cells, (\d+) trays? of (\d+), (\d+) cells left", said(page)):
            assert int(trays) * int(size) - int(left) == int(cells)
            found += 1
    assert found > 15


def test_trays_to_sow_are_those_of_the_plan(plain: Sheet) -> None:
    _, trays, _ = sample()
    week = sum(s.trays for s in trays.sowings if s.monday == date(2027, 3, 1) and not s.maybe)
    assert f"Sow: {week} trays" in said(page_of(plain, 9))


def cells_of(page: Page) -> list[Box]:
    """The cells of a shared tray's picture: small round squares inside its rim."""
    rim = next(s for s in page.shapes if isinstance(s, Box) and abs(s.width - TRAY_LONG) < 0.01)
    return [
        s
        for s in page.shapes
        if isinstance(s, Box)
        and s.radius
        and s.fill is None
        and s.line_pt == 0.6
        and rim.x < s.x < rim.x + rim.width
        and rim.y < s.y < rim.y + rim.height
    ]


def seeds_in(page: Page, cell: Box) -> tuple[int, int]:
    """Full dots and rings inside a cell."""
    marks = [
        s
        for s in page.shapes
        if isinstance(s, Box)
        and s.width < cell.width / 2
        and cell.x < s.x < cell.x + cell.width
        and cell.y < s.y < cell.y + cell.height
    ]
    return sum(s.fill == 0.0 for s in marks), sum(s.fill is None for s in marks)


def test_a_shared_tray_has_its_cells_and_each_batch_its_own(plain: Sheet) -> None:
    page = page_of(plain, 9)
    cells = cells_of(page)
    assert len(cells) == 60
    assert len({round(c.x, 2) for c in cells}) == 10
    assert len({round(c.y, 2) for c in cells}) == 6
    counted = Counter(seeds_in(page, cell) for cell in cells)
    assert counted == {(4, 0): 30, (0, 1): 25, (0, 0): 5}
    # the first five rows, counted along the tray, are the owner's
    columns = sorted({round(c.x, 2) for c in cells})
    assert all(seeds_in(page, c) == (4, 0) for c in cells if round(c.x, 2) <= columns[4])
    words = said(page)
    assert "rows 1 to 5: 30 cells, 4 seeds to a cell" in words
    assert "rows 6 to 9 and 1 cell of row 10: 25 cells, 1 seed to a cell" in words
    assert "5 cells left empty" in words


@pytest.mark.parametrize("cells", [6, 24, 37, 104, 150, 336])
def test_any_tray_can_be_drawn(cells: int) -> None:
    schedule, trays, place = sample()
    half = cells // 2
    parts = (TrayPart("South 3 beetroot", half, 9), TrayPart("North 2 lettuce", cells - half - 1, 2))
    tray = SharedTray(date(2027, 3, 1), "South 3 beetroot", "60-cell", cells, parts)
    sheet = sheet_of((schedule, msgspec.structs.replace(trays, shared=(tray,)), place))
    page = page_of(sheet, 9)
    drawn = cells_of(page)
    assert len(drawn) == cells
    assert all(b.width > 2 * MM for b in drawn)
    assert collisions(page) == []


def test_what_moves_says_from_where_to_where(plain: Sheet) -> None:
    words = said(page_of(plain, 13))
    assert "27 tomatoes pot on into 2 trays of 18 (9 cm pots); wash the trays" in words
    assert "2 trays of lettuce plant out in South 2; wash the trays" in words
    assert "2 trays of onions from seed glasshouse bench to yard, to harden" in words


def test_room_is_counted_and_what_is_over_is_said(plain: Sheet) -> None:
    _, trays, _ = sample()
    page = page_of(plain, 10)
    over = {w.monday.isocalendar().week: w for w in trays.weeks if w.place == BENCH and w.filled > 1}
    assert sorted(over) == [11, 12]
    assert "Weeks 11 and 12: 3 trays too many on the glasshouse bench." in said(page)
    assert "First to leave it: lettuce, 2 trays, Tuesday 23 March." in said(page)
    black = [s for s in page.shapes if isinstance(s, Box) and s.fill == 0.0 and s.stroke == 0.0 and s.width > 20]
    assert len(black) == 2
    numbers = [s.text for s in page.shapes if isinstance(s, Words) and s.plate]
    shown = [
        str(w.trays) for w in trays.weeks if w.monday in window_around(trays.mondays, [date(2027, 3, 8)]) and w.trays
    ]
    assert sorted(numbers) == sorted(shown)


def test_the_room_line_is_where_the_room_ends(plain: Sheet) -> None:
    """A bar of 6 on a shelf of 6 would touch it: heights are as the counts, to a tenth of a point."""
    _, trays, _ = sample()
    page = page_of(plain, 10)
    lines = [s for s in page.shapes if not isinstance(s, (Box, Words)) and getattr(s, "dashed", False)]
    bases = [s for s in page.shapes if getattr(s, "line_pt", 0) == 0.75 and hasattr(s, "x1")]
    unit = bases[0].y1 - lines[0].y1  # type: ignore[union-attr]
    week = next(w for w in trays.weeks if w.monday == date(2027, 3, 8) and w.place == "airing shelf")
    bars = [s for s in page.shapes if isinstance(s, Box) and abs(s.y + s.height - bases[0].y1) < 0.01]  # type: ignore[union-attr]
    at = window_around(trays.mondays, [week.monday]).index(week.monday)
    shown = sorted(bars, key=lambda b: b.x)
    own = [b for b in shown if b.width < 40]
    assert any(abs(b.height - unit * week.filled) < 0.1 for b in own), (at, [b.height for b in own])


def test_the_week_is_framed(plain: Sheet) -> None:
    for week in (10, 20):
        page = page_of(plain, week)
        frames = [s for s in page.shapes if isinstance(s, Box) and s.line_pt == 1.8]
        inside = [
            t.text
            for t in texts(page)
            for f in frames
            if f.x <= t.left and t.right <= f.x + f.width and f.y <= t.top <= f.y + 15
        ]
        assert str(week) in inside


def test_what_goes_on_to_harden_where_it_stands_does_not_leave() -> None:
    bench = Place("bench", ("growing on", "hardening off"), Room(trays=1), under="unheated glass")
    mistakes: list[Mistake] = []
    place = made.garden(
        "40 beetroot sown 12 March", "40 lettuce sown 16 March", mistakes=mistakes, places=(WARM, bench)
    )
    schedule, _ = dated(place, made.catalogue().crop)
    beetroot = schedule.batches[0].stages
    assert beetroot.harden and beetroot.plant and beetroot.harden.day < beetroot.plant.day
    page = page_of(sheet_of((schedule, trays_of(schedule, place), place)), 11)
    assert f"First to leave it: beetroot, 1 tray, {place.words.day_named(beetroot.plant.day)}." in said(page)


def test_a_place_without_limit_has_no_line_and_never_overflows() -> None:
    schedule, trays, place = sample()
    weeks = tuple(msgspec.structs.replace(w, room=None, filled=0.0) for w in trays.weeks)
    sheet = sheet_of((schedule, msgspec.structs.replace(trays, weeks=weeks), place))
    words = " ".join(said(page) for page in sheet.pages)
    assert "room not limited" in words
    assert "too many" not in words
    assert all(collisions(page) == [] for page in sheet.pages)


def test_quiet_weeks_share_a_page_and_busy_ones_go_on(plain: Sheet) -> None:
    titles = [[t.text for t in texts(p) if t.text.startswith("Trays, week")] for p in plain.pages]
    assert ["Trays, week 11", "Trays, week 12"] in titles
    assert titles.count(["Trays, week 9"]) == 2
    assert "page 2 of 2 of week 9" in " ".join(said(p) for p in plain.pages)


def test_a_garden_without_trays_prints_nothing_wrong() -> None:
    schedule, trays, place = sample(garden())
    bare = msgspec.structs.replace(schedule, batches=schedule.batches[:2])
    empty = msgspec.structs.replace(trays, sowings=(), shared=(), stays=())
    sheet = sheet_of((bare, empty, place))
    assert len(sheet.pages) == 1
    assert list(outside(sheet)) == []
    assert "Nothing to sow or move" in said(sheet.pages[0])


def test_the_last_page_tells_the_kinds_of_tray_and_the_compost_that_fills_them() -> None:
    schedule, trays, place = sample()
    sheet = tray_plan(schedule, trays, jobs(schedule, trays, place), place, "A4", WIDTH, None)
    needs = shopping_list(place, schedule, trays)
    said = " ".join(t.text for t in texts(sheet.pages[-1]))
    assert sheet.bookmarks[-1] == (len(sheet.pages) - 1, "Trays, pots and compost")
    assert needs.trays
    for need in needs.trays:
        assert f"{need.most} in use at most" in said
    litres = sum(fill.litres for fill in needs.tray_compost)
    assert f"Compost for all of them: {litres:,.0f} l." in said
    # 1 bag's worth by hand: every filling of a 60-cell tray of 30 ml cells takes 1.8 l
    sixty = next(f for f in needs.tray_compost if f.tray.startswith("60"))
    assert sixty.litres == pytest.approx(sixty.fillings * 60 * 0.030, rel=0.01)
