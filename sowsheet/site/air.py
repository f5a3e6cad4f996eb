"""The air around plants on each day of a common year: outdoors, and inside the places where they stand.

A year is 365 values, 1 January first; 29 February is taken as the 28th.
"""

from __future__ import annotations

import calendar
from collections.abc import Sequence
from datetime import date

import msgspec

from sowsheet.garden.records import Monthly, Place, Shelter, Where
from sowsheet.site.daily import daily_year
from sowsheet.site.hotbed import AIR_BELOW_BED_C, bed_year
from sowsheet.site.light import extraterrestrial_radiation, radiation_from_range

YEAR_DAYS = 365

# What a closed cover lets through of the light, and adds to the minimum: tuned on a few tunnels (house plan).
LIGHT_THROUGH: dict[Shelter, float] = {
    "unheated glass": 0.65,
    "polytunnel": 0.65,
    "cold frame": 0.65,
    "fleece": 0.8,
    "indoors": 0.3,  # on a window-sill; common practice, no source
}
MIN_GAIN_C: dict[Shelter, float] = {"unheated glass": 2.0, "polytunnel": 2.0, "cold frame": 2.0, "fleece": 1.0}
# The maximum gains so much at 18 MJ/m2/day, as long as nobody opens up: up to the warmth at which it is aired.
MAX_GAIN_C: dict[Shelter, float] = {"unheated glass": 24.0, "polytunnel": 24.0, "cold frame": 24.0, "fleece": 3.0}
AIRED_GAIN_C = 8.0  # a well aired house
AIRED_AT_C = 28.0
BRIGHT_MJ = 18.0
INDOORS_C = 18.0  # an indoor place without a temperature; common practice, no source


class Air(msgspec.Struct, frozen=True):
    """Minimum and maximum, C, and the sunlight that reaches the plants, MJ per m2 and day, for each day of a year, or
    for other days: `numbers` are their places in their year, from 0."""

    min_c: tuple[float, ...]
    max_c: tuple[float, ...]
    light_mj: tuple[float, ...]
    numbers: Sequence[int] = range(YEAR_DAYS)

    def day(self, number: int) -> tuple[float, float, float]:
        """Minimum, maximum and light of a day of the year, from 0."""
        return self.min_c[number], self.max_c[number], self.light_mj[number]


def outdoor_air(latitude: float, monthly: Monthly) -> Air:
    """A site's air from its long-term monthly means, smooth and cyclic, the months' means kept."""
    low, high = daily_year(monthly.min_c), daily_year(monthly.max_c)
    return with_light(latitude, low, high)


def with_light(
    latitude: float, min_c: tuple[float, ...], max_c: tuple[float, ...], numbers: Sequence[int] = range(YEAR_DAYS)
) -> Air:
    """Air with the sunlight that follows from the latitude and the day's range (FAO-56, equations 21 and 50).

    `numbers` are the days' places in their year, from 0.
    """
    above = {n: extraterrestrial_radiation(latitude, n + 1) for n in set(numbers)}
    days = zip(min_c, max_c, numbers, strict=True)
    return Air(min_c, max_c, tuple(radiation_from_range(low, high, above[n]) for low, high, n in days), numbers)


def air_in(outside: Air, where: Where) -> Air:
    """The air in a place, or in a bed under a cover."""
    return place_air(outside, where) if isinstance(where, Place) else under_cover(outside, where)


def place_air(outside: Air, place: Place) -> Air:
    """The air in a place where trays stand: as the grower has read it; else heat keeps it from falling below what it is
    held at, and a shelf indoors stays at that day and night."""
    if place.monthly is not None:
        through = LIGHT_THROUGH.get(place.under, 1.0)
        light = tuple(mj * through for mj in outside.light_mj)
        low, high = daily_year(place.monthly.min_c), daily_year(place.monthly.max_c)
        numbers = outside.numbers
        return Air(tuple(low[n] for n in numbers), tuple(high[n] for n in numbers), light, numbers)
    held = place.held_at_c
    if place.under == "indoors" or (held is not None and place.under not in MAX_GAIN_C):
        steady = (INDOORS_C if held is None else held,) * len(outside.light_mj)
        through = LIGHT_THROUGH["indoors"] if place.under == "indoors" else 1.0
        return Air(steady, steady, tuple(mj * through for mj in outside.light_mj), outside.numbers)
    inside = under_cover(outside, place.under, place.aired)
    if held is not None:
        return _no_colder(inside, (held,) * len(inside.min_c))
    if place.made is not None:
        bed = bed_year(place)
        warm = (bed[n] for n in outside.numbers)
        return _no_colder(inside, tuple(-99.0 if c is None else c - AIR_BELOW_BED_C for c in warm))
    return inside


def _no_colder(air: Air, floor_c: tuple[float, ...]) -> Air:
    lows, highs = (tuple(map(max, floor_c, values)) for values in (air.min_c, air.max_c))
    return Air(lows, highs, air.light_mj, air.numbers)


def under_cover(outside: Air, under: Shelter, aired: bool = False) -> Air:
    """The air under glass, a tunnel, a frame or fleece; outdoors for what lies under nothing. `aired`: kept well open
    by day, so that the sun warms it less."""
    if under not in MAX_GAIN_C:
        return outside
    gain, least, through = MAX_GAIN_C[under], MIN_GAIN_C[under], LIGHT_THROUGH[under]
    gain = min(gain, AIRED_GAIN_C) if aired else gain
    highs = tuple(
        _warmed(high, gain * mj / BRIGHT_MJ) for high, mj in zip(outside.max_c, outside.light_mj, strict=True)
    )
    lows = tuple(_warmed(low, least) for low in outside.min_c)
    light = tuple(mj * through for mj in outside.light_mj)
    return Air(lows, tuple(map(max, highs, lows)), light, outside.numbers)


def _warmed(outside_c: float, gain_c: float) -> float:
    return max(outside_c, min(outside_c + gain_c, AIRED_AT_C))


def from_day(values: tuple[float, ...], start: date, days: int) -> list[float]:
    """A year's values over and over from a day on, each 29 February as the 28th."""
    leap = (*values[:59], *values[58:])
    found: list[float] = []
    year = start.year
    while len(found) < days + YEAR_DAYS + 1:
        found += leap if calendar.isleap(year) else values
        year += 1
    first = start.toordinal() - date(start.year, 1, 1).toordinal()
    return found[first : first + days]
