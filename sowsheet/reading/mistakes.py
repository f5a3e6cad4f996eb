"""A mistake in the grower's input, as a value: where it is, what is wrong, how to cure it."""

from __future__ import annotations

from collections.abc import Iterable

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
    """The phrase of a key with its parts, to be said in the reader's language later."""
    return Said(key, tuple(parts.items()))


def in_order(mistakes: Iterable[Mistake]) -> list[Mistake]:
    """Mistakes as they stand in the file, each once."""
    return sorted(dict.fromkeys(mistakes), key=lambda m: (m.spot.file, m.spot.line, m.spot.column))
