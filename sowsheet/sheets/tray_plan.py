"""The tray plan on paper: what to sow, a shared tray cell by cell, what moves, and the room of each place."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from datetime import date, timedelta
from itertools import groupby

import msgspec

from sowsheet.buying.list import shopping_list
from sowsheet.buying.records import Shopping
from sowsheet.garden.records import Garden, TrayKind
from sowsheet.jobs.make import Plan, name_of, trays_said
from sowsheet.jobs.records import Job
from sowsheet.schedule.records import Amount, Batch, Schedule
from sowsheet.sheets.flow import Block, Run, height_of, paged, paragraph, set_down, tags_of, unread
from sowsheet.sheets.furniture import MM, SOFT, TICK_BOX, dots, hand_paper, tick_box
from sowsheet.sheets.room import FULL, RoomPicture, room_block, window_around
from sowsheet.sheets.shapes import Box, Line, Measure, Page, Shape, Sheet, Tag, Words
from sowsheet.sheets.spoken import tray_said
from sowsheet.site.season import monday_of
from sowsheet.trays.grid import Grid, filled, grid
from sowsheet.trays.records import SharedTray, Sowing, TrayPlan
from sowsheet.words.english import (
    capital,
    count,
    day_long,
    day_named,
    listed,
    number,
    percent,
    rows_of_cells,
    the,
    trays_of,
    week_span,
    weeks_listed,
)

BODY = 14.0
SMALL = 12.0
MARGIN = 10 * MM
INDENT = TICK_BOX + 4 * MM
WEEK_HEAD = 52.0
WEEK_GAP = 8 * MM
FOOT = 16.0
MOVES = frozenset({"Carry", "Prick out", "Pot on", "Harden", "Plant"})
TRAY_LONG = 78 * MM  # a shared tray's picture


class Setting(msgspec.Struct, frozen=True):
    """What every block is set with."""

    left: float
    right: float
    measure: Measure
    plan: Plan

    @property
    def width(self) -> float:
        return self.right - self.left


class Week(msgspec.Struct, frozen=True):
    """A week in which something is sown or moved, as blocks."""

    monday: date
    blocks: tuple[Block, ...]


def tray_plan(
    schedule: Schedule,
    trays: TrayPlan,
    jobs: Sequence[Job],
    garden: Garden,
    paper: str,
    measure: Measure,
    printed_on: date | None,
) -> Sheet:
    """A week a page where something is sown or moved, two quiet ones to a page, busy ones on several.

    A sheet for the hand stays A4 or Letter, whichever family `paper` is of.
    """
    width, height = hand_paper(paper)
    setting = Setting(MARGIN, width - MARGIN, measure, Plan(schedule, trays, garden))
    weeks = list(_weeks(setting, jobs))
    room = height - 2 * MARGIN - FOOT
    pages: list[list[Block]] = []
    bookmarks: list[tuple[int, str]] = []
    for together in _shared_out(setting, weeks, room):
        bookmarks += [(len(pages), f"Week {_number(w.monday)}, from {day_long(w.monday)}") for w in together]
        pages += _pages(setting, together, weeks, room)
    if not pages:
        pages = [[_title(setting, "Trays"), _nothing(setting)]]
    kinds = list(_kinds(setting, shopping_list(garden, schedule, trays))) if bookmarks else []
    if kinds:
        bookmarks.append((len(pages), "Trays, pots and compost"))
        title = _title(setting, "Trays and compost")
        parts = paged(kinds, room - WEEK_HEAD)
        pages += [[unread(title) if n else title, *part] for n, part in enumerate(parts)]
    drawn = tuple(
        _page(setting, blocks, width, height, f"page {n} of {len(pages)}", printed_on)
        for n, blocks in enumerate(pages, 1)
    )
    return Sheet(f"Trays: {garden.name}, {garden.season}", drawn, tuple(bookmarks), garden.words.file_tag)


def _kinds(setting: Setting, needs: Shopping) -> Iterator[Block]:
    """Each kind of tray: how many are in use at once and owned, and the compost that fills them in the season."""
    filled = {fill.tray: fill for fill in needs.tray_compost}
    for need in needs.trays:
        most = f"{need.most} in use at most, on {day_named(need.day)}"
        owned = "how many are owned is not said" if need.owned is None else f"{need.owned} owned"
        short = f"{need.short} short" if need.short else ""
        when = ""
        if need.short and need.start and need.end:
            when = f" from {day_named(need.start)} to {day_named(need.end - timedelta(days=1))}"
        fill = filled.get(need.tray)
        often = "" if fill is None else "once" if fill.fillings == 1 else f"{fill.fillings} times"
        used = f"Filled {often} in the season: {fill.litres:,.0f} l." if fill else ""
        words, tall = paragraph(
            (Run(capital(need.tray), "bold"),), setting.left, 0.0, setting.width, BODY, setting.measure
        )
        runs = [Run(f"{most}; {owned}. "), *([Run(short, "bold"), Run(f"{when}. ")] if short else []), Run(used)]
        more, high = paragraph(runs, setting.left, tall, setting.width, BODY, setting.measure)
        tags = (Tag("P", 0, len(words) + len(more)),)
        yield Block(tall + high, (*words, *more), gap=4 * MM, tags=tags)
    litres = sum(fill.litres for fill in needs.tray_compost)
    if litres:
        all_of_it = Run(f"Compost for all of them: {litres:,.0f} l. ", "bold")
        care = Run("Damp it before you handle it: its dust harms lungs. Follow its label.")
        words, tall = paragraph((all_of_it, care), setting.left, 0.0, setting.width, BODY, setting.measure)
        yield Block(tall, tuple(words), gap=8 * MM, tags=(Tag("P", 0, len(words)),))


def _weeks(setting: Setting, jobs: Sequence[Job]) -> Iterator[Week]:
    plan = setting.plan
    moves = [job for job in jobs if job.verb in MOVES and _in_trays(plan, job)]
    mondays = sorted({s.monday for s in plan.trays.sowings} | {monday_of(job.day) for job in moves})
    for monday in mondays:
        sown = [s for s in plan.trays.sowings if s.monday == monday]
        shared = [t for t in plan.trays.shared if t.monday == monday]
        moved = [job for job in moves if monday_of(job.day) == monday]
        sure = [s for s in sown if not s.maybe]
        blocks = [
            *_sowings(setting, sure, "Sow"),
            *(_shared(setting, tray, n == 0) for n, tray in enumerate(shared)),
            *_sowings(setting, [s for s in sown if s.maybe], "Maybe sow"),
            *_moves(setting, moved),
        ]
        yield Week(monday, tuple(blocks))


def _in_trays(plan: Plan, job: Job) -> bool:
    batch = plan.batches.get(job.batch)
    return batch is not None and batch.raised == "tray"


def _shared_out(setting: Setting, weeks: Sequence[Week], room: float) -> list[list[Week]]:
    """Neighbouring quiet weeks two by two, as far as both fit on one page with the room of the places."""
    found: list[list[Week]] = []
    n = 0
    while n < len(weeks):
        pair = list(weeks[n : n + 2])
        near = len(pair) == 2 and (pair[1].monday - pair[0].monday).days <= 28
        fits = near and height_of(_together(setting, pair, weeks)) <= room
        found.append(pair if fits else pair[:1])
        n += len(found[-1])
    return found


def _together(setting: Setting, weeks: Sequence[Week], every: Sequence[Week]) -> list[Block]:
    """Weeks one below the other, each with the quiet ones that follow it, and the places' room."""
    blocks: list[Block] = []
    for n, week in enumerate(weeks):
        blocks += [_week_head(setting, week.monday, below=n > 0), *week.blocks]
        quiet = _quiet(setting.plan.trays.mondays, every, week)
        if quiet:
            blocks.append(_quiet_line(setting, quiet))
    return [*blocks, _room(setting, weeks)]


