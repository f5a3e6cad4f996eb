"""Where trays stand, and the kinds of trays."""

from __future__ import annotations

import re
from functools import partial
from pathlib import Path
from typing import cast

import msgspec

from sowsheet.garden.defaults import assumed_places, assumed_trays
from sowsheet.garden.records import Place, Purpose, Room, Shelter, TrayKind
from sowsheet.garden.site import daily_file, read_monthly
from sowsheet.garden.values import Section, named, one_of, section, size_within
from sowsheet.reading.date_words import in_month, parse_date
from sowsheet.reading.dates import CalendarDay
from sowsheet.reading.measures import is_imperial, parse_count, parse_size, parse_temp_c, parse_volume_ml
from sowsheet.reading.mistakes import Mistake, example, said
from sowsheet.reading.nodes import Entry, Text
from sowsheet.reading.numbers import whole
from sowsheet.reading.plan_records import Dated
from sowsheet.words.language import Language, language_of

_PLACE_KEYS = (
    *("for", "held at", "made", "under", "aired", "on cold nights", "temperatures", "readings"),
    *("room", "from", "until"),
)
_AIRED = ("well", "little")
_WARMER = re.compile(r"(\d+(?:\.\d+)?)\s*°?\s*([cf])\s+warmer", re.IGNORECASE)
_MOST_WARMER_C = 12.0
_TRAY_KEYS = ("cells", "pots", "size", "cell volume", "owned")
_BEDS = "beds"  # what a house that beds lie in is for
_PURPOSES = ("germinating", "growing on", "hardening off", _BEDS)
_SHELTERS = ("unheated glass", "polytunnel", "cold frame", "fleece", "outdoors", "indoors")
_ALSO_CALLED = {
    **dict.fromkeys(("glass", "glasshouse", "greenhouse"), "unheated glass"),
    **dict.fromkeys(("unheated glasshouse", "unheated greenhouse"), "unheated glass"),
    **dict.fromkeys(("tunnel", "unheated polytunnel"), "polytunnel"),
    **dict.fromkeys(("frame", "cold frames"), "cold frame"),
    **dict.fromkeys(("open sky", "the open sky", "outside", "outdoor"), "outdoors"),
    **dict.fromkeys(("a roof", "roof", "inside", "indoor"), "indoors"),
}
_AND = re.compile(r"\s+and\s+|[&+/]", re.IGNORECASE)
_MOST_CELLS = 1000
_WARMEST_HELD_C = 45.0
_LEAST_TRAY_CM, _MOST_TRAY_CM = 3.0, 250.0
_DEEPEST_CM = 40.0  # compost in a tray, were it spread over the whole of it


def read_places(top: Section, folder: Path, language: str) -> tuple[Place, ...]:
    """The places of the file, and assumed ones for what none of them is for. `folder`: where the files that they name
    begin. `language` is that of the assumed places' names."""
    named_here = named(top, "places", "yard: {for: hardening off}")
    places = [_place(name, e, top, folder) for name, e in named_here]
    return with_assumed(tuple(p for p in places if p is not None), language)


def read_trays(top: Section) -> tuple[TrayKind, ...]:
    """The trays of the file; with an assumed module tray where none of them has cells."""
    line = "60-cell: {cells: 60, size: 53 cm x 31 cm, cell volume: 30 ml}"
    found = [_tray(name, e, top) for name, e in named(top, "trays", line)]
    trays = tuple(t for t in found if t is not None)
    return trays if any(t.cells for t in trays) else (*trays, *assumed_trays())


def shelter(text: Text, mistakes: list[Mistake], known: tuple[str, ...] = _SHELTERS) -> Shelter | None:
    """What a place or a bed lies under."""
    word = " ".join(text.text.lower().split())
    also = _ALSO_CALLED.get(word)
    return cast("Shelter | None", also if also in known else one_of(text, known, "shelter", mistakes))


