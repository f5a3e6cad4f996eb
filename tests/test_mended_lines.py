"""Lines that were once read wrongly: years, rests, series, what stands between, and what cannot be."""

from __future__ import annotations

from datetime import date

import msgspec
import pytest

from sowsheet.garden.records import Bed, Place, Room, Site
from sowsheet.growth.when import When
from sowsheet.reading.date_words import parse_date
from sowsheet.reading.mistakes import Mistake, Spot
from sowsheet.reading.nodes import Text
from sowsheet.schedule.plan import schedule
from sowsheet.schedule.records import Batch
from tests import in_english
from tests.made import catalogue, frost, garden, line, planned, refused, sound


def plant(batch: Batch) -> date:
    assert batch.stages.plant is not None
    return batch.stages.plant.day


def day(when: When | None) -> date:
    assert when is not None
    return when.day


@pytest.mark.parametrize(
    ("words", "latest"),
    [
        ("garlic since October, then nothing till July, then kale", date(2027, 8, 1)),
        ("lettuce 1 April, then nothing from June till August, then kale", date(2027, 8, 15)),
        ("broad beans since November, then nothing till June, then leeks", date(2027, 7, 15)),
        ("leeks there till 2 April, then nothing till 1 April, then peas", date(2027, 4, 10)),
    ],
)
def test_a_rest_that_is_over_does_not_cost_a_year(words: str, latest: date) -> None:
    last = sound(words)[-1]
    assert date(2027, 4, 1) <= plant(last) <= latest


@pytest.mark.parametrize(
    ("words", "when"),
    [
        ("garlic since October, then kale mid-November", date(2027, 11, 15)),
        ("broad beans since November, then leeks 20 December", date(2027, 12, 20)),
        ("garlic since October, then leeks 5 July", date(2027, 7, 5)),
    ],
)
def test_what_follows_since_falls_in_the_season(words: str, when: date) -> None:
    assert plant(sound(words)[-1]) == when


def test_what_follows_a_series_is_not_a_year_later() -> None:
    dated, mistakes = planned("lettuce every 3 weeks, then kale July")
    assert not mistakes
    assert plant(dated.batches[-1]) == date(2027, 7, 15)
    assert "occupied" in {d.code for d in dated.doubts}


def test_between_is_dated_from_its_host() -> None:
    _, lettuce = sound("garlic since October, lettuce between from mid-November")
    assert plant(lettuce) == date(2026, 11, 15)
    mistake = refused("tomatoes 1 June, lettuce between from November")
    assert "host" in in_english.what(mistake)


@pytest.mark.parametrize(
    ("words", "says"),
    [
        ("leeks mid-June till April 2027", "till April 2027"),
        ("lettuce 1 April till 1 April", "till 1 April"),
        ("lettuce planted 1 April sown 1 May", "sown"),
        ("lettuce sown 1 March 2020 planted 1 April", "sown"),
        ("lettuce since April 2028", "since April 2028"),
        ("garlic since October, lettuce every 2 weeks between", "every"),
        ("2 rows of lettuce and 2 m of kale 1 May", "rows"),
        ("tomatoes there", "frost"),
    ],
)
def test_what_cannot_be_is_refused(words: str, says: str) -> None:
    mistake = refused(words)
    assert says in in_english.what(mistake)
    assert in_english.cure(mistake)


def test_since_with_till_keeps_its_planting() -> None:
    garlic, leek = sound("garlic since October till July, then leeks")
    assert not garlic.open_left
    assert (plant(garlic), day(garlic.stages.clear)) == (date(2026, 10, 15), date(2027, 7, 1))
    assert plant(leek) >= date(2027, 7, 1)


MILD = Site(44.0, frost(3, 10), frost(11, 25))


def test_a_mild_spring_is_not_last_autumn() -> None:
    dated, _ = planned("courgettes 25 April", site=MILD)
    assert "bench_too_cold" not in {d.code for d in dated.doubts}


def test_tender_crops_do_not_live_through_winter() -> None:
    (courgette,) = sound("courgettes 1 November")
    assert courgette.stages.first_pick is None
    dated, _ = planned("courgettes 1 November")
    assert "too_late" in {d.code for d in dated.doubts}


def test_a_place_that_is_not_there_is_doubted() -> None:

    start, until = (parse_date(Text(t, Spot("g", 1, 1)), []) for t in ("1 June", "1 July"))
    places = (
        Place("shelf", ("germinating",), Room(), held_at_c=20.0),
        Place("bench", ("growing on",), Room(), under="unheated glass", start=start, until=until),
        Place("yard", ("hardening off",), Room(), under="outdoors"),
    )
    dated, _ = planned("onions from seed late March", places=places)
    assert "no_place" in {d.code for d in dated.doubts}
    assert "no_place" not in {d.code for d in planned("onions from seed late March")[0].doubts}


