"""The first garden file that `sowsheet new` writes: short, commented, and sound enough to print as it stands."""

from __future__ import annotations

from datetime import date, timedelta

from sowsheet.reading.date_words import parse_date
from sowsheet.reading.dates import CalendarDay
from sowsheet.reading.mistakes import Spot
from sowsheet.reading.nodes import Text
from sowsheet.reading.tokens import MONTHS

# Average dates for a plan where none can be read: those of a cool place in the middle latitudes.
_NORTH = (date(2001, 5, 10), date(2001, 10, 12))
_SOUTH = (date(2001, 11, 10), date(2001, 4, 12))
_SAFE_DAYS = 19  # from a date safe in 9 years of 10 to the average one, if frosts wander by 15 days: a guess

_TEXT = """\
# A garden file for Sowsheet. A line a bed, as in a pencil note; change what is not yours.
#   sowsheet check garden.yaml     tells how each line was read, and where every date comes from
#   sowsheet print garden.yaml     prints the sheets

garden: {name}
season: {season}                         # {months}

site:
  latitude: {latitude}
  # (average): half of all years have frost beyond this date. (safe): 1 year in 10 has.
  {last_frost}
  {first_frost}
  # Long-term monthly means make the dates better. Twelve numbers each, January to December:
  # temperatures: {{min: [1.0, 1.0, 2.3, …], max: [6.8, 7.4, 10.0, …]}}

# Where trays stand: what a place is for, how warm it is held or what it lies under, and its room.
places:
  warm shelf: {{for: germinating, held at: 20 C, room: 8 trays}}
  glasshouse bench: {{for: growing on, under: unheated glass, room: 4.5 m x 0.6 m}}
  windowsill: {{for: growing on, under: indoors, room: 4 trays}}
  yard: {{for: hardening off, under: outdoors, room: 30 trays}}

trays:
  60-cell: {{cells: 60, size: 53 cm x 31 cm, cell volume: 30 ml, owned: 20}}
  9 cm pots: {{pots: 18, size: 54 cm x 28 cm, cell volume: 400 ml, owned: 4}}

work days: Tuesday, Saturday           # leave it out if somebody is there every day
house: {{spare: 10 %, fleece: 5 weeks}}

# A date is the day it goes into the bed; without one, as soon as the bed is free and it is safe.
# `since` went in before the season, `there` stands already, `maybe` is an idea not settled yet.
beds are: 6 m x 1.2 m
beds:
{beds}
# Young plants with no bed of their own yet: for gaps, for a neighbour.
sow also:
  - 20 lettuce planted {late_spring}
"""

_SHORT_DAYS = 150  # between the frosts; fewer leave no room for a second crop in most beds
_BEDS = """\
  North 1: lettuce {spring} under fleece, then French beans, then maybe lamb's lettuce
  North 2: garlic since {autumn}, then kale when free
  North 3: onions from seed {early_spring} under fleece, then spinach {late_summer}
  North 4: broad beans {early_spring} under fleece, then leeks when free
  South 1: calabrese {spring} under fleece, then beetroot when free
  South 2: 2 rows of carrots sown direct {spring} and 1 row of beetroot {spring}, then nothing
"""
_BEDS_SHORT = """\
  North 1: lettuce {spring} under fleece, then maybe leaf lettuce when free
  North 2: garlic since {autumn}, then nothing
  North 3: onions from seed {early_spring} under fleece, then nothing
  North 4: broad beans {early_spring} under fleece, then nothing
  South 1: calabrese {spring} under fleece, then nothing
  South 2: 2 rows of carrots sown direct {spring} and 1 row of beetroot {spring}, then nothing
"""


def first_garden(name: str, season: int, latitude: float, last_frost: str, first_frost: str, meaning: str) -> str:
    """The text of a garden file, metric, for either half of the world.

    Frost dates as growers write them, "" where there is none, `meaning` average or safe. The plan's own dates
    follow from them; from usual ones, where they are not understood.
    """
    south = latitude < 0
    usual = _SOUTH if south else _NORTH
    shift = timedelta(days=_SAFE_DAYS if meaning == "safe" else 0)
    last = _day(last_frost, usual[0] + shift) - shift
    first = _day(first_frost, usual[1] - shift) + shift
    return _TEXT.format(
        name=_quoted(_printable(name) or "My Garden"),
        season=season,
        months=f"July {season} to June {season + 1}" if south else "January to December",
        latitude=f"{abs(latitude):.2f}".rstrip("0").rstrip(".") + (" S" if south else ""),
        last_frost=_frost_line("last frost", last_frost, meaning),
        first_frost=_frost_line("first frost", first_frost, meaning),
        beds=_beds(last, first),
        late_spring=_in_words(last),
    )


def _beds(last: date, first: date) -> str:
    """The lines of the beds between two average frost dates."""
    between = (first - last).days % 365
    return (_BEDS_SHORT if between < _SHORT_DAYS else _BEDS).format(
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


def _frost_line(key: str, words: str, meaning: str) -> str:
    if not words.strip():
        return f"# {key}: 10 May ({meaning})          not known yet"
    return f"{key}: {_quoted(_printable(f'{words} ({meaning})'))}"


def _printable(words: str) -> str:
    """Words on one line, without what fonts cannot print."""
    return " ".join("".join(c for c in words if c.isspace() or (c.isprintable() and ord(c) <= 0xFFFF)).split())


def _quoted(words: str) -> str:
    """Words as YAML reads them back: in quotes where a sign in them means something there."""
    plain = words[:1].isalnum() and all(c.isalnum() or c in " '-.()" for c in words)
    return words if plain else "'" + words.replace("'", "''") + "'"
