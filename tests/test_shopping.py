"""The shopping list: sums that can be added up by hand, on paper and as CSV."""

from __future__ import annotations

import csv
import io
from datetime import date
from fractions import Fraction
from pathlib import Path

import msgspec
import pytest
from hypothesis import given
from hypothesis import strategies as st
from typer.testing import CliRunner

from sowsheet.buying.list import shopping_list
from sowsheet.buying.records import BedFill, Shopping
from sowsheet.cli.app import app
from sowsheet.exports.shopping import shopping_rows
from sowsheet.garden.records import House, TrayKind
from sowsheet.schedule.plan import schedule
from sowsheet.sheets.shopping_sheet import shopping_sheet
from sowsheet.trays.plan import tray_plan
from tests import in_english
from tests.examples import GARDENS, ROOT
from tests.garden.files import refused, sound
from tests.made import NORTH, SIXTY, catalogue, garden
from tests.sheets.any_garden import BED_NAMES, FEW, LINES
from tests.sheets.pages import WIDTH, collisions, outside, texts, unprintable


def _list(*words: str, also: tuple[str, ...] = (), house: House | None = None, owned: int | None = None) -> Shopping:
    made = garden(*words, mistakes=[], site=NORTH, also=also, house=house)
    trays: tuple[TrayKind, ...] = (msgspec.structs.replace(SIXTY, owned=owned), *made.trays[1:])
    made = msgspec.structs.replace(made, trays=trays)
    dated, mistakes = schedule(made, catalogue().crop)
    assert not mistakes
    return shopping_list(made, dated, tray_plan(dated, made))


def test_seed_of_a_kind_is_added_up_over_its_sowings() -> None:
    """Two beds of 80 leek clumps: 88 wanted, 89 cells of 4 seeds each (2 % come up empty): twice 356 seeds."""
    (leek,) = _list("leeks 25 June", "leeks 25 June").seed
    assert (leek.name, leek.sowings, leek.seeds) == ("leek", 2, 712)
    assert leek.allowance == 2 * (356 - 80 * 4)
    assert leek.grams == pytest.approx(712 / 395, rel=0.01)  # 395 a gram: crops/leek.yaml


def test_grams_are_rounded_once_and_some_seed_weighs_something() -> None:
    """Sowings of a seed or two, each too light for hundredths of a gram."""
    found = _list(also=("1 celeriac every 2 weeks March to May",), house=House(spare=Fraction(0)))
    (celeriac,) = found.seed
    per_g = catalogue().crop("celeriac").kinds[0].seed
    assert per_g and celeriac.grams == pytest.approx(celeriac.seeds / per_g.per_g, rel=1e-9)
    ((_, much, _),) = [row for row in shopping_rows(found, garden(mistakes=[])) if row[0] == "celeriac"]
    assert much == f"{celeriac.seeds} seeds, under 0.01 g"


def test_nothing_is_weighed_or_counted_where_nothing_is_sure() -> None:
    rows = shopping_rows(_list("maybe leeks 25 June", "maybe garlic 20 October"), garden(mistakes=[]))
    assert {row[0]: row[1] for row in rows if "leek" in row[0] or "garlic" in row[0]} == {
        "leek": "",
        "autumn garlic": "",
    }


def test_without_spare_only_empty_cells_are_allowed_for() -> None:
    (leek,) = _list("leeks 25 June", house=House(spare=Fraction(0))).seed
    assert 0 < leek.allowance < 10


def test_ideas_and_what_stands_already_are_apart() -> None:
    found = _list("maybe leeks 25 June", "kale there till April", "spinach since September, then kale 15 July")
    wanted = {s.name: (s.seeds > 0, s.maybe_seeds > 0) for s in found.seed}
    assert wanted == {"leek": (False, True), "kale": (True, False)}


def test_a_sort_in_brackets_is_bought_apart() -> None:
    names = [s.name for s in _list("kale (curly) 1 July", "kale (black) 1 July").seed]
    assert names == ["kale (black)", "kale (curly)"]


def test_sets_are_counted_and_weighed() -> None:
    (garlic,) = _list("garlic 20 October").sets
    assert (garlic.number, garlic.unit) == (160, "cloves")
    assert garlic.kg == pytest.approx(160 / 200)  # 200 cloves a kilo: crops/garlic.yaml


