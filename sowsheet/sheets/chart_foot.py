"""Under the rows: trays to sow each week, trays standing in each place against its room, and what the marks mean."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from datetime import date

from sowsheet.garden.records import Garden
from sowsheet.sheets.chart_head import COLUMN_FILL, DIGIT_EM, Style
from sowsheet.sheets.furniture import SOFT
from sowsheet.sheets.paper import MARGIN
from sowsheet.sheets.shapes import Box, Face, Hatch, Line, Polygon, Shape, Words
from sowsheet.sheets.weeks import Weeks
from sowsheet.trays.records import PlaceWeek, TrayPlan
from sowsheet.words.english import capital

SOW_ROW = 1.5  # heights in base sizes
PLACE_ROW = 3.0
FULL = 1 + 1e-9


def _places(trays: TrayPlan, garden: Garden) -> list[str]:
    """The places in which trays stand at some time."""
    used = {w.place for w in trays.weeks if w.trays or w.maybe}
    return [p.name for p in garden.places if p.name in used]


def foot_height(trays: TrayPlan, garden: Garden, style: Style) -> float:
    """All of the foot, legend included."""
    maybe = 1 if any(s.maybe and s.trays for s in trays.sowings) else 0
    rows = SOW_ROW * (1 + 0.7 * maybe) + PLACE_ROW * len(_places(trays, garden))
    return rows * style.base + style.legend_height


def foot(trays: TrayPlan, garden: Garden, weeks: Weeks, style: Style, top: float, pages: int) -> Iterator[Shape]:
    """The foot, below `top`. Its sums count all sheets."""
    y = top
    all_sheets = " (all sheets)" if pages > 1 else ""
    yield from _sow_row(trays, weeks, style, y, f"Trays to sow{all_sheets}", maybe=False)
    y += SOW_ROW * style.base
    if any(s.maybe and s.trays for s in trays.sowings):
        yield from _sow_row(trays, weeks, style, y - style.base * 0.15, "maybe", maybe=True)
        y += SOW_ROW * 0.7 * style.base
    yield Line(MARGIN, y, weeks.right, y, 0.0, 0.6)
    for name in _places(trays, garden):
        yield from _place(name, trays, weeks, style, y)
        y += PLACE_ROW * style.base
        yield Line(MARGIN, y, weeks.right, y, 0.0, 0.6)
    yield from _legend(style, y + style.legend_height - style.inner * 0.35)


def _sow_row(trays: TrayPlan, weeks: Weeks, style: Style, y: float, label: str, maybe: bool) -> Iterator[Shape]:
    sums: dict[date, int] = defaultdict(int)
    for sowing in trays.sowings:
        if sowing.maybe == maybe:
            sums[sowing.monday] += sowing.trays
    small = style.inner if maybe else style.base
    size = min(small, COLUMN_FILL * weeks.week_width / (2 * DIGIT_EM))
    line = y + style.base * (1.05 if not maybe else 0.8)
    face_size = style.base if style.wide(label, "semi bold", style.base) < weeks.left - MARGIN else style.inner
    yield Words(
        MARGIN + style.base * 0.15, line, label, "semi" if maybe else "semi bold", small if maybe else face_size
    )
    for n, monday in enumerate(weeks.mondays):
        if sums.get(monday):
            x = weeks.left + (n + 0.5) * weeks.week_width
            face = "condensed" if maybe else "condensed bold"
            yield Words(
                x,
                line,
                str(sums[monday]),
                "condensed" if face == "condensed" else "condensed bold",
                size,
                0.0,
                "centre",
            )


def _place(name: str, trays: TrayPlan, weeks: Weeks, style: Style, top: float) -> Iterator[Shape]:
    """Bars a week; the room as a dashed line; what does not fit in black, with its number."""
    own = {w.monday: w for w in trays.weeks if w.place == name}
    shown = [own[m] for m in weeks.mondays if m in own]
    room = shown[0].room if shown else None
    most = max([w.trays + w.maybe for w in shown] + [room or 0, 1])
    bottom = top + PLACE_ROW * style.base - style.base * 0.12
    scale = (PLACE_ROW * style.base - style.small * 1.5 - style.base * 0.2) / most
    yield Words(MARGIN + style.base * 0.15, top + style.base * 1.25, capital(name), "semi bold", style.base * 0.86)
    room_words = "trays standing, no limit" if room is None else f"trays standing, room for {room}"
    yield Words(MARGIN + style.base * 0.15, top + style.base * 2.3, room_words, "regular", style.small, SOFT)
    bars = [(weeks.x(w.monday), w) for w in shown if w.trays or w.maybe]
    for x, week in bars:
        yield from _bar(x, week, weeks.week_width, bottom, scale)
    if room is not None:
        y = bottom - room * scale
        yield Line(weeks.left, y, weeks.right, y, 0.0, 0.9, dashed=True)
    size = min(style.small, COLUMN_FILL * weeks.week_width / (2 * DIGIT_EM))
    for x, week in bars:
        y = bottom - (week.trays + week.maybe) * scale - size * 0.22
        face: Face = "condensed bold" if week.filled > FULL else "condensed"
        words = str(week.trays) if week.trays else f"({week.maybe})"
        yield Words(x + weeks.week_width / 2, y, words, face, size, 0.0, "centre", plate=True)


def _bar(x: float, week: PlaceWeek, width: float, bottom: float, scale: float) -> Iterator[Shape]:
    inset = width * 0.1
    x, width = x + inset, width - 2 * inset
    fits = min(week.trays, week.room) if week.room is not None else week.trays
    if week.filled > FULL and week.room is not None and fits == week.trays:
        fits = max(0, int(week.trays / week.filled))
    yield Box(x, bottom - fits * scale, width, fits * scale, fill=0.86, stroke=0.0, line_pt=0.75)
    if week.trays > fits:
        yield Box(
            x, bottom - week.trays * scale, width, (week.trays - fits) * scale, fill=0.0, stroke=0.0, line_pt=0.75
        )
    if week.maybe:
        top = bottom - (week.trays + week.maybe) * scale
        yield Box(x, top, width, week.maybe * scale, fill=1.0, stroke=0.0, line_pt=0.75, dashed=True)


def _legend(style: Style, y: float) -> Iterator[Shape]:
    """The marks in the order of a row."""
    x, size = MARGIN, style.inner
    wide, tall = size * 2.0, size * 1.15
    for key, words in (
        ("mark", "sow so many trays (+: in the tray of another)"),
        ("down", "sow or set in the bed"),
        ("tray", "in the tray"),
        ("hardening", "hardening"),
        ("bed", "planted, in the bed"),
        ("picking", "picking"),
        ("cover", "covered"),
        ("frost", "average last and first frost"),
    ):
        room = wide if key not in ("mark", "down") else size * 1.3
        needed = room + size * 0.5 + style.wide(words, "regular", style.small) + size * 1.1
        if x + needed > style.paper.width - MARGIN + size:
            return
        yield from _sample(key, x, y - tall * 0.82, room, tall, style)
        yield Words(x + room + size * 0.5, y, words, "regular", style.small)
        x += needed


def _sample(key: str, x: float, y: float, wide: float, tall: float, style: Style) -> Iterator[Shape]:
    if key == "mark":
        yield Box(x, y, wide, tall, fill=0.0, radius=2)
        yield Words(x + wide / 2, y + tall * 0.76, "3", "semi bold", tall * 0.75, 1.0, "centre")
    elif key == "down":
        points = ((x, y), (x + wide, y), (x + wide, y + tall * 0.58), (x + wide / 2, y + tall), (x, y + tall * 0.58))
        yield Polygon(points, fill=0.0)
    elif key in ("tray", "hardening"):
        hatch: Hatch = "vertical" if key == "hardening" else ""
        yield Box(x, y + tall * 0.3, wide, tall * 0.4, fill=1.0, stroke=0.0, hatch=hatch)
    elif key in ("bed", "picking"):
        hatched = key == "picking"
        yield Box(x, y, wide, tall, fill=1.0, stroke=0.0, hatch="diagonal" if hatched else "")
        if not hatched:
            yield Box(x - 1, y - 2, style.base * 0.14, tall + 2, fill=0.0)
    elif key == "cover":
        yield Line(x, y + tall / 2, x + wide, y + tall / 2, 0.0, style.base * 0.11)
    else:
        yield Line(x, y + tall / 2, x + wide, y + tall / 2, 0.0, 0.9, dashed=True)
