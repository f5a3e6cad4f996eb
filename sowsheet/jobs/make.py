"""Jobs from the edges of stays and covers: every date is a stage's own date."""

from __future__ import annotations

import math
from collections.abc import Iterator
from datetime import date, timedelta
from functools import cached_property

import msgspec

from sowsheet.catalogue.records import Kind
from sowsheet.garden.defaults import assumed_pots, assumed_seed_tray
from sowsheet.garden.records import Garden, TrayKind
from sowsheet.growth.when import When
from sowsheet.jobs.records import Job, Verb
from sowsheet.schedule.drafts import NEXT_CROP
from sowsheet.schedule.records import Batch, Schedule, Stay
from sowsheet.schedule.windows import is_tender
from sowsheet.trays.grid import filled, grid
from sowsheet.trays.records import SharedTray, Sowing, TrayPart, TrayPlan
from sowsheet.words.english import (
    area,
    capital,
    count,
    crop_name,
    day_month,
    day_named,
    depth,
    length,
    listed,
    number,
    rows_of_cells,
    spacing,
    span_of_days,
    the,
    trays_of,
    weight,
)

# What goes out makes room for what comes in; a bed is uncovered and cleared before it is planted and covered.
VERB_ORDER: tuple[Verb, ...] = (
    "Harden",
    "Carry",
    "Prick out",
    "Pot on",
    "Sow",
    "Chit",
    "Uncover",
    "Pick",
    "Lift",
    "Cut",
    "Clear",
    "Set",
    "Drill",
    "Scatter",
    "Plant",
    "Cover",
)

# The catalogue's word for the stage that a verb belongs to, for its sign and its caution.
STAGE_OF: dict[Verb, str] = {
    "Sow": "sow",
    "Carry": "up",
    "Prick out": "prick out",
    "Pot on": "pot on",
    "Plant": "plant",
    "Drill": "sow",
    "Scatter": "sow",
    "Set": "plant",
    "Pick": "pick",
    "Lift": "pick",
    "Cut": "pick",
    "Clear": "clear",
}

# Common care with what every batch of trays needs; the compost's own label says more.
COMPOST_CARE = "Damp dry compost first: its dust harms lungs. Follow its label."
DIBBED_MM = 25.0  # seed that goes so deep is not raked in
SEED_CARE = "Treated seed: wear gloves, follow the packet, wash your hands."


class Look(msgspec.Struct, frozen=True):
    """Seedlings that may come up on a day when nobody is there: somebody should look."""

    day: date
    what: str
    where: str
    batch: str


class Plan(msgspec.Struct, frozen=True, dict=True):
    """What jobs are made from, with the look-ups that they need."""

    schedule: Schedule
    trays: TrayPlan
    garden: Garden

    @cached_property
    def batches(self) -> dict[str, Batch]:
        return {b.name: b for b in self.schedule.batches}

    @cached_property
    def sowings(self) -> dict[str, Sowing]:
        return {s.batch: s for s in self.trays.sowings}

    @cached_property
    def shared(self) -> dict[str, SharedTray]:
        return {part.batch: tray for tray in self.trays.shared for part in tray.parts}

    @cached_property
    def kinds(self) -> dict[str, TrayKind]:
        return {t.name: t for t in (assumed_seed_tray(), assumed_pots(), *self.garden.trays)}

    @cached_property
    def counted(self) -> dict[str, list[Stay]]:
        """What is counted at a batch: its stays in trays, sharing reckoned in."""
        found: dict[str, list[Stay]] = {}
        for stay in self.trays.stays:
            found.setdefault(stay.batch, []).append(stay)
        return found

    @cached_property
    def place_order(self) -> dict[str, int]:
        names = [*(p.name for p in self.garden.places), *(b.name for b in self.garden.beds)]
        return {name: n for n, name in enumerate(names)}


