"""A line that was written, or changed, long after its day says so on its tree's page: as the git
repository of the journal has it, which git itself wrote here."""

from __future__ import annotations

import json
import os
import subprocess
from datetime import date
from pathlib import Path

import pytest

from backbud.cli import main
from backbud.front import NotMade, made_of
from backbud.journal import written_when as reading
from backbud.journal.line_keys import LineKey, line_keys
from backbud.make import make
from backbud.session import open_session
from backbud.views.history import late_in

TODAY = date(2026, 11, 20)
CARDS = """\
place yard
  latitude  52.9 N

person marrow
  pages  yes

tree hoshi
  kind  trident maple
  since 2015
  place yard
  owner marrow
  public yes

tree yuki
  kind  Scots pine
  since 2015
"""
MARCH = "2026-03-01\n\nhoshi\n  wired  3 mm Al on left 2\n  fed\n\nyuki\n  pruned\n"
JUNE = "\n2026-06-01\n\nhoshi\n  unwired\n"


def git(folder: Path, *words: str, day: str = "2026-03-02") -> None:
    env = {**os.environ, "GIT_COMMITTER_DATE": f"{day}T12:00:00Z", "GIT_CONFIG_GLOBAL": os.devnull}
    named = ("-c", "user.name=x", "-c", "user.email=x@example.org")
    subprocess.run(["git", *named, *words], cwd=folder, env=env, check=True, capture_output=True)


def commit(folder: Path, day: str, **files: str) -> None:
    for name, text in files.items():
        (folder / f"{name}.txt").write_text(text)
    git(folder, "add", ".")
    git(folder, "commit", "-q", "-m", "x", day=day)


@pytest.fixture
def journal(tmp_path: Path) -> Path:
    folder = tmp_path / "trees"
    folder.mkdir()
    (folder / "backbud.toml").write_text('language = 1\nhome = "yard"\njournal_id = "a1"\n')
    (folder / ".gitignore").write_text("made/\n.backbud/\n")
    git(tmp_path, "init", "-q", "trees")
    commit(folder, "2026-03-01", cards=CARDS)
    commit(folder, "2026-03-02", diary=MARCH)
    return folder


def late(folder: Path) -> dict[str, tuple[str, bool]]:
    session = open_session(str(folder), TODAY)
    lines = {name: text.decode().split("\n") for name, text in session.texts.items()}
    return {
        " ".join(lines[at.rpartition(":")[0]][int(at.rpartition(":")[2]) - 1].split()): (
            str(one.on),
            one.changed,
        )
        for at, one in late_in(session.journal, session.today).items()
    }


def test_what_was_written_in_its_time_is_not_marked(journal: Path) -> None:
    # Thirty-one days later is still in its time; a day more is not.
    commit(journal, "2026-04-01", diary=MARCH.replace("  fed\n", "  fed\n  watered\n"))
    assert late(journal) == {}
    commit(
        journal, "2026-04-02", diary=MARCH.replace("  fed\n", "  fed\n  watered\n  noted  late\n")
    )
    assert late(journal) == {"noted late": ("2026-04-02", False)}


def test_what_was_changed_later_is(journal: Path) -> None:
    commit(journal, "2026-06-02", diary=MARCH.replace("3 mm", "4 mm") + JUNE)
    assert late(journal) == {"wired 4 mm Al on left 2": ("2026-06-02", True)}


def test_lines_that_only_stand_elsewhere_are_not(journal: Path) -> None:
    """Tidied, moved to another file, put to rest, renamed: what is said is as old as before."""
    (journal / "diary.txt").unlink()
    commit(journal, "2026-08-01", other="# A new file.\n\n" + MARCH.replace("  fed", "  fed   "))
    assert late(journal) == {}
    renamed = MARCH.replace("hoshi", "star"), CARDS.replace("tree hoshi", "tree star")
    commit(journal, "2026-09-01", other=renamed[0], cards=renamed[1])
    assert late(journal) == {}
    # A line that was given to another tree is another line.
    given = renamed[0].replace("star\n  wired  3 mm Al on left 2\n  fed\n\nyuki\n", "yuki\n"
                               "  wired  3 mm Al on left 2\n\nstar\n  fed\n\nyuki\n")  # fmt: skip
    commit(journal, "2026-10-01", other=given)
    assert late(journal) == {"wired 3 mm Al on left 2": ("2026-10-01", False)}


