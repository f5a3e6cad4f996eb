"""What is on a shopping list; every number is a fold over batches, stays and covers."""

from __future__ import annotations

from datetime import date

import msgspec


class SeedNeed(msgspec.Struct, frozen=True):
    """Seed of one kind for the whole season, `maybe` besides for ideas not settled.

    `allowance` of `seeds` is for spare plants and for cells that come up empty. `sowings` counts the batches.
    """

    name: str
    sowings: int
    seeds: int
    grams: float
    allowance: int
    maybe_seeds: int = 0
    maybe_grams: float = 0.0


class SetNeed(msgspec.Struct, frozen=True):
    """Cloves, sets, tubers or crowns of one kind; `kg` is 0 where their weight is not known."""

    name: str
    unit: str
    number: int
    kg: float
    maybe_number: int = 0


class TrayNeed(msgspec.Struct, frozen=True):
    """A kind of tray: how many are in use at most and when; `owned` None: not said. From `start` up to but not
    including `end` more are in use than are owned; None where they are enough."""

    tray: str
    most: int
    day: date
    owned: int | None
    start: date | None = None
    end: date | None = None

    @property
    def short(self) -> int:
        """How many have to be got."""
        return 0 if self.owned is None else max(0, self.most - self.owned)


class TrayFill(msgspec.Struct, frozen=True):
    """Compost to fill a kind of tray with through the season."""

    tray: str
    fillings: int
    litres: float


class BedFill(msgspec.Struct, frozen=True):
    """Compost to spread over a bed."""

    bed: str
    depth_mm: float
    litres: float


class CoverNeed(msgspec.Struct, frozen=True):
    """A cover: metres of bed under it at most, and the first day on which it is so."""

    kind: str
    metres: float
    day: date


class Shopping(msgspec.Struct, frozen=True):
    """The whole list. What was sown, set or filled before the season is not on it."""

    seed: tuple[SeedNeed, ...]
    sets: tuple[SetNeed, ...]
    trays: tuple[TrayNeed, ...]
    tray_compost: tuple[TrayFill, ...]
    bed_compost: tuple[BedFill, ...]
    covers: tuple[CoverNeed, ...]
