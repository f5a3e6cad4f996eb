"""A garden's plan by hand, folded with plain loops: trays, moves, a shared tray, a bench that overflows.

The dates are invented; the sheets are tested against the records, not against a grower's year.
"""

from __future__ import annotations

import math
from datetime import date, timedelta
from fractions import Fraction

from sowsheet.catalogue.records import (
    Cold,
    Drill,
    Germination,
    Harvest,
    Kind,
    Move,
    Range,
    Seed,
    Setting,
    Space,
    Tray,
)
from sowsheet.garden.records import Bed, Garden, House, Place, Room, Site, TrayKind
from sowsheet.growth.when import When
from sowsheet.reading.mistakes import Spot
from sowsheet.schedule.records import Amount, Batch, BedPart, Cover, Schedule, StageKey, Stages, Stay
from sowsheet.site.climate import climate_of
from sowsheet.site.season import monday_of, season_mondays, season_of
from sowsheet.trays.records import PlaceWeek, SharedTray, Sowing, TrayPart, TrayPlan, TrayUse

YEAR = 2027
SPOT = Spot("garden.yaml", 1, 1)
SHELF, BENCH, YARD = "airing shelf", "glasshouse bench", "yard"
BEDS = ("North 1", "North 2", "North 3", "North 4", "South 1", "South 2", "South 3", "South 4", "Glass 1", "Glass 2")
TRAYS = (
    TrayKind("60-cell", 60, 53, 31, 30, 14),
    TrayKind("40-cell", 40, 53, 31, 60, 6),
    TrayKind("9 cm pots", 18, 53, 31, 360, 4),
    TrayKind("seed tray", 0, 37, 23, 0, 4),
)


def garden(*, work_days: frozenset[int] = frozenset({1, 5}), imperial: bool = False) -> Garden:
    """Ten beds, three places, two work days a week."""
    return Garden(
        name="Tern Hollow",
        season=YEAR,
        site=Site(52.4),
        places=(
            Place(SHELF, ("germinating",), Room(trays=6), held_at_c=20),
            Place(BENCH, ("growing on",), Room(trays=12), under="unheated glass"),
            Place(YARD, ("hardening off",), Room(trays=30), under="outdoors"),
        ),
        trays=TRAYS,
        beds=tuple(Bed(name, 600, 120, None, SPOT) for name in BEDS),
        also=(),
        work_days=work_days,
        house=House(),
        imperial=imperial,
    )


def day(text: str) -> date:
    """`3-15` as a day of the season's year; `2026-10-15` as it is."""
    parts = [int(p) for p in text.split("-")]
    return date(*parts) if len(parts) == 3 else date(YEAR, *parts)


def when(text: str, why: str = "") -> When | None:
    """A date that is sure."""
    if not text:
        return None
    on = day(text)
    return When(on, on, on, "handbook", why)


def kind(
    name: str,
    seeds: int = 1,
    plants: int = 1,
    gap: tuple[float, float] = (30, 30),
    *,
    key: str = "",
    up: str = "loops of stem show",
    plant: str = "the plug holds together when lifted by its leaves",
    pick: str = "full size",
    depth: float = 10,
    light: str = "",
    sown_in: str = "module",
    setting: Setting | None = None,
    drill: float = 0,
    dries: Range | None = None,
    cautions: dict[str, str] | None = None,
    covers: dict[str, str] | None = None,
) -> Kind:
    """A kind with the numbers that sheets and jobs print."""
    same = Range(1, 1, 1)
    seed = None if setting else Seed(300, 0.85, Range(depth, depth, depth))
    return Kind(
        crop=name,
        key=key,
        name=name,
        latin="",
        family="",
        germination=None if setting else Germination(((10, 9), (20, 5)), 5, 30, 15, 20, light),  # type: ignore[arg-type]
        tray=None
        if setting or drill
        else Tray(
            sown_in,  # type: ignore[arg-type]
            seeds,
            Range(plants, plants, plants),
            Range(15, 30, 40),
            Range(24, 28, 32),
            Range(10, 10, 10),
            Range(4, 4, 4),
            Move(same, Range(15, 30, 40)) if sown_in == "seed tray" else None,
        ),
        drill=Drill(Range(drill, drill, drill)) if drill else None,
        setting=setting,
        usually="set" if setting else "drill" if drill else "tray",
        cold=Cold(-4),
        windows=(),
        space=Space(Range(gap[1], gap[1], gap[1]), Range(gap[0], gap[0], gap[0])),
        harvest=Harvest("days", "planting", Range(50, 60, 70), "age", lasts_days=Range(7, 14, 21)),
        seed=seed,
        dries_days=dries,
        covers=covers or {},
        signs={
            "up": up,
            "plant": plant,
            "pick": pick,
            "prick out": "the first true leaf is as large as a lentil",
            "pot on": "roots show at the bottom of the cell",
        },
        cautions=cautions or {},
    )


