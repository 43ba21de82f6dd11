"""The words of a command line go in; what they ask for is done, and an exit status comes out.

0 fine, 1 problems in the journal, 2 misuse, 3 not done to the end. Heavy libraries are imported
where they are used.
"""

from __future__ import annotations

import os
import sys
from argparse import Namespace
from collections.abc import Sequence
from datetime import date, timedelta
from typing import TYPE_CHECKING

from backbud.options import ArgumentParser
from backbud.say import (
    CannotSay,
    ask,
    can_ask,
    say,
    say_json,
    say_problem,
    tell_progress,
    warn,
    warn_problem,
)

if TYPE_CHECKING:
    from backbud.plan.followups import FollowUp
    from backbud.plan.run import Plan
    from backbud.plan.stores import Stores
    from backbud.publish.commit import PublishError
    from backbud.session import Session
    from backbud.whole import Broken

FINE, PROBLEMS, MISUSE, FAILED = 0, 1, 2, 3
# More than a screenful helps nobody who only wanted to compile.
SHOWN_BY_MAKE = 20


class Misuse(Exception):
    """The command cannot be carried out as it was given; the sentence says why."""


class Failed(Exception):
    """The command was understood and could not be carried through; the sentence says why."""


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command and return its exit status."""
    words = sys.argv[1:] if arguments is None else list(arguments)
    parser = _parser(words)
    options = parser.parse_args(words)
    if not hasattr(options, "run"):
        parser.print_help()
        return MISUSE
    import gc

    # A run builds many small values and ends; collecting cycles in between only costs time.
    gc.disable()
    try:
        status: int = options.run(options)
    except Misuse as error:
        warn(f"backbud: {error}")
        return MISUSE
    except (CannotSay, Failed) as error:
        warn(f"backbud: {error}")
        return FAILED
    except BrokenPipeError:
        # The reader of our output went away, as `head` does.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return FINE
    except KeyboardInterrupt:
        return 130
    except OSError as error:
        what = f"{error.filename}: " if error.filename else ""
        warn(f"backbud: {what}{error.strerror or error}. {_left(options)}.")
        return FAILED
    except Exception as error:
        from backbud.fault_report import last_word

        warn(f"backbud was stopped by {last_word(_journal_of(options), error, _left(options))}")
        return FAILED
    return status


# Commands that write what a person wrote; each file of it at once, whole.
_WRITING = ("_begin", "_tidy", "_collect")


def _left(options: Namespace) -> str:
    """What became of the journal in a run that failed."""
    from backbud.fault_report import UNCHANGED

    if options.run.__name__ in _WRITING:
        return "No file of the journal is half written"
    return UNCHANGED


def _journal_of(options: Namespace) -> str:
    """The journal's folder, where it can be told; else ""."""
    try:
        return _folder(getattr(options, "folder", ""))
    except (Misuse, OSError):
        return ""


