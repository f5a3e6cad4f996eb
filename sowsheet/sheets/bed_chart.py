"""The bed chart: a row a bed through the year, the next crop on its way above the one that stands, trays below."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from datetime import date, timedelta
from functools import partial

import msgspec

from sowsheet.garden.records import Garden
from sowsheet.jobs.make import name_of
from sowsheet.schedule.records import Gap, Schedule, Stay
from sowsheet.sheets.bed_rows import BedRow, Coming, Standing, bed_rows, lanes_of
from sowsheet.sheets.bench_picture import Bench, bench_height, bench_shapes, benches_of, least_scale, tray_scale
from sowsheet.sheets.chart_foot import LEGEND_LINE, legend_lines, sample, sample_width
from sowsheet.sheets.chart_head import Style, head, head_height, nearer
from sowsheet.sheets.chart_marks import (
    WEDGE,
    cut_to,
    grid,
    marked_day,
    post,
    post_at,
    ribbon,
    sowing_mark,
    trays_to_sow,
    wedge,
)
from sowsheet.sheets.furniture import SOFT
from sowsheet.sheets.paper import MARGIN, landscape, usual_distance_m
from sowsheet.sheets.shapes import Box, Face, Hatch, Leaf, Line, Measure, Page, Shape, Sheet, Words
from sowsheet.sheets.spoken import bed_said, bench_said, marks_said
from sowsheet.sheets.view import WHOLE, Span, View, sheet_mark
from sowsheet.sheets.weeks import Weeks, chart_mondays
from sowsheet.trays.records import Sowing, TrayPlan
from sowsheet.words.language import Language, capital

LABEL_SHARE, MOST_LABEL = 0.13, 0.22  # of the width, for the beds' names; at most, where type is larger
# In base sizes: a ribbon, a lane beside others, a level of trays above, white above a bed, crops between others.
BED, LANE, LEVEL, AIR, BETWEEN = 1.32, 0.98, 0.62, 0.27, 0.72
SETTINGS = ((1.3, 1.2), (1.2, 1.1), (1.1, 1.0), (1.0, 1.0), (1.0, 0.9))  # type, and heights, from roomy to close
LOW = 0.8  # times their usual height: places under the beds rather than on a page of their own
BESIDE = 9  # in small sizes: so much white is left for a word about the gap, where a name stands before its ribbon
WORTH_A_WORD_DAYS = 14  # a bed empty for so long


class Chart(msgspec.Struct, frozen=True):
    """What every page shares. `tall` multiplies all heights."""

    schedule: Schedule
    sowings: Mapping[str, Sowing]
    benches: tuple[Bench, ...]
    garden: Garden
    style: Style
    weeks: Weeks
    tall: float = 1.0
    span: Span | None = None

    def high(self, sizes: float) -> float:
        """So many base sizes of height, in points."""
        return self.style.base * sizes * self.tall


def bed_chart(
    schedule: Schedule,
    trays: TrayPlan,
    garden: Garden,
    paper: str,
    measure: Measure,
    printed_on: date | None,
    view: View = WHOLE,
) -> Sheet:
    """The chart on as many sheets as its beds need; type never shrinks below what the paper's distance asks for."""
    style = Style(landscape(paper, view.distance_m), measure, printed_on, garden.words)
    charts = [
        _dealt(schedule, trays, garden, style, mondays, span)
        for span, mondays in view.within(chart_mondays(schedule.season, ()))
    ]
    pages = [(chart, own, n, len(dealt)) for chart, dealt in charts for n, own in enumerate(dealt)]
    made = tuple(
        msgspec.structs.replace(_page(chart, own, n, whole), label=str(at))
        for at, (chart, own, n, whole) in enumerate(pages, 1)
    )
    marks = tuple((at, sheet_mark(garden.words, chart.span, n)) for at, (chart, _, n, _) in enumerate(pages))
    title = garden.words.say("bed chart.file", garden=garden.name, year=schedule.season.year)
    return Sheet(title, made, marks, garden.words.file_tag)


