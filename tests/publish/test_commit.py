"""Publishing: exactly the new set, or still the old one, and nothing of anybody else's touched."""

from __future__ import annotations

import builtins
import errno
import os
import re
import shutil
import subprocess
import sys
import tempfile
import threading
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from hashlib import blake2b
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.examples import examples

from backbud.publish import disk
from backbud.publish.commit import Published, finish, publish
from backbud.publish.lock import lock
from backbud.publish.refused import BusyError, ForeignError, PublishError

OLD = {
    "index.html": b"old index",
    "style-1a.css": b"old style",
    "trees/hoshi.html": b"hoshi",
    "trees/yuki.html": b"yuki, old",
    "owners/marrow/index.html": b"marrow",
    "plans": b"a file that becomes a folder",
    "season/2027/spring.html": b"a folder that becomes a file",
}
NEW = {
    "index.html": b"new index, longer",
    "style-2b.css": b"new style",
    "trees/hoshi.html": b"hoshi",
    "trees/yuki.html": b"yuki, new",
    "calendars/all.ics": b"BEGIN:VCALENDAR",
    "plans/2027.html": b"in a folder",
    "season": b"a file",
}
FOREIGN = {"notes of mine.txt": b"mine", "owners/marrow/mine.txt": b"mine too"}


def made(journal: Path) -> dict[str, bytes]:
    """Everything in `made/` but the manifest."""
    root = journal / "made"
    return {
        path.relative_to(root).as_posix(): path.read_bytes()
        for path in root.rglob("*")
        if path.is_file() and path.name != ".manifest"
    }


def empty_folders(journal: Path) -> list[str]:
    return [
        str(path)
        for path in (journal / "made").rglob("*")
        if path.is_dir() and not any(path.iterdir())
    ]


def put(journal: Path, files: Mapping[str, bytes]) -> None:
    for name, content in files.items():
        path = journal / "made" / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(content)


def refused(journal: Path, files: Mapping[str, bytes]) -> str:
    """The sentence with which a publishing is refused; what was made must be as before."""
    before = made(journal)
    with pytest.raises(PublishError) as error:
        publish(str(journal), files)
    assert made(journal) == before
    return str(error.value)


# --- what is written -----------------------------------------------------------------------------


def test_first_publishing_writes_the_set_the_manifest_and_a_memory_that_git_ignores(
    tmp_path: Path,
) -> None:
    done = publish(str(tmp_path), {"b/c.html": b"c", "a.html": b"a"})
    assert done == Published(written=("a.html", "b/c.html"), removed=(), kept=0)
    assert made(tmp_path) == {"a.html": b"a", "b/c.html": b"c"}
    head, mark, *lines = (tmp_path / "made" / ".manifest").read_text("utf-8").split("\n")
    assert head == "backbud manifest 2"
    assert re.fullmatch("[0-9a-f]{64}", mark)
    # RFC 7693 by way of hashlib.
    digests = [blake2b(content, digest_size=16).hexdigest() for content in (b"a", b"c")]
    assert lines == [digests[0], "a.html", digests[1], "b/c.html", ""]
    assert (tmp_path / ".backbud" / ".gitignore").read_text() == "*\n"
    assert sorted(os.listdir(tmp_path / ".backbud")) == [".gitignore", "lock"]


def identity(path: Path) -> tuple[int, int]:
    """Which file it is, and when it was last written; reading it changes neither."""
    stat = os.stat(path)
    return stat.st_ino, stat.st_mtime_ns


def test_only_what_differs_is_written_and_only_what_is_gone_is_removed(tmp_path: Path) -> None:
    publish(str(tmp_path), OLD)
    put(tmp_path, FOREIGN)
    before = identity(tmp_path / "made/trees/hoshi.html")
    done = publish(str(tmp_path), NEW)
    assert done.written == (
        "calendars/all.ics",
        "index.html",
        "plans/2027.html",
        "season",
        "style-2b.css",
        "trees/yuki.html",
    )
    assert done.removed == (
        "owners/marrow/index.html",
        "plans",
        "season/2027/spring.html",
        "style-1a.css",
    )
    assert done.kept == 1
    assert identity(tmp_path / "made/trees/hoshi.html") == before
    assert made(tmp_path) == NEW | FOREIGN


