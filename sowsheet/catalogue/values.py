"""The values of a crop file: the text of one line in, a number, range or move out, or what is wrong with it."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from typing import TypeVar

import msgspec

from sowsheet.catalogue.records import Move, Range
from sowsheet.reading.mistakes import Said, said

T = TypeVar("T")
NUMBER = r"-?\d+(?:\.\d+)?"
_RANGE = re.compile(rf"({NUMBER})(?: to ({NUMBER}))?(?:, usually ({NUMBER}))? ?(.*)")
_DEGREES = re.compile(rf"({NUMBER}) C ({NUMBER})")


class Wrong(msgspec.Struct, frozen=True):
    """Why a text is not the value wanted, and how to cure it."""

    what: Said
    cure: Said | str = ""


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
        return Wrong(said("mistake.crops.value.unit", text=text, unit=next(iter(units))))
    if found is None or unit not in units:
        return Wrong(said(f"mistake.crops.value.no.{_family(units)}", text=text, unit=next(iter(units))))
    low = float(found[1])
    high = float(found[2] or low)
    usual = float(found[3]) if found[3] else (low + high) / 2
    if low > high:
        return backwards(low, high)
    if not low <= usual <= high:
        return outside(usual, low, high)
    zero, size = units[unit]
    return Range(*(round((n - zero) * size, 6) for n in (low, usual, high)))


def positive(text: str, units: Units, after: str = "") -> Range | Wrong:
    """`ranged`, all of it above 0."""
    found = ranged(text, units, after)
    if isinstance(found, Range) and found.low <= 0:
        return Wrong(said("mistake.crops.value.more than 0"))
    return found


def single(text: str, units: Units) -> float | Wrong:
    """One number: `-2 C`, `80 %`."""
    found = ranged(text, units)
    if isinstance(found, Range):
        return found.usual if found.low == found.high else Wrong(said("mistake.crops.value.one number"))
    return found


def share(text: str) -> float | Wrong:
    """`80 %` as 0.8."""
    found = single(text, SHARE)
    if isinstance(found, float) and not 0 < found <= 1:
        return Wrong(said("mistake.crops.value.share"))
    return found


def per_gram(text: str) -> float | Wrong:
    """Seeds in a gram, one number; of a published range its middle or usual."""
    found = positive(text, PIECES)
    return found.usual if isinstance(found, Range) else found


def whole(text: str) -> int | Wrong:
    """A whole number from 1."""
    if text.isdecimal() and int(text) > 0:
        return int(text)
    return Wrong(said("mistake.crops.value.no whole number", text=text))


def move(text: str) -> Move | Wrong:
    """`10 to 18, usually 14 days after up, into 15 to 40 ml`"""
    when, between, into = text.partition(" after up, into ")
    if not between:
        return Wrong(said("mistake.crops.value.move"))
    days, volume = positive(when, DAYS), positive(into, ML)
    if isinstance(days, Wrong):
        return days
    return volume if isinstance(volume, Wrong) else Move(days, volume)


def days_up(text: str) -> tuple[tuple[float, float], ...] | Wrong:
    """`5 C 15, 10 C 7, 15 C 4`: temperature (C) and days, rising, three at least."""
    found = [_DEGREES.fullmatch(part.strip()) for part in text.split(",")]
    points = tuple((float(m[1]), float(m[2])) for m in found if m)
    if len(points) < len(found):
        return Wrong(said("mistake.crops.value.temperatures"))
    if len(points) < 3:
        return Wrong(said("mistake.crops.value.three temperatures"))
    temps = [temp for temp, _ in points]
    if temps != sorted(set(temps)) or min(days for _, days in points) <= 0:
        return Wrong(said("mistake.crops.value.rising"))
    return points


def one_of(words: Mapping[str, T]) -> Callable[[str], T | Wrong]:
    """A reader for a fixed choice of words."""

    def read(text: str) -> T | Wrong:
        if text in words:
            return words[text]
        return Wrong(said("mistake.crops.value.none of", text=text, choices=", ".join(words)))

    return read


def words(text: str) -> str | Wrong:
    """Plain words."""
    return text or Wrong(said("mistake.crops.value.nothing"))


def backwards(low: float, high: float) -> Wrong:
    """A range whose larger number stands first."""
    cure = said("mistake.crops.value.backwards.cure")
    return Wrong(said("mistake.crops.value.backwards.what", low=low, high=high), cure)


def outside(usual: float, low: float, high: float) -> Wrong:
    """A usual value that its range does not hold."""
    return Wrong(said("mistake.crops.value.outside", usual=usual, low=low, high=high))


def _family(units: Units) -> str:
    """What a text in none of these units is not, as the last part of a phrase's key."""
    named = {"": "number", "days": "days", "years": "years", "C": "temperature"}
    return named.get(next(iter(units)), "measure")
