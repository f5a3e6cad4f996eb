"""The head of a chart: title, months, weeks, Mondays, and how likely frost is."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date, timedelta
from functools import cached_property, partial

import msgspec

from sowsheet.garden.records import Garden
from sowsheet.jobs.make import name_of
from sowsheet.schedule.records import Batch, Schedule
from sowsheet.sheets.flow import cut
from sowsheet.sheets.furniture import SOFT
from sowsheet.sheets.paper import MARGIN, PT_PER_M, Paper, usual_distance_m
from sowsheet.sheets.shapes import Box, Face, Leaf, Line, Measure, Shape, Words
from sowsheet.sheets.spoken import head_said
from sowsheet.sheets.view import Span
from sowsheet.sheets.weeks import Weeks, months_of
from sowsheet.site.climate import Climate, chance_colder_after, chance_colder_before
from sowsheet.site.light import daylight_h
from sowsheet.words.language import Language, capital

DIGIT_EM = 0.494  # a digit of the condensed bold face
COLUMN_FILL = 0.85  # of a column's width at most for its number, or numbers run into each other
TITLE_WIDE = 30  # of its letters' size a sheet is wide at least, or the garden's name is lost
TITLE = 2.0  # the title's height in base sizes
UNKNOWN = 9999  # days from a frost date that is not known
HALF_A_WINTER = 120  # days beyond which one known frost date tells nothing
BAND = 1.2  # daylight and warmth, in small sizes
M_A_FOOT = 0.3048
MOST_NOTES = 4  # lines under the title
SMALLEST = 6.5  # what is for the eye close by


class Style(msgspec.Struct, frozen=True, dict=True):
    """Sizes that follow from the paper, in points."""

    paper: Paper
    measure: Measure
    printed_on: date | None
    words: Language
    scale: float = 1.0  # larger type where there is room for it; never below 1
    row_share: float = 1.42  # a row's height in base sizes
    place_share: float = 3.0  # a place's height in the foot
    whiskers: bool = False  # whether rows show how far their first picking wanders

    @property
    def base(self) -> float:
        """Row names and week numbers: what is read from the distance."""
        return self.paper.type_pt * self.scale

    @property
    def inner(self) -> float:
        """Words on and beside the ribbons, for a step nearer."""
        return max(SMALLEST, self.base * 0.68)

    @property
    def small(self) -> float:
        """Dates and remarks, for the eye close by."""
        return max(SMALLEST, self.base * 0.54)

    @property
    def row(self) -> float:
        """A row's height."""
        return self.base * self.row_share

    @property
    def hatching(self) -> float:
        """The repeat of the hatch of a picking: 2.3 mm for each metre can be told apart."""
        return self.base * 0.352

    @property
    def ruling(self) -> float:
        """The repeat of the ruling of hardening, finer: it is seldom longer than a week."""
        return self.base * 0.2

    @cached_property
    def end_widths(self) -> tuple[float, float]:
        """How wide the longest price of a week and the longest date are, behind the last week, in type of 1 pt."""
        days = (self.words.day_brief(date(2001, month, 28)) for month in range(1, 13))
        cost = self.wide(self.words.say("chart.costs", n="00"), "semi", 1.0)
        return cost, max(self.wide(day, "semi", 1.0) for day in days)

    def stroke(self, pt: float) -> float:
        """A line's thickness: `pt` is for 1 m."""
        return pt * max(0.6, self.base / PT_PER_M)

    def wide(self, text: str, face: Face, size: float) -> float:
        """How wide words are."""
        return self.measure(text, face, size)


def nearer(style: Style) -> Style:
    """For what is below the rows: read as such a paper usually is, however far off its rows are to be read."""
    near = min(style.paper.distance_m, usual_distance_m(style.paper.name))
    return msgspec.structs.replace(style, paper=msgspec.structs.replace(style.paper, distance_m=near))


