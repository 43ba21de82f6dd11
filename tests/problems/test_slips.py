"""Every slip is one problem: its code, its place, what stands over the mark, what to do."""

from __future__ import annotations

import pytest

# Each act line with: code, column, what is marked, what the message says, what the hint says.
# What takes off, takes away, ends or finds well is done only where all of its line is understood.
HELD = ", so this line is held back and changes nothing"

LINES = [
    # a misspelled act
    (
        "  repoted same pot",
        "unknown-act",
        3,
        "repoted",
        "“repoted” is no act known here",
        "Did you mean “repotted”?",
    ),
    (
        "  planned repott, to 2028",
        "unknown-act",
        11,
        "repott",
        "“repott” is no act known here" + HELD,
        "Did you mean “repot”?",
    ),
    (
        "  planned",
        "unknown-act",
        3,
        "planned",
        "“planned” needs a work after it" + HELD,
        "For example: planned repot.",
    ),
    # an unknown or a wrong handle
    (
        "  moved tunel",
        "unknown-handle",
        9,
        "tunel",
        "no place is called “tunel”" + HELD,
        "Did you mean “tunnel”?",
    ),
    (
        "  moved hoshi",
        "wrong-kind",
        9,
        "hoshi",
        "“hoshi” is a tree, not a place" + HELD,
        "Its card stands in cards.txt:13.",
    ),
    (
        "  repotted into tray-3, mix mapel 4 L",
        "unknown-handle",
        29,
        "mapel",
        "no mix is called “mapel”",
        "Did you mean “maple”?",
    ),
    (
        "  sold to zzz, stays",
        "unknown-handle",
        11,
        "zzz",
        "no person is called “zzz”" + HELD,
        "Give it a card, “person zzz”, or check the spelling.",
    ),
    (
        "  fed solidd",
        "unknown-handle",
        7,
        "solidd",
        "no material is called “solidd”",
        "Did you mean “solid”?",
    ),
    # a bad unit
    (
        "  fed 2 gal",
        "unknown-unit",
        9,
        "gal",
        "“gal” is no unit known here",
        "Write US gal or UK gal (the UK one is a fifth larger), or say whose in backbud.toml.",
    ),
    (
        "  wired 2 cmm on left",
        "unknown-unit",
        11,
        "cmm",
        "“cmm” is no unit known here",
        "Did you mean “mm”?",
    ),
    (
        "  measured trunk 4 in",
        "unknown-unit",
        20,
        "in",
        "“in” is no unit known here",
        "Write inch.",
    ),
    (
        '  wired 3" on left',
        "unknown-unit",
        10,
        '"',
        '“"” is no unit known here' + HELD,
        "Write inch.",
    ),
    ("  wired 3 on left", "no-unit", 9, "3", "“3” has no unit", "Expected a length such as 2 cm."),
    (
        "  wired 3 kg on left",
        "wrong-measure",
        9,
        "3 kg",
        "“3 kg” is not what this act takes",
        "Expected a length such as 2 cm.",
    ),
    # a negative measure, a thousands separator, a gap
    (
        "  repotted off below -2 cm",
        "negative-measure",
        22,
        "-2 cm",
        "“-2 cm” is below zero",
        "Expected a length such as 2 cm.",
    ),
    (
        "  paid 1,200 EUR",
        "thousands-separator",
        8,
        "1,200 EUR",
        "“1,200” can be read two ways" + HELD,
        "Write 1200 if you mean thousands, or 1.2 if you mean a decimal.",
    ),
    (
        "  paid 1.200,50 EUR",
        "two-decimal-marks",
        8,
        "1.200,50 EUR",
        "“1.200,50” has two decimal marks" + HELD,
        "Write one decimal comma or point and no thousands separator.",
    ),
    (
        "  paid 1 200 EUR",
        "thousands-separator",
        8,
        "1 200 EUR",
        "“1 200 EUR” has a gap in it" + HELD,
        "Write 1200 EUR.",
    ),
    # dates in details
    (
        "  planned repot, to 2028-02-30",
        "no-such-date",
        21,
        "2028-02-30",
        "There is no 2028-02-30",
        "That month runs from 2028-02-01 to 2028-02-29.",
    ),
    (
        "  planned repot to March 2028",
        "bad-date",
        20,
        "March 2028",
        "“March 2028” is no date",
        "Write 2028-03.",
    ),
    (
        "  planned repot, to 2028-05/2028-03",
        "reversed-span",
        21,
        "2028-05/2028-03",
        "“2028-05/2028-03” ends before it begins",
        "Write 2028-03/2028-05.",
    ),
    (
        "  corrected repotted, 1 cm off below",
        "no-date",
        13,
        "repotted",
        "which “repotted” is corrected? Its date is missing" + HELD,
        "For example: corrected repotted 2027-03-06, not done.",
    ),
    # commas, quotes, dashes
    (
        "  repotted same pot,moss",
        "punctuation",
        20,
        ",",
        "no space stands after this comma",
        "Details are parted by a comma and a space.",
    ),
    (
        "  repotted same pot, , moss",
        "empty-detail",
        20,
        ",",
        "nothing stands behind this comma",
        "Take the comma out, or say what belongs here.",
    ),
    (
        "  repotted same pot,",
        "empty-detail",
        20,
        ",",
        "nothing stands behind this comma",
        "Take the comma out, or say what belongs here.",
    ),
    (
        '  shown at "Spring show, hall 2',
        "unclosed-quote",
        12,
        '"Spring show, hall 2',
        "this quotation mark is never closed",
        'A text with a comma stands in "double quotes".',
    ),
    # two acts' details mixed up
    (
        "  watered same pot",
        "unknown-detail",
        11,
        "same pot",
        "“same pot” is not understood here",
        "“same pot” belongs to “repotted”: write a line “repotted same pot”.",
    ),
    (
        "  repotted 3 mm Al on left 2",
        "unknown-detail",
        12,
        "3 mm Al on left 2",
        "“3 mm Al on left 2” is not understood here",
        "“3 mm Al on left 2” belongs to “wired”: write a line “wired 3 mm Al on left 2”.",
    ),
    (
        "  repotted same pott",
        "unknown-detail",
        12,
        "same pott",
        "“same pott” is not understood here",
        "Did you mean “same pot”? Free words go after “ -- ”.",
    ),
    (
        "  wired 3 mm Steel on left",
        "unknown-detail",
        14,
        "Steel",
        "“Steel” is not understood here",
        "Here may follow: Al, Cu, aluminium, copper, annealed. Free words go after “ -- ”.",
    ),
    (
        "  repotted wedges N Q",
        "unknown-wedge",
        21,
        "Q",
        "“Q” is no wedge of the root ball",
        "Wedges: N NE E SE S SW W NW, front back left right, or the clock 1 to 12; the front is S "
        "or 6.",
    ),
    (
        "  staged 120",
        "out-of-range",
        10,
        "120",
        "“120” is out of range",
        "It lies between 0 and 99.",
    ),
    (
        "  used 3 L",
        "no-handle",
        8,
        "3 L",
        "3 L of what?",
        "Name the material or the mix by its handle.",
    ),
    (
        "  photographed",
        "no-detail",
        3,
        "photographed",
        "“photographed” says nothing yet",
        "Expected: front, back, left, right, above, roots, detail, for owner, for the owner, "
        "for public, a picture's file.",
    ),
    # two words of one act, set too far apart to be certain; said in other words
    (
        "  stolen",
        "unknown-act",
        3,
        "stolen",
        "“stolen” is no act known here",
        "Write lost stolen.",
    ),
    (
        "  moved under the bench",
        "unknown-detail",
        9,
        "under the bench",
        "“under the bench” is not understood here" + HELD,
        "Name a place that has a card: moved tunnel -- under the bench.",
    ),
    (
        "  repotted mix 2 parts akadama",
        "unknown-unit",
        18,
        "parts",
        "“parts” is no unit known here",
        "The parts of a mix stand on its card; here stands its handle: mix maple.",
    ),
    (
        "  planned repot in March",
        "unknown-word",
        20,
        "March",
        "“March” is not understood beside “in”",
        "Write the year and the month: to 2027-03.",
    ),
    (
        "  planned prune, roots",
        "unknown-detail",
        18,
        "roots",
        "“roots” is not understood here",
        "For roots write a line “root-pruned off below 2 cm”.",
    ),
    (
        "  worked 2:30",
        "wrong-measure",
        10,
        "2:30",
        "“2:30” has no unit",
        "Write 2 h 30.",
    ),
    (
        "  worked 2:05",
        "wrong-measure",
        10,
        "2:05",
        "“2:05” has no unit",
        "Write 2 h 5.",
    ),
    (
        "  worked 2:00",
        "wrong-measure",
        10,
        "2:00",
        "“2:00” has no unit",
        "Write 2 h.",
    ),
    (
        "  soaked for 0:20",
        "wrong-measure",
        14,
        "0:20",
        "“0:20” has no unit",
        "Write 20 min.",
    ),
    (
        "  treated-deadwood lime sulphur, 0:20",
        "zero-ratio",
        34,
        "0:20",
        "“0:20” has a nought in it",
        "No number of a fraction or a ratio is 0.",
    ),
    (
        "  vigour apex very weak",
        "no-score",
        10,
        "apex very weak",
        "“apex very weak” does not say how it grows",
        "Write 1 to 5, or weak, fair, strong: apex 1 is very weak.",
    ),
    (
        "  weeded same pot",
        "unknown-detail",
        10,
        "same pot",
        "“same pot” is not understood here",
        "“same pot” belongs to “repotted”: write a line “repotted same pot”.",
    ),
    (
        "  unwired apex",
        "unknown-detail",
        11,
        "apex",
        "“apex” is not understood here" + HELD,
        "A part of the tree stands after “on”: on apex.",
    ),
    (
        "  unwired branch 3",
        "unknown-detail",
        11,
        "branch 3",
        "“branch 3” is not understood here" + HELD,
        "A part of the tree stands after “on”: on branch 3.",
    ),
    (
        "  repotted wedges front, left and right",
        "unknown-detail",
        26,
        "left and right",
        "“left and right” is not understood here",
        "Wedges stand together without commas: wedges N E S.",
    ),
    (
        "  separated on apex, as Foo",
        "bad-handle",
        25,
        "Foo",
        "“Foo” has a capital letter" + HELD,
        "Choose another handle for the new tree.",
    ),
    (
        "  separated as little  red",
        "bad-handle",
        13,
        "as little  red",
        "“little red” holds “ ”; a handle is letters, digits and hyphens" + HELD,
        "Choose another handle for the new tree.",
    ),
    (
        "  separated as tray-1",
        "bad-handle",
        16,
        "tray-1",
        "“tray-1” is a pot already" + HELD,
        "Choose another handle for the new tree.",
    ),
    (
        "  planned separate, as Foo",
        "bad-handle",
        24,
        "Foo",
        "“Foo” has a capital letter",
        "Choose another handle for the new tree.",
    ),
    (
        "  decandled first 3",
        "no-unit",
        19,
        "3",
        "“3” has no unit",
        "Expected a share such as 30 % or a fraction such as 1/3.",
    ),
    (
        "  turned left 90",
        "unknown-detail",
        10,
        "left 90",
        "“left 90” is not understood here",
        "Expected: an angle such as 90 degrees, quarter turn, half turn, "
        "quarter, half, round. Free words go after “ -- ”.",
    ),
]


