"""`backbud data`: give the journal out as SQLite, CSV, JSON and a Darwin Core archive."""

from __future__ import annotations

from argparse import Namespace
from typing import TYPE_CHECKING

from backbud.commands.journal import journal_options, session_of, status_of
from backbud.commands.parser import ArgumentParser
from backbud.commands.status import Failed, Misuse, unpublished
from backbud.say import say, say_json
from backbud.tongue import in_english

if TYPE_CHECKING:
    from backbud.session import Session
    from backbud.views.audience import Eyes


def add_options(parser: ArgumentParser) -> None:
    """For whose eyes; the journal and the day. With --json the dataset is printed, and no file is
    written."""
    parser.add_argument(
        "--for",
        dest="whom",
        metavar="WHOM",
        default="",
        help="as helper, public, or a person with trees may have it (default: you, all of it)",
    )
    journal_options(parser)


def run(options: Namespace) -> int:
    """Write the files, or print the dataset."""
    from backbud.data.files import data_files
    from backbud.given_out import NoNames, dataset_of
    from backbud.publish.commit import publish
    from backbud.publish.refused import PublishError
    from backbud.publish.unchanged import made_on
    from backbud.views.published import as_json
    from backbud.words import number

    session = session_of(options)
    eyes = _eyes(session, options.whom)
    try:
        data = dataset_of(session, eyes)
    except NoNames as error:
        raise Failed(str(error)) from None
    if options.json:
        say_json(as_json(data))
        return status_of(session)
    folder = "data" if eyes.sort == "keeper" else f"data-for-{eyes.person or eyes.sort}"
    into = f"{made_on(session.today.isoformat(), session.as_of)}/{folder}"
    try:
        done = publish(session.journal.folder, data_files(data), made=into)
    except PublishError as error:
        raise unpublished(error) from None
    lines = sum(len(one.history) for one in data.trees)
    count = len(done.written) + done.kept
    say(
        *in_english(
            lambda: [
                f"{into}/: {number(count, 'file')} of {number(len(data.trees), 'tree')} and "
                f"{number(lines, 'line')} of their history."
            ]
        )
    )
    if eyes.sort == "keeper":
        say("All of it is for your own eyes: prices and private notes are in it.")
    return status_of(session)


def _eyes(session: Session, whom: str) -> Eyes:
    """Whose eyes it is for; Misuse, with the nearest, for a name of nobody."""
    from backbud.views.audience import HELPER, KEEPER, PUBLIC, eyes_of

    if whom in ("", "helper", "public"):
        return {"": KEEPER, "helper": HELPER, "public": PUBLIC}[whom]
    card = session.journal.things.find(whom)
    if card is None or card.kind != "person" or card.handle in session.journal.things.hidden:
        near = session.journal.things.nearest(whom, "person")
        raise Misuse(f"no person is called “{whom}”, nor is it helper or public. {near}".rstrip())
    return eyes_of(card.handle)
