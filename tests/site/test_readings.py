"""A place's own thermometer, day by day: it overrules what is reckoned of the place."""

from __future__ import annotations

from datetime import date, timedelta
from pathlib import Path

import msgspec
import pytest
from typer.testing import CliRunner

from sowsheet.cli.app import app
from sowsheet.garden.records import Place, Room, Shelter, WeatherFile
from sowsheet.growth.handbook import Handbook
from sowsheet.growth.warmth import Warmth
from sowsheet.reading.mistakes import Spot
from sowsheet.schedule.plan import schedule
from sowsheet.site.climate import Climate, climate_of, place_mean_c
from sowsheet.site.record import Record
from sowsheet.site.weather import Weather
from sowsheet.words.language import language_of
from tests import in_english
from tests.garden.files import read_text, refused, sound, text_of
from tests.made import catalogue, garden
from tests.test_slip import WARM_AND_COLD

FILE = WeatherFile(Path("bench.csv"), Spot("garden.yaml", 1, 1))
BENCH = Place("bench", ("growing on",), Room(), under="unheated glass")
READ = msgspec.structs.replace(BENCH, readings=FILE)
YARD = Place("yard", ("hardening off",), Room(), under="outdoors")
SHELF = Place("shelf", ("germinating",), Room(), held_at_c=20.0)
LETTUCE = next(k for k in catalogue().crop("lettuce").kinds if k.key == "headed")


def _read(first: date, days: int, low: float, high: float) -> Record:
    every = tuple(first + timedelta(days=n) for n in range(days))
    return Record("bench.csv", every, (low,) * days, (high,) * days)


def _climate(inside: Record | None = None, outdoors: Record | None = None) -> Climate:
    made = garden("leeks", mistakes=[], site=WARM_AND_COLD, places=(SHELF, READ, YARD))
    places = () if inside is None else (("bench", inside),)
    return climate_of(made, Weather(this_year=outdoors, places=places))


def test_days_that_were_read_are_as_they_were_read_and_others_as_reckoned() -> None:
    climate = _climate(_read(date(2026, 4, 1), 30, 2.0, 10.0))
    april, may = date(2027, 4, 10), date(2027, 5, 10)
    assert place_mean_c(climate, READ, april) == pytest.approx(6.0)
    assert place_mean_c(climate, BENCH, may) == place_mean_c(climate, READ, may)
    assert place_mean_c(climate, READ, may) != pytest.approx(6.0)


def test_years_of_readings_are_averaged_for_a_year_that_was_not_read_and_kept_in_their_own() -> None:
    cool, warm = _read(date(2025, 4, 1), 30, 2.0, 10.0), _read(date(2026, 4, 1), 30, 6.0, 18.0)
    both = Record("bench.csv", cool.days + warm.days, cool.min_c + warm.min_c, cool.max_c + warm.max_c)
    climate = _climate(both)
    found = [place_mean_c(climate, READ, date(year, 4, 10)) for year in (2025, 2026, 2027)]
    assert found == pytest.approx([6.0, 12.0, 9.0])


def test_a_colder_house_raises_its_trays_more_slowly() -> None:
    def ready(climate: Climate) -> date:
        return Warmth(Handbook(climate, language_of("en")), date(2027, 1, 1)).ready(LETTUCE, date(2027, 3, 1), READ).day

    reckoned = ready(_climate())
    cold = ready(_climate(_read(date(2026, 2, 20), 80, 2.0, 9.0)))
    warm = ready(_climate(_read(date(2026, 2, 20), 80, 10.0, 22.0)))
    assert warm < reckoned < cold


def test_cold_nights_are_as_much_warmer_as_nine_in_ten_were() -> None:
    """Twenty nights at 0 C outdoors: 4 C inside on sixteen, 2 C on four, of which two lie below the tenth."""
    outdoors = _read(date(2027, 1, 1), 20, 0.0, 6.0)
    inside = Record("bench.csv", outdoors.days, (4.0,) * 16 + (2.0,) * 4, (15.0,) * 20)
    assert _climate(inside, outdoors).warmer_nights_c(READ) == pytest.approx(2.0)
    assert _climate(inside, outdoors).warmer_nights_c(BENCH) == pytest.approx(2.0)  # by its name
    assert _climate(inside, outdoors).warmer_nights_c(YARD) == 0.0
    once = Record("bench.csv", outdoors.days, (4.0,) * 19 + (2.0,), (15.0,) * 20)
    assert _climate(once, outdoors).warmer_nights_c(READ) == pytest.approx(4.0)


def test_mild_nights_and_few_nights_tell_nothing_of_frost() -> None:
    mild = _read(date(2027, 1, 1), 20, 8.0, 12.0)
    few = _read(date(2027, 1, 1), 9, 0.0, 6.0)
    inside = _read(date(2027, 1, 1), 20, 12.0, 20.0)
    for outdoors in (mild, few, None):
        assert _climate(inside, outdoors).warmer_nights_read(READ) is None
        assert _climate(inside, outdoors).warmer_nights_c(READ) == 0.0


