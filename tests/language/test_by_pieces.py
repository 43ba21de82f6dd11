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
        self.by_pieces = ByPieces(
            details, self.judge, lambda handle: "", lambda word, piece, said: None
        )

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


def test_a_piece_on_one_part_is_the_example_of_others(whole: Whole) -> None:
    """Where the part is a detail by itself, too."""
    lines = [
        "unwired on left 2",
        "unwired on upper back",
        "unwired on left 3 again",
        "unwired on L4",
        "unwired on apex, on right 1",
        "trimmed light on back 7",
        "trimmed light on right 12",
        "pruned off 25 % on back 3",
        "pruned off 25 % on upper back",
    ]
    for line in lines:
        word, _, text = line.partition(" ")
        said = said_by_pieces(whole, line)
        assert said is not None and said == whole.whole(whole.acts[word], word, text)
    assert whole.judged == ["on left 2", "light", "off 25 %"]


@pytest.mark.parametrize("line", ["unwired on half of left 1", "unwired on left 1 not yet"])
def test_by_the_example_of_a_part_nothing_more_is_taken(whole: Whole, line: str) -> None:
    assert said_by_pieces(whole, "unwired on left 1") is not None
    assert said_by_pieces(whole, line) is None


@pytest.mark.parametrize(
    "line",
    [
        "repotted same pot, into tray-7",
        "wired 3 mm Al on left 2, half of it on apex",
        "unwired on half of left 1",
        "wired 0 mm Al on left 2",
        "checked wire on left 1 fine",
        "died of frost?",
        # How it was found, and no part.
        "wired 3 mm Al on left 1 tight",
        "guyed on left 1 loose",
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
