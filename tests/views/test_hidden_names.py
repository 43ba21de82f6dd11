"""Whose names an owner is not to read, gathered once for all owners."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.pages.conftest import tree

from backbud.views.grounds import Grounds
from backbud.views.hidden_names import EverybodysNames, HiddenNames

GROUNDS = Grounds(
    {
        "hoshi": tree("hoshi", owner="marrow", name="Old Star"),
        "yuki": tree("yuki", owner="quillow", name="Snow"),
        # Of the same name as one of somebody else's.
        "kumo": tree("kumo", owner="marrow", name="Snow"),
        "mori": tree("mori", first_handle="forest"),
    },
    {"marrow": "Ada Pells", "quillow": "Bo Pells", "keeper": "Cay Drake"},
    persons=frozenset({"marrow", "quillow", "keeper"}),
    hidden={"7": ("Eve Finch",)},
)


@pytest.mark.parametrize(
    ("text", "to_marrow", "to_quillow"),
    [
        ("moved beside hoshi", False, True),
        ("the Old Stars pot", False, True),
        ("yuki looks better", True, False),
        # Each has a tree of that name, and so is not to read of the other's.
        ("Snow on it", True, True),
        ("for Ada", False, True),
        ("for Bo", True, False),
        # Both are called so.
        ("Pells was here", True, True),
        ("as Drake said", True, True),
        ("from the forest", True, True),
        ("Eve saw it", True, True),
        ("kumo", False, True),
        ("pruned hard", False, False),
    ],
)
def test_an_owner_reads_no_name_but_their_own(text, to_marrow, to_quillow) -> None:
    names = EverybodysNames(GROUNDS)
    assert (names.named_to("marrow", text), names.named_to("quillow", text)) == (
        to_marrow,
        to_quillow,
    )


def names_of_others(owner: str) -> list[str]:
    """What one owner is not to read, gathered for that owner alone."""
    found = [name for t in GROUNDS.trees.values() if t.owner != owner
             for name in (t.handle, t.first_handle, t.title)]  # fmt: skip
    for handle in GROUNDS.persons - {owner}:
        found += [handle, *GROUNDS.name_of(handle).split()]
    return [*found, "Eve Finch", "Eve", "Finch"]


SAID = (
    "hoshi yuki kumo mori forest Old Star Stars Snow snows Ada Bo Pells Drake Eve Finch Cay "
    "marrow quillow and pruned"
)


@given(
    st.lists(st.sampled_from(SAID.split()), max_size=6),
    st.sampled_from(["marrow", "quillow", "who"]),
)
def test_it_is_what_each_owner_alone_would_be_kept_from(said, owner) -> None:
    text = " ".join(said)
    expected = HiddenNames(names_of_others(owner)).named_in(text)
    assert EverybodysNames(GROUNDS).named_to(owner, text) == expected
