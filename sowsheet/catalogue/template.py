"""An empty crop file to fill in, made from the form itself, so that it asks for just what the reader wants."""

from __future__ import annotations

from collections.abc import Iterator

from sowsheet.catalogue.complete import needed
from sowsheet.catalogue.form import BLOCKS, Form
from sowsheet.catalogue.names import plural_of
from sowsheet.catalogue.pages import Line, Lines
from sowsheet.catalogue.records import Raised
from sowsheet.reading.mistakes import Spot
from sowsheet.words.language import Language

_EXAMPLES_AT = 33
WAYS: tuple[Raised, ...] = ("tray", "drill", "set")
_TITLED = ("germinates", "tray", "drill", "set", "cold", "harvest", "signs", "cautions")


def template(name: str, raised: Raised, words: Language) -> str:
    """A crop file's text for a crop that is raised so: what it must say stands empty, the rest as comments.

    Its keys and values are the file's own vocabulary, its comments of the language `words`.
    """
    wanted = set(needed(_as_if(raised)))
    lines = [
        f"# {words.say('help.crop file.head', name=name)}",
        f"# {words.say('help.crop file.spare')}",
        f"# {words.say('help.crop file.ranges')}",
        f"# {words.say('help.crop file.sources')}",
        f"crop: {name}",
        _with_comment(f"names: [{name}]", _of_names(name, words)),
        _line(words, "latin", BLOCKS[""]["latin"], True, ""),
        _line(words, "family", BLOCKS[""]["family"], True, ""),
    ]
    for block, forms in BLOCKS.items():
        if block and (block not in WAYS or block == raised):
            lines += _block(words, block, forms, wanted)
        if block == "cold":
            lines += _goes_out(words, raised)
    lines += ["", f"# {words.say('help.crop file.more')}"]
    spare = [(key, form) for key, form in BLOCKS[""].items() if key not in ("latin", "family", "usually")]
    lines += [_line(words, key, form, False, "") for key, form in spare]
    return "\n".join(lines) + "\n"


def _of_names(name: str, words: Language) -> str:
    """How names are to be given: only English ones are put into the plural by the reader."""
    if words.english:
        return words.say("help.crop file.names", many=plural_of(name))
    return words.say("help.crop file.names given")


def _with_comment(start: str, comment: str) -> str:
    return f"{start.ljust(_EXAMPLES_AT - 1)} # {comment}"


def _as_if(raised: Raised) -> Lines:
    """The one line from which it follows what else must be there."""
    path, value = {"tray": ("tray.raised", "module"), "drill": ("drill", ""), "set": ("set.what", "sets")}[raised]
    return {path: Line(value, Spot("", 1, 1))}


def _block(words: Language, block: str, forms: dict[str, Form], wanted: set[str]) -> Iterator[str]:
    paths = {key: f"{block}.{key}" in wanted for key in forms}
    some = any(paths.values()) or f"{block}.lasts" in wanted
    if block in ("germinates", "seed") and not some:
        return
    yield ""
    head = f"{'' if some else '# '}{block}:"
    yield _with_comment(head, words.say(f"help.crop file.title.{block}")) if block in _TITLED else head
    for key, form in forms.items():
        yield _line(words, key, form, paths[key], "  ", whole_block=some)


def _line(words: Language, key: str, form: Form, is_needed: bool, indent: str, whole_block: bool = True) -> str:
    start = f"{indent}{key}:" if is_needed else f"{indent}# {key}:" if whole_block else f"# {indent}{key}:"
    return _with_comment(
        start, " | ".join(form.choices) or words.say("help.crop file.example", example=words.tell(form.example))
    )


def _goes_out(words: Language, raised: Raised) -> list[str]:
    start = words.say("help.crop file.example", example="6 weeks before last frost, 1 week after midsummer")
    return [
        "",
        f"goes out:                        # {words.say(f'help.crop file.goes out.{raised}')}",
        _with_comment("  - from:", start),
        _with_comment("    until:", words.say("help.crop file.example", example="8 weeks before first frost")),
        "    source: practice",
    ]
