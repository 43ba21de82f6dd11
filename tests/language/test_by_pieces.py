"""A line that is read by its pieces says what it says when it is read whole."""

from __future__ import annotations

from pathlib import Path

import pytest

from backbud.journal.by_pieces import ByPieces
from backbud.journal.dated import Said
from backbud.journal.said import ActReader
from backbud.journal.things import Things
from backbud_grammar.acts import ACTS, by_word
from backbud_grammar.forms import ActForm
from backbud_grammar.parse import Details

SCRIBBLES = Path(__file__).parent.parent / "scribbles"


class Whole:
    """Judges texts whole, and counts them."""

    def __init__(self) -> None:
        details = Details(by_word(ACTS))
        self.acts = details.acts
        self.reader = ActReader(Things({}, {}), details, lambda _word, _text: None, {})
        self.judged: list[str] = []
        self.by_pieces = ByPieces(details, self.judge, lambda handle: "")

    def judge(self, form: ActForm, word: str, text: str) -> Said | None:
        self.judged.append(text)
        return self.whole(form, word, text)

    def whole(self, form: ActForm, word: str, text: str) -> Said | None:
        said, flaws = self.reader.judge.judged(form, word, text, hints=False)
        return None if flaws else said


@pytest.fixture
def whole() -> Whole:
    return Whole()


def said_by_pieces(whole: Whole, line: str) -> Said | None:
    word, _, text = line.partition(" ")
    return whole.by_pieces.said(whole.acts[word], word, text)


def test_a_piece_is_judged_once_wherever_it_stands(whole: Whole) -> None:
    for line in (
        "wired 3 mm Al on left 2, 2 mm Al on apex",
        "wired 2 mm Al on left 2, 3 mm Al on apex, tight",
        "wired 3 mm Al on right 1",
    ):
        said_by_pieces(whole, line)
    assert whole.judged == ["3 mm Al", "2 mm Al", "tight"]


@pytest.mark.parametrize(
    "line",
    [
        "repotted same pot, into tray-7",
        "wired 3 mm Al on left 2, half of it on apex",
        "unwired on half of left 1",
        "wired 0 mm Al on left 2",
        "checked wire on left 1 fine",
        "died of frost?",
    ],
)
def test_what_must_be_asked_is_left_to_the_whole_line(whole: Whole, line: str) -> None:
    assert said_by_pieces(whole, line) is None


def test_both_ways_read_the_same(whole: Whole) -> None:
    lines = [form.example and f"{form.word} {form.example}" for form in ACTS]
    for path in sorted(SCRIBBLES.glob("*/*.tsv")):
        lines += path.read_text("utf-8").replace("\t", "\n").splitlines()
    read = 0
    for line in lines:
        word, _, text = line.strip().partition(" ")
        form = whole.acts.get(word.casefold())
        if form is None or form.prose:
            continue
        by_pieces = whole.by_pieces.said(form, word, text)
        if by_pieces is not None:
            assert by_pieces == whole.whole(form, word, text)
            read += 1
    assert read > 50