def jobs(schedule: Schedule, trays: TrayPlan, garden: Garden) -> tuple[Job, ...]:
    """Every job of the plan, each once: by day, then places and beds as the garden file names them, then verb."""
    plan = Plan(schedule, trays, garden)
    made = [job for batch in schedule.batches for job in _of_batch(plan, batch)]
    last = len(plan.place_order)

    def order(job: Job) -> tuple[date, int, int, str, bool, str]:
        shared = plan.shared.get(job.batch)
        owner = shared.owner if shared else job.batch  # who shares a tray comes after its owner
        place = plan.place_order.get(job.where, last)
        return job.day, place, VERB_ORDER.index(job.verb), owner, owner != job.batch, job.batch

    return tuple(sorted(made, key=order))


def looks(schedule: Schedule, garden: Garden) -> tuple[Look, ...]:
    """Days without anybody there on which seedlings come up in a place that they must leave."""
    found = []
    for batch in schedule.batches:
        up, carry = batch.stages.up, _carry_day(batch)
        if up and carry and garden.work_days and up.day < carry and up.day.weekday() not in garden.work_days:
            where = _standing(batch, up.day)
            found.append(Look(up.day, name_of(batch), where.where if where else "", batch.name))
    return tuple(sorted(found, key=lambda look: look.day))


def name_of(batch: Batch) -> str:
    """A batch's crop as it is printed."""
    return crop_name(batch.word, batch.kind.key if batch.kind_open else "", batch.kind.name, batch.note)


def said(job: Job) -> str:
    """The action after its verb: `2 trays of 60: lettuce`, `80 clumps of leeks`. A bed is not named in it."""
    words = _amount_of(job)
    match job.verb:
        case "Sow":
            words = f"{job.amount}: {job.what}"
        case "Carry":
            words = f"{job.amount} of {job.what} to {the(job.to)}"
        case "Harden" if job.to:
            words = f"{words} in {the(job.to)}"
        case "Prick out" | "Pot on" if job.to:
            words = f"{words} into {job.to}"
        case "Cover":
            words = f"{job.what} with {job.amount}"
        case "Pick":
            words = f"the first {job.what}"
    return words


def bed_said(job: Job) -> str:
    """The word between an action and its bed: a bed is cleared from, everything else happens in it."""
    return "from" if job.verb == "Clear" else "in"


def _amount_of(job: Job) -> str:
    """60 lettuce, 80 clumps of leeks, chard"""
    return f"{job.amount}{' of' if job.amount[-1:].isalpha() else ''} {job.what}".strip()


def _of_batch(plan: Plan, batch: Batch) -> Iterator[Job]:
    """A batch's jobs. Of one that was there before the season, only what falls into the season is known."""
    made = [*_in_trays(plan, batch), *_in_bed(plan, batch)]
    start = plan.schedule.season.start
    first = start if batch.open_left else start - timedelta(days=366)  # what was done years ago is no job
    return (job for job in made if job.day >= first)


def _in_trays(plan: Plan, batch: Batch) -> Iterator[Job]:
    if batch.raised != "tray" or batch.open_left:
        return
    stages = batch.stages
    if stages.sow:
        yield _sow(plan, batch, stages.sow)
    carry = _carry_day(batch)
    if stages.to_light and carry:
        yield _carry(plan, batch, stages.to_light)
    moves: tuple[tuple[Verb, str, When | None], ...] = (
        ("Prick out", "prick_out", stages.prick_out),
        ("Pot on", "pot_on", stages.pot_on),
    )
    for verb, key, when in moves:
        if when:
            yield _moved(plan, batch, verb, key, when)
    if stages.harden:
        yield _harden(plan, batch, stages.harden)


def _in_bed(plan: Plan, batch: Batch) -> Iterator[Job]:
    if not batch.bed:
        return
    stages, what = batch.stages, name_of(batch)
    if stages.chit and stages.plant:
        yield _chit(plan, batch, stages.chit, stages.plant)
    if stages.plant and not batch.open_left:
        yield {"tray": _plant, "drill": _drill, "set": _set}[batch.raised](plan, batch, stages.plant)
    for cover in batch.covers:
        metres = f"{length(cover.metres * 100, plan.garden.imperial)} of {cover.kind}"
        why = batch.kind.covers.get(cover.kind, "")
        how = "Lay it loose. Hold the edges down all round."
        on = stages.cover_on
        if not batch.open_left:
            yield _job(batch, "Cover", cover.start, metres, what, batch.bed, how=how, why=why or (on.why if on else ""))
        how = "Choose a dull, still day if you can. Dry it and put it away."
        off = stages.cover_off
        yield _job(batch, "Uncover", cover.end, "", what, batch.bed, how=f"{metres}. {how}", why=off.why if off else "")
    if batch.kind.use == "green manure":
        yield from _cut_and_cleared(batch)
        return
    lifted = taken_at_once(batch.kind)
    if stages.first_pick:
        yield _harvest(batch, "Lift" if lifted else "Pick", stages.first_pick)
    at_once = lifted and stages.first_pick and stages.clear and stages.first_pick.day == stages.clear.day
    if stages.clear and not at_once:
        yield _clear(batch, stages.clear, lifted)


