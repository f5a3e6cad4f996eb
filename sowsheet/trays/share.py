"""Sowings of one week share their last tray where they may, and a tray that is shared is counted once."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from datetime import date

import msgspec

from sowsheet.schedule.records import Batch
from sowsheet.site.season import monday_of
from sowsheet.trays.records import SharedTray, TrayPart

# Common practice, no source: trays are moved as one, so what shares a tray has to come up, and go, about together.
SIMILAR_UP_DAYS = 3
SIMILAR_END_DAYS = 7


class Filling(msgspec.Struct, frozen=True):
    """A batch's last tray when it is not full."""

    batch: Batch
    cells: int


def shared_trays(batches: Sequence[Batch]) -> tuple[SharedTray, ...]:
    """Trays filled by several sowings of one week: the fullest first, then whatever still fits."""
    groups: dict[tuple[date, str, tuple[str, ...], bool], list[Filling]] = defaultdict(list)
    for batch in batches:
        part = batch.amount.cells % batch.amount.tray_cells if batch.amount.tray_cells else 0
        if part and batch.stages.sow is not None and batch.stages.up is not None and batch.raised == "tray":
            key = (monday_of(batch.stages.sow.day), batch.amount.tray, batch.route, batch.maybe)
            groups[key].append(Filling(batch, part))
    return tuple(tray for key, group in groups.items() for tray in _packed(key[0], group))


def _packed(monday: date, group: list[Filling]) -> list[SharedTray]:
    trays: list[list[Filling]] = []
    for filling in sorted(group, key=lambda f: (-f.cells, f.batch.name)):
        room = filling.batch.amount.tray_cells
        fits = (t for t in trays if sum(f.cells for f in t) + filling.cells <= room and _go_together(t, filling))
        tray = next(fits, None)
        if tray is None:
            trays.append([filling])
        else:
            tray.append(filling)
    return [_shared(monday, tray) for tray in trays if len(tray) > 1]


def _shared(monday: date, tray: Sequence[Filling]) -> SharedTray:
    amount = tray[0].batch.amount
    parts = tuple(TrayPart(f.batch.name, f.cells, _seeds_per_cell(f.batch)) for f in tray)
    return SharedTray(monday, tray[0].batch.name, amount.tray, amount.tray_cells, parts)


def _seeds_per_cell(batch: Batch) -> int:
    return batch.kind.tray.seeds_per_cell if batch.kind.tray else 1


def _go_together(tray: Sequence[Filling], new: Filling) -> bool:
    return all(_similar(f.batch, new.batch) for f in tray)


def _similar(one: Batch, other: Batch) -> bool:
    return _apart(_days_up(one), _days_up(other)) <= SIMILAR_UP_DAYS and _last_move(one, other) <= SIMILAR_END_DAYS


def _days_up(batch: Batch) -> int:
    stages = batch.stages
    return (stages.up.day - stages.sow.day).days if stages.up and stages.sow else 0


def _last_move(one: Batch, other: Batch) -> int:
    """How many days lie between their leaving the tray: pricked out, potted on or planted."""
    return _apart(_leaves(one).toordinal(), _leaves(other).toordinal())


def _leaves(batch: Batch) -> date:
    stays = [s for s in batch.stays if s.container == batch.amount.tray and s.trays]
    return stays[-1].end if stays else date.min


def _apart(one: int, other: int) -> int:
    return abs(one - other)
