"""Frost dates from daily records against three answers worked out by others.

Sources, with their licences, in `data/README.md`: every year's last and first night of three stations by xclim 0.62.0
(events at or below 0, -2 and 2 C); the published example of the USDA-NRCS frost-free days, with its own rule; NOAA's
1981-2010 normals for Clemson. Held out: everything; no number here was fitted.
"""

from __future__ import annotations

from datetime import date, timedelta
from functools import cache

import pytest

from sowsheet.reading.mistakes import Mistake
from sowsheet.site.frosts import (
    Span,
    complete,
    first_event,
    frosts,
    is_south,
    last_event,
    month_day,
    watched_years,
)
from sowsheet.site.quantile import quantile
from sowsheet.site.record import Record, read_record
from sowsheet.words.language import language_of
from tests.published.tables import rows

STATIONS = ("brussels", "champion", "cordoba")
THRESHOLDS = (0.0, -2.0, 2.0)


def nights(name: str) -> list[tuple[date, str]]:
    """Days and minima, as text, of a table with a row a month."""
    found = []
    for row in rows(f"daily_min_{name}.csv"):
        first = date.fromisoformat(f"{row['month']}-01")
        values = enumerate(row["minima"].split())
        found += [(first + timedelta(days=n), value) for n, value in values if value != "-"]
    return found


@cache
def record(name: str, unit: str = "C") -> Record:
    """A station's record, read as a grower's CSV would be."""
    mistakes: list[Mistake] = []
    noticed: list[str] = []
    text = "\n".join([f"date,tmin ({unit})", *(f"{day},{value}" for day, value in nights(name))])
    found = read_record(text, name, language_of("en"), mistakes, noticed)
    assert found is not None, mistakes
    assert not any("left out" in said for said in noticed), noticed
    return found


@pytest.mark.parametrize("threshold", THRESHOLDS)
@pytest.mark.parametrize("station", STATIONS)
def test_every_year_of_three_stations(station: str, threshold: float) -> None:
    south = is_south(record(station))
    assert south is (station == "cordoba")
    found = frosts(record(station), threshold, south)
    assert not found.winters
    told = [(e.year, str(e.day or ""), str(f.day or "")) for e, f in zip(found.last, found.first, strict=True)]
    known = [r for r in rows("frost_dates.csv") if r["station"] == station and float(r["threshold_c"]) == threshold]
    assert told == [(int(r["year"]), r["last_spring"], r["first_autumn"]) for r in known]
    assert list(found.lengths) == [int(r["season_days"]) for r in known if r["season_days"]]


@pytest.mark.parametrize("row", rows("frost_quantiles.csv"), ids=lambda r: "{station} {threshold_c} {what}".format(**r))
def test_quantiles_of_three_stations(row: dict[str, str]) -> None:
    found = frosts(record(row["station"]), float(row["threshold_c"]), row["station"] == "cordoba")
    chances = (("p10", 0.1), ("p50", 0.5), ("p90", 0.9))
    if row["what"] == "season_days":
        assert len(found.lengths) == int(row["n_with_event"])
        for key, chance in chances:
            assert quantile(found.lengths, chance) == pytest.approx(float(row[key]), abs=0.06)
        return
    spread = found.last_spring if row["what"] == "last_spring" else found.first_autumn
    assert (spread.years, len(spread.days)) == (int(row["n_seasons"]), int(row["n_with_event"]))
    year_later = 365 if row["station"] == "cordoba" and row["what"] == "first_autumn" else 0
    for key, chance in chances:
        number = spread.at(chance)
        assert number is not None
        assert number - year_later == pytest.approx(float(row[key]), abs=0.06)
        assert month_day(number) == tuple(int(part) for part in row[f"{key}_mmdd"].split("-"))


def nrcs() -> dict[tuple[str, str], int]:
    """The NRCS figures by its rule: below 32 F, spring days 1 to 182, autumn 213 to 366 of a year that has 165 minima
    in days 1 to 182 and as many after; type 7; halves rounded to even, as R does; the season of two quantiles."""
    days = nights("highland_meadows_f")
    known = Record(
        "highland meadows",
        tuple(day for day, _ in days),
        tuple((float(f) - 32) * 5 / 9 for _, f in days),
        tuple(float("nan") for _ in days),
    )

    def part(year: int, first: int, last: int) -> Span:
        start, end = date(year, 1, 1) + timedelta(days=first - 1), date(year, 1, 1) + timedelta(days=last - 1)
        return Span(start, min(end, date(year, 12, 31)))

    def whole(span: Span) -> bool:
        return complete(known, span, most_missing=(span.last - span.first).days + 1 - 165)

    years = [
        y for y in range(days[0][0].year, days[-1][0].year + 1) if whole(part(y, 1, 182)) and whole(part(y, 183, 366))
    ]
    lasts = [last_event(known, part(y, 1, 182), lambda low: low < 0) for y in years]
    firsts = [first_event(known, part(y, 213, 366), lambda low: low < 0) for y in years]
    last = [day.timetuple().tm_yday for day in lasts if day]
    first = [day.timetuple().tm_yday for day in firsts if day]
    found = {("n_years", ""): len(years)}
    for percent in (50, 80, 90):
        spring, fall = quantile(last, percent / 100), quantile(first, 1 - percent / 100)
        found["spring", str(percent)] = round(spring)
        found["fall", str(percent)] = round(fall)
        found["frost_free_days", str(percent)] = round(fall - spring)
    return found


@pytest.mark.parametrize("row", rows("frost_nrcs.csv"), ids=lambda r: "{what} {confidence_pct}".format(**r))
def test_the_nrcs_example(row: dict[str, str]) -> None:
    assert nrcs()[row["what"], row["confidence_pct"]] == int(row["day_or_days"])


# NOAA resamples the years and the days around each date; plain quantiles of the same record come no nearer than this.
NEAR_DAYS = {"p50": 3, "p90": 6}


@pytest.mark.parametrize("row", rows("frost_noaa_clemson.csv"), ids=lambda r: r["statistic"])
def test_noaa_normals_of_clemson(row: dict[str, str]) -> None:
    known = record("clemson_f", "F")
    assert len(watched_years(known, south=False)) >= 28
    found = frosts(known, 0.0, south=False)
    what, chance = row["statistic"].split("-")[2], row["statistic"][-3:]
    near = NEAR_DAYS[chance]
    if what == "prbgsl":  # so long or longer
        assert quantile(found.lengths, 0.5 if chance == "p50" else 0.1) == pytest.approx(float(row["value"]), abs=near)
        return
    month, day = (int(part) for part in row["value"].split("/"))
    number = date(2001, month, day).timetuple().tm_yday
    if what == "prblst":  # on the date or later
        told = found.last_spring.at(0.5 if chance == "p50" else 0.1)
    else:  # on the date or earlier
        told = found.first_autumn.at(0.5 if chance == "p50" else 0.9)
    assert told == pytest.approx(number, abs=near)
