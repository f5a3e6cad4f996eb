"""The whole plan, dated: garden and catalogue in, batches with stages, stays and doubts out. A pure function."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from datetime import date

import msgspec

from sowsheet.catalogue.records import Crop
from sowsheet.garden.records import Bed, Garden
from sowsheet.growth.clock import Clock
from sowsheet.growth.handbook import Handbook
from sowsheet.growth.warmth import Warmth
from sowsheet.growth.when import When
from sowsheet.reading.mistakes import Mistake, example, said
from sowsheet.reading.planline import Dated, Item, PlanLine, Step
from sowsheet.schedule.batches import Placed, batch_of, places_of
from sowsheet.schedule.cold import with_cold
from sowsheet.schedule.context import Context
from sowsheet.schedule.doubts import doubts_of_batch, doubts_of_bed, doubts_of_places, doubts_of_winter
from sowsheet.schedule.drafts import Draft, Slot, as_written, cut, draft, planted_on, ready_by, sown_on
from sowsheet.schedule.parts import between_places, share_out, split_along, whole
from sowsheet.schedule.records import Batch, Doubt, Gap, Schedule
from sowsheet.schedule.series import numbered, series_days, series_of
from sowsheet.schedule.slip import with_slips
from sowsheet.site.almanac import on_or_after, span_of
from sowsheet.site.climate import Climate, climate_of
from sowsheet.site.season import Season, season_of
from sowsheet.site.weather import Weather
from sowsheet.words.language import Language


def schedule(
    garden: Garden, crop: Callable[[str], Crop], clock: Clock | None = None, weather: Weather | None = None
) -> tuple[Schedule, list[Mistake]]:
    """Date a garden's plan. `crop` looks a catalogue key up; `clock` is chosen by what is known of the weather unless
    one is given; `weather` are the daily readings that the garden file names.

    Lines with mistakes that only the catalogue and the site can see are left out of the schedule.
    """
    ctx = context_of(garden, crop, clock, weather)
    batches: list[Batch] = []
    gaps: list[Gap] = []
    taken: set[str] = set()
    for bed in garden.beds:
        if bed.plan is not None:
            placed, rests = _bed(ctx, bed, bed.plan)
            named = [with_cold(ctx, b) for b in _named(ctx, bed.name, placed, taken)]
            doubts_of_bed(ctx, bed, placed, named)
            batches += named
            gaps += rests
    also = [p for line in garden.also for p in _also(ctx, line)]
    for p in also:
        _tell_no_work_days(ctx, "", p.draft)
    batches += [with_cold(ctx, b) for b in _named(ctx, "", also, taken)]
    for batch in batches:
        doubts_of_batch(ctx, batch)
    doubts_of_places(ctx, batches)
    doubts_of_winter(ctx, batches)
    batches = with_slips(ctx, batches)
    doubts = _once_a_series(ctx.doubts, batches)
    return Schedule(ctx.season, ctx.climate, tuple(batches), tuple(gaps), doubts, tuple(ctx.told)), ctx.mistakes


def context_of(
    garden: Garden, crop: Callable[[str], Crop], clock: Clock | None = None, weather: Weather | None = None
) -> Context:
    """A garden with its climate, clock and season: what every step of the schedule asks for."""
    climate = climate_of(garden, weather)
    season = season_of(garden.season, garden.site.latitude)
    return Context(garden, climate, clock or clock_of(climate, season, garden.words), season, crop)


def clock_of(climate: Climate, season: Season, words: Language) -> Clock:
    """The growth clock where temperatures are known; else handbook days. It gives its reasons in a language."""
    handbook = Handbook(climate, words)
    if climate.outside is None:
        return handbook
    return Warmth(handbook, season.start)


def _once_a_series(doubts: Sequence[Doubt], batches: Sequence[Batch]) -> tuple[Doubt, ...]:
    """Of the sowings of a series only the first is doubted for the same reason."""
    series = {b.name: b.series or b.name for b in batches}
    first = {(d.code, series.get(d.batch, d.batch)): d for d in reversed(doubts)}
    return tuple(d for d in doubts if first[d.code, series.get(d.batch, d.batch)] is d)


def _bed(ctx: Context, bed: Bed, line: PlanLine) -> tuple[list[Placed], list[Gap]]:
    """A bed's line, a step at a time: each begins when the one in front is out."""
    placed: list[Placed] = []
    gaps: list[Gap] = []
    front, free, first = ctx.season.start, None, True
    for n, step in enumerate(line.steps):
        before = front
        if step.rest:
            start, till = _rest(ctx, step, front, free)
            gaps.append(Gap(bed.name, step.rest, start, till.day if till else None))
            free = till or free
            front = max(front, till.day) if till else front
            continue
        made = _step(ctx, bed, step, Slot(bed, front, free, first))
        if made is None:  # what follows hangs on it: one mistake is enough
            break
        first = False
        # of a series the first counts: what follows is not before the one in front, and never before the season
        goes_in = (p.draft.plant.day for p in made if p.draft.plant and p.draft.number <= 1)
        front = max(max(goes_in, default=front), ctx.season.start)
        following = next((s for s in line.steps[n + 1 :]), None)
        made = _cut_by_next(ctx, made, _next_start(ctx, following, front))
        if following is not None and _stands_on(ctx, made):
            placed += made
            break
        made += _between(ctx, bed, step, made, before)
        _tell(ctx, bed, made, placed)
        placed += made
        free = _free(made, free)
    return placed, _closed(gaps, placed)


