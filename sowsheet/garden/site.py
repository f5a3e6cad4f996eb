"""The site of a garden file: latitude, frost dates, long-term monthly temperatures."""

from __future__ import annotations

from pathlib import Path

from sowsheet.garden.records import Frost, Monthly, Site, WeatherFile
from sowsheet.garden.values import Section, is_file, one_of, section
from sowsheet.reading.date_forms import month_said
from sowsheet.reading.date_words import parse_date
from sowsheet.reading.dates import CalendarDay
from sowsheet.reading.measures import parse_decimal, parse_latitude, parse_temp_c
from sowsheet.reading.mistakes import Mistake, Spot, said
from sowsheet.reading.nodes import Node, Sequence, Text
from sowsheet.reading.places import split_note
from sowsheet.reading.tokens import MONTHS

_KEYS = ("latitude", "last frost", "first frost", "temperatures", "weather", "this year")
_MONTHLY_KEYS = ("min", "max")
# Beyond this the year has one winter: frosts and the warmest month tell the hemispheres apart.
_TROPICS = 25.0
# Months of the northern year. Where frosts are few, the first of a winter may come in January.
_LAST_FROST_MONTHS = (1, 2, 3, 4, 5, 6, 7)
_FIRST_FROST_MONTHS = (7, 8, 9, 10, 11, 12, 1)
# No place on earth has a monthly mean beyond these (from memory; wide).
_COLDEST_C, _WARMEST_C = -60.0, 50.0


def read_site(node: Node | None, mistakes: list[Mistake], folder: Path = Path()) -> Site | None:
    """The site; None where it has no latitude. Both frost dates may be left out, and are then those of the daily
    record, or unknown. `folder` is where the files that it names begin."""
    found = section(node, _KEYS, ("latitude",), mistakes, said("mistake.thing.site"))
    latitude = found.read("latitude", parse_latitude)
    last, first = found.read("last frost", _frost), found.read("first frost", _frost)
    temperatures = found.node("temperatures")
    monthly = None if temperatures is None else read_monthly(temperatures, latitude, mistakes)
    weather, this_year = (found.read(key, lambda t, m: daily_file(t, m, folder)) for key in ("weather", "this year"))
    if latitude is None:
        return None
    _refuse_other_winter(found, latitude, last, first)
    return Site(latitude, last, first, monthly, weather, this_year)


def daily_file(text: Text, mistakes: list[Mistake], folder: Path) -> WeatherFile | None:
    """A file of daily readings beside the garden file."""
    path = folder / text.text
    if is_file(path):
        return WeatherFile(path, text.spot)
    cure = said("mistake.file.not there.weather")
    mistakes.append(Mistake(text.spot, said("mistake.file.not there.what", file=text.text), cure))
    return None


def _frost(text: Text, mistakes: list[Mistake]) -> Frost | None:
    """`10 May (average)`, `10 May (safe)`: a day of every year, and what it means."""
    words, note = split_note(text)
    day = _day_of_every_year(words, mistakes)
    if note is None:
        if day is not None:
            cure = said("mistake.site.which frost.cure", date=words.text)
            mistakes.append(Mistake(text.spot, said("mistake.site.which frost.what"), cure))
        return None
    meaning = one_of(note, ("average", "safe"), "frost", mistakes)
    return Frost(day, "safe" if meaning == "safe" else "average", text.spot) if day and meaning else None


def _day_of_every_year(words: Text, mistakes: list[Mistake]) -> CalendarDay | None:
    """A day of the calendar, without a year; a month alone is too rough."""
    dated = parse_date(words, mistakes)
    if dated is None:
        return None
    day = dated.date
    if not isinstance(day, CalendarDay) or day.span == "month":
        what, cure = said("mistake.site.no calendar day.what"), said("mistake.site.no calendar day.cure")
        mistakes.append(Mistake(words.spot, what, cure))
        return None
    if day.year is not None:
        cure = said("mistake.site.frost of a year.cure", date=f"{day.day} {MONTHS[day.month - 1]}")
        mistakes.append(Mistake(words.spot, said("mistake.site.frost of a year.what"), cure))
        return None
    return day


