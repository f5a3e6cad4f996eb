"""The bed chart: what stands where, what is on its way, and the trays of each place to scale."""

from __future__ import annotations

from collections import Counter
from datetime import date, timedelta
from functools import cache

import msgspec
import pytest
from hypothesis import given
from hypothesis import strategies as st

from sowsheet.garden.records import Garden, Site
from sowsheet.reading.mistakes import Mistake
from sowsheet.schedule.plan import schedule
from sowsheet.schedule.records import Stay
from sowsheet.sheets.bed_chart import bed_chart
from sowsheet.sheets.bed_rows import bed_rows
from sowsheet.sheets.bench_blocks import tray_blocks
from sowsheet.sheets.cutting import Window, bounds
from sowsheet.sheets.paper import PT_PER_M, landscape
from sowsheet.sheets.shapes import Box, Page, Polygon, Sheet, Words
from sowsheet.sheets.spoken import weeks as weeks_said
from sowsheet.sheets.view import View, spans_of
from sowsheet.sheets.weeks import Weeks, chart_mondays
from sowsheet.trays.plan import tray_plan
from tests.examples import GARDENS, plan
from tests.in_english import EN
from tests.made import NORTH, SOUTH, catalogue, garden
from tests.sheets.any_garden import BED_NAMES, FEW, LINES
from tests.sheets.pages import WIDTH, collisions, outside, printed_outside, read, texts, unprintable, written_over

PAPERS = ("A4", "A3", "A2", "A1", "Letter", "Tabloid")
START = date(2027, 3, 1)


@cache
def example(name: str, paper: str) -> Sheet:
    p = plan(name)
    return bed_chart(p.schedule, p.trays, p.garden, paper, WIDTH, date(2026, 11, 25))


def chart_of(made: Garden, paper: str = "A3") -> Sheet:
    dated, _ = schedule(made, catalogue().crop)
    return bed_chart(dated, tray_plan(dated, made), made, paper, WIDTH, None)


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("name", GARDENS)
def test_nothing_lies_outside_the_margins_or_over_another_thing(name: str, paper: str) -> None:
    sheet = example(name, paper)
    assert list(outside(sheet)) == []
    for page in sheet.pages:
        assert collisions(page) == []
        assert list(written_over(page)) == []


def test_nothing_is_printed_outside_the_margins() -> None:
    assert list(printed_outside(example("twelve-beds", "A3"), 2)) == []


@FEW
@given(
    st.lists(LINES, min_size=1, max_size=20),
    BED_NAMES,
    st.sampled_from([NORTH, SOUTH, Site(52.4)]),
    st.sampled_from([2026, 2027, 2032]),
    st.sampled_from(PAPERS),
)
def test_any_garden_is_drawn_without_a_collision(
    lines: list[str], bed: str, site: Site, season: int, paper: str
) -> None:
    also = ("40 lettuce every 2 weeks May to July",)
    made = garden(*lines, mistakes=[], site=site, season=season, also=also)
    beds = tuple(msgspec.structs.replace(b, name=f"{bed} {n}") for n, b in enumerate(made.beds, 1))
    sheet = chart_of(msgspec.structs.replace(made, beds=beds, name=f"{bed} · {bed} · {bed} · {bed}"), paper)
    assert list(outside(sheet)) == []
    assert unprintable(sheet) == set()
    for page in sheet.pages:
        assert collisions(page) == []
        assert list(written_over(page)) == []


@pytest.mark.parametrize("name", GARDENS)
def test_every_bed_and_every_crop_in_it_is_named(name: str) -> None:
    p = plan(name)
    said = Counter(t.text for page in example(name, "A3").pages for t in texts(page))
    for bed in p.garden.beds:
        assert said[bed.name] == 1
    rows = bed_rows(p.garden.beds, p.schedule, Weeks(chart_mondays(p.schedule.season, ()), 0.0, 1.0))
    standing = [s for row in rows for s in (*row.standing, *row.between)]
    assert len(standing) >= 5
    for one in standing:
        assert any(
            one.batch.kind.name[:4].lower() in text.lower() or one.batch.word[:4] in text.lower() for text in said
        )


@pytest.mark.parametrize("paper", PAPERS)
def test_beds_can_be_read_from_the_distance_of_the_paper(paper: str) -> None:
    sizes = {word: size for page in read(example("four-beds", paper), 1) for word, size in page}
    least = PT_PER_M * landscape(paper).distance_m
    for bed in ("One", "Two", "Three", "Four"):
        assert sizes[bed] >= least - 0.01


