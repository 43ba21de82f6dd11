"""Who asked to be forgotten is a number in all that is shown, but in what the law keeps."""

from __future__ import annotations

import re
from datetime import date
from pathlib import Path

import pytest
from tests.folders.planted import picture, readings

from backbud.compiled import compiled
from backbud.papers.gather import papers_of
from backbud.papers.keep import issue
from backbud.session import Session, open_session

DAY = date(2026, 6, 1)
SETTINGS = (
    'language = 1\nname = "A test"\ncurrency = "EUR"\nhome = "yard"\nkeeper = "me"\n'
    "pages_for_owners = true\n"
)
CARDS = """\
place yard
  latitude 52 N
person me
  name Una Wrenfold
person pell
  name Jo Pell
person marrow
  name      Ada Quillfeather
  contact   by the ferry
  address   9 Ferrygate
  town      Quillport
  formerly  quillfeather
  pages     yes
  {forgotten}
tree hoshi
  kind   trident maple
  owner  marrow
  origin a garden of Ada Quillfeather
"""
DIARY = """\
2026-02-01
hoshi
  received from marrow for repotting, condition "as Ada had it"
  noted    Ada likes to see the roots
  agreed   repotting, 40 EUR
  agreed   60 EUR for "what Ada asked for", by 2026-09, risk "Ada knows"
  photographed front, ada_quillfeather.jpg, for owner
  ready
2026-03-06
hoshi
  repotted same pot, 2 cm off below -- as quillfeather wanted it
  treated  with neem oil, dose 1 mL/L, by pell
  billed   40 EUR, number 2026-01
  planned  returned, to marrow, to 2026-07 -- Ada comes
"""
NAMES = re.compile(r"marrow|quillfeather|\bada\b|by the ferry|ferrygate|quillport")


def opened(folder: Path, forgotten: str, on: date = DAY) -> Session:
    (folder / "backbud.toml").write_text(SETTINGS)
    picture(folder / "ada_quillfeather.jpg", "Ada", 40)
    (folder / "diary.txt").write_text(CARDS.format(forgotten=forgotten) + DIARY)
    return open_session(str(folder), on)


def naming(session: Session) -> dict[str, list[str]]:
    """Each file that names the person, and by which names."""
    files = compiled(session).output.files
    found = {name: NAMES.findall(readings(name, content)) for name, content in files.items()}
    return {name: sorted(set(names)) for name, names in found.items() if names}


def test_a_number_stands_everywhere_but_where_the_law_keeps_the_name(tmp_path: Path) -> None:
    before = naming(opened(tmp_path, ""))
    assert {"trees/hoshi.html", "trees.html", "calendars/owners/quillfeather.ics"} <= set(before)
    session = opened(tmp_path, "forgotten 2026-05-20")
    assert session.journal.things.hidden == {
        "person-1": ("Ada Quillfeather", "marrow", "quillfeather")
    }
    assert set(naming(session)) == {
        "registers.html", "registers/plants.csv", "registers/unpaid.csv",
    }  # fmt: skip
    page = compiled(session).output.files["trees/hoshi.html"].decode()
    assert "belongs to" in page and "person-1" in page
    # The other person is who they were.
    assert session.names()["pell"] == "Jo Pell"


def test_what_was_issued_stays_in_the_house_as_the_law_keeps_it(tmp_path: Path) -> None:
    """The bill keeps the name it was written to, where it was put; it is given out no more, and no
    folder of theirs is."""
    session = opened(tmp_path, "", date(2026, 5, 1))
    view = papers_of(session, "marrow")
    assert view is not None
    kept = issue(session, view, ["statement"])
    shown = set(naming(opened(tmp_path, "")))
    assert {name.rpartition("/")[2] for name in shown} >= {
        "2026-05-01-marrow-statement.html", "2026-05-01-marrow-statement.json",
    }  # fmt: skip
    later = opened(tmp_path, "forgotten 2026-05-20")
    assert set(naming(later)) == {"registers.html", "registers/plants.csv", "registers/unpaid.csv"}
    assert "Ada Quillfeather" in (tmp_path / kept[0].file).read_text()
    assert [one.code for one in later.problems() if one.code.startswith("issued")] == []


def test_until_the_day_nothing_is_forgotten(tmp_path: Path) -> None:
    session = opened(tmp_path, "forgotten 2026-05-20", date(2026, 5, 19))
    assert session.names()["marrow"] == "Ada Quillfeather"
    assert session.journal.things.hidden == {}


def test_lines_still_find_who_was_forgotten(tmp_path: Path) -> None:
    """Its tree is theirs, what they were billed is open, and no line is a problem for it."""
    session = opened(tmp_path, "forgotten 2026-05-20")
    assert [p.code for p in session.problems() if p.code != "unread-words"] == []
    (account,) = session.accounts()
    assert (account.person, account.name) == ("person-1", "person-1")
    assert [str(one.amount) for one in account.bills] == ["40.00"]


@pytest.mark.parametrize("command", ["tree", "account", "papers", "visits", "due"])
def test_the_terminal_shows_a_number(
    command: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    from backbud.cli import main

    opened(tmp_path, "forgotten 2026-05-20")
    who = {"tree": ["hoshi"], "account": ["marrow"], "papers": ["marrow"]}.get(command, [])
    for form in (["--json"], []):
        main([command, *who, str(tmp_path), "--on", "2026-06-01", *form])
    said = capsys.readouterr().out
    assert "person-1" in said or command == "due"
    assert NAMES.findall(said.casefold()) == []
