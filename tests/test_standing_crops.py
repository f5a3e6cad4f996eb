"""Crops whose bed does not come free when the picking ends, and those that are grown for what follows."""

from __future__ import annotations

from datetime import date

import pytest

from sowsheet.garden.records import Garden
from sowsheet.growth.when import When
from sowsheet.jobs.make import jobs
from sowsheet.jobs.records import Job
from sowsheet.schedule.plan import schedule
from sowsheet.schedule.records import Batch
from sowsheet.trays.plan import tray_plan
from tests import in_english
from tests.made import catalogue, garden, planned, refused, sound


def day(when: When | None) -> date:
    assert when is not None
    return when.day


def jobs_of(*words: str) -> list[Job]:
    mistakes: list[object] = []
    place: Garden = garden(*words, mistakes=mistakes)  # type: ignore[arg-type]
    dated, found = schedule(place, catalogue().crop)
    assert not mistakes
    assert not found
    return list(jobs(dated, tray_plan(dated, place), place))


def in_bed(batch: Batch) -> list[tuple[str, date, date]]:
    return [(stay.stage, stay.start, stay.end) for stay in batch.stays if stay.part is not None]


def test_a_perennial_stands_on_when_its_picking_is_over() -> None:
    (asparagus,) = sound("asparagus there")
    picked, over = day(asparagus.stages.first_pick), day(asparagus.stages.last_pick)
    assert asparagus.stages.clear is None
    assert date(2027, 4, 10) <= picked <= date(2027, 5, 5)
    assert over == date(2027, 6, 21)  # the spears are left to grow from midsummer on
    assert in_bed(asparagus) == [
        ("in the bed", date(2027, 1, 1), picked),
        ("picking", picked, over),
        ("in the bed", over, date(2028, 1, 30)),  # it goes on beyond the season's last column
    ]


def test_a_young_perennial_is_left_to_grow_and_its_first_picking_told() -> None:
    dated, mistakes = planned("asparagus mid-March")
    assert not mistakes
    (batch,) = dated.batches
    assert batch.stages.first_pick is None
    told = next(t.sentence for t in dated.told if "left to grow" in t.sentence)
    assert "2029" in told
    assert not [job for job in jobs_of("asparagus mid-March") if job.day.year > 2028]


def test_what_follows_a_perennial_waits_for_a_word_from_the_grower() -> None:
    mistake = refused("rhubarb there, then leeks")
    assert "stands for" in in_english.what(mistake)
    assert "till" in in_english.cure(mistake)
    rhubarb, leek = sound("rhubarb there till July, then leeks")
    assert day(rhubarb.stages.clear) == day(leek.stages.plant) == date(2027, 7, 1)
    rhubarb, leek = sound("rhubarb there, then leeks 10 July")
    assert day(rhubarb.stages.clear) == date(2027, 7, 10)
    assert day(rhubarb.stages.last_pick) <= date(2027, 7, 10)


def test_crowns_are_counted_and_not_weighed() -> None:
    (job,) = [job for job in jobs_of("rhubarb mid-November") if job.verb == "Set"]
    assert job.amount.endswith("crowns")
    assert "kg" not in job.how


def test_seed_potatoes_sprout_in_the_light_for_weeks_before_they_are_set() -> None:
    made = jobs_of("early potatoes 1 April")
    chit, set_ = (next(job for job in made if job.verb == verb) for verb in ("Chit", "Set"))
    assert 28 <= (set_.day - chit.day).days <= 49  # common practice, no source: four to six weeks
    assert "in the light" in chit.how
    (lift,) = [job for job in made if job.verb == "Lift"]
    assert date(2027, 6, 10) <= lift.day <= date(2027, 7, 10)  # earlies are lifted from mid June on


def test_a_green_manure_is_scattered_by_weight_over_its_area() -> None:
    (scatter,) = [job for job in jobs_of("phacelia 1 June") if job.verb == "Scatter"]
    phacelia = catalogue().crop("phacelia").kinds[0]
    assert phacelia.drill is not None
    assert phacelia.drill.grams_per_m2 is not None
    grams = 6.0 * 1.2 * phacelia.drill.grams_per_m2.usual
    assert scatter.amount == "7.2 m²"
    assert f"{grams:.0f} g" in scatter.how
    (half, _) = sound("half phacelia and half lettuce 1 June")
    assert half.amount.seed_g == pytest.approx(grams / 2)


