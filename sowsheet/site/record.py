"""A daily record of temperatures as weather services and growers' own loggers write it: text in, a `Record` out.

Nothing is guessed silently: what is left out, swapped, sorted or recognised is told, with its lines; what cannot be
decided is a mistake with its cure.
"""

from __future__ import annotations

import csv
import math
import re
from collections.abc import Iterable, Sequence
from datetime import date
from itertools import pairwise
from statistics import median
from typing import Literal

import msgspec

from sowsheet.reading.mistakes import Mistake, Spot
from sowsheet.words.english import MONTHS, count, listed

Unit = Literal["C", "F", ""]  # of the temperatures; "" where nobody has said

COLDEST_C, WARMEST_C = -60.0, 60.0  # no garden is colder or hotter
JUMP_C = 30.0  # a minimum so far from the median of its neighbours' is a slip of the pen
FEW_YEARS = 10
_BAD_SHARE = 0.05  # more unreadable lines than this, and more than a few, and the file is read wrongly
_FEW_LINES = 3
_CONTRADICTING = 0.01  # so many dates may be slips against the order of all others
_HEAD_LINES = 100  # how far down the line with the columns' names may stand
_EARLIEST, _LATEST = 1650, 2200  # years of a thermometer
_EXAMPLE = "2020-12-31,-1.5,4.0"
NAN = math.nan


class Record(msgspec.Struct, frozen=True):
    """Days in rising order, none twice, each with its minimum; the maximum is NaN where it was not read. C."""

    file: str
    days: tuple[date, ...]
    min_c: tuple[float, ...]
    max_c: tuple[float, ...]


class _Columns(msgspec.Struct, frozen=True):
    """Where things stand in a line. `day` holds one column, or those of year, month and day."""

    head: int  # the line of the names, from 0
    separator: str  # "" is any white space
    names: tuple[str, ...]
    day: tuple[int, ...]
    low: int
    high: int | None


class _Line(msgspec.Struct, frozen=True):
    """A line cut into fields; its number counts from 1."""

    number: int
    fields: list[str]


class _Row(msgspec.Struct, frozen=True, gc=False):
    """A line's day and temperatures, in the file's unit or in C; NaN where a temperature is missing."""

    line: int
    day: date
    low: float
    high: float


class _Reader:
    """One file's lines, and what is found wrong with it."""

    def __init__(self, text: str, file: str, mistakes: list[Mistake], noticed: list[str]) -> None:
        self.file = file
        self.lines = text.removeprefix("\ufeff").splitlines()
        self.mistakes = mistakes
        self.noticed = noticed

    def wrong(self, line: int, what: str, cure: str = "") -> None:
        """A mistake in a line counted from 1."""
        excerpt = self.lines[line - 1][:200] if 0 < line <= len(self.lines) else ""
        self.mistakes.append(Mistake(Spot(self.file, line, 1, len(excerpt.rstrip()), excerpt), what, cure))

    def tell(self, what: str, lines: Sequence[int]) -> None:
        """One sentence for all lines to which something happened."""
        if lines:
            self.noticed.append(f"{count(len(lines), 'line')} {what}: {_runs(lines)}")


def decoded(data: bytes) -> str:
    """A file's text: UTF-8, UTF-16 with its mark, else as Windows writes it (a degree sign is all that may differ)."""
    if data[:2] in (b"\xff\xfe", b"\xfe\xff"):
        return data.decode("utf-16", errors="replace")
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError:
        return data.decode("cp1252", errors="replace")


def read_record(
    text: str, file: str, mistakes: list[Mistake], noticed: list[str], unit: Unit = "", years: bool = True
) -> Record | None:
    """The record in a CSV text, or None when it cannot be read (then a mistake is added that says why).

    Columns are found by their names: a date (or year, month, day), a minimum, perhaps a maximum; separators are
    comma, semicolon, tab or white space. `unit` overrules the file's head; without either, the unit is told from the
    values, where they leave no doubt. Left out, and told in `noticed` with the lines: missing, unreadable and absurd
    temperatures (outside -60 to 60 C; a minimum more than 30 C from its neighbours'), a minimum above its maximum,
    a day's second line. `years`: it is to hold many, and it is told when it does not.
    """
    reader = _Reader(text, file, mistakes, noticed)
    columns = _columns(reader)
    rows = None if columns is None else _read_rows(reader, columns, unit)
    if columns is None or rows is None:
        return None
    if not rows:
        reader.wrong(columns.head + 1, "no line holds a day with a minimum that can be true", f"e.g. `{_EXAMPLE}`")
        return None
    _tell_gaps(reader, [r.day for r in rows], years)
    return Record(file, tuple(r.day for r in rows), tuple(r.low for r in rows), tuple(r.high for r in rows))


