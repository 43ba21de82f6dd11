"""What a customer was promised, and owes, stays asked for until the right act settles it."""

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
    tree scar
      kind      garden shrub
      owner     marrow
"""
KEEPER = 'home = "yard"\nkeeper = "una"\n'
CAME = """
    2026-03-01
    tarn
      received  from marrow for repotting
"""
AGREED = f"{CAME}      agreed    200 EUR for repotting, by 2026-05-30\n"


@pytest.fixture
def asked(written):
    """Write a diary below the cards, as it is on a day."""

    def ask(diary: str, on: str = "2026-11-20", settings: str = ""):
        return written(CARDS + diary, on, settings=KEEPER + settings)

    return ask


def test_agreed_work_is_due_before_the_hand_back_opens(asked, find, days) -> None:
    """Wanted by 30 May, the hand-back opens on the 16th: from 1 March that is 76 days, half 38."""
    work = find(asked(AGREED, "2026-03-02"), "agreed-work")
    assert (work.id, work.title) == (
        "tarn/agreed-work/agreed-2026-03-01",
        "do what was agreed: repotting",
    )
    assert days(work) == ["2026-03-01", "2026-04-08", "2026-05-16"]
    assert "EUR" not in " ".join(reason.text for reason in work.because)


def test_with_no_day_said_it_has_twelve_weeks_or_as_set(asked, find, days) -> None:
    """84 days from 1 March end on 24 May; 28 days on 29 March."""
    agreed = f"{CAME}      agreed    200 EUR for repotting\n"
    assert days(find(asked(agreed, "2026-03-02"), "agreed-work"))[2] == "2026-05-24"
    set_ = asked(agreed, "2026-03-02", "[figures]\nagreed_weeks = 4\n")
    assert days(find(set_, "agreed-work"))[2] == "2026-03-29"


def test_free_words_of_an_agreement_are_said_to_the_keeper(asked, find) -> None:
    """Else of two promises nobody knows which is which. Where it says nothing, what it came for."""
    agreed = f'{CAME}      agreed    200 EUR for "a first shaping, and new soil"\n'
    title = find(asked(agreed, "2026-03-02"), "agreed-work").title
    assert title == "do what was agreed: a first shaping, and new soil"
    plain = f"{CAME}      agreed    200 EUR\n"
    assert find(asked(plain, "2026-03-02"), "agreed-work").title == "do what was agreed: repotting"


def test_a_promise_says_when_the_tree_is_too_weak_for_it(asked, find) -> None:
    """It is still owed, and the keeper is told to ask; a tree that is fair has no such word."""
    fair = find(asked(f"{AGREED}      vigour fair\n", "2026-03-02"), "agreed-work")
    weak = asked(f"{AGREED}      vigour weak\n", "2026-03-02")
    assert fair.cautions == ()
    assert find(weak, "agreed-work").cautions == (
        "The tree is weak: leave this until it grows again.",
        "Tell its owner why it waits, and ask for another season.",
    )
    assert any("weak" in one for one in find(weak, "hand-back").cautions)
    apart = asked(f"{AGREED}      quarantined\n      protected fleece\n", "2026-03-02")
    assert [one.split(":")[0] for one in find(apart, "hand-back").cautions] == [
        "Keep it out of frost, sun and wind on the way.",
        "It stands in quarantine",
        "Its winter shelter should not be broken off",
    ]


@pytest.mark.parametrize(
    ("line", "state"),
    [
        ("ready", "done"),
        ("billed 200 EUR", "done"),
        ("worked 2 h", "promised"),
        ("pruned", "promised"),
    ],
)
def test_the_right_act_alone_settles_it_and_it_never_lapses(asked, states, line, state) -> None:
    session = asked(f"{AGREED}    2026-04-01\n    tarn\n      {line}\n")
    assert states(session, "agreed-work") == {"tarn/agreed-work/agreed-2026-03-01": state}


def test_what_is_agreed_later_is_another_promise(asked, states) -> None:
    """The owner rings and wants it wired as well: its repotting is promised still."""
    later = f"{CAME}      agreed    200 EUR for repotting\n    2026-03-09\n    tarn\n"
    wired = f"{later}      agreed    60 EUR for wiring\n"
    repotting, wiring = (
        "tarn/agreed-work/agreed-2026-03-01",
        "tarn/agreed-work/agreed-2026-03-09",
    )
    assert states(asked(wired, "2026-03-10"), "agreed-work") == {repotting: "now", wiring: "now"}
    done = f"{wired}    2026-03-12\n    tarn\n      repotted  same pot\n"
    assert states(asked(done, "2026-03-13"), "agreed-work") == {repotting: "done", wiring: "now"}


def test_the_same_work_agreed_again_is_one_promise(asked, states) -> None:
    """What was agreed last stands, and a price that names no work is that of the work named."""
    later = f"{CAME}      agreed    200 EUR for repotting\n    2026-03-09\n    tarn\n"
    first, again = "tarn/agreed-work/agreed-2026-03-01", "tarn/agreed-work/agreed-2026-03-09"
    same = asked(f"{later}      agreed    220 EUR for repotting\n", "2026-03-10")
    assert states(same, "agreed-work") == {first: "replaced", again: "now"}
    # It came for repotting, and so a price alone is for that; where nobody said what it came for,
    # the price is of the work named.
    price = f"{later}      agreed    220 EUR\n"
    assert states(asked(price, "2026-03-10"), "agreed-work") == {first: "replaced", again: "now"}
    plain = price.replace("from marrow for repotting", "from marrow")
    assert states(asked(plain, "2026-03-10"), "agreed-work") == {first: "now"}


def test_what_it_came_for_is_promised_beside_what_is_agreed_by_name(asked, states) -> None:
    """It came for repotting, at 200; then wiring is agreed: both are owed."""
    both = (
        f"{CAME}      agreed    200 EUR\n"
        "    2026-03-09\n    tarn\n      agreed    60 EUR for wiring\n"
    )
    assert states(asked(both, "2026-03-10"), "agreed-work") == {
        "tarn/agreed-work/agreed-2026-03-01": "now",
        "tarn/agreed-work/agreed-2026-03-09": "now",
    }


@pytest.mark.parametrize("line", ["repotted same pot", "potted-on", "slipped"])
def test_a_work_agreed_by_its_plain_word_is_kept_once_it_is_done(asked, find, line) -> None:
    agreed = f"{CAME}      agreed    repot, 200 EUR\n    2026-03-12\n    tarn\n      {line}\n"
    work = find(asked(agreed, "2026-03-13"), "agreed-work")
    assert (work.title, work.outcome) == ("do what was agreed: repot", "done")


@pytest.mark.parametrize(
    ("said", "title"),
    [
        ("repot and prune after flowering, 180 EUR", "repot and prune after flowering"),
        ("to repot it in spring, 180 EUR", "repot it in spring"),
        ("180 EUR, repot + wire", "repot + wire"),
        ("wire removal and a light prune, 20 EUR", "wire removal and a light prune"),
        ("a full restyle, 300 EUR", "a full restyle"),
    ],
)
def test_works_are_promised_in_the_words_they_were_agreed_in(asked, find, said, title) -> None:
    work = find(asked(f"{CAME}      agreed    {said}\n", "2026-03-02"), "agreed-work")
    assert work.title == f"do what was agreed: {title}"


def test_what_is_ready_early_is_not_late_before_the_day_it_is_wanted(asked, find, days) -> None:
    """Ready on 20 April and wanted by 15 May: until then nobody failed to come. Without such a day
    its owner has a fortnight."""
    wanted = CAME.replace("repotting", "repotting, wanted by 2026-05-15")
    ready = "    2026-04-20\n    tarn\n      ready\n"
    assert days(find(asked(wanted + ready, "2026-05-06"), "hand-back"))[2] == "2026-05-15"
    assert days(find(asked(CAME + ready, "2026-05-03"), "hand-back"))[2] == "2026-05-04"


def test_keep_by_the_month_and_an_hour_alone_promise_no_work(asked, states) -> None:
    kept = (
        f"{CAME}      agreed    18 EUR a month for winter storage\n      agreed    rate 40 EUR/h\n"
    )
    assert states(asked(kept), "agreed-work") == {}


def test_a_bill_is_open_until_sums_cover_it(asked, states) -> None:
    """80 billed; 50 paid of the tree leave it open, 30 more by its owner cover it."""
    bill = f"{CAME}    2026-04-01\n    tarn\n      billed    80 EUR, number 7\n"
    ident = "tarn/payment/billed-2026-04-01/7"
    assert states(asked(bill, "2026-04-02"), "payment") == {ident: "now"}
    part = f"{bill}    2026-04-10\n    tarn\n      paid      50 EUR\n"
    assert states(asked(part), "payment") == {ident: "promised"}
    paid = f"{part}    2026-05-03\n    marrow\n      paid      30 EUR by transfer\n"
    assert states(asked(paid), "payment") == {ident: "done"}


def test_a_credit_covers_what_a_payment_did_not(asked, states) -> None:
    diary = f"""{CAME}
    2026-04-01
    tarn
      billed    80 EUR, number 7
      returned  to marrow
    2026-04-03
    tarn
      paid      60 EUR
      credited  20 EUR on bill 7, number 8
    """
    assert states(asked(diary), "payment") == {"tarn/payment/billed-2026-04-01/7": "done"}


def test_the_bill_of_a_tree_that_went_home_is_asked_for(asked, find, days) -> None:
    """Billed on 1 April: best in 14 days, late after 28."""
    diary = f"{CAME}    2026-04-01\n    tarn\n      billed    80 EUR, number 7\n      returned\n"
    bill = find(asked(diary, "2026-04-02"), "payment")
    assert (bill.title, days(bill)) == (
        "see that bill 7 is paid",
        ["2026-04-01", "2026-04-15", "2026-04-29"],
    )


def test_payments_go_to_the_bill_they_name_then_to_the_oldest(asked, states) -> None:
    diary = f"""{CAME}
    scar
      received  from marrow
    2026-04-01
    tarn
      billed    80 EUR, number 7
    scar
      billed    80 EUR, number 8
    2026-04-03
    marrow
      paid      80 EUR, number 8
    """
    assert states(asked(diary, "2026-04-04"), "payment") == {
        "tarn/payment/billed-2026-04-01/7": "now",
        "scar/payment/billed-2026-04-01/8": "done",
    }


def test_its_owner_is_asked_some_weeks_later_and_that_settles_it(asked, find, states, days) -> None:
    """Home on 1 April: 4 weeks later is the 29th, and it lapses after 8, on 27 May."""
    home = f"{CAME}    2026-04-01\n    tarn\n      returned  to marrow\n"
    ask = find(asked(home, "2026-04-30"), "ask-after")
    assert (ask.title, days(ask)) == (
        "ask how it does at home",
        ["2026-04-29", "2026-04-29", "2026-05-27"],
    )
    told = f"{home}    2026-05-02\n    tarn\n      asked-after by phone -- full of leaf\n"
    assert states(asked(told), "ask-after") == {"tarn/ask-after/returned-2026-04-01": "done"}


def test_a_ready_tree_that_nobody_fetches_says_so(asked, find) -> None:
    from datetime import date

    session = asked(f"{CAME}    2026-04-01\n    tarn\n      ready\n")
    back = find(session, "hand-back")
    assert back.state(date(2026, 5, 1)) == "overdue"
    assert back.said_on(date(2026, 5, 1)) == (
        "It stands ready and nobody came for it: write to its owner."
    )


def test_what_comes_from_elsewhere_is_kept_apart_as_the_settings_say(asked, find, days) -> None:
    apart = asked(CAME, "2026-03-02", "[figures]\nquarantine_days = 21\n")
    first = find(apart, "arrival-check")
    assert (first.act, first.title) == (
        "quarantined",
        "quarantine away from the others for 21 days",
    )
    begun = f"{CAME}      quarantined\n"
    ends = find(asked(begun, "2026-03-02", "[figures]\nquarantine_days = 21\n"), "quarantine-ends")
    assert days(ends) == ["2026-03-22", "2026-03-22", "2026-03-29"]


@pytest.mark.parametrize(
    ("agreed", "done", "state"),
    [
        # One work of the language was agreed: it is kept once that work is done, or given up.
        ("70 EUR for repotting", "repotted same pot", "done"),
        ("70 EUR for repotting", "skipped repot -- too weak", "skipped"),
        ("70 EUR for repotting", "wired 2 mm Al on left 1", "now"),
        ("70 EUR for repotting", "ready", "done"),
        # What stands in free words, or is more than one, the tree's being ready tells.
        ('70 EUR for "new soil and a cut"', "repotted same pot", "now"),
    ],
)
def test_agreed_work_is_kept_once_it_is_done(written, states, agreed, done, state) -> None:
    session = written(
        "    person ada\n    tree tarn\n      kind garden shrub\n      owner ada\n\n"
        f"    2026-03-01\n    tarn\n      received from ada\n      agreed {agreed}\n"
        f"    2026-03-14\n    tarn\n      {done}\n",
        "2026-03-20",
    )
    found = states(session, "/agreed-work/")
    assert found == {"tarn/agreed-work/agreed-2026-03-01": state}


def test_what_was_agreed_waits_for_the_month_it_is_planned_for(asked, find, days) -> None:
    """The latest plan of that very work counts; one of another work does not. The middle of 29 days
    is the 14th after the first."""
    planned = f"{AGREED}      planned   repot, to 2026-04\n      planned   prune, to 2026-05\n"
    assert days(find(asked(planned, "2026-03-02"), "agreed-work")) == [
        "2026-04-01",
        "2026-04-15",
        "2026-04-30",
    ]


@pytest.mark.parametrize(
    ("named", "minutes"),
    [
        ("repotting", 60),  # as a repotting usually takes
        ('"repotting, wiring"', 180),  # and a wiring
        ('"hard pruning, then new soil"', 30),
        ('"a first shaping"', 10),  # no work that is known: to tell that it is ready
    ],
)
def test_agreed_work_takes_as_long_as_the_works_it_names(asked, find, named, minutes) -> None:
    """Each act's usual minutes stand in tests/plan/test_figures.py; common practice, no source."""
    agreed = f"{CAME}      agreed    200 EUR for {named}\n"
    assert find(asked(agreed, "2026-03-02"), "agreed-work").minutes == minutes


