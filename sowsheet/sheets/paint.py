"""Shapes to PDF: the only module that imports reportlab, so import it where it is used.

PDF 1.7 in grey operators alone, fonts embedded and cut down, the same bytes for the same sheet.
"""

from __future__ import annotations

from collections.abc import Sequence
from io import BytesIO
from pathlib import Path
from typing import Any, cast
from unicodedata import normalize

from reportlab import rl_config
from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.pdfdoc import PDFDictionary, PDFObjectReference, PDFStream
from reportlab.pdfbase.ttfonts import TTFont
from reportlab.pdfgen.canvas import Canvas

from sowsheet.sheets.shapes import Box, Face, Hatch, Line, Measure, Page, Polygon, Shape, Sheet, Words

FONT_FILES: dict[Face, str] = {
    "regular": "NotoSans-Regular",
    "bold": "NotoSans-Bold",
    "semi": "NotoSans-SemiCondensedRegular",
    "semi bold": "NotoSans-SemiCondensedBold",
    "condensed": "NotoSans-CondensedRegular",
    "condensed bold": "NotoSans-CondensedBold",
}
ASCENT, DESCENT = 0.76, 0.22  # of the size: what a white plate covers above and below the base line
INK_SHARE: dict[Hatch, float] = {"diagonal": 0.36, "dots": 0.3, "vertical": 0.22}  # line or dot to pitch
CURVE = 0.5523  # control points of a quarter circle


def font(face: Face) -> TTFont:
    """The face, registered on first use; asking reportlab for a name it does not know would read all its files."""
    name = FONT_FILES[face]
    if name not in pdfmetrics.getRegisteredFontNames():
        file = Path(__file__).parent / "fonts" / f"{name}.ttf"
        pdfmetrics.registerFont(TTFont(name, str(file), asciiReadable=0, shapable=False))
    return cast("TTFont", pdfmetrics.getFont(name))


def measure() -> Measure:
    """A function that tells how wide words are, in points. It remembers what it has measured: sheets repeat words."""
    tables: dict[Face, dict[int, float]] = {}
    known: dict[tuple[str, Face], float] = {}

    def width(text: str, face: Face, size_pt: float) -> float:
        unit = known.get((text, face))
        if unit is None:
            if face not in tables:
                tables[face] = font(face).face.charWidths
            table = tables[face]
            plain = text if text.isascii() else normalize("NFC", text)
            unit = known[text, face] = sum([table.get(ord(c), 600.0) for c in plain]) / 1000
        return unit * size_pt

    return width


def missing(text: str) -> set[str]:
    """The characters of a text that the fonts cannot print; all six faces hold the same."""
    known = font("regular").face.charToGlyph
    return {c for c in normalize("NFC", text) if ord(c) not in known}


def unprintable(sheet: Sheet) -> set[str]:
    """The characters on a sheet that the fonts cannot print."""
    texts = {s.text for page in sheet.pages for s in page.shapes if isinstance(s, Words)}
    return missing("".join(texts))


def pdf_bytes(sheet: Sheet, tagged: bool = True) -> bytes:
    """The sheet as a PDF, the same bytes each time; with tags for screen readers, or smaller and sooner without."""
    rl_config.useA85 = 0  # ASCII85 costs 9 ms a page and serves nobody
    start = font("regular").fontName
    canvas = Canvas(
        BytesIO(),
        invariant=1,
        pageCompression=1,
        pdfVersion=(1, 7),
        lang=sheet.language,
        initialFontName=start,  # type: ignore[arg-type]  # the stubs ask for a number
    )
    canvas.setTitle(sheet.title)
    canvas.setCreator("Sowsheet")
    canvas.setAuthor("")
    canvas.setSubject("")
    canvas.setViewerPreference("DisplayDocTitle", "true")
    canvas.setViewerPreference("PrintScaling", "None")  # a smaller print would break the reading distance
    painter = Painter(canvas)
    marks: dict[int, list[str]] = {}
    for index, words in sheet.bookmarks:
        marks.setdefault(index, []).append(words)
    for index, page in enumerate(sheet.pages):
        canvas.setPageSize((page.width, page.height))
        canvas.addPageLabel(index, prefix=page.label or str(index + 1))
        for number, words in enumerate(marks.get(index, ())):
            key = f"page {index} {number}"
            canvas.bookmarkPage(key)
            canvas.addOutlineEntry(words, key)
        canvas.addLiteral("\n".join(painter.page(page, tagged)))
        canvas.showPage()
    if tagged:
        _tag(sheet, canvas._doc)  # type: ignore[attr-defined]
    return bytes(canvas.getpdfdata())  # type: ignore[no-untyped-call]


