"""Lifting out of open ground opens the ball, cuts roots and gives new soil, as a repotting does."""

from __future__ import annotations

from datetime import date

JOURNAL = """
    place yard
      latitude  52 N
    pot tray
    tree hoshi
      kind      trident maple
      place     yard
    2020-03-10
    hoshi
      repotted  same pot
    2024-03-10
    hoshi
      planted-out in yard
"""
LIFTED = """
    2026-03-10
    hoshi
      lifted    into tray
"""


def ids(session) -> set[str]:
    return {one.id for one in session.plan().all()}


def test_a_cover_put_on_after_it_stays_four_weeks(written) -> None:
    session = written(
        JOURNAL
        + LIFTED.replace("03-10", "06-10")
        + """
    2026-06-12
    hoshi
      protected with net
""",
        "2026-06-20",
    )
    (off,) = [one for one in session.plan().all() if "/protection-off/" in one.id]
    # 28 days after 12 June.
    assert off.window.best == date(2026, 7, 10)


def test_times_to_drain_before_it_say_nothing_of_the_new_soil(written) -> None:
    drained = """
    2026-{}
    hoshi
      drained   {} s
"""
    slower = drained.format("03-05", 10), drained.format("06-05", 35)
    same_soil = written(JOURNAL + "".join(slower), "2026-06-20")
    # 35 s is over 30 s and over twice the 10 s.
    assert "hoshi/drains-slowly/drained-2026-06-05" in ids(same_soil)
    new_soil = written(JOURNAL + slower[0] + LIFTED + slower[1], "2026-06-20")
    assert "hoshi/drains-slowly/drained-2026-06-05" not in ids(new_soil)


def test_the_years_to_the_next_repotting_are_counted_from_it(written) -> None:
    def asked(journal: str) -> bool:
        session = written(journal, "2026-12-01")
        return any(
            one.act == "repotted" and one.is_open(session.today) and one.window.best.year == 2027
            for one in session.plan().all()
        )

    assert not asked(JOURNAL + LIFTED)
    assert asked(JOURNAL.replace("planted-out in yard", "fed") + "\n")
