"""Whether a kind, with all its lines joined, is complete and its stages are possible."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from sowsheet.catalogue.form import BLOCKS, block_of
from sowsheet.catalogue.join import block, has, maybe, need, row, word
from sowsheet.catalogue.pages import Line, Lines, example_of
from sowsheet.catalogue.records import TENDER_C, AnchoredRange, Move, Range
from sowsheet.reading.dates import Anchored
from sowsheet.reading.mistakes import Mistake, Said, Spot, example, said

DEEPEST_MM = 100.0
WARMEST_KILLING_C = 8.0
_FROM_PLANTING = ("days from planting", "stands")  # their first pick may count from planting or from sowing


def faults(lines: Lines, name: str, where: Spot) -> list[Mistake]:
    """What is missing, or, when nothing is, what cannot be. `where` is the kind's own place in its file."""
    missing = list(_missing(lines, name, where))
    if missing:
        return missing
    return [m for part in (_tray, _set, _drill, _seed, _cold, _windows, _harvest, _use) for m in part(lines)]


def from_seed(lines: Lines) -> bool:
    """Raised in trays or drilled, not set."""
    return has(lines, "tray") or has(lines, "drill")


def _missing(lines: Lines, name: str, where: Spot) -> Iterator[Mistake]:
    if not (from_seed(lines) or has(lines, "set")):
        yield Mistake(where, said("mistake.crops.no way.what", name=name), said("mistake.crops.no way.cure"))
    absent: dict[str, str] = {}  # blocks wholly missing, each told once by its first line
    first_of = {block_of(p): line for p, line in reversed(lines.items())}
    for path in needed(lines):
        first = first_of.get(block_of(path))
        if first is None:
            absent.setdefault(block_of(path), path)
        elif path not in lines and path != "goes out":
            line = path.partition(".")[2]
            what = said("mistake.crops.wants in block", name=name, block=block_of(path), line=line)
            yield Mistake(first.spot, what, _cure(path))
    for block_name, path in absent.items():
        sort = "line" if path in BLOCKS[""] else "block"
        yield Mistake(where, said(f"mistake.crops.wants {sort}", name=name, block=block_name), _cure(path))


def needed(lines: Lines) -> Iterator[str]:
    """The paths of the lines that a kind must have, by what it says already."""
    yield from ("cold.in the bed", "goes out", "space.rows", "space.in the row")
    yield from ("harvest.by", "harvest.first pick", "harvest.ends with", "signs.pick")
    if "harvest.until" not in lines:
        yield "harvest.lasts"
    if from_seed(lines):
        yield from ("germinates.days up", "germinates.between", "germinates.best at")
        yield from ("seed.a gram", "seed.comes up", "seed.depth", "signs.up")
    if has(lines, "tray"):
        yield from (f"tray.{key}" for key in BLOCKS["tray"] if key not in ("prick out", "pot on"))
        yield from ("cold.soft", "cold.hardened", "signs.plant")
        yield from (f"signs.{step}" for step in ("prick out", "pot on") if f"tray.{step}" in lines)
        if maybe(lines, "tray.raised", str) == "seed tray":
            yield "tray.prick out"
    if has(lines, "drill") and "drill.grams a square metre" not in lines:
        yield "drill.seeds a metre"
    if has(lines, "tray") and has(lines, "drill"):
        yield "usually"
        if maybe(lines, "harvest.by", str) in _FROM_PLANTING and isinstance(word(lines, "harvest.first pick"), Range):
            yield "harvest.first pick, sown direct"
    if has(lines, "set"):
        yield "set.what"
        yield from () if maybe(lines, "set.what", str) == "crowns" else ("set.a kilo",)
        yield from ("set.to a bulb",) if maybe(lines, "set.what", str) == "cloves" else ()


def _cure(path: str) -> Said:
    if path == "goes out":
        row = "  - {from: 6 weeks before last frost, until: .., source: practice}"
        return said("mistake.crops.example under", head="goes out:", row=row)
    name, _, key = path.partition(".")
    form = BLOCKS[name][key] if key else BLOCKS[""][name]
    return example_of(key or name, form)


def _tray(lines: Lines) -> Iterator[Mistake]:
    if not has(lines, "tray"):
        return
    growing = need(lines, "tray.up to planting", Range)
    if need(lines, "tray.hardening", Range).high >= growing.low:
        yield _impossible(lines["tray.hardening"], said("mistake.crops.cannot.hardening"))
    steps = [(step, maybe(lines, f"tray.{step}", Move)) for step in ("prick out", "pot on")]
    moves = [(step, move) for step, move in steps if move]
    for step, move in moves:
        if move.days_after_up.usual >= growing.usual:
            yield _impossible(lines[f"tray.{step}"], said("mistake.crops.cannot.after planting", step=step))
    if len(moves) == 2:
        (_, prick), (_, pot) = moves
        if prick.days_after_up.usual >= pot.days_after_up.usual:
            yield _impossible(lines["tray.pot on"], said("mistake.crops.cannot.pot on first"))
        if prick.into_ml.usual >= pot.into_ml.usual:
            yield _impossible(lines["tray.pot on"], said("mistake.crops.cannot.smaller pot"))
    if need(lines, "tray.plants to a cell", Range).low > need(lines, "tray.seeds to a cell", int):
        yield _impossible(lines["tray.plants to a cell"], said("mistake.crops.cannot.plants to a cell"))


