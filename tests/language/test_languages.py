"""What a newer language reads otherwise is listed, and changes nothing of the past before a yes.

A language 2 is made here that has one more way of saying that a tree went home.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from pathlib import Path

import pytest

from backbud.cli import main
from backbud.journal import all_pages
from backbud.session import Session, open_session
from backbud_grammar import languages
from backbud_grammar.scribbles import opener
from backbud_grammar.scribbles.openings.row import rows

DIARY = """\
person marrow
tree hoshi
  kind trident maple
  owner marrow
tree yuki
  kind trident maple
  owner marrow
2026-03-01
hoshi, yuki
  received from marrow
2026-06-01
hoshi
  gone to its own garden
2026-08-01
yuki
  gone to its own garden
"""


@pytest.fixture
def newer(monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    row = rows("returned", "gone to its own garden", language=2)
    monkeypatch.setattr(opener, "OPENINGS", (*opener.OPENINGS, *row))
    monkeypatch.setattr(languages, "LANGUAGE", 2)
    monkeypatch.setattr(all_pages, "LANGUAGE", 2)
    yield


def _session(folder: Path, settings: str) -> Session:
    (folder / "backbud.toml").write_text(settings)
    (folder / "journal.txt").write_text(DIARY)
    return open_session(str(folder), date(2026, 9, 1))


def _standing(session: Session) -> tuple[str, str]:
    trees = session.histories.trees
    return trees["hoshi"].standing, trees["yuki"].standing


@pytest.mark.usefixtures("newer")
def test_nothing_of_the_past_changes_before_a_yes(tmp_path: Path) -> None:
    session = _session(tmp_path, "language = 1\n")
    assert _standing(session) == ("here", "here")
    assert [(one.at, one.as_read) for one in session.journal.language_past] == [
        ("journal.txt:13", "returned"),
        ("journal.txt:16", "returned"),
    ]


@pytest.mark.usefixtures("newer")
@pytest.mark.parametrize(
    ("settings", "standing"),
    [
        ("language = 2\n", ("returned", "returned")),
        # From a day on: what was written before it stays as it was.
        ("language = 1\nlanguages = { 2 = 2026-07-01 }\n", ("here", "returned")),
        ("language = 1\n[languages]\n2 = 2026-09-01\n", ("here", "here")),
    ],
)
def test_the_yes_is_kept_in_the_journal(
    tmp_path: Path, settings: str, standing: tuple[str, str]
) -> None:
    session = _session(tmp_path, settings)
    assert _standing(session) == standing
    assert session.journal.language_past == ()
    # Nothing of it hangs on what an earlier run remembers.
    assert _standing(_session(tmp_path, settings)) == standing


@pytest.mark.usefixtures("newer")
def test_check_tells_what_would_be_read_otherwise(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    _session(tmp_path, "language = 1\n")
    main(["check", str(tmp_path), "--on", "2026-09-01"])
    said = " ".join(capsys.readouterr().out.split())
    assert "this journal is read by language 1, as before. 2 lines would be read otherwise" in said
    assert "journal.txt:13: gone to its own garden → returned" in said
    assert "“languages = { 2 = 2026-09-01 }” reads what you write from today on so" in said


def test_an_old_language_has_no_act_of_a_newer_one() -> None:
    from msgspec.structs import replace

    from backbud_grammar.acts import ACTS, by_word

    table = by_word(ACTS)
    newer = {**table, "zapped": replace(table["watered"], word="zapped", language=2)}
    assert "zapped" not in languages.table_of(newer, 1)
    assert "zapped" in languages.table_of(newer, 2)
    fed = table["fed"]
    later = replace(fed, forms=(*fed.forms[:-1], replace(fed.forms[-1], language=2)))
    assert languages.table_of({"fed": later}, 1)["fed"].forms == fed.forms[:-1]


@pytest.mark.parametrize(
    ("settings", "message"),
    [
        ("language = 3\n", "language 3 is not known to this version"),
        ("language = 1\nlanguages = { 2 = 2026-09-01 }\n", "language 2 is not known to this"),
        ("language = 1\nlanguages = 2\n", "“languages” is a table of days"),
        ('language = 1\nlanguages = { 1 = "soon" }\n', "from when on language 1 is read is no day"),
    ],
)
def test_what_is_wrong_with_a_language_is_told(tmp_path: Path, settings: str, message: str) -> None:
    session = _session(tmp_path, settings)
    assert any(message in one.message for one in session.problems())
