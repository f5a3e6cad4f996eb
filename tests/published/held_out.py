"""Published rows that an entry of the catalogue was not taken from: what a check may rest on."""

from __future__ import annotations

from collections.abc import Iterator

from sowsheet.catalogue.records import Kind
from tests.made import catalogue
from tests.published.tables import rows

Row = dict[str, str]


def kinds_of(crop: str) -> tuple[Kind, ...]:
    """A crop's kinds; none for a crop that the catalogue does not have."""
    found = catalogue().crops.get(crop)
    return found.kinds if found else ()


def held_out(table: str, *fields: str) -> Iterator[tuple[Kind, Row]]:
    """Each kind with each row of its crop whose source none of these fields of the kind names."""
    for row in rows(table):
        for kind in kinds_of(row["crop"]):
            taken = {key for field in fields for key in kind.sources.get(field, ())}
            if row["source"] not in taken:
                yield kind, row


def number(row: Row, *columns: str) -> float | None:
    """The first of these columns that is filled."""
    return next((float(row[c]) for c in columns if row[c]), None)
