"""The guessed spread of frost dates against records of cool temperate places.

Source: quantiles (type 7) of last spring and first autumn day with a minimum at or below 0 C, from daily series of
1976 to 2021 for Brussels, Wageningen and gridded eastern England, in open data sets (aquacrop 3.1.0, pcse 6.0.13).
Held out: everything; the 15 days' spread is a round guess, and only the median of each row goes in.
"""

from __future__ import annotations

from datetime import date, timedelta

import pytest

from sowsheet.site.almanac import Almanac
from sowsheet.site.climate import FROST_SD_DAYS, Climate, chance_colder_before, safe_from
from tests.published.tables import rows

ROWS = rows("frost_spread.csv")


def _day(number: str) -> date:
    return date(2027, 1, 1) + timedelta(days=round(float(number)) - 1)


def _climate(last: date, first: date) -> Climate:
    almanac = Almanac(52.0, (last.month, last.day), (first.month, first.day))
    return Climate(52.0, almanac, almanac)


@pytest.mark.parametrize("row", [r for r in ROWS if r["what"] == "last_spring"], ids=lambda r: r["station"])
def test_one_spring_in_ten_has_a_frost_after_the_safe_date(row: dict[str, str]) -> None:
    climate = _climate(_day(row["p50"]), date(2027, 10, 30))
    safe = safe_from(climate, 0.0, 0.1, _day(row["p50"]))
    assert safe is not None
    assert abs((safe - _day(row["p90"])).days) <= 7


@pytest.mark.parametrize("row", [r for r in ROWS if r["what"] == "first_autumn"], ids=lambda r: r["station"])
def test_one_autumn_in_ten_has_frozen_by_the_tenth_percentile(row: dict[str, str]) -> None:
    climate = _climate(date(2027, 4, 20), _day(row["p50"]))
    chance = chance_colder_before(climate, 0.0, _day(row["p10"]))
    assert chance is not None
    assert 0.02 <= chance <= 0.3


def test_the_spread_is_a_middling_one() -> None:
    deviations = sorted(float(r["sd_n1"]) for r in ROWS)
    assert deviations[0] - 4 < FROST_SD_DAYS < deviations[-1] + 4
    assert abs(FROST_SD_DAYS - deviations[len(deviations) // 2]) < 4
