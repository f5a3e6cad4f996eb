"""What a screen reader says in place of a picture: sentences made from dates and counts, never from places on the page.

They are the phrases of `spoken` in the language files; what is printed is never among them.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from datetime import date, timedelta
from typing import TYPE_CHECKING, Literal

from sowsheet.jobs.make import name_of
from sowsheet.schedule.records import Batch, Gap
from sowsheet.site.almanac import Almanac
from sowsheet.trays.records import PlaceWeek, Sowing
from sowsheet.words.language import Language, capital

if TYPE_CHECKING:
    from sowsheet.schedule.replay import Wander
    from sowsheet.sheets.bench_blocks import TrayBlock
    from sowsheet.site.frosts import Frosts, Spread

DAY = timedelta(days=1)


def week(words: Language, day: date, year: int) -> str:
    """week 10; week 45 of 2026, where that is another year than the one spoken of"""
    found = day.isocalendar()
    if found.year == year:
        return words.say("spoken.week", week=found.week)
    return words.say("spoken.week of", week=found.week, year=found.year)


def weeks(words: Language, first: date, last: date, year: int) -> str:
    """weeks 34 to 50; week 34; week 45 of 2026 to week 3; weeks 6 to 10 of 2028"""
    begin, end = first.isocalendar(), last.isocalendar()
    if begin[:2] == end[:2]:
        return week(words, first, year)
    if begin.year != end.year:
        return words.say("spoken.from week to week", first=week(words, first, year), last=week(words, last, year))
    if begin.year == year:
        return words.say("spoken.weeks", first=begin.week, last=end.week)
    return words.say("spoken.weeks of", first=begin.week, last=end.week, year=begin.year)


def batch_name(words: Language, batch: Batch) -> str:
    """Leek; Kale, maybe"""
    name = capital(name_of(batch))
    return words.say("spoken.maybe", name=name) if batch.maybe else name


def batch_said(
    words: Language, batch: Batch, sowing: Sowing | None, year: int, spread: Wander | None = None, name: str = ""
) -> str:
    """Leek: sow week 10 on the shelf (2 trays of 60, 80 clumps), plant out week 23 into North 2, pick weeks 34 to 50.

    `name` is the row's, `year` the season's.
    """
    told = [*_begun(words, batch, sowing, year), *_grown(words, batch, year)]
    if spread is not None:
        early, late = words.day_brief(spread.early), words.day_brief(spread.late)
        told.append(words.say("spoken.first picking", early=early, late=late))
    if batch.slip is not None and batch.slip.costs_days is not None:
        told.append(words.say("spoken.a week later", days=words.count(batch.slip.costs_days, "day")))
    if batch.slip is not None and batch.slip.last_useful is not None:
        told.append(words.say("spoken.last useful", day=words.day_brief(batch.slip.last_useful)))
    elif batch.slip is not None and batch.slip.why:
        told.append(words.say("spoken.late already"))
    joined = ", ".join(told) or words.say("spoken.no date")
    return words.say("spoken.batch", name=name or batch_name(words, batch), told=joined)


def _begun(words: Language, batch: Batch, sowing: Sowing | None, year: int) -> Iterable[str]:
    """How it comes into its bed."""
    stages, amount, bed = batch.stages, batch.amount, batch.bed
    if batch.open_left:
        yield words.say("spoken.stands already in", bed=bed) if bed else words.say("spoken.stands already")
        return
    much = words.say(f"unit.{amount.unit}", n=amount.places, number=amount.places)
    if batch.raised == "tray" and stages.sow is not None:
        sown = {"week": week(words, stages.sow.day, year), "trays": _trays(words, batch, sowing), "much": much}
        if batch.route:
            yield words.say("spoken.sow on", place=words.the(batch.route[0]), **sown)
        else:
            yield words.say("spoken.sow", **sown)
    if stages.harden is not None:
        yield words.say("spoken.harden", week=week(words, stages.harden.day, year))
    if stages.plant is None:
        if stages.ready is not None:
            yield words.say("spoken.ready", week=week(words, stages.ready.day, year))
        return
    planted = week(words, stages.plant.day, year)
    if batch.raised == "tray":
        into = words.say("spoken.plant out into", week=planted, bed=bed)
        yield into if bed else words.say("spoken.plant out", week=planted)
        return
    if batch.raised == "drill" and amount.rows:
        much = words.say("unit.rows", n=amount.rows, number=amount.rows)
    if bed:
        yield words.say(f"spoken.direct in.{batch.raised}", week=planted, bed=bed, much=much)
    else:
        yield words.say(f"spoken.direct.{batch.raised}", week=planted, much=much)


def _trays(words: Language, batch: Batch, sowing: Sowing | None) -> str:
    if sowing is not None and sowing.shares:
        return words.say("spoken.in another's tray")
    trays = batch.amount.trays if sowing is None else sowing.trays
    return words.trays_of(trays, batch.amount.tray_cells, batch.amount.tray or "seed tray")


def _grown(words: Language, batch: Batch, year: int) -> Iterable[str]:
    """What comes after it stands in its bed."""
    stages = batch.stages
    for cover in batch.covers:
        yield words.say(f"spoken.under.{cover.kind}", weeks=weeks(words, cover.start, cover.end - DAY, year))
    if stages.first_pick is not None:
        last = stages.last_pick or stages.first_pick
        key = "spoken.cut" if batch.kind.use == "green manure" else "spoken.pick"
        yield words.say(key, weeks=weeks(words, stages.first_pick.day, last.day, year))
    if stages.clear is not None:
        yield words.say("spoken.clear", week=week(words, stages.clear.day, year))


def bed_said(
    words: Language,
    bed: str,
    batches: Sequence[Batch],
    sowings: Mapping[str, Sowing],
    gaps: Sequence[Gap],
    year: int,
) -> str:
    """A bed's crops one after the other, and what is left of its year."""
    told = [batch_said(words, b, sowings.get(b.name), year) for b in batches]
    for gap in gaps:
        start = week(words, gap.start, year)
        if gap.end:
            told.append(words.say(f"spoken.gap.{gap.what}", start=start, end=week(words, gap.end, year)))
        else:
            told.append(words.say(f"spoken.gap on.{gap.what}", start=start))
    if not told:
        return words.say("spoken.bed empty", bed=bed)
    return words.say("spoken.bed", bed=bed, told=" ".join(told))


