"""Where winters are dry, the soil of a tree that stands in the open is looked at once in each."""

from __future__ import annotations

from datetime import timedelta

from backbud.climate.dryness import SEMI_ARID_UNDER, aridity
from backbud.collection.places import is_winter_cover
from backbud.plan.common.outdoors import lives_outdoors
from backbud.species import CARE, Proposal, Proposals, Season, Tree, Window, Year, each
from backbud.tongue import phrase

# Where the coldest month is warmer trees hardly rest, and are watered on; ours, no source.
RESTS_UNDER_C = 12.0
_BEST, _CLOSES = timedelta(weeks=3), timedelta(weeks=10)


@each("winter", rule="dry-winter", as_it_stands=True)
def soil_in_a_dry_winter(tree: Tree, season: Season, year: Year) -> Proposals:
    """By the rain of its months, where that is known. Under a cover for the winter another look is
    asked for (under_cover.py). Common practice, no source."""
    outlook = year.outlook
    if outlook is None or outlook.coldest_month.mean_c >= RESTS_UNDER_C:
        return
    if not lives_outdoors(tree, year) or tree.on("protection") or is_winter_cover(year.cover):
        return
    dry = aridity(outlook.air.means, outlook.latitude, season.first, season.last)
    if dry is None or dry >= SEMI_ARID_UNDER:
        return
    yield Proposal(
        "checked",
        Window(season.first, season.first + _BEST, season.first + _CLOSES),
        what=phrase("soil, and water it before noon on a day without frost"),
        because=phrase(
            "In a dry winter pots dry out unseen, and roots that froze dry die; it shows in spring."
        ),
        datum=phrase(
            "The rain of its winter is {percent:.0f} % of what evaporates here (by {means_from}).",
            percent=100 * dry,
            means_from=outlook.air.means_from,
        ),
        settled_by=("checked soil", "watered", "soaked"),
        weight=CARE,
    )
