"""`sowsheet print`: the sheets, as PDF."""

from __future__ import annotations

import os
import shlex
import sys
import tempfile
import time
from datetime import date
from enum import StrEnum
from functools import cached_property
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, NoReturn

import msgspec
import typer

from sowsheet.cli.common import GardenFile, InLanguage, Plan, Strict, Today, day_given, doubtful, plan_of, reason, stop
from sowsheet.sheets.shapes import Measure, Sheet
from sowsheet.sheets.view import LEAST_M, MOST_TIMES, View, distance_of, spans_of
from sowsheet.words.language import Language

if TYPE_CHECKING:
    from sowsheet.jobs.records import Job
    from sowsheet.schedule.replay import Replayed, Wander
    from sowsheet.sheets.poster import Unfit
    from sowsheet.sheets.poster_grid import Grid as PosterSheets
    from sowsheet.sheets.tray_labels import Grid


class SheetName(StrEnum):
    """The sheets, by the names of their files."""

    WALL_CHART = "wall-chart"
    BED_CHART = "bed-chart"
    TRAY_PLAN = "tray-plan"
    JOB_SHEETS = "job-sheets"
    YEAR = "year-at-a-glance"
    SHOPPING = "shopping-list"
    WEEKEND = "weekend-cards"
    LABELS = "tray-labels"


class Paper(StrEnum):
    """Papers, by name."""

    A4 = "A4"
    A3 = "A3"
    A2 = "A2"
    A1 = "A1"
    LETTER = "Letter"
    TABLOID = "Tabloid"


class RowsBy(StrEnum):
    """The orders of the wall chart's rows."""

    SOWING = "sowing"
    BED = "bed"
    CROP = "crop"
    PLACE = "place"


Names = Annotated[
    list[SheetName] | None,
    typer.Argument(metavar="[SHEET]...", help="help.print.sheets"),
]
Out = Annotated[Path, typer.Option("--out", metavar="FOLDER", help="help.any.out")]
OnPaper = Annotated[Paper | None, typer.Option("--paper", case_sensitive=False, help="help.print.paper")]

Distance = Annotated[str, typer.Option(metavar="METRES", help="help.print.distance")]
By = Annotated[RowsBy, typer.Option("--by", help="help.print.by")]
Weeks = Annotated[str, typer.Option(metavar="WEEKS", help="help.print.weeks")]

NoTags = Annotated[bool, typer.Option("--no-tags", help="help.any.no tags")]

Large = Annotated[bool, typer.Option("--large", help="help.print.large")]

LabelSize = Annotated[str, typer.Option("--labels", metavar="SIZE", help="help.print.labels")]

PosterGrid = Annotated[str, typer.Option("--poster", metavar="GRID", help="help.print.poster")]
WALL_SHEETS = (SheetName.WALL_CHART, SheetName.BED_CHART)  # what a poster is of where no sheet is named


def print_(
    garden: GardenFile,
    sheets: Names = None,
    out: Out = Path("sheets"),
    paper: OnPaper = None,
    distance: Distance = "",
    by: By = RowsBy.SOWING,
    weeks: Weeks = "",
    large: Large = False,
    labels: LabelSize = "",
    poster: PosterGrid = "",
    no_tags: NoTags = False,
    today: Today = "",
    strict: Strict = False,
    language: InLanguage = None,
) -> None:
    """The sheets.

    \b
    sowsheet print mygarden/garden.yaml
    sowsheet print mygarden/garden.yaml wall-chart --paper A2 --out ~/prints
    sowsheet print mygarden/garden.yaml wall-chart --by bed --weeks 9-22 --distance '1.5 m'
    sowsheet print mygarden/garden.yaml wall-chart --poster 3x2 --paper Letter
    """
    from sowsheet.sheets.paint import pdf_bytes, unprintable  # noqa: PLC0415

    progress = Progress()
    plan = plan_of(garden, language)
    words = plan.garden.words
    printed_on = day_given(today, words)
    doubtful(plan, strict)
    progress.step(f"{garden}: {words.count(len(plan.schedule.batches), 'batch')}")
    on = (paper or paper_of(plan.garden.paper)).value
    grid = tile_grid(poster, paper, on, words) if poster else None
    view = _view(plan, grid.like if grid else on, distance, by, weeks)
    printing = Printing(plan, grid.paper if grid else on, printed_on, view, large, _labels(on, labels, words))
    made: dict[str, bytes] = {}
    lacking: set[str] = set()
    for name in sheets or (WALL_SHEETS if grid else list(SheetName)):
        sheet = printing.poster(name, grid) if grid else printing.sheet(name)
        made[f"{name.value}{'-poster' if grid else ''}.pdf"] = pdf_bytes(sheet, not no_tags)
        lacking |= unprintable(sheet)
        progress.step(f"{name.value}: {words.count(len(sheet.pages), 'page')}")
    if lacking:
        told = ", ".join(f"{c} (U+{ord(c):04X})" for c in sorted(lacking))
        typer.echo(f"sowsheet: {words.say('cli.print.lacking', letters=told)}", err=True)
    write_whole(out, made, words)
    progress.step(words.say("cli.written", files=", ".join(str(out / name) for name in made)))
    if plan.doubts:
        doubts = words.count(len(plan.doubts), "doubt")
        progress.say(words.say("cli.print.doubts", doubts=doubts, garden=shlex.quote(str(garden))))


