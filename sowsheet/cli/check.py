"""`sowsheet check`: how each line was read."""

from __future__ import annotations

import typer

from sowsheet.cli.common import GardenFile, InLanguage, Strict, doubtful, plan_of


def check(garden: GardenFile, strict: Strict = False, language: InLanguage = None) -> None:
    """Tell a garden back.

    \b
    sowsheet check mygarden/garden.yaml
    sowsheet check mygarden/garden.yaml --strict      # strict
    """
    from sowsheet.exports.tell import told_back  # noqa: PLC0415

    plan = plan_of(garden, language)
    doubtful(plan, strict)
    for line in told_back(plan.garden, plan.schedule, plan.doubts, plan.noticed):
        typer.echo(line)
