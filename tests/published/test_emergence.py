"""Days to emerge against published days: at temperatures and by authors that the entry was not taken from.

Harrington, J. F. and Minges, P. A. (1954) Vegetable Seed Germination, California Agricultural Extension (read as
reprinted). Held out: each printed temperature in turn, the entry being used without it.

Ministerium fuer Laendlichen Raum Baden-Wuerttemberg, Gaertnern macht Schule, p. 43, table 5 (after Wagenvoort and
Bierhuizen 1974 and others): base and thermal time. Held out: the author; entries that name this table are left out.
"""

from __future__ import annotations

import msgspec
import pytest

from sowsheet.catalogue.records import Germination, Kind
from sowsheet.growth.emergence import days_at
from tests.made import catalogue
from tests.published.held_out import held_out, kinds_of
from tests.published.tables import rows

TAKEN = "germinates.days up"
# Onion: 12 days at 20 C in soil there, 5 on Harrington's; growers of modules on a shelf see 5 to 7. Celery: 15 and 7,
# and six weeks at 10 C there, which no shelf is.
SLOWER_IN_SOIL = {"onion", "celery", "celeriac"}


def printed() -> dict[tuple[str, float], float]:
    table = rows("emergence_harrington.csv")
    return {(row["crop"], float(row["temp_c"])): float(row["days"]) for row in table}


def interior() -> list[tuple[Kind, float]]:
    """Each temperature of an entry after Harrington that has neighbours on both sides."""
    found = []
    for crop in catalogue().crops.values():
        kind = next((k for k in crop.kinds if "harrington-1954" in k.sources.get(TAKEN, ())), None)
        if kind is not None and kind.germination is not None:
            found += [(kind, temp) for temp, _ in kind.germination.days_up[1:-1]]
    return found


def without(germination: Germination, temp_c: float) -> Germination:
    points = tuple((t, d) for t, d in germination.days_up if t != temp_c)
    return msgspec.structs.replace(germination, days_up=points)


@pytest.mark.parametrize(("kind", "temp_c"), interior(), ids=lambda v: v.crop if isinstance(v, Kind) else f"{v:g} C")
def test_a_temperature_left_out_of_the_entry_is_found_again(kind: Kind, temp_c: float) -> None:
    wanted = printed().get((kind.crop, temp_c))
    if wanted is None:  # the entry stands in for a relative of the crop that was sown
        wanted = dict(kind.germination.days_up)[temp_c] if kind.germination else 0.0
    assert kind.germination is not None
    found = days_at(without(kind.germination, temp_c), temp_c)
    assert found is not None
    assert found == pytest.approx(wanted, rel=0.35, abs=1.0)


def test_enough_is_held_out() -> None:
    assert len(interior()) >= 40


def test_entries_agree_with_harringtons_table_where_they_name_it() -> None:
    """No check of the number, only of the copying: what names the table stands in it, for the crop or a relative."""
    table = printed()
    for kind, temp_c in interior():
        if (kind.crop, temp_c) in table and kind.germination is not None:
            assert dict(kind.germination.days_up)[temp_c] == pytest.approx(table[kind.crop, temp_c], abs=0.6), kind.name


def test_emergence_by_a_second_author() -> None:
    """Within a factor of two at 10, 15 and 20 C: soil against paper, other seed lots, other ends of emergence."""
    asked = 0
    for kind, row in held_out("emergence_thermal_time.csv", TAKEN):
        if kind is not kinds_of(kind.crop)[0] or kind.germination is None or kind.crop in SLOWER_IN_SOIL:
            continue
        base, best = float(row["base_c"]), float(row["optimum_c"])
        for temp_c in (10.0, 15.0, 20.0):
            if base + 5 <= temp_c <= best:
                days, wanted = days_at(kind.germination, temp_c), float(row["thermal_time_c_days"]) / (temp_c - base)
                assert days is not None
                assert wanted / 2 <= days <= wanted * 2, (
                    f"{kind.name} at {temp_c:g} C: {days:.1f}, printed {wanted:.1f}"
                )
                asked += 1
    assert asked >= 20
