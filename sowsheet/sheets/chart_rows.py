"""The rows of the chart: a sowing mark, a thin ribbon while it is in the tray, a thick one once it is in the bed."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from datetime import date

import msgspec

from sowsheet.schedule.records import Batch
from sowsheet.sheets.chart_head import Style, row_name
from sowsheet.sheets.paper import MARGIN
from sowsheet.sheets.shapes import Box, Hatch, Line, Polygon, Shape, Words
from sowsheet.sheets.weeks import Weeks
from sowsheet.trays.records import Sowing, TrayPlan

BED = 0.70  # of the row's height: the ribbon in the bed
TRAY = 0.24  # the ribbon in the tray
MARK = 0.84  # the sowing mark


class Row(msgspec.Struct, frozen=True):
    """A batch's row: its name over one line or two, how high it is, and what was sown."""

    batch: Batch
    name: tuple[str, ...]
    height: float
    sowing: Sowing | None
    follows: bool = False  # it is in the same series as the row above


def rows_of(batches: Sequence[Batch], trays: TrayPlan, style: Style, label_width: float) -> list[Row]:
    """Rows by sowing date; the sowings of a series stay together under its first."""
    sowings = {s.batch: s for s in trays.sowings}
    first: dict[str, date] = {}
    for b in batches:
        first[b.series or b.name] = min(first.get(b.series or b.name, date.max), _begins(b))
    ordered = sorted(batches, key=lambda b: (first[b.series or b.name], b.series or b.name, _begins(b), b.name))
    same = Counter(row_name(b) for b in batches if not b.series)
    rows: list[Row] = []
    for batch in ordered:
        follows = bool(batch.series) and bool(rows) and rows[-1].batch.series == batch.series
        name = row_name(batch)
        if same[name] > 1 and batch.bed:
            name = f"{name}, {batch.bed}"
        if batch.maybe:
            name += "?"
        lines = ("",) if follows else _lines(name, style, label_width)
        rows.append(Row(batch, lines, style.row * (1.0 if len(lines) == 1 else 1.62), sowings.get(batch.name), follows))
    return rows


def _begins(batch: Batch) -> date:
    when = batch.stages.sow or batch.stages.plant
    if when is not None:
        return when.day
    return date.min if batch.open_left else date.max


def _lines(name: str, style: Style, room: float) -> tuple[str, ...]:
    """A name over one line or two; what is longer still is cut with an ellipsis."""
    width = room - style.base * 0.5
    lines: list[str] = []
    rest = name.split()
    while rest and len(lines) < 2:
        taken = 1
        while taken < len(rest) and style.wide(" ".join(rest[: taken + 1]), "semi bold", style.base) <= width:
            taken += 1
        lines.append(" ".join(rest[:taken]))
        rest = rest[taken:]
    if rest:
        lines[-1] = f"{lines[-1]} …"
    return tuple(_fitted(line, style, width) for line in lines)


def _fitted(line: str, style: Style, width: float) -> str:
    if style.wide(line, "semi bold", style.base) <= width:
        return line
    while line and style.wide(f"{line}…", "semi bold", style.base) > width:
        line = line[:-1].rstrip(" …")
    return f"{line}…"


def row_shapes(row: Row, weeks: Weeks, style: Style, top: float) -> Iterator[Shape]:
    """Everything of a row. Its ribbons begin and end on their days, to the day."""
    batch = row.batch
    middle = top + row.height / 2
    yield from _label(row, style, top)
    yield from _tray_ribbon(batch, weeks, style, middle)
    yield from _bed_ribbon(batch, weeks, style, middle)
    yield from _cover(batch, weeks, style, middle)
    yield from _post(batch, weeks, style, middle)
    yield from _mark(row, weeks, style, middle)
    yield from _words(row, weeks, style, middle)


def _label(row: Row, style: Style, top: float) -> Iterator[Shape]:
    if row.follows:
        x = MARGIN + style.base * 0.55
        yield Line(x, top, x, top + row.height * 0.5, 0.0, 1.0)
        yield Line(x, top + row.height * 0.5, x + style.base * 0.5, top + row.height * 0.5, 0.0, 1.0)
        return
    pitch = style.base * 1.08
    y = top + row.height / 2 + style.base * 0.36 - pitch * (len(row.name) - 1) / 2
    for line in row.name:
        yield Words(MARGIN + style.base * 0.15, y, line, "semi bold", style.base)
        y += pitch


