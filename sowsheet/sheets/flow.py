"""Text that wraps, and blocks that fill pages from the top: what sheets for the hand are set with."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence

import msgspec

from sowsheet.sheets.shapes import Box, Face, Line, Measure, Polygon, Shape, Tag, Words, later

HARD = "\u00a0"  # holds a number and its unit on one line; printed as a space
STRONG, PLAIN = "\u0002", "\u0003"  # stand round what is bold in a line made of one phrase; never printed
PITCH = 1.32  # line to line, in sizes


class Run(msgspec.Struct, frozen=True):
    """Words in one face, inside a line of several."""

    text: str
    face: Face = "regular"


class Block(msgspec.Struct, frozen=True):
    """Shapes that stay together on a page, their y counted from the block's top, and their tags.

    `with_next`: never the last on a page. `head`: what is set again when the next block begins a new page; it has been
    read then, so it needs no tags.
    """

    height: float
    shapes: tuple[Shape, ...] = ()
    with_next: bool = False
    gap: float = 0.0  # white above it, unless nothing stands above it
    parting: float = 0.6  # how much it hurts when a page begins with it
    head: tuple[Block, ...] = ()
    tags: tuple[Tag, ...] = ()


def cut(words: str, room: float, face: Face, size_pt: float, measure: Measure, end: str = "") -> str:
    """Words with `end` behind them, cut with an ellipsis before it to what fits; "" where nothing is left."""
    if measure(f"{words}{end}", face, size_pt) <= room:
        return f"{words}{end}"
    while words and measure(f"{words}…{end}", face, size_pt) > room:
        words = words[:-1].rstrip()
    return f"{words}…{end}" if words or end else ""


def beside(title: str, title_pt: float, name: str, end: str, size_pt: float, width: float, measure: Measure) -> str:
    """A name with `end`, to stand at the right of a bold title: cut to the room that the title leaves of `width`."""
    return cut(name, width - measure(title, "bold", title_pt) - 12, "regular", size_pt, measure, end)


def strong(words: str) -> str:
    """Words that stand in bold wherever a phrase puts them: see `runs_of`."""
    return f"{STRONG}{words}{PLAIN}"


def runs_of(line: str) -> list[Run]:
    """A line with parts that are `strong`, as runs."""
    parts = re.split(f"[{STRONG}{PLAIN}]", line)
    return [Run(text, "bold" if n % 2 else "regular") for n, text in enumerate(parts) if text]


def wrapped(runs: Sequence[Run], size_pt: float, width: float, measure: Measure) -> list[list[Run]]:
    """The runs broken into lines no wider than `width`; a word wider than a line is broken too. At least one line."""
    if len(runs) == 1 and _fits(runs[0], size_pt, width, measure):
        return [_joined(runs)]
    lines: list[list[Run]] = [[]]
    used = 0.0
    for word in _words(runs, size_pt, width, measure):
        wide = sum(measure(run.text, run.face, size_pt) for run in word)
        space = measure(" ", word[0].face, size_pt) if lines[-1] else 0.0
        if lines[-1] and used + space + wide > width + 0.01:
            lines.append([])
            used, space = 0.0, 0.0
        if space:
            lines[-1].append(Run(" ", word[0].face))
        lines[-1] += word
        used += space + wide
    return [_joined(line) for line in lines]


def _fits(run: Run, size_pt: float, width: float, measure: Measure) -> bool:
    """Whether a run is a line as it stands, which most are."""
    text = run.text
    return "  " not in text and text == text.strip(" ") != "" and measure(text, run.face, size_pt) <= width


def paragraph(
    runs: Sequence[Run], x: float, y: float, width: float, size_pt: float, measure: Measure, grey: float = 0.0
) -> tuple[list[Shape], float]:
    """Lines of text whose first line's box begins at y, and the height of all of them."""
    shapes: list[Shape] = []
    lines = wrapped(runs, size_pt, width, measure)
    for number, line in enumerate(lines):
        at = x
        base = y + (number * PITCH + 1.0) * size_pt
        for run in line:
            shapes.append(Words(at, base, run.text, run.face, size_pt, grey))
            at += measure(run.text, run.face, size_pt)
    return shapes, len(lines) * PITCH * size_pt


def moved(shape: Shape, dx: float, dy: float) -> Shape:
    """The same shape elsewhere."""
    match shape:
        case Line():
            return msgspec.structs.replace(
                shape, x1=shape.x1 + dx, y1=shape.y1 + dy, x2=shape.x2 + dx, y2=shape.y2 + dy
            )
        case Polygon():
            return msgspec.structs.replace(shape, points=tuple((x + dx, y + dy) for x, y in shape.points))
        case Box() | Words():
            return msgspec.structs.replace(shape, x=shape.x + dx, y=shape.y + dy)


