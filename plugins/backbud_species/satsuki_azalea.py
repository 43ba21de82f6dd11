"""A satsuki azalea's work and year go in; what its flowers, soft shoots and fine roots ask for.

Unless a rule says otherwise, its figures are common practice, no source.
"""

from __future__ import annotations

from datetime import timedelta
from typing import ClassVar

from backbud.species import (
    COMMON_PRACTICE,
    FROM_MEMORY,
    SLOW_DRAIN_FROM,
    Event,
    Fact,
    Proposal,
    Proposals,
    Season,
    Species,
    Stage,
    StageMonths,
    Tree,
    Window,
    Year,
    after,
    after_stage,
    days_after,
    each,
    weeks_after,
    when,
)
from backbud_species.habits.done import (
    is_hard_pruning,
    is_hard_work,
    is_root_work,
    on_part,
    parts_of,
    since,
)
from backbud_species.habits.flowers import flowers_are_off
from backbud_species.habits.repotting import repotting
from backbud_species.habits.roots import over_share
from backbud_species.habits.signs import is_slow
from backbud_species.habits.warmth import three_weeks_ahead, under_cover
from backbud_species.habits.yearly import feeding, left_to_grow, pests, wiring

_LOW = ("low", "lower", "base", "bottom")
_TOP = ("top", "apex", "crown")

_TOO_LONG_UNDER_GLASS = (
    "Eight or nine weeks under glass already make long soft growth, so it comes out in time."
)
_FOUR_WEEKS = timedelta(weeks=4)
# By strength; a tree of which nothing else is known may be cut hard.
_WHICH_BUDS = {
    "weak": "all of it, before the flowers open",
    "strong": "what crowds before the flowers open, and all of it only before hard pruning",
}


def _low_and_top(tree: Tree) -> tuple[int, int] | None:
    """How the low branches and the top grow, 1 to 5; None where not both were looked at."""
    low = next((zone.score for zone in tree.zones if zone.name in _LOW), None)
    top = next((zone.score for zone in tree.zones if zone.name in _TOP), None)
    return None if low is None or top is None else (low, top)


