"""The grid of a poster: how many sheets across and down, how they lie, and how large they are glued together."""

from __future__ import annotations

import math
import re

import msgspec

from sowsheet.sheets.paper import MARGIN, MM, PT_PER_M, Paper, landscape, usual_distance_m

OVERLAP = 10 * MM  # more than a printer's unprintable edge
FLOOR = 6.35 * MM  # nearer to the edge many printers print nothing
MOST = 6  # sheets across, and down
TOO_WIDE = 2.5  # times as wide as high: then its sheets stand upright
TILE_PAPERS = ("A4", "Letter")
_USUAL = ("A3", "A2", "A1")


class Grid(msgspec.Struct, frozen=True):
    """A poster's sheets. All measures in points.

    Each prints `width` x `height`, of which the last `OVERLAP` to the right and below is for the glue, or, at the
    poster's own edge, its white border.
    """

    columns: int
    rows: int
    paper: str
    upright: bool

    @property
    def sheets(self) -> int:
        """How many sheets of paper."""
        return self.columns * self.rows

    @property
    def page(self) -> tuple[float, float]:
        """A sheet of paper: its width and height."""
        lying = landscape(self.paper)
        return (lying.height, lying.width) if self.upright else (lying.width, lying.height)

    @property
    def pitch(self) -> tuple[float, float]:
        """How far it is from sheet to sheet, across and down: what of a sheet is seen in the end."""
        wide, tall = self.page
        return wide - 2 * MARGIN - OVERLAP, tall - 2 * MARGIN - OVERLAP

    @property
    def size(self) -> tuple[float, float]:
        """The poster glued together: n(p - 2m) - (n - 1)o each way."""
        return self.columns * self.pitch[0] + OVERLAP, self.rows * self.pitch[1] + OVERLAP

    @property
    def like(self) -> str:
        """The paper of the A series nearest to it in area; A1 is the largest that is known."""
        area = math.log(self.size[0] * self.size[1])
        return min(_USUAL, key=lambda name: abs(area - math.log(landscape(name).width * landscape(name).height)))

    def paper_for(self, distance_m: float | None) -> Paper:
        """The whole poster as a paper, read from a distance or from the usual one of the paper it is like."""
        return Paper(self.like, *self.size, distance_m or usual_distance_m(self.like))


def grid_of(words: str, paper: str) -> Grid | None:
    """The grid of `3x2`, `3 x 2`, `3 by 2`: columns, then rows; None for what is none or has one sheet.

    Sheets lie on their long side unless the poster would be far wider than high.
    """
    found = re.fullmatch(r"\s*(\d{1,2})\s*(?:x|×|by)\s*(\d{1,2})\s*", words.lower())
    if found is None or paper not in TILE_PAPERS:
        return None
    columns, rows = int(found[1]), int(found[2])
    if not (1 <= columns <= MOST and 1 <= rows <= MOST and columns * rows > 1):
        return None
    lying = Grid(columns, rows, paper, upright=False)
    return Grid(columns, rows, paper, upright=lying.size[0] > TOO_WIDE * lying.size[1])


def size_mm(grid: Grid) -> str:
    """`811 x 550 mm`"""
    return f"{round(grid.size[0] / MM)} x {round(grid.size[1] / MM)} mm"


def rows_type_pt(grid: Grid) -> float:
    """The least size of the rows' type at the usual distance."""
    return PT_PER_M * usual_distance_m(grid.like)
