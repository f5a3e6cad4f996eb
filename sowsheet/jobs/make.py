"""Jobs from the edges of stays and covers: every date is a stage's own date."""

from __future__ import annotations

import math
from collections.abc import Iterator
from datetime import date, timedelta
from functools import cached_property
from typing import Literal

import msgspec

from sowsheet.catalogue.records import Kind
from sowsheet.garden.defaults import assumed_pots, assumed_seed_tray
from sowsheet.garden.records import Garden, TrayKind
from sowsheet.growth.when import When
from sowsheet.jobs.records import Job, Verb
from sowsheet.schedule.records import Batch, Schedule, Stay
from sowsheet.schedule.windows import is_tender
from sowsheet.trays.grid import filled, grid
from sowsheet.trays.records import SharedTray, Sowing, TrayPart, TrayPlan
from sowsheet.words.language import Language, capital

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

DIBBED_MM = 25.0  # seed that goes so deep is not raked in
# Common care with what every batch of trays or every sowing needs; the label says more.
Care = Literal["", "compost", "seed"]
Move = Literal["Prick out", "Pot on"]


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

    @property
    def words(self) -> Language:
        """The language that jobs are told in."""
        return self.garden.words

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
    return Language.crop_name(batch.word, batch.kind.key if batch.kind_open else "", batch.kind.name, batch.note)


def said(words: Language, job: Job) -> str:
    """The action after its verb: `2 trays of 60: lettuce`, `80 clumps of leeks`. A bed is not named in it."""
    much = _amount_of(words, job)
    match job.verb:
        case "Sow":
            key = "job.said.sow"
        case "Carry":
            key = "job.said.carry" if job.amount else "job.said.carry all"
        case "Harden" if job.to:
            key = "job.said.harden in"
        case "Prick out" | "Pot on" if job.to:
            key = "job.said.into"
        case "Cover":
            key = "job.said.cover"
        case "Pick":
            key = "job.said.pick"
        case _:
            return much
    return words.say(key, said=much, crop=job.what, amount=job.amount, place=words.the(job.to), trays=job.to)


