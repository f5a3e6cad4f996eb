"""A line cut into words, signs and brackets, each knowing where it stands."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import Literal

import msgspec

from sowsheet.reading.mistakes import Mistake, Said, Spot
from sowsheet.reading.places import Places

MONTHS = (
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
)
MONTH_OF = {name.lower(): n for n, name in enumerate(MONTHS, 1)}
MONTH_OF |= {name[:3].lower(): n for n, name in enumerate(MONTHS, 1)} | {"sept": 9}

_CUT = re.compile(
    r"""(?P<remark>(?m:^)[^\S\n]*\#[^\n]*)      # a line of its own in a text over several lines
      | (?P<note>\([^()\n]*\))
      | (?P<sign>[,;?\n–—()])
      | (?P<word>(?:(?<=[0-9]),(?=[0-9])|[^\s,;?()–—])+)""",
    re.VERBOSE,
)
_NUMBER_UNIT = re.compile(r"([0-9]+(?:[.,][0-9]+)?)(?!(?:st|nd|rd|th)$)([^\W\d_]+)")  # 2m, 10h
_UNIT_NUMBER = re.compile(r"(x|×|week|wk)([0-9]+)")  # x6, wk16
_FEET = re.compile(r"""([0-9.]+)(')(?:([0-9.]+)("))?|([0-9.]+)(")""")  # 4'6"
_STRAIGHT = str.maketrans({"’": "'", "‘": "'", "′": "'", "″": '"', "”": '"', "“": '"'})


class Token(msgspec.Struct, frozen=True):
    """A piece of a line. `word` is lower-case, with straight apostrophes and no full stop; a dash is `–`."""

    word: str
    start: int
    end: int
    mark: Literal["word", "sign", "note"] = "word"


def tokens_of(text: str) -> tuple[Token, ...]:
    """The whole text cut up; nothing but spaces and lines that begin with `#` is left out."""
    return tuple(token for found in _CUT.finditer(text) for token in _tokens(found))


def _tokens(found: re.Match[str]) -> Iterator[Token]:
    raw, start = found.group(), found.start()
    if found.lastgroup == "word":
        yield from _words(raw, start)
    elif found.lastgroup == "note":
        yield Token("(…)", start, found.end(), "note")
    elif found.lastgroup == "sign":
        yield Token("–" if raw == "—" else raw, start, found.end(), "sign")


def _words(raw: str, start: int) -> Iterator[Token]:
    word = raw.lower().translate(_STRAIGHT)
    if len(word) != len(raw):  # a capital that has no single small letter
        word = raw
    if any(c.isalpha() for c in word):
        word = word.rstrip(".") or word
    if word == "-":
        yield Token("–", start, start + 1, "sign")
        return
    for pattern in (_NUMBER_UNIT, _UNIT_NUMBER, _FEET):
        if split := pattern.fullmatch(word):
            yield from _groups(split, start)
            return
    parts = word.split("-")
    if len(parts) > 1 and any(part in MONTH_OF for part in parts):
        yield from _around_hyphens(parts, start)
        return
    yield Token(word, start, start + len(raw))


def _groups(split: re.Match[str], start: int) -> Iterator[Token]:
    for n, group in enumerate(split.groups(), 1):
        if group is not None:
            yield Token(group, start + split.start(n), start + split.end(n))


def _around_hyphens(parts: list[str], start: int) -> Iterator[Token]:
    """`mid-May`, `12-Apr-2027` without their hyphens; `April-June` with a dash between."""
    at = start
    for before, part in zip(["", *parts], parts, strict=False):
        if before in MONTH_OF and part and not part[0].isdigit():
            yield Token("–", at - 1, at, "sign")
        if part:
            yield Token(part, at, at + len(part))
        at += len(part) + 1


@dataclass(slots=True, kw_only=True)
class Cursor:
    """Reads tokens one after the other, and notes mistakes at their places."""

    text: str
    places: Places
    tokens: tuple[Token, ...]
    mistakes: list[Mistake]
    at: int = 0
    _words: list[str] = field(init=False)

    def __post_init__(self) -> None:
        self._words = [token.word for token in self.tokens]

    @property
    def ended(self) -> bool:
        """Whether all is read."""
        return self.at >= len(self.tokens)

    def word(self, ahead: int = 0) -> str:
        """The word so far ahead, or "" after the last."""
        return self._words[self.at + ahead] if self.at + ahead < len(self._words) else ""

    def words(self, ahead: int = 0) -> list[str]:
        """All from here on, signs as themselves."""
        return self._words[self.at + ahead :]

    def plain_words(self, ahead: int = 0) -> list[str]:
        """The words from here to the next sign or bracket."""
        found: list[str] = []
        for token in self.tokens[self.at + ahead :]:
            if token.mark != "word":
                break
            found.append(token.word)
        return found

    def take(self, *options: str) -> str:
        """The next word when it is one of these, and step over it; otherwise ""."""
        if self.word() not in options or self.ended:
            return ""
        self.at += 1
        return self._words[self.at - 1]

    def written(self, start: int, end: int) -> str:
        """The text of the tokens from `start` up to but not including `end`, as it was written."""
        if start >= end or start >= len(self.tokens):
            return ""
        piece = self.text[self.tokens[start].start : self.tokens[min(end, len(self.tokens)) - 1].end]
        return " ".join(piece.split())

    def spot(self, start: int, end: int) -> Spot:
        """The place of those tokens; after the last one, the last one's place."""
        if not self.tokens:
            return self.places.spot(0, len(self.text))
        first = min(start, len(self.tokens) - 1)
        last = min(max(first, end - 1), len(self.tokens) - 1)
        return self.places.spot(self.tokens[first].start, self.tokens[last].end)

    def give_up(self) -> None:
        """Step over all that is left: a mistake is told, and what follows would only be told of it again."""
        self.at = len(self.tokens)

    def refuse(self, start: int, end: int, what: Said, cure: Said) -> None:
        """Note a mistake under the tokens from `start` up to but not including `end`."""
        self.mistakes.append(Mistake(self.spot(start, end), what, cure))
