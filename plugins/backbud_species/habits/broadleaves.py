"""What broadleaved trees have in common, bare or green in winter. Figures: common practice."""

from __future__ import annotations

from typing import ClassVar

from backbud.species import COMMON_PRACTICE, Fact, RepotInterval, Rule, Species, StageMonths
from backbud_species.habits.figures import GREAT_HEAT_OVER
from backbud_species.habits.flushes import trims_again
from backbud_species.habits.heat import shades_in_heat
from backbud_species.habits.works import (
    at,
    balances,
    between,
    by_warmth,
    feeds,
    protects_leaves,
    prunes,
    repots,
    seals_cuts,
    trims,
    watches_for,
    wires,
)
from backbud_species.habits.yearly import CUT_ROOTS_FREEZE, FROZEN_WOOD_SNAPS

SEAL_LARGE_CUTS = seals_cuts("seal", because="A sealed cut dries less and rolls over evenly.")


class BroadleafDeciduous(Species):
    """A broadleaved tree that stands bare in winter and is strongest at the top."""

    rests_under_c: ClassVar[Fact[float] | None] = Fact(15.0, COMMON_PRACTICE)
    usual_mix = Fact("akadama 3, pumice 1", COMMON_PRACTICE)
    repot_years = Fact((1, 2, 4), COMMON_PRACTICE)
    repot_interval: ClassVar[Fact[RepotInterval] | None] = Fact(
        RepotInterval((1, 1, 2), (2, 4, 6)), COMMON_PRACTICE
    )
    root_share = Fact((0.5, 0.8), COMMON_PRACTICE)
    wire_check_weeks = Fact((3, 5, 8), COMMON_PRACTICE)
    light = Fact("Full sun, with shade from noon in the hottest weeks.", COMMON_PRACTICE)
    water = Fact("Plenty while it is in leaf, little while it is bare.", COMMON_PRACTICE)
    # For a cool temperate place; from memory. 19: first leaves full size and hardened.
    stage_months: ClassVar[StageMonths] = {
        1: ((3, 1), (3, 18), (4, 3)),
        7: ((3, 22), (4, 6), (4, 22)),
        10: ((4, 3), (4, 16), (5, 1)),
        19: ((5, 25), (6, 8), (6, 22)),
        91: ((8, 25), (9, 12), (10, 1)),
        93: ((10, 12), (10, 28), (11, 14)),
        97: ((11, 8), (11, 22), (12, 10)),
    }
    advice: ClassVar[tuple[str, ...]] = (
        "Water well while it is in leaf, and less once the leaves have fallen.",
        "Turn the pot, so that every side has its light.",
    )
    never: ClassVar[tuple[str, ...]] = (
        "Never take the leaves off a weak or a just repotted tree.",
        "Never repot once the leaves are open.",
    )
    works: ClassVar[tuple[Rule, ...]] = (
        *repots(
            "repot",
            between(1, 7),
            because="As the buds swell roots regrow fastest, and no leaf has opened yet that would "
            "want their water.",
            cautions=(CUT_ROOTS_FREEZE,),
        ),
        protects_leaves(
            "late-frost",
            10,
            because="Frost burns the young leaves, so it is covered or brought in on clear nights.",
        ),
        shades_in_heat(
            "shade",
            because="A pot in full sun grows far hotter than the air, and leaves scorch above "
            "roots that stand still in it.",
            over=GREAT_HEAT_OVER,
        ),
        trims(
            "trim",
            at(19, -5, 3, 14),
            what="long shoots to two leaves, the top hardest",
            because="Once the first leaves are hard the shoots have fed the tree, and shortened "
            "ones branch.",
        ),
        trims_again(
            "trim-late",
            by_warmth((7, 20), (8, 5), (8, 25)),
            what="the second flush to two leaves",
            because="What grows after a late summer trim still ripens before the frost.",
        ),
        balances("balance", at(19, 0, 7, 21)),
        feeds(
            "feed",
            at(19, 0, 7, 21),
            because="Feed before the first leaves are hard makes long shoots and large leaves.",
        ),
        feeds(
            "feed-autumn",
            at(91, -7, 0, 14),
            what="with little nitrogen",
            because="Fed while the leaves are still green, it goes strong into spring.",
        ),
        prunes(
            "prune",
            at(97, 0, 7, 28),
            what="twigs: what crosses, doubles or outgrows the outline",
            because="Without leaves the twigs are seen, and nothing is in growth.",
        ),
        wires(
            "wire",
            at(97, 0, 14, 35),
            because="Bare branches are seen and wired best.",
            cautions=(FROZEN_WOOD_SNAPS,),
        ),
        SEAL_LARGE_CUTS,
        watches_for(
            "pests",
            by_warmth((4, 25), (5, 12), (6, 5)),
            where="soft tips and undersides of the leaves",
            because="Aphids sit on the soft tips before their honeydew shows.",
        ),
    )


