"""A diary that is checked after each change goes in; the same comes out as from a whole replay."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date, timedelta
from pathlib import Path
from random import Random

import pytest

from backbud.collection import moments
from backbud.collection.comings import turns_of
from backbud.publish import MEMORY
from backbud.session import open_session
from backbud_grammar.problems import Problem

TODAY = date(2026, 11, 25)
FIRST_DAY = date(2024, 1, 1)
SETTINGS = 'language = 1\nhome = "yard"\ncurrency = "EUR"\n'
CARDS = """\
person marrow
place yard
  latitude 52 N
place tunnel
  within yard
pot blue
  inside 30 x 20 x 8 cm
pot grey
  inside 30 x 20 x 8 cm
tree hoshi
  kind trident maple
  place yard
tree yuki
  kind trident maple
  place yard
  pot grey
tree kaze
  kind Japanese black pine
  since 2023
tree uncome
  kind trident maple
group pair
  trees hoshi, yuki
"""
# Each of them changes, or asks for, what a replay must know.
LINES = (
    ("hoshi", "moved      tunnel"),
    ("all in tunnel", "watered"),
    ("all in yard except kaze", "fed  10 g"),
    ("hoshi", "repotted   into blue, 2 cm off below"),
    ("yuki", "repotted   into blue"),
    ("yuki", "repotted   into grey"),
    ("yuki", "died"),
    ("yuki", "sold       to marrow"),
    ("yuki", "returned"),
    ("uncome", "received   from marrow, for pruning"),
    ("uncome", "sold       to marrow"),
    ("uncome", "pruned     hard"),
    ("hoshi", "separated  as little-red"),
    ("little-red", "watered"),
    ("hoshi", "separated  as little-blue"),
    ("little-blue, kaze", "moved  tunnel"),
    ("pair", "checked    vigour good"),
    ("all trident maple", "noted  in leaf"),
    ("all of marrow", "noted  well"),
    ("hoshi, kaze", "pruned"),
    ("blue", "noted      a chip on the rim"),
    ("yuki", "purned"),
)


def corrected(pages: list[tuple[date, str]], random: Random) -> str:
    """A line that corrects something of an earlier page, or of one that is not there."""
    day = random.choice(pages)[0] if pages and random.random() < 0.8 else FIRST_DAY
    tree = random.choice(("hoshi", "yuki"))
    line, but = random.choice(
        (("repotted", "not done"), ("moved", "tunnel"), ("died", "not done"),
         ("repotted", "into grey"), ("separated", "not done"))
    )  # fmt: skip
    return f"{tree}\n  corrected {line} {day}, {but}\n"


def changed(pages: list[tuple[date, str]], random: Random) -> list[tuple[date, str]]:
    """The diary after one more stroke: mostly at its end, now and then further up."""
    near = min(len(pages), 4 if random.random() < 0.8 else len(pages))
    at = len(pages) - random.randrange(near + 1)
    what = random.random()
    if what < 0.2 and at < len(pages):
        return pages[:at] + pages[at + 1 :]
    day = pages[at - 1][0] if at else FIRST_DAY
    day += timedelta(days=random.choice((0, 0, 1, 2)))
    text = corrected(pages, random) if what < 0.4 else "{}\n  {}\n".format(*random.choice(LINES))
    return [*pages[:at], (day, text), *pages[at:]]


def problems_and_summary(folder: Path, *, only_check: bool) -> tuple[tuple[Problem, ...], str]:
    session = open_session(str(folder), TODAY, only_check=only_check)
    return session.problems(), session.summary()


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A journal so small that a moment is remembered after every other page."""
    monkeypatch.setattr(moments, "FEW_PAGES", 4)
    monkeypatch.setattr(moments, "PAGES_BEFORE_END", 2)
    monkeypatch.setattr(moments, "FURTHER_APART", 2)
    (tmp_path / "backbud.toml").write_text(SETTINGS)
    (tmp_path / "cards.txt").write_text(CARDS)
    return tmp_path


