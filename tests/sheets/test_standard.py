"""The measured standard that every printed sheet of the examples keeps: contrast, one ink, marks that a poor copier
keeps apart, and files that a strict reader of PDF accepts.

Sources: contrast is WCAG 2.2, success criterion 1.4.6 (7:1) and its relative luminance; the syntax of PDF is checked
by qpdf as pikepdf carries it; reading distances and the shares of ink are the project's own limits.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import cache
from io import BytesIO
from itertools import combinations
from pathlib import Path

import pikepdf
import pypdfium2
import pytest

from sowsheet.cli.common import plan_of
from sowsheet.cli.print_ import Printing, SheetName
from sowsheet.sheets.chart_head import Style
from sowsheet.sheets.paint import pdf_bytes
from sowsheet.sheets.paper import landscape
from sowsheet.sheets.shapes import Box, Hatch, Page, Polygon, Sheet, Words
from sowsheet.words.language import language_of
from tests.examples import GARDENS, ROOT
from tests.sheets.pages import WIDTH, texts

CONTRAST = 7.0
APART = 0.10
COLOURS = re.compile(rb"(?<=\s)(rg|RG|k|K|cs|CS|sc|SC|scn|SCN|sh)(?=\s)")
EVERY = [(garden, name) for garden in GARDENS for name in SheetName]


@cache
def printing(garden: str) -> Printing:
    return Printing(plan_of(ROOT / "out_examples" / garden / "garden.yaml"), "A3", None)


@cache
def sheet(garden: str, name: SheetName) -> Sheet:
    return printing(garden).sheet(name)


def luminance(grey: float) -> float:
    """WCAG's relative luminance of a grey, 0 black to 1 white."""
    return grey / 12.92 if grey <= 0.04045 else float(((grey + 0.055) / 1.055) ** 2.4)


