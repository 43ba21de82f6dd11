"""What each line of a page does to whom, where it hangs on what stood before; counted by hand."""

from __future__ import annotations

from datetime import date

import pytest
from tests.conftest import UNSAID

CARDS = """place yard
place bench
pot tray-7
person marrow
tree hoshi
  kind   trident maple
  place  yard
tree yuki
  kind   trident maple
  place  yard
tree whips
  kind   field maple
  count  50 whips
  place  yard
group pair
  trees  hoshi, yuki

"""
# The first line after the cards is the 18th.
FIRST = 18


def told(session) -> list[tuple[str, int]]:
    """Code and line of each problem, from the first line after the cards on."""
    return [(p.code, p.line - FIRST) for p in session.problems() if p.code not in UNSAID]


def acts_of(session, handle: str) -> list[tuple[str, str]]:
    return [(str(e.event.day)[5:], e.event.act) for e in session.histories.trees[handle].entries]


# ------------------------------------------------------------------ a number that cannot be


@pytest.mark.parametrize(
    ("line", "column", "length"),
    [
        # The number, behind the act and two spaces or one; the act where there is no number.
        ("  lost  51 of them", 9, 2),
        ("  lost 51 of them", 8, 2),
        ("    lost  51 of them", 11, 2),
        ("  died  2-3", 9, 3),
        ("  parted-off", 3, 10),
    ],
)
def test_a_number_that_cannot_be_is_told_at_its_place(written, line, column, length) -> None:
    session = written(f"{CARDS}2026-06-01\nwhips\n{line}\n", problems=("wrong-count",))
    [problem] = [p for p in session.problems() if p.code == "wrong-count"]
    assert (problem.line, problem.column, problem.length) == (FIRST + 2, column, length)


# ------------------------------------------------------------------ who comes and goes


def test_who_goes_between_two_lines_is_told_at_the_second(written) -> None:
    pages = (
        "2026-06-01\nhoshi, yuki\n  watered\n2026-06-02\nhoshi\n  died\n"
        "2026-06-03\nhoshi, yuki\n  watered\n"
    )
    session = written(CARDS + pages, problems=("not-here",))
    assert told(session) == [("not-here", 8)]
    assert [day for day, _ in acts_of(session, "yuki")] == ["06-01", "06-03"]


def test_of_a_group_those_are_meant_that_are_here_or_may_be_away(written) -> None:
    pages = (
        "2026-06-01\nyuki\n  sold to marrow\n2026-06-02\npair\n  watered\n"
        "2026-06-03\npair\n  planned  repot, to 2028-03\n"
    )
    session = written(CARDS + pages)
    assert acts_of(session, "hoshi") == [("06-02", "watered"), ("06-03", "planned")]
    assert acts_of(session, "yuki") == [("06-01", "sold"), ("06-03", "planned")]


def test_what_begins_without_a_card_is_meant_from_then_on(written) -> None:
    pages = (
        "2026-06-01\nhoshi, reds\n  watered\n2026-06-02\nyuki\n  struck  20 cuttings, as reds\n"
        "2026-06-03\nhoshi, reds\n  watered\n"
    )
    session = written(CARDS + pages, any_problems=True)
    assert acts_of(session, "reds") == [("06-02", "struck"), ("06-03", "watered")]
    assert [day for day, _ in acts_of(session, "hoshi")] == ["06-01", "06-03"]


def test_of_who_is_gone_nothing_else_is_told(written) -> None:
    pages = "2026-06-01\nhoshi\n  died\n2026-06-02\nhoshi\n  unwired  on left 1\n"
    assert told(written(CARDS + pages, problems=("not-here",))) == [("not-here", 5)]


def test_who_is_worked_on_before_its_coming_is_told_at_its_coming_alone(written) -> None:
    pages = (
        "2026-06-02\nhoshi\n  watered\n2026-06-03\nhoshi\n  moved  bench\n"
        "2026-06-05\nhoshi\n  bought\n2026-06-06\nhoshi\n  moved  yard\n"
    )
    session = written(CARDS + pages, problems=("here-already",))
    assert told(session) == [("here-already", 8)]


@pytest.mark.parametrize(
    ("owner", "act", "code"),
    [
        # What another owned is bought while it is here.
        ("  owner  marrow\n", "bought", None),
        ("", "bought", "here-already"),
        ("  owner  marrow\n", "received", "here-already"),
    ],
)
def test_what_another_owned_is_bought_while_it_is_here(written, owner, act, code) -> None:
    cards = CARDS.replace("trident maple\n", f"trident maple\n{owner}", 1)
    pages = f"2026-06-02\nhoshi\n  watered\n2026-06-05\nhoshi\n  {act}\n"
    session = written(cards + pages, any_problems=True)
    assert [found for found, _ in told(session)] == ([code] if code else [])


