"""What the rules for every tree ask for after a work, and how many days later: every_tree.txt.

The table is written anew, for a rule that was added or changed, by

    python -m tests.plan.test_every_tree

Read what changed before it is kept.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from pathlib import Path
from typing import NamedTuple

import pytest
from msgspec.structs import replace
from tests.species.conftest import Made

from backbud.collection.on_tree import put_on_by
from backbud.plan.common import RULES
from backbud.species import Event, OnTree, Rule, Species, rules_of
from backbud_grammar.acts import ROWS
from backbud_species.trident_maple import TridentMaple
from backbud_species.willow_leaf_fig import WillowLeafFig

TABLE = Path(__file__).with_name("every_tree.txt")
COMMAND = "python -m tests.plan.test_every_tree"
HEAD = f"""\
What each rule for every tree asks for after a line of the diary: the act, what, the days from the
line to the first, the best and the last day, what is at stake and what becomes of it once it is
past; behind the line where, and in which months it was written, each on the 10th. The tree is a
fair trident maple that was bought three years before, in the open at the cool place of
tests/species/conftest.py, where nothing is said; else under unheated glass there, in a room, or
where nothing is known of the weather; or it is a willow-leaf fig in the open. Where the same is
asked for as in the open nothing is told. A tree that is looked at has wire, ties, a graft, a layer,
a guy, raffia and fleece on it since October. A rule without lines wants more of a tree than stands
here.

Read whole, by eye, by this measure: each follows from that line, none comes before it can be seen
or done, and none after it is of use. The days are common practice, no source.

Written by: {COMMAND}
"""
# Lines of the diary that say enough to be asked after; else the bare act.
SAID = {
    "wired": ("2 mm Al on left 1",),
    "guyed": ("2 mm on left 1",),
    "tied": ("2 mm x 2",),
    "shaded": ("40 %",),
    "protected": ("fleece",),
    "wrapped": ("raffia on left 1",),
    "grafted": ("on apex",),
    "layered": ("on left 1",),
    "moved": ("yard",),
    "pruned": ("", "hard"),
    "repotted": ("same pot, 2 cm off below", "same pot, tied 2 mm x 2"),
    "drained": ("59 s", "60 s"),
    "fed": ("10 g", "4 cakes", "liquid half strength"),
    "treated": ("soft soap, against aphids",),
    "quarantined": ("", "10 days"),
    "bought": ("", "imported"),
    "vigour": ("weak", "fair"),
    "checked": (
        "strength weak", "strength fine", "roots rotten", "pests many", "wire biting", "wire fine",
        "wire loose", "ties biting", "graft taken", "graft not yet", "layer rooted",
        "layer not yet", "buds none", "wire tight", "scale some", "mites many", "mites none",
        "leaves sticky", "graft not taken", "layer white roots", "guys loose", "guys biting",
        "protection broken", "soil waterlogged", "drainage slow", "surface hard", "ties loose",
        "raffia tight", "pot cracked", "wounds rotten", "jin soft", "leaves brown",
        "leaves dry", "leaves damaged", "buds dead", "soil wet", "roots soft",
    ),
}  # fmt: skip
DAYS = ("2027-04-10", "2027-07-10", "2027-10-10")


class Where(NamedTuple):
    """A tree of a kind at a place of tests/species/conftest.py, under a cover; "" is the open."""

    said: str
    kind: type[Species]
    place: str
    cover: str


PLACES = (
    Where("", TridentMaple, "cool", ""),
    Where("under glass", TridentMaple, "cool", "unheated glass"),
    Where("in a room", TridentMaple, "cool", "indoors"),
    Where("no weather", TridentMaple, "unknown", ""),
    Where("a fig", WillowLeafFig, "cool", ""),
)
# What is asked for, in words.
Found = tuple[str, ...]
MADE = Made()


def rules_after() -> list[Rule]:
    """The rules for every tree that hang on what was done, by their ids."""
    found = [rule for module in RULES for rule in rules_of(module) if rule.hangs_on == "act"]
    return sorted(found, key=lambda rule: rule.id)


_LOOKED_AT = ("wired", "tied", "grafted", "layered", "guyed", "wrapped", "protected")


def on_it(act: str) -> tuple[OnTree, ...]:
    """What is on a tree that is looked at: of last October."""
    sorts = _LOOKED_AT if act == "checked" else ()
    return tuple(
        thing for sort in sorts for thing in _put(MADE.event("2026-10-10", sort, SAID[sort][0]))
    )


def _put(done: Event) -> tuple[OnTree, ...]:
    effect = put_on_by(done.row)
    return effect(done).put if effect is not None else ()


def asked_by(rule: Rule, where: Where, day: str, act: str, said: str) -> Found:
    done = MADE.event(day, act, said)
    year = MADE.year(where.kind(), where.place, cover=where.cover)
    tree = MADE.tree(MADE.event("2024-04-10", "bought"), done, strength="fair")
    tree = replace(tree, on_tree=(*on_it(act), *_put(done)))
    found = []
    for one in rule.function(tree, done, year):
        window = (one.window.opens, one.window.best, one.window.closes)
        days = " ".join(str((each - done.day).days) for each in window)
        must = "must" if one.weight.must else "may"
        weighs = f"{days}, {one.weight.at_stake}, {must}, {one.weight.once_past}"
        found.append(f"{one.act} {one.what}".strip() + f": {weighs}")
    return tuple(found)


def block(rule: Rule) -> str:
    lines = [rule.id]
    for act in sorted(rule.acts_of(ROWS)):
        for said in SAID.get(act, ("",)):
            lines += _of_line(rule, act, said)
    return "\n".join(lines)


def _of_line(rule: Rule, act: str, said: str) -> Iterator[str]:
    """What is asked after a line, and on which of the days that it is written."""
    by_found: dict[tuple[str, Found], list[str]] = {}
    for day in DAYS:
        in_the_open = asked_by(rule, PLACES[0], day, act, said)
        if in_the_open:
            by_found.setdefault(("", in_the_open), []).append(day)
        for where in PLACES[1:]:
            found = asked_by(rule, where, day, act, said)
            if found != in_the_open:
                by_found.setdefault((where.said, found), []).append(day)
    for (place, found), days in by_found.items():
        months = ", ".join(f"{date.fromisoformat(day):%B}" for day in days)
        yield f"  {act} {said}".rstrip() + (f", {place}" if place else "") + f" ({months})"
        yield from (f"    {one}" for one in found or ("nothing",))


def table() -> str:
    return "\n\n".join((HEAD.rstrip("\n"), *map(block, rules_after()))) + "\n"


def blocks() -> dict[str, str]:
    parts = TABLE.read_text("utf-8").rstrip("\n").split("\n\n")
    return {part.partition("\n")[0]: part for part in parts}


@pytest.mark.parametrize("rule", rules_after(), ids=lambda rule: rule.id)
def test_what_a_rule_for_every_tree_asks_for_is_in_the_table(rule) -> None:
    assert blocks().get(rule.id) == block(rule), f"write it anew and read it: {COMMAND}"


def test_the_table_of_rules_for_every_tree_is_whole() -> None:
    assert TABLE.read_text("utf-8") == table(), f"write it anew and read it: {COMMAND}"


if __name__ == "__main__":
    TABLE.write_text(table(), encoding="utf-8")
    print(f"{TABLE}: {table().count(chr(10))} lines")
