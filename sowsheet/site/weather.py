"""The daily readings that a garden file names: years of them, and this season's own so far."""

from __future__ import annotations

import math
from datetime import date
from typing import TYPE_CHECKING, Literal

import msgspec

from sowsheet.site.air import Air, with_light
from sowsheet.site.daily import normals

if TYPE_CHECKING:
    from sowsheet.site.record import Record


class Reading(msgspec.Struct, frozen=True):
    """One day's minimum and maximum, C."""

    day: date
    min_c: float
    max_c: float


class Weather(msgspec.Struct, frozen=True):
    """Years of daily readings, and this season's so far; those of places, by name; what was noticed in reading them."""

    record: Record | None = None
    this_year: Record | None = None
    noticed: tuple[str, ...] = ()
    places: tuple[tuple[str, Record], ...] = ()

    def usual_air(self, latitude: float) -> Air | None:
        """The usual year by the record: each day's mean over the years, smooth and cyclic. None without maxima."""
        if self.record is None:
            return None
        lows, highs = usual_year(self.record, "min_c"), usual_year(self.record, "max_c")
        return with_light(latitude, lows, highs) if lows and highs else None

    @property
    def measured(self) -> tuple[Reading, ...]:
        """This season's readings that have both a minimum and a maximum."""
        return () if self.this_year is None else readings(self.this_year)


def readings(record: Record) -> tuple[Reading, ...]:
    """A record's days that have both a minimum and a maximum."""
    days = zip(record.days, record.min_c, record.max_c, strict=True)
    return tuple(Reading(day, low, high) for day, low, high in days if not math.isnan(high))


def usual_year(record: Record, which: Literal["min_c", "max_c"]) -> tuple[float, ...]:
    """The usual minimum or maximum of each day of the year, smooth and cyclic; empty where days of it are missing."""
    return normals(zip(record.days, getattr(record, which), strict=True))


def usual_frosts(record: Record, latitude: float) -> tuple[tuple[int, int] | None, tuple[int, int] | None]:
    """The average last and first frost by a record, as (month, day); None where fewer than half the years had one."""
    from sowsheet.site.frosts import frosts  # noqa: PLC0415 - only gardens with a record pay for it

    found = frosts(record, 0.0, latitude < 0)
    return found.last_spring.average, found.first_autumn.average
