"""What a plan line says of a crop after its name: each word with the dates that belong to it."""

from __future__ import annotations

from collections.abc import Callable
from difflib import get_close_matches

import msgspec

from sowsheet.reading.date_forms import Found, date_at
from sowsheet.reading.date_words import TILL, TO, Month, in_month, read_date
from sowsheet.reading.mistakes import Said, example, said
from sowsheet.reading.numbers import days_at
from sowsheet.reading.plan_amounts import read_times
from sowsheet.reading.plan_records import CoverWords, Dated, Item, SeriesWords
from sowsheet.reading.plan_words import COVERS, Reader, date_after, strangers

_EVERY = ("every", "weekly", "fortnightly")
_ON = ("in", "on", "at")
_TO_PLACE = ("the", "my", "our", "a", *_ON)


class Draft(msgspec.Struct, frozen=True):
    """An item, and whether it is planted between others."""

    item: Item
    between: bool = False


def _put(reader: Reader, draft: Draft, field: str, value: object, start: int) -> Draft:
    """The draft with one more thing said; saying it twice is a mistake. None (a refused date) changes nothing."""
    if value is None:
        return draft
    if getattr(draft.item, field) is not None:
        written = reader.written(start, reader.at)
        what = said(f"mistake.plan.one too many.{field}", text=written, crop=draft.item.word)
        reader.refuse(start, reader.at, what, said("mistake.keep one"))
        return draft
    return _with(draft, **{field: value})


def _with(draft: Draft, **changes: object) -> Draft:
    return msgspec.structs.replace(draft, item=msgspec.structs.replace(draft.item, **changes))


def _dates_after(reader: Reader, start: int, lead: str, hint: Said | None = None) -> tuple[Dated | None, Dated | None]:
    """A date, or `A to B`, in which months are whole. A month after `from` is its 1st."""
    first = date_after(reader, start, lead, "first" if lead == "from" else "as written", hint)
    at = reader.at
    to = reader.take(*TO)
    if not to:
        return first, None
    until = date_after(reader, at, to, "last")
    return first and in_month(first, "first"), until


def read_bare(reader: Reader, draft: Draft) -> Draft:
    """A date without a verb: into the bed; sown, where there is no bed."""
    start = reader.at
    lead = reader.take(*_ON, "from")
    if lead in _ON and _place_next(reader):
        return _route(reader, draft)
    if lead and reader.word() in ("seed", "seeds", "sets", "plants", "plugs", "cloves", "tubers"):
        return _refuse_from(reader, draft, start)
    hint = None
    if lead and reader.standing:
        hint = said("mistake.plan.date or place", lead=lead, places=_choices(reader))
    first, until = _dates_after(reader, start, lead, hint)
    series = draft.item.series
    if series is not None and first is not None and series.start is None:  # `every 3 weeks between from March`
        filled = SeriesWords(series.every_days, in_month(first, "first"), until or series.until, series.picking)
        return _with(draft, series=filled)
    if reader.also:
        draft = _put(reader, draft, "sown", first, start)
    else:
        bare = draft.item.bare or (first is not None and draft.item.planted is None)
        draft = _with(_put(reader, draft, "planted", first, start), bare=bare)
    return _put(reader, draft, "till", until, start)


def _refuse_from(reader: Reader, draft: Draft, start: int) -> Draft:
    """`leeks from seed`, where the catalogue knows no such kind."""
    reader.at += 1
    what = said("mistake.plan.kind.none", kind=reader.written(start, reader.at), crop=draft.item.word)
    reader.refuse(start, reader.at, what, said("mistake.plan.kind.from"))
    return draft


def _raised(reader: Reader, draft: Draft) -> Draft:
    """`raised in the hotbed`, `raised on the shelf and the heated bench`."""
    start = reader.at
    reader.take("raised")
    if _place_next(reader):
        return _route(reader, draft)
    while reader.take(*_TO_PLACE):
        pass
    places = _choices(reader)
    if reader.ended:
        cure = said("mistake.example", ways=places) if places else said("mistake.plan.place.wanted.none there")
        reader.refuse(start, reader.at, said("mistake.plan.place.wanted.what"), cure)
    else:
        _refuse_place(reader, places)
    reader.give_up()
    return draft


