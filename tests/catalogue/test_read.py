"""Crop files: what is read, and each kind of mistake at its place."""

from __future__ import annotations

import pytest

from sowsheet.catalogue.read import read_crop
from sowsheet.catalogue.records import AnchoredRange, Crop, Kind, Move, Range, Tray
from sowsheet.reading.dates import Anchored, DayLength
from sowsheet.reading.mistakes import Mistake, in_order
from tests import in_english
from tests.catalogue.conftest import SHELF, SOURCES


def text_of(crop: str) -> str:
    return (SHELF / f"{crop}.yaml").read_text("utf-8")


def read(crop: str) -> Crop:
    mistakes: list[Mistake] = []
    found = read_crop(text_of(crop), f"{crop}.yaml", SOURCES, mistakes)
    assert not mistakes
    assert found is not None
    return found


def kind_of(crop: str, key: str = "") -> Kind:
    return next(kind for kind in read(crop).kinds if kind.key == key)


def tray_of(kind: Kind) -> Tray:
    assert kind.tray is not None
    return kind.tray


def spoilt(crop: str, old: str, new: str) -> list[Mistake]:
    """The mistakes of a crop file in which one piece of text is another."""
    text = text_of(crop)
    assert text.count(old) >= 1, old
    mistakes: list[Mistake] = []
    assert read_crop(text.replace(old, new, 1), "spoilt.yaml", SOURCES, mistakes) is None
    return in_order(mistakes)


def test_a_crop_without_kinds_is_its_only_kind() -> None:
    leek = read("leek")
    assert [kind.name for kind in leek.kinds] == ["leek"]
    kind = leek.kinds[0]
    tray = tray_of(kind)
    assert tray.plants_per_cell == Range(3, 4, 5)
    assert tray.up_to_planting_days == Range(60, 70, 80)
    assert kind.windows[0].start == Anchored("last frost", -21)
    assert kind.harvest.by == "stands"
    assert kind.harvest.first_pick == Range(110, 120, 140)
    assert kind.covers == {"mesh": "wanted where leek moth flies"}
    assert kind.cautions == {"pick": "mind the fork"}


def test_values_and_sources_are_kept_apart() -> None:
    kind = kind_of("lettuce", "headed")
    assert kind.seed is not None
    assert kind.seed.comes_up == 0.8
    assert kind.sources["tray.up to planting"] == ("book-a-1990", "book-b-2001")
    assert kind.sources["goes out.1"] == ("practice",)
    assert kind_of("lettuce", "winter").sources["goes out.2"] == ("book-a-1990", "practice")
    assert "signs.up" not in kind.sources


def test_a_kind_replaces_its_harvest_whole() -> None:
    harvest = kind_of("lettuce", "winter").harvest
    assert harvest.by == "season"
    assert harvest.lasts_days is None
    assert harvest.at_least_days == Range(42, 42, 42)
    assert harvest.until == DayLength(14, "rising")
    first = AnchoredRange(*(Anchored("shortest day", -days) for days in (42, 28, 14)))
    assert harvest.first_pick == first


def test_a_kind_joins_cold_line_by_line() -> None:
    cold = kind_of("lettuce", "winter").cold
    assert (cold.soft_c, cold.hardened_c, cold.in_bed_c) == (-2, -8, -9)
    assert kind_of("lettuce", "winter").windows[1].under_glass
    assert len(kind_of("lettuce", "headed").windows) == 1


def test_a_kind_that_is_set_has_no_seed() -> None:
    sets, seed = kind_of("onion", "from sets"), kind_of("onion", "from seed")
    assert (sets.tray, sets.drill, sets.seed, sets.germination, sets.usually) == (None, None, None, None, "set")
    assert sets.name == "onion from sets"
    assert seed.usually == "tray"
    assert tray_of(seed).prick_out == Move(Range(10, 14, 18), Range(15, 27.5, 40))
    assert [window.seed for window in seed.windows] == [False, True]
    assert seed.harvest.first_pick_direct == Range(140, 155, 170)
    assert seed.harvest.not_after == Anchored("midsummer", 70)
    assert sets.dries_days == Range(14, 21, 28)


def test_a_source_of_a_kind_is_of_the_line_that_it_took() -> None:
    assert kind_of("onion", "from sets").sources["space.rows"] == ("practice",)
    assert "germinates.days up" not in kind_of("onion", "from sets").sources


