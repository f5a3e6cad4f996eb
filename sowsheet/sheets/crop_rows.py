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
from sowsheet.words.language import Language, capital

# Two heads over each other, by their phrases: what belongs together, and the column's own.
COLUMNS: tuple[tuple[str, str], ...] = (
    ("", "crop"),
    ("trays", "sow"),
    ("trays", "seeds"),
    ("trays", "cell"),
    ("trays", "days up"),
    ("trays", "to planting"),
    ("bed", "plant out"),
    ("bed", "under fleece"),
    ("bed", "under glass"),
    ("bed", "direct"),
    ("", "apart"),
    ("night", "soft"),
    ("night", "hardened"),
    ("night", "in the bed"),
    ("", "pick"),
)
NONE = "·"
A_SEASON_DAYS = 120  # what grows for longer before its first pick is picked in a later year


def foot(words: Language, climate: Climate | None) -> tuple[str, ...]:
    """What the table's columns mean."""
    trays, nights = words.say("crop table.foot.trays"), words.say("crop table.foot.nights")
    key = "crop table.foot.spans" if climate is not None and has_frosts(climate) else "crop table.foot.codes"
    return words.say(key), trays, nights


def has_frosts(climate: Climate) -> bool:
    """Whether both frost dates are known, without which little can be dated."""
    almanac = climate.almanac
    return almanac.last_frost is not None and almanac.first_frost is not None


def aside(words: Language, garden: Garden | None, climate: Climate | None) -> str:
    """By whose frosts the table is dated."""
    if garden is None or climate is None:
        return words.say("crop table.aside.tied")
    last, first = climate.almanac.last_frost, climate.almanac.first_frost
    if last is None or first is None:
        return words.say("crop table.aside.no frosts", garden=garden.name)
    return words.say(
        "crop table.aside.frosts",
        garden=garden.name,
        year=season_of(garden.season, garden.site.latitude).years,
        last=words.day_month(date(2000, *last)),
        first=words.day_month(date(2000, *first)),
    )


def columns(words: Language, imperial: bool) -> tuple[tuple[str, str], ...]:
    """The heads of the columns, distances in cm or inches, nights in °C or °F."""
    american = {"apart": "apart in", "night": "night F"} if imperial else {}
    return tuple(
        (
            words.say(f"crop table.group.{american.get(group, group)}") if group else "",
            words.say(f"crop table.column.{american.get(own, own)}"),
        )
        for group, own in COLUMNS
    )


class CropRow(msgspec.Struct, frozen=True):
    """A kind's cells, one a column, in the order of COLUMNS; `crop` is the key of the crop it belongs to."""

    crop: str
    cells: tuple[str, ...]


def dated_row(words: Language, year: KindYear, imperial: bool) -> CropRow:
    """A kind's row with its days on the calendar."""
    kind = year.kind
    fleece = words.say("crop table.from", day=words.day_brief(year.fleece)) if year.fleece else NONE
    planted, glass, direct = (_spans(words, found) for found in (year.planted, year.glass, year.direct))
    up = str(year.days_up) if year.days_up is not None and kind.tray else NONE
    sown = _spans(words, year.chitted or year.sown)
    if year.chitted:
        sown = words.say("crop table.chit", days=sown)
    picked = _picks(words, kind, _spans(words, year.picked))
    return _row(words, kind, imperial, sown, up, (planted, fleece, glass, direct), picked)


def anchored_row(words: Language, kind: Kind, imperial: bool) -> CropRow:
    """A kind's row with its days tied to frosts and the sun."""
    open_tray = [w for w in kind.windows if not w.seed and not w.under_glass and kind.tray]
    glass = [w for w in kind.windows if w.under_glass]
    direct = [w for w in kind.windows if not w.under_glass and (w.seed or not kind.tray)]
    covered = next((_code(*_tied(words, w.fleece_start)) for w in open_tray if w.fleece_start), "")
    fleece = words.say("crop table.from", day=covered) if covered else NONE
    days = _days_at_best(kind)
    raising = None if days is None or kind.tray is None else days + round(kind.tray.up_to_planting_days.usual)
    in_trays = [w for w in kind.windows if not w.seed and kind.tray]
    sown = NONE if raising is None else _windows(words, in_trays, raising)
    up = str(days) if days is not None and kind.tray else NONE
    planted, under_glass, sown_direct = (_windows(words, found) for found in (open_tray, glass, direct))
    picked = _picks(words, kind, _picked(words, kind.harvest))
    return _row(words, kind, imperial, sown, up, (planted, fleece, under_glass, sown_direct), picked)


