"""Dates, counts and measures in words."""

from __future__ import annotations

from datetime import date, timedelta

import pytest

from sowsheet.words.language import language_of

ENGLISH = language_of("en")


@pytest.mark.parametrize(
    ("monday", "words"),
    [
        (date(2027, 3, 1), "Monday 1 to Sunday 7 March 2027"),
        (date(2027, 3, 29), "Monday 29 March to Sunday 4 April 2027"),
        (date(2026, 12, 28), "Monday 28 December 2026 to Sunday 3 January 2027"),
    ],
)
def test_a_week_from_monday_to_sunday(monday: date, words: str) -> None:
    assert ENGLISH.week_span(monday) == words


def test_weeks_that_follow_each_other_are_joined() -> None:
    monday = date(2027, 3, 1)
    weeks = [monday + timedelta(weeks=n) for n in (0, 1, 2, 5, 7, 8)]
    assert ENGLISH.weeks_listed(weeks) == "weeks 9 to 11, 14, 16 and 17"
    assert ENGLISH.weeks_listed(weeks[:1]) == "week 9"
    assert ENGLISH.day_short(monday) == "Mon 1 Mar"


@pytest.mark.parametrize(
    ("first", "cells", "words"),
    [
        (0, 30, "rows 1 to 5"),
        (54, 6, "row 10"),
        (0, 27, "rows 1 to 4 and 3 cells of row 5"),
        (27, 20, "the rest of row 5, rows 6 to 7 and 5 cells of row 8"),
        (27, 2, "the next 2 cells of row 5"),
        (27, 3, "the rest of row 5"),
    ],
)
def test_rows_of_a_tray_six_across(first: int, cells: int, words: str) -> None:
    assert ENGLISH.rows_of_cells(first, cells, 6) == words


def test_measures_in_both_tongues() -> None:
    assert [ENGLISH.length(x) for x in (7.5, 30, 100, 120)] == ["7.5 cm", "30 cm", "1 m", "1.2 m"]
    assert [ENGLISH.length(x, imperial=True) for x in (7.5, 22, 30, 100, 121.92)] == [
        "3 in",
        "8½ in",
        "12 in",
        "3 ft 3 in",
        "4 ft",
    ]
    assert [ENGLISH.depth(x, imperial=True) for x in (3, 10, 25)] == ["⅛ in", "⅜ in", "1 in"]
    assert [ENGLISH.weight(x) for x in (0.04, 0.37, 6.4, 12.3, 1234)] == ["0.04 g", "0.37 g", "6.4 g", "12 g", "1.2 kg"]
    assert (ENGLISH.weight(0.006), ENGLISH.weight(0.0)) == ("under 0.01 g", "0 g")
    assert ENGLISH.weight(600, imperial=True) == "1.3 lb"
    # NIST SP 811, appendix B.8: a cubic foot is 28.316 85 l, a cubic yard 764.5549 l
    assert [ENGLISH.volume(x, imperial=True) for x in (28.31685, 99, 1263)] == ["1.0 cu ft", "3.5 cu ft", "45 cu ft"]
    assert [ENGLISH.volume(x) for x in (99.4, 1263)] == ["99 l", "1,263 l"]
    assert (ENGLISH.bulk(764.5549, imperial=True), ENGLISH.bulk(1075)) == ("1.0 cu yd", "1.1 m³")
    assert (ENGLISH.bulk(50, imperial=True), ENGLISH.bulk(25), ENGLISH.bulk(100)) == ("1.8 cu ft", "25 l", "0.1 m³")
    assert [ENGLISH.weight(x, imperial=True) for x in (0.37, 6.4)] == ["0.37 g", "0.23 oz"]  # fine seed by the gram
    assert ENGLISH.spacing(15, 30) == "15 cm apart, rows 30 cm apart"
    assert ENGLISH.spacing(30, 30) == "30 cm apart each way"
    assert (ENGLISH.span_of_days(14, 28), ENGLISH.span_of_days(10, 14), ENGLISH.span_of_days(7, 7)) == (
        "2 to 4 weeks",
        "10 to 14 days",
        "7 days",
    )
    assert [ENGLISH.percent(x) for x in (0.15, 0.024, 0.0002)] == ["15 %", "2.4 %", "under 0.1 %"]


def test_trays_by_their_cells_and_by_name_where_cells_do_not_say_it() -> None:
    assert ENGLISH.trays_of(2, 60, "60-cell") == "2 trays of 60"
    assert ENGLISH.trays_of(1, 18, "9 cm pots") == "1 tray of 18 (9 cm pots)"
    assert ENGLISH.trays_of(2, 0, "seed tray") == "2 seed trays"


def test_a_crop_in_the_growers_word_with_its_kind() -> None:
    assert ENGLISH.crop_name("tomatoes", "", "tomato", "red") == "tomatoes (red)"
    assert ENGLISH.crop_name("lettuce", "winter", "winter lettuce") == "winter lettuce"
    assert ENGLISH.crop_name("broad beans", "autumn", "autumn broad bean") == "autumn broad beans"
    assert ENGLISH.crop_name("onions", "from sets", "onion from sets") == "onions from sets"
    assert ENGLISH.crop_name("onions from seed", "from seed", "onion from seed") == "onions from seed"
    assert (ENGLISH.the("airing shelf"), ENGLISH.the("Glass 1")) == ("the airing shelf", "Glass 1")
    assert [ENGLISH.nth(n) for n in (1, 2, 3, 4, 11, 21)] == ["1st", "2nd", "3rd", "4th", "11th", "21st"]