def head_height(lines: Sequence[str], style: Style) -> float:
    """Title, remarks, months, weeks, Mondays, frost, daylight and warmth."""
    return title_height(lines, style) + scale_height(style)


def title_height(lines: Sequence[str], style: Style) -> float:
    """Title and remarks."""
    return style.base * TITLE + style.small * (0.3 + 1.35 * len(lines))


def scale_height(style: Style, brief: bool = False) -> float:
    """Months, weeks, Mondays, frost, daylight and warmth; `brief`: months and weeks alone."""
    if brief:
        return style.base * (1.3 + 1.15)
    return style.base * (1.3 + 1.15 + 0.95) + style.small * (1.35 + BAND)


def head(
    leaf: Leaf,
    garden: Garden,
    schedule: Schedule,
    weeks: Weeks,
    lines: Sequence[str],
    style: Style,
    number: int,
    pages: int,
    title: str = "",
    ends: bool = True,
    span: Span | None = None,
) -> None:
    """Everything above the rows. `title`: another than the sowing chart's; `ends`: with the heads of the columns behind
    the last week."""
    title = title or style.words.say("chart.title")
    named = list(title_shapes(title, garden, schedule, style, number, pages, span))
    leaf.tag("H1", named[:2])
    leaf.tag("P", named[2:])
    for note in note_shapes(lines, style):
        leaf.tag("P", [note])
    top = MARGIN + title_height(lines, style)
    said = partial(columns_said, style.words, schedule, garden.imperial, weeks)
    leaf.tag("Figure", scale_shapes(garden, schedule, weeks, top, style), said)
    leaf.draw(scale_frame(weeks, top + scale_height(style), style, ends))


def note_shapes(lines: Sequence[str], style: Style) -> Iterator[Words]:
    """The remarks under the title."""
    y = MARGIN + style.base * TITLE + style.small * 0.3
    for line in lines:
        yield Words(MARGIN, y, line, "semi", style.small)
        y += style.small * 1.35


def scale_shapes(
    garden: Garden, schedule: Schedule, weeks: Weeks, top: float, style: Style, brief: bool = False
) -> Iterator[Shape]:
    """The heads of the weeks, from `top` down; `brief`: months and weeks alone."""
    y = top
    yield from _months(weeks, y, style)
    y += style.base * 1.3
    yield from _numbers(weeks, y, style)
    if brief:
        return
    y += style.base * 1.15
    yield from _mondays(weeks, y, style)
    y += style.small * 1.35
    yield from _frost(schedule.climate, weeks, y, style)
    y += style.base * 0.95
    yield from _light_and_warmth(schedule.climate, garden.imperial, weeks, y, style)


def scale_frame(weeks: Weeks, bottom: float, style: Style, ends: bool = True) -> Iterator[Shape]:
    """The heads of the columns behind the last week, if `ends`, and the line under all heads."""
    if ends and weeks.ends:
        yield from _end_heads(weeks, bottom, style)
    yield Line(MARGIN, bottom, style.paper.width - MARGIN, bottom, 0.0, style.stroke(1.0))


def _end_heads(weeks: Weeks, bottom: float, style: Style) -> Iterator[Shape]:
    """Over the ends of the rows: what a week's delay costs, and the last useful sowing."""
    edges = row_ends(weeks, style)
    room = (edges[0] - weeks.right) * 0.95
    heads = (style.words.say("chart.ends.costs"), style.words.say("chart.ends.last"))
    for right, said in zip(edges, heads, strict=True):
        lines = said.splitlines()
        widest = max(style.wide(line, "regular", 1.0) for line in lines)
        size = min(style.small, room / widest)
        for n, line in enumerate(reversed(lines)):
            yield Words(right, bottom - size * (0.5 + 1.15 * n), line, "regular", size, SOFT, "right")


