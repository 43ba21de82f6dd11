"""Whether a plan, a skip or a put-off is in doubt, or gives no reason where it needs one."""

from __future__ import annotations

import re

from backbud_grammar.scribbles.draft import Draft
from backbud_grammar.scribbles.plain import is_harmless

_WORD = re.compile(r"[^\W\d_]+")
# Words of a reason that make a question of it.
_DOUBTS = frozenset(
    _WORD.findall(
        "maybe perhaps might but or why rest yet if unless probably possibly think guess ask asked "
        "whether depends see hm hmm"
    )
)


def is_no_plan(draft: Draft) -> bool:
    """Whether an act that names another is only noted."""
    if not draft.form.names_act or not draft.raw:
        return False
    if "?" in draft.raw or "?" in draft.remark:
        return True
    words = set(_WORD.findall(draft.remark.casefold()))
    is_bare = draft.needs_reason and is_harmless(draft.remark, fillers_only=True)
    return is_bare or not words.isdisjoint(_DOUBTS)
