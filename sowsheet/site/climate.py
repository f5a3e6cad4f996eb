"""Temperatures of a day and the chance of a night colder than a plant stands, from what the grower gave."""

from __future__ import annotations

import math
from datetime import date, timedelta
from functools import cached_property
from typing import TYPE_CHECKING

import msgspec

from sowsheet.garden.records import Frost, Garden, Place, Where, is_under_glass
from sowsheet.site.air import Air, air_in, outdoor_air, with_light
from sowsheet.site.almanac import Almanac
from sowsheet.site.daily import day_number
from sowsheet.site.hotbed import bed_c
from sowsheet.site.nights import Nights
from sowsheet.site.readings import overruled, usual_days, warmer_on_cold_nights
from sowsheet.site.soil import soil_days, soil_year
from sowsheet.site.weather import Reading, Weather, readings, usual_frosts

if TYPE_CHECKING:
    from sowsheet.site.record import Record

# A guess, and told as one: how far the last and first frost wander, and how far other thresholds lie from 0 C.
FROST_SD_DAYS = 15.0
DAYS_A_DEGREE_BELOW = 14.0
DAYS_A_DEGREE_ABOVE = 8.0
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
    inside: tuple[tuple[str, Record], ...] = ()  # what was read in places, by their names

    def air_in(self, where: Where) -> Air:
        """The usual year in a place or under a cover, the days that were read there as they were.

        Raises ValueError where no temperatures are given.
        """
        if where not in self._airs:
            air = air_in(self._known, where)
            self._airs[where] = overruled(air, usual_days(self._read_in(where)))
        return self._airs[where]

    def read_air_in(self, where: Where) -> tuple[tuple[date, ...], Air]:
        """The days that were read outdoors or there, in order, and the air in a place or under a cover on them."""
        if where not in self._read_airs:
            here = self._read_in(where)
            outdoors = {one.day: (one.min_c, one.max_c) for one in self.measured}
            days = tuple(sorted({*outdoors, *here}))
            numbers = [day_number(day) for day in days]
            pairs = [outdoors.get(d) or self._known.day(n)[:2] for d, n in zip(days, numbers, strict=True)]
            air = with_light(self.latitude, tuple(a for a, _ in pairs), tuple(b for _, b in pairs), numbers)
            read = {n: here[day] for n, day in enumerate(days) if day in here}
            self._read_airs[where] = days, overruled(air_in(air, where), read)
        return self._read_airs[where]

    def mean_in(self, where: Where, day: date) -> float:
        """The day's mean in a place or under a cover, C. Raises ValueError where no temperatures are given."""
        usual, read = self._means_in.get(where) or self._add_means(where)
        return read[day] if day in read else usual[day_number(day)]

    def warmer_nights_c(self, where: Where) -> float:
        """How much warmer than outdoors a place stays on cold nights by the grower's own readings, C; else 0."""
        if not isinstance(where, Place):
            return 0.0
        return (self.warmer_nights_read(where) or 0.0) if where.warmer_nights_c is None else where.warmer_nights_c

    def warmer_nights_read(self, place: Place) -> float | None:
        """The same by the place's daily readings; None where too few cold nights were read there and outdoors."""
        return self._warmer.get(place.name)

    def days_read_in(self, place: Place) -> int:
        """How many days have been read in a place."""
        return len(self._read_in(place))

    @property
    def _known(self) -> Air:
        if self.outside is None:
            raise ValueError("no temperatures are given")
        return self.outside

    def _read_in(self, where: Where) -> dict[date, tuple[float, float]]:
        """What was read in a place: minimum and maximum by day."""
        records = (record for name, record in self.inside if isinstance(where, Place) and name == where.name)
        return {one.day: (one.min_c, one.max_c) for record in records for one in readings(record)}

    def _add_means(self, where: Where) -> tuple[tuple[float, ...], dict[date, float]]:
        days, read = self.read_air_in(where)
        self._means_in[where] = _means(self.air_in(where)), dict(zip(days, _means(read), strict=True))
        return self._means_in[where]

    @cached_property
    def _airs(self) -> dict[Where, Air]:
        return {}

    @cached_property
    def _read_airs(self) -> dict[Where, tuple[tuple[date, ...], Air]]:
        return {}

    @cached_property
    def _means_in(self) -> dict[Where, tuple[tuple[float, ...], dict[date, float]]]:
        return {}

    @cached_property
    def _warmer(self) -> dict[str, float]:
        """By place, how much warmer than outdoors cold nights were in it, where enough of both were read."""
        outdoors = {one.day: one.min_c for one in self.measured}
        if self.record is not None:
            outdoors |= dict(zip(self.record.days, self.record.min_c, strict=True))
        found = ((name, warmer_on_cold_nights(record, outdoors)) for name, record in self.inside)
        return {name: warmer for name, warmer in found if warmer is not None}

    @cached_property
    def means(self) -> tuple[float, ...]:
        """The usual mean of each day of the year, C; empty where no temperatures are given."""
        return () if self.outside is None else _means(self.outside)

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
        weather.places,
    )


