"""What the tool would question about a plan: each with its reason and its cure, few enough to be read."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, timedelta
from typing import Literal

from sowsheet.catalogue.records import Germination, Kind
from sowsheet.garden.records import Bed, Place
from sowsheet.growth.emergence import days_at
from sowsheet.growth.when import When
from sowsheet.schedule.batches import Placed
from sowsheet.schedule.context import Context
from sowsheet.schedule.drafts import WINDOW_SLACK_DAYS
from sowsheet.schedule.raising import (
    attended_sowing,
    exists,
    germinates_at,
    germinating_place,
    ready_day,
    stands_too_long,
)
from sowsheet.schedule.records import Batch, BedPart, Exposed, StageKey, Stay
from sowsheet.schedule.windows import Opening, bolting, holding, is_tender, openings, risk_accepted
from sowsheet.site.climate import bed_mean_c, chance_colder_after, in_spring, place_mean_c, safe_from, spring_mean
from sowsheet.site.hotbed import cold_from

HALF = 0.5
SEASON_DAYS = 45
SPRING_DAYS = 90  # a window that opens so near the last frost is one that waits for the cold to go
OVER_LONG_DAYS = 42
CERTAIN = 0.9
FAR_DAYS = 28
SLACK_DAYS = 7  # a tray a few days past its time is no reason to disturb a plan


def doubts_of_batch(ctx: Context, batch: Batch) -> None:
    """Everything that is asked of a batch by itself."""
    if batch.open_left:
        return
    _germination(ctx, batch)
    _bolting(ctx, batch)
    _missing_place(ctx, batch)
    _ready(ctx, batch)
    _raised_too_long(ctx, batch)
    _wants_glass(ctx, batch)
    _unattended(ctx, batch)
    if batch.stages.plant is not None and batch.bed and not _too_late(ctx, batch) and not _night_in_bed(ctx, batch):
        _window(ctx, batch)


def doubts_of_bed(ctx: Context, bed: Bed, placed: Sequence[Placed], batches: Sequence[Batch]) -> None:
    """What is asked of crops that follow each other: room, and picking lost."""
    _occupied(ctx, bed, batches)
    for p, batch in zip(placed, batches, strict=True):
        _over_before_season(ctx, p, batch)
        _picking_lost(ctx, p, batch)
        _never_picked(ctx, p, batch)
        _over_long(ctx, p, batch)
        _picked_other(ctx, p, batch)


def doubts_of_winter(ctx: Context, batches: Sequence[Batch]) -> None:
    """Hardy plants in beds through nights that kill them, those that stand the same in one doubt: asked only where a
    record can answer."""
    say = ctx.words.say
    risks = {b.name: risk for b in batches if (risk := _winter_risk(b)) is not None}
    lost = [b for b in batches if risks.get(b.name, 0.0) > ctx.garden.house.risk and not b.maybe]
    for stands in sorted({b.kind.cold.in_bed_c for b in lost}, reverse=True):
        these = [b for b in lost if b.kind.cold.in_bed_c == stands]
        crops = dict.fromkeys(say("doubt.crop in bed", crop=b.kind.name, bed=b.bed) for b in these)
        often = ctx.words.years_in(max(risks[b.name] for b in these), "winter")
        ctx.doubt(
            "killed_in_winter",
            these[0].name,
            say("doubt.killed in winter.what", crops=ctx.words.listed(list(crops))),
            say("doubt.killed in winter.why", c=stands, often=often),
            say("doubt.killed in winter.cure"),
            these[0].spot,
        )


def _winter_risk(batch: Batch) -> float | None:
    """The chance that a hardy plant, rooted, meets a winter's night in its bed that kills it; None: not asked, or not
    known."""
    rooted = [c for c in batch.cold if c.stage == "in the bed" and c.stands_c == batch.kind.cold.in_bed_c]
    return rooted[-1].later_chance if rooted and not is_tender(batch.kind) else None


def _over_before_season(ctx: Context, placed: Placed, batch: Batch) -> None:
    """`since` says that it stands on the season's first day."""
    plant, clear = batch.stages.plant, batch.stages.clear
    if plant is None or clear is None or clear.basis == "grower" or not placed.draft.chosen_by_grower:
        return
    if plant.day < ctx.season.start and clear.day <= ctx.season.start:
        say, name = ctx.words.say, batch.kind.name
        ctx.doubt(
            "over_before",
            batch.name,
            say("doubt.over before.what", crop=name, day=ctx.day(plant.day), end=ctx.day(clear.day)),
            say("doubt.over before.why", start=ctx.day(ctx.season.start)),
            say("doubt.over before.cure", word=batch.word),
            batch.spot,
        )


