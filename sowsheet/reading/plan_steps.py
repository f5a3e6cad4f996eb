"""A step of a plan line: what stands side by side at one time, and what is planted between it."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Literal

import msgspec

from sowsheet.reading.date_words import TILL, TO, in_month, read_date
from sowsheet.reading.mistakes import Mistake, Said, Spot, example, said, write
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
        what = said("mistake.plan.between.nothing.what", crop=between[0].word)
        reader.refuse(0, len(reader.tokens), what, said("mistake.plan.between.nothing.cure"))
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
        key = "mistake.plan.two dates.between" if draft.between else "mistake.plan.two dates.cure"
        reader.refuse(start, reader.at, said("mistake.plan.two dates.what"), said(key, crop=word))
    reader.give_up()


def _read_between(reader: Reader) -> list[Draft]:
    """After the first group: `[, | with] item between`. Anything else is a mistake."""
    start = reader.at
    comma, with_ = reader.take(","), reader.take("with")
    if reader.ended:
        reader.refuse(start, reader.at, said("mistake.plan.step ends", word=with_ or comma), said("mistake.leave out"))
        return []
    if with_ and reader.word() in COVERS:
        cover = reader.written(reader.at, reader.at + 1)
        reader.refuse(start, reader.at + 1, said("mistake.plan.cover.with"), write(f"under {cover}"))
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
    end = start + max(1, joint)
    if with_:
        cure = said("mistake.plan.with.cure", crop=group[0].item.word, left=left, right=right)
        reader.refuse(start, end, said("mistake.plan.with.what"), cure)
    elif group and group[0].item.amount and group[0].item.amount.unit == "share":
        reader.refuse(start, end, said("mistake.plan.and wanted"), write(f"{left} and {right}"))
    else:
        cure = said("mistake.plan.then or and.cure", left=left, right=right)
        reader.refuse(start, end, said("mistake.plan.then or and.what"), cure)


def _shared(items: Sequence[Item]) -> tuple[Item, ...]:
    """A date after the last of several joined by `and` holds for those without one, and so does a cover beside it."""
    return (*(_with_when_of(item, items[-1]) for item in items[:-1]), *items[-1:])


def _with_when_of(item: Item, last: Item) -> Item:
    if not any(getattr(item, field) for field in _WHENS):
        fields: tuple[str, ...] = _WHENS
    elif last.bare and not any(getattr(item, field) for field in _STARTS):
        fields = ("planted", "bare")
    else:
        return item
    shared = {field: getattr(last, field) for field in fields}
    cover = item.cover or (last.cover if any(shared.values()) else None)
    return msgspec.structs.replace(item, cover=cover, **shared)


def _refuse_contradiction(reader: Reader, item: Item) -> None:
    """What cannot both be true of one crop."""
    went_in = item.planted or (item.sown if item.direct else None)
    stands = "there" if item.there else "since" if item.since else ""
    if stands and (went_in or item.series or item.free):
        what = said("mistake.plan.there and later.what", crop=item.word)
        cure = said("mistake.plan.there and later.cure", crop=item.word, stands=stands)
        _refuse_at(reader, (went_in.spot if went_in else item.spot), what, cure)
    elif item.free and (went_in or item.series):
        cure = said("mistake.plan.free on a day.cure")
        _refuse_at(reader, item.spot, said("mistake.plan.free on a day.what", crop=item.word), cure)
    elif item.series and (item.planted or item.sown):
        cure = said("mistake.plan.every and date.cure")
        _refuse_at(reader, item.spot, said("mistake.plan.every and date.what", crop=item.word), cure)


def _refuse_bed_words(reader: Reader, item: Item, between: bool) -> None:
    """In `sow also` there is no bed to stand in."""
    words = {
        "there": item.there or item.since,
        "till": item.till,
        "when free": item.free,
        "sown direct": item.direct,
        "cover": item.cover,
        "between": between,
        "share": item.amount is not None and item.amount.unit in ("m", "rows", "share"),
        "two days": item.sown is not None and item.planted is not None,
    }
    wrong = next((word for word, found in words.items() if found), None)
    if wrong:
        cure = example("60 lettuce 1 March", "60 lettuce every 3 weeks March to August")
        _refuse_at(reader, item.spot, said(f"mistake.plan.no bed.{wrong}"), cure)


def _read_rest(reader: Reader, rest: Literal["nothing", "something quick"]) -> Step:
    """`nothing till September`, `nothing in June`, `something quick`."""
    reader.at += len(rest.split())
    start: Dated | None = None
    until: Dated | None = None
    if reader.also:
        reader.refuse(0, reader.at, said("mistake.plan.rest.also.what", rest=rest), said("mistake.plan.rest.also.cure"))
        reader.give_up()
    if rest == "something quick" and not reader.ended:
        what = said("mistake.plan.rest.quick.what", text=reader.written(reader.at, len(reader.tokens)), rest=rest)
        reader.refuse(reader.at, len(reader.tokens), what, said("mistake.plan.rest.quick.cure"))
        reader.give_up()
    if not reader.ended:
        start, until = _rest_dates(reader)
    if not reader.ended and not reader.troubled:
        what = said("mistake.plan.rest.words.what", text=reader.written(reader.at, len(reader.tokens)), rest=rest)
        reader.refuse(reader.at, len(reader.tokens), what, said("mistake.plan.rest.words.cure", rest=rest))
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


def _refuse_at(reader: Reader, spot: Spot, what: Said, cure: Said) -> None:
    reader.mistakes.append(Mistake(spot, what, cure))


def _rest_words(reader: Reader) -> Literal["", "nothing", "something quick"]:
    if reader.word() == "nothing" and reader.name_at() is None:
        return "nothing"
    return "something quick" if reader.word() == "something" and reader.word(1) == "quick" else ""
