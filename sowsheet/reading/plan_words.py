"""The reader of a plan line's step: its words, the names it knows, and what it says of words it does not know."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from difflib import get_close_matches
from typing import Literal

from sowsheet.reading.date_forms import Found, date_at
from sowsheet.reading.date_words import Month, read_date
from sowsheet.reading.dates import CalendarDay
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
_ALL_CROPS = (
    "`sowsheet crops` lists all names; a crop of your own goes into a file of its own, named by `crops: own.yaml`."
)
_BRACKETS = "Put a sort, a colour or a remark in brackets"
# Words that growers use and the grammar does not: what to write.
_INSTEAD = {
    **dict.fromkeys(("plus", "+", "alongside", "beside"), "Side by side is `and`: `lettuce and spinach 1 April`."),
    **dict.fromkeys(("followed", "afterwards", "after", "next", "later"), "Write `then`: `garlic, then kale`."),
    **dict.fromkeys(
        ("before", "by", "cleared", "finished", "out", "for"), "Write until when it stands: `till mid-June`."
    ),
    **dict.fromkeys(("harvested", "cropped", "cut", "lifted"), "Write `picked from 1 June`, or `till 1 June`."),
    **dict.fromkeys(("sow", "plant"), "Crop first: `lettuce sown 1 March`, `lettuce planted 1 April`."),
    **dict.fromkeys(("fallow", "empty", "resting"), "A bed that rests is `nothing`: `nothing till September`."),
    "rest": "A crop with no amount takes the rest of the bed; a bed that rests is `nothing`.",
    **dict.fromkeys(("about", "around", "roughly", "circa", "approx"), "Leave it out: every date is a guess."),
    **dict.fromkeys(("undersown", "among", "amongst", "underneath"), "Write `tomatoes, lettuce between`."),
    **dict.fromkeys(("covered", "fleeced", "netted"), "Write `under fleece`, `under mesh` or `under net`."),
    **dict.fromkeys(("other", "remaining"), "Leave it out: a crop with no amount takes the rest of the bed."),
    "–": "Write `then`, `and`, or `to` between two dates.",
    "(": "Close the bracket on the same line: `lettuce (red)`.",
    ")": "Open the bracket first: `lettuce (red)`.",
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


def date_after(reader: Reader, start: int, lead: str, month: Month = "as written", hint: str = "") -> Dated | None:
    """The date that has to follow `lead`, which begins at `start`; without one the step is given up."""
    if reader.date_next():
        return read_date(reader, lead, month)
    if reader.troubled:  # `onions from somewhere`: the words may belong to what is wrong already
        reader.give_up()
        return None
    ended = reader.ended or reader.tokens[reader.at].mark != "word"
    reader.refuse(start, reader.at + (not ended), f"`{lead}` wants a date after it", hint or f"e.g. `{lead} mid-April`")
    reader.give_up()
    return None


def refuse_unknown_crop(reader: Reader) -> None:
    """No crop stands where one has to: say what is there, and give up the step."""
    word = reader.word()
    if reader.ended or word in ("and", "or", "with", ",", "?"):
        _refuse_nothing_there(reader)
    elif word in ("nothing", "something"):
        reader.refuse(reader.at, reader.at + 1, f"`{word}` is a step of its own", _step_of_its_own(word))
    elif word in ("early", "mid", "late") and reader.name_at(1):
        _refuse_early(reader)
    elif reader.date_next() or (word in WHEN_WORDS and word not in _INSTEAD):
        _refuse_order(reader)
    elif word in _INSTEAD:
        reader.refuse(reader.at, reader.at + 1, f"`{_raw(reader)}` is not understood here", _instead(reader))
    elif place := reader.place_at():
        cure = f"Join places by `and`: `tomatoes on the shelf and the {place[1]}`."
        reader.refuse(reader.at, reader.at + place[0], f"`{place[1]}` is a place, and no crop", cure)
    elif before := _words_before_a_name(reader):
        _refuse_kind(reader, before)
    else:
        _refuse_name(reader)
    reader.give_up()


def refuse_leftover(reader: Reader) -> None:
    """Words after a crop that are understood as nothing: say what to write, and give up the step."""
    start, word = reader.at, reader.word()
    what = f"`{_raw(reader)}` is not understood here"
    if word == "or":
        _refuse_or(reader)
    elif word in ("nothing", "something"):
        reader.refuse(start, start + 1, f"`{word}` is a step of its own", _step_of_its_own(word))
    elif word in _INSTEAD:
        reader.refuse(start, start + 1, what, _instead(reader))
    elif cure := comma_cure(word):
        reader.refuse(start, start + 1, f"`{_raw(reader)}` has a comma in it", cure)
    elif number(word) is not None:
        reader.refuse(start, start + 1, what, f"Write `x {word}` for so many plants, `{word} April` for a date.")
    else:
        _refuse_words(reader)
    reader.give_up()


def _instead(reader: Reader) -> str:
    """What to write for a word that the grammar does not use."""
    ends = reader.word() in ("before", "by", "cleared", "finished", "out")
    ahead = 2 if reader.word(1) in ("by", "on", "in") else 1
    date = _rest(reader, reader.at + ahead) if ends and reader.date_next(ahead) else ""
    return f"Write `till {date}`." if date else _INSTEAD[reader.word()]


def _refuse_nothing_there(reader: Reader) -> None:
    """`and kale`, `kale and`, `kale maybe`: a word of the grammar, and no crop."""
    at = reader.at - 1 if reader.ended else reader.at
    word = reader.tokens[at].word
    cure = "Write `maybe kale`, or `kale?`." if word in MAYBE else f"Name it, or leave `{word}` out."
    reader.refuse(at, at + 1, f"a crop is missing at `{word}`", cure)


def _step_of_its_own(word: str) -> str:
    whole = "nothing" if word == "nothing" else "something quick"
    return f"Write `then {whole}`, without `maybe`, `and` or an amount."


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


def _strangers(reader: Reader) -> int:
    """How many of the next words are neither a crop nor anything about one."""
    count, words = 1, reader.plain_words()
    while count < len(words) and not (reader.goes_on(count) or reader.name_at(count) or words[count] in ("and", "or")):
        count += 1
    return min(count, max(1, len(words)))


def _words_before_a_name(reader: Reader) -> int:
    """How many strange words stand before a known crop (`red onions`); 0 when none follows them."""
    count = _strangers(reader)
    return count if reader.name_at(count) and reader.plain_words(count) else 0


def _refuse_early(reader: Reader) -> None:
    """`early lettuce 1 April`: before a crop it would be a kind."""
    start, part = reader.at, reader.word()
    count, name = reader.name_at(1) or (1, Name("", None))
    crop = reader.written(start + 1, start + 1 + count)
    dates = (date_at(reader.words(n)) for n in range(1 + count, len(reader.tokens) - start))
    month = next((d.date.month for d in dates if isinstance(d, Found) and isinstance(d.date, CalendarDay)), 4)
    cure = f"Did you mean `{crop} {part} {MONTHS[month - 1]}`?{_kinds(reader, name)}"
    reader.refuse(start, start + 1, f"there is no kind `{part}` of {crop}", cure)


def _refuse_order(reader: Reader) -> None:
    """`1 April lettuce`, `planted lettuce`: the crop comes first."""
    ahead = next((n for n in range(1, len(reader.plain_words())) if reader.name_at(n)), 0)
    when = _raw(reader, ahead) if ahead else _rest(reader, reader.at)
    count, _ = reader.name_at(ahead) or (0, None)
    crop = reader.written(reader.at + ahead, reader.at + ahead + count) if ahead else "lettuce"
    when = f"{when} {_rest(reader, reader.at + ahead + count) if ahead else ''}".strip()
    found = date_at(reader.words())
    used = max(1, found.used if found else 1)
    what = "the crop comes first" if ahead else "a crop is missing here"
    reader.refuse(reader.at, reader.at + used, what, f"e.g. `{crop} {when}`")


def _refuse_kind(reader: Reader, before: int) -> None:
    """`red onions from sets 20 March`: a sort that is no kind goes in brackets."""
    start = reader.at
    count, name = reader.name_at(before) or (1, Name("", None))
    sort, crop = _raw(reader, before), reader.written(start + before, start + before + count)
    first_words = {kind.split()[0]: kind for kind in reader.names.kinds(name.crop)}
    near = get_close_matches(reader.word(), first_words, n=1, cutoff=0.75) if before == 1 else []
    what = f"there is no kind `{sort}` of {crop}"
    if near:
        reader.refuse(start, start + before, what, f"Did you mean `{first_words[near[0]]}`?")
        return
    after = _rest(reader, start + before + count)
    if reader.tokens[start].mark == "note":
        reader.refuse(start, start + 1, "the crop comes first", f"Write `{crop} {sort} {after}".strip() + "`.")
        return
    written = f"{crop} ({sort}) {after}".strip()
    reader.refuse(start, start + before, what, f"{_BRACKETS}: `{written}`.{_kinds(reader, name)}")


def _kinds(reader: Reader, name: Name) -> str:
    kinds = () if name.kind else reader.names.kinds(name.crop)
    return f" Its kinds: {', '.join(kinds)}." if kinds else ""


def _refuse_name(reader: Reader) -> None:
    """`tomatos`: no crop of that name."""
    count = _strangers(reader)
    written = _raw(reader, count)
    near = reader.names.near(" ".join(reader.words()[:count])) or reader.names.near(reader.word())
    cure = f"Did you mean `{near}`? {_ALL_CROPS}" if near else f"{_ALL_CROPS} {_BRACKETS}: `lettuce (red)`."
    reader.refuse(reader.at, reader.at + count, f"there is no crop `{written}`", cure)


def _refuse_or(reader: Reader) -> None:
    start = reader.at
    other = _rest(reader, start + 1)
    if reader.place_at(1) or (reader.word(1) in ("the", "in", "on", "at") and reader.place_at(2)):
        cure = "Write one, or both with `and`: the first that is warm enough is taken."
        reader.refuse(start, start + 1, "`or` leaves open where its trays stand", cure)
        return
    if reader.date_next(1) or not other:
        reader.refuse(start, start + 1, "`or` leaves the date open", "Write one date; it can be changed any day.")
        return
    before = reader.written(0, start).removeprefix("maybe ")
    cure = f"Write one, the other as maybe: `{before} and maybe {other}`."
    reader.refuse(start, start + 1, "`or` leaves open which of them it is", cure)


def _refuse_words(reader: Reader) -> None:
    """Any other words: a slip for a month or a word of the grammar, or a remark."""
    count = _strangers(reader)
    written = _raw(reader, count)
    near = _slip(reader.word(), (*(m.lower() for m in MONTHS), *WHEN_WORDS, "then", "and", "with", "maybe", "fleece"))
    cure = f"Did you mean `{near}`?" if near else f"{_BRACKETS}: `({written})`."
    reader.refuse(reader.at, reader.at + count, f"`{written}` is not understood here", cure)


def _slip(word: str, known: Sequence[str]) -> str:
    """A word of the grammar that this one may be a slip of."""
    near = get_close_matches(word, known, n=1, cutoff=0.75) if len(word) > 2 and word not in known else []
    return near[0].capitalize() if near and near[0].capitalize() in MONTHS else "".join(near)
