"""What the sections of a garden file share: a mapping read key by key, names, choices, sizes within reason."""

from __future__ import annotations

import unicodedata
from collections.abc import Callable, Iterator
from difflib import get_close_matches
from pathlib import Path
from typing import TypeVar

import msgspec

from sowsheet.reading.measures import Size, parse_size
from sowsheet.reading.mistakes import Mistake
from sowsheet.reading.nodes import Entry, Mapping, Node, Sequence, Text, fields
from sowsheet.reading.places import part_of

_Value = TypeVar("_Value")
Reader = Callable[[Text, list[Mistake]], _Value | None]

_EXAMPLES = {
    "garden": "Tern Hollow",
    "season": "2027",
    "latitude": "52.4",
    "for": "growing on",
    "size": "53 cm x 31 cm",
}


class Section(msgspec.Struct, frozen=True):
    """A mapping's entries by key, and where mistakes in them are noted."""

    found: dict[str, Entry]
    mistakes: list[Mistake]
    needed: tuple[str, ...] = ()

    def node(self, key: str) -> Node | None:
        """What stands under a key; None where the key is not there or nothing stands under it."""
        entry = self.found.get(key)
        return None if entry is None or is_blank(entry.value) else entry.value

    def read(self, key: str, reader: Reader[_Value]) -> _Value | None:
        """The words under a key, read; None when the key is not there, or when they are wrong."""
        entry = self.found.get(key)
        if entry is None:
            return None
        if isinstance(entry.value, Text) and entry.value.text.strip():
            return reader(entry.value, self.mistakes)
        if isinstance(entry.value, Text):
            wrong = Mistake(entry.key.spot, f"`{key}` is empty", self._fill(key))
        else:
            wrong = Mistake(entry.value.spot, f"`{key}` wants a few words", f"Write them on the line of `{key}:`.")
        self.mistakes.append(wrong)
        return None

    def _fill(self, key: str) -> str:
        """How to cure an empty key: one that is needed cannot be left out."""
        if key not in self.needed:
            return f"Write it, or leave `{key}` out."
        example = f", e.g. `{key}: {_EXAMPLES[key]}`" if key in _EXAMPLES else ""
        return f"It is needed: write it after the colon{example}."

    def read_all(self, key: str, reader: Reader[_Value]) -> tuple[_Value, ...]:
        """`Tuesday, Saturday` or a list of words, each read; those that are wrong are left out."""
        node = self.found[key].value if key in self.found else None
        if not isinstance(node, Sequence):
            return self.read(key, lambda text, found: tuple(_each(pieces(text), reader, found))) or ()
        return tuple(_each(words_in(node, key, self.mistakes), reader, self.mistakes))


def section(
    node: Node | None, known: tuple[str, ...], needed: tuple[str, ...], mistakes: list[Mistake], what: str
) -> Section:
    """A mapping's entries. Besides unknown and missing keys, words that YAML parted at a comma are a mistake."""
    if isinstance(node, Mapping) and node.flow:
        node = _without_strays(node, known, mistakes)
    return Section(fields(node, known, needed, mistakes, what), mistakes, needed)


def named(top: Section, key: str, what: str, example: str) -> Iterator[tuple[str, Entry]]:
    """The things under a key by their names, which are unique whatever their capitals and spaces.

    Those whose names are mistakes are given too, so that what is wrong with them is told at once.
    """
    node = top.node(key)
    if node is not None and not isinstance(node, Mapping):
        cure = f"Under it, a line for each: `{example}`."
        top.mistakes.append(Mistake(node.spot, f"`{key}` wants a name for each {what}", cure))
    if isinstance(node, Mapping) and node.flow:
        node = _without_strays(node, (), top.mistakes)
    first: dict[str, Entry] = {}
    for entry in node.entries if isinstance(node, Mapping) else ():
        name = name_of(entry.key, top.mistakes) or entry.key.text
        before = first.setdefault(name.casefold(), entry)
        if before is not entry:
            what_is = f"`{name}` is given twice; the first stands on line {before.key.spot.line}"
            top.mistakes.append(Mistake(entry.key.spot, what_is, "Keep one of them, or give it another name."))
        yield name, entry


