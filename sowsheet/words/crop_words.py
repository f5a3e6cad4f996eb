"""What a crop and its kinds are called in a language, and what is told of them; English stands in the crop files."""

from __future__ import annotations

import msgspec

from sowsheet.words.language import Language


class KindWords(msgspec.Struct, frozen=True):
    """Names (the first is printed) and sentences by the keys of the crop files; what is missing stays as it was.

    `forms` are what a plan may write besides, by its grammar, each with the name to print: `pomidorów: pomidory`.
    """

    names: tuple[str, ...] = ()
    forms: dict[str, str] = {}
    signs: dict[str, str] = {}
    cautions: dict[str, str] = {}
    covers: dict[str, str] = {}
    after_it: str = msgspec.field(name="after it", default="")
    bolts: tuple[str, ...] = ()


class CropWords(KindWords, frozen=True):
    """The same for a crop, with its kinds by their keys."""

    kinds: dict[str, KindWords] = {}


def crop_words(language: Language, crop: str) -> CropWords | None:
    """The words of a crop by its key; None where the language has none of its own, as English."""
    found = language.crops.get(crop)
    return None if found is None else msgspec.convert(found, CropWords)
