"""`--help` and usage errors in the reader's language: the phrases under `help.` of the language files.

Options and arguments have the key of a phrase for their help. A command's text is `help.NAME.about`; its examples stand
in its docstring, below `\\b`; a `# word` beside one is the phrase `help.note.WORD`. What the command-line library says
itself are the phrases `help.library.`: in English they are its own sentences, and by them it is understood.
Nothing here is read or said unless help is asked for, or something was typed that cannot be understood.
"""

from __future__ import annotations

import re
import sys
from collections.abc import Sequence
from copy import copy
from itertools import pairwise
from pathlib import Path
from typing import TYPE_CHECKING, Any, cast

import typer
from typer.core import TyperArgument, TyperCommand, TyperGroup, TyperOption

from sowsheet.words.language import LANGUAGES, Language, language_of

if TYPE_CHECKING:
    from typer._click.core import Command as AnyCommand
    from typer._click.core import Context, Parameter
    from typer._click.exceptions import UsageError
    from typer._click.formatting import HelpFormatter

_ARGUMENTS = "sowsheet.arguments"  # where a context keeps what was typed
_USAGE_ERROR: type[UsageError] = typer.BadParameter.mro()[1]  # wherever this version of the library keeps it
# What may be wrong with what was typed: phrases under `help.library`. One that begins another comes after it.
_WRONG = (
    "options near",
    "no option",
    "no value",
    "a value",
    "no choice",
    "missing argument",
    "too many",
    "commands near",
    "no command",
    "missing command",
)
# fmt: off
_METAVARS = (
    "garden", "folder", "date", "sheet", "metres", "weeks", "size", "week", "grid", "crop", "name", "record",
    "temp",
)
# fmt: on


def language_asked(arguments: Sequence[str]) -> Language:
    """The language of `--language` anywhere in the arguments, else of a garden file among them, else English."""
    tags = {tag.casefold(): tag for tag in LANGUAGES}
    words = [part for word in arguments for part in word.split("=", 1)]
    asked = [after for word, after in pairwise(words) if word == "--language"]
    known = [tags[tag.casefold()] for tag in asked if tag.casefold() in tags]
    if known:
        return language_of(known[-1])
    from sowsheet.garden.read import language_named  # noqa: PLC0415

    files = (Path(word) for word in arguments if word.endswith((".yaml", ".yml")))
    return language_of(next((language_named(file) for file in files if file.is_file()), LANGUAGES[0]))


class _Told:
    """A command whose help is told in the reader's language."""

    def format_usage(self, ctx: Context, formatter: HelpFormatter) -> None:
        """`Usage: sowsheet print [OPTIONS] {GARDEN}`"""
        words = _words(ctx)
        pieces = _command_in(words, ctx.command).collect_usage_pieces(ctx)
        formatter.write_usage(ctx.command_path, " ".join(pieces), f"{words.say('help.library.usage')} ")

    def format_help_text(self, ctx: Context, formatter: HelpFormatter) -> None:
        """What the command does, and its examples."""
        formatter.write_paragraph()
        with formatter.indentation():
            formatter.write_text(_command_in(_words(ctx), ctx.command).help or "")

    def format_options(self, ctx: Context, formatter: HelpFormatter) -> None:
        """Arguments and options, each with its help."""
        words = _words(ctx)
        params = ctx.command.get_params(ctx)
        for kind in ("argument", "option"):
            rows = [_row(param, ctx, words) for param in params if param.param_type_name == kind]
            if rows:
                with formatter.section(words.say(f"help.library.{kind}s")):
                    formatter.write_dl(rows)


class Command(_Told, TyperCommand):
    """One command."""