def test_emptied_folders_go_and_folders_with_files_of_others_stay(tmp_path: Path) -> None:
    publish(str(tmp_path), {"a/b/c.html": b"c", "d/e.html": b"e"})
    put(tmp_path, {"d/mine.txt": b"mine"})
    publish(str(tmp_path), {})
    assert made(tmp_path) == {"d/mine.txt": b"mine"}
    assert not (tmp_path / "made/a").exists()


def test_the_same_set_again_writes_nothing_at_all(tmp_path: Path) -> None:
    publish(str(tmp_path), OLD)
    before = identity(tmp_path / "made/.manifest")
    assert publish(str(tmp_path), OLD) == Published((), (), 7)
    assert identity(tmp_path / "made/.manifest") == before


def test_a_published_file_that_was_edited_or_deleted_is_made_anew(tmp_path: Path) -> None:
    publish(str(tmp_path), OLD)
    put(tmp_path, {"index.html": b"edited by hand"})
    (tmp_path / "made/trees/hoshi.html").unlink()
    assert publish(str(tmp_path), OLD).written == ("index.html", "trees/hoshi.html")
    assert made(tmp_path) == OLD


def test_a_change_of_case_alone_leaves_one_file(tmp_path: Path) -> None:
    publish(str(tmp_path), {"Hoshi.html": b"same", "Yuki.html": b"old"})
    publish(str(tmp_path), {"hoshi.html": b"same", "yuki.html": b"new"})
    assert made(tmp_path) == {"hoshi.html": b"same", "yuki.html": b"new"}


def test_the_memory_may_be_deleted_between_runs(tmp_path: Path) -> None:
    publish(str(tmp_path), OLD)
    shutil.rmtree(tmp_path / ".backbud")
    publish(str(tmp_path), NEW)
    assert made(tmp_path) == NEW


def test_the_output_may_be_deleted_between_runs(tmp_path: Path) -> None:
    publish(str(tmp_path), OLD)
    shutil.rmtree(tmp_path / "made")
    assert publish(str(tmp_path), OLD).written == tuple(sorted(OLD))
    assert made(tmp_path) == OLD


# --- what is refused -----------------------------------------------------------------------------


@pytest.mark.parametrize(
    "name",
    [
        "",
        ".",
        "..",
        "/etc/a",
        "a//b",
        "a/",
        "./a",
        "a/../b",
        "../a",
        "a\\b",
        "C:a",
        "a\nb",
        "a\0",
        "a\u2028b",
        "a\udc80",
        ".manifest",
        ".Manifest/a",
    ],
)
def test_names_that_lead_elsewhere_are_refused(tmp_path: Path, name: str) -> None:
    with pytest.raises(PublishError, match="cannot be the name of an output file"):
        publish(str(tmp_path), {"fine.html": b"", name: b""})
    assert os.listdir(tmp_path) == []


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("Hoshi.html", "hoshi.html"),
        ("trees/a.html", "Trees/b.html"),
        ("trees", "trees/a.html"),
        ("stra\u00dfe.html", "strasse.html"),
        ("caf\u00e9.html", "cafe\u0301.html"),
    ],
)
def test_names_that_are_one_on_some_system_are_refused(
    tmp_path: Path, one: str, other: str
) -> None:
    with pytest.raises(PublishError, match="cannot both be in the output"):
        publish(str(tmp_path), {one: b"1", other: b"2"})


def test_a_file_of_somebody_else_is_never_overwritten(tmp_path: Path) -> None:
    publish(str(tmp_path), OLD)
    put(tmp_path, {"calendars/all.ics": b"not ours"})
    assert refused(tmp_path, NEW) == (
        "made/calendars/all.ics is in the way: backbud did not write it and leaves it alone."
        " Move it away. The output of last time is still whole."
    )
    assert not (tmp_path / ".backbud/staged").exists()


