"""A kind's joined lines, complete and possible, built into its record."""

from __future__ import annotations

from sowsheet.catalogue.complete import from_seed
from sowsheet.catalogue.form import block_of
from sowsheet.catalogue.join import block, has, maybe, need, row, word
from sowsheet.catalogue.pages import Line, Lines
from sowsheet.catalogue.records import (
    Bolting,
    Cold,
    Drill,
    Germination,
    Harvest,
    Kind,
    Move,
    Raised,
    Range,
    Seed,
    Setting,
    Space,
    Tray,
    Window,
)


def kind_of(lines: Lines, crop: str, key: str, name: str) -> Kind:
    """A kind from lines without faults. Raises KeyError on lines that have some."""
    seeded = from_seed(lines)
    unseeded = () if seeded else ("germinates", "seed")
    ways: tuple[Raised, ...] = ("tray", "drill", "set")
    usually: Raised = word(lines, "usually") or next(way for way in ways if has(lines, way))
    drilled = has(lines, "drill") and not has(lines, "tray")
    return Kind(
        crop=crop,
        key=key,
        name=name,
        latin=maybe(lines, "latin", str) or "",
        family=maybe(lines, "family", str) or "",
        germination=_germination(lines) if seeded else None,
        tray=_tray(lines) if has(lines, "tray") else None,
        drill=_drill(lines) if has(lines, "drill") else None,
        setting=_setting(lines) if has(lines, "set") else None,
        usually=usually,
        cold=Cold(
            need(lines, "cold.in the bed", float),
            maybe(lines, "cold.soft", float),
            maybe(lines, "cold.hardened", float),
        ),
        windows=tuple(_window(line, drilled) for line in block(lines, "goes out").values()),
        space=Space(need(lines, "space.rows", Range), need(lines, "space.in the row", Range)),
        harvest=_harvest(lines, drilled),
        seed=_seed(lines) if seeded else None,
        use=word(lines, "use") or "food",
        dries_days=maybe(lines, "dries", Range),
        forces_days=maybe(lines, "forces", Range),
        rests_days=maybe(lines, "rests", Range),
        after_it=maybe(lines, "after it", str) or "",
        stands_years=maybe(lines, "stands for", Range),
        grows=maybe(lines, "grows", Range),
        bolts=tuple(_bolting(line) for line in block(lines, "bolts").values()),
        covers=_words(lines, "covers"),
        wants_glass="under cover" in lines,
        signs=_words(lines, "signs"),
        cautions=_words(lines, "cautions"),
        sources={path: line.sources for path, line in lines.items() if line.sources and block_of(path) not in unseeded},
    )


def _germination(lines: Lines) -> Germination:
    between, best = need(lines, "germinates.between", Range), need(lines, "germinates.best at", Range)
    return Germination(
        need(lines, "germinates.days up", tuple),
        between.low,
        between.high,
        best.low,
        best.high,
        word(lines, "germinates.light") or "",
    )


def _tray(lines: Lines) -> Tray:
    return Tray(
        sown_in=word(lines, "tray.raised"),
        seeds_per_cell=need(lines, "tray.seeds to a cell", int),
        plants_per_cell=need(lines, "tray.plants to a cell", Range),
        cell_ml=need(lines, "tray.cell", Range),
        up_to_planting_days=need(lines, "tray.up to planting", Range),
        holds_days=need(lines, "tray.holds", Range),
        hardening_days=need(lines, "tray.hardening", Range),
        prick_out=maybe(lines, "tray.prick out", Move),
        pot_on=maybe(lines, "tray.pot on", Move),
    )


def _drill(lines: Lines) -> Drill:
    return Drill(maybe(lines, "drill.seeds a metre", Range), maybe(lines, "drill.grams a square metre", Range))


def _setting(lines: Lines) -> Setting:
    pieces = (maybe(lines, f"set.{key}", Range) for key in ("a kilo", "to a bulb", "chits"))
    return Setting(word(lines, "set.what"), *pieces)


def _harvest(lines: Lines, drilled: bool) -> Harvest:
    """`drilled`: the kind is only ever sown direct, and its days are from sowing."""
    by = need(lines, "harvest.by", str)  # `days from planting`, `days from sowing`, `season`, `stands`
    return Harvest(
        by=word(lines, "harvest.by").split()[0],
        counted_from="sowing" if drilled or by == "days from sowing" else "planting",
        first_pick=word(lines, "harvest.first pick"),
        ends_with=word(lines, "harvest.ends with"),
        first_pick_direct=maybe(lines, "harvest.first pick, sown direct", Range),
        lasts_days=maybe(lines, "harvest.lasts", Range),
        until=word(lines, "harvest.until"),
        not_after=word(lines, "harvest.not after"),
        at_least_days=maybe(lines, "harvest.at least", Range),
        day_degrees=maybe(lines, "harvest.day-degrees", float),
    )


def _seed(lines: Lines) -> Seed:
    return Seed(
        need(lines, "seed.a gram", float),
        need(lines, "seed.comes up", float),
        need(lines, "seed.depth", Range),
    )


def _window(line: Line, drilled: bool) -> Window:
    """A window; `drilled`: the kind is only ever sown direct, and its windows need not say so."""
    found = row(line)
    seed = drilled or "as" in found
    return Window(found["from"], found["until"], found.get("fleece"), seed=seed, under_glass="under" in found)


def _bolting(line: Line) -> Bolting:
    found = row(line)
    return Bolting(found["sown from"], found["until"], found["cause"], found["why"])


def _words(lines: Lines, name: str) -> dict[str, str]:
    return {key: line.value for key, line in block(lines, name).items() if isinstance(line.value, str)}
