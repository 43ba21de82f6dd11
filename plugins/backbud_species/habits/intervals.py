"""How many years lie between a tree's repottings, by its age and by the depth of its root ball.

A root ball in a shallow pot fills it a year sooner: common practice, no source.
"""

from __future__ import annotations

from datetime import date, timedelta
from typing import NamedTuple

from backbud.species import Event, Fact, Species, Tree, Year, phrase
from backbud_species.habits.figures import SHALLOW_POT_BELOW

_DAYS = 365.25


def years_between_repottings(
    species: Species, tree: Tree, day: date, year: Year
) -> Fact[tuple[int, int, int]] | None:
    """Least, usual and most years, and what they go by; None where the species does not say."""
    usual = species.repot_years
    if usual is None:
        return None
    years, by = usual.value, [phrase(usual.source)]
    interval, age = species.repot_interval, known_age_years(tree, day)
    if interval is not None and age is not None:
        if age.exact and age.years < interval.value.young_until_years:
            years, by = interval.value.young, [phrase(interval.source), phrase("for a young tree")]
        elif age.years >= interval.value.old_from_years:
            years, by = interval.value.old, [phrase(interval.source), phrase("for an old tree")]
    depth_cm = root_ball_depth_cm(tree)
    if depth_cm is not None and depth_cm < SHALLOW_POT_BELOW.of(year):
        least, common, most = (max(1, n - 1) for n in years)
        years = (least, common, most)
        by.append(phrase("a year less where the ball is {depth_cm:g} cm deep", depth_cm=depth_cm))
    return Fact(years, ", ".join(by))


class Age(NamedTuple):
    """Years, and whether they are all of its life or only those that are known."""

    years: float
    exact: bool


def known_age_years(tree: Tree, day: date) -> Age | None:
    """From its sowing or striking; else at least as long as it has been in the collection."""
    begun = _beginning_before(tree, day)
    if begun is not None:
        return Age((day - begun.day).days / _DAYS, True)
    if tree.since is not None:
        return Age((day - tree.since).days / _DAYS, False)
    return None


def _beginning_before(tree: Tree, day: date) -> Event | None:
    """The sowing or striking that the tree began with; what has a past was a mother then."""
    for entry in tree.history:
        event = entry.event
        if event.day >= day or entry.undone:
            continue
        if "raised" in event.row.traits and not tree.began_another(event):
            # A rough `since` is the first day of its year.
            known = tree.since is not None and event.day - tree.since > timedelta(days=366)
            return None if known else event
        if not event.was("planned", "agreed", "noted", "private"):
            return None
    return None


def root_ball_depth_cm(tree: Tree) -> float | None:
    """How deep the root ball is; None where no depth, or one of 0, is written."""
    size = tree.sizes.get("root ball")
    sizes_cm = size.sizes_in("cm") if size is not None else ()
    return sizes_cm[-1] if len(sizes_cm) >= 2 and sizes_cm[-1] > 0 else None
