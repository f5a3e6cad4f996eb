"""The marks that charts of weeks share: sowing marks, ribbons, posts of planting days, wedges, the grid of weeks."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta

from sowsheet.schedule.records import Batch
from sowsheet.sheets.chart_head import Style
from sowsheet.sheets.flow import cut
from sowsheet.sheets.shapes import Box, Face, Hatch, Line, Polygon, Shape, Words
from sowsheet.sheets.weeks import Weeks, months_of
from sowsheet.trays.records import Sowing

WEDGE = 0.36  # how deep the wedge is where a ribbon goes on, in base sizes
POST_WIDE = 0.2  # half the wedge of a post
MONTH_GREY, WEEK_GREY = 0.0, 0.7


def marked_day(batch: Batch) -> date | None:
    """The day in whose week the sowing mark stands."""
    when = batch.stages.sow if batch.raised == "tray" else batch.stages.plant
    return when.day if when is not None else None


def trays_to_sow(batch: Batch, sowing: Sowing | None) -> str:
    """The number on a sowing mark; `+` where the cells are in another batch's tray."""
    if sowing is None:
        return str(batch.amount.trays or "")
    return str(sowing.trays) if sowing.trays else "+"


def sowing_mark(
    x: float, y: float, wide: float, tall: float, number: str, style: Style, *, maybe: bool, down: bool
) -> Iterator[Shape]:
    """The sowing mark fills its week's column; seed, sets and cloves that go straight into the bed point `down`."""
    fill, line = 1.0 if maybe else 0.0, style.stroke(1.0)
    if down:
        points = ((x, y), (x + wide, y), (x + wide, y + tall * 0.58), (x + wide / 2, y + tall), (x, y + tall * 0.58))
        yield Polygon(points, fill=fill, stroke=0.0, line_pt=line)
        return
    yield Box(x, y, wide, tall, fill=fill, stroke=0.0, line_pt=line, radius=wide * 0.14)
    size = min(style.base, 0.85 * wide / (0.52 * max(1, len(number))), tall * 0.95)
    grey = 0.0 if maybe else 1.0
    yield Words(x + wide / 2, y + tall / 2 + size * 0.36, number, "semi bold", size, grey, "centre")


def ribbon(
    x1: float, x2: float, y: float, tall: float, line_pt: float, hatch: Hatch, pitch_pt: float, maybe: bool
) -> Box:
    """A stretch of a plant's ribbon, y its top."""
    return Box(
        x1,
        y,
        x2 - x1,
        tall,
        fill=1.0,
        stroke=0.0,
        line_pt=line_pt,
        hatch=hatch,
        pitch_pt=pitch_pt,
        dashed=maybe,
    )


def wedge(edge: float, middle: float, tall: float, style: Style, way: int) -> Iterator[Shape]:
    """A wedge inside the chart's edge, white behind it: the ribbon goes on beyond, to the right (1) or left (-1)."""
    deep, half, hair = style.base * WEDGE, tall / 2, style.base * 0.03
    back = edge - way * deep
    yield Box(min(edge, back), middle - half + hair, deep, tall - 2 * hair, fill=1.0)
    yield Polygon(((back, middle - half), (edge, middle), (back, middle + half)), fill=0.0)


def post_at(day: date, weeks: Weeks, style: Style) -> float:
    """Where the post of a day stands: within the chart, on its last days too."""
    x = weeks.x(day)
    return min(x, weeks.right - style.base * POST_WIDE) if weeks.ends else x


def post(x: float, top: float, bottom: float, style: Style) -> Iterator[Shape]:
    """A post with a wedge at its top: the day on which plants leave their trays for the bed."""
    thick, wide = style.base * 0.14, style.base * POST_WIDE
    yield Box(x - thick / 2, top, thick, bottom - top, fill=0.0)
    yield Polygon(
        ((x - wide, top - style.base * 0.03), (x + wide, top - style.base * 0.03), (x, top + style.base * 0.27))
    )


def grid(weeks: Weeks, style: Style, top: float, bottom: float) -> Iterator[Shape]:
    """Light lines for weeks, heavy ones for months."""
    edge = timedelta(weeks=1)
    before = () if weeks.begins else (weeks.first - edge,)  # where it goes on, an edge is a line like others
    after = () if weeks.ends else (weeks.end,)
    starts, n = {0} if weeks.begins else set(), -len(before)
    for _, length in months_of((*before, *weeks.mondays, *after)):
        starts.add(n)
        n += length
    for n in range(len(weeks.mondays) + 1):
        x = weeks.left + n * weeks.week_width
        heavy = n in starts or (weeks.ends and n == len(weeks.mondays))
        grey, line = (MONTH_GREY, 1.0) if heavy else (WEEK_GREY, 0.35)
        yield Line(x, top, x, bottom, grey, style.stroke(line))


def cut_to(words: str, room: float, face: Face, size: float, style: Style) -> str:
    """Words cut with an ellipsis to what fits; "" where that is a letter at most."""
    found = cut(words, room, face, size, style.measure)
    return found if found == words or len(found) > 2 else ""
