"""Cold asked of every stay: how cold a night it lives through, how often one is colder, from when it is safe."""

from __future__ import annotations

import math
from collections.abc import Iterable
from datetime import date, timedelta

import msgspec
import pytest

from sowsheet.garden.records import Place, Room
from sowsheet.schedule.plan import schedule
from sowsheet.schedule.records import Batch, Exposed, Schedule
from sowsheet.site.record import Record
from sowsheet.site.weather import Weather
from tests.made import NORTH, catalogue, frost, garden, sound

YEARS = range(2001, 2013)
SHELF = Place("shelf", ("germinating",), Room(), held_at_c=20.0)
BENCH = Place("bench", ("growing on",), Room(), under="unheated glass")
HEATED = Place("bench", ("growing on",), Room(), held_at_c=8.0, under="unheated glass")
YARD = Place("yard", ("hardening off",), Room(), under="outdoors")


def _record(cold: Iterable[date], night_c: float) -> Record:
    """Twelve like years, never below 3 C but on some nights."""
    days = [date(YEARS[0], 1, 1) + timedelta(days=n) for n in range(len(YEARS) * 365 + 3)]
    means = [11.5 - 4.5 * math.cos(2 * math.pi * (d.timetuple().tm_yday - 20) / 365) for d in days]
    cold = set(cold)
    low = tuple(night_c if day in cold else mean - 4.0 for day, mean in zip(days, means, strict=True))
    return Record("made.csv", tuple(days), low, tuple(mean + 4.0 for mean in means))


def _plan(words: str, cold: Iterable[date], night_c: float, bench: Place = BENCH) -> Schedule:
    made = garden(words, mistakes=[], site=NORTH, places=(SHELF, bench, YARD))
    dated, mistakes = schedule(made, catalogue().crop, weather=Weather(_record(cold, night_c)))
    assert not mistakes
    return dated


def _stays(batch: Batch) -> dict[tuple[str, float], Exposed]:
    return {(c.stage, c.stands_c): c for c in batch.cold}


def test_each_stay_has_the_cold_that_the_plant_then_stands() -> None:
    """Lettuce (crops/lettuce.yaml): soft -2, hardened -4 C and as much in the bed; kale -2, -5 and then -10."""
    (lettuce,) = sound("headed lettuce 15 April", places=(SHELF, BENCH, YARD))
    assert [(c.stage, c.stands_c) for c in lettuce.cold] == [
        ("growing on", -2.0),
        ("hardening off", -4.0),
        ("in the bed", -4.0),
    ]
    (kale,) = sound("kale 1 July", places=(SHELF, BENCH, YARD))
    assert [c.stands_c for c in kale.cold] == [-2.0, -5.0, -5.0, -10.0]
    just_planted, rooted = kale.cold[2:]
    assert (just_planted.end - just_planted.start).days == 21
    assert just_planted.end == rooted.start


def test_stays_follow_each_other_without_gaps() -> None:
    (kale,) = sound("kale 1 July", places=(SHELF, BENCH, YARD))
    for before, after in zip(kale.cold, kale.cold[1:], strict=False):
        assert before.end == after.start
    assert kale.stages.clear is not None
    assert kale.cold[-1].end == kale.stages.clear.day


def test_years_are_counted_in_the_stay_and_nowhere_else() -> None:
    """Of twelve years, three have a night of -3 C on 10 April, when it is hardened, two on 25 March, under glass."""
    hardened = [date(year, 4, 10) for year in (2002, 2005, 2009)]
    under_glass = [date(year, 3, 25) for year in (2003, 2004)]
    (lettuce,) = _plan("headed lettuce 15 April", [*hardened, *under_glass], -3.0).batches
    found = _stays(lettuce)
    assert found["growing on", -2.0].start < date(2027, 3, 25) < found["growing on", -2.0].end
    assert found["growing on", -2.0].chance == pytest.approx(2 / 12)
    assert found["hardening off", -4.0].chance == 0.0
    assert found["in the bed", -4.0].chance == 0.0


def test_the_earliest_day_leaves_the_accepted_chance_and_the_day_before_does_not() -> None:
    """A night of -5 C on 20 April in two years of twelve, on 5 April in two more: 1 in 10 is reached on the 21st."""
    cold = [date(year, 4, 20) for year in (2002, 2005)] + [date(year, 4, 5) for year in (2007, 2008)]
    dated = _plan("headed lettuce 15 April", cold, -5.0)
    in_bed = _stays(dated.batches[0])["in the bed", -4.0]
    assert in_bed.chance == pytest.approx(2 / 12)
    assert in_bed.accepted == pytest.approx(0.1)
    assert in_bed.safe_from == date(2027, 4, 21)
    under_glass = _stays(dated.batches[0])["growing on", -2.0]
    assert under_glass.chance == pytest.approx(2 / 12)
    assert under_glass.accepted == pytest.approx(0.5)  # hardy, with fleece at hand
    assert under_glass.safe_from is not None
    assert under_glass.safe_from < date(2027, 4, 1)


