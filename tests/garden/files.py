"""Garden files made of parts, read from disk."""

from __future__ import annotations

from pathlib import Path

from sowsheet.garden.read import read_garden
from sowsheet.garden.records import Garden
from sowsheet.reading.mistakes import Mistake
from tests.reading.book import BOOK

PARTS = {
    "garden": "Tern Hollow",
    "season": "2027",
    "site": "{latitude: 52.4}",
    "beds are": "6 m x 1.2 m",
    "beds": "{A: kale 1 May}",
}


def text_of(parts: dict[str, str]) -> str:
    """A garden file: these parts, and the usual ones. A part of "" is left out."""
    return "".join(f"{key}: {value}\n" for key, value in {**PARTS, **parts}.items() if value)


def read_text(folder: Path, text: str) -> tuple[Garden | None, list[Mistake]]:
    """The garden of a text, and its mistakes."""
    path = folder / "garden.yaml"
    path.write_text(text, encoding="utf-8")
    mistakes: list[Mistake] = []
    return read_garden(path, BOOK, mistakes), mistakes


def sound(folder: Path, **parts: str) -> Garden:
    """The garden of a file that has to be without mistakes; in the parts' keys `_` stands for a space."""
    garden, mistakes = read_text(folder, text_of({key.replace("_", " "): value for key, value in parts.items()}))
    assert mistakes == []
    assert garden is not None
    return garden


def refused(folder: Path, key: str, value: str) -> list[Mistake]:
    """The mistakes of a file with one part that is wrong."""
    garden, mistakes = read_text(folder, text_of({key: value}))
    assert garden is None
    assert mistakes
    return mistakes
