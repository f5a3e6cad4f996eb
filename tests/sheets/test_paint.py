"""The painter: one ink, our own fonts, the same bytes each time, and nothing drawn where it should not be."""

from __future__ import annotations

import re
from io import BytesIO
from typing import Any

import pdfplumber
import pypdfium2
import pytest
from pdfminer.pdftypes import PDFStream, resolve1
from reportlab.pdfbase import pdfmetrics

from sowsheet.sheets.paint import FONT_FILES, font, measure, missing, pdf_bytes, unprintable
from sowsheet.sheets.shapes import Box, Face, Hatch, Line, Page, Polygon, Sheet, Words

GREY_ONLY = {"g", "G", "w", "d", "re", "f", "S", "B", "n", "m", "l", "c", "h", "BT", "ET", "Td", "Tf", "Tj", "cm"}
FACES: tuple[Face, ...] = tuple(FONT_FILES)
LETTERS = "Lauch, poireau, đậu Hà Lan, Πράσο, Лук-порей 0123456789 ½ · – ’ £ € °"
HATCHES: tuple[Hatch, ...] = ("diagonal", "dots", "vertical")


def everything() -> Sheet:
    """Two pages with each shape in each manner, and words in each face."""
    lines = tuple(Words(40, 60 + 30 * n, LETTERS, face, 14, 0.35 * (n % 2)) for n, face in enumerate(FACES))
    boxes = tuple(Box(40 + 90 * n, 300, 80, 30, fill=1, stroke=0, hatch=h) for n, h in enumerate(HATCHES))
    rest = (
        Box(40, 350, 60, 30, fill=0, radius=6),
        Box(120, 350, 60, 30, stroke=0, dashed=True),
        Box(200, 350, 60, 30, stroke=0.5, radius=4),
        Line(40, 400, 400, 400, 0.6),
        Line(40, 410, 400, 410, dashed=True),
        Polygon(((40, 420), (60, 420), (50, 440))),
        Polygon(((80, 420), (100, 420), (90, 440)), None, 0.0),
        Words(200, 440, "centred", "bold", 12, align="centre", plate=True),
    )
    first = Page(600, 500, (*lines, *boxes, *rest), "i")
    return Sheet(
        "Sowing chart – Đậu", (first, Page(400, 300, (Words(20, 50, "next"),), "ii")), ((0, "One"), (1, "Zwei½"))
    )


@pytest.fixture(scope="module")
def data() -> bytes:
    return pdf_bytes(everything())


def objects(data: bytes) -> list[Any]:
    """Every object of a PDF."""
    with pdfplumber.open(BytesIO(data)) as pdf:
        return [pdf.doc.getobj(n) for xref in pdf.doc.xrefs for n in xref.get_objids()]


def kept(data: bytes, kind: str) -> list[dict[str, Any]]:
    """The dictionaries of a type, streams' dictionaries included."""
    dictionaries = [o.attrs if isinstance(o, PDFStream) else o for o in objects(data)]
    return [d for d in dictionaries if isinstance(d, dict) and getattr(d.get("Type"), "name", "") == kind]


def commands(data: bytes) -> list[list[str]]:
    """What each page's stream says, word by word."""
    with pdfplumber.open(BytesIO(data)) as pdf:
        return [
            b" ".join(stream.get_data() for stream in page.page_obj.contents).decode("latin-1").split()
            for page in pdf.pages
        ]


def ink(shapes: tuple[Box | Line | Words, ...], scale: float = 4) -> Any:
    """A page of 200 x 100 pt as rows of greys, 0 black."""
    document = pypdfium2.PdfDocument(pdf_bytes(Sheet("ink", (Page(200, 100, shapes),))))
    picture = document[0].render(scale=scale, grayscale=True).to_pil()
    width, height = picture.size
    raw = picture.tobytes()
    return [raw[n * width : (n + 1) * width] for n in range(height)]


def test_the_same_sheet_gives_the_same_bytes(data: bytes) -> None:
    assert data == pdf_bytes(everything())
    assert data.startswith(b"%PDF-1.7")
    assert b"ASCII85" not in data


def test_one_ink(data: bytes) -> None:
    operators = {word for page in commands(data) for word in page if re.fullmatch(r"[A-Za-z]+\*?|'|\"", word)}
    assert operators <= GREY_ONLY | {"BDC", "BMC", "EMC"}  # marks round what is tagged
    assert {"g", "G", "Tj", "re"} <= operators


def test_only_our_fonts_and_all_of_them_embedded(data: bytes) -> None:
    fonts = kept(data, "Font")
    named = {f["BaseFont"].name.partition("+")[2] for f in fonts}
    assert named == set(FONT_FILES.values())
    assert all("FontFile2" in resolve1(f["FontDescriptor"]) for f in fonts)
    assert not any(name in data for name in (b"Helvetica", b"Times", b"Courier"))


def test_a_face_that_is_not_used_is_not_carried() -> None:
    data = pdf_bytes(Sheet("one", (Page(100, 100, (Words(10, 50, "Leek", "condensed bold"),)),)))
    assert {f["BaseFont"].name.partition("+")[2] for f in kept(data, "Font")} == {"NotoSans-CondensedBold"}


