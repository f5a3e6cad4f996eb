"""The tray plan on paper: what to sow, a shared tray cell by cell, what moves, and the room of each place."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from datetime import date, timedelta
from itertools import groupby

import msgspec

from sowsheet.buying.list import shopping_list
from sowsheet.buying.records import Shopping, TrayFill, TrayNeed
from sowsheet.garden.records import Garden, TrayKind
from sowsheet.jobs.make import Plan, name_of, trays_said
from sowsheet.jobs.records import Job
from sowsheet.schedule.records import Amount, Batch, Schedule
from sowsheet.sheets.flow import (
    Block,
    Run,
    beside,
    height_of,
    paged,
    paragraph,
    runs_of,
    set_down,
    strong,
    tags_of,
    unread,
)
from sowsheet.sheets.furniture import MM, SOFT, TICK_BOX, dots, hand_paper, tick_box
from sowsheet.sheets.room import FULL, RoomPicture, room_block, window_around
from sowsheet.sheets.shapes import Box, Face, Line, Measure, Page, Shape, Sheet, Tag, Words
from sowsheet.sheets.spoken import tray_said
from sowsheet.site.season import monday_of
from sowsheet.trays.grid import Grid, filled, grid
from sowsheet.trays.records import SharedTray, Sowing, TrayPlan
from sowsheet.words.language import Language, capital

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

    @property
    def words(self) -> Language:
        return self.plan.garden.words


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
    words = garden.words
    width, height = hand_paper(paper)
    setting = Setting(MARGIN, width - MARGIN, measure, Plan(schedule, trays, garden))
    weeks = list(_weeks(setting, jobs))
    room = height - 2 * MARGIN - FOOT
    pages: list[list[Block]] = []
    bookmarks: list[tuple[int, str]] = []
    for together in _shared_out(setting, weeks, room):
        bookmarks += [(len(pages), _week_from(words, week.monday)) for week in together]
        pages += _pages(setting, together, weeks, room)
    if not pages:
        pages = [[_title(setting, words.say("tray plan.title")), _nothing(setting)]]
    kinds = list(_kinds(setting, shopping_list(garden, schedule, trays))) if bookmarks else []
    if kinds:
        bookmarks.append((len(pages), words.say("tray plan.kinds")))
        title = _title(setting, words.say("tray plan.kinds title"))
        parts = paged(kinds, room - WEEK_HEAD)
        pages += [[unread(title) if n else title, *part] for n, part in enumerate(parts)]
    drawn = tuple(
        _page(setting, blocks, width, height, words.say("tray plan.page", page=n, pages=len(pages)), printed_on)
        for n, blocks in enumerate(pages, 1)
    )
    file = words.say("tray plan.file", garden=garden.name, year=garden.season)
    return Sheet(file, drawn, tuple(bookmarks), words.file_tag)


def _week_from(words: Language, monday: date) -> str:
    return words.say("tray plan.week from", week=_number(monday), day=words.day_long(monday))


def _kinds(setting: Setting, needs: Shopping) -> Iterator[Block]:
    """Each kind of tray: how many are in use at once and owned, and the compost that fills them in the season."""
    words, imperial = setting.words, setting.plan.garden.imperial
    fills = {fill.tray: fill for fill in needs.tray_compost}
    for need in needs.trays:
        name = Run(capital(words.tray_name(need.tray)), "bold")
        shapes, tall = paragraph((name,), setting.left, 0.0, setting.width, BODY, setting.measure)
        runs = runs_of(_kind_said(words, need, fills.get(need.tray), imperial))
        more, high = paragraph(runs, setting.left, tall, setting.width, BODY, setting.measure)
        tags = (Tag("P", 0, len(shapes) + len(more)),)
        yield Block(tall + high, (*shapes, *more), gap=4 * MM, tags=tags)
    litres = sum(fill.litres for fill in needs.tray_compost)
    if litres:
        all_of_it = strong(words.say("tray plan.compost", volume=words.volume(litres, imperial)))
        runs = runs_of(f"{all_of_it} {words.say('tray plan.compost care')}")
        shapes, tall = paragraph(runs, setting.left, 0.0, setting.width, BODY, setting.measure)
        yield Block(tall, tuple(shapes), gap=8 * MM, tags=(Tag("P", 0, len(shapes)),))


def _kind_said(words: Language, need: TrayNeed, fill: TrayFill | None, imperial: bool) -> str:
    """How many of a kind are in use and owned, what is short is `strong`, and what compost fills them."""
    most = {"most": need.most, "day": words.day_named(need.day)}
    if need.owned is None:
        said = [words.say("tray plan.kind.not said", **most)]
    else:
        said = [words.say("tray plan.kind.owned", owned=need.owned, **most)]
    if need.short and need.start and need.end:
        much = strong(words.say("tray plan.kind.missing", n=need.short))
        last = words.day_named(need.end - timedelta(days=1))
        said.append(words.say("tray plan.kind.short", missing=much, start=words.day_named(need.start), end=last))
    if fill:
        said.append(words.say("tray plan.kind.filled", n=fill.fillings, volume=words.volume(fill.litres, imperial)))
    return " ".join(said)


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
            *_sowings(setting, sure, maybe=False),
            *(_shared(setting, tray, n == 0) for n, tray in enumerate(shared)),
            *_sowings(setting, [s for s in sown if s.maybe], maybe=True),
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
        which = setting.words.say("tray plan.page of week", page=n, pages=len(parts), week=_number(monday))
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
        printed = setting.words.say("tray plan.printed", day=setting.words.day_long(printed_on))
        shapes.append(Words(setting.left, foot, printed, "regular", 10, SOFT))
    return Page(width, height, tuple(shapes), tags=tuple(tags_of(blocks)))


def _title(setting: Setting, title: str) -> Block:
    shapes = (Words(setting.left, 24, title, "bold", 28),)
    return Block(WEEK_HEAD, shapes, with_next=True, tags=(Tag("H1", 0, 1),))


def _nothing(setting: Setting) -> Block:
    runs = (Run(setting.words.say("tray plan.nothing")),)
    shapes, tall = paragraph(runs, setting.left, 0, setting.width, BODY, setting.measure)
    return Block(tall, tuple(shapes), tags=(Tag("P", 0, len(shapes)),))


def _number(monday: date) -> int:
    return monday.isocalendar().week


def _week_head(setting: Setting, monday: date, pages: str = "", *, below: bool = False) -> Block:
    left, right = setting.left, setting.right
    title = setting.words.say("tray plan.week", week=_number(monday))
    shapes: list[Shape] = [
        Words(left, 24, title, "bold", 28),
        Words(left, 43, capital(setting.words.week_span(monday)), "regular", 15),
    ]
    if below:
        shapes.append(Line(left, -WEEK_GAP / 2, right, -WEEK_GAP / 2, 0.0, 2.0))
    else:
        garden = setting.plan.garden
        name = beside(title, 28, garden.name, f", {garden.season}", BODY, right - left, setting.measure)
        shapes.append(Words(right, 10, name, "regular", BODY, 0.0, "right"))
        if pages:
            shapes.append(Words(right, 27, pages, "regular", SMALL, 0.0, "right"))
    tags = (Tag("H1", 0, 1), Tag("P", 1, 2))
    return Block(WEEK_HEAD, tuple(shapes), with_next=True, gap=WEEK_GAP if below else 0.0, tags=tags)


def _section(setting: Setting, title: str, gap: float = 6 * MM) -> Block:
    size = min(18.0, 18.0 * setting.width / setting.measure(title, "bold", 18.0))
    shapes = (
        Words(setting.left, 17, title, "bold", size),
        Line(setting.left, 24, setting.right, 24, 0.0, 1.0),
    )
    return Block(28, shapes, with_next=True, gap=gap, parting=0.1, tags=(Tag("H2", 0, 1),))


def _day(setting: Setting, day: date, *, first: bool) -> Block:
    shapes = (Words(setting.left, 14, capital(setting.words.day_named(day)), "bold", BODY),)
    gap = 1 if first else 4 * MM
    return Block(18, shapes, with_next=True, gap=gap, parting=0.2, tags=(Tag("H3", 0, 1),))


# what to sow


def _sowings(setting: Setting, sown: Sequence[Sowing], *, maybe: bool) -> list[Block]:
    """A table of what to sow, by day."""
    if not sown:
        return []
    days = sorted({s.day for s in sown})
    trays = setting.words.count(sum(s.trays for s in sown), "tray")
    blocks = [_section(setting, _on_days(setting.words, "maybe sow" if maybe else "sow", days, trays))]
    columns = _columns(setting, sown)
    blocks.append(_titles(setting.words, columns))
    for day, own in groupby(sorted(sown, key=lambda s: (s.day, s.shares or s.batch, s.shares is not None)), _day_of):
        if len(days) > 1:
            blocks.append(_day(setting, day, first=day == days[0]))
        blocks += [_sowing(setting, s, columns) for s in own]
    return blocks


def _on_days(words: Language, what: str, days: Sequence[date], trays: str = "") -> str:
    """The title of what is done in a week; with its day where it is only one."""
    if len(days) == 1:
        return words.say(f"tray plan.on a day.{what}", day=words.day_named(days[0]), trays=trays)
    return words.say(f"tray plan.on days.{what}", trays=trays)


def _day_of(sowing: Sowing) -> date:
    return sowing.day


class Columns(msgspec.Struct, frozen=True):
    """Where the table's columns begin."""

    crop: float
    trays: float
    cells: float
    seeds: float
    stand: float


