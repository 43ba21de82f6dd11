"""A step that raises for one tree goes in; all others are compiled, and the fault is told."""

from __future__ import annotations

import json
import logging
import sys
from collections.abc import Callable
from datetime import date
from pathlib import Path
from pkgutil import resolve_name
from typing import Any

import pytest

from backbud import cli, start
from backbud.serve.rebuild import Rebuilder
from backbud.serve.watch import _logged, _Watching

DAY = "2027-03-20"
# A look at another day has a folder of its own.
MADE = f"made-on/{DAY}"
SETTINGS = 'language = 1\nname = "Yard"\nhome = "yard"\ncurrency = "EUR"\n'
CARDS = """\
place yard
  latitude 52 N
tree hoshi
  kind trident maple
  place yard
tree yuki
  kind trident maple
  place yard
"""
DIARY = """\
2027-03-06
hoshi
  wired 3 mm Al -- a secret of the diary
yuki
  wired 2 mm Al
  planned repot, to 2027-04
"""
SECRET = "a secret of the diary"


class Broken(RuntimeError):
    """Nobody foresees it."""


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    for name, text in (("backbud.toml", SETTINGS), ("cards.txt", CARDS), ("diary.txt", DIARY)):
        (tmp_path / name).write_text(text, "utf-8")
    return tmp_path


Run = Callable[..., tuple[int, str, str]]


@pytest.fixture
def run(folder: Path, capsys: pytest.CaptureFixture[str]) -> Run:
    def run(*words: str) -> tuple[int, str, str]:
        status = cli.main([*words, str(folder), "--on", DAY])
        return status, *capsys.readouterr()

    return run


def broken_for(monkeypatch: pytest.MonkeyPatch, path: str, handle_of: Callable[..., str]) -> None:
    """Let a function raise for hoshi."""
    module, _, name = path.rpartition(".")
    __import__(module)
    sound = getattr(sys.modules[module], name)

    def broken(*arguments: Any, **named: Any) -> Any:
        if handle_of(*arguments) == "hoshi":
            raise Broken(SECRET)
        return sound(*arguments, **named)

    monkeypatch.setattr(sys.modules[module], name, broken)


STEPS = {
    "the plan": ("backbud.plan.run._of_tree", lambda tree, *_: tree.handle),
    "the fold": ("backbud.collection.fold._apply", lambda draft, _: draft.at.handle),
    "the minutes": ("backbud.plan.each_tree.timed", lambda tree, *_: tree.handle),
    "the calendar entries": ("backbud.calendar.feeds.event_of", lambda one, *_: one.tree),
    "the page": ("backbud.pages.tree.laid_out", lambda view, *_: view.trees[0].handle),
    "a row": ("backbud.pages.render._rows", lambda view, tree: tree.handle),
}
# What planning comes upon is known to every command that plans, and what pages are, to `make`.
PLANNING = ("the plan", "the fold", "the minutes")


@pytest.mark.parametrize("step", STEPS)
def test_a_fault_in_one_tree_leaves_all_others(
    folder: Path, run: Run, monkeypatch: pytest.MonkeyPatch, step: str
) -> None:
    assert run("make")[0] == 0
    sound = (folder / MADE / "trees/yuki.html").read_bytes()
    sound_feed = (folder / MADE / "calendars/trees/yuki.ics").read_bytes()
    (folder / "cards.txt").write_text(f"{CARDS}\n", "utf-8")
    broken_for(monkeypatch, *STEPS[step])
    status, out, err = run("make")
    assert status == 1
    what = "the plan" if step in PLANNING else "the page" if step == "a row" else step
    assert f"cards.txt:3:1: {what} of hoshi failed by a fault of backbud: Broken in " in err
    assert "    tree hoshi\n" in err
    assert "1 problem in the journal" in out
    assert (folder / MADE / "trees/yuki.html").read_bytes() == sound
    assert (folder / MADE / "calendars/trees/yuki.ics").read_bytes() == sound_feed
    # Its own page and feed stay where they were subscribed to and linked.
    assert (folder / MADE / "trees/hoshi.html").is_file()
    assert (folder / MADE / "calendars/trees/hoshi.ics").is_file()
    # The report names the way of the error, and nothing of the journal but the line at fault.
    (report,) = (folder / ".backbud").glob("fault-*.txt")
    assert f".backbud/{report.name}" in err
    text = report.read_text("utf-8")
    assert "Broken\n" in text and "line       tree hoshi\n" in text and "backbud    0." in text
    assert SECRET not in text and str(folder) not in text.replace(f"command    {sys.argv}", "")
    for words in (
        ["check"], ["due"], ["tree", "yuki"], ["tree", "hoshi"], ["why", "yuki/wire"], ["stores"],
    ):  # fmt: skip
        assert run(*words)[0] == 1, words
    (told,) = json.loads(run("check", "--json")[1])
    assert (told["code"], told["file"], told["line"]) == ("fault", "cards.txt", 3)
    monkeypatch.undo()
    # Once all is well it is no longer told.
    assert run("make")[0] == 0
    assert run("check")[0] == 0


