"""The first garden file that `sowsheet new` writes: short, commented, and sound enough to print as it stands."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, timedelta

from sowsheet.garden.defaults import assumed_places, assumed_pots, assumed_trays
from sowsheet.reading.date_words import parse_date
from sowsheet.reading.dates import CalendarDay
from sowsheet.reading.mistakes import Spot
from sowsheet.reading.nodes import Text
from sowsheet.reading.tokens import MONTHS
from sowsheet.words.language import Language

# Average dates for a plan where none can be read: those of a cool place in the middle latitudes.
_NORTH = (date(2001, 5, 10), date(2001, 10, 12))
_SOUTH = (date(2001, 11, 10), date(2001, 4, 12))
_SAFE_DAYS = 19  # from a date safe in 9 years of 10 to the average one, if frosts wander by 15 days: a guess

# Keys and the plan's own words are the file's, in every language; {names} and # comments are the reader's.
_TEXT = """\
# {about}
#   sowsheet check garden.yaml     {check}
#   sowsheet print garden.yaml     {print}

garden: {name}
season: {season}                         # {months}

site:
  latitude: {latitude}
  # {average}
  {last_frost}
  {first_frost}
  # {means}
  # temperatures: {{min: [1.0, 1.0, 2.3, …], max: [6.8, 7.4, 10.0, …]}}

# {places}
places:
  {shelf}: {{for: germinating, held at: 20 C, room: 8 trays}}
  {bench}: {{for: growing on, under: unheated glass, room: 4.5 m x 0.6 m}}
  {sill}: {{for: growing on, under: indoors, room: 4 trays}}
  {yard}: {{for: hardening off, under: outdoors, room: 30 trays}}

trays:
  {cells}: {{cells: 60, size: 53 cm x 31 cm, cell volume: 30 ml, owned: 20}}
  {pots}: {{pots: 18, size: 54 cm x 28 cm, cell volume: 400 ml, owned: 4}}

work days: Tuesday, Saturday           # {work_days}
house: {{spare: 10 %, fleece: 5 weeks}}

# {dates}
# {little_words}
beds are: 6 m x 1.2 m
beds:
{beds}
# {also}
sow also:
  - 20 {lettuce} planted {late_spring}
"""
_IN_LANGUAGE = """
# {said}
language: {tag}
"""

_SHORT_DAYS = 150  # between the frosts; fewer leave no room for a second crop in most beds
_BEDS = """\
  {north_1}: {lettuce} {spring} under fleece, then {french_beans}, then maybe {lambs_lettuce}
  {north_2}: {garlic} since {autumn}, then {kale} when free
  {north_3}: {onions} {early_spring} under fleece, then {spinach} {late_summer}
  {north_4}: {broad_beans} {early_spring} under fleece, then {leeks} when free
  {south_1}: {calabrese} {spring} under fleece, then {beetroot} when free
  {south_2}: 2 rows of {carrots} sown direct {spring} and 1 row of {beetroot} {spring}, then nothing
"""
_BEDS_SHORT = """\
  {north_1}: {lettuce} {spring} under fleece, then maybe {leaf_lettuce} when free
  {north_2}: {garlic} since {autumn}, then nothing
  {north_3}: {onions} {early_spring} under fleece, then nothing
  {north_4}: {broad_beans} {early_spring} under fleece, then nothing
  {south_1}: {calabrese} {spring} under fleece, then nothing
  {south_2}: 2 rows of {carrots} sown direct {spring} and 1 row of {beetroot} {spring}, then nothing
