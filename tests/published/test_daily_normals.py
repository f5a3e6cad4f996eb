"""A usual year from monthly means and from daily readings.

Monthly means: three cases with the answers of Killworth (1996, Journal of Physical Oceanography 26, 136) and of Rymes &
Myers (2001, Solar Energy 71, 225), computed elsewhere (`data/monthly_means.csv`). The code's curve is a third one; held
out are the means, which no method is told to print, and the other two curves.
Daily readings: the minima of Brussels, Champion, Cordoba (`data/README.md`). Held out: every other year.
"""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterator
from datetime import date, timedelta
from itertools import accumulate, pairwise

import pytest

from sowsheet.site.daily import MONTH_DAYS, daily_year, normals
from tests.published.tables import rows

TABLE = rows("monthly_means.csv")
CASES = {case: [row for row in TABLE if row["case"] == case] for case in ("uccle_like_tmean", "ramp", "spike")}
STARTS = (0, *accumulate(MONTH_DAYS))
RECORDS = ("daily_min_brussels.csv", "daily_min_champion.csv", "daily_min_cordoba.csv")
Reading = tuple[date, float]


def means(case: str) -> list[float]:
    return [float(row["mean"]) for row in CASES[case]]


@pytest.mark.parametrize("case", CASES)
def test_each_month_keeps_its_mean(case: str) -> None:
    """To 1e-6: a day's value is the curve's mean over that day, so that days and curve have the same means."""
    year = daily_year(means(case))
    assert len(year) == 365
    for (start, end), mean in zip(pairwise(STARTS), means(case), strict=True):
        assert sum(year[start:end]) / (end - start) == pytest.approx(mean, abs=1e-6)


@pytest.mark.parametrize("case", ["uccle_like_tmean", "ramp"])
def test_the_fifteenth_lies_where_two_other_methods_put_it(case: str) -> None:
    """Within 0.4 C of both: they differ from each other by as much as 0.28."""
    year = daily_year(means(case))
    for start, row in zip(STARTS, CASES[case], strict=False):
        for other in ("day15_killworth", "day15_rymes_myers"):
            assert year[start + 14] == pytest.approx(float(row[other]), abs=0.4), row


@pytest.mark.parametrize("case", ["uccle_like_tmean", "ramp"])
def test_no_jump_where_months_or_years_meet(case: str) -> None:
    """Neither in the values nor in the steps between them: New Year is a day like another."""
    year = daily_year(means(case))
    steps = [year[n] - year[n - 1] for n in range(365)]
    turns = [abs(steps[n] - steps[n - 1]) for n in range(365)]
    assert max(map(abs, steps)) < 0.25
    assert max(turns) < 0.03
    assert abs(steps[0]) < 0.1 and turns[0] < 0.01


def test_other_than_twelve_is_a_bug() -> None:
    with pytest.raises(ValueError, match="11 monthly means"):
        daily_year([1.0] * 11)


def readings(name: str) -> Iterator[Reading]:
    for line in rows_of(name):
        month, *days = line.replace(",", " ").split()
        for n, value in enumerate(days, 1):
            if value != "-":
                yield date(int(month[:4]), int(month[5:]), n), float(value)


def rows_of(name: str) -> list[str]:
    return [" ".join(row.values()) for row in rows(name)]


def root_mean_square(a: tuple[float, ...], b: list[float]) -> float:
    return math.sqrt(sum((x - y) ** 2 for x, y in zip(a, b, strict=True)) / len(b))


def plain(found: list[Reading]) -> list[float]:
    """The bare mean of each day of the year, without the 29th of February."""
    by_day = defaultdict(list)
    for day, value in found:
        if (day.month, day.day) != (2, 29):
            by_day[day.month, day.day].append(value)
    return [sum(by_day[key]) / len(by_day[key]) for key in sorted(by_day)]


@pytest.mark.parametrize("name", RECORDS)
def test_normals_foretell_the_years_between(name: str) -> None:
    """Nearer to the years left out than the bare means are, by a fifth and more, both ways round."""
    found = list(readings(name))
    assert len(found) > 10_000
    for odd in (0, 1):
        used, held_out = ([one for one in found if one[0].year % 2 == side] for side in (odd, 1 - odd))
        left = root_mean_square(normals(used), plain(held_out))
        bare = root_mean_square(tuple(plain(used)), plain(held_out))
        assert left < 0.8 * bare


@pytest.mark.parametrize("name", RECORDS)
def test_normals_are_smooth_all_round_and_keep_the_mean(name: str) -> None:
    found = list(readings(name))
    year = normals(found)
    assert max(abs(year[n] - year[n - 1]) for n in range(365)) < 0.35
    assert sum(year) / 365 == pytest.approx(sum(plain(found)) / 365, abs=0.01)


def test_leap_days_join_the_twenty_eighth_and_gaps_are_told() -> None:
    days = [date(2019, 1, 1) + timedelta(days=n) for n in range(3 * 365)]
    warm = [(day, 100.0 if day == date(2020, 2, 29) else 5.0) for day in days]
    twice = [(date(2020, 2, 28) if day == date(2020, 2, 29) else day, value) for day, value in warm]
    assert len(normals(warm)) == 365
    assert normals(warm) == pytest.approx(normals(twice))
    assert max(normals(warm)) > 5.3
    assert normals((day, math.nan if day.month == 7 else 5.0) for day in days) == ()
    assert normals([]) == ()
