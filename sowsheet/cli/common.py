"""What every command does first: read the garden, or show every mistake and stop with exit code 2."""

from __future__ import annotations

import errno
import sys
from collections.abc import Iterable, Sequence
from datetime import date, timedelta
from enum import StrEnum
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Literal, NoReturn

import msgspec
import typer

from sowsheet.garden.records import Garden, WeatherFile
from sowsheet.reading.mistakes import Mistake, Spot, in_order
from sowsheet.schedule.records import Doubt, Schedule
from sowsheet.trays.records import TrayPlan
from sowsheet.words.language import Language, language_of
from sowsheet.words.mistakes import shown

if TYPE_CHECKING:
    from sowsheet.catalogue.catalogue import Catalogue
    from sowsheet.site.record import Record
    from sowsheet.site.weather import Weather

Rows = Sequence[Sequence[str]]
WINTER_BEFORE_DAYS = 120  # readings of the winter before a season are its own too
EXIT_DOUBTS = 1
EXIT_MISTAKES = 2

GardenFile = Annotated[Path, typer.Argument(metavar="GARDEN", help="help.any.garden")]
Strict = Annotated[bool, typer.Option("--strict", help="help.any.strict")]
Today = Annotated[str, typer.Option(metavar="DATE", help="help.any.today")]


class LanguageTag(StrEnum):
    """The languages, by their tags."""

    EN = "en"
    EN_US = "en-US"
    PL = "pl"
    ES = "es"


InLanguage = Annotated[LanguageTag | None, typer.Option("--language", case_sensitive=False, help="help.any.language")]


class Format(StrEnum):
    """How a table is shown."""

    TABLE = "table"
    CSV = "csv"
    JSON = "json"


AsFormat = Annotated[Format, typer.Option("--format", help="help.any.format")]


class Plan(msgspec.Struct, frozen=True):
    """A garden with everything that is folded from it. `doubts` are those of dates and of room."""

    garden: Garden
    schedule: Schedule
    trays: TrayPlan
    doubts: tuple[Doubt, ...]
    noticed: tuple[str, ...] = ()  # in reading the weather


def plan_of(path: Path, language: LanguageTag | None = None) -> Plan:
    """Read and date a garden. Every mistake is shown on stderr, in order, and ends the command with 2."""
    from sowsheet.schedule.plan import schedule  # noqa: PLC0415
    from sowsheet.trays.plan import space_doubts, tray_plan  # noqa: PLC0415

    garden, catalogue = garden_of(path, language=language)
    weather = weather_of(garden)
    dated, found = schedule(garden, catalogue.crop, weather=weather)
    if found:
        refuse(found, garden.words)
    trays = tray_plan(dated, garden)
    return Plan(garden, dated, trays, (*dated.doubts, *space_doubts(garden, trays)), weather.noticed)


def garden_of(path: Path, every_crop: bool = False, language: LanguageTag | None = None) -> tuple[Garden, Catalogue]:
    """Read a garden, and the crops that it names, or all of them. Every mistake is shown and ends the command.

    `language` takes the place of the one that the file names.
    """
    from sowsheet.catalogue.catalogue import Catalogue  # noqa: PLC0415
    from sowsheet.garden.in_language import in_language  # noqa: PLC0415
    from sowsheet.garden.read import crops_named, language_named, own_crop_files, read_garden  # noqa: PLC0415

    mistakes: list[Mistake] = []
    written = language_named(path)
    spoken = language.value if language else written
    catalogue = Catalogue.open(mistakes, own_crop_files(path), language=spoken, written=written)
    garden = read_garden(path, catalogue.names, mistakes)
    if garden is None or mistakes:
        refuse(mistakes, catalogue.words)
    garden = in_language(garden, spoken)
    catalogue = catalogue.load(None if every_crop else crops_named(garden), mistakes)
    if mistakes:
        refuse(mistakes, catalogue.words)
    return garden, catalogue


