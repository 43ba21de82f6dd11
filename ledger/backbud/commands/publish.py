"""`backbud publish`: compile the journal and write its feeds to a CalDAV server."""

from __future__ import annotations

import os
from argparse import Namespace
from collections.abc import Sequence
from datetime import date

from backbud.commands.answers import agreed_to, print_json, tell_refused
from backbud.commands.journal import folder_of, folder_option, json_option
from backbud.commands.parser import ArgumentParser
from backbud.commands.status import FINE, PROBLEMS, Misuse, unpublished
from backbud.say import say, tell_progress, warn


def server_option(parser: ArgumentParser) -> None:
    """Let the server be named."""
    parser.add_argument("--to", metavar="URL", default="", help="the server's address")


def add_options(parser: ArgumentParser) -> None:
    """The journal and the server; what is agreed to beforehand."""
    folder_option(parser)
    json_option(parser)
    server_option(parser)
    parser.add_argument("--yes", action="store_true", help="answer yes to what is asked")
    parser.add_argument(
        "--adopt",
        action="store_true",
        help="take over entries of this journal that another machine wrote",
    )


def run(options: Namespace) -> int:
    """Publish, and tell what was written on the server."""
    from backbud.publish.refused import PublishError
    from backbud.subscribe.errors import NotAgreed, SubscribeError
    from backbud.subscribe.publish import publish_feeds
    from backbud.whole import Broken

    def agree(lines: Sequence[str], question: str) -> bool:
        warn(*lines)
        return options.yes or agreed_to(question, "--yes does it all the same.", options.json)

    folder = folder_of(options.folder)
    try:
        published = publish_feeds(
            folder,
            date.today(),
            options.to,
            os.environ,
            tell_progress,
            ask=agree,
            adopt=options.adopt,
        )
    except Broken as error:
        return tell_refused(error)
    except NotAgreed as error:
        warn(f"backbud: {error}")
        return PROBLEMS
    except SubscribeError as error:
        raise Misuse(str(error)) from None
    except PublishError as error:
        raise unpublished(error) from None
    if options.json:
        print_json(published.view)
    else:
        say(*published.lines())
    if published.problems:
        warn("There are problems in the journal; backbud check shows them.")
    return PROBLEMS if published.problems or not published.is_whole else FINE