def row_ends(weeks: Weeks, style: Style) -> tuple[float, float]:
    """The right edges of the two columns behind the last week."""
    right = style.paper.width - MARGIN - style.base * 0.15
    return weeks.right + (right - weeks.right) * 0.42, right


def notes(schedule: Schedule, weeks: Weeks, style: Style) -> tuple[str, ...]:
    """What was sown, set or planted before the first column, and what comes after the last."""
    before = [b for b in schedule.batches if (d := _begins(b)) is not None and d < weeks.first]
    after = [b for b in schedule.batches if (d := _begins(b)) is not None and d >= weeks.end]
    lines: list[str] = []
    words = style.words
    for lead, batches in ((words.say("chart.before"), before), (words.say("chart.after"), after)):
        if batches:
            told = [_told(b, words) for b in sorted(batches, key=lambda b: _begins(b) or date.max)]
            lines += _fill(f"{lead} ", told, style)
    if len(lines) > MOST_NOTES:
        all_of_them = words.count(len(before) + len(after), "sowing")
        lines[MOST_NOTES - 1 :] = [words.say("chart.and more", sowings=all_of_them)]
    room = style.paper.width - 2 * MARGIN
    return tuple(cut(line, room, "semi", style.small, style.measure) for line in lines)


def _begins(batch: Batch) -> date | None:
    when = batch.stages.sow or batch.stages.plant
    return when.day if when else None


def _told(batch: Batch, words: Language) -> str:
    begins = _begins(batch)
    if begins is None:
        return name_of(batch)
    crop, day = name_of(batch), words.day_month_year(begins)
    if batch.bed:
        return words.say(f"chart.begun for.{batch.raised}", crop=crop, day=day, bed=batch.bed)
    return words.say(f"chart.begun.{batch.raised}", crop=crop, day=day)


def _fill(lead: str, pieces: Sequence[str], style: Style) -> Iterator[str]:
    """Pieces joined by `; `, broken into lines that fit the paper."""
    room = style.paper.width - 2 * MARGIN
    line = lead
    for n, piece in enumerate(pieces):
        joined = piece + (";" if n < len(pieces) - 1 else ".")
        longer = f"{line}{'' if line == lead else ' '}{joined}"
        if style.wide(longer, "semi", style.small) > room and line != lead:
            yield line
            line = joined
        else:
            line = longer
    yield line


def title_shapes(
    title: str, garden: Garden, schedule: Schedule, style: Style, number: int, pages: int, span: Span | None
) -> Iterator[Shape]:
    size = min(style.base * 1.5, style.paper.width / TITLE_WIDE)
    y = MARGIN + size * 0.8
    yield Words(MARGIN, y, title, "bold", size)
    x = MARGIN + style.wide(f"{title} ", "bold", size)
    years = schedule.season.years
    right = style.paper.width - MARGIN
    words = style.words
    shown = [span.said(words)] if span is not None else []
    shown.append(words.say("chart.read from", distance=_far(style.paper.distance_m, garden.imperial, words)))
    shown.append(words.say("chart.sheet in", number=number + 1, pages=pages))
    made = [words.say(f"chart.dates by.{'climate' if schedule.climate.outside is not None else 'handbook'}")]
    if style.printed_on:
        made.append(words.say("chart.printed", day=words.day_month_year(style.printed_on)))
    aside = [" · ".join(shown), " · ".join(made)]
    widest = max(style.wide(a, "regular", 1.0) for a in aside)
    least = style.wide(f"…, {years}", "regular", size)  # what is left of the garden's name at least
    small = min(style.small, max(SMALLEST, (right - x - size - least) / widest))
    room = right - x - widest * small - size
    yield Words(x, y, cut(garden.name, room, "regular", size, style.measure, f", {years}"), "regular", size)
    for n, line in enumerate(aside):
        yield Words(right, MARGIN + small * (0.85 + 1.3 * n), line, "regular", small, SOFT, "right")


