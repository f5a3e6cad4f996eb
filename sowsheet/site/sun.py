"""Day length from latitude and date."""

from __future__ import annotations

import math
from datetime import date, timedelta

# The sun's upper edge on the horizon, bent by 34' of air: the centre stands 50' below it.
_SUNRISE_DEG = -0.833


def declination_rad(day: date) -> float:
    """The sun's declination at noon, radians: Fourier series of Spencer (1971), Search 2(5), 172; within 0.05 deg."""
    year_days = 366 if _is_leap(day.year) else 365
    g = 2 * math.pi * (day.timetuple().tm_yday - 1 + 0.5) / year_days
    return (
        0.006918
        - 0.399912 * math.cos(g)
        + 0.070257 * math.sin(g)
        - 0.006758 * math.cos(2 * g)
        + 0.000907 * math.sin(2 * g)
        - 0.002697 * math.cos(3 * g)
        + 0.00148 * math.sin(3 * g)
    )


def day_length_h(latitude: float, day: date) -> float:
    """Hours from sunrise to sunset (upper limb, refraction of 34'); 0 or 24 beyond the polar circles."""
    phi, delta = math.radians(latitude), declination_rad(day)
    cosine = (math.sin(math.radians(_SUNRISE_DEG)) - math.sin(phi) * math.sin(delta)) / (
        math.cos(phi) * math.cos(delta)
    )
    return 24 / math.pi * math.acos(min(1.0, max(-1.0, cosine)))


def midsummer(latitude: float, year: int) -> date:
    """21 June, in the south 21 December."""
    return date(year, 12 if latitude < 0 else 6, 21)


def shortest_day(latitude: float, year: int) -> date:
    """21 December, in the south 21 June."""
    return date(year, 6 if latitude < 0 else 12, 21)


def day_length_passes(latitude: float, hours: float, year: int, rising: bool) -> date | None:
    """The first day of a calendar year's rising (or falling) half on which the day is at least (at most) so long.

    None where the days never get there.
    """
    if rising:
        low = shortest_day(latitude, year if latitude < 0 else year - 1)
        high = midsummer(latitude, year)
    else:
        low = midsummer(latitude, year if latitude >= 0 else year - 1)
        high = shortest_day(latitude, year)

    def passed(day: date) -> bool:
        length = day_length_h(latitude, day)
        return length >= hours if rising else length <= hours

    if passed(low) or not passed(high):
        return None
    while (high - low).days > 1:
        middle = low + timedelta(days=(high - low).days // 2)
        low, high = (low, middle) if passed(middle) else (middle, high)
    return high


def _is_leap(year: int) -> bool:
    return year % 4 == 0 and (year % 100 != 0 or year % 400 == 0)
