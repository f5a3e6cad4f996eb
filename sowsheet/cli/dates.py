"""`sowsheet dates`: every batch with its dates."""

from __future__ import annotations

from sowsheet.cli.common import AsFormat, Format, GardenFile, InLanguage, Strict, doubtful, plan_of, show


def dates(
    garden: GardenFile, how: AsFormat = Format.TABLE, strict: Strict = False, language: InLanguage = None
) -> None:
    """Every batch.

    \b
    sowsheet dates mygarden/garden.yaml
    sowsheet dates mygarden/garden.yaml --format csv > dates.csv
    """
    from sowsheet.exports.data import dates_data  # noqa: PLC0415
    from sowsheet.exports.tables import dates_csv_rows, dates_rows, titles  # noqa: PLC0415

    plan = plan_of(garden, language)
    doubtful(plan, strict)
    data = dates_data(plan.garden, plan.schedule, plan.doubts)
    words = plan.garden.words
    show(data, dates_rows(data, words, titles(plan.schedule, words)), dates_csv_rows(data), how)
