"""How each line was read, told back in full sentences, with where every date came from."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date

from sowsheet.beds.compost import area_m2, bed_litres
from sowsheet.garden.records import Frost, Garden, Place, TrayKind
from sowsheet.growth.when import When
from sowsheet.schedule.amounts import sum_in_words
from sowsheet.schedule.records import Batch, Doubt, Gap, Schedule, Told
from sowsheet.site.climate import Climate
from sowsheet.words.english import MONTHS, capital, count, day_in, day_month, day_month_year, length, listed, years_in

WORTH_TELLING = 0.02  # a chance of a cold night


def told_back(
    garden: Garden, schedule: Schedule, doubts: Sequence[Doubt], noticed: Sequence[str] = ()
) -> Iterator[str]:
    """The lines of `check`: the site, what was noticed in its weather, each bed, what was taken for granted, doubts."""
    yield from _site(garden, schedule)
    yield from noticed
    for bed in garden.beds:
        batches = [b for b in schedule.batches if b.bed == bed.name]
        gaps = [g for g in schedule.gaps if g.bed == bed.name]
        yield ""
        yield bed.name + (f", in the {bed.house.name}" if bed.house else f", under {bed.under}" if bed.under else "")
        if not batches and not gaps:
            yield "  Nothing is planned."
        told = [(_start(b, schedule), _batch(b, schedule, garden)) for b in batches]
        told += [(g.start, _gap(g, schedule)) for g in gaps]
        yield from (f"  {words}" for _, words in sorted(told, key=lambda t: t[0]))
    also = [b for b in schedule.batches if not b.bed]
    if also:
        yield ""
        yield "Sown also"
        yield from (f"  {_batch(b, schedule, garden)}" for b in also)
    if schedule.told:
        yield ""
        yield "Taken for granted"
        yield from (f"  {line}" for line in _granted(schedule.told))
    yield ""
    yield from told_doubts(doubts)


def _granted(told: Sequence[Told]) -> Iterator[str]:
    """What was taken for granted, a line each; the days that are no work days are one line together."""
    yield from (f"{t.about}: {t.sentence}." for t in told if t.code != "no work day")
    days = [f"{t.about} {t.short}" for t in told if t.code == "no work day"]
    if days:
        yield f"Not on a work day, as you wrote: {'; '.join(days)}."


def told_doubts(doubts: Sequence[Doubt]) -> Iterator[str]:
    """Doubts, numbered, each with its reason and its cure."""
    if not doubts:
        yield "No doubts."
        return
    yield count(len(doubts), "doubt")
    for n, d in enumerate(doubts, 1):
        where = f" (line {d.spot.line})" if d.spot else ""
        yield f"  {n}. {_sentence(d.what)}{where} {_sentence(d.why)} Cure: {d.cure}."


def _sentence(words: str) -> str:
    return f"{words[0].upper()}{words[1:]}." if words else ""


def _site(garden: Garden, schedule: Schedule) -> Iterator[str]:
    season = schedule.season
    yield f"{garden.name}, season {season.year}: {day_month_year(season.start)} to {day_month_year(season.end)}."
    south = " south" if garden.site.latitude < 0 else " north"
    almanac = schedule.climate.almanac
    frosts = [
        _frost("last frost", garden.site.last_frost, almanac.last_frost),
        _frost("first frost", garden.site.first_frost, almanac.first_frost),
    ]
    yield f"Latitude {abs(garden.site.latitude):g}{south}; {'; '.join(frosts)}."
    yield f"Temperatures: {_temperatures(schedule.climate)}."
    for place in (*garden.places, *garden.houses):
        yield _place(place, schedule.climate, garden.imperial)
    for tray in garden.trays:
        yield _tray(tray, garden.imperial)
    area = area_m2(garden.beds)
    if area:
        litres = sum(bed_litres(bed, garden.house.compost_mm) for bed in garden.beds)
        own = any(bed.compost_mm is not None for bed in garden.beds)
        deep = "The compost" if own else f"A year's {garden.house.compost_mm:.0f} mm of compost"
        yield f"{deep} on all beds ({area:.0f} m2) is {litres / 1000:.1f} m3."


def _temperatures(climate: Climate) -> str:
    """What is known of the weather, and which clock it drives."""
    spread = "frost dates are taken to wander by 15 days either way, a guess"
    if climate.record is not None:
        first, last = climate.record.days[0], climate.record.days[-1]
        known = f"the record's days, {day_month_year(first)} to {day_month_year(last)}"
        spread = "how often a night is colder is counted in it"
    elif climate.outside is not None:
        known = "the file's monthly means"
    else:
        return f"none are given; handbook days are used; {spread}"
    read = f", and this season's own to {day_month_year(climate.measured[-1].day)}" if climate.measured else ""
    return f"{known}{read}; warmth and light decide how long a stage takes; {spread}"


def _frost(name: str, frost: Frost | None, by_record: tuple[int, int] | None) -> str:
    """What the grower said of a frost date; else what his record tells."""
    if frost is None and by_record is not None:
        return f"{name} {by_record[1]} {MONTHS[by_record[0] - 1]} (average, by the record)"
    if frost is None:
        return f"{name} not known"
    chance = "half of all years" if frost.meaning == "average" else "1 year in 10"
    words = "later" if name == "last frost" else "earlier"
    return f"{name} {frost.day.day} {MONTHS[frost.day.month - 1]} ({frost.meaning}: {words} in {chance})"


def _tray(tray: TrayKind, imperial: bool) -> str:
    size = f"{length(tray.length_cm, imperial)} x {length(tray.width_cm, imperial)}"
    holds = f"{tray.cells} cells of {tray.cell_ml:.0f} ml" if tray.cells else "open, for pricking out from"
    owned = "" if tray.owned is None else f", {tray.owned} owned"
    taken = " (taken for granted: the file names none)" if tray.assumed else ""
    return f"{capital(tray.name)}: {holds}, {size}{owned}{taken}."


def _place(place: Place, climate: Climate, imperial: bool) -> str:
    size = "no limit to its room"
    if place.room.trays is not None:
        size = f"room for {count(place.room.trays, 'tray')}"
    elif place.room.length_cm is not None and place.room.width_cm is not None:
        size = f"{length(place.room.length_cm, imperial)} x {length(place.room.width_cm, imperial)}"
    warm = f", held at {place.held_at_c:g} °C" if place.held_at_c is not None else ""
    lies = place.under if place.under in ("indoors", "outdoors") else f"under {place.under}"
    under = f", {lies}" if place.under else ""
    taken = " (taken for granted: the file names none)" if place.assumed else ""
    purposes = listed(place.purposes) or "beds"
    room = "" if not place.purposes else f", {size}"
    return f"{capital(place.name)}: for {purposes}{under}{warm}{_own_warmth(place, climate)}{room}{taken}."


def _own_warmth(place: Place, climate: Climate) -> str:
    """What else was said of a place's warmth."""
    said = ", aired well" if place.aired else ""
    if place.made is not None:
        day = f"{place.made[1]} {MONTHS[place.made[0] - 1]}"
        said += f", over manure made up on {day}: warm for about eight weeks"
        said += " (fresh manure: gloves, wash hands, keep it off what is eaten raw, and follow local rules)"
    if place.warmer_nights_c is not None:
        said += f", {place.warmer_nights_c:.1f} °C warmer than outdoors on cold nights, as you read"
    said += ", its temperatures as you read them" if place.monthly is not None else ""
    return said + _readings(place, climate)


