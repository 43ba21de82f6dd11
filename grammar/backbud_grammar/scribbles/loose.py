"""What elsewhere in a line may bear on an act that needs every word to be read."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable

from backbud_grammar.hints import PART_WORDS
from backbud_grammar.limiters import limiter_in
from backbud_grammar.scribbles.draft import TAKES_OFF, Draft, Piece
from backbud_grammar.scribbles.plain import is_harmless
from backbud_grammar.scribbles.spelled import in_full

_FIGURE = re.compile(r"\d")
_ON = re.compile(
    r"(?:then |all |put |now )*(?:new on\b|(?:back )?on\b(?! (?:left|right|apex|the)\b))",
    re.IGNORECASE,
)


def loose_pieces(
    draft: Draft,
    drafts: Iterable[Draft],
    is_read: Callable[[Draft, str], bool],
) -> list[Piece]:
    """The pieces of a line that may bear on one of its acts. `is_read`: whether a piece is a detail
    of its act."""
    if not draft.strict:
        return []
    loose: list[Piece] = []
    for other in drafts:
        if other is not draft:
            loose += [one for one in other.kept if _is_loose(draft, one[0])]
            loose += [
                one for one in other.pieces if not is_read(other, one[0]) or _is_on(draft, one[0])
            ]
            loose += [(other.remark, other.at)] if other.remark else []
    return [one for one in loose if _is_on(draft, one[0]) or not is_harmless(in_full(one[0]))]


def _is_loose(draft: Draft, kept: str) -> bool:
    """Whether words beside another act may turn this one.

    What ends a tree or sends it away stands alone, but what came off does not hang on how the
    rest went.
    """
    if draft.form.of_all or draft.word.casefold() in draft.form.bare_words:
        return not is_harmless(in_full(kept))
    return bool(
        _FIGURE.search(kept) or limiter_in(kept) or _is_on(draft, kept) or _is_of_part(draft, kept)
    )


def _is_of_part(draft: Draft, kept: str) -> bool:
    """Whether words tell of a part of the tree, which what came off may still be on."""
    return draft.form.word in TAKES_OFF and not PART_WORDS.isdisjoint(kept.casefold().split())


def _is_on(draft: Draft, said: str) -> bool:
    """Whether what came off came on again: `wire off, 1 h, on again`."""
    return draft.form.word in TAKES_OFF and _ON.match(said) is not None