def _cut_and_cleared(batch: Batch) -> Iterator[Job]:
    """A green manure is cut, or frost kills it; then it rests, and what is left is raked off for the next crop."""
    stages, kind, what = batch.stages, batch.kind, name_of(batch)
    cut, clear = stages.last_pick, stages.clear
    after = f" {capital(kind.after_it)}." if kind.after_it else ""
    killed = kind.harvest.ends_with == "frost" and (cut is None or cut.basis == "season")
    if cut and not killed:
        how = "Cut at the ground. Leave it lying, or take it to the heap."
        if kind.rests_days:
            how += f" Then {span_of_days(kind.rests_days.low, kind.rests_days.high)} until the next crop."
        yield _job(batch, "Cut", cut.day, "", what, batch.bed, how=f"{how}{after}", why=cut.why)
    if clear:
        how = "The next crop goes in today. " if clear.why == NEXT_CROP else ""
        dead = "Frost has killed it; else cut it. " if killed else ""
        how = f"{how}{dead}Rake off what has not rotted; leave the roots.{after}"
        job = _job(batch, "Clear", clear.day, "", what, batch.bed, how=how, why=clear.why)
        yield msgspec.structs.replace(job, sign="")


def _chit(plan: Plan, batch: Batch, when: When, plant: When) -> Job:
    """Tubers stood in the light to sprout."""
    bought = weight(batch.amount.kg * 1000, plan.garden.imperial) if batch.amount.kg else ""
    amount = f"{bought}, {number(batch.amount.places)} {batch.amount.unit}".strip(", ")
    how = f"Indoors, eyes up, one deep, in the light, cool and free of frost. They go in {day_month(plant.day)}."
    return _job(batch, "Chit", when.day, amount, name_of(batch), "", how=how, why=when.why)


def _clear(batch: Batch, when: When, lifted: bool) -> Job:
    """Cleared by its own sign, or, whatever the sign, because what follows goes in or the grower wants it so."""
    how = "Lift what is left. Rake level." if lifted else "Take the last of it. Pull or cut what is left. Rake level."
    by_sign = when.basis != "grower"
    if when.why == NEXT_CROP:
        how = f"The next crop goes in today. {how}"
    job = _job(batch, "Clear", when.day, "", name_of(batch), batch.bed, how=how, why=when.why)
    return job if by_sign else msgspec.structs.replace(job, sign="")


def taken_at_once(kind: Kind) -> bool:
    """Whether the harvest is lifted: sets, cloves, tubers, what then has to dry or is forced. Squash and beans are
    dried, but picked; what stands for years is never lifted."""
    if kind.stands_years is not None or kind.family in ("Cucurbitaceae", "Fabaceae"):
        return False
    return kind.setting is not None or kind.dries_days is not None or kind.forces_days is not None


def _job(
    batch: Batch,
    verb: Verb,
    day: date,
    amount: str,
    what: str,
    where: str,
    *,
    to: str = "",
    how: str = "",
    why: str = "",
    caution: str = "",
) -> Job:
    stage = STAGE_OF.get(verb, "")
    return Job(
        day=day,
        verb=verb,
        amount=amount,
        what=what,
        where=where,
        batch=batch.name,
        to=to,
        how=how,
        sign="" if verb in {"Sow", "Drill"} else batch.kind.signs.get(stage, ""),
        caution=_both(batch.kind.cautions.get(stage, ""), caution),
        why=why,
        maybe=batch.maybe,
    )


