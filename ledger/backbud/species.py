"""What a species plugin is: the public interface.

A plugin is a class with facts and small rules. A rule is a method under `@after`, `@each` or
`@when`; it gets the tree as it was, the event or the season or the stage, and the year at the
tree's place, and yields proposals. It imports from `backbud.species`, `backbud.bench` and
`backbud.climate` and from nothing else of backbud.

    class FieldMaple(Species):
        botanical = "Acer campestre"
        common = ("field maple",)

        @after("repotted", rule="field-maple-feed")
        def feeding_begins(self, tree: Tree, done: Event, year: Year) -> Proposals:
            yield Proposal("fed", days_after(done.day, 28, 35, 49),
                           because="Cut roots take up no feed for about four weeks.")

The interface is versioned: `INTERFACE`. A plugin may say `interface = 1`.
"""

from __future__ import annotations

import calendar
from collections.abc import Callable, Iterable, Iterator, Mapping
from datetime import date, timedelta
from functools import partial
from typing import Any, ClassVar, Generic, Literal, NamedTuple, TypeVar

from msgspec import Struct
from msgspec.structs import replace

from backbud.bench.bite import USUAL_GIRTH_GROWTH_MM
from backbud.bench.pots import Pot
from backbud.climate.cold_turns import HardNights, NightsTurn
from backbud.climate.coldest_night import ColdestNight
from backbud.climate.datum import Datum, is_expected, joined
from backbud.climate.outlook import Outlook, Span, Wants
from backbud.climate.stages import Own
from backbud.collection.hard_work import (
    SEASON,
    Extent,
    is_hard_pruning,
    is_root_work,
    parts_of,
    share_of,
    stresses,
)
from backbud.collection.state import Entry, OnTree, Tree, Zone
from backbud.collection.wedges import Ring, Wedge, ring, wedges_in
from backbud.collection.zones import zone_scores
from backbud.journal.events import Event
from backbud_grammar.act_words import (
    ActWord,
    DetailName,
    DetailWord,
    SettledBy,
    as_act,
    as_detail,
    as_settling,
    as_word,
)
from backbud_grammar.dates import growing_year, growing_year_days
from backbud_grammar.forms import ANY_WORDS, ActForm, Effort, Form, Trait

__all__ = [
    "ANY_WORDS",
    "COMMON_PRACTICE",
    "FEED_RESTS_OVER",
    "FROM_MEMORY",
    "INTERFACE",
    "SEASON",
    "SLOW_DRAIN_FROM",
    "ActForm",
    "ActWord",
    "Datum",
    "DetailName",
    "DetailWord",
    "Effort",
    "Entry",
    "Event",
    "Extent",
    "Fact",
    "Figure",
    "Form",
    "OnTree",
    "Proposal",
    "Proposals",
    "RepotInterval",
    "Ring",
    "Rule",
    "Season",
    "Section",
    "SettledBy",
    "Species",
    "Stage",
    "StageMonths",
    "Temperature",
    "Trait",
    "Tree",
    "Turn",
    "Wants",
    "Wedge",
    "Window",
    "Year",
    "Zone",
    "after",
    "after_stage",
    "as_act",
    "as_detail",
    "as_settling",
    "as_word",
    "days_after",
    "each",
    "is_expected",
    "is_hard_pruning",
    "is_root_work",
    "joined",
    "out_of_the_heat",
    "parts_of",
    "ring",
    "rules_of",
    "share_of",
    "stage_name",
    "stresses",
    "wedges_in",
    "weeks_after",
    "when",
    "zone_scores",
]

INTERFACE = 1

T = TypeVar("T")

SeasonName = Literal["spring", "summer", "autumn", "winter", "year"]

COMMON_PRACTICE = "common practice, no source"
FROM_MEMORY = "from memory"
NO_WEATHER = "The lows and highs of twelve months are not known here."
# Further off than this, days that the weather moves are set to whole weeks.
DAYS_EXACT = 21


class Fact(Struct, Generic[T], frozen=True):
    """A figure and where it comes from: a published source, COMMON_PRACTICE or FROM_MEMORY."""

    value: T
    source: str


