"""A garden in another language than its file names: what is taken for granted in it changes its name."""

from __future__ import annotations

from collections.abc import Mapping

import msgspec

from sowsheet.garden.places import with_assumed
from sowsheet.garden.records import Garden
from sowsheet.reading.plan_records import Item, PlanLine


def in_language(garden: Garden, tag: str) -> Garden:
    """The garden in a language, with that language's names for the places that are taken for granted."""
    if tag == garden.language:
        return garden
    own, assumed = (tuple(p for p in garden.places if p.assumed is wanted) for wanted in (False, True))
    renamed = with_assumed((*own, *garden.houses), tag)[len(own) + len(garden.houses) :]
    names = {old.name: new.name for old, new in zip(assumed, renamed, strict=True)}
    beds = tuple(msgspec.structs.replace(b, plan=b.plan and _line(b.plan, names)) for b in garden.beds)
    also = tuple(_line(line, names) for line in garden.also)
    return msgspec.structs.replace(garden, language=tag, places=(*own, *renamed), beds=beds, also=also)


def _line(line: PlanLine, names: Mapping[str, str]) -> PlanLine:
    """A plan line whose crops stand at places of these names."""
    steps = tuple(
        msgspec.structs.replace(
            step, items=tuple(_item(i, names) for i in step.items), between=tuple(_item(i, names) for i in step.between)
        )
        for step in line.steps
    )
    return msgspec.structs.replace(line, steps=steps)


def _item(item: Item, names: Mapping[str, str]) -> Item:
    return msgspec.structs.replace(item, route=tuple(names.get(name, name) for name in item.route))
