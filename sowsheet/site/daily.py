"""The 365 days of a usual year, smooth and cyclic at New Year: from twelve monthly means, each month's mean kept, or
from years of daily readings."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from datetime import date
from itertools import accumulate, pairwise

MONTH_DAYS = (31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)
SWEEPS = 60  # each at least halves what is left to settle
# Waves in a year's normals. Of 1 to 8, fitted to every other year of four records and set against the years between,
# 2 to 6 came out alike; so did a month's moving mean taken twice, but it lay up to 0.6 C lower at the height of summer.
WAVES = 3
_BEFORE_MONTH = (0, *accumulate(MONTH_DAYS))


def daily_year(monthly: Sequence[float]) -> tuple[float, ...]:
    """The 365 daily means of twelve monthly means, in the same unit.

    The running total is a periodic cubic spline through the months' totals, so that their means come back exactly and
    neither the curve nor its slope jumps where months meet. Raises ValueError for other than twelve.
    """
    if len(monthly) != len(MONTH_DAYS):
        raise ValueError(f"{len(monthly)} monthly means, not 12")
    edges = _edges(monthly)
    days: list[float] = []
    for month, (length, mean) in enumerate(zip(MONTH_DAYS, monthly, strict=True)):
        start, end = edges[month], edges[(month + 1) % 12]
        totals = [length * _total(n / length, start, end, mean) for n in range(length + 1)]
        days.extend(after - before for before, after in pairwise(totals))
    return tuple(days)


def _edges(monthly: Sequence[float]) -> list[float]:
    """The curve's value at the beginning of each month, such that its slope is the same on both sides."""
    edges = [(monthly[k - 1] + monthly[k]) / 2 for k in range(12)]
    for _ in range(SWEEPS):
        for k in range(12):
            before, after = 1 / MONTH_DAYS[k - 1], 1 / MONTH_DAYS[k]
            pull = 3 * (monthly[k - 1] * before + monthly[k] * after) - edges[k - 1] * before - edges[k - 11] * after
            edges[k] = pull / (2 * (before + after))
    return edges


def _total(x: float, start: float, end: float, mean: float) -> float:
    """The total up to a share `x` of the month, in months: a parabola of that mean between two values."""
    return start * (x - 2 * x**2 + x**3) + end * (x**3 - x**2) + mean * (3 * x**2 - 2 * x**3)


def normals(readings: Iterable[tuple[date, float]]) -> tuple[float, ...]:
    """The usual value of each day of the year from daily readings, in the same unit; 29 February joins the 28th.

    The mean of each day over its years, then the year's mean and three waves: a few decades are ragged from day to day.
    Readings in any order; NaN is passed over. Empty where a day of the year has no reading at all.
    """
    sums, counts = [0.0] * 365, [0] * 365
    for day, value in readings:
        if not math.isnan(value):
            number = day_number(day)
            sums[number] += value
            counts[number] += 1
    if 0 in counts:
        return ()
    return _waves([total / count for total, count in zip(sums, counts, strict=True)])


def day_number(day: date) -> int:
    """The day's place in a common year, from 0; 29 February is taken as the 28th."""
    return _BEFORE_MONTH[day.month - 1] + min(day.day, MONTH_DAYS[day.month - 1]) - 1


def _waves(year: Sequence[float]) -> tuple[float, ...]:
    """The year's mean and its longest waves: the least-squares fit, for over whole years waves do not mix."""
    days = len(year)
    turn = [2 * math.pi * n / days for n in range(days)]
    found = [sum(year) / days] * days
    for wave in range(1, WAVES + 1):
        cosines, sines = [math.cos(wave * t) for t in turn], [math.sin(wave * t) for t in turn]
        a = 2 / days * sum(v * c for v, c in zip(year, cosines, strict=True))
        b = 2 / days * sum(v * s for v, s in zip(year, sines, strict=True))
        found = [f + a * c + b * s for f, c, s in zip(found, cosines, sines, strict=True)]
    return tuple(found)
