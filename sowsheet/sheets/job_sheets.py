"""Jobs on paper: a week a page for a clipboard, grouped by day and place so that nobody walks twice."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Sequence
from datetime import date, timedelta
from itertools import groupby

import msgspec

from sowsheet.garden.records import Garden
from sowsheet.jobs.make import Look, looks, said
from sowsheet.jobs.records import Job
from sowsheet.jobs.rounds import Round, daily, weekly
from sowsheet.schedule.records import Schedule
from sowsheet.sheets.flow import (
    HARD,
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
from sowsheet.sheets.furniture import (
    MM,
    SOFT,
    TICK_BOX,
    WRITING_PITCH,
    caution_mark,
    field,
    hand_paper,
    round_line,
    tick_box,
    write_line,
)
from sowsheet.sheets.shapes import Box, Line, Measure, Page, Shape, Sheet, Tag, Words
from sowsheet.sheets.spoken import caution_said
from sowsheet.site.season import monday_of, season_mondays
from sowsheet.trays.records import TrayPlan
from sowsheet.words.language import Language, capital

BODY = 14.0
ACTION = 15.0
LABEL = 12.0
LARGE = 18.0 / BODY  # times all of it, for who sees less well
DAY_PITCH = TICK_BOX + 1.6 * MM  # from day to day where a box a day is ticked
MARGIN = 10 * MM
CLIP = 20 * MM  # clear at the top for a clipboard's clip
INDENT = TICK_BOX + 5 * MM
FOOT = 14.0  # the page number
WEEK_HEAD = 54.0
WEEK_GAP = 9 * MM
MOST_WORDS = 12  # a longer action line is not read to its end


class Setting(msgspec.Struct, frozen=True):
    """What every block is set with: the column between the margins, and the garden's names."""

    left: float
    right: float
    measure: Measure
    garden: Garden
    scale: float = 1.0

    @property
    def words(self) -> Language:
        """The language that the sheets are in."""
        return self.garden.words

    @property
    def body(self) -> float:
        """What is read."""
        return BODY * self.scale

    @property
    def action(self) -> float:
        """The line that says what to do."""
        return ACTION * self.scale

    @property
    def label(self) -> float:
        """Page numbers, and the words before lines to write on."""
        return LABEL * self.scale

    @property
    def width(self) -> float:
        return self.right - self.left

    @property
    def beds(self) -> frozenset[str]:
        return frozenset(bed.name for bed in self.garden.beds)


class Week(msgspec.Struct, frozen=True):
    """A week's jobs as blocks."""

    monday: date
    blocks: tuple[Block, ...]


def job_sheets(
    schedule: Schedule,
    trays: TrayPlan,
    jobs: Sequence[Job],
    garden: Garden,
    paper: str,
    measure: Measure,
    printed_on: date | None,
    large: bool = False,
) -> Sheet:
    """Every job once, in weeks: a week a page, two quiet ones to a page, busy ones on several.

    A week without a job has its rounds, if trays, houses or new plants are looked after or a bed is picked.

    A sheet for the hand stays A4 or Letter, whichever family `paper` is of. `jobs` come sorted from `jobs.make`.
    `large` sets the text in 18 pt instead of 14.
    """
    width, height = hand_paper(paper)
    words = garden.words
    setting = Setting(MARGIN, width - MARGIN, measure, garden, LARGE if large else 1.0)
    watch = looks(schedule, garden)
    of_week = {monday: list(own) for monday, own in groupby(jobs, key=lambda job: monday_of(job.day))}
    weeks: list[Week] = []
    for monday in sorted({*of_week, *season_mondays(schedule.season)}):
        own, end = of_week.get(monday, []), monday + timedelta(days=7)
        of_days, of_the_week = daily(schedule, trays, garden, monday, end), weekly(schedule, garden, monday, end)
        if own or of_days or any(one.verb == "Pick" for one in of_the_week):
            seen = [x for x in watch if monday_of(x.day) == monday]
            blocks = _week_blocks(setting, own, seen) + _round_blocks(setting, of_days, of_the_week)
            weeks.append(Week(monday, tuple(blocks)))
    pages: list[list[Block]] = []
    bookmarks = []
    for week in weeks:
        pages, first = _placed(setting, pages, week, height - CLIP - MARGIN - FOOT, printed_on)
        day = words.day_long(week.monday)
        bookmarks.append((first, words.say("job sheet.week from", week=_number(week.monday), day=day)))
    if not pages:
        nothing = (
            Words(setting.left, 24, words.say("job sheet.title"), "bold", 28),
            Words(setting.left, 52, words.say("job sheet.nothing"), "regular", setting.body),
        )
        pages = [[Block(WEEK_HEAD, nothing, tags=(Tag("H1", 0, 1), Tag("P", 1, 2)))]]
    drawn = tuple(
        _page(setting, blocks, width, height, words.say("job sheet.page", page=n, pages=len(pages)))
        for n, blocks in enumerate(pages, 1)
    )
    title = words.say("job sheet.file", garden=garden.name, year=garden.season)
    return Sheet(title, drawn, tuple(bookmarks), garden.words.file_tag)


