"""Job sheets as a helper gets them: everything once, in the order of the walk, to be read, ticked and written on."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from datetime import date, timedelta
from itertools import pairwise

import msgspec
import pytest

from sowsheet.garden.records import Garden
from sowsheet.jobs.make import jobs, said
from sowsheet.jobs.records import Job
from sowsheet.jobs.rounds import daily, weekly
from sowsheet.schedule.records import Schedule
from sowsheet.sheets.furniture import MM
from sowsheet.sheets.job_sheets import FOOT, job_sheets
from sowsheet.sheets.shapes import Line, Sheet, Words
from sowsheet.site.season import monday_of, season_mondays
from sowsheet.trays.records import TrayPlan
from tests import examples
from tests.sheets.pages import (
    WIDTH,
    collisions,
    outside,
    printed_outside,
    read,
    smallest_box,
    texts,
    tick_boxes,
    unprintable,
)
from tests.sheets.sample_trays import BENCH, garden, sample

Plan = tuple[Schedule, TrayPlan, Garden]
ROUNDS = ("Every day", "Once this week")
LONG = "long south-facing staging beside the far door of the old vinery"


def long_names(plan: Plan) -> Plan:
    """The same plan with names as long as growers write them."""
    schedule, trays, place = plan
    places = tuple(msgspec.structs.replace(p, name=LONG if p.name == BENCH else p.name) for p in place.places)
    stays = {
        b.name: tuple(msgspec.structs.replace(s, where=LONG if s.where == BENCH else s.where) for s in b.stays)
        for b in schedule.batches
    }
    note = "the frilled dark red one from the seed swap, not the pale one"
    batches = tuple(msgspec.structs.replace(b, stays=stays[b.name], note=note) for b in schedule.batches)
    counted = tuple(msgspec.structs.replace(s, where=LONG if s.where == BENCH else s.where) for s in trays.stays)
    weeks = tuple(msgspec.structs.replace(w, place=LONG if w.place == BENCH else w.place) for w in trays.weeks)
    return (
        msgspec.structs.replace(schedule, batches=batches),
        msgspec.structs.replace(trays, stays=counted, weeks=weeks),
        msgspec.structs.replace(place, places=places),
    )


PLANS: dict[str, Callable[[], Plan]] = {
    "two work days": sample,
    "every day": lambda: sample(garden(work_days=frozenset())),
    "imperial": lambda: sample(garden(imperial=True)),
    "long names": lambda: long_names(sample()),
}


def sheet_of(plan: Plan, paper: str = "A4") -> tuple[Sheet, tuple[Job, ...]]:
    made = jobs(*plan)
    schedule, trays, place = plan
    return job_sheets(schedule, trays, made, place, paper, WIDTH, date(2027, 2, 1)), made


@pytest.fixture(scope="module", params=[(name, paper) for name in PLANS for paper in ("A4", "Tabloid")], ids=str)
def sheet(request: pytest.FixtureRequest) -> Sheet:
    name, paper = request.param
    return sheet_of(PLANS[name](), paper)[0]


def test_nothing_lies_outside_the_margins(sheet: Sheet) -> None:
    assert list(outside(sheet)) == []


def test_nor_does_the_pdf_itself() -> None:
    assert list(printed_outside(sheet_of(sample())[0], pages=6)) == []


def test_nothing_runs_into_anything(sheet: Sheet) -> None:
    assert [pair for page in sheet.pages for pair in collisions(page)] == []


def test_the_clip_has_its_20_mm(sheet: Sheet) -> None:
    assert min(t.top for page in sheet.pages for t in texts(page)) >= 20 * MM - 8


def test_every_letter_can_be_printed(sheet: Sheet) -> None:
    assert unprintable(sheet) == set()


def test_a_hand_sheet_stays_small() -> None:
    for paper, size in (("A4", (595, 842)), ("A1", (595, 842)), ("Letter", (612, 792)), ("Tabloid", (612, 792))):
        page = sheet_of(sample(), paper)[0].pages[0]
        assert (round(page.width), round(page.height)) == size


def test_boxes_are_7_mm_and_one_for_each_job(sheet: Sheet) -> None:
    assert smallest_box(sheet) >= 7 - 1e-6
    schedule, trays, place = sample()
    printed = {t.text for page in sheet.pages for t in texts(page) if t.text.startswith("Jobs, week ")}
    quiet = {m for m in season_mondays(schedule.season) if f"Jobs, week {m.isocalendar().week}" in printed}
    weeks = {monday_of(job.day) for job in jobs(*sample())} | quiet
    ends = {monday: monday + timedelta(days=7) for monday in weeks}
    days = sum(7 * len(daily(schedule, trays, place, m, end)) for m, end in ends.items())
    once = sum(len(weekly(schedule, place, m, end)) for m, end in ends.items())
    assert days > 0
    assert once > 0
    assert sum(len(tick_boxes(page)) for page in sheet.pages) == len(jobs(*sample())) + days + once


def test_large_type_is_18_pt_with_nothing_in_the_way() -> None:
    schedule, trays, place = sample()
    sheet = job_sheets(schedule, trays, jobs(*sample()), place, "A4", WIDTH, None, large=True)
    assert list(outside(sheet)) == []
    assert [pair for page in sheet.pages for pair in collisions(page)] == []
    body = [size for words in read(sheet, pages=6) for text, size in words if text in ("Sow", "When:", "Water", "the")]
    assert len(body) > 20
    assert min(body) >= 17.99


def test_the_body_is_14_pt_and_nothing_needed_is_small() -> None:
    sheet, _ = sheet_of(sample())
    labels = {"done", "how", "many", "who", "job", "jobs", "page", "of", "week", "printed"}
    for words in read(sheet, pages=8):
        small = [(text, size) for text, size in words if size < 13.99]
        # labels of fields, counts and the date of printing; the page of the week
        assert all(text in labels or re.fullmatch(r"\d+|Monday|February", text) for text, _ in small), small
        assert min(size for _, size in words) >= 10


def action_lines(sheet: Sheet, made: tuple[Job, ...]) -> Iterator[str]:
    """Every job's action as it stands on the pages, its runs and lines joined."""
    verbs = {str(job.verb) for job in made}
    for page in sheet.pages:
        words = [s for s in page.shapes if isinstance(s, Words)]
        for at, start in enumerate(words):
            if start.face == "bold" and start.text in verbs and start.size_pt == 15:
                run = [start.text]
                for following in words[at + 1 :]:
                    # a day at the right margin belongs to no line
                    if following.size_pt != 15 or (following.face == "bold" and following.text in verbs):
                        break
                    run.append(following.text)
                yield " ".join("".join(f"{text} " for text in run).split())


