"""The values of a crop file: the text of one line in, a number, range or move out, or what is wrong with it."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from typing import TypeVar

import msgspec

from sowsheet.catalogue.records import Move, Range

T = TypeVar("T")
NUMBER = r"-?\d+(?:\.\d+)?"
_RANGE = re.compile(rf"({NUMBER})(?: to ({NUMBER}))?(?:, usually ({NUMBER}))? ?(.*)")
_DEGREES = re.compile(rf"({NUMBER}) C ({NUMBER})")


class Wrong(msgspec.Struct, frozen=True):
    """Why a text is not the value wanted, and how to cure it."""

    what: str
    cure: str = ""


# A unit family: unit as written -> (its zero, its size) in the unit reckoned with.
Units = Mapping[str, tuple[float, float]]
DAYS: Units = {"days": (0, 1), "day": (0, 1), "weeks": (0, 7), "week": (0, 7)}
YEARS: Units = {"years": (0, 1), "year": (0, 1)}
CM: Units = {"cm": (0, 1), "mm": (0, 0.1), "m": (0, 100), "in": (0, 2.54), "ft": (0, 30.48)}
MM: Units = {"mm": (0, 1), "cm": (0, 10), "in": (0, 25.4)}
ML: Units = {"ml": (0, 1), "l": (0, 1000)}
C: Units = {"C": (0, 1), "°C": (0, 1), "F": (32, 5 / 9), "°F": (32, 5 / 9)}
SHARE: Units = {"%": (0, 0.01)}
PIECES: Units = {"": (0, 1)}


def ranged(text: str, units: Units, after: str = "") -> Range | Wrong:
    """`24 to 32, usually 28 days`, `24 to 32 days` (the middle is usual) or `28 days`, in the family's first unit.

    `after` are words that may follow the unit ("apart").
    """
    found = _RANGE.fullmatch(text)
    unit = found[4].removesuffix(after).rstrip() if found else ""
    if found is not None and not unit and "" not in units:
        return Wrong(f"`{text}` wants its unit, {next(iter(units))}")
    if found is None or unit not in units:
        return Wrong(f"`{text}` is no {_family(units)}")
    low = float(found[1])
    high = float(found[2] or low)
    usual = float(found[3]) if found[3] else (low + high) / 2
    if low > high:
        return Wrong(f"the range runs backwards, from {low:g} to {high:g}", "Write the smaller number first.")
    if not low <= usual <= high:
        return Wrong(f"the usual {usual:g} lies outside {low:g} to {high:g}")
    zero, size = units[unit]
    return Range(*(round((n - zero) * size, 6) for n in (low, usual, high)))


def positive(text: str, units: Units, after: str = "") -> Range | Wrong:
    """`ranged`, all of it above 0."""
    found = ranged(text, units, after)
    if isinstance(found, Range) and found.low <= 0:
        return Wrong("this has to be more than 0")
    return found


def single(text: str, units: Units) -> float | Wrong:
    """One number: `-2 C`, `80 %`."""
    found = ranged(text, units)
    if isinstance(found, Range):
        return found.usual if found.low == found.high else Wrong("one number is wanted here, not a range")
    return found


def share(text: str) -> float | Wrong:
    """`80 %` as 0.8."""
    found = single(text, SHARE)
    if isinstance(found, float) and not 0 < found <= 1:
        return Wrong("this lies between 0 and 100 %")
    return found


def per_gram(text: str) -> float | Wrong:
    """Seeds in a gram, one number; of a published range its middle or usual."""
    found = positive(text, PIECES)
    return found.usual if isinstance(found, Range) else found


def whole(text: str) -> int | Wrong:
    """A whole number from 1."""
    return int(text) if text.isdecimal() and int(text) > 0 else Wrong(f"`{text}` is no whole number")


def move(text: str) -> Move | Wrong:
    """`10 to 18, usually 14 days after up, into 15 to 40 ml`"""
    when, between, into = text.partition(" after up, into ")
    if not between:
        return Wrong("days and a volume are wanted")
    days, volume = positive(when, DAYS), positive(into, ML)
    if isinstance(days, Wrong):
        return days
    return volume if isinstance(volume, Wrong) else Move(days, volume)


def days_up(text: str) -> tuple[tuple[float, float], ...] | Wrong:
    """`5 C 15, 10 C 7, 15 C 4`: temperature (C) and days, rising, three at least."""
    found = [_DEGREES.fullmatch(part.strip()) for part in text.split(",")]
    points = tuple((float(m[1]), float(m[2])) for m in found if m)
    if len(points) < len(found):
        return Wrong("this wants temperatures, each with its days")
    if len(points) < 3:
        return Wrong("at least three temperatures are wanted")
    temps = [temp for temp, _ in points]
    if temps != sorted(set(temps)) or min(days for _, days in points) <= 0:
        return Wrong("the temperatures have to rise, and the days to be more than 0")
    return points


def one_of(words: Mapping[str, T]) -> Callable[[str], T | Wrong]:
    """A reader for a fixed choice of words."""

    def read(text: str) -> T | Wrong:
        return words[text] if text in words else Wrong(f"`{text}` is none of {', '.join(words)}")

    return read


def words(text: str) -> str | Wrong:
    """Plain words."""
    return text or Wrong("nothing is written here")


def _family(units: Units) -> str:
    named = {"": "number or range", "days": "number of days", "years": "number of years", "C": "temperature in C"}
    first = next(iter(units))
    return named.get(first, f"measure in {first}")
