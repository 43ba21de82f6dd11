"""Reads `[letterhead]` of the settings: who writes the papers that leave the house, and how to
reach and to pay them."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from msgspec import Struct

from backbud_grammar.problems import did_you_mean

_EXAMPLE = 'For example, below [letterhead]: address = "1 Mill Lane, Overbeck"'


class Letterhead(Struct, frozen=True):
    """What stands above a paper, each "" where nothing is set.

    `name`: under which the keeper trades; else that of the keeper's card. `pay`: how a bill is
    paid, an account or a word. The number for tax stands in `[tax]`.
    """

    name: str = ""
    address: str = ""
    telephone: str = ""
    email: str = ""
    pay: str = ""


NO_LETTERHEAD = Letterhead()
_KNOWN = ("name", "address", "telephone", "email", "pay")


def read_letterhead(value: Mapping[str, Any]) -> Letterhead:
    """The letterhead of a sound table."""
    return Letterhead(**{key: " ".join(one.split()) for key, one in value.items()})


def wrong_in_letterhead(value: object) -> tuple[str, str] | None:
    """What is wrong with the table: a message and a hint."""
    if not isinstance(value, dict):
        return "“letterhead” is a table", _EXAMPLE
    for key, one in value.items():
        if key not in _KNOWN:
            known = f"Known: {', '.join(_KNOWN)}."
            return f"“{key}” is no setting of [letterhead]", did_you_mean(key, _KNOWN, known)
        if not isinstance(one, str):
            return f"“{key}” of [letterhead] is a text", _EXAMPLE
    return None
