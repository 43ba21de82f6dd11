"""A journal's folder goes in; calendars and pages are published, and what was done comes out.

The steps, in order:
    read      the journal, its replay and its plan (session.py)
    render    pages and feeds, all of them, before anything is written
    publish   the whole set, or nothing (publish/commit.py)
    remember  what it was made from, so that the next run can end at once (publish/unchanged.py)
"""

from __future__ import annotations

import os
import sys
import time
from collections import Counter
from datetime import date
from json import dumps

from msgspec import Struct

from backbud.calendar.feeds import feeds_of, write_feeds
from backbud.calendar.revisions import (
    Revisions,
    published_revisions,
    read_revisions,
    write_revisions,
)
from backbud.pages.render import render_pages
from backbud.pages.view import Nursery, SpeciesFact, SpeciesFacts
from backbud.plan.run import Plan
from backbud.publish import MADE, MEMORY
from backbud.publish.commit import (
    Published,
    PublishError,
    finish,
    lock,
    memory_folder,
    publish,
    write_whole,
)
from backbud.publish.unchanged import fingerprint, remember
from backbud.session import Session, open_session
from backbud.species import Fact, Species
from backbud.words import number
from backbud_grammar.problems import Problem, show

REVISIONS = "revisions.json"
ALL_FEED = "calendars/all.ics"
# Longer than this, a person at a terminal is told what is going on.
SILENT_SECONDS = 1.0


class Made(Struct, frozen=True):
    """What a run of make did. `summary`: as it is printed, and again when nothing changed."""

    written: int
    removed: int
    kept: int
    problems: tuple[Problem, ...]
    summary: str


def make(
    folder: str, today: date, *, as_of: bool = False, arguments: str = "make", json: bool = False
) -> Made:
    """Compile the journal and publish it whole; PublishError where that cannot be done.

    `json`: the summary is JSON. `arguments`: how the run was asked for, so that the same question
    can be answered from memory.
    """
    with lock(folder):
        finish(folder)
        known = fingerprint(folder, today.isoformat(), arguments)
        progress = _Progress()
        session = open_session(folder, today, as_of=as_of)
        progress.tell("planning")
        plan = session.plan()
        progress.tell("pages")
        files = render_pages(nursery_of(session, plan))
        progress.tell("calendars")
        feeds, revisions = _feeds(session, plan, folder)
        files |= feeds
        # First the numbers, then the feeds: a run that dies in between leaves out a number, where
        # it would else give one out twice.
        try:
            write_whole(memory_folder(folder), REVISIONS, write_revisions(revisions))
        except OSError as error:
            raise PublishError(f"{MEMORY} cannot be written: {error.strerror}") from error
        progress.tell("publishing")
        published = publish(folder, files)
        made = _made(session, plan, folder, published, json)
        remember(folder, known, made.summary, 1 if made.problems else 0)
        progress.end()
    return made


def nursery_of(session: Session, plan: Plan) -> Nursery:
    """Everything the pages show, for the keeper's eyes."""
    home = session.journal.things.find(session.journal.settings.home)
    species = {handle: _facts(found) for handle, found in plan.species.items() if found}
    return Nursery(
        session.journal.settings.name,
        session.today,
        home.title if home else "",
        tuple(plan.trees.values()),
        plan.follow_ups,
        session.names(),
        species,
        tuple(show(problem) for problem in session.problems()),
    )


def _facts(species: Species) -> SpeciesFacts:
    ph, years, share = species.soil_ph, species.repot_years, species.root_share
    rows: list[tuple[str, str, Fact[object] | None]] = [
        (
            "grows strongest",
            "at the top" if species.strongest == "acrotonic" else "at the base",
            None,
        ),
        (
            "hardiness",
            f"RHS {species.hardiness.value}" if species.hardiness else "",
            species.hardiness,
        ),  # type: ignore[list-item]
        ("soil pH", f"{ph.value[0]:g} to {ph.value[1]:g}" if ph else "", ph),  # type: ignore[list-item]
        ("usual mix", species.usual_mix.value if species.usual_mix else "", species.usual_mix),  # type: ignore[list-item]
        ("repotted every", f"{years.value[0]} to {years.value[2]} years" if years else "", years),  # type: ignore[list-item]
        (
            "roots off at once",
            f"{share.value[0]:.0%} in a cool place, {share.value[1]:.0%} in a warm one"
            if share
            else "",
            share,
        ),  # type: ignore[list-item]
        ("poisonous", species.toxicity.value if species.toxicity else "", species.toxicity),  # type: ignore[list-item]
    ]
    return SpeciesFacts(
        species.title,
        species.botanical,
        tuple(
            SpeciesFact(label, value, fact.source if fact else "")
            for label, value, fact in rows
            if value
        ),
    )


def _feeds(session: Session, plan: Plan, folder: str) -> tuple[dict[str, bytes], Revisions]:
    settings = session.journal.settings
    names = session.names()
    return write_feeds(
        feeds_of(tuple(plan.all()), plan.trees, names),
        plan.trees,
        names,
        session.today,
        settings.journal_id,
        _remembered(folder),
        show=settings.show,
        base_url=settings.base_url,
    )


def _remembered(folder: str) -> Revisions:
    """The revisions of the last run; where they are lost, what was published tells them."""
    revisions = read_revisions(_bytes(os.path.join(folder, MEMORY, REVISIONS)))
    return revisions or published_revisions(_bytes(os.path.join(folder, MADE, ALL_FEED)))


def _bytes(path: str) -> bytes:
    try:
        with open(path, "rb") as file:
            return file.read()
    except OSError:
        return b""


def _made(session: Session, plan: Plan, folder: str, published: Published, json: bool) -> Made:
    states = Counter(f.state(session.today) for f in plan.all())
    problems = session.problems()
    here = sum(1 for tree in plan.trees.values() if tree.here)
    pages = os.path.join(folder, MADE, "index.html")
    calendar = os.path.join(folder, MADE, ALL_FEED)
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
        summary = "\n".join(lines)
    return Made(len(published.written), len(published.removed), published.kept, problems, summary)


class _Progress:
    """Tells a person at a terminal what is going on, once it takes longer than a second."""

    def __init__(self) -> None:
        self._began = time.monotonic()
        self._told = False

    def tell(self, step: str) -> None:
        if sys.stderr.isatty() and time.monotonic() - self._began > SILENT_SECONDS:
            print(f"\r\033[K{step} …", end="", file=sys.stderr, flush=True)
            self._told = True

    def end(self) -> None:
        if self._told:
            print("\r\033[K", end="", file=sys.stderr, flush=True)
