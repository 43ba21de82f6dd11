"""Every rule id of every species and of the rules for every tree, as listed in rule_ids.txt.

A follow-up's id is tree / rule / cause [/ part], and calendars know it by that: an id that went or
changed would leave each of its entries standing and put another beside it. New ids are added by

    python -m tests.species.test_rule_ids

which takes none off the list. A work that is told in another way, or taken from a group that calls
it otherwise, keeps its id (`renamed`, plugins/backbud_species/habits/together.py).
"""

from __future__ import annotations

import sys
from collections.abc import Iterable, Mapping
from pathlib import Path

from tests.species.test_every_species import KINDS

from backbud.plan.common import RULES
from backbud.species import rules_of

TABLE = Path(__file__).with_name("rule_ids.txt")
COMMAND = "python -m tests.species.test_rule_ids"
EVERY_TREE = "every tree"
HEAD = f"""\
Every rule id: those of the rules for every tree, then those of each species.

Calendars and diaries know a follow-up by its rule's id, so none of them ever goes or changes.

Written by: {COMMAND}
"""

Ids = Mapping[str, tuple[str, ...]]


def now() -> Ids:
    """The ids as the program has them, by what they belong to."""
    common = sorted(rule.id for module in RULES for rule in rules_of(module))
    species = {kind.botanical: tuple(rule.id for rule in rules_of(kind())) for kind in KINDS}
    return {EVERY_TREE: tuple(common), **species}


def listed(text: str) -> Ids:
    """The ids of a table."""
    lines = (block.splitlines() for block in text.removeprefix(HEAD).strip().split("\n\n"))
    return {owner: tuple(rule_id.strip() for rule_id in ids) for owner, *ids in lines}


def vanished(before: Ids, after: Ids) -> list[str]:
    """`Acer palmatum: palmatum-trim` for each id that is listed and that no rule has any more."""
    alive = {rule_id for ids in after.values() for rule_id in ids}
    return [
        f"{owner}: {rule_id}"
        for owner, ids in before.items()
        for rule_id in ids
        if rule_id not in alive
    ]


def table(ids: Ids) -> str:
    """The whole table."""
    blocks = ("\n".join((owner, *(f"  {one}" for one in its))) for owner, its in ids.items())
    return HEAD + "\n" + "\n\n".join(blocks) + "\n"


def said_of(gone: Iterable[str]) -> str:
    """What is to be done about ids that vanished."""
    return (
        "calendars know follow-ups by these rule ids, which are gone:\n  "
        + "\n  ".join(gone)
        + "\nGive each work its id back (`renamed` keeps one that a group calls otherwise)."
    )


def test_no_rule_id_vanishes() -> None:
    gone = vanished(listed(TABLE.read_text(encoding="utf-8")), now())
    assert not gone, said_of(gone)


def test_every_rule_id_is_listed() -> None:
    listing = TABLE.read_text(encoding="utf-8")
    assert listing == table(now()), f"add the new ids and read them: {COMMAND}"


def test_what_vanishes_is_named_with_its_species() -> None:
    before = {EVERY_TREE: ("wire-off",), "Acer palmatum": ("palmatum-repot", "palmatum-trim")}
    after = {EVERY_TREE: ("wire-off", "wrap-off"), "Acer palmatum": ("palmatum-repot",)}
    assert listed(table(before)) == before
    assert vanished(before, after) == ["Acer palmatum: palmatum-trim"]
    # A species that goes takes all of its ids with it; one that is called otherwise keeps them.
    assert vanished(before, {EVERY_TREE: ("wrap-off",)}) == [
        "every tree: wire-off",
        "Acer palmatum: palmatum-repot",
        "Acer palmatum: palmatum-trim",
    ]
    assert vanished(before, {**after, "Acer amoenum": ("palmatum-trim",)}) == []


if __name__ == "__main__":
    is_now = now()
    gone = vanished(listed(TABLE.read_text(encoding="utf-8")), is_now)
    if gone:
        sys.exit(said_of(gone))
    TABLE.write_text(table(is_now), encoding="utf-8")
    print(f"{TABLE}: {sum(map(len, is_now.values()))} rule ids")