def _pages(setting: Setting, weeks: Sequence[Week], every: Sequence[Week], room: float) -> list[list[Block]]:
    """The pages of a week or of two quiet ones; the places' room takes what is free on the last."""
    blocks = _together(setting, weeks, every)
    spare = room - height_of(blocks)
    if spare >= 0:
        return [[*blocks[:-1], _room(setting, weeks, spare)]]
    parts = paged(blocks[1:], room - WEEK_HEAD)
    monday = weeks[0].monday
    done = []
    for n, part in enumerate(parts, 1):
        which = f"page {n} of {len(parts)} of week {_number(monday)}"
        head = _week_head(setting, monday, which)
        done.append([head if n == 1 else unread(head), *part])
    done[-1][-1] = _room(setting, weeks, room - height_of(done[-1]))
    return done


def _page(
    setting: Setting, blocks: Sequence[Block], width: float, height: float, which: str, printed_on: date | None
) -> Page:
    shapes, _ = set_down(blocks, MARGIN)
    foot = height - MARGIN - 4
    shapes.append(Words(setting.right, foot, which, "regular", 10, SOFT, "right"))
    if printed_on:
        shapes.append(Words(setting.left, foot, f"printed {day_long(printed_on)}", "regular", 10, SOFT))
    return Page(width, height, tuple(shapes), tags=tuple(tags_of(blocks)))