def _parser(words: Sequence[str]) -> ArgumentParser:
    parser = ArgumentParser(
        prog="backbud",
        description="Compiles a plain-text care journal about bonsai into a calendar and pages.",
    )
    from backbud import __version__

    parser.add_argument("--version", action="version", version=f"backbud {__version__}")
    # With its name given, argparse needs not find out the width of the screen for it.
    commands = parser.add_subparsers(title="commands", metavar="COMMAND", prog="backbud")

    def command(name: str, run: object, about: str) -> ArgumentParser:
        sub = commands.add_parser(name, help=about, description=about)
        sub.set_defaults(run=run)
        return sub

    def journal(sub: ArgumentParser, *, day: bool = True, json: bool = True) -> ArgumentParser:
        sub.add_argument(
            "folder",
            nargs="?",
            default="",
            metavar="FOLDER",
            help="the journal (default: the one this folder is in)",
        )
        if day:
            sub.add_argument(
                "--on",
                metavar="DATE",
                default="",
                help="look at the journal as it was on this day (2027-03-06)",
            )
        if json:
            sub.add_argument("--json", action="store_true", help="print JSON for a program")
        return sub

    begin = command("begin", _begin, "start a journal in a new folder")
    begin.add_argument("folder", metavar="FOLDER")
    journal(command("check", _check, "print every problem of the journal"))
    make = command("make", _make, "compile the journal into calendars and pages (made/)")
    make.add_argument(
        "--take-over",
        action="store_true",
        help="move aside a made/ that is not of your making, and make it anew",
    )
    journal(make)
    watch = command("watch", _watch, "keep the pages up to date while you write, and serve them")
    watch.add_argument("--port", type=int, metavar="N", help="where they are served (8642)")
    watch.add_argument(
        "--on-lan",
        action="store_true",
        help="for others in the house too, under a path that nobody can guess",
    )
    journal(watch, day=False, json=False)
    due = journal(command("due", _due, "what wants doing, soonest first"))
    due.add_argument(
        "--within", metavar="DAYS", default="42d", help="how far ahead: 14d or 6w (default: 6w)"
    )
    due.add_argument("--tree", metavar="HANDLE", default="", help="only this tree")
    tree = command("tree", _tree, "a tree: what it is, what is on it, what was done, what is due")
    tree.add_argument("handle", metavar="HANDLE")
    journal(tree)
    why = command("why", _why, "why something is due: the chain of reasons")
    why.add_argument(
        "id", metavar="ID", help="a follow-up's id, or a part of it; or a tree, for all that it has"
    )
    journal(why)
    reckon = command("reckon", _reckon, "a sum of the bench: pot, mix, wire, feed, roots, water")
    if "reckon" in words[:1]:
        # Its many options are not built for the other commands.
        from backbud.reckon.sums import add_sums

        add_sums(reckon, words[1:2])
        reckon.set_defaults(usage=reckon.format_help)
    for name, run, about in (
        ("publish", _publish, "compile the journal and write its feeds to a CalDAV server"),
        ("collect", _collect, "bring what was ticked off on the server into the diary"),
    ):
        sub = journal(command(name, run, about), day=False)
        sub.add_argument("--to", metavar="URL", default="", help="the server's address")
        if run is _collect:
            sub.add_argument("--yes", action="store_true", help="write the lines without asking")
        else:
            sub.add_argument("--yes", action="store_true", help="answer yes to what is asked")
            sub.add_argument(
                "--adopt",
                action="store_true",
                help="take over entries of this journal that another machine wrote",
            )
    species = command("species", _species, "the species that are known; the year of one of them")
    species.add_argument(
        "words", nargs="*", metavar="NAME", help="any of its names; the journal's folder may follow"
    )
    species.add_argument("--on", metavar="DATE", default="", help="the year that holds this day")
    species.add_argument("--json", action="store_true", help="print JSON for a program")
    trust = command("trust", _trust, "look at the code in a journal's plugins/, and let it run")
    journal(trust, day=False, json=False)
    answer = trust.add_mutually_exclusive_group()
    answer.add_argument(
        "--yes", metavar="DIGEST", default="", help="trust the set with this digest, in a script"
    )
    answer.add_argument("--forget", action="store_true", help="trust nothing of it any more")
    journal(command("stores", _stores, "what is on the shelf, and what to buy for the year ahead"))
    tidy = command("tidy", _tidy, "line up the details in files, changing no meaning")
    tidy.add_argument("files", nargs="+", metavar="FILE")
    return parser


# ------------------------------------------------------------------ what every command needs


def _folder(written: str) -> str:
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


def _day(options: Namespace) -> tuple[date, bool]:
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


def _session(options: Namespace, *, only_check: bool = False) -> Session:
    from backbud.publish.unchanged import left_unfinished
    from backbud.session import open_session

    folder = _folder(options.folder)
    today, asked = _day(options)
    if left_unfinished(folder):
        from backbud.publish.commit import PublishError, finish

        try:
            finish(folder)
        except PublishError as error:
            warn(f"backbud: {error}")
    # It lasts as long as the process: to take a large journal's values apart takes a while.
    _opened[:] = [open_session(folder, today, as_of=asked, only_check=only_check)]
    if _opened[0].plugins.left_out:
        warn(_opened[0].plugins.left_out)
    return _opened[0]


_opened: list[Session] = []


def _status(session: Session) -> int:
    """The exit status, and a word about problems where there are any."""
    count = len(session.problems())
    if count:
        from backbud.words import number

        warn(f"{number(count, 'problem')} in the journal; backbud check shows them.")
    return PROBLEMS if count else FINE


