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

from sowsheet.reading.mistakes import Mistake, Said, Spot, said
from sowsheet.reading.tokens import MONTHS
from sowsheet.words.language import Language

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
    """One file's lines, what is found wrong with it, and the language in which it is told."""

    def __init__(self, text: str, file: str, words: Language, mistakes: list[Mistake], noticed: list[str]) -> None:
        self.file = file
        self.words = words
        self.lines = text.removeprefix("\ufeff").splitlines()
        self.mistakes = mistakes
        self.noticed = noticed

    def say(self, key: str, /, **parts: object) -> Said:
        """A phrase of what is wrong."""
        return said(f"record.wrong.{key}", **parts)

    def wrong(self, line: int, what: Said, cure: Said | str = "") -> None:
        """A mistake in a line counted from 1."""
        excerpt = self.lines[line - 1][:200] if 0 < line <= len(self.lines) else ""
        self.mistakes.append(Mistake(Spot(self.file, line, 1, len(excerpt.rstrip()), excerpt), what, cure))

    def tell(self, what: str, lines: Sequence[int]) -> None:
        """One sentence for all lines to which something happened."""
        if lines:
            said = _runs(self.words, lines)
            self.noticed.append(self.words.say(f"record.noticed.{what}", n=len(lines), lines=said))

    def notice(self, what: str, **parts: object) -> None:
        """One sentence about the whole."""
        self.noticed.append(self.words.say(f"record.noticed.{what}", **parts))


def decoded(data: bytes) -> str:
    """A file's text: UTF-8, UTF-16 with its mark, else as Windows writes it (a degree sign is all that may differ)."""
    if data[:2] in (b"\xff\xfe", b"\xfe\xff"):
        return data.decode("utf-16", errors="replace")
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError:
        return data.decode("cp1252", errors="replace")


def read_record(
    text: str,
    file: str,
    words: Language,
    mistakes: list[Mistake],
    noticed: list[str],
    unit: Unit = "",
    years: bool = True,
) -> Record | None:
    """The record in a CSV text, or None when it cannot be read (then a mistake is added that says why).

    Columns are found by their names: a date (or year, month, day), a minimum, perhaps a maximum; separators are
    comma, semicolon, tab or white space. `unit` overrules the file's head; without either, the unit is told from the
    values, where they leave no doubt. Left out, and told in `noticed` with the lines: missing, unreadable and absurd
    temperatures (outside -60 to 60 C; a minimum more than 30 C from its neighbours'), a minimum above its maximum,
    a day's second line; told in the language `words`. `years`: it is to hold many, and it is told when it does not.
    """
    reader = _Reader(text, file, words, mistakes, noticed)
    columns = _columns(reader)
    rows = None if columns is None else _read_rows(reader, columns, unit)
    if columns is None or rows is None:
        return None
    if not rows:
        reader.wrong(columns.head + 1, reader.say("nothing.what"), reader.say("example", example=_EXAMPLE))
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
        reader.wrong(1, reader.say("empty.what"), reader.say("empty.cure"))
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
    if not best[0]:
        first = next(n for n, line in enumerate(reader.lines, 1) if line.strip())
        reader.wrong(first, reader.say("no names.what"), reader.say("no names.cure"))
        return
    line = 1 - best[1]
    names = [name for name in _fields(reader.lines[line - 1], best[2]) if name]
    lacks = "no column.minimum" if _days_at(names) else "no column.date"
    columns = reader.words.listed([f"`{n}`" for n in names[:12]])
    reader.wrong(line, reader.say(lacks), reader.say("no column.cure", columns=columns))


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
        reader.notice(f"two columns.{what}", column=names[in_c[0]])
        return in_c[0]
    if len(found) > 1:
        both = reader.words.listed([f"`{names[n]}`" for n in found])
        reader.wrong(head + 1, reader.say(f"two columns.{what}", columns=both), reader.say("two columns.cure"))
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
        reader.wrong(columns.head + 1, reader.say("no day.what"), reader.say("no day.cure"))
        return None
    over = [line for line in cut if any(line.fields[len(columns.names) :])]
    if len(over) > _BAD_SHARE * len(cut):
        what = reader.say("more fields.what", n=len(over), columns=len(columns.names))
        cure = "more fields.cure comma" if columns.separator == "," else "more fields.cure"
        reader.wrong(over[0].number, what, reader.say(cure))
        return None
    reader.tell("too many fields", [line.number for line in over])
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
    reader.tell("no date", no_day)
    reader.tell("no number", no_number)
    return rows


