"""How often a cold night comes between two days of the year, counted in made records."""

from __future__ import annotations

import math
from collections.abc import Iterable
from datetime import date, timedelta

import pytest

from sowsheet.site.nights import Nights, in_year
from sowsheet.site.record import Record
from tests.site.weather import days

FIRST, LAST = date(2001, 1, 1), date(2010, 12, 31)  # ten years


def record(cold: Iterable[date], without: Iterable[date] = (), first: date = FIRST, last: date = LAST) -> Record:
    """5 C on every night but those of -3 C; some days lack."""
    nights, lack = set(cold), set(without)
    kept = tuple(day for day in days(first, last) if day not in lack)
    return Record("made.csv", kept, tuple(-3.0 if d in nights else 5.0 for d in kept), (math.nan,) * len(kept))


def each_year(month: int, day: int, years: Iterable[int]) -> list[date]:
    return [date(year, month, day) for year in years]


def on(month: int, day: int, year: int = 2027) -> date:
    return date(year, month, day)


MAYS = Nights(record(each_year(5, 10, range(2001, 2004))))  # in three years of ten


def test_the_share_of_years_is_counted() -> None:
    assert MAYS.chance(0.0, on(5, 1), on(6, 1)) == pytest.approx(0.3)
    assert MAYS.chance(0.0, on(6, 1), on(9, 1)) == 0
    assert MAYS.chance(5.0, on(6, 1), on(9, 1)) == 1


def test_a_year_with_several_such_nights_counts_once() -> None:
    cold = each_year(5, 10, [2001]) + each_year(5, 11, [2001]) + each_year(5, 12, [2001])
    assert Nights(record(cold)).chance(0.0, on(5, 1), on(6, 1)) == pytest.approx(0.1)


def test_at_the_temperature_counts_and_above_it_does_not() -> None:
    assert MAYS.chance(-3.0, on(5, 1), on(6, 1)) == pytest.approx(0.3)
    assert MAYS.chance(-3.1, on(5, 1), on(6, 1)) == 0


def test_from_the_first_day_up_to_but_not_including_the_last() -> None:
    assert MAYS.chance(0.0, on(5, 10), on(6, 10)) == pytest.approx(0.3)
    assert MAYS.chance(0.0, on(5, 11), on(6, 10)) == 0
    assert MAYS.chance(0.0, on(4, 10), on(5, 10)) == 0
    assert MAYS.chance(0.0, on(4, 10), on(5, 11)) == pytest.approx(0.3)


def test_no_span_has_no_nights() -> None:
    assert MAYS.chance(5.0, on(5, 10), on(5, 10)) == 0
    assert MAYS.chance(5.0, on(5, 10), on(5, 1)) == 0


@pytest.mark.parametrize("year", [1999, 2024, 2027, 2051])
def test_the_year_that_is_asked_about_does_not_matter(year: int) -> None:
    assert MAYS.chance(0.0, on(5, 1, year), on(6, 1, year)) == pytest.approx(0.3)


def test_one_answer_is_not_taken_for_another() -> None:
    """The same record asked for spans of one length in one month, of other lengths, months and temperatures."""
    nights = Nights(record(each_year(5, 10, range(2001, 2004))))
    fortnight = timedelta(days=14)
    asked = [(0.0, on(5, 1), fortnight), (0.0, on(5, 11), fortnight), (0.0, on(6, 1), fortnight)]
    asked += [(-4.0, on(5, 1), fortnight), (0.0, on(5, 1), timedelta(days=7)), (0.0, on(4, 1), timedelta(days=60))]
    for _ in range(2):
        found = [nights.chance(night_c, start, start + long) for night_c, start, long in asked]
        assert found == pytest.approx([0.3, 0.0, 0.0, 0.0, 0.0, 0.3])


def test_a_span_across_new_year_is_one_winter() -> None:
    """Of ten years nine winters are whole; the frosts of 5 January belong to the winter that began before."""
    nights = Nights(record(each_year(1, 5, [2001, 2002, 2003])))
    assert nights.chance(0.0, on(12, 1), on(2, 1, 2028)) == pytest.approx(2 / 9)


def test_a_frost_on_either_side_of_new_year_is_the_same_winters() -> None:
    nights = Nights(record([date(2004, 12, 20), date(2005, 1, 10)]))
    assert nights.chance(0.0, on(12, 1), on(2, 1, 2028)) == pytest.approx(1 / 9)


def test_years_that_lack_days_are_left_out() -> None:
    """Ten of 31 days lack in 2001, which had the frost: nine years are asked, none had one."""
    gap = [date(2001, 5, 15) + timedelta(days=n) for n in range(10)]
    assert Nights(record(each_year(5, 10, [2001]), gap)).chance(0.0, on(5, 1), on(6, 1)) == 0
    assert Nights(record(each_year(5, 10, [2002]), gap)).chance(0.0, on(5, 1), on(6, 1)) == pytest.approx(1 / 9)


@pytest.mark.parametrize(("long", "lack", "asked"), [(31, 5, 10), (31, 6, 9), (92, 9, 10), (92, 10, 9)])
def test_how_many_days_may_lack(long: int, lack: int, asked: int) -> None:
    """Five, or a tenth of the span."""
    gap = [date(2001, 5, 20) + timedelta(days=n) for n in range(lack)]
    nights = Nights(record(each_year(5, 10, [2002]), gap))
    assert nights.chance(0.0, on(5, 1), on(5, 1) + timedelta(days=long)) == pytest.approx(1 / asked)


def test_none_where_no_year_covers_the_span() -> None:
    summer = Nights(record([], first=date(2005, 6, 1), last=date(2005, 8, 31)))
    assert summer.chance(0.0, on(12, 1), on(12, 31)) is None
    assert summer.chance(0.0, on(3, 1), on(12, 31)) is None
    assert summer.chance(0.0, on(6, 1), on(9, 1)) == 0


def test_none_where_no_year_has_a_day_of_a_short_span() -> None:
    """Three nights of which the record has none: not never cold, for nobody looked."""
    summer = Nights(record([], first=date(2005, 6, 1), last=date(2005, 8, 31)))
    assert summer.chance(0.0, on(12, 1), on(12, 4)) is None


def test_a_year_without_a_day_of_a_short_span_is_left_out() -> None:
    """Frost on 10 May in every year; 2010 stops before and does not count."""
    nights = Nights(record(each_year(5, 10, range(2001, 2011)), last=date(2010, 4, 1)))
    assert nights.chance(0.0, on(5, 9), on(5, 12)) == 1


def test_whether_a_span_is_covered_and_cold() -> None:
    assert MAYS.covers(date(2003, 5, 1), date(2003, 6, 1)) and not MAYS.covers(date(2011, 5, 1), date(2011, 6, 1))
    assert MAYS.colder(0.0, date(2003, 5, 1), date(2003, 6, 1))
    assert not MAYS.colder(0.0, date(2004, 5, 1), date(2004, 6, 1))
    assert list(MAYS.years) == list(range(2001, 2011))


def test_the_leap_day_in_other_years() -> None:
    assert [in_year(date(2028, 2, 29), year) for year in (2027, 2028)] == [date(2027, 2, 28), date(2028, 2, 28)]
    assert in_year(date(2027, 3, 1), 2028) == date(2028, 3, 1)
    assert Nights(record(each_year(2, 28, range(2001, 2011)))).chance(0.0, on(2, 29, 2028), on(4, 1, 2028)) == 1
