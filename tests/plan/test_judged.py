"""What was done, or is planned, at the wrong time is told at once, and leads to aftercare."""

from __future__ import annotations

from datetime import date

import pytest

from backbud.cli import main
from backbud.tongue import full_day

# Monthly means remembered of a cool oceanic place, rounded.
COOL = """
place yard
  cover     open
  latitude  52.9 N
  longitude  1.2 W
  low   1.4 1.2 2.7 4.1 6.9 9.8 11.9 11.8 9.8 7.1 3.9 1.6 C
  high  6.9 7.3 9.9 12.6 16.0 18.9 21.3 20.9 18.0 13.8 9.8 7.1 C
"""
# And of one with a long warm summer.
WARM = """
place yard
  cover     open
  latitude  35.7 N
  longitude  139.7 E
  low   1 2 5 10 15 19 23 24 21 15 9 4 C
  high  10 10 14 19 23 26 30 31 27 22 17 12 C
"""
HOME = 'home = "yard"\n'


def tree(kind: str) -> str:
    return f"tree crow\n  kind   {kind}\n  place  yard\n2024-06-01\ncrow\n  noted  well\n"


@pytest.fixture
def care(written):
    def told(place: str, kind: str, diary: str, day: str) -> list[str]:
        """The reasons of the aftercare that is open."""
        session = written(place + tree(kind) + diary, day, settings=HOME)
        return [
            next(r.text for r in f.because if r.sort == "rule")
            for f in session.plan().all()
            if "/out-of-its-time/" in f.id and f.is_open(session.today)
        ]

    return told


@pytest.mark.parametrize(
    ("place", "kind", "day", "act", "said"),
    [
        (COOL, "trident maple", "2026-06-20", "repotted  same pot", "root work has its time here"),
        (COOL, "satsuki azalea", "2026-10-05", "pruned  hard", "do not ripen before the frost"),
        (COOL, "common camellia", "2026-10-05", "pruned  hard", "do not ripen before the frost"),
        (COOL, "willow-leaf fig", "2026-12-10", "repotted  same pot", "root work has its time"),
        (COOL, "Japanese black pine", "2026-07-01", "decandled", "K·day above 10 °C are left"),
        # Its sap runs by mid January (the README of the trade's facts).
        (COOL, "Japanese maple", "2026-02-20", "pruned", "its sap rises, so the cuts bleed"),
        # What makes too few new leaves before winter.
        (COOL, "European beech", "2026-06-10", "defoliated", "all leaves at once"),
        (COOL, "European hornbeam", "2026-06-10", "defoliated", "all leaves at once"),
        (COOL, "common camellia", "2026-06-10", "defoliated", "all leaves at once"),
        (COOL, "ginkgo", "2026-06-10", "defoliated", "all leaves at once"),
        (COOL, "silver birch", "2026-03-10", "pruned", "its sap rises, so the cuts bleed"),
        (COOL, "flowering cherry", "2026-10-10", "pruned  hard", "silver leaf enters cuts"),
        # Leaf work until 28 June here, and three weeks: ten weeks later no new leaf ripens.
        (COOL, "trident maple", "2026-08-20", "defoliated", "new leaves ripen here where the old"),
        # From 5 September: about 12 K a day, then 9, then 3 in November: under 900.
        (WARM, "Japanese black pine", "2026-09-05", "decandled", "K·day above 10 °C are left"),
    ],
)
def test_the_wrong_time_asks_for_aftercare(care, place, kind, day, act, said) -> None:
    found = care(place, kind, f"{day}\ncrow\n  {act}\n", day)
    assert len(found) == 1 and said in found[0]
    assert full_day(date.fromisoformat(day)) in found[0]


@pytest.mark.parametrize(
    ("place", "kind", "day", "act"),
    [
        (COOL, "trident maple", "2026-03-20", "repotted  same pot"),
        (COOL, "trident maple", "2026-06-20", "slipped"),
        (COOL, "satsuki azalea", "2026-06-25", "pruned  hard"),
        (COOL, "satsuki azalea", "2026-10-05", "pruned  light"),
        # After its flowers, before its one flush.
        (COOL, "common camellia", "2026-04-20", "pruned  hard"),
        (COOL, "willow-leaf fig", "2026-06-10", "repotted  same pot"),
        # In spring, too, where it is to have no flowers that year.
        (COOL, "satsuki azalea", "2026-04-05", "repotted  same pot"),
        # As the summer cools, with six weeks before the frost: an autumn time of conifers.
        (COOL, "Chinese juniper", "2026-09-08", "repotted  same pot"),
        (COOL, "Japanese maple", "2026-11-20", "pruned"),
        (COOL, "trident maple", "2026-06-10", "defoliated"),
        # Some leaves of an outer shoot are no stripping.
        (COOL, "trident maple", "2026-08-20", "defoliated  outer, 20 %"),
        (WARM, "Japanese black pine", "2026-06-20", "decandled"),
    ],
)
def test_the_right_time_is_silent(care, place, kind, day, act) -> None:
    assert care(place, kind, f"{day}\ncrow\n  {act}\n", day) == []


