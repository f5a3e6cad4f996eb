"""Print the example gardens anew into out_examples/: `python tests/examples.py`. Look at them before committing."""

from __future__ import annotations

import sys
from functools import cache
from pathlib import Path

import msgspec
import pypdfium2

ROOT = Path(__file__).parent.parent
sys.path.insert(0, str(ROOT))  # run as a script, it stands in tests/

from sowsheet.cli.common import Plan, plan_of  # noqa: E402
from sowsheet.cli.crops import table_of  # noqa: E402
from sowsheet.cli.frost import USUAL_C  # noqa: E402
from sowsheet.cli.print_ import Printing, SheetName, paper_of  # noqa: E402
from sowsheet.sheets.frost_sheet import frost_sheet  # noqa: E402
from sowsheet.sheets.paint import measure, pdf_bytes  # noqa: E402
from sowsheet.sheets.poster_grid import grid_of  # noqa: E402
from sowsheet.sheets.shapes import Sheet  # noqa: E402
from sowsheet.site.frosts import frosts  # noqa: E402

GARDENS = ("four-beds", "twelve-beds", "southern", "own-weather")
PICTURE = "twelve-beds"  # README shows its sheets
# The page of each sheet that README shows, from 0, and the scale of its picture.
PICTURES = {
    "wall-chart": (0, 1.2),
    "bed-chart": (0, 0.75),
    "tray-plan": (8, 0.75),
    "job-sheets": (17, 0.75),
    "weekend-cards": (9, 0.75),
    "tray-labels": (0, 0.75),
    "year-at-a-glance": (0, 0.75),
    "shopping-list": (0, 0.75),
}


@cache
def plan(garden: str) -> Plan:
    """An example garden, dated."""
    return plan_of(ROOT / "out_examples" / garden / "garden.yaml")


def printed(garden: str) -> dict[str, bytes]:
    """An example garden's files by name."""
    file = ROOT / "out_examples" / garden / "garden.yaml"
    plan = plan_of(file)
    paper = paper_of(plan.garden.paper).value
    printing = Printing(plan, paper, None)
    made = {f"{name.value}.pdf": pdf_bytes(printing.sheet(name)) for name in SheetName}
    if garden == GARDENS[0]:
        made["wall-chart-poster.pdf"] = pdf_bytes(_poster(plan))
    if garden == PICTURE:
        made["crops.pdf"] = pdf_bytes(table_of(file, paper))
    if plan.schedule.climate.record is not None:
        made["frost.pdf"] = _frost_page(plan)
    return made


def _poster(plan: Plan) -> Sheet:
    """The wall chart on two sheets of A4."""
    grid = grid_of("2x1", "A4")
    assert grid is not None
    return Printing(plan, grid.paper, None).poster(SheetName.WALL_CHART, grid)


def _frost_page(plan: Plan) -> bytes:
    """The frosts of a garden's own record, as `sowsheet frost RECORD --pdf` prints them beside it."""
    record, south = plan.schedule.climate.record, plan.garden.site.latitude < 0
    assert record is not None
    record = msgspec.structs.replace(record, file=Path(record.file).name)
    told = [frosts(record, threshold, south) for threshold in USUAL_C]
    return pdf_bytes(frost_sheet(record, told, frosts(record, 0.0, south), "A4", measure(), plan.garden.words))


def main() -> None:
    """Write all of them, and README's pictures."""
    for garden in GARDENS:
        folder = ROOT / "out_examples" / garden
        for name, data in printed(garden).items():
            (folder / name).write_bytes(data)
    for name, (page, scale) in PICTURES.items():
        stem = ROOT / "out_examples" / PICTURE / name
        drawn = pypdfium2.PdfDocument(stem.with_suffix(".pdf"))[page].render(scale=scale, grayscale=True).to_pil()
        drawn.quantize(32).save(stem.with_suffix(".png"), optimize=True)


if __name__ == "__main__":
    main()
