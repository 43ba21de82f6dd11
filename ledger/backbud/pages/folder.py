"""Renders the folders that leave the house: an owner's, and what anybody may see.

Each is a web root of its own: its own stylesheet, and no link that leads out of it.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from functools import partial

from msgspec import Struct
from msgspec.structs import replace

from backbud import words
from backbud.collection.state import Tree
from backbud.memo import Apart, Identical, Memo
from backbud.pages.links import INDEX, TREES, WEEK, link, tree_page
from backbud.pages.pictures import Picture, picture_of
from backbud.pages.render import helpers_sheets
from backbud.pages.templating import assets, page
from backbud.pages.tree import kind_of, laid_out, next_when, shown_tree, standing_of
from backbud.pages.tree_page import pages_of_sheet
from backbud.plan.laid_plans import once_asked
from backbud.plan.stores import Stores
from backbud.tongue import decimal, full_day, phrase
from backbud.views.audience import Audience
from backbud.views.folder import Secrets
from backbud.views.narrow import only_tree, own_inputs, without_trees
from backbud.views.nursery import Nursery
from backbud.views.photograph import PhotographView, portrait
from backbud.views.tree import TreeView

CALENDAR = "calendar.ics"


class HandedTree(Struct, frozen=True):
    """A tree's place on the first page of a folder."""

    title: str
    kind: str
    page: str
    note: str
    next: str
    when: str
    here: bool
    picture: Picture | None


class HandedPart(Struct, frozen=True):
    """Trees that go together on the first page."""

    title: str
    trees: tuple[HandedTree, ...]


class HandedPaper(Struct, frozen=True):
    """Something else that lies in the folder and is named on its first page."""

    title: str
    page: str


class OwnersFile(Struct, frozen=True):
    """A file in an owner's folder: its path there and its bytes. `title`: as the first page names
    it, "" where it does not (a stylesheet, a picture)."""

    path: str
    content: bytes
    title: str = ""


class HandedFolder(Struct, frozen=True):
    """The first page of a folder. `calendar`: the way to its feed, "" where it has none."""

    name: str
    trees: tuple[HandedTree, ...]
    parts: tuple[HandedPart, ...]
    calendar: str = ""
    papers: tuple[HandedPaper, ...] = ()


def owners_pages(
    view: Nursery,
    root: str,
    person: str,
    audience: Audience,
    around: object,
    kept: Memo,
    papers: Sequence[HandedPaper] = (),
) -> Iterator[tuple[str, bytes]]:
    """An owner's folder but for its feed, papers and photographs: path and bytes.

    `root`: the folder. `around`: stands for all that the audience goes by. `papers`: what else lies
    in it.
    """
    shared = _shared(view, audience.readable(view.title), public=False)
    yield from _assets(root)
    trees: list[HandedTree] = []
    for tree in view.trees:
        if not audience.sees(tree):
            continue
        own = only_tree(view, tree)
        listed, pages = kept.once(
            ("owner's page", person, tree.handle),
            (*own_inputs(own, around), shared),
            partial(_owners_tree, own, audience, shared),
        )
        yield from ((root + path, content) for path, content in pages)
        trees.append(listed)
    here = tuple(one for one in trees if one.here)
    gone = tuple(one for one in trees if not one.here)
    parts = (HandedPart(phrase("In our care"), here), HandedPart(phrase("Not here"), gone))
    folder = HandedFolder(view.name(person), tuple(trees), tuple(one for one in parts if one.trees),
                    CALENDAR, tuple(papers))  # fmt: skip
    yield root + INDEX, page("folder.html", shared, {"base": "", "folder": folder})


def helpers_pages(
    view: Nursery, root: str, person: str, audience: Audience, around: object, kept: Memo
) -> Iterator[tuple[str, bytes]]:
    """A helper's folder: the works at the bench and by place, and every tree, without money."""
    shared = _shared(view, view.title, public=False)
    shared |= {
        "nav": (
            (INDEX, phrase("Bench")),
            (TREES, phrase("Trees")),
            (WEEK, phrase("The week on paper")),
        )
    }
    apart = Apart(kept, phrase("helper {person}", person=person))
    plans = {
        # What is left of a plan is the same while the plan is, and so is what is made from it.
        handle: apart.once(
            ("plan", handle), (Identical(plan),), partial(once_asked, plan, audience.plan)
        )
        for handle, plan in view.plans.items()
    }
    seen = replace(
        view, plans=plans, problems=(), stores=Stores(), sections={},
        folders={}, registers=(), handed_out=(), unshown=(), accounts=(), papers=(), people=(),
    )  # fmt: skip
    all_around = apart.same("around pages", (without_trees(seen), shared, around))
    yield from _assets(root)
    for path, content in helpers_sheets(seen, shared, all_around, apart):
        yield root + path, content
    for tree in seen.trees:
        own = only_tree(seen, tree)
        pages = apart.once(
            ("page", tree.handle),
            own_inputs(own, all_around),
            partial(_helpers_tree, own, audience, shared),
        )
        yield from ((root + path, content) for path, content in pages)


