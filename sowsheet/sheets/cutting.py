"""Shapes cut to a window, enlarged, and the places between words where a sheet may be cut."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

import msgspec

from sowsheet.sheets.shapes import Box, Line, Measure, Polygon, Shape, Words

HAIR = 0.01
ABOVE, BELOW = 0.78, 0.24  # of its size, what a line of text fills over and under its base line
CLEAR_PT = 1.0  # between a seam and the words beside it
STEP_PT = 0.5


class Window(msgspec.Struct, frozen=True):
    """A rectangle of a page, in points."""

    left: float
    top: float
    right: float
    bottom: float

    def meets(self, other: Window) -> bool:
        """Whether two of them overlap."""
        across = self.left < other.right - HAIR and other.left < self.right - HAIR
        return across and self.top < other.bottom - HAIR and other.top < self.bottom - HAIR

    def holds(self, other: Window, hair: float = HAIR) -> bool:
        """Whether all of another lies inside."""
        across = other.left >= self.left - hair and other.right <= self.right + hair
        return across and other.top >= self.top - hair and other.bottom <= self.bottom + hair


def bounds(shape: Shape, measure: Measure) -> Window:
    """The rectangle that a shape fills, without the thickness of its lines."""
    match shape:
        case Words():
            wide = measure(shape.text, shape.face, shape.size_pt)
            left = shape.x - {"left": 0.0, "centre": wide / 2, "right": wide}[shape.align]
            size = shape.size_pt
            return Window(left, shape.y - ABOVE * size, left + wide, shape.y + BELOW * size)
        case Box():
            return Window(shape.x, shape.y, shape.x + shape.width, shape.y + shape.height)
        case Line():
            xs, ys = sorted((shape.x1, shape.x2)), sorted((shape.y1, shape.y2))
            return Window(xs[0], ys[0], xs[1], ys[1])
        case Polygon():
            xs, ys = sorted(x for x, _ in shape.points), sorted(y for _, y in shape.points)
            return Window(xs[0], ys[0], xs[-1], ys[-1])


def bounds_of(shapes: Iterable[Shape], measure: Measure) -> Window:
    """The rectangle round some shapes, one at least."""
    found = [bounds(shape, measure) for shape in shapes]
    return Window(
        min(a.left for a in found), min(a.top for a in found), max(a.right for a in found), max(a.bottom for a in found)
    )


def cut(shapes: Iterable[Shape], window: Window, measure: Measure) -> Iterator[Shape]:
    """What of the shapes lies in the window. Words are whole or left out, everything else ends at its edges."""
    for shape in shapes:
        at = bounds(shape, measure)
        if isinstance(shape, Words):
            if window.holds(at, 0.6):
                yield shape
        elif window.holds(at):
            yield shape
        elif isinstance(shape, Box):
            yield from _cut_box(shape, window)
        elif isinstance(shape, Line):
            yield from _cut_line(shape, window)
        else:
            yield from _cut_polygon(shape, window)


def _cut_box(box: Box, window: Window) -> Iterator[Shape]:
    """The part of a box inside a window: filled or hatched without an outline, and the sides that are left of it."""
    left, right = max(box.x, window.left), min(box.x + box.width, window.right)
    top, bottom = max(box.y, window.top), min(box.y + box.height, window.bottom)
    if right - left <= HAIR or bottom - top <= HAIR:
        return
    if box.fill is not None or box.hatch:
        yield msgspec.structs.replace(
            box, x=left, y=top, width=right - left, height=bottom - top, stroke=None, radius=0.0
        )
    if box.stroke is None:
        return
    pen = (box.stroke, box.line_pt, box.dashed)
    sides = (
        (left, box.y, right, box.y),
        (left, box.y + box.height, right, box.y + box.height),
        (box.x, top, box.x, bottom),
        (box.x + box.width, top, box.x + box.width, bottom),
    )
    for x1, y1, x2, y2 in sides:
        yield from _cut_line(Line(x1, y1, x2, y2, *pen), window)


def _cut_line(line: Line, window: Window) -> Iterator[Line]:
    """The part of a line inside a window (Liang and Barsky's way)."""
    low, high = 0.0, 1.0
    dx, dy = line.x2 - line.x1, line.y2 - line.y1
    for change, room in (
        (-dx, line.x1 - window.left),
        (dx, window.right - line.x1),
        (-dy, line.y1 - window.top),
        (dy, window.bottom - line.y1),
    ):
        if abs(change) < 1e-9:
            if room < -HAIR:
                return
        elif change < 0:
            low = max(low, room / change)
        else:
            high = min(high, room / change)
    if low < high:
        yield msgspec.structs.replace(
            line,
            x1=line.x1 + low * dx,
            y1=line.y1 + low * dy,
            x2=line.x1 + high * dx,
            y2=line.y1 + high * dy,
        )


def _cut_polygon(shape: Polygon, window: Window) -> Iterator[Polygon]:
    """The part of a convex shape inside a window, cut edge by edge (Sutherland and Hodgman's way)."""
    points = list(shape.points)
    for axis, edge, keeps_above in (
        (0, window.left, True),
        (0, window.right, False),
        (1, window.top, True),
        (1, window.bottom, False),
    ):
        kept: list[tuple[float, float]] = []
        for n, point in enumerate(points):
            before = points[n - 1]
            inside = (point[axis] >= edge) == keeps_above or point[axis] == edge
            was = (before[axis] >= edge) == keeps_above or before[axis] == edge
            if inside != was:
                share = (edge - before[axis]) / (point[axis] - before[axis])
                kept.append((before[0] + share * (point[0] - before[0]), before[1] + share * (point[1] - before[1])))
            if inside:
                kept.append(point)
        points = kept
    if len(points) > 2:
        yield msgspec.structs.replace(shape, points=tuple(points))


def enlarged(shape: Shape, times: float) -> Shape:
    """A shape so many times as large, from the origin."""
    replace = msgspec.structs.replace
    match shape:
        case Words():
            return replace(shape, x=shape.x * times, y=shape.y * times, size_pt=shape.size_pt * times)
        case Line():
            ends = {name: getattr(shape, name) * times for name in ("x1", "y1", "x2", "y2", "line_pt")}
            return replace(shape, **ends)
        case Polygon():
            points = tuple((x * times, y * times) for x, y in shape.points)
            return replace(shape, points=points, line_pt=shape.line_pt * times)
        case Box():
            names = ("x", "y", "width", "height", "line_pt", "radius", "pitch_pt")
            return replace(shape, **{name: getattr(shape, name) * times for name in names})


def seams(taken: Sequence[tuple[float, float]], end: float, reach: float, most: int) -> tuple[float, ...] | None:
    """Where a sheet from 0 to `end` is cut into at most so many pieces, none longer than `reach`: each cut as far on as
    it can be without running through one of the spans that are `taken`. None where there is no such way."""
    found = [0.0]
    while found[-1] + reach < end - HAIR:
        if len(found) == most:
            return None
        at, least = found[-1] + reach, found[-1] + reach / 2
        while at > least and any(a - CLEAR_PT < at < b + CLEAR_PT for a, b in taken):
            at -= STEP_PT
        if at <= least:
            return None
        found.append(at)
    return (*found, end)