def _germination(ctx: Context, batch: Batch) -> None:
    germination, sow = batch.kind.germination, batch.stages.sow
    if germination is None or (sow is None and batch.stages.plant is None):
        return
    if batch.raised == "tray":
        if sow is None or not batch.route:
            temp = _shelf_temp(ctx, batch)
            if temp is not None:
                _germination_doubt(ctx, batch, temp, "shelf")
            return
        place = _place(ctx, batch.route[0])
        temp = place_mean_c(ctx.climate, place, sow.day) if place else None
        if temp is not None and (not germinates_at(germination, temp) or _at_its_limit(germination, temp)):
            _germination_doubt(ctx, batch, temp, "place", place=batch.route[0])
    elif batch.raised == "drill" and batch.stages.sow is not None:
        temp = bed_mean_c(ctx.climate, ctx.where(batch.bed), batch.stages.sow.day)
        if temp is not None and (batch.stages.up is None or temp < germination.min_c):
            _germination_doubt(ctx, batch, temp, "ground", bed=batch.bed)


def _at_its_limit(germination: Germination, temp_c: float) -> bool:
    """So near the warmest that seed bears, and so far above what it likes, that few come up."""
    return temp_c > germination.max_c - 1 and temp_c > germination.best_high_c + 4


def _shelf_temp(ctx: Context, batch: Batch) -> float | None:
    """How warm it is where a batch would have to germinate, about the day on which it would be sown."""
    plant, tray = batch.stages.plant, batch.kind.tray
    days = round(tray.up_to_planting_days.usual) if tray else 0
    day = plant.day - timedelta(days=days) if plant else ctx.season.start
    return place_mean_c(ctx.climate, germinating_place(ctx.along(batch.asked), batch.kind, day), day)


def _germination_doubt(
    ctx: Context, batch: Batch, temp: float, where: Literal["shelf", "place", "ground"], **named: str
) -> None:
    g, words = batch.kind.germination, ctx.words
    if g is None:
        return
    hot = temp > g.best_high_c
    slow = days_at(g, temp)
    near = min(abs(temp - g.min_c), abs(temp - g.max_c)) < 1
    degrees = words.fixed(temp, 1 if near else 0)
    limits = {"least": g.min_c, "most": g.max_c, "low": g.best_low_c, "high": g.best_high_c}
    why = words.say("doubt.germination.why", **limits)
    if slow is not None and not hot:
        why = words.say("doubt.germination.why slow", **limits, c=degrees, n=round(slow))
    doubt = "germination too hot" if hot else "germination too cold"
    ctx.doubt(
        "germination_too_hot" if hot else "germination_too_cold",
        batch.name,
        words.say(f"doubt.{doubt}.what.{where}", c=degrees, crop=batch.kind.name, **named),
        why,
        words.say(f"doubt.{doubt}.cure.{'drill' if batch.raised == 'drill' else 'tray'}"),
        batch.spot,
    )


def _bolting(ctx: Context, batch: Batch) -> None:
    sow = batch.stages.sow
    found = None if sow is None else bolting(ctx, batch.kind, sow.day)
    if sow is None or found is None:
        return
    say, until = ctx.words.say, ctx.day(found.until)
    near = (sow.day - found.start).days <= SEASON_DAYS  # nobody sows celeriac in December because January bolts
    ctx.doubt(
        "bolts",
        batch.name,
        say("doubt.bolts.what", crop=batch.kind.name, day=ctx.day(sow.day)),
        found.why,
        say("doubt.bolts.cure near", start=ctx.day(found.start), until=until)
        if near
        else say("doubt.bolts.cure", until=until),
        batch.spot,
    )


