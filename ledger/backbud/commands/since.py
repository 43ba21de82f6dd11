"""`backbud since`: what the diary gained since a revision, and how the plan changed for it."""

from __future__ import annotations

from argparse import Namespace

from backbud.commands.answers import print_json
from backbud.commands.journal import folder_of, journal_options, session_of, status_of
from backbud.commands.parser import ArgumentParser
from backbud.commands.status import Misuse
from backbud.say import say
from backbud.tongue import in_english


def add_options(parser: ArgumentParser) -> None:
    """The revision; the journal and the day."""
    parser.add_argument(
        "revision",
        metavar="REV",
        help="a branch, a tag, HEAD~3, the beginning of a digest; or a day: the last until then",
    )
    journal_options(parser)


def run(options: Namespace) -> int:
    """Print what changed since."""
    from backbud.journal.revision import NoRevision, read_revision
    from backbud.since_report import since_lines, since_revision

    folder = folder_of(options.folder)
    try:
        before = read_revision(folder, options.revision)
    except NoRevision as error:
        raise Misuse(str(error)) from None
    except ModuleNotFoundError:
        raise Misuse("a git repository is read by a library: pip install dulwich") from None
    session = session_of(options)
    found = since_revision(session, before)
    if options.json:
        print_json(found)
    else:
        say(*in_english(lambda: since_lines(found, session.today)))
    return status_of(session)
