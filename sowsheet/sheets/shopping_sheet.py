"""The shopping list on paper: what to get, how much, a box to tick, where the allowance lies."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date

import msgspec

from sowsheet.buying.list import BARROW_LITRES, barrows_of
from sowsheet.buying.records import CoverNeed, SeedNeed, SetNeed, Shopping, TrayNeed
from sowsheet.garden.records import Garden
from sowsheet.sheets.flow import Block, Run, cut, paged, paragraph, set_down, tags_of
from sowsheet.sheets.furniture import MM, SOFT, hand_paper
from sowsheet.sheets.shapes import Box, Leaf, Line, Measure, Page, Shape, Sheet, Tag, Words
from sowsheet.words.language import Language, capital

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
    words = garden.words
    width, height = hand_paper(paper)
    groups = [(title, told, things) for title, told, things in _groups(shopping, words, garden.imperial) if things]
    blocks = [block for title, told, things in groups for block in _group(words, title, told, things, width, measure)]
    if not blocks:
        nothing = (Words(MARGIN, 14, words.say("shopping.nothing"), "regular", BODY),)
        blocks = [Block(24, nothing, tags=(Tag("P", 0, 1),))]
    pages = paged(blocks, height - CLIP - HEAD - MARGIN - FOOT)
    made = []
    for n, own in enumerate(pages, 1):
        shapes, _ = set_down(own, CLIP + HEAD)
        which = words.say("shopping.page", page=n, pages=len(pages))
        said = Words(width - MARGIN, height - MARGIN - 3, which, "regular", SMALL, SOFT, "right")
        leaf = Leaf()
        leaf.lay(_head(garden, years, width, measure, printed_on), () if n > 1 else (Tag("H1", 0, 1), Tag("P", 1, 2)))
        leaf.lay([*shapes, said], tags_of(own))
        made.append(Page(width, height, tuple(leaf.shapes), str(n), tuple(leaf.tags)))
    title = words.say("shopping.file", garden=garden.name, year=garden.season)
    return Sheet(title, tuple(made), language=words.file_tag)


def _head(garden: Garden, years: str, width: float, measure: Measure, printed_on: date | None) -> Iterator[Shape]:
    title = garden.words.say("shopping.title")
    yield Words(MARGIN, CLIP + 22, title, "bold", TITLE)
    room = width - 2 * MARGIN - measure(f"{title}  ", "bold", TITLE)
    name = cut(garden.name, room, "regular", BODY, measure, f", {years}")
    yield Words(width - MARGIN, CLIP + 22, name, "regular", BODY, 0.0, "right")
    if printed_on:
        printed = garden.words.say("shopping.printed", day=garden.words.day_long(printed_on))
        yield Words(width - MARGIN, CLIP + 37, printed, "regular", 10, SOFT, "right")


def _groups(shopping: Shopping, words: Language, imperial: bool) -> Iterator[tuple[str, str, list[Thing]]]:
    """Each group's title, a remark, and its lines."""
    spare, care = words.say("shopping.seed.spare"), words.say("shopping.compost.care")
    yield words.say("shopping.seed.title"), spare, [_seed(words, s, imperial) for s in shopping.seed]
    yield words.say("shopping.sets.title"), "", [_set(words, s, imperial) for s in shopping.sets]
    yield words.say("shopping.trays.title"), "", [_tray(words, t) for t in shopping.trays]
    yield words.say("shopping.compost.title"), care, list(_compost(words, shopping, imperial))
    yield words.say("shopping.covers.title"), "", [_cover(words, c, imperial) for c in shopping.covers]


def _seed(words: Language, seed: SeedNeed, imperial: bool) -> Thing:
    notes = [words.count(seed.sowings, "sowing")] if seed.sowings else []
    if seed.allowance:
        notes.append(words.say("shopping.seed.allowance", n=seed.allowance, number=words.number(seed.allowance)))
    if seed.maybe_seeds:
        weight = words.weight(seed.maybe_grams, imperial)
        notes.append(words.say("shopping.seed.maybe", number=words.number(seed.maybe_seeds), weight=weight))
    much = words.say("unit.seeds", n=seed.seeds, number=words.number(seed.seeds)) if seed.seeds else ""
    weighs = words.weight(seed.grams, imperial) if seed.seeds else ""
    return Thing(capital(seed.name), much, weighs, "; ".join(notes))


def _set(words: Language, need: SetNeed, imperial: bool) -> Thing:
    maybe = words.say("shopping.maybe more", number=words.number(need.maybe_number)) if need.maybe_number else ""
    much = words.say(f"unit.{need.unit}", n=need.number, number=words.number(need.number)) if need.number else ""
    return Thing(capital(need.name), much, words.weight(need.kg * 1000, imperial) if need.kg else "", maybe)


def _tray(words: Language, need: TrayNeed) -> Thing:
    name = capital(words.tray_name(need.tray))
    most = {"most": need.most, "day": words.day_brief(need.day)}
    if need.short and need.start and need.end:
        note = words.say(
            "shopping.trays.short",
            owned=need.owned,
            start=words.day_brief(need.start),
            end=words.day_brief(need.end),
            **most,
        )
        return Thing(name, words.say("shopping.trays.missing", n=need.short), "", note)
    if need.owned is None:
        much = words.say("shopping.trays.needed", n=need.most)
        return Thing(name, much, "", words.say("shopping.trays.not said", **most))
    note = words.say("shopping.trays.owned", owned=need.owned, **most)
    return Thing(name, words.say("shopping.trays.enough"), "", note, wanted=False)


def _compost(words: Language, shopping: Shopping, imperial: bool) -> Iterator[Thing]:
    litres = sum(f.litres for f in shopping.tray_compost)
    if litres:
        filled = [
            words.say(
                "shopping.compost.filled",
                n=f.fillings,
                tray=words.tray_name(f.tray),
                volume=words.volume(f.litres, imperial),
            )
            for f in shopping.tray_compost
        ]
        yield Thing(words.say("shopping.compost.for trays"), words.volume(litres, imperial), "", "; ".join(filled))
    litres = sum(f.litres for f in shopping.bed_compost)
    if litres:
        depths = sorted({f.depth_mm for f in shopping.bed_compost if f.litres})
        told = []
        for depth in depths:
            beds = ", ".join(f.bed for f in shopping.bed_compost if f.depth_mm == depth)
            key = "shopping.compost.on all" if len(depths) == 1 else "shopping.compost.on"
            told.append(words.say(key, depth=words.depth(depth, imperial), beds=beds))
        barrows = words.say("shopping.compost.barrows", n=barrows_of(litres))
        note = words.say("shopping.compost.barrow", told="; ".join(told), volume=words.volume(BARROW_LITRES, imperial))
        yield Thing(words.say("shopping.compost.for beds"), words.volume(litres, imperial), barrows, note)


def _cover(words: Language, need: CoverNeed, imperial: bool) -> Thing:
    much = words.length(need.metres * 100, imperial)
    note = words.say("shopping.covers.most", day=words.day_brief(need.day))
    return Thing(capital(words.say(f"cover.{need.kind}")), much, "", note)


def _group(
    words: Language, title: str, told: str, things: Sequence[Thing], width: float, measure: Measure
) -> Iterator[Block]:
    head, y = _group_head(title, told, width, measure)
    tags = (Tag("H2", 0, 1), *([Tag("P", 2, len(head))] if told else []))
    yield Block(y, tuple(head), with_next=True, gap=6 * MM, parting=0.1, tags=tags)
    again, tall = _group_head(words.say("shopping.continued", title=title), "", width, measure)
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
