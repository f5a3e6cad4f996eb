"""Frost dates on one page: for each threshold a strip of the year, with a dot for each year's last and first night."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from datetime import date

import msgspec

from sowsheet.sheets.flow import Run, cut, moved, paragraph
from sowsheet.sheets.furniture import SOFT
from sowsheet.sheets.paper import MARGIN, Paper, landscape
from sowsheet.sheets.shapes import Box, Face, Leaf, Line, Measure, Page, Shape, Sheet, Tag, Words
from sowsheet.sheets.spoken import frost_said
from sowsheet.site.frosts import (
    Frosts,
    Spread,
    garden_lines,
    left_out_years,
    month_day,
    season_day,
    watched_years,
)
from sowsheet.site.quantile import quantile
from sowsheet.site.record import Record
from sowsheet.words.language import Language

MOST_STRIPS = 6
TYPE_PT = 9.25  # on A4: from half a metre
CHANCES = (0.1, 0.5, 0.9)
SPRING_SAID = ("9 later", "half later", "1 later")  # by their phrases
AUTUMN_SAID = ("1 earlier", "half earlier", "9 earlier")
FROSTY, UNSURE = 0.84, 0.93  # grey behind the dots
GREYS = (("frosty", FROSTY), ("unsure", UNSURE), ("seldom", 1.0))
_LEFT = 128.0  # the column of words, on A4
_DOT = 5.0  # in the legend
_LARGEST_DOT = 7.0


class _Axis(msgspec.Struct, frozen=True):
    """The year's scale: day numbers of `season_day` from the first up to but not including the last, in points."""

    first: int
    end: int
    left: float
    right: float

    def x(self, number: float) -> float:
        """The middle of a day."""
        return self.edge(number + 0.5)

    def edge(self, number: float) -> float:
        """Where a day begins."""
        return self.left + (number - self.first) * (self.right - self.left) / (self.end - self.first)


class _Setting(msgspec.Struct, frozen=True):
    """The language, the paper, how much larger than A4 it is, and the year's scale."""

    words: Language
    paper: Paper
    measure: Measure
    k: float
    axis: _Axis

    @property
    def size(self) -> float:
        return TYPE_PT * self.k


class _Mark(msgspec.Struct, frozen=True):
    """A chance on the strip: its day, and the words below."""

    x: float
    day: str
    said: str
    middle: bool


def frost_sheet(
    record: Record, found: Sequence[Frosts], at_zero: Frosts, paper: str, measure: Measure, words: Language
) -> Sheet:
    """The page, in landscape: at most six thresholds. `at_zero` gives the lines for the garden file."""
    size = landscape(paper)
    k = min(size.height / 595.28, size.width / 841.89)
    setting = _Setting(words, size, measure, k, _axis(found, MARGIN + _LEFT * k, size.width - MARGIN))
    foot, foot_tall = _foot(record, found, at_zero, setting)
    top = MARGIN + 62 * k
    bottom = size.height - MARGIN - foot_tall
    tall = min(170 * k, (bottom - top) / len(found))
    leaf = Leaf()
    named = list(_title(record, found[0].south, setting))
    leaf.lay(named, (Tag("H1", 0, 1), Tag("P", 1, 3), Tag("P", 3, len(named))))
    leaf.draw(_months(setting, top))
    for n, one in enumerate(found):
        _strip(leaf, one, setting, top + n * tall, tall)
    leaf.tag("P", foot)
    page = Page(size.width, size.height, tuple(leaf.shapes), tags=tuple(leaf.tags))
    return Sheet(words.say("frost sheet.title"), (page,), language=words.file_tag)


def _axis(found: Sequence[Frosts], left: float, right: float) -> _Axis:
    """A year from January, in the south from July; longer by whole months where winters carry dates over its ends."""
    first, end = (182, 547) if found[0].south else (1, 366)
    days = [n for one in found for spread in (one.last_spring, one.first_autumn) for n in spread.days]
    starts = _month_starts()
    first = max(s for s, _ in starts if s <= min([first, *days]))
    end = min(s for s, _ in starts if s > max([end - 1, *days]))
    return _Axis(first, end, left, right)


def _month_starts() -> list[tuple[int, int]]:
    """The day numbers on which months begin, with the month, from two years before to three after."""
    return [(season_day(date(2001 + y, m, 1), 2001), m) for y in range(-2, 4) for m in range(1, 13)]


