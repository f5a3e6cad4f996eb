"""What every step of the schedule asks for, and where it leaves its doubts."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field, replace
from datetime import date, timedelta

from sowsheet.catalogue.records import Crop
from sowsheet.garden.records import Garden, Place, Purpose, Where, is_under_glass
from sowsheet.growth.clock import Clock
from sowsheet.reading.date_forms import month_said
from sowsheet.reading.mistakes import Mistake, Said, Spot, said
from sowsheet.reading.planline import Dated
from sowsheet.schedule.records import Doubt, Told, ToldCode
from sowsheet.site.almanac import NoSuchDay, last_before, on_or_after, span_of
from sowsheet.site.climate import Climate
from sowsheet.site.season import Season
from sowsheet.words.language import Language, language_of


@dataclass(frozen=True, slots=True)
class Context:
    """The garden, its climate and clock, and collectors for what is noticed on the way.

    `route` names places where the trays of a batch are to stand.
    """

    garden: Garden
    climate: Climate
    clock: Clock
    season: Season
    crop: Callable[[str], Crop]
    doubts: list[Doubt] = field(default_factory=list)
    told: list[Told] = field(default_factory=list)
    mistakes: list[Mistake] = field(default_factory=list)
    route: tuple[str, ...] = ()

    def along(self, route: tuple[str, ...]) -> Context:
        """The same for a batch whose trays are to stand in these places."""
        return replace(self, route=route) if route else self

    def places_for(self, purpose: Purpose) -> tuple[Place, ...]:
        """The places for a purpose: those named for this batch, where any of them is for it; else all."""
        fit = tuple(p for p in self.garden.places if purpose in p.purposes)
        return tuple(p for p in fit if p.name in self.route) or fit

    @property
    def words(self) -> Language:
        """The language that doubts and reasons are told in."""
        return self.garden.words

    @property
    def file_words(self) -> Language:
        """The language of the garden file's own vocabulary: of what is to be written in it."""
        return language_of("en")

    def whole_day(self, day: date) -> str:
        """30 May 2027: with its year, as mistakes name it."""
        return self.words.day_month_year(day)

    def day(self, day: date) -> str:
        """30 May, with its year when that is another than the season's."""
        return self.words.day_in(day, self.season.year)

    def doubt(self, code: str, batch: str, what: str, why: str, cure: str, spot: Spot | None = None) -> None:
        """Note a doubt, once."""
        found = Doubt(code, batch, what, why, cure, spot)
        if found not in self.doubts:
            self.doubts.append(found)

    def tell(self, about: str, sentence: str, spot: Spot | None = None, code: ToldCode = "", short: str = "") -> None:
        """Note an assumption, once."""
        found = Told(about, sentence, spot, code, short)
        if found not in self.told:
            self.told.append(found)

    def refuse(self, spot: Spot, what: Said, cure: Said) -> None:
        """Note a mistake that only the catalogue and the site can see."""
        self.mistakes.append(Mistake(spot, what, cure))

    def date_of(self, dated: Dated, after: date) -> date | None:
        """A grower's date: the first such day not before `after`. A day that does not exist is refused."""
        return self._known(dated, on_or_after(self.climate.as_written, dated.date, after))

    def work_day_of(self, dated: Dated, after: date) -> date | None:
        """The same on a work day, where what was written leaves the choice."""
        day = self.date_of(dated, after)
        return None if day is None else self.work_day(dated, day, after)

    def work_day(self, dated: Dated, day: date, after: date = date.min) -> date:
        """The work day nearest to `day` within what was written (mid-April, October, week 16): of two the later one,
        none before `after`. A date written as a day stays."""
        span = span_of(dated.date, day)
        if span is None:
            return day
        first, last = max(span[0], after), span[1]
        days = (first + timedelta(days=n) for n in range((last - first).days + 1))
        return min(filter(self.attended, days), key=lambda d: (abs((d - day).days), d < day), default=day)

    def date_before(self, dated: Dated, before: date) -> date | None:
        """A grower's date: the last such day before `before`."""
        return self._known(dated, last_before(self.climate.as_written, dated.date, before))

    def _known(self, dated: Dated, found: date | NoSuchDay | None) -> date | None:
        if isinstance(found, NoSuchDay):
            self.refuse(dated.spot, self._no_such(dated, found), said("mistake.schedule.no such.cure"))
            return None
        if found is None:
            what = said("mistake.schedule.unknown frost.what", text=dated.text)
            self.refuse(dated.spot, what, said("mistake.schedule.unknown frost.cure"))
        return found

    @staticmethod
    def _no_such(dated: Dated, found: NoSuchDay) -> Said:
        if found.month is None:
            return said("mistake.schedule.no such.week", text=dated.text, year=found.year, weeks=found.last)
        month = month_said(found.month)
        return said("mistake.schedule.no such.day", text=dated.text, year=found.year, days=found.last, month=month)

    def where(self, bed: str) -> Where:
        """Where the bed of that name lies; the open for what has none."""
        return self.garden.bed_where.get(bed, "")

    def under_glass(self, bed: str) -> bool:
        """Whether the bed of that name lies in a house or a frame."""
        return is_under_glass(self.where(bed))

    def attended(self, day: date) -> bool:
        """Whether somebody works in the garden on that day of the week."""
        return not self.garden.work_days or day.weekday() in self.garden.work_days

    def forward(self, day: date) -> date:
        """The first work day not before a day."""
        return next(d for d in (day + timedelta(days=n) for n in range(7)) if self.attended(d))

    def back(self, day: date) -> date:
        """The last work day not after a day."""
        return next(d for d in (day - timedelta(days=n) for n in range(7)) if self.attended(d))
