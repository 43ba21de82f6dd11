"""Reads `[letterhead]` of the settings: who writes the papers that leave the house, and how to
reach and to pay them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from msgspec import Struct

from backbud.journal.wrong_setting import WrongSetting
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


def wrong_in_letterhead(value: object) -> Iterator[WrongSetting]:
    """What is wrong with the table."""
    if not isinstance(value, dict):
        yield WrongSetting("“letterhead” is a table", _EXAMPLE)
        return
    for key, one in value.items():
        if key not in _KNOWN:
            hint = did_you_mean(key, _KNOWN, f"Known: {', '.join(_KNOWN)}.")
            yield WrongSetting(f"“{key}” is no setting of [letterhead]", hint, key)
        elif not isinstance(one, str):
            yield WrongSetting(f"“{key}” of [letterhead] is a text", _EXAMPLE, key)