def _read_rows(reader: _Reader, columns: _Columns, unit: Unit) -> list[_Row] | None:
    """The rows that hold, in C and in order; None when a mistake was found."""
    cut = _cut_lines(reader, columns)
    rows = None if cut is None else _rows(reader, columns, cut)
    rows = None if rows is None else _right_way_up(reader, columns, rows)
    rows = None if rows is None else _in_celsius(reader, columns, rows, unit)
    rows = None if rows is None else _sound(reader, rows)
    rows = None if rows is None else _in_order(reader, rows)
    return None if rows is None else _without_jumps(reader, rows)


# The columns

_DATE = {"date", "datum", "dat", "datetime", "yyyymmdd", "yyyymmddhh", "messdatum", "dato", "fecha", "obsdate"}
_DATE |= {"dateutc", "localdate", "dateobs", "observationdate", "timestamp"}
_DATE_TOO = {"day", "time", "tm", "dt", "data", "jour", "tag", "dag", "dia"}  # where none of those stands
_YEAR = {"year", "yr", "yyyy", "jahr", "jaar", "annee", "ano", "anno"}
_MONTH = {"month", "mon", "mo", "mm", "monat", "maand", "mois", "mes", "mese"}
_DAY = {"day", "dd", "dy", "da", "tag", "dag", "jour", "dia", "giorno", "dayofmonth"}
_TEMP = "(?:temperature|temperatur|temp|tas|ta|t)"
_MIN = "(?:minimum|minima|minimo|minimale|mini|min|mn|lowest|low)"
_MAX = "(?:maximum|maxima|maximo|maximale|maxi|max|mx|highest|high)"
_LOW = re.compile(f"(?:air|daily|day)?(?:{_TEMP}(?:air)?(?:m)?{_MIN}|{_MIN}(?:air)?{_TEMP}?|tn|tnk)")
_HIGH = re.compile(f"(?:air|daily|day)?(?:{_TEMP}(?:air)?(?:m)?{_MAX}|{_MAX}(?:air)?{_TEMP}?|tx|txk)")
_UNIT_WORDS = {
    "F": r"fahrenheit|[°º]\s*f|deg(?:rees?)?[\s_.]*f\b|[(\[\s_.,/]f[)\]]?$|(?<=min|max)f$|(?-i:(?<=[a-z])F$)",
    "C": r"celsius|centigrade|[°º]\s*c|deg(?:rees?)?[\s_.]*c\b|[(\[\s_.,/]c[)\]]?$|(?<=min|max)c$|(?-i:(?<=[a-z])C$)",
    "K": r"kelvin|[(\[\s_.,/]k[)\]]$",
    "tenths": r"tenth|0[.,]1|1/10",
}


def _unit_in(name: str) -> str:
    """The unit that a column's name tells: C, F, K, tenths (of C); "" where it tells none."""
    units = ("tenths", "F", "C", "K")
    return next((u for u in units if re.search(_UNIT_WORDS[u], name.strip(), re.IGNORECASE)), "")


def _bare(name: str) -> str:
    """A column's name without its unit, in small letters alone: `Min Temp (°F)` is `mintemp`."""
    low = re.sub(r"\(.*?\)|\[.*?\]|deg.*|celsius|fahrenheit|2m", "", name.lower())
    low = re.sub(r"[\s_.,/]*[°º]?\s*[cf]\s*$", "", low) if _unit_in(name) else low
    return re.sub(r"[^a-z]", "", low.replace("é", "e").replace("ñ", "n"))