@pytest.mark.parametrize(
    ("crop", "old", "new", "line", "column", "what", "cure"),
    [
        ("leek", "  hardening:", "  hardning:", 17, 3, "`hardning` is no key of `tray`", "Did you mean `hardening`?"),
        ("leek", "space:", "spacing:", 24, 1, "`spacing` is no key of a crop file", "`space`"),
        ("leek", "cold:", "zzz:", 18, 1, "`zzz` is no key of a crop file", "knows"),
        ("leek", "  holds: 28 days [practice]", "  holds: 28 days", 16, 10, "names no source", "[practice]"),
        ("leek", "28 days [practice]", "28 days [practise]", 16, 19, "no source `practise`", "`practice`"),
        (
            "leek",
            "60 to 80 days [book-a-1990]",
            "60 to 80 days [book-a-1909]",
            15,
            34,
            "`book-a-1909`",
            "`book-a-1990`",
        ),
        ("leek", "60 to 80 days", "80 to 60 days", 15, 19, "runs backwards", "smaller number first"),
        ("leek", "3 to 5, usually 4", "3 to 5, usually 6", 13, 21, "the usual 6 lies outside 3 to 5", ""),
        ("leek", "15 to 40 ml", "15 to 40", 14, 9, "`15 to 40` wants its unit, ml", "15 to 40 ml"),
        ("leek", "10 C 16, ", "", 7, 12, "at least three temperatures", "5 C 15"),
        ("leek", "10 C 16, 15 C 9", "15 C 9, 10 C 16", 7, 12, "have to rise", "5 C 15"),
        ("leek", "5 to 10 days", "5 to 60 days", 17, 14, "hardening takes all of the time", ""),
        ("leek", "to a cell: 5 [", "to a cell: 2 [", 13, 21, "more plants to a cell than seeds", ""),
        ("leek", "to a cell: 5 [", "to a cell: some [", 12, 20, "`some` is no whole number", "e.g."),
        ("leek", "raised: module", "raised: modules", 11, 11, "`modules` is none of module, seed tray", "module"),
        ("leek", "15 to 20 C", "15 to 30 C", 9, 12, "lies outside the limits of `between`", ""),
        ("leek", "hardened: -8 C", "hardened: -1 C", 20, 13, "a hardened plant stands at least", ""),
        ("leek", "depth: 10 mm", "depth: 10 m", 35, 10, "no measure in mm", "3 to 6 mm"),
        ("leek", "depth: 10 mm", "depth: 300 mm", 35, 10, "no seed is sown 300 mm deep", ""),
        ("leek", "75 %", "175 %", 34, 13, "between 0 and 100 %", ""),
        (
            "leek",
            "3 weeks before last frost",
            "12 April",
            23,
            12,
            "no date of the calendar",
            "6 weeks before last frost",
        ),
        ("leek", "3 weeks before last frost", "spring", 23, 12, "`spring` is no date", "6 weeks before last frost"),
        ("leek", "  until: 4 weeks before last frost", "  until: day length 10 h", 30, 10, "rise or fall", "falls"),
        ("leek", "until: 5 weeks", "fleece: last frost, until: 5 weeks", 23, 5, "`from` falls before `fleece`", ""),
        ("leek", ", source: practice", "", 23, 5, "a row of `goes out` wants `source`", "source"),
        ("leek", "source: practice", "source: practise", 23, 79, "no source `practise`", "`practice`"),
        ("leek", "by: stands", "by: season", 29, 15, "`by: season` wants a date of the year", "after midsummer"),
        ("leek", "  ends with: bolting\n", "", 28, 7, "`harvest` wants a line `ends with`", "ends with: age"),
        ("leek", "  until: 4 weeks before last frost [practice]\n", "", 28, 7, "wants a line `lasts`", "7 to 14 days"),
        ("leek", "names: [leek]", "names: leek", 2, 8, "`names` wants a list of names", "names: [leek]"),
        ("leek", "latin: Allium porrum\n", "", 1, 1, "a crop file wants `latin`", ""),
        (
            "leek",
            "family: Amaryllidaceae",
            "family: x\nunnamed: winter",
            5,
            10,
            "`unnamed` is for crops with kinds",
            "Leave",
        ),
        ("leek", "cautions:", "cautions: none\nxx:", 42, 11, "wants `key: value` lines", ""),
        ("lettuce", "by date, else headed", "by date, else heady", 5, 10, "there is no kind `heady`", "headed, winter"),
        ("lettuce", "unnamed: by date, else headed\n", "", 1, 7, "what its bare name means", "unnamed: headed"),
        ("lettuce", "6 to 2, usually 4 weeks before", "2 to 6, usually 9 weeks before", 57, 19, "outside 2 to 6", ""),
        ("lettuce", "    until: day length rises", "    untill: day length rises", 59, 7, "`untill`", "`until`"),
        ("lettuce", "by: season", "by: stands", 58, 17, "`at least` does not go with this first pick", ""),
        (
            "onion",
            "      first pick, sown direct: 140 to 170 days [practice]\n",
            "",
            43,
            11,
            "sown direct`",
            "70 to 100",
        ),
        ("onion", "usually: tray", "usually: drill,", 35, 14, "`drill,` is none of tray, drill", "tray"),
        ("onion", "    usually: tray\n", "", 17, 3, "onion from seed wants a line `usually`", "usually: tray"),
        ("onion", "{as: seed, from", "{from", 40, 9, "each want a window", ""),
        (
            "onion",
            "usually 14 days after up",
            "usually 14 days",
            28,
            18,
            "days and a volume are wanted",
            "after up, into",
        ),
        ("onion", "18 to 28, usually 21 days", "10 to 12 days", 29, 15, "potting on has to come after", ""),
        ("onion", "18 to 28, usually 21 days", "50 to 60 days", 29, 15, "has to come before the tray is ready", ""),
        (
            "onion",
            "      prick out: the seed",
            "      prick ot: the seed",
            57,
            7,
            "`prick ot` is no key of `signs`",
            "`prick out`",
        ),
        ("onion", "    set:\n", "    cold:\n", 63, 7, "`what` is no key of `cold`", ""),
        ("onion", "a kilo: 180 to 250 [memory]", "to a bulb: 8 [practice]", 63, 13, "`set` wants a line `a kilo`", ""),
        ("onion", ", why: the plants are too big for the cold", "", 50, 9, "a row of `bolts` wants `why`", ""),
    ],
)
def test_a_mistake_at_its_place(crop: str, old: str, new: str, line: int, column: int, what: str, cure: str) -> None:
    found = spoilt(crop, old, new)
    places = [(m.spot.line, m.spot.column, in_english.what(m), in_english.cure(m)) for m in found]
    assert any((a, b) == (line, column) and what in c and cure in d for a, b, c, d in places), places
    assert all(m.spot.file == "spoilt.yaml" for m in found)