def weather_of(garden: Garden) -> Weather:
    """The daily readings that a garden file names. What cannot be read is shown and ends the command."""
    from sowsheet.site.weather import Weather  # noqa: PLC0415

    noticed: list[str] = []

    def read(file: WeatherFile, years: bool = False) -> Record:
        here: list[str] = []
        record = record_of(file.path, here, garden.words, years=years)
        noticed.extend(garden.words.say("cli.noticed in", file=file.path.name, noticed=said) for said in here)
        return record

    site = garden.site
    record = None if site.weather is None else read(site.weather, years=True)
    this_year = None if site.this_year is None else read(site.this_year)
    if site.this_year is not None and this_year is not None:
        _refuse_other_years(garden, site.this_year, this_year)
    of_places = [(p.name, p.readings) for p in (*garden.places, *garden.houses) if p.readings is not None]
    places = tuple((name, read(file)) for name, file in of_places)
    return Weather(record, this_year, tuple(noticed), places)


def _refuse_other_years(garden: Garden, file: WeatherFile, record: Record) -> None:
    """The season's own readings hold a day of it, or of the winter before."""
    from sowsheet.site.season import season_of  # noqa: PLC0415

    season = season_of(garden.season, garden.site.latitude)
    if record.days[-1] < season.start - timedelta(days=WINTER_BEFORE_DAYS) or record.days[0] > season.end:
        span = {"first": record.days[0], "last": record.days[-1]}
        what = garden.words.say("cli.this year.what", season=season.years, **span)
        refuse([Mistake(file.spot, what, garden.words.say("cli.this year.cure"))], garden.words)


def record_of(
    path: Path, noticed: list[str], words: Language, unit: Literal["", "C", "F"] = "", years: bool = True
) -> Record:
    """A daily record; what was left out of it goes into `noticed`. Every mistake is shown and ends the command."""
    from sowsheet.site.record import decoded, read_record  # noqa: PLC0415

    mistakes: list[Mistake] = []
    try:
        data = path.read_bytes()
    except OSError as error:
        why = words.say("cli.record.folder") if path.is_dir() else reason(error, words).lower()
        refuse([Mistake(Spot(str(path), 1, 1), words.say("cli.record.cannot read", why=why))], words)
    record = read_record(decoded(data), str(path), words, mistakes, noticed, unit, years)
    if record is None or mistakes:
        refuse(mistakes, words)
    return record


def refuse(mistakes: Iterable[Mistake], words: Language) -> NoReturn:
    """Show mistakes on stderr and stop."""
    ordered = in_order(mistakes)
    for mistake in ordered:
        typer.echo(shown(mistake, words), err=True)
    raise typer.Exit(EXIT_MISTAKES)


def stop(sentence: str) -> NoReturn:
    """One clear line on stderr, and stop."""
    typer.echo(f"sowsheet: {sentence}", err=True)
    raise typer.Exit(EXIT_MISTAKES)


def reason(error: OSError, words: Language) -> str:
    """Why a file cannot be read or written; in the system's own words where that is rare."""
    key = f"cli.error.{errno.errorcode.get(error.errno or 0)}"
    return words.say(key) if key in words.phrases else error.strerror or str(error)


def spoken(language: LanguageTag | None) -> Language:
    """The language of an option, for what is said where there is no garden; English if it was left out."""
    return language_of((language or LanguageTag.EN).value)


def doubtful(plan: Plan, strict: bool) -> None:
    """With --strict, doubts are shown on stderr and end the command with 1."""
    from sowsheet.exports.tell import told_doubts  # noqa: PLC0415

    if strict and plan.doubts:
        for line in told_doubts(plan.doubts, plan.garden.words):
            typer.echo(line, err=True)
        raise typer.Exit(EXIT_DOUBTS)


def day_given(text: str, words: Language) -> date | None:
    """The date of an option; None when it was not given."""
    if not text:
        return None
    try:
        return date.fromisoformat(text)
    except ValueError:
        stop(words.say("cli.no date", text=text))


def show(
    data: dict[str, object], rows: Sequence[Sequence[str]], csv_rows: Sequence[Sequence[str]], how: Format
) -> None:
    """The same data as a table, as CSV or as JSON, on stdout."""
    from sowsheet.exports.tables import as_columns, as_csv  # noqa: PLC0415

    if how is Format.JSON:
        typer.echo(msgspec.json.format(msgspec.json.encode(data), indent=2).decode())
    elif how is Format.CSV:
        sys.stdout.write(as_csv(csv_rows))
    else:
        typer.echo(as_columns(rows))
