"""The wall chart and the bed chart as posters of sheets."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from datetime import date
from functools import partial
from typing import TYPE_CHECKING

import msgspec

from sowsheet.garden.records import Garden
from sowsheet.jobs.make import name_of
from sowsheet.schedule.records import Schedule
from sowsheet.sheets import bed_chart, wall_chart
from sowsheet.sheets.bed_rows import BedRow, bed_rows
from sowsheet.sheets.bench_picture import Bench, bench_height, bench_shapes, benches_of, heads_height, least_scale
from sowsheet.sheets.chart_foot import Part, foot_parts, legend, legend_height, marks_of
from sowsheet.sheets.chart_head import Style, nearer, notes, row_name
from sowsheet.sheets.chart_rows import Row, heading_height, heading_shapes, label_shapes, row_shapes, rows_of
from sowsheet.sheets.paper import MARGIN, usual_distance_m
from sowsheet.sheets.poster import Poster, Unfit
from sowsheet.sheets.poster_charts import (
    LABEL_SHARE,
    Chart,
    Column,
    Spot,
    Strip,
    columns_of,
    deal,
    drawn,
    spread,
    weeks_of,
)
from sowsheet.sheets.poster_grid import Grid
from sowsheet.sheets.shapes import Line, Measure, Shape
from sowsheet.sheets.spoken import batch_said, bed_said, bench_said, marks_said
from sowsheet.sheets.view import WHOLE, Span, View
from sowsheet.sheets.weeks import Weeks, chart_mondays
from sowsheet.trays.records import TrayPlan
from sowsheet.words.language import capital

if TYPE_CHECKING:
    from sowsheet.schedule.replay import Wander

# In sizes of the rows' type, as on a single sheet: the room for the rows' names, and for the ends of the rows.
WALL_NAMES, BED_NAMES, WALL_ENDS = 12.2, 8.4, 4.8
NEARER = (1.0, 0.9, 0.8, 0.7, 0.6, 0.5)  # of the usual distance
FEW_WEEKS, TOO_LARGE = Unfit("few weeks"), Unfit("too large")

Set = tuple[Chart, list[Strip]]
Lay = Callable[[tuple[Column, ...], Span | None, Sequence[float]], Set]  # columns, weeks and a setting of type


def wall_posters(
    schedule: Schedule,
    trays: TrayPlan,
    garden: Garden,
    grid: Grid,
    measure: Measure,
    printed_on: date | None,
    spreads: Mapping[str, Wander] | None = None,
    view: View = WHOLE,
) -> list[Poster] | Unfit:
    """The wall chart laid out for a grid of sheets; as many posters as its rows need, or why it cannot be."""
    days = [day for batch in schedule.batches for day in wall_chart.job_days(batch)]

    def lay(columns: tuple[Column, ...], span: Span | None, setting: Sequence[float]) -> Set:
        scale, row_share, place_share = setting
        own = _styled(columns, scale=scale, row_share=row_share, place_share=place_share)
        style, weeks = own[0].style, weeks_of(own)
        told = notes(schedule, weeks, _as_wide_as_a_sheet(style, grid)) if span is None else ()

        def rules(weeks: Weeks, top: float, bottom: float) -> Sequence[Shape]:
            return wall_chart.frosts(schedule, weeks, style, top, bottom)

        chart = Chart(garden.words.say("chart.title"), schedule, garden, grid, own, told, span, rules, ends=True)
        shown = [b for b in schedule.batches if wall_chart.is_shown(b, weeks)]
        rows = rows_of(shown, trays, spreads or {}, style, own[0].weeks.left - MARGIN, garden, order=view.order)
        year = schedule.season.year
        strips = [_row(row, n, rows[n - 1] if n else None, style, year) for n, row in enumerate(rows)]
        return chart, [*strips, *_foot(trays, chart)]

    style = Style(grid.paper_for(None), measure, printed_on, garden.words, whiskers=bool(spreads))
    spans = view.within(chart_mondays(schedule.season, days))
    return _posters(lay, wall_chart.SETTINGS, spans, style, view, grid, WALL_NAMES, WALL_ENDS)


def bed_posters(
    schedule: Schedule,
    trays: TrayPlan,
    garden: Garden,
    grid: Grid,
    measure: Measure,
    printed_on: date | None,
    view: View = WHOLE,
) -> list[Poster] | Unfit:
    """The bed chart laid out for a grid of sheets; as many posters as its beds need, or why it cannot be."""
    sowings, benches = {s.batch: s for s in trays.sowings}, benches_of(trays, garden)

    def lay(columns: tuple[Column, ...], span: Span | None, setting: Sequence[float]) -> Set:
        scale, tall = setting
        own = _styled(columns, scale=scale)
        title = garden.words.say("bed chart.title")
        chart = Chart(title, schedule, garden, grid, own, (), span, lambda *_: (), ends=False)
        whole = bed_chart.Chart(schedule, sowings, benches, garden, own[0].style, chart.weeks, tall, span)
        room = grid.pitch[1] - chart.head_height(min(1, grid.rows - 1))
        rows = bed_rows(garden.beds, schedule, whole.weeks)
        beds = [_bed(part, whole, room) for row in rows for part in bed_chart.parted(row, whole, room)]
        places = [
            _place(bench, whole, room, n == 0, bed_chart.LOW if tall < 1 else 1.0) for n, bench in enumerate(benches)
        ]
        return chart, [*beds, *places, _legend(bed_chart.marks_of(garden.words), own)]

    style = Style(grid.paper_for(None), measure, printed_on, garden.words)
    spans = view.within(chart_mondays(schedule.season, ()))
    return _posters(lay, bed_chart.SETTINGS, spans, style, view, grid, BED_NAMES, 0.0)


def _posters(
    lay: Lay,
    settings: Sequence[Sequence[float]],
    spans: Sequence[tuple[Span | None, Sequence[date]]],
    style: Style,
    view: View,
    grid: Grid,
    names: float,
    ends: float,
) -> list[Poster] | Unfit:
    """A chart of each span of weeks, with so many sizes of type for names and for what stands behind the last week."""

    def made(distance_m: float) -> list[Poster] | Unfit:
        own = msgspec.structs.replace(style, paper=grid.paper_for(distance_m))
        posters: list[Poster] = []
        for span, mondays in spans:
            columns = _columns(mondays, grid, own, names, ends)
            laid = FEW_WEEKS if columns is None else _laid(partial(lay, columns, span), settings)
            if isinstance(laid, Unfit):
                return laid
            posters += laid
        return posters

    return _as_far_as_fits(made, view, grid)


def _as_far_as_fits(made: Callable[[float], list[Poster] | Unfit], view: View, grid: Grid) -> list[Poster] | Unfit:
    """The chart for the distance that is asked for; else for the farthest from which one poster holds all of it, from
    the usual one of such a paper down to half of it; else for that usual one, on several posters."""
    if view.distance_m is not None:
        return made(view.distance_m)
    usual_m = usual_distance_m(grid.like)
    for share in NEARER:
        found = made(usual_m * share)
        if not isinstance(found, Unfit) and len(found) <= max(1, len(view.spans)):
            return found
    return made(usual_m)


def _columns(mondays: Sequence[date], grid: Grid, style: Style, names: float, ends: float) -> tuple[Column, ...] | None:
    label = min(names * style.base, LABEL_SHARE * grid.pitch[0])
    return columns_of(mondays, grid, style, label, min(ends * style.base, 0.3 * grid.pitch[0]))


def _styled(columns: Sequence[Column], **changed: float) -> tuple[Column, ...]:
    """The columns in another setting of type."""
    replace = msgspec.structs.replace
    return tuple(replace(column, style=replace(column.style, **changed)) for column in columns)


def _as_wide_as_a_sheet(style: Style, grid: Grid) -> Style:
    paper = msgspec.structs.replace(style.paper, width=grid.pitch[0] - style.small + 2 * MARGIN)
    return msgspec.structs.replace(style, paper=paper)


def _laid(lay: Callable[[Sequence[float]], Set], settings: Sequence[Sequence[float]]) -> list[Poster] | Unfit:
    """The chart in the largest type that needs no more posters than the closest setting does."""
    closest = deal(*lay(settings[-1]))
    if closest is None:
        return TOO_LARGE
    for setting in settings:
        chart, strips = lay(setting)
        dealt = deal(chart, strips)
        if dealt is not None and len(dealt) <= len(closest):
            posters = spread(chart, strips, len(dealt))
            return [drawn(chart, one, n, len(posters)) for n, one in enumerate(posters)]
    raise AssertionError("the closest setting was dealt before")


def _row(row: Row, number: int, before: Row | None, style: Style, year: int) -> Strip:
    """A row of the wall chart, with the heading of its group over the first of them."""
    grouped = bool(row.group) and (before is None or before.group != row.group)
    over = heading_height(style) if grouped else 0.0
    grey = 1.0 if row.group else wall_chart.band(number)

    def own(at: Spot) -> Row:
        return msgspec.structs.replace(row, height=at.height - over)

    def headed(at: Spot) -> Iterator[Shape]:
        return heading_shapes(row, at.column.style, at.top)

    def named(at: Spot) -> Iterator[Shape]:
        return label_shapes(own(at), at.column.style, at.top + over, at.opens)

    def draw(at: Spot) -> Iterator[Shape]:
        return row_shapes(own(at), at.column.weeks, at.column.style, at.top + over, grey)

    called = wall_chart.called(row, style.words)
    return Strip(
        row.height + over,
        draw,
        partial(batch_said, style.words, row.batch, row.sowing, year, row.spread, called),
        label=row.again or (f"{row_name(row.batch)}{'?' if row.batch.maybe else ''}"),
        called=called if row.again else "",
        named=named,
        heading=row.group if over else "",
        headed=headed if over else None,
        over=over,
        ground=grey,
    )


def _foot(trays: TrayPlan, chart: Chart) -> list[Strip]:
    near = nearer(chart.style)

    def strip(part: Part) -> Strip:
        def placed(at: Spot) -> Iterator[Shape]:
            weeks, style = at.column.weeks, nearer(at.column.style)
            yield from part.draw(weeks, style, at.top)
            if part.ruled:
                y = at.top + part.height
                yield Line(MARGIN, y, weeks.right, y, 0.0, style.stroke(0.6))

        said = partial(part.said, chart.weeks)
        return Strip(part.height, placed, said, part.name, within=False, stretches=False, gridded=False)

    parts = [strip(part) for part in foot_parts(trays, chart.garden, near, 1, chart.schedule.season.year)]
    return [*parts, _legend(marks_of(trays, near), chart.columns)]


def _legend(marks: Sequence[tuple[str, str]], columns: Sequence[Column]) -> Strip:
    """What the marks mean, dealt to the columns of sheets."""
    each = -(-len(marks) // len(columns))
    own = [marks[n * each : (n + 1) * each] for n in range(len(columns))]

    def left(column: Column) -> float:
        return MARGIN if column.number == 0 else column.weeks.left + column.style.base * 0.2

    def draw(at: Spot) -> Iterator[Shape]:
        return legend(own[at.column.number], nearer(at.column.style), at.top, left(at.column))

    tall = max(legend_height(m, nearer(c.style), left(c)) for m, c in zip(own, columns, strict=True))
    said = marks_said(columns[0].style.words, [words for _, words in marks])
    return Strip(tall, draw, said, stretches=False, gridded=False)


def _bed(row: BedRow, chart: bed_chart.Chart, room: float) -> Strip:
    """A bed's row, lower where a single lane would not fit on a sheet; over its ribbons there is room for its name, to
    stand again."""
    row = msgspec.structs.replace(row, levels=(max(1, row.levels[0]), *row.levels[1:]))
    natural = bed_chart.row_height(row, chart)

    def shapes(at: Spot) -> list[Shape]:
        tall, style = chart.tall * at.height / natural, at.column.style
        own = msgspec.structs.replace(chart, style=style, weeks=at.column.weeks, tall=tall)
        return list(bed_chart.bed_shapes(row, own, at.top))

    def named(at: Spot) -> list[Shape]:
        return shapes(at)[:1]

    def draw(at: Spot) -> list[Shape]:
        return [*shapes(at)[1:], bed_chart.row_line(at.column.style, at.top + at.height)]

    said = partial(
        bed_said, chart.style.words, row.bed.name, row.batches, chart.sowings, row.gaps, chart.schedule.season.year
    )
    return Strip(min(natural, room), draw, said, row.bed.name, named=named, within=False)


def _place(bench: Bench, chart: bed_chart.Chart, room: float, explained: bool, low: float) -> Strip:
    """A place with its trays, lower where so many stand in it that it would not fit on a sheet."""
    near, year = nearer(chart.style), chart.schedule.season.year
    names = {b.name: capital(name_of(b)) for b in chart.schedule.batches}
    heads, natural = heads_height(near), bench_height([bench], near)
    height = min(heads + (natural - heads) * max(low, least_scale(near)), room)

    def draw(at: Spot) -> list[Shape]:
        scale = (at.height - heads) / (natural - heads)
        style = nearer(at.column.style)
        ((_, shapes),) = bench_shapes([bench], names, at.column.weeks, style, at.top, scale, explained)
        return shapes

    shown = [b for b in bench.blocks if chart.weeks.shows(b.start, b.end)]
    said = partial(bench_said, chart.style.words, bench.name, bench.room, shown, names, year)
    return Strip(height, draw, said, capital(bench.name), within=False)
