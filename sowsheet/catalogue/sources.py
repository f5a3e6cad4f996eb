"""The list of sources: crops/sources.yaml in, `Source` records by key out."""

from __future__ import annotations

import re

from sowsheet.catalogue.records import Source
from sowsheet.reading.mistakes import Mistake, example, said
from sowsheet.reading.nodes import Entry, Mapping, Text, compose, fields

_NEEDED = ("authors", "year", "title", "where", "seen")
_KNOWN = (*_NEEDED, "doi", "url")
_SEEN = ("read", "second-hand", "memory")
_KEY = re.compile(r"[a-z0-9]+(?:-[a-z0-9]+)*")


def read_sources(text: str, file: str, mistakes: list[Mistake]) -> dict[str, Source]:
    """All sources of a file by key. Adds a mistake for every key or line that is not as it should be."""
    root = compose(text, file, mistakes)
    if root is not None and not isinstance(root, Mapping):
        mistakes.append(Mistake(root.spot, said("mistake.crops.sources.list wanted")))
    entries = root.entries if isinstance(root, Mapping) else ()
    found = [_source(entry, mistakes) for entry in entries]
    return {source.key: source for source in found if source is not None}


def _source(entry: Entry, mistakes: list[Mistake]) -> Source | None:
    before, key = len(mistakes), entry.key.text
    if not _KEY.fullmatch(key):
        cure = example("harrington-1954")
        mistakes.append(Mistake(entry.key.spot, said("mistake.crops.sources.no key", key=key), cure))
    lines = fields(entry.value, _KNOWN, _NEEDED, mistakes, said("mistake.thing.source"))
    texts = {name: line.value for name, line in lines.items()}
    for name, value in texts.items():
        if not isinstance(value, Text) or not value.text:
            mistakes.append(Mistake(value.spot, said("mistake.crops.sources.words wanted", key=name)))
    plain = {name: value.text for name, value in texts.items() if isinstance(value, Text)}
    if plain.get("seen", "read") not in _SEEN:
        what = said("mistake.crops.sources.seen.what", choices=", ".join(_SEEN))
        mistakes.append(Mistake(texts["seen"].spot, what, said("mistake.crops.sources.seen.cure")))
    return Source(key=key, **plain) if len(mistakes) == before else None
