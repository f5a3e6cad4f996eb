"""`sowsheet shopping`: what has to be there for the season."""

from __future__ import annotations

from sowsheet.cli.common import AsFormat, Format, GardenFile, InLanguage, Strict, doubtful, plan_of, show


def shopping(
    garden: GardenFile, how: AsFormat = Format.TABLE, strict: Strict = False, language: InLanguage = None
) -> None:
    """What to buy.

    \b
    sowsheet shopping mygarden/garden.yaml
    sowsheet shopping mygarden/garden.yaml --format csv > shopping.csv
    sowsheet print mygarden/garden.yaml shopping-list
    """
    from sowsheet.buying.list import shopping_list  # noqa: PLC0415
    from sowsheet.exports.shopping import shopping_csv_rows, shopping_data, shopping_rows  # noqa: PLC0415

    plan = plan_of(garden, language)
    doubtful(plan, strict)
    needs = shopping_list(plan.garden, plan.schedule, plan.trays)
    data = shopping_data(plan.garden, needs)
    show(data, shopping_rows(needs, plan.garden), shopping_csv_rows(data), how)
