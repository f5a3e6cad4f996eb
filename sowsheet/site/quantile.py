"""Quantiles as statisticians' type 7 has them: between the ordered values lie straight lines."""

from __future__ import annotations

import math
from collections.abc import Sequence


def quantile(values: Sequence[float], share: float) -> float:
    """The quantile of at least one value, with straight lines between the ordered values: type 7 of Hyndman & Fan
    (1996), The American Statistician 50, 361. `share` is 0 to 1."""
    ordered = sorted(values)
    at = share * (len(ordered) - 1)
    below = min(math.floor(at), len(ordered) - 2) if len(ordered) > 1 else 0
    above = min(below + 1, len(ordered) - 1)
    return ordered[below] + (at - below) * (ordered[above] - ordered[below])