def contrast(one: float, other: float) -> float:
    light, dark = sorted((luminance(one), luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def weak(page: Page) -> Iterator[str]:
    """Words too pale for what lies behind their middle."""
    read = iter(texts(page))
    behind: list[tuple[float, float, float, float, float]] = []
    for shape in page.shapes:
        match shape:
            case Box() if shape.fill is not None:
                behind.append((shape.x, shape.y, shape.x + shape.width, shape.y + shape.height, shape.fill))
            case Polygon() if shape.fill is not None:
                xs, ys = [x for x, _ in shape.points], [y for _, y in shape.points]
                behind.append((min(xs), min(ys), max(xs), max(ys), shape.fill))
            case Words() if shape.text.strip():
                text = next(read)
                x, y = (text.left + text.right) / 2, (text.top + text.bottom) / 2
                under = [fill for a, b, c, d, fill in behind if a <= x <= c and b <= y <= d]
                ground = 1.0 if shape.plate or not under else under[-1]
                if contrast(shape.grey, ground) < CONTRAST:
                    yield f"{shape.text!r}: {contrast(shape.grey, ground):.2f}"
            case _:
                pass


def test_contrast_is_wcag_s() -> None:
    assert contrast(0.0, 1.0) == pytest.approx(21.0)
    assert contrast(0x59 / 255, 1.0) == pytest.approx(7.0, abs=0.01)  # #595959, the usual example of 7:1
    assert contrast(0x76 / 255, 1.0) == pytest.approx(4.54, abs=0.01)  # #767676, the usual example of 4.5:1


@pytest.mark.parametrize(("garden", "name"), EVERY)
def test_words_stand_out_from_their_ground_by_7_to_1(garden: str, name: SheetName) -> None:
    assert [found for page in sheet(garden, name).pages for found in weak(page)] == []


@pytest.mark.parametrize(("garden", "name"), EVERY)
def test_a_strict_reader_finds_a_whole_file_with_title_language_labels_and_outline(
    garden: str, name: SheetName
) -> None:
    made = sheet(garden, name)
    with pikepdf.open(BytesIO(pdf_bytes(made))) as pdf:
        assert pdf.check_pdf_syntax() == []
        assert str(pdf.docinfo["/Title"]) == made.title
        assert str(pdf.Root.Lang).startswith("en")
        assert len(pdf.pages) == len(made.pages)
        labels = [str(entry["/P"]) for entry in list(pdf.Root.PageLabels.Nums)[1::2]]
        assert labels == [page.label or str(n) for n, page in enumerate(made.pages, 1)]
        if made.bookmarks:
            with pdf.open_outline() as outline:
                assert len(outline.root) == len(made.bookmarks)
        for page in pdf.pages:
            assert COLOURS.findall(re.sub(rb"<[0-9a-f]*>|\(.*?\)", b"", page.Contents.read_bytes())) == []
            for entry in page.Resources.Font.values():
                assert "/FontFile2" in entry.FontDescriptor, entry.BaseFont


def ink_share(box: Box) -> float:
    """The share of black inside a mark on a grey band, printed at 300 dots an inch and copied in black and white."""
    around = Box(0.0, 0.0, 200.0, 100.0, fill=0.94)
    document = pypdfium2.PdfDocument(pdf_bytes(Sheet("ink", (Page(200.0, 100.0, (around, box)),))))
    picture = document[0].render(scale=300 / 72, grayscale=True).to_pil()
    edge = 2.0  # the outline is not what is told apart
    scale = 300 / 72
    corners = (box.x + edge, box.y + edge, box.x + box.width - edge, box.y + box.height - edge)
    inside = picture.crop(tuple(round(c * scale) for c in corners)).tobytes()
    return float(sum(value < 128 for value in inside) / len(inside))


@pytest.mark.parametrize("paper", ["A4", "A3", "A2", "A1"])
def test_the_chart_s_marks_stay_apart_on_a_poor_copier(paper: str) -> None:
    style = Style(landscape(paper), WIDTH, None, language_of("en"))
    whole = (20.0, 20.0, 160.0, 60.0)
    shares = {
        "sown": ink_share(Box(*whole, fill=0.0)),
        "picking": ink_share(Box(*whole, fill=1.0, stroke=0.0, hatch="diagonal", pitch_pt=style.hatching)),
        "hardening": ink_share(Box(*whole, fill=1.0, stroke=0.0, hatch="vertical", pitch_pt=style.ruling)),
        "growing": ink_share(Box(*whole, fill=1.0, stroke=0.0)),
    }
    for one, other in combinations(shares, 2):
        assert abs(shares[one] - shares[other]) >= APART, shares


def test_the_tray_plan_s_bars_stay_apart_on_a_poor_copier() -> None:
    hatches: tuple[Hatch, ...] = ("diagonal", "dots", "")
    made = [ink_share(Box(20.0, 20.0, 160.0, 60.0, fill=1.0, stroke=0.0, hatch=h, pitch_pt=5.0)) for h in hatches]
    assert all(abs(a - b) >= APART for a, b in combinations([*made, 1.0], 2)), made


@pytest.mark.parametrize("name", list(SheetName))
def test_names_are_printed_as_they_stand_and_are_no_markup(name: SheetName, tmp_path: Path) -> None:
    text = (ROOT / "out_examples" / "four-beds" / "garden.yaml").read_text(encoding="utf-8")
    odd = "<b>A</b> & <img src=x> &amp; %s {y}"
    assert "Plover Yard" in text
    (tmp_path / "garden.yaml").write_text(text.replace("Plover Yard", odd, 1), encoding="utf-8")
    made = Printing(plan_of(tmp_path / "garden.yaml"), "A3", None).sheet(name)
    assert odd in made.title
    with pikepdf.open(BytesIO(pdf_bytes(made))) as pdf:
        assert str(pdf.docinfo["/Title"]) == made.title
    if name is not SheetName.LABELS:  # labels carry no garden's name
        read = pypdfium2.PdfDocument(pdf_bytes(made))[0].get_textpage().get_text_bounded()
        assert odd[:24] in " ".join(read.split())  # a narrow sheet cuts its end
