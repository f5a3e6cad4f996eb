"""The beds of a garden file, each with its plan, and what is sown besides."""

from __future__ import annotations

import msgspec

from sowsheet.garden.habits import compost_mm
from sowsheet.garden.places import shelter
from sowsheet.garden.records import Bed, Place, Shelter, Where, is_under_glass
from sowsheet.garden.values import Section, is_blank, named, section, size_within
from sowsheet.reading.measures import Size, is_imperial
from sowsheet.reading.mistakes import Mistake, example, said
from sowsheet.reading.names import NameBook
from sowsheet.reading.nodes import Entry, Mapping, Node, Sequence, Text
from sowsheet.reading.planline import PlanLine, parse_plan, plan_text

_KEYS = ("size", "under", "plan", "compost")
_SHELTERS = ("unheated glass", "polytunnel", "cold frame", "outdoors")
_NARROWEST_CM, _LONGEST_CM = 10.0, 20_000.0


class _Reading(msgspec.Struct, frozen=True):
    """What reading every bed takes: the size of those that do not say theirs, and the names of crops.

    `size` is None when it is not said; when it is said and wrong, that is told already.
    """

    size: Size | None
    size_told: bool
    names: NameBook
    places: tuple[Place, ...]
    mistakes: list[Mistake]


def read_beds(top: Section, names: NameBook, places: tuple[Place, ...]) -> tuple[Bed, ...]:
    """The beds, each with the plan it has, and the house it lies in. A bed without a plan rests."""
    size = top.read("beds are", _size)
    reading = _Reading(size, "beds are" in top.found, names, places, top.mistakes)
    line = "North 1: lettuce 1 April, then leeks"
    beds = [_bed(name, entry, reading) for name, entry in named(top, "beds", line)]
    if not beds and "beds" in top.found and not isinstance(top.node("beds"), Sequence | Text):
        top.mistakes.append(Mistake(top.found["beds"].key.spot, said("mistake.bed.none"), example(line)))
    return tuple(b for b in beds if b is not None)


def read_also(top: Section, names: NameBook, standing: tuple[str, ...]) -> tuple[PlanLine, ...]:
    """The lines of `sow also`: sowings without a bed."""
    node = top.node("sow also")
    nodes = node.items if isinstance(node, Sequence) else () if node is None else (node,)
    lines = (_also(item, names, standing, top.mistakes) for item in nodes)
    return tuple(line for line in lines if line is not None)


def in_feet(top: Section) -> bool:
    """Whether measures are told back in feet and inches: as all beds are measured, else as the first that is."""
    beds = top.node("beds")
    own = [e.value.get("size") for e in getattr(beds, "entries", ()) if isinstance(e.value, Mapping)]
    first = next((size for size in (top.node("beds are"), *own) if isinstance(size, Text)), None)
    return first is not None and is_imperial(first)


def _bed(name: str, entry: Entry, reading: _Reading) -> Bed | None:
    if _is_mapping_of_a_bed(entry.value):
        found = section(entry.value, _KEYS, (), reading.mistakes, said("mistake.thing.bed", name=name))
        plan = _plan(found.found["plan"].value, reading) if "plan" in found.found else None
    else:
        found = Section({}, reading.mistakes)
        plan = _plan(entry.value, reading, in_brackets=False)
    sized = "size" in found.found
    size = found.read("size", _size) if sized else reading.size
    where: Where | None = found.read("under", lambda t, m: _where(t, m, reading.places))
    house = where if isinstance(where, Place) else None
    under = where.under if isinstance(where, Place) else where or ""
    compost = found.read("compost", compost_mm)
    if size is not None:
        return Bed(name, size.length_cm, size.width_cm, plan, entry.key.spot, under, house, compost)
    if not sized and not reading.size_told:
        what, cure = said("mistake.bed.how large.what", bed=name), said("mistake.bed.how large.cure")
        reading.mistakes.append(Mistake(entry.key.spot, what, cure))
    return None


def _is_mapping_of_a_bed(node: Node) -> bool:
    """Whether this is a bed's `size`, `under` and `plan`, and no plan that YAML parted at its commas."""
    if not isinstance(node, Mapping):
        return False
    own = any(entry.key.text in _KEYS for entry in node.entries)
    return own or not (node.flow and any(is_blank(entry.value) for entry in node.entries))


def _size(text: Text, mistakes: list[Mistake]) -> Size | None:
    """A bed's size, in whatever order it was written: the longer side is the length."""
    size = size_within(text, mistakes, _NARROWEST_CM, _LONGEST_CM, "bed")
    if size is None:
        return None
    return Size(max(size.length_cm, size.width_cm), min(size.length_cm, size.width_cm))


def _where(text: Text, mistakes: list[Mistake], places: tuple[Place, ...]) -> Where | None:
    """A place of the garden by its name, or a kind of shelter."""
    name = " ".join(text.text.casefold().split())
    place = next((p for p in places if p.name.casefold() == name and not p.assumed), None)
    if place is None:
        return _shelter(text, mistakes)
    if is_under_glass(place):
        return place
    cure = said("mistake.bed.no house.cure", place=place.name)
    mistakes.append(Mistake(text.spot, said("mistake.bed.no house.what", place=place.name), cure))
    return None


def _shelter(text: Text, mistakes: list[Mistake]) -> Shelter | None:
    if text.text.strip().lower() in ("fleece", "mesh", "net"):
        cover = text.text.strip().lower()
        cure = said("mistake.bed.cover.cure", cover=cover)
        mistakes.append(Mistake(text.spot, said("mistake.bed.cover.what", cover=cover), cure))
        return None
    return shelter(text, mistakes, _SHELTERS)


def _plan(node: Node, reading: _Reading, in_brackets: bool = True) -> PlanLine | None:
    """A plan line, or a list of lines that follow each other as with `then`. None for a bed that rests.

    Without `in_brackets` a list in brackets is taken as a line that YAML parted at its commas, and refused.
    """
    listed = isinstance(node, Sequence) and (in_brackets or not _starts_with_bracket(node))
    text = _joined(node, reading.mistakes) if listed else plan_text(node, reading.mistakes)
    if text is None:
        return None
    standing = tuple(p.name for p in reading.places if p.purposes)
    return parse_plan(text, reading.names, reading.mistakes, standing=standing)


def _starts_with_bracket(node: Node) -> bool:
    return node.spot.excerpt[node.spot.column - 1 :].startswith("[")


def _joined(node: Node, mistakes: list[Mistake]) -> Text | None:
    """The lines of a list as one text over several lines, each of which keeps its place."""
    lines: list[Text] = []
    for item in node.items if isinstance(node, Sequence) else ():
        noted = len(mistakes)
        text = plan_text(item, mistakes)
        if text is not None:
            lines.append(text)
        elif len(mistakes) == noted:
            what, cure = said("mistake.bed.empty line.what"), said("mistake.bed.empty line.cure")
            mistakes.append(Mistake(item.spot, what, cure))
    if not lines:
        return None
    spots = tuple(spot for text in lines for spot in (text.lines or (text.spot,)))
    return Text("\n".join(text.text.strip() for text in lines), node.spot, plain=False, lines=spots)


def _also(node: Node, names: NameBook, standing: tuple[str, ...], mistakes: list[Mistake]) -> PlanLine | None:
    noted = len(mistakes)
    text = plan_text(node, mistakes)
    if text is None and len(mistakes) == noted:
        cure = example("60 lettuce every 3 weeks March to August")
        mistakes.append(Mistake(node.spot, said("mistake.bed.empty also"), cure))
    return None if text is None else parse_plan(text, names, mistakes, sow_also=True, standing=standing)
