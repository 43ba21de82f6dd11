"""What a species' page and the page of a tree say of its kind."""

from __future__ import annotations

from typing import Any

import pytest

from backbud.species import COMMON_PRACTICE, Fact, Species
from backbud.views.facts import facts_of


@pytest.mark.parametrize(
    ("share", "said"),
    [
        (
            (0.5, 1.0),
            "50 % of the root ball's volume in a cool place, 100 % in a warm one",
        ),
        ((1 / 3, 1 / 3), "33 % of the root ball's volume"),
    ],
)
def test_what_may_go_at_once_is_a_share_of_the_ball_and_never_of_its_roots(
    share: tuple[float, float], said: str
) -> None:
    class Maple(Species):
        botanical = "Acer exempli"
        common = ("pattern maple",)
        root_share = Fact(share, COMMON_PRACTICE)

    kind: Any = Maple()
    facts = {fact.label: fact.value for fact in facts_of(kind, {})}
    assert facts["off at once"] == said
    assert not [label for label in facts if label.startswith("roots off")]
