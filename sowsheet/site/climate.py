"""Temperatures of a day and the chance of a night colder than a plant stands, from what the grower gave."""

from __future__ import annotations

import math
from datetime import date, timedelta
from functools import cached_property
from typing import TYPE_CHECKING

import msgspec

from sowsheet.garden.records import Frost, Garden, Place
from sowsheet.site.air import Air, outdoor_air
from sowsheet.site.almanac import Almanac
from sowsheet.site.daily import day_number
from sowsheet.site.hotbed import bed_c
from sowsheet.site.nights import Nights
from sowsheet.site.soil import soil_days, soil_year
from sowsheet.site.weather import Reading, Weather, usual_frosts

if TYPE_CHECKING:
    from sowsheet.site.record import Record

# A guess, and told as one: how far the last and first frost wander, and how far other thresholds lie from 0 C.
FROST_SD_DAYS = 15.0
DAYS_A_DEGREE_BELOW = 14.0
DAYS_A_DEGREE_ABOVE = 8.0
# Common practice, no source: a closed unheated house is so much warmer than outdoors by the day's mean.
UNHEATED_GLASS_GAIN_C = 5.0
SAFE_CHANCE = 0.1
SOIL_REMEMBERS_DAYS = 30  # after so long nothing is left of a cold week
HALF_A_YEAR_DAYS = 183
AUTUMN_PAST_DAYS = 90  # a first frost so long ago belongs to the winter that is over


class Climate(msgspec.Struct, frozen=True, dict=True):
    """What is known of a site's weather. Frost dates are the average ones (0 C in half of all years)."""

    latitude: float
    almanac: Almanac  # average frost dates: what the catalogue is anchored to
    as_written: Almanac  # frost dates as the grower gave them: what his own lines are anchored to
    outside: Air | None = None  # the usual year; None: no temperatures are given
    record: Record | None = None  # years of daily readings
    measured: tuple[Reading, ...] = ()  # this season's own, so far

    @cached_property
    def means(self) -> tuple[float, ...]:
        """The usual mean of each day of the year, C; empty where no temperatures are given."""
        air = self.outside
        return () if air is None else tuple((a + b) / 2 for a, b in zip(air.min_c, air.max_c, strict=True))

    @cached_property
    def nights(self) -> Nights | None:
        """The record's cold nights; None without a record."""
        return None if self.record is None else Nights(self.record)

    @cached_property
    def measured_means(self) -> dict[date, float]:
        """The mean of each day of this season that was read."""
        return {one.day: (one.min_c + one.max_c) / 2 for one in self.measured}

    @cached_property
    def ground(self) -> tuple[float, ...]:
        """The usual mean of each day of the year at sowing depth, C; empty where no temperatures are given."""
        return soil_year(self.means) if self.means else ()

    @cached_property
    def measured_ground(self) -> dict[date, float]:
        """The mean at sowing depth of the days that were read, and of the weeks in which the soil remembers them."""
        if not self.measured or not self.means:
            return {}
        first = self.measured[0].day
        days = [first + timedelta(days=n) for n in range((self.measured[-1].day - first).days + SOIL_REMEMBERS_DAYS)]
        air = (self.measured_means.get(day, self.means[day_number(day)]) for day in days)
        return dict(zip(days, soil_days(air, self.ground[day_number(first)]), strict=True))


def climate_of(garden: Garden, weather: Weather | None = None) -> Climate:
    """The climate of a garden's site, with the daily readings that its file names."""
    site, weather = garden.site, weather or Weather()
    shift = math.ceil(deviations(1 - SAFE_CHANCE) * FROST_SD_DAYS)
    last, first = _month_day(site.last_frost, -shift), _month_day(site.first_frost, shift)
    written_last, written_first = _month_day(site.last_frost, 0), _month_day(site.first_frost, 0)
    if weather.record is not None:
        found = usual_frosts(weather.record, site.latitude)
        last, first = last or found[0], first or found[1]
        written_last, written_first = written_last or found[0], written_first or found[1]
    return Climate(
        site.latitude,
        Almanac(site.latitude, last, first),
        Almanac(site.latitude, written_last, written_first),
        weather.usual_air(site.latitude) or (outdoor_air(site.latitude, site.monthly) if site.monthly else None),
        weather.record,
        weather.measured,
    )


def _month_day(frost: Frost | None, safe_shift_days: int) -> tuple[int, int] | None:
    if frost is None:
        return None
    day = date(2001, frost.day.month, min(frost.day.day, 28) if frost.day.month == 2 else frost.day.day)
    if frost.meaning == "safe":
        day += timedelta(days=safe_shift_days)
    return day.month, day.day


def mean_c(climate: Climate, day: date) -> float | None:
    """The day's mean outdoors, C: as it was read this season, else the usual one; None: not known."""
    if not climate.means:
        return None
    read = climate.measured_means.get(day)
    return climate.means[day_number(day)] if read is None else read


def ground_mean_c(climate: Climate, day: date) -> float | None:
    """The day's mean at sowing depth in an open bed, C, from the air's; None: not known."""
    if not climate.ground:
        return None
    read = climate.measured_ground.get(day)
    return climate.ground[day_number(day)] if read is None else read


