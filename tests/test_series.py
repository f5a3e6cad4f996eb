"""Series whose pickings lie evenly."""

from __future__ import annotations

from datetime import timedelta
from itertools import pairwise

from tests import in_english
from tests.made import planned, refused, sound
from tests.test_slip import WARM_AND_COLD

LINE = "headed lettuce every 2 weeks of picking 20 June to 15 October"


def test_sowings_lie_farther_apart_in_spring_than_in_august() -> None:
    batches = sound(LINE, site=WARM_AND_COLD)
    sown = [b.stages.sow.day for b in batches if b.stages.sow]
    apart = [(b - a).days for a, b in pairwise(sown)]
    assert len(sown) == len(batches) == 9
    assert apart[0] > 16
    assert apart[-1] < 12
    assert apart[0] > apart[len(apart) // 2] > apart[-1]


def test_first_pickings_lie_evenly_and_none_comes_late() -> None:
    batches = sound(LINE, site=WARM_AND_COLD)
    picked = [b.stages.first_pick.day for b in batches if b.stages.first_pick]
    wanted = [picked[0] + timedelta(days=14 * n) for n in range(len(picked))]
    assert all(abs((a - b).days) <= 1 for a, b in zip(picked, wanted, strict=True))


def test_what_cannot_be_picked_by_its_day_is_told_and_left_out() -> None:
    dated, mistakes = planned("headed lettuce every 2 weeks of picking 20 April to 15 July", site=WARM_AND_COLD)
    assert not mistakes
    told = [t.sentence for t in dated.told if "can be picked first" in t.sentence]
    assert len(told) == 1
    assert "20 April" in told[0]
    assert all(b.stages.first_pick and b.stages.first_pick.day.month >= 6 for b in dated.batches)


def test_dates_of_picking_are_asked_for() -> None:
    assert "every week of picking May to October" in in_english.cure(refused("chard every week of picking"))


def test_a_picking_that_never_comes_is_refused() -> None:
    mistake = refused("headed lettuce every week of picking 1 February to 1 March", site=WARM_AND_COLD)
    assert "picked first" in in_english.what(mistake)


def test_what_has_no_bed_is_not_picked() -> None:
    _, mistakes = planned(also=("lettuce every week of picking May to October",))
    assert "no bed is not picked" in in_english.what(mistakes[0])
