"""Requirements of emergence fitted to published days: how near they come, to rows fitted and to rows left out.

Harrington, J. F. and Minges, P. A. (1954) Vegetable Seed Germination, California Agricultural Extension (days read as
reprinted in a university's teaching manual, percent in a second copy; `data/emergence_trials.csv`). Held out: each
printed temperature in turn. The rows outside are listed with what makes them so, and the lists are held to be true.

Ministerium fuer Laendlichen Raum Baden-Wuerttemberg, Gaertnern macht Schule, p. 43, table 5 (after Wagenvoort and
Bierhuizen 1974 and others; `data/emergence_thermal_time.csv`). Held out: the author.
"""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Callable

import pytest

from sowsheet.catalogue.emergence_curve import (
    CURVE,
    EmergenceFit,
    bent_share,
    bent_through,
    emergence_share,
    fit_emergence,
)
from sowsheet.catalogue.records import Germination
from sowsheet.growth.emergence import rate_per_day
from tests.published.held_out import kinds_of
from tests.published.tables import rows

Cell = tuple[str, float]
TRIALS = rows("emergence_trials.csv")

SLOWED = "slowed by heat: past the optimum, which the form does not follow"
LEAPS = "days leap or stand still between neighbours, no smooth curve goes there"
FEW = "fewer than half came up here or next to it"
AT_THE_END = "beyond the rows left: the foot or the top of the curve is not to be seen in them"

OUTSIDE_WHEN_FITTED: dict[Cell, str] = {
    ("asparagus", 35): SLOWED,
    ("asparagus", 40): SLOWED,
    ("carrot", 35): SLOWED,
    ("onion", 35): SLOWED,
    ("parsnip", 30): SLOWED,
    ("tomato", 35): SLOWED,
    ("turnip", 40): SLOWED,
    ("lima bean", 20): LEAPS,  # 18 days, and 7 from 25 C on
    ("lima bean", 25): LEAPS,
    ("okra", 25): LEAPS,  # 13 days, and 7 at 30 C
    ("pea", 20): LEAPS,  # 9, 8 and 6 days at 15, 20 and 25 C
    ("celery", 10): FEW,  # 40 % at 15 C, with 12 days between 16 and 7
}
OUTSIDE_WHEN_LEFT_OUT: dict[Cell, str] = {
    **OUTSIDE_WHEN_FITTED,
    ("celery", 15): FEW,
    ("carrot", 5): FEW,
    ("sweet corn", 10): FEW,
    ("watermelon", 25): LEAPS,  # 12 days at 20 C, 5 here
    ("okra", 35): LEAPS,
    ("okra", 15): AT_THE_END,
    ("lima bean", 15): AT_THE_END,
    ("lima bean", 30): AT_THE_END,
    ("French bean", 15): AT_THE_END,
    ("cabbage", 30): AT_THE_END,
    ("sweet corn", 35): AT_THE_END,
    ("pea", 5): AT_THE_END,
    ("tomato", 10): AT_THE_END,
    ("turnip", 10): AT_THE_END,
}
# Onion and celery: 12 days at 20 C in soil there, 5 and 7 here.
SLOWER_THERE = {"onion", "celery"}


def points() -> dict[str, list[tuple[float, float]]]:
    """Temperature and days of every row with a day, by crop."""
    found = defaultdict(list)
    for row in TRIALS:
        if row["days"] not in ("", "none"):
            found[row["crop"]].append((float(row["temp_c"]), float(row["days"])))
    return dict(found)


POINTS = points()
CELLS = [(crop, *point) for crop, printed in POINTS.items() for point in printed]
LEFT_OUT = [cell for cell in CELLS if len(POINTS[cell[0]]) > 3]


def days(fit: EmergenceFit, temp_c: float) -> float:
    share = emergence_share(fit, temp_c)
    return 1 / share if share else math.inf


def near(found: float, printed: float, share: float) -> bool:
    return abs(found - printed) <= max(1.0, share * printed)


def fitted(crop: str, without_c: float | None = None, curve: float = CURVE) -> EmergenceFit:
    used = [(temp, days) for temp, days in POINTS[crop] if temp != without_c]
    return fit_emergence(used, curve)


def outside_when_fitted(curve: float = CURVE) -> set[Cell]:
    return {(c, t) for c, t, printed in CELLS if not near(days(fitted(c, curve=curve), t), printed, 0.15)}


def outside_when_left_out(curve: float = CURVE) -> set[Cell]:
    return {(c, t) for c, t, printed in LEFT_OUT if not near(days(fitted(c, t, curve), t), printed, 0.2)}


def test_fitted_to_all_rows_within_a_day_or_15_percent() -> None:
    """Outside are just the rows listed."""
    assert outside_when_fitted() == set(OUTSIDE_WHEN_FITTED)
    assert len(CELLS) == 135


def test_a_row_left_out_is_predicted_within_a_day_or_20_percent() -> None:
    """Outside are just the rows listed: one in five, and of the rows between others one in eleven."""
    assert outside_when_left_out() == set(OUTSIDE_WHEN_LEFT_OUT)
    assert len(LEFT_OUT) == 129


