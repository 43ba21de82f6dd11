"""What each species asks for after a work, and how many days later: after_works.txt.

The table is written anew, for a species that was added or a rule that changed, by

    python -m tests.species.test_after_works

Read what changed before it is kept.
"""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from tests.species.conftest import Made
from tests.species.test_every_species import KINDS

from backbud.species import rules_of
from backbud_grammar.acts import ROWS

TABLE = Path(__file__).with_name("after_works.txt")
COMMAND = "python -m tests.species.test_after_works"
HEAD = f"""\
What is asked for after a work of 10 April on a healthy strong tree, at the cool place of
tests/species/conftest.py: under each line of the diary the act, what, and the days from the work to
the first, the best and the last day, what is at stake and what becomes of it once it is past; then
the species that ask so.

Read whole, by eye, by this measure: each follows from that work on that sort of tree, none comes
before it can be seen or done, and none after it is of use. The days are common practice, no source.

Written by: {COMMAND}
"""
# Lines of the diary that say enough to be asked after; else the bare act.
SAID = {
    "wired": ("2 mm Al on left 1",),
    "bent": ("heavy",),
    "guyed": ("left 1",),
    "moved": ("yard",),
    "pruned": ("", "hard", "sacrifice branch"),
    "repotted": ("same pot", "same pot, bare-rooted"),
    "drained": ("90 s",),
    "opened": ("", "hard surface"),
    "planned": ("repot, to 2028-03",),
    "checked": ("strength fine", "strength weak"),
}
MADE = Made()


def asked_after(kind: Any) -> Iterator[tuple[str, str]]:
    """Each line of the diary with what the species asks for after it."""
    species = kind()
    year = MADE.year(species, "cool")
    for rule in rules_of(species):
        for act in sorted(rule.acts_of(ROWS)):
            for said in SAID.get(act, ("",)):
                done = MADE.event("2027-04-10", act, said)
                tree = MADE.tree(MADE.event("2024-04-10", "bought"), done, strength="strong")
                for one in rule.function(tree, done, year):
                    window = (one.window.opens, one.window.best, one.window.closes)
                    days = " ".join(str((day - done.day).days) for day in window)
                    weight = one.weight
                    must = "must" if weight.must else "may"
                    said_of = f"{days}, {weight.at_stake}, {must}, {weight.once_past}"
                    yield f"{act} {said}".strip(), f"{one.act} {one.what}".strip() + f": {said_of}"


def table() -> str:
    found: dict[str, dict[str, list[str]]] = {}
    for kind in KINDS:
        for line, asked in dict.fromkeys(asked_after(kind)):
            found.setdefault(line, {}).setdefault(asked, []).append(kind.__name__)
    parts = [HEAD.rstrip("\n")]
    for line, by_asked in sorted(found.items()):
        lines = [line]
        for asked, names in sorted(by_asked.items()):
            lines += [f"  {asked}", f"    {' '.join(names)}"]
        parts.append("\n".join(lines))
    return "\n\n".join(parts) + "\n"


def of_kind(name: str) -> list[tuple[str, str]]:
    """What the table has of a species, line by line."""
    found = []
    for part in TABLE.read_text("utf-8").split("\n\n")[3:]:
        line, *rest = part.rstrip("\n").split("\n")
        pairs = zip(rest[::2], rest[1::2], strict=True)
        found += [(line, asked.strip()) for asked, names in pairs if name in names.split()]
    return found


@pytest.mark.parametrize("kind", KINDS)
def test_what_a_species_asks_for_after_a_work_is_in_the_table(kind) -> None:
    now = sorted(dict.fromkeys(asked_after(kind)))
    assert sorted(of_kind(kind.__name__)) == now, f"write it anew and read it: {COMMAND}"


def test_the_table_of_what_is_asked_after_works_is_whole() -> None:
    assert TABLE.read_text("utf-8") == table(), f"write it anew and read it: {COMMAND}"


if __name__ == "__main__":
    TABLE.write_text(table(), encoding="utf-8")
    print(f"{TABLE}: {table().count(chr(10))} lines")
