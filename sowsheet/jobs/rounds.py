"""What is looked after between the jobs: the rounds of every day, and those of once a week."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from datetime import date, timedelta
from typing import Literal

import msgspec

from sowsheet.garden.records import UNDER_GLASS, Garden, Shelter
from sowsheet.jobs.make import name_of, taken_at_once
from sowsheet.schedule.records import Batch, Schedule, Stay
from sowsheet.trays.records import TrayPlan
from sowsheet.words.language import Language

RoundVerb = Literal["Look over", "Water", "Open", "Check", "Pick", "Weed", "Look"]

# Common practice, no source: how long new plants are watered in dry weather, and how long slugs find them tender.
NEW_DAYS, TENDER_DAYS = 14, 28
MOST_BEDS = 4  # that a line can name


class Round(msgspec.Struct, frozen=True):
    """A thing that is done again and again: the verb, what follows it (words ready to print), and where; "" for no
    place of its own. How the two stand together is the language's, `rounds.line`."""

    verb: RoundVerb
    what: str
    where: str = ""


class Standing(msgspec.Struct, frozen=True):
    """What stands in a place in trays: the crop, and how many trays or pots as it is printed."""

    what: str
    much: str


def daily(schedule: Schedule, trays: TrayPlan, garden: Garden, start: date, end: date) -> tuple[Round, ...]:
    """The rounds of every day from `start` up to but not including `end`, in the order of the walk."""
    return tuple(_daily(schedule, trays, garden, start, end))


def weekly(schedule: Schedule, garden: Garden, start: date, end: date) -> tuple[Round, ...]:
    """What is done once between two days: picking bed by bed, weeds, slugs."""
    return tuple(_weekly(schedule, garden, start, end))


def standing(
    words: Language, schedule: Schedule, trays: TrayPlan, place: str, start: date, end: date
) -> tuple[Standing, ...]:
    """What stands in a place, as most of it stands between two days; a shared tray counts where it is owned."""
    batches = {b.name: b for b in schedule.batches}
    most: Counter[tuple[str, str]] = Counter()
    for stay in _in(trays, place, start, end):
        key = name_of(batches[stay.batch]), stay.container
        most[key] += stay.trays
    named = Counter(what for what, _ in most)
    told = ((what, n, kind if named[what] > 1 else "") for (what, kind), n in most.items())
    return tuple(Standing(what, _trays_said(words, n, kind)) for what, n, kind in told)


def _trays_said(words: Language, trays: int, kind: str) -> str:
    much = words.count(trays, "tray") if trays else words.say("rounds.in a shared tray")
    return words.say("rounds.trays of kind", trays=much, kind=kind) if kind else much


def _in(trays: TrayPlan, place: str, start: date, end: date) -> list[Stay]:
    return [s for s in trays.stays if s.where == place and s.start < end and s.end > start]


def _daily(schedule: Schedule, trays: TrayPlan, garden: Garden, start: date, end: date) -> Iterator[Round]:
    words = garden.words
    open_and_shut: list[Shelter] = []
    for place in garden.places:
        here = _in(trays, place.name, start, end)
        if here and place.under in UNDER_GLASS:
            open_and_shut.append(place.under)
        if any(s.stage == "germinating" for s in here):
            yield Round("Look over", words.say("rounds.look over", place=words.the(place.name)), place.name)
        elif here:
            yield Round("Water", words.say("rounds.water trays", place=words.the(place.name)), place.name)
    under = {bed.name: bed.house.under if bed.house else bed.under for bed in garden.beds}
    grown = [s for b in schedule.batches for s in b.stays if s.part is not None and s.start < end and s.end > start]
    planted = [under[s.where] for s in grown if under.get(s.where) in UNDER_GLASS]
    open_and_shut += planted
    for shelter in dict.fromkeys(open_and_shut):
        yield Round("Open", words.say(f"rounds.open.{shelter}"))
    for shelter in dict.fromkeys(planted):
        yield Round("Water", words.say(f"rounds.water beds.{shelter}"))
    new = _planted_within(schedule, start, end, NEW_DAYS)
    if new:
        yield Round("Water", words.say("rounds.water new", beds=_beds(garden, new)))
    kinds = sorted({c.kind for b in schedule.batches for c in b.covers if c.start < end and c.end > start})
    if kinds:
        named = words.listed([words.say(f"cover.{kind}") for kind in kinds])
        alone = words.say(f"rounds.check.{kinds[0]}")
        yield Round("Check", words.say("rounds.check covers", covers=named) if len(kinds) > 1 else alone)


def _weekly(schedule: Schedule, garden: Garden, start: date, end: date) -> Iterator[Round]:
    words = garden.words
    order = {bed.name: n for n, bed in enumerate(garden.beds)}
    in_beds = [(b, s) for b in schedule.batches for s in b.stays if s.part is not None and s.start < end]
    here = sorted(((b, s) for b, s in in_beds if s.end > start), key=lambda pair: order.get(pair[1].where, len(order)))
    for batch, stay in here:
        if stay.stage == "picking" and not taken_at_once(batch.kind) and not batch.maybe:
            yield Round("Pick", words.say("rounds.pick", crop=name_of(batch), bed=stay.where), stay.where)
    if here:
        yield Round("Weed", words.say("rounds.weed"))
    if _planted_within(schedule, start, end, TENDER_DAYS):
        yield Round("Look", words.say("rounds.slugs"))


def _planted_within(schedule: Schedule, start: date, end: date, days: int) -> list[Batch]:
    """Batches that went into their beds so many days ago at most, or go before `end`."""
    first = start - timedelta(days=days)
    planted = ((b, b.stages.plant) for b in schedule.batches if b.bed and b.raised == "tray")
    return [b for b, when in planted if when is not None and first <= when.day < end]


def _beds(garden: Garden, batches: list[Batch]) -> str:
    names = {b.bed for b in batches}
    ordered = [bed.name for bed in garden.beds if bed.name in names]
    if len(ordered) <= MOST_BEDS:
        return garden.words.listed(ordered)
    return garden.words.say("rounds.beds", n=len(ordered))
