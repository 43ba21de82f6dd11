"""A Chinese juniper's work and year go in; what its scale foliage, live veins and deadwood ask for.

Unless a rule says otherwise, its figures are common practice, no source.
"""

from __future__ import annotations

from datetime import timedelta
from typing import ClassVar

from backbud.species import (
    COMMON_PRACTICE,
    FROM_MEMORY,
    Event,
    Fact,
    Proposal,
    Proposals,
    Season,
    Species,
    Stage,
    StageMonths,
    Tree,
    Year,
    after,
    after_stage,
    each,
    weeks_after,
    when,
)
from backbud_species.habits.done import (
    is_hard_pruning,
    last_of_before,
    on_part,
    parts_of,
)
from backbud_species.habits.gates import LEAF_WORK, stress
from backbud_species.habits.repotting import repotting, until
from backbud_species.habits.roots import over_share
from backbud_species.habits.works import at, balances
from backbud_species.habits.yearly import (
    FROZEN_WOOD_SNAPS,
    feeding,
    left_to_grow,
    pests,
    wiring,
)

_FRESH_DEADWOOD_DRIES = timedelta(weeks=6)


class ChineseJuniper(Species):
    """A scale juniper that lives from its foliage, with live veins beside deadwood."""

    rule_prefix = "juniper"
    botanical = "Juniperus chinensis"
    common = ("Chinese juniper", "shimpaku")
    also = ("Juniperus chinensis var. sargentii", "Juniperus sargentii", "Sargent juniper")
    habit = "A juniper of scale foliage and stringy bark, strongest at its tips."
    evergreen = True
    strongest = "acrotonic"
    # Another plant list gives H6 for one cultivar; the RHS list itself was not at hand.
    hardiness = Fact("H6", FROM_MEMORY)
    soil_ph = Fact((5.5, 7.5), FROM_MEMORY)
    usual_mix = Fact("akadama 1, pumice 1, lava 1", COMMON_PRACTICE)
    repot_years = Fact((2, 4, 6), COMMON_PRACTICE)
    root_share = Fact((0.33, 0.5), COMMON_PRACTICE)
    light = Fact("Full sun and moving air.", COMMON_PRACTICE)
    water = Fact("Let the surface dry a little between waterings.", COMMON_PRACTICE)
    bark = Fact("Live veins swell over wire by the second summer.", COMMON_PRACTICE)
    toxicity = Fact("Mildly poisonous if eaten; needle foliage can make a rash.", FROM_MEMORY)
    why_frost = (
        "The top is hardy, but roots in a pot are less so, and sun and wind on a "
        "frozen pot dry the foliage."
    )
    # Its wood sets slowly; live veins swell over the wire by the second summer.
    wire_check_weeks = Fact((8, 12, 20), COMMON_PRACTICE)
    advice = (
        "Full sun and moving air; mist the foliage on hot evenings.",
        "Let the surface dry a little between waterings.",
        "Bronze foliage in winter is no harm: it greens again in spring.",
        "Leave the tips alone: they feed the tree.",
    )
    never = (
        "Never pinch every tip: the tree lives from them and answers with needle foliage.",
        "Never cut a branch back to where no green is left: it dies.",
        "Never wash out all the old soil in one go.",
        "Never keep it beside pears: they share a rust.",
    )
    # For a cool temperate place; from memory. 7: the tips turn light green.
    stage_months: ClassVar[StageMonths] = {
        1: ((3, 12), (3, 28), (4, 12)),
        7: ((4, 5), (4, 20), (5, 5)),
        10: ((4, 25), (5, 10), (5, 28)),
        91: ((9, 20), (10, 8), (10, 28)),
    }
    works = (balances("balance", at(10, 28, 42, 63)),)

    # ------------------------------------------------------------------ roots

    @when(1, rule="juniper-repot")
    def repot_in_spring(self, tree: Tree, stage: Stage, year: Year) -> Proposals:
        """As growth begins."""
        yield from repotting(
            tree,
            year,
            until(stage, year.stage(7)),
            self,
            because="It is repotted as growth begins, one half of the ball at a time and with all "
            "its foliage on: foliage makes the new roots.",
            cautions=("No heavy bending and no carving in the year of repotting.",),
        )

    @after("repotted", "potted-on", "root-pruned", rule="juniper-root-share")
    def too_much_root_off(self, tree: Tree, done: Event, year: Year) -> Proposals:
        """It shows months later, when the foliage greys."""
        yield from over_share(tree, done, year, self.root_share)

    # ------------------------------------------------------------------ foliage

    @when(10, rule="juniper-trim")
    def shorten_runners(self, tree: Tree, stage: Stage, year: Year) -> Proposals:
        """Strong shoots out with scissors once they have hardened; tips are not pinched."""
        if stress(tree, stage.day, year):
            return
        if tree.weak:
            yield left_to_grow(
                after_stage(stage, 28, 42, 63),
                because="A weak juniper keeps all its foliage, for it lives from it.",
            )
            return
        yield Proposal(
            "trimmed",
            after_stage(stage, 28, 42, 63),
            what="runners, with scissors at their base",
            because="Shoots that run out of the outline are cut at their base with scissors; the "
            "other tips stay, for the tree lives from them.",
            datum=stage.because,
            settled_by=("trimmed", "pruned"),
            lapses=True,
        )

    @when(91, rule="juniper-thin")
    def let_light_in(self, tree: Tree, stage: Stage, year: Year) -> Proposals:
        """Foliage in the shade dies, and with it the way back."""
        if LEAF_WORK.shut(tree, stage.day, year):
            return
        yield Proposal(
            "thinned",
            after_stage(stage, -21, -7, 21),
            what="what hangs down and grows in the forks",
            because="Hanging and crotch growth comes out so that light keeps the inner shoots "
            "alive; every branch keeps green at its end.",
            datum=stage.because,
            lapses=True,
        )

    @after("pruned", rule="juniper-needle-foliage")
    def needle_foliage(self, tree: Tree, done: Event, year: Year) -> Proposals:
        """The answer to hard pruning."""
        if is_hard_pruning(done):
            yield Proposal(
                "checked",
                weeks_after(done.day, 10, 12, 16),
                what="strength, and leave the needle foliage on",
                because="After hard pruning a juniper makes needle foliage; it stays on until "
                "scale foliage grows out of it.",
                datum=f"Three months from {done.day} ({COMMON_PRACTICE}).",
                settled_by=("checked strength", "vigour"),
                lapses=True,
            )

    # ------------------------------------------------------------------ branches and deadwood

    @when(91, rule="juniper-wire")
    def wiring_season(self, tree: Tree, stage: Stage, year: Year) -> Proposals:
        """While the bark is firm."""
        yield from wiring(
            tree,
            after_stage(stage, 14, 42, 120),
            because="It is wired from autumn to early spring, while the bark is firm; in spring "
            "growth the live vein slips under the hand.",
            datum=stage.because,
            cautions=(FROZEN_WOOD_SNAPS,),
        )

    @after("bent", rule="juniper-after-bend")
    def after_heavy_bend(self, tree: Tree, done: Event, year: Year) -> Proposals:
        """A torn live vein shows in the foliage weeks later."""
        for part in parts_of(done) if done.says("heavy") else ():
            yield Proposal(
                "checked",
                weeks_after(done.day, 4, 6, 10),
                what=on_part("strength of foliage and live vein", part),
                part=part,
                because="A torn live vein shows weeks later, when its foliage turns grey and dull.",
                datum=f"Six weeks from {done.day} ({COMMON_PRACTICE}).",
                cautions=("Shade, still air and no root work this year.",),
                settled_by=("checked strength", "checked wounds", "vigour"),
            )

    @each("summer", rule="juniper-deadwood")
    def care_for_deadwood(self, tree: Tree, season: Season, year: Year) -> Proposals:
        """Once a year in dry heat, on wood that has dried."""
        window = year.months((6, 20), (7, 10), (8, 20))
        carved = last_of_before(tree, window.opens, "carved")
        treated = last_of_before(tree, window.opens, "treated-deadwood")
        made = max(filter(None, (carved, treated)), key=lambda event: event.day, default=None)
        if made is None or made.day > window.best - _FRESH_DEADWOOD_DRIES:
            return
        yield Proposal(
            "treated-deadwood",
            window,
            what="with lime sulphur, cleaned and wetted first",
            because="Deadwood is cleaned and painted once a year in hot, dry weather, before it "
            "rots.",
            datum=f"It was last {made.act} {made.when.text}.",
            cautions=("Cover soil and live bark: it kills both.",),
            lapses=True,
        )

    # ------------------------------------------------------------------ feed, health, winter

    @when(7, rule="juniper-feed-spring")
    def feed_in_spring(self, tree: Tree, stage: Stage, year: Year) -> Proposals:
        """From the first light green."""
        yield from feeding(
            tree,
            year,
            after_stage(stage, 0, 10, 21),
            because="It is fed from the first light green tips on, evenly and not too much: rich "
            "feed makes coarse shoots.",
            datum=stage.because,
        )

    @each("autumn", rule="juniper-feed-autumn")
    def feed_in_autumn(self, tree: Tree, season: Season, year: Year) -> Proposals:
        """It thickens in autumn."""
        yield from feeding(
            tree,
            year,
            year.months((9, 5), (9, 20), (10, 15)),
            because="Junipers grow on into autumn and store the last feed for spring.",
            datum=year.by_months,
        )

    @when(7, rule="juniper-rust")
    def look_for_rust(self, tree: Tree, stage: Stage, year: Year) -> Proposals:
        """Gymnosporangium: orange jelly in wet spring weather (WSU Hortsense: pear trellis rust).

        On bonsai junipers from abroad: EPPO Reporting Service 1974/10.
        """
        yield pests(
            after_stage(stage, -14, 0, 14),
            where="orange jelly on twigs after rain",
            because="Rust shows in wet spring weather as orange jelly on swollen twigs and goes "
            "from there to pears.",
            datum=stage.because,
            cautions=("Some of these rusts must be reported: ask the plant-health service.",),
        )

    @each("summer", rule="juniper-mites")
    def look_for_mites(self, tree: Tree, season: Season, year: Year) -> Proposals:
        """Grey, dull foliage."""
        yield pests(
            year.months((6, 10), (7, 1), (8, 20)),
            where="tap foliage over white paper for mites",
            because="Spider mites grey the foliage in hot, dry weather before anybody sees them; "
            "brown tips after a wet spring are tip blight and are cut out on a dry day.",
            datum=year.by_months,
        )
