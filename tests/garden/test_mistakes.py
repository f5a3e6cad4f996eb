"""Every mistake stands where it was made, with a cure; all of them are told at once, in order."""

from __future__ import annotations

from pathlib import Path

import pytest

from sowsheet.garden.read import read_garden
from sowsheet.reading.mistakes import Mistake
from sowsheet.words.mistakes import shown
from tests import in_english
from tests.garden.files import PARTS, read_text, refused, text_of
from tests.garden.test_keys import HIGH, LOW
from tests.reading.book import BOOK, marked

SITE = "{latitude: 52.4, "
TRAY = "{cells: 60, size: 53 cm x 31 cm, cell volume: 30 ml"
COLD = "[9, 1.0, 2.3, 3.9, 6.7, 9.6, 11.6, 11.5, 9.3, 6.7, 3.6, 1.5]"
FAHRENHEIT = "[43, 45, 50, 50, 50, 50, 71, 50, 50, 50, 50, 45]"
ALL_FAHRENHEIT = "[44, 45, 50, 55, 61, 66, 71, 70, 64, 57, 50, 45]"
SOUTHERN = "{min: [9, 9, 8, 6, 4, 2, 1, 1, 3, 4, 6, 8], max: [21, 20, 18, 14, 10, 7, 6, 7, 10, 14, 18, 20]}"

