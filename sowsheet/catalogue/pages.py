"""A crop file's text taken apart into lines, each read, with its sources and its place; nothing joined yet."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterator
from difflib import get_close_matches
from pathlib import Path

import msgspec

from sowsheet.catalogue.form import BLOCKS, ROWS, ROWS_NEED, Form
from sowsheet.catalogue.values import Wrong
from sowsheet.reading.mistakes import Mistake, Said, Spot, example, said
from sowsheet.reading.nodes import Entry, Mapping, Node, Sequence, Text, compose, fields, read_text

GROWER = "grower"
UNPUBLISHED = ("practice", "memory")
_SOURCED = re.compile(r"(.*?)\s*\[([^\[\]]*)\]")
_HEAD = ("crop", "names", "names en-US", "unnamed", "kinds")


class Line(msgspec.Struct, frozen=True):
    """One value of a crop file, as read; a row of a list holds a dict of its values."""

    value: object
    spot: Spot
    sources: tuple[str, ...] = ()


Lines = dict[str, Line]  # by path, as written: `tray.holds`, `goes out.1`, `dries`


class KindPage(msgspec.Struct, frozen=True):
    """What a file says of one kind."""

    key: str
    spot: Spot
    names: tuple[str, ...]
    lines: Lines


class Page(msgspec.Struct, frozen=True):
    """What a file says of one crop. `own`: it is the grower's, whose numbers need no source."""

    key: str
    spot: Spot
    names: tuple[str, ...]
    names_us: tuple[str, ...]
    unnamed: Text | None
    lines: Lines
    kinds: tuple[KindPage, ...]
    own: bool


class _Reader(msgspec.Struct, frozen=True):
    """What reading one file carries along. `known`: keys a source may have; None: any."""

    known: Collection[str] | None
    own: bool
    mistakes: list[Mistake]

    def wrong(self, spot: Spot, what: Said, cure: Said | str = "") -> None:
        self.mistakes.append(Mistake(spot, what, cure))


def read_page(text: str, file: str, known: Collection[str] | None, mistakes: list[Mistake]) -> Page | None:
    """A file of the catalogue: one crop. `known` are the keys of the sources; None leaves them unchecked."""
    node = compose(text, file, mistakes)
    return None if node is None else _page(node, _Reader(known, own=False, mistakes=mistakes))


def read_own(path: Path, mistakes: list[Mistake]) -> tuple[Page, ...]:
    """A grower's own file: one crop, or a list of crops."""
    text = read_text(path)
    if isinstance(text, Mistake):
        mistakes.append(text)
        return ()
    node = compose(text, str(path), mistakes)
    reader = _Reader(None, own=True, mistakes=mistakes)
    items = node.items if isinstance(node, Sequence) else () if node is None else (node,)
    pages = [_page(item, reader) for item in items]
    return tuple(page for page in pages if page is not None)


def _page(node: Node, reader: _Reader) -> Page | None:
    known = (*_HEAD, *BLOCKS[""], *(b for b in BLOCKS if b), *ROWS)
    needed = ("crop",) if reader.own else ("crop", "names", "latin", "family")
    found = fields(node, known, needed, reader.mistakes, said("mistake.thing.crop file"))
    key = found["crop"].value if "crop" in found else None
    if not isinstance(key, Text) or not key.text:
        if key is not None:
            reader.wrong(key.spot, said("mistake.crops.name wanted"), example("crop: leek"))
        return None
    return Page(
        key.text,
        key.spot,
        _names(found.get("names"), reader),
        _names(found.get("names en-US"), reader),
        _unnamed(found.get("unnamed"), reader),
        _lines(found, reader),
        tuple(_kinds(found.get("kinds"), reader)),
        reader.own,
    )


def _kinds(entry: Entry | None, reader: _Reader) -> Iterator[KindPage]:
    if entry is None:
        return
    if not isinstance(entry.value, Mapping):
        reader.wrong(entry.key.spot, said("mistake.crops.kinds wanted"), example("  winter:"))
        return
    known = ("names", *BLOCKS[""], *(b for b in BLOCKS if b), *ROWS)
    for kind in entry.value.entries:
        key = kind.key.text
        # A kind that changes nothing may stand there empty: `headed:`.
        empty = isinstance(kind.value, Text) and not kind.value.text
        found = {} if empty else fields(kind.value, known, (), reader.mistakes, said("mistake.thing.kind", name=key))
        yield KindPage(key, kind.key.spot, _names(found.get("names"), reader), _lines(found, reader))


def _names(entry: Entry | None, reader: _Reader) -> tuple[str, ...]:
    if entry is None:
        return ()
    items = entry.value.items if isinstance(entry.value, Sequence) else ()
    names = tuple(item.text for item in items if isinstance(item, Text) and item.text)
    if not names or len(names) < len(items):
        what = said("mistake.crops.names wanted", key=entry.key.text)
        reader.wrong(entry.value.spot, what, example("names: [leek]"))
    return names


