"""Under the rows: trays to sow each week, trays standing in each place against its room, and what the marks mean."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterator, Sequence
from datetime import date
from functools import partial

import msgspec

from sowsheet.garden.records import Garden
from sowsheet.sheets.chart_head import COLUMN_FILL, DIGIT_EM, Style
from sowsheet.sheets.chart_marks import post
from sowsheet.sheets.flow import cut
from sowsheet.sheets.furniture import SOFT
from sowsheet.sheets.paper import MARGIN
from sowsheet.sheets.shapes import Box, Face, Hatch, Leaf, Line, Polygon, Shape, Words
from sowsheet.sheets.spoken import marks_said, place_said, sums_said
from sowsheet.sheets.weeks import Weeks
from sowsheet.trays.records import PlaceWeek, TrayPlan
from sowsheet.words.language import Language, capital

LEGEND_LINE = 1.9  # in inner sizes
SOW_ROW = 1.5  # heights in base sizes
MAYBE = 0.7  # of that, for what is no more than an idea
TO_SCALE = 6  # a room more than so many times what ever stands in it is told, not drawn
FULL = 1 + 1e-9


def _places(trays: TrayPlan, garden: Garden) -> list[str]:
    """The places in which trays stand at some time."""
    used = {w.place for w in trays.weeks if w.trays or w.maybe}
    return [p.name for p in garden.places if p.name in used]


class Part(msgspec.Struct, frozen=True):
    """A line of the foot: its name, how high it is, what draws it from a top down, and what is said of some weeks."""

    name: str
    height: float
    draw: Callable[[Weeks, Style, float], Iterator[Shape]]
    said: Callable[[Weeks], str]
    ruled: bool = True  # whether a line parts it from what is below


def foot_height(trays: TrayPlan, garden: Garden, style: Style) -> float:
    """All of the foot, legend included."""
    parts = sum(part.height for part in foot_parts(trays, garden, style, 1, 0))
    return parts + legend_height(marks_of(trays, style), style)


def foot(
    leaf: Leaf, trays: TrayPlan, garden: Garden, weeks: Weeks, style: Style, top: float, pages: int, year: int
) -> None:
    """The foot, below `top`. Its sums count all sheets."""
    y = top
    for part in foot_parts(trays, garden, style, pages, year):
        leaf.tag("Figure", part.draw(weeks, style, y), part.said(weeks))
        y += part.height
        leaf.draw([Line(MARGIN, y, weeks.right, y, 0.0, style.stroke(0.6))] if part.ruled else ())
    marks = marks_of(trays, style)
    leaf.tag("Figure", legend(marks, style, y), marks_said(style.words, [said for _, said in marks]))


def foot_parts(trays: TrayPlan, garden: Garden, style: Style, pages: int, year: int) -> list[Part]:
    """What stands below the rows, one under the other, without the legend."""
    words = style.words
    to_sow = words.say("chart.to sow on all" if pages > 1 else "chart.to sow")
    maybe = any(s.maybe and s.trays for s in trays.sowings)

    def sown(weeks: Weeks, maybe: bool = False) -> str:
        sums = [(m, n) for m, n in _sums(trays, maybe=maybe).items() if m in weeks.mondays]
        return sums_said(words, to_sow, sums, year, maybe=maybe)

    def sure(weeks: Weeks, style: Style, y: float) -> Iterator[Shape]:
        return _sow_row(trays, weeks, style, y, to_sow, maybe=False)

    def ideas(weeks: Weeks, style: Style, y: float) -> Iterator[Shape]:
        return _sow_row(trays, weeks, style, y - style.base * 0.15, words.say("chart.maybe"), maybe=True)

    def place(name: str) -> Part:
        def drawn(weeks: Weeks, style: Style, y: float) -> Iterator[Shape]:
            return _place(name, trays, weeks, style, y)

        def standing(weeks: Weeks) -> str:
            shown = [w for w in trays.weeks if w.place == name and w.monday in weeks.mondays]
            return place_said(words, name, shown[0].room if shown else None, shown, year)

        return Part(capital(name), style.place_share * style.base, drawn, standing)

    parts = [Part(to_sow, SOW_ROW * style.base, sure, sown, ruled=not maybe)]
    if maybe:
        parts.append(Part(words.say("chart.maybe"), SOW_ROW * MAYBE * style.base, ideas, partial(sown, maybe=True)))
    return [*parts, *(place(name) for name in _places(trays, garden))]


def _sums(trays: TrayPlan, maybe: bool) -> dict[date, int]:
    """Trays to sow by the Monday of their week, in the order of time."""
    sums: dict[date, int] = defaultdict(int)
    for sowing in sorted(trays.sowings, key=lambda s: s.monday):
        if sowing.maybe == maybe:
            sums[sowing.monday] += sowing.trays
    return sums


def _sow_row(trays: TrayPlan, weeks: Weeks, style: Style, y: float, label: str, maybe: bool) -> Iterator[Shape]:
    sums = _sums(trays, maybe)
    size = style.inner if maybe else style.base
    name_face: Face = "semi" if maybe else "semi bold"
    face: Face = "condensed" if maybe else "condensed bold"
    line = y + style.base * (0.8 if maybe else 1.05)
    yield _name(label, name_face, size, weeks, style, line)
    size = min(size, COLUMN_FILL * weeks.week_width / (2 * DIGIT_EM))
    for n, monday in enumerate(weeks.mondays):
        if sums.get(monday):
            x = weeks.left + (n + 0.5) * weeks.week_width
            yield Words(x, line, str(sums[monday]), face, size, 0.0, "centre")


def _name(words: str, face: Face, size: float, weeks: Weeks, style: Style, y: float, grey: float = 0.0) -> Words:
    """Words in the room for names: a little smaller if need be, then cut."""
    room = weeks.left - MARGIN - style.base * 0.3
    size = min(size, max(size * 0.7, 0.999 * size * room / style.wide(words, face, size)))
    return Words(MARGIN + style.base * 0.15, y, cut(words, room, face, size, style.measure), face, size, grey)


def _place(name: str, trays: TrayPlan, weeks: Weeks, style: Style, top: float) -> Iterator[Shape]:
    """Bars a week; the room as a dashed line; what does not fit in black, with its number."""
    own = {w.monday: w for w in trays.weeks if w.place == name}
    first, end = weeks.chart_span
    shown = [w for monday, w in own.items() if first <= monday < end]
    room = shown[0].room if shown else None
    most = max([w.trays + w.maybe for w in shown] + [1])
    drawn = room is not None and room <= TO_SCALE * most
    tall = style.place_share * style.base
    bottom = top + tall - style.base * 0.12
    scale = (tall - style.small * 1.5 - style.base * 0.2) / max(most, room if drawn and room else 0)
    yield _name(capital(name), "semi bold", style.base * 0.86, weeks, style, top + tall * 0.42)
    limit = f"{'room' if room is not None else 'no limit'}{' maybe' if any(w.maybe for w in shown) else ''}"
    room_words = style.words.say(f"chart.standing.{limit}", room=room)
    yield _name(room_words, "regular", style.small, weeks, style, top + tall * 0.77, SOFT)
    bars = [(weeks.x(w.monday), w) for w in shown if (w.trays or w.maybe) and weeks.holds(w.monday)]
    for x, week in bars:
        yield from _bar(x, week, weeks.week_width, bottom, scale, style.stroke(0.75))
    if room is not None and drawn:
        y = bottom - room * scale
        yield Line(weeks.left, y, weeks.right, y, 0.0, style.stroke(0.9), dashed=True)
    for x, week in bars:
        yield from _bar_number(x, week, weeks.week_width, bottom - (week.trays + week.maybe) * scale, style)


def _bar_number(x: float, week: PlaceWeek, wide: float, top: float, style: Style) -> Iterator[Shape]:
    """Trays standing, `+` those of ideas, above their bar; on white, so that the line of the room does not cross it."""
    words = (str(week.trays) if week.trays else "") + (f"+{week.maybe}" if week.maybe else "")
    size = min(style.small, COLUMN_FILL * wide / (max(2, len(words)) * DIGIT_EM))
    face: Face = "condensed bold" if week.filled > FULL else "condensed"
    y, middle, half = top - size * 0.25, x + wide / 2, style.wide(words, face, size) / 2
    yield Box(middle - half - 0.5, y - size * 0.8, 2 * half + 1, size * 0.86, fill=1.0)
    yield Words(middle, y, words, face, size, 0.0, "centre")


def _bar(x: float, week: PlaceWeek, width: float, bottom: float, scale: float, line_pt: float) -> Iterator[Shape]:
    inset = width * 0.1
    x, width = x + inset, width - 2 * inset
    fits = min(week.trays, week.room) if week.room is not None else week.trays
    if week.filled > FULL and week.room is not None and fits == week.trays:
        fits = max(0, int(week.trays / week.filled))
    yield Box(x, bottom - fits * scale, width, fits * scale, fill=0.86, stroke=0.0, line_pt=line_pt)
    if week.trays > fits:
        yield Box(
            x, bottom - week.trays * scale, width, (week.trays - fits) * scale, fill=0.0, stroke=0.0, line_pt=line_pt
        )
    if week.maybe:
        top = bottom - (week.trays + week.maybe) * scale
        yield Box(x, top, width, week.maybe * scale, fill=1.0, stroke=0.0, line_pt=line_pt, dashed=True)


LEGEND = ("mark", "down", "tray", "hardening", "bed", "picking", "cover", "maybe", "beyond", "whisker", "frost")


def marks_of(trays: TrayPlan, style: Style) -> list[tuple[str, str]]:
    """The marks of this chart in the order of a row: what it does not show needs no words."""
    shared, maybe = any(s.shares for s in trays.sowings), any(s.maybe for s in trays.sowings)
    idle = {"maybe"} if not maybe else set()
    idle |= {"whisker"} if not style.whiskers else set()
    return [(key, _mark_words(key, shared, style.words)) for key in LEGEND if key not in idle]


def _mark_words(key: str, shared: bool, words: Language) -> str:
    return words.say("chart.mark.shared mark" if key == "mark" and shared else f"chart.mark.{key}")


def whisker(early: float, middle: float, late: float, y: float, style: Style) -> Iterator[Shape]:
    """A fine line from the early to the late date, its ends and its middle ticked."""
    line, tick = style.base * 0.05, style.base * 0.1
    yield Line(early, y, late, y, 0.0, line)
    for x in (early, middle, late):
        yield Line(x, y - tick, x, y + tick, 0.0, line)


def legend_lines(
    marks: Sequence[tuple[str, str]], style: Style, left: float = MARGIN
) -> list[list[tuple[str, str, float]]]:
    """Marks with where each begins; as many lines as they need."""
    lines: list[list[tuple[str, str, float]]] = [[]]
    x = left
    for key, words in marks:
        needed = sample_width(key, style) + style.inner * 0.5 + style.wide(words, "regular", style.small)
        if lines[-1] and x + needed > style.paper.width - MARGIN:
            lines.append([])
            x = left
        lines[-1].append((key, words, x))
        x += needed + style.inner * 0.9
    return lines


def legend_height(marks: Sequence[tuple[str, str]], style: Style, left: float = MARGIN) -> float:
    """The height of the legend, from `left` to the paper's right margin."""
    return len(legend_lines(marks, style, left)) * style.inner * LEGEND_LINE


