"""Which act a detail belongs to that was written of another."""

from __future__ import annotations

from collections.abc import Mapping

from backbud_grammar.details import details_of
from backbud_grammar.forms import ActForm
from backbud_grammar.lexicon import PREPOSITIONS, lexicon_of
from backbud_grammar.parts import without_part
from backbud_grammar.syntax import Detail

# No detail of an act is longer; what is, is prose.
_LONGEST_SOUGHT = 200


def act_that_says(acts: Mapping[str, ActForm], piece: str) -> str:
    """The first act of the table that takes this detail, or ""; it takes milliseconds."""
    if len(piece) > _LONGEST_SOUGHT:
        return ""
    for act in acts.values():
        lexicon = lexicon_of(act.forms)
        if act.names_act or any(form.free or form.reader for form in lexicon.bare):
            continue
        placed = without_part(piece, lexicon) if lexicon.with_part else None
        read = details_of(placed.head if placed else piece, lexicon)
        if any(_is_its_own(d, piece, act) for d in read) and not any(
            form.free and form.name == d.name for form in act.forms for d in read
        ):
            return act.word
    return ""


def _is_its_own(detail: Detail, piece: str, act: ActForm) -> bool:
    """Whether a detail is so said of this act alone: a word by itself means too much."""
    return bool(detail.words and " " in piece) or _is_labelled(detail, piece, act)


def _is_labelled(detail: Detail, piece: str, act: ActForm) -> bool:
    """Whether a label of the detail's form is written there; a handle alone is said of any act."""
    written = f" {piece.casefold()} "
    return any(
        f" {label.casefold()} " in written
        for form in act.forms
        if form.name == detail.name
        for label in form.labels
        if label not in PREPOSITIONS
    )