def test_every_job_stands_on_paper_exactly_once() -> None:
    for plan in (sample(), sample(garden(work_days=frozenset()))):
        sheet, made = sheet_of(plan)
        beds = {bed.name for bed in plan[2].beds}
        found = list(action_lines(sheet, made))
        wanted = []
        for job in made:
            bed = f" {'from' if job.verb == 'Clear' else 'in'} {job.where}" if job.where in beds else ""
            wanted.append(
                " ".join(f"{job.verb} {said(plan[2].words, job)}{bed}{' (maybe)' if job.maybe else ''}".split())
            )
        assert sorted(found) == sorted(wanted)


def test_action_lines_are_short() -> None:
    sheet, made = sheet_of(sample())
    assert max(len(line.split()) for line in action_lines(sheet, made)) <= 12


def test_a_long_note_leaves_the_action_line_but_not_the_sheet() -> None:
    sheet, made = sheet_of(long_names(sample()))
    lines = [line for line in action_lines(sheet, made) if line.startswith("Plant 80 lettuce")]
    assert lines == ["Plant 80 lettuce in South 2"]
    read_back = " ".join(t.text for page in sheet.pages for t in texts(page))
    assert "The frilled dark red one" in read_back


def test_places_come_in_the_order_of_the_garden_file() -> None:
    """In a week, or on a day, nobody is sent back to a place that was left."""
    plan = sample(garden(work_days=frozenset()))
    sheet, _ = sheet_of(plan)
    order = [*(p.name.lower() for p in plan[2].places), "bed"]
    for page in sheet.pages:
        heads: list[int] = []
        for shape in page.shapes:
            if not isinstance(shape, Words):
                continue
            if shape.text.startswith("Jobs, week"):
                heads = []
            if shape.grey == 1.0 and shape.align == "left" and not shape.text.startswith(ROUNDS):
                name = shape.text.lower()
                heads.append(order.index("bed" if name.startswith("bed") else name.split(",")[0]))
                assert heads == sorted(set(heads)), heads