def with_assumed(places: tuple[Place, ...], language: str) -> tuple[Place, ...]:
    """The grower's places, then assumed ones for what none of them is for, by their names in a language."""
    served = {purpose for place in places for purpose in place.purposes}
    if served >= set(_PURPOSES) - {_BEDS}:
        return places
    words, taken = language_of(language), {p.name.casefold() for p in places}
    missing = (p for p in assumed_places(words) if p.purposes[0] not in served)
    return (*places, *(_renamed(p, words) if p.name in taken else p for p in missing))


def _renamed(place: Place, words: Language) -> Place:
    """An assumed place whose name the grower gave to another."""
    return msgspec.structs.replace(place, name=words.say(f"place name.other {place.purposes[0]}"))


def _place(name: str, entry: Entry, top: Section, folder: Path) -> Place | None:
    found = section(entry.value, _PLACE_KEYS, ("for",), top.mistakes, said("mistake.thing.place", name=name))
    purposes = found.read_all("for", _purpose)
    room = found.read("room", _room)
    held, held_as = found.read("held at", _held), found.node("held at")
    under: Shelter | None = found.read("under", shelter)
    start, until = found.read("from", _first_of), found.read("until", _first_of)
    made, aired = found.read("made", _made), found.read("aired", _aired)
    warmer, monthly = found.read("on cold nights", _warmer), found.node("temperatures")
    readings = found.read("readings", partial(daily_file, folder=folder))
    if made is not None and held is not None:
        spot, cure = found.found["made"].key.spot, said("mistake.place.held and made.cure")
        top.mistakes.append(Mistake(spot, said("mistake.place.held and made.what", place=name), cure))
    if not purposes:
        return None
    return Place(
        name,
        tuple(cast("Purpose", p) for p in dict.fromkeys(purposes) if p != _BEDS),
        room or Room(),
        held,
        under or "",
        start,
        until,
        made=made,
        aired=aired == "well",
        warmer_nights_c=warmer,
        monthly=None if monthly is None else read_monthly(monthly, None, top.mistakes),
        readings=readings,
        in_fahrenheit=isinstance(held_as, Text) and is_imperial(held_as),
    )


def _made(text: Text, mistakes: list[Mistake]) -> tuple[int, int] | None:
    """The day of every year on which a hotbed is made."""
    dated = _first_of(text, mistakes)
    if dated is None:
        return None
    if not isinstance(dated.date, CalendarDay):
        mistakes.append(Mistake(text.spot, said("mistake.place.made"), example("made: 20 February")))
        return None
    return dated.date.month, dated.date.day


def _aired(text: Text, mistakes: list[Mistake]) -> str | None:
    return one_of(text, _AIRED, "airing", mistakes)


def _warmer(text: Text, mistakes: list[Mistake]) -> float | None:
    """`3 C warmer`: than outdoors."""
    found = _WARMER.fullmatch(" ".join(text.text.split()))
    degrees = None if found is None else float(found[1]) * (1.0 if found[2] in "cC" else 5 / 9)
    if degrees is not None and degrees <= _MOST_WARMER_C:
        return degrees
    if degrees is not None:
        what = said("mistake.place.too warm.what", most=_MOST_WARMER_C)
        mistakes.append(Mistake(text.spot, what, said("mistake.place.too warm.cure")))
        return None
    mistakes.append(Mistake(text.spot, said("mistake.place.warmer.what"), said("mistake.place.warmer.cure")))
    return None


def _purpose(text: Text, mistakes: list[Mistake]) -> str | None:
    several = [" ".join(part.split()) for part in _AND.split(text.text)]
    if len(several) > 1 and all(part.lower() in _PURPOSES for part in several):
        what = said("mistake.place.several purposes.what", text=" ".join(text.text.split()))
        cure = said("mistake.place.several purposes.cure", line=f"[{', '.join(several)}]")
        mistakes.append(Mistake(text.spot, what, cure))
        return None
    return one_of(text, _PURPOSES, "purpose", mistakes)


