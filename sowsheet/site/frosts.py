"""Frost dates from a daily record: the last and first cold night of each year, and how they spread over the years.

Pure functions. An event is a night whose minimum is at or below a threshold.
"""

from __future__ import annotations

import math
from bisect import bisect_left, bisect_right
from calendar import isleap
from collections.abc import Callable, Sequence
from datetime import date, timedelta
from statistics import fmean

import msgspec

from sowsheet.reading.tokens import MONTHS
from sowsheet.site.quantile import quantile
from sowsheet.site.record import FEW_YEARS, Record

MOST_MISSING = 5  # days of a half year
_CLEAR_C = 2.0  # the warmer half of the year is so much warmer, or the hemisphere cannot be told

# Months of the northern year that a garden file takes for its frost dates.
_LAST_MONTHS, _FIRST_MONTHS = (1, 2, 3, 4, 5, 6, 7), (7, 8, 9, 10, 11, 12, 1)

IsEvent = Callable[[float], bool]  # of a minimum in C


class Event(msgspec.Struct, frozen=True):
    """A year that was watched, and the day of its event; None in a year without one."""

    year: int
    day: date | None


class Span(msgspec.Struct, frozen=True):
    """A time of the record from its first to its last day, both counted."""

    first: date
    last: date


class Spread(msgspec.Struct, frozen=True):
    """How an event's day lies from year to year: the season's day numbers (`season_day`) of the years that had it."""

    days: tuple[int, ...]
    years: int  # that were watched

    @property
    def share(self) -> float:
        """The share of the watched years that had the event; 0 where none was watched."""
        return len(self.days) / self.years if self.years else 0.0

    @property
    def few(self) -> bool:
        """Whether fewer than 10 years had it, so that its dates are rough."""
        return len(self.days) < FEW_YEARS

    @property
    def average(self) -> tuple[int, int] | None:
        """The middle date; None where fewer than half of the watched years had the event."""
        return self.date_at(0.5) if self.share >= 0.5 else None

    def at(self, chance: float) -> float | None:
        """The day number that this share of the years with an event does not pass (type 7); None without any."""
        return quantile(self.days, chance) if self.days else None

    def date_at(self, chance: float) -> tuple[int, int] | None:
        """Month and day of `at`, a half day rounded up; None without any."""
        number = self.at(chance)
        return None if number is None else month_day(number)


class Frosts(msgspec.Struct, frozen=True):
    """One threshold's events. A year is the one in which its spring lies; `lengths` are the days from its last event
    in spring to its first in autumn, of years that had both. `winters`: told by cold seasons (see `frosts`)."""

    threshold_c: float
    south: bool
    winters: bool
    last: tuple[Event, ...]
    first: tuple[Event, ...]

    @property
    def last_spring(self) -> Spread:
        """The spread of the last event in spring."""
        return _spread(self.last)

    @property
    def first_autumn(self) -> Spread:
        """The spread of the first event in autumn."""
        return _spread(self.first)

    @property
    def lengths(self) -> tuple[int, ...]:
        """The growing seasons in days, first autumn event less last spring event, year by year."""
        last = {e.year: e.day for e in self.last}
        pairs = [(last.get(e.year), e.day) for e in self.first]
        return tuple((end - start).days for start, end in pairs if start is not None and end is not None)


def at_or_below(threshold_c: float) -> IsEvent:
    """The usual event: a minimum at or below the threshold."""
    return lambda low: low <= threshold_c


def frosts(record: Record, threshold_c: float, south: bool) -> Frosts:
    """Last spring and first autumn nights at or below a threshold.

    A year's spring half is 1 January to 30 June and its autumn half 1 July to 31 December; in the south 1 July to 31
    December, and 1 January to 30 June of the next year. A year counts when neither half lacks more than 5 days.

    Where the first such night of most winters that have one comes after midwinter's turn (1 January, in the south 1
    July), halves would miss it or take the next winter's. There whole cold seasons are looked at instead, July to
    June (in the south January to December), each of whose halves must be as complete: a winter's last night belongs
    to the spring in it, its first to the autumn in it. After Vestal (1971), Monthly Weather Review 99, 650.
    """
    event = at_or_below(threshold_c)
    winters = [(y, w) for y, w in _winters(record, south) if all(complete(record, half) for half in halves_of(w))]
    firsts = [(first_event(record, w, event), halves_of(w)[1].first) for _, w in winters]
    late = [first >= turn for first, turn in firsts if first is not None]
    if 2 * sum(late) > len(late):
        last = tuple(Event(y, last_event(record, w, event)) for y, w in winters)
        return Frosts(
            threshold_c,
            south,
            True,
            last,
            tuple(Event(y - 1, f) for (y, _), (f, _) in zip(winters, firsts, strict=True)),
        )
    years = watched_years(record, south)
    last = tuple(Event(y, last_event(record, spring_half(y, south), event)) for y in years)
    first = tuple(Event(y, first_event(record, autumn_half(y, south), event)) for y in years)
    return Frosts(threshold_c, south, False, last, first)


