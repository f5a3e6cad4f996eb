"""What a screen reader says in place of a picture: sentences made from dates and counts, never from places on the page.

All English that the tags speak, and that is not printed, stands here.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from datetime import date, timedelta
from typing import TYPE_CHECKING

from sowsheet.jobs.make import name_of
from sowsheet.schedule.records import Batch, Gap
from sowsheet.site.almanac import Almanac
from sowsheet.trays.records import PlaceWeek, Sowing
from sowsheet.words.english import capital, count, day_brief, day_month, day_month_year, listed, the, trays_of
from sowsheet.words.language import language_of

if TYPE_CHECKING:
    from sowsheet.schedule.replay import Wander
    from sowsheet.sheets.bench_blocks import TrayBlock
    from sowsheet.site.frosts import Frosts, Spread

DAY = timedelta(days=1)


def week(day: date, year: int) -> str:
    """week 10; week 45 of 2026, where that is another year than the one spoken of"""
    found = day.isocalendar()
    return f"week {found.week}" if found.year == year else f"week {found.week} of {found.year}"


def weeks(first: date, last: date, year: int) -> str:
    """weeks 34 to 50; week 34; week 45 of 2026 to week 3; weeks 6 to 10 of 2028"""
    one, other = week(first, year), week(last, year)
    if one == other:
        return one
    if first.isocalendar().year != last.isocalendar().year:
        return f"{one} to {other}"
    return f"weeks {first.isocalendar().week} to {other.removeprefix('week ')}"


def batch_name(batch: Batch) -> str:
    """Leek; Kale, maybe"""
    return capital(name_of(batch)) + (", maybe" if batch.maybe else "")


def batch_said(batch: Batch, sowing: Sowing | None, year: int, spread: Wander | None = None, name: str = "") -> str:
    """Leek: sow week 10 on the shelf (2 trays of 60, 80 clumps), plant out week 23 into North 2, pick weeks 34 to 50.

    `name` is the row's, `year` the season's.
    """
    told = [*_begun(batch, sowing, year), *_grown(batch, year)]
    if spread is not None:
        told.append(f"first picking from {day_brief(spread.early)} to {day_brief(spread.late)} in 8 years of 10")
    if batch.slip is not None and batch.slip.costs_days is not None:
        told.append(f"a week later costs {count(batch.slip.costs_days, 'day')}")
    if batch.slip is not None and batch.slip.last_useful is not None:
        told.append(f"last useful sowing {day_brief(batch.slip.last_useful)}")
    elif batch.slip is not None and batch.slip.why:
        told.append("late already")
    return f"{name or batch_name(batch)}: {', '.join(told) or 'no date yet'}."


def _begun(batch: Batch, sowing: Sowing | None, year: int) -> Iterable[str]:
    """How it comes into its bed."""
    stages, amount = batch.stages, batch.amount
    where = f" {batch.bed}" if batch.bed else ""
    if batch.open_left:
        yield f"stands already in{where}"
        return
    much = f"{amount.places} {amount.unit if amount.places != 1 else amount.unit.removesuffix('s')}"
    if batch.raised == "tray" and stages.sow is not None:
        place = f" on {the(batch.route[0])}" if batch.route else ""
        yield f"sow {week(stages.sow.day, year)}{place} ({_trays(batch, sowing)}, {much})"
    if stages.harden is not None:
        yield f"harden from {week(stages.harden.day, year)}"
    if stages.plant is None:
        if stages.ready is not None:
            yield f"ready {week(stages.ready.day, year)}"
    elif batch.raised == "tray":
        yield f"plant out {week(stages.plant.day, year)}" + (f" into{where}" if where else "")
    else:
        rows = f"{amount.rows} rows" if batch.raised == "drill" and amount.rows else much
        verb = "set" if batch.raised == "set" else "sow direct"
        yield f"{verb} {week(stages.plant.day, year)}" + (f" in{where}" if where else "") + f" ({rows})"


def _trays(batch: Batch, sowing: Sowing | None) -> str:
    if sowing is not None and sowing.shares:
        return "in another's tray"
    trays = batch.amount.trays if sowing is None else sowing.trays
    return trays_of(trays, batch.amount.tray_cells, batch.amount.tray or "seed tray")


def _grown(batch: Batch, year: int) -> Iterable[str]:
    """What comes after it stands in its bed."""
    stages = batch.stages
    for cover in batch.covers:
        yield f"under {cover.kind} {weeks(cover.start, cover.end - DAY, year)}"
    if stages.first_pick is not None:
        verb = "cut" if batch.kind.use == "green manure" else "pick"
        last = stages.last_pick or stages.first_pick
        yield f"{verb} {weeks(stages.first_pick.day, last.day, year)}"
    if stages.clear is not None:
        yield f"clear {week(stages.clear.day, year)}"


def bed_said(bed: str, batches: Sequence[Batch], sowings: Mapping[str, Sowing], gaps: Sequence[Gap], year: int) -> str:
    """A bed's crops one after the other, and what is left of its year."""
    told = [batch_said(b, sowings.get(b.name), year) for b in batches]
    for gap in gaps:
        until = f" to {week(gap.end, year)}" if gap.end else " on"
        told.append(f"{'Rests' if gap.what == 'nothing' else 'Something quick'} from {week(gap.start, year)}{until}.")
    return f"{bed}: {' '.join(told) or 'nothing'}"


