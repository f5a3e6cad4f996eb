"""The growth clock and what it rests on: later starts are never ready sooner, and this season's readings count."""

from __future__ import annotations

import re
from datetime import date, timedelta
from functools import cache
from itertools import pairwise

import msgspec
import pytest

from sowsheet.catalogue.records import AnchoredRange, Kind, Raised, Range
from sowsheet.garden.records import GLASS, Monthly, Place, Room, Where
from sowsheet.growth.degree_days import effective_day
from sowsheet.growth.handbook import Handbook
from sowsheet.growth.needs import (
    COOL_BASE_C,
    COOL_CAP_C,
    LIGHT_SHARE,
    LIVED_AT_C,
    REFERENCE_LATITUDE,
    REFERENCE_MONTHLY,
    WARM_BASE_C,
    WARM_CAP_C,
    Needs,
    growing_range,
    is_warm,
)
from sowsheet.growth.warmth import Warmth
from sowsheet.growth.when import When
from sowsheet.site.air import Air, air_in, with_light
from sowsheet.site.climate import climate_of
from sowsheet.site.daily import day_number
from sowsheet.site.weather import Reading
from sowsheet.words.language import language_of
from tests.made import NORTH, catalogue, garden

ENGLISH = language_of("en")
MONTHS = ENGLISH.months
START = date(2027, 1, 1)
BENCH = Place("bench", ("growing on",), Room(), under=GLASS)
READ = msgspec.structs.replace(BENCH, name="read bench", monthly=REFERENCE_MONTHLY)
HOTBED = Place("hotbed", ("growing on",), Room(), under="cold frame", made=(3, 1))
HEATED = Place("heated bench", ("growing on",), Room(), held_at_c=15.0, under=GLASS)
SUBARCTIC = Monthly(
    (-3.0, -3.0, -2.0, 0.0, 3.0, 6.0, 8.0, 7.0, 5.0, 2.0, -1.0, -3.0),
    (2.0, 2.0, 3.0, 5.0, 9.0, 11.0, 13.0, 13.0, 10.0, 6.0, 3.0, 2.0),
)
KINDS = tuple(kind for crop in catalogue().crops.values() for kind in crop.kinds)
RAISED: tuple[Raised, ...] = ("tray", "drill", "set")
# Long enough for two winters; a step that no week or month hides.
STARTS = tuple(START + timedelta(days=n) for n in range(-60, 700, 3))


def kind(crop: str, key: str = "") -> Kind:
    return next(k for k in catalogue().crops[crop].kinds if k.key == key)


LETTUCE = kind("lettuce", "headed")
LEAF = kind("lettuce", "leaf")
TOMATO = kind("tomato", "cordon")
COURGETTE = kind("courgette", "")
GARLIC = kind("garlic", "autumn")


def clock(*read: Reading, monthly: Monthly = REFERENCE_MONTHLY) -> Warmth:
    """The clock of a made garden with the reference garden's temperatures."""
    site = msgspec.structs.replace(NORTH, latitude=REFERENCE_LATITUDE, monthly=monthly)
    climate = climate_of(garden("leeks", mistakes=[], site=site))
    return Warmth(Handbook(msgspec.structs.replace(climate, measured=read), ENGLISH), START)


USUAL = clock()
OUTSIDE = USUAL.handbook.climate.air_in("")


def cold_readings(first: date, last: date, colder_c: float = 5.0) -> list[Reading]:
    """Each day as the usual year has it, but colder."""
    found = []
    for n in range((last - first).days + 1):
        day = first + timedelta(days=n)
        low, high, _ = OUTSIDE.day(day_number(day))
        found.append(Reading(day, low - colder_c, high - colder_c))
    return found


LAST_READ = date(2027, 4, 30)


@cache
def cold_spring() -> Warmth:
    """5 C colder from New Year to the end of April."""
    return clock(*cold_readings(START, LAST_READ))


def known(found: When | None) -> When:
    assert found is not None
    return found


def each_day(asked: Warmth, where: Where, of: Kind) -> list[float]:
    """The effective day-degrees that were summed, day by day."""
    base, cap = growing_range(of)
    sums = asked._sums[where, base, cap]
    return [b - a for a, b in pairwise(sums)]