def _refuse_place(reader: Reader, places: str) -> None:
    """A place that the garden file does not name: the nearest that it names is offered, else all."""
    end = reader.at + strangers(reader)
    written = reader.written(reader.at, end)
    known = {name.lower(): name for name in reader.standing}
    near = get_close_matches(written.lower(), known, n=1, cutoff=0.75)
    cure = said("mistake.plan.place.none.cure" if places else "mistake.plan.place.none.none there", places=places)
    if near:
        cure = said("mistake.near", near=f"raised at the {known[near[0]]}")
    reader.refuse(reader.at, end, said("mistake.plan.place.none.what", place=written), cure)


def _choices(reader: Reader) -> str:
    """How to name each place for trays; "" where there is none."""
    return ", ".join(f"`raised at the {name}`" for name in reader.standing)


def _place_next(reader: Reader) -> bool:
    """Whether a place comes next, after words like `the`, which are stepped over then, and no date as long as it."""
    ahead = 0
    while (found := reader.place_at(ahead)) is None and reader.word(ahead) in _TO_PLACE:
        ahead += 1
    if found is None:
        return False
    dated = date_at(reader.words(ahead))
    if isinstance(dated, Found) and dated.used >= found[0]:
        return False
    reader.at += ahead
    return True


def _route(reader: Reader, draft: Draft) -> Draft:
    """The places that come next, joined by commas or `and`."""
    route = draft.item.route
    while (found := reader.place_at()) is not None:
        reader.at += found[0]
        route = (*route, found[1])
        joint = reader.at
        reader.take(",")
        reader.take("and")
        if reader.at == joint or not _place_next(reader):
            reader.at = joint
            break
    return _with(draft, route=tuple(dict.fromkeys(route)))


def _there(reader: Reader, draft: Draft) -> Draft:
    start = reader.at
    while reader.take("there", "already"):
        pass
    if not any(token.word == "there" for token in reader.tokens[start : reader.at]):
        reader.refuse(start, reader.at, said("mistake.plan.already.what"), said("mistake.plan.already.cure"))
    return _with(draft, there=True)


def _since(reader: Reader, draft: Draft) -> Draft:
    start = reader.at
    reader.take("since")
    return _put(reader, draft, "since", date_after(reader, start, "since"), start)


def _sown(reader: Reader, draft: Draft) -> Draft:
    """`sown 1 March`, `sown direct`, `drilled in April`."""
    start = reader.at
    verb = reader.take("sown", "drilled", "direct")
    direct = verb != "sown" or bool(reader.take("direct"))
    if verb == "direct":
        reader.take("sown", "sow")
    if direct:
        draft = _with(draft, direct=True)
    if reader.word() in _EVERY and (direct or reader.also):
        return draft
    if reader.word() in _EVERY:
        what, cure = said("mistake.plan.sown every.what"), said("mistake.plan.sown every.cure")
        reader.refuse(start, reader.at + 1, what, cure)
        reader.give_up()
        return draft
    lead = reader.take(*_ON, "from")
    if direct and not lead and not reader.date_next():
        return draft
    first, until = _dates_after(reader, start, lead or verb, said("mistake.plan.sown.cure"))
    return _put(reader, _put(reader, draft, "sown", first, start), "till", until, start)


def _planted(reader: Reader, draft: Draft) -> Draft:
    """`planted 10 April`, `planted out in May`, `set in October`."""
    start = reader.at
    verb = reader.take("planted", "set")
    reader.take("out")
    if reader.word() == "since" or reader.word() in _EVERY:
        return draft
    lead = reader.take(*_ON, "from")
    first, until = _dates_after(reader, start, lead or verb)
    return _put(reader, _put(reader, draft, "planted", first, start), "till", until, start)


