"""Facts of the trade that a plan must agree with: common practice, no source. Nothing is taken from them."""

from __future__ import annotations

from datetime import date

import msgspec
import pytest

from sowsheet.beds.compost import bed_litres
from sowsheet.catalogue.records import Kind
from sowsheet.garden.records import Bed
from sowsheet.growth.emergence import days_at
from sowsheet.growth.when import When
from tests.made import NOWHERE, catalogue, sound


def kind(crop: str, key: str = "") -> Kind:
    """A crop's kind; without a key the one that the bare name means."""
    found = catalogue().crop(crop)
    return next(k for k in found.kinds if k.key == key or (not key and k.key == found.unnamed))


def day(when: When | None) -> date:
    assert when is not None
    return when.day


def test_radish_in_the_warm_is_up_and_wants_light_within_three_to_five_days() -> None:
    radish = kind("radish")
    assert radish.germination
    for temp_c in (18.0, 20.0, 24.0):
        days = days_at(radish.germination, temp_c)
        assert days is not None
        assert 3 <= round(days) <= 5
    (batch,) = sound("radish mid-March under fleece")
    sown, light = day(batch.stages.sow), day(batch.stages.to_light)
    assert 3 <= (light - sown).days <= 5


def test_onion_clumps_are_of_three_to_five() -> None:
    onion = kind("onion", "from seed")
    assert onion.tray
    assert 3 <= onion.tray.plants_per_cell.low <= onion.tray.plants_per_cell.high <= 5
    assert onion.seed
    assert 3 <= onion.tray.seeds_per_cell * onion.seed.comes_up <= 5


@pytest.mark.parametrize("crop", ["winter squash", "courgette"])
def test_squash_and_courgette_stand_about_a_metre_apart(crop: str) -> None:
    space = kind(crop).space
    assert 80 <= space.in_row_cm.usual <= 120
    assert sound(f"{crop} early June")[0].amount.places == pytest.approx(6, abs=1)  # a bed of 6 m x 1.2 m


def test_garlic_set_in_october_is_lifted_in_july() -> None:
    (garlic,) = sound("garlic since October")
    assert day(garlic.stages.plant).month == 10
    for edge in ("low", "day", "high"):
        first = garlic.stages.first_pick
        assert first is not None
        assert getattr(first, edge).month in ((6, 7) if edge == "low" else (7,))


def test_lettuce_for_winter_picking_under_cover() -> None:
    (lettuce,) = sound("winter lettuce early October to May", under="unheated glass")
    stages = lettuce.stages
    assert (day(stages.sow).month, day(stages.plant).month) in ((8, 10), (9, 10))
    assert day(stages.sow) >= date(2027, 8, 28)
    assert date(2027, 11, 15) <= day(stages.first_pick) <= date(2027, 12, 10)
    (left,) = sound("winter lettuce early October", under="unheated glass")
    assert day(left.stages.clear).month == 5


def test_young_broad_beans_stand_seven_degrees_of_frost() -> None:
    bean = kind("broad bean", "autumn")
    assert bean.cold.hardened_c is not None
    assert bean.cold.hardened_c <= -7
    assert bean.cold.in_bed_c <= -7
    (batch,) = sound("broad beans mid-January under fleece")
    assert batch.kind.key == "autumn"


@pytest.mark.parametrize("crop", ["lettuce", "spinach", "peas", "onions from seed", "calabrese", "radish", "beetroot"])
def test_hardy_crops_left_undated_are_sown_from_mid_february_on(crop: str) -> None:
    (batch,) = sound(crop)
    assert date(2027, 2, 9) <= day(batch.stages.sow) <= date(2027, 5, 1)


def test_twenty_five_millimetres_on_forty_square_metres_is_a_cubic_metre() -> None:
    bed = Bed("long", 4000.0, 100.0, None, NOWHERE)
    assert bed_litres(bed, 25.0) == pytest.approx(1000.0)
    assert bed_litres(msgspec.structs.replace(bed, compost_mm=100.0), 25.0) == pytest.approx(4000.0)


def test_a_bed_of_six_metres_at_thirty_centimetres() -> None:
    (onion,) = sound("onions from seed late March")
    a = onion.amount
    assert (a.rows, a.per_row, a.places, int(a.spare), a.cells) == (4, 20, 80, 8, 88)
    assert (a.trays, a.tray_cells, a.left) == (2, 60, 32)
