"""Posters cut into sheets of A4 or Letter, with what is needed to put them together again.

A sheet shows its part of the poster, and to its right the beginning of the next one, over which that is glued. Ticks
and words for putting together stand outside what is seen in the end, and no nearer to the paper's edge than `FLOOR`.
"""

from __future__ import annotations

import math
from bisect import bisect_right
from collections.abc import Iterable, Iterator, Sequence

import msgspec

from sowsheet.sheets.cutting import Window, bounds, bounds_of, cut, enlarged, seams
from sowsheet.sheets.flow import Run, moved, paragraph
from sowsheet.sheets.paper import MARGIN, MM
from sowsheet.sheets.poster_grid import FLOOR, OVERLAP, Grid, size_mm
from sowsheet.sheets.shapes import LEVEL, OPENS, Box, Leaf, Line, Measure, Page, Role, Shape, Sheet, Tag, Words
from sowsheet.words.language import Language

TICK_OFF, TICK_LONG, TICK_PT = 2 * MM, 5 * MM, 0.6
BAR = 100 * MM
BLEED = 1 * MM  # of the next row's sheet, below a cut
MARK_PT = 8.5  # the words of the marks
LARGEST, BODY = 22.0, 13.0  # on the page that tells how it is put together
LEAST_TIMES = 1.1  # a page less enlarged is no poster
SHRINK = 0.98
EVENLY = (1.02, 1.08, 1.15, 1.25, 9.0)  # times the even part of a page, what of it is on a sheet
SMALL_PT = 40.0  # marks no wider, or no higher, than this are not cut, where it can be helped

STEPS = ("print", "measure", "left", "top", "row", "rows")
OF_TABLES = frozenset(role for role, level in LEVEL.items() if level > 1)  # cells, and what stands in entries


def _place(words: Language, row: int, rows: int, column: int, columns: int) -> str:
    """Row 1 of 2, column 3 of 3, from 0 each."""
    return words.say("poster.place", row=row + 1, rows=rows, column=column + 1, columns=columns)


class Told(msgspec.Struct, frozen=True):
    """A tag of a poster's page, and the row and column of the sheet on which it is read, from 0."""

    row: int
    column: int
    tag: Tag


class Poster(msgspec.Struct, frozen=True):
    """A poster in one piece, the origin where its first sheet begins to print, and its seams, edges included.

    `name` tells it from other posters of the same file: `poster 2 of 3`.
    """

    page: Page
    xs: tuple[float, ...]
    ys: tuple[float, ...]
    name: str = ""
    told: tuple[Told, ...] = ()


class Unfit(msgspec.Struct, frozen=True):
    """Why a sheet cannot be a poster of this grid, and what can: the tail of both phrases' keys."""

    why: str


def tiled(title: str, posters: Sequence[Poster], grid: Grid, measure: Measure, words: Language) -> Sheet:
    """The file: how to put it together, then the sheets of each poster, row by row."""
    pages = [_how(title, posters, grid, measure, words)]
    marks = [(0, words.say("poster.how mark"))]
    for poster in posters:
        rows, columns = len(poster.ys) - 1, len(poster.xs) - 1
        for row in range(rows):
            for column in range(columns):
                number, place = len(pages), _place(words, row, rows, column, columns)
                key = "poster.sheet of" if poster.name else "poster.sheet"
                name = words.say(key, number=number, name=poster.name, place=place)
                marks.append((number, name))
                pages.append(_tile(poster, grid, row, column, number, name, measure, words))
    return Sheet(title, tuple(pages), tuple(marks), words.file_tag)


def _tile(
    poster: Poster, grid: Grid, row: int, column: int, number: int, name: str, measure: Measure, words: Language
) -> Page:
    seen = seen_on(poster, row, column)
    rows, columns = len(poster.ys) - 1, len(poster.xs) - 1
    right = OVERLAP if column < columns - 1 else 0.0
    below = BLEED if row < rows - 1 else 0.0
    printed = Window(seen.left, seen.top, seen.right + right, seen.bottom + below)
    dx, dy = MARGIN - seen.left, MARGIN - seen.top
    leaf = Leaf()
    starts = []  # where each shape of the poster begins among those of the sheet
    for shape in poster.page.shapes:
        starts.append(len(leaf.shapes))
        window = seen if isinstance(shape, Words) else printed
        leaf.draw(_put(piece, dx, dy) for piece in cut((shape,), window, measure))
    starts.append(len(leaf.shapes))
    own = [told.tag for told in poster.told if (told.row, told.column) == (row, column)]
    leaf.tags += filter(None, (_on_sheet(tag, starts) for tag in own))
    trim = Window(MARGIN, MARGIN, MARGIN + seen.right - seen.left, MARGIN + seen.bottom - seen.top)
    leaf.draw(_ticks(trim))
    _mark(leaf, trim, name, measure, words)
    return Page(*grid.page, tuple(leaf.shapes), str(number), tuple(leaf.tags))


