"""The catalogue as the cells of a table: a row a kind, by a garden's own frosts or, without one, tied to the year."""

from __future__ import annotations

import math
from collections.abc import Sequence
from datetime import date

import msgspec

from sowsheet.catalogue.records import AnchoredRange, Harvest, Kind, Range, Window
from sowsheet.garden.records import Garden
from sowsheet.growth.emergence import days_at
from sowsheet.reading.dates import Anchored, DayLength, GrowerDate
from sowsheet.schedule.kind_year import KindYear, Span
from sowsheet.site.climate import Climate
from sowsheet.site.season import season_of
from sowsheet.words.english import capital, day_brief, day_month

# Two heads over each other: what belongs together, and the column's own; by `columns` in a garden's own measure.
COLUMNS: tuple[tuple[str, str], ...] = (
    ("", "crop"),
    ("in trays", "sow"),
    ("in trays", "seeds a cell"),
    ("in trays", "cell, ml"),
    ("in trays", "days up"),
    ("in trays", "to planting"),
    ("into the bed", "plant out"),
    ("into the bed", "under fleece"),
    ("into the bed", "under glass"),
    ("into the bed", "sow direct, set"),
    ("", "apart, cm"),
    ("night it stands, °C", "soft"),
    ("night it stands, °C", "hardened"),
    ("night it stands, °C", "bed"),
    ("", "pick"),
)
NONE = "·"
A_SEASON_DAYS = 120  # what grows for longer before its first pick is picked in a later year
_ANCHORS = {"last frost": "LF", "first frost": "FF", "midsummer": "MS", "shortest day": "SD"}
CODES = "LF average last frost, FF average first frost, MS midsummer, SD shortest day; weeks before (−) or after (+) it"


_TRAYS = (
    "In trays: days up where it germinates (tied to no garden: in its best warmth), then days from up to planting "
    "under unheated glass in spring. Then: pots that it is moved into. Chit: tubers set to sprout."
)
_NIGHTS = (
    "Night it stands: the coldest a plant lives through, young and soft, hardened off, and established in the bed; "
    "a guide, not a promise."
)
_SETS = "Apart: between rows × in the row. A dot: not done, or not known."


def foot(climate: Climate | None) -> tuple[str, ...]:
    """What the table's columns mean."""
    if climate is None or not has_frosts(climate):
        picks = "Pick: days from planting, or from sowing what is only sown direct, and how long."
        return f"{CODES}; d days. {picks}", _TRAYS, f"{_NIGHTS} {_SETS}"
    spans = (
        "Spans run from the first day to the last useful one. Tender crops wait until a killing night is unlikely. "
        "Pick: from the first planting's first pick to the last planting's last; of what stands for years, from which "
        "year on."
    )
    return spans, _TRAYS, f"{_NIGHTS} {_SETS}"


def has_frosts(climate: Climate) -> bool:
    """Whether both frost dates are known, without which little can be dated."""
    almanac = climate.almanac
    return almanac.last_frost is not None and almanac.first_frost is not None


def aside(garden: Garden | None, climate: Climate | None) -> str:
    """By whose frosts the table is dated."""
    if garden is None or climate is None:
        return "tied to the frosts and the sun, for any garden"
    if not has_frosts(climate):
        return f"{garden.name} gives no frost dates, so all is tied to them and the sun"
    almanac = climate.almanac
    named = (("last frost", almanac.last_frost), ("first frost", almanac.first_frost))
    frosts = [f"{name} {day_month(date(2000, *day))}" for name, day in named if day is not None]
    years = season_of(garden.season, garden.site.latitude).years
    return f"{garden.name}, {years}: {' and '.join(frosts)}, on average"


def columns(imperial: bool) -> tuple[tuple[str, str], ...]:
    """The heads of the columns, distances in cm or inches."""
    american = {"apart, cm": "apart, in", "night it stands, °C": "night it stands, °F"} if imperial else {}
    return tuple((american.get(group, group), american.get(own, own)) for group, own in COLUMNS)


class CropRow(msgspec.Struct, frozen=True):
    """A kind's cells, one a column, in the order of COLUMNS; `crop` is the key of the crop it belongs to."""

    crop: str
    cells: tuple[str, ...]


def dated_row(year: KindYear, imperial: bool) -> CropRow:
    """A kind's row with its days on the calendar."""
    kind = year.kind
    fleece = f"from {day_brief(year.fleece)}" if year.fleece else NONE
    spans = (year.planted, year.glass, year.direct)
    planted, glass, direct = (_spans(found) for found in spans)
    up = str(year.days_up) if year.days_up is not None and kind.tray else NONE
    sown = f"chit {_spans(year.chitted)}" if year.chitted else _spans(year.sown)
    return _row(kind, imperial, sown, up, (planted, fleece, glass, direct), _picks(kind, _spans(year.picked)))


