"""A crop's names, signs and cautions in the grower's language; what the grower wrote in a file of his own stays his."""

from __future__ import annotations

from collections.abc import Collection

import msgspec

from sowsheet.catalogue.names import Head, KindHead
from sowsheet.catalogue.records import Crop, Kind
from sowsheet.words.crop_words import CropWords, KindWords, crop_words
from sowsheet.words.language import Language


def head_in(language: Language, head: Head) -> Head:
    """What the index knows of a crop, with the language's own names laid beside those of the file."""
    words = crop_words(language, head.crop)
    if words is None:
        return head
    kinds = tuple(_kind_head_in(_of(words, kind.key), kind) for kind in head.kinds)
    return msgspec.structs.replace(
        head, said=(*head.said, *words.names), said_forms=head.said_forms | words.forms, kinds=kinds
    )


def _kind_head_in(words: KindWords, kind: KindHead) -> KindHead:
    return msgspec.structs.replace(kind, said=(*kind.said, *words.names), said_forms=kind.said_forms | words.forms)


def crop_in(language: Language, crop: Crop, own: Collection[str]) -> Crop:
    """The crop in a language. `own` are the lines (`signs.pick`) that the grower's own file has: they stay."""
    if language.tag == "en-US" and crop.names_us:
        return _american(crop)
    words = crop_words(language, crop.key)
    if words is None:
        return crop
    return msgspec.structs.replace(crop, kinds=tuple(_kind_in(kind, crop, words, own) for kind in crop.kinds))


def names_in(language: Language, crop: Crop) -> tuple[str, ...]:
    """Every name of a crop in a language; the first is printed."""
    if language.english:
        first, then = (crop.names, crop.names_us) if language.tag != "en-US" else (crop.names_us, crop.names)
        return tuple(dict.fromkeys((*first, *then)))
    words = crop_words(language, crop.key)
    return words.names if words is not None and words.names else crop.names


def _american(crop: Crop) -> Crop:
    """Kinds by the American name where it is another word: `summer zucchini`."""
    british, american = crop.names[0], crop.names_us[0]
    kinds = tuple(msgspec.structs.replace(k, name=k.name.replace(british, american)) for k in crop.kinds)
    return msgspec.structs.replace(crop, kinds=kinds)


def _kind_in(kind: Kind, crop: Crop, words: CropWords, own: Collection[str]) -> Kind:
    its = _of(words, kind.key)
    bare = not kind.key or kind.key == crop.unnamed  # the name alone always means it
    names = words.names if bare else its.names
    bolts = its.bolts or words.bolts
    return msgspec.structs.replace(
        kind,
        name=names[0] if names else kind.name,
        signs=_laid(kind.signs, words.signs, its.signs, "signs", own),
        cautions=_laid(kind.cautions, words.cautions, its.cautions, "cautions", own),
        covers=_laid(kind.covers, words.covers, its.covers, "covers", own),
        after_it=kind.after_it and (("after it" not in own and (its.after_it or words.after_it)) or kind.after_it),
        bolts=tuple(msgspec.structs.replace(bolt, why=why) for bolt, why in zip(kind.bolts, bolts, strict=False))
        if len(bolts) == len(kind.bolts) and "bolts" not in own
        else kind.bolts,
    )


def _of(words: CropWords, kind: str) -> KindWords:
    return words.kinds.get(kind, KindWords())


def _laid(
    english: dict[str, str], of_crop: dict[str, str], of_kind: dict[str, str], field: str, own: Collection[str]
) -> dict[str, str]:
    """The sentences by their keys, each the kind's, else the crop's, else as it was."""
    return {
        key: said if f"{field}.{key}" in own else of_kind.get(key) or of_crop.get(key) or said
        for key, said in english.items()
    }
