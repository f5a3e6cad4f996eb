"""A pseudo language that shows leaks: every phrase in Greek letters, so that ASCII words on a sheet are no phrase's.

Its dates are Greek too, for they are Babel's. What the grower has to write as it stands, inside backticks, stays.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from pathlib import Path

from sowsheet.catalogue.records import Kind
from sowsheet.cli.common import Plan, garden_of, weather_of
from sowsheet.garden.records import Garden
from sowsheet.schedule.plan import schedule
from sowsheet.sheets.shapes import Sheet, Words
from sowsheet.trays.plan import space_doubts, tray_plan
from sowsheet.words.language import Language, Phrase

_LATIN, _LOOKS = "abcdefghijklmnopqrstuvwxyz", "αβςδεφγηιξκλμνοπθρστυψωχϋζ"
_GREEK = str.maketrans(_LATIN + _LATIN.upper(), _LOOKS + _LOOKS.upper())
_KEPT = re.compile(r"(\{[^}]*\}|`[^`]*`)")
_WORD = re.compile(r"[A-Za-z]{2,}")
_UNIT = re.compile(r"(?<=[\d¼½¾⅛⅜⅝⅞] )(cm|mm|kg|ml|ft|in|oz|lb|sq ft|cu ft|cu yd)\b")
_CUT = re.compile(r"[A-Za-z]+…")  # a name that was cut to its room


def pseudo(language: Language) -> Language:
    """The language with each ASCII letter outside {parts} and backticks replaced by a Greek one."""
    phrases = {**language.phrases, **language.rare}
    return Language("el", {key: _phrase(phrase) for key, phrase in phrases.items()}, language.crops)


def leaks(texts: Iterable[str], own: Iterable[str]) -> list[str]:
    """The ASCII words of two letters or more that come from no phrase: neither of the `own` names nor units."""
    known = {word.lower() for name in own for word in _WORD.findall(name)}
    bare = (_CUT.sub("", _UNIT.sub("", _KEPT.sub(" ", text))) for text in texts)
    return sorted(word for word in {w for text in bare for w in _WORD.findall(text)} if word.lower() not in known)


def plan_in(language: Language, path: Path) -> Plan:
    """A garden dated and told in a language that has no file."""
    garden, catalogue = garden_of(path)
    garden.__dict__["words"] = language
    weather = weather_of(garden)
    dated, mistakes = schedule(garden, catalogue.crop, weather=weather)
    assert not mistakes
    trays = tray_plan(dated, garden)
    return Plan(garden, dated, trays, (*dated.doubts, *space_doubts(garden, trays)), weather.noticed)


def said_on(sheet: Sheet) -> Iterator[str]:
    """Every text that is printed, spoken, or shown by a reader of the file."""
    yield sheet.title
    yield from (words for _, words in sheet.bookmarks)
    for page in sheet.pages:
        yield page.label
        yield from (shape.text for shape in page.shapes if isinstance(shape, Words))
        yield from (tag.words for tag in page.tags)


def names_in(garden: Garden) -> Iterator[str]:
    """The grower's own names."""
    yield garden.name
    yield from (place.name for place in (*garden.places, *garden.houses))
    yield from (bed.name for bed in garden.beds)
    yield from (tray.name for tray in garden.trays)


def words_of(kind: Kind) -> Iterator[str]:
    """What a crop's file says: its names and its sentences."""
    yield from (kind.name, kind.key, kind.crop, kind.latin, kind.family, kind.after_it)
    yield from (*kind.signs.values(), *kind.cautions.values(), *kind.covers.values())
    yield from (bolting.why for bolting in kind.bolts)


def names_of(plan: Plan) -> list[str]:
    """All that a plan prints that is no phrase: the grower's names, and the crops with their own sentences."""
    batches = plan.schedule.batches
    noted = [text for batch in batches for text in (batch.word, batch.note)]
    kinds = {batch.kind.name: batch.kind for batch in batches}
    return [*names_in(plan.garden), *noted, *(text for kind in kinds.values() for text in words_of(kind))]


def _phrase(phrase: Phrase) -> Phrase:
    if isinstance(phrase, dict):
        return {category: _greek(form) for category, form in phrase.items()}
    return _greek(phrase)


def _greek(text: str) -> str:
    return "".join(part if n % 2 else part.translate(_GREEK) for n, part in enumerate(_KEPT.split(text)))
