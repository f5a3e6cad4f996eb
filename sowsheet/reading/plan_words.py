"""The reader of a plan line's step: its words, the names it knows, and what it says of words it does not know."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from difflib import get_close_matches
from typing import Literal

from sowsheet.reading.date_forms import Found, date_at
from sowsheet.reading.date_words import Month, read_date
from sowsheet.reading.dates import CalendarDay
from sowsheet.reading.mistakes import Said, example, said, write
from sowsheet.reading.names import Name, NameBook
from sowsheet.reading.numbers import comma_cure, number
from sowsheet.reading.plan_records import Dated
from sowsheet.reading.tokens import MONTHS, Cursor, Token, tokens_of

MAYBE = ("maybe", "perhaps", "possibly")
COVERS: dict[str, Literal["fleece", "mesh", "net"]] = {
    "fleece": "fleece",
    "mesh": "mesh",
    "net": "net",
    "nets": "net",
    "netting": "net",
}
WHEN_WORDS = frozenset(
    (
        *("there", "already", "since", "sown", "drilled", "direct", "planted", "set", "picked"),
        *("from", "in", "on", "at", "till", "until", "til", "'til", "to"),
        *("every", "weekly", "fortnightly", "when", "under", "between", "raised", "x", "×", "?"),
    )
)
# Words that growers use and the grammar does not: what to write, a key of `mistake.plan.instead`.
_INSTEAD = {
    **dict.fromkeys(("plus", "+", "alongside", "beside"), "and"),
    **dict.fromkeys(("followed", "afterwards", "after", "next", "later"), "then"),
    **dict.fromkeys(("before", "by", "cleared", "finished", "out", "for"), "till"),
    **dict.fromkeys(("harvested", "cropped", "cut", "lifted"), "picked"),
    **dict.fromkeys(("sow", "plant"), "crop first"),
    **dict.fromkeys(("fallow", "empty", "resting"), "nothing"),
    "rest": "rest",
    **dict.fromkeys(("about", "around", "roughly", "circa", "approx"), "about"),
    **dict.fromkeys(("undersown", "among", "amongst", "underneath"), "between"),
    **dict.fromkeys(("covered", "fleeced", "netted"), "under"),
    **dict.fromkeys(("other", "remaining"), "no amount"),
    "–": "dash",
    "(": "close",
    ")": "open",
}


@dataclass(slots=True, kw_only=True)
class Reader(Cursor):
    """A cursor over the tokens of one step that knows crops by name. `also`: the line stands in `sow also`; `standing`
    are the garden's places for trays."""

    names: NameBook
    standing: tuple[str, ...] = ()
    also: bool = False
    noted: int = 0  # how many mistakes there were before this step

    @property
    def troubled(self) -> bool:
        """Whether something in this step is a mistake already."""
        return len(self.mistakes) > self.noted

    def name_at(self, ahead: int = 0) -> tuple[int, Name] | None:
        """The longest crop name that begins so many words ahead, and how many words it takes."""
        words = self.plain_words(ahead)
        return self.names.longest(words) if words else None

    def place_at(self, ahead: int = 0) -> tuple[int, str] | None:
        """The longest name of a place for trays that begins so many words ahead, and how many words it takes."""
        words = _as_named(self.text, self.tokens[self.at + ahead :])
        named = ((_words_of(name), name) for name in self.standing)
        found = [(len(own), name) for own, name in named if words[: len(own)] == own]
        return max(found, default=None)

    def date_next(self, ahead: int = 0) -> bool:
        """Whether words meant as a date come next, and no crop (`spring onions`)."""
        return self.name_at(ahead) is None and date_at(self.words(ahead)) is not None

    def item_next(self) -> bool:
        """Whether what comes next looks like the beginning of another crop."""
        counted = number(self.word()) is not None or self.word() == "half"
        return self.word() in MAYBE or self.name_at() is not None or (counted and self.name_at(1) is not None)

    def goes_on(self, ahead: int) -> bool:
        """Whether more about the same crop stands so many words ahead."""
        token = self.tokens[self.at + ahead] if self.at + ahead < len(self.tokens) else None
        if token is None or self.name_at(ahead) is not None:
            return False
        return token.mark == "note" or token.word in WHEN_WORDS or date_at(self.words(ahead)) is not None


def _words_of(name: str) -> list[str]:
    return _as_named(name, tokens_of(name))


def _as_named(text: str, tokens: Sequence[Token]) -> list[str]:
    """The words of a name; one in brackets counts as it is written."""
    return [text[t.start : t.end].lower() if t.mark == "note" else t.word for t in tokens]


