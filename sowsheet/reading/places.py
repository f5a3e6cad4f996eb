"""Which place of the file each letter of a scalar stands at, and parts of a scalar that keep their place."""

from __future__ import annotations

import re
from collections.abc import Iterator

import msgspec

from sowsheet.reading.mistakes import Spot
from sowsheet.reading.nodes import Text

# How many signs of the file an escape or a doubled quote may take for one letter of the text.
_ESCAPE = 12


class Places(msgspec.Struct, frozen=True):
    """For each letter of a text the line it stands on and its column, counted from 1."""

    lines: tuple[Spot, ...]
    points: tuple[tuple[int, int], ...]

    def spot(self, start: int, end: int) -> Spot:
        """The place of the letters from `start` up to but not including `end`, cut at the end of their line."""
        if not self.points:
            return self.lines[0]
        first = min(max(0, start), len(self.points) - 1)
        last = min(max(first, end - 1), len(self.points) - 1)
        line, column = self.points[first]
        columns = [c for number, c in self.points[first : last + 1] if number == line]
        spot = self.lines[line]
        return Spot(spot.file, spot.line, column, max(1, max(columns) - column + 1), spot.excerpt)


def places_of(text: Text) -> Places:
    """The places of a scalar's letters, whether it stood plain, in quotes or over several lines."""
    if (text.plain and not text.lines) or not text.spot.excerpt:
        column = text.spot.column
        return Places((text.spot,), tuple((0, column + n) for n in range(len(text.text))))
    lines = text.lines or (text.spot,)
    return Places(lines, tuple(_points(text.text, lines)))


def part_of(text: Text, start: int, end: int) -> Text:
    """A piece of a scalar without the spaces around it, at its own place."""
    piece = text.text[start:end]
    first = start + len(piece) - len(piece.lstrip())
    return Text(piece.strip(), places_of(text).spot(first, first + len(piece.strip())))


def split_note(text: Text) -> tuple[Text, Text | None]:
    """A scalar and what stands in brackets at its end: `10 May (average)`."""
    found = re.search(r"\(([^()]*)\)\s*$", text.text)
    if not found:
        return part_of(text, 0, len(text.text)), None
    return part_of(text, 0, found.start()), part_of(text, found.start(1), found.end(1))


def _points(text: str, lines: tuple[Spot, ...]) -> Iterator[tuple[int, int]]:
    """Each letter looked for in the file a little further on; spaces and strangers stay at the last one found."""
    source = [
        (number, column, sign)
        for number, spot in enumerate(lines)
        for column, sign in enumerate(spot.excerpt[spot.column - 1 : spot.column - 1 + spot.length], spot.column)
        if not sign.isspace()
    ]
    at, point = 0, source[0][:2] if source else (0, lines[0].column)
    for letter in text:
        near = range(at, min(at + _ESCAPE, len(source)))
        found = None if letter.isspace() else next((n for n in near if source[n][2] == letter), None)
        if found is not None:
            at, point = found + 1, source[found][:2]
        yield point
