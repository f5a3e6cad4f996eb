"""Temperatures of a day and the chance of a night colder than a plant stands, from what the grower gave."""

from __future__ import annotations

import math
from datetime import date, timedelta

import msgspec

from sowsheet.garden.records import Frost, Garden, Monthly, Place
from sowsheet.site.almanac import Almanac

# A guess, and told as one: how far the last and first frost wander, and how far other thresholds lie from 0 C.
FROST_SD_DAYS = 15.0
DAYS_A_DEGREE_BELOW = 14.0
DAYS_A_DEGREE_ABOVE = 8.0
# Common practice, no source: a closed unheated house is so much warmer than outdoors by the day's mean.
UNHEATED_GLASS_GAIN_C = 5.0
SAFE_CHANCE = 0.1
AUTUMN_PAST_DAYS = 90  # a first frost so long ago belongs to the winter that is over


class Climate(msgspec.Struct, frozen=True):
    """What is known of a site's weather. Frost dates are the average ones (0 C in half of all years)."""

    latitude: float
    almanac: Almanac  # average frost dates: what the catalogue is anchored to
    as_written: Almanac  # frost dates as the grower gave them: what his own lines are anchored to
    monthly: Monthly | None


def climate_of(garden: Garden) -> Climate:
    """The climate of a garden's site."""
    site = garden.site
    shift = math.ceil(deviations(1 - SAFE_CHANCE) * FROST_SD_DAYS)
    last, first = _month_day(site.last_frost, -shift), _month_day(site.first_frost, shift)
    written_last, written_first = _month_day(site.last_frost, 0), _month_day(site.first_frost, 0)
    return Climate(
        site.latitude,
        Almanac(site.latitude, last, first),
        Almanac(site.latitude, written_last, written_first),
        site.monthly,
    )


def _month_day(frost: Frost | None, safe_shift_days: int) -> tuple[int, int] | None:
    if frost is None:
        return None
    day = date(2001, frost.day.month, min(frost.day.day, 28) if frost.day.month == 2 else frost.day.day)
    if frost.meaning == "safe":
        day += timedelta(days=safe_shift_days)
    return day.month, day.day


def mean_c(climate: Climate, day: date) -> float | None:
    """The day's long-term mean outdoors, C: straight lines between the middles of the months; None: not known."""
    if climate.monthly is None:
        return None
    means = [(low + high) / 2 for low, high in zip(climate.monthly.min_c, climate.monthly.max_c, strict=True)]
    position = day.month - 1 + (day.day - 0.5) / 30.44 - 0.5
    before = math.floor(position)
    share = position - before
    return means[before % 12] * (1 - share) + means[(before + 1) % 12] * share


def place_mean_c(climate: Climate, place: Place, day: date) -> float | None:
    """The day's mean in a place where trays stand, C; None where nothing tells."""
    if place.held_at_c is not None:
        return place.held_at_c
    outdoors = mean_c(climate, day)
    if outdoors is None or place.under in ("", "outdoors", "fleece", "indoors"):
        return None if place.under == "indoors" else outdoors
    return outdoors + UNHEATED_GLASS_GAIN_C


def chance_colder_after(climate: Climate, night_c: float, day: date) -> float | None:
    """The chance that a spring still brings a night at or below `night_c` on or after `day`; None: not known.

    A normal spread about the average last frost, 15 days wide: a guess. In the half-year after midsummer it is 0.
    """
    last = spring_mean(climate, night_c, day)
    if last is None:
        return None
    return 1 - _share_below((day - last).days / FROST_SD_DAYS)


def chance_colder_between(climate: Climate, night_c: float, start: date, end: date) -> float | None:
    """The chance of a night at or below `night_c` between two days: late in the spring, or early in the autumn that
    comes after the start. None: not known."""
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
    frost = climate.almanac.first_frost
    if frost is None:
        return None
    first = _nearest(frost, day) - _later(night_c)
    return _share_below((day - first).days / FROST_SD_DAYS)


def spring_mean(climate: Climate, night_c: float, day: date) -> date | None:
    """The date nearest `day` after which half of all springs bring no night at or below `night_c`."""
    frost = climate.almanac.last_frost
    return None if frost is None else _nearest(frost, day) + _later(night_c)


def safe_from(climate: Climate, night_c: float, risk: float, day: date) -> date | None:
    """The first day of the spring nearest to `day` on which the chance of a colder night is at most `risk`."""
    mean = spring_mean(climate, night_c, day)
    if mean is None:
        return None
    return mean + timedelta(days=math.ceil(deviations(1 - risk) * FROST_SD_DAYS))


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
