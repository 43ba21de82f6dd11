"""`backbud reckon`: a sum of the bench, with no journal at all."""

from __future__ import annotations

from argparse import Namespace

from backbud.commands.answers import print_json
from backbud.commands.parser import ArgumentParser
from backbud.commands.reckon.sheet import json_of, lines_of
from backbud.commands.reckon.sums import add_sums, reckon
from backbud.commands.status import FINE, MISUSE, Misuse
from backbud.say import say


def add_options(parser: ArgumentParser) -> None:
    """The sums, each with options of its own."""
    add_sums(parser)
    parser.set_defaults(usage=parser.format_help)


def run(options: Namespace) -> int:
    """Do the sum that was asked for; where none was, list them."""
    if not hasattr(options, "sum"):
        say(*options.usage().splitlines())
        return MISUSE
    try:
        sheet = reckon(options)
    except ValueError as error:
        raise Misuse(str(error)) from None
    if options.json:
        print_json(json_of(sheet))
    else:
        say(*lines_of(sheet))
    return FINE
