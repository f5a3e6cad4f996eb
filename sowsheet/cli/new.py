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
    season = _season(words, season)
    latitude = _latitude(typer.prompt(words.say("cli.new.latitude"), default=_LATITUDE), words)
    frosts = _SOUTH if latitude < 0 else _NORTH
    last = typer.prompt(words.say("cli.new.last frost"), default=frosts[0])
    first = typer.prompt(words.say("cli.new.first frost"), default=frosts[1])
    return name, season, latitude, last, first, "safe" if _is_safe(words) else "average"


def _season(words: Language, default: int) -> int:
    """The year, asked for until it is one."""
    while True:
        text = str(typer.prompt(words.say("cli.new.season"), default=str(default)))
        if text.strip().isdecimal():
            return int(text)
        _again(words, words.say("help.new.no season", text=repr(text)))


def _is_safe(words: Language) -> bool:
    """Whether the frost dates are safe ones, answered in the reader's language or in English."""
    yes, no = words.say("cli.new.yes said").split(), words.say("cli.new.no said").split()
    known = {**dict.fromkeys(("", "n", "no", *no), False), **dict.fromkeys(("y", "yes", *yes), True)}
    while True:
        question = f"{words.say('cli.new.safe')} [{yes[0]}/{no[0].upper()}]"
        text = str(typer.prompt(question, default="", show_default=False)).strip().lower()
        if text in known:
            return known[text]
        _again(words, words.say("help.new.no answer"))


def _again(words: Language, what: str) -> None:
    typer.echo(words.say("help.library.error", what=what))


def _latitude(text: str, words: Language) -> float:
    number = text.strip().upper().rstrip("°NS ").strip()
    try:
        degrees = float(number)
    except ValueError:
        stop(words.say("cli.new.no latitude", text=text))
    return -abs(degrees) if "S" in text.upper() else degrees
