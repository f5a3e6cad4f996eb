"""The index of names, so that only the crop files a garden names are read: `python -m sowsheet.catalogue.index`."""

from __future__ import annotations

import sys
from pathlib import Path

import msgspec

from sowsheet.catalogue.folder import INDEX, SOURCES, crops_folder
from sowsheet.catalogue.names import Head, KindHead
from sowsheet.catalogue.pages import Page, read_page
from sowsheet.reading.mistakes import Mistake
from sowsheet.reading.nodes import read_text
from sowsheet.words.language import language_of
from sowsheet.words.mistakes import shown


def head_of(page: Page, file: str = "") -> Head:
    """What the index keeps of a page."""
    return Head(
        page.key,
        file,
        page.names,
        page.names_us,
        page.unnamed.text if page.unnamed else "",
        tuple(KindHead(kind.key, kind.names) for kind in page.kinds),
    )


def crop_files(folder: Path) -> list[Path]:
    """The crop files of a folder, by name."""
    return sorted(path for path in folder.glob("*.yaml") if path.name != SOURCES)


def index_of(folder: Path, mistakes: list[Mistake]) -> bytes:
    """The index of a folder of crop files, as JSON that reads well in a comparison of versions."""
    heads = []
    for path in crop_files(folder):
        text = read_text(path)
        if isinstance(text, Mistake):
            mistakes.append(text)
            continue
        page = read_page(text, path.name, None, mistakes)
        heads += [head_of(page, path.name)] if page else []
    return msgspec.json.format(msgspec.json.encode(heads), indent=1) + b"\n"


def read_index(folder: Path) -> list[Head]:
    """The heads of all crops. Raises when the index is not there: it is shipped with the crop files."""
    return msgspec.json.decode((folder / INDEX).read_bytes(), type=list[Head])


def main() -> int:
    """Write the index anew; 2 when a crop file has a mistake."""
    mistakes: list[Mistake] = []
    folder = crops_folder()
    index = index_of(folder, mistakes)
    for mistake in mistakes:
        print(shown(mistake, language_of("en")), file=sys.stderr)
    if mistakes:
        return 2
    (folder / INDEX).write_bytes(index)
    return 0


if __name__ == "__main__":
    sys.exit(main())
