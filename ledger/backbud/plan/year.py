"""Makes the growing year that a rule is given: a tree's stages, weather and limits at one place.

What the weather of a place says reaches the rules through this `Year` alone.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from datetime import date, timedelta
from functools import partial
from typing import Any

from msgspec import Struct

from backbud.bench.pots import Pot
from backbud.climate.ahead import SkyAhead
from backbud.climate.coldest_night import ColdestNight
from backbud.climate.outlook import Outlook, Wants
from backbud.climate.stages import Own
from backbud.collection.places import cover_of, is_winter_cover
from backbud.collection.state import Entry, Tree
from backbud.journal.read import Journal
from backbud.journal.weather.records import Records
from backbud.plan.root_limits import roots_bear, young_roots_bear
from backbud.plan.skies import Skies
from backbud.plan.top_limit import top_bears_c
from backbud.plan.vessels import pot_of_card
from backbud.species import (
    Deed,
    Rule,
    Species,
    Temperature,
    Window,
    Year,
    judged,
    rules_of,
    times_of,
)
from backbud.species.year_told import Growth, growing_year_of
from backbud_grammar.act_words import ActWord, DetailWord
from backbud_grammar.dates import growing_year_days

# What `bloomed` says of the BBCH stage of flowering.
BLOOM_STAGES: Mapping[DetailWord, int] = {"first": 60, "full": 65, "over": 69}
_SEEN_BY: tuple[ActWord, ...] = ("staged", "bloomed")
_FAIR = 3
# A tree that long under winter cover lives there.
LIVES_THERE = timedelta(days=300)
# The days on which growth stages were seen on a tree, in order.
Seen = tuple[tuple[date, int], ...]


class _Site(Struct, frozen=True):
    title: str
    cover: str
    outlook: Outlook | None
    coldest_said: ColdestNight | None
    ahead: SkyAhead | None


_Judge = Callable[[Tree, Deed, Year], tuple[str, ...]]


class _TimesOf:
    """When a species has its time for a work in a year, and in those made from it, each told
    once."""

    def __init__(self, rules: Sequence[Rule]) -> None:
        self._rules = rules
        self._known: dict[tuple[ActWord, date, int], tuple[Window, ...]] = {}

    def __call__(self, act: ActWord, year: Year) -> tuple[Window, ...]:
        # A year beside it has other days, as it was known last Monday another outlook.
        key = act, year.first, id(year.outlook)
        found = self._known.get(key)
        if found is None:
            found = self._known[key] = times_of(self._rules, act, year)
        return found


class Years:
    """The growing years of a journal's places."""

    def __init__(self, journal: Journal, weather: Records, today: date) -> None:
        self.things, self.settings = journal.things, journal.settings
        self.southern, self.today = journal.southern, today
        self.home = self.things.find(self.settings.home) if self.settings.home else None
        self._skies = Skies(weather, self.settings.figures, self.southern, today)
        self._sites: dict[str, _Site] = {}
        self._pots: dict[str, Pot | None] = {}
        self._judges: dict[type[Species], tuple[Sequence[Rule], _Judge]] = {}
        lasts = {m.handle: m.measure("lasts") for m in self.things.of_kind("material")}
        self.feed_days = {h: round(t.within("day")) for h, t in lasts.items() if t is not None}
        self._told: dict[
            tuple[int, type[Species] | None, float | None],
            tuple[_TimesOf | None, dict[tuple[object, ...], Any]],
        ] = {}
        self._limits: dict[tuple[object, ...], tuple[Temperature | None, ...]] = {}
        self._owns: dict[tuple[str, type[Species], Seen], Own] = weather.reckoned(
            ("owns", self.southern, today, tuple(self.settings.figures.items())), dict
        )

    def at(
        self,
        tree: Tree,
        place: str,
        day: date,
        species: Species | None,
        seen: Seen,
        growth: Growth | None = None,
    ) -> Year:
        """Return a tree's growing year that holds the day, at a place ("" is the home place).

        `growth`: of the tree as it stands today.
        """
        name, first, last = growing_year_of(day, self.southern)
        site = self._site(place)
        bears, young_bear = self._bears(tree, species)
        stages: dict[int, date] = {}
        for on, stage in seen:
            if first <= on <= last:
                stages.setdefault(stage, on)
        judge, times_of, told = self._of_species(site, species, seen, bears)
        return Year(
            name,
            first,
            last,
            self.today,
            self.southern,
            site.title,
            site.cover,
            stages,
            species.stage_months if species else {},
            self.settings.figures,
            (species or Species).wire_check_weeks.value,
            site.outlook,
            wants_of(species),
            self._own(place, species, seen),
            bears,
            species.comes_in_below_c.value if species and species.comes_in_below_c else None,
            (species or Species).why_frost,
            growth,
            self._pot(tree.pot),
            site.coldest_said,
            young_bear,
            judge,
            times_of,
            self.feed_days,
            site.ahead,
            top_bears_c(species),
            self.cover_at,
            species.rests_under_c.value if species and species.rests_under_c else None,
            told,
            self.deep_cm(tree),
        )

    def _of_species(
        self, site: _Site, species: Species | None, seen: Seen, bears: Temperature | None
    ) -> tuple[_Judge | None, _TimesOf | None, dict[tuple[object, ...], Any]]:
        """How a species judges a work, when it has its time at a place, and what was told of its
        year there: alike for all trees on which no stage was seen and whose roots bear the same."""
        limit_c = bears.celsius if bears is not None else None
        if species is None:
            return None, None, self._told.setdefault((id(site), None, limit_c), (None, {}))[1]
        known = self._judges.get(type(species))
        if known is None:
            own = rules_of(species)
            known = self._judges[type(species)] = own, partial(judged, own, species.judges)
        rules, judge = known
        if seen:
            return judge, _TimesOf(rules), {}
        key = id(site), type(species), limit_c
        alike = self._told.get(key)
        if alike is None:
            alike = self._told[key] = _TimesOf(rules), {}
        return judge, *alike

    def growth(self, tree: Tree, species: Species | None) -> Growth | None:
        """How the wood of a tree grows where it stands; None where nothing is known of the weather.

        Where nobody looked at its vigour it is fair; else that of the strongest zone, where wire
        bites first.
        """
        outlook = self._site(tree.place).outlook
        if outlook is None:
            return None
        return Growth(
            outlook,
            wants_of(species).base_c,
            max((zone.score for zone in tree.zones), default=_FAIR),
            (species or Species).girth_growth_mm.value,
            tree.on("wire"),
        )

    def usual_place(self, tree: Tree, today: date) -> str:
        """Where a tree will stand in the seasons to come: not where it only winters."""
        place = self.things.find(tree.place) if tree.place else None
        came = tree.last_of("moved", "quarantined")
        wintering = came is not None and today - came.day < LIVES_THERE
        if tree.outside and wintering and is_winter_cover(cover_of(place, self.things)):
            return tree.outside
        return tree.place

    def tells_no_season(self, place: str) -> bool:
        """Whether nothing says when what is due at a place ("" is the home place)."""
        return self._skies.weather.record_of(place).tells_no_season

    def cover_at(self, place: str) -> str:
        """What is over a place as its card has it; over home where no place is named."""
        return self._site(place).cover

    def _own(self, place: str, species: Species | None, seen: Seen) -> Own:
        """How this tree's sums compare with its species', from every stage seen on it."""
        outlook = self._site(place).outlook
        if not seen or species is None or outlook is None:
            return Own()
        key = (place, type(species), seen)
        if key not in self._owns:
            usual = species.stage_months
            self._owns[key] = outlook.own(
                [
                    (growing_year_days(day, self.southern)[0], usual[stage][1], day)
                    for day, stage in seen
                    if stage in usual
                ],
                wants_of(species),
            )
        return self._owns[key]

    def _pot(self, handle: str) -> Pot | None:
        """The inside of a pot, where its card gives a size."""
        if handle not in self._pots:
            card = self.things.find(handle) if handle else None
            self._pots[handle] = pot_of_card(card, self.settings.figures)[0] if card else None
        return self._pots[handle]

    def deep_cm(self, tree: Tree) -> float | None:
        """How deep its roots go: by the card of its pot, else by its root ball, length x width x
        depth; None where nobody measured either."""
        pot = self._pot(tree.pot)
        if pot is not None:
            return pot.depth_cm
        ball = tree.sizes.get("root ball")
        sizes = ball.sizes_in("cm") if ball is not None else ()
        return sizes[2] if len(sizes) > 2 else None

    def _bears(self, tree: Tree, species: Species | None) -> tuple[Temperature | None, ...]:
        """The coldest night that roots in this pot bear, and young ones in any."""
        deep_cm, of_ball = self.deep_cm(tree), self._pot(tree.pot) is None
        key = (deep_cm, of_ball, type(species))
        if key not in self._limits:
            figures = self.settings.figures
            self._limits[key] = (
                roots_bear(species, deep_cm, figures, of_ball=of_ball),
                young_roots_bear(species, figures),
            )
        return self._limits[key]

    def _site(self, handle: str) -> _Site:
        if handle not in self._sites:
            place = self.things.find(handle) if handle else None
            here = place or self.home
            cover = cover_of(here, self.things)
            self._sites[handle] = _Site(
                here.title if here else "",
                cover,
                self._skies.over(here.handle if here else "", cover),
                self._skies.coldest_said(here.handle if here else ""),
                self._skies.ahead(here.handle if here else "", cover),
            )
        return self._sites[handle]


def wants_of(species: Species | None) -> Wants:
    """What moves a species, or any tree, through its year."""
    if species is None:
        return Wants()
    chill = species.chill_portions
    return Wants(species.base_c.value, chill.value if chill else 0.0)


def stages_seen(history: Iterable[Entry]) -> Seen:
    """Return every growth stage that the diary says was seen, with its day, in order."""
    seen: list[tuple[date, int]] = []
    for entry in history:
        event = entry.event
        if event.act not in _SEEN_BY or not event.exact or entry.undone:
            continue
        measure = event.measure("stage")
        if measure is not None:
            seen.append((event.day, int(measure.number)))
        elif event.act == "bloomed":
            seen += [(event.day, stage) for word, stage in BLOOM_STAGES.items() if event.says(word)]
    return tuple(seen)
