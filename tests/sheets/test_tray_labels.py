"""Labels lie inside their cuts, there is one for each tray, and the dates are those of the plan."""

from __future__ import annotations

import pytest

from sowsheet.sheets.furniture import MM
from sowsheet.sheets.shapes import Sheet
from sowsheet.sheets.tray_labels import Grid, grid_of, sizes_of, tray_labels
from sowsheet.sheets.view import View, spans_of
from sowsheet.words.language import language_of
from tests.examples import GARDENS, plan
from tests.sheets.pages import WIDTH, collisions, outside, texts

SIZES = ("", "63.5 x 38.1 mm", "70x37", "125 x 16", "38 x 20", "2,5 x 1 in", "99.1 x 38.1")


def labels(name: str, size: str = "", paper: str = "A4", weeks: str = "") -> tuple[Sheet, Grid]:
    p, grid = plan(name), grid_of(size, paper)
    spans = spans_of(weeks, p.schedule.season) if weeks else ()
    assert grid is not None
    assert spans is not None
    made = tray_labels(p.schedule, p.trays, p.garden, paper, WIDTH, None, View(spans=spans), grid)
    return made, grid


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("paper", ["A4", "Letter"])
@pytest.mark.parametrize("name", GARDENS)
def test_every_word_lies_inside_one_label(name: str, paper: str, size: str) -> None:
    sheet, grid = labels(name, size, paper)
    assert list(outside(sheet, margin=3 * MM)) == []
    for page in sheet.pages:
        assert collisions(page) == []
        for text in texts(page):
            x, y = text.left / MM - grid.left, text.top / MM - grid.top
            left, top = x % grid.pitch_x, y % grid.pitch_y
            assert left + (text.right - text.left) / MM < grid.width - 1.5
            assert top + (text.bottom - text.top) / MM < grid.height
    whole = grid.across * grid.down
    assert grid.left + (grid.across - 1) * grid.pitch_x + grid.width <= sheet.pages[0].width / MM + 0.2
    assert whole > 3


@pytest.mark.parametrize("name", GARDENS)
def test_there_is_one_for_each_tray_that_is_sown_and_it_tells_when_to_plant(name: str) -> None:
    sheet, _ = labels(name)
    sowings = plan(name).trays.sowings
    words = [t.text for page in sheet.pages for t in texts(page)]
    assert sum(w.startswith("sown ") for w in words) == sum(max(1, s.trays) for s in sowings)
    batches = {b.name: b for b in plan(name).schedule.batches}
    for sowing in sowings:
        plant = batches[sowing.batch].stages.plant
        if plant is not None:
            assert f"plant out by {language_of('en').day_brief(plant.day)}: {batches[sowing.batch].bed}" in words


def test_only_the_weeks_that_are_asked_for() -> None:
    sheet, _ = labels("twelve-beds", weeks="9")
    sown = {t.text for page in sheet.pages for t in texts(page) if t.text.startswith("sown ")}
    assert sown
    assert all(w.endswith(", week 9") for w in sown)


def test_sizes_are_read_and_what_fits_no_paper_is_refused() -> None:
    ready = grid_of("63.5 x 38.1", "A4")
    inches = grid_of("4 x 2 in", "Letter")
    card = grid_of("80 x 30", "A4")
    assert ready is not None
    assert inches is not None
    assert card is not None
    assert (ready.across * ready.down, ready.cut) == (21, False)
    assert (inches.across * inches.down, inches.cut) == (10, False)
    assert (card.across, card.down, card.cut) == (2, 9, True)
    for words in ("9 x 9", "300 x 40", "large", "63.5"):
        assert grid_of(words, "A4") is None
    assert all(grid_of(size, paper) is not None for paper in ("A4", "Letter") for size in sizes_of(paper))
