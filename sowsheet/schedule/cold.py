"""How cold a night a batch lives through wherever it stands, how often one is colder, and from when it is safe."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta

import msgspec

from sowsheet.catalogue.records import TENDER_C, Kind, Raised
from sowsheet.garden.records import Place, is_under_glass
from sowsheet.schedule.context import Context
from sowsheet.schedule.records import Batch, Exposed, StageKey
from sowsheet.schedule.windows import GLASS_RISK, is_tender, risk_accepted
from sowsheet.site.climate import chance_colder_between, in_spring, safe_from, turn_after
from sowsheet.site.hotbed import cold_from

SHOOTS_DAYS = 30  # until the shoots of tubers are above ground (common practice, no source)
ROOTED_DAYS = 21  # until then what a planted-out plant stands is what it stood when hardened


class Spell(msgspec.Struct, frozen=True):
    """A time in which a plant lives through nights down to `stands_c`, from `start` up to but not including `end`."""

    stands_c: float
    start: date
    end: date


def with_cold(ctx: Context, batch: Batch) -> Batch:
    """The batch with the cold of each of its stays."""
    return msgspec.structs.replace(batch, cold=(*_in_trays(ctx, batch), *_in_bed(ctx, batch)))


def bed_spells(kind: Kind, raised: Raised, start: date, end: date) -> Iterator[Spell]:
    """How cold a plant stands in its bed: just planted as when it was hardened, then as rooted."""
    cold, rooted = kind.cold, min(start + timedelta(days=ROOTED_DAYS), end)
    if raised == "tray" and cold.hardened_c is not None and cold.hardened_c != cold.in_bed_c:
        if start < rooted:
            yield Spell(cold.hardened_c, start, rooted)
        start = rooted
    if start < end:
        yield Spell(cold.in_bed_c, start, end)


def trays_accepted(ctx: Context, kind: Kind, place: Place, stage: StageKey) -> float:
    """The chance of a night too cold that trays are left to: of tender kinds the garden's own; an even one for hardy
    kinds under glass, which stand near it with fleece at hand, and for all that are hardened, which can be carried in
    (common practice, no source)."""
    if stage == "hardening off":
        return max(GLASS_RISK, ctx.garden.house.risk)
    return risk_accepted(ctx, not is_tender(kind) and is_under_glass(place))


def trays_risk(ctx: Context, kind: Kind, place: Place, stands_c: float, start: date, end: date) -> float | None:
    """The chance of a night that kills what stands so much in a place between two days. None: not asked, or not known.

    An unheated house counts as outdoors, unless the grower has read it there: on a clear night it freezes.
    """
    soft = kind.cold.soft_c
    asked = ctx.climate.nights is not None or is_tender(kind) or (soft is not None and soft >= TENDER_C)
    if not asked or place.under == "indoors":
        return None
    if place.held_at_c is not None:
        return 1.0 if place.held_at_c < stands_c else 0.0
    start, night = cold_from(place, start), stands_c - ctx.climate.warmer_nights_c(place)
    return chance_colder_between(ctx.climate, night, start, end) if start < end else 0.0


def _in_trays(ctx: Context, batch: Batch) -> Iterator[Exposed]:
    cold, places = batch.kind.cold, {p.name: p for p in ctx.garden.places}
    stages: tuple[StageKey, ...] = ("growing on", "hardening off")
    for stage in stages:
        stays = [s for s in batch.stays if s.stage == stage]
        place = places.get(stays[0].where) if stays else None
        stands = cold.hardened_c if stage == "hardening off" and cold.hardened_c is not None else cold.soft_c
        if place is None or stands is None or place.under == "indoors":
            continue
        start, end = stays[0].start, stays[-1].end
        accepted = trays_accepted(ctx, batch.kind, place, stage)
        night = stands - ctx.climate.warmer_nights_c(place)
        chance = trays_risk(ctx, batch.kind, place, stands, start, end)
        nights = place.held_at_c is None and chance is not None
        yield _exposed(ctx, stage, place.name, Spell(stands, start, end), night, chance, accepted, nights=nights)


def _in_bed(ctx: Context, batch: Batch) -> Iterator[Exposed]:
    """The stay in the bed once it is up: until it is cleared; of what frost ends, until it is picked first."""
    kind, stages = batch.kind, batch.stages
    ends = stages.first_pick if kind.harvest.ends_with == "frost" and stages.first_pick else stages.clear
    if stages.plant is None or ends is None or not batch.bed:
        return
    start = stages.up.day if batch.raised == "drill" and stages.up else stages.plant.day
    if kind.setting is not None and batch.raised == "set" and kind.setting.what == "tubers":
        start += timedelta(days=SHOOTS_DAYS)
    asked = ctx.climate.nights is not None or is_tender(kind)
    accepted, where = risk_accepted(ctx, ctx.under_glass(batch.bed)), ctx.where(batch.bed)
    for spell in bed_spells(kind, batch.raised, start, ends.day):
        night = spell.stands_c - ctx.climate.warmer_nights_c(where)
        chance = chance_colder_between(ctx.climate, night, spell.start, spell.end) if asked else None
        yield _exposed(ctx, "in the bed", batch.bed, spell, night, chance, accepted, nights=chance is not None)


def _exposed(
    ctx: Context,
    stage: StageKey,
    where: str,
    spell: Spell,
    night_c: float,
    chance: float | None,
    accepted: float,
    *,
    nights: bool,
) -> Exposed:
    """A stay with its chances before and after the turn of the year; `nights`: those outdoors decide."""
    spring = in_spring(ctx.climate, spell.start)
    turn = min(turn_after(ctx.climate, spell.start), spell.end) if spring else spell.start

    def asked(start: date, end: date) -> float | None:
        return chance_colder_between(ctx.climate, night_c, start, end) if nights and start < end else None

    return Exposed(
        stage=stage,
        where=where,
        start=spell.start,
        end=spell.end,
        stands_c=spell.stands_c,
        night_c=night_c,
        chance=chance,
        spring_chance=asked(spell.start, turn),
        later_chance=asked(turn, spell.end),
        accepted=accepted,
        safe_from=safe_from(ctx.climate, night_c, accepted, spell.start) if nights and spring else None,
    )
