"""What the propagation space holds: sowings, shared trays, standing trays by week, trays owned and short."""

from __future__ import annotations

from datetime import date

import msgspec

from sowsheet.schedule.records import Stay


class Sowing(msgspec.Struct, frozen=True):
    """What one batch takes in the week it is sown. A shared tray counts once, at the batch that leaves it last.

    `plants` counts places and spare; `shares` names the batch at which this batch's shared tray is counted.
    """

    batch: str
    monday: date
    day: date
    place: str
    tray: str
    trays: int
    cells: int
    plants: int
    seeds: int
    shares: str | None = None
    maybe: bool = False


class TrayPart(msgspec.Struct, frozen=True):
    """A batch's cells in a shared tray."""

    batch: str
    cells: int
    seeds_per_cell: int


class SharedTray(msgspec.Struct, frozen=True):
    """One tray with cells of several batches, filled in this order, counted at `owner`."""

    monday: date
    owner: str
    tray: str
    cells: int
    parts: tuple[TrayPart, ...]


class PlaceWeek(msgspec.Struct, frozen=True):
    """A place on its fullest day of a week. `room` is in trays of the garden's main kind; None: not limited.

    `filled` is the share of the room taken (1.0 is full), whatever kinds of tray stand there;
    `maybe` counts trays of ideas not settled, on top of `trays`; `waiting` of `trays` are ready for their bed;
    `fresh` came in this week.
    """

    place: str
    monday: date
    trays: int
    room: int | None
    filled: float
    maybe: int = 0
    waiting: int = 0
    fresh: int = 0


class TrayUse(msgspec.Struct, frozen=True):
    """A tray kind on the day most of it is in use. `owned` None: not said."""

    tray: str
    most: int
    day: date
    owned: int | None


class TrayPlan(msgspec.Struct, frozen=True):
    """The propagation space through the season. `stays` are those in trays, sharing reckoned in."""

    mondays: tuple[date, ...]
    sowings: tuple[Sowing, ...]
    shared: tuple[SharedTray, ...]
    stays: tuple[Stay, ...]
    weeks: tuple[PlaceWeek, ...]
    uses: tuple[TrayUse, ...]
