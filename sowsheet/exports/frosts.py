"""The frost dates of a record as plain data: a promise to other programs (described in DEVELOPERS.md)."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from sowsheet.exports.data import SCHEMA
from sowsheet.site.frosts import Frosts, Spread, watched_years
from sowsheet.site.record import Record

_CHANCES = (("p10", 0.1), ("p50", 0.5), ("p90", 0.9))


def frost_data(record: Record, told: Sequence[Frosts], south: bool) -> dict[str, Any]:
    """Percentiles of the last day in spring and the first in autumn, as MM-DD; null where no year had one."""
    return {
        "schema": SCHEMA,
        "years": len(watched_years(record, south)),
        "thresholds": [
            {
                "threshold_c": round(one.threshold_c, 2),
                "last_spring": percentiles(one.last_spring),
                "first_autumn": percentiles(one.first_autumn),
            }
            for one in told
        ],
    }


def percentiles(spread: Spread) -> dict[str, str | None]:
    """The 10th, 50th and 90th percentile as MM-DD; None where no year had such a night."""
    days = {key: spread.date_at(chance) for key, chance in _CHANCES}
    return {key: None if day is None else f"{day[0]:02d}-{day[1]:02d}" for key, day in days.items()}
