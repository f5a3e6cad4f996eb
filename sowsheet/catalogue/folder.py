"""Where the catalogue lives."""

from __future__ import annotations

from pathlib import Path

INDEX = "index.json"
SOURCES = "sources.yaml"


def crops_folder() -> Path:
    """The folder of crop files: inside an installed package, beside the package in a checkout."""
    package = Path(__file__).parent.parent
    shipped = package / "_crops"
    return shipped if shipped.is_dir() else package.parent / "crops"
