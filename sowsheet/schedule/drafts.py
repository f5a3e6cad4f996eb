"""One crop of a plan line with its dates: when it is sown, goes into the bed and is picked, left to itself."""

from __future__ import annotations

from datetime import date, timedelta

import msgspec

from sowsheet.catalogue.records import Kind, Raised
from sowsheet.garden.records import Bed, Where, is_under_glass
from sowsheet.growth.clock import latest_start
from sowsheet.growth.when import When
from sowsheet.reading.mistakes import said
from sowsheet.reading.planline import Dated, Item
from sowsheet.schedule.context import Context
from sowsheet.schedule.harvest import Harvest, grown, harvest, last_pick, on_a_work_day
from sowsheet.schedule.raising import Raising, raise_from, sow_for, stands_too_long
from sowsheet.schedule.windows import (
    Opening,
    bolting,
    holding,
    is_tender,
    kinds_meant,
    openings,
    otherwise,
    safe_opening,
)
from sowsheet.site.almanac import on_or_after, span_of, window_of_month
from sowsheet.site.climate import bed_mean_c

NEAR_WINDOW_DAYS = 30
WINDOW_SLACK_DAYS = 7  # windows hang on average dates; nobody looks twice at a few days
LONGEST_RAISING_DAYS = 330
WARM_ENOUGH_C = 12.0  # a day's mean in which tender plants go on growing (common practice, no source)


class Draft(msgspec.Struct, frozen=True, kw_only=True):
    """A batch in the making. `clear` is where it would end by itself, until the next crop or the grower cuts it."""

    item: Item
    kind: Kind
    raised: Raised
    plant: When | None = None
    raising: Raising | None = None
    harvest: Harvest = Harvest(None, None)
    uncut: Harvest = Harvest(None, None)  # the harvest before the next crop or the grower ends it
    clear: When | None = None
    there: bool = False
    chosen_by_grower: bool = False  # the day it goes into the bed was written
    number: int = 0  # its place in a series, from 1
    wanted: date | None = None  # the day from which it is to be picked

    @property
    def end(self) -> date | None:
        """The day its part of the bed comes free."""
        return None if self.clear is None else self.clear.day


class Slot(msgspec.Struct, frozen=True):
    """What a crop finds: its bed (None: `sow also`), the date in front of it, and when the bed comes free."""

    bed: Bed | None
    front: date
    free: When | None
    first: bool

    @property
    def where(self) -> Where:
        """Where the bed lies."""
        return "" if self.bed is None else self.bed.where

    @property
    def under_glass(self) -> bool:
        """Whether the bed lies in a house or a frame."""
        return is_under_glass(self.where)


def draft(ctx: Context, item: Item, slot: Slot) -> Draft | None:
    """A crop's dates. None, and refused, when what was written cannot be."""
    if item.there or _is_there_unsaid(item, slot):
        return _there(ctx, item, slot)
    if item.since is not None:
        return _since(ctx, item, slot, item.since)
    if item.planted is not None:
        day = ctx.work_day_of(item.planted, slot.front)
        return None if day is None else _into_bed(ctx, item, slot, day, item.planted)
    if item.sown is not None:
        return _sown(ctx, item, slot, item.sown)
    if item.picked is not None:
        return _picked(ctx, item, slot, item.picked)
    return as_soon_as_free(ctx, item, slot)


def _since(ctx: Context, item: Item, slot: Slot, written: Dated) -> Draft | None:
    """Standing since the last such day before the season."""
    day, start = ctx.date_before(written, ctx.season.start), ctx.season.start
    if day is None:
        return None
    if day < start:
        return _into_bed(ctx, item, slot, day, written)
    what = said("mistake.schedule.since.what", text=written.text, start=ctx.whole_day(start))
    ctx.refuse(written.spot, what, said("mistake.schedule.since.cure", word=item.word, text=written.text))
    return None


