"""What stands in a line before its first act: what was seen before something was done."""

from __future__ import annotations

import re
from collections.abc import Sequence

from backbud_grammar.limiters import limiter_in
from backbud_grammar.scribbles.asides import is_aside
from backbud_grammar.scribbles.beside import is_beside
from backbud_grammar.scribbles.by_card import is_at_home
from backbud_grammar.scribbles.draft import Draft, Piece
from backbud_grammar.scribbles.observed import is_counted_pest
from backbud_grammar.scribbles.plain import is_observed, is_seen, tells_what
from backbud_grammar.scribbles.reads import PieceReader
from backbud_grammar.scribbles.spelled import in_full

_WORD = re.compile(r"[^\W\d_]+")
_SLUGS = re.compile(r"\b(?:slugs?|snails?|slakken|schnecken)\b", re.IGNORECASE)
_FIGURE = re.compile(r"\d")
# Something was done there, in words that no act has.
_DOING = re.compile(
    r"\b(?:cut|sawn|sawed|took|taken|pulled|removed|dug) (?:back|out|off|away|down)\b", re.I
)


def put_beside(first: Draft, before: Sequence[Piece], pieces: PieceReader) -> list[Piece]:
    """Put what stands before the first act beside it, and return what nobody can place: it may be
    what the line is about, and whose it is."""
    if first.form.word == "worked":
        # Hours are of the work that stands before them, whether it was read or not.
        return [*before]
    if first.form.word == "planned" and any(_FIGURE.search(said) for said, _ in before):
        # `buds at the cuts, 2 to 4 each. thin in Oct`: it is the buds that were counted.
        return [*before]
    if first.form.word == "fed" and any(_SLUGS.search(said) for said, _ in before):
        # `slugs, pellets` are no feed.
        return [*before]
    left = [
        one
        for one in _not_of(first, before, pieces)
        if not is_at_home(in_full(one[0]), pieces.handles, pieces.kind_of)
    ]
    beside = [one for one in left if is_beside(first.word, in_full(one[0]))]
    for raw, at in beside:
        first.put_beside(raw, at)
    left = [one for one in left if one not in beside]
    if not left:
        return left
    seen_before = [(pieces.sighting(first.form, in_full(said)), at) for said, at in left]
    if all(said for said, _ in seen_before) and first.pieces:
        # `-4 tonight, into tunnel`: all of it was seen before the work.
        first.pieces += seen_before
        return []
    if any(_tells_of_act(said, pieces) for said, _ in left):
        return left
    spelled = [in_full(said) for said, _ in left]
    if all(map(is_seen, spelled)) and any(map(tells_what, spelled)):
        first.kept[:0] = left
        return []
    seen = is_observed(spelled[0]) or is_counted_pest(spelled[0])
    if seen or all(_FIGURE.search(said) for said, _ in left):
        doubt = [one for one in left if limiter_in(one[0]) or not seen]
        doubt = [one for one in doubt if not is_aside(first.form, in_full(one[0]), one[0])]
        first.pieces += doubt
        for raw, at in left:
            if (raw, at) not in doubt and first.form.word == "treated" and raw.isdigit():
                # How many pests: `scale on stems, 6. soap`.
                first.remark = f"{first.remark}, {raw}".lstrip(", ")
            elif (raw, at) not in doubt:
                first.put_before(raw, at)
        return []
    return _without_asides(first, left)


def _without_asides(first: Draft, left: Sequence[Piece]) -> list[Piece]:
    """What is left of it without clauses that are about something else, which are put beside."""
    unknown = [one for one in left if not is_aside(first.form, in_full(one[0]), one[0])]
    for one in left:
        if one not in unknown:
            first.beside.append(one)
    return unknown


def _tells_of_act(piece: str, pieces: PieceReader) -> bool:
    """Whether a word of it is an act's: what was only seen says none."""
    acts = pieces.details.acts
    if _DOING.search(piece):
        return True
    return any(
        word in acts and word not in acts[word].bare_words
        for word in _WORD.findall(piece.casefold())
    )


def _not_of(draft: Draft, before: Sequence[Piece], pieces: PieceReader) -> list[Piece]:
    """What stands before an act and is no detail of it: `jin on apex, carved`."""
    of_water = draft.form.word == "measured"
    if (draft.form.bearing != "does" and not of_water) or draft.strict or draft.form.undone_by:
        # `2 mm Al on left 1, guy to rim` is a wire and a guy.
        return [*before]
    left: list[Piece] = []
    details: list[Piece] = []
    for raw, at in before:
        said = pieces.said(draft.form, in_full(raw))
        if said is None or said[1]:
            left.append((raw, at))
        else:
            details += [(one, at) for one in said[0]]
    draft.pieces[:0] = details
    return left
