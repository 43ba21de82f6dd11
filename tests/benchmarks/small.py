"""A number goes in; so many small invented journals come out, no two alike."""

from __future__ import annotations

from datetime import date
from pathlib import Path

DAY = date(2026, 11, 20)
KINDS = ("trident maple", "satsuki azalea", "Scots pine", "Chinese juniper", "field maple", "olive")
SETTINGS = 'language = 1\nname = "Bench {n}"\nhome = "yard"\n'
DIARY = """\
place yard
  latitude  {latitude} N

tree hoshi
  kind      {kind}
  place     yard

2026-{month:02}-04
hoshi
  wired     {mm} mm Al on left 1
  fed       4 g/L -- before rain

2026-10-09
hoshi
  pruned    {mm} cm off on apex
"""


def small_journals(folder: Path, count: int) -> list[Path]:
    """Write so many journals of one tree into a folder and return theirs."""
    journals = [folder / f"journal-{n:04}" for n in range(count)]
    for n, journal in enumerate(journals):
        journal.mkdir(parents=True)
        (journal / "backbud.toml").write_text(SETTINGS.format(n=n))
        text = DIARY.format(
            latitude=40 + n % 17, kind=KINDS[n % len(KINDS)], month=1 + n % 9, mm=1 + n % 5
        )
        (journal / "journal.txt").write_text(text)
    return journals
