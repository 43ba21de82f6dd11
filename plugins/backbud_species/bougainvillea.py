"""The care of a bougainvillea, which flowers on new shoots alone and hates a torn root.

Unless a rule says otherwise, its figures are common practice, no source.
"""

from __future__ import annotations

from typing import ClassVar

from backbud.species import COMMON_PRACTICE, FROM_MEMORY, Fact, RepotInterval, Rule, StageMonths
from backbud_species.habits.flushes import trims_again
from backbud_species.habits.heat import cool_enough_to_thirst
from backbud_species.habits.tropical import Tropical
from backbud_species.habits.works import (
    LEAF_WORK,
    altered,
    at,
    by_warmth,
    feeds,
    prunes,
    repots,
    trims,
    watches_for,
    wires,
    work,
)

_RHS = "RHS, Bougainvillea Elsbet"
_HAWAII = "Plant Pono (Hawaii), Bougainvillea glabra"
_CALIFORNIA = "University of California IPM, Bougainvillea looper"


class Bougainvillea(Tropical):
    """A thorny climber held short, in flower at the tips of its new shoots, at rest in the cool."""

    rule_prefix = "bougainvillea"
    botanical = "Bougainvillea glabra"
    common = ("bougainvillea", "lesser bougainvillea", "paper flower")
    also = ("Bougainvillea spectabilis var. glabra", "ikadakazura")
    habit = "A thorny climber of long whips whose new tips end in coloured bracts."
    hardiness = Fact("H2", _RHS)
    # The RHS says acid to neutral, without figures.
    soil_ph = Fact((5.5, 6.8), FROM_MEMORY)
    usual_mix = Fact("akadama 1, pumice 1, lava 1", COMMON_PRACTICE)
    repot_years = Fact((2, 3, 5), COMMON_PRACTICE)
    repot_interval = Fact(RepotInterval((1, 2, 3), (3, 4, 6)), COMMON_PRACTICE)
    root_share = Fact((0.2, 0.35), COMMON_PRACTICE)
    comes_in_below_c = Fact(8.0, COMMON_PRACTICE)
    why_frost = "It bears a touch of cold leafless and dry, and no freezing of the pot."
    light = Fact("Full sun.", _RHS)
    water = Fact("Regular from spring to autumn.", _RHS)
    toxicity = Fact("Not toxic, but armed with thorns, for people and pets alike.", _HAWAII)
    bark = Fact("Old wood snaps; young green shoots bend until they turn brown.", COMMON_PRACTICE)
    wire_check_weeks = Fact((3, 4, 6), COMMON_PRACTICE)
    # Wintered light and cool, at 7 to 10 °C; from memory. It flowers again later in warmth.
    stage_months: ClassVar[StageMonths] = {
        1: ((3, 8), (3, 25), (4, 12)),
        7: ((3, 25), (4, 12), (4, 30)),
        10: ((4, 8), (4, 27), (5, 15)),
        19: ((5, 25), (6, 10), (6, 28)),
        60: ((6, 15), (7, 1), (7, 20)),
        65: ((6, 28), (7, 15), (8, 3)),
        69: ((7, 25), (8, 12), (9, 1)),
        91: ((9, 20), (10, 8), (10, 28)),
    }
    advice = (
        "Full sun and warmth bring its colour, and shade brings leaves alone.",
        "Below 8 °C it drops its leaves and rests: keep it light and nearly dry till spring.",
        "Wear gloves: the thorns are long and hooked.",
    )
    never = (
        "Never let it freeze, nor stand wet in the cold.",
        "Never tear its root ball open: its roots are fine, few and slow to come back.",
        "Never trim once the tips begin to colour: that cuts the flowers off.",
        "Never bend old wood: it snaps without a warning.",
    )
    sources: ClassVar[dict[str, str]] = {"looper": _CALIFORNIA}
    works: ClassVar[tuple[Rule, ...]] = altered(
        Tropical.works,
        *repots(
            "repot",
            at(10, 7, 28, 56),
            because="Its few fine roots break at a touch and regrow only in warmth, so little "
            "goes, once the nights are mild, as with the figs.",
            cautions=("Keep the core of the ball whole, warm and shaded afterwards.",),
        ),
        prunes(
            "prune",
            at(1, -14, -4, 10),
            what="last year's whips to two or three buds",
            because="It flowers on the shoots of this year, so what is cut before they start "
            "costs no flowers.",
            cautions=("Cut just above a bud: long stubs die back and rot.",),
        ),
        trims(
            "trim",
            at(19, -21, -10, 0),
            what="long shoots to three or four leaves, for the last time before flowers",
            because="Each tip ends in flowers, so more tips make more colour, if they are left "
            "six weeks to set it.",
        ),
        work(
            "dry-spell",
            "watered",
            at(19, 0, 7, 21),
            what="only when the leaves begin to hang, for three weeks",
            because="Short of water and nitrogen, a tree in full leaf turns from shoots to "
            "flowers.",
            cautions=("Not in a year of root work, and never to the point where leaves fall.",),
            gate=LEAF_WORK,
            only_if=cool_enough_to_thirst,
        ),
        trims_again(
            "trim-late",
            at(69, 0, 5, 18),
            what="spent bracts with their shoots, to two leaves",
            because="Shoots that flowered are done, and what comes from their base flowers next.",
        ),
        feeds(
            "feed-summer",
            by_warmth((7, 10), (7, 25), (8, 20)),
            what="monthly, with little nitrogen",
            because="It makes shoots and flowers until autumn, and nitrogen gives leaves alone.",
        ),
        wires(
            "wire",
            at(10, 7, 28, 60),
            because="Only shoots that are still green bend, and they set as they turn to wood.",
        ),
        watches_for(
            "looper",
            by_warmth((6, 10), (7, 5), (9, 20)),
            where="scalloped leaf edges and dark droppings, at night the caterpillars themselves",
            because=f"Loopers eat tender shoots and leaf edges in warm weather ({_CALIFORNIA}).",
        ),
    )