def _picked(reader: Reader, draft: Draft) -> Draft:
    """`picked from 1 June`, `picked till mid-April`."""
    start = reader.at
    reader.take("picked")
    if reader.word() in (*TILL, "to"):
        return draft
    lead = reader.take(*_ON, "from")
    hint = example("picked from 1 June", "picked till October")
    first, until = _dates_after(reader, start, lead or "picked", hint)
    return _put(reader, _put(reader, draft, "picked", first, start), "till", until, start)


def _till(reader: Reader, draft: Draft) -> Draft:
    """`till June` is till its 1st, `to June` to its end."""
    start = reader.at
    lead = reader.take(*TILL, "to")
    until = date_after(reader, start, lead, "last" if lead == "to" else "first")
    return _put(reader, draft, "till", until, start)


def _every(reader: Reader, draft: Draft) -> Draft:
    """`every 3 weeks from March to August`, `every fortnight`, `weekly till June`, `every week of picking May to
    October`."""
    start = reader.at
    days = _interval(reader, start)
    if days is None:
        return draft
    picking = _of_picking(reader)
    if picking and reader.also:
        reader.refuse(start, reader.at, said("mistake.plan.of picking.what"), said("mistake.plan.of picking.cure"))
    first, until = _series_dates(reader)
    item = draft.item
    unverbed = item.sown if reader.also else item.planted if item.bare else None
    if first is None and unverbed is not None:  # `1 March to 1 August every 3 weeks`
        first, until, end = in_month(unverbed, "first"), until or item.till, until and item.till
        draft = _with(draft, till=end, bare=False, **{"sown" if reader.also else "planted": None})
    return _put(reader, draft, "series", SeriesWords(days, first, until, picking), start)


def _of_picking(reader: Reader) -> bool:
    """`of picking`, `of pickings`, `of harvest`."""
    start = reader.at
    if reader.take("of") and reader.take("picking", "pickings", "harvest"):
        return True
    reader.at = start
    return False


def _interval(reader: Reader, start: int) -> int | None:
    """The days of `every …`; anything but days and weeks is a mistake."""
    word = reader.take(*_EVERY)
    if word != "every":
        return 7 if word == "weekly" else 14
    other = 2 if reader.take("other", "second") else 1
    found = days_at(reader.plain_words()) or ((1, 1) if reader.word() == "day" else None)
    if found is not None and found[0] * other > 366:
        what = said("mistake.plan.every.too long.what", text=reader.written(start, reader.at + found[1]))
        reader.refuse(start, reader.at + found[1], what, said("mistake.plan.every.too long.cure"))
        reader.give_up()
        return None
    if found is None or found[0] < 1 or int(found[0]) != found[0]:
        cure = example("every 3 weeks", "every fortnight")
        reader.refuse(start, reader.at + 1, said("mistake.plan.every.weeks"), cure)
        reader.give_up()
        return None
    reader.at += found[1]
    return int(found[0]) * other


def _series_dates(reader: Reader) -> tuple[Dated | None, Dated | None]:
    """From when to when: `from A to B`, `between A and B`, `A till B`, `till B`; a month alone is the whole of it."""
    start = reader.at
    if reader.word() in ("from", "between", *_ON) and reader.date_next(1):
        reader.at += 1
    if not reader.date_next():
        reader.at = start
        return None, _series_end(reader, "first")
    alone = reader.tokens[start].word != "from"
    dated = read_date(reader)
    if reader.tokens[start].word == "between" and reader.word() == "and":
        reader.at += 1
        return dated and in_month(dated, "first"), date_after(reader, reader.at - 1, "and", "last")
    until = _series_end(reader, "last")
    if dated is not None and until is None and alone and in_month(dated, "last") != dated:
        until = in_month(dated, "last")
    return dated and in_month(dated, "first"), until


