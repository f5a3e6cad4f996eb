"""The garden's own habits: work days, spare, hardening, fleece, risk."""

from __future__ import annotations

import re
from fractions import Fraction

from sowsheet.garden.records import House
from sowsheet.garden.values import Section, one_of, section
from sowsheet.reading.measures import parse_days, parse_length, parse_percent
from sowsheet.reading.mistakes import Mistake, example, said
from sowsheet.reading.nodes import Text
from sowsheet.reading.numbers import whole
from sowsheet.reading.places import part_of

_KEYS = ("spare", "hardening", "fleece", "risk", "compost")
_WEEKDAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")
_JOINT = re.compile(r"\s+and\s+|\s*&\s*", re.IGNORECASE)
_SPAN = re.compile(r"\s+(?:to|till|until)\s+|\s*[-–—]\s*", re.IGNORECASE)
_LONGEST_HARDENING, _LONGEST_FLEECE = 60, 366
_DEEPEST_COMPOST_MM = 500.0
_LEAST_RISK, _MOST_RISK = Fraction(1, 1000), Fraction(1, 2)


def read_house(top: Section) -> House:
    """The habits said in the file; where it is silent, the usual ones."""
    found = section(top.node("house"), _KEYS, (), top.mistakes, said("mistake.thing.key", key="house"))
    spare, risk = found.read("spare", parse_percent), found.read("risk", _risk)
    hardening = found.read("hardening", lambda t, m: parse_days(t, m, _LONGEST_HARDENING))
    fleece = found.read("fleece", lambda t, m: parse_days(t, m, _LONGEST_FLEECE))
    compost = found.read("compost", compost_mm)
    usual = House()
    return House(
        usual.spare if spare is None else spare,
        hardening,
        usual.fleece_days if fleece is None else fleece,
        usual.risk if risk is None else float(risk),
        usual.compost_mm if compost is None else compost,
    )


def compost_mm(text: Text, mistakes: list[Mistake]) -> float | None:
    """How deep a bed is mulched with compost, in mm: `25 mm`, `1 in`; `0 mm` for none."""
    if text.text.split()[:1] == ["0"]:
        return 0.0
    cm = parse_length(text, mistakes)
    if cm is None or cm * 10 <= _DEEPEST_COMPOST_MM:
        return None if cm is None else cm * 10
    what = said("mistake.house.compost.what", text=" ".join(text.text.split()))
    mistakes.append(Mistake(text.spot, what, said("mistake.house.compost.cure")))
    return None


def work_days(text: Text, mistakes: list[Mistake]) -> frozenset[int]:
    """`Tuesday`, `Tue and Sat`, `Monday to Friday`: 0 is Monday."""
    days: set[int] = set()
    for piece in _parted(text, _JOINT):
        ends = [_weekday(end, mistakes) for end in _parted(piece, _SPAN)]
        known = [day for day in ends if day is not None]
        if len(known) < len(ends):
            continue
        if len(known) > 2:
            mistakes.append(Mistake(piece.spot, said("mistake.house.days"), example("Tuesday, Saturday")))
        days |= {(known[0] + n) % 7 for n in range((known[-1] - known[0]) % 7 + 1)}
    return frozenset(days)


def _parted(text: Text, sign: re.Pattern[str]) -> list[Text]:
    """A text parted at a sign, each part at its own place."""
    found = list(sign.finditer(text.text))
    starts, ends = [0, *(f.end() for f in found)], [*(f.start() for f in found), len(text.text)]
    return [part_of(text, start, end) for start, end in zip(starts, ends, strict=True)]


def _weekday(text: Text, mistakes: list[Mistake]) -> int | None:
    word = text.text.lower().rstrip(".").removesuffix("s")
    if len(word) >= 3:
        match = next((n for n, day in enumerate(_WEEKDAYS) if day.lower().startswith(word)), None)
        if match is not None:
            return match
    if word in ("every day", "daily", "all"):
        mistakes.append(Mistake(text.spot, said("mistake.house.every day.what"), said("mistake.house.every day.cure")))
        return None
    one_of(text, _WEEKDAYS, "weekday", mistakes)
    return None


def _risk(text: Text, mistakes: list[Mistake]) -> Fraction | None:
    """`1 in 10` or `10 %`: the chance of a killing night that planting accepts."""
    words = text.text.lower().split()
    years = whole(words[2]) if len(words) == 3 and words[1] == "in" and whole(words[0]) == 1 else None
    risk = Fraction(1, years) if years else parse_percent(text, mistakes)
    if risk is None or _LEAST_RISK <= risk <= _MOST_RISK:
        return risk
    what = said("mistake.house.risk.what", text=" ".join(words))
    mistakes.append(Mistake(text.spot, what, said("mistake.house.risk.cure")))
    return None