def _on_sheet(tag: Tag, starts: Sequence[int]) -> Tag | None:
    """A poster's tag among the shapes of a sheet; None for a picture of which nothing is left there."""
    start, end = starts[tag.start], starts[tag.end]
    if start < end or tag.start == tag.end:
        return Tag(tag.role, start, end, tag.said)
    return Tag(tag.role, start, end) if tag.role in OF_TABLES else None


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


def _mark(leaf: Leaf, trim: Window, name: str, measure: Measure, words: Language) -> None:
    """Below what is seen: which sheet it is, and the bar."""
    left = trim.left + 4 * MM
    size = min(MARK_PT, MARK_PT * (trim.right - left - 2 * MM) / measure(name, "semi bold", MARK_PT))
    leaf.tag("P", [Words(left, trim.bottom + 4.4 * MM, name, "semi bold", size)])
    leaf.tags.insert(0, leaf.tags.pop())  # heard first
    leaf.draw(check_bar(left, trim.bottom + 7.6 * MM, words))


def check_bar(x: float, y: float, words: Language) -> Iterator[Shape]:
    """A bar 100 mm long from (x, y), and what it is for."""
    yield Line(x, y, x + BAR, y, 0.0, 1.0)
    for end in (x, x + BAR):
        yield Line(end, y - 1.2 * MM, end, y + 1.2 * MM, 0.0, 0.75)
    yield Words(x + BAR + 2 * MM, y + MARK_PT * 0.3, words.say("poster.bar"), "semi", MARK_PT)


def _how(title: str, posters: Sequence[Poster], grid: Grid, measure: Measure, words: Language) -> Page:
    """The first page: what it is, the steps, the bar, and which sheet goes where."""
    wide, tall = grid.page
    left, right = MARGIN, wide - MARGIN
    y = MARGIN
    leaf = Leaf()
    rows, columns = len(posters[0].ys) - 1, len(posters[0].xs) - 1
    size = size_mm(msgspec.structs.replace(grid, columns=columns, rows=rows))
    glued = words.say("poster.size", columns=columns, rows=rows, size=size, paper=grid.paper)
    told: list[tuple[Role, tuple[Run, ...]]] = [
        ("H1", (Run(words.say("poster.how"), "bold"),)),
        ("P", (Run(title, "semi bold"), Run(f": {glued}"))),
    ]
    if len(posters) > 1:
        told.append(("P", (Run(words.say("poster.many", n=len(posters))),)))
    steps = [words.say(f"poster.step.{step}") for step in STEPS]
    told += [("LI", (Run(f"{n}. ", "semi bold"), Run(step))) for n, step in enumerate(steps, 1)]
    for role, runs in told:
        text, height = paragraph(runs, left, y, right - left, LARGEST if role == "H1" else BODY, measure)
        if role == "LI":
            leaf.tag("LI")
        leaf.tag("LBody" if role == "LI" else role, text)
        y += height + (4 * MM if role == "H1" else 0.6 * MM)
    y += 5 * MM
    leaf.draw(check_bar(left, y, words))
    y += 6 * MM
    picture = _picture(posters[0], Window(left, y, right, tall - MARGIN), measure, words)
    leaf.tag("Figure", picture, words.say("poster.picture", n=rows * columns))
    return Page(wide, tall, tuple(leaf.shapes), "0", tuple(leaf.tags))


def _picture(poster: Poster, room: Window, measure: Measure, words: Language) -> Iterator[Shape]:
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
            place = words.say("poster.place in short", row=row + 1, column=column + 1)
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


def enlarged_sheet(sheet: Sheet, grid: Grid, measure: Measure, words: Language) -> Sheet | Unfit:
    """A sheet for the hand as posters: each page as large as the grid, its paper lying or upright, holds it with its
    seams between its words; or what grid can hold it."""
    made = [
        (times, own, posters)
        for upright in (False, True)
        for own in (msgspec.structs.replace(grid, upright=upright),)
        for times, posters in (_enlarged(sheet, own, measure, words),)
        if times and max(len(poster.xs) - 1 for poster in posters) == grid.columns
    ]
    if made:
        _, own, posters = max(made, key=lambda m: m[0])
        return tiled(sheet.title, posters, own, measure, words)
    return Unfit("no seam")


