"""The growing season that a plan is for, and ISO 8601 weeks in it."""

from __future__ import annotations

from datetime import date, timedelta

import msgspec


class Season(msgspec.Struct, frozen=True):
    """A season's first and last day: January to December in the north, July to June in the south."""

    year: int
    start: date
    end: date

    @property
    def years(self) -> str:
        """`2027`; `2027/28` where it runs over New Year."""
        over = self.start.year != self.end.year
        return f"{self.year}/{self.end.year % 100:02d}" if over else str(self.year)


def season_of(year: int, latitude: float) -> Season:
    """The season named by a year. South of the equator it begins in that year's July."""
    if latitude < 0:
        return Season(year, date(year, 7, 1), date(year + 1, 6, 30))
    return Season(year, date(year, 1, 1), date(year, 12, 31))


def monday_of(day: date) -> date:
    """The Monday of the day's ISO week."""
    return day - timedelta(days=day.weekday())


def weeks_in(iso_year: int) -> int:
    """52, or 53 where the year holds 53 Thursdays (ISO 8601)."""
    return date(iso_year, 12, 28).isocalendar().week


def mondays_between(first: date, last: date) -> tuple[date, ...]:
    """Every Monday of the weeks from the one that holds `first` to the one that holds `last`."""
    start, end = monday_of(first), monday_of(last)
    return tuple(start + timedelta(weeks=n) for n in range((end - start).days // 7 + 1))


def season_mondays(season: Season) -> tuple[date, ...]:
    """The Mondays of the weeks whose Thursday lies in the season."""
    thursday = timedelta(days=3)
    mondays = mondays_between(season.start, season.end)
    return tuple(m for m in mondays if season.start <= m + thursday <= season.end)


def week_of(season: Season, number: int) -> date | None:
    """The Monday of a season's week by its ISO number. None: it has no such week.

    A week that runs over its edge is the season's too (1 January 2027 is in week 53 of 2026), unless the same number
    stands for one whose Thursday lies in it; of two such the first.
    """
    mondays = (*mondays_between(season.start, season.end), *reversed(season_mondays(season)))
    return {monday.isocalendar().week: monday for monday in mondays}.get(number)
