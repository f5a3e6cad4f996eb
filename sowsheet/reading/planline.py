"""The one-line plan of a bed: words in, steps out. The door to its records and its parser."""

from __future__ import annotations

import re
from collections.abc import Iterable

from sowsheet.reading.mistakes import Mistake, Spot, said, write
from sowsheet.reading.names import NameBook
from sowsheet.reading.nodes import Mapping, Node, Sequence, Text
from sowsheet.reading.places import places_of
from sowsheet.reading.plan_records import AmountWords, CoverWords, Dated, Item, PlanLine, SeriesWords, Step
from sowsheet.reading.plan_steps import read_step
from sowsheet.reading.plan_words import Reader
from sowsheet.reading.tokens import Cursor, Token, tokens_of

__all__ = [
    "AmountWords",
    "CoverWords",
    "Dated",
    "Item",
    "PlanLine",
    "SeriesWords",
    "Step",
    "parse_plan",
    "plan_text",
]

_DIVIDERS = ("then", ";", "\n")
_OPEN = (",", "and", "with")  # a line that ends or begins with one of these goes on


def plan_text(node: Node, mistakes: list[Mistake]) -> Text | None:
    """A bed's line as one text. What YAML would split or cut is a mistake; an empty line is None and no mistake.

    A text over several lines (after `|`) is taken as it is, a step a line.
    """
    if isinstance(node, Mapping):
        what = said("mistake.plan.braces" if node.flow else "mistake.plan.no words")
        mistakes.append(Mistake(node.spot, what, said("mistake.plan.on one line")))
        return None
    if isinstance(node, Sequence):
        words = [item.text for item in node.items if isinstance(item, Text)]
        line = ", then ".join(words) or "lettuce 1 April, then leeks"
        mistakes.append(Mistake(node.spot, said("mistake.plan.no list"), write(line)))
        return None
    if cut := _cut_off(node):
        mistakes.append(Mistake(cut, said("mistake.plan.cut off.what"), said("mistake.plan.cut off.cure")))
        return None
    return node if node.text.strip() else None


def parse_plan(
    text: Text, names: NameBook, mistakes: list[Mistake], *, sow_also: bool = False, standing: tuple[str, ...] = ()
) -> PlanLine | None:
    """A plan line's steps; None when anything in it is a mistake. One mistake in a step does not hide the next step's.

    With `sow_also` the line is one sowing without a bed, and a bare date is when it is sown. `standing` are the names
    of the places where trays stand, which a crop may name.
    """
    noted, places = len(mistakes), places_of(text)
    line = _clean(Cursor(text=text.text, places=places, tokens=tokens_of(text.text), mistakes=mistakes))
    if not line.tokens and len(mistakes) == noted:
        mistakes.append(Mistake(text.spot, said("mistake.plan.empty.what"), said("mistake.plan.empty.cure")))
    divided = _divided(line)
    readers = [
        Reader(
            text=text.text,
            places=places,
            tokens=tokens,
            mistakes=mistakes,
            names=names,
            standing=standing,
            also=sow_also,
        )
        for tokens in divided
    ]
    steps = tuple(read_step(reader) for reader in readers)
    if sow_also and len(steps) > 1:
        what, cure = said("mistake.plan.one sowing.what"), said("mistake.plan.one sowing.cure")
        mistakes.append(Mistake(steps[1].spot, what, cure))
    return PlanLine(steps, text.text, text.spot) if len(mistakes) == noted else None


def _cut_off(text: Text) -> Spot | None:
    """Where YAML cuts a plain line off: at ` #`."""
    spot = (text.lines or (text.spot,))[-1]
    start = spot.column - 1 if text.lines else spot.column - 1 + len(text.text)
    found = re.search(r"\s#" if text.lines else r"^\s*#", spot.excerpt[start:])
    if not text.plain or not found:
        return None
    column = start + found.end()
    return Spot(spot.file, spot.line, column, len(spot.excerpt.rstrip()) - column + 1, spot.excerpt)


def _clean(line: Cursor) -> Cursor:
    """Without the lines that hold a remark or a colon, which are mistakes, and the line ends that divide nothing."""
    kept: list[Token] = []
    start = 0
    for end in [*(n for n, token in enumerate(line.tokens) if token.word == "\n"), len(line.tokens)]:
        if not _refuse_signs(line, range(start, end)):
            kept += line.tokens[start : end + 1]
        start = end + 1
    tokens = tuple(token for n, token in enumerate(kept) if not _goes_on(kept, n))
    return Cursor(text=line.text, places=line.places, tokens=tokens, mistakes=line.mistakes)


def _refuse_signs(line: Cursor, numbers: Iterable[int]) -> bool:
    """Whether ` #` or a colon stands among these tokens; the first of them is told."""
    for number in numbers:
        word = line.tokens[number].word
        if word.startswith("#"):
            line.refuse(number, number + 1, said("mistake.plan.remark.what"), said("mistake.plan.remark.cure"))
            return True
        if word.endswith(":"):
            line.refuse(number, number + 1, said("mistake.plan.colon.what"), said("mistake.plan.colon.cure"))
            return True
    return False


def _goes_on(tokens: list[Token], number: int) -> bool:
    """Whether the line goes on over a line end, because it stops or begins with a comma, `and` or `with`."""
    if tokens[number].word != "\n":
        return False
    before = tokens[number - 1].word if number else ""
    after = tokens[number + 1].word if number + 1 < len(tokens) else ""
    return after in _OPEN or (before in _OPEN and after not in ("then", ""))


def _divided(line: Cursor) -> list[tuple[Token, ...]]:
    """The tokens of each step. A divider with nothing before, after or between is a mistake."""
    steps: list[list[Token]] = [[]]
    at = 0
    while at < len(line.tokens):
        end = _divider_end(line.tokens, at)
        if end > at:
            _check_divider(line, at, end)
            steps.append([])
        else:
            steps[-1].append(line.tokens[at])
        at = max(end, at + 1)
    return [tuple(step) for step in steps if step]


def _divider_end(tokens: tuple[Token, ...], at: int) -> int:
    """The end of `, then`, `;`, `and then` or a line end that begins here; `at` when none does."""
    end, words = at, [token.word for token in tokens[at : at + 8]]
    for number, word in enumerate(words):
        if word not in (*_DIVIDERS, ",") and not (word == "and" and words[number + 1 : number + 2] == ["then"]):
            break
        end = at + number + 1
    return end if any(word in _DIVIDERS for word in words[: end - at]) else at


def _check_divider(line: Cursor, start: int, end: int) -> None:
    words = [token.word for token in line.tokens[start:end]]
    word = next((w for w in ("then", ";", ",") if w in words), "")
    at = start + words.index(word) if word else start
    if start == 0 and word:
        line.refuse(at, at + 1, said("mistake.plan.before.what", word=word), said("mistake.plan.before.cure"))
    elif end == len(line.tokens) and word in ("then", ","):
        line.refuse(at, at + 1, said("mistake.plan.after.what", word=word), said("mistake.plan.after.cure"))
    elif words.count("then") > 1 or words.count(";") > 1:
        line.refuse(start, end, said("mistake.plan.among.what", word=word), said("mistake.plan.among.cure"))
