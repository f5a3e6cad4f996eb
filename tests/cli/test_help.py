"""Help and usage errors, in English as the command-line library says them, and in the reader's language."""

from __future__ import annotations

import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import cast

import pytest
import typer
from typer.core import TyperArgument, TyperGroup, TyperOption
from typer.testing import CliRunner, Result

from sowsheet.cli import help as cli_help
from sowsheet.cli.app import app
from sowsheet.cli.help import language_asked
from sowsheet.words.language import LANGUAGES, Language, language_of
from tests.examples import ROOT
from tests.words.pseudo import leaks, pseudo

FOUR = ROOT / "out_examples" / "four-beds" / "garden.yaml"
ALL = cast("TyperGroup", typer.main.get_command(app))
COMMANDS = ("sowsheet", *ALL.commands)
WIDE = {"COLUMNS": "100"}

# What is typed, and what the library says to it, letter for letter (typer 0.28).
WRONG = {
    ("print",): "Missing argument 'GARDEN'.",
    ("new",): "Missing argument 'FOLDER'.",
    ("dates", "--foo"): "No such option: --foo (Possible options: --format)",
    ("jobs", "-x"): "No such option: -x",
    ("print", "x.yaml", "--paper", "B5"): "Invalid value for '--paper': 'B5' is not one of "
    "'a4', 'a3', 'a2', 'a1', 'letter', 'tabloid'.",
    ("print", "x.yaml", "poster"): "Invalid value for '[SHEET]...': 'poster' is not one of 'wall-chart', 'bed-chart', "
    "'tray-plan', 'job-sheets', 'year-at-a-glance', 'shopping-list', 'weekend-cards', 'tray-labels'.",
    ("print", "x.yaml", "--by", "it's"): "Invalid value for '--by': \"it's\" is not one of "
    "'sowing', 'bed', 'crop', 'place'.",
    ("print", "x.yaml", "--paper"): "Option '--paper' requires an argument.",
    ("print", "x.yaml", "--large=3"): "Option '--large' does not take a value.",
    ("prnt",): "No such command 'prnt'. Did you mean 'print'?",
    ("date",): "No such command 'date'. Did you mean 'dates'?",
    ("zzz",): "No such command 'zzz'.",
    ("--versio",): "No such option: --versio (Possible options: --version)",
    ("dates", "a", "b", "c"): "Got unexpected extra argument(s) (b c)",
    ("--",): "Missing command.",
    ("dates", "x", "--language", "fr"): "Invalid value for '--language': 'fr' is not one of 'en', 'en-us', 'pl', 'es'.",
}


def run(*args: object) -> Result:
    return CliRunner().invoke(app, [str(a) for a in args], env=WIDE)


def params(name: str) -> list[TyperArgument | TyperOption]:
    """The parameters of a command, as they are declared."""
    command = ALL if name == "sowsheet" else ALL.commands[name]
    return cast("list[TyperArgument | TyperOption]", command.params)


def keys_of(name: str) -> Iterator[str]:
    """The phrases that a command's help needs."""
    yield f"help.{name}.about"
    for param in params(name):
        yield param.help or f"{name} {param.name} has no help"
        if param.metavar:
            yield f"help.metavar.{param.metavar.strip('[].').lower()}"


def typed(name: str) -> Iterator[str]:
    """What a command's help has to show as it is typed: names, values and examples."""
    command = ALL if name == "sowsheet" else ALL.commands[name]
    yield from (name, "help", *("sheets" for p in params(name) if p.name == "out"))
    yield from (line.partition("#")[0] for line in (command.help or "").partition("\b")[2].splitlines())
    for param in params(name):
        yield from (*param.opts, *param.secondary_opts, *getattr(param.type, "choices", ()))


@pytest.mark.parametrize("tag", LANGUAGES)
def test_every_command_argument_and_option_has_its_help(tag: str) -> None:
    rare = language_of(tag).rare
    assert [key for name in COMMANDS for key in keys_of(name) if key not in rare] == []


def test_no_help_is_left_over() -> None:
    own = {key for name in COMMANDS for key in keys_of(name)} | {"help.new.no season", "help.new.no answer"}
    asked = (key for key in language_of("en").rare if key.startswith("help."))
    assert {key for key in asked if not key.startswith(("help.library.", "help.note.", "help.crop file."))} - own == {
        "help.metavar.options",
        "help.metavar.command",
    }


def in_greek(monkeypatch: pytest.MonkeyPatch) -> Language:
    """Make the pseudo language the one that is asked for."""
    words = pseudo(language_of("en"))
    monkeypatch.setattr(cli_help, "language_asked", lambda _: words)
    return words


