"""The printed examples are those of today's code, and the comparer that says so can fail."""

from __future__ import annotations

import re

import msgspec
import pytest

from sowsheet.sheets.paint import pdf_bytes
from sowsheet.sheets.shapes import Box, Page, Sheet, Words
from tests.example_weather import FOLDER, files
from tests.examples import GARDENS, ROOT, printed
from tests.pdf import differences


@pytest.mark.parametrize("garden", GARDENS)
def test_printed_examples_are_not_stale(garden: str) -> None:
    for name, data in printed(garden).items():
        stored = (ROOT / "out_examples" / garden / name).read_bytes()
        assert differences(stored, data) == [], f"{garden}/{name} is stale: run `python tests/examples.py`, and look"


@pytest.mark.parametrize("garden", GARDENS)
def test_the_same_input_gives_the_same_bytes(garden: str) -> None:
    assert printed(garden) == printed(garden)


PAGE = Page(300.0, 200.0, (Words(20, 50, "Leek"), Box(20, 60, 100, 20, stroke=0.0)))


@pytest.mark.parametrize(
    ("other", "says"),
    [
        ((Words(20, 50, "Leeks"), Box(20, 60, 100, 20, stroke=0.0)), "text"),
        ((Words(20, 50, "Leek"), Box(21, 60, 100, 20, stroke=0.0)), "elsewhere"),
        ((Words(20, 50, "Leek"), Box(20, 60, 102, 20, stroke=0.0)), "elsewhere"),
        ((Words(20, 50, "Leek"),), "drawn"),
    ],
)
def test_the_comparer_fails_where_it_must(other: tuple[object, ...], says: str) -> None:
    one = pdf_bytes(Sheet("one", (PAGE,)))
    changed = msgspec.structs.replace(PAGE, shapes=other)
    found = differences(one, pdf_bytes(Sheet("one", (changed,))))
    assert len(found) == 1
    assert says in found[0]


def test_the_comparer_counts_pages_and_passes_what_is_the_same() -> None:
    one = pdf_bytes(Sheet("one", (PAGE,)))
    assert differences(one, one) == []
    assert differences(one, pdf_bytes(Sheet("one", (PAGE, PAGE)))) == ["page 2: only in one of them"]


def test_the_invented_weather_is_what_its_script_writes() -> None:
    for name, text in files().items():
        assert (FOLDER / name).read_text(encoding="utf-8") == text


def test_readme_shows_pictures_of_sheets_that_are_printed() -> None:
    readme = (ROOT / "README.md").read_text(encoding="utf-8")
    shown = set(re.findall(r"out_examples/[\w/-]+\.png", readme))
    assert len(shown) >= 6
    for path in shown:
        assert (ROOT / path).is_file(), path
        assert (ROOT / path).with_suffix(".pdf").is_file(), path
