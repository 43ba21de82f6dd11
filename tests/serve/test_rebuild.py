"""What is made of a journal that changes, breaks and is mended, in one process that stays."""

from __future__ import annotations

import os
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from datetime import date
from pathlib import Path

import pytest

from backbud.journal import source
from backbud.publish import stage
from backbud.publish.lock import lock
from backbud.serve import rebuild
from backbud.serve.rebuild import News, Rebuilder

TODAY = date(2026, 11, 20)


@pytest.fixture
def rebuilder(journal: Path) -> Rebuilder:
    one = Rebuilder(str(journal), lambda: TODAY)
    news = one.rebuild()
    assert (news.failure, news.problems) == ("", ())
    assert news.written > 5
    return one


def page(journal: Path, name: str = "trees/hoshi.html") -> str:
    return (journal / "made" / name).read_text()


def test_only_what_changed_is_written(journal: Path, rebuilder: Rebuilder) -> None:
    before = {path: path.stat().st_mtime_ns for path in (journal / "made").rglob("*.html")}
    diary = journal / "diary" / "2026.txt"
    # In words that the index of what can be found has of this tree already.
    diary.write_text(f"{diary.read_text()}\n2026-03-09\n\nyuki\n  noted     swelling buds\n")
    news = rebuilder.rebuild()
    assert (news.failure, news.problems, news.written) == ("", (), 1)
    changed = [path.name for path, time in before.items() if path.stat().st_mtime_ns != time]
    assert changed == ["yuki.html"]
    assert "swelling buds" in page(journal, "trees/yuki.html")
    assert rebuilder.rebuild().written == 0


def test_a_line_with_a_problem_is_told_and_all_else_is_made(
    journal: Path, rebuilder: Rebuilder
) -> None:
    diary = journal / "diary" / "2026.txt"
    good = diary.read_text()
    diary.write_text(
        f"{good}  reptted   same pot\n\n2026-03-09\n\nyuki\n  noted     two buds open\n"
    )
    for _ in range(2):  # told each time, though nothing changed
        news = rebuilder.rebuild()
        (problem,) = news.problems
        assert "reptted" in problem and "diary/2026.txt:8:3" in problem
        assert news.failure == ""
    assert "two buds open" in page(journal, "trees/yuki.html")
    diary.write_text(good)
    assert rebuilder.rebuild().problems == ()
    assert "two buds open" not in page(journal, "trees/yuki.html")


def break_settings(journal: Path) -> None:
    (journal / "backbud.toml").write_text('language = 1\nname = "The up')


def remove_settings(journal: Path) -> None:
    (journal / "backbud.toml").unlink()


def half_a_file(journal: Path) -> None:
    (journal / "cards" / "trees.txt").write_bytes("place yard".encode("utf-16"))


def remove_journal(journal: Path) -> None:
    os.rename(journal, journal.parent / "away")


@pytest.mark.parametrize(
    ("damage", "said"),
    [
        (break_settings, "backbud.toml is not TOML"),
        (remove_settings, "backbud.toml cannot be read"),
        (half_a_file, "Not read as a whole: cards/trees.txt."),
    ],
)
def test_a_broken_journal_leaves_the_last_good_pages(
    journal: Path, rebuilder: Rebuilder, damage: Callable[[Path], None], said: str
) -> None:
    before = {path: path.read_bytes() for path in (journal / "made").rglob("*") if path.is_file()}
    whole = {path: path.read_bytes() for path in journal.rglob("*.t*") if "made" not in path.parts}
    damage(journal)
    news = rebuilder.rebuild()
    assert said in news.failure
    assert {path: path.read_bytes() for path in before} == before
    for path, content in whole.items():
        path.write_bytes(content)
    assert (rebuilder.rebuild().failure, rebuilder.rebuild().written) == ("", 0)


def test_a_journal_that_is_gone_is_no_end(journal: Path, rebuilder: Rebuilder) -> None:
    remove_journal(journal)
    assert rebuilder.rebuild().failure == "The journal's folder is not there."
    assert not journal.exists()
    os.rename(journal.parent / "away", journal)
    assert (rebuilder.rebuild().failure, rebuilder.rebuild().written) == ("", 0)


def test_a_file_that_vanishes_while_it_is_read_leaves_the_last_good_pages(
    journal: Path, rebuilder: Rebuilder, monkeypatch: pytest.MonkeyPatch
) -> None:
    load = source.load

    def vanishing(folder: str, name: str) -> source.Loaded:
        if name == "diary/2026.txt":
            os.replace(journal / name, journal / "diary" / "kept")
        return load(folder, name)

    with monkeypatch.context() as patched:
        patched.setattr(source, "load", vanishing)
        assert rebuilder.rebuild().failure == "Not read as a whole: diary/2026.txt."
    assert "2 cm off below" in page(journal)
    os.replace(journal / "diary" / "kept", journal / "diary" / "2026.txt")
    assert rebuilder.rebuild().failure == ""


