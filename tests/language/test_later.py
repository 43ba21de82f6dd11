"""What is planned, put off, skipped, corrected."""

from __future__ import annotations

import pytest

from backbud_grammar.acts import ACTS, by_word
from backbud_grammar.parse import Details

READER = Details(by_word(ACTS))


@pytest.mark.parametrize(
    ("line", "named", "expected"),
    [
        ("planned repot, to 2028-03/2028-04", "repotted", ["when: 2028-03/2028-04"]),
        ("plan repot to 2028-03", "repotted", ["when: 2028-03"]),
        (
            "planned repotted, into tray-9, mix maple, to 2028",
            "repotted",
            ["into: tray-9", "mix: maple", "when: 2028"],
        ),
        ("planned move, to tunnel, in 2-3 weeks", "moved", ["to: tunnel", "in: 2-3 week"]),
        ("planned move to tunnel in 3 weeks", "moved", ["to: tunnel", "in: 3 week"]),
        ("planned quarantine in glass, in 3 weeks", "quarantined", ["to: glass", "in: 3 week"]),
        ("planned wire on left 2", "wired", ["part: on left 2"]),
        ("put-off repot, to 2028", "repotted", ["when: 2028"]),
        ("put-off repot in 2-3 weeks", "repotted", ["in: 2-3 week"]),
        ("skipped repot", "repotted", []),
        ("skip Decandle", "decandled", []),
        (
            "corrected repotted 2027-03-06, 1 cm off below",
            "repotted",
            ["date: 2027-03-06", "off below: 1 cm"],
        ),
        ("corrected repot 2027-03-06, not done", "repotted", ["date: 2027-03-06", "not done"]),
        (
            "corrected wired 2027-03-06, 2 mm on apex",
            "wired",
            ["date: 2027-03-06", "wire: 2 mm on apex"],
        ),
        (
            "corrected noted 2027-03-06 the left one, really -- yes",
            "noted",
            ["date: 2027-03-06", "text: the left one, really -- yes"],
        ),
        ("corrected noted 2027-03-06, not done", "noted", ["date: 2027-03-06", "not done"]),
    ],
)
def test_an_act_about_an_act(details, line, named, expected) -> None:
    assert details(line) == expected
    word, _, text = line.partition(" ")
    assert READER.of(READER.acts[word], text).named == named


@pytest.mark.parametrize(
    ("line", "code"),
    [
        ("planned", "unknown-act"),
        ("planned to 2028", "unknown-act"),
        ("planned repott", "unknown-act"),
        ("planned noted call her", "unknown-act"),
        ("planned planned repot", "unknown-act"),
        ("skipped corrected repotted", "unknown-act"),
        ("corrected", "unknown-act"),
        ("corrected corrected repotted 2027-03-06", "unknown-act"),
        ("corrected repotted", "no-date"),
        ("corrected repotted, 1 cm off below", "no-date"),
        ("corrected noted the left one", "no-date"),
        ("planned repot, 2028-03", "unexpected-date"),
        ("planned repot, in 3", "no-unit"),
        ("planned repot, in 3 cm", "wrong-measure"),
        ("planned repot, same pott", "unknown-detail"),
    ],
)
def test_what_is_wrong_with_it(flaws, line, code) -> None:
    assert flaws(line) == [code]


def test_a_correction_without_a_remark_of_its_own_keeps_it(read) -> None:
    journal = read("2027-03-06\nhoshi\n  corrected repotted 2027-03-05, not done -- it was yuki\n")
    assert journal.acts == [
        "2027-03-06 hoshi | corrected repotted 2027-03-05, not done -- it was yuki"
    ]


def test_a_rough_date_starts_nothing_and_an_exact_one_does(written) -> None:
    text = """
        place yard
          latitude 52 N
        tree hoshi
          kind     trident maple
          place    yard
        {day}
        hoshi
          wired    2 mm Al on left 1
    """
    for day, starts in (("2026-05-02", True), ("2026-05", False), ("2026-05-02~", False)):
        session = written(text.format(day=day), on="2026-06-20")
        plan = session.plan(["hoshi"])
        because = [reason.text for f in plan.follow_ups["hoshi"] for reason in f.because]
        assert any("wired" in text for text in because) is starts
