"""The plantings of an "every n weeks": so far apart in the bed, or so far apart in picking."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date, datetime

import msgspec
from dateutil.rrule import DAILY, rrule

from sowsheet.growth.when import When
from sowsheet.reading.mistakes import example, said
from sowsheet.reading.planline import Item, SeriesWords
from sowsheet.schedule.context import Context
from sowsheet.schedule.drafts import Draft, Slot, planted_on, planting_in_window
from sowsheet.schedule.windows import kinds_meant, openings, otherwise


def series_of(ctx: Context, item: Item, slot: Slot, series: SeriesWords) -> list[Draft] | None:
    """The plantings of a series, numbered from 1. None when the line was refused."""
    if series.picking:
        made = _for_pickings(ctx, item, slot, series)
    else:
        days = _planting_days(ctx, item, slot, series)
        made = None if days is None else [planted_on(ctx, item, slot, day) for day in days]
    return None if made is None else numbered(made)


def numbered(made: Iterable[Draft | None]) -> list[Draft]:
    """The drafts of a series with their places in it."""
    return [msgspec.structs.replace(d, number=n) for n, d in enumerate((d for d in made if d), 1)]


def _planting_days(ctx: Context, item: Item, slot: Slot, series: SeriesWords) -> list[When] | None:
    days = series_days(ctx, item, slot, series)
    if days is None:
        return None
    written = days[:1] if series.start is not None else []
    days = [*written, *(ctx.forward(d) for d in days[len(written) :])]  # a written day stays, the others follow from it
    why = ctx.words.say("why.every", n=series.every_days)
    return [When(day, day, day, "grower", why) for day in days]


def _for_pickings(ctx: Context, item: Item, slot: Slot, series: SeriesWords) -> list[Draft | None] | None:
    """Plantings whose first pickings lie evenly: far apart in spring, close together in late summer."""
    wanted = _pickings(ctx, item, slot, series)
    if wanted is None:
        return None
    found: dict[date, Draft | None] = {}
    missed: list[date] = []
    for want in wanted:
        kind, day = planting_in_window(ctx, item, slot, want)
        if day is None or day < slot.front:
            missed.append(want)
            continue
        day = max(ctx.back(day), slot.front)
        if day not in found:
            plant = When(day, day, day, "growth", ctx.words.say("why.to be picked", day=ctx.day(want)))
            found[day] = planted_on(ctx, item, slot, plant, kind)
    if missed:
        days = ctx.words.listed([ctx.day(d) for d in missed])
        sentence = ctx.words.say("told.not picked", crop=item.word, days=days)
        ctx.tell(slot.bed.name if slot.bed else "", sentence, item.spot)
    kind = otherwise(ctx.crop(item.crop), kinds_meant(ctx.crop(item.crop), item.kind, slot.under_glass))
    if not found and not openings(ctx, kind, kind.usually, slot.under_glass, slot.front):
        what = said("mistake.schedule.window unknown.what", crop=item.word)
        ctx.refuse(item.spot, what, said("mistake.schedule.window unknown.cure"))
        return None
    if not found:
        what = said("mistake.schedule.never picked.what", crop=item.word)
        ctx.refuse(item.spot, what, said("mistake.schedule.never picked.cure"))
        return None
    return [found[day] for day in sorted(found)]


def _pickings(ctx: Context, item: Item, slot: Slot, series: SeriesWords) -> list[date] | None:
    """The days from which one planting after another is to be picked."""
    start = ctx.date_of(series.start, slot.front) if series.start else None
    until = ctx.date_of(series.until, start) if series.until and start else None
    if start is None or until is None:
        if series.start is None or series.until is None:
            cure = example("every week of picking May to October")
            ctx.refuse(item.spot, said("mistake.schedule.picking unsaid"), cure)
        return None
    return _every(series.every_days, start, until)


def series_days(ctx: Context, item: Item, slot: Slot, series: SeriesWords) -> list[date] | None:
    """The days of an "every n weeks": from and to as written, else the crop's own windows in the season."""
    kinds = kinds_meant(ctx.crop(item.crop), item.kind, slot.under_glass)
    kind = otherwise(ctx.crop(item.crop), kinds)
    own = openings(ctx, kind, kind.usually, slot.under_glass, slot.front)
    inside = [o for o in own if o.until >= slot.front and o.start <= ctx.season.end]
    noted = len(ctx.mistakes)
    start = ctx.work_day_of(series.start, slot.front) if series.start else None
    if start is None and series.start is None and inside:
        start = max(slot.front, inside[0].start)
    until = ctx.date_of(series.until, start) if series.until and start else None
    if until is None and series.until is None and inside:
        until = inside[-1].until
    if start is None or until is None:
        if len(ctx.mistakes) == noted:
            cure = example("every 3 weeks April to August")
            ctx.refuse(item.spot, said("mistake.schedule.series unsaid"), cure)
        return None
    found = _every(series.every_days, start, until)
    if series.start is None and series.until is None:  # of its own accord only what its windows hold
        found = [d for d in found if any(o.start <= d <= o.until for o in inside)]
    return found


def _every(days: int, start: date, until: date) -> list[date]:
    return [d.date() for d in rrule(DAILY, interval=days, dtstart=_midnight(start), until=_midnight(until))]


def _midnight(day: date) -> datetime:
    return datetime(day.year, day.month, day.day)  # noqa: DTZ001 - rrule counts days, no zone is meant
