"""What stands where in each bed of the bed chart: lanes for what stands side by side, levels for trays on their way."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, timedelta

import msgspec

from sowsheet.garden.records import Bed
from sowsheet.schedule.records import Batch, Gap, Schedule
from sowsheet.sheets.weeks import Weeks


class Standing(msgspec.Struct, frozen=True):
    """A crop in its bed, and the lanes it takes, the first and the one after the last."""

    batch: Batch
    start: date
    end: date
    first_lane: int
    end_lane: int


class Coming(msgspec.Struct, frozen=True):
    """A crop on its way to a lane: its trays' ribbon on a level above it, 0 lowest; `end` is the day it drops."""

    batch: Batch
    start: date
    end: date
    lane: int
    level: int


class BedRow(msgspec.Struct, frozen=True):
    """A bed: how many lanes it has, how many levels stand above each, what stands, what is on its way, its gaps.

    `taken`: from when to when anything stands in it, on this chart or beyond it.
    """

    bed: Bed
    lanes: int
    levels: tuple[int, ...]
    standing: tuple[Standing, ...]
    between: tuple[Standing, ...]
    coming: tuple[Coming, ...]
    gaps: tuple[Gap, ...]
    taken: tuple[tuple[date, date], ...]

    @property
    def batches(self) -> list[Batch]:
        """All that is drawn in it, in the order in which it goes into the bed."""
        drawn = [one.batch for one in (*self.standing, *self.between)] + [one.batch for one in self.coming]
        shown = {batch.name: batch for batch in drawn}
        begun = {b.name: b.stages.plant.day if b.stages.plant and not b.open_left else date.min for b in shown.values()}
        return sorted(shown.values(), key=lambda b: (begun[b.name], b.name))


def bed_rows(beds: Sequence[Bed], schedule: Schedule, weeks: Weeks) -> list[BedRow]:
    """A row a bed, in the garden file's order."""
    return [_row(bed, schedule, weeks) for bed in beds]


def lanes_of(row: BedRow, first: int, end: int) -> BedRow:
    """Some of a bed's lanes, as a row of their own; its gaps are told with the first, what is between with the last."""
    whole = ((date.min, date.max),)
    return BedRow(
        row.bed,
        end - first,
        row.levels[first:end],
        tuple(_within(s, first, end) for s in row.standing if s.first_lane < end and s.end_lane > first),
        tuple(msgspec.structs.replace(s, end_lane=end - first) for s in row.between) if end == row.lanes else (),
        tuple(msgspec.structs.replace(c, lane=c.lane - first) for c in row.coming if first <= c.lane < end),
        row.gaps if first == 0 else (),
        row.taken if first == 0 else whole,
    )


def _within(standing: Standing, first: int, end: int) -> Standing:
    lanes = max(standing.first_lane, first) - first, min(standing.end_lane, end) - first
    return msgspec.structs.replace(standing, first_lane=lanes[0], end_lane=lanes[1])


def _row(bed: Bed, schedule: Schedule, weeks: Weeks) -> BedRow:
    own = [b for b in schedule.batches if b.bed == bed.name]
    spans = {b.name: span for b in own if (span := _in_bed(b, weeks)) is not None}
    main = sorted((b for b in own if b.rank == "main" and b.name in spans), key=lambda b: spans[b.name])
    lanes = _most_at_once(main, spans)
    standing = _laid(main, spans, lanes)
    between = [Standing(b, *spans[b.name], 0, lanes) for b in own if b.rank != "main" and b.name in spans]
    lane_of = {s.batch.name: s.first_lane for s in standing}
    coming = _on_their_way([(b, lane_of.get(b.name, 0)) for b in own], weeks)
    levels = tuple(max((c.level + 1 for c in coming if c.lane == lane), default=0) for lane in range(lanes))
    gaps = tuple(g for g in schedule.gaps if g.bed == bed.name)
    taken = tuple(span for b in own if b.rank == "main" and (span := _standing(b)) is not None)
    return BedRow(bed, lanes, levels, tuple(standing), tuple(between), tuple(coming), gaps, taken)


def _standing(batch: Batch) -> tuple[date, date] | None:
    """From when to when a batch stands in its bed, from the first of all days if it stood there before the season."""
    stays = [s for s in batch.stays if s.part is not None]
    return (date.min if batch.open_left else stays[0].start, stays[-1].end) if stays else None


def _in_bed(batch: Batch, weeks: Weeks) -> tuple[date, date] | None:
    """From when to when a batch stands in its bed; what stood there already came from before the chart."""
    span = _standing(batch)
    if span is None or not weeks.shows(*span):
        return None
    return max(span[0], weeks.first - timedelta(days=1)) if batch.open_left else span[0], span[1]


def _most_at_once(batches: Sequence[Batch], spans: dict[str, tuple[date, date]]) -> int:
    """How many crops stand side by side at most."""
    starts = [spans[b.name][0] for b in batches]
    return max((sum(spans[b.name][0] <= day < spans[b.name][1] for b in batches) for day in starts), default=1)


def _laid(batches: Sequence[Batch], spans: dict[str, tuple[date, date]], lanes: int) -> list[Standing]:
    """Each crop in the lane that its part of the bed had before, else in the first free one; all lanes to itself if
    nothing stands beside it."""
    free = [date.min] * lanes
    had: dict[object, int] = {}
    laid: list[Standing] = []
    for batch in batches:
        start, end = spans[batch.name]
        if not any(o is not batch and spans[o.name][0] < end and start < spans[o.name][1] for o in batches):
            lane, until = 0, lanes
        else:
            open_lanes = [n for n in range(lanes) if free[n] <= start] or [min(range(lanes), key=lambda n: free[n])]
            before = had.get(batch.part)
            lane = before if before in open_lanes else open_lanes[0]
            until = lane + 1
            had[batch.part] = lane
        for n in range(lane, until):
            free[n] = end
        laid.append(Standing(batch, start, end, lane, until))
    return laid


def _on_their_way(batches: Sequence[tuple[Batch, int]], weeks: Weeks) -> list[Coming]:
    """Sowing marks and the ribbons of trays, each on the lowest level of its lane that is free."""
    spans = [(*span, batch, lane) for batch, lane in batches if (span := _way(batch, weeks)) is not None]
    taken: dict[tuple[int, int], date] = {}
    found: list[Coming] = []
    for start, end, batch, lane in sorted(spans, key=lambda s: (s[0], s[1], s[2].name)):
        level = next(n for n in range(len(spans)) if taken.get((lane, n), date.min) <= start)
        taken[lane, level] = end + timedelta(days=7)  # room for a post, and for the eye
        found.append(Coming(batch, start, end, lane, level))
    return found


def _way(batch: Batch, weeks: Weeks) -> tuple[date, date] | None:
    """From the Monday of the sowing to planting; of what goes straight into the bed, that week."""
    plant = batch.stages.plant
    if plant is None:
        return None
    sow = batch.stages.sow if batch.raised == "tray" else plant
    if sow is None:
        return None
    start = sow.day - timedelta(days=sow.day.weekday())
    end = max(plant.day, start + timedelta(days=7))
    return (start, end) if weeks.shows(start, end) else None
