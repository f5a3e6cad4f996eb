"""Marks and lines that sheets share: tick boxes, the caution's triangle, black heads, lines to write on."""

from __future__ import annotations

from sowsheet.jobs.rounds import Round
from sowsheet.sheets.flow import strong
from sowsheet.sheets.shapes import Box, Line, Polygon, Shape, Words
from sowsheet.words.language import Language

MM = 72 / 25.4
TICK_BOX = 7 * MM
WRITING_PITCH = 10 * MM  # a line to be written on with a pencil, in gloves, on a clipboard
SOFT = 0.345  # the lightest grey that small print may have on white (#595959, 7 : 1)


_AMERICAN = ("letter", "tabloid", "ledger", "legal", "arch", "ansi")


def hand_paper(paper: str) -> tuple[float, float]:
    """Width and height in points of a sheet for the hand: Letter for American papers, else A4. It does not grow."""
    return (612.0, 792.0) if is_american(paper) else (210 * MM, 297 * MM)


def is_american(paper: str) -> bool:
    """Whether a paper is of the American family."""
    return paper.lower().startswith(_AMERICAN)


def tick_box(x: float, y: float, *, maybe: bool = False) -> Shape:
    """A box of 7 mm to be ticked; dashed for what is not settled."""
    return Box(x, y, TICK_BOX, TICK_BOX, stroke=0.0, line_pt=1.0, dashed=maybe)


def caution_mark(x: float, y: float, size: float) -> list[Shape]:
    """A triangle with an exclamation mark, drawn: few fonts hold the sign. (x, y) is its box's top left corner."""
    middle = x + size / 2
    thick = size * 0.09
    return [
        Polygon(((middle, y), (x + size, y + size * 0.88), (x, y + size * 0.88)), fill=1.0, stroke=0.0, line_pt=1.2),
        Box(middle - thick / 2, y + size * 0.33, thick, size * 0.28, fill=0.0),
        Box(middle - thick / 2, y + size * 0.67, thick, thick, fill=0.0),
    ]


def dots(x: float, y: float, size: float, seeds: int, style: int) -> list[Shape]:
    """A cell's seeds as dots, rings, squares or crosses by `style`, set like the spots of a die."""
    spots = _SPOTS.get(seeds, _lattice(seeds))
    radius = size * (0.085 if seeds <= 5 else 0.06)
    return [shape for u, v in spots for shape in _spot(x + u * size, y + v * size, radius, style % 4)]


def write_line(x1: float, x2: float, y: float) -> Line:
    """A line to write on."""
    return Line(x1, y, x2, y, 0.0, 0.5)


def field(label: str, x: float, end: float, y: float, label_width: float, size_pt: float) -> list[Shape]:
    """A word, and behind it a line to write on, to `end`."""
    return [
        Words(x, y - 1.5, label, "regular", size_pt, SOFT),
        write_line(x + label_width + 4, end, y),
    ]


def round_line(words: Language, one: Round) -> str:
    """What is done again and again, its verb `strong`."""
    verb = strong(words.say(f"rounds.verb.{one.verb}"))
    return words.say(f"rounds.line.{one.verb}", verb=verb, what=one.what)


_SPOTS: dict[int, tuple[tuple[float, float], ...]] = {
    1: ((0.5, 0.5),),
    2: ((0.32, 0.32), (0.68, 0.68)),
    3: ((0.28, 0.28), (0.5, 0.5), (0.72, 0.72)),
    4: ((0.3, 0.3), (0.7, 0.3), (0.3, 0.7), (0.7, 0.7)),
    5: ((0.27, 0.27), (0.73, 0.27), (0.5, 0.5), (0.27, 0.73), (0.73, 0.73)),
    6: ((0.3, 0.25), (0.7, 0.25), (0.3, 0.5), (0.7, 0.5), (0.3, 0.75), (0.7, 0.75)),
}


def _lattice(seeds: int) -> tuple[tuple[float, float], ...]:
    """More seeds than a die has spots, in rows."""
    across = max(1, round(seeds**0.5))
    down = -(-seeds // across)
    return tuple(
        (0.2 + 0.6 * (n % across + 0.5) / across, 0.2 + 0.6 * (n // across + 0.5) / down) for n in range(seeds)
    )


def _spot(x: float, y: float, r: float, style: int) -> list[Shape]:
    if style == 0:
        return [Box(x - r, y - r, 2 * r, 2 * r, fill=0.0, radius=r)]
    if style == 1:
        r *= 1.35
        return [Box(x - r, y - r, 2 * r, 2 * r, stroke=0.0, line_pt=0.8, radius=r)]
    if style == 2:
        r *= 1.35
        return [
            Line(x - r, y - r, x + r, y + r, 0.0, 0.9),
            Line(x - r, y + r, x + r, y - r, 0.0, 0.9),
        ]
    r *= 1.3
    return [Polygon(((x, y - r), (x + r, y + r * 0.8), (x - r, y + r * 0.8)), fill=0.0)]
