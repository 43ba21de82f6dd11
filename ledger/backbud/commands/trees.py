"""`backbud trees`: the trees as a list, to be sorted and narrowed down."""

from __future__ import annotations

from argparse import Namespace
from typing import TYPE_CHECKING

from backbud.commands.answers import print_json
from backbud.commands.journal import journal_options, session_of, status_of
from backbud.commands.parser import ArgumentParser
from backbud.commands.status import Misuse
from backbud.say import say
from backbud.tongue import in_english

if TYPE_CHECKING:
    from backbud.collection.state import Tree
    from backbud.session import Session

SORTS = ("wire", "guy", "wrap", "tie", "mesh", "protection", "guard", "shade", "layer", "graft")
ORDERS = ("handle", "kind", "place", "owner", "since", "last")


def add_options(parser: ArgumentParser) -> None:
    """Which trees, in which order; the journal and the day."""
    add = parser.add_argument
    add("--in", dest="place", metavar="PLACE", help="those in a place, and in places within it")
    add("--of", dest="person", metavar="PERSON", help="those of a person")
    add("--kind", metavar="WORDS", help="those of a kind, by whole words of its name: maple")
    add("--with", dest="thing", choices=SORTS, help="those that have it on them or in their pot")
    add("--gone", action="store_true", help="also those that left, died or were lost")
    add("--by", choices=ORDERS, default="handle", help="the order (default: handle)")
    journal_options(parser)


def run(options: Namespace) -> int:
    """Print the trees."""
    from backbud.collection.fold import tree_on
    from backbud.lists_report import trees_lines
    from backbud.views.listed import tree_rows

    session = session_of(options)
    histories, things = session.histories, session.journal.things
    trees = [tree_on(histories, things, handle, session.today) for handle in histories.trees]
    rows = tree_rows(asked_for_trees(session, trees, options), session.names(), options.by)
    if options.json:
        print_json(rows)
    else:
        say(*in_english(lambda: trees_lines(rows)))
    return status_of(session)


def asked_for_trees(session: Session, trees: list[Tree], options: Namespace) -> list[Tree]:
    """The trees that the options ask for; Misuse, with the nearest, for a name of nobody."""
    from backbud.collection.here import has_kind
    from backbud.collection.places import places_inside
    from backbud.plan.money_lines import keeper_of

    found = [tree for tree in trees if tree.here or (options.gone and tree.standing != "not yet")]
    if options.place:
        place = _handle(session, options.place, "place")
        inside = places_inside(session.journal.things).get(place, frozenset({place}))
        found = [tree for tree in found if tree.place in inside]
    if options.person:
        person = _handle(session, options.person, "person")
        # The keeper's own trees have no owner.
        owners = (person, "") if person == keeper_of(session.journal) else (person,)
        found = [tree for tree in found if tree.owner in owners]
    if options.kind:
        found = [tree for tree in found if has_kind(tree.kind, options.kind)]
    if options.thing:
        found = [tree for tree in found if tree.on(options.thing)]
    return found


def _handle(session: Session, written: str, kind: str) -> str:
    things = session.journal.things
    thing = things.find(written)
    if thing is None or thing.kind != kind:
        raise Misuse(f"no {kind} is called “{written}”. {things.nearest(written, kind)}".rstrip())
    return thing.handle
