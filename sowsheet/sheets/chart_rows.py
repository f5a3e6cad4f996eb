"""The rows of the chart: a sowing mark, a thin ribbon while it is in the tray, a thick one once it is in the bed."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator, Mapping, Sequence
from datetime import date, timedelta
from typing import TYPE_CHECKING, Literal

import msgspec

from sowsheet.garden.records import Garden
from sowsheet.schedule.records import Batch, Stay
from sowsheet.sheets.chart_foot import whisker
from sowsheet.sheets.chart_head import Style, row_ends, row_name
from sowsheet.sheets.chart_marks import WEDGE, marked_day, post, post_at, ribbon, sowing_mark, trays_to_sow, wedge
from sowsheet.sheets.flow import cut
from sowsheet.sheets.paper import MARGIN
from sowsheet.sheets.shapes import Box, Hatch, Line, Shape, Words
from sowsheet.sheets.view import Order
from sowsheet.sheets.weeks import Weeks
from sowsheet.trays.records import Sowing, TrayPlan
from sowsheet.words.language import Language, capital

if TYPE_CHECKING:
    from sowsheet.schedule.replay import Wander

BED = 0.64  # of the row's height: the ribbon in the bed
BETWEEN = 0.62  # of that: the ribbon of a crop planted between another
TRAY = 0.24  # the ribbon in the tray
MARK = 0.84  # the sowing mark
TWO_LINES = 1.62  # a row's height when its name takes two lines


class Row(msgspec.Struct, frozen=True):
    """A batch's row: its name over one line or two, how high it is, and what is sown.

    `number` counts within a series, from 1; the rows that follow another of theirs show only that. `again` is the
    whole name on one line, for the row that begins a page.
    """

    batch: Batch
    name: tuple[str, ...]
    height: float
    sowing: Sowing | None
    sown: str
    number: int = 0
    again: str = ""
    spread: Wander | None = None
    group: str = ""  # what it stands under, where rows are sorted by bed or by place


class Slot(msgspec.Struct, frozen=True):
    """Room for words in a row, from `left` to `right`; `grey` is what lies behind them, None where nothing does."""

    left: float
    right: float
    grey: float | None
    align: Literal["left", "right"] = "left"


def rows_of(
    batches: Sequence[Batch],
    trays: TrayPlan,
    spreads: Mapping[str, Wander],
    style: Style,
    label_width: float,
    garden: Garden,
    order: Order = "sowing",
) -> list[Row]:
    """Rows in the order that is asked for, by sowing date within it. `spreads` are of first pickings.

    The sowings of a series stay together under its first, unless a group parts them.
    """
    sowings = {s.batch: s for s in trays.sowings}
    first: dict[str, date] = {}
    for b in batches:
        first[_group(b)] = min(first.get(_group(b), date.max), _begins(b))
    ordered = sorted(batches, key=lambda b: (first[_group(b)], _group(b), _begins(b), b.name))
    names = _row_names(ordered, tell_bed=order != "bed")
    counted: Counter[str] = Counter()
    numbers: dict[str, int] = {}
    for b in ordered:
        counted[b.series or ""] += 1
        numbers[b.name] = counted[b.series] if b.series else 0
    group = _groups(garden, order)
    rows: list[Row] = []
    for batch in sorted(ordered, key=lambda b: group(b)[0]):
        under, number = group(batch)[1], numbers[batch.name]
        before = rows[-1] if rows else None
        follows = bool(batch.series) and before is not None and before.batch.series == batch.series
        follows = follows and before is not None and before.group == under
        name = names[_group(batch)] + ("?" if batch.maybe else "")
        once = f"{_fitted(name, style, label_width - style.base * 2)} {number}"
        whole = _lines(name, style, label_width) if number < 2 else (once,)
        lines = (str(number),) if follows else whole
        height = style.row * (1.0 if len(lines) == 1 else TWO_LINES)
        sowing = sowings.get(batch.name)
        sown = _sown(batch, sowing, garden)
        again = once if follows else ""
        rows.append(Row(batch, lines, height, sowing, sown, number, again, spreads.get(batch.name), under))
    return rows


def _groups(garden: Garden, order: Order) -> Callable[[Batch], tuple[tuple[int, str], str]]:
    """For a batch: where its group comes among the groups, and the group's name; "" for none."""
    beds = {bed.name: n for n, bed in enumerate(garden.beds)}
    places = {place.name: n for n, place in enumerate(garden.places)}
    words = garden.words

    def by_bed(batch: Batch) -> tuple[tuple[int, str], str]:
        return (beds.get(batch.bed, len(beds)), ""), capital(batch.bed) or words.say("chart.group.no bed")

    def by_crop(batch: Batch) -> tuple[tuple[int, str], str]:
        return (0, batch.kind.crop), ""

    def by_place(batch: Batch) -> tuple[tuple[int, str], str]:
        begins = [s.where for s in batch.stays if s.container]
        if not begins:
            return (len(places) + 1, ""), words.say("chart.group.straight")
        return (places.get(begins[0], len(places)), begins[0]), words.say("chart.group.place", place=begins[0])

    def by_sowing(_: Batch) -> tuple[tuple[int, str], str]:
        return (0, ""), ""

    return {"bed": by_bed, "crop": by_crop, "place": by_place, "sowing": by_sowing}[order]


