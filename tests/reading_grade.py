"""How hard the job sheets' sentences are to read, as advice: `python tests/reading_grade.py`.

Flesch and Kincaid's grade (Kincaid and others 1975, Derivation of New Readability Formulas): 0.39 words a sentence +
11.8 syllables a word - 15.59. Short imperative lines are what it judges worst, so no test hangs on it; the words of a
line are counted in a test. Syllables are those at which the words may be hyphenated, by pyphen.
"""

from __future__ import annotations

import re
import sys
from collections.abc import Iterable
from pathlib import Path

import pyphen

ROOT = Path(__file__).parent.parent
sys.path.insert(0, str(ROOT))  # run as a script, it stands in tests/

from sowsheet.jobs.make import jobs  # noqa: E402
from tests.examples import GARDENS, plan  # noqa: E402

WORD = re.compile(r"[^\W\d_]+")


def sentences(texts: Iterable[str]) -> list[list[str]]:
    """The words of each sentence, each sentence once."""
    parts = dict.fromkeys(part for text in texts for part in re.split(r"[.;:!?]\s+|\.$", text))
    return [words for part in parts if (words := WORD.findall(part))]


def grade(found: list[list[str]]) -> float:
    """The school year (United States) whose pupils read the sentences with ease."""
    hyphens = pyphen.Pyphen(lang="en_GB")
    words = [word for sentence in found for word in sentence]
    syllables = sum(len(hyphens.positions(word.lower())) + 1 for word in words)
    return 0.39 * len(words) / len(found) + 11.8 * syllables / len(words) - 15.59


def main() -> None:
    """The grade of each example garden's job sheets, and the sentences that weigh most."""
    for garden in GARDENS:
        made = plan(garden)
        told = jobs(made.schedule, made.trays, made.garden)
        found = sentences(text for job in told for text in (job.how, job.sign, job.caution))
        print(f"{garden}: grade {grade(found):.1f} over {len(found)} sentences (5 or less is aimed at)")
        for words in sorted(found, key=lambda s: -grade([s]))[:5]:
            print(f"  {grade([words]):5.1f}  {' '.join(words)}")


if __name__ == "__main__":
    main()
