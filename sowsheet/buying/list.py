"""The shopping list of a plan: what the season's batches want, added up."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from datetime import date
from itertools import pairwise

from sowsheet.beds.compost import bed_litres
from sowsheet.buying.records import BedFill, CoverNeed, SeedNeed, SetNeed, Shopping, TrayFill, TrayNeed
from sowsheet.garden.defaults import assumed_pots, assumed_seed_tray
from sowsheet.garden.records import Garden, TrayKind
from sowsheet.schedule.records import Batch, Schedule
from sowsheet.trays.records import TrayPlan
from sowsheet.words.language import Language

SEED_TRAY_DEEP_CM = 4.0  # compost in an open seed tray; common practice, no source
BARROW_LITRES = 80.0  # a builder's barrow, level; common practice, no source


def shopping_list(garden: Garden, schedule: Schedule, trays: TrayPlan) -> Shopping:
    """Everything that has to be there. A pure fold."""
    own = [b for b in schedule.batches if _is_of_season(b, schedule)]
    order = garden.words.sort_key
    return Shopping(
        tuple(sorted(_seed(own), key=lambda s: order(s.name))),
        tuple(sorted(_sets(own), key=lambda s: order(s.name))),
        tuple(_trays(trays)),
        tuple(_tray_compost(garden, own, trays)),
        tuple(_beds(garden)),
        tuple(_covers(schedule)),
    )


def barrows_of(litres: float) -> int:
    """Whole barrows that hold so much: the last may not be full. A sum's last digits fill none."""
    return math.ceil(round(litres / BARROW_LITRES, 3))


def _beds(garden: Garden) -> Iterator[BedFill]:
    usual = garden.house.compost_mm
    for bed in garden.beds:
        yield BedFill(bed.name, usual if bed.compost_mm is None else bed.compost_mm, bed_litres(bed, usual))


def _is_of_season(batch: Batch, schedule: Schedule) -> bool:
    """Whether its seed or sets are for this season: not of what stands there, nor of what went in before."""
    goes_in = batch.stages.plant or batch.stages.ready
    return not batch.open_left and (goes_in is None or goes_in.day >= schedule.season.start)


def _name(batch: Batch) -> str:
    """A kind's name with the grower's own words, which may be a sort: those are bought apart."""
    return Language.crop_name("", "", batch.kind.name, batch.note)


def _seed(batches: Sequence[Batch]) -> Iterator[SeedNeed]:
    for name, own in _by_name(b for b in batches if b.raised != "set" and b.amount.seeds):
        settled, maybe = [b for b in own if not b.maybe], [b for b in own if b.maybe]
        yield SeedNeed(
            name,
            len(settled),
            sum(b.amount.seeds for b in settled),
            sum(b.amount.seed_g for b in settled),
            sum(_allowance(b) for b in settled),
            sum(b.amount.seeds for b in maybe),
            sum(b.amount.seed_g for b in maybe),
        )


def _allowance(batch: Batch) -> int:
    """Seeds for spare plants and empty cells: what is sown beyond one filled cell for each place."""
    amount, tray = batch.amount, batch.kind.tray
    if batch.raised != "tray" or tray is None or not amount.cells:
        return 0
    each = amount.seeds / amount.cells
    return max(0, math.floor(amount.seeds - amount.places * each))


def _sets(batches: Sequence[Batch]) -> Iterator[SetNeed]:
    for name, own in _by_name(b for b in batches if b.raised == "set"):
        settled, maybe = [b for b in own if not b.maybe], [b for b in own if b.maybe]
        number, kg = sum(b.amount.places for b in settled), sum(b.amount.kg for b in settled)
        yield SetNeed(name, own[0].amount.unit, number, kg, sum(b.amount.places for b in maybe))


def _by_name(batches: Iterable[Batch]) -> Iterator[tuple[str, list[Batch]]]:
    found: dict[str, list[Batch]] = {}
    for batch in batches:
        found.setdefault(_name(batch), []).append(batch)
    yield from found.items()


def _trays(plan: TrayPlan) -> Iterator[TrayNeed]:
    for use in plan.uses:
        over = [] if use.owned is None else _over(plan, use.tray, use.owned)
        start, end = (over[0][0], over[-1][1]) if over else (None, None)
        yield TrayNeed(use.tray, use.most, use.day, use.owned, start, end)


def _over(plan: TrayPlan, tray: str, owned: int) -> list[tuple[date, date]]:
    """The times in which more trays of a kind are in use than are owned; ideas not settled are left out."""
    change: defaultdict[date, int] = defaultdict(int)
    for stay in plan.stays:
        if stay.container == tray and not stay.maybe:
            change[stay.start] += stay.trays
            change[stay.end] -= stay.trays
    days, standing = sorted(change), 0
    found = []
    for day, after in pairwise(days):
        standing += change[day]
        if standing > owned:
            found.append((day, after))
    return found


def _tray_compost(garden: Garden, batches: Sequence[Batch], plan: TrayPlan) -> Iterator[TrayFill]:
    """Trays sown, and trays and pots moved on into; a shared tray is filled once."""
    kinds = {t.name: t for t in (assumed_seed_tray(), assumed_pots(), *garden.trays)}
    own = {b.name for b in batches if not b.maybe}
    filled: defaultdict[str, int] = defaultdict(int)
    for sowing in plan.sowings:
        if sowing.batch in own:
            filled[sowing.tray] += sowing.trays
    for batch in batches:
        for _, tray, trays in batch.moved_into if batch.name in own else ():
            filled[tray] += trays
    for tray, fillings in filled.items():
        if fillings:
            yield TrayFill(tray, fillings, fillings * _litres(kinds[tray]))


def _litres(kind: TrayKind) -> float:
    if kind.cells:
        return kind.cells * kind.cell_ml / 1000
    return kind.length_cm * kind.width_cm * SEED_TRAY_DEEP_CM / 1000


def _covers(schedule: Schedule) -> Iterator[CoverNeed]:
    """The most metres of each cover that lie at once."""
    settled = {b.name for b in schedule.batches if not b.maybe}
    covers = [c for b in schedule.batches for c in b.covers if c.batch in settled]
    for kind in dict.fromkeys(c.kind for c in covers):
        own = [c for c in covers if c.kind == kind]
        at = {c.start: sum(o.metres for o in own if o.start <= c.start < o.end) for c in own}
        day = min(at, key=lambda d: (-at[d], d))
        yield CoverNeed(kind, at[day], day)