def _print_json(value: object) -> None:
    import json

    say_json(json.dumps(value, ensure_ascii=False, indent=2))


# ------------------------------------------------------------------ the commands


def _begin(options: Namespace) -> int:
    from backbud.begin import begin

    if not options.folder:
        raise Misuse("a journal needs a folder of its own: backbud begin FOLDER")
    try:
        written = begin(options.folder, date.today())
    except FileExistsError as error:
        raise Misuse(
            f"{error.filename or options.folder} is there already; choose a new or empty folder"
        ) from None
    except OSError as error:
        raise Misuse(f"{options.folder} cannot be made: {error.strerror}") from None
    say(
        f"A journal is in {options.folder}:",
        *(f"  {name}" for name in written),
        f"Write in it with any text editor. Then: backbud make {options.folder}",
    )
    return FINE


def _check(options: Namespace) -> int:
    session = _session(options, only_check=True)
    problems = session.problems()
    if options.json:
        _print_json([problem.as_json() for problem in problems])
    elif not problems:
        say(f"No problems. {session.summary()}")
    else:
        from backbud.words import number

        for problem in problems:
            say_problem(problem)
        files = number(len({problem.file for problem in problems}), "file")
        say("", f"{number(len(problems), 'problem')} in {files}. {session.summary()}")
    return PROBLEMS if problems else FINE


def _make(options: Namespace) -> int:
    from backbud.make import make
    from backbud.publish.commit import PublishError
    from backbud.publish.unchanged import made_on, make_arguments
    from backbud.whole import Broken
    from backbud.words import number

    folder = _folder(options.folder)
    today, asked = _day(options)
    try:
        if options.take_over:
            from backbud.publish.aside import take_over

            for sentence in take_over(folder, made_on(today.isoformat(), asked)):
                warn(sentence)
        made = make(
            folder,
            today,
            as_of=asked,
            arguments=make_arguments(asked, options.json),
            json=options.json,
        )
    except Broken as error:
        return _refused(error)
    except PublishError as error:
        raise _unpublished(error) from None
    if not options.json:
        for problem in made.problems[:SHOWN_BY_MAKE]:
            warn_problem(problem)
        if len(made.problems) > SHOWN_BY_MAKE:
            more = number(len(made.problems) - SHOWN_BY_MAKE, "more problem")
            warn(f"… and {more}; backbud check shows all.")
        say(*made.summary.split("\n"))
    else:
        say_json(made.summary)
    return PROBLEMS if made.problems else FINE


def _unpublished(error: PublishError) -> Exception:
    """What a run ends with that could not publish: what is foreign asks for another command."""
    from backbud.publish.commit import ForeignError

    return (Misuse if isinstance(error, ForeignError) else Failed)(str(error))


def _refused(error: Broken) -> int:
    """Say that what was made last stays, since the journal cannot be read as a whole."""
    for problem in error.lost:
        warn_problem(problem)
    warn(f"{error} It was read before, so all stays as it was made last.")
    return PROBLEMS


def _watch(options: Namespace) -> int:
    from backbud.publish.commit import PublishError
    from backbud.serve.watch import PORT, CannotServe, watch

    port = PORT if options.port is None else options.port
    if not 0 <= port <= 65535:
        raise Misuse(f"--port is a number from 0 (any that is free) to 65535, not {port}")
    try:
        watch(_folder(options.folder), port, on_lan=options.on_lan)
    except CannotServe as error:
        raise Misuse(str(error)) from None
    except PublishError as error:
        raise _unpublished(error) from None
    return FINE


def _within(written: str) -> timedelta:
    number, unit = written[:-1], written[-1:]
    days = {"d": 1, "w": 7}.get(unit)
    if days is None:
        number, days = written, 1
    # A number of thousands of digits is no int.
    if not number.isdecimal() or len(number) > 9 or int(number) * days > 36500:
        raise Misuse(f"--within is a number of days or weeks, such as 14d or 6w, not “{written}”")
    return timedelta(days=int(number) * days)


