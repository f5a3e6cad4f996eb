"""A draft with its part of a bed becomes a batch: stages, stays, covers and the sum of its trays."""

from __future__ import annotations

import itertools
import math
from datetime import date, timedelta
from typing import Literal

import msgspec

from sowsheet.catalogue.records import Range
from sowsheet.garden.records import Where
from sowsheet.growth.when import When
from sowsheet.reading.mistakes import said
from sowsheet.schedule.amounts import Stations, amount, broadcast, moves_into, stations
from sowsheet.schedule.context import Context
from sowsheet.schedule.drafts import Draft, as_written
from sowsheet.schedule.records import Amount, Batch, BedPart, Cover, StageKey, Stages, Stay

BEYOND = timedelta(days=30)  # what is not cleared in the season goes on beyond its last column


class Placed(msgspec.Struct, frozen=True):
    """A draft in its part of a bed (None: no bed), as main crop or between another."""

    draft: Draft
    part: BedPart | None
    rank: Literal["main", "between"] = "main"
    places: int = 0  # for what stands between: how many were wanted, or half of its host's


def batch_of(ctx: Context, name: str, bed: str, placed: Placed) -> Batch:
    """The batch of a placed draft."""
    draft, item = placed.draft, placed.draft.item
    stages = _stages(ctx, draft, ctx.where(bed))
    if ctx.under_glass(bed):
        stages = msgspec.structs.replace(stages, harden=None)  # what stays under glass need not be hardened
    sum_ = _amount(ctx, draft, placed)
    moved = () if draft.there or draft.raised != "tray" else moves_into(ctx, draft.kind, sum_)
    route: tuple[str, ...] = ()
    if draft.raising is not None:
        places = (draft.raising.germinating, draft.raising.growing_on, draft.raising.hardening_off)
        route = tuple(dict.fromkeys(p.name for p in places))
    english = ctx.garden.words.english  # other languages do not put a kind's name together from its key
    kind_open = item.kind is None and not item.foreign and not _goes_without_saying(ctx, draft)
    return Batch(
        name=name,
        kind=draft.kind,
        raised=draft.raised,
        bed=bed,
        stages=stages,
        stays=(*_tray_stays(name, draft, stages, sum_, moved), *_bed_stays(ctx, name, bed, placed, stages)),
        covers=_covers(name, draft, placed, stages),
        amount=sum_,
        route=route,
        spot=item.spot,
        word=draft.kind.name if item.foreign or (kind_open and not english) else item.word,
        kind_open=kind_open and english,
        note=item.note,
        maybe=item.maybe,
        series=f"{bed} {draft.kind.crop} {item.spot.line}:{item.spot.column}".strip() if draft.number else "",
        rank=placed.rank,
        part=placed.part,
        open_left=draft.there,
        moved_into=moved,
        asked=item.route,
    )


def _goes_without_saying(ctx: Context, draft: Draft) -> bool:
    """Whether the kind is the one that growers mean by the bare name, or the ordinary one of those told by date."""
    crop = ctx.crop(draft.kind.crop)
    return draft.kind.key in (crop.unnamed, crop.unnamed_else)


def _stages(ctx: Context, draft: Draft, where: Where) -> Stages:
    plant, raising = draft.plant, draft.raising
    latest = plant.day if plant else None
    found: dict[str, When | None] = {
        "plant": plant,
        "first_pick": draft.harvest.first,
        "last_pick": draft.harvest.last,
        "clear": draft.clear,
    }
    if raising is not None:
        for key in ("sow", "up", "to_light", "prick_out", "pot_on", "harden"):
            found[key] = _not_after(getattr(raising, key), latest)
        found["ready"], found["holds"] = raising.ready, raising.holds
    elif draft.raised == "drill" and plant is not None:
        found["sow"] = plant
        found["up"] = ctx.clock.up(draft.kind, plant.day, where)
    elif draft.kind.setting is not None and draft.kind.setting.chits_days is not None and plant is not None:
        found["chit"] = _chitting(ctx, draft.kind.setting.chits_days, plant.day)
    found["cover_on"], found["cover_off"] = _cover_days(ctx, draft)
    return Stages(**found)


def _chitting(ctx: Context, days: Range, plant: date) -> When:
    """The day on which tubers are set to sprout, moved back to a work day."""
    latest, usual, earliest = (plant - timedelta(days=round(n)) for n in (days.low, days.usual, days.high))
    return When(
        ctx.back(usual), min(earliest, ctx.back(usual)), latest, "handbook", ctx.words.say("why.sprout", n=days.usual)
    )


def _not_after(when: When | None, latest: date | None) -> When | None:
    """Nothing that is done to a tray comes after it is planted out."""
    if when is None or latest is None or when.day <= latest:
        return when
    return When(latest, min(when.low, latest), latest, when.basis, when.why)


