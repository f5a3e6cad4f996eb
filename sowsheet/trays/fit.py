"""How many trays a surface holds: rectangles, either way round."""

from __future__ import annotations

import math

_HAIR = 1e-6


def trays_on(length_cm: float, width_cm: float, tray_a_cm: float, tray_b_cm: float) -> int:
    """The most trays of one size on a rectangle: whole columns one way round, the rest of it the other way.

    Either side of the surface may be divided; a tray never hangs over the edge.
    """
    return max(
        _in_strips(length_cm, width_cm, tray_a_cm, tray_b_cm),
        _in_strips(width_cm, length_cm, tray_a_cm, tray_b_cm),
    )


def _in_strips(length: float, width: float, a: float, b: float) -> int:
    """Columns of trays lying along the length, then columns lying across it."""
    along = _times(length, a)
    return max(
        columns * _times(width, b) + _times(length - columns * a, b) * _times(width, a) for columns in range(along + 1)
    )


def _times(whole: float, part: float) -> int:
    return max(0, math.floor(whole / part + _HAIR))
