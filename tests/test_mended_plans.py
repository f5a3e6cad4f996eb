"""Plans that once went wrong: each as it was found, and what has to come out."""

from __future__ import annotations

import math
from collections.abc import Iterable
from datetime import date, timedelta
from itertools import pairwise
from pathlib import Path

import msgspec
import pytest
from typer.testing import CliRunner

from sowsheet.cli.app import app
from sowsheet.exports.tell import told_back
from sowsheet.garden.records import Place, Room
from sowsheet.reading.dates import CalendarDay
from sowsheet.reading.plan_records import Dated
from sowsheet.schedule.plan import schedule
from sowsheet.schedule.records import Schedule
from sowsheet.site.record import Record
from sowsheet.site.weather import Weather
from tests import in_english
from tests.garden.files import read_text, text_of
from tests.made import NORTH, NOWHERE, catalogue, frost, garden, planned, refused, sound
from tests.test_slip import WARM_AND_COLD

YEARS = range(2001, 2013)
SHELF = Place("shelf", ("germinating",), Room(), held_at_c=20.0)
BENCH = Place("bench", ("growing on",), Room(), under="unheated glass")
HEATED = Place("heated bench", ("growing on",), Room(), held_at_c=12.0, under="unheated glass")
YARD = Place("yard", ("hardening off",), Room(), under="outdoors")


def _record(mean: float = 8.0, swing: float = 8.0, cold: Iterable[date] = ()) -> Record:
    days = [date(YEARS[0], 1, 1) + timedelta(days=n) for n in range(len(YEARS) * 365 + 3)]
    means = [mean - swing * math.cos(2 * math.pi * (d.timetuple().tm_yday - 20) / 365) for d in days]
    cold = set(cold)
    low = tuple(-3.0 if day in cold else m - 4.0 for day, m in zip(days, means, strict=True))
    return Record("made.csv", tuple(days), low, tuple(m + 4.0 for m in means))


def _plan(*words: str, record: Record | None = None, places: tuple[Place, ...] = (SHELF, HEATED, YARD)) -> Schedule:
    made = garden(*words, mistakes=[], site=WARM_AND_COLD, places=places)
    dated, mistakes = schedule(made, catalogue().crop, weather=Weather(record))
    assert not mistakes
    return dated


def _codes(dated: Schedule) -> set[str]:
    return {doubt.code for doubt in dated.doubts}


@pytest.mark.parametrize("when", ["week 8", "week 53", "1 March 2026", "1 March 2027", "day length 10 h"])
def test_a_place_may_be_there_from_any_date(tmp_path: Path, when: str) -> None:
    """A week and a written year came back to the same day for ever."""
    places = f"{{bench: {{for: growing on, under: unheated glass, from: {when}}}}}"
    made, mistakes = read_text(tmp_path, text_of({"places": places}))
    assert made is not None, mistakes
    schedule(made, catalogue().crop)


def test_winter_is_asked_of_what_was_planted_in_spring_too() -> None:
    """Kale stands -10 C; it is -11 in every January, and no colder than 3 C in spring from May on."""
    dated = _plan("kale 1 May", record=_record(8.0, 15.0))
    assert "killed_in_winter" in _codes(dated)
    assert "planted_too_cold" not in _codes(dated)


def test_an_autumn_frost_is_not_told_as_a_spring_s() -> None:
    """Frost on 20 September in every second year, none in spring."""
    cold = [date(year, 9, 20) for year in YEARS if year % 2]
    made = garden("tomatoes 5 June", mistakes=[], site=WARM_AND_COLD, places=(SHELF, HEATED, YARD))
    dated, _ = schedule(made, catalogue().crop, weather=Weather(_record(12.0, 6.0, cold)))
    assert not [line for line in told_back(made, dated, ()) if "spring in" in line]


@pytest.mark.parametrize("plan", ["leeks 10 September", "kale 10 November", "carrots sown direct 5 August"])
def test_what_is_not_fit_before_its_season_is_over_stands_no_year_longer(plan: str) -> None:
    """It was picked the next spring, and cleared a whole year after that."""
    dated = _plan(plan)
    (batch,) = dated.batches
    assert batch.stages.first_pick is None
    assert batch.stages.clear is not None
    assert batch.stages.clear.day < date(2028, 7, 1)
    assert "too_late" in _codes(dated)


def test_a_spring_frost_is_waited_for_and_no_reason_to_plant_earlier() -> None:
    for line, cure in (("tomatoes 1 April", "write `sown 1 April`"), ("tomatoes 1 February", "wait until 17 May")):
        dated = _plan(line)
        assert "too_late" not in _codes(dated)
        assert all("plant earlier" not in doubt.cure for doubt in dated.doubts)
        assert any(cure in doubt.cure for doubt in dated.doubts)


