"""`sowsheet crops`: the catalogue, readably."""

from __future__ import annotations

from typing import Annotated

import typer

from sowsheet.cli.common import refuse, stop
from sowsheet.reading.mistakes import Mistake

Name = Annotated[str, typer.Argument(metavar="[CROP]", help="A crop's name, e.g. leek or \"lamb's lettuce\".")]
Sources = Annotated[bool, typer.Option("--sources", help="Show where each number is from.")]


def crops(name: Name = "", sources: Sources = False) -> None:
    """List the crops, or show what is known of one.

    \b
    sowsheet crops
    sowsheet crops leek
    sowsheet crops leek --sources
    """
    from sowsheet.catalogue.catalogue import Catalogue  # noqa: PLC0415
    from sowsheet.catalogue.show import NotKnown, crop_list, crop_page  # noqa: PLC0415

    mistakes: list[Mistake] = []
    catalogue = Catalogue.open(mistakes)
    found = crop_page(catalogue, name, sources, mistakes) if name else crop_list(catalogue, mistakes)
    if mistakes:
        refuse(mistakes)
    if isinstance(found, NotKnown):
        stop(found.sentence)
    for line in found:
        typer.echo(line)
