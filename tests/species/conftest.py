"""Small builders of what a rule is given: events read from act lines, trees, growing years."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from datetime import date
from typing import Any

import pytest

from backbud.climate.air import PlaceAir
from backbud.climate.cold_region import Region
from backbud.climate.days import MonthlyMeans
from backbud.climate.outlook import Outlook, Wants
from backbud.climate.stages import Expected, Own
from backbud.collection.state import Entry, OnTree, Tree, Zone
from backbud.journal.events import Event
from backbud.plan.covers import cover_from
from backbud.plan.root_limits import roots_bear
from backbud.species import Proposal, Season, Species, Year, rules_of
from backbud_grammar.acts import ACTS, ROWS, by_word
from backbud_grammar.dates import read_date
from backbud_grammar.parse import Details

WORDS = by_word(ACTS)
DETAILS = Details(WORDS)

# Invented monthly means in °C, January first. The cool place's months average (low + high) / 2:
# June 13.5, July 15.5, August 15.0; the warm place's 22.0, 25.5, 25.0.
COOL_LOW = (1.0, 1.0, 2.0, 4.0, 6.0, 9.0, 11.0, 11.0, 9.0, 6.0, 3.0, 1.0)
COOL_HIGH = (6.0, 7.0, 9.0, 12.0, 15.0, 18.0, 20.0, 19.0, 17.0, 13.0, 9.0, 6.0)
WARM_LOW = (3.0, 4.0, 7.0, 11.0, 14.0, 18.0, 21.0, 21.0, 17.0, 13.0, 8.0, 4.0)
WARM_HIGH = (10.0, 12.0, 15.0, 19.0, 23.0, 26.0, 30.0, 29.0, 26.0, 20.0, 15.0, 11.0)
# Between the two: the cool place with the summer months 4 °C warmer, so 17.5, 19.5 and 19.0.
MILD_LOW = (*COOL_LOW[:5], 13.0, 15.0, 15.0, *COOL_LOW[8:])
MILD_HIGH = (*COOL_HIGH[:5], 22.0, 24.0, 23.0, *COOL_HIGH[8:])
PLACES = {
    "cool": (COOL_LOW, COOL_HIGH),
    "mild": (MILD_LOW, MILD_HIGH),
    "warm": (WARM_LOW, WARM_HIGH),
    "unknown": ((), ()),
}
# The warm place is as Tokyo, where nights swing little.
REGIONS: Mapping[str, Region] = {"cool": "Europe", "mild": "Europe", "warm": "East Asia"}


# So long after the year that no day is set to whole weeks.
LONG_AFTER = date(2029, 1, 1)


class UsualDays(Outlook):
    """A place where every stage comes on the species' usual day.

    So the rules are tested on days that can be read from the species; how the weather moves them
    is tested with the climate.
    """

    def stage(
        self, year: date, usual: tuple[int, int], wants: Wants, own: Own, until: date
    ) -> Expected | None:
        return None


def turned(means: tuple[float, ...]) -> tuple[float, ...]:
    """The same climate in the southern hemisphere: six months later."""
    return means[6:] + means[:6]


class Made:
    """The builders, and `asked`: what the rules of a species propose."""

    def event(self, day: str, act: str, text: str = "") -> Event:
        """An act line as the journal reads it; a line that it does not read fails the test."""
        reading = DETAILS.of(WORDS[act], text)
        assert reading.flaws == (), reading.flaws
        return Event(
            act,
            read_date(day),
            reading.details,
            text,
            "",
            reading.named,
            "tree",
            "diary/test.txt",
            1,
            3,
            row=WORDS[act],
        )

    def tree(
        self,
        *done: Event,
        strength: str = "",
        root_ball: str = "",
        opened: Mapping[str, str] | None = None,
        zones: Mapping[str, int] | None = None,
        wire: bool = False,
        owner: str = "",
        planted_out: bool = False,
    ) -> Tree:
        history = tuple(sorted(done, key=lambda event: event.day))
        sizes = {}
        if root_ball:
            measured = self.event("2020-01-01", "measured", f"root ball {root_ball}")
            sizes["root ball"] = measured.measure("root ball")
        on: tuple[OnTree, ...] = ()
        if wire:
            put_on = self.event("2026-11-01", "wired", "2 mm Al on left 1")
            on = (OnTree("wire", "2 mm Al", "left 1", 1, put_on.day, put_on),)
        values: dict[str, Any] = {
            "handle": "sora",
            "first_handle": "sora",
            "name": "",
            "kind": "",
            "cultivar": "",
            "standing": "here",
            "standing_since": None,
            "owner": owner,
            "place": "yard",
            "pot": "",
            "mix": "",
            "strength": strength,
            "planted_out": planted_out,
            "quarantined": False,
            "wanted": "",
            "sizes": sizes,
            "facts": {},
            "zones": tuple(
                Zone(name, score, date(2027, 1, 1)) for name, score in (zones or {}).items()
            ),
            "opened": tuple(
                (name, date.fromisoformat(day)) for name, day in (opened or {}).items()
            ),
            "on_tree": on,
            "last": {event.act: event for event in history},
            "history": tuple(Entry(event) for event in history),
        }
        return Tree(**values)

    def year(
        self,
        species: Species,
        place: str = "cool",
        *,
        southern: bool = False,
        cover: str = "",
        seen: Mapping[int, str] | None = None,
        figures: Mapping[str, float] | None = None,
        low: tuple[float, ...] | None = None,
    ) -> Year:
        """The growing year 2027 (south: 2027/28) at one of the places above; "unknown" has none."""
        means = PLACES[place]
        lows, highs = (turned(m) if southern else m for m in means)
        first, last = (
            (date(2027, 7, 1), date(2028, 6, 30))
            if southern
            else (date(2027, 1, 1), date(2027, 12, 31))
        )
        figures = figures or {}
        outlook = None
        if lows:
            air = PlaceAir(
                {},
                MonthlyMeans(lows if low is None else low, highs),
                LONG_AFTER,
                "the place's monthly means",
            )
            outlook = UsualDays(
                air,
                cover_from(cover, figures).shift,
                latitude=-50.0 if southern else 50.0,
                southern=southern,
                region=REGIONS[place],
            )
        return Year(
            "2027/28" if southern else "2027",
            first,
            last,
            LONG_AFTER,
            southern,
            "yard",
            cover,
            {code: date.fromisoformat(day) for code, day in (seen or {}).items()},
            species.stage_months,
            figures,
            species.wire_check_weeks.value,
            outlook=outlook,
            roots_bear=roots_bear(species, None, figures),
            comes_in_below_c=species.comes_in_below_c and species.comes_in_below_c.value,
            why_frost=species.why_frost,
        )

    def after(
        self, species: Species, rule: str, tree: Tree, done: Event, year: Year
    ) -> list[Proposal]:
        """What one rule proposes after an event."""
        found = next(r for r in rules_of(species) if r.id == rule)
        if done.act not in found.acts_of(ROWS):
            return []
        return list(found.function(tree, done, year))

    def yearly(self, species: Species, tree: Tree, year: Year, rule: str = "") -> list[Proposal]:
        """What the rules of seasons and stages propose in the year, or one of them."""
        return [proposal for _, proposal in self.yearly_by_rule(species, tree, year, rule)]

    def yearly_by_rule(
        self, species: Species, tree: Tree, year: Year, rule: str = ""
    ) -> Iterator[tuple[str, Proposal]]:
        for found in rules_of(species):
            if rule and found.id != rule:
                continue
            cause: Any = None
            if found.hangs_on == "season":
                cause = year.season(found.season)
                assert isinstance(cause, Season)
            elif found.hangs_on == "stage":
                cause = year.stage(found.stage)
                assert cause is not None, f"{found.id} hangs on a stage the species never has"
            if cause is not None:
                for proposal in found.function(tree, cause, year):
                    yield found.id, proposal


@pytest.fixture
def made() -> Made:
    return Made()


@pytest.fixture
def only() -> Callable[[list[Proposal]], Proposal]:
    """The one proposal of a list; more or none fails the test."""

    def one(proposals: list[Proposal]) -> Proposal:
        assert len(proposals) == 1, proposals
        return proposals[0]

    return one
