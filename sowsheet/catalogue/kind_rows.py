"""A kind in plain words: one row a line of its crop file, in the order in which a grower would ask."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Literal

import msgspec

from sowsheet.catalogue.anchors import in_words, range_in_words
from sowsheet.catalogue.records import TENDER_C, AnchoredRange, Bolting, Harvest, Kind, Move, Range, Tray, Window
from sowsheet.words.language import Language


class Row(msgspec.Struct, frozen=True):
    """A line of the page: under which heading, what it is called, what it says, where that is from."""

    heading: str
    label: str
    text: str
    sources: tuple[str, ...] = ()


def rows_of(words: Language, kind: Kind) -> list[Row]:
    """Every number and word that is known of a kind, as rows."""
    return [
        Row(words.say(f"crop page.heading.{heading}"), label, text, kind.sources.get(path, ()))
        for heading, lines in _sections(words, kind)
        for label, text, path in lines
    ]


_Lines = Iterator[tuple[str, str, str]]  # label, text, path in the crop file


def _sections(words: Language, kind: Kind) -> Iterator[tuple[str, _Lines]]:
    yield "raised", _raised(words, kind)
    yield "seed", _seed(words, kind)
    yield "tray", _tray(words, kind.tray)
    yield "cold", _cold(words, kind)
    yield "goes out", _windows(words, kind)
    yield "space", _space(words, kind)
    yield "harvest", _harvest(words, kind)
    yield "covers", ((words.say(f"cover.{word}"), text, f"covers.{word}") for word, text in kind.covers.items())
    yield "signs", _by_stage(words, "signs", kind.signs)
    yield "cautions", _by_stage(words, "cautions", kind.cautions)


def _by_stage(words: Language, field: str, said: Mapping[str, str]) -> _Lines:
    for stage, text in said.items():
        yield words.say(f"crop page.stage.{stage}"), text, f"{field}.{stage}"


def _raised(words: Language, kind: Kind) -> _Lines:
    what = kind.setting.what if kind.setting else ""
    given = {"tray": kind.tray, "drill": kind.drill, "set": kind.setting}
    ways = {way: words.say(f"crop page.raised.{what if way == 'set' else way}") for way in given if given[way]}
    text = words.listed(list(ways.values()), "or")
    if len(ways) > 1:
        text = words.say("crop page.usually", said=text, usual=ways[kind.usually])
    yield words.say("crop page.label.how"), text, "usually"
    if kind.use != "food":
        yield words.say("crop page.label.grown for"), words.say(f"crop page.use.{kind.use}"), "use"
    if kind.drill and kind.drill.seeds_per_m:
        rate = _range(words, kind.drill.seeds_per_m)
        yield words.say("crop page.label.seeds a metre"), rate, "drill.seeds a metre"
    if kind.drill and kind.drill.grams_per_m2:
        rate = _range(words, kind.drill.grams_per_m2)
        yield words.say("crop page.label.grams a square metre"), rate, "drill.grams a square metre"
    if kind.setting:
        if kind.setting.per_kg:
            yield words.say(f"crop page.in a kilo.{what}"), _range(words, kind.setting.per_kg), "set.a kilo"
        if kind.setting.per_bulb:
            yield words.say("crop page.label.to a bulb"), _range(words, kind.setting.per_bulb), "set.to a bulb"
        if kind.setting.chits_days:
            text = words.say("crop page.chits", days=_range(words, kind.setting.chits_days, "day"))
            yield words.say("crop page.label.chits"), text, "set.chits"


def _seed(words: Language, kind: Kind) -> _Lines:
    if kind.germination:
        found = kind.germination
        points = [words.say("crop page.days up", days=days, temp=temp) for temp, days in found.days_up]
        between = words.say("crop page.temps between", low=found.min_c, high=found.max_c)
        best = words.say("crop page.temps", low=found.best_low_c, high=found.best_high_c)
        yield words.say("crop page.label.days up"), ", ".join(points), "germinates.days up"
        yield words.say("crop page.label.comes up between"), between, "germinates.between"
        yield words.say("crop page.label.best at"), best, "germinates.best at"
        if found.light:
            yield words.say("crop page.label.light"), words.say(f"crop page.light.{found.light}"), "germinates.light"
    if kind.seed:
        yield words.say("crop page.label.a gram"), words.plain(kind.seed.per_g), "seed.a gram"
        share = words.say("number.percent", n=kind.seed.comes_up * 100)
        yield words.say("crop page.label.comes up"), share, "seed.comes up"
        yield words.say("crop page.label.depth"), _range(words, kind.seed.depth_mm, "mm"), "seed.depth"


def _tray(words: Language, tray: Tray | None) -> _Lines:
    if tray is None:
        return
    yield words.say("crop page.label.sown"), words.say(f"crop page.sown in.{tray.sown_in}"), "tray.raised"
    yield words.say(f"crop page.to a cell.{tray.sown_in}"), f"{tray.seeds_per_cell}", "tray.seeds to a cell"
    yield words.say("crop page.label.plants to a cell"), _range(words, tray.plants_per_cell), "tray.plants to a cell"
    yield words.say("crop page.label.cell"), _range(words, tray.cell_ml, "ml"), "tray.cell"
    if tray.prick_out:
        yield words.say("crop page.label.prick out"), _move(words, tray.prick_out), "tray.prick out"
    if tray.pot_on:
        yield words.say("crop page.label.pot on"), _move(words, tray.pot_on), "tray.pot on"
    up = _range(words, tray.up_to_planting_days, "day")
    yield words.say("crop page.label.up to planting"), up, "tray.up to planting"
    yield words.say("crop page.label.hardening"), _range(words, tray.hardening_days, "day"), "tray.hardening"
    yield words.say("crop page.label.holds"), _range(words, tray.holds_days, "day"), "tray.holds"


def _cold(words: Language, kind: Kind) -> _Lines:
    if kind.tray and kind.cold.soft_c is not None:
        yield words.say("crop page.label.soft"), _celsius(words, kind.cold.soft_c), "cold.soft"
    if kind.tray and kind.cold.hardened_c is not None:
        yield words.say("crop page.label.hardened"), _celsius(words, kind.cold.hardened_c), "cold.hardened"
    yield words.say("crop page.label.in the bed"), _celsius(words, kind.cold.in_bed_c), "cold.in the bed"


def _celsius(words: Language, temp_c: float) -> str:
    return f"{words.plain(temp_c)} °C"


def _windows(words: Language, kind: Kind) -> _Lines:
    for number, window in enumerate(kind.windows, 1):
        way = "drill" if window.seed else "tray" if kind.tray else "set"
        label = f"crop page.out under glass.{way}" if window.under_glass else f"crop page.out.{way}"
        yield words.say(label), _window(words, window), f"goes out.{number}"
    if kind.wants_glass:
        yield words.say("crop page.label.under cover"), words.say("crop page.wants glass"), "under cover"
    for number, bolting in enumerate(kind.bolts, 1):
        yield words.say("crop page.label.bolts"), _bolting(words, bolting), f"bolts.{number}"


def _window(words: Language, window: Window) -> str:
    start, until = in_words(words, window.start), in_words(words, window.until)
    if window.fleece_start:
        fleece = in_words(words, window.fleece_start)
        return words.say("crop page.window fleece", start=start, until=until, fleece=fleece)
    return words.say("crop page.window", start=start, until=until)


def _bolting(words: Language, bolting: Bolting) -> str:
    start, until = in_words(words, bolting.sown_start), in_words(words, bolting.sown_until)
    return words.say(f"crop page.bolting.{bolting.cause}", start=start, until=until, why=bolting.why)


def _space(words: Language, kind: Kind) -> _Lines:
    yield words.say("crop page.label.rows"), _range(words, kind.space.row_gap_cm, "cm"), "space.rows"
    yield words.say("crop page.label.in the row"), _range(words, kind.space.in_row_cm, "cm"), "space.in the row"


def _harvest(words: Language, kind: Kind) -> _Lines:
    harvest = kind.harvest
    manure = kind.use == "green manure"
    label = "crop page.label.cut from" if manure else "crop page.label.first pick"
    yield words.say(label), _first_pick(words, harvest, manure), "harvest.first pick"
    if harvest.first_pick_direct:
        days = _range(words, harvest.first_pick_direct, "day")
        text = words.say("crop page.counted from.sowing", days=days)
        yield words.say("crop page.label.first pick direct"), text, "harvest.first pick, sown direct"
    if harvest.at_least_days:
        text = words.say("crop page.after planting", days=_range(words, harvest.at_least_days, "day"))
        yield words.say("crop page.label.at least"), text, "harvest.at least"
    if harvest.not_after:
        text = words.say("crop page.not after", day=in_words(words, harvest.not_after))
        yield words.say("crop page.label.not after"), text, "harvest.not after"
    if harvest.lasts_days:
        yield words.say("crop page.label.lasts"), _range(words, harvest.lasts_days, "day"), "harvest.lasts"
    if harvest.until:
        yield words.say("crop page.label.until"), in_words(words, harvest.until), "harvest.until"
    ends = "first frost" if harvest.ends_with == "frost" and kind.cold.in_bed_c >= TENDER_C else harvest.ends_with
    yield words.say("crop page.label.ends with"), words.say(f"crop page.ends with.{ends}"), "harvest.ends with"
    yield from _afterwards(words, kind)


def _afterwards(words: Language, kind: Kind) -> _Lines:
    if kind.dries_days:
        text = words.say("crop page.after lifting", days=_range(words, kind.dries_days, "day"))
        yield words.say("crop page.label.dries"), text, "dries"
    if kind.forces_days:
        text = words.say("crop page.after lifting", days=_range(words, kind.forces_days, "day"))
        yield words.say("crop page.label.forces"), text, "forces"
    if kind.rests_days:
        text = words.say("crop page.rests", days=_range(words, kind.rests_days, "day"))
        yield words.say("crop page.label.rests"), text, "rests"
    if kind.after_it:
        yield words.say("crop page.label.after it"), kind.after_it, "after it"
    if kind.stands_years:
        yield words.say("crop page.label.stands for"), _range(words, kind.stands_years, "year"), "stands for"


def _first_pick(words: Language, harvest: Harvest, cut: bool) -> str:
    if isinstance(harvest.first_pick, AnchoredRange):
        said = range_in_words(words, harvest.first_pick)
    else:
        days = _range(words, harvest.first_pick, "day")
        said = words.say(f"crop page.counted from.{harvest.counted_from}", days=days)
    if harvest.by != "stands":
        return said
    return words.say("crop page.then cut" if cut else "crop page.then lifted", first=said)


def _move(words: Language, move: Move) -> str:
    days, into = _range(words, move.days_after_up, "day"), _range(words, move.into_ml, "ml")
    return words.say("crop page.moved", days=days, into=into)


_Unit = Literal["", "day", "year", "mm", "cm", "ml"]


def _range(words: Language, found: Range, unit: _Unit = "") -> str:
    """`24 to 32 days, usually 28`. A middle that no source gives as the usual is not called so."""
    counted = unit in ("day", "year")
    low, high = words.plain(found.low), words.plain(found.high)
    last = f"{high} {unit}".rstrip()
    if found.low == found.high:
        return words.count(found.high, unit) if counted else last
    if counted:
        said = words.say(f"crop page.range.{unit}", low=low, high=high, n=found.high)
    else:
        said = words.say("crop page.range.measure", low=low, high=last)
    if found.usual == (found.low + found.high) / 2:
        return said
    return words.say("crop page.usually", said=said, usual=words.plain(found.usual))
