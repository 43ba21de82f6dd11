"""A customer's tree is kept alive and gets the works that were agreed by name: nothing is asked of
its shape and roots that nobody agreed to."""

from __future__ import annotations

from datetime import date

import pytest

CARDS = """
person marrow
place yard
  latitude   50 N
  longitude  9 E
  low   -1 -1 2 5 9 12 14 14 10 7 3 0 C
  high  5 6 11 16 20 23 26 25 21 15 9 5 C
"""
WIRED = "\n2025-06-10\nhoshi\n  wired  3 mm Al on left 1\n"
DESIGN = {"wired", "pruned", "trimmed", "pinched", "repotted", "defoliated", "thinned"}


@pytest.fixture
def asked(written):
    """The acts that are asked of the tree until the end of May, by the rule."""

    def of(visit: str, owner: str = "marrow", kind: str = "trident maple") -> dict[str, str]:
        owned = f"  owner  {owner}\n" if owner else ""
        tree = f"tree hoshi\n  kind  {kind}\n  place  yard\n{owned}"
        known = "\n2025-06-01\nhoshi\n  noted  well\n" if not owner else ""
        text = CARDS + tree + known + visit
        session = written(text, "2025-11-20", settings='home = "yard"\n')
        return {
            one.id.split("/")[1]: one.act
            for one in session.plan().all()
            if one.is_open(session.today) and one.window.opens <= date(2026, 5, 31)
        }

    return of


def visit(came: str = "from marrow", agreed: str = "") -> str:
    more = f"  agreed  {agreed}\n" if agreed else ""
    return f"\n2025-10-20\nhoshi\n  received  {came}\n{more}"


BOARDED = [
    visit(agreed="60 EUR for winter storage"),
    visit("from marrow, for winter storage"),
    visit("from marrow, for winter storage", "60 EUR"),
    visit("from marrow, on loan"),
    visit(agreed="60 EUR for winter storage and care"),
]


@pytest.mark.parametrize("diary", BOARDED)
def test_of_a_boarded_tree_no_season_asks_for_shape_or_a_pot(asked, diary: str) -> None:
    found = asked(diary)
    assert DESIGN.isdisjoint(found.values())
    # Its life is kept, and it is looked over for pests.
    assert found["winter-frost"] == "protected"
    assert "checked" in found.values()


@pytest.mark.parametrize(
    ("diary", "owner"),
    [
        # No work of the language, so nobody can tell what it takes in.
        (visit(agreed="200 EUR for a general refresh"), "marrow"),
        (visit(agreed="200 EUR for repotting and a general refresh"), "marrow"),
        # The work on which all others of its shape hang.
        (visit(agreed='200 EUR for "style"'), "marrow"),
        # Nobody said what for.
        (visit(), "marrow"),
        # What was agreed on an earlier visit says nothing of this one.
        (
            "\n2024-10-20\nhoshi\n  received  from marrow\n  agreed  60 EUR for winter storage\n"
            "\n2025-04-10\nhoshi\n  returned\n" + visit(),
            "marrow",
        ),
        ("", ""),
    ],
)
def test_other_trees_are_asked_as_before(asked, diary: str, owner: str) -> None:
    assert {"wired", "pruned"} <= set(asked(diary, owner).values())


@pytest.mark.parametrize(
    ("diary", "works"),
    [
        (visit(agreed="200 EUR for pruning"), {"pruned"}),
        (visit(agreed="200 EUR for winter storage and wiring"), {"wired"}),
        (visit("from marrow, for winter storage", "200 EUR for wiring"), {"wired"}),
        (visit("from marrow, for pruning", "200 EUR"), {"pruned"}),
        (visit(agreed='200 EUR for "pruning, wiring"'), {"pruned", "wired"}),
        (visit(agreed='200 EUR for "hard pruning without wiring"'), {"pruned"}),
        (visit(agreed="120 EUR for pruning\n  agreed  80 EUR for wiring"), {"pruned", "wired"}),
        # What was agreed of the roots says nothing of the twigs.
        (visit(agreed="200 EUR for root work"), set()),
    ],
)
def test_only_the_works_that_were_agreed_by_name_are_asked(
    asked, diary: str, works: set[str]
) -> None:
    found = asked(diary)
    assert DESIGN & set(found.values()) == works
    assert found["winter-frost"] == "protected"
    assert "pests" in " ".join(found)


@pytest.mark.parametrize(("agreed", "looks"), [("wiring", False), ("repotting", True)])
def test_roots_are_looked_at_where_a_repotting_was_agreed(asked, agreed: str, looks: bool) -> None:
    """Nobody knows when it was last repotted, so its roots are looked at first."""
    found = asked(visit(agreed=f"200 EUR for {agreed}"))
    assert ("trident-repot" in found) == looks


def test_wire_that_bites_comes_off_a_boarded_tree_too(asked) -> None:
    before = "\n2025-06-01\nhoshi\n  received  from marrow\n"
    kept = "\n2025-10-20\nhoshi\n  agreed  60 EUR for winter storage\n"
    found = asked(before + WIRED + kept)
    assert "unwired" in found.values() or "wire-check" in found
    assert DESIGN.isdisjoint(found.values())
    pruned = asked(before + WIRED + kept.replace("winter storage", "pruning"))
    assert "unwired" in pruned.values() or "wire-check" in pruned


def test_what_its_keeper_plans_is_asked_all_the_same(asked) -> None:
    plan = "\n2025-11-01\nhoshi\n  planned  repot, to 2026-03\n"
    assert "repotted" in asked(BOARDED[0] + plan).values()