def place_mean_c(climate: Climate, place: Place, day: date) -> float | None:
    """The day's mean in a place where trays stand, C; None where nothing tells."""
    if place.held_at_c is not None:
        return place.held_at_c
    warm = bed_c(place, day)
    if warm is not None:
        return warm
    if place.monthly is not None:
        return (place.monthly.min_c[day.month - 1] + place.monthly.max_c[day.month - 1]) / 2
    outdoors = mean_c(climate, day)
    if outdoors is None or place.under in ("", "outdoors", "fleece", "indoors"):
        return None if place.under == "indoors" else outdoors
    return outdoors + UNHEATED_GLASS_GAIN_C


def chance_colder_after(climate: Climate, night_c: float, day: date) -> float | None:
    """The chance that a spring still brings a night at or below `night_c` on or after `day`; None: not known.

    Counted in the record up to midsummer where there is one; else a normal spread about the average last frost, 15 days
    wide: a guess. In the half-year after midsummer it is 0.
    """
    if climate.nights is not None:
        end = _midsummer(climate, day)
        return 0.0 if (end - day).days > HALF_A_YEAR_DAYS else climate.nights.chance(night_c, day, end)
    last = spring_mean(climate, night_c, day)
    if last is None:
        return None
    return 1 - _share_below((day - last).days / FROST_SD_DAYS)


def chance_colder_between(climate: Climate, night_c: float, start: date, end: date) -> float | None:
    """The chance of a night at or below `night_c` between two days: late in the spring, or early in the autumn that
    comes after the start. None: not known."""
    if climate.nights is not None:
        return climate.nights.chance(night_c, start, end)
    spring = chance_colder_after(climate, night_c, start)
    autumn = None
    if climate.almanac.first_frost is not None:
        since = start - timedelta(days=AUTUMN_PAST_DAYS)
        years = (date(since.year + n, *climate.almanac.first_frost) for n in (0, 1))
        first = next(d for d in years if d >= since) - _later(night_c)
        autumn = _share_below((end - first).days / FROST_SD_DAYS)
    known = [c for c in (spring, autumn) if c is not None]
    return max(known) if known else None


def chance_colder_before(climate: Climate, night_c: float, day: date) -> float | None:
    """The chance that the autumn has brought a night at or below `night_c` before `day`; None: not known."""
    if climate.nights is not None:
        return climate.nights.chance(night_c, _midsummer(climate, day - timedelta(days=365)), day)
    frost = climate.almanac.first_frost
    if frost is None:
        return None
    first = _nearest(frost, day) - _later(night_c)
    return _share_below((day - first).days / FROST_SD_DAYS)


def spring_mean(climate: Climate, night_c: float, day: date) -> date | None:
    """The date nearest `day` after which half of all springs bring no night at or below `night_c`."""
    if climate.nights is not None:
        return safe_from(climate, night_c, 0.5, day)
    frost = climate.almanac.last_frost
    return None if frost is None else _nearest(frost, day) + _later(night_c)


def safe_from(climate: Climate, night_c: float, risk: float, day: date) -> date | None:
    """The first day of the spring nearest to `day` on which the chance of a colder night is at most `risk`."""
    if climate.nights is not None:
        end = _midsummer(climate, day - timedelta(days=HALF_A_YEAR_DAYS // 2))
        days = (end - timedelta(days=n) for n in range(HALF_A_YEAR_DAYS))
        return next((d + timedelta(days=1) for d in days if _risky(climate.nights, night_c, d, end, risk)), end)
    mean = spring_mean(climate, night_c, day)
    if mean is None:
        return None
    return mean + timedelta(days=math.ceil(deviations(1 - risk) * FROST_SD_DAYS))


def _risky(nights: Nights, night_c: float, day: date, end: date, risk: float) -> bool:
    chance = nights.chance(night_c, day, end)
    return chance is not None and chance > risk


def _midsummer(climate: Climate, day: date) -> date:
    """The first turn from spring to autumn on or after a day: 1 July, in the south 1 January."""
    found = date(day.year, 7 if climate.latitude >= 0 else 1, 1)
    return found if found >= day else found.replace(year=day.year + 1)


def _later(night_c: float) -> timedelta:
    days = night_c * (DAYS_A_DEGREE_BELOW if night_c < 0 else DAYS_A_DEGREE_ABOVE)
    return timedelta(days=round(days))


def _nearest(month_day: tuple[int, int], day: date) -> date:
    return min((date(day.year + n, *month_day) for n in (-1, 0, 1)), key=lambda d: abs((d - day).days))


def _share_below(deviation: float) -> float:
    return 0.5 * (1 + math.erf(deviation / math.sqrt(2)))


def deviations(share: float) -> float:
    """How many standard deviations from the mean leave `share` of a normal distribution below."""
    low, high = -6.0, 6.0
    for _ in range(60):
        middle = (low + high) / 2
        low, high = (middle, high) if _share_below(middle) < share else (low, middle)
    return (low + high) / 2
