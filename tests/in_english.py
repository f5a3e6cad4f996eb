"""What mistakes say, in English, for tests that look for words in them."""

from __future__ import annotations

from sowsheet.reading.mistakes import Mistake
from sowsheet.words.language import language_of

EN = language_of("en")


def what(mistake: Mistake) -> str:
    """What is wrong."""
    return EN.tell(mistake.what)


def cure(mistake: Mistake) -> str:
    """How to mend it, or ""."""
    return EN.tell(mistake.cure)
