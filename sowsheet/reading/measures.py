"""Measures as growers write them, strictly read and converted once: cm, C, ml, days, degrees.

Every parser is called with a scalar and the collector of mistakes, and gives the value or None.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from fractions import Fraction
from functools import wraps
from typing import Concatenate, Literal, ParamSpec, TypeVar

import msgspec

from sowsheet.reading.mistakes import Mistake, Said, example, said, write
from sowsheet.reading.nodes import Text
from sowsheet.reading.numbers import comma_cure, days_at, number, whole

_FEET, _INCHES = ("ft", "foot", "feet", "'"), ("in", "inch", "inches", '"')
_CM = {
    **dict.fromkeys(("mm", "millimetre", "millimetres"), Fraction(1, 10)),
    **dict.fromkeys(("cm", "centimetre", "centimetres", "centimeter", "centimeters"), Fraction(1)),
    **dict.fromkeys(("m", "metre", "metres", "meter", "meters"), Fraction(100)),
    **dict.fromkeys(_FEET, Fraction("30.48")),
    **dict.fromkeys(_INCHES, Fraction("2.54")),
}
_ML = {
    **dict.fromkeys(("ml", "cc", "millilitre", "millilitres"), Fraction(1)),
    **dict.fromkeys(("l", "litre", "litres", "liter", "liters"), Fraction(1000)),
    **dict.fromkeys(("cu in", "cubic inch", "cubic inches"), Fraction("16.387064")),
}
_PIECE = re.compile(r"[0-9]+(?:[.,][0-9]+)*|[^\W\d_]+|\S")
_STRAIGHT = str.maketrans({"’": "'", "′": "'", "″": '"', "”": '"', "−": "-", "º": "°", "×": "x"})

MOST_LENGTH_CM = 20_000.0
_DEGREES, _LATITUDE = example("18 C", "64 F"), said("mistake.measure.latitude.cure")

Counted = Literal["", "cells", "pots", "trays"]

_Rest = ParamSpec("_Rest")
_Value = TypeVar("_Value")


class Size(msgspec.Struct, frozen=True):
    """A length and a width, in the order in which they were written."""

    length_cm: float
    width_cm: float


def _collected(
    read: Callable[Concatenate[Text, _Rest], _Value | Mistake],
) -> Callable[Concatenate[Text, list[Mistake], _Rest], _Value | None]:
    """A reader that hands its mistake to the collector, which is the second argument."""

    @wraps(read)
    def parse(text: Text, mistakes: list[Mistake], /, *args: _Rest.args, **kwargs: _Rest.kwargs) -> _Value | None:
        found = read(text, *args, **kwargs)
        if isinstance(found, Mistake):
            mistakes.append(found)
            return None
        return found

    return parse


def is_imperial(text: Text) -> bool:
    """Whether feet, inches, cubic inches or Fahrenheit were written."""
    pieces = _pieces(text)
    return any(p in _FEET or p in _INCHES for p in pieces) or pieces[-1:] in (["f"], ["fahrenheit"])


def length_at(words: Sequence[str]) -> tuple[Fraction, int] | None:
    """A length in cm that these words begin with (`4 ft 6 in`), and how many words it takes."""
    first = number(words[0]) if len(words) > 1 else None
    if first is None or words[1] not in _CM:
        return None
    cm = first * _CM[words[1]]
    inches = number(words[2]) if len(words) > 3 and words[1] in _FEET and words[3] in _INCHES else None
    return (cm, 2) if inches is None else (cm + inches * _CM["in"], 4)


@_collected
def parse_length(text: Text, most_cm: float = MOST_LENGTH_CM) -> float | Mistake:
    """`1.2 m`, `4 ft 6 in`, `4'6"` in cm; above 0, and no more than `most_cm`."""
    cm = _length(_pieces(text))
    if cm is None:
        return _not_a(text, "length", example("1.2 m", "30 cm", "4 ft", "4 ft 6 in"))
    return float(cm) if 0 < cm <= most_cm else _no_such_length(text, most_cm)


@_collected
def parse_size(text: Text, most_cm: float = MOST_LENGTH_CM) -> Size | Mistake:
    """`4.5 m x 0.6 m`, `53 x 31 cm`, `4 ft by 18 in` in cm. A unit at the end alone holds for both."""
    pieces = _pieces(text)
    middle = next((n for n, p in enumerate(pieces) if p in ("x", "by")), 0)
    left, right = pieces[:middle], pieces[middle + 1 :]
    if len(left) == 1 and len(right) == 2:
        left = [*left, right[1]]
    length, width = _length(left), _length(right)
    if length is None or width is None:
        return _not_a(text, "size", example("4.5 m x 0.6 m", "53 cm x 31 cm", "20 ft x 4 ft"))
    if not (0 < length <= most_cm and 0 < width <= most_cm):
        return _no_such_length(text, most_cm)
    return Size(float(length), float(width))


@_collected
def parse_temp_c(text: Text) -> float | Mistake:
    """`18 C`, `18 °C`, `64 F` in C, between -60 and 60."""
    sign, pieces = _signed(_pieces(text))
    value = number(pieces[0]) if len(pieces) == 2 else None
    if value is None or pieces[1] not in ("c", "celsius", "f", "fahrenheit"):
        return _not_a(text, "temperature", _DEGREES)
    temp_c = sign * value if pieces[1][0] == "c" else (sign * value - 32) * Fraction(5, 9)
    if not -60 <= temp_c <= 60:
        return Mistake(text.spot, said("mistake.limit.temperature", text=_written(text)), _DEGREES)
    return float(temp_c)


@_collected
def parse_percent(text: Text) -> Fraction | Mistake:
    """`10 %` as a fraction of one, 0 to 100 %."""
    pieces = _pieces(text)
    value = number(pieces[0]) if pieces else None
    if value is None or pieces[1:] not in (["%"], ["percent"], ["per", "cent"]):
        return _not_a(text, "percentage", example("10 %"))
    if value > 100:
        return Mistake(text.spot, said("mistake.limit.percentage", text=_written(text)), example("10 %"))
    return value / 100


@_collected
def parse_days(text: Text, most: int = 366) -> int | Mistake:
    """`5 weeks`, `4 days`, `a week`, `fortnight` in days; whole days, no more than `most`."""
    pieces = _pieces(text)
    found = days_at(pieces)
    if found is None or found[1] < len(pieces):
        return _not_a(text, "time", said("mistake.measure.time.cure"))
    if found[0].denominator != 1:
        return Mistake(text.spot, said("mistake.limit.whole days", text=_written(text)), example("10 days"))
    if found[0] > most:
        return Mistake(text.spot, said("mistake.limit.days", text=_written(text), n=most), example("5 weeks"))
    return int(found[0])


@_collected
def parse_volume_ml(text: Text) -> float | Mistake:
    """`30 ml`, `0.4 l`, `2 cu in` in ml; above 0, and no more than 1000 l."""
    pieces = [p for p in _pieces(text) if p != "."]
    value, unit = number(pieces[0]) if pieces else None, " ".join(pieces[1:])
    if value is None or unit not in _ML:
        return _not_a(text, "volume", example("30 ml", "0.4 l", "2 cu in"))
    if not 0 < value * _ML[unit] <= 1_000_000:
        return Mistake(text.spot, said("mistake.limit.volume", text=_written(text)), example("30 ml"))
    return float(value * _ML[unit])


@_collected
def parse_count(
    text: Text, of: Counted = "", low: int = 0, high: int = 100_000, unit_wanted: bool = False
) -> int | Mistake:
    """`14`, `6 trays`: a whole number from `low` to `high`. `of` is the plural that may (or has to) follow it."""
    pieces = _pieces(text)
    value, unit = whole(pieces[0]) if pieces else None, " ".join(pieces[1:])
    units = (of, of.removesuffix("s")) if unit_wanted else (of, of.removesuffix("s"), "")
    cure = example(f"{max(low, min(6, high))}{f' {of}' if of else ''}")
    if value is None or unit not in units:
        return _not_a(text, of or "whole number", cure)
    return value if low <= value <= high else _no_such_number(text, low, high, cure)


@_collected
def parse_decimal(text: Text, low: float, high: float) -> float | Mistake:
    """A bare number with a decimal point, from `low` to `high`."""
    sign, pieces = _signed(_pieces(text))
    value = number(pieces[0]) if len(pieces) == 1 else None
    if value is None:
        return _not_a(text, "number", example("1.5"))
    return float(sign * value) if low <= sign * value <= high else _no_such_number(text, low, high, example("1.5"))


@_collected
def parse_latitude(text: Text) -> float | Mistake:
    """`52.4`, `52.4 N`, `33.9 S`, `-33.9`: degrees, south negative."""
    if degrees := _from_minutes(text):
        return _not_a(text, "decimal latitude", write(degrees))
    sign, pieces = _signed(_pieces(text))
    value, side = number(pieces[0]) if pieces else None, " ".join(pieces[1:])
    if side in ("e", "w", "east", "west"):
        return Mistake(text.spot, said("mistake.limit.longitude", text=_written(text)), _LATITUDE)
    if value is None or side not in ("", "n", "s", "north", "south") or (sign < 0 and side):
        return _not_a(text, "latitude", _LATITUDE)
    if value > 90:
        return Mistake(text.spot, said("mistake.limit.latitude", text=_written(text)), _LATITUDE)
    return float(-value if side[:1] == "s" else sign * value)


def _from_minutes(text: Text) -> str:
    """Degrees with decimals for `52° 24' N`, or ""."""
    written = text.text.lower().translate(_STRAIGHT)
    found = re.fullmatch(r"\s*([0-9]{1,2})\s*°\s*([0-9]{1,2})\s*'\s*(?:[0-9.]+\s*\"\s*)?([ns]?)\s*", written)
    return f"{int(found[1]) + int(found[2]) / 60:.1f} {found[3].upper()}".rstrip() if found else ""


def _length(pieces: list[str]) -> Fraction | None:
    """The pieces as one length in cm and nothing else."""
    found = length_at(pieces)
    return found[0] if found and found[1] == len(pieces) else None


def _pieces(text: Text) -> list[str]:
    """Numbers, words and signs; the sign of a degree says nothing that its letter does not."""
    found = _PIECE.findall(text.text.lower().translate(_STRAIGHT))
    return [piece for piece in found if piece not in ("°", "degrees")]


def _signed(pieces: list[str]) -> tuple[int, list[str]]:
    """The sign, and the pieces after it."""
    return (-1, pieces[1:]) if pieces[:1] == ["-"] else (1, pieces)


def length_said(cm: float) -> Said:
    """1.2 m, 30 cm"""
    return said("mistake.metres", n=cm / 100) if cm >= 100 else said("mistake.centimetres", n=cm)


def _written(text: Text) -> str:
    return " ".join(text.text.split())


def _not_a(text: Text, wanted: str, cure: Said) -> Mistake:
    """Not of the form that is wanted, a key of `mistake.measure`. A decimal comma has its own cure."""
    written = _written(text)
    comma = next((c for c in map(comma_cure, _pieces(text)) if c), None)
    missing, no_such = said(f"mistake.measure.{wanted}.missing"), said(f"mistake.measure.{wanted}.not", text=written)
    return Mistake(text.spot, no_such if written else missing, comma or cure)


def _no_such_number(text: Text, low: float, high: float, cure: Said) -> Mistake:
    return Mistake(text.spot, said("mistake.limit.number", text=_written(text), low=low, high=high), cure)


def _no_such_length(text: Text, most_cm: float) -> Mistake:
    what = said("mistake.limit.length", text=_written(text), most=length_said(most_cm))
    return Mistake(text.spot, what, example("1.2 m", "30 cm", "4 ft"))
