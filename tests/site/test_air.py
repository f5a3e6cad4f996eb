"""The air in places where plants stand, from made air outdoors."""

from __future__ import annotations

import math
from collections.abc import Sequence
from datetime import date

import pytest

from sowsheet.garden.records import Monthly, Place, Room, Shelter
from sowsheet.site.air import (
    AIRED_AT_C,
    INDOORS_C,
    LIGHT_THROUGH,
    MIN_GAIN_C,
    YEAR_DAYS,
    Air,
    air_in,
    from_day,
    outdoor_air,
    place_air,
    under_cover,
    with_light,
)
from sowsheet.site.daily import MONTH_DAYS, day_number
from sowsheet.site.light import extraterrestrial_radiation, radiation_from_range

LATITUDE = 52.4
MONTHLY = Monthly(
    (1.0, 1.0, 2.5, 4.0, 7.0, 10.0, 12.0, 11.5, 9.5, 6.5, 3.5, 1.5),
    (7.0, 7.5, 10.0, 13.0, 16.5, 19.5, 22.0, 21.5, 18.0, 14.0, 10.0, 7.0),
)
OUTSIDE = outdoor_air(LATITUDE, MONTHLY)
HOT = with_light(LATITUDE, tuple(c + 8 for c in OUTSIDE.min_c), tuple(c + 16 for c in OUTSIDE.max_c))
CLOSED: tuple[Shelter, ...] = ("unheated glass", "polytunnel", "cold frame")
SPRING = range(day_number(date(2027, 3, 1)), day_number(date(2027, 5, 31)))


def place(held_at_c: float | None = None, under: Shelter = "") -> Place:
    return Place("a place", ("growing on",), Room(), held_at_c, under)


def one_day(low: float, high: float, light: float = 15.0) -> Air:
    return Air((low,), (high,), (light,))


def test_outdoors_keeps_the_months_means() -> None:
    start = 0
    for n, length in enumerate(MONTH_DAYS):
        days = slice(start, start + length)
        assert sum(OUTSIDE.min_c[days]) / length == pytest.approx(MONTHLY.min_c[n], abs=1e-6)
        assert sum(OUTSIDE.max_c[days]) / length == pytest.approx(MONTHLY.max_c[n], abs=1e-6)
        start += length


def test_light_is_that_of_the_days_place_in_its_year() -> None:
    """Day 1 of the equations is 1 January; days may come in any number and order."""
    found = with_light(LATITUDE, (5.0, 5.0), (14.0, 14.0), [171, 0])
    above = [extraterrestrial_radiation(LATITUDE, n) for n in (172, 1)]
    assert found.light_mj == pytest.approx([radiation_from_range(5.0, 14.0, mj) for mj in above])
    assert OUTSIDE.light_mj[171] > 5 * OUTSIDE.light_mj[354]


@pytest.mark.parametrize("under", ["indoors", ""])
def test_a_held_shelf_is_steady_day_and_night(under: Shelter) -> None:
    shelf = place_air(OUTSIDE, place(20.0, under))
    assert set(shelf.min_c) == set(shelf.max_c) == {20.0}
    assert len(shelf.min_c) == len(shelf.max_c) == YEAR_DAYS


def test_indoors_is_steady_and_dim() -> None:
    """Without a temperature it is at the usual one of a room; a window-sill has part of the light."""
    sill = place_air(OUTSIDE, place(under="indoors"))
    assert set(sill.min_c) == set(sill.max_c) == {INDOORS_C}
    assert sill.light_mj == pytest.approx([mj * LIGHT_THROUGH["indoors"] for mj in OUTSIDE.light_mj])
    assert place_air(OUTSIDE, place(20.0)).light_mj == OUTSIDE.light_mj


@pytest.mark.parametrize("under", CLOSED)
@pytest.mark.parametrize("held", [8.0, 18.0])
def test_a_heated_bench_never_falls_below_what_it_is_held_at(under: Shelter, held: float) -> None:
    """It is as warm as the house where that is warmer, and changes nothing else."""
    heated, plain = place_air(OUTSIDE, place(held, under)), place_air(OUTSIDE, place(under=under))
    assert min(heated.min_c) == held and min(heated.max_c) >= held
    assert heated.min_c == tuple(max(held, c) for c in plain.min_c)
    assert heated.max_c == tuple(max(held, c) for c in plain.max_c)
    assert heated.light_mj == plain.light_mj
    assert min(plain.min_c) < 8.0 < max(plain.min_c)  # it does have something to do, and not all year


