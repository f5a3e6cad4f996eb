"""What the tool would question about a plan: each with its reason and its cure, few enough to be read."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, timedelta

from sowsheet.catalogue.records import Germination, Kind
from sowsheet.garden.records import Bed, Place
from sowsheet.growth.emergence import days_at
from sowsheet.schedule.batches import Placed
from sowsheet.schedule.context import Context
from sowsheet.schedule.drafts import WINDOW_SLACK_DAYS
from sowsheet.schedule.raising import attended_sowing, exists, germinates_at, ready_day, stands_too_long
from sowsheet.schedule.records import Batch, BedPart, Exposed, StageKey, Stay
from sowsheet.schedule.windows import Opening, bolting, holding, is_tender, openings, risk_accepted
from sowsheet.site.climate import bed_mean_c, chance_colder_after, in_spring, place_mean_c, safe_from, spring_mean
from sowsheet.site.hotbed import cold_from
from sowsheet.words.english import count, day_in, listed, years_in

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
    risks = {b.name: risk for b in batches if (risk := _winter_risk(b)) is not None}
    lost = [b for b in batches if risks.get(b.name, 0.0) > ctx.garden.house.risk and not b.maybe]
    for stands in sorted({b.kind.cold.in_bed_c for b in lost}, reverse=True):
        these = [b for b in lost if b.kind.cold.in_bed_c == stands]
        names = listed(list(dict.fromkeys(f"{b.kind.name} in {b.bed}" for b in these)))
        ctx.doubt(
            "killed_in_winter",
            these[0].name,
            f"{names} may be killed by a winter night",
            f"while they stand, a night is colder than {stands:g} °C in "
            f"{years_in(max(risks[b.name] for b in these), 'winter')}",
            "hardier sorts, fleece kept at hand for such nights, or clear them sooner",
            these[0].spot,
        )


def _winter_risk(batch: Batch) -> float | None:
    """The chance that a hardy plant, rooted, meets a winter's night in its bed that kills it; None: not asked, or not
    known."""
    rooted = [c for c in batch.cold if c.stage == "in the bed" and c.stands_c == batch.kind.cold.in_bed_c]
    return rooted[-1].later_chance if rooted and not is_tender(batch.kind) else None


def _year(ctx: Context) -> int:
    return ctx.season.year


def _over_before_season(ctx: Context, placed: Placed, batch: Batch) -> None:
    """`since` says that it stands on the season's first day."""
    plant, clear = batch.stages.plant, batch.stages.clear
    if plant is None or clear is None or clear.basis == "grower" or not placed.draft.chosen_by_grower:
        return
    if plant.day < ctx.season.start and clear.day <= ctx.season.start:
        name = batch.kind.name
        ctx.doubt(
            "over_before",
            batch.name,
            f"{name} of {day_in(plant.day, _year(ctx))} would be over by {day_in(clear.day, _year(ctx))}",
            f"it would not stand on {day_in(ctx.season.start, _year(ctx))}, as `since` says",
            f"write when it is cleared, e.g. `{batch.word} there till …`, or leave it out",
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
                _germination_doubt(ctx, batch, temp, "where it would germinate")
            return
        place = _place(ctx, batch.route[0])
        temp = place_mean_c(ctx.climate, place, sow.day) if place else None
        if temp is not None and (not germinates_at(germination, temp) or _at_its_limit(germination, temp)):
            _germination_doubt(ctx, batch, temp, f"on the {batch.route[0]}")
    elif batch.raised == "drill" and batch.stages.sow is not None:
        temp = bed_mean_c(ctx.climate, ctx.where(batch.bed), batch.stages.sow.day)
        if temp is not None and (batch.stages.up is None or temp < germination.min_c):
            _germination_doubt(ctx, batch, temp, f"in the ground of {batch.bed}")


def _at_its_limit(germination: Germination, temp_c: float) -> bool:
    """So near the warmest that seed bears, and so far above what it likes, that few come up."""
    return temp_c > germination.max_c - 1 and temp_c > germination.best_high_c + 4


def _shelf_temp(ctx: Context, batch: Batch) -> float | None:
    place = next(iter(ctx.along(batch.asked).places_for("germinating")), None)
    day = batch.stages.plant.day if batch.stages.plant else ctx.season.start
    return place_mean_c(ctx.climate, place, day) if place else None


def _germination_doubt(ctx: Context, batch: Batch, temp: float, where: str) -> None:
    g = batch.kind.germination
    if g is None:
        return
    hot = temp > g.best_high_c
    best = f"{g.best_low_c:g} to {g.best_high_c:g} °C"
    slow = days_at(g, temp)
    near = min(abs(temp - g.min_c), abs(temp - g.max_c)) < 1
    degrees = f"{temp:.1f} °C" if near else f"{temp:.0f} °C"
    why = f"it wants {g.min_c:g} to {g.max_c:g} °C, best {best}"
    if slow is not None and not hot:
        why += f"; at {degrees} it takes {slow:.0f} days"
    ctx.doubt(
        "germination_too_hot" if hot else "germination_too_cold",
        batch.name,
        f"{degrees} {where} is too {'hot' if hot else 'cold'} for the seed of {batch.kind.name}",
        why,
        _cure_for_seed(batch, hot),
        batch.spot,
    )


def _cure_for_seed(batch: Batch, hot: bool) -> str:
    if batch.raised == "drill":
        return "sow it at a cooler time" if hot else "sow it later"
    return "germinate it somewhere cooler" if hot else "germinate it somewhere warmer, or sow later"


def _bolting(ctx: Context, batch: Batch) -> None:
    sow = batch.stages.sow
    found = None if sow is None else bolting(ctx, batch.kind, sow.day)
    if sow is None or found is None:
        return
    after = f"after {day_in(found.until, _year(ctx))}"
    near = (sow.day - found.start).days <= SEASON_DAYS  # nobody sows celeriac in December because January bolts
    ctx.doubt(
        "bolts",
        batch.name,
        f"{batch.kind.name} sown {day_in(sow.day, _year(ctx))} is likely to run to seed",
        found.why,
        f"sow it before {day_in(found.start, _year(ctx))} or {after}" if near else f"sow it {after}",
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
                f"the {where.name} is not there on {day_in(gone, _year(ctx))} for {batch.kind.name}",
                "outside its `from` and `until`, and no other place is named for that",
                "name another place, or change its dates",
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
    names = listed(list(dict.fromkeys(b.kind.name for b, *_ in cold)))
    start, year = cold_from(place, stay.start), _year(ctx)
    if place.held_at_c is not None:
        why = f"it is held at {place.held_at_c:g} °C; soft plants stand {stay.stands_c:g} °C"
    else:
        late = (chance_colder_after(ctx.climate, stay.night_c, start) or 0.0) > stay.accepted
        when = f"after {day_in(start, year)}" if late else f"before {day_in(stay.end, year)}"
        often = years_in(chance, "spring" if late else "winter" if in_spring(ctx.climate, stay.end) else "autumn")
        outdoors = " outdoors" if stay.night_c != stay.stands_c else ""
        why = f"{batch.kind.name}: nights colder than {round(stay.night_c, 1):g} °C{outdoors} {when} in {often}"
    if stage == "hardening off":
        code, what = "hardened_too_cold", f"{names} may be killed by frost while they are hardened on the {place.name}"
        cure = "carry them in or cover them on cold nights"
    else:
        code, what = "bench_too_cold", f"the {place.name} may get too cold for {names}"
        cure = "give them a heated or frost-free place, or carry them in or cover them on cold nights"
    safe = [c.safe_from for _, c, _ in cold if c.safe_from is not None and c.safe_from > cold_from(place, c.start)]
    if safe:
        cure += f", until {day_in(max(safe), year)}"
    ctx.doubt(code, batch.name, what, why, cure, batch.spot)


def _ready(ctx: Context, batch: Batch) -> None:
    plant, ready, holds = batch.stages.plant, batch.stages.ready, batch.stages.holds
    if plant is None:
        return
    if batch.raised == "tray" and ready is None and batch.stages.sow is None:
        return
    if ready is not None and plant.day < ready.day:
        ctx.doubt(
            "not_ready",
            batch.name,
            f"{batch.kind.name} will not be ready on {day_in(plant.day, _year(ctx))}",
            f"sown then, the trays are ready about {day_in(ready.day, _year(ctx))}",
            f"sow {count((ready.day - plant.day).days, 'day')} earlier, or plant from {day_in(ready.day, _year(ctx))}",
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
    usual = batch.kind.tray.up_to_planting_days.high if batch.kind.tray else 0.0
    ctx.doubt(
        "raised_too_long",
        batch.name,
        f"{batch.kind.name} would stand {count((ready.day - up.day).days, 'day')} in its tray",
        f"from {day_in(up.day, _year(ctx))} on it is too cool and dark to grow well; {usual:g} days is long for it",
        "plant it later, or raise it somewhere warmer",
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
            f"{batch.kind.name} is grown under glass, and {batch.bed} lies in the open",
            "its plantings and its picking are known for a house, a tunnel or a frame",
            _other_kind(ctx, batch, plant.day) or "give it such a bed, or choose another kind",
            batch.spot,
        )


def _waits(ctx: Context, batch: Batch) -> None:
    plant, holds = batch.stages.plant, batch.stages.holds
    if plant is None or holds is None:
        return
    late = max(plant.day, plant.high)
    sure = plant.day > holds.day
    when = f"on {day_in(plant.day, _year(ctx))}" if sure else f"as late as {day_in(late, _year(ctx))}"
    ctx.doubt(
        "waits_too_long",
        batch.name,
        f"{batch.kind.name} may wait in the tray longer than is good for it",
        f"planted {when}; it holds until about {day_in(holds.day, _year(ctx))}",
        f"sow {count((late - holds.day).days, 'day')} later"
        if sure
        else "sow a second tray a week later, or pot it on",
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
            f"{batch.kind.name} comes up about {day_in(up.day, _year(ctx))}, when nobody is there",
            "seedlings stretch within a day in poor light",
            f"sow on {day_in(better, _year(ctx))}, or have somebody look",
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
    name, year = batch.kind.name, _year(ctx)
    verb = {"tray": "planted out", "drill": "sown direct", "set": "set"}[batch.raised]
    raising = _longest_raising(batch.kind)
    item_bare = (
        not batch.covers
        and batch.raised == "tray"
        and batch.stages.plant is not None
        and batch.stages.plant.basis == "grower"
    )
    if opens.fleece_start <= day:
        cure = f"put fleece over it (`under fleece`), or wait until {day_in(opens.start, year)}"
    elif item_bare and opens.fleece_start - timedelta(days=raising) <= day and _sown_fits(ctx, batch, day, opens):
        ctx.doubt(
            "meant_sown",
            batch.name,
            f"{name} on {day_in(day, year)} is early for the bed, and right for sowing in trays",
            f"it goes out from {day_in(opens.start, year)}",
            f"if that is when you sow, write `sown {day_in(day, year)}`",
            batch.spot,
        )
        return
    else:
        cure = f"wait until {day_in(opens.start, year)}"
    cure = _other_kind(ctx, batch, day) or cure
    far = (opens.fleece_start - day).days > SEASON_DAYS
    spring = spring_mean(ctx.climate, 0.0, opens.start)
    cold = spring is not None and abs((opens.start - spring).days) < SPRING_DAYS
    early = "before it is safe" if cold else "before its time"
    ctx.doubt(
        "too_early",
        batch.name,
        f"{name} {verb} {day_in(day, year)} is {'out of season' if far else early}",
        f"it goes out from {day_in(opens.start, year)}",
        cure,
        batch.spot,
    )


def _sown_fits(ctx: Context, batch: Batch, day: date, opens: Opening) -> bool:
    """Whether a tray sown on a day would be ready before a window shuts."""
    return ready_day(ctx.along(batch.asked), batch.kind, day) <= opens.until


def _shut(ctx: Context, batch: Batch, day: date, shut: Opening) -> None:
    ctx.doubt(
        "window_shut",
        batch.name,
        f"{day_in(day, _year(ctx))} is late for {batch.kind.name}",
        f"the last useful day for it to go in is {day_in(shut.until, _year(ctx))}",
        _other_kind(ctx, batch, day)
        or (
            "plant earlier, or choose a later crop"
            if _chosen(batch)
            else "clear the bed earlier, or choose a later crop"
        ),
        batch.spot,
    )


def _other_kind(ctx: Context, batch: Batch, day: date) -> str:
    """The cure where another kind of the crop, raised alike, goes in on that day; "" where none does."""
    glass, covered = ctx.under_glass(batch.bed), bool(batch.covers)
    for kind in ctx.crop(batch.kind.crop).kinds:
        suits = any(window.under_glass == glass for window in kind.windows)
        other = kind.key != batch.kind.key and kind.usually == batch.raised and suits
        if other and holding(ctx, kind, batch.raised, glass, day, covered):
            return f"write `{kind.name}`, which goes in then"
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
    plant = batch.stages.plant
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
        f"{batch.kind.name} planted {day_in(plant.day, _year(ctx))} may be killed by frost",
        f"colder than {round(stands, 1):g} °C after that in {years_in(risk, 'spring')}",
        f"plant from {day_in(safe, _year(ctx))}, or keep more than fleece at hand on cold nights",
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
    ctx.doubt(
        "planted_too_cold",
        batch.name,
        f"{batch.kind.name} in {batch.bed} from {day_in(plant, _year(ctx))} may be killed by frost",
        f"colder than {stay.stands_c:g} °C in {years_in(stay.spring_chance, 'spring')}",
        f"plant from {day_in(stay.safe_from, _year(ctx))}, or keep more than one fleece at hand on such nights",
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
    before = "the first frost" if frost else "its season is over"
    why = "frost ends it" if frost else {"bolting": "it runs to seed"}.get(batch.kind.harvest.ends_with, "it is over")
    cure = "plant earlier, or choose a quicker crop"
    if frost and batch.kind.wants_glass and not ctx.under_glass(batch.bed):
        cure = "give it a bed under glass, where its season is longer"
    ctx.doubt(
        "too_late",
        batch.name,
        f"{batch.kind.name} planted {day_in(plant.day, _year(ctx))} will not crop before {before}",
        f"{why} about {day_in(clear.day, _year(ctx))}",
        cure,
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
                ctx.doubt(
                    "occupied",
                    second.name,
                    f"{bed.name} is still taken by {first.kind.name} when {second.kind.name} goes in",
                    f"{first.kind.name} stands until {day_in(x[1], _year(ctx))}",
                    f"plant on {day_in(x[1], _year(ctx))}, or write `{first.word} … till {day_in(y[0], _year(ctx))}`",
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
        ctx.doubt(
            "picking_lost",
            batch.name,
            f"{_share_in_words(lost)} of the {draft.kind.name} picking in {batch.bed} is lost",
            f"it could be picked {day_in(own.first.day, _year(ctx))} to {day_in(own.last.day, _year(ctx))}, "
            f"and is cleared {day_in(clear.day, _year(ctx))}: {clear.why}",
            "plant what follows later, or this crop earlier",
            batch.spot,
        )


def _never_picked(ctx: Context, placed: Placed, batch: Batch) -> None:
    """Cleared, because the grower wrote so, before there is anything to pick."""
    draft, own, clear = placed.draft, placed.draft.uncut, batch.stages.clear
    if batch.kind.use != "food" or own.first is None or clear is None or batch.stages.first_pick is not None:
        return
    if draft.item.till is not None or draft.kind.harvest.by == "stands":
        ctx.doubt(
            "never_picked",
            batch.name,
            f"{batch.kind.name} in {batch.bed} is cleared before it can be picked",
            f"it can be picked from {day_in(own.first.day, _year(ctx))}, "
            f"and is cleared {day_in(clear.day, _year(ctx))}: {clear.why}",
            "clear it later, plant it earlier, or choose a quicker crop or kind",
            batch.spot,
        )


def _picked_other(ctx: Context, placed: Placed, batch: Batch) -> None:
    """Wanted for picking from a day on which it cannot be picked."""
    want, first, clear = placed.draft.wanted, batch.stages.first_pick, batch.stages.clear
    if want is None:
        return
    late = first is None or (first.day - want).days > SLACK_DAYS
    if late or (clear is not None and clear.day <= want):
        can = "it cannot be picked then" if first is None else f"it is picked from {day_in(first.day, _year(ctx))}"
        until = f" until {day_in(clear.day, _year(ctx))}" if first is not None and clear is not None else ""
        ctx.doubt(
            "picked_other",
            batch.name,
            f"{batch.kind.name} in {batch.bed} is wanted from {day_in(want, _year(ctx))}",
            f"{can}{until}",
            "write when it is planted instead",
            batch.spot,
        )


def _share_in_words(share: float) -> str:
    if share > 0.95:
        return "all"
    return "three quarters" if 0.7 <= share <= 0.8 else "most" if share > 0.8 else "more than half"


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
            f"{draft.kind.name} in {batch.bed} is over long before {day_in(clear.day, _year(ctx))}",
            f"it can be picked until about {day_in(own.last.day, _year(ctx))}",
            "clear it then, and let something follow",
            batch.spot,
        )


def _place(ctx: Context, name: str) -> Place | None:
    return next((p for p in ctx.garden.places if p.name == name), None)
