"""Made weather: smooth years with a summer and a winter, and the CSV a logger would write of them."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable
from datetime import date, timedelta

import msgspec

from sowsheet.reading.mistakes import Mistake
from sowsheet.site.record import Record, Unit, read_record
from sowsheet.words.language import language_of


def days(first: date, last: date) -> list[date]:
    return [first + timedelta(days=n) for n in range((last - first).days + 1)]


def low_c(day: date, mean: float = 7.0, swing: float = 9.0, south: bool = False) -> float:
    """A minimum, coldest on 20 January (in the south on 20 July)."""
    turned = 182 if south else 0
    return round(mean - swing * math.cos(2 * math.pi * (day.timetuple().tm_yday - 20 - turned) / 365), 1)


def lines(
    first: date = date(2001, 1, 1),
    last: date = date(2003, 12, 31),
    shown: Callable[[date], str] = date.isoformat,
    fahrenheit: bool = False,
    separator: str = ",",
) -> list[str]:
    """A line a day: date, minimum, and a maximum 8 C above it."""
    found = []
    for day in days(first, last):
        pair = (low_c(day), low_c(day) + 8)
        values = [f"{c * 1.8 + 32 if fahrenheit else c:.1f}" for c in pair]
        found.append(separator.join([shown(day), *values]))
    return found


class Read(msgspec.Struct, frozen=True):
    """What came of reading a text."""

    record: Record | None
    mistakes: tuple[Mistake, ...]
    noticed: tuple[str, ...]

    @property
    def sound(self) -> Record:
        """The record of a text that can be read."""
        assert self.record is not None, self.mistakes
        assert self.mistakes == ()
        return self.record

    @property
    def mistake(self) -> Mistake:
        """The one mistake of a text that cannot."""
        assert self.record is None
        (only,) = self.mistakes
        return only


def read(text: str | Iterable[str], unit: Unit = "") -> Read:
    """A text, or its lines, read as `station.csv`."""
    mistakes: list[Mistake] = []
    noticed: list[str] = []
    whole = text if isinstance(text, str) else "\n".join(text)
    record = read_record(whole, "station.csv", language_of("en"), mistakes, noticed, unit)
    return Read(record, tuple(mistakes), tuple(noticed))


def made(lows: Callable[[date], float], first: date, last: date) -> Record:
    """A record whose minima a function tells."""
    found = tuple(days(first, last))
    return Record("made.csv", found, tuple(lows(d) for d in found), tuple(math.nan for _ in found))
