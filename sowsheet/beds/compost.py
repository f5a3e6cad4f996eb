"""Compost for the beds."""

from __future__ import annotations

from collections.abc import Iterable

from sowsheet.garden.records import Bed

YEARLY_MM = 25.0  # common practice, no source: a year's mulch on a no-dig bed that is no longer new


def compost_m3(area_m2: float, depth_mm: float) -> float:
    """Cubic metres of compost that cover an area so deep."""
    return area_m2 * depth_mm / 1000


def area_m2(beds: Iterable[Bed]) -> float:
    """The beds' area, m2."""
    return sum(bed.length_cm * bed.width_cm for bed in beds) / 10_000
