"""Parts a long history by years: the latest stand with the tree, those before on other pages."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import accumulate

# How many of the latest years stand open on a page.
YEARS_OPEN = 2
# So many of the latest years stand on the tree's page, and what came before them on another, where
# that is no less than so many entries.
YEARS_WITH_TREE = 8
FEWEST_EARLIER = 60
# A history of more entries than `LONG` has only so many years on the tree's page as have no more
# than `MOST_WITH_TREE` entries, but for those that stand open; another page has no more than
# `MOST_EARLIER`, but for those of one year. Ours.
LONG, MOST_WITH_TREE, MOST_EARLIER = 300, 120, 400


def years_by_page(entries: Sequence[int]) -> tuple[int, ...]:
    """How many years each page has, the tree's own first. `entries`: those of each year, the newest
    first."""
    own = YEARS_WITH_TREE
    if sum(entries) > LONG:
        fit = sum(told <= MOST_WITH_TREE for told in accumulate(entries))
        own = min(max(fit, YEARS_OPEN), YEARS_WITH_TREE)
    if sum(entries[own:]) < FEWEST_EARLIER:
        return (len(entries),)
    pages, years, on_page = [own], 0, 0
    for count in entries[own:]:
        if years and on_page + count > MOST_EARLIER:
            pages.append(years)
            years = on_page = 0
        years, on_page = years + 1, on_page + count
    return (*pages, years)