def _dealt(
    schedule: Schedule, trays: TrayPlan, garden: Garden, style: Style, mondays: tuple[date, ...], span: Span | None
) -> tuple[Chart, list[Dealt]]:
    """The chart of some weeks in the largest type that needs no more pages than the closest setting does."""
    sheet = style.paper
    share = min(MOST_LABEL, LABEL_SHARE * max(1.0, sheet.distance_m / usual_distance_m(sheet.name)))
    left = MARGIN + round(sheet.width * share)
    weeks = Weeks(mondays, left, (sheet.width - MARGIN - left) / len(mondays))
    rows = bed_rows(garden.beds, schedule, weeks)
    sowings, benches = {s.batch: s for s in trays.sowings}, benches_of(trays, garden)
    charts = [
        Chart(schedule, sowings, benches, garden, msgspec.structs.replace(style, scale=scale), weeks, tall, span)
        for scale, tall in SETTINGS
    ]
    fewest = len(_paged(charts[-1], rows))
    chart = next(c for c in charts if len(_paged(c, rows)) <= fewest)
    return chart, _paged(chart, rows)


class Dealt(msgspec.Struct):
    """What stands on one page."""

    rows: list[BedRow]
    benches: list[Bench]


def _paged(chart: Chart, rows: Sequence[BedRow]) -> list[Dealt]:
    """Rows dealt out to pages, then the places: all of them under the last rows, or on pages of their own."""
    style, benches = chart.style, chart.benches
    room = style.paper.height - 2 * MARGIN - head_height((), style)
    pages = [Dealt([], [])]
    used = 0.0
    for row in (part for whole in rows for part in parted(whole, chart, room)):
        tall = row_height(row, chart)
        if pages[-1].rows and used + tall > room:
            pages.append(Dealt([], []))
            used = 0.0
        pages[-1].rows.append(row)
        used += tall
    room -= _legend_height(nearer(style))
    near = nearer(style)
    least = least_scale(near)
    if used + bench_height(benches, near, max(least, LOW)) <= room:
        pages[-1].benches.extend(benches)
        return pages
    for bench in benches:
        if pages[-1].rows or bench_height([*pages[-1].benches, bench], near, least) > room:
            pages.append(Dealt([], []))
        pages[-1].benches.append(bench)
    return pages


def _legend_height(style: Style) -> float:
    """The lines that tell what the marks mean."""
    return style.inner * (2.2 + LEGEND_LINE * (len(legend_lines(marks_of(style.words), style)) - 1))


def parted(row: BedRow, chart: Chart, room: float) -> list[BedRow]:
    """A bed's row, in parts of as many lanes as a page has room for where it has more."""
    if row_height(row, chart) <= room:
        return [row]
    parts: list[BedRow] = []
    first = 0
    while first < row.lanes:
        ends = range(row.lanes, first + 1, -1)
        fits = (end for end in ends if row_height(lanes_of(row, first, end), chart) <= room)
        end = next(fits, first + 1)
        parts.append(lanes_of(row, first, end))
        first = end
    return parts


def row_height(row: BedRow, chart: Chart) -> float:
    lane = BED if row.lanes == 1 else LANE
    between = BETWEEN if row.between else 0.0
    return chart.high(AIR + sum(row.levels) * LEVEL + row.lanes * lane + between + AIR)


def _page(chart: Chart, dealt: Dealt, number: int, pages: int) -> Page:
    style, weeks, rows, benches = chart.style, chart.weeks, dealt.rows, dealt.benches
    top = MARGIN + head_height((), style)
    bottom = top + sum(row_height(row, chart) for row in rows)
    near = nearer(style)
    spare = style.paper.height - MARGIN - _legend_height(near) - bottom
    tall = tray_scale(benches, near, spare)
    end = bottom + bench_height(benches, near, tall)
    leaf, year, words = Leaf(), chart.schedule.season.year, style.words
    leaf.draw(grid(weeks, style, top, end))
    title = words.say("bed chart.title")
    head(leaf, chart.garden, chart.schedule, weeks, (), style, number, pages, title, ends=False, span=chart.span)
    y = top
    for row in rows:
        label, *drawn = bed_shapes(row, chart, y)
        said = partial(bed_said, words, row.bed.name, row.batches, chart.sowings, row.gaps, year)
        leaf.row([label], "", drawn, said)
        y += row_height(row, chart)
        leaf.draw([row_line(style, y)])
    names = {b.name: capital(name_of(b)) for b in chart.schedule.batches}
    for bench, drawn in bench_shapes(benches, names, weeks, near, bottom, tall):
        shown = [b for b in bench.blocks if weeks.shows(b.start, b.end)]
        leaf.tag("Figure", drawn, partial(bench_said, words, bench.name, bench.room, shown, names, year))
    if number == pages - 1:
        leaf.tag("Figure", _legend(near, end), marks_said(words, (said for _, said in marks_of(words))))
    return Page(style.paper.width, style.paper.height, tuple(leaf.shapes), f"{number + 1}", tuple(leaf.tags))


