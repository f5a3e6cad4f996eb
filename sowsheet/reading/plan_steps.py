"""A step of a plan line: what stands side by side at one time, and what is planted between it."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Literal

import msgspec

from sowsheet.reading.date_words import TILL, TO, in_month, read_date
from sowsheet.reading.mistakes import Mistake, Spot
from sowsheet.reading.plan_items import read_item
from sowsheet.reading.plan_records import Dated, Item, Step
from sowsheet.reading.plan_tails import Draft
from sowsheet.reading.plan_words import COVERS, Reader, date_after, refuse_leftover

_STARTS = ("there", "since", "sown", "planted", "picked", "free", "series")
_WHENS = (*_STARTS, "direct", "bare", "till")


def read_step(reader: Reader) -> Step:
    """The whole step. It is worth nothing when mistakes were noted."""
    reader.noted = len(reader.mistakes)
    rest = _rest_words(reader)
    if rest:
        return _read_rest(reader, rest)
    first = _read_group(reader)
    between = [draft for draft in first if draft.between]
    while not reader.ended:
        between += _read_between(reader)
    items = _shared([draft.item for draft in first if not draft.between])
    step = Step(items=items, between=_shared([d.item for d in between]), spot=reader.spot(0, len(reader.tokens)))
    if not reader.troubled:  # what is wrong with half a step would be told twice
        _refuse_untrue(reader, step)
    return step


def _refuse_untrue(reader: Reader, step: Step) -> None:
    """What is well written and cannot be meant; the first is told."""
    items, between = step.items, step.between
    if between and not items:
        what = f"`{between[0].word}` stands between nothing"
        reader.refuse(0, len(reader.tokens), what, "Name first what it stands between: `tomatoes, lettuce between`.")
    for item in (*items, *between):
        if not reader.troubled:
            _refuse_contradiction(reader, item)
        if not reader.troubled and reader.also:
            _refuse_bed_words(reader, item, item in between)


def _read_group(reader: Reader) -> list[Draft]:
    """Items joined by `and` (or `, and`)."""
    drafts: list[Draft] = []
    while (draft := read_item(reader)) is not None:
        drafts.append(draft)
        if reader.word() == "," and reader.word(1) == "and":
            reader.at += 1
        if not reader.take("and"):
            break
        if reader.date_next():
            _refuse_second_date(reader, draft)
            break
    return drafts


def _refuse_second_date(reader: Reader, draft: Draft) -> None:
    start, word = reader.at - 1, draft.item.word
    read = read_date(reader)
    if read is not None:
        cure = f"Write `{word} 1 April, then {word} 1 May`, or `{word} every 3 weeks 1 April to 1 August`."
        if draft.between:
            cure = f"Write `{word} April to June`; `between` means among other plants."
        reader.refuse(start, reader.at, "`and` joins crops, not dates", cure)
    reader.give_up()


def _read_between(reader: Reader) -> list[Draft]:
    """After the first group: `[, | with] item between`. Anything else is a mistake."""
    start = reader.at
    comma, with_ = reader.take(","), reader.take("with")
    if reader.ended:
        reader.refuse(start, reader.at, f"the step ends in `{with_ or comma}`", "Leave it out.")
        return []
    if with_ and reader.word() in COVERS:
        cover = reader.written(reader.at, reader.at + 1)
        reader.refuse(start, reader.at + 1, "covers are written with `under`", f"Write `under {cover}`.")
        reader.give_up()
        return []
    joined = bool(comma or with_)
    if reader.troubled and not joined:  # it may belong to what is wrong already
        reader.give_up()
        return []
    if _rest_words(reader) or not (joined or reader.item_next()):
        refuse_leftover(reader)
        return []
    noted = len(reader.mistakes)
    group = _read_group(reader)
    if group and group[-1].between:
        return group
    if len(reader.mistakes) == noted:
        _refuse_joint(reader, start, bool(with_), group)
    reader.give_up()
    return []


def _refuse_joint(reader: Reader, start: int, with_: bool, group: list[Draft]) -> None:
    """A comma, `with` or nothing at all where `then` or `and` has to stand."""
    joint = int(reader.tokens[start].word == ",") + int(with_)
    left = reader.written(0, start)
    right = reader.written(start + joint, len(reader.tokens))
    both = f"`{left} and {right}`"
    end = start + max(1, joint)
    if with_:
        cure = f"Write `{group[0].item.word} between`, or {both} side by side."
        reader.refuse(start, end, "`with` wants a crop that is planted `between`", cure)
    elif group and group[0].item.amount and group[0].item.amount.unit == "share":
        reader.refuse(start, end, "`and` is wanted here", f"Write {both}.")
    else:
        cure = f"One after the other: `{left}, then {right}`; side by side: {both}."
        reader.refuse(start, end, "`then` or `and`? It could be either", cure)


def _shared(items: Sequence[Item]) -> tuple[Item, ...]:
    """A date after the last of several joined by `and` holds for those without one."""
    return (*(_with_when_of(item, items[-1]) for item in items[:-1]), *items[-1:])


def _with_when_of(item: Item, last: Item) -> Item:
    if not any(getattr(item, field) for field in _WHENS):
        fields: tuple[str, ...] = _WHENS
    elif last.bare and not any(getattr(item, field) for field in _STARTS):
        fields = ("planted", "bare")
    else:
        return item
    return msgspec.structs.replace(item, **{field: getattr(last, field) for field in fields})


def _refuse_contradiction(reader: Reader, item: Item) -> None:
    """What cannot both be true of one crop."""
    went_in = item.planted or (item.sown if item.direct else None)
    stands = "there" if item.there else "since" if item.since else ""
    if stands and (went_in or item.series or item.free):
        what = f"{item.word} cannot stand there already and go into the bed later"
        cure = f"Write `{item.word} there till April`, or leave `{stands}` out."
        _refuse_at(reader, (went_in.spot if went_in else item.spot), what, cure)
    elif item.free and (went_in or item.series):
        cure = "Leave `when free` out, or the date."
        _refuse_at(reader, item.spot, f"{item.word} cannot go in both on a day and when the bed is free", cure)
    elif item.series and (item.planted or item.sown):
        cure = "Write the first day after `every …`: `every 3 weeks 1 March to 1 August`."
        _refuse_at(reader, item.spot, f"{item.word} has a date beside its `every`", cure)


def _refuse_bed_words(reader: Reader, item: Item, between: bool) -> None:
    """In `sow also` there is no bed to stand in."""
    words = {
        "`there`": item.there or item.since,
        "`till` or `to`": item.till,
        "`when free`": item.free,
        "`sown direct`": item.direct,
        "a cover": item.cover,
        "`between`": between,
        "a share of a bed": item.amount is not None and item.amount.unit in ("m", "rows", "share"),
    }
    said = next((word for word, found in words.items() if found), None)
    if said:
        what = f"`sow also` has no bed: {said} says nothing here"
        _refuse_at(reader, item.spot, what, "e.g. `60 lettuce 1 March`, `60 lettuce every 3 weeks March to August`")


def _read_rest(reader: Reader, rest: Literal["nothing", "something quick"]) -> Step:
    """`nothing till September`, `nothing in June`, `something quick`."""
    reader.at += len(rest.split())
    start: Dated | None = None
    until: Dated | None = None
    if reader.also:
        reader.refuse(0, reader.at, f"`{rest}` says nothing in `sow also`", "Leave the line out.")
        reader.give_up()
    if rest == "something quick" and not reader.ended:
        cure = "Leave it out: the gap lasts until the next crop; date that one."
        words = reader.written(reader.at, len(reader.tokens))
        reader.refuse(reader.at, len(reader.tokens), f"`{words}` says nothing after `{rest}`", cure)
        reader.give_up()
    if not reader.ended:
        start, until = _rest_dates(reader)
    if not reader.ended and not reader.troubled:
        words = reader.written(reader.at, len(reader.tokens))
        cure = f"e.g. `{rest} till September`; before the next crop comes `then`."
        reader.refuse(reader.at, len(reader.tokens), f"`{words}` is not understood after `{rest}`", cure)
    return Step(rest=rest, start=start, till=until, spot=reader.spot(0, len(reader.tokens)))


def _rest_dates(reader: Reader) -> tuple[Dated | None, Dated | None]:
    """From when and till when a bed rests. A month alone is the whole of it."""
    reader.take(",")
    at, start, until = reader.at, None, None
    lead = reader.take("from", "in", "on")
    if lead or reader.date_next():
        dated = date_after(reader, at, lead or "on")
        start = dated and in_month(dated, "first")
        whole = dated and in_month(dated, "last")
        until = whole if lead != "from" and whole != dated else None
    at = reader.at
    if joint := reader.take(*TILL, *TO):
        until = date_after(reader, at, joint, "last" if joint in TO else "first")
    return start, until


def _refuse_at(reader: Reader, spot: Spot, what: str, cure: str) -> None:
    reader.mistakes.append(Mistake(spot, what, cure))


def _rest_words(reader: Reader) -> Literal["", "nothing", "something quick"]:
    if reader.word() == "nothing" and reader.name_at() is None:
        return "nothing"
    return "something quick" if reader.word() == "something" and reader.word(1) == "quick" else ""