def _group(batch: Batch) -> str:
    return batch.series or batch.name


def _row_names(batches: Sequence[Batch], tell_bed: bool) -> dict[str, str]:
    """A name for each series and each batch of its own; alike ones carry the bed, then a number."""
    plain = {_group(b): row_name(b) for b in reversed(batches)}
    beds = {_group(b): b.bed for b in batches}
    plain = {key: plain[key] for key in beds}
    if not tell_bed:
        return plain
    alike = Counter(plain.values())
    named = {key: f"{n}, {beds[key]}" if alike[n] > 1 and beds[key] else n for key, n in plain.items()}
    alike = Counter(named.values())
    seen: Counter[str] = Counter()
    for key, name in named.items():
        seen[name] += 1
        if alike[name] > 1 and seen[name] > 1:
            named[key] = f"{name} ({seen[name]})"
    return named


def _begins(batch: Batch) -> date:
    when = batch.stages.sow or batch.stages.plant
    if when is not None:
        return when.day
    return date.min if batch.open_left else date.max


def _lines(name: str, style: Style, room: float) -> tuple[str, ...]:
    """A name over one line or two; what is longer still is cut with an ellipsis."""
    width = room - style.base * 0.5
    crop, comma, bed = name.rpartition(", ")
    if comma and style.wide(name, "semi bold", style.base) > width:  # better broken before the bed
        return tuple(_fitted(part, style, width) for part in (f"{crop},", bed))
    lines: list[str] = []
    rest = name.split()
    while rest and len(lines) < 2:
        taken = 1
        while taken < len(rest) and style.wide(" ".join(rest[: taken + 1]), "semi bold", style.base) <= width:
            taken += 1
        lines.append(" ".join(rest[:taken]))
        rest = rest[taken:]
    if rest:
        lines[-1] = f"{lines[-1]} …"
    return tuple(_fitted(line, style, width) for line in lines)


def _fitted(line: str, style: Style, width: float) -> str:
    return cut(line, width, "semi bold", style.base, style.measure)


def heading_height(style: Style) -> float:
    """The height of the line over a group of rows."""
    return style.base * 1.45


def heading_shapes(row: Row, style: Style, top: float) -> Iterator[Shape]:
    """What the rows below stand under, on a rule over the chart's whole width."""
    high, size = heading_height(style), style.base
    room = style.paper.width - 2 * MARGIN - size
    hair = style.stroke(1.0)
    yield Box(MARGIN, top + hair, style.paper.width - 2 * MARGIN, high - hair, fill=1.0)
    yield Line(MARGIN, top + high, style.paper.width - MARGIN, top + high, 0.0, style.stroke(0.8))
    words = cut(row.group, room, "bold", size, style.measure)
    yield Words(MARGIN + size * 0.15, top + high * 0.5 + size * 0.36, words, "bold", size)


