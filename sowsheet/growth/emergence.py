"""Days from sowing to seedlings showing, from published days at constant temperatures."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date, timedelta

from sowsheet.catalogue.emergence_curve import bent_share
from sowsheet.catalogue.records import Germination

# Seed that has not shown after so long has rotted: no date is better than a false one.
LONGEST_DAYS = 150


def rate_per_day(germination: Germination, temp_c: float) -> float:
    """The share of emergence done in a day at a temperature, C: 1/days, on the curve through the published days.

    0 outside the limits for a fair stand, where no day is published.
    """
    (coldest_c, days), (warmest_c, _) = germination.days_up[0], germination.days_up[-1]
    if temp_c > max(germination.max_c, warmest_c) or (temp_c < coldest_c and temp_c <= germination.min_c):
        return 0.0
    for point_c, at_point in germination.days_up:  # most shelves are held at one, and need no curve
        if point_c == temp_c:
            return 1 / at_point
    return 1 / days if germination.curve is None else bent_share(germination.curve, temp_c)


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