def test_a_run_that_fails_leaves_the_last_good_pages(
    journal: Path, rebuilder: Rebuilder, monkeypatch: pytest.MonkeyPatch
) -> None:
    def failing(*_: object, **__: object) -> None:
        raise RuntimeError("out of wire")

    with monkeypatch.context() as patched:
        patched.setattr("backbud.compiled.pages_of", failing)
        (journal / "diary" / "2027.txt").write_text("2026-03-09\n\nyuki\n  noted  two buds open\n")
        news = rebuilder.rebuild()
        assert news.failure.startswith(
            "The run was stopped by a fault of backbud itself, RuntimeError in backbud/compiled.py:"
        )
        assert "two buds open" not in page(journal, "trees/yuki.html")
    assert rebuilder.rebuild().failure == ""


def test_what_is_in_the_way_in_the_output_is_told(journal: Path, rebuilder: Rebuilder) -> None:
    (journal / "made" / "trees" / "kaze.html").write_text("mine")
    cards = journal / "cards" / "trees.txt"
    cards.write_text(f"{cards.read_text()}\ntree kaze\n  kind   trident maple\n")
    assert "made/trees/kaze.html is in the way" in rebuilder.rebuild().failure
    (journal / "made" / "trees" / "kaze.html").unlink()
    assert rebuilder.rebuild().failure == ""
    assert "kaze" in page(journal, "trees/kaze.html")


def test_another_run_at_work_is_waited_for(
    journal: Path, rebuilder: Rebuilder, monkeypatch: pytest.MonkeyPatch
) -> None:
    @contextmanager
    def hurried(folder: str) -> Iterator[None]:
        with lock(folder, 0.1):
            yield

    monkeypatch.setattr("backbud.make.lock", hurried)
    child = os.fork()
    if child == 0:
        try:
            with lock(str(journal)):
                (journal / "held").touch()
                while not (journal / "free").exists():
                    pass
        finally:
            os._exit(0)
    while not (journal / "held").exists():
        pass
    news = rebuilder.rebuild()
    assert news.failure.startswith("Another run of backbud")
    assert news.again
    (journal / "free").touch()
    os.waitpid(child, 0)
    assert rebuilder.rebuild().failure == ""


def test_the_day_is_asked_for_each_time(journal: Path) -> None:
    days = [date(2026, 11, 20), date(2026, 11, 21)]
    one = Rebuilder(str(journal), lambda: days[0])
    assert one.rebuild().day == date(2026, 11, 20)
    assert "20 November 2026" in page(journal)
    days.pop(0)
    assert one.rebuild().day == date(2026, 11, 21)
    assert "21 November 2026" in page(journal)


def test_the_next_make_knows_what_was_made(journal: Path, rebuilder: Rebuilder) -> None:
    from backbud.publish.unchanged import nothing_to_do

    if (last := nothing_to_do(str(journal), "2026-11-20", "make")) is None:
        # Only if the program itself was changed meanwhile.
        assert rebuilder.rebuild().note == rebuild.RESTART
    else:
        assert last[0] == 0


@pytest.mark.parametrize("newest_ns", [0, 2_000_000_000])
def test_a_page_that_somebody_wrote_over_is_put_right_with_the_next_change(
    journal: Path, rebuilder: Rebuilder, monkeypatch: pytest.MonkeyPatch, newest_ns: int
) -> None:
    """Also one of the same size and time, that this process has seen before."""
    monkeypatch.setattr(stage, "_TOO_NEW_NS", newest_ns)
    assert rebuilder.rebuild().written == 0
    path = journal / "made" / "trees" / "hoshi.html"
    good, stood = path.read_bytes(), path.stat()
    path.write_bytes(good.replace(b"hoshi", b"ihsoh"))
    os.utime(path, ns=(stood.st_atime_ns, stood.st_mtime_ns))
    diary = journal / "diary" / "2026.txt"
    diary.write_text(f"{diary.read_text()}\n2026-03-09\n\nyuki\n  noted     swelling buds\n")
    assert rebuilder.rebuild().written == 2
    assert path.read_bytes() == good


def test_the_pages_are_there_when_the_run_is_shown(journal: Path) -> None:
    seen: list[tuple[News, str]] = []
    one = Rebuilder(str(journal), lambda: TODAY, lambda news: seen.append((news, page(journal))))
    news = one.rebuild()
    ((shown, text),) = seen
    assert (shown.written, shown.problems, shown.failure) == (news.written, (), "")
    assert "2 cm off below" in text
    (journal / "backbud.toml").write_text("language =")
    assert one.rebuild().failure != ""
    assert len(seen) == 1


def test_what_is_wrong_in_a_weather_file_is_told_each_time(journal: Path) -> None:
    cards = journal / "cards" / "trees.txt"
    cards.write_text(cards.read_text().replace("52.1\n", "52.1\n  weather   days.csv\n", 1))
    weather = journal / "days.csv"
    weather.write_text("date,low_c,high_c\n2026-03-01,2,9\n2026-03-02,2,warm\n")
    one = Rebuilder(str(journal), lambda: TODAY)
    told = one.rebuild().problems
    assert any("days.csv:3" in problem for problem in told)
    assert one.rebuild().problems == told
    weather.write_text("date,low_c,high_c\n2026-03-01,2,9\n2026-03-02,2,10\n")
    assert [one.rebuild().problems for _ in range(2)] == [(), ()]
