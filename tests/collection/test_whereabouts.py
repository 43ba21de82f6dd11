"""What a diary says that cannot have been so: each on both sides, at its place in the file."""

from __future__ import annotations

from datetime import date

import pytest
from tests.conftest import UNSAID

CARDS = """place yard
pot tray-7
pot tray-9
material gold
tree hoshi
  kind   trident maple
  since  2026-01-01
  place  yard
tree yuki
  kind   trident maple
  since  2026-05-01
  place  yard

"""
# The first line after the cards is the 14th.
FIRST = 14


def told(written, text: str, code: str) -> list[tuple[int, int, int, str]]:
    """Line, column, length and message of each problem."""
    session = written(CARDS + text, problems=(code,) if code else ())
    return [
        (p.line, p.column, p.length, p.message) for p in session.problems() if p.code not in UNSAID
    ]


@pytest.mark.parametrize(
    ("day", "subject", "act", "early"),
    [
        ("2026-04-30", "yuki", "fed  4 cakes", True),
        ("2026-05-01", "yuki", "fed  4 cakes", False),
        ("2026-04-30", "hoshi", "fed  4 cakes", False),
        # Each of two speaks for itself, in whatever order.
        ("2026-04-30", "hoshi, yuki", "fed  4 cakes", True),
        ("2026-04-30", "yuki, hoshi", "fed  4 cakes", True),
        ("2026-05-01", "yuki, hoshi", "fed  4 cakes", False),
        # A rough date may have been on its last day.
        ("2026-04", "yuki", "fed  4 cakes", True),
        ("2026-05", "yuki", "fed  4 cakes", False),
        # It may well have come before its card speaks of it.
        ("2026-04-30", "yuki", "bought", False),
    ],
)
def test_nothing_is_done_before_the_card_speaks_of_the_tree(
    written, day, subject, act, early
) -> None:
    message = "“yuki” is on its card since 2026-05-01, after this day"
    found = told(written, f"{day}\n{subject}\n  {act}\n", "before-since" if early else "")
    assert found == ([(FIRST + 2, 3, 3, message)] if early else [])


@pytest.mark.parametrize(
    ("subject", "act", "message"),
    [
        ("tray-7", "repotted", "“tray-7” is a pot, and “repotted” is done to a tree"),
        ("hoshi, tray-7", "repotted", "“tray-7” is a pot, and “repotted” is done to a tree"),
        (
            "hoshi, yuki",
            "priced  3 EUR",
            "“hoshi” is a tree, and “priced” is done to a material or a pot",
        ),
    ],
)
def test_an_act_is_done_to_what_it_can_be_done_to(written, subject, act, message) -> None:
    found = told(written, f"2026-06-01\n{subject}\n  {act}\n", "wrong-subject")
    assert found == [(FIRST + 2, 3, len(act.split()[0]), message)]


def test_a_pot_on_two_cards_is_told_at_the_second(written) -> None:
    text = """tree sora
  kind  trident maple
  pot   tray-7
tree umi
  kind  trident maple
  pot   tray-7
tree kaze
  kind  trident maple
  pot   tray-9
"""
    assert told(written, text, "pot-taken") == [(FIRST + 3, 1, 4, "“sora” stands in “tray-7” too")]


@pytest.mark.parametrize(
    ("acts", "taken"),
    [
        (["hoshi\n  repotted  into tray-7", "yuki\n  repotted  into tray-7"], True),
        (["hoshi\n  repotted  into tray-7", "hoshi\n  repotted  into tray-7"], False),
        (["hoshi\n  repotted  into tray-7", "hoshi\n  died",
          "yuki\n  repotted  into tray-7"], False),
        (["hoshi\n  repotted  into tray-7", "hoshi\n  repotted  into tray-9",
          "yuki\n  repotted  into tray-7"], False),
        (["hoshi\n  repotted  into tray-7", "yuki\n  repotted  same pot"], False),
    ],
)  # fmt: skip
def test_a_pot_holds_one_tree(written, acts, taken) -> None:
    text = "2026-06-01\n" + "\n".join(acts) + "\n"
    found = told(written, text, "pot-taken" if taken else "")
    assert found == ([(FIRST + 4, 3, 8, "“hoshi” stands in “tray-7”")] if taken else [])


