"""The wall chart as it hangs in the shed: dates to a third of a millimetre, nothing clipped, nothing written over."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator
from datetime import date, timedelta
from functools import cache
from io import BytesIO
from typing import Any

import msgspec
import pdfplumber
import pytest
from hypothesis import given
from hypothesis import strategies as st
from pdfminer.pdftypes import resolve1

from sowsheet.exports.data import dates_data, trays_data
from sowsheet.garden.records import Garden, Site
from sowsheet.schedule.plan import schedule
from sowsheet.sheets.paint import FONT_FILES, pdf_bytes
from sowsheet.sheets.paper import MARGIN, PT_PER_M, landscape
from sowsheet.sheets.shapes import Box, Line, Page, Sheet, Words
from sowsheet.sheets.view import Order, View, distance_of, spans_of
from sowsheet.sheets.wall_chart import wall_chart
from sowsheet.sheets.weeks import Weeks
from sowsheet.site.season import monday_of, mondays_between, season_mondays, season_of
from sowsheet.trays.plan import tray_plan
from tests.examples import GARDENS, plan
from tests.made import NORTH, SIXTY, SOUTH, catalogue, garden, limited
from tests.sheets.any_garden import BED_NAMES, FEW, LINES
from tests.sheets.pages import WIDTH, collisions, outside, printed_outside, texts, unprintable, written_over

PAPERS = ("A4", "A3", "A2", "A1", "Letter", "Tabloid")
NEAR_PT = 0.85  # 0.3 mm
COLOURS = re.compile(rb"(?<=\s)(rg|RG|k|K|cs|CS|sc|SC|scn|SCN|sh)(?=\s)")


@cache
def example(name: str, paper: str) -> Sheet:
    p = plan(name)
    return wall_chart(p.schedule, p.trays, p.garden, paper, WIDTH, date(2026, 11, 25))


def chart_of(made: Garden, paper: str = "A3") -> Sheet:
    dated, _ = schedule(made, catalogue().crop)
    return wall_chart(dated, tray_plan(dated, made), made, paper, WIDTH, None)


class Printed(msgspec.Struct):
    """A page as read back from the PDF: where its rows lie, its columns, the outlined boxes in its rows."""

    top: float
    bottom: float
    weeks: Weeks
    boxes: list[tuple[float, float, float]]  # left, right, height
    words: list[dict[str, Any]]


@cache
def printed(name: str, paper: str) -> list[Printed]:
    with pdfplumber.open(BytesIO(pdf_bytes(example(name, paper)))) as pdf:
        return [_printed(page, plan(name).schedule.season.start.year) for page in pdf.pages]


def _printed(page: Any, year: int) -> Printed:
    upright = [line for line in page.lines if abs(line["x1"] - line["x0"]) < 0.01]
    bottom = max(line["bottom"] for line in upright)
    long = [line for line in upright if line["bottom"] == bottom]
    top, left, right = long[0]["top"], min(line["x0"] for line in long), max(line["x0"] for line in long)
    words = page.extract_words(extra_attrs=["size", "fontname"], x_tolerance=0.8, y_tolerance=1)
    head = [w for w in words if w["bottom"] < top and "CondensedBold" in w["fontname"] and "Semi" not in w["fontname"]]
    large = next(w for w in head if w["text"].isdigit())
    same_line = [w for w in words if large["top"] < (w["top"] + w["bottom"]) / 2 < large["bottom"]]
    numbers = [int(w["text"]) for w in sorted(same_line, key=lambda w: w["x0"]) if w["text"].isdigit()]
    if numbers[0] > 50:  # an edge week of the year before
        year -= 1
    monday = date.fromisocalendar(year, numbers[0], 1)
    mondays = tuple(monday + timedelta(weeks=n) for n in range(len(numbers)))
    assert [m.isocalendar().week for m in mondays] == numbers
    boxes = [
        (r["x0"], r["x1"], r["height"]) for r in page.rects if r["stroke"] and r["top"] > top and r["bottom"] < bottom
    ]
    return Printed(top, bottom, Weeks(mondays, left, (right - left) / len(mondays)), boxes, words)


@pytest.mark.parametrize("name", GARDENS)
def test_a_ribbon_ends_within_a_third_of_a_millimetre_of_its_date(name: str) -> None:
    pages = printed(name, "A3")
    boxes = [box for page in pages for box in page.boxes]
    tall = max(h for _, _, h in boxes)
    thick = sorted((a, b) for a, b, h in boxes if h > tall * 0.5)
    thin = [(a, b) for a, b, h in boxes if h < tall * 0.5]
    weeks = pages[0].weeks
    expected: list[tuple[float, float]] = []
    for batch in dates_data(plan(name).garden, plan(name).schedule, ())["batches"]:
        days = {key: stage["date"] for key, stage in batch["stages"].items() if stage}
        expected += _in_the_bed(days, weeks, plan(name).schedule.season.start)
        if batch["raised"] == "tray" and "sow" in days and "plant" in days and days["plant"] > weeks.first:
            for start, end in _in_trays(days, weeks):
                assert any(abs(a - start) < NEAR_PT and (end is None or abs(b - end) < NEAR_PT) for a, b in thin)
    expected.sort()
    assert len(thick) == len(expected)
    for found, wanted in zip(thick, expected, strict=True):
        assert found == pytest.approx(wanted, abs=NEAR_PT)


def _in_the_bed(days: dict[str, date], weeks: Weeks, season: date) -> Iterator[tuple[float, float]]:
    """Where the thick ribbons of a batch have to begin and end: planted to first pick, first pick to cleared."""
    start, end = days.get("plant", date.min), days.get("clear", date.min)
    pick = min(days.get("first_pick", end), end)
    if start < pick <= season and "plant" not in days:  # it stood there, being picked
        pick = start
    for a, b in ((start, pick), (pick, end)):
        if a < b and b > weeks.first and a < weeks.end:
            yield weeks.x(a), weeks.x(b)


def _in_trays(days: dict[str, date], weeks: Weeks) -> Iterator[tuple[float, float | None]]:
    """Where thin ribbons have to begin and end: the first on the sowing day, the last from hardening to planting."""
    if weeks.holds(days["sow"]):
        yield weeks.x(days["sow"]), None
    if "harden" in days and weeks.first <= days["harden"] < min(days["plant"], weeks.end):
        yield weeks.x(days["harden"]), weeks.x(days["plant"])


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("name", GARDENS)
def test_nothing_lies_outside_the_margins_or_over_another_thing(name: str, paper: str) -> None:
    sheet = example(name, paper)
    assert list(outside(sheet)) == []
    for page in sheet.pages:
        assert collisions(page) == []
        assert list(written_over(page)) == []


@pytest.mark.parametrize("paper", ["A4", "Tabloid", "A1"])
def test_nothing_is_printed_outside_the_margins(paper: str) -> None:
    assert list(printed_outside(example("twelve-beds", paper), 2)) == []


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
    made = garden(
        *lines,
        mistakes=[],
        site=site,
        season=season,
        also=("40 lettuce every 2 weeks May to July",),
    )
    beds = tuple(msgspec.structs.replace(b, name=f"{bed} {n}") for n, b in enumerate(made.beds, 1))
    sheet = chart_of(msgspec.structs.replace(made, beds=beds, name=f"{bed} · {bed} · {bed} · {bed}"), paper)
    assert list(outside(sheet)) == []
    assert unprintable(sheet) == set()
    for page in sheet.pages:
        assert collisions(page) == []
        assert list(written_over(page)) == []


@pytest.mark.parametrize("paper", PAPERS)
def test_names_of_rows_can_be_read_from_the_distance_of_the_paper(paper: str) -> None:
    least = PT_PER_M * landscape(paper).distance_m
    for page in printed("twelve-beds", paper):
        names = [
            w for w in page.words if w["x1"] < page.weeks.left and page.top < w["top"] and w["bottom"] < page.bottom
        ]
        assert len(names) > 10
        assert min(w["size"] for w in names) >= least - 0.01


def test_2026_has_53_columns() -> None:
    page = _first(chart_of(garden("lettuce", mistakes=[], season=2026)))
    assert page.weeks.mondays[0] == date(2025, 12, 29)
    assert len(page.weeks.mondays) == 53


def test_a_southern_season_runs_from_july_to_june() -> None:
    names = [t.text[:3] for t in texts(example("southern", "A3").pages[0])]
    months = ("Jul", "Aug", "Sep", "Oct", "Nov", "Dec", "Jan", "Feb", "Mar", "Apr", "May", "Jun")
    assert [n for n in names if n in months][:12] == list(months)
    assert [m.month for m in printed("southern", "A3")[0].weeks.mondays][1::52] == [7]


def _first(sheet: Sheet) -> Printed:
    with pdfplumber.open(BytesIO(pdf_bytes(sheet))) as pdf:
        return _printed(pdf.pages[0], 2026)


@pytest.mark.parametrize("beds", [9, 10, 11, 12, 13, 30])  # some fill a page, so that the foot has to take rows along
@pytest.mark.parametrize("paper", ["A4", "A3"])
def test_every_batch_stands_once_on_all_pages_together(paper: str, beds: int) -> None:
    lines = [f"lettuce (n{n}a) 1 May, then kale (n{n}b) mid-July" for n in range(beds)]
    sheet = chart_of(garden(*lines, mistakes=[]), paper)
    left = MARGIN + landscape(paper).width * 0.19
    names = " ".join(t.text for page in sheet.pages for t in texts(page) if t.right <= left)
    wanted = {f"n{n}{part}" for n in range(beds) for part in "ab"}
    assert Counter(re.findall(r"\((n\d+[ab])\)", names)) == dict.fromkeys(wanted, 1)
    assert list(outside(sheet)) == []
    assert len(sheet.pages) > 1 or beds < 30
    for n, page in enumerate(sheet.pages, 1):
        assert any(t.text.endswith(f"sheet {n} of {len(sheet.pages)}") for t in texts(page))


def test_the_sowings_of_a_series_are_numbered_and_named_again_on_a_new_page() -> None:
    lines = [f"kale (n{n}) 1 May" for n in range(12)]
    sheet = chart_of(garden(*lines, mistakes=[], also=("60 lettuce every week April to August",)))
    assert len(sheet.pages) == 2
    top = next(t.text for t in texts(sheet.pages[1]) if t.left < MARGIN + 5 and "ettuce" in t.text)
    assert re.fullmatch(r"\w*\s?[Ll]ettuce \d+", top)


@pytest.mark.parametrize("name", GARDENS)
def test_trays_to_sow_are_those_of_the_tray_plan(name: str) -> None:
    sums: dict[bool, Counter[date]] = {False: Counter(), True: Counter()}
    for sowing in trays_data(plan(name).garden, plan(name).trays)["sowings"]:
        sums[sowing["maybe"]][monday_of(sowing["date"])] += sowing["trays"]
    page, weeks = example(name, "A3").pages[-1], printed(name, "A3")[-1].weeks
    assert _numbers_beside("Trays to sow", page, weeks) == {
        m: n for m, n in sums[False].items() if n and weeks.holds(m)
    }
    assert _numbers_beside("maybe", page, weeks) == {m: n for m, n in sums[True].items() if n and weeks.holds(m)}


def _numbers_beside(label: str, page: Page, weeks: Weeks) -> dict[date, int]:
    words = [s for s in page.shapes if isinstance(s, Words)]
    line = next((w.y for w in words if w.text.startswith(label) and w.x < weeks.left), None)
    return {
        weeks.mondays[int((w.x - weeks.left) / weeks.week_width)]: int(w.text)
        for w in words
        if w.y == line and w.x > weeks.left
    }


@pytest.mark.parametrize(("room", "black"), [(2, True), (200, False)])
def test_what_does_not_fit_a_place_is_black(room: int, black: bool) -> None:
    places = (*garden(mistakes=[]).places[:1], limited("bench", room))
    made = garden("lettuce 1 May", "lettuce 1 May", "lettuce 1 May", mistakes=[], places=places)
    page = chart_of(msgspec.structs.replace(made, trays=(SIXTY,))).pages[-1]
    foot = next(s.y for s in page.shapes if isinstance(s, Words) and s.text == "Bench")
    legend = next(s.y for s in page.shapes if isinstance(s, Words) and s.text.startswith("trays to sow"))
    bars = [s for s in page.shapes if isinstance(s, Box) and s.stroke is not None and foot - 20 < s.y < legend - 20]
    assert any(b.fill == 0.0 for b in bars) == black
    assert any(b.fill not in (None, 0.0) for b in bars)


def test_a_frost_date_that_is_not_known_leaves_a_row_that_says_so() -> None:
    made = garden("lettuce", "tomatoes", mistakes=[], site=Site(52.4))
    words = [t.text for page in chart_of(made).pages for t in texts(page)]
    assert sum(w.startswith("no date") for w in words) == 2


@pytest.mark.parametrize("name", GARDENS)
def test_one_ink_and_only_our_fonts_embedded(name: str) -> None:
    with pdfplumber.open(BytesIO(pdf_bytes(example(name, "A3")))) as pdf:
        for page in pdf.pages:
            data = b"\n".join(resolve1(c).get_data() for c in page.page_obj.contents)
            assert b" g\n" in data
            assert COLOURS.findall(re.sub(rb"<[0-9a-f]*>|\(.*?\)", b"", data)) == []
            for entry in resolve1(page.page_obj.resources["Font"]).values():
                one = resolve1(entry)
                assert "FontFile2" in resolve1(one["FontDescriptor"])
                assert one["BaseFont"].name.partition("+")[2] in FONT_FILES.values()


def test_a_batch_in_the_tray_of_another_has_a_plus_for_a_number() -> None:
    made = garden(mistakes=[], also=("20 lettuce 1 April", "12 lettuce 1 April"))
    marks = [s.text for page in chart_of(made).pages for s in page.shapes if isinstance(s, Words) and s.grey == 1.0]
    assert sorted(marks) == ["+", "1", "3"]  # the last is the legend's


ORDERS: tuple[Order, ...] = ("sowing", "bed", "crop", "place")


def view_of(name: str, view: View, paper: str = "A3") -> Sheet:
    p = plan(name)
    return wall_chart(p.schedule, p.trays, p.garden, paper, WIDTH, None, view=view)


@pytest.mark.parametrize("words", ["half", "quarter", "9-22", "30", "9 to 22"])
@pytest.mark.parametrize("order", ORDERS)
@pytest.mark.parametrize("name", GARDENS)
def test_any_weeks_in_any_order_are_drawn_without_a_collision(name: str, order: Order, words: str) -> None:
    spans = spans_of(words, plan(name).schedule.season)
    if spans is None:  # a southern season begins in week 27
        assert name == "southern"
        return
    sheet = view_of(name, View(order=order, spans=spans))
    assert list(outside(sheet)) == []
    for page in sheet.pages:
        assert collisions(page) == []
        assert list(written_over(page)) == []
    assert [page.label for page in sheet.pages] == [str(n) for n in range(1, len(sheet.pages) + 1)]


@pytest.mark.parametrize("times", [0.5, 1.25, 1.5, 2.0])
@pytest.mark.parametrize("paper", ["A4", "A3", "A1"])
def test_another_distance_sets_the_type_of_the_rows(paper: str, times: float) -> None:
    far = landscape(paper).distance_m * times
    sheet = view_of("twelve-beds", View(distance_m=far), paper)
    assert list(outside(sheet)) == []
    for page in sheet.pages:
        assert collisions(page) == []
    with pdfplumber.open(BytesIO(pdf_bytes(sheet))) as pdf:
        words = pdf.pages[0].extract_words(extra_attrs=["size"], x_tolerance=0.8)
    lettuce = [w["size"] for w in words if w["text"].startswith("Lettuce") and w["x0"] < MARGIN + 20]
    assert lettuce or times >= 1.5
    assert all(size >= PT_PER_M * far - 0.01 for size in lettuce)


@pytest.mark.parametrize("words", ["half", "quarter"])
@pytest.mark.parametrize("name", GARDENS)
def test_twice_the_distance_on_parts_of_a_year_is_drawn_without_a_collision(name: str, words: str) -> None:
    spans = spans_of(words, plan(name).schedule.season) or ()
    sheet = view_of(name, View(distance_m=2 * landscape("A3").distance_m, spans=spans))
    assert list(outside(sheet)) == []
    assert [collisions(page) for page in sheet.pages] == [[] for _ in sheet.pages]


@pytest.mark.parametrize("name", GARDENS)
def test_what_has_its_dates_on_another_sheet_is_not_told_to_have_none(name: str) -> None:
    """A crop that ends on a sheet's first day has no row there."""
    sheet = view_of(name, View(spans=spans_of("quarter", plan(name).schedule.season) or ()))
    assert [t.text for page in sheet.pages for t in texts(page) if t.text.startswith("no date")] == []