def _title(record: Record, south: bool, setting: _Setting) -> Iterator[Shape]:
    words, measure, k, right = setting.words, setting.measure, setting.k, setting.axis.right
    watched = watched_years(record, south)
    title = words.say("frost sheet.title")
    years = words.say("frost sheet.years", years=words.count(len(watched), "year"), first=watched[0], last=watched[-1])
    y = MARGIN + 17 * k
    yield Words(MARGIN, y, title, "bold", 20 * k)
    x = MARGIN + measure(f"{title}  ", "bold", 20 * k)
    beside = max(200 * k, measure(years, "regular", 11.5 * k) + 12 * k)
    yield Words(x, y, _cut(record.file, right - x - beside, setting), "regular", 11.5 * k)
    yield Words(right, y, years, "regular", 11.5 * k, 0.0, "right")
    yield from _legend(setting, y + 17 * k)


def _legend(setting: _Setting, y: float) -> Iterator[Shape]:
    """What dots and greys mean, on a line; narrower where its words are long."""
    words, k = setting.words, setting.k
    dots = [(words.say("frost sheet.dot.spring"), True), (words.say("frost sheet.dot.autumn"), False)]
    greys = [(words.say(f"frost sheet.grey.{key}"), grey) for key, grey in GREYS]
    said = [text for text, _ in (*dots, *greys)]
    room = setting.axis.right - MARGIN - (2 * 24 + 3 * 28) * k
    faces: tuple[Face, ...] = ("regular", "semi", "condensed")
    fits = (f for f in faces if sum(setting.measure(text, f, setting.size) for text in said) <= room)
    face = next(fits, faces[-1])
    wide = {text: setting.measure(text, face, setting.size) for text in said}
    x = MARGIN
    for text, filled in dots:
        yield _dot(x + _DOT * k / 2, y - 3.2 * k, _DOT * k, filled)
        yield Words(x + 8 * k, y, text, face, setting.size)
        x += 8 * k + wide[text] + 16 * k
    for text, grey in greys:
        yield Box(x, y - 7.2 * k, 12 * k, 8.5 * k, fill=grey, stroke=0.5, line_pt=0.5 * k)
        yield Words(x + 16 * k, y, text, face, setting.size)
        x += 16 * k + wide[text] + 12 * k


def _cut(name: str, room: float, setting: _Setting) -> str:
    """A file's name without its folders, cut to the room."""
    short = name.replace("\\", "/").rsplit("/", 1)[-1]
    return cut(short, room, "regular", 11.5 * setting.k, setting.measure)


def _months(setting: _Setting, top: float) -> Iterator[Shape]:
    axis = setting.axis
    inside = [(s, m) for s, m in _month_starts() if axis.first <= s < axis.end]
    words = setting.words
    widest = max(setting.measure(name, "regular", setting.size) for name in words.months)
    room = (axis.right - axis.left) / len(inside) - 4
    names = words.months if widest <= room else words.months_short
    for start, month in inside:
        name = names[month - 1]
        middle = (axis.edge(start) + axis.edge(start + 30)) / 2
        yield Words(middle, top - 5 * setting.k, name, "regular", setting.size, 0.0, "centre")


def _strip(leaf: Leaf, one: Frosts, setting: _Setting, top: float, tall: float) -> None:
    """One threshold as a row: its picture, and beside it its name, which is read first, and what stands behind it."""
    picture, beside = list(_picture(one, setting, top, tall)), list(_beside(one, setting, top, tall))
    a, b = len(picture), len(picture) + len(beside)
    said = frost_said(setting.words, _threshold(setting, one), one)
    row = (Tag("TR"), Tag("TH", a, a + 1), Tag("TD", 0, a, said), Tag("TD", a + 1, b))
    leaf.lay([*picture, *beside], row)


def _picture(one: Frosts, setting: _Setting, top: float, tall: float) -> Iterator[Shape]:
    """Greys, months, dots, and the marks with their dates below."""
    k, axis = setting.k, setting.axis
    base = top + tall - 30 * k
    spring, autumn = one.last_spring, one.first_autumn
    yield from _greys(spring, autumn, axis, top, base)
    for start, _ in _month_starts():
        if axis.first <= start <= axis.end:
            yield Line(axis.edge(start), top, axis.edge(start), base, 0.7, 0.4 * k)
    marks = [*_marks(setting, spring, SPRING_SAID), *_marks(setting, autumn, AUTUMN_SAID)]
    for mark in marks:
        yield Line(mark.x, top, mark.x, base, 0.0, (1.6 if mark.middle else 0.8) * k, dashed=not mark.middle)
    yield Line(axis.left, base, axis.right, base, 0.0, 0.9 * k)
    yield from _dots(spring, autumn, setting, top, base)
    yield from _dates(marks, setting, base)


