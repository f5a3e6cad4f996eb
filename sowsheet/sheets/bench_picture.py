"""Below the beds: each place to scale, a block for a sowing, as high as its trays, as long as it stands, named."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence

import msgspec

from sowsheet.garden.records import Garden
from sowsheet.sheets.bench_blocks import TrayBlock, tray_blocks
from sowsheet.sheets.chart_head import SMALLEST, Style
from sowsheet.sheets.furniture import SOFT
from sowsheet.sheets.paper import MARGIN
from sowsheet.sheets.shapes import Box, Face, Line, Shape, Words
from sowsheet.sheets.spoken import room_said
from sowsheet.sheets.weeks import Weeks
from sowsheet.trays.records import TrayPlan
from sowsheet.words.language import capital

NUMBERS_APART = 1.8  # in small sizes: how high a place is if both its trays and 0 are written beside it
TRAY = 1.12  # a tray's height, in small sizes: its name fits into it
HEAD = 1.5  # a place's name, in base sizes
TO_SCALE = 2  # a room more than so many times what ever stands in it is told, not drawn
MOST_TRAYS = 40  # a place with more is drawn with lower trays
FAR = 8  # trays above its block, no farther away a name is written
COLUMN = 20.0  # points
HIGHEST = 1.8  # times their least height: as high as trays are drawn where there is room


class Bench(msgspec.Struct, frozen=True):
    """A place with the blocks in it. `room` is in trays; None: not limited."""

    name: str
    room: int | None
    blocks: tuple[TrayBlock, ...]

    @property
    def most(self) -> int:
        """How many trays stand in it at most."""
        return max((b.high for b in self.blocks), default=0)

    @property
    def drawn(self) -> int:
        """How many trays high it is drawn: to its room, unless that is far more than ever stands in it."""
        if self.room is None or self.room > TO_SCALE * self.most:
            return self.most
        return max(self.most, self.room)


def benches_of(trays: TrayPlan, garden: Garden) -> tuple[Bench, ...]:
    """The places in which trays stand at some time, in the garden file's order."""
    rooms = {w.place: w.room for w in trays.weeks}
    made = (
        Bench(p.name, rooms.get(p.name), tuple(tray_blocks(s for s in trays.stays if s.where == p.name and s.trays)))
        for p in garden.places
    )
    return tuple(bench for bench in made if bench.blocks)


def bench_height(benches: Sequence[Bench], style: Style, scale: float = 1.0) -> float:
    """All places, one below the other; `scale` makes their trays higher."""
    return sum(heads_height(style) + bench.drawn * _tray_height(bench, style, scale) for bench in benches)


def tray_scale(benches: Sequence[Bench], style: Style, room: float) -> float:
    """How much higher or lower trays have to be for all places to fill a room, within reason."""
    trays = sum(bench.drawn * _tray_height(bench, style, 1.0) for bench in benches)
    return max(least_scale(style), min(HIGHEST, (room - len(benches) * heads_height(style)) / trays)) if trays else 1.0


def least_scale(style: Style) -> float:
    """So low that the smallest words still fit into a tray."""
    return SMALLEST * 1.02 / (style.small * TRAY)


def heads_height(style: Style) -> float:
    """The room for a place's name."""
    return (HEAD + 0.35) * style.base


def _tray_height(bench: Bench, style: Style, scale: float) -> float:
    """A tray's height in a place, lower where very many stand."""
    return style.small * TRAY * scale * min(1.0, MOST_TRAYS / max(1, bench.drawn))


def bench_shapes(
    benches: Sequence[Bench],
    names: Mapping[str, str],
    weeks: Weeks,
    style: Style,
    top: float,
    scale: float,
    explained: bool = True,
) -> Iterator[tuple[Bench, list[Shape]]]:
    """The places from `top` down; `names` are those of the batches; `explained`: the first tells what a block is."""
    y = top
    for n, bench in enumerate(benches):
        tall = _tray_height(bench, style, scale)
        yield bench, list(_bench(bench, names, weeks, style, y, tall, explained=explained and n == 0))
        y += heads_height(style) + bench.drawn * tall


