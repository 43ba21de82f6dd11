"""Which journal a command is about and the day it looks from: the options, and what they mean."""

from __future__ import annotations

import os
from argparse import Namespace
from datetime import date
from typing import TYPE_CHECKING

from backbud.commands.status import FINE, PROBLEMS, Misuse
from backbud.say import warn

if TYPE_CHECKING:
    from backbud.commands.parser import ArgumentParser
    from backbud.session import Session


def folder_option(parser: ArgumentParser) -> None:
    """Let the journal's folder be named."""
    parser.add_argument(
        "folder",
        nargs="?",
        default="",
        metavar="FOLDER",
        help="the journal (default: the one this folder is in)",
    )


def day_option(
    parser: ArgumentParser, about: str = "look at the journal as it was on this day (2027-03-06)"
) -> None:
    """Let the day be named from which the command looks."""
    parser.add_argument("--on", metavar="DATE", default="", help=about)


def json_option(parser: ArgumentParser) -> None:
    """Let the command answer a program."""
    parser.add_argument("--json", action="store_true", help="print JSON for a program")


def journal_options(parser: ArgumentParser) -> None:
    """What nearly every command takes: the folder, the day, JSON."""
    folder_option(parser)
    day_option(parser)
    json_option(parser)


def folder_of(written: str) -> str:
    """The journal in the folder that was named, or that this folder is in; Misuse where none is."""
    from backbud.journal.find import NotAJournal, find_journal, journal_in

    if written:
        try:
            return journal_in(written)
        except NotAJournal as error:
            raise Misuse(f"{error} Start one with: backbud begin {written}") from None
    found = find_journal(os.getcwd())
    if found is None:
        raise Misuse(
            "there is no journal here (no backbud.toml, in this folder or above it). "
            "Start one with: backbud begin FOLDER"
        )
    return found


def day_of(options: Namespace) -> tuple[date, bool]:
    """The day to look from, and whether it was asked for."""
    if not options.on:
        return date.today(), False
    from backbud_grammar.dates import check_reckoned, read_date
    from backbud_grammar.problems import Misread

    try:
        day = read_date(options.on)
        check_reckoned(day.first, options.on)
    except Misread as error:
        raise Misuse(f"--on: {error.message}. {error.hint}") from None
    if not day.exact:
        raise Misuse(f"--on needs one exact day, such as 2027-03-06, not “{options.on}”")
    return day.first, True


def session_of(options: Namespace, *, only_check: bool = False) -> Session:
    """The journal that was asked for, read as it was on the day."""
    from backbud.publish.unchanged import left_unfinished
    from backbud.session import open_session

    folder = folder_of(options.folder)
    today, asked = day_of(options)
    if left_unfinished(folder):
        from backbud.publish.commit import finish
        from backbud.publish.refused import PublishError

        try:
            finish(folder)
        except PublishError as error:
            warn(f"backbud: {error}")
    # It lasts as long as the process: to take a large journal's values apart takes a while.
    _opened[:] = [open_session(folder, today, as_of=asked, only_check=only_check, by_two=True)]
    if _opened[0].plugins.left_out:
        warn(_opened[0].plugins.left_out)
    return _opened[0]


_opened: list[Session] = []


def status_of(session: Session) -> int:
    """The exit status, and a word about problems where there are any."""
    from backbud.words import number

    past = len(session.journal.own_past)
    if past:
        lines = number(past, "earlier line")
        warn(f"{lines} would read otherwise by your own words; backbud check shows them.")
    count = len(session.problems())
    if count:
        warn(f"{number(count, 'problem')} in the journal; backbud check shows them.")
    return PROBLEMS if count else FINE