def trays(
    name: str,
    of: Kind,
    bed: str,
    places: int,
    dates: str,
    *,
    tray: int = 60,
    word: str = "",
    note: str = "",
    maybe: bool = False,
    rank: str = "main",
    empty: str = "0",
    pot_on: str = "",
    prick_out: str = "",
    fleece: str = "",
    seed_trays: int = 0,
) -> Batch:
    """A batch raised in trays. `dates`: sown, up, to the light, hardened, planted, first pick, cleared."""
    sow, up, light, harden, plant, pick, clear = ([d.strip("-") for d in dates.split()] + [""] * 7)[:7]
    spare = Fraction(places, 10)
    cells = max(math.floor((places + spare) / (1 - Fraction(empty)) + Fraction(1, 2)), math.ceil(places + spare))
    number = seed_trays or math.ceil(cells / tray)
    sown_in = "seed tray" if seed_trays else f"{tray}-cell"
    raised = of.tray
    assert raised is not None
    seeds = math.ceil(cells / 0.85) if seed_trays else cells * raised.seeds_per_cell
    amount = Amount(
        places=places,
        unit="clumps" if raised.plants_per_cell.usual > 1 else "plants",
        rows=4 if places % 4 == 0 and bed else 0,
        per_row=places // 4 if places % 4 == 0 and bed else 0,
        length_m=6,
        spare=spare,
        empty=Fraction(empty),
        cells=cells,
        tray=sown_in,
        tray_cells=0 if seed_trays else tray,
        trays=number,
        left=0 if seed_trays else number * tray - cells,
        seeds=seeds,
    )
    moves: list[tuple[str, str, int]] = []
    if prick_out:
        moves.append(("prick_out", "60-cell", math.ceil(cells / 60)))
    if pot_on:
        moves.append(("pot_on", "9 cm pots", math.ceil(cells / 18)))
    stays: list[Stay] = []

    def stand(stage: StageKey, where: str, start: str, end: str, container: str, count: int) -> None:
        stays.append(
            Stay(
                batch=name,
                stage=stage,
                where=where,
                start=day(start),
                end=day(end),
                container=container,
                trays=count,
                maybe=maybe,
            )
        )

    stand("germinating", SHELF, sow, light, sown_in, number)
    edges = [(light, sown_in, number)]
    for (_, into, count), on in zip(moves, [d for d in (prick_out, pot_on) if d], strict=True):
        edges.append((on, into, count))
    for (start, container, count), (end, _, _) in zip(edges, [*edges[1:], (harden or plant, "", 0)], strict=True):
        stand("growing on", BENCH, start, end, container, count)
    if harden:
        stand("hardening off", YARD, harden, plant, *edges[-1][1:])
    part = BedPart(0, 600, 0, 120)
    if bed:
        in_bed = Stay(
            batch=name,
            stage="in the bed",
            where=bed,
            start=day(plant),
            end=day(clear) if clear else date(YEAR, 12, 31),
            part=part,
            rank=rank,  # type: ignore[arg-type]
            maybe=maybe,
        )
        stays.append(in_bed)
    ready = day(plant) - timedelta(days=3)
    return Batch(
        name=name,
        kind=of,
        raised="tray",
        bed=bed,
        stages=Stages(
            sow=when(sow),
            up=when(up),
            to_light=when(light),
            prick_out=when(prick_out),
            pot_on=when(pot_on),
            harden=when(harden),
            ready=When(ready, ready, ready, "handbook", ""),
            plant=when(plant) if bed else None,
            cover_on=when(plant) if fleece else None,
            cover_off=when(fleece),
            first_pick=when(pick),
            last_pick=when(clear),
            clear=when(clear),
        ),
        stays=tuple(stays),
        covers=(Cover(name, "fleece", day(plant), day(fleece), 6),) if fleece else (),
        amount=amount,
        route=(SHELF, BENCH, YARD),
        spot=SPOT,
        word=word,
        note=note,
        maybe=maybe,
        rank=rank,  # type: ignore[arg-type]
        part=part if bed else None,
        moved_into=tuple(moves),
    )


