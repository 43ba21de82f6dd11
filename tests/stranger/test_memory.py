"""Whatever becomes of what is remembered, the output is that of a clean build."""

from __future__ import annotations

import os
import random
import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest
from tests.stranger.conftest import TODAY, made, output

from backbud import cli
from backbud.person import CONFIG_VARIABLE

NOT_REMEMBERED = ("lock", ".gitignore")
MUTATIONS = 40


@pytest.fixture
def clean(journal: Path) -> dict[str, bytes]:
    """What is made of the journal; its memory is there, as make, check and due leave it."""
    made(journal)
    cli.main(["check", str(journal)])
    return output(journal)


def remembered(journal: Path) -> list[str]:
    names = sorted(set(os.listdir(journal / ".backbud")) - set(NOT_REMEMBERED))
    assert {"syntax.msgpack", "revisions.json", "kinds", "remembered"} <= {*names}
    return names


def mutated(chance: random.Random, data: bytes, other: bytes) -> bytes:
    """The bytes with one of them flipped, some cut off, two runs swapped, or other ones."""
    at, to = sorted(chance.sample(range(len(data)), 2))
    match chance.randrange(4):
        case 0:
            return data[:at] + bytes([data[at] ^ (1 << chance.randrange(8))]) + data[at + 1 :]
        case 1:
            return data[:at]
        case 2:
            return data[to:] + data[at:to] + data[:at]
        case _:
            return other


def test_no_mutation_of_the_memory_shows(
    journal: Path, clean: dict[str, bytes], capsys: pytest.CaptureFixture[str]
) -> None:
    chance = random.Random(20261120)
    names = remembered(journal)
    kept = journal.with_name("kept")
    shutil.copytree(journal / ".backbud", kept)
    problems = cli.main(["check", str(journal)]), capsys.readouterr()
    for number in range(MUTATIONS):
        shutil.rmtree(journal / ".backbud")
        shutil.copytree(kept, journal / ".backbud")
        for name in chance.sample(names, 2):
            path, other = journal / ".backbud" / name, kept / chance.choice(names)
            path.write_bytes(mutated(chance, path.read_bytes(), other.read_bytes()))
        assert (cli.main(["check", str(journal)]), capsys.readouterr()) == problems, number
        if number % 2:
            shutil.rmtree(journal / "made")
        made(journal)
        assert output(journal) == clean, number


def strangers(monkeypatch: pytest.MonkeyPatch, folder: Path) -> Iterator[None]:
    with monkeypatch.context() as theirs:
        theirs.setenv(CONFIG_VARIABLE, str(folder))
        yield


def test_without_the_person_s_secret_nothing_remembered_counts(
    journal: Path, clean: dict[str, bytes], monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    from backbud.publish.memory import recall_bytes

    names = remembered(journal)
    assert all(recall_bytes(str(journal), name) is not None for name in names)
    for _ in strangers(monkeypatch, tmp_path / "another person"):
        assert all(recall_bytes(str(journal), name) is None for name in names)
        shutil.rmtree(journal / "made")
        made(journal)
        # Only the mark itself is another person's.
        del clean[".manifest"]
        assert {**output(journal), **clean} == output(journal)
        assert {*output(journal)} == {*clean, ".manifest"}


def test_a_memory_forged_under_another_secret_is_not_looked_at(
    journal: Path, clean: dict[str, bytes], monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    """As `syntax.msgpack` that puts words on pages which the diary does not hold."""
    from backbud.publish.memory import must_keep, recall_bytes
    from backbud.publish.unchanged import nothing_to_do

    said = nothing_to_do(str(journal), TODAY.isoformat(), "make")
    assert said is not None
    for name in remembered(journal):
        content = recall_bytes(str(journal), name)
        assert content is not None
        forged = content.replace(b"two thick", b"ten thick").replace(b"trees", b"birds")
        for _ in strangers(monkeypatch, tmp_path / "another person"):
            must_keep(str(journal), name, forged)
    assert nothing_to_do(str(journal), TODAY.isoformat(), "make") is None
    shutil.rmtree(journal / "made")
    made(journal)
    assert output(journal) == clean


def test_words_put_into_the_memory_come_onto_no_page(
    journal: Path, clean: dict[str, bytes]
) -> None:
    path = journal / ".backbud/syntax.msgpack"
    before = path.read_bytes()
    path.write_bytes(before.replace(b"two thick", b"ten thick"))
    assert path.read_bytes() != before
    shutil.rmtree(journal / "made")
    made(journal)
    assert output(journal) == clean


def test_no_file_stands_for_another_nor_for_another_journal_s(
    journal: Path, clean: dict[str, bytes]
) -> None:
    from backbud.publish.memory import recall_bytes

    names = remembered(journal)
    other = Path(shutil.copytree(journal, journal.with_name("other")))
    for name, another in zip(names, [*names[1:], names[0]], strict=True):
        assert recall_bytes(str(other), name) is None
        shutil.copy(other / ".backbud" / another, journal / ".backbud" / name)
        assert recall_bytes(str(journal), name) is None
