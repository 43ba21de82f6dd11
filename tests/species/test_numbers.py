"""The numbers and the usual days of every species, in a second place: numbers.txt.

What one of them is decides when a keeper is told to do what, and from what cold a tree is kept. So
a number is changed in two places, with open eyes. The table is written anew by

    python -m tests.species.test_numbers

Read what changed before it is kept: where it comes from stands beside it in the species' file.
"""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from tests.species.test_every_species import KINDS
from tests.species.test_facts_checked import facts_of

TABLE = Path(__file__).with_name("numbers.txt")
COMMAND = "python -m tests.species.test_numbers"
HEAD = f"""\
The numbers of every species, and in the cool place of its files the usual days of its stages.

Temperatures in °C (`_c`), growth of the girth in mm a year, checks of wire in weeks from spring to
winter, repotting in years: least, usual, most, and the same of a young and of an old tree, of which
the one is under so many years old and the other from so many on. Shares of roots in a cool and in a
warm place. A stage is its BBCH code, its first, usual and last day.

Written by: {COMMAND}
"""


def shown(value: Any) -> str:
    """`-5.0`, `4 6 8`, `1 2 3 + 2 4 6 + 10 + 40`."""
    if not isinstance(value, tuple):
        return str(value)
    mark = " + " if any(isinstance(one, tuple) for one in value) else " "
    return mark.join(map(shown, value))


def numbers_of(kind: Any) -> list[str]:
    """What of a species is no prose, by name."""
    facts = facts_of(kind)
    hard = [f"hardiness {facts['hardiness'].value}"] if "hardiness" in facts else []
    return hard + [
        f"{name} {shown(fact.value)}"
        for name, fact in sorted(facts.items())
        if not isinstance(fact.value, str)
    ]


def stages_of(kind: Any) -> list[str]:
    return [
        f"{code:02d} {' '.join(f'{month:02d}-{day:02d}' for month, day in days)}"
        for code, days in sorted(kind.stage_months.items())
    ]


def block(kind: Any) -> str:
    numbers, stages = numbers_of(kind), stages_of(kind)
    lines = [kind.botanical, *(f"  {'; '.join(numbers[n : n + 4])}" for n in range(0, 99, 4))]
    lines += [f"  {'; '.join(stages[n : n + 4])}" for n in range(0, 99, 4)]
    return "\n".join(line for line in lines if line.strip())


def table() -> str:
    return "\n\n".join((HEAD.rstrip("\n"), *map(block, KINDS))) + "\n"


BLOCKS = {part.partition("\n")[0]: part for part in TABLE.read_text("utf-8").strip().split("\n\n")}


@pytest.mark.parametrize("kind", KINDS)
def test_the_numbers_of_a_species_are_those_of_the_table(kind) -> None:
    assert BLOCKS.get(kind.botanical) == block(kind), f"write it anew and read it: {COMMAND}"


def test_the_table_has_every_species_once_and_its_heading() -> None:
    assert TABLE.read_text("utf-8") == table(), f"write it anew and read it: {COMMAND}"


@pytest.mark.parametrize("kind", KINDS)
def test_numbers_stand_in_their_order(kind) -> None:
    """Least before usual before most; a young tree is repotted no later than an old one."""
    facts = {name: fact.value for name, fact in facts_of(kind).items()}
    for name in ("wire_check_weeks", "repot_years"):
        least, usual, most = facts[name]
        assert 0 < least <= usual <= most <= 40
    if (interval := facts.get("repot_interval")) is not None:
        assert all(young <= old for young, old in zip(interval.young, interval.old, strict=True))
        assert interval.young_until_years <= interval.old_from_years
    cool, warm = facts["root_share"]
    assert 0.1 <= cool <= warm <= 1
    lowest, highest = facts["soil_ph"]
    assert 4 <= lowest < highest <= 8.5
    assert all(first <= usual <= last for first, usual, last in kind.stage_months.values())


if __name__ == "__main__":
    TABLE.write_text(table(), encoding="utf-8")
    print(f"{TABLE}: {len(KINDS)} species")
