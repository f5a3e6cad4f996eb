"""`sowsheet new`: a first garden file."""

from __future__ import annotations

import shlex
import sys
from datetime import date
from pathlib import Path
from typing import Annotated

import typer

from sowsheet.cli.common import InLanguage, Today, day_given, spoken, stop
from sowsheet.cli.print_ import write_whole
from sowsheet.words.language import Language

Folder = Annotated[Path, typer.Argument(metavar="FOLDER", help="help.new.folder")]
Yes = Annotated[bool, typer.Option("--yes", "-y", help="help.new.yes")]

_LATITUDE = "52.4"
_NORTH = ("10 May", "12 October")
_SOUTH = ("20 October", "1 May")


def new(folder: Folder, yes: Yes = False, today: Today = "", language: InLanguage = None) -> None:
    """A first garden file.

    \b
    sowsheet new mygarden
    sowsheet new mygarden --yes
    """
    from sowsheet.garden.new import first_garden  # noqa: PLC0415

    words, target = spoken(language), folder / "garden.yaml"
    if target.exists():
        stop(words.say("cli.there already", file=target))
    if folder.exists() and not folder.is_dir():
        stop(words.say("cli.new.file", file=folder))
    asks = not yes and sys.stdin.isatty()
    name = folder.resolve().name.replace("-", " ").replace("_", " ").title()
    day = day_given(today, words) or date.today()  # noqa: DTZ011 - the grower's calendar
    text = first_garden(*_answers(name, day, asks, words), words)
    write_whole(folder, {"garden.yaml": text.encode()}, words)
    typer.echo(words.say("cli.new.written", file=target))
    pasted = shlex.quote(str(target))
    typer.echo(f"  1. {words.say('cli.new.open', file=pasted)}")
    typer.echo(f"  2. {words.say('cli.new.print', file=pasted)}")


def _answers(name: str, today: date, asks: bool, words: Language) -> tuple[str, int, float, str, str, str]:
    """Name, season, latitude, last and first frost, and what the frost dates mean: asked, or the defaults."""
    season = today.year + (1 if today.month >= 8 else 0)
    if not asks:
        return name, season, float(_LATITUDE), *_NORTH, "average"
    name = typer.prompt(words.say("cli.new.name"), default=name)
    season = typer.prompt(words.say("cli.new.season"), default=season, type=int)
    latitude = _latitude(typer.prompt(words.say("cli.new.latitude"), default=_LATITUDE), words)
    frosts = _SOUTH if latitude < 0 else _NORTH
    last = typer.prompt(words.say("cli.new.last frost"), default=frosts[0])
    first = typer.prompt(words.say("cli.new.first frost"), default=frosts[1])
    safe = typer.confirm(words.say("cli.new.safe"))
    return name, season, latitude, last, first, "safe" if safe else "average"


def _latitude(text: str, words: Language) -> float:
    number = text.strip().upper().rstrip("°NS ").strip()
    try:
        degrees = float(number)
    except ValueError:
        stop(words.say("cli.new.no latitude", text=text))
    return -abs(degrees) if "S" in text.upper() else degrees
