"""The clock: when does a stage that begins on a day end? One interface, so that a better clock can take its place."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date, timedelta
from typing import Protocol

from sowsheet.catalogue.records import Kind, Raised
from sowsheet.garden.records import Place, Where
from sowsheet.growth.when import When

# Nothing in a garden takes longer from its start than this; a search further back is a bug.
FURTHEST_DAYS = 800
STRIDE_DAYS = 7  # the search passes over no weeks in which a place is there that is not there before


class Clock(Protocol):
    """Forward answers. Each never goes down when its start is later: `latest_start` rests on that."""

    def up(self, kind: Kind, sown: date, where: Where) -> When | None:
        """Seedlings show: sown on that day in a place, or in a bed that lies there. None: they never do."""

    def ready(self, kind: Kind, up: date, place: Place) -> When:
        """The tray can be planted, hardening included."""

    def first_pick(
        self, kind: Kind, raised: Raised, sown: date | None, planted: date, where: Where = ""
    ) -> When | None:
        """The first picking of what stands in a house, or under something. None: the site does not know its date."""


def latest_start(forward: Callable[[date], date], by: date) -> date:
    """The latest start whose end falls no later than `by`: forward(start) <= by < forward(start + 1).

    `forward` must never go down. Raises ValueError when no start within 800 days before `by` is early enough.
    """
    late, step = by, 1
    while forward(late) <= by:  # the end may fall on the day of the start itself
        late += timedelta(days=1)
    early = late - timedelta(days=step)
    while forward(early) > by:
        if (by - early).days > FURTHEST_DAYS:
            raise ValueError(f"no start within {FURTHEST_DAYS} days before {by} ends by then")
        step = min(2 * step, STRIDE_DAYS)
        late, early = early, early - timedelta(days=step)
    while (late - early).days > 1:
        middle = early + timedelta(days=(late - early).days // 2)
        early, late = (middle, late) if forward(middle) <= by else (early, middle)
    return early