def _tell(ctx: Context, bed: Bed, made: Sequence[Placed], before: Sequence[Placed]) -> None:
    """What falls after the season, and how to shorten what stands in front of it; days on which nobody is there."""
    for p in made:
        plant, item = p.draft.plant, p.draft.item
        if plant is None:
            continue
        if plant.day > ctx.season.end:
            ctx.tell(bed.name, _after_season(ctx, p.draft.kind.name, plant.day, before), item.spot)
        _tell_no_work_days(ctx, bed.name, p.draft)


def _tell_no_work_days(ctx: Context, bed: str, made: Draft) -> None:
    """Days within the season that the grower wrote for sowing or planting, and on which nobody is there."""
    words, crop = ctx.words, made.kind.name
    in_bed = made.plant if made.chosen_by_grower or made.number == 1 else None
    for key, when in (("sown", made.raising.sow if made.raising else None), ("in bed", in_bed)):
        if when is None or when.basis != "grower" or when.day < ctx.season.start or ctx.attended(when.day):
            continue
        named = words.day_named(when.day) if when.day.year == ctx.season.year else words.day_long(when.day)
        short = words.say(f"told.no work day in list.{key}", crop=crop, day=named)
        sentence = words.say(f"told.no work day.{key}", crop=crop, day=words.day_long(when.day))
        ctx.tell(bed, sentence, made.item.spot, "no work day", short)


def _after_season(ctx: Context, crop: str, day: date, before: Sequence[Placed]) -> str:
    """What falls after the season, with the words that would clear what stands last before it within the season."""
    goes_in = ctx.words.day_month_year(day)
    ends = [(b.draft.clear.day, b.draft.item) for b in before if b.draft.clear is not None]
    last = max(ends, key=lambda e: e[0], default=None)
    if last is None or last[1].till is not None or last[0] <= ctx.season.end:
        return ctx.words.say("told.after season", crop=crop, day=goes_in)
    month = ctx.file_words.months[ctx.season.end.month - 1]
    return ctx.words.say("told.after season shorten", crop=crop, day=goes_in, word=last[1].word, month=month)


def _rest(ctx: Context, step: Step, front: date, free: When | None) -> tuple[date, When | None]:
    """When a rest begins and what ends it. Its dates are read from the crop in front; what is past when that is out
    is past: the rest is then shorter, or none."""
    out = free.day if free else front
    written = ctx.date_of(step.start, front) if step.start is not None else None
    start = max(out, written) if written else out
    if step.till is None:
        return start, None
    day = ctx.date_of(step.till, written or front)
    if day is None or day <= out:
        return start, None
    return start, When(day, day, day, "grower", ctx.words.say("why.written", text=f"till {step.till.text}"))


def _closed(gaps: list[Gap], placed: Sequence[Placed]) -> list[Gap]:
    """Gaps end at the latest where the next crop goes in."""
    starts = sorted(p.draft.plant.day for p in placed if p.draft.plant)

    def end(gap: Gap) -> date | None:
        following = next((s for s in starts if s >= gap.start), None)
        return min((d for d in (gap.end, following) if d is not None), default=None)

    closed = [msgspec.structs.replace(gap, end=end(gap)) for gap in gaps]
    return [gap for gap in closed if gap.end is None or gap.end > gap.start]