@pytest.mark.parametrize(
    ("day", "act", "code"),
    [
        ("2026-04-30", "watered", "before-since"),
        ("2026-05-01", "watered", None),
        ("2026-04-30", "bought", None),
    ],
)
def test_a_line_before_its_card_is_told_but_for_its_coming(written, day, act, code) -> None:
    cards = CARDS.replace("trident maple\n", "trident maple\n  since  2026-05-01\n", 1)
    session = written(f"{cards}{day}\nhoshi\n  {act}\n", any_problems=True)
    assert [found for found, _ in told(session)] == ([code] if code else [])


# ------------------------------------------------------------------ batches


def test_how_many_came_counts_though_they_were_worked_on_before(written, tree) -> None:
    cards = CARDS.replace("  count  50 whips\n", "")
    pages = "2026-06-02\nwhips\n  watered\n2026-06-05\nwhips\n  received  10 whips\n"
    session = written(cards + pages, problems=("here-already",))
    assert tree(session, "whips").counted == "10 whips"


def test_what_was_not_done_counts_and_begins_nothing(written, tree) -> None:
    pages = (
        "2026-06-01\nwhips\n  died  3\n  parted-off  5, as reds\nhoshi\n"
        "  struck  20 cuttings, as blues\n"
        "2026-06-02\nwhips\n  corrected  died 2026-06-01, not done\n"
        "  corrected  parted-off 2026-06-01, not done\n"
        "hoshi\n  corrected  struck 2026-06-01, not done\n"
    )
    session = written(CARDS + pages, any_problems=True)
    assert tree(session, "whips").counted == "50 whips"
    assert {"reds", "blues"}.isdisjoint(session.histories.trees)


@pytest.mark.parametrize(
    ("line", "left"),
    [
        # Here by its card alone; a handle that another line gave; one that is free.
        ("parted-off  5, as hoshi", "50 whips"),
        ("parted-off  5, as reds", "50 whips"),
        ("parted-off  5, as blues", "45 whips"),
        ("parted-off  51, as blues", "50 whips"),
    ],
)
def test_what_finds_its_handle_taken_stays_with_the_batch(written, tree, line, left) -> None:
    pages = f"2026-06-01\nhoshi\n  struck  20 cuttings, as reds\n2026-06-02\nwhips\n  {line}\n"
    session = written(CARDS + pages, any_problems=True)
    assert tree(session, "whips").counted == left
    assert tree(session, "reds").counted == "20 cuttings"
    assert ("blues" in session.histories.trees) is (left == "45 whips")


@pytest.mark.parametrize(
    ("act", "anew"), [("separated  on left 1, as kaze", True), ("parted-off  as kaze", False)]
)
def test_only_a_layer_is_cut_free_anew_under_the_handle_of_one_that_died(
    written, tree, act, anew
) -> None:
    card = "tree kaze\n  kind   field maple\n\n"
    pages = (
        "2026-06-01\nwhips\n  parted-off  as kaze\n2026-06-02\nkaze\n  died\n"
        f"2026-06-03\nwhips\n  {act}\n"
    )
    session = written(card + CARDS + pages, any_problems=True)
    assert tree(session, "kaze").standing == ("here" if anew else "died")
    # One was parted off; a layer is none of them.
    assert tree(session, "whips").counted == "49 whips"


def test_what_has_no_card_is_meant_however_its_handle_is_written(written) -> None:
    pages = (
        "2026-06-02\nyuki\n  struck  20 cuttings, as reds\n2026-06-03\nReds, hoshi\n  watered\n"
        "2026-06-04\nall in yard except REDS\n  fed\n"
    )
    session = written(CARDS + pages)
    assert acts_of(session, "reds") == [("06-02", "struck"), ("06-03", "watered")]
    assert acts_of(session, "hoshi") == [("06-03", "watered"), ("06-04", "fed")]


# ------------------------------------------------------------------ totals, corrections


def test_a_price_is_shared_by_all_that_a_line_names(written) -> None:
    session = written(f"{CARDS}2026-06-01\nhoshi, yuki, tray-7\n  sold  90 EUR to marrow\n")
    [entry] = session.histories.trees["hoshi"].entries
    assert (entry.among, entry.totals) == (3, True)


@pytest.mark.parametrize(
    ("parts", "held"), [("on left 1", True), ("on left 1, on apex", False), ("", False)]
)
def test_a_line_that_takes_back_too_little_is_held_back(written, parts, held) -> None:
    pages = (
        "2026-06-01\nhoshi\n  wired  3 mm Al on left 1, 2 mm Al on apex\n"
        f"2026-06-02\nhoshi\n  corrected wired 2026-06-01, {parts}, not done\n"
    ).replace(", ,", ",")
    session = written(CARDS + pages, any_problems=True)
    last = session.histories.trees["hoshi"].entries[-1].event
    assert (last.day, bool(last.held)) == (date(2026, 6, 2), held)


def test_a_line_that_corrects_nothing_is_told_and_stays_as_it_is(written) -> None:
    pages = "2026-06-02\nhoshi\n  corrected  wired 2026-06-01, not done\n"
    session = written(CARDS + pages, problems=("nothing-to-correct",))
    assert [e.event.act for e in session.histories.trees["hoshi"].entries] == ["corrected"]
