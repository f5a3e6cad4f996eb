"""The growth clock against published durations, each row marked by whether its entry rests on its source.

Nothing was fitted here. `off_pct` in each table is how far off the clock was when the row was written, in per cent of
the middle of what is printed (more than 0: the clock is slower); a row may not get worse by more than `SLACK`. Held
out: every row whose source the kind's days do not name, and that the share of light was not fitted to (lettuce, 1988).
The temperatures are those of a place like the source's, not of its trials (data/README.md).

- `dated`: Wurr, Fellows & Suckling (1988), Journal of Agricultural Science 111, 481-486 (abstract: 589 effective
  day-degrees; days at two dates as in test_clock_at_two_dates; fitted); Wurr, Fellows & Hiron, the same journal, on
  cauliflowers (abstract; the entry's days rest on it); Industrieverband Agrar on courgettes, Gartenfreund on runner
  beans, Agrarforschung Schweiz (2002) on fennel (all named by their entries); Gatter & McKee (2010) How to Grow Food
  in Your Polytunnel, on pak choi at two times of the year (held out).
- `high plains`: North Dakota State University H-912 (2010); Colorado State University GardenNotes 720; Jett, L. W.,
  University of Missouri; University of Illinois Extension, Illinois Vegetable Garden Guide. Hotter summers than ours.
- `fao-56`: Allen and others (1998), table 11, from the beginning of the late season to its end. Held out but for
  potatoes and dry beans.
- Day-degrees: Oregon State University (1969), bulletin XVIII 3 (French bean, the entry's days rest on it); University
  of Delaware, Weekly Crop Update (2025) (earliest peas: ours are later sorts); FAO AquaCrop's default crops as in its
  Python package 3.1.0 (potato, dry bean); WOFOST crop files, Wageningen (late potatoes, onion), each with AquaCrop's
  or its own emergence added. Suspect sums of tomato, sweet corn and carrot are not used.
- Raising: Ernest, E., University of Delaware (`udel`), and Utah State University Extension (`usu-transplants`): weeks
  from sowing, with the day and night temperatures of the house. Onions are left out, theirs are singles raised until
  thick as a pencil, and so are kinds for autumn and winter.

Where a base and an upper temperature are published by the same source as a sum (AquaCrop: potato, dry bean; Delaware:
pea), the entry has them too (`grows`): the sum is held out, the range is not.

What came out, as root mean squares of the relative error. Outdoors, held out: 23 % over 49 rows (handbook days 28);
cool crops 22 % (29), warm crops 24 % (21), which the clock hurries too much in a hot summer. The authors of one region
differ by 8 % among themselves, and one kind about its own mean misses by 17 % (21). Day-degrees 18 %: potatoes slow,
beans and onions fast. The aim of 12 % is not met by rows that were held out. In heated houses 26 % held out
(handbook days 33; the aim is 20), 13 % where the entry names the source.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable
from datetime import date, timedelta
from functools import cache
from itertools import combinations
from statistics import fmean
from typing import cast

import msgspec
import pytest

from sowsheet.catalogue.records import Kind, Raised, Range
from sowsheet.garden.records import GLASS, Monthly, Place, Room
from sowsheet.growth.degree_days import mean_then_base
from sowsheet.growth.emergence import days_at
from sowsheet.growth.handbook import Handbook
from sowsheet.growth.needs import is_warm
from sowsheet.growth.warmth import Warmth
from sowsheet.site.climate import climate_of
from sowsheet.site.daily import day_number
from sowsheet.words.language import language_of
from tests.made import NORTH, catalogue, garden
from tests.published.held_out import Row, number
from tests.published.tables import rows

SLACK = 0.04
FITTED = {"wurr-1988"}  # what the share of light was fitted to
UP = date(2027, 3, 15)
MONTHS = ("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec")
ENTRY_DAYS = ("harvest.first pick", "harvest.first pick, sown direct")
# How far apart the shortening of a later or warmer sowing may be: root mean square of the logarithm of the ratio.
RESPONSE_WITHIN = {
    "French bean drying": 0.16,
    "French bean dwarf": 0.12,
    "onion from seed": 0.08,
    "pea mangetout": 0.2,
    "pea shelling": 0.16,
    "potato maincrop": 0.06,
}
# Rows of FAO-56's table 11 whose first pick does not fall inside the printed lengths, and why.
FIELD = "a field's sorts, cut once and large, where a garden's are picked young"
MILD_WINTER = "an autumn planting of other sorts: in a mild winter warmth alone would have ours heading by February"
LONG_DAYS = "bulbs wait for long days, which the clock does not count"
HOT = "days lived in a cool summer, summed above a low base: in a hot one they come together too soon"
OUTSIDE_FAO = {
    ("cabbage", "tunis", "2-15"): FIELD,
    ("cabbage", "tunis", "4-15"): FIELD,
    ("cabbage", "tunis", "10-31"): MILD_WINTER,
    ("beetroot", "tunis", "3-1"): FIELD,
    ("beetroot", "tunis", "4-30"): FIELD,
    ("pea", "brussels", "5-1"): "a first picking; the printed length is that of a field cut once",
    ("lettuce", "tunis", "4-15"): FIELD,
    ("lettuce", "tunis", "12-15"): FIELD,
    ("spinach", "tunis", "4-15"): FIELD,
    ("spinach", "tunis", "9-30"): FIELD,
    ("carrot", "tunis", "3-1"): HOT,
    ("onion", "tunis", "4-15"): LONG_DAYS,
    ("pea", "tunis", "3-31"): HOT,
    ("pea", "champion", "4-15"): HOT,
    ("broad bean", "tunis", "3-31"): HOT,
    ("French bean", "tunis", "3-1"): HOT,
    ("sweet corn", "tunis", "5-31"): HOT,
    ("sweet corn", "champion", "4-25"): HOT,
    ("potato", "champion", "4-30"): "the longest-standing sorts of Idaho; the same crop's other row there fits",
    ("French bean", "champion", "5-31"): HOT,
    ("French bean", "champion", "6-15"): HOT,
}
Measured = Callable[[Row], float]  # the relative error of one row


@cache
def clock_at(site: str) -> Warmth:
    """The clock at a place of growth_sites.csv."""
    of = {row["which"]: row for row in rows("growth_sites.csv") if row["site"] == site}
    low, high = (tuple(float(of[which][month]) for month in MONTHS) for which in ("min_c", "max_c"))
    latitude = float(of["min_c"]["latitude"])
    here = msgspec.structs.replace(NORTH, latitude=latitude, monthly=Monthly(low, high))
    climate = climate_of(garden("leeks", mistakes=[], site=here))
    return Warmth(Handbook(climate, language_of("en")), date(2027, 1, 1))


def kind_of(row: Row) -> Kind:
    return next(k for k in catalogue().crop(row["crop"]).kinds if k.key == row["kind"])


def start_of(row: Row) -> date:
    month, day = row["start"].split("-")
    return date(2027, int(month), int(day))


def clock_days(row: Row) -> int:
    start = start_of(row)
    found = clock_at(row["site"]).first_pick(
        kind_of(row), cast("Raised", row["raised"]), start, start, GLASS if row.get("under") else ""
    )
    assert found is not None, row
    return (found.day - start).days


def handbook_days(row: Row) -> float:
    harvest = kind_of(row).harvest
    days = harvest.first_pick
    if row["raised"] == "drill" and harvest.first_pick_direct is not None:
        days = harvest.first_pick_direct
    assert isinstance(days, Range)
    return days.usual


def printed_days(row: Row) -> float:
    """The middle of what is printed."""
    low, high = number(row, "days_low"), number(row, "days_high", "days_low")
    assert low is not None
    assert high is not None
    return (low + high) / 2


def is_held_out(row: Row, *fields: str) -> bool:
    taken = {key for field in fields for key in kind_of(row).sources.get(field, ())}
    return row["source"] not in taken | FITTED


def days_by_day_degrees(row: Row) -> int:
    """The days in which a place gathers the middle of the printed day-degrees, counted as the source counts them."""
    base, upper, low, high = (float(row[c]) for c in ("base_c", "upper_c", "day_degrees_low", "day_degrees_high"))
    start, gathered = start_of(row), 0.0
    outside = clock_at(row["site"]).handbook.climate.air_in("")
    for n in range(500):
        if gathered >= (low + high) / 2:
            return n
        coldest, warmest, _ = outside.day(day_number(start + timedelta(days=n)))
        gathered += mean_then_base(min(coldest, upper), min(warmest, upper), base)
    raise AssertionError(f"not reached: {row}")


def root_mean_square(errors: Iterable[float]) -> float:
    found = list(errors)
    return math.sqrt(sum(e * e for e in found) / len(found))


def in_bed(row: Row) -> float:
    return clock_days(row) / printed_days(row) - 1


def by_handbook(row: Row) -> float:
    return handbook_days(row) / printed_days(row) - 1


def by_day_degrees(row: Row) -> float:
    return clock_days(row) / days_by_day_degrees(row) - 1


def in_tray(row: Row) -> float:
    """From sowing to planting in a house held at the printed temperatures."""
    kind = kind_of(row)
    day, night, warm = (float(row[c]) for c in ("day_c", "night_c", "germinated_c"))
    house = Place(
        "house", ("growing on",), Room(trays=9), under="unheated glass", monthly=Monthly((night,) * 12, (day,) * 12)
    )
    assert kind.germination is not None
    emerges = next(days for c in range(round(warm), 10, -1) if (days := days_at(kind.germination, c)))
    growing = (clock_at("champion").ready(kind, UP, house).day - UP).days
    return (emerges + growing) / (7 * (float(row["weeks_low"]) + float(row["weeks_high"])) / 2) - 1


@pytest.mark.parametrize(
    ("table", "measured"),
    [("growth_durations.csv", in_bed), ("growth_day_degrees.csv", by_day_degrees), ("growth_raising.csv", in_tray)],
)
def test_no_row_is_further_off_than_it_was(table: str, measured: Measured) -> None:
    worse = {
        f"{row['crop']} {row['kind']}, {row['source']}": f"{measured(row):+.0%}, was {row['off_pct']} %"
        for row in rows(table)
        if abs(measured(row)) > abs(float(row["off_pct"])) / 100 + SLACK
    }
    assert worse == {}


def test_season_lengths_of_fao_56() -> None:
    """Inside the printed lengths, or the difference explained; in a cool place all but peas fit."""
    found = [row for row in rows("growth_durations.csv") if row["group"] == "fao-56"]
    outside = [row for row in found if not float(row["days_low"]) <= clock_days(row) <= float(row["days_high"])]
    assert {(row["crop"], row["site"], row["start"]) for row in outside} == set(OUTSIDE_FAO)
    assert len(found) >= 25
    assert [row["crop"] for row in outside if row["site"] == "brussels"] == ["pea"]


def outdoors(warm: bool, held: bool) -> list[Row]:
    return [
        row
        for row in rows("growth_durations.csv")
        if is_warm(kind_of(row)) == warm and is_held_out(row, *ENTRY_DAYS) == held
    ]


def test_cool_crops_are_nearer_by_the_clock_than_by_handbook_days() -> None:
    found = outdoors(warm=False, held=True)
    assert len(found) >= 40
    clock, handbook = (root_mean_square(map(way, found)) for way in (in_bed, by_handbook))
    assert clock <= 0.23
    assert clock < 0.8 * handbook


def about_its_mean(found: list[Row], way: Measured) -> float:
    """The scatter of each kind about its own mean: what is left when all of its days may be longer or shorter."""
    kinds: dict[tuple[str, str], list[float]] = {}
    for row in found:
        kinds.setdefault((row["crop"], row["kind"]), []).append(math.log1p(way(row)))
    several = [logs for logs in kinds.values() if len(logs) > 1]
    squares = sum((log - fmean(logs)) ** 2 for logs in several for log in logs)
    return math.sqrt(squares / sum(len(logs) - 1 for logs in several))


def test_one_kind_in_several_places_and_months_scatters_less_by_the_clock() -> None:
    found = rows("growth_durations.csv")
    assert about_its_mean(found, in_bed) <= 0.19
    assert about_its_mean(found, in_bed) < 0.9 * about_its_mean(found, by_handbook)


def test_warm_crops_are_hurried_too_much_in_a_hot_summer() -> None:
    """24 % against 21 by handbook days: their days were lived at home, and bases of 7 to 10 C are steep."""
    found = outdoors(warm=True, held=True)
    assert len(found) >= 6
    assert root_mean_square(map(in_bed, found)) <= 0.26
    assert root_mean_square(map(by_handbook, found)) <= 0.23


def test_what_the_entries_rest_on() -> None:
    """No proof: other weather than the entry's days were chosen for is all that was held out."""
    assert root_mean_square(map(in_bed, outdoors(warm=False, held=False))) <= 0.16
    assert root_mean_square(map(in_bed, outdoors(warm=True, held=False))) <= 0.31


