"""`sowsheet trays`: what is sown into trays, and what stands where."""

from __future__ import annotations

import typer

from sowsheet.cli.common import AsFormat, Format, GardenFile, InLanguage, Strict, doubtful, plan_of, show


def trays(
    garden: GardenFile, how: AsFormat = Format.TABLE, strict: Strict = False, language: InLanguage = None
) -> None:
    """Sowings into trays, and what stands where.

    \b
    sowsheet trays mygarden/garden.yaml
    sowsheet trays mygarden/garden.yaml --format json
    """
    from sowsheet.exports.data import trays_data  # noqa: PLC0415
    from sowsheet.exports.tables import as_columns, sowing_csv_rows, sowing_rows, titles, week_rows  # noqa: PLC0415

    plan = plan_of(garden, language)
    doubtful(plan, strict)
    data = trays_data(plan.garden, plan.trays)
    words = plan.garden.words
    show(data, sowing_rows(data, words, titles(plan.schedule, words)), sowing_csv_rows(data), how)
    if how is Format.TABLE:
        typer.echo(f"\n{as_columns(week_rows(data, words))}")
