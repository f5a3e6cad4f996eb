"""Posters of sheets: they come together to the whole, no seam runs through words, and a ruler finds the bar true."""

from __future__ import annotations

import re
from collections import Counter
from functools import cache
from io import BytesIO
from itertools import pairwise
from pathlib import Path

import pdfplumber
import pikepdf
import pypdfium2
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL.Image import Image
from typer.testing import CliRunner

from sowsheet.cli.app import app
from sowsheet.cli.print_ import Printing, SheetName
from sowsheet.garden.records import Site
from sowsheet.sheets.chart_head import row_name
from sowsheet.sheets.crop_rows import anchored_row, foot
from sowsheet.sheets.crop_rows import columns as table_columns
from sowsheet.sheets.crop_table import Heading
from sowsheet.sheets.cutting import Window, bounds, cut, seams
from sowsheet.sheets.furniture import MM
from sowsheet.sheets.paint import pdf_bytes
from sowsheet.sheets.paper import PT_PER_M
from sowsheet.sheets.poster import Poster, Unfit, enlarged_sheet, seen_on, tiled
from sowsheet.sheets.poster_grid import FLOOR, TILE_PAPERS, Grid, grid_of, rows_type_pt, size_mm
from sowsheet.sheets.poster_sheets import bed_posters, wall_posters
from sowsheet.sheets.poster_table import table_posters
from sowsheet.sheets.shapes import Box, Hatch, Line, Page, Polygon, Sheet, Tag, Words
from sowsheet.sheets.view import Order, View, spans_of
from sowsheet.site.season import season_mondays
from tests.examples import GARDENS, ROOT, plan
from tests.in_english import EN
from tests.made import catalogue
from tests.sheets.any_garden import BED_NAMES, FEW, LINES
from tests.sheets.pages import WIDTH, collisions, outside, texts, unprintable, written_over
from tests.sheets.test_any_garden import ORDERS, SEASONS, SITES, made
from tests.sheets.test_tags import faults

# The table of `print design`: what n(p - 2m) - (n - 1)o comes to with 10 mm each, worked out apart from the code.
SIZES = [
    ("2x1", "A4", True, 370, 277),
    ("2x2", "A4", False, 544, 370),
    ("3x2", "A4", False, 811, 370),
    ("3x3", "A4", False, 811, 550),
    ("2x1", "Letter", True, 382, 259),
    ("2x2", "Letter", False, 509, 382),
    ("3x2", "Letter", False, 758, 382),
    ("3x3", "Letter", False, 758, 568),
]
GRIDS = [("2x1", "A4"), ("1x2", "Letter"), ("3x2", "Letter"), ("4x3", "A4")]
CHARTS = ("wall", "bed")


def grid(words: str, paper: str = "A4") -> Grid:
    found = grid_of(words, paper)
    assert found is not None
    return found


@cache
def posters(garden: str, chart: str, words: str, paper: str) -> list[Poster]:
    p, on = plan(garden), grid(words, paper)
    about = (p.schedule, p.trays, p.garden, on, WIDTH, None)
    found = wall_posters(*about) if chart == "wall" else bed_posters(*about)
    assert not isinstance(found, Unfit)
    return found


@cache
def sheet(garden: str, chart: str, words: str, paper: str) -> Sheet:
    return tiled("A poster", posters(garden, chart, words, paper), grid(words, paper), WIDTH, EN)


every = pytest.mark.parametrize(
    ("garden", "chart", "words", "paper"),
    [(g, c, w, p) for g in GARDENS for c in CHARTS for w, p in GRIDS],
)


@pytest.mark.parametrize(("words", "paper", "upright", "wide", "tall"), SIZES)
def test_assembled_sizes(words: str, paper: str, upright: bool, wide: int, tall: int) -> None:
    found = grid(words, paper)
    assert found.upright == upright
    assert size_mm(found) == f"{wide} x {tall} mm"