def head_said(words: Language, mondays: Sequence[date], year: int, almanac: Almanac, light: Sequence[str]) -> str:
    """What the columns of a chart are."""
    shown = weeks(words, mondays[0], mondays[-1], year)
    columns = [words.say("spoken.columns", weeks=shown, day=words.day_month_year(mondays[0]))]
    if almanac.last_frost is not None:
        columns.append(words.say("spoken.last frost", day=words.day_month(date(2000, *almanac.last_frost))))
    if almanac.first_frost is not None:
        columns.append(words.say("spoken.first frost", day=words.day_month(date(2000, *almanac.first_frost))))
    by_month = words.say("spoken.light", months=", ".join(light)) if light else ""
    return f"{'; '.join(columns)}. {by_month}".strip()


def sums_said(words: Language, label: str, sums: Iterable[tuple[date, int]], year: int, maybe: bool = False) -> str:
    """Trays to sow: 2 in week 9, 3 in week 10."""
    told = [words.say("spoken.sum", trays=trays, week=week(words, monday, year)) for monday, trays in sums if trays]
    joined = ", ".join(told) or words.say("spoken.no sums")
    return words.say("spoken.sums maybe" if maybe else "spoken.sums", label=label, sums=joined)


def room_said(words: Language, room: int | None) -> str:
    """room for 6 trays; room not limited"""
    return words.say("bench.no limit") if room is None else words.say("bench.room", n=room)


def place_said(words: Language, name: str, room: int | None, shown: Sequence[PlaceWeek], year: int) -> str:
    """Shelf, room for 6 trays: 2 in week 9, 7 in week 10 (over)."""
    told = [_standing(words, w, year) for w in shown if w.trays or w.maybe]
    joined = ", ".join(told) or words.say("spoken.no trays")
    return words.say("spoken.place", place=capital(name), room=room_said(words, room), trays=joined)


def _standing(words: Language, shown: PlaceWeek, year: int) -> str:
    maybe = " maybe" if shown.maybe else ""
    over = " over" if shown.room is not None and shown.filled > 1 + 1e-9 else ""
    at = week(words, shown.monday, year)
    return words.say(f"spoken.standing{maybe}{over}", trays=shown.trays, maybe=shown.maybe, week=at)


def bench_said(
    words: Language, name: str, room: int | None, blocks: Sequence[TrayBlock], names: Mapping[str, str], year: int
) -> str:
    """What stands in a place, and when."""
    told = [
        words.say(
            "spoken.block maybe" if b.maybe else "spoken.block",
            crop=names[b.batch],
            trays=words.count(b.high - b.low, "tray"),
            weeks=weeks(words, b.start, b.end - DAY, year),
        )
        for b in sorted(blocks, key=lambda b: (b.start, b.low))
    ]
    joined = "; ".join(told) or words.say("spoken.no trays")
    return words.say("spoken.place", place=capital(name), room=room_said(words, room), trays=joined)


def marks_said(words: Language, marks: Iterable[str]) -> str:
    """What the marks of the printed chart are, in their order."""
    return words.say("spoken.marks", marks="; ".join(marks))


def tray_said(words: Language, cells: int, parts: Sequence[tuple[str, int]]) -> str:
    """A shared tray of 60 cells: 30 of lettuce, 20 of leeks; 10 left empty."""
    left = cells - sum(n for _, n in parts)
    told = words.listed([words.say("spoken.share", cells=n, crop=name) for name, n in parts])
    whole = words.count(cells, "cell")
    if left:
        return words.say("spoken.shared tray left", cells=whole, parts=told, left=left)
    return words.say("spoken.shared tray", cells=whole, parts=told)


def caution_said(words: Language, caution: str) -> str:
    """What the triangle means."""
    return words.say("spoken.caution", caution=caution)


def column_said(group: str, own: str) -> str:
    """A column's head under the head that it shares."""
    return f"{group}, {own}" if group else own


def frost_said(words: Language, threshold: str, one: Frosts) -> str:
    """A threshold's dates in 1, 5 and 9 years of 10."""
    later, earlier = _chances(words, one.last_spring, "later"), _chances(words, one.first_autumn, "earlier")
    spring = words.say("spoken.frost.spring", chances=later) if later else words.say("spoken.frost.no spring")
    autumn = words.say("spoken.frost.autumn", chances=earlier) if earlier else words.say("spoken.frost.no autumn")
    return words.say("spoken.frost.nights", threshold=threshold, spring=spring, autumn=autumn)


def _chances(words: Language, spread: Spread, way: Literal["later", "earlier"]) -> str:
    order = (0.9, 0.5, 0.1) if way == "later" else (0.1, 0.5, 0.9)
    days = [spread.date_at(chance) for chance in order]
    told = [
        words.say(f"spoken.frost.{way}", day=words.day_month(date(2001, *d)), n=n)
        for d, n in zip(days, (1, 5, 9), strict=True)
        if d is not None
    ]
    return ", ".join(told)