def _row(
    words: Language,
    kind: Kind,
    imperial: bool,
    sown: str,
    up: str,
    into_bed: tuple[str, str, str, str],
    picked: str,
) -> CropRow:
    tray, cold = kind.tray, kind.cold
    in_tray = (NONE, NONE, up, NONE)
    if tray is not None:
        seeds = str(tray.seeds_per_cell) if tray.sown_in == "module" else words.say("crop table.pricked out")
        cell = _whole(tray.cell_ml)
        if tray.pot_on is not None:
            cell = words.say("crop table.then", cell=cell, pot=round(round(tray.pot_on.into_ml.usual, -1)))
        in_tray = (seeds, cell, up, words.say("crop table.days", days=_whole(tray.up_to_planting_days)))
    space = kind.space
    unit_cm = 2.54 if imperial else 1.0
    apart = " × ".join(f"{round(gap.usual / unit_cm)}" for gap in (space.row_gap_cm, space.in_row_cm))
    return CropRow(
        kind.crop,
        (
            capital(_named(words, kind)),
            sown,
            *in_tray,
            *into_bed,
            apart,
            *(_night(words, c, imperial) for c in (cold.soft_c, cold.hardened_c, cold.in_bed_c)),
            picked,
        ),
    )


def _named(words: Language, kind: Kind) -> str:
    """A kind's name; `radicchio (chicory)` where it does not tell the crop, whose key is English."""
    noun = kind.crop.rpartition(" ")[2].lower()
    return kind.name if not words.english or noun in kind.name.lower() else f"{kind.name} ({kind.crop})"


def _picks(words: Language, kind: Kind, said: str) -> str:
    """When it is picked; `cut` for green manures; the year from which a perennial is picked."""
    if said == NONE:
        return said
    if kind.use == "green manure":
        return words.say("crop table.cut", days=said)
    least = kind.harvest.at_least_days.usual if kind.harvest.at_least_days else 0.0
    if kind.stands_years and least > A_SEASON_DAYS:
        return words.say("crop table.from year", days=said, n=math.ceil(least / 365) + 1)
    return said


def _night(words: Language, temp_c: float | None, fahrenheit: bool) -> str:
    if temp_c is None:
        return NONE
    return words.plain(round(temp_c * 9 / 5 + 32) if fahrenheit else temp_c).replace("-", "−")


def _whole(found: Range) -> str:
    low, high = round(found.low), round(found.high)
    return f"{low}" if low == high else f"{low}–{high}"


def _spans(words: Language, spans: Sequence[Span]) -> str:
    """15 Feb – 24 Jul; all year"""
    said = [
        words.say("crop table.all year")
        if s.all_year
        else words.say("crop table.span", first=words.day_brief(s.first), last=words.day_brief(s.last))
        for s in spans
    ]
    return ", ".join(said) or NONE


def _windows(words: Language, windows: Sequence[Window], earlier: int = 0) -> str:
    """LF −9 … FF −12; windows tied to the same days of the year are one, from the earliest to the latest."""
    tied: dict[tuple[str, str], list[tuple[int, int]]] = {}
    open_too = any(not w.under_glass for w in windows)
    marks: dict[tuple[str, str], bool] = {}  # whether all of it is for beds under glass, and other is not
    for w in windows:
        (start, first), (until, last) = _tied(words, w.start), _tied(words, w.until)
        tied.setdefault((start, until), []).append((first, last))
        marks[start, until] = marks.get((start, until), open_too) and w.under_glass
    said = [
        words.say(
            "crop table.tied glass" if marks[start, until] else "crop table.tied",
            first=_code(start, min(f for f, _ in days) - earlier),
            last=_code(until, max(u for _, u in days) - earlier),
        )
        for (start, until), days in tied.items()
    ]
    return ", ".join(said) or NONE


def _tied(words: Language, day: GrowerDate) -> tuple[str, int]:
    """What a date is tied to, as a code, and by how many days it lies after that."""
    if not isinstance(day, Anchored | DayLength):
        raise TypeError(f"a crop file holds no calendar date: {day}")
    if isinstance(day, DayLength):
        return words.say("crop table.hours", hours=day.hours), day.days
    return words.say(f"crop table.code.{day.anchor}"), day.days


def _code(name: str, days: int) -> str:
    """LF −6: six weeks before the last frost."""
    weeks = round(days / 7)
    return f"{name} {weeks:+d}".replace("-", "−") if weeks else name


def _picked(words: Language, harvest: Harvest) -> str:
    first = harvest.first_pick
    if isinstance(first, AnchoredRange):
        start = _code(*_tied(words, first.usual))
    else:
        start = words.say("crop table.days", days=_whole(first))
    if harvest.lasts_days is not None:
        return words.say("crop table.lasts", first=start, n=round(harvest.lasts_days.usual))
    if harvest.until:
        return words.say("crop table.tied", first=start, last=_code(*_tied(words, harvest.until)))
    return start


def _days_at_best(kind: Kind) -> int | None:
    if kind.germination is None:
        return None
    days = days_at(kind.germination, (kind.germination.best_low_c + kind.germination.best_high_c) / 2)
    return None if days is None else round(days)
