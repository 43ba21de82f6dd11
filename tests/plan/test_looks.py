"""What a `checked` line looked at, where, and what it found there."""

from __future__ import annotations

import pytest

from backbud.plan.looks import Look, found_on, looks, looks_meant

CARDS = """
    tree hoshi
      kind  garden shrub
    2026-05-01
    hoshi
      wired  3 mm Al on left 1, 3 mm Al on left 2, 3 mm Al on apex
    2026-06-01
    hoshi
      checked  """


@pytest.fixture
def checked(written):
    def line(text: str):
        session = written(f"{CARDS}{text}\n")
        return [entry.event for entry in session.histories.trees["hoshi"].entries][-1]

    return line


@pytest.mark.parametrize(
    ("text", "seen"),
    [
        # A look that names nothing is one at the tree.
        ("", [Look("", (), "")]),
        ("wire", [Look("wire", (), "")]),
        ("wire fine", [Look("wire", (), "fine")]),
        ("wire fine on left 1", [Look("wire", ("left 1",), "fine")]),
        ("wire fine on left 1, on apex", [Look("wire", ("left 1", "apex"), "fine")]),
        # Two things, each with what was found there and where.
        ("wire biting on left 1, ties fine",
         [Look("wire", ("left 1",), "biting"), Look("ties", (), "fine")]),
        ("ties fine, wire biting on left 1",
         [Look("ties", (), "fine"), Look("wire", ("left 1",), "biting")]),
        ("wire ties fine", [Look("wire", (), "fine"), Look("ties", (), "fine")]),
        # What was found on one part is not said of another, in whatever order.
        ("wire biting on left 1, fine on left 2",
         [Look("wire", ("left 1",), "biting"), Look("wire", ("left 2",), "fine")]),
        ("wire, fine on left 1, on apex, biting on left 2",
         [Look("wire", ("left 1", "apex"), "fine"), Look("wire", ("left 2",), "biting")]),
        ("wire fine, biting on left 2",
         [Look("wire", (), "fine"), Look("wire", ("left 2",), "biting")]),
        ("wire biting on left 2, fine",
         [Look("wire", ("left 2",), "biting"), Look("wire", (), "fine")]),
        ("fine on left 1, biting on left 2",
         [Look("", ("left 1",), "fine"), Look("", ("left 2",), "biting")]),
        # Two findings at one place are one look, and where it bites it bites.
        ("wire biting on left 1, fine on left 1", [Look("wire", ("left 1",), "biting")]),
        ("wire on left 1, biting, fine", [Look("wire", ("left 1",), "biting")]),
        ("wire biting, fine", [Look("wire", (), "biting")]),
    ],
)  # fmt: skip
def test_a_line_is_parted_into_its_looks(checked, text, seen) -> None:
    assert list(looks(checked(text))) == seen


@pytest.mark.parametrize(
    ("text", "what", "findings"),
    [
        ("wire biting, ties fine", "wire", ["biting"]),
        ("wire biting, ties fine", "ties", ["fine"]),
        ("wire biting, ties fine", "guys", []),
        ("wire fine on left 1, wire biting on left 2", "wire", ["fine", "biting"]),
        ("", "guys", [""]),
    ],
)
def test_the_looks_at_one_thing(checked, text, what, findings) -> None:
    assert [look.finding for look in looks_meant(checked(text), what)] == findings


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("wire biting on left 1, fine on left 2", ["biting", "fine", ""]),
        ("wire fine, biting on left 2", ["fine", "biting", "fine"]),
        ("wire fine on left 1, wire biting on left 2", ["fine", "biting", ""]),
        ("wire, biting", ["biting", "biting", "biting"]),
        ("ties biting", ["", "", ""]),
    ],
)
def test_what_was_found_on_a_part(checked, text, found) -> None:
    event = checked(text)
    assert [found_on(event, "wire", part) for part in ("left 1", "left 2", "apex")] == found


@pytest.mark.parametrize(
    ("what", "settled_by"),
    [
        ("wire", ("checked wire", "unwired")),
        ("graft", ("checked graft", "separated")),
        ("roots", ("checked roots", "repotted")),
        ("pests", ("checked pests",)),
        ("", ("checked",)),
    ],
)
def test_what_settles_the_next_look(what, settled_by) -> None:
    assert Look(what, (), "").settled_by == settled_by
