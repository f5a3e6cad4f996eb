"""Frozen records of the catalogue. Values are plain fields; where each is from stands in `Kind.sources`."""

from __future__ import annotations

from functools import cached_property
from typing import Literal

import msgspec

from sowsheet.catalogue.emergence_curve import BentCurve, bent_through
from sowsheet.reading.dates import GrowerDate

Raised = Literal["tray", "drill", "set"]
# Kinds killed by a night of this or above are the tender ones, whose nights are asked about.
TENDER_C = -1.0

StageName = Literal["up", "prick out", "pot on", "plant", "pick", "clear", "sow", "lift"]


class Range(msgspec.Struct, frozen=True):
    """A published range with the usual value inside it, which is reckoned with."""

    low: float
    usual: float
    high: float


class Germination(msgspec.Struct, frozen=True, dict=True):
    """Days from sowing to emergence at constant temperatures (C), and the limits for a fair stand."""

    days_up: tuple[tuple[float, float], ...]  # (temp_c, days), rising temperature
    min_c: float
    max_c: float
    best_low_c: float
    best_high_c: float
    light: Literal["", "wanted", "dark"] = ""

    @cached_property
    def curve(self) -> BentCurve | None:
        """The curve through the published days; None where they are of one temperature."""
        return bent_through(self.days_up) if len({temp_c for temp_c, _ in self.days_up}) > 1 else None


class Move(msgspec.Struct, frozen=True):
    """Pricking out or potting on: days after the seedlings are up, into cells or pots of this volume."""

    days_after_up: Range
    into_ml: Range


class Tray(msgspec.Struct, frozen=True):
    """How a young plant is raised in trays."""

    sown_in: Literal["module", "seed tray"]
    seeds_per_cell: int
    plants_per_cell: Range
    cell_ml: Range
    up_to_planting_days: Range
    holds_days: Range
    hardening_days: Range
    prick_out: Move | None = None
    pot_on: Move | None = None


class Drill(msgspec.Struct, frozen=True):
    """Seed straight into the bed: seeds to a metre of drill or, broadcast, grams to a square metre; one of the two."""

    seeds_per_m: Range | None = None
    grams_per_m2: Range | None = None


class Setting(msgspec.Struct, frozen=True):
    """Sets, cloves, tubers, crowns: pieces to a kilogram (crowns are bought by the piece), and cloves to a bulb."""

    what: Literal["sets", "cloves", "tubers", "crowns"]
    per_kg: Range | None = None
    per_bulb: Range | None = None
    chits_days: Range | None = None  # set to sprout so long before they go in


class Cold(msgspec.Struct, frozen=True):
    """The night (C) a plant lives through: soft on the bench, hardened, established in the bed."""

    in_bed_c: float
    soft_c: float | None = None
    hardened_c: float | None = None


class Window(msgspec.Struct, frozen=True):
    """When a crop goes into the bed, anchored; `until` is the last useful day, `fleece_start` the earlier start."""

    start: GrowerDate
    until: GrowerDate
    fleece_start: GrowerDate | None = None
    seed: bool = False  # sown direct, not planted
    under_glass: bool = False


class Space(msgspec.Struct, frozen=True):
    """Distance between rows and between places in the row."""

    row_gap_cm: Range
    in_row_cm: Range


class AnchoredRange(msgspec.Struct, frozen=True):
    """An anchored date with its spread, in days from the anchor."""

    low: GrowerDate
    usual: GrowerDate
    high: GrowerDate


class Harvest(msgspec.Struct, frozen=True):
    """How the harvest is dated, how long it lasts and what ends it."""

    by: Literal["days", "season", "stands"]
    counted_from: Literal["planting", "sowing"]
    first_pick: Range | AnchoredRange  # days, or a date of the year
    ends_with: Literal["age", "frost", "bolting", "cutting"]
    first_pick_direct: Range | None = None  # days from sowing direct, for crops raised both ways
    lasts_days: Range | None = None
    until: GrowerDate | None = None
    not_after: GrowerDate | None = None
    at_least_days: Range | None = None  # from planting, however soon the year would bring it
    day_degrees: float | None = None  # effective ones from planting to the first pick, where they are published


class Bolting(msgspec.Struct, frozen=True):
    """Sowing dates from which the crop would run to seed, what drives it, and why in words."""

    sown_start: GrowerDate
    sown_until: GrowerDate
    cause: Literal["cold", "long days", "heat"]
    why: str


class Seed(msgspec.Struct, frozen=True):
    """Seeds per gram, the share that comes up, and how deep it goes."""

    per_g: float
    comes_up: float
    depth_mm: Range


class Kind(msgspec.Struct, frozen=True, kw_only=True):
    """One kind of a crop with every number joined: what a grower sows. `key` is "" for a crop without kinds."""

    crop: str
    key: str
    name: str  # printed: `winter lettuce`, `onion from sets`; `leek` for the kind that the bare name always means
    latin: str
    family: str
    germination: Germination | None
    tray: Tray | None
    drill: Drill | None
    setting: Setting | None
    usually: Raised
    cold: Cold
    windows: tuple[Window, ...]
    space: Space
    harvest: Harvest
    seed: Seed | None
    use: Literal["food", "green manure", "flowers"] = "food"
    dries_days: Range | None = None
    forces_days: Range | None = None  # lifted, then forced in the dark
    rests_days: Range | None = None  # from the end of it until the next crop is sown or planted
    after_it: str = ""  # what may follow, in words
    stands_years: Range | None = None  # a perennial: its bed does not come free when picking ends
    grows: Range | None = None  # between which temperatures it grows the faster the warmer, C
    bolts: tuple[Bolting, ...] = ()
    covers: dict[str, str] = {}  # fleece, mesh, net: when it is wanted, in words
    wants_glass: bool = False
    signs: dict[str, str] = {}
    cautions: dict[str, str] = {}
    sources: dict[str, tuple[str, ...]] = {}  # field as written in the file -> keys of sources.yaml


class Crop(msgspec.Struct, frozen=True, kw_only=True):
    """A crop file: its names, its kinds, and what its bare name means.

    `unnamed` is a kind's key, "ask", or "by date"; `unnamed_else` the kind taken by date when no window holds.
    """

    key: str
    names: tuple[str, ...]
    names_us: tuple[str, ...]
    latin: str
    family: str
    kinds: tuple[Kind, ...]
    unnamed: str = ""
    unnamed_else: str = ""


class Source(msgspec.Struct, frozen=True, kw_only=True):
    """Where a number is from."""

    key: str
    authors: str
    year: str
    title: str
    where: str
    seen: str
    doi: str = ""
    url: str = ""
