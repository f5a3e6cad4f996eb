"""The propagation space as folds over stays in trays: sowings, places by week, tray kinds at their most."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from datetime import date, timedelta

import msgspec

from sowsheet.garden.defaults import assumed_pots, assumed_seed_tray
from sowsheet.garden.records import Garden, Place, TrayKind
from sowsheet.schedule.records import Batch, Doubt, Schedule, Stay
from sowsheet.site.season import monday_of, mondays_between, season_mondays
from sowsheet.trays.fit import trays_on
from sowsheet.trays.records import PlaceWeek, Sowing, TrayPlan, TrayUse
from sowsheet.trays.share import in_first_tray, shared_trays
from sowsheet.words.language import Language

FULL = 1.0 + 1e-9


def tray_plan(schedule: Schedule, garden: Garden) -> TrayPlan:
    """Everything that stands in trays, by week: of the season, and of the weeks before it that have a tray."""
    shared = shared_trays(schedule.batches)
    sharers = {part.batch: tray.owner for tray in shared for part in tray.parts if part.batch != tray.owner}
    stays = tuple(s for batch in schedule.batches for s in _stays(batch, sharers))
    mondays = _mondays(schedule, stays)
    return TrayPlan(
        mondays=mondays,
        sowings=_sowings(schedule.batches, sharers),
        shared=shared,
        stays=stays,
        weeks=_weeks(garden, mondays, stays),
        uses=_uses(garden, stays),
    )


def space_doubts(garden: Garden, plan: TrayPlan) -> tuple[Doubt, ...]:
    """Places that do not hold what is to stand there, and trays that are not owned; one doubt each."""
    return (*_place_doubts(garden, plan), *_tray_doubts(garden.words, plan))


def _mondays(schedule: Schedule, stays: Sequence[Stay]) -> tuple[date, ...]:
    own = season_mondays(schedule.season)
    first = min([own[0], *(monday_of(s.start) for s in stays)])
    last = max([own[-1], *(monday_of(s.end - timedelta(days=1)) for s in stays)])
    return mondays_between(first, last)


def _sowings(batches: Sequence[Batch], sharers: Mapping[str, str]) -> tuple[Sowing, ...]:
    found = []
    for batch in batches:
        sow, a = batch.stages.sow, batch.amount
        if batch.raised != "tray" or sow is None or not a.cells or batch.open_left:
            continue
        owner = sharers.get(batch.name)
        sowing = Sowing(
            batch=batch.name,
            monday=monday_of(sow.day),
            day=sow.day,
            place=batch.route[0] if batch.route else "",
            tray=a.tray,
            trays=a.trays - (1 if owner else 0),
            cells=a.cells,
            plants=_plants(batch),
            seeds=a.seeds,
            shares=owner,
            maybe=batch.maybe,
        )
        found.append(sowing)
    return tuple(sorted(found, key=lambda s: (s.day, s.batch)))


def _plants(batch: Batch) -> int:
    wanted = batch.amount.places + batch.amount.spare
    return -(-wanted.numerator // wanted.denominator)


def _stays(batch: Batch, sharers: Mapping[str, str]) -> Iterable[Stay]:
    """A batch's stays in trays: less the tray it has in another's, which goes with it and stays as long."""
    own = [s for s in batch.stays if s.container]
    if batch.name not in sharers:
        return own
    first = in_first_tray(batch)
    fewer = [msgspec.structs.replace(s, trays=s.trays - 1) if s in first else s for s in own]
    return [s for s in fewer if s.trays > 0]


def _weeks(garden: Garden, mondays: Sequence[date], stays: Sequence[Stay]) -> tuple[PlaceWeek, ...]:
    kinds = {t.name: t for t in (assumed_seed_tray(), assumed_pots(), *garden.trays)}
    main = garden.trays[0]
    by_place: dict[str, list[Stay]] = defaultdict(list)
    for stay in stays:
        by_place[stay.where].append(stay)
    weeks = []
    for place in garden.places:
        room = _holds(place, main)
        shares = {name: _share(place, kind) for name, kind in kinds.items()}
        for monday in mondays:
            weeks.append(_place_week(place, monday, by_place[place.name], room, shares))  # noqa: PERF401
    return tuple(weeks)


def _place_week(
    place: Place, monday: date, stays: Sequence[Stay], room: int | None, shares: dict[str, float]
) -> PlaceWeek:
    """A place on the fullest day of a week: the day on which most room is taken, then most trays, then the first."""
    week_end = monday + timedelta(days=7)
    near = [s for s in stays if s.start < week_end and s.end > monday]
    best: tuple[float, int, date] | None = None
    for day in sorted({max(monday, s.start) for s in near}):
        here = [s for s in near if s.start <= day < s.end]
        sure = [s for s in here if not s.maybe]
        key = (sum(s.trays * shares[s.container] for s in sure), sum(s.trays for s in sure), day)
        if best is None or key[:2] > best[:2]:
            best = key
    if best is None:
        return PlaceWeek(place.name, monday, 0, room, 0.0)
    here = [s for s in near if s.start <= best[2] < s.end]
    return PlaceWeek(
        place.name,
        monday,
        best[1],
        room,
        best[0],
        maybe=sum(s.trays for s in here if s.maybe),
        waiting=sum(s.trays for s in here if s.stage == "hardening off" and not s.maybe),
        fresh=sum(s.trays for s in here if s.start >= monday and not s.maybe),
    )


def _holds(place: Place, kind: TrayKind) -> int | None:
    """How many trays of a kind a place holds; None where it is not limited."""
    room = place.room
    if room.trays is not None:
        return room.trays
    if room.length_cm is None or room.width_cm is None:
        return None
    return trays_on(room.length_cm, room.width_cm, kind.length_cm, kind.width_cm)


def _share(place: Place, kind: TrayKind) -> float:
    """The share of a place's room that one tray takes."""
    holds = _holds(place, kind)
    return 0.0 if holds is None else 1 / max(holds, 1)


