"""`backbud jot`: put what was done on today's page of the diary, and say how it was read."""

from __future__ import annotations

import sys
from argparse import Namespace
from datetime import date
from typing import TYPE_CHECKING

from backbud.commands.answers import print_json
from backbud.commands.journal import day_of, day_option, folder_of, json_option
from backbud.commands.parser import ArgumentParser
from backbud.commands.status import FINE, PROBLEMS, Failed, Misuse
from backbud.say import ask_line, can_ask, say
from backbud.tongue import in_english

if TYPE_CHECKING:
    from backbud.jot.line import JottedLine
    from backbud.jot.reading import AsRead
    from backbud.jot.write import PutDown
    from backbud.session import Session
    from backbud.views.jotted import JottingView

# More lines than this are no jotting.
MOST_LINES = 1000


def add_options(parser: ArgumentParser) -> None:
    """The lines, the journal, the day of the page."""
    about = "whose and what: “hoshi watered”; without any, each line of standard input is one"
    parser.add_argument("lines", nargs="*", metavar="LINE", help=about)
    parser.add_argument(
        "--journal",
        dest="folder",
        metavar="FOLDER",
        default="",
        help="the journal (default: the one this folder is in)",
    )
    day_option(parser, "the day of the page (default: today)")
    json_option(parser)


def run(options: Namespace) -> int:
    """Write the lines into the diary and tell how each reads; words that are not understood are
    kept as well."""
    from backbud.jot.line import JotError
    from backbud.jot.reading import as_read, parted
    from backbud.jot.write import place_in_diary, write_lines
    from backbud.publish.refused import PublishError

    folder = folder_of(options.folder)
    day = _day(options)
    if len(options.lines) > 1 and any(" " not in one.strip() for one in options.lines):
        # A word alone says nothing: the shell parted one line into its words.
        whole = " ".join(options.lines)
        raise Misuse(f'nothing was written: each line stands in quotes: backbud jot "{whole}"')
    texts = options.lines or _of_standard_input()
    session = _opened(folder)
    placing = place_in_diary(day)
    try:
        lines = parted(session, texts, day)
    except JotError as error:
        raise Misuse(f"nothing was written: {error}") from None
    if options.lines and can_ask() and not options.json:
        lines = _asked_back(session, lines, day)
    try:
        session, written = write_lines(session, lines, placing, lambda: _opened(folder))
    except (JotError, PublishError) as error:
        raise Failed(f"nothing was written: {error}") from None
    # As the journal was without them: each is read as it comes to stand.
    reads = as_read(session, lines, day, placing(session))
    if options.json:
        print_json(_view(written, reads))
    else:
        say(*in_english(lambda: _lines(written, reads)))
    return FINE if all(read.is_understood for read in reads) else PROBLEMS


def _opened(folder: str) -> Session:
    from backbud.session import open_session

    return open_session(folder, date.today(), only_check=True)


def _day(options: Namespace) -> date:
    day, _ = day_of(options)
    if day > date.today():
        raise Misuse(
            f"{day} has not come yet. What is still to come is planned: "
            'backbud jot "hoshi planned repot, to 2028-03"'
        )
    return day


def _of_standard_input() -> list[str]:
    """Its lines, but for blank ones."""
    if can_ask():
        say("One act a line (hoshi watered); an empty line ends.")
    lines: list[str] = []
    try:
        for line in sys.stdin:
            if line.strip():
                lines.append(line.rstrip("\r\n"))
            elif can_ask():
                break
            if len(lines) > MOST_LINES:
                raise Misuse(f"these are more than {MOST_LINES} lines; nothing was written")
    except UnicodeDecodeError:
        raise Misuse("standard input is not UTF-8; nothing was written") from None
    if not lines:
        raise Misuse('there is nothing to write. For example: backbud jot "hoshi watered"')
    return lines


def _asked_back(
    session: Session, lines: tuple[JottedLine, ...], day: date
) -> tuple[JottedLine, ...]:
    """The lines, each worded anew by whoever is at the terminal where it was not understood."""
    from backbud.jot.line import JotError
    from backbud.jot.reading import as_read, parted
    from backbud.jot.write import place_in_diary

    place = place_in_diary(day)(session)
    out: list[JottedLine] = []
    for line in lines:
        while True:
            *_, read = as_read(session, (*out, line), day, place)
            if read.is_understood:
                break
            say(f"{line.subjects} {line.act}".rstrip(), *_asks(read))
            again = ask_line("In other words (Enter: keep them as they are): ")
            if not again:
                break
            try:
                (line,) = parted(session, [again], day)
            except JotError as error:
                say(f"  {error}")
        out.append(line)
    return tuple(out)


# ------------------------------------------------------------------ what is said


def _lines(written: PutDown, reads: tuple[AsRead, ...]) -> list[str]:
    new = "a new file, " if written.new_file else "a new page, " if written.new_page else ""
    out = [f"{written.file}, {new}{written.day}:", *(f"  {line}" for line in written.lines)]
    for read in reads:
        out += ["", *_how(read)]
    return out


def _how(read: AsRead) -> list[str]:
    """How one line was read."""
    from backbud.words import number

    whose = read.subjects
    if read.trees and [whose.casefold()] != [tree.casefold() for tree in read.trees]:
        some = ", ".join(read.trees[:12]) + (" …" if len(read.trees) > 12 else "")
        whose = f"{whose} ({number(len(read.trees), 'tree')}: {some})"
    if read.act:
        out = [f"{whose}: {'; '.join((read.act, *read.details))}"]
        if read.remark:
            out.append(f"  remark  {read.remark}")
        out += [f"  kept as words  {words}" for words in read.kept]
    else:
        out = [f"{whose}: nothing is done by this line; its words are kept"]
    return [*out, *_asks(read)]


def _asks(read: AsRead) -> list[str]:
    return [
        f"  ? {f'{ask.elsewhere}: ' if ask.elsewhere else ''}{'. '.join((ask.message, ask.hint))}"
        if ask.hint
        else f"  ? {ask.message}"
        for ask in read.asks
    ]


def _view(written: PutDown, reads: tuple[AsRead, ...]) -> JottingView:
    from backbud.views.jotted import AskView, JottedView, JottingView

    lines = tuple(
        JottedView(
            read.subjects,
            read.act_line,
            read.trees,
            read.act,
            read.details,
            read.kept,
            read.remark,
            tuple(AskView(ask.message, ask.hint, ask.elsewhere) for ask in read.asks),
        )
        for read in reads
    )
    return JottingView(
        written.file, written.day, written.new_page, written.new_file, written.lines, lines
    )
