"""The structure of a tagged PDF: what is read, in which order, as what (ISO 32000-1, 14.7 and 14.8; ISO 14289-1).

It is written as plain PDF objects, so that the file is made in one pass; `paint` gives them their numbers. Imported
only where tags are asked for.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from xml.sax.saxutils import escape

from sowsheet.sheets.cutting import bounds_of
from sowsheet.sheets.shapes import LEVEL, OPENS, Measure, Role, Sheet, Tag

SCOPE: dict[Role, str] = {"TH": "Row", "TH column": "Column"}


class Element:
    """An element of the structure, on its way: its tag, its page from 0, its number, and what it holds."""

    def __init__(self, tag: Tag, page: int, number: int, parent: int) -> None:
        self.tag, self.page, self.number, self.parent = tag, page, number, parent
        self.kids: list[str] = []


def structure(sheet: Sheet, pages: Sequence[int], root: int, measure: Measure) -> Iterator[bytes]:
    """The structure's objects in the order of their numbers, the first of which is `root`, the root's own.

    `pages` are the numbers of the pages' objects. Raises ValueError for a cell without a row, a sign of a bug.
    """
    elements, holders = _tree(sheet, root + 2)
    yield f"<</Type/StructTreeRoot/K {root + 2} 0 R/ParentTree {root + 1} 0 R/ParentTreeNextKey {len(pages)}>>".encode()
    marked = "\n".join(f"{n} [{' '.join(f'{h} 0 R' for h in own)}]" for n, own in enumerate(holders))
    yield f"<</Nums[{marked}]>>".encode()
    tops = " ".join(f"{e.number} 0 R" for e in elements if e.parent == root + 2)
    yield f"<</S/Document/P {root} 0 R/K[{tops}]>>".encode()
    for element in elements:
        yield _written(element, sheet, pages, measure).encode("ascii")


def _tree(sheet: Sheet, document: int) -> tuple[list[Element], list[list[int]]]:
    """The elements of a document in the order in which they are read, and for each page those that hold its marks."""
    elements: list[Element] = []
    holders: list[list[int]] = []
    open_at: list[Element] = []  # one of each level

    def open_one(tag: Tag, page: int, level: int) -> Element:
        del open_at[level:]
        if level > 0 and len(open_at) < (level if level < 3 else 1):
            raise ValueError(f"{tag} stands in nothing")
        parent = open_at[-1] if open_at else None
        made = Element(tag, page, document + 1 + len(elements), parent.number if parent else document)
        elements.append(made)
        if parent is not None:
            parent.kids.append(f"{made.number} 0 R")
        open_at.append(made)
        return made

    for n, page in enumerate(sheet.pages):
        own: list[int] = []
        for tag in page.tags:
            opened = OPENS.get(tag.role)
            if opened and (not open_at or open_at[0].tag.role != opened):
                open_one(Tag(opened), n, 0)
            made = open_one(tag, n, LEVEL[tag.role])
            if tag.role == "TD" and tag.said:  # a picture in a cell
                made = open_one(Tag("Figure", tag.start, tag.end, tag.said), n, 3)
            if tag.end > tag.start:
                made.kids.append(str(len(own)))
                own.append(made.number)
        holders.append(own)
    return elements, holders


def _written(element: Element, sheet: Sheet, pages: Sequence[int], measure: Measure) -> str:
    tag, page = element.tag, sheet.pages[element.page]
    parts = [f"<</S/{tag.role.partition(' ')[0]}/P {element.parent} 0 R/Pg {pages[element.page]} 0 R"]
    if element.kids:
        parts.append(f"/K {element.kids[0]}" if len(element.kids) == 1 else f"/K[{' '.join(element.kids)}]")
    if tag.role == "Figure":
        at = bounds_of(page.shapes[tag.start : tag.end], measure)
        box = f"{at.left:.2f} {page.height - at.bottom:.2f} {at.right:.2f} {page.height - at.top:.2f}"
        parts.append(f"/Alt {_text(tag.words)}/A<</O/Layout/Placement/Block/BBox[{box}]>>")
    elif tag.said and tag.role != "TD":
        parts.append(f"/ActualText {_text(tag.words)}")
    if tag.role in SCOPE:
        parts.append(f"/A<</O/Table/Scope/{SCOPE[tag.role]}>>")
    return "".join([*parts, ">>"])


def _text(words: str) -> str:
    """Words as a PDF string: as they are where they are plain, else in UTF-16."""
    if words.isascii():
        return "(" + re.sub(r"([()\\])", r"\\\1", words) + ")"
    return f"<FEFF{words.encode('utf-16-be').hex().upper()}>"


def without_zeros(cmap: str) -> str:
    """A map of codes to letters without codes that mean no letter, in blocks of a hundred as its standard asks."""
    head, rest = re.split(r"\d+ beginbfchar\n", cmap, maxsplit=1)
    lines, tail = rest.split("endbfchar\n", 1)
    known = [line for line in lines.splitlines() if not line.endswith("<0000>")]
    blocks = [known[n : n + 100] for n in range(0, len(known), 100)]
    written = [f"{len(block)} beginbfchar\n" + "\n".join(block) + "\nendbfchar\n" for block in blocks]
    return "".join([head, *written, tail])


def xmp(title: str, language: str) -> bytes:
    """What the file says of itself: its title, its language, and that it keeps PDF/UA-1."""
    packet = f"""<?xpacket begin="\ufeff" id="W5M0MpCehiHzreSzNTczkc9d"?>
<x:xmpmeta xmlns:x="adobe:ns:meta/"><rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#">
<rdf:Description rdf:about="" xmlns:dc="http://purl.org/dc/elements/1.1/" xmlns:xmp="http://ns.adobe.com/xap/1.0/"
 xmlns:pdfuaid="http://www.aiim.org/pdfua/ns/id/">
<dc:title><rdf:Alt><rdf:li xml:lang="x-default">{escape(title)}</rdf:li></rdf:Alt></dc:title>
<dc:language><rdf:Bag><rdf:li>{language}</rdf:li></rdf:Bag></dc:language>
<xmp:CreatorTool>Sowsheet</xmp:CreatorTool>
<pdfuaid:part>1</pdfuaid:part>
</rdf:Description></rdf:RDF></x:xmpmeta>
<?xpacket end="r"?>
"""
    return packet.encode()
