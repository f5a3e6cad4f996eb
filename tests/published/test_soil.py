"""The soil's temperature.

The damped wave: 32 shares and lags for four diffusivities, after Hillel's form, computed elsewhere
(`data/soil_waves.csv`); held out, the code has the formula only. The day-by-day way (Katterer & Andren 2009) has no
measured record to be held against: it is asked for the answer of its own equation to a wave, worked out by hand, and
for what a bed must do.
"""

from __future__ import annotations

import cmath
import math

import pytest

from sowsheet.site.daily import daily_year
from sowsheet.site.soil import SHARE_A_DAY, damped, damping_depth_m, soil_days, soil_year, surface_c
from tests.published.tables import rows

WAVES = rows("soil_waves.csv")
PERIOD_DAYS = {"annual": 365.0, "diurnal": 1.0}
# Long-term monthly means of an inland place in England, from memory.
AIR_C = daily_year([3.9, 4.2, 6.2, 8.4, 11.5, 14.4, 16.5, 16.3, 13.7, 10.3, 6.7, 4.3])


@pytest.mark.parametrize("row", WAVES, ids=[f"{r['wave']}-{r['diffusivity_m2_s']}-{r['depth_m']}" for r in WAVES])
def test_a_wave_at_a_depth(row: dict[str, str]) -> None:
    depth, diffusivity, period = float(row["depth_m"]), float(row["diffusivity_m2_s"]), PERIOD_DAYS[row["wave"]]
    found = damped(depth, diffusivity, period)
    lag = found.lag_days * (24 if row["lag_unit"] == "hours" else 1)
    assert damping_depth_m(diffusivity, period) == pytest.approx(float(row["damping_depth_m"]), abs=0.0002)
    assert found.share == pytest.approx(float(row["share"]), abs=0.0002)
    assert lag == pytest.approx(float(row["lag"]), abs=0.03)


@pytest.mark.parametrize("leaf_area", [0.0, 2.0])
def test_a_wave_day_by_day(leaf_area: float) -> None:
    """Height and lag of a part-of-the-way rule follow from its equation: share / (1 - (1 - share) e^-iw)."""
    depth, mean, height, turn = 5.0, 15.0, 8.0, 2 * math.pi / 365
    air = [mean + height * math.cos(turn * n) for n in range(365)]
    share = SHARE_A_DAY * math.exp(-0.017 * depth - 0.15 * leaf_area)
    response = share / (1 - (1 - share) * cmath.exp(-1j * turn))
    factor = surface_c(1.0, leaf_area)
    year = soil_year(air, depth, leaf_area)
    for n, found in enumerate(year):
        wanted = factor * (mean + height * abs(response) * math.cos(turn * n + cmath.phase(response)))
        assert found == pytest.approx(wanted, abs=1e-6)
    assert 3 < -cmath.phase(response) / turn < 6  # days late


def test_the_surface() -> None:
    """Bare soil a ninth warmer than the air, under leaf area 3 the air's own, below freezing a fifth."""
    assert surface_c(20.0) == pytest.approx(20 * (0.95 + 0.05 * math.exp(1.2)))
    assert surface_c(20.0, leaf_area=3.0) == pytest.approx(20.0)
    assert surface_c(-10.0) == pytest.approx(-2.0)


def test_a_year_is_cyclic_and_lags_the_air() -> None:
    soil = soil_year(AIR_C)
    assert len(soil) == 365
    steps = [abs(soil[n] - soil[n - 1]) for n in range(365)]
    assert steps[0] < 0.1 and max(steps) < 0.2
    assert next(soil_days(AIR_C, soil[-1])) == pytest.approx(soil[0])
    assert AIR_C.index(max(AIR_C)) < soil.index(max(soil)) < AIR_C.index(max(AIR_C)) + 10


def test_deeper_and_shadier_is_steadier() -> None:
    def swing(depth_cm: float, leaf_area: float = 0.0) -> float:
        soil = soil_year(AIR_C, depth_cm, leaf_area)
        return max(soil) - min(soil)

    assert swing(2) > swing(10) > swing(50)
    assert swing(2) > swing(2, leaf_area=3)
