"""`backbud nightly`: fetch the forecast, make, publish, and say in one line what changed."""

from __future__ import annotations

import os
from argparse import Namespace
from datetime import datetime

from backbud.commands.answers import print_json
from backbud.commands.journal import folder_of, folder_option, json_option
from backbud.commands.parser import ArgumentParser
from backbud.commands.status import FAILED, FINE, PROBLEMS
from backbud.say import say, warn


def add_options(parser: ArgumentParser) -> None:
    """The journal; whether a young run is enough; how to set it up."""
    folder_option(parser)
    json_option(parser)
    parser.add_argument(
        "--if-older",
        type=float,
        default=0.0,
        metavar="HOURS",
        help="do nothing where the last whole run is younger",
    )
    parser.add_argument(
        "--install-help",
        action="store_true",
        help="print what sets it up: systemd, launchd, Windows, cron",
    )


def run(options: Namespace) -> int:
    """Run, tell, and keep the line in the log."""
    folder = folder_of(options.folder)
    if options.install_help:
        from backbud.nightly.setting_up import help_text

        say(*(line for text in help_text(folder) for line in text.rstrip("\n").split("\n")))
        return FINE
    from backbud.nightly import log
    from backbud.nightly.run import run as run_night

    now = datetime.now().astimezone()
    night = run_night(folder, now, os.environ, options.if_older)
    if night.ran:
        log.add_to_log(folder, now, night.line, night.whole)
    if options.json:
        print_json(night)
    else:
        (say if night.whole else warn)(night.line)
    if not night.whole:
        return FAILED
    return PROBLEMS if night.problems else FINE