def test_every_face_has_a_name_of_its_own_and_the_same_characters() -> None:
    faces = [font(face).face for face in FACES]
    assert len({f.name for f in faces}) == len(FACES)
    assert len({frozenset(f.charToGlyph) for f in faces}) == 1
    widths = [measure()("Hamburgefons", face, 10) for face in FACES]
    assert len(set(widths)) == len(FACES)


def test_no_font_is_asked_for_that_is_not_registered(monkeypatch: pytest.MonkeyPatch) -> None:
    def searched(name: str) -> None:
        raise AssertionError(f"{name} was looked for in all font files of the machine")

    monkeypatch.setattr(pdfmetrics, "findFontAndRegister", searched)
    pdf_bytes(everything())


def test_catalogue_title_outline_and_labels(data: bytes) -> None:
    (root,) = kept(data, "Catalog")
    assert resolve1(root["Lang"]) == b"en-GB"
    assert resolve1(root["ViewerPreferences"])["DisplayDocTitle"]
    document = pypdfium2.PdfDocument(data)
    assert document.get_metadata_value("Title") == "Sowing chart – Đậu"
    assert [mark.get_title() for mark in document.get_toc()] == ["One", "Zwei½"]
    assert [document.get_page_label(n) for n in range(len(document))] == ["i", "ii"]
    assert {document.get_metadata_value(key)[:6] for key in ("CreationDate", "ModDate")} == {"D:2000"}


def test_words_stand_where_they_are_put(data: bytes) -> None:
    width = measure()
    with pdfplumber.open(BytesIO(data)) as pdf:
        line = [c for c in pdf.pages[0].chars if c["fontname"].endswith("-CondensedBold")]
        centred = [c for c in pdf.pages[0].chars if c["fontname"].endswith("-Bold") and c["top"] > 400]
    assert "".join(c["text"] for c in line) == LETTERS
    assert line[0]["x0"] == pytest.approx(40, abs=0.05)
    # widths in the file are whole thousandths of the size
    assert line[-1]["x1"] == pytest.approx(40 + width(LETTERS, "condensed bold", 14), abs=0.02 * len(LETTERS))
    assert (centred[0]["x0"] + centred[-1]["x1"]) / 2 == pytest.approx(200, abs=0.1)


def test_an_accent_written_apart_is_joined_to_its_letter() -> None:
    data = pdf_bytes(Sheet("s", (Page(100, 100, (Words(10, 50, "cafe\u0301"),)),)))
    with pdfplumber.open(BytesIO(data)) as pdf:
        assert [c["text"] for c in pdf.pages[0].chars] == ["c", "a", "f", "\u00e9"]
    assert measure()("e\u0301", "bold", 10) == measure()("\u00e9", "bold", 10)


def test_what_the_fonts_lack_is_reported() -> None:
    assert missing(LETTERS) == set()
    assert missing("leek ☐ 韭 ✓") == {"☐", "韭", "✓"}
    assert missing("\N{HERB}") == {"\N{HERB}"}
    sheet = Sheet("s", (Page(100, 100, (Words(10, 10, "a→b"), Words(10, 20, "x☐"))),))
    assert unprintable(sheet) == missing("→☐")
    assert "☐" in unprintable(sheet)


@pytest.mark.parametrize("hatch", HATCHES)
@pytest.mark.parametrize("box", [(20.3, 31.7, 150.4, 40.9), (33.0, 50.0, 3.2, 30.0), (21.0, 40.0, 120.0, 4.1)])
def test_a_hatch_stays_in_its_box_and_fills_it(hatch: Hatch, box: tuple[float, float, float, float]) -> None:
    x, y, wide, tall = box
    rows = ink((Box(x, y, wide, tall, hatch=hatch),))
    dark = [(n, m) for n, row in enumerate(rows) for m, grey in enumerate(row) if grey < 200]
    if not dark:  # a dot is never cut, so a box narrower than their pitch may hold none
        assert hatch == "dots"
        assert wide < 6.5
        return
    assert min(m for _, m in dark) >= x * 4 - 1.5
    assert max(m for _, m in dark) <= (x + wide) * 4 + 0.5
    assert min(n for n, _ in dark) >= y * 4 - 1.5
    assert max(n for n, _ in dark) <= (y + tall) * 4 + 0.5
    if min(wide, tall) > 20:
        share = len(dark) / (wide * tall * 16)
        assert 0.15 < share < 0.5
        quarter = [d for d in dark if d[0] > (y + tall / 2) * 4 and d[1] > (x + wide / 2) * 4]
        assert len(quarter) / len(dark) == pytest.approx(0.25, abs=0.05)


def test_a_plate_keeps_lines_out_of_words() -> None:
    line = Line(0, 50, 200, 50, line_pt=2)
    through = (line, Words(60, 54, "l  l", size_pt=14))
    plated = (line, Words(60, 54, "l  l", size_pt=14, plate=True))
    gap = int((60 + measure()("l ", "regular", 14)) * 4)  # between the two letters
    assert ink(through)[200][gap] < 60
    assert ink(plated)[200][gap] == 255
    assert ink(plated)[200][40] < 60


def test_dashed_is_not_solid() -> None:
    solid, dashed = ink((Line(10, 50, 190, 50, line_pt=2),)), ink((Line(10, 50, 190, 50, line_pt=2, dashed=True),))
    assert max(solid[200][48:750]) < 60
    assert max(dashed[200][48:750]) == 255
    assert min(dashed[200][48:750]) < 60