@pytest.mark.parametrize("paper", ["A4", "A3", "A2", "A1"])
def test_a_week_can_be_found_from_the_distance(paper: str) -> None:
    """Of a whole year's weeks every second one at least, in the type that the distance asks for."""
    with pdfplumber.open(BytesIO(pdf_bytes(view_of("twelve-beds", View(), paper)))) as pdf:
        words = pdf.pages[0].extract_words(extra_attrs=["size", "fontname"], x_tolerance=0.8)
    least = PT_PER_M * landscape(paper).distance_m - 0.01
    large = {int(w["text"]) for w in words if w["text"].isdigit() and w["size"] >= least and "Bold" in w["fontname"]}
    assert set(range(2, 53, 2)) <= large


def test_halves_and_quarters_hold_every_week_once() -> None:
    for year in (2026, 2027):  # of 53 and of 52 weeks
        season = season_of(year, 52.0)
        for words, parts in (("half", 2), ("quarter", 4)):
            spans = spans_of(words, season)
            assert spans is not None
            assert len(spans) == parts
            mondays = [m for s in spans for m in mondays_between(s.first, s.last)]
            assert mondays == list(season_mondays(season))


def test_weeks_of_a_southern_season_run_over_new_year() -> None:
    season = season_of(2027, -41.0)
    over = spans_of("48-5", season)
    assert over is not None
    assert (over[0].first, over[0].last) == (date(2027, 11, 29), date(2028, 1, 31))
    assert spans_of("5-48", season) is None
    assert spans_of("54", season) is None
    assert spans_of("spring", season) is None