def row_line(style: Style, y: float) -> Line:
    """The line under a bed's row."""
    return Line(MARGIN, y, style.paper.width - MARGIN, y, 0.4, style.stroke(0.5))


def bed_shapes(row: BedRow, chart: Chart, top: float) -> Iterator[Shape]:
    """A bed's row: its name, lane by lane what is on its way and what stands, and what stands between."""
    y = top + chart.high(AIR)
    ribbon_tall = chart.high(BED if row.lanes == 1 else LANE)
    tops: list[float] = []  # of each lane's ribbon
    for levels in row.levels:
        y += levels * chart.high(LEVEL)
        tops.append(y)
        y += ribbon_tall
    middle = (tops[0] + y) / 2
    yield from _label(row.bed.name, chart, middle)
    for standing in row.standing:
        high = tops[standing.end_lane - 1] + ribbon_tall - tops[standing.first_lane]
        # over it, between its lanes, the next crops are on their way: its name ends before them
        lanes = range(standing.first_lane + 1, standing.end_lane)
        on_their_way = (c.start for c in row.coming if c.lane in lanes and standing.start < c.end)
        until = min(on_their_way, default=date.max)
        own_top, free = tops[standing.first_lane], _free_from(standing, row, chart.weeks)
        yield from _standing(standing, chart, own_top, high, ribbon_tall, until, free)
    for standing in row.between:
        own_top, high = y + chart.high(BETWEEN) * 0.08, chart.high(BETWEEN) * 0.84
        yield from _standing(standing, chart, own_top, high, high, date.max, chart.weeks.right)
    yield from _gaps(row, chart, tops, ribbon_tall)
    lowest = {s.batch.name: tops[s.end_lane - 1] + ribbon_tall for s in row.standing}
    for coming in row.coming:
        down_to = lowest.get(coming.batch.name, y + chart.high(BETWEEN) * 0.92)
        yield from _coming(coming, chart, tops[coming.lane], down_to)


def _label(name: str, chart: Chart, middle: float) -> Iterator[Shape]:
    style = chart.style
    room = chart.weeks.left - MARGIN - style.base * 0.3
    size = min(style.base, max(style.base * 0.72, style.base * room / style.wide(name, "semi bold", style.base)))
    words = cut_to(name, room, "semi bold", size, style)
    yield Words(MARGIN + style.base * 0.1, middle + size * 0.36, words, "semi bold", size)


def _free_from(standing: Standing, row: BedRow, weeks: Weeks) -> float:
    """From where on nothing stands before a crop in any of its lanes."""
    first, end = standing.first_lane, standing.end_lane
    own = (s for s in row.standing if s.first_lane < end and s.end_lane > first)
    before = [s.end for s in own if s.start < standing.start]
    return weeks.x(max(before, default=weeks.first))


def _standing(
    standing: Standing, chart: Chart, top: float, tall: float, lane: float, until: date, free: float
) -> Iterator[Shape]:
    """A crop's ribbon in the bed, its picking hatched; a cover over it; its name, see `_slots` and `_crop_name`."""
    style, weeks, batch = chart.style, chart.weeks, standing.batch
    stays = _stays(standing, weeks)
    for stay in stays:
        hatch: Hatch = "diagonal" if stay.stage == "picking" else ""
        x1, x2, line = weeks.x(stay.start), weeks.x(stay.end), style.base * 0.055
        yield ribbon(x1, x2, top, tall, line, hatch, style.hatching, batch.maybe)
    if weeks.begins and standing.start < weeks.first:
        yield from wedge(weeks.left, top + tall / 2, tall, style, -1)
    if weeks.ends and standing.end > weeks.end:
        yield from wedge(weeks.right, top + tall / 2, tall, style, 1)
    for cover in batch.covers:
        if weeks.shows(cover.start, cover.end):
            y = top + style.base * 0.11
            yield Line(weeks.x(cover.start), y, weeks.x(cover.end), y, 0.0, style.base * 0.1)
    yield from _crop_name(standing, list(_slots(standing, stays, chart, top, tall, lane, until)), chart, free)