@pytest.mark.parametrize(("line", "code", "column", "under", "message", "hint"), LINES)
def test_a_slip_in_an_act_line(tell_line, mark, line, code, column, under, message, hint) -> None:
    problem = tell_line(line)
    assert (problem.code, problem.column, mark(problem)) == (code, column, under)
    assert problem.message == message
    assert problem.hint == hint
    assert problem.severity == "error"


def test_what_a_slip_leaves_of_its_own_line_is_kept(tell) -> None:
    told = tell(
        "2027-03-06\nhoshi\n  repotted same pott, 2 cmm off below, into tray-3, "
        "mix mapel 4 L, moss\n"
    )
    assert told.codes == ["unknown-detail", "unknown-unit", "unknown-handle"]
    event = told.journal.pages[0].blocks[0].events[0]
    assert [detail.name for detail in event.details] == ["into", "mix", "moss"]
    assert told.histories.trees["hoshi"].pot == "tray-3"


def test_the_mark_is_right_on_a_line_that_goes_on(tell, mark) -> None:
    told = tell(
        "2027-03-06\nhoshi\n  repotted  same pot,\n"
        "            2 cmm off below,\n              mix mapel\n"
    )
    assert [(p.line, p.column, mark(p)) for p in told.problems] == [
        (4, 15, "cmm"),
        (5, 19, "mapel"),
    ]


