"""What must hold for any fitted requirement: it finds a law again, and more warmth is never slower."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sowsheet.catalogue.emergence_curve import EmergenceFit, emergence_share, fit_emergence

# Base, width and thermal time as crops have them.
LAWS = st.tuples(st.floats(-8, 8), st.floats(22, 28), st.floats(30, 400)).map(
    lambda law: EmergenceFit(law[0], law[2], law[0] + law[1])
)


def made(law: EmergenceFit) -> list[tuple[float, float]]:
    """Days by a law, unrounded, where it has any."""
    temps = (10.0, 15.0, 20.0, 25.0, 30.0, 35.0)
    return [(temp, 1 / emergence_share(law, temp)) for temp in temps if temp > law.base_c + 1]


@given(LAWS)
def test_a_law_is_found_again(law: EmergenceFit) -> None:
    """Days at every temperature within half a day or a tenth."""
    fit = fit_emergence(made(law))
    for temp, days in made(law):
        assert 1 / emergence_share(fit, temp) == pytest.approx(days, rel=0.1, abs=0.5)


@given(LAWS, st.floats(-10, 38), st.floats(-10, 38))
def test_warmer_is_never_slower(law: EmergenceFit, one: float, other: float) -> None:
    cool, warm = sorted((one, other))
    assert 0 <= emergence_share(law, cool) <= emergence_share(law, warm)


@given(LAWS)
def test_flat_above_the_optimum_none_below_the_base(law: EmergenceFit) -> None:
    top = (law.optimum_c - law.base_c) / law.thermal_time
    for temp in (law.optimum_c, law.optimum_c + 2):
        assert emergence_share(law, temp) == pytest.approx(top)
    for temp in (law.base_c, law.base_c - 5):
        assert emergence_share(law, temp) == 0


def test_a_straight_line_is_days_times_degrees() -> None:
    law = EmergenceFit(3.0, 100.0, 25.0, curve=1.0)
    assert [round(1 / emergence_share(law, temp), 6) for temp in (8, 13, 23, 28)] == [20, 10, 5, round(100 / 22, 6)]


def test_rows_slowed_by_heat_do_not_bend_the_fit() -> None:
    rows = [(10.0, 16.0), (15.0, 9.0), (20.0, 6.0), (25.0, 5.0)]
    assert fit_emergence([*rows, (35.0, 12.0)]) == fit_emergence(rows)


def test_the_order_of_rows_is_nothing() -> None:
    rows = [(10.0, 16.0), (15.0, 9.0), (20.0, 6.0), (25.0, 5.0)]
    fits = [fit_emergence(order) for order in (rows, rows[::-1])]
    assert [fits[0].base_c, fits[0].thermal_time] == pytest.approx([fits[1].base_c, fits[1].thermal_time])


@pytest.mark.parametrize("points", [[], [(10.0, 12.0)], [(10.0, 12.0), (10.0, 13.0)], [(10.0, 12.0), (15.0, 0.0)]])
def test_too_little_is_a_bug(points: list[tuple[float, float]]) -> None:
    with pytest.raises(ValueError, match="no requirement"):
        fit_emergence(points)
