"""The lists of trees, places and pots: who is on them, in which order, and what each line says."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from backbud.cli import main

JOURNAL = """\
place yard
  latitude  52 N
  cover     open
place bench
  within    yard
  cover     shade net 40 %
place tunnel
  cover     tunnel
person ada
  name      Ada
person me
pot tray
  shape     rectangle
  inside    38 x 27 x 7 cm
pot deep
  shape     rectangle
  inside    20 x 20 x 21 cm
pot lost-measure
  shape     oval
tree hoshi
  kind      trident maple
  since     2020-03-01
  owner     ada
  place     bench
  pot       tray
tree yuki
  kind      Japanese maple 'Ake'
  place     yard
tree sumi
  kind      Japanese black pine
  place     tunnel
tree ame
  kind      trident maple
  place     yard

2026-03-06
hoshi
  wired       2 mm Al on left 1
2026-04-01
yuki
  pruned
2026-05-01
ame
  died
"""


@pytest.fixture
def journal(tmp_path: Path) -> Path:
    (tmp_path / "backbud.toml").write_text('language = 1\nhome = "yard"\nkeeper = "me"\n')
    (tmp_path / "journal.txt").write_text(JOURNAL)
    return tmp_path


def said(capsys: pytest.CaptureFixture[str], journal: Path, *words: str) -> list[str]:
    capsys.readouterr()
    assert main([words[0], str(journal), *words[1:], "--on", "2026-06-01"]) == 0
    return capsys.readouterr().out.splitlines()


def listed(capsys: pytest.CaptureFixture[str], journal: Path, *words: str) -> list[str]:
    (found, *_) = [json.loads("\n".join(said(capsys, journal, *words, "--json")))]
    return [row["tree"] for row in found]


def test_a_tree_a_line(journal: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert said(capsys, journal, "trees") == [
        "3 trees",
        "  hoshi  trident maple         bench   of ada  wire",
        "  sumi   Japanese black pine   tunnel",
        "  yuki   Japanese maple 'Ake'  yard",
    ]


@pytest.mark.parametrize(
    ("asked", "found"),
    [
        (("--in", "yard"), ["hoshi", "yuki"]),
        (("--in", "bench"), ["hoshi"]),
        (("--of", "ada"), ["hoshi"]),
        (("--of", "me"), ["sumi", "yuki"]),
        (("--kind", "maple"), ["hoshi", "yuki"]),
        (("--kind", "japanese maple"), ["yuki"]),
        (("--kind", "map"), []),
        (("--with", "wire"), ["hoshi"]),
        (("--gone",), ["ame", "hoshi", "sumi", "yuki"]),
        (("--by", "kind"), ["sumi", "yuki", "hoshi"]),
        (("--by", "place"), ["hoshi", "sumi", "yuki"]),
        (("--by", "owner"), ["sumi", "yuki", "hoshi"]),
        # hoshi was wired in March, yuki pruned in April; nothing was done to sumi.
        (("--by", "last"), ["hoshi", "yuki", "sumi"]),
        (("--by", "since"), ["hoshi", "sumi", "yuki"]),
    ],
)
def test_which_and_in_which_order(
    journal: Path, capsys: pytest.CaptureFixture[str], asked: tuple[str, ...], found: list[str]
) -> None:
    assert listed(capsys, journal, "trees", *asked) == found


def test_a_tree_that_left_says_so(journal: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (_, gone, *_) = said(capsys, journal, "trees", "--gone")
    assert gone == "  ame    trident maple         died 1 May 2026"


def test_a_name_of_nobody_is_misuse(journal: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["trees", str(journal), "--in", "bensh"]) == 2
    assert capsys.readouterr().err == (
        "backbud: no place is called “bensh”. Did you mean “bench”?\n"
    )


def test_places_stand_below_what_they_are_within(
    journal: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert said(capsys, journal, "places") == [
        "3 places",
        "  yard     open              1  yuki",
        "    bench  shade net 40 %    1  hoshi",
        "  tunnel   tunnel            1  sumi",
    ]


def test_free_pots_come_first_and_say_what_they_hold(
    journal: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Filled to 1 cm below the rim (`rim_gap_cm`): 20 x 20 x 20 cm = 8 L, 38 x 27 x 6 = 6.2 L;
    by hand."""
    assert said(capsys, journal, "pots") == [
        "Free (2)",
        "  deep          rectangle  inside 20 x 20 x 21 cm  8.0 L",
        "  lost-measure  oval                               size not written",
        "In use (1)",
        "  tray  rectangle  inside 38 x 27 x 7 cm  6.2 L  hoshi",
    ]
