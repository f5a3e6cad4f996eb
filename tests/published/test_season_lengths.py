"""How long crops take, against published lengths.

Allen, R. G. and others (1998) Crop evapotranspiration, FAO Irrigation and Drainage Paper 56, table 11: lengths of
growing seasons, those of Europe, the Mediterranean, Idaho and continental climates planted in spring and autumn. Held
out: all of it, but for potatoes and dry beans, whose days were chosen with it in view.

Days to harvest: North Dakota State University H-912 (2010); Encyclopaedia Britannica, Vegetable farming; Jett, L. W.,
University of Missouri; Free, M. (1918) War Gardens; Colorado State University GardenNotes 720; University of Florida
SP 103; Start a Community Food Garden. Held out: the author that the kind's harvest names.
"""

from __future__ import annotations

from collections import Counter

from sowsheet.catalogue.records import Kind, Range
from sowsheet.schedule.records import Batch
from tests.made import catalogue, planned
from tests.published.held_out import Row, held_out
from tests.published.tables import rows

MONTHS = {"mar": "March", "apr": "April", "may": "May", "jun": "June", "nov": "November"}
LIKE_OURS = ("europe", "mediterranean", "continental", "idaho", "italy")
# Longer than printed, and why: the table's season ends with a field's one harvest.
PICKED_LONG = {
    "courgette": "picked until the frost",
    "beetroot": "pulled as wanted for weeks",
    "spring onion": "pulled as wanted for weeks",
    "broad bean": "planted young, so that the tray's weeks come off both ends",
}


def seasons() -> list[tuple[Batch, Row]]:
    """Each row for a place like ours, with a planting in its month that comes to a harvest."""
    found = []
    for row in rows("fao56_table11.csv"):
        if not any(name in row["region"] for name in LIKE_OURS) or row["crop"] not in catalogue().crops:
            continue
        for month in row["planted"].split():
            if month in MONTHS:
                dated, mistakes = planned(f"{row['crop']} 15 {MONTHS[month]}")
                codes = {doubt.code for doubt in dated.doubts}
                if not mistakes and not codes & {"too_late", "window_shut", "bolts", "meant_sown"}:
                    # a sunflower is cut in flower, and the table's stands until its seed is ripe
                    found += [(batch, row) for batch in dated.batches if batch.kind.use == "food"]
    return found


def test_a_season_is_as_long_as_the_table_says() -> None:
    asked, long = 0, set[str]()
    for batch, row in seasons():
        stages = batch.stages
        if stages.plant is None or stages.first_pick is None or stages.clear is None:
            continue
        first, all_of_it = ((when.day - stages.plant.day).days for when in (stages.first_pick, stages.clear))
        total = int(row["total"])
        assert first * 0.8 <= total <= all_of_it * 1.3, f"{batch.kind.name}: {first} to {all_of_it}, printed {row}"
        asked += 1
        if all_of_it > total * 1.28:
            long.add(batch.kind.crop)
    assert asked >= 20
    assert long <= set(PICKED_LONG), long


def own_days(kind: Kind, row: Row) -> Range | None:
    """The kind's days to the first pick, counted as the row counts them."""
    harvest = kind.harvest
    if row["from"].startswith("transplant"):
        return harvest.first_pick if kind.tray and isinstance(harvest.first_pick, Range) else None
    if row["from"] != "seed":
        return None
    if harvest.first_pick_direct is not None:
        return harvest.first_pick_direct
    return harvest.first_pick if kind.tray is None and kind.drill and isinstance(harvest.first_pick, Range) else None


def test_days_to_harvest_overlap_with_those_of_most_other_authors() -> None:
    """A kind outside most of what is printed for its crop is another sort of it: then one of its kinds fits."""
    agree, differ, crops = Counter[str](), Counter[str](), dict[str, str]()
    for kind, row in held_out("days_to_harvest.csv", "harvest.first pick", "harvest.first pick, sown direct"):
        own = own_days(kind, row)
        if own is None:
            continue
        low, high = float(row["days_low"]), float(row["days_high"])
        meets = own.high >= low * 0.85 and own.low <= high * 1.25  # a cool summer takes its time
        (agree if meets else differ)[kind.name] += 1
        crops[kind.name] = kind.crop
    assert agree.total() >= 60
    assert agree.total() >= 4 * differ.total()
    asked = {name for name in crops if agree[name] + differ[name] >= 2}
    fitting = {crops[name] for name in asked if agree[name] >= differ[name]}
    assert {crops[name] for name in asked} - fitting == set()