def in_bed(name: str, of: Kind, bed: str, places: int, dates: str, *, word: str = "", open_left: bool = False) -> Batch:
    """A batch drilled or set, or one that was there before. `dates`: into the bed, first pick, cleared."""
    plant, pick, clear = (dates.split() + [""] * 3)[:3]
    part = BedPart(0, 600, 0, 120)
    unit = of.setting.what if of.setting else "rows"
    amount = Amount(
        places=places,
        unit=unit,
        rows=4,
        per_row=places // 4,
        length_m=6,
        kg=places / 200 if of.setting else 0,
        seed_g=0 if of.setting else 6.4,
        seeds=0 if of.setting else 1920,
    )
    start = day(plant) if plant != "-" else date(YEAR, 1, 1)
    stay = Stay(batch=name, stage="in the bed", where=bed, start=start, end=day(clear), part=part)
    return Batch(
        name=name,
        kind=of,
        raised="set" if of.setting else "drill",
        bed=bed,
        stages=Stages(
            sow=when(plant) if plant != "-" and not of.setting else None,
            plant=when(plant) if plant != "-" else None,
            first_pick=when(pick) if pick != "-" else None,
            last_pick=when(clear),
            clear=when(clear),
        ),
        stays=(stay,),
        covers=(),
        amount=amount,
        route=(),
        spot=SPOT,
        word=word,
        part=part,
        open_left=open_left,
    )


LETTUCE = kind("lettuce", depth=5, pick="the heart is firm under the back of the hand", light="wanted")
ONION = kind("onion from seed", 5, 4, key="from seed", up="a white loop shows", plant="the clump lifts out whole")
BEETROOT = kind("beetroot", 4, 4, depth=20)
BEAN = kind("broad bean", 1, 1, (20, 45), depth=50, cautions={"sow": "Treated seed: wear gloves, follow the packet."})
PEA = kind("pea", 3, 3, (20, 60), depth=30)
TOMATO = kind("tomato", 1, 1, (50, 60), depth=10, plant="the first flower opens")
CELERIAC = kind("celeriac", 1, 1, (35, 35), light="wanted", sown_in="seed tray")
LEEK = kind("leek", 4, 3, (15, 30))
KALE = kind("kale", 1, 1, (45, 45))
CARROT = kind("carrot", drill=100, gap=(2.5, 25), depth=10)
CLOVES = Setting("cloves", Range(150, 200, 250), Range(8, 10, 12))
GARLIC = kind("garlic", setting=CLOVES, dries=Range(14, 21, 28), gap=(15, 25), pick="half of the leaves are yellow")
CHARD = kind("chard", drill=50, gap=(25, 30))
RADISH = kind("radish", 4, 4, (20, 20), depth=10)
SPINACH = kind("spinach", 3, 3, (20, 25), depth=15)
FENNEL = kind("fennel", 1, 1, (25, 30))
CORN_SALAD = kind("lamb's lettuce", 4, 4, (12, 15))


def batches() -> tuple[Batch, ...]:
    """Some twenty sowings, most of them in spring."""
    return (*_there(), *_spring(), *_summer())


def _there() -> tuple[Batch, ...]:
    return (
        in_bed("North 1 chard", CHARD, "North 1", 48, "- - 5-29", word="chard", open_left=True),
        in_bed("North 2 garlic", GARLIC, "North 2", 120, "2026-10-17 7-13 7-13", word="garlic"),
    )


def _spring() -> tuple[Batch, ...]:
    beans, oak = "2-9 2-16 2-16 3-6 3-13 6-19 7-3", "red oak leaf"
    onions, reds = "2-9 2-16 2-16 3-30 4-6 7-27 8-10", "2-20 2-23 2-23 3-23 3-30 5-29 6-12"
    toms, roots = "3-6 3-11 3-13 5-18 5-25 7-20 10-12", "3-9 3-20 3-20 5-22 6-1 10-12 11-13"
    gaps = "3-2 3-4 3-6 4-6 4-10 6-5 6-19"
    return (
        trays("South 1 onion", ONION, "South 1", 80, onions, word="onions from seed"),
        trays("North 3 broad bean", BEAN, "North 3", 72, beans, tray=40, fleece="4-17", word="broad beans"),
        trays("South 2 lettuce", LETTUCE, "South 2", 80, reds, fleece="5-4", empty="3/20", word="lettuce"),
        trays("Glass 1 radish", RADISH, "Glass 1", 100, "2-16 2-20 2-20 - 3-2 3-30 4-13", word="radish"),
        trays("South 3 beetroot", BEETROOT, "South 3", 136, "3-2 3-6 3-6 4-6 4-13 6-22 7-24", word="beetroot"),
        trays("North 2 lettuce", LETTUCE, "North 2", 22, gaps, rank="between", word="lettuce", note=oak),
        trays("South 4 pea", PEA, "South 4", 58, "3-2 3-6 3-6 3-27 4-6 6-15 7-6", tray=40, word="peas"),
        trays("Glass 2 tomato", TOMATO, "Glass 2", 24, toms, word="tomatoes", pot_on="3-30"),
        trays("North 4 celeriac", CELERIAC, "North 4", 68, roots, prick_out="4-3", seed_trays=1, word="celeriac"),
        trays("Glass 1 spinach", SPINACH, "Glass 1", 96, "3-13 3-18 3-20 4-10 4-17 5-18 6-8", word="spinach"),
        trays("lettuce 1", LETTUCE, "", 60, "3-13 3-16 3-16 4-6 4-20", word="lettuce"),
        trays("lettuce 2", LETTUCE, "", 60, "4-3 4-6 4-6 4-27 5-11", word="lettuce"),
    )