def _tag(sheet: Sheet, doc: Any) -> None:
    """The document's structure, and what it declares itself to be. What follows from it is written by `tagging`."""
    from sowsheet.sheets.tagging import structure, without_zeros, xmp  # noqa: PLC0415

    for face in doc.delayedFonts:  # reportlab would do that next
        face.addObjects(doc)
    doc.delayedFonts = []
    for name, found in doc.idToObject.items():
        if name.startswith("toUnicodeCMap:"):
            found.content = without_zeros(found.content)
    for n, page in enumerate(doc.Pages.pages):
        page.__NoDefault__ = [*page.__NoDefault__, "StructParents", "Tabs"]
        page.StructParents, page.Tabs = n, "/S"
    pages = [doc.idToObjectNumberAndVersion[f"Page{n}"][0] for n in range(1, len(sheet.pages) + 1)]
    root = doc.objectcounter + 1
    for n, written in enumerate(structure(sheet, pages, root, measure())):
        doc.Reference(written, f"tag {n}")
    kind = PDFDictionary({"Type": "/Metadata", "Subtype": "/XML"})
    doc.Catalog.StructTreeRoot = PDFObjectReference("tag 0")
    doc.Catalog.MarkInfo = PDFDictionary({"Marked": "true"})
    doc.Catalog.Metadata = PDFStream(kind, xmp(sheet.title, sheet.language))


