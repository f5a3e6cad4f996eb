"""The weekend card, for whoever waters: every place, what stands there, and what it needs on two days."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta

from sowsheet.garden.records import Garden
from sowsheet.jobs.rounds import Round, daily, standing
from sowsheet.schedule.records import Schedule
from sowsheet.sheets.flow import Block, Run, cut, height_of, paged, paragraph, runs_of, set_down, tags_of
from sowsheet.sheets.furniture import MM, SOFT, TICK_BOX, hand_paper, round_line, tick_box, write_line
from sowsheet.sheets.shapes import Leaf, Line, Measure, Page, Shape, Sheet, Tag, Words
from sowsheet.sheets.view import WHOLE, View
from sowsheet.site.season import season_mondays
from sowsheet.trays.records import TrayPlan
from sowsheet.words.language import Language, capital

MARGIN = 10 * MM
BODY, SMALL, TITLE = 14.0, 12.0, 20.0
PITCH = TICK_BOX + 2 * MM


def weekend_cards(
    schedule: Schedule,
    trays: TrayPlan,
    garden: Garden,
    paper: str,
    measure: Measure,
    printed_on: date | None = None,
    view: View = WHOLE,
) -> Sheet:
    """A card for each weekend on which something wants looking after: two to a page where they are short.

    Only those of the weeks that `view` asks for. It stays A4 or Letter, whichever family `paper` is of.
    """
    words = garden.words
    width, height = hand_paper(paper)
    half = height / 2 - 2 * MARGIN
    pages: list[Leaf] = []
    marks: list[tuple[int, str]] = []
    below = False  # whether the last page has its lower half free
    mondays = [m for _, span in view.within(season_mondays(schedule.season)) for m in span]
    for monday in mondays:
        saturday = monday + timedelta(days=5)
        blocks = list(_card(schedule, trays, garden, saturday, width, measure, printed_on))
        if len(blocks) < 2:
            continue
        short = height_of(blocks) <= half
        if short and below:
            pages[-1].draw(_cut_line(width, height / 2))
            pages[-1].lay(set_down(blocks, height / 2 + MARGIN)[0], tags_of(blocks))
            below = False
        else:
            for own in paged(blocks, height - 2 * MARGIN):
                pages.append(Leaf())
                pages[-1].lay(set_down(own, MARGIN)[0], tags_of(own))
            below = short
        marks.append((len(pages) - 1, words.say("weekend card.of", day=words.day_month(saturday))))
    if not pages:
        pages = [Leaf()]
        none = words.say("weekend card.none")
        pages[0].tag("P", [Words(MARGIN, MARGIN + TITLE, none, "regular", BODY)])
    made = tuple(Page(width, height, tuple(p.shapes), str(n), tuple(p.tags)) for n, p in enumerate(pages, 1))
    title = words.say("weekend card.file", garden=garden.name, year=garden.season)
    return Sheet(title, made, tuple(marks), garden.words.file_tag)


def _card(
    schedule: Schedule,
    trays: TrayPlan,
    garden: Garden,
    saturday: date,
    width: float,
    measure: Measure,
    printed_on: date | None,
) -> Iterator[Block]:
    """The card's head, then a block for each thing that is needed; only the head where nothing is."""
    monday = saturday + timedelta(days=2)
    yield _head(garden, saturday, width, measure, printed_on)
    rounds = daily(schedule, trays, garden, saturday, monday)
    for one in rounds:
        stands = _stands(garden.words, schedule, trays, one, saturday, monday)
        yield _need(garden.words, one, stands, width, measure)
    if rounds:
        yield _call(garden.words, width, measure)


def _stands(words: Language, schedule: Schedule, trays: TrayPlan, one: Round, start: date, end: date) -> str:
    """`There: lettuce, 2 trays; leeks, 1 tray.`"""
    here = standing(words, schedule, trays, one.where, start, end) if one.where else ()
    told = [words.say("weekend card.stands", crop=s.what, trays=s.much) for s in here]
    return words.say("weekend card.there", crops="; ".join(told)) if told else ""


def _head(garden: Garden, saturday: date, width: float, measure: Measure, printed_on: date | None) -> Block:
    words, right = garden.words, width - MARGIN
    sunday = saturday + timedelta(days=1)
    key = "weekend card.in month" if saturday.month == sunday.month else "weekend card.over months"
    first, last = words.day_month(saturday), words.day_month_year(sunday)
    title = words.say(key, day=saturday.day, first=first, last=last)
    shapes: list[Shape] = [Words(MARGIN, 17, title, "bold", TITLE)]
    if printed_on:
        printed = words.say("weekend card.printed", day=words.day_long(printed_on))
        shapes.append(Words(right, 14, printed, "regular", 10, SOFT, "right"))
    name = cut(garden.name, right - 2 * PITCH - MARGIN - 8, "regular", SMALL, measure)
    shapes.append(Words(MARGIN, 34, name, "regular", SMALL, SOFT))
    tags = (Tag("H1", 0, 1), Tag("P", len(shapes) - 1, len(shapes)))
    days = words.weekdays_short[5:]
    size = min(10.0, 10.0 * (PITCH - 4) / max(measure(day, "bold", 10.0) for day in days))  # `niedz.` is long
    for n, day in enumerate(days):
        end, wide = right - (1 - n) * PITCH, measure(day, "bold", size)  # of the box below
        shapes.append(Words(end - wide - max(0.0, (TICK_BOX - wide) / 2), 34, day, "bold", size))
    shapes.append(Line(MARGIN, 40, right, 40, 0.0, 1.25))
    return Block(46, tuple(shapes), with_next=True, tags=tags)


def _need(words: Language, one: Round, stands: str, width: float, measure: Measure) -> Block:
    """What to do, a box for each of the two days, and below what stands there."""
    first = width - MARGIN - 2 * PITCH
    room = first - MARGIN - 8
    shapes, tall = paragraph(runs_of(round_line(words, one)), MARGIN, 0.0, room, BODY, measure)
    if stands:
        below, more = paragraph((Run(capital(stands)),), MARGIN, tall, room, SMALL, measure, SOFT)
        shapes += below
        tall += more
    boxes = [tick_box(first + n * PITCH + PITCH - TICK_BOX, 0.0) for n in range(2)]
    tags = (Tag("LI"), Tag("LBody", 0, len(shapes)))
    return Block(max(tall, TICK_BOX), (*shapes, *boxes), gap=3 * MM, tags=tags)


def _call(words: Language, width: float, measure: Measure) -> Block:
    """Whom to call when something looks wrong."""
    call = words.say("weekend card.call")
    end = MARGIN + measure(call, "regular", BODY) + 5
    shapes = (Words(MARGIN, BODY, call, "regular", BODY), write_line(end, width - MARGIN, BODY + 2))
    return Block(BODY + 5, shapes, gap=6 * MM, tags=(Tag("P", 0, 1),))


def _cut_line(width: float, y: float) -> list[Shape]:
    return [Line(MARGIN, y, width - MARGIN, y, 0.0, 0.5, dashed=True)]
