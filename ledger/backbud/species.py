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
from functools import lru_cache
from typing import Any, ClassVar, Generic, Literal, TypeVar

from msgspec import Struct

from backbud.climate.months import mean_of_days_c
from backbud.collection.state import Entry, OnTree, Tree, Zone
from backbud.journal.events import Event

__all__ = [
    "COMMON_PRACTICE",
    "FROM_MEMORY",
    "INTERFACE",
    "Entry",
    "Event",
    "Fact",
    "OnTree",
    "Proposal",
    "Proposals",
    "Rule",
    "Season",
    "Species",
    "Stage",
    "StageMonths",
    "Temperature",
    "Tree",
    "Window",
    "Year",
    "Zone",
    "after",
    "after_stage",
    "days_after",
    "each",
    "rules_of",
    "weeks_after",
    "when",
]

INTERFACE = 1

T = TypeVar("T")

# Every tree of a place asks for the same few means.
_mean_of_days_c = lru_cache(maxsize=4096)(mean_of_days_c)

SeasonName = Literal["spring", "summer", "autumn", "winter", "year"]

COMMON_PRACTICE = "common practice, no source"
FROM_MEMORY = "from memory"


class Fact(Struct, Generic[T], frozen=True):
    """A figure and where it comes from: a published source, COMMON_PRACTICE or FROM_MEMORY."""

    value: T
    source: str


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


def after_stage(stage: Stage, opens: int, best: int, closes: int) -> Window:
    """The window so many days after a stage's first, usual and last day; before it, if negative."""
    days = ((stage.first, opens), (stage.day, best), (stage.last, closes))
    return Window(*(day + timedelta(days=n) for day, n in days))


class Proposal(Struct, frozen=True):
    """What a rule yields: an act that is expected, when, and why.

    `act`: a word of the table of acts. `what`: the words that make the act plain ("wire on left
    2"); title and calendar show "check wire on left 2". `because`: the rule in one sentence.
    `datum`: the figure that decided, in one sentence. `settled_by`: acts that settle it (the act
    itself when empty). `part`: tells apart equal acts of one tree and day. `lapses`: advice that
    ends with its window and is never overdue. `minutes`: 0 takes the usual time of the act.
    `early_days`: how many days before its window the act already counts as done; None takes the
    usual ones (four weeks; root work half a year; a check or a taking off, any day).
    """

    act: str
    window: Window
    because: str
    what: str = ""
    datum: str = ""
    cautions: tuple[str, ...] = ()
    settled_by: tuple[str, ...] = ()
    part: str = ""
    minutes: int = 0
    lapses: bool = False
    early_days: int | None = None


Proposals = Iterator[Proposal]


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
    """A mean temperature that is expected over some days, and how that is known."""

    celsius: float
    because: str


# A day of a northern year; the south is shifted by six months.
MonthDay = tuple[int, int]
# For each BBCH stage its first, usual and last day.
StageMonths = Mapping[int, tuple[MonthDay, MonthDay, MonthDay]]