def _placed(
    setting: Setting, pages: Sequence[Sequence[Block]], week: Week, room: float, printed_on: date | None
) -> tuple[list[list[Block]], int]:
    """The pages with a week added, and the page it begins on: below another if all of it fits, else a new one."""
    done = [list(page) for page in pages]
    *early, last = week.blocks
    blocks = [*early, msgspec.structs.replace(last, with_next=True), _notes(setting)]
    below = [_week_head(setting, week.monday, "", None, below=True), *blocks]
    if done and height_of([*done[-1], *below]) <= room:
        done[-1] += below
        return done, len(done) - 1
    parts = paged(blocks, room - WEEK_HEAD)
    of_week = {"pages": len(parts), "week": _number(week.monday)}
    for number, part in enumerate(parts, 1):
        which = setting.words.say("job sheet.page of week", page=number, **of_week) if len(parts) > 1 else ""
        head = _week_head(setting, week.monday, which, printed_on)
        done.append([head if number == 1 else unread(head), *part])
    return done, len(done) - len(parts)


def _page(setting: Setting, blocks: Sequence[Block], width: float, height: float, number: str) -> Page:
    """A page, with room for notes to its foot, and its number there."""
    notes, foot = _notes(setting), height - MARGIN - FOOT
    if blocks[-1] != notes and CLIP + height_of([*blocks, notes]) <= foot:
        blocks = [*blocks, notes]
    shapes, end = set_down(blocks, CLIP)
    lines = _more_lines(setting, end, foot) if blocks[-1] == notes else ()
    said = Words(setting.right, height - MARGIN - 3, number, "regular", setting.label, SOFT, "right")
    return Page(width, height, (*shapes, *lines, said), tags=tuple(tags_of(blocks)))


def _number(monday: date) -> int:
    return monday.isocalendar().week


def _week_head(setting: Setting, monday: date, pages: str, printed_on: date | None, *, below: bool = False) -> Block:
    """The week's name and dates, the garden's name, which page of the week. `below`: another week stands above it."""
    left, right, words = setting.left, setting.right, setting.words
    week = words.say("job sheet.week", week=_number(monday))
    year = f", {setting.garden.season}"
    name = beside(week, 28, setting.garden.name, year, BODY, right - left, setting.measure)
    small = [name, *([pages] if pages else [])]
    shapes: list[Shape] = [
        Words(left, 24, week, "bold", 28),
        Words(left, 44, capital(words.week_span(monday)), "regular", 15),
    ]
    if below:
        shapes.append(Line(left, -WEEK_GAP / 2, right, -WEEK_GAP / 2, 0.0, 2.0))
        small = small[1:]
    for number, text in enumerate(small):
        size = BODY if number == 0 else LABEL
        shapes.append(Words(right, 14 + 15 * number, text, "regular", size, 0.0, "right"))  # beside the week's name
    if printed_on and not below:
        printed = words.say("job sheet.printed", day=words.day_long(printed_on))
        shapes.append(Words(right, 0, printed, "regular", 10, SOFT, "right"))
    tags = (Tag("H1", 0, 1), Tag("P", 1, 2))
    return Block(WEEK_HEAD, tuple(shapes), with_next=True, gap=WEEK_GAP if below else 0.0, tags=tags)


