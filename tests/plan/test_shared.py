"""Equal parts of follow-ups are one object, and the follow-ups are equal to what they were."""

from __future__ import annotations

from datetime import date

from backbud.journal.events import Origin
from backbud.plan.followups import FollowUp, Reason, reason_on
from backbud.plan.shared import SharedParts
from backbud.species import Window


def follow_up(tree: str, line: int) -> FollowUp:
    """One that shares no object with another, as rules make them."""
    days = [date(2027, 4, day) for day in (3, 10, 24)]
    return FollowUp(
        f"{tree}/feed/2027",
        tree,
        "fed",
        "".join(("feed ", "weakly")),
        Window(*days),
        (
            reason_on("diary", f"2027-03-0{line}: repotted.", Origin("diary.txt", line, 1)),
            Reason("rule", "".join(("Cut roots take up ", "no feed."))),
        ),
        (),
        5,
        ("fed",),
    )


def test_equal_parts_are_one_object() -> None:
    made = [follow_up("hoshi", 1), follow_up("yuki", 2)]
    one, other = SharedParts().of(made)
    assert [one, other] == made
    assert one.title is other.title
    assert one.window is other.window
    assert one.because[1] is other.because[1]
    assert one.settled_by is other.settled_by
    # Each keeps the line of the diary that it grew from.
    assert [f.because[0].origin and f.because[0].origin.line for f in (one, other)] == [1, 2]
