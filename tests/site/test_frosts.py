"""Last and first frosts of made records, whose answers are known."""

from __future__ import annotations

import math
from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sowsheet.garden.site import read_site
from sowsheet.reading.mistakes import Mistake
from sowsheet.reading.nodes import compose
from sowsheet.site.frosts import (
    Frosts,
    Span,
    Spread,
    at_or_below,
    complete,
    first_event,
    frosts,
    garden_lines,
    is_south,
    last_event,
    left_out_years,
    month_day,
    season_day,
    watched_years,
)
from sowsheet.site.quantile import quantile
from sowsheet.site.record import Record
from tests.site.weather import low_c, made

FIRST, LAST = date(2001, 1, 1), date(2012, 12, 31)


def cold_on(*nights: date, south: bool = False, first: date = FIRST, last: date = LAST) -> Record:
    """Nights of 5 C but for those named, at 0 C; a little warmer in summer."""

    def low(day: date) -> float:
        summer = day.month in ((11, 12, 1, 2) if south else (5, 6, 7, 8))
        return 0.0 if day in nights else 15.0 if summer else 5.0

    return made(low, first, last)


def without(record: Record, *gone: date) -> Record:
    kept = [n for n, day in enumerate(record.days) if day not in gone]
    return Record(
        record.file,
        tuple(record.days[n] for n in kept),
        tuple(record.min_c[n] for n in kept),
        tuple(record.max_c[n] for n in kept),
    )


def ten(*nights: tuple[int, int]) -> Record:
    """The same nights each year from 2001 to 2012."""
    return cold_on(*(date(y, m, d) for y in range(2001, 2013) for m, d in nights))


def test_the_last_in_spring_and_the_first_in_autumn() -> None:
    found = frosts(ten((2, 1), (4, 11), (10, 20), (11, 5)), 0.0, south=False)
    assert [e.day for e in found.last] == [date(y, 4, 11) for y in range(2001, 2013)]
    assert [e.day for e in found.first] == [date(y, 10, 20) for y in range(2001, 2013)]
    assert set(found.lengths) == {192}
    assert not found.winters
    assert (found.last_spring.share, found.last_spring.few) == (1.0, False)


def test_at_the_threshold_is_an_event_and_above_it_is_none() -> None:
    record = ten((4, 11), (10, 20))
    assert frosts(record, 0.0, south=False).last_spring.days
    assert not frosts(record, -0.1, south=False).last_spring.days
    assert first_event(record, Span(FIRST, LAST), lambda low: low < 0) is None
    assert last_event(record, Span(FIRST, LAST), at_or_below(0.0)) == date(2012, 10, 20)


def test_the_edges_of_the_halves() -> None:
    found = frosts(ten((6, 30), (7, 1)), 0.0, south=False)
    assert {e.day and (e.day.month, e.day.day) for e in found.last} == {(6, 30)}
    assert {e.day and (e.day.month, e.day.day) for e in found.first} == {(7, 1)}


def test_the_southern_year_runs_from_july_to_june() -> None:
    nights = [date(y, m, d) for y in range(2001, 2013) for m, d in ((9, 17), (5, 29))]
    record = cold_on(*nights, south=True)
    assert is_south(record) is True
    found = frosts(record, 0.0, south=True)
    assert [e.year for e in found.last] == list(range(2001, 2012))  # 2012 has no autumn half in the record
    assert found.last[0].day == date(2001, 9, 17)
    assert found.first[0].day == date(2002, 5, 29)
    assert found.first_autumn.date_at(0.5) == (5, 29)
    assert garden_lines(found) == ("last frost: 17 September (average)", "first frost: 29 May (average)")


def test_five_missing_days_of_a_half_are_borne_and_six_are_not() -> None:
    record = ten((4, 11), (10, 20))
    five = tuple(date(2005, 5, n) for n in range(1, 6))
    assert 2005 in watched_years(without(record, *five), south=False)
    six = without(record, *five, date(2005, 5, 6))
    assert 2005 not in watched_years(six, south=False)
    assert left_out_years(six, south=False) == (2005,)
    assert not complete(six, Span(date(2005, 1, 1), date(2005, 6, 30)))
    assert complete(six, Span(date(2005, 1, 1), date(2005, 6, 30)), most_missing=6)
    assert frosts(six, 0.0, south=False).last_spring.years == 11


def test_years_without_an_event_count_in_the_share_alone() -> None:
    nights = [date(y, 4, d) for y, d in zip(range(2001, 2010), range(1, 10), strict=True)]
    found = frosts(cold_on(*nights, *(date(y, 11, 1) for y in range(2001, 2013))), 0.0, south=False)
    spread = found.last_spring
    assert (len(spread.days), spread.years, spread.share) == (9, 12, 0.75)
    assert spread.few
    assert spread.date_at(0.5) == (4, 5)
    assert len(found.lengths) == 9


def test_no_event_at_all() -> None:
    found = frosts(ten(), 0.0, south=False)
    assert (found.last_spring.at(0.5), found.first_autumn.date_at(0.1), found.lengths) == (None, None, ())
    assert found.last_spring.share == 0
    assert garden_lines(found) == ()


def test_a_first_frost_after_new_year_counts_where_most_winters_have_it_so() -> None:
    nights = [date(y, 1, 10 + y % 5) for y in range(2001, 2013)] + [date(y, 2, 20) for y in range(2001, 2013)]
    found = frosts(cold_on(*nights), 0.0, south=False)
    assert found.winters
    assert found.last[0].year == 2002  # the winter before 2001 is not whole
    assert found.last[0].day == date(2002, 2, 20)
    assert found.first[0].year == 2001
    assert found.first[0].day == date(2002, 1, 12)
    assert found.first_autumn.date_at(0.5) == (1, 12)
    assert found.lengths[0] == (date(2003, 1, 13) - date(2002, 2, 20)).days
    assert garden_lines(found) == ("last frost: 20 February (average)", "first frost: 12 January (average)")


