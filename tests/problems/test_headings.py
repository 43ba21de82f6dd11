"""What only seems to begin a page or a block files nothing under another's name."""

from __future__ import annotations

import pytest

BELOW = "hoshi\n  watered\nyuki\n  moved tunnel\n  turned\n"
FILED = " Until then the 3 acts below it are filed nowhere."
USUAL = "A page begins with its date at the left edge: 2027-03-06."


@pytest.mark.parametrize(
    ("heading", "hint"),
    [
        # The page above is of Friday, 20 November 2026; the year is offered, never taken.
        ("Sat 21 Nov", "Write 2026-11-21, if that is meant."),
        ("Nov 21", "Write 2026-11-21, if that is meant."),
        ("Samstag, 21. November", "Write 2026-11-21, if that is meant."),
        ("samedi 21 novembre", "Write 2026-11-21, if that is meant."),
        ("Sat, 2 Jan", "Write 2027-01-02, if that is meant."),
        # 21 November 2026 is no Sunday: one of the two is a slip, and nobody can tell which.
        (
            "Sun 21 Nov",
            "2026-11-21 is a Saturday: write 2026-11-21, or 2026-11-22 for the Sunday.",
        ),
        (
            "Friday, 21 November 2026",
            "2026-11-21 is a Saturday: write 2026-11-21, or 2026-11-20 for the Friday.",
        ),
        # The first one after the page above.
        ("Saturday", "Write 2026-11-21, if that is meant."),
        ("Mo", "Write 2026-11-23, if that is meant."),
        ("Di:", "Write 2026-11-24, if that is meant."),
        ("Sa 21.11.26", "Write 2026-11-21, if that is meant."),
        ("Sonnabend 21.11.2026", "Write 2026-11-21."),
        # 5 June 2026 is a Friday, 6 May a Wednesday.
        ("Fr, 5.6.2026", "Write 2026-06-05."),
        (
            "Do, 5.6.2026",
            "Neither 2026-06-05 (Friday) nor 2026-05-06 (Wednesday) is a Thursday: mend one of "
            "them.",
        ),
        ("Nov 21st", "Write 2026-11-21, if that is meant."),
        ("Nov 21 '26", "Write 2026-11-21, if that is meant."),
        ("Sat, 21 Nov 2026 08:15", "Write 2026-11-21."),
        ("März", USUAL),
        ("Week 47", USUAL),
        ("Sat 21 Nov 2026", "Write 2026-11-21."),
        ("[2026-11-21]", "Write 2026-11-21."),
        ("Date: 2026-11-21", "Write 2026-11-21."),
        ("== 2026 ==", "Write 2026."),
        ("-----", USUAL),
        ("Sat, hoshi", USUAL),
        # Digits of another width or script, and marks that nobody sees.
        ("２０２６-11-21", "Write 2026-11-21."),
        ("٢٠٢٦-11-21", "Write 2026-11-21."),
        ("\u200f2026-11-21", "Write 2026-11-21."),
        ("\u200e21 November", "Write 2026-11-21, if that is meant."),
        # A time that names no date.
        ("next day", USUAL),
        ("the evening", USUAL),
        ("am Abend", USUAL),
        # Words that stand alone, in any language.
        ("a rainy spell", USUAL),
        # A date behind a handle.
        ("yard, 21 November", "Write 2026-11-21, if that is meant."),
        ("all in yard, 21 Nov", "Write 2026-11-21, if that is meant."),
        ("hoshi 2026-11-21", "Write 2026-11-21."),
        ("hoshi, 21/11", "Write 2026-11-21, if that is meant."),
        ("hoshi, Saturday", "Write 2026-11-21, if that is meant."),
    ],
)
def test_a_heading_files_nothing_under_the_day_before(tell, mark, heading, hint) -> None:
    told = tell(f"2026-11-20\nkaze\n  watered\n{heading}\n{BELOW}")
    problem = told.only()
    assert (problem.code, problem.line, problem.lines) == ("bad-heading", 4, 6)
    assert mark(problem) == heading
    assert problem.message == f"“{heading}” is neither a date nor a subject line"
    assert problem.hint == f"{hint} A remark to yourself begins with #.{FILED}"
    assert told.acts == ["kaze watered"]
    assert told.histories.trees["hoshi"].entries == ()
    assert told.histories.trees["yuki"].place == "yard"


