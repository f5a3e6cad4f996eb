"""Crops in other languages: found by their names there, printed by the grower's own word, told of in its sentences."""

from __future__ import annotations

from pathlib import Path

import pytest

from sowsheet.catalogue.catalogue import Catalogue
from sowsheet.catalogue.names import Names
from sowsheet.catalogue.records import Kind
from sowsheet.catalogue.show import crop_page
from sowsheet.cli.common import plan_of
from sowsheet.jobs.make import name_of
from sowsheet.reading.mistakes import Mistake
from sowsheet.words.crop_words import crop_words
from sowsheet.words.language import LANGUAGES, language_of

OTHERS = [tag for tag in LANGUAGES if not language_of(tag).english and language_of(tag).crops]


def whole(tag: str) -> Catalogue:
    mistakes: list[Mistake] = []
    found = Catalogue.open(mistakes, language=tag).load(None, mistakes)
    assert not mistakes
    return found


def said_of(kind: Kind) -> list[str]:
    """Every sentence that may be printed of a kind."""
    more = [kind.after_it] if kind.after_it else []
    told = (*kind.signs.values(), *kind.cautions.values(), *kind.covers.values(), *(b.why for b in kind.bolts))
    return [*told, *more]


@pytest.mark.parametrize("tag", OTHERS)
def test_every_sentence_and_name_of_a_crop_is_in_the_language(tag: str) -> None:
    english, other = whole("en"), whole(tag)
    for key, crop in english.crops.items():
        words = crop_words(language_of(tag), key)
        assert words is not None and words.names, key
        for kind, its in zip(crop.kinds, other.crops[key].kinds, strict=True):
            assert its.name in {*words.names, *(n for k in words.kinds.values() for n in k.names)}, (key, kind.key)
            for before, after in zip(said_of(kind), said_of(its), strict=True):
                assert before != after, (key, kind.key, before)


@pytest.mark.parametrize("tag", OTHERS)
def test_every_name_finds_its_crop(tag: str) -> None:
    names = whole(tag).names
    for key in names.heads:
        words = crop_words(language_of(tag), key)
        assert words is not None
        for name in words.names:
            found = names.find(tuple(name.lower().split()))
            assert found is not None and found.crop == key and not found.foreign, (key, name)
        for form, nominative in words.forms.items():
            found = names.find(tuple(form.lower().split()))
            assert found is not None and found.crop == key and found.nominative == nominative, (key, form)
        for kind, its in words.kinds.items():
            for name in (*its.names, *its.forms):
                found = names.find(tuple(name.lower().split()))
                assert found is not None and found.crop == key and found.kind in (kind, None), (key, kind, name)


@pytest.mark.parametrize("tag", OTHERS)
def test_another_case_of_a_name_leads_to_one_of_the_names(tag: str) -> None:
    for key in whole(tag).names.heads:
        words = crop_words(language_of(tag), key)
        assert words is not None
        for own in (words, *words.kinds.values()):
            assert set(own.forms.values()) <= {*own.names, *words.names}, key
            assert not set(own.forms) & set(own.names), key


def test_a_word_in_another_case_is_printed_in_the_nominative(tmp_path: Path) -> None:
    file = tmp_path / "garden.yaml"
    text = "garden: Ogród\nseason: 2027\nsite: {latitude: 52.4, last frost: 10 May (average)}\nlanguage: pl\n"
    text += "beds are: 6 m x 1.2 m\nbeds:\n"
    text += "  A: 20 pomidorów 1 June\n  B: pomidory 1 June\n  C: 9 papryk 1 June\n  D: baklazany 1 June\n"
    file.write_text(text, "utf-8")
    found = plan_of(file)
    printed = [name_of(batch) for batch in found.schedule.batches]
    assert printed == ["pomidory", "pomidory", "papryki", "bakłażany"]


def test_a_case_that_looks_like_another_name_without_its_marks_is_told_from_it() -> None:
    names = whole("pl").names
    written = ("cebulę", "cebule", "cebul", "kapust czerwonych")
    found = [names.find(tuple(words.split())) for words in written]
    assert [name and name.nominative for name in found] == ["cebula", "", "cebule", "kapusty czerwone"]


def test_the_own_word_is_printed_and_a_foreign_one_put_into_the_language() -> None:
    names = whole("pl").names
    assert _foreign(names, "pory") is False
    assert _foreign(names, "Sałata") is False and _foreign(names, "salata") is False  # typed without its marks
    assert _foreign(names, "leeks") is True
    assert _foreign(whole("en").names, "leeks") is False


def _foreign(names: Names, words: str) -> bool:
    found = names.find(tuple(words.split()))
    assert found is not None
    return found.foreign


def test_what_the_grower_wrote_in_a_file_of_his_own_stays(tmp_path: Path) -> None:
    own = tmp_path / "own.yaml"
    own.write_text("crop: leek\nnames: [poreczka moja]\nsigns: {pick: kiedy zechcę}\n", "utf-8")
    mistakes: list[Mistake] = []
    catalogue = Catalogue.open(mistakes, [own], language="pl").load(["leek"], mistakes)
    assert not mistakes
    kind = catalogue.crop("leek").kinds[0]
    assert kind.signs["pick"] == "kiedy zechcę"
    assert kind.signs["up"] not in whole("en").crop("leek").kinds[0].signs.values()
    assert _foreign(catalogue.names, "poreczka moja") is False


def test_american_names_are_printed_in_american_english() -> None:
    british, american = whole("en").crop("courgette"), whole("en-US").crop("courgette")
    assert british.kinds[0].name == "courgette" and american.kinds[0].name == "zucchini"


def test_a_spanish_name_is_told_in_one_number() -> None:
    mistakes: list[Mistake] = []
    page = crop_page(Catalogue.open(mistakes, language="es"), "judías", False, mistakes)
    assert isinstance(page, list)
    also = " ".join(page[: page.index("")])
    assert "ejotes" in also and "ejote," not in also and "judía," not in also
    assert "`judías verdes` a secas significa judías verdes enanas" in also
