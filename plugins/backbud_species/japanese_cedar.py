"""The care of a Japanese cedar: its tips are pulled off soft, for what scissors cut turns brown.

Unless a rule says otherwise, its figures are common practice, no source.
"""

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
    between,
    by_warmth,
    checks_after,
    pinches,
    repots,
    watches_for,
    weeks,
    wires,
    work,
)

_RHS = "Royal Horticultural Society plant page, Cryptomeria japonica ‘Sekkan-sugi’"


class JapaneseCedar(Conifer):
    """A straight thirsty conifer that bronzes in winter and buds from old wood if it is strong."""

    rule_prefix = "cryptomeria"
    botanical = "Cryptomeria japonica"
    common = ("Japanese cedar", "cryptomeria")
    also = ("sugi", "Japanese red cedar", "Cupressus japonica", "Taxodium japonicum")
    habit = "A straight conical tree of soft awl needles and red stringy bark, strongest on top."
    strongest = "acrotonic"
    # The society's page of a garden form; that of the species was not at hand.
    rests_under_c = Fact(18.0, COMMON_PRACTICE)
    hardiness = Fact("H6", _RHS)
    # The society says acid to alkaline, without figures; the trade grows it acid.
    soil_ph = Fact((5.0, 6.5), "FAO, EcoCrop: Cryptomeria japonica")
    usual_mix = Fact("akadama 3, pumice 1, lava 1", COMMON_PRACTICE)
    repot_years = Fact((2, 3, 5), COMMON_PRACTICE)
    repot_interval = Fact(RepotInterval((1, 2, 3), (3, 4, 6)), COMMON_PRACTICE)
    root_share = Fact((0.4, 0.5), COMMON_PRACTICE)
    light = Fact("Full sun or part shade, in a sheltered place.", _RHS)
    water = Fact("Moist and well drained: it never bears a dry ball.", COMMON_PRACTICE)
    bark = Fact("Soft stringy bark that tears and marks under wire.", COMMON_PRACTICE)
    wire_check_weeks = Fact((6, 9, 14), COMMON_PRACTICE)
    toxicity = Fact(
        "Not known to be poisonous; foliage can irritate skin, pollen is a strong allergen.",
        FROM_MEMORY,
    )
    frost_limit_c = Fact(-6.0, FROM_MEMORY)
    why_frost = "Its fine roots freeze sooner than its top, and winter wind then dries the needles."
    # For a cool temperate place; from memory. 7: green shows at the tips.
    stage_months: ClassVar[StageMonths] = {
        1: ((3, 25), (4, 10), (4, 25)),
        7: ((4, 15), (4, 30), (5, 14)),
        10: ((5, 3), (5, 18), (6, 3)),
        91: ((9, 15), (10, 4), (10, 24)),
    }
    advice = (
        "Sun with shelter from drying wind; it loves damp air.",
        "Water before the surface is dry, and mist it on hot evenings.",
        "It turns bronze in winter and greens again in spring: that is no harm.",
    )
    never = (
        "Never trim it with scissors across the needles: what is cut turns brown.",
        "Never let it dry out, and never stand it in winter wind with a frozen pot.",
        "Never strip a branch bare on a weak tree: only a strong one buds from old wood.",
    )
    works: ClassVar[tuple[Rule, ...]] = altered(
        Conifer.works,
        *repots(
            "repot",
            between(1, 7),
            autumn_too=True,
            because="It wakes late and its roots regrow only in warmth, so it is repotted in "
            "spring once the bronze turns green.",
            cautions=("Shade, still air and mist afterwards.",),
        ),
        pinches(
            "pinch",
            at(10, 10, 25, 84),
            what="soft tips with the fingers, again every few weeks, the top hardest",
            because="It grows on until autumn, and only tips pulled off soft branch without brown "
            "ends.",
        ),
        work(
            "rub",
            "rubbed",
            at(10, 21, 38, 63),
            what="shoots on the trunk and in the forks that are not wanted as branches",
            because="It buds in bunches in every fork, and what stays there swells into knobs and "
            "shades the branch.",
        ),
        work(
            "brown-needles",
            "cleaned",
            by_warmth((10, 10), (11, 1), (12, 5)),
            what="brown twigs inside and below",
            because="Inner twigs die without light, do not fall by themselves and breed blight.",
            gate=ALWAYS,
        ),
        checks_after(
            "back-buds",
            ("pruned",),
            weeks(8, 12, 20),
            look_at="buds",
            what="buds behind the cuts",
            because="A strong tree buds from old wood after a hard cut, most of all in the forks.",
            only_after=is_hard_pruning,
            each_part=True,
        ),
        wires(
            "wire",
            by_warmth((3, 1), (3, 22), (4, 20)),
            because="Wired branches dry out in winter, so it is wired when the frosts are over and "
            "before the bark slips.",
            cautions=("Old branches snap at the fork: support it with the hand.",),
        ),
        watches_for(
            "mites",
            by_warmth((4, 20), (5, 15), (6, 20)),
            where="tap foliage over white paper for mites",
            because="Mites dull the needles in spring and early summer, and the bronze of winter "
            "hides them until then.",
        ),
        watches_for(
            "blight",
            by_warmth((6, 10), (6, 30), (8, 15)),
            where="brown twigs that begin inside and low down",
            because="Leaf blight browns it from the inside, where the air stands still and wet.",
            cautions=("Cut it out on a dry day, and water the soil and not the crown at night.",),
        ),
        shades_in_heat("shade", because="Hot dry air browns its tips even in a wet pot."),
    )
