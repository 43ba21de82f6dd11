"""Lines of which one clause turns another: none of them is done as if that clause said nothing.

Written by one who set out to have work done, figures lost or trees moved that no keeper would
mean so (`own/turned.txt`). Each stands on a tree of its own with wire, ties, a guy, fleece and
shade on it. What is asked for is a problem on that line, or that nothing is done of it.
"""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from backbud.session import open_session

LINES = Path(__file__).with_name("own").joinpath("turned.txt").read_text("utf-8").splitlines()
# So few that no flood of problems is cut.
LOT = 40
CARDS = """\
place yard
  cover  open
  latitude  52
place tunnel
  within  yard
  cover  tunnel
place bench
  within  yard
  cover  open
pot tray-7
  shape  rectangle
  inside  38 x 27 x 7 cm
pot old-oval
  shape  oval
  inside  30 x 22 x 7 cm
mix maple-mix
  akadama  2
  pumice  1
material soap
  sold in  bottle of 1 L
person gil
person wren
"""
BEFORE = """
  wired      3 mm Al on left 1, 2 mm Al on apex
  tied       2 mm x 2
  guyed      1 mm Al on right 1
  protected  fleece
  shaded     40 %
"""


def silent(lines: tuple[str, ...], folder: Path) -> list[str]:
    """The lines of which something is done, and nothing is told."""
    handles = [f"z{at}" for at in range(len(lines))]
    trees = "".join(f"tree {one}\n  kind  trident maple\n  place  yard\n" for one in handles)
    text = f"{CARDS}{trees}\n2026-03-01\n\n{', '.join(handles)}{BEFORE}\n2026-06-01\n"
    at = {}
    for one, line in zip(handles, lines, strict=True):
        text += f"\n{one}\n  {line}\n"
        at[one] = text.count("\n")
    (folder / "backbud.toml").write_text('language = 1\nhome = "yard"\ncurrency = "EUR"\n')
    (folder / "journal.txt").write_text(text)
    session = open_session(str(folder), date(2026, 6, 2), keeps=False)
    told = {one.line for one in session.problems()}
    found = []
    for one, line in zip(handles, lines, strict=True):
        done = [
            entry.event
            for entry in session.histories.trees[one].entries
            if entry.event.day == date(2026, 6, 1) and entry.event.act != "noted"
        ]
        if done and at[one] not in told and not all(event.held for event in done):
            found.append(line)
    return found


@pytest.mark.parametrize(
    "lot", [tuple(LINES[at : at + LOT]) for at in range(0, len(LINES), LOT)], ids=lambda lot: lot[0]
)
def test_what_a_clause_turns_is_asked_or_not_done(tmp_path: Path, lot: tuple[str, ...]) -> None:
    assert silent(lot, tmp_path) == []


def test_what_nothing_turns_is_done_without_a_word(tmp_path: Path) -> None:
    """So that the test above could fail."""
    plain = ("pruned hard", "moved tunnel, frost tonight", "unwired", "fed 7-3-6")
    assert silent(plain, tmp_path) == [*plain]


def test_whose_tool_it_was_and_what_is_put_on_anew_is_done(tmp_path: Path) -> None:
    plain = (
        "pruned, Gil's scissors",
        "pruned with Gil's secateurs",
        "potted-on, Gil's scissors",
        "repotted, Gil's bench",
        "untied, tied 2 mm x 2",
        "unwired, rewired",
        "wired, unwired on right 1",
        "pruned, see photo",
    )
    assert silent(plain, tmp_path) == [*plain]