def test_broad_beans_after_sweet_corn_are_those_of_autumn() -> None:
    *_, beans = _plan("sweet corn, then broad beans").batches
    assert beans.kind.key == "autumn"
    assert beans.stages.plant is not None
    assert beans.stages.plant.day >= date(2027, 11, 1)


def test_tender_crops_without_a_date_wait_for_warmth_too() -> None:
    """No frost from March on, and a mean of 12 C only by the end of May."""
    for crop in ("courgettes", "French beans", "sweet corn"):
        (batch,) = _plan(crop, record=_record(9.0, 6.0)).batches
        assert batch.stages.plant is not None
        mean = 9.0 - 6.0 * math.cos(2 * math.pi * (batch.stages.plant.day.timetuple().tm_yday - 20) / 365)
        assert mean > 11.5, crop


def test_crops_without_a_date_are_not_sown_where_they_bolt() -> None:
    for crop in ("celeriac", "chard"):
        dated = _plan(crop, record=_record(10.0, 6.0))
        assert "bolts" not in _codes(dated), crop


def test_winter_lettuce_in_the_open_is_doubted() -> None:
    dated = _plan("winter lettuce 1 October")
    assert "wants_glass" in _codes(dated)
    made = garden("winter lettuce 1 October", mistakes=[], site=WARM_AND_COLD, under="polytunnel")
    assert "wants_glass" not in _codes(schedule(made, catalogue().crop)[0])


def test_the_latest_sowing_is_looked_for_in_every_place() -> None:
    """Sown later it comes into the heated bench: the search stopped where the places change."""
    places = (SHELF, msgspec.structs.replace(BENCH, until=None), HEATED, YARD)
    (batch,) = _plan("lettuce 20 March", places=places).batches
    assert batch.stages.sow is not None
    for later in range(1, 40):
        day = batch.stages.sow.day + timedelta(days=later)
        (other,) = _plan(f"lettuce sown {day.day} {day:%B}", places=places).batches
        assert other.stages.ready is not None
        assert other.stages.ready.day > date(2027, 3, 20), day


def test_no_sowing_lies_further_back_than_its_trays_can_be_kept() -> None:
    """The hotbed is there in spring alone, the shelf too hot for the seed: it was sown 17 months before."""
    shelf, hotbed = (
        msgspec.structs.replace(SHELF, held_at_c=22.0),
        msgspec.structs.replace(
            BENCH,
            purposes=("germinating", "growing on"),
            under="cold frame",
            start=Dated(CalendarDay(2, 17), "17 February", NOWHERE),
            until=Dated(CalendarDay(5, 25), "late May", NOWHERE),
        ),
    )
    with_hotbed = planned("winter purslane October", places=(shelf, hotbed, YARD))[0]
    without = planned("winter purslane October", places=(shelf, BENCH, YARD))[0]
    for dated in (with_hotbed, without):
        assert dated.batches[0].stages.sow is None
    assert with_hotbed.doubts == without.doubts
    assert "germination_too_hot" in _codes(with_hotbed)
    (spring,) = planned("winter purslane 15 April", places=(shelf, hotbed, YARD))[0].batches
    assert spring.stages.sow is not None
    assert spring.stages.sow.day > date(2027, 2, 17)


def test_trays_do_not_stay_in_a_place_that_goes(tmp_path: Path) -> None:
    """Leeks carried into a hotbed on 1 May, which goes on the 20th, stood there until June."""
    hotbed = "{for: growing on, under: cold frame, made: 10 February, until: 20 May}"
    parts = {
        "site": "{latitude: 52.4, last frost: 10 May (average), first frost: 12 October (average)}",
        "places": f"{{hotbed: {hotbed}, bench: {{for: growing on, under: unheated glass}}}}",
        "beds": "{A: lettuce sown 20 February, B: leek 1 July}",
    }
    made, mistakes = read_text(tmp_path, text_of(parts))
    assert made is not None, mistakes
    dated, _ = schedule(made, catalogue().crop)
    where = {b.kind.crop: s.where for b in dated.batches for s in b.stays if s.stage == "growing on"}
    assert where == {"lettuce": "hotbed", "leek": "bench"}
    assert "no_place" not in _codes(dated)


