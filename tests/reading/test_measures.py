"""Measures: conversions, forms, and values out of all reason."""

from __future__ import annotations

from fractions import Fraction

import pytest

from sowsheet.reading.measures import (
    Size,
    is_imperial,
    parse_count,
    parse_days,
    parse_decimal,
    parse_latitude,
    parse_length,
    parse_percent,
    parse_size,
    parse_temp_c,
    parse_volume_ml,
)
from sowsheet.reading.mistakes import Mistake
from sowsheet.reading.places import part_of, split_note
from tests import in_english
from tests.reading.book import marked, scalar

PARSERS = {
    "length": parse_length,
    "size": parse_size,
    "temp": parse_temp_c,
    "percent": parse_percent,
    "days": parse_days,
    "volume": parse_volume_ml,
    "count": parse_count,
    "latitude": parse_latitude,
}

# An inch is 2.54 cm and a foot 30.48 cm exactly (international yard and pound agreement, 1959).
READ: list[tuple[str, str, object]] = [
    ("length", "1.2 m", 120.0),
    ("length", "120cm", 120.0),
    ("length", "300 mm", 30.0),
    ("length", "4 ft", 121.92),
    ("length", "18 in", 45.72),
    ("length", "4 ft 6 in", 137.16),
    ("length", "4'6\"", 137.16),
    ("length", "4′ 6″", 137.16),
    ("length", "4'", 121.92),
    ("length", "2 Metres", 200.0),
    ("size", "4.5 m x 0.6 m", Size(450.0, 60.0)),
    ("size", "53 cm x 31 cm", Size(53.0, 31.0)),
    ("size", "53x31 cm", Size(53.0, 31.0)),
    ("size", "21 in x 10.5 in", Size(53.34, 26.67)),
    ("size", "6 × 1.2 m", Size(600.0, 120.0)),
    ("size", "6 m by 120 cm", Size(600.0, 120.0)),
    ("size", "20 ft x 4 ft 6 in", Size(609.6, 137.16)),
    ("size", "20' x 4'6\"", Size(609.6, 137.16)),
    ("temp", "18 C", 18.0),
    ("temp", "18°C", 18.0),
    ("temp", "-3 °C", -3.0),
    ("temp", "−3 C", -3.0),
    ("temp", "68 F", 20.0),
    ("temp", "-40 F", -40.0),
    ("percent", "10 %", Fraction(1, 10)),
    ("percent", "12.5%", Fraction(1, 8)),
    ("percent", "0 percent", Fraction(0)),
    ("days", "5 weeks", 35),
    ("days", "4 days", 4),
    ("days", "a week", 7),
    ("days", "fortnight", 14),
    ("days", "two fortnights", 28),
    ("volume", "30 ml", 30.0),
    ("volume", "0.4 l", 400.0),
    ("volume", "2 litres", 2000.0),
    ("volume", "2 cu in", 32.774128),
    ("volume", "2 cu. in.", 32.774128),
    ("count", "14", 14),
    ("count", "six", 6),
    ("latitude", "52.4", 52.4),
    ("latitude", "52.4 N", 52.4),
    ("latitude", "52.4° N", 52.4),
    ("latitude", "33.9 S", -33.9),
    ("latitude", "33.9 south", -33.9),
    ("latitude", "-33.9", -33.9),
    ("latitude", "0", 0.0),
    ("latitude", "90 S", -90.0),
]