def planted_on(ctx: Context, item: Item, slot: Slot, plant: When, meant: Kind | None = None) -> Draft | None:
    """A crop of a series that goes into its bed on a day; its kind is told by the day unless one is meant."""
    day = plant.day
    kind = meant or _kind_for(ctx, item, slot, day)
    raised = _raised(ctx, item, kind)
    if raised is None:
        return None
    raising = _raise_by(ctx, kind, day) if raised == "tray" else None
    return finished(ctx, slot, Draft(item=item, kind=kind, raised=raised, plant=plant, raising=raising))


def sown_on(ctx: Context, item: Item, slot: Slot, sow: When) -> Draft | None:
    """A crop of `sow also`: raised in trays, and given no bed."""
    kind = _kind_sown(ctx, item, slot, sow.day)
    return _without_bed(ctx, item, kind, raise_from(ctx, kind, sow))


def ready_by(ctx: Context, item: Item, slot: Slot, day: date, written: Dated) -> Draft | None:
    """A crop of `sow also` that is wanted by a day: raised till it is ready. Where it goes then nobody has said."""
    kind = _kind_for(ctx, item, slot, day)
    raising = _raise_by(ctx, kind, day)
    if raising is not None:
        why = ctx.words.say("why.wanted by", why=raising.ready.why, text=written.text)
        raising = msgspec.structs.replace(raising, ready=msgspec.structs.replace(raising.ready, why=why))
    return _without_bed(ctx, item, kind, raising)


def _without_bed(ctx: Context, item: Item, kind: Kind, raising: Raising | None) -> Draft | None:
    if kind.tray is None:
        what = said("mistake.schedule.no trays.what", crop=kind.name)
        ctx.refuse(item.spot, what, said("mistake.schedule.no trays.cure"))
        return None
    return Draft(item=item, kind=kind, raised="tray", raising=raising)


def _is_there_unsaid(item: Item, slot: Slot) -> bool:
    """`chard till late April` as the first crop of a bed: no word of when it was planted."""
    undated = not (item.since or item.planted or item.sown or item.picked or item.free or item.series)
    return slot.first and slot.free is None and undated and item.till is not None and not item.direct


def _there(ctx: Context, item: Item, slot: Slot) -> Draft | None:
    start = ctx.season.start
    till = ctx.work_day_of(item.till, start) if item.till else None
    if item.till is not None and till is None:
        return None
    kinds = [k for k in _kinds(ctx, item, slot) if _can_stand(ctx, k, slot, start)]
    if not item.there and (not kinds or _cropped_by(ctx, item, slot, till or start)):
        _refuse_till(ctx, item, bool(kinds))
        return None
    kind = kinds[0] if kinds else _kinds(ctx, item, slot)[0]
    if not kinds and is_tender(kind):
        what = said("mistake.schedule.killed.what", crop=kind.name, day=ctx.whole_day(start))
        ctx.refuse(item.spot, what, said("mistake.schedule.killed.cure", word=item.word))
        return None
    first = ctx.clock.first_pick(grown(kind), kind.usually, None, start)
    if first is None or first.basis != "season":
        first = When(start, start, start, "grower", ctx.words.say("why.there already"))
    elif first.day > start:
        first = on_a_work_day(ctx, first)
    last = last_pick(ctx, kind, first)
    made = Draft(
        item=item,
        kind=kind,
        raised=kind.usually,
        harvest=Harvest(first, last),
        clear=_clear(ctx, kind, last),
        there=True,
    )
    return _until_till(ctx, made, start)


def _refuse_till(ctx: Context, item: Item, can_stand: bool) -> None:
    till = item.till.text if item.till else ""
    if can_stand:
        what = said("mistake.schedule.till.which", word=item.word, till=till)
    else:
        what = said("mistake.schedule.till.not there", crop=item.word, day=ctx.words.day_month(ctx.season.start))
    ctx.refuse(item.spot, what, said("mistake.schedule.till.cure", word=item.word, till=till))


def _can_stand(ctx: Context, kind: Kind, slot: Slot, day: date) -> bool:
    """Whether a planting of the year before would still stand on a day."""
    if kind.stands_years is not None:
        return True
    for o in openings(ctx, kind, kind.usually, slot.under_glass, day):
        if o.start >= day:
            continue
        planted = min(o.until, day - timedelta(days=1))
        found = harvest(ctx, kind, kind.usually, None, planted, slot.where)
        if found.last is not None and found.last.day > day and (found.first is None or planted < day):
            return True
    return False


