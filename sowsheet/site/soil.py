"""The soil's temperature at sowing depth, from the air's.

Two ways. Day by day from the air's daily means (Kätterer & Andrén 2009), for where seed lies. And the wave that is
damped and late with depth, for what a whole year, or a day and night, leaves of its swing.

How near that comes is not measured here: no record of soil temperature was at hand. A kindred reckoning from the air's
temperature and rain missed measured days by 1.2 to 1.9 C (root of the mean square; Horton & Corkrey 2011). Sun on a
dark bed, a wet spring or a mulch are not in it: a thermometer in the bed is better.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence

import msgspec

SOWING_DEPTH_CM = 3.0
SHARE_A_DAY = 0.24  # of the way to the surface's temperature, at the top of bare soil
SECONDS_A_DAY = 86_400


class Damping(msgspec.Struct, frozen=True):
    """What is left of a wave of temperature at a depth."""

    share: float  # of its height at the surface
    lag_days: float


def surface_c(air_c: float, leaf_area: float = 0.0) -> float:
    """The temperature of the soil's surface on a day, C, from the air's daily mean and the leaf area index.

    Bare soil is a ninth warmer than the air, soil under leaves about as warm; below 0 C snow and ice keep it warmer.
    Source: Kätterer & Andrén (2009), Acta Agriculturae Scandinavica B 59, read as written in an R package's manual.
    """
    if air_c < 0:
        return 0.20 * air_c
    return air_c * (0.95 + 0.05 * math.exp(-0.4 * (leaf_area - 3)))


def soil_days(
    air_c: Iterable[float], start_c: float, depth_cm: float = SOWING_DEPTH_CM, leaf_area: float = 0.0
) -> Iterator[float]:
    """The soil's daily means at a depth, C, one for each day of air; `start_c` is the soil's on the day before.

    Each day it goes part of the way to the surface's temperature, less the deeper it lies and the denser the leaves.
    Source: as `surface_c`.
    """
    share = SHARE_A_DAY * math.exp(-0.017 * depth_cm) * math.exp(-0.15 * leaf_area)
    soil_c = start_c
    for day_c in air_c:
        soil_c += share * (surface_c(day_c, leaf_area) - soil_c)
        yield soil_c


def soil_year(air_c: Sequence[float], depth_cm: float = SOWING_DEPTH_CM, leaf_area: float = 0.0) -> tuple[float, ...]:
    """The soil's daily means of a usual year, C, from the air's: cyclic, New Year's Day follows on the last day's."""
    start_c = sum(surface_c(day_c, leaf_area) for day_c in air_c) / len(air_c)
    *_, start_c = soil_days(air_c, start_c, depth_cm, leaf_area)  # a year to forget where it began
    return tuple(soil_days(air_c, start_c, depth_cm, leaf_area))


def damping_depth_m(diffusivity_m2_s: float, period_days: float) -> float:
    """The depth at which a wave of temperature has 37 % of its height, metres: sqrt(2 D / w).

    Garden soils lie between 2e-7 (dry, peaty) and 8e-7 m2/s (moist sand; range from memory). Source: the damped wave
    of soil physics, as in Hillel's textbook (seen on the page of Oklahoma State University's soil physics toolkit).
    """
    return math.sqrt(diffusivity_m2_s * period_days * SECONDS_A_DAY / math.pi)


def damped(depth_m: float, diffusivity_m2_s: float, period_days: float) -> Damping:
    """What a depth leaves of a wave, and how late it comes. Source: as `damping_depth_m`."""
    ratio = depth_m / damping_depth_m(diffusivity_m2_s, period_days)
    return Damping(math.exp(-ratio), ratio * period_days / (2 * math.pi))
