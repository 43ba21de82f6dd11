"""A journal that came with a `.git` of somebody else's making: it is read to an end, and nothing
outside it is."""

from __future__ import annotations

import hashlib
import os
import time
import zlib
from collections.abc import Callable
from pathlib import Path

import pytest
from dulwich.objects import Blob, Commit, Tree
from dulwich.repo import Repo
from tests.stranger.conftest import TODAY, made

from backbud.journal import repository, written_when
from backbud.journal.repository import UnsoundRepository, look_over, open_repository
from backbud.journal.revision import NoRevision, read_revision
from backbud.session import open_session
from backbud.views.history import late_in

if os.name == "nt":
    pytest.skip("there are no pipes in folders", allow_module_level=True)

LATE = b"2020-05-01\nhoshi\n  noted a line of old\n"


def committed(repo: Repo, tree: Tree, when: int) -> Commit:
    one = Commit()
    one.tree, one.message, one.encoding = tree.id, b"written", b"UTF-8"
    one.author = one.committer = b"A Stranger <a@example.org>"
    one.author_time = one.commit_time = when
    one.author_timezone = one.commit_timezone = 0
    last = repo.refs.as_dict().get(b"HEAD")
    one.parents = [last] if last else []
    repo.object_store.add_object(one)
    repo.refs[b"HEAD"] = one.id
    return one


def texts(repo: Repo, **named: bytes) -> Tree:
    tree = Tree()
    for name, content in named.items():
        blob = Blob.from_string(content)
        repo.object_store.add_object(blob)
        tree.add(f"{name}.txt".encode(), 0o100644, blob.id)
    repo.object_store.add_object(tree)
    return tree


@pytest.fixture
def written(journal: Path) -> Path:
    """The journal with a repository of two revisions: the later has a line of years before."""
    diary = (journal / "journal.txt").read_bytes()
    (journal / "old.txt").write_bytes(LATE)
    with Repo.init(str(journal)) as repo:
        committed(repo, texts(repo, journal=diary), 1_780_000_000)
        committed(repo, texts(repo, journal=diary, old=LATE), 1_781_000_000)
    return journal


def late(journal: Path) -> list[str]:
    session = open_session(str(journal), TODAY)
    return list(late_in(session.journal, TODAY))


def test_what_is_sound_is_read(written: Path) -> None:
    assert late(written) == ["old.txt:3"]
    assert read_revision(str(written), "HEAD").files["old.txt"] == LATE


@pytest.mark.parametrize(
    "name",
    ["HEAD", "config", "config.worktree", "packed-refs", "shallow", "commondir", "info/grafts",
     "logs/HEAD", "refs/heads/master", "refs/heads/other", "objects/info/alternates",
     "objects/pack/pack-1.idx", "objects/pack/pack-1.pack"],
)  # fmt: skip
def test_a_pipe_in_its_place_is_not_waited_for(written: Path, name: str) -> None:
    path = written / ".git" / name
    path.parent.mkdir(parents=True, exist_ok=True)
    path.unlink(missing_ok=True)
    os.mkfifo(path)
    made(written)
    assert (written / "made" / "index.html").is_file()
    assert late(written) == (["old.txt:3"] if name == "logs/HEAD" else [])
    if name != "logs/HEAD":
        with pytest.raises(NoRevision):
            read_revision(str(written), "HEAD")


def include(git: Path, away: Path) -> None:
    with (git / "config").open("a") as file:
        file.write(f"[core] [Include] path = {away / 'config'}\n")


def gitdir(git: Path, away: Path) -> None:
    git.rename(away / "git")
    git.write_text(f"gitdir: {away / 'git'}\n")


def linked(git: Path, away: Path) -> None:
    git.rename(away / "git")
    git.symlink_to(away / "git")


def objects_linked(git: Path, away: Path) -> None:
    (git / "objects").rename(away / "objects")
    (git / "objects").symlink_to(away / "objects")


def alternates(git: Path, away: Path) -> None:
    (git / "objects").rename(away / "objects")
    (git / "objects" / "info").mkdir(parents=True)
    (git / "objects" / "info" / "alternates").write_text(f"{away / 'objects'}\n")


def common_folder(git: Path, away: Path) -> None:
    git.rename(away / "git")
    git.mkdir()
    (git / "commondir").write_text(f"{away / 'git'}\n")
    (git / "HEAD").write_text("ref: refs/heads/master\n")


