"""Two PDFs compared by what stands on their pages: text, and the boxes of everything drawn, with a small tolerance."""

from __future__ import annotations

from itertools import zip_longest

import pypdfium2
import pypdfium2.raw

TOLERANCE_PT = 0.6
Box = tuple[float, float, float, float]


def contents(data: bytes) -> list[tuple[str, list[Box]]]:
    """For each page its text and the bounds of its objects, in painting order."""
    document = pypdfium2.PdfDocument(data)
    pages = []
    for page in document:
        text = page.get_textpage().get_text_bounded()
        boxes = [obj.get_bounds() for obj in page.get_objects()]
        pages.append((text, boxes))
    return pages


def differences(one: bytes, other: bytes) -> list[str]:
    """What differs between two PDFs, in words; empty where nothing does."""
    found: list[str] = []
    for number, (a, b) in enumerate(zip_longest(contents(one), contents(other)), 1):
        if a is None or b is None:
            found.append(f"page {number}: only in one of them")
        elif a[0] != b[0]:
            found.append(f"page {number}: the text differs")
        elif len(a[1]) != len(b[1]):
            found.append(f"page {number}: {len(a[1])} and {len(b[1])} things drawn")
        elif any(_apart(p, q) > TOLERANCE_PT for p, q in zip(a[1], b[1], strict=True)):
            found.append(f"page {number}: something is drawn elsewhere")
    return found


def _apart(one: Box, other: Box) -> float:
    return max(abs(a - b) for a, b in zip(one, other, strict=True))