def test_the_tool_does_not_doubt_its_own_sowing() -> None:
    dated, _ = planned("radish 1 April", "leeks picked from December", work_days=frozenset({1, 5}))
    assert {d.code for d in dated.doubts} == set()


def test_the_nearest_kind_is_taken_outside_its_window() -> None:
    (spinach,) = sound("spinach 5 October")
    assert spinach.kind.key == "autumn"


def test_kept_in_the_bed_long_after_it_is_over() -> None:
    dated, _ = planned("lettuce 1 April till 1 March")
    assert "over_long_before" in {d.code for d in dated.doubts}


def test_a_series_is_doubted_once() -> None:
    dated, _ = planned("radish every week March to September")
    codes = [d.code for d in dated.doubts]
    assert len(codes) == len(set(codes))


def test_names_are_unique_whatever_the_beds_are_called() -> None:

    mistakes: list[Mistake] = []
    made = garden(mistakes=mistakes)
    beds = tuple(
        Bed(name, 600.0, 120.0, line(words, mistakes, n), Spot("g", n, 1))
        for n, (name, words) in enumerate({"A": "spring onions April", "A spring": "onions from seed April"}.items(), 1)
    )

    dated, _ = schedule(msgspec.structs.replace(made, beds=beds), catalogue().crop)
    names = [b.name for b in dated.batches]
    assert len(names) == len(set(names)) == 2


@pytest.mark.parametrize(
    ("words", "places"),
    [
        ("tomatoes 1 June, 3 m of lettuce between", 6),  # half of 26 over the bed's 6 m, of which 3
        ("tomatoes 1 June, half lettuce between", 6),
        ("tomatoes 1 June, 20 lettuce between", 20),
        ("tomatoes 1 June, 1 row of lettuce between", 20),
        ("tomatoes 1 June and courgettes 1 June, lettuce between", 7),  # half of 12 and 3
        ("carrots 1 May, lettuce between", 80),  # not half of the carrots' 800: the bed holds no more
    ],
)
def test_amounts_between_are_honoured(words: str, places: int) -> None:
    assert sound(words)[-1].amount.places == places


@pytest.mark.parametrize(
    "words", ["tomatoes 1 June, 9 m of lettuce between", "tomatoes 1 June, 9 rows of lettuce between"]
)
def test_amounts_between_that_do_not_fit_are_refused(words: str) -> None:
    assert "fit" in in_english.what(refused(words))


def test_a_series_with_an_amount_wants_it_each_time() -> None:
    assert "fit" in in_english.what(refused("60 lettuce every 2 weeks from April to August"))
    batches = sound("10 lettuce every 3 weeks from April to August")
    for batch in batches:
        assert batch.amount.places == 10
        assert batch.part is not None
        assert batch.part.along_end_cm - batch.part.along_start_cm == pytest.approx(90)


@pytest.mark.parametrize("words", ["courgettes 12 October", "tomatoes 13 October", "cucumbers 1 December"])
def test_nothing_tender_crops_after_the_first_frost(words: str) -> None:
    (batch,) = sound(words)
    assert batch.stages.first_pick is None


@pytest.mark.parametrize("words", ["kale picked from June", "garlic picked from June"])
def test_what_cannot_be_picked_then_is_doubted(words: str) -> None:
    dated, mistakes = planned(words)
    assert not mistakes
    assert "picked_other" in {d.code for d in dated.doubts}


def test_a_rest_between_two_written_days() -> None:
    dated, _ = planned("garlic since October, then nothing from August till April, then peas")
    assert plant(dated.batches[-1]) >= date(2028, 4, 1)
    (gap,) = dated.gaps
    assert (gap.start, gap.end) == (date(2027, 8, 1), date(2028, 4, 1))
    assert planned("garlic since October, then nothing till July, then kale")[0].gaps == ()


def test_a_cover_comes_off_after_it_went_on() -> None:
    assert "fleece" in in_english.what(refused("lettuce 1 April under fleece till 1 April"))


def test_winter_lettuce_planted_late_is_picked_that_winter() -> None:
    (lettuce,) = sound("winter lettuce 10 December", under="unheated glass")
    assert date(2028, 1, 1) <= day(lettuce.stages.first_pick) <= date(2028, 3, 1)
    assert day(lettuce.stages.clear) <= date(2028, 6, 1)


def test_a_series_of_its_own_accord_keeps_to_its_windows() -> None:
    dated, mistakes = planned("rocket every 2 weeks")
    assert not mistakes
    assert not {d.code for d in dated.doubts} & {"window_shut", "too_early", "meant_sown"}