def _columns(reader: _Reader) -> _Columns | None:
    """The columns by the first line that names a date and a minimum."""
    if not any(line.strip() for line in reader.lines):
        reader.wrong(1, "the record is empty", "It wants a line of names and a line a day, e.g. `date,tmin,tmax`.")
        return None
    best: tuple[int, int, str] = (0, 0, "")  # roles, minus the line, the separator
    for n, line in enumerate(reader.lines[:_HEAD_LINES]):
        for separator in (";", "\t", ",", ""):
            names = _fields(line, separator)
            roles = len(_days_at(names) or ()) > 0, any(_LOW.fullmatch(_bare(name)) for name in names)
            if all(roles):
                return _settled(reader, n, separator, names)
            if sum(roles) > best[0] and len(names) > 1:
                best = (sum(roles), -n, separator)
    _no_columns(reader, best)
    return None


def _no_columns(reader: _Reader, best: tuple[int, int, str]) -> None:
    """What is missing in the line that looks most like one of names."""
    example = "Let one line above the days name the columns, e.g. `date,tmin,tmax`."
    if not best[0]:
        first = next(n for n, line in enumerate(reader.lines, 1) if line.strip())
        reader.wrong(first, "no line names the columns of a date and a minimum", example)
        return
    line = 1 - best[1]
    names = [name for name in _fields(reader.lines[line - 1], best[2]) if name]
    lacks = "minimum temperatures" if _days_at(names) else "dates"
    cure = f"Its columns are {listed([f'`{n}`' for n in names[:12]])}. {example}"
    reader.wrong(line, f"there is no column of {lacks}", cure)


def _settled(reader: _Reader, head: int, separator: str, names: list[str]) -> _Columns | None:
    """The columns of one line; two that could both be the minimum are a mistake unless only one of them is in C."""
    day = _days_at(names) or ()
    low = _one_column(reader, head, names, _LOW, "minimum")
    high = _one_column(reader, head, names, _HIGH, "maximum")
    if low is None or high is None:
        return None
    return _Columns(head, separator, tuple(names), day, low, high if high >= 0 else None)


def _one_column(reader: _Reader, head: int, names: list[str], pattern: re.Pattern[str], what: str) -> int | None:
    """The column with such a name, -1 where there is none, None when two could be meant."""
    found = [n for n, name in enumerate(names) if pattern.fullmatch(_bare(name))]
    in_c = [n for n in found if _unit_in(names[n]) == "C"]
    if len(found) > 1 and len(in_c) == 1:
        reader.noticed.append(f"two columns hold the {what}; `{names[in_c[0]]}`, in C, is read")
        return in_c[0]
    if len(found) > 1:
        both = listed([f"`{names[n]}`" for n in found])
        reader.wrong(head + 1, f"{both} could both be the {what}", "Rename or take out those that are not meant.")
        return None
    return found[0] if found else -1


def _days_at(names: Sequence[str]) -> tuple[int, ...] | None:
    """The column of the date, or those of year, month and day."""
    bare = [_bare(name) for name in names]

    def first(known: set[str]) -> int | None:
        return next((n for n, name in enumerate(bare) if name in known), None)

    parts = [first(known) for known in (_YEAR, _MONTH, _DAY)]
    found = tuple(n for n in parts if n is not None)
    if len(set(found)) == 3:
        return found
    whole = [n for n in (first(_DATE), first(_DATE_TOO)) if n is not None]
    return (whole[0],) if whole else None


def _fields(line: str, separator: str) -> list[str]:
    """A line cut at a separator; fields in quotes may hold it."""
    if not separator:  # a unit in brackets belongs to the name before it
        return [field.strip("\"'") for field in re.sub(r"\s+(?=[(\[])", "", line.lstrip("#")).split()]
    if '"' not in line:
        return [field.strip() for field in line.lstrip("#").split(separator)]
    try:
        return [field.strip() for field in next(csv.reader([line.lstrip("#")], delimiter=separator), [])]
    except csv.Error:
        return []


