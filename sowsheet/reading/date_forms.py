"""Growers' dates read from words: `late May`, `week 16`, `3 weeks before last frost`, `day length 10 h`."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping, Sequence
from datetime import date, timedelta
from typing import Literal

import msgspec

from sowsheet.reading.dates import Anchored, CalendarDay, DayLength, GrowerDate, IsoWeek
from sowsheet.reading.mistakes import Said, any_of, said
from sowsheet.reading.numbers import comma_cure, days_at, number
from sowsheet.reading.tokens import MONTH_OF, MONTHS

LAST_DAY = (31, 29, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)


class Found(msgspec.Struct, frozen=True):
    """A date, and how many words it takes."""

    date: GrowerDate
    used: int


class Refused(msgspec.Struct, frozen=True):
    """Words meant as a date that are none: why, dates to write instead, and the cure that names them.

    `why` and `hint` are keys of phrases that get the words themselves as `text`, the dates as `ways`, and `parts`.
    `broken` tells that a piece is missing, so that the words after it may belong to it.
    """

    used: int
    why: str
    instead: tuple[str, ...] = ()
    hint: str = "mistake.write"
    broken: bool = False
    parts: Mapping[str, object] = {}

    def what(self, text: str) -> Said:
        """What is wrong with the words, which are written so."""
        return said(self.why, text=text, **self.parts)

    def cure(self, lead: str = "") -> Said:
        """The hint and the dates to write instead, each after `lead` (`till`)."""
        return said(self.hint, ways=any_of([f"{lead} {way}" if lead else way for way in self.instead]), **self.parts)


Reading = Found | Refused | None
Anchor = Literal["last frost", "first frost", "midsummer", "shortest day"]

_PARTS = {"early": 5, "mid": 15, "middle": 15, "late": 25}
_EDGES = ("start", "beginning", "end")
_ANCHORS: dict[tuple[str, ...], Anchor] = {
    ("last", "frost"): "last frost",
    ("last", "spring", "frost"): "last frost",
    ("first", "frost"): "first frost",
    ("first", "autumn", "frost"): "first frost",
    ("first", "fall", "frost"): "first frost",
    ("midsummer's", "day"): "midsummer",
    ("midsummer", "day"): "midsummer",
    ("midsummer",): "midsummer",
    ("longest", "day"): "midsummer",
    ("summer", "solstice"): "midsummer",
    ("shortest", "day"): "shortest day",
    ("winter", "solstice"): "shortest day",
    ("midwinter",): "shortest day",
}
_SEASONS = {"spring": "April", "summer": "July", "autumn": "October", "fall": "October", "winter": "January"}
_WEEKDAYS = {"monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday"}
_SPOKEN = {"today", "tomorrow", "yesterday", "now", "soon", "sometime", "whenever", "easter", "christmas"} | _WEEKDAYS
_EXAMPLE, _LENGTH = "2 weeks after last frost", "day length 10 h"
_EG, _NO_DATE = "mistake.example", "mistake.date.none"
_HOURS = ("h", "hr", "hrs", "hour", "hours")
_TRENDS: dict[str, Literal["rising", "falling"]] = {
    **dict.fromkeys(("rises", "rise", "rising", "lengthens"), "rising"),
    **dict.fromkeys(("falls", "fall", "falling", "drops", "shortens"), "falling"),
}


def date_at(words: Sequence[str]) -> Reading:
    """The date that these lower-case words begin with; None when they do not begin with one."""
    skipped = 1 if words and words[0] == "the" else 0
    rest = list(words[skipped : skipped + 12])  # no date is longer
    for read in _READERS:
        found = read(rest) if rest else None
        if found is not None:
            return msgspec.structs.replace(found, used=found.used + skipped)
    return None


def _year(words: Sequence[str], at: int) -> int | None:
    return int(words[at]) if at < len(words) and re.fullmatch(r"(19|20|21)[0-9]{2}", words[at]) else None


def _day_number(words: Sequence[str], at: int) -> int | None:
    """`12`, `12th`, `12.`"""
    found = re.fullmatch(r"([0-9]{1,3})(?:st|nd|rd|th|\.)?", words[at]) if at < len(words) else None
    return int(found[1]) if found else None


def _calendar(day: int, month: int, year: int | None, used: int) -> Reading:
    """A day of a month, if any year has it."""
    name, last = MONTHS[month - 1], LAST_DAY[month - 1]
    if 1 <= day <= last:
        return Found(CalendarDay(month, day, year), used)
    if day == 0:
        return Refused(used, "mistake.date.day 0", (f"1 {name}",))
    has = {"month": month_said(month), "days": last}
    if day > 31:
        why = "mistake.date.none in February" if month == 2 else "mistake.date.none in month"
        return Refused(used, why, (f"12 {name}",), _EG, parts=has)
    why = "mistake.date.not in February" if month == 2 else "mistake.date.not in month"
    ways = (f"{28 if month == 2 else last} {name}", f"1 {MONTHS[month % 12]}")
    return Refused(used, why, ways, parts=has)


def month_said(month: int) -> Said:
    """A month, 1 to 12, as a sentence names it."""
    return said(f"mistake.month.{MONTHS[month - 1]}")


def _iso(words: list[str]) -> Reading:
    """`2027-04-12`, `2027-W16`."""
    if week := re.fullmatch(r"((?:19|20|21)[0-9]{2})-?w([0-9]{1,2})", words[0]):
        return _numbered_week(int(week[2]), int(week[1]), 1)
    found = re.fullmatch(r"((?:19|20|21)[0-9]{2})-([0-9]{1,2})-([0-9]{1,2})", words[0])
    if not found:
        return None
    year, month, day = (int(part) for part in found.groups())
    if not 1 <= month <= 12:
        ways, parts = ("2027-04-12",), {"month": month}
        return Refused(1, "mistake.date.no month", ways, "mistake.date.cure.year first", parts=parts)
    return _calendar(day, month, year, 1)


def _figures(words: list[str]) -> Reading:
    """`10/7`, `10.7.`, `10-7`: never guessed."""
    found = re.fullmatch(r"([0-9]{1,2})([/.-])([0-9]{1,2})(?:\2|\2([0-9]{4}|[0-9]{2}))?", words[0])
    if not found:
        return None
    first, second = int(found[1]), int(found[3])
    year = f" {found[4]}" if found[4] and len(found[4]) == 4 else ""
    pairs = dict.fromkeys([(first, second), (second, first)])
    ways = tuple(f"{d} {MONTHS[m - 1]}{year}" for d, m in pairs if 1 <= m <= 12 and 1 <= d <= LAST_DAY[m - 1])
    word = "mistake.date.cure.month as a word"
    if not ways:
        return Refused(1, _NO_DATE, ("12 April",), word)
    if len(ways) == 1:
        return Refused(1, "mistake.date.figures", ways, word)
    return Refused(1, "mistake.date.two dates", ways, word, parts={"first": ways[0], "second": ways[1]})


def _week(words: list[str]) -> Reading:
    """`week 16`, `wk 16 2028`."""
    if words[0] not in ("week", "wk") or len(words) < 2 or not re.fullmatch(r"[0-9]{1,3}", words[1]):
        return None
    of = 1 if words[2:3] == ["of"] and _year(words, 3) else 0
    year = _year(words, 2 + of)
    return _numbered_week(int(words[1]), year, 2 + of + (1 if year else 0))


def _numbered_week(week: int, year: int | None, used: int) -> Reading:
    if 1 <= week <= 53:
        return Found(IsoWeek(week, year), used)
    return Refused(used, "mistake.date.no week", ("week 16",), _EG)


def _anchor_at(words: Sequence[str]) -> tuple[Anchor, int] | None:
    the = 1 if words and words[0] == "the" else 0
    for names, anchor in _ANCHORS.items():
        if tuple(words[the : the + len(names)]) == names:
            return anchor, the + len(names)
    return None


def _anchor(words: list[str]) -> Reading:
    """`last frost`, `shortest day`."""
    if found := _anchor_at(words):
        return Found(Anchored(found[0]), found[1])
    if words[0] in ("frost", "frosts"):
        return Refused(1, "mistake.date.which frost", ("last frost", "first frost"))
    return None


def _relative(words: list[str]) -> Reading:
    """`3 weeks before last frost`; a length of time with nothing to count from is refused."""
    if months := re.match(r"(?:a|[a-z]+|[0-9]+) months? (before|after) ", " ".join(words)):
        way = f"4 weeks {months[1]} last frost"
        return Refused(2, "mistake.date.months", (way,), "mistake.date.cure.in weeks")
    length = days_at(words)
    if length is None:
        return None
    days, used = length
    side = words[used] if used < len(words) else ""
    if side not in ("after", "before"):
        return Refused(used, "mistake.date.time", (_EXAMPLE,), "mistake.date.cure.from when", broken=True)
    if days.denominator != 1 or days > 366:
        target = _target(words[used + 1 :])  # what it is counted from belongs to the same mistake
        past = used + 1 + (target.used if target else 0)
        return Refused(past, "mistake.date.no days", ("10 days after last frost",), _EG, broken=target is None)
    return _counted(int(days if side == "after" else -days), words, used + 1)


def _on_the_day(words: list[str]) -> Reading:
    """`after the last frost`."""
    target = _target(words[1:]) if words[0] in ("after", "before") else None
    if target is None:
        return None
    if words[0] == "after" or isinstance(target, Refused) or isinstance(target.date, CalendarDay):
        return _counted(0, words, 1)
    used = 1 + target.used
    return Refused(used, "mistake.date.how long", ("1 week before last frost",), _EG)


def _target(words: list[str]) -> Reading:
    """What may follow `before` or `after`, if it is there."""
    the = 1 if words[:1] == ["the"] else 0
    for read in (_anchor, _day_length, _iso, _third, _day_month, _month_first):
        found = read(words[the:]) if words[the:] else None
        if found is not None:
            return msgspec.structs.replace(found, used=found.used + the)
    return None


def _counted(days: int, words: list[str], used: int) -> Reading:
    """So many days from what follows; `used` counts the words up to it."""
    target = _target(words[used:])
    if target is None:
        return Refused(used, "mistake.date.of what", (_EXAMPLE,), _EG, broken=True)
    used += target.used
    if isinstance(target, Refused):
        return msgspec.structs.replace(target, used=used)
    if isinstance(target.date, Anchored):
        return Found(Anchored(target.date.anchor, days), used)
    if isinstance(target.date, DayLength):
        return Found(msgspec.structs.replace(target.date, days=days), used)
    return Refused(used, "mistake.date.counted", _worked_out(target.date, days), "mistake.date.cure.day")


def _worked_out(day: GrowerDate, days: int) -> tuple[str, ...]:
    if not isinstance(day, CalendarDay):
        return ()
    found = date(2027, day.month, min(day.day, 28 if day.month == 2 else 31)) + timedelta(days=days)
    return (f"{found.day} {MONTHS[found.month - 1]}",)


def _day_length(words: list[str]) -> Reading:
    """`day length 10 h`, `day length rises to 10 h`, `day length 10 h falling`."""
    at = 2 if words[:2] == ["day", "length"] else 1 if words[0] in ("daylength", "day-length") else 0
    if not at:
        return None
    trend: Literal["next", "rising", "falling"] = "next"
    while at < len(words) and words[at] in (*_TRENDS, "of", "is", "reaches", "to", "above", "past", "below", "under"):
        trend = _TRENDS.get(words[at], trend)
        at += 1
    hours = number(words[at]) if at < len(words) else None
    if hours is None:
        if comma := comma_cure(words[at]) if at < len(words) else None:
            hint, parts = "mistake.date.cure.comma", {"comma": comma}
            return Refused(at + 1, "mistake.date.no hours", (_LENGTH,), hint, broken=True, parts=parts)
        return Refused(at, "mistake.date.no hours", (_LENGTH,), _EG, broken=True)
    if at + 1 >= len(words) or words[at + 1] not in _HOURS:
        return Refused(at + 1, "mistake.date.no unit", (f"day length {words[at]} h",), broken=True)
    if not 0 < hours < 24:
        return Refused(at + 2, "mistake.date.no day length", (_LENGTH,), "mistake.date.cure.hours")
    used = at + 2
    if words[used : used + 1] and words[used] in ("rising", "falling"):
        trend, used = _TRENDS[words[used]], used + 1
    return Found(DayLength(float(hours), trend), used)


def _third(words: list[str]) -> Reading:
    """`early May`, `middle of May`, `end of May`; before anything but a month or a season `early` is no date."""
    part = words[0]
    if part not in _PARTS and part not in _EDGES:
        return _share_of_month(words)
    at = _past(words, 1, "of", "in", "the")
    after = words[at] if at < len(words) else ""
    if after in _SEASONS:
        return _season(after, at + 1)
    if after in MONTH_OF:
        year = _year(words, at + 1)
        return Found(_part_of_month(part, MONTH_OF[after], year), at + (2 if year else 1))
    lost = part in _EDGES and at > 1
    return Refused(at, "mistake.date.without month", (f"{part} of May",), _EG, broken=True) if lost else None


def _part_of_month(part: str, month: int, year: int | None) -> CalendarDay:
    if part in _PARTS:
        return CalendarDay(month, _PARTS[part], year, "third")
    if part == "end":
        return CalendarDay(month, LAST_DAY[month - 1], year, end=True)
    return CalendarDay(month, 1, year)


def _past(words: list[str], at: int, *small: str) -> int:
    """The index of the next word that is none of these."""
    while at < len(words) and words[at] in small:
        at += 1
    return at


def _share_of_month(words: list[str]) -> Reading:
    """`first week of May`: not exact enough."""
    found = re.match(r"(first|second|third|last) (?:week|half) (?:of|in) (?:the )?([a-z]+)", " ".join(words))
    if not found or found[2] not in MONTH_OF:
        return None
    part = {"first": "early ", "last": "late "}.get(found[1], "mid-")
    return Refused(len(found[0].split()), "mistake.date.several days", (f"{part}{MONTHS[MONTH_OF[found[2]] - 1]}",))


def _day_month(words: list[str]) -> Reading:
    """`12 April`, `12th of April 2027`."""
    day = _day_number(words, 0)
    at = _past(words, 1, "of", "the")
    if day is None or at >= len(words) or words[at] not in MONTH_OF:
        return None
    year = _year(words, at + 1)
    return _calendar(day, MONTH_OF[words[at]], year, at + (2 if year else 1))


def _month_first(words: list[str]) -> Reading:
    """`April 12`, `April 12, 2027`, `April 2028`, `April`."""
    if words[0] not in MONTH_OF:
        return None
    month, day = MONTH_OF[words[0]], _day_number(words, 2 if words[1:2] == ["the"] else 1)
    if day is None:
        year = _year(words, 1)
        return Found(CalendarDay(month, 15, year, "month"), 2 if year else 1)
    used = 3 if words[1] == "the" else 2
    comma = 1 if words[used : used + 1] == [","] and _year(words, used + 1) else 0
    year = _year(words, used + comma)
    return _calendar(day, month, year, used + comma + (1 if year else 0))


def _season(season: str, used: int) -> Refused:
    return Refused(used, _NO_DATE, (f"mid-{_SEASONS[season]}",))


def _vague(words: list[str]) -> Reading:
    """What is said over the fence, and is no day."""
    season = words[0].removeprefix("mid-")
    if season in _SEASONS:
        return _season(season, 1)
    if asap := re.match(r"asap\b|as soon as(?: it is free and safe| it is \w+| possible)?", " ".join(words)):
        return Refused(len(asap[0].split()), _NO_DATE, (), "mistake.date.cure.as soon as")
    ahead = words[0] in ("next", "this", "last") and words[1:2] and words[1] in {"week", "month", "year"} | _WEEKDAYS
    if words[0] in _SPOKEN or ahead:
        used = 2 if ahead else 1
        return Refused(used, "mistake.date.all year", ("12 April", "week 16"), "mistake.date.cure.some day")
    return None


_READERS: tuple[Callable[[list[str]], Reading], ...] = (
    _iso,
    _week,
    _day_length,
    _relative,
    _figures,  # after it: `1.5 weeks` is no date in figures
    _on_the_day,
    _anchor,
    _third,
    _day_month,
    _month_first,
    _vague,
)
