"""A kind in plain words: one row a line of its crop file, in the order in which a grower would ask."""

from __future__ import annotations

from collections.abc import Iterator

import msgspec

from sowsheet.catalogue.anchors import in_words, range_in_words
from sowsheet.catalogue.records import TENDER_C, AnchoredRange, Bolting, Harvest, Kind, Move, Range, Tray, Window


class Row(msgspec.Struct, frozen=True):
    """A line of the page: under which heading, what it is called, what it says, where that is from."""

    heading: str
    label: str
    text: str
    sources: tuple[str, ...] = ()


def rows_of(kind: Kind) -> list[Row]:
    """Every number and word that is known of a kind, as rows."""
    return [
        Row(heading, label, text, kind.sources.get(path, ()))
        for heading, lines in _sections(kind)
        for label, text, path in lines
    ]


_Lines = Iterator[tuple[str, str, str]]  # label, text, path in the crop file


def _sections(kind: Kind) -> Iterator[tuple[str, _Lines]]:
    yield "Raised", _raised(kind)
    yield "Seed", _seed(kind)
    yield "In trays", _tray(kind.tray)
    yield "Cold: the night it lives through", _cold(kind)
    yield "Goes into the bed", _windows(kind)
    yield "Space", _space(kind)
    yield "Harvest", _harvest(kind)
    yield "Covers", ((word, text, f"covers.{word}") for word, text in kind.covers.items())
    yield "Signs to go by", ((stage, text, f"signs.{stage}") for stage, text in kind.signs.items())
    yield "Take care", ((stage, text, f"cautions.{stage}") for stage, text in kind.cautions.items())


def _raised(kind: Kind) -> _Lines:
    ways = {"tray": "in trays", "drill": "sown direct", "set": kind.setting.what if kind.setting else ""}
    found = [way for way, given in (("tray", kind.tray), ("drill", kind.drill), ("set", kind.setting)) if given]
    text = " or ".join(ways[way] for way in found)
    yield "how", f"{text}, usually {ways[kind.usually]}" if len(found) > 1 else text, "usually"
    if kind.use != "food":
        yield "grown for", {"green manure": "the soil: a green manure", "flowers": "its flowers"}[kind.use], "use"
    if kind.drill:
        for rate, label, path in (
            (kind.drill.seeds_per_m, "seeds a metre of drill", "drill.seeds a metre"),
            (kind.drill.grams_per_m2, "grams a square metre", "drill.grams a square metre"),
        ):
            yield from ((label, _range(rate), path),) if rate else ()
    if kind.setting:
        if kind.setting.per_kg:
            yield f"{kind.setting.what} in a kilo", _range(kind.setting.per_kg), "set.a kilo"
        if kind.setting.per_bulb:
            yield "cloves to a bulb", _range(kind.setting.per_bulb), "set.to a bulb"
        if kind.setting.chits_days:
            yield "set to sprout", f"{_range(kind.setting.chits_days, 'days')} before they go in", "set.chits"


def _seed(kind: Kind) -> _Lines:
    if kind.germination:
        found = kind.germination
        points = ", ".join(f"{days:g} at {temp:g} °C" for temp, days in found.days_up)
        yield "days to come up", points, "germinates.days up"
        yield "comes up between", f"{found.min_c:g} and {found.max_c:g} °C", "germinates.between"
        yield "best at", f"{found.best_low_c:g} to {found.best_high_c:g} °C", "germinates.best at"
        if found.light:
            text = "wanted: do not cover the seed" if found.light == "wanted" else "none: keep it dark until it is up"
            yield "light", text, "germinates.light"
    if kind.seed:
        yield "seeds in a gram", f"{kind.seed.per_g:g}", "seed.a gram"
        yield "germination to expect", f"{kind.seed.comes_up * 100:g} %", "seed.comes up"
        yield "depth", _range(kind.seed.depth_mm, "mm"), "seed.depth"


def _tray(tray: Tray | None) -> _Lines:
    if tray is None:
        return
    sown = "straight into the cells" if tray.sown_in == "module" else "into a seed tray, pricked out later"
    yield "sown", sown, "tray.raised"
    label = "seeds to a cell" if tray.sown_in == "module" else "seedlings to a cell"
    yield label, f"{tray.seeds_per_cell}", "tray.seeds to a cell"
    yield "plants to a cell", _range(tray.plants_per_cell), "tray.plants to a cell"
    yield "cell", _range(tray.cell_ml, "ml"), "tray.cell"
    if tray.prick_out:
        yield "pricked out", _move(tray.prick_out), "tray.prick out"
    if tray.pot_on:
        yield "potted on", _move(tray.pot_on), "tray.pot on"
    yield "from up to planting", _range(tray.up_to_planting_days, "days"), "tray.up to planting"
    yield "hardening, inside it", _range(tray.hardening_days, "days"), "tray.hardening"
    yield "a ready tray waits", _range(tray.holds_days, "days"), "tray.holds"


