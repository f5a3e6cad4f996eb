"""The table of all crops as posters: each sheet is a small table of some crops and some columns, the names on each."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import groupby

import msgspec

from sowsheet.sheets.crop_rows import CropRow
from sowsheet.sheets.crop_table import (
    GAP,
    LEAST,
    PITCH,
    PITCHES,
    Heading,
    Setting,
    body_rows,
    column_units,
    foot_paragraphs,
    head_rows,
    rules,
    set_foot,
    title_shapes,
)
from sowsheet.sheets.flow import moved
from sowsheet.sheets.paper import MARGIN
from sowsheet.sheets.poster import Poster, Told, Unfit
from sowsheet.sheets.poster_charts import part_words
from sowsheet.sheets.poster_grid import OVERLAP, Grid
from sowsheet.sheets.shapes import Leaf, Measure, Page, Words

LARGEST, STEP = 40.0, 0.5  # type in points, and how finely the largest is found that fits
TITLE = 3.4  # in sizes: the title, and below it what the table is

Crops = list[list[CropRow]]


class Table(msgspec.Struct, frozen=True):
    """The table in one size of type: for each column of sheets its own columns, and the crops of each row of sheets."""

    settings: tuple[Setting, ...]
    members: tuple[tuple[int, ...], ...]  # which columns, the names first
    dealt: tuple[Crops, ...]


def table_posters(rows: Sequence[CropRow], heading: Heading, grid: Grid, measure: Measure) -> list[Poster] | Unfit:
    """The table on a grid of sheets in the largest type that needs the fewest posters; or why it cannot be."""
    sizes = [LARGEST - STEP * n for n in range(int((LARGEST - LEAST) / STEP) + 1)]
    least = next((t for size in reversed(sizes) if (t := _table(rows, heading, grid, measure, size))), None)
    if least is None:
        return Unfit("narrow")
    posters = -(-len(least.dealt) // grid.rows)
    fit = (t for size in sizes if (t := _table(rows, heading, grid, measure, size)) is not None)
    table = next(t for t in fit if -(-len(t.dealt) // grid.rows) <= posters)
    return [_poster(table, heading, grid, n, posters) for n in range(posters)]


def _table(rows: Sequence[CropRow], heading: Heading, grid: Grid, measure: Measure, size: float) -> Table | None:
    """The table in a size; None where its columns need more sheets, or a crop more than one."""
    unit = [width * size for width in column_units(rows, heading.columns, measure)]
    members = _columns_dealt(unit, grid.pitch[0], grid.columns)
    if members is None:
        return None
    paper = grid.paper_for(None)
    settings = []
    for own in members:
        stretch = (grid.pitch[0] - sum(unit[n] for n in own)) / len(own)
        widths = tuple(unit[n] + stretch for n in own)
        lefts = tuple(MARGIN + sum(widths[:n]) for n in range(len(own)))
        settings.append(
            Setting(paper, measure, size, tuple(heading.columns[n] for n in own), lefts, widths, PITCHES[2])
        )
    crops = [list(own) for _, own in groupby(rows, key=lambda row: row.crop)]
    dealt = _crops_dealt(crops, settings[0], heading, grid.pitch[1])
    return None if dealt is None else Table(tuple(settings), members, tuple(dealt))


def _columns_dealt(widths: Sequence[float], room: float, sheets: int) -> tuple[tuple[int, ...], ...] | None:
    """The columns on so many sheets, in order, the names on each; as evenly as may be."""
    low, high = max(widths[1:]) + widths[0], room
    found = _columns_filled(widths, high)
    if low > room or len(found) > sheets:
        return None
    for _ in range(16):
        middle = (low + high) / 2
        low, high = (low, middle) if len(_columns_filled(widths, middle)) <= sheets else (middle, high)
    found = _columns_filled(widths, high)
    return tuple(found) if len(found) == sheets else None


def _columns_filled(widths: Sequence[float], room: float) -> list[tuple[int, ...]]:
    dealt: list[list[int]] = [[0]]
    for n, width in enumerate(widths[1:], 1):
        if len(dealt[-1]) > 1 and sum(widths[k] for k in dealt[-1]) + width > room:
            dealt.append([0])
        dealt[-1].append(n)
    return [tuple(own) for own in dealt]


def _height(crop: Sequence[CropRow], setting: Setting) -> float:
    """The height of a crop's rows, each of one line."""
    return len(crop) * setting.size * setting.pitch


