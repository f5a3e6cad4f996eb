"""Labels for trays: what it is, and the dates that whoever stands before the tray wants to know."""

from __future__ import annotations

import re
from collections.abc import Iterator
from datetime import date

import msgspec

from sowsheet.garden.records import Garden
from sowsheet.jobs.make import name_of
from sowsheet.schedule.records import Batch, Schedule
from sowsheet.sheets.flow import cut
from sowsheet.sheets.furniture import MM, SOFT, hand_paper
from sowsheet.sheets.shapes import Leaf, Line, Measure, Page, Shape, Sheet, Words
from sowsheet.sheets.view import WHOLE, View
from sowsheet.site.season import monday_of, season_mondays
from sowsheet.trays.records import Sowing, TrayPlan
from sowsheet.words.language import Language, capital

PAD = 3.5 * MM
CARD_MARGIN = 10 * MM
HEAD, PITCH = 1.3, 1.3  # the crop's size and the step from line to line, in sizes of the body
MOST_LINES = 4  # below the crop
WIDE = 3.5  # times its height: a label that has its lines in two columns
DATE = 5 * MM  # the date of printing, below the labels of a card
LARGEST, SMALLEST = 11.0, 6.5
CARD_MM = (95.0, 33.8)
LEAST_MM = (35.0, 14.0)  # a smaller label does not hold its words
_INCH_MM = 25.4
_SIZE = re.compile(r"\s*(\d+(?:[.,]\d+)?)\s*(mm|in)?\s*[x×]\s*(\d+(?:[.,]\d+)?)\s*(mm|in)?\s*", re.IGNORECASE)


class Grid(msgspec.Struct, frozen=True):
    """Labels on a sheet, all in mm: how many, their size, where the first begins, and from one to the next."""

    across: int
    down: int
    width: float
    height: float
    left: float
    top: float
    pitch_x: float
    pitch_y: float
    cut: bool = False  # plain card, with lines to cut along


# Sheets of ready cut labels by their measures (from memory; hold a print on plain paper against a sheet first).
_A4 = (
    Grid(3, 7, 63.5, 38.1, 7.25, 15.15, 66.0, 38.1),
    Grid(2, 7, 99.1, 38.1, 4.65, 15.15, 101.6, 38.1),
    Grid(3, 8, 70.0, 37.0, 0.0, 0.5, 70.0, 37.0),
    Grid(3, 8, 64.0, 33.9, 7.25, 12.9, 66.0, 33.9),
)
_LETTER = (
    Grid(3, 10, 66.7, 25.4, 4.8, 12.7, 69.8, 25.4),
    Grid(2, 5, 101.6, 50.8, 4.0, 12.7, 106.4, 50.8),
)


def sizes_of(paper: str) -> list[str]:
    """The sizes of ready cut labels that are known for a paper: `63.5 x 38.1 mm`."""
    return [f"{g.width:g} x {g.height:g} mm" for g in _known(paper)]


def grid_of(words: str, paper: str) -> Grid | None:
    """The grid for a label's size, `63.5 x 38.1` in mm or `4 x 2 in`; plain card to be cut where no sheet has it.

    "" is plain card of 95 x 33.8 mm. None for what is no size, or does not fit the paper.
    """
    if not words:
        return _card(*CARD_MM, paper)
    found = _SIZE.fullmatch(words)
    if found is None:
        return None
    unit = _INCH_MM if (found[4] or found[2] or "mm").lower() == "in" else 1.0
    width, height = (float(found[n].replace(",", ".")) * unit for n in (1, 3))
    near = (g for g in _known(paper) if abs(g.width - width) < 0.5 and abs(g.height - height) < 0.5)
    return next(near, None) or _card(width, height, paper)


def _known(paper: str) -> tuple[Grid, ...]:
    return _LETTER if hand_paper(paper)[0] > 600 else _A4


