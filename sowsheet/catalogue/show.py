"""The catalogue to read: the list of crops, and the page of one."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from functools import reduce
from textwrap import wrap

import msgspec

from sowsheet.catalogue.catalogue import Catalogue
from sowsheet.catalogue.in_language import names_in
from sowsheet.catalogue.kind_rows import Row, rows_of
from sowsheet.catalogue.names import plain_name
from sowsheet.catalogue.records import Crop, Kind, Source
from sowsheet.reading.mistakes import Mistake
from sowsheet.words.crop_words import crop_words
from sowsheet.words.language import Language

WIDTH = 88
_LABEL = 25
_UNPUBLISHED = ("practice", "memory", "grower")


class NotKnown(msgspec.Struct, frozen=True):
    """Why no page can be shown, in one sentence with its cure."""

    sentence: str


def crop_list(catalogue: Catalogue, mistakes: list[Mistake]) -> list[str]:
    """All crops, one line each: name, botanical name, how raised, kinds."""
    words = catalogue.words
    crops = catalogue.load(None, mistakes).in_order
    titles = [words.say(f"crop page.list.{column}") for column in ("crop", "latin", "raised", "kinds")]
    rows = [titles, *(_listed(words, crop) for crop in crops)]
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
    words = catalogue.words
    body = _body(words, kinds, with_sources, width)
    lines = [*_title(words, crop, kinds, width), *body, "", words.say("crop page.middle")]
    return [*lines, *_origins(words, kinds, catalogue.sources(mistakes), width)] if with_sources else lines


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


def _listed(words: Language, crop: Crop) -> list[str]:
    latin = " / ".join(dict.fromkeys(kind.latin for kind in crop.kinds))
    kinds = ", ".join(kind.key if words.english else kind.name for kind in crop.kinds if kind.key)
    ways = dict.fromkeys(way for kind in crop.kinds for way in _ways(words, kind))
    return [names_in(words, crop)[0], latin, ", ".join(ways), kinds]


def _ways(words: Language, kind: Kind) -> Iterator[str]:
    if kind.tray:
        yield words.say("crop page.list.tray")
    if kind.drill:
        yield words.say("crop page.raised.drill")
    if kind.setting:
        yield words.say(f"crop page.raised.{kind.setting.what}")


def _title(words: Language, crop: Crop, kinds: Sequence[Kind], width: int) -> Iterator[str]:
    name = kinds[0].name if len(kinds) == 1 else names_in(words, crop)[0]
    yield name
    yield "-" * len(name)
    latin = " / ".join(dict.fromkeys(kind.latin for kind in kinds))
    yield f"{latin}, {' / '.join(dict.fromkeys(kind.family for kind in kinds))}"
    also = _further_names(words, crop)
    if also:
        yield from wrap(words.say("crop page.also", names=", ".join(also)), width)
    if len(kinds) > 1:
        yield from wrap(words.say("crop page.kinds", kinds=", ".join(kind.name for kind in kinds)), width)
        yield from wrap(_unnamed(words, crop), width)


def _further_names(words: Language, crop: Crop) -> Sequence[str]:
    """The names after the first. In Spanish a name stands there in both numbers, and one of them is enough."""
    names = names_in(words, crop)
    if words.tag != "es":
        return names[1:]
    first = {_bare(name): name for name in reversed(names)}
    return [name for name in names[1:] if first[_bare(name)] == name]


def _bare(name: str) -> str:
    """A Spanish name without marks and plural endings: calabacin for calabacín and calabacines."""
    return " ".join(re.sub(r"(es|s|e)$", "", word).replace("z", "c") for word in plain_name(name).split())


def _unnamed(words: Language, crop: Crop) -> str:
    names, name = {kind.key: kind.name for kind in crop.kinds}, names_in(words, crop)[0]
    if crop.unnamed == "by date":
        return words.say("crop page.alone.by date", name=name, kind=names[crop.unnamed_else])
    if crop.unnamed in names:
        told = crop_words(words, crop.key)  # where the bare name is printed for it, its own tells more
        own = told.kinds[crop.unnamed].names if told and crop.unnamed in told.kinds else ()
        return words.say("crop page.alone.kind", name=name, kind=own[0] if own else names[crop.unnamed])
    return words.say("crop page.alone.none", name=name)


def _body(words: Language, kinds: Sequence[Kind], with_sources: bool, width: int) -> Iterator[str]:
    """What the kinds have in common, then what each has of its own."""
    tables = {kind.name: rows_of(words, kind) for kind in kinds}
    label = max(_LABEL, *(len(row.label) + 2 for table in tables.values() for row in table))
    first = next(iter(tables.values()))
    common = [row for row in first if all(row in table for table in tables.values())]
    yield from _section(common, with_sources, width, label)
    for name, table in tables.items():
        own = [row for row in table if row not in common]
        if own:
            yield from ("", f"== {name} ==")
            yield from _section(own, with_sources, width, label)


def _section(rows: Iterable[Row], with_sources: bool, width: int, label: int) -> Iterator[str]:
    heading = ""
    for row in rows:
        if row.heading != heading:
            heading = row.heading
            yield from ("", heading)
        text = f"{row.text} [{', '.join(row.sources)}]" if with_sources and row.sources else row.text
        first, *more = wrap(text, width - label - 2, break_on_hyphens=False)
        yield f"  {row.label:<{label - 2}}  {first}"
        yield from (" " * (label + 2) + line for line in more)


def _origins(words: Language, kinds: Iterable[Kind], sources: Mapping[str, Source], width: int) -> Iterator[str]:
    """Every source named on the page, in full."""
    keys = sorted({key for kind in kinds for found in kind.sources.values() for key in found})
    yield from ("", words.say("crop page.sources"))
    for key in [*(k for k in keys if k not in _UNPUBLISHED), *(k for k in keys if k in _UNPUBLISHED)]:
        own = key if key in _UNPUBLISHED else "note"
        text = _cited(words, sources[key]) if key in sources else words.say(f"crop page.source.{own}")
        yield from wrap(f"[{key}] {text}", width, initial_indent="  ", subsequent_indent="    ", break_on_hyphens=False)


def _cited(words: Language, source: Source) -> str:
    where = f"{source.authors} ({source.year}). {source.title}. {source.where}."
    doi = f" doi {source.doi}." if source.doi else ""
    return f"{where}{doi} ({words.say(f'crop page.seen.{source.seen}')})".replace("..", ".")


def _not_known(catalogue: Catalogue, name: str) -> NotKnown:
    words, found = catalogue.words, catalogue.names.find(tuple(name.split()))
    if found is not None:
        choices = reduce(lambda one, other: words.say("list.or", first=one, last=other), found.choices)
        return NotKnown(words.say("crop page.choose", name=name, choices=choices))
    near = catalogue.names.near(name)
    if near:
        return NotKnown(words.say("crop page.no crop but", name=name, near=near))
    return NotKnown(words.say("crop page.no crop", name=name))
