"""Strict YAML: every scalar stays the text it was, and every node knows its place in the file.

Shut off: words turned into booleans, numbers in base 60 or 8, dates, tags, anchors, a key given twice.
"""

from __future__ import annotations

import errno
import re
from collections.abc import Iterator
from difflib import get_close_matches
from pathlib import Path

import msgspec
import yaml

from sowsheet.reading.mistakes import Mistake, Said, Spot, example, said

try:  # libyaml composes twenty times faster; the pure loader reads the same language
    from yaml import CSafeLoader as Loader
except ImportError:  # pragma: no cover
    from yaml import SafeLoader as Loader  # type: ignore[assignment]


_REASONS = ("EACCES", "ENOTDIR", "ENAMETOOLONG")
DEEPEST = 20  # levels; the reader recurses, and nobody indents so far


class Text(msgspec.Struct, frozen=True):
    """A scalar, as it was written. `plain` tells that it stood without quotes on one line."""

    text: str
    spot: Spot
    plain: bool = True
    lines: tuple[Spot, ...] = ()  # of a text over several lines: where each begins


class Entry(msgspec.Struct, frozen=True):
    """One `key: value` of a mapping."""

    key: Text
    value: Node


class Mapping(msgspec.Struct, frozen=True):
    """A mapping, its keys in the order of the file. `flow` tells that it was written in braces."""

    entries: tuple[Entry, ...]
    spot: Spot
    flow: bool = False

    def get(self, key: str) -> Node | None:
        """The value under a key, or None."""
        return next((e.value for e in self.entries if e.key.text == key), None)


class Sequence(msgspec.Struct, frozen=True):
    """A list."""

    items: tuple[Node, ...]
    spot: Spot


Node = Text | Mapping | Sequence


class Source(msgspec.Struct, frozen=True):
    """A file's name as the grower gave it, and its lines."""

    file: str
    lines: tuple[str, ...]

    def spot(self, line: int, column: int, length: int = 1) -> Spot:
        """The place at a line and column counted from 0."""
        excerpt = self.lines[line] if line < len(self.lines) else ""
        return Spot(self.file, line + 1, column + 1, max(1, length), excerpt)


def read_text(path: Path) -> str | Mistake:
    """A file's text, or the one mistake that keeps it from being read."""
    where = Spot(str(path), 1, 1)
    try:
        data = path.read_bytes()
    except FileNotFoundError:
        return Mistake(where, said("mistake.file.none.what"), said("mistake.file.none.cure"))
    except IsADirectoryError:
        cure = said("mistake.file.folder.cure", path=path / "garden.yaml")
        return Mistake(where, said("mistake.file.folder.what"), cure)
    except OSError as error:
        return Mistake(where, said("mistake.file.unread", why=_reason(error)))
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError:
        return Mistake(where, said("mistake.file.not utf-8.what"), said("mistake.file.not utf-8.cure"))
    if "\x00" in text:
        return Mistake(where, said("mistake.file.no text.what"), said("mistake.file.no text.cure"))
    return text


def _reason(error: OSError) -> Said | str:
    """Why a file cannot be read; in the system's own words where that is rare."""
    code = errno.errorcode.get(error.errno or 0)
    return said(f"cli.error.{code}") if code in _REASONS else error.strerror or str(error)


def compose(text: str, file: str, mistakes: list[Mistake]) -> Node | None:
    """The file's tree, or None when it cannot be read at all. Adds a mistake for all that is not plain."""
    source = Source(file, tuple(text.splitlines()))
    try:
        root = yaml.compose(text, Loader=Loader)
    except RecursionError:
        mistakes.append(_too_deep(source))
        return None
    except yaml.YAMLError as error:
        mistakes.append(_syntax(error, source))
        return None
    if root is None:
        mistakes.append(Mistake(source.spot(0, 0), said("mistake.file.empty")))
        return None
    if _deeper_than(root, DEEPEST):
        mistakes.append(_too_deep(source))
        return None
    return _node(root, source, mistakes, set())


def _too_deep(source: Source) -> Mistake:
    return Mistake(source.spot(0, 0), said("mistake.file.too deep.what"), said("mistake.file.too deep.cure"))


def _deeper_than(node: yaml.Node, levels: int) -> bool:
    """Whether anything lies more than so many levels down."""
    here = [node]
    for _ in range(levels):
        inner = [child for n in here if not isinstance(n, yaml.ScalarNode) for child in n.value]
        here = [n for child in inner for n in (child if isinstance(child, tuple) else (child,))]
        if not here:
            return False
    return True


def load(path: Path, mistakes: list[Mistake]) -> Node | None:
    """`compose` for a file on disk."""
    text = read_text(path)
    if isinstance(text, Mistake):
        mistakes.append(text)
        return None
    return compose(text, str(path), mistakes)


def fields(
    node: Node | None, known: tuple[str, ...], needed: tuple[str, ...], mistakes: list[Mistake], what: Said | str
) -> dict[str, Entry]:
    """A mapping's entries by key. Unknown and missing keys are mistakes; an unknown key that looks like a
    missing one is one mistake, not two. `what` names the mapping in messages (a place): a phrase of
    `mistake.thing`."""
    if not isinstance(node, Mapping):
        if node is not None:
            mistakes.append(Mistake(node.spot, said("mistake.key.lines", thing=what), example(f"{known[0]}: …")))
        return {}
    found = {e.key.text: e for e in node.entries if e.key.text in known}
    missing = [key for key in needed if key not in found]
    for entry in node.entries:
        word = entry.key.text
        if word in known:
            continue
        near = get_close_matches(word, [k for k in known if k not in found], n=1, cutoff=0.6)
        mistakes.append(_unknown(entry.key, near, known, what))
        missing = [key for key in missing if key not in near]
    for key in missing:
        cure = said("mistake.key.missing.cure", key=key)
        mistakes.append(Mistake(node.spot, said("mistake.key.missing.what", thing=what, key=key), cure))
    return found


