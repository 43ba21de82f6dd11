"""Makes the folders that leave the house: each owner's (`for/…/`), and what is public (`public/`).

Here they are made of a session; who has one and what it is called is told in views/folder.py, what
anybody reads in views/audience.py. A look back makes none, and so does a run that may not write the
person's secret where there is none yet.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Collection, Iterable, Iterator, Mapping, Sequence
from hmac import compare_digest
from html import unescape

from msgspec import Struct
from msgspec.structs import replace

from backbud.calendar.which_feeds import Feed
from backbud.issued.record import PURPOSE, IssuedPaper, paper_digest, paper_mark, read_issued
from backbud.pages.folder import (
    CALENDAR,
    HandedPaper,
    OwnersFile,
    copies_in,
    helpers_pages,
    owners_pages,
    public_pages,
)
from backbud.pages.links import INDEX
from backbud.person import key_for, known_key_for
from backbud.plan.run import Plan
from backbud.publish.files import Files, T
from backbud.publish.plain import read_plain
from backbud.session import Session
from backbud.tongue import full_day, phrase
from backbud.views.audience import HELPER, PUBLIC, Audience, eyes_of
from backbud.views.folder import PUBLIC_ROOT, Secrets, helpers_folders, owners_folders
from backbud.views.grounds import Grounds, grounds_of
from backbud.views.hidden_names import EverybodysNames
from backbud.views.nursery import Nursery

_TITLE = re.compile(rb"<title>(.*?)</title>")
_PURPOSE = "the names of folders that leave the house"


# What else lies in an owner's folder: each function gives the files for a person, by their handle,
# already as that person may read them.
OwnersFiles = Callable[[Session, Nursery, str], Iterable[OwnersFile]]


def papers_issued(session: Session, view: Nursery, person: str) -> Iterator[OwnersFile]:
    """The papers that this person issued to an owner, as they were issued; none that somebody else
    put there, nor one that was changed since."""
    key = known_key_for(PURPOSE, session.journal.folder)
    issued = read_issued(session.journal.folder) or ()
    replaced = {paper.after for paper in issued}
    for paper in issued:
        found = session.journal.things.find(paper.person)
        ours = bool(key) and compare_digest(paper.mark, paper_mark(paper, key))
        if found is None or found.handle != person or not ours:
            continue
        content = read_plain(session.journal.folder, paper.file)
        if content is not None and paper_digest(content) == paper.digest:
            name = paper.file.rpartition("/")[2]
            yield OwnersFile(f"papers/{name}", content, _told(paper, content, replaced))


def _told(paper: IssuedPaper, content: bytes, replaced: Collection[str]) -> str:
    """What a paper is called where it is listed: of which tree, when it was issued, and whether a
    later one took its place; "" of what is no page."""
    found = _TITLE.search(content)
    if paper.sort == "data" or found is None:
        return ""
    later = phrase("; a later one took its place") if paper.file in replaced else ""
    return phrase(
        "{unescape}, issued {full_day}{later}",
        unescape=unescape(found[1].decode()),
        full_day=full_day(paper.day),
        later=later,
    )


OWNERS_FILES: tuple[OwnersFiles, ...] = (papers_issued,)


class HandedOut(Struct, frozen=True):
    """What leaves the house. `folders`: of each owner who has one, by handle; `helpers`: of each
    helper. `unshown`: the trees that are to be public, and are not for want of consent."""

    grounds: Grounds
    secrets: Secrets
    folders: Mapping[str, str]
    helpers: Mapping[str, str]
    has_public: bool
    unshown: tuple[str, ...] = ()

    @property
    def first_pages(self) -> tuple[tuple[str, str], ...]:
        """Of each folder whose it is, and its first page."""
        theirs = [*self.folders.items(), *self.helpers.items()]
        public = [(phrase("anybody"), PUBLIC_ROOT + INDEX)] if self.has_public else []
        found = [(self.grounds.name_of(person), root + INDEX) for person, root in theirs]
        return (*found, *public)


def handed_out(session: Session, plan: Plan) -> HandedOut | None:
    """What leaves the house; None where nothing does."""
    settings, things = session.journal.settings, session.journal.things
    if session.as_of or not _anything(session, plan):
        return None
    secrets = folder_secrets(session)
    if secrets is None:
        return None
    grounds = grounds_of(plan.trees, things, session.names(), settings.keeper, session.today)
    folders = owners_folders(things, grounds, settings, secrets)
    everybody = Audience(PUBLIC, grounds)
    asked = [tree for tree in plan.trees.values() if everybody.is_public(tree)]
    unshown = tuple(tree.title for tree in asked if not everybody.sees(tree))
    helpers = helpers_folders(things, secrets)
    return HandedOut(grounds, secrets, folders, helpers, len(asked) > len(unshown), unshown)


def with_owners_feeds(files: Files[T], feeds: Sequence[Feed], handed: HandedOut | None) -> Files[T]:
    """The feeds, and behind each owner's the same in that owner's folder."""
    folders = handed.folders if handed else {}
    copies = {feed.path: folders[feed.owner] + CALENDAR for feed in feeds if feed.owner in folders}
    while True:
        try:
            path, content = next(files)
        except StopIteration as end:
            value: T = end.value
            return value
        yield path, content
        if path in copies:
            yield copies[path], content


def handed_pages(
    session: Session, plan: Plan, view: Nursery, handed: HandedOut | None
) -> Iterator[tuple[str, bytes]]:
    """The pages of every folder, and what else lies in an owner's."""
    if handed is None:
        return
    grounds, kept = handed.grounds, session.kept
    of_trees = [(tree.handle, tree.first_handle, tree.title, tree.owner)
                for tree in grounds.trees.values()]  # fmt: skip
    around = kept.same("around folders", (of_trees, replace(grounds, trees={}), view.today))
    names = EverybodysNames(grounds)
    for person, root in handed.folders.items():
        files = [one for give in OWNERS_FILES for one in give(session, view, person)]
        for one in files:
            yield root + one.path, one.content
        papers = [HandedPaper(one.title, one.path) for one in files if one.title]
        audience = Audience(eyes_of(person), grounds, names)
        yield from owners_pages(view, root, person, audience, around, kept, papers)
    for person, root in handed.helpers.items():
        helper = Audience(HELPER, grounds)
        yield from helpers_pages(view, root, person, helper, around, kept)
    if handed.has_public:
        title, everybody = session.journal.settings.public_name, Audience(PUBLIC, grounds)
        yield from public_pages(view, PUBLIC_ROOT, title, everybody, handed.secrets, around, kept)