class Figure(NamedTuple):
    """A number of ours and not the trade's: its name in the settings, its default, its meaning."""

    name: str
    default: float
    about: str

    def among(self, figures: Mapping[str, float]) -> float:
        """The number as set, or its default."""
        return figures.get(self.name, self.default)

    def of(self, year: Year) -> float:
        """The number as set where the tree stands."""
        return self.among(year.figures)


class RepotInterval(NamedTuple):
    """Least, usual and most years between repottings of a young and of an old tree.

    Young is a tree known to be under `young_until_years` years old, old one that is known to be
    `old_from_years` or more; every other goes by the species' `repot_years`.
    """

    young: tuple[int, int, int]
    old: tuple[int, int, int]
    young_until_years: int = 10
    old_from_years: int = 40


SLOW_DRAIN_FROM = Figure(
    "slow_drain_from_s", 60.0, "Seconds a can of water takes to pass from which soil drains slowly."
)


FEED_RESTS_OVER = Figure(
    "feed_rests_over_c", 32.0, "Mean high of the day in °C from which roots take up no feed."
)


class Window(Struct, frozen=True, gc=False):
    """When a work may be done: the first day, the best day, the last day (all included)."""

    opens: date
    best: date
    closes: date

    def __post_init__(self) -> None:
        if not self.opens <= self.best <= self.closes:
            raise ValueError(f"window not in order: {self.opens} {self.best} {self.closes}")


def days_after(day: date, opens: int, best: int, closes: int) -> Window:
    """The window so many days after a day."""
    return Window(*(day + timedelta(days=n) for n in (opens, best, closes)))


def weeks_after(day: date, opens: int, best: int, closes: int) -> Window:
    """The window so many weeks after a day."""
    return days_after(day, 7 * opens, 7 * best, 7 * closes)


def out_of_the_heat(year: Year, window: Window, datum: str) -> tuple[Window, str]:
    """A window for feeding, moved out of the hot weeks of a place, and the datum that says so.

    It ends before them where it opened before, else it begins after them.
    """
    hot = year.hot_days(FEED_RESTS_OVER.of(year))
    if hot is None or not hot.first <= window.best <= hot.last:
        return window, datum
    said = joined(
        f"{hot.because.removesuffix('.')}, and feed rests from {hot.first} to {hot.last} "
        f"({FEED_RESTS_OVER.name}, a setting of ours).",
        hot.because,
    )
    if window.opens < hot.first:
        before = hot.first - timedelta(days=1)
        return Window(window.opens, before, before), said
    after = hot.last + timedelta(days=1)
    return Window(after, after, max(window.closes, after + timedelta(days=21))), said


def after_stage(stage: Stage, opens: int, best: int, closes: int) -> Window:
    """The window so many days after a stage's first, usual and last day; before it, if negative."""
    days = ((stage.first, opens), (stage.day, best), (stage.last, closes))
    return Window(*(day + timedelta(days=n) for day, n in days))


class Proposal(Struct, frozen=True):
    """What a rule yields: an act that is expected, when, and why.

    `act`: a word of the table of acts. `what`: the words that make the act plain ("wire on left
    2"); title and calendar show "check wire on left 2". `because`: the rule in one sentence.
    `datum`: the figure that decided, in one sentence; words put to one that came from the year go
    through `joined`, so that what is only expected stays known. `settled_by`: acts that settle it
    (the act itself when empty). `part`: tells apart equal acts of one tree and day. `lapses`:
    advice that ends with its window and is never overdue. `minutes`: 0 takes the usual time of
    the act. `early_days`: how many days before its window the act already counts as done; None
    takes the usual ones (four weeks; root work half a year; a check or a taking off, any day).
    `wedges`:
    the wedges of the root ball that are to be opened. `extent`: how far it is taken: only in
    part, as usual, or hard.
    """

    act: ActWord
    window: Window
    because: str
    what: str = ""
    datum: str = ""
    cautions: tuple[str, ...] = ()
    settled_by: tuple[SettledBy, ...] = ()
    part: str = ""
    minutes: int = 0
    lapses: bool = False
    early_days: int | None = None
    wedges: tuple[str, ...] = ()
    extent: Extent = "usual"


Proposals = Iterator[Proposal]