def _both(own: str, general: str) -> str:
    """The crop's own caution, and the care that its compost needs whatever the crop."""
    if own and general == COMPOST_CARE:
        return f"{capital(own).removesuffix('.')}. {general}"
    return own or general


def cautions(job: Job) -> list[str]:
    """A job's cautions one by one."""
    own = job.caution.removesuffix(COMPOST_CARE).strip()
    return [words for words in (own, COMPOST_CARE if job.caution.endswith(COMPOST_CARE) else "") if words]


def _sow(plan: Plan, batch: Batch, when: When) -> Job:
    sowing, guest, sum_ = plan.sowings.get(batch.name), _guest_part(plan, batch), batch.amount
    trays = sowing.trays if sowing else sum_.trays
    said = [trays_of(trays, sum_.tray_cells, sum_.tray)] if trays else []
    amount = " and ".join([*said, count(guest.cells, "cell")] if guest else said)
    stay = _standing(batch, when.day)
    where = stay.where if stay else batch.route[0] if batch.route else ""
    how = f"{_seeds_said(batch, trays > 0, plan.garden.imperial)} {_shared_said(plan, batch)}".strip()
    return _job(batch, "Sow", when.day, amount, name_of(batch), where, how=how, why=when.why, caution=COMPOST_CARE)


def _seeds_said(batch: Batch, own_trays: bool, imperial: bool) -> str:
    """88 cells, 5 seeds to a cell, 10 mm deep."""
    kind, sum_ = batch.kind, batch.amount
    light = kind.germination.light if kind.germination else ""
    if sum_.tray_cells and kind.tray:
        cells = f"{count(sum_.cells, 'cell')}, " if own_trays else ""
        start = f"{cells}{count(kind.tray.seeds_per_cell, 'seed')} to a cell"
    else:
        start = f"{number(sum_.seeds)} seeds, scattered evenly"
    if light == "wanted":
        return f"{start}. Press in, do not cover: it wants light."
    deep = f", {depth(kind.seed.depth_mm.usual, imperial)} deep" if kind.seed else ""
    return f"{start}{deep}.{' Keep it dark until it is up.' if light == 'dark' else ''}"


def _shared_said(plan: Plan, batch: Batch) -> str:
    """Which rows of a shared tray are this batch's, and whose tray it is."""
    shared = plan.shared.get(batch.name)
    if shared is None:
        return ""
    kind = plan.kinds.get(shared.tray)
    across = grid(shared.cells, kind.length_cm, kind.width_cm).across if kind else shared.cells
    place = next(f for f in filled(shared) if f.part.batch == batch.name)
    rows = rows_of_cells(place.first, place.part.cells, across)
    if shared.owner != batch.name:
        owner = plan.batches.get(shared.owner)
        return f"In the last tray of {name_of(owner) if owner else shared.owner}: {rows}."
    others = [plan.batches[p.batch] for p in shared.parts if p.batch != batch.name and p.batch in plan.batches]
    return f"In the last tray: {rows}, then {listed([name_of(b) for b in others])}."


def _carry(plan: Plan, batch: Batch, when: When) -> Job:
    before = _standing(batch, when.day - timedelta(days=1))
    after = _standing(batch, when.day)
    how = "Same day: they stretch in poor light."
    up = batch.stages.up
    if up and up.day < when.day:
        how = f"May be up on {day_named(up.day)}. In poor light they stretch."
    return _job(
        batch,
        "Carry",
        when.day,
        trays_said(plan, batch, when.day),
        name_of(batch),
        before.where if before else "",
        to=after.where if after else "",
        how=f"{how} {_in_whose_tray(plan, batch)}".strip(),
        why=when.why,
    )


def _moved(plan: Plan, batch: Batch, verb: Verb, key: str, when: When) -> Job:
    """Pricking out and potting on."""
    seedlings = math.ceil(batch.amount.places + batch.amount.spare)
    amount = str(seedlings) if batch.amount.unit == "plants" else f"{seedlings} {batch.amount.unit}"
    into = next((move for move in batch.moved_into if move[0] == key), None)
    to = ""
    if into:
        kind = plan.kinds.get(into[1])
        to = trays_of(into[2], kind.cells, kind.name) if kind else f"{count(into[2], 'tray')} ({into[1]})"
    stay = _standing(batch, when.day)
    how = (
        "Hold a leaf, never the stem. Water them in."
        if verb == "Prick out"
        else "Water first. Keep the root ball whole."
    )
    where = stay.where if stay else ""
    name = name_of(batch)
    return _job(batch, verb, when.day, amount, name, where, to=to, how=how, why=when.why, caution=COMPOST_CARE)