def test_readme_tells_the_sizes() -> None:
    readme = (ROOT / "README.md").read_text(encoding="utf-8")
    rows = re.findall(r"^\| `(\d)x(\d)` \| (\d+) \| (.+?) \| (.+?) \| (.+?) m, (\d+) pt \|$", readme, re.MULTILINE)
    assert len(rows) >= 4
    for columns, down, sheets, a4, letter, far, points in rows:
        own = grid(f"{columns}x{down}")
        assert int(sheets) == own.sheets
        assert (a4, letter) == (size_mm(own), size_mm(grid(f"{columns}x{down}", "Letter")))
        assert (float(far), int(points)) == (rows_type_pt(own) / PT_PER_M, int(rows_type_pt(own)))


@pytest.mark.parametrize("words", ["3x2", "3 x 2", " 3X2 ", "3×2", "3 by 2"])
def test_a_grid_is_read(words: str) -> None:
    assert (grid(words).columns, grid(words).rows) == (3, 2)


@pytest.mark.parametrize("words", ["1x1", "0x2", "7x1", "3", "3x", "x2", "3-2", "", "three by two", "-3x2", "3x2x1"])
def test_what_is_no_grid(words: str) -> None:
    assert grid_of(words, "A4") is None


def test_a_poster_is_put_together_from_papers_at_hand() -> None:
    assert TILE_PAPERS == ("A4", "Letter")
    assert grid_of("2x2", "A1") is None


def whole_on_a_sheet(poster: Poster) -> list[str]:
    """Words that do not stand whole on any one sheet."""
    windows = [seen_on(poster, r, c) for r in range(len(poster.ys) - 1) for c in range(len(poster.xs) - 1)]
    read = [s for s in poster.page.shapes if isinstance(s, Words) and s.text.strip()]
    return [s.text for s in read if not any(w.holds(bounds(s, WIDTH), 0.6) for w in windows)]


@every
def test_no_seam_runs_through_words(garden: str, chart: str, words: str, paper: str) -> None:
    for poster in posters(garden, chart, words, paper):
        assert whole_on_a_sheet(poster) == []
        assert list(written_over(poster.page)) == []


def test_a_seam_through_words_would_be_found() -> None:
    page = Page(200.0, 100.0, (Words(90.0, 50.0, "Leeks and kale"),))
    assert whole_on_a_sheet(Poster(page, (0.0, 80.0, 200.0), (0.0, 100.0))) == []
    assert whole_on_a_sheet(Poster(page, (0.0, 110.0, 200.0), (0.0, 100.0))) == ["Leeks and kale"]


def tiles_of(garden: str, chart: str, words: str, paper: str) -> list[tuple[Poster, int, int, Page]]:
    """Each sheet of each poster: its row, its column, its page."""
    pages = iter(sheet(garden, chart, words, paper).pages[1:])
    return [
        (poster, row, column, next(pages))
        for poster in posters(garden, chart, words, paper)
        for row in range(len(poster.ys) - 1)
        for column in range(len(poster.xs) - 1)
    ]


@every
def test_sheets_come_together_to_the_whole(garden: str, chart: str, words: str, paper: str) -> None:
    on = grid(words, paper)
    tiles = tiles_of(garden, chart, words, paper)
    assert len(tiles) == len(sheet(garden, chart, words, paper).pages) - 1
    for poster in posters(garden, chart, words, paper):
        own = [(r, c, page) for p, r, c, page in tiles if p is poster]
        wide, tall = on.pitch
        assert poster.xs == pytest.approx([n * wide for n in range(on.columns + 1)])
        assert poster.ys == pytest.approx([n * tall for n in range(len(poster.ys))])
        # every word of the whole stands where its sheet puts it, and nothing else does but the marks
        put = sorted(
            (s.text, round(s.x, 1), round(s.y, 1)) for s in poster.page.shapes if isinstance(s, Words) and s.text
        )
        found = sorted(
            (s.text, round(s.x - 10 * MM + c * wide, 1), round(s.y - 10 * MM + r * tall, 1))
            for r, c, page in own
            for s in page.shapes
            if isinstance(s, Words) and s.text and s.y < 10 * MM + tall
        )
        assert [text for text, _, _ in put] == [text for text, _, _ in found]
        for a, b in zip(put, found, strict=True):
            assert a == pytest.approx(b, abs=0.2) if a[0] != b[0] else a[1:] == pytest.approx(b[1:], abs=0.2)
        # the ink of boxes, window by window, is that of the whole
        boxes = [s for s in poster.page.shapes if isinstance(s, Box)]
        windows = [seen_on(poster, r, c) for r, c, _ in own]
        parts = [b for w in windows for b in cut(boxes, w, WIDTH) if isinstance(b, Box)]
        assert sum(b.width * b.height for b in parts if b.fill is not None) == pytest.approx(
            sum(b.width * b.height for b in boxes if b.fill is not None), rel=1e-4
        )


