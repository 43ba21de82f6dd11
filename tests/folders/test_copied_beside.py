"""Beside an edited copy of the diary what leaves the house, and what is owed, is as without it."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from backbud.compiled import compiled
from backbud.session import open_session

DAY = date(2026, 6, 1)
SETTINGS = 'language = 1\nname = "A test"\ncurrency = "EUR"\nhome = "yard"\nkeeper = "me"\n'
CARDS = """\
place yard
  latitude 52 N
person me
  name Una Wrenfold
person marrow
  name    Ada Marrow
  pages   yes
  rate    40 EUR/h
tree hoshi
  kind   trident maple
  owner  marrow
tree aki
  kind   Chinese juniper
"""
DIARY = """\
2026-03-06
hoshi
  received from marrow
  repotted same pot, 2 cm off below
  wired    3 mm Al on left 2
  worked   2 h
aki
  pruned   1/3 off

2026-03-20
hoshi
  worked   1 h 30
  used     1 bag akadama

2026-04-01
hoshi
  billed   100 EUR

2026-04-09
hoshi
  paid     40 EUR
aki
  trimmed
"""


def _journal(folder: Path, copy: dict[str, str]) -> tuple[dict[str, bytes], list[str]]:
    """Each file that an owner has, by its name in their folder, and what they owe."""
    texts = {"backbud.toml": SETTINGS, "cards.txt": CARDS, "diary/2026.txt": DIARY, **copy}
    for name, text in texts.items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, "utf-8")
    session = open_session(str(folder), DAY)
    (account,) = session.accounts()
    owes = [str(sums) for sums in account.money]
    files = compiled(session).output.files.items()
    # The folder's own name cannot be guessed, and differs by journal.
    return {name.split("/", 2)[2]: text for name, text in files if name.startswith("for/")}, owes


@pytest.mark.parametrize("name", ["diary/old-2026.txt", "backup/diary.txt", "was.txt"])
def test_an_edited_copy_changes_nothing_of_what_an_owner_has(tmp_path: Path, name: str) -> None:
    edited = DIARY.replace("  trimmed\n", "  trimmed\n  turned\n").replace("1/3 off\n", "1/4 off\n")
    files, owes = _journal(tmp_path / "one", {})
    # 3.5 h at 40 EUR; 100 EUR of it billed, and 40 of those paid.
    assert "140.00" in owes[0]
    assert "60.00" in owes[0]
    assert "index.html" in files
    beside = _journal(tmp_path / "two", {name: edited + "\n2026-05-09\naki\n  fed\n"})
    assert beside[1] == owes
    assert beside[0].keys() == files.keys()
    for file, text in files.items():
        if file.endswith(".html"):
            assert beside[0][file] == text, file