def _week_blocks(setting: Setting, jobs: Sequence[Job], watch: Sequence[Look]) -> list[Block]:
    """By work day where the garden has them, else the whole week in one; then by place."""
    if not setting.garden.work_days:
        return _place_blocks(setting, jobs, (), dated=True)
    blocks: list[Block] = []
    waiting = list(watch)
    for day, own in groupby(jobs, key=lambda job: job.day):
        while waiting and waiting[0].day < day:
            blocks.append(_look(setting, waiting.pop(0)))
        todays = list(own)
        blocks += _place_blocks(setting, todays, (_day_head(setting, day, len(todays)),), dated=False)
    return [*blocks, *(_look(setting, look) for look in waiting)]


def _place_blocks(setting: Setting, jobs: Sequence[Job], above: tuple[Block, ...], *, dated: bool) -> list[Block]:
    """Jobs by place; the beds together, in the order of the garden file. `above` heads the first."""
    order = {name: n for n, name in enumerate([p.name for p in setting.garden.places])}
    beds = {bed.name: len(order) + n for n, bed in enumerate(setting.garden.beds)}

    def stop(job: Job) -> int:
        return order.get(job.where, len(order))

    blocks: list[Block] = []
    walk = sorted(jobs, key=lambda job: (stop(job), beds.get(job.where, 0)))
    for number, (_, own) in enumerate(groupby(walk, key=stop)):
        gap = 0.0 if above and number == 0 else 5 * MM
        here = list(own)
        names = list(dict.fromkeys(job.where for job in here))
        title = capital(names[0]) if names[0] in order else _beds_said(setting.words, names)
        often = [words for words, times in Counter(c for job in here for c in job.cautions).items() if times > 1]
        again = above
        top = _place_head(setting, title, gap, under_day=bool(above))
        head = [
            msgspec.structs.replace(top, head=again) if number else top,
            *(_caution(setting, words) for words in often),
        ]
        begun = above[:1] if number == 0 else ()
        blocks += [*begun, *head]
        again = (*again, _place_head(setting, setting.words.say("job sheet.continued", title=title), 0.0))
        for nth, job in enumerate(here):
            block = _job(setting, job, often, dated=dated)
            changed = {"gap": 0.0} if nth == 0 else {"head": again}
            blocks.append(msgspec.structs.replace(block, **changed))
    return blocks


def _round_blocks(setting: Setting, of_days: Sequence[Round], of_the_week: Sequence[Round]) -> list[Block]:
    """What is done again and again: every day with a box a day, and once in the week."""
    words = setting.words
    blocks: list[Block] = []
    for title, own, days in (
        (words.say("job sheet.every day"), of_days, words.weekdays_narrow),
        (words.say("job sheet.once this week"), of_the_week, ()),
    ):
        if not own:
            continue
        blocks.append(_place_head(setting, title, 5 * MM, days))
        again = (_place_head(setting, words.say("job sheet.continued", title=title), 0.0, days),)
        lines = [_daily_line(setting, one) for one in own] if days else _weekly_lines(setting, own)
        first, *rest = lines
        blocks.append(msgspec.structs.replace(first, gap=0.0))
        blocks += [msgspec.structs.replace(line, gap=MM, head=again) for line in rest]
    return blocks


def _daily_line(setting: Setting, one: Round) -> Block:
    """What to do, and a box for each day of the week at its end."""
    first = setting.right - 7 * DAY_PITCH
    words, tall = _round_words(setting, one, setting.left, first - 6 - setting.left)
    boxes = [tick_box(first + n * DAY_PITCH + (DAY_PITCH - TICK_BOX), 0.0) for n in range(7)]
    return Block(max(tall, TICK_BOX), (*words, *boxes), tags=(Tag("LI"), Tag("LBody", 0, len(words))))