def _cropped_by(ctx: Context, item: Item, slot: Slot, day: date) -> bool:
    """Whether this season's sowing could be picked by a day."""
    for kind in _kinds(ctx, item, slot):
        for o in openings(ctx, kind, kind.usually, slot.under_glass, ctx.season.start):
            if o.until < ctx.season.start:
                continue
            planted = max(o.start, ctx.season.start)
            found = harvest(ctx, kind, kind.usually, None, planted, slot.where)
            if found.first is not None and found.first.day <= day:
                return True
    return False


def _into_bed(ctx: Context, item: Item, slot: Slot, day: date, written: Dated) -> Draft | None:
    """A crop whose day in the bed was written; it never moves."""
    kind = _kind_for(ctx, item, slot, day)
    raised = _raised(ctx, item, kind)
    if raised is None:
        return None
    plant = as_written(ctx, day, written)
    raising = None
    if raised == "tray":
        if item.sown is not None:
            sow = ctx.work_day_of(item.sown, day - timedelta(days=300))
            if sow is None or not _sown_before(ctx, item.sown, sow, day):
                return None
            raising = raise_from(ctx, kind, as_written(ctx, sow, item.sown))
        else:
            raising = _raise_by(ctx, kind, day)
    made = Draft(
        item=item,
        kind=kind,
        raised=raised,
        plant=plant,
        raising=raising,
        chosen_by_grower=True,
    )
    return finished(ctx, slot, made)


def _sown_before(ctx: Context, sown: Dated, sow: date, plant: date) -> bool:
    """Whether a written sowing can belong to a written planting; refused where it cannot."""
    if 0 < (plant - sow).days <= LONGEST_RAISING_DAYS:
        return True
    days = {"sow": ctx.whole_day(sow), "plant": ctx.whole_day(plant)}
    what = said("mistake.schedule.sown after.what", text=sown.text, **days)
    ctx.refuse(sown.spot, what, said("mistake.schedule.sown after.cure"))
    return False


def _sown(ctx: Context, item: Item, slot: Slot, written: Dated) -> Draft | None:
    """Sown on a written day: straight into the bed, or in trays and planted when ready, free and safe."""
    probe = _kinds(ctx, item, slot)[0]
    raised = _raised(ctx, item, probe)
    if raised is None:
        return None
    if raised != "tray":
        day = ctx.work_day_of(written, slot.front)
        return None if day is None else _into_bed(ctx, item, slot, day, written)
    sow_day = _sowing_year(ctx, item, slot, written)
    if sow_day is None:
        return None
    sow_day = ctx.work_day(written, sow_day)
    kind = _kind_sown(ctx, item, slot, sow_day)
    raising = raise_from(ctx, kind, as_written(ctx, sow_day, written))
    ready = raising.ready.day if raising else sow_day
    free = max(ready, slot.free.day) if slot.free else ready
    soonest = _soonest(ctx, kind, "tray", slot, free, item)
    if soonest is None:
        return Draft(item=item, kind=kind, raised="tray", raising=raising)
    plant = _computed(ctx, soonest.day, soonest.why if soonest.day > ready else ctx.words.say("why.ready"))
    made = Draft(item=item, kind=kind, raised="tray", plant=plant, raising=raising)
    return finished(ctx, slot, made)


def _sowing_year(ctx: Context, item: Item, slot: Slot, written: Dated) -> date | None:
    """The written sowing day of the year in which its plants can follow what stands in front of them."""
    start = ctx.season.start if slot.first or slot.bed is None else slot.front - timedelta(days=300)
    day = ctx.date_of(written, start)
    if day is None or slot.first or slot.free is None or slot.bed is None:
        return day
    kind = _kinds(ctx, item, slot)[0]
    raising = raise_from(ctx, kind, as_written(ctx, day, written))
    if raising is not None and raising.ready.day + timedelta(days=90) < slot.free.low:
        return ctx.date_of(written, day + timedelta(days=1))
    return day


