"""Trays in a place as blocks on a scale of days and trays: every tray keeps its spot as long as it stands."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from datetime import date
from itertools import accumulate, groupby

import msgspec

from sowsheet.schedule.records import Stay


class Spell(msgspec.Struct, frozen=True):
    """One tray of a batch in a place, from `start` up to but not including `end`."""

    batch: str
    start: date
    end: date
    maybe: bool


class TrayBlock(msgspec.Struct, frozen=True):
    """Trays of a batch that stand side by side for the same time: spots `low` up to but not including `high`."""

    batch: str
    start: date
    end: date
    low: int
    high: int
    maybe: bool


def tray_blocks(stays: Iterable[Stay]) -> list[TrayBlock]:
    """The blocks of one place. Never more spots are taken than trays stand at once."""
    spells = [s for _, own in groupby(sorted(stays, key=_order), key=lambda s: s.batch) for s in _spells(list(own))]
    room = _most_at_once(spells)
    free = [date.min] * room  # the day from which each spot is free
    blocks: list[TrayBlock] = []
    for spell, alike in groupby(sorted(spells, key=_by_day)):
        spots = _spots([n for n in range(room) if free[n] <= spell.start], len(list(alike)))
        for n in spots:
            free[n] = spell.end
        blocks += _runs(spell, spots)
    return blocks


def _spots(free: Sequence[int], wanted: int) -> Sequence[int]:
    """The lowest spots side by side that are free; the lowest of all where so many do not lie together."""
    for at in range(len(free) - wanted + 1):
        if free[at + wanted - 1] - free[at] == wanted - 1:
            return free[at : at + wanted]
    return free[:wanted]


def _most_at_once(spells: Sequence[Spell]) -> int:
    edges = sorted([(s.start, 1) for s in spells] + [(s.end, -1) for s in spells], key=lambda e: e)
    return max(accumulate(step for _, step in edges), default=0)


def _by_day(spell: Spell) -> tuple[date, str, date]:
    return spell.start, spell.batch, spell.end


def _order(stay: Stay) -> tuple[str, date]:
    return stay.batch, stay.start


def _spells(stays: Sequence[Stay]) -> Iterator[Spell]:
    """A batch's trays one by one. What is pricked out or potted on into more trays keeps those it had."""
    standing: list[date] = []  # since when each tray stands
    end = None
    for stay in stays:
        if end is not None and stay.start > end:
            yield from (Spell(stay.batch, since, end, stay.maybe) for since in standing)
            standing = []
        yield from (Spell(stay.batch, since, stay.start, stay.maybe) for since in standing[stay.trays :])
        standing = [*standing[: stay.trays], *[stay.start] * (stay.trays - len(standing))]
        end = stay.end
    if end is not None:
        yield from (Spell(stays[0].batch, since, end, stays[0].maybe) for since in standing)


def _runs(spell: Spell, spots: Sequence[int]) -> Iterator[TrayBlock]:
    """Neighbouring spots as one block."""
    low = spots[0]
    for spot, after in zip(spots, [*spots[1:], None], strict=True):
        if after != spot + 1:
            yield TrayBlock(spell.batch, spell.start, spell.end, low, spot + 1, spell.maybe)
            low = spot if after is None else after
