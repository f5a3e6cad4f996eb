"""A small book of names, lines made into scalars, and plans told back shortly."""

from __future__ import annotations

from collections.abc import Sequence
from difflib import get_close_matches
from fractions import Fraction

from sowsheet.reading.dates import Anchored, CalendarDay, DayLength, GrowerDate
from sowsheet.reading.mistakes import Mistake, Spot
from sowsheet.reading.names import Name
from sowsheet.reading.nodes import Text
from sowsheet.reading.plan_records import AmountWords, CoverWords, Dated, Item, PlanLine, SeriesWords, Step
from sowsheet.reading.planline import parse_plan

_PLAIN = (
    "beetroot, broad bean, carrot, chard, courgette, garlic, kale, lamb's lettuce, leek, pea, radish, spinach, "
    "spring onion, tomato"
)
_KINDS = {
    "lettuce": {"headed lettuce": "headed", "leaf lettuce": "leaf", "winter lettuce": "winter"},
    "cabbage": {"spring cabbage": "spring", "red cabbage": "red"},
    "onion": {
        "onion from seed": "from seed",
        "seed onion": "from seed",
        "onion from sets": "from sets",
        "onion set": "from sets",
        "set onion": "from sets",
    },
}
_PLURALS = {"tomatoes": "tomato", "radishes": "radish"}


class Book:
    """Implements `NameBook` for a dozen crops; `onion` alone could be several things."""

    def __init__(self) -> None:
        self.names = {crop: Name(crop, None) for crop in _PLAIN.split(", ")}
        for crop, kinds in _KINDS.items():
            self.names[crop] = Name(crop, None)
            self.names |= {name: Name(crop, key) for name, key in kinds.items()}
        self.names["onion"] = Name("onion", None, ("onion from seed", "onion from sets"))

    def find(self, words: tuple[str, ...]) -> Name | None:
        """What exactly these words name; any of them may be a plural."""
        singular = [_PLURALS.get(word, word.removesuffix("s")) for word in words]
        return self.names.get(" ".join(words)) or next(
            (name for known, name in self.names.items() if [w.removesuffix("s") for w in known.split()] == singular),
            None,
        )

    def longest(self, words: Sequence[str]) -> tuple[int, Name] | None:
        """How many of the first words form the longest known name, and what it stands for."""
        found = ((n, self.find(tuple(words[:n]))) for n in range(min(3, len(words)), 0, -1))
        return next(((n, name) for n, name in found if name), None)

    def near(self, words: str) -> str | None:
        """A known name that these words may be a slip of."""
        return next(iter(get_close_matches(words, self.names, n=1, cutoff=0.75)), None)

    def kinds(self, crop: str) -> tuple[str, ...]:
        """The kinds of a crop, as names to write."""
        return tuple(_KINDS.get(crop, ()))


BOOK = Book()


def scalar(text: str, before: str = "North 1: ") -> Text:
    """A plain scalar that stands after some words on the third line of a file."""
    return Text(text, Spot("garden.yaml", 3, len(before) + 1, max(1, len(text)), before + text))


def read(line: str, *, also: bool = False) -> tuple[PlanLine | None, list[Mistake]]:
    """A line's plan and its mistakes."""
    mistakes: list[Mistake] = []
    return parse_plan(scalar(line), BOOK, mistakes, sow_also=also), mistakes


def marked(mistake: Mistake) -> str:
    """The words under the mark."""
    spot = mistake.spot
    return spot.excerpt[spot.column - 1 : spot.column - 1 + spot.length]


def told(plan: PlanLine) -> str:
    """A plan in a fixed short form: steps divided by `>`, items by `&`, what is between after `+`."""
    return " > ".join(_step(step) for step in plan.steps)


def day(date: GrowerDate) -> str:
    """`25/4 third`, `15/10/2026 month`, `31/5 end`, `week 13`, `last frost +14`; `from May` is `1/5`."""
    if isinstance(date, CalendarDay):
        year = f"/{date.year}" if date.year else ""
        span = "" if date.span in ("day", "from month") else f" {date.span}"
        return f"{date.day}/{date.month}{year}{span}{' end' if date.end else ''}"
    if isinstance(date, Anchored):
        return f"{date.anchor} {date.days:+d}" if date.days else date.anchor
    if isinstance(date, DayLength):
        return f"day length {date.hours:g} h {date.trend}{f' {date.days:+d}' if date.days else ''}"
    return f"week {date.week}{f' of {date.year}' if date.year else ''}"


def _step(step: Step) -> str:
    if step.rest:
        dates = [f"{name} {day(d.date)}" for name, d in (("from", step.start), ("till", step.till)) if d]
        return " ".join([step.rest, *dates])
    return " + ".join([" & ".join(map(_item, step.items)), *map(_item, step.between)])


def _item(item: Item) -> str:
    parts = [f"{item.crop}:{item.kind}" if item.kind else item.crop]
    for field in ("maybe", "amount", "note", "there", "since", "sown", "direct", "planted", "picked", "till", "free"):
        value = getattr(item, field)
        if value is None or value is False or value == "":
            continue
        name = "on" if field == "planted" and item.bare else field
        parts.append(name if value is True else f"{name}={_value(value)}")
    parts += [_series(item.series)] if item.series else []
    parts += [_cover(item.cover)] if item.cover else []
    return " ".join(parts)


def _value(value: Dated | AmountWords | str) -> str:
    if isinstance(value, Dated):
        return day(value.date)
    if isinstance(value, AmountWords):
        return f"{value.number if value.unit == 'share' else _decimal(value.number)} {value.unit}"
    return value


def _decimal(number: Fraction) -> str:
    return f"{float(number):g}"


def _series(series: SeriesWords) -> str:
    start = day(series.start.date) if series.start else "?"
    until = day(series.until.date) if series.until else "?"
    return f"every {series.every_days} d{' of picking' if series.picking else ''} {start}..{until}"


def _cover(cover: CoverWords) -> str:
    until = f" till {day(cover.until.date)}" if cover.until else f" for {cover.days} d" if cover.days else ""
    return f"under {cover.kind}{until}"
