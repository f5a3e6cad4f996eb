"""Frozen shapes in points, origin at the page's top left corner, y downwards. No PDF here.

Greys run from 0 (black) to 1 (white); None means not drawn.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Literal

import msgspec

Face = Literal["regular", "bold", "semi", "semi bold", "condensed", "condensed bold"]
Hatch = Literal["", "diagonal", "dots", "vertical"]
Measure = Callable[[str, Face, float], float]  # words, face, size in pt -> width in pt


class Box(msgspec.Struct, frozen=True, gc=False):
    """A rectangle, filled, hatched or outlined; `radius` rounds its corners.

    `pitch_pt` is the hatch's repeat: 2.3 mm for each metre of reading distance can be told apart. `shift`: how far
    right and down of the page's own the hatch lies, so that parts on several sheets fit together.
    """

    x: float
    y: float
    width: float
    height: float
    fill: float | None = None
    stroke: float | None = None
    line_pt: float = 0.75
    radius: float = 0.0
    hatch: Hatch = ""
    pitch_pt: float = 6.5
    dashed: bool = False
    shift: tuple[float, float] = (0.0, 0.0)


class Line(msgspec.Struct, frozen=True, gc=False):
    """A straight line."""

    x1: float
    y1: float
    x2: float
    y2: float
    grey: float = 0.0
    line_pt: float = 0.5
    dashed: bool = False


class Polygon(msgspec.Struct, frozen=True, gc=False):
    """A closed shape."""

    points: tuple[tuple[float, float], ...]
    fill: float | None = 0.0
    stroke: float | None = None
    line_pt: float = 0.75


class Words(msgspec.Struct, frozen=True, gc=False):
    """A line of text on the base line y. `plate` puts white behind it, so that no line runs through it."""

    x: float
    y: float
    text: str
    face: Face = "regular"
    size_pt: float = 10.0
    grey: float = 0.0
    align: Literal["left", "centre", "right"] = "left"
    plate: bool = False


Shape = Box | Line | Polygon | Words


class Page(msgspec.Struct, frozen=True):
    """One page, its size in points and its shapes in painting order."""

    width: float
    height: float
    shapes: tuple[Shape, ...]
    label: str = ""


class Sheet(msgspec.Struct, frozen=True):
    """A document: its title for the file, and its pages; `bookmarks` are (page index, words)."""

    title: str
    pages: tuple[Page, ...]
    bookmarks: tuple[tuple[int, str], ...] = ()
