"""A garden file read: strictly, all its mistakes at once, each where it stands."""

from __future__ import annotations

from collections.abc import Callable
from difflib import get_close_matches
from fractions import Fraction
from pathlib import Path
from typing import TypeVar, cast

import msgspec

from sowsheet.garden.defaults import assumed_places, assumed_trays
from sowsheet.garden.records import (
    Bed,
    Frost,
    Garden,
    House,
    Monthly,
    Place,
    Purpose,
    Room,
    Shelter,
    Site,
    TrayKind,
)
from sowsheet.reading.date_words import parse_date
from sowsheet.reading.dates import CalendarDay
from sowsheet.reading.measures import (
    is_imperial,
    parse_count,
    parse_days,
    parse_decimal,
    parse_latitude,
    parse_percent,
    parse_size,
    parse_temp_c,
    parse_volume_ml,
)
from sowsheet.reading.mistakes import Mistake
from sowsheet.reading.names import NameBook
from sowsheet.reading.nodes import Entry, Mapping, Node, Sequence, Text, fields, load
from sowsheet.reading.places import part_of, split_note
from sowsheet.reading.planline import Dated, PlanLine, parse_plan, plan_text

_KEYS = (
    "garden",
    "season",
    "site",
    "places",
    "trays",
    "work days",
    "house",
    "beds are",
    "beds",
    "sow also",
    "paper",
    "crops",
)
_PURPOSES = ("germinating", "growing on", "hardening off")
_SHELTERS = ("unheated glass", "polytunnel", "cold frame", "fleece", "outdoors", "indoors")
_WEEKDAYS = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")
_PAPERS = ("A4", "A3", "A2", "A1", "Letter", "Tabloid")
_MOST_BED_CM = 20_000.0
_MOST_CELLS = 1000

_Value = TypeVar("_Value")
_Found = dict[str, Entry]


def own_crop_files(path: Path) -> tuple[Path, ...]:
    """The grower's own crop files, beside the garden file that names them. Mistakes are told by `read_garden`."""
    root = load(path, [])
    node = root.get("crops") if isinstance(root, Mapping) else None
    texts = node.items if isinstance(node, Sequence) else (node,)
    return tuple(path.parent / t.text for t in texts if isinstance(t, Text) and t.text)


def crops_named(garden: Garden) -> frozenset[str]:
    """The catalogue keys of every crop that a garden's lines name."""
    lines = (*(b.plan for b in garden.beds), *garden.also)
    steps = (step for line in lines if line is not None for step in line.steps)
    return frozenset(item.crop for step in steps for item in (*step.items, *step.between))


def read_garden(path: Path, names: NameBook, mistakes: list[Mistake]) -> Garden | None:
    """The garden in a file; None when it cannot be read at all. Every mistake is added to `mistakes`."""
    root = load(path, mistakes)
    if root is None:
        return None
    found = fields(root, _KEYS, ("garden", "season", "site", "beds"), mistakes, "a garden file")
    if not found:
        return None
    texts = _Texts(found, mistakes)
    default = texts.read("beds are", lambda t, m: parse_size(t, m, _MOST_BED_CM))
    beds = _beds(found, names, (default.length_cm, default.width_cm) if default else None, mistakes)
    site = _site(found["site"].value, mistakes) if "site" in found else None
    return Garden(
        name=texts.read("garden", _name) or "",
        season=texts.read("season", _season) or 2000,
        site=site or Site(0.0),
        places=_places(found, mistakes) or assumed_places(),
        trays=_trays(found, mistakes) or assumed_trays(),
        beds=beds,
        also=_also(found, names, mistakes),
        work_days=texts.read("work days", _work_days, several=True) or frozenset(),
        house=_house(found, mistakes),
        paper=texts.read("paper", _paper) or "",
        imperial=_any_imperial(found),
        file=str(path),
    )


class _Texts(msgspec.Struct):
    """Scalars of a mapping, each read by its own reader; a mapping or list where words belong is a mistake."""

    found: _Found
    mistakes: list[Mistake]

    def read(
        self, key: str, reader: Callable[[Text, list[Mistake]], _Value | None], several: bool = False
    ) -> _Value | None:
        """The value under a key, or None when it is not there or wrong."""
        entry = self.found.get(key)
        if entry is None:
            return None
        value = entry.value
        if several and isinstance(value, Sequence) and all(isinstance(i, Text) for i in value.items):
            value = Text(", ".join(cast("Text", i).text for i in value.items), value.spot)
        if not isinstance(value, Text):
            self.mistakes.append(Mistake(value.spot, f"`{key}` wants a few words on one line", ""))
            return None
        if not value.text.strip():
            self.mistakes.append(Mistake(entry.key.spot, f"`{key}` is empty", f"Write it, or leave `{key}` out."))
            return None
        return reader(value, self.mistakes)


