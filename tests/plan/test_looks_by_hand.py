"""A rule that answers a look is asked by itself: of what is not on the tree it asks nothing."""

from __future__ import annotations

import pytest
from msgspec.structs import replace
from tests.plan.test_every_tree import MADE, on_it, rules_after

from backbud.species import Event
from backbud_species.trident_maple import TridentMaple

RULES = {rule.id: rule for rule in rules_after()}
LOOKED_ON = "2027-07-01"
NORTH = MADE.year(TridentMaple())


@pytest.mark.parametrize(
    ("rule", "found", "act"),
    [
        ("graft-taken", "graft, taken", "checked"),
        ("graft-failed", "graft, not taken", "sealed"),
        ("layer-rooted", "layer, rooted", "separated"),
        ("layer-rooted", "layer, white roots", "checked"),
    ],
)
def test_only_of_what_is_on_the_tree(rule: str, found: str, act: str) -> None:
    done, year = MADE.event(LOOKED_ON, "checked", found), MADE.year(TridentMaple())
    bare = MADE.tree(done)
    assert list(RULES[rule].function(bare, done, year)) == []
    with_all = replace(bare, on_tree=on_it("checked"))
    assert [one.act for one in RULES[rule].function(with_all, done, year)] == [act]


@pytest.mark.parametrize(
    ("rule", "found", "act", "off"),
    [
        ("guy-loose", "guys loose", "guyed", "unguyed"),
        ("guy-loose", "guys biting", "guyed", "unguyed"),
        ("protection-broken", "protection broken", "protected", "unprotected"),
        ("ties-loose", "ties loose", "tied", "untied"),
        ("wrap-bites", "raffia biting", "unwrapped", "unwrapped"),
        ("wire-check-again", "wire biting", "unwired", "unwired"),
    ],
)
def test_what_was_found_is_there_unless_it_came_off_of_late(
    rule: str, found: str, act: str, off: str
) -> None:
    """Looked at on 1 July: what came off on 3 June, four weeks before, is what the look tells of;
    what came off on 2 June is not."""
    done, year = MADE.event(LOOKED_ON, "checked", found), MADE.year(TridentMaple())

    def asked(*before: Event) -> list[str]:
        tree = MADE.tree(*before, done)
        return [one.act for one in RULES[rule].function(tree, done, year)]

    assert asked() == [act]
    assert asked(MADE.event("2027-06-02", off)) == [act]
    assert asked(MADE.event("2027-06-03", off)) == []


@pytest.mark.parametrize(
    ("day", "act", "said", "minutes"),
    [
        ("2027-07-01", "checked", "leaves sticky", {"pest-signs": 5}),
        ("2027-07-01", "checked", "graft, taken", {"graft-taken": 5}),
        ("2027-07-01", "checked", "layer, white roots", {"layer-rooted": 5}),
        ("2027-06-01", "struck", "", {"cutting-check": 5}),
        ("2027-04-10", "sown", "", {"seed-check": 5}),
    ],
)
def test_a_short_look_takes_five_minutes(
    day: str, act: str, said: str, minutes: dict[str, int]
) -> None:
    done, year = MADE.event(day, act, said), MADE.year(TridentMaple())
    tree = replace(MADE.tree(done), on_tree=on_it("checked"))
    found = {
        rule: one.minutes for rule in minutes for one in RULES[rule].function(tree, done, year)
    }
    assert found == minutes


def test_a_tree_in_the_ground_has_no_pot_to_break() -> None:
    done, year = MADE.event(LOOKED_ON, "checked", "pot cracked"), MADE.year(TridentMaple())
    rule = RULES["pot-broken"].function
    assert list(rule(MADE.tree(done, planted_out=True), done, year)) == []
    assert [one.act for one in rule(MADE.tree(done), done, year)] == ["slipped"]


@pytest.mark.parametrize(
    ("found", "is_tilted"), [("soil waterlogged", True), ("drainage slow", False)]
)
def test_only_a_pot_in_which_water_stands_is_tilted(found: str, is_tilted: bool) -> None:
    done, year = MADE.event(LOOKED_ON, "checked", found), MADE.year(TridentMaple())
    (look,) = RULES["waterlogged"].function(MADE.tree(done), done, year)
    assert look.cautions == (
        ("Until then tilt the pot, and keep rain off it.",) if is_tilted else ()
    )


@pytest.mark.parametrize(
    ("rule", "found"),
    [
        ("graft-taken", "graft, taken"),
        ("layer-rooted", "layer, white roots"),
        ("pest-signs", "leaves sticky"),
        ("waterlogged", "soil waterlogged"),
        ("waterlogged", "drainage slow"),
    ],
)
def test_a_look_that_names_the_next_is_not_answered_by_another(rule: str, found: str) -> None:
    done, year = MADE.event(LOOKED_ON, "checked", f"{found}, again in 3 weeks"), NORTH
    tree = replace(MADE.tree(done), on_tree=on_it("checked"))
    assert list(RULES[rule].function(tree, done, year)) == []
