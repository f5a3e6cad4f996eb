"""A date that knows how sure it is and where it came from."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Literal

import msgspec

from sowsheet.catalogue.records import Range
from sowsheet.words.language import Language

Basis = Literal["grower", "handbook", "growth", "season", "house", "happened"]


class When(msgspec.Struct, frozen=True):
    """A date with what may come when all earlier dates are kept.

    A chosen date has `low == high == day`, and a `window` (first, last) of choices that still fit.
    `for_next`: a bed is cleared then because the next crop goes in.
    """

    day: date
    low: date
    high: date
    basis: Basis
    why: str
    window: tuple[date, date] | None = None
    for_next: bool = False


def after(words: Language, start: date, days: Range, why: str, *, whole: bool = False) -> When:
    """A handbook date so many days after a start, with the range's spread. `why` is a phrase's key; the usual number,
    `whole` if that is to be said, is its part `n`."""
    low, usual, high = (start + timedelta(days=round(n)) for n in (days.low, days.usual, days.high))
    return When(usual, low, high, "handbook", words.say(why, n=round(days.usual) if whole else days.usual))
