"""The name book: what growers call crops and kinds, in the singular and the plural."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from difflib import get_close_matches
from unicodedata import combining, normalize

import msgspec

from sowsheet.reading.names import Name

_NO_MARKS = str.maketrans("łŁøØđĐ", "lLoOdD")  # letters whose stroke Unicode does not take apart
Target = tuple[str, str]  # keys of a crop and of its kind ("": the crop itself)


class KindHead(msgspec.Struct, frozen=True, omit_defaults=True):
    """A kind's key and the names of its own."""

    key: str
    names: tuple[str, ...] = ()
    said: tuple[str, ...] = ()
    said_forms: dict[str, str] = {}


class Head(msgspec.Struct, frozen=True, omit_defaults=True):
    """What the index knows of a crop file without reading it. `file` is "" for a crop of the grower's own.

    `said` are names in the garden's language where that is not English, the one to print first; `said_forms` what they
    become in a sentence, each with its name.
    """

    crop: str
    file: str
    names: tuple[str, ...]
    names_us: tuple[str, ...] = ()
    unnamed: str = ""
    kinds: tuple[KindHead, ...] = ()
    said: tuple[str, ...] = ()
    said_forms: dict[str, str] = {}


class Known(msgspec.Struct, frozen=True):
    """A name in one of its forms: how it is spelled, what it may mean, whether it is a plural, whether it is of another
    language than the garden's, and the name itself, where this is another case of it."""

    spelled: str
    targets: tuple[Target, ...]
    plural: bool = False
    foreign: bool = False
    nominative: str = ""


class Names(msgspec.Struct, frozen=True):
    """The name book. Implements `reading.names.NameBook`."""

    heads: dict[str, Head]
    forms: dict[str, Known]
    longest_words: int

    def find(self, words: tuple[str, ...]) -> Name | None:
        """What exactly these words name. Choices are given in the number (one, many) that was written."""
        known = self._known(words)
        if known is None:
            return None
        crop, kind = known.targets[0]
        choices = known.targets[1:] and known.targets
        if not choices and not kind and self.heads[crop].unnamed == "ask":
            choices = tuple((crop, k.key) for k in self.heads[crop].kinds)
        to_write = tuple(self._named(target, known.plural) for target in choices)
        marked = known.spelled if not known.spelled.isascii() and " ".join(words).isascii() else ""
        return Name(crop, None if to_write else kind or None, to_write, known.foreign, known.nominative or marked)

    def meant(self, words: tuple[str, ...]) -> tuple[Target, ...]:
        """All that these words may mean, as keys; empty for words that are no name."""
        known = self._known(words)
        return known.targets if known else ()

    def _known(self, words: tuple[str, ...]) -> Known | None:
        """What is written with its marks goes before what only looks alike without them (`cebulę`, `cebule`)."""
        text = " ".join(words)
        return self.forms.get(text.casefold()) or self.forms.get(plain_name(text))

    def longest(self, words: Sequence[str]) -> tuple[int, Name] | None:
        """How many of the first words form the longest known name, and what it stands for."""
        for count in range(min(len(words), self.longest_words), 0, -1):
            name = self.find(tuple(words[:count]))
            if name is not None:
                return count, name
        return None

    def written_in(self, heads: Iterable[Head]) -> Names:
        """The book with the names beside it that a language other than the one spoken has for these crops."""
        foreign = {form: msgspec.structs.replace(known, foreign=True) for form, known in _said(heads).items()}
        words = max((form.count(" ") + 1 for form in foreign), default=0)
        return Names(self.heads, self.forms | foreign, max(self.longest_words, words))

    def near(self, words: str) -> str | None:
        """A known name that these words may be a slip, or the last part, of."""
        plain = plain_name(words)
        ending = (form for form in self.forms if form.endswith(f" {plain}"))
        found = next(ending, None) or next(iter(get_close_matches(plain, self.forms, n=1, cutoff=0.75)), None)
        return (self.forms[found].nominative or self.forms[found].spelled) if found else None

    def kinds(self, crop: str) -> tuple[str, ...]:
        """The kinds of a crop, as names to write."""
        return tuple(self._named((crop, kind.key), plural=False) for kind in self.heads[crop].kinds)

    def _named(self, target: Target, plural: bool) -> str:
        crop, kind = target
        said = next((k.said for k in self.heads[crop].kinds if k.key == kind), self.heads[crop].said)
        if said:
            return said[0]
        own = next((k.names for k in self.heads[crop].kinds if k.key == kind), ())
        name = printed_name(first_name(self.heads[crop]), kind, own)
        return plural_of(name) if plural else name


