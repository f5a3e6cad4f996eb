"""The form of a crop file: its blocks, the lines of each, and how each line's value is read."""

from __future__ import annotations

from collections.abc import Callable

import msgspec

from sowsheet.catalogue import values
from sowsheet.catalogue.anchors import anchored, anchored_range
from sowsheet.catalogue.records import AnchoredRange, Range
from sowsheet.catalogue.values import Wrong
from sowsheet.reading.mistakes import Said, said


class Form(msgspec.Struct, frozen=True):
    """How a line is read, an example of it, whether it has to name its source, and the words it lets one choose."""

    read: Callable[[str], object]
    example: str | Said
    sourced: bool = True
    choices: tuple[str, ...] = ()


def _range(example: str, units: values.Units, after: str = "") -> Form:
    return Form(lambda text: values.positive(text, units, after), example)


def _waiting(example: str) -> Form:
    return Form(lambda text: values.ranged(text, values.DAYS), example)


def _choice(*words: str) -> Form:
    return Form(values.one_of({word: word for word in words}), words[0], sourced=False, choices=words)


def _words(example: str) -> Form:
    return Form(values.words, example, sourced=False)


def _told(line: str) -> Form:
    """Words for people, in whatever language the grower writes."""
    return Form(values.words, said(f"help.crop file.words.{line}"), sourced=False)


def _first_pick(text: str) -> Range | AnchoredRange | Wrong:
    """Days from planting or sowing, or a date of the year."""
    days = values.positive(text, values.DAYS)
    return days if isinstance(days, Range) else anchored_range(text)


def _night(example: str) -> Form:
    return Form(lambda text: values.single(text, values.C), example)


def _temps(example: str) -> Form:
    return Form(lambda text: values.ranged(text, values.C), example)


_DATE = Form(anchored, "6 weeks before last frost")
_STAGES = ("sow", "up", "prick out", "pot on", "plant", "pick", "lift", "clear")

# block -> line -> form. A value that stands without a block has the block "".
BLOCKS: dict[str, dict[str, Form]] = {
    "": {
        "latin": _words("Lactuca sativa"),
        "family": _words("Asteraceae"),
        "usually": _choice("tray", "drill"),
        "use": _choice("green manure", "flowers"),
        "dries": _range("14 to 28 days", values.DAYS),
        "forces": _range("21 to 28 days", values.DAYS),
        "rests": _range("14 to 28 days", values.DAYS),
        "after it": _told("after it"),
        "stands for": _range("8 to 10 years", values.YEARS),
        "grows": _temps("3 to 22 C"),
        "under cover": _choice("wanted"),
    },
    "germinates": {
        "days up": Form(values.days_up, "5 C 15, 10 C 7, 15 C 4"),
        "between": _temps("2 to 26 C"),
        "best at": _temps("15 to 20 C"),
        "light": _choice("wanted", "dark"),
    },
    "tray": {
        "raised": _choice("module", "seed tray"),
        "seeds to a cell": Form(values.whole, "4"),
        "plants to a cell": _range("3 to 5, usually 4", values.PIECES),
        "cell": _range("15 to 40 ml", values.ML),
        "prick out": Form(values.move, "10 to 18, usually 14 days after up, into 15 to 40 ml"),
        "pot on": Form(values.move, "18 to 28, usually 21 days after up, into 300 to 500 ml"),
        "up to planting": _range("24 to 32, usually 28 days", values.DAYS),
        "holds": _range("10 days", values.DAYS),
        "hardening": _waiting("4 to 7 days"),
    },
    "drill": {
        "seeds a metre": _range("60 to 100, usually 80", values.PIECES),
        "grams a square metre": _range("15 to 20", values.PIECES),
    },
    "set": {
        "what": _choice("sets", "cloves", "tubers", "crowns"),
        "a kilo": _range("150 to 250, usually 200", values.PIECES),
        "to a bulb": _range("8 to 12, usually 10", values.PIECES),
        "chits": _range("28 to 42 days", values.DAYS),
    },
    "cold": {"soft": _night("-2 C"), "hardened": _night("-4 C"), "in the bed": _night("-4 C")},
    "space": {"rows": _range("30 cm apart", values.CM, "apart"), "in the row": _range("15 cm", values.CM)},
    "harvest": {
        "by": _choice("days from planting", "days from sowing", "season", "stands"),
        "first pick": Form(_first_pick, "45 to 65, usually 55 days"),
        "first pick, sown direct": _range("70 to 100, usually 85 days", values.DAYS),
        "lasts": _waiting("7 to 14 days"),
        "until": Form(anchored, "1 week after last frost"),
        "ends with": _choice("age", "frost", "bolting", "cutting"),
        "not after": Form(anchored, "10 weeks after midsummer"),
        "at least": _range("42 days", values.DAYS),
        "day-degrees": Form(values.per_gram, "589"),
    },
    "seed": {
        "a gram": Form(values.per_gram, "890"),
        "comes up": Form(values.share, "80 %"),
        "depth": Form(lambda text: values.ranged(text, values.MM), "3 to 6 mm"),
    },
    "covers": {word: _told(f"covers.{word}") for word in ("fleece", "mesh", "net")},
    "signs": {stage: _told(f"signs.{stage}") for stage in _STAGES},
    "cautions": {stage: _told(f"cautions.{stage}") for stage in _STAGES},
}

# Lists: each row is a mapping whose `source` holds for all of it.
ROWS: dict[str, dict[str, Form]] = {
    "goes out": {
        "as": _choice("seed"),
        "under": _choice("glass"),
        "from": _DATE,
        "until": _DATE,
        "fleece": _DATE,
    },
    "bolts": {
        "sown from": _DATE,
        "until": _DATE,
        "cause": _choice("cold", "long days", "heat"),
        "why": _told("why"),
    },
}
ROWS_NEED: dict[str, tuple[str, ...]] = {"goes out": ("from", "until"), "bolts": ("sown from", "until", "cause", "why")}

# A kind that gives one of a group replaces the whole group; all other blocks are joined line by line.
_WHOLE = {"tray": "raised", "drill": "raised", "set": "raised", "usually": "raised"} | {
    block: block for block in ("goes out", "harvest", "bolts")
}


def block_of(path: str) -> str:
    """`tray.holds` stands in `tray`, `goes out.1` in `goes out`, `dries` in `dries`."""
    return path.partition(".")[0]


def group_of(path: str) -> str:
    """The group that is replaced whole with this line; "" for lines that are joined one by one."""
    return _WHOLE.get(block_of(path), "")
