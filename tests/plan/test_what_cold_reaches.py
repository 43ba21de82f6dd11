"""Winter protection goes on once the cold reaches what the roots stand: not in a mild September.

Denver's monthly means, as remembered and rounded: 10.5 °C in October, 4 °C in November, so that
about 1 November the weeks fall under 7 °C. In one year of ten a night of -5 °C, which roots that
were cut within a year bear, comes on 11 October.
"""

from __future__ import annotations

from datetime import date

import pytest

from backbud.collection.fold import tree_on

PLACES = """
place yard
  latitude   39.7 N
  longitude  105 W
  low   -8 -7 -3 1 6 11 15 14 9 2 -4 -8 C
  high  7 8 12 16 22 28 32 31 26 19 12 7 C
"""
CUT = "\n2026-04-10\nhoshi\n  repotted  {into}, 3 cm off below\n"


@pytest.fixture
def opens(written):
    """The day on which winter protection is first asked for; None where it is not."""

    def of(card: str, diary: str, kind: str = "European larch") -> date | None:
        text = f"{PLACES}tree hoshi\n  kind  {kind}\n  place  yard\n{card}{diary}"
        session = written(text, "2026-10-12", settings='home = "yard"\n')
        found = [one for one in session.plan().all() if "/winter-frost/2026" in one.id]
        return found[0].window.opens if found else None

    return of


def _pot(deep: str) -> str:
    return f"  pot  tray\npot tray\n  inside  50 x 40 x {deep} cm\n"


def test_a_deep_pot_is_not_frozen_through_while_days_are_mild(opens) -> None:
    cut = CUT.format(into="same pot")
    shallow, deep = opens(_pot("5"), cut), opens(_pot("18"), cut)
    # A fortnight before 11 October, by which the winter's rule leans to the cold side.
    assert shallow is not None and date(2026, 9, 24) <= shallow <= date(2026, 9, 30)
    assert deep is not None and date(2026, 10, 26) <= deep <= date(2026, 11, 3)
    assert opens(_pot("9.9"), cut) == shallow
    assert opens(_pot("10"), cut) == deep


def test_old_roots_of_a_hardy_tree_wait_for_november(opens) -> None:
    """They bear -15 °C, and the first such night of ten years comes in the middle of November."""
    day = opens(_pot("18"), "\n2026-04-10\nhoshi\n  noted  well\n")
    assert day is not None and date(2026, 10, 28) <= day <= date(2026, 11, 6)


def test_a_root_ball_tells_how_deep_a_pot_is_that_nobody_measured(opens, written) -> None:
    known = "\n2026-04-10\nhoshi\n  noted  well\n"
    large = opens("  root ball  40 x 40 x 18 cm\n", known)
    assert large == opens(_pot("18"), known)
    flat = opens("  root ball  40 x 40 x 6 cm\n", known)
    # Two sizes may be length and width; and nothing measured is taken for shallow.
    assert flat == opens("  root ball  40 x 40 cm\n", known) == opens("", known)
    assert flat is not None and large is not None and flat < large
    # A pot that was measured says it better than the ball.
    assert opens("  root ball  40 x 40 x 18 cm\n" + _pot("5"), known) == flat
    text = f"{PLACES}tree hoshi\n  kind  European larch\n  root ball  40 x 40 x 6 cm\n{known}"
    session = written(text, "2026-10-12", settings='home = "yard"\n')
    (one,) = [f for f in session.plan().all() if "/winter-frost/2026" in f.id]
    assert "Its root ball is 6 cm deep, so shallow: young roots bear about −5 °C" in " ".join(
        reason.text for reason in one.because
    )


@pytest.mark.parametrize(
    ("how", "in_ground"),
    [("in the ground", True), ("trenched", True), ("by spade", True), ("2 cm off below", False)],
)
def test_roots_cut_in_open_ground_want_no_cover(opens, written, how: str, in_ground: bool) -> None:
    done = f"\n2026-04-10\nhoshi\n  root-pruned  {how}\n"
    assert (opens("", done) is None) is in_ground
    text = f"{PLACES}tree hoshi\n  kind  European larch\n  place  yard\n{done}"
    session = written(text, "2026-10-12", settings='home = "yard"\n')
    tree = tree_on(session.histories, session.journal.things, "hoshi", date(2026, 10, 12))
    assert tree.planted_out is in_ground


SEVILLE = """
place yard
  latitude   37.4 N
  longitude  6 W
  low   {low} 7 9 11 14 18 20 20 18 14 10 7 C
  high  {high} 18 22 23 27 32 36 36 32 26 20 17 C
"""


@pytest.mark.parametrize(
    ("low", "high", "told"),
    # The mean of January is 10.9, 8 and 7.9 °C.
    [("5.8", "16", False), ("2", "14", False), ("1.9", "13.9", True)],
)
def test_no_snow_is_shaken_off_where_none_lies(written, low: str, high: str, told: bool) -> None:
    known = "\n2026-04-10\nhoshi\n  noted  well\n"
    place = SEVILLE.format(low=low, high=high)
    text = f"{place}tree hoshi\n  kind  Chinese elm\n  place  yard\n{_pot('5')}{known}"
    session = written(text, "2026-12-12", settings='home = "yard"\n')
    (one,) = [f for f in session.plan().all() if "/winter-frost/2026" in f.id]
    assert any("wet snow" in caution for caution in one.cautions) is told
