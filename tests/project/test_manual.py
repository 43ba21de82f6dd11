"""The manual's tables are those of the code, and its examples are read without a problem."""

from __future__ import annotations

import re
from datetime import date
from pathlib import Path

from backbud.journal.read import read_journal
from backbud.session import open_session
from backbud_grammar.acts import ACTS
from backbud_grammar.manual import with_tables

MANUAL = Path(__file__).parents[2] / "grammar" / "README.md"


def test_the_tables_are_those_of_the_code() -> None:
    manual = MANUAL.read_text(encoding="utf-8")
    assert with_tables(manual) == manual, "run: python -m backbud_grammar.manual grammar/README.md"


def test_every_act_is_in_the_manual() -> None:
    manual = MANUAL.read_text(encoding="utf-8")
    missing = [act.word for act in ACTS if f"| `{act.word}` | `{act.bare}` |" not in manual]
    assert not missing


def test_the_examples_give_no_problem(tmp_path: Path) -> None:
    cards, diary = re.findall(
        r"^```\n(.*?)^```$", MANUAL.read_text(encoding="utf-8"), flags=re.MULTILINE | re.DOTALL
    )[:2]
    more = "tree yuki\n  kind  trident maple\n  place tunnel\ntree kaze\n  kind  trident maple\n"
    (tmp_path / "backbud.toml").write_text('language = 1\nhome = "tunnel"\ncurrency = "EUR"\n')
    (tmp_path / "cards.txt").write_text(cards + more, encoding="utf-8")
    (tmp_path / "diary.txt").write_text(diary, encoding="utf-8")
    session = open_session(str(tmp_path), date(2027, 4, 1))
    assert [f"{p.line}: {p.message}" for p in session.problems()] == []
    journal = read_journal(str(tmp_path), date(2027, 4, 1))
    assert sum(len(b.events) for page in journal.pages for b in page.blocks) == 12