def _readings(place: Place, climate: Climate) -> str:
    """What a place's own daily readings are used for."""
    if place.readings is None:
        return ""
    if climate.outside is None:
        return ", its readings not used: they want `temperatures` or `weather` of the site beside them"
    days = climate.days_read_in(place)
    said = f", read on {count(days, 'day')}, which count as they were" if days else ", only its minima read"
    if place.warmer_nights_c is not None:
        return said
    warmer = climate.warmer_nights_read(place)
    if warmer is None:
        return f"{said}, cold nights as outdoors: fewer than ten were read in both"
    return f"{said}, on nine of ten cold nights at least {warmer:.1f} °C warmer than outdoors"


def _start(batch: Batch, schedule: Schedule) -> date:
    if batch.stages.plant is not None:
        return batch.stages.plant.day
    return schedule.season.start if batch.open_left else date.max


def _gap(gap: Gap, schedule: Schedule) -> str:
    year = schedule.season.year
    until = f" until {day_in(gap.end, year)}" if gap.end else ""
    what = "A gap for something quick" if gap.what == "something quick" else "The bed rests"
    return f"{what} from {day_in(gap.start, year)}{until}."


def _batch(batch: Batch, schedule: Schedule, garden: Garden) -> str:
    year, stages = schedule.season.year, batch.stages
    name = f"{batch.word} ({batch.kind.name})" if batch.word != batch.kind.name else batch.word
    head = f"{name[0].upper()}{name[1:]}" + (f" ({batch.note})" if batch.note else "")
    if batch.maybe:
        head += ", an idea not settled"
    if batch.rank == "between":
        head += ", between the other"
    parts = []
    if batch.open_left:
        parts.append("is there already")
    else:
        parts.append(f"{sum_in_words(garden.words, batch.amount, garden.imperial)}")
    if batch.raised == "tray" and stages.sow:
        parts.append(f"sown {_when(stages.sow, year)} on the {batch.route[0] if batch.route else 'shelf'}")
    growing = next((s.where for s in batch.stays if s.stage == "growing on"), "")
    if growing:
        parts.append(f"grown on at the {growing}")
    if stages.ready:
        parts.append(f"ready {_when(stages.ready, year)}")
    if stages.plant:
        verb = {"tray": "planted", "drill": "sown direct", "set": "set"}[batch.raised]
        parts.append(f"{verb} {_when(stages.plant, year)}")
    if stages.cover_on and stages.cover_off and batch.covers:
        parts.append(f"{batch.covers[0].kind} off {_when(stages.cover_off, year)}")
    parts += _harvest(batch, year)
    if stages.clear:
        parts.append(f"cleared {_when(stages.clear, year)}")
    elif batch.kind.stands_years and (stages.plant or batch.open_left):
        parts.append("stands on")
    elif batch.bed and stages.plant is None and not batch.open_left:
        parts.append("cannot be dated")
    parts += _slip(batch, schedule)
    parts += _cold(batch, year)
    return f"{head}: {'; '.join(parts)}."