def _harden(plan: Plan, batch: Batch, when: When) -> Job:
    before = _standing(batch, when.day - timedelta(days=1))
    after = _standing(batch, when.day) or before
    moves = before is not None and after is not None and before.where != after.where
    cold = "Bring them in before a frost." if is_tender(batch.kind) else "Fleece over them on a hard night."
    how = f"Out of wind and hard sun at first. {cold}" if moves else "Open up by day, close at night."
    if not batch.bed and batch.stages.ready:
        how = f"{how} Ready from {day_month(batch.stages.ready.day)}; no bed is planned."
    return _job(
        batch,
        "Harden",
        when.day,
        trays_said(plan, batch, when.day),
        name_of(batch),
        before.where if before else "",
        to=after.where if moves and after else "",
        how=f"{how} {_in_whose_tray(plan, batch)}".strip(),
        why=when.why,
    )


def _plant(plan: Plan, batch: Batch, when: When) -> Job:
    sum_ = batch.amount
    amount = number(sum_.places) if sum_.unit == "plants" else f"{number(sum_.places)} {_unit(sum_.places, sum_.unit)}"
    rows = f"{count(sum_.rows, 'row')} of {sum_.per_row}, " if sum_.rows else ""
    gaps = _gaps_said(batch, plan.garden.imperial)
    before = _standing(batch, when.day - timedelta(days=1))
    fetch = ""
    if before:
        fetch = f" {trays_said(plan, batch, before.end - timedelta(days=1))} from {the(before.where)}."
    host = _host(plan, batch, when.day)
    start = f"Between the {name_of(host)}. " if host else "Rake level and water first. "
    how = f"{start}{rows}{gaps}.{fetch} Water in.{_wanted_over(batch)}"
    return _job(batch, "Plant", when.day, amount, name_of(batch), batch.bed, how=how, why=when.why)


def _wanted_over(batch: Batch) -> str:
    """The mesh or net that the crop wants from its first day, where the plan names no cover."""
    named = {cover.kind for cover in batch.covers}
    words = [f"{capital(kind)}: {said}." for kind, said in batch.kind.covers.items() if kind != "fleece"]
    return f" {' '.join(words)}" if words and not named & {"mesh", "net"} else ""


def _gaps_said(batch: Batch, imperial: bool) -> str:
    """30 cm apart each way; a single row has no gap beside it."""
    space = batch.kind.space
    if batch.amount.rows == 1:
        return f"{length(space.in_row_cm.usual, imperial)} apart"
    return spacing(space.in_row_cm.usual, space.row_gap_cm.usual, imperial)


def _drill(plan: Plan, batch: Batch, when: When) -> Job:
    sum_, kind, imperial = batch.amount, batch.kind, plan.garden.imperial
    rows = sum_.rows or 1
    run = f"{length(sum_.length_m * 100, imperial)} long, " if sum_.length_m else ""
    gap = f"{length(kind.space.row_gap_cm.usual, imperial)} apart, " if rows > 1 else ""
    deep = depth(kind.seed.depth_mm.usual, imperial) if kind.seed else ""
    if sum_.unit == "m2":
        grams = weight(sum_.seed_g, imperial)
        how = f"Rake level. {grams} of seed, scattered evenly; rake in {deep} deep and water."
        if kind.seed and kind.seed.depth_mm.usual >= DIBBED_MM:  # no rake buries a bean
            apart = length(kind.space.row_gap_cm.usual, imperial)
            how = f"Rake level. {grams} of seed in drills {apart} apart, {deep} deep. Water."
        over = area(sum_.area_m2, imperial)
        what = name_of(batch)
        return _job(batch, "Scatter", when.day, over, what, batch.bed, how=how, why=when.why, caution=SEED_CARE)
    how = f"Rake level and water first. {run}{gap}{deep} deep."
    if sum_.seed_g:
        how += f" {weight(sum_.seed_g, imperial)} of seed."
    how += _wanted_over(batch)
    thin = kind.space.in_row_cm.usual
    if kind.drill and kind.drill.seeds_per_m and kind.drill.seeds_per_m.usual > 150 / thin:
        how += f" When up, thin to {length(thin, imperial)}."
    return _job(
        batch,
        "Drill",
        when.day,
        count(rows, "row"),
        name_of(batch),
        batch.bed,
        how=how,
        why=when.why,
        caution=SEED_CARE,
    )


