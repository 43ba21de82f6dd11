"""A history is gone through once, and what is drawn or told beside it is sorted out by the way."""

from __future__ import annotations

from datetime import date
from pathlib import Path

from backbud.collection.state import Entry
from backbud.session import open_session
from backbud.views.history import entry_view, told_history

DAY = date(2026, 6, 1)
JOURNAL = """\
place yard
  latitude 52 N
tree hoshi
  kind  trident maple
  place yard

2024
hoshi
  pruned      hard

2025-03-06
hoshi
  repotted    same pot, 2 cm off below
  wired       2 mm Al on left 2
  noted       two roots crossed -- for owner: look at it in May
  billed      50 EUR
  private     she haggles

2025-04-01
hoshi
  wired       3 mm Al on apex

2025-09-10
hoshi
  unwired     on left 2
  vigour      apex 4, low 2
  checked     ties fine
  corrected   wired 2025-04-01, not done

2026-05-20
hoshi
  bloomed
  watered
  lost        leaves
"""


def test_each_line_is_told_as_it_is_alone_and_the_others_are_sorted_by_what_they_tell(
    tmp_path: Path,
) -> None:
    (tmp_path / "backbud.toml").write_text('language = 1\nhome = "yard"\ncurrency = "EUR"\n')
    (tmp_path / "all.txt").write_text(JOURNAL)
    history = open_session(str(tmp_path), DAY).plan().trees["hoshi"].history
    told = told_history(history)

    assert told.lines == tuple(map(entry_view, history))
    assert [(line.date, line.act) for line in told.lines if line.private] == [
        ("2025-03-06", "billed"), ("2025-03-06", "private"),
    ]  # fmt: skip

    def acts(entries: tuple[Entry, ...]) -> list[tuple[str, str]]:
        return [(one.event.when.text, f"{one.event.said} {one.event.text}") for one in entries]

    assert acts(told.of_wire) == [
        ("2025-03-06", "wired 2 mm Al on left 2"),
        ("2025-04-01", "wired 3 mm Al on apex"),
        ("2025-09-10", "unwired on left 2"),
    ]
    assert acts(told.of_zones) == [
        ("2025-09-10", "vigour apex 4, low 2"),
        ("2025-09-10", "checked ties fine"),
    ]
    # Neither of a rough day, nor what never happened, nor what is held back.
    assert acts(told.beside) == [
        ("2025-03-06", "repotted same pot, 2 cm off below"),
        ("2025-03-06", "wired 2 mm Al on left 2"),
        ("2025-09-10", "vigour apex 4, low 2"),
        ("2025-09-10", "checked ties fine"),
        ("2026-05-20", "bloomed "),
    ]
