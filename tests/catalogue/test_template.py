"""The empty crop file: it asks for what the reader wants, and filled in with its own examples it is a crop."""

from __future__ import annotations

import re

import pytest

from sowsheet.catalogue.read import read_crop
from sowsheet.catalogue.records import Raised
from sowsheet.catalogue.template import template
from sowsheet.reading.mistakes import Mistake
from tests import in_english

WAYS: tuple[Raised, ...] = ("tray", "drill", "set")


def filled(text: str) -> str:
    """Each empty line with the first of its examples; comments at the end of lines taken off."""

    def fill(line: str) -> str:
        found = re.fullmatch(r"(\s*(?:- )?[a-z, ]+:) +# (?:e\.g\. )?(.*)", line)
        if found is None or re.match(r"\s*#", line):
            return line.partition(" # ")[0]
        if found[1].strip() in ("germinates:", "tray:", "drill:", "set:", "cold:", "harvest:", "signs:", "goes out:"):
            return found[1]
        example = found[2].partition(" | ")[0]
        return f"{found[1]} {example.partition(', 1 week')[0]}"

    return "\n".join(fill(line) for line in text.splitlines())


@pytest.mark.parametrize("raised", WAYS)
def test_an_empty_crop_file_names_every_line_that_is_still_empty_and_nothing_else(raised: Raised) -> None:
    text, mistakes = template("sea kale", raised, in_english.EN), list[Mistake]()
    assert read_crop(text, "sea-kale.yaml", (), mistakes) is None
    empty = [
        n for n, line in enumerate(text.splitlines(), 1) if re.match(r"\s*(- )?[a-z, ]+: +# (e\.g\.|.* \| )", line)
    ]
    assert [m.spot.line for m in mistakes] == empty
    assert {in_english.what(m).partition("` ")[2] for m in mistakes} == {"is still empty"}


@pytest.mark.parametrize("raised", WAYS)
def test_filled_in_with_its_own_examples_it_is_a_crop(raised: Raised) -> None:
    mistakes: list[Mistake] = []
    text = "\n".join(
        line
        if re.match(r"\s*(crop|names|raised|what|by|ends with|latin|family|source)\b", line) or ":" not in line
        else sourced(line)
        for line in filled(template("sea kale", raised, in_english.EN)).splitlines()
    )
    crop = read_crop(text, "sea-kale.yaml", (), mistakes)
    assert not mistakes, [(in_english.what(m), m.spot.excerpt) for m in mistakes]
    assert crop is not None
    assert crop.names == ("sea kale",)
    assert crop.kinds[0].usually == raised


def sourced(line: str) -> str:
    """A number with its source; words need none."""
    value = line.partition(": ")[2]
    return (
        f"{line} [practice]"
        if any(c.isdigit() for c in value) and "from:" not in line and "until:" not in line
        else line
    )