@every
def test_marks_and_words_are_where_printers_print(garden: str, chart: str, words: str, paper: str) -> None:
    found = sheet(garden, chart, words, paper)
    assert list(outside(found, FLOOR)) == []
    assert unprintable(found) == set()
    for page in found.pages:
        assert collisions(page) == []


@every
def test_a_sheet_is_told_by_its_row_and_column_and_has_its_ticks(
    garden: str, chart: str, words: str, paper: str
) -> None:
    on = grid(words, paper)
    for number, (poster, row, column, page) in enumerate(tiles_of(garden, chart, words, paper), 1):
        rows, columns = len(poster.ys) - 1, len(poster.xs) - 1
        told = [t for t in texts(page) if f"row {row + 1} of {rows}, column {column + 1} of {columns}" in t.text]
        assert len(told) == 1
        assert told[0].text.startswith(f"Sheet {number}: ")
        assert page.label == str(number)
        right, bottom = 10 * MM + on.pitch[0], 10 * MM + on.pitch[1]
        assert bottom < told[0].top and told[0].bottom < page.height - 10 * MM  # outside the trim, inside the margin
        ticks = [s for s in page.shapes if isinstance(s, Line) and s.line_pt == pytest.approx(0.6) and s.y1 > bottom]
        for x in (10 * MM, right):
            down = [t for t in ticks if t.x1 == t.x2 == pytest.approx(x)]
            assert [(t.y1 - bottom, t.y2 - t.y1) for t in down] == [pytest.approx((2 * MM, 5 * MM))]


def test_the_bar_is_100_mm_long_in_the_pdf() -> None:
    with pdfplumber.open(BytesIO(pdf_bytes(sheet("four-beds", "wall", "3x2", "Letter")))) as pdf:
        for page in pdf.pages:
            words = page.extract_text()
            assert "100 mm" in words and "print at 100 %" in words
            long = [line["x1"] - line["x0"] for line in page.lines if abs(line["top"] - line["bottom"]) < 0.01]
            assert any(abs(length - 283.4646) < 0.02 for length in long)
            assert (round(float(page.width)), round(float(page.height))) == (792, 612)


@every
def test_the_weeks_stand_again_over_each_row_of_sheets(garden: str, chart: str, words: str, paper: str) -> None:
    tall = grid(words, paper).pitch[1]
    season = plan(garden).schedule.season
    numbers_of = (monday.isocalendar().week for monday in season_mondays(season))
    weeks = {str(week) for week in numbers_of if week % 4 == 0}  # those between stand where they have room
    for poster in posters(garden, chart, words, paper):
        for row in range(len(poster.ys) - 1):
            own = [s for s in poster.page.shapes if isinstance(s, Words) and row * tall <= s.y < (row + 1) * tall]
            read = [s for s in own if s.face == "semi bold" and s.size_pt >= 0.9 * max(w.size_pt for w in own) / 1.5]
            numbers = [s for s in own if s.face.startswith("condensed") and s.text.isdigit()]
            lines = Counter(round(s.y, 1) for s in numbers)
            line = min(lines, default=0.0)  # the uppermost: those below count trays
            stand = {s.text for s in numbers if round(s.y, 1) == line}
            has_rows = any(s.text in _names(garden) for s in read)
            assert stand >= weeks or not has_rows, (row, stand)


