"""Compost for the beds."""

from __future__ import annotations

from collections.abc import Iterable

from sowsheet.garden.records import Bed


def bed_litres(bed: Bed, usual_mm: float) -> float:
    """Litres of compost for a bed, as deep as it is mulched, or as all beds usually are."""
    depth = usual_mm if bed.compost_mm is None else bed.compost_mm
    return bed.length_cm * bed.width_cm * depth / 10_000


def area_m2(beds: Iterable[Bed]) -> float:
    """The beds' area, m2."""
    return sum(bed.length_cm * bed.width_cm for bed in beds) / 10_000