def test_crops_side_by_side_have_lanes_and_one_alone_has_them_all() -> None:
    made = garden("half beetroot 1 April and half spinach 1 April, then leeks 1 July", mistakes=[])
    dated, _ = schedule(made, catalogue().crop)
    (row,) = bed_rows(made.beds, dated, Weeks(chart_mondays(dated.season, ()), 0.0, 1.0))
    lanes = {s.batch.kind.crop: (s.first_lane, s.end_lane) for s in row.standing}
    assert row.lanes == 2
    assert sorted([lanes["beetroot"], lanes["spinach"]]) == [(0, 1), (1, 2)]
    assert lanes["leek"] == (0, 2)


def test_no_two_crops_of_a_bed_share_a_lane_at_one_time() -> None:
    for name in GARDENS:
        p = plan(name)
        for row in bed_rows(p.garden.beds, p.schedule, Weeks(chart_mondays(p.schedule.season, ()), 0.0, 1.0)):
            for n, one in enumerate(row.standing):
                for other in row.standing[n + 1 :]:
                    at_once = one.start < other.end and other.start < one.end
                    assert not (at_once and one.first_lane < other.end_lane and other.first_lane < one.end_lane)


def test_two_crops_on_their_way_to_one_bed_are_on_two_levels() -> None:
    made = garden("radishes sown direct 1 April, then leeks 1 July, then spinach 10 September", mistakes=[])
    dated, _ = schedule(made, catalogue().crop)
    (row,) = bed_rows(made.beds, dated, Weeks(chart_mondays(dated.season, ()), 0.0, 1.0))
    assert len(row.coming) == 3
    for n, one in enumerate(row.coming):
        for other in row.coming[n + 1 :]:
            assert one.level != other.level or one.end <= other.start or other.end <= one.start


STAYS = st.lists(
    st.tuples(st.integers(0, 60), st.integers(1, 40), st.integers(1, 6), st.booleans()), min_size=1, max_size=12
)


def _stay(number: int, start: int, days: int, trays: int, maybe: bool = False) -> Stay:
    first = START + timedelta(days=start)
    return Stay(
        batch=f"b{number}",
        stage="growing on",
        where="bench",
        start=first,
        end=first + timedelta(days=days),
        container="60-cell",
        trays=trays,
        maybe=maybe,
    )


@given(STAYS)
def test_every_tray_has_a_spot_of_its_own_and_none_is_moved(made: list[tuple[int, int, int, bool]]) -> None:
    stays = [_stay(n, *one) for n, one in enumerate(made)]
    blocks = tray_blocks(stays)
    most = 0
    for day in (START + timedelta(days=n) for n in range(101)):
        taken = [spot for b in blocks if b.start <= day < b.end for spot in range(b.low, b.high)]
        standing = sum(s.trays for s in stays if s.start <= day < s.end)
        assert len(taken) == len(set(taken)) == standing
        most = max(most, standing)
    assert max(b.high for b in blocks) == most


def test_what_is_potted_on_keeps_its_spots_and_takes_more() -> None:
    stays = [_stay(0, 0, 10, 1), _stay(0, 10, 20, 3), _stay(1, 0, 30, 2)]
    blocks = [b for b in tray_blocks(stays) if b.batch == "b0"]
    trays = [(b.high - b.low, (b.end - b.start).days) for b in blocks]
    assert sorted(trays) == [(1, 30), (2, 20)]


def test_a_place_too_small_is_hatched_above_its_room() -> None:
    p = plan("twelve-beds")
    rooms = tuple(msgspec.structs.replace(w, room=2) if w.place == "glasshouse bench" else w for w in p.trays.weeks)
    trays = msgspec.structs.replace(p.trays, weeks=rooms)
    sheet = bed_chart(p.schedule, trays, p.garden, "A3", WIDTH, None)

    def hatched(sheet: Sheet) -> int:
        last = sheet.pages[-1].shapes
        return sum(getattr(s, "hatch", "") == "diagonal" for s in last)

    assert hatched(sheet) > hatched(example("twelve-beds", "A3"))


@pytest.mark.parametrize("weeks", ["", "half", "quarter", "27-40"])
@pytest.mark.parametrize("times", [0.6, 1.0, 1.5, 2.0])
@pytest.mark.parametrize("name", GARDENS)
def test_any_distance_and_weeks_are_drawn_without_a_collision(name: str, times: float, weeks: str) -> None:
    p = plan(name)
    spans = spans_of(weeks, p.schedule.season) if weeks else ()
    assert spans is not None
    view = View(distance_m=times, spans=spans)
    sheet = bed_chart(p.schedule, p.trays, p.garden, "A3", WIDTH, None, view)
    assert list(outside(sheet)) == []
    for page in sheet.pages:
        assert collisions(page) == []
        assert list(written_over(page)) == []


