"""What each key of a garden file is read as, and what is taken where the file is silent."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pytest

from sowsheet.garden.defaults import assumed_places, assumed_pots, assumed_seed_tray, assumed_trays
from sowsheet.garden.read import crops_named, own_crop_files
from sowsheet.garden.records import Frost, House, Monthly, Place, Room, TrayKind
from sowsheet.reading.dates import Anchored, CalendarDay
from sowsheet.words.language import language_of
from tests.garden.files import read_text, sound
from tests.reading.book import told

LOW = "[1.0, 1.0, 2.3, 3.9, 6.7, 9.6, 11.6, 11.5, 9.3, 6.7, 3.6, 1.5]"
HIGH = "[6.8, 7.4, 10.0, 12.9, 16.2, 19.1, 21.4, 21.0, 18.1, 13.9, 9.8, 7.1]"


def test_the_shortest_file(tmp_path: Path) -> None:
    garden = sound(tmp_path)
    assert (garden.name, garden.season, garden.site.latitude) == ("Tern Hollow", 2027, 52.4)
    assert (garden.site.last_frost, garden.site.first_frost, garden.site.monthly) == (None, None, None)
    assert garden.places == assumed_places(language_of("en"))
    assert garden.trays == assumed_trays()
    assert garden.house == House()
    assert (garden.work_days, garden.also, garden.paper, garden.imperial) == (frozenset(), (), "", False)
    assert garden.file == str(tmp_path / "garden.yaml")


def test_what_is_assumed_is_marked() -> None:
    assert all(p.assumed for p in assumed_places(language_of("en")))
    assert all(t.assumed for t in (*assumed_trays(), assumed_seed_tray(), assumed_pots()))
    shelf, bench, yard = assumed_places(language_of("en"))
    assert (shelf.purposes, shelf.held_at_c, shelf.room) == (("germinating",), 20.0, Room())
    assert (bench.purposes, bench.under, bench.room) == (("growing on",), "unheated glass", Room())
    assert (yard.purposes, yard.under, yard.room) == (("hardening off",), "outdoors", Room())


def test_keys_with_nothing_after_them_are_as_if_left_out(tmp_path: Path) -> None:
    empty = sound(tmp_path, places=" ", trays=" ", house=" ", sow_also=" ", crops=" ")
    assert empty == sound(tmp_path)


@pytest.mark.parametrize(
    ("words", "latitude"), [("52.4", 52.4), ("52.4 N", 52.4), ("37.5 S", -37.5), ("-37.5", -37.5), ("0", 0.0)]
)
def test_latitude(tmp_path: Path, words: str, latitude: float) -> None:
    assert sound(tmp_path, site=f"{{latitude: {words}}}").site.latitude == latitude


def test_frost_dates_and_what_they_mean(tmp_path: Path) -> None:
    site = sound(tmp_path, site="{latitude: 52.4, last frost: late May (safe), first frost: October 12 (Average)}").site
    assert isinstance(site.last_frost, Frost)
    assert isinstance(site.first_frost, Frost)
    assert (site.last_frost.day.month, site.last_frost.day.day, site.last_frost.meaning) == (5, 25, "safe")
    assert (site.first_frost.day, site.first_frost.meaning) == (CalendarDay(10, 12), "average")
    assert (site.last_frost.spot.line, site.last_frost.spot.column) == (3, 36)


@pytest.mark.parametrize("latitude", ["-37.5", "10", "-10"])
def test_frost_dates_of_the_south_and_the_tropics(tmp_path: Path, latitude: str) -> None:
    site = f"{{latitude: {latitude}, last frost: 20 September (average), first frost: 25 May (average)}}"
    assert sound(tmp_path, site=site).site.last_frost is not None


def test_monthly_means(tmp_path: Path) -> None:
    monthly = sound(tmp_path, site=f"{{latitude: 52.4, temperatures: {{min: {LOW}, max: {HIGH}}}}}").site.monthly
    assert isinstance(monthly, Monthly)
    assert (monthly.min_c[0], monthly.max_c[6], len(monthly.max_c)) == (1.0, 21.4, 12)


def test_monthly_means_in_fahrenheit(tmp_path: Path) -> None:
    months = "23 F, " * 6 + "41 F, " * 6
    monthly = sound(tmp_path, site=f"{{latitude: 52, temperatures: {{min: [{months}], max: {HIGH}}}}}").site.monthly
    assert monthly is not None
    assert monthly.min_c == (-5.0,) * 6 + (5.0,) * 6


def test_places(tmp_path: Path) -> None:
    places = """
  airing shelf: {for: germinating, held at: 68 F, room: 6 trays}
  bench:
    for: growing on, hardening off
    under: Glasshouse
    room: 4.5 m x 0.6 m
    from: February
    until: 1 week after last frost
  cold frame: {for: [hardening off], under: cold frame}"""
    shelf, bench, frame = sound(tmp_path, places=places).places
    assert shelf == Place("airing shelf", ("germinating",), Room(trays=6), held_at_c=20.0, in_fahrenheit=True)
    assert (bench.purposes, bench.under) == (("growing on", "hardening off"), "unheated glass")
    assert bench.room == Room(length_cm=450.0, width_cm=60.0)
    assert bench.start is not None
    assert bench.start.date == CalendarDay(2, 1, span="from month")
    assert bench.until is not None
    assert bench.until.date == Anchored("last frost", 7)
    assert (frame.purposes, frame.under, frame.room, frame.assumed) == (("hardening off",), "cold frame", Room(), False)


def test_what_no_place_is_for_is_assumed(tmp_path: Path) -> None:
    places = sound(tmp_path, places="{yard: {for: growing on, under: polytunnel}}").places
    assert [(p.name, p.assumed) for p in places] == [
        ("yard", False),
        ("warm shelf", True),
        ("yard for hardening off", True),
    ]


def test_trays(tmp_path: Path) -> None:
    trays = """
  60-cell: {cells: 60, size: 53 cm x 31 cm, cell volume: 30 ml, owned: 14}
  9 cm pots: {pots: 15, size: 21 in x 12 in, cell volume: 0.4 l}
  seed tray: {size: 37 x 23 cm, owned: 0 trays}"""
    cells, pots, seed_tray = sound(tmp_path, trays=trays).trays
    assert cells == TrayKind("60-cell", 60, 53.0, 31.0, 30.0, 14)
    assert pots == TrayKind("9 cm pots", 15, 53.34, 30.48, 400.0, None)
    assert (seed_tray.cells, seed_tray.cell_ml, seed_tray.owned) == (0, 0.0, 0)


def test_module_trays_are_assumed_beside_an_open_one(tmp_path: Path) -> None:
    trays = sound(tmp_path, trays="{seed tray: {cells: 0, size: 37 cm x 23 cm}}").trays
    assert [(t.name, t.assumed) for t in trays] == [("seed tray", False), ("60-cell", True)]


@pytest.mark.parametrize(
    ("words", "days"),
    [
        ("Tuesday, Saturday", {1, 5}),
        ("Tuesday and saturday", {1, 5}),
        ("[Tuesdays, Sat]", {1, 5}),
        ("Mon-Wed", {0, 1, 2}),
        ("Friday to Monday, Wednesday", {4, 5, 6, 0, 2}),
        ("Thurs.", {3}),
    ],
)
def test_work_days(tmp_path: Path, words: str, days: set[int]) -> None:
    assert sound(tmp_path, work_days=words).work_days == days


def test_house(tmp_path: Path) -> None:
    house = sound(tmp_path, house="{spare: 12.5 %, hardening: 4 days, fleece: 6 weeks, risk: 1 in 20}").house
    assert house == House(Fraction(1, 8), 4, 42, 0.05)
    assert sound(tmp_path, house="{risk: 10 %, spare: 0 %}").house == House(spare=Fraction(0), risk=0.1)


@pytest.mark.parametrize(("words", "paper"), [("A3", "A3"), ("a2", "A2"), ("letter", "Letter")])
def test_paper(tmp_path: Path, words: str, paper: str) -> None:
    assert sound(tmp_path, paper=words).paper == paper


def test_beds(tmp_path: Path) -> None:
    beds = """
  North 1: kale 1 May, then leeks
  2: {size: 1.2 m x 4 m}
  North 3:
  Glass 1:
    size: 20 ft x 4 ft
    under: glass
    plan: tomatoes 1 June
  North 4: {}"""
    north, second, third, glass, fourth = sound(tmp_path, beds=beds).beds
    assert north.plan is not None
    assert told(north.plan) == "kale on=1/5 > leek"
    assert (north.length_cm, north.width_cm, north.under) == (600.0, 120.0, "")
    assert (north.spot.line, north.spot.column) == (6, 3)
    assert (second.name, second.length_cm, second.width_cm, second.plan) == ("2", 400.0, 120.0, None)
    assert third.plan is None
    assert fourth.plan is None
    assert (glass.length_cm, glass.width_cm, glass.under) == (609.6, 121.92, "unheated glass")


@pytest.mark.parametrize(
    "plan",
    [
        "kale 1 May, then leeks and spinach 1 July; garlic October",
        "\n    plan: kale 1 May, then leeks and spinach 1 July; garlic October",
        "\n    - kale 1 May\n    - leeks and spinach 1 July, then garlic October",
        "\n    - kale 1 May,\n    - then leeks and spinach 1 July\n    - then garlic October",
        "\n    plan:\n      - kale 1 May\n      - 'leeks and spinach 1 July'\n      - garlic\n        October",
        "\n    plan: [kale 1 May, leeks and spinach 1 July, garlic October]",
        "{plan: [kale 1 May, leeks and spinach 1 July, garlic October]}",
        "|\n    kale 1 May\n    leeks and spinach 1 July\n    garlic October",
    ],
)
def test_a_plan_on_one_line_or_several(tmp_path: Path, plan: str) -> None:
    (bed,) = sound(tmp_path, beds=f"\n  A: {plan}").beds
    assert bed.plan is not None
    assert told(bed.plan) == "kale on=1/5 > leek on=1/7 & spinach on=1/7 > garlic on=15/10 month"


def test_sow_also(tmp_path: Path) -> None:
    (series,) = sound(tmp_path, sow_also="60 lettuce every 3 weeks March to August").also
    assert told(series) == "lettuce amount=60 plants every 21 d 1/3..31/8 end"
    two = sound(tmp_path, sow_also="\n  - 60 lettuce 1 March\n  - 12 leeks 1 April").also
    assert [told(line) for line in two] == ["lettuce amount=60 plants sown=1/3", "leek amount=12 plants sown=1/4"]


def test_names_are_evened_out(tmp_path: Path) -> None:
    beds = sound(
        tmp_path, beds="\n  ' North  1': kale 1 May\n  \"Be\\u0301a\": kale 1 May\n  Süd – 1½: kale 1 May"
    ).beds
    assert [b.name for b in beds] == ["North 1", "Béa", "Süd – 1½"]


@pytest.mark.parametrize(
    ("parts", "imperial"),
    [
        ({"beds_are": "20 ft x 4 ft"}, True),
        ({"beds": "{A: {size: 20 ft x 4 ft, plan: kale 1 May}, B: kale}"}, False),
        ({"beds are": "", "beds": "{A: {size: 20 ft x 4 ft, plan: kale 1 May}}"}, True),
        ({"trays": "{a: {cells: 60, size: 21 in x 11 in, cell volume: 30 ml}}"}, False),
    ],
)
def test_measures_are_told_back_as_the_beds_are_written(tmp_path: Path, parts: dict[str, str], imperial: bool) -> None:
    assert sound(tmp_path, **parts).imperial == imperial


def test_own_crop_files_stand_beside_the_garden_file(tmp_path: Path) -> None:
    (tmp_path / "own").mkdir()
    for name in ("own.yaml", "own/more.yaml"):
        (tmp_path / name).write_text("crop: kale\n")
    sound(tmp_path, crops="[own.yaml, own/more.yaml]")
    assert own_crop_files(tmp_path / "garden.yaml") == (tmp_path / "own.yaml", tmp_path / "own" / "more.yaml")
    sound(tmp_path, crops="own.yaml")
    assert own_crop_files(tmp_path / "garden.yaml") == (tmp_path / "own.yaml",)
    assert own_crop_files(tmp_path / "nowhere.yaml") == ()


def test_the_crops_that_are_named(tmp_path: Path) -> None:
    beds = "\n  A: garlic since October, lettuce between, then kale\n  B: nothing"
    assert crops_named(sound(tmp_path, beds=beds, sow_also="60 leeks 1 March")) == {"garlic", "lettuce", "kale", "leek"}


def test_who_raises_plants_for_others_needs_no_beds(tmp_path: Path) -> None:
    text = "garden: Tern\nseason: 2027\nsite: {latitude: 52.4}\nsow also:\n  - 20 lettuce 1 May\n"
    garden, mistakes = read_text(tmp_path, text)
    assert not mistakes
    assert garden is not None and (garden.beds, len(garden.also)) == ((), 1)
    without = text.partition("sow also")[0]
    assert [m.spot.line for m in read_text(tmp_path, without)[1]] == [1]
