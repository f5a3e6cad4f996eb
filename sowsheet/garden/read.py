"""A garden file read: strictly, all its mistakes at once, each where it stands."""

from __future__ import annotations

from pathlib import Path

from sowsheet.garden.beds import in_feet, read_also, read_beds
from sowsheet.garden.habits import read_house, work_days
from sowsheet.garden.places import read_places, read_trays
from sowsheet.garden.records import Bed, Garden, Place
from sowsheet.garden.site import read_site
from sowsheet.garden.values import Section, is_blank, is_file, name_of, one_of, section, words_in
from sowsheet.reading.mistakes import Mistake, in_order, said
from sowsheet.reading.names import NameBook
from sowsheet.reading.nodes import Mapping, Text, compose, load, read_text
from sowsheet.reading.numbers import whole
from sowsheet.words.language import LANGUAGES

_NEEDED = ("garden", "season", "site", "beds")
_MAY_BE_LEFT_OUT = ("places", "trays", "work days", "house", "beds are", "sow also", "paper", "language", "crops")
_PAPERS = ("A4", "A3", "A2", "A1", "Letter", "Tabloid")
_FIRST_SEASON, _LAST_SEASON = 1990, 2200


def read_garden(path: Path, names: NameBook, mistakes: list[Mistake]) -> Garden | None:
    """The garden in a file; None when anything in it is a mistake. All of them are added to `mistakes`, in order."""
    noted: list[Mistake] = []
    garden = _garden(path, names, noted)
    mistakes += in_order(noted)
    return None if noted else garden


def own_crop_files(path: Path) -> tuple[Path, ...]:
    """The grower's own crop files that are there. All mistakes, missing files too, are told by `read_garden`."""
    root = load(path, [])
    node = root.get("crops") if isinstance(root, Mapping) else None
    if node is None or is_blank(node):
        return ()
    paths = (path.parent / text.text for text in words_in(node, "crops", []))
    return tuple(p for p in paths if is_file(p))


def language_named(path: Path) -> str:
    """The language that a garden file asks for; English where it names none that is known (`read_garden` tells)."""
    text = read_text(path)
    if isinstance(text, Mistake) or "language" not in text:  # soon known, for most files
        return LANGUAGES[0]
    root = compose(text, str(path), [])
    node = root.get("language") if isinstance(root, Mapping) else None
    return (one_of(node, LANGUAGES, "language", []) if isinstance(node, Text) else None) or LANGUAGES[0]


def crops_named(garden: Garden) -> frozenset[str]:
    """The catalogue keys of every crop that a garden's lines name."""
    lines = (*(b.plan for b in garden.beds), *garden.also)
    steps = (step for line in lines if line is not None for step in line.steps)
    return frozenset(item.crop for step in steps for item in (*step.items, *step.between))


def _garden(path: Path, names: NameBook, mistakes: list[Mistake]) -> Garden | None:
    """Every section is read, whatever is wrong with those before it."""
    root = load(path, mistakes)
    if root is None:
        return None
    raises_only = isinstance(root, Mapping) and root.get("sow also") is not None  # plants for other people's beds
    needed = tuple(key for key in _NEEDED if key != "beds" or not raises_only)
    top = section(root, (*_NEEDED, *_MAY_BE_LEFT_OUT), needed, mistakes, said("mistake.thing.garden file"))
    name, season = top.read("garden", name_of), top.read("season", _season)
    site = read_site(top.found["site"].value, mistakes, path.parent) if "site" in top.found else None
    language = top.read("language", _language) or LANGUAGES[0]
    named, trays = read_places(top, path.parent, language), read_trays(top)
    places = tuple(p for p in named if p.purposes)
    days, house, paper = top.read_all("work days", work_days), read_house(top), top.read("paper", _paper)
    standing = tuple(place.name for place in places)
    beds, also = read_beds(top, names, named), read_also(top, names, standing)
    _refuse_shared_names(named, beds, mistakes)
    _refuse_missing_crop_files(top, path)
    if name is None or season is None or site is None:
        return None
    return Garden(
        name=name,
        season=season,
        site=site,
        places=places,
        houses=tuple(p for p in named if not p.purposes),
        trays=trays,
        beds=beds,
        also=also,
        work_days=frozenset().union(*days),
        house=house,
        paper=paper or "",
        imperial=in_feet(top),
        language=language,
        file=str(path),
    )


def _season(text: Text, mistakes: list[Mistake]) -> int | None:
    """The year in which the season begins."""
    year = whole(text.text.strip())
    if year is not None and _FIRST_SEASON <= year <= _LAST_SEASON:
        return year
    what = said("mistake.season.what", text=" ".join(text.text.split()))
    mistakes.append(Mistake(text.spot, what, said("mistake.season.cure")))
    return None


def _paper(text: Text, mistakes: list[Mistake]) -> str | None:
    return one_of(text, _PAPERS, "paper", mistakes)


def _language(text: Text, mistakes: list[Mistake]) -> str | None:
    return one_of(text, LANGUAGES, "language", mistakes)


def _refuse_shared_names(places: tuple[Place, ...], beds: tuple[Bed, ...], mistakes: list[Mistake]) -> None:
    """Sheets say where a job is by one name, so a bed and a place may not share it."""
    of_places = {p.name.casefold() for p in places}
    for bed in beds:
        if bed.name.casefold() in of_places:
            cure = said("mistake.bed.place.cure")
            mistakes.append(Mistake(bed.spot, said("mistake.bed.place.what", name=bed.name), cure))


def _refuse_missing_crop_files(top: Section, path: Path) -> None:
    node = top.node("crops")
    for text in words_in(node, "crops", top.mistakes) if node is not None else ():
        if not is_file(path.parent / text.text):
            what = said("mistake.file.not there.what", file=text.text)
            top.mistakes.append(Mistake(text.spot, what, said("mistake.file.not there.crops")))
