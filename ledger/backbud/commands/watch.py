"""`backbud watch`: keep the pages up to date while the keeper writes, and serve them."""

from __future__ import annotations

from argparse import Namespace

from backbud.commands.journal import folder_of, folder_option
from backbud.commands.parser import ArgumentParser
from backbud.commands.status import FINE, Misuse, unpublished
from backbud.say import say


def add_options(parser: ArgumentParser) -> None:
    """The journal; where its pages are served, and to whom."""
    parser.add_argument("--port", type=int, metavar="N", help="where they are served (8642)")
    parser.add_argument(
        "--on-lan",
        action="store_true",
        help="for others in the house too, under a path that nobody can guess",
    )
    parser.add_argument(
        "--jot",
        action="store_true",
        help="with --on-lan: a page to jot on from a phone, paired by a code shown here",
    )
    parser.add_argument(
        "--forget-devices", action="store_true", help="no phone paired before may jot any more"
    )
    folder_option(parser)


def run(options: Namespace) -> int:
    """Watch and serve until the person ends it."""
    from backbud.publish.refused import PublishError
    from backbud.serve.watch import PORT, CannotServe, watch
    from backbud.words import number

    port = PORT if options.port is None else options.port
    if not 0 <= port <= 65535:
        raise Misuse(f"--port is a number from 0 (any that is free) to 65535, not {port}")
    if options.jot and not options.on_lan:
        raise Misuse("--jot is for a phone in the house: backbud watch --on-lan --jot")
    folder = folder_of(options.folder)
    try:
        if options.forget_devices:
            from backbud.serve.pairing import forget_devices

            say(f"Forgotten: {number(forget_devices(folder), 'device')}.")
            if not options.on_lan:
                return FINE
        watch(folder, port, on_lan=options.on_lan, jot=options.jot)
    except CannotServe as error:
        raise Misuse(str(error)) from None
    except PublishError as error:
        raise unpublished(error) from None
    return FINE
