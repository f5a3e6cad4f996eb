"""Lines laid over lines: a kind over its crop, a grower's own file over the catalogue."""

from __future__ import annotations

from typing import Any, TypeVar

from sowsheet.catalogue.form import block_of, group_of
from sowsheet.catalogue.pages import Line, Lines

T = TypeVar("T")

# A line that says what sort of block it is: when a grower changes it, the rest of the block no longer fits.
_SORTS = ("harvest.by", "tray.raised", "set.what")


def joined(crop: Lines, kind: Lines) -> Lines:
    """A kind's lines over its crop's: some blocks replaced whole, the others line by line."""
    replaced = {group_of(path) for path in kind} - {""}
    return {path: line for path, line in crop.items() if group_of(path) not in replaced} | kind


def amended(lines: Lines, own: Lines) -> Lines:
    """A grower's own lines over the catalogue's, one by one; a list is replaced whole."""
    replaced = {block_of(path) for path in own if group_of(path) and path.rpartition(".")[2].isdecimal()}
    replaced |= {block_of(sort) for sort in _SORTS if sort in own and sort in lines and _differ(lines, own, sort)}
    return {path: line for path, line in lines.items() if block_of(path) not in replaced} | own


def maybe(lines: Lines, path: str, of: type[T]) -> T | None:
    """A line's value, None when the line is not there. Raises TypeError when the form reads something else."""
    line = lines.get(path)
    if line is None:
        return None
    if not isinstance(line.value, of):
        raise TypeError(f"`{path}` is read as {type(line.value).__name__}, not {of.__name__}")
    return line.value


def need(lines: Lines, path: str, of: type[T]) -> T:
    """A line's value. Raises KeyError when it is not there: completeness is checked before."""
    found = maybe(lines, path, of)
    if found is None:
        raise KeyError(path)
    return found


def word(lines: Lines, path: str) -> Any:
    """The value of a line whose form lets in only what the record knows; None when the line is not there."""
    return lines[path].value if path in lines else None


def row(line: Line) -> dict[str, Any]:
    """The values of a list's row, by key."""
    if not isinstance(line.value, dict):
        raise TypeError("a row of a list holds its values by key")
    return line.value


def has(lines: Lines, block: str) -> bool:
    """Whether any line of a block is there."""
    inside = f"{block}."
    return any(path.startswith(inside) or path == block for path in lines)


def block(lines: Lines, name: str) -> Lines:
    """A block's lines by their own keys, in the order of the file."""
    inside = f"{name}."
    return {path[len(inside) :]: line for path, line in lines.items() if path.startswith(inside)}


def _differ(lines: Lines, own: Lines, path: str) -> bool:
    return lines[path].value != own[path].value
