"""Whatever is written, nothing raises: a garden, or mistakes that stand inside the file."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sowsheet.garden.new import first_garden
from sowsheet.garden.read import own_crop_files, read_garden
from sowsheet.reading.mistakes import Mistake
from sowsheet.words.mistakes import shown
from tests import in_english
from tests.garden.files import text_of
from tests.garden.test_mistakes import WRONG
from tests.reading.book import BOOK

KEYS = sorted({key for key, *_ in WRONG} | {"for", "size", "plan", "cells", "under", "latitude", "held at", "A", "b"})
VALUES = sorted({value for _, value, *_ in WRONG if "\n" not in value})
SIGNS = [
    "",
    " ",
    "{",
    "}",
    "[",
    "]",
    "- ",
    "|",
    ">",
    "'",
    '"',
    "#",
    " #",
    ": ",
    ",",
    "&a",
    "*a",
    "!t",
    "?",
    "\t",
    "\u2028",
]
WORDS = st.sampled_from(
    [*KEYS, *VALUES, *SIGNS, "kale 1 May", "10 May (average)", "6 trays", "53 cm x 31 cm", "\u2028"]
)
LINE = st.builds(
    lambda depth, key, words: "  " * depth + key + "".join(words),
    st.integers(0, 3),
    st.sampled_from([f"{key}: " for key in KEYS] + ["- ", ""]),
    st.lists(st.one_of(WORDS, st.text(max_size=8)), max_size=4),
)
TEXTS = st.one_of(
    st.lists(LINE, max_size=14).map("\n".join),
    st.text(max_size=200),
    st.dictionaries(st.sampled_from(KEYS), WORDS, max_size=6).map(text_of),
    st.lists(st.sampled_from(WRONG), max_size=8).map(lambda rows: text_of({key: value for key, value, *_ in rows})),
)


@pytest.fixture(scope="module")
def path(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A file that every example writes anew."""
    return tmp_path_factory.mktemp("any") / "garden.yaml"


@settings(max_examples=500, deadline=None)
@given(TEXTS)
def test_any_text_is_read_or_refused(path: Path, text: str) -> None:
    path.write_bytes(text.encode("utf-8", "surrogatepass"))
    mistakes: list[Mistake] = []
    garden = read_garden(path, BOOK, mistakes)
    assert (garden is None) == bool(mistakes)
    places = [(m.spot.line, m.spot.column) for m in mistakes]
    assert places == sorted(places)
    for mistake in mistakes:
        assert in_english.what(mistake)
        assert mistake.spot.line >= 1 and mistake.spot.column >= 1
        assert shown(mistake, in_english.EN).startswith(f"{path}:")
    own_crop_files(path)


@settings(max_examples=100, deadline=None)
@given(st.binary(max_size=60))
def test_any_bytes_are_read_or_refused(path: Path, data: bytes) -> None:
    path.write_bytes(data)
    mistakes: list[Mistake] = []
    assert read_garden(path, BOOK, mistakes) is None
    assert mistakes


@settings(max_examples=150, deadline=None)
@given(st.text(max_size=30), st.floats(-90, 90), st.sampled_from(["10 May", "", "5 Nov", "10/5", "x: #y"]))
def test_a_first_garden_is_always_yaml(path: Path, name: str, latitude: float, frost: str) -> None:
    path.write_text(first_garden(name, 2027, latitude, frost, "", "safe", in_english.EN), encoding="utf-8")
    mistakes: list[Mistake] = []
    read_garden(path, BOOK, mistakes)
    assert all(
        m.spot.line in (11, 12) or "crop" in in_english.what(m) or "kind" in in_english.what(m) for m in mistakes
    ), mistakes
