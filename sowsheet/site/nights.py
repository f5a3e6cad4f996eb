"""How often a night as cold as that comes between two days of the year: counted in a daily record."""

from __future__ import annotations

from bisect import bisect_left
from datetime import date
from functools import cached_property

import msgspec

from sowsheet.site.record import Record

MOST_MISSING = 5  # days that may lack of a span for its year to count
MOST_MISSING_SHARE = 0.1


class Nights(msgspec.Struct, frozen=True, dict=True):
    """A record's cold nights, found once for each temperature that is asked for."""

    record: Record

    def chance(self, night_c: float, start: date, end: date) -> float | None:
        """The share of years with a minimum at or below `night_c` from `start` up to but not including `end`.

        Their own year does not matter. None: no year of the record covers the span.
        """
        cold, asked, had = self._cold(night_c), 0, 0
        long = (end - start).days
        if long <= 0:
            return 0.0
        for year in range(self.record.days[0].year, self.record.days[-1].year + 1):
            first = _in_year(start, year)
            if long - self._days_in(first, first + long) > max(MOST_MISSING, MOST_MISSING_SHARE * long):
                continue
            asked += 1
            at = bisect_left(cold, first)
            had += at < len(cold) and cold[at] < first + long
        return had / asked if asked else None

    @cached_property
    def _days(self) -> list[int]:
        return [day.toordinal() for day in self.record.days]

    @cached_property
    def _found(self) -> dict[float, list[int]]:
        return {}

    def _cold(self, night_c: float) -> list[int]:
        """The ordinals of all days with such a minimum."""
        if night_c not in self._found:
            pairs = zip(self._days, self.record.min_c, strict=True)
            self._found[night_c] = [day for day, low in pairs if low <= night_c]
        return self._found[night_c]

    def _days_in(self, first: int, end: int) -> int:
        return bisect_left(self._days, end) - bisect_left(self._days, first)


def _in_year(day: date, year: int) -> int:
    """The ordinal of the same day in another year; 29 February becomes the 28th."""
    return (date(year, 2, 28) if (day.month, day.day) == (2, 29) else day.replace(year=year)).toordinal()
