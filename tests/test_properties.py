"""What must hold for any plan: backward and forward agree, counts can be counted by hand, stages are in order."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from datetime import date, timedelta

from hypothesis import given, settings
from hypothesis import strategies as st

from sowsheet.garden.records import Garden, Place, Room
from sowsheet.growth.clock import latest_start
from sowsheet.growth.handbook import Handbook
from sowsheet.growth.when import When
from sowsheet.reading.mistakes import Mistake
from sowsheet.schedule.context import Context
from sowsheet.schedule.plan import schedule
from sowsheet.schedule.raising import ready_day, sow_for
from sowsheet.schedule.records import STAGE_KEYS, Batch, Schedule
from sowsheet.site.climate import climate_of
from sowsheet.site.season import season_of
from sowsheet.trays.plan import tray_plan
from sowsheet.trays.records import TrayPlan
from tests.made import NORTH, SOUTH, catalogue, garden

KINDS = [kind for crop in catalogue().crops.values() for kind in crop.kinds]
RAISED = [kind for kind in KINDS if kind.tray is not None]
DAYS = st.dates(date(2026, 1, 1), date(2032, 12, 31))
PLACES = (
    Place("shelf", ("germinating",), Room(trays=6), held_at_c=20.0),
    Place("bench", ("growing on",), Room(length_cm=450, width_cm=60), under="unheated glass"),
    Place("yard", ("hardening off",), Room(trays=30), under="outdoors"),
)
WORK_DAYS = st.frozensets(st.integers(0, 6), max_size=4)

_NAMES = st.sampled_from([kind.name for kind in KINDS])
_WHEN = st.sampled_from(
    ["", "", "late March", "mid-April under fleece", "1 May", "early July", "mid-August", "September", "when free"]
)
_ITEM = st.builds(lambda name, when: f"{name} {when}".strip(), _NAMES, _WHEN)
_LINE = st.lists(_ITEM, min_size=1, max_size=3).map(", then ".join)
_LINES = st.lists(_LINE, min_size=1, max_size=6)


def _context(south: bool = False, work_days: frozenset[int] = frozenset()) -> Context:
    site = SOUTH if south else NORTH
    made = garden(mistakes=[], site=site, places=PLACES, work_days=work_days)
    climate = climate_of(made)
    return Context(made, climate, Handbook(climate, made.words), season_of(2027, site.latitude), catalogue().crop)


def _planned(lines: Sequence[str], south: bool, work_days: frozenset[int]) -> tuple[Garden, Schedule, TrayPlan]:
    mistakes: list[Mistake] = []
    site = SOUTH if south else NORTH
    made = garden(*lines, mistakes=mistakes, site=site, places=PLACES, work_days=work_days)
    dated, _ = schedule(made, catalogue().crop)
    return made, dated, tray_plan(dated, made)


@given(st.sampled_from(RAISED), DAYS)
@settings(deadline=None)
def test_backward_is_the_latest_start_that_is_ready(kind: object, by: date) -> None:
    ctx = _context()
    start = latest_start(lambda d: ready_day(ctx, kind, d), by)  # type: ignore[arg-type]
    ready = [ready_day(ctx, kind, start + timedelta(days=n)) for n in (0, 1)]  # type: ignore[arg-type]
    assert ready[0] <= by < ready[1]


@given(st.sampled_from(RAISED), DAYS, st.integers(1, 40))
@settings(deadline=None)
def test_a_later_sowing_is_never_ready_earlier(kind: object, sown: date, later: int) -> None:
    ctx = _context()
    assert ready_day(ctx, kind, sown) <= ready_day(ctx, kind, sown + timedelta(days=later))  # type: ignore[arg-type]


@given(st.sampled_from(KINDS), DAYS, st.integers(1, 40))
@settings(deadline=None)
def test_a_later_planting_is_never_picked_earlier(kind: object, planted: date, later: int) -> None:
    clock = _context().clock
    first = clock.first_pick(kind, kind.usually, planted, planted)  # type: ignore[attr-defined, arg-type]
    after = planted + timedelta(days=later)
    second = clock.first_pick(kind, kind.usually, after, after)  # type: ignore[attr-defined, arg-type]
    assert first is not None and second is not None
    assert first.day <= second.day


@given(st.sampled_from(RAISED), DAYS, WORK_DAYS)
@settings(deadline=None)
def test_a_computed_sowing_is_on_a_work_day_and_in_time(kind: object, by: date, work_days: frozenset[int]) -> None:
    ctx = _context(work_days=work_days)
    sow = sow_for(ctx, kind, by)  # type: ignore[arg-type]
    assert sow is not None
    assert ctx.attended(sow.day)
    assert ready_day(ctx, kind, sow.day) <= by  # type: ignore[arg-type]


@given(_LINES, st.booleans(), WORK_DAYS)
@settings(deadline=None, max_examples=60)
def test_no_stage_ends_before_it_begins(lines: list[str], south: bool, work_days: frozenset[int]) -> None:
    _, dated, _ = _planned(lines, south, work_days)
    for batch in dated.batches:
        _in_order(batch)
        for when in _whens(batch):
            assert when.low <= when.day <= when.high
        for stay in batch.stays:
            assert stay.start < stay.end


def _whens(batch: Batch) -> list[When]:
    return [w for key in STAGE_KEYS if (w := getattr(batch.stages, key)) is not None]


def _in_order(batch: Batch) -> None:
    tray = ("sow", "up", "to_light", "prick_out", "pot_on")
    chains = [("plant", "first_pick", "last_pick", "clear"), ("cover_on", "cover_off"), ("ready", "holds")]
    chains += [tray, (*tray[:3], "harden")] if batch.raised == "tray" else [("sow", "up")]
    for chain in chains:
        days = [w.day for key in chain if (w := getattr(batch.stages, key)) is not None]
        assert days == sorted(days), (batch.name, chain, days)


@given(_LINES, st.booleans(), WORK_DAYS)
@settings(deadline=None, max_examples=60)
def test_weekly_tray_counts_equal_a_count_by_hand(lines: list[str], south: bool, work_days: frozenset[int]) -> None:
    made, dated, plan = _planned(lines, south, work_days)
    # By hand: for each batch and day, which trays stand where; a shared tray once.
    standing: Counter[tuple[str, date]] = Counter()
    by_name = {b.name: b for b in dated.batches}
    for batch in dated.batches:
        for stay in batch.stays:
            for n in range((stay.end - stay.start).days if stay.container else 0):
                standing[stay.where, stay.start + timedelta(days=n)] += stay.trays
    for tray in plan.shared:
        _count_once(tray.owner, [p.batch for p in tray.parts], by_name, standing)
    for week in plan.weeks:
        days = [week.monday + timedelta(days=n) for n in range(7)]
        if week.room is not None and week.place != "bench":  # rooms counted in trays: fullest is most trays
            assert week.trays == max(standing[week.place, d] for d in days)
    assert {w.place for w in plan.weeks} == {p.name for p in made.places}


def _count_once(owner: str, names: list[str], by_name: dict[str, Batch], standing: Counter[tuple[str, date]]) -> None:
    """Take the sharers' part trays away again. A tray is in one place: where the owner's is, theirs is."""
    walks = {name: list(_first_tray(by_name[name])) for name in names}
    for name in names:
        if name != owner:
            assert walks[name] == walks[owner][: len(walks[name])]
            standing.subtract(walks[name])


def _first_tray(batch: Batch) -> Iterator[tuple[str, date]]:
    """Where the trays that a batch is sown in stand, day by day."""
    out = _first_move(batch) if batch.moved_into else date.max
    for stay in batch.stays:
        if stay.container == batch.amount.tray and stay.start < out:
            for n in range((stay.end - stay.start).days):
                yield stay.where, stay.start + timedelta(days=n)


def _first_move(batch: Batch) -> date:
    whens: list[When | None] = [getattr(batch.stages, key) for key, *_ in batch.moved_into]
    return min(w.day for w in whens if w is not None)


@given(_LINES, st.booleans(), WORK_DAYS)
@settings(deadline=None, max_examples=60)
def test_main_crops_never_overlap_without_a_doubt(lines: list[str], south: bool, work_days: frozenset[int]) -> None:
    _, dated, _ = _planned(lines, south, work_days)
    doubted = {d.batch for d in dated.doubts if d.code == "occupied"}
    for bed in {b.bed for b in dated.batches}:
        here = [b for b in dated.batches if b.bed == bed and b.rank == "main"]
        for n, one in enumerate(here):
            for other in here[n + 1 :]:
                if _meet(one, other):
                    assert {one.name, other.name} & doubted


def _meet(one: Batch, other: Batch) -> bool:
    """Whether two batches stand on the same ground on the same day."""
    if one.part is None or other.part is None:
        return False
    along = (
        one.part.along_start_cm < other.part.along_end_cm - 1 and other.part.along_start_cm < one.part.along_end_cm - 1
    )
    across = (
        one.part.across_start_cm < other.part.across_end_cm - 1
        and other.part.across_start_cm < one.part.across_end_cm - 1
    )
    a, b = ([s for s in x.stays if s.part is not None] for x in (one, other))
    return along and across and bool(a) and bool(b) and a[0].start < b[-1].end and b[0].start < a[-1].end


@given(_LINES, st.booleans(), WORK_DAYS)
@settings(deadline=None, max_examples=30)
def test_the_same_plan_gives_the_same_dates(lines: list[str], south: bool, work_days: frozenset[int]) -> None:
    assert _planned(lines, south, work_days)[1:] == _planned(lines, south, work_days)[1:]
