"""A plan through the years of a made record: what is too cold, too late or missing is counted as it was put there."""

from __future__ import annotations

import math
from collections.abc import Iterable
from datetime import date, timedelta

import msgspec

from sowsheet.schedule.plan import schedule
from sowsheet.schedule.records import Schedule
from sowsheet.schedule.replay import Replayed, replay
from sowsheet.site.record import Record
from sowsheet.site.weather import Weather
from tests.made import NORTH, catalogue, garden

YEARS = range(2001, 2013)


def _record(warmer_c: dict[int, float] | None = None, cold: Iterable[date] = (), without: Iterable[int] = ()) -> Record:
    """Twelve like years, mild in winter; some of them warmer all year, some days with a hard night."""
    days = [date(YEARS[0], 1, 1) + timedelta(days=n) for n in range(len(YEARS) * 365 + 3)]
    days = [d for d in days if d.year not in set(without)]
    cold = set(cold)
    low, high = [], []
    for day in days:
        mean = 10.5 - 7.5 * math.cos(2 * math.pi * (day.timetuple().tm_yday - 20) / 365)
        mean += (warmer_c or {}).get(day.year, 0.0)
        low.append(-15.0 if day in cold else mean - 4.0)
        high.append(mean + 4.0)
    return Record("made.csv", tuple(days), tuple(low), tuple(high))


def _through(words: str, record: Record) -> tuple[Schedule, Replayed]:
    made = garden(words, mistakes=[], site=NORTH)
    dated, mistakes = schedule(made, catalogue().crop, weather=Weather(record))
    assert not mistakes
    return dated, replay(made, dated)[0]


def test_like_years_do_not_wander() -> None:
    dated, found = _through("headed lettuce 6 April", _record())
    pick = dated.batches[0].stages.first_pick
    assert found.years == len(YEARS)
    assert found.first_pick is not None
    assert pick is not None
    assert found.first_pick.early == found.first_pick.middle
    assert (found.first_pick.late - found.first_pick.early).days <= 1
    assert abs((found.first_pick.middle - pick.day).days) <= 2


def test_warm_years_bring_it_forward() -> None:
    dated, found = _through("headed lettuce 6 April", _record({2003: 3.0, 2007: 3.0, 2009: 3.0}))
    assert found.first_pick is not None
    assert (found.first_pick.middle - found.first_pick.early).days > 7
    assert (found.first_pick.late - found.first_pick.middle).days <= 2
    assert dated.batches[0].stages.first_pick is not None


def test_years_with_a_night_too_cold_are_counted_where_it_stood() -> None:
    """On 28 March the plants are in their trays, on 20 May in the bed, on 1 February not yet sown."""
    cold = (date(2002, 3, 28), date(2004, 5, 20), date(2006, 5, 20), date(2008, 2, 1))
    _, found = _through("headed lettuce 6 April", _record(cold=cold))
    assert (found.bench_cold, found.bed_cold) == (1, 2)


def test_years_that_lack_their_days_do_not_count() -> None:
    _, found = _through("headed lettuce 6 April", _record(without=(2005, 2006)))
    assert found.years == len(YEARS) - 2


def test_what_the_year_brings_has_no_spread() -> None:
    _, found = _through("garlic 20 October", _record())
    assert found.first_pick is None
    assert found.ready is None
    assert found.bench_cold is None


def test_without_a_record_there_is_nothing_to_run_through() -> None:
    record = _record()
    blank = msgspec.structs.replace(record, max_c=tuple(math.nan for _ in record.days))
    made = garden("headed lettuce 6 April", mistakes=[], site=NORTH)
    dated, _ = schedule(made, catalogue().crop, weather=Weather(blank))
    assert dated.climate.outside is None
    assert replay(made, dated) == ()