def _unnamed(entry: Entry | None, reader: _Reader) -> Text | None:
    if entry is None:
        return None
    if isinstance(entry.value, Text) and entry.value.text:
        return entry.value
    reader.wrong(entry.value.spot, said("mistake.crops.unnamed.wanted"))
    return None


def _lines(found: dict[str, Entry], reader: _Reader) -> Lines:
    """All lines of a crop's or a kind's mapping, by path."""
    lines: Lines = {}
    for name, entry in found.items():
        if name in BLOCKS[""]:
            _add(lines, name, entry, BLOCKS[""][name], reader)
        elif name in BLOCKS:
            inner = fields(entry.value, tuple(BLOCKS[name]), (), reader.mistakes, said("mistake.thing.key", key=name))
            for key, line in inner.items():
                _add(lines, f"{name}.{key}", line, BLOCKS[name][key], reader)
        elif name in ROWS:
            _add_rows(lines, name, entry, reader)
    return lines


def _add(lines: Lines, path: str, entry: Entry, form: Form, reader: _Reader) -> None:
    if not isinstance(entry.value, Text):
        reader.wrong(
            entry.value.spot, said("mistake.crops.one line", key=entry.key.text), example_of(entry.key.text, form)
        )
        return
    value = entry.value
    if not value.text:
        reader.wrong(
            entry.key.spot, said("mistake.crops.still empty", key=entry.key.text), example_of(entry.key.text, form)
        )
        return
    found = _SOURCED.fullmatch(value.text)
    words, keys = (found[1], _split(found[2])) if found else (value.text, ())
    read = form.read(words)
    if isinstance(read, Wrong):
        what = said("mistake.crops.in line", key=entry.key.text, what=read.what)
        reader.wrong(_part(value, words), what, read.cure or example_of(entry.key.text, form))
        return
    if not keys and form.sourced and not reader.own:
        cure = said("mistake.crops.no source.cure", example=f"{entry.key.text}: {form.example} [practice]")
        reader.wrong(value.spot, said("mistake.crops.no source.what", key=entry.key.text), cure)
    for key in keys:
        _check_source(_part(value, key), key, reader)
    lines[path] = Line(read, value.spot, keys or ((GROWER,) if reader.own and form.sourced else ()))


def _add_rows(lines: Lines, name: str, entry: Entry, reader: _Reader) -> None:
    if not isinstance(entry.value, Sequence) or not entry.value.items:
        cure = example("  - {from: .., until: .., source: practice}")
        reader.wrong(entry.key.spot, said("mistake.crops.list wanted", key=name), cure)
        return
    for number, node in enumerate(entry.value.items, 1):
        needed = ROWS_NEED[name] if reader.own else (*ROWS_NEED[name], "source")
        found = fields(node, (*ROWS[name], "source"), needed, reader.mistakes, said("mistake.thing.row", key=name))
        source = found.pop("source", None)
        keys = tuple(_sources(source, reader)) if source else ()
        row: Lines = {}
        for key, line in found.items():
            form = ROWS[name][key]
            _add(row, key, line, Form(form.read, form.example, sourced=False), reader)
        if all(key in row for key in ROWS_NEED[name]):
            values = {key: line.value for key, line in row.items()}
            lines[f"{name}.{number}"] = Line(values, node.spot, keys or ((GROWER,) if reader.own else ()))


def _sources(entry: Entry, reader: _Reader) -> Iterator[str]:
    """The sources of a row: `practice`, or a list of keys."""
    nodes = entry.value.items if isinstance(entry.value, Sequence) else (entry.value,)
    for node in nodes:
        if not isinstance(node, Text) or not node.text:
            reader.wrong(node.spot, said("mistake.crops.source wanted"), example("source: practice"))
            continue
        for key in _split(node.text.strip("[]")):
            _check_source(_part(node, key), key, reader)
            yield key


def _check_source(spot: Spot, key: str, reader: _Reader) -> None:
    if reader.known is None or key in reader.known or key in UNPUBLISHED:
        return
    near = get_close_matches(key, [*reader.known, *UNPUBLISHED], n=1, cutoff=0.7)
    cure = said("mistake.near", near=near[0]) if near else said("mistake.crops.unknown source.cure")
    reader.wrong(spot, said("mistake.crops.unknown source.what", key=key), cure)


def _split(keys: str) -> tuple[str, ...]:
    return tuple(key.strip() for key in keys.split(",") if key.strip())


def _part(text: Text, part: str) -> Spot:
    """Where a part of a plain value stands in its line."""
    at = text.spot.excerpt.find(part, text.spot.column - 1)
    if at < 0 or not part:
        return text.spot
    return msgspec.structs.replace(text.spot, column=at + 1, length=len(part))


def example_of(key: str, form: Form) -> Said:
    """A line of a form as it is to be written."""
    if isinstance(form.example, Said):
        return said("mistake.crops.example words", key=key, words=form.example)
    return example(f"{key}: {form.example}{' [practice]' if form.sourced else ''}")
