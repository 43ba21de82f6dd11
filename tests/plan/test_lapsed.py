"""What came to nothing in a year is told by date, work and reason, and nothing else is."""

from __future__ import annotations

from datetime import date

from backbud.plan.lapsed import lapsed

YARD = "place yard\n  latitude  52 N\n"
CROW = YARD + "tree crow\n  kind   trident maple\n  place  yard\n"
WIRED = "2025-04-20\ncrow\n  wired  3 mm Al on left 1\n"
TREATED = "2026-05-10\ncrow\n  treated  soap 1 L, against aphids\n"


def of_year(session, year: int) -> dict[str, tuple[str, bool]]:
    """By id, the day and whether it was missed."""
    span = date(year, 1, 1), date(year, 12, 31)
    found = lapsed(session.plan().all(), *span, session.today)
    return {one.work.id: (one.day.isoformat(), one.missed) for one in found}


def test_what_nobody_did_is_told_once_its_time_is_over(written) -> None:
    """The day after its last: a look of 24 May that was late until 21
    October, 150 days later."""
    text = CROW + "2026-01-05\ncrow\n  noted  well\n" + TREATED
    told = of_year(written(text, "2026-12-31"), 2026)
    assert told["crow/pest-check/treated-2026-05-10"] == ("2026-10-22", True)
    assert "crow/pest-check/treated-2026-05-10" not in of_year(written(text, "2026-10-21"), 2026)
    # A chance of the season; nobody missed it.
    plan = written(text, "2026-10-21").plan().find("crow/trident-pinch/2026")
    after = plan[0].window.closes.toordinal() + 1
    assert told["crow/trident-pinch/2026"] == (date.fromordinal(after).isoformat(), False)


def test_what_is_on_the_tree_does_not_lapse(written) -> None:
    told = of_year(written(CROW + WIRED, "2026-12-31"), 2026)
    assert told and not [ident for ident in told if "wire" in ident]


def test_what_was_done_skipped_or_promised_is_not_told(written) -> None:
    def look(more: str) -> list[str]:
        told = of_year(written(CROW + TREATED + more, "2027-06-01"), 2026)
        return [ident for ident in told if "treated-2026-05-10" in ident]

    assert look("") == ["crow/pest-check/treated-2026-05-10"]
    assert look("2026-05-20\ncrow\n  checked pests, none\n") == []
    planned = CROW + "2026-01-05\ncrow\n  planned  pinch, to 2026-05\n"
    told = of_year(written(planned, "2026-12-31"), 2026)
    assert not [ident for ident in told if "/planned/" in ident]
