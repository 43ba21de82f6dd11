"""A tree whose roots were cut is kept from sun, wind and frost, and is not worked on."""

from __future__ import annotations

from backbud.species import Event, Proposal, Proposals, Tree, Year, after, days_after

HARD = ("pruned", "defoliated", "decandled", "bent")


@after("repotted", "root-pruned", rule="root-rest")
def out_of_sun_wind_and_frost(tree: Tree, done: Event, year: Year) -> Proposals:
    """Common practice, no source: three to four weeks."""
    if done.has("no root work") or tree.on("protection"):
        return
    yield Proposal(
        "protected", days_after(done.day, 0, 0, 28), what="from sun, wind and frost",
        because="Cut roots cannot make up for what sun and wind take.",
        cautions=("No frost on fresh roots.", "No hard pruning, bending or leaf work now."),
        settled_by=("protected", "shaded", "moved"), lapses=True,
    )
