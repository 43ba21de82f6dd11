"""The front door for programs: a journal as it stands on a day, in plain typed values.

Nothing is written into the folder, and nobody's secret is made, unless that is asked for. What
lies in `.backbud/` and `made/` counts only under the person's own mark, code in `plugins/` runs
only where the person has trusted these very bytes, and git is never run: as for every command.
All that is kept outside every journal can be made again: the grammar's ready tables and the
compiled templates of pages, in the person's cache folder.
"""

from __future__ import annotations

import os
from collections.abc import Mapping
from datetime import date
from typing import get_args

from msgspec import Struct

from backbud.collection.state import Tree
from backbud.compiled import Output, compiled
from backbud.journal.events import Event
from backbud.journal.find import NotAJournal, journal_in
from backbud.plan.followups import State
from backbud.session import Session, open_session
from backbud.views.day import all_works
from backbud.views.work import WorkView
from backbud.whole import Broken
from backbud.words import in_words
from backbud_grammar.problems import Problem

__all__ = [
    "Event",
    "Journal",
    "NotAJournal",
    "NotMade",
    "Output",
    "Problem",
    "State",
    "Tree",
    "WorkView",
    "made_of",
    "read",
]

Folder = str | os.PathLike[str]


class Journal(Struct, frozen=True):
    """A journal as it stands on a day, for the keeper's eyes: private notes and prices too.

    `trees`: each as it is on the day `on`, by handle, those that are gone too (`Tree.here`); its
    `history` is what was done to it, with what was corrected later. `events`: every act that was
    read, as it stands in the diary, by its earliest day, file and line. `follow_ups`: what falls
    due, by how it stands on the day (every `State` is a key), the best day first; each has its
    days, its reasons and the minutes it takes, and is what `backbud due --json` prints of it.
    `problems`: as `backbud check` prints them; none of them stops the rest. `left_out`: one line on
    code in `plugins/` that was not run, since nobody vouched for it; "" where there is none.
    """

    folder: str
    name: str
    on: date
    trees: Mapping[str, Tree]
    events: tuple[Event, ...]
    follow_ups: Mapping[State, tuple[WorkView, ...]]
    problems: tuple[Problem, ...]
    left_out: str


class NotMade(Struct, frozen=True):
    """Why nothing was made of a journal: one `sentence` for the person who keeps it.

    `folder`: as it was given. `problems`: every problem of the journal where it was read, but not
    as a whole.
    """

    folder: str
    sentence: str
    problems: tuple[Problem, ...] = ()


def read(folder: Folder, *, on: date, as_of: bool = False, remember: bool = False) -> Journal:
    """Read the journal in a folder (the one that holds `backbud.toml`) as it stands on a day.

    `on`: the day that counts as today. A line dated later changes nothing and is a problem; with
    `as_of` it is left out without a word, as `--on` does. `remember`: what was read is remembered
    in the folder's `.backbud/`, under the person's secret, so that the next time is quicker; else
    nothing is written. Raises NotAJournal where there is no journal or it cannot be read. Whatever
    is wrong in it is among the problems, and never raised.
    """
    try:
        session = open_session(journal_in(os.fspath(folder)), on, as_of=as_of, keeps=remember)
    except OSError as error:
        raise NotAJournal(in_words(error)) from None
    plan = session.plan()
    by_state: dict[State, list[WorkView]] = {state: [] for state in get_args(State)}
    works = all_works(plan, session.names(), on)
    for one in sorted(works, key=lambda one: (one.best, one.tree, one.id)):
        by_state[one.state].append(one)
    return Journal(
        session.journal.folder,
        session.journal.settings.name,
        on,
        plan.trees,
        _events(session),
        {state: tuple(those) for state, those in by_state.items()},
        session.problems(),
        session.plugins.left_out,
    )


def made_of(folder: Folder, day: date) -> Output | NotMade:
    """Compile the journal in a folder: all that `backbud make` would publish on a day, and no more.

    Nothing is written, so the same folder and day give the same bytes, and any pool of processes
    can map it over many journals: function, arguments and result can be pickled. The entries of the
    calendars carry the SEQUENCE and DTSTAMP that this person's last `make` leads to, if there was
    one. What cannot be made is a `NotMade`, whatever the reason, so that the other journals are
    made all the same.
    """
    given = os.fspath(folder)
    try:
        return compiled(open_session(journal_in(given), day, keeps=False)).output
    except NotAJournal as error:
        return NotMade(given, str(error))
    except Broken as error:
        return NotMade(given, str(error), error.problems)
    except Exception as error:
        # The disk, a fault of ours, or of a species that was installed.
        return NotMade(given, in_words(error))


def _events(session: Session) -> tuple[Event, ...]:
    return tuple(
        event for page in session.journal.pages for block in page.blocks for event in block.events
    )
