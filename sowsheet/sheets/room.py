"""The room of each place over some weeks, as bars against a dashed line."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, timedelta
from functools import partial

import msgspec

from sowsheet.garden.records import Place
from sowsheet.sheets.flow import Block, Run, paragraph
from sowsheet.sheets.furniture import MM, SOFT
from sowsheet.sheets.shapes import Box, Face, Hatch, Line, Measure, Shape, Tag, Words
from sowsheet.sheets.spoken import place_said
from sowsheet.trays.records import PlaceWeek
from sowsheet.words.language import Language, capital

WEEKS = 13
BEFORE = 4  # weeks shown before the framed one
BAND = 46.0  # a place's least height, its number above the bar included
BAND_MOST = 120.0
FULL = 1 + 1e-9
BODY, SMALL = 14.0, 12.0
LABEL = 44.5 * MM


class RoomPicture(msgspec.Struct, frozen=True):
    """What is drawn: the places, their weeks, which Mondays, which of them framed, and what is said of those over."""

    words: Language
    places: tuple[Place, ...]
    weeks: tuple[PlaceWeek, ...]
    mondays: tuple[date, ...]
    framed: tuple[date, ...]
    over: tuple[tuple[str, str], ...]


def window_around(mondays: Sequence[date], framed: Sequence[date]) -> tuple[date, ...]:
    """Thirteen weeks with four before the first framed one, as far as there are so many."""
    at = next((n for n, m in enumerate(mondays) if m == framed[0]), 0)
    start = max(0, min(at - BEFORE, len(mondays) - WEEKS))
    return tuple(mondays[start : start + WEEKS])


def room_block(picture: RoomPicture, left: float, right: float, measure: Measure, spare: float) -> Block:
    """The picture, its places as much taller as there is room to spare on the page."""
    words, places = picture.words, picture.places
    least = max((_label(words, p, None, left, 0, measure)[1] for p in places), default=BAND)
    band = max(least, BAND)
    band = min(max(band, BAND_MOST), band + max(0.0, spare) / max(1, len(places)))
    pitch = (right - left - LABEL) / WEEKS
    shapes: list[Shape] = [Words(left, 17, words.say("tray plan.room.title"), "bold", 18)]
    y = 40.0
    shapes.append(Words(left + LABEL - 8, y, words.say("tray plan.room.week"), "regular", SMALL, SOFT, "right"))
    for n, monday in enumerate(picture.mondays):
        x = left + LABEL + (n + 0.5) * pitch
        shapes.append(Words(x, y, str(monday.isocalendar().week), "semi bold", BODY, 0.0, "centre"))
    top = y - 14
    y += 6
    for place in places:
        shapes += _place(picture, place, left, right, y, band, pitch, measure)
        y += band + 8
    shapes += _frames(picture, left + LABEL, top, y - 4, pitch)
    y += 2
    tags = [Tag("H2", 0, 1), Tag("Figure", 1, len(shapes), partial(_said, picture))]
    lines = [((Run(said, "bold"), Run(f" {first_to_go}")), BODY) for said, first_to_go in picture.over]
    for runs, size in (*lines, ((Run(_caption(picture)),), SMALL)):
        text, tall = paragraph(runs, left, y, right - left, size, measure)
        shapes += text
        tags.append(Tag("P", len(shapes) - len(text), len(shapes)))
        y += tall + 2
    return Block(y, tuple(shapes), gap=6 * MM, parting=0.1, tags=tuple(tags))


def _said(picture: RoomPicture) -> str:
    """The picture in words, place by place."""
    year = (picture.framed[0] + timedelta(days=3)).year
    told = []
    for place in picture.places:
        shown = [w for w in picture.weeks if w.place == place.name and w.monday in picture.mondays]
        told.append(place_said(picture.words, place.name, shown[0].room if shown else None, shown, year))
    return " ".join(told) or _caption(picture)


def _place(
    picture: RoomPicture,
    place: Place,
    left: float,
    right: float,
    top: float,
    band: float,
    pitch: float,
    measure: Measure,
) -> list[Shape]:
    own = {w.monday: w for w in picture.weeks if w.place == place.name}
    shown = [own[m] for m in picture.mondays if m in own]
    base = top + band
    limit = next((w.room for w in own.values()), None)
    tall = _label(picture.words, place, limit, left, 0, measure)[1]
    shapes = _label(picture.words, place, limit, left, top + (band - tall) / 2, measure)[0]
    most = max((_full(w, own) for w in shown), default=1.0)
    unit = (band - 17) / max(1.0 if limit is not None else 0.0, most, 0.01)
    line = base - unit
    shapes.append(Line(left + LABEL, base, right, base, 0.0, 0.75))
    if limit is not None:
        shapes.append(Line(left + LABEL, line, right, line, 0.0, 1.1, dashed=True))
    for n, monday in enumerate(picture.mondays):
        if monday in own:
            x = left + LABEL + n * pitch + 2.5
            shapes += _bar(own[monday], _full(own[monday], own), x, pitch - 5, base, unit, limit is not None)
    return shapes


def _label(
    words: Language, place: Place, limit: int | None, left: float, top: float, measure: Measure
) -> tuple[list[Shape], float]:
    """A place's name and how much it holds, and how tall that is."""
    name, tall = paragraph((Run(capital(place.name), "semi bold"),), left, top, LABEL - 8, BODY, measure)
    said = words.say("bench.no limit") if limit is None else words.say("tray plan.room.for", n=limit)
    return [*name, Words(left, top + tall + 11, said, "regular", SMALL, SOFT)], tall + 15