def _cut_lines(reader: _Reader, columns: _Columns) -> list[_Line] | None:
    """The lines below the names. Fields that run over are what decimal commas between commas look like."""
    cut = [
        _Line(n, _fields(line, columns.separator))
        for n, line in enumerate(reader.lines[columns.head + 1 :], columns.head + 2)
        if line.strip() and not line.startswith("#")
    ]
    if not cut:
        reader.wrong(columns.head + 1, "no day stands below the names of the columns", "A day is a line of its own.")
        return None
    over = [line for line in cut if any(line.fields[len(columns.names) :])]
    if len(over) > _BAD_SHARE * len(cut):
        what = f"{count(len(over), 'line')} with more fields than the {len(columns.names)} columns that are named"
        cure = "Write decimals with a point, or part the columns with semicolons."
        reader.wrong(over[0].number, what, cure if columns.separator == "," else "Name every column.")
        return None
    reader.tell("left out, more fields than columns", [line.number for line in over])
    spoilt = {line.number for line in over}
    return [line for line in cut if line.number not in spoilt]


# The dates

_ISO = re.compile(r"(\d{4})([-/.])(\d{1,2})\2(\d{1,2})(?:[t ].*)?", re.ASCII)
_COMPACT = re.compile(r"(\d{4})(\d\d)(\d\d)", re.ASCII)
_TWO_WAYS = re.compile(r"(\d{1,2})([-/.])(\d{1,2})\2(\d{4})(?:[t ].*)?", re.ASCII)
_NAMED = re.compile(r"(\d{1,2})[-\s./]*([a-z]{3,9})[-\s./,]*(\d{4})", re.ASCII)
_NAMED_US = re.compile(r"([a-z]{3,9})[\s.]*(\d{1,2}),?\s+(\d{4})", re.ASCII)
_FORMS = ((_ISO, 1, 3, 4), (_COMPACT, 1, 2, 3), (_NAMED, 3, 2, 1), (_NAMED_US, 3, 1, 2))  # year, month, day
_SHORT_YEAR = re.compile(r"\d{1,2}([-/.])\d{1,2}\1\d\d", re.ASCII)
_FOUR = "Write dates as 2020-12-31, with the year in four figures."


def _rows(reader: _Reader, columns: _Columns, cut: list[_Line]) -> list[_Row] | None:
    """Days and temperatures as written; a line without a date or with an unreadable minimum is left out and told."""
    day_first = _day_first(reader, columns, cut)
    if day_first is None:
        return None
    rows: list[_Row] = []
    no_day: list[int] = []
    no_number: list[int] = []
    for line in cut:
        day = _day_of(line, columns, day_first)
        low = _number(line, columns.low)
        high = _number(line, columns.high)
        if day is None:
            no_day.append(line.number)
        elif low is None:
            no_number.append(line.number)
        else:
            rows.append(_Row(line.number, day, low, NAN if high is None else high))
    if not _readable(reader, columns, cut, no_day, no_number):
        return None
    reader.tell("left out, without a date that can be read", no_day)
    reader.tell("left out, the minimum is no number", no_number)
    return rows


def _readable(reader: _Reader, columns: _Columns, cut: list[_Line], no_day: list[int], no_number: list[int]) -> bool:
    """Whether so few lines are unreadable that they may be left out."""
    most = min(len(cut) - 1, max(_FEW_LINES, _BAD_SHARE * len(cut)))
    if len(no_day) > most:
        short = any(_SHORT_YEAR.fullmatch(_field(line, columns.day[0])) for line in cut)
        what = "years in two figures could be of two centuries" if short else "this is no date that can be read"
        also = f" ({count(len(no_day), 'line')} like it)" if len(no_day) > 1 else ""
        reader.wrong(no_day[0], what + also, _FOUR)
    elif len(no_number) > most:
        name = columns.names[columns.low]
        also = f" ({count(len(no_number), 'line')} like it)" if len(no_number) > 1 else ""
        reader.wrong(
            no_number[0], f"the minimum, `{name}`, is no number here{also}", "Write bare numbers, e.g. `-1.5`."
        )
    return max(len(no_day), len(no_number)) <= most


def _day_first(reader: _Reader, columns: _Columns, cut: list[_Line]) -> bool | None:
    """Whether 03/04/2020 is in April, by the whole column; True where no such date stands; None: not to be told.

    Dates with points are day first wherever they are used.
    """
    if len(columns.day) > 1:
        return True
    dates = [(line.number, m) for line in cut if (m := _TWO_WAYS.fullmatch(_field(line, columns.day[0]).lower()))]
    days = [n for n, m in dates if int(m[1]) > 12]
    months = [n for n, m in dates if int(m[3]) > 12]
    few = _CONTRADICTING * len(dates)
    if min(len(days), len(months)) > few:
        what = "some dates have the day first, others the month"
        reader.wrong(months[0], what, f"Line {days[0]} has the day first, line {months[0]} the month. {_FOUR}")
        return None
    if not days and not months and any(m[2] != "." for _, m in dates):
        what = "no date tells whether day or month stands first: no number before the year is above 12"
        reader.wrong(dates[0][0], what, _FOUR)
        return None
    return len(days) >= len(months)


