"""Hours behind a date or beside an act, and the order that they give the lines of a day.

Hours are ISO 8601's: two digits of hours, a colon, two of minutes.
"""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from tests.examples import examples

from backbud.cli import main
from backbud.memo import Memo
from backbud.session import Session, open_session
from backbud_grammar.acts import ACTS, by_word
from backbud_grammar.outline import Known, read_any_section, read_section
from backbud_grammar.syntax import Page
from backbud_grammar.tidy import tidy_text

TODAY = date(2026, 11, 20)
KNOWN = Known.of(by_word(ACTS))
CARDS = """\
place yard
  latitude  52.9 N

place bench
  within  yard

place tunnel
  within  yard

place glass
  within  yard

tree hoshi
  kind  trident maple
  since 2015
  place yard

tree yuki
  kind  Scots pine
  since 2015
  place yard
"""


def journal(folder: Path, **files: str) -> Session:
    for path in folder.glob("*.txt"):
        path.unlink()
    (folder / "backbud.toml").write_text('language = 1\nhome = "yard"\n')
    (folder / "cards.txt").write_text(CARDS)
    for name, text in files.items():
        (folder / f"{name}.txt").write_text(text)
    return open_session(str(folder), TODAY)


def lines(session: Session) -> list[str]:
    """Every act in the order in which it is replayed."""
    return [
        f"{event.hour} {event.written}".strip()
        for page in session.journal.pages
        for block in page.blocks
        for event in block.events
    ]


def read(line: str) -> tuple[str, str, str, str]:
    """The hour, the word, the details and the remark of one act line, by both outlines."""
    text = f"2026-03-01\n\nhoshi\n{line}\n"
    page = read_section(text.encode(), KNOWN)
    assert page == read_any_section(text, KNOWN)
    assert isinstance(page, Page)
    (act,) = page.blocks[0].acts
    return act.hour, act.word, act.text, act.remark


@pytest.mark.parametrize(
    ("line", "hour", "word", "text"),
    [
        ("  10:30 watered", "10:30", "watered", ""),
        ("  watered 10:30", "10:30", "watered", ""),
        ("  watered at 10:30", "10:30", "watered", ""),
        ("  07:05   moved  tunnel", "07:05", "moved", "tunnel"),
        ("  moved  tunnel, 10:30", "10:30", "moved", "tunnel"),
        ("  moved  tunnel at 23:59", "23:59", "moved", "tunnel"),
        ("  moved  10:30, tunnel", "10:30", "moved", "tunnel"),
        ("  00:00 noted it froze at 04:10", "00:00", "noted", "it froze at 04:10"),
        # A ratio, a time that something takes, a time of the day that the act has: left alone.
        ("  treated soap, 10:30", "", "treated", "soap, 10:30"),
        ("  worked  10:30", "", "worked", "10:30"),
        ("  treated soap, at 10:30", "10:30", "treated", "soap, at 10:30"),
        # No hour of a day, and two hours.
        ("  watered 25:30", "", "watered", "25:30"),
        ("  watered 9:30", "", "watered", "9:30"),
        ("  watered 10:30, 11:30", "", "watered", "10:30, 11:30"),
        ("  noted 10:30 it rained", "", "noted", "10:30 it rained"),
    ],
)
def test_the_hour_of_an_act(line: str, hour: str, word: str, text: str) -> None:
    assert read(line) == (hour, word, text, "")


def test_the_hour_with_a_remark_and_a_line_that_goes_on() -> None:
    assert read("  10:30 watered -- dry") == ("10:30", "watered", "", "dry")
    assert read("  watered 10:30 -- dry") == ("10:30", "watered", "", "dry")
    assert read("  10:30 repotted same pot,\n    1/3 off") == (
        ("10:30", "repotted", "same pot, 1/3 off", "")
    )
    assert read("  moved\n    tunnel, 10:30") == ("10:30", "moved", "tunnel", "")


@pytest.mark.parametrize(
    ("line", "hour", "weather"),
    [
        ("2026-03-01 10:30", "10:30", ""),
        ("2026-03-01   10:30   low 1 C", "10:30", "low 1 C"),
        ("2026-03-01T10:30", "10:30", ""),
        ("2026-03-01T10:30   low 1 C", "10:30", "low 1 C"),
        ("2026-03-01   low 1 C", "", "low 1 C"),
        ("2026-03-01 24:00", "", "24:00"),
    ],
)
def test_the_hour_of_a_page(line: str, hour: str, weather: str) -> None:
    page = read_section(f"{line}\n\nhoshi\n  fed\n".encode(), KNOWN)
    assert isinstance(page, Page)
    assert (page.date, page.hour, page.weather) == ("2026-03-01", hour, weather)
    assert line[page.weather_column - 1 :] == weather