def test_a_block_that_cannot_be_replayed(run: Run, monkeypatch: pytest.MonkeyPatch) -> None:
    from backbud.collection.whereabouts import Replay

    sound = Replay._block

    def broken(replay: Replay, page: Any, block: Any) -> None:
        if block.text == "hoshi":
            raise Broken(SECRET)
        sound(replay, page, block)

    monkeypatch.setattr(Replay, "_block", broken)
    for words in (["check"], ["due"], ["make"], ["tree", "yuki"]):
        assert run(*words)[0] == 1
    assert "diary.txt:2:1: this block failed by a fault of backbud: Broken in " in run("check")[1]
    assert "wired 2 mm Al" in run("tree", "yuki")[1].replace("  ", " ")


def test_a_file_a_page_or_a_card_that_cannot_be_read(
    folder: Path, run: Run, monkeypatch: pytest.MonkeyPatch
) -> None:
    (folder / "more.txt").write_text("2027-03-07\nyuki\n  watered\n", "utf-8")
    for step in ("outlines._outlined", "pages.page_by_lines"):
        with monkeypatch.context() as patch:
            step = f"backbud.journal.{step}"
            sound = resolve_name(step)

            def fails(file: str, *given: Any, sound: Any = sound) -> Any:
                if file == "more.txt":
                    raise Broken(SECRET)
                return sound(file, *given)

            patch.setattr(step, fails)
            status, out, _ = run("check")
            assert status == 1
            assert "more.txt:1:1: this " in out and "by a fault of backbud: Broken" in out
            assert "2 trees here, 3 acts on 1 page." in out
    with monkeypatch.context() as patch:
        from backbud.journal import cards

        sound_thing = cards._thing

        def thing(placed: Any, *given: Any) -> Any:
            if placed.card.handle == "hoshi":
                raise Broken(SECRET)
            return sound_thing(placed, *given)

        patch.setattr(cards, "_thing", thing)
        status, out, _ = run("check")
        assert status == 1
        assert "cards.txt:3:1: this card failed by a fault of backbud: Broken in " in out
        assert "1 tree here" in out


def test_what_nobody_foresaw_ends_in_one_sentence(
    folder: Path, run: Run, monkeypatch: pytest.MonkeyPatch
) -> None:
    def broken(*_: object, **__: object) -> None:
        raise Broken(SECRET)

    monkeypatch.setattr("backbud.session.open_session", broken)
    before = {path: path.read_bytes() for path in folder.glob("*.t*")}
    status, out, err = run("check")
    assert (status, out) == (3, "")
    (report,) = (folder / ".backbud").glob("fault-*.txt")
    (line,) = err.splitlines()
    assert line.startswith("backbud was stopped by a fault of backbud itself, Broken in ")
    assert line.endswith(f". Nothing of the journal was changed. The report is {report}")
    assert SECRET not in report.read_text("utf-8")
    assert before == {path: path.read_bytes() for path in folder.glob("*.t*")}
    # Without a journal there is no place for a report.
    monkeypatch.setattr("backbud.commands.reckon.reckon", broken)
    assert cli.main(["reckon", "wire", "--branch", "9 mm"]) == 3


