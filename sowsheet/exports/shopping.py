"""The shopping list as plain data and as rows."""

from __future__ import annotations

from sowsheet.buying.list import BARROW_LITRES
from sowsheet.buying.records import Shopping
from sowsheet.exports.data import SCHEMA, Data
from sowsheet.exports.tables import Row
from sowsheet.garden.records import Garden
from sowsheet.words.english import count, day_brief


def shopping_data(garden: Garden, shopping: Shopping) -> Data:
    """Everything on the list."""
    return {
        "schema": SCHEMA,
        "garden": garden.name,
        "season": garden.season,
        "seed": [
            {
                "what": s.name,
                "sowings": s.sowings,
                "seeds": s.seeds,
                "grams": round(s.grams, 2),
                "allowance_seeds": s.allowance,
                "maybe_seeds": s.maybe_seeds,
                "maybe_grams": round(s.maybe_grams, 2),
            }
            for s in shopping.seed
        ],
        "sets": [
            {"what": s.name, "unit": s.unit, "number": s.number, "kg": round(s.kg, 2), "maybe_number": s.maybe_number}
            for s in shopping.sets
        ],
        "trays": [
            {
                "tray": t.tray,
                "most_in_use": t.most,
                "on": t.day,
                "owned": t.owned,
                "short": t.short,
                "short_from": t.start,
                "short_until": t.end,
            }
            for t in shopping.trays
        ],
        "tray_compost": [
            {"tray": f.tray, "fillings": f.fillings, "litres": round(f.litres, 1)} for f in shopping.tray_compost
        ],
        "bed_compost": [
            {"bed": f.bed, "depth_mm": f.depth_mm, "litres": round(f.litres, 1)} for f in shopping.bed_compost
        ],
        "covers": [{"kind": c.kind, "metres": round(c.metres, 1), "on": c.day} for c in shopping.covers],
    }


def shopping_rows(data: Data) -> list[Row]:
    """A row a thing to get, in words."""
    rows: list[Row] = [("what", "how much", "note")]
    for s in data["seed"]:
        notes = [count(s["sowings"], "sowing")] if s["sowings"] else []
        notes += [f"{s['allowance_seeds']} of them spare and for empty cells"] if s["allowance_seeds"] else []
        notes += [f"{s['maybe_seeds']} more for what is not settled"] if s["maybe_seeds"] else []
        rows.append((s["what"], f"{s['seeds']} seeds, {s['grams']:g} g", "; ".join(notes)))
    for s in data["sets"]:
        weight = f", {s['kg']:g} kg" if s["kg"] else ""
        maybe = f"{s['maybe_number']} more for what is not settled" if s["maybe_number"] else ""
        rows.append((s["what"], f"{s['number']} {s['unit']}{weight}", maybe))
    for t in data["trays"]:
        notes = [] if t["owned"] is None else [f"{t['owned']} owned"]
        if t["short_from"]:
            span = f"{day_brief(t['short_from'])} to {day_brief(t['short_until'])}"
            notes.append(f"short of {t['short']}, {span}")
        rows.append((f"trays: {t['tray']}", f"{t['most_in_use']} at once", ", ".join(notes)))
    litres = sum(f["litres"] for f in data["tray_compost"])
    if litres:
        filled = ", ".join(f"{f['fillings']} x {f['tray']}" for f in data["tray_compost"])
        rows.append(("compost for trays", f"{litres:.0f} l", filled))
    litres = sum(f["litres"] for f in data["bed_compost"])
    if litres:
        barrows = f"{litres / BARROW_LITRES:.0f} barrows of {BARROW_LITRES:.0f} l"
        rows.append(("compost for beds", f"{litres:.0f} l", barrows))
    rows += [(c["kind"], f"{c['metres']:g} m", f"at most, on {day_brief(c['on'])}") for c in data["covers"]]
    return rows


_NUMBERS = ("grams", "litres", "metres", "maybe_number", "from", "until")


def shopping_csv_rows(data: Data) -> list[Row]:
    """A row a thing to get, with its numbers apart."""
    rows: list[Row] = [("group", "what", "number", "unit", *_NUMBERS)]
    rows += [
        _row("seed", s["what"], s["seeds"], "seeds", grams=s["grams"], maybe_number=s["maybe_seeds"])
        for s in data["seed"]
    ]
    for s in data["sets"]:
        grams = s["kg"] * 1000 or None
        rows.append(_row("sets", s["what"], s["number"], s["unit"], grams=grams, maybe_number=s["maybe_number"]))
    for t in data["trays"]:
        wanted = t["most_in_use"] if t["owned"] is None else t["short"]
        rows.append(_row("trays", t["tray"], wanted, "trays", **{"from": t["short_from"], "until": t["short_until"]}))
    rows += [
        _row("compost for trays", f["tray"], f["fillings"], "trays", litres=f["litres"]) for f in data["tray_compost"]
    ]
    rows += [
        _row("compost for beds", f["bed"], f["depth_mm"], "mm deep", litres=f["litres"]) for f in data["bed_compost"]
    ]
    rows += [_row("covers", c["kind"], None, "", metres=c["metres"], **{"from": c["on"]}) for c in data["covers"]]
    return rows


def _row(group: str, what: str, number: object, unit: str, **more: object) -> Row:
    return (group, what, _cell(number), unit, *(_cell(more.get(key)) for key in _NUMBERS))


def _cell(value: object) -> str:
    return "" if value is None else f"{value:g}" if isinstance(value, float) else str(value)
