"""How a tray's cells lie, and which of them a batch fills in a shared tray."""

from __future__ import annotations

import msgspec

from sowsheet.trays.records import SharedTray, TrayPart


class Grid(msgspec.Struct, frozen=True):
    """`rows` rows, counted along the tray's length, of `across` cells. The last row may be short."""

    rows: int
    across: int


class Filled(msgspec.Struct, frozen=True):
    """A part of a shared tray and the number of its first cell, from 0, counted row by row."""

    part: TrayPart
    first: int


def grid(cells: int, length_cm: float, width_cm: float) -> Grid:
    """The rows in which that many cells come nearest to being square; a factor pair where one serves (60: 10 x 6)."""
    long, short = max(length_cm, width_cm), min(length_cm, width_cm)

    def cost(across: int) -> tuple[float, int]:
        rows = -(-cells // across)
        squareness = (long / rows) / (short / across)
        unsquare = max(squareness, 1 / squareness)
        # a short last row is rarer in trays than a cell half as long again as it is wide
        return (unsquare + 0.75 * (rows * across != cells), across)

    across = min(range(1, cells + 1), key=cost)
    return Grid(-(-cells // across), across)


def filled(shared: SharedTray) -> tuple[Filled, ...]:
    """The parts in the order in which they are sown, one behind the other."""
    found, at = [], 0
    for part in shared.parts:
        found.append(Filled(part, at))
        at += part.cells
    return tuple(found)
