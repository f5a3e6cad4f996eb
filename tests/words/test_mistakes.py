"""Mistakes wait for their language: no English word is left in them but what the grower wrote, or has to write."""

from __future__ import annotations

import subprocess
import sys
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import get_args

import pytest

from sowsheet.garden.values import Choice
from sowsheet.reading.mistakes import Mistake, Said, any_of, said
from sowsheet.reading.tokens import MONTHS
from sowsheet.words.language import LANGUAGES, language_of
from tests.examples import ROOT
from tests.words.pseudo import leaks, pseudo
from tests.words.wrong_files import phrases_in, wrong_files, wrong_lines

GREEK = pseudo(language_of("en"))
# Parts that no phrase can say: the keys and choices that a file may have, the kinds of a crop; a path; a sign's name in
# Unicode; what the YAML library says where no slip is known.
LISTED = ("keys", "known", "kinds", "path", "name", "why")
CHOSEN = {
    "mistake.one of": get_args(Choice),
    "mistake.month": MONTHS,
    "mistake.names": ("places", "trays", "beds"),
    "mistake.size": ("bed", "tray"),
}


@cache
def lines() -> tuple[Mistake, ...]:
    return tuple(wrong_lines())


@pytest.fixture(scope="module")
def provoked(tmp_path_factory: pytest.TempPathFactory) -> tuple[Mistake, ...]:
    """Every mistake that the tables of wrong lines and files make."""
    return (*lines(), *wrong_files(tmp_path_factory.mktemp("wrong")))


def phrases(mistake: Mistake) -> Iterator[Said]:
    yield from (*phrases_in(mistake.what), *phrases_in(mistake.cure))


def test_the_tables_provoke_nearly_every_mistake(provoked: tuple[Mistake, ...]) -> None:
    assert len({phrase.key for mistake in provoked for phrase in phrases(mistake)}) > 360


def test_every_mistake_is_made_of_phrases(provoked: tuple[Mistake, ...]) -> None:
    for mistake in provoked:
        assert isinstance(mistake.what, Said), mistake
        assert isinstance(mistake.cure, Said) or mistake.cure == "", mistake
        parts = [part for phrase in phrases(mistake) for part in phrase.parts]
        own = [mistake.spot.excerpt, *MONTHS, *(str(value) for name, value in parts if name in LISTED)]
        told = [GREEK.tell(mistake.what), GREEK.tell(mistake.cure)]
        assert leaks(told, own) == [], (told, mistake.spot.excerpt)


@pytest.mark.parametrize("tag", LANGUAGES)
def test_every_mistake_can_be_told(tag: str, provoked: tuple[Mistake, ...]) -> None:
    words = language_of(tag)
    for mistake in provoked:
        told = f"{words.tell(mistake.what)} {words.tell(mistake.cure)}"
        assert told.count("`") % 2 == 0, told
        assert "Said(" not in told, told


@pytest.mark.parametrize("tag", LANGUAGES)
@pytest.mark.parametrize("head", CHOSEN)
def test_whatever_the_code_may_choose_has_its_phrase(tag: str, head: str) -> None:
    phrases = language_of(tag).rare
    assert [key for tail in CHOSEN[head] if (key := f"{head}.{tail}") not in phrases] == []


def test_ways_are_joined_in_the_language() -> None:
    ways = said("mistake.write", ways=any_of(["1 May", "2 May", "3 May"]))
    assert language_of("en").tell(ways) == "Write `1 May` or `2 May` or `3 May`."
    assert language_of("pl").tell(ways) == "Napisz `1 May` lub `2 May` lub `3 May`."


def test_what_begins_a_sentence_begins_with_a_capital() -> None:
    thing = said("mistake.thing.place", name="shelf")
    known = said("mistake.key.known", Thing=thing, keys="for, room")
    assert language_of("en").tell(known) == "The place `shelf` knows: for, room."
    assert language_of("pl").tell(known) == "Miejsce `shelf`: znane klucze to for, room."


def test_numbers_in_mistakes_take_the_language_s_form() -> None:
    thirty = said("mistake.limit.days", text="x", n=31)
    assert "31 dni" in language_of("pl").tell(thirty)
    low = said("mistake.site.min and max.what", month=said("mistake.month.May"), low=9.5, high=9.0)
    assert language_of("pl").tell(low) == "maj: minimum (9,5 °C) nie jest niższe niż maksimum (9 °C)"


def test_a_run_without_mistakes_reads_no_rare_phrase(tmp_path: Path) -> None:
    """A process of its own: the tests before have read them."""
    garden = str(ROOT / "out_examples" / "four-beds" / "garden.yaml")
    code = f"""
from sowsheet.cli.app import app
from sowsheet.words.language import language_of
app(["print", {garden!r}, "--out", {str(tmp_path)!r}], standalone_mode=False)
print("rare" in language_of("en").__dict__)
"""
    run = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, cwd=tmp_path, check=False)
    assert run.stdout.splitlines()[-1:] == ["False"], run.stderr
