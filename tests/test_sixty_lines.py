"""Sixty plan lines from end to end: what each is read as, with its years and days.

Season 2027 in the north, average last frost 10 May. What the words mean is fixed here; days that come out of the
catalogue are only bounded.
"""

from __future__ import annotations

from datetime import date
from itertools import pairwise

import pytest

from sowsheet.growth.when import When
from sowsheet.schedule.records import Batch
from tests import in_english
from tests.made import planned, refused, sound


def day(when: When | None) -> date:
    assert when is not None
    return when.day


def plant(batch: Batch) -> date:
    return day(batch.stages.plant)


def clear(batch: Batch) -> date:
    return day(batch.stages.clear)


def codes(words: str, **options: object) -> set[str]:
    dated, mistakes = planned(words, **options)
    assert not mistakes, [in_english.what(m) for m in mistakes]
    return {d.code for d in dated.doubts}


def test_chard_there_then_tomatoes_then_an_idea() -> None:
    chard, tomato, salad = sound("chard till late April, then tomatoes, then maybe lamb's lettuce")
    assert chard.open_left
    assert clear(chard) == date(2027, 4, 25)
    assert date(2027, 5, 26) <= plant(tomato) <= date(2027, 6, 2)
    assert salad.maybe and not tomato.maybe
    assert plant(salad) >= clear(tomato)


def test_garlic_lettuce_between_then_leeks() -> None:
    garlic, lettuce, leek = sound("garlic since October, lettuce between from mid-March, then leeks")
    assert plant(garlic) == date(2026, 10, 15)
    assert garlic.stages.plant and garlic.stages.plant.window == (date(2026, 10, 1), date(2026, 10, 31))
    assert plant(lettuce) == date(2027, 3, 15)
    assert lettuce.rank == "between"
    assert lettuce.amount.places == garlic.amount.places // 2
    assert clear(lettuce) <= clear(garlic)
    assert date(2027, 7, 1) <= clear(garlic) <= date(2027, 7, 31)
    assert plant(leek) == clear(garlic)


def test_beans_a_gap_and_kale_under_fleece() -> None:
    dated, mistakes = planned(
        "broad beans since November, then something quick, then kale early July under fleece till August"
    )
    assert not mistakes
    bean, kale = dated.batches
    assert (bean.kind.key, plant(bean)) == ("autumn", date(2026, 11, 15))
    assert [g.what for g in dated.gaps] == ["something quick"]
    assert plant(kale) == date(2027, 7, 5)
    assert (day(kale.stages.cover_on), day(kale.stages.cover_off)) == (date(2027, 7, 5), date(2027, 8, 1))


def test_onions_from_seed_then_spinach() -> None:
    onion, spinach = sound("onions from seed late March, then spinach mid-August")
    assert (onion.kind.key, plant(onion)) == ("from seed", date(2027, 3, 25))
    assert plant(spinach) == date(2027, 8, 15)


def test_onion_sets() -> None:
    (onion,) = sound("onion sets mid March")
    assert (onion.kind.key, onion.raised, plant(onion)) == ("from sets", "set", date(2027, 3, 15))


def test_kale_when_free_waits_for_the_garlic() -> None:
    garlic, kale = sound("garlic since October, then kale when free")
    stages = kale.stages
    assert plant(kale) == clear(garlic)
    assert day(stages.ready) <= plant(kale) <= day(stages.holds)


def test_two_written_days() -> None:
    pea, leek = sound("peas 25 March, then leeks 5 July")
    assert (plant(pea), plant(leek)) == (date(2027, 3, 25), date(2027, 7, 5))


def test_lettuce_gives_way_to_courgettes() -> None:
    lettuce, courgette = sound("lettuce 1 April, then courgettes 28 May")
    assert clear(lettuce) <= date(2027, 5, 28) == plant(courgette)


