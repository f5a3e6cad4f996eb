"""`sowsheet replay`: the plan through each year of the daily record."""

from __future__ import annotations

from sowsheet.cli.common import AsFormat, Format, GardenFile, InLanguage, plan_of, show, stop
from sowsheet.cli.print_ import Progress, replayed


def replay(garden: GardenFile, how: AsFormat = Format.TABLE, language: InLanguage = None) -> None:
    """The plan through the years of a record.

    \b
    sowsheet replay mygarden/garden.yaml
    sowsheet replay mygarden/garden.yaml --format csv > replay.csv
    """
    from sowsheet.exports.replays import replay_csv_rows, replay_data, replay_rows  # noqa: PLC0415
    from sowsheet.exports.tables import titles  # noqa: PLC0415

    progress = Progress()
    plan = plan_of(garden, language)
    words, found = plan.garden.words, replayed(plan)
    if not found:
        stop(words.say("cli.replay.no years"))
    years = words.count(max(r.years for r in found), "year")
    progress.step(words.say("cli.replay.done", batches=words.count(len(found), "batch"), years=years))
    data = replay_data(plan.garden, plan.schedule, found)
    show(data, replay_rows(data, words, titles(plan.schedule, words)), replay_csv_rows(data), how)
