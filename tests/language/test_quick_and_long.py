"""What is told of a line by its single words is what reading it in every way says."""

from __future__ import annotations

import random
import re
import sys
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from datetime import date, timedelta
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.examples import examples

import backbud_grammar.details as details
import backbud_grammar.problems as problems
import backbud_grammar.scribbles.spelled as spelled
from backbud.journal.diary import DiaryReader
from backbud.journal.read import read_journal
from backbud.journal.said import ActReader
from backbud_grammar.acts import ACTS, by_word
from backbud_grammar.hints import PART_WORDS
from backbud_grammar.languages import LANGUAGE
from backbud_grammar.lexicon import SHARES
from backbud_grammar.limiters import LIMITING
from backbud_grammar.scribbles.details_said import ways_said, words_said
from backbud_grammar.scribbles.meant import MEANT
from backbud_grammar.scribbles.needed import NeededWords
from backbud_grammar.scribbles.opener import Opener
from backbud_grammar.scribbles.openings import OPENINGS
from backbud_grammar.scribbles.plain import FILLERS, plain_words
from backbud_grammar.scribbles.reads import OF_ITS_OWN
from backbud_grammar.scribbles.unopened import Unopened
from backbud_grammar.scribbles.words_beside import BESIDE_ANY, WordsBeside

TESTS = Path(__file__).parents[1]
sys.path.append(str(TESTS / "fuzz"))
CARDS = """\
place yard
  latitude 52 N
place north-bench
place tunnel
tree hoshi
  kind trident maple
  since 2011
tree yuki
tree old-tom
pot tray-7
person marrow
person ada-quill
mix maple
  akadama 1
  pumice 1
"""
Files = dict[str, bytes]


def _given() -> list[str]:
    """Every line of the hands, ours and others', and those of which none may do anything."""
    out: list[str] = []
    for file in sorted((*TESTS.glob("scribbles/*/*.tsv"), *TESTS.glob("scribbles/*/*.txt"))):
        column = 2 if file.suffix == ".tsv" else 0
        for line in file.read_text(encoding="utf-8").splitlines():
            cells = line.split("\t")
            if line.strip() and not line.startswith("#") and len(cells) > column:
                out.append(cells[column].strip() or "x")
    return out


GIVEN = _given()
# Words that stand in no table, words of the tables, of openings, of ways to say things, limiters.
PLAIN = sorted(
    plain_words("a the red green leaf rain wind old new moss nice slow early zyxxy tom bench north")
)
# Those of which none is of a handle, or of a detail of `watered`.
IDLE = sorted(plain_words("red green leaf wind new moss slow zyxxy"))
BEARING = sorted(
    {*LIMITING, *PART_WORDS, *SHARES, *FILLERS}
    | plain_words(
        "and then also in out back hoshi yuki tom old north ada quill tunnel half lvs btm"
    )
    | plain_words("overhead overhaed lightly lihgtly deeply deply twice morning well by with early")
    | plain_words("pruned watered wire moss tree side way one fourth yesterday because it last")
)
KEEPING = sorted(plain_words("watered pruned cleaned weeded misted turned soaked trimmed plucked"))
SAID = sorted(
    {word for row in OPENINGS for word in re.findall(r"[a-z]{2,}", row.pattern)}
    | {word for act in ACTS for word in words_said(act.word)}
)
WORDS = (*PLAIN, *sorted({word for line in GIVEN for word in line.split()}))


def journal_of(lines: Sequence[str]) -> Files:
    out = []
    for n, line in enumerate(lines):
        if n % 7 == 0:
            out.append(f"\n{date(2016, 1, 1) + timedelta(days=n // 7)}\n\nhoshi")
        out.append(f"  {line}")
    diary = "\n".join(out) + "\n"
    return {
        "backbud.toml": b"language = 1\n",
        "cards.txt": CARDS.encode(),
        "diary.txt": diary.encode(),
    }


def read(files: Files) -> tuple[list[str], list[str]]:
    """What is wrong in a journal or kept as words, and its events, as texts."""
    with TemporaryDirectory() as folder:
        for name, data in files.items():
            path = Path(folder, name)
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_bytes(data)
        journal = read_journal(folder, date(2026, 6, 2))
        blocks = [block for page in journal.pages for block in page.blocks]
        told = [repr(one) for one in journal.flaws]
        return told, [repr(event) for block in blocks for event in block.events]


