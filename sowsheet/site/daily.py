"""Twelve monthly means turned into the days of a year: smooth, cyclic at New Year, each month's mean kept."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

MONTH_DAYS = (31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)
SWEEPS = 60  # each at least halves what is left to settle


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