def _missing_place(ctx: Context, batch: Batch) -> None:
    """Trays in a place that is not there at that time of the year."""
    for stay in batch.stays:
        where = _place(ctx, stay.where) if stay.container else None
        days = (stay.start, stay.end - timedelta(days=1))
        gone = None if where is None else next((day for day in days if not exists(ctx, where, day)), None)
        if where is not None and gone is not None:
            ctx.doubt(
                "no_place",
                batch.name,
                ctx.words.say("doubt.no place.what", place=where.name, day=ctx.day(gone), crop=batch.kind.name),
                ctx.words.say("doubt.no place.why"),
                ctx.words.say("doubt.no place.cure"),
                batch.spot,
            )
            return


def doubts_of_places(ctx: Context, batches: Sequence[Batch]) -> None:
    """Trays where it may get too cold for them: one doubt for all that stand in a place."""
    stages: tuple[StageKey, ...] = ("growing on", "hardening off")
    for place in ctx.garden.places:
        for stage in stages:
            found = [(b, c) for b in batches for c in b.cold if (c.where, c.stage) == (place.name, stage)]
            cold = [(b, c, c.chance) for b, c in found if c.chance is not None and c.chance > c.accepted]
            if cold and not all(b.open_left for b, *_ in cold):
                _too_cold_for_trays(ctx, place, stage, cold)


def _too_cold_for_trays(
    ctx: Context, place: Place, stage: StageKey, cold: Sequence[tuple[Batch, Exposed, float]]
) -> None:
    batch, stay, chance = max(cold, key=lambda c: c[2])
    say, crops = ctx.words.say, ctx.words.listed(list(dict.fromkeys(b.kind.name for b, *_ in cold)))
    safe = [c.safe_from for _, c, _ in cold if c.safe_from is not None and c.safe_from > cold_from(place, c.start)]
    code = "hardened_too_cold" if stage == "hardening off" else "bench_too_cold"
    key = "doubt.hardened too cold" if stage == "hardening off" else "doubt.bench too cold"
    ctx.doubt(
        code,
        batch.name,
        say(f"{key}.what", place=place.name, crops=crops),
        _why_too_cold(ctx, place, batch, stay, chance),
        say(f"{key}.cure until", day=ctx.day(max(safe))) if safe else say(f"{key}.cure"),
        batch.spot,
    )


def _why_too_cold(ctx: Context, place: Place, batch: Batch, stay: Exposed, chance: float) -> str:
    """What a place is held at; else how often, and on which side of a day, nights are too cold for the softest."""
    words = ctx.words
    if place.held_at_c is not None:
        held, stands = (words.temp(c, place.in_fahrenheit) for c in (place.held_at_c, stay.stands_c))
        return words.say("doubt.cold trays.why held", held=held, stands=stands)
    start = cold_from(place, stay.start)
    late = (chance_colder_after(ctx.climate, stay.night_c, start) or 0.0) > stay.accepted  # never in autumn
    side = "after" if late else "before"
    where = " outdoors" if stay.night_c != stay.stands_c else ""
    often = words.years_in(chance, "spring" if late else "winter" if in_spring(ctx.climate, stay.end) else "autumn")
    day = ctx.day(start if late else stay.end)
    c = round(stay.night_c, 1)
    return words.say(f"doubt.cold trays.why {side}{where}", crop=batch.kind.name, c=c, day=day, often=often)


def _ready(ctx: Context, batch: Batch) -> None:
    plant, ready, holds = batch.stages.plant, batch.stages.ready, batch.stages.holds
    if plant is None:
        return
    if batch.raised == "tray" and ready is None and batch.stages.sow is None:
        return
    if ready is not None and plant.day < ready.day:
        say, when = ctx.words.say, ctx.day(ready.day)
        ctx.doubt(
            "not_ready",
            batch.name,
            say("doubt.not ready.what", crop=batch.kind.name, day=ctx.day(plant.day)),
            say("doubt.not ready.why", ready=when),
            say("doubt.not ready.cure", n=(ready.day - plant.day).days, ready=when),
            batch.spot,
        )
    elif holds is not None:
        sure, late = (plant.day - holds.day).days, (plant.high - holds.day).days
        if sure > SLACK_DAYS or late > FAR_DAYS:  # a bed that may come free some weeks late is every follower's lot
            _waits(ctx, batch)