def _amount_of(words: Language, job: Job) -> str:
    """60 lettuce, 80 clumps of leeks, chard"""
    if not job.amount:
        return job.what
    last = job.amount[-1]
    kind = "number" if last.isdecimal() else "unit" if last.isalpha() else "measure"
    many = 1 if job.amount == "1" else 2  # for a language that names what is counted: 1 planta, 40 plantas
    return words.say(f"job.said.{kind}", crop=job.what, amount=job.amount, n=many)


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
    moves: tuple[tuple[Move, str, When | None], ...] = (
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
    stages = batch.stages
    if stages.chit and stages.plant:
        yield _chit(plan, batch, stages.chit, stages.plant)
    if stages.plant and not batch.open_left:
        yield {"tray": _plant, "drill": _drill, "set": _set}[batch.raised](plan, batch, stages.plant)
    yield from _covered(plan, batch)
    if batch.kind.use == "green manure":
        yield from _cut_and_cleared(plan, batch)
        return
    lifted = taken_at_once(batch.kind)
    if stages.first_pick:
        yield _harvest(plan, batch, "Lift" if lifted else "Pick", stages.first_pick)
    at_once = lifted and stages.first_pick and stages.clear and stages.first_pick.day == stages.clear.day
    if stages.clear and not at_once:
        yield _clear(plan, batch, stages.clear, lifted)


def _covered(plan: Plan, batch: Batch) -> Iterator[Job]:
    """Each cover on and off."""
    words, stages, what = plan.words, batch.stages, name_of(batch)
    on, off = stages.cover_on, stages.cover_off
    for cover in batch.covers:
        metres = words.say(f"job.metres.{cover.kind}", length=words.length(cover.metres * 100, plan.garden.imperial))
        if not batch.open_left:
            why = batch.kind.covers.get(cover.kind, "") or (on.why if on else "")
            how = words.say("job.cover")
            yield _job(plan, batch, "Cover", cover.start, metres, what, batch.bed, how=how, why=why)
        how = words.say("job.uncover", cover=metres)
        why = off.why if off else ""
        yield _job(plan, batch, "Uncover", cover.end, "", what, batch.bed, how=capital(how), why=why)


def _cut_and_cleared(plan: Plan, batch: Batch) -> Iterator[Job]:
    """A green manure is cut, or frost kills it; then it rests, and what is left is raked off for the next crop."""
    words, stages, kind, what = plan.words, batch.stages, batch.kind, name_of(batch)
    cut, clear = stages.last_pick, stages.clear
    after = [f"{capital(kind.after_it)}."] if kind.after_it else []
    killed = kind.harvest.ends_with == "frost" and (cut is None or cut.basis == "season")
    if cut and not killed:
        how = [words.say("job.cut.how")]
        if kind.rests_days:
            days = words.span_of_days(kind.rests_days.low, kind.rests_days.high)
            how.append(words.say("job.cut.rests", days=days))
        yield _job(plan, batch, "Cut", cut.day, "", what, batch.bed, how=" ".join([*how, *after]), why=cut.why)
    if clear:
        how = [words.say("job.clear.next")] if clear.for_next else []
        if killed:
            how.append(words.say("job.clear.killed"))
        how += [words.say("job.clear.green manure"), *after]
        job = _job(plan, batch, "Clear", clear.day, "", what, batch.bed, how=" ".join(how), why=clear.why)
        yield msgspec.structs.replace(job, sign="")


def _chit(plan: Plan, batch: Batch, when: When, plant: When) -> Job:
    """Tubers stood in the light to sprout."""
    words, sum_ = plan.words, batch.amount
    bought = [words.weight(sum_.kg * 1000, plan.garden.imperial)] if sum_.kg else []
    amount = ", ".join([*bought, _counted(words, sum_.places, sum_.unit)])
    how = words.say("job.chit", day=words.day_month(plant.day))
    return _job(plan, batch, "Chit", when.day, amount, name_of(batch), "", how=how, why=when.why)


def _clear(plan: Plan, batch: Batch, when: When, lifted: bool) -> Job:
    """Cleared by its own sign, or, whatever the sign, because what follows goes in or the grower wants it so."""
    words = plan.words
    how = words.say("job.clear.lifted" if lifted else "job.clear.how")
    by_sign = when.basis != "grower"
    if when.for_next:
        how = f"{words.say('job.clear.next')} {how}"
    job = _job(plan, batch, "Clear", when.day, "", name_of(batch), batch.bed, how=how, why=when.why)
    return job if by_sign else msgspec.structs.replace(job, sign="")


def taken_at_once(kind: Kind) -> bool:
    """Whether the harvest is lifted: sets, cloves, tubers, what then has to dry or is forced. Squash and beans are
    dried, but picked; what stands for years is never lifted."""
    if kind.stands_years is not None or kind.family in ("Cucurbitaceae", "Fabaceae"):
        return False
    return kind.setting is not None or kind.dries_days is not None or kind.forces_days is not None


def _job(
    plan: Plan,
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
    care: Care = "",
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
        cautions=_cautions(plan.words, batch.kind.cautions.get(stage, ""), care),
        why=why,
        maybe=batch.maybe,
    )


def _cautions(words: Language, own: str, care: Care) -> tuple[str, ...]:
    """The crop's own caution, and the care that its compost needs whatever the crop."""
    general = words.say(f"job.care.{care}") if care else ""
    if own and care == "compost":
        return f"{capital(own).removesuffix('.')}.", general
    return (own or general,) if own or general else ()


def _sow(plan: Plan, batch: Batch, when: When) -> Job:
    words, sowing, guest, sum_ = plan.words, plan.sowings.get(batch.name), _guest_part(plan, batch), batch.amount
    trays = sowing.trays if sowing else sum_.trays
    said = [words.trays_of(trays, sum_.tray_cells, sum_.tray)] if trays else []
    amount = words.listed([*said, words.count(guest.cells, "cell")] if guest else said)
    stay = _standing(batch, when.day)
    where = stay.where if stay else batch.route[0] if batch.route else ""
    how = f"{_seeds_said(plan, batch, trays > 0)} {_shared_said(plan, batch)}".strip()
    return _job(plan, batch, "Sow", when.day, amount, name_of(batch), where, how=how, why=when.why, care="compost")


def _seeds_said(plan: Plan, batch: Batch, own_trays: bool) -> str:
    """88 cells, 5 seeds to a cell, 10 mm deep."""
    words, kind, sum_ = plan.words, batch.kind, batch.amount
    light = kind.germination.light if kind.germination else ""
    if sum_.tray_cells and kind.tray:
        sums = [words.count(sum_.cells, "cell")] if own_trays else []
        sums.append(words.say("job.sow.to a cell", n=kind.tray.seeds_per_cell))
    else:
        sums = [words.say("job.sow.scattered", n=sum_.seeds, number=words.number(sum_.seeds))]
    if kind.seed and light != "wanted":
        sums.append(words.say("job.deep", depth=words.depth(kind.seed.depth_mm.usual, plan.garden.imperial)))
    key = "job.sow.light" if light == "wanted" else "job.sow.dark" if light == "dark" else "job.sow.how"
    return capital(words.say(key, seeds=", ".join(sums)))


def _shared_said(plan: Plan, batch: Batch) -> str:
    """Which rows of a shared tray are this batch's, and whose tray it is."""
    words, shared = plan.words, plan.shared.get(batch.name)
    if shared is None:
        return ""
    kind = plan.kinds.get(shared.tray)
    across = grid(shared.cells, kind.length_cm, kind.width_cm).across if kind else shared.cells
    place = next(f for f in filled(shared) if f.part.batch == batch.name)
    rows = words.rows_of_cells(place.first, place.part.cells, across)
    if shared.owner != batch.name:
        owner = plan.batches.get(shared.owner)
        return words.say("job.sow.guest", crop=name_of(owner) if owner else shared.owner, rows=rows)
    others = [plan.batches[p.batch] for p in shared.parts if p.batch != batch.name and p.batch in plan.batches]
    return words.say("job.sow.owner", rows=rows, crops=words.listed([name_of(b) for b in others]))


def _carry(plan: Plan, batch: Batch, when: When) -> Job:
    words = plan.words
    before = _standing(batch, when.day - timedelta(days=1))
    after = _standing(batch, when.day)
    how = words.say("job.carry.same day")
    up = batch.stages.up
    if up and up.day < when.day:
        how = words.say("job.carry.up", day=words.day_named(up.day))
    return _job(
        plan,
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


def _moved(plan: Plan, batch: Batch, verb: Move, key: str, when: When) -> Job:
    """Pricking out and potting on."""
    words = plan.words
    seedlings, unit = math.ceil(batch.amount.places + batch.amount.spare), batch.amount.unit
    amount = str(seedlings) if unit == "plants" else words.say(f"unit.{unit}", n=seedlings, number=seedlings)
    into = next((move for move in batch.moved_into if move[0] == key), None)
    stay = _standing(batch, when.day)
    return _job(
        plan,
        batch,
        verb,
        when.day,
        amount,
        name_of(batch),
        stay.where if stay else "",
        to=_trays_named(plan, into[1], into[2]) if into else "",
        how=words.say(f"job.how.{verb}"),
        why=when.why,
        care="compost",
    )


def _trays_named(plan: Plan, name: str, trays: int) -> str:
    """2 trays of 60, by the name of the tray kind."""
    words, kind = plan.words, plan.kinds.get(name)
    if kind is None:
        return words.say("job.trays of kind", trays=words.count(trays, "tray"), kind=name)
    return words.trays_of(trays, kind.cells, kind.name)


def _harden(plan: Plan, batch: Batch, when: When) -> Job:
    words = plan.words
    before = _standing(batch, when.day - timedelta(days=1))
    after = _standing(batch, when.day) or before
    moves = before is not None and after is not None and before.where != after.where
    how = [words.say("job.harden.stays")]
    if moves:
        cold = "job.harden.tender" if is_tender(batch.kind) else "job.harden.hardy"
        how = [words.say("job.harden.moves"), words.say(cold)]
    if not batch.bed and batch.stages.ready:
        how.append(words.say("job.harden.no bed", day=words.day_month(batch.stages.ready.day)))
    return _job(
        plan,
        batch,
        "Harden",
        when.day,
        trays_said(plan, batch, when.day),
        name_of(batch),
        before.where if before else "",
        to=after.where if moves and after else "",
        how=" ".join([*how, _in_whose_tray(plan, batch)]).strip(),
        why=when.why,
    )


def _plant(plan: Plan, batch: Batch, when: When) -> Job:
    words, sum_ = plan.words, batch.amount
    amount = words.number(sum_.places) if sum_.unit == "plants" else _counted(words, sum_.places, sum_.unit)
    host = _host(plan, batch, when.day)
    how = [words.say("job.plant.between", crop=name_of(host)) if host else words.say("job.level and water")]
    how.append(_set_out(plan, batch))
    before = _standing(batch, when.day - timedelta(days=1))
    if before:
        trays = trays_said(plan, batch, before.end - timedelta(days=1))
        how.append(words.say("job.plant.fetch", trays=trays, place=words.the(before.where)))
    how += [words.say("job.plant.water"), *_wanted_over(plan, batch)]
    return _job(plan, batch, "Plant", when.day, amount, name_of(batch), batch.bed, how=" ".join(how), why=when.why)


def _wanted_over(plan: Plan, batch: Batch) -> Iterator[str]:
    """The mesh or net that the crop wants from its first day, where the plan names no cover."""
    named = {cover.kind for cover in batch.covers}
    for kind, why in batch.kind.covers.items() if not named & {"mesh", "net"} else ():
        if kind != "fleece":
            yield plan.words.say(f"job.wants.{kind}", why=why)


def _set_out(plan: Plan, batch: Batch) -> str:
    """4 rows of 20, 30 cm apart each way. A single row has no gap beside it."""
    words, space, sum_, imperial = plan.words, batch.kind.space, batch.amount, plan.garden.imperial
    gaps = words.spacing(space.in_row_cm.usual, space.row_gap_cm.usual, imperial)
    if sum_.rows == 1:
        gaps = words.say("job.apart", gap=words.length(space.in_row_cm.usual, imperial))
    if not sum_.rows:
        return capital(words.say("job.set out", gaps=gaps))
    return words.say("job.set out in rows", rows=words.count(sum_.rows, "row"), each=sum_.per_row, gaps=gaps)


def _drill(plan: Plan, batch: Batch, when: When) -> Job:
    words, sum_, kind, imperial = plan.words, batch.amount, batch.kind, plan.garden.imperial
    if sum_.unit == "m2":
        return _scatter(plan, batch, when)
    rows = sum_.rows or 1
    row = []
    if sum_.length_m:
        row.append(words.say("job.drill.long", length=words.length(sum_.length_m * 100, imperial)))
    if rows > 1:
        row.append(words.say("job.apart", gap=words.length(kind.space.row_gap_cm.usual, imperial)))
    if kind.seed:
        row.append(words.say("job.deep", depth=words.depth(kind.seed.depth_mm.usual, imperial)))
    how = [words.say("job.level and water"), capital(words.say("job.drill.rows", row=", ".join(row)))]
    if sum_.seed_g:
        how.append(words.say("job.drill.seed", weight=words.weight(sum_.seed_g, imperial)))
    how += _wanted_over(plan, batch)
    thin = kind.space.in_row_cm.usual
    if kind.drill and kind.drill.seeds_per_m and kind.drill.seeds_per_m.usual > 150 / thin:
        how.append(words.say("job.drill.thin", gap=words.length(thin, imperial)))
    amount, what = words.count(rows, "row"), name_of(batch)
    return _job(plan, batch, "Drill", when.day, amount, what, batch.bed, how=" ".join(how), why=when.why, care="seed")


def _scatter(plan: Plan, batch: Batch, when: When) -> Job:
    """Seed broadcast and raked in; no rake buries a bean: large seed goes into drills."""
    words, sum_, kind, imperial = plan.words, batch.amount, batch.kind, plan.garden.imperial
    key = "job.scatter.in drills" if kind.seed and kind.seed.depth_mm.usual >= DIBBED_MM else "job.scatter.how"
    how = words.say(
        key,
        weight=words.weight(sum_.seed_g, imperial),
        depth=words.depth(kind.seed.depth_mm.usual, imperial) if kind.seed else "",
        gap=words.length(kind.space.row_gap_cm.usual, imperial),
    )
    over, what = words.area(sum_.area_m2, imperial), name_of(batch)
    return _job(plan, batch, "Scatter", when.day, over, what, batch.bed, how=how, why=when.why, care="seed")


def _set(plan: Plan, batch: Batch, when: When) -> Job:
    words, sum_ = plan.words, batch.amount
    how = [words.say("job.level"), _set_out(plan, batch)]
    if sum_.kg:
        how.append(words.say(f"job.bought.{sum_.unit}", weight=words.weight(sum_.kg * 1000, plan.garden.imperial)))
    amount = _counted(words, sum_.places, sum_.unit)
    return _job(plan, batch, "Set", when.day, amount, name_of(batch), batch.bed, how=" ".join(how), why=when.why)


def _harvest(plan: Plan, batch: Batch, verb: Verb, when: When) -> Job:
    words, kind, last = plan.words, batch.kind, batch.stages.last_pick
    how = ""
    if verb == "Pick" and last and last.day > when.day:
        how = words.say("job.harvest.until", day=words.day_month(last.day))
    if kind.dries_days:
        how = words.say("job.harvest.dry", days=words.span_of_days(kind.dries_days.low, kind.dries_days.high))
    if kind.forces_days:
        how = words.say("job.harvest.force", days=words.span_of_days(kind.forces_days.low, kind.forces_days.high))
    return _job(plan, batch, verb, when.day, "", name_of(batch), batch.bed, how=how, why=when.why)


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
    words = plan.words
    trays = sum(s.trays for s in plan.counted.get(batch.name, ()) if s.start <= day < s.end)
    moved = any(w and w.day <= day for w in (batch.stages.prick_out, batch.stages.pot_on))
    guest = None if moved else _guest_part(plan, batch)
    said = [words.count(trays, "tray")] if trays else []
    return words.listed([*said, words.count(guest.cells, "cell")] if guest else said)


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
    return plan.words.say("job.tray of", crop=name_of(plan.batches[shared.owner]))


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


def _counted(words: Language, places: int, unit: str) -> str:
    """1 clump, 1,250 clumps"""
    return words.say(f"unit.{unit}", n=places, number=words.number(places))
