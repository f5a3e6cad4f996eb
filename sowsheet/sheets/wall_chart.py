"""The sowing chart for the shed wall: a row a batch, a column a week."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date
from functools import partial
from typing import TYPE_CHECKING

import msgspec

from sowsheet.garden.records import Garden
from sowsheet.schedule.records import STAGE_KEYS, Batch, Schedule
from sowsheet.sheets.chart_foot import foot, foot_height
from sowsheet.sheets.chart_head import Style, head, head_height, nearer, notes
from sowsheet.sheets.chart_marks import grid
from sowsheet.sheets.chart_rows import Row, heading_height, heading_shapes, label_shapes, row_shapes, rows_of
from sowsheet.sheets.paper import MARGIN, landscape, usual_distance_m
from sowsheet.sheets.shapes import Box, Leaf, Line, Measure, Page, Shape, Sheet
from sowsheet.sheets.spoken import batch_name, batch_said
from sowsheet.sheets.view import WHOLE, Order, Span, View, sheet_mark
from sowsheet.sheets.weeks import Weeks, chart_mondays
from sowsheet.trays.records import TrayPlan
from sowsheet.words.language import Language

if TYPE_CHECKING:
    from sowsheet.schedule.replay import Wander

LABEL_SHARE, MOST_LABEL = 0.19, 0.3  # of the width, for the names of the rows; at most, where type is larger
END_SHARE = 0.075  # for the price of a week and the last useful sowing
LEAST_PLACE = 1.9  # base sizes: a place's name and its room stand below each other
BAND_ROWS = 3
BAND_GREY = 0.94
# Type (1 is what the distance asks for), row and place heights in base sizes, from roomy to close.
SETTINGS = (
    (1.4, 1.75, 3.6),
    *((scale, 1.5, 3.0) for scale in (1.4, 1.3, 1.2, 1.15, 1.1, 1.05)),
    (1.0, 1.5, 3.0),
    (1.0, 1.42, 3.0),
    (1.0, 1.36, 2.7),
    (1.0, 1.3, 2.5),
)


class Chart(msgspec.Struct, frozen=True):
    """What every page of the chart shares."""

    schedule: Schedule
    trays: TrayPlan
    garden: Garden
    style: Style
    weeks: Weeks
    head_lines: tuple[str, ...]
    spreads: Mapping[str, Wander] = {}
    order: Order = "sowing"
    span: Span | None = None  # the weeks that are shown; None: the season's


def wall_chart(
    schedule: Schedule,
    trays: TrayPlan,
    garden: Garden,
    paper: str,
    measure: Measure,
    printed_on: date | None,
    spreads: Mapping[str, Wander] | None = None,
    view: View = WHOLE,
) -> Sheet:
    """The chart on as many sheets as its rows need; type never shrinks below what the distance asks for.

    `spreads` are the first pickings of batches over the years of a record, drawn as whiskers.
    """
    days = [day for batch in schedule.batches for day in job_days(batch)]
    sheet = landscape(paper, view.distance_m)
    share = min(MOST_LABEL, LABEL_SHARE * max(1.0, sheet.distance_m / usual_distance_m(paper)))
    left = MARGIN + round(sheet.width * share)
    style = Style(sheet, measure, printed_on, garden.words, whiskers=bool(spreads))
    dealt: list[tuple[Chart, list[list[Row]]]] = []
    for span, mondays in view.within(chart_mondays(schedule.season, days)):
        weeks = Weeks(mondays, left, (sheet.width * (1 - END_SHARE) - MARGIN - left) / len(mondays))
        dealt.append(_fitted(Chart(schedule, trays, garden, style, weeks, (), spreads or {}, view.order, span)))
    made = [(chart, rows, n, len(pages)) for chart, pages in dealt for n, rows in enumerate(pages)]
    drawn = tuple(_page(chart, rows, n, whole) for chart, rows, n, whole in made)
    drawn = tuple(msgspec.structs.replace(page, label=str(n)) for n, page in enumerate(drawn, 1))
    marks = tuple((n, sheet_mark(garden.words, chart.span, own)) for n, (chart, _, own, _) in enumerate(made))
    title = garden.words.say("chart.file", garden=garden.name, year=schedule.season.year)
    return Sheet(title, drawn, marks, garden.words.file_tag)


def _fitted(chart: Chart) -> tuple[Chart, list[list[Row]]]:
    """The chart in the largest type that needs no more pages than the closest setting does."""
    shown = [b for b in chart.schedule.batches if is_shown(b, chart.weeks)]
    fewest = len(_set(chart, shown, SETTINGS[-1])[1])
    settings = (_set(chart, shown, setting) for setting in SETTINGS)
    return next(found for found in settings if len(found[1]) <= fewest)


def _set(chart: Chart, shown: Sequence[Batch], setting: tuple[float, float, float]) -> tuple[Chart, list[list[Row]]]:
    """The chart in one setting, its rows dealt out to pages."""
    scale, row_share, place_share = setting
    style = msgspec.structs.replace(chart.style, scale=scale, row_share=row_share, place_share=place_share)
    lines = notes(chart.schedule, chart.weeks, style) if chart.span is None else ()
    style = _with_room_for_the_foot(chart, style, lines)
    chart = msgspec.structs.replace(chart, style=style, head_lines=lines)
    rows = rows_of(shown, chart.trays, chart.spreads, style, chart.weeks.left - MARGIN, chart.garden, order=chart.order)
    return chart, _paged(chart, rows)


def _with_room_for_the_foot(chart: Chart, style: Style, lines: Sequence[str]) -> Style:
    """Lower places where there are so many that their foot would not fit under two rows, or under none."""
    alone = style.paper.height - 2 * MARGIN - head_height(lines, style)
    bare = foot_height(chart.trays, chart.garden, nearer(msgspec.structs.replace(style, place_share=0.0)))
    whole = foot_height(chart.trays, chart.garden, nearer(style))
    for room in (alone - 2 * style.row, alone):
        share = style.place_share * min(1.0, (room - bare) / max(whole - bare, 1.0))
        if share >= LEAST_PLACE:
            break
    return msgspec.structs.replace(style, place_share=share)


def job_days(batch: Batch) -> list[date]:
    """The days on which something is done. Of what stands there already only its clearing is known."""
    keys = ("clear",) if batch.open_left else STAGE_KEYS
    return [w.day for key in keys if (w := getattr(batch.stages, key)) is not None]


def is_shown(batch: Batch, weeks: Weeks) -> bool:
    """Whether anything of a batch is drawn in the columns; what has no date yet keeps its row."""
    begins = batch.stages.sow or batch.stages.plant
    if begins is None and not batch.stays:
        return True
    return any(weeks.shows(s.start, s.end) for s in batch.stays) or (begins is not None and weeks.holds(begins.day))


def _paged(chart: Chart, rows: Sequence[Row]) -> list[list[Row]]:
    """Rows dealt out to pages, the foot on the last; a page is never left with the foot alone if a row can join it."""
    style = chart.style
    room = style.paper.height - 2 * MARGIN - head_height(chart.head_lines, style)
    foot_room = foot_height(chart.trays, chart.garden, nearer(style))
    pages: list[list[Row]] = [[]]
    used = 0.0
    for row in rows:
        if pages[-1] and used + _over(row, pages[-1], style) + row.height > room:
            pages.append([])
            used = 0.0
        used += _over(row, pages[-1], style) + row.height
        pages[-1].append(row)
    if used + foot_room > room and pages[-1]:
        pages.append([])
    if len(pages) > 1:
        _evened(pages[-2], pages[-1], room - foot_room, style)
    return pages


def _evened(before: list[Row], last: list[Row], room: float, style: Style) -> None:
    """Rows moved on to the last page while they fit over its foot and the page before has more."""
    while len(before) > len(last) + 1 and _tall([before[-1], *last], style) <= room:
        last.insert(0, before.pop())


def _over(row: Row, above: Sequence[Row], style: Style) -> float:
    """The height of the heading that a row needs below others: none where it goes on with theirs."""
    return heading_height(style) if row.group and (not above or above[-1].group != row.group) else 0.0


def _tall(rows: Sequence[Row], style: Style) -> float:
    return sum(row.height + _over(row, rows[max(0, n - 1) : n], style) for n, row in enumerate(rows))


def _page(chart: Chart, rows: Sequence[Row], number: int, pages: int) -> Page:
    style, weeks = chart.style, chart.weeks
    top = MARGIN + head_height(chart.head_lines, style)
    bottom = top + _tall(rows, style)
    last = number == pages - 1
    leaf, year, words = Leaf(), chart.schedule.season.year, chart.garden.words
    leaf.draw([*_bands(rows, top, style), *grid(weeks, style, top, bottom)])
    head(leaf, chart.garden, chart.schedule, weeks, chart.head_lines, style, number, pages, span=chart.span)
    leaf.draw(frosts(chart.schedule, weeks, style, top, bottom))
    y = top
    for n, row in enumerate(rows):
        over = _over(row, rows[max(0, n - 1) : n], style)
        if over:
            leaf.tag("H2", heading_shapes(row, style, y))
        name = called(row, words)
        said = partial(batch_said, words, row.batch, row.sowing, year, row.spread, name)
        label, grey = label_shapes(row, style, y + over, n == 0), 1.0 if row.group else band(n)
        leaf.row(label, name if row.again else "", row_shapes(row, weeks, style, y + over, grey), said)
        y += over + row.height
    leaf.draw([Line(MARGIN, bottom, style.paper.width - MARGIN, bottom, 0.0, style.stroke(1.0))])
    if last:
        foot(leaf, chart.trays, chart.garden, weeks, nearer(style), bottom, pages, year)
    return Page(style.paper.width, style.paper.height, tuple(leaf.shapes), f"{number + 1}", tuple(leaf.tags))


def called(row: Row, words: Language) -> str:
    """A row's whole name, as it is said, where its label may be cut."""
    name = batch_name(words, row.batch)
    return words.say("spoken.numbered", name=name, number=row.number) if row.number else name


def band(n: int) -> float:
    """The grey behind the nth row of a page."""
    return BAND_GREY if n // BAND_ROWS % 2 == 0 else 1.0


def _bands(rows: Sequence[Row], top: float, style: Style) -> list[Shape]:
    """Every other three rows on a light grey, so that a row is top, middle or bottom of its band."""
    shapes: list[Shape] = []
    y = top
    for n, row in enumerate(rows):
        if row.group:  # its heading parts it from others
            return []
        if band(n) < 1:
            shapes.append(Box(MARGIN, y, style.paper.width - 2 * MARGIN, row.height, fill=band(n)))
        y += row.height
    return shapes


def frosts(schedule: Schedule, weeks: Weeks, style: Style, top: float, bottom: float) -> list[Shape]:
    """The average last and first frost as dashed lines through all rows."""
    almanac = schedule.climate.almanac
    years = range(weeks.first.year, weeks.end.year + 1)
    days = [date(y, *md) for md in (almanac.last_frost, almanac.first_frost) if md is not None for y in years]
    xs = [weeks.x(d) for d in days if weeks.holds(d)]
    return [Line(x, top, x, bottom, 0.0, style.stroke(0.9), dashed=True) for x in xs]