@pytest.mark.parametrize(
    ("lent", "wanted"),
    [
        ("lent to marrow, until 2026-08-20", ["2026-08-20", "2026-08-20", "2026-08-27"]),
        ("lent to marrow, for 6 weeks", ["2026-07-14", "2026-07-14", "2026-07-21"]),
        ("lent to marrow", None),
    ],
)
def test_what_was_lent_is_fetched_back_when_its_time_is_over(asked, find, days, lent, wanted):
    """Six weeks from 2 June end on 14 July; where no end was named, nothing asks."""
    diary = f"""
    tree sis
      kind   garden shrub
    2026-06-02
    sis
      {lent}
    """
    plan = asked(diary, "2026-09-01")
    if wanted is None:
        assert plan.plan().follow_ups.get("sis", ()) == ()
        return
    back = find(plan, "fetch-back")
    assert (back.id, back.title) == ("sis/fetch-back/lent-2026-06-02", "fetch it back")
    assert (days(back), back.state(plan.today)) == (wanted, "overdue")
    home = f"{diary}2026-09-03\n    sis\n      returned\n"
    again = asked(home, "2026-09-04").plan()
    assert again.trees["sis"].here
    assert not [f for f in again.follow_ups["sis"] if "fetch-back" in f.id]


def test_a_loan_of_a_month_is_history_and_asks_for_nothing(asked) -> None:
    diary = """
    tree sis
      kind   garden shrub
    2026-06
    sis
      lent to marrow, until 2026-08-20
    """
    assert asked(diary, "2026-09-01").plan().follow_ups.get("sis", ()) == ()


@pytest.mark.parametrize(
    ("came", "agreed", "asks"),
    [
        ("winter care", "120 EUR, for winter storage", False),
        ("winter care", "120 EUR", False),
        ("winter care", "120 EUR, for care", False),
        ("repotting", "120 EUR, for winter storage and care", False),
        ("winter care", "120 EUR, for winter storage and repotting", True),
        ("winter care", "120 EUR, for repotting", True),
        ("winter care", '120 EUR, for "care of the deadwood"', True),
    ],
)
def test_of_its_keep_only_the_end_is_news(asked, came: str, agreed: str, asks: bool) -> None:
    """A stay through the winter is no work to be done: it goes home by the day it is wanted."""
    boarded = f"""
    2025-10-11
    tarn
      received  from marrow, for "{came}", wanted by 2026-04-20
      agreed    {agreed}
"""
    plan = asked(boarded, "2026-02-01").plan()
    ours = {one.id.split("/")[1] for one in plan.follow_ups["tarn"] if one.promised}
    assert ours == ({"hand-back", "agreed-work"} if asks else {"hand-back"})
