"""`sowsheet frost`: frost dates from a daily record of temperatures."""

from __future__ import annotations

import re
from datetime import date
from enum import StrEnum
from math import floor
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from sowsheet.cli.common import AsFormat, Format, InLanguage, record_of, show, spoken, stop
from sowsheet.cli.print_ import NoTags, Out, Paper, Progress, write_whole
from sowsheet.words.language import Language

if TYPE_CHECKING:
    from sowsheet.site.frosts import Frosts, Spread
    from sowsheet.site.record import Record

USUAL_C = (0.0, -2.0, -4.0, 2.0)
_ANY_YEAR = 2001  # without a leap day, as frost dates are


class InUnit(StrEnum):
    """The unit of a record's temperatures."""

    C = "C"
    F = "F"


RecordFile = Annotated[Path, typer.Argument(metavar="RECORD", help="help.frost.record")]
Thresholds = Annotated[
    list[str] | None,
    typer.Option("--threshold", metavar="TEMP", help="help.frost.threshold"),
]
South = Annotated[bool | None, typer.Option("--south/--north", help="help.frost.south")]
OfUnit = Annotated[InUnit | None, typer.Option("--unit", case_sensitive=False, help="help.frost.unit")]
Pdf = Annotated[bool, typer.Option("--pdf", help="help.frost.pdf")]
OnPaper = Annotated[Paper, typer.Option("--paper", case_sensitive=False, help="help.any.pdf paper")]


def frost(
    record: RecordFile,
    threshold: Thresholds = None,
    south: South = None,
    unit: OfUnit = None,
    how: AsFormat = Format.TABLE,
    pdf: Pdf = False,
    paper: OnPaper = Paper.A4,
    out: Out = Path("sheets"),
    no_tags: NoTags = False,
    language: InLanguage = None,
) -> None:
    """Frost dates of a record.

    \b
    sowsheet frost station.csv
    sowsheet frost station.csv --threshold -3 --threshold 28F --format json
    sowsheet frost station.csv --pdf --out ~/prints
    """
    from sowsheet.site.frosts import frosts, watched_years  # noqa: PLC0415

    words = spoken(language)
    wanted = [_threshold_c(t, words) for t in dict.fromkeys(threshold)] if threshold else list(USUAL_C)
    noticed: list[str] = []
    found = record_of(record, noticed, words, "" if unit is None else unit.value)
    below = _is_south(found, south, record, words)
    if not watched_years(found, below):
        stop(words.say("cli.frost.no year", file=record))
    told = [frosts(found, t, below) for t in wanted]
    at_zero = frosts(found, 0.0, below)
    if pdf:
        _print(found, told, at_zero, paper, out, noticed, not no_tags, words)
        return
    if how is not Format.TABLE:
        _say(noticed, words)
    else:
        typer.echo(f"{_head(found, below, words)}\n")
    from sowsheet.exports.frosts import frost_data  # noqa: PLC0415

    show(frost_data(found, told, below), _rows(told, words), _csv_rows(told), how)
    if how is Format.TABLE:
        _after(found, told, at_zero, noticed, words)


def _threshold_c(text: str, words: Language) -> float:
    """-3, -3C and 28F in C."""
    m = re.fullmatch(r"\s*([-+−]?\d{1,3}(?:\.\d+)?)\s*°?\s*([CFcf]?)\s*", text, re.ASCII)
    if not m:
        stop(words.say("cli.frost.no temperature", text=text))
    degrees = float(m[1].replace("−", "-"))
    return (degrees - 32) * 5 / 9 if m[2] in ("F", "f") else degrees + 0.0


def _is_south(record: Record, said: bool | None, path: Path, words: Language) -> bool:
    """Whether the place lies in the south: as said, or by the warmer half of the year."""
    from sowsheet.site.frosts import is_south  # noqa: PLC0415

    seen = is_south(record) if said is None else said
    if seen is None:
        stop(words.say("cli.frost.which half", file=path))
    return seen


def _head(record: Record, south: bool, words: Language) -> str:
    from sowsheet.site.frosts import watched_years  # noqa: PLC0415

    years = watched_years(record, south)
    span = {"years": words.count(len(years), "year"), "first": years[0], "last": years[-1]}
    return words.say("cli.frost.south" if south else "cli.frost.north", file=record.file, **span)


