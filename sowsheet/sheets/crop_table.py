"""The catalogue on the wall: a line a kind, on as many sheets as its lines need."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date
from itertools import groupby

import msgspec

from sowsheet.sheets.crop_rows import COLUMNS, CropRow
from sowsheet.sheets.flow import Run, moved, paragraph
from sowsheet.sheets.furniture import SOFT
from sowsheet.sheets.paper import MARGIN, Paper, landscape
from sowsheet.sheets.shapes import Box, Face, Leaf, Line, Measure, Page, Shape, Sheet, Tag, Words
from sowsheet.sheets.spoken import column_said
from sowsheet.words.language import Language

# Type in points, from what is read at a step's distance down to what is read close by.
SIZES = (
    24.0,
    22.0,
    20.0,
    19.0,
    18.0,
    17.0,
    16.0,
    15.0,
    14.0,
    13.0,
    12.0,
    11.5,
    11.0,
    10.5,
    10.0,
    9.5,
    9.0,
    8.5,
    8.0,
    7.5,
    7.0,
)
LEAST = 9.0  # below it, cells rather take a second line
PITCH = 1.5  # a head's height in sizes
PITCHES = (1.65, 1.6, 1.55, 1.5, 1.45, 1.4, 1.36)  # a line's, from roomy to close
SECOND = 1.15  # a further line of the same kind
GAP = 0.55  # white left and right of a cell, in sizes, both together
BAND_GREY = 0.93
_PLAIN: Face = "condensed"
_WHOLE = set("–…×")  # what has one of these in it is read as one
FACES: tuple[Face, ...] = ("semi bold", *(_PLAIN for _ in COLUMNS[1:]))


class Setting(msgspec.Struct, frozen=True):
    """The paper, the type's size, and each column's left edge and width."""

    paper: Paper
    measure: Measure
    size: float
    columns: tuple[tuple[str, str], ...]
    lefts: tuple[float, ...]
    widths: tuple[float, ...]
    pitch: float = PITCH

    @property
    def right(self) -> float:
        return self.lefts[-1] + self.widths[-1]


class Heading(msgspec.Struct, frozen=True):
    """What stands over the table and below it."""

    words: Language
    aside: str
    foot: tuple[str, ...]
    columns: tuple[tuple[str, str], ...]
    printed_on: date | None = None

    @property
    def title(self) -> str:
        return self.words.say("crop table.title")


def crop_table(rows: Sequence[CropRow], heading: Heading, paper: str, measure: Measure) -> Sheet:
    """The table in landscape; rows of one crop share a band and stay together on a page where they can."""
    setting = _set(rows, heading.columns, landscape(paper), measure)
    foot = list(foot_paragraphs(heading, setting))
    foot_tall = sum(tall for _, tall in foot)
    top = MARGIN + setting.size * 2.6
    head = setting.size * PITCH * 2 + setting.size * 0.3
    room = setting.paper.height - MARGIN - foot_tall - top - head
    crops = [list(own) for _, own in groupby(rows, key=lambda r: r.crop)]
    settings = [msgspec.structs.replace(setting, pitch=pitch) for pitch in PITCHES]
    dealt = [(one, _dealt(crops, one, room)) for one in settings]
    setting, pages = next(found for found in dealt if len(found[1]) <= len(dealt[-1][1]))
    made = []
    for n, page in enumerate(pages, 1):
        leaf = Leaf()
        leaf.lay(title_shapes(heading, setting, n, len(pages)), (Tag("H1", 0, 1), Tag("P", 1, 3)))
        head_rows(leaf, setting, top)
        body_rows(leaf, page, setting, top + head)
        leaf.draw(rules(setting, top, top + head, sum(row_height(r, setting) for crop in page for r in crop)))
        set_foot(leaf, foot, setting.paper.height - MARGIN - foot_tall)
        made.append(Page(setting.paper.width, setting.paper.height, tuple(leaf.shapes), tags=tuple(leaf.tags)))
    names = [(page[0][0].cells[0], page[-1][-1].cells[0]) for page in pages]
    marks = tuple((n, heading.words.say("crop table.from to", first=a, last=b)) for n, (a, b) in enumerate(names))
    return Sheet(heading.title, tuple(made), marks, heading.words.file_tag)


def _set(rows: Sequence[CropRow], columns: Sequence[tuple[str, str]], paper: Paper, measure: Measure) -> Setting:
    """The largest type in which every cell stands on one line; at the least size the widest cells take two."""
    room = paper.width - 2 * MARGIN
    unit = column_units(rows, columns, measure)
    size = next((s for s in SIZES if s >= LEAST and sum(unit) * s <= room), 0.0)
    if not size:
        size, unit = _narrowed(rows, columns, unit, room, measure)
    stretch = (room - sum(unit) * size) / len(unit)
    widths = tuple(u * size + stretch for u in unit)
    lefts = tuple(MARGIN + sum(widths[:n]) for n in range(len(widths)))
    return Setting(paper, measure, size, tuple(columns), lefts, widths)


def column_units(rows: Sequence[CropRow], columns: Sequence[tuple[str, str]], measure: Measure) -> list[float]:
    """How wide each column is in type of 1 pt, with every cell on one line."""
    return [
        max(
            *(measure(r.cells[n], FACES[n], 1.0) for r in rows),
            measure(columns[n][1], "semi bold", 1.0),
            _share_of_group(columns, n, measure),
        )
        + GAP
        for n in range(len(columns))
    ]


def _share_of_group(columns: Sequence[tuple[str, str]], column: int, measure: Measure) -> float:
    """What a column must give so that the head over its group fits."""
    group = columns[column][0]
    mates = sum(g == group for g, _ in columns)
    return (measure(group, "semi bold", 1.0) + GAP) / mates - GAP if group else 0.0


def _narrowed(
    rows: Sequence[CropRow],
    columns: Sequence[tuple[str, str]],
    unit: Sequence[float],
    room: float,
    measure: Measure,
) -> tuple[float, list[float]]:
    """The widest columns cut down, never below their longest word, until a row fits."""
    least = [
        max(
            measure(columns[n][1], "semi bold", 1.0),
            *(measure(w, FACES[n], 1.0) for r in rows for w in _unbroken(r.cells[n])),
        )
        + GAP
        for n in range(len(columns))
    ]
    for size in SIZES:
        widths = list(unit)
        while sum(widths) * size > room:
            slack = [(w - lo, n) for n, (w, lo) in enumerate(zip(widths, least, strict=True))]
            most, n = max(slack)
            if most <= 0.05:
                break
            widths[n] = max(least[n], widths[n] * 0.94)
        if sum(widths) * size <= room and (size <= LEAST):
            return size, widths
    return SIZES[-1], [w * room / (sum(least) * SIZES[-1]) for w in least]


def _unbroken(words: str) -> list[str]:
    """The pieces of a cell that stay on one line: spans of dates whole, names word by word."""
    return [piece for part in words.split(", ") for piece in ([part] if _WHOLE & set(part) else part.split())]


def _dealt(crops: Sequence[list[CropRow]], setting: Setting, room: float) -> list[list[list[CropRow]]]:
    """The crops on as few pages as hold them, evenly filled, a crop's kinds together."""
    tall = [sum(row_height(r, setting) for r in crop) for crop in crops]
    low, high = max(tall), max(*tall, room)
    fewest = len(_filled(crops, tall, high))
    for _ in range(16):
        middle = (low + high) / 2
        low, high = (low, middle) if len(_filled(crops, tall, middle)) <= fewest else (middle, high)
    return _filled(crops, tall, high)