@pytest.mark.parametrize(
    ("before", "said"),
    [
        ("2026-05-01\ncrow\n  vigour  weak\n", "though it is written down as weak"),
        ("2026-03-15\ncrow\n  repotted  same pot\n", "after its roots were cut on 15 March 2026"),
        ("2026-05-01\ncrow\n  vigour  strong\n", ""),
    ],
)
def test_leaves_come_off_no_weak_or_just_repotted_tree(care, before, said) -> None:
    found = care(COOL, "trident maple", before + "2026-06-10\ncrow\n  defoliated\n", "2026-06-10")
    assert [said in one for one in found] == ([True] if said else [])


@pytest.mark.parametrize(
    ("before", "judged"),
    [
        ("2026-07-20\ncrow\n  checked  roots rotten\n", False),
        ("2026-07-20\ncrow\n  drained  120 s\n", False),
        ("2026-07-20\ncrow\n  checked  roots white roots\n", True),
        # Thirteen weeks are too long ago.
        ("2026-05-01\ncrow\n  checked  roots rotten\n", True),
    ],
)
def test_rotting_roots_do_not_wait_for_their_time(care, before, judged) -> None:
    done = "2026-08-01\ncrow\n  repotted  same pot\n"
    assert bool(care(COOL, "trident maple", before + done, "2026-08-01")) is judged


def test_candles_cut_after_half_the_roots_were_bared(care) -> None:
    bared = "2026-03-15\ncrow\n  repotted  same pot, off 50 %\n"
    cut = "2026-06-20\ncrow\n  decandled\n"
    (said,) = care(WARM, "Japanese black pine", bared + cut, "2026-06-20")
    assert "after half of its roots and more went on 15 March 2026" in said
    less = bared.replace("50 %", "30 %")
    assert care(WARM, "Japanese black pine", less + cut, "2026-06-20") == []


def test_a_plan_out_of_its_time_has_it_as_a_caution(written) -> None:
    text = COOL + tree("trident maple")

    def cautions(to: str) -> list[str]:
        plan = f"2026-02-01\ncrow\n  planned  repot, to {to}\n"
        session = written(text + plan, "2026-02-02", settings=HOME)
        (one,) = session.plan().find("crow/planned/")
        return [c for c in one.cautions if c.startswith("It would be repotted")]

    assert len(cautions("2026-07")) == 1
    assert cautions("2026-03") == []
    # A plan for the year leaves the day open.
    assert cautions("2026") == []


def test_a_plan_to_cut_the_candles_of_a_one_flush_pine_has_a_caution(written) -> None:
    plan = "2026-02-01\ncrow\n  planned  decandle, to 2026-06\n"
    session = written(COOL + tree("Scots pine") + plan, "2026-02-02", settings=HOME)
    (one,) = session.plan().find("crow/planned/")
    assert any("none follows the cut candles" in caution for caution in one.cautions)


def test_check_and_the_first_page_tell_it(written, tmp_path, capsys) -> None:
    text = COOL + tree("trident maple") + "2026-06-20\ncrow\n  repotted  same pot\n"
    session = written(text, "2026-06-20", settings=HOME)
    # A check plans nothing: it tells what the last plan found.
    session.remember_cautions()
    assert main(["check", str(tmp_path), "--on", "2026-06-20"]) == 0
    out = capsys.readouterr().out
    assert "Take care (1)" in out
    assert "crow: It was repotted on 20 June 2026: root work has its time here from" in out
    assert main(["make", str(tmp_path), "--on", "2026-06-20"]) == 0
    for name in ("index.html", "trees/crow.html"):
        page = (tmp_path / "made-on/2026-06-20" / name).read_text("utf-8")
        assert "it was repotted out of its time" in page


def test_a_caution_is_not_recalled_of_a_line_that_was_changed(written, tmp_path, capsys) -> None:
    text = COOL + tree("trident maple") + "2026-06-20\ncrow\n  repotted  same pot\n"
    written(text, "2026-06-20", settings=HOME).remember_cautions()
    for changed, day, told in (
        (text.replace("same pot", "into tray"), "2026-06-21", False),
        (text, "2026-06-19", False),
        (text, "2026-06-21", True),
    ):
        written(changed, "2026-06-21", settings=HOME, any_problems=True)
        main(["check", str(tmp_path), "--on", day])
        assert ("Take care" in capsys.readouterr().out) is told
