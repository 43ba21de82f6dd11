"""What a species has of its group where its own file says nothing: groups.txt.

Whoever writes a species begins with a group (habits/works.py) and says again only what differs. So
the works and the days of the group are what the keeper of a new species is told. The table is
written anew by

    python -m tests.species.test_groups

Read what changed before it is kept.
"""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from tests.species.conftest import Made
from tests.species.test_every_species import KINDS
from tests.species.test_numbers import numbers_of, stages_of

TABLE = Path(__file__).with_name("groups.txt")
COMMAND = "python -m tests.species.test_groups"
HEAD = f"""\
What each group of species gives to one whose file says nothing of its own: its numbers, the usual
days of its stages (as in numbers.txt), and one year of a healthy strong tree that was bought in
2015 and last repotted in 2018, and whose top outgrows its low branches: the best day, the first and
the last, the act, and what. It is the cool place of first_years.txt; "warm" and "no weather" stand
before what only the warm place has, or one of whose weather nothing is known, or has on other days.

Read whole, by eye, by the measure of first_years.txt: each work stands in its season and by its
stage, none is asked for twice, and nothing is told that no species of the group would bear.

Written by: {COMMAND}
"""
MADE = Made()


def groups() -> list[Any]:
    """The classes that the built-in species are made from, by name."""
    found = {base for kind in KINDS for base in kind.__mro__ if ".habits." in base.__module__}
    return sorted(found, key=lambda group: group.__name__)


GROUPS = groups()


def plain(group: Any) -> Any:
    """A species of a group that says nothing but its name."""
    return type("Plain", (group,), {"botanical": "Arbor simplex", "common": ("plain tree",)})


def works_of(kind: Any, place: str) -> list[str]:
    """Each work of a year as a line, by its best day."""
    species = kind()
    done = (MADE.event("2015-04-10", "bought"), MADE.event("2018-03-25", "repotted", "same pot"))
    tree = MADE.tree(*done, strength="strong", zones={"apex": 4, "low": 2})
    found = [
        (p.window.best, p.window.opens, p.window.closes, p.act, p.what)
        for p in MADE.yearly(species, tree, MADE.year(species, place))
    ]
    return [
        f"{best:%m-%d}  {opens:%m-%d} to {closes:%m-%d}  {act:11} {what}".rstrip()
        for best, opens, closes, act, what in sorted(found)
    ]


def block(group: Any) -> str:
    kind = plain(group)
    numbers, stages = numbers_of(kind), stages_of(kind)
    lines = [group.__name__]
    lines += [f"  {'; '.join(numbers[n : n + 4])}" for n in range(0, len(numbers), 4)]
    lines += [f"  {'; '.join(stages[n : n + 4])}" for n in range(0, len(stages), 4)]
    cool = works_of(kind, "cool")
    lines += [f"  {line}" for line in cool]
    for place, said in (("warm", "warm"), ("unknown", "no weather")):
        lines += [f"  {said}: {line}" for line in works_of(kind, place) if line not in cool]
    return "\n".join(lines)


def table() -> str:
    return "\n\n".join((HEAD.rstrip("\n"), *map(block, GROUPS))) + "\n"


def blocks() -> dict[str, str]:
    parts = TABLE.read_text("utf-8").rstrip("\n").split("\n\n")
    return {part.partition("\n")[0]: part for part in parts}


@pytest.mark.parametrize("group", GROUPS)
def test_what_a_group_gives_is_in_the_table(group) -> None:
    assert blocks().get(group.__name__) == block(group), f"write it anew and read it: {COMMAND}"


def test_the_table_of_groups_is_whole() -> None:
    assert TABLE.read_text("utf-8") == table(), f"write it anew and read it: {COMMAND}"


if __name__ == "__main__":
    TABLE.write_text(table(), encoding="utf-8")
    print(f"{TABLE}: {len(GROUPS)} groups")
