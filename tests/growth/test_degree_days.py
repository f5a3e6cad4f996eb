"""What must hold for the day-degrees of any day."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sowsheet.growth.degree_days import (
    CutOff,
    Shape,
    base_then_mean,
    day_degrees,
    degree_days,
    effective_day,
    mean_then_base,
)

TEMPS = st.floats(-30, 50)
DAYS = st.tuples(TEMPS, TEMPS).map(lambda pair: (min(pair), max(pair)))
THRESHOLDS = st.tuples(st.floats(-5, 20), st.floats(0, 20)).map(lambda pair: (pair[0], pair[0] + pair[1]))
SHAPES = st.sampled_from(["sine", "triangle"])
CUT_OFFS = st.sampled_from(["horizontal", "intermediate", "vertical"])
LIGHT = st.floats(0, 45)
LIGHT_SHARE = 0.25
NEARLY = 1e-9

Day = tuple[float, float]


def integral(day: Day, lower: float, upper: float, cut_off: CutOff, shape: Shape) -> float:
    """The mean over many moments of the day's rising half."""
    moments, total = 4000, 0.0
    for n in range(moments):
        x = (n + 0.5) / moments
        height = (1 - math.cos(math.pi * x)) / 2 if shape == "sine" else x
        temp = day[0] + (day[1] - day[0]) * height
        over = max(0.0, temp - upper)
        worth = max(0.0, min(temp, upper) - lower)
        total += {"horizontal": worth, "intermediate": worth - over, "vertical": 0.0 if over else worth}[cut_off]
    return total / moments


@given(DAYS, THRESHOLDS, CUT_OFFS, SHAPES)
def test_every_method_is_the_mean_of_its_curve(day: Day, between: Day, cut_off: CutOff, shape: Shape) -> None:
    found = degree_days(*day, *between, cut_off, shape)
    # Half a step of the integral at the vertical edge, by the curve's flattest.
    edge = (between[1] - between[0]) * 0.02 if cut_off == "vertical" else 0.0
    assert found == pytest.approx(integral(day, *between, cut_off, shape), abs=0.01 + edge)


@given(DAYS, THRESHOLDS, SHAPES)
def test_cut_offs_are_in_order(day: Day, between: Day, shape: Shape) -> None:
    none = degree_days(*day, between[0], None, shape=shape)
    level, between_them, nothing = (
        degree_days(*day, *between, cut_off, shape) for cut_off in ("horizontal", "intermediate", "vertical")
    )
    assert none >= level - NEARLY and level >= between_them - NEARLY and level >= nothing - NEARLY
    assert -NEARLY <= level <= between[1] - between[0] + NEARLY
    assert nothing >= -NEARLY


@given(DAYS, THRESHOLDS, SHAPES)
def test_the_next_minimum_of_today_changes_nothing(day: Day, between: Day, shape: Shape) -> None:
    double = degree_days(*day, *between, "horizontal", shape, day[0])
    assert double == pytest.approx(degree_days(*day, *between, "horizontal", shape), abs=NEARLY)


@given(DAYS, st.floats(-5, 20))
def test_the_second_method_of_the_mean_never_counts_less(day: Day, base: float) -> None:
    first, second = mean_then_base(*day, base), base_then_mean(*day, base)
    assert second >= first - NEARLY
    if day[0] >= base:
        assert second == pytest.approx(first)
    assert base_then_mean(*day, base, base + 9) <= min(second, 9) + NEARLY


@given(DAYS, LIGHT, st.floats(0, 5), st.floats(0, 5), st.floats(0, 10))
def test_an_effective_day_grows_with_warmth_and_light(
    day: Day, light: float, warmer: float, wider: float, brighter: float
) -> None:
    now = effective_day(*day, light, 4, 22, LIGHT_SHARE)
    assert effective_day(day[0] + warmer, day[1] + warmer + wider, light, 4, 22, LIGHT_SHARE) >= now - NEARLY
    assert effective_day(*day, light + brighter, 4, 22, LIGHT_SHARE) >= now - NEARLY


@given(DAYS, LIGHT)
def test_an_effective_day_is_held_by_what_is_scarcer(day: Day, light: float) -> None:
    warmth = day_degrees(*day, 4, 22)
    found = effective_day(*day, light, 4, 22, LIGHT_SHARE)
    assert 0 <= found <= min(warmth, light / LIGHT_SHARE) + NEARLY
    if warmth > 0.001 and light > 0.001:
        assert 1 / found == pytest.approx(1 / warmth + LIGHT_SHARE / light)


def test_no_warmth_or_no_light_is_no_day() -> None:
    assert effective_day(-5, 3, 20, 4, 22, LIGHT_SHARE) == 0
    assert effective_day(10, 20, 0, 4, 22, LIGHT_SHARE) == 0


@given(st.floats(22, 45), st.floats(0, 20))
def test_above_the_cap_it_is_flat(low: float, width: float) -> None:
    assert day_degrees(low, low + width, 4, 22) == pytest.approx(18)


@pytest.mark.parametrize("shape", ["sine", "triangle"])
def test_a_minimum_above_its_maximum_is_a_bug(shape: Shape) -> None:
    with pytest.raises(ValueError, match="above maximum"):
        degree_days(12, 11, 5, 30, "horizontal", shape)
