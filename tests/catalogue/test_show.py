"""The catalogue as it is shown."""

from __future__ import annotations

from pathlib import Path

import pytest

from sowsheet.catalogue.catalogue import Catalogue
from sowsheet.catalogue.show import WIDTH, NotKnown, crop_list, crop_page
from sowsheet.reading.mistakes import Mistake


def page(catalogue: Catalogue, name: str, with_sources: bool = False) -> list[str]:
    mistakes: list[Mistake] = []
    found = crop_page(catalogue, name, with_sources, mistakes)
    assert isinstance(found, list)
    assert not mistakes
    return found


def test_the_list_is_a_line_a_crop(small: Catalogue) -> None:
    mistakes: list[Mistake] = []
    lines = crop_list(small, mistakes)
    assert [line.split()[0] for line in lines] == ["crop", "leek", "lettuce", "onion"]
    assert lines[3].split("  ")[-1] == "from seed, from sets"
    assert "trays, sown direct, sets" in lines[3]


def test_a_page_says_every_number_in_plain_words(small: Catalogue) -> None:
    text = "\n".join(page(small, "leeks"))
    for words in (
        "16 at 10 °C, 9 at 15 °C, 7 at 20 °C",
        "60 to 80 days",
        "110 to 140 days, usually 120, from planting; then lifted as",
        "from 3 weeks before the last frost until 5 weeks after",
        "75 %",
        "mind the fork",
    ):
        assert words in text
    assert "[practice]" not in text


def test_sources_stand_beside_their_numbers_and_in_full_below(small: Catalogue) -> None:
    lines = page(small, "lettuce", with_sources=True)
    assert any(
        "24 to 32 days, usually 28" not in line and "[book-a-1990, book-b-2001]" in line for line in lines
    ) or any("24 to 32 days [book-a-1990, book-b-2001]" in line for line in lines)
    assert "  [book-b-2001] Board of Growers (2001). Another Book. page 12. (quoted second-hand)" in lines
    assert "  [memory] from memory, no source at hand" in lines


def test_what_kinds_share_is_said_once(small: Catalogue) -> None:
    lines = page(small, "lettuce")
    assert sum("seeds in a gram" in line for line in lines) == 1
    assert sum("hardened off" in line for line in lines) == 2
    assert "== winter lettuce ==" in lines


def test_the_page_of_one_kind_is_whole(small: Catalogue) -> None:
    lines = page(small, "winter lettuce")
    assert lines[0] == "winter lettuce"
    assert sum("in the bed " in line for line in lines) == 1
    assert not any(line.startswith("==") for line in lines)


def test_a_crop_that_asks_shows_all_its_kinds(small: Catalogue) -> None:
    lines = page(small, "onions")
    assert {"== onion from seed ==", "== onion from sets =="} <= set(lines)
    assert "`onion` alone means none of them: say which" in lines


def test_no_line_is_too_wide(small: Catalogue) -> None:
    for name in ("leek", "lettuce", "onion"):
        assert max(len(line) for line in page(small, name, with_sources=True)) <= WIDTH


ALL = "`sowsheet crops` lists all; a crop of your own goes into a file that the garden file names, `crops: own.yaml`"


@pytest.mark.parametrize(
    ("name", "sentence"),
    [
        ("leak", f"the catalogue has no crop `leak`: did you mean `leek`? {ALL}"),
        ("zzz", f"the catalogue has no crop `zzz`: {ALL}"),
    ],
)
def test_a_name_that_is_not_known(small: Catalogue, name: str, sentence: str) -> None:
    assert crop_page(small, name, False, []) == NotKnown(sentence)


def test_an_own_number_is_shown_as_the_growers(shelf: Path, tmp_path: Path) -> None:
    own = tmp_path / "my.yaml"
    own.write_text("crop: leek\ndries: 2 days\n", "utf-8")
    lines = page(Catalogue.open([], [own], shelf), "leek", with_sources=True)
    assert "  dries                    2 days, after lifting [grower]" in lines
    assert "  [grower] the grower's own file" in lines