def _tray_ribbon(batch: Batch, weeks: Weeks, style: Style, middle: float) -> Iterator[Shape]:
    tall = style.row * TRAY
    for stay in batch.stays:
        if not stay.container or stay.end <= weeks.first or stay.start >= weeks.end:
            continue
        hatch: Hatch = "vertical" if stay.stage == "hardening off" else ""
        x1, x2 = weeks.x(stay.start), weeks.x(stay.end)
        yield Box(
            x1,
            middle - tall / 2,
            x2 - x1,
            tall,
            fill=1.0,
            stroke=0.0,
            line_pt=style.base * 0.045,
            hatch=hatch,
            dashed=batch.maybe,
        )


def _bed_ribbon(batch: Batch, weeks: Weeks, style: Style, middle: float) -> Iterator[Shape]:
    share = BED if batch.rank == "main" else BED * 0.62
    tall = style.row * share
    beds = [s for s in batch.stays if s.part is not None and s.end > weeks.first and s.start < weeks.end]
    for stay in beds:
        x1, x2 = weeks.x(stay.start), weeks.x(stay.end)
        yield Box(
            x1,
            middle - tall / 2,
            x2 - x1,
            tall,
            fill=1.0,
            stroke=0.0,
            line_pt=style.base * 0.055,
            hatch="diagonal" if stay.stage == "picking" else "",
            dashed=batch.maybe,
        )
    if beds and (beds[0].start < weeks.first or batch.open_left):
        yield _arrow(weeks.left, middle, tall, -style.base * 0.32)
    if beds and beds[-1].end > weeks.end:
        yield _arrow(weeks.right, middle, tall, -style.base * 0.32, solid=True)


def _arrow(x: float, middle: float, tall: float, deep: float, solid: bool = False) -> Shape:
    """A wedge at the chart's edge: the ribbon goes on beyond it."""
    half = tall / 2
    if solid:  # inside the right edge, pointing out: nothing may lie beyond the margin
        return Polygon(((x + deep, middle - half), (x, middle), (x + deep, middle + half)), fill=0.0)
    return Polygon(((x - deep, middle - half), (x, middle), (x - deep, middle + half)), fill=0.0)


def _cover(batch: Batch, weeks: Weeks, style: Style, middle: float) -> Iterator[Shape]:
    """A cover as a heavy line close above the ribbon."""
    y = middle - style.row * (BED / 2 + 0.07)
    for cover in batch.covers:
        if cover.end > weeks.first and cover.start < weeks.end:
            yield Line(weeks.x(cover.start), y, weeks.x(cover.end), y, 0.0, style.base * 0.11)


def _post(batch: Batch, weeks: Weeks, style: Style, middle: float) -> Iterator[Shape]:
    """A post with a wedge on the day the plants leave their trays for the bed."""
    plant = batch.stages.plant
    if plant is None or batch.raised != "tray" or not weeks.holds(plant.day):
        return
    x, half = weeks.x(plant.day), style.row * BED / 2
    thick = style.base * 0.14
    yield Box(x - thick / 2, middle - half - style.row * 0.06, thick, 2 * half + style.row * 0.06, fill=0.0)
    wide, top = style.base * 0.2, middle - half - style.row * 0.08
    yield Polygon(((x - wide, top), (x + wide, top), (x, top + style.base * 0.3)), fill=0.0)


def _mark(row: Row, weeks: Weeks, style: Style, middle: float) -> Iterator[Shape]:
    """The sowing mark fills its week's column; seed, sets and cloves that go straight into the bed point down."""
    batch = row.batch
    when = batch.stages.sow if batch.raised == "tray" else batch.stages.plant
    if when is None or not weeks.holds(when.day):
        return
    x, wide, tall = weeks.column(when.day), weeks.week_width, style.row * MARK
    y = middle - tall / 2
    fill = 1.0 if batch.maybe else 0.0
    if batch.raised != "tray":
        points = ((x, y), (x + wide, y), (x + wide, y + tall * 0.58), (x + wide / 2, y + tall), (x, y + tall * 0.58))
        yield Polygon(points, fill=fill, stroke=0.0, line_pt=1.0)
        return
    yield Box(x, y, wide, tall, fill=fill, stroke=0.0, line_pt=1.0, radius=wide * 0.14, dashed=batch.maybe)
    size = min(style.base, 0.85 * wide / (0.52 * max(1, len(_count(row)))))
    grey = 0.0 if batch.maybe else 1.0
    yield Words(x + wide / 2, middle + size * 0.36, _count(row), "semi bold", size, grey, "centre")


