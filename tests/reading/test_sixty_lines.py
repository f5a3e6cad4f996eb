"""The sixty lines of the design, as far as words alone decide how they are read."""

from __future__ import annotations

import pytest

from tests import in_english
from tests.reading.book import marked, read, told

READ = {
    "chard till late April, then tomatoes, then maybe lamb's lettuce": (
        "chard till=25/4 third > tomato > lamb's lettuce maybe"
    ),
    "garlic since October, lettuce between from mid-March, then leeks": (
        "garlic since=15/10 month + lettuce on=15/3 third > leek"
    ),
    "broad beans since November, then something quick, then kale early July under fleece till August": (
        "broad bean since=15/11 month > something quick > kale on=5/7 third under fleece till 1/8"
    ),
    "onions from seed late March, then spinach mid-August": "onion:from seed on=25/3 third > spinach on=15/8 third",
    "onion sets mid March": "onion:from sets on=15/3 third",
    "garlic since October, then kale when free": "garlic since=15/10 month > kale free",
    "peas 25 March, then leeks 5 July": "pea on=25/3 > leek on=5/7",
    "lettuce 1 April, then courgettes 28 May": "lettuce on=1/4 > courgette on=28/5",
    "lettuce 1 April then spinach": "lettuce on=1/4 > spinach",
    "tomatoes?": "tomato maybe",
    "lettuce and spinach 1 April, then leeks": "lettuce on=1/4 & spinach on=1/4 > leek",
    "lettuce 1 April and spinach 10 April, then leeks": "lettuce on=1/4 & spinach on=10/4 > leek",
    "half lettuce and half spinach 1 April": "lettuce amount=1/2 share on=1/4 & spinach amount=1/2 share on=1/4",
    "3 rows of carrots and 2 rows of beetroot mid-April": (
        "carrot amount=3 rows on=15/4 third & beetroot amount=2 rows on=15/4 third"
    ),
    "2 m of carrots and 4 m of beetroot mid-April": (
        "carrot amount=2 m on=15/4 third & beetroot amount=4 m on=15/4 third"
    ),
    "2 m of lettuce and spinach in April": "lettuce amount=2 m on=15/4 month & spinach on=15/4 month",
    "lettuce (red oak leaf) 1 April till June": "lettuce note=red oak leaf on=1/4 till=1/6",
    "leaf lettuce April to July": "lettuce:leaf on=1/4 till=31/7 end",
    "spring onions 1 April": "spring onion on=1/4",
    "spring cabbage since September, then leeks": "cabbage:spring since=15/9 month > leek",
    "carrots sown 20 April, then nothing": "carrot sown=20/4 > nothing",
    "carrots 20 April, then nothing till September": "carrot on=20/4 > nothing till 1/9",
    "radish 15 March, then tomatoes 1 June, then garlic October": (
        "radish on=15/3 > tomato on=1/6 > garlic on=15/10 month"
    ),
    "garlic October, then leeks": "garlic on=15/10 month > leek",
    "garlic planted in October 2026, then leeks": "garlic planted=15/10/2026 month > leek",
    "leeks there till April, then peas": "leek there till=1/4 > pea",
    "leeks there, then peas 1 May": "leek there > pea on=1/5",
    "kale there, picked till mid-April, then broad beans": "kale there till=15/4 third > broad bean",
    "tomatoes till March": "tomato till=1/3",
    "lettuce till June": "lettuce till=1/6",
    "lettuce sown 1 March, planted 10 April": "lettuce sown=1/3 planted=10/4",
    "lettuce picked from 1 June": "lettuce picked=1/6",
    "tomatoes 2 weeks after last frost": "tomato on=last frost +14",
    "tomatoes after the last frost": "tomato on=last frost",
    "broad beans sown November": "broad bean sown=15/11 month",
    "broad beans sown direct mid November": "broad bean sown=15/11 third direct",
    "peas week 13, then kale week 28": "pea on=week 13 > kale on=week 28",
    "spinach week 53": "spinach on=week 53",
    "peas 29 February": "pea on=29/2",
    "kale July 1": "kale on=1/7",
    "kale 1st of July": "kale on=1/7",
    "kale mid June to end of July": "kale on=15/6 third till=31/7 end",
    "onions from seed mid-January": "onion:from seed on=15/1 third",
    "lettuce every 3 weeks 1 March to 1 August": "lettuce every 21 d 1/3..1/8",
    "lettuce every fortnight from April to August": "lettuce every 14 d 1/4..31/8 end",
    "tomatoes 24 May, lettuce between": "tomato on=24/5 + lettuce",
    "tomatoes with lettuce between from April": "tomato + lettuce on=1/4",
    "leeks mid-June till April 2028": "leek on=15/6 third till=1/4/2028",
    "kale, then leeks": "kale > leek",
    "lettuce 1 April under fleece and spinach": "lettuce on=1/4 under fleece & spinach",
    "lettuce 1 April under fleece for 5 weeks": "lettuce on=1/4 under fleece for 35 d",
    "courgettes x 6 end of May": "courgette amount=6 plants on=31/5 end",
    "6 courgettes end of May": "courgette amount=6 plants on=31/5 end",
}

REFUSED = {
    "onions late March": ("onions", "`onion from seed` or `onion from sets`"),
    "tomatoes 1 June, lamb's lettuce October": (
        ",",
        "`tomatoes 1 June, then lamb's lettuce October`; side by side: `tomatoes 1 June and lamb's lettuce October`.",
    ),
    "maybe leeks or kale": ("or", "Write one, the other as maybe: `leeks and maybe kale`."),
    "half lettuce, half spinach 1 April": (",", "Write `half lettuce and half spinach 1 April`."),
    "early lettuce 1 April": ("early", "Did you mean `lettuce early April`?"),
    "kale 10/7": ("10/7", "`10 July` or `7 October`"),
    "chard till spring": ("spring", "Write `till mid-April`."),
    "lettuce ASAP": ("ASAP", "Leave the date out for `as soon as it is free and safe`."),
    "red onions from sets 20 March": ("red", "in brackets: `onions from sets (red) 20 March`."),
}


@pytest.mark.parametrize(("line", "expected"), READ.items())
def test_read(line: str, expected: str) -> None:
    plan, mistakes = read(line)
    assert mistakes == []
    assert plan is not None
    assert told(plan) == expected


@pytest.mark.parametrize(("line", "expected"), REFUSED.items())
def test_refused(line: str, expected: tuple[str, str]) -> None:
    plan, mistakes = read(line)
    assert plan is None
    (mistake,) = mistakes
    words, cure = expected
    assert marked(mistake) == words
    assert cure in in_english.cure(mistake)


def test_in_sow_also_a_series_is_sown() -> None:
    plan, mistakes = read("60 lettuce every 3 weeks March to August", also=True)
    assert mistakes == []
    assert plan is not None
    assert told(plan) == "lettuce amount=60 plants every 21 d 1/3..31/8 end"


def test_dates_are_told_back_as_written() -> None:
    plan, _ = read("lettuce Sown 1st of March, planted Mid-April till the end of June")
    assert plan is not None
    item = plan.steps[0].items[0]
    assert item.sown is not None
    assert item.planted is not None
    assert item.till is not None
    assert [item.sown.text, item.planted.text, item.till.text] == ["1st of March", "Mid-April", "the end of June"]
    assert item.planted.spot.column == len("North 1: lettuce Sown 1st of March, planted ") + 1
    assert item.word == "lettuce"
