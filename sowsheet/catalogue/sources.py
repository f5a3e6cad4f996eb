"""The list of sources: crops/sources.yaml in, `Source` records by key out."""

from __future__ import annotations

import re

from sowsheet.catalogue.records import Source
from sowsheet.reading.mistakes import Mistake
from sowsheet.reading.nodes import Entry, Mapping, Text, compose, fields

_NEEDED = ("authors", "year", "title", "where", "seen")
_KNOWN = (*_NEEDED, "doi", "url")
_SEEN = ("read", "second-hand", "memory")
_KEY = re.compile(r"[a-z0-9]+(?:-[a-z0-9]+)*")


def read_sources(text: str, file: str, mistakes: list[Mistake]) -> dict[str, Source]:
    """All sources of a file by key. Adds a mistake for every key or line that is not as it should be."""
    root = compose(text, file, mistakes)
    if root is not None and not isinstance(root, Mapping):
        mistakes.append(Mistake(root.spot, "the list of sources wants a key and a block for each"))
    entries = root.entries if isinstance(root, Mapping) else ()
    found = [_source(entry, mistakes) for entry in entries]
    return {source.key: source for source in found if source is not None}


def _source(entry: Entry, mistakes: list[Mistake]) -> Source | None:
    before, key = len(mistakes), entry.key.text
    if not _KEY.fullmatch(key):
        what = f"`{key}` is no key: small letters, digits and hyphens"
        mistakes.append(Mistake(entry.key.spot, what, "e.g. `harrington-1954`"))
    lines = fields(entry.value, _KNOWN, _NEEDED, mistakes, "a source")
    texts = {name: line.value for name, line in lines.items()}
    for name, value in texts.items():
        if not isinstance(value, Text) or not value.text:
            mistakes.append(Mistake(value.spot, f"`{name}` wants words on one line"))
    plain = {name: value.text for name, value in texts.items() if isinstance(value, Text)}
    if plain.get("seen", "read") not in _SEEN:
        what = f"`seen` is none of {', '.join(_SEEN)}"
        mistakes.append(Mistake(texts["seen"].spot, what, "Say whether the source itself was read."))
    return Source(key=key, **plain) if len(mistakes) == before else None
