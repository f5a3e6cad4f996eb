"""Sowings of one day share their last tray where it can be moved as one; a tray that is shared is counted once."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from datetime import date

import msgspec

from sowsheet.schedule.records import Batch, Stay
from sowsheet.site.season import monday_of
from sowsheet.trays.records import SharedTray, TrayPart


class Filling(msgspec.Struct, frozen=True):
    """A batch's last tray when it is not full."""

    batch: Batch
    cells: int


def shared_trays(batches: Sequence[Batch]) -> tuple[SharedTray, ...]:
    """Trays filled by several sowings of one day: what stays longest first, then whatever fits and goes with it."""
    groups: dict[tuple[date, str, bool], list[Filling]] = defaultdict(list)
    for batch in batches:
        sow, amount = batch.stages.sow, batch.amount
        part = amount.cells % amount.tray_cells if amount.tray_cells else 0
        if part and sow is not None and batch.raised == "tray" and in_first_tray(batch):
            groups[sow.day, amount.tray, batch.maybe].append(Filling(batch, part))
    return tuple(tray for group in groups.values() for tray in _packed(group))


def in_first_tray(batch: Batch) -> list[Stay]:
    """A batch's stays in the trays it is sown in, not in those of the same kind that it is moved into later."""
    moves = [w.day for key, *_ in batch.moved_into if (w := getattr(batch.stages, key)) is not None]
    out = min(moves, default=date.max)
    return [s for s in batch.stays if s.container == batch.amount.tray and s.start < out]


def _packed(group: list[Filling]) -> list[SharedTray]:
    trays: list[list[Filling]] = []
    for filling in sorted(group, key=_longest_then_fullest):
        tray = next((t for t in trays if _room_in(t) >= filling.cells and _goes_with(t[0].batch, filling.batch)), None)
        if tray is None:
            trays.append([filling])
        else:
            tray.append(filling)
    return [_shared(tray) for tray in trays if len(tray) > 1]


def _longest_then_fullest(filling: Filling) -> tuple[int, int, str]:
    return -in_first_tray(filling.batch)[-1].end.toordinal(), -filling.cells, filling.batch.name


def _room_in(tray: Sequence[Filling]) -> int:
    return tray[0].batch.amount.tray_cells - sum(f.cells for f in tray)


def _shared(tray: Sequence[Filling]) -> SharedTray:
    owner, start = tray[0].batch, in_first_tray(tray[0].batch)[0].start
    parts = tuple(TrayPart(f.batch.name, f.cells, _seeds_per_cell(f.batch)) for f in tray)
    return SharedTray(monday_of(start), owner.name, owner.amount.tray, owner.amount.tray_cells, parts)


def _seeds_per_cell(batch: Batch) -> int:
    return batch.kind.tray.seeds_per_cell if batch.kind.tray else 1


def _goes_with(owner: Batch, guest: Batch) -> bool:
    """Whether both can stand in one tray, which is moved as one: from place to place on the same days, until the guest
    leaves it, with the owner or before."""
    theirs, own = in_first_tray(owner), in_first_tray(guest)
    together = theirs[: len(own)]
    return [_move(s) for s in together] == [_move(s) for s in own] and own[-1].end <= together[-1].end


def _move(stay: Stay) -> tuple[date, str, str]:
    return stay.start, stay.where, stay.stage
