"""Sunlight from latitude, day and the daily range of temperature. Source: Allen, Pereira, Raes & Smith (1998), Crop
evapotranspiration, FAO Irrigation and Drainage Paper 56, equations 21 to 25, 34 and 50."""

from __future__ import annotations

import math

SOLAR_CONSTANT = 0.0820  # MJ per m2 and minute
MINUTES_A_DAY = 24 * 60
INLAND = 0.17  # k of equation 50: 0.16 in the interior, 0.19 at the coast; the house plan's trial used 0.17


def sunset_hour_angle_rad(latitude: float, day_of_year: int) -> float:
    """The sun's hour angle at sunset, radians (equation 25); 0 in the polar night, pi under the midnight sun."""
    cosine = -math.tan(math.radians(latitude)) * math.tan(_declination_rad(day_of_year))
    return math.acos(min(1.0, max(-1.0, cosine)))


def daylight_h(latitude: float, day_of_year: int) -> float:
    """Hours in which the sun's centre stands above a level horizon, without refraction (equation 34).

    Shorter than from sunrise to sunset: `sun.day_length_h` is what a calendar prints.
    """
    return 24 / math.pi * sunset_hour_angle_rad(latitude, day_of_year)


def extraterrestrial_radiation(latitude: float, day_of_year: int) -> float:
    """Sunlight above the air on a level square metre, MJ per m2 and day (equations 21 to 25); day 1 is 1 January."""
    phi, delta = math.radians(latitude), _declination_rad(day_of_year)
    angle = sunset_hour_angle_rad(latitude, day_of_year)
    nearness = 1 + 0.033 * math.cos(2 * math.pi * day_of_year / 365)
    height = angle * math.sin(phi) * math.sin(delta) + math.cos(phi) * math.cos(delta) * math.sin(angle)
    return MINUTES_A_DAY / math.pi * SOLAR_CONSTANT * nearness * max(0.0, height)


def radiation_from_range(min_c: float, max_c: float, above_mj: float, k: float = INLAND) -> float:
    """Sunlight at the ground, MJ per m2 and day, from that above the air and the day's range (equation 50)."""
    return k * math.sqrt(max(0.0, max_c - min_c)) * above_mj


def _declination_rad(day_of_year: int) -> float:
    """Equation 24; up to half a degree off about the equinoxes."""
    return 0.409 * math.sin(2 * math.pi * day_of_year / 365 - 1.39)
