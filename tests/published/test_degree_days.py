"""Day-degrees of single days against published and computed ones. All rows are held out: the code has formulas only.

Zalom, F. G. and others (1983) Degree-days: the calculation and use of heat units in pest management, University of
California, table 7 (read as carried in an R package's tests); one printed value that no integral gives is left out.
McMaster, G. S. & Wilhelm, W. W. (1997) Agricultural and Forest Meteorology 87, 291-300, table 1 (same).
Oregon State and Iowa State University, worked examples; TrenchR (MIT), its tests. `numerical integral`: the mean of the
clipped curve at 200 000 points of a day.
A year of days: UC IPM's own output for Ojai, 2016, 12 and 33 C, four methods (carried in TrenchR).
"""

from __future__ import annotations

import math
from itertools import pairwise
from typing import cast

import pytest

from sowsheet.growth.degree_days import CutOff, Shape, base_then_mean, day_degrees, degree_days, mean_then_base
from tests.published.tables import rows

Row = dict[str, str]
EXAMPLES = rows("degree_days.csv")
OJAI = rows("degree_days_ojai.csv")


def found(row: Row) -> float:
    low, high, lower = float(row["low"]), float(row["high"]), float(row["lower"])
    upper = float(row["upper"]) if row["upper"] else None
    match row["method"].split("_"):
        case ["simple", "average", "method1"]:
            return mean_then_base(low, high, lower)
        case ["simple", "average", "method2", *_]:
            return base_then_mean(low, high, lower, math.inf if upper is None else upper)
        case ["single", shape, *cut_off]:
            kept = "horizontal" if cut_off == ["no", "upper"] else cut_off[0]
            return degree_days(low, high, lower, upper, cast("CutOff", kept), cast("Shape", shape))
        case ["double", shape, "horizontal"]:
            return degree_days(low, high, lower, upper, "horizontal", cast("Shape", shape), float(row["next_low"]))
    raise ValueError(row["method"])


@pytest.mark.parametrize("row", EXAMPLES, ids=[f"{n}-{r['method']}" for n, r in enumerate(EXAMPLES, 1)])
def test_a_day(row: Row) -> None:
    """Within 0.01 of what is printed."""
    assert found(row) == pytest.approx(float(row["degree_days"]), abs=0.01)


def test_all_methods_are_asked() -> None:
    assert len(EXAMPLES) == 149
    assert {row["method"] for row in EXAMPLES} >= {
        "simple_average_method1",
        "simple_average_method2",
        "double_sine_horizontal",
        "double_triangle_horizontal",
        "single_sine_vertical",
        "single_sine_intermediate",
    }


@pytest.mark.parametrize("shape", ["sine", "triangle"])
def test_a_year_of_single_curves(shape: Shape) -> None:
    """366 days within 0.01."""
    assert len(OJAI) == 366
    for row in OJAI:
        days = degree_days(float(row["tmin_c"]), float(row["tmax_c"]), 12, 33, "horizontal", shape)
        assert days == pytest.approx(float(row[f"single_{shape}"]), abs=0.01), row


@pytest.mark.parametrize("shape", ["sine", "triangle"])
def test_a_year_of_double_curves(shape: Shape) -> None:
    """365 days within 0.01, each with the next day's minimum; the last has none."""
    for row, tomorrow in pairwise(OJAI):
        low, high, next_low = float(row["tmin_c"]), float(row["tmax_c"]), float(tomorrow["tmin_c"])
        days = degree_days(low, high, 12, 33, "horizontal", shape, next_low)
        assert days == pytest.approx(float(row[f"double_{shape}"]), abs=0.01), row


def test_the_clock_counts_as_the_published_method_does() -> None:
    """`day_degrees`, which the growth clock rests on, is the single sine with a horizontal cut-off."""
    for row in OJAI:
        days = day_degrees(float(row["tmin_c"]), float(row["tmax_c"]), 12, 33)
        assert days == pytest.approx(float(row["single_sine"]), abs=0.01), row