def _refuse_other_winter(found: Section, latitude: float, last: Frost | None, first: Frost | None) -> None:
    """Frost dates that do not suit the latitude's winter: the wrong hemisphere, or the two changed."""
    if abs(latitude) <= _TROPICS:
        return
    wrong = [
        (name, frost.spot)
        for name, frost, months in (
            ("last frost", last, _LAST_FROST_MONTHS),
            ("first frost", first, _FIRST_FROST_MONTHS),
        )
        if frost is not None and _northern_month(frost.day.month, latitude) not in months
    ]
    cure = said("mistake.site.other winter.cure")
    if latitude > 0:
        cure = said("mistake.site.other winter.cure south", latitude=f"{latitude:g}")
    if len(wrong) > 1:
        where = found.found["latitude"].value.spot
        found.mistakes.append(Mistake(where, said("mistake.site.other winter.both"), cure))
    for name, spot in wrong if len(wrong) == 1 else ():
        found.mistakes.append(Mistake(spot, said(f"mistake.site.other winter.{name}"), cure))


def _northern_month(month: int, latitude: float) -> int:
    """The month of the same season in the north."""
    return month if latitude >= 0 else (month + 5) % 12 + 1


def read_monthly(node: Node, latitude: float | None, mistakes: list[Mistake]) -> Monthly | None:
    """Twelve minima and twelve maxima. Without a latitude nothing is said of which end of the year is the warmer."""
    found = section(node, _MONTHLY_KEYS, _MONTHLY_KEYS, mistakes, said("mistake.thing.key", key="temperatures"))
    low, high = (_twelve(found, key, mistakes) for key in ("min", "max"))
    if low is None or high is None:
        return None
    for month, ((spot, lowest), (_, highest)) in enumerate(zip(low, high, strict=True), 1):
        if lowest >= highest:
            what = said("mistake.site.min and max.what", month=month_said(month), low=lowest, high=highest)
            mistakes.append(Mistake(spot, what, said("mistake.site.min and max.cure")))
    monthly = Monthly(tuple(c for _, c in low), tuple(c for _, c in high))
    _refuse_other_summer(monthly, latitude, node.spot, mistakes)
    return monthly


def _refuse_other_summer(monthly: Monthly, latitude: float | None, spot: Spot, mistakes: list[Mistake]) -> None:
    if latitude is None or abs(latitude) <= _TROPICS:
        return
    january, july = (monthly.max_c[n] + monthly.min_c[n] for n in (0, 6))
    if (january > july) if latitude > 0 else (july > january):
        what = said("mistake.site.other summer.what", month=month_said(1 if latitude > 0 else 7))
        mistakes.append(Mistake(spot, what, said("mistake.site.other summer.cure")))


def _twelve(found: Section, key: str, mistakes: list[Mistake]) -> tuple[tuple[Spot, float], ...] | None:
    """A temperature for each month, with its place."""
    if key not in found.found:
        return None
    node, cure = found.found[key].value, said("mistake.site.twelve.cure")
    if not isinstance(node, Sequence) or not all(isinstance(item, Text) for item in node.items):
        mistakes.append(Mistake(node.spot, said("mistake.site.twelve.what", key=key), cure))
        return None
    texts = [item for item in node.items if isinstance(item, Text)]
    if (wrong := _out_of_reason(texts)) is not None:
        mistakes.append(_no_month(wrong))
        return None
    values = [_degrees(text, mistakes) for text in texts]
    if len(values) != 12:
        mistakes.append(Mistake(node.spot, said("mistake.site.twelve.others", key=key, n=len(values)), cure))
        return None
    known = tuple((text.spot, value) for text, value in zip(texts, values, strict=True) if value is not None)
    return known if len(known) == 12 else None


def _out_of_reason(texts: list[Text]) -> Text | None:
    """The first number without a unit that no month of any place has in C."""
    bare = [(text, parse_decimal(text, [], -200.0, 200.0)) for text in texts if not _has_unit(text)]
    return next((text for text, c in bare if c is not None and not _COLDEST_C <= c <= _WARMEST_C), None)


def _no_month(text: Text) -> Mistake:
    """One mistake for a list, however many of its numbers are too hot or too cold: it may be in Fahrenheit."""
    number = text.text.strip()
    key = "mistake.site.no month.cold" if number.startswith("-") else "mistake.site.no month.hot"
    return Mistake(text.spot, said(key, number=number), said("mistake.site.no month.cure", number=number))


def _has_unit(text: Text) -> bool:
    return text.text.strip()[-1:].isalpha()


def _degrees(text: Text, mistakes: list[Mistake]) -> float | None:
    """A monthly temperature; a bare number is in C."""
    if _has_unit(text):
        return parse_temp_c(text, mistakes)
    return parse_decimal(text, mistakes, -200.0, 200.0)
