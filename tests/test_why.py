"""`crops NAME --why`: what is told must be what the clock reckons with."""

from __future__ import annotations

import re
from itertools import pairwise

import pytest

from sowsheet.exports.why import why_lines
from sowsheet.words.language import language_of
from tests.made import catalogue


def _lines(crop: str) -> str:
    return " ".join(line.strip() for line in why_lines(catalogue().crop(crop).kinds, language_of("en")))


def test_a_stage_takes_longer_the_colder_it_begins() -> None:
    raising = _lines("lettuce").split("headed lettuce")[1].split("from planting")[0]
    days = [int(n) for n in re.findall(r"(?:February|March|April|June) (\d+) days", raising)]
    assert len(days) == 4
    assert all(a > b for a, b in pairwise(days))


def test_what_the_year_brings_has_no_sum() -> None:
    assert "the year brings it" in _lines("garlic")
    assert "reckoned from" not in _lines("garlic")


@pytest.mark.parametrize(("crop", "base"), [("lettuce", 0), ("tomato", 7), ("courgette", 10)])
def test_the_sum_divided_by_a_day_is_near_the_days(crop: str, base: int) -> None:
    text = _lines(crop)
    assert f"above {base} C" in text
    usual = float(re.findall(r"usually (\d+)", text)[0])
    warm = float(re.findall(r"one at 20 C ([\d.]+)", text)[0])
    days = float(re.findall(r"reckoned from (\d+) days", text)[0])
    assert 0.4 * days < usual / warm < 1.2 * days
