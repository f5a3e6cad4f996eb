"""English words for dates, counts and measures. Pure functions; nothing here asks the machine's locale."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, timedelta

MONTHS = (
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
)
WEEKDAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")


def day_month(day: date) -> str:
    """30 May"""
    return f"{day.day} {MONTHS[day.month - 1]}"


def day_month_year(day: date) -> str:
    """30 May 2027"""
    return f"{day_month(day)} {day.year}"


def day_long(day: date) -> str:
    """Monday 1 March 2027"""
    return f"{WEEKDAYS[day.weekday()]} {day_month_year(day)}"


def day_in(day: date, year: int) -> str:
    """30 May, with its year when that is another than the one spoken of."""
    return day_month(day) if day.year == year else day_month_year(day)


def count(number: int, one: str, many: str = "") -> str:
    """1 tray, 2 trays"""
    return f"{number} {one}" if number == 1 else f"{number} {many or one + 's'}"


def listed(words: Sequence[str], last: str = "and") -> str:
    """a, b and c"""
    if len(words) < 2:
        return "".join(words)
    return f"{', '.join(words[:-1])} {last} {words[-1]}"


def years_in(chance: float, what: str = "year") -> str:
    """A chance as growers say it: 1 spring in 3, 8 springs in 10, nearly every spring."""
    if chance > 0.95:
        return f"nearly every {what}"
    if chance >= 0.55:
        return f"{round(chance * 10)} {what}s in 10"
    return f"1 {what} in {max(2, round(1 / max(chance, 0.001)))}"


def day_named(day: date) -> str:
    """Monday 1 March"""
    return f"{WEEKDAYS[day.weekday()]} {day_month(day)}"


def day_short(day: date) -> str:
    """Mon 1 Mar"""
    return f"{WEEKDAYS[day.weekday()][:3]} {day.day} {MONTHS[day.month - 1][:3]}"


def day_brief(day: date) -> str:
    """1 Mar"""
    return f"{day.day} {MONTHS[day.month - 1][:3]}"


def week_span(monday: date) -> str:
    """Monday 1 to Sunday 7 March 2027; month and year are said twice only where they differ."""
    sunday = monday + timedelta(days=6)
    if monday.year != sunday.year:
        start = day_long(monday)
    elif monday.month != sunday.month:
        start = day_named(monday)
    else:
        start = f"{WEEKDAYS[0]} {monday.day}"
    return f"{start} to {day_long(sunday)}"


def weeks_listed(mondays: Sequence[date]) -> str:
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
        said += [f"{numbers[0]} to {numbers[-1]}"] if len(numbers) > 2 else numbers
    return f"{'week' if len(mondays) == 1 else 'weeks'} {listed(said)}"


def number(amount: float) -> str:
    """1,250; 8.5"""
    return f"{amount:,.0f}" if amount == int(amount) else f"{amount:,.1f}"


def nth(place: int) -> str:
    """1st, 2nd, 3rd, 4th, 11th"""
    ending = "th" if place % 100 in {11, 12, 13} else {1: "st", 2: "nd", 3: "rd"}.get(place % 10, "th")
    return f"{place}{ending}"


def length(cm: float, imperial: bool = False) -> str:
    """30 cm, 1.2 m; or 12 in, 4 ft 6 in. Inches to the nearest quarter below 4, to the half below 12."""
    if not imperial:
        return f"{round(cm / 100, 2):g} m" if cm >= 100 else f"{round(cm, 1):g} cm"
    inches = cm / 2.54
    if inches >= 36:
        feet, rest = divmod(round(inches), 12)
        return f"{feet} ft {rest} in" if rest else f"{feet} ft"
    parts = 4 if inches < 4 else 2 if inches < 12 else 1
    return f"{_with_fraction(max(1, round(inches * parts)), parts)} in"


def depth(mm: float, imperial: bool = False) -> str:
    """10 mm; or 3/8 in as one sign, to the nearest eighth."""
    if not imperial:
        return f"{round(mm):d} mm"
    return f"{_with_fraction(max(1, round(mm / 25.4 * 8)), 8)} in"


def area(square_m: float, imperial: bool = False) -> str:
    """7.2 m²; or square feet."""
    return f"{square_m * 10.764:.0f} sq ft" if imperial else f"{round(square_m, 1):g} m²"


def weight(grams: float, imperial: bool = False) -> str:
    """6 g, 0.4 g, 1.2 kg; or ounces and pounds."""
    if imperial:
        ounces = grams / 28.3495
        return f"{ounces / 16:.1f} lb" if ounces >= 16 else f"{_two_figures(ounces)} oz"
    return f"{round(grams / 1000, 1):g} kg" if grams >= 1000 else f"{_two_figures(grams)} g"


def percent(share: float) -> str:
    """10 %; 2.4 %; under 0.1 %"""
    hundredths = share * 100
    if hundredths >= 9.95:
        return f"{round(hundredths)} %"
    return f"{round(hundredths, 1):g} %" if hundredths >= 0.05 else "under 0.1 %"


def capital(text: str) -> str:
    """The text with its first letter a capital, as a line begins."""
    return text[:1].upper() + text[1:]


def the(name: str) -> str:
    """`the airing shelf`, but `Glass 1`: a name that begins with a capital needs no article."""
    return name if name[:1].isupper() or name.startswith("the ") else f"the {name}"


def crop_name(word: str, kind_key: str, kind_name: str, note: str = "") -> str:
    """The crop in the grower's word, with its kind where the word leaves that open: winter lettuce, onions from sets.

    `note` is the grower's own (a sort, a colour) and is put in brackets.
    """
    if not word:
        name = kind_name
    elif not kind_key or kind_key in word:
        name = word
    else:
        name = f"{word} {kind_key}" if kind_key.startswith(("from ", "for ")) else f"{kind_key} {word}"
    return f"{name} ({note})" if note else name


def rows_of_cells(first: int, cells: int, across: int) -> str:
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
            said.append(f"the rest of row {row + 1}")
        else:
            if full:
                said.append(_rows(full))
                full = []
            said.append(f"{'the next ' if column else ''}{count(taken, 'cell')} of row {row + 1}")
        at += taken
    if full:
        said.append(_rows(full))
    return listed(said)


def _rows(rows: Sequence[int]) -> str:
    if len(rows) == 1:
        return f"row {rows[0]}"
    return f"rows {rows[0]} to {rows[-1]}"


def _with_fraction(parts: int, whole: int) -> str:
    """Quarters or eighths as a number with its fraction: 1½."""
    signs = {1: "⅛", 2: "¼", 3: "⅜", 4: "½", 5: "⅝", 6: "¾", 7: "⅞"}
    units, rest = divmod(parts * 8 // whole, 8)
    return f"{units or ''}{signs.get(rest, '')}"


def _two_figures(amount: float) -> str:
    return f"{amount:.0f}" if amount >= 10 else f"{amount:.1f}".removesuffix(".0") if amount >= 1 else f"{amount:.1g}"


def trays_of(trays: int, cells: int, name: str) -> str:
    """2 trays of 60; 1 tray of 18 (9 cm pots); 1 seed tray. The name is said where the cells do not say it."""
    if not cells:
        return count(trays, name)
    said = f"{count(trays, 'tray')} of {cells}"
    plain = name.replace("-", " ") in {f"{cells} cell", f"{cells} cells", str(cells), f"{cells} cell tray"}
    return said if plain else f"{said} ({name})"


def spacing(in_row_cm: float, row_gap_cm: float, imperial: bool = False) -> str:
    """30 cm apart each way; 15 cm apart, rows 30 cm apart"""
    gap = length(in_row_cm, imperial)
    if in_row_cm == row_gap_cm:
        return f"{gap} apart each way"
    return f"{gap} apart, rows {length(row_gap_cm, imperial)} apart"


def span_of_days(low: float, high: float) -> str:
    """14 to 28 days in the unit that growers use: 2 to 4 weeks."""
    if low % 7 == 0 and high % 7 == 0 and low >= 14:
        low, high, unit = low / 7, high / 7, "week"
    else:
        unit = "day"
    return count(round(high), unit) if low == high else f"{low:g} to {high:g} {unit}s"