class Section(Struct, frozen=True):
    """A part of a tree's page that a plugin writes: plain text, never HTML.

    `paragraphs` come first, then a table of `rows` under its `head`, where there are any.
    """

    title: str
    paragraphs: tuple[str, ...] = ()
    head: tuple[str, ...] = ()
    rows: tuple[tuple[str, ...], ...] = ()


class Season(Struct, frozen=True, gc=False):
    """A season of one growing year at one place, first and last day."""

    name: SeasonName
    first: date
    last: date


class Stage(Struct, frozen=True, gc=False):
    """A growth stage (BBCH) of one tree in one year: when it is, and how that is known.

    `because` is the datum in one sentence: a stage seen, or months for the hemisphere.
    """

    code: int
    first: date
    day: date
    last: date
    observed: bool
    because: str


class Temperature(Struct, frozen=True, gc=False):
    """A mean temperature over some days, and how that is known, in one sentence."""

    celsius: float
    because: str


class Turn(Struct, frozen=True, gc=False):
    """When the weather turns: in eight of ten years between `first` and `last`; and the datum."""

    first: date
    day: date
    last: date
    because: str


# BBCH stages in the words of the bench, from memory of the monograph (Meier 2001).
STAGE_NAMES: Mapping[int, str] = {
    0: "Winter rest",
    1: "Bud swelling",
    7: "Bud burst",
    10: "First leaves",
    11: "First leaf open",
    19: "First leaves hard",
    31: "Shoots begin to grow",
    51: "Flower buds swelling",
    55: "Flower buds showing",
    59: "Flower buds colouring",
    60: "First flowers",
    65: "Full flower",
    69: "End of flowering",
    71: "Fruit set",
    81: "Fruit colouring",
    89: "Fruit ripe",
    91: "Shoot growth complete",
    93: "Leaf fall begins",
    97: "Leaf fall over",
}


def stage_name(code: int) -> str:
    """What a BBCH stage is called; one with no name of its own by the nearest before it."""
    named = max(known for known in STAGE_NAMES if known <= max(code, 0))
    return STAGE_NAMES[named] if named == code else f"{STAGE_NAMES[named]}, further on"


# A day of a northern year; the south is shifted by six months.
MonthDay = tuple[int, int]
# For each BBCH stage its first, usual and last day.
StageMonths = Mapping[int, tuple[MonthDay, MonthDay, MonthDay]]


class Growth(Struct, frozen=True):
    """How a tree's wood grows, as it stands today: the weather of its place, the base temperature
    of its heat sum, its vigour from 1 to 5, the girth that a branch of vigour 3 gains in a season,
    and the wire that is on it."""

    outlook: Outlook
    base_c: float
    vigour: int
    girth_mm: float
    wires: tuple[OnTree, ...] = ()


_A_YEAR = timedelta(days=365)
_Nights = TypeVar("_Nights", NightsTurn, HardNights)


