"""How the catalogue's days become warmth and light, so that anyone can follow each number (`crops NAME --why`)."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date
from textwrap import wrap

from sowsheet.catalogue.records import Kind, Raised
from sowsheet.growth.degree_days import effective_day
from sowsheet.growth.needs import ANY_YEAR, LIGHT_SHARE, Need, Needs
from sowsheet.words.language import Language

_STARTS = ((2, 15), (3, 15), (4, 15), (6, 15), (8, 15), (10, 1))
_WIDTH = 88
_LONGEST_DAYS = 180  # beyond it the year has turned


def why_lines(kinds: Sequence[Kind], words: Language) -> Iterator[str]:
    """What each kind needs, how that follows from its days, and how long it then takes at other times of the year."""
    needs = Needs(words)
    yield from wrap(words.say("crop page.why.sum", share=LIGHT_SHARE), _WIDTH)
    for kind in kinds:
        yield ""
        yield kind.name
        yield from _comes_up(words, kind)
        for stage, need, under_glass in _stages(needs, kind):
            yield from _told(words, needs, words.say(f"crop page.why.stage.{stage}"), need, under_glass)


def _comes_up(words: Language, kind: Kind) -> Iterator[str]:
    """The published days to emerge, and the curve that is drawn through them."""
    seed = kind.germination
    if seed is None:
        return
    points = [words.say("crop page.why.point", temp=temp, days=days) for temp, days in seed.days_up]
    yield f"  {words.say('crop page.why.comes up', points=words.listed(points))}"
    limits = words.say("crop page.why.limits", low=seed.min_c, high=seed.max_c)
    if seed.curve is not None:
        fit = seed.curve.fit
        base, best = words.fixed(fit.base_c, 1), f"{fit.optimum_c:.0f}"
        limits = words.say("crop page.why.curve", base=base, best=best, limits=limits)
    yield from _indented(limits)


def _indented(text: str) -> Iterator[str]:
    return (f"    {line}" for line in wrap(text, _WIDTH - 4))


def _stages(needs: Needs, kind: Kind) -> Iterator[tuple[str, Need | None, bool]]:
    """Each stage, its need, and whether it is shown under glass."""
    if kind.tray is not None:
        yield "raising", needs.raising(kind), True
    ways: dict[Raised, object] = {"tray": kind.tray, "drill": kind.drill, "set": kind.setting}
    glass = all(w.under_glass for w in kind.windows)
    for raised, given in ways.items():
        if given is not None:
            yield raised, needs.cropping(kind, raised), glass


def _told(words: Language, needs: Needs, stage: str, need: Need | None, under_glass: bool) -> Iterator[str]:
    if need is None:
        yield f"  {words.say('crop page.why.brought', stage=stage)}"
        return
    low, usual, high = (f"{n:.0f}" for n in (need.low, need.usual, need.high))
    yield f"  {words.say('crop page.why.need', stage=stage, low=low, usual=usual, high=high)}"
    yield from _indented(words.say("crop page.why.reckoned", base=need.base_c, cap=need.cap_c, why=need.why))
    days = (effective_day(c, c, 16.0, need.base_c, need.cap_c, LIGHT_SHARE) for c in (12.0, 20.0))
    mild, warm = (words.fixed(n, 1) for n in days)
    yield f"    {words.say('crop page.why.a day', mild=mild, warm=warm)}"
    found = [(day, needs.reference_days(need, day, under_glass)) for day in _starts()]
    told = [
        words.say("crop page.why.from", day=words.day_month(day), days=words.count(n, "day"))
        for day, n in found
        if n is not None and n <= _LONGEST_DAYS
    ]
    if told:
        key = "crop page.why.under glass" if under_glass else "crop page.why.in the open"
        yield from _indented(words.say(key, days=words.listed(told)))


def _starts() -> Iterator[date]:
    return (date(ANY_YEAR.year, month, day) for month, day in _STARTS)