def _weekly_lines(setting: Setting, rounds: Sequence[Round]) -> list[Block]:
    """A box and what to do, in two columns."""
    middle = setting.left + setting.width / 2
    lines: list[Block] = []
    for pair in (rounds[n : n + 2] for n in range(0, len(rounds), 2)):
        shapes: list[Shape] = []
        tags: list[Tag] = []
        high = TICK_BOX
        for one, left in zip(pair, (setting.left, middle + 2 * MM), strict=False):
            words, tall = _round_words(setting, one, left + INDENT, setting.width / 2 - 2 * MM - INDENT)
            shapes += [tick_box(left, 0.0), *words]
            tags += [Tag("LI"), Tag("LBody", len(shapes) - len(words), len(shapes))]
            high = max(high, tall)
        lines.append(Block(high, tuple(shapes), tags=tuple(tags)))
    return lines


def _round_words(setting: Setting, one: Round, left: float, room: float) -> tuple[list[Shape], float]:
    line = re.sub(r" (?=\d+\b)", HARD, round_line(setting.words, one))
    return paragraph(runs_of(line), left, 0.0, room, setting.body, setting.measure)


def _beds_said(words: Language, names: Sequence[str]) -> str:
    if not any(names):
        return words.say("job sheet.elsewhere")
    listed = ", ".join(names)
    said = words.say("job sheet.beds", n=len(names), beds=listed)
    return listed if names[0][:3].casefold() == said[:3].casefold() else said  # `Bed: Bed 1` says it twice


def _day_head(setting: Setting, day: date, jobs: int) -> Block:
    shapes = (
        Line(setting.left, 0, setting.right, 0, 0.0, 1.25),
        Words(setting.left, 21, capital(setting.words.day_named(day)), "bold", 18),
        Words(setting.right, 21, setting.words.count(jobs, "job"), "regular", setting.label, SOFT, "right"),
    )
    return Block(31, shapes, with_next=True, gap=4 * MM, parting=0.0, tags=(Tag("H2", 1, 2), Tag("P", 2, 3)))


def _place_head(
    setting: Setting, title: str, gap: float, days: Sequence[str] = (), *, under_day: bool = False
) -> Block:
    """White on a black bar. `days`: their letters over the columns of boxes below. `under_day`: below a day's head."""
    words, tall = paragraph(
        (Run(title, "bold"),), setting.left + 8, 3.5, setting.width - 16, setting.body, setting.measure, 1.0
    )
    tags = (Tag("H3" if under_day else "H2", 1, 1 + len(words)),)
    for n, day in enumerate(days):
        x = setting.right - (7 - n) * DAY_PITCH + DAY_PITCH - TICK_BOX / 2
        words.append(Words(x, 3.5 + setting.body, day, "bold", setting.body, 1.0, "centre"))
    bar = Box(setting.left, 0, setting.width, tall + 6, fill=0.0)
    return Block(tall + 6 + 7, (bar, *words), with_next=True, gap=gap, parting=0.4, tags=tags)


def _caution(setting: Setting, words: str) -> Block:
    """A caution that holds for all that follows in this place."""
    shapes, tall = _warned(words, setting.left + INDENT, 0, setting)
    tags = (Tag("P", 0, len(shapes), caution_said(setting.garden.words, _sentence(words))),)
    return Block(tall + 6, tuple(shapes), with_next=True, tags=tags)


def _warned(words: str, x: float, y: float, setting: Setting) -> tuple[list[Shape], float]:
    mark, right, measure = 16.0, setting.right, setting.measure
    room = right - x - mark - 7
    text, tall = paragraph((Run(_sentence(words), "bold"),), x + mark + 7, y, room, setting.body, measure)
    return [*caution_mark(x, y + 1.2, mark), *text], tall


