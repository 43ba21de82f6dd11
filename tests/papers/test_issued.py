"""What was issued is kept as issued, and a check tells where the diary no longer agrees."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest
from tests.papers.conftest import JOURNAL, SETTINGS

from backbud.cli import main
from backbud.issued.record import paper_digest, read_issued
from backbud.papers.gather import papers_of
from backbud.papers.keep import issue
from backbud.session import open_session

DAY = date(2026, 4, 25)


@pytest.fixture
def journal(tmp_path: Path) -> Path:
    (tmp_path / "backbud.toml").write_text(SETTINGS)
    (tmp_path / "journal.txt").write_text(JOURNAL)
    return tmp_path


def issued(journal: Path, day: date = DAY):
    session = open_session(str(journal), day, as_of=True)
    view = papers_of(session, "ada")
    assert view is not None
    return issue(session, view, ["statement"])


def problems(journal: Path) -> list[tuple[str, str]]:
    found = open_session(str(journal), date(2026, 6, 1)).problems()
    return [(one.code, one.message) for one in found]


def test_it_is_kept_with_its_digest_and_agrees(journal) -> None:
    kept = issued(journal)
    assert [one.file for one in kept] == [
        "papers/2026-04-25-ada-statement.html",
        "papers/2026-04-25-ada-statement.json",
        "papers/2026-04-25-ada-statement.xml",
    ]
    assert read_issued(str(journal)) == kept
    for one in kept:
        assert paper_digest((journal / one.file).read_bytes()) == one.digest
    assert problems(journal) == []


def test_the_same_is_not_kept_twice(journal) -> None:
    first = issued(journal)
    assert issued(journal) == first
    assert len(list((journal / "papers").iterdir())) == 4


def test_what_changed_in_the_diary_is_told_with_both_figures(journal) -> None:
    """Another hour on the two trees: half of it at 40.00, 20.00 more."""
    issued(journal)
    text = JOURNAL.replace("worked 2 h 40", "worked 3 h 40")
    (journal / "journal.txt").write_text(text)
    assert problems(journal) == [
        (
            "issued-otherwise",
            "the diary no longer agrees with papers/2026-04-25-ada-statement.html: "
            "comes to 57.83 EUR then, 77.83 now",
        )
    ]


def test_what_comes_later_is_no_disagreement(journal) -> None:
    issued(journal)
    later = f"{JOURNAL}2026-05-02\nhoshi\n  paid 7.83 EUR\n"
    (journal / "journal.txt").write_text(later)
    assert problems(journal) == []


def test_a_corrected_bill_is_issued_beside_the_first(journal) -> None:
    """The first stays; what takes its place agrees, so nothing more is told."""
    first = issued(journal)
    fixed = f"{JOURNAL}2026-04-26\nhoshi\n  corrected billed 2026-04-06, 50 EUR\n"
    (journal / "journal.txt").write_text(fixed)
    assert [code for code, _ in problems(journal)] == ["issued-otherwise"]
    again = issued(journal, date(2026, 4, 26))
    assert again[0].after == first[0].file
    assert "corrected; first billed 57.83 EUR" in (journal / again[0].file).read_text()
    assert paper_digest((journal / first[0].file).read_bytes()) == first[0].digest
    assert problems(journal) == []


def test_a_file_that_was_changed_or_is_gone_is_told(journal) -> None:
    kept = issued(journal)
    (journal / kept[0].file).write_text("another")
    (journal / kept[1].file).unlink()
    assert [code for code, _ in problems(journal)] == ["issued-changed", "issued-gone"]


def test_a_record_that_cannot_be_read_is_told_and_never_written_over(journal) -> None:
    issued(journal)
    record = journal / "papers" / "issued.json"
    record.write_text("[{]")
    assert [code for code, _ in problems(journal)] == ["issued-unread"]
    assert main(["papers", "ada", str(journal), "--on", "2026-04-25", "--issue", "care"]) != 0
    assert record.read_text() == "[{]"


def test_its_owner_is_given_what_was_issued_and_nothing_that_somebody_put_there(journal) -> None:
    """By the person's mark: a record that anybody could write gives nobody a page."""
    from backbud.handed import papers_issued
    from backbud.views.nursery import Nursery

    kept = issued(journal)
    session = open_session(str(journal), DAY)
    given = list(papers_issued(session, Nursery("", DAY, ""), "ada"))
    assert [(one.path, one.title) for one in given] == [
        (
            "papers/2026-04-25-ada-statement.html",
            "Account of the work: Ada Pell, issued 25 April 2026",
        ),
        ("papers/2026-04-25-ada-statement.json", ""),
        ("papers/2026-04-25-ada-statement.xml", ""),
    ]
    assert all(b"journal.txt" not in one.content for one in given)
    assert list(papers_issued(session, Nursery("", DAY, ""), "bo")) == []
    record = journal / "papers" / "issued.json"
    record.write_text(record.read_text().replace(kept[0].mark, "0" * 32))
    assert len(list(papers_issued(session, Nursery("", DAY, ""), "ada"))) == 2


def test_a_folder_says_of_which_tree_a_paper_is_and_which_one_stands(journal) -> None:
    from backbud.handed import papers_issued
    from backbud.views.nursery import Nursery

    issued(journal)
    issued(journal, date(2026, 4, 26))
    session = open_session(str(journal), DAY)
    view = papers_of(session, "ada")
    assert view is not None
    issue(session, view, ["care"])
    given = papers_issued(session, Nursery("", DAY, ""), "ada")
    assert [one.title for one in given if one.title] == [
        "Account of the work: Ada Pell, issued 25 April 2026; a later one took its place",
        "Account of the work: Ada Pell, issued 26 April 2026",
        "How to keep it: Old Star, issued 25 April 2026",
    ]


def test_a_record_that_names_a_file_elsewhere_is_no_record(journal) -> None:
    kept = issued(journal)
    record = journal / "papers" / "issued.json"
    record.write_text(record.read_text().replace(kept[0].file, "papers/../journal.txt"))
    assert [code for code, _ in problems(journal)] == ["issued-unread"]


def test_the_command_says_what_was_kept(journal, capsys) -> None:
    assert main(["papers", "ada", str(journal), "--on", "2026-04-25", "--issue", "care"]) == 0
    (line,) = capsys.readouterr().out.splitlines()
    assert line.startswith("papers/2026-04-25-ada-care-hoshi.html  ")
    assert main(["papers", "nobody", str(journal)]) == 2