def _column_titles(words: Language) -> tuple[str, ...]:
    return tuple(words.say(f"tray plan.column.{column}") for column in Columns.__struct_fields__)


def _columns(setting: Setting, sown: Sequence[Sowing]) -> Columns:
    """As wide as what stands in them; the crop's name has the rest, and wraps. Where that would break its words, what
    is told of trays and seeds wraps first."""
    rows = [_cells_of_row(setting, s) for s in sown]
    titles, gap, measure = _column_titles(setting.words), 5 * MM, setting.measure
    wide = [
        max(measure(text, "regular", BODY) for text in (*(row[n] for row in rows), title)) + gap
        for n, title in enumerate(titles)
    ]
    wide[4] = min(wide[4] - gap, 100.0)
    left = setting.left + INDENT
    lacks = sum(wide[1:]) + _longest_word(measure, [row[0] for row in rows], "bold") + 8 - (setting.right - left)
    for n in (1, 3):
        least = _longest_word(measure, [titles[n], *(row[n] for row in rows)], "regular") + gap
        given = min(max(0.0, lacks), wide[n] - least)
        wide[n] -= given
        lacks -= given
    stand = setting.right - wide[4]
    seeds = stand - wide[3]
    cells = seeds - wide[2]
    return Columns(left, cells - wide[1], cells, seeds, stand)


