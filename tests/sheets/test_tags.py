"""What a screen reader meets: every sheet of the examples is PDF/UA-1, read in order, with the plan's own dates.

PDF/UA-1 (ISO 14289-1) is asked of page-validation. It tests what a machine can; the order and the worth of the
sentences are tested here against the schedule.
"""

from __future__ import annotations

import re
import subprocess
import sys
from collections.abc import Iterator
from datetime import date
from functools import cache
from io import BytesIO
from pathlib import Path

import msgspec
import page as checker
import pdfplumber
import pikepdf
import pytest
from typer.testing import CliRunner

from sowsheet.cli.app import app
from sowsheet.cli.common import plan_of
from sowsheet.cli.print_ import Printing, SheetName
from sowsheet.growth.when import When
from sowsheet.schedule.records import Batch
from sowsheet.sheets.paint import pdf_bytes
from sowsheet.sheets.poster_grid import grid_of
from sowsheet.sheets.shapes import Leaf, Line, Page, Sheet, Tag, Words
from sowsheet.sheets.spoken import weeks
from sowsheet.sheets.tagging import without_zeros
from sowsheet.sheets.view import View, spans_of
from tests.examples import GARDENS, ROOT, plan, printed


@cache
def files(garden: str) -> dict[str, bytes]:
    return printed(garden)


def faults(data: bytes) -> list[str]:
    """What the checker finds against PDF/UA-1."""
    report = checker.validate_pdf_bytes(data, profile="ua1")
    found = [f"{f.rule_id}: {f.message}" for f in report.failures]
    assert report.is_compliant == (found == [])
    return found


class Heard(msgspec.Struct, frozen=True):
    """An element: its role, how deep it lies, what is said in its place, and what is printed in it."""

    role: str
    depth: int
    said: str
    text: str


def heard(data: bytes) -> list[Heard]:
    """The elements of a file in the order in which they are read."""
    texts: dict[tuple[int, int], str] = {}
    with pdfplumber.open(BytesIO(data)) as pdf:
        for n, page in enumerate(pdf.pages):
            for char in page.chars:
                if char["mcid"] is not None:
                    at = (n, char["mcid"])
                    texts[at] = texts.get(at, "") + str(char["text"])
    with pikepdf.open(BytesIO(data)) as read:
        numbers: dict[object, int] = {page.objgen: n for n, page in enumerate(read.pages)}

        def walk(element: pikepdf.Object, depth: int) -> Iterator[Heard]:
            kids: object = element.get("/K", [])
            held: list[object] = list(kids) if isinstance(kids, pikepdf.Array | list) else [kids]
            own = [texts.get((numbers[element.Pg.objgen], kid), "") for kid in held if isinstance(kid, int)]
            said = str(element.get("/Alt", element.get("/ActualText", "")))
            yield Heard(str(element.S)[1:], depth, said, "".join(own))
            for kid in held:
                if isinstance(kid, pikepdf.Dictionary):
                    assert kid.P.objgen == element.objgen
                    yield from walk(kid, depth + 1)

        return list(walk(read.Root.StructTreeRoot.K, 0))


def unmarked(data: bytes) -> list[str]:
    """Pages with letters or lines outside every mark, or inside two."""
    found = []
    with pikepdf.open(BytesIO(data)) as pdf:
        for number, page in enumerate(pdf.pages, 1):
            depth = 0
            for instruction in pikepdf.parse_content_stream(page):
                operator = str(instruction.operator)
                depth += {"BDC": 1, "BMC": 1, "EMC": -1}.get(operator, 0)
                if (operator in {"Tj", "S", "f", "B"} and depth != 1) or not 0 <= depth <= 1:
                    found.append(f"page {number}: {operator} at depth {depth}")
    return found


@pytest.mark.parametrize("garden", GARDENS)
def test_every_sheet_is_pdf_ua(garden: str) -> None:
    for name, data in files(garden).items():
        assert faults(data) == [], name
        assert unmarked(data) == [], name


@pytest.mark.parametrize(
    "printing",
    [
        Printing(plan("twelve-beds"), "Letter", None, View(None, "bed"), large=True),
        Printing(
            plan("southern"),
            "A4",
            plan("southern").schedule.season.start,
            View(0.7, "place", spans_of("quarter", plan("southern").schedule.season) or ()),
        ),
    ],
    ids=["by bed, large", "quarters, by place"],
)
@pytest.mark.parametrize("name", list(SheetName))
def test_other_views_are_pdf_ua_too(printing: Printing, name: SheetName) -> None:
    data = pdf_bytes(printing.sheet(name))
    assert faults(data) == []
    assert unmarked(data) == []


