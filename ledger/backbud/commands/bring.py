"""`backbud bring`: bring a list from a spreadsheet, or a calendar of past work, in."""

from __future__ import annotations

import os
from argparse import Namespace
from datetime import date
from typing import TYPE_CHECKING

from backbud.commands.answers import print_json
from backbud.commands.journal import folder_of, json_option
from backbud.commands.parser import ArgumentParser
from backbud.commands.status import FINE, PROBLEMS, Failed, Misuse
from backbud.say import say, tell_progress

if TYPE_CHECKING:
    from backbud.bring.answers_given import BringAnswers
    from backbud.bring.run import Brought

_DATES = "day-first, month-first, year-first, serial-1900, serial-1904"


def add_options(parser: ArgumentParser) -> None:
    """The list, the journal, what answers its questions; whether anything is written."""
    parser.add_argument(
        "list",
        metavar="FILE",
        help="CSV, XLSX, ODS or a calendar file (.ics). Without --write it is only shown what it "
        "would become; no file that is there is ever changed",
    )
    parser.add_argument(
        "--journal",
        dest="folder",
        metavar="FOLDER",
        default="",
        help="the journal (default: the one this folder is in)",
    )
    parser.add_argument(
        "--write",
        action="store_true",
        help="write the new cards and days to a new file in brought/, and keep the mapping",
    )
    parser.add_argument(
        "--map",
        action="store_true",
        help="keep only the mapping, in brought/, to edit what the columns mean",
    )
    parser.add_argument(
        "--rows", default="", metavar="SORT", help="what a row is: works, trees, pots, places …"
    )
    parser.add_argument(
        "--heading", type=int, default=0, metavar="ROW", help="the row that the headings stand in"
    )
    parser.add_argument(
        "--sheet", default="", metavar="NAME", help="the sheet that is meant by these"
    )
    parser.add_argument(
        "--dates", action="append", default=[], metavar="ORDER", help=f"how dates stand: {_DATES}"
    )
    parser.add_argument("--encoding", default="", metavar="NAME", help="the letters of plain text")
    parser.add_argument(
        "--separator", default="", metavar="SIGN", help="comma, semicolon, tab or bar"
    )
    json_option(parser)


def run(options: Namespace) -> int:
    """Show what the list becomes; write it where that was said and nothing is open."""
    from backbud.bring.put_down import NotPutDownError, kept_mapping, put_brought, put_mapping
    from backbud.bring.sheet import BringError
    from backbud.bring.told_of import brought_lines, view_of

    answers, folder = _answers(options), folder_of(options.folder)
    name = os.path.basename(options.list)
    try:
        brought = _brought(folder, options.list, answers)
        is_written = False
        if options.map and kept_mapping(folder, name) is None:
            put_mapping(folder, brought.mapping)
        elif options.write and brought.checked is not None:
            brought = put_brought(folder, brought, lambda: _brought(folder, options.list, answers))
            is_written = brought.checked is not None
        is_kept = kept_mapping(folder, name) is not None
    except NotPutDownError as error:
        raise Failed(str(error)) from None
    except BringError as error:
        raise Misuse(f"{name}: {error}") from None
    finally:
        tell_progress("")
    view = view_of(brought, is_kept, is_written)
    if options.json:
        print_json(view)
    else:
        say(*brought_lines(view))
        say(f"The mapping {'is kept' if is_kept else 'would be kept'} in {view.mapping}.")
    return PROBLEMS if view.asks or view.not_read else FINE


def _brought(folder: str, path: str, answers: BringAnswers) -> Brought:
    from backbud.bring.mapping import read_mapping
    from backbud.bring.opened import read_list
    from backbud.bring.put_down import kept_mapping
    from backbud.bring.run import bring
    from backbud.bring.where import mapping_name
    from backbud.session import open_session

    tell_progress(f"reading {os.path.basename(path)}")
    data, kept = read_list(path), kept_mapping(folder, path)
    session = open_session(folder, date.today(), only_check=True, keeps=False)
    mapping = None
    if kept is not None:
        mapping = read_mapping(kept, mapping_name(path), frozenset(session.journal.acts))
    return bring(session, path, data, mapping, answers)


def _answers(options: Namespace) -> BringAnswers:
    from backbud.bring.answers_given import BringAnswers
    from backbud.bring.days import DATE_ANSWERS
    from backbud.bring.text_table import ENCODINGS, SEPARATORS
    from backbud.bring.wordings import ROWS

    asked = {
        "rows": ([options.rows], ROWS),
        "dates": (options.dates, DATE_ANSWERS),
        "encoding": ([options.encoding], ENCODINGS),
        "separator": ([options.separator], tuple(SEPARATORS)),
    }
    for option, (said, known) in asked.items():
        for one in said:
            if one not in ("", *known):
                raise Misuse(f"--{option}: no “{one}”. It is one of {', '.join(known)}")
    if options.write and options.map:
        raise Misuse("--write keeps the mapping, too; say one of --write and --map")
    return BringAnswers(
        options.rows,
        options.heading,
        tuple(options.dates),
        options.encoding,
        options.separator,
        options.sheet,
    )