def _names(garden: str) -> set[str]:
    """What stands at the left of rows: beds and crops."""
    p = plan(garden)
    return {bed.name for bed in p.garden.beds} | {row_name(b) for b in p.schedule.batches}


@pytest.mark.parametrize("garden", GARDENS)
@pytest.mark.parametrize(("words", "paper"), [("2x1", "A4"), ("3x2", "Letter"), ("4x3", "A4")])
def test_names_of_beds_stand_on_every_column_of_sheets(garden: str, words: str, paper: str) -> None:
    beds = {bed.name for bed in plan(garden).garden.beds}
    named: dict[tuple[int, int], list[set[str]]] = {}
    for poster, row, _, page in tiles_of(garden, "bed", words, paper):
        own = {s.text for s in page.shapes if isinstance(s, Words) and s.face.endswith("bold")} & beds
        named.setdefault((id(poster), row), []).append(own)
    assert set().union(*(own[0] for own in named.values())) == beds
    for columns in named.values():
        assert all(own == columns[0] for own in columns), columns


@pytest.mark.parametrize("garden", GARDENS)
@pytest.mark.parametrize(("words", "paper"), [("2x1", "A4"), ("3x2", "Letter"), ("4x3", "A4")])
def test_names_of_sowings_stand_on_every_column_of_sheets(garden: str, words: str, paper: str) -> None:
    crops = {b.kind.name for b in plan(garden).schedule.batches} | {b.kind.crop for b in plan(garden).schedule.batches}
    crops = {crop.lower() for crop in crops}
    rows: dict[tuple[int, int], list[int]] = {}
    for poster, row, column, page in tiles_of(garden, "wall", words, paper):
        bold = [s for s in page.shapes if isinstance(s, Words) and s.face.endswith("bold") and s.align == "left"]
        own = [s for s in bold if any(crop[:4] in s.text.lower() for crop in crops)]
        if column:
            rows.setdefault((id(poster), row), []).append(len(own))
    assert sum(counts[0] for counts in rows.values()) >= len(plan(garden).schedule.batches) - 2
    for counts in rows.values():
        assert len(set(counts)) == 1, counts


@every
def test_rows_are_set_in_type_for_their_distance(garden: str, chart: str, words: str, paper: str) -> None:
    on = grid(words, paper)
    for poster in posters(garden, chart, words, paper):
        [said] = [t.text for t in texts(poster.page) if t.text.startswith(("read from ", "weeks "))]
        number, unit = re.findall(r"read from ([\d.]+) (m|ft)", said)[0]
        if unit == "ft":
            continue  # told to the whole foot
        assert float(number) >= 0.5 * rows_type_pt(on) / PT_PER_M - 0.01
        names = [
            s.size_pt
            for s in poster.page.shapes
            if isinstance(s, Words) and s.face == "semi bold" and s.x < 20 and s.text[:1].isupper()
        ]
        beds_and_rows = [size for size in names if size >= 0.99 * PT_PER_M * float(number)]
        assert len(beds_and_rows) >= 2


@pytest.mark.parametrize("garden", GARDENS)
def test_each_part_is_told_what_the_whole_would_be(garden: str) -> None:
    """No row says on one sheet that it has no date, since it has it on another; the heads are whole on the first."""
    for words, paper in GRIDS:
        for poster in posters(garden, "wall", words, paper):
            read = [t.text for t in texts(poster.page)]
            assert [text for text in read if text.startswith("no date")] == []
            assert read.count("Monday") == 1