@pytest.mark.parametrize("weeks", ["half", "quarter"])
@pytest.mark.parametrize("name", GARDENS)
def test_a_bed_s_empty_weeks_are_counted_beyond_the_sheet(name: str, weeks: str) -> None:
    def told(view: View) -> set[str]:
        p = plan(name)
        sheet = bed_chart(p.schedule, p.trays, p.garden, "A1", WIDTH, None, view)
        return {t.text for page in sheet.pages for t in texts(page) if t.text.startswith("empty ")}

    whole, parts = told(View()), told(View(spans=spans_of(weeks, plan(name).schedule.season) or ()))
    assert whole
    assert parts - {"empty 2 wk", "empty 3 wk"} <= whole  # these have room where weeks are wide


@pytest.mark.parametrize(
    ("line", "paper", "far"),
    [
        ("dill sown direct every 10 days May to July", "A3", 1.5),
        ("dill sown direct every 10 days May to July", "A3", 2.0),
        ("lettuce every 3 days March to August", "A3", None),
        ("lettuce every 3 days March to August", "A1", None),
        ("garlic since October, then lettuce every 4 days July to August", "A4", 1.0),
    ],
)
def test_a_bed_of_more_lanes_than_a_page_holds_goes_on_with_all_its_crops(
    line: str, paper: str, far: float | None
) -> None:
    mistakes: list[Mistake] = []
    made = garden(line, mistakes=mistakes)
    dated, _ = schedule(made, catalogue().crop)
    sheet = bed_chart(dated, tray_plan(dated, made), made, paper, WIDTH, None, View(distance_m=far))
    assert list(outside(sheet)) == []
    assert [collisions(page) for page in sheet.pages] == [[] for _ in sheet.pages]
    told = " ".join(tag.words for page in sheet.pages for tag in page.tags if tag.role == "TD")
    days = [b.stages.plant.day for b in dated.batches if b.stages.plant is not None and not b.open_left]
    assert len(days) > 8
    assert all(weeks_said(EN, day, day, 2027) in told for day in days)


def drawn(plan: tuple[str, ...], weeks: str = "") -> Sheet:
    mistakes: list[Mistake] = []
    made = garden(*plan, mistakes=mistakes)
    assert not mistakes
    dated, refused = schedule(made, catalogue().crop)
    assert not refused
    spans = spans_of(weeks, dated.season) or () if weeks else ()
    return bed_chart(dated, tray_plan(dated, made), made, "A3", WIDTH, None, View(spans=spans))


def struck(page: Page, name: str) -> list[str]:
    """Bars and marks that lie over a crop's name, painted after it."""
    found = []
    for n, words in enumerate(page.shapes):
        if not isinstance(words, Words) or words.text != name:
            continue
        at = bounds(words, WIDTH)
        inner = Window(at.left + 0.5, at.top + 1.5, at.right - 0.5, at.bottom - 2.5)
        later = (s for s in page.shapes[n + 1 :] if isinstance(s, Box | Polygon))
        found += [f"{name}: {s}" for s in later if bounds(s, WIDTH).meets(inner)]
        wedges = (s for s in page.shapes[:n] if isinstance(s, Polygon))
        found += [f"{name}: {s}" for s in wedges if bounds(s, WIDTH).meets(inner)]
    return found


@pytest.mark.parametrize("weeks", ["", "half", "quarter", "14-26"])
@pytest.mark.parametrize(
    ("line", "name"),
    [
        ("overwintered onions there till late May, then half peppers and half tomatoes 1 June", "Overwintered onions"),
        ("chard there till late May, then half leeks and half celeriac 1 June", "Chard"),
        ("rhubarb there till August, then leeks", "Rhubarb"),
    ],
)
def test_neither_trays_nor_wedges_lie_over_a_crop_s_name(line: str, name: str, weeks: str) -> None:
    sheet = drawn((line,), weeks)
    named = [s for page in sheet.pages for s in page.shapes if isinstance(s, Words) and s.text == name]
    assert named
    assert [struck(page, name) for page in sheet.pages] == [[] for _ in sheet.pages]


def test_what_begins_at_the_year_s_end_is_named_before_its_ribbon() -> None:
    sheet = drawn(("garlic 28 December", "lettuce planted 27 December"))
    read = [t.text for page in sheet.pages for t in texts(page)]
    assert "Garlic" in read
    assert list(outside(sheet)) == []
    right = max(b.x + b.width for page in sheet.pages for b in page.shapes if isinstance(b, Box))
    marks = [x for page in sheet.pages for s in page.shapes if isinstance(s, Polygon) for x, _ in s.points]
    assert max(marks) <= right + 0.01


def test_a_crop_over_two_lanes_is_named_between_them() -> None:
    """What was on its way to one of them before it was planted is no reason to stand aside."""
    p = plan("twelve-beds")
    page = bed_chart(p.schedule, p.trays, p.garden, "A3", WIDTH, None).pages[0]
    at = {s.text: s.y for s in page.shapes if isinstance(s, Words) and s.face == "semi bold"}
    assert at["Beetroot"] + 5 < at["Mizuna"] < at["Carrots"] - 5
