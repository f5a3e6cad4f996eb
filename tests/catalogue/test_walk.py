"""A walk over the whole catalogue: every crop file, every number, every name."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta
from functools import cache
from pathlib import Path

import msgspec
import pytest

from sowsheet.catalogue.catalogue import Catalogue
from sowsheet.catalogue.folder import INDEX, SOURCES, crops_folder
from sowsheet.catalogue.index import crop_files, index_of
from sowsheet.catalogue.names import first_name, plural_of, printed_name
from sowsheet.catalogue.pages import UNPUBLISHED
from sowsheet.catalogue.read import read_crop
from sowsheet.catalogue.records import AnchoredRange, Crop, Kind, Range, Source, Window
from sowsheet.catalogue.show import WIDTH, crop_list, crop_page
from sowsheet.catalogue.sources import read_sources
from sowsheet.catalogue.tally import pages_of, table, tally, with_table
from sowsheet.reading.dates import GrowerDate
from sowsheet.reading.mistakes import Mistake
from sowsheet.site.almanac import Almanac, day_after
from sowsheet.words.mistakes import shown
from tests.in_english import EN

FOLDER = crops_folder()
FILES = crop_files(FOLDER)
GARDENS = (
    Almanac(52.0, (5, 10), (10, 12)),
    Almanac(52.0, (4, 20), (11, 1)),
    Almanac(-43.5, (11, 10), (4, 12)),
)
# Words that growers use for several crops, each refused with its choices.
SHARED = (
    {"bean", "beans", "broccoli", "broccolis", "squash", "squashes", "chicory", "chicories", "shallot", "shallots"}
    | {"mustard", "mustards", "marigold", "marigolds"}
    | {f"{bulb}onion{many}" for bulb in ("", "bulb ") for many in ("", "s")}
)


@cache
def all_sources() -> dict[str, Source]:
    mistakes: list[Mistake] = []
    found = read_sources((FOLDER / SOURCES).read_text("utf-8"), SOURCES, mistakes)
    assert not mistakes, "\n".join(shown(m, EN) for m in mistakes)
    return found


@cache
def crop_in(path: Path) -> Crop:
    mistakes: list[Mistake] = []
    found = read_crop(path.read_text("utf-8"), path.name, all_sources(), mistakes)
    assert not mistakes, "\n".join(shown(m, EN) for m in mistakes)
    assert found is not None
    return found


def kinds() -> Iterator[Kind]:
    for path in FILES:
        yield from crop_in(path).kinds


def catalogue() -> Catalogue:
    mistakes: list[Mistake] = []
    found = Catalogue.open(mistakes)
    assert not mistakes
    return found


def parts_of(value: object) -> Iterator[object]:
    """A record with all that it holds."""
    yield value
    if isinstance(value, msgspec.Struct):
        for field in value.__struct_fields__:
            yield from parts_of(getattr(value, field))
    elif isinstance(value, tuple):
        for part in value:
            yield from parts_of(part)


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
def test_a_crop_file_is_strict_complete_and_sourced(path: Path) -> None:
    crop = crop_in(path)
    assert path.stem == crop.key.replace(" ", "-").replace("'", "").lower()
    assert crop.kinds
    assert [kind.key for kind in crop.kinds] == list(dict.fromkeys(kind.key for kind in crop.kinds))


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
def test_every_number_names_a_source_that_exists(path: Path) -> None:
    for kind in crop_in(path).kinds:
        for field, keys in kind.sources.items():
            assert keys, f"{kind.name}: {field}"
            assert set(keys) <= {*all_sources(), *UNPUBLISHED}, f"{kind.name}: {field}"


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
def test_ranges_are_in_order(path: Path) -> None:
    for kind in crop_in(path).kinds:
        for part in parts_of(kind):
            if isinstance(part, Range):
                assert part.low <= part.usual <= part.high, kind.name


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
def test_plants_to_a_cell_follow_from_seeds_and_germination(path: Path) -> None:
    """What comes up is near the clump aimed at: not much below its least, at most one to thin out above its most."""
    for kind in crop_in(path).kinds:
        if kind.tray and kind.seed and kind.tray.sown_in == "module":
            up = kind.tray.seeds_per_cell * kind.seed.comes_up
            plants = kind.tray.plants_per_cell
            assert plants.low * 0.6 <= up <= plants.high + 1, f"{kind.name}: {up:g} come up"


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
def test_signs_are_a_few_words_without_numbers(path: Path) -> None:
    for kind in crop_in(path).kinds:
        for stage, words in kind.signs.items():
            assert len(words.split()) <= 10, f"{kind.name}, {stage}: {words}"
            assert not any(letter.isdigit() for letter in words), f"{kind.name}, {stage}: {words}"


@pytest.mark.parametrize("almanac", GARDENS, ids=["north, late frost", "north, mild", "south"])
@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
def test_windows_open_and_shut_in_one_year(path: Path, almanac: Almanac) -> None:
    for kind in crop_in(path).kinds:
        for window in kind.windows:
            start, until = window_of(almanac, window)
            assert 7 <= (until - start).days <= 300, f"{kind.name}: {start} to {until}"
            if window.fleece_start is not None:
                fleece = day_after(almanac, window.fleece_start, start - timedelta(days=120))
                assert fleece is not None
                assert 0 < (start - fleece).days < 90, f"{kind.name}: fleece {fleece}, open {start}"


@pytest.mark.parametrize("almanac", GARDENS, ids=["north, late frost", "north, mild", "south"])
@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
def test_a_crop_is_picked_after_it_is_planted_and_cleared_after_it_is_picked(path: Path, almanac: Almanac) -> None:
    for kind in crop_in(path).kinds:
        for window in kind.windows:
            for planted in window_of(almanac, window):
                pick = first_pick(almanac, kind, window, planted)
                longest = 400 if kind.stands_years is None else 1100  # a perennial is left to grow for years
                assert 15 <= (pick - planted).days <= longest, f"{kind.name} of {planted} is picked {pick}"
                if kind.harvest.until:
                    until = day_after(almanac, kind.harvest.until, pick)
                    assert until is not None
                    assert (until - pick).days <= 360, f"{kind.name} of {planted}, picked {pick}, until {until}"


def window_of(almanac: Almanac, window: Window) -> tuple[date, date]:
    start = day_on(almanac, window.start, date(2027, 1, 1))
    return start, day_on(almanac, window.until, start)


def day_on(almanac: Almanac, words: GrowerDate, after: date) -> date:
    found = day_after(almanac, words, after)
    assert found is not None
    return found


def first_pick(almanac: Almanac, kind: Kind, window: Window, planted: date) -> date:
    harvest = kind.harvest
    if isinstance(harvest.first_pick, AnchoredRange):
        least = harvest.at_least_days.usual if harvest.at_least_days else 0
        return max(day_on(almanac, harvest.first_pick.usual, planted), planted + timedelta(days=least))
    days = harvest.first_pick_direct if window.seed and harvest.first_pick_direct else harvest.first_pick
    return planted + timedelta(days=days.usual)


def test_no_source_stands_in_the_list_for_nothing() -> None:
    used = {key for kind in kinds() for found in kind.sources.values() for key in found}
    # A line that every kind replaces or that is drowned out by `set` names its source all the same.
    written = "".join(path.read_text("utf-8") for path in FILES)
    assert {key for key in set(all_sources()) - used if key not in written} == set()


def test_the_index_is_not_stale() -> None:
    mistakes: list[Mistake] = []
    index = index_of(FOLDER, mistakes)
    assert not mistakes
    assert (FOLDER / INDEX).read_bytes() == index, "run `python -m sowsheet.catalogue.index`"


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
def test_every_name_is_found_in_the_singular_and_the_plural(path: Path) -> None:
    names, head = catalogue().names, catalogue().names.heads[crop_in(path).key]
    wanted = [(name, "") for name in (first_name(head), *head.names, *head.names_us)]
    for kind in head.kinds:
        wanted += [(name, kind.key) for name in (*kind.names, printed_name(first_name(head), kind.key, kind.names))]
    for name, kind_key in wanted:
        for form in (name, plural_of(name), name.lower()):
            assert (head.crop, kind_key) in names.meant(tuple(form.split())), form


def test_words_that_growers_share_are_asked_and_no_others() -> None:
    names = catalogue().names
    found = {form: names.find((form,)) for form in names.forms}
    assert {form for form, name in found.items() if name is not None and name.choices} == SHARED
    beans = names.find(("beans",))
    assert beans is not None
    assert beans.choices == ("broad beans", "field beans", "French beans", "runner beans")


def test_every_page_can_be_shown() -> None:
    opened, mistakes = catalogue(), list[Mistake]()
    assert len(crop_list(opened, mistakes)) == len(FILES) + 1
    for path in FILES:
        page = crop_page(opened, crop_in(path).names[0], True, mistakes)
        assert isinstance(page, list)
        assert max(len(line) for line in page) <= WIDTH
    assert not mistakes


def test_the_tally_in_developers_md_is_not_stale() -> None:
    mistakes: list[Mistake] = []
    page = (FOLDER.parent / "DEVELOPERS.md").read_text("utf-8")
    renewed = with_table(page, table(tally(pages_of(FOLDER, mistakes))))
    assert renewed == page, "run `python -m sowsheet.catalogue.tally`"
    assert not mistakes


def test_the_catalogue_is_large() -> None:
    """At least sixty crops and a hundred kinds."""
    assert len(FILES) >= 60
    assert sum(1 for _ in kinds()) >= 100


def test_readme_counts_the_catalogue() -> None:
    readme = (FOLDER.parent / "README.md").read_text("utf-8")
    assert f"{len(FILES)} crops of {sum(1 for _ in kinds())} kinds" in readme