def _picked(ctx: Context, item: Item, slot: Slot, written: Dated) -> Draft | None:
    """Planted as late as it can be and still be picked from a written day."""
    want = ctx.date_of(written, slot.front)
    if want is None:
        return None
    kind, day = planting_in_window(ctx, item, slot, want)
    if day is None:
        day = _planting_for(ctx, kind, slot, item, want)
    raised = _raised(ctx, item, kind)
    if raised is None:
        return None
    if day is None:
        what = said("mistake.schedule.no picking.what", crop=kind.name)
        ctx.refuse(written.spot, what, said("mistake.schedule.no picking.cure"))
        return None
    day = _within_window(ctx, kind, raised, slot, day)
    plant = When(day, day, day, "growth", ctx.words.say("why.to be picked", day=ctx.words.day_in(want, day.year)))
    raising = _raise_by(ctx, kind, day) if raised == "tray" else None
    return finished(ctx, slot, Draft(item=item, kind=kind, raised=raised, plant=plant, raising=raising, wanted=want))


def planting_in_window(ctx: Context, item: Item, slot: Slot, want: date) -> tuple[Kind, date | None]:
    """The latest planting within a window of its kind that is picked by a day; else the usual kind and None."""
    kinds = _kinds(ctx, item, slot)
    for kind in kinds:
        day = _planting_for(ctx, kind, slot, item, want)
        if day is not None and holding(ctx, kind, kind.usually, slot.under_glass, day, item.cover is not None):
            return kind, day
    return otherwise(ctx.crop(item.crop), kinds), None


def _within_window(ctx: Context, kind: Kind, raised: Raised, slot: Slot, day: date) -> date:
    """A work day not after `day`, for what stands once it is ripe not after its window either; not before it opens."""
    found = openings(ctx, kind, raised, slot.under_glass, day)
    opened = [o for o in found if o.start <= day]
    if kind.harvest.by == "stands" and opened and opened[-1].until < day:
        day = opened[-1].until
    back = ctx.back(day)
    return ctx.forward(day) if any(back < o.start <= day for o in found) else back


def _planting_for(ctx: Context, kind: Kind, slot: Slot, item: Item, want: date) -> date | None:
    """The latest planting from which it can be picked by a day; for kinds dated by the year, in their window."""
    raised: Raised = "drill" if item.direct else kind.usually
    if kind.harvest.by == "season":
        before = [o for o in openings(ctx, kind, raised, slot.under_glass, want) if o.start < want]
        return before[-1].start if before else None

    def first(planted: date) -> date:
        found = ctx.clock.first_pick(kind, raised, None, planted, slot.where)
        return found.day if found else date.max

    try:
        return latest_start(first, want)
    except ValueError:
        return None


def as_soon_as_free(ctx: Context, item: Item, slot: Slot) -> Draft | None:
    """No date: into the bed as soon as it is free and safe."""
    free = slot.free.day if slot.free else max(slot.front, ctx.season.start)
    best: tuple[_Soonest, Kind] | None = None
    for kind in _kinds(ctx, item, slot):
        raised = _raised(ctx, item, kind)
        if raised is None:
            return None
        found = _soonest(ctx, kind, raised, slot, free, item)
        if found is not None and (best is None or (found.shut, found.day) < (best[0].shut, best[0].day)):
            best = (found, kind)
    if best is None:
        return _undated(ctx, item, slot)
    soonest, kind = best
    raised = _raised(ctx, item, kind) or kind.usually
    follows = slot.free is not None and soonest.day == slot.free.day
    plant = _computed(ctx, soonest.day, soonest.why)
    if follows and slot.free is not None:
        low, high = min(plant.day, slot.free.low), max(plant.day, slot.free.high)
        plant = msgspec.structs.replace(plant, low=low, high=high)
    made = Draft(item=item, kind=kind, raised=raised, plant=plant)
    if raised == "tray":
        made = msgspec.structs.replace(made, raising=_raise_for_free(ctx, kind, slot, plant, follows))
    return finished(ctx, slot, made)