def _name(text: Text, mistakes: list[Mistake]) -> str | None:
    """A name that can be printed: no control characters, nothing outside the basic plane."""
    odd = next((c for c in text.text if not c.isprintable() or ord(c) > 0xFFFF), None)
    if odd is not None:
        what = f"the character {odd!r} cannot be printed"
        mistakes.append(Mistake(text.spot, what, "Leave it out; letters, digits and signs are fine."))
        return None
    return text.text.strip()


def _season(text: Text, mistakes: list[Mistake]) -> int | None:
    return parse_count(text, mistakes, low=1990, high=2200)


def _paper(text: Text, mistakes: list[Mistake]) -> str | None:
    return _one_of(text, _PAPERS, "a paper", mistakes)


def _one_of(text: Text, known: tuple[str, ...], what: str, mistakes: list[Mistake]) -> str | None:
    word = " ".join(text.text.split())
    match = next((k for k in known if k.lower() == word.lower()), None)
    if match is None:
        near = get_close_matches(word.lower(), [k.lower() for k in known], n=1)
        cure = f"Did you mean `{near[0]}`?" if near else f"One of: {', '.join(known)}."
        mistakes.append(Mistake(text.spot, f"`{word}` is not {what}", cure))
    return match


def _pieces(text: Text) -> list[Text]:
    """A line split at its commas, each piece at its own place."""
    pieces, start = [], 0
    for piece in text.text.split(","):
        pieces.append(part_of(text, start, start + len(piece)))
        start += len(piece) + 1
    return [p for p in pieces if p.text]


def _work_days(text: Text, mistakes: list[Mistake]) -> frozenset[int] | None:
    days = set()
    for piece in _pieces(text):
        word = piece.text.lower().rstrip("s")
        match = [n for n, day in enumerate(_WEEKDAYS) if len(word) >= 3 and day.startswith(word)]
        if match:
            days.add(match[0])
        else:
            near = get_close_matches(word, _WEEKDAYS, n=1)
            cure = f"Did you mean `{near[0].title()}`?" if near else "e.g. `work days: Tuesday, Saturday`"
            mistakes.append(Mistake(piece.spot, f"`{piece.text}` is no day of the week", cure))
    return frozenset(days)


def _site(node: Node, mistakes: list[Mistake]) -> Site | None:
    keys = ("latitude", "last frost", "first frost", "temperatures")
    found = fields(node, keys, ("latitude",), mistakes, "the site")
    texts = _Texts(found, mistakes)
    latitude = texts.read("latitude", parse_latitude)
    last, first = texts.read("last frost", _frost), texts.read("first frost", _frost)
    monthly = _monthly(found["temperatures"].value, mistakes) if "temperatures" in found else None
    if latitude is None:
        return None
    for frost, name, months in ((last, "last frost", range(1, 8)), (first, "first frost", range(7, 13))):
        if frost is not None and abs(latitude) > 25 and (frost.day.month in months) == (latitude < 0):
            what = f"the {name} at this latitude does not fall in that month"
            cure = "The last frost ends the winter, the first begins the next; south of the equator write `37 S`."
            mistakes.append(Mistake(frost.spot, what, cure))
    return Site(latitude, last, first, monthly)


def _frost(text: Text, mistakes: list[Mistake]) -> Frost | None:
    words, note = split_note(text)
    dated = parse_date(words, mistakes)
    if dated is None:
        return None
    if not isinstance(dated.date, CalendarDay):
        mistakes.append(Mistake(text.spot, "a frost date is a day of the calendar", "e.g. `10 May (average)`"))
        return None
    if note is None:
        cure = f"Write `{words.text} (average)` if half of all years have a later one, `(safe)` if 1 year in 10."
        mistakes.append(Mistake(text.spot, "is this the average date, or the safe one?", cure))
        return None
    meaning = _one_of(note, ("average", "safe"), "a meaning of a frost date", mistakes)
    return Frost(dated.date, "safe" if meaning == "safe" else "average", text.spot) if meaning else None


def _monthly(node: Node, mistakes: list[Mistake]) -> Monthly | None:
    found = fields(node, ("min", "max"), ("min", "max"), mistakes, "`temperatures`")
    low, high = (_twelve(found[key].value, key, mistakes) if key in found else None for key in ("min", "max"))
    if low is None or high is None:
        return None
    wrong = next((n for n in range(12) if low[n] > high[n]), None)
    if wrong is not None:
        what = f"in month {wrong + 1} the minimum ({low[wrong]:g}) is above the maximum ({high[wrong]:g})"
        mistakes.append(Mistake(found["min"].value.spot, what, "January comes first in both lists."))
        return None
    return Monthly(low, high)


