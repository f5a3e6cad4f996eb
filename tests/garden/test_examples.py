"""The example gardens: without mistakes and doubts, and as large as they say."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from sowsheet.cli.common import weather_of
from sowsheet.garden.read import read_garden
from sowsheet.garden.records import Garden
from sowsheet.reading.mistakes import Mistake
from sowsheet.schedule.plan import schedule
from sowsheet.schedule.records import Batch, Schedule
from sowsheet.trays.plan import space_doubts, tray_plan
from tests.made import catalogue

EXAMPLES = Path(__file__).parents[2] / "out_examples"
NAMES = ("four-beds", "twelve-beds", "southern", "own-weather")


def example(name: str) -> tuple[Garden, Schedule]:
    """An example, read and dated."""
    mistakes: list[Mistake] = []
    garden = read_garden(EXAMPLES / name / "garden.yaml", catalogue().names, mistakes)
    assert mistakes == []
    assert garden is not None
    dated, found = schedule(garden, catalogue().crop, weather=weather_of(garden))
    assert found == []
    return garden, dated


@pytest.mark.parametrize("name", NAMES)
def test_no_doubts(name: str) -> None:
    garden, dated = example(name)
    assert [d.what for d in (*dated.doubts, *space_doubts(garden, tray_plan(dated, garden)))] == []


@pytest.mark.parametrize("name", NAMES)
def test_no_family_follows_itself(name: str) -> None:
    _, dated = example(name)
    family = {key: crop.family for key, crop in catalogue().crops.items()}
    for bed in {b.bed for b in dated.batches if b.bed}:
        here = sorted((b for b in dated.batches if b.bed == bed), key=_goes_in)
        for one in here:
            followers = [b for b in here if one.stages.clear and one.stages.clear.day <= _goes_in(b)][:1]
            for other in [b for b in followers if not b.series or b.series != one.series]:
                assert family[one.kind.crop] != family[other.kind.crop], f"{bed}: {one.name}, then {other.name}"


def _goes_in(batch: Batch) -> date:
    return batch.stages.plant.day if batch.stages.plant else date.min


def test_four_beds() -> None:
    garden, dated = example("four-beds")
    assert len(garden.beds) == 4
    assert len(dated.batches) <= 12


def test_twelve_beds() -> None:
    garden, dated = example("twelve-beds")
    assert (len(garden.beds), garden.site.latitude, garden.imperial) == (12, 52.4, False)
    assert sum(b.under == "unheated glass" for b in garden.beds) >= 2
    in_season = [b for b in dated.batches if not b.open_left and _first_day(b) >= dated.season.start]
    assert 25 <= len(in_season) <= 30
    assert garden.site.monthly is not None


def _first_day(batch: Batch) -> date:
    first = batch.stages.sow or batch.stages.plant
    return first.day if first else date.min


def test_twelve_beds_are_hardly_ever_empty() -> None:
    garden, dated = example("twelve-beds")
    for bed in garden.beds:
        stands = {
            day
            for b in dated.batches
            if b.bed == bed.name
            for s in b.stays
            if s.part is not None
            for day in range(s.start.toordinal(), s.end.toordinal())
        }
        growing = range(date(2027, 4, 20).toordinal(), date(2027, 10, 1).toordinal())
        assert len(stands.intersection(growing)) >= 0.75 * len(growing), bed.name


def test_southern() -> None:
    garden, dated = example("southern")
    assert (garden.site.latitude, garden.imperial, garden.paper) == (-37.5, True, "Letter")
    assert (dated.season.start, dated.season.end) == (date(2027, 7, 1), date(2028, 6, 30))
