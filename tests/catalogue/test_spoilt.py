"""Whatever happens to a crop file, reading it ends in a crop or in mistakes with their places, never in a crash."""

from __future__ import annotations

from hypothesis import given, settings
from hypothesis import strategies as st

from sowsheet.catalogue.read import read_crop
from sowsheet.reading.mistakes import Mistake
from sowsheet.words.mistakes import shown
from tests.catalogue.conftest import SHELF, SOURCES
from tests.in_english import EN

TEXTS = [path.read_text("utf-8").splitlines() for path in sorted(SHELF.glob("*.yaml")) if path.stem != "sources"]
WORDS = [
    "",
    "[]",
    "{}",
    "[practice]",
    "-",
    "5",
    "5 to 3 days",
    "0 days",
    "% C",
    "winter:",
    "ask",
    "first frost",
    "1 May",
]


@st.composite
def spoilt(draw: st.DrawFn) -> str:
    """A crop file with one or two of its lines gone, doubled, swapped, indented otherwise or filled otherwise."""
    lines = list(draw(st.sampled_from(TEXTS)))
    for _ in range(draw(st.integers(1, 2))):
        at = draw(st.integers(0, len(lines) - 1))
        key, colon, _ = lines[at].partition(": ")
        word = draw(st.sampled_from(WORDS) | st.text(max_size=12))
        spoilings = [[], [lines[at]] * 2, [f"  {lines[at]}"], [lines[at][2:]], [f"{key}{colon or ': '}{word}"], [word]]
        lines[at : at + 1] = draw(st.sampled_from(spoilings))
    return "\n".join(lines)


@settings(max_examples=300, deadline=None)
@given(spoilt())
def test_a_spoilt_file_is_read_or_refused(text: str) -> None:
    mistakes: list[Mistake] = []
    crop = read_crop(text, "spoilt.yaml", SOURCES, mistakes)
    assert (crop is None) == bool(mistakes)
    for mistake in mistakes:
        assert mistake.spot.line >= 1
        assert shown(mistake, EN).startswith("spoilt.yaml:")
