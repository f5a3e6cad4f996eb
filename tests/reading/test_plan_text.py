"""A bed's line as it stands in the file: what YAML would split or cut, and plans over several lines."""

from __future__ import annotations

import pytest

from sowsheet.reading.mistakes import Mistake
from sowsheet.reading.nodes import Mapping, compose
from sowsheet.reading.planline import PlanLine, parse_plan, plan_text
from tests import in_english
from tests.reading.book import BOOK, marked, told


def from_file(text: str) -> tuple[PlanLine | None, list[Mistake]]:
    """The plan of the file's first bed."""
    mistakes: list[Mistake] = []
    root = compose(text, "garden.yaml", mistakes)
    assert isinstance(root, Mapping)
    found = plan_text(root.entries[0].value, mistakes)
    return (parse_plan(found, BOOK, mistakes) if found else None), mistakes


@pytest.mark.parametrize(
    ("text", "words", "cure"),
    [
        ("A: kale 1 April # by the gate\n", "# by the gate", "in brackets"),
        ("A: kale 1 April,\n  then leeks # by the gate\n", "# by the gate", "line of its own"),
        ("A: # kale\n", "# kale", "line of its own"),
        ("A: {kale, leeks}\n", "{kale, leeks}", "on one line"),
        ("A: [kale, leeks 1 May]\n", "[kale, leeks 1 May]", "`kale, then leeks 1 May`"),
        ("A:\n  kale: 1 April\n", "k", "on one line"),
        ('A: "kale # by the gate"\n', "#", "in brackets"),
        ('A: "kale: the curly one"\n', "kale:", "in brackets"),
        ("A: |\n  kale 1 May # here\n  leeks\n", "#", "line of its own"),
    ],
)
def test_what_yaml_would_cut_or_split(text: str, words: str, cure: str) -> None:
    plan, mistakes = from_file(text)
    assert plan is None
    (mistake,) = mistakes
    assert marked(mistake) == words
    assert cure in in_english.cure(mistake)


@pytest.mark.parametrize("text", ["A:\n", "A: ''\n", "A: |\n\nB: kale\n"])
def test_an_empty_line_is_no_plan_and_no_mistake(text: str) -> None:
    assert from_file(text) == (None, [])


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("A: |\n  kale 1 May\n  leeks\n", "kale on=1/5 > leek"),
        ("A: |\n  kale 1 May,\n  then leeks\n", "kale on=1/5 > leek"),
        ("A: |\n  kale 1 May then\n\n  leeks\n", "kale on=1/5 > leek"),
        ("A: |\n  # first\n  kale 1 May\n  # second\n  leeks\n", "kale on=1/5 > leek"),
        ("A: |\n  garlic since October,\n  lettuce between\n  leeks\n", "garlic since=15/10 month + lettuce > leek"),
        ("A: |\n  lettuce\n  and spinach 1 April\n", "lettuce on=1/4 & spinach on=1/4"),
        ("A: kale 1 May,\n  then leeks\n", "kale on=1/5 > leek"),
        ("A: >\n  kale 1 May,\n  then leeks\n", "kale on=1/5 > leek"),
        ("A: 'lamb''s lettuce 1 May'\n", "lamb's lettuce on=1/5"),
        ('A: "kale 1 May"   # a remark after quotes cuts nothing\n', "kale on=1/5"),
        ("A: kale 1 May\n# a remark\nB: leeks\n", "kale on=1/5"),
    ],
)
def test_lines_in_every_dress(text: str, expected: str) -> None:
    plan, mistakes = from_file(text)
    assert mistakes == []
    assert plan is not None
    assert told(plan) == expected


@pytest.mark.parametrize(
    ("text", "line"),
    [
        ("A: 'lamb''s lettuce 31 June'\n", 1),
        ('A: "lamb\\x27s lettuce 31 June"\n', 1),
        ("A: |\n  kale\n\n  leeks 31 June\n", 4),
        ("A: >\n  kale, then\n  leeks 31 June\n", 3),
        ("A: kale, then\n   leeks 31 June\n", 2),
        ("A: 'kale, then\n   leeks 31 June'\n", 2),
    ],
)
def test_the_mark_stands_under_the_words(text: str, line: int) -> None:
    _, mistakes = from_file(text)
    (mistake,) = mistakes
    assert marked(mistake) == "31 June"
    assert mistake.spot.line == line


def test_a_bad_line_does_not_hide_the_next() -> None:
    _, mistakes = from_file("A: |\n  kale: curly\n  leeks 31 June\n  pees\n")
    assert [marked(m) for m in mistakes] == ["kale:", "31 June", "pees"]
