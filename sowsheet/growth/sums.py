"""Running totals of daily values, and the look-up on them: when is a sum reached?

`cumulated[n]` is the sum of all days before day number n, so a stage that begins on day
d has gathered `cumulated[n] - cumulated[d]` by the beginning of day n.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterable, Sequence
from itertools import accumulate

# Sums of hundreds of floats: a requirement short of so little is filled.
SLACK = 1e-9


def cumulated(values: Iterable[float]) -> tuple[float, ...]:
    """The running total: one element more than there are days, 0 first.

    Raises ValueError for a negative value or NaN: the look-ups rest on a total that never goes down.
    """
    each = tuple(values)
    if not all(map((0.0).__le__, each)):
        raise ValueError("a day's share of a sum is missing or below 0: it must be 0 or more")
    return (0.0, *accumulate(each))


def day_reaching(cumulated: Sequence[float], start: int, requirement: float) -> int | None:
    """The first day by whose beginning `requirement` has come together since the beginning of day `start`.

    Never goes down as `start` grows; `start` itself for a requirement of 0. None: not within the sequence.
    Raises IndexError for a start outside the sequence.
    """
    wanted = cumulated[_inside(cumulated, start)] + requirement - SLACK
    reached = bisect_left(cumulated, wanted, start)
    return reached if reached < len(cumulated) else None


def _inside(cumulated: Sequence[float], day: int) -> int:
    if not 0 <= day < len(cumulated):
        raise IndexError(f"day {day} is outside the {len(cumulated)} totals")
    return day