def handed_copies(
    session: Session, plan: Plan, handed: HandedOut | None
) -> dict[str, tuple[str, ...]]:
    """Where else the copies of photographs lie, by their path in the output."""
    found: dict[str, dict[str, None]] = {}
    if handed is None:
        return {}
    everybody = Audience(PUBLIC, handed.grounds)
    for tree in plan.trees.values():
        photographs = session.photographs_of(tree)
        root = handed.folders.get(handed.grounds.owner_of(tree))
        if root:
            shown = [one for one in photographs if one.for_owner]
            for path, name in copies_in(shown, None):
                found.setdefault(path, {})[root + name] = None
        for root in handed.helpers.values():
            for path, name in copies_in(photographs, None):
                found.setdefault(path, {})[root + name] = None
        if handed.has_public and everybody.sees(tree):
            shown = [one for one in photographs if one.for_public]
            for path, name in copies_in(shown, handed.secrets):
                found.setdefault(path, {})[PUBLIC_ROOT + name] = None
    return {path: tuple(names) for path, names in found.items()}


def _anything(session: Session, plan: Plan) -> bool:
    """Whether a card or the settings ask for anything to leave the house."""
    if session.journal.settings.pages_for_owners:
        return True
    persons = session.journal.things.of_kind("person")
    return any(person.text("pages") for person in persons) or any(
        "public" in tree.facts for tree in plan.trees.values()
    )


def folder_secrets(session: Session) -> Secrets | None:
    """The names that nobody can guess; None where this person has no key and none may be made."""
    find = key_for if session.journal.memory.keeps else known_key_for
    try:
        key = find(_PURPOSE, session.journal.folder)
    except OSError:
        return None
    return Secrets(key, session.journal.settings.journal_id) if key else None