def _series_end(reader: Reader, to: Month) -> Dated | None:
    start = reader.at
    lead = reader.take(*TO, *TILL)
    return date_after(reader, start, lead, to if lead in TO else "first") if lead else None


def _when(reader: Reader, draft: Draft) -> Draft:
    """`when free`, `when the bed is free`, `when day length falls to 10 h`."""
    start = reader.at
    reader.take("when")
    if reader.date_next():
        return read_bare(reader, draft)
    for small in (("the", "it"), ("bed",), ("is", "comes", "becomes")):
        reader.take(*small)
    if not reader.take("free", "empty", "clear"):
        end = reader.at + (not reader.ended)
        reader.refuse(start, end, said("mistake.plan.not understood", text="when"), example("kale when free"))
        reader.give_up()
    return _with(draft, free=True)


def _under(reader: Reader, draft: Draft) -> Draft:
    """`under fleece`, `under mesh till June`, `under fleece for 5 weeks`."""
    start = reader.at
    reader.take("under")
    kind = COVERS.get(reader.word())
    if kind is None:
        what = said("mistake.plan.cover.none.what", text=reader.written(start, reader.at + 1))
        reader.refuse(start, reader.at + 1, what, said("mistake.plan.cover.none.cure"))
        reader.give_up()
        return draft
    reader.at += 1
    at, until, days = reader.at, None, None
    if lead := reader.take(*TILL, "to"):
        until = date_after(reader, at, lead, "last" if lead == "to" else "first")
    elif reader.word() == "for" or (days_at(reader.plain_words()) and not _dated(reader)):
        days = _cover_days(reader)
    cover = CoverWords(kind, until, days)
    return _put(reader, draft, "cover", cover, start)


def _dated(reader: Reader) -> bool:
    """Whether a length of time is counted from something: `5 weeks before last frost`."""
    found = days_at(reader.plain_words())
    return found is not None and reader.word(found[1]) in ("before", "after")


def _cover_days(reader: Reader) -> int | None:
    start = reader.at
    reader.take("for")
    found = days_at(reader.plain_words())
    if found is None or not 1 <= found[0] <= 366 or int(found[0]) != found[0]:
        cure = example("under fleece for 5 weeks")
        reader.refuse(start, reader.at + 1, said("mistake.plan.cover.how long"), cure)
        reader.give_up()
        return None
    reader.at += found[1]
    return int(found[0])


def _times(reader: Reader, draft: Draft) -> Draft:
    start = reader.at
    return _put(reader, draft, "amount", read_times(reader), start)


def _question(reader: Reader, draft: Draft) -> Draft:
    reader.at += 1
    return _with(draft, maybe=True)


def read_between(reader: Reader, draft: Draft) -> Draft:
    start = reader.at
    reader.take("in")
    reader.take("between")
    if draft.between:
        reader.refuse(
            start, reader.at, said("mistake.plan.between.twice.what"), said("mistake.plan.between.twice.cure")
        )
    return msgspec.structs.replace(draft, between=True)


def read_note(reader: Reader, draft: Draft) -> Draft:
    """Words in brackets are the grower's own."""
    note = reader.written(reader.at, reader.at + 1)[1:-1].strip()
    reader.at += 1
    return _with(draft, note=", ".join(part for part in (draft.item.note, note) if part))


Handler = Callable[[Reader, Draft], Draft]
HANDLERS: dict[str, Handler] = {
    **dict.fromkeys(("there", "already"), _there),
    "since": _since,
    **dict.fromkeys(("sown", "drilled", "direct"), _sown),
    **dict.fromkeys(("planted", "set"), _planted),
    "picked": _picked,
    "raised": _raised,
    **dict.fromkeys((*_ON, "from"), read_bare),
    **dict.fromkeys((*TILL, "to"), _till),
    **dict.fromkeys(_EVERY, _every),
    "when": _when,
    "under": _under,
    **dict.fromkeys(("x", "×"), _times),
    "?": _question,
    "between": read_between,
}