WRONG = [
    # names
    ("garden", "{a: b}", "{a: b}", "a few words"),
    ("garden", '"Tern\\tHollow"', '"Tern\\tHollow"', "U+0009"),
    ("garden", "''", "garden", "is empty"),
    ("beds", '{"A\\u200b": kale 1 May}', '"A\\u200b"', "U+200B zero width space"),
    ("beds", "{🥕: kale 1 May}", "🥕", "U+1F955 carrot"),
    ("beds", "{'': kale 1 May}", "''", "a name is missing"),
    ("beds", "\n  A: kale 1 May\n  A: leeks", "A", "given twice; the first stands on line 6"),
    ("beds", "\n  North 1: kale 1 May\n  'north  1': leeks", "'north  1'", "given twice; the first stands on line 6"),
    ("places", "\n  b: {for: growing on}\n  B: {for: growing on}", "B", "given twice"),
    ("trays", f"\n  a: {TRAY}}}\n  A: {TRAY}}}", "A", "given twice"),
    ("places", "{a: {for: germinating}}", "A", "both a bed and a place"),
    # season
    ("season", "2027/28", "2027/28", "July 2027 to June 2028"),
    ("season", "27", "27", "is no season"),
    ("season", "", "g", "wants `season`"),
    ("garden", "", "s", "wants `garden`"),
    ("beds", "", "g", "wants `beds`"),
    ("garden", " ", "garden", "needed: write it after the colon, e.g. `garden: Tern Hollow`"),
    ("season", " ", "season", "needed: write it after the colon, e.g. `season: 2027`"),
    # the site
    ("site", "{latitude: }", "latitude", "needed: write it after the colon, e.g. `latitude: 52.4`"),
    ("site", SITE + "last frost: }", "last frost", "or leave `last frost` out"),
    ("site", "", "g", "wants `site`"),
    ("site", "52.4", "52.4", "`key: value` lines"),
    ("site", "{latitud: 52.4}", "latitud", "Did you mean `latitude`?"),
    ("site", "{latitude: 0.1 W}", "0.1 W", "longitude"),
    ("site", SITE + "last frost: 10 May}", "10 May", "`10 May (average)` if half of all years"),
    ("site", SITE + "last frost: 10 May (avrage)}", "avrage", "Did you mean `average`?"),
    ("site", SITE + "last frost: May (average)}", "May", "a day of the calendar"),
    ("site", SITE + "last frost: week 19 (average)}", "week 19", "a day of the calendar"),
    ("site", SITE + "last frost: 10 May 2026 (average)}", "10 May 2026", "`10 May (average)`"),
    ("site", SITE + "last frost: 31 June (safe)}", "31 June", "June has 30 days"),
    ("site", SITE + "last frost: 10/5 (safe)}", "10/5", "`10 May`"),
    ("site", SITE + "last frost: 12 October (safe)}", "12 October (safe)", "the last frost cannot fall"),
    (
        "site",
        "{latitude: 37.5, last frost: 20 September (safe), first frost: 25 May (safe)}",
        "37.5",
        "`latitude: 37.5 S`",
    ),
    ("site", f"{SITE}temperatures: {{min: {LOW}}}}}", f"{{min: {LOW}}}", "wants `max`"),
    ("site", f"{SITE}temperatures: {{min: 1.0, max: {HIGH}}}}}", "1.0", "a list of twelve"),
    ("site", f"{SITE}temperatures: {{min: [1.0, 2.0], max: {HIGH}}}}}", "[1.0, 2.0]", "has 2 values"),
    ("site", f"{SITE}temperatures: {{min: {COLD}, max: {HIGH}}}}}", "9", "January"),
    (
        "site",
        f"{SITE}temperatures: {{min: {LOW}, max: {FAHRENHEIT}}}}}",
        "71",
        "each number of the list its unit: `71 F`",
    ),
    ("site", f"{SITE}temperatures: {{min: {LOW}, max: {ALL_FAHRENHEIT}}}}}", "55", "`55 F`"),
    ("site", f"{SITE}temperatures: {{min: {LOW}, max: {HIGH.replace('7.4', '7;4')}}}}}", "7;4", "not a number"),
    (
        "site",
        f"{SITE}temperatures: {SOUTHERN}}}",
        SOUTHERN,
        "January is not the warmer end",
    ),
    # places
    ("places", "warm shelf", "warm shelf", "a name for each place"),
    ("places", "{a: {room: 6 trays}}", "{room: 6 trays}", "wants `for`"),
    ("places", "{b: {for: germinating, growing on}}", "growing on", '`for: "germinating, growing on"`'),
    ("places", "{b: {for: germinating and growing on}}", "germinating and growing on", "`[germinating, growing on]`"),
    ("places", "{b: {for: Growing on & hardening off}}", "Growing on & hardening off", "`[Growing on, hardening off]`"),
    ("places", "{b: {for: germinating and hardning off}}", "germinating and hardning off", "germinating"),
    ("places", "{b: {for: hardning off}}", "hardning off", "Did you mean `hardening off`?"),
    ("places", "{b: {for: [growing on, {a: b}]}}", "{a: b}", "no word of `for`"),
    ("places", "{b: {for: germinating, held at: 20}}", "20", "not a temperature"),
    ("places", "{b: {for: germinating, held at: 50 C}}", "50 C", "to raise plants at"),
    ("places", "{b: {for: germinating, held at: 20 C, made: 1 March}}", "made", "both `held at` and `made`"),
    ("places", "{b: {for: germinating, made: 3 weeks before last frost}}", "3 weeks before last frost", "calendar"),
    ("places", "{b: {for: growing on, aired: badly}}", "badly", "aired"),
    ("places", "{b: {for: growing on, on cold nights: warm}}", "warm", "how much warmer than outdoors"),
    ("places", "{b: {for: growing on, on cold nights: 20 C warmer}}", "20 C warmer", "more than 12 C warmer"),
    ("places", "{b: {for: growing on, under: unheated gas}}", "unheated gas", "Did you mean `unheated glass`?"),
    ("places", "{b: {for: growing on, room: 6}}", "6", "`6 trays`"),
    ("places", "{b: {for: growing on, room: 0 trays}}", "0 trays", "cannot be"),
    ("places", "{b: {for: growing on, room: large}}", "large", "not a size"),
    ("places", "{b: {for: growing on, from: Marhc}}", "Marhc", "no date"),
    ("places", "{b: {for: growing on, till: May}}", "till", "Did you mean `until`?"),
    # trays
    ("trays", "[60-cell]", "[60-cell]", "a name for each kind of tray"),
    ("trays", "{60-cell: {size: 53 cm x 31 cm}}", "60-cell", "how many cells"),
    ("trays", "{b: {size: 53 cm x 31 cm, cell volume: 30 ml}}", "b", "how many cells"),
    ("trays", "{b: {cells: 60, cell volume: 30 ml}}", "{cells: 60, cell volume: 30 ml}", "wants `size`"),
    ("trays", "{b: {cells: 60, size: 53 cm x 31 cm}}", "b", "fill a cell with water"),
    ("trays", f"{{b: {TRAY}, pots: 60}}}}", "pots", "both `cells` and `pots`"),
    ("trays", "{b: {cells: 0, size: 53 cm x 31 cm, cell volume: 30 ml}}", "cell volume", "has no cells"),
    ("trays", "{b: {cells: 60, size: 53 cm x 31 cm, cell volume: 30 l}}", "30 l", "do not fit"),
    ("trays", "{b: {cells: 60, size: 53 m x 31 m, cell volume: 30 ml}}", "53 m x 31 m", "metres or centimetres?"),
    ("trays", "{b: {cells: 6.5, size: 53 cm x 31 cm, cell volume: 30 ml}}", "6.5", "number of cells"),
    ("trays", "{b: {cells: 2000, size: 53 cm x 31 cm, cell volume: 1 ml}}", "2000", "from 0 to 1000"),
    ("trays", f"{{b: {TRAY}, owned: some}}}}", "some", "number of trays"),
    # habits
    ("work days", "Tuesday, Saturnday", "Saturnday", "Did you mean `Saturday`?"),
    ("work days", "every day", "every day", "Leave `work days` out"),
    ("work days", "Monday to Tuesday to Friday", "Monday to Tuesday to Friday", "not understood"),
    ("work days", "{Tuesday, Saturday}", "{Tuesday, Saturday}", "a few words"),
    ("house", "{spare: 10}", "10", "e.g. `10 %`"),
    ("house", "{spair: 10 %}", "spair", "Did you mean `spare`?"),
    ("house", "{hardening: 4}", "4", "`4 days`"),
    ("house", "{hardening: 9 weeks}", "9 weeks", "no more than 60 days"),
    ("house", "{fleece: 5 months}", "5 months", "`5 weeks`"),
    ("house", "{risk: 1 in 1}", "1 in 1", "at most 1 in 2"),
    ("house", "{risk: 0 %}", "0 %", "`1 in 10`"),
    ("house", "{risk: 1 in 10000}", "1 in 10000", "at least 1 in 1000"),
    ("house", "{risk: low}", "low", "not a percentage"),
    ("paper", "A5", "A5", "A4, A3, A2"),
    # beds
    ("beds are", "6 m", "6 m", "not a size"),
    ("beds are", "6 m x 1.2 cm", "6 m x 1.2 cm", "metres or centimetres?"),
    ("beds are", "", "A", "`beds are: 6 m x 1.2 m`"),
    ("beds", "[kale]", "[kale]", "a name for each bed"),
    ("beds", "kale 1 May", "kale 1 May", "a name for each bed"),
    ("beds", "{}", "beds", "no bed is named"),
    ("beds", " ", "beds", "no bed is named"),
    ("beds", "{A: kale 1 May, then leeks}", "then leeks", "quotes"),
    (
        "beds",
        "\n  A: {size: 4 m x 1 m, plan: kale 1 May, then leeks}",
        "then leeks",
        '`plan: "kale 1 May, then leeks"`',
    ),
    ("beds", "\n  A: {kale 1 May, then leeks}", "{kale 1 May, then leeks}", "in braces"),
    ("beds", "\n  A: [kale 1 May, then leeks]", "[kale 1 May, then leeks]", "not a list"),
    ("beds", "\n  A: {sise: 4 m x 1 m}", "sise", "Did you mean `size`?"),
    ("beds", "\n  A:\n    plann: kale 1 May", "plann", "Did you mean `plan`?"),
    ("beds", "\n  A:\n    under: fleece", "fleece", "`lettuce 1 April under fleece`"),
    ("beds", "\n  A:\n    under: indoors", "indoors", "outdoors"),
    ("beds", "\n  A: kale 1 May # curly", "# curly", "cut off"),
    ("beds", "\n  A: kael 1 May", "kael", "there is no crop"),
    ("beds", "\n  A:\n    plan:\n      - kale 1 May\n      - leeks 31 June", "31 June", "June has 30 days"),
    ("beds", "\n  A:\n    plan:\n      - kale 1 May # curly\n      - leeks", "# curly", "cut off"),
    ("beds", "\n  A:\n    plan:\n      - kale: 1 May", "k", "a plan is words"),
    ("beds", "\n  A:\n    plan:\n      - kale 1 May\n      - ''", "''", "empty"),
    ("beds", "\n  A: , lettuce", ",", "Begin with a crop"),
    ("beds", "\n  A:\n    plan:\n      - , lettuce", ",", "Begin with a crop"),
    ("beds", "\n  A: ?", "?", "`maybe lettuce`"),
    ("beds", "\n  A: ? lettuce", "?", "`maybe lettuce`"),
    ("beds", "\n  A: - lettuce", "-", "Leave the `-` out"),
    ("beds", "\n  A: | kale", "k", "Leave the sign out"),
    ("beds", "\n\tA: kale", "\t", "Indent with spaces"),
    ("beds", "\n  A: kale\n\tB: kale", "\t", "Indent with spaces"),
    ("sow also", "\n  - 60 lettuce 1 March, then kale", "kale", "one sowing"),
    ("sow also", "\n  - 60 lettuce: 1 March", "6", "a plan is words"),
    ("sow also", "\n  - ''", "''", "empty"),
    ("crops", "own.yaml", "own.yaml", "no file `own.yaml`"),
    ("crops", "{own: own.yaml}", "{own: own.yaml}", "no word of `crops`"),
    ("crops", "x" * 300, "x" * 300, "no file"),
    # keys
    ("bed", "{A: kale}", "bed", "is no key of a garden file"),
    ("pappers", "A4", "pappers", "Did you mean `paper`?"),
]


