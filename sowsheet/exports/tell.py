"""How each line was read, told back in full sentences, with where every date came from."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date

from sowsheet.beds.compost import area_m2, bed_litres
from sowsheet.garden.records import Bed, Frost, Garden, Place, TrayKind
from sowsheet.growth.when import When
from sowsheet.schedule.amounts import sum_in_words
from sowsheet.schedule.records import Batch, Doubt, Gap, Schedule, Told
from sowsheet.site.climate import Climate
from sowsheet.words.language import Language, capital

WORTH_TELLING = 0.02  # a chance of a cold night
_LEAP_YEAR = 2000  # has every day of the calendar


def told_back(
    garden: Garden, schedule: Schedule, doubts: Sequence[Doubt], noticed: Sequence[str] = ()
) -> Iterator[str]:
    """The lines of `check`: the site, what was noticed in its weather, each bed, what was taken for granted, doubts."""
    words = garden.words
    yield from _site(garden, schedule)
    yield from noticed
    for bed in garden.beds:
        batches = [b for b in schedule.batches if b.bed == bed.name]
        gaps = [g for g in schedule.gaps if g.bed == bed.name]
        yield ""
        yield _bed(bed, words)
        if not batches and not gaps:
            yield f"  {words.say('tell.bed.nothing')}"
        told = [(_start(b, schedule), _batch(b, schedule, garden)) for b in batches]
        told += [(g.start, _gap(g, schedule, words)) for g in gaps]
        yield from (f"  {said}" for _, said in sorted(told, key=lambda t: t[0]))
    also = [b for b in schedule.batches if not b.bed]
    if also:
        yield ""
        yield words.say("tell.also")
        yield from (f"  {_batch(b, schedule, garden)}" for b in also)
    if schedule.told:
        yield ""
        yield words.say("tell.granted.head")
        yield from (f"  {line}" for line in _granted(schedule.told, words))
    yield ""
    yield from told_doubts(doubts, words)


def _granted(told: Sequence[Told], words: Language) -> Iterator[str]:
    """What was taken for granted, a line each; the days that are no work days are one line together."""
    yield from (words.say("tell.granted.line", about=t.about, told=t.sentence) for t in told if not t.code)
    off = [t for t in told if t.code == "no work day"]
    days = [words.say("tell.granted.off day", bed=t.about, told=t.short) if t.about else t.short for t in off]
    if days:
        yield words.say("tell.granted.off days", days="; ".join(days))


def told_doubts(doubts: Sequence[Doubt], words: Language) -> Iterator[str]:
    """Doubts, numbered, each with its reason and its cure."""
    if not doubts:
        yield words.say("tell.doubt.none")
        return
    yield words.count(len(doubts), "doubt")
    for n, d in enumerate(doubts, 1):
        what, why = capital(d.what), capital(d.why)
        if d.spot is None:
            said = words.say("tell.doubt.one", what=what, why=why, cure=d.cure)
        else:
            said = words.say("tell.doubt.of line", what=what, why=why, cure=d.cure, line=d.spot.line)
        yield f"  {n}. {said}"


def _bed(bed: Bed, words: Language) -> str:
    if bed.house:
        return words.say("tell.bed.in house", bed=bed.name, house=bed.house.name)
    return words.say("tell.bed.lies", bed=bed.name, lies=words.say(f"tell.lies.{bed.under}")) if bed.under else bed.name


def _site(garden: Garden, schedule: Schedule) -> Iterator[str]:
    season, words = schedule.season, garden.words
    start, end = words.day_month_year(season.start), words.day_month_year(season.end)
    yield words.say("tell.garden", garden=garden.name, season=season.year, start=start, end=end)
    almanac = schedule.climate.almanac
    yield words.say(
        "tell.latitude.south" if garden.site.latitude < 0 else "tell.latitude.north",
        degrees=float(abs(garden.site.latitude)),
        last=_frost("last", garden.site.last_frost, almanac.last_frost, words),
        first=_frost("first", garden.site.first_frost, almanac.first_frost, words),
    )
    yield _temperatures(schedule.climate, words)
    for place in (*garden.places, *garden.houses):
        yield _place(place, schedule.climate, garden)
    for tray in garden.trays:
        yield _tray(tray, garden)
    area = area_m2(garden.beds)
    if area:
        litres = sum(bed_litres(bed, garden.house.compost_mm) for bed in garden.beds)
        own = any(bed.compost_mm is not None for bed in garden.beds)
        yield words.say(
            "tell.compost.own" if own else "tell.compost.usual",
            depth=words.depth(garden.house.compost_mm, garden.imperial),
            area=words.area(round(area), garden.imperial),
            volume=words.bulk(litres, garden.imperial),
        )


def _temperatures(climate: Climate, words: Language) -> str:
    """What is known of the weather, and which clock it drives."""
    if climate.record is None and climate.outside is None:
        return words.say("tell.temperatures.none")
    until = words.day_month_year(climate.measured[-1].day) if climate.measured else ""
    if climate.record is None:
        return words.say("tell.temperatures.means and season" if until else "tell.temperatures.means", until=until)
    return words.say(
        "tell.temperatures.record and season" if until else "tell.temperatures.record",
        first=words.day_month_year(climate.record.days[0]),
        last=words.day_month_year(climate.record.days[-1]),
        until=until,
    )


def _frost(which: str, frost: Frost | None, by_record: tuple[int, int] | None, words: Language) -> str:
    """What the grower said of a frost date, the `last` or the `first`; else what his record tells."""
    if frost is not None:
        day = words.day_month(date(_LEAP_YEAR, frost.day.month, frost.day.day))
        return words.say(f"tell.frost.{which}.{frost.meaning}", day=day)
    if by_record is not None:
        return words.say(f"tell.frost.{which}.record", day=words.day_month(date(_LEAP_YEAR, *by_record)))
    return words.say(f"tell.frost.{which}.unknown")


def _line(name: str, facts: Sequence[str], assumed: bool, words: Language) -> str:
    key = "tell.line.assumed" if assumed else "tell.line.plain"
    return words.say(key, name=capital(name), facts=", ".join(facts))


def _tray(tray: TrayKind, garden: Garden) -> str:
    words = garden.words
    cells = words.say("tell.tray.cells", n=tray.cells, ml=round(tray.cell_ml))
    facts = [cells if tray.cells else words.say("tell.tray.open"), _size(tray.length_cm, tray.width_cm, garden)]
    if tray.owned is not None:
        facts.append(words.say("tell.tray.owned", n=tray.owned))
    return _line(words.tray_name(tray.name), facts, tray.assumed, words)


def _size(length_cm: float, width_cm: float, garden: Garden) -> str:
    length, width = (garden.words.length(cm, garden.imperial) for cm in (length_cm, width_cm))
    return garden.words.say("tell.size", length=length, width=width)


def _place(place: Place, climate: Climate, garden: Garden) -> str:
    words = garden.words
    purposes = words.listed([words.say(f"purpose.{purpose}") for purpose in place.purposes])
    facts = [words.say("tell.place.for", purposes=purposes) if purposes else words.say("tell.place.for beds")]
    if place.under:
        facts.append(words.say(f"tell.lies.{place.under}"))
    if place.held_at_c is not None:
        facts.append(words.say("tell.place.held", temp=words.temp(place.held_at_c, place.in_fahrenheit)))
    facts += _own_warmth(place, climate, words)
    if place.purposes:
        facts.append(_room(place, garden))
    return _line(place.name, facts, place.assumed, words)


def _room(place: Place, garden: Garden) -> str:
    room = place.room
    if room.trays is not None:
        return garden.words.say("tell.room.trays", n=room.trays)
    if room.length_cm is not None and room.width_cm is not None:
        return _size(room.length_cm, room.width_cm, garden)
    return garden.words.say("tell.room.no limit")


def _own_warmth(place: Place, climate: Climate, words: Language) -> Iterator[str]:
    """What else was said of a place's warmth."""
    if place.aired:
        yield words.say("tell.place.aired")
    if place.made is not None:
        yield words.say("tell.place.manure", day=words.day_month(date(_LEAP_YEAR, *place.made)))
    if place.warmer_nights_c is not None:
        yield words.say("tell.place.warmer nights", degrees=words.fixed(place.warmer_nights_c, 1))
    if place.monthly is not None:
        yield words.say("tell.place.own means")
    yield from _readings(place, climate, words)