def _held(text: Text, mistakes: list[Mistake]) -> float | None:
    held = parse_temp_c(text, mistakes)
    if held is None or 0 <= held <= _WARMEST_HELD_C:
        return held
    what = said("mistake.place.held", text=" ".join(text.text.split()))
    mistakes.append(Mistake(text.spot, what, example("held at: 20 C", "held at: 68 F")))
    return None


def _first_of(text: Text, mistakes: list[Mistake]) -> Dated | None:
    """A date; of a month alone its 1st, as after `from` and `till` in a plan."""
    dated = parse_date(text, mistakes)
    return dated and in_month(dated, "first")


def _room(text: Text, mistakes: list[Mistake]) -> Room | None:
    """`6 trays`, or the size of a bench."""
    words = text.text.lower().split()
    if len(words) == 1 and (count := whole(words[0])) is not None:
        cure = said("mistake.place.room.cure", number=count)
        mistakes.append(Mistake(text.spot, said("mistake.place.room.what"), cure))
        return None
    if words[-1].startswith("tray"):
        trays = parse_count(text, mistakes, "trays", low=1)
        return None if trays is None else Room(trays=trays)
    size = parse_size(text, mistakes)
    return None if size is None else Room(length_cm=size.length_cm, width_cm=size.width_cm)


def _tray(name: str, entry: Entry, top: Section) -> TrayKind | None:
    found = section(entry.value, _TRAY_KEYS, ("size",), top.mistakes, said("mistake.thing.tray", name=name))
    cells = _cells_of(name, entry, found)
    size = found.read("size", lambda t, m: size_within(t, m, _LEAST_TRAY_CM, _MOST_TRAY_CM, "tray"))
    cell_ml = found.read("cell volume", parse_volume_ml)
    owned = found.read("owned", lambda t, m: parse_count(t, m, "trays"))
    if cells is None or size is None:
        return None
    tray = TrayKind(name, cells, size.length_cm, size.width_cm, cell_ml or 0.0, owned)
    _refuse_cells(tray, entry, found)
    return tray


def _cells_of(name: str, entry: Entry, found: Section) -> int | None:
    """How many cells or pots; 0 for an open seed tray, which may leave them out."""
    if "cells" in found.found and "pots" in found.found:
        spot, cure = found.found["pots"].key.spot, said("mistake.tray.cells and pots.cure")
        found.mistakes.append(Mistake(spot, said("mistake.tray.cells and pots.what", tray=name), cure))
    for key in ("cells", "pots"):
        if key in found.found:
            return found.read(key, lambda t, m, of=key: parse_count(t, m, of, high=_MOST_CELLS))  # type: ignore[misc]
    if "cell volume" in found.found or any(word in name.lower() for word in ("cell", "pot", "module")):
        what = said("mistake.tray.how many.what", tray=name)
        found.mistakes.append(Mistake(entry.key.spot, what, said("mistake.tray.how many.cure")))
        return None
    return 0


def _refuse_cells(tray: TrayKind, entry: Entry, found: Section) -> None:
    """Cells without a volume, a volume without cells, cells that do not fit into their tray."""
    given = found.found.get("cell volume")
    if given is None and tray.cells:
        cure = said("mistake.tray.volume.cure")
        found.mistakes.append(Mistake(entry.key.spot, said("mistake.tray.volume.what", tray=tray.name), cure))
    elif given is not None and not tray.cells:
        cure = said("mistake.tray.open.cure")
        found.mistakes.append(Mistake(given.key.spot, said("mistake.tray.open.what", tray=tray.name), cure))
    elif given is not None and tray.cells * tray.cell_ml > _DEEPEST_CM * tray.length_cm * tray.width_cm:
        what = said("mistake.tray.too full.what", n=tray.cells, litres=tray.cells * tray.cell_ml / 1000)
        found.mistakes.append(Mistake(given.value.spot, what, said("mistake.tray.too full.cure")))
