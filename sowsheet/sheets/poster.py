"""Posters cut into sheets of A4 or Letter, with what is needed to put them together again.

A sheet shows its part of the poster, and to its right the beginning of the next one, over which that is glued. Ticks
and words for putting together stand outside what is seen in the end, and no nearer to the paper's edge than `FLOOR`.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence

import msgspec

from sowsheet.sheets.cutting import Window, bounds, cut, enlarged, seams
from sowsheet.sheets.flow import Run, moved, paragraph
from sowsheet.sheets.paper import MARGIN, MM
from sowsheet.sheets.poster_grid import FLOOR, OVERLAP, Grid, size_mm
from sowsheet.sheets.shapes import Box, Line, Measure, Page, Shape, Sheet, Words

TICK_OFF, TICK_LONG, TICK_PT = 2 * MM, 5 * MM, 0.6
BAR = 100 * MM
BLEED = 1 * MM  # of the next row's sheet, below a cut
MARK_PT = 8.5  # the words of the marks
LARGEST, BODY = 22.0, 13.0  # on the page that tells how it is put together
LEAST_TIMES = 1.1  # a page less enlarged is no poster
SHRINK = 0.98
EVENLY = (1.02, 1.08, 1.15, 1.25, 9.0)  # times the even part of a page, what of it is on a sheet
SMALL_PT = 40.0  # marks no wider, or no higher, than this are not cut, where it can be helped

# Words in print.
HOW = "How to put the poster together"
HOW_MARK = "How to put it together"
STEPS = (
    "Print all sheets at 100 % (actual size, not fitted to the page), on one side.",
    "Measure the bar under each sheet: it is 100 mm long. If it is not, the printer has changed the size.",
    "Cut off the left edge of every sheet, but not of column 1, along its ticks.",
    "Cut off the top edge of every sheet, but not of row 1, along its ticks.",
    "Glue each row from left to right: a cut edge lies on the ticks of the sheet before it.",
    "Glue the rows together from the top down in the same way. The white border may be cut off.",
)
BAR_WORDS = "100 mm: print at 100 %"
NO_SEAM = "in so many columns its pages are cut through words, or are no larger than before"
NO_SEAM_CURE = "pages of text want one column, e.g. --poster 1x2"
MANY = "Each of its {count} parts is put together so; the sheets of the first part are shown."


def _size_words(grid: Grid, columns: int, rows: int) -> str:
    own = msgspec.structs.replace(grid, columns=columns, rows=rows)
    return f"{columns} across and {rows} down, {size_mm(own)} glued together, on {grid.paper}"


def _place_words(row: int, rows: int, column: int, columns: int) -> str:
    return f"row {row + 1} of {rows}, column {column + 1} of {columns}"


def _sheet_words(number: int, name: str, place: str) -> str:
    return f"Sheet {number}: {name}{place}"


class Poster(msgspec.Struct, frozen=True):
    """A poster in one piece, the origin where its first sheet begins to print, and its seams, edges included.

    `name` tells it from other posters of the same file: `poster 2, `.
    """

    page: Page
    xs: tuple[float, ...]
    ys: tuple[float, ...]
    name: str = ""


class Unfit(msgspec.Struct, frozen=True):
    """Why a sheet cannot be a poster of this grid, and what can."""

    what: str
    cure: str


def tiled(title: str, posters: Sequence[Poster], grid: Grid, measure: Measure) -> Sheet:
    """The file: how to put it together, then the sheets of each poster, row by row."""
    pages = [_how(title, posters, grid, measure)]
    marks = [(0, HOW_MARK)]
    for poster in posters:
        rows, columns = len(poster.ys) - 1, len(poster.xs) - 1
        for row in range(rows):
            for column in range(columns):
                number = len(pages)
                place = _place_words(row, rows, column, columns)
                marks.append((number, _sheet_words(number, poster.name, place)))
                pages.append(_tile(poster, grid, row, column, number, measure))
    return Sheet(title, tuple(pages), tuple(marks))


def _tile(poster: Poster, grid: Grid, row: int, column: int, number: int, measure: Measure) -> Page:
    seen = seen_on(poster, row, column)
    rows, columns = len(poster.ys) - 1, len(poster.xs) - 1
    right = OVERLAP if column < columns - 1 else 0.0
    below = BLEED if row < rows - 1 else 0.0
    printed = Window(seen.left, seen.top, seen.right + right, seen.bottom + below)
    dx, dy = MARGIN - seen.left, MARGIN - seen.top
    shapes = [
        _put(piece, dx, dy)
        for shape in poster.page.shapes
        for piece in cut((shape,), seen if isinstance(shape, Words) else printed, measure)
    ]
    trim = Window(MARGIN, MARGIN, MARGIN + seen.right - seen.left, MARGIN + seen.bottom - seen.top)
    shapes += _ticks(trim)
    said = _sheet_words(number, poster.name, _place_words(row, rows, column, columns))
    shapes += _told(trim, said, measure)
    return Page(*grid.page, tuple(shapes), str(number))


def _put(shape: Shape, dx: float, dy: float) -> Shape:
    """A shape elsewhere, its hatch with it."""
    there = moved(shape, dx, dy)
    return msgspec.structs.replace(there, shift=(dx, dy)) if isinstance(there, Box) and there.hatch else there


def seen_on(poster: Poster, row: int, column: int) -> Window:
    """What of the poster a sheet shows in the end."""
    return Window(poster.xs[column], poster.ys[row], poster.xs[column + 1], poster.ys[row + 1])


def _ticks(trim: Window) -> Iterator[Line]:
    """Ticks at the corners, on the lines along which sheets are cut or laid: long where there is room outside."""
    for x in (trim.left, trim.right):
        yield Line(x, trim.bottom + TICK_OFF, x, trim.bottom + TICK_OFF + TICK_LONG, 0.0, TICK_PT)
        yield Line(x, FLOOR, x, trim.top - TICK_OFF, 0.0, TICK_PT)
    for y in (trim.top, trim.bottom):
        yield Line(trim.right + TICK_OFF, y, trim.right + TICK_OFF + TICK_LONG, y, 0.0, TICK_PT)
        yield Line(FLOOR, y, trim.left - TICK_OFF, y, 0.0, TICK_PT)


def _told(trim: Window, said: str, measure: Measure) -> Iterator[Shape]:
    """Below what is seen: which sheet it is, and the bar."""
    left = trim.left + 4 * MM
    size = min(MARK_PT, MARK_PT * (trim.right - left - 2 * MM) / measure(said, "semi bold", MARK_PT))
    yield Words(left, trim.bottom + 4.4 * MM, said, "semi bold", size)
    yield from check_bar(left, trim.bottom + 7.6 * MM)


def check_bar(x: float, y: float) -> Iterator[Shape]:
    """A bar 100 mm long from (x, y), and what it is for."""
    yield Line(x, y, x + BAR, y, 0.0, 1.0)
    for end in (x, x + BAR):
        yield Line(end, y - 1.2 * MM, end, y + 1.2 * MM, 0.0, 0.75)
    yield Words(x + BAR + 2 * MM, y + MARK_PT * 0.3, BAR_WORDS, "semi", MARK_PT)


def _how(title: str, posters: Sequence[Poster], grid: Grid, measure: Measure) -> Page:
    """The first page: what it is, the steps, the bar, and which sheet goes where."""
    wide, tall = grid.page
    left, right = MARGIN, wide - MARGIN
    y = MARGIN
    shapes: list[Shape] = []
    rows, columns = len(posters[0].ys) - 1, len(posters[0].xs) - 1
    told = [
        ((Run(HOW, "bold"),), LARGEST),
        ((Run(title, "semi bold"), Run(f": {_size_words(grid, columns, rows)}.")), BODY),
    ]
    if len(posters) > 1:
        told.append(((Run(MANY.format(count=len(posters))),), BODY))
    told += [((Run(f"{n}. ", "semi bold"), Run(step)), BODY) for n, step in enumerate(STEPS, 1)]
    for runs, size in told:
        text, height = paragraph(runs, left, y, right - left, size, measure)
        shapes += text
        y += height + (4 * MM if size == LARGEST else 0.6 * MM)
    y += 5 * MM
    shapes += check_bar(left, y)
    y += 6 * MM
    shapes += _picture(posters[0], Window(left, y, right, tall - MARGIN), measure)
    return Page(wide, tall, tuple(shapes), "0")


def _picture(poster: Poster, room: Window, measure: Measure) -> Iterator[Shape]:
    """The poster small and without its words, its sheets parted and numbered."""
    wide, tall = poster.xs[-1], poster.ys[-1]
    times = min((room.right - room.left) / wide, (room.bottom - room.top) / tall)
    whole = Window(0.0, 0.0, wide, tall)
    for shape in cut((s for s in poster.page.shapes if not isinstance(s, Words)), whole, measure):
        yield moved(_faint(enlarged(shape, times)), room.left, room.top)
    rows, columns = len(poster.ys) - 1, len(poster.xs) - 1
    for row in range(rows):
        for column in range(columns):
            seen = seen_on(poster, row, column)
            x, y = room.left + seen.left * times, room.top + seen.top * times
            width, height = (seen.right - seen.left) * times, (seen.bottom - seen.top) * times
            yield Box(x, y, width, height, stroke=0.0, line_pt=1.2)
            number = str(row * columns + column + 1)
            size = min(20.0, height * 0.4)
            middle = x + width / 2
            yield Words(middle, y + height * 0.5, number, "bold", size, 0.0, "centre", plate=True)
            small = min(9.0, height * 0.14)
            place = f"row {row + 1}, column {column + 1}"
            if measure(place, "semi", small) < width * 0.94:
                yield Words(middle, y + height * 0.5 + small * 1.5, place, "semi", small, 0.0, "centre", plate=True)


def _faint(shape: Shape) -> Shape:
    """As small as that, a hatch is a grey, and lines are fine."""
    if isinstance(shape, Box):
        fill = 0.75 if shape.hatch else None if shape.fill is None else max(shape.fill, 0.45)
        stroke = None if shape.stroke is None else 0.45
        return msgspec.structs.replace(shape, hatch="", fill=fill, stroke=stroke, line_pt=0.3, dashed=False)
    if isinstance(shape, Line):
        return msgspec.structs.replace(shape, grey=max(shape.grey, 0.6), line_pt=0.3, dashed=False)
    return shape


def enlarged_sheet(sheet: Sheet, grid: Grid, measure: Measure) -> Sheet | Unfit:
    """A sheet for the hand as posters: each page as large as the grid, its paper lying or upright, holds it with its
    seams between its words; or what grid can hold it."""
    made = [
        (times, own, posters)
        for upright in (False, True)
        for own in (msgspec.structs.replace(grid, upright=upright),)
        for times, posters in (_enlarged(sheet, own, measure),)
        if times and max(len(poster.xs) - 1 for poster in posters) == grid.columns
    ]
    if made:
        _, own, posters = max(made, key=lambda m: m[0])
        return tiled(sheet.title, posters, own, measure)
    return Unfit(NO_SEAM, NO_SEAM_CURE)


def _enlarged(sheet: Sheet, grid: Grid, measure: Measure) -> tuple[float, tuple[Poster, ...]]:
    """How many times as large the pages are, and they as posters; 0 where there is no way."""
    areas = [_area(page, measure) for page in sheet.pages]
    wide, tall = max(a.right - a.left for a in areas), max(a.bottom - a.top for a in areas)
    across, down = grid.columns * grid.pitch[0], grid.rows * grid.pitch[1]
    times = min(across / wide, down / tall)
    while times >= LEAST_TIMES:
        made = [_poster(page, area, grid, times, measure) for page, area in zip(sheet.pages, areas, strict=True)]
        fit = [poster for poster in made if poster is not None]
        if len(fit) == len(made):
            return times, tuple(
                msgspec.structs.replace(poster, name=f"page {page.label or n}, " if len(made) > 1 else "")
                for n, (poster, page) in enumerate(zip(fit, sheet.pages, strict=True), 1)
            )
        times *= SHRINK
    return 0.0, ()


def _area(page: Page, measure: Measure) -> Window:
    """What of a page is printed on."""
    found = [bounds(shape, measure) for shape in page.shapes]
    hair = 1.0
    return Window(
        min(a.left for a in found) - hair,
        min(a.top for a in found) - hair,
        max(a.right for a in found) + hair,
        max(a.bottom for a in found) + hair,
    )


def _poster(page: Page, area: Window, grid: Grid, times: float, measure: Measure) -> Poster | None:
    """A page so many times as large, cut between its words and, if it can be, between its small marks too."""
    shapes = [enlarged(moved(shape, -area.left, -area.top), times) for shape in page.shapes]
    wide, tall = (area.right - area.left) * times, (area.bottom - area.top) * times
    found = [(bounds(s, measure), isinstance(s, Words)) for s in shapes if not isinstance(s, Words) or s.text.strip()]
    for small in (SMALL_PT * times, -1.0):
        across = _spans((at.left, at.right) for at, read in found if read or at.right - at.left <= small)
        down = _spans((at.top, at.bottom) for at, read in found if read or at.bottom - at.top <= small)
        xs = _even_seams(across, wide, grid.pitch[0], grid.columns)
        ys = _even_seams(down, tall, grid.pitch[1], grid.rows)
        if xs is not None and ys is not None:
            return Poster(Page(wide, tall, tuple(shapes)), xs, ys)
    return None


def _even_seams(taken: Sequence[tuple[float, float]], end: float, reach: float, most: int) -> tuple[float, ...] | None:
    """Seams that part a length as evenly as may be, none of its parts longer than `reach`."""
    even = end / math.ceil(end / reach)
    reaches = [min(reach, even * times) for times in EVENLY]
    return next((found for one in reaches if (found := seams(taken, end, one, most)) is not None), None)


def _spans(found: Iterable[tuple[float, float]]) -> list[tuple[float, float]]:
    """Spans that overlap joined to one, in order."""
    joined: list[tuple[float, float]] = []
    for low, high in sorted(found):
        if joined and low <= joined[-1][1]:
            joined[-1] = (joined[-1][0], max(joined[-1][1], high))
        else:
            joined.append((low, high))
    return joined
