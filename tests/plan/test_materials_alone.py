"""What a tree took, made as if no other had taken anything, holds only as long as its materials
would be found all the same once others have spoken of more."""

from __future__ import annotations

import pytest

from backbud.journal.things import Things
from backbud.plan.stores.materials import Materials
from backbud.plan.stores.metres import tie_m
from backbud.plan.stores.values import Material


def materials(*spoken_of: Material) -> Materials:
    """Those of a journal without a card, once these were spoken of."""
    found = Materials(Things({}, {}))
    found.by_key |= {one.key: one for one in spoken_of}
    return found


def wire(thickness_mm: float, metal: str = "Al") -> Material:
    return Material(
        f"{metal} {thickness_mm}", "", "m", carded=False, metal=metal, thickness_mm=thickness_mm
    )


def other(key: str, unit: str = "") -> Material:
    return Material(key, key, unit, carded=False)


MESH, POTS_9, POTS_11 = other("mesh"), other("pots 9 cm"), other("pots 11 cm")


@pytest.mark.parametrize(
    ("one", "before", "holds"),
    [
        (wire(2), (), True),
        (wire(2), (wire(2),), True),
        # Wires within a hundredth of a millimetre are one.
        (wire(2), (wire(2.0099),), False),
        (wire(2), (wire(2.0101),), True),
        (wire(2), (wire(2, "Cu"),), True),
        # What is counted otherwise under the same name is another.
        (MESH, (other("mesh", "L"),), False),
        (MESH, (MESH,), True),
        (MESH, (wire(2),), True),
        (wire(2), (MESH,), True),
        # Pots are sought by that word.
        (POTS_9, (POTS_9,), True),
        (POTS_9, (POTS_11,), False),
        (POTS_9, (MESH,), True),
    ],
)
def test_what_was_spoken_of_alone(one: Material, before: tuple[Material, ...], holds: bool) -> None:
    assert materials(*before).would_find((one,)) is holds


def test_what_has_no_card_is_let_go() -> None:
    found = materials(MESH, wire(2))
    card = Material("moss", "moss", "L")
    found.by_key[card.key] = card
    assert found.let_go() == [MESH, wire(2)]
    assert found.by_key == {"moss": card}


def test_a_tie_is_reckoned_by_the_rule_of_thumb_where_the_size_of_the_pot_is_not_known(
    written,
) -> None:
    things = written(
        """
        pot low
          inside  30 x 20 x 6 cm
        pot old
          shape   rectangle
        """
    ).journal.things
    thumb = {"tie_wire_m": 0.7}
    assert tie_m("", things, thumb) == tie_m("old", things, thumb) == 0.7
    # Two ties of 52 cm (test_buying.py).
    assert tie_m("low", things, thumb) == pytest.approx(0.52)