def test_half_of_the_rows_left_out_are_missed_by_about_a_tenth_at_most() -> None:
    misses = sorted(abs(math.log(days(fitted(crop, temp), temp) / printed)) for crop, temp, printed in LEFT_OUT)
    assert misses[len(misses) // 2] < 0.11


def bent(points: list[tuple[float, float]], temp_c: float) -> float:
    """Days by what the schedule reckons with: the curve through all points but one."""
    return 1 / bent_share(bent_through(points), temp_c)


def straight(points: list[tuple[float, float]], temp_c: float) -> float:
    """Days by straight lines between the rates of neighbours, drawn on beyond the ends."""
    after = next((n for n, (temp, _) in enumerate(points) if temp > temp_c), len(points) - 1)
    (t0, d0), (t1, d1) = points[max(after, 1) - 1], points[max(after, 1)]
    return 1 / max(0.005, 1 / d0 + (1 / d1 - 1 / d0) * (temp_c - t0) / (t1 - t0))


def missed(by: Callable[[list[tuple[float, float]], float], float], *where: str) -> float:
    """The root mean square of the relative error of rows left out: a crop's coldest, its warmest, those between."""
    errors = []
    for crop, temp_c, printed in LEFT_OUT:
        rest = [point for point in POINTS[crop] if point[0] != temp_c]
        place = "coldest" if temp_c < rest[0][0] else "warmest" if temp_c > rest[-1][0] else "between"
        if place in where:
            errors.append(by(rest, temp_c) / printed - 1)
    return math.sqrt(sum(e * e for e in errors) / len(errors))


def test_the_bent_curve_meets_every_row() -> None:
    for crop, temp_c, printed in CELLS:
        assert bent(POINTS[crop], temp_c) == pytest.approx(printed), crop


def test_the_bent_curve_on_rows_left_out() -> None:
    """16 % between the others and 18 with the coldest too, which is the aim; 21 with those slowed by heat."""
    assert missed(bent, "between") <= 0.17
    assert missed(bent, "between", "coldest") <= 0.18
    assert missed(bent, "between", "coldest", "warmest") <= 0.21
    for where in ("between", "coldest", "warmest"):
        assert missed(bent, where) < missed(straight, where)


def test_the_square_does_better_than_the_straight_line() -> None:
    assert len(outside_when_fitted(curve=1.0)) >= len(OUTSIDE_WHEN_FITTED) + 4
    assert len(outside_when_left_out(curve=1.0)) >= len(OUTSIDE_WHEN_LEFT_OUT) + 10


def in_the_catalogue(crop: str) -> Germination | None:
    """The catalogue's seed, with its limits; None for what it does not have."""
    kind = next(iter(kinds_of(crop)), None)
    return None if kind is None else kind.germination


def too_warm() -> list[Cell]:
    """Rows of the catalogue's crops, warmer than the best one, in which none came up, or fewer than a third, whatever
    the column of days says."""
    best = {crop: min(printed, key=lambda point: point[1])[0] for crop, printed in POINTS.items()}
    cells = []
    for row in TRIALS:
        crop, temp_c = row["crop"], float(row["temp_c"])
        few = row["percent"] != "" and float(row["percent"]) < 33
        if kinds_of(crop) and temp_c > best[crop] and ((row["days"] == "none" and row["percent"] in ("", "0")) or few):
            cells.append((crop, temp_c))
    return cells


@pytest.mark.parametrize(("crop", "temp_c"), too_warm(), ids=lambda v: v if isinstance(v, str) else f"{v:g} C")
def test_none_come_up_above_the_ceiling(crop: str, temp_c: float) -> None:
    """The catalogue's ceilings shut out every row that was too warm. Held out for most: those of celery, spinach,
    French bean and sweet corn were set with these rows in view."""
    seed = in_the_catalogue(crop)
    assert seed is not None
    assert rate_per_day(seed, temp_c) == 0


def test_the_rows_too_warm_are_those_of_the_table() -> None:
    assert {("celery", 30.0), ("lettuce", 30.0), ("lettuce", 35.0), ("spinach", 30.0), ("spinach", 35.0)} <= set(
        too_warm()
    )


def test_none_come_up_below_the_floor() -> None:
    """The catalogue's floors against the cold rows in which none came up in countable days."""
    asked = set()
    for row in TRIALS:
        cell = row["crop"], float(row["temp_c"])
        seed = in_the_catalogue(row["crop"])
        if row["days"] == "none" and cell[1] < POINTS[row["crop"]][0][0] and seed is not None:
            assert rate_per_day(seed, cell[1]) == 0, cell
            asked.add(cell)
    assert len(asked) >= 12


def test_emergence_by_a_second_author() -> None:
    """Within a factor of two at 10, 15 and 20 C, from its base and thermal time: soil against paper, other lots."""
    asked = 0
    for row in rows("emergence_thermal_time.csv"):
        crop, base, best = row["crop"], float(row["base_c"]), float(row["optimum_c"])
        if crop not in POINTS or crop in SLOWER_THERE:
            continue
        for temp_c in (10.0, 15.0, 20.0):
            if base + 5 <= temp_c <= best and temp_c >= POINTS[crop][0][0]:
                wanted = float(row["thermal_time_c_days"]) / (temp_c - base)
                assert wanted / 2 <= days(fitted(crop), temp_c) <= wanted * 2, (crop, temp_c)
                asked += 1
    assert asked >= 18