@pytest.mark.parametrize("joined", [" then", ";", ", then"])
def test_then_is_written_in_several_ways(joined: str) -> None:
    assert [b.kind.crop for b in sound(f"lettuce 1 April{joined} spinach")] == ["lettuce", "spinach"]


def test_a_question_mark_is_maybe() -> None:
    (tomato,) = sound("tomatoes?")
    assert tomato.maybe


@pytest.mark.parametrize(
    ("words", "says"),
    [
        ("onions late March", "seed"),
        ("tomatoes 1 June, lamb's lettuce October", "then"),
        ("maybe leeks or kale", "or"),
        ("half lettuce, half spinach 1 April", "and"),
        ("early lettuce 1 April", "early"),
        ("tomatoes till March", "there"),
        ("lettuce till June", "till June"),
        ("spinach week 53", "52"),
        ("peas 29 February", "28"),
        ("kale 10/7", "10/7"),
        ("chard till spring", "spring"),
        ("lettuce ASAP", "ASAP"),
        ("red onions from sets 20 March", "red"),
    ],
)
def test_refused_with_a_cure(words: str, says: str) -> None:
    mistake = refused(words)
    assert says.lower() in f"{in_english.what(mistake)} {in_english.cure(mistake)}".lower()
    assert in_english.cure(mistake)
    assert 1 <= mistake.spot.column <= len(words)


def test_a_refusal_of_till_shows_both_ways() -> None:
    mistake = refused("lettuce till June")
    assert "`lettuce there till June`" in in_english.cure(mistake)
    assert "from early April till June" in in_english.cure(mistake)


@pytest.mark.parametrize(
    ("words", "days"),
    [
        ("lettuce and spinach 1 April, then leeks", ("2027-04-01", "2027-04-01")),
        ("lettuce 1 April and spinach 10 April, then leeks", ("2027-04-01", "2027-04-10")),
        ("half lettuce and half spinach 1 April", ("2027-04-01", "2027-04-01")),
    ],
)
def test_side_by_side_half_the_length_each(words: str, days: tuple[str, str]) -> None:
    lettuce, spinach, *rest = sound(words)
    assert (plant(lettuce).isoformat(), plant(spinach).isoformat()) == days
    assert lettuce.amount.length_m == spinach.amount.length_m == 3.0
    if rest:
        assert plant(rest[0]) >= max(clear(lettuce), clear(spinach))


def test_rows_that_do_not_fit_are_refused_with_the_sum() -> None:
    mistake = refused("4 rows of carrots and 4 rows of beetroot mid-April")
    assert "120 cm wide" in in_english.what(mistake)
    assert "+" in in_english.what(mistake) and "=" in in_english.what(mistake)


def test_rows_that_fit_lie_beside_each_other() -> None:
    carrot, beetroot = sound("2 rows of carrots and 1 row of beetroot mid-April")
    assert (carrot.amount.rows, beetroot.amount.rows) == (2, 1)
    assert carrot.part and beetroot.part
    assert carrot.part.across_end_cm <= beetroot.part.across_start_cm


def test_by_length() -> None:
    carrot, beetroot = sound("2 m of carrots and 4 m of beetroot mid-April")
    assert (carrot.amount.length_m, beetroot.amount.length_m) == (2.0, 4.0)


def test_the_rest_of_the_bed_goes_to_the_one_without_an_amount() -> None:
    lettuce, spinach = sound("2 m of lettuce and spinach in April")
    assert (lettuce.amount.length_m, spinach.amount.length_m) == (2.0, 4.0)
    assert plant(lettuce) == plant(spinach) == date(2027, 4, 15)


def test_words_in_brackets_are_kept() -> None:
    (lettuce,) = sound("lettuce (red oak leaf) 1 April till June")
    assert lettuce.note == "red oak leaf"
    assert clear(lettuce) == date(2027, 6, 1)


def test_whole_months_from_a_to_b() -> None:
    (lettuce,) = sound("leaf lettuce April to July")
    assert lettuce.kind.key == "leaf"
    assert (plant(lettuce), clear(lettuce)) == (date(2027, 4, 1), date(2027, 7, 31))