def _due(options: Namespace) -> int:
    within = _within(options.within)
    session = _session(options)
    only = [session.tree_handle(_known_tree(session, options.tree))] if options.tree else None
    plan = session.plan(only)
    today = session.today
    found = sorted(
        (
            f
            for f in plan.all()
            if f.state(today) in ("overdue", "now")
            or (f.state(today) == "coming" and f.window.opens <= today + within)
        ),
        key=lambda f: (f.window.best, f.tree, f.id),
    )
    if options.json:
        _print_json([_as_json(f, today) for f in found])
        return _status(session)
    from backbud.report import due_lines

    say(*due_lines(found, plan.trees, today, within))
    return _status(session)


def _as_json(follow_up: FollowUp, today: date) -> dict[str, object]:
    window = follow_up.window
    return {
        "id": follow_up.id,
        "tree": follow_up.tree,
        "act": follow_up.act,
        "title": follow_up.title,
        "from": window.opens.isoformat(),
        "best": window.best.isoformat(),
        "until": window.closes.isoformat(),
        "state": follow_up.state(today),
        "because": [reason.told for reason in follow_up.because],
        "cautions": list(follow_up.cautions),
        "minutes": follow_up.minutes,
    }


def _known_tree(session: Session, written: str) -> str:
    if not session.tree_handle(written):
        near = session.nearest_tree(written)
        raise Misuse(f"no tree is called “{written}”. {near}".rstrip())
    return written


def _tree(options: Namespace) -> int:
    session = _session(options)
    handle = session.tree_handle(_known_tree(session, options.handle))
    plan = session.plan([handle])
    tree = plan.trees[handle]
    follow_ups = plan.follow_ups[handle]
    if options.json:
        from backbud.report import tree_json

        _print_json(
            {
                **tree_json(tree),
                "due": [_as_json(f, session.today) for f in follow_ups if f.is_open(session.today)],
            }
        )
    else:
        from backbud.report import tree_lines

        say(*tree_lines(tree, plan.species[handle], follow_ups, session.today, session.names()))
    return _status(session)


def _why(options: Namespace) -> int:
    session = _session(options)
    named = session.tree_handle(options.id)
    handle = named or session.tree_of_id(options.id)
    plan = session.plan([handle] if handle else None)
    if named:
        return _why_tree(options, session, plan, named)
    found = plan.find(options.id)
    if not found:
        raise Misuse(f"nothing due has the id “{options.id}”. backbud due --json prints the ids.")
    if len(found) > 1 and not options.json:
        open_ones = [f for f in found if f.outcome == "open"]
        found = open_ones or found
    if options.json:
        _print_json([_as_json(f, session.today) for f in found])
    else:
        from backbud.report import why_lines

        for follow_up in found:
            say(*why_lines(follow_up, plan.trees[follow_up.tree], session.today))
    return _status(session)


def _why_tree(options: Namespace, session: Session, plan: Plan, handle: str) -> int:
    from backbud.report import open_first, why_tree_lines

    found = open_first(plan.follow_ups[handle], session.today)
    if options.json:
        _print_json([_as_json(f, session.today) for f in found])
    else:
        say(*why_tree_lines(found, plan.trees[handle], session.today))
    return _status(session)


def _stores(options: Namespace) -> int:
    from backbud.plan.stores import stores_of
    from backbud.stores_report import stores_json, stores_lines

    session = _session(options)

    def of_plan(plan: Plan) -> Stores:
        return stores_of(session.journal, session.histories_of(plan), plan, session.today)

    stores = session.contained("the stores", session.plan(), of_plan)
    if options.json:
        _print_json(stores_json(stores))
    else:
        say(*stores_lines(stores, session.today.year))
    return _status(session)


def _reckon(options: Namespace) -> int:
    from backbud.reckon.sheet import json_of, lines_of
    from backbud.reckon.sums import reckon

    if not hasattr(options, "sum"):
        say(*options.usage().splitlines())
        return MISUSE
    try:
        sheet = reckon(options)
    except ValueError as error:
        raise Misuse(str(error)) from None
    if options.json:
        _print_json(json_of(sheet))
    else:
        say(*lines_of(sheet))
    return FINE


