"""Seven ratios, each measured side by side in one run: `python tests/benchmark.py`.

1. `sowsheet print` of the 12-bed garden against a bare script that imports reportlab and PyYAML and draws as many
   shapes and words on as many pages: under 2.
2. `sowsheet --version` against `python -c "import typer"`: under 1.5.
3. `print` of the plan repeated to ten times its batches against once: under 12.
4. The schedule of 1,000 batches, for each batch, against a plain NumPy pass over the same days (the day-degrees of as
   many years accumulated forward, and nothing else).
5. The replay of 100 batches over 30 years, for each batch and year, against such a pass.
6. The schedule of 10,000 batches against that of 100: under 150, near linear.
7. `print` with tags for a screen reader against without: under 1.3. The first and the third are measured without.
"""

from __future__ import annotations

import json
import os
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from datetime import date, timedelta
from pathlib import Path

import numpy as np

ROOT = Path(__file__).parent.parent
GARDEN = ROOT / "out_examples" / "twelve-beds" / "garden.yaml"
RUNS = 5

# The bare script: the same number of pages, shapes and words, the words themselves too, with nothing behind them.
BARE = """
import json, sys, yaml
from reportlab.pdfgen.canvas import Canvas
from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont
yaml.compose(open(sys.argv[1], encoding="utf-8").read(), Loader=yaml.CSafeLoader)
pdfmetrics.registerFont(TTFont("F", sys.argv[2]))
for number, pages in enumerate(json.load(open(sys.argv[3], encoding="utf-8"))):
    canvas = Canvas(f"{sys.argv[4]}/bare{number}.pdf", pageCompression=1, initialFontName="F")
    for shapes, words in pages:
        for n in range(shapes):
            canvas.rect(20 + n % 500, 20 + n % 700, 10, 10, stroke=1, fill=0)
        canvas.setFont("F", 12)
        for n, text in enumerate(words):
            canvas.drawString(20 + n % 400, 20 + n % 700, text)
        canvas.showPage()
    canvas.save()
"""


def best_of(*commands: list[str]) -> list[float]:
    """The shortest of several runs of each command, taken in turn so that a busy machine slows all alike."""
    best = [float("inf")] * len(commands)
    # compiled modules are kept, as they are on a grower's machine; the first run of each command writes them
    env = {key: value for key, value in os.environ.items() if key != "PYTHONDONTWRITEBYTECODE"}
    for _ in range(RUNS):
        for n, command in enumerate(commands):
            start = time.perf_counter()
            subprocess.run(command, check=True, stdout=subprocess.DEVNULL, env=env)
            best[n] = min(best[n], time.perf_counter() - start)
    return best


def drawn(garden: Path) -> list[list[tuple[int, list[str]]]]:
    """For each sheet of a garden and each of its pages: how many shapes, and the words on it."""
    from sowsheet.cli.common import plan_of  # noqa: PLC0415
    from sowsheet.cli.print_ import Printing, SheetName  # noqa: PLC0415
    from sowsheet.sheets.shapes import Words  # noqa: PLC0415

    plan = plan_of(garden)
    sheets = []
    for name in SheetName:
        pages = Printing(plan, "A3", None).sheet(name).pages
        words = [[s.text for s in p.shapes if isinstance(s, Words)] for p in pages]
        sheets.append([(len(p.shapes) - len(w), w) for p, w in zip(pages, words, strict=True)])
    return sheets


def times_ten(garden: Path, folder: Path) -> Path:
    """The same garden with every bed ten times."""
    text = garden.read_text(encoding="utf-8")
    head, _, rest = text.partition("\nbeds:\n")
    lines = rest.splitlines()
    end = next((n for n, line in enumerate(lines) if line and not line.startswith((" ", "#"))), len(lines))
    beds, tail = lines[:end], lines[end:]
    copies = []
    for n in range(10):
        for line in beds:
            is_name = line.startswith("  ") and not line.startswith("   ") and ":" in line and "#" not in line[:3]
            copies.append(line.replace(":", f" {n}:", 1) if is_name else line)
    also = [line for line in tail if line.startswith("  -")]
    target = folder / "ten.yaml"
    target.write_text("\n".join([head, "beds:", *copies, *tail, *(also * 9)]) + "\n", encoding="utf-8")
    return target


SITE = """
garden: Many
season: 2027
site:
  latitude: 52.4
  last frost: 10 May (average)
  first frost: 12 October (average)
  temperatures:
    min: [1.0, 1.0, 2.3, 3.9, 6.7, 9.6, 11.6, 11.5, 9.3, 6.7, 3.6, 1.5]
    max: [6.8, 7.4, 10.0, 12.9, 16.2, 19.1, 21.4, 21.0, 18.1, 13.9, 9.8, 7.1]
beds are: 6 m x 1.2 m
beds:
"""
LINES = (
    "lettuce 6 April under fleece, then French beans, then leaf lettuce 10 August",
    "onions from seed 2 April, then spinach 24 August",
    "calabrese mid-April under fleece, then chard late July",
    "carrots sown direct 9 April, then lamb's lettuce 20 September",
    "peas 26 March, then kale",
)
YEARS = 30