class Year(Struct, frozen=True):
    """One growing year (January to December; July to June in the south) at a tree's place.

    `name`: "2027", or "2026/27". `today`: the day up to which the weather is known. `seen`: stages
    seen on this tree this year. `stage_months`, `wants`, `wire_weeks`: the species' own. `own`:
    how this tree's heat sums compare with its species'. `cover`: what is over the place.
    `outlook`: the weather of the place, None where nothing is known of it. `roots_bear`: the
    coldest night its roots bear in this pot, `young_roots_bear`: young ones in any (`bears` says
    which holds for a tree); `comes_in_below_c`: the coldest a tender tree stays
    out in; `growth`: of its wood, as it stands today; `pot`: what it stands in; None where that is
    not known. `coldest_said`: the coldest night by its card, where nothing else is known of the
    weather. `figures`: numbers from the settings.
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
    wire_weeks: tuple[int, int, int] = (4, 6, 8)
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

    def bears(self, tree: Tree, day: date) -> Temperature | None:
        """The coldest night that this tree's roots bear in this pot: as young ones do where they
        were cut within a year of the day; None where the species does not say."""
        cut, young = tree.last_with("cuts_roots"), self.young_roots_bear
        if cut is None or young is None or cut.day + _A_YEAR < day:
            return self.roots_bear
        return Temperature(young.celsius, f"Its roots were cut on {cut.day}: {young.because}")

    def on(self, month_day: MonthDay) -> date:
        """The day of this growing year that a northern month and day means here."""
        month, day = month_day
        if self.southern:
            month += 6 if month <= 6 else -6
        year = self.first.year if month >= self.first.month else self.last.year
        return date(year, month, min(day, calendar.monthrange(year, month)[1]))

    def months(self, opens: MonthDay, best: MonthDay, closes: MonthDay) -> Window:
        """A window by northern months, shifted for the hemisphere.

        In a growing year of the south a window never crosses its end: northern January to
        December is southern July to June.
        """
        return Window(self.on(opens), self.on(best), self.on(closes))

    @property
    def by_months(self) -> str:
        """The datum of a window that rests on months alone."""
        return f"By the months of the {'southern' if self.southern else 'northern'} hemisphere."

    @property
    def no_weather(self) -> str:
        """The datum of what would rest on weather, where nothing is known of it."""
        return f"{self.by_months} {NO_WEATHER}"

    def season(self, name: SeasonName) -> Season:
        """Meteorological seasons inside the growing year; winter is its first two months."""
        spans: dict[str, tuple[MonthDay, MonthDay]] = {
            "spring": ((3, 1), (5, 31)),
            "summer": ((6, 1), (8, 31)),
            "autumn": ((9, 1), (11, 30)),
            "winter": ((1, 1), (2, 29)),
            "year": ((1, 1), (12, 31)),
        }
        first, last = spans[name]
        return Season(name, self.on(first), self.on(last))

    def stage(self, code: int) -> Stage | None:
        """When this tree reaches the stage this year; None where the species has no such stage.

        A stage that was seen beats one that is expected. Expected is what the sums of the place
        say, or the months of the hemisphere where nothing is known of its weather.
        """
        if code in self.seen:
            day = self.seen[code]
            return Stage(code, day, day, day, True, f"It was seen on {day}.")
        if code not in self.stage_months:
            return None
        if self.outlook is None:
            return self._by_months(code, self.no_weather)
        seen = tuple(sorted(self.seen.items()))
        key = ("stages", self.first, id(self.stage_months), self.wants, self.own, seen)
        return self.outlook.kept(key, self._stages)[code]

    def _stages(self) -> Mapping[int, Stage]:
        """Every stage of the species this year.

        A stage comes no sooner after the one that usually comes before it than a third of the
        usual time between the two (ours): so a mild winter does not turn their order round.
        """
        stages: dict[int, Stage] = {}
        before: Stage | None = None
        for code in sorted(self.stage_months, key=lambda code: self.on(self.stage_months[code][1])):
            stage = self._seen_or_expected(code)
            if before is not None and not stage.observed:
                usual = self.on(self.stage_months[code][1])
                gap = usual - self.on(self.stage_months[before.code][1])
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
                            f"{stage.because} But it follows {stage_name(before.code).lower()}.",
                            stage.because,
                        ),
                    )
            stages[code] = before = stage
        return stages

    def _seen_or_expected(self, code: int) -> Stage:
        if code in self.seen:
            day = self.seen[code]
            return Stage(code, day, day, day, True, f"It was seen on {day}.")
        assert self.outlook is not None
        usual = self.stage_months[code][1]
        found = self.outlook.stage(self.first, usual, self.wants, self.own, self.last)
        if found is not None and (found.day - self.today).days > DAYS_EXACT:
            found = self.outlook.last_monday.stage(
                self.first, usual, self.wants, self.own, self.last
            )
        if found is None:
            datum = f"{self.by_months} By its weather it does not come this year."
            return self._by_months(code, datum)
        window = self.rounded(Window(found.first, found.day, found.last))
        return Stage(code, window.opens, window.best, window.closes, False, found.because)

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
        first, last = growing_year_days(self.last + timedelta(days=1), self.southern)
        name = growing_year(first, self.southern)
        return replace(self, name=name, first=first, last=last, seen={})

    def stays_over(self, celsius: float) -> date | None:
        """The last day of the average year whose mean is not under a temperature (°C); None where
        none is, or nothing is known."""
        return None if self.outlook is None else self.outlook.stays_over(self.first, celsius)

    def rounded(self, window: Window) -> Window:
        """The window with every day that is more than three weeks off set to a Monday.

        The weather moves windows every day; so a calendar that was subscribed to keeps still.
        """
        opens, best, closes = (self._to_week(d) for d in (window.opens, window.best, window.closes))
        best = max(opens, best)
        return Window(opens, best, max(best, closes))

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

    def hot_days(self, high_c: float) -> Span | None:
        """The time of year whose days reach a temperature (°C) on the average; None where none."""
        return None if self.outlook is None else self.outlook.hot_days(self.first, high_c)

    def _turn(self, found: NightsTurn | None) -> Turn | None:
        if found is None:
            return None
        window = self.rounded(Window(found.first, found.day, found.last))
        return Turn(window.opens, window.best, window.closes, found.because)


class Rule(Struct, frozen=True):
    """A rule as declared: its id string, what it hangs on, and the function.

    `having`: traits; it hangs on each act that has one of them too, a plugin's as well.
    """

    id: str
    hangs_on: Literal["act", "season", "stage"]
    acts: tuple[str, ...]
    season: SeasonName
    stage: int
    function: Callable[..., Iterable[Proposal]]
    having: tuple[Trait, ...] = ()

    def acts_of(self, table: Mapping[str, ActForm]) -> tuple[str, ...]:
        """The acts of a journal's table on which it hangs, in their past form."""
        wanted = set(self.having)
        more = (act.word for act in table.values() if not wanted.isdisjoint(act.traits))
        return tuple(dict.fromkeys((*self.acts, *more))) if wanted else self.acts