def _publish(options: Namespace) -> int:
    from backbud.publish.commit import PublishError
    from backbud.subscribe.errors import NotAgreed, SubscribeError
    from backbud.subscribe.publish import publish
    from backbud.whole import Broken

    def agree(lines: Sequence[str], question: str) -> bool:
        warn(*lines)
        return options.yes or _answered(question, "--yes does it all the same.", options.json)

    folder = _folder(options.folder)
    try:
        published = publish(
            folder,
            date.today(),
            options.to,
            os.environ,
            tell_progress,
            ask=agree,
            adopt=options.adopt,
        )
    except Broken as error:
        return _refused(error)
    except NotAgreed as error:
        warn(f"backbud: {error}")
        return PROBLEMS
    except SubscribeError as error:
        raise Misuse(str(error)) from None
    except PublishError as error:
        raise _unpublished(error) from None
    if options.json:
        _print_json(published.as_json())
    else:
        say(*published.lines())
    if published.problems:
        warn("There are problems in the journal; backbud check shows them.")
    return PROBLEMS if published.problems or not published.is_whole else FINE


def _collect(options: Namespace) -> int:
    from backbud.publish.commit import PublishError
    from backbud.subscribe.collect import collect, remember, write
    from backbud.subscribe.errors import SubscribeError

    folder, today = _folder(options.folder), date.today()
    try:
        tell_progress("asking the server")
        collected = collect(folder, today, options.to, os.environ)
        tell_progress("")
        remember(folder, collected.settled)
        if options.json:
            _print_json(collected.as_json())
        else:
            say(*collected.lines())
        if collected.offers and (options.yes or _agreed(options.json)):
            write(folder, today, collected)
            (warn if options.json else say)("Written.")
    except SubscribeError as error:
        raise Misuse(str(error)) from None
    except PublishError as error:
        raise _unpublished(error) from None
    left_out = collected.refused or collected.unmarked or collected.odd
    return PROBLEMS if left_out else FINE


def _agreed(json: bool) -> bool:
    question = "Write these lines into the diary?"
    return _answered(question, "Nothing was written; --yes writes these lines.", json)


def _answered(question: str, without: str, json: bool) -> bool:
    """Ask the person at the terminal; where there is none, nothing is agreed to, and `without` says
    what can be done."""
    if json or not can_ask():
        if not json:
            say(without)
        return False
    return ask(f"{question} [y/N] ") in ("y", "yes")


def _species(options: Namespace) -> int:
    from backbud.kinds.find import NoSuchSpecies, known_here, sheet_here
    from backbud.kinds.json import list_json, sheet_json
    from backbud.kinds.lines import list_lines, sheet_lines

    words = list(options.words)
    # The last word may be the journal: names have several words.
    options.folder = words.pop() if words and os.path.isdir(words[-1]) else ""
    session = _session(options) if options.folder or _has_journal_here() else None
    if not words:
        known = known_here(session)
        if options.json:
            _print_json(list_json(known))
        else:
            say(*list_lines(known))
        return FINE
    try:
        sheet = sheet_here(" ".join(words), session, _day(options)[0])
    except NoSuchSpecies as error:
        raise Misuse(str(error)) from None
    if options.json:
        _print_json(sheet_json(sheet))
    else:
        say(*sheet_lines(sheet))
    return FINE


def _has_journal_here() -> bool:
    from backbud.journal.find import find_journal

    return find_journal(os.getcwd()) is not None


def _trust(options: Namespace) -> int:
    from backbud.trust.ask import NotThese, take_back, trust
    from backbud.trust.record import CannotRecord

    folder = _folder(options.folder)
    try:
        if options.forget:
            take_back(folder)
            return FINE
        return FINE if trust(folder, options.yes) else PROBLEMS
    except (NotThese, CannotRecord) as error:
        raise Misuse(str(error)) from None


def _tidy(options: Namespace) -> int:
    from backbud_grammar.tidy import TidyError, tidy_file

    status = FINE
    for name in options.files:
        try:
            changed = tidy_file(name)
        except OSError as error:
            raise Misuse(f"{name} cannot be tidied: {error.strerror}") from None
        except TidyError as error:
            warn(f"backbud: {name} was left alone: {error}")
            status = PROBLEMS
            continue
        say(f"{name}: {'tidied' if changed else 'was tidy'}")
    return status