def test_the_mark_is_right_behind_tabs_and_wide_letters(tell) -> None:
    from backbud_grammar.problems import show

    told = tell(
        "2027-03-06\nhoshi\n\tmoved\ttunel\n",
    )
    assert show(told.only()).splitlines()[1:3] == ["    \tmoved\ttunel", "    \t     \t^^^^^"]
    told = tell(
        "2027-03-06\n星, hosh\n  watered\n",
        cards="tree 星\n  kind trident maple\ntree hoshi\n  kind trident maple\nplace yard\n",
    )
    assert show(told.only()).splitlines()[1:3] == ["    星, hosh", "        ^^^^"]


# ------------------------------------------------------------------ pages and subject lines


@pytest.mark.parametrize(
    ("written", "code", "message", "hint"),
    [
        (
            "2027-02-30",
            "no-such-date",
            "There is no 2027-02-30",
            "That month runs from 2027-02-01 to 2027-02-28.",
        ),
        (
            "2027-13-06",
            "no-such-date",
            "There is no 2027-13-06",
            "Months are 01 to 12, and stand before the day: 2027-06-13?",
        ),
        ("2027-3-6", "bad-date", "“2027-3-6” is no date", "Write 2027-03-06."),
        (
            "6.3.2027",
            "bad-date",
            "“6.3.2027” is no date",
            "It can be read two ways: write 2027-03-06 or 2027-06-03.",
        ),
        (
            "2199-03-06",
            "future-date",
            "2199-03-06 has not come yet (today is 2027-06-01)",
            "Is the year right? What is still to come is written as planned: planned repot, "
            "to 2027-03.",
        ),
        (
            "2027-06-02",
            "future-date",
            "2027-06-02 has not come yet (today is 2027-06-01)",
            "What is still to come is written as planned: planned repot, to 2027-03.",
        ),
    ],
)
def test_a_date_that_cannot_be(tell, mark, written, code, message, hint) -> None:
    told = tell(
        f"2027-03-05\nhoshi\n  watered\n{written}\nhoshi\n  waterd\n2027-03-07\nyuki\n  watered\n"
    )
    # What stands below it has no day, but its other problems are told.
    date_problem, act_problem = told.problems
    assert (date_problem.code, date_problem.line, date_problem.column) == (code, 4, 1)
    if code != "future-date":
        hint = f"{hint} Until then the act below it is filed nowhere."
    assert (mark(date_problem), date_problem.message, date_problem.hint) == (written, message, hint)
    assert (act_problem.code, act_problem.line) == ("unknown-act", 6)
    assert told.acts == ["hoshi watered", "yuki watered"]