_Pages = tuple[tuple[str, bytes], ...]


def _helpers_tree(own: Nursery, audience: Audience, shared: dict[str, object]) -> _Pages:
    shown = audience.tree(shown_tree(own, own.trees[0]))
    assert shown is not None
    path = tree_page(shown.tree)
    return _tree_pages(own, shown, path, shared)


def public_pages(
    view: Nursery,
    root: str,
    title: str,
    audience: Audience,
    secrets: Secrets,
    around: object,
    kept: Memo,
) -> Iterator[tuple[str, bytes]]:
    """What anybody may see, under names that tell nothing; nothing at all where no tree is public.

    `title`: what stands above it.
    """
    shared = _shared(view, title, public=True)
    trees: list[HandedTree] = []
    for tree in view.trees:
        if not audience.sees(tree):
            continue
        own = only_tree(view, tree)
        listed, pages = kept.once(
            ("public page", tree.handle),
            (*own_inputs(own, around), shared),
            partial(_public_tree, own, audience, secrets, shared),
        )
        if not trees:
            yield from _assets(root)
        yield from ((root + path, content) for path, content in pages)
        trees.append(listed)
    if trees:
        # By kind, then by names that tell nothing, so that the order tells nothing either.
        in_order = tuple(sorted(trees, key=lambda one: (one.title.casefold(), one.page)))
        folder = HandedFolder("", in_order, (HandedPart(phrase("To look at"), in_order),))
        yield root + INDEX, page("folder.html", shared, {"base": "", "folder": folder})


def copies_in(
    photographs: Iterable[PhotographView], secrets: Secrets | None
) -> Iterator[tuple[str, str]]:
    """The path of each copy of these photographs in the output, and its path in a folder.

    `secrets`: the folder is anybody's, and a name that another folder has would tell of a tree.
    """
    for one in photographs:
        named = public_picture(one, secrets) if secrets else one
        yield from ((one.small, named.small), (one.large, named.large))


def public_picture(one: PhotographView, secrets: Secrets) -> PhotographView:
    """A photograph under a name that tells nothing."""
    name = secrets.name("photograph", one.large)
    return replace(one, small=f"photographs/{name}-s.jpg", large=f"photographs/{name}-l.jpg")


def _owners_tree(
    own: Nursery, audience: Audience, shared: dict[str, object]
) -> tuple[HandedTree, _Pages]:
    shown = audience.tree(shown_tree(own, own.trees[0]))
    assert shown is not None
    path = tree_page(shown.tree)
    note = standing_of(shown, own.today.year)
    due = shown.due[0] if shown.due and shown.here else None
    listed = HandedTree(
        shown.name,
        kind_of(shown),
        link(path),
        words.sentence(note),
        words.sentence(due.title) if due else "",
        next_when(due, own.today) if due else "",
        shown.here,
        _portrait(shown),
    )
    return listed, _tree_pages(own, shown, path, shared)


def _public_tree(
    own: Nursery, audience: Audience, secrets: Secrets, shared: dict[str, object]
) -> tuple[HandedTree, _Pages]:
    tree: Tree = own.trees[0]
    shown = audience.tree(shown_tree(own, tree))
    assert shown is not None
    pictures = tuple(public_picture(one, secrets) for one in shown.photographs)
    shown = replace(shown, photographs=pictures)
    path = f"trees/{secrets.name('tree', tree.first_handle)}.html"
    sizes = ", ".join(
        f"{phrase(name)} {decimal(words.sizes(said))}" for name, said in shown.sizes.items()
    )
    listed = HandedTree(shown.name, "", link(path), sizes, "", "", True, _portrait(shown))
    return listed, _tree_pages(own, shown, path, shared)


def _tree_pages(own: Nursery, shown: TreeView, path: str, shared: dict[str, object]) -> _Pages:
    # What runs at the top of print: no day on what is public, which stays as it is.
    sheet = laid_out(replace(own, title=str(shared["title"])), shown, path)
    sheet = replace(sheet, running="" if shared["public"] else sheet.running)
    return pages_of_sheet({"base": "../", "tree": sheet}, shared)


def _portrait(shown: TreeView) -> Picture | None:
    face = portrait(shown.photographs)
    return picture_of(face, shown.name) if face else None


def _shared(view: Nursery, title: str, *, public: bool) -> dict[str, object]:
    """What every page of a folder is shown; the public's say no day, so they stay as they are."""
    return {
        "title": title,
        "today": "" if public else full_day(view.today),
        "today_iso": "" if public else view.today.isoformat(),
        "assets": {name: path for name, (path, _) in assets().items()},
        "frame": "folder_frame.html",
        "public": public,
        "handed": True,
        "credit": view.weather.ahead.credit,
        "nav": ((INDEX, phrase("All trees") if public else phrase("All your trees")),),
    }


def _assets(root: str) -> Iterator[tuple[str, bytes]]:
    for path, content in assets().values():
        yield root + path, content
