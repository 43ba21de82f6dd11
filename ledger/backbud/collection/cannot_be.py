"""Says what cannot have been so, of a line and a tree as it stood just before it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from backbud.collection.batch import Misfit
from backbud.collection.subjects import Whereabouts
from backbud.journal.events import Event
from backbud.journal.problems import PlacedFlaw, flaw_at, line_at
from backbud_grammar.held_back import CHANGES_NOTHING, HELD_CODE


def _told(event: Event, code: str, message: str, hint: str) -> PlacedFlaw:
    return flaw_at(event.origin, code, message, hint, 0, len(event.act))


def taken(event: Event, message: str) -> PlacedFlaw:
    """A new tree cannot have the handle. `message`: why."""
    return _told(event, "bad-handle", message, "Choose another handle for the new tree.")


def pot_taken(event: Event, other: str, pot: str) -> PlacedFlaw:
    """Another tree, of this handle, stands in the pot."""
    message, hint = f"“{other}” stands in “{pot}”", f"Repot {other} first, or name another pot."
    return _told(event, "pot-taken", message, hint)


def here_already(event: Event, tree: Whereabouts, before: str) -> PlacedFlaw:
    """A tree comes that is here. `before`: what was done to it here before."""
    return _told(
        event,
        "here-already",
        f"“{tree.handle}” comes here on {event.when.text}, but was {before}",
        "If it was away in between, write returned or sold before this; else mend the date of "
        "one of the two.",
    )


def not_here(event: Event, tree: Whereabouts) -> PlacedFlaw:
    """A tree is worked on that has not come, or has gone."""
    if tree.standing == "not yet":
        message = f"“{tree.handle}” is not here yet"
        hint = "Its first coming is written later in the diary."
    else:
        message = f"“{tree.handle}” is not here: {tree.standing} on {tree.standing_since}"
        hint = "If it came back, write received first."
    return _told(event, "not-here", message, hint)


def too_early(event: Event, tree: Whereabouts) -> PlacedFlaw:
    """A line is older than the day that the tree's card speaks of."""
    assert tree.since is not None
    return _told(
        event,
        "before-since",
        f"“{tree.handle}” is on its card since {tree.since.text}, after this day",
        "Mend the date here, or “since” on the card.",
    )


def wrong_subject(event: Event, handle: str, kind: str, on: Iterable[str]) -> PlacedFlaw:
    """An act is done to a thing of a kind that it is not done to; `on`: to which it is."""
    message = f"“{handle}” is a {kind}, and “{event.said}” is done to a {' or a '.join(on)}"
    return _told(event, "wrong-subject", message, "")


def nothing_to_correct(event: Event, tree: Whereabouts, *, in_part: bool) -> PlacedFlaw:
    """No line of the tree is the one that is corrected, or more was done there than `in_part`."""
    if in_part:
        return _told(
            event,
            HELD_CODE,
            f"more was {event.named} than {', '.join(event.parts)}, {CHANGES_NOTHING}",
            "Take all of that line back, and write anew what was done.",
        )
    day = event.first("date")
    return _told(
        event,
        "nothing-to-correct",
        f"“{tree.handle}” has no {event.named} on {day.date if day else '?'}",
        "Write it as: corrected repotted 2027-03-06, 1 cm off below",
    )


def wrong_count(
    event: Event, tree: Whereabouts, misfit: Misfit, texts: Mapping[str, bytes]
) -> PlacedFlaw:
    """A line about a batch has a number that cannot be. `texts`: the bytes of each file."""
    line = line_at(event.origin, texts)
    at = line.find(misfit.said, event.column - 1 + len(event.act)) if misfit.said else -1
    return flaw_at(
        event.origin,
        "wrong-count",
        f"“{tree.handle}”: {misfit.message}, {CHANGES_NOTHING}",
        misfit.hint,
        at - event.column + 1 if at >= 0 else 0,
        len(misfit.said) if at >= 0 else len(event.act),
    )


def contradicts_its_coming(tree: Whereabouts, event: Event) -> bool:
    """Whether a line speaks of a tree that comes later, and its card does not say so too."""
    told_on_card = tree.since is not None and event.when.last < tree.since.first
    return tree.standing == "not yet" and not told_on_card