def _far(distance_m: float, imperial: bool, words: Language) -> str:
    return f"{distance_m / M_A_FOOT:.0f} ft" if imperial else f"{words.plain(distance_m, 3)} m"


def _months(weeks: Weeks, y: float, style: Style) -> Iterator[Shape]:
    n = 0
    for month, length in months_of(weeks.mondays):
        x = weeks.left + n * weeks.week_width
        room = length * weeks.week_width - style.base * 0.4
        names = _month_names(month, style.words)
        words = next((w for w in names if style.wide(w, "bold", style.base) <= room), names[-1] if length > 1 else "")
        size = min(style.base, room / style.wide(names[-1], "bold", 1.0))
        yield Line(x, y, x, y + style.base * 1.3, 0.0, style.stroke(1.0))
        if words:
            yield Words(x + style.base * 0.2, y + style.base, words, "bold", size)
        n += length


def _month_names(month: int, words: Language) -> tuple[str, ...]:
    """A month as a head, from its whole name to its shortest."""
    short = words.months_short[month - 1]
    shorter = words.say("chart.september") if month == 9 else short
    return tuple(capital(name) for name in (words.months[month - 1], shorter, short))


def _label(words: str, y: float, weeks: Weeks, style: Style, aside: float = 0.0) -> Words:
    """What a line of the head is, left of its weeks; `aside`: so far from them, for what stands between."""
    right = weeks.left - style.inner * 0.5 - aside
    size = min(style.small, (right - MARGIN) / style.wide(words, "regular", 1.0))
    return Words(right, y, words, "regular", size, SOFT, "right")


def _numbers(weeks: Weeks, y: float, style: Style) -> Iterator[Shape]:
    """Week numbers, large enough for the distance: where columns are too narrow for it, every second or fourth one is,
    and those halfway between them stand small where they have room."""
    column = weeks.week_width / (2 * DIGIT_EM)  # the size of a number that fills its column
    most = {1: COLUMN_FILL * column, 2: 1.32 * column, 4: 3.32 * column}
    step = next((s for s in most if most[s] >= style.paper.type_pt), 4)
    roomy = max(style.paper.type_pt, 0.85 * most[step])  # no larger than it must be beside the small ones
    size, small = min(style.base, most[step], roomy), min(style.small, 0.56 * column)
    yield _label(style.words.say("chart.week"), y + size * 0.85, weeks, style)
    base, half, left = y + size * 0.85, DIGIT_EM * size, weeks.left
    right = style.paper.width - MARGIN
    middles = [(m.isocalendar().week, left + (n + 0.5) * weeks.week_width) for n, m in enumerate(weeks.mondays)]
    least = MARGIN if weeks.begins else left  # on a part of a chart nothing is seen of what is left of it
    large = [(week, max(least + half, min(x, right - half))) for week, x in middles if week % step == 0]
    for week, x in large:
        yield Words(x, base, str(week), "condensed bold", size, 0.0, "centre")
    clear = half + DIGIT_EM * small
    for week, x in middles:
        if week % step * 2 == step and all(abs(x - other) > clear for _, other in large):
            yield Words(x, base, str(week), "condensed", small, 0.0, "centre")


def _mondays(weeks: Weeks, y: float, style: Style) -> Iterator[Shape]:
    size = min(style.small, 0.8 * weeks.week_width / (2 * DIGIT_EM))
    yield _label(style.words.weekdays[0], y + size * 0.8, weeks, style)
    for n, monday in enumerate(weeks.mondays):
        x = weeks.left + (n + 0.5) * weeks.week_width
        yield Words(x, y + size * 0.8, str(monday.day), "condensed", size, 0.0, "centre")


