"""How often a night as cold as that comes between two days of the year: counted in a daily record."""

from __future__ import annotations

from bisect import bisect_left
from datetime import date, timedelta
from functools import cached_property
from typing import TYPE_CHECKING

import msgspec

if TYPE_CHECKING:
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
        if end <= start:
            return 0.0
        long = end - start
        asked = night_c, start.month, start.day, long.days
        if asked not in self._chances:
            self._chances[asked] = self._counted(night_c, start, long)
        return self._chances[asked]

    def _counted(self, night_c: float, start: date, long: timedelta) -> float | None:
        firsts = (in_year(start, year) for year in self.years)
        asked = [self.colder(night_c, first, first + long) for first in firsts if self.covers(first, first + long)]
        return sum(asked) / len(asked) if asked else None

    @property
    def years(self) -> range:
        """The calendar years of which there is a day."""
        return range(self.record.days[0].year, self.record.days[-1].year + 1)

    def covers(self, start: date, end: date) -> bool:
        """Whether so few days lack from `start` up to but not including `end` that the span can be counted."""
        first, last = start.toordinal(), end.toordinal()
        lack = (last - first) - (bisect_left(self._days, last) - bisect_left(self._days, first))
        return 2 * lack < last - first and lack <= max(MOST_MISSING, MOST_MISSING_SHARE * (last - first))

    def colder(self, night_c: float, start: date, end: date) -> bool:
        """Whether the record has such a night from `start` up to but not including `end`."""
        cold = self._cold(night_c)
        at = bisect_left(cold, start.toordinal())
        return at < len(cold) and cold[at] < end.toordinal()

    @cached_property
    def _chances(self) -> dict[tuple[float, int, int, int], float | None]:
        """By temperature, month, day and length: a plan asks for the same spans over and over."""
        return {}

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


def in_year(day: date, year: int) -> date:
    """The same day in another year; 29 February becomes the 28th."""
    return date(year, 2, 28) if (day.month, day.day) == (2, 29) else day.replace(year=year)