@pytest.mark.parametrize(("key", "value", "words", "says"), WRONG)
def test_one_mistake_in_its_place(tmp_path: Path, key: str, value: str, words: str, says: str) -> None:
    (mistake,) = refused(tmp_path, key, value)
    assert marked(mistake) == words
    assert says in f"{in_english.what(mistake)} {in_english.cure(mistake)}"
    assert in_english.cure(mistake)
    lines = (tmp_path / "garden.yaml").read_text(encoding="utf-8").splitlines()
    assert mistake.spot.file == str(tmp_path / "garden.yaml")
    assert mistake.spot.excerpt == lines[mistake.spot.line - 1]


def test_file_line_column(tmp_path: Path) -> None:
    text = text_of(
        {"site": "\n  latitude: 52.4\n  last frost: 10 May", "places": "\n  shelf: {for: germinating, rom: 6 trays}"}
    )
    _, mistakes = read_text(tmp_path, text)
    file = tmp_path / "garden.yaml"
    assert [shown(m, in_english.EN).splitlines()[:3] for m in mistakes] == [
        [
            f"{file}:5:15: is this the average date, or the safe one?",
            "      last frost: 10 May",
            "                  ^^^^^^",
        ],
        [
            f"{file}:9:29: `rom` is no key of the place `shelf`",
            "      shelf: {for: germinating, rom: 6 trays}",
            "                                ^^^",
        ],
    ]


