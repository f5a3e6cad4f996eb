"""Running totals: look-ups against going through every day."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sowsheet.growth.sums import cumulated, day_reaching

# Tenths, many of them 0: a winter in which nothing grows.
VALUES = st.lists(st.one_of(st.just(0.0), st.integers(0, 200).map(lambda n: n / 10)), min_size=1, max_size=60)
REQUIREMENTS = st.integers(0, 3000).map(lambda n: n / 10)


def by_hand(values: list[float], start: int, requirement: float) -> int | None:
    """Day by day, in exact sums."""
    for end in range(start, len(values) + 1):
        if math.fsum(values[start:end]) >= requirement - 1e-6:
            return end
    return None


@given(VALUES, REQUIREMENTS, st.data())
def test_forward_is_what_adding_day_by_day_gives(values: list[float], requirement: float, data: st.DataObject) -> None:
    start = data.draw(st.integers(0, len(values)))
    assert day_reaching(cumulated(values), start, requirement) == by_hand(values, start, requirement)


@given(VALUES, REQUIREMENTS)
def test_forward_never_goes_down(values: list[float], requirement: float) -> None:
    totals = cumulated(values)
    ends = [day_reaching(totals, start, requirement) for start in range(len(totals))]
    known = [math.inf if end is None else end for end in ends]
    assert known == sorted(known)
    assert all(end >= start for start, end in enumerate(known))


def test_many_starts_share_a_ready_day() -> None:
    """A week without growth: whatever starts in it is ready together."""
    totals = cumulated([2.0, 0.0, 0.0, 0.0, 3.0, 4.0])
    assert [day_reaching(totals, start, 3.0) for start in range(6)] == [5, 5, 5, 5, 5, 6]


def test_no_requirement_is_filled_at_once() -> None:
    totals = cumulated([0.0, 0.0, 1.0])
    assert [day_reaching(totals, start, 0.0) for start in range(4)] == [0, 1, 2, 3]


@pytest.mark.parametrize("value", [-0.1, math.nan])
def test_a_day_takes_nothing_away(value: float) -> None:
    with pytest.raises(ValueError, match="0 or more"):
        cumulated([1.0, value])


@pytest.mark.parametrize("day", [-1, 3])
def test_outside_the_sequence_is_a_bug(day: int) -> None:
    with pytest.raises(IndexError, match="outside the 3 totals"):
        day_reaching(cumulated([1.0, 1.0]), day, 1.0)
