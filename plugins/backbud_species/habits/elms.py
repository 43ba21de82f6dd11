"""What elms and zelkovas have in common: many flushes, and roots that dry. Common practice."""

from __future__ import annotations

from typing import ClassVar

from backbud.species import COMMON_PRACTICE, FROM_MEMORY, Fact, Rule
from backbud_species.habits.broadleaves import BroadleafDeciduous
from backbud_species.habits.flushes import trims_again
from backbud_species.habits.works import (
    altered,
    at,
    between,
    by_warmth,
    feeds,
    repots,
    trims,
    watches_for,
)
from backbud_species.habits.yearly import CUT_ROOTS_FREEZE


class Elm(BroadleafDeciduous):
    """A tree of the elm family: small alternate leaves, flush after flush until late summer."""

    root_share = Fact((0.5, 0.8), COMMON_PRACTICE)
    toxicity = Fact("Not known to harm people or pets.", FROM_MEMORY)
    never: ClassVar[tuple[str, ...]] = (
        *BroadleafDeciduous.never,
        "Never let bare roots dry in the wind: their bark is thin and loose.",
    )
    works: ClassVar[tuple[Rule, ...]] = altered(
        BroadleafDeciduous.works,
        *repots(
            "repot",
            between(1, 7),
            because="It bears hard root work while its buds swell, and cut roots then branch close "
            "to the cut.",
            cautions=(
                "Cut roots clean with a sharp blade: their bark tears and slips, and torn roots "
                "rot.",
                CUT_ROOTS_FREEZE,
            ),
        ),
        trims(
            "trim",
            at(19, -14, 0, 10),
            what="shoots of six leaves and more to two or three, the top and the outside hardest",
            because="The bud behind the last leaf left grows next, and each trim of a strong shoot "
            "makes two finer ones.",
            cautions=("Cut to a leaf that points where the next twig is wanted.",),
        ),
        trims_again(
            "trim-next",
            by_warmth((7, 3), (7, 15), (7, 30)),
            what="the second flush to two leaves",
            because="It flushes again within weeks, and what runs on shades the inner twigs, "
            "which then die.",
        ),
        trims_again(
            "trim-late",
            by_warmth((8, 12), (8, 22), (9, 5)),
            what="what outgrew the outline",
            because="Only short growth follows so late, and it still ripens before the frost.",
        ),
        feeds(
            "feed",
            at(19, -7, 3, 21),
            because="It makes several flushes and feeds from the first on, but early feed makes "
            "long shoots on a finished tree.",
        ),
        watches_for(
            "pests",
            by_warmth((5, 1), (5, 20), (6, 20)),
            where="undersides of the leaves, for aphids and galls, and small round holes in them",
            because="Aphids and gall mites come with the soft leaves, and leaf beetles eat small "
            "holes in them.",
        ),
    )
