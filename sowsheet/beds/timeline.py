"""Beds as timelines: a fold over the stays in them."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from typing import Literal

import msgspec

from sowsheet.schedule.records import Batch, BedPart


class Standing(msgspec.Struct, frozen=True):
    """A batch in a bed, from the day it goes in up to the day it is out."""

    batch: str
    start: date
    end: date
    part: BedPart
    rank: Literal["main", "between"]
    maybe: bool


class Empty(msgspec.Struct, frozen=True):
    """Days on which nothing at all stands in a bed."""

    start: date
    end: date


class Changeover(msgspec.Struct, frozen=True):
    """One crop out, the next in: the days on which the first is cleared and the second planted."""

    out: str
    into: str
    cleared: date
    planted: date


class BedLine(msgspec.Struct, frozen=True):
    """A bed through the season."""

    bed: str
    standing: tuple[Standing, ...]
    empty: tuple[Empty, ...]
    changeovers: tuple[Changeover, ...]


def bed_line(bed: str, batches: Sequence[Batch], first: date, last: date) -> BedLine:
    """What stands in a bed between two days (`last` is still counted), what is empty, what follows what."""
    standing = sorted(
        (s for b in batches if b.bed == bed and (s := _standing(b)) is not None),
        key=lambda s: (s.start, s.end, s.batch),
    )
    return BedLine(bed, tuple(standing), _empty(standing, first, last), _changeovers(standing))


def _standing(batch: Batch) -> Standing | None:
    stays = [s for s in batch.stays if s.part is not None]
    if not stays or stays[0].part is None:
        return None
    return Standing(batch.name, stays[0].start, stays[-1].end, stays[0].part, batch.rank, batch.maybe)


def _empty(standing: Sequence[Standing], first: date, last: date) -> tuple[Empty, ...]:
    found, free = [], first
    for s in standing:
        if s.start > free:
            found.append(Empty(free, s.start))
        free = max(free, s.end)
    if free <= last:
        found.append(Empty(free, last))
    return tuple(e for e in found if e.start < e.end)


def _changeovers(standing: Sequence[Standing]) -> tuple[Changeover, ...]:
    """Each main crop with the last one to leave its ground before it."""
    main = [s for s in standing if s.rank == "main"]
    found = []
    for s in main:
        before = [o for o in main if o.end <= s.start and o is not s]
        if before:
            out = max(before, key=lambda o: o.end)
            found.append(Changeover(out.batch, s.batch, out.end, s.start))
    return tuple(found)
