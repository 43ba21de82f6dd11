"""The care of a common box, slow and dense, watched for the moth and the blight that strip it.

Unless a rule says otherwise, its figures are common practice, no source.
"""

from __future__ import annotations

from typing import ClassVar

from backbud.species import COMMON_PRACTICE, FROM_MEMORY, Fact, RepotInterval, Rule, StageMonths
from backbud_species.habits.broadleaves import BroadleafEvergreen
from backbud_species.habits.flushes import trims_again
from backbud_species.habits.works import (
    altered,
    at,
    between,
    by_warmth,
    feeds,
    prunes,
    repots,
    trims,
    watches_for,
    wires,
    without,
    work,
)
from backbud_species.habits.yearly import FROZEN_WOOD_SNAPS

_NEW_YORK = "New York Botanical Garden, Boxwood guide"
_ROOTS = "Dirr & Smith, Ornamentals Northwest Archives (winter 1983-84)"
_DELAWARE = "University of Delaware Cooperative Extension, Box tree moth"
_MINNESOTA = "Minnesota Department of Agriculture, Boxwood blight"
_PENNSYLVANIA = "University of Pennsylvania Veterinary Medicine, Poisonous plants: Buxus"


class CommonBox(BroadleafEvergreen):
    """A slow evergreen of small paired leaves, dense, poisonous, and much eaten by one moth."""

    rule_prefix = "box"
    botanical = "Buxus sempervirens"
    common = ("common box", "box", "boxwood")
    also = ("European box", "American boxwood", "Buxus arborescens", "seiyo tsuge")
    habit = "A slow dense evergreen of paired leaves and pale hard wood, even in all its parts."
    # The RHS list itself was not at hand.
    hardiness = Fact("H6", FROM_MEMORY)
    # The white tips of its roots die between -4 and -7 °C.
    young_frost_limit_c = Fact(-4.0, _ROOTS)
    soil_ph = Fact(
        (6.0, 7.5),
        "Desired pH Ranges and Salt Tolerance of Common Nursery Plants, revised 9 September 2010",
    )
    usual_mix = Fact("pumice 1, lava 1, akadama 1", COMMON_PRACTICE)
    repot_years = Fact((2, 4, 6), COMMON_PRACTICE)
    repot_interval = Fact(RepotInterval((2, 2, 4), (3, 5, 8)), COMMON_PRACTICE)
    root_share = Fact((0.4, 0.6), COMMON_PRACTICE)
    why_frost = "A mat of fine roots lies at the surface, and its leaves bronze in frozen wind."
    light = Fact("Light shade, in winter too.", _NEW_YORK)
    water = Fact("Well drained, evenly moist, and the leaves kept dry.", COMMON_PRACTICE)
    bark = Fact(
        "Its pale bark hardly marks, but its wood is hard and snaps without a warning.",
        COMMON_PRACTICE,
    )
    toxicity = Fact(
        "Leaves and stems are poisonous; horses, sheep, pigs and cattle have been poisoned.",
        _PENNSYLVANIA,
    )
    wire_check_weeks = Fact((8, 12, 20), COMMON_PRACTICE)
    girth_growth_mm = Fact(2.0, COMMON_PRACTICE)
    # For a cool temperate place; from memory. 19: new leaves dark and stiff. Its small flowers
    # open in March and April and matter to nobody.
    stage_months: ClassVar[StageMonths] = {
        1: ((3, 12), (3, 28), (4, 12)),
        7: ((4, 2), (4, 16), (5, 1)),
        10: ((4, 12), (4, 26), (5, 10)),
        19: ((5, 30), (6, 14), (6, 28)),
        91: ((8, 25), (9, 12), (10, 2)),
    }
    advice = (
        "Look into the crown each week from spring on: the moth strips a tree in days.",
        "Water in the morning, on the soil, and keep dead leaves out of the crown: blight lives "
        "in wet leaves.",
        "Give it lime in its water, shade in the frost, and still air in winter.",
        "Clippings are poisonous: keep them from animals.",
    )
    never = (
        *BroadleafEvergreen.never,
        "Never trim it wet or in hot sun: wet spreads blight, and sun scorches the cut leaves.",
        "Never bring a new box to the bench before weeks apart from the others.",
    )
    sources: ClassVar[dict[str, str]] = {
        "moth": _DELAWARE,
        "moth-summer": _DELAWARE,
        "blight": _MINNESOTA,
    }
    works: ClassVar[tuple[Rule, ...]] = altered(
        without(BroadleafEvergreen.works, "pests"),
        *repots(
            "repot",
            between(1, 10),
            because="Its mat of fine roots regrows best as its buds open, and it bears a bare root "
            "better than most evergreens.",
            cautions=("Shade and still air afterwards, for the leaves stay on.",),
        ),
        trims(
            "trim",
            at(19, -7, 3, 18),
            what="the new shoots to one or two pairs, on a dull dry day",
            because="Once the new leaves are stiff each cut makes two shoots, and soft ones brown "
            "at the cut.",
            cautions=("Clean the blades before the next tree: blight rides on them.",),
        ),
        work(
            "thin",
            "thinned",
            at(19, 0, 14, 35),
            what="shoots, where a pad is so dense that no light comes in",
            because="It keeps leaves only where light comes, and still wet air inside a dense pad "
            "breeds blight.",
        ),
        trims_again(
            "trim-late",
            by_warmth((8, 8), (8, 20), (9, 5)),
            what="only what outgrew the outline",
            because="Shoots cut later answer with soft growth that the frost burns.",
        ),
        prunes(
            "prune",
            at(1, 0, 5, 10),
            what="branches back to a green side twig",
            because="Old wood buds again, but slowly and only on a strong tree, so some green is "
            "left on each branch.",
        ),
        feeds(
            "feed",
            at(10, 0, 14, 35),
            because="Its only long flush is that of spring, and pale leaves show hunger first.",
        ),
        wires(
            "wire",
            at(1, -10, -4, 5),
            because="It sets slowly over a whole season, and thin branches bend best as sap rises.",
            cautions=(FROZEN_WOOD_SNAPS, "What is thicker than a pencil is guyed."),
        ),
        watches_for(
            "moth",
            by_warmth((4, 1), (4, 25), (6, 15)),
            where="webs and green caterpillars deep in the crown, and leaves peeled to the rib",
            because="Caterpillars of the box tree moth winter in the crown and then eat leaves "
            f"and bark ({_DELAWARE}).",
            cautions=("Pick them off by hand.",),
        ),
        watches_for(
            "moth-summer",
            by_warmth((7, 5), (7, 25), (9, 25)),
            where="webs and caterpillars again, and flat yellowish eggs under the leaves",
            because=f"Two or three broods follow each other until autumn ({_DELAWARE}).",
        ),
        watches_for(
            "blight",
            by_warmth((5, 20), (6, 20), (7, 31)),
            where="brown-rimmed spots, black streaks on green stems, and leaves that fall",
            because="Blight spreads fast in humid weather and lives on in dead leaves for years "
            f"({_MINNESOTA}).",
            cautions=("Set a suspect apart, bin what fell, and clean hands and tools.",),
        ),
    )
