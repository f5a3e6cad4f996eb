"""A mistake in the grower's input, as a value: where it is, what is wrong, how to cure it."""

from __future__ import annotations

from collections.abc import Iterable

import msgspec


class Spot(msgspec.Struct, frozen=True):
    """A place in a file: line and column count from 1; `excerpt` is that whole line's text."""

    file: str
    line: int
    column: int
    length: int = 1
    excerpt: str = ""


class Mistake(msgspec.Struct, frozen=True):
    """Something the grower has to mend. `what` is one plain sentence, `cure` says how, with an example."""

    spot: Spot
    what: str
    cure: str = ""


def in_order(mistakes: Iterable[Mistake]) -> list[Mistake]:
    """Mistakes as they stand in the file, each once."""
    unique = dict.fromkeys((m.spot.file, m.spot.line, m.spot.column, m.what, m) for m in mistakes)
    return [key[-1] for key in sorted(unique, key=lambda key: key[:4])]


def shown(mistake: Mistake) -> str:
    """`FILE:LINE:COLUMN: what is wrong`, the line with a mark under it, the cure."""
    spot = mistake.spot
    lines = [f"{spot.file}:{spot.line}:{spot.column}: {mistake.what}"]
    if spot.excerpt.strip():
        # Tabs stay tabs in the padding, so that the mark stands under the right letter.
        padding = "".join("\t" if c == "\t" else " " for c in spot.excerpt[: spot.column - 1])
        lines += [f"    {spot.excerpt.rstrip()}", f"    {padding}{'^' * max(1, spot.length)}"]
    if mistake.cure:
        lines.append(f"    {mistake.cure}")
    return "\n".join(lines)
