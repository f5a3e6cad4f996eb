"""The growth clock: a stage lasts until its day-degrees are filled by the warmth and light where it stands."""

from __future__ import annotations

from datetime import date, timedelta
from functools import cached_property

import msgspec

from sowsheet.catalogue.records import AnchoredRange, Kind, Raised
from sowsheet.garden.records import Place, Where
from sowsheet.growth.handbook import Handbook
from sowsheet.growth.needs import Need, Needs, effective_sum
from sowsheet.growth.sums import cumulated, day_reaching
from sowsheet.growth.when import When
from sowsheet.site.air import from_day

BEFORE_DAYS, AFTER_DAYS = 800, 1600  # about the first day of the season: as far as any stage reaches


class Warmth(msgspec.Struct, frozen=True, dict=True):
    """The clock of a garden whose temperatures are known. Implements `growth.clock.Clock`.

    Day-degrees are summed once for each place and growing range, days that were read as they were; every date is then
    a look-up.
    """

    handbook: Handbook
    season_start: date
    after_days: int = AFTER_DAYS

    def up(self, kind: Kind, sown: date, where: Where) -> When | None:
        """Seedlings show: by the place's warmth, outdoors by the days' means."""
        return self.handbook.up(kind, sown, where)

    def ready(self, kind: Kind, up: date, place: Place) -> When:
        """The tray can be planted: what it needs is filled where it grows on, hardening included."""
        need = self._needs.raising(kind)
        found = None if need is None else self._filled(need, place, up, "why.warmth.growing on")
        return found or self.handbook.ready(kind, up, place)

    def first_pick(
        self, kind: Kind, raised: Raised, sown: date | None, planted: date, where: Where = ""
    ) -> When | None:
        """The first picking: what it needs is filled in the bed, or the year brings it."""
        if isinstance(kind.harvest.first_pick, AnchoredRange):
            return self.handbook.first_pick(kind, raised, sown, planted, where)
        need = self._needs.cropping(kind, raised)
        why = "why.warmth.from sowing" if raised == "drill" else "why.warmth.from planting"
        if need is None or not self._reaches(planted):
            return self.handbook.first_pick(kind, raised, sown, planted, where)
        found = self._filled(need, where, planted, why)
        return None if found is None else self.handbook.bounded(kind, raised, planted, found)

    @cached_property
    def _needs(self) -> Needs:
        return Needs(self.handbook.words)

    @cached_property
    def _sums(self) -> dict[tuple[Where, float, float], tuple[float, ...]]:
        """Day-degrees from the first day on, by place and growing range, as far as they were asked for."""
        return {}

    def _reaches(self, day: date) -> bool:
        """Whether the sums hold a day."""
        return 0 <= (day - self._first).days <= BEFORE_DAYS + self.after_days

    def _filled(self, need: Need, where: Where, start: date, why: str) -> When | None:
        """When a need is filled from a day on; None where it is not within years. `why` is a phrase's key."""
        sums = self._sum(where, need.base_c, need.cap_c)
        if not self._reaches(start):
            return None
        at = (start - self._first).days
        found = (day_reaching(sums, at, degrees) for degrees in (need.low, need.usual, need.high))
        days = [self._first + timedelta(days=n) for n in found if n is not None]
        if len(days) < 3:  # past the end of the sums
            return None
        low, usual, high = days
        return When(usual, low, high, "growth", self.handbook.words.say(why, n=(usual - start).days))

    def _sum(self, where: Where, base_c: float, cap_c: float) -> tuple[float, ...]:
        key = (where, base_c, cap_c)
        if key not in self._sums:
            climate = self.handbook.climate
            usual = effective_sum(climate.air_in(where), base_c, cap_c)
            each = from_day(usual, self._first, BEFORE_DAYS + self.after_days)
            days, air = climate.read_air_in(where)
            for day, degrees in zip(days, effective_sum(air, base_c, cap_c), strict=True):
                at = (day - self._first).days
                if 0 <= at < len(each):
                    each[at] = degrees
            self._sums[key] = cumulated(each)
        return self._sums[key]

    @cached_property
    def _first(self) -> date:
        return self.season_start - timedelta(days=BEFORE_DAYS)
