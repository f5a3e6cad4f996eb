"""Day length against an astronomical ephemeris.

Source: skyfield 1.55 with the JPL ephemeris DE421, sun's upper limb with 34' of refraction (centre at -0.8333 deg),
ten dates and nine latitudes (`data/day_length_skyfield.csv`). All rows are held out: the formula here is Spencer's
series (1971).
"""

from __future__ import annotations

from datetime import date

import pytest

from sowsheet.site.sun import day_length_h, day_length_passes
from tests.published.tables import rows

ROWS = rows("day_length_skyfield.csv")
BEYOND_THE_CIRCLE = 65.0  # grazing sun: minutes of error become hours


@pytest.mark.parametrize("row", ROWS, ids=[f"{r['latitude']}-{r['date']}" for r in ROWS])
def test_sunrise_to_sunset(row: dict[str, str]) -> None:
    latitude = float(row["latitude"])
    found = day_length_h(latitude, date.fromisoformat(row["date"]))
    assert found == pytest.approx(float(row["hours"]), abs=0.05 if abs(latitude) < BEYOND_THE_CIRCLE else 0.25)


@pytest.mark.parametrize("latitude", [-45.0, -20.0, 20.0, 52.4])
@pytest.mark.parametrize("rising", [True, False])
def test_the_day_it_passes_is_the_first_one(latitude: float, rising: bool) -> None:
    day = day_length_passes(latitude, 11.5, 2027, rising)
    assert day is not None
    before = date.fromordinal(day.toordinal() - 1)
    if rising:
        assert day_length_h(latitude, before) < 11.5 <= day_length_h(latitude, day)
    else:
        assert day_length_h(latitude, before) > 11.5 >= day_length_h(latitude, day)
