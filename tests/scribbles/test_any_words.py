"""Any words at all in an act line: nothing raises, no line is lost, and no other line changes."""

from __future__ import annotations

from datetime import date
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st
from tests.examples import examples
from tests.fates import fate_of_lines

from backbud.session import open_session
from backbud_grammar.acts import ACTS, by_word
from backbud_grammar.parse import Details
from backbud_grammar.scribbles.read import Talk

CARDS = """\
person gwen
place yard
  latitude 52 N
place tunnel
  within yard
pot tray-7
tree hoshi
  kind trident maple
  since 2011
  place yard
tree yuki
  kind trident maple
  since 2011
  place yard
"""
# What the bench writes, and what it might: acts, nouns, amounts, limiters, marks, nonsense.
WORDS = [
    "wire",
    "wired",
    "off",
    "on",
    "unwired",
    "left",
    "right",
    "apex",
    "top",
    "low",
    "L1",
    "R2",
    "2",
    "1/3",
    "mm",
    '3"',
    "2in",
    "al",
    "cu",
    "hard",
    "not",
    "only",
    "rest",
    "yet",
    "but",
    "half",
    "soap",
    "repot",
    "repotted",
    "rptd",
    "uekae",
    "mekiri",
    "momiage",
    "same",
    "pot",
    "blue",
    "tray-7",
    "tunnel",
    "into",
    "in",
    "out",
    "back",
    "again",
    "dead",
    "died",
    "lost",
    "leaves",
    "buds",
    "swelling",
    "till",
    "tomorrow",
    "16/4",
    "5h",
    "Gwen",
    "gwen",
    "w/",
    "lvs",
    "btm",
    "fleece",
    "feed",
    "0-10-10",
    "@31",
    "120",
    "EUR",
    "checked",
    "fine",
    "ok",
    "?",
    "!",
    ".",
    ";",
    ",",
    "->",
    "+",
    "&",
    "--",
    "zyxxy",
    "moved",
    "sold",
    "returned",
    "home",
    "owner",
    "no",
    "skipped",
    "planned",
    "next",
    "spring",
    "candles",
    "needles",
    "2",
    "g/l",
    "abt",
    "ca.",
    "x4",
    "tied",
]
line = st.lists(st.sampled_from(WORDS), min_size=1, max_size=9).map(" ".join)


@settings(max_examples=examples(60))
@given(st.one_of(line, st.text(max_size=80)))
def test_no_line_raises(text: str) -> None:
    talk = Talk(Details(by_word(ACTS)))
    for told in talk.read(text.replace("\n", " ")):
        assert told.word.replace("-", " ") in {w.replace("-", " ") for w in talk.details.acts}


@settings(max_examples=examples(30))
@given(st.lists(line, min_size=1, max_size=4))
def test_every_line_ends_somewhere(lines: list[str]) -> None:
    diary = "2027-03-06\nhoshi\n" + "".join(f"  {one}\n" for one in lines)
    with TemporaryDirectory() as folder:
        fates = fate_of_lines(diary, Path(folder), CARDS)
    assert "lost" not in fates


LIMITERS = ["not", "no", "only", "if", "maybe", "almost", "yet", "tomorrow", "?", "never", "until"]
ACTS_DONE = [
    "wire off left 1",
    "unwired on left 1",
    "into tunnel",
    "moved tunnel",
    "fleece off",
    "mekiri, 38 candles",
    "rptd same pot, 1/3 off btm",
    "soap, again in 8 days",
    "deadheaded, Gwen 2h",
    "no feed 4 wks",
    "no mekiri this yr, resting",
    "sold to gwen",
    "died",
    "returned to gwen",
    "checked wire fine",
    "buds swelling",
]


def _done(line: str) -> set[str]:
    """What a line does, and the works that it plans or settles: words that are kept do nothing."""
    with TemporaryDirectory() as folder:
        Path(folder, "backbud.toml").write_text('language = 1\nhome = "yard"\n')
        Path(folder, "cards.txt").write_text(CARDS)
        Path(folder, "diary.txt").write_text(f"2027-03-06\nhoshi\n  {line}\n")
        entries = open_session(folder, date(2027, 3, 7)).histories.trees["hoshi"].entries
        return {
            f"{one.event.act} {one.event.named}".strip()
            for one in entries
            if not one.event.held and one.event.act != "noted"
        }


@settings(max_examples=examples(40))
@given(st.sampled_from(ACTS_DONE), st.sampled_from(LIMITERS), st.integers(0, 6))
def test_a_limiter_never_makes_a_line_do_more(text: str, limiter: str, at: int) -> None:
    words = text.split()
    words.insert(min(at, len(words)), limiter)
    more = _done(" ".join(words)) - _done(text)
    # `no mekiri, 38 candles` tells of a skip or of a put-off, and that is no doing.
    assert {one for one in more if not one.startswith(("skipped", "put-off"))} == set()


def _of_yuki(acts: str) -> dict[str, Any]:
    with TemporaryDirectory() as folder:
        Path(folder, "backbud.toml").write_text('language = 1\nhome = "yard"\n')
        Path(folder, "cards.txt").write_text(CARDS)
        Path(folder, "diary.txt").write_text(
            f"2027-03-06\nhoshi\n  {acts}\nyuki\n  wired 2 mm Al\n"
        )
        session = open_session(folder, date(2027, 3, 7))
        tree = session.plan().trees["yuki"]
        return {
            "standing": tree.standing,
            "place": tree.place,
            "on": [(one.what, one.part) for one in tree.on_tree],
            "acts": [(one.event.act, one.event.kept) for one in tree.history],
        }


# Nothing that begins a line of its own, and no date.
@settings(max_examples=examples(20))
@given(st.sampled_from(["watered", "moved tunnel", "unwired", "repotted same pot"]), line)
def test_more_words_on_a_line_change_no_other(act: str, words: str) -> None:
    assert _of_yuki(f"{act} {words}") == _of_yuki(act)
