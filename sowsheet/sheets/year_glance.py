"""A year at a glance: one page for the pocket, folded twice, a quarter of the year on each quarter of the page."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date, timedelta

import msgspec

from sowsheet.garden.records import Garden
from sowsheet.jobs.make import name_of
from sowsheet.schedule.records import Batch, Schedule
from sowsheet.sheets.flow import PITCH, Run, cut, moved, paragraph
from sowsheet.sheets.furniture import MM, SOFT, hand_paper
from sowsheet.sheets.shapes import Leaf, Line, Measure, Page, Shape, Sheet, Tag, Words
from sowsheet.sheets.weeks import chart_mondays
from sowsheet.site.almanac import Almanac
from sowsheet.site.season import Season, monday_of
from sowsheet.words.language import Language, capital

MARGIN = 10 * MM
FOLD = 5 * MM  # white on either side of a fold
SIZES = (13.0, 12.5, 12.0, 11.5, 11.0, 10.5, 10.0, 9.5, 9.0, 8.5, 8.0, 7.5, 7.0, 6.5)
HEAD = 34.0  # the garden's name and what the words mean, on the first quarter
DEEDS = ("trays", "beds", "out", "pick")

Weekly = tuple[tuple[int, tuple[str, ...]], ...]  # week numbers with the crops of each


class Month(msgspec.Struct, frozen=True):
    """A month: its weeks, for each deed those with the crops, and the frost dates that fall into it."""

    name: str
    mondays: tuple[date, ...]
    deeds: tuple[tuple[str, Weekly], ...]
    frosts: tuple[str, ...] = ()


class Panel(msgspec.Struct, frozen=True):
    """A quarter of the page: its months, where it lies, and how much of it is left under a head."""

    months: tuple[Month, ...]
    x: float
    y: float
    width: float
    room: float


def year_glance(schedule: Schedule, garden: Garden, paper: str, measure: Measure, printed_on: date | None) -> Sheet:
    """The page. It stays A4 or Letter, whichever family `paper` is of; type is as large as lets all of it fit."""
    width, height = hand_paper(paper)
    words = garden.words
    panels = _panels(_months(schedule, words), width, height)
    fits = (s for s in SIZES if all(_set(p, s, measure, words)[1] <= p.room for p in panels))
    size = next(fits, SIZES[-1])
    page = Leaf()
    page.draw(_folds(width, height))
    head = list(_head(schedule, garden, panels[0], measure, printed_on))
    page.lay(head, (Tag("H1", 0, 1), Tag("P", 1, len(head))))
    for panel in panels:
        drawn, tall = _set(panel, size, measure, words)
        if tall > panel.room:
            drawn = _cut(drawn, panel.room, size, words)
        page.lay([moved(shape, panel.x, panel.y) for shape in drawn.shapes], drawn.tags)
    title = words.say("year.file", garden=garden.name, year=schedule.season.year)
    only = Page(width, height, tuple(page.shapes), tags=tuple(page.tags))
    return Sheet(title, (only,), language=words.file_tag)


def _panels(months: Sequence[Month], width: float, height: float) -> list[Panel]:
    """The four quarters of the page, read from left to right and down."""
    wide, tall = width / 2 - MARGIN - FOLD, height / 2 - MARGIN - FOLD
    made = []
    for n in range(4):
        head = HEAD if n == 0 else 0.0
        x = MARGIN + n % 2 * (wide + 2 * FOLD)
        y = MARGIN + n // 2 * (tall + 2 * FOLD)
        made.append(Panel(tuple(months[3 * n : 3 * n + 3]), x, y + head, wide, tall - head))
    return made


def _months(schedule: Schedule, words: Language) -> list[Month]:
    """Twelve months from the season's first on; a week belongs to the month of its Thursday. One that runs over the
    season's edge, and in which something is done, goes to its first or its last month."""
    deeds: dict[tuple[str, date], list[str]] = {}
    days: list[date] = []
    for batch in schedule.batches:
        for deed, day in _deeds(batch):
            deeds.setdefault((deed, monday_of(day)), []).append(_name(batch))
            days.append(day)
    start, found = schedule.season.start, []
    every = chart_mondays(schedule.season, days)
    for n in range(12):
        year, month = start.year + (start.month - 1 + n) // 12, (start.month - 1 + n) % 12 + 1
        mondays = [m for m in every if _month(m, schedule.season) == (year, month)]
        own = [(deed, [(m, deeds.get((deed, m), [])) for m in mondays]) for deed in DEEDS]
        weekly = tuple(
            (deed, tuple((m.isocalendar().week, tuple(dict.fromkeys(names))) for m, names in weeks if names))
            for deed, weeks in own
        )
        frosts = _frosts(schedule.climate.almanac, year, month, words)
        found.append(Month(capital(words.months[month - 1]), tuple(mondays), weekly, frosts))
    return found


def _month(monday: date, season: Season) -> tuple[int, int]:
    day = min(max(season.start, monday + timedelta(days=3)), season.end)
    return day.year, day.month


def _deeds(batch: Batch) -> Iterator[tuple[str, date]]:
    """What is done with a batch, and when. Of what stands there already nothing but its picking is to come."""
    stages = batch.stages
    if not batch.open_left:
        if batch.raised == "tray" and stages.sow:
            yield "trays", stages.sow.day
        if stages.plant:
            yield ("out" if batch.raised == "tray" else "beds"), stages.plant.day
    if stages.first_pick and batch.kind.use != "green manure":
        yield "pick", stages.first_pick.day


def _name(batch: Batch) -> str:
    return capital(name_of(batch)) + ("?" if batch.maybe else "")