def _field(line: _Line, column: int) -> str:
    return line.fields[column] if column < len(line.fields) else ""


def _day_of(line: _Line, columns: _Columns, day_first: bool) -> date | None:
    if len(columns.day) == 3:
        year, month, day = (_field(line, n).removesuffix(".0") for n in columns.day)
        return _date(year, month, day)
    text = _field(line, columns.day[0]).lower()
    if m := _TWO_WAYS.fullmatch(text):
        return _date(m[4], m[3], m[1]) if day_first else _date(m[4], m[1], m[3])
    for pattern, year_at, month_at, day_at in _FORMS:
        if m := pattern.fullmatch(text):
            return _date(m[year_at], m[month_at], m[day_at])
    return None


def _date(year: str, month: str, day: str) -> date | None:
    """A date that exists; the month may be an English name, whole or cut."""
    name = month.lower()
    if len(name) >= 3 and name.isalpha():
        month = str(next((n for n, known in enumerate(MONTHS, 1) if known.lower().startswith(name)), 0))
    if not all(part.isascii() and part.isdigit() and len(part) <= 4 for part in (year, month, day)):
        return None
    if not _EARLIEST <= int(year) <= _LATEST:
        return None
    try:
        return date(int(year), int(month), int(day))
    except ValueError:
        return None


# The temperatures

_NUMBER = re.compile(r"[+-]?(?:\d+(?:[.,]\d*)?|[.,]\d+)(?:e[+-]?\d{1,3})?", re.ASCII | re.IGNORECASE)
_BLANK = {"", "na", "nan", "n/a", "#n/a", "null", "none", "nil", "m", "-", "--", "---", "x", "?", "*", ".", "missing"}
_CODE = re.compile(r"-?9{3,}(?:[.,]\d*)?", re.ASCII)  # what stands for a missing value
_CODES = (-99.0, -99.9, -99.99)  # and these, where they are not tenths


def _number(line: _Line, column: int | None) -> float | None:
    """A temperature; NaN where it is missing, None where the field is no number."""
    text = "" if column is None else _field(line, column)
    if text.lower() in _BLANK or _CODE.fullmatch(text):
        return NAN
    plain = text.replace("−", "-").replace("–", "-").replace(" ", "")
    if len(plain) > 30 or not _NUMBER.fullmatch(plain):
        return None
    return float(plain.replace(",", "."))


def _right_way_up(reader: _Reader, columns: _Columns, rows: list[_Row]) -> list[_Row] | None:
    """Columns that were changed with each other, changed back: nearly every minimum lies above its maximum."""
    both = [r for r in rows if r.low == r.low and r.high == r.high]
    over = [r for r in both if r.low > r.high]
    if len(both) < 10 or len(over) <= 0.1 * len(both):
        return rows
    if len(over) < 0.9 * len([r for r in both if r.low != r.high]):
        what = f"in {len(over)} of {len(both)} lines the minimum lies above the maximum"
        reader.wrong(over[0].line, what, "See which column is which, and name them `tmin` and `tmax`.")
        return None
    low, high = columns.names[columns.low], columns.names[columns.high or 0]
    reader.noticed.append(f"the columns `{low}` and `{high}` are read the other way round: minima lay above maxima")
    return [_Row(r.line, r.day, r.high, r.low) for r in rows]


def _in_celsius(reader: _Reader, columns: _Columns, rows: list[_Row], unit: Unit) -> list[_Row] | None:
    """The rows that have a minimum, in C."""
    known = [r for r in rows if r.low == r.low]
    if not known:
        reader.wrong(columns.head + 1, "no line has both a date and a minimum", f"e.g. `{_EXAMPLE}`")
        return None
    found = _unit_of(reader, columns, known, unit)
    if found is None:
        return None
    converted = [_Row(r.line, r.day, _celsius(r.low, found), _celsius(r.high, found)) for r in rows]
    reader.tell("left out, the minimum is missing", [r.line for r in converted if r.low != r.low])
    return [r for r in converted if r.low == r.low]