@pytest.mark.parametrize(
    ("name", "words"),
    [
        (SheetName.WALL_CHART, "3x2"),
        (SheetName.BED_CHART, "2x2"),
        (SheetName.JOB_SHEETS, "1x2"),
        (SheetName.TRAY_PLAN, "1x2"),
        (SheetName.SHOPPING, "1x2"),
        (SheetName.YEAR, "2x2"),
        (SheetName.LABELS, "2x2"),
    ],
)
def test_posters_are_pdf_ua_too(name: SheetName, words: str) -> None:
    grid = grid_of(words, "A4")
    assert grid is not None
    data = pdf_bytes(Printing(plan("four-beds"), "A4", None).poster(name, grid))
    assert faults(data) == []
    assert unmarked(data) == []


@pytest.mark.parametrize(("garden", "words"), [("twelve-beds", "1x2"), ("own-weather", "1x3"), ("own-weather", "1x2")])
def test_a_row_parted_by_a_seam_is_no_row_of_a_table(garden: str, words: str) -> None:
    grid = grid_of(words, "Letter")
    assert grid is not None
    assert faults(pdf_bytes(Printing(plan(garden), "Letter", None).poster(SheetName.SHOPPING, grid))) == []


@pytest.mark.parametrize("weeks", ["53", "1", "26", "52"])
@pytest.mark.parametrize("name", [SheetName.WALL_CHART, SheetName.BED_CHART])
def test_a_bed_that_shows_nothing_in_a_week_is_heard_all_the_same(name: SheetName, weeks: str) -> None:
    p = plan("twelve-beds")
    data = pdf_bytes(
        Printing(p, "A3", None, View(None, "sowing", spans_of(weeks, p.schedule.season) or ())).sheet(name)
    )
    assert faults(data) == []
    if name is SheetName.BED_CHART:
        told = " ".join(f"{one.said} {one.text}" for one in heard(data))
        assert all(bed.name in told for bed in p.garden.beds)


@pytest.mark.parametrize("name", list(SheetName))
def test_a_sheet_on_which_nothing_stands(name: SheetName, tmp_path: Path) -> None:
    text = "garden: Idle\nseason: 2027\nsite: {latitude: 52.4}\nbeds are: 6 m x 1.2 m\nbeds:\n  One: nothing\n"
    (tmp_path / "garden.yaml").write_text(text, encoding="utf-8")
    data = pdf_bytes(Printing(plan_of(tmp_path / "garden.yaml"), "A3", None).sheet(name))
    assert faults(data) == []
    assert unmarked(data) == []


def test_a_year_too_full_for_its_page_is_cut_with_its_tags() -> None:
    whole = plan("twelve-beds")
    crowd = tuple(
        msgspec.structs.replace(b, name=f"{b.name} {n}", note=f"sort {n}")
        for n in range(12)
        for b in whole.schedule.batches
    )
    many = msgspec.structs.replace(whole, schedule=msgspec.structs.replace(whole.schedule, batches=crowd))
    data = pdf_bytes(Printing(many, "A4", None).sheet(SheetName.YEAR))
    assert any("more line" in one.text for one in heard(data))
    assert faults(data) == []


@pytest.mark.parametrize("garden", GARDENS)
def test_every_row_has_its_head_and_every_picture_its_words(garden: str) -> None:
    for name, data in files(garden).items():
        found = heard(data)
        for n, one in enumerate(found):
            if one.role == "TR":
                assert found[n + 1].role == "TH", name
                assert found[n + 1].text, name
            if one.role == "Figure":
                assert len(one.said) > 20, name
        assert [one.role for one in found].count("Document") == 1
        if name != "tray-labels.pdf":
            assert next(one.role for one in found if one.role[:1] == "H") == "H1", name


