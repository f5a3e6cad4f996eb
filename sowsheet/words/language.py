"""A reader's language: phrases by key, numbers, dates and counts in its own form. Nothing asks the machine's locale.

Phrases stand in one file a language beside this module, as three YAML documents: what is printed and shown; what is
told when something is to be mended or help is asked for, read only then; and the words of crops. What a language's
grammar wants (plural forms, names of months and days, signs of numbers) is Babel's, from the Unicode CLDR.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Mapping, Sequence
from datetime import date, timedelta
from functools import cache, cached_property
from pathlib import Path
from typing import TYPE_CHECKING

import msgspec
import yaml

from sowsheet.reading.mistakes import Said

if TYPE_CHECKING:
    from babel.core import Locale

Phrase = str | dict[str, str]  # a sentence with {parts}; or its forms by plural category, chosen by the part {n}

FOLDER = Path(__file__).parent
LANGUAGES = ("en", "en-US", "pl", "es")
OUNCE_G, CUBIC_FOOT_L = 28.3495, 28.3168
LEAST_OZ, LEAST_G = 0.1, 0.01
_FRACTIONS = {1: "⅛", 2: "¼", 3: "⅜", 4: "½", 5: "⅝", 6: "¾", 7: "⅞"}


class Language(msgspec.Struct, frozen=True, dict=True, eq=False):
    """A language by its tag (BCP 47), its phrases by their keys, and the words of crops that are not in `crops/`.

    `unread` are the YAML texts of phrases that few commands want; a later one says otherwise what an earlier one says.
    """

    tag: str
    phrases: dict[str, Phrase]
    crops: dict[str, object] = {}
    unread: tuple[str, ...] = ()

    @cached_property
    def rare(self) -> dict[str, Phrase]:
        """The phrases that are only read when one of them is wanted: of mistakes and of `--help`."""
        return {key: phrase for text in self.unread for key, phrase in _flat(_yaml(text))}

    @cached_property
    def _locale(self) -> Locale:
        from babel.core import Locale  # noqa: PLC0415

        return Locale.parse(self.tag, sep="-")

    @cached_property
    def _plural(self) -> dict[float, str]:
        """The plural category of each number that was asked for."""
        return {}

    @property
    def file_tag(self) -> str:
        """The tag that a file carries: English without a country is British."""
        return "en-GB" if self.tag == "en" else self.tag

    @property
    def english(self) -> bool:
        """Whether the crop files' own words are this language's."""
        return self.tag.partition("-")[0] == "en"

    def say(self, key: str, /, **parts: object) -> str:
        """The phrase of a key, its parts put in. A phrase with plural forms goes by the part `n`.

        Numbers with a fraction take the language's sign. Raises KeyError for a key or a part that is not there.
        """
        phrase = self.phrases[key] if key in self.phrases else self.rare[key]
        if not isinstance(phrase, str):
            phrase = phrase[self._category(parts["n"])]
        if not parts:
            return phrase
        return phrase.format_map({k: self.plain(v) if isinstance(v, float) else v for k, v in parts.items()})

    def tell(self, said: Said | str) -> str:
        """A phrase that waited for its language, with the phrases among its parts."""
        if isinstance(said, str):
            return said
        return self.say(said.key, **{name: self._part(name, value) for name, value in said.parts})

    def _part(self, name: str, value: object) -> object:
        """A part as it is put in: one whose name begins with a capital begins a sentence."""
        told = self.tell(value) if isinstance(value, Said) else value
        return capital(told) if name[:1].isupper() and isinstance(told, str) else told

    def _category(self, number: object) -> str:
        assert isinstance(number, int | float)  # a key's plural goes by a number: anything else is a bug
        found = self._plural.get(number)
        if found is None:
            found = self._plural[number] = self._locale.plural_form(number)
        return found

    # --- numbers

    @cached_property
    def _point(self) -> str:
        return str(self._locale.number_symbols["latn"]["decimal"])

    def plain(self, amount: float, digits: int = 6) -> str:
        """12; 8.5: no thousands, no needless zeros."""
        said = f"{amount:.{digits}g}"
        return said if "." not in said else said.replace(".", self._point)

    def fixed(self, amount: float, digits: int) -> str:
        """8.50: so many digits behind the sign."""
        return f"{amount:.{digits}f}".replace(".", self._point)

    def number(self, amount: float) -> str:
        """1,250; 8.5"""
        if amount < 1000:
            return f"{amount:.0f}" if amount == int(amount) else self.fixed(amount, 1)
        from babel.numbers import format_decimal  # noqa: PLC0415

        return str(format_decimal(amount, "#,##0.#" if amount != int(amount) else "#,##0", locale=self._locale))

    def count(self, number: float, noun: str) -> str:
        """1 tray, 2 trays: the noun is a key of `count`."""
        return self.say(f"count.{noun}", n=number)

    def nth(self, place: int) -> str:
        """1st, 2nd, 3rd, 4th, 11th"""
        forms = self.phrases["nth"]
        form = forms if isinstance(forms, str) else forms[self._locale.ordinal_form(place)]
        return form.format(n=place)

    def percent(self, share: float) -> str:
        """10 %; 2.4 %; under 0.1 %"""
        hundredths = share * 100
        if hundredths >= 9.95:
            return self.say("number.percent", n=round(hundredths))
        if hundredths >= 0.05:
            return self.say("number.percent", n=round(hundredths, 1))
        return self.say("number.least percent", n=0.1)

    def years_in(self, chance: float, what: str = "year") -> str:
        """A chance as growers say it: 1 spring in 3, 8 springs in 10, nearly every spring."""
        if chance > 0.95:
            return self.say(f"chance.{what}.nearly every")
        if chance >= 0.55:
            return self.say(f"chance.{what}.in ten", n=round(chance * 10))
        return self.say(f"chance.{what}.one in", n=max(2, round(1 / max(chance, 0.001))))

    # --- lists

    def listed(self, words: Sequence[str], last: str = "and") -> str:
        """a, b and c; `last` is `and` or `or`."""
        if len(words) < 2:
            return "".join(words)
        return self.say(f"list.{last}", first=", ".join(words[:-1]), last=words[-1])

    # --- dates

    @cached_property
    def months(self) -> tuple[str, ...]:
        """The months as they stand alone, January first."""
        return self._names(self._locale.months["stand-alone"]["wide"], range(1, 13))

    @cached_property
    def months_short(self) -> tuple[str, ...]:
        """The months cut short, as they stand alone."""
        return self._names(self._locale.months["stand-alone"]["abbreviated"], range(1, 13))

    @cached_property
    def weekdays(self) -> tuple[str, ...]:
        """Monday first."""
        return self._names(self._locale.days["stand-alone"]["wide"], range(7))

    @cached_property
    def weekdays_short(self) -> tuple[str, ...]:
        """Mon first."""
        return self._names(self._locale.days["stand-alone"]["abbreviated"], range(7))

    @cached_property
    def weekdays_narrow(self) -> tuple[str, ...]:
        """M, T, W, T, F, S, S: Monday first."""
        return self._names(self._locale.days["stand-alone"]["narrow"], range(7))

    @cached_property
    def _of_months(self) -> tuple[str, ...]:
        """The months as they stand in a date."""
        return self._names(self._locale.months["format"]["wide"], range(1, 13))

    @cached_property
    def _of_months_short(self) -> tuple[str, ...]:
        """The same cut short; one too short to be cut stays whole, in the case that a date wants: 4 maja."""
        cut = self._names(self._locale.months["format"]["abbreviated"], range(1, 13))
        both = zip(cut, self.months, self._of_months, strict=True)
        return tuple(of_date if short == alone else short for short, alone, of_date in both)

    @staticmethod
    def _names(names: Mapping[int, str], keys: range) -> tuple[str, ...]:
        return tuple(names[key] for key in keys)

    def day_month(self, day: date) -> str:
        """30 May"""
        return self.say("date.day month", day=day.day, month=self._of_months[day.month - 1])

    def day_month_year(self, day: date) -> str:
        """30 May 2027"""
        return self.say("date.with year", date=self.day_month(day), year=day.year)

    def day_long(self, day: date) -> str:
        """Monday 1 March 2027"""
        return self.say("date.with weekday", weekday=self.weekdays[day.weekday()], date=self.day_month_year(day))

    def day_in(self, day: date, year: int) -> str:
        """30 May, with its year when that is another than the one spoken of."""
        return self.day_month(day) if day.year == year else self.day_month_year(day)

    def day_named(self, day: date) -> str:
        """Monday 1 March"""
        return self.say("date.with weekday", weekday=self.weekdays[day.weekday()], date=self.day_month(day))

    def day_short(self, day: date) -> str:
        """Mon 1 Mar"""
        return self.say("date.with weekday", weekday=self.weekdays_short[day.weekday()], date=self.day_brief(day))

    def day_brief(self, day: date) -> str:
        """1 Mar"""
        return self.say("date.brief", day=day.day, month=self._of_months_short[day.month - 1])

    def month_year(self, day: date) -> str:
        """May 2027"""
        return self.say("date.month year", month=self.months[day.month - 1], year=day.year)

    def week_span(self, monday: date) -> str:
        """Monday 1 to Sunday 7 March 2027; month and year are said twice only where they differ."""
        sunday = monday + timedelta(days=6)
        if monday.year != sunday.year:
            start = self.day_long(monday)
        elif monday.month != sunday.month:
            start = self.day_named(monday)
        else:
            return self.say(
                "date.week in month",
                monday=self.weekdays[0],
                sunday=self.weekdays[6],
                first=monday.day,
                last=sunday.day,
                month=self._of_months[monday.month - 1],
                year=monday.year,
            )
        return self.say("date.week over months", start=start, end=self.day_long(sunday))

    def weeks_listed(self, mondays: Sequence[date]) -> str:
        """week 9; weeks 9 and 10; weeks 9 to 12 and 15"""
        runs: list[list[date]] = []
        for monday in mondays:
            if runs and monday - runs[-1][-1] == timedelta(weeks=1):
                runs[-1].append(monday)
            else:
                runs.append([monday])
        said: list[str] = []
        for run in runs:
            numbers = [str(monday.isocalendar().week) for monday in run]
            said += [self.say("date.span", start=numbers[0], end=numbers[-1])] if len(numbers) > 2 else numbers
        key = "date.one week" if len(mondays) == 1 else "date.weeks"
        return self.say(key, weeks=self.listed(said))

    def span_of_days(self, low: float, high: float) -> str:
        """14 to 28 days in the unit that growers use: 2 to 4 weeks."""
        unit = "day"
        if low % 7 == 0 and high % 7 == 0 and low >= 14:
            low, high, unit = low / 7, high / 7, "week"
        if low == high:
            return self.count(round(high), unit)
        return self.say(f"span.{unit}", low=self.plain(low), high=self.plain(high), n=high)

    # --- measures

    def length(self, cm: float, imperial: bool = False) -> str:
        """30 cm, 1.2 m; or 12 in, 4 ft 6 in. Inches to the nearest quarter below 4, to the half below 12."""
        if not imperial:
            return f"{self.plain(round(cm / 100, 2))} m" if cm >= 100 else f"{self.plain(round(cm, 1))} cm"
        inches = cm / 2.54
        if inches >= 36:
            feet, rest = divmod(round(inches), 12)
            return f"{feet} ft {rest} in" if rest else f"{feet} ft"
        parts = 4 if inches < 4 else 2 if inches < 12 else 1
        return f"{_with_fraction(max(1, round(inches * parts)), parts)} in"

    def depth(self, mm: float, imperial: bool = False) -> str:
        """10 mm; or 3/8 in as one sign, to the nearest eighth."""
        if not imperial:
            return f"{round(mm):d} mm"
        return f"{_with_fraction(max(1, round(mm / 25.4 * 8)), 8)} in"

    def area(self, square_m: float, imperial: bool = False) -> str:
        """7.2 m²; or square feet."""
        return f"{square_m * 10.764:.0f} sq ft" if imperial else f"{self.plain(round(square_m, 1))} m²"

    def temp(self, c: float, fahrenheit: bool = False) -> str:
        """20 °C; or 68 °F."""
        return f"{self.plain(round(c * 9 / 5 + 32, 1))} °F" if fahrenheit else f"{self.plain(round(c, 1))} °C"

    def volume(self, litres: float, imperial: bool = False) -> str:
        """1,250 l; or cubic feet."""
        if not imperial:
            return f"{self.number(round(litres))} l"
        feet = litres / CUBIC_FOOT_L
        return f"{self.number(round(feet)) if feet >= 10 else self.fixed(feet, 1)} cu ft"

    def bulk(self, litres: float, imperial: bool = False) -> str:
        """1.3 m³; or cubic yards: as heaps are bought. What is no heap as `volume` says it: 25 l."""
        unit, heap_l = ("cu yd", CUBIC_FOOT_L * 27) if imperial else ("m³", 1000.0)
        return f"{self.fixed(litres / heap_l, 1)} {unit}" if litres >= heap_l / 10 else self.volume(litres, imperial)

    def weight(self, grams: float, imperial: bool = False) -> str:
        """6 g, 0.37 g, 1.2 kg, under 0.01 g; or ounces and pounds, but fine seed by the gram, as its packets are."""
        ounces = grams / OUNCE_G
        if imperial and ounces >= LEAST_OZ:
            return f"{self.fixed(ounces / 16, 1)} lb" if ounces >= 16 else f"{self._two_figures(ounces)} oz"
        if 0 < grams < LEAST_G:
            return self.say("number.least weight", n=LEAST_G)
        return f"{self.plain(round(grams / 1000, 1))} kg" if grams >= 1000 else f"{self._two_figures(grams)} g"

    def _two_figures(self, amount: float) -> str:
        return f"{amount:.0f}" if amount >= 10 else self.plain(amount, 2)

    # --- names

    def sort_key(self, name: str) -> str:
        """What a name is sorted by: ć comes after every c, but in Spanish á is an a and only ñ a letter of its own."""
        letters = unicodedata.normalize("NFD", name.casefold().replace("ł", "l\u0335"))
        return letters.replace("\u0301", "").replace("\u0308", "") if self.tag == "es" else letters

    def the(self, name: str) -> str:
        """`the airing shelf`, but `Glass 1`: a name that begins with a capital needs no article."""
        return name if name[:1].isupper() or name.startswith("the ") else self.say("name.the", name=name)

    @staticmethod
    def crop_name(word: str, kind_key: str, kind_name: str, note: str = "") -> str:
        """The crop in the grower's word, with its kind where the word leaves that open: winter lettuce.

        `note` is the grower's own (a sort, a colour) and is put in brackets. Only in English a kind's name is put
        together from its key: elsewhere a word that leaves the kind open gives way to its whole name (`batch_of`).
        """
        if not word:
            name = kind_name
        elif not kind_key or kind_key in word:
            name = word
        else:
            name = f"{word} {kind_key}" if kind_key.startswith(("from ", "for ")) else f"{kind_key} {word}"
        return f"{name} ({note})" if note else name

    def rows_of_cells(self, first: int, cells: int, across: int) -> str:
        """Which rows of a tray `cells` cells fill, from the `first` (0 is the tray's first), `across` to a row.

        rows 1 to 5; row 10; rows 1 to 4 and 3 cells of row 5; the rest of row 5 and row 6
        """
        said: list[str] = []
        full: list[int] = []
        at, end = first, first + cells
        while at < end:
            row, column = divmod(at, across)
            taken = min(end, (row + 1) * across) - at
            if taken == across:
                full.append(row + 1)
            elif column + taken == across:
                said.append(self.say("cells.rest of row", row=row + 1))
            else:
                if full:
                    said.append(self._rows(full))
                    full = []
                key = "cells.next of row" if column else "cells.of row"
                said.append(self.say(key, cells=self.count(taken, "cell"), row=row + 1))
            at += taken
        if full:
            said.append(self._rows(full))
        return self.listed(said)

    def _rows(self, rows: Sequence[int]) -> str:
        if len(rows) == 1:
            return self.say("cells.row", row=rows[0])
        return self.say("cells.rows", first=rows[0], last=rows[-1])

    def trays_of(self, trays: int, cells: int, name: str) -> str:
        """2 trays of 60; 1 tray of 18 (9 cm pots); 1 seed tray. The name is said where the cells do not say it."""
        if not cells:
            known = f"count.{name}" in self.phrases
            return self.count(trays, name) if known else self.say("trays.named", n=trays, name=name)
        said = self.say("trays.of", trays=self.count(trays, "tray"), cells=cells)
        plain = name.replace("-", " ") in {f"{cells} cell", f"{cells} cells", str(cells), f"{cells} cell tray"}
        plain = plain or name == self.tray_name(f"{cells}-cell")
        return said if plain else f"{said} ({self.tray_name(name)})"

    def tray_name(self, name: str) -> str:
        """What a kind of tray is called: the grower's own word, or the language's for one that is taken for granted."""
        key = f"tray name.{name}"
        return self.say(key) if key in self.phrases else name

    def spacing(self, in_row_cm: float, row_gap_cm: float, imperial: bool = False) -> str:
        """30 cm apart each way; 15 cm apart, rows 30 cm apart"""
        gap = self.length(in_row_cm, imperial)
        if in_row_cm == row_gap_cm:
            return self.say("space.each way", gap=gap)
        return self.say("space.in rows", gap=gap, rows=self.length(row_gap_cm, imperial))


def capital(text: str) -> str:
    """The text with its first letter a capital, as a line begins."""
    return text[:1].upper() + text[1:]


@cache
def language_of(tag: str) -> Language:
    """A language by its tag. A variant (`en-US`) says what it does not say otherwise as its language does.

    Raises KeyError for a tag that is not among `LANGUAGES`.
    """
    if tag not in LANGUAGES:
        raise KeyError(tag)
    base = tag.partition("-")[0]
    under = language_of(base) if base != tag else Language(base, {})
    first, rare, crops = (FOLDER / f"{tag}.yaml").read_text("utf-8").split("\n---\n")
    return Language(tag, {**under.phrases, **dict(_flat(_yaml(first)))}, _yaml(crops), (*under.unread, rare))


def _yaml(text: str) -> dict[str, object]:
    return yaml.load(text, yaml.CBaseLoader) or {}


_CATEGORIES = frozenset(("zero", "one", "two", "few", "many", "other"))


def _flat(node: Mapping[str, object], before: str = "") -> list[tuple[str, Phrase]]:
    """`jobs: {carry: {how: …}}` as `jobs.carry.how`. What holds an `other` is one phrase in its plural forms."""
    found: list[tuple[str, Phrase]] = []
    for name, value in node.items():
        key = f"{before}{name}"
        if isinstance(value, str) or (isinstance(value, dict) and value.keys() <= _CATEGORIES):
            found.append((key, value))
        elif isinstance(value, dict):
            found += _flat(value, f"{key}.")
    return found


def _with_fraction(parts: int, whole: int) -> str:
    """Quarters or eighths as a number with its fraction: 1½."""
    units, rest = divmod(parts * 8 // whole, 8)
    return f"{units or ''}{_FRACTIONS.get(rest, '')}"