def _unit_of(reader: _Reader, columns: _Columns, rows: list[_Row], unit: Unit) -> str | None:
    """C, F or tenths (of C): by the option, by the columns' names, by the values, in this order. None: a mistake."""
    named = _unit_in(columns.names[columns.low]) or (_unit_in(columns.names[columns.high]) if columns.high else "")
    seen = _unit_seen(rows)
    if "K" in (unit or named, seen):
        what = "these temperatures look like kelvins"
        reader.wrong(rows[0].line, what, "Give them in C: take 273.15 from each.")
        return None
    if not unit and not named and seen == "?":
        what = "nothing tells whether these temperatures are in C or in F"
        cure = "Say it in the column's name, e.g. `tmin (F)`; `sowsheet frost` also takes `--unit F` or `--unit C`."
        reader.wrong(columns.head + 1, what, cure)
        return None
    if not unit and {named, seen} == {"C", "F"}:
        what = f"the column's name says {named}, but the values look like {seen}"
        cure = f"Mend the name; `sowsheet frost` also takes `--unit {seen}` or `--unit {named}`."
        reader.wrong(columns.head + 1, what, cure)
        return None
    if not unit and not named:
        reader.noticed.append(_TOLD_UNIT[seen])
    elif unit and named and unit != named:
        reader.noticed.append(f"read in {unit} as asked, though the column's name says {named}")
    return unit or named or seen


_TOLD_UNIT = {
    "C": "no unit is named; by the values these are degrees C",
    "F": "no unit is named; by the values these are degrees F",
    "tenths": "no unit is named; by the values these are tenths of a degree C",
}