def _view(plan: Plan, paper: str, distance: str, by: RowsBy, weeks: str) -> View:
    """How charts are to be seen. What cannot be is shown, and ends the command."""
    from sowsheet.sheets.paper import usual_distance_m  # noqa: PLC0415

    words = plan.garden.words
    far = distance_of(distance) if distance else None
    most = usual_distance_m(paper) * MOST_TIMES
    if distance and (far is None or not LEAST_M <= far <= most):
        limits = {"least": words.plain(LEAST_M), "most": words.plain(most, 3)}
        stop(words.say("cli.print.distance", distance=distance, paper=paper, **limits))
    spans = spans_of(weeks, plan.schedule.season) if weeks else ()
    if spans is None:
        stop(words.say("cli.print.weeks", weeks=weeks, season=plan.schedule.season.years))
    return View(far, by.value, spans)


def tile_grid(written: str, paper: Paper | None, usual: str, words: Language) -> PosterSheets:
    """A poster's grid, on A4 or Letter. What is none is shown, and ends the command."""
    from sowsheet.sheets.furniture import is_american  # noqa: PLC0415
    from sowsheet.sheets.poster_grid import MOST, TILE_PAPERS, grid_of  # noqa: PLC0415

    on = paper.value if paper else ("Letter" if is_american(usual) else "A4")
    if on not in TILE_PAPERS:
        stop(words.say("cli.print.poster paper", paper=on))
    grid = grid_of(written, on)
    if grid is None:
        if "".join(written.split()).replace("×", "x") in {"1x1", "1by1", "1"}:
            stop(words.say("cli.print.poster of one", grid=written, paper=on))
        stop(words.say("cli.print.poster", grid=written, most=MOST))
    return grid


def _labels(paper: str, size: str, words: Language) -> Grid | None:
    """The grid of the tray labels; None for the usual card. What is no size is shown, and ends the command."""
    if not size:
        return None
    from sowsheet.sheets.tray_labels import grid_of, sizes_of  # noqa: PLC0415

    grid = grid_of(size, paper)
    if grid is None:
        known = ", ".join(f"'{one}'" for one in sizes_of(paper))
        stop(words.say("cli.print.labels", size=size, known=known))
    return grid


def paper_of(name: str) -> Paper:
    """The paper that a garden file names; A3 where it names none."""
    return next((p for p in Paper if p.value.lower() == name.lower()), Paper.A3)