def _full(week: PlaceWeek, own: dict[date, PlaceWeek]) -> float:
    """The share of the room taken; in a place without limit, of its own fullest week. `maybe` is on top."""
    if week.room is None:
        return (week.trays + week.maybe) / max(1, *(w.trays + w.maybe for w in own.values()))
    return week.filled + week.maybe / max(1, week.room)


def _bar(week: PlaceWeek, full: float, x: float, width: float, base: float, unit: float, limited: bool) -> list[Shape]:
    """From below: hardening, growing on, come in this week, over the room; ideas dashed on top; the count above."""
    if not week.trays and not week.maybe:
        return []
    per_tray = full / (week.trays + week.maybe) if week.room is None else week.filled / max(1, week.trays)
    waiting = min(week.waiting, week.trays)
    fresh = min(week.fresh, week.trays - waiting)
    kinds: tuple[tuple[int, Hatch], ...] = ((waiting, "diagonal"), (week.trays - waiting - fresh, "dots"), (fresh, ""))
    shapes: list[Shape] = []
    y = base
    for trays, hatch in kinds:
        tall = trays * per_tray * unit
        if tall > 0:
            shapes.append(Box(x, y - tall, width, tall, fill=1.0, stroke=0.0, line_pt=0.75, hatch=hatch, pitch_pt=5))
            y -= tall
    over = (week.filled - 1) * unit if limited else 0.0
    if over > 0.01:
        shapes.append(Box(x, y, width, over, fill=0.0, stroke=0.0))
    if week.maybe:
        tall = (full - week.trays * per_tray) * unit
        shapes.append(Box(x, y - tall, width, tall, fill=1.0, stroke=0.0, line_pt=0.75, dashed=True))
        y -= tall
    said = str(week.trays) if not week.maybe else f"{week.trays}+{week.maybe}" if week.trays else f"({week.maybe})"
    face: Face = "semi bold" if over > 0.01 else "semi"
    shapes.append(Words(x + width / 2, y - 3.5, said, face, SMALL, 0.0, "centre", True))
    return shapes


def _frames(picture: RoomPicture, left: float, top: float, bottom: float, pitch: float) -> list[Shape]:
    return [
        Box(left + n * pitch, top, pitch, bottom - top, stroke=0.0, line_pt=1.8, radius=4)
        for n, monday in enumerate(picture.mondays)
        if monday in picture.framed
    ]


def _caption(picture: RoomPicture) -> str:
    """What the bars mean, as far as it is drawn."""
    shown = [w for w in picture.weeks if w.monday in picture.mondays]
    drawn = {
        "new": any(w.fresh > 0 and w.fresh > w.waiting - w.trays for w in shown),
        "growing on": any(w.trays - w.waiting - w.fresh > 0 for w in shown),
        "hardening": any(w.waiting for w in shown),
        "over": any(w.room is not None and w.filled > 1 + 1e-9 for w in shown),
        "maybe": any(w.maybe for w in shown),
        "limit": any(w.room is not None for w in shown),
    }
    said = [picture.words.say(f"tray plan.room.{mark}") for mark, is_drawn in drawn.items() if is_drawn]
    return " ".join(said) or picture.words.say("tray plan.room.none")