class Painter:
    """A document's drawing commands, page by page. Remembers the state it has set, so that none is set twice, and what
    words come to in its fonts: sheets repeat words."""

    def __init__(self, canvas: Canvas) -> None:
        self.doc = canvas._doc  # type: ignore[attr-defined]  # subsets of a font belong to a document
        self.known: dict[tuple[str, Face], list[tuple[str, str]]] = {}

    def page(self, page: Page, tagged: bool = False) -> list[str]:
        """The commands of a page, in painting order; with marks round what has a tag, and round what has none."""
        self.height = page.height
        self.state: dict[str, str] = {"d": "[] 0 d", "w": "", "g": "0 g", "G": "0 G"}
        self.font_state: tuple[str, float] = ("", 0.0)
        self.out: list[str] = []
        if not tagged:
            self.shapes(page.shapes)
            return self.out
        at = 0
        marked = [tag for tag in page.tags if tag.end > tag.start]
        for number, tag in sorted(enumerate(marked), key=lambda m: m[1].start):
            self.artifact(page.shapes[at : tag.start])
            self.out.append(f"/{tag.role.partition(' ')[0]} <</MCID {number}>> BDC")
            self.shapes(page.shapes[tag.start : tag.end])
            self.out.append("EMC")
            at = tag.end
        self.artifact(page.shapes[at:])
        return self.out

    def artifact(self, shapes: Sequence[Shape]) -> None:
        """Furniture, which nobody is read."""
        if shapes:
            self.out.append("/Artifact BMC")
            self.shapes(shapes)
            self.out.append("EMC")

    def shapes(self, shapes: Sequence[Shape]) -> None:
        for shape in shapes:
            match shape:
                case Words():
                    self.words(shape)
                case Box():
                    self.box(shape)
                case Line():
                    self.line(shape)
                case Polygon():
                    self.polygon(shape)

    def put(self, operator: str, command: str) -> None:
        if self.state[operator] != command:
            self.state[operator] = command
            self.out.append(command)

    def pen(self, grey: float, line_pt: float, dashed: bool) -> None:
        self.put("G", f"{grey:g} G")
        self.put("w", f"{line_pt:.2f} w")
        self.put("d", f"[{4 * line_pt + 1:.2f} {2 * line_pt + 1.2:.2f}] 0 d" if dashed else "[] 0 d")

    def words(self, words: Words) -> None:
        if not words.text:
            return
        x, y = words.x, self.height - words.y
        if words.plate or words.align != "left":
            table = font(words.face).face.charWidths
            width = sum([table.get(ord(c), 600.0) for c in normalize("NFC", words.text)]) * words.size_pt / 1000
            x -= {"left": 0.0, "centre": width / 2, "right": width}[words.align]
            if words.plate:
                pad, size = 0.12 * words.size_pt, words.size_pt
                self.put("g", "1 g")
                low, high = y - DESCENT * size, (ASCENT + DESCENT) * size
                self.out.append(f"{x - pad:.2f} {low:.2f} {width + 2 * pad:.2f} {high:.2f} re f")
        self.put("g", f"{words.grey:g} g")
        parts = []
        for name, codes in self.coded(words.text, words.face):
            if self.font_state != (name, words.size_pt):
                self.font_state = (name, words.size_pt)
                parts.append(f"{name} {words.size_pt:g} Tf")
            parts.append(codes)
        self.out.append(f"BT {x:.2f} {y:.2f} Td {' '.join(parts)} ET")

    def coded(self, text: str, face: Face) -> list[tuple[str, str]]:
        """The text in the document's fonts: the name of each subset, and the command that shows its codes."""
        found = self.known.get((text, face))
        if found is None:
            made = font(face)
            split = made.splitString(normalize("NFC", text), self.doc)
            found = [(made.getSubsetInternalName(subset, self.doc), f"<{codes.hex()}> Tj") for subset, codes in split]
            self.known[text, face] = found
        return found

    def line(self, line: Line) -> None:
        self.pen(line.grey, line.line_pt, line.dashed)
        top = self.height
        self.out.append(f"{line.x1:.2f} {top - line.y1:.2f} m {line.x2:.2f} {top - line.y2:.2f} l S")

    def polygon(self, shape: Polygon) -> None:
        if shape.fill is not None:
            self.put("g", f"{shape.fill:g} g")
        if shape.stroke is not None:
            self.pen(shape.stroke, shape.line_pt, False)
        path = " l ".join([f"{x:.2f} {self.height - y:.2f}" for x, y in shape.points])
        self.out.append(f"{path.replace(' l ', ' m ', 1)} l h {finish(shape.fill, shape.stroke)}")

    def box(self, box: Box) -> None:
        x, y = box.x, self.height - box.y - box.height
        path = outline(x, y, box.width, box.height, box.radius)
        if box.hatch:
            if box.fill is not None:
                self.put("g", f"{box.fill:g} g")
                self.out.append(f"{path} f")
            if box.hatch == "dots":
                self.dots(x, y, box)
            else:
                self.put("g", "0 g")
                cut = stripes(x, y, box)
                if cut:
                    self.out.append(f"{cut} f")
        fill = None if box.hatch else box.fill
        if fill is not None:
            self.put("g", f"{fill:g} g")
        if box.stroke is not None:
            self.pen(box.stroke, box.line_pt, box.dashed)
        if fill is not None or box.stroke is not None:
            self.out.append(f"{path} {finish(fill, box.stroke)}")

    def dots(self, x: float, y: float, box: Box) -> None:
        """A box's dots, a row of them as one dashed line: far fewer commands than a square for each."""
        ink, half = box.pitch_pt * INK_SHARE["dots"], box.pitch_pt / 2
        self.put("G", "0 G")
        self.put("w", f"{ink:.2f} w")
        self.put("d", f"[{ink:.2f} {box.pitch_pt - ink:.2f}] 0 d")
        rows = []
        for row, v in enumerate(steps((half - ink) / 2, box.height - ink, half)):
            starts = steps((half * (row % 2) - x + box.shift[0]) % box.pitch_pt, box.width - ink, box.pitch_pt)
            if starts:
                level = y + v + ink / 2
                rows.append(f"{x + starts[0]:.2f} {level:.2f} m {x + starts[-1] + ink:.2f} {level:.2f} l")
        if rows:
            self.out.append(f"{' '.join(rows)} S")


