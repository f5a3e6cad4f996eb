"""`sowsheet crops`: the catalogue, readably; on paper; and a new crop file to fill in."""

from __future__ import annotations

import shlex
from enum import StrEnum
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from sowsheet.cli.common import InLanguage, LanguageTag, garden_of, refuse, spoken, stop, weather_of
from sowsheet.cli.print_ import NoTags, Out, Paper, Progress, refuse_poster, tile_grid, write_whole
from sowsheet.reading.mistakes import Mistake
from sowsheet.words.language import Language

if TYPE_CHECKING:
    from sowsheet.catalogue.catalogue import Catalogue
    from sowsheet.catalogue.records import Kind
    from sowsheet.catalogue.show import NotKnown
    from sowsheet.garden.records import Garden
    from sowsheet.sheets.crop_rows import CropRow
    from sowsheet.sheets.crop_table import Heading
    from sowsheet.sheets.poster_grid import Grid
    from sowsheet.sheets.shapes import Sheet
    from sowsheet.site.climate import Climate


LONGEST_NAME = 40
# Words of a plan line, and those that YAML reads as something else.
# fmt: off
TAKEN = frozenset((
    "and", "between", "direct", "drilled", "every", "from", "in", "it", "maybe", "no", "nothing",
    "null", "or", "picked", "planted", "set", "since", "sown", "then", "there", "till", "true", "under",
    "when", "with", "yes",
))
# fmt: on


class Way(StrEnum):
    """How a crop is raised."""

    TRAY = "tray"
    DRILL = "drill"
    SET = "set"


Name = Annotated[
    str,
    typer.Argument(metavar="[CROP]", help="help.crops.name"),
]
Sources = Annotated[bool, typer.Option("--sources", help="help.crops.sources")]
Why = Annotated[bool, typer.Option("--why", help="help.crops.why")]
Pdf = Annotated[bool, typer.Option("--pdf", help="help.crops.pdf")]
ForGarden = Annotated[Path | None, typer.Option("--garden", metavar="GARDEN", help="help.crops.garden")]
OnPaper = Annotated[Paper | None, typer.Option("--paper", case_sensitive=False, help="help.crops.paper")]
AsPoster = Annotated[str, typer.Option("--poster", metavar="GRID", help="help.crops.poster")]
New = Annotated[str | None, typer.Option("--new", metavar="NAME", help="help.crops.new")]
Raised = Annotated[Way | None, typer.Option("--raised", help="help.crops.raised")]


def crops(
    name: Name = "",
    sources: Sources = False,
    why: Why = False,
    pdf: Pdf = False,
    garden: ForGarden = None,
    paper: OnPaper = None,
    poster: AsPoster = "",
    out: Out = Path("sheets"),
    new: New = None,
    raised: Raised = None,
    no_tags: NoTags = False,
    language: InLanguage = None,
) -> None:
    """The catalogue.

    \b
    sowsheet crops
    sowsheet crops leek --sources
    sowsheet crops lettuce --why
    sowsheet crops --pdf --garden mygarden/garden.yaml
    sowsheet crops --pdf --poster 3x2
    sowsheet crops --new oca --raised set
    sowsheet crops oca.yaml
    """
    words = spoken(language)
    _refuse_idle(name, pdf, garden, new, raised, words)
    if why and (not name or name.endswith((".yaml", ".yml"))):
        stop(words.say("cli.crops.why alone"))
    if new is not None:
        _begin(new, raised or Way.TRAY, words)
    elif pdf:
        _print(garden, paper, poster, out, not no_tags, language)
    elif name.endswith((".yaml", ".yml")):
        _show_file(Path(name), sources, words)
    else:
        _show(name, sources, why, words)


def _refuse_idle(
    name: str, pdf: bool, garden: Path | None, new: str | None, raised: Way | None, words: Language
) -> None:
    """Options that would do nothing beside the others."""
    if pdf and name:
        stop(words.say("cli.crops.all or one", name=name))
    if garden is not None and not pdf:
        stop(words.say("cli.crops.garden alone"))
    if raised is not None and new is None:
        stop(words.say("cli.crops.raised alone"))