def place_in(asked: Warmth, day: date) -> int:
    return (day - asked._first).days


def never_down(found: list[When | None]) -> bool:
    ends = [one for one in found if one is not None]
    ordered = all(
        a.day <= b.day and (a.basis != "growth" or b.basis != "growth" or (a.low <= b.low and a.high <= b.high))
        for a, b in pairwise(ends)
    )
    return ordered and all(one.low <= one.day <= one.high for one in ends)


# --- the clock


@pytest.mark.parametrize("where", ["", GLASS], ids=["open", "glass"])
@pytest.mark.parametrize("raised", RAISED)
def test_a_later_planting_is_never_picked_earlier(raised: Raised, where: Where) -> None:
    """Every kind of the catalogue; and low <= usual <= high."""
    for one in KINDS:
        assert never_down([USUAL.first_pick(one, raised, None, day, where) for day in STARTS]), one.name


@pytest.mark.parametrize("place", [BENCH, HEATED], ids=lambda place: place.name)
def test_a_later_tray_is_never_ready_earlier(place: Place) -> None:
    for one in (k for k in KINDS if k.tray is not None):
        assert never_down([USUAL.ready(one, day, place) for day in STARTS]), one.name


def test_neither_with_readings() -> None:
    """A jump from read days to usual ones moves no date back."""
    for one in (LETTUCE, TOMATO, kind("leek", "winter")):
        days = [START + timedelta(days=n) for n in range(-200, 400)]
        assert never_down([cold_spring().first_pick(one, "tray", None, day) for day in days]), one.name
        assert never_down([cold_spring().ready(one, day, BENCH) for day in days]), one.name


def test_the_seasons_make_the_days() -> None:
    """Lettuce stands longer in a tray in winter than in spring, less on a heated bench, and in the bed less in June."""
    january, april = (USUAL.ready(LETTUCE, date(2027, month, 10), BENCH).day for month in (1, 4))
    assert (january - date(2027, 1, 10)).days > (april - date(2027, 4, 10)).days + 7
    assert USUAL.ready(LETTUCE, date(2027, 1, 10), HEATED).day < january
    spring, summer = (known(USUAL.first_pick(LETTUCE, "tray", None, date(2027, m, 1))).day for m in (4, 6))
    assert (spring - date(2027, 4, 1)).days > (summer - date(2027, 6, 1)).days


def test_under_glass_is_sooner() -> None:
    for one in (LETTUCE, TOMATO):
        picks = [known(USUAL.first_pick(one, "tray", None, date(2027, 4, 15), under)).day for under in ("", GLASS)]
        assert picks[1] < picks[0]


def test_a_date_by_growth_says_so() -> None:
    planted = date(2027, 4, 15)
    found = known(USUAL.first_pick(LETTUCE, "tray", None, planted))
    assert found.basis == "growth"
    assert found.why == f"{(found.day - planted).days} days from planting, by warmth and light"


def test_the_need_is_filled_on_the_day_and_not_before() -> None:
    """Added day by day from the air itself."""
    planted = date(2027, 4, 15)
    need = Needs(ENGLISH).cropping(LETTUCE, "tray")
    assert need is not None
    done, day = 0.0, planted
    while done < need.usual - 1e-6:
        low, high, light = OUTSIDE.day(day_number(day))
        done += effective_day(low, high, light, need.base_c, need.cap_c, LIGHT_SHARE)
        day += timedelta(days=1)
    assert known(USUAL.first_pick(LETTUCE, "tray", None, planted)).day == day


# --- this season's readings


@pytest.mark.parametrize("one", [LETTUCE, kind("leek", "winter"), TOMATO], ids=lambda one: one.name)
def test_a_cold_spring_is_late(one: Kind) -> None:
    """5 C colder from January to April: later in the tray and in the bed, by more than a week for lettuce."""
    up = planted = date(2027, 3, 1)
    assert cold_spring().ready(one, up, BENCH).day > USUAL.ready(one, up, BENCH).day
    usual, late = (known(asked.first_pick(one, "tray", None, planted)) for asked in (USUAL, cold_spring()))
    assert late.day >= usual.day and late.low >= usual.low and late.high >= usual.high
    if one == LETTUCE:
        assert (late.day - usual.day).days > 7


