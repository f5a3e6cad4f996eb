"""The shopping list on paper: what to get, how much, a box to tick, where the allowance lies."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date

import msgspec

from sowsheet.buying.list import BARROW_LITRES
from sowsheet.buying.records import SeedNeed, SetNeed, Shopping, TrayNeed
from sowsheet.garden.records import Garden
from sowsheet.sheets.flow import Block, Run, cut, paged, paragraph, set_down, tags_of
from sowsheet.sheets.furniture import MM, SOFT, hand_paper
from sowsheet.sheets.shapes import Box, Leaf, Line, Measure, Page, Shape, Sheet, Tag, Words
from sowsheet.words.english import capital, count, day_brief, day_long, length, number, weight

MARGIN = 10 * MM
CLIP = 14 * MM
BODY, SMALL, TITLE = 13.0, 11.0, 26.0
TICK = 5 * MM
FOOT = 14.0
HEAD = 50.0


class Thing(msgspec.Struct, frozen=True):
    """A line of the list: what, how much in two columns, and a note below. What there is enough of has no box."""

    what: str
    much: str
    weighs: str = ""
    note: str = ""
    wanted: bool = True


def shopping_sheet(
    shopping: Shopping, garden: Garden, years: str, paper: str, measure: Measure, printed_on: date | None
) -> Sheet:
    """The list on as few pages as hold it. It stays A4 or Letter, whichever family `paper` is of."""
    width, height = hand_paper(paper)
    groups = [(title, told, things) for title, told, things in _groups(shopping, garden) if things]
    blocks = [block for title, told, things in groups for block in _group(title, told, things, width, measure)]
    if not blocks:
        nothing = (Words(MARGIN, 14, "Nothing to get.", "regular", BODY),)
        blocks = [Block(24, nothing, tags=(Tag("P", 0, 1),))]
    pages = paged(blocks, height - CLIP - HEAD - MARGIN - FOOT)
    made = []
    for n, own in enumerate(pages, 1):
        shapes, _ = set_down(own, CLIP + HEAD)
        said = Words(width - MARGIN, height - MARGIN - 3, f"page {n} of {len(pages)}", "regular", SMALL, SOFT, "right")
        leaf = Leaf()
        leaf.lay(_head(garden, years, width, measure, printed_on), () if n > 1 else (Tag("H1", 0, 1), Tag("P", 1, 2)))
        leaf.lay([*shapes, said], tags_of(own))
        made.append(Page(width, height, tuple(leaf.shapes), str(n), tuple(leaf.tags)))
    return Sheet(f"Shopping list, {garden.name}, {garden.season}", tuple(made), language=garden.words.file_tag)


def _head(garden: Garden, years: str, width: float, measure: Measure, printed_on: date | None) -> Iterator[Shape]:
    yield Words(MARGIN, CLIP + 22, "To get", "bold", TITLE)
    room = width - 2 * MARGIN - measure("To get  ", "bold", TITLE)
    name = cut(garden.name, room, "regular", BODY, measure, f", {years}")
    yield Words(width - MARGIN, CLIP + 22, name, "regular", BODY, 0.0, "right")
    if printed_on:
        yield Words(width - MARGIN, CLIP + 37, f"printed {day_long(printed_on)}", "regular", 10, SOFT, "right")


def _groups(shopping: Shopping, garden: Garden) -> Iterator[tuple[str, str, list[Thing]]]:
    """Each group's title, a remark, and its lines."""
    imperial = garden.imperial
    spare = "Spare plants and cells that come up empty are reckoned in; keep what is left cool and dry."
    yield "Seed", spare, [_seed(s, imperial) for s in shopping.seed]
    yield "Sets, cloves, tubers", "", [_set(s, imperial) for s in shopping.sets]
    yield "Trays and pots", "", [_tray(t) for t in shopping.trays]
    care = "Damp dry compost before you handle it: its dust harms lungs. Follow its label."
    yield "Compost", care, list(_compost(shopping))
    ends = "a hand's width more at each end"
    covers = [
        Thing(capital(c.kind), length(c.metres * 100, imperial), "", f"at most, on {day_brief(c.day)}; {ends}")
        for c in shopping.covers
    ]
    yield "Fleece, mesh, nets", "", covers


def _seed(seed: SeedNeed, imperial: bool) -> Thing:
    notes = [count(seed.sowings, "sowing")] if seed.sowings else []
    if seed.allowance:
        notes.append(f"{number(seed.allowance)} of them spare and for empty cells")
    if seed.maybe_seeds:
        notes.append(f"{number(seed.maybe_seeds)} more ({weight(seed.maybe_grams, imperial)}) for what is not settled")
    much, weighs = (f"{number(seed.seeds)} seeds", weight(seed.grams, imperial)) if seed.seeds else ("", "")
    return Thing(capital(seed.name), much, weighs, "; ".join(notes))