def _greys(spring: Spread, autumn: Spread, axis: _Axis, top: float, base: float) -> Iterator[Shape]:
    """How likely cold nights are: grey until 9 springs in 10 have had their last, lighter until all but 1 have."""
    edges = [axis.left, *_edges(spring, axis)] if spring.days else [axis.left] * 3
    ends = [*_edges(autumn, axis), axis.right] if autumn.days else [axis.right] * 3
    spans = ((edges[0], edges[1], FROSTY), (edges[1], edges[2], UNSURE), (ends[0], ends[1], UNSURE))
    for left, right, grey in (*spans, (ends[1], ends[2], FROSTY)):
        if right > left:
            yield Box(left, top, right - left, base - top, fill=grey)


def _edges(spread: Spread, axis: _Axis) -> list[float]:
    return [axis.x(quantile(spread.days, chance)) for chance in (0.1, 0.9)]


def _marks(setting: _Setting, spread: Spread, said: Sequence[str]) -> Iterator[_Mark]:
    words = setting.words
    for chance, key in zip(CHANCES, said, strict=True):
        number = spread.at(chance)
        if number is not None:
            day = words.day_month(date(2001, *month_day(number)))
            yield _Mark(setting.axis.x(number), day, words.say(f"frost sheet.mark.{key}"), chance == 0.5)


def _dots(spring: Spread, autumn: Spread, setting: _Setting, top: float, base: float) -> Iterator[Shape]:
    """A dot a year, set down on those it would cover; smaller where many fall together."""
    room = base - top - 3 * setting.k
    size = _LARGEST_DOT * setting.k
    while size > 1 and max(_levels([*spring.days, *autumn.days], size, setting.axis), default=0) * size > room - size:
        size *= 0.93
    for spread, filled in ((spring, True), (autumn, False)):
        days = sorted(spread.days)
        for number, level in zip(days, _levels(days, size, setting.axis), strict=True):
            yield _dot(setting.axis.x(number), base - 1.2 * setting.k - size * (level + 0.5), size, filled)


def _levels(days: Sequence[int], size: float, axis: _Axis) -> list[int]:
    """For each day, in rising order, how many dots lie below its own."""
    ends: list[float] = []
    levels: list[int] = []
    for number in sorted(days):
        x = axis.x(number)
        level = next((n for n, end in enumerate(ends) if end <= x - size + 0.01), len(ends))
        ends[level:] = [x, *ends[level + 1 :]]
        levels.append(level)
    return levels


def _dot(x: float, y: float, size: float, filled: bool) -> Shape:
    r = size * 0.46
    if filled:
        return Box(x - r, y - r, 2 * r, 2 * r, fill=0.0, radius=r)
    return Box(x - r * 0.9, y - r * 0.9, 1.8 * r, 1.8 * r, fill=1.0, stroke=0.0, line_pt=size * 0.17, radius=r)


def _dates(marks: Sequence[_Mark], setting: _Setting, base: float) -> Iterator[Shape]:
    """The marks' dates in words, pushed apart where they would run into each other, each led to its mark."""
    k, size = setting.k, setting.size
    marks = sorted(marks, key=lambda m: m.x)
    widths = [
        max(setting.measure(m.day, "semi bold", size), setting.measure(m.said, "condensed", size)) + 7 * k
        for m in marks
    ]
    centres = _apart([m.x for m in marks], widths, setting.axis.left, setting.axis.right)
    for mark, at in zip(marks, centres, strict=True):
        yield Line(mark.x, base, at, base + 5 * k, 0.0, (1.4 if mark.middle else 0.7) * k)
        yield Words(at, base + 13.5 * k, mark.day, "semi bold", size, 0.0, "centre")
        yield Words(at, base + 23.5 * k, mark.said, "condensed", size, 0.0, "centre")


def _apart(wanted: Sequence[float], widths: Sequence[float], left: float, right: float) -> list[float]:
    """Centres as near as may be to those wanted, in their order, so that nothing overlaps between two edges."""
    groups: list[tuple[float, float, list[int]]] = []  # left edge, width, members
    for n, (x, width) in enumerate(zip(wanted, widths, strict=True)):
        start, wide, members = x - width / 2, width, [n]
        while groups and groups[-1][0] + groups[-1][1] > start:
            before, its_width, its = groups.pop()
            weight = len(its) / (len(its) + len(members))
            wide += its_width
            start = weight * before + (1 - weight) * (start - its_width)
            members = [*its, *members]
        start = max(left, min(start, right - wide))
        groups.append((start, wide, members))
    while len(groups) > 1 and groups[-2][0] + groups[-2][1] > groups[-1][0]:
        start, wide, members = groups.pop()
        before, its_width, its = groups.pop()
        groups.append((max(left, min(before, right - wide - its_width)), wide + its_width, [*its, *members]))
    centres: list[float] = []
    for start, _, members in groups:
        at = start
        for n in members:
            centres.append(at + widths[n] / 2)
            at += widths[n]
    return centres


