"""`backbud collect`: bring what was ticked off on the server into the diary."""

from __future__ import annotations

import os
from argparse import Namespace
from datetime import date

from backbud.commands.answers import agreed_to, print_json
from backbud.commands.journal import folder_of, folder_option, json_option
from backbud.commands.parser import ArgumentParser
from backbud.commands.publish import server_option
from backbud.commands.status import FINE, PROBLEMS, Misuse, unpublished
from backbud.say import say, tell_progress, warn


def add_options(parser: ArgumentParser) -> None:
    """The journal and the server; whether the lines are written without asking."""
    folder_option(parser)
    json_option(parser)
    server_option(parser)
    parser.add_argument("--yes", action="store_true", help="write the lines without asking")


def run(options: Namespace) -> int:
    """Show the lines that the ticks would make, and write them where the person agrees."""
    from backbud.publish.refused import PublishError
    from backbud.subscribe.collect import collect, remember_ticks, write_offered
    from backbud.subscribe.errors import SubscribeError

    folder, today = folder_of(options.folder), date.today()
    try:
        tell_progress("asking the server")
        collected = collect(folder, today, options.to, os.environ)
        tell_progress("")
        remember_ticks(folder, collected.settled)
        if options.json:
            print_json(collected.view)
        else:
            say(*collected.lines())
        if collected.offers and (options.yes or _agreed(options.json)):
            write_offered(folder, today, collected)
            (warn if options.json else say)("Written.")
    except SubscribeError as error:
        raise Misuse(str(error)) from None
    except PublishError as error:
        raise unpublished(error) from None
    left_out = collected.refused or collected.unmarked or collected.odd
    return PROBLEMS if left_out else FINE


def _agreed(json: bool) -> bool:
    question = "Write these lines into the diary?"
    return agreed_to(question, "Nothing was written; --yes writes these lines.", json)