def _raised_too_long(ctx: Context, batch: Batch) -> None:
    """Sown so early, to be ready on the day that was written, that its trays stand through the dark months."""
    up, ready = batch.stages.up, batch.stages.ready
    if batch.raised != "tray" or up is None or ready is None or not stands_too_long(batch.kind, up.day, ready.day):
        return
    longest = batch.kind.tray.up_to_planting_days.high if batch.kind.tray else 0.0
    say = ctx.words.say
    ctx.doubt(
        "raised_too_long",
        batch.name,
        say("doubt.raised too long.what", crop=batch.kind.name, n=(ready.day - up.day).days),
        say("doubt.raised too long.why", day=ctx.day(up.day), n=longest),
        say("doubt.raised too long.cure"),
        batch.spot,
    )


def _wants_glass(ctx: Context, batch: Batch) -> None:
    """A kind of which only plantings under glass are known, in an open bed."""
    plant, windows = batch.stages.plant, batch.kind.windows
    if plant is None or not batch.bed or ctx.under_glass(batch.bed) or not windows:
        return
    if all(window.under_glass for window in windows):
        ctx.doubt(
            "wants_glass",
            batch.name,
            ctx.words.say("doubt.wants glass.what", crop=batch.kind.name, bed=batch.bed),
            ctx.words.say("doubt.wants glass.why"),
            _other_kind(ctx, batch, plant.day) or ctx.words.say("doubt.wants glass.cure"),
            batch.spot,
        )


def _waits(ctx: Context, batch: Batch) -> None:
    plant, holds = batch.stages.plant, batch.stages.holds
    if plant is None or holds is None:
        return
    late = max(plant.day, plant.high)
    say, sure = ctx.words.say, plant.day > holds.day
    day, until = ctx.day(plant.day if sure else late), ctx.day(holds.day)
    ctx.doubt(
        "waits_too_long",
        batch.name,
        say("doubt.waits too long.what", crop=batch.kind.name),
        say("doubt.waits too long.why" if sure else "doubt.waits too long.why maybe", day=day, holds=until),
        say("doubt.waits too long.cure", n=(late - holds.day).days) if sure else say("doubt.waits too long.cure maybe"),
        batch.spot,
    )


def _unattended(ctx: Context, batch: Batch) -> None:
    """Seedlings that show when nobody is there: a doubt only for a day the grower wrote that another day mends."""
    sow, up = batch.stages.sow, batch.stages.up
    if batch.raised != "tray" or sow is None or up is None or sow.basis != "grower" or batch.series:
        return
    if ctx.attended(up.day):
        return
    better = attended_sowing(ctx.along(batch.asked), batch.kind, sow.day)
    if better is not None:
        ctx.doubt(
            "up_unattended",
            batch.name,
            ctx.words.say("doubt.up unattended.what", crop=batch.kind.name, day=ctx.day(up.day)),
            ctx.words.say("doubt.up unattended.why"),
            ctx.words.say("doubt.up unattended.cure", day=ctx.day(better)),
            batch.spot,
        )


def _window(ctx: Context, batch: Batch) -> None:
    """Planted outside its windows."""
    plant, glass = batch.stages.plant, ctx.under_glass(batch.bed)
    if plant is None:
        return
    found = openings(ctx, batch.kind, batch.raised, glass, plant.day)
    covered = bool(batch.covers)
    near = timedelta(days=WINDOW_SLACK_DAYS)
    if not found or any((o.fleece_start if covered else o.start) - near <= plant.day <= o.until + near for o in found):
        return
    before = [o for o in found if o.until < plant.day]
    after = [o for o in found if o.start > plant.day]
    shut = before[-1] if before else None
    opens = after[0] if after else None
    if opens is not None and (shut is None or plant.day - shut.until >= opens.start - plant.day):
        _too_early(ctx, batch, plant.day, opens)
    elif shut is not None:
        _shut(ctx, batch, plant.day, shut)


