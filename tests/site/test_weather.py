"""The usual year and the usual frosts of made records."""

from __future__ import annotations

import math
from collections.abc import Callable
from datetime import date

import pytest

from sowsheet.site.record import Record
from sowsheet.site.weather import Reading, Weather, readings, usual_frosts, usual_year
from tests.site.weather import days, made

FIRST, LAST = date(2001, 1, 1), date(2012, 12, 31)  # three leap years
MEAN_C, SWING_C = 6.0, 9.0
FLATTENED = 0.01  # three waves keep one that is a year long


def wave(day: date) -> float:
    return MEAN_C - SWING_C * math.cos(2 * math.pi * (day.timetuple().tm_yday - 20) / 365.25)


def ragged(day: date) -> float:
    """The wave with 3 C more or less by turns, the same in every year."""
    return wave(day) + (3.0 if day.day % 2 else -3.0)


def both(lows: Callable[[date], float], highs: Callable[[date], float]) -> Record:
    all_days = tuple(days(FIRST, LAST))
    return Record("made.csv", all_days, tuple(map(lows, all_days)), tuple(map(highs, all_days)))


def steps(year: tuple[float, ...]) -> list[float]:
    """From each day to the next, the first of them over New Year."""
    return [abs(year[n] - year[n - 1]) for n in range(len(year))]


def test_a_wave_comes_back() -> None:
    """Within 0.06 C on every day (measured: 0.041, of leap years), its mean within 0.01 C."""
    year = usual_year(made(wave, FIRST, LAST), "min_c")
    assert len(year) == 365
    assert sum(year) / 365 == pytest.approx(MEAN_C, abs=0.01)
    for n, value in enumerate(year):
        there = wave(date.fromordinal(date(2001, 1, 1).toordinal() + n))
        assert value == pytest.approx(there, abs=0.06)


def test_what_is_ragged_comes_out_smooth_and_cyclic() -> None:
    """Steps of 6 C become those of the wave: never more than 0.2 C a day, over New Year as on any other."""
    record = made(ragged, FIRST, LAST)
    assert max(abs(a - b) for a, b in zip(record.min_c, record.min_c[1:], strict=False)) > 5.5
    found = steps(usual_year(record, "min_c"))
    assert max(found) < 0.2
    assert found[0] < 0.1


def test_years_of_any_length_count_alike_by_day() -> None:
    """A record that stops in summer does not shift the mean of the days it has."""
    level = made(lambda _: 4.0, FIRST, date(2003, 6, 30))
    assert usual_year(level, "min_c") == pytest.approx((4.0,) * 365)


def test_minima_and_maxima_are_told_apart() -> None:
    record = both(wave, lambda day: wave(day) + 8)
    lows, highs = usual_year(record, "min_c"), usual_year(record, "max_c")
    assert [high - low for low, high in zip(lows, highs, strict=True)] == pytest.approx([8.0] * 365)


def test_a_blank_maximum_here_and_there_is_passed_over() -> None:
    """Other years have that day."""
    full = both(lambda _: 2.0, lambda _: 10.0)
    some = both(lambda _: 2.0, lambda day: math.nan if day.year % 2 else 10.0)
    assert usual_year(some, "max_c") == pytest.approx(usual_year(full, "max_c"))
    assert len(readings(some)) == sum(day.year % 2 == 0 for day in some.days)
    assert readings(some)[0] == Reading(date(2002, 1, 1), 2.0, 10.0)


def test_a_day_that_is_always_blank_leaves_no_usual_year() -> None:
    record = both(wave, lambda day: math.nan if (day.month, day.day) == (8, 3) else wave(day) + 8)
    assert usual_year(record, "max_c") == ()
    assert len(usual_year(record, "min_c")) == 365
    assert Weather(record).usual_air(52.4) is None


def test_without_maxima_there_is_no_air() -> None:
    assert Weather(made(wave, FIRST, LAST)).usual_air(52.4) is None
    assert Weather().usual_air(52.4) is None


def test_the_usual_air_has_light_by_latitude() -> None:
    weather = Weather(both(wave, lambda day: wave(day) + 8))
    north, south = weather.usual_air(52.4), weather.usual_air(-37.5)
    assert north is not None and south is not None
    assert north.min_c == south.min_c and len(north.light_mj) == 365
    assert north.light_mj[171] > 3 * north.light_mj[354] and south.light_mj[171] < south.light_mj[354]


def test_the_leap_day_joins_the_28th() -> None:
    """One day of 100 C in twelve years, at the end of February: the same whether it is the 28th or the 29th."""
    hot = [date(2004, 2, 28), date(2004, 2, 29)]
    years = [usual_year(made(lambda d, on=on: 100.0 if d == on else 0.0, FIRST, LAST), "min_c") for on in hot]  # type: ignore[misc]
    assert years[0] == pytest.approx(years[1])
    assert sum(years[0]) == pytest.approx(100 / 15)  # twelve 28ths, three 29ths


def test_this_years_readings() -> None:
    part = both(lambda _: 2.0, lambda day: math.nan if day == FIRST else 9.0)
    assert Weather(this_year=part).measured[0].day == date(2001, 1, 2)
    assert Weather(part).measured == ()


def frosty(until: tuple[int, int], again: tuple[int, int]) -> Callable[[date], float]:
    return lambda day: -2.0 if (day.month, day.day) <= until or (day.month, day.day) >= again else 5.0


def test_the_usual_frosts_are_the_middle_years() -> None:
    assert usual_frosts(made(frosty((4, 20), (10, 10)), FIRST, LAST), 52.4) == ((4, 20), (10, 10))

    def lows(day: date) -> float:
        late = (day.year - FIRST.year) % 3  # last frosts on 10, 20 and 30 April by turns
        return frosty((4, 10 + 10 * late), (10, 10 + 5 * late))(day)

    assert usual_frosts(made(lows, FIRST, LAST), 52.4) == ((4, 20), (10, 15))


def test_the_usual_frosts_of_the_south() -> None:
    record = made(lambda day: -2.0 if (5, 20) <= (day.month, day.day) <= (9, 10) else 6.0, FIRST, LAST)
    assert usual_frosts(record, -37.5) == ((9, 10), (5, 20))


@pytest.mark.parametrize(("frosty_years", "known"), [(5, False), (6, True), (7, True)])
def test_frost_in_fewer_than_half_the_years_gives_no_date(frosty_years: int, known: bool) -> None:
    """Of twelve years."""

    def lows(day: date) -> float:
        cold = day.year - FIRST.year < frosty_years and (day.month, day.day) in ((3, 5), (11, 20))
        return -1.0 if cold else 6.0

    found = usual_frosts(made(lows, FIRST, LAST), 45.0)
    assert found == (((3, 5), (11, 20)) if known else (None, None))
