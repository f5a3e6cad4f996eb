"""The tray plan, the shopping list and the crop table in other languages: whole words, all on paper, plurals in use."""

from __future__ import annotations

from datetime import date

import msgspec
import pytest

from sowsheet.cli.common import LanguageTag, plan_of
from sowsheet.cli.crops import table_of
from sowsheet.cli.print_ import Printing, SheetName
from sowsheet.sheets.shapes import Sheet, Words
from sowsheet.words.language import capital
from tests.examples import ROOT
from tests.sheets.pages import collisions, outside, unprintable

LANGUAGES = (LanguageTag.PL, LanguageTag.ES)


def printing(language: LanguageTag, garden: str = "twelve-beds") -> Printing:
    plan = plan_of(ROOT / "out_examples" / garden / "garden.yaml", language)
    return Printing(plan, "A3", date(2027, 2, 1))


def said_on(sheet: Sheet) -> str:
    return " ".join(s.text for page in sheet.pages for s in page.shapes if isinstance(s, Words))


@pytest.mark.parametrize("name", [SheetName.TRAY_PLAN, SheetName.SHOPPING])
@pytest.mark.parametrize("garden", ["twelve-beds", "southern"])
@pytest.mark.parametrize("language", LANGUAGES)
def test_a_sheet_for_the_hand_fits_and_breaks_no_name(language: LanguageTag, garden: str, name: SheetName) -> None:
    made = printing(language, garden)
    sheet = made.sheet(name)
    assert list(outside(sheet)) == []
    assert [pair for page in sheet.pages for pair in collisions(page)] == []
    assert unprintable(sheet) == set()
    printed = set(said_on(sheet).split())
    sown = {b.kind.name for b in made.plan.schedule.batches if b.amount.seeds and b.raised == "tray" and not b.word}
    assert [word for crop in sown for word in capital(crop).split() if word not in printed] == []


@pytest.mark.parametrize("paper", ["A4", "A3", "A2"])
@pytest.mark.parametrize("garden", [None, ROOT / "out_examples" / "twelve-beds" / "garden.yaml"], ids=str)
@pytest.mark.parametrize("language", LANGUAGES)
def test_the_crop_table_fits(language: LanguageTag, garden: None, paper: str) -> None:
    sheet = table_of(garden, paper, language)
    assert list(outside(sheet)) == []
    assert [pair for page in sheet.pages for pair in collisions(page)] == []
    assert sheet.language == language.value


def test_numbers_choose_their_words() -> None:
    polish, spanish = (said_on(printing(language).sheet(SheetName.TRAY_PLAN)) for language in LANGUAGES)
    for words in ("1 paleta", "2 palety", "rzędy po", "roślin +", "zapasu ="):
        assert words in polish
    for words in ("1 bandeja", "2 bandejas", "plantas +", "de reserva ="):
        assert words in spanish
    bought = said_on(printing(LanguageTag.PL).sheet(SheetName.SHOPPING))
    assert "194 nasiona" in bought
    assert "212 nasion " in bought
    assert "160 ząbków" in bought


def test_what_is_owned_and_short_is_one_sentence_in_each_language() -> None:
    made = printing(LanguageTag.ES)
    trays = tuple(msgspec.structs.replace(use, owned=3) for use in made.plan.trays.uses)
    plan = msgspec.structs.replace(made.plan, trays=msgspec.structs.replace(made.plan.trays, uses=trays))
    last = Printing(plan, "A3", None).sheet(SheetName.TRAY_PLAN).pages[-1]
    said = "".join(s.text for s in last.shapes if isinstance(s, Words))
    assert "Máximo en uso: 10, martes 16 de marzo; hay 3. Faltan 7: martes 8 de septiembre" in said