def _head_height(setting: Setting) -> float:
    return setting.size * (PITCH * 2 + 0.3)


def _crops_dealt(crops: Sequence[list[CropRow]], setting: Setting, heading: Heading, tall: float) -> list[Crops] | None:
    """The crops on rows of sheets, below the heads; the title on the first, the foot below the last."""
    dealt: list[Crops] = [[]]
    used = setting.size * TITLE + _head_height(setting)
    for crop in crops:
        height = _height(crop, setting)
        if used + height > tall:
            if not dealt[-1]:
                return None
            dealt.append([])
            used = _head_height(setting)
        dealt[-1].append(crop)
        used += height
    if used + _foot_height(setting, heading) > tall:
        dealt.append([])
    return dealt if _foot_height(setting, heading) <= tall else None


def _foot_height(setting: Setting, heading: Heading) -> float:
    return GAP * setting.size + sum(height for _, height in foot_paragraphs(heading, setting))


def _poster(table: Table, heading: Heading, grid: Grid, number: int, posters: int) -> Poster:
    """One poster: its rows of sheets, one below the other."""
    wide, tall = grid.pitch
    first = number * grid.rows
    leaf, told = Leaf(), list[Told]()
    dealt = table.dealt[first : first + grid.rows]
    for row, crops in enumerate(dealt):
        for column in range(grid.columns):
            own = _sheet(table, heading, first + row, column, crops)
            leaf.lay((moved(s, column * wide - MARGIN, row * tall - MARGIN) for s in own.shapes), own.tags)
            told += [Told(row, column, tag) for tag in leaf.tags[len(told) :]]
    page = Page(grid.size[0], len(dealt) * tall + OVERLAP, tuple(leaf.shapes))
    xs = tuple(n * wide for n in range(grid.columns + 1))
    ys = tuple(n * tall for n in range(len(dealt) + 1))
    return Poster(page, xs, ys, part_words(heading.words, None, number, posters), tuple(told))


def _sheet(table: Table, heading: Heading, row: int, column: int, crops: Crops) -> Leaf:
    """A sheet, its origin at the margin: title on the very first, heads, crops, and the foot below the last of them."""
    setting, leaf = table.settings[column], Leaf()
    top = MARGIN
    if row == 0:
        if column == 0:
            title, *_ = title_shapes(heading, setting, 1, 1)
            leaf.tag("H1", [title])
            leaf.tag("P", [_aside(heading, setting)])
        top += setting.size * TITLE
    if crops:
        under = top + _head_height(setting)
        own = [[_cells(one, table.members[column]) for one in crop] for crop in crops]
        head_rows(leaf, setting, top)
        body_rows(leaf, own, setting, under)
        height = sum(_height(crop, setting) for crop in own)
        leaf.draw(rules(setting, top, under, height))
        top = under + height
    if column == 0 and row == len(table.dealt) - 1:
        set_foot(leaf, list(foot_paragraphs(heading, setting)), top + GAP * setting.size)
    return leaf


def _aside(heading: Heading, setting: Setting) -> Words:
    """What the table is, smaller where it is longer than the sheet is wide."""
    fits = (setting.right - MARGIN) / setting.measure(heading.aside, "regular", 1.0)
    return Words(MARGIN, MARGIN + setting.size * 2.9, heading.aside, "regular", min(setting.size, fits))


def _cells(row: CropRow, members: Sequence[int]) -> CropRow:
    return msgspec.structs.replace(row, cells=tuple(row.cells[n] for n in members))
