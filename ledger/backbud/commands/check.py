"""`backbud check`: every problem of the journal, and what was done out of its time."""

from __future__ import annotations

from argparse import Namespace
from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from backbud.commands.answers import print_json
from backbud.commands.journal import journal_options, session_of
from backbud.commands.parser import ArgumentParser
from backbud.commands.status import FINE, PROBLEMS
from backbud.say import Heading, say, say_problem
from backbud.tongue import in_english

if TYPE_CHECKING:
    from backbud.plan.judged_at_once import CautionsTold
    from backbud.session import Session
    from backbud_grammar.problems import Problem

# More lines than this are no list that anybody reads.
MOST_SHOWN = 20


def add_options(parser: ArgumentParser) -> None:
    """The journal and the day."""
    journal_options(parser)


def run(options: Namespace) -> int:
    """Print the problems and how much was read."""
    session = session_of(options, only_check=True)
    try:
        return _checked(session, as_json=options.json)
    finally:
        if session.ahead is not None:
            session.ahead.end()


def _checked(session: Session, *, as_json: bool) -> int:
    # Before its problems: a rule that fails for a tree is one.
    told = None if as_json else session.cautions
    problems, kept = session.problems(), session.words_kept()
    if as_json:
        from backbud.views.problem import problem_view

        in_order = sorted((*problems, *kept), key=lambda one: (one.file, one.line, one.column))
        print_json(tuple(map(problem_view, in_order)))
        return PROBLEMS if problems else FINE
    for problem in problems:
        say_problem(problem)
    if kept:
        say(*([""] if problems else []), *_words_kept(kept))
    if not problems:
        say(*([""] if kept else []), *in_english(lambda: [f"No problems. {session.summary()}"]))
    else:
        from backbud.words import number

        def ending() -> list[str]:
            files = number(len({problem.file for problem in problems}), "file")
            return ["", f"{number(len(problems), 'problem')} in {files}. {session.summary()}"]

        say(*in_english(ending))
    say(*in_english(lambda: _newer_language(session)))
    say(*in_english(lambda: _own_words(session, (*problems, *kept))))
    if told is not None:
        say(*in_english(lambda: _cautions(told)))
    return PROBLEMS if problems else FINE


def _words_kept(kept: Sequence[Problem]) -> Iterator[str]:
    """What was kept as words, a line for each, below one heading."""
    yield Heading(f"Words kept, and not used ({len(kept)})")
    for one in kept:
        yield f"  {one.file}:{one.line}: {one.source.strip()}"
        if one.code != "unread-line":
            yield f"      {one.message}"
        elif one.hint:
            yield f"      {one.hint}"


def _newer_language(session: Session) -> Iterator[str]:
    """The past lines that a newer language would read otherwise, until the keeper says when."""
    from backbud_grammar.languages import LANGUAGE

    journal = session.journal
    past = journal.language_past
    if not journal.settings.languages.is_open(LANGUAGE):
        return
    from backbud.words import number

    yield ""
    yield (
        f"This version reads language {LANGUAGE}; this journal is read by language"
        f" {journal.settings.languages.first}, as before. {number(len(past), 'line')} would be"
        " read otherwise, and nothing of that is done."
    )
    for line in past[:MOST_SHOWN]:
        yield f"  {line.at}: {line.written}  →  {line.as_read}"
    if len(past) > MOST_SHOWN:
        yield f"  and {len(past) - MOST_SHOWN} more"
    yield (
        f"In backbud.toml, “languages = {{ {LANGUAGE} = {session.today} }}” reads what you write"
        f" from today on so, “language = {LANGUAGE}” all that was written."
    )


def _own_words(session: Session, unread: tuple[Problem, ...]) -> Iterator[str]:
    """The past lines that wait for a yes to the keeper's own words, and words that may be such."""
    past = session.journal.own_past
    if past:
        from backbud.words import number

        yield ""
        yield (
            f"{number(len(past), 'line')} from before the day of your own words would be read "
            "otherwise, and nothing of that is done: “past yes” below that “since” reads them so, "
            "“past no” leaves them."
        )
        for line in past[:MOST_SHOWN]:
            yield f"  {line.at}: {line.written}  →  {line.as_read}"
        if len(past) > MOST_SHOWN:
            yield f"  and {len(past) - MOST_SHOWN} more"
    if not unread:
        return
    from backbud.journal.own_past import marked_unread, returning

    journal = session.journal
    found = returning(marked_unread(unread), journal.acts, journal.things, journal.own_words)
    if found:
        yield ""
        yield "Words that return and that nobody here knows. If they are yours, say what they mean:"
        yield "  words"
        yield f"    since  {session.today}"
        for one in found[:MOST_SHOWN]:
            where = f"# {one.times} lines, {one.first} to {one.last}"
            yield f"    {where}"
            yield f"    {one.word}  WHAT IT MEANS"


def _cautions(told: CautionsTold) -> Iterator[str]:
    """What was done or is planned out of its time; no problem of the journal, but of the tree."""
    if told.cautions:
        yield ""
        yield Heading(f"Take care ({len(told.cautions)})")
    for caution in told.cautions:
        at = f" ({caution.origin})" if caution.origin else ""
        yield f"  {caution.tree}: {caution.text}{at}"
    if told.not_judged:
        from backbud.words import number

        yield ""
        yield (
            f"{number(told.not_judged, 'work')} of the last 400 days may be out of time and not"
            " judged yet: that takes backbud due, or backbud make."
        )