def _set(plan: Plan, batch: Batch, when: When) -> Job:
    sum_, imperial = batch.amount, plan.garden.imperial
    rows = f"{count(sum_.rows, 'row')} of {sum_.per_row}, " if sum_.rows else ""
    gaps = _gaps_said(batch, imperial)
    bought = f" {weight(sum_.kg * 1000, imperial)} of {sum_.unit}." if sum_.kg else ""
    how = f"Rake level first. {rows}{gaps}.{bought}"
    amount = f"{number(sum_.places)} {_unit(sum_.places, sum_.unit)}"
    return _job(batch, "Set", when.day, amount, name_of(batch), batch.bed, how=how, why=when.why)


def _harvest(batch: Batch, verb: Verb, when: When) -> Job:
    kind, last = batch.kind, batch.stages.last_pick
    how = (
        f"Picking goes on until about {day_month(last.day)}." if verb == "Pick" and last and last.day > when.day else ""
    )
    if kind.dries_days:
        how = f"Then dry under cover for {span_of_days(kind.dries_days.low, kind.dries_days.high)}."
    if kind.forces_days:
        days = span_of_days(kind.forces_days.low, kind.forces_days.high)
        how = f"Trim the leaves, pot the roots upright and force in the dark, in the warm, for {days}."
    return _job(batch, verb, when.day, "", name_of(batch), batch.bed, how=how, why=when.why)


def _standing(batch: Batch, day: date) -> Stay | None:
    """The batch's own stay in trays on a day."""
    return next((s for s in batch.stays if s.container and s.start <= day < s.end), None)


def _carry_day(batch: Batch) -> date | None:
    """The day on which a batch leaves the place where it came up; None if it stays there."""
    light = batch.stages.to_light
    if light is None or batch.open_left:
        return None
    before, after = _standing(batch, light.day - timedelta(days=1)), _standing(batch, light.day)
    return light.day if before and after and before.where != after.where else None


def trays_said(plan: Plan, batch: Batch, day: date) -> str:
    """What stands of a batch on a day: 2 trays; in a tray that is counted at another batch, so many cells of it."""
    trays = sum(s.trays for s in plan.counted.get(batch.name, ()) if s.start <= day < s.end)
    moved = any(w and w.day <= day for w in (batch.stages.prick_out, batch.stages.pot_on))
    guest = None if moved else _guest_part(plan, batch)
    said = [count(trays, "tray")] if trays else []
    return " and ".join([*said, count(guest.cells, "cell")] if guest else said)


def _guest_part(plan: Plan, batch: Batch) -> TrayPart | None:
    """Its cells in another batch's tray."""
    shared = plan.shared.get(batch.name)
    if shared is None or shared.owner == batch.name:
        return None
    return next(part for part in shared.parts if part.batch == batch.name)


def _in_whose_tray(plan: Plan, batch: Batch) -> str:
    shared = plan.shared.get(batch.name)
    if shared is None or shared.owner == batch.name or shared.owner not in plan.batches:
        return ""
    return f"In the tray of {name_of(plan.batches[shared.owner])}."


def _host(plan: Plan, batch: Batch, day: date) -> Batch | None:
    """The main crop between whose rows a batch is planted."""
    if batch.rank == "main":
        return None
    for other in plan.schedule.batches:
        if other.bed == batch.bed and any(
            s.rank == "main" and s.part is not None and s.start <= day < s.end for s in other.stays
        ):
            return other
    return None


def _unit(places: int, unit: str) -> str:
    return unit.removesuffix("s") if places == 1 else unit
