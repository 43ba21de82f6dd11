"""Sorts the acts by what a replay has to look at, where a line of them comes."""

from __future__ import annotations

from collections.abc import Iterable

from backbud.collection.batch import TALLIES
from backbud.collection.comings import COMINGS_AND_GOINGS
from backbud.collection.on_tree import OFF_PARTS
from backbud.collection.stand import stands_after
from backbud.collection.whose import WITH_ITS_OWNER
from backbud_grammar.act_words import ActWord
from backbud_grammar.acts import acts_with
from backbud_grammar.forms import ActForm

# What moves the count of a batch, or may.
COUNTS: frozenset[ActWord] = COMINGS_AND_GOINGS | TALLIES | {"parted-off"}
# What changes more than where a tree stands: an earlier line, or another tree; and what is said of
# its owner.
_CHANGES_MORE: frozenset[ActWord] = frozenset({"corrected", "separated", *WITH_ITS_OWNER})
# A tree that is away may be sold, or die there; lent it is already.
_LENT: frozenset[ActWord] = frozenset({"lent"})


def everyday_acts(forms: Iterable[ActForm]) -> dict[str, bool]:
    """The acts that change nothing a subject line can ask for: most of a diary; for each whether
    its measures are totals."""
    return {
        form.word: form.shared
        for form in forms
        if "tree" in form.on
        and stands_after(form) is None
        and form.word not in COUNTS
        and form.word not in _CHANGES_MORE
        and form.word not in OFF_PARTS
    }


def acts_anywhere(forms: Iterable[ActForm]) -> frozenset[ActWord]:
    """What may be written of a tree that is not here."""
    return acts_with("arrival", "departure", "anywhere", acts=forms) - _LENT


def acts_into_pots(forms: Iterable[ActForm]) -> frozenset[ActWord]:
    """What may put a tree into a pot where another one stands."""
    return acts_with("arrival", "fills_pot", acts=forms)
