"""The weekend card: who waters sees every place in which something stands, and nothing runs into anything."""

from __future__ import annotations

from datetime import date, timedelta

import pytest

from sowsheet.sheets.shapes import Sheet
from sowsheet.sheets.view import View, spans_of
from sowsheet.sheets.weekend_card import weekend_cards
from tests.sheets.pages import WIDTH, collisions, outside, smallest_box, texts
from tests.sheets.sample_trays import sample
from tests.sheets.test_job_sheets import PLANS, Plan


def cards(plan: Plan, paper: str = "A4", weeks: str = "") -> Sheet:
    schedule, trays, place = plan
    spans = spans_of(weeks, schedule.season) if weeks else ()
    assert spans is not None
    return weekend_cards(schedule, trays, place, paper, WIDTH, view=View(spans=spans))


@pytest.mark.parametrize("paper", ["A4", "Tabloid"])
@pytest.mark.parametrize("name", PLANS)
def test_nothing_lies_outside_or_runs_into_anything(name: str, paper: str) -> None:
    sheet = cards(PLANS[name](), paper)
    assert list(outside(sheet)) == []
    assert [pair for page in sheet.pages for pair in collisions(page)] == []
    assert smallest_box(sheet) >= 7 - 1e-6


def test_every_place_with_trays_is_on_the_card_of_its_weekend() -> None:
    schedule, trays, place = sample()
    saturday = date(2027, 5, 1)
    used = {s.where for s in trays.stays if s.start < saturday + timedelta(days=2) and s.end > saturday}
    assert len(used) > 1
    words = [t.text for page in cards((schedule, trays, place), weeks="17").pages for t in texts(page)]
    assert words[0] == "Weekend, 1 and 2 May 2027"
    text = " ".join(words)
    for name in used:
        assert name in text


def test_only_the_weeks_that_are_asked_for() -> None:
    sheet = cards(sample(), weeks="11-14")
    assert [title for _, title in sheet.bookmarks] == [
        "Weekend of 20 March",
        "Weekend of 27 March",
        "Weekend of 3 April",
        "Weekend of 10 April",
    ]
