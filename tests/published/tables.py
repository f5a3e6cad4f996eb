"""Small published tables, copied beside their tests with their sources."""

from __future__ import annotations

import csv
from pathlib import Path


def rows(name: str) -> list[dict[str, str]]:
    """The rows of `data/NAME`."""
    text = (Path(__file__).parent / "data" / name).read_text(encoding="utf-8")
    return list(csv.DictReader(text.splitlines()))
