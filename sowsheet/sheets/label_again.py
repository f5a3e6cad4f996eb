"""The name of a row said again on a sheet where it does not begin: wherever nothing is written over."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from sowsheet.sheets.chart_head import Style
from sowsheet.sheets.cutting import HAIR, Window, bounds
from sowsheet.sheets.flow import cut
from sowsheet.sheets.shapes import Box, Face, Line, Measure, Shape, Words


def label_again(label: str, shapes: Sequence[Shape], band: Window, style: Style, within: bool) -> list[Shape]:
    """The name of a row said again where nothing is written over, as far left as there is room; smaller, then on a
    plate over a hatch, where the sheet is full. `within`: in ribbons too, and best in the middle of the row."""
    if not label:
        return []
    for size, face, over, share in _ways(style):
        gap = size * 0.25
        room = min(band.right - band.left - 2 * gap, style.wide(label, face, size) * share + HAIR)
        words = cut(label, room, face, size, style.measure)
        wide = style.wide(words, face, size)
        taken = list(_taken(shapes, band, style.measure, within or over, over))
        found = _free(taken, band, wide, size, gap, within) if words else None
        if found is not None:
            x, middle = found
            here = Window(x - gap * 0.4, middle - size * 0.5, x + wide + gap * 0.4, middle + size * 0.5)
            y = middle + size * 0.27
            plate = Box(here.left, y - size * 0.8, here.right - here.left, size * 1.04, fill=_ground(shapes, here))
            return [plate, Words(x, y, words, face, size)]
    return []


def _ways(style: Style) -> Iterator[tuple[float, Face, bool, float]]:
    """How a name is tried: its size and face, whether over a hatch, and how much of it at least."""
    yield style.base, "semi bold", False, 1.0
    yield style.inner, "semi bold", False, 1.0
    yield style.inner, "semi bold", True, 1.0
    yield style.inner, "condensed bold", True, 1.0
    yield from ((style.small, "condensed bold", True, share) for share in (1.0, 0.7, 0.5, 0.35, 0.2))


def _taken(shapes: Sequence[Shape], band: Window, measure: Measure, within: bool, over: bool) -> Iterator[Window]:
    """What words must not lie on, in a band: words, marks, and boxes; of blank boxes only the edges if `within`, of
    hatched ones if `over`."""
    for shape in shapes:
        at = bounds(shape, measure)
        if not at.meets(band) and not isinstance(shape, Line):
            continue
        if isinstance(shape, Box) and (shape.fill is None or shape.fill > 0.9):
            hair = shape.line_pt
            is_ground = at.holds(band, 1.0)
            if (shape.hatch and not over) or not (within or is_ground):
                yield at
            elif shape.stroke is not None or shape.hatch:
                yield Window(at.left, at.top - hair, at.right, at.top + hair)
                yield Window(at.left, at.bottom - hair, at.right, at.bottom + hair)
                yield Window(at.left - hair, at.top, at.left + hair, at.bottom)
                yield Window(at.right - hair, at.top, at.right + hair, at.bottom)
        elif isinstance(shape, Line):
            short = at.bottom - at.top < 0.6 * (band.bottom - band.top)  # lines of weeks are long
            if short and at.bottom > band.top and at.top < band.bottom:
                hair = shape.line_pt
                yield Window(at.left - hair, at.top - hair, at.right + hair, at.bottom + hair)
        else:
            yield at


def _free(
    taken: Sequence[Window], band: Window, wide: float, size: float, gap: float, middle_first: bool
) -> tuple[float, float] | None:
    """The left end and the middle of a line of words where nothing is taken, the best of all; None: there is none."""
    low, high = band.top + size * 0.56, band.bottom - size * 0.56
    if high < low:
        return None
    wanted = (low + high) / 2 if middle_first else low
    steps = int((high - low) / (size * 0.2)) + 1
    levels = sorted(
        (wanted, *(low + (high - low) * n / steps for n in range(steps + 1))), key=lambda v: abs(v - wanted)
    )
    best: tuple[float, float, float] | None = None
    for level in levels:
        x = band.left + gap
        while x + wide + gap <= band.right:
            cost = x + abs(level - wanted) * 4
            if best is not None and cost >= best[0]:
                break
            here = Window(x - gap, level - size * 0.52, x + wide + gap, level + size * 0.52)
            hit = next((one for one in taken if one.meets(here)), None)
            if hit is None:
                best = (cost, x, level)
                break
            x = max(x + 1.0, hit.right + gap + 0.02)
    return None if best is None else (best[1], best[2])


def _ground(shapes: Sequence[Shape], here: Window) -> float:
    """The grey of the last box that lies behind all of a place."""
    found = 1.0
    for shape in shapes:
        if isinstance(shape, Box) and shape.fill is not None:
            at = Window(shape.x, shape.y, shape.x + shape.width, shape.y + shape.height)
            if at.holds(here, 0.5):
                found = shape.fill
    return found