def _twelve(node: Node, key: str, mistakes: list[Mistake]) -> tuple[float, ...] | None:
    if not isinstance(node, Sequence) or not all(isinstance(i, Text) for i in node.items):
        mistakes.append(Mistake(node.spot, f"`{key}` wants a list of twelve numbers", "e.g. `[1.0, 1.0, 2.3, …]`"))
        return None
    values = [_degrees(cast("Text", item), mistakes) for item in node.items]
    if len(values) != 12:
        what = f"`{key}` has {len(values)} values; a year has twelve months"
        mistakes.append(Mistake(node.spot, what, "January to December, one number each."))
        return None
    known = [v for v in values if v is not None]
    return tuple(known) if len(known) == 12 else None


def _degrees(text: Text, mistakes: list[Mistake]) -> float | None:
    """A temperature; a bare number is in C."""
    if text.text.strip()[-1:].isalpha():
        return parse_temp_c(text, mistakes)
    return parse_decimal(text, mistakes, -60.0, 60.0)


def _named(entry: Entry | None, what: str, mistakes: list[Mistake]) -> list[tuple[str, Entry]]:
    """Entries of a mapping from names to things."""
    if entry is None:
        return []
    if not isinstance(entry.value, Mapping):
        mistakes.append(Mistake(entry.value.spot, f"`{entry.key.text}` wants a line for each {what}", ""))
        return []
    names = [(_name(e.key, mistakes), e) for e in entry.value.entries]
    return [(name, e) for name, e in names if name]


def _places(found: _Found, mistakes: list[Mistake]) -> tuple[Place, ...]:
    made = [_place(name, entry, mistakes) for name, entry in _named(found.get("places"), "place", mistakes)]
    places = tuple(p for p in made if p is not None)
    missing = [p for p in assumed_places() if places and not any(p.purposes[0] in q.purposes for q in places)]
    return (*places, *(m for m in missing if m.name not in {p.name for p in places}))


def _place(name: str, entry: Entry, mistakes: list[Mistake]) -> Place | None:
    keys = ("for", "held at", "under", "room", "from", "until")
    found = fields(entry.value, keys, ("for",), mistakes, f"the place `{name}`")
    texts = _Texts(found, mistakes)
    purposes = texts.read("for", _purposes, several=True)
    if not purposes:
        return None
    return Place(
        name,
        purposes,
        texts.read("room", _room) or Room(),
        texts.read("held at", parse_temp_c),
        cast("Shelter", texts.read("under", _shelter) or ""),
        texts.read("from", _dated),
        texts.read("until", _dated),
    )


def _purposes(text: Text, mistakes: list[Mistake]) -> tuple[Purpose, ...]:
    found = [_one_of(piece, _PURPOSES, "what a place is for", mistakes) for piece in _pieces(text)]
    return tuple(cast("Purpose", f) for f in found if f)


def _shelter(text: Text, mistakes: list[Mistake]) -> str | None:
    known = {"glass": "unheated glass", "glasshouse": "unheated glass", "tunnel": "polytunnel", "frame": "cold frame"}
    return known.get(text.text.strip().lower()) or _one_of(text, _SHELTERS, "a kind of shelter", mistakes)


def _dated(text: Text, mistakes: list[Mistake]) -> Dated | None:
    return parse_date(text, mistakes)


def _room(text: Text, mistakes: list[Mistake]) -> Room | None:
    if "tray" in text.text.lower():
        trays = parse_count(text, mistakes, "trays", low=1)
        return None if trays is None else Room(trays=trays)
    size = parse_size(text, mistakes)
    return None if size is None else Room(length_cm=size.length_cm, width_cm=size.width_cm)


def _trays(found: _Found, mistakes: list[Mistake]) -> tuple[TrayKind, ...]:
    made = [_tray(name, entry, mistakes) for name, entry in _named(found.get("trays"), "kind of tray", mistakes)]
    return tuple(t for t in made if t is not None)


def _tray(name: str, entry: Entry, mistakes: list[Mistake]) -> TrayKind | None:
    keys = ("cells", "pots", "size", "cell volume", "owned")
    found = fields(entry.value, keys, ("size",), mistakes, f"the tray `{name}`")
    texts = _Texts(found, mistakes)
    cells = texts.read("cells", _cells) if "cells" in found else texts.read("pots", _cells)
    size = texts.read("size", parse_size)
    volume = texts.read("cell volume", parse_volume_ml)
    owned = texts.read("owned", lambda t, m: parse_count(t, m, "trays"))
    if cells and volume is None and "cell volume" not in found:
        cure = "e.g. `cell volume: 30 ml`; fill a cell with water to measure it"
        mistakes.append(Mistake(entry.key.spot, f"the tray `{name}` wants `cell volume`", cure))
    if size is None:
        return None
    return TrayKind(name, cells or 0, size.length_cm, size.width_cm, volume or 0.0, owned)


