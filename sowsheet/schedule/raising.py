"""From seed to a tray that can be planted, forward and backward."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date, timedelta

import msgspec

from sowsheet.catalogue.records import Germination, Kind, Move
from sowsheet.garden.records import Place, Purpose
from sowsheet.growth.clock import latest_start
from sowsheet.growth.emergence import rate_per_day
from sowsheet.growth.when import When, after
from sowsheet.schedule.cold import trays_accepted, trays_risk
from sowsheet.schedule.context import Context
from sowsheet.site.climate import place_mean_c

TOO_LONG = 1.5  # times the longest raising of a kind; common practice, no source
LONG_DAYS = 60  # no more is nothing to speak of


class Raising(msgspec.Struct, frozen=True, kw_only=True):
    """A tray's life before planting, and the places it passes."""

    sow: When
    up: When
    to_light: When
    prick_out: When | None
    pot_on: When | None
    harden: When
    ready: When
    holds: When
    germinating: Place
    growing_on: Place
    hardening_off: Place


def raise_from(ctx: Context, kind: Kind, sow: When) -> Raising | None:
    """Forward from a sowing date. None: the seed would not come up in any place."""
    grown = _grown(ctx, kind, sow.day)
    if grown is None or kind.tray is None:
        return None
    germinating, up, growing, ready = grown
    hardening = ctx.garden.house.hardening_days
    days = round(kind.tray.hardening_days.usual) if hardening is None else hardening
    basis = "handbook" if hardening is None else "house"
    harden = max(up.day, ready.day - timedelta(days=days))
    return Raising(
        sow=sow,
        up=up,
        to_light=_to_light(ctx, up),
        prick_out=_move(ctx, kind.tray.prick_out, up.day),
        pot_on=_move(ctx, kind.tray.pot_on, up.day),
        harden=_chosen(ctx.forward(harden), basis, ctx.words.say("why.hardens", n=days)),
        ready=ready,
        holds=after(ctx.words, ready.day, kind.tray.holds_days, "why.waits", whole=True),
        germinating=germinating,
        growing_on=growing,
        hardening_off=next(iter(ctx.places_for("hardening off")), growing),
    )


def stands_too_long(kind: Kind, up: date, ready: date) -> bool:
    """Whether it would stand in its tray far longer than its kind ever should: sown to go through the dark months."""
    if kind.tray is None:
        return False
    longest = kind.tray.up_to_planting_days.high * TOO_LONG
    return (ready - up).days > max(longest, LONG_DAYS)


def ready_day(ctx: Context, kind: Kind, sown: date) -> date:
    """When a tray sown on a day is ready; far in the future if its seed never comes up."""
    grown = _grown(ctx, kind, sown)
    return grown[-1].day if grown else date.max - timedelta(days=1)


def _grown(ctx: Context, kind: Kind, sown: date) -> tuple[Place, When, Place, When] | None:
    """Where a tray sown on a day comes up and when, where it grows on, and when it is ready."""
    germinating = germinating_place(ctx, kind, sown)
    up = ctx.clock.up(kind, sown, germinating)
    if up is None or kind.tray is None:
        return None
    growing = _growing_place(ctx, kind, up.day)
    return germinating, up, growing, ctx.clock.ready(kind, up.day, growing)


def sow_for(ctx: Context, kind: Kind, by: date) -> When | None:
    """Backward: the latest sowing that is ready by a day, moved back to a work day.

    Where the seedlings would come up on a day when nobody is there, and another work day of the week before
    mends it, that one is taken and said. None: no sowing is ready by then, and can be kept till then.
    """
    latest = _latest_sowing(ctx, kind, by)
    if latest is None:
        return None
    day = ctx.back(latest)
    why = "why.sown" if day == latest else "why.sown back"
    if not _seen_coming_up(ctx, kind, day):
        earlier = (day - timedelta(days=n) for n in range(1, 8))
        seen = (d for d in earlier if ctx.attended(d) and _seen_coming_up(ctx, kind, d))
        better = next((d for d in seen if _holds_until(ctx, kind, d, by)), None)
        if better is not None:
            day, why = better, "why.sown seen"
    return When(day, day, day, "handbook", ctx.words.say(why), (day, latest) if day <= latest else None)


def _latest_sowing(ctx: Context, kind: Kind, by: date) -> date | None:
    """The latest sowing that is ready by a day. Where trays may stand in several places each is asked by itself, for a
    later sowing may come into a warmer one."""
    found = (
        []
        if len(ctx.places_for("growing on")) < 2
        else [_latest_in(ctx, kind, by, p) for p in ctx.places_for("growing on")]
    )
    own = [day for day in found if day is not None and ready_day(ctx, kind, day) <= by]
    if own:
        return max(own)
    return _kept(kind, lambda sown: ready_day(ctx, kind, sown), by)


def _latest_in(ctx: Context, kind: Kind, by: date, growing: Place) -> date | None:
    """The latest sowing that is ready by a day if its trays grow on in a place."""

    def ready(sown: date) -> date:
        up = ctx.clock.up(kind, sown, germinating_place(ctx, kind, sown))
        return date.max - timedelta(days=1) if up is None else ctx.clock.ready(kind, up.day, growing).day

    return _kept(kind, ready, by)