@pytest.mark.parametrize("name", COMMANDS)
def test_no_english_is_left_in_help(name: str, monkeypatch: pytest.MonkeyPatch) -> None:
    words = in_greek(monkeypatch)
    shown = run("--help") if name == "sowsheet" else run(name, "--help")
    assert shown.exit_code == 0
    assert str(words.say(f"help.{name}.about")).split("\n", 1)[0] in " ".join(shown.stdout.split())
    own = [*typed(name), "sowsheet", *(ALL.commands if name == "sowsheet" else ())]
    assert leaks(shown.stdout.splitlines(), own) == []


@pytest.mark.parametrize("args", WRONG)
def test_no_english_is_left_in_usage_errors(args: tuple[str, ...], monkeypatch: pytest.MonkeyPatch) -> None:
    in_greek(monkeypatch)
    result = run(*args)
    assert (result.exit_code, result.stdout) == (2, "")
    named = args[0] if args[0] in ALL.commands else "sowsheet"
    assert leaks(result.stderr.splitlines(), [*args, *typed(named), "sowsheet", *ALL.commands]) == []


@pytest.mark.parametrize("args", WRONG)
def test_usage_errors_in_english_are_the_librarys(args: tuple[str, ...]) -> None:
    result = run(*args)
    assert (result.exit_code, result.stdout) == (2, "")
    *usage, told = result.stderr.splitlines()
    assert told == f"Error: {WRONG[args]}"
    command = f"sowsheet {args[0]}" if args[0] in ALL.commands else "sowsheet"
    if usage:  # the library says none for an option whose value is missing or too much
        assert usage[0].startswith(f"Usage: {command} [OPTIONS] ")
        assert usage[1:] == [f"Try '{command} -h' for help.", ""]


def test_nothing_typed_shows_the_help_as_an_error() -> None:
    nothing, asked = run(), run("--help")
    assert (nothing.exit_code, nothing.stdout, nothing.stderr) == (2, "", asked.stdout)


@pytest.mark.parametrize(
    "args",
    [("print", "--help", "--language", "pl"), ("--language", "pl", "print", "-h"), ("print", "--language=PL", "-h")],
)
def test_help_in_polish(args: tuple[str, ...]) -> None:
    shown = run(*args).stdout
    assert shown.startswith("Użycie: sowsheet print [OPCJE] {OGRÓD} [ARKUSZ]...\n")
    assert "  sowsheet print mygarden/garden.yaml wall-chart --paper A2 --out ~/prints\n" in shown
    assert "[domyślnie: sheets]" in shown
    assert "[wymagane]" in shown


def test_a_usage_error_in_spanish() -> None:
    told = run("prnt", "--language", "es").stderr
    assert told == (
        "Uso: sowsheet [OPCIONES] COMANDO [ARGUMENTOS]...\nAyuda: 'sowsheet -h'.\n\n"
        "Error: No existe el comando 'prnt'. ¿Quizá 'print'?\n"
    )


def test_an_interrupted_command_says_so(monkeypatch: pytest.MonkeyPatch) -> None:
    def interrupted(*_: object) -> None:
        raise typer.Abort

    monkeypatch.setattr("sowsheet.cli.check.plan_of", interrupted)
    result = run("check", FOUR, "--language", "pl")
    assert (result.exit_code, result.stderr) == (1, "Przerwano!\n")


def test_the_language_before_the_command_is_the_commands() -> None:
    before, behind = run("--language", "pl", "dates", FOUR), run("dates", FOUR, "--language", "pl")
    assert before.exit_code == 0
    assert before.stdout == behind.stdout != run("dates", FOUR).stdout
    assert run("--language", "es", "dates", FOUR, "--language", "pl").stdout == behind.stdout


def test_the_language_that_is_asked_for(tmp_path: Path) -> None:
    polish, broken = tmp_path / "pl.yaml", tmp_path / "broken.yaml"
    polish.write_text("garden: A\nlanguage: pl\n", encoding="utf-8")
    broken.write_bytes(b"\xff: [")
    for arguments, tag in (
        ((), "en"),
        (("dates", str(polish)), "pl"),
        (("dates", str(polish), "--language", "es"), "es"),
        (("--language=en-us", "dates", str(polish)), "en-US"),
        (("--language", "es", "dates", "--language", "pl"), "pl"),
        (("dates", str(polish), "--language", "fr"), "pl"),
        (("dates", str(polish), "--language"), "pl"),
        (("dates", str(broken)), "en"),
        (("dates", str(tmp_path), str(tmp_path / "none.yaml")), "en"),
    ):
        assert language_asked(arguments).tag == tag, arguments


def test_no_phrase_of_help_is_read_before_it_is_asked_for() -> None:
    code = f"""
import sys
from sowsheet.cli.app import app
from sowsheet.words.language import language_of
for args, read in ((["dates", {str(FOUR)!r}], False), (["dates", "--help"], True)):
    sys.argv = ["sowsheet", *args]
    try:
        app()
    except SystemExit:
        assert ("rare" in language_of("en").__dict__) is read, args
"""
    done = subprocess.run([sys.executable, "-c", code], check=False, capture_output=True, text=True)
    assert (done.returncode, done.stderr) == (0, "")