def is_blank(node: Node) -> bool:
    """Whether a key stands with nothing after it."""
    return isinstance(node, Text) and node.plain and not node.text


def words_in(node: Node, key: str, mistakes: list[Mistake]) -> Iterator[Text]:
    """A scalar, or each scalar of a list; anything else, and an empty item, is a mistake."""
    for item in node.items if isinstance(node, Sequence) else (node,):
        if isinstance(item, Text) and item.text.strip():
            yield item
        else:
            cure = f"`{key}` wants a few words here; leave empty ones out."
            mistakes.append(Mistake(item.spot, f"this is no word of `{key}`", cure))


def pieces(text: Text) -> Iterator[Text]:
    """A scalar parted at its commas, each piece at its own place."""
    start = 0
    for piece in text.text.split(","):
        end = start + len(piece)
        if piece.strip():
            yield part_of(text, start, end)
        start = end + 1


def name_of(text: Text, mistakes: list[Mistake]) -> str | None:
    """A name that fonts can print: no control or invisible characters, nothing outside the basic plane."""
    name = unicodedata.normalize("NFC", text.text.strip())
    odd = next((c for c in name if ord(c) > 0xFFFF or not (c.isprintable() or unicodedata.category(c) == "Zs")), None)
    if odd is not None:
        called = f"U+{ord(odd):04X} {unicodedata.name(odd, 'control character').lower()}"
        cure = "Leave it out; letters, figures and common signs are fine."
        mistakes.append(Mistake(text.spot, f"this name holds a character that cannot be printed: {called}", cure))
        return None
    if not name:
        mistakes.append(Mistake(text.spot, "a name is missing here", "e.g. `North 1`"))
    return " ".join(name.split())


def one_of(text: Text, known: tuple[str, ...], what: str, mistakes: list[Mistake]) -> str | None:
    """The choice that was written, whatever its capitals. `what` is what they are (`a paper`)."""
    word = " ".join(text.text.split())
    match = {choice.lower(): choice for choice in known}
    if word.lower() in match:
        return match[word.lower()]
    near = get_close_matches(word.lower(), match, n=1)
    cure = f"Did you mean `{match[near[0]]}`?" if near else f"One of: {', '.join(known)}."
    mistakes.append(Mistake(text.spot, f"`{word}` is not {what}", cure))
    return None


def size_within(text: Text, mistakes: list[Mistake], least_cm: float, most_cm: float, what: str) -> Size | None:
    """A size whose sides are both within reason for `what` it is the size of."""
    size = parse_size(text, mistakes)
    if size is None or all(least_cm <= side <= most_cm for side in (size.length_cm, size.width_cm)):
        return size
    wrong = f"`{' '.join(text.text.split())}` cannot be the size of {what}"
    cure = f"Its sides lie between {_length(least_cm)} and {_length(most_cm)}: metres or centimetres?"
    mistakes.append(Mistake(text.spot, wrong, cure))
    return None


def _length(cm: float) -> str:
    return f"{cm / 100:g} m" if cm >= 100 else f"{cm:g} cm"


def _each(texts: Iterator[Text], reader: Reader[_Value], mistakes: list[Mistake]) -> Iterator[_Value]:
    for text in texts:
        value = reader(text, mistakes)
        if value is not None:
            yield value


def _without_strays(node: Mapping, known: tuple[str, ...], mistakes: list[Mistake]) -> Mapping:
    """A mapping in braces without the words that stand between two commas alone: `{for: growing on, hardening off}`."""
    kept: list[Entry] = []
    for entry in node.entries:
        if entry.key.text in known or not is_blank(entry.value):
            kept.append(entry)
            continue
        cure = "Commas part the keys in braces. Put words that hold a comma in quotes."
        before = kept[-1] if kept else None
        if before is not None and isinstance(before.value, Text):
            cure += f' E.g. `{before.key.text}: "{before.value.text}, {entry.key.text}"`'
        mistakes.append(Mistake(entry.key.spot, f"`{entry.key.text}` stands alone here", cure))
    return Mapping(tuple(kept), node.spot, node.flow)


def is_file(path: Path) -> bool:
    """Whether there is such a file."""
    try:
        return path.is_file()
    except (OSError, ValueError):  # a name too long, or one that no file system has
        return False
