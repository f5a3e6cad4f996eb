"""The commands, put together."""

from __future__ import annotations

import gc
import os
import signal
import sys
from typing import Annotated

import typer

from sowsheet import __version__
from sowsheet.cli.check import check
from sowsheet.cli.common import EXIT_MISTAKES
from sowsheet.cli.crops import crops
from sowsheet.cli.dates import dates
from sowsheet.cli.frost import frost
from sowsheet.cli.jobs import jobs
from sowsheet.cli.new import new
from sowsheet.cli.print_ import print_
from sowsheet.cli.replay import replay
from sowsheet.cli.shopping import shopping
from sowsheet.cli.trays import trays

app = typer.Typer(
    name="sowsheet",
    no_args_is_help=True,
    add_completion=False,
    pretty_exceptions_enable=False,
    rich_markup_mode=None,
    context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 100},
)
for name, command in (
    ("new", new),
    ("check", check),
    ("print", print_),
    ("dates", dates),
    ("trays", trays),
    ("jobs", jobs),
    ("shopping", shopping),
    ("crops", crops),
    ("frost", frost),
    ("replay", replay),
):
    app.command(name)(command)


def _version(wanted: bool) -> None:
    if wanted:
        typer.echo(f"sowsheet {__version__}")
        raise typer.Exit


@app.callback()
def _sowsheet(
    _: Annotated[bool, typer.Option("--version", callback=_version, is_eager=True, help="Show the version.")] = False,
) -> None:
    """A grower's rough plan in; exact dates and printed sheets out.

    \b
    sowsheet new mygarden                    a first garden file, ready to print
    sowsheet check mygarden/garden.yaml      how each line was read, and what is doubtful
    sowsheet print mygarden/garden.yaml      wall chart, tray plan and job sheets as PDF
    """


def run() -> None:
    """Run the command line. An answer that cannot be written is one line on stderr, exit code 2."""
    gc.disable()  # a command is over before looking for garbage would pay
    if hasattr(signal, "SIGPIPE"):
        signal.signal(signal.SIGPIPE, signal.SIG_DFL)  # a reader that has had enough (`| head`) ends us quietly
    try:
        try:
            app()
        finally:
            sys.stdout.flush()
    except OSError as error:
        if error.filename is not None:  # of a file, not of stdout: a bug
            raise
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())  # what is left unwritten goes nowhere
        typer.echo(f"sowsheet: cannot write the answer: {error.strerror or error}", err=True)
        sys.exit(EXIT_MISTAKES)