def test_all_mistakes_at_once_and_in_order(tmp_path: Path) -> None:
    text = """\
gardn: Tern Hollow
season: next
beds:
  A: kale 1 May, then pees
  B:
    size: 4 m x 1 cm
    plan:
      - leeks 31 June
      - something
house: {risk: often}
site:
  latitude: 95
  last frost: 10 May
trays:
  a: {cells: sixty, size: 53 cm x 31 cm}
"""
    garden, mistakes = read_text(tmp_path, text)
    assert garden is None
    assert [(m.spot.line, marked(m)) for m in mistakes] == [
        (1, "gardn"),
        (2, "next"),
        (4, "A"),
        (4, "pees"),
        (6, "4 m x 1 cm"),
        (8, "31 June"),
        (9, "something"),
        (10, "often"),
        (12, "95"),
        (13, "10 May"),
        (15, "sixty"),
    ]


def test_mistakes_are_added_to_those_before(tmp_path: Path) -> None:
    (tmp_path / "garden.yaml").write_text(text_of({"paper": "A5"}))
    before = refused(tmp_path, "season", "27")
    mistakes = list(before)
    assert read_garden(tmp_path / "garden.yaml", BOOK, mistakes) is None
    assert mistakes == before * 2


def test_a_size_that_is_wrong_is_told_once(tmp_path: Path) -> None:
    (mistake,) = read_text(tmp_path, text_of({"beds are": "6 by 1.2", "beds": "{A: kale 1 May, B: leeks}"}))[1]
    assert marked(mistake) == "6 by 1.2"


def _of_file(path: Path) -> Mistake:
    mistakes: list[Mistake] = []
    assert read_garden(path, BOOK, mistakes) is None
    (mistake,) = mistakes
    assert (mistake.spot.file, mistake.spot.line, mistake.spot.column) == (str(path), 1, 1)
    return mistake


def test_no_such_file(tmp_path: Path) -> None:
    assert "no such file" in in_english.what(_of_file(tmp_path / "nowhere.yaml"))


def test_a_folder(tmp_path: Path) -> None:
    assert "a folder" in in_english.what(_of_file(tmp_path))


@pytest.mark.parametrize("data", [b"\x89PNG\r\n\x1a\n\x00\x00", b"garden: \xff\xfe", b"garden: a\x00b", b""])
def test_no_text(tmp_path: Path, data: bytes) -> None:
    path = tmp_path / "garden.yaml"
    path.write_bytes(data)
    _of_file(path)


@pytest.mark.parametrize("text", ["just words\n", "- a\n- list\n", "garden: [\n", "garden: a: b\n", "&a [*a]\n"])
def test_no_garden(tmp_path: Path, text: str) -> None:
    garden, mistakes = read_text(tmp_path, text)
    assert garden is None
    assert mistakes


def test_a_file_with_a_mark_of_its_encoding_and_line_ends_of_another_system(tmp_path: Path) -> None:
    text = "\ufeff" + text_of({}).replace("\n", "\r\n")
    garden, mistakes = read_text(tmp_path, text)
    assert mistakes == []
    assert garden is not None
    assert garden.name == PARTS["garden"]
