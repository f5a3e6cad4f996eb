"""Mistakes in crop files, and those that only the schedule can see, are made of phrases; so is an empty crop file."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from datetime import date
from pathlib import Path

import pytest

from sowsheet.catalogue.catalogue import Catalogue
from sowsheet.catalogue.form import BLOCKS, ROWS
from sowsheet.catalogue.read import read_crop
from sowsheet.catalogue.records import Raised
from sowsheet.catalogue.show import NotKnown, crop_page
from sowsheet.catalogue.sources import read_sources
from sowsheet.catalogue.template import WAYS, template
from sowsheet.cli.print_ import Printing, SheetName
from sowsheet.exports.tell import told_back
from sowsheet.garden.records import Place, Room, Site
from sowsheet.reading.mistakes import Mistake
from sowsheet.schedule.plan import schedule
from sowsheet.site.record import read_record
from sowsheet.words.language import LANGUAGES, Language, language_of
from tests.catalogue import test_catalogue, test_read
from tests.catalogue.conftest import SHELF, SOURCES
from tests.examples import ROOT
from tests.made import catalogue, garden
from tests.site import test_record
from tests.words.pseudo import leaks, plan_in, pseudo
from tests.words.wrong_files import phrases_in

GREEK = pseudo(language_of("en"))

# crop files with one piece of text put otherwise, beside those of tests/catalogue
SPOILT = [
    ("leek", "to a cell: 5 [", "to a cell: 0 ["),
    ("leek", "3 to 5, usually 4", "some"),
    ("leek", "cautions:", "stands for: long\ncautions:"),
    ("leek", "4 to 28 C", "cool to warm"),
    ("leek", "28 days [", "0 days ["),
    ("leek", "soft: -4 C", "soft: -4 to -2 C"),
    ("leek", "10 C 16, 15 C 9, 20 C 7", "10 C, 15 C 9, 20 C 7"),
    ("leek", "5 to 10 days", "a while"),
    ("leek", "up: loops show", "up: [practice]"),
    ("leek", "up: loops show", "up: '[practice]'"),
    ("leek", "up: loops show", "up:"),
    ("leek", "up: loops show\n", ""),
    ("leek", "3 weeks before last frost", "at full moon"),
    ("leek", "source: practice", "source: {a: b}"),
    ("leek", "28 days [practice]", "28 days [almanac]"),
    ("leek", "seed:\n", "seed: [a]\nx:\n"),
    ("leek", "goes out:\n  - {", "goes out:\n  x: {"),
    ("leek", "crop: leek", "crop: []"),
    ("leek", "cautions:", "kinds: x\ncautions:"),
    ("leek", "cautions:", "usually: tray\ncautions:"),
    ("leek", "cautions:", "rests: 14 days [practice]\ncautions:"),
    ("leek", "ends with: bolting", "ends with: cutting"),
    ("leek", "in the bed: -12 C", "in the bed: 12 C"),
    ("lettuce", "unnamed: by date, else headed", "unnamed: []"),
    ("onion", "into 300 to 500 ml", "into 10 to 20 ml"),
    ("onion", "a kilo: 180 to 250 [memory]", "a kilo: 180 to 250 [memory]\n      to a bulb: 8 [memory]"),
    ("onion", "a kilo: 180 to 250 [memory]", "a kilo: 180 to 250 [memory]\n      chits: 28 days [memory]"),
    ("onion", "usually 80 [practice]", "usually 80 [practice]\n      grams a square metre: 15 [practice]"),
    ("onion", "first pick: 105 to 130, usually 118 days", "first pick: 1 week after midsummer"),
]
TENDER = [("-12 C", "0 C"), ("by: stands", "by: season"), ("ends with: bolting", "ends with: frost")]
TENDER += [("110 to 140, usually 120 days", "first frost")]

NOWHERE = {"site": Site(52.4)}
PLACES = {"places": (Place("bench", ("growing on",), Room(trays=9), under="unheated glass"),)}
LINES: list[tuple[str, Mapping[str, object]]] = [
    ("peas 29 February", {}),
    ("peas week 53", {}),
    ("lettuce 1 week after last frost", NOWHERE),
    ("lettuce every week of picking May to October", NOWHERE),
    ("lettuce every 3 weeks", NOWHERE),
    ("headed lettuce every week of picking 1 February to 1 March", {}),
    ("chard every week of picking", {}),
    ("2 rows of lettuce and 2 m of kale 1 May", {}),
    ("8 rows of carrots mid-April", {}),
    ("4 rows of carrots and 4 rows of beetroot mid-April", {}),
    ("6 rows of carrots and beetroot mid-April", {}),
    ("60 lettuce every 2 weeks from April to August", {}),
    ("5 m of kale and 4 m of leeks 1 May", {}),
    ("9 m of kale and leeks 1 May", {}),
    ("tomatoes 1 June, 9 m of lettuce between", {}),
    ("tomatoes 1 June, lettuce between from November", {}),
    ("garlic since October, lettuce every 2 weeks between", {}),
    ("rhubarb there, then leeks", {}),
    ("lettuce 1 April under fleece till 1 April", {}),
    ("lettuce 1 April under mesh till 1 April", {}),
    ("lettuce 1 April under net till 1 April", {}),
    ("lettuce since April 2028", {}),
    ("tomatoes there", {}),
    ("lettuce till June", {}),
    ("tomatoes till March", {}),
    ("leeks mid-June till April 2027", {}),
    ("lettuce planted 1 April sown 1 May", {}),
    ("garlic sown direct 1 May", {}),
    ("celery sown direct 1 May", {}),
    ("carrots sown direct 1 May, on the bench", PLACES),
    ("asparagus picked from July", NOWHERE),
]
ALSO = ["lettuce mid-March", "60 lettuce", "60 carrots sown 1 March"]


def told(mistakes: Iterable[Mistake]) -> Iterator[str]:
    for mistake in mistakes:
        yield from (GREEK.tell(mistake.what), GREEK.tell(mistake.cure))


def rows_of(test: object) -> list[tuple[str, ...]]:
    """The rows of a test's table."""
    (mark,) = vars(test)["pytestmark"]
    return list(mark.args[1])


