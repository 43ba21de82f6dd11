"""Prints the year of every species in five climates, a work a line, to be read by a grower.

    python -m tests.species.climate_table [part of a rule prefix …]

A work: its rule, the act, then for each place the best day and the first and the last, or `-`; what
is done. The tree is strong, was repotted long ago or lately, and nothing else was done to it.
"""

from __future__ import annotations

import sys
from collections.abc import Iterable, Iterator

from tests.species.climates import PLACES, year_at
from tests.species.conftest import Made
from tests.species.test_every_species import KINDS

from backbud.species import Species

_WIDE = 21


def lines_of(made: Made, species: Species) -> Iterator[str]:
    """The year of one species."""
    rows: dict[tuple[str, str, str], dict[str, str]] = {}
    for name in PLACES:
        year = year_at(species, name)
        for repotted in ("2018-03-20", "2026-03-20"):
            tree = made.tree(made.event(repotted, "repotted", "same pot"), strength="strong")
            for rule, one in made.yearly_by_rule(species, tree, year):
                if one.what.startswith("strength, and hold"):
                    continue
                days = one.window
                said = f"{days.best:%m-%d} {days.opens:%m-%d}..{days.closes:%m-%d}"
                rows.setdefault((rule, one.act, one.what), {}).setdefault(name, said)
    yield f"{species.botanical} ({species.common[0]})"
    for (rule, act, what), at in sorted(rows.items()):
        short = rule.removeprefix(f"{species.rule_prefix}-")
        row = "".join(f"{at.get(name, '-'):<{_WIDE}}" for name in PLACES)
        yield f"  {short:<16}{act:<11}{row}{what}"


def table(wanted: Iterable[str] = ()) -> Iterator[str]:
    """The whole table, or of the species whose prefix holds one of these words."""
    made, words = Made(), tuple(wanted)
    heads = "".join(f"{f'{name}, {place.climate}':<{_WIDE}.20}" for name, place in PLACES.items())
    yield f"{'':29}{heads}"
    for kind in KINDS:
        if not words or any(word in kind.rule_prefix for word in words):
            yield ""
            yield from lines_of(made, kind())


if __name__ == "__main__":
    print("\n".join(table(sys.argv[1:])))
