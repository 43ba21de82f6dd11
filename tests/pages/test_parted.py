"""The lists of very many trees are parted into pages; those of few stand on one."""

from __future__ import annotations

from collections.abc import Callable, Mapping

import pytest
from tests.pages.conftest import TODAY, around, plan, tree
from tests.pages.test_render import Outline

from backbud.compiled import nursery_of
from backbud.pages import Nursery, parted, render_pages, stores
from backbud.session import Session

NAMES = ("amber", "ash", "birch", "crow")


def rendered(monkeypatch: pytest.MonkeyPatch, rows: int, boxes: int) -> Mapping[str, bytes]:
    """Four own trees at two places, each with a work of the week, and one of somebody else."""
    monkeypatch.setattr(parted, "MOST_ROWS", rows)
    monkeypatch.setattr(parted, "MOST_BOXES", boxes)
    own = [tree(name, place="yard" if name == "crow" else "tunnel") for name in NAMES]
    trees = (*own, tree("owned", owner="marrow"))
    plans = {one: (plan(one, "unwired", "unwire", around(-3, 0, 20)),) for one in NAMES}
    names = {"yard": "the yard", "tunnel": "the tunnel", "marrow": "Marrow"}
    return render_pages(Nursery("Many", TODAY, "", trees, plans, names))


def links(page: bytes) -> list[str]:
    return [attrs["href"].partition("#")[0] for attrs in Outline(page).all("a") if "href" in attrs]


def rows(page: bytes) -> list[str]:
    """The trees that a page lists or has a box for, as it links to them."""
    return [link.removeprefix("../") for link in links(page) if "trees/" in link]


def test_few_trees_stand_on_one_page(monkeypatch: pytest.MonkeyPatch) -> None:
    pages = rendered(monkeypatch, rows=4, boxes=4)
    assert rows(pages["trees.html"]) == [f"trees/{name}.html" for name in (*NAMES, "owned")]
    assert sorted(rows(pages["paper/week.html"])) == [f"trees/{name}.html" for name in NAMES]
    assert not [path for path in pages if path.startswith(("trees-", "paper/week-"))]


def test_many_trees_are_listed_by_their_letters(monkeypatch: pytest.MonkeyPatch) -> None:
    pages = rendered(monkeypatch, rows=3, boxes=4)
    assert rows(pages["trees.html"]) == ["trees/owned.html"]
    lists = {path: rows(page) for path, page in pages.items() if path.startswith("trees-")}
    assert lists == {
        "trees-own-a.html": ["trees/amber.html", "trees/ash.html"],
        "trees-own-b.html": ["trees/birch.html"],
        "trees-own-c.html": ["trees/crow.html"],
    }
    # Each is led to, under the anchor that the list itself has where it stands there.
    assert set(lists) <= set(links(pages["trees.html"]))
    assert all(f'id="own-{letter}"'.encode() in pages["trees.html"] for letter in "abc")


def test_a_week_of_many_boxes_has_a_page_for_each_place(monkeypatch: pytest.MonkeyPatch) -> None:
    pages = rendered(monkeypatch, rows=4, boxes=3)
    assert rows(pages["paper/week.html"]) == []
    weeks = {path: sorted(rows(page)) for path, page in pages.items() if "paper/week-" in path}
    assert weeks == {
        "paper/week-tunnel.html": ["trees/amber.html", "trees/ash.html", "trees/birch.html"],
        "paper/week-yard.html": ["trees/crow.html"],
    }
    assert {"week-tunnel.html", "week-yard.html"} <= set(links(pages["paper/week.html"]))
    assert b"The tunnel" in pages["paper/week-tunnel.html"]


def test_of_very_many_works_that_want_a_material_it_is_told_how_many(
    written: Callable[..., Session], monkeypatch: pytest.MonkeyPatch
) -> None:
    planned = "".join(
        f"2026-11-01\n{name}\n  planned  wire 2 mm Al on apex, to 2027-02\n" for name in NAMES
    )
    cards = "".join(f"tree {name}\n  kind  trident maple\n" for name in NAMES)
    shown = nursery_of(session := written(cards + planned), session.plan())
    wants = "</bdi>, <bdi>wire"
    whole = render_pages(shown)["stores.html"].decode()
    assert whole.count(wants) == len(NAMES) and "more work" not in whole
    monkeypatch.setattr(stores, "MOST_WORKS", 1)
    short = render_pages(shown)["stores.html"].decode()
    assert short.count(wants) == 1
    assert f"{len(NAMES) - 1} more works" in short