def _filled(crops: Sequence[list[CropRow]], tall: Sequence[float], most: float) -> list[list[list[CropRow]]]:
    pages: list[list[list[CropRow]]] = []
    used = most + 1
    for crop, height in zip(crops, tall, strict=True):
        if used + height > most:
            pages.append([])
            used = 0.0
        pages[-1].append(crop)
        used += height
    return pages


def _lines(row: CropRow, setting: Setting) -> list[list[str]]:
    """Each cell's lines of text."""
    return [
        _broken(cell, FACES[n], setting.widths[n] - GAP * setting.size, setting) for n, cell in enumerate(row.cells)
    ]


def _broken(cell: str, face: Face, room: float, setting: Setting) -> list[str]:
    """A cell over as few lines as hold it; broken after a comma first, between words else."""
    if setting.measure(cell, face, setting.size) <= room + 0.5:
        return [cell]
    pieces = cell.split(", ") if ", " in cell else cell.split(" ")
    joint = ", " if ", " in cell else " "
    lines = [pieces[0]]
    for piece in pieces[1:]:
        longer = f"{lines[-1]}{joint}{piece}"
        if setting.measure(longer, face, setting.size) <= room + 0.5:
            lines[-1] = longer
        else:
            lines[-1] += joint.rstrip()
            lines.append(piece)
    return lines


