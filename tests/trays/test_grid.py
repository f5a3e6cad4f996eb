"""How cells lie in a tray of 53 x 31 cm."""

from __future__ import annotations

import pytest

from sowsheet.trays.grid import Grid, filled, grid
from tests.sheets.sample_trays import sample


@pytest.mark.parametrize(
    ("cells", "rows", "across"),
    [(6, 3, 2), (15, 5, 3), (24, 6, 4), (40, 8, 5), (60, 10, 6), (77, 11, 7), (84, 12, 7), (104, 13, 8), (126, 14, 9)],
)
def test_the_factor_pair_that_fits_the_tray(cells: int, rows: int, across: int) -> None:
    assert grid(cells, 53, 31) == Grid(rows, across)
    assert grid(cells, 31, 53) == Grid(rows, across)


def test_every_cell_has_a_place_and_no_row_is_empty() -> None:
    for cells in range(1, 340):
        lies = grid(cells, 53, 31)
        assert (lies.rows - 1) * lies.across < cells <= lies.rows * lies.across


def test_parts_lie_one_behind_the_other() -> None:
    _, trays, _ = sample()
    places = filled(trays.shared[0])
    assert [(p.first, p.part.cells) for p in places] == [(0, 30), (30, 25)]
