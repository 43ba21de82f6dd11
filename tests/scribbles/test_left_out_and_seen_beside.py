"""What a work leaves out, what adds up, and what stands beside a work and bears on none of it.

The lines are ours, in the manner of a bench; what each does was worked out by hand, and no source
says how they are to be read. What means otherwise elsewhere stands beside what is read.
"""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest
from tests.scribbles.done import done

from backbud.session import open_session

DONE: dict[str, list[str]] = {
    # What was left out is a detail of the work.
    "tips nipped all round, not apex": ["pinched all, except on apex"],
    "old needles out, all but lowest, 3h": ["plucked old needles, except on lowest", "worked 3 h"],
    "defol all exc. tip": ["defoliated except on tip"],
    "all lvs cut, petiole left, not the inside weak ones": [
        "defoliated leaving petioles, except on inside weak ones"
    ],
    "long shoots to 2 leaves, inside left": ["trimmed long shoots, to 2 leaves, except on inside"],
    "pruned hard, except the low left branch": ["pruned hard, except on low left branch"],
    # Right behind the act it may deny it all, and of what ends it is asked.
    "pinched not the apex": [],
    "unwired, not the apex": [],
    "wired 2 mm Al, not the apex": [],
    "tips nipped, not this one": [],
    "tips nipped, but not today": [],
    "pruned hard, except": [],
    # What is left is not on the left.
    "hasami, 2 lvs left": ["trimmed to 2 leaves"],
    "old needles pulled, left 2 yrs": ["plucked old needles, leaving 2 years"],
    "hasami, 2 lvs on left": ["trimmed 2 leaves on left"],
    # No copper of so many mm is put on a tree.
    "harigane all, cu 8 to 18": ["wired all, gauge 8-18 Cu"],
    "harigane on left half, cu 10 and 12": ["wired gauge 10-12 Cu on left half"],
    "wired left 1, 14 ga cu": ["wired gauge 14 Cu on left 1"],
    "wired cu 4 to 12 on left 1": ["wired cu 4 to 12 on left 1"],
    "wired cu 3 to 4 on left 2": ["wired 3-4 mm Cu on left 2"],
    # A bill that is reckoned out, where it adds up to the cent.
    "bill 140 for 5,5 h + 12,50 wire = 152,50": ['billed 152,50, for "140 for 5,5 h + 12,50 wire"'],
    "inv: 7h at 22, wire 12, 166. 14 days": ['billed 166, for "7h at 22, wire 12" -- 14 days'],
    "inv: 7h at 22, wire 12, 167": [],
    "bill 62,50 + old 26,50 = 89": [],
    "inv: 7h, wire 12, 166": [],
    # What stands behind the hours is of the work before them.
    "metsumi, all to 2 pairs, 1,5 h, inside ones not": ["pinched all to 2 pairs", "worked 1,5 h"],
    "old needles out, 2 h + resin on all fingers": ["plucked old needles", "worked 2 h"],
    "wired 2 mm Al on left 1, 22h over 3 d": ["wired 2 mm Al on left 1", "worked 22 h -- over 3 d"],
    # A second work behind the first.
    "harigane apex only, al 1.5, guy on R2 to screw in pot": [
        "wired 1.5 mm Al on apex",
        "guyed on right 2, to screw in pot",
    ],
    "wired, al 1 to 3, 6h. R1 down": ["wired 1-3 mm Al", "worked 6 h", "bent down on right 1"],
    "guy on left 2 to rim came off": [],
    # What was only seen, or done round the tree.
    "moved tunnel, leaves limp, too hot before": ["moved tunnel"],
    "watered twice, floor damped as well": ["watered twice"],
    "wired 2 mm Al on left 1, Gwen helped": ["wired 2 mm Al on left 1"],
    "moved tunnel, roots off": [],
    "moved tunnel, soil dry?": [],
    "died, leaves brown, roots white": [],
    # How it is to stand for a time.
    "moved tunnel, 2 d shade then sun": ["moved tunnel -- 2 d shade then sun"],
    "cut back hard to old wood, 5 stubs pasted, no sun 3 wks": [
        "pruned hard, to old wood -- no sun 3 wks",
        "sealed 5 stubs",
    ],
    # What whoever took it home said, and what is wanted.
    "back to Mrs Lowe, no charge, brought us a cake": ["returned to lowe"],
    "back to Mrs Lowe, wants it again next Feb": ["returned to lowe"],
    "back to Mrs Lowe, wants it back next Feb": [],
    "back to Mrs Lowe, said no": [],
    # A cut to a length, and counts of what came off.
    "pruned hard, all back to 4 in": ["pruned hard, all back to 4 inch"],
    "big lvs off, 25": ["defoliated large leaves, 25 leaves"],
    "flower buds thinned to 1 per shoot, 40 out, 1 h, low ones all off": [
        "disbudded to 1 per shoot, 40 off, all on low",
        "worked 1 h",
    ],
    "okigoe on, 1 bag per 3 in of pot": ["fed one per 3 inch"],
    "weight 1,9 kg dry, 2,4 kg wet": ["measured weight 1,9 kg dry, weight 2,4 kg wet"],
    "toriki set at 14 in, ring 3 cm": ["layered set at 14 inch, ring 3 cm"],
    # Wire that was found so is not put on, nor what came off again.
    "wire on L1 tight": [],
    "wire on low R only": [],
    "raffia off, wire on low R only": [],
    "guyed to pot foot off": [],
    "protected with fleece off": [],
    "soap + brush bought": [],
    "soap + brush": ["treated soap, by hand"],
    # A repotting that was skipped, and feed that stays off.
    "uekae skipped, roots fine when I dug in. 28 instead": [
        "skipped repot -- roots fine when I dug in, 28 instead"
    ],
    "not watered, Gwen forgot. wilted": [],
    "okigoe stays off til 8/20": ["put-off feed, to 2026-08-20"],
    "stolen label": [],
    "stolen. gate left open": [],
}


@pytest.mark.parametrize("line", DONE)
def test_so_much_is_done_and_no_more(line: str) -> None:
    assert done(tuple(DONE))[line] == DONE[line]


def test_what_was_left_out_is_no_part_that_was_worked_on(tmp_path: Path) -> None:
    """Nor is a gauge a thickness: no wire is reckoned by it."""
    (tmp_path / "backbud.toml").write_text('language = 1\nhome = "yard"\n')
    (tmp_path / "all.txt").write_text(
        "place yard\n  latitude  52 N\n\ntree moll\n  kind  trident maple\n  since  2011\n\n"
        "2026-05-01\n\nmoll\n  pruned  hard, except on apex\n  wired  gauge 10-12 Cu on left 1\n"
    )
    session = open_session(tmp_path, date(2026, 5, 2))
    plan = session.plan(("moll",))
    assert not session.problems()
    assert [one.title for one in plan.all() if one.part == "apex"] == []
    assert [one.part for one in plan.all() if "/wire-check/" in one.id] == ["left 1"]
    (wire,) = plan.trees["moll"].on_tree
    assert (wire.what, wire.part, wire.count, wire.thickness_mm) == (
        "gauge 10-12 Cu",
        "left 1",
        1,
        None,
    )