def anchored_row(kind: Kind, imperial: bool) -> CropRow:
    """A kind's row with its days tied to frosts and the sun."""
    open_tray = [w for w in kind.windows if not w.seed and not w.under_glass and kind.tray]
    glass = [w for w in kind.windows if w.under_glass]
    direct = [w for w in kind.windows if not w.under_glass and (w.seed or not kind.tray)]
    fleece = next((f"from {_code(*_tied(w.fleece_start))}" for w in open_tray if w.fleece_start), NONE)
    days = _days_at_best(kind)
    raising = None if days is None or kind.tray is None else days + round(kind.tray.up_to_planting_days.usual)
    in_trays = [w for w in kind.windows if not w.seed and kind.tray]
    sown = NONE if raising is None else _windows(in_trays, raising)
    up = str(days) if days is not None and kind.tray else NONE
    return _row(
        kind,
        imperial,
        sown,
        up,
        (_windows(open_tray), fleece, _windows(glass), _windows(direct)),
        _picks(kind, _picked(kind.harvest)),
    )


def _row(kind: Kind, imperial: bool, sown: str, up: str, into_bed: tuple[str, str, str, str], picked: str) -> CropRow:
    tray, cold = kind.tray, kind.cold
    in_tray = (NONE, NONE, up, NONE)
    if tray is not None:
        seeds = str(tray.seeds_per_cell) if tray.sown_in == "module" else "pricked out"
        cell = _whole(tray.cell_ml)
        if tray.pot_on is not None:
            cell += f", then {round(tray.pot_on.into_ml.usual, -1):.0f}"
        in_tray = (seeds, cell, up, f"{_whole(tray.up_to_planting_days)} d")
    space = kind.space
    unit_cm = 2.54 if imperial else 1.0
    apart = " × ".join(f"{round(gap.usual / unit_cm)}" for gap in (space.row_gap_cm, space.in_row_cm))
    return CropRow(
        kind.crop,
        (
            capital(_named(kind)),
            sown,
            *in_tray,
            *into_bed,
            apart,
            *(_night(c, imperial) for c in (cold.soft_c, cold.hardened_c, cold.in_bed_c)),
            picked,
        ),
    )


def _named(kind: Kind) -> str:
    """A kind's name; `radicchio (chicory)` where it does not tell the crop."""
    noun = kind.crop.rpartition(" ")[2].lower()
    return kind.name if noun in kind.name.lower() else f"{kind.name} ({kind.crop})"


def _picks(kind: Kind, said: str) -> str:
    """When it is picked; `cut` for green manures; the year from which a perennial is picked."""
    if said == NONE:
        return said
    if kind.use == "green manure":
        return f"cut {said}"
    least = kind.harvest.at_least_days.usual if kind.harvest.at_least_days else 0.0
    return f"{said}, year {math.ceil(least / 365) + 1} on" if kind.stands_years and least > A_SEASON_DAYS else said


def _night(temp_c: float | None, fahrenheit: bool) -> str:
    if temp_c is None:
        return NONE
    return f"{round(temp_c * 9 / 5 + 32) if fahrenheit else temp_c:g}".replace("-", "−")


def _whole(found: Range) -> str:
    low, high = round(found.low), round(found.high)
    return f"{low}" if low == high else f"{low}–{high}"


def _spans(spans: Sequence[Span]) -> str:
    """15 Feb – 24 Jul; all year"""
    said = ["all year" if s.all_year else f"{day_brief(s.first)} – {day_brief(s.last)}" for s in spans]
    return ", ".join(said) or NONE


def _windows(windows: Sequence[Window], earlier: int = 0) -> str:
    """LF −9 … FF −12; windows tied to the same days of the year are one, from the earliest to the latest."""
    tied: dict[tuple[str, str], list[tuple[int, int]]] = {}
    open_too = any(not w.under_glass for w in windows)
    marks: dict[tuple[str, str], bool] = {}  # whether all of it is for beds under glass, and other is not
    for w in windows:
        (start, first), (until, last) = _tied(w.start), _tied(w.until)
        tied.setdefault((start, until), []).append((first, last))
        marks[start, until] = marks.get((start, until), open_too) and w.under_glass
    said = [
        f"{_code(start, min(f for f, _ in days) - earlier)} … {_code(until, max(u for _, u in days) - earlier)}"
        + (" (glass)" if marks[start, until] else "")
        for (start, until), days in tied.items()
    ]
    return ", ".join(said) or NONE


def _tied(day: GrowerDate) -> tuple[str, int]:
    """What a date is tied to, as a code, and by how many days it lies after that."""
    if not isinstance(day, Anchored | DayLength):
        raise TypeError(f"a crop file holds no calendar date: {day}")
    return (_ANCHORS[day.anchor] if isinstance(day, Anchored) else f"{day.hours:g} h", day.days)


def _code(name: str, days: int) -> str:
    """LF −6: six weeks before the last frost."""
    weeks = round(days / 7)
    return f"{name} {weeks:+d}".replace("-", "−") if weeks else name


def _picked(harvest: Harvest) -> str:
    first = harvest.first_pick
    start = _code(*_tied(first.usual)) if isinstance(first, AnchoredRange) else f"{_whole(first)} d"
    if harvest.lasts_days is not None:
        return f"{start}, for {round(harvest.lasts_days.usual)} d"
    return f"{start} … {_code(*_tied(harvest.until))}" if harvest.until else start


def _days_at_best(kind: Kind) -> int | None:
    if kind.germination is None:
        return None
    days = days_at(kind.germination, (kind.germination.best_low_c + kind.germination.best_high_c) / 2)
    return None if days is None else round(days)
