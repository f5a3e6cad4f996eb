"""Opening the catalogue, and the grower's own crop files laid over it."""

from __future__ import annotations

from pathlib import Path

import pytest

from sowsheet.catalogue.catalogue import Catalogue
from sowsheet.catalogue.records import Crop, Kind, Range
from sowsheet.catalogue.sources import read_sources
from sowsheet.reading.mistakes import Mistake, in_order
from sowsheet.reading.names import Name
from tests import in_english
from tests.catalogue.conftest import SHELF

NEW_CROP = (SHELF / "leek.yaml").read_text("utf-8").replace("leek", "kurrat").replace(" [practice]", "")


def opened(shelf: Path, *own: str) -> tuple[Catalogue, list[Mistake]]:
    """The small catalogue with own crop files of these texts, all its crops loaded."""
    mistakes: list[Mistake] = []
    paths = [shelf.parent / f"own{number}.yaml" for number, _ in enumerate(own)]
    for path, text in zip(paths, own, strict=True):
        path.write_text(text, "utf-8")
    return Catalogue.open(mistakes, paths, shelf).load(None, mistakes), in_order(mistakes)


def amended(shelf: Path, crop: str, *own: str) -> Crop:
    catalogue, mistakes = opened(shelf, *own)
    assert not mistakes
    return catalogue.crop(crop)


def kind_of(crop: Crop, key: str) -> Kind:
    return next(kind for kind in crop.kinds if kind.key == key)


def test_only_what_is_asked_for_is_read(shelf: Path, small: Catalogue) -> None:
    (shelf / "onion.yaml").write_text("crop: [", "utf-8")
    mistakes: list[Mistake] = []
    loaded = small.load(["leek"], mistakes)
    assert not mistakes
    assert loaded.crop("leek").names == ("leek",)
    assert set(loaded.load(["leek", "lettuce"], mistakes).crops) == {"leek", "lettuce"}
    assert small.names.find(("onions",)) is not None
    with pytest.raises(KeyError):
        loaded.crop("onion")
    assert set(loaded.load(["onion"], mistakes).crops) == set()
    assert mistakes[0].spot.file == "onion.yaml"


def test_own_numbers_are_laid_over_field_by_field(shelf: Path) -> None:
    leek = amended(shelf, "leek", "crop: leek\nharvest:\n  first pick: 150 days\n").kinds[0]
    assert leek.harvest.first_pick == Range(150, 150, 150)
    assert leek.harvest.by == "stands"
    assert leek.harvest.until is not None
    assert leek.sources["harvest.first pick"] == ("grower",)
    assert leek.sources["harvest.until"] == ("practice",)


def test_own_numbers_of_one_kind(shelf: Path) -> None:
    own = "crop: lettuce\nkinds: {winter: {seed: {comes up: 70 %}, harvest: {until: 2 weeks after last frost}}}\n"
    lettuce = amended(shelf, "lettuce", own)
    winter, headed = kind_of(lettuce, "winter"), kind_of(lettuce, "headed")
    assert winter.seed is not None
    assert headed.seed is not None
    assert (winter.seed.comes_up, headed.seed.comes_up) == (0.7, 0.8)
    assert winter.seed.per_g == 890
    assert winter.harvest.by == "season"


def test_an_own_list_is_taken_whole(shelf: Path) -> None:
    own = "crop: lettuce\nkinds:\n  winter:\n    goes out:\n      - {from: first frost, until: shortest day}\n"
    assert len(kind_of(amended(shelf, "lettuce", own), "winter").windows) == 1


def test_another_way_to_date_the_harvest_is_taken_whole(shelf: Path) -> None:
    own = "crop: leek\nharvest:\n  by: days from planting\n  first pick: 90 days\n  ends with: frost\n"
    _, mistakes = opened(shelf, own)
    assert [in_english.what(m) for m in mistakes] == ["leek: `harvest` wants a line `lasts`"]
    assert mistakes[0].spot.file.endswith("own0.yaml")


def test_own_names_and_kinds_are_added(shelf: Path) -> None:
    own = "crop: lettuce\nnames: [salat]\nkinds:\n  giant:\n    names: [monster]\n    space:\n      rows: 45 cm\n"
    catalogue, mistakes = opened(shelf, own)
    assert not mistakes
    assert catalogue.names.find(("salats",)) == Name("lettuce", None)
    assert catalogue.names.find(("monsters",)) == Name("lettuce", "giant")
    assert catalogue.names.find(("giant", "lettuces")) == Name("lettuce", "giant")
    giant = kind_of(catalogue.crop("lettuce"), "giant")
    assert (giant.name, giant.space.row_gap_cm.usual, giant.space.in_row_cm.usual) == ("giant lettuce", 45, 30)