def test_after_the_last_reading_all_is_usual() -> None:
    for n in range(1, 120, 7):
        day = LAST_READ + timedelta(days=n)
        for one in (LETTUCE, TOMATO):
            assert cold_spring().first_pick(one, "tray", None, day) == USUAL.first_pick(one, "tray", None, day)
            assert cold_spring().ready(one, day, BENCH) == USUAL.ready(one, day, BENCH)


def test_what_was_ready_before_the_first_reading_is_as_it_was() -> None:
    planted = date(2026, 7, 1)
    assert known(USUAL.first_pick(LETTUCE, "tray", None, planted)).high < START
    assert cold_spring().first_pick(LETTUCE, "tray", None, planted) == USUAL.first_pick(LETTUCE, "tray", None, planted)


def test_no_usual_day_is_changed_by_the_readings() -> None:
    for asked in (USUAL, cold_spring()):
        asked.first_pick(LETTUCE, "tray", None, START)
    usual, late = (each_day(asked, "", LETTUCE) for asked in (USUAL, cold_spring()))
    first, end = place_in(USUAL, START), place_in(USUAL, LAST_READ) + 1
    assert late[:first] == pytest.approx(usual[:first]) and late[end:] == pytest.approx(usual[end:])
    assert all(a < b for a, b in zip(late[first:end], usual[first:end], strict=True))


@pytest.mark.parametrize("where", ["", GLASS, BENCH, HEATED], ids=["open", "glass", "bench", "heated"])
def test_a_days_readings_override_that_day_alone(where: Where) -> None:
    """A bright warm day in March, in the bed and on the benches; its light is that of its own range and date."""
    day = date(2027, 3, 20)
    asked, usual = clock(Reading(day, 6.0, 22.0)), clock()
    base, cap = growing_range(LETTUCE)
    for one in (asked, usual):
        one._sum(where, base, cap)
    with_it, without = each_day(asked, where, LETTUCE), each_day(usual, where, LETTUCE)
    changed = [n for n, (a, b) in enumerate(zip(with_it, without, strict=True)) if abs(a - b) > 1e-6]
    assert changed == [place_in(asked, day)]
    outside = with_light(REFERENCE_LATITUDE, (6.0,), (22.0,), [day_number(day)])
    inside: Air = air_in(outside, where)
    expected = effective_day(*inside.day(0), base, cap, LIGHT_SHARE)
    assert with_it[changed[0]] == pytest.approx(expected)


def test_readings_beyond_the_sums_are_nothing() -> None:
    """Before the first day and after the last."""
    odd = clock(Reading(date(1990, 7, 1), 12.0, 30.0), Reading(date(2040, 7, 1), 12.0, 30.0))
    day = date(2027, 4, 1)
    assert odd.first_pick(LETTUCE, "tray", None, day) == USUAL.first_pick(LETTUCE, "tray", None, day)


# --- what the year brings


def test_garlic_keeps_its_season() -> None:
    """Cold or not, its date is the handbook's, on which the year brings it."""
    assert isinstance(GARLIC.harvest.first_pick, AnchoredRange)
    for planted in (date(2026, 10, 15), date(2026, 11, 15), date(2027, 2, 1)):
        found = known(USUAL.first_pick(GARLIC, "set", None, planted))
        assert found.basis == "season"
        assert found == USUAL.handbook.first_pick(GARLIC, "set", None, planted)
        assert found == cold_spring().first_pick(GARLIC, "set", None, planted)


def test_every_kind_of_the_season_is_left_to_it() -> None:
    for one in (k for k in KINDS if isinstance(k.harvest.first_pick, AnchoredRange)):
        planted = date(2027, 4, 10)
        found = cold_spring().first_pick(one, one.usually, None, planted)
        assert found == USUAL.handbook.first_pick(one, one.usually, None, planted), one.name


def test_a_season_is_kept_however_it_is_raised() -> None:
    """Days from sowing direct do not overrule the date that the year brings."""
    harvest = msgspec.structs.replace(GARLIC.harvest, first_pick_direct=Range(50.0, 60.0, 75.0))
    drilled = msgspec.structs.replace(GARLIC, harvest=harvest)
    assert known(USUAL.first_pick(drilled, "drill", None, date(2027, 2, 1))).basis == "season"


# --- sums


