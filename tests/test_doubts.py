"""Doubts: each for its reason, with a cure, and none for a sound plan."""

from __future__ import annotations

import pytest

from sowsheet.garden.records import Place, Room
from sowsheet.schedule.plan import schedule
from sowsheet.schedule.records import Doubt
from sowsheet.trays.plan import space_doubts, tray_plan
from tests.made import NORTH, catalogue, garden, limited, planned

WARM_BENCH = (
    Place("shelf", ("germinating",), Room(), held_at_c=20.0),
    Place("warm bench", ("growing on",), Room(), held_at_c=10.0),
    Place("yard", ("hardening off",), Room(), under="outdoors"),
)


def doubts(*words: str, **options: object) -> dict[str, Doubt]:
    dated, mistakes = planned(*words, **options)
    assert not mistakes, [m.what for m in mistakes]
    return {d.code: d for d in dated.doubts}


@pytest.mark.parametrize(
    ("words", "code"),
    [
        ("tomatoes 1 May", "planted_too_cold"),
        ("tomatoes", "bench_too_cold"),
        ("kale mid-September", "window_shut"),
        ("calabrese 10 March", "meant_sown"),
        ("French beans mid-August", "window_shut"),
        ("winter squash mid-August", "too_late"),
        ("leeks there till mid May, then peas 1 May", "occupied"),
        ("garlic since October, then leeks 20 June", "occupied"),
        ("calabrese mid-April, then courgettes 25 June", "picking_lost"),
        ("spinach sown direct 10 June", "bolts"),
        ("lettuce sown 1 March, planted 25 May", "waits_too_long"),
        ("lettuce sown 1 March, planted 12 March", "not_ready"),
    ],
)
def test_a_doubt_with_its_reason_and_its_cure(words: str, code: str) -> None:
    found = doubts(words)
    assert code in found, sorted(found)
    assert found[code].what
    assert found[code].why
    assert found[code].cure


@pytest.mark.parametrize(
    "words",
    [
        "lettuce mid-April, then leeks 25 June",
        "garlic since October, then kale when free",
        "onions from seed late March, then spinach mid-August",
        "broad beans since November, then beetroot",
        "chard till late April, then courgettes early June, then nothing",
        "peas early April, then sprouting broccoli early July",
        "winter squash early June",
    ],
)
def test_a_sound_line_raises_none(words: str) -> None:
    assert doubts(words, places=WARM_BENCH) == {}


def test_a_warm_bench_cures_the_tomatoes() -> None:
    assert "bench_too_cold" in doubts("tomatoes")
    assert "bench_too_cold" not in doubts("tomatoes", places=WARM_BENCH)


def test_the_chance_of_frost_is_told_as_growers_say_it() -> None:
    doubt = doubts("tomatoes 10 May", places=WARM_BENCH)["planted_too_cold"]
    assert "1 spring in 2" in doubt.why
    assert "30 May" in doubt.cure


def test_a_shelf_too_cold_for_the_seed() -> None:
    cold = (Place("porch", ("germinating",), Room(), held_at_c=8.0), *WARM_BENCH[1:])
    assert "germination_too_cold" in doubts("cucumbers early June", places=cold)
    hot = (Place("boiler shelf", ("germinating",), Room(), held_at_c=33.0), *WARM_BENCH[1:])
    assert "germination_too_hot" in doubts("lettuce mid-April", places=hot)


def test_seedlings_that_show_when_nobody_is_there() -> None:
    # lettuce is up in three days at 20 C: sown on a Tuesday it shows on Friday
    found = doubts("lettuce sown 6 April", work_days=frozenset({1, 5}))
    assert "up_unattended" in found
    assert "up_unattended" not in doubts("lettuce sown 10 April", work_days=frozenset({1, 5}))


def test_a_bench_that_is_too_small_is_one_doubt() -> None:
    places = (WARM_BENCH[0], limited("bench", 2), WARM_BENCH[2])
    made = garden(
        "lettuce mid-April", "calabrese mid-April", "onions from seed early April", mistakes=[], places=places
    )
    dated, _ = schedule(made, catalogue().crop)
    found = [d for d in space_doubts(made, tray_plan(dated, made)) if d.code == "no_room"]
    assert len(found) == 1
    assert "bench" in found[0].what


def test_without_frost_dates_what_hangs_on_them_stays_blank() -> None:
    bare = type(NORTH)(NORTH.latitude)
    dated, mistakes = planned("tomatoes, then leeks", site=bare)
    assert not mistakes
    assert dated.batches[0].stages.plant is None
    assert any("frost date" in t.sentence for t in dated.told)
