"""Plan lines that the design does not list: how they are read, and how they are refused."""

from __future__ import annotations

import pytest

from tests import in_english
from tests.reading.book import marked, read, told

READ = {
    # dividers
    "kale; leeks 1 May": "kale > leek on=1/5",
    "kale;": "kale",
    "kale, then, leeks": "kale > leek",
    "kale, and then leeks": "kale > leek",
    "KALE, THEN LEEKS WEEK16.": "kale > leek on=week 16",
    # several side by side
    "lettuce, and spinach 1 April": "lettuce on=1/4 & spinach on=1/4",
    "carrots and beetroot and radish mid-April": "carrot on=15/4 third & beetroot on=15/4 third & radish on=15/4 third",
    "leeks and kale there till April": "leek there till=1/4 & kale there till=1/4",
    "lettuce and spinach sown 1 April": "lettuce sown=1/4 & spinach sown=1/4",
    "lettuce till June and spinach 1 April": "lettuce on=1/4 till=1/6 & spinach on=1/4",
    "leeks there and kale 1 April": "leek there & kale on=1/4",
    "lettuce picked from June and spinach 1 April": "lettuce picked=1/6 & spinach on=1/4",
    "lettuce 1 April till June and kale": "lettuce on=1/4 till=1/6 & kale",
    # a cover goes with the date that is shared
    "half lettuce and half spinach mid-April under fleece": (
        "lettuce amount=1/2 share on=15/4 third under fleece & spinach amount=1/2 share on=15/4 third under fleece"
    ),
    "lettuce under fleece for 5 weeks and kale 1 April under mesh": (
        "lettuce on=1/4 under fleece for 35 d & kale on=1/4 under mesh"
    ),
    "lettuce 1 April and kale 2 April under mesh": "lettuce on=1/4 & kale on=2/4 under mesh",
    "lettuce and kale under mesh": "lettuce & kale under mesh",
    # between
    "garlic since October lettuce between": "garlic since=15/10 month + lettuce",
    "tomatoes and lettuce between, then kale": "tomato + lettuce > kale",
    "tomatoes, lettuce and radish between from April": "tomato + lettuce on=1/4 + radish on=1/4",
    "tomatoes 24 May, 20 lettuce in between (red)": "tomato on=24/5 + lettuce amount=20 plants note=red",
    "tomatoes, with lettuce between, radish between": "tomato + lettuce + radish",
    "tomatoes, lettuce every 3 weeks between from March": "tomato + lettuce every 21 d 1/3..?",
    "leeks, set onions between": "leek + onion:from sets",
    # amounts
    "20 plants of kale, 1 May": "kale amount=20 plants on=1/5",
    "six courgettes": "courgette amount=6 plants",
    "6 x courgettes": "courgette amount=6 plants",
    "courgettes ×6": "courgette amount=6 plants",
    "40 clumps of beetroot": "beetroot amount=40 clumps",
    "12 heads lettuce": "lettuce amount=12 plants",
    "4 ft of carrots and 4'6\" of beetroot": "carrot amount=1.2192 m & beetroot amount=1.3716 m",
    "150cm of carrots": "carrot amount=1.5 m",
    "2.5 m of carrots mid-April": "carrot amount=2.5 m on=15/4 third",
    "a row of radish": "radish amount=1 rows",
    "a third of lettuce and two thirds spinach": "lettuce amount=1/3 share & spinach amount=2/3 share",
    "half the bed of lettuce": "lettuce amount=1/2 share",
    # verbs and dates
    "kale, 1 May": "kale on=1/5",
    "kale on 1 May": "kale on=1/5",
    "kale from April": "kale on=1/4",
    "kale from early April till June": "kale on=5/4 third till=1/6",
    "kale from April to June": "kale on=1/4 till=30/6 end",
    "kale April – June": "kale on=1/4 till=30/6 end",
    "kale April-June": "kale on=1/4 till=30/6 end",
    "kale 12 April to June": "kale on=12/4 till=30/6 end",
    "kale there to April": "kale there till=30/4 end",
    "kale planted out 1 May": "kale planted=1/5",
    "garlic set in October": "garlic planted=15/10 month",
    "kale planted since March": "kale since=15/3 month",
    "kale sown in March": "kale sown=15/3 month",
    "kale sown from March": "kale sown=1/3",
    "kale sown 1 March and planted 10 April": "kale sown=1/3 planted=10/4",
    "carrots direct 20 April": "carrot sown=20/4 direct",
    "carrots drilled 20 April": "carrot sown=20/4 direct",
    "carrots direct sow 20 April": "carrot sown=20/4 direct",
    "carrots sown direct": "carrot direct",
    "kale picked from June till August": "kale picked=1/6 till=1/8",
    "kale picked to August": "kale till=31/8 end",
    "kale when the bed is free": "kale free",
    "kale when day length falls to 10 h": "kale on=day length 10 h falling",
    "kale 3 weeks before the last frost under mesh": "kale on=last frost -21 under mesh",
    "leeks already there since May 2026": "leek there since=15/5/2026 month",
    "perhaps kale (curly) 1 May (for soup)?": "kale maybe note=curly, for soup on=1/5",
    # covers
    "kale under netting till June till September": "kale till=1/9 under net till 1/6",
    "kale under fleece 5 weeks": "kale under fleece for 35 d",
    "kale under fleece 5 weeks before last frost": "kale on=last frost -35 under fleece",
    "kale under fleece to May": "kale under fleece till 31/5 end",
    # series
    "kale every other week from April to June": "kale every 14 d 1/4..30/6 end",
    "kale weekly": "kale every 7 d ?..?",
    "kale every week of picking May to October": "kale every 7 d of picking 1/5..31/10 end",
    "kale every 2 weeks of harvest from May till August": "kale every 14 d of picking 1/5..1/8",
    "kale every 10 days till June": "kale every 10 d ?..1/6",
    "kale every 3 weeks between March and August": "kale every 21 d 1/3..31/8 end",
    "kale every 3 weeks from March till August": "kale every 21 d 1/3..1/8",
    "kale every week in May": "kale every 7 d 1/5..31/5 end",
    "kale 1 March to 1 August every 3 weeks": "kale every 21 d 1/3..1/8",
    "kale March every 3 weeks till August": "kale every 21 d 1/3..1/8",
    "radish sown direct every 2 weeks April to June": "radish direct every 14 d 1/4..30/6 end",
    "kale planted every fortnight": "kale every 14 d ?..?",
    # rest
    "nothing": "nothing",
    "kale, then nothing from June to August, then leeks": "kale > nothing from 1/6 till 31/8 end > leek",
    "kale, then nothing in June": "kale > nothing from 1/6 till 30/6 end",
    "nothing, until 1 June": "nothing till 1/6",
    "nothing from October": "nothing from 1/10",
}

