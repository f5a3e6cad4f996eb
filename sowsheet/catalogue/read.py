"""Crop files into crops: pages laid over one another, their kinds joined, checked and built."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Sequence

from sowsheet.catalogue.build import kind_of
from sowsheet.catalogue.complete import faults, unused
from sowsheet.catalogue.join import amended, joined, maybe
from sowsheet.catalogue.names import printed_name
from sowsheet.catalogue.pages import KindPage, Lines, Page, read_page
from sowsheet.catalogue.records import Crop, Kind
from sowsheet.reading.mistakes import Mistake, Spot, said


def read_crop(text: str, file: str, sources: Collection[str] | None, mistakes: list[Mistake]) -> Crop | None:
    """A crop file's text as a crop. `sources` are the keys that a number may name; None leaves them unchecked."""
    before = len(mistakes)
    page = read_page(text, file, sources, mistakes)
    # A line that cannot be read would be told again as missing: what cannot be joined waits until it is mended.
    return None if page is None or len(mistakes) > before else crop_of([page], mistakes)


def crop_of(pages: Iterable[Page], mistakes: list[Mistake]) -> Crop | None:
    """A crop from its page in the catalogue (if it has one) and the grower's own pages on it, in that order.

    None when it has mistakes, which are added.
    """
    before = len(mistakes)
    first, *more = pages
    lines = first.lines
    for page in more:
        lines = amended(lines, page.lines)
    heads = _heads([first, *more]) or [KindPage("", first.spot, (), {})]
    tables = {head.key: _kind_lines(lines, head.key, [first, *more]) for head in heads}
    own = {path: line for page in more for path, line in page.lines.items()}
    mistakes += unused(own if more else first.lines, tables.values())
    name = first.names[0] if first.names else first.key
    unnamed, otherwise = _unnamed([first, *more], [key for key in tables if key], mistakes)
    called = {h.key: name if h.key == unnamed else printed_name(name, h.key, h.names) for h in heads}
    kinds = [_kind(tables[h.key], first.key, h.key, called[h.key], h.spot, mistakes) for h in heads]
    if len(mistakes) > before:
        return None
    return Crop(
        key=first.key,
        names=tuple(dict.fromkeys(n for page in (first, *more) for n in page.names)) or (first.key,),
        names_us=tuple(dict.fromkeys(n for page in (first, *more) for n in page.names_us)),
        latin=maybe(lines, "latin", str) or "",
        family=maybe(lines, "family", str) or "",
        kinds=tuple(kind for kind in kinds if kind is not None),
        unnamed=unnamed,
        unnamed_else=otherwise,
    )


def _heads(pages: Iterable[Page]) -> list[KindPage]:
    """Each kind once, as it stands in the first page that has it."""
    found: dict[str, KindPage] = {}
    for page in pages:
        for kind in page.kinds:
            found.setdefault(kind.key, kind)
    return list(found.values())


def _kind_lines(lines: Lines, key: str, pages: Iterable[Page]) -> Lines:
    """A kind's lines: the first page that has it is joined with the crop's, later ones amend it."""
    first, *more = [kind.lines for page in pages for kind in page.kinds if kind.key == key] or [{}]
    found = joined(lines, first)
    for later in more:
        found = amended(found, later)
    return found


def _unnamed(pages: Sequence[Page], kinds: Sequence[str], mistakes: list[Mistake]) -> tuple[str, str]:
    """What the bare name means, and the kind taken by date when no window holds it."""
    given = next((page.unnamed for page in reversed(pages) if page.unnamed is not None), None)
    if given is None:
        if kinds:
            cure = said("mistake.crops.bare name.cure", kind=kinds[0])
            mistakes.append(Mistake(pages[0].spot, said("mistake.crops.bare name.what"), cure))
        return "", ""
    if not kinds:
        what, cure = said("mistake.crops.unnamed.needless.what"), said("mistake.crops.unnamed.needless.cure")
        mistakes.append(Mistake(given.spot, what, cure))
        return "", ""
    key = given.text.removeprefix("by date, else ")
    if key not in kinds and given.text != "ask":
        cure = said("mistake.crops.unnamed.unknown.cure", kinds=", ".join(kinds))
        mistakes.append(Mistake(given.spot, said("mistake.crops.unnamed.unknown.what", key=key), cure))
    return (key, "") if key == given.text else ("by date", key)


def _kind(lines: Lines, crop: str, key: str, name: str, spot: Spot, mistakes: list[Mistake]) -> Kind | None:
    found = faults(lines, name, spot)
    mistakes += found
    return None if found else kind_of(lines, crop, key, name)
