"""Day-degrees of one day from its minimum and maximum, and what its light makes of them.

The growth clock needs `effective_day` alone. The other methods are those that published requirements were counted with:
a number of day-degrees means nothing without its method. Thresholds and results are in the temperatures' own unit.
"""

from __future__ import annotations

import math
from typing import Literal

Shape = Literal["sine", "triangle"]  # how the temperature runs between minimum and maximum
# What is warmer than the upper threshold counts as much as that, less and less, or nothing.
CutOff = Literal["horizontal", "intermediate", "vertical"]


def above(min_c: float, max_c: float, threshold_c: float) -> float:
    """The mean excess over a threshold of a day whose temperature runs along a sine, C times days.

    Source: Baskerville & Emin (1969), Ecology 50, 514-517. Raises ValueError where the minimum is above the maximum.
    """
    if min_c > max_c:
        raise ValueError(f"minimum {min_c:g} is above maximum {max_c:g}")
    mean, half_range = (max_c + min_c) / 2, (max_c - min_c) / 2
    if min_c >= threshold_c:
        return mean - threshold_c
    if max_c <= threshold_c:
        return 0.0
    crossing = math.asin((threshold_c - mean) / half_range)
    return ((mean - threshold_c) * (math.pi / 2 - crossing) + half_range * math.cos(crossing)) / math.pi


def day_degrees(min_c: float, max_c: float, base_c: float, cap_c: float) -> float:
    """Day-degrees above a base, none more from a cap on (single sine, horizontal cut-off)."""
    return above(min_c, max_c, base_c) - above(min_c, max_c, cap_c)


def effective_day(
    min_c: float, max_c: float, light_mj: float, base_c: float, cap_c: float, light_share: float
) -> float:
    """Effective day-degrees of a day: warmth and light each hold the other back, 1 / (1 / warmth + f / light).

    `light_mj` is the sunlight that reaches the plants, MJ per m2 and day; `light_share` is f. The form is that of
    Scaife, Cox & Morris (1987), Annals of Botany 59, 325-334, written from memory.
    """
    warmth = day_degrees(min_c, max_c, base_c, cap_c)
    if warmth <= 0 or light_mj <= 0:
        return 0.0
    return 1 / (1 / warmth + light_share / light_mj)


def degree_days(
    low: float,
    high: float,
    lower: float,
    upper: float | None = None,
    cut_off: CutOff = "horizontal",
    shape: Shape = "sine",
    next_low: float | None = None,
) -> float:
    """Day-degrees between two thresholds; without an upper one there is no cut-off.

    With tomorrow's minimum the second half of the day runs down to it (double sine, double triangle). An intermediate
    cut-off takes off above the upper threshold what it adds below, and may go below 0. Source: Zalom and others (1983),
    Degree-days: the calculation and use of heat units in pest management, University of California leaflet 21373.
    Raises ValueError where the minimum is above the maximum.
    """
    if next_low is not None:
        evening = min(next_low, high), max(next_low, high)
        halves = ((low, high), evening)
        return sum(degree_days(*half, lower, upper, cut_off, shape) for half in halves) / 2
    excess = above if shape == "sine" else above_triangle
    counted = excess(low, high, lower)
    if upper is None:
        return counted
    over = excess(low, high, upper)
    if cut_off == "intermediate":
        return counted - 2 * over
    if cut_off == "horizontal":
        return counted - over
    return counted - over - (upper - lower) * _share_above(low, high, upper, shape)


def above_triangle(min_c: float, max_c: float, threshold_c: float) -> float:
    """The mean excess over a threshold of a day whose temperature runs straight up and straight down."""
    if min_c > max_c:
        raise ValueError(f"minimum {min_c:g} is above maximum {max_c:g}")
    if min_c >= threshold_c:
        return (min_c + max_c) / 2 - threshold_c
    return max(0.0, max_c - threshold_c) ** 2 / (2 * (max_c - min_c)) if max_c > threshold_c else 0.0


def mean_then_base(low: float, high: float, base: float) -> float:
    """Day-degrees by method 1: the day's mean less the base, none below it.

    Source: McMaster & Wilhelm (1997), Agricultural and Forest Meteorology 87, 291-300, 10.1016/S0168-1923(97)00027-0.
    """
    return max(0.0, (low + high) / 2 - base)


def base_then_mean(low: float, high: float, base: float, upper: float = math.inf) -> float:
    """Day-degrees by method 2: minimum and maximum are first brought between base and upper threshold, then averaged.

    More than method 1 on every day whose minimum is below the base. Source: as there.
    """
    return (min(max(low, base), upper) + min(max(high, base), upper)) / 2 - base


def _share_above(low: float, high: float, threshold: float, shape: Shape) -> float:
    """The share of the day that is warmer than a threshold."""
    if threshold >= high:
        return 0.0
    if threshold <= low:
        return 1.0
    if shape == "triangle":
        return (high - threshold) / (high - low)
    return math.acos((2 * threshold - low - high) / (high - low)) / math.pi
