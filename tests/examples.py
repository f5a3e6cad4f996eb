"""Print the example gardens anew into out_examples/: `python tests/examples.py`. Look at them before committing."""

from __future__ import annotations

import sys
from pathlib import Path

import pypdfium2

ROOT = Path(__file__).parent.parent
sys.path.insert(0, str(ROOT))  # run as a script, it stands in tests/

from sowsheet.cli.common import plan_of  # noqa: E402
from sowsheet.cli.crops import table_of  # noqa: E402
from sowsheet.cli.print_ import SheetName, paper_of, sheet_of  # noqa: E402
from sowsheet.sheets.paint import pdf_bytes  # noqa: E402

GARDENS = ("four-beds", "twelve-beds", "southern")
PICTURE = "twelve-beds"  # README shows its wall chart


def printed(garden: str) -> dict[str, bytes]:
    """An example garden's files by name."""
    file = ROOT / "out_examples" / garden / "garden.yaml"
    plan = plan_of(file)
    paper = paper_of(plan.garden.paper).value
    made = {f"{name.value}.pdf": pdf_bytes(sheet_of(plan, name, paper, None)) for name in SheetName}
    if garden == PICTURE:
        made["crops.pdf"] = pdf_bytes(table_of(file, paper))
    return made


def main() -> None:
    """Write all of them, and README's picture."""
    for garden in GARDENS:
        folder = ROOT / "out_examples" / garden
        for name, data in printed(garden).items():
            (folder / name).write_bytes(data)
    document = pypdfium2.PdfDocument(ROOT / "out_examples" / PICTURE / "wall-chart.pdf")
    document[0].render(scale=1.2, grayscale=True).to_pil().save(
        ROOT / "out_examples" / PICTURE / "wall-chart.png", optimize=True
    )


if __name__ == "__main__":
    main()
