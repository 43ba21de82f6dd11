"""A Japanese black pine's work and year go in; what its candles, needles and roots ask for.

Unless a rule says otherwise, its figures are common practice, no source.
"""

from __future__ import annotations

from typing import ClassVar, NamedTuple

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
    joined,
    weeks_after,
    when,
)
from backbud_species.habits.done import (
    is_hard_pruning,
    on_part,
    parts_of,
    since,
)
from backbud_species.habits.figures import DECANDLE_FROM
from backbud_species.habits.gates import DECANDLING
from backbud_species.habits.repotting import repotting, until
from backbud_species.habits.roots import over_share
from backbud_species.habits.second_flush import candle_cut
from backbud_species.habits.warmth import summer, summer_against
from backbud_species.habits.works import at, balances
from backbud_species.habits.yearly import (
    FROZEN_WOOD_SNAPS,
    feeding,
    pests,
    wiring,
)


class _Gate(NamedTuple):
    """Whether a tree may be decandled, and the sentence that says why or why not."""

    opens: bool
    datum: str


def _gate(tree: Tree, stage: Stage, year: Year) -> _Gate:
    """Decandling only for a strong tree, with no other hard work this season, in a warm summer."""
    shut = DECANDLING.shut(tree, stage.day, year)
    return _Gate(not shut, shut or summer_against(year, DECANDLE_FROM).datum)


