"""Seed of which nothing is up is told from what grows, and asked for little."""

from __future__ import annotations

import pytest
from msgspec.structs import replace
from tests.plan.test_every_tree import MADE

from backbud.collection.batch import Batch
from backbud.plan.of_batches import is_mere_seed


@pytest.mark.parametrize(
    ("batch", "acts", "is_seed"),
    [
        (Batch(30, "seeds"), ("sown",), True),
        (Batch(None, ""), ("sown",), True),
        # Two trays of seed are seed as well.
        (Batch(2, "trays of seed"), ("sown",), True),
        (Batch(2, "trays of cuttings"), ("sown",), False),
        # One tree, or what is no seed, or is up, or was never sown.
        (None, ("sown",), False),
        (Batch(30, "seedlings"), ("sown",), False),
        (Batch(30, "seeds", up=1), ("sown",), False),
        (Batch(30, "seeds"), ("bought",), False),
        (Batch(30, "seeds"), ("sown", "germinated"), False),
    ],
)
def test_mere_seed(batch: Batch | None, acts: tuple[str, ...], is_seed: bool) -> None:
    done = [MADE.event(f"2027-04-1{n}", act) for n, act in enumerate(acts)]
    assert is_mere_seed(replace(MADE.tree(*done), batch=batch)) == is_seed
