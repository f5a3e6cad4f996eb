"""The site of a garden file: latitude, frost dates, long-term monthly temperatures."""

from __future__ import annotations

from pathlib import Path

from sowsheet.garden.records import Frost, Monthly, Site, WeatherFile
from sowsheet.garden.values import Section, is_file, one_of, section
from sowsheet.reading.date_words import parse_date
from sowsheet.reading.dates import CalendarDay
from sowsheet.reading.measures import parse_decimal, parse_latitude, parse_temp_c
from sowsheet.reading.mistakes import Mistake, Spot
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
    found = section(node, _KEYS, ("latitude",), mistakes, "the site")
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
    cure = "Its path begins at the folder of the garden file. `sowsheet frost FILE.csv` tells how it is read."
    mistakes.append(Mistake(text.spot, f"there is no file `{text.text}`", cure))
    return None


def _frost(text: Text, mistakes: list[Mistake]) -> Frost | None:
    """`10 May (average)`, `10 May (safe)`: a day of every year, and what it means."""
    words, note = split_note(text)
    day = _day_of_every_year(words, mistakes)
    if note is None:
        if day is not None:
            what, said = "is this the average date, or the safe one?", words.text
            cure = (
                f"Write `{said} (average)` if half of all years have frost beyond it, `{said} (safe)` if 1 in 10 has."
            )
            mistakes.append(Mistake(text.spot, what, cure))
        return None
    meaning = one_of(note, ("average", "safe"), "what a frost date means", mistakes)
    return Frost(day, "safe" if meaning == "safe" else "average", text.spot) if day and meaning else None


def _day_of_every_year(words: Text, mistakes: list[Mistake]) -> CalendarDay | None:
    """A day of the calendar, without a year; a month alone is too rough."""
    dated = parse_date(words, mistakes)
    if dated is None:
        return None
    day = dated.date
    if not isinstance(day, CalendarDay) or day.span == "month":
        cure = "e.g. `10 May (average)`; leave the line out where no frost is known"
        mistakes.append(Mistake(words.spot, "a frost date is a day of the calendar", cure))
        return None
    if day.year is not None:
        cure = f"Leave the year out: `{day.day} {MONTHS[day.month - 1]} (average)`."
        mistakes.append(Mistake(words.spot, "a frost date holds for every year", cure))
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
    cure = "The last frost ends the winter, the first begins the next: have they changed places?"
    if latitude > 0:
        cure += f" South of the equator write `latitude: {latitude:g} S`."
    if len(wrong) > 1:
        where = found.found["latitude"].value.spot
        found.mistakes.append(Mistake(where, "at this latitude both frost dates are those of another winter", cure))
    for name, spot in wrong if len(wrong) == 1 else ():
        found.mistakes.append(Mistake(spot, f"at this latitude the {name} cannot fall in that month", cure))


def _northern_month(month: int, latitude: float) -> int:
    """The month of the same season in the north."""
    return month if latitude >= 0 else (month + 5) % 12 + 1


def read_monthly(node: Node, latitude: float | None, mistakes: list[Mistake]) -> Monthly | None:
    """Twelve minima and twelve maxima. Without a latitude nothing is said of which end of the year is the warmer."""
    found = section(node, _MONTHLY_KEYS, _MONTHLY_KEYS, mistakes, "`temperatures`")
    low, high = (_twelve(found, key, mistakes) for key in ("min", "max"))
    if low is None or high is None:
        return None
    for month, (spot, lowest), (_, highest) in zip(MONTHS, low, high, strict=True):
        if lowest >= highest:
            what = f"in {month} the minimum ({lowest:g} C) is not below the maximum ({highest:g} C)"
            mistakes.append(Mistake(spot, what, "January to December in both lists, by night and by day."))
    monthly = Monthly(tuple(c for _, c in low), tuple(c for _, c in high))
    _refuse_other_summer(monthly, latitude, node.spot, mistakes)
    return monthly


def _refuse_other_summer(monthly: Monthly, latitude: float | None, spot: Spot, mistakes: list[Mistake]) -> None:
    if latitude is None or abs(latitude) <= _TROPICS:
        return
    january, july = (monthly.max_c[n] + monthly.min_c[n] for n in (0, 6))
    if (january > july) if latitude > 0 else (july > january):
        what = f"at this latitude {'January' if latitude > 0 else 'July'} is not the warmer end of the year"
        mistakes.append(Mistake(spot, what, "Lists begin with January, wherever the garden lies."))


def _twelve(found: Section, key: str, mistakes: list[Mistake]) -> tuple[tuple[Spot, float], ...] | None:
    """A temperature for each month, with its place."""
    if key not in found.found:
        return None
    node, example = found.found[key].value, "e.g. `[1.0, 1.0, 2.3, …]`, January to December"
    if not isinstance(node, Sequence) or not all(isinstance(item, Text) for item in node.items):
        mistakes.append(Mistake(node.spot, f"`{key}` wants a list of twelve temperatures", example))
        return None
    texts = [item for item in node.items if isinstance(item, Text)]
    if (wrong := _out_of_reason(texts)) is not None:
        mistakes.append(_no_month(wrong))
        return None
    values = [_degrees(text, mistakes) for text in texts]
    if len(values) != 12:
        mistakes.append(Mistake(node.spot, f"`{key}` has {len(values)} values; a year has twelve months", example))
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
    what = f"no month of any place is as {'cold' if number.startswith('-') else 'hot'} as {number} C"
    cure = f"Numbers without a unit are in C; for Fahrenheit give each number of the list its unit: `{number} F`."
    return Mistake(text.spot, what, cure)


def _has_unit(text: Text) -> bool:
    return text.text.strip()[-1:].isalpha()


def _degrees(text: Text, mistakes: list[Mistake]) -> float | None:
    """A monthly temperature; a bare number is in C."""
    if _has_unit(text):
        return parse_temp_c(text, mistakes)
    return parse_decimal(text, mistakes, -200.0, 200.0)