def _set(lines: Lines) -> Iterator[Mistake]:
    if has(lines, "set") and "set.to a bulb" in lines and need(lines, "set.what", str) != "cloves":
        yield _impossible(lines["set.to a bulb"], said("mistake.crops.cannot.to a bulb"))
    if has(lines, "set") and "set.chits" in lines and need(lines, "set.what", str) != "tubers":
        yield _impossible(lines["set.chits"], said("mistake.crops.cannot.chits"))
    if "usually" in lines and not (has(lines, "tray") and has(lines, "drill")):
        yield _impossible(lines["usually"], said("mistake.crops.cannot.usually"))


def _drill(lines: Lines) -> Iterator[Mistake]:
    if {"drill.seeds a metre", "drill.grams a square metre"} <= lines.keys():
        what, cure = said("mistake.crops.cannot.both rates.what"), said("mistake.crops.cannot.both rates.cure")
        yield _impossible(lines["drill.grams a square metre"], what, cure)


def _use(lines: Lines) -> Iterator[Mistake]:
    if maybe(lines, "use", str) == "green manure":
        return
    cure = said("mistake.crops.cannot.manure.cure")
    if maybe(lines, "harvest.ends with", str) == "cutting":
        yield _impossible(lines["harvest.ends with"], said("mistake.crops.cannot.manure.cutting"), cure)
    if "rests" in lines:
        yield _impossible(lines["rests"], said("mistake.crops.cannot.manure.rests"), cure)


def _seed(lines: Lines) -> Iterator[Mistake]:
    if not from_seed(lines):
        return
    between, best = need(lines, "germinates.between", Range), need(lines, "germinates.best at", Range)
    if best.low < between.low or best.high > between.high:
        yield _impossible(lines["germinates.best at"], said("mistake.crops.cannot.best"))
    depth = need(lines, "seed.depth", Range)
    if not 0 <= depth.low <= depth.high <= DEEPEST_MM:
        yield _impossible(lines["seed.depth"], said("mistake.crops.cannot.deep", depth=depth.high))


def _cold(lines: Lines) -> Iterator[Mistake]:
    soft, hardened = maybe(lines, "cold.soft", float), maybe(lines, "cold.hardened", float)
    for path in ("cold.soft", "cold.hardened", "cold.in the bed"):
        found = maybe(lines, path, float)
        if found is not None and found > WARMEST_KILLING_C:
            cure = said("mistake.crops.cannot.warm night.cure")
            yield _impossible(lines[path], said("mistake.crops.cannot.warm night.what", temp=found), cure)
    if soft is not None and hardened is not None and hardened > soft:
        yield _impossible(lines["cold.hardened"], said("mistake.crops.cannot.hardened"))


def _windows(lines: Lines) -> Iterator[Mistake]:
    pairs = (("from", "until"), ("fleece", "from"), ("sown from", "until"))
    goes_out = list(block(lines, "goes out").values())
    for line in [*goes_out, *block(lines, "bolts").values()]:
        found = row(line)
        for first, last in pairs:
            if _backwards(found.get(first), found.get(last)):
                yield _impossible(line, said("mistake.crops.cannot.backwards", first=first, last=last))
    if has(lines, "tray") and has(lines, "drill") and len({"as" in row(line) for line in goes_out}) < 2:
        yield _impossible(goes_out[0], said("mistake.crops.cannot.two windows"))


def _harvest(lines: Lines) -> Iterator[Mistake]:
    by, pick = need(lines, "harvest.by", str), lines["harvest.first pick"]
    dated = isinstance(pick.value, AnchoredRange)
    if by.startswith("days") and dated:
        what = said("mistake.crops.cannot.by days", by=by)
        yield _impossible(pick, what, example("first pick: 45 to 65 days [practice]"))
    if by == "season" and not dated:
        cure = example("first pick: 3 weeks after midsummer [practice]")
        yield _impossible(pick, said("mistake.crops.cannot.by season"), cure)
    if isinstance(pick.value, AnchoredRange) and _after_its_end(lines, pick.value):
        what, cure = said("mistake.crops.cannot.after its end.what"), said("mistake.crops.cannot.after its end.cure")
        yield _impossible(pick, what, cure)
    only = {
        "harvest.first pick, sown direct": by in _FROM_PLANTING and not dated,
        "harvest.at least": by == "season",
        "harvest.not after": not dated,
    }
    for path, fits in only.items():
        if path in lines and not fits:
            what = said("mistake.crops.cannot.not with by", line=path.partition(".")[2], by=by)
            yield _impossible(lines[path], what)


def _after_its_end(lines: Lines, pick: AnchoredRange) -> bool:
    """Whether a crop that the first frost ends would be picked only then or later."""
    tender = need(lines, "cold.in the bed", float) >= TENDER_C and need(lines, "harvest.ends with", str) == "frost"
    usual = pick.usual
    return tender and isinstance(usual, Anchored) and usual.anchor == "first frost" and usual.days >= 0


def _backwards(start: object, end: object) -> bool:
    """Tied to the same day of the year, and the end first; other pairs only a site can put in order."""
    if not (isinstance(start, Anchored) and isinstance(end, Anchored)):
        return False
    return start.anchor == end.anchor and start.days > end.days


def _impossible(line: Line, what: Said, cure: Said | str = "") -> Mistake:
    return Mistake(line.spot, what, cure)


def unused(lines: Lines, kinds: Iterable[Lines]) -> list[Mistake]:
    """Lines of a crop that none of its kinds takes: written in vain."""
    taken = {id(line) for kind in kinds for line in kind.values()}
    cure = said("mistake.crops.no kind takes.cure")
    return [
        Mistake(line.spot, said("mistake.crops.no kind takes.what", block=block_of(path)), cure)
        for path, line in lines.items()
        if id(line) not in taken
    ]
