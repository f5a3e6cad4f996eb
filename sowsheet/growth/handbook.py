"""The handbook clock: published days for each stage, and dates that the year brings."""

from __future__ import annotations

import math
from datetime import date, timedelta

import msgspec

from sowsheet.catalogue.records import AnchoredRange, Kind, Raised, Range
from sowsheet.garden.records import Place, Where, is_under_glass
from sowsheet.growth.emergence import days_at, emerges
from sowsheet.growth.when import When, after
from sowsheet.reading.dates import Anchored, GrowerDate
from sowsheet.site.almanac import day_after, last_before
from sowsheet.site.climate import Climate, bed_mean_c, place_mean_c
from sowsheet.site.sun import midsummer
from sowsheet.words.language import Language

# Without temperatures seed in the open lies at the daily means of a cool temperate year: a guess. Indoors it lies in
# its best range.
YEAR_MEAN_C = 10.0
YEAR_SWING_C = 6.5
WARMEST_AFTER_MIDSUMMER_DAYS = 35
# A house brings forward what the year brings outdoors by so much: common practice, no source.
GLASS_SOONER_DAYS = 21
SHORTEST_DAYS = 40  # nothing that the year brings is picked sooner after planting


class Handbook(msgspec.Struct, frozen=True):
    """Published days, at a site; reasons in a language. Implements `growth.clock.Clock`."""

    climate: Climate
    words: Language

    def up(self, kind: Kind, sown: date, where: Where) -> When | None:
        """Seedlings show. A warm place at its temperature; elsewhere the days' means are summed."""
        germination = kind.germination
        if germination is None:
            return None
        if isinstance(where, Place):
            temp = place_mean_c(self.climate, where, sown)
            held = where.held_at_c if not (self._warmed and is_under_glass(where)) else None
            middle = (germination.best_low_c + germination.best_high_c) / 2
            if temp is None or held is not None:
                days = days_at(germination, middle if held is None else held)
                if days is None:
                    return None
                if held is None:
                    return self._spread(sown, days, "why.comes up.guessed", c=middle, place=where.name)
                return self._spread(sown, days, "why.comes up.held", temp=self.words.temp(held, where.in_fahrenheit))
        day = emerges(germination, sown, lambda d: self._ground_c(d, where))
        if day is None:
            return None
        why = "why.comes up.means" if self.climate.outside else "why.comes up.cool year"
        return self._spread(sown, (day - sown).days, why)

    @property
    def _warmed(self) -> bool:
        """Whether it is known how the sun warms a house beyond what it is held at."""
        return self.climate.outside is not None

    def ready(self, kind: Kind, up: date, place: Place) -> When:
        """`up to planting` days after the seedlings are up."""
        del place  # this clock does not know how warm it is there
        if kind.tray is None:
            raise ValueError(f"{kind.name} is not raised in trays")
        return after(self.words, up, kind.tray.up_to_planting_days, "why.growing on")

    def first_pick(
        self, kind: Kind, raised: Raised, sown: date | None, planted: date, where: Where = ""
    ) -> When | None:
        """Days from planting or sowing, or the date that the year brings."""
        harvest = kind.harvest
        found: When | None
        if isinstance(harvest.first_pick, AnchoredRange):
            brought = self._in_its_season(harvest.first_pick, raised, planted, kind)
            return self._sooner(brought, planted) if is_under_glass(where) and not _is_for_glass(kind) else brought
        if raised == "drill" and harvest.first_pick_direct is not None:
            found = after(self.words, planted, harvest.first_pick_direct, "why.from sowing")
        elif harvest.counted_from == "sowing" and sown is not None:
            found = after(self.words, sown, harvest.first_pick, "why.from sowing")
        else:
            found = after(self.words, planted, harvest.first_pick, f"why.from {_goes_in(raised)}")
        return self.bounded(kind, raised, planted, found)

    def bounded(self, kind: Kind, raised: Raised, planted: date, found: When) -> When:
        """A first pick no later than what ripens by the sun, and no sooner than the plants have had time to grow."""
        harvest = kind.harvest
        within = self._not_after(harvest.not_after, planted, found)
        return self._not_sooner(within, raised, planted, harvest.at_least_days) or within

    def _ground_c(self, day: date, where: Where) -> float:
        if isinstance(where, Place):
            known = place_mean_c(self.climate, where, day)
        else:
            known = bed_mean_c(self.climate, where, day)
        return self._guessed_c(day) if known is None else known

    def _guessed_c(self, day: date) -> float:
        """A day's mean where no temperatures are given: a wave through the year, warmest five weeks after midsummer."""
        warmest = midsummer(self.climate.latitude, day.year) + timedelta(days=WARMEST_AFTER_MIDSUMMER_DAYS)
        return YEAR_MEAN_C + YEAR_SWING_C * math.cos(2 * math.pi * (day - warmest).days / 365)

    def _in_its_season(self, dates: AnchoredRange, raised: Raised, planted: date, kind: Kind) -> When | None:
        """The date that the year brings, once the plants have had time to grow: a perennial's in a later year; another
        crop's within the same season, whose end it does not pass."""
        least, until = kind.harvest.at_least_days, kind.harvest.until
        if kind.stands_years is not None and least is not None:
            return self._season(dates, planted + timedelta(days=round(least.usual)), kind, timedelta(0))
        grows = timedelta(days=round(least.usual) if least else SHORTEST_DAYS)
        found = self._season(dates, planted, kind, grows)
        grown = self._not_sooner(found, raised, planted, least)
        end = None if until is None or found is None else day_after(self.climate.almanac, until, found.day)
        if grown is None or end is None or grown.day <= end:
            return grown
        return When(end, min(grown.low, end), end, "season", self.words.say("why.season.end"))

    def _season(self, dates: AnchoredRange, planted: date, kind: Kind, grows: timedelta) -> When | None:
        usual = day_after(self.climate.almanac, dates.usual, planted)
        if usual is None:
            return None
        begun = self._this_season(dates.usual, planted, kind, grows)
        if begun is not None:
            return When(begun, begun, begun, "season", self.words.say("why.season.begun"))
        low, high = (usual + timedelta(days=_days(d) - _days(dates.usual)) for d in (dates.low, dates.high))
        return When(usual, max(planted, low), high, "season", self.words.say("why.season.year"))

    def _this_season(self, usual: GrowerDate, planted: date, kind: Kind, grows: timedelta) -> date | None:
        """The planting day itself where the season's first pick is past and there is still time to crop in it."""
        harvest = kind.harvest
        if harvest.until is None:
            return None
        before = last_before(self.climate.almanac, usual, planted)
        end = day_after(self.climate.almanac, harvest.until, before) if isinstance(before, date) else None
        return planted if end is not None and planted + grows < end else None

    def _not_after(self, last: GrowerDate | None, planted: date, found: When) -> When:
        day = None if last is None else day_after(self.climate.almanac, last, planted)
        if day is None or found.high <= day:
            return found
        return When(min(day, found.day), min(day, found.low), day, "season", self.words.say("why.season.day length"))

    def _not_sooner(self, found: When | None, raised: Raised, planted: date, days: Range | None) -> When | None:
        """A date that the year brings, put off until the plants have had time to grow."""
        if found is None or days is None:
            return found
        least = after(self.words, planted, days, f"why.from {_goes_in(raised)} at least")
        if least.day <= found.day:
            return found
        return When(least.day, max(found.low, least.low), max(found.high, least.high), "handbook", least.why)

    def _sooner(self, when: When | None, planted: date) -> When | None:
        """A date of the open, as much sooner as a house brings it, and not before there was time to grow."""
        if when is None:
            return None
        least = planted + timedelta(days=SHORTEST_DAYS)
        day, low, high = (max(least, d - timedelta(days=GLASS_SOONER_DAYS)) for d in (when.day, when.low, when.high))
        return When(day, low, high, when.basis, self.words.say("why.season.under glass", why=when.why))

    def _spread(self, start: date, days: float, why: str, **parts: object) -> When:
        """Emergence with the spread of a quarter either way (common practice, no source)."""
        usual = start + timedelta(days=max(1, round(days)))
        slack = timedelta(days=max(1, round(days / 4)))
        low = max(start + timedelta(days=1), usual - slack)
        return When(usual, low, usual + slack, "handbook", self.words.say(why, n=(usual - start).days, **parts))


def _goes_in(raised: Raised) -> str:
    """What the day is on which it goes into the bed."""
    return "sowing" if raised == "drill" else "planting"


def _is_for_glass(kind: Kind) -> bool:
    """Whether a kind's dates are those of a house already."""
    return all(window.under_glass for window in kind.windows)


def _days(words: GrowerDate) -> int:
    return words.days if isinstance(words, Anchored) else 0
