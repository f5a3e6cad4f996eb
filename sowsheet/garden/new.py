"""The first garden file that `sowsheet new` writes: short, commented, and sound enough to print as it stands."""

from __future__ import annotations

from sowsheet.words.english import MONTHS

_TEXT = """\
# A garden file for Sowsheet. A line a bed, as in a pencil note; change what is not yours.
#   sowsheet check garden.yaml     tells back how each line was read
#   sowsheet print garden.yaml     prints the sheets

garden: {name}
season: {season}                       # {months}

site:
  latitude: {latitude}
  last frost: {last_frost} ({meaning})       # (average): later in half of all years; (safe): later in 1 year of 10
  first frost: {first_frost} ({meaning})
  # Long-term monthly means in C, January to December, make the dates better. They may be left out.
  # temperatures:
  #   min: [1.0, 1.0, 2.3, 3.9, 6.7, 9.6, 11.6, 11.5, 9.3, 6.7, 3.6, 1.5]
  #   max: [6.8, 7.4, 10.0, 12.9, 16.2, 19.1, 21.4, 21.0, 18.1, 13.9, 9.8, 7.1]

# Where trays stand: what a place is for, how warm it is or what it lies under, and how much room it has.
places:
  warm shelf: {{for: germinating, held at: 20 C, room: 6 trays}}
  glasshouse bench: {{for: growing on, under: unheated glass, room: 4.5 m x 0.6 m}}
  windowsill: {{for: growing on, under: indoors, room: 4 trays}}
  yard: {{for: hardening off, room: 30 trays}}

trays:
  60-cell: {{cells: 60, size: 53 cm x 31 cm, cell volume: 30 ml, owned: 20}}
  9 cm pots: {{pots: 18, size: 54 cm x 28 cm, cell volume: 400 ml, owned: 4}}

work days: Tuesday, Saturday         # leave it out if somebody is there every day
house: {{spare: 10 %, fleece: 5 weeks}}

beds are: 6 m x 1.2 m
beds:
  North 1: lettuce mid-{apr} under fleece, then French beans, then maybe lamb's lettuce
  North 2: garlic since {oct}, then kale when free
  North 3: onions from seed late {mar} under fleece, then spinach mid-{aug}
  North 4: broad beans mid-{mar} under fleece, then leeks mid-{jul}
  South 1: calabrese mid-{apr} under fleece, then beetroot when free
  South 2: 2 rows of carrots sown late {apr} and 1 row of beetroot early {may}, then nothing

# Young plants with no bed of their own yet: for gaps, for a neighbour.
sow also:
  - 20 lettuce early {jun}
"""


def first_garden(name: str, season: int, latitude: float, last_frost: str, first_frost: str, meaning: str) -> str:
    """The text of a garden file. Frost dates as a grower writes them, `meaning` average or safe; the south's months."""
    south = latitude < 0
    shift = 6 if south else 0
    names = {MONTHS[n][:3].lower(): MONTHS[(n + shift) % 12] for n in range(12)}
    months = f"July {season} to June {season + 1}" if south else "January to December"
    return _TEXT.format(
        name=_quoted(name),
        season=season,
        months=months,
        latitude=f"{abs(latitude):g} S" if south else f"{latitude:g}",
        last_frost=last_frost,
        first_frost=first_frost,
        meaning=meaning,
        **names,
    )


def _quoted(name: str) -> str:
    """A name as YAML reads it back, in quotes where a sign in it means something there."""
    plain = name and all(c.isalnum() or c in " '-.,()" for c in name) and name[0].isalnum() and name == name.strip()
    if plain:
        return name
    return "'" + name.replace("'", "''") + "'"
