"""Parts a piece of a line from a day that it was done on, where that is not its page's own.

The work is read without it, and the day stays with it as words that nobody read: it holds the work
back, and the message names both.
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from backbud_grammar.elsewhen import short_day
from backbud_grammar.scribbles.draft import Draft, Piece

# What stands before a day that says how long, or when again.
_SPAN = re.compile(
    r"(?:\b(?:till?|until|til|since|from|between|before|after|by|to|again|next|and|\+|-|/|in|for|on|at)"
    r"|[-–+/&])$",
    re.IGNORECASE,
)
# Its last figures, where they can be nothing that the work counts or measures: `lime sulphur 1-4`.
_LAST = re.compile(r"(?<=[^\W\d_]) (\d{1,2}[-.]\d{1,2})$")
# What has a number, or is counted, before it.
_NUMBERED = re.compile(
    r"\b(?:left|right|branch(?:es)?|wedges?|no|nr|number|trees?|leaves|lvs|buds|pairs?|pH|EC"
    r"|x|zone|stage|with|w|scale|of|about|abt|ca|alu?|cu|is|was|only|now|still)\.?$",
    re.IGNORECASE,
)


def parted_from_day(piece: str) -> tuple[str, str]:
    """The piece without its day, and the day; "" where there is none to be told.

    >>> parted_from_day("repotted 14-3 oval blue"), parted_from_day("till 10-10")
    (('repotted oval blue', '14-3'), ('till 10-10', ''))
    >>> parted_from_day("lime sulphur on jin 1-4"), parted_from_day("back to 2-3")
    (('lime sulphur on jin', '1-4'), ('back to 2-3', ''))
    """
    found = short_day(piece)
    if found is not None:
        day, at = found
    else:
        last = _LAST.search(piece)
        if last is None:
            return piece, ""
        day, at = last[1], last.start(1)
    before, behind = piece[:at].rstrip(), piece[at + len(day) :].lstrip()
    if _SPAN.search(before) or (found is None and _NUMBERED.search(before)):
        return piece, ""
    return f"{before} {behind}".strip(), day


def hang_on_all(drafts: Sequence[Draft], days: Sequence[Piece]) -> None:
    """Put the first day that work of a line was parted from beside all its other work: it may be of
    that day as well."""
    for day in days[:1]:
        for draft in drafts:
            is_work = not (draft.form.prose or draft.form.names_act or draft.follows)
            if is_work and not any(one in draft.pieces for one in days):
                draft.pieces.append(day)
