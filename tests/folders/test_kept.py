"""What is kept of the folders from run to run is what a run from nothing makes."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from pathlib import Path

from backbud.compiled import compiled
from backbud.memo import NO_MEMO, Memo
from backbud.session import open_session

DAY = date(2026, 6, 1)
SETTINGS = 'language = 1\nname = "A test"\ncurrency = "EUR"\nhome = "yard"\nkeeper = "me"\n'
JOURNAL = """\
place yard
  latitude 52 N
person me
  name Una Wrenfold
person pell
  name Jo Pell
person marrow
  name    Ada Marrow
  pages   yes
  consent 2026-01-01
tree hoshi
  kind   trident maple
  owner  marrow
  public yes
tree yuki
  kind   satsuki azalea
  owner  pell
tree aki
  kind   Chinese juniper
  public yes

2026-03-06
hoshi
  repotted same pot, 2 cm off below, mix quick
  noted    it leans
  wired    3 mm Al on left 2
aki
  pruned   1/3 off
  treated  with neem oil, dose 1 mL/L
2026-04-01
hoshi
  billed   40 EUR
"""


def outside(folder: Path, kept: Memo) -> dict[str, bytes]:
    """What leaves the house."""
    files = compiled(open_session(str(folder), DAY, kept=kept)).output.files
    kept.end()
    return {
        name: content
        for name, content in files.items()
        if name.startswith(("for/", "pub", "registers"))
    }


def edit(*pairs: tuple[str, str]) -> Callable[[str], str]:
    def change(text: str) -> str:
        for old, new in pairs:
            assert old in text
            text = text.replace(old, new)
        return text

    return change


def test_after_any_edit_the_folders_are_as_from_nothing(tmp_path: Path) -> None:
    (tmp_path / "backbud.toml").write_text(SETTINGS)
    path, kept = tmp_path / "journal.txt", Memo()
    text = JOURNAL
    counts = []
    for change in (
        edit(("noted    it leans", "noted    for owner: it leans")),
        # A tree of somebody else is called as a word of what this owner reads.
        edit(
            ("kind   satsuki azalea\n", "kind   satsuki azalea\n  name   leans\n"),
            ("with neem oil", "with soft soap"),
        ),
        edit(
            ("billed   40 EUR", "billed   40 EUR\n  paid     10 EUR"),
            ("  wired    3 mm Al on left 2\n", ""),
        ),
        edit(("consent 2026-01-01", "consent 2026-01/2026-02"), ("pages   yes", "pages   no")),
        edit(("kind   Chinese juniper\n  public yes", "kind   Chinese juniper\n  public no")),
    ):
        text = change(text)
        path.write_text(text)
        now = outside(tmp_path, kept)
        assert now == outside(tmp_path, NO_MEMO)
        counts.append(
            (sum(n.startswith("for/") for n in now), sum(n.startswith("pub") for n in now))
        )
        leans = [b"it leans" in content for name, content in now.items() if "trees/hoshi" in name]
        assert leans == [[True], [False], [False], [], []][len(counts) - 1]
        assert (b"soap" in now["registers/treatments.csv"]) == (len(counts) > 1)
        assert (b"30.00" in now["registers/unpaid.csv"]) == (len(counts) > 2)
    # Two assets, the first page, the feed, a tree (no paper was issued); with no
    # feed or paper, two trees.
    assert counts == [(5, 5), (5, 5), (5, 5), (0, 4), (0, 0)]


def test_a_line_of_one_tree_leaves_a_helpers_pages_of_the_others(tmp_path: Path) -> None:
    """They are the very same, not made again; that of the tree itself is as from nothing."""
    (tmp_path / "backbud.toml").write_text(SETTINGS)
    path, kept = tmp_path / "journal.txt", Memo()
    text = JOURNAL.replace("tree hoshi", "person bo\n  pages as helper\ntree hoshi")
    path.write_text(text)
    before = outside(tmp_path, kept)
    (first,) = (name for name in before if name.endswith("/paper/week.html"))
    root = first.removesuffix("paper/week.html")
    path.write_text(text.replace("it leans", "it leans, and a root crosses"))
    now = outside(tmp_path, kept)
    assert now == outside(tmp_path, NO_MEMO)
    pages = ("trees/hoshi.html", "trees/yuki.html", "trees/aki.html")
    assert [now[root + page] is before[root + page] for page in pages] == [False, True, True]
    assert b"a root crosses" in now[root + pages[0]]
    # What is the keeper's own business is left out once it is planned, too.
    path.write_text(text + "  planned  bill, in 2 weeks\nyuki\n  planned  feed, in 2 weeks\n")
    assert outside(tmp_path, kept) == outside(tmp_path, NO_MEMO)
