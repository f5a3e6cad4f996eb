"""Daily records as they come: every form that is read, and every flaw that is told or refused."""

from __future__ import annotations

from datetime import date, timedelta

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sowsheet.site.record import decoded
from tests import in_english
from tests.site.weather import days, lines, low_c, read

HEAD = "date,tmin (C),tmax (C)"
SHORT = "a short record: 3 years; frost dates want 10 years, better 30"


def test_a_plain_record() -> None:
    found = read([HEAD, *lines()])
    assert found.sound.days == tuple(days(date(2001, 1, 1), date(2003, 12, 31)))
    assert found.sound.min_c[0] == low_c(date(2001, 1, 1))
    assert found.sound.max_c[0] == pytest.approx(low_c(date(2001, 1, 1)) + 8)
    assert found.noticed == (SHORT,)


@pytest.mark.parametrize(
    "head",
    [
        "Date,TMIN,TMAX",
        "day,tn,tx",
        "datum,Tmin,Tmax",
        "tm,minTa,maxTa",
        "time,temperature_2m_min (°C),temperature_2m_max (°C)",
        "DATE,Minimum temperature (Degree C),Maximum temperature (Degree C)",
        "Date,Min Temp [C],Max Temp [C]",
        "date,temp_min,temp_max",
        "date,MinTemp,MaxTemp",
        "date,T_min_degC,T_max_degC",
        "MESS_DATUM,TNK,TXK",
        "date,low,high",
        "# date,tmin_c,tmax_c",
        "\ufeffdate,tmin,tmax",
        '"date","tmin","tmax"',
        "date,tasmin,tasmax",
        "date,Daily minimum temperature deg C,Daily maximum temperature deg C",
        "date,TminC,TmaxC",
    ],
)
def test_names_of_columns_in_the_wild(head: str) -> None:
    found = read([head, *lines()]).sound
    assert len(found.days) == 1095
    assert found.min_c[0] == low_c(date(2001, 1, 1))
    assert found.max_c[0] > found.min_c[0]


@pytest.mark.parametrize("separator", [",", ";", "\t", "  "])
def test_separators(separator: str) -> None:
    text = [HEAD.replace(",", separator), *lines(separator=separator)]
    assert read(text).sound == read([HEAD, *lines()]).sound


def test_decimal_commas() -> None:
    text = ["Datum;Tmin;Tmax", *(line.replace(".", ",") for line in lines(separator=";"))]
    assert read(text).sound == read([HEAD, *lines()]).sound
    quoted = [HEAD, *(",".join(f'"{f}"' for f in line.replace(".", ",").split(";")) for line in lines(separator=";"))]
    assert read(quoted).sound == read([HEAD, *lines()]).sound


def test_decimal_commas_between_commas_are_refused_with_the_cure() -> None:
    mistake = read([HEAD, *(line.replace(".", ",") for line in lines())]).mistake
    assert mistake.spot.line == 2
    assert "semicolons" in in_english.cure(mistake)


def test_windows_and_spreadsheet_encodings() -> None:
    text = "\r\n".join(["Datum;Tmin (°C);Tmax (°C)", *lines(separator=";")])
    for data in (text.encode("cp1252"), text.encode("utf-16"), text.encode("utf-8-sig")):
        assert read(decoded(data)).sound == read([HEAD, *lines()]).sound


def test_lines_above_the_names_and_notes_below() -> None:
    text = ["Station Tern Hollow; 52.4 N", "# daily values", "", HEAD, *lines(), "", "# end"]
    found = read(text)
    assert found.sound == read([HEAD, *lines()]).sound
    assert found.noticed == (SHORT,)


def test_year_month_and_day_in_columns_of_their_own() -> None:
    text = ["Day Month Year Tmin(C) Tmax(C) Rain"]
    text += [
        f"{d.day} {d.month} {d.year} {low_c(d)} {low_c(d) + 8:.1f} 0"
        for d in days(date(2001, 1, 1), date(2003, 12, 31))
    ]
    assert read(text).sound == read([HEAD, *lines()]).sound


