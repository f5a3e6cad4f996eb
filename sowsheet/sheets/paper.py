"""Papers, and how far away each is read from."""

from __future__ import annotations

import msgspec

MM = 72 / 25.4
MARGIN = 10 * MM
# 16 minutes of arc for a capital letter of this font (ISO 9241-3 minimum; Legge & Bigelow 2011 agree by x-height).
PT_PER_M = 18.5

_SIZES = {
    "A4": (595.28, 841.89),
    "A3": (841.89, 1190.55),
    "A2": (1190.55, 1683.78),
    "A1": (1683.78, 2383.94),
    "Letter": (612.0, 792.0),
    "Tabloid": (792.0, 1224.0),
}
_DISTANCES = {"A4": 0.5, "Letter": 0.5, "A3": 1.0, "Tabloid": 1.0, "A2": 1.5, "A1": 2.0}


class Paper(msgspec.Struct, frozen=True):
    """A sheet in landscape, in points, and the distance that its type is set for."""

    name: str
    width: float
    height: float
    distance_m: float

    @property
    def type_pt(self) -> float:
        """The least size of what has to be read from the distance."""
        return PT_PER_M * self.distance_m


def landscape(name: str, distance_m: float | None = None) -> Paper:
    """A paper by its name, lying on its long side, to be read from its usual distance or from another.

    Raises KeyError for a name that is not known.
    """
    short, long = _SIZES[name]
    return Paper(name, long, short, distance_m or _DISTANCES[name])


def usual_distance_m(name: str) -> float:
    """From how far a paper is usually read. Raises KeyError for a name that is not known."""
    return _DISTANCES[name]
