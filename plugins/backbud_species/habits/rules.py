"""Makes a rule of a builder's question: what it hangs on, and the window that it is asked for."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from backbud.species import (
    ActWord,
    Event,
    Proposal,
    Proposals,
    Rule,
    Season,
    Species,
    Stage,
    Trait,
    Tree,
    Window,
    WorkTime,
    Year,
)
from backbud_species.habits.times import Time

# The window and the datum that its time gives it.
Asked = Callable[[Species, Tree, Year, Window, str], Proposals]


def yearly(
    rule_id: str,
    when: Time,
    ask: Asked,
    act: ActWord | None = None,
    also: Callable[[Year], Window | None] | None = None,
    as_climate_gives: Callable[[Window, Year], Window] | None = None,
) -> Rule:
    """A rule that comes round with a season or a stage.

    `act`: the work whose time it is, by which one that is done at another time is judged; `also`:
    other days that do; `as_climate_gives`: what the climate of a place makes of the days, whatever
    the tree.
    """

    def window(given: Stage | Season, year: Year) -> Window:
        usual = when.window(given, year)
        return as_climate_gives(usual, year) if as_climate_gives else usual

    def function(
        species: Species, tree: Tree, given: Stage | Season, year: Year
    ) -> Iterator[Proposal]:
        yield from ask(species, tree, year, when.window(given, year), when.datum(given, year))

    return Rule(
        rule_id,
        when.hangs_on,
        (),
        when.season,
        when.stage,
        function,
        time=WorkTime(act, window, also) if act else None,
    )


def hung_after(
    rule_id: str,
    acts: tuple[ActWord, ...],
    ask: Callable[[Species, Tree, Event, Year], Proposals],
    having: tuple[Trait, ...] = (),
) -> Rule:
    """A rule that hangs on these acts, and on every act of one of these traits."""
    return Rule(rule_id, "act", acts, "year", -1, ask, having)