class JapaneseBlackPine(Species):
    """A two-flush pine, strongest at the top, that answers candle cutting with a second flush."""

    rule_prefix = "black-pine"
    botanical = "Pinus thunbergii"
    common = ("Japanese black pine", "black pine")
    also = ("Pinus thunbergiana", "kuromatsu")
    habit = "A pine of long stiff needles and rough bark, strongest at the top."
    evergreen = True
    strongest = "acrotonic"
    hardiness = Fact("H6", FROM_MEMORY)
    # A USDA NRCS plant sheet says slightly acid, without figures.
    soil_ph = Fact((5.5, 6.5), FROM_MEMORY)
    usual_mix = Fact("akadama 1, pumice 1, lava 1", COMMON_PRACTICE)
    repot_years = Fact((2, 4, 6), COMMON_PRACTICE)
    root_share = Fact((0.33, 0.5), COMMON_PRACTICE)
    light = Fact("Full sun all day.", COMMON_PRACTICE)
    water = Fact("Let the surface dry a little between waterings.", COMMON_PRACTICE)
    bark = Fact("Wire scars stay in plated bark, so look at it before it bites.", COMMON_PRACTICE)
    toxicity = Fact("Not known to be poisonous; resin sticks and can irritate skin.", FROM_MEMORY)
    why_frost = (
        "The top is hardy, but roots in a shallow pot and dry wind on frozen soil are not safe."
    )
    # Pine wood sets slowly and wire stays for a season.
    wire_check_weeks = Fact((8, 12, 16), COMMON_PRACTICE)
    advice = (
        "Full sun all day, and turn the pot so that every side has it.",
        "Let the surface dry a little between waterings, and never let it stand wet.",
        "Leave candles and needles to whoever trains the tree.",
        "It stays out in winter; only the pot is kept from hard frost.",
    )
    never = (
        "Never decandle a weak tree, or one whose roots were worked on this year.",
        "Never cut back to where no green needle is left: it does not bud from bare wood.",
        "Never wash out all the old soil: the white threads in it feed the tree.",
    )
    # For a cool temperate place; from memory. 10: the needles part from the candle.
    stage_months: ClassVar[StageMonths] = {
        1: ((3, 5), (3, 20), (4, 5)),
        7: ((3, 28), (4, 14), (4, 30)),
        10: ((5, 12), (5, 25), (6, 8)),
        91: ((9, 25), (10, 12), (11, 1)),
    }
    works = (balances("balance", at(7, 7, 18, 28), act="pinched"),)

    # ------------------------------------------------------------------ roots

    @when(1, rule="black-pine-repot")
    def repot_as_buds_swell(self, tree: Tree, stage: Stage, year: Year) -> Proposals:
        """Before the candles move."""
        yield from repotting(
            tree,
            year,
            until(stage, year.stage(7)),
            self,
            because="It is repotted as the buds swell and keeps half of its old soil, with the "
            "white threads that live on its roots.",
            cautions=("No decandling in the year of repotting.",),
        )

    @after("repotted", "potted-on", "root-pruned", rule="black-pine-root-share")
    def too_much_root_off(self, tree: Tree, done: Event, year: Year) -> Proposals:
        """Pines grow roots slowly."""
        yield from over_share(tree, done, year, self.root_share)

    # ------------------------------------------------------------------ candles

    @when(7, rule="black-pine-candles")
    def even_out_candles(self, tree: Tree, stage: Stage, year: Year) -> Proposals:
        """Where no decandling will follow, the longest candles are broken in spring."""
        gate = _gate(tree, stage, year)
        if gate.opens or tree.weak:
            return
        yield Proposal(
            "pinched",
            after_stage(stage, 7, 18, 28),
            what="the longest candles to the length of the rest",
            because="Where the candles are not cut in summer, the longest are broken in spring, so "
            "that the top does not outgrow the low branches.",
            datum=gate.datum,
            lapses=True,
        )

    @when(10, rule="black-pine-decandle")
    def cut_candles(self, tree: Tree, stage: Stage, year: Year) -> Proposals:
        """In early summer; earlier where the summer is short. Nothing where the gate is shut."""
        gate = _gate(tree, stage, year)
        if not gate.opens:
            if not tree.strength:
                yield Proposal(
                    "checked",
                    after_stage(stage, 0, 10, 25),
                    what="strength: are all the candles long, the needles dark?",
                    because="Candles are cut only on a strong tree, so its strength is looked at "
                    "first.",
                    datum=gate.datum,
                    settled_by=("checked strength", "vigour", "decandled"),
                    lapses=True,
                )
            return
        short = summer(year).cool is not False
        usual = after_stage(stage, 7, 14, 25) if short else after_stage(stage, 18, 30, 42)
        cut = candle_cut(stage, year)
        yield Proposal(
            "decandled",
            cut.window if cut else usual,
            what="weak candles first",
            because="A strong black pine answers the cutting of its spring candles with a second "
            "flush and short needles; where the summer is short they are cut early.",
            datum=joined(f"{gate.datum} {cut.datum}", gate.datum) if cut else gate.datum,
            cautions=("Feed off and less water from now on; no other hard work this year.",),
            lapses=True,
        )

    @after("decandled", rule="black-pine-strong-candles")
    def strong_candles_later(self, tree: Tree, done: Event, year: Year) -> Proposals:
        """Ten days' start for the weak parts."""
        if not done.says("weak"):
            return
        yield Proposal(
            "decandled",
            days_after(done.day, 8, 10, 14),
            what="the strong candles",
            because="The weak parts get about ten days' start, so that the second flush comes "
            "evenly.",
            datum=f"The weak candles were cut on {done.day}.",
        )

    @after("decandled", rule="black-pine-shoots")
    def thin_second_flush(self, tree: Tree, done: Event, year: Year) -> Proposals:
        """Two shoots at each point."""
        if done.says("weak"):
            return
        yield Proposal(
            "thinned",
            weeks_after(done.day, 7, 9, 14),
            what="new shoots to two at each point",
            because="Several buds come where a candle was cut; two side by side stay, middling "
            "ones at the top and strong ones low down.",
            datum=f"Nine weeks from {done.day} ({COMMON_PRACTICE}).",
            lapses=True,
        )

    @after("decandled", rule="black-pine-feed-again")
    def feed_again(self, tree: Tree, done: Event, year: Year) -> Proposals:
        """No feed while the second flush grows."""
        if done.says("weak"):
            return
        yield Proposal(
            "fed",
            weeks_after(done.day, 8, 10, 12),
            because="Feed stops at the cutting of the candles, so that the new needles stay short, "
            "and begins again when they are hard.",
            datum=f"Ten weeks from {done.day} ({COMMON_PRACTICE}).",
            lapses=True,
        )

    @after("pruned", rule="black-pine-back-buds")
    def back_buds(self, tree: Tree, done: Event, year: Year) -> Proposals:
        """Buds come behind a cut only where needles are left."""
        for part in parts_of(done) if is_hard_pruning(done) else ():
            yield Proposal(
                "checked",
                weeks_after(done.day, 12, 16, 26),
                what=on_part("buds behind the cuts", part),
                part=part,
                because="A black pine buds back behind a cut where needles were left, and slowly.",
                datum=f"Four months from {done.day} ({COMMON_PRACTICE}).",
                settled_by=("checked buds",),
                lapses=True,
            )

    # ------------------------------------------------------------------ needles and wire

    @when(91, rule="black-pine-needles")
    def pluck_old_needles(self, tree: Tree, stage: Stage, year: Year) -> Proposals:
        """Light for the inner buds, and the top held back."""
        window = after_stage(stage, 7, 28, 70)
        if tree.weak:
            yield Proposal(
                "cleaned",
                window,
                what="brown needles out, every green one stays",
                because="A weak pine lives on its old needles, so only the brown ones come out.",
                datum="The tree is written down as weak.",
                lapses=True,
            )
            return
        yield Proposal(
            "plucked",
            window,
            what="old needles, fewest pairs left at the top",
            because="Old needles come out so that light reaches the inner buds; the top keeps "
            "about five pairs a shoot, the low branches about ten.",
            datum=stage.because,
            lapses=True,
        )

    @when(91, rule="black-pine-shoots-autumn")
    def thin_in_autumn(self, tree: Tree, stage: Stage, year: Year) -> Proposals:
        """Trees that were not decandled carry whorls."""
        decandled = since(tree, year.first, stage.day, lambda e: e.act == "decandled")
        if tree.weak or decandled:
            return
        yield Proposal(
            "thinned",
            after_stage(stage, 7, 28, 70),
            what="shoots to two at each point",
            because="Three or more shoots from one point make a knob, so two stay.",
            datum="No decandling is written down this year.",
            lapses=True,
        )

    @when(91, rule="black-pine-wire")
    def wiring_season(self, tree: Tree, stage: Stage, year: Year) -> Proposals:
        """From late autumn, when the resin is slow."""
        yield from wiring(
            tree,
            after_stage(stage, 28, 56, 100),
            because="It is wired from late autumn, after the needles are plucked and while the "
            "bark is firm.",
            datum=stage.because,
            cautions=(FROZEN_WOOD_SNAPS, "Needles are stiff: mind your eyes."),
        )

    # ------------------------------------------------------------------ feed, health, winter

    @when(7, rule="black-pine-feed-spring")
    def feed_in_spring(self, tree: Tree, stage: Stage, year: Year) -> Proposals:
        """Strength for the second flush."""
        yield from feeding(
            tree,
            year,
            after_stage(stage, 0, 10, 21),
            because="Fed well from spring on, it gathers the strength that candle work asks for.",
            datum=stage.because,
            what="well, until the candles are cut" if tree.strength == "strong" else "well",
        )

    @each("autumn", rule="black-pine-feed-autumn")
    def feed_in_autumn(self, tree: Tree, season: Season, year: Year) -> Proposals:
        """Pines store in autumn."""
        yield from feeding(
            tree,
            year,
            year.months((9, 15), (10, 1), (10, 31)),
            because="Autumn feed makes next year's buds and ends with the first hard frosts.",
            datum=year.by_months,
        )

    @each("spring", rule="black-pine-pests")
    def look_for_pests(self, tree: Tree, season: Season, year: Year) -> Proposals:
        """Yellow bands on needles."""
        yield pests(
            year.months((4, 15), (5, 5), (5, 31)),
            where="needles and shoot bases",
            because="Needle cast shows as yellow bands and brown tips in spring, scale and woolly "
            "aphids sit at the base of the needles.",
            datum=year.by_months,
        )
