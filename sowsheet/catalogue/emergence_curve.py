"""What seed needs to show: fitted to published days at constant temperatures, then asked at any temperature.

A straight line (rate proportional to the degrees above a base) calls cold ground too cold: of the 135 rows of
Harrington & Minges (1954) it misses 16 by more than a day or 15 %, and of 129 left out in turn 42 by more than a day or
20 % (34 with a width chosen for it). The square of the degrees above the base, one exponent for all crops, misses 12
and 26. It is the square-root law of Ratkowsky and others (1982), Journal of Bacteriology 149, 1-5 (from memory), with a
flat top. What stays outside, and why, is listed in `tests/published/test_emergence_fits.py`; much of it is slowed by
heat, which a flat top cannot show.

Bases come out lower than those of straight lines. They are the foot of a curve, not the coldest ground in which a seed
moves: beans would come up at 10 C in five weeks, where they rot. So the catalogue has limits besides.
"""

from __future__ import annotations

import math
from bisect import bisect_right
from collections.abc import Callable, Sequence

import msgspec

CURVE = 2.0  # the exponent; 1 is the straight line
# The optimum stands so far above the base in most crops. Each fit leans to it as to one more observation, good to
# within the spread: few rows cannot settle three numbers. Exponent, width and spread were chosen together (of 24
# choices) over all crops but one, and were the same whichever crop was left out.
USUAL_WIDTH_C, WIDTH_SPREAD_C = 25.0, 3.0
# How well a printed row is known: to a tenth, and to the rounding to whole days.
RELATIVE_ERROR, ROUNDING_DAYS = 0.1, 0.3
# From where the best curve is looked for: how far its base lies below the coldest row, and its optimum above the base.
# Over all crops these lead where 570 starts do.
STARTS_BELOW_C, START_WIDTHS_C = (2.0, 8.0, 14.0), (20.0, 28.0)
NARROWEST_C, WIDEST_C = 6.0, 45.0
FINEST_C = 0.01


class EmergenceFit(msgspec.Struct, frozen=True):
    """Warmth to emerge: `thermal_time / (optimum_c - base_c)` days at the optimum, and as many in warmer ground."""

    base_c: float
    thermal_time: float  # day-degrees above the base, as the optimum counts them
    optimum_c: float
    curve: float = CURVE


class BentCurve(msgspec.Struct, frozen=True):
    """A fitted curve bent so as to pass through the published days. `bends` are (temperature C, factor), rising."""

    fit: EmergenceFit
    bends: tuple[tuple[float, float], ...]


def bent_through(points: Sequence[tuple[float, float]]) -> BentCurve:
    """The curve through published (temperature C, days), rising: its own shape between them and beyond.

    With each row of Harrington & Minges left out in turn it misses by 22 % below the others, by 16 % between them and
    by 32 % above, where heat slows it (root mean square; straight lines between 39, 18 and 35 %). Raises ValueError as
    `fit_emergence` does.
    """
    fit = fit_emergence(points)
    return BentCurve(fit, tuple((temp, 1 / (days * emergence_share(fit, temp))) for temp, days in points))


def bent_share(curve: BentCurve, temp_c: float) -> float:
    """The share of emergence done in a day at a temperature, C: 1/days."""
    return emergence_share(curve.fit, temp_c) * _between(curve.bends, temp_c)


def _between(points: Sequence[tuple[float, float]], x: float) -> float:
    """The value at `x`: straight between the points, and beyond them that of the last."""
    at = bisect_right(points, x, key=lambda point: point[0])
    if at in (0, len(points)):
        return points[max(0, at - 1)][1]
    (x0, y0), (x1, y1) = points[at - 1], points[at]
    return y0 + (y1 - y0) * (x - x0) / (x1 - x0)


def fit_emergence(points: Sequence[tuple[float, float]], curve: float = CURVE) -> EmergenceFit:
    """The requirement that comes nearest to published (temperature C, days) at constant temperatures.

    Weighted least squares on the logarithm of the days. Rows warmer than the fastest and slower than it by a day and
    20 % lie past the optimum and are left aside: the form has no falling branch. Raises ValueError for fewer than two
    temperatures, or days of 0 or less.
    """
    if len({temp for temp, _ in points}) < 2 or any(days <= 0 for _, days in points):
        raise ValueError(f"no requirement follows from {list(points)}")
    used = _not_past_the_optimum(points)
    coldest = min(temp for temp, _ in used)

    def misfit(base_c: float, width_c: float) -> float:
        if base_c >= coldest or not NARROWEST_C <= width_c <= WIDEST_C:
            return math.inf
        return _misfit(used, base_c, width_c, curve)

    steps = [(coldest - below, width) for below in STARTS_BELOW_C for width in START_WIDTHS_C]
    base_c, width_c = _lowest(misfit, *min(steps, key=lambda step: misfit(*step)))
    _, thermal_time = _scaled(used, base_c, width_c, curve)
    return EmergenceFit(base_c, thermal_time, base_c + width_c, curve)


def emergence_share(fit: EmergenceFit, temp_c: float) -> float:
    """The share of emergence done in a day at a temperature, C: 1/days; 0 from the base down."""
    if temp_c <= fit.base_c:
        return 0.0
    return _warmth(temp_c, fit.base_c, fit.optimum_c - fit.base_c, fit.curve) / fit.thermal_time


def _warmth(temp_c: float, base_c: float, width_c: float, curve: float) -> float:
    """Degrees above the base that count: all of them at the optimum, fewer in the cold."""
    degrees = min(temp_c - base_c, width_c)
    return degrees * math.pow(degrees / width_c, curve - 1)


def _not_past_the_optimum(points: Sequence[tuple[float, float]]) -> list[tuple[float, float]]:
    """The rows without those that heat has slowed."""
    fastest = min(days for _, days in points)
    optimum_c = max(temp for temp, days in points if days == fastest)
    slow = fastest + max(1.0, 0.2 * fastest)
    return [(temp, days) for temp, days in points if temp <= optimum_c or days <= slow]


def _misfit(points: Sequence[tuple[float, float]], base_c: float, width_c: float, curve: float) -> float:
    """The weighted squares left, with the lean to the usual width."""
    squares, _ = _scaled(points, base_c, width_c, curve)
    return squares + ((width_c - USUAL_WIDTH_C) / WIDTH_SPREAD_C) ** 2


def _scaled(points: Sequence[tuple[float, float]], base_c: float, width_c: float, curve: float) -> tuple[float, float]:
    """The weighted squares that are left with the best thermal time, and that thermal time."""
    weights = [1 / (RELATIVE_ERROR**2 + (ROUNDING_DAYS / days) ** 2) for _, days in points]
    logs = [math.log(days * _warmth(temp, base_c, width_c, curve)) for temp, days in points]
    mean = sum(w * x for w, x in zip(weights, logs, strict=True)) / sum(weights)
    return sum(w * (x - mean) ** 2 for w, x in zip(weights, logs, strict=True)), math.exp(mean)


def _lowest(misfit: Callable[[float, float], float], base_c: float, width_c: float) -> tuple[float, float]:
    """The lowest point near a start: steps to all sides, halved where none leads down."""
    best, step = misfit(base_c, width_c), 1.0
    while step > FINEST_C:
        # The corner moves against the base where the optimum is settled, so slanting steps are tried too.
        sides = [(base_c + a * step, width_c + b * step) for a in (-1, 0, 1) for b in (-1, 0, 1) if a or b]
        least, base, width = min((misfit(*side), *side) for side in sides)
        if least < best:
            best, base_c, width_c = least, base, width
        else:
            step /= 2
    return base_c, width_c
