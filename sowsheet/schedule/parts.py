"""Which part of a bed each crop of a step takes."""

from __future__ import annotations

import math
from collections.abc import Sequence
from functools import reduce

from sowsheet.catalogue.records import Kind
from sowsheet.garden.records import Bed
from sowsheet.reading.mistakes import Said, said
from sowsheet.reading.planline import Item
from sowsheet.schedule.context import Context
from sowsheet.schedule.records import BedPart

_HAIR = 1e-6


def whole(bed: Bed) -> BedPart:
    """The bed from end to end."""
    return BedPart(0.0, bed.length_cm, 0.0, bed.width_cm)


def share_out(
    ctx: Context, bed: Bed, wanted: Sequence[tuple[Item, Kind]], at_once: Sequence[int]
) -> list[BedPart] | None:
    """A part of the bed for each crop that stands side by side; None, and refused, when they do not fit.

    `at_once` is how many plantings of each stand at the same time: those of a series with an amount want it each.

    Crops counted in rows lie beside each other across the bed, all others one after the other along it; those
    without an amount share what is left in equal parts.
    """
    across = any(item.amount is not None and item.amount.unit == "rows" for item, _ in wanted)
    other = next((i for i, _ in wanted if across and i.amount is not None and i.amount.unit != "rows"), None)
    if other is not None and other.amount is not None:
        what, cure = said("mistake.schedule.rows and metres.what"), said("mistake.schedule.rows and metres.cure")
        ctx.refuse(other.amount.spot, what, cure)
        return None
    total = bed.width_cm if across else bed.length_cm
    each = [_width_cm(item, kind) if across else _length_cm(bed, item, kind) for item, kind in wanted]
    sizes = [None if size is None else size * times for size, times in zip(each, at_once, strict=True)]
    used = sum(size for size in sizes if size is not None)
    blank = sizes.count(None)
    if used > total * (1 + _HAIR) or (blank and total - used < 1):
        _refuse(ctx, bed, wanted, sizes, across)
        return None
    rest = (total - used) / blank if blank else 0.0
    parts, start = [], 0.0
    for size in sizes:
        end = min(total, start + (rest if size is None else size))
        parts.append(BedPart(0.0, bed.length_cm, start, end) if across else BedPart(start, end, 0.0, bed.width_cm))
        start = end
    return parts


def split_along(part: BedPart, pieces: int) -> list[BedPart]:
    """A part cut into so many equal pieces along the bed."""
    step = (part.along_end_cm - part.along_start_cm) / pieces
    starts = [part.along_start_cm + n * step for n in range(pieces)]
    return [BedPart(s, s + step, part.across_start_cm, part.across_end_cm) for s in starts]


def _width_cm(item: Item, kind: Kind) -> float | None:
    if item.amount is None or item.amount.unit != "rows":
        return None
    return float(item.amount.number) * kind.space.row_gap_cm.usual


def _length_cm(bed: Bed, item: Item, kind: Kind) -> float | None:
    if item.amount is None:
        return None
    number = item.amount.number
    if item.amount.unit == "m":
        return float(number) * 100
    if item.amount.unit == "share":
        return float(number) * bed.length_cm
    rows = max(1, math.floor(bed.width_cm / kind.space.row_gap_cm.usual + _HAIR))
    return math.ceil(number / rows) * kind.space.in_row_cm.usual


def _refuse(
    ctx: Context, bed: Bed, wanted: Sequence[tuple[Item, Kind]], sizes: Sequence[float | None], across: bool
) -> None:
    item = next((i for i, _ in wanted if i.amount is not None), wanted[0][0])
    spot = item.amount.spot if item.amount is not None else item.spot
    terms = [_term(i, k, size, across) for (i, k), size in zip(wanted, sizes, strict=True) if size]
    total = reduce(lambda one, other: said("mistake.schedule.no room.sum", one=one, other=other), terms)
    way = "rows" if across else "length"
    used, most = sum(s for s in sizes if s is not None), bed.width_cm if across else bed.length_cm
    if sum(s is not None for s in sizes) > 1:
        total = said(f"mistake.schedule.no room.total.{way}", total=total, used=_as_said(used, across))
    key = f"mistake.schedule.no room.{way} {'beside' if None in sizes else 'alone'}"
    what = said(key, total=total, bed=bed.name, most=_as_said(most, across))
    ctx.refuse(spot, what, said(f"mistake.schedule.no room.cure.{way}"))


def _term(item: Item, kind: Kind, size_cm: float, across: bool) -> Said:
    number = item.amount.number if item.amount is not None else 0
    if across:
        gap = kind.space.row_gap_cm.usual
        return said("mistake.schedule.no room.of rows", rows=said("count.row", n=int(number)), crop=kind.name, gap=gap)
    if item.amount is not None and item.amount.unit in ("plants", "clumps"):
        return said("mistake.schedule.no room.plants", number=str(number), crop=kind.name, length=size_cm / 100)
    return said("mistake.schedule.no room.metres", crop=kind.name, length=size_cm / 100)


def _as_said(size_cm: float, across: bool) -> float:
    """Widths in cm, lengths in m."""
    return size_cm if across else size_cm / 100


def between_places(ctx: Context, item: Item, kind: Kind, part: BedPart, hosted: int) -> int | None:
    """How many are planted between: half of their host's places, and no more than would fit without the host, unless an
    amount is written. None, and refused, when they would not fit even without the host."""
    length, width = part.along_end_cm - part.along_start_cm, part.across_end_cm - part.across_start_cm
    rows = max(1, math.floor(width / kind.space.row_gap_cm.usual + _HAIR))
    per_row = max(1, math.floor(length / kind.space.in_row_cm.usual + _HAIR))
    half = min(max(1, hosted // 2), rows * per_row)
    if item.amount is None:
        return half
    number, unit = item.amount.number, item.amount.unit
    wanted = {
        "m": math.floor(half * float(number) * 100 / length),
        "share": math.floor(half * number),
        "rows": math.floor(number) * per_row,
    }.get(unit, math.floor(number))
    too_long = unit == "m" and float(number) * 100 > length * (1 + _HAIR)
    if too_long or wanted > rows * per_row:
        places = {"rows": rows, "per_row": per_row, "places": rows * per_row}
        what = said("mistake.schedule.no room between.what", crop=kind.name, **places)
        ctx.refuse(item.amount.spot, what, said("mistake.schedule.no room between.cure", half=half))
        return None
    return max(1, wanted)