def _card(width: float, height: float, paper: str) -> Grid | None:
    """As many as fit inside the margins of a sheet of card, edge to edge, in its middle."""
    whole = hand_paper(paper)
    sheet = [(whole[0] - 2 * CARD_MARGIN) / MM + 0.01, (whole[1] - 2 * CARD_MARGIN - DATE) / MM + 0.01]
    across, down = int(sheet[0] // width), int(sheet[1] // height)
    if width < LEAST_MM[0] or height < LEAST_MM[1] or not across or not down:
        return None
    margin = CARD_MARGIN / MM
    left, top = margin + (sheet[0] - across * width) / 2, margin + (sheet[1] - down * height) / 2
    return Grid(across, down, width, height, left, top, width, height, cut=True)


class Label(msgspec.Struct, frozen=True):
    """A tray's label: its head, which tray of how many, and its lines."""

    day: date
    head: str
    which: str
    lines: tuple[str, ...]


def tray_labels(
    schedule: Schedule,
    trays: TrayPlan,
    garden: Garden,
    paper: str,
    measure: Measure,
    printed_on: date | None = None,
    view: View = WHOLE,
    grid: Grid | None = None,
) -> Sheet:
    """A label for every tray that is sown, in the order of sowing; only those of the weeks that `view` asks for.

    A tray that several share has a label of each. It stays A4 or Letter, whichever family `paper` is of.
    """
    width, height = hand_paper(paper)
    grid = grid or _card(*CARD_MM, paper)
    assert grid is not None
    words = garden.words
    labels = list(_labels(words, schedule, trays, view))
    whole = grid.across * grid.down
    pages: list[Page] = []
    marks: list[tuple[int, str]] = []
    for start in range(0, max(1, len(labels)), whole):
        own = labels[start : start + whole]
        leaf = Leaf()
        leaf.draw(_cuts(grid, len(own)) if grid.cut else ())
        for n, label in enumerate(own):
            x = (grid.left + n % grid.across * grid.pitch_x) * MM
            y = (grid.top + n // grid.across * grid.pitch_y) * MM
            leaf.tag("LI")
            leaf.tag("LBody", _label(label, x, y, grid, measure))
        if not own:
            none = words.say("label.none")
            leaf.tag("P", [Words(CARD_MARGIN, CARD_MARGIN + 20, none, "regular", 14.0)])
        else:
            first, last = words.day_brief(own[0].day), words.day_brief(own[-1].day)
            marks.append((len(pages), words.say("label.page", first=first, last=last)))
        if printed_on and grid.cut:
            printed = words.say("label.printed", day=words.day_long(printed_on))
            right, foot = width - CARD_MARGIN, height - CARD_MARGIN - 2
            leaf.draw([Words(right, foot, printed, "regular", 10.0, SOFT, "right")])
        pages.append(Page(width, height, tuple(leaf.shapes), str(len(pages) + 1), tuple(leaf.tags)))
    title = words.say("label.file", garden=garden.name, year=garden.season)
    return Sheet(title, tuple(pages), tuple(marks), garden.words.file_tag)


def _labels(words: Language, schedule: Schedule, trays: TrayPlan, view: View) -> Iterator[Label]:
    batches = {b.name: b for b in schedule.batches}
    mondays = {m for _, own in view.within(season_mondays(schedule.season)) for m in own}
    for sowing in sorted(trays.sowings, key=lambda s: (s.day, s.batch)):
        if view.spans and monday_of(sowing.day) not in mondays:
            continue
        batch = batches[sowing.batch]
        for n in range(max(1, sowing.trays)):
            which = "" if sowing.trays else words.say("label.shared tray")
            if sowing.trays > 1:
                which = words.say("label.which", number=n + 1, trays=sowing.trays)
            yield Label(sowing.day, capital(name_of(batch)), which, tuple(_lines(words, batch, sowing)))


def _lines(words: Language, batch: Batch, sowing: Sowing) -> Iterator[str]:
    """When it was sown; when it goes to the light; when into which bed; till when it holds."""
    stages = batch.stages
    sown = "label.sown maybe" if batch.maybe else "label.sown"
    yield words.say(sown, day=words.day_brief(sowing.day), week=sowing.day.isocalendar().week)
    light, plant, holds = stages.to_light or stages.up, stages.plant, stages.holds
    if light is not None:
        yield words.say("label.light", day=words.day_brief(light.day))
    out = plant or stages.ready
    if out is not None:
        key = "label.plant out" if plant is not None else "label.ready"
        if batch.bed:
            key = "label.plant out in bed" if plant is not None else "label.ready in bed"
        yield words.say(key, day=words.day_brief(out.day), bed=batch.bed)
    if holds is not None:
        yield words.say("label.holds", day=words.day_brief(holds.day))


def _label(label: Label, x: float, y: float, grid: Grid, measure: Measure) -> Iterator[Shape]:
    """The crop in bold, its lines below it, in two columns on a label that is low and wide; all inside the label."""
    wide, tall = grid.width * MM - 2 * PAD, grid.height * MM
    columns = 2 if grid.width > WIDE * grid.height else 1
    rows = -(-MOST_LINES // columns)
    high = HEAD + PITCH * rows
    size = max(SMALLEST, min(LARGEST, 0.88 * tall / high))
    at = y + (tall - size * high) / 2 + size * HEAD * 0.86
    side = measure(label.which, "regular", size) + size if label.which else 0.0
    big = max(size, min(size * HEAD, (wide - side) / measure(label.head, "bold", 1.0)))
    yield Words(x + PAD, at, cut(label.head, wide - side, "bold", big, measure), "bold", big)
    if label.which:
        yield Words(x + PAD + wide, at, label.which, "regular", size, 0.0, "right")
    column = (wide - PAD * (columns - 1)) / columns
    for n, line in enumerate(label.lines):
        left = x + PAD + n // rows * (column + PAD)
        under = at + (n % rows + 1) * size * PITCH
        yield Words(left, under, cut(line, column, "regular", size, measure), "regular", size)


def _cuts(grid: Grid, labels: int) -> Iterator[Shape]:
    """Lines to cut along, round as many rows as there are."""
    down = -(-labels // grid.across)
    left, top = grid.left * MM, grid.top * MM
    right, bottom = left + grid.across * grid.pitch_x * MM, top + down * grid.pitch_y * MM
    for n in range(grid.across + 1 if down else 0):
        x = left + n * grid.pitch_x * MM
        yield Line(x, top, x, bottom, 0.4, 0.5)
    for n in range(down + 1 if down else 0):
        y = top + n * grid.pitch_y * MM
        yield Line(left, y, right, y, 0.4, 0.5)