def vocabulary() -> Iterator[str]:
    """What a crop file writes in English in every language."""
    yield from (
        "practice",
        "memory",
        "sources.yaml",
        "leek",
        "lettuce",
        "onion",
        "headed, winter",
        "kurrat",
        "by date, else",
        "ask",
    )
    yield from ("crop", "names", "names en-US", "unnamed", "kinds", "ml", "mm")
    for block, forms in (*BLOCKS.items(), *ROWS.items()):
        yield block
        for key, form in forms.items():
            yield from (key, *form.choices)


def spoilt(crop: str, *pairs: tuple[str, str]) -> list[Mistake]:
    text = (SHELF / f"{crop}.yaml").read_text("utf-8")
    for old, new in pairs:
        assert old in text, old
        text = text.replace(old, new, 1)
    mistakes: list[Mistake] = []
    assert read_crop(text, "spoilt.yaml", SOURCES, mistakes) is None
    return mistakes


def of_crop_files() -> list[Mistake]:
    """Those of the tables of tests/catalogue, and of those above."""
    known = rows_of(test_read.test_a_mistake_at_its_place)
    found = [m for crop, old, new, *_ in (*known, *SPOILT) for m in spoilt(crop, (old, new))]
    return found + spoilt("leek", *TENDER)


def of_own_files(folder: Path) -> list[Mistake]:
    """Those of the table of tests/catalogue, laid over the shipped catalogue."""
    path, mistakes = folder / "own.yaml", list[Mistake]()
    for own, *_ in rows_of(test_catalogue.test_a_mistake_in_an_own_file):
        path.write_text(own, "utf-8")
        opened = Catalogue.open(mistakes, [path])
        opened.load([page.key for page in opened.own], mistakes)
    return mistakes


def of_sources() -> list[Mistake]:
    text, mistakes = (SHELF / "sources.yaml").read_text("utf-8"), list[Mistake]()
    for old, new, *_ in rows_of(test_catalogue.test_a_mistake_in_the_sources):
        read_sources(text.replace(old, new, 1), "sources.yaml", mistakes)
    read_sources("- a", "sources.yaml", mistakes)
    return mistakes


def of_schedule(
    words: str = "", also: tuple[str, ...] = (), options: Mapping[str, object] | None = None
) -> list[Mistake]:
    """Those of a garden of one line that reading alone finds nothing wrong with."""
    mistakes: list[Mistake] = []
    lines = (words,) if words else ()
    made = garden(*lines, also=also, mistakes=mistakes, **(options or {}))  # type: ignore[arg-type]
    assert not mistakes, (words, also)
    made.__dict__["words"] = GREEK
    _, found = schedule(made, catalogue().crop)
    assert found, (words, also)
    return found