def _bench(
    bench: Bench, names: Mapping[str, str], weeks: Weeks, style: Style, top: float, tall: float, *, explained: bool
) -> Iterator[Shape]:
    bottom = top + HEAD * style.base + bench.drawn * tall
    if weeks.begins:
        yield from _head(bench, style, top, explained)
    shown = [b for b in bench.blocks if weeks.shows(b.start, b.end)]
    for block in shown:
        yield from _block(block, bench.room, weeks, style, bottom, tall)
    yield Line(MARGIN, bottom, weeks.right, bottom, 0.0, style.stroke(1.0))
    limit = bench.room if bench.room is not None and bench.room <= bench.drawn else None
    if weeks.begins:
        most = bench.drawn if limit is None else limit
        for trays in (0, most) if most * tall > NUMBERS_APART * style.small else (most,):
            y = bottom - trays * tall + (style.small * 0.75 if trays else -style.small * 0.1)
            yield Words(weeks.left - style.small * 0.4, y, str(trays), "regular", style.small, 0.0, "right")
    if limit is not None:
        y = bottom - limit * tall
        yield Line(weeks.left, y, weeks.right, y, 0.0, style.stroke(1.1), dashed=True)
    yield from _names(shown, names, weeks, style, bottom, tall, bench.drawn)


def _head(bench: Bench, style: Style, top: float, explained: bool) -> Iterator[Shape]:
    """A place's name and its room."""
    line = top + style.base * 1.1
    room = room_said(style.words, bench.room)
    at = MARGIN + style.wide(f"{capital(bench.name)}  ", "semi bold", style.base)
    told = style.words.say("bench.explained", room=room) if explained else room
    if at + style.wide(told, "regular", style.small) > style.paper.width - MARGIN:
        told = room
    end = at + style.wide(told, "regular", style.small)
    yield Box(MARGIN, line - style.base * 0.8, end + style.small * 0.4 - MARGIN, style.base * 1.1, fill=1.0)
    yield Words(MARGIN + style.base * 0.1, line, capital(bench.name), "semi bold", style.base)
    yield Words(at, line, told, "regular", style.small, SOFT)


def _block(
    block: TrayBlock, room: int | None, weeks: Weeks, style: Style, bottom: float, tall: float
) -> Iterator[Shape]:
    """A block, hatched where it is above the room."""
    x1, x2 = weeks.x(block.start), weeks.x(block.end)
    fits = block.high if room is None else max(block.low, min(block.high, room))
    for low, high, hatched in ((block.low, fits, False), (fits, block.high, True)):
        if high > low:
            yield Box(
                x1,
                bottom - high * tall,
                x2 - x1,
                (high - low) * tall,
                fill=1.0,
                stroke=0.0,
                line_pt=style.stroke(0.9),
                hatch="diagonal" if hatched else "",
                pitch_pt=style.hatching,
                dashed=block.maybe,
            )


class Taken(msgspec.Struct, frozen=True):
    """Where something stands or is written: from x1 to x2, on the spots from `low` up to but not including `high`."""

    x1: float
    x2: float
    low: float
    high: float

    def touches(self, other: Taken) -> bool:
        """Whether two of them overlap."""
        hair = 0.005
        beside = self.x2 - hair <= other.x1 or other.x2 - hair <= self.x1
        return not beside and self.low < other.high - hair and other.low < self.high - hair


