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
from sowsheet.cli.common import EXIT_MISTAKES, InLanguage
from sowsheet.cli.crops import crops
from sowsheet.cli.dates import dates
from sowsheet.cli.frost import frost
from sowsheet.cli.help import Command, Commands
from sowsheet.cli.jobs import jobs
from sowsheet.cli.new import new
from sowsheet.cli.print_ import print_
from sowsheet.cli.replay import replay
from sowsheet.cli.shopping import shopping
from sowsheet.cli.trays import trays

app = typer.Typer(
    name="sowsheet",
    cls=Commands,
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
    app.command(name, cls=Command)(command)


def _version(wanted: bool) -> None:
    if wanted:
        typer.echo(f"sowsheet {__version__}")
        raise typer.Exit


@app.callback()
def _sowsheet(
    ctx: typer.Context,
    _: Annotated[
        bool, typer.Option("--version", callback=_version, is_eager=True, help="help.sowsheet.version")
    ] = False,
    language: InLanguage = None,
) -> None:
    """What every command shares.

    \b
    sowsheet new mygarden                    # new
    sowsheet check mygarden/garden.yaml      # check
    sowsheet print mygarden/garden.yaml      # print
    """
    if language and ctx.invoked_subcommand:
        ctx.default_map = {ctx.invoked_subcommand: {"language": language.value}}


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
