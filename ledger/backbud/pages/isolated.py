"""Isolates a text whose letters may run from right to left (Unicode UAX 9): it turns nothing
beside it. Any other needs no isolation, and a tree's page has hundreds of them."""

from __future__ import annotations

import re
from collections.abc import Callable
from functools import cache
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from markupsafe import Markup

# Letters and digits of scripts that run from right to left, and the marks that turn a text.
_MAY_TURN = re.compile(
    "[\u0590-\u08ff\u200e\u200f\u202a-\u202e\u2066-\u2069\ufb1d-\ufdff\ufe70-\ufeff"
    "\U00010800-\U00010fff\U0001e800-\U0001efff]"
)


def isolated(text: str) -> str:
    """The text for a page, in `bdi` where it may turn what stands beside it."""
    markup, escape = _markup()
    return markup("<bdi>{}</bdi>").format(text) if _MAY_TURN.search(text) else escape(text)


# Asked for every line of every page, so it is imported once.
@cache
def _markup() -> tuple[type[Markup], Callable[[str], Markup]]:
    from markupsafe import Markup, escape

    return Markup, escape