class Board:
    """What is taken of a place's picture, found again by columns."""

    def __init__(self, taken: Iterable[Taken]) -> None:
        self.columns: dict[int, list[Taken]] = {}
        for one in taken:
            self.take(one)

    def take(self, one: Taken) -> None:
        """Nothing else may lie there from now on."""
        for column in self._columns(one):
            self.columns.setdefault(column, []).append(one)

    def is_free(self, one: Taken) -> bool:
        """Whether nothing lies there."""
        return not any(other.touches(one) for column in self._columns(one) for other in self.columns.get(column, ()))

    @staticmethod
    def _columns(one: Taken) -> range:
        return range(int(one.x1 // COLUMN), int(one.x2 // COLUMN) + 1)


def _names(
    blocks: Sequence[TrayBlock],
    names: Mapping[str, str],
    weeks: Weeks,
    style: Style,
    bottom: float,
    tall: float,
    drawn: int,
) -> Iterator[Shape]:
    """Each block's name: inside it, else beside it, else above it with a line down to it; smaller where need be."""
    board = Board(Taken(weeks.x(b.start), weeks.x(b.end), b.low, b.high) for b in blocks)
    left_over = []
    for block in blocks:
        found = _inside(block, names[block.batch], weeks, style, bottom, tall)
        if found is None:
            left_over.append(block)
        else:
            yield from found
    for block in sorted(left_over, key=lambda b: (b.start, b.low)):
        yield from _outside(block, names[block.batch], weeks, style, bottom, tall, drawn, board)


def _inside(block: TrayBlock, name: str, weeks: Weeks, style: Style, bottom: float, tall: float) -> list[Shape] | None:
    x1, x2 = weeks.x(block.start), weeks.x(block.end)
    for size, face in _sizes(style):
        wide = style.wide(name, face, size)
        if wide + size * 0.4 <= x2 - x1 and size <= (block.high - block.low) * tall:
            y = bottom - (block.low + block.high) / 2 * tall + size * 0.27
            return _written(name, (x1 + x2 - wide) / 2, y, wide, face, size)
    return None


def _outside(
    block: TrayBlock,
    name: str,
    weeks: Weeks,
    style: Style,
    bottom: float,
    tall: float,
    drawn: int,
    board: Board,
) -> Iterator[Shape]:
    x1, x2, middle = weeks.x(block.start), weeks.x(block.end), (block.low + block.high) / 2
    for size, face in _sizes(style):
        wide, gap, spots = style.wide(name, face, size), size * 0.3, size / tall
        for level in (middle, *(block.high + 0.6 * spots + n * 0.25 for n in range(4 * min(FAR, drawn - block.high)))):
            above = level > block.high
            starts = ((x1 + x2) / 2 - wide / 2, (x1 + x2) / 2 - size * 0.3) if above else (x2 + gap, x1 - gap - wide)
            for at in starts:
                here = Taken(at - gap * 0.5, at + wide + gap * 0.5, level - spots * 0.5, level + spots * 0.5)
                stem = Taken((x1 + x2) / 2 - 0.6, (x1 + x2) / 2 + 0.6, block.high, level - spots * 0.5)
                needed = [here, stem] if above else [here]
                inside = weeks.left <= here.x1 and here.x2 <= weeks.right and here.high <= drawn
                if not inside or not all(board.is_free(need) for need in needed):
                    continue
                for need in needed:
                    board.take(need)
                if above:
                    x = (x1 + x2) / 2
                    yield Line(x, bottom - block.high * tall, x, bottom - (level - spots * 0.45) * tall, 0.0, 0.5)
                yield from _written(name, at, bottom - level * tall + size * 0.27, wide, face, size)
                return


_FACES: tuple[Face, ...] = ("semi", "condensed")


def _sizes(style: Style) -> Iterator[tuple[float, Face]]:
    for size in (style.small, style.small * 0.85, SMALLEST):
        yield from ((size, face) for face in _FACES)


def _written(name: str, x: float, y: float, wide: float, face: Face, size: float) -> list[Shape]:
    plate = Box(x - size * 0.1, y - size * 0.76, wide + size * 0.2, size * 0.98, fill=1.0)
    return [plate, Words(x, y, name, face, size)]