@pytest.mark.parametrize(
    "moved", [include, gitdir, linked, objects_linked, alternates, common_folder]
)
def test_nothing_is_read_where_it_leads_elsewhere(
    written: Path, tmp_path: Path, moved: Callable[[Path, Path], None]
) -> None:
    away = tmp_path / "away"
    away.mkdir()
    moved(written / ".git", away)
    assert late(written) == []
    with pytest.raises(NoRevision):
        read_revision(str(written), "HEAD")
    with pytest.raises(UnsoundRepository):
        look_over(str(written))


def test_folders_that_hold_one_another_come_to_an_end(written: Path) -> None:
    """Ten folders, each of which is the same ten, twelve deep: a million million names."""
    with Repo(str(written)) as repo:
        tree = texts(repo, old=LATE)
        for _ in range(12):
            above = Tree()
            for n in range(10):
                above.add(b"%d" % n, 0o040000, tree.id)
            repo.object_store.add_object(above)
            tree = above
        committed(repo, tree, 1_782_000_000)
    begun = time.monotonic()
    assert late(written) == []
    with pytest.raises(NoRevision, match="too many files"):
        read_revision(str(written), "HEAD")
    assert time.monotonic() - begun < 60


def test_what_is_too_much_is_begun_once(written: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(written_when, "MOST_LINES", 3)
    opened: list[str] = []
    looked = repository.look_over
    monkeypatch.setattr(repository, "look_over", lambda top: (opened.append(top), looked(top))[1])
    with Repo(str(written)) as repo:
        many = b"".join(b"2026-06-0%d\nhoshi\n  watered\n" % n for n in range(1, 6))
        committed(repo, texts(repo, new=many), 1_782_000_000)
    made(written)
    assert len(opened) == 1
    (written / "old.txt").write_bytes(LATE + b"  watered\n")
    made(written)
    assert len(opened) == 1
    with Repo(str(written)) as repo:
        committed(repo, texts(repo, old=LATE), 1_783_000_000)
    made(written)
    assert len(opened) == 2


def test_an_object_that_says_that_it_holds_too_much_is_not_unpacked(
    written: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(repository, "LARGEST_OBJECT", 100_000)
    content = b"blob 1000000\0" + bytes(1_000_000)
    name = hashlib.sha1(content).hexdigest()
    path = written / ".git" / "objects" / name[:2] / name[2:]
    path.parent.mkdir(exist_ok=True)
    path.write_bytes(zlib.compress(content))
    with open_repository(str(written)) as repo, pytest.raises(Exception, match=r"exceeds|large"):
        repo[name.encode()]


def test_a_packed_object_that_says_so_is_not_unpacked_either(
    written: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The pack is written by dulwich; its objects are whole ones, and one told by another."""
    monkeypatch.setattr(repository, "LARGEST_OBJECT", 1_000_000)
    some = os.urandom(300_000)
    small, large = Blob.from_string(b"x\n"), Blob.from_string(some * 4)
    base, told = Blob.from_string(some), Blob.from_string(some + b"\n")
    with Repo(str(written)) as repo:
        repo.object_store.add_objects([(one, None) for one in (small, large, base, told)])
        assert len(list(repo.object_store.packs)) == 1
    with open_repository(str(written)) as repo:
        assert repo[small.id].as_raw_string() == b"x\n"
        assert repo[told.id].as_raw_string() == some + b"\n"
        with pytest.raises(UnsoundRepository, match="too large"):
            repo[large.id]


@pytest.mark.parametrize("said", [b"not packed at all", zlib.compress(b"blob 3\0abcdef"), b""])
def test_a_broken_object_is_told(written: Path, said: bytes) -> None:
    with Repo(str(written)) as repo:
        tree = repo[repo.head()].tree.decode()  # type: ignore[attr-defined]
    path = written / ".git" / "objects" / tree[:2] / tree[2:]
    path.chmod(0o600)
    path.write_bytes(said)
    assert late(written) == []
    with pytest.raises(NoRevision, match="cannot be read"):
        read_revision(str(written), "HEAD")


def test_a_day_that_no_calendar_has_is_told(written: Path) -> None:
    with Repo(str(written)) as repo:
        committed(repo, texts(repo, old=LATE), 10**30)
    assert late(written) == []
    with pytest.raises(NoRevision, match="cannot be read"):
        read_revision(str(written), "HEAD")