def _unknown(key: Text, near: list[str], known: tuple[str, ...], what: Said | str) -> Mistake:
    known_keys = said("mistake.key.known", Thing=what, keys=", ".join(known))
    cure = said("mistake.near", near=near[0]) if near else known_keys
    return Mistake(key.spot, said("mistake.key.unknown", key=key.text, thing=what), cure)


def _node(node: yaml.Node, source: Source, mistakes: list[Mistake], seen: set[int]) -> Node:
    mark = node.start_mark
    spot = source.spot(mark.line, mark.column, _width(node))
    if id(node) in seen:
        mistakes.append(Mistake(spot, said("mistake.yaml.alias.what"), said("mistake.yaml.alias.cure")))
        return Text("", spot)
    seen.add(id(node))
    if not node.tag.startswith("tag:yaml.org,2002:") or _tagged(source, node):
        mistakes.append(Mistake(spot, said("mistake.yaml.tag.what"), said("mistake.yaml.tag.cure")))
    if isinstance(node, yaml.ScalarNode):
        return Text(node.value, spot, not node.style, tuple(_line_spots(node, source)))
    if isinstance(node, yaml.SequenceNode):
        return Sequence(tuple(_node(item, source, mistakes, seen) for item in node.value), spot)
    return _mapping(node, source, mistakes, seen, spot)


def _mapping(node: yaml.Node, source: Source, mistakes: list[Mistake], seen: set[int], spot: Spot) -> Mapping:
    entries: list[Entry] = []
    first: dict[str, int] = {}
    for key_node, value_node in node.value:
        key = _node(key_node, source, mistakes, seen)
        value = _node(value_node, source, mistakes, seen)
        if not isinstance(key, Text):
            mistakes.append(Mistake(key.spot, said("mistake.key.no words"), example("name: value")))
        elif key.text in first:
            what = said("mistake.twice.what", name=key.text, line=first[key.text])
            mistakes.append(Mistake(key.spot, what, said("mistake.twice.cure")))
        else:
            first[key.text] = key.spot.line
            entries.append(Entry(key, value))
    return Mapping(tuple(entries), spot, flow=bool(getattr(node, "flow_style", False)))


def _tagged(source: Source, node: yaml.Node) -> bool:
    """Whether an explicit tag stands before the node (compose resolves `!!str` silently)."""
    mark = node.start_mark
    line = source.lines[mark.line] if mark.line < len(source.lines) else ""
    return line[mark.column : mark.column + 1] == "!"


def _width(node: yaml.Node) -> int:
    if node.start_mark.line == node.end_mark.line:
        return int(node.end_mark.column - node.start_mark.column)
    return 1


def _line_spots(node: yaml.ScalarNode, source: Source) -> Iterator[Spot]:
    """Where each line of a text over several lines begins in the file."""
    end = node.end_mark.line - (1 if node.end_mark.column == 0 else 0)  # a block ends where the next line begins
    first, last = node.start_mark.line, min(end, len(source.lines) - 1)
    if first == last:
        return
    for number in range(first, last + 1):
        line = source.lines[number]
        column = node.start_mark.column if number == first else len(line) - len(line.lstrip())
        if number == first and node.style in ("|", ">"):
            continue
        yield source.spot(number, column, len(line.rstrip()) - column)


# What libyaml says of a slip, and what it is: a key of `mistake.yaml`.
_SLIPS = (
    ("mapping values are not allowed", "second colon"),
    ("found character '\\t'", "tab"),
    ("tab character that violates", "tab"),
    ("cannot start any token", "sign"),
    ("parsing a block node did not", "first sign"),
    ("parsing a flow node did not", "flow"),
    ("mapping keys are not allowed", "question"),
    ("block sequence entries are", "list"),
    ("scanning a block scalar did", "after sign"),
    ("could not find expected ':'", "no colon"),
    ("did not find expected key", "misfit"),
    ("while scanning a quoted", "quote"),
    ("found undefined alias", "star"),
    ("expected a single document", "divided"),
    ("did not find expected ',' or", "bracket"),
)


def _syntax(error: yaml.YAMLError, source: Source) -> Mistake:
    """A YAML error in plain words, at the place where it was found."""
    text = re.sub(r"\s+", " ", f"{getattr(error, 'context', '') or ''} {getattr(error, 'problem', '') or error}")
    mark = getattr(error, "problem_mark", None) or getattr(error, "context_mark", None)
    line, column = (mark.line, mark.column) if mark else (0, 0)
    if line >= len(source.lines):
        line, column = max(0, len(source.lines) - 1), 0
    spot = source.spot(line, column)
    if source.lines and source.lines[line][column : column + 1] == "\t":
        return _slip(spot, "tab")
    for sign, slip in _SLIPS:
        if sign in text:
            return _slip(spot, slip)
    return Mistake(spot, said("mistake.yaml.unread", why=text.strip()))


def _slip(spot: Spot, slip: str) -> Mistake:
    cure = said(f"mistake.yaml.{slip}.cure", closed="`{cells: 60}`")
    return Mistake(spot, said(f"mistake.yaml.{slip}.what"), cure)