def _title(setting: Setting, title: str) -> Block:
    shapes = (Words(setting.left, 24, title, "bold", 28),)
    return Block(WEEK_HEAD, shapes, with_next=True, tags=(Tag("H1", 0, 1),))


def _nothing(setting: Setting) -> Block:
    runs = (Run("Nothing to sow or move: the plan raises nothing in trays."),)
    shapes, tall = paragraph(runs, setting.left, 0, setting.width, BODY, setting.measure)
    return Block(tall, tuple(shapes), tags=(Tag("P", 0, len(shapes)),))


def _number(monday: date) -> int:
    return monday.isocalendar().week


def _week_head(setting: Setting, monday: date, pages: str = "", *, below: bool = False) -> Block:
    left, right = setting.left, setting.right
    title = f"Trays, week {_number(monday)}"
    shapes: list[Shape] = [
        Words(left, 24, title, "bold", 28),
        Words(left, 43, week_span(monday), "regular", 15),
    ]
    if below:
        shapes.append(Line(left, -WEEK_GAP / 2, right, -WEEK_GAP / 2, 0.0, 2.0))
    else:
        shapes.append(Words(right, 10, _garden(setting), "regular", BODY, 0.0, "right"))
        if pages:
            shapes.append(Words(right, 27, pages, "regular", SMALL, 0.0, "right"))
    tags = (Tag("H1", 0, 1), Tag("P", 1, 2))
    return Block(WEEK_HEAD, tuple(shapes), with_next=True, gap=WEEK_GAP if below else 0.0, tags=tags)


def _garden(setting: Setting) -> str:
    garden = setting.plan.garden
    return f"{garden.name}, {garden.season}"


def _section(setting: Setting, title: str, gap: float = 6 * MM) -> Block:
    shapes = (
        Words(setting.left, 17, title, "bold", 18),
        Line(setting.left, 24, setting.right, 24, 0.0, 1.0),
    )
    return Block(28, shapes, with_next=True, gap=gap, parting=0.1, tags=(Tag("H2", 0, 1),))


def _day(setting: Setting, day: date, *, first: bool) -> Block:
    shapes = (Words(setting.left, 14, day_named(day), "bold", BODY),)
    gap = 1 if first else 4 * MM
    return Block(18, shapes, with_next=True, gap=gap, parting=0.2, tags=(Tag("H3", 0, 1),))


# what to sow


def _sowings(setting: Setting, sown: Sequence[Sowing], verb: str) -> list[Block]:
    """A table of what to sow, by day."""
    if not sown:
        return []
    days = sorted({s.day for s in sown})
    counted = sum(s.trays for s in sown)
    on = f" on {day_named(days[0])}" if len(days) == 1 else ""
    apart = ", counted apart" if verb != "Sow" else ""
    blocks = [_section(setting, f"{verb}{on}: {count(counted, 'tray')}{apart}")]
    columns = _columns(setting, sown)
    blocks.append(_titles(columns))
    for day, own in groupby(sorted(sown, key=lambda s: (s.day, s.shares or s.batch, s.shares is not None)), _day_of):
        if len(days) > 1:
            blocks.append(_day(setting, day, first=day == days[0]))
        blocks += [_sowing(setting, s, columns) for s in own]
    return blocks


def _day_of(sowing: Sowing) -> date:
    return sowing.day


class Columns(msgspec.Struct, frozen=True):
    """Where the table's columns begin."""

    crop: float
    trays: float
    cells: float
    seeds: float
    stand: float


_TITLES = ("Crop", "Trays", "Cells", "Seeds", "Stand on")