def _count(row: Row) -> str:
    """Trays to sow; `+` where the cells are in another batch's tray."""
    sowing = row.sowing
    if sowing is None:
        return str(row.batch.amount.trays or "")
    return str(sowing.trays) if sowing.trays else "+"


def _sown(row: Row) -> str:
    """What is sown: cell size, cells or plants."""
    batch, a = row.batch, row.batch.amount
    if batch.open_left:
        return ""
    if batch.raised == "set":
        return f"{a.places} {a.unit}"
    if batch.raised == "drill":
        return f"{a.rows} x {a.length_m:g} m" if a.rows else f"{a.length_m:g} m"
    tray = str(a.tray_cells) if a.tray_cells else "seed tray"
    words = f"{tray} · {a.places} {a.unit if a.places != 1 else a.unit[:-1]}"
    return f"{words}, shared" if row.sowing is not None and row.sowing.shares else words


def _words(row: Row, weeks: Weeks, style: Style, middle: float) -> Iterator[Shape]:
    """The bed's name in the ribbon; what is sown left of the mark, or, where there is no room, behind the ribbon."""
    batch, size = row.batch, style.inner
    y = middle + size * 0.36
    bed, sown = _bed_words(batch), _sown(row)
    begins, ends = _extent(batch, weeks)
    when = batch.stages.sow if batch.raised == "tray" else batch.stages.plant
    gap = size * 0.4
    if begins is None or ends is None:
        words = "no date: a frost date is not known" if batch.stages.plant is None else ""
        yield Words(weeks.left + gap, y, words, "semi", size, plate=True)
        return
    starts = weeks.column(when.day) if when is not None and weeks.holds(when.day) else begins
    inside = _ribbon_start(row, weeks, style)
    if bed:
        yield from _in_ribbon(bed, inside, weeks, style, y)
        outside = inside + style.wide(bed, "semi", size) + 2 * gap > ends
    else:
        outside = False
    if not sown:
        return
    wide = style.wide(sown, "semi", size)
    if starts - gap - wide >= weeks.left + 1:
        yield Words(starts - gap, y, sown, "semi", size, align="right", plate=True)
        return
    x = ends + gap
    if outside:
        x = inside + style.wide(bed, "semi", size) + 3 * gap
    if x + wide <= weeks.right - 1:
        yield Words(x, y, sown, "semi", size, plate=True)
    elif not outside and inside + style.wide(f"{bed} · {sown}", "semi", size) + gap <= ends:
        yield Words(inside + gap + style.wide(f"{bed} · ", "semi", size), y, sown, "semi", size, plate=True)


def _bed_words(batch: Batch) -> str:
    between = " between" if batch.rank == "between" else ""
    return f"{batch.bed}{between}"


def _extent(batch: Batch, weeks: Weeks) -> tuple[float | None, float | None]:
    """Where a batch's drawing begins and ends; None when nothing of it is drawn."""
    spans = [(s.start, s.end) for s in batch.stays if s.start < weeks.end and s.end > weeks.first]
    if not spans:
        return None, None
    return weeks.x(min(s for s, _ in spans)), weeks.x(max(e for _, e in spans))


def _ribbon_start(row: Row, weeks: Weeks, style: Style) -> float:
    """Where words on the ribbon may begin: behind the post, or behind the mark that covers its beginning."""
    batch = row.batch
    plant = batch.stages.plant
    if plant is None or plant.day < weeks.first:
        return weeks.left + style.base * 0.4
    if batch.raised != "tray":
        return weeks.column(plant.day) + weeks.week_width
    return weeks.x(plant.day) + style.base * 0.1


def _in_ribbon(bed: str, start: float, weeks: Weeks, style: Style, y: float) -> Iterator[Shape]:
    size, gap = style.inner, style.inner * 0.4
    wide = style.wide(bed, "semi", size)
    x = start + gap
    if x + wide > weeks.right - gap:  # at the chart's end there is only room in front
        x = min(x, weeks.right - gap - wide)
    yield Words(x, y, bed, "semi", size, plate=True)