class SatsukiAzalea(Species):
    """Late-flowering evergreen azaleas of Japan, strongest low down."""

    rule_prefix = "satsuki"
    botanical = "Rhododendron indicum"
    common = ("satsuki azalea", "satsuki")
    also = (
        "Rhododendron Satsuki Group",
        "Rhododendron eriocarpum",
        "Rhododendron tamurae",
        "Azalea Satsuki Group",
    )
    habit = "A twiggy evergreen shrub, strongest at the base and slowest at the top."
    evergreen = True
    strongest = "basitonic"
    # A gardening reference gives H4 for R. indicum; the RHS list itself was not at hand.
    hardiness = Fact("H4", FROM_MEMORY)
    soil_ph = Fact((4.5, 6.0), "The Dillon Herald, Azaleas, 10 August 2019")
    usual_mix = Fact("kanuma, acid and granular", COMMON_PRACTICE)
    repot_years = Fact((2, 3, 5), COMMON_PRACTICE)
    root_share = Fact((0.5, 1.0), COMMON_PRACTICE)
    light = Fact("Morning sun and light shade in the afternoon.", COMMON_PRACTICE)
    water = Fact("Rain or soft water, and never dry.", COMMON_PRACTICE)
    bark = Fact("Its wood is brittle and its bark thin: bend little by little.", COMMON_PRACTICE)
    toxicity = Fact(
        "All parts are highly poisonous if eaten.",
        "North Carolina State University, Poisonous Plants: Rhododendron spp.",
    )
    why_frost = "Azalea roots lie fine and shallow and die in a pot that freezes through."
    wire_check_weeks = Fact((4, 6, 8), COMMON_PRACTICE)
    advice = (
        "Never let the root ball dry out; a deeper pot forgives missed watering and is better for "
        "a beginner.",
        "Water with rain or soft water: lime makes the leaves yellow.",
        "Morning sun and light shade in the afternoon keep flowers and leaves fresh.",
        "Take spent flowers off together with the ovary.",
        "Keep children and animals from eating any part of it.",
    )
    never = (
        "Never rake the roots with a metal hook: they are very fine.",
        "Never prune hard in autumn: the new shoots do not ripen before the frost.",
        "Never prune the top as hard as the low branches: it grows slowest.",
        "Never give it lime.",
    )
    # For a cool temperate place; from memory.
    stage_months: ClassVar[StageMonths] = {
        1: ((3, 10), (3, 25), (4, 10)),
        7: ((3, 25), (4, 10), (4, 25)),
        10: ((4, 5), (4, 20), (5, 5)),
        60: ((5, 15), (5, 25), (6, 8)),
        65: ((5, 25), (6, 5), (6, 18)),
        69: ((6, 8), (6, 18), (7, 2)),
        91: ((9, 5), (9, 20), (10, 10)),
    }

    # ------------------------------------------------------------------ flowers

    @when(60, rule="satsuki-disbud")
    def flower_buds_off(self, tree: Tree, stage: Stage, year: Year) -> Proposals:
        """Strength saved before the flowers open."""
        yield Proposal(
            "disbudded",
            after_stage(stage, -35, -14, -1),
            what=_WHICH_BUDS.get(tree.strength, "before the flowers open"),
            because="Flower buds taken off before they open leave a weak tree its strength."
            if tree.weak
            else "Without its flowers the tree has more strength and answers hard pruning better.",
            datum=stage.because,
            lapses=True,
        )

    @when(69, rule="satsuki-deadhead")
    def spent_flowers_off(self, tree: Tree, stage: Stage, year: Year) -> Proposals:
        """No strength for seed."""
        if flowers_are_off(tree, stage.first, year):
            return
        yield Proposal(
            "deadheaded",
            after_stage(stage, 0, 3, 10),
            what="spent flowers with the ovary",
            because="Spent flowers come off together with the ovary soon after flowering, "
            "so that no strength goes into seed.",
            datum=stage.because,
            cautions=("Brown, slimy petals are petal blight: take them away from the bench.",),
            lapses=True,
        )

    # ------------------------------------------------------------------ branches

    @when(69, rule="satsuki-low-first")
    def low_shoots_first(self, tree: Tree, stage: Stage, year: Year) -> Proposals:
        """The strong low shoots held back, unless the top already grows as well."""
        scores = _low_and_top(tree)
        if not _bears_trimming(tree, stage) or (scores and scores[0] <= scores[1]):
            return
        yield Proposal(
            "trimmed",
            after_stage(stage, 0, 5, 14),
            what="low shoots first",
            because="It grows strongest low down and slowest at the top, so low shoots are "
            "shortened first and the top is left to catch up.",
            datum=f"Low branches grow {scores[0]} of 5, the top {scores[1]} of 5."
            if scores
            else stage.because,
            settled_by=("trimmed", "pruned"),
            lapses=True,
        )

    @when(69, rule="satsuki-trim")
    def light_trim(self, tree: Tree, stage: Stage, year: Year) -> Proposals:
        """From the top down, after the low shoots; a weak tree is left to grow."""
        if tree.weak:
            yield left_to_grow(
                after_stage(stage, 0, 14, 28),
                because="A weak azalea is left untrimmed until it grows again.",
            )
        if not _bears_trimming(tree, stage):
            return
        yield Proposal(
            "trimmed",
            after_stage(stage, 10, 18, 28),
            what="lightly, secondary shoots to three or four leaves",
            because="From the top down, secondary shoots go back to three or four leaves, of two "
            "or three from one point the strongest comes out, and bare tips go back to the first "
            "leaf.",
            datum=stage.because,
            settled_by=("trimmed", "pruned"),
            lapses=True,
        )

    @when(69, rule="satsuki-trunk-buds")
    def rub_trunk_buds(self, tree: Tree, stage: Stage, year: Year) -> Proposals:
        """Buds where no branch is wanted; a weak tree keeps them."""
        if tree.weak:
            return
        yield Proposal(
            "rubbed",
            after_stage(stage, 10, 18, 42),
            what="trunk buds",
            because="Buds on the trunk are rubbed off unless a branch is wanted there.",
            datum=stage.because,
            lapses=True,
        )

    @after("pruned", rule="satsuki-new-buds")
    def buds_on_old_wood(self, tree: Tree, done: Event, year: Year) -> Proposals:
        """The answer to hard pruning."""
        for part in parts_of(done) if is_hard_pruning(done) else ():
            yield Proposal(
                "checked",
                weeks_after(done.day, 7, 8, 10),
                what=on_part("buds on the old wood", part),
                part=part,
                because="Hard pruning answers with buds along the old wood in about eight weeks.",
                datum=f"Eight weeks from {done.day} ({COMMON_PRACTICE}).",
                settled_by=("checked buds",),
            )

    @each("winter", rule="satsuki-wire")
    def wiring_season(self, tree: Tree, season: Season, year: Year) -> Proposals:
        """Before growth starts, on wood that snaps."""
        yield from wiring(
            tree,
            year.months((2, 1), (3, 1), (3, 31)),
            because="Its wood is brittle, so it is wired before growth starts, with the soil on "
            "the dry side, and bent little by little.",
            datum=year.by_months,
            cautions=("Branches tear at the fork: hold both sides of the bend.",),
        )

    # ------------------------------------------------------------------ roots

    @when(69, rule="satsuki-root-work")
    def root_work(self, tree: Tree, stage: Stage, year: Year) -> Proposals:
        """After flowering or in spring, a few wedges of the ball at a time."""
        spring = year.stage(1)
        closes = after_stage(stage, 0, 10, 28)
        opens = min(spring.first, closes.opens) if spring else closes.opens
        yield from repotting(
            tree,
            year,
            Window(opens, closes.best, closes.closes),
            self,
            because="Root work follows flowering or comes in spring, with other wedges each time, "
            "so that over a few repottings the whole ball is renewed up to the trunk.",
            cautions=(
                "About 5 cm off the underside of a deep ball and some wedges out of the side is "
                "enough in a cool place; a warm place bears more, up to bare roots.",
                "Every old tie and scrap of wire found in the root ball comes out; two ties of "
                "2.5 mm aluminium hold a medium tree, and mesh goes over each hole.",
                *_for_an_owner(tree),
            ),
        )

    @after("repotted", "potted-on", "root-pruned", rule="satsuki-root-share")
    def too_much_root_off(self, tree: Tree, done: Event, year: Year) -> Proposals:
        """More than a third to a half of the ball in a cool place shows weeks later."""
        yield from over_share(tree, done, year, self.root_share)

    @after("repotted", "potted-on", "slipped", rule="satsuki-soak")
    def soak_at_once(self, tree: Tree, done: Event, year: Year) -> Proposals:
        """Fresh kanuma is bone-dry, as is any mix from the bag; after some days it no longer is."""
        if done.has("soaked") or not self._fresh_mix(done):
            return
        yield Proposal(
            "soaked",
            days_after(done.day, 0, 0, 3),
            what="at once, two or three cans, until water runs from the bottom",
            because=f"{_fresh_from_the_bag(tree, done)} draws the water out of fine roots.",
            datum="No soaking is written down with the repotting.",
            lapses=True,
        )

    @after("repotted", "potted-on", "slipped", rule="satsuki-moss")
    def moss_on_top(self, tree: Tree, done: Event, year: Year) -> Proposals:
        """A moist surface through recovery."""
        if done.has("moss") or not self._fresh_mix(done):
            return
        yield Proposal(
            "top-dressed",
            days_after(done.day, 0, 0, 7),
            what="with moist sphagnum",
            because="Moist sphagnum on top keeps the fine roots at the surface moist through "
            "recovery.",
            datum="No moss is written down with the repotting.",
            lapses=True,
        )

    @after("repotted", "potted-on", rule="satsuki-ties")
    def hold_it_still(self, tree: Tree, done: Event, year: Year) -> Proposals:
        """A tree that rocks tears its new roots."""
        if done.has("tied") or any(not tie.from_before for tie in tree.on("tie")):
            return
        yield Proposal(
            "tied",
            days_after(done.day, 0, 0, 3),
            what="with two ties of 2.5 mm aluminium",
            because="Two ties of 2.5 mm aluminium hold a medium tree; one that rocks tears its "
            "new roots.",
            datum="No ties are written down with the repotting.",
            lapses=True,
        )

    @after("drained", "noted", rule="satsuki-hard-surface")
    def open_the_surface(self, tree: Tree, done: Event, year: Year) -> Proposals:
        """Water that stands on top or runs off does not reach the roots."""
        if done.act == "drained":
            if not is_slow(done, year):
                return
            datum = (
                f"A can took {done.measure('time')} to pass; {SLOW_DRAIN_FROM.of(year):g} s is "
                f"slow ({SLOW_DRAIN_FROM.name}, a setting of ours)."
            )
        elif _tells_of_hard_surface(done):
            datum = "The surface was noted as hard."
        else:
            return
        yield Proposal(
            "opened",
            days_after(done.day, 0, 2, 10),
            what="the hard surface with a wooden stick",
            because="A hard surface sheds water and is opened with a wooden stick, not a metal "
            "hook: the roots are very fine.",
            datum=datum,
            settled_by=("opened", "repotted"),
        )

    @after("opened", rule="satsuki-drains-again")
    def drains_again(self, tree: Tree, done: Event, year: Year) -> Proposals:
        """Whether the opened surface takes water."""
        if not done.says("hard surface"):
            return
        with_metal = done.mentions("hook", "metal", "metal hook", "a metal hook", "rake")
        yield Proposal(
            "drained",
            weeks_after(done.day, 1, 2, 4),
            what="a can of water again",
            because="A surface that was hard is tried again: if water still stands, root work is "
            "due.",
            datum=f"The hard surface was opened on {done.day}.",
            cautions=("A metal hook tears the fine roots: use a wooden stick.",)
            if with_metal
            else (),
            lapses=True,
        )

    # ------------------------------------------------------------------ shelter

    @after("pruned", "repotted", "potted-on", "root-pruned", rule="satsuki-glass")
    def under_glass(self, tree: Tree, done: Event, year: Year) -> Proposals:
        """Two to three weeks under unheated glass in a cool place, and a date to come out.

        The 17 °C is a setting of ours, not the trade's. A work of the same day asks only once.
        """
        if done != _first_hard_work_of_the_day(tree, done):
            return
        if under_cover(year, "unheated glass"):
            yield _out_of_glass(
                days_after(done.day, 14, 18, 21), "It already stands under unheated glass."
            )
            return
        warmth = three_weeks_ahead(year, done.day)
        if warmth.cool is False:
            return
        work = "hard pruning" if done.act == "pruned" else "root work"
        yield Proposal(
            "moved",
            days_after(done.day, 0, 1, 7),
            what="under unheated glass for two to three weeks",
            because=f"In a cool, cloudy place two to three weeks under unheated glass help after "
            f"{work}.",
            datum=warmth.datum,
            cautions=("Shade and air the glass on sunny days.",),
            part="in",
            lapses=True,
        )
        yield _out_of_glass(days_after(done.day, 14, 21, 28), warmth.datum, lapses=True)

    @after("moved", rule="satsuki-glass-out")
    def out_again(self, tree: Tree, done: Event, year: Year) -> Proposals:
        """A tree that did go under glass after hard work has to come out.

        The day of the work counts: the move in settles the date that the work itself asked for.
        """
        if not under_cover(year, "unheated glass"):
            return
        if since(tree, done.day - _FOUR_WEEKS, done.day + timedelta(days=1), is_hard_work):
            yield _out_of_glass(
                days_after(done.day, 14, 18, 21), f"It went under glass on {done.day}."
            )

    # ------------------------------------------------------------------ feed and health

    @when(10, rule="satsuki-feed-spring")
    def feed_in_spring(self, tree: Tree, stage: Stage, year: Year) -> Proposals:
        """Little before flowering."""
        yield from feeding(
            tree,
            year,
            after_stage(stage, 0, 7, 14),
            because="A weak acid feed in spring is enough: none while the flowers are open.",
            datum=stage.because,
            what="weakly, without lime",
        )

    @when(69, rule="satsuki-feed-after-flowering")
    def feed_after_flowering(self, tree: Tree, stage: Stage, year: Year) -> Proposals:
        """The main feed of the year."""
        yield from feeding(
            tree,
            year,
            after_stage(stage, 10, 18, 28),
            because="After flowering it makes its shoots and next year's buds, so the main feed "
            "comes then and ends with the summer.",
            datum=stage.because,
            what="without lime",
        )

    @when(91, rule="satsuki-feed-autumn")
    def feed_in_autumn(self, tree: Tree, stage: Stage, year: Year) -> Proposals:
        """A little as the shoots ripen."""
        yield from feeding(
            tree,
            year,
            after_stage(stage, -14, 0, 14),
            because="Fed a little as its shoots ripen, it fills its flower buds and winters well.",
            datum=stage.because,
            what="weakly, without lime",
        )

    @each("summer", rule="satsuki-pests")
    def look_for_pests(self, tree: Tree, season: Season, year: Year) -> Proposals:
        """Silvery leaves."""
        yield pests(
            year.months((6, 20), (7, 10), (8, 20)),
            where="undersides of the leaves",
            because="Lace bug and mites suck on the undersides and turn the leaves silvery in hot, "
            "dry weather.",
            datum=year.by_months,
        )

    @staticmethod
    def _fresh_mix(done: Event) -> bool:
        """Whether fresh mix went in: not where a tree was only set back into its pot."""
        return done.act != "repotted" or done.has("mix") or is_root_work(done)