def _too_early(ctx: Context, batch: Batch, day: date, opens: Opening) -> None:
    say, name, start = ctx.words.say, batch.kind.name, ctx.day(opens.start)
    raising = _longest_raising(batch.kind)
    item_bare = (
        not batch.covers
        and batch.raised == "tray"
        and batch.stages.plant is not None
        and batch.stages.plant.basis == "grower"
    )
    if opens.fleece_start <= day:
        cure = say("doubt.too early.cure fleece", day=start)
    elif item_bare and opens.fleece_start - timedelta(days=raising) <= day and _sown_fits(ctx, batch, day, opens):
        ctx.doubt(
            "meant_sown",
            batch.name,
            say("doubt.meant sown.what", crop=name, day=ctx.day(day)),
            say("doubt.too early.why", day=start),
            say("doubt.meant sown.cure", day=ctx.file_words.day_in(day, ctx.season.year)),
            batch.spot,
        )
        return
    else:
        cure = say("doubt.too early.cure", day=start)
    cure = _other_kind(ctx, batch, day) or cure
    far = (opens.fleece_start - day).days > SEASON_DAYS
    spring = spring_mean(ctx.climate, 0.0, opens.start)
    cold = spring is not None and abs((opens.start - spring).days) < SPRING_DAYS
    early = "season" if far else "safe" if cold else "time"
    ctx.doubt(
        "too_early",
        batch.name,
        say(f"doubt.too early.what.{batch.raised}.{early}", crop=name, day=ctx.day(day)),
        say("doubt.too early.why", day=start),
        cure,
        batch.spot,
    )


def _sown_fits(ctx: Context, batch: Batch, day: date, opens: Opening) -> bool:
    """Whether a tray sown on a day would be ready before a window shuts."""
    return ready_day(ctx.along(batch.asked), batch.kind, day) <= opens.until


def _shut(ctx: Context, batch: Batch, day: date, shut: Opening) -> None:
    cure = "doubt.window shut.cure chosen" if _chosen(batch) else "doubt.window shut.cure"
    ctx.doubt(
        "window_shut",
        batch.name,
        ctx.words.say("doubt.window shut.what", day=ctx.day(day), crop=batch.kind.name),
        ctx.words.say("doubt.window shut.why", day=ctx.day(shut.until)),
        _other_kind(ctx, batch, day) or ctx.words.say(cure),
        batch.spot,
    )


def _other_kind(ctx: Context, batch: Batch, day: date) -> str:
    """The cure where another kind of the crop, raised alike, goes in on that day; "" where none does."""
    glass, covered = ctx.under_glass(batch.bed), bool(batch.covers)
    for kind in ctx.crop(batch.kind.crop).kinds:
        suits = any(window.under_glass == glass for window in kind.windows)
        other = kind.key != batch.kind.key and kind.usually == batch.raised and suits
        if other and holding(ctx, kind, batch.raised, glass, day, covered):
            return ctx.words.say("doubt.write kind", crop=kind.name)
    return ""


def _chosen(batch: Batch) -> bool:
    """Whether the grower wrote the day it goes in, or it stands between another crop."""
    return batch.rank == "between" or (batch.stages.plant is not None and batch.stages.plant.basis == "grower")


def _longest_raising(kind: Kind) -> int:
    if kind.tray is None:
        return 0
    slowest = max((days for _, days in kind.germination.days_up), default=0.0) if kind.germination else 0.0
    return round(kind.tray.up_to_planting_days.high + min(slowest, 14))


def _night_in_bed(ctx: Context, batch: Batch) -> bool:
    """Tender plants in the bed while a killing night is still likely; True when that was said.

    Where frost is next to certain the date is no planting date at all: the window says so better.
    """
    plant, words = batch.stages.plant, ctx.words
    if plant is None:
        return False
    if not is_tender(batch.kind):
        return _cold_spring_in_bed(ctx, batch, plant.day)
    stands = batch.kind.cold.in_bed_c - ctx.climate.warmer_nights_c(ctx.where(batch.bed))
    above = batch.stages.up.day if batch.raised == "drill" and batch.stages.up else plant.day
    risk = chance_colder_after(ctx.climate, stands, above)
    accepted = risk_accepted(ctx, ctx.under_glass(batch.bed))
    safe = safe_from(ctx.climate, stands, accepted, above)
    near = timedelta(days=WINDOW_SLACK_DAYS)
    if risk is None or safe is None or not accepted < risk < CERTAIN or above + near >= safe:
        return False
    ctx.doubt(
        "planted_too_cold",
        batch.name,
        words.say("doubt.planted too cold.what", crop=batch.kind.name, day=ctx.day(plant.day)),
        words.say("doubt.planted too cold.why", c=round(stands, 1), often=words.years_in(risk, "spring")),
        words.say("doubt.planted too cold.cure", day=ctx.day(safe)),
        batch.spot,
    )
    return True