def test_a_file_of_somebody_else_with_the_very_bytes_is_taken_over(tmp_path: Path) -> None:
    put(tmp_path, {"a.html": b"a"})
    assert publish(str(tmp_path), {"a.html": b"a"}) == Published((), (), 1)
    publish(str(tmp_path), {"a.html": b"b"})
    assert made(tmp_path) == {"a.html": b"b"}


def test_a_folder_with_a_file_of_somebody_else_does_not_give_way_to_a_file(tmp_path: Path) -> None:
    publish(str(tmp_path), OLD)
    put(tmp_path, {"season/mine/notes.txt": b"mine"})
    assert "made/season/mine is in the way" in refused(tmp_path, NEW)


def test_a_file_of_somebody_else_does_not_give_way_to_a_folder(tmp_path: Path) -> None:
    publish(str(tmp_path), OLD)
    put(tmp_path, {"calendars": b"mine"})
    assert "made/calendars is in the way" in refused(tmp_path, NEW)


def test_an_output_folder_that_is_a_link_is_refused(tmp_path: Path) -> None:
    journal, elsewhere = tmp_path / "journal", tmp_path / "elsewhere"
    journal.mkdir()
    elsewhere.mkdir()
    (journal / "made").symlink_to(elsewhere)
    with pytest.raises(PublishError, match=r"^made is a link"):
        publish(str(journal), OLD)
    assert os.listdir(elsewhere) == []


def test_an_output_folder_that_is_a_file_is_refused(tmp_path: Path) -> None:
    (tmp_path / "made").write_text("mine")
    with pytest.raises(PublishError, match=r"^made is in the way: it should be a folder"):
        publish(str(tmp_path), OLD)
    assert (tmp_path / "made").read_text() == "mine"


def test_a_memory_that_is_a_link_is_refused(tmp_path: Path) -> None:
    journal, elsewhere = tmp_path / "journal", tmp_path / "elsewhere"
    journal.mkdir()
    elsewhere.mkdir()
    (journal / ".backbud").symlink_to(elsewhere)
    with pytest.raises(PublishError, match=r"^\.backbud is a link"):
        publish(str(journal), OLD)
    assert os.listdir(elsewhere) == []


@pytest.mark.parametrize("files", [NEW, {"trees/elm.html": b"elm"}, {}])
def test_a_linked_folder_in_the_output_is_refused_to_write_and_to_remove_in(
    tmp_path: Path, files: dict[str, bytes]
) -> None:
    journal, elsewhere = tmp_path / "journal", tmp_path / "elsewhere"
    journal.mkdir()
    publish(str(journal), OLD)
    shutil.move(journal / "made/trees", elsewhere)
    (journal / "made/trees").symlink_to(elsewhere)
    with pytest.raises(PublishError, match=r"^made/trees is a link"):
        publish(str(journal), files)
    assert sorted(os.listdir(elsewhere)) == ["hoshi.html", "yuki.html"]
    assert (elsewhere / "yuki.html").read_bytes() == b"yuki, old"


def test_a_linked_file_in_the_output_is_refused(tmp_path: Path) -> None:
    publish(str(tmp_path), OLD)
    (tmp_path / "mine.txt").write_bytes(b"mine")
    (tmp_path / "made/index.html").unlink()
    (tmp_path / "made/index.html").symlink_to(tmp_path / "mine.txt")
    assert "made/index.html is a link" in refused(tmp_path, NEW)
    assert (tmp_path / "mine.txt").read_bytes() == b"mine"