def _frost(climate: Climate, weeks: Weeks, y: float, style: Style) -> Iterator[Shape]:
    """A bar a week, as high as the share of years in which frost may still, or already, come."""
    room = style.base * 0.8
    if climate.almanac.last_frost is None and climate.almanac.first_frost is None:
        return
    size = min(style.small, room * 0.56)
    scale = [(10, y + size * 0.76)] + [(0, y + room)] * (size >= SMALLEST * 0.9)
    for years, level in scale:
        yield Words(weeks.left - size * 0.25, level, str(years), "condensed", size, SOFT, "right")
    aside = style.wide("10", "condensed", size)
    yield _label(style.words.say("chart.frost"), y + room * 0.85, weeks, style, aside)
    for n, monday in enumerate(weeks.mondays):
        chance = _frost_chance(climate, monday + timedelta(days=3))
        if chance > 0.02:
            x, tall = weeks.left + n * weeks.week_width, room * chance
            yield Box(x, y + room - tall, weeks.week_width, tall, fill=0.45)
    yield Line(weeks.left, y + room / 2, weeks.right, y + room / 2, 1.0, style.stroke(0.5))  # every other year


def _light_and_warmth(climate: Climate, imperial: bool, weeks: Weeks, y: float, style: Style) -> Iterator[Shape]:
    """Hours of daylight and the day's usual mean: of each week where its column has room, else of each month."""
    size = style.small * 0.9
    shown = "alone" if climate.outside is None else "f" if imperial else "c"
    yield _label(style.words.say(f"chart.daylight.{shown}"), y + size, weeks, style)
    widest = style.wide("00 h -00° ", "condensed", size)
    runs = [(n, 1) for n in range(len(weeks.mondays))]
    if widest > weeks.week_width:
        runs, n = [], 0
        for _, length in months_of(weeks.mondays):
            runs.append((n, length))
            n += length
    for start, length in runs:
        words = _light_and_mean(climate, weeks.mondays[start], length, imperial)
        if style.wide(words, "condensed", size) <= length * weeks.week_width:
            x = weeks.left + (start + length / 2) * weeks.week_width
            yield Words(x, y + size, words, "condensed", size, 0.0, "centre")


def columns_said(words: Language, schedule: Schedule, imperial: bool, weeks: Weeks) -> str:
    """The columns in words, with `April 14 h 9°` for each month."""
    light, n = [], 0
    for month, length in months_of(weeks.mondays):
        own = _light_and_mean(schedule.climate, weeks.mondays[n], length, imperial)
        light.append(words.say("spoken.light of month", month=words.months[month - 1], light=own))
        n += length
    return head_said(words, weeks.mondays, schedule.season.year, schedule.climate.almanac, light)


def _light_and_mean(climate: Climate, monday: date, weeks: int, imperial: bool) -> str:
    """`12 h 7°`: means over some weeks."""
    days = [monday + timedelta(days=n) for n in range(7 * weeks)]
    light = sum(daylight_h(climate.latitude, day.timetuple().tm_yday) for day in days) / len(days)
    if climate.outside is None:
        return f"{light:.0f} h"
    mean_c = sum(climate.mean_in("", day) for day in days) / len(days)
    return f"{light:.0f} h {mean_c * 1.8 + 32 if imperial else mean_c:.0f}°"


def _frost_chance(climate: Climate, day: date) -> float:
    """The share of years in which frost still comes in spring, or has come in autumn, whichever is nearer; else 0."""
    spring, autumn = (_days_from(md, day) for md in (climate.almanac.last_frost, climate.almanac.first_frost))
    nearest = chance_colder_after if spring <= autumn else chance_colder_before
    known = min(spring, autumn) <= HALF_A_WINTER or max(spring, autumn) < UNKNOWN
    return (nearest(climate, 0.0, day) if known else None) or 0.0


def _days_from(month_day: tuple[int, int] | None, day: date) -> int:
    """Days between a day and the nearest such date in any year."""
    if month_day is None:
        return UNKNOWN
    return min(abs((date(day.year + n, *month_day) - day).days) for n in (-1, 0, 1))


def row_name(batch: Batch) -> str:
    """A row's name."""
    return capital(name_of(batch))
