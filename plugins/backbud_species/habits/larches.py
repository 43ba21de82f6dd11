"""What larches have in common: conifers that stand bare in winter. Figures: common practice."""

from __future__ import annotations

from typing import ClassVar

from backbud.species import COMMON_PRACTICE, FROM_MEMORY, Fact, RepotInterval, Rule, StageMonths
from backbud_species.habits.conifers import Conifer
from backbud_species.habits.done import is_hard_pruning
from backbud_species.habits.heat import shades_in_heat
from backbud_species.habits.works import (
    ALWAYS,
    altered,
    at,
    balances,
    between,
    by_warmth,
    checks_after,
    feeds,
    pinches,
    protects_leaves,
    prunes,
    repots,
    trims,
    watches_for,
    weeks,
    wires,
    without,
    work,
)
from backbud_species.habits.yearly import FROZEN_WOOD_SNAPS

_CONNECTICUT = "Connecticut Agricultural Experiment Station, Plant Pest Handbook: larch"
_MASSACHUSETTS = "University of Massachusetts Amherst, Insect and Mite Guide: Adelges laricis"
_EPPO = "EPPO Reporting Service 2010/033"


class Larch(Conifer):
    """A larch: bare in winter, first to wake, with short spurs that can become shoots."""

    rests_under_c: ClassVar[Fact[float] | None] = Fact(13.0, COMMON_PRACTICE)
    evergreen = False
    strongest = "acrotonic"
    usual_mix = Fact("akadama 2, pumice 1, lava 1", COMMON_PRACTICE)
    repot_years = Fact((2, 3, 5), COMMON_PRACTICE)
    repot_interval = Fact(RepotInterval((1, 2, 3), (3, 4, 7)), COMMON_PRACTICE)
    root_share = Fact((0.4, 0.6), COMMON_PRACTICE)
    toxicity = Fact("Not known to be poisonous; resin sticks and can irritate skin.", FROM_MEMORY)
    bark = Fact(
        "Young bark is thin and thickens fast, so wire bites within weeks.", COMMON_PRACTICE
    )
    wire_check_weeks = Fact((4, 7, 10), COMMON_PRACTICE)
    girth_growth_mm = Fact(9.0, FROM_MEMORY)
    chill_portions = Fact(60.0, FROM_MEMORY)
    why_frost = "The top is as hardy as a tree can be; roots in a shallow pot are less so."
    # For a cool temperate place; from memory. 10 is what the German weather service observes as
    # the unfolding of the needles: the tufts loosen and spread at the tip.
    stage_months: ClassVar[StageMonths] = {
        1: ((2, 22), (3, 10), (3, 25)),
        7: ((3, 12), (3, 27), (4, 10)),
        10: ((3, 27), (4, 9), (4, 24)),
        91: ((8, 28), (9, 15), (10, 4)),
        93: ((10, 15), (10, 30), (11, 14)),
        97: ((11, 8), (11, 22), (12, 8)),
    }
    advice: ClassVar[tuple[str, ...]] = (
        "Full sun, wind and cold winters outside: it does not live indoors.",
        "Plenty of water while it is in needle; one dry day in spring browns the tufts.",
        "It turns gold and stands bare in winter: it is not dead.",
    )
    never: ClassVar[tuple[str, ...]] = (
        "Never repot it once the tufts are open: the time is short and early.",
        "Never let it dry out while it is in needle.",
        "Never keep it warm in winter: without cold it does not wake.",
    )
    sources: ClassVar[dict[str, str]] = {
        "needles": _CONNECTICUT,
        "adelgids": _MASSACHUSETTS,
        "ramorum": _EPPO,
    }
    works: ClassVar[tuple[Rule, ...]] = altered(
        without(Conifer.works, "mites"),
        *repots(
            "repot",
            between(1, 7),
            because="It wakes before every other tree, and once its tufts are green cut roots "
            "cannot water them.",
            cautions=("Keep part of the old soil, with its fungus threads, and keep off frost.",),
        ),
        protects_leaves(
            "late-frost",
            10,
            because="It is green long before the last frost, and hard frost blackens open tufts.",
            frost_c=-3.0,
        ),
        pinches(
            "pinch",
            at(10, 25, 38, 60),
            what="soft tips of long shoots that have to stay short, the top hardest",
            because="Buds on the outside run out into long shoots in late spring, and a shoot "
            "stopped soft fills the tufts behind it.",
        ),
        trims(
            "trim",
            by_warmth((6, 25), (7, 10), (8, 5)),
            what="long shoots to two or three buds, the last one pointing up or outwards",
            because="Shortened as they begin to harden, long shoots form buds and short spurs "
            "before autumn.",
        ),
        prunes(
            "prune",
            at(1, -35, -18, -3),
            what="bare twigs: what doubles, hangs or outgrows the outline, back to a spur",
            because="Bare and just before waking every spur is seen, and a spur that becomes the "
            "end of a branch grows out into a shoot.",
            cautions=("Leave no cut without a spur or bud close behind it.",),
        ),
        checks_after(
            "back-buds",
            ("pruned",),
            weeks(8, 12, 20),
            look_at="buds",
            what="new tufts behind the cuts",
            because="A strong larch breaks from spurs on old wood after a hard cut, a weak one "
            "dies back to the next live spur.",
            only_after=is_hard_pruning,
            each_part=True,
        ),
        balances("balance", by_warmth((6, 25), (7, 10), (8, 5))),
        feeds(
            "feed-spring",
            at(10, 21, 35, 56),
            because="Fed before the first tufts have hardened, it throws long coarse shoots.",
        ),
        feeds(
            "feed-autumn",
            by_warmth((8, 20), (9, 8), (10, 5)),
            because="It takes food back into the wood before its needles turn, and wakes from it.",
        ),
        wires(
            "wire",
            at(97, 0, 21, 75),
            because="Bare branches are seen whole and bend well, and no buds are yet swollen that "
            "the wire would break off.",
            cautions=(FROZEN_WOOD_SNAPS,),
        ),
        work(
            "needles",
            "cleaned",
            at(97, 0, 7, 28),
            what="fallen needles off soil, forks and bench",
            because="Needle blight of larch lives over winter on fallen needles, so they are "
            f"gathered up ({_CONNECTICUT}).",
            gate=ALWAYS,
        ),
        watches_for(
            "adelgids",
            at(10, 5, 18, 42),
            where="white wool on the tufts",
            because="Larch adelgids feed on the opening buds and then dust the tufts with white "
            f"wool ({_MASSACHUSETTS}).",
        ),
        watches_for(
            "ramorum",
            by_warmth((6, 10), (7, 5), (9, 5)),
            where="withered shoot tips, blackened needles, bleeding bark",
            because="Ramorum disease wilts the shoot tips, blackens needles and drops them early "
            f"({_EPPO}).",
            cautions=("It must be reported: call plant health, and move no tree.",),
        ),
        shades_in_heat(
            "shade",
            because="It is a tree of cold mountains, and its needles burn in hot dry weeks.",
        ),
    )
