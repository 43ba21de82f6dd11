"""Says what the row of an act says of all its lines, for whoever shows them."""

from __future__ import annotations

from msgspec import Struct

from backbud.collection.batch import ARRIVALS, GOINGS, RAISED
from backbud.collection.on_tree import WIRINGS
from backbud.collection.zones import tells_of_zones
from backbud.journal.events import may_be_for_keeper
from backbud.views.life import Sign, sign_of
from backbud.views.tree_years import stands_beside
from backbud_grammar.act_words import ActWord, as_act
from backbud_grammar.by_row import by_row
from backbud_grammar.forms import ANY_WORDS, ActForm

# Lines that tell how many there are now; others tell it in their own words, or leave it as it was.
_TELL_COUNTS: frozenset[ActWord] = frozenset({"germinated", "counted", "parted-off"})
_MOVE_COUNTS = {*GOINGS, *ARRIVALS, *_TELL_COUNTS} - RAISED


class LinesOfAct(Struct, frozen=True, gc=False):
    """What is so of all lines of an act.

    `prose`: they are. `sign`: what they are drawn as. `may_be_private`: one may be for the keeper
    alone. `moves_count`: they count a batch anew. `of_wire`, `of_zones`, `stands_beside`: one may
    put wire on or take it off, tell how a zone grows, and stand beside another year; `is_sorted`:
    any of these.
    """

    prose: bool
    sign: Sign
    may_be_private: bool
    moves_count: bool
    of_wire: bool
    of_zones: bool
    stands_beside: bool
    is_sorted: bool


@by_row
def lines_of_act(row: ActForm) -> LinesOfAct:
    """What is so of all lines of an act."""
    act = as_act(row.word)
    sorts = act in WIRINGS, tells_of_zones(row), stands_beside(row)
    return LinesOfAct(
        row.prose,
        sign_of(row),
        may_be_for_keeper(row),
        act in _MOVE_COUNTS,
        *sorts,
        any(sorts),
    )


@by_row
def free_names(row: ActForm) -> frozenset[str]:
    """Which details of an act may hold any words at all."""
    return frozenset(form.name for form in row.forms if form.prose or form.words == ANY_WORDS)
