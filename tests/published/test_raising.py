"""Weeks from sowing to planting against the weeks that other authors print.

Sources, each held out where the entry names it: Utah State University Extension (undated) Transplant Production;
Ernest, E. (undated) Times and Temperatures for Vegetable Transplant Production, University of Delaware; Purdue
Extension (undated) Planning for Successful Vegetable Transplant Production; Kelly, M. (undated) Seed sowing, GIY
Ireland; Relf, D. and McDaniel, A. (undated) Virginia Cooperative Extension 426-411.
"""

from __future__ import annotations

from collections import Counter

from sowsheet.catalogue.records import Kind
from sowsheet.growth.emergence import days_at
from tests.published.held_out import held_out

SHELF_C = 20.0
# What differs, and why.
EXPLAINED = {
    "onion from seed": "clumps go out small; the American weeks raise single plants as thick as a pencil",
    "tomato": "grown on without heat until the first truss shows; theirs stand in heated houses",
    "bush tomato": "as the tomato",
    "pepper": "as the tomato",
    "overwintered onion": "raised in late summer's warmth, and to be small by winter; theirs are for spring",
}


def weeks(kind: Kind) -> tuple[float, float]:
    """From sowing on a warm shelf to the least and the longest up to planting."""
    assert kind.tray is not None
    assert kind.germination is not None
    up = days_at(kind.germination, SHELF_C) or kind.germination.days_up[-1][1]
    growing = kind.tray.up_to_planting_days
    return (up + growing.low) / 7, (up + growing.high) / 7


def test_weeks_in_the_tray_overlap_with_those_of_most_other_authors() -> None:
    agree, differ = Counter[str](), Counter[str]()
    for kind, row in held_out("transplant_weeks.csv", "tray.up to planting"):
        if kind.tray is not None:
            low, high = weeks(kind)
            meets = low <= float(row["weeks_high"]) and high >= float(row["weeks_low"])
            (agree if meets else differ)[kind.name] += 1
    assert agree.total() + differ.total() >= 50
    outvoted = {name for name, count in differ.items() if count > agree[name] and count + agree[name] >= 2}
    assert outvoted == set(EXPLAINED), {name: (agree[name], differ[name]) for name in outvoted ^ set(EXPLAINED)}
    assert agree.total() >= 2 * differ.total()