@pytest.mark.parametrize("under", CLOSED)
def test_glass_is_warmer_by_day_in_spring(under: Shelter) -> None:
    """By more than 8 C on each day, and at night by its small gain; with less light."""
    inside = under_cover(OUTSIDE, under)
    for n in SPRING:
        assert inside.max_c[n] > OUTSIDE.max_c[n] + 8
        assert inside.min_c[n] == pytest.approx(OUTSIDE.min_c[n] + MIN_GAIN_C[under])
        assert inside.light_mj[n] == pytest.approx(OUTSIDE.light_mj[n] * LIGHT_THROUGH[under])


@pytest.mark.parametrize("under", [*CLOSED, "fleece"])
def test_bright_days_gain_more(under: Shelter) -> None:
    dull, bright = (under_cover(one_day(4.0, 10.0, mj), under).max_c[0] for mj in (3.0, 9.0))
    assert bright - 10.0 == pytest.approx(3 * (dull - 10.0))


def test_fleece_gains_little() -> None:
    inside = under_cover(OUTSIDE, "fleece")
    assert all(0 < a - b < 4.5 for a, b in zip(inside.max_c, OUTSIDE.max_c, strict=True))
    assert all(a - b == pytest.approx(1.0) for a, b in zip(inside.min_c, OUTSIDE.min_c, strict=True))


@pytest.mark.parametrize("under", [*CLOSED, "fleece"])
@pytest.mark.parametrize("outside", [OUTSIDE, HOT], ids=["mild", "hot"])
def test_a_house_is_aired_at_28_c(outside: Air, under: Shelter) -> None:
    """Never above that, unless outdoors is: then as outdoors."""
    for inside, out in zip(under_cover(outside, under).max_c, outside.max_c, strict=True):
        assert out <= inside <= max(out, AIRED_AT_C)
        assert inside == out or out < AIRED_AT_C
    assert AIRED_AT_C == 28.0


@pytest.mark.parametrize("under", CLOSED)
def test_the_airing_is_reached(under: Shelter) -> None:
    """The rule above has days to which it applies."""
    assert max(under_cover(OUTSIDE, under).max_c) == AIRED_AT_C
    assert max(HOT.max_c) > AIRED_AT_C


@pytest.mark.parametrize("under", CLOSED)
def test_a_house_is_aired_after_a_tropical_night_too(under: Shelter) -> None:
    """27.5 C by night and 28 C by day outdoors is not 29.5 C inside."""
    assert under_cover(one_day(27.5, 28.0), under).max_c[0] <= AIRED_AT_C


@pytest.mark.parametrize("under", ["unheated glass", "polytunnel", "cold frame", "fleece", "outdoors", "indoors", ""])
@pytest.mark.parametrize("held", [None, 12.0])
def test_no_day_is_colder_than_its_night(under: Shelter, held: float | None) -> None:
    """Overcast days with no range, frost and heat included."""
    for low in (-15.0, 0.0, 12.0, 27.0, 35.0):
        for width in (0.0, 0.5, 12.0):
            inside = place_air(one_day(low, low + width, 0.0), place(held, under))
            assert inside.min_c[0] <= inside.max_c[0]
            assert all(math.isfinite(c) for c in inside.day(0))


@pytest.mark.parametrize("where", ["", "outdoors", place(), place(under="outdoors")])
def test_what_is_not_known_to_be_covered_is_outdoors(where: Shelter | Place) -> None:
    assert air_in(OUTSIDE, where) == OUTSIDE


def test_a_bed_and_a_place_under_the_same_glass_have_the_same_air() -> None:
    assert air_in(OUTSIDE, "polytunnel") == air_in(OUTSIDE, place(under="polytunnel")) != OUTSIDE


def test_the_leap_day_is_taken_as_the_28th() -> None:
    assert day_number(date(2028, 2, 29)) == day_number(date(2028, 2, 28)) == day_number(date(2027, 2, 28)) == 58
    assert [day_number(date(year, 3, 1)) for year in (2027, 2028)] == [59, 59]
    assert [day_number(date(2028, month, day)) for month, day in ((1, 1), (12, 31))] == [0, 364]


def _through(start: date, days: int) -> Sequence[float]:
    return list(from_day(tuple(float(n) for n in range(YEAR_DAYS)), start, days))


def test_from_a_day_on() -> None:
    assert _through(date(2028, 2, 27), 4) == [57, 58, 58, 59]
    assert _through(date(2027, 2, 27), 3) == [57, 58, 59]
    assert _through(date(2026, 12, 30), 4) == [363, 364, 0, 1]
    assert _through(date(2027, 6, 1), 0) == []