def _unit_seen(rows: Sequence[_Row]) -> str:
    """The unit by the values alone: C, F, tenths (of C), K; "?" where two could be.

    Whole numbers that pass all that air can reach in F are tenths. The warmest days of a garden's year (2 in 100 are
    warmer) reach 60 F, and nowhere 50 C; the warmest nights 42 F, and nowhere 34 C. That it is C shows only in a
    record with summer and winter: a winter in F looks like one in C.
    """
    highs = [r.high for r in rows if r.high == r.high]
    days = 2 * len(highs) >= len(rows)
    warm = sorted(highs if days else [r.low for r in rows])
    warmest, cold = warm[int(0.98 * (len(warm) - 1))], sorted(r.low for r in rows)
    if cold[len(cold) // 50] > 180 and warmest < 340:
        return "K"
    if warmest > (130 if days else 95):
        whole = all(r.low == int(r.low) for r in rows if abs(r.low) < 1e6)
        return "tenths" if whole and warmest < 600 else "?"
    if warmest >= (60 if days else 42):
        return "F"
    months = {r.day.month for r in rows}
    if warmest <= (50 if days else 34) and months & {6, 7, 8} and months & {12, 1, 2}:
        return "C"
    return "?"


def _celsius(value: float, unit: str) -> float:
    if value in _CODES and unit != "tenths":
        return NAN
    if unit == "F":
        return (value - 32) * 5 / 9
    return value / 10 if unit == "tenths" else value


def _sound(reader: _Reader, rows: list[_Row]) -> list[_Row] | None:
    """Rows without temperatures that no air has, and without minima above their maxima."""
    absurd = [r for r in rows if not COLDEST_C <= r.low <= WARMEST_C]
    if len(absurd) > max(_FEW_LINES, _BAD_SHARE * len(rows)):
        what = f"in {len(absurd)} of {len(rows)} lines the minimum is colder than -60 C or warmer than 60 C"
        reader.wrong(absurd[0].line, what, "See that the right column is named as the minimum, and its unit.")
        return None
    reader.tell("left out, the minimum is colder than -60 C or warmer than 60 C", [r.line for r in absurd])
    kept = [r for r in rows if COLDEST_C <= r.low <= WARMEST_C]
    hot = [r.line for r in kept if r.high == r.high and not COLDEST_C <= r.high <= WARMEST_C]
    reader.tell("read without the maximum, which is colder than -60 C or warmer than 60 C", hot)
    spoilt = set(hot)
    kept = [_Row(r.line, r.day, r.low, NAN) if r.line in spoilt else r for r in kept]
    reader.tell("left out, the minimum lies above the maximum", [r.line for r in kept if r.low > r.high])
    return [r for r in kept if not r.low > r.high]


def _in_order(reader: _Reader, rows: list[_Row]) -> list[_Row] | None:
    """The rows by their days, the first of those of one day."""
    back = [after.line for before, after in pairwise(rows) if after.day < before.day]
    if back:
        reader.noticed.append(f"the days are not in order, and are sorted: first at line {back[0]}")
    kept: dict[date, _Row] = {}
    twice: list[int] = []
    for row in rows:
        if row.day in kept:
            twice.append(row.line)
        else:
            kept[row.day] = row
    if len(twice) > len(kept):
        what = f"the record has {len(rows)} lines for {count(len(kept), 'day')}"
        reader.wrong(twice[0], what, "Give one line a day, with the day's lowest temperature.")
        return None
    reader.tell("left out, the day stood before", twice)
    return [kept[day] for day in sorted(kept)]


def _without_jumps(reader: _Reader, rows: list[_Row]) -> list[_Row]:
    """Rows without the minima that lie more than 30 C from the median of the three days on either side."""
    wrong: set[int] = set()
    for n, row in enumerate(rows):
        near = [
            other.low
            for other in (*rows[max(0, n - 3) : n], *rows[n + 1 : n + 4])
            if abs((other.day - row.day).days) <= 5
        ]
        if len(near) > 1 and abs(row.low - median(near)) > JUMP_C:
            wrong.add(row.line)
    reader.tell("left out, the minimum lies more than 30 C from those of the days around it", sorted(wrong))
    return [r for r in rows if r.line not in wrong]


# What is told


def _tell_gaps(reader: _Reader, days: Sequence[date], years: bool) -> None:
    """Missing days, months without any day, and how short the record is."""
    span = (days[-1] - days[0]).days + 1
    if span > len(days):
        reader.noticed.append(f"{count(span - len(days), 'day')} of {span} missing between the first and the last")
    there = {(d.year, d.month) for d in days}
    months = _months(days[0], days[-1])
    runs: list[list[tuple[int, int]]] = []
    for before, month in pairwise([(0, 0), *months]):
        if month in there:
            continue
        if runs and runs[-1][-1] == before:
            runs[-1].append(month)
        else:
            runs.append([month])
    if runs:
        said = [_month(r[0]) if len(r) == 1 else f"{_month(r[0])} to {_month(r[-1])}" for r in runs]
        reader.noticed.append(f"no day at all in {_shortened(said, 8)}")
    if years and len(days) < (FEW_YEARS - 0.5) * 365.25:
        reader.noticed.append(f"a short record: {_long(len(days))}; frost dates want {FEW_YEARS} years, better 30")


def _months(first: date, last: date) -> list[tuple[int, int]]:
    """Year and month of every month from one day to another."""
    span = range(first.year * 12 + first.month - 1, last.year * 12 + last.month)
    return [(n // 12, n % 12 + 1) for n in span]


def _month(month: tuple[int, int]) -> str:
    return f"{MONTHS[month[1] - 1]} {month[0]}"


def _long(days: int) -> str:
    """3 years; 7 months; 12 days"""
    if days >= 350:
        return count(round(days / 365.25), "year")
    return count(round(days / 30.4), "month") if days >= 46 else count(days, "day")


def _shortened(said: Sequence[str], most: int) -> str:
    if len(said) <= most:
        return listed(said)
    return f"{', '.join(said[:most])} and {len(said) - most} more"


def _runs(lines: Iterable[int]) -> str:
    """line 12; lines 12, 40 to 45 and 203"""
    runs: list[list[int]] = []
    for line in sorted(lines):
        if runs and line == runs[-1][-1] + 1:
            runs[-1].append(line)
        else:
            runs.append([line])
    said = [str(r[0]) if len(r) == 1 else f"{r[0]} {'to' if len(r) > 2 else 'and'} {r[-1]}" for r in runs]
    one = len(runs) == 1 and len(runs[0]) == 1
    return f"{'line' if one else 'lines'} {_shortened(said, 8)}"