def test_one_kind_in_one_place_is_summed_once() -> None:
    """Asked again on another day: the same list; an equal place that was read anew is the same place."""
    asked = clock()
    asked.first_pick(LETTUCE, "tray", None, date(2027, 4, 1))
    key: tuple[Where, float, float] = ("", *growing_range(LETTUCE))
    assert list(asked._sums) == [key]
    first = asked._sums[key]
    asked.first_pick(LETTUCE, "tray", None, date(2027, 6, 1))
    asked.first_pick(kind("leek", "winter"), "tray", None, date(2027, 6, 1))  # grows in the same range
    assert list(asked._sums) == [key] and asked._sums[key] is first
    again = Place("bench", ("growing on",), Room(), under=GLASS)
    assert asked._sum(BENCH, *key[1:]) is asked._sum(again, *key[1:])
    assert len(asked._sums) == 2


def test_another_place_or_range_has_sums_of_its_own() -> None:
    asked = clock()
    sums = [asked._sum(where, *growing_range(one)) for where in ("", BENCH, HEATED) for one in (LETTUCE, TOMATO)]
    assert len({id(one) for one in sums}) == len(asked._sums) == 6
    assert all(a <= b for one in sums for a, b in pairwise(one))


def test_ranges_are_told_apart_by_base_and_cap() -> None:
    asked = clock()
    cool, cooler, hotter = (asked._sum("", base, cap)[-1] for base, cap in ((4.0, 15.0), (0.0, 15.0), (4.0, 22.0)))
    assert cool < cooler and cool < hotter
    assert len(asked._sums) == 3


def test_two_clocks_share_nothing() -> None:
    one, other = clock(), clock()
    one.first_pick(LETTUCE, "tray", None, date(2027, 4, 1))
    assert one._sums and not other._sums


# --- needs


def test_every_need_is_in_order() -> None:
    """0 < low <= usual <= high, within the kind's growing range."""
    needs = Needs(ENGLISH)
    for one in KINDS:
        for need in [needs.raising(one), *(needs.cropping(one, raised) for raised in RAISED)]:
            if need is not None:
                assert 0 < need.low <= need.usual <= need.high, one.name
                assert (need.base_c, need.cap_c) == growing_range(one), one.name


def test_what_needs_nothing() -> None:
    needs = Needs(ENGLISH)
    assert needs.raising(GARLIC) is None  # not raised in trays
    assert needs.cropping(GARLIC, "set") is None  # the year brings it


def test_growing_ranges() -> None:
    assert growing_range(LETTUCE) == (COOL_BASE_C, COOL_CAP_C) and not is_warm(LETTUCE)
    assert growing_range(COURGETTE) == (WARM_BASE_C, WARM_CAP_C) and is_warm(COURGETTE)
    assert growing_range(TOMATO) == (7.0, 28.0)  # its own, published
    own = msgspec.structs.replace(LETTUCE, grows=Range(4.0, 15.0, 24.0))
    assert growing_range(own) == (4.0, 24.0)


def test_published_day_degrees_are_taken_as_they_are() -> None:
    """For what is planted; the days' spread goes with them. What is drilled has its days."""
    days = Range(50.0, 60.0, 75.0)
    harvest = msgspec.structs.replace(LETTUCE.harvest, first_pick=days, first_pick_direct=days, day_degrees=600.0)
    published = msgspec.structs.replace(LETTUCE, harvest=harvest)
    need = Needs(ENGLISH).cropping(published, "tray")
    assert need is not None
    assert (need.low, need.usual, need.high) == pytest.approx((500.0, 600.0, 750.0))
    drilled = Needs(ENGLISH).cropping(published, "drill")
    assert drilled is not None and drilled.usual != pytest.approx(600.0)


def test_a_need_is_worked_out_once() -> None:
    needs = Needs(ENGLISH)
    assert needs.cropping(LETTUCE, "tray") is needs.cropping(LETTUCE, "tray")
    assert needs.raising(LETTUCE) is needs.raising(LETTUCE)
    assert needs.raising(LETTUCE) is not needs.cropping(LETTUCE, "tray")


LIVED = re.compile(r"([\d.]+) days from (\d+ \w+) (under glass|outdoors), in a cool temperate garden at 52 N")
EARLY_SUMMER = re.compile(r"([\d.]+) days at 15 C in early-summer light outdoors, ([\d.]+) a day")


