"""The price of a week and the last useful sowing."""

from __future__ import annotations

from datetime import date, timedelta

import msgspec
import pytest

from sowsheet.garden.records import Monthly, Shelter
from sowsheet.schedule.records import Batch, Slip
from sowsheet.sheets.spoken import batch_said
from sowsheet.words.language import language_of
from tests.made import NORTH, sound

WARM_AND_COLD = msgspec.structs.replace(
    NORTH,
    monthly=Monthly(
        (1.0, 1.0, 2.3, 3.9, 6.7, 9.6, 11.6, 11.5, 9.3, 6.7, 3.6, 1.5),
        (6.8, 7.4, 10.0, 12.9, 16.2, 19.1, 21.4, 21.0, 18.1, 13.9, 9.8, 7.1),
    ),
)


def _batches(words: str, under: Shelter = "") -> tuple[Batch, ...]:
    return sound(words, site=WARM_AND_COLD, under=under)


def _slip(words: str, under: Shelter = "") -> Slip:
    slip = _batches(words, under)[0].slip
    assert slip is not None
    return slip


def _costs(words: str, under: Shelter = "") -> int:
    costs = _slip(words, under).costs_days
    assert costs is not None
    return costs


def test_a_week_costs_little_in_spring_and_much_in_autumn() -> None:
    """House plan: headed lettuce sown in February 2 or 3 days, in April 4 to 6, in June 7, in mid-July 12."""
    days = ("sown 25 February", "sown 15 April", "sown 10 June", "sown 12 July")
    costs = [_costs(f"headed lettuce {day}") for day in days]
    assert costs == sorted(costs)
    assert costs[0] in (2, 3)
    assert costs[1] in (4, 5, 6)
    assert costs[2] in (6, 7, 8)
    assert costs[3] > 8
    assert _costs("winter lettuce sown 8 September", "unheated glass") > 10


def test_what_waits_in_its_tray_can_be_sown_a_week_later_for_nothing() -> None:
    slip = _slip("tomatoes sown 10 March")
    assert slip.costs_days == 0


def test_the_year_brings_garlic_whenever_it_is_set() -> None:
    slip = _slip("garlic 20 October")
    assert slip.costs_days == 0
    assert slip.last_useful is not None
    assert slip.why == "its window shuts"


def test_the_day_after_the_last_useful_sowing_is_of_no_use() -> None:
    for words in ("chard sown 1 June", "carrots sown direct 10 June", "French beans sown direct 1 June"):
        last = _slip(words).last_useful
        assert last is not None
        crop, _, how = words.partition(" sown ")
        how = "direct " if "direct" in how else ""
        again = _slip(f"{crop} sown {how}{last.day} {last:%B}")
        assert again.last_useful == last
        later = last + timedelta(days=1)
        assert _slip(f"{crop} sown {how}{later.day} {later:%B}").last_useful in (None, *_after(last))


def _after(last: date) -> tuple[date, ...]:
    """Days of a later window."""
    return tuple(last + timedelta(days=n) for n in range(20, 200))


def test_the_next_crop_sets_the_last_sowing() -> None:
    alone = _slip("headed lettuce 6 April").last_useful
    followed, follower = _batches("headed lettuce 6 April, then leeks 1 July")
    assert followed.slip is not None
    assert followed.slip.last_useful is not None
    assert alone is not None
    assert followed.slip.last_useful < alone
    assert followed.slip.why == "the next crop needs the bed before there is a picking"
    assert follower.slip is not None


def test_a_follower_without_a_date_waits_until_its_window_shuts() -> None:
    dated = _batches("headed lettuce 6 April, then leeks 1 July")[0].slip
    free = _batches("headed lettuce 6 April, then leeks")[0].slip
    assert dated is not None
    assert free is not None
    assert dated.last_useful is not None
    assert free.last_useful is not None
    assert free.last_useful > dated.last_useful


def test_too_late_already_says_why() -> None:
    slip = _slip("calabrese 1 October")
    assert slip.last_useful is None
    assert slip.why


@pytest.mark.parametrize("words", ["chard there till May", "asparagus there"])
def test_what_is_there_has_no_sowing_to_put_off(words: str) -> None:
    assert _batches(words)[0].slip is None


def test_without_temperatures_a_week_costs_a_week() -> None:
    slip = sound("headed lettuce 6 April", site=NORTH)[0].slip
    assert slip is not None
    assert slip.costs_days == 7


PICKED = ("radishes sown direct every week of picking May to July", "radish 1 April, then lettuce picked from August")


@pytest.mark.parametrize("line", PICKED)
def test_the_next_crop_that_is_to_be_picked_on_a_day_needs_the_bed(line: str) -> None:
    """It was said that radishes of March may be sown in August, though their strip is sown again in May."""
    first, *later = sound(line)
    starts = {b.part.along_start_cm: b.stages.plant for b in reversed(later) if b.part}
    following = starts[first.part.along_start_cm] if first.part else None
    assert first.slip is not None
    assert first.slip.last_useful is not None
    assert following is not None
    assert "next crop" in first.slip.why
    assert following.day - timedelta(days=45) < first.slip.last_useful < following.day


@pytest.mark.parametrize("line", ["garlic since October", "broad beans since November, then leeks", "chard there"])
def test_what_went_in_before_the_season_has_no_price_and_no_last_day(line: str) -> None:
    batch = _batches(line)[0]
    assert batch.slip is None
    said = batch_said(language_of("en"), batch, None, 2027)
    assert "a week later" not in said
    assert "last useful" not in said