@pytest.mark.parametrize("hatch", ["diagonal", "vertical"])
def test_hatches_and_edges_fit_together_on_paper(hatch: Hatch) -> None:
    box = Box(100.0, 40.0, 780.0, 300.0, fill=1.0, stroke=0.0, line_pt=2.0, hatch=hatch, pitch_pt=23.0)
    on, scale = grid("2x2"), 2.0
    (wide, tall), size = on.pitch, on.size
    poster = Poster(Page(*size, (box,)), (0.0, wide, 2 * wide), (0.0, 239.7, 239.7 + tall))
    tiles = [picture(page, scale) for page in tiled("", [poster], on, WIDTH, EN).pages[1:]]
    whole = picture(poster.page, scale)
    corner = 10 * MM
    for n, tile in enumerate(tiles):
        seen = seen_on(poster, n // 2, n % 2)
        at = Window(
            max(seen.left, 50.0) + 2, max(seen.top, 20.0) + 2, min(seen.right, 900.0) - 2, min(seen.bottom, 380.0) - 2
        )
        off = (corner - seen.left, corner - seen.top)
        found = [
            abs(tone(tile, (x + off[0]) * scale, (y + off[1]) * scale) - tone(whole, x * scale, y * scale))
            for x in range(int(at.left) + 1, int(at.right), 3)
            for y in range(int(at.top) + 1, int(at.bottom), 7)
        ]
        assert sum(found) / len(found) < 25  # the edges of stripes fall between dots; out of step it is above 80


def tone(drawn: Image, x: float, y: float) -> int:
    """A dot's grey, 0 to 255."""
    found = drawn.crop((round(x), round(y), round(x) + 1, round(y) + 1))
    return found.tobytes()[0]


def picture(page: Page, scale: float) -> Image:
    document = pypdfium2.PdfDocument(pdf_bytes(Sheet("", (page,))))
    drawn: Image = document[0].render(scale=scale, grayscale=True).to_pil()
    return drawn


def test_a_distance_that_is_asked_for_is_kept_and_needs_more_posters() -> None:
    p, on = plan("twelve-beds"), grid("3x3")
    about = (p.schedule, p.trays, p.garden, on, WIDTH, None)
    far = wall_posters(*about, view=View(2.0))
    assert not isinstance(far, Unfit) and len(far) > 1
    assert len(posters("twelve-beds", "wall", "3x3", "A4")) == 1
    names = [s.size_pt for s in far[0].page.shapes if isinstance(s, Words) and s.text.startswith("Winter lettuce")]
    assert max(names) >= 2 * PT_PER_M


def test_ribbons_run_on_over_a_seam_and_have_no_end_there() -> None:
    [poster] = posters("four-beds", "bed", "2x1", "A4")
    seam = poster.xs[1]
    upright = [
        s
        for s in poster.page.shapes
        if isinstance(s, Line) and s.x1 == s.x2 and abs(s.x1 - seam) < 0.1 and 5 < s.y2 - s.y1 < 60 and s.y1 > 150
    ]
    assert upright == []
    assert not [s for s in poster.page.shapes if isinstance(s, Polygon) and len(s.points) == 3 and _ends_at(s, seam)]
    lines = [s for s in poster.page.shapes if isinstance(s, Line) and s.y1 == s.y2 and s.line_pt > 0.9 and s.grey == 0]
    assert any(abs(s.x2 - seam) < 0.1 for s in lines) and any(abs(s.x1 - seam) < 0.1 for s in lines)


def _ends_at(wedge: Polygon, x: float) -> bool:
    """Whether a wedge that says `goes on` points at a line from its left."""
    return sum(abs(at - x) < 0.1 for at, _ in wedge.points) == 1 and max(at for at, _ in wedge.points) < x + 0.1


@pytest.mark.parametrize("chart", CHARTS)
def test_the_file_is_whole_titled_and_labelled(chart: str) -> None:
    found = sheet("own-weather", chart, "3x2", "Letter")
    with pikepdf.open(BytesIO(pdf_bytes(found))) as pdf:
        assert pdf.check_pdf_syntax() == []
        assert str(pdf.docinfo["/Title"]) == found.title
        assert str(pdf.Root.ViewerPreferences.PrintScaling) == "/None"
        labels = [str(entry["/P"]) for entry in list(pdf.Root.PageLabels.Nums)[1::2]]
        assert labels == [str(n) for n in range(len(found.pages))]


@every
def test_each_row_is_read_once_in_its_order_and_what_goes_on_is_told(
    garden: str, chart: str, words: str, paper: str
) -> None:
    """All rows stand in the first column of sheets; of the others a screen reader says which weeks they go on with."""
    p, heads = plan(garden), list[str]()
    for _, row, column, page in tiles_of(garden, chart, words, paper):
        roles = [tag.role for tag in page.tags]
        assert page.tags[0].words == "" and words_of(page, page.tags[0])[0].startswith("Sheet ")
        assert roles.count("H1") == (1 if row == column == 0 else 0)
        if column:
            assert roles.count("Figure") == 1
            assert not {"TR", "TH", "TD"} & set(roles)
        heads += [tag.words or words_of(page, tag)[0] for tag in page.tags if tag.role == "TH"]
    if chart == "bed":
        assert heads == [bed.name for bed in p.garden.beds]
    else:
        assert len(heads) == len(p.schedule.batches)


def words_of(page: Page, tag: Tag) -> list[str]:
    """The words that a tag marks."""
    return [s.text for s in page.shapes[tag.start : tag.end] if isinstance(s, Words)]


@pytest.mark.parametrize(("name", "words"), [(SheetName.JOB_SHEETS, "1x2"), (SheetName.YEAR, "2x2")])
def test_no_words_of_an_enlarged_page_are_lost_to_a_screen_reader(name: SheetName, words: str) -> None:
    source = hand("four-beds", name, "A4")
    found = enlarged_sheet(source, grid(words), WIDTH, EN)
    assert isinstance(found, Sheet)
    before = Counter(text for page in source.pages for tag in page.tags for text in words_of(page, tag))
    after = Counter(text for page in found.pages[1:] for tag in page.tags[1:] for text in words_of(page, tag))
    assert after == before


@settings(FEW, max_examples=15)
@given(
    st.lists(LINES, min_size=1, max_size=12),
    BED_NAMES,
    SITES,
    SEASONS,
    st.sampled_from(ORDERS),
    st.sampled_from(["2x1", "1x2", "2x2", "3x2", "3x1", "5x3"]),
    st.sampled_from(TILE_PAPERS),
    st.sampled_from(["", "half"]),
)
def test_any_garden(
    lines: list[str], bed: str, site: Site, season: int, order: Order, words: str, paper: str, weeks: str
) -> None:
    dated, trays, grown = made(tuple(lines), bed, site, season)
    on = grid(words, paper)
    spans = (spans_of(weeks, dated.season) or ()) if weeks else ()
    view = View(None, order, spans)
    for found in (
        wall_posters(dated, trays, grown, on, WIDTH, None, view=view),
        bed_posters(dated, trays, grown, on, WIDTH, None, view),
    ):
        assert not isinstance(found, Unfit), found
        for poster in found:
            assert whole_on_a_sheet(poster) == []
            assert list(written_over(poster.page)) == []
        whole = tiled("A poster", found, on, WIDTH, EN)
        assert list(outside(whole, FLOOR)) == []
        for page in whole.pages:
            assert collisions(page) == []


@cache
def hand(garden: str, name: SheetName, paper: str) -> Sheet:
    return Printing(plan(garden), paper, None).sheet(name)


@pytest.mark.parametrize("garden", ["four-beds", "twelve-beds"])
@pytest.mark.parametrize(
    ("name", "words", "paper"),
    [
        (SheetName.JOB_SHEETS, "1x2", "A4"),
        (SheetName.JOB_SHEETS, "1x3", "Letter"),
        (SheetName.TRAY_PLAN, "1x2", "A4"),
        (SheetName.SHOPPING, "1x2", "Letter"),
        (SheetName.YEAR, "2x2", "A4"),
        (SheetName.LABELS, "2x2", "A4"),
        (SheetName.WEEKEND, "1x2", "A4"),
    ],
)
def test_pages_for_the_hand_are_enlarged_between_their_words(
    garden: str, name: SheetName, words: str, paper: str
) -> None:
    source = hand(garden, name, paper)
    found = enlarged_sheet(source, grid(words, paper), WIDTH, EN)
    assert isinstance(found, Sheet)
    assert list(outside(found, FLOOR)) == []
    sizes = [s.size_pt for p in source.pages for s in p.shapes if isinstance(s, Words) and s.text.strip()]
    marks = re.compile(r"Sheet \d+: |100 mm: ")
    enlarged = [
        s
        for p in found.pages[1:]
        for s in p.shapes
        if isinstance(s, Words) and s.text.strip() and not marks.match(s.text)
    ]
    texts_of = sorted(s.text for p in source.pages for s in p.shapes if isinstance(s, Words) and s.text.strip())
    assert sorted(s.text for s in enlarged) == texts_of  # each stands on one sheet, whole
    assert min(s.size_pt for s in enlarged) / min(sizes) >= 1.1
    for page in found.pages:
        assert collisions(page) == []


def test_pages_of_text_in_two_columns_are_refused_with_what_works() -> None:
    found = enlarged_sheet(hand("four-beds", SheetName.JOB_SHEETS, "A4"), grid("2x1"), WIDTH, EN)
    assert isinstance(found, Unfit)
    assert "1x2" in EN.say(f"poster.{found.why}.cure")


def test_a_chart_of_fewer_weeks_than_columns_is_refused() -> None:
    p = plan("four-beds")
    view = View(None, "sowing", spans_of("9-10", p.schedule.season) or ())
    found = wall_posters(p.schedule, p.trays, p.garden, grid("3x2"), WIDTH, None, view=view)
    assert isinstance(found, Unfit)
    assert "weeks" in EN.say(f"poster.{found.why}.what")


def test_shapes_are_cut_by_geometry() -> None:
    window = Window(10.0, 10.0, 20.0, 20.0)
    [part] = cut([Box(5.0, 12.0, 10.0, 4.0, fill=1.0, hatch="diagonal")], window, WIDTH)
    assert isinstance(part, Box)
    assert (part.x, part.y, part.width, part.height, part.hatch) == (10.0, 12.0, 5.0, 4.0, "diagonal")
    sides = list(cut([Box(5.0, 12.0, 10.0, 4.0, stroke=0.0)], window, WIDTH))
    assert all(isinstance(s, Line) for s in sides) and len(sides) == 3  # open where it is cut
    [line] = cut([Line(0.0, 0.0, 30.0, 30.0)], window, WIDTH)
    assert isinstance(line, Line) and (line.x1, line.y1, line.x2, line.y2) == pytest.approx((10, 10, 20, 20))
    [corner] = cut([Polygon(((15.0, 15.0), (25.0, 15.0), (15.0, 25.0)))], window, WIDTH)
    assert isinstance(corner, Polygon) and max(x for x, _ in corner.points) == 20.0
    assert list(cut([Box(30.0, 30.0, 5.0, 5.0, fill=0.0), Words(18.0, 15.0, "Leeks")], window, WIDTH)) == []


@given(
    st.lists(st.tuples(st.floats(0, 950), st.floats(5, 40)), max_size=25),
    st.floats(150, 400),
)
def test_seams_keep_off_what_is_taken(found: list[tuple[float, float]], reach: float) -> None:
    taken = [(a, a + tall) for a, tall in found]
    cuts = seams(taken, 1000.0, reach, 12)
    if cuts is None:
        return
    assert cuts[0] == 0.0 and cuts[-1] == 1000.0
    assert all(0 < b - a <= reach + 0.02 for a, b in pairwise(cuts))
    for cut_at in cuts[1:-1]:
        assert not any(a < cut_at < b for a, b in taken)


FOUR = ROOT / "out_examples" / "four-beds" / "garden.yaml"


def test_print_writes_posters_of_the_charts_under_their_own_names(tmp_path: Path) -> None:
    ran = CliRunner().invoke(app, ["print", str(FOUR), "--poster", "2 x 1", "--out", str(tmp_path)])
    assert ran.exit_code == 0, ran.output
    assert {p.name for p in tmp_path.iterdir()} == {
        "wall-chart-poster.pdf",
        "bed-chart-poster.pdf",
    }


@pytest.mark.parametrize(
    ("asked", "says"),
    [
        (["--poster", "1x1"], "--paper"),
        (["--poster", "9x2"], "e.g. --poster 3x2"),
        (["--poster", "large"], "e.g. --poster 3x2"),
        (["--poster", "2x2", "--paper", "A2"], "A4 or Letter"),
        (["shopping-list", "--poster", "2x1"], "--poster 1x2"),
        (["wall-chart", "--poster", "2x1", "--distance", "9 m"], "--distance '1 m'"),
    ],
)
def test_what_cannot_be_a_poster_is_told_with_an_example(asked: list[str], says: str, tmp_path: Path) -> None:
    ran = CliRunner().invoke(app, ["print", str(FOUR), *asked, "--out", str(tmp_path / "sheets")])
    assert ran.exit_code == 2
    assert says in ran.stderr
    assert "Traceback" not in ran.output
    assert not (tmp_path / "sheets").exists()


def test_help_has_an_example() -> None:
    assert "--poster 3x2" in CliRunner().invoke(app, ["print", "--help"]).output


@pytest.mark.parametrize(("words", "paper"), [("3x2", "A4"), ("4x1", "Letter"), ("2x3", "A4")])
def test_the_table_of_all_crops_is_a_poster_of_small_tables(words: str, paper: str) -> None:
    """Each sheet has the names of its crops and all heads of its columns; each cell of the table stands once."""
    on, kinds = grid(words, paper), [kind for crop in catalogue().crops.values() for kind in crop.kinds]
    rows = [anchored_row(EN, kind, imperial=False) for kind in kinds]
    heading = Heading(EN, "all crops", foot(EN, None), table_columns(EN, False))
    found = table_posters(rows, heading, on, WIDTH)
    assert not isinstance(found, Unfit)
    read: list[list[str]] = [[] for _ in range(on.columns)]
    for poster in found:
        assert whole_on_a_sheet(poster) == []
        for row in range(len(poster.ys) - 1):
            names = [
                [s.text for s in _seen(poster, row, column) if s.face == "semi bold" and s.text in NAMES]
                for column in range(on.columns)
            ]
            assert all(own == names[0] for own in names)
        for column in range(on.columns):
            for row in range(len(poster.ys) - 1):
                read[column] += [s.text for s in _seen(poster, row, column) if s.face == "condensed"]
    cells = Counter(cell for row in rows for cell in row.cells[1:])
    assert Counter(text for own in read for text in own) == cells
    made = tiled("Crops", found, on, WIDTH, EN)
    assert list(outside(made, FLOOR)) == []
    assert [collisions(page) for page in made.pages] == [[] for _ in made.pages]
    heads = [tag.words or words_of(page, tag)[0] for page in made.pages[1:] for tag in page.tags if tag.role == "TH"]
    assert Counter(heads) == Counter({row.cells[0]: on.columns for row in rows})


NAMES = frozenset(anchored_row(EN, k, imperial=False).cells[0] for c in catalogue().crops.values() for k in c.kinds)


def _seen(poster: Poster, row: int, column: int) -> list[Words]:
    """The words of a poster that stand on a sheet, line by line."""
    window = seen_on(poster, row, column)
    read = [s for s in poster.page.shapes if isinstance(s, Words) and window.holds(bounds(s, WIDTH), 0.6)]
    return sorted(read, key=lambda s: (round(s.y, 1), s.x))


def test_a_table_too_wide_for_its_sheets_is_refused_with_what_works(tmp_path: Path) -> None:
    ran = CliRunner().invoke(app, ["crops", "--pdf", "--poster", "2x1", "--out", str(tmp_path / "sheets")])
    assert ran.exit_code == 2
    assert "--poster 3x2" in ran.stderr
    ran = CliRunner().invoke(app, ["crops", "--pdf", "--poster", "3x2", "--out", str(tmp_path / "sheets")])
    assert ran.exit_code == 0, ran.output
    assert [p.name for p in (tmp_path / "sheets").iterdir()] == ["crops-poster.pdf"]
    assert faults((tmp_path / "sheets" / "crops-poster.pdf").read_bytes()) == []