def _rows(told: list[Frosts], words: Language) -> list[tuple[str, ...]]:
    """Three rows a threshold in plain words, the careful date first."""
    from sowsheet.sheets.frost_sheet import threshold_words  # noqa: PLC0415

    in_ten = (words.say("cli.frost.in ten", n=years) for years in (1, 5, 9))
    rows: list[tuple[str, ...]] = [(words.say("cli.frost.night"), "", *in_ten, words.say("cli.frost.years"))]
    for one in told:
        cold = "frost" if one.threshold_c == 0 else "night"
        spring, autumn = (words.say(f"cli.frost.{end} {cold}") for end in ("last", "first"))
        rows.append((threshold_words(words, one.threshold_c), spring, *_dates(one.last_spring, True, words)))
        rows.append(("", autumn, *_dates(one.first_autumn, False, words)))
        rows.append(("", words.say("cli.frost.between"), *_lengths(one, words)))
    return rows


def _dates(spread: Spread, later: bool, words: Language) -> tuple[str, ...]:
    """The dates of 1, 5 and 9 years of 10, and how many years had the event."""
    chances = (0.9, 0.5, 0.1) if later else (0.1, 0.5, 0.9)
    days = [spread.date_at(chance) for chance in chances]
    key = "cli.frost.few years" if spread.days and spread.few else "cli.frost.of years"
    had = words.say(key, n=len(spread.days), years=spread.years)
    none = words.say("cli.frost.none")
    return (*(none if day is None else words.day_month(date(_ANY_YEAR, *day)) for day in days), had)


def _lengths(one: Frosts, words: Language) -> tuple[str, ...]:
    from sowsheet.site.quantile import quantile  # noqa: PLC0415

    if not one.lengths:
        none = words.say("cli.frost.none")
        return none, none, none, "0"
    return (*(str(floor(quantile(one.lengths, chance) + 0.5)) for chance in (0.1, 0.5, 0.9)), str(len(one.lengths)))


def _csv_rows(told: list[Frosts]) -> list[tuple[str, ...]]:
    """A row for each threshold and half of the year."""
    from sowsheet.exports.frosts import percentiles  # noqa: PLC0415

    rows: list[tuple[str, ...]] = [("threshold_c", "what", "p10", "p50", "p90", "years_with", "years")]
    for one in told:
        for what, spread in (("last_spring", one.last_spring), ("first_autumn", one.first_autumn)):
            days = (day or "" for day in percentiles(spread).values())
            rows.append((f"{one.threshold_c:.4g}", what, *days, str(len(spread.days)), str(spread.years)))
    return rows


def _after(record: Record, told: list[Frosts], at_zero: Frosts, noticed: list[str], words: Language) -> None:
    """Under the table: what it rests on, what was noticed, and the lines for the garden file."""
    from sowsheet.sheets.frost_sheet import left_out_said  # noqa: PLC0415
    from sowsheet.site.frosts import garden_lines  # noqa: PLC0415

    typer.echo(f"\n{words.say('cli.frost.counts')}")
    if any(s.days and s.few for one in told for s in (one.last_spring, one.first_autumn)):
        typer.echo(words.say("cli.frost.few"))
    for one in told:
        if one.winters:
            typer.echo(words.say("cli.frost.winters", temp=one.threshold_c))
    left_out = left_out_said(words, record, at_zero.south)
    if left_out:
        typer.echo(left_out)
    for said in noticed:
        typer.echo(words.say("cli.noticed", noticed=said))
    own = garden_lines(at_zero)
    typer.echo(f"\n{words.say('cli.frost.for file' if own else 'cli.frost.no line')}")
    for line in own:
        typer.echo(f"  {line}")


def _say(noticed: list[str], words: Language) -> None:
    """What was noticed, where stdout is for a program."""
    for said in noticed:
        typer.echo(words.say("cli.noticed", noticed=said), err=True)


def _print(
    record: Record,
    told: list[Frosts],
    at_zero: Frosts,
    paper: Paper,
    out: Path,
    noticed: list[str],
    tagged: bool,
    words: Language,
) -> None:
    """The page."""
    from sowsheet.sheets.frost_sheet import MOST_STRIPS, frost_sheet  # noqa: PLC0415
    from sowsheet.sheets.paint import measure, pdf_bytes  # noqa: PLC0415

    if len(told) > MOST_STRIPS:
        stop(words.say("cli.frost.page holds", n=MOST_STRIPS))
    progress = Progress()
    _say(noticed, words)
    sheet = frost_sheet(record, told, at_zero, paper.value, measure(), words)
    write_whole(out, {"frost.pdf": pdf_bytes(sheet, tagged)}, words)
    progress.step(words.say("cli.written", files=out / "frost.pdf"))
