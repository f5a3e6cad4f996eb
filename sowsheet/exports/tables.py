"""The same data as rows: for a terminal, in the grower's words, or as CSV, whose names are for programs."""

from __future__ import annotations

import csv
import io
from collections import Counter
from collections.abc import Mapping, Sequence
from datetime import date
from typing import Any

from sowsheet.exports.data import Data
from sowsheet.jobs.make import name_of
from sowsheet.schedule.records import STAGE_KEYS, Schedule
from sowsheet.words.language import Language

Row = Sequence[str]
Titles = Mapping[str, str]  # what batches are called, by their names
_SHOWN = ("sow", "to_light", "ready", "plant", "first_pick", "clear")


def heads(words: Language, columns: Sequence[str]) -> Row:
    """The heads of a printed table's columns."""
    return tuple(words.say(f"table.head.{column}") for column in columns)


def titles(schedule: Schedule, words: Language) -> Titles:
    """What batches are called in a table for people: in English by their names, else by the language's own words."""
    if words.english:
        return {batch.name: batch.name for batch in schedule.batches}
    seen: Counter[str] = Counter()
    found: dict[str, str] = {}
    for batch in schedule.batches:
        called = f"{batch.bed} {name_of(batch)}".strip()
        seen[called] += 1
        found[batch.name] = called if seen[called] == 1 else f"{called} {seen[called]}"
    return found


def dates_rows(data: Data, words: Language, called: Titles) -> list[Row]:
    """A row a batch with the dates a grower looks for."""
    rows = [heads(words, ("batch", "amount", *_SHOWN, "week_costs", "sow_by"))]
    for b in data["batches"]:
        stages = (_short(b["stages"][k]) for k in _SHOWN)
        number = b["amount"]["number"]
        amount = words.say(f"unit.{b['amount']['unit']}", n=number, number=words.plain(number))
        rows.append((_marked(called[b["name"]], b, words), amount, *stages, *_slip(b["slip"], words)))
    return rows


def dates_csv_rows(data: Data) -> list[Row]:
    """A row a batch with every stage as an ISO date."""
    rows: list[Row] = [
        ("name", "crop", "kind", "bed", "number", "unit", "maybe", *STAGE_KEYS, "week_costs_days", "sow_by")
    ]
    for b in data["batches"]:
        stages = (b["stages"][k]["date"].isoformat() if b["stages"][k] else "" for k in STAGE_KEYS)
        head = (b["name"], b["crop"], b["kind"] or "", b["bed"] or "", str(b["amount"]["number"]), b["amount"]["unit"])
        slip = b["slip"] or {"costs_days": None, "last_useful": None}
        ends = (_cell(slip["costs_days"]), _cell(slip["last_useful"]))
        rows.append((*head, "yes" if b["maybe"] else "", *stages, *ends))
    return rows


def sowing_rows(data: Data, words: Language, called: Titles) -> list[Row]:
    """A row a sowing; the batch of an idea not settled is marked."""
    keys = ("week", "date", "batch", "trays", "tray", "cells", "plants", "seeds", "shares")
    named = (
        {
            **s,
            "batch": called[s["batch"]],
            "tray": words.tray_name(s["tray"]),
            "shares": s["shares"] and called[s["shares"]],
        }
        for s in data["sowings"]
    )
    rows = (tuple(_marked(_cell(s[k]), s, words, k == "batch") for k in keys) for s in named)
    return [heads(words, keys), *rows]


def sowing_csv_rows(data: Data) -> list[Row]:
    """A row a sowing, with a column that says whether it is an idea not settled."""
    keys = ("week", "date", "batch", "trays", "tray", "cells", "plants", "seeds", "shares", "maybe")
    return [keys, *(tuple(_cell(s[k]) for k in keys) for s in data["sowings"])]


def week_rows(data: Data, words: Language) -> list[Row]:
    """A row a week: trays standing in each place, and those of ideas not settled, of the room for them."""
    names = [p["place"] for p in data["weeks"][0]["places"]] if data["weeks"] else []
    rows: list[Row] = [(*heads(words, ("week",)), words.weekdays[0], *names)]
    for week in data["weeks"]:
        cells = [_standing(p, words) for p in week["places"]]
        if any(p["trays"] or p["maybe"] for p in week["places"]):
            rows.append((f"{week['iso_year']}-W{week['iso_week']:02d}", _cell(week["monday"]), *cells))
    return rows


def job_rows(data: Data, words: Language) -> list[Row]:
    """A row a job; what belongs to an idea not settled is marked."""
    rows = [heads(words, ("date", "verb", "amount", "what", "where", "to"))]
    for j in data["jobs"]:
        done = (_cell(j["date"]), words.say(f"verb.{j['verb']}"), _cell(j["amount"]))
        rows.append((*done, _marked(_cell(j["what"]), j, words), _cell(j["where"]), _cell(j["to"])))
    return rows


def job_csv_rows(data: Data) -> list[Row]:
    """A row a job, with all its words."""
    keys = ("date", "verb", "amount", "what", "where", "to", "how", "sign", "caution", "why", "batch", "maybe")
    return [keys, *(tuple(_cell(j[k]) for k in keys) for j in data["jobs"])]


def as_csv(rows: Sequence[Row]) -> str:
    """RFC 4180, with a header row."""
    out = io.StringIO()
    csv.writer(out, lineterminator="\r\n").writerows(rows)
    return out.getvalue()


def as_columns(rows: Sequence[Row]) -> str:
    """Columns as wide as their widest cell, a rule under the heads."""
    if not rows:
        return ""
    widths = [max(len(row[n]) for row in rows) for n in range(len(rows[0]))]
    lines = ["  ".join(cell.ljust(w) for cell, w in zip(row, widths, strict=True)).rstrip() for row in rows]
    return "\n".join([lines[0], "-" * len(lines[0]), *lines[1:]])


def _standing(place: Data, words: Language) -> str:
    """18 of 19; 0 + 6 maybe of 19"""
    key = "maybe" if place["maybe"] else "sure"
    if place["room"] is None:
        return words.say(f"table.standing.{key}", n=place["trays"], maybe=place["maybe"])
    return words.say(f"table.standing.{key} of", n=place["trays"], maybe=place["maybe"], room=place["room"])


def _marked(text: str, row: Data, words: Language, here: bool = True) -> str:
    """The text, marked in this cell where its row is of an idea not settled."""
    return words.say("table.maybe", text=text) if here and row["maybe"] else text


def _slip(slip: Data | None, words: Language) -> tuple[str, str]:
    """4 days, 2027-05-25; `late` where no later sowing, nor this one, is of use."""
    if slip is None:
        return "", ""
    costs = slip["costs_days"]
    late = words.say("table.late") if slip["why"] and slip["last_useful"] is None else ""
    return "" if costs is None else words.count(costs, "day"), late or _cell(slip["last_useful"])


def _short(stage: Data | None) -> str:
    return "" if stage is None else _cell(stage["date"])


def _cell(value: Any) -> str:
    if value is None or value is False:
        return ""
    if value is True:
        return "yes"
    return value.isoformat() if isinstance(value, date) else str(value)