REFUSED = {
    # dividers
    "lettuce, then then kale": (", then then", "write `nothing`"),
    "then kale": ("then", "Name the first crop"),
    "kale then": ("then", "`then nothing`"),
    "kale;; leeks": (";;", "Leave one out"),
    "kale,": (",", "Leave it out."),
    "kale and": ("and", "leave `and` out"),
    "and kale": ("and", "leave `and` out"),
    "kale and and leeks": ("and", "leave `and` out"),
    "lettuce, spinach and kale 1 April": (",", "`lettuce and spinach and kale 1 April`"),
    "lettuce 1 April kale 2 May": ("kale", "`lettuce 1 April, then kale 2 May`"),
    "kale 6 leeks": ("6", "`kale, then 6 leeks`"),
    "kale maybe": ("maybe", "`maybe kale`"),
    "kale followed by leeks": ("followed", "`garlic, then kale`"),
    "kale after garlic": ("after", "`garlic, then kale`"),
    "kale – leeks": ("–", "Write `then`, `and`, or `to`"),
    # names
    "letuce": ("letuce", "Did you mean `lettuce`?"),
    "lambs letuce October": ("lambs letuce", "Did you mean `lamb's lettuce`?"),
    "kale, tomatoe 1 June": ("tomatoe", "Did you mean `tomato`?"),
    "tomatoe": ("tomatoe", "`crops: own.yaml`"),
    "moonflower": ("moonflower", "`crops: own.yaml`"),
    "moonflower 1 June": ("moonflower", "`sowsheet crops` lists all names"),
    "leef lettuce 1 April": ("leef", "Did you mean `leaf lettuce`?"),
    "maincrop carrots 1 April": ("maincrop", "`carrots (maincrop) 1 April`"),
    "old gold lettuce and kale": ("old gold", "`lettuce (old gold)`"),
    "lettuce red oak leaf 1 April": ("red oak leaf", "`(red oak leaf)`"),
    "(red) kale 1 May": ("(red)", "`kale (red) 1 May`"),
    "leeks from seed": ("from seed", "`sown direct`"),
    "kale or leeks or chard": ("or", "`kale and maybe leeks`"),
    # brackets and signs
    "kale (curly": ("(", "Close the bracket"),
    "kale ) 1 May": (")", "Open the bracket"),
    # amounts
    "2,5 m of carrots": ("2,5", "`2.5`"),
    "1,000 lettuce": ("1,000", "`1000`"),
    "6 trays of lettuce": ("6 trays", "`20 plants of lettuce`"),
    "0 lettuce": ("0", "e.g. `60 lettuce`"),
    "1.5 lettuce": ("1.5", "e.g. `60 lettuce`"),
    "600 m of lettuce": ("600 m of", "e.g. `60 lettuce`"),
    "1/2 lettuce": ("1/2", "write `half lettuce`"),
    "½ kale and chard": ("½", "write `half kale`"),
    "2/3 of the bed of lettuce 1 April": ("2/3", "write `two thirds of lettuce`"),
    "99999999999999999999 lettuce": ("99999999999999999999", "e.g. `60 lettuce`"),
    "kale x 99999999999999999999": ("x 99999999999999999999", "e.g. `60 lettuce`"),
    "lettuce every 100 weeks": ("every 100 weeks", "leave it out for one planting"),
    "lettuce every other 30 weeks": ("every other 30 weeks", "leave it out for one planting"),
    "lettuce 60 weeks before last frost": ("60 weeks before last frost", "`10 days after last frost`"),
    "6 kale x 7": ("x 7", "Keep one of them."),
    "kale x": ("x", "`courgettes x 6`"),
    "kale 6": ("6", "`x 6`"),
    "half lettuce and the other half spinach": ("other", "takes the rest of the bed"),
    # dates
    "lettuce 1 April 10 April": ("10 April", "Keep one of them."),
    "kale 1 April and 1 May": ("and 1 May", "then kale 1 May`"),
    "kale 1 April or 8 April": ("or", "Write one date"),
    "1 April lettuce": ("1 April", "`lettuce 1 April`"),
    "planted lettuce 1 April": ("planted", "`lettuce planted 1 April`"),
    "till June": ("till", "`lettuce till June`"),
    "kale till": ("till", "`till mid-April`"),
    "kale till the end": ("till the", "`till mid-April`"),
    "kale 1 April to": ("to", "`to mid-April`"),
    "kale since": ("since", "`since mid-April`"),
    "kale sown": ("sown", "`sown direct 20 April`"),
    "kale sown in trays 1 March": ("sown in trays", "`sown 1 March` (in trays)"),
    "kale by June": ("by", "Write `till June`."),
    "kale cleared by 1 June": ("cleared", "Write `till 1 June`."),
    "kale harvested June": ("harvested", "`picked from 1 June`"),
    "lettuce Aprl": ("Aprl", "Did you mean `April`?"),
    "kale frm April": ("frm", "Did you mean `from`?"),
    "kale early spring": ("early spring", "`mid-April`"),
    "kale from 1 April to autumn": ("autumn", "Write `to mid-October`."),
    "kale there 1 May": ("1 May", "`kale there till April`"),
    "kale since October planted May": ("May", "leave `since` out"),
    "kale when free 1 May": ("kale", "Leave `when free` out"),
    "kale when ready": ("when ready", "`kale when free`"),
    # series
    "kale every month": ("every month", "`every 3 weeks`"),
    "kale every 0 days": ("every 0", "`every 3 weeks`"),
    "kale every": ("every", "`every 3 weeks`"),
    "kale sown every 3 weeks": ("sown every", "`sown direct every …`"),
    "kale planted 1 May every week from June": ("kale", "`every 3 weeks 1 March to 1 August`"),
    # covers and between
    "tomatoes under glass": ("under glass", "`under: unheated glass`"),
    "tomatoes with fleece": ("with fleece", "Write `under fleece`."),
    "kale under fleece under mesh": ("under mesh", "Keep one of them."),
    "kale under fleece for ages": ("for ages", "`under fleece for 5 weeks`"),
    "lettuce between": ("lettuce between", "`tomatoes, lettuce between`"),
    "lettuce between April and June": ("and June", "`lettuce April to June`"),
    "tomatoes with lettuce": ("with", "`lettuce between`"),
    "tomatoes, lettuce between between": ("between", "Leave one out."),
    # rest
    "maybe nothing": ("nothing", "without `maybe`"),
    "kale, nothing": ("nothing", "Write `then nothing`"),
    "nothing and lettuce": ("and lettuce", "`nothing till September`"),
    "nothing till": ("till", "`till mid-April`"),
    "something quick till June": ("till June", "date that one"),
    "something else": ("something", "`then something quick`"),
    "kale, then fallow": ("fallow", "`nothing till September`"),
}

