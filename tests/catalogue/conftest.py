"""A small catalogue of three invented crop files, which the tests may spoil."""

from __future__ import annotations

from pathlib import Path
from shutil import copytree

import pytest

from sowsheet.catalogue.catalogue import Catalogue
from sowsheet.catalogue.folder import INDEX
from sowsheet.catalogue.index import index_of
from sowsheet.reading.mistakes import Mistake

SHELF = Path(__file__).parent / "shelf"
SOURCES = ("book-a-1990", "book-b-2001")


@pytest.fixture
def shelf(tmp_path: Path) -> Path:
    """The folder of the small catalogue, with its index."""
    folder = tmp_path / "shelf"
    copytree(SHELF, folder)
    mistakes: list[Mistake] = []
    (folder / INDEX).write_bytes(index_of(folder, mistakes))
    assert not mistakes
    return folder


@pytest.fixture
def small(shelf: Path) -> Catalogue:
    """The small catalogue, opened."""
    mistakes: list[Mistake] = []
    catalogue = Catalogue.open(mistakes, folder=shelf)
    assert not mistakes
    return catalogue
