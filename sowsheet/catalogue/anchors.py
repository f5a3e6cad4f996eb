"""Dates of a crop file: tied to frosts, midsummer or day length, never to the calendar."""

from __future__ import annotations

import re

import msgspec

from sowsheet.catalogue.records import AnchoredRange
from sowsheet.catalogue.values import Wrong, backwards, outside
from sowsheet.reading.date_forms import Found, Refused, date_at
from sowsheet.reading.dates import Anchored, DayLength, GrowerDate
from sowsheet.reading.mistakes import example, said
from sowsheet.words.language import Language

_RANGE = re.compile(r"(\d+) to (\d+)(?:, usually (\d+))? (day|week)s (before|after) (.+)")
_EXAMPLE = said("mistake.crops.date.example")


def anchored(text: str) -> GrowerDate | Wrong:
    """`6 weeks before last frost`, `midsummer`, `day length falls to 10 h`."""
    words = text.casefold().split()
    found = date_at(words)
    if isinstance(found, Refused):
        return Wrong(found.what(text), _EXAMPLE)
    if not isinstance(found, Found) or found.used < len(words):
        return Wrong(said("mistake.crops.date.none", text=text), _EXAMPLE)
    if not isinstance(found.date, Anchored | DayLength):
        return Wrong(said("mistake.crops.date.calendar.what"), said("mistake.crops.date.calendar.cure"))
    if isinstance(found.date, DayLength) and found.date.trend == "next":
        cure = example("day length falls to 10 h")
        return Wrong(said("mistake.crops.date.trend"), cure)
    return found.date


def anchored_range(text: str) -> AnchoredRange | Wrong:
    """`2 to 4, usually 3 weeks after midsummer`; the earliest date is `low`, whichever way it is counted."""
    found = _RANGE.fullmatch(text)
    base = anchored(found[6] if found else text)
    if found is None or isinstance(base, Wrong):
        return base if isinstance(base, Wrong) else AnchoredRange(base, base, base)
    one, other = int(found[1]), int(found[2])
    usual = int(found[3]) if found[3] else (one + other) / 2
    # Before an anchor both `6 to 4` (as the days run) and `4 to 6` read well; after it only one does.
    if one > other and found[5] == "after":
        return backwards(one, other)
    if not min(one, other) <= usual <= max(one, other):
        return outside(usual, one, other)
    size = (7 if found[4] == "week" else 1) * (-1 if found[5] == "before" else 1)
    low, high = sorted((one * size, other * size))
    return AnchoredRange(*(msgspec.structs.replace(_checked(base), days=n) for n in (low, round(usual * size), high)))


def in_words(words: Language, date: GrowerDate) -> str:
    """`6 weeks before the last frost`. A date of the calendar here is a bug: the reader lets none in."""
    return range_in_words(words, AnchoredRange(date, date, date))


def range_in_words(words: Language, dates: AnchoredRange) -> str:
    """`2 to 5, usually 3 weeks after midsummer`; a usual value in the middle is not named."""
    low, usual, high = (_checked(date) for date in (dates.low, dates.usual, dates.high))
    days = (low.days, usual.days, high.days)
    anchor = usual.trend if isinstance(usual, DayLength) else usual.anchor
    named = {"hours": usual.hours} if isinstance(usual, DayLength) else {}
    if not any(days):
        return words.say(f"crop page.date.on.{anchor}", **named)
    size, unit = (7, "week") if all(n % 7 == 0 for n in days) else (1, "day")
    first, middle, last = (abs(n) // size for n in days)
    most = max(first, last)
    if 2 * middle != first + last:
        said = words.say(f"crop page.usual.{unit}", low=first, high=last, usual=middle, n=most)
    elif low == high:
        said = words.count(last, unit)
    else:
        said = words.say(f"crop page.range.{unit}", low=first, high=last, n=most)
    side = "before" if usual.days < 0 else "after"
    return words.say(f"crop page.date.{side}.{anchor}", span=said, **named)


def _checked(date: GrowerDate) -> Anchored | DayLength:
    if not isinstance(date, Anchored | DayLength):
        raise TypeError(f"a crop file holds no calendar date: {date}")
    return date