def _cold_spring_in_bed(ctx: Context, batch: Batch, plant: date) -> bool:
    """Hardy plants that go out while a spring still brings nights too cold for them: where a record can tell."""
    stays = (c for c in batch.cold if c.stage == "in the bed" and (c.spring_chance or 0.0) > c.accepted)
    stay = next(stays, None)
    near = timedelta(days=WINDOW_SLACK_DAYS)
    if stay is None or stay.spring_chance is None or stay.safe_from is None or plant + near >= stay.safe_from:
        return False
    words, often = ctx.words, ctx.words.years_in(stay.spring_chance, "spring")
    ctx.doubt(
        "planted_too_cold",
        batch.name,
        words.say("doubt.planted too cold.what hardy", crop=batch.kind.name, bed=batch.bed, day=ctx.day(plant)),
        words.say("doubt.planted too cold.why hardy", c=stay.stands_c, often=often),
        words.say("doubt.planted too cold.cure hardy", day=ctx.day(stay.safe_from)),
        batch.spot,
    )
    return True


def _too_late(ctx: Context, batch: Batch) -> bool:
    """Over before there is anything to pick; not where it is a spring's frost, which is to be waited for."""
    plant, first, clear = batch.stages.plant, batch.stages.first_pick, batch.stages.clear
    if plant is None or first is not None or clear is None or clear.basis == "grower":
        return False
    frost = batch.kind.harvest.ends_with == "frost"
    spring = in_spring(ctx.climate, plant.day) and in_spring(ctx.climate, clear.day)
    if (frost and spring) or batch.kind.stands_years is not None or batch.kind.use != "food":
        return False
    say, day = ctx.words.say, ctx.day(plant.day)
    ends = "frost" if frost else "bolting" if batch.kind.harvest.ends_with == "bolting" else "season"
    glass = frost and batch.kind.wants_glass and not ctx.under_glass(batch.bed)
    ctx.doubt(
        "too_late",
        batch.name,
        say(f"doubt.too late.what.{'frost' if frost else 'season'}", crop=batch.kind.name, day=day),
        say(f"doubt.too late.why.{ends}", day=ctx.day(clear.day)),
        say("doubt.too late.cure glass" if glass else "doubt.too late.cure"),
        batch.spot,
    )
    return True


def _occupied(ctx: Context, bed: Bed, batches: Sequence[Batch]) -> None:
    """Main against main in the same part of a bed at one time."""
    spans = [(b, _bed_span(b)) for b in batches if b.rank == "main"]
    known = [(b, s) for b, s in spans if s is not None]
    for n, (one, a) in enumerate(known):
        for other, b in known[n + 1 :]:
            first, second, x, y = (one, other, a, b) if a[0] <= b[0] else (other, one, b, a)
            if y[0] < x[1] and x[0] < y[1] and _overlap(one.part, other.part):
                _taken(ctx, bed, first, second, x[1], y[0])


def _taken(ctx: Context, bed: Bed, first: Batch, second: Batch, free: date, wanted: date) -> None:
    say, till = ctx.words.say, ctx.file_words.day_in(wanted, ctx.season.year)
    ctx.doubt(
        "occupied",
        second.name,
        say("doubt.occupied.what", bed=bed.name, crop=first.kind.name, next=second.kind.name),
        say("doubt.occupied.why", crop=first.kind.name, day=ctx.day(free)),
        say("doubt.occupied.cure", day=ctx.day(free), word=first.word, till=till),
        second.spot,
    )


def _bed_span(batch: Batch) -> tuple[date, date] | None:
    stays: list[Stay] = [s for s in batch.stays if s.part is not None]
    return (stays[0].start, stays[-1].end) if stays else None


def _overlap(one: BedPart | None, other: BedPart | None) -> bool:
    hair = 1.0
    if one is None or other is None:
        return False
    along = min(one.along_end_cm, other.along_end_cm) - max(one.along_start_cm, other.along_start_cm)
    across = min(one.across_end_cm, other.across_end_cm) - max(one.across_start_cm, other.across_start_cm)
    return along > hair and across > hair


