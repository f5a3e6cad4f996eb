"""ISO 8601 weeks against a table worked out with another program.

Source: ISO 8601 week rule; `data/iso_weeks.csv` holds each year's count of weeks and first Monday for 2000 to 2060,
computed with the C library's calendar. Nothing here was taken from it: all rows are held out.
"""

from __future__ import annotations

from datetime import date

import pytest

from sowsheet.site.season import monday_of, season_mondays, season_of, weeks_in
from tests.published.tables import rows

ROWS = rows("iso_weeks.csv")


@pytest.mark.parametrize("row", ROWS, ids=[r["iso_year"] for r in ROWS])
def test_weeks_and_first_monday(row: dict[str, str]) -> None:
    year = int(row["iso_year"])
    assert weeks_in(year) == int(row["weeks"])
    assert monday_of(date(year, 1, 4)).isoformat() == row["monday_of_week_1"]


@pytest.mark.parametrize("row", ROWS, ids=[r["iso_year"] for r in ROWS])
def test_a_northern_season_has_the_years_weeks(row: dict[str, str]) -> None:
    year = int(row["iso_year"])
    mondays = season_mondays(season_of(year, 52.0))
    assert len(mondays) == int(row["weeks"])
    assert mondays[0].isoformat() == row["monday_of_week_1"]


def test_long_years() -> None:
    # printed lists of 53-week years, 2000 to 2060 (ISO 8601: 1 January a Thursday, or a Wednesday in a leap year)
    long_years = [2004, 2009, 2015, 2020, 2026, 2032, 2037, 2043, 2048, 2054, 2060]
    assert [y for y in range(2000, 2061) if weeks_in(y) == 53] == long_years


def test_a_southern_season_runs_from_july_to_june() -> None:
    season = season_of(2027, -37.0)
    assert (season.start, season.end) == (date(2027, 7, 1), date(2028, 6, 30))
    mondays = season_mondays(season)
    assert mondays[0] == date(2027, 6, 28)  # its Thursday is 1 July
    assert mondays[-1] == date(2028, 6, 26)