def test_of_what_a_repository_begins_with_nothing_is_known(tmp_path: Path) -> None:
    folder = tmp_path / "trees"
    folder.mkdir()
    (folder / "backbud.toml").write_text("language = 1\n")
    git(tmp_path, "init", "-q", "trees")
    commit(folder, "2026-11-01", cards=CARDS, diary=MARCH)
    assert late(folder) == {}


def test_a_notebook_that_was_typed_in_is_no_afterthought(journal: Path) -> None:
    few = "".join(f"\n2019-05-{n:02}\n\nhoshi\n  noted  {n}\n" for n in range(1, 30))
    more = few + few.replace("2019", "2018") + few.replace("2019", "2017")
    commit(journal, "2026-03-09", old=more)
    assert late(journal) == {}
    commit(journal, "2026-03-10", old=more + few.replace("2019", "2016"))
    assert len(late(journal)) == 29


def test_two_branches_that_were_merged(journal: Path) -> None:
    """What a helper wrote in time on a branch of theirs is not late because it was merged late."""
    git(journal, "checkout", "-q", "-b", "helper")
    commit(journal, "2026-03-05", helper="2026-03-04\n\nyuki\n  fed\n")
    git(journal, "checkout", "-q", "-")
    commit(journal, "2026-06-02", diary=MARCH + JUNE)
    git(journal, "merge", "-q", "--no-edit", "helper", day="2026-07-01")
    assert late(journal) == {}


def test_uncommitted_lines_and_a_look_back(journal: Path) -> None:
    (journal / "diary.txt").write_text(MARCH.replace("  fed\n", "  fed\n  noted  much later\n"))
    assert late(journal) == {}
    git(journal, "commit", "-q", "-a", "-m", "x", day="2026-09-01")
    assert late(journal) == {"noted much later": ("2026-09-01", False)}
    then = open_session(str(journal), date(2026, 8, 31), as_of=True)
    assert late_in(then.journal, then.today) == {}


def test_the_page_says_it_and_nobody_else_reads_it(journal: Path, capsys) -> None:
    commit(journal, "2026-09-03", diary=MARCH.replace("  fed\n", "  fed\n  pruned  hard\n"))
    made = made_of(journal, day=TODAY)
    assert not isinstance(made, NotMade)
    said = [name for name, data in made.files.items() if b"written down 3 September" in data]
    assert said == ["trees/hoshi.html"]
    assert not any(b"2026-09-03" in data for name, data in made.files.items() if "for/" in name)
    assert main(["tree", "hoshi", str(journal), "--on", str(TODAY)]) == 0
    assert "2026-03-01  pruned hard  [written down on 2026-09-03]" in capsys.readouterr().out
    assert main(["tree", "hoshi", str(journal), "--on", str(TODAY), "--json"]) == 0
    told = [one["late"] for one in json.loads(capsys.readouterr().out)["history"]]
    assert told == [None, None, {"on": "2026-09-03", "changed": False}]


def test_owners_helpers_and_the_public_read_none_of_it(journal: Path) -> None:
    from backbud.given_out import dataset_of
    from backbud.views.audience import KEEPER, PUBLIC, Eyes

    commit(journal, "2026-09-03", diary=MARCH.replace("  fed\n", "  fed\n  pruned  hard\n"))
    session = open_session(str(journal), TODAY)

    def marked(eyes: Eyes) -> int:
        trees = dataset_of(session, eyes).trees
        return sum(entry.late is not None for tree in trees for entry in tree.history)

    assert marked(KEEPER) == 1
    assert [marked(e) for e in (Eyes("helper"), Eyes("owner", "marrow"), PUBLIC)] == [0, 0, 0]