def _set(need: SetNeed, imperial: bool) -> Thing:
    maybe = f"{number(need.maybe_number)} more for what is not settled" if need.maybe_number else ""
    much = f"{number(need.number)} {need.unit}" if need.number else ""
    return Thing(capital(need.name), much, weight(need.kg * 1000, imperial) if need.kg else "", maybe)


def _tray(need: TrayNeed) -> Thing:
    if need.short and need.start and need.end:
        much = f"{need.short} short"
        span = f"{day_brief(need.start)} to {day_brief(need.end)}"
        note = f"{need.most} in use on {day_brief(need.day)}, {need.owned} owned; short {span}"
    elif need.owned is None:
        much, note = f"{need.most} needed", f"in use at once on {day_brief(need.day)}; how many are owned is not said"
    else:
        note = f"{need.most} in use at most, on {day_brief(need.day)}; {need.owned} owned"
        return Thing(capital(need.tray), "enough", "", note, wanted=False)
    return Thing(capital(need.tray), much, "", note)


def _compost(shopping: Shopping) -> Iterator[Thing]:
    litres = sum(f.litres for f in shopping.tray_compost)
    if litres:
        filled = "; ".join(f"{f.fillings} x {f.tray}, {f.litres:.0f} l" for f in shopping.tray_compost)
        yield Thing("For trays and pots", f"{litres:,.0f} l", "", filled)
    litres = sum(f.litres for f in shopping.bed_compost)
    if litres:
        depths = sorted({f.depth_mm for f in shopping.bed_compost if f.litres})
        told = []
        for depth in depths:
            own = [f for f in shopping.bed_compost if f.depth_mm == depth]
            names = "all beds" if len(depths) == 1 else ", ".join(f.bed for f in own)
            told.append(f"{depth:g} mm on {names}")
        barrows = f"{litres / BARROW_LITRES:.0f} barrows"
        note = f"{'; '.join(told)}; a barrow taken as {BARROW_LITRES:.0f} l"
        yield Thing("For the beds", f"{litres:,.0f} l", barrows, note)


def _group(title: str, told: str, things: Sequence[Thing], width: float, measure: Measure) -> Iterator[Block]:
    head, y = _group_head(title, told, width, measure)
    tags = (Tag("H2", 0, 1), *([Tag("P", 2, len(head))] if told else []))
    yield Block(y, tuple(head), with_next=True, gap=6 * MM, parting=0.1, tags=tags)
    again, tall = _group_head(f"{title}, continued", "", width, measure)
    for n, thing in enumerate(things):
        block = _thing(thing, width, measure)
        yield block if n == 0 else msgspec.structs.replace(block, head=(Block(tall, tuple(again), with_next=True),))


def _group_head(title: str, told: str, width: float, measure: Measure) -> tuple[list[Shape], float]:
    shapes: list[Shape] = [Words(MARGIN, 15, title, "bold", 16), Line(MARGIN, 21, width - MARGIN, 21, 0.0, 1.2)]
    y = 25.0
    if told:
        text, tall = paragraph((Run(told),), MARGIN, y - 2, width - 2 * MARGIN, SMALL, measure, SOFT)
        shapes += text
        y += tall
    return shapes, y + 3


def _thing(thing: Thing, width: float, measure: Measure) -> Block:
    """A box to tick, what, how much and how heavy; the note below it."""
    left, right = MARGIN + TICK + 3 * MM, width - MARGIN
    shapes: list[Shape] = [Box(MARGIN, 1.5, TICK, TICK, stroke=0.0, line_pt=0.9)] if thing.wanted else []
    column = right - max(62.0, measure(thing.weighs, "semi bold", BODY) + 14) if thing.weighs else right
    edge = column - measure(thing.much, "semi bold", BODY) - 10
    name, tall = paragraph((Run(thing.what, "bold"),), left, 0.0, edge - left, BODY, measure)
    tags = [Tag("TR"), Tag("TH", len(shapes), len(shapes) + len(name))]
    shapes += name
    first = len(shapes)
    shapes.append(Words(column, BODY, thing.much, "semi bold", BODY, 0.0, "right"))
    if thing.weighs:
        shapes.append(Words(right, BODY, thing.weighs, "semi bold", BODY, 0.0, "right"))
    tags.append(Tag("TD", first, len(shapes)))
    y, first = tall, len(shapes)
    if thing.note:
        text, tall = paragraph((Run(capital(thing.note)),), left, y, right - left, SMALL, measure)
        shapes += text
        y += tall
    tags.append(Tag("TD", first, len(shapes)))
    return Block(max(y, TICK + 3) + 2, tuple(shapes), gap=1.5 * MM, tags=tuple(tags))