@pytest.mark.parametrize(
    ("words", "metres"), [("1 m", 1.0), ("1.5", 1.5), ("1,5m", 1.5), ("150 cm", 1.5), ("5 ft", 1.524), ("far", None)]
)
def test_distances_are_read(words: str, metres: float | None) -> None:
    assert distance_of(words) == pytest.approx(metres)


def test_rows_by_bed_stand_under_their_beds_in_the_garden_s_order() -> None:
    sheet = view_of("twelve-beds", View(order="bed"))
    beds = [bed.name for bed in plan("twelve-beds").garden.beds]
    heads = [t.text for page in sheet.pages for t in texts(page) if t.left < MARGIN + 9 and t.text in beds]
    assert list(dict.fromkeys(heads)) == beds
    whole = sum(1 for s in plan("twelve-beds").schedule.batches)
    rows = [t for page in sheet.pages for t in texts(page) if t.text in beds and t.left > page.width * 0.19]
    assert len(rows) == whole - sum(1 for b in plan("twelve-beds").schedule.batches if not b.bed)


def test_rows_by_crop_keep_the_kinds_of_a_crop_together() -> None:
    sheet = view_of("twelve-beds", View(order="crop"))
    left = [t.text for t in texts(sheet.pages[0]) if t.left < MARGIN + 9]
    names = [n for n in left if n[:1].isupper() and n != "Sowing chart" and not n.startswith("Before")]
    lettuces = [n for n, name in enumerate(names) if "ettuce" in name and "Lamb" not in name]
    assert len(lettuces) > 2
    assert lettuces == list(range(lettuces[0], lettuces[0] + len(lettuces)))
    crops = [next((c for c in ("beetroot", "calabrese", "carrot", "celeriac") if c in n.lower()), "") for n in names]
    assert [c for c in crops if c] == sorted(c for c in crops if c)