def _readings(place: Place, climate: Climate, words: Language) -> Iterator[str]:
    """What a place's own daily readings are used for."""
    if place.readings is None:
        return
    if climate.outside is None:
        yield words.say("tell.readings.not used")
        return
    days = climate.days_read_in(place)
    yield words.say("tell.readings.days", n=days) if days else words.say("tell.readings.minima")
    if place.warmer_nights_c is not None:
        return
    warmer = climate.warmer_nights_read(place)
    if warmer is None:
        yield words.say("tell.readings.few")
    else:
        yield words.say("tell.readings.warmer", degrees=words.fixed(warmer, 1))


def _start(batch: Batch, schedule: Schedule) -> date:
    if batch.stages.plant is not None:
        return batch.stages.plant.day
    return schedule.season.start if batch.open_left else date.max


def _gap(gap: Gap, schedule: Schedule, words: Language) -> str:
    year = schedule.season.year
    start = words.day_in(gap.start, year)
    if gap.end is None:
        return words.say(f"tell.gap.{gap.what}.from", start=start)
    return words.say(f"tell.gap.{gap.what}.until", start=start, end=words.day_in(gap.end, year))


def _batch(batch: Batch, schedule: Schedule, garden: Garden) -> str:
    words, year, stages = garden.words, schedule.season.year, batch.stages
    told = [words.say("tell.batch.there") if batch.open_left else sum_in_words(words, batch.amount, garden.imperial)]
    told += _raising(batch, year, words)
    if stages.plant:
        told.append(words.say(f"tell.batch.in bed.{batch.raised}", when=_when(stages.plant, year, words)))
    if stages.cover_on and stages.cover_off and batch.covers:
        off = _when(stages.cover_off, year, words)
        told.append(words.say(f"tell.batch.off.{batch.covers[0].kind}", when=off))
    told += _harvest(batch, year, words)
    told += _end(batch, year, words)
    told += _slip(batch, schedule, words)
    told += _cold(batch, year, words)
    return words.say("tell.batch.line", crop=_head(batch, words), told="; ".join(told))


