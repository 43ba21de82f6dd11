"""What pines have in common, those of two flushes and those of one. Figures: common practice."""

from __future__ import annotations

from datetime import date
from typing import ClassVar

from backbud.species import (
    COMMON_PRACTICE,
    FROM_MEMORY,
    PRESSING,
    Fact,
    Judge,
    Rule,
    StageMonths,
    Tree,
    Year,
)
from backbud_species.habits.balance import Strongest
from backbud_species.habits.candles import decandles, evens_candles, feeds_for_candles
from backbud_species.habits.conifers import Conifer
from backbud_species.habits.done import is_hard_pruning, since
from backbud_species.habits.gates import DECANDLING
from backbud_species.habits.judges import SECOND_FLUSH, no_second_flush
from backbud_species.habits.works import (
    after_work,
    altered,
    at,
    balances,
    between,
    by_warmth,
    checks_after,
    feeds,
    pinches,
    repots,
    watches_for,
    weeks,
    without,
    work,
)


def _not_decandled(tree: Tree, day: date, year: Year) -> bool:
    return not since(tree, year.first, day, lambda done: done.act == "decandled")


class Pine(Conifer):
    """A pine: strongest at the top, with candles, and needles that last two years and more."""

    strongest: ClassVar[Strongest] = "acrotonic"
    toxicity = Fact("Not known to be poisonous; resin sticks and can irritate skin.", FROM_MEMORY)
    bark = Fact("Wire scars stay in plated bark, so look at it before it bites.", COMMON_PRACTICE)
    # For a cool temperate place; from memory. 10: the needles part from the candle.
    stage_months: ClassVar[StageMonths] = {
        1: ((3, 10), (3, 25), (4, 10)),
        7: ((4, 1), (4, 18), (5, 3)),
        10: ((5, 15), (5, 28), (6, 12)),
        91: ((9, 20), (10, 8), (10, 28)),
    }
    never: ClassVar[tuple[str, ...]] = (
        "Never cut back to where no green needle is left: it does not bud from bare wood.",
        "Never wash out all the old soil: the white threads in it feed the tree.",
    )
    works: ClassVar[tuple[Rule, ...]] = altered(
        without(Conifer.works, "mites"),
        *repots(
            "repot",
            between(1, 7),
            autumn_too=True,
            because="It is repotted as the buds swell and keeps half of its old soil, with the "
            "white threads that live on its roots.",
            cautions=("No hard work on shoots in the year of repotting.",),
        ),
        balances("balance", at(7, 10, 21, 35), act="pinched"),
        work(
            "needles",
            "plucked",
            at(91, 7, 28, 70),
            what="old needles, fewest left at the top",
            because="Old needles shade the inner buds, and fewer needles hold the strong top back.",
        ),
        work(
            "thin",
            "thinned",
            at(91, 7, 28, 70),
            what="shoots to two at each point",
            because="Three or more shoots from one point make a knob, so two stay.",
            only_if=_not_decandled,
        ),
        checks_after(
            "back-buds",
            ("pruned",),
            weeks(12, 16, 26),
            look_at="buds",
            what="buds behind the cuts",
            because="A pine buds back only behind a cut where needles were left, and slowly.",
            only_after=is_hard_pruning,
            each_part=True,
        ),
        watches_for(
            "needles-autumn",
            at(91, -49, -21, -7),
            where="this year's needles, for brown bands and tips, and last year's that fall early",
            because="Needle disease that began in spring shows on the needles by late summer, and "
            "what falls is picked off the soil.",
        ),
        watches_for(
            "pests",
            by_warmth((4, 15), (5, 5), (5, 31)),
            where="needles and shoot bases",
            because="Needle diseases show as yellow bands and brown tips in spring; scale and "
            "woolly aphids sit where the needles begin.",
        ),
    )


class OneFlushPine(Pine):
    """A pine that makes one flush a year: its candles are shortened, never cut off whole."""

    rests_under_c: ClassVar[Fact[float] | None] = Fact(13.0, COMMON_PRACTICE)
    judges: ClassVar[tuple[Judge, ...]] = (no_second_flush,)
    never: ClassVar[tuple[str, ...]] = (
        "Never cut the candles off whole: it makes no second flush.",
        *Pine.never,
    )
    works: ClassVar[tuple[Rule, ...]] = altered(
        Pine.works,
        pinches(
            "candles",
            at(7, 18, 30, 40),
            what="the longest candles, by half to two thirds, weak ones left",
            because="It makes one flush a year, so strong candles are shortened while they are "
            "soft and the weak ones keep all of theirs to catch up.",
        ),
        feeds(
            "feed-spring",
            at(10, 0, 14, 28),
            because="Feed before the needles are out makes them long, so a finished tree is fed "
            "when they have hardened.",
        ),
        checks_after(
            "one-flush",
            ("decandled",),
            (0, 0, 14),
            look_at="strength",
            what="strength: its candles are gone and no second flush comes",
            because="A one-flush pine answers cut candles with buds for next year at best.",
            cautions=("Feed it, leave every needle on, and do no other hard work for a year.",),
        ),
    )


class TwoFlushPine(Pine):
    """A pine that answers candle cutting with a second flush, if it is strong."""

    rests_under_c: ClassVar[Fact[float] | None] = Fact(18.0, COMMON_PRACTICE)
    judges: ClassVar[tuple[Judge, ...]] = SECOND_FLUSH
    never: ClassVar[tuple[str, ...]] = (
        "Never decandle a weak tree, or one whose roots were worked on this year.",
        *Pine.never,
    )
    works: ClassVar[tuple[Rule, ...]] = altered(
        Pine.works,
        evens_candles(
            "candles",
            at(7, 18, 32, 42),
            because="Where the candles are not cut in summer, the longest are broken in spring, so "
            "that the top does not outgrow the low branches.",
            unless_cut=DECANDLING.shut,
        ),
        decandles(
            "decandle",
            at(10, 7, 14, 25),
            what="weak candles first",
            because="A strong two-flush pine answers the cutting of its candles with a second "
            "flush and short needles; where the summer is short they are cut early.",
        ),
        after_work(
            "strong-candles",
            ("decandled",),
            "decandled",
            (8, 10, 14),
            what="the strong candles",
            because="The weak parts get about ten days' start, so that the second flush comes "
            "evenly.",
            only_after=lambda done: done.says("weak"),
            weight=PRESSING,
        ),
        after_work(
            "second-flush",
            ("decandled",),
            "thinned",
            weeks(7, 9, 14),
            what="new shoots to two at each point",
            because="Several buds come where a candle was cut; two side by side stay, middling "
            "ones at the top and strong ones low down.",
            only_after=lambda done: not done.says("weak"),
            unless_wrong=True,
        ),
        after_work(
            "feed-again",
            ("decandled",),
            "fed",
            weeks(8, 10, 12),
            because="Feed stops at the cutting of the candles, so that the new needles stay short, "
            "and begins again when they are hard.",
            only_after=lambda done: not done.says("weak"),
        ),
        feeds_for_candles("feed-spring", at(7, 0, 10, 21)),
    )
