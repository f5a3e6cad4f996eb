"""Whatever is written: nothing raises, every mistake stands inside the text, good steps stay good side by side."""

from __future__ import annotations

from collections.abc import Callable

import msgspec
from hypothesis import given, settings
from hypothesis import strategies as st

from sowsheet.reading.date_forms import Found, date_at
from sowsheet.reading.date_words import parse_date, parse_span
from sowsheet.reading.measures import (
    is_imperial,
    parse_count,
    parse_days,
    parse_decimal,
    parse_latitude,
    parse_length,
    parse_percent,
    parse_size,
    parse_temp_c,
    parse_volume_ml,
)
from sowsheet.reading.mistakes import Mistake
from sowsheet.reading.nodes import Mapping, Text, compose
from sowsheet.reading.plan_records import Dated
from sowsheet.reading.planline import PlanLine, parse_plan, plan_text
from sowsheet.reading.tokens import tokens_of
from tests.reading.book import BOOK, read, scalar, told
from tests.reading.test_more_lines import READ as MORE
from tests.reading.test_more_lines import REFUSED
from tests.reading.test_sixty_lines import READ as SIXTY

VOCABULARY = sorted({word for line in (*SIXTY, *MORE, *REFUSED) for word in line.replace(",", " , ").split()})
WORDS = st.lists(st.sampled_from([*VOCABULARY, "then", "and", ",", "kale", "lettuce", "1 May", "June"]), max_size=14)
LINES = st.one_of(WORDS.map(" ".join), st.text(max_size=60))
STEPS = st.sampled_from([line for line in (*SIXTY, *MORE) if "then" not in line and ";" not in line])

PARSERS: tuple[Callable[[Text, list[Mistake]], object], ...] = (
    parse_date,
    parse_span,
    parse_length,
    parse_size,
    parse_temp_c,
    parse_percent,
    parse_days,
    parse_volume_ml,
    parse_latitude,
    parse_count,
    lambda text, mistakes: parse_decimal(text, mistakes, 0, 10),
)


def inside(mistakes: list[Mistake], text: str, before: str = "North 1: ") -> bool:
    """Whether every mistake stands under the text, not under what is before or after it."""
    first, last = len(before) + 1, len(before) + max(1, len(text))
    return all(first <= m.spot.column <= m.spot.column + m.spot.length - 1 <= last for m in mistakes)


@settings(max_examples=400, deadline=None)
@given(LINES, st.booleans())
def test_a_plan_is_read_or_refused_in_its_place(line: str, also: bool) -> None:
    plan, mistakes = read(line, also=also)
    assert (plan is None) == bool(mistakes)
    assert inside(mistakes, line)
    assert all(m.what and m.cure for m in mistakes)


@settings(max_examples=150, deadline=None)
@given(st.lists(WORDS.map(" ".join), min_size=1, max_size=3), st.sampled_from(["|", ">", '"', "'", ""]))
def test_a_plan_in_any_dress_is_marked_inside_the_file(lines: list[str], dress: str) -> None:
    quoted = {'"': '\\"', "'": "''"}.get(dress, "")
    body = "\n  ".join(line.replace(dress, quoted) if quoted else line for line in lines)
    text = f"North 1: {dress}\n  {body}\n" if dress in ("|", ">") else f"North 1: {dress}{body}{dress}\n"
    mistakes: list[Mistake] = []
    root = compose(text, "garden.yaml", mistakes)
    if isinstance(root, Mapping) and root.entries:
        found = plan_text(root.entries[0].value, mistakes)
        if found is not None:
            parse_plan(found, BOOK, mistakes)
    file_lines = text.splitlines()
    for m in mistakes:
        assert 1 <= m.spot.line <= len(file_lines)
        assert m.spot.excerpt == file_lines[m.spot.line - 1]
        assert 1 <= m.spot.column <= max(1, len(m.spot.excerpt))


@settings(max_examples=150, deadline=None)
@given(st.lists(STEPS, min_size=1, max_size=4), st.sampled_from([", then ", " then ", "; "]))
def test_steps_are_read_alike_alone_and_in_a_row(steps: list[str], divider: str) -> None:
    alone = [read(step)[0] for step in steps]
    together, mistakes = read(divider.join(step.rstrip(";") for step in steps))
    assert mistakes == []
    assert together is not None
    assert told(together) == " > ".join(told(plan) for plan in alone if plan)


@settings(max_examples=150, deadline=None)
@given(STEPS)
def test_a_date_told_back_is_that_date(line: str) -> None:
    plan, _ = read(line)
    assert plan is not None
    for dated in _dates(plan):
        found = date_at([token.word for token in tokens_of(dated.text)])
        assert isinstance(found, Found)
        assert type(found.date) is type(dated.date)
        assert getattr(found.date, "month", None) == getattr(dated.date, "month", None)


@settings(max_examples=300, deadline=None)
@given(LINES)
def test_dates_and_measures_are_read_or_refused(line: str) -> None:
    text = scalar(line)
    for parse in PARSERS:
        mistakes: list[Mistake] = []
        value = parse(text, mistakes)
        assert (value is None) == (len(mistakes) == 1)
        assert inside(mistakes, line)
    is_imperial(text)


def _dates(plan: PlanLine) -> list[Dated]:
    """Every date in a plan, however deep."""
    found: list[Dated] = []
    open_: list[object] = [plan]
    while open_:
        value = open_.pop()
        if isinstance(value, Dated):
            found.append(value)
        elif isinstance(value, tuple):
            open_ += value
        elif isinstance(value, msgspec.Struct):
            open_ += [getattr(value, field) for field in value.__struct_fields__]
    return found