def test_day_degrees() -> None:
    """Of dry beans the published sum is never gathered in a cool summer: asked on the high plains alone."""
    assert root_mean_square(map(by_day_degrees, rows("growth_day_degrees.csv"))) <= 0.2


def test_later_sowings_are_shortened_as_much_as_by_published_day_degrees() -> None:
    """How days answer to warmth, whatever the sort: two sowings and two climates, each against each."""
    misses: dict[str, list[float]] = {}
    for one, other in combinations(rows("growth_day_degrees.csv"), 2):
        if all(one[c] == other[c] for c in ("crop", "kind", "base_c", "day_degrees_low")):
            clock = clock_days(one) / clock_days(other)
            miss = math.log(clock * days_by_day_degrees(other) / days_by_day_degrees(one))
            misses.setdefault(f"{one['crop']} {one['kind']}".strip(), []).append(miss)
    worst = {name: round(root_mean_square(found), 2) for name, found in misses.items()}
    assert worst.keys() == RESPONSE_WITHIN.keys()
    assert all(miss <= RESPONSE_WITHIN[name] for name, miss in worst.items()), worst


def test_raising_in_a_heated_house() -> None:
    """Brassicas go out smaller here than there: four weeks or five, not six or seven."""
    found = rows("growth_raising.csv")
    held = [row for row in found if is_held_out(row, "tray.up to planting")]
    named = [row for row in found if row not in held]
    assert len(held) >= 8
    assert root_mean_square(map(in_tray, held)) <= 0.28
    assert root_mean_square(map(in_tray, named)) <= 0.15