def _uses(garden: Garden, stays: Sequence[Stay]) -> tuple[TrayUse, ...]:
    by_kind: dict[str, list[Stay]] = defaultdict(list)
    for stay in stays:
        if not stay.maybe:
            by_kind[stay.container].append(stay)
    owned = {t.name: t.owned for t in garden.trays}
    return tuple(_most(name, own, owned.get(name)) for name, own in sorted(by_kind.items()))


def _most(name: str, stays: Sequence[Stay], owned: int | None) -> TrayUse:
    change: dict[date, int] = defaultdict(int)
    for stay in stays:
        change[stay.start] += stay.trays
        change[stay.end] -= stay.trays
    standing, most, day = 0, 0, stays[0].start
    for edge in sorted(change):
        standing += change[edge]
        if standing > most:
            most, day = standing, edge
    return TrayUse(name, most, day, owned)


def _place_doubts(garden: Garden, plan: TrayPlan) -> Iterable[Doubt]:
    words = garden.words
    for place in garden.places:
        over = [w for w in plan.weeks if w.place == place.name and w.filled > FULL]
        if not over:
            continue
        worst = max(over, key=lambda w: w.filled)
        excess = max(1, worst.trays - (worst.room or 0))
        yield Doubt(
            "no_room",
            "",
            words.say(
                "doubt.no room.what",
                place=place.name,
                trays=words.count(worst.trays, "tray"),
                week=worst.monday.isocalendar().week,
            ),
            words.say(
                "doubt.no room.why",
                room=worst.room,
                n=len(over),
                first=words.day_month_year(over[0].monday),
                last=words.day_month_year(over[-1].monday + timedelta(days=6)),
            ),
            words.say("doubt.no room.cure", trays=words.count(excess, "tray")),
        )


def _tray_doubts(words: Language, plan: TrayPlan) -> Iterable[Doubt]:
    for use in plan.uses:
        if use.owned is not None and use.most > use.owned:
            yield Doubt(
                "trays_short",
                "",
                words.say("doubt.trays short.what", n=use.most, tray=words.tray_name(use.tray), owned=use.owned),
                words.say("doubt.trays short.why", day=words.day_month(use.day)),
                words.say("doubt.trays short.cure", n=use.most - use.owned),
            )
