"""What the grower's own thermometer showed in a place, day by day: it overrules what is reckoned of the place."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from typing import TYPE_CHECKING

from sowsheet.site.air import Air
from sowsheet.site.daily import day_number
from sowsheet.site.quantile import quantile

if TYPE_CHECKING:
    from sowsheet.site.record import Record

Ranges = Mapping[date, tuple[float, float]]  # minimum and maximum, C

# How much warmer than outdoors a place is taken to stay on cold nights: what nine of ten such nights have shown
# (common practice of caution, no source).
COLD_NIGHT_C = 3.0
FEWEST_NIGHTS = 10
CAUTIOUS_SHARE = 0.1


def usual_days(read: Ranges) -> dict[int, tuple[float, float]]:
    """The mean minimum and maximum of each day of the year that was read, by its number from 0."""
    found: dict[int, list[tuple[float, float]]] = {}
    for day, pair in read.items():
        found.setdefault(day_number(day), []).append(pair)
    return {n: (_mean([low for low, _ in of]), _mean([high for _, high in of])) for n, of in found.items()}


def overruled(air: Air, read: Mapping[int, tuple[float, float]]) -> Air:
    """The air with the minimum and maximum of some of its days as they were read, by their place in it."""
    days = range(len(air.min_c))
    low = tuple(read[n][0] if n in read else air.min_c[n] for n in days)
    high = tuple(read[n][1] if n in read else air.max_c[n] for n in days)
    return Air(low, high, air.light_mj, air.numbers)


def warmer_on_cold_nights(inside: Record, outdoors: Mapping[date, float]) -> float | None:
    """How much warmer than outdoors a place stays on cold nights, C, by minima of the same nights: what nine in ten of
    them had at least, never less than nothing. None: fewer than ten nights at or below 3 C were read in both."""
    pairs = ((low, outdoors.get(day)) for day, low in zip(inside.days, inside.min_c, strict=True))
    gains = [low - outside for low, outside in pairs if outside is not None and outside <= COLD_NIGHT_C]
    return max(0.0, quantile(gains, CAUTIOUS_SHARE)) if len(gains) >= FEWEST_NIGHTS else None


def _mean(values: list[float]) -> float:
    return sum(values) / len(values)
