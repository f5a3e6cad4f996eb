"""Day-degrees of one day from its minimum and maximum, and what its light makes of them."""

from __future__ import annotations

import math


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
