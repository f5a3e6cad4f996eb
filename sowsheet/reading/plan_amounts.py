"""How much of a crop a plan line wants: `60`, `20 plants of`, `2 m of`, `3 rows of`, `half`."""

from __future__ import annotations

from fractions import Fraction
from typing import Literal

from sowsheet.reading.measures import MOST_LENGTH_CM, length_at
from sowsheet.reading.mistakes import example, said
from sowsheet.reading.numbers import comma_cure, number
from sowsheet.reading.plan_records import AmountWords
from sowsheet.reading.plan_words import Reader

Unit = Literal["plants", "clumps", "m", "rows", "share"]

_SHARES = {
    "half": Fraction(1, 2),
    **dict.fromkeys(("third", "thirds"), Fraction(1, 3)),
    **dict.fromkeys(("quarter", "quarters"), Fraction(1, 4)),
}
# Shares written in figures, which are dates to others: what to write.
_IN_FIGURES = {
    **dict.fromkeys(("1/2", "½"), "half"),
    **dict.fromkeys(("1/3", "⅓"), "a third of"),
    **dict.fromkeys(("2/3", "⅔"), "two thirds of"),
    **dict.fromkeys(("1/4", "¼"), "a quarter of"),
    **dict.fromkeys(("3/4", "¾"), "three quarters of"),
}
_PLANTS: dict[str, Unit] = {
    **dict.fromkeys(("plant", "plants", "head", "heads"), "plants"),
    **dict.fromkeys(("clump", "clumps"), "clumps"),
}
_MOST = {"plants": 100_000, "clumps": 100_000, "m": MOST_LENGTH_CM / 100, "rows": 100, "share": 1}
_EXAMPLES = example("60 lettuce", "20 plants of lettuce", "2 m of lettuce", "3 rows of lettuce", "half lettuce")


def read_amount(reader: Reader) -> AmountWords | None:
    """The amount before a crop, if there is one; one that cannot be is a mistake, and stepped over."""
    start = reader.at
    if reader.name_at() is not None:
        return None
    if cure := comma_cure(reader.word()):
        reader.refuse(start, start + 1, said("mistake.plan.comma", text=reader.written(start, start + 1)), cure)
        reader.at += 1 + (reader.word(2) == "of" or reader.word(1) == "m")
        reader.take("of")
        return None
    if reader.word() in _IN_FIGURES and (reader.word(1) == "of" or reader.name_at(1) is not None):
        _refuse_figures(reader)
        return None
    found = _share(reader) or _length(reader) or _rows(reader) or _plants(reader)
    return _checked(reader, start, *found) if found else None


def read_times(reader: Reader) -> AmountWords | None:
    """`x 6` after a crop; `x` without a number is a mistake."""
    start = reader.at
    reader.take("x", "×")
    count = number(reader.word())
    if count is None:
        reader.refuse(start, reader.at, said("mistake.plan.amount.times"), example("courgettes x 6"))
        return None
    reader.at += 1
    return _checked(reader, start, count, "plants")


def _share(reader: Reader) -> tuple[Fraction, Unit] | None:
    """`half`, `half of the bed`, `a third of`, `two thirds`."""
    times = Fraction(1) if reader.word() == "a" else number(reader.word())
    ahead = 0 if times is None else 1
    share = _SHARES.get(reader.word(ahead))
    if share is None:
        return None
    reader.at += ahead + 1
    _step_over_bed(reader)
    return share * (times or 1), "share"


def _step_over_bed(reader: Reader) -> None:
    """`of the bed of`."""
    for small in ("of", "the", "a", "bed", "of"):
        reader.take(small)


def _refuse_figures(reader: Reader) -> None:
    """`1/2 lettuce`: a share is written in words, a date comes after the crop."""
    start, share = reader.at, _IN_FIGURES[reader.word()]
    reader.at += 1
    _step_over_bed(reader)
    used, _ = reader.name_at() or (0, None)
    crop = reader.written(reader.at, reader.at + used) if used else "lettuce"
    what = said("mistake.plan.amount.figures.what", text=reader.written(start, start + 1))
    cure = said("mistake.plan.amount.figures.cure", share=share, crop=crop)
    reader.refuse(start, start + 1, what, cure)


def _length(reader: Reader) -> tuple[Fraction, Unit] | None:
    """`2 m of`, `4 ft 6 in of`."""
    found = length_at(reader.plain_words())
    if found is None:
        return None
    reader.at += found[1]
    reader.take("of")
    return found[0] / 100, "m"


def _rows(reader: Reader) -> tuple[Fraction, Unit] | None:
    """`3 rows of`, `a row of`."""
    count = Fraction(1) if reader.word() == "a" else number(reader.word())
    if count is None or reader.word(1) not in ("row", "rows"):
        return None
    reader.at += 2
    reader.take("of")
    return count, "rows"


def _plants(reader: Reader) -> tuple[Fraction, Unit] | None:
    """`60`, `6 x`, `20 plants of`, `20 clumps`; a number that begins a date is none."""
    count = number(reader.word())
    counts = reader.word(1) in _PLANTS or reader.name_at(1) is not None
    if count is None or (reader.date_next() and not counts):
        return None
    if reader.word(2) == "of" and reader.word(1) not in _PLANTS:
        unit = reader.written(reader.at + 1, reader.at + 2)
        reader.refuse(reader.at, reader.at + 2, said("mistake.plan.amount.unit", unit=unit), _EXAMPLES)
        reader.at += 3
        return None
    reader.at += 1
    unit_word = reader.take(*_PLANTS, "x", "×")
    reader.take("of")
    return count, _PLANTS.get(unit_word, "plants")


def _checked(reader: Reader, start: int, count: Fraction, unit: Unit) -> AmountWords | None:
    """The amount, if it can be."""
    written = reader.written(start, reader.at)
    if not 0 < count <= _MOST[unit]:
        reader.refuse(start, reader.at, said("mistake.plan.amount.out of reason", text=written), _EXAMPLES)
    elif unit in ("plants", "clumps", "rows") and count.denominator != 1:
        reader.refuse(start, reader.at, said(f"mistake.plan.amount.not whole.{unit}", text=written), _EXAMPLES)
    else:
        return AmountWords(count, unit, reader.spot(start, reader.at))
    return None
