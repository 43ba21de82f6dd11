"""The care of a hinoki cypress, kept short while it is green, for its bare wood never buds.

Unless a rule says otherwise, its figures are common practice, no source.
"""

from __future__ import annotations

from typing import ClassVar

from backbud.species import COMMON_PRACTICE, FROM_MEMORY, Fact, Rule, StageMonths
from backbud_species.habits.conifers import Conifer
from backbud_species.habits.heat import shades_in_heat
from backbud_species.habits.works import (
    ALWAYS,
    LEAF_WORK,
    altered,
    at,
    between,
    by_warmth,
    pinches,
    repots,
    watches_for,
    wires,
    work,
)

_UTAH = "Utah State University Extension, Tree Browser: Hinoki cypress"
_CHARLOTTE = "UNC Charlotte Botanical Gardens: Chamaecyparis obtusa"
_MARYLAND = "University of Maryland Extension, question 872015: false cypress"


class HinokiCypress(Conifer):
    """A cypress of flat fans that never buds from bare wood and lives from the light inside it."""

    rule_prefix = "hinoki"
    botanical = "Chamaecyparis obtusa"
    common = ("hinoki cypress", "hinoki")
    also = ("hinoki false cypress", "Cupressus obtusa", "Retinospora obtusa", "chabohiba")
    habit = "A cypress of flat dark fans and red stringy bark, strongest at the top."
    strongest = "acrotonic"
    # The RHS list itself was not at hand.
    rests_under_c = Fact(18.0, COMMON_PRACTICE)
    hardiness = Fact("H6", FROM_MEMORY)
    soil_ph = Fact((5.0, 6.5), FROM_MEMORY)
    usual_mix = Fact("akadama 2, pumice 1, lava 1", COMMON_PRACTICE)
    light = Fact("Sun to part shade; it bears middling shade.", _UTAH)
    water = Fact("Moist and well drained, out of the wind.", _CHARLOTTE)
    bark = Fact("Soft stringy bark that wire cuts at once and that heals slowly.", COMMON_PRACTICE)
    wire_check_weeks = Fact((6, 9, 14), COMMON_PRACTICE)
    girth_growth_mm = Fact(4.0, FROM_MEMORY)
    toxicity = Fact(
        "Not known to be poisonous; its oils can irritate skin, its pollen the nose.", FROM_MEMORY
    )
    why_frost = "Its fans lose water in winter wind, and frozen roots cannot replace it."
    # For a cool temperate place; from memory. 7: the edges of the fans turn light green.
    stage_months: ClassVar[StageMonths] = {
        1: ((3, 18), (4, 3), (4, 18)),
        7: ((4, 12), (4, 27), (5, 12)),
        10: ((5, 3), (5, 18), (6, 3)),
        91: ((9, 12), (9, 30), (10, 20)),
    }
    advice = (
        "Morning sun and shelter from drying wind, above all in winter.",
        "Never quite dry; mist the fans on hot evenings.",
        "Some inner fans turn brown every autumn: take them out.",
        "Bronze on the sunny side in winter is no harm.",
    )
    never = (
        "Never cut back to where no green fan is left: it does not bud from bare wood.",
        "Never shear it: cut scales turn brown and close the crown to light.",
        "Never let it dry out: dead fans do not come back.",
    )
    sources: ClassVar[dict[str, str]] = {"pinch": _MARYLAND}
    works: ClassVar[tuple[Rule, ...]] = altered(
        Conifer.works,
        *repots(
            "repot",
            between(1, 7),
            autumn_too=True,
            because="Its fine roots regrow as the fans brighten at the edge, and dry within "
            "minutes in the air.",
            cautions=("Shade, still air and mist afterwards: the fans never stop losing water.",),
        ),
        pinches(
            "pinch",
            at(10, 18, 32, 60),
            what="tips of the fans that outgrow the outline, with the fingers, the top hardest",
            because=f"No new growth comes from old wood ({_MARYLAND}), so the fans are kept short "
            "while they are young, or the branches grow bare behind them.",
        ),
        work(
            "thin",
            "thinned",
            by_warmth((9, 1), (9, 20), (10, 15)),
            what="fans that lie on one another, each branch keeping green close to the trunk",
            because="Shaded fans die within a year, and with them the only way to shorten the "
            "branch.",
            gate=LEAF_WORK,
        ),
        work(
            "brown-fans",
            "cleaned",
            by_warmth((10, 20), (11, 10), (12, 10)),
            what="brown inner fans out",
            because="It drops its oldest fans in autumn, and left inside they hold wet and dark.",
            gate=ALWAYS,
        ),
        wires(
            "wire",
            by_warmth((2, 15), (3, 10), (4, 5)),
            because="Its branches droop by themselves and are set before growth; wired in autumn "
            "the fans dry out in frost.",
            cautions=("Leave no fan crossed by the wire.",),
        ),
        watches_for(
            "root-rot",
            by_warmth((5, 15), (6, 10), (7, 10)),
            where="fans that turn dull and grey-green on one side",
            because="Root rot in a wet pot shows first in the colour of the fans, one branch at a "
            "time.",
            cautions=(
                "Look at the roots and the drainage before anything is sprayed.",
                "Brown bark at the collar may be Phytophthora austrocedri, known of other false "
                "cypresses (Forest Research): in some countries a nursery has to report it.",
            ),
        ),
        shades_in_heat(
            "shade", because="Hot dry air browns the edges of its fans even in a wet pot."
        ),
    )
