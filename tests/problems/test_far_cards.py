"""A date on a card that lies far off is a slip of the pen, and is told."""

from __future__ import annotations

import pytest

CARD = """\
place yard
  latitude 52 N
tree elm
  kind trident maple
  place yard
  since {since}
"""


@pytest.mark.parametrize(
    ("since", "told"),
    [
        ("9999-01", True),
        ("2127", True),
        ("2126-12", False),
        ("1610~", False),
        ("1027-12", False),
        ("1026-12", True),
        ("0201", True),
    ],
)
def test_since_on_a_card(written, since: str, told: bool) -> None:
    """On 20 November 2026: at most 100 years ahead, and less than a thousand back."""
    session = written(CARD.format(since=since), "2026-11-20", any_problems=True)
    far = [problem for problem in session.problems() if problem.code == "far-date"]
    assert [(p.file, p.line, p.column, p.length) for p in far] == (
        [("journal.txt", 6, 9, len(since))] if told else []
    )
    if told:
        assert far[0].message == f"{since} is too far off to reckon with"
