"""What was done, or is planned, at the wrong time is told at once, and leads to aftercare."""

from __future__ import annotations

from datetime import date

import pytest

from backbud.cli import main
from backbud.plan.cautions import cautions_of
from backbud.session import Session
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
        ("2026-07-20\ncrow\n  drained  60 s\n", False),
        ("2026-07-20\ncrow\n  drained  59 s\n", True),
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


LATE = "2026-06-20\ncrow\n  repotted  same pot\n"


def test_check_and_the_first_page_tell_it(written, tmp_path, capsys) -> None:
    """A check that nothing was planned before."""
    written(COOL + tree("trident maple") + LATE, "2026-06-20", settings=HOME)
    assert main(["check", str(tmp_path), "--on", "2026-06-20"]) == 0
    out = capsys.readouterr().out
    assert "Take care (1)" in out
    assert "crow: It was repotted on 20 June 2026: root work has its time here from" in out
    assert main(["make", str(tmp_path), "--on", "2026-06-20"]) == 0
    for name in ("index.html", "trees/crow.html"):
        page = (tmp_path / "made-on/2026-06-20" / name).read_text("utf-8")
        assert "it was repotted out of its time" in page


def planned(session: Session) -> list[tuple[str, ...]]:
    """Which trees were planned."""
    return list(session._plans._made)


def test_what_was_newly_written_is_judged_and_then_remembered(written) -> None:
    """Other trees are not planned for it, and once it was judged nothing is."""
    cards = COOL + tree("trident maple") + tree("trident maple").replace("crow", "wren")
    calm = "2026-06-01\nwren\n  watered\n"
    session = written(cards + calm + LATE, "2026-06-20", settings=HOME)
    (said,) = session.cautions.cautions
    assert (said.tree, str(said.origin).rpartition(":")[2]) == ("crow", str(line_of(cards + calm)))
    assert planned(session) == [("crow",)]
    again = written(cards + calm + LATE, "2026-06-21", settings=HOME)
    assert again.cautions.cautions == (said,)
    assert planned(again) == []
    # Where its page stands elsewhere it is told there; what was written since is judged.
    first = cards + "\n\n" + calm + LATE
    moved = written(first, "2026-06-21", settings=HOME)
    assert moved.cautions.cautions[0].origin.line == said.origin.line + 2
    assert planned(moved) == []
    more = written(first + LATE.replace("crow", "wren").replace("-20", "-21"), "2026-06-21",
                   settings=HOME)  # fmt: skip
    assert [one.tree for one in more.cautions.cautions] == ["crow", "wren"]
    assert planned(more) == [("wren",)]


def line_of(before: str) -> int:
    """The line, counted from 1, of the act on a page that stands below this text."""
    return before.count("\n") + 3


def test_a_line_that_was_changed_is_judged_as_it_is_now(written) -> None:
    text = COOL + tree("trident maple") + LATE
    assert len(written(text, "2026-06-20", settings=HOME).cautions.cautions) == 1
    changed = written(text.replace("same pot", "same pot, no root work"), "2026-06-21",
                      settings=HOME)  # fmt: skip
    assert changed.cautions.cautions == ()
    back = written(text, "2026-06-21", settings=HOME)
    assert len(back.cautions.cautions) == 1


def test_what_closes_it_is_seen_by_a_check_alone(written) -> None:
    text = COOL + tree("trident maple") + LATE
    assert len(written(text, "2026-06-20", settings=HOME).cautions.cautions) == 1
    well = text + "2026-07-05\ncrow\n  checked  strength, good\n"
    assert written(well, "2026-07-05", settings=HOME).cautions.cautions == ()


def test_it_tells_the_same_as_a_plan_of_every_tree(written) -> None:
    """Done and planned works of three trees; what is remembered is of this very day."""
    text = COOL + "".join(
        tree("trident maple").replace("crow", name) + LATE.replace("crow", name)
        for name in ("crow", "wren")
    )
    text += tree("Scots pine").replace("crow", "heron")
    text += "2026-02-01\nheron\n  planned  decandle, to 2026-07\n"
    session = written(text, "2026-06-20", settings=HOME)
    whole = written(text, "2026-06-20", settings=HOME)
    assert set(session.cautions.cautions) == set(cautions_of(whole.plan(), whole.today))
    assert len(session.cautions.cautions) == 3


def test_where_there_is_too_much_to_judge_it_says_so(written, tmp_path, capsys) -> None:
    days = [
        f"2026-06-{n:02d}\ncrow\n  pruned  lightly on left {side}\n"
        for n in range(1, 21)
        for side in (1, 2, 3)
    ]
    text = COOL + tree("trident maple") + "".join(days) + LATE
    session = written(text, "2026-06-20", settings=HOME)
    assert (session.cautions.cautions, session.cautions.not_judged) == ((), 61)
    assert planned(session) == []
    assert main(["check", str(tmp_path), "--on", "2026-06-20"]) == 0
    assert (
        "61 works of the last 400 days may be out of time and not judged yet"
        in capsys.readouterr().out
    )
    written(text, "2026-06-20", settings=HOME).remember_cautions()
    after = written(text, "2026-06-20", settings=HOME)
    assert (len(after.cautions.cautions), after.cautions.not_judged) == (1, 0)


# Seville's monthly means, remembered and rounded: great heat comes before new roots of June have
# grown.
SEVILLE = """
place yard
  latitude  37.4 N
  longitude  5.9 W
  low   5.7 7.0 9.2 11.1 14.2 18.0 20.3 20.4 18.2 14.4 10.0 7.3 C
  high  16.0 18.1 21.9 23.4 27.7 32.6 36.0 35.5 31.7 26.0 20.2 16.6 C
"""


def test_a_diary_of_many_pages_is_judged_by_a_plan_alone(
    written, tmp_path, capsys, monkeypatch
) -> None:
    """All of it would have to be gone through for one new line."""
    text = COOL + tree("trident maple") + LATE
    session = written(text, "2026-06-20", settings=HOME)
    assert (len(session.cautions.cautions), session.cautions.not_judged) == (1, 0)
    monkeypatch.setattr("backbud.plan.not_judged.MOST_PAGES", len(session.journal.pages) - 1)
    changed = text.replace("same pot", "tray-7")
    assert main(["check", str(tmp_path), "--on", "2026-06-20"]) == 0
    out = capsys.readouterr().out
    assert "1 work of the last 400 days may be out of time and not judged yet" in out
    again = written(changed, "2026-06-20", settings=HOME, any_problems=True)
    assert planned(again) == [] and again.cautions.not_judged == 1


def test_a_work_is_judged_by_the_days_that_the_climate_gives(care) -> None:
    """A satsuki is repotted after its flowers, where no great heat follows them: at Seville in
    spring, and in a cool place in June as ever."""
    june = "2026-06-12\ncrow\n  repotted  same pot, 2 cm off below\n"
    (said,) = care(SEVILLE, "satsuki azalea", june, "2026-06-13")
    assert said.startswith(
        "It was repotted on 12 June 2026: root work has its time here from 2 March"
    )
    assert " or from" not in said
    assert care(COOL, "satsuki azalea", june.replace("06-12", "06-25"), "2026-06-26") == []
    spring = june.replace("06-12", "03-01")
    assert care(SEVILLE, "satsuki azalea", spring, "2026-03-02") == []