def test_spring_onions_are_a_crop() -> None:
    (onion,) = sound("spring onions 1 April")
    assert onion.kind.crop == "spring onion"


def test_spring_cabbage_since_september() -> None:
    cabbage, leek = sound("spring cabbage since September, then leeks")
    assert (cabbage.kind.key, plant(cabbage)) == ("spring", date(2026, 9, 15))
    assert plant(leek) >= clear(cabbage)


def test_drilled_then_the_bed_rests() -> None:
    dated, _ = planned("carrots sown 20 April, then nothing")
    (carrot,) = dated.batches
    assert (carrot.raised, plant(carrot)) == ("drill", date(2027, 4, 20))
    assert [g.what for g in dated.gaps] == ["nothing"]


def test_resting_till_a_day() -> None:
    dated, _ = planned("carrots 20 April, then nothing till September")
    assert dated.gaps[0].end == date(2027, 9, 1) or day(dated.batches[0].stages.clear) > date(2027, 9, 1)


def test_years_run_forward() -> None:
    radish, tomato, garlic = sound("radish 15 March, then tomatoes 1 June, then garlic October")
    assert [plant(b) for b in (radish, tomato, garlic)] == [date(2027, 3, 15), date(2027, 6, 1), date(2027, 10, 15)]


def test_after_the_season_is_told() -> None:
    dated, mistakes = planned("garlic October, then leeks")
    assert not mistakes
    garlic, leek = dated.batches
    assert plant(garlic) == date(2027, 10, 15)
    assert plant(leek).year == 2028
    assert any("after the season" in t.sentence for t in dated.told)


def test_a_year_may_be_written() -> None:
    garlic, _ = sound("garlic planted in October 2026, then leeks")
    assert plant(garlic) == date(2026, 10, 15)


def test_there_till_a_month() -> None:
    leek, pea = sound("leeks there till April, then peas")
    assert leek.open_left and clear(leek) == date(2027, 4, 1)
    assert plant(pea) >= date(2027, 4, 1)


def test_there_gives_way_to_a_written_day() -> None:
    leek, pea = sound("leeks there, then peas 1 May")
    assert clear(leek) <= date(2027, 5, 1) == plant(pea)


def test_picked_till() -> None:
    kale, bean = sound("kale there, picked till mid-April, then broad beans")
    assert clear(kale) == date(2027, 4, 15)
    assert bean.kind.key == "spring"
    assert plant(bean) == date(2027, 4, 15)


def test_both_days_are_kept() -> None:
    (lettuce,) = sound("lettuce sown 1 March, planted 10 April")
    assert (day(lettuce.stages.sow), plant(lettuce)) == (date(2027, 3, 1), date(2027, 4, 10))


def test_picked_from_a_day() -> None:
    (lettuce,) = sound("lettuce picked from 1 June")
    first = day(lettuce.stages.first_pick)
    assert date(2027, 5, 31) <= first <= date(2027, 6, 1)
    assert day(lettuce.stages.ready) <= plant(lettuce)


def test_anchored_days() -> None:
    assert plant(sound("tomatoes 2 weeks after last frost")[0]) == date(2027, 5, 24)
    assert plant(sound("tomatoes after the last frost")[0]) == date(2027, 5, 10)


def test_sown_in_modules_or_direct() -> None:
    (module,) = sound("broad beans sown November")
    assert (module.raised, day(module.stages.sow)) == ("tray", date(2027, 11, 15))
    (direct,) = sound("broad beans sown direct mid November")
    assert (direct.raised, plant(direct)) == ("drill", date(2027, 11, 15))


def test_iso_weeks_are_their_mondays() -> None:
    pea, kale = sound("peas week 13, then kale week 28")
    assert (plant(pea), plant(kale)) == (date(2027, 3, 29), date(2027, 7, 12))