def _fresh_from_the_bag(tree: Tree, done: Event) -> str:
    """What went in: kanuma, unless the mix that is named says nothing of it."""
    mix = done.first("mix")
    named = f"{tree.mix} {mix.handle} {mix.words}" if mix is not None else tree.mix
    if named and "kanuma" not in named.casefold():
        return "Fresh mix is dry from the bag and"
    return "Fresh kanuma is bone-dry from the bag and"


def _tells_of_hard_surface(noted: Event) -> bool:
    told = " ".join(detail.words for detail in noted.details).casefold()
    return any(phrase in told for phrase in ("hard surface", "surface is hard", "sheds water"))


def _bears_trimming(tree: Tree, stage: Stage) -> bool:
    """Neither weak nor pruned hard in the three months before."""
    three_months_ago = stage.first - timedelta(weeks=12)
    return not tree.weak and not since(tree, three_months_ago, stage.day, is_hard_pruning)


def _first_hard_work_of_the_day(tree: Tree, done: Event) -> Event | None:
    same_day = (e.event for e in tree.history if e.event.day == done.day)
    return next(filter(is_hard_work, same_day), None)


def _for_an_owner(tree: Tree) -> tuple[str, ...]:
    if not tree.owner:
        return ()
    return ("A deeper pot forgives missed watering: better where the owner is a beginner.",)


def _out_of_glass(window: Window, datum: str, lapses: bool = False) -> Proposal:
    return Proposal(
        "moved",
        window,
        what="out from under glass",
        because=_TOO_LONG_UNDER_GLASS,
        datum=datum,
        part="out",
        lapses=lapses,
    )