def test_an_act_after_today_with_and_without_on(tell) -> None:
    diary = "2027-03-05\nhoshi\n  watered\n2027-06-05\nhoshi\n  turned\n"
    assert tell(diary).codes == ["future-date"]
    told = tell(diary, as_of="2027-04-01")
    assert told.codes == []
    assert told.acts == ["hoshi watered"]
    told = tell(diary, as_of="2027-06-05")
    assert (told.codes, told.acts) == ([], ["hoshi watered", "hoshi turned"])


def test_a_year_long_ago_is_asked_about_and_kept(tell) -> None:
    told = tell("0207-03-06\nhoshi\n  noted a slip\n1750\nhoshi\n  noted known since\n")
    assert [(p.code, p.severity, p.hint) for p in told.problems] == [
        ("old-date", "warning", "Is the year right?")
    ]
    assert told.acts == ["hoshi noted a slip", "hoshi noted known since"]


# Each subject line with: code, column, what is marked, message, hint.
SUBJECTS = [
    ("hosh", "unknown-handle", 1, "hosh", "nothing is called “hosh”", "Did you mean “hoshi”?"),
    (
        "hoshi yuki",
        "bad-subjects",
        7,
        "y",
        "no comma stands before this",
        "Two trees have a comma between them: hoshi, yuki. One tree has one word: hoshi-yuki",
    ),
    (
        "yuki, The big maple",
        "bad-subjects",
        11,
        "b",
        "no comma stands before this",
        "One tree has one word: the-big-maple",
    ),
    (
        "hoshi all",
        "bad-subjects",
        7,
        "a",
        "no comma stands before this",
        "Write handles with commas, or all in PLACE, all of PERSON, all KIND, and then except …",
    ),
    (
        "hoshi and yuki",
        "bad-subjects",
        7,
        "and",
        "only a comma parts handles",
        "For example: hoshi, yuki",
    ),
    (
        "hoshi; yuki",
        "bad-subjects",
        6,
        ";",
        "only a comma parts handles",
        "For example: hoshi, yuki",
    ),
    (
        "hoshi,",
        "bad-subjects",
        6,
        ",",
        "nothing stands at this comma",
        "Take it out, or write a handle.",
    ),
    (
        ", hoshi",
        "bad-subjects",
        1,
        ",",
        "nothing stands at this comma",
        "Take it out, or write a handle.",
    ),
    (
        "hoshi, , yuki",
        "bad-subjects",
        6,
        ",",
        "nothing stands at this comma",
        "Take it out, or write a handle.",
    ),
    (
        "all in",
        "bad-subjects",
        1,
        "all in",
        "a handle is missing here",
        "Write all in PLACE, or all of PERSON.",
    ),
    (
        "all except",
        "bad-subjects",
        5,
        "except",
        "nothing stands after “except”",
        "Name what is left out: except hoshi, yuki",
    ),
    (
        "hoshi watered",
        "bad-subjects",
        7,
        "w",
        "the act “watered” stands on the subject line",
        "Acts stand on lines of their own below, indented.",
    ),
    (
        "tre oak",
        "bad-subjects",
        5,
        "o",
        "this is neither a card nor a subject line: “tre oak”",
        "A card begins with its kind and one handle: tree oak",
    ),
    (
        "all in nowhere",
        "unknown-handle",
        8,
        "nowhere",
        "no place is called “nowhere”",
        "Give it a card, “place nowhere”, or check the spelling.",
    ),
    (
        "all of hoshi",
        "wrong-kind",
        8,
        "hoshi",
        "“hoshi” is a tree, not a person",
        "Write hoshi.",
    ),
    (
        "all of Tunnel",
        "wrong-kind",
        8,
        "Tunnel",
        "“Tunnel” is a place, not a person",
        "Write all in tunnel.",
    ),
    (
        "all in marrow",
        "wrong-kind",
        8,
        "marrow",
        "“marrow” is a person, not a place",
        "Write all of marrow.",
    ),
    (
        "all in tray-1",
        "wrong-kind",
        8,
        "tray-1",
        "“tray-1” is a pot, not a place",
        "Its card stands in cards.txt:9.",
    ),
    (
        "tray 1",
        "bad-subjects",
        6,
        "1",
        "a handle has no blanks in it",
        "Did you mean “tray-1”?",
    ),
    (
        "all on the Tunnel",
        "unknown-kind",
        5,
        "on the Tunnel",
        "no tree is of the kind “on the Tunnel”",
        "Did you mean “all in tunnel”?",
    ),
    (
        "all trident maples",
        "unknown-kind",
        5,
        "trident maples",
        "no tree is of the kind “trident maples”",
        "Write the words as they stand on the cards: all trident maple.",
    ),
]


@pytest.mark.parametrize(("line", "code", "column", "under", "message", "hint"), SUBJECTS)
def test_a_slip_in_a_subject_line(tell, mark, line, code, column, under, message, hint) -> None:
    told = tell(f"2027-03-06\nhoshi\n  watered\n{line}\n  turned\nyuki\n  moved tunnel\n")
    problem = told.only()
    assert (problem.code, problem.line, problem.column) == (code, 4, column)
    assert (mark(problem), problem.message, problem.hint) == (under, message, hint)
    assert told.histories.trees["yuki"].place == "tunnel"
    assert [e.event.act for e in told.histories.trees["hoshi"].entries] == ["watered"]