"""
# fmt: off
_CROPS = (
    "lettuce", "leaf lettuce", "french beans", "lambs lettuce", "garlic", "kale", "onions", "spinach", "broad beans",
    "leeks", "calabrese", "beetroot", "carrots",
)
# fmt: on
_COMMENTS = (
    *("about", "check", "print", "average", "means", "places", "work days", "dates", "little words", "also"),
    "sill",
)


def first_garden(
    name: str, season: int, latitude: float, last_frost: str, first_frost: str, meaning: str, words: Language
) -> str:
    """The text of a garden file, metric, for either half of the world; comments, names and crops in a language.

    Frost dates as growers write them, "" where there is none, `meaning` average or safe. The plan's own dates
    follow from them; from usual ones, where they are not understood.
    """
    south = latitude < 0
    usual = _SOUTH if south else _NORTH
    shift = timedelta(days=_SAFE_DAYS if meaning == "safe" else 0)
    last = _day(last_frost, usual[0] + shift) - shift
    first = _day(first_frost, usual[1] - shift) + shift
    text = _TEXT.format(
        **_said("", _COMMENTS, words),
        name=_quoted(_printable(name) or words.say("first garden.name")),
        season=season,
        months=words.say("first garden.south", year=season, next=season + 1)
        if south
        else words.say("first garden.north"),
        latitude=f"{abs(latitude):.2f}".rstrip("0").rstrip(".") + (" S" if south else ""),
        last_frost=_frost_line("last frost", last_frost, meaning, words),
        first_frost=_frost_line("first frost", first_frost, meaning, words),
        **{name: place.name for name, place in zip(("shelf", "bench", "yard"), assumed_places(words), strict=True)},
        cells=words.tray_name(assumed_trays()[0].name),
        pots=words.tray_name(assumed_pots().name),
        beds=_beds(last, first, words),
        lettuce=words.say("first garden.crop.lettuce"),
        late_spring=_in_words(last),
    )
    if words.tag == "en":
        return text
    return text + _IN_LANGUAGE.format(said=words.say("first garden.language"), tag=words.tag)


def _said(under: str, names: Sequence[str], words: Language) -> dict[str, str]:
    """Phrases by the names that they have in a text."""
    return {name.replace(" ", "_"): words.say(f"first garden.{under}{name}") for name in names}


def _beds(last: date, first: date, words: Language) -> str:
    """The lines of the beds between two average frost dates."""
    between = (first - last).days % 365
    return (_BEDS_SHORT if between < _SHORT_DAYS else _BEDS).format(
        **_said("crop.", _CROPS, words),
        **{
            f"{side}_{n}": words.say(f"first garden.bed.{side}", n=n)
            for side in ("north", "south")
            for n in range(1, 5)
        },
        early_spring=_in_words(last - timedelta(weeks=5)),
        spring=_in_words(last - timedelta(weeks=4)),
        late_summer=_in_words(first - timedelta(weeks=7)),
        autumn=_in_words(first),
    )


def _day(words: str, otherwise: date) -> date:
    """The day of a common year that a grower's date means."""
    found = parse_date(Text(words, Spot("", 1, 1)), [])
    if found is None or not isinstance(found.date, CalendarDay):
        return otherwise
    last = 28 if found.date.month == 2 else 31
    return date(2001, found.date.month, min(found.date.day, last))


def _in_words(day: date) -> str:
    """`early March`, `mid-March`, `late March`: the nearest."""
    part = "early " if day.day < 10 else "mid-" if day.day < 20 else "late "
    return f"{part}{MONTHS[day.month - 1]}"


def _frost_line(key: str, frost: str, meaning: str, words: Language) -> str:
    if not frost.strip():
        return f"# {key}: 10 May ({meaning})          {words.say('first garden.unknown')}"
    return f"{key}: {_quoted(_printable(f'{frost} ({meaning})'))}"


def _printable(words: str) -> str:
    """Words on one line, without what fonts cannot print."""
    return " ".join("".join(c for c in words if c.isspace() or (c.isprintable() and ord(c) <= 0xFFFF)).split())


def _quoted(words: str) -> str:
    """Words as YAML reads them back: in quotes where a sign in them means something there."""
    plain = words[:1].isalnum() and all(c.isalnum() or c in " '-.()" for c in words)
    return words if plain else "'" + words.replace("'", "''") + "'"