def _step(ctx: Context, bed: Bed, step: Step, slot: Slot) -> list[Placed] | None:
    """The crops of a step side by side, each in its part; None when one of them was refused."""
    sets = [_drafts(ctx, item, slot) for item in step.items]
    if any(s is None or not s for s in sets):
        return None
    drafts = [s for s in sets if s]
    pieces = [_pieces(s) for s in drafts]
    wanted = [(item, s[0].kind) for item, s in zip(step.items, drafts, strict=True)]
    parts = share_out(ctx, bed, wanted, [max(p, default=0) + 1 for p in pieces])
    if parts is None:
        return None
    placed: list[Placed] = []
    for made, piece_of, part in zip(drafts, pieces, parts, strict=True):
        cut_up = split_along(part, max(piece_of, default=0) + 1)
        placed += [Placed(d, cut_up[n]) for d, n in zip(made, piece_of, strict=True)]
    return placed


def _drafts(ctx: Context, item: Item, slot: Slot) -> list[Draft] | None:
    """One draft, or several for a series. None when the line was refused."""
    ctx = ctx.along(item.route)
    if item.series is None:
        made = draft(ctx, item, slot)
        return None if made is None else [made]
    return series_of(ctx, item, slot, item.series)


def _pieces(drafts: Sequence[Draft]) -> list[int]:
    """Which piece of its part each planting of a series takes: as many as stand at once, each used again when free."""
    ends: list[date] = []  # the day each piece comes free
    piece_of: list[int] = []
    for made in drafts:
        start = made.plant.day if made.plant else date.min
        piece = next((n for n, free in enumerate(ends) if free <= start), len(ends))
        ends[piece : piece + 1] = [made.end or date.max]
        piece_of.append(piece)
    return piece_of


def _next_start(ctx: Context, step: Step | None, front: date) -> date | None:
    """The first day on which the next step's crops go in, where the grower wrote one."""
    if step is None or step.rest:
        return None
    written = [d for item in step.items if (d := _written_start(item)) is not None]
    if len(written) < len(step.items):
        return None
    # a day that does not exist is refused when the step itself is read
    days = [(d, on_or_after(ctx.climate.as_written, d.date, front)) for d in written]
    return min((ctx.work_day(d, day, front) for d, day in days if isinstance(day, date)), default=None)


def _written_start(item: Item) -> Dated | None:
    if item.series is not None:
        return item.series.start
    return item.planted or (item.sown if item.direct else None)


def _stands_on(ctx: Context, made: Sequence[Placed]) -> bool:
    """Whether a perennial is followed by a crop without its end or the next one's start being written; refused."""
    lasting = next((p.draft for p in made if p.draft.kind.stands_years is not None and p.draft.clear is None), None)
    if lasting is None or lasting.kind.stands_years is None:
        return False
    years, word = lasting.kind.stands_years, lasting.item.word
    span = said("crop page.range.year", low=years.low, high=years.high, n=years.high)
    what = said("mistake.schedule.stands on.what", crop=lasting.kind.name, years=span)
    ctx.refuse(lasting.item.spot, what, said("mistake.schedule.stands on.cure", word=word))
    return True


def _cut_by_next(ctx: Context, made: list[Placed], start: date | None) -> list[Placed]:
    """Cleared on the day the next crop goes in, if there is something to pick by then."""
    if start is None:
        return made
    return [msgspec.structs.replace(p, draft=_cut_draft(ctx, p.draft, start)) for p in made]


def _cut_draft(ctx: Context, made: Draft, start: date) -> Draft:
    why, first, clear = ctx.words.say("why.next crop"), made.harvest.first, made.clear
    if made.kind.stands_years is not None and clear is None:
        return cut(ctx, made, When(start, start, start, "grower", why, for_next=True))
    ripe = made.kind.use == "green manure" or (first is not None and first.day < start)
    kept = clear is not None and clear.basis == "grower" and not _till_holds(made, clear.day, start)
    if clear is None or kept or clear.day <= start or not ripe:
        return made
    return cut(ctx, made, When(start, min(clear.low, start), start, "grower", why, for_next=True))


def _till_holds(made: Draft, clear: date, start: date) -> bool:
    """Whether the next crop goes in within the days that its end was written with: till mid-May, then on the 14th."""
    span = span_of(made.item.till.date, clear) if made.item.till is not None else None
    return span is not None and span[0] <= start <= span[1]


