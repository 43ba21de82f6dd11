"""Each work of a species says where it comes from, as its facts do."""

from __future__ import annotations

import re

import pytest
from tests.species.test_every_species import KINDS

from backbud.species import COMMON_PRACTICE, FROM_MEMORY, rules_of
from backbud_species.european_larch import EuropeanLarch
from backbud_species.scots_pine import ScotsPine
from backbud_species.trident_maple import TridentMaple


def sources(species):
    return {rule.id: rule.source for rule in rules_of(species)}


def test_a_work_is_common_practice_unless_a_source_was_read():
    assert set(sources(TridentMaple()).values()) == {COMMON_PRACTICE}
    blight = sources(ScotsPine())["scots-pine-needle-blight"]
    assert blight not in (COMMON_PRACTICE, FROM_MEMORY) and "Forest" in blight
    # What a group says of its works holds for its species.
    assert sources(EuropeanLarch())["larch-adelgids"] == (
        "University of Massachusetts Amherst, Insect and Mite Guide: Adelges laricis"
    )


@pytest.mark.parametrize("kind", KINDS)
def test_a_source_named_in_a_reason_is_that_of_the_work(made, kind):
    """A publisher in brackets at the end of a reason, or of a clause of it, is its source."""
    species = kind()
    told = sources(species)
    tree = made.tree(made.event("2020-03-20", "repotted", "same pot"), strength="strong")
    named = 0
    for rule, one in made.yearly_by_rule(species, tree, made.year(species, "cool")):
        for publisher in re.findall(r"\(([A-Z][^()]+)\)", one.because):
            named += 1
            assert publisher in told[rule], rule
    assert named <= len(told)
    for key in kind.__dict__.get("sources", {}):
        assert f"{species.rule_prefix}-{key}" in told