ALSO = {
    "60 lettuce 1 March": "lettuce amount=60 plants sown=1/3",
    "60 lettuce from March": "lettuce amount=60 plants sown=1/3",
    "lettuce sown every week April to May": "lettuce every 7 d 1/4..31/5 end",
    "60 lettuce 1 March every 2 weeks": "lettuce amount=60 plants every 14 d 1/3..?",
    "20 lettuce and 30 kale 1 March": "lettuce amount=20 plants sown=1/3 & kale amount=30 plants sown=1/3",
}

REFUSED_ALSO = {
    "60 lettuce March to August": "lettuce",
    "60 lettuce 1 March, then 20 kale": "20 kale",
    "2 m of lettuce": "lettuce",
    "60 lettuce there": "lettuce",
    "60 lettuce sown direct 1 March": "lettuce",
    "60 lettuce 1 March under fleece": "lettuce",
    "60 lettuce when free": "lettuce",
    "leeks, lettuce between": "lettuce",
    "nothing": "nothing",
    "lettuce 1 March 1 April": "1 April",
    "60 lettuce sown 1 March, planted 10 April": "lettuce",
}


@pytest.mark.parametrize(("line", "expected"), READ.items())
def test_read(line: str, expected: str) -> None:
    plan, mistakes = read(line)
    assert mistakes == []
    assert plan is not None
    assert told(plan) == expected