def test_a_long_year_has_a_week_53() -> None:
    (bean,) = sound("garlic week 53", season=2026)
    assert plant(bean) == date(2026, 12, 28)


def test_a_leap_year_has_a_29_february() -> None:
    assert plant(sound("peas 29 February", season=2028)[0]) == date(2028, 2, 29)


@pytest.mark.parametrize("words", ["kale July 1", "kale 1st of July", "kale 1 July"])
def test_one_day_in_three_spellings(words: str) -> None:
    assert plant(sound(words)[0]) == date(2027, 7, 1)


def test_mid_to_end() -> None:
    (kale,) = sound("kale mid June to end of July")
    assert (plant(kale), clear(kale)) == (date(2027, 6, 15), date(2027, 7, 31))


def test_a_day_that_is_for_sowing_is_doubted() -> None:
    assert "meant_sown" in codes("onions from seed mid-January")


def test_a_series_shares_its_bed() -> None:
    batches = sound("lettuce every 3 weeks 1 March to 1 August")
    assert len(batches) == 8
    assert (plant(batches[0]), plant(batches[-1])) == (date(2027, 3, 1), date(2027, 7, 26))
    assert len({b.series for b in batches}) == 1
    parts = {b.part for b in batches}
    assert 1 < len(parts) < 8
    for one in batches:
        for other in batches:
            same = one is not other and one.part == other.part
            assert not same or clear(one) <= plant(other) or clear(other) <= plant(one)


def test_every_fortnight() -> None:
    batches = sound("lettuce every fortnight from April to August")
    days = [plant(b) for b in batches]
    assert days[0] == date(2027, 4, 1)
    assert days[-1] <= date(2027, 8, 31) and (date(2027, 8, 31) - days[-1]).days < 14
    assert {(b - a).days for a, b in pairwise(days)} == {14}


def test_sow_also_has_no_bed() -> None:
    batches = sound(also=("60 lettuce every 3 weeks March to August",))
    assert day(batches[0].stages.sow) == date(2027, 3, 1)
    assert {b.amount.places for b in batches} == {60}
    assert {b.bed for b in batches} == {""}
    assert all(day(b.stages.sow) <= date(2027, 8, 31) for b in batches)


def test_between_is_half_as_many_and_goes_with_its_host() -> None:
    tomato, lettuce = sound("tomatoes 24 May, lettuce between")
    assert plant(lettuce) == plant(tomato)
    assert lettuce.amount.places == max(1, tomato.amount.places // 2)
    tomato, lettuce = sound("tomatoes with lettuce between from April")
    assert plant(lettuce) == date(2027, 4, 1) < plant(tomato)
    assert clear(lettuce) <= clear(tomato)


def test_standing_into_the_next_year() -> None:
    (leek,) = sound("leeks mid-June till April 2028")
    assert clear(leek) == date(2028, 4, 1)


def test_kale_then_leeks_falls_after_the_season() -> None:
    dated, mistakes = planned("kale, then leeks")
    assert not mistakes
    kale, leek = dated.batches
    assert clear(kale).year == 2028
    assert plant(leek).year == 2028
    told = " ".join(t.sentence for t in dated.told)
    assert "after the season" in told and "kale till" in told


def test_fleece_is_on_the_lettuce_only() -> None:
    lettuce, spinach = sound("lettuce 1 April under fleece and spinach")
    assert lettuce.covers and not spinach.covers


def test_fleece_for_so_many_weeks() -> None:
    (lettuce,) = sound("lettuce 1 April under fleece for 5 weeks")
    assert day(lettuce.stages.cover_off) == date(2027, 5, 6)


@pytest.mark.parametrize("words", ["courgettes x 6 end of May", "6 courgettes end of May"])
def test_six_plants(words: str) -> None:
    (courgette,) = sound(words)
    assert courgette.amount.places == 6
    assert plant(courgette) == date(2027, 5, 31)
