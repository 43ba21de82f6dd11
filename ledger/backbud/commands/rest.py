"""`backbud rest`: move whole days of years long past out of the way, into `resting/`."""

from __future__ import annotations

import re
from argparse import Namespace
from collections.abc import Iterator
from datetime import date
from typing import TYPE_CHECKING

from backbud.commands.journal import folder_of, folder_option
from backbud.commands.parser import ArgumentParser
from backbud.commands.status import FINE, Failed, Misuse
from backbud.say import say, warn

if TYPE_CHECKING:
    from backbud.rest.what_rests import RestingFile, WhatRests

# More lines that must be seen to first are no list that anybody reads.
_MOST_SHOWN = 20


def add_options(parser: ArgumentParser) -> None:
    """The year, the journal; whether the files are changed."""
    parser.add_argument("year", metavar="YEAR", help="this year and all before it: 2015")
    folder_option(parser)
    about = "move them; without it, only what would be moved is said"
    parser.add_argument("--write", action="store_true", help=about)


def run(options: Namespace) -> int:
    """Say which pages would rest, and move them where that is asked for."""
    from backbud.rest.move import RestError, put_to_rest
    from backbud.rest.what_rests import what_rests
    from backbud.session import open_session

    year, today, folder = _year(options.year), date.today(), folder_of(options.folder)
    journal = open_session(folder, today, only_check=True).journal
    found = what_rests(journal, year)
    if not found.files:
        say(f"Nothing until the end of {year} is left to rest.")
        return FINE
    if found.in_the_way:
        warn(*_in_the_way(found))
        raise Misuse("nothing was moved; what stands in these lines is to be put right first")
    say(*map(_line, found.files))
    if not options.write:
        say(f"Nothing was written. To move them: backbud rest {year} --write")
        return FINE
    try:
        put_to_rest(journal, today, found.files)
    except RestError as error:
        why = str(error).rstrip(".")
        raise Failed(f"{why}. What is read is as it was; the same command goes on.") from None
    say("They rest now, and are read as before.")
    return FINE


def _year(written: str) -> int:
    if re.fullmatch(r"\d{4}", written) is None:
        raise Misuse(f"“{written}” is no year: backbud rest 2015")
    if int(written) >= date.today().year:
        raise Misuse(f"{written} is not over yet; a year that is past can rest")
    return int(written)


def _in_the_way(found: WhatRests) -> Iterator[str]:
    for one in found.in_the_way[:_MOST_SHOWN]:
        yield str(one)
    if len(found.in_the_way) > _MOST_SHOWN:
        yield f"and {len(found.in_the_way) - _MOST_SHOWN} more"


def _line(one: RestingFile) -> str:
    from backbud.words import number

    pages = number(len(one.pages), "page")
    what = "the whole file" if one.is_whole else f"of {number(len(one.pages) + one.stay, 'page')}"
    there = sum(page.is_there for page in one.pages)
    again = f"; {there} stand there already, and are only taken out here" if there else ""
    return f"  {one.file} → {one.target}  ({pages}, {what}{again})"
