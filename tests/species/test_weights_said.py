"""Each work says how much it matters: what a tree may die without, what it must have, and what is
a chance of the season."""

from __future__ import annotations

import pytest
from tests.species.test_every_species import KINDS, every_proposal, sampled

from backbud.species import CHANCE, ROUTINE, Proposal, Window

# What must be done wherever it is asked: it keeps cold, sun, pests and thirst off, or is a look
# or a move that follows from what was done.
MUST = {"protected", "shaded", "moved", "checked", "repotted", "soaked", "sealed", "watered"}
# What a keeper takes for some trees and not for others.
MAY = {"wired", "pruned", "trimmed", "pinched", "plucked", "defoliated", "thinned",
       "treated-deadwood"}  # fmt: skip


def test_no_rule_may_leave_its_weight_out() -> None:
    from datetime import date

    day = date(2027, 5, 1)
    with pytest.raises(TypeError, match="weight"):
        Proposal("fed", Window(day, day, day), "Cut roots take up no feed.")  # type: ignore[call-arg]


@pytest.mark.parametrize("kind", sampled(KINDS), ids=lambda kind: kind.botanical)
def test_what_must_be_and_what_may_be_are_told_apart(made, kind) -> None:
    for one in every_proposal(made, kind()):
        weight = one.weight
        if one.act in MUST:
            assert weight.must, one
        if one.act in MAY and not one.datum.startswith("It was"):
            assert weight == CHANCE, one
        if one.act == "fed":
            assert weight == ROUTINE, one
        # Only what keeps cold off decides over a tree's life.
        if weight.at_stake == "life":
            assert one.act in ("protected", "moved"), one
        # A work that comes round each year lapses; what may be done always does.
        if not weight.must:
            assert weight.once_past == "lapses", one
