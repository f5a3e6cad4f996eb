"""What a stage needs, in effective day-degrees, from the catalogue's days: how they were lived, for anyone to follow.

Handbook days were lived somewhere. Those in the tray are of spring under unheated glass: they are taken as lived in the
reference garden before its main planting, a fortnight after the window opens. Published days to the first pick of cool
crops are taken as lived at 15 C in early-summer light: in a trial against published dates that cut the error of plain
handbook days to a quarter (house plan). Those that rest on practice, those of warm crops and of kinds that go in after
midsummer are taken as lived in the reference garden, for which the catalogue chose them, from that main planting.
"""

from __future__ import annotations

from collections.abc import Callable
from datetime import date, timedelta
from functools import cached_property

import msgspec

from sowsheet.catalogue.records import TENDER_C, Kind, Raised, Range, Window
from sowsheet.garden.records import GLASS, Monthly
from sowsheet.growth.degree_days import effective_day
from sowsheet.growth.sums import cumulated, day_reaching
from sowsheet.site.air import YEAR_DAYS, Air, outdoor_air, under_cover
from sowsheet.site.almanac import Almanac, day_after
from sowsheet.site.daily import day_number
from sowsheet.words.language import Language

COOL_BASE_C, COOL_CAP_C = 0.0, 22.0
WARM_BASE_C, WARM_CAP_C = 10.0, 26.0
LIVED_AT_C = 15.0
EARLY_SUMMER_MJ = 20.0
LIGHT_SHARE = 0.25  # f of the effective day-degree, MJ per m2, day and degree (house plan)

# The garden that the catalogue is written for: 52 N, cool temperate. Monthly means of its minimum and maximum, C:
# long-term means of an inland place in England, from memory.
REFERENCE_LATITUDE = 52.4
REFERENCE = Almanac(REFERENCE_LATITUDE, (5, 10), (10, 12))
REFERENCE_MONTHLY = Monthly(
    (1.0, 1.0, 2.3, 3.9, 6.7, 9.6, 11.6, 11.5, 9.3, 6.7, 3.6, 1.5),
    (6.8, 7.4, 10.0, 12.9, 16.2, 19.1, 21.4, 21.0, 18.1, 13.9, 9.8, 7.1),
)
ANY_YEAR = date(2001, 1, 1)
FORTNIGHT = timedelta(days=14)


class Need(msgspec.Struct, frozen=True):
    """What a stage needs: effective day-degrees above `base_c`, no warmer than `cap_c`, with the published spread."""

    base_c: float
    cap_c: float
    low: float
    usual: float
    high: float
    why: str  # how it follows from the catalogue's days