@contextmanager
def the_long_way() -> Iterator[None]:
    """Pages are looked at as a whole, and lines read in every way that there is."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(NeededWords, "may_fit", lambda needed, _text: dict.fromkeys(needed.of))
        patch.setattr(Unopened, "opens_nothing", lambda *_: False)
        patch.setattr(WordsBeside, "bear_on_nothing", lambda *_: False)
        patch.setattr(DiaryReader, "page_by_lines", lambda *_: None)
        patch.setattr(spelled, "phrases_in", lambda _text: (1 << len(spelled.PHRASES)) - 1)
        patch.setattr(Opener, "hangs_on_page", lambda *_: True)
        patch.setattr(ActReader, "_sound_text", lambda *_: None)
        patch.setattr(problems, "may_be_near", lambda *_: True)
        spelled.in_full.cache_clear()
        yield
    spelled.in_full.cache_clear()


def held_together(files: Files) -> None:
    quick = read(files)
    with the_long_way():
        long = read(files)
    assert quick[0] == long[0]
    assert quick[1] == long[1]


def in_parts(lines: Sequence[str], size: int = 150) -> list[Sequence[str]]:
    """So few lines that no flood is above any of them."""
    return [lines[at : at + size] for at in range(0, len(lines), size)]


# A part of it now, all the rest in the long lane.
PARTS = [0, *(pytest.param(part, marks=pytest.mark.long) for part in range(1, 8))]


@pytest.mark.parametrize("part", PARTS)
def test_of_every_given_line(part: int) -> None:
    for lines in in_parts(GIVEN)[part :: len(PARTS)]:
        held_together(journal_of(lines))


@pytest.mark.parametrize("part", PARTS[:4])
def test_of_the_hands_lines_with_other_figures(part: int) -> None:
    pick = random.Random(11)
    lines = [
        re.sub(
            r"\d+", lambda _: str(pick.choice((pick.randint(0, 40), pick.randint(0, 400)))), line
        )
        for line in (line for line in GIVEN if re.search(r"\d", line))
    ]
    pick.shuffle(lines)
    for some in in_parts(lines[:600])[part::4]:
        held_together(journal_of(some))


def test_below_a_flood() -> None:
    held_together(journal_of(GIVEN[:900]))


def _odd(pick: random.Random) -> str:
    """An act with words behind it, words alone, or a given line with other figures and words."""
    sort = pick.randrange(7)
    if sort == 0:
        return f"the {' '.join(pick.choices(PLAIN, k=pick.randint(1, 8)))}"
    if sort < 3:
        act = pick.choice(ACTS)
        words = pick.choices(PLAIN if sort == 1 else WORDS, k=pick.randint(1, 6))
        return f"{pick.choice((act.word, act.bare))} {' '.join(words)}"
    if sort > 4:
        # Among words that bear on nothing one that may.
        words = [*pick.choices(IDLE, k=pick.randint(1, 4)), pick.choice(BEARING)]
        pick.shuffle(words)
        return f"{pick.choice(KEEPING)} {' '.join(words)}"
    if sort == 3:
        return " ".join(pick.choices(WORDS, k=pick.randint(1, 9)))
    words = pick.choice(GIVEN).split()
    words[pick.randrange(len(words))] = pick.choice(WORDS)
    return re.sub(r"\d+", lambda _: str(pick.randint(1, 40)), " ".join(words))


@pytest.mark.parametrize("seed", PARTS[:4])
def test_of_odd_lines(seed: int) -> None:
    pick = random.Random(seed)
    lines = [_odd(pick).lstrip("#").strip() or "x" for _ in range(450)]
    for some in in_parts(lines):
        held_together(journal_of(some))


def test_what_is_work_of_its_own_is_asked_beside_any_act() -> None:
    # Below a line that is not read, so that the block is heard line by line.
    lines = [f"{act} {word}" for act in ("trimmed", "watered") for word in sorted(OF_ITS_OWN)]
    told, _ = read(journal_of([line for one in lines for line in ("a", one)]))
    assert not [one for one in told if "code='words-kept'" in one]
    for some in in_parts(lines):
        held_together(journal_of(["a", *some]))


@settings(max_examples=examples(20))
@given(
    st.lists(
        st.lists(st.sampled_from((*SAID, *PLAIN, *by_word(ACTS))), min_size=1, max_size=6).map(
            " ".join
        ),
        min_size=20,
        max_size=40,
    )
)
def test_of_any_words_of_the_tables(lines: list[str]) -> None:
    held_together(journal_of(lines))


@settings(max_examples=examples(20))
@given(st.lists(st.text(st.characters(codec="utf-8", exclude_characters="\n\r")), max_size=12))
def test_of_any_text(lines: list[str]) -> None:
    held_together(journal_of([f"watered {lines[0] if lines else ''}", *lines]))


@pytest.mark.parametrize("part", PARTS[:4])
def test_of_hostile_journals(part: int) -> None:
    from hostile import hostile

    first = 20_000_000 + 10 * part
    for seed in range(first, first + 10):
        held_together(hostile(seed))


# ------------------------------------------------------------------ that the quick way is taken


def _told_at_once(lines: Sequence[str]) -> tuple[int, int]:
    """How many lines were told by their words: that they open nothing, that all is kept."""
    counts = [0, 0]
    with pytest.MonkeyPatch.context() as patch:
        for n, (of, name) in enumerate(
            ((Unopened, "opens_nothing"), (WordsBeside, "bear_on_nothing"))
        ):
            asked = getattr(of, name)

            def counted(*args: object, _n: int = n, _asked: object = asked) -> bool:
                told = bool(_asked(*args))  # type: ignore[operator]
                counts[_n] += told
                return told

            patch.setattr(of, name, counted)
        read(journal_of(lines))
    return counts[0], counts[1]


def test_what_begins_a_clause_is_seen_behind_the_act_word() -> None:
    """Also on the second such line, which is told by its words."""
    files = journal_of(["defoliated about hoped", "pinched someday"] * 3)
    held_together(files)
    assert sum("words-kept" in one for one in read(files)[0]) == 0


def test_most_unread_lines_are_told_by_their_words() -> None:
    pick = random.Random(3)
    lines = [f"the {' '.join(pick.choices(IDLE, k=7))}" for _ in range(200)]
    assert _told_at_once(lines)[0] > 190
    lines = [f"watered {' '.join(pick.choices(IDLE, k=4))}" for _ in range(200)]
    # Those of the first page go the long way.
    assert _told_at_once(lines)[1] > 190


def test_what_a_pattern_needs() -> None:
    needed = NeededWords(["(?:new )?moss (?:laid|on)", "wired? off", r"\d+ cuttings?", "(?!)x"])
    assert list(needed.may_fit("moss on")) == [0]
    assert list(needed.may_fit("the moss is green")) == []
    assert list(needed.may_fit("Wire off, 3 cuttings")) == [1, 2]
    assert list(needed.may_fit("wiring offers cutting")) == []
    # Of letters beyond ASCII nothing is said.
    assert list(needed.may_fit("möss")) == [0, 1, 2, 3]


def _fits(pattern: str, data: st.DataObject) -> None:
    """That a text in which a pattern fits has what it needs."""
    text = data.draw(st.from_regex(re.compile(pattern, re.IGNORECASE | re.ASCII)))
    assert list(NeededWords([pattern.removeprefix(r"\A")]).may_fit(text)) == [0]


@given(st.sampled_from([row.pattern for row in OPENINGS if "@" not in row.pattern]), st.data())
def test_what_opens_an_act_has_what_its_pattern_needs(pattern: str, data: st.DataObject) -> None:
    _fits(rf"\A(?:{pattern})", data)


@given(
    st.sampled_from(ACTS)
    .filter(lambda act: ways_said(act.word, LANGUAGE))
    .flatmap(lambda act: st.sampled_from(ways_said(act.word, LANGUAGE))),
    st.data(),
)
def test_what_says_a_detail_has_what_its_pattern_needs(pattern: str, data: st.DataObject) -> None:
    _fits(rf"\A(?:{pattern})", data)


@given(st.sampled_from([pattern.pattern for pattern, _ in MEANT]), st.data())
def test_what_may_mean_an_act_has_what_its_pattern_needs(pattern: str, data: st.DataObject) -> None:
    _fits(pattern, data)


@given(st.sampled_from(BESIDE_ANY), st.data())
def test_what_stands_beside_any_act_has_what_its_pattern_needs(
    pattern: str, data: st.DataObject
) -> None:
    # Held against a whole text, or found in it from the beginning of a word on.
    is_searched = pattern.startswith((r"\b", r"(?<!\S)"))
    _fits(pattern if is_searched else rf"\A(?:{pattern})", data)


@given(st.sampled_from(range(len(spelled.PHRASES))), st.data())
def test_a_phrase_written_short_has_a_word_or_sign_that_it_is_found_by(
    at: int, data: st.DataObject
) -> None:
    pattern = spelled.PHRASES[at][0].pattern
    text = data.draw(st.from_regex(re.compile(pattern, re.IGNORECASE | re.ASCII)))
    assert spelled.phrases_in(text) >> at & 1
    whole = text
    for short, written in spelled.PHRASES:
        whole = short.sub(written, whole)
    assert spelled.phrases_in_full(text) == whole


def test_no_table_is_read_in_vain() -> None:
    """Words that bear on nothing cost no reading of details."""
    with pytest.MonkeyPatch.context() as patch:
        times = [0]
        of = details.read_item_list

        def counted(text: str) -> object:
            times[0] += 1
            return of(text)

        patch.setattr(details, "read_item_list", counted)
        pick = random.Random(5)
        read(journal_of([f"watered {' '.join(pick.choices(IDLE, k=6))}" for _ in range(99)]))
        # The first line goes the long way.
        assert times[0] < 20