def head_said(mondays: Sequence[date], year: int, almanac: Almanac, light: Sequence[str]) -> str:
    """What the columns of a chart are."""
    frosts = [
        f"average {name} {day_month(date(2000, *day))}"
        for name, day in (("last frost", almanac.last_frost), ("first frost", almanac.first_frost))
        if day is not None
    ]
    columns = f"Columns: {weeks(mondays[0], mondays[-1], year)}, from Monday {day_month_year(mondays[0])}"
    by_month = f"Daylight and mean temperature: {', '.join(light)}." if light else ""
    return f"{'; '.join([columns, *frosts])}. {by_month}".strip()


def sums_said(label: str, sums: Iterable[tuple[date, int]], year: int) -> str:
    """Trays to sow: 2 in week 9, 3 in week 10."""
    told = [f"{trays} in {week(monday, year)}" for monday, trays in sums if trays]
    return f"{label}: {', '.join(told) or 'none'}."


def place_said(name: str, room: int | None, shown: Sequence[PlaceWeek], year: int) -> str:
    """Shelf, room for 6 trays: 2 in week 9, 7 in week 10 (over)."""
    told = [
        (f"{w.trays}" if not w.maybe else f"{w.trays} and maybe {w.maybe}")
        + f" in {week(w.monday, year)}"
        + (" (over)" if w.room is not None and w.filled > 1 + 1e-9 else "")
        for w in shown
        if w.trays or w.maybe
    ]
    limit = "room not limited" if room is None else f"room for {count(room, 'tray')}"
    return f"{capital(name)}, {limit}: {', '.join(told) or 'no trays'}."


def bench_said(name: str, room: int | None, blocks: Sequence[TrayBlock], names: Mapping[str, str], year: int) -> str:
    """What stands in a place, and when."""
    told = [
        f"{names[b.batch]}, {count(b.high - b.low, 'tray')}{', maybe' if b.maybe else ''}, "
        f"{weeks(b.start, b.end - DAY, year)}"
        for b in sorted(blocks, key=lambda b: (b.start, b.low))
    ]
    limit = "room not limited" if room is None else f"room for {count(room, 'tray')}"
    return f"{capital(name)}, {limit}: {'; '.join(told) or 'no trays'}."


def marks_said(words: Iterable[str]) -> str:
    """What the marks of the printed chart are, in their order."""
    return f"The printed marks: {'; '.join(words)}."


def tray_said(cells: int, parts: Sequence[tuple[str, int]]) -> str:
    """A shared tray of 60 cells: 30 of lettuce, 20 of leeks; 10 left empty."""
    left = cells - sum(n for _, n in parts)
    empty = f"; {left} left empty" if left else ""
    return f"A shared tray of {cells} cells: {listed([f'{n} of {name}' for name, n in parts])}{empty}."


def caution_said(words: str) -> str:
    """What the triangle means."""
    return f"Caution: {words}"


def column_said(group: str, own: str) -> str:
    """A column's head under the head that it shares."""
    return f"{group}, {own}" if group else own


def frost_said(threshold: str, one: Frosts) -> str:
    """A threshold's dates in 1, 5 and 9 years of 10."""
    spring = _chances(one.last_spring, "last such night of spring", "later")
    autumn = _chances(one.first_autumn, "first such night of autumn", "earlier")
    return f"Nights of {threshold}: {spring}; {autumn}."


def _chances(spread: Spread, what: str, way: str) -> str:
    from sowsheet.site.frosts import day_words  # noqa: PLC0415

    order = (0.9, 0.5, 0.1) if way == "later" else (0.1, 0.5, 0.9)
    days = [spread.date_at(chance) for chance in order]
    said = ("1 year", "5 years", "9 years")
    told = [
        f"{way} than {day_words(language_of('en'), d)} in {n} of 10"
        for d, n in zip(days, said, strict=True)
        if d is not None
    ]
    return f"{what} {', '.join(told)}" if told else f"no {what}"