def _longest_word(measure: Measure, texts: Sequence[str], face: Face) -> float:
    return max(measure(word, face, BODY) for text in texts for word in text.split())


def _cells_of_row(setting: Setting, sowing: Sowing) -> tuple[str, str, str, str, str]:
    words, batch = setting.words, setting.plan.batches[sowing.batch]
    sum_, raised = batch.amount, batch.kind.tray
    sown = words.number(sum_.seeds)
    if sum_.tray_cells and raised:
        trays, cells = words.say("tray plan.shared"), words.number(sum_.cells)
        if sowing.trays:
            trays = words.say("tray plan.trays of", trays=sowing.trays, cells=sum_.tray_cells)
        seeds = words.say("tray plan.seeds.to a cell", seeds=sown, n=raised.seeds_per_cell)
    else:
        trays, cells = words.say("tray plan.seed trays", n=sowing.trays), "–"
        seeds = words.say("tray plan.seeds.scattered", seeds=sown)
    return capital(name_of(batch)), trays, cells, seeds, sowing.place


def _titles(words: Language, columns: Columns) -> Block:
    placed = zip(msgspec.structs.astuple(columns), _column_titles(words), strict=True)
    shapes = tuple(Words(x, 12, title, "regular", SMALL, SOFT) for x, title in placed)
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
        (trays, "regular", columns.trays, columns.cells - columns.trays - 8),
        (cells, "regular", columns.cells, columns.seeds - columns.cells),
        (seeds, "regular", columns.seeds, columns.stand - columns.seeds - 8),
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
    """80 clumps + 8 spare = 88 cells, 2 trays of 60, 32 cells left. For South 1."""
    words = plan.garden.words
    sum_ = _trays_taken(plan, batch, sowing, _wanted_said(words, batch.amount))
    return words.say("tray plan.sum.for bed", sum=sum_, bed=batch.bed) if batch.bed else sum_