def test_the_band_tells_the_daylight_of_each_month_and_its_usual_mean() -> None:
    words = [t.text for t in texts(example("twelve-beds", "A3").pages[0])]
    band = [w for w in words if re.fullmatch(r"\d+ h -?\d+°", w)]
    assert len(band) == 12
    hours = [int(w.split()[0]) for w in band]
    # astral's sunrise to sunset at 52 N on 15 January and 15 June: 8.2 and 16.7 h (refraction counted)
    assert hours[0] == 8
    assert max(hours) in (16, 17)


@pytest.mark.parametrize("name", GARDENS)
def test_the_frost_band_is_half_as_high_on_the_average_frost_dates(name: str) -> None:
    """Its scale runs from 0 to 10 years in 10: the average date is that of 5."""
    page, almanac = example(name, "A3").pages[0], plan(name).schedule.climate.almanac
    [top] = [s for s in page.shapes if isinstance(s, Words) and s.text == "10" and s.align == "right"]
    bars = [s for s in page.shapes if isinstance(s, Box) and s.fill == 0.45]
    floor = max(b.y + b.height for b in bars)
    middle = next(s.y1 for s in page.shapes if isinstance(s, Line) and s.grey == 1.0)
    tallest = max(b.height for b in bars)
    assert floor - middle == pytest.approx(tallest / 2, rel=0.05)
    assert top.y - 0.78 * top.size_pt == pytest.approx(floor - tallest, abs=0.12 * tallest)
    assert almanac.last_frost is not None
    at = {round(s.x1, 1) for s in page.shapes if isinstance(s, Line) and s.dashed and s.x1 == s.x2}
    for x in at:  # the frost dates' own lines
        near = [b.height for b in bars if b.x - b.width <= x <= b.x + 2 * b.width]
        assert min(near, default=0.0) <= tallest * 0.62 and max(near) >= tallest * 0.38


def test_a_week_that_runs_over_the_season_s_edge_may_be_asked_for() -> None:
    """1 January 2027 lies in week 53 of 2026: `--weeks 53-2` begins with it."""
    season = plan("twelve-beds").schedule.season
    (span,) = spans_of("53-2", season) or ()
    assert (span.first, span.last) == (date(2026, 12, 28), date(2027, 1, 11))
    page = view_of("twelve-beds", View(spans=(span,))).pages[0]
    assert {"53", "1", "2"} <= {t.text for t in texts(page)}
    assert spans_of("54", season) is None