def _readable(reader: _Reader, columns: _Columns, cut: list[_Line], no_day: list[int], no_number: list[int]) -> bool:
    """Whether so few lines are unreadable that they may be left out."""
    most = min(len(cut) - 1, max(_FEW_LINES, _BAD_SHARE * len(cut)))
    if len(no_day) > most:
        short = any(_SHORT_YEAR.fullmatch(_field(line, columns.day[0])) for line in cut)
        what = "short year.what" if short else "no date.what"
        told = reader.say(f"{what} of more", n=len(no_day)) if len(no_day) > 1 else reader.say(what)
        reader.wrong(no_day[0], told, reader.say("four figures"))
    elif len(no_number) > most:
        what = "no number.what of more" if len(no_number) > 1 else "no number.what"
        told = reader.say(what, column=columns.names[columns.low], n=len(no_number))
        reader.wrong(no_number[0], told, reader.say("no number.cure"))
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
        cure = reader.say("both orders.cure", day=days[0], month=months[0])
        reader.wrong(months[0], reader.say("both orders.what"), cure)
        return None
    if not days and not months and any(m[2] != "." for _, m in dates):
        reader.wrong(dates[0][0], reader.say("no order.what"), reader.say("four figures"))
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
        what = reader.say("crossed.what", n=len(over), lines=len(both))
        reader.wrong(over[0].line, what, reader.say("crossed.cure"))
        return None
    low, high = columns.names[columns.low], columns.names[columns.high or 0]
    reader.notice("other way round", low=low, high=high)
    return [_Row(r.line, r.day, r.high, r.low) for r in rows]


def _in_celsius(reader: _Reader, columns: _Columns, rows: list[_Row], unit: Unit) -> list[_Row] | None:
    """The rows that have a minimum, in C."""
    known = [r for r in rows if r.low == r.low]
    if not known:
        reader.wrong(columns.head + 1, reader.say("no minimum.what"), reader.say("example", example=_EXAMPLE))
        return None
    found = _unit_of(reader, columns, known, unit)
    if found is None:
        return None
    converted = [_Row(r.line, r.day, _celsius(r.low, found), _celsius(r.high, found)) for r in rows]
    reader.tell("no minimum", [r.line for r in converted if r.low != r.low])
    return [r for r in converted if r.low == r.low]


def _unit_of(reader: _Reader, columns: _Columns, rows: list[_Row], unit: Unit) -> str | None:
    """C, F or tenths (of C): by the option, by the columns' names, by the values, in this order. None: a mistake."""
    named = _unit_in(columns.names[columns.low]) or (_unit_in(columns.names[columns.high]) if columns.high else "")
    seen = _unit_seen(rows)
    if "K" in (unit or named, seen):
        reader.wrong(rows[0].line, reader.say("kelvin.what"), reader.say("kelvin.cure"))
        return None
    if not unit and not named and seen == "?":
        reader.wrong(columns.head + 1, reader.say("no unit.what"), reader.say("no unit.cure"))
        return None
    if not unit and {named, seen} == {"C", "F"}:
        units = {"named": named, "seen": seen}
        reader.wrong(columns.head + 1, reader.say("other unit.what", **units), reader.say("other unit.cure", **units))
        return None
    if not unit and not named:
        reader.notice(f"unit.{seen}")
    elif unit and named and unit != named:
        reader.notice("unit asked", unit=unit, named=named)
    return unit or named or seen


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
        what = reader.say("absurd.what", n=len(absurd), lines=len(rows))
        reader.wrong(absurd[0].line, what, reader.say("absurd.cure"))
        return None
    reader.tell("absurd", [r.line for r in absurd])
    kept = [r for r in rows if COLDEST_C <= r.low <= WARMEST_C]
    hot = [r.line for r in kept if r.high == r.high and not COLDEST_C <= r.high <= WARMEST_C]
    reader.tell("absurd maximum", hot)
    spoilt = set(hot)
    kept = [_Row(r.line, r.day, r.low, NAN) if r.line in spoilt else r for r in kept]
    reader.tell("crossed", [r.line for r in kept if r.low > r.high])
    return [r for r in kept if not r.low > r.high]


