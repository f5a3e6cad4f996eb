"""What tests look for on a page, whichever sheet it is of."""

from __future__ import annotations

from collections.abc import Iterator
from io import BytesIO

import msgspec
import pdfplumber

from sowsheet.sheets.furniture import MM
from sowsheet.sheets.paint import measure, missing, pdf_bytes
from sowsheet.sheets.shapes import Box, Line, Page, Polygon, Shape, Sheet, Words

WIDTH = measure()


class Text(msgspec.Struct, frozen=True):
    """Words and the rectangle that their letters fill."""

    text: str
    left: float
    top: float
    right: float
    bottom: float


def texts(page: Page) -> list[Text]:
    """Every line of text on a page."""
    return [_text(s) for s in page.shapes if isinstance(s, Words) and s.text.strip()]


def _text(words: Words) -> Text:
    wide = WIDTH(words.text, words.face, words.size_pt)
    left = words.x - {"left": 0.0, "centre": wide / 2, "right": wide}[words.align]
    return Text(words.text, left, words.y - 0.72 * words.size_pt, left + wide, words.y + 0.2 * words.size_pt)


def collisions(page: Page) -> list[tuple[str, str]]:
    """Pairs of texts that lie over each other, and tick boxes that run into text."""
    found = texts(page)
    boxes = [Text("tick box", b.x, b.y, b.x + b.width, b.y + b.height) for b in tick_boxes(page)]
    pairs = ((a, b) for n, a in enumerate([*found, *boxes]) for b in [*found, *boxes][n + 1 :])
    return [(a.text, b.text) for a, b in pairs if _over(a, b)]


def _over(a: Text, b: Text) -> bool:
    hair = 0.05
    return min(a.right, b.right) - max(a.left, b.left) > hair and min(a.bottom, b.bottom) - max(a.top, b.top) > hair


def tick_boxes(page: Page) -> list[Box]:
    """The boxes to be ticked: outlined squares of 7 mm or more without round corners, at the left margin."""
    return [
        s
        for s in page.shapes
        if isinstance(s, Box) and s.stroke == 0.0 and s.fill is None and not s.radius and s.width == s.height
    ]


def outside(sheet: Sheet, margin: float = 10 * MM) -> Iterator[str]:
    """Shapes that reach over the margins; half a line's thickness may."""
    for number, page in enumerate(sheet.pages, 1):
        for shape in page.shapes:
            left, top, right, bottom, hair = _edges(shape)
            fits = left >= margin - hair and top >= margin - hair
            if not (fits and right <= page.width - margin + hair and bottom <= page.height - margin + hair):
                yield f"page {number}: {shape}"


def _edges(shape: Shape) -> tuple[float, float, float, float, float]:
    match shape:
        case Words():
            text = _text(shape)
            return text.left, text.top, text.right, text.bottom, 0.6
        case Box():
            return shape.x, shape.y, shape.x + shape.width, shape.y + shape.height, shape.line_pt
        case Line():
            xs, ys = sorted((shape.x1, shape.x2)), sorted((shape.y1, shape.y2))
            return xs[0], ys[0], xs[1], ys[1], shape.line_pt
        case Polygon():
            xs, ys = [x for x, _ in shape.points], [y for _, y in shape.points]
            return min(xs), min(ys), max(xs), max(ys), shape.line_pt


def printed_outside(sheet: Sheet, pages: int, margin: float = 10 * MM) -> Iterator[str]:
    """Letters, lines and boxes of the PDF itself outside the margins, on its first pages."""
    with pdfplumber.open(BytesIO(pdf_bytes(sheet))) as pdf:
        for page in pdf.pages[:pages]:
            for thing in (*page.chars, *page.lines, *page.rects, *page.curves):
                # a letter's box, as it is reported, is taller than the letter
                hair = 1.1 + (thing.get("linewidth") or 0)
                inside = (
                    thing["x0"] >= margin - hair
                    and thing["x1"] <= float(page.width) - margin + hair
                    and thing["top"] >= margin - hair
                    and thing["bottom"] <= float(page.height) - margin + hair
                )
                if not inside:
                    yield f"page {page.page_number}: {thing['object_type']} {thing.get('text', '')} {thing['x0']:.1f}"


def unprintable(sheet: Sheet) -> set[str]:
    """Characters that would come out as empty boxes."""
    return {c for page in sheet.pages for t in texts(page) for c in missing(t.text)}


def smallest_box(sheet: Sheet) -> float:
    """The smallest box to tick, in mm."""
    return min(b.width for page in sheet.pages for b in tick_boxes(page)) / MM


def read(sheet: Sheet, pages: int) -> list[list[tuple[str, float]]]:
    """For each of the first pages of the PDF: its words as read back, with their size in points."""
    with pdfplumber.open(BytesIO(pdf_bytes(sheet))) as pdf:
        return [
            [(str(w["text"]), float(w["size"])) for w in page.extract_words(extra_attrs=["size"], y_tolerance=1)]
            for page in pdf.pages[:pages]
        ]


def written_over(page: Page) -> Iterator[str]:
    """Words on black or hatching with no plate of their own, and words across the side of a box: that is a date."""
    read = iter(texts(page))
    words = [(n, s, next(read)) for n, s in enumerate(page.shapes) if isinstance(s, Words) and s.text.strip()]
    drawn = [(n, s, _bounds(s)) for n, s in enumerate(page.shapes) if isinstance(s, Box | Polygon)]
    for n, word, text in words:
        near = [(m, s, at) for m, s, at in drawn if _meet(at, text)]
        plate = max((m for m, s, at in near if m < n and _plate(s, at, text)), default=-1)
        mark = max((m for m, s, _ in near if isinstance(s, Box) and s.radius), default=-1)  # the sowing mark
        for m, shape, at in near:
            inked = shape.fill == 0.0 or (isinstance(shape, Box) and bool(shape.hatch))
            if inked and word.grey < 1 and m > plate:
                yield f"{text.text!r} on {shape}"
            sides = (at[0], at[2]) if isinstance(shape, Box) and shape.stroke is not None and m > mark else ()
            if any(text.left + 0.1 < side < text.right - 0.1 for side in sides):
                yield f"{text.text!r} across the side of {shape}"


def _bounds(shape: Box | Polygon) -> tuple[float, float, float, float]:
    if isinstance(shape, Box):
        return shape.x, shape.y, shape.x + shape.width, shape.y + shape.height
    xs, ys = [x for x, _ in shape.points], [y for _, y in shape.points]
    return min(xs), min(ys), max(xs), max(ys)


def _plate(shape: Box | Polygon, at: tuple[float, float, float, float], text: Text) -> bool:
    """Whether a blank box lies behind all of a text."""
    blank = isinstance(shape, Box) and (shape.fill or 0.0) > 0.9 and not shape.hatch
    return blank and at[0] <= text.left + 0.1 and at[2] >= text.right - 0.1


def _meet(at: tuple[float, float, float, float], text: Text) -> bool:
    """Whether something lies on the body of the letters; accents and descenders may touch it."""
    tall = text.bottom - text.top
    across = min(at[2], text.right) - max(at[0], text.left)
    return across > 0.1 and min(at[3], text.bottom - 0.25 * tall) - max(at[1], text.top + 0.1 * tall) > 0.1
