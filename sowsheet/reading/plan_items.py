"""One crop of a plan line, and all that is said of it."""

from __future__ import annotations

from sowsheet.reading.date_words import TILL
from sowsheet.reading.mistakes import said, write
from sowsheet.reading.plan_amounts import read_amount
from sowsheet.reading.plan_records import Item
from sowsheet.reading.plan_tails import HANDLERS, Draft, Handler, read_bare, read_between, read_note
from sowsheet.reading.plan_words import MAYBE, Reader, refuse_unknown_crop

_MAY_FOLLOW_AND = ("sown", "planted", "picked", "drilled", "under", "when", "there", "raised", *TILL)


def read_item(reader: Reader) -> Draft | None:
    """The item that comes next. None when no crop can be made out; then the mistake is told."""
    maybe = bool(reader.take(*MAYBE))
    amount = read_amount(reader)
    reader.take("the")
    start, found = reader.at, reader.name_at()
    if found is None:
        refuse_unknown_crop(reader)
        return None
    used, name = found
    reader.at += used
    word, spot = reader.written(start, reader.at), reader.spot(start, reader.at)
    if name.choices:
        reader.refuse(start, reader.at, said("mistake.plan.several things", word=word), write(*name.choices))
    word = name.nominative or word
    item = Item(crop=name.crop, kind=name.kind, word=word, spot=spot, foreign=name.foreign, maybe=maybe, amount=amount)
    return _read_tail(reader, Draft(item))


def _read_tail(reader: Reader, draft: Draft) -> Draft:
    """Everything about the crop after its name."""
    while not reader.ended:
        if _joint(reader):
            reader.at += 1
        handle = _handler(reader)
        if handle is None:
            break
        draft = handle(reader, draft)
    return draft


def _joint(reader: Reader) -> bool:
    """Whether a comma or `and` comes next that goes on about the same crop: `sown 1 March, planted 10 April`."""
    if reader.word() == "and":
        return reader.word(1) in _MAY_FOLLOW_AND and reader.name_at(1) is None
    return reader.word() == "," and reader.goes_on(1)


def _handler(reader: Reader) -> Handler | None:
    if reader.ended or reader.name_at() is not None:
        return None
    if reader.tokens[reader.at].mark == "note":
        return read_note
    if reader.word() == "in" and reader.word(1) == "between":
        return read_between
    return HANDLERS.get(reader.word()) or (read_bare if reader.date_next() else None)