def _picking_lost(ctx: Context, placed: Placed, batch: Batch) -> None:
    """More than half of the picking lost to the next crop; not where the grower wrote the end himself."""
    draft, plant = placed.draft, placed.draft.plant
    clear = draft.clear
    if plant is None or clear is None or draft.item.till is not None or draft.kind.harvest.by == "stands":
        return
    own = draft.uncut
    if own.first is None or own.last is None or own.last.day <= own.first.day:
        return
    lost = (own.last.day - max(clear.day, own.first.day)) / (own.last.day - own.first.day)
    if clear.day < own.last.day and lost > HALF:
        say, first, last = ctx.words.say, ctx.day(own.first.day), ctx.day(own.last.day)
        ctx.doubt(
            "picking_lost",
            batch.name,
            say(f"doubt.picking lost.what.{_share_key(lost)}", crop=draft.kind.name, bed=batch.bed),
            say("doubt.picking lost.why", first=first, last=last, clear=ctx.day(clear.day), why=clear.why),
            say("doubt.picking lost.cure"),
            batch.spot,
        )


def _never_picked(ctx: Context, placed: Placed, batch: Batch) -> None:
    """Cleared, because the grower wrote so, before there is anything to pick."""
    draft, own, clear = placed.draft, placed.draft.uncut, batch.stages.clear
    if batch.kind.use != "food" or own.first is None or clear is None or batch.stages.first_pick is not None:
        return
    if draft.item.till is not None or draft.kind.harvest.by == "stands":
        say, first = ctx.words.say, ctx.day(own.first.day)
        ctx.doubt(
            "never_picked",
            batch.name,
            say("doubt.never picked.what", crop=batch.kind.name, bed=batch.bed),
            say("doubt.never picked.why", first=first, clear=ctx.day(clear.day), why=clear.why),
            say("doubt.never picked.cure"),
            batch.spot,
        )


def _picked_other(ctx: Context, placed: Placed, batch: Batch) -> None:
    """Wanted for picking from a day on which it cannot be picked."""
    want, first, clear = placed.draft.wanted, batch.stages.first_pick, batch.stages.clear
    if want is None:
        return
    late = first is None or (first.day - want).days > SLACK_DAYS
    if late or (clear is not None and clear.day <= want):
        ctx.doubt(
            "picked_other",
            batch.name,
            ctx.words.say("doubt.picked other.what", crop=batch.kind.name, bed=batch.bed, day=ctx.day(want)),
            _why_other(ctx, first, clear),
            ctx.words.say("doubt.picked other.cure"),
            batch.spot,
        )


def _why_other(ctx: Context, first: When | None, clear: When | None) -> str:
    if first is None:
        return ctx.words.say("doubt.picked other.why never")
    if clear is None:
        return ctx.words.say("doubt.picked other.why", first=ctx.day(first.day))
    return ctx.words.say("doubt.picked other.why until", first=ctx.day(first.day), clear=ctx.day(clear.day))


def _share_key(share: float) -> Literal["all", "most", "three quarters", "half"]:
    """Which phrase tells how much is lost."""
    if share > 0.95:
        return "all"
    return "three quarters" if 0.7 <= share <= 0.8 else "most" if share > 0.8 else "half"


def _over_long(ctx: Context, placed: Placed, batch: Batch) -> None:
    """Kept in the bed by a written `till` long after there is anything to pick."""
    draft, plant, clear = placed.draft, placed.draft.plant, placed.draft.clear
    if plant is None or clear is None or draft.item.till is None:
        return
    own = draft.uncut
    if own.last is not None and (clear.day - own.last.high).days > OVER_LONG_DAYS:
        ctx.doubt(
            "over_long_before",
            batch.name,
            ctx.words.say("doubt.over long before.what", crop=draft.kind.name, bed=batch.bed, day=ctx.day(clear.day)),
            ctx.words.say("doubt.over long before.why", day=ctx.day(own.last.day)),
            ctx.words.say("doubt.over long before.cure"),
            batch.spot,
        )


def _place(ctx: Context, name: str) -> Place | None:
    return next((p for p in ctx.garden.places if p.name == name), None)