def watched_years(record: Record, south: bool) -> tuple[int, ...]:
    """The years neither of whose halves lacks more than 5 days."""
    return tuple(
        y for y in _years(record) if complete(record, spring_half(y, south)) and complete(record, autumn_half(y, south))
    )


def left_out_years(record: Record, south: bool) -> tuple[int, ...]:
    """Years between the first and the last one watched that lack too many days."""
    watched = watched_years(record, south)
    return tuple(y for y in range(watched[0], watched[-1]) if y not in watched) if watched else ()


def spring_half(year: int, south: bool) -> Span:
    """The half of a year in which its last frost in spring is looked for."""
    return Span(date(year, 7, 1), date(year, 12, 31)) if south else Span(date(year, 1, 1), date(year, 6, 30))


def autumn_half(year: int, south: bool) -> Span:
    """The half of a year in which its first frost in autumn is looked for."""
    return Span(date(year + 1, 1, 1), date(year + 1, 6, 30)) if south else Span(date(year, 7, 1), date(year, 12, 31))


def halves_of(winter: Span) -> tuple[Span, Span]:
    """A cold season before and after its turn."""
    turn = date(winter.last.year, 1, 1) if winter.first.month == 7 else date(winter.first.year, 7, 1)
    return Span(winter.first, turn - timedelta(days=1)), Span(turn, winter.last)


def _winters(record: Record, south: bool) -> list[tuple[int, Span]]:
    """The cold seasons of a record, each with the year whose spring it ends in."""
    spans = [(y, Span(autumn_half(y - 1, south).first, spring_half(y, south).last)) for y in _years(record)]
    return [(y, s) for y, s in spans if record.days and s.last >= record.days[0]]


def _years(record: Record) -> range:
    """Every year that any half of could lie in the record."""
    return range(record.days[0].year - 1, record.days[-1].year + 1) if record.days else range(0)


def complete(record: Record, span: Span, most_missing: int = MOST_MISSING) -> bool:
    """Whether so few days of a span lack a minimum."""
    start, end = _within(record, span)
    return (span.last - span.first).days + 1 - (end - start) <= most_missing


def last_event(record: Record, span: Span, event: IsEvent) -> date | None:
    """The last night in a span that is an event."""
    start, end = _within(record, span)
    return next((record.days[n] for n in range(end - 1, start - 1, -1) if event(record.min_c[n])), None)


def first_event(record: Record, span: Span, event: IsEvent) -> date | None:
    """The first night in a span that is an event."""
    start, end = _within(record, span)
    return next((record.days[n] for n in range(start, end) if event(record.min_c[n])), None)


def _within(record: Record, span: Span) -> tuple[int, int]:
    return bisect_left(record.days, span.first), bisect_right(record.days, span.last)


def _spread(events: Sequence[Event]) -> Spread:
    return Spread(tuple(season_day(e.day, e.year) for e in events if e.day is not None), len(events))


def season_day(day: date, year: int) -> int:
    """A day's number in a 365-day year, 29 February counted as 28 February, running on from 1 January of `year`: 366
    is the next 1 January, 0 the 31 December before."""
    number = day.timetuple().tm_yday
    if isleap(day.year) and number >= 60:
        number -= 1
    return (day.year - year) * 365 + number


def month_day(number: float) -> tuple[int, int]:
    """Month and day of a number that `season_day` gives; a half day is rounded up."""
    day = date(2001, 1, 1) + timedelta(days=(math.floor(number + 0.5) - 1) % 365)
    return day.month, day.day


def is_south(record: Record) -> bool | None:
    """Whether October to March is the warmer half of the year, by at least 2 C; None where that cannot be told.

    Means of the months' means, so that a record of a few odd months does not lean to one side.
    """
    months: dict[int, list[float]] = {}
    for day, low in zip(record.days, record.min_c, strict=True):
        months.setdefault(day.month, []).append(low)
    means = {month: fmean(lows) for month, lows in months.items()}
    summer = [mean for month, mean in means.items() if 4 <= month <= 9]
    winter = [mean for month, mean in means.items() if not 4 <= month <= 9]
    if min(len(summer), len(winter)) < 3 or abs(fmean(summer) - fmean(winter)) < _CLEAR_C:
        return None
    return fmean(winter) > fmean(summer)


def garden_lines(at_zero: Frosts) -> tuple[str, ...]:
    """The lines for a garden file, in its own words, `last frost: 11 April (average)`: the middle date of the years
    that had a frost.

    A line is left out where fewer than half of the years had one, and where its date is none that a garden file takes.
    """
    lines = []
    for key, spread, months in (
        ("last frost", at_zero.last_spring, _LAST_MONTHS),
        ("first frost", at_zero.first_autumn, _FIRST_MONTHS),
    ):
        day = spread.average
        if day is not None and ((day[0] + 5) % 12 + 1 if at_zero.south else day[0]) in months:
            lines.append(f"{key}: {day[1]} {MONTHS[day[0] - 1]} (average)")
    return tuple(lines)