def _show(name: str, sources: bool, why: bool, words: Language) -> None:
    """The list, or a crop's page."""
    from sowsheet.catalogue.catalogue import Catalogue  # noqa: PLC0415
    from sowsheet.catalogue.show import crop_list  # noqa: PLC0415

    mistakes: list[Mistake] = []
    catalogue = Catalogue.open(mistakes, language=words.tag)
    if name:
        if why:
            _reasons(catalogue, name, mistakes)
        else:
            _page(catalogue, name, sources, mistakes)
        return
    found = crop_list(catalogue, mistakes)
    if mistakes:
        refuse(mistakes, words)
    for line in found:
        typer.echo(line)


def _page(catalogue: Catalogue, name: str, sources: bool, mistakes: list[Mistake]) -> None:
    from sowsheet.catalogue.show import crop_page  # noqa: PLC0415

    _echo(crop_page(catalogue, name, sources, mistakes), mistakes, catalogue.words)


def _reasons(catalogue: Catalogue, name: str, mistakes: list[Mistake]) -> None:
    """How the growth clock's numbers follow from a crop's days."""
    from sowsheet.catalogue.show import NotKnown, kinds_named  # noqa: PLC0415
    from sowsheet.exports.why import why_lines  # noqa: PLC0415

    kinds = kinds_named(catalogue, name, mistakes)
    _echo(kinds if isinstance(kinds, NotKnown) else list(why_lines(kinds, catalogue.words)), mistakes, catalogue.words)


def _echo(found: list[str] | NotKnown, mistakes: list[Mistake], words: Language) -> None:
    """Lines; or why there are none, and the end."""
    if mistakes:
        refuse(mistakes, words)
    if not isinstance(found, list):
        stop(found.sentence)
    for line in found:
        typer.echo(line)


def _show_file(path: Path, sources: bool, words: Language) -> None:
    """A grower's own crop file: what is still missing, or its crops as they are read."""
    from sowsheet.catalogue.catalogue import Catalogue  # noqa: PLC0415

    if not path.is_file():
        stop(words.say("cli.crops.no file", file=path))
    mistakes: list[Mistake] = []
    catalogue = Catalogue.open(mistakes, (path,), language=words.tag)
    if mistakes:
        refuse(mistakes, words)
    for page in catalogue.own:
        _page(catalogue, page.names[0] if page.names else page.key, sources, mistakes)


def _begin(name: str, raised: Way, words: Language) -> None:
    """An empty crop file beside the grower's others; nothing is written over."""
    from sowsheet.catalogue.catalogue import Catalogue  # noqa: PLC0415
    from sowsheet.catalogue.template import template  # noqa: PLC0415

    key = " ".join(name.split())
    letters = key.replace("'", "").replace("-", "").replace(" ", "")
    if not letters.isalpha() or len(key) > LONGEST_NAME or not key[0].isalpha() or set(key.lower().split()) & TAKEN:
        stop(words.say("cli.crops.no name", name=name))
    known = Catalogue.open([]).names.meant(tuple(key.split()))
    if known:
        stop(words.say("cli.crops.known", name=key, quoted=shlex.quote(key)))
    path = Path(f"{key.replace(' ', '-').replace(chr(39), '').lower()}.yaml")
    if path.exists():
        stop(words.say("cli.there already", file=path))
    write_whole(path.parent, {path.name: template(key, raised.value, words).encode()}, words)
    typer.echo(words.say("cli.crops.written", file=path))
    typer.echo(f"  1. {words.say('cli.crops.fill in', file=path)}")
    typer.echo(f"  2. {words.say('cli.crops.name it', file=path)}")


