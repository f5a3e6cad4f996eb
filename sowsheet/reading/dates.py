"""Growers' dates as they are written, before a year or a site is known."""

from __future__ import annotations

from typing import Literal

import msgspec


class CalendarDay(msgspec.Struct, frozen=True):
    """A day of the calendar. `span` tells how it was written: a day, a third of a month, a month alone (its middle, or
    its first day where it begins something).

    `end` marks the last day of the month (`end of February`), whatever its number.
    """

    month: int
    day: int
    year: int | None = None
    span: Literal["day", "third", "month", "from month"] = "day"
    end: bool = False


class IsoWeek(msgspec.Struct, frozen=True):
    """The Monday of an ISO 8601 week."""

    week: int
    year: int | None = None


class Anchored(msgspec.Struct, frozen=True):
    """So many days after (negative: before) something the site or the sun decides."""

    anchor: Literal["last frost", "first frost", "midsummer", "shortest day"]
    days: int = 0


class DayLength(msgspec.Struct, frozen=True):
    """The day on which sunrise to sunset first passes so many hours, rising, falling or whichever comes next."""

    hours: float
    trend: Literal["next", "rising", "falling"] = "next"
    days: int = 0


GrowerDate = CalendarDay | IsoWeek | Anchored | DayLength