def all_of_schedule() -> list[Mistake]:
    found = [m for words, options in LINES for m in of_schedule(words, options=options)]
    return found + [m for words in ALSO for m in of_schedule(also=(words,))]


def test_a_mistake_in_a_crop_file_is_made_of_phrases() -> None:
    for mistake in of_crop_files():
        assert leaks(told([mistake]), [*vocabulary(), mistake.spot.excerpt]) == [], mistake


def test_a_mistake_in_an_own_file_is_made_of_phrases(tmp_path: Path) -> None:
    for mistake in (*of_own_files(tmp_path), *of_sources()):
        assert leaks(told([mistake]), [*vocabulary(), mistake.spot.excerpt, "read, second-hand"]) == [], mistake


def test_a_mistake_that_the_schedule_sees_is_made_of_phrases() -> None:
    crops = [name for crop in catalogue().crops.values() for kind in crop.kinds for name in (kind.name, kind.crop)]
    for mistake in all_of_schedule():
        assert leaks(told([mistake]), [*crops, "Bed 1", mistake.spot.excerpt]) == [], mistake


def test_what_is_wrong_with_a_record_and_what_was_noticed_are_made_of_phrases() -> None:
    texts = [text for text, _ in rows_of(test_record.test_what_cannot_be_read_is_one_mistake_with_a_line_and_a_cure)]
    bad = [line for line, _ in rows_of(test_record.test_a_bad_line_is_left_out_and_told_with_its_number)]
    texts += ["\n".join(test_record.with_line(200, line)) for line in bad]
    mistakes, noticed = list[Mistake](), list[str]()
    for text in texts:
        read_record(text, "station.csv", GREEK, mistakes, noticed)
    assert len(mistakes) >= 11
    assert len(noticed) > len(bad)
    assert leaks([*told(mistakes), *noticed], ["tmin, tmax, min temp"]) == []


def test_every_phrase_of_these_mistakes_was_told(tmp_path: Path) -> None:
    found = (*of_crop_files(), *of_own_files(tmp_path), *of_sources(), *all_of_schedule())
    told = {phrase.key for m in found for said in (m.what, m.cure) for phrase in phrases_in(said)}
    wanted = {key for key in GREEK.phrases if key.startswith(("mistake.crops.", "mistake.schedule."))}
    assert wanted - told == set()


@pytest.mark.parametrize("name", ["leak", "zzz", "beans"])
def test_the_answer_to_a_name_that_is_not_known_is_made_of_phrases(name: str, monkeypatch: pytest.MonkeyPatch) -> None:
    opened = Catalogue.open([])
    monkeypatch.setattr("sowsheet.catalogue.catalogue.language_of", lambda _: GREEK)
    found = crop_page(opened, name, False, [])
    assert isinstance(found, NotKnown)
    assert leaks([found.sentence], ["French, broad, field or runner beans"]) == []


@pytest.mark.parametrize("raised", WAYS)
def test_the_comments_of_an_empty_crop_file_are_made_of_phrases(raised: Raised) -> None:
    lines = template("sea kale", raised, GREEK).splitlines()
    comments = [line.partition("# ")[2] for line in lines if "|" not in line]
    values = [form.example for block in BLOCKS.values() for form in block.values() if isinstance(form.example, str)]
    assert leaks(comments, [*vocabulary(), *values, "sea kale", "weeks before first frost"]) == []


@pytest.mark.parametrize("tag", LANGUAGES)
@pytest.mark.parametrize("raised", WAYS)
def test_an_empty_crop_file_asks_for_the_same_in_every_language(raised: Raised, tag: str) -> None:
    """Its keys and values are the file's own vocabulary; only comments differ."""

    def without_comments(words: Language) -> list[str]:
        return [line.partition("#")[0].rstrip() for line in template("sea kale", raised, words).splitlines()]

    assert without_comments(language_of(tag)) == without_comments(language_of("en"))


@pytest.mark.parametrize("tag", LANGUAGES)
def test_what_is_rarely_wanted_is_not_read_for_what_is_printed(tag: str) -> None:
    words = language_of.__wrapped__(tag)
    plan = plan_in(words, ROOT / "out_examples" / "twelve-beds" / "garden.yaml")
    assert list(told_back(plan.garden, plan.schedule, plan.doubts, plan.noticed))
    Printing(plan, "A4", date(2027, 2, 1)).sheet(SheetName.JOB_SHEETS)
    assert "rare" not in words.__dict__
    words.say("mistake.schedule.later day")
    assert "rare" in words.__dict__