def test_an_exception_on_a_line_of_its_own_may_be_of_what_stands_above_it(tell, mark) -> None:
    told = tell("2027-03-06\nhoshi, yuki\n  watered\nexcept yuki\n  turned\n")
    assert [(p.code, p.line, p.column, mark(p), p.message) for p in told.problems] == [
        ("held-back", 3, 3, "watered", "“except yuki” below may go on with this line" + HELD),
        ("bad-subjects", 4, 1, "except", "“except” has nothing to take from"),
    ]
    assert told.problems[1].hint == "For example: all in tunnel except hoshi"
    assert [e.event.held for e in told.histories.trees["yuki"].entries] == ["watered"]


def test_a_bad_handle_among_good_ones_leaves_the_good(tell) -> None:
    told = tell("2027-03-06\nhosh, yuki\n  watered\n")
    assert told.codes == ["unknown-handle"]
    assert [e.event.act for e in told.histories.trees["yuki"].entries] == ["watered"]


def test_acts_before_any_date_and_a_missing_handle_line(tell, mark) -> None:
    told = tell("hoshi\n  watered\n2027-03-06\n  turned\n  fed liquid\nhoshi\n  watered\n")
    assert [(p.code, p.line, p.column, mark(p)) for p in told.problems] == [
        ("no-date", 1, 1, "hoshi"),
        ("no-subject", 4, 3, "turned"),
        ("no-subject", 5, 3, "fed"),
    ]
    assert told.acts == ["hoshi watered"]
    assert told.problems[0].hint == "A page begins with its date at the left edge: 2027-03-06."
    assert told.problems[1].hint == (
        "Write the tree's handle on a line of its own, at the left edge."
    )


def test_a_subject_line_without_acts(tell) -> None:
    told = tell("2027-03-06\nhoshi\nyuki\n  watered\n")
    assert [(p.code, p.line, p.severity) for p in told.problems] == [("no-acts", 2, "warning")]
    assert told.acts == ["yuki watered"]


def test_an_act_at_the_left_edge_is_done_to_the_tree_above(tell) -> None:
    told = tell("2027-03-06\nhoshi\n  watered\nmoved tunnel\n  turned\nyuki\n  watered\n")
    problem = told.only()
    assert (problem.code, problem.line, problem.column) == ("act-at-edge", 4, 1)
    assert problem.message == "“moved” is an act, but stands at the left edge"
    assert problem.hint == "Put two spaces in front of an act."
    assert told.acts == ["hoshi watered", "hoshi moved tunnel", "hoshi turned", "yuki watered"]
    assert told.histories.trees["hoshi"].place == "tunnel"


def test_an_act_at_the_left_edge_with_nobody_above_it(tell) -> None:
    told = tell("2027-03-06\nwatered\n  turned\nyuki\n  watered\n")
    assert told.codes == ["act-at-edge"]
    assert told.acts == ["yuki watered"]


def test_a_continuation_that_begins_with_an_act_word(tell, mark) -> None:
    told = tell("2027-03-06\nhoshi\n  repotted same pot,\n      moved tunnel\n  turned\n")
    deeper = told.problems[-1]
    assert (deeper.code, deeper.line, deeper.column, mark(deeper)) == ("deeper-act", 4, 7, "moved")
    assert deeper.message == "“moved” is an act, but stands deeper than the line above"
    assert deeper.hint == (
        "It was left out. Put it at the same depth as the line above; if it goes on with that "
        "line, join the two."
    )
    # The comma in front of it leads nowhere now.
    assert [(p.code, p.line) for p in told.problems[:-1]] == [("empty-detail", 3)]
    assert told.acts == ["hoshi repotted same pot,", "hoshi turned"]
    assert told.histories.trees["hoshi"].place == "yard"


@pytest.mark.parametrize("word", ["Moved", "moved,", "moved:", "move"])
def test_an_act_word_is_one_in_any_case_and_with_a_comma_behind_it(tell, mark, word) -> None:
    told = tell(f"2027-03-06\nhoshi\n  noted it was\n      {word} to the tunnel\n")
    assert (told.only().code, mark(told.only())) == ("deeper-act", word.rstrip(",:"))
    assert told.acts == ["hoshi noted it was"]


@pytest.mark.parametrize("word", ["removed", "moved-on", "movedd"])
def test_a_word_that_only_holds_an_act_word_goes_on(tell, word) -> None:
    told = tell(f"2027-03-06\nhoshi\n  noted it was\n      {word} to the tunnel\n")
    assert told.codes == []
    assert told.acts == [f"hoshi noted it was {word} to the tunnel"]


def test_what_stands_as_deep_below_a_slip_is_left_out_with_it(tell) -> None:
    told = tell(
        "2027-03-06\nhoshi\n  noted  a storm\n      moved tunnel\n      and tied there\n"
        "        to the post\n      wired 3 mm\n    in the night\n  turned\n"
    )
    assert [(p.code, p.line, p.lines) for p in told.problems] == [
        ("deeper-act", 4, 3),
        ("deeper-act", 7, 1),
    ]
    assert told.problems[0].hint == (
        "It was left out, with what stands as deep below it. Put it at the same depth as the line "
        "above; if it goes on with that line, join the two."
    )
    # What stands less deep goes on with the line above the slip.
    assert told.acts == ["hoshi noted a storm in the night", "hoshi turned"]


