"""A bed over fresh manure: how warm it is, and when that is over.

Sown when it has cooled to 24 to 29 C, about 20 C after eight weeks (university extension leaflets; the straight line
between is a guess). The air under its frame is cooler than the bed: common practice, no source.
"""

from __future__ import annotations

from datetime import date, timedelta

from sowsheet.garden.records import Place
from sowsheet.site.daily import MONTH_DAYS

NEW_C, OLD_C = 26.0, 20.0
LASTS_DAYS = 56
AIR_BELOW_BED_C = 10.0


def bed_c(place: Place, day: date) -> float | None:
    """The bed's temperature on a day, C; None where the place is no hotbed, or it has gone cold."""
    age = None if place.made is None else (day - _made_before(place.made, day)).days
    if age is None or age >= LASTS_DAYS:
        return None
    return NEW_C - (NEW_C - OLD_C) * age / LASTS_DAYS


def cold_from(place: Place, day: date) -> date:
    """The day from which on nights are cold in a place: when a hotbed warm on `day` has gone cold; else `day`."""
    if place.made is None or bed_c(place, day) is None:
        return day
    return _made_before(place.made, day) + timedelta(days=LASTS_DAYS)


def bed_year(place: Place) -> tuple[float | None, ...]:
    """The bed's temperature on each of a common year's 365 days, C."""
    days = (date(2001, 1, 1) + timedelta(days=n) for n in range(sum(MONTH_DAYS)))
    return tuple(bed_c(place, day) for day in days)


def _made_before(made: tuple[int, int], day: date) -> date:
    """The last such day of a year up to a day."""
    this_year = date(day.year, made[0], min(made[1], 28) if made[0] == 2 else made[1])
    return this_year if this_year <= day else this_year.replace(year=day.year - 1)
