"""What a week's delay in sowing costs at harvest, and until when a sowing is still of use."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from datetime import date, timedelta
from typing import Literal

import msgspec

from sowsheet.garden.records import Where
from sowsheet.growth.when import When
from sowsheet.schedule.context import Context
from sowsheet.schedule.harvest import frost_end, last_pick, over_before
from sowsheet.schedule.raising import ready_day
from sowsheet.schedule.records import Batch, BedPart, Slip
from sowsheet.schedule.windows import openings

WEEK_DAYS = 7
FARTHEST_DAYS = 330  # a window is never longer
SOON_DAYS = 45

Useless = Literal["", "window", "next crop", "season"]  # what makes a sowing useless; "" while it is of use


class Course(msgspec.Struct, frozen=True):
    """Where a batch comes to when it is sown on another day; `first` is None where nothing is picked."""

    plant: date
    first: date | None


def with_slips(ctx: Context, batches: Sequence[Batch]) -> list[Batch]:
    """The batches with the price of a week and the last useful sowing of each that is still to be sown or set."""
    in_bed: defaultdict[str, list[Batch]] = defaultdict(list)
    for b in batches:
        in_bed[b.bed].append(b)
    return [msgspec.structs.replace(b, slip=_slip(ctx, b, in_bed[b.bed] if b.bed else ())) for b in batches]


def _slip(ctx: Context, batch: Batch, neighbours: Sequence[Batch]) -> Slip | None:
    start = batch.stages.sow if batch.raised != "set" else batch.stages.plant
    if start is None or batch.open_left or start.day < ctx.season.start:
        return None
    until = _window_shuts(ctx, batch)
    needed = _bed_needed(ctx, batch, neighbours)
    week = timedelta(days=WEEK_DAYS)
    now, later = _course(ctx, batch, start.day), _course(ctx, batch, start.day + week)
    costs = (later.first - now.first).days if now.first and later.first else None
    ended = _ended(now, batch, until, needed)
    if ended:
        return Slip(costs, None, _why(ctx, ended))
    farthest = FARTHEST_DAYS if until is None else min(FARTHEST_DAYS, (until - start.day).days + 1)
    low, high = 0, farthest
    while high - low > 1:
        middle = (low + high) // 2
        over = _ended(_course(ctx, batch, start.day + timedelta(days=middle)), batch, until, needed)
        low, high = (low, middle) if over else (middle, high)
    if high == FARTHEST_DAYS:  # a window that is known has been passed by then
        return Slip(costs, None, "")
    last = start.day + timedelta(days=low)
    over = _ended(_course(ctx, batch, last + timedelta(days=1)), batch, until, needed)
    return Slip(costs, last, _why(ctx, over))


def _why(ctx: Context, over: Useless) -> str:
    return ctx.words.say(f"why.useless.{over}") if over else ""


def _course(ctx: Context, batch: Batch, sown: date) -> Course:
    """Sown on a day: planted when ready, not before its day in the plan, and picked as its kind is."""
    kind, stages = batch.kind, batch.stages
    plant = sown
    if batch.raised == "tray":
        ready = ready_day(ctx.along(batch.asked), kind, sown)
        plant = ready if stages.plant is None else max(ready, stages.plant.day)
    if not batch.bed:
        return Course(plant, plant)
    if plant.year >= date.max.year - 1:
        return Course(plant, None)
    where = ctx.where(batch.bed)
    first = ctx.clock.first_pick(kind, batch.raised, sown, plant, where)
    return Course(plant, None if first is None or _lost(ctx, batch, plant, first, where) else first.day)


def _lost(ctx: Context, batch: Batch, plant: date, first: When, where: Where) -> bool:
    """Whether frost or the end of its season comes before the first picking."""
    frost = frost_end(ctx, batch.kind, plant, where)
    if frost is not None and frost.day <= first.day:
        return True
    if over_before(ctx, batch.kind, batch.raised, plant, first.day) is not None:
        return True
    last = last_pick(ctx, batch.kind, first, frost)
    return last is not None and last.day <= first.day


def _ended(course: Course, batch: Batch, until: date | None, needed: date | None) -> Useless:
    """What makes such a course useless; "" while it is of use."""
    if until is not None and course.plant > until:
        return "window"
    if batch.kind.use == "green manure" or batch.kind.stands_years is not None:
        return "next crop" if needed is not None and course.plant >= needed else ""
    if course.first is None:
        return "season"
    return "next crop" if needed is not None and course.first >= needed else ""


def _window_shuts(ctx: Context, batch: Batch) -> date | None:
    """The last day of the window in which a batch goes into its bed, or is ready where it has none; of one that is
    about to open, else of the one that has shut."""
    day = batch.stages.plant or batch.stages.ready
    if day is None:
        return None
    found = openings(ctx, batch.kind, batch.raised, ctx.under_glass(batch.bed), day.day)
    soon = [o for o in found if o.start - timedelta(days=SOON_DAYS) <= day.day <= o.until]
    shut = [o for o in found if o.until < day.day]
    return soon[0].until if soon else shut[-1].until if shut else None


def _bed_needed(ctx: Context, batch: Batch, neighbours: Sequence[Batch]) -> date | None:
    """The day by which what follows in the same part of the bed must go in: as written, to be picked as written, or
    before its window shuts."""
    plant, part = batch.stages.plant, batch.part
    if plant is None or part is None:
        return None
    days = []
    for b in neighbours:
        follows = b.rank == "main" and not b.maybe
        if not follows or b.stages.plant is None or b.stages.plant.day <= plant.day or not _overlap(part, b.part):
            continue
        days.append(b.stages.plant.day if b.stages.plant.basis in ("grower", "growth") else _window_shuts(ctx, b))
    return min((d for d in days if d is not None), default=None)


def _overlap(a: BedPart, b: BedPart | None) -> bool:
    if b is None:
        return False
    along = min(a.along_end_cm, b.along_end_cm) - max(a.along_start_cm, b.along_start_cm)
    across = min(a.across_end_cm, b.across_end_cm) - max(a.across_start_cm, b.across_start_cm)
    return along > 1 and across > 1
