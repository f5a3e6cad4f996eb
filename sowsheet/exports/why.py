"""How the catalogue's days become warmth and light, so that anyone can follow each number (`crops NAME --why`)."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date
from textwrap import wrap

from sowsheet.catalogue.records import Kind, Raised
from sowsheet.growth.degree_days import effective_day
from sowsheet.growth.needs import ANY_YEAR, LIGHT_SHARE, Need, Needs
from sowsheet.words.english import count, listed
from sowsheet.words.language import language_of

_VERBS: dict[Raised, str] = {"tray": "planting", "drill": "sowing direct", "set": "setting"}
_STARTS = ((2, 15), (3, 15), (4, 15), (6, 15), (8, 15), (10, 1))
_WIDTH = 88
_LONGEST_DAYS = 180  # beyond it the year has turned


def why_lines(kinds: Sequence[Kind]) -> Iterator[str]:
    """What each kind needs, how that follows from its days, and how long it then takes at other times of the year."""
    needs = Needs(language_of("en"))
    yield from wrap(
        f"Warmth and light: a day counts 1 / (1 / warmth + {LIGHT_SHARE:g} / light). Warmth is the mean of what the "
        "temperature rises above the base, in C, and no more from the cap on; light is the sun that reaches the "
        "plants, in MJ a square metre. A stage lasts until its sum is full.",
        _WIDTH,
    )
    for kind in kinds:
        yield ""
        yield kind.name
        yield from _comes_up(kind)
        for name, need, under_glass in _stages(needs, kind):
            yield from _told(needs, name, need, under_glass)


def _comes_up(kind: Kind) -> Iterator[str]:
    """The published days to emerge, and the curve that is drawn through them."""
    seed = kind.germination
    if seed is None:
        return
    yield f"  from sowing to up: days at {listed([f'{temp:g} C {days:g}' for temp, days in seed.days_up])}"
    limits = f"no stand below {seed.min_c:g} C or above {seed.max_c:g} C"
    if seed.curve is not None:
        fit = seed.curve.fit
        curve = f"a curve through them, from nothing at {fit.base_c:.1f} C to full speed at {fit.optimum_c:.0f} C"
        limits = f"{curve}; {limits}"
    yield from (f"    {line}" for line in wrap(limits, _WIDTH - 4))


def _stages(needs: Needs, kind: Kind) -> Iterator[tuple[str, Need | None, bool]]:
    """Each stage's name, its need, and whether it is shown under glass."""
    if kind.tray is not None:
        yield "from up to planting", needs.raising(kind), True
    ways: dict[Raised, object] = {"tray": kind.tray, "drill": kind.drill, "set": kind.setting}
    glass = all(w.under_glass for w in kind.windows)
    for raised, given in ways.items():
        if given is not None:
            yield f"from {_VERBS[raised]} to the first picking", needs.cropping(kind, raised), glass


def _told(needs: Needs, name: str, need: Need | None, under_glass: bool) -> Iterator[str]:
    if need is None:
        yield f"  {name}: the year brings it, however warm it is"
        return
    spread = f"{need.low:.0f} to {need.high:.0f}, usually {need.usual:.0f}"
    yield f"  {name}: {spread}"
    yield from (f"    {line}" for line in wrap(_reckoned(need), _WIDTH - 4))
    mild, warm = (effective_day(c, c, 16.0, need.base_c, need.cap_c, LIGHT_SHARE) for c in (12.0, 20.0))
    yield f"    a day at 12 C counts {mild:.1f}, one at 20 C {warm:.1f}, both with 16 MJ of light"
    where = "under glass" if under_glass else "in the open"
    found = [(day, needs.reference_days(need, day, under_glass)) for day in _starts()]
    days = [f"{day.day} {day:%B} {count(n, 'day')}" for day, n in found if n is not None and n <= _LONGEST_DAYS]
    if days:
        yield from (f"    {line}" for line in wrap(f"{where} at 52 N, from {listed(days)}", _WIDTH - 4))


def _reckoned(need: Need) -> str:
    return f"above {need.base_c:g} C, no faster from {need.cap_c:g} C on; reckoned from {need.why}"


def _starts() -> Iterator[date]:
    return (date(ANY_YEAR.year, month, day) for month, day in _STARTS)