@pytest.mark.parametrize("garden", GARDENS)
def test_a_chart_is_read_from_its_title_over_its_rows_to_its_foot(garden: str) -> None:
    sheet = Printing(plan(garden), "A3", None).sheet(SheetName.WALL_CHART)
    for page in sheet.pages:
        words = [s for s in page.shapes if isinstance(s, Words)]
        labels = [page.shapes[t.start : t.end] for t in page.tags if t.role == "TH"]
        ys = [next(s.y for s in own if isinstance(s, Words)) for own in labels]
        assert len(ys) >= 3
        assert ys == sorted(ys)
        assert page.tags[0].role == "H1"
        assert page.shapes[page.tags[0].start] == words[0]
    roles = [t.role for t in sheet.pages[-1].tags]
    rows = len(roles) - 1 - roles[::-1].index("TD")
    assert set(roles[rows + 1 :]) == {"Figure"}
    foot = [t.words for t in sheet.pages[-1].tags[rows + 1 :]]
    assert foot[0].startswith("Trays to sow")
    assert foot[-1].startswith("The printed marks")
    read = heard(files(garden)["wall-chart.pdf"])
    assert [one.role for one in read if one.depth == 1][:2] == ["H1", "P"]
    assert read[1].text.startswith("Sowing chart")


def dates_of(batch: Batch, year: int) -> Iterator[str]:
    """What has to be heard of a batch."""

    def said(lead: str, when: When) -> str:
        iso = when.day.isocalendar()
        return f"{lead} week {iso.week}" + ("" if iso.year == year else f" of {iso.year}")

    stages = batch.stages
    if batch.open_left:
        yield "stands already"
    else:
        if batch.raised == "tray" and stages.sow:
            yield said("sow", stages.sow)
        if stages.harden:
            yield said("harden from", stages.harden)
        if stages.plant:
            lead = {"tray": "plant out", "drill": "sow direct", "set": "set"}[batch.raised]
            yield said(lead, stages.plant) + (f" in{'to' if batch.raised == 'tray' else ''} {batch.bed}")
    if stages.first_pick and stages.last_pick:
        one, other = stages.first_pick.day.isocalendar(), stages.last_pick.day.isocalendar()
        if one.year == other.year == year and one.week != other.week:
            yield f"{'cut' if batch.kind.use == 'green manure' else 'pick'} weeks {one.week} to {other.week}"
    if stages.clear:
        yield said("clear", stages.clear)
    for cover in batch.covers:
        yield f"under {cover.kind} week"


@pytest.mark.parametrize("garden", GARDENS)
@pytest.mark.parametrize("sheet", ["wall-chart.pdf", "bed-chart.pdf"])
def test_a_row_says_its_batch_s_own_dates(garden: str, sheet: str) -> None:
    schedule = plan(garden).schedule
    told = [one.said for one in heard(files(garden)[sheet]) if one.role == "Figure"]
    shown = 0
    for batch in schedule.batches:
        wanted = list(dates_of(batch, schedule.season.year))
        if not batch.bed or (batch.stages.clear and batch.stages.clear.day < schedule.season.start):
            continue
        assert any(all(each in said for each in wanted) for said in told), (batch.name, wanted)
        shown += 1
    assert shown > 5


def test_weeks_are_said_as_a_grower_says_them() -> None:
    leeks = next(b for b in plan("twelve-beds").schedule.batches if b.kind.crop == "leek")
    said = next(
        one.said for one in heard(files("twelve-beds")["wall-chart.pdf"]) if one.said.startswith("Leeks: sow week")
    )
    assert re.match(
        r"Leeks: sow week \d+ on the airing shelf \(2 trays of 60, \d+ clumps\), harden from week \d+, "
        r"plant out week \d+ into North 3, ",
        said,
    )
    first, last = leeks.stages.first_pick, leeks.stages.last_pick
    assert first is not None and last is not None
    words = plan("twelve-beds").garden.words
    assert weeks(words, first.day, last.day, 2027) in said
    days = [date(2026, 11, 4), date(2026, 12, 2), date(2027, 1, 20), date(2027, 2, 3)]
    assert weeks(words, days[0], days[2], 2027) == "week 45 of 2026 to week 3"
    assert weeks(words, days[0], days[1], 2027) == "weeks 45 to 49 of 2026"
    assert weeks(words, days[2], days[3], 2027) == "weeks 3 to 5"
    assert weeks(words, days[2], days[2], 2027) == "week 3"


def test_the_list_of_jobs_has_one_entry_a_job_and_warns() -> None:
    printing = Printing(plan("twelve-beds"), "A3", None)
    found = heard(files("twelve-beds")["job-sheets.pdf"])
    lines = [one.text for one in found if one.role == "LBody"]
    assert sum(line.startswith(("Sow", "Plant", "Carry", "Prick out", "Harden")) for line in lines) == sum(
        job.verb in {"Sow", "Plant", "Carry", "Prick out", "Harden"} for job in printing.jobs
    )
    assert any(one.said.startswith("Caution: ") for one in found)
    assert not any("how many" in line for line in lines)  # lines to write on are furniture