def _raise_for_free(ctx: Context, kind: Kind, slot: Slot, plant: When, follows: bool) -> Raising | None:
    """Ready by the earliest day the bed may come free if it then waits until the latest; else by the day itself."""
    if follows and slot.free is not None and slot.free.low < plant.day:
        sow = sow_for(ctx, kind, slot.free.low)
        early = raise_from(ctx, kind, sow) if sow else None
        if early is not None and early.holds.day >= max(slot.free.high, plant.day):
            why = ctx.words.say("why.ready early", day=ctx.words.day_in(slot.free.low, plant.day.year))
            return msgspec.structs.replace(early, sow=msgspec.structs.replace(early.sow, why=why))
    return _raise_by(ctx, kind, plant.day)


def _undated(ctx: Context, item: Item, slot: Slot) -> Draft:
    kind = otherwise(ctx.crop(item.crop), _kinds(ctx, item, slot))
    say = ctx.words.say
    ctx.tell(kind.name, say("told.undated", crop=kind.name), item.spot)
    what = say("doubt.undated.what", crop=kind.name)
    ctx.doubt("undated", "", what, say("doubt.undated.why"), say("doubt.undated.cure"), item.spot)
    return Draft(item=item, kind=kind, raised=_raised(ctx, item, kind) or kind.usually)


class _Soonest(msgspec.Struct, frozen=True):
    """A day for going into the bed, why that day, and whether its window has shut by then."""

    day: date
    why: str
    shut: bool = False


def _soonest(ctx: Context, kind: Kind, raised: Raised, slot: Slot, free: date, item: Item) -> _Soonest | None:
    """The first day from `free` on that is safe; None where the site does not know it. A shut window is not waited
    for till next year."""
    found = openings(ctx, kind, raised, slot.under_glass, free)
    if not found:
        return None
    limit = ctx.season.end if free <= ctx.season.end else free + timedelta(days=365)
    for opening in found:
        start = safe_opening(ctx, kind, raised, opening, slot.where, item.cover is not None)
        day = max(free, start)
        if day <= max(opening.until, start) and opening.until >= free and day <= limit:
            later, why = _when_fit(ctx, kind, raised, slot, day, opening.until)
            return _Soonest(later, why or _why_then(ctx, slot, day, free, start, opening))
    near = timedelta(days=WINDOW_SLACK_DAYS)
    if slot.free is not None and any(o.until < free <= o.until + near for o in found):
        return _Soonest(free, ctx.words.say("why.free late"))
    return _Soonest(free, ctx.words.say("why.free shut"), shut=True)