def sample_width(key: str, style: Style) -> float:
    """How wide a mark of the legend is."""
    return style.inner * (1.3 if key in ("mark", "down") else 2.0)


def legend(marks: Sequence[tuple[str, str]], style: Style, top: float, left: float = MARGIN) -> Iterator[Shape]:
    """What the marks mean, below `top`."""
    tall = style.inner * 1.15
    for n, line in enumerate(legend_lines(marks, style, left), 1):
        y = top + style.inner * (LEGEND_LINE * n - 0.35)
        for key, words, x in line:
            wide = sample_width(key, style)
            yield from sample(key, x, y - tall * 0.82, wide, tall, style)
            yield Words(x + wide + style.inner * 0.5, y, words, "regular", style.small)


def sample(key: str, x: float, y: float, wide: float, tall: float, style: Style) -> Iterator[Shape]:
    """A mark of the legend in a box at (x, y)."""
    if key == "mark":
        yield Box(x, y, wide, tall, fill=0.0, radius=2)
        yield Words(x + wide / 2, y + tall * 0.76, "3", "semi bold", tall * 0.75, 1.0, "centre")
    elif key == "down":
        points = ((x, y), (x + wide, y), (x + wide, y + tall * 0.58), (x + wide / 2, y + tall), (x, y + tall * 0.58))
        yield Polygon(points, fill=0.0)
    elif key in ("tray", "hardening"):
        hatch: Hatch = "vertical" if key == "hardening" else ""
        yield Box(x, y + tall * 0.3, wide, tall * 0.4, fill=1.0, stroke=0.0, hatch=hatch, pitch_pt=style.ruling)
    elif key in ("bed", "picking", "maybe"):
        crossed: Hatch = "diagonal" if key == "picking" else ""
        dashed = key == "maybe"
        yield Box(x, y, wide, tall, fill=1.0, stroke=0.0, hatch=crossed, pitch_pt=style.hatching, dashed=dashed)
        if key == "bed":
            yield Box(x, y - tall * 0.12, style.base * 0.14, tall * 1.12, fill=0.0)
    elif key == "post":
        yield from post(x + wide / 2, y, y + tall, style)
    elif key == "cover":
        yield Line(x, y + tall / 2, x + wide, y + tall / 2, 0.0, style.base * 0.1)
    elif key == "whisker":
        yield from whisker(x, x + wide * 0.55, x + wide, y + tall * 0.5, style)
    elif key == "beyond":
        yield Box(x, y, wide, tall, fill=1.0, stroke=0.0)
        back = x + wide - style.base * 0.36
        yield Polygon(((back, y), (x + wide, y + tall / 2), (back, y + tall)), fill=0.0)
    else:
        yield Line(x, y + tall / 2, x + wide, y + tall / 2, 0.0, style.stroke(0.9), dashed=True)