def _frosts(almanac: Almanac, year: int, month: int, words: Language) -> tuple[str, ...]:
    """The average frost dates of a month."""
    dates = (("last frost", almanac.last_frost), ("first frost", almanac.first_frost))
    return tuple(
        words.say(f"year.{what}", day=words.day_month(date(year, *day)))
        for what, day in dates
        if day is not None and day[0] == month
    )


def _set(panel: Panel, size: float, measure: Measure, words: Language) -> tuple[Leaf, float]:
    """A quarter's months in a size of type, and how tall they are."""
    leaf = Leaf()
    labels = {deed: words.say(f"year.deed.{deed}") for deed in DEEDS}
    y, indent = 0.0, size * max(3.1, 0.4 + max(measure(label, "semi bold", 1.0) for label in labels.values()))
    for n, month in enumerate(panel.months):
        y += size * 0.6 if n else 0.0
        leaf.tag("H2", [Words(0.0, y + size * 1.25, month.name, "bold", size * 1.25)])
        said = _weeks_said(month.mondays, words)
        room = panel.width - measure(f"{month.name}  ", "bold", size * 1.25)
        small = min(size * 0.82, room / max(1.0, measure(said, "semi", 1.0)))
        leaf.tag("P", [Words(panel.width, y + size * 1.25, said, "semi", small, SOFT, "right")])
        y += size * 1.62
        leaf.draw([Line(0.0, y, panel.width, y, 0.0, 0.75)])
        y += size * 0.15
        for frost in month.frosts:
            text, tall = paragraph((Run(frost, "semi"),), indent, y, panel.width - indent, size, measure)
            leaf.tag("P", text)
            y += tall
        told = [(deed, weeks) for deed, weeks in month.deeds if weeks]
        for deed, weeks in told:
            text, tall = paragraph(_runs(weeks), indent, y, panel.width - indent, size, measure)
            leaf.tag("P", [Words(0.0, y + size, labels[deed], "semi bold", size), *text])
            y += tall
        if not told:
            leaf.tag("P", [Words(0.0, y + size, words.say("year.nothing"), "regular", size, SOFT)])
            y += size * PITCH
    return leaf, y


def _weeks_said(mondays: Sequence[date], words: Language) -> str:
    """weeks 9 to 12, Mondays 1, 8, 15, 22"""
    if not mondays:
        return ""
    first, last = (monday.isocalendar().week for monday in (mondays[0], mondays[-1]))
    return words.say("year.weeks", first=first, last=last, mondays=", ".join(str(m.day) for m in mondays))


def _runs(weeks: Weekly) -> list[Run]:
    """9 Lettuce, Peas  10 Leeks: the weeks in bold."""
    runs: list[Run] = []
    for week, names in weeks:
        runs += [Run(f"{week} ", "bold"), Run(f"{', '.join(names)}; ", "semi")]
    return [*runs[:-1], Run(runs[-1].text.removesuffix("; "), "semi")]


def _cut(whole: Leaf, room: float, size: float, words: Language) -> Leaf:
    """What fits, and how many lines do not: more than a hundred sowings are none for the pocket."""
    low = room - size * 1.5
    fits = [(isinstance(s, Words) and s.y <= low) or (isinstance(s, Line) and s.y1 <= low) for s in whole.shapes]
    left = len({round(s.y, 1) for s in whole.shapes if isinstance(s, Words) and s.y > low})
    kept = Leaf()
    kept.shapes = [shape for shape, fit in zip(whole.shapes, fits, strict=True) if fit]
    tags = (Tag(t.role, sum(fits[: t.start]), sum(fits[: t.end]), t.said) for t in whole.tags)
    kept.tags = [tag for tag in tags if tag.end > tag.start]
    kept.tag("P", [Words(0.0, room, words.say("year.more", n=left), "bold", size)])
    return kept


def _head(
    schedule: Schedule, garden: Garden, panel: Panel, measure: Measure, printed_on: date | None
) -> Iterator[Shape]:
    """The garden's name, cut to its quarter, and what the words mean."""
    top = panel.y - HEAD
    size = 15.0
    name = cut(garden.name, panel.width, "bold", size, measure, f", {schedule.season.years}")
    yield Words(panel.x, top + 12, name, "bold", size)
    words = garden.words
    told = words.say("year.explained")
    if printed_on:
        told = f"{told} {words.say('year.printed', day=words.day_month_year(printed_on))}"
    small = min(8.0, 8.0 * panel.width / measure(told, "semi", 8.0))
    if small >= SIZES[-1]:
        yield Words(panel.x, top + 25, told, "semi", small, SOFT)
    else:  # over two lines rather than smaller than anything else
        yield from paragraph((Run(told, "semi"),), panel.x, top + 16.5, panel.width, 7.0, measure, SOFT)[0]


def _folds(width: float, height: float) -> list[Shape]:
    """Where the page is folded: short ticks at its edges and in its middle."""
    x, y, tick = width / 2, height / 2, 4 * MM
    lines = [
        Line(x, MARGIN, x, MARGIN + tick, 0.0, 0.5),
        Line(x, height - MARGIN - tick, x, height - MARGIN, 0.0, 0.5),
        Line(MARGIN, y, MARGIN + tick, y, 0.0, 0.5),
        Line(width - MARGIN - tick, y, width - MARGIN, y, 0.0, 0.5),
        Line(x - tick, y, x + tick, y, 0.0, 0.5),
        Line(x, y - tick, x, y + tick, 0.0, 0.5),
    ]
    return [*lines]
