"""Finds in the words for a part of a tree what is of another tree, or of none."""

from __future__ import annotations

import re

_ELSEWHERE = re.compile(
    r"\b(?:drawing|sketch|photos?|pictures?|paper|screen|computer|plan|bench|floor|lawn|hedge|roof"
    r"|gutter|van|elm|oak|ash|beech|birch|maple|pine|larch|juniper|azalea|hornbeam|yew|spruce|cedar"
    r"|apple|pear|cherry|plum|hawthorn|fig|olive|ivy|rose|neighbour['’]?s?|next door"
    r"|(?:other|another) (?:one|tree)s?)\b(?! stock)|^(?:on )?(?:the )?others?$"
    r"|\b(?:from|since|of) (?:19|20)\d\d\b"
    # What stands in brackets may take it all back.
    r"|\(.*\)",
    re.IGNORECASE,
)


def named_elsewhere(part: str) -> str:
    """What in it is none of this tree: `drawing` of `the drawing`; "" where nothing is.

    >>> named_elsewhere("the drawing"), named_elsewhere("the pine stock")
    ('drawing', '')
    """
    found = _ELSEWHERE.search(part)
    return found[0] if found is not None else ""
