"""Parts a `checked` line into its looks: what was looked at, where, and what was found there."""

from __future__ import annotations

from collections.abc import Container, Mapping

from msgspec import Struct

from backbud.journal.events import Event
from backbud_grammar.act_words import ActWord, DetailWord, SettledBy, as_settling
from backbud_grammar.acts.watching import PESTS

# What else settles a check, by what is looked at: it is off, or was seen more closely.
ALSO: Mapping[str, ActWord] = {
    "wire": "unwired",
    "ties": "untied",
    "guys": "unguyed",
    "graft": "separated",
    "layer": "separated",
    "protection": "unprotected",
    "strength": "vigour",
    "roots": "repotted",
    "drainage": "drained",
    "raffia": "unwrapped",
}

# What settles a look for pests that a treatment, or what was seen on a leaf, asked for.
LOOKS_FOR_PESTS: tuple[SettledBy, ...] = tuple([as_settling("checked", pest) for pest in PESTS])


class Look(Struct, frozen=True, gc=False):
    """One thing that was looked at: `what` (wire, ties …; "" for the tree), where, the finding."""

    what: str
    parts: tuple[str, ...]
    finding: str

    @property
    def settled_by(self) -> tuple[SettledBy, ...]:
        """What settles the next look at it."""
        check = as_settling("checked", self.what)
        return (check, ALSO[self.what]) if self.what in ALSO else (check,)


def looks(event: Event) -> tuple[Look, ...]:
    """Return each thing that a `checked` line names: `wire biting on left 1, ties fine` is two,
    and so is `wire biting on left 1, fine on left 2`."""
    # Each due of a tree asks it of one line after another.
    global _last
    known = _last
    if known is None or known[0] is not event:
        known = _last = event, _looks(event)
    return known[1]


_last: tuple[Event, tuple[Look, ...]] | None = None


def _looks(event: Event) -> tuple[Look, ...]:
    found: list[Look] = []
    whats: list[str] = []
    parts: list[str] = []
    finding, there = "", False
    for detail in event.details:
        if detail.name == "what":
            if whats:
                found += _looks_of(whats, parts, finding)
                parts, finding = [], ""
            whats = detail.words.split()
        elif detail.name == "finding":
            # What was found on a part of its own says nothing of the others.
            if finding and (detail.part not in parts if detail.part else there):
                found += _looks_of(whats or [""], parts, finding)
                parts, finding = [], ""
            finding, there = _worse(finding, detail.words), detail.part != ""
        if detail.part and detail.part not in parts:
            parts.append(detail.part)
    return (*found, *_looks_of(whats or [""], parts, finding))


def _worse(before: str, found: str) -> str:
    """Of two findings the later; but what bites anywhere is not put right by what else was found.

    >>> _worse("biting", "fine"), _worse("fine", "some biting"), _worse("loose", "not biting")
    ('biting', 'biting', 'not biting')
    >>> _worse("fine", "biting deep"), _worse("", "not yet biting"), _worse("fine", "loose")
    ('biting', 'not yet biting', 'loose')
    >>> _worse("", "some not biting")
    'some not biting'
    """
    words_before, biting, _ = f" {found} ".partition(" biting ")
    bites = biting and words_before.split()[-1:] not in (["not"], ["yet"], ["none"])
    return "biting" if bites or before == "biting" else found


def _looks_of(whats: list[str], parts: list[str], finding: str) -> list[Look]:
    """`wire ties fine` is two looks."""
    return [Look(what, tuple(parts), finding) for what in whats]


def looks_meant(event: Event, what: str) -> tuple[Look, ...]:
    """Return the looks at one thing; a check that names nothing looked at everything."""
    return tuple([look for look in looks(event) if look.what in ("", what)])


def looks_found(event: Event, whats: Container[str], *findings: DetailWord) -> tuple[Look, ...]:
    """Return the looks at one of these things that found one of these."""
    return tuple([one for one in looks(event) if one.what in whats and one.finding in findings])


def places_found(event: Event, whats: Container[str], *findings: DetailWord) -> tuple[str, ...]:
    """Return where a look at one of these things found one of these, each part once; "" is all."""
    found = looks_found(event, whats, *findings)
    return tuple(dict.fromkeys(part for look in found for part in look.parts or ("",)))


def found_on(event: Event, what: str, part: str) -> str:
    """Return what a look found on one part, or else on all; "" where it found nothing there."""
    seen = looks_meant(event, what)
    there = [look for look in seen if part in look.parts]
    return next((look.finding for look in there or seen if there or not look.parts), "")