def _cover_days(ctx: Context, draft: Draft) -> tuple[When | None, When | None]:
    cover, plant = draft.item.cover, draft.plant
    if draft.there:
        start = ctx.season.start
        plant = When(start, start, start, "grower", ctx.words.say("why.there already"))
    if cover is None or plant is None:
        return None, None
    on = When(plant.day, plant.day, plant.day, plant.basis, ctx.words.say("why.day it goes in"))
    if cover.until is not None:
        day = ctx.work_day_of(cover.until, plant.day)
        off = None if day is None else as_written(ctx, day, cover.until, f"till {cover.until.text}")
    elif cover.days is not None:
        day = plant.day + timedelta(days=cover.days)
        off = When(day, day, day, "grower", ctx.words.say("why.written days", n=cover.days))
    elif cover.kind == "fleece":
        days = ctx.garden.house.fleece_days
        day = ctx.forward(plant.day + timedelta(days=days))
        off = When(day, day, day, "house", ctx.words.say("why.fleece", n=days))
    else:
        off = draft.harvest.first or draft.clear  # mesh and nets stay until there is something to pick
    if off is not None and off.day <= on.day and cover.until is not None:
        what = said(f"mistake.schedule.cover off.{cover.kind}", day=ctx.whole_day(off.day))
        ctx.refuse(cover.until.spot, what, said("mistake.schedule.later day"))
        return None, None
    if off is not None and draft.clear is not None and off.day > draft.clear.day:
        off = draft.clear
    return on, off


def _covers(name: str, draft: Draft, placed: Placed, stages: Stages) -> tuple[Cover, ...]:
    if draft.item.cover is None or stages.cover_on is None or placed.part is None:
        return ()
    end = stages.cover_off.day if stages.cover_off else stages.cover_on.day
    metres = (placed.part.along_end_cm - placed.part.along_start_cm) / 100
    return (Cover(name, draft.item.cover.kind, stages.cover_on.day, end, metres),)


def _amount(ctx: Context, draft: Draft, placed: Placed) -> Amount:
    written, part = draft.item.amount, placed.part
    at = stations(draft.kind, part) if part is not None else None
    if written is not None and written.unit == "rows" and at is not None:
        at = Stations(math.floor(written.number), at.per_row)
    length_m = (part.along_end_cm - part.along_start_cm) / 100 if part is not None else 0.0
    if written is not None and written.unit in ("plants", "clumps"):
        places, at = math.floor(written.number), None
    elif at is None:
        places = 0
    else:
        places = at.places
    if placed.rank == "between":
        places, at = placed.places, None
    if draft.there:
        return Amount(
            places=places,
            unit="plants",
            rows=at.rows if at else 0,
            per_row=at.per_row if at else 0,
            length_m=length_m,
        )
    drill = draft.kind.drill
    if draft.raised == "drill" and drill is not None and drill.grams_per_m2 is not None and part is not None:
        return broadcast(draft.kind, part, length_m)
    return amount(ctx, draft.kind, draft.raised, places, at, length_m)


def places_of(placed: Placed) -> int:
    """How many places a draft takes in its part of the bed."""
    written, part = placed.draft.item.amount, placed.part
    if written is not None and written.unit in ("plants", "clumps"):
        return math.floor(written.number)
    return stations(placed.draft.kind, part).places if part is not None else 0


def _tray_stays(
    name: str, draft: Draft, stages: Stages, sum_: Amount, moved: tuple[tuple[str, str, int], ...]
) -> tuple[Stay, ...]:
    """Where the trays stand, day by day, in which container: cut at every move between places and containers."""
    raising, sow = draft.raising, stages.sow
    end = stages.plant or stages.ready
    if raising is None or sow is None or end is None or stages.to_light is None:
        return ()
    places: list[tuple[date, StageKey, str]] = [
        (sow.day, "germinating", raising.germinating.name),
        (stages.to_light.day, "growing on", raising.growing_on.name),
    ]
    if stages.harden is not None:
        places.append((stages.harden.day, "hardening off", raising.hardening_off.name))
    containers: list[tuple[date, str, int]] = [(sow.day, sum_.tray, sum_.trays)]
    for move, tray, trays in moved:
        when: When | None = getattr(stages, move)
        if when is not None:
            containers.append((when.day, tray, trays))
    edges = sorted({d for d, *_ in places} | {d for d, *_ in containers} | {end.day})
    stays = []
    for start, finish in itertools.pairwise(edges):
        if finish > end.day:
            break
        _, stage, where = [p for p in places if p[0] <= start][-1]
        _, container, trays = [c for c in containers if c[0] <= start][-1]
        stay = Stay(
            batch=name,
            stage=stage,
            where=where,
            start=start,
            end=finish,
            container=container,
            trays=trays,
            maybe=draft.item.maybe,
        )
        stays.append(stay)
    return tuple(stays)


def _bed_stays(ctx: Context, name: str, bed: str, placed: Placed, stages: Stages) -> tuple[Stay, ...]:
    """In the bed, and being picked. What is not cleared within the season's reach stays to the end known."""
    if not bed or placed.part is None or (stages.plant is None and not placed.draft.there):
        return ()
    start = stages.plant.day if stages.plant else ctx.season.start
    end = stages.clear.day if stages.clear else max(ctx.season.end, start) + BEYOND
    pick = stages.first_pick.day if stages.first_pick else end
    pick = min(max(pick, start), end)
    over = end
    kind = placed.draft.kind
    if kind.use == "green manure":
        pick = over = end  # it is cut, not picked
    elif kind.stands_years is not None and stages.last_pick is not None:
        over = min(max(stages.last_pick.day, pick), end)  # a perennial stands on when picking is over
    spans: list[tuple[StageKey, date, date]] = [
        ("in the bed", start, pick),
        ("picking", pick, over),
        ("in the bed", over, end),
    ]
    return tuple(
        Stay(
            batch=name,
            stage=stage,
            where=bed,
            start=first,
            end=last,
            part=placed.part,
            rank=placed.rank,
            maybe=placed.draft.item.maybe,
        )
        for stage, first, last in spans
        if first < last
    )