def test_a_slip_in_a_key_is_told_once_and_not_as_missing_too() -> None:
    found = spoilt("leek", "crop: leek", "crop: leek\nharvst: none")
    assert [in_english.what(m) for m in found] == ["`harvst` is no key of a crop file"]


def test_a_missing_block_is_one_mistake() -> None:
    found = spoilt("leek", "space:\n  rows: 30 cm apart [practice]\n  in the row: 25 cm [practice]\n", "")
    assert [in_english.what(m) for m in found] == ["leek wants a block `space`"]


def test_what_no_kind_takes_is_written_in_vain() -> None:
    found = spoilt("onion", "dries: 14", "drill:\n  seeds a metre: 50 [practice]\ndries: 14")
    assert [(m.spot.line, in_english.what(m)) for m in found] == [
        (15, "no kind takes this line: each has its own `drill`")
    ]


def test_a_mistake_of_the_crop_is_told_once_for_all_its_kinds() -> None:
    assert len(spoilt("lettuce", "890 [book-a-1990]", "890")) == 1


def test_all_mistakes_are_told_at_once() -> None:
    mistakes: list[Mistake] = []
    text = text_of("leek").replace("28 days [practice]", "28 days").replace("75 %", "75").replace("ml [", "mil [")
    assert read_crop(text, "leek.yaml", SOURCES, mistakes) is None
    assert [m.spot.line for m in in_order(mistakes)] == [14, 16, 34]


@pytest.mark.parametrize(("text", "what"), [("", "empty"), ("- a\n", "wants `key: value` lines"), ("crop:\n", "wants")])
def test_what_is_no_crop_file(text: str, what: str) -> None:
    mistakes: list[Mistake] = []
    assert read_crop(text, "x.yaml", None, mistakes) is None
    assert what in in_english.what(mistakes[-1])