@pytest.mark.parametrize(("line", "expected"), REFUSED.items())
def test_refused_once_with_a_cure(line: str, expected: tuple[str, str]) -> None:
    plan, mistakes = read(line)
    assert plan is None
    (mistake,) = mistakes
    words, cure = expected
    assert marked(mistake) == words
    assert cure in in_english.cure(mistake)


@pytest.mark.parametrize(("line", "expected"), ALSO.items())
def test_read_in_sow_also(line: str, expected: str) -> None:
    plan, mistakes = read(line, also=True)
    assert mistakes == []
    assert plan is not None
    assert told(plan) == expected


@pytest.mark.parametrize(("line", "words"), REFUSED_ALSO.items())
def test_refused_in_sow_also(line: str, words: str) -> None:
    plan, mistakes = read(line, also=True)
    assert plan is None
    (mistake,) = mistakes
    assert marked(mistake) == words


def test_every_mistake_of_a_line_is_told() -> None:
    _, mistakes = read("letuce 1 April, then kale 31 June and leeks till spring, then onions, then peas week 54")
    assert [marked(m) for m in mistakes] == ["letuce", "31 June", "spring", "onions", "week 54"]


def test_a_step_knows_its_place() -> None:
    plan, _ = read("kale, then leeks 1 May, lettuce between")
    assert plan is not None
    spots = [step.spot for step in plan.steps]
    assert [s.excerpt[s.column - 1 :][: s.length] for s in spots] == ["kale", "leeks 1 May, lettuce between"]


def test_a_bare_date_is_told_from_one_with_a_verb() -> None:
    plan, _ = read("kale 1 May, then leeks planted 1 July")
    assert plan is not None
    assert [step.items[0].bare for step in plan.steps] == [True, False]
