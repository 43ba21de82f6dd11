"""Finds the tree or the person that a command is asked about."""

from __future__ import annotations

from backbud.commands.status import Misuse
from backbud.journal.things import Thing
from backbud.session import Session
from backbud_grammar.problems import did_you_mean


def known_person(session: Session, written: str) -> Thing:
    """The card of the person that is meant; Misuse, with the nearest, where there is none."""
    things = session.journal.things
    card = things.find(written)
    if card is None or card.kind != "person":
        raise Misuse(
            f"no person is called “{written}”. {things.nearest(written, 'person')}".rstrip()
        )
    return card


def known_tree(session: Session, written: str) -> str:
    """The handle of the tree that is meant; Misuse, with the nearest, where there is none."""
    handle = session.tree_handle(written)
    if not handle:
        near = did_you_mean(written, session.histories.trees)
        raise Misuse(f"no tree is called “{written}”. {near}".rstrip())
    return handle
