"""Frozen records of a garden as the grower wrote it."""

from __future__ import annotations

from fractions import Fraction
from functools import cached_property
from pathlib import Path
from typing import Literal

import msgspec

from sowsheet.reading.dates import CalendarDay
from sowsheet.reading.mistakes import Spot
from sowsheet.reading.planline import Dated, PlanLine
from sowsheet.words.language import Language, language_of

Purpose = Literal["germinating", "growing on", "hardening off"]
Shelter = Literal["", "unheated glass", "polytunnel", "cold frame", "fleece", "outdoors", "indoors"]


class Frost(msgspec.Struct, frozen=True):
    """A frost date as given: the average one (half of all years) or the safe one (1 year in 10)."""

    day: CalendarDay
    meaning: Literal["average", "safe"]
    spot: Spot


class Monthly(msgspec.Struct, frozen=True):
    """Long-term monthly means of minimum and maximum, C, January to December."""

    min_c: tuple[float, ...]
    max_c: tuple[float, ...]


class WeatherFile(msgspec.Struct, frozen=True):
    """A daily record that the garden file names, and where it names it."""

    path: Path
    spot: Spot


class Site(msgspec.Struct, frozen=True):
    """Where the garden lies. Latitude in degrees, south negative."""

    latitude: float
    last_frost: Frost | None = None
    first_frost: Frost | None = None
    monthly: Monthly | None = None
    weather: WeatherFile | None = None  # years of daily readings
    this_year: WeatherFile | None = None  # the season's own readings so far


class Room(msgspec.Struct, frozen=True):
    """How much stands in a place: a number of trays, or a surface in cm; both None: unlimited."""

    trays: int | None = None
    length_cm: float | None = None
    width_cm: float | None = None


GLASS: Shelter = "unheated glass"
UNDER_GLASS: tuple[Shelter, ...] = (GLASS, "polytunnel", "cold frame")


class Place(msgspec.Struct, frozen=True):
    """Where trays stand: what for, how warm, how much room, and between which dates it exists.

    `made` is the month and day on which a hotbed is made; `aired`, whether a house is kept well open by day.
    `warmer_nights_c`, `monthly` and `readings` are the grower's own: how much warmer it stays than outdoors on cold
    nights, its means by the month, and what its thermometer showed day by day. A house that only holds beds has no
    purposes.
    """

    name: str
    purposes: tuple[Purpose, ...]
    room: Room
    held_at_c: float | None = None
    under: Shelter = ""
    start: Dated | None = None
    until: Dated | None = None
    assumed: bool = False  # not in the file: taken by default, and told
    made: tuple[int, int] | None = None
    aired: bool = False
    warmer_nights_c: float | None = None
    monthly: Monthly | None = None
    readings: WeatherFile | None = None
    in_fahrenheit: bool = False  # tell what it is held at back as it was written


Where = Place | Shelter  # a place where trays stand or beds lie, or what a bed lies under ("": the open)


def is_under_glass(where: Where) -> bool:
    """Whether it is a house or a frame, heated or not."""
    return (where.under if isinstance(where, Place) else where) in UNDER_GLASS


class TrayKind(msgspec.Struct, frozen=True):
    """A container: module tray, pots in a carry tray, or an open seed tray (`cells` is then 0)."""

    name: str
    cells: int
    length_cm: float
    width_cm: float
    cell_ml: float
    owned: int | None = None
    assumed: bool = False


class Bed(msgspec.Struct, frozen=True):
    """A bed, its size and its plan line. `house` is the place in which it lies, where the file names one."""

    name: str
    length_cm: float
    width_cm: float
    plan: PlanLine | None
    spot: Spot
    under: Shelter = ""
    house: Place | None = None
    compost_mm: float | None = None  # as deep as this bed is mulched; None: as the house does

    @property
    def where(self) -> Where:
        """The house it lies in, or what it lies under."""
        return self.house or self.under


class House(msgspec.Struct, frozen=True):
    """The garden's own habits. `risk` is the chance of a killing night that planting accepts."""

    spare: Fraction = Fraction(1, 10)
    hardening_days: int | None = None
    fleece_days: int = 35
    risk: float = 0.1
    compost_mm: float = 25.0  # a year's mulch on a no-dig bed that is no longer new (common practice, no source)


class Garden(msgspec.Struct, frozen=True, kw_only=True, dict=True):
    """Everything in a garden file. `work_days` are 0 (Monday) to 6; empty means every day. `houses` only hold beds."""

    name: str
    season: int
    site: Site
    places: tuple[Place, ...]
    houses: tuple[Place, ...] = ()
    trays: tuple[TrayKind, ...]
    beds: tuple[Bed, ...]
    also: tuple[PlanLine, ...]
    work_days: frozenset[int]
    house: House
    paper: str = ""
    imperial: bool = False  # tell measures back in feet and inches, as they were written
    language: str = "en"  # what is printed and shown is in it
    file: str = ""

    @cached_property
    def words(self) -> Language:
        """The language that sheets and answers are in."""
        return language_of(self.language)

    @cached_property
    def bed_where(self) -> dict[str, Where]:
        """Where each bed lies, by name: in a house of the garden, or under something."""
        return {bed.name: bed.where for bed in self.beds}