@pytest.mark.parametrize("indent", ["  ", " ", "\t", "   "])
@pytest.mark.parametrize("deeper", [" ", "  ", "\t", "          "])
def test_a_label_deeper_than_the_line_above_is_never_swallowed(tell, mark, indent, deeper) -> None:
    told = tell(
        cards=f"place yard\ntree hoshi\n{indent}note  two scars\n{indent}{deeper}kind  maple\n"
        f"{indent}{deeper}root ball 34 x 24 x 6 cm\n{indent}since 2011\n"
    )
    assert [(p.code, p.line, mark(p)) for p in told.problems] == [
        ("deeper-label", 4, "kind"),
        ("deeper-label", 5, "root ball"),
    ]
    assert told.problems[0].message == (
        "“kind” is a label of a tree, but stands deeper than the line above"
    )
    tree = told.journal.things.find("hoshi")
    assert [(line.detail.name, line.written.text) for line in tree.lines] == [
        ("note", "note  two scars"),
        ("since", "since 2011"),
    ]


def test_an_ingredient_deeper_than_the_one_above_is_never_swallowed(tell, mark) -> None:
    told = tell(
        cards="place yard\nmix maple\n akadama 2\n  pumice 1\nmix pine\n  note  to be sieved\n"
        "    at 2 mm, then at 4\n"
    )
    assert (told.only().code, told.only().line, mark(told.only())) == ("deeper-label", 4, "pumice")
    assert told.only().message == (
        "“pumice” is an ingredient, but stands deeper than the line above"
    )
    assert told.journal.things.find("pine").text("note") == "to be sieved at 2 mm, then at 4"


@pytest.mark.parametrize(
    ("line", "word"),
    [("akadama 2", "akadama"), ("pine bark 1/2", "pine"), ("pumice 1,5 parts", "pumice"),
     ("lava 20 %", "lava")],
)  # fmt: skip
def test_an_ingredient_deeper_than_a_note_is_not_swallowed_by_it(tell, mark, line, word) -> None:
    told = tell("", cards=f"place yard\nmix grit\n  pumice 1\n  note coarse\n    {line}\n")
    assert (told.only().code, told.only().line, mark(told.only())) == ("deeper-label", 5, word)
    assert told.journal.things.find("grit").text("note") == "coarse"


@pytest.mark.parametrize(
    "line", ["first tried in spring 2014", "sieved to 2-4 mm", "in spring 2014", "of 3 sieves"]
)
def test_a_note_of_a_mix_may_hold_numbers(tell, line) -> None:
    told = tell("", cards=f"place yard\nmix grit\n  pumice 1\n  note coarse\n    {line}\n")
    assert told.codes == []
    assert told.journal.things.find("grit").text("note") == f"coarse {line}"


def test_a_card_line_goes_on_with_words_of_its_own(tell) -> None:
    told = tell(
        cards="place yard\n  low 1 1 2 4 6 9 11\n    11 9 7 4 2 C\ntree hoshi\n  kind maple\n"
        "  note two scars\n     noted in spring\n     and a kindly look\n"
    )
    assert told.codes == []
    assert told.journal.things.find("hoshi").text("note") == (
        "two scars noted in spring and a kindly look"
    )


@pytest.mark.parametrize(
    ("lines", "act", "details"),
    [
        (
            "  repotted same pot,\n      tied 2 mm x 2,\n      soaked 20 min\n",
            "repotted",
            ["same pot", "tied", "soaked"],
        ),
        ("  repotted same pot,\n      # both\n      Tied 2 mm\n", "repotted", ["same pot", "tied"]),
        ("  planned repot, to 2028,\n      soaked 20 min\n", "planned", ["when", "soaked"]),
        (
            "  corrected repotted 2027-03-06,\n      tied 2 mm\n",
            "corrected",
            ["date", "tied"],
        ),
    ],
)
def test_after_a_comma_a_label_of_the_act_goes_on_with_it(tell, lines, act, details) -> None:
    told = tell(f"2027-03-06\nhoshi\n  repotted same pot\nyuki\n{lines}  turned\n")
    assert [code for code in told.codes if code != "nothing-to-correct"] == []
    first, second = told.journal.pages[0].blocks[1].events
    assert (first.act, [detail.name for detail in first.details]) == (act, details)
    assert second.act == "turned"


@pytest.mark.parametrize(
    "above",
    # No comma; no label of that act; the comma stands in a remark, or in prose.
    ["repotted same pot", "moved tunnel,", "repotted same pot -- dry,", "noted dry, light,"],
)
def test_a_deeper_act_goes_on_with_nothing_else(tell, mark, above) -> None:
    told = tell(f"2027-03-06\nhoshi\n  {above}\n      watered twice\n")
    deeper = told.problems[-1]
    assert (deeper.code, deeper.line, mark(deeper)) == ("deeper-act", 4, "watered")
    assert told.acts == [f"hoshi {above.split(' --')[0]}"]