def row_shapes(row: Row, weeks: Weeks, style: Style, top: float, grey: float) -> Iterator[Shape]:
    """Everything of a row but its label, on a band of `grey`. Ribbons begin and end on their days."""
    batch = row.batch
    middle = top + row.height / 2
    yield from _tray_ribbon(batch, weeks, style, middle)
    yield from _bed_ribbon(batch, weeks, style, middle)
    yield from _cover(batch, weeks, style, middle)
    yield from _post(batch, weeks, style, middle)
    yield from _spread(row, weeks, style, middle)
    yield from _mark(row, weeks, style, middle)
    yield from _words(row, weeks, style, middle, grey)
    yield from _end(batch, weeks, style, middle)


def _end(batch: Batch, weeks: Weeks, style: Style, middle: float) -> Iterator[Shape]:
    """Behind the last week, of what is sown or set on this chart: the price of a week and the last useful sowing."""
    slip, when = batch.slip, marked_day(batch)
    first, end = weeks.chart_span
    if not weeks.ends or slip is None or when is None or not first <= when < end:
        return
    words, costs = style.words, ""
    if slip.costs_days is not None:
        costs = words.say("chart.costs", n=slip.costs_days) if slip.costs_days else words.say("chart.costs nothing")
    late = words.say("chart.late") if slip.why and slip.last_useful is None else ""
    last = late if slip.last_useful is None else words.day_brief(slip.last_useful)
    edges = row_ends(weeks, style)
    cost, day = style.end_widths
    size = min(style.inner, (edges[0] - weeks.right) * 0.95 / cost, (edges[1] - edges[0]) * 0.84 / day)
    for right, said in zip(edges, (costs, last), strict=True):
        if said:
            yield Words(right, middle + size * 0.36, said, "semi", size, 0.0, "right")


def label_shapes(row: Row, style: Style, top: float, opens: bool) -> Iterator[Shape]:
    """A row's name; `opens` if it begins a page."""
    pitch, x = style.base * 1.08, MARGIN + style.base * 0.15
    lines = (row.again,) if opens and row.again else row.name
    y = top + row.height / 2 + style.base * 0.36 - pitch * (len(lines) - 1) / 2
    if row.again and not opens:
        x, level = MARGIN + style.base * 0.55, top + row.height * 0.5
        yield Line(x, top, x, level, 0.0, style.stroke(1.0))
        yield Line(x, level, x + style.base * 0.5, level, 0.0, style.stroke(1.0))
        x += style.base * 0.75
    for line in lines:
        yield Words(x, y, line, "semi bold", style.base)
        y += pitch


def _tray_ribbon(batch: Batch, weeks: Weeks, style: Style, middle: float) -> Iterator[Shape]:
    tall = style.row * TRAY
    for stay in batch.stays:
        if stay.container and weeks.shows(stay.start, stay.end):
            hatch: Hatch = "vertical" if stay.stage == "hardening off" else ""
            x1, x2, line = weeks.x(stay.start), weeks.x(stay.end), style.base * 0.045
            yield ribbon(x1, x2, middle - tall / 2, tall, line, hatch, style.ruling, batch.maybe)


def _bed_ribbon(batch: Batch, weeks: Weeks, style: Style, middle: float) -> Iterator[Shape]:
    share = BED if batch.rank == "main" else BED * BETWEEN
    tall = style.row * share
    beds = _in_bed(batch, weeks)
    for stay in beds:
        hatch: Hatch = "diagonal" if stay.stage == "picking" else ""
        x1, x2, line = weeks.x(stay.start), weeks.x(stay.end), style.base * 0.055
        yield ribbon(x1, x2, middle - tall / 2, tall, line, hatch, style.hatching, batch.maybe)
    if beds and weeks.begins and beds[0].start < weeks.first:
        yield from wedge(weeks.left, middle, tall, style, -1)
    if beds and weeks.ends and beds[-1].end > weeks.end:
        yield from wedge(weeks.right, middle, tall, style, 1)


