"""What is taken for granted where a garden file is silent; each is marked `assumed`, and told by `check`."""

from __future__ import annotations

from sowsheet.garden.records import Place, Room, TrayKind
from sowsheet.words.language import Language


def assumed_places(words: Language) -> tuple[Place, ...]:
    """A warm place indoors, a bench under unheated glass, a place outdoors to harden, none of them limited.

    Their names are a language's.
    """
    return (
        Place(
            words.say("place name.germinating"), ("germinating",), Room(), held_at_c=20.0, under="indoors", assumed=True
        ),
        Place(words.say("place name.growing on"), ("growing on",), Room(), under="unheated glass", assumed=True),
        Place(words.say("place name.hardening off"), ("hardening off",), Room(), under="outdoors", assumed=True),
    )


def assumed_trays() -> tuple[TrayKind, ...]:
    """A tray of 60 cells."""
    return (TrayKind("60-cell", 60, 53.0, 31.0, 30.0, assumed=True),)


def assumed_seed_tray() -> TrayKind:
    """An open seed tray, for what is pricked out."""
    return TrayKind("seed tray", 0, 37.0, 23.0, 0.0, assumed=True)


def assumed_pots() -> TrayKind:
    """Pots of 9 cm in a carry tray, for what is potted on."""
    return TrayKind("9 cm pots", 18, 54.0, 28.0, 400.0, assumed=True)
