"""Growers' dates: what they mean, and why others are refused."""

from __future__ import annotations

import pytest

from sowsheet.reading.date_words import parse_date, parse_span
from sowsheet.reading.mistakes import Mistake
from tests import in_english
from tests.reading.book import day, marked, scalar

READ = {
    "12 April": "12/4",
    "April 12": "12/4",
    "April 12th, 2027": "12/4/2027",
    "12th of April": "12/4",
    "the 12th of April": "12/4",
    "1st April": "1/4",
    "12. April": "12/4",
    "Apr 12": "12/4",
    "12 Apr 2027": "12/4/2027",
    "12-Apr-2027": "12/4/2027",
    "3 Sept.": "3/9",
    "on 12 APRIL": "12/4",
    "2027-04-12": "12/4/2027",
    "29 February": "29/2",
    "early May": "5/5 third",
    "mid May": "15/5 third",
    "mid-May": "15/5 third",
    "middle of May": "15/5 third",
    "late May 2028": "25/5/2028 third",
    "late in May": "25/5 third",
    "start of May": "1/5",
    "the beginning of May": "1/5",
    "end of May": "31/5 end",
    "end June": "30/6 end",
    "end of February": "29/2 end",
    "May": "15/5 month",
    "May 2028": "15/5/2028 month",
    "week 16": "week 16",
    "wk 16": "week 16",
    "wk16": "week 16",
    "week 16 2028": "week 16 of 2028",
    "week 16 of 2028": "week 16 of 2028",
    "2028-W16": "week 16 of 2028",
    "week 53": "week 53",
    "last frost": "last frost",
    "the last frost": "last frost",
    "after the last frost": "last frost",
    "last spring frost": "last frost",
    "3 weeks before last frost": "last frost -21",
    "3weeks before the last frost": "last frost -21",
    "10 days after first frost": "first frost +10",
    "a week after midsummer": "midsummer +7",
    "two weeks after midsummer's day": "midsummer +14",
    "twelve days before the longest day": "midsummer -12",
    "fortnight after shortest day": "shortest day +14",
    "a fortnight after the shortest day": "shortest day +14",
    "longest day": "midsummer",
    "shortest day": "shortest day",
    "day length 10 h": "day length 10 h next",
    "day length of 9.5 hours": "day length 9.5 h next",
    "day length rises to 10 h": "day length 10 h rising",
    "the day length falls to 10h": "day length 10 h falling",
    "day length falls below 10 h": "day length 10 h falling",
    "day length 10 h rising": "day length 10 h rising",
    "2 weeks before day length rises to 10 h": "day length 10 h rising -14",
}

REFUSED = {
    "10/7": ("10/7", "`10 July` or `7 October`"),
    "10.7.": ("10.7.", "`10 July` or `7 October`"),
    "10-7": ("10-7", "`10 July` or `7 October`"),
    "10/7/2027": ("10/7/2027", "`10 July 2027` or `7 October 2027`"),
    "25/7": ("25/7", "`25 July`"),
    "7/7": ("7/7", "`7 July`"),
    "45/77": ("45/77", "`12 April`"),
    "31 June": ("31 June", "`30 June` or `1 July`"),
    "30 February": ("30 February", "`28 February` or `1 March`"),
    "0 May": ("0 May", "`1 May`"),
    "May 45": ("May 45", "`12 May`"),
    "2027-13-01": ("2027-13-01", "`2027-04-12`"),
    "2027-02-30": ("2027-02-30", "`28 February`"),
    "week 54": ("week 54", "`week 16`"),
    "week 0": ("week 0", "`week 16`"),
    "week": ("week", "`2 weeks after last frost`"),
    "spring": ("spring", "`mid-April`"),
    "Summer": ("Summer", "`mid-July`"),
    "early autumn": ("early autumn", "`mid-October`"),
    "mid-winter": ("mid-winter", "`mid-January`"),
    "ASAP": ("ASAP", "Leave the date out"),
    "as soon as possible": ("as soon as possible", "Leave the date out"),
    "tomorrow": ("tomorrow", "`12 April`"),
    "Today": ("Today", "`12 April`"),
    "Tuesday": ("Tuesday", "`week 16`"),
    "next week": ("next week", "`week 16`"),
    "frost": ("frost", "`last frost` or `first frost`"),
    "before last frost": ("before last frost", "`1 week before last frost`"),
    "3 weeks": ("3 weeks", "`2 weeks after last frost`"),
    "3 weeks before": ("3 weeks before", "`2 weeks after last frost`"),
    "1.5 weeks after last frost": ("1.5 weeks after last frost", "`10 days after last frost`"),
    "900 days after last frost": ("900 days after last frost", "`10 days after last frost`"),
    "900 days after": ("900 days after", "`10 days after last frost`"),
    "two months before last frost": ("two months", "`4 weeks before last frost`"),
    "2 weeks after 1 May": ("2 weeks after 1 May", "`15 May`"),
    "1 week before 3 March": ("1 week before 3 March", "`24 February`"),
    "first week of May": ("first week of May", "`early May`"),
    "the last week in May": ("the last week in May", "`late May`"),
    "end of the season": ("end of the", "`end of May`"),
    "day length": ("day length", "`day length 10 h`"),
    "day length 10": ("day length 10", "`day length 10 h`"),
    "day length 9,5 h": ("day length 9,5", "`9.5`"),
    "day length 25 h": ("day length 25 h", "`day length 10 h`"),
    "whenever it suits": ("whenever", "`12 April`"),
    "lettuce": ("lettuce", "`12 April`"),
    "12 April or so": ("or so", "Leave it out."),
    "": ("N", "`12 April`"),
}


@pytest.mark.parametrize(("text", "expected"), READ.items())
def test_read(text: str, expected: str) -> None:
    mistakes: list[Mistake] = []
    dated = parse_date(scalar(text), mistakes)
    assert mistakes == []
    assert dated is not None
    assert day(dated.date) == expected
    assert dated.text in text


@pytest.mark.parametrize(("text", "words", "cure"), [(t, *e) for t, e in REFUSED.items()])
def test_refused_with_a_cure(text: str, words: str, cure: str) -> None:
    mistakes: list[Mistake] = []
    assert parse_date(scalar(text, before=""), mistakes) is None
    (mistake,) = mistakes
    assert marked(mistake) == (words if text else "")
    assert cure in in_english.cure(mistake)


@pytest.mark.parametrize(
    ("text", "start", "until"),
    [
        ("from March to June", "1/3", "30/6 end"),
        ("March to June", "1/3", "30/6 end"),
        ("from March till June", "1/3", "1/6"),
        ("late March – 1 June", "25/3 third", "1/6"),
        ("from 1 May", "1/5", None),
        ("till June", None, "1/6"),
        ("until the first frost", None, "first frost"),
    ],
)
def test_spans(text: str, start: str | None, until: str | None) -> None:
    mistakes: list[Mistake] = []
    span = parse_span(scalar(text), mistakes)
    assert mistakes == []
    assert span is not None
    assert [d and day(d.date) for d in span] == [start, until]


@pytest.mark.parametrize(
    "text", ["from", "from March to", "from spring", "March June", "to", "", "from 31 June to July"]
)
def test_spans_refused_once(text: str) -> None:
    mistakes: list[Mistake] = []
    assert parse_span(scalar(text), mistakes) is None
    assert len(mistakes) == 1