def _columns(setting: Setting, sown: Sequence[Sowing]) -> Columns:
    """As wide as what stands in them; the crop's name has the rest, and wraps."""
    rows = [_cells_of_row(setting, s) for s in sown]
    gap = 5 * MM
    wide = [
        max(setting.measure(text, "regular", BODY) for text in (*(row[n] for row in rows), title)) + gap
        for n, title in enumerate(_TITLES)
    ]
    wide[4] = min(wide[4] - gap, 100.0)
    stand = setting.right - wide[4]
    seeds = stand - wide[3]
    cells = seeds - wide[2]
    return Columns(setting.left + INDENT, cells - wide[1], cells, seeds, stand)


def _cells_of_row(setting: Setting, sowing: Sowing) -> tuple[str, str, str, str, str]:
    batch = setting.plan.batches[sowing.batch]
    sum_, raised = batch.amount, batch.kind.tray
    if sum_.tray_cells and raised:
        trays = f"{sowing.trays} of {sum_.tray_cells}" if sowing.trays else "shared"
        cells = number(sum_.cells)
        seeds = f"{number(sum_.seeds)}, {raised.seeds_per_cell} to a cell"
    else:
        trays, cells, seeds = count(sowing.trays, "seed tray"), "–", f"{number(sum_.seeds)}, scattered"
    return capital(name_of(batch)), trays, cells, seeds, sowing.place


def _titles(columns: Columns) -> Block:
    places = (columns.crop, columns.trays, columns.cells, columns.seeds, columns.stand)
    shapes = tuple(Words(x, 12, title, "regular", SMALL, SOFT) for x, title in zip(places, _TITLES, strict=True))
    tags = (Tag("TR"), *(Tag("TH column", n, n + 1) for n in range(len(shapes))))
    return Block(18, shapes, with_next=True, tags=tags)


def _sowing(setting: Setting, sowing: Sowing, columns: Columns) -> Block:
    """A box to tick, the row of the table, and the sum under it."""
    crop, trays, cells, seeds, stand = _cells_of_row(setting, sowing)
    measure, batch = setting.measure, setting.plan.batches[sowing.batch]
    shapes: list[Shape] = [tick_box(setting.left, 0, maybe=sowing.maybe)]
    tall = 0.0
    tags = [Tag("TR")]
    entries = (
        (crop, "bold", columns.crop, columns.trays - columns.crop - 8),
        (trays, "regular", columns.trays, columns.cells - columns.trays),
        (cells, "regular", columns.cells, columns.seeds - columns.cells),
        (seeds, "regular", columns.seeds, columns.stand - columns.seeds),
        (stand, "regular", columns.stand, setting.right - columns.stand),
    )
    for words, face, x, wide in entries:
        text, high = paragraph((Run(words, "bold" if face == "bold" else "regular"),), x, 0, wide, BODY, measure)
        shapes += text
        tags.append(Tag("TH" if face == "bold" else "TD", len(shapes) - len(text), len(shapes)))
        tall = max(tall, high)
    below = (Run(_sum_said(setting.plan, batch, sowing)),)
    text, high = paragraph(below, columns.crop, tall, setting.right - columns.crop, SMALL, measure)
    tags.append(Tag("Span", len(shapes), len(shapes) + len(text)))
    return Block(max(tall + high, TICK_BOX), (*shapes, *text), gap=3 * MM, tags=tuple(tags))


def _sum_said(plan: Plan, batch: Batch, sowing: Sowing) -> str:
    """80 clumps + 8 spare = 88 cells, 2 trays of 60, 32 cells left. For South 1, 6 April."""
    sum_ = batch.amount
    bed = f" For {batch.bed}." if batch.bed else ""
    return f"{_wanted_said(sum_)}{_trays_taken(plan, batch, sowing)}.{bed}"


