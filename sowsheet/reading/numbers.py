"""Numbers as growers write them: figures, decimals with a point, words up to twelve."""

from __future__ import annotations

import re
from fractions import Fraction

from sowsheet.reading.mistakes import Said, said, write

_WORDS = ("one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve")
NUMBER_WORDS = {word: n for n, word in enumerate(_WORDS, 1)}
_UNIT_DAYS = {"day": 1, "days": 1, "week": 7, "weeks": 7, "wk": 7, "wks": 7, "fortnight": 14, "fortnights": 14}


def number(word: str) -> Fraction | None:
    """`6`, `0.5`, `six`; None for anything else. Figures are the ASCII ones."""
    if word in NUMBER_WORDS:
        return Fraction(NUMBER_WORDS[word])
    return Fraction(word) if re.fullmatch(r"[0-9]{1,99}(\.[0-9]{1,6})?", word) else None


def whole(word: str) -> int | None:
    """`6`, `six`; None for anything else, decimals too."""
    found = number(word)
    return int(found) if found is not None and found.denominator == 1 and "." not in word else None


def comma_cure(word: str) -> Said | None:
    """How to write a number that was written with a comma (`2,5`), or None when it was not."""
    found = re.fullmatch(r"([0-9]+),([0-9]+)", word)
    if not found:
        return None
    left, right = found.groups()
    return write(f"{left}{right}") if len(right) == 3 else said("mistake.comma", number=f"{left}.{right}")


def days_at(words: list[str]) -> tuple[Fraction, int] | None:
    """A length of time that these words begin with, in days, and how many words it takes."""
    if not words:
        return None
    if words[0] in ("week", "fortnight"):  # `fortnight` is one
        return Fraction(_UNIT_DAYS[words[0]]), 1
    times = Fraction(1) if words[0] in ("a", "an") else number(words[0])
    if times is None or len(words) < 2 or words[1] not in _UNIT_DAYS:
        return None
    return times * _UNIT_DAYS[words[1]], 2
