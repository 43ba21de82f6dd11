"""A keeper's own words stand for words of the language, from a day on, and on act lines alone."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.fates import TODAY, fate_of_lines, fates_of

from backbud.cli import main
from backbud.journal.read import read_journal
from backbud.session import Session, open_session
from backbud_grammar.acts import ACTS, by_word
from backbud_grammar.outline import Known, read_act_line
from backbud_grammar.own_words import OwnTable, expanded, folded_run

KNOWN = Known.of(by_word(ACTS))
TABLE = {
    "uekae": "repotted",
    "btm": "below",
    "lime S": "lime sulphur",
    "lime S strong": "lime sulphur, undiluted",
    "ka shi": "planned",
    "memo": "noted",
    "ping": "pong",
    "pong": "ping",
    "put": "watered",
}
CARDS = "tree hoshi\n  kind   trident maple\n\ntree yuki\n  kind   trident maple\n\n"
WORDS = """\
words
  since  2026-03-06
{past}  uekae  repotted
  lime S  lime sulphur
  btm    below
  gone   returned

"""


def read(text: str) -> tuple[str, str] | None:
    table = OwnTable.of({folded_run(run): meaning for run, meaning in TABLE.items()})
    act = read_act_line(f"  {text}", 0, KNOWN)
    found = expanded(act, table, KNOWN)
    if found is None:
        return None
    line = f"{found.act.word} {found.act.text}".rstrip()
    return line, found.act.remark


@pytest.mark.parametrize(
    ("text", "meant"),
    [
        ("uekae same pot, 2 cm off btm", ("repotted same pot, 2 cm off below", "")),
        ("UEKAE   same pot", ("repotted same pot", "")),
        # The longest first.
        ("treated-deadwood lime S strong", ("treated-deadwood lime sulphur, undiluted", "")),
        ("treated-deadwood lime s", ("treated-deadwood lime sulphur", "")),
        ("ka shi uekae, to 2028", ("planned repotted, to 2028", "")),
        ("put", ("watered", "")),
        ("put off uekae, to 2028", ("put off repotted, to 2028", "")),
        # Never recursive.
        ("ping pong", ("pong ping", "")),
        # Not in the remark, not in quotes, not in prose, not over a comma.
        ("uekae same pot -- btm uekae", ("repotted same pot", "btm uekae")),
        ('uekae from "btm btm"', ('repotted from "btm btm"', "")),
        ("noted btm uekae", None),
        ("private btm", None),
        ("memo btm -- uekae", ("noted btm -- uekae", "")),
        ("corrected noted 2026-03-06 btm", None),
        ("treated-deadwood lime, S", None),
        # Whole words alone.
        ("uekaes btms", None),
    ],
)
def test_a_line_in_words_of_the_language(text: str, meant: tuple[str, str] | None) -> None:
    assert read(text) == meant


@given(st.lists(st.sampled_from((*TABLE, "x", ",", '"', "--", "'a'", "repotted", "2 cm"))))
def test_no_line_raises_and_each_letter_has_its_place(words: list[str]) -> None:
    table = OwnTable.of({folded_run(run): meaning for run, meaning in TABLE.items()})
    act = read_act_line("  " + (" ".join(words) or "x"), 0, KNOWN)
    found = expanded(act, table, KNOWN)
    if found is not None:
        assert len(found.old) == len(found.act.text) + 1
        assert list(found.old) == sorted(found.old)
        for column in range(len(found.old)):
            begin, length = found.span(column, 3)
            assert -len(act.word) - 1 <= begin <= len(act.text)
            assert length >= 1


def session(written: Any, past: str, diary: str, **more: Any) -> Session:
    text = CARDS + WORDS.format(past=past) + diary
    return written(text, "2026-11-20", **more)  # type: ignore[no-any-return]


def test_from_their_day_on_they_are_read_and_shown_as_written(written: Any, capsys: Any) -> None:
    found = session(written, "", "2026-03-06\n\nhoshi\n  uekae  same pot, 2 cm off btm\n")
    (entry,) = found.histories.trees["hoshi"].entries
    event = entry.event
    assert (event.act, event.text, event.own) == (
        "repotted",
        "same pot, 2 cm off below",
        "uekae same pot, 2 cm off btm",
    )
    folder = found.journal.folder
    main(["tree", "hoshi", folder, "--on", "2026-11-20"])
    assert "2026-03-06  uekae same pot, 2 cm off btm" in capsys.readouterr().out
    main(["tree", "hoshi", folder, "--on", "2026-11-20", "--as-read"])
    assert "2026-03-06  repotted same pot, 2 cm off below" in capsys.readouterr().out


def test_what_is_wrong_stands_in_its_place_on_the_line_as_written(written: Any) -> None:
    found = session(written, "", "2026-03-06\n\nhoshi\n  uekae  btm zzz, lime\n", any_problems=True)
    marks = [
        (p.line, p.source[p.column - 1 :][: p.length])
        for p in found.problems()
        if p.file == "journal.txt" and p.line > 16
    ]
    assert marks == [(17, "btm zzz"), (17, "lime")]


PAST = "2026-03-05\n\nhoshi\n  gone\n\nyuki\n  watered\n"


def test_the_past_stays_as_it_was_until_the_card_says_yes(written: Any, capsys: Any) -> None:
    """A line that would send a tree away does nothing, and is told."""
    before = session(written, "", PAST)
    assert [one.code for one in before.words_kept()] == ["unread-line"]
    assert before.histories.trees["hoshi"].standing == "here"
    folder = before.journal.folder
    assert main(["check", folder, "--on", "2026-11-20"]) == 1
    out = capsys.readouterr().out
    assert "1 line from before the day of your own words would be read otherwise" in out
    assert "  journal.txt:17: gone  →  returned" in out

    assert main(["due", folder, "--on", "2026-11-20"]) == 1
    assert "1 earlier line would read otherwise by your own words" in capsys.readouterr().err

    for past, standing, asks in (("  past   yes\n", "returned", 0), ("  past   no\n", "here", 0)):
        found = session(written, past, PAST, any_problems=True)
        assert found.histories.trees["hoshi"].standing == standing
        assert len(found.journal.own_past) == asks


def test_a_yes_that_is_taken_back_is_forgotten_by_the_memory_too(written: Any) -> None:
    """The same folder, with all that earlier runs remembered."""
    for past, standing in (("", "here"), ("  past   yes\n", "returned"), ("", "here")):
        found = session(written, past, PAST, any_problems=True)
        again = open_session(found.journal.folder, found.today)
        assert again.histories.trees["hoshi"].standing == standing


def test_words_that_come_later_have_a_day_of_their_own(written: Any) -> None:
    text = (
        f"{CARDS}words\n  since  2026-03-06\n  uekae  repotted\n  since  2026-05-01\n"
        "  gone   returned\n\n2026-04-01\n\nhoshi\n  uekae\n  gone\n\n2026-05-01\n\nyuki\n  gone\n"
    )
    trees = written(text, any_problems=True).histories.trees
    assert (trees["hoshi"].standing, trees["yuki"].standing) == ("here", "returned")
    assert [entry.event.act for entry in trees["hoshi"].entries] == ["repotted", "noted"]


def test_a_word_that_is_not_understood_without_it_does_not_settle_or_bill(written: Any) -> None:
    diary = "2026-03-05\n\nhoshi\n  zahlt 20 EUR\n"
    text = f"{CARDS}words money\n  since  2026-03-06\n  zahlt  paid\n\n{diary}"
    (entry,) = written(text).histories.trees["hoshi"].entries
    assert (entry.event.act, entry.event.kept) == ("noted", ("zahlt 20 EUR",))


@pytest.mark.parametrize(
    ("line", "message"),
    [
        ("wire  unwired", "“wire” is a word of the language already"),
        ("left x  below", "“left” is a word of the language already"),
        ("not ng  fine", "“not” is a word of the language already"),
        ("ng not  fine", "“not” limits what a line says"),
        ("hoshi x  wired", "“hoshi” is a handle of a tree"),
        ("2x  x 2", "“2x” does not begin with a letter"),
        ("foo baz", "nothing says what this stands for"),
        ('foo  "a b"', "own words stand for details"),
        ("foo  wired -- x", "own words stand for details"),
        ("foo, bar  wired", "own words hold no “,”"),
        ("uekae  wired", "“uekae” stands for “repotted”"),
    ],
)
def test_what_is_no_own_word(written: Any, line: str, message: str) -> None:
    found = session(written, f"  uekae  repotted\n  {line}\n", "", any_problems=True)
    told = [p.message for p in found.problems() if p.code == "own-word"]
    assert any(message in one for one in told), told


def test_without_a_day_they_are_not_read(written: Any) -> None:
    text = f"{CARDS}words\n  uekae  repotted\n\n2026-03-06\n\nhoshi\n  uekae\n"
    written(text, problems=("own-word-since",))


def test_a_card_without_a_day_is_one_problem(written: Any) -> None:
    words = "".join(f"  uekae{one}  repotted\n" for one in "abcd")
    text = f"{CARDS}words\n{words}\n2026-03-06\n\nhoshi\n  watered\n"
    found = written(text, problems=("own-word-since",))
    told = [one for one in found.problems() if one.code == "own-word-since"]
    assert [(one.line, one.lines) for one in told] == [
        (text[: text.index("  uekaea")].count("\n") + 1, 4)
    ]


def test_a_word_that_returns_three_times_is_proposed(written: Any, capsys: Any) -> None:
    acts = "2026-03-06\n\nhoshi\n  uekkae\n  pruned hesh\n  wired 2 mm Al on apex, hesh\n"
    found = written(
        f"{CARDS}{acts}  hesh apex\n  wattered\n  wattered\n  wattered\n", any_problems=True
    )
    main(["check", found.journal.folder, "--on", "2026-11-20"])
    out = capsys.readouterr().out
    assert "    hesh  WHAT IT MEANS\n" in out
    assert "# 3 lines, journal.txt:11 to journal.txt:13" in out
    # A slip is none, and twice is none.
    assert out.count("WHAT IT MEANS") == 1


@pytest.mark.parametrize("word", ["spritz", "vexed", "zupfen"])
def test_a_word_that_has_some_letters_of_an_act_is_no_slip_of_it(
    written: Any, capsys: Any, word: str
) -> None:
    """`spritz` is no `private`, `zupfen` no `open`: no hand slips that far three times."""
    lines = "".join(f"2026-03-0{day}\nhoshi\n  {word} the top {day}\n" for day in range(1, 4))
    found = written(CARDS + lines)
    main(["check", found.journal.folder, "--on", "2026-11-20"])
    assert f"    {word}  WHAT IT MEANS\n" in capsys.readouterr().out


def test_a_slip_of_an_own_word_is_told_which(written: Any) -> None:
    words = "words\n  since  2026-01-01\n  zogumaru  repotted\n\n"
    session = written(
        CARDS + words + "2026-03-06\nhoshi\n  zogumar same pot\n", problems=("unknown-act",)
    )
    [hint] = [p.hint for p in session.problems() if p.code == "unknown-act"]
    assert hint == "Did you mean “zogumaru”?"


def test_a_word_that_has_a_card_is_proposed_no_more(
    written: Any, capsys: Any, tmp_path: Any
) -> None:
    lines = "2026-03-06\nhoshi\n  kirigo a\n  kirigo b\n  kirigo c\n"
    written(CARDS + lines)
    main(["check", str(tmp_path)])
    assert "kirigo  WHAT IT MEANS" in capsys.readouterr().out
    # Earlier lines wait for a yes; they are listed as such, and the word is known.
    written(CARDS + "words\n  since  2026-04-01\n  kirigo  watered\n\n" + lines)
    main(["check", str(tmp_path)])
    told = capsys.readouterr().out
    assert "WHAT IT MEANS" not in told
    assert "kirigo a  →  watered a" in told


def test_each_line_of_a_card_is_used_or_told(tmp_path: Any) -> None:
    """A day that cannot be read tells each word below it; what slipped to the edge is told."""
    card = (
        "words bench\n  uekae  repotted\n  since  someday\n  btm  below\n  muro  glass\n"
        "  since  2026-03-06\n  past  yes\n  past  no\n  past  maybe\n  note  of mine\n"
        "  gone  returned\nhone  pruned\n"
    )
    fates = fate_of_lines("2026-03-07\n", tmp_path, f"{CARDS}{card}")
    found = fates_of(read_journal(str(tmp_path), TODAY))["cards.txt"][6:]
    assert fates == ["used", "blank"]
    assert found == [
        "used", "problem", "problem", "problem", "problem", "used", "used", "problem", "problem",
        "used", "used", "problem", "blank",
    ]  # fmt: skip