def _in_bed(batch: Batch, weeks: Weeks) -> list[Stay]:
    """A batch's stays in its bed that are shown. What stood there before the season came from beyond the chart."""
    beds = sorted((s for s in batch.stays if s.part is not None), key=lambda s: s.start)
    if beds and batch.open_left:
        beds[0] = msgspec.structs.replace(beds[0], start=min(beds[0].start, weeks.first - timedelta(days=1)))
    return [s for s in beds if weeks.shows(s.start, s.end)]


def _cover(batch: Batch, weeks: Weeks, style: Style, middle: float) -> Iterator[Shape]:
    """A cover as a heavy line close above the ribbon."""
    y = middle - style.row * (BED / 2 + 0.10)
    for cover in batch.covers:
        if weeks.shows(cover.start, cover.end):
            yield Line(weeks.x(cover.start), y, weeks.x(cover.end), y, 0.0, style.base * 0.1)


def _spread(row: Row, weeks: Weeks, style: Style, middle: float) -> Iterator[Shape]:
    """How far the first picking wanders over the years of a record, close under the ribbon."""
    found, (first, end) = row.spread, weeks.chart_span
    if found is None or not (first <= found.early and found.late < end and weeks.shows(found.early, found.late)):
        return
    y = middle + style.row * (BED / 2 + 0.1)
    yield from whisker(weeks.x(found.early), weeks.x(found.middle), weeks.x(found.late), y, style)


def _post(batch: Batch, weeks: Weeks, style: Style, middle: float) -> Iterator[Shape]:
    """A post with a wedge on the day the plants leave their trays for the bed."""
    plant = batch.stages.plant
    if plant is None or batch.raised != "tray" or not weeks.holds(plant.day):
        return
    half = style.row * BED / 2
    yield from post(post_at(plant.day, weeks, style), middle - half - style.row * 0.06, middle + half, style)


def _mark(row: Row, weeks: Weeks, style: Style, middle: float) -> Iterator[Shape]:
    batch, when = row.batch, marked_day(row.batch)
    if when is None or not weeks.holds(when):
        return
    x, wide, tall = weeks.column(when), weeks.week_width, style.row * MARK
    number = trays_to_sow(batch, row.sowing)
    down = batch.raised != "tray"
    yield from sowing_mark(x, middle - tall / 2, wide, tall, number, style, maybe=batch.maybe, down=down)


def _sown(batch: Batch, sowing: Sowing | None, garden: Garden) -> str:
    """What is sown: cell size, cells or plants; how much of a row."""
    a, words = batch.amount, garden.words
    if batch.open_left:
        return ""
    if batch.raised == "drill":
        long = words.length(a.length_m * 100, garden.imperial)
        return words.say("chart.sown.rows", rows=a.rows, length=long) if a.rows else long
    much = words.say(f"unit.{a.unit}", n=a.places, number=a.places)
    if batch.raised == "set":
        return much
    tray = str(a.tray_cells) if a.tray_cells else words.say("chart.sown.seed tray")
    shared = sowing is not None and sowing.shares
    return f"{tray} · {words.say('chart.sown.shared', much=much) if shared else much}"


def _words(row: Row, weeks: Weeks, style: Style, middle: float, grey: float) -> Iterator[Shape]:
    """The bed's name in the ribbon, what is sown left of the mark; where there is no room, wherever there is some.

    No edge of a ribbon is written over: an edge is a date.
    """
    y = middle + style.inner * 0.36
    ends = _extent(row.batch, weeks)
    if ends is None:
        is_dated = row.batch.stages.plant is not None or row.batch.stays
        words = "" if is_dated or not weeks.begins else style.words.say("chart.no date")
        yield from _written(words, Slot(weeks.left, weeks.right, grey), style, y)
        return
    gap = style.inner * 0.4
    left = Slot(weeks.left, ends[0] - gap * 0.2, grey, "right")
    right = Slot(ends[1], weeks.right, grey)
    inside = list(_inside(row.batch, weeks, style))
    taken = None
    if row.batch.bed:
        slots = [*inside, right, left]
        words = _bed_words(row.batch, style.words)
        taken = _slot_for(words, slots, style) or max(slots, key=lambda s: s.right - s.left)
        fits = _cut(words, taken, style)
        words = fits if fits == words or weeks.whole is None else ""  # it stands whole on the sheet beside this one
        yield from _written(words, taken, style, y)
        slots = [_rest(s, words, style) if s is taken else s for s in slots]
        left, right, inside = slots[-1], slots[-2], slots[:-2]
    when = marked_day(row.batch)
    if when is None or not weeks.holds(when):  # what was sown before this chart is told in its head
        return
    for words in (row.sown, row.sown.partition(" · ")[2]):
        if words and (found := _slot_for(words, [left, *inside, right], style)):
            yield from _written(words, found, style, y)
            return


