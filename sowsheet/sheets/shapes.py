"""Frozen shapes in points, origin at the page's top left corner, y downwards. No PDF here.

Greys run from 0 (black) to 1 (white); None means not drawn.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
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


Role = Literal["H1", "H2", "H3", "P", "Figure", "Table", "TR", "TH", "TH column", "TD", "L", "LI", "LBody", "Span"]

# How deep each role stands, and what it opens where that is not open.
LEVEL: dict[Role, int] = {
    **dict.fromkeys(("H1", "H2", "H3", "P", "Figure", "Table", "L"), 0),
    **dict.fromkeys(("TR", "LI"), 1),
    **dict.fromkeys(("TH", "TH column", "TD", "LBody"), 2),
    "Span": 3,
}
OPENS: dict[Role, Role] = {"TR": "Table", "LI": "L"}

Said = str | Callable[[], str]


class Tag(msgspec.Struct, frozen=True, gc=False):
    """What shapes mean to who hears the page: those from `start` up to but not including `end`; none in a TR or an LI.

    `said` is heard in their place. A Figure, and a TD that holds a picture, must have it. What takes time to be said
    is a function, so that it is only made where tags are asked for.
    """

    role: Role
    start: int = 0
    end: int = 0
    said: Said = ""

    @property
    def words(self) -> str:
        """What is said; "" for what is read as it is printed."""
        return self.said if isinstance(self.said, str) else self.said()


class Page(msgspec.Struct, frozen=True):
    """One page, its size in points, its shapes in painting order, and their tags in the order in which it is read.

    A TR, LI, TH, TD, LBody or Span belongs to the row, list or cell that is open when it comes; a TR opens a table and
    an LI a list where none is open, so that both go on from page to page. Shapes without a tag are furniture.
    """

    width: float
    height: float
    shapes: tuple[Shape, ...]
    label: str = ""
    tags: tuple[Tag, ...] = ()


class Sheet(msgspec.Struct, frozen=True):
    """A document: its title for the file, and its pages; `bookmarks` are (page index, words).

    `language` is the tag (BCP 47) of the language that it is in.
    """

    title: str
    pages: tuple[Page, ...]
    bookmarks: tuple[tuple[int, str], ...] = ()
    language: str = "en-GB"


class Leaf:
    """A page on its way: shapes as they are painted, and what they mean as it is read."""

    def __init__(self) -> None:
        self.shapes: list[Shape] = []
        self.tags: list[Tag] = []

    def draw(self, shapes: Iterable[Shape]) -> None:
        """Shapes that say nothing by themselves."""
        self.shapes += shapes

    def tag(self, role: Role, shapes: Iterable[Shape] = (), said: Said = "") -> None:
        """Shapes with their meaning; none for what only opens a row. A picture of nothing is none."""
        start = len(self.shapes)
        self.shapes += shapes
        if role != "Figure" or len(self.shapes) > start:
            self.tags.append(Tag(role, start, len(self.shapes), said))

    def row(self, name: Iterable[Shape], called: Said, picture: Iterable[Shape], said: Said) -> None:
        """A row of a chart: its name, heard as `called` if that is not "", and its picture with what is said of it.

        Where the picture shows nothing, that is heard in place of the name.
        """
        shown = list(picture)
        self.tag("TR")
        self.tag("TH", name, called if shown else said)
        self.tag("TD", shown, said if shown else "")

    def lay(self, shapes: Iterable[Shape], tags: Iterable[Tag]) -> None:
        """Shapes that bring their tags, counted from the first of them."""
        self.tags += later(tags, len(self.shapes))
        self.shapes += shapes


def later(tags: Iterable[Tag], shapes: int) -> list[Tag]:
    """The tags of shapes that so many others now come before."""
    return [Tag(t.role, t.start + shapes, t.end + shapes, t.said) for t in tags]