class Needs(msgspec.Struct, frozen=True, dict=True):
    """The needs of kinds, told in a language. Holds the reference garden's air and each need once it was asked for."""

    words: Language

    @cached_property
    def _outside(self) -> Air:
        return outdoor_air(REFERENCE_LATITUDE, REFERENCE_MONTHLY)

    @cached_property
    def _glass(self) -> Air:
        return under_cover(self._outside, GLASS)

    @cached_property
    def _known(self) -> dict[tuple[str, str, str], Need | None]:
        """By crop, kind and stage."""
        return {}

    def raising(self, kind: Kind) -> Need | None:
        """From up to ready in the tray; None for a kind that is not raised in trays."""
        return self._once(kind, "", lambda: self._raising(kind))

    def cropping(self, kind: Kind, raised: Raised) -> Need | None:
        """From planting (or sowing, setting) to the first pick; None where the year brings it."""
        return self._once(kind, raised, lambda: self._cropping(kind, raised))

    def _once(self, kind: Kind, stage: str, found: Callable[[], Need | None]) -> Need | None:
        key = kind.crop, kind.key, stage
        if key not in self._known:
            self._known[key] = found()
        return self._known[key]

    def _raising(self, kind: Kind) -> Need | None:
        if kind.tray is None:
            return None
        days = kind.tray.up_to_planting_days
        windows = [w for w in kind.windows if not w.seed and not w.under_glass]
        planted = _main_planting(windows or [w for w in kind.windows if not w.seed] or list(kind.windows))
        return self._lived_here(
            kind, days, planted - timedelta(days=round(days.usual)), self._glass, "why.need.under glass"
        )

    def _cropping(self, kind: Kind, raised: Raised) -> Need | None:
        days = kind.harvest.first_pick_direct if raised == "drill" else None
        path = "harvest.first pick, sown direct" if days else "harvest.first pick"
        days = days or (kind.harvest.first_pick if isinstance(kind.harvest.first_pick, Range) else None)
        if days is None:
            return None
        if kind.harvest.day_degrees is not None and raised == "tray":
            found, base, cap = kind.harvest.day_degrees, *growing_range(kind)
            why = self.words.say("why.need.published", n=found)
            return Need(base, cap, found * days.low / days.usual, found, found * days.high / days.usual, why)
        if _as_in_early_summer(kind, path):
            return self._lived_in_early_summer(kind, days)
        windows = [w for w in kind.windows if w.seed == (raised == "drill")] or list(kind.windows)
        in_the_open = [w for w in windows if not w.under_glass]
        glass = not in_the_open or (kind.wants_glass and len(in_the_open) < len(windows))
        chosen = [w for w in windows if w.under_glass == glass] or windows
        air, why = (self._glass, "why.need.under glass") if glass else (self._outside, "why.need.outdoors")
        return self._lived_here(kind, days, _main_planting(chosen), air, why)

    def reference_days(self, need: Need, start: date, under_glass: bool) -> int | None:
        """How many days a need takes in the reference garden from a day on; None if not within two years."""
        air = self._glass if under_glass else self._outside
        return day_reaching(_sums_from(air, start, 2 * YEAR_DAYS, need.base_c, need.cap_c), 0, need.usual)

    def _lived_here(self, kind: Kind, days: Range, start: date, air: Air, why: str) -> Need:
        """The day-degrees of so many days from a day on in the reference garden. `why` is a phrase's key."""
        base, cap = growing_range(kind)
        sums = _sums_from(air, start, round(days.high), base, cap)
        low, usual, high = (max(1.0, sums[round(n)]) for n in (days.low, days.usual, days.high))
        said = self.words.say(why, n=days.usual, day=self.words.day_month(start))
        return Need(base, cap, low, usual, high, said)

    def _lived_in_early_summer(self, kind: Kind, days: Range) -> Need:
        base, cap = growing_range(kind)
        each = effective_day(LIVED_AT_C, LIVED_AT_C, EARLY_SUMMER_MJ, base, cap, LIGHT_SHARE)
        said = self.words.fixed(each, 1)
        why = self.words.say("why.need.early summer", n=days.usual, c=LIVED_AT_C, each=said)
        return Need(base, cap, days.low * each, days.usual * each, days.high * each, why)


def growing_range(kind: Kind) -> tuple[float, float]:
    """Above which temperature a kind grows, and from which on no faster, C: its own, or cool and warm crops' usual."""
    if kind.grows is not None:
        return kind.grows.low, kind.grows.high
    return (WARM_BASE_C, WARM_CAP_C) if is_warm(kind) else (COOL_BASE_C, COOL_CAP_C)


def is_warm(kind: Kind) -> bool:
    """Whether frost kills it: crops of warm countries, which stand still in the cool."""
    return kind.cold.in_bed_c >= TENDER_C


def effective_sum(air: Air, base_c: float, cap_c: float) -> tuple[float, ...]:
    """The effective day-degrees of each day that an air holds."""
    return tuple(_effective(air, n, base_c, cap_c) for n in range(len(air.min_c)))


def _sums_from(air: Air, start: date, days: int, base_c: float, cap_c: float) -> tuple[float, ...]:
    """The running total of so many days of a year's air, from a day on."""
    first = day_number(start)
    return cumulated(_effective(air, (first + n) % YEAR_DAYS, base_c, cap_c) for n in range(days))


def _effective(air: Air, number: int, base_c: float, cap_c: float) -> float:
    low, high, light = air.day(number)
    return effective_day(low, high, light, base_c, cap_c, LIGHT_SHARE)


def _as_in_early_summer(kind: Kind, path: str) -> bool:
    """Whether days were lived elsewhere: published, without practice at home, for a cool crop of spring and summer."""
    at_home = set(kind.sources.get(path, ())) & {"practice", "memory", "grower"}
    return not at_home and not is_warm(kind) and any(_in_spring(window) for window in kind.windows)


def _in_spring(window: Window) -> bool:
    """Whether a window opens between midwinter and midsummer."""
    start = day_after(REFERENCE, window.start, ANY_YEAR)
    return start is not None and (start.month, start.day) < (6, 21)


def _main_planting(windows: list[Window]) -> date:
    """A fortnight after the first window opens, in the reference garden, or its middle where that comes sooner."""
    middle, start = _middle(windows), day_after(REFERENCE, windows[0].start, ANY_YEAR)
    return middle if start is None else min(middle, start + FORTNIGHT)


def _middle(windows: list[Window]) -> date:
    """The middle of the first window, in the reference garden."""
    window = windows[0]
    start = day_after(REFERENCE, window.start, ANY_YEAR)
    until = None if start is None else day_after(REFERENCE, window.until, start)
    if start is None or until is None:
        raise ValueError("the reference garden knows every anchor")
    return start + (until - start) / 2
