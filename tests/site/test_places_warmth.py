"""Hotbeds that fade, houses that are aired, and the grower's own readings."""

from __future__ import annotations

from datetime import date, timedelta

import msgspec
import pytest

from sowsheet.garden.records import Monthly, Place, Room
from sowsheet.schedule.cold import trays_accepted, trays_risk
from sowsheet.schedule.plan import context_of
from sowsheet.site.air import outdoor_air, place_air
from sowsheet.site.daily import day_number
from sowsheet.site.hotbed import LASTS_DAYS, bed_c, cold_from
from tests.made import NORTH, catalogue, garden
from tests.test_slip import WARM_AND_COLD

MADE = date(2027, 2, 10)
HOTBED = Place("hotbed", ("growing on",), Room(), under="cold frame", made=(2, 10))
BENCH = Place("bench", ("growing on",), Room(), under="unheated glass")
YARD = Place("yard", ("hardening off",), Room(), under="outdoors")


def _risk(place: Place, start: date, end: date) -> float:
    ctx = context_of(garden("tomatoes", mistakes=[], site=NORTH), catalogue().crop)
    kind = next(k for k in catalogue().crop("tomato").kinds if k.key == "cordon")
    assert kind.cold.soft_c is not None
    risk = trays_risk(ctx, kind, place, kind.cold.soft_c, start, end)
    assert risk is not None
    return risk


def test_a_hotbed_fades_to_20_c_in_eight_weeks() -> None:
    """24 to 29 C when it is sown, about 20 C after eight weeks: extension leaflets (reference of protected beds)."""
    assert 24 <= (bed_c(HOTBED, MADE) or 0) <= 29
    last = bed_c(HOTBED, MADE + timedelta(days=LASTS_DAYS - 1))
    assert last == pytest.approx(20, abs=0.5)
    assert bed_c(HOTBED, MADE + timedelta(days=LASTS_DAYS)) is None
    assert bed_c(HOTBED, MADE - timedelta(days=1)) is None
    assert cold_from(HOTBED, MADE + timedelta(days=3)) == MADE + timedelta(days=LASTS_DAYS)


def test_it_keeps_frost_out_while_it_is_warm_and_not_after() -> None:
    warm, over = MADE + timedelta(days=20), MADE + timedelta(days=LASTS_DAYS)
    assert _risk(HOTBED, MADE, warm) == 0
    assert _risk(HOTBED, over, over + timedelta(days=20)) == _risk(BENCH, over, over + timedelta(days=20)) > 0.5
    assert _risk(BENCH, MADE, warm) > 0.9


def test_its_air_is_warmer_than_a_cold_frame_and_then_the_same() -> None:
    assert WARM_AND_COLD.monthly is not None
    outside = outdoor_air(52.4, WARM_AND_COLD.monthly)
    frame = place_air(outside, msgspec.structs.replace(HOTBED, made=None))
    bed = place_air(outside, HOTBED)
    assert bed.min_c[day_number(date(2027, 3, 1))] > frame.min_c[day_number(date(2027, 3, 1))] + 5
    assert bed.min_c[day_number(date(2027, 5, 1))] == frame.min_c[day_number(date(2027, 5, 1))]


def test_a_well_aired_house_is_cooler_by_day() -> None:
    assert WARM_AND_COLD.monthly is not None
    outside = outdoor_air(52.4, WARM_AND_COLD.monthly)
    day = day_number(date(2027, 4, 15))
    aired = place_air(outside, msgspec.structs.replace(BENCH, aired=True))
    closed = place_air(outside, BENCH)
    assert outside.max_c[day] < aired.max_c[day] < closed.max_c[day] - 2
    assert aired.min_c == closed.min_c


def test_readings_on_cold_nights_lessen_the_risk() -> None:
    start, end = date(2027, 4, 20), date(2027, 5, 20)
    risks = [_risk(msgspec.structs.replace(BENCH, warmer_nights_c=c), start, end) for c in (0.0, 2.0, 4.0)]
    assert risks[0] > risks[1] > risks[2]


def test_monthly_readings_take_the_place_of_the_reckoned_air() -> None:
    assert WARM_AND_COLD.monthly is not None
    outside = outdoor_air(52.4, WARM_AND_COLD.monthly)
    read = msgspec.structs.replace(BENCH, monthly=Monthly((11.0,) * 12, (19.0,) * 12))
    air = place_air(outside, read)
    assert air.min_c == pytest.approx((11.0,) * 365)
    assert air.max_c == pytest.approx((19.0,) * 365)
    assert air.light_mj[180] < outside.light_mj[180]


def test_hardy_trays_under_glass_are_left_to_an_even_chance_tender_ones_are_not() -> None:
    ctx = context_of(garden("tomatoes", mistakes=[], site=NORTH), catalogue().crop)
    tender, hardy = (catalogue().crop(crop).kinds[0] for crop in ("tomato", "lettuce"))
    risk = ctx.garden.house.risk
    assert trays_accepted(ctx, tender, BENCH, "growing on") == trays_accepted(ctx, hardy, YARD, "growing on") == risk
    assert trays_accepted(ctx, hardy, BENCH, "growing on") == trays_accepted(ctx, tender, YARD, "hardening off") == 0.5