def row_height(row: CropRow, setting: Setting) -> float:
    """The height of a row, by the cell with the most lines."""
    most = max(len(lines) for lines in _lines(row, setting))
    return setting.size * (setting.pitch + SECOND * (most - 1))


def body_rows(leaf: Leaf, page: Sequence[Sequence[CropRow]], setting: Setting, top: float) -> None:
    """The rows of some crops, every other crop on grey."""
    y, size = top, setting.size
    for n, crop in enumerate(page):
        tall = sum(row_height(row, setting) for row in crop)
        if n % 2:
            leaf.draw([Box(MARGIN, y, setting.right - MARGIN, tall, fill=BAND_GREY)])
        for row in crop:
            leaf.tag("TR")
            for column, lines in enumerate(_lines(row, setting)):
                x = setting.lefts[column] + GAP * size / 2
                ys = (y + size * (setting.pitch * 0.5 + 0.33 + SECOND * k) for k in range(len(lines)))
                written = [Words(x, at, text, FACES[column], size) for at, text in zip(ys, lines, strict=True)]
                leaf.tag("TD" if column else "TH", written)
            y += row_height(row, setting)


def head_rows(leaf: Leaf, setting: Setting, top: float) -> None:
    """The group's name over its columns, and the columns' own."""
    size, n = setting.size, 0
    leaf.tag("TR")
    for group, members in groupby(setting.columns, key=lambda c: c[0]):
        own_columns = list(members)
        x = setting.lefts[n] + GAP * size / 2
        if group:
            over = Words(x, top + size * 1.05, group, "semi bold", size)
            end = setting.lefts[n] + sum(setting.widths[n : n + len(own_columns)])
            leaf.draw([over, Line(x, top + size * 1.4, end - GAP * size / 2, top + size * 1.4, 0.0, 0.6)])
        for k, (_, own) in enumerate(own_columns):
            at = setting.lefts[n + k] + GAP * size / 2
            words = Words(at, top + size * (PITCH + 1.1), own, "semi bold", size)
            leaf.tag("TH column", [words], column_said(group, own) if group else "")
        n += len(own_columns)


def rules(setting: Setting, top: float, under_head: float, tall: float) -> Iterator[Shape]:
    """A line under the head and at the end, light ones between groups of columns."""
    yield Line(MARGIN, under_head, setting.right, under_head, 0.0, 1.0)
    yield Line(MARGIN, under_head + tall, setting.right, under_head + tall, 0.0, 0.75)
    for n, (left, (group, _)) in enumerate(zip(setting.lefts, setting.columns, strict=True)):
        if n and group != setting.columns[n - 1][0]:
            yield Line(left, top, left, under_head + tall, 0.45, 0.6)
        elif n:
            yield Line(left, under_head, left, under_head + tall, 0.8, 0.4)


def title_shapes(heading: Heading, setting: Setting, number: int, pages: int) -> Iterator[Shape]:
    """The title, what the table is, and at the right which sheet."""
    size = setting.size * 1.9
    y = MARGIN + size * 0.85
    yield Words(MARGIN, y, heading.title, "bold", size)
    x = MARGIN + setting.measure(f"{heading.title}  ", "bold", size)
    yield Words(x, y, heading.aside, "regular", setting.size * 1.2)
    words = heading.words
    said = words.say("crop table.sheet", number=number, pages=pages)
    if heading.printed_on:
        printed = words.day_month_year(heading.printed_on)
        said = words.say("crop table.sheet printed", number=number, pages=pages, day=printed)
    yield Words(setting.right, y, said, "regular", setting.size, SOFT, "right")


def foot_paragraphs(heading: Heading, setting: Setting) -> Iterator[tuple[list[Shape], float]]:
    """What the columns mean, as paragraphs with their heights."""
    small = max(7.5, setting.size * 0.92)
    for words in heading.foot:
        yield paragraph((Run(words),), MARGIN, 0.0, setting.right - MARGIN, small, setting.measure)


def set_foot(leaf: Leaf, foot: Sequence[tuple[list[Shape], float]], top: float) -> None:
    """The foot from `top` down."""
    y = top
    for shapes, tall in foot:
        leaf.tag("P", [moved(shape, 0.0, y) for shape in shapes])
        y += tall


def kinds_counted(words: Language, rows: Sequence[CropRow]) -> str:
    """64 crops, 112 kinds"""
    return f"{words.count(len({r.crop for r in rows}), 'crop')}, {words.count(len(rows), 'kind')}"
