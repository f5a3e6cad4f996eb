"""A plan's replay through the years of a record, as plain data and as rows."""

from __future__ import annotations

from collections.abc import Sequence

from sowsheet.exports.data import SCHEMA, Data
from sowsheet.exports.tables import Row, Titles, heads
from sowsheet.garden.records import Garden
from sowsheet.schedule.records import Schedule
from sowsheet.schedule.replay import Replayed, Wander
from sowsheet.site.record import FEW_YEARS
from sowsheet.words.language import Language

_SHOWN = ("batch", "sow", "years", "ready_early", "middle", "late", "picked_early", "middle", "late")
_COLD = ("cold_on_bench", "cold_in_bed")


def replay_data(garden: Garden, schedule: Schedule, found: Sequence[Replayed]) -> Data:
    """Each batch with its planned dates and their spread."""
    planned = {b.name: b.stages for b in schedule.batches}
    return {
        "schema": SCHEMA,
        "garden": garden.name,
        "batches": [
            {
                "name": r.batch,
                "years": r.years,
                "few_years": r.years < FEW_YEARS,
                "sow": sow.day if (sow := planned[r.batch].sow or planned[r.batch].plant) else None,
                "ready": _wander(r.ready),
                "first_pick": _wander(r.first_pick),
                "years_too_cold_on_bench": r.bench_cold,
                "years_too_cold_in_bed": r.bed_cold,
            }
            for r in found
        ],
    }


def replay_rows(data: Data, words: Language, called: Titles) -> list[Row]:
    """A row a batch for the terminal: early, middle and late, and the years with a night too cold."""
    rows = [heads(words, (*_SHOWN, *_COLD))]
    for b in data["batches"]:
        years = words.say("table.years.few", n=b["years"]) if b["few_years"] else str(b["years"])
        cold = (_share(b[key], b["years"], words) for key in ("years_too_cold_on_bench", "years_too_cold_in_bed"))
        rows.append((called[b["name"]], _iso(b["sow"]), years, *_short(b["ready"]), *_short(b["first_pick"]), *cold))
    return rows


def replay_csv_rows(data: Data) -> list[Row]:
    """A row a batch with every figure."""
    dates = [f"{stage}_{p}" for stage in ("ready", "first_pick") for p in ("p10", "p50", "p90")]
    rows: list[Row] = [("name", "sow", "years", *dates, "years_too_cold_on_bench", "years_too_cold_in_bed")]
    for b in data["batches"]:
        spread = [_iso(b[s][p]) if b[s] else "" for s in ("ready", "first_pick") for p in ("p10", "p50", "p90")]
        cold = (b["years_too_cold_on_bench"], b["years_too_cold_in_bed"])
        rows.append((b["name"], _iso(b["sow"]), str(b["years"]), *spread, *("" if c is None else str(c) for c in cold)))
    return rows


def _wander(found: Wander | None) -> Data | None:
    return None if found is None else {"p10": found.early, "p50": found.middle, "p90": found.late}


def _short(spread: Data | None) -> tuple[str, str, str]:
    return ("", "", "") if spread is None else (_iso(spread["p10"]), _iso(spread["p50"]), _iso(spread["p90"]))


def _iso(day: object) -> str:
    return "" if day is None else str(day)


def _share(count: int | None, years: int, words: Language) -> str:
    if count is None:
        return ""
    return words.say("table.years.of", n=count, years=years) if count else words.say("table.years.never")