class Printing(msgspec.Struct, frozen=True, dict=True):
    """A plan on its way to paper: what several sheets need is made once."""

    plan: Plan
    paper: str
    printed_on: date | None
    view: View = View()
    large: bool = False
    labels: Grid | None = None

    @cached_property
    def measure(self) -> Measure:
        """How wide words are."""
        from sowsheet.sheets.paint import measure  # noqa: PLC0415

        return measure()

    @cached_property
    def jobs(self) -> tuple[Job, ...]:
        """The season's jobs."""
        from sowsheet.jobs.make import jobs  # noqa: PLC0415

        return jobs(self.plan.schedule, self.plan.trays, self.plan.garden)

    @cached_property
    def spreads(self) -> dict[str, Wander]:
        """How far each first picking wanders through the years of the garden's record."""
        return {r.batch: r.first_pick for r in replayed(self.plan) if r.first_pick is not None}

    def sheet(self, name: SheetName) -> Sheet:
        """One sheet, laid out. Only what it needs is loaded."""
        plan, paper, printed_on = self.plan, self.paper, self.printed_on
        match name:
            case SheetName.WALL_CHART:
                from sowsheet.sheets.wall_chart import wall_chart  # noqa: PLC0415

                made = wall_chart(
                    plan.schedule, plan.trays, plan.garden, paper, self.measure, printed_on, self.spreads, self.view
                )
            case SheetName.BED_CHART:
                from sowsheet.sheets.bed_chart import bed_chart  # noqa: PLC0415

                made = bed_chart(plan.schedule, plan.trays, plan.garden, paper, self.measure, printed_on, self.view)
            case SheetName.TRAY_PLAN:
                from sowsheet.sheets.tray_plan import tray_plan  # noqa: PLC0415

                made = tray_plan(plan.schedule, plan.trays, self.jobs, plan.garden, paper, self.measure, printed_on)
            case SheetName.JOB_SHEETS:
                from sowsheet.sheets.job_sheets import job_sheets  # noqa: PLC0415

                made = job_sheets(
                    plan.schedule, plan.trays, self.jobs, plan.garden, paper, self.measure, printed_on, self.large
                )
            case SheetName.YEAR:
                from sowsheet.sheets.year_glance import year_glance  # noqa: PLC0415

                made = year_glance(plan.schedule, plan.garden, paper, self.measure, printed_on)
            case SheetName.SHOPPING:
                from sowsheet.buying.list import shopping_list  # noqa: PLC0415
                from sowsheet.sheets.shopping_sheet import shopping_sheet  # noqa: PLC0415

                listed = shopping_list(plan.garden, plan.schedule, plan.trays)
                years = plan.schedule.season.years
                made = shopping_sheet(listed, plan.garden, years, paper, self.measure, printed_on)
            case SheetName.WEEKEND:
                from sowsheet.sheets.weekend_card import weekend_cards  # noqa: PLC0415

                made = weekend_cards(plan.schedule, plan.trays, plan.garden, paper, self.measure, printed_on, self.view)
            case SheetName.LABELS:
                from sowsheet.sheets.tray_labels import tray_labels  # noqa: PLC0415

                made = tray_labels(
                    plan.schedule, plan.trays, plan.garden, paper, self.measure, printed_on, self.view, self.labels
                )
        return made

    def poster(self, name: SheetName, grid: PosterSheets) -> Sheet:
        """One sheet as a poster. Why it cannot be one is shown, and ends the command."""
        from sowsheet.sheets import poster_sheets as charts  # noqa: PLC0415
        from sowsheet.sheets.poster import Unfit, enlarged_sheet, tiled  # noqa: PLC0415

        plan, measure, words = self.plan, self.measure, self.plan.garden.words
        about = (plan.schedule, plan.trays, plan.garden, grid, measure, self.printed_on)
        named = {"garden": plan.garden.name, "year": plan.schedule.season.year}
        made: Sheet | Unfit
        match name:
            case SheetName.WALL_CHART:
                title, posters = words.say("chart.file", **named), charts.wall_posters(*about, self.spreads, self.view)
            case SheetName.BED_CHART:
                title, posters = words.say("bed chart.file", **named), charts.bed_posters(*about, self.view)
            case _:
                title, posters = "", []
        if isinstance(posters, Unfit):
            made = posters
        elif posters:
            made = tiled(title, posters, grid, measure, words)
        else:
            made = enlarged_sheet(self.sheet(name), grid, measure, words)
        if isinstance(made, Unfit):
            refuse_poster(name.value, made, grid, words)
        return made


def refuse_poster(sheet: str, unfit: Unfit, grid: PosterSheets, words: Language) -> NoReturn:
    """Say why a sheet cannot be a poster, and what can; the end of the command."""
    why, cure = (words.say(f"poster.{unfit.why}.{part}") for part in ("what", "cure"))
    asked = f"{grid.columns}x{grid.rows}"
    stop(words.say("cli.print.poster unfit", grid=asked, sheet=sheet, what=why, cure=cure))


def write_whole(folder: Path, files: dict[str, bytes], words: Language) -> None:
    """Write files whole or not at all: all are laid beside their places first, then moved."""
    laid: list[tuple[str, Path]] = []
    try:
        folder.mkdir(parents=True, exist_ok=True)
        for name, data in files.items():
            handle, temporary = tempfile.mkstemp(dir=folder, prefix=f".{name}.")
            laid.append((temporary, folder / name))
            with os.fdopen(handle, "wb") as file:
                file.write(data)
            Path(temporary).chmod(0o644)
        for temporary, final in laid:
            Path(temporary).replace(final)
    except OSError as error:
        for temporary, _ in laid:
            Path(temporary).unlink(missing_ok=True)
        stop(words.say("cli.cannot write", folder=folder, why=reason(error, words)))


def replayed(plan: Plan) -> tuple[Replayed, ...]:
    """The plan's batches through the years of its record; none without one that has maxima."""
    if plan.schedule.climate.record is None:
        return ()
    from sowsheet.schedule.replay import replay  # noqa: PLC0415

    return replay(plan.garden, plan.schedule)


class Progress:
    """Lines with their milliseconds, for a terminal; silent when piped."""

    def __init__(self) -> None:
        self._shown = sys.stdout.isatty()
        self._last = time.perf_counter()

    def step(self, words: str) -> None:
        """Say that a piece of work is done."""
        now = time.perf_counter()
        self.say(f"{(now - self._last) * 1000:6.0f} ms  {words}")
        self._last = now

    def say(self, words: str) -> None:
        """A line without a time."""
        if self._shown:
            typer.echo(words)