def _beside(one: Frosts, setting: _Setting, top: float, tall: float) -> Iterator[Shape]:
    """The threshold, the season between, and how many years stand behind it."""
    k, size = setting.k, setting.size
    y = top + 16 * k
    yield Words(MARGIN, y, _threshold(setting, one), "bold", 18 * k)
    for text, face in _season_said(setting.words, one):
        shapes, used = paragraph((Run(text, face),), MARGIN, y + 3 * k, (_LEFT - 8) * k, size, setting.measure)
        if y + 3 * k + used > top + tall:
            return
        yield from shapes
        y += used


def _season_said(words: Language, one: Frosts) -> Iterator[tuple[str, Face]]:
    spring, autumn = one.last_spring, one.first_autumn
    if any(s.days and s.few for s in (spring, autumn)):
        yield words.say("frost sheet.few"), "semi bold"
    if one.lengths:
        middle, short = (math.floor(quantile(one.lengths, chance) + 0.5) for chance in (0.5, 0.1))
        yield words.say("frost sheet.between", n=middle), "semi bold"
        yield words.say("frost sheet.shortest", n=short), "semi"
    yield words.say("frost sheet.springs", had=len(spring.days), n=spring.years), "semi"
    yield words.say("frost sheet.autumns", had=len(autumn.days), n=autumn.years), "semi"
    if one.winters:
        yield words.say("frost sheet.winters"), "semi"


def _threshold(setting: _Setting, one: Frosts) -> str:
    """−2.2 °C, as it is printed."""
    return threshold_words(setting.words, one.threshold_c).replace("-", "−")


def threshold_words(words: Language, threshold_c: float) -> str:
    """0 °C; -2.2 °C"""
    return f"{words.plain(round(threshold_c, 1) + 0.0)} °C"


def left_out_said(words: Language, record: Record, south: bool) -> str:
    """Which years are left out, and why; "" where none is."""
    left = left_out_years(record, south)
    if not left:
        return ""
    shown = [str(year) for year in left[:8]]
    if len(left) > 8:
        shown.append(words.say("frost sheet.more years", n=len(left) - 8))
    return words.say("frost sheet.left out", years=words.listed(shown))


def _gaps_said(words: Language, record: Record, south: bool) -> str:
    """How many nights of the record are missing, and the years left out for it."""
    span = (record.days[-1] - record.days[0]).days + 1
    if span == len(record.days):
        return words.say("frost sheet.whole")
    missing = words.say("frost sheet.missing", n=span - len(record.days), nights=span)
    return f"{missing} {left_out_said(words, record, south)}".rstrip()


def _foot(record: Record, found: Sequence[Frosts], at_zero: Frosts, setting: _Setting) -> tuple[list[Shape], float]:
    """What the dates rest on, at the left; the lines for the garden file at the right."""
    words, k, size = setting.words, setting.k, setting.size
    own = garden_lines(at_zero)
    head = words.say("frost sheet.for file")
    wide = max((setting.measure(line, "semi bold", size * 1.1) for line in (*own, head)), default=0.0) + 14 * k
    room = setting.paper.width - 2 * MARGIN - (wide + 18 * k if own else 0.0)
    told = [words.say("frost sheet.foot.counts"), words.say("frost sheet.foot.years")]
    if any(o.winters for o in found):
        told.append(words.say("frost sheet.foot.winters"))
    told += [_gaps_said(words, record, found[0].south), words.say("frost sheet.foot.bed")]
    shapes, used = paragraph((Run(" ".join(told)),), MARGIN, 0.0, room, size, setting.measure, SOFT)
    box_tall = (len(own) + 1) * size * 1.45 + 8 * k if own else 0.0
    tall = max(used, box_tall) + 4 * k
    top = setting.paper.height - MARGIN - tall + 4 * k
    made = [moved(shape, 0.0, top) for shape in shapes]
    if own:
        left = setting.paper.width - MARGIN - wide
        made.append(Box(left, top, wide, box_tall, stroke=0.0, line_pt=0.75 * k))
        for n, line in enumerate((head, *own)):
            y = top + 4 * k + size * (1.05 + 1.45 * n)
            made.append(Words(left + 7 * k, y, line, "semi bold" if n else "regular", size * (1.1 if n else 1.0)))
    return made, tall