def _wanted_said(sum_: Amount) -> str:
    """The sum up to the cells, each step as it can be added up by hand; spare in whole cells where nothing follows."""
    rows = f"{count(sum_.rows, 'row')} of {sum_.per_row} = " if sum_.rows else ""
    wanted = sum_.places + sum_.spare
    start = f"{rows}{number(sum_.places)} {sum_.unit}"
    if not sum_.tray_cells:
        return f"{start} + {number(sum_.cells - sum_.places)} spare = {number(sum_.cells)} to prick out"
    if sum_.cells == math.ceil(wanted):
        spare = f" + {number(sum_.cells - sum_.places)} spare" if sum_.cells > sum_.places else ""
        return f"{start}{spare} = {number(sum_.cells)} cells"
    exact = f"{start} + {number(float(sum_.spare))} spare = {number(float(wanted))}"
    return f"{exact}; {percent(float(sum_.empty))} come up empty: {number(sum_.cells)} cells"


def _trays_taken(plan: Plan, batch: Batch, sowing: Sowing) -> str:
    """Which trays the cells take, and what is left of them."""
    sum_, shared = batch.amount, plan.shared.get(batch.name)
    if not sum_.tray_cells:
        return ""
    if shared is None:
        left = f"{count(sum_.left, 'cell')} left" if sum_.left else "full"
        return f", {trays_of(sum_.trays, sum_.tray_cells, sum_.tray)}, {left}"
    part = next(p for p in shared.parts if p.batch == batch.name)
    full = (sum_.cells - part.cells) // sum_.tray_cells
    alone = f"{count(full, 'full tray')} and " if full else ""
    if sowing.shares:
        owner = plan.batches[shared.owner]
        which = "last tray" if owner.amount.trays > 1 else "tray"
        return f", {alone}{count(part.cells, 'cell')} in the {which} of {name_of(owner)}"
    return f", {alone}{count(part.cells, 'cell')} of a shared tray"


# a shared tray, cell by cell


def _shared(setting: Setting, tray: SharedTray, first: bool) -> Block:
    """The picture of a shared tray, and beside it who has which rows. Rows are numbered along the tray."""
    plan = setting.plan
    kind = plan.kinds.get(tray.tray, TrayKind(tray.tray, tray.cells, 53, 31, 30))
    lies = grid(tray.cells, kind.length_cm, kind.width_cm)
    owner = plan.batches[tray.owner]
    which = f"tray {owner.amount.trays} of {owner.amount.trays} of {name_of(owner)}"
    title = (
        Run("One tray shared", "bold"),
        Run(f"  {which if owner.amount.trays > 1 else f'the tray of {name_of(owner)}'}"),
    )
    shapes, top = paragraph(title, setting.left, 0, setting.width, BODY, setting.measure)
    picture, tall = _picture(setting, tray, lies, kind, top + 6)
    text, end = _shares(setting, tray, lies, setting.left + TRAY_LONG + 8 * MM, top + 16)
    said = tray_said(plan.garden.words, tray.cells, [(name_of(plan.batches[p.batch]), p.cells) for p in tray.parts])
    a, b, c = len(shapes), len(shapes) + len(picture), len(shapes) + len(picture) + len(text)
    tags = (Tag("P", 0, a), Tag("Figure", a, b, said), Tag("P", b, c))
    gap = (5 if first else 4) * MM
    return Block(max(top + 6 + tall, end), (*shapes, *picture, *text), gap=gap, tags=tags)


def _picture(setting: Setting, tray: SharedTray, lies: Grid, kind: TrayKind, top: float) -> tuple[list[Shape], float]:
    """The tray lying on its long side: a row is a column of the picture, its first cell at the top."""
    rim, numbers = 6.0, 12.0
    pitch = (TRAY_LONG - 2 * rim) / lies.rows
    short = (
        max(kind.width_cm, 1) / max(kind.length_cm, 1)
        if kind.width_cm <= kind.length_cm
        else kind.length_cm / kind.width_cm
    )
    down = min(pitch * 1.15, (TRAY_LONG * short - 2 * rim) / lies.across)
    size = min(pitch, down) * 0.86
    left, y = setting.left, top + numbers
    shapes: list[Shape] = [Box(left, y, TRAY_LONG, lies.across * down + 2 * rim, stroke=0.0, line_pt=1.6, radius=4)]
    every = next(n for n in (1, 2, 5, 10) if pitch * n >= 14)
    for row in range(1, lies.rows + 1):
        if row == 1 or row % every == 0:
            x = left + rim + (row - 0.5) * pitch
            shapes.append(Words(x, top + 8, str(row), "condensed", 10, 0.0, "centre"))
    owner_of = _owners(tray)
    for cell in range(tray.cells):
        row, column = divmod(cell, lies.across)
        x = left + rim + row * pitch + (pitch - size) / 2
        at = y + rim + column * down + (down - size) / 2
        shapes.append(Box(x, at, size, size, stroke=0.0, line_pt=0.6, radius=size * 0.18))
        if cell < len(owner_of):
            shapes += dots(x, at, size, tray.parts[owner_of[cell]].seeds_per_cell, owner_of[cell])
    shapes += _borders(owner_of, tray.cells, lies, left + rim, y + rim, pitch, down)
    return shapes, numbers + lies.across * down + 2 * rim


