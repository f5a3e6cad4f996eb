"""A mistake in the grower's input, as a value: where it is, what is wrong, how to cure it."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

import msgspec


class Spot(msgspec.Struct, frozen=True):
    """A place in a file: line and column count from 1; `excerpt` is that whole line's text."""

    file: str
    line: int
    column: int
    length: int = 1
    excerpt: str = ""


class Said(msgspec.Struct, frozen=True):
    """A phrase not said yet, for want of a language: its key in the language files, and its parts by name.

    A part may itself be such a phrase.
    """

    key: str
    parts: tuple[tuple[str, object], ...] = ()


class Mistake(msgspec.Struct, frozen=True):
    """Something the grower has to mend. `what` is one plain sentence, `cure` says how, with an example."""

    spot: Spot
    what: Said | str
    cure: Said | str = ""


def said(key: str, /, **parts: object) -> Said:
    """The phrase of a key with its parts, to be said in the reader's language later.

    A part whose name begins with a capital is put at the beginning of a sentence.
    """
    return Said(key, tuple(parts.items()))


def example(*forms: str) -> Said:
    """e.g. `30 cm`, `4 ft`: what could be written, as the file wants it."""
    return said("mistake.example", ways=", ".join(f"`{form}`" for form in forms))


def write(*forms: str) -> Said:
    """Write `10 July` or `7 October`."""
    return said("mistake.write", ways=any_of(forms))


def any_of(forms: Sequence[str]) -> Said | str:
    """`10 July` or `7 October`, as the file wants them; "" for none."""
    first, *others = (f"`{form}`" for form in forms) if forms else ("",)
    ways: Said | str = first
    for other in others:
        ways = said("list.or", first=ways, last=other)
    return ways


def in_order(mistakes: Iterable[Mistake]) -> list[Mistake]:
    """Mistakes as they stand in the file, each once."""
    return sorted(dict.fromkeys(mistakes), key=lambda m: (m.spot.file, m.spot.line, m.spot.column))
