"""Reckons how much water each tree asks for, each place, and all together week by week.

The steps, in order:
    open sky   what the weather asks for in the open, day by day (demand.py)
    foliage    how much of that a canopy drinks, by its leaves (foliage.py)
    vessel     canopy, pot and water held, measured or by a stated rule (vessels.py)
    cover      what a roof or a net takes off (covers.py)

Litres are litres lost. No rain is counted on for the days ahead, so a dry week finds nobody short.
Every figure is an estimate to plan by: a finger in the soil decides.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from datetime import date, timedelta
from functools import partial

from msgspec import Struct

from backbud.bench.water import (
    PottedTree,
    WeekOfWater,
    days_until_half_gone,
    hottest_week,
    litres_lost_a_day,
    litres_of_rain_caught,
)
from backbud.climate.air import DAY
from backbud.climate.evapotranspiration import Method
from backbud.collection.places import cover_of
from backbud.collection.state import Tree
from backbud.journal.read import Journal
from backbud.journal.weather.records import Records
from backbud.memo import Identical, Memo
from backbud.plan.covers import cover_from
from backbud.plan.demand import OpenSkies, OpenSky
from backbud.plan.foliage import Foliage, Foliages
from backbud.plan.skies import Skies
from backbud.plan.vessels import Unknown, Vessel, vessel_of
from backbud.plan.year import Years
from backbud.species import Species
from backbud.tongue import phrase
from backbud.words import monday_of

WEEK_DAYS, YEAR_DAYS = 7, 365
# Further ahead than this nobody asks when half of the water is gone.
DAYS_LOOKED_AHEAD = 60
# The weeks that are laid out: so many before this one, and of all so many.
WEEKS_BACK, WEEKS = 8, 52

NO_WEATHER = (
    "the weather of its place: twelve monthly lows and highs on the place's card, or a weather file"
)

NO_KIND = "its kind is not known, so it counts as in leaf all year"


class InHottestWeek(Struct, frozen=True, gc=False):
    """Litres a day in the hottest week, and days until half is gone; None where it lasts longer."""

    litres_a_day: float
    days_until_half: float | None


class TreeWater(Struct, frozen=True, gc=False):
    """What one tree asks for.

    `litres_now`: a day, by the last days' weather. `litres_week`: in the seven days from today.
    `days_until_half`: from a watered pot today; None where it lasts longer than it was looked
    ahead. `guessed`: what was not measured, and the rule that stands for it.
    """

    tree: str
    place: str
    litres_now: float
    litres_week: float
    days_until_half: float | None
    vessel: Vessel
    hottest: InHottestWeek
    guessed: tuple[str, ...]


class PlaceWater(Struct, frozen=True, gc=False):
    """What the trees of one place ask for together; the hottest week of the year to come there.

    `hottest_litres`: in that whole week. `trees`: their handles, the thirstiest first.
    """

    place: str
    litres_now: float
    litres_week: float
    hottest_first: date
    hottest_last: date
    hottest_litres: float
    trees: tuple[str, ...]


class TooLittle(Struct, frozen=True, gc=False):
    """A tree of which too little is known, and what to write down."""

    tree: str
    to_write: str


class WaterWeek(Struct, frozen=True, gc=False):
    """One week of all trees together: litres lost, and litres of rain caught by their pots.

    `measured_days`: how many of its days were measured at every place.
    """

    first: date
    litres: float
    rain_litres: float
    measured_days: int


class Water(Struct, frozen=True):
    """The water of a collection on a day.

    `trees`: by handle. `methods`: how the measured days of the weeks laid out were reckoned, and
    how many by each. `planted_out`: trees in open ground, which are not reckoned.
    """

    trees: Mapping[str, TreeWater] = {}
    places: tuple[PlaceWater, ...] = ()
    too_little: tuple[TooLittle, ...] = ()
    weeks: tuple[WaterWeek, ...] = ()
    methods: Mapping[Method, int] = {}
    planted_out: tuple[str, ...] = ()

    def only(self, tree: str) -> Water:
        """What concerns one tree alone."""
        found = self.trees.get(tree)
        return Water(
            {tree: found} if found is not None else {},
            too_little=tuple(one for one in self.too_little if one.tree == tree),
        )


class _Canopy:
    """What the air asks of a square metre of one kind of foliage under one sky, by day, in mm.

    Many trees share it: ET0 × canopy factor, as a crop's coefficient × ET0.
    """

    def __init__(self, sky: OpenSky, foliage: Foliage) -> None:
        self.sky, self.foliage = sky, foliage
        self._days: dict[date, float] = {}

    def mm(self, day: date) -> float:
        if day not in self._days:
            self._days[day] = self.sky.on(day).et0_mm * self.foliage.factor(day)
        return self._days[day]

    def mm_now(self, today: date) -> float:
        return self.sky.now().et0_mm * self.foliage.factor(today)


class _Known(Struct, frozen=True):
    """A tree whose water can be reckoned: its handle, its place, and what its water hangs on."""

    tree: str
    place: str
    canopy: _Canopy
    vessel: Vessel
    # Canopy factor 1: the canopy's millimetres already count the foliage.
    potted: PottedTree
    guessed: tuple[str, ...]


def water_of(
    journal: Journal,
    trees: Iterable[Tree],
    species: Mapping[str, Species | None],
    weather: Records,
    today: date,
) -> Water:
    """Return the water of every tree that is here; `species` by the tree's handle."""
    around = (today, tuple(journal.settings.figures.items()))
    # What was found for the same weather, settings and cards is as good as new.
    kept = weather.reckoned(("water", *around), Memo)
    looked = _Looked(journal, weather, today)
    known: list[_Known] = []
    too_little: list[TooLittle] = []
    planted_out: list[str] = []
    for tree in trees:
        if not tree.here:
            continue
        if tree.planted_out:
            planted_out.append(tree.handle)
            continue
        kind = species.get(tree.handle)
        found = kept.once(
            ("known", tree.handle),
            (Identical(tree), Identical(kind)),
            partial(looked.at, tree, kind),
        )
        if isinstance(found, TooLittle):
            too_little.append(found)
        else:
            # Most of what is written of a tree changes nothing of its water.
            known.append(kept.same(("water known", tree.handle), found))
    places = [_of_place(members, today, kept) for members in _by_place(known)]
    water = Water(
        {one.tree: one for _, of_trees in places for one in of_trees},
        tuple(place for place, _ in places),
        tuple(too_little),
        kept.once("weeks", (Identical(*known),), partial(_weeks, known, today)),
        kept.once("methods", (Identical(*known),), partial(_methods, known, today)),
        tuple(planted_out),
    )
    kept.end()
    return water


