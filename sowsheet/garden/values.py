"""What the sections of a garden file share: a mapping read key by key, names, choices, sizes within reason."""

from __future__ import annotations

import unicodedata
from collections.abc import Callable, Iterator
from difflib import get_close_matches
from pathlib import Path
from typing import Literal, TypeVar

import msgspec

from sowsheet.reading.measures import Size, length_said, parse_size
from sowsheet.reading.mistakes import Mistake, Said, example, said
from sowsheet.reading.nodes import Entry, Mapping, Node, Sequence, Text, fields
from sowsheet.reading.places import part_of

_Value = TypeVar("_Value")
Reader = Callable[[Text, list[Mistake]], _Value | None]
Choice = Literal["paper", "language", "weekday", "frost", "shelter", "airing", "purpose"]

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
            wrong = Mistake(entry.key.spot, said("mistake.key.empty.what", key=key), self._fill(key))
        else:
            cure = said("mistake.key.few words.cure", key=key)
            wrong = Mistake(entry.value.spot, said("mistake.key.few words.what", key=key), cure)
        self.mistakes.append(wrong)
        return None

    def _fill(self, key: str) -> Said:
        """How to cure an empty key: one that is needed cannot be left out."""
        if key not in self.needed:
            return said("mistake.key.empty.cure", key=key)
        if key not in _EXAMPLES:
            return said("mistake.key.empty.needed")
        return said("mistake.key.empty.needed as", line=f"{key}: {_EXAMPLES[key]}")

    def read_all(self, key: str, reader: Reader[_Value]) -> tuple[_Value, ...]:
        """`Tuesday, Saturday` or a list of words, each read; those that are wrong are left out."""
        node = self.found[key].value if key in self.found else None
        if not isinstance(node, Sequence):
            return self.read(key, lambda text, found: tuple(_each(pieces(text), reader, found))) or ()
        return tuple(_each(words_in(node, key, self.mistakes), reader, self.mistakes))


def section(
    node: Node | None, known: tuple[str, ...], needed: tuple[str, ...], mistakes: list[Mistake], what: Said
) -> Section:
    """A mapping's entries. Besides unknown and missing keys, words that YAML parted at a comma are a mistake.

    `what` names the mapping in messages, a phrase of `mistake.thing`.
    """
    if isinstance(node, Mapping) and node.flow:
        node = _without_strays(node, known, mistakes)
    return Section(fields(node, known, needed, mistakes, what), mistakes, needed)


def named(top: Section, key: Literal["places", "trays", "beds"], line: str) -> Iterator[tuple[str, Entry]]:
    """The things under a key by their names, which are unique whatever their capitals and spaces.

    Those whose names are mistakes are given too, so that what is wrong with them is told at once. `line` is one of
    them as an example.
    """
    node = top.node(key)
    if node is not None and not isinstance(node, Mapping):
        cure = said("mistake.names.cure", line=line)
        top.mistakes.append(Mistake(node.spot, said(f"mistake.names.{key}", key=key), cure))
    if isinstance(node, Mapping) and node.flow:
        node = _without_strays(node, (), top.mistakes)
    first: dict[str, Entry] = {}
    for entry in node.entries if isinstance(node, Mapping) else ():
        name = name_of(entry.key, top.mistakes) or entry.key.text
        before = first.setdefault(name.casefold(), entry)
        if before is not entry:
            what = said("mistake.twice.what", name=name, line=before.key.spot.line)
            top.mistakes.append(Mistake(entry.key.spot, what, said("mistake.twice.cure")))
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
            cure = said("mistake.key.no word.cure", key=key)
            mistakes.append(Mistake(item.spot, said("mistake.key.no word.what", key=key), cure))


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
        number, called = f"U+{ord(odd):04X}", unicodedata.name(odd, "").lower()
        control = said("mistake.name.control character", number=number)
        what = said("mistake.name.odd character", number=number, name=called) if called else control
        mistakes.append(Mistake(text.spot, what, said("mistake.name.cure")))
        return None
    if not name:
        mistakes.append(Mistake(text.spot, said("mistake.name.missing"), example("North 1")))
    return " ".join(name.split())


def one_of(text: Text, known: tuple[str, ...], what: Choice, mistakes: list[Mistake]) -> str | None:
    """The choice that was written, whatever its capitals. `what` is what they are."""
    word = " ".join(text.text.split())
    match = {choice.lower(): choice for choice in known}
    if word.lower() in match:
        return match[word.lower()]
    near = get_close_matches(word.lower(), match, n=1)
    all_of_them = said("mistake.one of.cure", known=", ".join(known))
    cure = said("mistake.near", near=match[near[0]]) if near else all_of_them
    mistakes.append(Mistake(text.spot, said(f"mistake.one of.{what}", text=word), cure))
    return None


def size_within(
    text: Text, mistakes: list[Mistake], least_cm: float, most_cm: float, what: Literal["bed", "tray"]
) -> Size | None:
    """A size whose sides are both within reason for `what` it is the size of."""
    size = parse_size(text, mistakes)
    if size is None or all(least_cm <= side <= most_cm for side in (size.length_cm, size.width_cm)):
        return size
    wrong = said(f"mistake.size.{what}", text=" ".join(text.text.split()))
    cure = said("mistake.size.cure", least=length_said(least_cm), most=length_said(most_cm))
    mistakes.append(Mistake(text.spot, wrong, cure))
    return None


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
        cure, before = said("mistake.alone.cure"), kept[-1] if kept else None
        if before is not None and isinstance(before.value, Text):
            line = f'{before.key.text}: "{before.value.text}, {entry.key.text}"'
            cure = said("mistake.alone.quoted", line=line)
        mistakes.append(Mistake(entry.key.spot, said("mistake.alone.what", text=entry.key.text), cure))
    return Mapping(tuple(kept), node.spot, node.flow)


def is_file(path: Path) -> bool:
    """Whether there is such a file."""
    try:
        return path.is_file()
    except (OSError, ValueError):  # a name too long, or one that no file system has
        return False
