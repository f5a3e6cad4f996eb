"""Names of crops as a plan line needs them: found in the catalogue, which knows how growers call things."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Protocol

import msgspec


class Name(msgspec.Struct, frozen=True):
    """What a name stands for: keys of the catalogue.

    Non-empty `choices` are the names to write instead, when the word could be several things. `foreign`: it is a word
    of another language than the garden's. `nominative`: what is printed for a word that was written in another case.
    """

    crop: str
    kind: str | None
    choices: tuple[str, ...] = ()
    foreign: bool = False
    nominative: str = ""


class NameBook(Protocol):
    """The names a plan line may use.

    Words come lower-case, with straight apostrophes and hyphens as written, plural or singular: the book evens out.
    """

    def find(self, words: tuple[str, ...]) -> Name | None:
        """What exactly these words name."""
        ...

    def longest(self, words: Sequence[str]) -> tuple[int, Name] | None:
        """How many of the first words form the longest known name, and what it stands for."""
        ...

    def near(self, words: str) -> str | None:
        """A known name that these words may be a slip of."""
        ...

    def kinds(self, crop: str) -> tuple[str, ...]:
        """The kinds of a crop, as names to write."""
        ...
