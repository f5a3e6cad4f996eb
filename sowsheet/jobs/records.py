"""One job on a helper's sheet."""

from __future__ import annotations

from datetime import date
from typing import Literal

import msgspec

Verb = Literal[
    "Sow",  # into trays
    "Carry",  # to the light
    "Prick out",
    "Pot on",
    "Harden",
    "Clear",
    "Plant",
    "Drill",  # seed straight into the bed
    "Scatter",  # seed broadcast over the bed
    "Chit",  # tubers set to sprout
    "Set",
    "Cover",
    "Uncover",
    "Pick",  # the first day of picking
    "Lift",  # a harvest taken at once
    "Cut",  # a green manure, before it seeds or grows tough
]


class Job(msgspec.Struct, frozen=True, kw_only=True):
    """A job: on `day`, `verb` `amount` of `what`, at `where` (a place's or a bed's name), how, and the sign to go by.

    `what` and `amount` are words ready to print ("2 trays of 60", "lettuce"); `to` names where it goes when it moves.
    """

    day: date
    verb: Verb
    amount: str
    what: str
    where: str
    batch: str
    to: str = ""
    how: str = ""
    sign: str = ""
    cautions: tuple[str, ...] = ()  # the crop's own, and the care that the work wants
    why: str = ""
    maybe: bool = False

    @property
    def caution(self) -> str:
        """All cautions as one text."""
        return " ".join(self.cautions)
