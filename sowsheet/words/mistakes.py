"""A mistake in the grower's input, told in a language."""

from __future__ import annotations

from sowsheet.reading.mistakes import Mistake
from sowsheet.words.language import Language


def shown(mistake: Mistake, words: Language) -> str:
    """`FILE:LINE:COLUMN: what is wrong`, the line with a mark under it, the cure."""
    spot = mistake.spot
    lines = [f"{spot.file}:{spot.line}:{spot.column}: {words.tell(mistake.what)}"]
    if spot.excerpt.strip():
        # Tabs stay tabs in the padding, so that the mark stands under the right letter.
        padding = "".join("\t" if c == "\t" else " " for c in spot.excerpt[: spot.column - 1])
        lines += [f"    {spot.excerpt.rstrip()}", f"    {padding}{'^' * max(1, spot.length)}"]
    if mistake.cure:
        lines.append(f"    {words.tell(mistake.cure)}")
    return "\n".join(lines)