def _enlarged(sheet: Sheet, grid: Grid, measure: Measure, words: Language) -> tuple[float, tuple[Poster, ...]]:
    """How many times as large the pages are, and they as posters; 0 where there is no way."""
    areas = [_area(page, measure) for page in sheet.pages]
    wide, tall = max(a.right - a.left for a in areas), max(a.bottom - a.top for a in areas)
    across, down = grid.columns * grid.pitch[0], grid.rows * grid.pitch[1]
    times = min(across / wide, down / tall)
    while times >= LEAST_TIMES:
        made = [_poster(page, area, grid, times, measure) for page, area in zip(sheet.pages, areas, strict=True)]
        fit = [poster for poster in made if poster is not None]
        if len(fit) == len(made):
            named = [words.say("poster.page", page=page.label or n) for n, page in enumerate(sheet.pages, 1)]
            return times, tuple(
                msgspec.structs.replace(poster, name=name if len(made) > 1 else "", told=_read(poster, page, measure))
                for poster, page, name in zip(fit, sheet.pages, named, strict=True)
            )
        times *= SHRINK
    return 0.0, ()


def _area(page: Page, measure: Measure) -> Window:
    """What of a page is printed on, and a hair around it."""
    at, hair = bounds_of(page.shapes, measure), 1.0
    return Window(at.left - hair, at.top - hair, at.right + hair, at.bottom + hair)


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


def _read(poster: Poster, page: Page, measure: Measure) -> tuple[Told, ...]:
    """The tags of a page on the sheets that show what they mark, row by row. A picture and what is said in the place of
    words are read where they begin; words that go on over a seam, on both sheets. A row of a table that a seam parts is
    not read as a row, but its words one after the other; so are all where there are seams from top to bottom."""
    found: list[Told] = []
    for tags in _rows(page.tags):
        placed = []
        for tag in tags:
            shapes = poster.page.shapes[tag.start : tag.end]
            if tag.role not in OPENS:
                placed.append((tag, _sheets_of(shapes, poster, measure) or [_last(found)]))
        whole = len(poster.xs) == 2 and len({places[0] for _, places in placed}) == 1
        if whole and tags[0].role in OPENS and placed:
            found.append(Told(*placed[0][1][0], tags[0]))
        for tag, places in placed:
            found.append(Told(*places[0], tag if whole else _alone(tag)))
            if not tag.said:
                found += [Told(*place, Tag("P", tag.start, tag.end)) for place in places[1:]]
    return tuple(sorted(found, key=lambda told: (told.row, told.column)))


def _rows(tags: Iterable[Tag]) -> Iterator[list[Tag]]:
    """The tags of each row or entry together, and each other tag alone."""
    row: list[Tag] = []
    for tag in tags:
        if row and not (row[0].role in OPENS and tag.role in OF_TABLES):
            yield row
            row = []
        row.append(tag)
    if row:
        yield row


def _last(found: Sequence[Told]) -> tuple[int, int]:
    """The sheet that was told last."""
    return (found[-1].row, found[-1].column) if found else (0, 0)


def _alone(tag: Tag) -> Tag:
    """A tag that needs no row or list round it."""
    if tag.role not in OF_TABLES:
        return tag
    return Tag("Figure" if tag.role == "TD" and tag.said else "P", tag.start, tag.end, tag.said)


def _sheets_of(shapes: Sequence[Shape], poster: Poster, measure: Measure) -> list[tuple[int, int]]:
    """The rows and columns of the sheets on which words stand; of shapes without words, that of the first."""
    marks: list[Shape] = [s for s in shapes if isinstance(s, Words) and s.text.strip()]
    marks = marks or list(shapes[:1])
    found: dict[tuple[int, int], None] = {}
    for mark in marks:
        at = bounds(mark, measure)
        row = bisect_right(poster.ys, (at.top + at.bottom) / 2, 1, len(poster.ys) - 1) - 1
        column = bisect_right(poster.xs, (at.left + at.right) / 2, 1, len(poster.xs) - 1) - 1
        found[row, column] = None
    return list(found)


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
