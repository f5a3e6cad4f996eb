"""`sowsheet new`: a first garden file."""

from __future__ import annotations

import shlex
import sys
from datetime import date
from pathlib import Path
from typing import Annotated

import typer

from sowsheet.cli.common import Today, day_given, stop
from sowsheet.cli.print_ import write_whole

Folder = Annotated[Path, typer.Argument(metavar="FOLDER", help="The folder to make; garden.yaml is written into it.")]
Yes = Annotated[bool, typer.Option("--yes", "-y", help="Ask nothing; take the defaults.")]

_LATITUDE = "52.4"
_NORTH = ("10 May", "12 October")
_SOUTH = ("20 October", "1 May")


def new(folder: Folder, yes: Yes = False, today: Today = "") -> None:
    """Write a first garden file, with comments, that prints as it stands.

    In a terminal it asks for the few things it must know, each with a default.

    \b
    sowsheet new mygarden
    sowsheet new mygarden --yes
    """
    from sowsheet.garden.new import first_garden  # noqa: PLC0415

    target = folder / "garden.yaml"
    if target.exists():
        stop(f"{target} is there already; it is not touched")
    if folder.exists() and not folder.is_dir():
        stop(f"{folder} is a file; name a folder")
    asks = not yes and sys.stdin.isatty()
    name = folder.resolve().name.replace("-", " ").replace("_", " ").title() or "My Garden"
    text = first_garden(*_answers(name, day_given(today) or date.today(), asks))  # noqa: DTZ011 - the grower's calendar
    write_whole(folder, {"garden.yaml": text.encode()})
    typer.echo(f"Written: {target}")
    pasted = shlex.quote(str(target))
    typer.echo(f"  1. Open it and write your own beds, a line a bed; then: sowsheet check {pasted}")
    typer.echo(f"  2. Print the sheets: sowsheet print {pasted}")


def _answers(name: str, today: date, asks: bool) -> tuple[str, int, float, str, str, str]:
    """Name, season, latitude, last and first frost, and what the frost dates mean: asked, or the defaults."""
    season = today.year + (1 if today.month >= 8 else 0)
    if not asks:
        return name, season, float(_LATITUDE), *_NORTH, "average"
    name = typer.prompt("The garden's name", default=name)
    season = typer.prompt("Season (the year it begins in)", default=season, type=int)
    latitude = _latitude(typer.prompt("Latitude in degrees (south: 37 S)", default=_LATITUDE))
    frosts = _SOUTH if latitude < 0 else _NORTH
    last = typer.prompt("Last frost in spring", default=frosts[0])
    first = typer.prompt("First frost in autumn", default=frosts[1])
    safe = typer.confirm("Are these the safe dates (frost beyond them in 1 year of 10), not the average ones?")
    return name, season, latitude, last, first, "safe" if safe else "average"


def _latitude(text: str) -> float:
    number = text.strip().upper().rstrip("°NS ").strip()
    try:
        degrees = float(number)
    except ValueError:
        stop(f"`{text}` is no latitude; write 52.4, or 37 S")
    return -abs(degrees) if "S" in text.upper() else degrees
