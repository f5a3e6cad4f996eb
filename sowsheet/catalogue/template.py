"""An empty crop file to fill in, made from the form itself, so that it asks for just what the reader wants."""

from __future__ import annotations

from collections.abc import Iterator

from sowsheet.catalogue.complete import needed
from sowsheet.catalogue.form import BLOCKS, Form
from sowsheet.catalogue.names import plural_of
from sowsheet.catalogue.pages import Line, Lines
from sowsheet.catalogue.records import Raised
from sowsheet.reading.mistakes import Spot

_EXAMPLES_AT = 33
_WAYS: tuple[Raised, ...] = ("tray", "drill", "set")
_TITLES = {
    "germinates": "the seed",
    "tray": "raised in trays",
    "drill": "sown straight into the bed",
    "set": "sets, cloves, tubers or crowns",
    "cold": "the night it lives through",
    "harvest": "by `days from planting`, `days from sowing`, `season` or `stands`",
    "signs": "what a helper goes by, a few plain words",
    "cautions": "what can hurt, and whose rules hold",
}


def template(name: str, raised: Raised) -> str:
    """A crop file's text for a crop that is raised so: what it must say stands empty, the rest as comments."""
    wanted = set(needed(_as_if(raised)))
    lines = [
        f"# {name}: fill in what follows the colons; `e.g.` shows the form.",
        "# Lines that begin with # may be used (take the # away) or deleted.",
        "# A range with the value to reckon with: 24 to 32, usually 28 days. Dates hang on the site, never on a month.",
        "# Behind a number may stand its source: [practice], [memory], or a key of sources.yaml.",
        f"crop: {name}",
        f"{f'names: [{name}]'.ljust(_EXAMPLES_AT - 1)} # singular; {plural_of(name)} follows by itself",
        _line("latin", BLOCKS[""]["latin"], True, ""),
        _line("family", BLOCKS[""]["family"], True, ""),
    ]
    for block, forms in BLOCKS.items():
        if block and (block not in _WAYS or block == raised):
            lines += _block(block, forms, wanted)
        if block == "cold":
            lines += _goes_out(raised)
    lines += ["", "# More, where it fits:"]
    lines += [
        _line(key, form, False, "") for key, form in BLOCKS[""].items() if key not in ("latin", "family", "usually")
    ]
    return "\n".join(lines) + "\n"


def _as_if(raised: Raised) -> Lines:
    """The one line from which it follows what else must be there."""
    path, value = {"tray": ("tray.raised", "module"), "drill": ("drill", ""), "set": ("set.what", "sets")}[raised]
    return {path: Line(value, Spot("", 1, 1))}


def _block(block: str, forms: dict[str, Form], wanted: set[str]) -> Iterator[str]:
    paths = {key: f"{block}.{key}" in wanted for key in forms}
    some = any(paths.values()) or f"{block}.lasts" in wanted
    if block in ("germinates", "seed") and not some:
        return
    yield ""
    title = _TITLES.get(block, "")
    head = f"{'' if some else '# '}{block}:"
    yield f"{head.ljust(_EXAMPLES_AT - 1)} # {title}" if title else head
    for key, form in forms.items():
        yield _line(key, form, paths[key], "  ", whole_block=some)


def _line(key: str, form: Form, is_needed: bool, indent: str, whole_block: bool = True) -> str:
    start = f"{indent}{key}:" if is_needed else f"{indent}# {key}:" if whole_block else f"# {indent}{key}:"
    example = " | ".join(form.choices) or f"e.g. {form.example}"
    return f"{start.ljust(_EXAMPLES_AT - 1)} # {example}"


def _goes_out(raised: Raised) -> list[str]:
    verb = {"tray": "planted", "drill": "sown", "set": "set"}[raised]
    return [
        "",
        f"goes out:                        # when it may be {verb}, from the first sane day to the last useful one",
        "  - from:                        # e.g. 6 weeks before last frost, 1 week after midsummer",
        "    until:                       # e.g. 8 weeks before first frost",
        "    source: practice",
    ]
