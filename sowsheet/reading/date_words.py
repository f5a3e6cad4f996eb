"""Growers' dates read from a line or a scalar, with their place and the words as written."""

from __future__ import annotations

from typing import Literal

import msgspec

from sowsheet.reading.date_forms import LAST_DAY, Refused, date_at
from sowsheet.reading.dates import CalendarDay
from sowsheet.reading.mistakes import Mistake, example, said
from sowsheet.reading.nodes import Text
from sowsheet.reading.places import places_of
from sowsheet.reading.plan_records import Dated
from sowsheet.reading.tokens import Cursor, tokens_of

TO = ("to", "–", "through", "thru")
TILL = ("till", "until", "til", "'til")

Month = Literal["as written", "first", "last"]


def starts_date(cursor: Cursor) -> bool:
    """Whether words that are, or are meant as, a date come next."""
    return date_at(cursor.words()) is not None


def read_date(cursor: Cursor, lead: str = "", month: Month = "as written") -> Dated | None:
    """The date that comes next, stepped over. A refused one is a mistake; `lead` is the word before, for its cure."""
    start, found = cursor.at, date_at(cursor.words())
    if found is None:
        return None
    cursor.at += found.used
    written = cursor.written(start, cursor.at)
    if isinstance(found, Refused):
        cursor.refuse(start, cursor.at, found.what(written), found.cure(lead))
        if found.broken:
            cursor.give_up()
        return None
    return in_month(Dated(found.date, written, cursor.spot(start, cursor.at)), month)


def in_month(dated: Dated, month: Month) -> Dated:
    """A month alone taken as its first or its last day; any other date as it is."""
    day = dated.date
    if month == "as written" or not isinstance(day, CalendarDay) or day.span != "month":
        return dated
    if month == "first":
        moved = CalendarDay(day.month, 1, day.year, "from month")
    else:
        moved = CalendarDay(day.month, LAST_DAY[day.month - 1], day.year, end=True)
    return msgspec.structs.replace(dated, date=moved)


def parse_date(text: Text, mistakes: list[Mistake]) -> Dated | None:
    """A text that is one grower's date and nothing else."""
    cursor = _cursor(text, mistakes)
    cursor.take("on", "at", "in")
    dated = _wanted(cursor)
    return dated if dated and _ended(cursor) else None


def parse_span(text: Text, mistakes: list[Mistake]) -> tuple[Dated | None, Dated | None] | None:
    """`from March to June`, `March to June`, `from 1 May`, `till June`: first and last day, either may be open.

    A month is whole in `A to B`, its 1st after `from` and `till`.
    """
    cursor = _cursor(text, mistakes)
    start: Dated | None = None
    if cursor.word() not in (*TILL, "to"):
        cursor.take("from")
        start = _wanted(cursor, "first")
        if start is None:
            return None
    joined = cursor.take(*TO, *TILL)
    until = _wanted(cursor, "last" if joined in TO and start else "first") if joined else None
    if (joined and until is None) or not _ended(cursor):
        return None
    return start, until


def _cursor(text: Text, mistakes: list[Mistake]) -> Cursor:
    tokens = tuple(token for token in tokens_of(text.text) if token.word != "\n")
    return Cursor(text=text.text, places=places_of(text), tokens=tokens, mistakes=mistakes)


def _wanted(cursor: Cursor, month: Month = "as written") -> Dated | None:
    """The date that has to come next; anything else is a mistake."""
    if not starts_date(cursor):
        words = cursor.written(cursor.at, len(cursor.tokens))
        what = said("mistake.date.none", text=words) if words else said("mistake.date.missing")
        cursor.refuse(cursor.at, len(cursor.tokens), what, example("12 April", "late May", "week 16"))
        return None
    return read_date(cursor, month=month)


def _ended(cursor: Cursor) -> bool:
    if not cursor.ended:
        what = said("mistake.date.after", text=cursor.written(cursor.at, len(cursor.tokens)))
        cursor.refuse(cursor.at, len(cursor.tokens), what, said("mistake.leave out"))
    return cursor.ended