@pytest.fixture
def resumed(monkeypatch: pytest.MonkeyPatch) -> list[bool]:
    """For each check so far whether it went on from a moment."""
    out: list[bool] = []
    resumed = moments._resumed

    def told(*inputs: object) -> object:
        found = resumed(*inputs)  # type: ignore[arg-type]
        out.append(found is not None)
        return found

    monkeypatch.setattr(moments, "_resumed", told)
    return out


def written(folder: Path, pages: list[tuple[date, str]]) -> None:
    text = "\n".join(f"{day}\n\n{text}" for day, text in pages)
    (folder / "diary.txt").write_text(text)


def test_a_replay_that_went_ahead_counts_for_its_own_pages_alone(folder: Path) -> None:
    """A page that came late, or was read otherwise at the end, is replayed anew."""
    journals = []
    for line in ("watered", "died"):
        written(folder, [(FIRST_DAY, f"kaze\n  {line}\n")])
        journals.append(open_session(str(folder), TODAY, only_check=True).journal)
    watered, died = journals
    ahead = moments.FromBeginning(watered, watered.pages, turns_of(watered.pages), 1)
    ahead.go_on(watered.pages)
    assert moments._whole(watered, b"", ahead) is ahead.replay
    found = moments._whole(died, b"", ahead)
    assert found.trees["kaze"].standing == "died"


@pytest.mark.parametrize(
    "seed", [0, 1, 2, *(pytest.param(n, marks=pytest.mark.long) for n in (3, 4, 5))]
)
def test_a_check_that_goes_on_finds_what_a_whole_one_finds(
    folder: Path, resumed: list[bool], seed: int
) -> None:
    random = Random(seed)
    pages = [
        (FIRST_DAY + timedelta(days=n), f"{random.choice(('hoshi', 'kaze'))}\n  watered\n")
        for n in range(30)
    ]
    found_problems = 0
    for count in range(80):
        before, pages = pages, changed(pages, random)
        if count % 15 == 14:
            with (folder / "cards.txt").open("a") as cards:
                cards.write(f"tree new-{count}\n  kind trident maple\n")
        written(folder, pages)
        checked = problems_and_summary(folder, only_check=True)
        assert checked == problems_and_summary(folder, only_check=False), pages[-5:]
        if checked[0]:
            found_problems += 1
            # Many a slip is mended at once.
            pages = before if random.random() < 0.6 else pages
    assert min(found_problems, resumed.count(True), resumed.count(False)) > 5


# What puts on and takes off by parts, and moves, in many words; of these some cannot have been so.
BY_PARTS = tuple(
    f"{trees}\n  {line}{remark}\n"
    for trees in ("hoshi", "yuki", "hoshi, kaze", "pair", "all in tunnel", "uncome")
    for line in (
        "wired    2 mm Al on left 2",
        "wired    2 mm Al on left 2, 3 mm Al on apex",
        "wired    3 mm Al on apex",
        "wired    3 mm Al on apex, 2 mm Al on left 2",
        "wired    2 mm Al on left 2,\n             3 mm Al on apex",
        "wired    2 mm Al on left 2, 2 mm Al on left 2",
        "wired    2 mm Al on left 2, left 3",
        "wired    3 mm Al on apex, old wire off",
        "wired    3 mm Al on low left, old wire off",
        "unwired  on left 2",
        "unwired  on left",
        "unwired  on apex, left 2\n             tip",
        "unwired",
        "unwired  partly on apex",
        "guyed    on back",
        "guyed    2 mm on back, 1 mm on apex",
        "unguyed  on back",
        "repotted same pot",
        "repotted same pot, 2 cm off below",
        "repotted 2 cm off below, same pot",
        "repotted into blue, 2 cm off below",
        "repotted 2 cm off below, into\n             grey",
        "slipped  into blue",
        "moved    tunnel",
        "moved    from yard to tunnel",
        "moved    from tunnel to yard",
        "moved    yard, from tunnel",
        "moved    yard",
        "moved    tunnel 10:30",
    )
    for remark in ("", " -- looked well", " -- not yet")
)
COMES_AND_GOES = ("uncome\n  received  from marrow, for pruning\n", "yuki\n  sold  to marrow\n")


