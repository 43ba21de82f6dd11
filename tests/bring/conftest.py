"""A list goes in; what it becomes in a small journal comes out."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from pathlib import Path

import pytest

from backbud.bring.answers_given import BringAnswers
from backbud.bring.mapping import read_mapping
from backbud.bring.put_down import put_brought
from backbud.bring.run import Brought, bring
from backbud.bring.told_of import view_of
from backbud.session import open_session
from backbud.views.brought import BroughtView

TODAY = date(2026, 11, 20)
JOURNAL = """\
place yard
  latitude  52 N
place tunnel
  cover     tunnel
tree heron
  kind      trident maple
  name      Old Nell
  since     2010-03
tree anvil
  kind      trident maple
pot tray-7
  shape     oval
material akadama
  sold in   bag of 14 L
"""
Taken = Callable[..., BroughtView]


class Desk:
    """A journal, and lists that are brought to it."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        (folder / "backbud.toml").write_text('language = 1\nname = "A"\ncurrency = "EUR"\n')
        (folder / "journal.txt").write_text(JOURNAL)

    def brought(
        self,
        data: bytes | str,
        name: str = "list.csv",
        mapping: str = "",
        answers: BringAnswers | None = None,
    ) -> Brought:
        session = open_session(str(self.folder), TODAY, only_check=True, keeps=False)
        acts = frozenset(session.journal.acts)
        kept = read_mapping(mapping.encode(), "its mapping", acts) if mapping else None
        raw = data.encode() if isinstance(data, str) else data
        return bring(session, name, raw, kept, answers or BringAnswers())

    def shown(self, data: bytes | str, name: str = "list.csv", **said: object) -> BroughtView:
        """What a list would become."""
        mapping = str(said.pop("mapping", ""))
        brought = self.brought(data, name, mapping, BringAnswers(**said))  # type: ignore[arg-type]
        return view_of(brought, is_kept=False, is_written=False)

    def written(self, data: bytes | str, name: str = "list.csv", **said: object) -> BroughtView:
        """The same, written."""
        answers = BringAnswers(**said)  # type: ignore[arg-type]
        first = self.brought(data, name, answers=answers)
        done = put_brought(
            str(self.folder), first, lambda: self.brought(data, name, answers=answers)
        )
        return view_of(done, is_kept=True, is_written=done.checked is not None)

    def problems(self) -> list[str]:
        """What `check` tells of the journal now."""
        session = open_session(str(self.folder), TODAY, keeps=False)
        return [f"{p.file}:{p.line} {p.code}" for p in session.problems() if p.severity != "kept"]


@pytest.fixture
def desk(tmp_path: Path) -> Desk:
    folder = tmp_path / "journal"
    folder.mkdir()
    return Desk(folder)


def body(view: BroughtView) -> str:
    """The text of the new file without its first line and the signs of its rows."""
    return view.text.partition("\n")[2].partition("\n# The rows")[0].strip()
