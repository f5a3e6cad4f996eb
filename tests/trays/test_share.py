"""Which sowings share their last tray, and where it is counted."""

from __future__ import annotations

from sowsheet.trays.records import SharedTray
from sowsheet.trays.share import shared_trays
from tests.made import sound

MONDAY_AND_THURSDAY = frozenset({0, 3})


def _shared(*beds: str, also: tuple[str, ...] = ()) -> list[SharedTray]:
    return list(shared_trays(sound(*beds, also=also, work_days=MONDAY_AND_THURSDAY)))


def test_a_tray_is_not_sown_on_two_days() -> None:
    assert _shared("30 lettuce sown 22 April", "6 lettuce sown 22 April")
    assert not _shared("30 lettuce sown 22 April", "6 lettuce sown 19 April")


def test_what_is_carried_or_hardened_on_another_day_stands_in_another_tray() -> None:
    assert not _shared("runner beans sown 19 April", "6 melons sown 19 April")
    assert not _shared("10 cabbage sown 29 April", "10 chard sown 29 April")  # hardened a week earlier


def test_a_tray_is_counted_where_it_stays_longest() -> None:
    (tray,) = _shared("30 lettuce sown 29 April planted 27 May", also=("5 lettuce sown 29 April",))
    assert [part.batch for part in tray.parts] == ["lettuce", "Bed 1 lettuce"]
    assert tray.owner == "lettuce"


def test_of_those_that_leave_together_it_is_counted_where_most_cells_are() -> None:
    (tray,) = _shared("5 lettuce sown 22 April", "30 lettuce sown 22 April")
    assert tray.owner == "Bed 2 lettuce"