class _Looked:
    """Looks up what the water of a tree hangs on."""

    def __init__(self, journal: Journal, weather: Records, today: date) -> None:
        self._things, self._figures = journal.things, journal.settings.figures
        southern = journal.southern
        self._skies = weather.reckoned(
            ("open skies", today, tuple(self._figures.items())),
            lambda: OpenSkies(
                Skies(weather, self._figures, southern, today), weather, journal.things
            ),
        )
        last = today + (YEAR_DAYS + DAYS_LOOKED_AHEAD) * DAY
        years = Years(journal, weather, today)
        self._foliages = Foliages(years, southern, _laid_out_from(today), last)
        self._canopies: dict[tuple[OpenSky, Foliage], _Canopy] = weather.reckoned(
            ("canopies", today, tuple(self._figures.items())), dict
        )

    def at(self, tree: Tree, kind: Species | None) -> _Known | TooLittle:
        """What is known of a tree that stands in a pot, or what must be written down."""
        vessel = vessel_of(tree, self._things, self._figures)
        sky = self._skies.over(tree.place)
        if isinstance(vessel, Unknown) or sky is None:
            wanted = [vessel.to_write] if isinstance(vessel, Unknown) else []
            wanted += [phrase(NO_WEATHER)] if sky is None else []
            return TooLittle(tree.handle, "; ".join(wanted))
        place = self._things.find(tree.place) if tree.place else None
        cover = cover_from(cover_of(place, self._things), self._figures).water
        return _Known(
            tree.handle,
            tree.place,
            self._canopy(sky, self._foliages.of(tree, kind)),
            vessel,
            PottedTree(vessel.canopy_area_m2, vessel.pot_area_m2, vessel.held_litres, 1.0, cover),
            vessel.guessed if kind else (*vessel.guessed, phrase(NO_KIND)),
        )

    def _canopy(self, sky: OpenSky, foliage: Foliage) -> _Canopy:
        """One for each sky and foliage, so that trees alike are summed up together."""
        return self._canopies.setdefault((sky, foliage), _Canopy(sky, foliage))


def _by_place(known: Sequence[_Known]) -> list[list[_Known]]:
    places: dict[str, list[_Known]] = {}
    for one in known:
        places.setdefault(one.place, []).append(one)
    return list(places.values())


