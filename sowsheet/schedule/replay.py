"""The same plan through each year of the daily record: how far its dates wander, and how often a night is too cold."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date, timedelta
from typing import TYPE_CHECKING

import msgspec

from sowsheet.garden.records import Garden, Place
from sowsheet.growth.clock import Clock
from sowsheet.growth.handbook import Handbook
from sowsheet.growth.warmth import Warmth
from sowsheet.schedule.cold import Spell, bed_spells
from sowsheet.schedule.records import Batch, Schedule
from sowsheet.site.climate import Climate
from sowsheet.site.hotbed import cold_from
from sowsheet.site.nights import Nights, in_year
from sowsheet.site.quantile import quantile
from sowsheet.site.weather import readings

if TYPE_CHECKING:
    from sowsheet.site.record import Record

SHARES = (0.1, 0.5, 0.9)
LONGEST_DAYS = 700  # what takes longer is not replayed


class Wander(msgspec.Struct, frozen=True):
    """A date's 10th, 50th and 90th percentile over the years: early, middle, late."""

    early: date
    middle: date
    late: date


class Replayed(msgspec.Struct, frozen=True):
    """A batch through the years of a record that cover it.

    `first_pick` is None for what the year brings on its day. `bench_cold` and `bed_cold` count the years with a night
    colder than it stands where it then stood; None: not asked, as it has no such stay.
    """

    batch: str
    years: int
    ready: Wander | None
    first_pick: Wander | None
    bench_cold: int | None
    bed_cold: int | None


class Run(msgspec.Struct, frozen=True):
    """One year of a batch, in that year's own dates."""

    sown: date
    ready: date | None
    plant: date | None
    first_pick: date | None


def replay(garden: Garden, schedule: Schedule) -> tuple[Replayed, ...]:
    """Each batch that is sown or planted, through every year of the record; none without one that has maxima."""
    climate = schedule.climate
    if climate.outside is None or climate.nights is None:
        return ()
    clock, nights = _clock(garden, climate, climate.nights.record), climate.nights
    made = (_replayed(garden, schedule, batch, clock, nights) for batch in schedule.batches)
    return tuple(found for found in made if found is not None)


def _clock(garden: Garden, climate: Climate, record: Record) -> Clock:
    """The growth clock over the whole record, its gaps filled with the usual year."""
    as_read = msgspec.structs.replace(climate, measured=readings(record))
    long = (record.days[-1] - record.days[0]).days + LONGEST_DAYS
    return Warmth(Handbook(as_read, garden.words), record.days[0], long)


def _replayed(garden: Garden, schedule: Schedule, batch: Batch, clock: Clock, nights: Nights) -> Replayed | None:
    start = batch.stages.sow or batch.stages.plant
    if start is None or batch.open_left:
        return None
    runs: list[tuple[int, Run]] = []
    for year in nights.years:
        away = year - schedule.season.year
        run = _run(garden, batch, clock, away)
        end = run.first_pick or run.plant or run.ready
        if end is not None and nights.covers(run.sown, max(end, run.sown + timedelta(days=1))):
            runs.append((away, run))
    if not runs:
        return None
    bench = [_any_cold(nights, _bench(garden, batch, away, run)) for away, run in runs]
    bed = [_any_cold(nights, _bed(schedule.climate, garden, batch, away, run)) for away, run in runs]
    return Replayed(
        batch.name,
        len(runs),
        _wander([(away, run.ready) for away, run in runs]),
        _wander([(away, run.first_pick) for away, run in runs]),
        _counted(bench),
        _counted(bed),
    )


def _run(garden: Garden, batch: Batch, clock: Clock, away: int) -> Run:
    """A batch in the year that lies so many years away: sown on its day, planted when ready, not before its day."""
    stages, kind = batch.stages, batch.kind
    plant = None if stages.plant is None else _moved(stages.plant.day, away)
    if batch.raised == "tray" and stages.sow is not None and kind.tray is not None:
        sown = _moved(stages.sow.day, away)
        shelf, growing = _place(garden, batch, "germinating"), _place(garden, batch, "growing on")
        up = None if shelf is None else clock.up(kind, sown, shelf)
        ready = None if up is None or growing is None else clock.ready(kind, up.day, growing).day
        if ready is None:
            return Run(sown, None, None, None)
        plant = None if plant is None else max(plant, ready)
    elif plant is not None:
        sown, ready = plant, None
    else:
        raise ValueError(f"{batch.name} is neither sown nor planted")
    if stages.first_pick is None:
        return Run(sown, ready, plant, None)
    where = garden.bed_where.get(batch.bed, "")
    first = None if plant is None else clock.first_pick(kind, batch.raised, sown, plant, where)
    return Run(sown, ready, plant, None if first is None or first.basis == "season" else first.day)


def _place(garden: Garden, batch: Batch, stage: str) -> Place | None:
    """Where the plan has a batch in a stage."""
    where = next((s.where for s in batch.stays if s.stage == stage), None)
    if where is None:  # too quick to stand anywhere for a day
        where = next((s.where for s in batch.stays if s.container), None)
    return next((p for p in garden.places if p.name == where), None)


def _bench(garden: Garden, batch: Batch, away: int, run: Run) -> Iterator[Spell]:
    """The stays of trays where nights can be cold, by the night outdoors that is too cold, until they are planted."""
    heated = {p.name for p in garden.places if p.held_at_c is not None}
    trays = [c for c in batch.cold if c.stage != "in the bed" and c.where not in heated]
    for stay in trays:
        start, end = _moved(stay.start, away), _moved(stay.end, away)
        if stay is trays[-1] and run.plant is not None:
            end = max(end, run.plant)
        place = next(p for p in garden.places if p.name == stay.where)
        start = cold_from(place, start)
        if start < end:
            yield Spell(stay.night_c, start, end)


def _bed(climate: Climate, garden: Garden, batch: Batch, away: int, run: Run) -> Iterator[Spell]:
    """The stay in the bed: until it is cleared, of what frost ends until it is picked first."""
    clear, start = batch.stages.clear, run.plant
    if start is None:
        return
    if batch.raised == "drill" and batch.stages.up is not None:
        start = _moved(batch.stages.up.day, away)  # seed in the ground takes no harm
    end = run.first_pick if batch.kind.harvest.ends_with == "frost" or clear is None else _moved(clear.day, away)
    warmer = climate.warmer_nights_c(garden.bed_where.get(batch.bed, ""))
    for spell in bed_spells(batch.kind, batch.raised, start, end) if end is not None else ():
        yield Spell(spell.stands_c - warmer, spell.start, spell.end)


def _any_cold(nights: Nights, stays: Iterator[Spell]) -> bool | None:
    """Whether one of the stays met a night that is too cold; None where there is none."""
    found = [nights.colder(s.stands_c, s.start, s.end) for s in stays]
    return any(found) if found else None


def _counted(found: Sequence[bool | None]) -> int | None:
    asked = [f for f in found if f is not None]
    return sum(asked) if asked else None


def _wander(dates: Sequence[tuple[int, date | None]]) -> Wander | None:
    """Percentiles (type 7) of dates of many years, moved into the plan's."""
    days = [float(_moved(day, -away).toordinal()) for away, day in dates if day is not None]
    if not days:
        return None
    early, middle, late = (date.fromordinal(round(quantile(days, share))) for share in SHARES)
    return Wander(early, middle, late)


def _moved(day: date, years: int) -> date:
    return in_year(day, day.year + years)