def test_a_need_is_what_its_words_say() -> None:
    """Lived in the reference garden from the day named, it takes the days named there; or so many a day, at 15 C."""
    needs, lived, bright = Needs(ENGLISH), 0, 0
    for one in KINDS:
        for need in [needs.raising(one), *(needs.cropping(one, raised) for raised in RAISED)]:
            if need is None:
                continue
            here, summer = LIVED.fullmatch(need.why), EARLY_SUMMER.fullmatch(need.why)
            assert here or summer or need.why == f"{need.usual:g} effective day-degrees, published", need.why
            if here:
                day, month = here[2].split()
                start = date(2027, MONTHS.index(month) + 1, int(day))
                assert needs.reference_days(need, start, here[3] == "under glass") == round(float(here[1])), one.name
                lived += 1
            if summer:
                assert need.usual == pytest.approx(float(summer[1]) * float(summer[2]), rel=0.01), one.name
                bright += 1
    assert lived > 50 and bright > 20


def test_early_summer_is_15_c() -> None:
    """Warmer by a third than the reference garden's May, so that its needs take longer there from April on."""
    need = Needs(ENGLISH).cropping(LEAF, "tray")
    assert need is not None and EARLY_SUMMER.fullmatch(need.why)
    days = LEAF.harvest.first_pick
    assert isinstance(days, Range)
    each = effective_day(LIVED_AT_C, LIVED_AT_C, 20.0, COOL_BASE_C, COOL_CAP_C, LIGHT_SHARE)
    assert (need.low, need.usual, need.high) == pytest.approx((days.low * each, days.usual * each, days.high * each))
    spring = Needs(ENGLISH).reference_days(need, date(2027, 4, 1), under_glass=False)
    assert spring is not None and spring > days.usual


def test_what_never_grows_is_never_ready() -> None:
    """In the reference garden nothing grows above a base of 30 C."""
    need = Needs(ENGLISH).cropping(TOMATO, "tray")
    assert need is not None
    frozen = msgspec.structs.replace(need, base_c=30.0, cap_c=40.0)
    assert Needs(ENGLISH).reference_days(frozen, date(2027, 4, 1), under_glass=False) is None


# --- what is wrong today


def test_what_is_too_cold_to_ripen_has_no_date_of_the_handbook() -> None:
    """Outdoor tomatoes where July has 8 to 13 C at 64 N: never, and not 80 days."""
    site = msgspec.structs.replace(NORTH, latitude=64.0, monthly=SUBARCTIC)
    climate = climate_of(garden("leeks", mistakes=[], site=site))
    found = Warmth(Handbook(climate, ENGLISH), START).first_pick(TOMATO, "tray", None, date(2027, 6, 1))
    assert found is None or found.basis != "handbook"


def test_a_later_planting_is_not_picked_earlier_at_the_end_of_the_sums() -> None:
    """Lettuce planted four winters on, where the sums end."""
    days = [date(2031, 1, 1) + timedelta(days=n) for n in range(60)]
    assert never_down([USUAL.first_pick(LETTUCE, "tray", None, day) for day in days])


def test_a_place_that_the_grower_has_read_has_dates() -> None:
    """With and without readings of this season."""
    up = date(2027, 3, 15)
    assert USUAL.ready(LETTUCE, up, READ).day > up


def test_a_hotbed_is_warm_on_days_that_were_read() -> None:
    """Read as the usual year has them, three days in March change nothing."""
    read = cold_readings(date(2027, 3, 20), date(2027, 3, 22), colder_c=0.0)
    with_them, without = clock(*read), clock()
    for one in (with_them, without):
        one._sum(HOTBED, *growing_range(LETTUCE))
    assert each_day(with_them, HOTBED, LETTUCE) == pytest.approx(each_day(without, HOTBED, LETTUCE))


def test_a_hotbed_stands_more_than_a_year_of_readings() -> None:
    """As a plan gone through a whole record has them."""
    years = cold_readings(date(2026, 1, 1), date(2027, 12, 31), colder_c=0.0)
    assert clock(*years).ready(LETTUCE, date(2027, 3, 15), HOTBED).basis == "growth"
