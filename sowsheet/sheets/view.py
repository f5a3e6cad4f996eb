"""How a chart of weeks is to be seen: from how far, in which order, and which weeks of the season."""

from __future__ import annotations

import re
from collections.abc import Sequence
from datetime import date
from itertools import pairwise
from typing import Literal

import msgspec

from sowsheet.site.season import Season, mondays_between, season_mondays, week_of
from sowsheet.words.language import Language, capital

Order = Literal["sowing", "bed", "crop", "place"]

LEAST_M, MOST_TIMES = 0.3, 2.0  # how near a sheet is read; how many times the usual distance its head still fits
_UNITS_M = {"m": 1.0, "cm": 0.01, "ft": 0.3048, "feet": 0.3048, "foot": 0.3048}
_PARTS = {"half": 2, "quarter": 4}


class Span(msgspec.Struct, frozen=True):
    """Weeks that are shown on sheets of their own, by their first and last Monday."""

    first: date
    last: date

    def said(self, words: Language) -> str:
        """`weeks 10 to 22`, `week 10`."""
        first, last = (monday.isocalendar().week for monday in (self.first, self.last))
        if self.first == self.last:
            return words.say("date.one week", weeks=first)
        return words.say("date.weeks", weeks=words.say("date.span", start=first, end=last))


class View(msgspec.Struct, frozen=True):
    """What is asked of a chart. No distance: the paper's usual one; no spans: the whole season on one chart."""

    distance_m: float | None = None
    order: Order = "sowing"
    spans: tuple[Span, ...] = ()

    def within(self, mondays: Sequence[date]) -> list[tuple[Span | None, tuple[date, ...]]]:
        """The columns of each chart that is asked for: those of the season's own, or of each span."""
        if not self.spans:
            return [(None, tuple(mondays))]
        return [(span, mondays_between(span.first, span.last)) for span in self.spans]


WHOLE = View()


def sheet_mark(words: Language, span: Span | None, number: int) -> str:
    """A page's entry in the outline: the nth sheet, from 0, of the season or of some weeks of it."""
    if span is None:
        return words.say("chart.sheet", number=number + 1)
    return capital(words.say("chart.sheet of weeks", weeks=span.said(words), number=number + 1))


def distance_of(words: str) -> float | None:
    """Metres of `1 m`, `1.5`, `150 cm`, `6 ft`; None for anything else."""
    found = re.fullmatch(r"\s*(\d+(?:[.,]\d+)?)\s*([a-z]*)\s*", words.lower())
    if found is None or (found[2] or "m") not in _UNITS_M:
        return None
    return float(found[1].replace(",", ".")) * _UNITS_M[found[2] or "m"]


def spans_of(words: str, season: Season) -> tuple[Span, ...] | None:
    """Spans of `14-26`, `14 to 26`, `14`, `half` (two), `quarter` (four); None for what a season does not hold."""
    mondays = season_mondays(season)
    plain = words.strip().lower()
    if plain in _PARTS:
        parts = _PARTS[plain]
        edges = [round(len(mondays) * n / parts) for n in range(parts + 1)]
        return tuple(Span(mondays[a], mondays[b - 1]) for a, b in pairwise(edges))
    found = re.fullmatch(r"(?:weeks?\s*)?(\d{1,2})(?:\s*(?:-|–|to)\s*(\d{1,2}))?", plain)
    if found is None:
        return None
    first, last = (week_of(season, int(number)) for number in (found[1], found[2] or found[1]))
    if first is None or last is None or last < first:
        return None
    return (Span(first, last),)
