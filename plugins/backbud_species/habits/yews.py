"""What yews have in common: poison, shade, and buds from bare wood. Figures: common practice."""

from __future__ import annotations

from typing import ClassVar

from backbud.species import COMMON_PRACTICE, FROM_MEMORY, Fact, RepotInterval, Rule, StageMonths
from backbud_species.habits.conifers import Conifer
from backbud_species.habits.deadwood import cares_for_deadwood
from backbud_species.habits.done import is_hard_pruning
from backbud_species.habits.works import (
    altered,
    at,
    between,
    by_warmth,
    checks_after,
    disbuds,
    pinches,
    protects_leaves,
    repots,
    trims,
    watches_for,
    weeks,
    wires,
    without,
)
from backbud_species.habits.yearly import FROZEN_WOOD_SNAPS

_COLORADO = "Colorado State University, Guide to Poisonous Plants: Taxus"
_ILLINOIS = "University of Illinois, black vine weevil"
_MARYLAND = "University of Maryland Arboretum, featured plant: Taxus baccata"
POISON_IN_CLIPPINGS = "Gather every clipping: dried needles stay as poisonous as fresh ones."


class Yew(Conifer):
    """A yew: no resin, dark flat needles, male or female, and it buds from bare wood."""

    strongest = "acrotonic"
    usual_mix = Fact("akadama 2, pumice 2, lava 1", COMMON_PRACTICE)
    repot_years = Fact((2, 4, 6), COMMON_PRACTICE)
    repot_interval = Fact(RepotInterval((1, 2, 4), (3, 5, 8)), COMMON_PRACTICE)
    toxicity = Fact(
        "Deadly to people, horses, cattle and pets: needles, wood and seeds, fresh or dry; only "
        "the red flesh round the seed is not.",
        f"{_COLORADO}; {_MARYLAND}",
    )
    bark = Fact("Thin flaking bark over slow wood: wire marks stay for years.", COMMON_PRACTICE)
    girth_growth_mm = Fact(4.0, FROM_MEMORY)
    # Young roots of Taxus cuspidata did not harden at all in Journal of the American Society for
    # Horticultural Science 96(1), 1971, 83 to 87; its summary gives no degrees for them.
    # Of Taxus x media. Mature roots of T. cuspidata bore -29 °C, and its young ones never hardened
    # (Journal of the American Society for Horticultural Science 96:83, 1971; not read).
    frost_limit_c = Fact(-12.0, f"{FROM_MEMORY} of Havis 1976")
    why_frost = "Its young roots never harden against frost as its needles and old roots do."
    stage_months: ClassVar[StageMonths] = {
        1: ((3, 10), (3, 26), (4, 10)),
        7: ((4, 3), (4, 18), (5, 3)),
        10: ((4, 20), (5, 5), (5, 20)),
        91: ((9, 1), (9, 20), (10, 10)),
    }
    advice: ClassVar[tuple[str, ...]] = (
        "Sun or shade; after repotting and in great heat shade.",
        "Water evenly and never let the pot stand wet: yew roots rot.",
        "Keep children, pets and grazing animals from it, and clippings off the compost.",
    )
    never: ClassVar[tuple[str, ...]] = (
        "Never leave clippings or fallen seed where people or animals can eat them.",
        "Never cut a weak yew back to bare wood: only a strong one buds from it.",
        "Never let its pot stand wet.",
    )
    sources: ClassVar[dict[str, str]] = {"bare-wood-buds": _MARYLAND, "weevils": _ILLINOIS}
    works: ClassVar[tuple[Rule, ...]] = altered(
        without(Conifer.works, "mites"),
        *repots(
            "repot",
            between(1, 10),
            autumn_too=True,
            because="Its thick roots break easily and heal slowly, so they are cut as the buds "
            "swell, when the warm months for new roots lie ahead.",
            cautions=("Shade and little water until it grows.",),
        ),
        protects_leaves(
            "late-frost",
            10,
            because="Its new shoots are soft for weeks and turn brown in a late frost that the old "
            "needles do not feel.",
            frost_c=-1.0,
        ),
        pinches(
            "pinch",
            at(10, 10, 18, 35),
            what="soft tips of strong shoots, the top hardest",
            because="A shoot stopped while it is soft branches from the buds along it, and light "
            "reaches the weak ones inside.",
            cautions=("Not where a branch has to lengthen or thicken.", POISON_IN_CLIPPINGS),
        ),
        trims(
            "trim",
            by_warmth((7, 20), (8, 10), (9, 5)),
            what="new shoots to a bud that points outwards",
            because="Cut once they have hardened, shoots set buds for spring and do not grow soft "
            "again before winter.",
            cautions=(POISON_IN_CLIPPINGS,),
        ),
        checks_after(
            "bare-wood-buds",
            ("pruned",),
            weeks(8, 12, 26),
            look_at="buds",
            what="buds on the bare wood",
            because=f"Unlike most conifers a yew makes new shoots from bare wood ({_MARYLAND}), "
            "within a season if it is strong.",
            cautions=("No second hard cut until they have grown for a year.",),
            only_after=is_hard_pruning,
            each_part=True,
        ),
        disbuds(
            "flower-buds",
            by_warmth((10, 15), (11, 20), (1, 31)),
            what="the round flower buds under this year's shoots, pointed shoot buds left",
            because="A yew that flowers at every needle makes few shoot buds, and a male one dusts "
            "the whole bench in early spring.",
        ),
        wires(
            "wire",
            by_warmth((9, 15), (10, 15), (3, 10)),
            because="Its branches bend while they are young and the sap is slow; old yew wood is "
            "too hard and springs back.",
            cautions=(FROZEN_WOOD_SNAPS,),
        ),
        watches_for(
            "weevils",
            by_warmth((6, 5), (6, 25), (7, 31)),
            where="needles notched at the edge, and black weevils by lamp light at night",
            because="Vine weevils come out in early summer, feed at night and lay their "
            f"eggs in the soil from midsummer on ({_ILLINOIS}).",
        ),
        watches_for(
            "grubs",
            by_warmth((8, 25), (9, 12), (10, 10)),
            where="white grubs among the roots near the surface",
            because="The grubs eat the roots from late summer to spring, and nematodes against "
            "them need warm moist soil.",
        ),
        cares_for_deadwood(
            "deadwood",
            because="Yew heartwood lasts, but the pale sapwood round it rots unless it is cleaned "
            "and painted in dry heat.",
            cautions=("Its dust is poisonous: wear a mask.",),
        ),
    )
