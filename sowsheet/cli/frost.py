"""`sowsheet frost`: frost dates from a daily record of temperatures."""

from __future__ import annotations

import re
from enum import StrEnum
from math import floor
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from sowsheet.cli.common import AsFormat, Format, record_of, show, stop
from sowsheet.cli.print_ import NoTags, Out, Paper, Progress, write_whole
from sowsheet.words.language import language_of

if TYPE_CHECKING:
    from sowsheet.site.frosts import Frosts, Spread
    from sowsheet.site.record import Record

USUAL_C = (0.0, -2.0, -4.0, 2.0)
_SAID = ("in 1 year of 10", "in 5 years of 10", "in 9 years of 10")


class InUnit(StrEnum):
    """The unit of a record's temperatures."""

    C = "C"
    F = "F"


RecordFile = Annotated[
    Path, typer.Argument(metavar="RECORD", help="A CSV with a date, a minimum and a maximum a day, e.g. station.csv.")
]
Thresholds = Annotated[
    list[str] | None,
    typer.Option("--threshold", metavar="TEMP", help="A night as cold as this, e.g. -3 or 28F; may be given again."),
]
South = Annotated[
    bool | None, typer.Option("--south/--north", help="South or north of the equator, if the record does not show it.")
]
OfUnit = Annotated[
    InUnit | None, typer.Option("--unit", case_sensitive=False, help="The record's unit, if it does not tell.")
]
Pdf = Annotated[bool, typer.Option("--pdf", help="Print a page for the wall, frost.pdf.")]
OnPaper = Annotated[Paper, typer.Option("--paper", case_sensitive=False, help="With --pdf: the paper.")]


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
) -> None:
    """Tell the last and first frost dates of a daily record, and how far they wander from year to year.

    The columns are found by their names (date, tmin, tmax and many others). Whatever is left out of the record is
    told. The two lines for your garden file stand at the end.

    \b
    sowsheet frost station.csv
    sowsheet frost station.csv --threshold -3 --threshold 28F --format json
    sowsheet frost station.csv --pdf --out ~/prints
    """
    from sowsheet.site.frosts import frosts, watched_years  # noqa: PLC0415

    wanted = [_threshold_c(t) for t in dict.fromkeys(threshold)] if threshold else list(USUAL_C)
    noticed: list[str] = []
    found = record_of(record, noticed, language_of("en"), "" if unit is None else unit.value)
    below = _is_south(found, south, record)
    if not watched_years(found, below):
        stop(f"{record}: no year is whole: each half year may lack 5 nights at most")
    told = [frosts(found, t, below) for t in wanted]
    at_zero = frosts(found, 0.0, below)
    if pdf:
        _print(found, told, at_zero, paper, out, noticed, not no_tags)
        return
    if how is not Format.TABLE:
        _say(noticed)
    else:
        typer.echo(f"{_head(found, below)}\n")
    from sowsheet.exports.frosts import frost_data  # noqa: PLC0415

    show(frost_data(found, told, below), _rows(told), _csv_rows(told), how)
    if how is Format.TABLE:
        _after(found, told, at_zero, noticed)


def _threshold_c(text: str) -> float:
    """-3, -3C and 28F in C."""
    m = re.fullmatch(r"\s*([-+−]?\d{1,3}(?:\.\d+)?)\s*°?\s*([CFcf]?)\s*", text, re.ASCII)
    if not m:
        stop(f"`{text}` is no temperature; write e.g. `--threshold -3` or `--threshold 28F`")
    degrees = float(m[1].replace("−", "-"))
    return (degrees - 32) * 5 / 9 if m[2] in ("F", "f") else degrees + 0.0


def _is_south(record: Record, said: bool | None, path: Path) -> bool:
    """Whether the place lies in the south: as said, or by the warmer half of the year."""
    from sowsheet.site.frosts import is_south  # noqa: PLC0415

    seen = is_south(record) if said is None else said
    if seen is None:
        stop(f"{path}: neither half of the year is clearly the warmer one; say `--north` or `--south`")
    return seen