def _slot_for(words: str, slots: Sequence[Slot], style: Style) -> Slot | None:
    """The first slot in which the words fit."""
    needed = style.wide(words, "semi", style.inner) + style.inner * 0.8
    return next((s for s in slots if s.right - s.left >= needed), None)


def _cut(words: str, slot: Slot, style: Style) -> str:
    """Words cut with an ellipsis to what fits."""
    room = slot.right - slot.left - style.inner * 0.8
    return cut(words, room, "semi", style.inner, style.measure)


def _rest(slot: Slot, words: str, style: Style) -> Slot:
    """What is left of a slot behind the words in it."""
    used = style.wide(words, "semi", style.inner) + style.inner * 0.5
    if slot.align == "right":
        return msgspec.structs.replace(slot, right=slot.right - used)
    return msgspec.structs.replace(slot, left=slot.left + used)


def _written(words: str, slot: Slot, style: Style, y: float) -> Iterator[Shape]:
    """Words in a slot, on a plate of its own grey, so that no line runs through them."""
    if not words:
        return
    size = style.inner
    gap, wide = size * 0.4, style.wide(words, "semi", size)
    x = slot.right - gap - wide if slot.align == "right" else slot.left + gap
    if slot.grey is not None:
        yield Box(x - gap * 0.3, y - size * 0.78, wide + gap * 0.6, size * 1.02, fill=slot.grey)
    yield Words(x, y, words, "semi", size)


def _bed_words(batch: Batch, words: Language) -> str:
    return words.say("chart.between", bed=batch.bed) if batch.rank == "between" else batch.bed


def _extent(batch: Batch, weeks: Weeks) -> tuple[float, float] | None:
    """Where a batch's drawing begins and ends, its mark included; None when nothing of it is drawn."""
    spans = [(weeks.x(s.start), weeks.x(s.end)) for s in batch.stays if s.container and weeks.shows(s.start, s.end)]
    spans += [(weeks.x(s.start), weeks.x(s.end)) for s in _in_bed(batch, weeks)]
    when = marked_day(batch)
    if when is not None and weeks.holds(when):
        spans.append((weeks.column(when), weeks.column(when) + weeks.week_width))
    return (min(a for a, _ in spans), max(b for _, b in spans)) if spans else None


def _inside(batch: Batch, weeks: Weeks, style: Style) -> Iterator[Slot]:
    """Room in the ribbon: the standing crop, then the picking, clear of mark, post and wedges."""
    if batch.rank == "between":  # too thin to be written in
        return
    when, plant = marked_day(batch), batch.stages.plant
    clear = weeks.left
    if plant is not None and weeks.holds(plant.day):
        clear = weeks.x(plant.day) + style.base * 0.1
    if batch.raised != "tray" and when is not None and weeks.holds(when):
        clear = max(clear, weeks.column(when) + weeks.week_width)
    wedge = style.base * WEDGE
    for stay in _in_bed(batch, weeks):
        start = weeks.x(stay.start) + (wedge if stay.start < weeks.first else 0.0)
        end = weeks.x(stay.end) - (wedge if stay.end > weeks.end else 0.0)
        yield Slot(max(start, clear), end, 1.0 if stay.stage == "picking" else None)
