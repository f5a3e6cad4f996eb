"""The name book: singular and plural, kinds, shared words."""

from __future__ import annotations

import pytest

from sowsheet.catalogue.names import Head, KindHead, Names, names_of, plural_of
from sowsheet.reading.names import Name, NameBook

BOOK: Names = names_of(
    [
        Head("leek", "leek.yaml", ("leek",)),
        Head("tomato", "tomato.yaml", ("tomato",), (), "cordon", (KindHead("cordon"), KindHead("bush"))),
        Head(
            "onion",
            "onion.yaml",
            ("onion", "bulb onion"),
            (),
            "ask",
            (KindHead("from seed", ("seed onion",)), KindHead("from sets", ("onion set",))),
        ),
        Head("spring onion", "spring-onion.yaml", ("spring onion", "salad onion"), ("scallion", "green onion")),
        Head("broad bean", "broad-bean.yaml", ("broad bean", "fava bean")),
        Head("french bean", "french-bean.yaml", ("French bean",), ("bush bean",)),
        Head("courgette", "courgette.yaml", ("courgette", "summer squash"), ("zucchini",)),
        Head("winter squash", "winter-squash.yaml", ("winter squash", "pumpkin")),
        Head("calabrese", "calabrese.yaml", ("calabrese", "broccoli")),
        Head("sprouting broccoli", "sprouting-broccoli.yaml", ("sprouting broccoli",)),
        Head("lamb's lettuce", "lambs-lettuce.yaml", ("lamb's lettuce", "corn salad")),
        Head(
            "lettuce",
            "lettuce.yaml",
            ("lettuce",),
            (),
            "by date, else headed",
            (KindHead("leaf", ("cut-and-come-again lettuce",)),),
        ),
        Head("beetroot", "beetroot.yaml", ("beetroot", "beet")),
        Head("chard", "chard.yaml", ("chard", "leaf beet")),
    ]
)


def find(text: str) -> Name | None:
    return BOOK.find(tuple(text.split()))


def test_it_is_the_book_that_plan_lines_ask() -> None:
    book: NameBook = BOOK
    assert book.find(("leeks",)) == Name("leek", None)


@pytest.mark.parametrize(
    ("text", "crop", "kind"),
    [
        ("leek", "leek", None),
        ("leeks", "leek", None),
        ("tomatoes", "tomato", None),
        ("tomatos", "tomato", None),
        ("bush tomatoes", "tomato", "bush"),
        ("onions from seed", "onion", "from seed"),
        ("onion from seed", "onion", "from seed"),
        ("bulb onions from sets", "onion", "from sets"),
        ("onion sets", "onion", "from sets"),
        ("seed onions", "onion", "from seed"),
        ("spring onions", "spring onion", None),
        ("scallions", "spring onion", None),
        ("broad beans", "broad bean", None),
        ("French beans", "french bean", None),
        ("french bean", "french bean", None),
        ("winter squashes", "winter squash", None),
        ("zucchini", "courgette", None),
        ("lamb's lettuce", "lamb's lettuce", None),
        ("lamb’s lettuces", "lamb's lettuce", None),
        ("lambs lettuce", "lamb's lettuce", None),
        ("lettuces", "lettuce", None),
        ("leaf lettuce", "lettuce", "leaf"),
        ("cut and come again lettuce", "lettuce", "leaf"),
        ("beets", "beetroot", None),
        ("leaf beet", "chard", None),
    ],
)
def test_a_name_is_found(text: str, crop: str, kind: str | None) -> None:
    assert find(text) == Name(crop, kind)


@pytest.mark.parametrize(
    ("text", "choices"),
    [
        ("onions", ("onions from seed", "onions from sets")),
        ("onion", ("onion from seed", "onion from sets")),
        ("beans", ("broad beans", "French beans")),
        ("squash", ("courgette", "winter squash")),
        ("squashes", ("courgettes", "winter squashes")),
        ("broccoli", ("calabrese", "sprouting broccoli")),
    ],
)
def test_a_word_that_could_be_several_things(text: str, choices: tuple[str, ...]) -> None:
    found = find(text)
    assert found is not None
    assert (found.kind, found.choices) == (None, choices)


@pytest.mark.parametrize("text", ["salad", "early lettuce", "leekes", "", "from seed", "set"])
def test_what_is_no_name(text: str) -> None:
    assert find(text) is None


def test_the_longest_name_wins() -> None:
    assert BOOK.longest(["onion", "sets", "mid", "march"]) == (2, Name("onion", "from sets"))
    assert BOOK.longest(["spring", "onions", "1", "april"]) == (2, Name("spring onion", None))
    assert BOOK.longest(["lamb's", "lettuce", "october"]) == (2, Name("lamb's lettuce", None))
    assert BOOK.longest(["leeks", "then", "kale"]) == (1, Name("leek", None))
    assert BOOK.longest(["early", "leeks"]) is None
    assert BOOK.longest([]) is None


@pytest.mark.parametrize(
    ("text", "near"),
    [("letuce", "lettuce"), ("courgetes", "courgettes"), ("brod beans", "broad beans"), ("xyzzy", None)],
)
def test_a_slip_has_a_near_name(text: str, near: str | None) -> None:
    assert BOOK.near(text) == near


def test_kinds_are_names_to_write() -> None:
    assert BOOK.kinds("onion") == ("onion from seed", "onion from sets")
    assert BOOK.kinds("leek") == ()
    assert all(find(name) == Name("tomato", name.split()[0]) for name in BOOK.kinds("tomato"))


@pytest.mark.parametrize(
    ("one", "many"),
    [
        ("radish", "radishes"),
        ("tomato", "tomatoes"),
        ("celery", "celeries"),
        ("turkey", "turkeys"),
        ("cress", "cresses"),
        ("baby leaf", "baby leaves"),
        ("mustard greens", "mustard greens"),
        ("asparagus", "asparaguses"),
        ("onion from sets", "onions from sets"),
    ],
)
def test_plurals(one: str, many: str) -> None:
    assert plural_of(one) == many
