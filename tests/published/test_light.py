"""Sunlight and daylight against FAO Irrigation and Drainage Paper 56 (Allen, Pereira, Raes & Smith 1998).

Table 2.7 (daylight hours, 35 latitudes, the 15th of each month; read as transcribed), example 9 (read as quoted), and
examples 8 (the same day) and 15 (Lyon in July), both from memory. All of it is held out: the code has the equations,
none of these numbers.
"""

from __future__ import annotations

import math

import pytest

from sowsheet.site.daily import MONTH_DAYS
from sowsheet.site.light import (
    daylight_h,
    extraterrestrial_radiation,
    radiation_from_range,
    sunset_hour_angle_rad,
)
from tests.published.tables import rows

PRINTED = rows("daylight_fao56.csv")
LATITUDES = sorted({float(row["latitude"]) for row in PRINTED})
THIRD_OF_SEPTEMBER = 246  # day of the year


def mid_month(month: int) -> int:
    return sum(MONTH_DAYS[: month - 1]) + 15


@pytest.mark.parametrize("latitude", LATITUDES)
def test_daylight_hours(latitude: float) -> None:
    """The printed table within 0.1 h, its rounding and a little; the equation computed elsewhere within 0.001 h."""
    for row in PRINTED:
        if float(row["latitude"]) == latitude:
            allowed = 0.1 if row["source"] == "FAO-56 table 2.7" else 0.001
            found = daylight_h(latitude, mid_month(int(row["month"])))
            assert found == pytest.approx(float(row["hours"]), abs=allowed), row


def test_every_cell_of_the_table_is_there() -> None:
    assert sum(row["source"] == "FAO-56 table 2.7" for row in PRINTED) == 420


def test_example_8_sunlight_above_the_air() -> None:
    """20 S on 3 September: 32.2 MJ per m2 and day."""
    assert extraterrestrial_radiation(-20, THIRD_OF_SEPTEMBER) == pytest.approx(32.2, abs=0.05)


def test_example_9_daylight() -> None:
    """The same day: sunset hour angle 1.527 rad, 11.7 h, printed unrounded as 11.66559."""
    assert sunset_hour_angle_rad(-20, THIRD_OF_SEPTEMBER) == pytest.approx(1.527, abs=0.0005)
    assert daylight_h(-20, THIRD_OF_SEPTEMBER) == pytest.approx(11.66559, abs=5e-5)


def test_example_15_sunlight_from_the_daily_range() -> None:
    """Lyon, 45 deg 43' N, July: 26.6 and 14.8 C, 40.6 MJ above the air; inland (k 0.16) 22.3 MJ at the ground."""
    above = extraterrestrial_radiation(45 + 43 / 60, mid_month(7))
    assert above == pytest.approx(40.6, abs=0.05)
    assert radiation_from_range(14.8, 26.6, above, 0.16) == pytest.approx(22.3, abs=0.05)


@pytest.mark.parametrize("latitude", [-90.0, -89.0, -67.0, 67.0, 80.0, 90.0])
def test_beyond_the_circles_the_sun_stays_up_or_down(latitude: float) -> None:
    """No error and nothing below 0; day and night at a pole add up to a day."""
    for day in range(1, 366):
        hours, light = daylight_h(latitude, day), extraterrestrial_radiation(latitude, day)
        assert 0 <= hours <= 24 and light >= 0 and math.isfinite(light)
        assert hours + daylight_h(-latitude, day) == pytest.approx(24)
        assert (light == 0) == (hours == 0) or light < 0.01


def test_a_day_without_range_has_no_light_and_no_error() -> None:
    assert radiation_from_range(12.0, 12.0, 30.0) == 0
    assert radiation_from_range(12.0, 11.9, 30.0) == 0