def _wanted_said(words: Language, sum_: Amount) -> str:
    """The sum up to the cells, each step as it can be added up by hand; spare in whole cells where nothing follows."""
    wanted = sum_.places + sum_.spare
    places = words.say(f"unit.{sum_.unit}", n=sum_.places, number=words.number(sum_.places))
    if sum_.rows:
        rows = words.count(sum_.rows, "row")
        places = words.say("tray plan.sum.rows", rows=rows, each=sum_.per_row, places=places)
    spare, number = words.number(sum_.cells - sum_.places), words.number(sum_.cells)
    if not sum_.tray_cells:
        return words.say("tray plan.sum.prick out", places=places, spare=spare, number=number)
    cells = words.say("unit.cells", n=sum_.cells, number=number)
    if sum_.cells == math.ceil(wanted):
        key = "tray plan.sum.spare" if sum_.cells > sum_.places else "tray plan.sum.no spare"
        return words.say(key, places=places, spare=spare, cells=cells)
    return words.say(
        "tray plan.sum.empty",
        places=places,
        spare=words.number(float(sum_.spare)),
        wanted=words.number(float(wanted)),
        percent=words.percent(float(sum_.empty)),
        cells=cells,
    )


def _trays_taken(plan: Plan, batch: Batch, sowing: Sowing, wanted: str) -> str:
    """The sum with which trays the cells take, and what is left of them."""
    words, sum_, shared = plan.garden.words, batch.amount, plan.shared.get(batch.name)
    if not sum_.tray_cells:
        return words.say("tray plan.sum.seed trays", sum=wanted)
    if shared is None:
        trays, left = words.trays_of(sum_.trays, sum_.tray_cells, sum_.tray), words.count(sum_.left, "cell")
        return words.say(
            "tray plan.sum.left" if sum_.left else "tray plan.sum.full", sum=wanted, trays=trays, left=left
        )
    part = next(p for p in shared.parts if p.batch == batch.name)
    full = (sum_.cells - part.cells) // sum_.tray_cells
    much = words.listed([*([words.count(full, "full tray")] if full else []), words.count(part.cells, "cell")])
    if not sowing.shares:
        return words.say("tray plan.sum.owner", sum=wanted, much=much)
    owner = plan.batches[shared.owner]
    key = "tray plan.sum.guest of last" if owner.amount.trays > 1 else "tray plan.sum.guest"
    return words.say(key, sum=wanted, much=much, crop=name_of(owner))


# a shared tray, cell by cell


def _shared(setting: Setting, tray: SharedTray, first: bool) -> Block:
    """The picture of a shared tray, and beside it who has which rows. Rows are numbered along the tray."""
    words, plan = setting.words, setting.plan
    kind = plan.kinds.get(tray.tray, TrayKind(tray.tray, tray.cells, 53, 31, 30))
    lies = grid(tray.cells, kind.length_cm, kind.width_cm)
    owner = plan.batches[tray.owner]
    key = "tray plan.shared tray.last of" if owner.amount.trays > 1 else "tray plan.shared tray.of"
    which = words.say(key, n=owner.amount.trays, crop=name_of(owner))
    title = (Run(words.say("tray plan.shared tray.title"), "bold"), Run(f"  {which}"))
    shapes, top = paragraph(title, setting.left, 0, setting.width, BODY, setting.measure)
    picture, tall = _picture(setting, tray, lies, kind, top + 6)
    text, end = _shares(setting, tray, lies, setting.left + TRAY_LONG + 8 * MM, top + 16)
    said = tray_said(words, tray.cells, [(name_of(plan.batches[p.batch]), p.cells) for p in tray.parts])
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
    words, measure, plan, cell = setting.words, setting.measure, setting.plan, 15.0
    shapes: list[Shape] = []
    used = 0
    for n, place in enumerate(filled(tray)):
        part = place.part
        used += part.cells
        name = capital(name_of(plan.batches[part.batch]))
        rows = words.rows_of_cells(place.first, part.cells, lies.across)
        seeds = words.say("job.sow.to a cell", n=part.seeds_per_cell)
        said = words.say("tray plan.share", rows=rows, cells=words.count(part.cells, "cell"), seeds=seeds)
        shapes += [Box(x, y + 2, cell, cell, stroke=0.0, line_pt=0.6, radius=2.5)]
        shapes += dots(x, y + 2, cell, part.seeds_per_cell, n)
        head, high = paragraph((Run(name, "bold"),), x + 22, y, setting.right - x - 22, BODY, measure)
        text, higher = paragraph((Run(said),), x + 22, y + high, setting.right - x - 22, SMALL, measure)
        shapes += [*head, *text]
        y += high + higher + 5
    if used < tray.cells:
        said = words.say("tray plan.left empty", n=tray.cells - used)
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
    for maybe, what in ((False, "move"), (True, "maybe move")):
        own = [job for job in moved if job.maybe == maybe]
        days = sorted({job.day for job in own})
        if own:
            blocks.append(_section(setting, _on_days(setting.words, what, days)))
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
    words, batch = plan.garden.words, plan.batches[job.batch]
    before = trays_said(plan, batch, job.day - timedelta(days=1))
    what = words.say("tray plan.moved.trays", trays=before, crop=job.what) if before else job.what
    match job.verb:
        case "Carry":
            return what, words.say("tray plan.moved.to the light", start=job.where, end=job.to)
        case "Harden" if job.to:
            return what, words.say("tray plan.moved.to harden", start=job.where, end=job.to)
        case "Harden":
            return what, words.say("tray plan.moved.harden here")
        case "Prick out" | "Pot on":
            what = words.say("tray plan.moved.seedlings", amount=job.amount, crop=job.what)
            key = f"tray plan.into.{job.verb}" if job.to else f"tray plan.moved.{job.verb}"
            where = words.say(key, trays=job.to)
        case _:
            where = words.say("tray plan.moved.plant out", bed=job.where)
    wash = "tray plan.wash.all" if batch.name not in plan.shared else "tray plan.wash.empty"
    return what, words.say(wash, move=where)