@pytest.mark.parametrize(
    "manifest",
    [
        "backbud manifest 1\n../diary.txt\n",
        "backbud manifest 1\n/etc/hosts\n",
        "backbud manifest 1\nindex.html",
        "<<<<<<< ours\n",
        "",
    ],
)
def test_a_manifest_not_of_our_making_is_never_acted_on(tmp_path: Path, manifest: str) -> None:
    (tmp_path / "diary.txt").write_text("2027-03-06\n")
    put(tmp_path, {"index.html": b"x"})
    (tmp_path / "made/.manifest").write_text(manifest)
    assert refused(tmp_path, NEW) == (
        "made/ does not bear your mark: it came with the journal, or an older backbud made it."
        " It is left alone. To move it to made-aside and make all anew: backbud make --take-over"
    )
    assert (tmp_path / "diary.txt").exists()


def test_a_folder_that_may_not_be_written_to_is_seen_before_anything_is_changed(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    publish(str(tmp_path), OLD)
    monkeypatch.setattr(os, "access", lambda path, mode: not str(path).endswith("trees"))
    assert refused(tmp_path, NEW) == (
        "made/trees may not be written to. The output of last time is still whole."
    )


def test_a_journal_that_is_not_there_is_said_so(tmp_path: Path) -> None:
    with pytest.raises(PublishError, match=r"^There is no folder "):
        publish(str(tmp_path / "nowhere"), OLD)


@pytest.mark.skipif(sys.platform == "win32", reason="limits of a process are POSIX")
def test_a_file_that_the_disk_does_not_take_leaves_the_last_output_whole(tmp_path: Path) -> None:
    publish(str(tmp_path), OLD)
    code = (
        "import resource, sys\n"
        "from backbud.publish.commit import publish\n"
        "resource.setrlimit(resource.RLIMIT_FSIZE, (20_000, 20_000))\n"
        "publish(sys.argv[1], {'index.html': b'x', 'large.html': bytes(50_000)})\n"
    )
    ended = subprocess.run(
        [sys.executable, "-c", code, tmp_path],
        env=dict(os.environ, PYTHONPATH=os.pathsep.join(sys.path)),
        capture_output=True,
        text=True,
        check=False,
    )
    assert "PublishError: Could not write made: File too large" in ended.stderr
    assert "The output of last time is still whole." in ended.stderr
    assert made(tmp_path) == OLD
    assert sorted(os.listdir(tmp_path / ".backbud")) == [".gitignore", "lock"]


def test_a_windows_reader_is_waited_for(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    replace = os.replace
    failures = iter([True, True, False, True, False] + [False] * 99)

    def busy_replace(source: str, target: str) -> None:
        if next(failures):
            raise PermissionError(errno.EACCES, "in use", target)
        replace(source, target)

    monkeypatch.setattr(os, "replace", busy_replace)
    monkeypatch.setattr(disk, "RETRY_PAUSES_SECONDS", (0.0, 0.0))
    publish(str(tmp_path), NEW)
    assert made(tmp_path) == NEW


# --- what an earlier run left --------------------------------------------------------------------


def test_finish_with_nothing_left_over_writes_nothing(tmp_path: Path) -> None:
    assert finish(str(tmp_path)) is False
    assert os.listdir(tmp_path) == []


def test_staged_files_without_a_commitment_are_thrown_away(tmp_path: Path) -> None:
    publish(str(tmp_path), OLD)

    def before(name: str) -> None:
        if os.path.exists(tmp_path / f".backbud/staged/{os.getpid()}-3"):
            raise Killed(name)

    with pytest.raises(Killed), each_step(before):
        publish(str(tmp_path), NEW)
    assert finish(str(tmp_path)) is False
    assert not (tmp_path / ".backbud/staged").exists()
    assert made(tmp_path) == OLD


def test_staged_files_of_somebody_else_are_left_alone(tmp_path: Path) -> None:
    publish(str(tmp_path), OLD)
    (tmp_path / ".backbud/staged").mkdir()
    (tmp_path / ".backbud/staged/1-0").write_bytes(b"theirs")
    said = (
        ".backbud/staged does not bear your mark: it came with the journal, or an older backbud"
        " made it. Nothing of it was touched."
        " To move it to made-aside and make all anew: backbud make --take-over"
    )
    for _ in range(2):
        with pytest.raises(ForeignError, match=f"^{re.escape(said)}$"):
            finish(str(tmp_path))
    assert said == refused(tmp_path, NEW)
    assert (tmp_path / ".backbud/staged/1-0").read_bytes() == b"theirs"


@pytest.mark.parametrize(
    "lines",
    [
        "new 1-0 ../diary.txt",
        "changed 1-0 index.html\ngone ../diary.txt",
        "new ../../cards.txt index.html",
        "other",
        "new",
    ],
)
def test_a_commitment_not_of_our_making_is_never_carried_out(tmp_path: Path, lines: str) -> None:
    publish(str(tmp_path), OLD)
    (tmp_path / "diary.txt").write_text("2027-03-06\n")
    (tmp_path / "cards.txt").write_text("tree hoshi\n")
    (tmp_path / ".backbud/staged").mkdir()
    (tmp_path / ".backbud/staged/1-0").write_bytes(b"planted")
    (tmp_path / ".backbud/commitment").write_text(
        f"backbud commitment 1\ncoming 1-1\nfinal 1-2\n{lines}\nend\n"
    )
    before = (tmp_path / ".backbud/commitment").read_bytes()
    with pytest.raises(ForeignError, match=r"^\.backbud/commitment does not bear your mark"):
        finish(str(tmp_path))
    assert "Nothing of it was done." in refused(tmp_path, NEW)
    assert made(tmp_path) == OLD
    assert (tmp_path / "diary.txt").read_text() == "2027-03-06\n"
    assert (tmp_path / "cards.txt").read_text() == "tree hoshi\n"
    assert (tmp_path / ".backbud/staged/1-0").read_bytes() == b"planted"
    assert (tmp_path / ".backbud/commitment").read_bytes() == before


def test_a_file_of_somebody_else_that_appeared_meanwhile_is_not_overwritten(
    tmp_path: Path,
) -> None:
    publish(str(tmp_path), OLD)
    kill_at(tmp_path, NEW, "the commitment is made")
    put(tmp_path, {"calendars/all.ics": b"mine"})
    with pytest.raises(PublishError) as error:
        finish(str(tmp_path))
    assert str(error.value) == (
        "made/calendars/all.ics is in the way: backbud did not write it and leaves it alone."
        " Move it away. The output is half way: the next command finishes it."
    )
    assert made(tmp_path)["calendars/all.ics"] == b"mine"
    (tmp_path / "made/calendars/all.ics").unlink()
    assert finish(str(tmp_path)) is True
    assert made(tmp_path) == NEW


# --- the lock ------------------------------------------------------------------------------------


def test_a_second_run_waits_and_then_says_who_is_at_work(tmp_path: Path) -> None:
    code = (
        "import sys\n"
        "from backbud.publish.lock import lock\n"
        "with lock(sys.argv[1]):\n"
        "    print('locked', flush=True)\n"
        "    sys.stdin.read()\n"
    )
    other = subprocess.Popen(
        [sys.executable, "-c", code, tmp_path],
        env=dict(os.environ, PYTHONPATH=os.pathsep.join(sys.path)),
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
    )
    assert other.stdin is not None and other.stdout is not None
    try:
        assert other.stdout.readline() == b"locked\n"
        with pytest.raises(BusyError) as error, lock(str(tmp_path), wait_seconds=0.1):
            pass
        assert str(error.value) == (
            f"Another run of backbud (process {other.pid}) is at work on this journal."
            " Try again when it has ended."
        )
        (tmp_path / ".backbud/staged").mkdir()
        assert finish(str(tmp_path)) is False
        assert (tmp_path / ".backbud/staged").exists(), "the other run may be staging this"
        threading.Timer(0.2, other.stdin.close).start()
        publish(str(tmp_path), NEW)
        assert made(tmp_path) == NEW
    finally:
        other.kill()
        other.wait()
        other.stdout.close()


def test_a_thread_may_take_its_lock_again_and_another_thread_may_not(tmp_path: Path) -> None:
    said: list[str] = []

    def other_thread() -> None:
        try:
            with lock(str(tmp_path), wait_seconds=0.0):
                said.append("locked")
        except BusyError:
            said.append("busy")

    with lock(str(tmp_path)), lock(str(tmp_path), wait_seconds=0.0):
        thread = threading.Thread(target=other_thread)
        thread.start()
        thread.join()
    other_thread()
    assert said == ["busy", "locked"]


def test_a_lock_that_is_a_link_is_not_written_through(tmp_path: Path) -> None:
    (tmp_path / "mine.txt").write_text("mine")
    (tmp_path / ".backbud").mkdir()
    (tmp_path / ".backbud/lock").symlink_to(tmp_path / "mine.txt")
    said = r"^\.backbud/lock is in the way: it should be a file\. Move it away\.$"
    with pytest.raises(PublishError, match=said):
        publish(str(tmp_path), OLD)
    assert (tmp_path / "mine.txt").read_text() == "mine"
    (tmp_path / ".backbud/lock").unlink()
    (tmp_path / ".backbud/lock").mkdir()
    with pytest.raises(PublishError, match=said):
        publish(str(tmp_path), OLD)


# --- failing at each step in turn ----------------------------------------------------------------


class Killed(BaseException):
    """Stands for the end of the process: nothing in the program may catch it."""


@contextmanager
def each_step(before: Callable[[str], None]) -> Iterator[None]:
    """Call `before` with the name of each system call that publishing makes."""
    patch = pytest.MonkeyPatch()

    def watched(name: str, step: Callable[..., object]) -> Callable[..., object]:
        def call(*arguments: object, **options: object) -> object:
            before(name)
            return step(*arguments, **options)

        return call

    for name in ("open", "fsync", "replace", "mkdir", "remove", "rmdir", "unlink", "lstat"):
        patch.setattr(os, name, watched(name, getattr(os, name)))
    patch.setattr(disk, "open", watched("open", builtins.open), raising=False)
    try:
        yield
    finally:
        patch.undo()


def count_steps(journal: Path, files: Mapping[str, bytes]) -> int:
    names: list[str] = []
    with each_step(names.append):
        publish(str(journal), files)
    return len(names)


def publish_until(
    journal: Path, files: Mapping[str, bytes], last: int, error: Exception | None
) -> None:
    """Publish; at step number `last` either that error once, or the end of the process."""
    count = 0

    def before(name: str) -> None:
        nonlocal count
        count += 1
        if count == last and error is not None:
            raise error
        if count >= last and error is None:
            raise Killed(name)

    with each_step(before):
        publish(str(journal), files)


def kill_at(journal: Path, files: Mapping[str, bytes], moment: str) -> None:
    """End the process right after a moment, known by what it leaves."""
    assert moment == "the commitment is made"

    def before(name: str) -> None:
        if os.path.exists(journal / ".backbud/commitment"):
            raise Killed(name)

    with pytest.raises(Killed), each_step(before):
        publish(str(journal), files)


@pytest.fixture(scope="module")
def steps() -> int:
    """How many steps it takes from OLD with FOREIGN to NEW."""
    with tempfile.TemporaryDirectory() as folder:
        prepare(Path(folder))
        return count_steps(Path(folder), NEW)


def prepare(journal: Path) -> None:
    publish(str(journal), OLD)
    put(journal, FOREIGN)


def test_a_run_killed_before_any_step_leaves_old_or_new_and_never_a_mixture(
    tmp_path: Path, steps: int
) -> None:
    outcomes: list[str] = []
    for last in range(1, steps + 1):
        journal = tmp_path / str(last)
        journal.mkdir()
        prepare(journal)
        with pytest.raises(Killed):
            publish_until(journal, NEW, last, None)
        is_committed = (journal / ".backbud/commitment").exists()
        if not is_committed and outcomes[-1:] != ["new"]:
            assert made(journal) == OLD | FOREIGN, last
        assert finish(str(journal)) is is_committed
        outcomes.append("new" if made(journal) == NEW | FOREIGN else "old")
        assert made(journal) == (NEW if outcomes[-1] == "new" else OLD) | FOREIGN, last
        assert not is_committed or outcomes[-1] == "new", last
        assert not (journal / ".backbud/staged").exists()
        assert publish(str(journal), NEW).kept == (7 if outcomes[-1] == "new" else 1)
        assert made(journal) == NEW | FOREIGN
        assert empty_folders(journal) == []
    assert outcomes == sorted(outcomes, reverse=True), "old up to one step, new from it on"
    assert outcomes.count("old") > 20
    assert outcomes.count("new") > 20


@pytest.mark.parametrize("code", [errno.ENOSPC, pytest.param(errno.EACCES, marks=pytest.mark.long)])
def test_a_step_that_fails_leaves_old_or_new_and_says_which(
    tmp_path: Path, steps: int, code: int
) -> None:
    told = {"The output of last time is still whole.": 0, "the next command finishes it.": 0}
    for last in range(1, steps + 1):
        journal = tmp_path / str(last)
        journal.mkdir()
        prepare(journal)
        try:
            publish_until(journal, NEW, last, OSError(code, os.strerror(code)))
        except PublishError as error:
            ending = next(ending for ending in told if str(error).endswith(ending))
            told[ending] += 1
            is_whole = ending.startswith("The output of last")
            if is_whole:
                assert made(journal) == OLD | FOREIGN, last
            assert (journal / ".backbud/commitment").exists() is not is_whole, last
            assert finish(str(journal)) is not is_whole
            assert made(journal) == (OLD if is_whole else NEW) | FOREIGN, last
        else:  # a step that may fail without harm, as saying who holds the lock
            assert made(journal) == NEW | FOREIGN, last
        publish(str(journal), NEW)
        assert made(journal) == NEW | FOREIGN
        assert empty_folders(journal) == []
    assert min(told.values()) > 20


def test_the_memory_deleted_after_a_kill_at_any_step_hinders_nothing(
    tmp_path: Path, steps: int
) -> None:
    third = {"index.html": b"third", "trees/yuki.html": b"third", "calendars": b"now a file"}
    for last in range(1, steps + 1, 2):
        journal = tmp_path / str(last)
        journal.mkdir()
        prepare(journal)
        with pytest.raises(Killed):
            publish_until(journal, NEW, last, None)
        shutil.rmtree(journal / ".backbud")
        publish(str(journal), third)
        assert made(journal) == third | FOREIGN, last
        assert empty_folders(journal) == []


def test_the_memory_deleted_while_a_run_is_at_work_is_told(tmp_path: Path, steps: int) -> None:
    for last in range(1, steps + 1, 3):
        journal = tmp_path / str(last)
        journal.mkdir()
        prepare(journal)
        count = 0

        def before(name: str, journal: Path = journal, last: int = last) -> None:
            nonlocal count
            count += 1
            if count == last:
                os.system(f"rm -rf {journal / '.backbud'}")

        is_told = False
        try:
            with each_step(before):
                publish(str(journal), NEW)
        except PublishError:
            is_told = True
        assert is_told or made(journal) == NEW | FOREIGN, last
        publish(str(journal), NEW)
        assert made(journal) == NEW | FOREIGN, last


# --- where case does not tell names apart --------------------------------------------------------


def as_stored(path: object, root: str) -> object:
    """The path as such a file system finds it: each part as it is spelled on the disk already."""
    if not isinstance(path, str) or not path.startswith(root):
        return path
    found = root
    for part in path.removeprefix(root).strip("/").split("/"):
        there = os.listdir(found) if os.path.isdir(found) else []
        same = [name for name in there if name.casefold() == part.casefold()]
        found = f"{found}/{same[0] if same else part}"
    return found


@contextmanager
def blind_to_case(journal: Path, before: Callable[[str], None]) -> Iterator[None]:
    """Make the steps of publishing see the journal as a file system that does not know case."""
    with each_step(before):
        patch = pytest.MonkeyPatch()

        def blind(step: Callable[..., object]) -> Callable[..., object]:
            def call(*arguments: object, **options: object) -> object:
                found = [as_stored(argument, str(journal)) for argument in arguments]
                return step(*found, **options)

            return call

        for name in ("open", "replace", "mkdir", "remove", "rmdir", "unlink", "lstat", "access"):
            patch.setattr(os, name, blind(getattr(os, name)))
        patch.setattr(disk, "open", blind(disk.open), raising=False)  # type: ignore[attr-defined]
        try:
            yield
        finally:
            patch.undo()


def test_a_change_of_case_where_case_does_not_count_loses_nothing_at_any_step(
    tmp_path: Path,
) -> None:
    old = {"Hoshi.html": b"same", "Trees/Yuki.html": b"old", "Trees/Elm.html": b"elm"}
    new = {"hoshi.html": b"same", "trees/yuki.html": b"new", "trees/Elm.html": b"elm"}
    mine = {"mine.txt": b"mine"}

    def folded(files: Mapping[str, bytes]) -> dict[str, bytes]:
        return {name.casefold(): content for name, content in files.items()}

    last, is_done = 0, False
    while not is_done:
        last += 1
        journal = tmp_path / str(last)
        journal.mkdir()
        publish(str(journal), old)
        put(journal, mine)
        count = 0

        def before(name: str, last: int = last) -> None:
            nonlocal count
            count += 1
            if count >= last:
                raise Killed(name)

        try:
            with blind_to_case(journal, before):
                publish(str(journal), new)
            is_done = True
        except Killed:
            is_committed = (journal / ".backbud/commitment").exists()
            with blind_to_case(journal, lambda name: None):
                assert finish(str(journal)) is is_committed
            if is_committed:
                assert folded(made(journal)) == folded(new | mine), last
            assert folded(made(journal)) in (folded(old | mine), folded(new | mine)), last
        with blind_to_case(journal, lambda name: None):
            publish(str(journal), new)
        assert folded(made(journal)) == folded(new | mine), last
    assert last > 60


# Names that stand in each other's way as files and folders, and by case.
NAMES = st.sampled_from(["a", "a/b", "a/b/c", "a/d", "A", "e.html", "E.html", "f/g", "f"])
SETS = st.dictionaries(NAMES, st.sampled_from([b"", b"1", b"22"]), max_size=5)


def is_accepted(files: Mapping[str, bytes]) -> bool:
    folded = [name.casefold() for name in files]
    return len(set(folded)) == len(folded) and not any(
        other.startswith(f"{name}/") for name in folded for other in folded
    )


@settings(max_examples=examples(100))
@given(
    st.lists(
        st.tuples(SETS.filter(is_accepted), st.integers(5, 150), st.booleans()),
        min_size=2,
        max_size=4,
    )
)
def test_any_sequence_of_sets_kills_and_deleted_memories_ends_in_the_last_set(
    runs: list[tuple[dict[str, bytes], int, bool]],
) -> None:
    with tempfile.TemporaryDirectory() as folder:
        journal = Path(folder)
        put(journal, {"mine.txt": b"mine"})
        before: dict[str, bytes] = {}
        for files, last, is_forgotten in runs:
            try:
                publish_until(journal, files, last, None)
            except Killed:
                if is_forgotten:
                    shutil.rmtree(journal / ".backbud", ignore_errors=True)
                else:
                    finish(str(journal))
                    left = made(journal)
                    assert left in (before | {"mine.txt": b"mine"}, files | {"mine.txt": b"mine"})
                publish(str(journal), files)
            assert made(journal) == files | {"mine.txt": b"mine"}
            assert empty_folders(journal) == []
            before = files