def _of_place(
    members: Sequence[_Known], today: date, kept: Memo
) -> tuple[PlaceWater, list[TreeWater]]:
    """The trees of one place, and what they ask for together."""
    place = members[0].place
    week = kept.once(("hottest", place), (Identical(*members),), partial(_hottest, members, today))
    found = [
        kept.once(
            ("tree", one.tree),
            (Identical(one), week.first),
            partial(_of_tree, one, today, week.first),
        )
        for one in members
    ]
    of_trees = sorted(found, key=lambda one: (-one.litres_now, one.tree))
    together = PlaceWater(
        place,
        sum(one.litres_now for one in of_trees),
        sum(one.litres_week for one in of_trees),
        week.first,
        week.last,
        week.litres,
        tuple(one.tree for one in of_trees),
    )
    return together, of_trees


def _hottest(members: Sequence[_Known], today: date) -> WeekOfWater:
    """The week of the year to come that asks most of all these trees together."""
    year = [today + n * DAY for n in range(YEAR_DAYS)]
    # A pot that loses exactly the litres of all.
    together = PottedTree(1.0, 0.0, 1.0, 1.0)
    week = hottest_week(together, [(day, lost, 0.0) for day, lost in _litres(members, year)])
    assert week is not None
    return week


def _of_tree(one: _Known, today: date, hottest: date) -> TreeWater:
    now = one.canopy.mm_now(today)
    ahead = [now, *(one.canopy.mm(today + n * DAY) for n in range(1, DAYS_LOOKED_AHEAD))]
    then = [one.canopy.mm(hottest + n * DAY) for n in range(DAYS_LOOKED_AHEAD)]
    return TreeWater(
        one.tree,
        one.place,
        litres_lost_a_day(one.potted, now),
        sum(litres_lost_a_day(one.potted, mm) for mm in ahead[:WEEK_DAYS]),
        _half_gone(one.potted, ahead),
        one.vessel,
        InHottestWeek(
            sum(litres_lost_a_day(one.potted, mm) for mm in then[:WEEK_DAYS]) / WEEK_DAYS,
            _half_gone(one.potted, then),
        ),
        one.guessed,
    )


def _half_gone(potted: PottedTree, canopy_mm: Iterable[float]) -> float | None:
    if potted.held_litres <= 0:
        return 0.0
    return days_until_half_gone(potted, ((mm, 0.0) for mm in canopy_mm))


def _weeks(known: Sequence[_Known], today: date) -> tuple[WaterWeek, ...]:
    """All trees where they stand now, week by week, those before today as they were measured."""
    if not known:
        return ()
    begins = _laid_out_from(today)
    days = [begins + n * DAY for n in range(WEEKS * WEEK_DAYS)]
    lost = [litres for _, litres in _litres(known, days)]
    skies = _by_sky(known)
    caught = [sum(sky.on(day).rain_mm * of_a_mm for sky, of_a_mm in skies) for day in days]
    measured = [all(sky.on(day).measured for sky, _ in skies) for day in days]
    return tuple(
        WaterWeek(
            days[at],
            sum(lost[at : at + WEEK_DAYS]),
            sum(caught[at : at + WEEK_DAYS]),
            sum(measured[at : at + WEEK_DAYS]),
        )
        for at in range(0, len(days), WEEK_DAYS)
    )


def _litres(members: Sequence[_Known], days: Iterable[date]) -> list[tuple[date, float]]:
    """What trees lose together on each day: their canopies' millimetres times their areas."""
    of_a_mm: dict[_Canopy, float] = {}
    for one in members:
        lost = litres_lost_a_day(one.potted, 1.0)
        of_a_mm[one.canopy] = of_a_mm.get(one.canopy, 0.0) + lost
    return [
        (day, sum(canopy.mm(day) * litres for canopy, litres in of_a_mm.items())) for day in days
    ]


def _by_sky(known: Sequence[_Known]) -> list[tuple[OpenSky, float]]:
    """Each sky, and the litres that all pots under it catch of a millimetre of rain."""
    caught: dict[OpenSky, float] = {}
    for one in known:
        sky = one.canopy.sky
        caught[sky] = caught.get(sky, 0.0) + litres_of_rain_caught(one.potted, 1.0)
    return list(caught.items())


def _laid_out_from(today: date) -> date:
    return monday_of(today) - timedelta(weeks=WEEKS_BACK)


def _methods(known: Sequence[_Known], today: date) -> Counter[Method]:
    """How the measured days were reckoned; where several skies had one, by the best of them."""
    found: dict[date, Method] = {}
    for sky, _ in _by_sky(known):
        for n in range((today - _laid_out_from(today)).days + 1):
            demand = sky.on(today - n * DAY)
            if demand.measured and found.get(today - n * DAY) != "Penman-Monteith":
                found[today - n * DAY] = demand.method
    return Counter(found.values())
