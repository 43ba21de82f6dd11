"""Rules, and the decorators that hang one on an act, a season or a growth stage."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from typing import Any, Literal, TypeVar

from msgspec import Struct

from backbud.species.facts import COMMON_PRACTICE
from backbud.species.proposals import Proposal
from backbud.species.windows import Window
from backbud.species.year import Year
from backbud.species.year_told import SeasonName
from backbud_grammar.act_words import ActWord
from backbud_grammar.forms import ActForm, Trait


class WorkTime(Struct, frozen=True):
    """The work of a yearly rule, and the days that it has for it in a year, whatever the tree.

    `also`: other days on which it is done as well, though nothing asks for it then.
    """

    act: ActWord
    window: Callable[[Any, Year], Window]
    also: Callable[[Year], Window | None] | None = None


class Rule(Struct, frozen=True):
    """A rule as declared: its id string, what it hangs on, and the function.

    `having`: traits; it hangs on each act that has one of them too, a plugin's as well. `time`: of
    a yearly rule, what it asks for and when, by which such a work is judged. `source`: where the
    work and its time come from: a published source, COMMON_PRACTICE or FROM_MEMORY. `inside`: done
    only where a tender tree winters: in warmth, or in a room; nothing of it while it stands
    elsewhere. `as_it_stands`: of a yearly rule, that it is asked about the tree as it stands today,
    and not as it stood before the season.
    """

    id: str
    hangs_on: Literal["act", "season", "stage", "forecast"]
    acts: tuple[str, ...]
    season: SeasonName
    stage: int
    function: Callable[..., Iterable[Proposal]]
    having: tuple[Trait, ...] = ()
    source: str = COMMON_PRACTICE
    time: WorkTime | None = None
    inside: Literal["", "warmth", "room"] = ""
    as_it_stands: bool = False

    def acts_of(self, table: Mapping[str, ActForm]) -> tuple[str, ...]:
        """The acts of a journal's table on which it hangs, in their past form."""
        wanted = set(self.having)
        more = (act.word for act in table.values() if not wanted.isdisjoint(act.traits))
        return tuple(dict.fromkeys((*self.acts, *more))) if wanted else self.acts


F = TypeVar("F", bound=Callable[..., Iterable[Proposal]])
MARK = "__backbud_rule__"


def after(*acts: ActWord, having: tuple[Trait, ...] = (), rule: str) -> Callable[[F], F]:
    """The rule runs after each of these acts: `(self, tree, done: Event, year)`.

    `having`: and after each act that has one of these traits. `rule` is its id string, part of
    every follow-up's id: never change it.
    """
    return _marked(rule, "act", acts=acts, having=having)


def each(season: SeasonName, *, rule: str, as_it_stands: bool = False) -> Callable[[F], F]:
    """The rule runs each season of each growing year: `(self, tree, season: Season, year)`.

    It is given the tree as it was just before the season; `as_it_stands`: as it is today.
    """
    return _marked(rule, "season", season=season, as_it_stands=as_it_stands)


def foretold(year: Literal["winter", "year"], *, rule: str) -> Callable[[F], F]:
    """The rule runs while a forecast tells of days ahead: `(self, tree, season: Season, year)`.

    It is given the tree as it stands today and the growing year of today. What it asks for is of
    one winter, or of one growing `year`: the next of its kind takes the place of the last.
    """
    return _marked(rule, "forecast", season=year)


def when(stage: int, *, rule: str) -> Callable[[F], F]:
    """The rule runs each growing year the stage is reached: `(self, tree, stage: Stage, year)`."""
    return _marked(rule, "stage", stage=stage)


def _marked(
    rule: str,
    hangs_on: Literal["act", "season", "stage", "forecast"],
    acts: tuple[str, ...] = (),
    season: SeasonName = "year",
    stage: int = -1,
    having: tuple[Trait, ...] = (),
    as_it_stands: bool = False,
) -> Callable[[F], F]:
    def mark(function: F) -> F:
        marked = Rule(
            rule, hangs_on, acts, season, stage, function, having, as_it_stands=as_it_stands
        )
        setattr(function, MARK, marked)
        return function

    return mark
