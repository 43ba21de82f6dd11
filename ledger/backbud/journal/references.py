"""What is wrong with a handle that something is referred to by."""

from __future__ import annotations

from collections.abc import Iterable

from backbud.journal.events import Origin
from backbud.journal.problems import PlacedFlaw, flaw_at
from backbud.journal.things import Things
from backbud_grammar.measures import hint_of_unit
from backbud_grammar.problems import Flaw


def flaw_of_reference(
    handle: str, kinds: tuple[str, ...], things: Things, words: Iterable[str] = ()
) -> Flaw | None:
    """Why nothing of these kinds is so called, from the handle's first character on; None where
    something is. `words`: what else may have been meant there, for the hint."""
    found = things.find(handle)
    if found is None:
        unit = hint_of_unit(handle) if "material" in kinds else ""
        if unit:
            # `2 gal` of what goes into water: a word behind a number may be either.
            message = f"“{handle}” is no unit known here"
            return Flaw("unknown-unit", 0, 0, len(handle), message, unit)
        message = f"no {' or '.join(kinds)} is called “{handle}”"
        hint = things.nearest(handle, *kinds, words=words)
        return Flaw("unknown-handle", 0, 0, len(handle), message, hint)
    if found.kind not in kinds:
        message = f"“{handle}” is a {found.kind}, not a {' or a '.join(kinds)}"
        hint = f"Its card stands in {found.origin}."
        return Flaw("wrong-kind", 0, 0, len(handle), message, hint)
    return None


def flaw_of_reference_at(
    handle: str, kinds: tuple[str, ...], things: Things, origin: Origin, offset: int = 0
) -> PlacedFlaw | None:
    """The same, `offset` characters behind an origin."""
    flaw = flaw_of_reference(handle, kinds, things)
    if flaw is None:
        return None
    return flaw_at(origin, flaw.code, flaw.message, flaw.hint, offset, flaw.length)