F = TypeVar("F", bound=Callable[..., Iterable[Proposal]])
_MARK = "__backbud_rule__"


def after(*acts: ActWord, having: tuple[Trait, ...] = (), rule: str) -> Callable[[F], F]:
    """The rule runs after each of these acts: `(self, tree, done: Event, year)`.

    `having`: and after each act that has one of these traits. `rule` is its id string, part of
    every follow-up's id: never change it.
    """
    return _marked(rule, "act", acts=acts, having=having)


def each(season: SeasonName, *, rule: str) -> Callable[[F], F]:
    """The rule runs each season of each growing year: `(self, tree, season: Season, year)`."""
    return _marked(rule, "season", season=season)


def when(stage: int, *, rule: str) -> Callable[[F], F]:
    """The rule runs each growing year the stage is reached: `(self, tree, stage: Stage, year)`."""
    return _marked(rule, "stage", stage=stage)


def _marked(
    rule: str,
    hangs_on: Literal["act", "season", "stage"],
    acts: tuple[str, ...] = (),
    season: SeasonName = "year",
    stage: int = -1,
    having: tuple[Trait, ...] = (),
) -> Callable[[F], F]:
    def mark(function: F) -> F:
        setattr(function, _MARK, Rule(rule, hangs_on, acts, season, stage, function, having))
        return function

    return mark


def rules_of(owner: object) -> tuple[Rule, ...]:
    """Every rule of a class, an instance or a module, ordered by id; functions ready to call.

    A species' rules are its methods and its `works`, whose ids go behind its `rule_prefix`.
    ValueError where two of them share an id, since follow-ups could not be told apart.
    """
    found: dict[str, Rule] = {}
    for rule in (*_methods(owner), *_works(owner)):
        if rule.id in found:
            raise ValueError(
                f"two rules of {getattr(owner, '__name__', type(owner).__name__)} have the id "
                f"“{rule.id}”; give one of them another"
            )
        found[rule.id] = rule
    return tuple(found[key] for key in sorted(found))


def _methods(owner: object) -> Iterator[Rule]:
    """The marked functions of a class, an instance or a module; one under two names once."""
    seen: list[object] = []
    for name in dir(owner):
        function: Any = getattr(owner, name, None)
        mark = getattr(function, _MARK, None)
        if isinstance(mark, Rule) and function not in seen:
            seen.append(function)
            yield replace(mark, function=function)


def _works(owner: object) -> Iterator[Rule]:
    """The rules made by builders; their functions take the species first, as methods do."""
    if not isinstance(owner, Species):
        return
    for rule in owner.works:
        yield replace(
            rule,
            id=f"{owner.rule_prefix or _slug(owner.botanical)}-{rule.id}",
            function=partial(rule.function, owner),
        )


