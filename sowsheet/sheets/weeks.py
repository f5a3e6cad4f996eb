"""The scale of a chart: weeks as columns, days as positions in points."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date, timedelta

import msgspec

from sowsheet.site.season import Season, monday_of, season_mondays

_WEEK = timedelta(weeks=1)
BEYOND_PT = 2.5  # how far behind an edge at which the chart goes on lies what is beyond it, so that it has no end there


class Weeks(msgspec.Struct, frozen=True):
    """Columns of a chart: their Mondays, where the first begins and how wide a week is, in points.

    `whole`: the first and last Monday of the chart of which these are a part, which goes on beside them.
    """

    mondays: tuple[date, ...]
    left: float
    week_width: float
    whole: tuple[date, date] | None = None

    @property
    def right(self) -> float:
        """The end of the last column."""
        return self.left + len(self.mondays) * self.week_width

    @property
    def first(self) -> date:
        """The first day shown."""
        return self.mondays[0]

    @property
    def end(self) -> date:
        """The day after the last one shown."""
        return self.mondays[-1] + _WEEK

    @property
    def begins(self) -> bool:
        """Whether the chart has no weeks before these."""
        return self.whole is None or self.first == self.whole[0]

    @property
    def ends(self) -> bool:
        """Whether the chart has no weeks after these."""
        return self.whole is None or self.mondays[-1] == self.whole[1]

    @property
    def chart_span(self) -> tuple[date, date]:
        """The first day of the whole chart, and the day after its last."""
        first, last = self.whole or (self.first, self.mondays[-1])
        return first, last + _WEEK

    def x(self, day: date) -> float:
        """Where a day begins; days outside the chart lie at its edges."""
        if day < self.first and not self.begins:
            return self.left - BEYOND_PT
        if day > self.end and not self.ends:
            return self.right + BEYOND_PT
        inside = min(max(day, self.first), self.end)
        return self.left + (inside - self.first).days * self.week_width / 7

    def column(self, day: date) -> float:
        """Where the column of a day's week begins."""
        return self.x(monday_of(day))

    def holds(self, day: date) -> bool:
        """Whether a day is shown."""
        return self.first <= day < self.end

    def shows(self, start: date, end: date) -> bool:
        """Whether anything of a time from `start` up to but not including `end` is shown."""
        return start < self.end and end > self.first


def chart_mondays(season: Season, days: Iterable[date]) -> tuple[date, ...]:
    """The weeks whose Thursday lies in the season, and a week at an edge in which something is done in the season."""
    own = season_mondays(season)
    inside = {monday_of(d) for d in days if season.start <= d <= season.end}
    before = [own[0] - _WEEK] if own[0] - _WEEK in inside else []
    after = [own[-1] + _WEEK] if own[-1] + _WEEK in inside else []
    return (*before, *own, *after)


def months_of(mondays: Iterable[date]) -> list[tuple[int, int]]:
    """Runs of weeks by month: (number of the month, weeks). A week belongs to the month of its Thursday."""
    runs: list[tuple[int, int]] = []
    for monday in mondays:
        month = (monday + timedelta(days=3)).month
        if runs and runs[-1][0] == month:
            runs[-1] = (month, runs[-1][1] + 1)
        else:
            runs.append((month, 1))
    return runs
