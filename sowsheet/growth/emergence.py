"""Days from sowing to seedlings showing, from published days at constant temperatures."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Callable
from datetime import date, timedelta

from sowsheet.catalogue.records import Germination

# Seed that has not shown after so long has rotted: no date is better than a false one.
LONGEST_DAYS = 150


def rate_per_day(germination: Germination, temp_c: float) -> float:
    """The share of emergence done in a day at a temperature, C: 1/days, straight between the published points.

    Below the lowest point it falls to 0 at the lower limit; above the highest it stays flat up to the upper
    limit, and is 0 beyond.
    """
    points = germination.days_up
    temps = [t for t, _ in points]
    if temp_c > max(germination.max_c, temps[-1]):
        return 0.0
    if temp_c >= temps[-1]:
        return 1 / points[-1][1]
    if temp_c < temps[0]:
        if temp_c <= germination.min_c:
            return 0.0
        return (temp_c - germination.min_c) / (temps[0] - germination.min_c) / points[0][1]
    i = bisect_right(temps, temp_c)
    (t0, d0), (t1, d1) = points[i - 1], points[i]
    share = (temp_c - t0) / (t1 - t0)
    return (1 - share) / d0 + share / d1


def days_at(germination: Germination, temp_c: float) -> float | None:
    """Days to emerge at a constant temperature, C; None where it does not."""
    rate = rate_per_day(germination, temp_c)
    return 1 / rate if rate > 1 / LONGEST_DAYS else None


def emerges(germination: Germination, sown: date, temp_c: Callable[[date], float]) -> date | None:
    """The day on which the shares of the days since sowing add up to one; None when they never do.

    Summed day by day, so that a later sowing never comes up before an earlier one.
    """
    done, day = 0.0, sown
    for _ in range(LONGEST_DAYS):
        done += rate_per_day(germination, temp_c(day))
        day += timedelta(days=1)
        if done >= 0.999:
            return day
    return None