def test_large_seed_of_a_green_manure_goes_into_drills() -> None:
    (scatter,) = [job for job in jobs_of("field beans 1 October") if job.verb == "Scatter"]
    assert "drills" in scatter.how
    assert "scattered" not in scatter.how


def test_after_a_green_manure_the_bed_rests_before_the_next_crop() -> None:
    rye, squash = sound("rye since September, then winter squash 10 June")
    rest = catalogue().crop("rye").kinds[0].rests_days
    assert rest is not None
    assert (day(squash.stages.plant) - day(rye.stages.last_pick)).days >= rest.usual
    (cut,) = [job for job in jobs_of("rye since September, then winter squash 10 June") if job.verb == "Cut"]
    assert cut.day == day(rye.stages.last_pick)


def test_a_green_manure_cut_young_by_the_next_crop_is_cut_all_the_same() -> None:
    made = jobs_of("buckwheat 1 June, then leeks 5 July")
    (cut,) = [job for job in made if job.verb == "Cut"]
    assert cut.day < date(2027, 7, 5)


def test_a_green_manure_that_frost_kills_stands_until_hard_frost_and_no_helper_cuts_it() -> None:
    (mustard,) = sound("white mustard 1 September")
    assert mustard.kind.key == "autumn"
    assert day(mustard.stages.last_pick) > date(2027, 11, 10)  # not the first frost, which it stands
    made = jobs_of("white mustard 1 September")
    assert not [job for job in made if job.verb == "Cut"]
    (clear,) = [job for job in made if job.verb == "Clear"]
    assert "brassica" in clear.how.lower() or "cabbage" in clear.how.lower()  # they share clubroot


def test_before_the_frost_a_tender_green_manure_is_cut_for_the_next_crop() -> None:
    made = jobs_of("white mustard 1 September, then garlic mid-October")
    (cut,) = [job for job in made if job.verb == "Cut"]
    assert date(2027, 9, 20) <= cut.day <= date(2027, 10, 8)
    assert not [job for job in made if "Frost has killed" in job.how]


def test_forcing_chicory_is_lifted_and_forced_in_the_dark() -> None:
    (lift,) = [job for job in jobs_of("forcing chicory 20 May") if job.verb == "Lift"]
    assert date(2027, 10, 1) <= lift.day <= date(2027, 11, 30)
    assert "in the dark" in lift.how


def test_a_perennial_that_has_stood_for_years_is_picked_in_the_season() -> None:
    (rhubarb,) = sound("rhubarb since March 2020")
    assert day(rhubarb.stages.first_pick) == date(2027, 4, 12)
    assert min(job.day for job in jobs_of("rhubarb since March 2020")) >= date(2027, 1, 1)
    (spring,) = sound("chives 20 April")
    (summer,) = sound("chives 18 June")
    assert day(spring.stages.first_pick) < day(summer.stages.first_pick) <= date(2027, 9, 10)


def test_what_stands_between_a_perennial_waits_for_its_own_time() -> None:
    asparagus, lettuce = sound("asparagus there, lettuce between")
    assert asparagus.open_left
    assert day(lettuce.stages.plant) >= date(2027, 3, 15)


def test_a_crop_cleared_before_it_can_be_picked_is_doubted() -> None:
    dated, _ = planned("maincrop potatoes mid-April till July")
    (doubt,) = dated.doubts
    assert doubt.code == "never_picked"
    assert "till July" in doubt.why


def test_the_kind_that_goes_in_then_is_the_cure() -> None:
    dated, _ = planned("onions from sets mid October")
    (doubt,) = dated.doubts
    assert "autumn-set onion" in doubt.cure


def test_tender_seed_goes_into_the_ground_before_the_last_frost_and_comes_up_after_it() -> None:
    (beans,) = sound("French beans sown direct")
    (trays,) = sound("French beans")
    assert day(beans.stages.plant) < day(trays.stages.plant)
    assert day(beans.stages.up) >= day(trays.stages.plant)
