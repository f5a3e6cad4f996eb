"""The usual year from monthly means, set close against Rymes & Myers (2001, Solar Energy 71, 225).

Source: `data/monthly_means.csv`, their method computed elsewhere (365 rounds, the formula from memory). Held out: its
fifteenths. Measured, at most: 0.013 C for the means of a real place, 0.016 C for a ramp, 0.112 C for a single month of
12 C among months of 0. The bounds below are just above.
"""

from __future__ import annotations

from itertools import accumulate

import pytest

from sowsheet.site.daily import MONTH_DAYS, daily_year
from tests.published.tables import rows

TABLE = rows("monthly_means.csv")
BOUNDS = {"uccle_like_tmean": 0.02, "ramp": 0.02, "spike": 0.15}
STARTS = tuple(accumulate(MONTH_DAYS[:-1], initial=0))


def year_of(case: str) -> tuple[float, ...]:
    return daily_year([float(row["mean"]) for row in TABLE if row["case"] == case])


@pytest.mark.parametrize(("case", "bound"), BOUNDS.items())
def test_the_fifteenth_is_theirs(case: str, bound: float) -> None:
    year = year_of(case)
    theirs = [float(row["day15_rymes_myers"]) for row in TABLE if row["case"] == case]
    for start, fifteenth in zip(STARTS, theirs, strict=True):
        assert year[start + 14] == pytest.approx(fifteenth, abs=bound)


@pytest.mark.parametrize("case", BOUNDS)
def test_new_year_is_no_step(case: str) -> None:
    """Not steeper than the rest of the year."""
    year = year_of(case)
    assert abs(year[0] - year[-1]) <= max(abs(year[n] - year[n - 1]) for n in range(1, 365))


def test_the_year_may_begin_with_any_month() -> None:
    """A step put at New Year instead of May: the same curve there, as far as the months are as long."""
    july = [12.0 if month == 6 else 0.0 for month in range(12)]
    december = [12.0 if month == 11 else 0.0 for month in range(12)]
    summer, winter = daily_year(july), daily_year(december)
    assert winter[STARTS[11] + 15] == pytest.approx(summer[STARTS[6] + 15], abs=0.1)
    assert winter[-1] - winter[0] == pytest.approx(summer[STARTS[7] - 1] - summer[STARTS[7]], abs=0.01)
