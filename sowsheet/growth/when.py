"""A date that knows how sure it is and where it came from."""

from __future__ import annotations

from datetime import date
from typing import Literal

import msgspec

Basis = Literal["grower", "handbook", "growth", "season", "house", "happened"]


class When(msgspec.Struct, frozen=True):
    """A date with what may come when all earlier dates are kept.

    A chosen date has `low == high == day`, and a `window` (first, last) of choices that still fit.
    """

    day: date
    low: date
    high: date
    basis: Basis
    why: str
    window: tuple[date, date] | None = None
