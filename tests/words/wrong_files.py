"""The mistakes that the tests of reading/ and garden/ provoke, from their own tables of wrong lines and files."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path

from sowsheet.garden.read import read_garden
from sowsheet.reading.date_words import parse_date
from sowsheet.reading.measures import parse_count, parse_decimal
from sowsheet.reading.mistakes import Mistake, Said
from sowsheet.reading.nodes import Text
from tests.garden.files import read_text, text_of
from tests.garden.test_mistakes import WRONG
from tests.made import line
from tests.reading.book import BOOK, read, scalar
from tests.reading.test_date_words import REFUSED as DATES
from tests.reading.test_measures import PARSERS
from tests.reading.test_measures import REFUSED as MEASURES
from tests.reading.test_more_lines import REFUSED as MORE
from tests.reading.test_more_lines import REFUSED_ALSO
from tests.reading.test_sixty_lines import REFUSED as SIXTY

PLACES = ("warm shelf", "yard")
# Lines that no other table has.
LINES = (
    *("kale raised", "kale raised in the shed", "kale on", "kale in the yard or the warm shelf", "kale and warm shelf"),
    *("kale already", "kale sown 1 March sown 2 March", "kale since May since June", "kale till May till June"),
    *("kale picked from May picked from June", "kale every week every 2 weeks", "kale x 1.5", "1.5 rows of kale"),
    *("1.5 clumps of chives", "half kale, half chard", "nothing till May, kale", "kale picked", "kale rest 1 May"),
    *("kale about 1 May", "kale harvested", "kale undersown lettuce", "kale covered", "kale alongside leeks"),
    *("kale before leeks", "kale: curly", "kale # curly", "", "40 February", "kale 40 February"),
    *("60 sow lettuce", "early lettuce 1 May", "early kale 1 May", "kale – leeks", "kale 1,5", "kale, with"),
)
ALSO = ("kale every week of picking May to June", "kale till May", "something quick")
PARTS = (
    ("places", "{shelf: {for: germinating}}"),
    ("site", "{latitude: 52.4, weather: none.csv}"),
    ("site", "{latitude: 52.4, first frost: 12 March (safe)}"),
    ("site", "{latitude: -52.4, temperatures: {min: [-80, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1], max: 2}}"),
    ("house", "{compost: 2 m}"),
    ("language", "de"),
    ("places", "[]"),
    ("garden", '"\\x07"'),
    ("garden", "&a x"),
    ("garden", "!t x"),
    ("garden", "*a"),
    ("garden", "&a x\npaper: *a"),
    ("garden", "[,]"),
    ("garden", "{a: b: c}"),
    ("garden", '"x" y'),
    ("garden", "'x"),
    ("garden", "[x"),
    ("garden", "a: b"),
    ("garden", "{? [a] : b}"),
    ("garden", "x\n---"),
    ("garden", "x\n  y: z"),
    ("garden", "x\ny"),
    ("garden", "{" * 30),
    ("garden", "@x"),
    ("beds", "\n  A: {size: 4 m x 1 m, under: yard}\nplaces: {yard: {for: hardening off, under: outdoors}}"),
    ("beds", "{then kale}"),
    ("site", "{latitude: -52.4, last frost: 1 May (safe)}"),
    ("places", "{b: {for: germinating, room: 6000000 trays}}"),
)
FILES = (b"", b"garden: \xff\xfe", b"garden: a\x00b", b"a: " + b"[" * 40 + b"]" * 40, b"garden: \x1a")


def wrong_lines() -> Iterator[Mistake]:
    """Of plan lines, of dates and of measures."""
    for words in (*MORE, *SIXTY, *LINES):
        yield from read(words)[1]
        yield from _of(lambda found, words=words: line(words, found, standing=PLACES))  # type: ignore[misc]
    for words in (*REFUSED_ALSO, *ALSO):
        yield from read(words, also=True)[1]
    for words in DATES:
        yield from _of(lambda found, words=words: parse_date(scalar(words), found))  # type: ignore[misc]
    for measure, words, _ in MEASURES:
        yield from _of(lambda found, m=measure, words=words: PARSERS[m](scalar(words), found))  # type: ignore[misc,operator]
    for of in ("cells", "pots", "trays"):
        for words in ("few", " "):
            yield from _of(lambda found, of=of, words=words: parse_count(scalar(words), found, of))  # type: ignore[misc]
    for words in ("few", "11", " "):
        yield from _of(lambda found, words=words: parse_decimal(scalar(words), found, -10, 10))  # type: ignore[misc]
    for parse in PARSERS.values():
        yield from _of(lambda found, parse=parse: parse(Text("", scalar("x").spot), found))  # type: ignore[misc]


def wrong_files(folder: Path) -> Iterator[Mistake]:
    """Of whole garden files, written into a folder."""
    for key, value in (*((key, value) for key, value, *_ in WRONG), *PARTS):
        yield from read_text(folder, text_of({key: value}))[1]
    path = folder / "garden.yaml"
    for data in FILES:
        path.write_bytes(data)
        yield from _of(lambda found: read_garden(path, BOOK, found))
    for other in (folder, folder / "none.yaml", folder / ("x" * 300)):
        yield from _of(lambda found, other=other: read_garden(other, BOOK, found))  # type: ignore[misc]


def phrases_in(said: Said | str) -> Iterator[Said]:
    """A phrase and those among its parts."""
    if isinstance(said, Said):
        yield said
        for _, part in said.parts:
            yield from phrases_in(part) if isinstance(part, Said) else ()


def _of(read: Callable[[list[Mistake]], object]) -> list[Mistake]:
    found: list[Mistake] = []
    read(found)
    return found
