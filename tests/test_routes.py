"""Places that a crop's trays are to stand in, named on its line."""

from __future__ import annotations

from datetime import date, timedelta

import pytest

from sowsheet.garden.records import Place, Room
from sowsheet.schedule.records import Batch
from tests import in_english
from tests.made import planned, refused, sound

SHELF = Place("warm shelf", ("germinating",), Room(), held_at_c=20.0)
BENCH = Place("bench", ("growing on",), Room(), under="unheated glass")
HEATED = Place("heated bench", ("germinating", "growing on"), Room(), held_at_c=12.0, under="unheated glass")
YARD = Place("yard", ("hardening off",), Room(), under="outdoors")
PLACES = (SHELF, BENCH, HEATED, YARD)


def _stands(batch: Batch) -> dict[str, str]:
    return {s.stage: s.where for s in batch.stays if s.container}


@pytest.mark.parametrize(
    ("line", "route"),
    [
        ("lettuce 15 April", ()),
        ("lettuce 15 April raised on the heated bench", ("heated bench",)),
        ("lettuce raised in our Heated Bench 15 April under fleece", ("heated bench",)),
        ("lettuce on the warm shelf, the bench and the yard, planted 15 April", ("warm shelf", "bench", "yard")),
        ("lettuce sown 1 March, raised at the bench", ("bench",)),
        ("lettuce on the bench on 15 April", ("bench",)),
        ("lettuce on the bench in the yard 15 April", ("bench", "yard")),
    ],
)
def test_places_are_read_wherever_they_stand_in_the_line(line: str, route: tuple[str, ...]) -> None:
    (batch,) = sound(line, places=PLACES)
    assert batch.asked == route
    assert batch.kind.crop == "lettuce"


def test_trays_stand_where_they_are_asked_to_for_what_that_place_is_for() -> None:
    (batch,) = sound("lettuce 15 April raised on the heated bench", places=PLACES)
    assert _stands(batch) == {"germinating": "heated bench", "growing on": "heated bench", "hardening off": "yard"}
    (batch,) = sound("lettuce 15 April raised in the yard", places=PLACES)
    assert _stands(batch) == {"germinating": "warm shelf", "growing on": "bench", "hardening off": "yard"}


def test_it_is_sown_sooner_where_it_comes_up_slower() -> None:
    (warm,) = sound("lettuce 15 April", places=PLACES)
    (cool,) = sound("lettuce 15 April raised on the heated bench", places=PLACES)
    assert warm.stages.sow is not None
    assert cool.stages.sow is not None
    assert warm.stages.sow.day - cool.stages.sow.day > timedelta(days=1)


def test_a_place_too_cold_that_was_asked_for_is_kept_and_doubted() -> None:
    dated, mistakes = planned("tomatoes raised on the bench, 1 June", places=PLACES)
    assert not mistakes
    assert _stands(dated.batches[0])["growing on"] == "bench"
    assert [d.code for d in dated.doubts] == ["bench_too_cold"]
    dated, _ = planned("tomatoes 1 June", places=PLACES)
    assert _stands(dated.batches[0])["growing on"] == "heated bench"
    assert not dated.doubts


def test_series_and_what_is_sown_also_and_between_keep_to_it() -> None:
    every = sound("lettuce raised on the heated bench every 3 weeks May to June", places=PLACES)
    also = sound(also=("60 lettuce on the heated bench 1 April",), places=PLACES)
    _, between = sound("tomatoes 1 June, lettuce raised on the heated bench between", places=PLACES)
    assert len(every) > 2
    for batch in (*every, *also, between):
        assert _stands(batch)["growing on"] == "heated bench"


def test_a_later_sowing_is_reckoned_in_the_same_places() -> None:
    (batch,) = sound("lettuce 15 April raised on the heated bench", places=PLACES)
    (other,) = sound("lettuce sown 17 March", places=PLACES)
    assert batch.slip is not None
    assert other.slip is not None
    assert batch.slip.last_useful != other.slip.last_useful


@pytest.mark.parametrize(
    ("line", "what", "cure"),
    [
        ("kale raised in the polytunnel 1 June", "there is no place `polytunnel`", "`raised at the heated bench`"),
        ("kale raised on the heatd bench, 1 June", "there is no place `heatd bench`", "`raised at the heated bench`?"),
        (
            "kale raised on the Heated Bensh 1 June",
            "no place `Heated Bensh`",
            "Did you mean `raised at the heated bench`?",
        ),
        ("kale raised on the big window sill under fleece", "no place `big window sill`", "`raised at the warm shelf`"),
        ("kale 1 June raised", "`raised` wants a place after it", "`raised at the warm shelf`"),
        ("kale on the windowsill", "`on` wants a date after it", "`raised at the bench`"),
        ("kale on the warm shelf, then heated bench", "`heated bench` is a place, and no crop", "Join places by `and`"),
        ("carrots sown direct 1 May, on the bench", "carrot here is not raised in trays", "Leave the place out."),
        ("garlic on the bench 1 November", "garlic here is not raised in trays", "Leave the place out."),
    ],
)
def test_what_no_tray_can_do_is_refused(line: str, what: str, cure: str) -> None:
    mistake = refused(line, places=PLACES)
    assert what in in_english.what(mistake)
    assert cure in in_english.cure(mistake)


def test_a_place_named_after_a_month_or_a_crop_does_not_hide_them() -> None:
    places = (SHELF, BENCH, YARD, Place("May bench", ("growing on",), Room(), under="unheated glass"))
    (batch,) = sound("lettuce in May", places=places)
    assert batch.asked == ()
    assert batch.stages.plant is not None
    assert batch.stages.plant.day == date(2027, 5, 15)
    (batch,) = sound("lettuce on the May bench, 15 May", places=places)
    assert batch.asked == ("May bench",)
