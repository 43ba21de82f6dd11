"""Keeps papers as they are issued: in `papers/` of the journal, each with its digest on record.

Nothing that was issued is ever written over: what is issued again gets a name of its own.
"""

from __future__ import annotations

import os
import re
from base64 import b64encode
from collections.abc import Iterator, Mapping, Sequence

from msgspec.json import encode, format
from msgspec.structs import replace

from backbud.issued.facts import facts_on
from backbud.issued.record import (
    FOLDER,
    PURPOSE,
    RECORD,
    IssuedPaper,
    paper_digest,
    paper_mark,
    read_issued,
)
from backbud.pages.paper_pages import paper_pages
from backbud.pages.papers import papers
from backbud.papers.ubl import invoice_of
from backbud.person import NoSecret, key_for
from backbud.photographs.known import read_picture
from backbud.photographs.look import copies_of
from backbud.publish.disk import make_real_folder, sync_folder, write_whole
from backbud.publish.lock import lock
from backbud.publish.refused import PublishError
from backbud.session import Session
from backbud.views.paper import PapersView
from backbud.views.photograph import copy_paths
from backbud.views.published import as_json

# Whoever keeps a paper holds this lock.
PAPERS_LOCK = "papers-lock"
WAIT_SECONDS = 60.0
_IMAGE = re.compile(rb'<a class="photograph" href="[^"]*"><img src="([^"]*)"([^>]*)></a>')


def issue(
    session: Session, view: PapersView, sorts: Sequence[str], tree: str = ""
) -> tuple[IssuedPaper, ...]:
    """Keep papers of a person as they are today, and put them on record; those that were issued
    just so before are not kept twice. PublishError where they cannot be written.

    `sorts`: which of them; `tree`: they are about this one alone.
    """
    folder = session.journal.folder
    with lock(folder, WAIT_SECONDS, PAPERS_LOCK):
        before = read_issued(folder)
        if before is None:
            raise PublishError(f"{RECORD} cannot be read, so nothing was issued.")
        make_real_folder(os.path.join(folder, FOLDER), FOLDER)
        taken = {one.file for one in before} | set(os.listdir(os.path.join(folder, FOLDER)))
        kept = [
            _kept(paper, content, before, taken, folder)
            for paper, content in _contents(session, view, sorts, tree)
        ]
        new = [one for one in kept if one not in before]
        if new:
            write_whole(folder, RECORD, format(encode((*before, *new)), indent=1) + b"\n")
            sync_folder(os.path.join(folder, FOLDER))
        return tuple(kept)


def _contents(
    session: Session, view: PapersView, sorts: Sequence[str], tree: str
) -> Iterator[tuple[IssuedPaper, bytes]]:
    """Each paper as it will be on record, under a name that may be taken, and its bytes."""
    pictures = _pictures(session)
    pages = dict(paper_pages(view, base="", alone=True))
    for page in papers(view):
        if page.sort not in sorts:
            continue
        name = page.path.rpartition("/")[2].removesuffix(".html")
        stem = f"{session.today}-{view.person}-{name}"
        content = _IMAGE.sub(lambda found: _embedded(found, pictures), pages[page.path])
        paper = IssuedPaper(
            file=f"{FOLDER}/{stem}.html",
            digest=paper_digest(content),
            day=session.today,
            person=view.person,
            sort=page.sort,
            tree=tree,
        )
        if page.sort != "statement" or view.statement is None:
            yield paper, content
            continue
        account = next(one for one in session.reckoned_accounts if one.person == view.person)
        sums, lines = facts_on(account, session.today, tree)
        numbers = view.statement.numbers
        visits = tuple(f"{one.tree.tree} {one.came or ''}".rstrip() for one in view.statement.trees)
        paper = replace(paper, visits=visits)
        yield replace(paper, numbers=numbers, sums=sums, lines=lines), content
        data = as_json(view.statement).encode() + b"\n"
        yield _data(paper, "json", data, numbers), data
        invoice = invoice_of(view.statement)
        if invoice is not None:
            yield _data(paper, "xml", invoice, numbers), invoice


def _data(paper: IssuedPaper, ending: str, content: bytes, numbers: Sequence[str]) -> IssuedPaper:
    """A statement as data beside its page."""
    file = paper.file.removesuffix("html") + ending
    digest = paper_digest(content)
    return replace(paper, file=file, digest=digest, sort="data", numbers=tuple(numbers))


def _kept(
    paper: IssuedPaper,
    content: bytes,
    before: Sequence[IssuedPaper],
    taken: set[str],
    folder: str,
) -> IssuedPaper:
    """Write a paper, unless it was issued just so."""
    same = [
        one
        for one in before
        if (one.person, one.sort, one.tree) == (paper.person, paper.sort, paper.tree)
        and one.file.rpartition(".")[2] == paper.file.rpartition(".")[2]
        and _plain_name(one.file) == _plain_name(paper.file)
        and (not paper.visits or not set(paper.visits).isdisjoint(one.visits))
    ]
    for one in same:
        if one.digest == paper.digest:
            return one
    stem, dot, ending = paper.file.rpartition(".")
    file, number = paper.file, 1
    while file.rpartition("/")[2] in taken or file in taken:
        number += 1
        file = f"{stem}-{number}{dot}{ending}"
    taken.add(file)
    write_whole(folder, file, content)
    kept = replace(paper, file=file, after=same[-1].file if same else "")
    return replace(kept, mark=paper_mark(kept, _key(folder)))


def _key(folder: str) -> bytes:
    """The person's key for marks; nothing where they have no folder of their own to keep it in."""
    try:
        return key_for(PURPOSE, folder)
    except (NoSecret, OSError):
        return b""


def _plain_name(file: str) -> str:
    """A paper's name without its day and its number."""
    name = file.rpartition("/")[2].rpartition(".")[0]
    return re.sub(r"-\d$", "", name[11:])


def _pictures(session: Session) -> Mapping[str, str]:
    """Where the small copy of each picture would lie, and the picture itself."""
    known = session.pictures.known.items()
    return {
        **{copy_paths(one)[0]: path for path, one in known if one.digest},
        "": session.journal.folder,
    }


def _embedded(found: re.Match[bytes], pictures: Mapping[str, str]) -> bytes:
    """A picture in the page itself, so that the paper stands by itself."""
    path = pictures.get(found[1].decode())
    copies = copies_of(read_picture(pictures[""], path) or b"") if path else None
    if not copies:
        return found[0]
    return b'<img src="data:image/jpeg;base64,' + b64encode(copies[0]) + b'"' + found[2] + b">"
