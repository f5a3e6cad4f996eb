"""Invented weather for the example garden with records of its own: `python tests/example_weather.py`.

Twenty years of a cool temperate place that is nowhere: monthly means, and from day to day a chance that remembers the
day before. The season's own readings have a cold March.
"""

from __future__ import annotations

import sys
from collections.abc import Iterator
from datetime import date, timedelta
from pathlib import Path
from random import Random

ROOT = Path(__file__).parent.parent
sys.path.insert(0, str(ROOT))  # run as a script, it stands in tests/

from sowsheet.site.daily import daily_year, day_number  # noqa: E402

FOLDER = ROOT / "out_examples" / "own-weather"
LOWS_C = (1.0, 0.9, 2.0, 3.4, 6.0, 9.0, 11.0, 10.8, 8.6, 6.2, 3.4, 1.5)
HIGHS_C = (6.9, 7.6, 10.2, 13.2, 16.5, 19.4, 21.6, 21.2, 18.2, 14.0, 9.8, 7.2)
REMEMBERED = 0.7
SPREAD_C, NIGHT_SPREAD_C = 2.0, 1.2


def weather(first: date, last: date, seed: int, colder_c: dict[int, float] | None = None) -> Iterator[str]:
    """A line a day: date, minimum, maximum, C. `colder_c`: by how much a month is colder than usual."""
    chance, away = Random(seed), 0.0
    low, high = daily_year(LOWS_C), daily_year(HIGHS_C)
    yield "date,tmin_c,tmax_c"
    for n in range((last - first).days + 1):
        day = first + timedelta(days=n)
        away = REMEMBERED * away + chance.gauss(0.0, SPREAD_C * (1 - REMEMBERED**2) ** 0.5)
        clear, number = abs(chance.gauss(0.0, NIGHT_SPREAD_C)), day_number(day)
        cold = (colder_c or {}).get(day.month, 0.0)
        least, most = low[number] + away - clear - cold + 0.9, high[number] + 0.8 * away + clear - cold - 0.9
        yield f"{day.isoformat()},{min(least, most - 0.5):.1f},{most:.1f}"


def files() -> dict[str, str]:
    """Both records by their names."""
    years = weather(date(2007, 1, 1), date(2026, 12, 31), seed=1)
    season = weather(date(2027, 1, 1), date(2027, 3, 31), seed=2, colder_c={3: 2.5})
    return {"station.csv": "\n".join([*years, ""]), "this-year.csv": "\n".join([*season, ""])}


if __name__ == "__main__":
    for name, text in files().items():
        (FOLDER / name).write_text(text, encoding="utf-8")