def _summer() -> tuple[Batch, ...]:
    salad = "8-21 8-24 8-24 9-14 9-18 11-2"
    return (
        trays("North 3 leek", LEEK, "North 3", 160, "4-13 4-20 4-20 6-29 7-6 11-2", word="leeks"),
        trays("South 4 kale", KALE, "South 4", 36, "5-29 6-1 6-1 6-29 7-6 9-18", word="kale"),
        in_bed("North 1 carrot", CARROT, "North 1", 960, "6-1 8-10 10-2", word="carrots"),
        trays("North 2 fennel", FENNEL, "North 2", 92, "6-8 6-12 6-12 7-10 7-13 9-28 10-23", word="fennel"),
        trays("South 1 spinach", SPINACH, "South 1", 120, "7-13 7-17 7-17 8-10 8-14 10-5 12-4", word="spinach"),
        trays("South 2 lamb's lettuce", CORN_SALAD, "South 2", 200, salad, maybe=True, word="lamb's lettuce"),
        trays("South 3 broad bean", BEAN, "South 3", 72, "10-26 11-2 11-2 11-16 11-23", tray=40, word="broad beans"),
    )


def tray_plan_of(plan: tuple[Batch, ...], place: Garden) -> TrayPlan:
    """Counted with plain loops. In week 9 the beetroot's last tray takes the lettuce for the gaps."""
    season = season_of(YEAR, 52.4)
    owner, guest = "South 3 beetroot", "North 2 lettuce"
    names = {b.name: b for b in plan}
    shared: tuple[SharedTray, ...] = ()
    if owner in names and guest in names:
        rest = names[owner].amount.cells % 60
        parts = (TrayPart(owner, rest, 4), TrayPart(guest, names[guest].amount.cells, 1))
        shared = (SharedTray(date(YEAR, 3, 1), owner, "60-cell", 60, parts),)
    sowings, stays = [], []
    for batch in plan:
        if batch.raised != "tray" or batch.stages.sow is None:
            continue
        alone = not (shared and batch.name == guest)
        on, sum_ = batch.stages.sow.day, batch.amount
        sowings.append(
            Sowing(
                batch.name,
                monday_of(on),
                on,
                SHELF,
                sum_.tray,
                sum_.trays if alone else 0,
                sum_.cells,
                math.ceil(sum_.places + sum_.spare),
                sum_.seeds,
                None if alone else owner,
                batch.maybe,
            )
        )
        stays += [s for s in batch.stays if s.container and alone]
    weeks = [
        week
        for where in place.places
        for monday in season_mondays(season)
        if (week := place_week(where.name, monday, where.room.trays, stays))
    ]
    uses = tuple(TrayUse(t.name, 0, date(YEAR, 4, 1), t.owned) for t in place.trays)
    return TrayPlan(season_mondays(season), tuple(sowings), shared, tuple(stays), tuple(weeks), uses)


def place_week(where: str, monday: date, room: int | None, stays: list[Stay]) -> PlaceWeek:
    """A place on its fullest day of a week."""
    days = [monday + timedelta(days=n) for n in range(7)]
    here = [s for s in stays if s.where == where]

    def there(on: date, maybe: bool) -> list[Stay]:
        return [s for s in here if s.start <= on < s.end and s.maybe == maybe]

    fullest = max(days, key=lambda d: sum(s.trays for s in there(d, False)))
    standing = there(fullest, False)
    count = sum(s.trays for s in standing)

    def waits(stay: Stay) -> bool:
        return stay.stage == "hardening off"

    return PlaceWeek(
        where,
        monday,
        count,
        room,
        count / room if room else 0.0,
        max(sum(s.trays for s in there(d, True)) for d in days),
        sum(s.trays for s in standing if waits(s)),
        sum(s.trays for s in standing if s.start >= monday and not waits(s)),
    )


def sample(place: Garden | None = None) -> tuple[Schedule, TrayPlan, Garden]:
    """The plan, its trays and its garden."""
    where = place or garden()
    plan = batches()
    return Schedule(season_of(YEAR, 52.4), climate_of(where), plan, (), (), ()), tray_plan_of(plan, where), where
