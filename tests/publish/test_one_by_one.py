"""Files that are made while they are published: each is staged, none held, and none counts yet."""

from __future__ import annotations

import os
from collections.abc import Iterator
from pathlib import Path

import pytest
from tests.publish.test_commit import FOREIGN, NEW, OLD, Killed, made, prepare

from backbud.publish.commit import finish, publish
from backbud.publish.refused import PublishError


def test_a_file_is_staged_before_the_next_one_is_made(tmp_path: Path) -> None:
    prepare(tmp_path)
    staged: list[int] = []

    def files() -> Iterator[tuple[str, bytes]]:
        for name, content in NEW.items():
            folder = tmp_path / ".backbud/staged"
            staged.append(len(os.listdir(folder)) - 1 if folder.exists() else 0)
            assert made(tmp_path) == OLD | FOREIGN
            yield name, content

    done = publish(str(tmp_path), files())
    # In the order of NEW; the third file is as it was, so it is not staged.
    assert staged == [0, 1, 2, 2, 3, 4, 5]
    assert (len(done.written), len(done.removed), done.kept) == (6, 4, 1)
    assert made(tmp_path) == NEW | FOREIGN


@pytest.mark.parametrize("made_before", range(8))
def test_what_fails_or_dies_while_files_are_made_leaves_the_old_output(
    tmp_path: Path, made_before: int
) -> None:
    prepare(tmp_path)

    def files(ending: BaseException) -> Iterator[tuple[str, bytes]]:
        yield from list(NEW.items())[:made_before]
        raise ending

    with pytest.raises(ZeroDivisionError):
        publish(str(tmp_path), files(ZeroDivisionError()))
    assert made(tmp_path) == OLD | FOREIGN
    assert sorted(os.listdir(tmp_path / ".backbud")) == [".gitignore", "lock"]
    with pytest.raises(Killed):
        publish(str(tmp_path), files(Killed()))
    # The first two differ, and whatever was staged of a run that died goes with the next command.
    assert (tmp_path / ".backbud/staged").exists() is (made_before > 0)
    assert finish(str(tmp_path)) is False
    assert not (tmp_path / ".backbud/staged").exists()
    assert made(tmp_path) == OLD | FOREIGN


def test_a_name_that_comes_twice_is_refused(tmp_path: Path) -> None:
    prepare(tmp_path)
    twice = iter([("a.html", b"1"), ("a.html", b"2")])
    with pytest.raises(PublishError, match=r"^a\.html cannot be in the output twice\."):
        publish(str(tmp_path), twice)
    assert made(tmp_path) == OLD | FOREIGN


def test_a_name_that_cannot_be_is_refused_whenever_it_comes(tmp_path: Path) -> None:
    prepare(tmp_path)
    for name, said in (("../a", "cannot be the name"), ("B.html", "cannot both be")):
        with pytest.raises(PublishError, match=said):
            publish(str(tmp_path), iter([("b.html", b"1"), (name, b"2")]))
        assert made(tmp_path) == OLD | FOREIGN
        assert not (tmp_path / ".backbud/staged").exists()