def _slug(botanical: str) -> str:
    """`Acer palmatum` is `acer-palmatum`."""
    words = "".join(c if c.isalnum() else " " for c in botanical.casefold()).split()
    return "-".join(words)


class Species:
    """The base of every species: facts as class attributes, rules as methods.

    `botanical`: the name without a cultivar (ICNCP: `Rhododendron indicum`). `common`: common
    names, the first is the one shown. `also`: other names the journal may use. `evergreen`;
    `strongest`: where it grows strongest, acrotonic (at the top) or basitonic (at the base).
    `stage_months`: for each BBCH stage the first, usual and last northern month and day in a mild
    temperate place; the weather of a place moves them by `base_c`, the temperature over which a
    day's heat counts, and by `chill_portions`, the chill (Dynamic model) buds need before.
    `habit`: how it grows, in one sentence. `light`, `water`: what it asks for, each a sentence.
    `bark`: how its bark bears wire, in one sentence; shown as a caution with every wiring.
    `repot_years`: least, usual, most years between repottings in a pot; `repot_interval`: the
    same for a young and for an old tree, where they differ.
    `root_share`: the share of the root ball's volume that may go in a cool and in a warm place.
    `frost_limit_c`: the coldest night, in °C, that mature roots in a pot bear without protection,
    where it is not what the hardiness rating leads to expect; `young_frost_limit_c`: the same of
    young roots, of a tree repotted within a year or in a shallow pot; -5 °C (or what mature ones
    bear, where that is less) where none is known; `why_frost`: the reason in one sentence.
    `comes_in_below_c`: of a tender tree, the coldest night, in °C, that it stays outside in.
    `advice`: what whoever keeps the tree should know, `never`: what must not be done to it; each
    one sentence, for the care sheet.
    `works`: rules made by builders (`backbud_species.habits.works`), beside the methods;
    `rule_prefix`: what their ids begin with, never changed (the botanical name when empty).
    """

    interface: ClassVar[int] = INTERFACE
    botanical: ClassVar[str]
    common: ClassVar[tuple[str, ...]]
    also: ClassVar[tuple[str, ...]] = ()
    evergreen: ClassVar[bool] = False
    strongest: ClassVar[Literal["acrotonic", "basitonic"]] = "acrotonic"
    habit: ClassVar[str] = ""
    light: ClassVar[Fact[str] | None] = None
    water: ClassVar[Fact[str] | None] = None
    bark: ClassVar[Fact[str] | None] = None
    hardiness: ClassVar[Fact[str] | None] = None
    soil_ph: ClassVar[Fact[tuple[float, float]] | None] = None
    usual_mix: ClassVar[Fact[str] | None] = None
    repot_years: ClassVar[Fact[tuple[int, int, int]] | None] = None
    repot_interval: ClassVar[Fact[RepotInterval] | None] = None
    root_share: ClassVar[Fact[tuple[float, float]] | None] = None
    toxicity: ClassVar[Fact[str] | None] = None
    frost_limit_c: ClassVar[Fact[float] | None] = None
    young_frost_limit_c: ClassVar[Fact[float] | None] = None
    comes_in_below_c: ClassVar[Fact[float] | None] = None
    why_frost: ClassVar[str] = "Roots in a pot die in cold that the top still bears."
    advice: ClassVar[tuple[str, ...]] = ()
    never: ClassVar[tuple[str, ...]] = ()
    stage_months: ClassVar[StageMonths] = {}
    base_c: ClassVar[Fact[float]] = Fact(5.0, COMMON_PRACTICE)
    chill_portions: ClassVar[Fact[float] | None] = None
    wire_check_weeks: ClassVar[Fact[tuple[int, int, int]]] = Fact((4, 6, 8), COMMON_PRACTICE)
    girth_growth_mm: ClassVar[Fact[float]] = Fact(USUAL_GIRTH_GROWTH_MM, COMMON_PRACTICE)
    rule_prefix: ClassVar[str] = ""
    works: ClassVar[tuple[Rule, ...]] = ()

    @property
    def title(self) -> str:
        return self.common[0]
