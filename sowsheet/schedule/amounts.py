"""How many places, cells, trays and seeds: a sum that can be followed by hand."""

from __future__ import annotations

import math
from fractions import Fraction

import msgspec

from sowsheet.catalogue.records import Kind, Raised, Range
from sowsheet.garden.defaults import assumed_pots, assumed_seed_tray
from sowsheet.garden.records import TrayKind
from sowsheet.schedule.context import Context
from sowsheet.schedule.records import Amount, BedPart
from sowsheet.words.language import Language

# Common practice, no source: seedlings to be pricked out stand about 2.5 cm apart each way in a seed tray.
SEEDLING_CM2 = 6.25
_HAIR = 1e-6  # 1.2 m holds four rows of 30 cm, whatever binary fractions say


class Stations(msgspec.Struct, frozen=True):
    """Places in a part of a bed: rows along it, and places in a row."""

    rows: int
    per_row: int

    @property
    def places(self) -> int:
        """Rows times places along the row."""
        return self.rows * self.per_row


def stations(kind: Kind, part: BedPart) -> Stations:
    """How many rows and places a part of a bed holds; never less than one of each."""
    width = part.across_end_cm - part.across_start_cm
    length = part.along_end_cm - part.along_start_cm
    rows = math.floor(width / kind.space.row_gap_cm.usual + _HAIR)
    per_row = math.floor(length / kind.space.in_row_cm.usual + _HAIR)
    return Stations(max(1, rows), max(1, per_row))


def cells_for(places: int, spare: Fraction, empty: Fraction) -> int:
    """(places + spare share) / (1 - chance empty), exact, to the nearest, never below places + spare."""
    wanted = places * (1 + spare)
    exact = wanted / (1 - empty)
    return max(math.floor(exact + Fraction(1, 2)), math.ceil(wanted))


def chance_empty(comes_up: float, seeds: int) -> Fraction:
    """The chance that none of a cell's seeds comes up."""
    return (1 - Fraction(comes_up).limit_denominator(1000)) ** seeds


def container_for(ctx: Context, cell_ml: Range, about: str) -> TrayKind:
    """The garden's first tray whose cells are of a size that suits; else the nearest in size, and told."""
    kinds = [t for t in ctx.garden.trays if t.cells > 0]
    suiting = [t for t in kinds if cell_ml.low <= t.cell_ml <= cell_ml.high]
    if suiting:
        return suiting[0]
    pots = assumed_pots()
    if cell_ml.low >= pots.cell_ml / 2 and not any(t.cell_ml >= cell_ml.low / 2 for t in kinds):
        ctx.tell(about, ctx.words.say("told.pots", tray=ctx.words.tray_name(pots.name), cells=pots.cells))
        return pots
    nearest = min(kinds or [pots], key=lambda t: abs(math.log(t.cell_ml / cell_ml.usual)))
    suits = {"low": cell_ml.low, "high": cell_ml.high}
    ctx.tell(about, ctx.words.say("told.cells", **suits, tray=ctx.words.tray_name(nearest.name), ml=nearest.cell_ml))
    return nearest


def seed_tray_for(ctx: Context, about: str) -> TrayKind:
    """The garden's open seed tray, or an assumed one, and told."""
    named = next((t for t in ctx.garden.trays if t.cells == 0), None)
    if named is not None:
        return named
    tray = assumed_seed_tray()
    ctx.tell(about, ctx.words.say("told.seed tray", long=tray.length_cm, wide=tray.width_cm))
    return tray


def area_m2(part: BedPart) -> float:
    """A part's area."""
    return (part.along_end_cm - part.along_start_cm) * (part.across_end_cm - part.across_start_cm) / 10_000


def broadcast(kind: Kind, part: BedPart, length_m: float) -> Amount:
    """Seed scattered over a part of a bed. Raises ValueError for a kind that is not broadcast."""
    if kind.drill is None or kind.drill.grams_per_m2 is None or kind.seed is None:
        raise ValueError(f"{kind.name} is not broadcast")
    surface = area_m2(part)
    grams = surface * kind.drill.grams_per_m2.usual
    return Amount(
        places=max(1, round(surface)),
        unit="m2",
        length_m=length_m,
        area_m2=surface,
        seeds=math.ceil(grams * kind.seed.per_g),
        seed_g=grams,
    )


def amount(ctx: Context, kind: Kind, raised: Raised, places: int, at: Stations | None, length_m: float) -> Amount:
    """The whole sum for so many places, raised in that way. `at` is None when no bed is behind it."""
    rows, per_row = (at.rows, at.per_row) if at and at.places == places else (0, 0)
    if raised == "set":
        return _set(kind, places, rows, per_row, length_m)
    if raised == "drill":
        return _drilled(kind, places, rows, per_row, length_m)
    return _in_trays(ctx, kind, places, rows, per_row, length_m)