def test_where_no_report_can_be_written_it_is_said_all_the_same(
    folder: Path, run: Run, monkeypatch: pytest.MonkeyPatch
) -> None:
    (folder / ".backbud").write_text("in the way")
    monkeypatch.setattr("backbud.session.open_session", lambda *_, **__: 1 // 0)
    status, _, err = run("check")
    assert status == 3
    assert err.startswith("backbud was stopped by a fault of backbud itself, ZeroDivisionError")
    assert err.endswith("Nothing of the journal was changed.\n")


@pytest.mark.parametrize("name", ["lock", "revisions.json"])
def test_what_stands_in_the_way_of_the_memory_is_told_and_is_no_misuse(
    folder: Path, capsys: pytest.CaptureFixture[str], name: str
) -> None:
    (folder / "diary.txt").unlink()
    (folder / ".backbud" / name).mkdir(parents=True)
    # Only a run of today keeps revisions.
    assert cli.main(["make", str(folder)]) == 3
    told = f"backbud: .backbud/{name} is in the way: it should be a file. Move it away.\n"
    assert told in capsys.readouterr().err
    (folder / ".backbud" / name).rmdir()
    assert cli.main(["make", str(folder)]) == 0


def test_a_disk_that_refuses_is_said_and_is_no_fault(
    folder: Path, run: Run, monkeypatch: pytest.MonkeyPatch
) -> None:
    def full(*_: object, **__: object) -> None:
        raise OSError(28, "No space left on device", "journal")

    monkeypatch.setattr("backbud.session.open_session", full)
    assert run("check") == (
        3,
        "",
        "backbud: journal: No space left on device. Nothing of the journal was changed.\n",
    )
    assert not list((folder / ".backbud").glob("fault-*")) if (folder / ".backbud").exists() else 1


def test_the_quick_way_of_make_has_it_too(
    folder: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    def left(status: int) -> None:
        raise SystemExit(status)

    monkeypatch.chdir(folder)
    monkeypatch.setattr(sys, "argv", ["backbud", "make"])
    monkeypatch.setattr(start, "nothing_to_do", lambda *_: 1 // 0)
    monkeypatch.setattr("os._exit", left)
    with pytest.raises(SystemExit) as leaving:
        start.run()
    assert leaving.value.code == 3
    assert "stopped by a fault of backbud itself, ZeroDivisionError" in capsys.readouterr().err


def test_watch_survives(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    rebuilder = Rebuilder(str(folder), lambda: date.fromisoformat(DAY))
    assert rebuilder.rebuild().failure == ""
    with monkeypatch.context() as patch:
        patch.setattr("backbud.compiled.nursery_of", lambda *_: 1 // 0)
        failure = rebuilder.rebuild().failure
    assert failure.startswith("The run was stopped by a fault of backbud itself, ZeroDivisionError")
    with monkeypatch.context() as patch:
        named = CARDS.replace("tree hoshi\n", "tree hoshi\n  name Old star\n")
        (folder / "cards.txt").write_text(named, "utf-8")
        broken_for(patch, *STEPS["the plan"])
        news = rebuilder.rebuild()
        assert news.failure == ""
        (problem,) = news.problems
        assert "cards.txt:3:1: the plan of hoshi failed by a fault of backbud: Broken" in problem
    # What was told once is not kept: the tree is planned again.
    news = rebuilder.rebuild()
    assert (news.failure, news.problems) == ("", ())


def test_what_a_library_would_log_with_its_traceback_is_told_in_a_sentence(
    folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    watching = _Watching(str(folder), date.today)
    with _logged("uvicorn.error", watching._fault):
        try:
            raise Broken(SECRET)
        except Broken:
            logging.getLogger("uvicorn.error").exception("Exception in ASGI application")
        logging.getLogger("uvicorn.error").error("Invalid HTTP request received.")
    out, err = capsys.readouterr()
    (line,) = err.splitlines()
    assert out == ""
    assert "  A page was not served because of a fault of backbud itself, Broken in " in line
    assert SECRET not in line