def date_after(
    reader: Reader, start: int, lead: str, month: Month = "as written", hint: Said | None = None
) -> Dated | None:
    """The date that has to follow `lead`, which begins at `start`; without one the step is given up."""
    if reader.date_next():
        return read_date(reader, lead, month)
    if reader.troubled:  # `onions from somewhere`: the words may belong to what is wrong already
        reader.give_up()
        return None
    ended = reader.ended or reader.tokens[reader.at].mark != "word"
    cure = hint or example(f"{lead} mid-April")
    reader.refuse(start, reader.at + (not ended), said("mistake.plan.date wanted", lead=lead), cure)
    reader.give_up()
    return None


def refuse_unknown_crop(reader: Reader) -> None:
    """No crop stands where one has to: say what is there, and give up the step."""
    word = reader.word()
    if reader.ended or word in ("and", "or", "with", ",", "?"):
        _refuse_nothing_there(reader)
    elif word in ("nothing", "something"):
        _refuse_in_step(reader)
    elif word in ("early", "mid", "late") and reader.name_at(1):
        _refuse_early(reader)
    elif reader.date_next() or (word in WHEN_WORDS and word not in _INSTEAD):
        _refuse_order(reader)
    elif word in _INSTEAD:
        what = said("mistake.plan.not understood", text=_raw(reader))
        reader.refuse(reader.at, reader.at + 1, what, _instead(reader))
    elif place := reader.place_at():
        cure = said("mistake.plan.place.no crop.cure", place=place[1])
        reader.refuse(reader.at, reader.at + place[0], said("mistake.plan.place.no crop.what", place=place[1]), cure)
    elif before := _words_before_a_name(reader):
        _refuse_kind(reader, before)
    else:
        _refuse_name(reader)
    reader.give_up()


def refuse_leftover(reader: Reader) -> None:
    """Words after a crop that are understood as nothing: say what to write, and give up the step."""
    start, word = reader.at, reader.word()
    what = said("mistake.plan.not understood", text=_raw(reader))
    if word == "or":
        _refuse_or(reader)
    elif word in ("nothing", "something"):
        _refuse_in_step(reader)
    elif word in _INSTEAD:
        reader.refuse(start, start + 1, what, _instead(reader))
    elif cure := comma_cure(word):
        reader.refuse(start, start + 1, said("mistake.plan.comma", text=_raw(reader)), cure)
    elif number(word) is not None:
        reader.refuse(start, start + 1, what, said("mistake.plan.plants or date", number=word))
    else:
        _refuse_words(reader)
    reader.give_up()


def _instead(reader: Reader) -> Said:
    """What to write for a word that the grammar does not use."""
    ends = reader.word() in ("before", "by", "cleared", "finished", "out")
    ahead = 2 if reader.word(1) in ("by", "on", "in") else 1
    date = _rest(reader, reader.at + ahead) if ends and reader.date_next(ahead) else ""
    return write(f"till {date}") if date else said(f"mistake.plan.instead.{_INSTEAD[reader.word()]}")


def _refuse_nothing_there(reader: Reader) -> None:
    """`and kale`, `kale and`, `kale maybe`: a word of the grammar, and no crop."""
    at = reader.at - 1 if reader.ended else reader.at
    word = reader.tokens[at].word
    key = "mistake.plan.crop.missing.maybe" if word in MAYBE else "mistake.plan.crop.missing.cure"
    reader.refuse(at, at + 1, said("mistake.plan.crop.missing.what", word=word), said(key, word=word))


def _refuse_in_step(reader: Reader) -> None:
    """`kale and nothing`, `something`: a bed that rests is a step of its own."""
    word = reader.word()
    cure = said("mistake.plan.own step.cure", rest="nothing" if word == "nothing" else "something quick")
    reader.refuse(reader.at, reader.at + 1, said("mistake.plan.own step.what", word=word), cure)


def _raw(reader: Reader, count: int = 1) -> str:
    return reader.written(reader.at, reader.at + count)


def _rest(reader: Reader, start: int) -> str:
    """What is written from a token on, up to the next sign or `and`."""
    end = start
    while (
        end < len(reader.tokens) and reader.tokens[end].mark == "word" and reader.tokens[end].word not in ("and", "or")
    ):
        end += 1
    return reader.written(start, end)


def strangers(reader: Reader) -> int:
    """How many of the next words, one at least, are neither a crop nor anything about one."""
    count, words = 1, reader.plain_words()
    while count < len(words) and not (reader.goes_on(count) or reader.name_at(count) or words[count] in ("and", "or")):
        count += 1
    return min(count, max(1, len(words)))


def _words_before_a_name(reader: Reader) -> int:
    """How many strange words stand before a known crop (`red onions`); 0 when none follows them."""
    count = strangers(reader)
    return count if reader.name_at(count) and reader.plain_words(count) else 0