@pytest.mark.parametrize(
    "form",
    ["%Y-%m-%d", "%Y/%m/%d", "%Y%m%d", "%d/%m/%Y", "%m/%d/%Y", "%d.%m.%Y", "%m-%d-%Y", "%d %b %Y", "%Y-%m-%dT00:00"],
)
def test_forms_of_dates(form: str) -> None:
    text = [HEAD, *lines(shown=lambda d: d.strftime(form))]
    assert read(text).sound == read([HEAD, *lines()]).sound


def test_dates_that_could_be_either_way_are_refused_with_the_cure() -> None:
    few = [line for line in lines(shown=lambda d: d.strftime("%d/%m/%Y")) if int(line[:2]) <= 12]
    mistake = read([HEAD, *few]).mistake
    assert "day or month stands first" in in_english.what(mistake)
    assert "2020-12-31" in in_english.cure(mistake)


def test_dates_of_both_orders_are_refused_with_a_line_of_each() -> None:
    mixed = [
        *lines(last=date(2002, 6, 30), shown=lambda d: d.strftime("%d/%m/%Y")),
        *lines(first=date(2002, 7, 1), shown=lambda d: d.strftime("%m/%d/%Y")),
    ]
    mistake = read([HEAD, *mixed]).mistake
    assert mistake.spot.line == 560
    assert mistake.spot.excerpt.startswith("07/13/2002")
    assert "Line 14 has the day first" in in_english.cure(mistake)


def test_years_in_two_figures_are_refused() -> None:
    mistake = read([HEAD, *lines(shown=lambda d: d.strftime("%d/%m/%y"))]).mistake
    assert mistake.spot.line == 2
    assert "two figures" in in_english.what(mistake)


def with_line(number: int, text: str) -> list[str]:
    """The record with another text in one line, counted from 1."""
    found = [HEAD, *lines()]
    found[number - 1] = text
    return found


@pytest.mark.parametrize(
    ("bad", "told"),
    [
        ("2001-07-18,,20.0", "the minimum is missing"),
        ("2001-07-18,-999,20.0", "the minimum is missing"),
        ("2001-07-18,NA,20.0", "the minimum is missing"),
        ("2001-07-18", "the minimum is missing"),
        ("2001-07-18,-99.9,20.0", "the minimum is missing"),
        ("2001-07-18,-72,20.0", "colder than -60 C"),
        ("2001-07-18,-57.8,20.0", "more than 30 C from those of the days around it"),
        ("2001-07-18,1O.2,20.0", "no number"),
        ("2001-02-30,12.0,20.0", "without a date"),
        ("mean,12.0,20.0", "without a date"),
        ("2001-07-18,22.0,20.0", "the minimum lies above the maximum"),
        ("2001-07-17,12.0,20.0", "the day stood before"),
        ("2001-07-18,1,2,3,4", "more fields than columns"),
    ],
)
def test_a_bad_line_is_left_out_and_told_with_its_number(bad: str, told: str) -> None:
    found = read(with_line(200, bad))  # 18 July 2001
    assert date(2001, 7, 18) not in found.sound.days
    assert len(found.sound.days) == 1094
    sentence = next(said for said in found.noticed if told in said)
    assert sentence.startswith("1 line left out")
    assert sentence.endswith("line 200")
    assert "1 day of 1095 missing between the first and the last" in found.noticed


def test_an_absurd_maximum_costs_only_the_maximum() -> None:
    found = read(with_line(200, "2001-07-18,12.0,200.5"))
    at = found.sound.days.index(date(2001, 7, 18))
    assert found.sound.min_c[at] == 12.0
    assert found.sound.max_c[at] != found.sound.max_c[at]
    assert any("without the maximum" in said and said.endswith("line 200") for said in found.noticed)


def test_many_bad_lines_are_grouped() -> None:
    text = [HEAD, *lines()]
    for n in (*range(40, 46), 100, 101, *range(200, 260, 3)):
        text[n - 1] = text[n - 1].split(",")[0] + ",,"
    (said,) = [s for s in read(text).noticed if "missing:" in s]
    assert said == (
        "28 lines left out, the minimum is missing: "
        "lines 40 to 45, 100 and 101, 200, 203, 206, 209, 212, 215 and 14 more"
    )


