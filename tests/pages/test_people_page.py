"""The page of the people: whose trees are whose, how to reach each, and nothing of it elsewhere."""

from __future__ import annotations

import re
from collections.abc import Callable
from datetime import date

from backbud.pages import Nursery, render_pages
from backbud.session import Session
from backbud.views.people import people_view

JOURNAL = """
place yard
  latitude 52 N
place far-porch
  latitude 52 N
person wrenfold
  name Una Wrenfold
person marrow
  name     Edda Marrow
  contact  leaves word at the <ferry>
  place    far-porch
  note     likes to see the roots
person lammet
  name     Tam Lammet
person adder
  name     Zeb Adder
tree tarn
  kind   trident maple
  owner  marrow
tree gale
  kind   Chinese juniper
  owner  marrow
  place  yard
tree crow
  kind   Japanese black pine
  place  yard

2026-03-01
tarn, gale
  received
2026-04-01
gale
  moved   yard
tarn
  returned
"""


def people_of(session: Session) -> Nursery:
    plan = session.plan()
    trees = tuple(plan.trees.values())
    people = people_view(session.journal.things, trees, session.names(), "wrenfold")
    return Nursery("A test", session.today, "", trees, names=session.names(), people=people)


def test_who_owns_what_and_how_to_reach_them(written: Callable[..., Session]) -> None:
    view = people_of(written(JOURNAL))
    # Whose trees are here first, then by name; the keeper is not among them.
    assert [(one.name, one.helps) for one in view.people] == [
        ("Edda Marrow", False), ("Tam Lammet", True), ("Zeb Adder", True),
    ]  # fmt: skip
    marrow = view.people[0]
    assert (marrow.contact, marrow.home) == ("leaves word at the <ferry>", "far-porch")
    assert [(tree.tree, tree.standing, tree.place) for tree in marrow.trees] == [
        ("gale", "here", "yard"), ("tarn", "returned", ""),
    ]  # fmt: skip


def test_the_page_leads_to_the_trees_and_stands_alone_with_what_it_says(
    written: Callable[..., Session],
) -> None:
    pages = render_pages(people_of(written(JOURNAL)))
    page = pages["people.html"].decode()
    assert "leaves word at the &lt;ferry&gt;" in page
    assert re.search(r'<a href="trees/gale.html"[^>]*>gale</a>.*places/yard.html', page)
    assert "1 tree not here" in page and "returned" in page and "crow" not in page
    told = [path for path, other in pages.items() if b"likes to see" in other]
    assert told == ["people.html"]
    assert b'<a href="../people.html">People</a>' in pages["trees/crow.html"]


def test_with_nobody_written_down_no_page_leads_there() -> None:
    pages = render_pages(Nursery("A test", date(2026, 11, 25), ""))
    assert "person marrow" in pages["people.html"].decode()
    assert b"people.html" not in pages["index.html"]
