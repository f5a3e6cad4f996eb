"""The records that every date, count and picture is folded from."""

from __future__ import annotations

from datetime import date
from fractions import Fraction
from typing import Literal

import msgspec

from sowsheet.catalogue.records import Kind, Raised
from sowsheet.growth.when import When
from sowsheet.reading.mistakes import Spot
from sowsheet.site.climate import Climate
from sowsheet.site.season import Season

StageKey = Literal["germinating", "growing on", "hardening off", "in the bed", "picking"]

STAGE_KEYS = (
    "chit",
    "sow",
    "up",
    "to_light",
    "prick_out",
    "pot_on",
    "harden",
    "ready",
    "holds",
    "plant",
    "cover_on",
    "cover_off",
    "first_pick",
    "last_pick",
    "clear",
)


class Stages(msgspec.Struct, frozen=True, kw_only=True):
    """The dated stages of a batch; None where a stage does not happen or is not known.

    `chit` is the day on which tubers are set to sprout; `sow` is also the day of sowing direct; `plant` the day it
    goes into the bed (planted, sown direct or set).
    """

    chit: When | None = None
    sow: When | None = None
    up: When | None = None
    to_light: When | None = None
    prick_out: When | None = None
    pot_on: When | None = None
    harden: When | None = None
    ready: When | None = None
    holds: When | None = None
    plant: When | None = None
    cover_on: When | None = None
    cover_off: When | None = None
    first_pick: When | None = None
    last_pick: When | None = None
    clear: When | None = None


class BedPart(msgspec.Struct, frozen=True):
    """A rectangle of a bed, in cm from its near left corner."""

    along_start_cm: float
    along_end_cm: float
    across_start_cm: float
    across_end_cm: float


class Stay(msgspec.Struct, frozen=True, kw_only=True):
    """A batch somewhere for a time, from `start` up to but not including `end`.

    `where` is a place's or a bed's name. In trays: `container` names the tray kind and `trays` counts them;
    in a bed: `part` is the rectangle and `rank` says whether it is the main crop or one planted between.
    """

    batch: str
    stage: StageKey
    where: str
    start: date
    end: date
    container: str = ""
    trays: int = 0
    part: BedPart | None = None
    rank: Literal["main", "between"] = "main"
    maybe: bool = False


class Cover(msgspec.Struct, frozen=True):
    """A cover over a batch in its bed, and how many metres of it."""

    batch: str
    kind: Literal["fleece", "mesh", "net"]
    start: date
    end: date
    metres: float


class Amount(msgspec.Struct, frozen=True, kw_only=True):
    """How much is sown, with every step of the sum, so that it can be followed by hand.

    places = rows x per_row (or as written); wanted = places + spare; cells = wanted / (1 - empty), nearest,
    never below wanted; trays = cells in trays of `tray_cells`, rounded up; `left` cells stay empty.
    Seed that is broadcast is weighed out by the area, `area_m2`.
    For seed trays `seedlings` is what must be pricked out and `cells` counts the cells they go into.
    """

    places: int
    unit: Literal["plants", "clumps", "sets", "cloves", "tubers", "crowns", "rows", "m2"]
    rows: int = 0
    per_row: int = 0
    length_m: float = 0.0
    area_m2: float = 0.0
    spare: Fraction = Fraction(0)
    empty: Fraction = Fraction(0)  # chance that a cell comes up empty
    cells: int = 0
    tray: str = ""
    tray_cells: int = 0
    trays: int = 0
    left: int = 0
    seeds: int = 0
    seed_g: float = 0.0
    kg: float = 0.0


class Slip(msgspec.Struct, frozen=True):
    """The price of a week: how many days later a batch is picked (of `sow also`: is ready) if sown a week later, None
    where nothing is picked; and the last sowing that is still of use, with what ends it. Without that day but with a
    reason it is late already; without either nothing ends it."""

    costs_days: int | None
    last_useful: date | None
    why: str


class Exposed(msgspec.Struct, frozen=True, kw_only=True):
    """How cold it may get for a batch while it stands somewhere, from `start` up to but not including `end`.

    It lives through a night of `stands_c`; `night_c` is such a night outdoors, colder where the grower has read that
    the place stays warmer. `chance`: of a colder one in that time; `spring_chance` up to the turn from spring to
    autumn, `later_chance` after it; None: not asked, or not known. Above `accepted` it is doubted; from `safe_from` on
    a spring brings such a night no more often (None: not known, or it begins after the spring).
    """

    stage: StageKey
    where: str
    start: date
    end: date
    stands_c: float
    night_c: float
    chance: float | None
    spring_chance: float | None
    later_chance: float | None
    accepted: float
    safe_from: date | None


class Batch(msgspec.Struct, frozen=True, kw_only=True):
    """One sowing of one crop on one date, wherever its plants end up.

    `bed` is "" for a batch of `sow also`. `open_left`: it stood there before the season and its sowing is not known.
    `kind_open`: the grower's word leaves the kind open, and the date or the bed has made it another than the usual
    (only in English: elsewhere `word` is then the kind's whole name).
    `series` names the sowings that follow from one "every n weeks". `route` are the places that its trays pass,
    `asked` those that the grower named.
    """

    name: str
    kind: Kind
    raised: Raised
    bed: str
    stages: Stages
    stays: tuple[Stay, ...]
    covers: tuple[Cover, ...]
    amount: Amount
    route: tuple[str, ...]
    spot: Spot
    word: str
    kind_open: bool = False
    note: str = ""
    maybe: bool = False
    series: str = ""
    rank: Literal["main", "between"] = "main"
    part: BedPart | None = None
    open_left: bool = False
    # the container after each move, largest step last: (`prick_out` | `pot_on`, tray kind, number of trays)
    moved_into: tuple[tuple[str, str, int], ...] = ()
    slip: Slip | None = None
    asked: tuple[str, ...] = ()
    cold: tuple[Exposed, ...] = ()


class Doubt(msgspec.Struct, frozen=True):
    """Something the tool would question: what, why, and the cure. `code` is a promise to other programs."""

    code: str
    batch: str
    what: str
    why: str
    cure: str
    spot: Spot | None = None


ToldCode = Literal["", "no work day"]


class Told(msgspec.Struct, frozen=True):
    """One assumption or reading, for `check`: about which bed or batch, and the sentence. What may be told of many
    batches in one line has a code and is `short` in that line."""

    about: str
    sentence: str
    spot: Spot | None = None
    code: ToldCode = ""
    short: str = ""


class Gap(msgspec.Struct, frozen=True):
    """A named gap in a bed: it rests, or something quick is wanted."""

    bed: str
    what: Literal["nothing", "something quick"]
    start: date
    end: date | None


class Schedule(msgspec.Struct, frozen=True):
    """The whole plan, dated, and the climate that dated it."""

    season: Season
    climate: Climate
    batches: tuple[Batch, ...]
    gaps: tuple[Gap, ...]
    doubts: tuple[Doubt, ...]
    told: tuple[Told, ...]
