"""Plain data of a plan, with a `schema` number: a promise to other programs (described in DEVELOPERS.md)."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from typing import Any

from sowsheet.garden.records import Garden
from sowsheet.growth.when import When
from sowsheet.jobs.records import Job
from sowsheet.schedule.records import STAGE_KEYS, Batch, Doubt, Exposed, Schedule, Slip
from sowsheet.trays.records import TrayPlan

SCHEMA = 1
Data = dict[str, Any]


def dates_data(garden: Garden, schedule: Schedule, doubts: Sequence[Doubt]) -> Data:
    """Batches with their stages, and the doubts."""
    return {
        "schema": SCHEMA,
        "garden": garden.name,
        "season": {"year": schedule.season.year, "first": schedule.season.start, "last": schedule.season.end},
        "batches": [_batch(b) for b in schedule.batches],
        "doubts": [
            {"code": d.code, "batch": d.batch or None, "what": d.what, "why": d.why, "cure": d.cure} for d in doubts
        ],
    }


def trays_data(garden: Garden, plan: TrayPlan) -> Data:
    """What is sown into trays, and what stands in each place on the fullest day of each week."""
    places = {(w.place, w.monday): w for w in plan.weeks}
    return {
        "schema": SCHEMA,
        "garden": garden.name,
        "sowings": [
            {
                "batch": s.batch,
                "week": iso_week(s.monday),
                "iso_year": s.monday.isocalendar().year,
                "iso_week": s.monday.isocalendar().week,
                "date": s.day,
                "place": s.place,
                "tray": s.tray,
                "trays": s.trays,
                "cells": s.cells,
                "plants": s.plants,
                "seeds": s.seeds,
                "shares": s.shares,
                "maybe": s.maybe,
            }
            for s in plan.sowings
        ],
        "weeks": [
            {
                "iso_year": monday.isocalendar().year,
                "iso_week": monday.isocalendar().week,
                "monday": monday,
                "places": [
                    {"place": p.name, "trays": w.trays, "room": w.room, "filled": round(w.filled, 4), "maybe": w.maybe}
                    for p in garden.places
                    if (w := places.get((p.name, monday))) is not None
                ],
            }
            for monday in plan.mondays
        ],
    }


def jobs_data(garden: Garden, monday: date, jobs: Sequence[Job]) -> Data:
    """One week's jobs in the order of the sheet."""
    return {
        "schema": SCHEMA,
        "garden": garden.name,
        "week": iso_week(monday),
        "monday": monday,
        "jobs": [
            {
                "date": j.day,
                "verb": j.verb,
                "amount": j.amount,
                "what": j.what,
                "where": j.where,
                "to": j.to or None,
                "how": j.how,
                "sign": j.sign,
                "caution": j.caution,
                "why": j.why,
                "batch": j.batch,
                "maybe": j.maybe,
            }
            for j in jobs
        ],
    }


def iso_week(day: date) -> str:
    """2027-W09, as ISO 8601 writes weeks."""
    year, week, _ = day.isocalendar()
    return f"{year}-W{week:02d}"


def _batch(batch: Batch) -> Data:
    return {
        "name": batch.name,
        "crop": batch.kind.crop,
        "kind": batch.kind.key or None,
        "bed": batch.bed or None,
        "note": batch.note or None,
        "maybe": batch.maybe,
        "raised": batch.raised,
        "rank": batch.rank,
        "series": batch.series or None,
        "amount": _amount(batch),
        "stages": {key: _stage(getattr(batch.stages, key)) for key in STAGE_KEYS},
        "slip": _slip(batch.slip),
        "cold": [_exposed(stay) for stay in batch.cold],
    }


def _exposed(stay: Exposed) -> Data:
    """How cold a stay may get, and from when it is safe."""
    return {
        "stage": stay.stage,
        "where": stay.where,
        "from": stay.start,
        "until": stay.end,
        "stands_c": stay.stands_c,
        "chance_colder": None if stay.chance is None else round(stay.chance, 4),
        "chance_in_spring": None if stay.spring_chance is None else round(stay.spring_chance, 4),
        "accepted": stay.accepted,
        "safe_from": stay.safe_from,
    }


def _amount(batch: Batch) -> Data:
    """What was wanted: rows of drill are counted as rows, all else by its places."""
    a = batch.amount
    if a.unit == "rows":
        return {"number": a.rows, "unit": "rows"} if a.rows else {"number": a.places, "unit": "plants"}
    return {"number": a.places, "unit": a.unit}


def _slip(slip: Slip | None) -> Data | None:
    """What a week's delay costs, and the last useful sowing."""
    if slip is None:
        return None
    return {"costs_days": slip.costs_days, "last_useful": slip.last_useful, "why": slip.why or None}


def _stage(when: When | None) -> Data | None:
    if when is None:
        return None
    return {"date": when.day, "low": when.low, "high": when.high, "basis": when.basis, "why": when.why}