def test_a_commit_alone_makes_the_pages_anew(journal: Path) -> None:
    (journal / "diary.txt").write_text(MARCH.replace("  fed\n", "  fed\n  noted  much later\n"))
    page = journal / "made/trees/hoshi.html"
    assert main(["make", str(journal)]) == 0
    assert b"written down 1" not in page.read_bytes()
    git(journal, "commit", "-q", "-a", "-m", "x", day="2026-09-01")
    assert main(["make", str(journal)]) == 0
    assert b"written down 1 September" in page.read_bytes()


def test_it_is_remembered(journal: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Where no revision came, the repository is not read; where one came, only that."""
    commit(journal, "2026-06-02", diary=MARCH.replace("3 mm", "4 mm"))
    first = late(journal)
    taken: list[str] = []
    take = reading._Revisions.take
    monkeypatch.setattr(
        reading._Revisions, "take", lambda self, c: (taken.append(c.id), take(self, c))[1]
    )
    assert late(journal) == first
    assert taken == []
    commit(journal, "2026-07-02", diary=MARCH.replace("3 mm", "4 mm").replace("fed", "fed  thrice"))
    assert late(journal) == {**first, "fed thrice": ("2026-07-02", True)}
    assert len(taken) == 1


@pytest.mark.skipif(not hasattr(os, "geteuid"), reason="owners of files are POSIX")
def test_a_repository_of_somebody_else_is_not_read(journal: Path, monkeypatch, capsys) -> None:
    """As git does: `safe.directory` in git-config(1)."""
    commit(journal, "2026-06-02", diary=MARCH.replace("3 mm", "4 mm"))
    monkeypatch.setattr(os, "geteuid", lambda: os.stat(journal).st_uid + 1)
    settings = journal.parent / "gitconfig"
    monkeypatch.setenv("GIT_CONFIG_GLOBAL", str(settings))
    settings.write_text("")
    assert late(journal) == {}
    assert main(["since", "HEAD~1", str(journal)]) == 2
    assert "safe.directory" in capsys.readouterr().err
    settings.write_text(f"[safe]\n\tdirectory = {journal}\n")
    assert len(late(journal)) == 1
    # An empty value takes back what stands before it.
    settings.write_text("[safe]\n\tdirectory = *\n\tdirectory =\n")
    assert late(journal) == {}


@pytest.mark.parametrize("broken", ["HEAD", "objects"])
def test_a_broken_repository_stops_nothing(journal: Path, broken: str) -> None:
    path = journal / ".git" / broken
    if path.is_dir():
        path.rename(journal / ".git" / "gone")
    else:
        path.write_bytes(b"\xff\0nothing")
    assert late(journal) == {}
    assert make(str(journal), TODAY).problems == ()


def test_lines_are_named_by_day_subject_and_words() -> None:
    text = (
        b"# A diary.\r\ntree x\n  kind  maple\n\n2026-03-01   low 1 C\n\nhoshi,  yuki\n"
        b"  wired  3 mm Al\n    on left 2\n# no\n  fed\n\n2026~\n\nhoshi\n  noted  x\n"
    )
    assert [one for one in line_keys(text) if one[1].day] == [
        (8, LineKey("2026-03-01", "hoshi, yuki", "wired 3 mm Al on left 2")),
        (11, LineKey("2026-03-01", "hoshi, yuki", "fed")),
    ]


def test_a_journal_that_is_a_part_of_some_other_repository_is_not_marked(tmp_path: Path) -> None:
    """The example journal lies in the repository of the program, whose revisions are no diary's."""
    folder = tmp_path / "program" / "trees"
    folder.mkdir(parents=True)
    (folder / "backbud.toml").write_text("language = 1\n")
    git(tmp_path, "init", "-q", "program")
    commit(folder, "2026-03-02", cards=CARDS, diary=MARCH)
    commit(folder, "2026-06-02", diary=MARCH.replace("3 mm", "4 mm"))
    assert late(folder) == {}
    assert reading.watched_files(str(folder)) == ()