def _slip(batch: Batch, schedule: Schedule) -> Iterator[str]:
    """What a week's delay costs and until when it is still of use, of what is still to be sown."""
    slip, start = batch.slip, batch.stages.sow or batch.stages.plant
    if slip is None or start is None or start.day < schedule.season.start:
        return
    verb = "set" if batch.raised == "set" else "sown"
    if slip.costs_days is not None:
        then = "picked" if batch.bed else "ready"
        later = f"{count(slip.costs_days, 'day')} later" if slip.costs_days else "no later"
        yield f"{verb} a week later it is {then} {later}"
    if slip.last_useful is not None:
        last = day_in(slip.last_useful, schedule.season.year)
        yield f"to be {verb} by {last} at the latest, or {slip.why}"


def _cold(batch: Batch, year: int) -> Iterator[str]:
    """How often a spring brings a night colder than it stands in a place, and from when seldom enough."""
    for stay in batch.cold:
        if stay.spring_chance is None or stay.safe_from is None or stay.spring_chance < WORTH_TELLING:
            continue
        doing = {"growing on": "on", "hardening off": "hardening in", "in the bed": "in"}[stay.stage]
        where = stay.where if stay.stage == "in the bed" else f"the {stay.where}"
        often = years_in(stay.spring_chance, "spring")
        met = f"{doing} {where} it meets a night colder than {stay.stands_c:g} °C in {often}"
        later = stay.spring_chance > stay.accepted and stay.safe_from > stay.start
        safe = f"; from {day_in(stay.safe_from, year)} in 1 in {1 / stay.accepted:.0f} or fewer" if later else ""
        yield f"{met}{safe}"


def _harvest(batch: Batch, year: int) -> Iterator[str]:
    """When it is picked or cut; of what stands there already only a perennial's season is known."""
    first, last = batch.stages.first_pick, batch.stages.last_pick
    if first and not batch.open_left:
        verb = "to be cut from" if batch.kind.use == "green manure" else "first picked"
        yield f"{verb} {_when(first, year)}"
    elif first and last and batch.kind.stands_years:
        yield f"picked {day_in(first.day, year)} to {day_in(last.day, year)}"


def _when(when: When, year: int) -> str:
    window = ""
    if when.window is not None and when.basis == "grower":
        window = f", any day from {day_month(when.window[0])} to {day_month(when.window[1])} fits"
    return f"{day_in(when.day, year)} ({when.why}{window})" if when.why else day_in(when.day, year)