def _stays(standing: Standing, weeks: Weeks) -> list[Stay]:
    beds = sorted((s for s in standing.batch.stays if s.part is not None), key=lambda s: s.start)
    if beds:
        beds[0] = msgspec.structs.replace(beds[0], start=min(beds[0].start, standing.start))
    return [s for s in beds if weeks.shows(s.start, s.end)]


class Slot(msgspec.Struct, frozen=True):
    """Room for a crop's name in its ribbon: from where to where, its middle, how high it is, and if it is hatched."""

    left: float
    right: float
    middle: float
    tall: float
    hatched: bool


def _slots(
    standing: Standing, stays: Sequence[Stay], chart: Chart, top: float, tall: float, lane: float, until: date
) -> Iterator[Slot]:
    """Where its name may stand, the best first: before the picking, and over all its lanes before the next crops are
    on their way between them; then in its first lane."""
    style, weeks = chart.style, chart.weeks
    edge, wedge_wide = style.base * 0.25, style.base * WEDGE
    for stay in sorted(stays, key=lambda stay: stay.stage == "picking"):  # an edge is a date: none is written over
        goes_back = standing.start < weeks.first and stay.start <= weeks.first
        goes_on = standing.end > weeks.end and stay.end >= weeks.end
        left = weeks.x(stay.start) + edge + (wedge_wide if goes_back else 0.0)
        right = weeks.x(stay.end) - edge * 0.6 - (wedge_wide if goes_on else 0.0)
        end = weeks.column(until) - edge if until < weeks.end else right
        hatched = stay.stage == "picking"
        if end >= right or end > left + style.base:
            yield Slot(left, min(right, end), top + tall / 2, tall, hatched)
        if end < right:
            yield Slot(left, right, top + lane / 2, lane, hatched)


def _crop_name(standing: Standing, slots: Sequence[Slot], chart: Chart, free: float) -> Iterator[Shape]:
    """The crop's name in its ribbon; else before it, from `free` on, if that is wide and white; else cut."""
    style, weeks = chart.style, chart.weeks
    name = capital(name_of(standing.batch)) + ("?" if standing.batch.maybe else "")
    face: Face = "semi bold"
    for slot in slots:
        sizes = [min(size, slot.tall * 0.78) for size in (style.base, style.base * 0.84, style.inner)]
        settings: list[tuple[float, Face]] = [*((size, face) for size in sizes), (sizes[-1], "condensed bold")]
        for size, own in settings:
            if style.wide(name, own, size) <= slot.right - slot.left:
                yield from _plated(name, slot.left, slot.middle + size * 0.36, own, size, style, slot.hatched)
                return
    if not slots or _mostly_elsewhere(standing, weeks):
        return
    slot = max(slots, key=lambda slot: slot.right - slot.left)
    size = min(style.inner, slot.tall * 0.78)
    wide, before = style.wide(name, face, size), weeks.x(standing.start) - style.base * 0.4
    if weeks.ends and standing.start > weeks.first and before - free > 2 * wide + BESIDE * style.small:
        yield from _plated(name, before - wide, slot.middle + size * 0.36, face, size, style, True)
        return
    words = cut_to(name, slot.right - slot.left, "condensed bold", size, style)
    yield from _plated(words, slot.left, slot.middle + size * 0.36, "condensed bold", size, style, slot.hatched)


def _mostly_elsewhere(standing: Standing, weeks: Weeks) -> bool:
    """Whether more of a crop's time lies on the sheet beside this one: there its name is told."""
    first, end = weeks.chart_span
    whole = (min(standing.end, end) - max(standing.start, first)).days
    return (min(standing.end, weeks.end) - max(standing.start, weeks.first)).days < whole / 2


def _plated(words: str, x: float, y: float, face: Face, size: float, style: Style, plate: bool) -> Iterator[Shape]:
    if not words:
        return
    if plate:
        wide = style.wide(words, face, size)
        yield Box(x - size * 0.15, y - size * 0.78, wide + size * 0.3, size * 1.02, fill=1.0)
    yield Words(x, y, words, face, size)