def test_a_house_colder_than_outdoors_is_taken_as_outdoors() -> None:
    outdoors, inside = _read(date(2027, 1, 1), 20, 0.0, 6.0), _read(date(2027, 1, 1), 20, -1.0, 8.0)
    assert _climate(inside, outdoors).warmer_nights_c(READ) == 0.0


def _tomatoes(house: Place | None, under: Shelter, weather: Weather) -> date:
    made = garden("tomatoes", mistakes=[], site=WARM_AND_COLD, places=(SHELF, BENCH, YARD), under=under)
    beds = tuple(msgspec.structs.replace(bed, house=house) for bed in made.beds)
    dated, _ = schedule(msgspec.structs.replace(made, beds=beds), catalogue().crop, weather=weather)
    plant = dated.batches[0].stages.plant
    assert plant is not None
    return plant.day


def test_a_bed_in_a_house_has_the_houses_nights() -> None:
    """Nights 4 C warmer by its own readings: tomatoes go in sooner than under glass that is reckoned to freeze."""
    tunnel = Place("tunnel", (), Room(), under="polytunnel", readings=FILE)
    outdoors = _read(date(2027, 1, 1), 20, 0.0, 6.0)
    weather = Weather(this_year=outdoors, places=(("tunnel", _read(date(2027, 1, 1), 20, 4.0, 10.0)),))
    assert _tomatoes(tunnel, "polytunnel", weather) < _tomatoes(None, "polytunnel", weather)


def test_a_bed_may_lie_in_a_place_of_the_garden(tmp_path: Path) -> None:
    made = sound(
        tmp_path,
        places="{tunnel: {for: beds, under: polytunnel, aired: well}, bench: {for: growing on, under: glass}}",
        beds="{A: {under: tunnel, plan: kale}, B: {under: Bench, plan: kale}, C: {under: polytunnel, plan: kale}}",
    )
    houses = [bed.house.name if bed.house else None for bed in made.beds]
    assert houses == ["tunnel", "bench", None]
    assert [bed.under for bed in made.beds] == ["polytunnel", "unheated glass", "polytunnel"]
    assert [p.name for p in made.houses] == ["tunnel"]
    assert "tunnel" not in [p.name for p in made.places]


def test_a_yard_is_no_house(tmp_path: Path) -> None:
    parts = {"places": "{yard: {for: hardening off, under: outdoors}}", "beds": "{A: {under: yard, plan: kale}}"}
    _, (mistake,) = read_text(tmp_path, text_of(parts))
    assert in_english.what(mistake) == "`yard` is no house that a bed can lie in"
    assert "what the yard is under" in in_english.cure(mistake)


GARDEN = """\
garden: Readings
season: 2027
site:
  latitude: 52.4
  last frost: 10 May (average)
  first frost: 12 October (average)
  temperatures:
    min: [1.0, 1.0, 2.3, 3.9, 6.7, 9.6, 11.6, 11.5, 9.3, 6.7, 3.6, 1.5]
    max: [6.8, 7.4, 10.0, 12.9, 16.2, 19.1, 21.4, 21.0, 18.1, 13.9, 9.8, 7.1]
  this year: outside.csv
places:
  bench: {for: growing on, under: unheated glass, readings: bench.csv}
  tunnel: {for: beds, under: polytunnel}
beds are: 6 m x 1.2 m
beds:
  One: lettuce 15 April
  Two: {under: tunnel, plan: tomatoes}
"""


def _csv(low: float, high: float) -> str:
    rows = (f"2027-01-{n:02d},{low},{high}" for n in range(1, 21))
    return "\n".join(["date,min C,max C", *rows, ""])


def test_check_tells_what_the_readings_are_used_for(tmp_path: Path) -> None:
    (tmp_path / "garden.yaml").write_text(GARDEN, encoding="utf-8")
    (tmp_path / "outside.csv").write_text(_csv(-1.0, 5.0), encoding="utf-8")
    (tmp_path / "bench.csv").write_text(_csv(1.5, 12.0), encoding="utf-8")
    told = CliRunner().invoke(app, ["check", str(tmp_path / "garden.yaml")])
    assert told.exit_code == 0, told.output
    assert "read on 20 days, which count as they were" in told.output
    assert "at least 2.5 °C warmer than outdoors" in told.output
    assert "Tunnel: for beds, under polytunnel." in told.output
    assert "Two, in the tunnel" in told.output


def test_a_file_that_is_not_there_is_refused(tmp_path: Path) -> None:
    (mistake,) = refused(tmp_path, "places", "{bench: {for: growing on, readings: none.csv}}")
    assert "there is no file `none.csv`" in in_english.what(mistake)