def finish(fill: float | None, stroke: float | None) -> str:
    """The operator that fills, outlines or does both."""
    return ("B" if stroke is not None else "f") if fill is not None else ("S" if stroke is not None else "n")


def outline(x: float, y: float, width: float, height: float, radius: float) -> str:
    """A rectangle's path, its corners round if wanted; (x, y) is its bottom left corner."""
    if radius <= 0:
        return f"{x:.2f} {y:.2f} {width:.2f} {height:.2f} re"
    r = min(radius, width / 2, height / 2)
    k = r * (1 - CURVE)
    right, top = x + width, y + height
    return (
        f"{x + r:.2f} {y:.2f} m {right - r:.2f} {y:.2f} l "
        f"{right - k:.2f} {y:.2f} {right:.2f} {y + k:.2f} {right:.2f} {y + r:.2f} c {right:.2f} {top - r:.2f} l "
        f"{right:.2f} {top - k:.2f} {right - k:.2f} {top:.2f} {right - r:.2f} {top:.2f} c {x + r:.2f} {top:.2f} l "
        f"{x + k:.2f} {top:.2f} {x:.2f} {top - k:.2f} {x:.2f} {top - r:.2f} c {x:.2f} {y + r:.2f} l "
        f"{x:.2f} {y + k:.2f} {x + k:.2f} {y:.2f} {x + r:.2f} {y:.2f} c h"
    )


def stripes(x: float, y: float, box: Box) -> str:
    """A box's hatch as one path, cut at its edges by arithmetic; the pattern runs on from box to box."""
    pitch = box.pitch_pt
    ink = pitch * INK_SHARE[box.hatch]
    width, height = box.width, box.height
    match box.hatch:
        case "vertical":
            first = -((x - box.shift[0]) % pitch)
            spans = [(max(0.0, u), min(width, u + ink)) for u in steps(first, width, pitch)]
            return " ".join([f"{x + a:.2f} {y:.2f} {b - a:.2f} {height:.2f} re" for a, b in spans if b > a])
        case _:
            run = pitch * 2**0.5
            thick = ink * 2**0.5
            # a line of the hatch is u - v = c inside the box; its band lies between c and c + thick
            first = -height - (x - box.shift[0] - y - box.shift[1] - height) % run
            return " ".join([cut for c in steps(first, width, run) if (cut := band(x, y, width, height, c, c + thick))])


def steps(first: float, end: float, step: float) -> list[float]:
    """first, first + step, … below end."""
    return [first + n * step for n in range(max(0, int((end - first) / step) + 1)) if first + n * step < end]


def band(x: float, y: float, width: float, height: float, low: float, high: float) -> str:
    """What the band low <= u - v <= high covers of a box at (x, y), u to the right and v up; "" if nothing."""
    low, high = max(low, -height), min(high, width)
    if high <= low:
        return ""
    points = [(max(0.0, low), max(0.0, -low)), (max(0.0, high), max(0.0, -high))]
    if low < 0 < high:
        points.insert(1, (0.0, 0.0))
    points += [
        (min(width, high + height), min(height, width - high)),
        (min(width, low + height), min(height, width - low)),
    ]
    if low < width - height < high:
        points.insert(-1, (width, height))
    path = " l ".join([f"{x + u:.2f} {y + v:.2f}" for u, v in points])
    return f"{path.replace(' l ', ' m ', 1)} l h"
