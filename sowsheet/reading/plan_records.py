"""The records of a one-line plan: steps and items; nothing about years, sites or numbers of a crop."""

from __future__ import annotations

from fractions import Fraction
from typing import Literal

import msgspec

from sowsheet.reading.dates import GrowerDate
from sowsheet.reading.mistakes import Spot


class Dated(msgspec.Struct, frozen=True):
    """A date as the grower wrote it, and where."""

    date: GrowerDate
    text: str
    spot: Spot


class AmountWords(msgspec.Struct, frozen=True):
    """How much: plants or clumps, metres of the bed, rows along it, or a share of its length."""

    number: Fraction
    unit: Literal["plants", "clumps", "m", "rows", "share"]
    spot: Spot


class CoverWords(msgspec.Struct, frozen=True):
    """A cover over the crop from planting: until a date, for so many days, or as long as the house does."""

    kind: Literal["fleece", "mesh", "net"]
    until: Dated | None = None
    days: int | None = None


class SeriesWords(msgspec.Struct, frozen=True):
    """Every so many days from one date to another; a missing end is the crop's own window. `picking`: the first
    pickings lie so far apart, not the plantings."""

    every_days: int
    start: Dated | None = None
    until: Dated | None = None
    picking: bool = False


class Item(msgspec.Struct, frozen=True, kw_only=True):
    """One crop on a plan line, and all that was said of it. `crop` and `kind` are keys of the catalogue; `foreign`: its
    word is of another language than the garden's."""

    crop: str
    kind: str | None
    word: str
    spot: Spot
    foreign: bool = False
    maybe: bool = False
    note: str = ""
    amount: AmountWords | None = None
    there: bool = False
    since: Dated | None = None
    sown: Dated | None = None
    direct: bool = False
    planted: Dated | None = None
    bare: bool = False  # `planted` was written without a verb
    picked: Dated | None = None
    till: Dated | None = None
    free: bool = False
    series: SeriesWords | None = None
    cover: CoverWords | None = None
    route: tuple[str, ...] = ()  # names of places where its trays are to stand


class Step(msgspec.Struct, frozen=True, kw_only=True):
    """What stands side by side in a bed at one time, with what is planted between it.

    `rest` is set for a step that plants nothing: the bed rests, or a gap for something quick.
    """

    items: tuple[Item, ...] = ()
    between: tuple[Item, ...] = ()
    rest: Literal["", "nothing", "something quick"] = ""
    till: Dated | None = None
    start: Dated | None = None
    spot: Spot


class PlanLine(msgspec.Struct, frozen=True):
    """A whole line: its steps in order."""

    steps: tuple[Step, ...]
    text: str
    spot: Spot