# what comes after, and the room


def _quiet(mondays: Sequence[date], every: Sequence[Week], week: Week) -> list[date]:
    """The weeks without work that follow a week, before the next with some."""
    following = next((w.monday for w in every if w.monday > week.monday), None)
    return [m for m in mondays if m > week.monday and (following is None or m < following)]


def _quiet_line(setting: Setting, quiet: Sequence[date]) -> Block:
    runs = (Run(setting.words.say("tray plan.quiet", weeks=setting.words.weeks_listed(quiet))),)
    shapes, tall = paragraph(runs, setting.left, 0, setting.width, BODY, setting.measure)
    return Block(tall, tuple(shapes), gap=5 * MM, tags=(Tag("P", 0, len(shapes)),))


def _room(setting: Setting, weeks: Sequence[Week], spare: float = 0.0) -> Block:
    plan = setting.plan
    framed = [w.monday for w in weeks]
    picture = RoomPicture(
        words=setting.words,
        places=plan.garden.places,
        weeks=plan.trays.weeks,
        mondays=window_around(plan.trays.mondays, framed),
        framed=tuple(framed),
        over=tuple(_over_said(plan, framed)),
    )
    return room_block(picture, setting.left, setting.right, setting.measure, spare)


def _over_said(plan: Plan, framed: Sequence[date]) -> Iterator[tuple[str, str]]:
    """For each place that will be over: when and by how much; and what leaves it first."""
    words = plan.garden.words
    full = [w for w in plan.trays.weeks if w.filled > FULL and w.monday >= framed[0]]
    mondays = window_around(plan.trays.mondays, framed) if full else ()
    for place in plan.garden.places:
        over = [w for w in full if w.place == place.name and w.monday in mondays]
        if over:
            worst = max(over, key=lambda w: w.filled)
            excess = worst.trays - (worst.room or 0)
            said = {
                "weeks": words.weeks_listed([w.monday for w in over]),
                "place": words.the(place.name),
                "percent": words.percent(worst.filled - 1),
                "n": max(0, excess),
            }
            up_to = len({w.filled for w in over}) > 1
            if excess > 0:
                line = words.say("tray plan.over.up to trays" if up_to else "tray plan.over.trays", **said)
            else:
                line = words.say("tray plan.over.up to share" if up_to else "tray plan.over.share", **said)
            yield capital(line), _leaving_said(plan, place.name, worst.monday)


def _leaving_said(plan: Plan, place: str, monday: date) -> str:
    """What stands there in a week and leaves it first; what goes on there, hardening or moved on, does not leave."""
    here = [s for s in plan.trays.stays if s.where == place and not s.maybe and s.end > monday]
    standing = {s.batch for s in here if s.start < monday + timedelta(days=7)}
    go_on = {(s.batch, s.start) for s in here}
    leaving = [s for s in here if s.batch in standing and (s.batch, s.end) not in go_on]
    if not leaving:
        return ""
    first = min(s.end for s in leaving)
    names = [name_of(plan.batches[s.batch]) for s in leaving if s.end == first]
    words, trays = plan.garden.words, sum(s.trays for s in leaving if s.end == first)
    crops = words.listed(list(dict.fromkeys(names)))
    day = words.day_named(first)
    return words.say("tray plan.over.first to leave", crops=crops, trays=words.count(trays, "tray"), day=day)