def _job(setting: Setting, job: Job, said_above: Sequence[str], *, dated: bool) -> Block:
    """A box to tick, the action, how, the sign, the caution, and a line for what was done."""
    words = setting.words
    left, right, measure = setting.left + INDENT, setting.right, setting.measure
    shapes: list[Shape] = [tick_box(setting.left, 0, maybe=job.maybe)]
    end = right
    if dated:
        on = words.day_short(job.day)
        shapes.append(Words(right, setting.action, on, "regular", setting.body, 0.0, "right"))
        end -= measure(on, "regular", setting.body) + 10
    runs, sort = _action(words, job, job.where in setting.beds)
    text, y = paragraph(runs, left, 0, end - left, setting.action, measure)
    shapes += text
    sign = words.say("job sheet.when", sign=job.sign) if job.sign else ""
    how = " ".join(part for part in (sort, sign, job.how) if part)
    if how:
        text, tall = paragraph((Run(how),), left, y, right - left, setting.body, measure)
        shapes += text
        y += tall
    tags = [Tag("LI"), Tag("LBody", 1, len(shapes))]
    for caution in job.cautions:
        if caution not in said_above:
            text, tall = _warned(caution, left, y + 1, setting)
            shapes += text
            tags.append(
                Tag(
                    "Span", len(shapes) - len(text), len(shapes), caution_said(setting.garden.words, _sentence(caution))
                )
            )
            y += tall + 1
    y = max(y, TICK_BOX)
    shapes += _done(setting, left, y + WRITING_PITCH - 2)
    return Block(y + WRITING_PITCH, tuple(shapes), gap=3.2 * MM, tags=tuple(tags))


def _action(words: Language, job: Job, in_bed: bool) -> tuple[list[Run], str]:
    """The line that says what to do, and what had to leave it, to be said below: the grower's words in brackets."""
    key = "job.action" if not in_bed else "job.action from bed" if job.verb == "Clear" else "job.action in bed"
    verb = strong(words.say(f"verb.{job.verb}"))
    line = words.say(key, verb=verb, said=said(words, job), bed=strong(job.where))
    if job.maybe:
        line = words.say("job.maybe", action=line)
    if job.what.endswith(")") and len(line.split()) > MOST_WORDS:
        what, note = job.what[:-1].split(" (", 1)
        return _action(words, msgspec.structs.replace(job, what=what), in_bed)[0], f"{capital(note)}."
    return runs_of(line), ""


def _done(setting: Setting, x: float, y: float) -> list[Shape]:
    """done, how many, who: lines for a pencil."""
    measure, words, shapes = setting.measure, setting.words, list[Shape]()
    wide = setting.right - x
    for label, start, end in (
        (words.say("job sheet.done"), 0.0, 0.27),
        (words.say("job sheet.how many"), 0.3, 0.56),
        (words.say("job sheet.who"), 0.59, 1.0),
    ):
        long = measure(label, "regular", setting.label)
        shapes += field(label, x + start * wide, x + end * wide, y, long, setting.label)
    return shapes


def _look(setting: Setting, look: Look) -> Block:
    """Somebody should look in, though it is no work day."""
    left = setting.left + INDENT
    words, key = setting.words, "job sheet.look on" if look.where else "job sheet.look"
    verb, day = strong(words.say("rounds.verb.Look")), words.day_named(look.day)
    line = words.say(key, verb=verb, day=day, crop=look.what, place=words.the(look.where))
    text, tall = paragraph(runs_of(line), left, 7, setting.right - left, setting.body, setting.measure)
    rule = Line(setting.left, 0, setting.right, 0, 0.0, 1.25)
    mark = Box(setting.left + TICK_BOX / 2 - 4, 7 + setting.body / 2 - 1.5, 8, 8, fill=0.0, radius=4)
    return Block(7 + tall, (rule, mark, *text), gap=4 * MM, tags=(Tag("P", 2, 2 + len(text)),))


def _notes(setting: Setting) -> Block:
    """Two lines for what was seen."""
    shapes = (
        Words(setting.left, setting.body, setting.words.say("job sheet.saw"), "bold", setting.body),
        write_line(setting.left, setting.right, setting.body + WRITING_PITCH),
        write_line(setting.left, setting.right, setting.body + 2 * WRITING_PITCH),
    )
    return Block(setting.body + 2 * WRITING_PITCH + 1, shapes, gap=5 * MM, tags=(Tag("P", 0, 1),))


def _more_lines(setting: Setting, start: float, end: float) -> list[Shape]:
    """Lines to write on to the foot of the page."""
    lines = int((end - 2 * MM - start) / WRITING_PITCH)  # the last keeps clear of the page's number
    return [write_line(setting.left, setting.right, start + (n + 1) * WRITING_PITCH - 1) for n in range(lines)]


def _sentence(words: str) -> str:
    words = capital(words)
    return words if words.endswith((".", "!", "?")) else f"{words}."