def _coming(coming: Coming, chart: Chart, bed_top: float, bed_bottom: float) -> Iterator[Shape]:
    """A crop on its way: its mark, its thin ribbon, and the post that drops into the bed, to its bottom."""
    style, weeks, batch = chart.style, chart.weeks, coming.batch
    tall = chart.high(LEVEL)
    y = bed_top - (coming.level + 1) * tall
    thin, middle = tall * 0.42, y + tall * 0.5
    plant = batch.stages.plant
    for stay in batch.stays:
        if stay.container and weeks.shows(stay.start, stay.end):
            hatch: Hatch = "vertical" if stay.stage == "hardening off" else ""
            line = style.base * 0.045
            yield ribbon(
                weeks.x(stay.start), weeks.x(stay.end), middle - thin / 2, thin, line, hatch, style.ruling, batch.maybe
            )
    if plant is not None and batch.raised == "tray" and weeks.holds(plant.day):
        yield from post(post_at(plant.day, weeks, style), middle - thin / 2, bed_bottom, style)
    when = marked_day(batch)
    if when is not None and weeks.holds(when):
        down = batch.raised != "tray"
        number = trays_to_sow(batch, chart.sowings.get(batch.name))
        yield from sowing_mark(
            weeks.column(when), y, weeks.week_width, tall, number, style, maybe=batch.maybe, down=down
        )


def _gaps(row: BedRow, chart: Chart, tops: Sequence[float], tall: float) -> Iterator[Shape]:
    """Weeks in which the bed is white are counted, those beyond the chart too, and those between the crops of one lane;
    a gap that the grower named has its name."""
    season = chart_mondays(chart.schedule.season, ())
    first_day, last_day = season[0], season[-1] + timedelta(weeks=1)
    whole = [gap for gap in _white(row.taken, first_day, last_day) if chart.weeks.shows(*gap)]
    for start, end in whole:
        yield from _gap(row.gaps, start, end, chart, tops[0] + tall / 2)
    for lane, top in enumerate(tops if row.lanes > 1 else ()):
        own = [(s.start, s.end) for s in row.standing if s.first_lane <= lane < s.end_lane]
        first, last = (max(own[0][0], first_day), min(own[-1][0], last_day)) if own else (last_day, last_day)
        for start, end in _white(own, first, last):
            if not any(start < until and end > since for since, until in whole):  # that is told already
                yield from _gap((), start, end, chart, top + tall / 2)


def _white(spans: Sequence[tuple[date, date]], first: date, end: date) -> list[tuple[date, date]]:
    """The times between spans, from a first day to an end, long enough to be worth a word."""
    found, at = [], first
    for start, until in [*sorted(spans), (end, end)]:
        if (min(start, end) - at).days >= WORTH_A_WORD_DAYS:
            found.append((at, min(start, end)))
        at = max(at, until)
    return found


def _gap(gaps: Sequence[Gap], start: date, end: date, chart: Chart, middle: float) -> Iterator[Shape]:
    style, weeks = chart.style, chart.weeks
    named = next((g for g in gaps if g.start < end and (g.end is None or start < g.end)), None)
    key = "empty" if named is None else named.what
    words = style.words.say(f"bed chart.gap.{key}", n=round((end - start).days / 7))
    for face in ("regular", "condensed"):
        wide = style.wide(words, face, style.small)
        if wide + style.small <= weeks.x(end) - weeks.x(start):
            x = (weeks.x(start) + weeks.x(end) - wide) / 2
            yield Box(x - 2, middle - style.small * 0.45, wide + 4, style.small * 1.0, fill=1.0)
            yield Words(x, middle + style.small * 0.33, words, face, style.small, SOFT)
            return


LEGEND = ("mark", "down", "tray", "hardening", "post", "bed", "picking", "cover", "maybe", "beyond")


def marks_of(words: Language) -> list[tuple[str, str]]:
    """What the marks mean, in the order of a row."""
    return [(key, words.say(f"bed chart.mark.{key}")) for key in LEGEND]


def _legend(style: Style, top: float) -> Iterator[Shape]:
    """What the marks mean, in one line if it fits."""
    y = top + style.inner * 1.5
    for line in legend_lines(marks_of(style.words), style):
        for key, words, x in line:
            wide = sample_width(key, style)
            yield from sample(key, x, y - style.inner * 0.95, wide, style.inner * 1.15, style)
            yield Words(x + wide + style.inner * 0.5, y, words, "regular", style.small)
        y += style.inner * LEGEND_LINE
