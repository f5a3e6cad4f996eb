"""British English for rooms whose words are not in the language files yet."""

from __future__ import annotations

from sowsheet.words.language import capital, language_of

_ENGLISH = language_of("en")

MONTHS = _ENGLISH.months
WEEKDAYS = _ENGLISH.weekdays

area = _ENGLISH.area
crop_name = _ENGLISH.crop_name
day_brief = _ENGLISH.day_brief
day_in = _ENGLISH.day_in
day_long = _ENGLISH.day_long
day_month = _ENGLISH.day_month
day_month_year = _ENGLISH.day_month_year
day_named = _ENGLISH.day_named
day_short = _ENGLISH.day_short
depth = _ENGLISH.depth
length = _ENGLISH.length
nth = _ENGLISH.nth
number = _ENGLISH.number
percent = _ENGLISH.percent
rows_of_cells = _ENGLISH.rows_of_cells
spacing = _ENGLISH.spacing
span_of_days = _ENGLISH.span_of_days
the = _ENGLISH.the
trays_of = _ENGLISH.trays_of
week_span = _ENGLISH.week_span
weeks_listed = _ENGLISH.weeks_listed
weight = _ENGLISH.weight
years_in = _ENGLISH.years_in
listed = _ENGLISH.listed


def count(number: int, one: str, many: str = "") -> str:
    """1 tray, 2 trays"""
    return f"{number} {one}" if number == 1 else f"{number} {many or one + 's'}"


__all__ = ["capital"]