@pytest.mark.parametrize("seed", range(3))
def test_what_comes_on_and_off_by_parts_is_the_same_without_a_history(
    folder: Path, resumed: list[bool], seed: int
) -> None:
    random, pages, told = Random(seed), list[tuple[date, str]](), set[str]()
    for n in range(12):
        for _ in range(12):
            day = FIRST_DAY + timedelta(days=len(pages) // 2)
            pages.append(
                (day, random.choice(BY_PARTS if random.random() < 0.97 else COMES_AND_GOES))
            )
        written(folder, pages)
        checked = problems_and_summary(folder, only_check=True)
        assert checked == problems_and_summary(folder, only_check=False), n
        told.update(one.message for one in checked[0])
        if n % 4 == 3:
            pages = pages[: len(pages) // 2]
    assert any("no wire is on" in one for one in told)
    assert any("stands in" in one for one in told)
    assert any("stands in “blue” too" in one or "in “blue”" in one for one in told)
    assert min(resumed.count(True), resumed.count(False)) > 0


def test_a_line_counts_by_how_all_stands_and_not_as_an_earlier_one_did(folder: Path) -> None:
    """The same words again: a tree that has moved since, a pot that was taken since."""
    lines = (
        "hoshi\n  moved  glass\n",
        "hoshi\n  moved  from glass to yard\n",
        "hoshi\n  moved  from glass to yard\n",
        "hoshi\n  repotted  2 cm off below\n  wired  2 mm Al on apex, 3 mm Al on left 2\n",
        "hoshi\n  repotted  into blue, 2 cm off below\n  wired  3 mm Al on left 2\n",
        "yuki\n  wired  3 mm Al on left 2, 2 mm Al on apex\n",
        "kaze\n  repotted  into blue, 2 cm off below\n",
        "hoshi, yuki\n  unwired  on left 2, on apex\n",
        "hoshi, yuki\n  unwired  on left 2, on apex\n",
        "yuki\n  wired  3 mm Al on left 2, 2 mm Al on apex\n",
        "yuki\n  unwired  on right 1\n",
    )
    (folder / "more.txt").write_text("place glass\n")
    written(folder, [(date(2026, 1, n), text) for n, text in enumerate(lines, start=1)])
    problems, summary = problems_and_summary(folder, only_check=True)
    assert (problems, summary) == problems_and_summary(folder, only_check=False)
    told = [(one.line, one.message.split(", so")[0]) for one in problems]
    assert told == [
        (14, "“hoshi” stands in “yard”"),
        (36, "“hoshi” stands in “blue”"),
        (56, "no wire is on “right 1” of “yuki”"),
    ]
    assert problems[-1].hint == "On it: wire on left 2, apex."


def test_own_words_mean_what_they_do_on_their_day_without_a_history_too(folder: Path) -> None:
    card = "words\n  since   2026-02-01\n  past    no\n  Spitze  apex\n"
    (folder / "words.txt").write_text(card)
    days = [date(2026, 1, 5), date(2026, 3, 1), date(2026, 3, 2)]
    lines = "hoshi\n  wired    2 mm Al on Spitze\nhoshi\n  unwired  on apex\n"
    written(folder, [(day, lines) for day in days])
    problems, summary = problems_and_summary(folder, only_check=True)
    assert (problems, summary) == problems_and_summary(folder, only_check=False)
    # Only before their day the wire is on a part of that name.
    assert [(one.line, one.message[:17]) for one in problems] == [(6, "no wire is on “ap")]


@pytest.fixture
def checked(folder: Path, resumed: list[bool]) -> Callable[[list[tuple[date, str]]], bool]:
    """Whether a check of these pages went on from a moment; it finds nothing wrong."""

    def check(pages: list[tuple[date, str]]) -> bool:
        written(folder, pages)
        assert problems_and_summary(folder, only_check=True)[0] == ()
        return resumed[-1]

    return check


PAGES = [(FIRST_DAY + timedelta(days=n), "hoshi\n  watered\n") for n in range(40)]
PAGES[30] = MOVED = (PAGES[30][0], "hoshi\n  moved  tunnel\n")
LATER = FIRST_DAY + timedelta(days=60)


def test_it_goes_on_only_where_that_is_safe(
    checked: Callable[[list[tuple[date, str]]], bool], folder: Path
) -> None:
    assert not checked(PAGES), "nothing is remembered yet"
    assert checked(PAGES)
    assert checked([*PAGES, (LATER, "all in yard\n  fed  10 g\n")])
    # From a moment before the line that is corrected.
    assert checked([*PAGES, (LATER, f"hoshi\n  corrected moved {MOVED[0]}, not done\n")])
    # This one was not here at the beginning after all.
    assert not checked([*PAGES, (LATER, "uncome\n  received  from marrow, for pruning\n")])
    assert not checked([(FIRST_DAY, "kaze\n  watered\n"), *PAGES]), "the first page is another"
    with (folder / "cards.txt").open("a") as cards:
        cards.write("tree new\n  kind trident maple\n")
    assert not checked(PAGES), "a card is another"
    assert checked(PAGES)


def test_what_is_done_later_cannot_be_corrected_whoever_goes_on_from_where(
    folder: Path, resumed: list[bool]
) -> None:
    early = (PAGES[36][0], f"hoshi\n  corrected repotted {PAGES[39][0]}, into grey\n")
    pages = [*PAGES[:36], early, *PAGES[37:]]
    for page in ((LATER, "hoshi\n  watered\n"), (PAGES[39][0], "hoshi\n  repotted  same pot\n")):
        pages.append(page)
        written(folder, sorted(pages))
        told = [problems_and_summary(folder, only_check=only)[0] for only in (True, False)]
        assert [p.code for p in told[0]] == ["nothing-to-correct"]
        assert told[0] == told[1]


def test_a_problem_is_told_each_time_and_on_its_line(folder: Path, resumed: list[bool]) -> None:
    slip = (PAGES[10][0], "uncome\n  corrected died 2024-01-01, not done\n")
    pages = [*PAGES[:10], slip, *PAGES[11:]]

    def told() -> list[tuple[str, int]]:
        problems, _ = problems_and_summary(folder, only_check=True)
        return [(problem.code, problem.line) for problem in problems]

    written(folder, pages)
    # Five lines a page.
    assert (told(), resumed[-1]) == ([("nothing-to-correct", 54)], False)
    written(folder, [*pages, (LATER, "hoshi\n  watered\n")])
    assert (told(), resumed[-1]) == ([("nothing-to-correct", 54)], True)
    diary = folder / "diary.txt"
    diary.write_text(f"# A remark above all.\n{diary.read_text()}")
    assert (told(), resumed[-1]) == ([("nothing-to-correct", 55)], False)


@pytest.mark.parametrize("memory", [b"", b"torn", None])
def test_a_torn_or_foreign_memory_is_as_good_as_none(
    checked: Callable[[list[tuple[date, str]]], bool], folder: Path, memory: bytes | None
) -> None:
    assert not checked(PAGES)
    path = folder / MEMORY / moments.MOMENTS_FILE
    data = path.read_bytes()
    # Without the last of the trees that the cards name.
    path.write_bytes(data.replace(b"uncome", b"nobody") if memory is None else memory)
    assert not checked(PAGES)
    assert checked(PAGES)


def test_a_word_that_is_kept_puts_nothing_on_whoever_it_is_said_of_again(folder: Path) -> None:
    """The wire of hoshi's apex is not put on yuki by the words that stood before it."""
    lines = (
        "hoshi\n  wired  gently, 2 mm Al on apex\n",
        "hoshi\n  wired  3 mm Al on left 2\n",
        "yuki\n  wired  gently, 3 mm Al on left 2\n",
        "yuki\n  unwired  on apex\n",
    )
    written(folder, [(date(2026, 1, n), text) for n, text in enumerate(lines, start=1)])
    problems, summary = problems_and_summary(folder, only_check=True)
    assert (problems, summary) == problems_and_summary(folder, only_check=False)
    assert [(one.line, one.message.split(", so")[0]) for one in problems] == [
        (19, "no wire is on “apex” of “yuki”")
    ]