def _when_fit(ctx: Context, kind: Kind, raised: Raised, slot: Slot, day: date, until: date) -> tuple[date, str]:
    """The first day, by weeks, that nothing speaks against, and what spoke against `day`; `day` where there is none."""
    against = _unfit(ctx, kind, raised, slot, day)
    if not against:
        return day, ""
    week = timedelta(days=7)
    later = (day + n * week for n in range(1, (until - day).days // 7 + 1))
    found = next((d for d in later if not _unfit(ctx, kind, raised, slot, d)), None)
    return (day, "") if found is None else (found, against)


def _unfit(ctx: Context, kind: Kind, raised: Raised, slot: Slot, day: date) -> str:
    """What speaks against a day for going into the bed; "" if nothing does. It is our choice: it has to be good."""
    air = ctx.climate.mean_in(slot.where, day) if ctx.climate.outside is not None else None
    if is_tender(kind) and raised == "tray" and air is not None and air < WARM_ENOUGH_C:
        return ctx.words.say("why.sooner.too cool")
    if raised == "set":
        return ""
    raising = _raise_by(ctx, kind, day) if raised == "tray" else None
    sown = day if raised == "drill" else raising.sow.day if raising else None
    if sown is not None and bolting(ctx, kind, sown) is not None:
        return ctx.words.say("why.sooner.bolts")
    if raising is not None and stands_too_long(kind, raising.up.day, raising.ready.day):
        return ctx.words.say("why.sooner.dark")
    ground = bed_mean_c(ctx.climate, slot.where, day)
    cold = raised == "drill" and kind.germination is not None and ground is not None and ground < kind.germination.min_c
    return ctx.words.say("why.sooner.cold ground") if cold else ""


def _why_then(ctx: Context, slot: Slot, day: date, free: date, start: date, opening: Opening) -> str:
    if day == free and slot.free is not None:
        return ctx.words.say("why.free")
    if day > start and slot.free is None:
        return ctx.words.say("why.in window")
    opens = ctx.words.day_in(start, day.year)
    if start <= opening.start:
        return ctx.words.say("why.window opens", day=opens)
    return ctx.words.say("why.fleece at hand" if slot.under_glass else "why.safe", day=opens)


def finished(ctx: Context, slot: Slot, made: Draft) -> Draft | None:
    """A draft with its harvest, and the end the grower wrote. None, and refused, when that day does not exist."""
    if made.plant is None:
        return made
    sown = made.raising.sow.day if made.raising else (made.plant.day if made.raised == "drill" else None)
    found = harvest(ctx, made.kind, made.raised, sown, made.plant.day, slot.where)
    found = _of_later_years(ctx, made, found)
    clear = _clear(ctx, made.kind, found.last or found.killed)
    done = msgspec.structs.replace(made, harvest=found, uncut=found, clear=clear)
    return _until_till(ctx, done, made.plant.day)


def _of_later_years(ctx: Context, made: Draft, found: Harvest) -> Harvest:
    """A perennial's harvest is that of the season, however long it has stood; while it is left to grow it has none,
    which is told."""
    if made.kind.stands_years is None or found.first is None:
        return found
    if found.first.day < ctx.season.start:
        first = ctx.clock.first_pick(grown(made.kind), made.raised, None, ctx.season.start)
        return Harvest(first, last_pick(ctx, made.kind, first) if first else None)
    if found.first.day <= ctx.season.end:
        return found
    about = made.kind.name
    if made.plant is not None:
        about = ctx.words.say("told.planted", crop=about, day=ctx.day(made.plant.day))
    picked = ctx.words.day_month_year(found.first.day)
    ctx.tell(about, ctx.words.say("told.left to grow", day=picked), made.item.spot)
    return Harvest(None, None)


def _until_till(ctx: Context, made: Draft, after: date) -> Draft | None:
    till = made.item.till
    if till is None:
        return made
    day = ctx.work_day_of(till, after)
    if day is None:
        return None
    if day <= after and not made.there:
        days = {"day": ctx.whole_day(day), "plant": ctx.whole_day(after)}
        what = said("mistake.schedule.till too early", text=till.text, **days)
        ctx.refuse(till.spot, what, said("mistake.schedule.later day"))
        return None
    return cut(ctx, made, as_written(ctx, day, till, f"till {till.text}"))


def cut(ctx: Context, made: Draft, clear: When) -> Draft:
    """A draft cleared on a day, whatever its picking would still have given. A green manure is cut on a work day before
    it rests."""
    first, last = made.harvest.first, made.harvest.last
    end = clear.day - timedelta(days=_rest_days(made.kind))
    if made.kind.use == "green manure":
        end = ctx.back(end)
    grew = made.plant is None or end > made.plant.day
    if first is not None and first.day > end and grew and made.kind.use == "green manure":
        first = last = When(end, end, end, clear.basis, clear.why)  # cut young it has done its work too
    elif first is not None and first.day > end:
        first = last = None
    elif last is not None and last.day > end:
        last = When(end, min(last.low, end), end, clear.basis, clear.why)
    return msgspec.structs.replace(made, harvest=Harvest(first, last, made.harvest.killed), clear=clear)


def _clear(ctx: Context, kind: Kind, last: When | None) -> When | None:
    """When the bed comes free: with the last pick, after a green manure's rest; a perennial's not at all."""
    if last is None or kind.stands_years is not None:
        return None
    rest = _rest_days(kind)
    day = ctx.forward(last.day + timedelta(days=rest))
    why = ctx.words.say("why.rests", why=last.why, n=rest) if rest else last.why
    if day != last.day + timedelta(days=rest):
        why = ctx.words.say("why.work day then", why=why)
    spread = timedelta(days=rest)
    return When(day, min(last.low + spread, day), max(last.high + spread, day), last.basis, why)


def _rest_days(kind: Kind) -> int:
    return round(kind.rests_days.usual) if kind.rests_days else 0


def _raise_by(ctx: Context, kind: Kind, day: date) -> Raising | None:
    sow = sow_for(ctx, kind, day)
    return raise_from(ctx, kind, sow) if sow else None


def _kind_sown(ctx: Context, item: Item, slot: Slot, sown: date) -> Kind:
    """The kind that is ready in one of its windows when sown on a day; else the one that is least beside them."""
    kinds = _kinds(ctx, item, slot)
    off: list[tuple[int, Kind]] = []
    for kind in kinds:
        raising = raise_from(ctx, kind, When(sown, sown, sown, "grower", ""))
        if raising is not None:
            if holding(ctx, kind, "tray", slot.under_glass, raising.ready.day, True):
                return kind
            off.append((_days_off(ctx, item, kind, slot, raising.ready.day), kind))
    near = [pair for pair in off if pair[0] <= NEAR_WINDOW_DAYS]
    return min(near, key=lambda pair: pair[0])[1] if near else otherwise(ctx.crop(item.crop), kinds)


def _kinds(ctx: Context, item: Item, slot: Slot) -> tuple[Kind, ...]:
    return kinds_meant(ctx.crop(item.crop), item.kind, slot.under_glass)


def _kind_for(ctx: Context, item: Item, slot: Slot, day: date) -> Kind:
    """The kind whose window holds the day, without fleece if there is one, then with it."""
    kinds = _kinds(ctx, item, slot)
    for fleece in (False, True):
        for kind in kinds:
            raised = "drill" if item.direct else kind.usually
            if holding(ctx, kind, raised, slot.under_glass, day, fleece):
                return kind
    near = [(n, kind) for kind in kinds if (n := _days_off(ctx, item, kind, slot, day)) <= NEAR_WINDOW_DAYS]
    return min(near, key=lambda pair: pair[0])[1] if near else otherwise(ctx.crop(item.crop), kinds)


def _days_off(ctx: Context, item: Item, kind: Kind, slot: Slot, day: date) -> int:
    """How far a day lies outside the kind's nearest window."""
    found = openings(ctx, kind, "drill" if item.direct else kind.usually, slot.under_glass, day)
    return min((max((o.start - day).days, (day - o.until).days) for o in found), default=10_000)


def _raised(ctx: Context, item: Item, kind: Kind) -> Raised | None:
    """How it gets into the bed. None, and refused, when it is not sown direct."""
    if item.direct and kind.drill is None:
        cure = said(f"mistake.schedule.not direct.{'tray' if kind.tray else 'set'}", word=item.word)
        ctx.refuse(item.spot, said("mistake.schedule.not direct.what", crop=kind.name), cure)
        return None
    raised: Raised = "drill" if item.direct else kind.usually
    if item.route and raised != "tray":
        what = said("mistake.schedule.no place.what", crop=kind.name)
        ctx.refuse(item.spot, what, said("mistake.schedule.no place.cure"))
        return None
    return raised


def as_written(ctx: Context, day: date, written: Dated, text: str = "") -> When:
    """A day that the grower wrote, in those words, or that was chosen within them."""
    why = ctx.words.say("why.written", text=text or written.text)
    span = span_of(written.date, day)
    if span is not None and on_or_after(ctx.climate.as_written, written.date, span[0]) != day:
        why = ctx.words.say("why.work day near", why=why)
    return When(day, day, day, "grower", why, window_of_month(written.date, day))


def _computed(ctx: Context, day: date, why: str) -> When:
    moved = ctx.forward(day)
    if moved != day:
        why = ctx.words.say("why.work day", why=why)
    return When(moved, moved, moved, "handbook", why)