def _means(air: Air) -> tuple[float, ...]:
    return tuple((low + high) / 2 for low, high in zip(air.min_c, air.max_c, strict=True))


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


def bed_mean_c(climate: Climate, where: Where, day: date) -> float | None:
    """The day's mean for seed in a bed: in the open the soil's, in a house its air's, C; None: not known."""
    if climate.outside is not None and is_under_glass(where):
        return climate.mean_in(where, day)
    return ground_mean_c(climate, day)


def place_mean_c(climate: Climate, place: Place, day: date) -> float | None:
    """The day's mean in a place where trays stand, C; None where nothing tells."""
    told = place.held_at_c is not None or place.monthly is not None or place.readings is not None
    if place.under == "indoors" and not told:
        return None
    warm = bed_c(place, day)
    if climate.outside is not None:
        air = climate.mean_in(place, day)
        return air if warm is None else max(air, warm)
    if place.monthly is not None:
        return (place.monthly.min_c[day.month - 1] + place.monthly.max_c[day.month - 1]) / 2
    return place.held_at_c if warm is None else warm


def chance_colder_after(climate: Climate, night_c: float, day: date) -> float | None:
    """The chance that a spring still brings a night at or below `night_c` on or after `day`; None: not known.

    Counted in the record up to midsummer where there is one; else a normal spread about the average last frost, 15 days
    wide: a guess. In the half-year after midsummer it is 0.
    """
    if not in_spring(climate, day):
        return 0.0
    if climate.nights is not None:
        return climate.nights.chance(night_c, day, turn_after(climate, day))
    last = spring_mean(climate, night_c, day)
    if last is None:
        return None
    return 1 - _share_below((day - last).days / FROST_SD_DAYS)


def chance_colder_between(climate: Climate, night_c: float, start: date, end: date) -> float | None:
    """The chance of a night at or below `night_c` between two days: late in the spring, or early in the autumn that
    comes after the start. None: not known."""
    if climate.nights is not None:
        return climate.nights.chance(night_c, start, end)
    spring_begins = turn_after(climate, start) - timedelta(days=HALF_A_YEAR_DAYS)
    spring = chance_colder_after(climate, night_c, max(start, spring_begins)) if end > spring_begins else None
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
        return climate.nights.chance(night_c, turn_after(climate, day - timedelta(days=365)), day)
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
        end = turn_after(climate, day - timedelta(days=HALF_A_YEAR_DAYS // 2))
        days = (end - timedelta(days=n) for n in range(HALF_A_YEAR_DAYS))
        risky = next((d for d in days if _risky(climate.nights, night_c, d, end, risk)), None)
        return end - timedelta(days=HALF_A_YEAR_DAYS - 1) if risky is None else risky + timedelta(days=1)
    mean = spring_mean(climate, night_c, day)
    if mean is None:
        return None
    return mean + timedelta(days=math.ceil(deviations(1 - risk) * FROST_SD_DAYS))


def _risky(nights: Nights, night_c: float, day: date, end: date, risk: float) -> bool:
    chance = nights.chance(night_c, day, end)
    return chance is not None and chance > risk


def in_spring(climate: Climate, day: date) -> bool:
    """Whether a day lies in the half-year up to the turn from spring to autumn."""
    return (turn_after(climate, day) - day).days <= HALF_A_YEAR_DAYS


def turn_after(climate: Climate, day: date) -> date:
    """The first turn from spring to autumn on or after a day: 1 July, in the south 1 January."""
    found = date(day.year, 7 if climate.latitude >= 0 else 1, 1)
    return found if found >= day else found.replace(year=day.year + 1)


def days_later_in_autumn(night_c: float) -> timedelta:
    """How much later the first night at or below a temperature comes than the first at 0 C: a guess."""
    return -_later(night_c)


def _later(night_c: float) -> timedelta:
    """How much later in spring, and sooner in autumn, a night as cold as that is than one of 0 C."""
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
