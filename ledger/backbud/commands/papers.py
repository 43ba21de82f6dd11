"""`backbud papers`: a person's receipts, account of the work, care sheets and provenance."""

from __future__ import annotations

from argparse import Namespace

from backbud.commands.answers import print_json
from backbud.commands.journal import journal_options, session_of, status_of
from backbud.commands.parser import ArgumentParser
from backbud.commands.status import Misuse
from backbud.commands.who_is_meant import known_person, known_tree
from backbud.say import say
from backbud.tongue import in_english

_SORTS = ("receipt", "statement", "care", "provenance")


def add_options(parser: ArgumentParser) -> None:
    """The person; of one tree alone; which papers are kept as issued; the journal and the day."""
    parser.add_argument(
        "person", metavar="PERSON", help="whose; by the short name of the person's card"
    )
    parser.add_argument("--tree", metavar="TREE", default="", help="about this tree alone")
    parser.add_argument(
        "--issue",
        metavar="PAPER",
        choices=(*_SORTS, "all"),
        action="append",
        default=[],
        help="keep this paper as issued, in papers/ with its digest: receipt, statement, care, "
        "provenance, all",
    )
    journal_options(parser)


def run(options: Namespace) -> int:
    """Print what is in the papers, or keep them as issued."""
    from backbud.papers.gather import papers_of
    from backbud.papers_report import issued_lines, papers_lines

    session = session_of(options)
    card = known_person(session, options.person)
    tree = known_tree(session, options.tree) if options.tree else ""
    found = papers_of(session, card.handle, tree)
    if found is None or (found.statement is None and not found.receipts):
        raise Misuse(f"no tree of {card.title} was here{' so called' if tree else ''}.")
    if options.issue:
        from backbud.papers.keep import issue

        sorts = _SORTS if "all" in options.issue else tuple(options.issue)
        kept = issue(session, found, sorts, tree)
        if options.json:
            print_json(kept)
        else:
            say(*in_english(lambda: issued_lines(kept)))
    elif options.json:
        print_json(found)
    else:
        say(*in_english(lambda: papers_lines(found)))
    return status_of(session)
