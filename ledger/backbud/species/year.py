"""A growing year at a tree's place, as a rule may ask it: seasons, stages, the weather."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from datetime import date, timedelta
from typing import Any, TypeVar

from msgspec import Struct
from msgspec.structs import replace

from backbud.bench.pots import Pot
from backbud.climate.ahead import SkyAhead
from backbud.climate.cold_turns import HardNights, NightsTurn
from backbud.climate.coldest_night import ColdestNight
from backbud.climate.datum import joined
from backbud.climate.leaf_fall import BROUGHT_BY_C, reference_frost
from backbud.climate.outlook import Outlook, Span, Wants
from backbud.climate.stages import Expected, Own
from backbud.collection.cut_roots import last_cut_of_roots
from backbud.collection.state import Tree
from backbud.species.deed import Deed
from backbud.species.stages import MonthDay, Stage, StageMonths, day_here, stage_name
from backbud.species.windows import Window
from backbud.species.year_told import (
    SEASON_DAYS,
    Growth,
    Season,
    SeasonName,
    Temperature,
    Turn,
    growing_year_of,
)
from backbud.tongue import continued, day_and_month, phrase
from backbud_grammar.act_words import ActWord

NO_WEATHER = "The lows and highs of twelve months are not known here."
# Work of late summer from after the first day on moves with the usual end of growth; ours.
LATE_SUMMER, END_OF_GROWTH = (7, 31), (9, 10)
# Further off than this, days that the weather moves are set to whole weeks.
DAYS_EXACT = 21
_A_YEAR = timedelta(days=365)
_Nights = TypeVar("_Nights", NightsTurn, HardNights)
T = TypeVar("T")


class Year(Struct, frozen=True):
    """One growing year (January to December; July to June in the south) at a tree's place.

    `name`: "2027", or "2026/27". `today`: the day up to which the weather is known. `seen`: stages
    seen on this tree this year. `stage_months`, `wants`, `wire_weeks`: the species' own. `own`: how
    this tree's heat sums compare with its species'. `cover`: what is over the place. `outlook`: the
    weather of the place, None where nothing is known of it. `roots_bear`: the coldest night its
    roots bear in this pot, `young_roots_bear`: young ones in any (`bears` says which holds),
    `top_bears_c`: its top; `comes_in_below_c`: the coldest a tender tree stays out in; `growth`: of
    its wood, as it stands today; `pot`: what it stands in, `deep_cm`: how deep its roots go, by
    that or by their ball; None where it is not known. `coldest_said`: the coldest night by its
    card, where no weather is known. `figures`: numbers from the settings. `judge`: how its species
    judges a work; `times_of`: when it has its time. `feed_days`: how long a feed lasts by its card.
    `ahead`: the days ahead, where a forecast tells of them. `cover_at`: what is over another place.
    `rests_under_c`: the mean of the coldest month over which it finds no rest. `told`: what was
    answered of its stages and of the warmth, for all trees of the species at the place.
    """

    name: str
    first: date
    last: date
    today: date
    southern: bool
    place: str
    cover: str
    seen: Mapping[int, date]
    stage_months: StageMonths
    figures: Mapping[str, float]
    wire_weeks: tuple[int, int, int]
    outlook: Outlook | None = None
    wants: Wants = Wants()
    own: Own = Own()
    roots_bear: Temperature | None = None
    comes_in_below_c: float | None = None
    why_frost: str = ""
    growth: Growth | None = None
    pot: Pot | None = None
    coldest_said: ColdestNight | None = None
    young_roots_bear: Temperature | None = None
    judge: Callable[[Tree, Deed, Year], tuple[str, ...]] | None = None
    times_of: Callable[[ActWord, Year], tuple[Window, ...]] | None = None
    feed_days: Mapping[str, int] = {}
    ahead: SkyAhead | None = None
    top_bears_c: float | None = None
    cover_at: Callable[[str], str] | None = None
    rests_under_c: float | None = None
    told: dict[tuple[object, ...], Any] | None = None
    deep_cm: float | None = None

    def cover_over(self, place: str) -> str:
        """What is over a place, by its handle, as its card has it; over home for ""."""
        return self.cover_at(place) if self.cover_at else ""

    def times(self, act: ActWord) -> tuple[Window, ...]:
        """The windows that its species has for a work in this year, whatever the tree."""
        return self.times_of(act, self) if self.times_of else ()

    def against(self, tree: Tree, deed: Deed) -> tuple[str, ...]:
        """What speaks against a work by its species: a sentence for each reason."""
        return self.judge(tree, deed, self) if self.judge else ()

    def bears(self, tree: Tree, day: date) -> Temperature | None:
        """The coldest night that this tree's roots bear in this pot: as young ones do where they
        were cut within a year of the day; None where the species does not say."""
        young = self.young_roots_bear
        cut = last_cut_of_roots(tree)
        if cut is None or young is None or cut.day + _A_YEAR < day:
            return self.roots_bear
        return Temperature(
            young.celsius,
            phrase("Its roots were cut on {day}: {because}", day=cut.day, because=young.because),
        )

    def on(self, month_day: MonthDay) -> date:
        """The day of this growing year that a northern month and day means here."""
        return day_here(self.first, self.last, self.southern, month_day)

    def months(self, opens: MonthDay, best: MonthDay, closes: MonthDay) -> Window:
        """A window by northern months, shifted for the hemisphere.

        In a growing year of the south a window never crosses its end: northern January to
        December is southern July to June.
        """
        return Window(self.on(opens), self.on(best), self.on(closes))

    def by_warmth(self, best: MonthDay) -> tuple[timedelta, str]:
        """How far this place's heat or cold moves a day of a cool temperate place; and why.

        What is done late in summer, so that growth still ripens, moves with the end of growth.
        Nothing where nothing is known of the weather, or where the year never comes so far.
        """
        return self._once(best, lambda: self._by_warmth(best))

    def _by_warmth(self, best: MonthDay) -> tuple[timedelta, str]:
        usual = self.on(best)
        by = END_OF_GROWTH if LATE_SUMMER < best < END_OF_GROWTH else best
        found = self._expected(by)
        if found is None:
            return timedelta(0), self.by_months if self.outlook is not None else self.no_weather
        moved = found.day - self.on(by)
        if not moved:
            return moved, found.because
        side = phrase("later") if moved > timedelta(0) else phrase("earlier")
        said = phrase(
            "In a cool temperate place its day is {usual}; here that comes "
            "{days} days {side}. {because}",
            usual=day_and_month(usual),
            days=abs(moved.days),
            side=side,
            because=found.because,
        )
        return moved, joined(said, found.because)

    @property
    def by_months(self) -> str:
        """The datum of a window that rests on months alone."""
        return phrase(
            "By the months of the {value} hemisphere.",
            value=phrase("southern") if self.southern else phrase("northern"),
        )

    @property
    def no_weather(self) -> str:
        """The datum of what would rest on weather, where nothing is known of it."""
        return f"{self.by_months} {phrase(NO_WEATHER)}"

    def season(self, name: SeasonName) -> Season:
        """Meteorological seasons inside the growing year; winter is its first two months."""
        return Season(name, *map(self.on, SEASON_DAYS[name]))

    def stage(self, code: int) -> Stage | None:
        """When this tree reaches the stage this year; None where the species has no such stage.

        A stage that was seen beats one that is expected. Expected is what the sums of the place
        say, or the months of the hemisphere where nothing is known of its weather.
        """
        if code in self.seen:
            day = self.seen[code]
            return Stage(code, day, day, day, True, phrase("It was seen on {day}.", day=day))
        if code not in self.stage_months:
            return None
        if self.outlook is None and not self.seen:
            return self._by_months(code, self.no_weather)
        return self._once("stages", self._stages_kept)[code]

    def _once(self, what: object, work: Callable[[], T]) -> T:
        """What was told before of a year, and else is now. A year beside it has other days, as it
        was known last Monday another outlook."""
        if self.told is None:
            return work()
        key = what, self.first, id(self.outlook)
        found: T | None = self.told.get(key)
        if found is None:
            found = self.told[key] = work()
        return found

    def _stages_kept(self) -> Mapping[int, Stage]:
        """Every stage of the species this year; those of a place are kept with its weather."""
        if self.outlook is None:
            return self._stages()
        seen = tuple(sorted(self.seen.items()))
        key = ("stages", self.first, id(self.stage_months), self.wants, self.own, seen)
        return self.outlook.kept(key, self._stages)

    def _stages(self) -> Mapping[int, Stage]:
        """Every stage of the species this year.

        A stage comes no sooner after the one that usually comes before it than a third of the
        usual time between the two (ours): so a mild winter, or a stage that was seen at an odd
        time, does not turn their order round.
        """
        stages: dict[int, Stage] = {}
        before: Stage | None = None
        usual = {code: self.on(days[1]) for code, days in self.stage_months.items()}
        for code in sorted(usual, key=usual.__getitem__):
            stage = self._seen_or_expected(code)
            if before is not None and not stage.observed:
                gap = usual[code] - usual[before.code]
                least = before.day + gap / 3
                if stage.day < least:
                    late = least - stage.day
                    stage = Stage(
                        code,
                        stage.first + late,
                        least,
                        stage.last + late,
                        False,
                        joined(
                            phrase(
                                "{because} But it follows {stage_name}.",
                                because=stage.because,
                                stage_name=continued(stage_name(before.code)),
                            ),
                            stage.because,
                        ),
                    )
            stages[code] = before = stage
        return stages

    def _seen_or_expected(self, code: int) -> Stage:
        if code in self.seen:
            day = self.seen[code]
            return Stage(code, day, day, day, True, phrase("It was seen on {day}.", day=day))
        if self.outlook is None:
            return self._by_months(code, self.no_weather)
        usual = self.stage_months[code][1]
        # Growth that ends in August moves with that of most trees, and not with July's heat.
        ends_early = code >= 91 and LATE_SUMMER < usual < END_OF_GROWTH
        found = self._expected(END_OF_GROWTH if ends_early else usual)
        if found is not None and ends_early:
            sooner = self.on(usual) - self.on(END_OF_GROWTH)
            found = found._replace(
                first=found.first + sooner, day=found.day + sooner, last=found.last + sooner
            )
        if found is None:
            datum = phrase(
                "{by_months} By its weather it does not come this year.", by_months=self.by_months
            )
            return self._by_months(code, datum)
        return self._frosted(code, found)

    def _expected(self, usual: MonthDay) -> Expected | None:
        """When the sums of a cool place's day are reached; far off by what last Monday knew."""
        if self.outlook is None:
            return None
        found = self.outlook.stage(self.first, usual, self.wants, self.own, self.last)
        if found is not None and (found.day - self.today).days > DAYS_EXACT:
            monday = self.outlook.last_monday
            found = monday.stage(self.first, usual, self.wants, self.own, self.last)
        return found

    def _frosted(self, code: int, found: Expected) -> Stage:
        """A stage as expected, and leaf fall no longer after the hard frosts than is usual."""
        days, because = [found.first, found.day, found.last], found.because
        frost = self._leaf_frost(code)
        if frost is not None:
            usual = self.on(self.stage_months[code][1])
            late = usual - self.on(reference_frost(code))
            latest = [frost.first + late, frost.day + late, frost.last + late]
            if latest[1] < days[1]:
                because = joined(
                    phrase(
                        "{because} But frost brings it: {because_2}",
                        because=because,
                        because_2=frost.because,
                    ),
                    found.because,
                )
            days = list(map(min, days, latest))
        window = self.rounded(Window(days[0], days[1], max(days[1:])))
        return Stage(code, window.opens, window.best, window.closes, False, because)

    def _leaf_frost(self, code: int) -> Turn | None:
        """The nights that bring a stage of leaf fall in the open."""
        if code not in BROUGHT_BY_C or self.cover:
            return None
        return self.cold_nights_begin(BROUGHT_BY_C[code])

    def _by_months(self, code: int, datum: str) -> Stage:
        first, day, last = (self.on(md) for md in self.stage_months[code])
        return Stage(code, first, day, last, False, datum)

    @property
    def last_monday(self) -> Year:
        """The year as it was known at the end of the last Monday."""
        if self.outlook is None or self.outlook.last_monday is self.outlook:
            return self
        return replace(self, outlook=self.outlook.last_monday)

    @property
    def following(self) -> Year:
        """The growing year after this one, of which nothing is seen yet."""
        name, first, last = growing_year_of(self.last + timedelta(days=1), self.southern)
        return replace(self, name=name, first=first, last=last, seen={})

    def stays_over(self, celsius: float) -> date | None:
        """The last day of the average year whose mean is not under a temperature (°C); None where
        none is, or nothing is known."""
        return None if self.outlook is None else self.outlook.stays_over(self.first, celsius)

    def rounded(self, window: Window) -> Window:
        """The window with every day that is more than three weeks off set to a Monday.

        The weather moves windows every day; so a calendar that was subscribed to keeps still.
        """
        if (window.closes - self.today).days <= DAYS_EXACT:
            return window
        opens = self._to_week(window.opens)
        best = max(opens, self._to_week(window.best))
        return Window(opens, best, max(best, self._to_week(window.closes)))

    def _to_week(self, day: date) -> date:
        if (day - self.today).days <= DAYS_EXACT:
            return day
        # Ordinal 1 is a Monday.
        monday = date.fromordinal(round((day.toordinal() - 1) / 7) * 7 + 1)
        return min(max(monday, self.first), self.last) if self.first <= day <= self.last else monday

    def expected_mean(self, day: date, days: int) -> Temperature | None:
        """The mean temperature under the cover over so many days from a day, in °C.

        As measured, and as the climate leads to expect; None where nothing is known.
        """
        if self.outlook is None:
            return None
        return Temperature(*self.outlook.mean(day, days))

    def usual_mean(self, day: date, days: int) -> Temperature | None:
        """The mean temperature of the average year over so many days from a day, in °C."""
        if self.outlook is None:
            return None
        return Temperature(*self.outlook.usual_mean(day, days))

    def cold_nights_end(self, limit_c: float) -> Turn | None:
        """The last night of spring at or under a temperature (°C), by the air in the open.

        None where nothing is known of the weather, or where such nights do not come.
        """
        return self._turn(
            self._nights(lambda outlook: outlook.cold_nights_end(self.first, limit_c))
        )

    def cold_nights_begin(self, limit_c: float) -> Turn | None:
        """The first night of autumn at or under a temperature; None as `cold_nights_end`."""
        return self._turn(
            self._nights(lambda outlook: outlook.cold_nights_begin(self.first, limit_c))
        )

    def hard_nights(self, limit_c: float) -> HardNights | None:
        """When nights at or under a temperature (°C) come in the winter that the year ends with.

        With a lean to the cold side; also where they are only close. None where nothing is known
        of the weather, or where such nights are not to be expected.
        """
        return self._nights(lambda outlook: outlook.hard_nights(self.first, limit_c))

    def _nights(self, ask: Callable[[Outlook], _Nights | None]) -> _Nights | None:
        """What is known of cold nights; what is far off as it was known last Monday."""
        if self.outlook is None:
            return None
        found = ask(self.outlook)
        if found is not None and (found.first - self.today).days > DAYS_EXACT:
            return ask(self.outlook.last_monday)
        return found

    def hot_spells(self, high_c: float) -> tuple[Span, ...]:
        """The times of year whose days reach a temperature (°C) on the average."""
        return () if self.outlook is None else self.outlook.hot_spells(self.first, high_c)

    def _turn(self, found: NightsTurn | None) -> Turn | None:
        if found is None:
            return None
        window = self.rounded(Window(found.first, found.day, found.last))
        return Turn(window.opens, window.best, window.closes, found.because)