@pytest.mark.parametrize(
    ("act", "told_of"),
    [
        ("fed  4 cakes", True),
        ("repotted  into tray-7", True),
        # What may be written of a tree that is gone.
        ("noted  the buyer sent a picture", False),
        ("valued  300 EUR", False),
        ("planned  repot, to 2027-03", False),
        ("died", False),
        ("returned", False),
    ],
)
def test_what_is_done_to_a_tree_that_is_gone(written, act, told_of) -> None:
    text = f"2026-06-01\nhoshi\n  sold\n2026-06-02\nhoshi\n  {act}\n"
    found = told(written, text, "not-here" if told_of else "")
    message = "“hoshi” is not here: sold on 2026-06-01"
    assert found == ([(FIRST + 5, 3, len(act.split()[0]), message)] if told_of else [])


def test_a_line_that_is_not_there_cannot_be_corrected(written) -> None:
    text = "2026-06-01\nhoshi\n  fed  4 cakes\n2026-06-03\nhoshi\n  corrected fed {}, 3 cakes\n"
    assert told(written, text.format("2026-06-01"), "") == []
    assert told(written, text.format("2026-06-02"), "nothing-to-correct") == [
        (FIRST + 5, 3, 9, "“hoshi” has no fed on 2026-06-02")
    ]


def test_a_new_tree_wants_a_handle_of_its_own(written) -> None:
    text = """2026-05-02
yuki
  bought
2026-06-01
hoshi
  separated  on left 3, as yuki
"""
    assert told(written, text, "bad-handle") == [(FIRST + 5, 3, 9, "“yuki” is here already")]
    text = """2026-06-01
hoshi
  separated  on left 3, as chip
  separated  on left 4, as chip
"""
    assert told(written, text, "bad-handle") == [(FIRST + 3, 3, 9, "“chip” is taken")]


def test_a_new_tree_has_the_kind_owner_and_place_of_the_old_one(written, tree) -> None:
    text = """person marrow
tree umi
  kind   field maple
  owner  marrow
  place  yard
place bench
tree sora
  kind   trident maple
  since  2026-05-20
  place  bench
2026-06-01
umi
  separated  on left 3, as chip
  separated  on left 4, as sora
2026-06-02
chip
  noted  it stands well
"""
    session = written(CARDS + text)
    chip, sora = tree(session, "chip"), tree(session, "sora")
    assert (chip.kind, chip.owner, chip.place, chip.standing) == (
        "field maple", "marrow", "yard", "here"
    )  # fmt: skip
    # What its own card says stands.
    assert (sora.kind, sora.owner, sora.place, sora.standing) == (
        "trident maple", "marrow", "bench", "here"
    )  # fmt: skip
    assert (chip.since, sora.since) == (date(2026, 6, 1), date(2026, 5, 20))
    assert [entry.event.act for entry in chip.history] == ["separated", "noted"]


def fed(written, tree, pages: str) -> dict[str, int]:
    """How often each of the two trees was fed."""
    session = written(CARDS.replace("place yard\n", "place yard\nplace tunnel\n", 1) + pages)
    return {
        handle: sum(e.event.act == "fed" for e in tree(session, handle).history)
        for handle in ("hoshi", "yuki")
    }


def test_who_is_left_out_by_name_is_not_meant(written, tree) -> None:
    line = "2026-06-01\nhoshi, yuki except yuki\n  fed  4 cakes\n"
    assert fed(written, tree, line) == {"hoshi": 1, "yuki": 0}


def test_all_in_a_place_are_those_that_are_there_each_time(written, tree) -> None:
    pages = """2026-06-01
hoshi
  moved  tunnel
2026-06-02
all in tunnel
  fed  4 cakes
2026-06-03
hoshi
  moved  yard
yuki
  moved  tunnel
2026-06-04
all in tunnel
  fed  4 cakes
2026-06-05
all in tunnel
  fed  4 cakes
"""
    assert fed(written, tree, pages) == {"hoshi": 1, "yuki": 2}