def _cold(kind: Kind) -> _Lines:
    if kind.tray and kind.cold.soft_c is not None:
        yield "young and soft", f"{kind.cold.soft_c:g} °C", "cold.soft"
    if kind.tray and kind.cold.hardened_c is not None:
        yield "hardened off", f"{kind.cold.hardened_c:g} °C", "cold.hardened"
    yield "in the bed", f"{kind.cold.in_bed_c:g} °C", "cold.in the bed"


def _windows(kind: Kind) -> _Lines:
    for number, window in enumerate(kind.windows, 1):
        verb = "sown direct" if window.seed else "planted" if kind.tray else "set"
        yield f"{verb} under glass" if window.under_glass else verb, _window(window), f"goes out.{number}"
    if kind.wants_glass:
        yield "under cover", "wanted; outdoors at the grower's risk", "under cover"
    for number, bolting in enumerate(kind.bolts, 1):
        yield "would bolt", _bolting(bolting), f"bolts.{number}"


def _window(window: Window) -> str:
    text = f"from {in_words(window.start)} until {in_words(window.until)}"
    return f"{text}; under fleece from {in_words(window.fleece_start)}" if window.fleece_start else text


def _bolting(bolting: Bolting) -> str:
    sown = f"sown from {in_words(bolting.sown_start)} until {in_words(bolting.sown_until)}"
    return f"{sown} ({bolting.cause}): {bolting.why}"


def _space(kind: Kind) -> _Lines:
    yield "between rows", _range(kind.space.row_gap_cm, "cm"), "space.rows"
    yield "in the row", _range(kind.space.in_row_cm, "cm"), "space.in the row"


def _harvest(kind: Kind) -> _Lines:
    harvest = kind.harvest
    manure = kind.use == "green manure"
    yield "cut from" if manure else "first pick", _first_pick(harvest, manure), "harvest.first pick"
    if harvest.first_pick_direct:
        text = f"{_range(harvest.first_pick_direct, 'days')}, from sowing"
        yield "first pick, sown direct", text, "harvest.first pick, sown direct"
    if harvest.at_least_days:
        yield "not sooner than", f"{_range(harvest.at_least_days, 'days')} after planting", "harvest.at least"
    if harvest.not_after:
        yield "at the latest", f"{in_words(harvest.not_after)}, whatever the day count", "harvest.not after"
    if harvest.lasts_days:
        yield "lasts", _range(harvest.lasts_days, "days"), "harvest.lasts"
    if harvest.until:
        yield "until", in_words(harvest.until), "harvest.until"
    frost = "the first frost" if kind.cold.in_bed_c >= TENDER_C else "hard frost"
    ends = {"age": "age", "frost": frost, "bolting": "running to seed", "cutting": "cutting"}
    yield "ended by", ends[harvest.ends_with], "harvest.ends with"
    if kind.dries_days:
        yield "dries", f"{_range(kind.dries_days, 'days')}, after lifting", "dries"
    if kind.forces_days:
        yield "forced in the dark", f"{_range(kind.forces_days, 'days')}, after lifting", "forces"
    if kind.rests_days:
        yield "the bed rests", f"{_range(kind.rests_days, 'days')} before the next crop", "rests"
    if kind.after_it:
        yield "after it", kind.after_it, "after it"
    if kind.stands_years:
        yield "stands for", _range(kind.stands_years, "years"), "stands for"


def _first_pick(harvest: Harvest, cut: bool) -> str:
    stands = f"; then {'cut' if cut else 'lifted'} as wanted" if harvest.by == "stands" else ""
    if isinstance(harvest.first_pick, AnchoredRange):
        return range_in_words(harvest.first_pick) + stands
    return f"{_range(harvest.first_pick, 'days')}, from {harvest.counted_from}{stands}"


def _move(move: Move) -> str:
    return f"{_range(move.days_after_up, 'days')}, after it is up, into {_range(move.into_ml, 'ml')}"


def _range(found: Range, unit: str = "") -> str:
    """`24 to 32 days, usually 28`. A middle that no source gives as the usual is not called so."""
    last = f"{found.high:g} {'day' if unit == 'days' and found.high == 1 else unit}".rstrip()
    if found.low == found.high:
        return last
    usual = "" if found.usual == (found.low + found.high) / 2 else f", usually {found.usual:g}"
    return f"{found.low:g} to {last}{usual}"