def test_trays_short_are_told_with_the_days() -> None:
    found = _list(also=("120 lettuce 1 April", "120 lettuce 8 April"), owned=3)
    (sixty,) = [t for t in found.trays if t.tray == "60-cell"]
    assert sixty.short == sixty.most - 3 > 0
    assert sixty.start == date(2027, 4, 8)
    assert sixty.end is not None
    assert sixty.start < sixty.end
    (enough,) = [t for t in _list(also=("60 lettuce 1 April",), owned=9).trays if t.tray == "60-cell"]
    assert (enough.short, enough.start) == (0, None)


def test_compost_fills_every_tray_and_every_pot() -> None:
    """34 tomato cells: a tray of 60 of 30 ml, then 29 pots of 400 ml in two carry trays of 18."""
    found = {f.tray: (f.fillings, f.litres) for f in _list("tomatoes 1 June").tray_compost}
    assert found["60-cell"] == pytest.approx((1, 1.8))
    assert found["9 cm pots"] == pytest.approx((2, 14.4))


def test_beds_are_mulched_as_deep_as_each_is_said(tmp_path: Path) -> None:
    made = sound(
        tmp_path,
        house="{compost: 30 mm}",
        beds="{A: kale, B: {compost: 100 mm, plan: kale}, C: {compost: 0 mm, plan: kale}}",
    )
    dated, _ = schedule(made, catalogue().crop)
    beds = {f.bed: (f.depth_mm, f.litres) for f in shopping_list(made, dated, tray_plan(dated, made)).bed_compost}
    assert beds == {"A": pytest.approx((30, 216)), "B": pytest.approx((100, 720)), "C": (0, 0)}
    assert "more than a bed ever gets" in in_english.what(refused(tmp_path, "house", "{compost: 2 m}")[0])


@pytest.mark.parametrize(("litres", "barrows"), [(360, 5), (27, 1), (400, 5), (80.1 + 79.9 + 1e-12, 2)])
def test_a_barrow_that_is_not_full_is_a_barrow(litres: float, barrows: int) -> None:
    needs = Shopping((), (), (), (), (BedFill("A", 25, litres),), ())
    made = garden("kale", mistakes=[])
    ((_, _, table),) = shopping_rows(needs, made)[1:]
    sheet = shopping_sheet(needs, made, "2027", "A4", WIDTH, None)
    told = f"{barrows} {'barrow' if barrows == 1 else 'barrows'}"
    assert table == f"{told} of 80 l"
    assert told in [t.text for page in sheet.pages for t in texts(page)]


def test_the_table_adds_first_and_rounds_once_as_the_sheet_does() -> None:
    needs = Shopping((), (), (), (), (BedFill("A", 25, 13.25), BedFill("B", 25, 13.26)), ())
    made = garden("kale", "kale", mistakes=[])
    ((_, table, _),) = shopping_rows(needs, made)[1:]
    sheet = shopping_sheet(needs, made, "2027", "A4", WIDTH, None)
    assert table == "27 l"
    assert table in [t.text for page in sheet.pages for t in texts(page)]


def test_fleece_is_what_lies_at_once() -> None:
    (fleece,) = _list(
        "lettuce 1 April under fleece", "lettuce 10 April under fleece", "lettuce 1 September under fleece for 2 weeks"
    ).covers
    assert (fleece.kind, fleece.day) == ("fleece", date(2027, 4, 10))
    assert fleece.metres == pytest.approx(12.0)


@pytest.mark.parametrize("name", GARDENS)
def test_the_command_and_its_csv_hold_the_same(name: str) -> None:
    file = str(ROOT / "out_examples" / name / "garden.yaml")
    table = CliRunner().invoke(app, ["shopping", file])
    rows = list(csv.DictReader(io.StringIO(CliRunner().invoke(app, ["shopping", file, "--format", "csv"]).stdout)))
    assert table.exit_code == 0, table.output
    seed = [row for row in rows if row["group"] == "seed"]
    assert len(seed) >= 5
    for row in seed:
        assert f"{row['number']} seeds" in table.stdout


@FEW
@given(st.lists(LINES, min_size=1, max_size=25), BED_NAMES, st.sampled_from(["A4", "Letter"]))
def test_any_list_is_printed_without_a_collision(lines: list[str], bed: str, paper: str) -> None:
    made = garden(*lines, mistakes=[], also=("40 lettuce every 2 weeks May to July",))
    made = msgspec.structs.replace(made, name=f"{bed} · {bed} · {bed}", imperial=paper == "Letter")
    dated, _ = schedule(made, catalogue().crop)
    found = shopping_list(made, dated, tray_plan(dated, made))
    sheet = shopping_sheet(found, made, "2027", paper, WIDTH, date(2026, 12, 1))
    assert list(outside(sheet)) == []
    assert unprintable(sheet) == set()
    for page in sheet.pages:
        assert collisions(page) == []