@pytest.mark.parametrize(
    ("heading", "code", "message", "hint"),
    [
        ("21/11", "bad-date", "“21/11” is no date", "Write 2026-11-21, if that is meant."),
        (
            "2/11",
            "bad-date",
            "“2/11” is no date",
            "Write 2027-11-02 or 2027-02-11, if that is meant.",
        ),
        ("21 Nov", "bad-date", "“21 Nov” is no date", "Write 2026-11-21, if that is meant."),
        ("21.11.2026", "bad-date", "“21.11.2026” is no date", "Write 2026-11-21."),
        ("2026/11/21", "bad-date", "“2026/11/21” is no date", "Write 2026-11-21."),
        ("2026.11.21", "bad-date", "“2026.11.21” is no date", "Write 2026-11-21."),
        # What seems a rough date and weather is one date.
        ("2026 11 21", "bad-date", "“2026 11 21” is no date", "Write 2026-11-21."),
        ("2026 Nov 21", "bad-date", "“2026 Nov 21” is no date", "Write 2026-11-21."),
        # The page above tells the century; the order, where both can be, nobody.
        ("21/11/26", "bad-date", "“21/11/26” is no date", "Write 2026-11-21, if that is meant."),
        ("11/21/26", "bad-date", "“11/21/26” is no date", "Write 2026-11-21, if that is meant."),
        ("26-11-21", "bad-date", "“26-11-21” is no date", "Write 2026-11-21, if that is meant."),
        ("21 Nov 26", "bad-date", "“21 Nov 26” is no date", "Write 2026-11-21, if that is meant."),
        (
            "5/6/26",
            "bad-date",
            "“5/6/26” is no date",
            "Write 2026-06-05 or 2026-05-06, if that is meant.",
        ),
        ("30.2.26", "bad-date", "“30.2.26” is no date", USUAL),
        ("21. November 2026", "bad-date", "“21. November 2026” is no date", "Write 2026-11-21."),
        (
            "2026-11-31",
            "no-such-date",
            "There is no 2026-11-31",
            "That month runs from 2026-11-01 to 2026-11-30.",
        ),
        (
            "2026-13-01",
            "no-such-date",
            "There is no 2026-13-01",
            "Months are 01 to 12, and stand before the day: 2026-01-13?",
        ),
    ],
)
def test_a_broken_date_is_one_problem(tell, mark, heading, code, message, hint) -> None:
    told = tell(f"2026-11-20\nkaze\n  watered\n{heading}\n{BELOW}")
    problem = told.only()
    assert (problem.code, problem.line, problem.lines) == (code, 4, 6)
    assert mark(problem) == heading
    assert (problem.message, problem.hint) == (message, f"{hint}{FILED}")
    assert told.acts == ["kaze watered"]


def test_a_broken_date_above_every_page_has_no_year_to_offer(tell) -> None:
    assert tell(f"21/11\n{BELOW}").only().hint == f"{USUAL}{FILED}"
    told = tell(f"Sat 21 Nov\n{BELOW}2027-03-06\nhoshi\n  turned\n")
    assert (told.only().code, told.only().line) == ("bad-heading", 1)
    assert told.acts == ["hoshi turned"]


def test_each_heading_is_told_and_so_are_slips_below_it(tell) -> None:
    told = tell("2026-11-20\nSat\nhoshi\n  watred\nSun\nhoshi\n  turned\n2026-11-23\nyuki\n  fed\n")
    assert [(p.code, p.line) for p in told.problems] == [
        ("bad-heading", 2),
        ("unknown-act", 4),
        ("bad-heading", 5),
    ]
    assert told.acts == ["yuki fed"]


@pytest.mark.parametrize(
    "line", ["yuki 2", "hoshi, sun", "- hoshi", "all in march", "hosih", "ume"]
)
def test_a_mistyped_subject_line_is_no_heading(tell, line) -> None:
    told = tell(f"2026-11-20\nkaze\n  watered\n{line}\n  turned\n{BELOW}")
    assert len(told.problems) == 1
    assert told.only().code in ("bad-subjects", "unknown-handle")
    assert [act for act in told.acts if "turned" not in act] == [
        "kaze watered",
        "hoshi watered",
        "yuki moved tunnel",
    ]
    assert [e.event.act for e in told.histories.trees["kaze"].entries] == ["watered"]


@pytest.mark.parametrize("heading", ["Xmas", "Midsummer", "weekend", "Sat+Sun", "Sat/Sun", "then"])
def test_a_word_alone_that_is_like_no_handle_begins_another_day(tell, heading: str) -> None:
    told = tell(f"2026-11-20\nkaze\n  watered\n{heading}\n{BELOW}")
    assert (told.only().code, told.only().line) == ("bad-heading", 4)
    assert told.acts == ["kaze watered"]


