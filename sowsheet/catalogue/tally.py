"""Where the catalogue is from, counted by field: `python -m sowsheet.catalogue.tally` writes it into DEVELOPERS.md."""

from __future__ import annotations

import re
import sys
from collections import Counter
from collections.abc import Iterable, Iterator
from pathlib import Path

from sowsheet.catalogue.folder import crops_folder
from sowsheet.catalogue.index import crop_files
from sowsheet.catalogue.pages import UNPUBLISHED, Line, Page, read_page
from sowsheet.reading.mistakes import Mistake
from sowsheet.reading.nodes import read_text
from sowsheet.words.language import language_of
from sowsheet.words.mistakes import shown

BEGIN, END = "<!-- tally: begin -->", "<!-- tally: end -->"
ORIGINS = ("published", "practice", "memory")


def pages_of(folder: Path, mistakes: list[Mistake]) -> list[Page]:
    """Every crop file of a folder, taken apart into lines."""
    texts = [(path, read_text(path)) for path in crop_files(folder)]
    mistakes += [text for _, text in texts if isinstance(text, Mistake)]
    pages = [read_page(text, path.name, None, mistakes) for path, text in texts if isinstance(text, str)]
    return [page for page in pages if page is not None]


def tally(pages: Iterable[Page]) -> dict[str, Counter[str]]:
    """For each field, how many lines of crop files rest on a published source, on practice alone, or on memory.

    A line with a published source and `practice` counts as published; one that names `memory` at all, as memory.
    """
    found: dict[str, Counter[str]] = {}
    for path, line in _lines(pages):
        if line.sources:
            found.setdefault(_field(path), Counter())[_origin(line)] += 1
    return dict(sorted(found.items()))


def table(counts: dict[str, Counter[str]]) -> str:
    """The counts as a table in Markdown, what is from memory first."""
    rows = sorted(counts.items(), key=lambda item: (-item[1]["memory"], -item[1].total(), item[0]))
    total = sum((count for _, count in rows), Counter[str]())
    lines = ["| field | lines | published | practice | memory |", "|---|---|---|---|---|"]
    for name, count in [*((f"`{name}`", count) for name, count in rows), ("all", total)]:
        lines.append(f"| {name} | {count.total()} | {' | '.join(str(count[origin]) for origin in ORIGINS)} |")
    return "\n".join(lines)


def with_table(text: str, made: str) -> str:
    """A page with the table between its marks renewed. Raises ValueError on a page without them."""
    start, mark, rest = text.partition(BEGIN)
    _, other, end = rest.partition(END)
    if not (mark and other):
        raise ValueError(f"the page has no `{BEGIN}` and `{END}`")
    return f"{start}{BEGIN}\n{made}\n{END}{end}"


def main() -> int:
    """Renew the table in DEVELOPERS.md; 2 when a crop file has a mistake."""
    mistakes: list[Mistake] = []
    folder = crops_folder()
    counts = tally(pages_of(folder, mistakes))
    for mistake in mistakes:
        print(shown(mistake, language_of("en")), file=sys.stderr)
    if mistakes:
        return 2
    page = folder.parent / "DEVELOPERS.md"
    page.write_text(with_table(page.read_text("utf-8"), table(counts)), "utf-8")
    return 0


def _lines(pages: Iterable[Page]) -> Iterator[tuple[str, Line]]:
    for page in pages:
        yield from page.lines.items()
        for kind in page.kinds:
            yield from kind.lines.items()


def _field(path: str) -> str:
    return re.sub(r"\.\d+$", "", path)


def _origin(line: Line) -> str:
    if "memory" in line.sources:
        return "memory"
    return "practice" if set(line.sources) <= set(UNPUBLISHED) else "published"


if __name__ == "__main__":
    sys.exit(main())