def _print(
    garden_file: Path | None, paper: Paper | None, poster: str, out: Path, tagged: bool, language: LanguageTag | None
) -> None:
    """All crops on paper: by a garden's own frosts, its own crops among them, or tied to the frosts in words."""
    from sowsheet.sheets.paint import pdf_bytes  # noqa: PLC0415

    progress, words = Progress(), spoken(language)
    grid = tile_grid(poster, paper, Paper.A4, words) if poster else None
    sheet = table_of(garden_file, (paper or Paper.A3).value, language, grid)
    name = "crops-poster.pdf" if grid else "crops.pdf"
    progress.step(f"crops: {words.count(len(sheet.pages), 'page')}")
    write_whole(out, {name: pdf_bytes(sheet, tagged)}, words)
    typer.echo(words.say("cli.crops.written", file=out / name))


def table_of(
    garden_file: Path | None, paper: str, language: LanguageTag | None = None, grid: Grid | None = None
) -> Sheet:
    """The table of all crops, laid out; in the garden's language, if none is given. `grid`: as a poster of sheets."""
    from sowsheet.sheets.crop_rows import aside, columns, foot  # noqa: PLC0415
    from sowsheet.sheets.crop_table import Heading, crop_table, kinds_counted  # noqa: PLC0415
    from sowsheet.sheets.paint import measure  # noqa: PLC0415

    garden, climate, rows = _rows(garden_file, language)
    words = garden.words if garden else spoken(language)
    said = f"{aside(words, garden, climate)}; {kinds_counted(words, rows)}"
    heading = Heading(words, said, foot(words, climate), columns(words, garden is not None and garden.imperial))
    return crop_table(rows, heading, paper, measure()) if grid is None else _as_poster(rows, heading, grid)


def _as_poster(rows: list[CropRow], heading: Heading, grid: Grid) -> Sheet:
    """The table on a poster's sheets. Why it cannot be is shown, and ends the command."""
    from sowsheet.sheets.paint import measure  # noqa: PLC0415
    from sowsheet.sheets.poster import Unfit, tiled  # noqa: PLC0415
    from sowsheet.sheets.poster_table import table_posters  # noqa: PLC0415

    posters = table_posters(rows, heading, grid, measure())
    if isinstance(posters, Unfit):
        refuse_poster("crops", posters, grid, heading.words)
    return tiled(heading.title, posters, grid, measure(), heading.words)


def _rows(
    garden_file: Path | None, language: LanguageTag | None
) -> tuple[Garden | None, Climate | None, list[CropRow]]:
    """The table's rows, crops by name, and the garden and climate that date them."""
    from sowsheet.catalogue.catalogue import Catalogue  # noqa: PLC0415
    from sowsheet.schedule.kind_year import kind_year  # noqa: PLC0415
    from sowsheet.schedule.plan import context_of  # noqa: PLC0415
    from sowsheet.sheets.crop_rows import anchored_row, dated_row, has_frosts  # noqa: PLC0415

    if garden_file is None:
        words, mistakes = spoken(language), list[Mistake]()
        catalogue = Catalogue.open(mistakes, language=words.tag).load(None, mistakes)
        if mistakes:
            refuse(mistakes, words)
        return None, None, [anchored_row(words, kind, imperial=False) for kind in _kinds(catalogue)]
    garden, catalogue = garden_of(garden_file, every_crop=True, language=language)
    ctx = context_of(garden, catalogue.crop, weather=weather_of(garden))
    if not has_frosts(ctx.climate):
        return garden, ctx.climate, [anchored_row(garden.words, kind, garden.imperial) for kind in _kinds(catalogue)]
    rows = [dated_row(garden.words, kind_year(ctx, kind), garden.imperial) for kind in _kinds(catalogue)]
    return garden, ctx.climate, rows


def _kinds(catalogue: Catalogue) -> list[Kind]:
    """Every kind, the crops by the names that are printed."""
    return [kind for crop in catalogue.in_order for kind in crop.kinds]
