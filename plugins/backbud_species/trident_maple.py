"""A trident maple's work and year go in; what its strong shoots and tender roots ask for.

Unless a rule says otherwise, its figures are common practice, no source.
"""

from __future__ import annotations

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
    days_after,
    each,
    stresses,
    weeks_after,
    when,
)
from backbud_species.habits.done import is_hard_pruning, on_part, parts_of
from backbud_species.habits.flushes import EARLY_DAYS
from backbud_species.habits.gates import HARD_WORK, LEAF_WORK
from backbud_species.habits.leaves import Way, late_frost, leaves_off
from backbud_species.habits.maples import sap_rises
from backbud_species.habits.repotting import repotting, until
from backbud_species.habits.roots import over_share
from backbud_species.habits.works import at, balances
from backbud_species.habits.yearly import FROZEN_WOOD_SNAPS, feeding, left_to_grow, pests, wiring


class TridentMaple(Species):
    """A vigorous maple, strongest at the top, quick to heal and to thicken."""

    rule_prefix = "trident"
    botanical = "Acer buergerianum"
    common = ("trident maple",)
    also = ("Acer trifidum", "Acer buergeranum", "three-toothed maple")
    habit = "A vigorous tree of paired twigs, strongest at the top and the outside."
    strongest = "acrotonic"
    # Another plant list gives H6 to H7; the RHS list itself was not at hand.
    hardiness = Fact("H6", FROM_MEMORY)
    soil_ph = Fact((5.0, 7.0), "Michigan State University Extension, Trident maple, 2016")
    usual_mix = Fact("akadama 3, pumice 1", COMMON_PRACTICE)
    repot_years = Fact((1, 2, 4), COMMON_PRACTICE)
    root_share = Fact((0.6, 1.0), COMMON_PRACTICE)
    light = Fact("Full sun, with shade from noon in the hottest weeks.", COMMON_PRACTICE)
    water = Fact("Plenty while it is in leaf, little while it is bare.", COMMON_PRACTICE)
    bark = Fact("It thickens so fast that wire bites within a month.", COMMON_PRACTICE)
    toxicity = Fact("Not known to harm people; keep maple seed away from horses.", FROM_MEMORY)
    frost_limit_c = Fact(-5.0, COMMON_PRACTICE)
    why_frost = "Its roots are fleshy and burst when the pot freezes through."
    # It thickens so fast that wire bites within a month.
    wire_check_weeks = Fact((3, 4, 6), COMMON_PRACTICE)
    advice = (
        "Water well while it is in leaf: a strong maple drinks more than once on a hot day.",
        "Full sun, but shade from noon in the hottest weeks.",
        "Cut shoots back to one or two pairs of leaves, the top most.",
        "Its roots are fleshy: keep the pot from freezing through.",
    )
    never = (
        "Never take the leaves off a weak or a just repotted tree.",
        "Never repot once the leaves are open.",
        "Never make large cuts while the sap rises: the wound bleeds.",
        "Never leave wire on over a summer unchecked.",
    )
    # For a cool temperate place; from memory. 19: first leaves full size and hardened.
    stage_months: ClassVar[StageMonths] = {
        1: ((2, 25), (3, 12), (3, 28)),
        7: ((3, 14), (3, 28), (4, 12)),
        10: ((3, 24), (4, 6), (4, 20)),
        19: ((5, 18), (6, 1), (6, 15)),
        91: ((8, 25), (9, 12), (10, 1)),
        93: ((10, 15), (11, 1), (11, 18)),
        97: ((11, 10), (11, 25), (12, 12)),
    }
    works = (balances("balance", at(19, -5, 3, 14)),)

    # ------------------------------------------------------------------ roots

    @when(1, rule="trident-repot")
    def repot_as_buds_swell(self, tree: Tree, stage: Stage, year: Year) -> Proposals:
        """Between the swelling of the buds and the first leaf."""
        yield from repotting(
            tree,
            year,
            until(stage, year.stage(7)),
            self,
            because="It is repotted as the buds swell and before the first leaf opens; it bears "
            "hard root work and soon fills a pot.",
            cautions=("Keep it from frost afterwards: cut roots freeze first.",),
        )

    @after("repotted", "potted-on", "root-pruned", rule="trident-root-share")
    def too_much_root_off(self, tree: Tree, done: Event, year: Year) -> Proposals:
        """More than it bears in a cool place."""
        yield from over_share(tree, done, year, self.root_share)

    # ------------------------------------------------------------------ shoots and leaves

    @when(10, rule="trident-pinch")
    def pinch_strong_tips(self, tree: Tree, stage: Stage, year: Year) -> Proposals:
        """The top and the outside first; not a tree that needs its leaves."""
        if LEAF_WORK.shut(tree, stage.first, year):
            return
        yield Proposal(
            "pinched",
            after_stage(stage, 0, 5, 18),
            what="the strong tips to one pair of leaves",
            because="It grows strongest at the top and the outside, so those tips go back to the "
            "first pair as they unfold; weak inner shoots are left to run.",
            datum=stage.because,
            lapses=True,
        )

    @when(19, rule="trident-trim")
    def shorten_first_flush(self, tree: Tree, stage: Stage, year: Year) -> Proposals:
        """When the first leaves are hard."""
        if tree.weak:
            yield left_to_grow(
                after_stage(stage, 0, 14, 28),
                because="A weak maple keeps every leaf until it grows again.",
            )
            return
        yield Proposal(
            "trimmed",
            after_stage(stage, -5, 3, 14),
            what="long shoots to one or two pairs, from the top down",
            because="Shoots that made five or six pairs go back to one or two once the leaves are "
            "hard, the top hardest.",
            datum=stage.because,
            settled_by=("trimmed", "pruned"),
            lapses=True,
        )

    @each("summer", rule="trident-trim-late")
    def shorten_second_flush(self, tree: Tree, season: Season, year: Year) -> Proposals:
        """The last trim in time for the wood to ripen."""
        if tree.weak:
            return
        yield Proposal(
            "trimmed",
            year.months((7, 20), (8, 5), (8, 25)),
            what="the second flush to one or two pairs",
            because="The second flush is shortened before the end of summer, so that what follows "
            "still ripens.",
            datum=year.by_months,
            settled_by=("trimmed", "pruned"),
            lapses=True,
            early_days=EARLY_DAYS,
        )

    @when(19, rule="trident-defoliate")
    def leaves_off(self, tree: Tree, stage: Stage, year: Year) -> Proposals:
        """All leaves only from a strong tree in a warm place; else the large outer ones; or none.

        Nothing for a weak tree, nor after root work or hard pruning in the same year.
        """
        if HARD_WORK.shut(tree, stage.first, year):
            return
        yield from leaves_off(
            tree,
            year,
            after_stage(stage, 0, 7, 14),
            full=Way(
                "fully, the stalks left on",
                "A strong trident in a warm place is stripped once its leaves are hard and answers "
                "with finer twigs and smaller leaves.",
            ),
            part=Way(
                "in part: large and outer leaves",
                "Large and outer leaves come off so that light reaches the inner twigs; the rest "
                "stay, since a full stripping needs a strong tree and a warm summer.",
            ),
        )

    @after("defoliated", rule="trident-new-leaves")
    def new_leaves(self, tree: Tree, done: Event, year: Year) -> Proposals:
        """Whether it answers."""
        if not stresses(done):
            return
        yield Proposal(
            "checked",
            weeks_after(done.day, 3, 4, 5),
            what="buds and new leaves",
            because="New leaves stand about four weeks after a stripping; until then it drinks "
            "little and burns easily.",
            datum=f"Four weeks from {done.day} ({COMMON_PRACTICE}).",
            settled_by=("checked buds", "checked strength"),
        )

    # ------------------------------------------------------------------ structure

    @when(97, rule="trident-prune")
    def prune_bare_tree(self, tree: Tree, stage: Stage, year: Year) -> Proposals:
        """The twigs are seen, and the sap is down."""
        if tree.weak:
            return
        yield Proposal(
            "pruned",
            after_stage(stage, 0, 7, 21),
            what="twigs: what crosses, doubles or outgrows the outline",
            because="Without leaves the twigs are seen, and cuts made before the sap rises do not "
            "bleed.",
            datum=stage.because,
            lapses=True,
        )

    @after("pruned", rule="trident-bleeding")
    def watch_cuts_in_rising_sap(self, tree: Tree, done: Event, year: Year) -> Proposals:
        """A large cut made between midwinter and bud burst."""
        if is_hard_pruning(done) and sap_rises(done.day, year):
            yield Proposal(
                "checked",
                days_after(done.day, 1, 2, 10),
                what="wounds, for bleeding",
                because="A maple cut hard as the sap rises bleeds; keep it from frost until it "
                "stops.",
                datum=f"It was cut on {done.day}, between midwinter and bud burst.",
                settled_by=("checked wounds",),
                lapses=True,
            )

    @after("pruned", rule="trident-seal")
    def seal_large_cuts(self, tree: Tree, done: Event, year: Year) -> Proposals:
        """A large cut is closed the same day."""
        for part in parts_of(done) if is_hard_pruning(done) else ():
            yield Proposal(
                "sealed",
                days_after(done.day, 0, 0, 3),
                what=on_part("the large cuts", part),
                part=part,
                because="A sealed cut rolls over evenly and a maple closes it within a few years.",
                datum=f"It was cut hard on {done.day}.",
                lapses=True,
            )

    @when(97, rule="trident-wire")
    def wiring_season(self, tree: Tree, stage: Stage, year: Year) -> Proposals:
        """Bare, and before the hard frosts."""
        yield from wiring(
            tree,
            after_stage(stage, 0, 14, 35),
            because="Bare branches are seen and wired best; the wire comes off again in spring, "
            "for a trident thickens fast.",
            datum=stage.because,
            cautions=(FROZEN_WOOD_SNAPS,),
        )

    # ------------------------------------------------------------------ weather

    @when(10, rule="trident-late-frost")
    def guard_young_leaves(self, tree: Tree, stage: Stage, year: Year) -> Proposals:
        """A frost on open leaves costs the first flush."""
        yield from late_frost(
            year,
            after_stage(stage, 0, 0, 0),
            because="Frost burns the young leaves, so it is covered or brought in on clear nights.",
            frost_c=0.0,
            lasts_days=25,
        )

    # ------------------------------------------------------------------ feed and health

    @when(19, rule="trident-feed")
    def feed_on_hard_leaves(self, tree: Tree, stage: Stage, year: Year) -> Proposals:
        """Early feed makes long shoots and large leaves."""
        yield from feeding(
            tree,
            year,
            after_stage(stage, 0, 7, 21),
            because="A finished tree is fed once the first leaves are hard; one that must thicken "
            "is fed from the first leaf.",
            datum=stage.because,
        )

    @when(91, rule="trident-feed-autumn")
    def feed_in_autumn(self, tree: Tree, stage: Stage, year: Year) -> Proposals:
        """Strength for the spring."""
        yield from feeding(
            tree,
            year,
            after_stage(stage, -7, 0, 14),
            because="Fed while the leaves are still green, with little nitrogen, it goes strong "
            "into spring.",
            datum=stage.because,
            what="with little nitrogen",
        )

    @each("spring", rule="trident-pests")
    def look_for_pests(self, tree: Tree, season: Season, year: Year) -> Proposals:
        """Soft tips."""
        yield pests(
            year.months((4, 25), (5, 10), (5, 31)),
            where="soft tips and leaves",
            because="Aphids sit on the soft tips, and mildew follows where leaves stand close.",
            datum=year.by_months,
        )