class BroadleafEvergreen(Species):
    """A broadleaved tree that keeps its leaves in winter."""

    evergreen = True
    usual_mix = Fact("akadama 2, pumice 1, lava 1", COMMON_PRACTICE)
    repot_years = Fact((2, 3, 5), COMMON_PRACTICE)
    repot_interval: ClassVar[Fact[RepotInterval] | None] = Fact(
        RepotInterval((1, 2, 3), (3, 4, 6)), COMMON_PRACTICE
    )
    root_share = Fact((0.4, 0.6), COMMON_PRACTICE)
    wire_check_weeks = Fact((4, 6, 10), COMMON_PRACTICE)
    light = Fact("Full sun to light shade.", COMMON_PRACTICE)
    water = Fact("Evenly moist all year, for it never stops losing water.", COMMON_PRACTICE)
    # For a mild temperate place; from memory.
    stage_months: ClassVar[StageMonths] = {
        1: ((3, 8), (3, 24), (4, 10)),
        7: ((3, 28), (4, 14), (5, 1)),
        10: ((4, 12), (4, 28), (5, 15)),
        19: ((5, 28), (6, 12), (6, 28)),
        91: ((9, 5), (9, 22), (10, 12)),
    }
    advice: ClassVar[tuple[str, ...]] = (
        "Water all year: it keeps its leaves and loses water on mild winter days too.",
        "Keep it from frozen soil together with sun and wind.",
    )
    never: ClassVar[tuple[str, ...]] = (
        "Never take the leaves off a weak or a just repotted tree.",
        "Never prune hard in autumn: the new shoots do not ripen before the frost.",
    )
    works: ClassVar[tuple[Rule, ...]] = (
        *repots(
            "repot",
            between(1, 10),
            because="An evergreen loses water all year, so its roots are cut when they regrow "
            "fastest, as growth begins.",
            cautions=("Shade and still air afterwards, for the leaves stay on.",),
        ),
        trims(
            "trim",
            at(19, 0, 7, 21),
            what="shoots to two or three leaves, where it grows strongest first",
            because="Once the new leaves are hard, shortened shoots branch and light reaches the "
            "inner twigs.",
        ),
        trims_again(
            "trim-late",
            by_warmth((7, 25), (8, 8), (8, 28)),
            what="what outgrows the outline",
            because="What grows after a late summer trim still ripens before the frost.",
        ),
        balances("balance", at(19, 0, 7, 21)),
        feeds(
            "feed",
            at(10, 0, 10, 24),
            because="It makes its leaves of the year from what it takes up in spring.",
        ),
        feeds(
            "feed-autumn",
            at(91, -14, 0, 14),
            what="with little nitrogen",
            because="Fed as the shoots ripen, it winters well without soft growth.",
        ),
        wires(
            "wire",
            by_warmth((2, 10), (3, 5), (3, 31)),
            because="Before growth starts the wood is ripe and the buds are not yet soft.",
            cautions=(FROZEN_WOOD_SNAPS,),
        ),
        SEAL_LARGE_CUTS,
        watches_for(
            "pests",
            by_warmth((6, 1), (6, 25), (8, 15)),
            where="undersides of the leaves and forks",
            because="Scale, mites and aphids sit where a shower does not reach them.",
        ),
    )
