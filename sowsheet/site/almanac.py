"""Growers' dates put on the calendar: which day `3 weeks before last frost` is, in which year."""

from __future__ import annotations

from calendar import monthrange
from collections.abc import Iterator
from datetime import date, timedelta

import msgspec

from sowsheet.reading.dates import Anchored, CalendarDay, DayLength, GrowerDate, IsoWeek
from sowsheet.site.season import weeks_in
from sowsheet.site.sun import day_length_passes, midsummer, shortest_day

THIRD_DAYS = 10  # of a month; the last third has what is left


class Almanac(msgspec.Struct, frozen=True):
    """A site's yearly dates. Frost dates are (month, day); None where they are not known."""

    latitude: float
    last_frost: tuple[int, int] | None = None
    first_frost: tuple[int, int] | None = None


class NoSuchDay(msgspec.Struct, frozen=True):
    """Why a date the grower wrote does not exist: the last day of that month of that year, or the year's last week."""

    year: int
    last: int
    month: int | None = None


def on_or_after(almanac: Almanac, words: GrowerDate, day: date) -> date | NoSuchDay | None:
    """The first such day not before `day`; a year that was written is kept. None: the site does not know it."""
    written = getattr(words, "year", None)
    years = (written,) if written else range(day.year - 1, day.year + 3)
    for year in years:
        for found, key in _occurrences(almanac, words, year):
            if written or key >= day:
                return found
    return None


def last_before(almanac: Almanac, words: GrowerDate, day: date) -> date | NoSuchDay | None:
    """The last such day before `day`; a year that was written is kept. None: the site does not know it."""
    written = getattr(words, "year", None)
    years = (written,) if written else range(day.year - 2, day.year + 1)
    best: date | NoSuchDay | None = None
    for year in years:
        for found, key in _occurrences(almanac, words, year):
            if written or key < day:
                best = found
    return best


def day_after(almanac: Almanac, words: GrowerDate, day: date) -> date | None:
    """`on_or_after` for dates of the catalogue, which always exist where the site knows them."""
    found = on_or_after(almanac, words, day)
    return found if isinstance(found, date) else None


def window_of_month(words: GrowerDate, day: date) -> tuple[date, date] | None:
    """The whole month that a month alone stands for; None for other dates."""
    if isinstance(words, CalendarDay) and words.span == "month":
        return day.replace(day=1), day.replace(day=monthrange(day.year, day.month)[1])
    return None


def span_of(words: GrowerDate, day: date) -> tuple[date, date] | None:
    """The first and last day of what is written less exactly than a day, of which `day` is one: a third of a month, a
    month, a week. None for other dates."""
    if isinstance(words, IsoWeek):
        monday = day - timedelta(days=day.weekday())
        return monday, monday + timedelta(days=6)
    if not isinstance(words, CalendarDay) or words.span == "day":
        return None
    first, last = day.replace(day=1), day.replace(day=monthrange(day.year, day.month)[1])
    if words.span != "third":
        return first, last
    third = min((day.day - 1) // THIRD_DAYS, 2)
    return day.replace(day=third * THIRD_DAYS + 1), last if third == 2 else day.replace(day=(third + 1) * THIRD_DAYS)


def _occurrences(almanac: Almanac, words: GrowerDate, year: int) -> Iterator[tuple[date | NoSuchDay, date]]:
    """Each such day in a year, with the day by which its year is chosen."""
    if isinstance(words, CalendarDay):
        yield _calendar_day(words, year)
    elif isinstance(words, IsoWeek):
        yield _iso_week(words, year)
    elif isinstance(words, Anchored):
        base = _anchor(almanac, words.anchor, year)
        if base is not None:
            day = base + timedelta(days=words.days)
            yield day, day
    else:
        yield from _day_lengths(almanac, words, year)


def _calendar_day(words: CalendarDay, year: int) -> tuple[date | NoSuchDay, date]:
    last = monthrange(year, words.month)[1]
    day = date(year, words.month, last if words.end else min(words.day, last))
    if words.day > last and not words.end:
        return NoSuchDay(year, last, words.month), day
    return day, day


def _iso_week(words: IsoWeek, year: int) -> tuple[date | NoSuchDay, date]:
    weeks = weeks_in(year)
    monday = date.fromisocalendar(year, min(words.week, weeks), 1)
    thursday = monday + timedelta(days=3)  # a week belongs to the year of its Thursday
    if words.week > weeks:
        return NoSuchDay(year, weeks), thursday
    return monday, thursday


def _anchor(almanac: Almanac, anchor: str, year: int) -> date | None:
    if anchor == "midsummer":
        return midsummer(almanac.latitude, year)
    if anchor == "shortest day":
        return shortest_day(almanac.latitude, year)
    month_day = almanac.last_frost if anchor == "last frost" else almanac.first_frost
    if month_day is None:
        return None
    month, day = month_day
    return date(year, month, min(day, monthrange(year, month)[1]))


def _day_lengths(almanac: Almanac, words: DayLength, year: int) -> Iterator[tuple[date, date]]:
    found = [
        day_length_passes(almanac.latitude, words.hours, year, rising)
        for rising in (True, False)
        if words.trend in ("next", "rising" if rising else "falling")
    ]
    for day in sorted(d for d in found if d is not None):
        yield day + timedelta(days=words.days), day + timedelta(days=words.days)
