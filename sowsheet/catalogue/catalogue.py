"""The catalogue as the other rooms see it: a book of all names, and the crops that were asked for."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path

import msgspec

from sowsheet.catalogue.folder import SOURCES, crops_folder
from sowsheet.catalogue.in_language import crop_in, head_in, names_in
from sowsheet.catalogue.index import head_of, read_index
from sowsheet.catalogue.names import Head, KindHead, Names, names_of
from sowsheet.catalogue.pages import Page, read_own, read_page
from sowsheet.catalogue.read import crop_of
from sowsheet.catalogue.records import Crop, Source
from sowsheet.catalogue.sources import read_sources
from sowsheet.reading.mistakes import Mistake, said
from sowsheet.reading.nodes import read_text
from sowsheet.words.language import Language, language_of


class Catalogue(msgspec.Struct, frozen=True):
    """Names of all crops; of the crops themselves only those loaded."""

    folder: Path
    names: Names
    own: tuple[Page, ...] = ()
    crops: dict[str, Crop] = {}
    language: str = "en"

    @property
    def words(self) -> Language:
        """The language that its crops are in."""
        return language_of(self.language)

    @property
    def in_order(self) -> list[Crop]:
        """The loaded crops by the names that are printed."""
        words = self.words
        return sorted(self.crops.values(), key=lambda crop: words.sort_key(names_in(words, crop)[0]))

    @staticmethod
    def open(
        mistakes: list[Mistake],
        own: Iterable[Path] = (),
        folder: Path | None = None,
        language: str = "en",
        written: str = "en",
    ) -> Catalogue:
        """The catalogue in a language, with the grower's own crop files laid over it; no crop is read yet.

        A garden file that is `written` in another language than the one spoken may use the crops' names of both.
        """
        folder, words = folder or crops_folder(), language_of(language)
        shipped = [head_in(words, head) for head in read_index(folder)]
        book = names_of(shipped)
        pages = tuple(page for path in own for page in read_own(path, mistakes) if _is_known(page, book, mistakes))
        if pages:
            heads = {head.crop: head for head in shipped}
            for page in pages:
                own_head = head_of(page) if words.english else _his_own(head_of(page))
                heads[page.key] = _laid_over(heads.get(page.key), own_head)
            book = names_of(heads.values())
        if written != language and not written.startswith("en"):  # English names are in every book
            book = book.written_in(head_in(language_of(written), head) for head in read_index(folder))
        return Catalogue(folder, book, pages, language=language)

    def crop(self, key: str) -> Crop:
        """A loaded crop. Raises KeyError for one that is not."""
        return self.crops[key]

    def load(self, keys: Iterable[str] | None, mistakes: list[Mistake]) -> Catalogue:
        """The same catalogue with these crops (None: all) read. One with mistakes is left out of it."""
        wanted = self.names.heads if keys is None else dict.fromkeys(keys)
        found = {key: self.crops.get(key) or self._read(self.names.heads[key], mistakes) for key in wanted}
        return msgspec.structs.replace(self, crops={key: crop for key, crop in found.items() if crop is not None})

    def sources(self, mistakes: list[Mistake]) -> dict[str, Source]:
        """All sources by key."""
        text = read_text(self.folder / SOURCES)
        if isinstance(text, Mistake):
            mistakes.append(text)
            return {}
        return read_sources(text, SOURCES, mistakes)

    def _read(self, head: Head, mistakes: list[Mistake]) -> Crop | None:
        own = [page for page in self.own if page.key == head.crop]
        crop = self._joined(head, own, mistakes)
        if crop is None:
            return None
        own_lines = {path for page in own for path in (*page.lines, *(p for kind in page.kinds for p in kind.lines))}
        return crop_in(self.words, crop, own_lines)

    def _joined(self, head: Head, own: list[Page], mistakes: list[Mistake]) -> Crop | None:
        if not head.file:
            return crop_of(own, mistakes)
        # The sources of the shipped files are checked where the project is tested, not in every garden.
        text, before = (self.folder / head.file).read_text("utf-8"), len(mistakes)
        page = read_page(text, head.file, None, mistakes)
        return None if page is None or len(mistakes) > before else crop_of([page, *own], mistakes)


def _is_known(page: Page, book: Names, mistakes: list[Mistake]) -> bool:
    """Whether a page's key is the catalogue's, or that of a new crop and not a slip of a known one."""
    if page.key in book.heads:
        return True
    found = book.find(tuple(page.key.split()))
    if found is not None:
        what, own = said("mistake.crops.other key.what", key=page.key), "kind" if found.kind else "crop"
        cure = said(f"mistake.crops.other key.{own}", crop=found.crop, kind=found.kind)
        mistakes.append(Mistake(page.spot, what, cure))
        return False
    near = book.near(page.key)
    if near is not None and not page.kinds and not {"tray", "drill", "set"} & {p.partition(".")[0] for p in page.lines}:
        cure = said("mistake.crops.slip.cure", near=near)
        mistakes.append(Mistake(page.spot, said("mistake.crops.slip.what", key=page.key), cure))
        return False
    return True


def _laid_over(shipped: Head | None, own: Head) -> Head:
    """A crop's head with the names and kinds that the grower adds."""
    if shipped is None:
        return own
    kinds = {kind.key: kind for kind in shipped.kinds}
    for kind in own.kinds:
        before = kinds.get(kind.key, KindHead(kind.key))
        kinds[kind.key] = KindHead(kind.key, before.names + kind.names, before.said + kind.said)
    return Head(
        shipped.crop,
        shipped.file,
        shipped.names + own.names,
        shipped.names_us + own.names_us,
        own.unnamed or shipped.unnamed,
        tuple(kinds.values()),
        shipped.said + own.said,
    )


def _his_own(head: Head) -> Head:
    """A head of the grower's own file: whatever its names are, they are of his language."""
    kinds = tuple(msgspec.structs.replace(kind, said=kind.names) for kind in head.kinds)
    return msgspec.structs.replace(head, said=head.names, kinds=kinds)
