"""What check, the tables and the commands say, in every language."""

from __future__ import annotations

import re
from datetime import date
from pathlib import Path
from typing import get_args, get_type_hints

import pytest
from typer.testing import CliRunner

from sowsheet.catalogue.records import Raised
from sowsheet.cli.app import app
from sowsheet.cli.common import LanguageTag, plan_of
from sowsheet.exports.data import dates_data, trays_data
from sowsheet.exports.tables import dates_rows, sowing_rows, titles, week_rows
from sowsheet.exports.tell import told_doubts
from sowsheet.garden.records import Frost, Purpose, Shelter
from sowsheet.jobs.records import Verb
from sowsheet.schedule.records import Amount, Cover, Doubt, Gap
from sowsheet.words.crop_words import crop_words
from sowsheet.words.language import LANGUAGES, language_of
from tests.examples import GARDENS, ROOT, plan

OTHERS = ("pl", "es")
STATION = ROOT / "out_examples" / "own-weather" / "station.csv"


def run(*args: object) -> tuple[int, str, str]:
    result = CliRunner().invoke(app, [str(a) for a in args])
    return result.exit_code, result.stdout, result.stderr


def of(record: type, field: str) -> tuple[str, ...]:
    """The words that a record's field may have."""
    return tuple(str(word) for word in get_args(get_type_hints(record)[field]))


CHOSEN = {
    "tell.lies": tuple(shelter for shelter in get_args(Shelter) if shelter),
    "purpose": get_args(Purpose),
    "tell.frost.last": (*of(Frost, "meaning"), "record", "unknown"),
    "tell.frost.first": (*of(Frost, "meaning"), "record", "unknown"),
    "tell.gap": tuple(f"{what}.{end}" for what in of(Gap, "what") for end in ("from", "until")),
    "tell.batch.in bed": get_args(Raised),
    "tell.batch.off": of(Cover, "kind"),
    "tell.cold": ("growing on", "hardening off", "in the bed"),
    "tell.by": ("sown", "set"),
    "tell.week later": tuple(
        f"{verb}.{then}{late}" for verb in ("sown", "set") for then in ("picked", "ready") for late in ("", " no later")
    ),
    "unit": of(Amount, "unit"),
    "verb": get_args(Verb),
}


@pytest.mark.parametrize("tag", LANGUAGES)
@pytest.mark.parametrize("head", CHOSEN)
def test_whatever_the_code_may_choose_has_its_phrase(tag: str, head: str) -> None:
    assert CHOSEN[head]
    phrases = language_of(tag).phrases
    assert [key for tail in CHOSEN[head] if (key := f"{head}.{tail}") not in phrases] == []


@pytest.mark.parametrize("tag", OTHERS)
@pytest.mark.parametrize("garden", GARDENS)
def test_a_plan_is_told_back_without_an_english_word(tag: str, garden: str) -> None:
    spoken = plan(garden).garden
    code, shown, _ = run("check", ROOT / "out_examples" / garden / "garden.yaml", "--language", tag)
    own = [spoken.name, *(p.name for p in (*spoken.places, *spoken.houses))]
    own += [*(t.name for t in spoken.trays), *(b.name for b in spoken.beds)]
    assert code == 0
    assert len(shown.splitlines()) > 20
    assert english(shown, own) == set()


@pytest.mark.parametrize("tag", OTHERS)
def test_tables_are_headed_in_the_language(tag: str) -> None:
    made, words = plan("twelve-beds"), language_of(tag)
    places = [p.name for p in made.garden.places]
    dates, trays = dates_data(made.garden, made.schedule, ()), trays_data(made.garden, made.trays)
    called = titles(made.schedule, words)
    for rows in (dates_rows(dates, words, called), sowing_rows(trays, words, called), week_rows(trays, words)):
        assert english(" ".join(rows[0]), places) == set()
    assert english(" ".join(row[1] for row in dates_rows(dates, words, called)), []) == set()