class Year(Struct, frozen=True):
    """One growing year (January to December; July to June in the south) at a tree's place.

    `name`: "2027", or "2026/27". `low_c`, `high_c`: monthly means, January first, or () where the
    place has none. `seen`: stages seen on this tree this year. `stage_months`: the species' own.
    `cover`: what is over the place. `figures`: numbers from the settings. `wire_weeks`: the
    species' own `wire_check_weeks`.
    """

    name: str
    first: date
    last: date
    southern: bool
    place: str
    cover: str
    low_c: tuple[float, ...]
    high_c: tuple[float, ...]
    seen: Mapping[int, date]
    stage_months: StageMonths
    figures: Mapping[str, float]
    wire_weeks: tuple[int, int, int] = (4, 6, 8)

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

        A stage that was seen beats one that is expected. The heat sum of the place has its place
        here: until a climate model is given, what is expected goes by months.
        """
        if code in self.seen:
            day = self.seen[code]
            return Stage(code, day, day, day, True, f"Stage {code} was seen on {day}.")
        if code not in self.stage_months:
            return None
        first, day, last = (self.on(md) for md in self.stage_months[code])
        return Stage(code, first, day, last, False, self.by_months)

    def expected_mean(self, day: date, days: int) -> Temperature | None:
        """The mean air temperature expected over so many days from a day, in °C.

        From the place's monthly means; None where it has none.
        """
        if not self.low_c or not self.high_c:
            return None
        means = tuple((low + high) / 2 for low, high in zip(self.low_c, self.high_c, strict=True))
        celsius = _mean_of_days_c(means, day, days)
        return Temperature(
            celsius,
            f"The {days} days from {day} average {celsius:.1f} °C here "
            "(from the place's monthly means).",
        )

    def figure(self, name: str, default: float) -> float:
        """A number from the settings, or its default."""
        return self.figures.get(name, default)


class Rule(Struct, frozen=True):
    """A rule as declared: its id string, what it hangs on, and the function."""

    id: str
    hangs_on: Literal["act", "season", "stage"]
    acts: tuple[str, ...]
    season: SeasonName
    stage: int
    function: Callable[..., Iterable[Proposal]]


F = TypeVar("F", bound=Callable[..., Iterable[Proposal]])
_MARK = "__backbud_rule__"


def after(*acts: str, rule: str) -> Callable[[F], F]:
    """The rule runs after each of these acts: `(self, tree, done: Event, year)`.

    `rule` is its id string, part of every follow-up's id: never change it.
    """
    return _marked(rule, "act", acts=acts)


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
) -> Callable[[F], F]:
    def mark(function: F) -> F:
        setattr(function, _MARK, Rule(rule, hangs_on, acts, season, stage, function))
        return function

    return mark


def rules_of(owner: object) -> tuple[Rule, ...]:
    """Every rule of a class, an instance or a module, ordered by id; functions ready to call."""
    found: dict[str, Rule] = {}
    for name in dir(owner):
        function: Any = getattr(owner, name, None)
        mark = getattr(function, _MARK, None)
        if isinstance(mark, Rule):
            found[mark.id] = Rule(
                mark.id, mark.hangs_on, mark.acts, mark.season, mark.stage, function
            )
    return tuple(found[key] for key in sorted(found))


class Species:
    """The base of every species: facts as class attributes, rules as methods.

    `botanical`: the name without a cultivar (ICNCP: `Rhododendron indicum`). `common`: common
    names, the first is the one shown. `also`: other names the journal may use. `evergreen`;
    `strongest`: where it grows strongest, acrotonic (at the top) or basitonic (at the base).
    `stage_months`: for each BBCH stage the first, usual and last northern month and day.
    `repot_years`: least, usual, most years between repottings in a pot.
    `root_share`: the share of the root ball's volume that may go in a cool and in a warm place.
    `frost_limit_c`: the coldest night, in °C, that roots in a pot bear without protection.
    `advice`: what whoever keeps the tree should know, `never`: what must not be done to it; each
    one sentence, for the care sheet.
    """

    interface: ClassVar[int] = INTERFACE
    botanical: ClassVar[str]
    common: ClassVar[tuple[str, ...]]
    also: ClassVar[tuple[str, ...]] = ()
    evergreen: ClassVar[bool] = False
    strongest: ClassVar[Literal["acrotonic", "basitonic"]] = "acrotonic"
    hardiness: ClassVar[Fact[str] | None] = None
    soil_ph: ClassVar[Fact[tuple[float, float]] | None] = None
    usual_mix: ClassVar[Fact[str] | None] = None
    repot_years: ClassVar[Fact[tuple[int, int, int]] | None] = None
    root_share: ClassVar[Fact[tuple[float, float]] | None] = None
    toxicity: ClassVar[Fact[str] | None] = None
    frost_limit_c: ClassVar[Fact[float] | None] = None
    advice: ClassVar[tuple[str, ...]] = ()
    never: ClassVar[tuple[str, ...]] = ()
    stage_months: ClassVar[StageMonths] = {}
    wire_check_weeks: ClassVar[Fact[tuple[int, int, int]]] = Fact((4, 6, 8), COMMON_PRACTICE)

    @property
    def title(self) -> str:
        return self.common[0]
