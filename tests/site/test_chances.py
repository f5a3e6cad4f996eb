"""The chance of frost where only average dates are known: a spring's is over at midsummer, an autumn's begins there.

Set against a normal spread (statistics.NormalDist) about the dates, 15 days wide, as `check` tells it.
"""

from __future__ import annotations

from datetime import date
from statistics import NormalDist

import pytest

from sowsheet.garden.records import Site
from sowsheet.site.climate import Climate, chance_colder_after, chance_colder_between, climate_of
from tests.made import frost, garden

LAST, FIRST = date(2027, 3, 20), date(2027, 11, 25)


def climate(first: bool = True) -> Climate:
    site = Site(
        latitude=42.0,
        last_frost=frost(LAST.month, LAST.day),
        first_frost=frost(FIRST.month, FIRST.day) if first else None,
    )
    return climate_of(garden("leeks", mistakes=[], site=site))


def share(days: float) -> float:
    """Of years in which something 15 days wide has come so many days after its mean."""
    return NormalDist(0, 15).cdf(days)


def test_after_midsummer_no_spring_brings_frost() -> None:
    assert chance_colder_after(climate(), 0.0, date(2027, 10, 26)) == 0.0
    late = chance_colder_after(climate(), 0.0, date(2027, 4, 9))
    assert late == pytest.approx(1 - share(20), abs=1e-9)


def test_a_stay_in_autumn_meets_that_autumn_s_frosts_alone() -> None:
    """Not those of the spring after it, however near that lies."""
    chance = chance_colder_between(climate(), 0.0, date(2027, 10, 20), date(2027, 11, 5))
    assert chance == pytest.approx(share(-20), abs=1e-9)


def test_a_stay_over_winter_meets_frost_even_if_only_the_spring_s_date_is_known() -> None:
    chance = chance_colder_between(climate(first=False), 0.0, date(2027, 11, 1), date(2028, 3, 1))
    assert chance is not None and chance > 0.99
    assert chance_colder_between(climate(first=False), 0.0, date(2027, 9, 1), date(2027, 10, 1)) is None