def many(folder: Path, batches: int) -> Path:
    """A garden of about so many batches."""
    beds = "".join(f"  Bed {n}: {LINES[n % len(LINES)]}\n" for n in range(round(batches / 2.2)))
    target = folder / f"many{batches}.yaml"
    target.write_text(SITE + beds, encoding="utf-8")
    return target


def seconds(work: Callable[[], object], runs: int = 3) -> float:
    """The shortest of several runs."""
    best = float("inf")
    for _ in range(runs):
        start = time.perf_counter()
        work()
        best = min(best, time.perf_counter() - start)
    return best


def scheduled(garden_file: Path) -> tuple[float, int]:
    """How long a garden's schedule takes, once it is read, and how many batches it has."""
    from sowsheet.cli.common import garden_of  # noqa: PLC0415
    from sowsheet.schedule.plan import schedule  # noqa: PLC0415

    garden, catalogue = garden_of(garden_file)
    found = len(schedule(garden, catalogue.crop)[0].batches)
    return seconds(lambda: schedule(garden, catalogue.crop), 1 if found > 2000 else 3), found


def replays(garden_file: Path) -> tuple[float, int]:
    """How long the replay of a garden takes over made years, and how many batches go through it."""
    from sowsheet.cli.common import garden_of  # noqa: PLC0415
    from sowsheet.schedule.plan import schedule  # noqa: PLC0415
    from sowsheet.schedule.replay import replay  # noqa: PLC0415
    from sowsheet.site.record import Record  # noqa: PLC0415
    from sowsheet.site.weather import Weather  # noqa: PLC0415

    low, high = made_years()
    days = tuple(date(1990, 1, 1) + timedelta(days=n) for n in range(len(low)))
    record = Record("made.csv", days, tuple(low.tolist()), tuple(high.tolist()))
    garden, catalogue = garden_of(garden_file)
    dated = schedule(garden, catalogue.crop, weather=Weather(record))[0]
    return seconds(lambda: replay(garden, dated)), len(dated.batches)


def made_years() -> tuple[np.ndarray, np.ndarray]:
    """Minima and maxima of many years, with weather in them."""
    n = np.arange(YEARS * 365)
    mean = 10.0 - 7.0 * np.cos(2 * np.pi * (n - 20) / 365.25) + np.random.default_rng(1).normal(0, 3, n.size)
    return mean - 4.5, mean + 4.5


def numpy_pass(passes: int) -> float:
    """How long plain NumPy takes to accumulate the day-degrees of 365 days so many times."""
    low, high = made_years()
    low, high = low[:365], high[:365]

    def work() -> None:
        for _ in range(passes):
            np.cumsum(np.maximum((low + high) / 2, 0.0))

    return seconds(work)


def growth_ratios(folder: Path) -> list[tuple[str, float, float]]:
    """The clock's ratios: schedule and replay against NumPy, and how the schedule grows."""
    thousand, some = scheduled(many(folder, 1000))
    hundred, few = scheduled(many(folder, 100))
    ten_thousand, lots = scheduled(many(folder, 10_000))
    again, through = replays(many(folder, 100))
    return [
        (f"schedule of {some} batches ({thousand:.2f} s), NumPy pass for each", thousand / numpy_pass(some), 1000.0),
        (f"replay of {through} batches, {YEARS} years ({again:.2f} s)", again / numpy_pass(through * YEARS), 100.0),
        (
            f"schedule of {lots} batches against {few} ({ten_thousand:.2f} s / {hundred:.3f} s)",
            ten_thousand / hundred,
            150.0,
        ),
    ]


def main() -> None:
    """Measure, print the ratios, and fail when one is over its limit."""
    python = sys.executable
    sowsheet = [python, "-m", "sowsheet"]
    font = next((ROOT / "sowsheet" / "sheets" / "fonts").glob("*SemiCondensedRegular.ttf"))
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        pages = folder / "pages.json"
        pages.write_text(json.dumps(drawn(GARDEN)), encoding="utf-8")
        ten = times_ten(GARDEN, folder)
        once, bare, tenfold, version, typer, tagged = best_of(
            [*sowsheet, "print", str(GARDEN), "--out", str(folder / "once"), "--no-tags"],
            [python, "-c", BARE, str(GARDEN), str(font), str(pages), str(folder)],
            [*sowsheet, "print", str(ten), "--out", str(folder / "ten"), "--no-tags"],
            [*sowsheet, "--version"],
            [python, "-c", "import typer"],
            [*sowsheet, "print", str(GARDEN), "--out", str(folder / "tagged")],
        )
        clock = growth_ratios(folder)
    ratios = [
        (f"print against a bare script ({once:.2f} s / {bare:.2f} s)", once / bare, 2.0),
        (f"--version against import typer ({version:.3f} s / {typer:.3f} s)", version / typer, 1.5),
        (f"ten times the batches ({tenfold:.2f} s / {once:.2f} s)", tenfold / once, 12.0),
        *clock,
        (f"print with tags against without ({tagged:.2f} s / {once:.2f} s)", tagged / once, 1.3),
    ]
    for what, ratio, limit in ratios:
        print(f"{ratio:6.2f}  (under {limit:g})  {what}")
    if any(ratio >= limit for _, ratio, limit in ratios):
        sys.exit(1)


if __name__ == "__main__":
    main()
