"""The shopping list as plain data and as rows."""

from __future__ import annotations

from sowsheet.buying.list import BARROW_LITRES, barrows_of
from sowsheet.buying.records import SeedNeed, SetNeed, Shopping, TrayNeed
from sowsheet.exports.data import SCHEMA, Data
from sowsheet.exports.tables import Row
from sowsheet.garden.records import Garden
from sowsheet.words.language import Language


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
                "grams": round(s.grams, 4),
                "allowance_seeds": s.allowance,
                "maybe_seeds": s.maybe_seeds,
                "maybe_grams": round(s.maybe_grams, 4),
            }
            for s in shopping.seed
        ],
        "sets": [
            {"what": s.name, "unit": s.unit, "number": s.number, "kg": round(s.kg, 4), "maybe_number": s.maybe_number}
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


def shopping_rows(shopping: Shopping, garden: Garden) -> list[Row]:
    """A row a thing to get, in words: what is added up is rounded once, as on the sheet."""
    words, imperial = garden.words, garden.imperial
    rows: list[Row] = [tuple(words.say(f"shopping.column.{column}") for column in ("what", "much", "note"))]
    rows += [_seed_row(s, words, imperial) for s in shopping.seed]
    rows += [_set_row(s, words, imperial) for s in shopping.sets]
    rows += [_tray_row(t, words) for t in shopping.trays]
    litres = sum(f.litres for f in shopping.tray_compost)
    if litres:
        filled = (
            words.say("shopping.table.filled", n=f.fillings, tray=words.tray_name(f.tray))
            for f in shopping.tray_compost
        )
        volume = words.volume(litres, imperial)
        rows.append((words.say("shopping.table.compost for trays"), volume, ", ".join(filled)))
    litres = sum(f.litres for f in shopping.bed_compost)
    if litres:
        each = words.volume(BARROW_LITRES, imperial)
        barrows = words.say("shopping.table.barrows", n=barrows_of(litres), volume=each)
        rows.append((words.say("shopping.table.compost for beds"), words.volume(litres, imperial), barrows))
    for c in shopping.covers:
        most = words.say("shopping.table.most", day=words.day_brief(c.day))
        rows.append((words.say(f"cover.{c.kind}"), words.length(c.metres * 100, imperial), most))
    return rows


def _seed_row(seed: SeedNeed, words: Language, imperial: bool) -> Row:
    notes = [words.count(seed.sowings, "sowing")] if seed.sowings else []
    spare, maybe = seed.allowance, seed.maybe_seeds
    notes += [words.say("shopping.seed.allowance", n=spare, number=spare)] if spare else []
    notes += [words.say("shopping.maybe more", number=maybe)] if maybe else []
    much = [words.say("unit.seeds", n=seed.seeds, number=seed.seeds)] if seed.seeds else []
    much += [words.weight(seed.grams, imperial)] if seed.seeds else []
    return seed.name, ", ".join(much), "; ".join(notes)


def _set_row(need: SetNeed, words: Language, imperial: bool) -> Row:
    much = [words.say(f"unit.{need.unit}", n=need.number, number=need.number)] if need.number else []
    much += [words.weight(need.kg * 1000, imperial)] if need.kg else []
    maybe = words.say("shopping.maybe more", number=need.maybe_number) if need.maybe_number else ""
    return need.name, ", ".join(much), maybe


def _tray_row(tray: TrayNeed, words: Language) -> Row:
    notes = [] if tray.owned is None else [words.say("shopping.table.owned", n=tray.owned)]
    if tray.start and tray.end:
        start, end = words.day_brief(tray.start), words.day_brief(tray.end)
        notes.append(words.say("shopping.table.short", n=tray.short, start=start, end=end))
    name = words.say("shopping.table.trays", tray=words.tray_name(tray.tray))
    return name, words.say("shopping.table.at once", n=tray.most), ", ".join(notes)


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
