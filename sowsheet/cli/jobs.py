"""`sowsheet jobs`: one week's work."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Annotated

import typer

from sowsheet.cli.common import (
    AsFormat,
    Format,
    GardenFile,
    InLanguage,
    Strict,
    Today,
    day_given,
    doubtful,
    plan_of,
    show,
    stop,
)
from sowsheet.words.language import Language

Week = Annotated[str, typer.Option(metavar="WEEK", help="help.jobs.week")]


def jobs(
    garden: GardenFile,
    week: Week = "",
    today: Today = "",
    how: AsFormat = Format.TABLE,
    strict: Strict = False,
    language: InLanguage = None,
) -> None:
    """One week's work.

    \b
    sowsheet jobs mygarden/garden.yaml
    sowsheet jobs mygarden/garden.yaml --week 13
    """
    from sowsheet.exports.data import jobs_data  # noqa: PLC0415
    from sowsheet.exports.tables import job_csv_rows, job_rows  # noqa: PLC0415
    from sowsheet.jobs.make import jobs as jobs_of  # noqa: PLC0415
    from sowsheet.site.season import monday_of  # noqa: PLC0415

    plan = plan_of(garden, language)
    words = plan.garden.words
    doubtful(plan, strict)
    day = day_given(today, words) or date.today()  # noqa: DTZ011 - the grower's own calendar
    monday = _monday(week, plan.garden.season, words) if week else monday_of(day)
    found = jobs_of(plan.schedule, plan.trays, plan.garden)
    inside = [j for j in found if monday <= j.day < monday + timedelta(days=7)]
    data = jobs_data(plan.garden, monday, inside)
    if how is Format.TABLE and not inside:
        typer.echo(words.say("cli.jobs.nothing", week=monday.isocalendar().week, monday=words.day_long(monday)))
        return
    show(data, job_rows(data, words), job_csv_rows(data), how)


def _monday(text: str, season: int, words: Language) -> date:
    """The Monday of `13`, `W13` or `2027-W13`."""
    year, _, week = text.upper().rpartition("-")
    try:
        return date.fromisocalendar(int(year or season), int(week.lstrip("W")), 1)
    except ValueError:
        stop(words.say("cli.jobs.no week", text=text))
