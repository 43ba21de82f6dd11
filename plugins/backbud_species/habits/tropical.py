"""What trees of the warm countries have in common, and small-leaved figs. Common practice."""

from __future__ import annotations

from typing import ClassVar

from backbud.species import COMMON_PRACTICE, FROM_MEMORY, Fact, RepotInterval, Rule, StageMonths
from backbud_species.habits.before_it_comes_in import before_it_comes_in
from backbud_species.habits.broadleaves import BroadleafEvergreen
from backbud_species.habits.indoors import where_it_winters_inside
from backbud_species.habits.works import (
    Way,
    altered,
    at,
    by_warmth,
    checks_after,
    defoliates,
    feeds,
    goes_out,
    repots,
    trims,
    watches_for,
    weeks,
    wires,
    without,
)


class Tropical(BroadleafEvergreen):
    """A tree that knows no frost: out in summer, warm and light in winter."""

    hardiness = Fact("H1c", FROM_MEMORY)
    base_c = Fact(10.0, COMMON_PRACTICE)
    repot_years = Fact((1, 2, 4), COMMON_PRACTICE)
    repot_interval = Fact(RepotInterval((1, 1, 2), (2, 3, 5)), COMMON_PRACTICE)
    root_share = Fact((0.4, 0.6), COMMON_PRACTICE)
    # Where the usual night is 10 °C, some are 3 °C.
    frost_limit_c = Fact(1.0, COMMON_PRACTICE)
    comes_in_below_c = Fact(10.0, COMMON_PRACTICE)
    why_frost = "Its roots stop in the cold and rot in a wet, cold pot."
    wire_check_weeks = Fact((3, 4, 6), COMMON_PRACTICE)
    light = Fact("The lightest place there is in winter, full sun in summer.", COMMON_PRACTICE)
    # For a place where it winters indoors; from memory.
    stage_months: ClassVar[StageMonths] = {
        1: ((3, 10), (3, 28), (4, 15)),
        7: ((3, 28), (4, 15), (5, 3)),
        10: ((4, 12), (5, 1), (5, 18)),
        19: ((5, 28), (6, 14), (6, 30)),
        91: ((9, 15), (10, 5), (10, 28)),
    }
    advice: ClassVar[tuple[str, ...]] = (
        "Keep it warm and as light as can be in winter, away from heaters and draughts.",
        "Water when the surface begins to dry, and less in the dark months.",
    )
    never: ClassVar[tuple[str, ...]] = (
        "Never let it stand in frost, nor in a wet pot in the cold.",
        "Never take the leaves off a weak or a just repotted tree.",
        "Never do hard work in the dark months, when it cannot answer.",
    )
    works: ClassVar[tuple[Rule, ...]] = altered(
        without(BroadleafEvergreen.works, "feed-autumn"),
        *repots(
            "repot",
            at(10, 7, 28, 56),
            because="Its roots regrow only in warmth, so it is repotted once the nights are mild.",
            cautions=("Warmth and shade afterwards, and no wind.",),
        ),
        goes_out(
            "out",
            because="Summer outside gives short shoots and ripe wood that no window gives.",
            cautions=("Leaves grown indoors burn: shade it for two weeks first.",),
        ),
        feeds(
            "feed-summer",
            by_warmth((7, 10), (7, 25), (8, 20)),
            because="It grows on as long as it is warm, and feeds as long as it grows.",
        ),
        wires(
            "wire",
            at(10, 0, 21, 60),
            because="It thickens all summer, so wire is put on in growth and watched closely.",
        ),
        where_it_winters_inside(
            watches_for(
                "pests",
                before_it_comes_in(by_warmth((9, 20), (10, 20), (12, 10))),
                where="undersides of the leaves and forks, before they spread indoors",
                because="Scale, mealybug and mites spread in the dry air of a heated room.",
            )
        ),
    )


# Of the hot lowlands: later than others.
REPOTTED_IN_WARM_NIGHTS = repots(
    "repot",
    at(10, 21, 42, 70),
    because="Its roots regrow only in steady warmth, so it is repotted when the nights are "
    "warm and never in the cool half of the year.",
    cautions=("Warmth, shade and no wind afterwards.",),
)
STRIPPED_IN_WARMTH = defoliates(
    "defoliate",
    at(19, 0, 12, 35),
    full=Way(
        "fully, the stalks left on",
        "A strong one in warmth answers within weeks with smaller leaves and finer twigs.",
    ),
    part=Way(
        "in part: large and outer leaves",
        "Light reaches the inner twigs, and the tree keeps enough leaf to live from.",
    ),
)


class TropicalFig(Tropical):
    """A small-leaved fig: vigorous, with milky sap, and roots that grow in the air."""

    comes_in_below_c = Fact(12.0, COMMON_PRACTICE)

    strongest = "acrotonic"
    root_share = Fact((0.5, 0.7), COMMON_PRACTICE)
    toxicity = Fact(
        "The milky sap irritates skin and eyes, and it is poisonous to cats and dogs.", FROM_MEMORY
    )
    bark = Fact("Its bark is smooth, and wire bites within a month of growth.", COMMON_PRACTICE)
    works: ClassVar[tuple[Rule, ...]] = altered(
        Tropical.works,
        trims(
            "trim",
            at(19, 0, 7, 28),
            what="shoots of six to eight leaves back to two",
            because="A fig buds back where leaves are left, and shoots that first ran feed the "
            "trunk.",
            cautions=("The milky sap irritates skin and eyes; wipe it off the cut.",),
        ),
        defoliates(
            "defoliate",
            at(19, 0, 14, 35),
            full=Way(
                "fully, the stalks left on",
                "A strong fig in warmth answers within weeks with smaller leaves and finer twigs.",
            ),
            part=Way(
                "in part: large and outer leaves",
                "Light reaches the inner twigs, and the tree keeps enough leaf to live from.",
            ),
        ),
        checks_after(
            "new-leaves",
            ("defoliated",),
            weeks(2, 4, 6),
            look_at="buds",
            what="buds and new leaves",
            because="New leaves stand within about four weeks in warmth; until then it drinks "
            "little.",
        ),
    )
