"""Jobs: every edge of a stay or a cover once, on the stage's own date, in the order in which they are walked."""

from __future__ import annotations

from datetime import date

import msgspec
import pytest

from sowsheet.jobs.make import VERB_ORDER, jobs, looks, said
from sowsheet.jobs.records import Job
from sowsheet.words.language import language_of
from tests.sheets.sample_trays import garden, sample

WORDS = language_of("en")


@pytest.fixture(scope="module")
def made() -> tuple[Job, ...]:
    return jobs(*sample())


def of(made: tuple[Job, ...], batch: str, verb: str) -> Job:
    found = [j for j in made if j.batch == batch and j.verb == verb]
    assert len(found) == 1, (batch, verb, found)
    return found[0]


def test_a_tray_raised_crop_has_its_jobs_once_and_on_its_stages(made: tuple[Job, ...]) -> None:
    own = [(j.verb, j.day.isoformat(), j.where, j.to) for j in made if j.batch == "North 3 broad bean"]
    assert own == [
        ("Sow", "2027-02-09", "airing shelf", ""),
        ("Carry", "2027-02-16", "airing shelf", "glasshouse bench"),
        ("Harden", "2027-03-06", "glasshouse bench", "yard"),
        ("Plant", "2027-03-13", "North 3", ""),
        ("Cover", "2027-03-13", "North 3", ""),
        ("Uncover", "2027-04-17", "North 3", ""),
        ("Pick", "2027-06-19", "North 3", ""),
        ("Clear", "2027-07-03", "North 3", ""),
    ]


def test_every_date_is_a_stage_or_an_edge_of_a_cover(made: tuple[Job, ...]) -> None:
    schedule, _, _ = sample()
    for batch in schedule.batches:
        stages = {w.day for w in msgspec.structs.astuple(batch.stages) if w is not None}
        covers = {d for c in batch.covers for d in (c.start, c.end)}
        assert {j.day for j in made if j.batch == batch.name} <= stages | covers


def test_pricked_out_and_potted_on_into_what_is_counted(made: tuple[Job, ...]) -> None:
    assert said(WORDS, of(made, "North 4 celeriac", "Prick out")) == "75 celeriac into 2 trays of 60"
    assert said(WORDS, of(made, "Glass 2 tomato", "Pot on")) == "27 tomatoes into 2 trays of 18 (9 cm pots)"


def test_what_was_there_before_has_no_jobs_before_the_season(made: tuple[Job, ...]) -> None:
    assert [j.verb for j in made if j.batch == "North 1 chard"] == ["Clear"]


def test_a_bulb_is_lifted_and_its_bed_is_then_clear(made: tuple[Job, ...]) -> None:
    assert [j.verb for j in made if j.batch == "North 2 garlic"] == ["Set", "Lift"]
    assert "2 to 4 weeks" in of(made, "North 2 garlic", "Lift").how


def test_whoever_has_no_bed_is_hardened_and_told_ready(made: tuple[Job, ...]) -> None:
    own = [j for j in made if j.batch == "lettuce 1"]
    assert [j.verb for j in own] == ["Sow", "Carry", "Harden"]
    assert "Ready from 17 April" in own[-1].how


def test_a_sharer_is_told_whose_tray_and_which_rows(made: tuple[Job, ...]) -> None:
    guest, owner = of(made, "North 2 lettuce", "Sow"), of(made, "South 3 beetroot", "Sow")
    assert said(WORDS, guest) == "25 cells: lettuce (red oak leaf)"
    assert "In the last tray of beetroot: rows 6 to 9 and 1 cell of row 10." in guest.how
    assert said(WORDS, owner) == "3 trays of 60: beetroot"
    assert "In the last tray: rows 1 to 5, then lettuce" in owner.how
    assert made.index(owner) + 1 == made.index(guest)
    assert said(WORDS, of(made, "North 2 lettuce", "Harden")).startswith("25 cells of lettuce")


def test_between_the_host_and_never_raked(made: tuple[Job, ...]) -> None:
    how = of(made, "North 2 lettuce", "Plant").how
    assert how.startswith("Between the garlic.")
    assert "Rake" not in how


def test_sorted_by_day_place_and_verb(made: tuple[Job, ...]) -> None:
    place = garden()
    order = [*(p.name for p in place.places), *(b.name for b in place.beds)]
    keys = [(j.day, order.index(j.where), VERB_ORDER.index(j.verb)) for j in made]
    assert keys == sorted(keys)
    # clear, rake, water, plant: on one day in one bed
    same = [j.verb for j in made if j.day == date(2027, 7, 6) and j.where == "South 4"]
    assert same == ["Clear", "Plant"]
    assert of(made, "South 4 kale", "Plant").how.startswith("Rake level and water first.")


def test_maybe_stays_maybe(made: tuple[Job, ...]) -> None:
    assert {j.batch for j in made if j.maybe} == {"South 2 lamb's lettuce"}


def test_seedlings_that_come_up_unseen_are_looked_for(made: tuple[Job, ...]) -> None:
    schedule, _, place = sample()
    seen = {look.batch: look.day for look in looks(schedule, place)}
    assert seen["Glass 2 tomato"] == date(2027, 3, 11)
    assert "South 1 onion" not in seen
    assert "May be up on Thursday 11 March" in of(made, "Glass 2 tomato", "Carry").how
    assert looks(schedule, garden(work_days=frozenset())) == ()


def test_compost_is_warned_of_beside_the_crops_own_caution(made: tuple[Job, ...]) -> None:
    care = "Damp dry compost first: its dust harms lungs. Follow its label."
    assert of(made, "North 3 broad bean", "Sow").cautions == ("Treated seed: wear gloves, follow the packet.", care)
    assert all(care in j.caution for j in made if j.verb in {"Sow", "Prick out", "Pot on"})


def test_measures_as_the_garden_writes_them() -> None:
    schedule, trays, place = sample(garden(imperial=True))
    how = of(jobs(schedule, trays, place), "South 2 lettuce", "Plant").how
    assert "4 rows of 20, 12 in apart each way" in how
    assert "cm" not in how
