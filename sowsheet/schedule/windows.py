"""When a kind may go into its bed: the catalogue's windows put on the calendar."""

from __future__ import annotations

from datetime import date, timedelta

import msgspec

from sowsheet.catalogue.records import TENDER_C, Crop, Kind, Raised, Window
from sowsheet.garden.records import Where, is_under_glass
from sowsheet.schedule.context import Context
from sowsheet.site.almanac import day_after, last_before
from sowsheet.site.climate import safe_from

GLASS_RISK = 0.5
LONGEST_WINDOW_DAYS = 330


class Opening(msgspec.Struct, frozen=True):
    """A window of one year: first day, last useful day, and the earlier first day under fleece."""

    start: date
    until: date
    fleece_start: date


def openings(ctx: Context, kind: Kind, raised: Raised, under_glass: bool, day: date) -> tuple[Opening, ...]:
    """The kind's windows around a day, from the year before to the year after, in order of their first day.

    Empty where the site does not know the dates that they hang on.
    """
    found = {o for w in _suiting(kind, raised, under_glass) for o in _dated(ctx, w, day)}
    return tuple(sorted(found, key=lambda o: (o.start, o.until)))


def holding(ctx: Context, kind: Kind, raised: Raised, under_glass: bool, day: date, fleece: bool) -> bool:
    """Whether one of the windows holds a day."""
    return any(
        (o.fleece_start if fleece else o.start) <= day <= o.until for o in openings(ctx, kind, raised, under_glass, day)
    )


def is_tender(kind: Kind) -> bool:
    """Killed by a night of -1 C or above even when hardened: its nights are asked about."""
    cold = kind.cold
    return (cold.in_bed_c if cold.hardened_c is None else cold.hardened_c) >= TENDER_C


def risk_accepted(ctx: Context, under_glass: bool) -> float:
    """The chance of a killing night that planting accepts. In a house somebody is at hand to lay fleece over tender
    plants on the few nights that matter, so an even chance is taken there (common practice, no source)."""
    return max(ctx.garden.house.risk, GLASS_RISK) if under_glass else ctx.garden.house.risk


def safe_opening(ctx: Context, kind: Kind, raised: Raised, opening: Opening, where: Where, fleece: bool) -> date:
    """The first day of an opening, put off for tender kinds until cold nights are unlikely enough once they are up.

    Neither unheated glass nor fleece is reckoned to keep frost out, unless the grower has read it there: on a clear
    night they freeze. Seed in the ground takes no harm.
    """
    start = opening.fleece_start if fleece else opening.start
    if not is_tender(kind):
        return start
    night = kind.cold.in_bed_c - ctx.climate.warmer_nights_c(where)
    safe = safe_from(ctx.climate, night, risk_accepted(ctx, is_under_glass(where)), start)
    if safe is None or safe <= start:
        return start
    if raised != "drill":
        return safe
    up = (ctx.clock.up(kind, start + timedelta(days=n), where) for n in range((safe - start).days))
    waits = next((n for n, when in enumerate(up) if when is not None and when.day >= safe), (safe - start).days)
    return start + timedelta(days=waits)


class BoltingSpan(msgspec.Struct, frozen=True):
    """Sowing dates from which a kind runs to seed, the first and the last, and why."""

    start: date
    until: date
    why: str


def bolting(ctx: Context, kind: Kind, sown: date) -> BoltingSpan | None:
    """The span of sowing dates that run to seed in which a day lies."""
    almanac = ctx.climate.almanac
    for rule in kind.bolts:
        start = day_after(almanac, rule.sown_start, sown - timedelta(days=365))
        while start is not None and start <= sown:
            until = day_after(almanac, rule.sown_until, start)
            if until is not None and start <= sown <= until:
                return BoltingSpan(start, until, rule.why)
            start = day_after(almanac, rule.sown_start, start + timedelta(days=1))
    return None


def kinds_meant(crop: Crop, key: str | None, under_glass: bool) -> tuple[Kind, ...]:
    """The kinds that a name may mean, the first to be preferred; several only where the date decides.

    Those grown in such a bed, where there are any: cucumbers under glass are no ridge cucumbers.
    """
    if key is not None:
        return tuple(k for k in crop.kinds if k.key == key)
    if crop.unnamed == "by date":
        return tuple(k for k in crop.kinds if any(w.under_glass == under_glass for w in k.windows)) or crop.kinds
    named = tuple(k for k in crop.kinds if k.key == crop.unnamed)
    return named or crop.kinds[:1]


def otherwise(crop: Crop, kinds: tuple[Kind, ...]) -> Kind:
    """The kind taken when no window holds the date."""
    return next((k for k in kinds if k.key == crop.unnamed_else), kinds[0])


def _suiting(kind: Kind, raised: Raised, under_glass: bool) -> tuple[Window, ...]:
    """The windows for this way of raising and this bed; where the catalogue has none for it, all of them."""
    raised_so = tuple(w for w in kind.windows if w.seed == (raised == "drill")) or kind.windows
    return tuple(w for w in raised_so if w.under_glass == under_glass) or raised_so


def _dated(ctx: Context, window: Window, day: date) -> list[Opening]:
    almanac, cursor = ctx.climate.almanac, day - timedelta(days=550)
    found: list[Opening] = []
    while cursor < day + timedelta(days=370):
        start = opened = day_after(almanac, window.start, cursor)
        until = None if start is None else day_after(almanac, window.until, start)
        if start is None or opened is None or until is None:
            return []
        start, until = _uncrossed(ctx, window, start, until)
        fleece = None
        if window.fleece_start is not None:
            fleece = day_after(almanac, window.fleece_start, start - timedelta(days=120))
        found.append(Opening(start, until, min(start, fleece) if fleece else start))
        cursor = opened + timedelta(days=1)
    return found


def _uncrossed(ctx: Context, window: Window, start: date, until: date) -> tuple[date, date]:
    """Tied to different days of the year, a window's ends cross at some sites, and it would last for most of a year:
    it is then what lies between them."""
    before = last_before(ctx.climate.almanac, window.until, start)
    if (until - start).days < LONGEST_WINDOW_DAYS or not isinstance(before, date):
        return start, until
    return before, start
