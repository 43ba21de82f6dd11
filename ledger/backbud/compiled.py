"""Makes every file that is published of a journal: its calendars and its pages.

None is put in place here: what is made can be published (make.py) or handed on (front.py).
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from functools import partial
from typing import NamedTuple

from msgspec import Struct
from msgspec.structs import replace

from backbud.calendar.ended import ended_feeds
from backbud.calendar.feeds import feeds_written, published
from backbud.calendar.revisions import KnownRevisions, Revisions
from backbud.calendar.which_feeds import feeds_of, shown_in_feeds
from backbud.handed import HandedOut, handed_copies, handed_out, handed_pages, with_owners_feeds
from backbud.in_parts import bare_plan, made_in_parts, may_go_in_parts
from backbud.kind_years import kinds_at_home
from backbud.memo import Memo
from backbud.pages.links import tree_page
from backbud.pages.render import pages_of, sheets_of
from backbud.pages.templating import no_page
from backbud.papers.gather import papers_now
from backbud.plan.contained import made_of_plan
from backbud.plan.run import Plan
from backbud.plan.states import states_of
from backbud.plan.stores import stores_of
from backbud.publish import MADE
from backbud.publish.files import Files, gathered
from backbud.publish.manifest import own_digests, read_own
from backbud.session import Session
from backbud.views.facts import SpeciesFacts, facts_of
from backbud.views.grounds import first_handles_of, grounds_of
from backbud.views.history import late_by_tree, late_in
from backbud.views.nursery import Nursery
from backbud.views.outline import outlines_of
from backbud.views.people import people_view
from backbud.views.photograph import copy_paths
from backbud.views.skies import weather_of
from backbud.whole import check_whole
from backbud_grammar.problems import Problem, show

REVISIONS = "revisions.json"


class Output(Struct, frozen=True):
    """All that is published of a journal on a day, for the keeper's eyes.

    `files`: bytes by relative POSIX path, `index.html` and `calendars/all.ics` among them. `trees`:
    how many are here; `overdue`, `now`, `coming`: how many follow-ups stand under these headings on
    the day, as `due` has them. `left_out`: one line on the code of the journal that was not run, ""
    where there is none.
    """

    files: Mapping[str, bytes]
    problems: tuple[Problem, ...]
    trees: int
    overdue: int
    now: int
    coming: int
    left_out: str


class Compiled(NamedTuple):
    """The output, the revisions of its calendar entries, and these as they were remembered.

    Who took the files one by one has none of them in the output. A look back has no revisions to
    remember.
    """

    output: Output
    revisions: Revisions | None
    remembered: bytes


def compiled(session: Session, tell: Callable[[str], None] = lambda step: None) -> Compiled:
    """Make all that is published of a journal, as a whole or not at all.

    `tell`: is told what is done next. Broken where a file that was read before gives nothing now.
    """
    check_whole(session)
    tell("planning")
    plan, meet = session.plan(), session.faults.meet
    tell("calendars")
    files, (revisions, remembered) = made_of_plan(
        "the calendar entries", plan, lambda some: gathered(_feeds(session, some)), meet
    )
    tell("pages")
    files |= made_of_plan("the page", plan, lambda some: dict(_pages(session, some)), meet)
    files |= _photographs(session, plan)
    for handle in plan.trees:
        files.setdefault(tree_page(handle), no_page(plan.trees[handle].title))
    return Compiled(_output(session, plan, files), revisions, remembered)


def compiling(session: Session, tell: Callable[[str], None] = lambda step: None) -> Files[Compiled]:
    """Make the same file by file: path and bytes, none of which is held once it is handed out.

    What fails for one tree fails as a whole: `compiled` finds out which it is. Broken as there,
    before the first file is asked for.
    """
    check_whole(session)
    return _compiling(session, tell)


def _make_events_for_good(session: Session) -> None:
    """Let go of what the histories were made from: for a run that asks for all of them once."""
    for tree in session.histories.trees.values():
        tree.lines.forget_what_is_on()
    texts: dict[str, str] = {}
    for page in session.journal.pages:
        for block in page.blocks:
            block.make_for_good(texts)


def _compiling(session: Session, tell: Callable[[str], None]) -> Files[Compiled]:
    """As `compiling`, all of whose trees are planned some at a time; where others' code is asked,
    at once."""
    tell("planning")
    handed = None
    view = None
    if may_go_in_parts(session):
        _make_events_for_good(session)
        each = session.each_tree()
        bare = bare_plan(each)
        handed = handed_out(session, bare)
        view = of_trees(session, bare, handed)
        yield from made_in_parts(session, each, bare, view)
    plan = session.plan()
    tell("calendars")
    revisions, remembered = yield from _feeds(session, plan)
    tell("pages")
    if view is None:
        yield from _pages(session, plan)
    else:
        view = replace(
            view, plans=plan.follow_ups, bites=plan.bites, accounts=session.accounts(plan)
        )
        view = replace(_with_the_rest(session, plan, view), registers=session.registers(plan))
        yield from sheets_of(view, session.kept)
        yield from handed_pages(session, plan, view, handed)
    yield from _photographs(session, plan)
    return Compiled(_output(session, plan, {}), revisions, remembered)


def _output(session: Session, plan: Plan, files: Mapping[str, bytes]) -> Output:
    states = states_of(plan, session.today, session.kept)
    return Output(
        files,
        session.problems(),
        sum(1 for tree in plan.trees.values() if tree.here),
        states["overdue"],
        states["now"],
        states["coming"],
        session.plugins.left_out,
    )


def nursery_of(session: Session, plan: Plan, handed: HandedOut | None = None) -> Nursery:
    """Everything the pages show, for the keeper's eyes. `handed`: what leaves the house."""
    return _with_the_rest(session, plan, of_trees(session, plan, handed))