def _refuse_early(reader: Reader) -> None:
    """`early lettuce 1 April`: before a crop it would be a kind."""
    start, part = reader.at, reader.word()
    count, name = reader.name_at(1) or (1, Name("", None))
    crop = reader.written(start + 1, start + 1 + count)
    dates = (date_at(reader.words(n)) for n in range(1 + count, len(reader.tokens) - start))
    month = next((d.date.month for d in dates if isinstance(d, Found) and isinstance(d.date, CalendarDay)), 4)
    meant, kinds = f"{crop} {part} {MONTHS[month - 1]}", _kinds(reader, name)
    cure = said("mistake.plan.kind.near", near=meant, kinds=kinds) if kinds else said("mistake.near", near=meant)
    reader.refuse(start, start + 1, said("mistake.plan.kind.none", kind=part, crop=crop), cure)


def _refuse_order(reader: Reader) -> None:
    """`1 April lettuce`, `planted lettuce`: the crop comes first."""
    ahead = next((n for n in range(1, len(reader.plain_words())) if reader.name_at(n)), 0)
    when = _raw(reader, ahead) if ahead else _rest(reader, reader.at)
    count, _ = reader.name_at(ahead) or (0, None)
    crop = reader.written(reader.at + ahead, reader.at + ahead + count) if ahead else "lettuce"
    when = f"{when} {_rest(reader, reader.at + ahead + count) if ahead else ''}".strip()
    found = date_at(reader.words())
    used = max(1, found.used if found else 1)
    what = said("mistake.plan.crop.first" if ahead else "mistake.plan.crop.missing.here")
    reader.refuse(reader.at, reader.at + used, what, example(f"{crop} {when}"))


def _refuse_kind(reader: Reader, before: int) -> None:
    """`red onions from sets 20 March`: a sort that is no kind goes in brackets."""
    start = reader.at
    count, name = reader.name_at(before) or (1, Name("", None))
    sort, crop = _raw(reader, before), reader.written(start + before, start + before + count)
    first_words = {kind.split()[0]: kind for kind in reader.names.kinds(name.crop)}
    near = get_close_matches(reader.word(), first_words, n=1, cutoff=0.75) if before == 1 else []
    what = said("mistake.plan.kind.none", kind=sort, crop=crop)
    if near:
        reader.refuse(start, start + before, what, said("mistake.near", near=first_words[near[0]]))
        return
    after = _rest(reader, start + before + count)
    if reader.tokens[start].mark == "note":
        reader.refuse(start, start + 1, said("mistake.plan.crop.first"), write(f"{crop} {sort} {after}".strip()))
        return
    kinds = _kinds(reader, name)
    key = "mistake.plan.in brackets.kinds" if kinds else "mistake.plan.in brackets.cure"
    reader.refuse(start, start + before, what, said(key, line=f"{crop} ({sort}) {after}".strip(), kinds=kinds))


def _kinds(reader: Reader, name: Name) -> str:
    """The kinds of a crop that is named without one; "" where it has none."""
    return "" if name.kind else ", ".join(reader.names.kinds(name.crop))


def _refuse_name(reader: Reader) -> None:
    """`tomatos`: no crop of that name."""
    count = strangers(reader)
    written = _raw(reader, count)
    near = reader.names.near(" ".join(reader.words()[:count])) or reader.names.near(reader.word())
    cure = said("mistake.plan.crop.none.near", near=near) if near else said("mistake.plan.crop.none.cure")
    reader.refuse(reader.at, reader.at + count, said("mistake.plan.crop.none.what", crop=written), cure)


def _refuse_or(reader: Reader) -> None:
    start = reader.at
    other = _rest(reader, start + 1)
    if reader.place_at(1) or (reader.word(1) in ("the", "in", "on", "at") and reader.place_at(2)):
        reader.refuse(start, start + 1, said("mistake.plan.or.place.what"), said("mistake.plan.or.place.cure"))
        return
    if reader.date_next(1) or not other:
        reader.refuse(start, start + 1, said("mistake.plan.or.date.what"), said("mistake.plan.or.date.cure"))
        return
    cure = said("mistake.plan.or.crop.cure", first=reader.written(0, start).removeprefix("maybe "), second=other)
    reader.refuse(start, start + 1, said("mistake.plan.or.crop.what"), cure)


def _refuse_words(reader: Reader) -> None:
    """Any other words: a slip for a month or a word of the grammar, or a remark."""
    count = strangers(reader)
    written = _raw(reader, count)
    near = _slip(reader.word(), (*(m.lower() for m in MONTHS), *WHEN_WORDS, "then", "and", "with", "maybe", "fleece"))
    cure = said("mistake.near", near=near) if near else said("mistake.plan.in brackets.cure", line=f"({written})")
    reader.refuse(reader.at, reader.at + count, said("mistake.plan.not understood", text=written), cure)


def _slip(word: str, known: Sequence[str]) -> str:
    """A word of the grammar that this one may be a slip of."""
    near = get_close_matches(word, known, n=1, cutoff=0.75) if len(word) > 2 and word not in known else []
    return near[0].capitalize() if near and near[0].capitalize() in MONTHS else "".join(near)