def test_a_note_on_a_tree_and_a_pot_stands_in_both_histories(written, tree) -> None:
    session = written(CARDS + "2026-06-01\nhoshi, tray-7\n  noted  the glaze is cracked\n")
    assert [e.event.act for e in tree(session, "hoshi").history] == ["noted"]
    assert [event.act for event in session.histories.others["tray-7"]] == ["noted"]


def test_what_is_done_after_it_left_on_the_same_lines(written) -> None:
    assert told(written, "2026-06-01\nhoshi\n  fed  4 cakes\n  sold\n", "") == []
    assert told(written, "2026-06-01\nhoshi\n  sold\n  fed  4 cakes\n", "not-here") == [
        (FIRST + 3, 3, 3, "“hoshi” is not here: sold on 2026-06-01")
    ]


@pytest.mark.parametrize("new", ["yard", "tray-7", "all"])
@pytest.mark.parametrize("act", ["separated  on left 3, as", "parted-off  1, as"])
def test_what_has_no_handle_for_a_tree_begins_nothing(written, tree, act, new) -> None:
    """A place, a pot and a word of the language are told where the line is read, and once."""
    batch = "tree whips\n  kind   field maple\n  count  12 whips\n  place  yard\n"
    session = written(f"{CARDS}{batch}2026-06-01\nwhips\n  {act} {new}\n", any_problems=True)
    told_of = [p for p in session.problems() if p.code not in UNSAID]
    assert [(p.code, p.line) for p in told_of] == [("bad-handle", FIRST + 6)]
    assert set(session.histories.trees) == {"hoshi", "yuki", "whips"}
    assert tree(session, "whips").counted == "12 whips"


@pytest.mark.parametrize(
    ("parts", "taken_back"),
    [
        # All that was wired there is taken back, or more was, and the line is held back.
        ("on left 1, on apex", True),
        ("", True),
        ("on left 1", False),
    ],
)
def test_a_line_is_taken_back_whole_or_not_at_all(written, tree, parts, taken_back) -> None:
    pages = (
        "2026-06-01\nhoshi\n  wired  3 mm Al on left 1, 2 mm Al on apex\n"
        f"2026-06-02\nhoshi\n  corrected wired 2026-06-01, {parts}, not done\n"
    ).replace(", ,", ",")
    session = written(CARDS + pages, any_problems=True)
    found = [(p.line, p.message) for p in session.problems() if p.code not in UNSAID]
    message = "more was wired than left 1, so this line is held back and changes nothing"
    assert found == ([] if taken_back else [(FIRST + 5, message)])
    assert len(tree(session, "hoshi").on("wire")) == (0 if taken_back else 2)


@pytest.mark.parametrize(
    ("since", "day", "found"),
    [
        # Worked on before it comes: told at its coming, unless its card is of a later day than the
        # work; then the work is told, as a day before the card.
        ("", "2026-06-02", [("here-already", 5)]),
        ("  since  2026-06-02\n", "2026-06-02", [("here-already", 5)]),
        ("  since  2026-06-03\n", "2026-06-02", [("not-here", 2)]),
        ("", "2026-06-08", []),
    ],
)
def test_a_tree_that_comes_was_not_here_before(written, since, day, found) -> None:
    card = f"tree sora\n  kind   field maple\n  place  yard\n{since}"
    lines = sorted([(day, "fed  4 cakes"), ("2026-06-05", "bought")])
    pages = "".join(f"{when}\nsora\n  {act}\n" for when, act in lines)
    session = written(CARDS + card + pages, any_problems=True)
    first = FIRST + card.count("\n")
    problems = [p for p in session.problems() if p.code not in UNSAID]
    assert [(p.code, p.line - first) for p in problems] == found
    if found and found[0][0] == "here-already":
        message = "“sora” comes here on 2026-06-05, but was fed on 2026-06-02"
        assert [p.message for p in problems] == [message]
