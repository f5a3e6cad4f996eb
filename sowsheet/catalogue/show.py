"""The catalogue to read: the list of crops, and the page of one."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from textwrap import wrap

import msgspec

from sowsheet.catalogue.catalogue import Catalogue
from sowsheet.catalogue.kind_rows import Row, rows_of
from sowsheet.catalogue.records import Crop, Kind, Source
from sowsheet.reading.mistakes import Mistake

WIDTH = 88
_LABEL = 25
_MIDDLE = "Where a range names no usual value, its middle is reckoned with."
_UNPUBLISHED = {
    "practice": "common practice of the trade, no source",
    "memory": "from memory, no source at hand",
    "grower": "the grower's own file",
}


class NotKnown(msgspec.Struct, frozen=True):
    """Why no page can be shown, in one sentence with its cure."""

    sentence: str


def crop_list(catalogue: Catalogue, mistakes: list[Mistake]) -> list[str]:
    """All crops, one line each: name, botanical name, how raised, kinds."""
    crops = sorted(catalogue.load(None, mistakes).crops.values(), key=lambda crop: crop.names[0].lower())
    rows = [("crop", "botanical name", "raised", "kinds"), *(_listed(crop) for crop in crops)]
    widths = [max(len(row[column]) for row in rows) for column in range(3)]
    return [
        "  ".join((*(cell.ljust(w) for cell, w in zip(row, widths, strict=False)), row[3])).rstrip() for row in rows
    ]


def crop_page(
    catalogue: Catalogue, name: str, with_sources: bool, mistakes: list[Mistake], width: int = WIDTH
) -> list[str] | NotKnown:
    """All that is known of a crop, or of one of its kinds, in plain words; with sources, where it is from."""
    kinds = kinds_named(catalogue, name, mistakes)
    if isinstance(kinds, NotKnown):
        return kinds
    if not kinds:
        return []
    crop = catalogue.load([kinds[0].crop], mistakes).crop(kinds[0].crop)
    lines = [*_title(crop, kinds, width), *_body(kinds, with_sources, width), "", _MIDDLE]
    return [*lines, *_origins(kinds, catalogue.sources(mistakes), width)] if with_sources else lines


def kinds_named(catalogue: Catalogue, name: str, mistakes: list[Mistake]) -> list[Kind] | NotKnown:
    """The kinds of one crop that a name may mean; none where its file has mistakes."""
    targets = catalogue.names.meant(tuple(name.split()))
    if len({crop for crop, _ in targets}) != 1:
        return _not_known(catalogue, name)
    crop = catalogue.load([targets[0][0]], mistakes).crops.get(targets[0][0])
    if crop is None:
        return []
    keys = {kind for _, kind in targets}
    return [kind for kind in crop.kinds if "" in keys or kind.key in keys]


def _listed(crop: Crop) -> tuple[str, str, str, str]:
    latin = " / ".join(dict.fromkeys(kind.latin for kind in crop.kinds))
    kinds = ", ".join(kind.key for kind in crop.kinds if kind.key)
    ways = dict.fromkeys(way for kind in crop.kinds for way in _ways(kind))
    return crop.names[0], latin, ", ".join(ways), kinds


def _ways(kind: Kind) -> Iterator[str]:
    if kind.tray:
        yield "trays"
    if kind.drill:
        yield "sown direct"
    if kind.setting:
        yield kind.setting.what


def _title(crop: Crop, kinds: Sequence[Kind], width: int) -> Iterator[str]:
    one = kinds[0] if len(kinds) == 1 else None
    yield one.name if one else crop.names[0]
    yield "-" * len(one.name if one else crop.names[0])
    latin = " / ".join(dict.fromkeys(kind.latin for kind in kinds))
    yield f"{latin}, {' / '.join(dict.fromkeys(kind.family for kind in kinds))}"
    also = [name for name in dict.fromkeys((*crop.names[1:], *crop.names_us)) if name != crop.names[0]]
    if also:
        yield from wrap(f"also called: {', '.join(also)}", width)
    if len(kinds) > 1:
        yield from wrap(f"kinds: {', '.join(kind.name for kind in kinds)}", width)
        yield from wrap(f"`{crop.names[0]}` alone means {_unnamed(crop)}", width)


def _unnamed(crop: Crop) -> str:
    names = {kind.key: kind.name for kind in crop.kinds}
    if crop.unnamed == "by date":
        return f"the first kind whose planting window holds the date, else {names[crop.unnamed_else]}"
    return names.get(crop.unnamed, "none of them: say which")


def _body(kinds: Sequence[Kind], with_sources: bool, width: int) -> Iterator[str]:
    """What the kinds have in common, then what each has of its own."""
    tables = {kind.name: rows_of(kind) for kind in kinds}
    first = next(iter(tables.values()))
    common = [row for row in first if all(row in table for table in tables.values())]
    yield from _section(common, with_sources, width)
    for name, table in tables.items():
        own = [row for row in table if row not in common]
        if own:
            yield from ("", f"== {name} ==")
            yield from _section(own, with_sources, width)


def _section(rows: Iterable[Row], with_sources: bool, width: int) -> Iterator[str]:
    heading = ""
    for row in rows:
        if row.heading != heading:
            heading = row.heading
            yield from ("", heading)
        text = f"{row.text} [{', '.join(row.sources)}]" if with_sources and row.sources else row.text
        first, *more = wrap(text, width - _LABEL - 2, break_on_hyphens=False)
        yield f"  {row.label:<{_LABEL - 2}}  {first}"
        yield from (" " * (_LABEL + 2) + line for line in more)


def _origins(kinds: Iterable[Kind], sources: Mapping[str, Source], width: int) -> Iterator[str]:
    """Every source named on the page, in full."""
    keys = sorted({key for kind in kinds for found in kind.sources.values() for key in found})
    yield from ("", "Sources")
    for key in [*(k for k in keys if k not in _UNPUBLISHED), *(k for k in keys if k in _UNPUBLISHED)]:
        text = _cited(sources[key]) if key in sources else _UNPUBLISHED.get(key, "the grower's own note")
        yield from wrap(f"[{key}] {text}", width, initial_indent="  ", subsequent_indent="    ", break_on_hyphens=False)


def _cited(source: Source) -> str:
    where = f"{source.authors} ({source.year}). {source.title}. {source.where}."
    doi = f" doi {source.doi}." if source.doi else ""
    seen = {"read": "read", "second-hand": "quoted second-hand", "memory": "quoted from memory"}[source.seen]
    return f"{where}{doi} ({seen})".replace("..", ".")


def _not_known(catalogue: Catalogue, name: str) -> NotKnown:
    found = catalogue.names.find(tuple(name.split()))
    if found is not None:
        return NotKnown(f"`{name}` could be {' or '.join(found.choices)}: name one of them")
    near = catalogue.names.near(name)
    meant = f"did you mean `{near}`? " if near else ""
    own = "a crop of your own goes into a file that the garden file names, `crops: own.yaml`"
    return NotKnown(f"the catalogue has no crop `{name}`: {meant}`sowsheet crops` lists all; {own}")