REFUSED = [
    ("length", "1.2", "`1.2 m`"),
    ("length", "1,2 m", "`1.2`"),
    ("length", "m", "`1.2 m`"),
    ("length", "0 m", "`1.2 m`"),
    ("length", "-1 m", "`1.2 m`"),
    ("length", "600 m", "`1.2 m`"),
    ("length", "4 ft 6", "`4 ft 6 in`"),
    ("length", "4 m 6 in", "`4 ft 6 in`"),
    ("length", "2 m2", "`1.2 m`"),
    ("length", "", "`1.2 m`"),
    ("size", "4.5 m", "`4.5 m x 0.6 m`"),
    ("size", "6 x 1.2", "`4.5 m x 0.6 m`"),
    ("size", "6 m x 1.2", "`4.5 m x 0.6 m`"),
    ("size", "6 m x 1,2 m", "`1.2`"),
    ("size", "6 m x 600 m", "`1.2 m`"),
    ("size", "6 m x 0 m", "`1.2 m`"),
    ("size", "1 m x 1 m x 1 m", "`4.5 m x 0.6 m`"),
    ("temp", "18", "`18 C`"),
    ("temp", "200 C", "`18 C`"),
    ("temp", "200 F", "`18 C`"),
    ("temp", "18 K", "`18 C`"),
    ("temp", "18,5 C", "`18.5`"),
    ("percent", "10", "`10 %`"),
    ("percent", "0.1", "`10 %`"),
    ("percent", "110 %", "`10 %`"),
    ("percent", "-5 %", "`10 %`"),
    ("days", "14", "`4 days`"),
    ("days", "2 months", "`4 days`"),
    ("days", "1.5 weeks", "`10 days`"),
    ("days", "60 weeks", "`5 weeks`"),
    ("volume", "30", "`30 ml`"),
    ("volume", "0 ml", "`30 ml`"),
    ("volume", "30 in", "`2 cu in`"),
    ("volume", "5000 l", "`30 ml`"),
    ("count", "1.5", "`6`"),
    ("count", "1,000", "`1000`"),
    ("count", "6 trays", "`6`"),
    ("count", "-2", "`6`"),
    ("count", "9999999", "`6`"),
    ("latitude", "95", "`52.4`"),
    ("latitude", "52,4", "`52.4`"),
    ("latitude", "-33.9 S", "`33.9 S`"),
    ("latitude", "1.5 W", "`52.4`"),
    ("latitude", "52° 24' N", "`52.4 N`"),
    ("latitude", "52°24'", "`52.4`"),
    ("latitude", "Tern Hollow", "`52.4`"),
]


@pytest.mark.parametrize(("measure", "text", "expected"), READ)
def test_read(measure: str, text: str, expected: object) -> None:
    mistakes: list[Mistake] = []
    value = PARSERS[measure](scalar(text), mistakes)  # type: ignore[operator]
    assert mistakes == []
    assert value == (pytest.approx(expected, abs=1e-9) if isinstance(expected, float) else expected)


@pytest.mark.parametrize(("measure", "text", "cure"), REFUSED)
def test_refused_with_a_cure(measure: str, text: str, cure: str) -> None:
    mistakes: list[Mistake] = []
    assert PARSERS[measure](scalar(text), mistakes) is None  # type: ignore[operator]
    (mistake,) = mistakes
    assert cure in in_english.cure(mistake)
    assert marked(mistake) == text


def test_counts_with_their_plural() -> None:
    mistakes: list[Mistake] = []
    assert parse_count(scalar("6 trays"), mistakes, "trays") == 6
    assert parse_count(scalar("1 tray"), mistakes, "trays") == 1
    assert parse_count(scalar("14"), mistakes, "trays") == 14
    assert mistakes == []
    assert parse_count(scalar("14"), mistakes, "trays", unit_wanted=True) is None
    assert parse_count(scalar("1026"), mistakes, low=1900, high=2200) is None
    assert [in_english.cure(m) for m in mistakes] == ["e.g. `6 trays`", "e.g. `1900`"]


def test_decimals_within_limits() -> None:
    mistakes: list[Mistake] = []
    assert parse_decimal(scalar("-1.5"), mistakes, -10, 10) == -1.5
    assert mistakes == []
    assert parse_decimal(scalar("11"), mistakes, -10, 10) is None
    assert parse_decimal(scalar("1,5"), mistakes, -10, 10) is None
    assert "from -10 to 10" in in_english.what(mistakes[0])
    assert in_english.cure(mistakes[1]) == "Write `1.5`, with a point."


def test_a_limit_of_its_own() -> None:
    mistakes: list[Mistake] = []
    assert parse_size(scalar("6 m x 1.2 m"), mistakes, 200.0) is None
    assert "between 0 and 2 m" in in_english.what(mistakes[0])


@pytest.mark.parametrize(
    ("text", "imperial"),
    [
        ("4 ft", True),
        ("18 in", True),
        ("4'6\"", True),
        ("64 F", True),
        ("2 cu in", True),
        ("1.2 m", False),
        ("18 C", False),
    ],
)
def test_imperial(text: str, imperial: bool) -> None:
    assert is_imperial(scalar(text)) is imperial


def test_a_note_in_brackets_keeps_its_place() -> None:
    text, note = split_note(scalar("10 May (average)"))
    assert (text.text, text.spot.column, text.spot.length) == ("10 May", 10, 6)
    assert note is not None
    assert (note.text, note.spot.column, note.spot.length) == ("average", 18, 7)
    assert split_note(scalar("10 May"))[1] is None
    assert part_of(scalar("a, bc"), 2, 5).spot.column == 13
