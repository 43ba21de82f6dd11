"""A journal's folder goes in; calendars and pages are published, and what was done comes out.

The steps, in order:
    read      the journal, its replay and its plan (session.py), as a whole or not at all (whole.py)
    render    pages and feeds, all of them, before anything is written
    publish   the whole set, or nothing (publish/commit.py)
    remember  what it was made from, so that the next run can end at once (publish/unchanged.py)
"""

from __future__ import annotations

import os
import time
from collections import Counter
from collections.abc import Callable, Iterable, Mapping
from datetime import date
from functools import partial
from json import dumps

from msgspec import Struct

from backbud.calendar.feeds import (
    EVERYTHING,
    feeds_of,
    published,
    shown_in_feeds,
    write_feeds,
)
from backbud.calendar.grounds import grounds_of
from backbud.calendar.revisions import Revisions, read_revisions, write_revisions
from backbud.facts import facts_of
from backbud.journal.weather.named import weather_files
from backbud.kept import KEEP_NOTHING, Is, Kept
from backbud.pages.links import tree_page
from backbud.pages.render import no_page, render_pages
from backbud.pages.skies import weather_of
from backbud.pages.view import Nursery, SpeciesFacts
from backbud.plan.followups import FollowUp, State
from backbud.plan.run import Plan
from backbud.plan.stores import stores_of
from backbud.publish import MADE, MEMORY, memory
from backbud.publish.commit import Published, PublishError, Seen, finish, lock, publish
from backbud.publish.manifest import own_digests, read_own
from backbud.publish.unchanged import fingerprint, made_on, remember
from backbud.say import tell_progress
from backbud.session import Session, open_session
from backbud.whole import check_whole, remember_read
from backbud.words import number
from backbud_grammar.problems import Problem, show

REVISIONS = "revisions.json"
# Longer than this, a person at a terminal is told what is going on.
SILENT_SECONDS = 1.0


class Made(Struct, frozen=True):
    """What a run of make did. `summary`: as it is printed, and again when nothing changed.

    `files`: all that is published now, by relative POSIX path.
    """

    written: int
    removed: int
    kept: int
    problems: tuple[Problem, ...]
    summary: str
    files: Mapping[str, bytes]


def make(
    folder: str,
    today: date,
    *,
    as_of: bool = False,
    arguments: str = "make",
    json: bool = False,
    remembered: bool = True,
    look: Callable[[Session], None] | None = None,
    kept: Kept = KEEP_NOTHING,
    when_published: Callable[[Made], None] | None = None,
) -> Made:
    """Compile the journal and publish it whole; PublishError where that cannot be done, Broken
    where a file that was read before gives nothing now.

    `as_of`: look at the journal as it was on the day; that is published in a folder of its own.
    `json`: the summary is JSON. `arguments`: how the run was asked for, so that the same question
    can be answered from memory, unless it is not to be `remembered`. `look`: is shown what was
    read; what it raises ends the run before anything is written. `kept`: what an earlier run of
    this process left. `when_published`: is called once the new pages are there, while the run is
    still being remembered.
    """
    with lock(folder):
        finish(folder)
        into = made_on(today.isoformat(), as_of)
        known = fingerprint(folder, today.isoformat(), arguments) if remembered else ""
        progress = _Progress()
        session = open_session(folder, today, as_of=as_of, kept=kept)
        session.takes_every_step = True
        if look is not None:
            look(session)
        check_whole(session)
        progress.tell("planning")
        plan = session.plan()
        progress.tell("calendars")
        feeds = partial(_feeds, session, folder)
        files, revisions = session.contained("the calendar entries", plan, feeds)
        # First the numbers, then the feeds: a run that dies in between leaves out a number, where
        # it would else give one out twice.
        if not as_of:
            _keep_revisions(session, folder, revisions)
        progress.tell("pages")
        files |= session.contained("the page", plan, partial(_pages, session, kept))
        for handle in plan.trees:
            files.setdefault(tree_page(handle), no_page(plan.trees[handle].title))
        progress.tell("publishing")
        seen = kept.once("published", (), dict[str, Seen])
        published = publish(folder, files, seen, into)
        made = _made(session, plan, os.path.join(folder, into), files, published, json)
        if when_published is not None:
            when_published(made)
        remember_read(session)
        status = 1 if made.problems else 0
        remember(folder, known, made.summary, status, weather_files(session.journal), into)
        session.forget_faults()
        kept.end()
        progress.end()
    return made


