"""The growth clock against published durations at several times of year, held out as each line says.

- Crisp lettuce at 51.5 N: about 45 days from a mid-June planting, about 70 from late March. Wurr, Fellows & Suckling
  (1988), Journal of Agricultural Science 111, 481-486 (abstract read). The share of light f was fitted to the two and
  to the sum that the entry rests on too: nothing is held out.
- French beans, sown direct: 444 to 644 day-degrees above 10 C from sowing to harvest, over four years and many sowings.
  Oregon State University (1969), Oregon Vegetable Crops bulletin XVIII 3. The entry's days rest on that bulletin too
  (64 to 84, and North Dakota's); held out are its day-degrees, and that they are the same whenever they are sown. A
  first picking comes before a harvest for the cannery, so up to a quarter less is allowed.
- Peas: 694 day-degrees above 4.4 C for the earliest sorts. University of Delaware, Weekly Crop Update (2025). Later
  sorts need more, and a first picking by hand comes before a vining harvest: from a sixth less to a third more.

The temperatures are those of the reference garden, not those of the trials: how far off each is, is told by the bounds.
"""

from __future__ import annotations

from datetime import date, timedelta

import msgspec
import pytest

from sowsheet.catalogue.records import Kind, Raised
from sowsheet.growth.handbook import Handbook
from sowsheet.growth.needs import REFERENCE_MONTHLY
from sowsheet.growth.warmth import Warmth
from sowsheet.site.climate import climate_of
from sowsheet.site.daily import day_number
from sowsheet.words.language import language_of
from tests.made import NORTH, catalogue, garden


def _clock(latitude: float) -> Warmth:
    site = msgspec.structs.replace(NORTH, latitude=latitude, monthly=REFERENCE_MONTHLY)
    climate = climate_of(garden("leeks", mistakes=[], site=site))
    return Warmth(Handbook(climate, language_of("en")), date(2027, 1, 1))


CLOCK = _clock(51.5)


def _kind(crop: str, key: str) -> Kind:
    return next(k for k in catalogue().crop(crop).kinds if key in (k.key, ""))


def _days(kind: Kind, raised: Raised, start: date) -> int:
    found = CLOCK.first_pick(kind, raised, start, start)
    assert found is not None
    return (found.day - start).days


def _simple_day_degrees(start: date, days: int, base_c: float) -> float:
    """Counted as the sources do: each day's mean less the base."""
    airs = (CLOCK.handbook.climate.air_in("").day(day_number(start + timedelta(days=n))) for n in range(days))
    return sum(max(0.0, (low + high) / 2 - base_c) for low, high, _ in airs)


def test_crisp_lettuce_in_late_march_and_mid_june() -> None:
    """No proof: the sum and the share of light are from the same abstract."""
    headed = _kind("lettuce", "headed")
    spring, summer = (_days(headed, "tray", date(2027, month, day)) for month, day in ((3, 25), (6, 15)))
    assert spring == pytest.approx(70, rel=0.04)
    assert summer == pytest.approx(45, rel=0.04)
    assert spring / summer == pytest.approx(70 / 45, rel=0.08)


@pytest.mark.parametrize("sown", [date(2027, 5, 10), date(2027, 5, 25), date(2027, 6, 10), date(2027, 7, 1)])
def test_french_beans_take_the_same_warmth_whenever_they_are_sown(sown: date) -> None:
    bean = catalogue().crop("French bean").kinds[0]
    days = _days(bean, "drill", sown)
    assert 0.75 * 444 <= _simple_day_degrees(sown, days, 10.0) <= 644


@pytest.mark.parametrize("sown", [date(2027, 3, 15), date(2027, 4, 15), date(2027, 5, 15)])
def test_peas_take_no_less_than_the_earliest_and_little_more(sown: date) -> None:
    for key in ("shelling", "mangetout"):
        days = _days(_kind("pea", key), "drill", sown)
        assert 0.85 * 694 <= _simple_day_degrees(sown, days, 4.4) <= 1.33 * 694
