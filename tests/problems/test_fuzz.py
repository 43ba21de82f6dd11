"""Any bytes at all may stand in a diary: nothing raises, and every problem lies inside its file."""

from __future__ import annotations

import tempfile
from datetime import date
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from tests.examples import examples

from backbud.collection.replay import replay
from backbud.journal.problems import as_problems
from backbud.journal.read import read_journal
from backbud_grammar.acts import ACTS, by_word
from backbud_grammar.forms import ANY_WORDS
from backbud_grammar.parse import Details
from backbud_grammar.problems import show

TODAY = date(2027, 6, 1)
CARDS = (
    "person marrow\nplace yard\nplace tunnel\nmix maple\n  akadama 2\npot tray-1\n"
    "material gold\ntree hoshi\n  kind trident maple\ntree yuki\n  kind trident maple\n"
)

WORDS = [
    *sorted(
        {word for act in ACTS for word in (act.word, act.bare)}
        | {
            word
            for act in ACTS
            for form in act.forms
            for word in (*form.labels, *form.words)
            if word not in ANY_WORDS
        }
    ),
    "hoshi",
    "yuki",
    "marrow",
    "yard",
    "tunnel",
    "maple",
    "tray-1",
    "gold",
    "all",
    "all in",
    "of",
    "except",
    "each",
    "together",
    "on",
    "on left 2",
    "2",
    "3 mm",
    "x 2",
    "1/2",
    "1 1/2",
    "2-3",
    "-6 to -2 C",
    "20-10-20",
    "1:10",
    "2 g/L",
    "45 EUR/h",
    "120 EUR",
    "1,200",
    "1.200,50",
    "2027-03-06",
    "2027",
    "2027-03/2027-04",
    "/2027",
    "1985/",
    "2027-W10",
    "14:30",
    "'Kaho'",
    '"a, b"',
    '"',
    "'",
    "--",
    "—",
    "–",
    "\t",
    "\n",
    "\n  ",
    "\n     ",
    "\n2027-03-06 ",
    "\ntree ",
    "\nhoshi\n  ",
    "#",
    "\n# ",
    ",",
    ", ",
    ";",
    ".",
    "\u00a0",
    "\f",
    "\0",
    "\u202e",
    "e\u0301",
    "🌲",
    "か\u3099",
    "½",
    "９",
    "°",
    "%",
    "€",
    "\r",
    "\r\n",
    "\u2028",
    "\x85",
    "\x1c",
]
SENTENCES = st.lists(
    st.tuples(st.sampled_from(WORDS), st.sampled_from(["", " ", ", "])), max_size=30
).map(lambda pairs: "".join(a + b for a, b in pairs))
HEADS = st.sampled_from(
    [
        "",
        "2027-03-06\nhoshi\n  ",
        "2027-03-06\n",
        "tree kaze\n  ",
        "place shed\n  ",
        "mix m\n  ",
        "group g\n  ",
    ]
)
DIARIES = st.one_of(
    st.binary(max_size=400),
    st.text(max_size=300).map(str.encode),
    st.tuples(HEADS, st.text(max_size=200)).map("".join).map(str.encode),
    st.tuples(HEADS, SENTENCES).map("".join).map(str.encode),
    st.tuples(SENTENCES, st.binary(max_size=6), SENTENCES).map(
        lambda t: b"2027-03-06\nhoshi\n  " + t[0].encode() + t[1] + t[2].encode()
    ),
)


@pytest.mark.parametrize("as_of", [False, True])
@settings(
    max_examples=examples(60),
    suppress_health_check=[HealthCheck.data_too_large, HealthCheck.too_slow],
)
@given(diary=DIARIES)
def test_any_diary_gives_problems_inside_it_and_never_raises(diary: bytes, as_of: bool) -> None:
    with tempfile.TemporaryDirectory() as folder:
        (Path(folder) / "backbud.toml").write_text("language = 1\n")
        (Path(folder) / "cards.txt").write_text(CARDS)
        (Path(folder) / "diary.txt").write_bytes(diary)
        journal = read_journal(folder, TODAY, as_of=as_of)
        impossible = replay(journal).flaws
    lines = diary.replace(b"\r\n", b"\n").replace(b"\r", b"\n").split(b"\n")
    for problem in as_problems((*journal.flaws, *impossible), journal.texts):
        assert problem.line >= 1
        assert problem.column >= 1
        if problem.file == "diary.txt":
            assert problem.line <= len(lines) + 1
            assert problem.column <= len(problem.source) + 1
        assert problem.code.replace("-", "").isalnum()
        assert problem.message.strip()
        show(problem).encode()


# One reader for all examples, as a run has one for all lines.
READER = Details(by_word(ACTS))


@settings(max_examples=examples(60))
@given(act=st.sampled_from([act.word for act in ACTS]), text=SENTENCES)
def test_any_details_are_read_or_told_within_the_text(act: str, text: str) -> None:
    reading = READER.of(READER.acts[act], text)
    assert len(reading.starts) == len(reading.details)
    for flaw in reading.flaws:
        assert 0 <= flaw.column <= len(text)
    for detail, start in zip(reading.details, reading.starts, strict=True):
        assert 0 <= start + detail.offset <= len(text)


@settings(max_examples=examples(100))
@given(text=st.one_of(SENTENCES, st.text(max_size=80)))
def test_any_subject_line_is_read_or_told_within_it(text: str) -> None:
    read = READER.subjects(text)
    column = getattr(read, "column", 1)
    assert 1 <= column <= len(text) + 1