def nursery_of(session: Session, plan: Plan) -> Nursery:
    """Everything the pages show, for the keeper's eyes."""
    home = session.journal.things.find(session.journal.settings.home)
    facts = {
        id(found): SpeciesFacts(
            found.title, found.botanical, facts_of(found, session.plugins.facts)
        )
        for found in {id(found): found for found in plan.species.values() if found}.values()
    }
    species = {handle: facts[id(found)] for handle, found in plan.species.items() if found}
    # What fails in them is a problem, so they come before the problems.
    sections = session.sections
    return Nursery(
        session.journal.settings.name,
        session.today,
        home.title if home else "",
        tuple(plan.trees.values()),
        plan.follow_ups,
        session.names(),
        species,
        tuple(show(problem) for problem in session.problems()),
        sections=sections,
        hours_per_week=session.journal.settings.hours_per_week,
        stores=stores_of(
            session.journal, session.histories_of(plan), plan, session.today, session.by_tree
        ),
        bites=plan.bites,
        weather=weather_of(
            session.journal, plan.trees.values(), plan.species, session.weather, session.today
        ),
    )


def _pages(session: Session, kept: Kept, plan: Plan) -> dict[str, bytes]:
    return render_pages(nursery_of(session, plan), kept)


def _feeds(session: Session, folder: str, plan: Plan) -> tuple[dict[str, bytes], Revisions]:
    """Every feed, and the revisions of their entries, to be remembered; a look back has none."""
    settings, things = session.journal.settings, session.journal.things
    grounds = grounds_of(plan.trees, things, session.names(), settings.keeper)
    shown = shown_in_feeds(plan.follow_ups, session.today, settings.settled, session.kept)
    feeds = feeds_of(shown, grounds, session.kept)
    if session.as_of:
        return write_feeds(feeds, shown, grounds, session.today, settings, {}, session.kept)
    before = memory.recall(folder, REVISIONS) or b""
    # Where they are lost, what was published tells them.
    remembered = session.kept.once("revisions", (before,), partial(read_revisions, before)) or (
        published(feeds, partial(_last, folder, own_digests(folder, MADE)))
    )
    return write_feeds(feeds, shown, grounds, session.today, settings, remembered, session.kept)


def _keep_revisions(session: Session, folder: str, revisions: Revisions) -> None:
    after = write_revisions(revisions)
    if after != memory.recall(folder, REVISIONS):
        try:
            memory.must_keep(folder, REVISIONS, after)
        except OSError as error:
            why = error.strerror or error
            raise PublishError(f"{MEMORY} cannot be written: {why}") from error
        # The next run need not read what this one wrote.
        session.kept.once("revisions", (after,), lambda: revisions)


def _last(folder: str, digests: dict[str, str], name: str) -> bytes:
    """A file as this person's last run made it, else nothing."""
    try:
        return read_own(folder, MADE, name, digests) or b""
    except OSError:
        return b""


def _made(
    session: Session,
    plan: Plan,
    into: str,
    files: Mapping[str, bytes],
    published: Published,
    json: bool,
) -> Made:
    states = _states(plan, session)
    problems = session.problems()
    here = sum(1 for tree in plan.trees.values() if tree.here)
    pages = os.path.join(into, "index.html")
    calendar = os.path.join(into, EVERYTHING)
    if json:
        # Nothing of what this one run wrote: the same text answers when nothing changed.
        summary = dumps(
            {
                "pages": pages,
                "calendar": calendar,
                "trees": here,
                "overdue": states["overdue"],
                "now": states["now"],
                "coming": states["coming"],
                "problems": [problem.as_json() for problem in problems],
                "left_out": session.plugins.left_out,
            },
            ensure_ascii=False,
            indent=2,
        )
    else:
        lines = [
            f"{number(here, 'tree')} here: {states['overdue']} works overdue, "
            f"{states['now']} now, {states['coming']} coming.",
            f"Pages: {pages}",
            f"Calendar: {calendar}",
        ]
        if problems:
            lines.append(
                f"{number(len(problems), 'problem')} in the journal; backbud check shows "
                "them. Every other line was compiled."
            )
        if session.plugins.left_out:
            lines.append(session.plugins.left_out)
        summary = "\n".join(lines)
    done = (len(published.written), len(published.removed), published.kept)
    return Made(*done, problems, summary, files)


def _states(plan: Plan, session: Session) -> Counter[State]:
    """How many follow-ups stand in each way."""
    today = session.today

    def of_tree(follow_ups: Iterable[FollowUp]) -> Counter[State]:
        return Counter(one.state(today) for one in follow_ups)

    states: Counter[State] = Counter()
    for handle, those in plan.follow_ups.items():
        inputs = (Is(those), today)
        states += session.kept.once(("states", handle), inputs, partial(of_tree, those))
    return states


class _Progress:
    """Tells a person at a terminal what is going on, once it takes longer than a second."""

    def __init__(self) -> None:
        self._began = time.monotonic()
        self._told = False

    def tell(self, step: str) -> None:
        if time.monotonic() - self._began > SILENT_SECONDS:
            self._told = tell_progress(f"{step} …")

    def end(self) -> None:
        if self._told:
            tell_progress("")