def test_a_cold_place_does_not_change_to_winters_for_one_mild_autumn() -> None:
    nights = [date(y, m, d) for y in range(2001, 2013) for m, d in ((1, 20), (4, 2), (11, 3)) if (y, m) != (2006, 11)]
    found = frosts(cold_on(*nights), 0.0, south=False)
    assert not found.winters
    assert found.first_autumn.years - len(found.first_autumn.days) == 1


def test_southern_winters_turn_on_the_first_of_july() -> None:
    nights = [date(y, 7, 20) for y in range(2001, 2013)]
    found = frosts(cold_on(*nights, south=True), 0.0, south=True)
    assert found.winters
    assert found.first[0].day == date(2001, 7, 20)
    assert found.first[0].year == 2000
    assert found.first_autumn.date_at(0.5) == (7, 20)
    assert set(found.lengths) == {365, 366}


def test_the_record_of_a_smooth_year_is_as_its_formula_says() -> None:
    record = made(low_c, FIRST, LAST)
    assert is_south(record) is False
    found = frosts(record, 0.0, south=False)
    below = [d for d in range(1, 366) if low_c(date(2001, 1, 1) + timedelta(days=d - 1)) <= 0]
    assert abs(found.last_spring.days[0] - max(d for d in below if d < 182)) <= 1
    south = made(lambda d: low_c(d, south=True), FIRST, LAST)
    assert is_south(south) is True
    assert abs((frosts(south, 0.0, south=True).lengths[0]) - found.lengths[0]) <= 3


def test_a_place_without_seasons_has_no_hemisphere() -> None:
    assert is_south(made(lambda _: 20.0, FIRST, LAST)) is None
    assert is_south(made(low_c, FIRST, date(2001, 3, 31))) is None


def test_too_little_for_a_year() -> None:
    short = made(low_c, FIRST, date(2001, 9, 30))
    assert watched_years(short, south=False) == ()
    assert left_out_years(short, south=False) == ()
    assert frosts(short, 0.0, south=False) == Frosts(0.0, False, False, (), ())
    empty = Record("made.csv", (), (), ())
    assert frosts(empty, 0.0, south=False).last_spring == Spread((), 0)


@pytest.mark.parametrize(
    ("day", "year", "number"),
    [
        (date(2001, 1, 1), 2001, 1),
        (date(2004, 2, 28), 2004, 59),
        (date(2004, 2, 29), 2004, 59),
        (date(2004, 3, 1), 2004, 60),
        (date(2004, 12, 31), 2004, 365),
        (date(2005, 1, 1), 2004, 366),
        (date(2003, 12, 31), 2004, 0),
    ],
)
def test_day_numbers_of_a_year_of_365_days(day: date, year: int, number: int) -> None:
    assert season_day(day, year) == number
    if (day.month, day.day) != (2, 29):
        assert month_day(number) == (day.month, day.day)


def test_a_half_day_is_rounded_up() -> None:
    assert month_day(100.5) == (4, 11)
    assert month_day(100.49) == (4, 10)


def test_type_7() -> None:
    assert quantile([10, 20, 30, 40], 0.5) == 25
    assert quantile([162, 165, 161, 170, 165, 168], 0.9) == 169
    assert quantile([7], 0.9) == 7


@given(st.lists(st.integers(-500, 900), min_size=1, max_size=50), st.floats(0, 1), st.floats(0, 1))
def test_quantiles_rise_and_stay_inside(days: list[int], one: float, other: float) -> None:
    low, high = sorted((one, other))
    assert min(days) <= quantile(days, low) <= quantile(days, high) + 1e-9
    assert quantile(days, high) <= max(days) + 1e-9
    assert quantile(days, 0) == min(days)
    assert quantile(days, 1) == max(days)


@given(st.lists(st.dates(FIRST, LAST), max_size=80), st.lists(st.dates(FIRST, LAST), max_size=40), st.booleans())
def test_whatever_the_nights(cold: list[date], gone: list[date], south: bool) -> None:
    record = without(cold_on(*cold), *gone)
    found = frosts(record, 0.0, south)
    for event in (*found.last, *found.first):
        assert event.day is None or (event.day in cold and event.day not in gone)
    assert all(0 < length < 1100 for length in found.lengths)
    for spread in (found.last_spring, found.first_autumn):
        assert 0 <= spread.share <= 1
        assert len(spread.days) <= spread.years
    assert frosts(record, 1.0, south).last_spring.share >= 0


@given(st.floats(-5, 5), st.floats(-5, 5))
def test_a_warmer_threshold_makes_a_longer_winter(one: float, other: float) -> None:
    low, high = sorted((one, other))
    record = made(lambda d: low_c(d) + 3 * math.sin(d.toordinal()), FIRST, date(2006, 12, 31))
    cold, warm = frosts(record, low, south=False), frosts(record, high, south=False)
    later = {e.year: e.day for e in warm.last}
    for rare in cold.last:
        common = later.get(rare.year)
        assert rare.day is None or common is None or rare.day <= common


def test_the_lines_are_read_by_the_garden_file() -> None:
    own = garden_lines(frosts(ten((4, 11), (10, 20)), 0.0, south=False))
    mistakes: list[Mistake] = []
    site = read_site(compose("\n".join(["latitude: 52", *own]), "garden.yaml", mistakes), mistakes)
    assert mistakes == []
    assert site is not None
    assert site.last_frost is not None
    assert (site.last_frost.day.month, site.last_frost.day.day, site.last_frost.meaning) == (4, 11, "average")
