"""A customer's tree goes home: from the agreement to the day it is one entry."""

from __future__ import annotations

import pytest

CARDS = """
    place yard
      latitude  56
    person una
    person marrow
    tree tarn
      kind      garden shrub
      owner     marrow
    tree mine
      kind      garden shrub
      owner     una
    tree ours
      kind      garden shrub
"""
KEEPER = 'home = "yard"\nkeeper = "una"\n'
VISIT = """
    2026-03-01
    tarn
      received  from marrow for repotting
      agreed    200 EUR for repotting, by 2026-05-30
"""
ID = "tarn/hand-back/received-2026-03-01"


def test_it_is_wanted_by_a_day(written, find, days) -> None:
    back = find(written(CARDS + VISIT, "2026-03-02", settings=KEEPER), "hand-back")
    assert (back.id, back.act, back.title) == (ID, "returned", "return to its owner")
    assert days(back) == ["2026-05-16", "2026-05-23", "2026-05-30"]
    assert back.because[0].text == "Its owner wants it back by 2026-05-30."
    assert back.because[0].origin.line == 18


def test_when_it_is_ready_the_same_entry_moves(written, find, days) -> None:
    ready = (
        VISIT
        + """
    2026-04-20
    tarn
      ready
    """
    )
    back = find(written(CARDS + ready, "2026-04-21", settings=KEEPER), "hand-back")
    assert back.id == ID
    # It is wanted by 30 May: until then nobody is late.
    assert days(back) == ["2026-04-20", "2026-04-27", "2026-05-30"]
    assert back.because[0].text == "20 April 2026: ready."


def test_it_is_put_off(written, find, days) -> None:
    later = (
        VISIT
        + """
    2026-05-20
    tarn
      put-off   return, to 2026-06-15 -- its new shoots are soft
    """
    )
    back = find(written(CARDS + later, "2026-05-21", settings=KEEPER), "hand-back")
    assert (back.id, days(back)) == (ID, ["2026-06-15"] * 3)


def test_gone_home_it_is_nobodys_work_and_the_next_visit_is_another(written, states, find) -> None:
    home = (
        VISIT
        + """
    2026-05-25
    tarn
      returned  to marrow
    """
    )
    # What is left to do is to ask, some weeks later, how it does; by November that has lapsed.
    assert states(written(CARDS + home, settings=KEEPER)) == {
        "tarn/ask-after/returned-2026-05-25": "lapsed"
    }
    again = (
        home
        + """
    2026-09-01
    tarn
      received  from marrow
    """
    )
    assert states(written(CARDS + again, settings=KEEPER), "hand-back") == {}
    ready = (
        again
        + """
    2026-09-10
    tarn
      ready
    """
    )
    back = find(written(CARDS + ready, settings=KEEPER), "hand-back")
    assert back.id == "tarn/hand-back/received-2026-09-01"


@pytest.mark.parametrize("handle", ["mine", "ours"])
def test_the_keepers_own_trees_go_nowhere(written, states, handle) -> None:
    session = written(
        CARDS
        + f"""
    2026-03-01
    {handle}
      agreed    by 2026-05-30
      ready
    """,
        settings=KEEPER,
    )
    assert states(session, f"{handle}/hand-back") == {}


def test_sold_and_still_here_it_is_a_customers_tree(written, find) -> None:
    session = written(
        CARDS
        + """
    2026-03-01
    ours
      sold      to marrow, 900 EUR, stays
      agreed    by 2026-12
    """,
        settings=KEEPER,
    )
    back = find(session, "ours/hand-back")
    assert back.id == "ours/hand-back/agreed-2026-03-01"
    assert "EUR" not in " ".join(reason.text for reason in back.because)


@pytest.mark.parametrize(
    ("paid", "outcome"),
    [
        (["200 EUR"], "done"),
        (["80 EUR"], "open"),
        (["80 EUR", "119 EUR"], "open"),
        (["80 EUR", "120 EUR"], "done"),
    ],
)
def test_a_bill_is_settled_by_its_sum_and_by_no_line_alone(
    written, find, days, paid, outcome
) -> None:
    pages = "".join(
        f"\n    2026-03-{20 + n}\n    tarn\n      paid  {one}\n" for n, one in enumerate(paid)
    )
    billed = "\n    2026-03-10\n    tarn\n      billed  200 EUR\n"
    payment = find(
        written(CARDS + VISIT + billed + pages, "2026-03-30", settings=KEEPER), "/payment/"
    )
    assert payment.outcome == outcome
    # A fortnight, and as long again.
    assert days(payment) == ["2026-03-10", "2026-03-24", "2026-04-07"]


@pytest.mark.parametrize(
    ("paid", "today", "told"),
    [
        # 400 days after 10 March 2026 is 14 April 2027; what is open is told for ever.
        ("200 EUR", "2027-04-14", True),
        ("200 EUR", "2027-04-15", False),
        ("199 EUR", "2027-04-15", True),
        ("199 EUR", "2029-04-15", True),
    ],
)
def test_a_bill_that_was_paid_is_told_of_for_about_a_year(written, states, paid, today, told):
    text = f"""
    2026-03-10
    tarn
      billed  200 EUR
    2026-03-20
    tarn
      paid    {paid}
    """
    found = states(written(CARDS + VISIT + text, today, settings=KEEPER), "/payment/")
    assert bool(found) is told


def test_a_hand_back_that_is_put_off_to_another_year_is_the_same_one(written, find, days) -> None:
    text = "\n    2026-05-20\n    tarn\n      put-off  return, to 2027-05\n"
    back = find(written(CARDS + VISIT + text, "2026-05-21", settings=KEEPER), "/hand-back/")
    assert (back.id, back.outcome) == (ID, "open")
    assert days(back) == ["2027-05-01", "2027-05-16", "2027-05-31"]


def test_a_tree_of_which_nothing_but_its_bill_is_written_is_asked_about(written, states) -> None:
    billed = "\n    2026-03-10\n    tarn\n      billed  200 EUR\n"
    session = written(CARDS + billed, "2026-03-30", settings=KEEPER)
    assert list(states(session, "/payment/")) == ["tarn/payment/billed-2026-03-10"]


def test_a_bill_of_a_person_stands_at_the_tree_that_came_last(written, states) -> None:
    billed = "\n    2026-03-10\n    marrow\n      billed  200 EUR\n"
    came = VISIT.replace("      agreed    200 EUR for repotting, by 2026-05-30\n", "")
    session = written(CARDS + came + billed, "2026-03-30", settings=KEEPER)
    assert list(states(session, "/payment/")) == ["tarn/payment/billed-2026-03-10"]