def _in_order(reader: _Reader, rows: list[_Row]) -> list[_Row] | None:
    """The rows by their days, the first of those of one day."""
    back = [after.line for before, after in pairwise(rows) if after.day < before.day]
    if back:
        reader.notice("not in order", line=back[0])
    kept: dict[date, _Row] = {}
    twice: list[int] = []
    for row in rows:
        if row.day in kept:
            twice.append(row.line)
        else:
            kept[row.day] = row
    if len(twice) > len(kept):
        what = reader.say("twice.what", lines=len(rows), days=said("count.day", n=len(kept)))
        reader.wrong(twice[0], what, reader.say("twice.cure"))
        return None
    reader.tell("twice", twice)
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
    reader.tell("jump", sorted(wrong))
    return [r for r in rows if r.line not in wrong]


# What is told


def _tell_gaps(reader: _Reader, days: Sequence[date], years: bool) -> None:
    """Missing days, months without any day, and how short the record is."""
    span = (days[-1] - days[0]).days + 1
    if span > len(days):
        reader.notice("missing days", n=span - len(days), days=span)
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
        said = [_months_said(reader.words, r[0], r[-1]) for r in runs]
        reader.notice("empty months", months=_shortened(reader.words, said, 8))
    if years and len(days) < (FEW_YEARS - 0.5) * 365.25:
        reader.notice("short", long=_long(reader.words, len(days)), years=FEW_YEARS)


def _months(first: date, last: date) -> list[tuple[int, int]]:
    """Year and month of every month from one day to another."""
    span = range(first.year * 12 + first.month - 1, last.year * 12 + last.month)
    return [(n // 12, n % 12 + 1) for n in span]


def _months_said(words: Language, first: tuple[int, int], last: tuple[int, int]) -> str:
    """May 2027; May 2027 to July 2027"""
    start, end = (words.month_year(date(year, month, 1)) for year, month in (first, last))
    return start if first == last else words.say("record.months", first=start, last=end)


def _long(words: Language, days: int) -> str:
    """3 years; 7 months; 12 days"""
    if days >= 350:
        return words.count(round(days / 365.25), "year")
    return words.count(round(days / 30.4), "month") if days >= 46 else words.count(days, "day")


def _shortened(words: Language, said: Sequence[str], most: int) -> str:
    if len(said) <= most:
        return words.listed(said)
    return words.say("record.more", some=", ".join(said[:most]), n=len(said) - most)


def _runs(words: Language, lines: Iterable[int]) -> str:
    """line 12; lines 12, 40 to 45 and 203"""
    runs: list[list[int]] = []
    for line in sorted(lines):
        if runs and line == runs[-1][-1] + 1:
            runs[-1].append(line)
        else:
            runs.append([line])
    said: list[str] = []
    for run in runs:
        key = "record.run" if len(run) > 2 else "record.pair"
        said.append(str(run[0]) if len(run) == 1 else words.say(key, first=run[0], last=run[-1]))
    if len(runs) == 1 and len(runs[0]) == 1:
        return words.say("record.line", line=said[0])
    return words.say("record.lines", lines=_shortened(words, said, 8))