def test_a_word_alone_that_is_like_a_handle_is_a_slip_of_it(tell) -> None:
    told = tell("2026-11-20\nkaze\n  watered\nhosih\n\nyuki\n  fed\n")
    assert "bad-heading" not in told.codes
    assert told.acts == ["kaze watered", "yuki fed"]


def test_a_tree_may_be_called_as_a_month_is(tell) -> None:
    cards = "place yard\ntree may\n  kind trident maple\ngroup sun\n  trees may\n"
    told = tell("2026-11-20\nMay\n  watered\nsun\n  turned\n", cards=cards)
    assert told.codes == []
    assert [e.event.act for e in told.histories.trees["may"].entries] == ["watered", "turned"]


def test_a_card_that_cannot_be_read_ends_the_page_as_any_card_does(tell) -> None:
    told = tell(f"2026-11-20\nkaze\n  watered\ntree new one\n  turned\n{BELOW}")
    problem = told.only()
    assert (problem.code, problem.line, problem.column) == ("bad-subjects", 4, 6)
    assert problem.message == "this is neither a card nor a subject line: “tree new one”"
    assert problem.hint == (
        "A card begins with its kind and one handle: tree new-one. Until then the 4 acts below it "
        "are filed nowhere."
    )
    assert told.acts == ["kaze watered"]


@pytest.mark.parametrize("line", ["2026-11-21", "2026-11-21  low 1 C", "21.11.2026", "Sat 21 Nov"])
def test_an_indented_date_files_nothing_under_the_day_before(tell, line) -> None:
    told = tell(f"2026-11-20\nkaze\n  watered\n  {line}\n  turned\n{BELOW}")
    problem = told.only()
    assert (problem.code, problem.line, problem.lines) == ("indented-date", 4, 7)
    assert problem.message == "this date is indented, so it begins no page"
    assert problem.hint.startswith("Take the spaces in front of it out. ")
    assert problem.hint.endswith("Until then the 4 acts below it are filed nowhere.")
    assert told.acts == ["kaze watered"]


def test_an_indented_subject_line_files_nothing_under_the_tree_above(tell) -> None:
    told = tell("2026-11-20\nkaze\n  watered\n  hoshi\n  moved yard\n  turned\nyuki\n  fed\n")
    problem = told.only()
    assert (problem.code, problem.line, problem.lines) == ("indented-subject", 4, 3)
    assert problem.message == "“hoshi” is a tree, but stands indented"
    assert problem.hint == (
        "A subject line stands at the left edge. Until then the 2 acts below it are filed nowhere."
    )
    assert told.acts == ["kaze watered", "yuki fed"]
    assert told.histories.trees["kaze"].place == "tunnel"


def test_an_act_at_the_left_edge_is_done_to_nobody_below_a_line_that_names_nobody(tell) -> None:
    told = tell("2026-11-20\nkaze\n  watered\nhoshi yuki\n  turned\nmoved yard\n  fed\n")
    assert [(p.code, p.line, p.lines) for p in told.problems] == [
        ("bad-subjects", 4, 2),
        ("act-at-edge", 6, 2),
    ]
    assert told.acts == ["kaze watered"]
    assert told.histories.trees["kaze"].place == "tunnel"


@pytest.mark.parametrize("heading", ["## 2027-03-08", "# 8 March 2027", "## Mon 8 March 2027"])
def test_a_date_behind_hashes_files_nothing_under_the_day_before(tell, heading: str) -> None:
    told = tell(
        f"2027-03-07\nkaze\n  watered\n{heading}\nkaze\n  fed\n2027-03-09\nkaze\n  turned\n"
    )
    problem = told.only()
    assert (problem.code, problem.line) == ("bad-heading", 4)
    assert problem.message == f"“{heading}” is a remark to yourself, and begins no page"
    assert problem.hint == "Write 2027-03-08. Until then what stands below it is filed nowhere."
    assert told.acts == ["kaze watered", "kaze turned"]


def test_a_page_that_was_taken_out_is_a_remark(tell) -> None:
    told = tell("2027-03-07\nkaze\n  watered\n# 2027-03-08\n# kaze\n#   fed\nkaze\n  turned\n")
    assert told.codes == []
    assert told.acts == ["kaze watered", "kaze turned"]


@pytest.mark.parametrize("text", ["0-10-10, half strength", "7-3-6 at 5 mL/L"])
def test_a_feed_is_no_date(tell, text: str) -> None:
    told = tell(f"2027-03-07\nkaze\n  {text}\n  watered\n")
    assert told.codes == []
    assert told.acts[-1] == "kaze watered"
