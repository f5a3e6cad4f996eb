"""Doubts and reasons in every language: no English in another, plurals in use, a phrase for every chosen tail."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import get_args, get_type_hints

import msgspec
import pytest

from sowsheet.catalogue.records import Harvest, Raised
from sowsheet.garden.records import Place, Purpose, Room
from sowsheet.reading.mistakes import Mistake
from sowsheet.schedule.amounts import sum_in_words
from sowsheet.schedule.plan import schedule
from sowsheet.schedule.records import Amount
from sowsheet.schedule.slip import Useless
from sowsheet.trays.plan import space_doubts, tray_plan
from sowsheet.words.language import LANGUAGES, Language, language_of
from tests.made import catalogue, garden

LINES = (
    "leeks 1 May then tomatoes 20 June till 10 July then garlic 20 October",
    "tomatoes 1 May under fleece for 2 weeks, then lettuce, then lettuce, then lettuce, then kale",
    "French beans sown direct 1 April, then kale 10 July, then spinach",
    "white mustard 1 September, then garlic 25 October",
    "celeriac 20 November, then lettuce",
    "asparagus from crowns March",
    "lettuce every 2 weeks of picking May to October",
)
PLACES = (
    Place("7", ("germinating",), Room(trays=1), held_at_c=4.5),
    Place("8", ("growing on", "hardening off"), Room(trays=2), under="unheated glass"),
)


def stripped(phrase: str) -> str:
    """A phrase with every letter made a λ, its parts and what is to be written kept."""
    cut = re.split(r"(\{[^}]*\}|`[^`]*`)", phrase)
    return "".join(bit if bit[:1] in "{`" else re.sub(r"[^\W\d_]", "λ", bit) for bit in cut)


def wordless() -> Language:
    """A language without words: what still has some has them from elsewhere."""
    english = language_of("en")
    phrases = {
        key: stripped(said) if isinstance(said, str) else {form: stripped(one) for form, one in said.items()}
        for key, said in english.phrases.items()
    }
    made = msgspec.structs.replace(english, phrases=phrases)
    for names in ("months", "weekdays", "_of_months"):
        made.__dict__[names] = tuple("λ" for _ in getattr(english, names))
    return made


def all_said(words: Language) -> Iterator[str]:
    """Every reason, doubt, sum and assumption of a garden with much to be asked about."""
    mistakes: list[Mistake] = []
    made = garden(*LINES, mistakes=mistakes, places=PLACES, work_days=frozenset({5}))
    made.__dict__["words"] = words
    dated, refused = schedule(made, catalogue().crop)
    assert not mistakes and not refused, [m.what for m in refused]
    for batch in dated.batches:
        yield from (w.why for n in batch.stages.__struct_fields__ if (w := getattr(batch.stages, n)) is not None)
        yield sum_in_words(words, batch.amount)
        yield batch.slip.why if batch.slip else ""
    for doubt in (*dated.doubts, *space_doubts(made, tray_plan(dated, made))):
        bolts = doubt.code == "bolts"  # why it bolts is told by the crop file
        yield from (doubt.what, "" if bolts else doubt.why, doubt.cure)
    yield from (said for told in dated.told for said in (told.sentence, told.short))


def test_every_word_comes_from_the_language_file() -> None:
    names = [n for crop in catalogue().crops.values() for kind in crop.kinds for n in (kind.name, *crop.names)]
    known = re.compile("|".join([*map(re.escape, sorted(set(names), key=len, reverse=True)), r"Bed \d", "`[^`]*`"]))
    units = {"cm", "mm", "kg", "ml", "pots"}  # and `9 cm pots`, a name that is taken for granted
    said = list(all_said(wordless()))
    assert len(said) > 200
    for sentence in said:
        assert not set(re.findall("[A-Za-z]{2,}", known.sub("", sentence))) - units, sentence


@pytest.mark.parametrize("tag", LANGUAGES)
def test_everything_can_be_said(tag: str) -> None:
    assert all("{" not in sentence for sentence in all_said(language_of(tag)))


def test_polish_counts_by_its_own_grammar() -> None:
    words = language_of("pl")
    told = [words.say("why.hardens", n=n) for n in (1, 3, 12)]
    assert told == ["hartowanie: 1 dzień", "hartowanie: 3 dni", "hartowanie: 12 dni"]
    spare = [words.say("doubt.no room.why", n=n, room=2, first="a", last="b") for n in (1, 2, 5, 22)]
    assert [s.split(" ")[5] for s in spare] == ["tydzień", "tygodnie", "tygodni", "tygodnie"]


def test_every_tail_that_is_chosen_has_its_phrase() -> None:
    phrases = language_of("en").phrases
    wanted = [f"why.over.{end}" for end in get_args(get_type_hints(Harvest)["ends_with"])]
    wanted += [f"why.useless.{end}" for end in get_args(Useless) if end]
    wanted += [f"unit.{unit}" for unit in get_args(get_type_hints(Amount)["unit"]) if unit not in ("rows", "m2")]
    wanted += [f"purpose.{one}" for one in get_args(Purpose)]
    for raised in get_args(Raised):
        wanted += [f"doubt.too early.what.{raised}.{early}" for early in ("season", "safe", "time")]
    for doubt in ("germination too hot", "germination too cold"):
        wanted += [f"doubt.{doubt}.what.{where}" for where in ("shelf", "place", "ground")]
        wanted += [f"doubt.{doubt}.cure.{how}" for how in ("drill", "tray")]
    assert not [key for key in wanted if key not in phrases]