def test_dates_out_of_order_are_sorted_and_doubles_dropped() -> None:
    body = lines()
    found = read([HEAD, *body[500:], *body[:501]])
    assert found.sound == read([HEAD, *body]).sound
    assert any("not in order" in said for said in found.noticed)
    assert any("the day stood before" in said for said in found.noticed)


def test_hourly_records_are_refused() -> None:
    mistake = read([HEAD, *(line for line in lines() for _ in range(4))]).mistake
    assert "4380 lines for 1095 days" in in_english.what(mistake)


def test_swapped_columns_are_read_the_other_way_round() -> None:
    found = read(["date,tmax (C),tmin (C)", *lines()])
    assert found.sound == read([HEAD, *lines()]).sound
    assert any("the other way round" in said for said in found.noticed)


def test_minima_above_maxima_here_and_there_are_refused() -> None:
    text = [HEAD, *lines()]
    for n in range(2, 600, 2):
        day, low, high = text[n].split(",")
        text[n] = f"{day},{high},{low}"
    assert "the minimum lies above the maximum" in in_english.what(read(text).mistake)


@pytest.mark.parametrize(
    "head", ["date,Tmin (F),Tmax (F)", "date,tmin,tmax", "date,tmin_f,tmax_f", "date,TMIN (Degrees Fahrenheit),TMAX"]
)
def test_fahrenheit(head: str) -> None:
    found = read([head, *lines(fahrenheit=True)])
    assert found.sound.min_c == pytest.approx([low_c(d) for d in found.sound.days], abs=0.03)
    told = [said for said in found.noticed if "degrees F" in said]
    assert bool(told) is (head == "date,tmin,tmax")


def test_celsius_by_the_values_is_told_too() -> None:
    assert "no unit is named; by the values these are degrees C" in read(["date,tmin,tmax", *lines()]).noticed


def test_a_winter_that_could_be_in_either_is_refused_and_read_with_the_unit() -> None:
    winter = ["date,tmin,tmax", *lines(date(2001, 1, 1), date(2001, 2, 28), fahrenheit=True)]
    mistake = read(winter).mistake
    assert mistake.spot.line == 1
    assert "in C or in F" in in_english.what(mistake)
    assert "--unit F" in in_english.cure(mistake)
    assert read(winter, "F").sound.min_c[0] == pytest.approx(low_c(date(2001, 1, 1)), abs=0.03)
    assert read(winter, "C").sound.min_c[0] > 20


def test_a_head_that_the_values_contradict_is_refused() -> None:
    assert "look like F" in in_english.what(read([HEAD, *lines(fahrenheit=True)]).mistake)
    assert "look like C" in in_english.what(read(["date,tmin (F),tmax (F)", *lines()]).mistake)


def test_minima_alone() -> None:
    text = ["date,tmin", *(line.rsplit(",", 1)[0] for line in lines())]
    assert read(text).sound.min_c == read([HEAD, *lines()]).sound.min_c
    warm = ["date,tmin", *(line.rsplit(",", 1)[0] for line in lines(fahrenheit=True))]
    assert read(warm).sound.min_c == pytest.approx(read([HEAD, *lines()]).sound.min_c, abs=0.03)


def test_tenths_of_a_degree_and_kelvins() -> None:
    tenths = ["STN,YYYYMMDD,TN,TX"]
    span = days(date(2001, 1, 1), date(2003, 12, 31))
    tenths += [f"260,{d:%Y%m%d},{round(low_c(d) * 10)},{round(low_c(d) * 10) + 80}" for d in span]
    found = read(tenths)
    assert found.sound.min_c == pytest.approx([low_c(d) for d in span])
    assert any("tenths" in said for said in found.noticed)
    kelvin = ["date,tmin,tmax", *(f"{d},{low_c(d) + 273.15:.2f},{low_c(d) + 281.15:.2f}" for d in span)]
    assert "kelvins" in in_english.what(read(kelvin).mistake)


def test_a_missing_month_and_a_short_record_are_told() -> None:
    kept = [line for line in lines() if line[:7] not in {"2001-03", "2002-09", "2002-10"}]
    assert "no day at all in March 2001 and September 2002 to October 2002" in read([HEAD, *kept]).noticed
    assert SHORT in read([HEAD, *kept]).noticed
    assert any("7 months" in said for said in read([HEAD, *lines(last=date(2001, 7, 30))]).noticed)