def _cells(text: Text, mistakes: list[Mistake]) -> int | None:
    return parse_count(text, mistakes, low=0, high=_MOST_CELLS)


def _house(found: _Found, mistakes: list[Mistake]) -> House:
    if "house" not in found:
        return House()
    own = fields(found["house"].value, ("spare", "hardening", "fleece", "risk"), (), mistakes, "`house`")
    texts = _Texts(own, mistakes)
    usual = House()
    spare, fleece = texts.read("spare", parse_percent), texts.read("fleece", parse_days)
    risk = texts.read("risk", _risk)
    return House(
        usual.spare if spare is None else spare,
        texts.read("hardening", lambda t, m: parse_days(t, m, 60)),
        usual.fleece_days if fleece is None else fleece,
        usual.risk if risk is None else float(risk),
    )


def _risk(text: Text, mistakes: list[Mistake]) -> Fraction | None:
    """`1 in 10` or `10 %`: the chance of a killing night that planting accepts."""
    one, _, of = text.text.partition(" in ")
    if one.strip() == "1" and of.strip().isdigit() and 2 <= int(of) <= 1000:
        return Fraction(1, int(of))
    return parse_percent(text, mistakes)


def _beds(
    found: _Found, names: NameBook, default: tuple[float, float] | None, mistakes: list[Mistake]
) -> tuple[Bed, ...]:
    made = [_bed(name, e, names, default, mistakes) for name, e in _named(found.get("beds"), "bed", mistakes)]
    return tuple(b for b in made if b is not None)


def _bed(
    name: str, entry: Entry, names: NameBook, default: tuple[float, float] | None, mistakes: list[Mistake]
) -> Bed | None:
    node, size, under = entry.value, default, ""
    if (isinstance(node, Mapping) and not node.flow) or _has_bed_keys(node):
        own = fields(node, ("size", "under", "plan"), (), mistakes, f"the bed `{name}`")
        texts = _Texts(own, mistakes)
        given = texts.read("size", lambda t, m: parse_size(t, m, _MOST_BED_CM))
        size = (given.length_cm, given.width_cm) if given else default
        under = texts.read("under", _shelter) or ""
        plan = _plan(own["plan"].value, names, mistakes) if "plan" in own else None
    else:
        plan = _plan(node, names, mistakes)
    if size is None:
        cure = "Add `beds are: 6 m x 1.2 m` for all beds, or a `size` to this one."
        mistakes.append(Mistake(entry.key.spot, f"how large the bed `{name}` is, is not said", cure))
        return None
    return Bed(name, size[0], size[1], plan, entry.key.spot, cast("Shelter", under))


def _has_bed_keys(node: Node) -> bool:
    """Whether braces hold a bed's keys, rather than a plan that YAML split at its commas."""
    return isinstance(node, Mapping) and any(e.key.text in ("size", "under", "plan") for e in node.entries)


def _plan(node: Node, names: NameBook, mistakes: list[Mistake]) -> PlanLine | None:
    """A plan line, or a list of lines that follow each other."""
    if isinstance(node, Sequence) and all(isinstance(i, Text) for i in node.items):
        lines = [_line(cast("Text", item), names, mistakes) for item in node.items]
        known = [line for line in lines if line is not None]
        steps = tuple(step for line in known for step in line.steps)
        return PlanLine(steps, "; ".join(line.text for line in known), node.spot) if known else None
    text = plan_text(node, mistakes)
    return None if text is None else _line(text, names, mistakes)


def _line(text: Text, names: NameBook, mistakes: list[Mistake]) -> PlanLine | None:
    return parse_plan(text, names, mistakes)


def _also(found: _Found, names: NameBook, mistakes: list[Mistake]) -> tuple[PlanLine, ...]:
    entry = found.get("sow also")
    if entry is None:
        return ()
    nodes = entry.value.items if isinstance(entry.value, Sequence) else (entry.value,)
    lines = []
    for node in nodes:
        text = plan_text(node, mistakes)
        line = None if text is None else parse_plan(text, names, mistakes, sow_also=True)
        lines += [line] if line is not None else []
    return tuple(lines)


def _any_imperial(found: _Found) -> bool:
    """Whether the beds' size was written in feet or inches: measures are told back the same way."""
    entry = found.get("beds are")
    return entry is not None and isinstance(entry.value, Text) and is_imperial(entry.value)
