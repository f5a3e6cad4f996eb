"""`sowsheet jobs`: one week's work."""

from __future__ import annotations

from datetime import date, timedelta
from typing import TYPE_CHECKING, Annotated

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

if TYPE_CHECKING:
    from sowsheet.site.season import Season

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
    monday = _monday(week, plan.schedule.season, words) if week else monday_of(day)
    found = jobs_of(plan.schedule, plan.trays, plan.garden)
    inside = [j for j in found if monday <= j.day < monday + timedelta(days=7)]
    data = jobs_data(plan.garden, monday, inside)
    if how is Format.TABLE and not inside:
        typer.echo(words.say("cli.jobs.nothing", week=monday.isocalendar().week, monday=words.day_long(monday)))
        return
    show(data, job_rows(data, words), job_csv_rows(data), how)


def _monday(text: str, season: Season, words: Language) -> date:
    """The Monday of `13` or `W13`, a week of the season; or of `2027-W13`."""
    from sowsheet.site.season import week_of  # noqa: PLC0415

    year, _, week = text.upper().rpartition("-")
    try:
        number = int(week.lstrip("W"))
        found = date.fromisocalendar(int(year), number, 1) if year else week_of(season, number)
    except ValueError:
        found = None
    return found or stop(words.say("cli.jobs.no week", text=text))