@pytest.mark.parametrize(
    ("places", "line", "stands"),
    [
        (("The Ark", "bench"), "tomatoes raised in the Ark, 1 June", "The Ark"),
        (("A frame", "bench"), "tomatoes in the A frame 1 June", "A frame"),
        (("bench (south)", "bench"), "tomatoes raised on the bench (red), 1 June", "bench"),
        (("bench (south)", "bench"), "tomatoes raised on the bench (south), 1 June", "bench (south)"),
    ],
)
def test_places_with_articles_and_brackets_in_their_names(places: tuple[str, ...], line: str, stands: str) -> None:
    made = tuple(Place(name, ("growing on",), Room(), held_at_c=12.0) for name in places)
    (batch,) = sound(line, places=(SHELF, *made, YARD))
    assert batch.asked == (stands,)


def test_a_date_is_a_date_whatever_places_are_called() -> None:
    places = (SHELF, msgspec.structs.replace(BENCH, name="2"), HEATED, msgspec.structs.replace(BENCH, name="May"), YARD)
    (batch,) = sound("tomatoes raised on the heated bench, 2 June", places=places)
    assert batch.stages.plant is not None
    assert (batch.stages.plant.day, batch.asked) == (date(2027, 6, 2), ("heated bench",))
    (batch,) = sound("lettuce in May", places=places)
    assert batch.asked == ()


def test_either_place_is_no_place() -> None:
    mistake = refused("tomatoes on the bench or the heated bench, 1 June", places=(SHELF, BENCH, HEATED, YARD))
    assert "where its trays stand" in in_english.what(mistake)


def test_how_many_is_asked_where_no_bed_tells_it() -> None:
    _, mistakes = planned(also=("lettuce 1 April",))
    assert [in_english.what(m) for m in mistakes] == ["how many lettuce are sown is not said"]


def test_what_cannot_be_dated_is_a_doubt() -> None:
    dated, _ = planned("kale", site=msgspec.structs.replace(NORTH, last_frost=None, first_frost=None))
    assert [d.code for d in dated.doubts] == ["undated"]


def test_a_record_of_other_years_is_not_this_season_s(tmp_path: Path) -> None:
    rows = "\n".join(["date,min C,max C", *(f"2020-01-{n:02d},1.0,6.0" for n in range(1, 21)), ""])
    (tmp_path / "old.csv").write_text(rows, encoding="utf-8")
    parts = {"site": "{latitude: 52.4, this year: old.csv}"}
    (tmp_path / "garden.yaml").write_text(text_of(parts).replace("kale 1 May", "lettuce 1 May"), encoding="utf-8")
    told = CliRunner().invoke(app, ["check", str(tmp_path / "garden.yaml")])
    assert told.exit_code == 2
    assert "no day of the season 2027" in told.output


def test_no_warmer_is_what_the_grower_says_whatever_was_read() -> None:
    nights = [date(2027, 1, 1) + timedelta(days=n) for n in range(20)]
    outdoors = Record("out.csv", tuple(nights), (0.0,) * 20, (6.0,) * 20)
    inside = Record("in.csv", tuple(nights), (4.0,) * 20, (12.0,) * 20)
    said = msgspec.structs.replace(BENCH, warmer_nights_c=0.0)
    made = garden("leeks", mistakes=[], site=WARM_AND_COLD, places=(SHELF, said, YARD))
    dated, _ = schedule(made, catalogue().crop, weather=Weather(this_year=outdoors, places=(("bench", inside),)))
    assert dated.climate.warmer_nights_c(said) == 0.0
    assert dated.climate.warmer_nights_c(BENCH) == pytest.approx(4.0)


def test_tubers_in_the_ground_take_no_harm_before_their_shoots_show() -> None:
    """Frost in every April up to the 10th: potatoes set on 20 March come up later."""
    cold = [date(year, 4, 10) for year in YEARS]
    site = msgspec.structs.replace(WARM_AND_COLD, last_frost=frost(4, 1))
    made = garden("early potatoes 20 March", mistakes=[], site=site)
    dated, _ = schedule(made, catalogue().crop, weather=Weather(_record(12.0, 6.0, cold)))
    assert "planted_too_cold" not in _codes(dated)


TUESDAY_SATURDAY = frozenset({1, 5})


