"""Gardens made in memory for tests: one bed, one line, the shipped catalogue."""

from __future__ import annotations

from fractions import Fraction
from functools import cache

from sowsheet.catalogue.catalogue import Catalogue
from sowsheet.garden.defaults import assumed_places, assumed_pots, assumed_seed_tray
from sowsheet.garden.records import Bed, Frost, Garden, House, Place, Room, Shelter, Site, TrayKind
from sowsheet.reading.dates import CalendarDay
from sowsheet.reading.mistakes import Mistake, Spot
from sowsheet.reading.nodes import Text
from sowsheet.reading.planline import PlanLine, parse_plan
from sowsheet.schedule.plan import schedule
from sowsheet.schedule.records import Batch, Schedule
from sowsheet.words.language import language_of
from tests import in_english

NOWHERE = Spot("garden.yaml", 1, 1)
SIXTY = TrayKind("60-cell", 60, 53.0, 31.0, 30.0)


@cache
def catalogue() -> Catalogue:
    """The whole shipped catalogue, read once."""
    mistakes: list[Mistake] = []
    found = Catalogue.open(mistakes).load(None, mistakes)
    assert not mistakes
    return found


def frost(month: int, day: int) -> Frost:
    """An average frost date."""
    return Frost(CalendarDay(month, day), "average", NOWHERE)


NORTH = Site(52.4, frost(5, 10), frost(10, 12))
SOUTH = Site(-37.5, frost(9, 20), frost(5, 25))


def line(
    words: str, mistakes: list[Mistake], number: int = 1, also: bool = False, standing: tuple[str, ...] = ()
) -> PlanLine | None:
    """A plan line as the garden reader would hand it on."""
    spot = Spot("garden.yaml", number, 1, len(words), words)
    return parse_plan(Text(words, spot), catalogue().names, mistakes, sow_also=also, standing=standing)


def garden(
    *words: str,
    mistakes: list[Mistake],
    also: tuple[str, ...] = (),
    season: int = 2027,
    site: Site = NORTH,
    places: tuple[Place, ...] | None = None,
    work_days: frozenset[int] = frozenset(),
    under: Shelter = "",
    house: House | None = None,
) -> Garden:
    """A garden of beds of 6 m x 1.2 m, a line each."""
    places = places or assumed_places(language_of("en"))
    standing = tuple(p.name for p in places)
    beds = tuple(
        Bed(f"Bed {n}", 600.0, 120.0, line(w, mistakes, n, standing=standing), Spot("garden.yaml", n, 1), under)
        for n, w in enumerate(words, 1)
    )
    lines = [line(w, mistakes, 50 + n, also=True, standing=standing) for n, w in enumerate(also)]
    return Garden(
        name="Test Beds",
        season=season,
        site=site,
        places=places,
        trays=(SIXTY, assumed_seed_tray(), assumed_pots()),
        beds=beds,
        also=tuple(w for w in lines if w is not None),
        work_days=work_days,
        house=house or House(spare=Fraction(1, 10)),
    )


def planned(*words: str, **options: object) -> tuple[Schedule, list[Mistake]]:
    """The schedule of such a garden, and every mistake in it."""
    mistakes: list[Mistake] = []
    made = garden(*words, mistakes=mistakes, **options)  # type: ignore[arg-type]
    dated, found = schedule(made, catalogue().crop)
    return dated, mistakes + found


def sound(*words: str, **options: object) -> tuple[Batch, ...]:
    """The batches of lines that must be read without a mistake."""
    dated, mistakes = planned(*words, **options)
    assert not mistakes, [in_english.what(m) for m in mistakes]
    return dated.batches


def refused(words: str, **options: object) -> Mistake:
    """The one mistake of a line that must be refused."""
    _, mistakes = planned(words, **options)
    assert len(mistakes) == 1, [in_english.what(m) for m in mistakes]
    return mistakes[0]


def limited(name: str, trays: int) -> Place:
    """A place for growing on with room for so many trays."""
    return Place(name, ("growing on",), Room(trays=trays), under="unheated glass")
