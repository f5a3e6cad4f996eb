"""When a crop is picked first and last, and when its bed comes free, left to itself."""

from __future__ import annotations

from datetime import date, timedelta

import msgspec

from sowsheet.catalogue.records import TENDER_C, Kind, Raised, Range
from sowsheet.garden.records import Where, is_under_glass
from sowsheet.growth.when import When, after
from sowsheet.schedule.context import Context
from sowsheet.site.almanac import day_after
from sowsheet.site.climate import days_later_in_autumn, spring_mean

# Common practice, no source: an unheated house keeps the autumn's first frosts off so long.
GLASS_AUTUMN_DAYS = 21
FROST_SLACK_DAYS = 19  # one year in ten comes so much earlier or later (15 days' spread)
FIRST_HARD_NIGHT_DAYS = 7  # in winter the next killing night is not far
MISSED_DAYS = 355  # nothing but a perennial is picked for so long
SEASON_SLACK_DAYS = 7  # a date that the year brings wanders by a week either way


class Harvest(msgspec.Struct, frozen=True):
    """First and last pick; None where the site does not know the dates they hang on.

    `killed` is what ends it before anything could be picked: frost, or its season being over.
    """

    first: When | None
    last: When | None
    killed: When | None = None


def harvest(ctx: Context, kind: Kind, raised: Raised, sown: date | None, planted: date, where: Where) -> Harvest:
    """The harvest of a kind that goes into its bed on a day."""
    found = ctx.clock.first_pick(kind, raised, sown, planted, where)
    frost = frost_end(ctx, kind, planted, where)
    if found is None:
        return Harvest(None, frost)
    first = on_a_work_day(ctx, found)
    if frost is not None and frost.day <= first.day:
        return Harvest(None, None, frost)
    over = over_before(ctx, kind, raised, planted, first.day)
    if over is not None:
        return Harvest(None, None, over)
    return Harvest(first, last_pick(ctx, kind, first, frost))


def over_before(ctx: Context, kind: Kind, raised: Raised, planted: date, first: date) -> When | None:
    """The end of its season where that comes before the first picking: the first one after the fastest of its kind
    could be ready. A leek that is not fit by spring runs to seed then, and stands no year longer."""
    how = kind.harvest
    days = how.first_pick_direct if raised == "drill" and how.first_pick_direct is not None else how.first_pick
    if how.until is None or kind.stands_years is not None or not isinstance(days, Range):
        return None
    end = day_after(ctx.climate.almanac, how.until, planted + timedelta(days=round(days.low)))
    if end is None or end > first:
        return None
    return When(end, end, end, "season", ctx.words.say(f"why.over.{how.ends_with}"))


def grown(kind: Kind) -> Kind:
    """A kind that has had its time to grow: what stands there already is not waited for."""
    return msgspec.structs.replace(kind, harvest=msgspec.structs.replace(kind.harvest, at_least_days=None))


def on_a_work_day(ctx: Context, when: When) -> When:
    """The first picking is a job like any other: put off until somebody is there."""
    if ctx.attended(when.day):
        return when
    day = ctx.forward(when.day)
    return When(day, when.low, max(when.high, day), when.basis, ctx.words.say("why.work day then", why=when.why))


def last_pick(ctx: Context, kind: Kind, first: When, frost: When | None = None) -> When | None:
    """What ends the picking: its length, the year, or the frost, whichever comes first."""
    ends: list[When] = [] if frost is None else [frost]
    how = kind.harvest
    if how.lasts_days is not None:
        why = "why.cut within" if kind.use == "green manure" else "why.picking"
        ends.append(after(ctx.words, first.day, how.lasts_days, why, whole=True))
    if how.until is not None:
        day = day_after(ctx.climate.almanac, how.until, first.day)
        if day is not None and kind.stands_years is None and (day - first.day).days > MISSED_DAYS:
            day = first.day  # ripe only when its season is over: what there is, is taken, and no year waited
        if day is not None:
            slack = timedelta(days=SEASON_SLACK_DAYS)
            why = ctx.words.say(f"why.over.{how.ends_with}")
            ends.append(When(day, max(first.day, day - slack), day + slack, "season", why))
    last = min(ends, key=lambda w: w.day, default=None)
    killed = how.ends_with == "frost" and last is not None and last.basis == "season"
    if last is None or killed or kind.use != "green manure":
        return last
    day = max(first.day, ctx.back(last.day))  # it is cut while somebody is there, and before it seeds
    return msgspec.structs.replace(last, day=day, low=min(day, last.low))


def _in_winter(day: date, first_frosts: list[date], last_frost: date) -> bool:
    """Whether a day lies after an autumn's first frost and well before the spring's last one."""
    margin = timedelta(days=FROST_SLACK_DAYS)
    before = [f for f in first_frosts if f <= day]
    if not before:
        return False
    spring = last_frost if last_frost > before[-1] else last_frost + timedelta(days=365)
    return day < spring - 2 * margin


def frost_end(ctx: Context, kind: Kind, planted: date, where: Where) -> When | None:
    """The first frost after planting, for kinds that it ends; None for others, or where it is not known.

    Kinds that stand some degrees of frost are ended by a harder one, whose date their `until` gives.
    """
    frost = ctx.climate.almanac.first_frost
    if kind.harvest.ends_with != "frost" or frost is None or kind.cold.in_bed_c < TENDER_C:
        return None
    autumns = [date(planted.year + n, *frost) for n in (-1, 0, 1)]
    day = next(d for d in autumns if d > planted)
    spring = spring_mean(ctx.climate, 0.0, planted)
    if spring is not None and _in_winter(planted, autumns, spring):
        day = planted + timedelta(days=FIRST_HARD_NIGHT_DAYS)
    if is_under_glass(where):
        warmer = ctx.climate.warmer_nights_c(where)
        day += days_later_in_autumn(-warmer) if warmer else timedelta(days=GLASS_AUTUMN_DAYS)
    slack = timedelta(days=FROST_SLACK_DAYS)
    return When(day, max(planted, day - slack), day + slack, "season", ctx.words.say("why.first frost"))
