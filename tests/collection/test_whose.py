"""A slip of the pen on a card does not make a customer's tree the keeper's own."""

from __future__ import annotations

import json

import pytest

from backbud.cli import main

CARDS = """\
place yard
  latitude  52 N
person una
  name      Una
person marrow
tree elm
  kind      trident maple
  place     yard
  {owner}
tree own
  kind      trident maple
  place     yard
"""
KEEPER = 'keeper = "una"\n'


@pytest.mark.parametrize(
    ("owner", "code", "whose"),
    [
        ("owner marow", "unknown-handle", "?"),
        ("owner elm", "wrong-kind", "?"),
        ("owner marow and sons", "unknown-word", "?"),
        ("owner", "no-value", "?"),
        ("ownr marrow", "unknown-label", "?"),
        ("owner marrow", "", "marrow"),
        ("owner una", "", "una"),
        ("hieght 3 cm", "unknown-label", ""),
    ],
)
def test_whose_a_tree_is_by_its_card(written, owner: str, code: str, whose: str) -> None:
    problems = (code,) if code else ()
    session = written(CARDS.format(owner=owner), settings=KEEPER, problems=problems)
    trees = session.plan().trees
    assert (trees["elm"].owner, trees["own"].owner) == (whose, "")


def test_a_tree_of_nobody_known_is_neither_the_keepers_nor_another_owners(
    written, tmp_path, capsys
) -> None:
    told = "2026-11-01\nall of una\n  watered\n"
    written(CARDS.format(owner="owner marow") + told, settings=KEEPER, problems=("unknown-handle",))
    assert main(["make", str(tmp_path), "--on", "2026-11-20"]) == 1
    calendars = tmp_path / "made-on/2026-11-20/calendars"
    assert "elm" in (calendars / "all.ics").read_text("utf-8")
    assert "elm" not in (calendars / "own.ics").read_text("utf-8")
    assert "own" in (calendars / "own.ics").read_text("utf-8")
    assert not (calendars / "owners").exists()
    page = (tmp_path / "made-on/2026-11-20/trees/elm.html").read_text("utf-8")
    assert "somebody unknown" in page
    capsys.readouterr()
    main(["tree", "elm", str(tmp_path), "--on", "2026-11-20"])
    assert "owner      somebody unknown" in capsys.readouterr().out
    main(["tree", "elm", str(tmp_path), "--on", "2026-11-20", "--json"])
    # What was done to all trees of the keeper was not done to it.
    assert json.loads(capsys.readouterr().out)["history"] == []