def test_a_table_goes_on_over_the_page() -> None:
    leaves = [Leaf(), Leaf()]
    for n, leaf in enumerate(leaves):
        leaf.tag("TR")
        leaf.tag("TH", [Words(20, 50, f"row {n}")])
        leaf.draw([Line(20, 60, 90, 60)])
    sheet = Sheet("two", tuple(Page(200, 100, tuple(x.shapes), "", tuple(x.tags)) for x in leaves))
    assert [(one.role, one.depth) for one in heard(pdf_bytes(sheet))] == [
        ("Document", 0),
        ("Table", 1),
        *[("TR", 2), ("TH", 3)] * 2,
    ]
    with pytest.raises(ValueError, match="stands in nothing"):
        pdf_bytes(Sheet("one", (Page(200, 100, (Words(20, 50, "a"),), "", (Tag("TD", 0, 1),)),)))


def changed(data: bytes, how: str) -> bytes:
    """The file with one thing spoilt."""
    with pikepdf.open(BytesIO(data)) as pdf:
        document = pdf.Root.StructTreeRoot.K
        figure = next(e for e in document.K if e.S == "/Figure")
        match how:
            case "no alternative text":
                del figure.Alt
            case "a mark left out":
                content = pdf.pages[0].Contents.read_bytes()
                pdf.pages[0].Contents.write(re.sub(rb"/H1 <</MCID 0>> BDC(.*?)EMC", rb"\1", content, flags=re.DOTALL))
            case "not marked":
                del pdf.Root.MarkInfo
            case "no structure":
                del pdf.Root.StructTreeRoot
            case "no metadata":
                del pdf.Root.Metadata
            case "no language":
                del pdf.Root.Lang
        out = BytesIO()
        pdf.save(out)
        return out.getvalue()


@pytest.mark.parametrize(
    "how", ["no alternative text", "a mark left out", "not marked", "no structure", "no metadata", "no language"]
)
def test_the_checker_finds_a_broken_file(how: str) -> None:
    data = files("four-beds")["wall-chart.pdf"]
    assert faults(changed(data, "")) == []
    broken = changed(data, how)
    assert faults(broken) != []
    assert bool(unmarked(broken)) == (how == "a mark left out")


def test_without_tags_nothing_of_them_is_loaded_or_written() -> None:
    code = (
        "import sys; from sowsheet.sheets.paint import pdf_bytes; from sowsheet.sheets.shapes import *\n"
        "page = Page(90, 90, (Words(9, 9, 'Leek'),), '', (Tag('P', 0, 1),))\n"
        "sys.stdout.buffer.write(pdf_bytes(Sheet('s', (page,)), False))\n"
        "assert 'sowsheet.sheets.tagging' not in sys.modules and 'pikepdf' not in sys.modules\n"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, check=True, cwd=ROOT)
    with pikepdf.open(BytesIO(done.stdout)) as pdf:
        assert "/StructTreeRoot" not in pdf.Root
        assert b"BDC" not in pdf.pages[0].Contents.read_bytes()


def test_every_command_that_prints_leaves_them_out_when_asked(tmp_path: Path) -> None:
    record = str(ROOT / "out_examples" / "own-weather" / "station.csv")
    garden = str(ROOT / "out_examples" / "four-beds" / "garden.yaml")
    commands = {
        "tray-labels.pdf": ["print", garden, "tray-labels"],
        "crops.pdf": ["crops", "--pdf"],
        "frost.pdf": ["frost", record, "--pdf"],
    }
    for name, command in commands.items():
        for extra in ([], ["--no-tags"]):
            done = CliRunner().invoke(app, [*command, *extra, "--out", str(tmp_path)])
            assert done.exit_code == 0, done.output
            with pikepdf.open(tmp_path / name) as pdf:
                assert ("/StructTreeRoot" in pdf.Root) == (not extra), (name, extra)


def test_a_map_keeps_its_letters_and_loses_its_zeros() -> None:
    lines = "\n".join(f"<{n:02X}> <{n + 64 if n % 2 else 0:04X}>" for n in range(250))
    made = without_zeros(f"begincmap\n250 beginbfchar\n{lines}\nendbfchar\nendcmap")
    assert "<0000>" not in made
    assert re.findall(r"(\d+) beginbfchar", made) == ["100", "25"]
    assert made.startswith("begincmap\n") and made.endswith("endbfchar\nendcmap")
    assert made.count("\n<") == 125