def _owners(tray: SharedTray) -> list[int]:
    """For each cell that is sown, the number of the part it belongs to."""
    return [n for n, part in enumerate(tray.parts) for _ in range(part.cells)]


def _borders(
    owner_of: Sequence[int], cells: int, lies: Grid, left: float, top: float, pitch: float, down: float
) -> list[Shape]:
    """Heavy lines between cells of different batches."""

    def owner(row: int, column: int) -> int | None:
        cell = row * lies.across + column
        if column >= lies.across or cell >= cells:
            return None
        return owner_of[cell] if cell < len(owner_of) else -1

    shapes: list[Shape] = []
    for row in range(lies.rows):
        for column in range(lies.across):
            here, below, beside = owner(row, column), owner(row, column + 1), owner(row + 1, column)
            x, y = left + row * pitch, top + column * down
            if None not in {here, beside} and here != beside:
                shapes.append(Line(x + pitch, y, x + pitch, y + down, 0.0, 1.6))
            if None not in {here, below} and here != below:
                shapes.append(Line(x, y + down, x + pitch, y + down, 0.0, 1.6))
    return shapes


def _shares(setting: Setting, tray: SharedTray, lies: Grid, x: float, y: float) -> tuple[list[Shape], float]:
    """A line or two for each batch: a cell as it is drawn, the crop, its rows, its seeds."""
    measure, plan, cell = setting.measure, setting.plan, 15.0
    shapes: list[Shape] = []
    used = 0
    for n, place in enumerate(filled(tray)):
        part = place.part
        used += part.cells
        name = capital(name_of(plan.batches[part.batch]))
        rows = rows_of_cells(place.first, part.cells, lies.across)
        said = f"{rows}: {count(part.cells, 'cell')}, {count(part.seeds_per_cell, 'seed')} to a cell"
        shapes += [Box(x, y + 2, cell, cell, stroke=0.0, line_pt=0.6, radius=2.5)]
        shapes += dots(x, y + 2, cell, part.seeds_per_cell, n)
        head, high = paragraph((Run(name, "bold"),), x + 22, y, setting.right - x - 22, BODY, measure)
        text, higher = paragraph((Run(said),), x + 22, y + high, setting.right - x - 22, SMALL, measure)
        shapes += [*head, *text]
        y += high + higher + 5
    if used < tray.cells:
        said = f"{count(tray.cells - used, 'cell')} left empty"
        text, high = paragraph((Run(said),), x + 22, y, setting.right - x - 22, SMALL, measure)
        shapes += [Box(x, y + 1, cell, cell, stroke=0.0, line_pt=0.6, radius=2.5), *text]
        y += max(high, cell + 1)
    return shapes, y


# what moves


def _moves(setting: Setting, moved: Sequence[Job]) -> list[Block]:
    """What is carried, pricked out, potted on, hardened and planted, by day; what is not settled last."""
    if not moved:
        return []
    blocks: list[Block] = []
    wide = max(setting.measure(_move_said(setting.plan, job)[0], "bold", BODY) for job in moved) + 5 * MM
    split = setting.left + INDENT + min(wide, 0.42 * (setting.width - INDENT))
    for maybe, verb in ((False, "Move"), (True, "Maybe move")):
        own = [job for job in moved if job.maybe == maybe]
        days = sorted({job.day for job in own})
        if own:
            blocks.append(_section(setting, f"{verb} on {day_named(days[0])}" if len(days) == 1 else verb))
        for day, todays in groupby(own, lambda job: job.day):
            if len(days) > 1:
                blocks.append(_day(setting, day, first=day == days[0]))
            blocks += [_move(setting, job, split) for job in todays]
    return blocks