def test_a_crop_without_kinds_can_be_given_one(shelf: Path) -> None:
    own = "crop: leek\nunnamed: thin\nkinds:\n  thin:\n    space:\n      in the row: 5 cm\n"
    leek = amended(shelf, "leek", own)
    assert [(kind.key, kind.space.in_row_cm.usual) for kind in leek.kinds] == [("thin", 5)]


def test_a_new_crop_needs_no_sources_and_no_family(shelf: Path) -> None:
    text = NEW_CROP.replace("family: Amaryllidaceae\n", "")
    catalogue, mistakes = opened(shelf, text)
    assert not mistakes
    assert catalogue.names.find(("kurrats",)) == Name("kurrat", None)
    kind = catalogue.crop("kurrat").kinds[0]
    assert kind.sources["space.rows"] == ("grower",)
    assert kind.sources["cold.soft"] == ("memory",)


def test_one_file_may_hold_several_crops(shelf: Path) -> None:
    text = "- crop: leek\n  dries: 3 days\n- crop: lettuce\n  dries: 1 week\n"
    catalogue, mistakes = opened(shelf, text)
    assert not mistakes
    assert catalogue.crop("leek").kinds[0].dries_days == Range(3, 3, 3)
    assert all(kind.dries_days == Range(7, 7, 7) for kind in catalogue.crop("lettuce").kinds)


def test_of_two_own_files_the_later_wins(shelf: Path) -> None:
    leek = amended(shelf, "leek", "crop: leek\ndries: 3 days\n", "crop: leek\ndries: 5 days\n")
    assert leek.kinds[0].dries_days == Range(5, 5, 5)


@pytest.mark.parametrize(
    ("own", "line", "what", "cure"),
    [
        ("crop: leek\nharvest:\n  firts pick: 90 days\n", 3, "`firts pick` is no key of `harvest`", "`first pick`"),
        ("crop: leek\nharvest:\n  first pick: soon\n", 3, "`soon` is no date", "e.g."),
        ("crop: leek\nharvest:\n  first pick: 1 July\n", 3, "no date of the calendar", "e.g."),
        ("crop: leeks\ndries: 3 days\n", 1, "under another key", "Write `crop: leek`."),
        ("crop: onion sets\ndries: 3 days\n", 1, "under another key", "`kinds: from sets:`"),
        ("crop: leak\ndries: 3 days\n", 1, "no crop `leak`", "Did you mean `leek`?"),
        ("crop: kurrat\ndries: 3 days\n", 1, "kurrat is raised in no way", "tray"),
        ("crop: onion\ndrill: {seeds a metre: 30}\n", 2, "no kind takes this line", "under the kind"),
        ("dries: 3 days\n", 1, "wants `crop`", ""),
        ("just words\n", 1, "wants `key: value` lines", ""),
    ],
)
def test_a_mistake_in_an_own_file(shelf: Path, own: str, line: int, what: str, cure: str) -> None:
    _, mistakes = opened(shelf, own)
    told = [(m.spot.line, in_english.what(m), in_english.cure(m)) for m in mistakes]
    assert any(at == line and what in said and cure in cured for at, said, cured in told), told
    assert all(m.spot.file.endswith("own0.yaml") for m in mistakes)


def test_an_own_file_that_is_not_there(shelf: Path) -> None:
    mistakes: list[Mistake] = []
    Catalogue.open(mistakes, [shelf / "none.yaml"], shelf)
    assert [in_english.what(m) for m in mistakes] == ["there is no such file"]


def test_sources_are_read() -> None:
    mistakes: list[Mistake] = []
    found = read_sources((SHELF / "sources.yaml").read_text("utf-8"), "sources.yaml", mistakes)
    assert not mistakes
    assert found["book-a-1990"].doi == "10.0000/none"
    assert found["book-b-2001"].year == "2001"


@pytest.mark.parametrize(
    ("old", "new", "line", "what"),
    [
        ("book-a-1990", "Book A", 1, "is no key: small letters"),
        ("seen: read", "seen: yes", 6, "`seen` is none of read"),
        ("  authors: Author, A.\n", "", 2, "wants `authors`"),
        ("where: table 3", "were: table 3", 5, "`were` is no key of a source"),
        ("title: A Book of Raising", "title:", 4, "`title` wants words"),
        ("book-b-2001", "book-a-1990", 8, "is given twice"),
    ],
)
def test_a_mistake_in_the_sources(old: str, new: str, line: int, what: str) -> None:
    mistakes: list[Mistake] = []
    text = (SHELF / "sources.yaml").read_text("utf-8").replace(old, new, 1)
    read_sources(text, "sources.yaml", mistakes)
    assert any(m.spot.line == line and what in in_english.what(m) for m in mistakes), mistakes
