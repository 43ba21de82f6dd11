"""Who was here before the first line of a tree that comes, goes, or is cut for more of its kind."""

from __future__ import annotations

import pytest

CARDS = """place yard
pot tray-7
  inside  30 x 20 x 6 cm
pot tray-9
  inside  30 x 20 x 6 cm
tree hoshi
  kind   trident maple
  place  yard
tree mother
  kind   field maple
  place  yard

"""
STRUCK = "2026-06-10\nhoshi\n  struck  50 cuttings\n"


@pytest.mark.parametrize(
    ("pages", "counted", "standing"),
    [
        # It begins with them, and was not here before.
        (STRUCK, "50 cuttings", "not yet"),
        # A line about another tells nothing of it.
        ("2026-05-02\nmother\n  watered\n" + STRUCK, "50 cuttings", "not yet"),
        # A plan may be written of what is not here.
        ("2026-05-02\nhoshi\n  planned  repot, to 2028-03\n" + STRUCK, "50 cuttings", "not yet"),
        # What was worked on is a mother: on an earlier day, above on its page, on its own lines.
        ("2026-05-02\nhoshi\n  watered\n" + STRUCK, "", "here"),
        ("2026-05-01\nmother\n  watered\n2026-05-02\nhoshi\n  watered\n" + STRUCK, "", "here"),
        ("2026-06-10\nhoshi\n  watered\n\nhoshi\n  struck  50 cuttings\n", "", "here"),
        ("2026-06-10\nhoshi\n  watered\n  struck  50 cuttings\n", "", "here"),
        # Below it, or later, it was done to the cuttings.
        (STRUCK + "  watered\n", "50 cuttings", "not yet"),
        (STRUCK + "\nhoshi\n  watered\n", "50 cuttings", "not yet"),
        (STRUCK + "2026-06-11\nhoshi\n  watered\n", "50 cuttings", "not yet"),
    ],
)
def test_what_was_worked_on_before_it_was_struck_is_a_mother(
    written, tree, pages, counted, standing
) -> None:
    session = written(CARDS + pages)
    assert tree(session, "hoshi").counted == counted
    assert tree(session, "hoshi", "2026-04-01").standing == standing


@pytest.mark.parametrize(
    ("since", "counted"), [("2026-06-09", ""), ("2026-06-10", "50 cuttings"), ("2026-05", "")]
)
def test_a_card_of_an_earlier_day_is_of_a_mother(written, tree, since, counted) -> None:
    cards = CARDS.replace("trident maple\n", f"trident maple\n  since  {since}\n", 1)
    assert tree(written(cards + STRUCK), "hoshi").counted == counted


@pytest.mark.parametrize(
    ("first", "then", "standing"),
    [
        # Who goes was here, and who comes was not.
        ("sold to una", "bought", "here"),
        ("died", "watered", "here"),
        ("bought", "sold to una", "not yet"),
        ("received", "returned", "not yet"),
    ],
)
def test_who_goes_was_here_and_who_comes_was_not(written, tree, first, then, standing) -> None:
    cards = CARDS + "person una\n"
    text = f"{cards}\n2026-03-01\nhoshi\n  {first}\n2026-05-01\nhoshi\n  {then}\n"
    session = written(text, any_problems=True)
    assert tree(session, "hoshi", "2026-02-01").standing == standing
    assert [p.code for p in session.problems() if p.line == cards.count("\n") + 4] == []


@pytest.mark.parametrize(
    ("label", "line", "counted", "pot"),
    [
        ("", "struck  50 cuttings, as reds", "50 cuttings", ""),
        ("", "struck  50 cuttings, as reds, into tray-7", "50 cuttings", "tray-7"),
        # What the line does not say, its card does.
        ("  count  12 cuttings\n", "struck  as reds", "12 cuttings", ""),
        ("  count  12 cuttings\n", "struck  9 cuttings, as reds", "9 cuttings", ""),
        ("  pot    tray-9\n", "struck  50 cuttings, as reds", "50 cuttings", "tray-9"),
        ("  pot    tray-9\n", "struck  50 cuttings, as reds, into tray-7", "50 cuttings", "tray-7"),
        ("  trunk  2 cm\n", "struck  50 cuttings, as reds", "", ""),
    ],
)
def test_what_is_raised_begins_as_its_line_says_and_else_its_card(
    written, tree, label, line, counted, pot
) -> None:
    card = f"tree reds\n  kind   field maple\n{label}\n"
    session = written(f"{CARDS}{card}2026-06-10\nmother\n  {line}\n")
    reds = tree(session, "reds")
    assert (reds.counted, reds.pot) == (counted, pot)
    # As the lines that follow find it.
    stands = session.histories.trees["reds"]
    assert (stands.batch.said if stands.batch else "", stands.pot) == (counted, pot)
    assert tree(session, "reds", "2026-06-09").standing == "not yet"
    assert (tree(session, "mother").counted, tree(session, "mother").pot) == ("", "")


def test_where_cuttings_of_two_mothers_went_neither_stands(written, tree) -> None:
    pages = (
        "2026-05-01\nhoshi, mother\n  watered\n"
        "2026-06-10\nhoshi\n  struck  50 cuttings, into tray-7\n"
        "mother\n  struck  20 cuttings, into tray-9\n"
    )
    session = written(CARDS + pages)
    assert [tree(session, handle).pot for handle in ("hoshi", "mother")] == ["", ""]