class Commands(_Told, TyperGroup):
    """All commands."""

    def main(
        self,
        args: Sequence[str] | None = None,
        prog_name: str | None = None,
        complete_var: str | None = None,
        standalone_mode: bool = True,
        windows_expand_args: bool = True,
        **extra: Any,
    ) -> Any:
        """Run a command, and end. What was typed wrong is told on stderr, exit code 2."""
        rest = {"windows_expand_args": windows_expand_args, **extra}
        if not standalone_mode:
            return super().main(args, prog_name, complete_var, standalone_mode=False, **rest)
        typed = sys.argv[1:] if args is None else list(args)
        try:
            code = super().main(args, prog_name, complete_var, standalone_mode=False, **rest)
        except typer.Abort:
            typer.echo(language_asked(typed).say("help.library.aborted"), err=True)
            code = 1
        except _USAGE_ERROR as error:
            _tell(error, language_asked(typed))
            code = error.exit_code
        sys.exit(code or 0)

    def parse_args(self, ctx: Context, args: list[str]) -> list[str]:
        """Keep what was typed for whoever is to tell something. Nothing at all asks for help."""
        ctx.meta[_ARGUMENTS] = tuple(args)
        if not args:
            typer.echo(ctx.get_help(), err=True)
            raise typer.Exit(2)
        return super().parse_args(ctx, args)

    def format_options(self, ctx: Context, formatter: HelpFormatter) -> None:
        """The options, then the commands, each with its first sentence."""
        super().format_options(ctx, formatter)
        words = _words(ctx)
        room = formatter.width - 6 - max(map(len, self.commands))
        rows = [(name, _command_in(words, one).get_short_help_str(room)) for name, one in self.commands.items()]
        with formatter.section(words.say("help.library.commands")):
            formatter.write_dl(rows)


def _words(ctx: Context) -> Language:
    return language_asked(ctx.meta.get(_ARGUMENTS, ()))


def _command_in(words: Language, command: AnyCommand) -> AnyCommand:
    """The command with its text, its parameters and its metavars in a language."""
    told = cast("TyperCommand", copy(command))
    _, mark, examples = (command.help or "").partition("\b")
    lines = [_noted(line, words) for line in examples.split("\n")]
    told.help = words.say(f"help.{command.name}.about") + (f"\n\n{mark}" + "\n".join(lines) if mark else "")
    told.options_metavar = words.say("help.metavar.options")
    told.params = [_param_in(words, param) for param in command.params]
    if isinstance(told, TyperGroup):
        told.subcommand_metavar = words.say("help.metavar.command")
    return told


def _noted(line: str, words: Language) -> str:
    """An example as it is typed, and what it is for."""
    return re.sub(r"# (\w+)$", lambda note: words.say(f"help.note.{note[1]}"), line)


def _param_in(words: Language, param: Parameter) -> Parameter:
    told = cast("TyperArgument | TyperOption", copy(param))
    told.metavar = told.metavar and _metavar(told.metavar, words)
    return told


def _metavar(name: str, words: Language) -> str:
    """What stands for a value: GARDEN; `[SHEET]...`. What is no such word (an option's name) stays."""
    bare = name.strip("[].").lower()
    return words.say(f"help.metavar.{bare}") if bare in _METAVARS else name


def _row(param: Parameter, ctx: Context, words: Language) -> tuple[str, str]:
    """`--out FOLDER`, and its help: `The folder to write into; it is made if need be.  [default: sheets]`"""
    told = cast("TyperArgument | TyperOption", _param_in(words, param))
    key, told.help = told.help or "", ""
    name, default = told.get_help_record(ctx) or ("", "")
    text = words.say(key) if key.startswith("help.") else _library(key, ("help",), words)
    return name, f"{text}  {_library(default, ('default', 'required'), words)}".rstrip()


def _library(sentence: str, tails: Sequence[str], words: Language) -> str:
    """What the library says, in a language; as it stands where it is none of these phrases."""
    english = language_of(LANGUAGES[0])
    for tail in tails:
        found = re.fullmatch(_pattern(english.say(f"help.library.{tail}")), sentence, re.DOTALL)
        if found:
            parts = found.groupdict()
            return words.say(
                f"help.library.{tail}", **{k: _quoted(v, words) if k == "name" else v for k, v in parts.items()}
            )
    return sentence


def _pattern(phrase: str) -> str:
    """What matches a phrase, whatever its parts are."""
    texts_and_names = enumerate(re.split(r"\{(\w+)\}", phrase))
    return "".join(f"(?P<{piece}>.+)" if n % 2 else re.escape(piece) for n, piece in texts_and_names)


def _quoted(part: str, words: Language) -> str:
    """The name of a parameter as the library quotes it: 'GARDEN'."""
    bare = part.strip("'")
    return part.replace(bare, _metavar(bare, words))


def _tell(error: UsageError, words: Language) -> None:
    """How the command is used, and what is wrong."""
    ctx = error.ctx
    if ctx is not None:
        how = words.say("help.library.try", command=f"{ctx.command_path} {ctx.help_option_names[0]}")
        typer.echo(f"{ctx.get_usage()}\n{how}\n", err=True)
    what = _library(error.format_message(), _WRONG, words)
    typer.echo(words.say("help.library.error", what=what), err=True)