def test_tender_crops_under_glass_have_their_day_too() -> None:
    """Frost on 25 April in every year, on 20 May in five of twelve: at an even chance it is safe from the 26th."""
    cold = [date(year, 4, 25) for year in YEARS] + [date(year, 5, 20) for year in list(YEARS)[:5]]
    made = garden("tomatoes 10 May", mistakes=[], site=NORTH, places=(SHELF, HEATED, YARD), under="unheated glass")
    dated, _ = schedule(made, catalogue().crop, weather=Weather(_record(cold, -1.0)))
    (tomato,) = dated.batches
    in_bed = tomato.cold[-1]
    assert in_bed.stage == "in the bed"
    assert in_bed.chance == pytest.approx(5 / 12)
    assert in_bed.safe_from == date(2027, 4, 26)
    assert not [d for d in dated.doubts if d.code == "planted_too_cold"]


def test_a_heated_bench_is_not_asked_about_nights_outdoors() -> None:
    cold = [date(year, 4, 20) for year in YEARS]
    (tomato,) = _plan("tomatoes 1 June", cold, -4.0, HEATED).batches
    growing = tomato.cold[0]
    assert growing.chance == 0.0
    assert growing.safe_from is None


def test_trays_that_freeze_while_they_are_hardened_are_doubted() -> None:
    """Frost on 20 May in eight years of twelve; French beans are hardened in those days."""
    cold = [date(year, 5, 20) for year in list(YEARS)[:8]]
    dated = _plan("French beans 24 May", cold, -1.0, HEATED)
    (doubt,) = [d for d in dated.doubts if d.code == "hardened_too_cold"]
    assert "yard" in doubt.what
    assert "7 springs in 10" in doubt.why
    assert "until 21 May" in doubt.cure
    fewer = _plan("French beans 24 May", cold[:5], -1.0, HEATED)
    assert not [d for d in fewer.doubts if d.code == "hardened_too_cold"]


def test_without_a_record_hardy_plants_are_not_asked() -> None:
    (lettuce,) = sound("headed lettuce 15 April", places=(SHELF, BENCH, YARD))
    assert {c.chance for c in lettuce.cold} == {None}
    assert {c.safe_from for c in lettuce.cold} == {None}


def test_autumn_has_no_day_from_which_a_spring_is_safe() -> None:
    dated = _plan("kale 1 August", [date(2005, 12, 1)], -20.0)
    assert dated.batches[0].cold[-1].chance == pytest.approx(1 / 12, abs=0.01)
    assert dated.batches[0].cold[-1].safe_from is None


def test_where_no_spring_is_too_cold_nothing_is_put_off() -> None:
    """No night below 3 C in twelve years: French beans go in when their window opens, not at midsummer."""
    (mild,) = _plan("French beans", [], 0.0).batches
    (cold,) = _plan("French beans", [date(year, 6, 15) for year in YEARS], -1.0).batches
    assert mild.stages.plant is not None
    assert cold.stages.plant is not None
    assert mild.stages.plant.day < date(2027, 6, 1) < cold.stages.plant.day


def test_hardy_plants_that_go_out_too_soon_are_told_when_it_is_safe() -> None:
    """A night of -6 C on 20 April in three years of twelve kills lettuce planted on the 8th, and none planted later."""
    cold = [date(year, 4, 20) for year in (2002, 2005, 2009)]
    (doubt,) = _plan("headed lettuce 8 April", cold, -6.0).doubts
    assert doubt.code == "planted_too_cold"
    assert "1 spring in 4" in doubt.why
    assert "plant from 21 April" in doubt.cure
    assert not _plan("headed lettuce 22 April", cold, -6.0).doubts


def test_no_tender_crop_is_raised_through_the_winter_for_a_mild_spring() -> None:
    """No frost at all in spring, and a bench held at 8 C: tomatoes are not sown in October for March."""
    made = garden("tomatoes", mistakes=[], site=NORTH, places=(SHELF, HEATED, YARD), under="polytunnel")
    site = msgspec.structs.replace(NORTH, last_frost=frost(3, 20))
    dated, _ = schedule(msgspec.structs.replace(made, site=site), catalogue().crop, weather=Weather(_record([], 0.0)))
    stages = dated.batches[0].stages
    assert stages.sow is not None
    assert stages.ready is not None
    assert stages.up is not None
    assert stages.sow.day > date(2027, 1, 1)
    assert (stages.ready.day - stages.up.day).days < 85
    assert not dated.doubts
    written = garden("tomatoes 10 March", mistakes=[], site=site, places=(SHELF, HEATED, YARD), under="polytunnel")
    dated, _ = schedule(written, catalogue().crop, weather=Weather(_record([], 0.0)))
    assert "raised_too_long" in [d.code for d in dated.doubts]
