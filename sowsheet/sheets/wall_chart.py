"""The sowing chart for the shed wall: a row a batch, a column a week."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

import msgspec

from sowsheet.garden.records import Garden
from sowsheet.schedule.records import STAGE_KEYS, Batch, Schedule
from sowsheet.sheets.chart_foot import foot, foot_height
from sowsheet.sheets.chart_head import Style, head, head_height, notes
from sowsheet.sheets.chart_rows import Row, row_shapes, rows_of
from sowsheet.sheets.paper import MARGIN, landscape
from sowsheet.sheets.shapes import Box, Line, Measure, Page, Shape, Sheet
from sowsheet.sheets.weeks import Weeks, chart_mondays, months_of
from sowsheet.site.climate import climate_of
from sowsheet.trays.records import TrayPlan

LABEL_SHARE = 0.19  # of the width, for the names of the rows
BAND_ROWS = 3
BAND_GREY = 0.94


class Chart(msgspec.Struct, frozen=True):
    """What every page of the chart shares."""

    schedule: Schedule
    trays: TrayPlan
    garden: Garden
    style: Style
    weeks: Weeks
    head_lines: tuple[str, ...]


def wall_chart(
    schedule: Schedule,
    trays: TrayPlan,
    garden: Garden,
    paper: str,
    measure: Measure,
    printed_on: date | None,
) -> Sheet:
    """The chart on as many sheets as its rows need; type never shrinks below what the paper's distance asks for."""
    sheet = landscape(paper)
    style = Style(sheet, measure, printed_on)
    days = [day for batch in schedule.batches for day in _job_days(batch)]
    mondays = chart_mondays(schedule.season, days)
    label_width = round(sheet.width * LABEL_SHARE)
    left = MARGIN + label_width
    weeks = Weeks(mondays, left, (sheet.width - MARGIN - left) / len(mondays))
    shown = [b for b in schedule.batches if _is_shown(b, weeks)]
    chart = Chart(schedule, trays, garden, style, weeks, notes(schedule, weeks, style))
    rows = rows_of(shown, trays, style, label_width)
    pages = _paged(chart, rows)
    made = tuple(_page(chart, page, n, len(pages)) for n, page in enumerate(pages))
    title = f"Sowing chart, {garden.name}, {schedule.season.year}"
    return Sheet(title, made, tuple((n, f"Sheet {n + 1}") for n in range(len(made))))


def _job_days(batch: Batch) -> list[date]:
    """The days on which something is done. Of what stands there already only its clearing is known."""
    keys = ("clear",) if batch.open_left else STAGE_KEYS
    return [w.day for key in keys if (w := getattr(batch.stages, key)) is not None]


def _is_shown(batch: Batch, weeks: Weeks) -> bool:
    """Whether anything of a batch falls into the columns; what has no date yet keeps its row."""
    days = [w.day for key in STAGE_KEYS if (w := getattr(batch.stages, key)) is not None]
    spans = [(s.start, s.end) for s in batch.stays]
    inside = any(start < weeks.end and end > weeks.first for start, end in spans)
    return not days or inside or any(weeks.holds(d) for d in days)


def _paged(chart: Chart, rows: Sequence[Row]) -> list[list[Row]]:
    """Rows dealt out to pages, the foot on the last; a page is never left with the foot alone if a row can join it."""
    style = chart.style
    room = style.paper.height - 2 * MARGIN - head_height(chart.head_lines, style)
    foot_room = foot_height(chart.trays, chart.garden, style)
    pages: list[list[Row]] = [[]]
    used = 0.0
    for row in rows:
        if pages[-1] and used + row.height > room:
            pages.append([])
            used = 0.0
        pages[-1].append(row)
        used += row.height
    if used + foot_room > room and len(pages[-1]) > 1:
        kept = pages[-1]
        part = max(1, len(kept) // 2)
        pages[-1:] = [kept[:part], kept[part:]]
    return pages


def _page(chart: Chart, rows: Sequence[Row], number: int, pages: int) -> Page:
    style, weeks = chart.style, chart.weeks
    top = MARGIN + head_height(chart.head_lines, style)
    bottom = top + sum(r.height for r in rows)
    last = number == pages - 1
    shapes: list[Shape] = [*_bands(rows, top, style), *_grid(weeks, top, bottom)]
    shapes += head(chart.garden, chart.schedule, weeks, chart.head_lines, style, number, pages)
    shapes += _frosts(chart, top, bottom)
    y = top
    for row in rows:
        shapes += row_shapes(row, weeks, style, y)
        y += row.height
    shapes.append(Line(MARGIN, bottom, weeks.right, bottom, 0.0, 1.0))
    if last:
        shapes += foot(chart.trays, chart.garden, weeks, style, bottom, pages)
    return Page(style.paper.width, style.paper.height, tuple(shapes), f"{number + 1}")


def _bands(rows: Sequence[Row], top: float, style: Style) -> list[Shape]:
    """Every other three rows on a light grey, so that a row is top, middle or bottom of its band."""
    shapes: list[Shape] = []
    y = top
    for n, row in enumerate(rows):
        if n // BAND_ROWS % 2 == 0:
            shapes.append(Box(MARGIN, y, style.paper.width - 2 * MARGIN, row.height, fill=BAND_GREY))
        y += row.height
    return shapes


def _grid(weeks: Weeks, top: float, bottom: float) -> list[Shape]:
    """Light lines for weeks, heavy ones for months."""
    shapes: list[Shape] = []
    starts = set()
    n = 0
    for _, length in months_of(weeks.mondays):
        starts.add(n)
        n += length
    for n in range(len(weeks.mondays) + 1):
        x = weeks.left + n * weeks.week_width
        heavy = n in starts or n == len(weeks.mondays)
        shapes.append(Line(x, top, x, bottom, 0.0 if heavy else 0.7, 1.0 if heavy else 0.35))
    return shapes


def _frosts(chart: Chart, top: float, bottom: float) -> list[Shape]:
    """The average last and first frost as dashed lines through all rows."""
    almanac = climate_of(chart.garden).almanac
    years = range(chart.weeks.first.year, chart.weeks.end.year + 1)
    days = [date(y, *md) for md in (almanac.last_frost, almanac.first_frost) if md is not None for y in years]
    xs = [chart.weeks.x(d) for d in days if chart.weeks.holds(d)]
    return [Line(x, top, x, bottom, 0.0, 0.9, dashed=True) for x in xs]
