"""Charts of weeks laid out for a poster's grid of sheets: seams on lines of weeks and of rows, never through words.

A column of sheets is a span of weeks, drawn as a chart of its own that is open where it goes on beside it; a row of
sheets is a group of rows under the heads of the weeks, said again. Both are set to fill their sheets; type and weeks
are the same throughout.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from datetime import date
from functools import partial

import msgspec

from sowsheet.garden.records import Garden
from sowsheet.schedule.records import Schedule
from sowsheet.sheets.chart_head import (
    TITLE,
    Style,
    columns_said,
    note_shapes,
    scale_frame,
    scale_height,
    scale_shapes,
    title_height,
    title_shapes,
)
from sowsheet.sheets.chart_marks import grid as week_lines
from sowsheet.sheets.cutting import HAIR, Window, bounds, cut
from sowsheet.sheets.flow import cut as cut_words
from sowsheet.sheets.flow import moved
from sowsheet.sheets.label_again import label_again
from sowsheet.sheets.paper import MARGIN
from sowsheet.sheets.poster import Poster, Told
from sowsheet.sheets.poster_grid import OVERLAP, Grid
from sowsheet.sheets.shapes import Box, Leaf, Line, Page, Polygon, Role, Said, Shape, Words
from sowsheet.sheets.spoken import weeks as weeks_said
from sowsheet.sheets.view import Span
from sowsheet.sheets.weeks import Weeks
from sowsheet.words.language import Language

ROOMIER = (1.6, 1.5, 1.4, 1.3, 1.2, 1.15, 1.1, 1.05, 1.0)  # times their usual height: rows where there is room
MOST_STRETCH = 1.5  # times what it needs a row is high at most, so that a seam lies on its lower edge
MIDDLE = 3  # columns of sheets: then one lies between the first and the last
LABEL_SHARE = 0.6  # of a sheet's width, for the names of the rows, at most


class Column(msgspec.Struct, frozen=True):
    """The weeks of a column of sheets, the style of its part of the chart, and which column it is, from 0."""

    weeks: Weeks
    style: Style
    number: int

    def window(self, pitch: float) -> tuple[float, float]:
        """From where to where it is seen, on its own chart: the first with the names of the rows."""
        left = MARGIN if self.number == 0 else self.weeks.left
        return left, left + pitch


def weeks_of(columns: Sequence[Column]) -> Weeks:
    """All weeks of a poster, as if they lay side by side."""
    first = columns[0].weeks
    return Weeks(tuple(m for column in columns for m in column.weeks.mondays), first.left, first.week_width)


class Spot(msgspec.Struct, frozen=True):
    """Where a strip is drawn: its column, its top, how high it is there, and whether it is the first on its sheet."""

    column: Column
    top: float
    height: float
    opens: bool


class Strip(msgspec.Struct, frozen=True):
    """Part of a chart through which no seam runs from side to side: a row with what is over it, a place's picture.

    `named` draws its name, beside which `draw` draws what it shows; what has none is a picture, its name in it.
    `label` stands again on every column of sheets, within its ribbons if `within`, else clear of them and high up;
    `headed` draws a heading over it, `heading`, in the first `over` of its height, and that is said again too.
    `said` is what a screen reader says of it in all weeks of the chart, `called` its whole name. `ground` is the grey
    below it; `stretches`: it may be higher than it needs; `gridded`: the lines of the weeks run through it.
    """

    height: float
    draw: Callable[[Spot], Iterable[Shape]]
    said: Said
    label: str = ""
    called: str = ""
    named: Callable[[Spot], Iterable[Shape]] | None = None
    within: bool = True
    heading: str = ""
    headed: Callable[[Spot], Iterable[Shape]] | None = None
    over: float = 0.0
    ground: float = 1.0
    stretches: bool = True
    gridded: bool = True


class Chart(msgspec.Struct, frozen=True):
    """What all sheets of a poster share; `rules` are lines through all rows of a column, from a top to a bottom."""

    title: str
    schedule: Schedule
    garden: Garden
    grid: Grid
    columns: tuple[Column, ...]
    notes: tuple[str, ...]
    span: Span | None
    rules: Callable[[Weeks, float, float], Iterable[Shape]]
    ends: bool  # whether there are columns behind the last week

    @property
    def style(self) -> Style:
        """The style of the first column."""
        return self.columns[0].style

    @property
    def weeks(self) -> Weeks:
        """All weeks."""
        return weeks_of(self.columns)

    @property
    def title_height(self) -> float:
        """The title, the notes below it or, where there are sheets between the first and the last, beside it."""
        if self.grid.columns < MIDDLE:
            return title_height(self.notes, self.style)
        return max(title_height((), self.style), self.style.small * (1.35 * len(self.notes) + 0.5))

    def head_height(self, row: int) -> float:
        """Title and heads on the first row of sheets, months and weeks on the others."""
        if row == 0:
            return self.title_height + scale_height(self.style)
        return scale_height(self.style, brief=True)


Dealt = list[list[Strip]]  # a poster: for each row of sheets its strips


def part_words(words: Language, span: Span | None, number: int, posters: int) -> str:
    """What tells one poster of a file from the others; "" where there is one."""
    told = [span.said(words)] if span is not None else []
    told += [words.say("poster.part", number=number + 1, posters=posters)] if posters > 1 else []
    return ", ".join(told)


def columns_of(
    mondays: Sequence[date], grid: Grid, style: Style, label_pt: float, end_pt: float
) -> tuple[Column, ...] | None:
    """The weeks dealt to the columns of sheets, as wide as leaves the room for names and ends; None for too few."""
    counts, week = _dealt_weeks(len(mondays), grid.columns, grid.pitch[0], label_pt, end_pt)
    if not counts or min(counts) < 1:
        return None
    left = MARGIN + (grid.pitch[0] - counts[0] * week if grid.columns > 1 else label_pt)
    whole = (mondays[0], mondays[-1])
    made, n = [], 0
    for number, length in enumerate(counts):
        weeks = Weeks(tuple(mondays[n : n + length]), left, week, whole)
        right = (MARGIN if number == 0 else left) + grid.pitch[0]
        paper = msgspec.structs.replace(style.paper, width=right + MARGIN)
        made.append(Column(weeks, msgspec.structs.replace(style, paper=paper), number))
        n += length
    return tuple(made)


def _dealt_weeks(
    weeks: int, columns: int, pitch: float, label_pt: float, end_pt: float
) -> tuple[tuple[int, ...], float]:
    """How many weeks each column has, and how wide a week is, so that seams lie between weeks; () for too few."""
    if columns == 1:
        return (weeks,), (pitch - label_pt - end_pt) / weeks
    if columns == 2:
        choices = [
            ((n, weeks - n), min((pitch - label_pt) / n, (pitch - end_pt) / (weeks - n))) for n in range(1, weeks)
        ]
        return max(choices, key=lambda c: c[1]) if choices else ((), 0.0)
    for middle in range(1, weeks + 1):  # the middle columns are all weeks: fewer of them are wider ones
        wide = pitch / middle
        first, last = int((pitch - label_pt) / wide + 1e-9), int((pitch - end_pt) / wide + 1e-9)
        spare = first + last + middle * (columns - 2) - weeks
        if min(first, last) < 1 or spare < 0:
            continue
        from_last = max(spare - (first - 1), min(spare - spare // 2, last - 1))
        if from_last < last:
            return (first - (spare - from_last), *[middle] * (columns - 2), last - from_last), wide
    return (), 0.0


def deal(chart: Chart, strips: Sequence[Strip]) -> list[Dealt] | None:
    """The strips on the rows of sheets, and on further posters; None if one is higher than a sheet."""
    room, rows = chart.grid.pitch[1], chart.grid.rows
    posters: list[Dealt] = [[[]]]
    used = chart.head_height(0)
    if used > room:
        return None
    for strip in strips:
        while used + strip.height > room + 0.01:
            fresh = not posters[-1][-1]
            if fresh and (len(posters[-1]) > 1 or rows == 1):
                return None
            if len(posters[-1]) < rows:
                posters[-1].append([])
            else:
                posters.append([[]])
            used = chart.head_height(len(posters[-1]) - 1)
        posters[-1][-1].append(strip)
        used += strip.height
    return posters


def spread(chart: Chart, strips: Sequence[Strip], fewest: int) -> list[Dealt]:
    """The strips as roomy as lets them stand on so many posters, and seams moved on to the lower edges of rows."""
    for times in ROOMIER:
        roomier = [_higher(strip, times) for strip in strips]
        posters = deal(chart, roomier)
        if posters is not None and len(posters) <= fewest:
            break
    assert posters is not None  # 1.0 is among them, and it was dealt before
    return [[_filled(chart, n, row, len(rows)) for n, row in enumerate(rows)] for rows in posters]


def _higher(strip: Strip, times: float) -> Strip:
    return msgspec.structs.replace(strip, height=strip.height * times) if strip.stretches else strip


def _filled(chart: Chart, number: int, row: list[Strip], rows: int) -> list[Strip]:
    """A row of sheets whose strips reach down to the next one, as far as that stretches them little."""
    stretch = sum(s.height for s in row if s.stretches)
    spare = chart.grid.pitch[1] - chart.head_height(number) - sum(s.height for s in row)
    if number == rows - 1 or not stretch:
        return row
    return [_higher(strip, min(MOST_STRETCH, 1 + spare / stretch)) for strip in row]


def drawn(chart: Chart, dealt: Dealt, number: int, posters: int) -> Poster:
    """A poster in one piece, with its seams."""
    wide, tall = chart.grid.pitch
    leaf, told = Leaf(), list[Told]()

    def read(row: int, column: int) -> None:
        """What was tagged last is read on this sheet."""
        told.extend(Told(row, column, tag) for tag in leaf.tags[len(told) :])

    for column, role, shapes in _title(chart, number, posters):
        leaf.tag(role, shapes)
        read(0, column)
    for row, strips in enumerate(dealt):
        for one in chart.columns:
            own = _sheet(chart, one, row, strips)
            leaf.lay(own.shapes, own.tags)
            read(row, one.number)
    page = Page(chart.grid.size[0], len(dealt) * tall + OVERLAP, tuple(leaf.shapes))
    xs = tuple(n * wide for n in range(chart.grid.columns + 1))
    ys = tuple(n * tall for n in range(len(dealt) + 1))
    return Poster(page, xs, ys, part_words(chart.style.words, chart.span, number, posters), tuple(told))


def _title(chart: Chart, number: int, posters: int) -> Iterator[tuple[int, Role, list[Shape]]]:
    """The title on the first sheet, what the chart is on the last beside it; notes below the title, or beside it where
    there is a sheet between. Each with its column."""
    style, pitch, whole = chart.style, chart.grid.pitch[0], chart.grid.pitch[0] * chart.grid.columns
    wide = msgspec.structs.replace(style, paper=msgspec.structs.replace(style.paper, width=whole + 2 * MARGIN))
    title, name, *aside = title_shapes(chart.title, chart.garden, chart.schedule, wide, number, posters, chart.span)
    if chart.grid.columns > 1 and isinstance(title, Words) and isinstance(name, Words):
        yield 0, "H1", list(_fitted_title(chart, title, name))
    else:
        yield 0, "H1", [moved(shape, -MARGIN, -MARGIN) for shape in (title, name)]
    beside = chart.grid.columns >= MIDDLE
    dx, dy = (pitch + style.small * 0.3, -style.base * TITLE + style.small * 0.55) if beside else (0.0, 0.0)
    for note in note_shapes(chart.notes, style):
        yield int(beside), "P", [moved(note, dx - MARGIN, dy - MARGIN)]
    told = [shape for shape in aside if isinstance(shape, Words)]
    widest = max(style.wide(w.text, w.face, w.size_pt) for w in told)
    times = min(1.0, pitch * 0.96 / widest)
    smaller = [msgspec.structs.replace(w, size_pt=w.size_pt * times) for w in told]
    yield chart.grid.columns - 1, "P", [moved(w, -MARGIN, -MARGIN) for w in smaller]


def _fitted_title(chart: Chart, title: Words, name: Words) -> Iterator[Words]:
    """The title and the garden's name on the first sheet: smaller down to the rows' own type, then cut."""
    style, room = chart.style, chart.grid.pitch[0] * 0.98
    whole = f", {chart.schedule.season.years}"

    def wide(size: float) -> float:
        named = style.wide(f"{chart.garden.name}{whole}", name.face, size)
        return style.wide(f"{title.text} ", title.face, size) + named

    size = max(
        min(title.size_pt, title.size_pt * room / wide(title.size_pt)), min(title.size_pt, style.paper.type_pt * 0.9)
    )
    at = style.wide(f"{title.text} ", title.face, size)
    said = cut_words(chart.garden.name, room - at, name.face, size, style.measure, whole)
    y = style.base * 1.5 * 0.8
    yield msgspec.structs.replace(title, x=0.0, y=y, size_pt=size)
    yield msgspec.structs.replace(name, x=at, y=y, size_pt=size, text=said)


def _sheet(chart: Chart, column: Column, row: int, strips: Sequence[Strip]) -> Leaf:
    """What a poster shows on one sheet: heads, lines of weeks, rows, and the names of the rows again.

    A screen reader says each row on the first sheet that shows it, and of those beside it that they go on with it.
    """
    wide, tall = chart.grid.pitch
    top = row * tall + (chart.title_height if row == 0 else 0.0)
    start = row * tall + chart.head_height(row)
    if not any(strip.gridded for strip in strips) and row > 0:
        top = start = row * tall
    left, right = column.window(wide)
    window = Window(left, row * tall, right, (row + 1) * tall)
    part = _Part(chart, column, window, top, start, tuple(strips), row == 0)
    leaf = Leaf()
    leaf.draw(part.ground())
    if column.number:
        shapes = [*part.head(), *part.drawn()]
        shapes += part.names_again([*leaf.shapes, *shapes])
        leaf.tag("Figure", shapes, part.said)
    else:
        part.read_on(leaf)
    dx = column.number * wide - left
    leaf.shapes = [moved(shape, dx, 0.0) for shape in leaf.shapes]
    return leaf


class _Part(msgspec.Struct, frozen=True):
    """A column's part of a row of sheets, on the column's own chart.

    `window` is what is seen of it; its heads are between `top` and `start`, if those differ, and its strips below;
    `first`: it is on the first row of sheets.
    """

    chart: Chart
    column: Column
    window: Window
    top: float
    start: float
    strips: tuple[Strip, ...]
    first: bool

    @property
    def said(self) -> str:
        """Which weeks of the rows it shows."""
        words, mondays = self.chart.style.words, self.column.weeks.mondays
        weeks = weeks_said(words, mondays[0], mondays[-1], self.chart.schedule.season.year)
        return words.say("poster.goes on", weeks=weeks)

    def seen(self, shapes: Iterable[Shape]) -> list[Shape]:
        """What of shapes is seen."""
        return list(_cut_column(shapes, self.window, self.column.style))

    def placed(self) -> Iterator[tuple[Strip, Spot]]:
        """The strips where they are drawn, one below the other."""
        y = self.start
        for n, strip in enumerate(self.strips):
            yield strip, Spot(self.column, y, strip.height, n == 0)
            y += strip.height

    def ground(self) -> list[Shape]:
        """Bands, lines of weeks, and the lines through and below all rows."""
        weeks, style, start = self.column.weeks, self.column.style, self.start
        bottom = max((at.top + at.height for strip, at in self.placed() if strip.gridded), default=start)
        right = style.paper.width - MARGIN
        shapes: list[Shape] = [
            Box(MARGIN, at.top, right - MARGIN, at.height, fill=strip.ground)
            for strip, at in self.placed()
            if strip.ground < 1
        ]
        if start > self.top:
            shapes += week_lines(weeks, style, start, bottom)
            shapes += scale_frame(weeks, start, style, self.chart.ends and self.first)
        shapes += self.chart.rules(weeks, start, bottom)
        if bottom > start:
            shapes.append(Line(MARGIN, bottom, right, bottom, 0.0, style.stroke(1.0)))
        return self.seen(shapes)

    def head(self) -> list[Shape]:
        """The heads of the weeks, if it has any."""
        if self.start <= self.top:
            return []
        chart, weeks, style = self.chart, self.column.weeks, self.column.style
        return self.seen(scale_shapes(chart.garden, chart.schedule, weeks, self.top, style, brief=not self.first))

    def drawn(self) -> Iterator[Shape]:
        """All that the strips show."""
        for strip, at in self.placed():
            for draw in (strip.headed, strip.named, strip.draw):
                yield from self.seen(draw(at)) if draw is not None else ()

    def names_again(self, drawn: Sequence[Shape]) -> list[Shape]:
        """The names of headings and rows, said again clear of what is drawn."""
        own = list(drawn)
        left, end, style = self.window.left, min(self.window.right, self.column.weeks.right), self.column.style
        for strip, at in self.placed():
            over = Window(left, at.top, end, at.top + strip.over)
            band = Window(left, at.top + strip.over, end, at.top + strip.height)
            own += label_again(strip.heading, own, over, style, True)
            own += label_again(strip.label, own, band, style, strip.within)
        return own[len(drawn) :]

    def read_on(self, leaf: Leaf) -> None:
        """Heads and strips, each with what is said of it in all weeks."""
        words, chart, heads = self.chart.style.words, self.chart, self.head()
        if self.first:
            leaf.tag("Figure", heads, partial(columns_said, words, chart.schedule, chart.garden.imperial, chart.weeks))
        else:
            leaf.draw(heads)
        for strip, at in self.placed():
            if strip.headed is not None:
                leaf.tag("H2", self.seen(strip.headed(at)))
            shown = self.seen(strip.draw(at))
            if strip.named is None:
                leaf.tag("Figure", shown, strip.said)
                continue
            leaf.row(self.seen(strip.named(at)), strip.called, shown, strip.said)


def _cut_column(shapes: Iterable[Shape], window: Window, style: Style) -> Iterator[Shape]:
    """A column's part of the chart, up to its edges; a mark of a day that stands on an edge stays whole."""
    for shape in shapes:
        at = bounds(shape, style.measure)
        slender = at.right - at.left <= style.base * 0.45 and isinstance(shape, Box | Polygon)
        bare = isinstance(shape, Polygon) or (isinstance(shape, Box) and shape.fill == 0.0 and shape.stroke is None)
        if slender and bare and at.left < window.right + HAIR and at.right > window.left - HAIR:
            yield shape
        else:
            yield from cut((shape,), window, style.measure)