def _move(setting: Setting, job: Job, split: float) -> Block:
    what, where = _move_said(setting.plan, job)
    measure = setting.measure
    left = setting.left + INDENT
    first, one = paragraph((Run(what, "bold"),), left, 0, split - left - 5 * MM, BODY, measure)
    second, other = paragraph((Run(where),), split, 0, setting.right - split, BODY, measure)
    shapes = (tick_box(setting.left, 0, maybe=job.maybe), *first, *second)
    tags = (Tag("LI"), Tag("LBody", 1, len(shapes)))
    return Block(max(one, other, TICK_BOX), shapes, gap=2 * MM, tags=tags)


def _move_said(plan: Plan, job: Job) -> tuple[str, str]:
    """What moves, and from where to where."""
    batch = plan.batches[job.batch]
    before = trays_said(plan, batch, job.day - timedelta(days=1))
    trays = f"{before} of {job.what}" if before else job.what
    wash = "; wash the trays" if batch.name not in plan.shared else "; wash what is empty"
    match job.verb:
        case "Carry":
            return trays, f"{job.where} to {job.to}, to the light"
        case "Harden":
            return trays, f"{job.where} to {job.to}, to harden" if job.to else "harden where they stand"
        case "Prick out" | "Pot on":
            into = f"{job.verb.lower()} into {job.to}" if job.to else job.verb.lower()
            return f"{job.amount} {job.what}", f"{into}{wash}"
        case _:
            return trays, f"plant out in {job.where}{wash}"


# what comes after, and the room


def _quiet(mondays: Sequence[date], every: Sequence[Week], week: Week) -> list[date]:
    """The weeks without work that follow a week, before the next with some."""
    following = next((w.monday for w in every if w.monday > week.monday), None)
    return [m for m in mondays if m > week.monday and (following is None or m < following)]


def _quiet_line(setting: Setting, quiet: Sequence[date]) -> Block:
    runs = (Run(f"Nothing to sow or move in {weeks_listed(quiet)}."),)
    shapes, tall = paragraph(runs, setting.left, 0, setting.width, BODY, setting.measure)
    return Block(tall, tuple(shapes), gap=5 * MM, tags=(Tag("P", 0, len(shapes)),))


def _room(setting: Setting, weeks: Sequence[Week], spare: float = 0.0) -> Block:
    plan = setting.plan
    framed = [w.monday for w in weeks]
    picture = RoomPicture(
        words=plan.garden.words,
        places=plan.garden.places,
        weeks=plan.trays.weeks,
        mondays=window_around(plan.trays.mondays, framed),
        framed=tuple(framed),
        over=tuple(_over_said(plan, framed)),
    )
    return room_block(picture, setting.left, setting.right, setting.measure, spare)


def _over_said(plan: Plan, framed: Sequence[date]) -> Iterator[tuple[str, str]]:
    """For each place that will be over: when and by how much; and what leaves it first."""
    full = [w for w in plan.trays.weeks if w.filled > FULL and w.monday >= framed[0]]
    mondays = window_around(plan.trays.mondays, framed) if full else ()
    for place in plan.garden.places:
        over = [w for w in full if w.place == place.name and w.monday in mondays]
        if over:
            worst = max(over, key=lambda w: w.filled)
            excess = worst.trays - (worst.room or 0)
            much = f"{count(excess, 'tray')} too many" if excess > 0 else f"{percent(worst.filled - 1)} too full"
            up_to = "up to " if len({w.filled for w in over}) > 1 else ""
            when = capital(weeks_listed([w.monday for w in over]))
            yield f"{when}: {up_to}{much} on {the(place.name)}.", _leaving_said(plan, place.name, worst.monday)


def _leaving_said(plan: Plan, place: str, monday: date) -> str:
    """What stands there in a week and leaves it first."""
    standing = [
        s
        for s in plan.trays.stays
        if s.where == place and s.start < monday + timedelta(days=7) and s.end > monday and not s.maybe
    ]
    if not standing:
        return ""
    first = min(s.end for s in standing)
    names = [name_of(plan.batches[s.batch]) for s in standing if s.end == first]
    trays = sum(s.trays for s in standing if s.end == first)
    return f"First to leave it: {listed(list(dict.fromkeys(names)))}, {count(trays, 'tray')}, {day_named(first)}."