def of_trees(session: Session, plan: Plan, handed: HandedOut | None) -> Nursery:
    """What of it the pages of trees are made from."""
    home = session.journal.things.find(session.journal.settings.home)
    facts = {
        id(found): SpeciesFacts(
            found.title, found.botanical, facts_of(found, session.plugins.facts)
        )
        for found in {id(found): found for found in plan.species.values() if found}.values()
    }
    species = {handle: facts[id(found)] for handle, found in plan.species.items() if found}
    return Nursery(
        session.journal.settings.name,
        session.today,
        home.title if home else "",
        tuple(plan.trees.values()),
        plan.follow_ups,
        session.names(),
        species,
        sections=session.sections,
        hours_per_week=session.journal.settings.hours_per_week,
        bites=plan.bites,
        people=people_view(
            session.journal.things,
            plan.trees.values(),
            session.names(),
            session.journal.settings.keeper,
        ),
        address=session.journal.settings.base_url,
        first_handles=first_handles_of(session.journal.things),
        hidden=session.journal.things.hidden,
        outlines=outlines_of(
            plan.trees.values(), session.journal.things, session.journal.settings.figures
        ),
        photographs={
            handle: found
            for handle, tree in plan.trees.items()
            if (found := session.photographs_of(tree))
        },
        folders=handed.folders if handed else {},
        handed_out=handed.first_pages if handed else (),
        unshown=handed.unshown if handed else (),
        accounts=session.accounts(plan),
        late=late_by_tree(plan.trees.values(), late_in(session.journal, session.today)),
        weather=weather_of(
            session.journal, plan.trees.values(), plan.species, session.weather, session.today
        ),
    )


def _with_the_rest(session: Session, plan: Plan, view: Nursery) -> Nursery:
    """All of it. `view`: with what the pages of trees are made from: what fails in the sections of
    plugins is a problem, so they come before the problems."""
    return replace(
        view,
        problems=tuple(session.forgotten.text(show(problem)) for problem in session.problems()),
        stores=stores_of(
            session.journal, session.histories_of(plan), plan, session.today, session.by_tree
        ),
        kinds=kinds_at_home(session, plan),
        papers=papers_now(session, plan),
    )


def _pages(session: Session, plan: Plan) -> Iterator[tuple[str, bytes]]:
    handed = handed_out(session, plan)
    view = replace(nursery_of(session, plan, handed), registers=session.registers(plan))
    yield from pages_of(view, session.kept)
    yield from handed_pages(session, plan, view, handed)


def _photographs(session: Session, plan: Plan) -> Iterator[tuple[str, bytes]]:
    """The copies of every picture. One that an earlier run made is taken from its output: its name
    changes with the picture."""
    shown = {one.digest: path for path, one in session.pictures.known.items() if one.digest}
    if not shown:
        return
    from backbud.photographs.known import read_picture
    from backbud.photographs.look import copies_of

    folder = session.journal.folder
    digests = own_digests(folder, MADE)
    also = handed_copies(session, plan, handed_out(session, plan))

    def made(path: str, names: tuple[str, ...]) -> tuple[bytes, ...]:
        before = [_last(folder, digests, name) for name in names]
        if all(before):
            return tuple(before)
        return copies_of(read_picture(folder, path) or b"") or ()

    for path in shown.values():
        names = copy_paths(session.pictures.known[path])
        work = partial(made, path, names)
        copies = session.kept.once(("photograph", names), (), work)
        for name, content in zip(names, copies, strict=False):
            yield name, content
            yield from ((other, content) for other in also.get(name, ()))


def _feeds(session: Session, plan: Plan) -> Files[tuple[Revisions | None, bytes]]:
    """Every feed; the revisions of their entries, and these as they were remembered."""
    settings, things = session.journal.settings, session.journal.things
    grounds = grounds_of(plan.trees, things, session.names(), settings.keeper)
    shown = shown_in_feeds(plan.follow_ups, session.today, settings.settled, session.kept)
    feeds = feeds_of(shown, grounds, session.kept)
    write = partial(feeds_written, feeds, shown, grounds, session.today, settings)
    if session.as_of:
        yield from write({}, session.kept)
        return None, b""
    folder = session.journal.folder
    before = session.journal.memory.recall(REVISIONS) or b""
    # Where they are lost, what was published tells them.
    once_written = own_digests(folder, MADE)
    known = known_revisions(session.kept)
    remembered = known.read(before) or published(feeds, partial(_last, folder, once_written))
    paths = [feed.path for feed in feeds]
    told = ended_feeds(once_written, paths, remembered, settings, session.today)
    # The path of a feed that was somebody's would name who asked to be forgotten.
    ended = [one for one in told if session.forgotten.text(one.path) == one.path]
    written = write(remembered, session.kept, ended)
    handed = handed_out(session, plan)
    return (yield from with_owners_feeds(written, feeds, handed)), before


def known_revisions(kept: Memo) -> KnownRevisions:
    """The revisions that an earlier run of this process has read or written."""
    return kept.once("known revisions", (), KnownRevisions)


def _last(folder: str, digests: dict[str, str], name: str) -> bytes:
    """A file as this person's last run made it, else nothing."""
    try:
        return read_own(folder, MADE, name, digests) or b""
    except OSError:
        return b""