def _kept(kind: Kind, ready: Callable[[date], date], by: date) -> date | None:
    """The latest sowing that is ready by a day and can be kept till then. None: there is none, or only one so far back
    that its trays would wait for longer than a whole raising takes at its slowest."""
    if kind.tray is None or kind.germination is None:
        return None
    try:
        sown = latest_start(ready, by)
    except ValueError:
        return None
    days_up = max(days for _, days in kind.germination.days_up)
    slowest = days_up + kind.tray.up_to_planting_days.high + kind.tray.holds_days.high
    return sown if (by - ready(sown)).days <= slowest else None


def _holds_until(ctx: Context, kind: Kind, sown: date, by: date) -> bool:
    raising = raise_from(ctx, kind, _chosen(sown, "handbook", ""))
    return raising is not None and raising.holds.day >= by


def attended_sowing(ctx: Context, kind: Kind, sown: date) -> date | None:
    """Another work day within a week whose seedlings come up on a work day; None if `sown` itself does, or none."""
    if _seen_coming_up(ctx, kind, sown):
        return None
    near = sorted(range(-7, 8), key=abs)
    days = (sown + timedelta(days=n) for n in near if n)
    return next((d for d in days if ctx.attended(d) and _seen_coming_up(ctx, kind, d)), None)


def _seen_coming_up(ctx: Context, kind: Kind, sown: date) -> bool:
    up = ctx.clock.up(kind, sown, germinating_place(ctx, kind, sown))
    return up is None or ctx.attended(up.day)


def germinating_place(ctx: Context, kind: Kind, day: date) -> Place:
    """The first place for germinating that is neither too cold nor too hot for the seed; else the first."""
    places = _places(ctx, "germinating", day)
    germination = kind.germination
    if germination is not None:
        for place in places:
            temp = place_mean_c(ctx.climate, place, day)
            if temp is None or germinates_at(germination, temp):
                return place
    return places[0]


def germinates_at(germination: Germination, temp_c: float) -> bool:
    """Whether a fair stand may be expected at a temperature, C."""
    return germination.min_c <= temp_c <= germination.max_c and rate_per_day(germination, temp_c) > 0


def _growing_place(ctx: Context, kind: Kind, up: date) -> Place:
    """The first place for growing on that is warm enough for this kind; else the first, and a doubt later."""
    places = _places(ctx, "growing on", up)
    tray = kind.tray
    if tray is None:
        return places[0]
    end = up + timedelta(days=round(tray.up_to_planting_days.usual))
    lasting = tuple(p for p in places if exists(ctx, p, end)) or places
    return next((p for p in lasting if _warm_enough(ctx, kind, p, up, end)), lasting[0])


def _warm_enough(ctx: Context, kind: Kind, place: Place, start: date, end: date) -> bool:
    soft = kind.cold.soft_c
    risk = None if soft is None else trays_risk(ctx, kind, place, soft, start, end)
    return risk is None or risk <= trays_accepted(ctx, kind, place, "growing on")


def _places(ctx: Context, purpose: Purpose, day: date) -> tuple[Place, ...]:
    named = ctx.places_for(purpose)
    there = tuple(p for p in named if exists(ctx, p, day))
    return there or named or ctx.garden.places


def exists(ctx: Context, place: Place, day: date) -> bool:
    """Whether a place is there on a day of the year (a bench that goes when the tomatoes go in)."""
    if place.start is None and place.until is None:
        return True
    year = day - timedelta(days=365)
    start = ctx.date_of(place.start, year) if place.start else None
    while start is not None and place.start and (later := ctx.date_of(place.start, start + timedelta(days=1))):
        if later > day or later <= start:  # a week, or a date with its year, may come back to the same day
            break
        start = later
    until = ctx.date_of(place.until, start or _season_of(ctx, day)) if place.until else None
    if start is not None and day < start:
        return False
    return until is None or day < until


def _season_of(ctx: Context, day: date) -> date:
    """The first day of the season of any year in which a day lies: a place without a `from` is there since then."""
    start = ctx.season.start.replace(year=day.year)
    return start if start <= day else start.replace(year=day.year - 1)


def _move(ctx: Context, move: Move | None, up: date) -> When | None:
    if move is None:
        return None
    when = after(ctx.words, up, move.days_after_up, "why.after up")
    day = ctx.forward(when.day)
    return When(day, when.low, max(day, when.high), when.basis, when.why)


def _to_light(ctx: Context, up: When) -> When:
    """The job on the day on which they are up, put off to the next work day."""
    day, why = ctx.forward(up.day), ctx.words.say("why.up")
    if day != up.day:
        why = ctx.words.say("why.up about", day=ctx.words.day_in(up.day, day.year))
    return When(day, up.low, max(up.high, day), up.basis, why)


def _chosen(day: date, basis: str, why: str) -> When:
    return When(day, day, day, "house" if basis == "house" else "handbook", why)