def test_two_diaries_of_a_day_interleave(tmp_path: Path) -> None:
    """She moved it in the morning and the evening, he at noon: it stands where she put it last."""
    hers = "2026-03-01 09:00\n\nhoshi\n  moved  tunnel\n  fed\n  18:30 moved  glass\n  watered\n"
    his = "2026-03-01\n\nhoshi\n  pruned\n  12:00 moved bench\n  wired  3 mm Al on left 1\n"
    session = journal(tmp_path, a=hers, b=his)
    assert session.problems() == ()
    assert lines(session) == [
        "pruned",
        "09:00 moved tunnel",
        "09:00 fed",
        "12:00 moved bench",
        "wired 3 mm Al on left 1",
        "18:30 moved glass",
        "09:00 watered",
    ]
    assert session.plan().trees["hoshi"].place == "glass"
    # Without hours the order is that of the files, and his last line counts.
    plain = [text.replace("18:30 ", "").replace("12:00 ", "").replace(" 09:00", "")
             for text in (hers, his)]  # fmt: skip
    session = journal(tmp_path, a=plain[0], b=plain[1])
    assert session.plan().trees["hoshi"].place == "bench"


def test_an_earlier_hour_below_a_later_one(tmp_path: Path) -> None:
    """Written down in the evening: the hour counts, and what has none stays where it was."""
    page = "2026-03-01 10:30\n\nhoshi\n  moved  tunnel\n  08:00 moved  bench\n  fed\n"
    session = journal(tmp_path, a=page)
    assert lines(session) == ["08:00 moved bench", "10:30 moved tunnel", "10:30 fed"]
    assert session.plan().trees["hoshi"].place == "tunnel"
    # A page without an hour stands below the one above it in its file.
    session = journal(tmp_path, a=f"{page}\n2026-03-01\n\nhoshi\n  moved  glass\n",
                      b="2026-03-01 10:00\n\nhoshi\n  watered\n")  # fmt: skip
    assert lines(session)[-1] == "moved glass"
    assert lines(session)[1] == "10:00 watered"


def test_all_means_those_that_were_there_at_that_hour(tmp_path: Path) -> None:
    early = "2026-03-01 09:00\n\nall in tunnel\n  watered\n\nhoshi\n  11:00 moved tunnel\n"
    late = "2026-03-01 10:00\n\nyuki\n  moved tunnel\n\nall in tunnel\n  12:00 fed\n"
    session = journal(tmp_path, z=early, b=late)
    trees = session.plan().trees
    assert [e.event.act for e in trees["hoshi"].history] == ["moved", "fed"]
    assert [e.event.act for e in trees["yuki"].history] == ["moved", "fed"]


def test_what_comes_off_later_the_same_day_is_off(tmp_path: Path) -> None:
    on, off = ("2026-03-01 09:00\n\nhoshi\n  wired  3 mm Al on left 1\n",
               "2026-03-01 15:00\n\nhoshi\n  unwired\n")  # fmt: skip
    for names in (("a", "b"), ("b", "a")):
        session = journal(tmp_path, **{names[0]: on, names[1]: off})
        assert session.problems() == ()
        assert session.plan().trees["hoshi"].on("wire") == ()


ACT = st.sampled_from(
    ["moved  tunnel", "moved  bench", "moved  glass", "watered", "wired  3 mm Al on left 1",
     "unwired", "fed", "pruned", "vigour  apex 4", "checked  strength, weak",
     "checked  strength, strong"]
)  # fmt: skip
TREES = st.sampled_from(["hoshi", "yuki", "hoshi, yuki", "all in tunnel", "all"])


@st.composite
def two_diaries(draw: st.DrawFn) -> tuple[list[str], list[str]]:
    """The pages of two helpers on one day, each with an hour that no other page has."""
    count = draw(st.integers(2, 5))
    hours = draw(st.lists(st.integers(6, 20), min_size=count, max_size=count, unique=True))
    diaries: tuple[list[str], list[str]] = ([], [])
    for n, hour in enumerate(hours):
        blocks = draw(st.lists(st.tuples(TREES, st.lists(ACT, min_size=1, max_size=3)),
                               min_size=1, max_size=2))  # fmt: skip
        page = f"2026-03-01 {hour:02}:00\n"
        own = hour
        for trees, acts in blocks:
            page += f"\n{trees}\n"
            for act in acts:
                stated = draw(st.booleans())
                own += stated
                page += f"  {own:02}:{10 + n:02} {act}\n" if stated else f"  {act}\n"
        diaries[n % 2].append(page)
    return diaries