def test_the_mark_is_right_where_a_label_goes_on(tell, mark) -> None:
    told = tell("2027-03-06\nhoshi\n  repotted same pot,\n      tied 2 cmm\n")
    problem = told.only()
    assert (problem.line, problem.column, mark(problem)) == (4, 14, "cmm")


def test_a_new_tree_takes_the_handle_of_a_card_in_any_case(tell) -> None:
    assert tell("2027-03-06\nhoshi\n  separated on apex, as Chip\n", cards=CARD_OF_CHIP).codes == []


CARD_OF_CHIP = "place yard\ntree hoshi\n  kind trident maple\ntree chip\n  kind trident maple\n"


def test_a_tab_among_spaces(tell) -> None:
    told = tell("2027-03-06\nhoshi\n  watered\n\tturned\n  fed liquid\n")
    assert [(p.code, p.line, p.severity) for p in told.problems] == [("mixed-indent", 4, "warning")]
    assert told.acts == ["hoshi watered", "hoshi turned", "hoshi fed liquid"]


def test_a_tab_below_free_words_may_go_on_with_them(tell) -> None:
    told = tell(
        "2027-03-06\nhoshi\n  noted the wind had\n\tmoved it\n\tturned\n  watered -- late\n"
        "\tmoved yard\n",
        cards="place yard\ntree hoshi\n  note two scars\n\tkind maple\n  since 2011\n\tpot x\n",
    )
    assert [(p.code, p.file, p.line, p.severity) for p in told.problems] == [
        ("mixed-indent", "cards.txt", 4, "error"),
        ("mixed-indent", "cards.txt", 6, "warning"),
        ("unknown-handle", "cards.txt", 6, "error"),
        ("mixed-indent", "diary.txt", 4, "error"),
        ("mixed-indent", "diary.txt", 5, "error"),
        ("mixed-indent", "diary.txt", 7, "error"),
    ]
    assert told.problems[3].hint == (
        "It was left out. Put the same in front of both lines, or join the two."
    )
    assert told.acts == ["hoshi noted the wind had", "hoshi watered"]


def test_deep_indentation(tell) -> None:
    told = tell(f"2027-03-06\nhoshi\n{' ' * 900}watered\n{' ' * 900}turned\n")
    assert (told.codes, told.acts) == ([], ["hoshi watered", "hoshi turned"])


def test_all_with_a_rough_date(tell, mark) -> None:
    told = tell("2027-03\nall in tunnel\n  watered\nhoshi\n  watered\n")
    problem = told.only()
    assert (problem.code, problem.line, mark(problem)) == ("rough-all", 2, "tunnel")
    assert problem.hint == "Write the date as 2027-03-06, or name the trees."
    assert [e.event.act for e in told.histories.trees["hoshi"].entries] == ["watered"]


def test_the_days_weather(tell, mark) -> None:
    told = tell(
        "2027-03-06   low 1, high 50 X, rain 4 mm, at tunel, sunny, rain 5 mm\n"
        "hoshi\n  watered\n2027-03-07 hoshi\n  watered\n2027-03-08 low 9 C, high 1 C\n"
    )
    assert [(p.code, p.line, p.column, mark(p)) for p in told.problems] == [
        ("no-unit", 1, 18, "1"),
        ("unknown-unit", 1, 29, "X"),
        ("unknown-handle", 1, 46, "tunel"),
        ("unknown-detail", 1, 53, "sunny"),
        ("said-twice", 1, 60, "rain 5 mm"),
        ("unknown-detail", 4, 12, "hoshi"),
        ("no-subject", 5, 3, "watered"),
        ("contradiction", 6, 12, "low 9 C, high 1 C"),
    ]
    assert told.problems[5].hint == "Handles stand on a line of their own below the date."
    assert told.acts == ["hoshi watered"]
    assert [(w.name, w.value) for w in told.journal.weather if w.day.day == 6] == [("rain", 4.0)]


# ------------------------------------------------------------------ what cannot have been


def test_a_tree_worked_on_after_it_was_sold(tell, mark) -> None:
    told = tell("2027-03-06\nhoshi\n  sold to quill\n2027-03-07\nhoshi, yuki\n  watered\n")
    problem = told.only()
    assert (problem.code, problem.line, problem.column, mark(problem)) == (
        "not-here",
        6,
        3,
        "watered",
    )
    assert problem.message == "“hoshi” is not here: sold on 2027-03-06"
    assert [e.event.act for e in told.histories.trees["yuki"].entries] == ["watered"]


def test_a_repotting_into_a_pot_where_another_tree_stands(tell) -> None:
    told = tell("2027-03-06\nhoshi\n  repotted into tray-2\n  turned\n")
    problem = told.only()
    assert (problem.code, problem.line) == ("pot-taken", 3)
    assert problem.message == "“yuki” stands in “tray-2”"
    assert [e.event.act for e in told.histories.trees["hoshi"].entries] == ["repotted", "turned"]


# ------------------------------------------------------------------ cards