@pytest.mark.parametrize(
    ("text", "what"),
    [
        ("", "empty"),
        ("\n \n", "empty"),
        ("2001-01-01,1,2\n2001-01-02,1,2", "no line names the columns"),
        ("date,rain\n2001-01-01,1", "no column of minimum temperatures"),
        ("tmin,tmax\n1,2", "no column of dates"),
        (HEAD, "no day stands below"),
        (f"{HEAD}\nx,y,z", "no date that can be read"),
        (f"{HEAD}\n2001-01-01,,4", "no line has both"),
        (f"{HEAD}\n2001-01-01,warm,4", "no number"),
        ("date,tmin,min temp,tmax\n2001-01-01,1,1,4", "could both be the minimum"),
        (f"{HEAD}\n" + "\n".join(f"2001-01-{n:02d},500,501" for n in range(1, 20)), "colder than -60 C or warmer"),
    ],
)
def test_what_cannot_be_read_is_one_mistake_with_a_line_and_a_cure(text: str, what: str) -> None:
    mistake = read(text).mistake
    assert what in in_english.what(mistake)
    assert mistake.spot.line >= 1
    assert in_english.cure(mistake)


@pytest.mark.parametrize("lows", [(61,), (-50, -50, 50, 50)])
def test_when_nothing_is_left_it_is_a_mistake(lows: tuple[int, ...]) -> None:
    text = [HEAD, *(f"2001-01-0{n},{low}," for n, low in enumerate(lows, 1))]
    assert "no line holds a day" in in_english.what(read(text, "C").mistake)


def test_of_two_minima_the_one_in_celsius_is_read() -> None:
    found = read(["date,tmin_f,tmin_c,tmax_c", *(line.replace(",", ",99,", 1) for line in lines())])
    assert found.sound == read([HEAD, *lines()]).sound
    assert any("`tmin_c`, in C, is read" in said for said in found.noticed)


CELL = st.one_of(
    st.text(max_size=8),
    st.sampled_from(["", "2001-01-01", "13/13/2020", "01/02/2003", "-72", "1e999", "3,4", '"', "NaN", "20201231", "٣"]),
    st.dates().map(str),
    st.floats(allow_nan=False).map(str),
)


@given(st.text(max_size=300))
def test_no_text_crashes_it(text: str) -> None:
    found = read(text)
    assert (found.record is None) == bool(found.mistakes)


@settings(max_examples=60)
@given(
    st.sampled_from([HEAD, "date;tmin", "year month day tmin tmax", "datum\ttn\ttx", "date,tmin (F)"]),
    st.lists(st.tuples(CELL, CELL, CELL, CELL, CELL), max_size=30),
    st.sampled_from([",", ";", "\t", " "]),
    st.sampled_from(["", "C", "F"]),
)
def test_no_record_crashes_it(head: str, cells: list[tuple[str, ...]], separator: str, unit: str) -> None:
    found = read([head, *(separator.join(row[: head.count(separator) + 1]) for row in cells)], unit)  # type: ignore[arg-type]
    assert (found.record is None) == bool(found.mistakes)
    if found.record is not None:
        assert list(found.record.days) == sorted(set(found.record.days))
        assert all(-60 <= low <= 60 for low in found.record.min_c)
        assert len(found.record.days) == len(found.record.min_c) == len(found.record.max_c)


@settings(max_examples=30)
@given(st.lists(st.integers(0, 1094), max_size=60), st.randoms(use_true_random=False))
def test_whatever_is_blank_or_shuffled_the_rest_is_kept(blank: list[int], order: object) -> None:
    body = lines()
    for n in set(blank):
        body[n] = body[n].split(",")[0] + ",,"
    order.shuffle(body)  # type: ignore[attr-defined]
    found = read([HEAD, *body]).sound
    gone = {date(2001, 1, 1) + timedelta(days=n) for n in blank}
    assert set(found.days) == set(days(date(2001, 1, 1), date(2003, 12, 31))) - gone