def _between(ctx: Context, bed: Bed, step: Step, hosts: Sequence[Placed], front: date) -> list[Placed]:
    """What is planted among a step's crops: with them unless dated, gone when they are cleared."""
    placed = []
    plants = [p.draft.plant for p in hosts if p.draft.plant]
    gone = max((p.draft.clear for p in hosts if p.draft.clear), key=lambda w: w.day, default=None)
    part = hosts[0].part if len(hosts) == 1 else whole(bed)
    for item in step.between:
        host_day = min((p.day for p in plants), default=ctx.season.start)
        undated = bool(plants) and not (item.planted or item.sown or item.since or item.picked or item.there)
        if item.series is not None:
            cure = said("mistake.schedule.every between.cure", word=item.word)
            ctx.refuse(item.spot, said("mistake.schedule.every between.what"), cure)
            continue
        slot, along = Slot(bed, min(front, host_day), None, first=False), ctx.along(item.route)
        with_host = When(host_day, host_day, host_day, "grower", ctx.words.say("why.with host"))
        made = planted_on(along, item, slot, with_host) if undated else draft(along, item, slot)
        if made is None:
            continue
        if gone is not None and made.plant is not None and made.plant.day >= gone.day:
            day = ctx.whole_day(made.plant.day)
            what = said("mistake.schedule.host gone.what", crop=made.kind.name, day=day)
            ctx.refuse(item.spot, what, said("mistake.schedule.host gone.cure", day=ctx.whole_day(gone.day)))
            continue
        if gone is not None and (made.clear is None or made.clear.day > gone.day):
            made = cut(
                ctx, made, When(gone.day, gone.low, gone.high, gone.basis, ctx.words.say("why.cleared with host"))
            )
        hosted = sum(places_of(p) for p in hosts)
        places = between_places(ctx, item, made.kind, part or whole(bed), hosted)
        if places is not None:
            placed.append(Placed(made, part, "between", places))
    return placed


def _free(made: Sequence[Placed], before: When | None) -> When | None:
    """When all of a step is out."""
    clears = [p.draft.clear for p in made if p.draft.clear]
    if not clears:
        return before
    last = max(clears, key=lambda w: w.day)
    return When(last.day, max(w.low for w in clears), max(w.high for w in clears), last.basis, last.why)


def _also(ctx: Context, line: PlanLine) -> Iterator[Placed]:
    """A line of `sow also`: raised in trays, given no bed."""
    slot = Slot(None, ctx.season.start, None, first=True)
    for step in line.steps:
        for item in step.items:
            for made in _also_drafts(ctx, item, slot):
                yield Placed(made, None)


def _also_drafts(ctx: Context, item: Item, slot: Slot) -> list[Draft]:
    ctx = ctx.along(item.route)
    if item.amount is None:
        what = said("mistake.schedule.amount unsaid.what", crop=item.word)
        ctx.refuse(item.spot, what, said("mistake.schedule.amount unsaid.cure", word=item.word))
        return []
    if item.series is None:
        made = _also_draft(ctx, item, slot)
        return [made] if made else []
    days = series_days(ctx, item, slot, item.series) or []
    text = ctx.words.say("why.every", n=item.series.every_days)
    written = days[:1] if item.series.start is not None else []
    sows = [*written, *(ctx.back(d) for d in days[len(written) :])]
    found = [sown_on(ctx, item, slot, When(d, d, d, "grower", text)) for d in sows]
    return numbered(found)


def _also_draft(ctx: Context, item: Item, slot: Slot) -> Draft | None:
    written = item.sown or item.planted
    if written is None:
        cure = example(f"{item.word} mid-March")
        ctx.refuse(item.spot, said("mistake.schedule.sowing unsaid"), cure)
        return None
    day = ctx.work_day_of(written, slot.front)
    if day is None:
        return None
    if item.sown is None and not item.bare:
        return ready_by(ctx, item, slot, day, written)
    return sown_on(ctx, item, slot, as_written(ctx, day, written))


def _named(ctx: Context, bed: str, placed: Sequence[Placed], taken: set[str]) -> list[Batch]:
    """Batches with names that stay the same when other lines are edited: bed, crop, number in that bed."""
    totals: Counter[str] = Counter()
    batches: list[Batch] = []
    for p in placed:
        crop = p.draft.kind.crop
        totals[crop] += 1
        number = f" {totals[crop]}" if totals[crop] > 1 or p.draft.number else ""
        name = f"{bed} {crop}{number}".strip()
        while name in taken:  # the bed "A spring" with onions, beside the bed "A" with spring onions
            name += "*"
        taken.add(name)
        batches.append(batch_of(ctx, name, bed, p))
    return batches
