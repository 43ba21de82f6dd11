"""One secret for each person, outside every journal, and keys that tell nothing of each other."""

from __future__ import annotations

import os
import stat
import sys
from concurrent.futures import ThreadPoolExecutor
from hashlib import blake2b
from pathlib import Path

import pytest

from backbud.person import CONFIG_VARIABLE, NoSecret, key_for, known_key_for, known_secret, secret

posix = pytest.mark.skipif(sys.platform == "win32", reason="rights of POSIX")


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The folder for settings of a person who has none yet."""
    monkeypatch.setenv(CONFIG_VARIABLE, str(tmp_path / "settings"))
    return tmp_path / "settings"


def test_it_is_made_when_it_is_first_needed_and_then_kept(folder: Path) -> None:
    assert known_secret() == b"" and known_key_for("x") == b""
    assert not folder.exists()
    made = secret()
    assert len(made) == 32
    assert secret() == known_secret() == made == (folder / "secret").read_bytes()
    assert os.listdir(folder) == ["secret"]


@posix
def test_nobody_else_may_read_it(folder: Path) -> None:
    secret()
    assert stat.S_IMODE((folder / "secret").stat().st_mode) == 0o600
    assert stat.S_IMODE(folder.stat().st_mode) == 0o700


def test_of_many_runs_that_make_it_at_once_all_have_the_same(folder: Path) -> None:
    with ThreadPoolExecutor(8) as pool:
        assert len(set(pool.map(lambda _: secret(), range(40)))) == 1
    assert os.listdir(folder) == ["secret"]


def test_a_key_is_the_keyed_digest_of_its_purpose(folder: Path) -> None:
    """RFC 7693 by way of hashlib, which is not what makes it."""
    folder.mkdir()
    (folder / "secret").write_bytes(bytes(range(32)))
    (folder / "secret").chmod(0o600)
    wanted = blake2b(
        b"calendar", key=bytes(range(32)), person=b"backbud key 1", digest_size=32
    ).digest()
    assert key_for("calendar") == known_key_for("calendar") == wanted
    assert key_for("calendars") != wanted


def test_half_a_secret_makes_way_for_a_whole_one(folder: Path) -> None:
    folder.mkdir()
    (folder / "secret").write_bytes(b"torn")
    (folder / "secret").chmod(0o600)
    assert known_secret() == b""
    assert len(secret()) == 32


@posix
@pytest.mark.parametrize("sort", ["link", "fifo", "folder", "others may write"])
def test_what_is_no_file_of_the_person_alone_is_neither_read_nor_replaced(
    folder: Path, tmp_path: Path, sort: str
) -> None:
    folder.mkdir()
    path = folder / "secret"
    (tmp_path / "elsewhere").write_bytes(bytes(32))
    if sort == "link":
        path.symlink_to(tmp_path / "elsewhere")
    elif sort == "fifo":
        os.mkfifo(path)
    elif sort == "folder":
        path.mkdir()
    else:
        path.write_bytes(bytes(32))
        path.chmod(0o666)
    before = path.lstat()
    assert known_secret() == b""
    with pytest.raises(NoSecret, match="move it away"):
        secret()
    assert os.path.samestat(before, path.lstat())
    assert os.listdir(folder) == ["secret"]


@pytest.mark.parametrize("inside", [".", "own/settings"])
def test_a_secret_in_the_journal_counts_for_nothing(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, inside: str
) -> None:
    folder = tmp_path / inside
    monkeypatch.setenv(CONFIG_VARIABLE, str(folder))
    folder.mkdir(parents=True, exist_ok=True)
    (folder / "secret").write_bytes(bytes(32))
    (folder / "secret").chmod(0o600)
    assert known_secret() == bytes(32)
    assert known_secret(str(tmp_path)) == b""
    with pytest.raises(NoSecret, match=CONFIG_VARIABLE):
        secret(str(tmp_path))


def test_where_nothing_can_be_written_it_says_so(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "file").write_text("")
    monkeypatch.setenv(CONFIG_VARIABLE, str(tmp_path / "file"))
    with pytest.raises(NoSecret, match=f"cannot be read or written.*{CONFIG_VARIABLE}"):
        secret()