def _head(record: Record, south: bool) -> str:
    from sowsheet.site.frosts import watched_years  # noqa: PLC0415
    from sowsheet.words.english import count  # noqa: PLC0415

    years = watched_years(record, south)
    half = "south" if south else "north"
    return f"{record.file}: {count(len(years), 'year')}, {years[0]} to {years[-1]}, {half} of the equator"


def _rows(told: list[Frosts]) -> list[tuple[str, ...]]:
    """Three rows a threshold in plain words, the careful date first."""
    from sowsheet.sheets.frost_sheet import threshold_words  # noqa: PLC0415

    rows: list[tuple[str, ...]] = [("night of", "", *_SAID, "years")]
    for one in told:
        cold = "frost" if one.threshold_c == 0 else "such night"
        rows.append(
            (threshold_words(one.threshold_c), f"last {cold} in spring: later than", *_dates(one.last_spring, True))
        )
        rows.append(("", f"first {cold} in autumn: earlier than", *_dates(one.first_autumn, False)))
        rows.append(("", "days between them: fewer than", *_lengths(one)))
    return rows


def _dates(spread: Spread, later: bool) -> tuple[str, ...]:
    """The dates of 1, 5 and 9 years of 10, and how many years had the event."""
    from sowsheet.site.frosts import day_words  # noqa: PLC0415

    chances = (0.9, 0.5, 0.1) if later else (0.1, 0.5, 0.9)
    days = [spread.date_at(chance) for chance in chances]
    had = f"{len(spread.days)} of {spread.years}" + (" (few)" if spread.days and spread.few else "")
    return (*("none" if day is None else day_words(language_of("en"), day) for day in days), had)


def _lengths(one: Frosts) -> tuple[str, ...]:
    from sowsheet.site.quantile import quantile  # noqa: PLC0415

    if not one.lengths:
        return "none", "none", "none", "0"
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


def _after(record: Record, told: list[Frosts], at_zero: Frosts, noticed: list[str]) -> None:
    """Under the table: what it rests on, what was noticed, and the lines for the garden file."""
    from sowsheet.sheets.frost_sheet import left_out_said  # noqa: PLC0415
    from sowsheet.site.frosts import garden_lines  # noqa: PLC0415

    typer.echo("\nA night counts when its minimum is at or below the temperature. Dates are of the years that had one.")
    if any(s.days and s.few for one in told for s in (one.last_spring, one.first_autumn)):
        typer.echo("(few): fewer than 10 years had one, so that the dates are rough.")
    for one in told:
        if one.winters:
            typer.echo(
                f"{one.threshold_c:g} °C is told by whole winters: the first such night mostly comes after midwinter."
            )
    for said in (left_out_said(record, at_zero.south), *noticed):
        if said:
            typer.echo(said if said.endswith(".") else f"Noticed: {said}.")
    own = garden_lines(at_zero)
    typer.echo(
        "\nFor the garden file, under `site`:" if own else "\nNo line for the garden file: most years have no frost."
    )
    for line in own:
        typer.echo(f"  {line}")


def _say(noticed: list[str]) -> None:
    """What was noticed, where stdout is for a program."""
    for said in noticed:
        typer.echo(f"Noticed: {said}.", err=True)


def _print(
    record: Record, told: list[Frosts], at_zero: Frosts, paper: Paper, out: Path, noticed: list[str], tagged: bool
) -> None:
    """The page."""
    from sowsheet.sheets.frost_sheet import MOST_STRIPS, frost_sheet  # noqa: PLC0415
    from sowsheet.sheets.paint import measure, pdf_bytes  # noqa: PLC0415

    if len(told) > MOST_STRIPS:
        stop(f"a page holds {MOST_STRIPS} thresholds")
    progress = Progress()
    _say(noticed)
    sheet = frost_sheet(record, told, at_zero, paper.value, measure())
    write_whole(out, {"frost.pdf": pdf_bytes(sheet, tagged)})
    progress.step(f"written: {out / 'frost.pdf'}")