@pytest.mark.parametrize(
    ("line", "day"),
    [
        ("lettuce mid-April", date(2027, 4, 17)),  # the 15th is a Thursday: of two the later
        ("lettuce late April", date(2027, 4, 24)),
        ("kale May", date(2027, 5, 15)),
        ("kale from April", date(2027, 4, 3)),
        ("lettuce week 16", date(2027, 4, 20)),
        ("carrots sown direct mid-April", date(2027, 4, 17)),
        ("onions from sets early April", date(2027, 4, 6)),
        ("lettuce 15 April", date(2027, 4, 15)),
        ("lettuce start of April", date(2027, 4, 1)),
        ("kale every 2 weeks April to May", date(2027, 4, 3)),
        ("kale every 2 weeks 1 April to May", date(2027, 4, 1)),
        ("lettuce 16 April, then kale mid-October", date(2027, 10, 16)),
    ],
)
def test_a_part_of_the_year_falls_on_a_work_day_and_a_written_day_stays(line: str, day: date) -> None:
    dated, mistakes = planned(line, work_days=TUESDAY_SATURDAY)
    assert not mistakes
    assert day in {b.stages.plant.day for b in dated.batches if b.stages.plant}
    told = [t for t in dated.told if t.code == "no work day"]
    assert bool(told) is any(
        b.stages.plant is not None and b.stages.plant.day.weekday() not in TUESDAY_SATURDAY for b in dated.batches
    )


def test_a_date_of_sow_also_falls_on_a_work_day_too() -> None:
    lines = ("30 kale mid-May", "30 kale 15 May", "30 lettuce every 3 weeks May to July")
    dated, _ = planned(also=lines, work_days=frozenset({0, 3}))
    sown = [b.stages.sow.day for b in dated.batches if b.stages.sow]
    assert sown[:3] == [date(2027, 5, 17), date(2027, 5, 15), date(2027, 5, 3)]
    assert [t.short for t in dated.told if t.code] == ["kale sown Saturday 15 May"]
    assert all((later - day).days == 21 for day, later in pairwise(sown[2:]))


def test_what_clears_a_bed_and_what_follows_in_the_same_days_move_together() -> None:
    """Were the chard cleared on Sunday the 25th, it would stand where the tomatoes go in on the 24th."""
    dated, _ = planned("chard there till late April, then lettuce late April", work_days=TUESDAY_SATURDAY)
    assert "occupied" not in _codes(dated)
    chard, lettuce = dated.batches
    assert chard.stages.clear is not None
    assert lettuce.stages.plant is not None
    assert chard.stages.clear.day == lettuce.stages.plant.day == date(2027, 4, 24)


@pytest.mark.parametrize(
    ("till", "then", "cleared"),
    [
        ("till mid-May", "15 April", date(2027, 5, 15)),  # long before: a doubt, and no word for it
        ("till mid-May", "13 May", date(2027, 5, 13)),
        ("till 15 May", "13 May", date(2027, 5, 15)),
    ],
)
def test_what_ends_in_the_middle_of_a_month_ends_where_the_next_one_goes_in(
    till: str, then: str, cleared: date
) -> None:
    dated, _ = planned(f"chard there {till}, then lettuce {then}", work_days=TUESDAY_SATURDAY)
    chard, lettuce = dated.batches
    assert chard.stages.clear is not None
    assert lettuce.stages.plant is not None
    assert chard.stages.clear.day == cleared
    assert ("occupied" in _codes(dated)) is (cleared > lettuce.stages.plant.day)


def test_a_green_manure_is_cut_when_somebody_is_there() -> None:
    for line in ("rye since September, then winter squash 25 May", "rye since September", "phacelia 3 April"):
        batch = planned(line, work_days=TUESDAY_SATURDAY)[0].batches[0]
        assert batch.stages.last_pick is not None
        assert batch.stages.last_pick.day.weekday() in TUESDAY_SATURDAY, line


@pytest.mark.parametrize(
    ("line", "why"),
    [
        ("parsnips 15 April", "175 days from sowing"),
        ("summer white mustard 1 May", "from sowing"),
        ("forcing chicory 10 July", "from sowing at least"),
        ("leeks 15 June", "from planting"),
    ],
)
def test_what_is_sown_direct_counts_from_sowing(line: str, why: str) -> None:
    (batch,) = sound(line)
    assert batch.stages.first_pick is not None
    assert batch.stages.first_pick.why.endswith(why)


@pytest.mark.parametrize(("held", "told"), [("70 F", "70 °F"), ("68.5°F", "68.5 °F"), ("20 C", "20 °C")])
def test_a_place_is_told_back_in_the_degrees_that_were_written(tmp_path: Path, held: str, told: str) -> None:
    """It was held at 21.1111 °C."""
    parts = {"places": f"{{shelf: {{for: germinating, held at: {held}}}}}", "beds": "{A: lettuce 1 May}"}
    made, mistakes = read_text(tmp_path, text_of(parts))
    assert made is not None, mistakes
    dated, _ = schedule(made, catalogue().crop)
    assert any(line.startswith(f"Shelf: for germinating, held at {told}, ") for line in told_back(made, dated, ()))
    (batch,) = dated.batches
    assert batch.stages.up is not None
    assert batch.stages.up.why.endswith(f"days to show, at {told}")