def test_cards_with_something_wrong(tell, mark) -> None:
    told = tell(
        cards=(
            "place yard\n"
            "tree hoshi\n"
            "  kind   trident maple\n"
            "  owner  nobody\n"
            "  pot    yard\n"
            "  colr   red\n"
            "  trunk  -3 cm\n"
            "  since  2011-13\n"
            "  kind   pine\n"
            "strength weak\n"
            "tree hoshi\n"
            "  kind   trident maple\n"
            "tree kōyō\n"
            "  kind   trident maple\n"
            "tree koyo\n"
            "  kind   trident maple\n"
            "tree all\n"
            "group pair\n"
            "  trees  hoshi,\n"
            "         nix\n"
        )
    )
    assert [(p.code, p.line, p.column, mark(p)) for p in told.problems] == [
        ("unknown-handle", 4, 10, "nobody"),
        ("wrong-kind", 5, 10, "yard"),
        ("unknown-label", 6, 3, "colr"),
        ("negative-measure", 7, 10, "-3 cm"),
        ("no-such-date", 8, 10, "2011-13"),
        ("duplicate-label", 9, 3, "kind"),
        ("label-at-edge", 10, 1, "strength"),
        ("duplicate-card", 11, 6, "hoshi"),
        ("duplicate-card", 15, 6, "koyo"),
        ("bad-handle", 17, 6, "all"),
        ("unknown-handle", 20, 10, "nix"),
    ]
    said = {p.line: (p.message, p.hint) for p in told.problems}
    assert said[11] == (
        "“hoshi” already has a card",
        "The first stands in cards.txt:2. This one was left out; give it another handle.",
    )
    assert said[15] == (
        "“koyo” is read as “kōyō”, which already has a card",
        "The first stands in cards.txt:13. This one was left out; give it another handle.",
    )
    hoshi = told.journal.things.by_handle["hoshi"]
    assert {line.detail.name for line in hoshi.lines} == {
        "kind",
        "owner",
        "pot",
        "since",
        "strength",
    }
    assert hoshi.text("kind") == "trident maple"
    assert hoshi.text("strength") == "weak"


def test_a_handle_that_differs_by_a_mark_is_found_in_latin_and_not_in_kana(tell) -> None:
    cards = (
        "place yard\ntree kōyō\n  kind trident maple\ntree か\n  kind trident maple\n"
        "tree が\n  kind trident maple\n"
    )
    told = tell("2027-03-06\nKoyo, か\n  watered\nが\n  turned\n", cards=cards)
    assert told.codes == []
    acts = {
        handle: [e.event.act for e in tree.entries] for handle, tree in told.histories.trees.items()
    }
    assert acts == {"kōyō": ["watered"], "か": ["watered"], "が": ["turned"]}


def test_a_place_within_itself(tell, mark) -> None:
    told = tell(cards="place yard\n  within  shed\nplace shed\n  within  yard\n")
    assert {p.code for p in told.problems} == {"bad-reference"}
    assert [mark(p) for p in told.problems] == ["within", "within"]


@pytest.mark.parametrize("handle", ["🌲", "b_c", "b\u202ec", "b\u200dc"])
def test_a_weird_handle_is_one_problem_and_its_lines_name_it(tell, handle) -> None:
    told = tell(
        f"2027-03-06\n{handle}\n  watered\nyuki\n  watered\n",
        cards=f"tree {handle}\n  kind trident maple\ntree yuki\n  kind trident maple\nplace yard\n",
    )
    assert "bad-handle" in told.codes
    assert [e.event.act for e in told.histories.trees["yuki"].entries] == ["watered"]


def test_right_to_left_handles_and_text_are_read_and_shown(tell, mark) -> None:
    told = tell(
        "2027-03-06\nאורן\n  noted שלום עולם\n  moved אי-שם\nyuki\n  watered\n",
        cards="tree אורן\n  kind trident maple\ntree yuki\n  kind trident maple\nplace yard\n",
    )
    problem = told.only()
    assert (problem.code, problem.line, problem.column, mark(problem)) == (
        "unknown-handle",
        4,
        9,
        "אי-שם",
    )
    assert told.acts[0] == "אורן noted שלום עולם"


def test_combining_marks_count_as_letters_of_the_line_and_take_no_width(tell) -> None:
    from backbud_grammar.problems import show

    told = tell(
        "2027-03-06\nhoshi\n  pru\u0308ned hard, on apexx of\n",
    )
    assert show(told.problems[0]).splitlines()[2] == "      ^^^^^^"


def test_a_figure_that_nothing_asks_for_is_told_with_the_nearest(written) -> None:
    session = written(
        "place yard\n  latitude 52 N\ntree hoshi\n  kind  trident maple\n",
        settings="[figures]\npot_margin_c = 4\npot_margn_c = 4\n",
        problems=("unknown-figure",),
    )
    (slip,) = session.problems()
    assert (slip.file, slip.severity) == ("backbud.toml", "warning")
    assert slip.source == "pot_margn_c = 4"
    assert "pot_margin_c" in slip.hint


def test_a_figure_like_none_is_told_with_six_that_there_are(written) -> None:
    session = written(
        "place yard\n  latitude 52 N\ntree hoshi\n  kind  trident maple\n",
        settings="[figures]\nzzzzzzzz = 4\n",
        problems=("unknown-figure",),
    )
    (slip,) = session.problems()
    head, _, names = slip.hint.partition(": ")
    assert (head, names[-2:]) == ("Some are", " …")
    assert len(names.removesuffix(" …").split(", ")) == 6