def names_of(heads: Iterable[Head]) -> Names:
    """The book of all names of these crops."""
    by_key = {head.crop: head for head in heads}
    exact = _exact(by_key.values())
    forms = {form: Known(spelled, tuple(found), many) for form, (spelled, found, many) in exact.items()}
    for word, found in _general(by_key.values()).items():
        for spelled, many in _spellings(word):
            known = forms.get(plain_name(spelled), Known(spelled, (), many))
            targets = tuple(dict.fromkeys((*known.targets, *found)))
            if len(targets) > 1:
                forms[plain_name(spelled)] = Known(spelled, targets, many)
    said = _said(by_key.values())
    if said:
        forms = {form: msgspec.structs.replace(known, foreign=True) for form, known in forms.items()} | said
    return Names(by_key, forms, max((form.count(" ") + 1 for form in forms), default=0))


def printed_name(crop: str, kind: str, own: Sequence[str] = ()) -> str:
    """`onion from sets`, `winter lettuce`, `leek`; `radicchio` alone, the first of its kind's own names."""
    if not kind:
        return crop
    if kind in own[:1]:
        return kind
    return f"{crop} {kind}" if kind.startswith("from ") else f"{kind} {crop}"


def first_name(head: Head) -> str:
    """The name that is printed."""
    return head.names[0] if head.names else head.crop


def plural_of(name: str) -> str:
    """`onions from seed`, `radishes`, `tomatoes`, `celeries`; what ends in a plural already stays."""
    noun, start, rest = name.partition(" from ")
    if noun.endswith(("ss", "us", "is", "sh", "ch", "x", "z", "ato", "chilli", "chili")):
        many = f"{noun}es"
    elif noun.endswith("s"):
        many = noun
    elif noun.endswith("y") and noun[-2:-1] not in "aeiou":
        many = f"{noun[:-1]}ies"
    elif noun.endswith("leaf"):
        many = f"{noun[:-1]}ves"
    else:
        many = f"{noun}s"
    return f"{many}{start}{rest}"


def _exact(heads: Iterable[Head]) -> dict[str, tuple[str, list[Target], bool]]:
    """Every form of every name that a file gives or that follows from a kind's key."""
    forms: dict[str, tuple[str, list[Target], bool]] = {}
    for head in heads:
        for name, kind in _names(head):
            for spelled, many in _spellings(name):
                targets = forms.setdefault(plain_name(spelled), (spelled, [], many))[1]
                if (head.crop, kind) not in targets:
                    targets.append((head.crop, kind))
    return forms


def _names(head: Head) -> Iterator[tuple[str, str]]:
    """Each name of a crop with the kind it means ("": the crop)."""
    names = tuple(dict.fromkeys((first_name(head), *head.names, *head.names_us)))
    for name in names:
        yield name, ""
    for kind in head.kinds:
        for name in dict.fromkeys((*kind.names, *(printed_name(name, kind.key) for name in names))):
            yield name, kind.key


def _said(heads: Iterable[Head]) -> dict[str, Known]:
    """The names in the garden's language, each as it is given: its grammar makes no plurals here."""
    found: dict[str, Known] = {}
    for head in heads:
        own = (("", head.said, head.said_forms), *((k.key, k.said, k.said_forms) for k in head.kinds))
        for kind, names, forms in own:
            for name, nominative in (*((name, "") for name in names), *forms.items()):
                key = plain_name(name)
                if nominative and key in found and not found[key].nominative and not name.isascii():
                    key = name.casefold()  # a name looks the same without its marks
                known = found.get(key, Known(name, (), nominative=nominative))
                targets = tuple(dict.fromkeys((*known.targets, (head.crop, kind))))
                bare = (head.crop, "")  # a name that means the crop as a whole means no kind of it besides
                targets = (bare,) if bare in targets else targets
                found[key] = msgspec.structs.replace(known, targets=targets)
    return found


def _general(heads: Iterable[Head]) -> dict[str, list[Target]]:
    """Words shared by the names of several crops: `bean` of broad beans and French beans.

    A word that is the first name of a crop means that crop (onion, whatever spring onions are). One that is
    only a further name (broccoli, of calabrese) gives way to crops whose first name ends in it.
    """
    heads = tuple(heads)
    firsts = {name for head in heads for name in (first_name(head), *head.names_us[:1])}
    further = {name for head in heads for name in (*head.names, *head.names_us)} - firsts
    found: dict[str, list[Target]] = {}
    for head in heads:
        for name in (first_name(head), *head.names, *head.names_us):
            word = name.rpartition(" ")[2]
            if word == name or word in firsts or (word in further and name not in firsts):
                continue
            if (head.crop, "") not in found.setdefault(word, []):
                found[word].append((head.crop, ""))
    return found


def _spellings(name: str) -> Iterator[tuple[str, bool]]:
    """A name in the singular and in its plurals, with whether it is one."""
    yield name, False
    many = plural_of(name)
    yield many, True
    if "oes" in many:  # tomatos, mangoes and the like are written both ways
        yield many.replace("oes", "os"), True


def plain_name(name: str) -> str:
    """Without what growers write in several ways: capitals, apostrophes, hyphens, accents."""
    if not name.isascii():
        name = "".join(c for c in normalize("NFKD", name.translate(_NO_MARKS)) if not combining(c))
    return " ".join(name.casefold().replace("'", "").replace("’", "").replace("-", " ").split())