def test_beds_come_in_the_order_of_the_garden_file_each_day() -> None:
    plan = sample()
    sheet, made = sheet_of(plan)
    order = [bed.name for bed in plan[2].beds]
    lines = [line.removesuffix(" (maybe)") for line in action_lines(sheet, made)]
    by_day = iter([next((n for n, bed in enumerate(order) if line.endswith(bed)), None) for line in lines])
    for day in sorted({job.day for job in made}):
        todays = [next(by_day) for job in made if job.day == day]
        beds = [n for n in todays if n is not None]
        assert beds == sorted(beds), (day, todays)
        assert todays[len(todays) - len(beds) :] == beds  # places first


def test_each_work_day_has_its_head_and_unseen_days_a_look() -> None:
    sheet, _ = sheet_of(sample())
    heads = [t.text for page in sheet.pages for t in texts(page)]
    assert heads.count("Tuesday 16 March") == 1
    assert "Tuesday 6 July" in heads
    everything = " ".join(heads)
    assert "Look on Thursday 11 March: tomatoes may be up on the airing shelf." in " ".join(everything.split())


def test_a_page_that_goes_on_says_where_it_is() -> None:
    sheet, _ = sheet_of(sample())
    said_pages = [t.text for page in sheet.pages for t in texts(page) if t.text.startswith("page ")]
    assert "page 1 of 3 of week 9" in said_pages
    assert "page 3 of 3 of week 9" in said_pages
    begins = [texts(page)[0].text for page in sheet.pages]
    assert begins.count("Jobs, week 9") == 3


@pytest.mark.parametrize("name", examples.GARDENS)
def test_only_what_has_begun_is_continued(name: str) -> None:
    """`Once this week, continued` stands over lines of its own, and only where the week began on an earlier page."""
    p = examples.plan(name)
    made = jobs(p.schedule, p.trays, p.garden)
    begun: set[str] = set()
    for page in job_sheets(p.schedule, p.trays, made, p.garden, "A4", WIDTH, None).pages:
        bars = [
            s for s in page.shapes if isinstance(s, Words) and s.grey == 1.0 and s.face == "bold" and len(s.text) > 1
        ]
        week = texts(page)[0].text
        for bar, below in pairwise(bars):
            if bar.text.endswith(", continued"):
                assert below.y - bar.y > 30, (week, bar.text)
        for bar in bars:
            title = bar.text.removesuffix(", continued")
            assert title == bar.text or f"{week} {title}" in begun
            begun.add(f"{week} {title}")


def test_lines_to_write_on_lie_10_mm_apart_and_fill_the_page() -> None:
    sheet, _ = sheet_of(sample())
    for page in sheet.pages:
        rules = [s for s in page.shapes if isinstance(s, Line) and s.line_pt == 0.5 and s.x2 - s.x1 > 500]
        if rules:
            ys = [round(r.y1, 3) for r in rules]
            assert all(b - a >= 10 * MM - 1.1 for a, b in pairwise(ys))
            assert page.height - 10 * MM - FOOT - ys[-1] < 12 * MM + 1.1  # no page nearly empty


def test_a_week_without_a_job_has_a_sheet_if_anything_is_looked_after() -> None:
    schedule, trays, place = sample()
    sheet, made = sheet_of(sample())
    busy = {monday_of(job.day) for job in made}
    quiet = [monday for monday in season_mondays(schedule.season) if monday not in busy]
    assert quiet
    heads = {t.text for page in sheet.pages for t in texts(page) if t.text.startswith("Jobs, week ")}
    for monday in quiet:
        end = monday + timedelta(days=7)
        picks = any(one.verb == "Pick" for one in weekly(schedule, place, monday, end))
        wanted = bool(daily(schedule, trays, place, monday, end)) or picks
        assert (f"Jobs, week {monday.isocalendar().week}" in heads) == wanted


def test_a_garden_without_jobs_prints_a_page_that_says_so() -> None:
    schedule, trays, place = sample()
    idle, bare = msgspec.structs.replace(schedule, batches=()), msgspec.structs.replace(trays, stays=())
    sheet = job_sheets(idle, bare, (), place, "A4", WIDTH, None)
    said = [[t.text for t in texts(page)] for page in sheet.pages]
    assert said == [["Jobs", "Nothing to do.", "What you saw", "page 1 of 1"]]
