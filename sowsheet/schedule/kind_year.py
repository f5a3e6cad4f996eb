"""A kind's year in a garden: between which days it is sown, goes into the bed and is picked, whatever is planned."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date, timedelta

import msgspec

from sowsheet.catalogue.records import Kind, Raised
from sowsheet.garden.records import GLASS, Where
from sowsheet.growth.emergence import days_at
from sowsheet.schedule.context import Context
from sowsheet.schedule.harvest import grown, harvest, last_pick
from sowsheet.schedule.raising import germinating_place, sow_for
from sowsheet.schedule.windows import Opening, openings, safe_opening
from sowsheet.site.climate import place_mean_c

NEARLY_A_YEAR_DAYS = 350


class Span(msgspec.Struct, frozen=True):
    """From a first to a last day, both of them in it."""

    first: date
    last: date

    @property
    def all_year(self) -> bool:
        """Whether it leaves out next to nothing of a year."""
        return (self.last - self.first).days >= NEARLY_A_YEAR_DAYS


class KindYear(msgspec.Struct, frozen=True, kw_only=True):
    """A kind's spans in the openings of one season, each list in order and without overlaps.

    `sown` is in trays; `direct` sown straight into the bed, or set. `fleece` is the first day under fleece.
    """

    kind: Kind
    days_up: int | None = None
    sown: tuple[Span, ...] = ()
    planted: tuple[Span, ...] = ()
    fleece: date | None = None
    glass: tuple[Span, ...] = ()
    direct: tuple[Span, ...] = ()
    picked: tuple[Span, ...] = ()
    chitted: tuple[Span, ...] = ()  # tubers set to sprout


def kind_year(ctx: Context, kind: Kind) -> KindYear:
    """The year of a kind. Spans are empty where the site does not know the frost dates that they hang on."""
    into = _into_bed(ctx, kind)
    in_trays = [o for raised, glass, o in into if raised == "tray"]
    open_beds = [o for raised, glass, o in into if raised == "tray" and not glass]
    fleeces = [o.fleece_start for _, glass, o in into if not glass and o.fleece_start < o.start]
    return KindYear(
        kind=kind,
        days_up=_days_up(ctx, kind),
        sown=_merged(span for o in in_trays if (span := _sowings(ctx, kind, o)) is not None),
        planted=_merged(Span(o.start, o.until) for o in open_beds),
        fleece=min(fleeces, default=None),
        glass=_merged(Span(o.start, o.until) for _, glass, o in into if glass),
        direct=_merged(Span(o.start, o.until) for raised, glass, o in into if raised != "tray" and not glass),
        picked=_picked(ctx, kind, into),
        chitted=_merged(span for _, _, o in into if (span := _chitting(kind, o)) is not None),
    )


def _into_bed(ctx: Context, kind: Kind) -> list[tuple[Raised, bool, Opening]]:
    """Each of its own windows that opens in the season: how it gets in, whether under glass, and the days."""
    found = []
    for window in kind.windows:
        alone = msgspec.structs.replace(kind, windows=(window,))
        raised: Raised = "drill" if window.seed else "set" if kind.tray is None else "tray"
        own = openings(ctx, alone, raised, window.under_glass, ctx.season.start)
        opening = next((o for o in own if ctx.season.start <= o.start <= ctx.season.end), None)
        safe = None if opening is None else _made_safe(ctx, kind, raised, opening, window.under_glass)
        if safe is not None:
            found.append((raised, window.under_glass, safe))
    return found


def _made_safe(ctx: Context, kind: Kind, raised: Raised, opening: Opening, under_glass: bool) -> Opening | None:
    """The opening with its first days as a plan would take them; None where it is safe only when it has shut."""
    where: Where = GLASS if under_glass else ""
    start = safe_opening(ctx, kind, raised, opening, where, fleece=False)
    fleece = min(safe_opening(ctx, kind, raised, opening, where, fleece=True), start)
    return Opening(start, opening.until, fleece) if start <= opening.until else None


def _chitting(kind: Kind, opening: Opening) -> Span | None:
    if kind.setting is None or kind.setting.chits_days is None:
        return None
    days = timedelta(days=round(kind.setting.chits_days.usual))
    return Span(opening.start - days, opening.until - days)


def _sowings(ctx: Context, kind: Kind, opening: Opening) -> Span | None:
    first, last = (sow_for(ctx, kind, day) for day in (opening.fleece_start, opening.until))
    return Span(first.day, last.day) if first and last else None


def _picked(ctx: Context, kind: Kind, into: list[tuple[Raised, bool, Opening]]) -> tuple[Span, ...]:
    """The pickings of all windows; of a perennial, those of a year in which it stands grown."""
    if kind.stands_years is None:
        return _merged(span for way in into if (span := _pickings(ctx, kind, *way)) is not None)
    first = ctx.clock.first_pick(grown(kind), kind.usually, None, ctx.season.start)
    last = None if first is None else last_pick(ctx, kind, first)
    return (Span(first.day, last.day),) if first and last else ()


def _pickings(ctx: Context, kind: Kind, raised: Raised, under_glass: bool, opening: Opening) -> Span | None:
    """From the first pick of the first planting to the last of the last, in the year that begins with the season."""
    ends: list[date] = []
    for day in (opening.fleece_start, opening.until):
        sow = sow_for(ctx, kind, day) if raised == "tray" else None
        found = harvest(ctx, kind, raised, sow.day if sow else day, day, GLASS if under_glass else "")
        ends += [w.day for w in (found.first, found.last) if found.first is not None and w is not None]
    if not ends:
        return None
    years = timedelta(days=365 * ((min(ends) - ctx.season.start).days // 365))
    return Span(min(ends) - years, max(ends) - years)


def _days_up(ctx: Context, kind: Kind) -> int | None:
    """In the place where it germinates, in spring; in its best warmth where that has no temperature."""
    germination = kind.germination
    if germination is None:
        return None
    place = germinating_place(ctx, kind, ctx.season.start)
    temp = place_mean_c(ctx.climate, place, ctx.season.start)
    days = days_at(germination, (germination.best_low_c + germination.best_high_c) / 2 if temp is None else temp)
    return None if days is None else round(days)


def _merged(spans: Iterable[Span]) -> tuple[Span, ...]:
    """Spans in order, those that touch made one."""
    merged: list[Span] = []
    for span in sorted(spans, key=lambda s: (s.first, s.last)):
        if merged and span.first <= merged[-1].last + timedelta(days=1):
            merged[-1] = Span(merged[-1].first, max(merged[-1].last, span.last))
        else:
            merged.append(span)
    return tuple(merged)
