"""An act goes in; the kind of work it belongs to comes out, for the feed of that kind."""

from __future__ import annotations

from typing import NamedTuple


class Work(NamedTuple):
    """A kind of work: the name of its feed, how a person calls it, and its acts (past form)."""

    name: str
    title: str
    acts: frozenset[str]


def _work(name: str, title: str, acts: str) -> Work:
    return Work(name, title, frozenset(acts.split()))


# Every act of the language stands in one of these; what a plugin adds is other work.
WORKS: tuple[Work, ...] = (
    _work(
        "roots",
        "Root work",
        "repotted potted-on slipped lifted root-pruned opened top-dressed tied untied",
    ),
    _work(
        "branches",
        "Branches and leaves",
        "pruned trimmed pinched decandled plucked defoliated disbudded deadheaded "
        "rubbed thinned sealed notched styled refronted",
    ),
    _work("wire", "Wire and guys", "wired unwired guyed unguyed bent wrapped unwrapped"),
    _work("deadwood", "Deadwood", "carved treated-deadwood"),
    _work("feed", "Feed", "fed"),
    _work("water", "Water", "watered misted soaked flushed"),
    _work("watch", "Watch", "checked noted private measured staged vigour drained photographed"),
    _work(
        "shelter",
        "Places and shelter",
        "moved turned shaded unshaded planted-out protected unprotected ventilated",
    ),
    _work("health", "Pests and hygiene", "weeded cleaned treated quarantined released"),
    _work(
        "propagation",
        "New trees",
        "sown struck grafted layered separated germinated rooted bloomed fruited",
    ),
    _work(
        "business",
        "Coming and going",
        "received bought collected sold lent returned died lost shown valued quoted agreed worked "
        "used counted ready billed paid priced",
    ),
    _work("planning", "Plans", "planned skipped put-off corrected"),
)
OTHER = Work("other", "Other work", frozenset())

_OF_ACT = {act: work for work in WORKS for act in work.acts}


def work_of(act: str) -> Work:
    """The kind of work of an act in its past form."""
    return _OF_ACT.get(act, OTHER)