def _set(kind: Kind, places: int, rows: int, per_row: int, length_m: float) -> Amount:
    if kind.setting is None:
        raise ValueError(f"{kind.name} is not set")
    kg = places / kind.setting.per_kg.usual if kind.setting.per_kg else 0.0
    return Amount(places=places, unit=kind.setting.what, rows=rows, per_row=per_row, length_m=length_m, kg=kg)


def _drilled(kind: Kind, places: int, rows: int, per_row: int, length_m: float) -> Amount:
    if kind.drill is None or kind.drill.seeds_per_m is None or kind.seed is None:
        raise ValueError(f"{kind.name} is not drilled")
    drill_m = rows * length_m if rows else places * kind.space.in_row_cm.usual / 100
    seeds = math.ceil(drill_m * kind.drill.seeds_per_m.usual)
    return Amount(
        places=places,
        unit="rows",
        rows=rows,
        per_row=per_row,
        length_m=length_m,
        seeds=seeds,
        seed_g=_grams(kind, seeds),
    )


def _in_trays(ctx: Context, kind: Kind, places: int, rows: int, per_row: int, length_m: float) -> Amount:
    if kind.tray is None or kind.seed is None:
        raise ValueError(f"{kind.name} is not raised in trays")
    spare, clump = ctx.garden.house.spare, kind.tray.plants_per_cell.usual > 1
    pricked_out = kind.tray.sown_in == "seed tray"
    empty = Fraction(0) if pricked_out else chance_empty(kind.seed.comes_up, kind.tray.seeds_per_cell)
    cells = cells_for(places, spare, empty)
    if pricked_out:
        tray = seed_tray_for(ctx, kind.name)
        seeds = math.ceil(cells / Fraction(kind.seed.comes_up).limit_denominator(1000))
        trays, left = math.ceil(seeds / seedlings_in(tray)), 0
    else:
        tray = container_for(ctx, kind.tray.cell_ml, kind.name)
        seeds = cells * kind.tray.seeds_per_cell
        trays = math.ceil(cells / tray.cells)
        left = trays * tray.cells - cells
    return Amount(
        places=places,
        unit="clumps" if clump else "plants",
        rows=rows,
        per_row=per_row,
        length_m=length_m,
        spare=places * spare,
        empty=empty,
        cells=cells,
        tray=tray.name,
        tray_cells=tray.cells,
        trays=trays,
        left=left,
        seeds=seeds,
        seed_g=_grams(kind, seeds),
    )


def moves_into(ctx: Context, kind: Kind, sum_: Amount) -> tuple[tuple[str, str, int], ...]:
    """What a batch is pricked out and potted on into: (move, tray kind, number of trays), in order."""
    if kind.tray is None or not sum_.cells:
        return ()
    wanted = sum_.places + sum_.spare
    found = []
    for name, move in (("prick_out", kind.tray.prick_out), ("pot_on", kind.tray.pot_on)):
        if move is not None:
            tray = container_for(ctx, move.into_ml, kind.name)
            found.append((name, tray.name, math.ceil(math.ceil(wanted) / tray.cells)))
    return tuple(found)


def seedlings_in(tray: TrayKind) -> int:
    """How many seedlings stand in an open seed tray until they are pricked out."""
    return max(1, math.floor(tray.length_cm * tray.width_cm / SEEDLING_CM2))


def sum_in_words(words: Language, a: Amount, imperial: bool = False) -> str:
    """The steps of the sum, as they can be followed by hand."""
    rows, seeds = words.count(a.rows, "row"), words.count(a.seeds, "seed")
    if a.unit == "rows":
        length = words.length(a.length_m * 100, imperial)
        return words.say("sum.drilled", rows=rows, length=length, seeds=seeds) if a.rows else seeds
    if a.unit == "m2":
        return words.say("sum.scattered", area=words.area(a.area_m2, imperial), weight=words.weight(a.seed_g, imperial))
    places = words.say(f"unit.{a.unit}", n=a.places, number=a.places)
    if a.rows:
        places = words.say("sum.rows", rows=rows, each=a.per_row, places=places)
    if not a.cells:
        return places
    gaps = a.empty >= Fraction(1, 1000)
    told = {"places": places, "spare": float(a.spare), "cells": words.count(a.cells, "cell"), "share": ""}
    if gaps:
        told["share"] = _percent(words, a.empty)
    if not a.tray_cells:
        trays = words.count(a.trays, "seed tray")
        return words.say("sum.seed trays empty" if gaps else "sum.seed trays", **told, seeds=seeds, trays=trays)
    trays = words.count(a.trays, "tray")
    return words.say("sum.trays empty" if gaps else "sum.trays", **told, trays=trays, each=a.tray_cells, left=a.left)


def _percent(words: Language, share: Fraction) -> str:
    return words.say("number.percent", n=words.fixed(float(share) * 100, 0 if share >= Fraction(1, 100) else 1))


def _grams(kind: Kind, seeds: int) -> float:
    return seeds / kind.seed.per_g if kind.seed else 0.0