def height_of(blocks: Iterable[Block]) -> float:
    """What the blocks take on one page."""
    found = list(blocks)
    return sum(b.height + (b.gap if n else 0.0) for n, b in enumerate(found))


def paged(blocks: Sequence[Block], room: float) -> list[list[Block]]:
    """The blocks in order on as few pages as hold them, evenly filled, parted where it hurts least.

    `room` is what is left under a page's own head. A block taller than that stands alone on a page.
    """
    groups = _groups(blocks)
    best: list[tuple[float, int]] = [(0.0, 0)]  # for the first n groups: the cost, and where their last page begins
    for end in range(1, len(groups) + 1):
        choices = []
        for start in range(end - 1, -1, -1):
            page = _on_page(groups, start, end)
            tall = page[0].gap + height_of(page)
            if tall > room and end - start > 1:
                break
            parted = groups[start][0].parting if start else 0.0
            choices.append((best[start][0] + PAGE_COST + (1 - min(1.0, tall / room)) ** 2 + parted, start))
        best.append(min(choices))
    pages: list[list[Block]] = []
    end = len(groups)
    while end:
        start = best[end][1]
        head = groups[start][0].head
        page = _on_page(groups, start, end)
        first, *rest = page[len(head) :]
        first = msgspec.structs.replace(first, gap=0.0) if head else first  # as it is the first under its head
        pages.insert(0, [*(unread(block) for block in head), first, *rest])
        end = start
    return pages


PAGE_COST = 100.0  # one page less is worth more than any even filling


def _on_page(groups: Sequence[Sequence[Block]], start: int, end: int) -> list[Block]:
    """Some groups as they stand on a page of their own, with the heads they stand under."""
    head = groups[start][0].head
    return [*head, *(block for group in groups[start:end] for block in group)]


def set_down(blocks: Sequence[Block], top: float) -> tuple[list[Shape], float]:
    """The blocks' shapes one below the other from `top`, and where they end."""
    shapes: list[Shape] = []
    y = top
    for number, block in enumerate(blocks):
        y += block.gap if number else 0.0
        shapes += [moved(shape, 0.0, y) for shape in block.shapes]
        y += block.height
    return shapes, y


def tags_of(blocks: Sequence[Block], before: int = 0) -> list[Tag]:
    """The tags of blocks whose shapes are set down one after the other, behind so many other shapes."""
    found: list[Tag] = []
    for block in blocks:
        found += later(block.tags, before) if block.tags else ()
        before += len(block.shapes)
    return found


def unread(block: Block) -> Block:
    """A block that was read before: what is set again on a further page."""
    return msgspec.structs.replace(block, tags=())


def _groups(blocks: Sequence[Block]) -> list[list[Block]]:
    """Blocks that must not be parted, together."""
    groups: list[list[Block]] = []
    tied = False
    for block in blocks:
        if tied:
            groups[-1].append(block)
        else:
            groups.append([block])
        tied = block.with_next
    return groups


def _words(runs: Sequence[Run], size_pt: float, width: float, measure: Measure) -> list[list[Run]]:
    """Words between spaces, each of one or more faces; those wider than a line cut to fit."""
    words: list[list[Run]] = []
    open_word = False
    for run in runs:
        pieces = re.sub(r"(\d) (?=(?:mm|cm|m|g|kg|ml|in|ft|lb|oz|%)\b|[A-Z])", rf"\1{HARD}", run.text).split(" ")
        for number, piece in enumerate(pieces):
            if number:
                open_word = False
            for part in _cut(piece, run.face, size_pt, width, measure):
                if open_word and words:
                    words[-1].append(Run(part, run.face))
                else:
                    words.append([Run(part, run.face)])
                open_word = True
                if part != piece:
                    open_word = False
        open_word = bool(run.text) and not run.text.endswith(" ")
    return words


def _cut(word: str, face: Face, size_pt: float, width: float, measure: Measure) -> list[str]:
    if not word:
        return []
    if measure(word, face, size_pt) <= width:
        return [word]
    parts = [""]
    for letter in word:
        if parts[-1] and measure(parts[-1] + letter, face, size_pt) > width:
            parts.append("")
        parts[-1] += letter
    return parts


def _joined(line: Sequence[Run]) -> list[Run]:
    """Neighbouring runs of one face as one; hard spaces become spaces."""
    found: list[Run] = []
    for run in line:
        if found and found[-1].face == run.face:
            found[-1] = Run(found[-1].text + run.text, run.face)
        else:
            found.append(run)
    return [Run(run.text.replace(HARD, " "), run.face) for run in found]