def english(text: str, own: list[str]) -> set[str]:
    """English words of the same phrases, without the grower's own names and what stands as he has to write it."""
    text = re.sub(r"`[^`]*`", "", text)
    for name in own:
        text = re.sub(rf"\b{re.escape(name)}\b", "", text, flags=re.IGNORECASE)
    known = """
        season latitude north south last first frost average safe later earlier temperatures none record means
        warmth and light compost bed beds for under held room trays cells owned growing germinating hardening
        indoors outdoors warm sow ready pick clear week sowing batch amount date seeds plants clumps cloves rows of
        Monday maybe where what glass sown planted picked cleared fleece mesh off rests from until nothing
        between colder night spring costs day days line cure doubt doubts taken granted work the is by or it
    """
    return set(re.findall(r"[^\W\d_]+", text)) & set(known.split())


@pytest.mark.parametrize("tag", OTHERS)
def test_batches_are_called_by_the_crop_s_own_words_in_a_table(tag: str) -> None:
    """Each of them apart, and none by the English key of its name."""
    file = ROOT / "out_examples" / "twelve-beds" / "garden.yaml"
    spoken = plan_of(file, LanguageTag(tag))
    called = titles(spoken.schedule, spoken.garden.words)
    assert len(set(called.values())) == len(spoken.schedule.batches)
    words = {batch.kind.crop: crop_words(language_of(tag), batch.kind.crop) for batch in spoken.schedule.batches}
    keys = {key for key, own in words.items() if own is not None and key not in own.names}
    assert len(keys) > 10
    assert not [name for name in called.values() if any(name.endswith(f" {key}") for key in keys)]
    shown = run("dates", file, "--language", tag)[1] + run("trays", file, "--language", tag)[1]
    assert all(name in shown for name in called.values() if name.startswith("North"))
    assert titles(spoken.schedule, language_of("en")) == {b.name: b.name for b in spoken.schedule.batches}


def test_numbers_take_the_forms_of_polish() -> None:
    polish = language_of("pl")
    said = [polish.say("unit.plants", n=n, number=n) for n in (1, 3, 5, 22)]
    assert said == ["1 roślina", "3 rośliny", "5 roślin", "22 rośliny"]


def test_a_month_too_short_to_be_cut_takes_its_form_in_a_date() -> None:
    polish = language_of("pl")
    assert [polish.day_brief(date(2027, month, 4)) for month in (4, 5)] == ["4 kwi", "4 maja"]


def test_doubts_are_told_in_the_order_of_the_language() -> None:
    doubt = Doubt("code", "", "za późno", "okno się zamknęło", "posiej wcześniej")
    assert list(told_doubts([doubt], language_of("pl"))) == [
        "1 wątpliwość",
        "  1. Za późno. Okno się zamknęło. Rada: posiej wcześniej.",
    ]


def test_a_command_without_a_garden_speaks_the_language_of_its_option(tmp_path: Path) -> None:
    code, shown, _ = run("frost", STATION, "--language", "es")
    assert code == 0
    assert "última helada de primavera: después del" in shown
    assert "22 de abril" in shown
    assert "last frost: 7 April (average)" in shown  # the garden file's own words
    code, _, told = run("frost", tmp_path / "none.csv", "--language", "pl")
    assert code == 2
    assert "nie można odczytać zapisów: nie ma takiego pliku" in told


def test_csv_is_for_programs_and_stays_english() -> None:
    garden = ROOT / "out_examples" / "four-beds" / "garden.yaml"
    _, shown, _ = run("trays", garden, "--format", "csv", "--language", "pl")
    assert shown.startswith("week,date,batch,trays,")


def test_a_first_garden_file_names_its_language_and_is_read_in_it(tmp_path: Path) -> None:
    code, shown, _ = run("new", tmp_path / "ogród", "--yes", "--language", "pl", "--today", "2027-01-02")
    assert code == 0
    assert shown.startswith("Zapisano: ")
    code, shown, told = run("check", tmp_path / "ogród" / "garden.yaml")
    assert code == 0, told
    assert "sezon 2027: od 1 stycznia 2027" in shown