def _head(batch: Batch, words: Language) -> str:
    """What it is called, and whether it is an idea or stands between others."""
    name = f"{batch.word} ({batch.kind.name})" if batch.word != batch.kind.name else batch.word
    head = capital(f"{name} ({batch.note})" if batch.note else name)
    if batch.maybe:
        head = words.say("tell.batch.maybe", crop=head)
    return words.say("tell.batch.between", crop=head) if batch.rank == "between" else head


def _raising(batch: Batch, year: int, words: Language) -> Iterator[str]:
    """When it is sown into trays, where it is grown on, and when it is ready."""
    stages = batch.stages
    if batch.raised == "tray" and stages.sow:
        when = _when(stages.sow, year, words)
        if batch.route:
            yield words.say("tell.batch.sown on", when=when, place=batch.route[0])
        else:
            yield words.say("tell.batch.sown on shelf", when=when)
    growing = next((s.where for s in batch.stays if s.stage == "growing on"), "")
    if growing:
        yield words.say("tell.batch.grown on", place=growing)
    if stages.ready:
        yield words.say("tell.batch.ready", when=_when(stages.ready, year, words))


def _end(batch: Batch, year: int, words: Language) -> Iterator[str]:
    stages = batch.stages
    if stages.clear:
        yield words.say("tell.batch.cleared", when=_when(stages.clear, year, words))
    elif batch.kind.stands_years and (stages.plant or batch.open_left):
        yield words.say("tell.batch.stands on")
    elif batch.bed and stages.plant is None and not batch.open_left:
        yield words.say("tell.batch.no date")


def _slip(batch: Batch, schedule: Schedule, words: Language) -> Iterator[str]:
    """What a week's delay costs and until when it is still of use, of what is still to be sown."""
    slip = batch.slip
    if slip is None:
        return
    verb = "set" if batch.raised == "set" else "sown"
    if slip.costs_days is not None:
        then = "picked" if batch.bed else "ready"
        if slip.costs_days:
            yield words.say(f"tell.week later.{verb}.{then}", days=words.count(slip.costs_days, "day"))
        else:
            yield words.say(f"tell.week later.{verb}.{then} no later")
    if slip.last_useful is not None:
        last = words.day_in(slip.last_useful, schedule.season.year)
        yield words.say(f"tell.by.{verb}", day=last, why=slip.why)


def _cold(batch: Batch, year: int, words: Language) -> Iterator[str]:
    """How often a spring brings a night colder than it stands in a place, and from when seldom enough."""
    for stay in batch.cold:
        if stay.spring_chance is None or stay.safe_from is None or stay.spring_chance < WORTH_TELLING:
            continue
        often = words.years_in(stay.spring_chance, "spring")
        yield words.say(f"tell.cold.{stay.stage}", place=stay.where, temp=stay.stands_c, often=often)
        if stay.spring_chance > stay.accepted and stay.safe_from > stay.start:
            yield words.say("tell.cold.safe", day=words.day_in(stay.safe_from, year), n=round(1 / stay.accepted))


def _harvest(batch: Batch, year: int, words: Language) -> Iterator[str]:
    """When it is picked or cut; of what stands there already only a perennial's season is known."""
    first, last = batch.stages.first_pick, batch.stages.last_pick
    if first and not batch.open_left:
        key = "tell.batch.cut" if batch.kind.use == "green manure" else "tell.batch.first picked"
        yield words.say(key, when=_when(first, year, words))
    elif first and last and batch.kind.stands_years:
        yield words.say("tell.batch.picked", first=words.day_in(first.day, year), last=words.day_in(last.day, year))


def _when(when: When, year: int, words: Language) -> str:
    day = words.day_in(when.day, year)
    if not when.why:
        return day
    if when.window is None or when.basis != "grower":
        return words.say("tell.when.why", day=day, why=when.why)
    first, last = (words.day_month(d) for d in when.window)
    return words.say("tell.when.window", day=day, why=when.why, first=first, last=last)