@settings(max_examples=examples(10), suppress_health_check=list(HealthCheck))
@given(two_diaries())
def test_two_diaries_are_read_the_same_whichever_comes_first(
    tmp_path: Path, diaries: tuple[list[str], list[str]]
) -> None:
    """As files of either name, one below the other in one file either way round, and mixed."""
    hers, his = ("\n".join(pages) for pages in diaries)
    ways = (
        {"a": hers, "b": his},
        {"b": hers, "a": his},
        {"one": f"{hers}\n{his}"},
        {"one": f"{his}\n{hers}"},
        {"one": "\n".join(sorted((*diaries[0], *diaries[1]), reverse=True))},
    )
    found = []
    for files in ways:
        session = journal(tmp_path, **files)
        trees = session.plan().trees.values()
        found.append(
            (
                lines(session),
                [[e.event.written for e in tree.history] for tree in trees],
                [(tree.place, tree.strength, [t.part for t in tree.on_tree]) for tree in trees],
                sorted(one.id for plans in session.plan().follow_ups.values() for one in plans),
            )
        )
    assert all(one == found[0] for one in found)


def test_watch_reads_a_day_anew_only_where_it_changed(tmp_path: Path) -> None:
    day = "2026-03-01 09:00\n\nhoshi\n  moved  tunnel\n  18:30 moved  glass\n"
    journal(tmp_path, a=day, b="2026-04-01\n\nhoshi\n  watered\n")
    memo = Memo()

    def pages() -> tuple[object, ...]:
        session = open_session(str(tmp_path), TODAY, kept=memo)
        memo.end()
        return session.journal.pages

    # The first reading ends with the language that all is shown in, and begins anew.
    pages()
    first = pages()
    (tmp_path / "b.txt").write_text("2026-04-01\n\nhoshi\n  fed\n")
    second = pages()
    assert [one is other for one, other in zip(first, second, strict=True)] == [True, True, False]


def test_a_recalled_page_keeps_its_hours(tmp_path: Path) -> None:
    day = "2026-03-01 09:00\n\nhoshi\n  moved  tunnel\n  18:30 moved  glass\n"
    more = "".join(f"\n2026-04-{n:02}\n\nhoshi\n  watered\n" for n in range(1, 29))
    first = lines(journal(tmp_path, a=day + more, b="2026-03-01 12:00\n\nhoshi\n  fed\n"))
    again = open_session(str(tmp_path), TODAY)
    assert again.journal.remembered
    assert lines(again) == first
    assert first[:3] == ["09:00 moved tunnel", "12:00 fed", "18:30 moved glass"]


def test_what_is_shown(tmp_path: Path, capsys) -> None:
    journal(tmp_path, a="2026-03-01 09:00\n\nhoshi\n  watered\n  fed\n  18:30 pruned\n")
    assert main(["check", str(tmp_path)]) == 0
    assert capsys.readouterr().out.strip() == "No problems. 2 trees here, 3 acts on 1 page."
    assert main(["tree", "hoshi", str(tmp_path), "--on", "2026-03-02"]) == 0
    told = capsys.readouterr().out
    assert "2026-03-01 18:30  pruned" in told
    assert "2026-03-01 09:00  fed" in told


def test_tidy_leaves_hours_where_they_stand() -> None:
    text = (
        "2026-03-01   10:30   low 1 C\n\nhoshi\n 10:30   moved tunnel\n watered   07:15, 0.5 L\n"
        " fed  at 18:00 -- late\n\n2026-03-02T09:00 low 1 C\n\nhoshi\n  watered\n"
    )
    assert tidy_text(text) == (
        "2026-03-01 10:30   low 1 C\n\nhoshi\n  10:30 moved  tunnel\n  watered      07:15, 0.5 L\n"
        "  fed          at 18:00 -- late\n\n2026-03-02T09:00   low 1 C\n\nhoshi\n  watered\n"
    )
    assert tidy_text(tidy_text(text)) == tidy_text(text)


def test_jot_keeps_an_hour_that_was_said(tmp_path: Path) -> None:
    journal(tmp_path, a="2026-03-01\n\nhoshi\n  watered\n")
    words = ("hoshi 18:30 moved tunnel", "hoshi moved bench, 19:00")
    assert main(["jot", *words, "--journal", str(tmp_path), "--on", "2026-03-01"]) == 0
    assert (tmp_path / "a.txt").read_text().splitlines()[3:] == [
        "  watered",
        "  18:30 moved  tunnel",
        "  moved       bench, 19:00",
    ]
    session = open_session(str(tmp_path), TODAY)
    assert lines(session) == ["watered", "18:30 moved tunnel", "19:00 moved bench"]
