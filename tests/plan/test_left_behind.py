"""What lies on the ground or on a pot's soil stays there when the tree is lifted out of it."""

from __future__ import annotations

from datetime import date

import pytest

from backbud.collection.lies_there import lies_there

# Monthly means of a cool inland place, invented; in one year of ten nights of −5 °C, which a
# trident's roots bear, come until late March.
PLACES = """
person marrow
place yard
  latitude   50 N
  longitude  9 E
  low   -1 -1 2 5 9 12 14 14 10 7 3 0 C
  high  5 6 11 16 20 23 26 25 21 15 9 5 C
place wall
  within  yard
tree hoshi
  kind   trident maple
  place  yard
"""
KNOWN = "2025-06-01\nhoshi\n  noted  well\n"


@pytest.fixture
def on_it(written):
    """What is over the tree on a day, after what was done to it in winter."""

    def of(on: str, *acts: tuple[str, str]) -> tuple[list[str], dict[str, str]]:
        diary = "".join(f"\n{day}\nhoshi\n  {act}\n" for day, act in acts)
        session = written(PLACES + KNOWN + diary, on, settings='home = "yard"\n')
        tree = session.plan().trees["hoshi"]
        asked = {
            "/".join(one.id.split("/")[1:]): one.state(date.fromisoformat(on))
            for one in session.plan().all()
        }
        return [thing.what for thing in tree.on("protection")], asked

    return of


@pytest.mark.parametrize(
    ("act", "left"),
    [
        ("repotted  same pot, 1 cm off below", ["fleece"]),
        ("moved  wall", ["fleece"]),
        ("planted-out  wall", ["fleece"]),
        ("lent  to marrow", ["fleece"]),
        ("sold  to marrow", ["fleece"]),
        # It stays where it is, or only its soil is watered.
        ("moved  yard", ["fleece", "mulch"]),
        ("watered", ["fleece", "mulch"]),
        ("sold  to marrow, stays", ["fleece", "mulch"]),
        ("unprotected", []),
    ],
)
def test_mulch_stays_where_it_lies_and_fleece_goes_along(on_it, act: str, left: list[str]) -> None:
    over, _ = on_it("2026-03-22", ("2025-11-12", "protected  fleece, mulch"), ("2026-03-20", act))
    assert over == left


@pytest.mark.parametrize(
    ("put_on", "over"),
    [
        ("protected  mulch, straw", ["mulch, straw"]),
        ("protected  fleece, mulch, straw", ["fleece", "mulch, straw"]),
        ("protected", ["protection"]),
        ("protected  fleece, bubble wrap", ["fleece, bubble wrap"]),
    ],
)
def test_all_that_lies_stays(on_it, put_on: str, over: list[str]) -> None:
    assert on_it("2026-03-22", ("2025-11-12", put_on))[0] == over
    left, _ = on_it("2026-03-22", ("2025-11-12", put_on), ("2026-03-20", "moved  wall"))
    assert left == [one for one in over if one != "mulch, straw"]


def test_what_was_left_behind_is_not_asked_off_again(on_it) -> None:
    mulched = ("2025-11-12", "protected  with 5 cm mulch")
    off = "protection-off/protected-2025-11-12"
    _, before = on_it("2026-03-22", mulched)
    assert before[off] == "now"
    _, after = on_it("2026-03-22", mulched, ("2026-03-20", "repotted  same pot, 1 cm off below"))
    assert after[off] == "done"
    # The fleece that was put on with it is still to come off.
    both = ("2025-11-12", "protected  fleece, mulch")
    _, after = on_it("2026-03-22", both, ("2026-03-20", "moved  wall"))
    assert after[off] == "now"


def test_out_of_its_mulch_in_january_it_is_asked_under_cover_again(on_it) -> None:
    """The nights that it was mulched against go on until late March."""
    mulched, out = ("2025-11-12", "protected  mulch"), ("2026-01-10", "moved  wall")
    again = "winter-frost/2025/bare-2026-01-10"
    _, before = on_it("2026-01-12", mulched)
    assert "winter-frost/2025" in before and again not in before
    _, after = on_it("2026-01-12", mulched, out)
    assert after[again] == "now"
    # Nor is soil looked at under a cover that is no more.
    assert after["under-protection/protected-2025-11-12"] == "done"


def test_back_from_a_loan_its_mulch_is_forgotten(on_it) -> None:
    acts = (
        ("2025-11-12", "protected  mulch"),
        ("2026-01-10", "lent  to marrow"),
        ("2026-03-18", "returned"),
    )
    over, asked = on_it("2026-03-22", *acts)
    assert over == []
    assert asked.get("protection-off/protected-2025-11-12", "done") == "done"


@pytest.mark.parametrize(
    ("said", "lies"),
    [
        ("mulch", True),
        ("5 cm mulch", True),
        ("pot in straw", True),
        ("heeled in", True),
        ("plunged", True),
        ("bark over the roots", True),
        ("fleece", False),
        ("bubble wrap", False),
        ("pot wrapped in straw", False),
        ("hessian and leaves", False),
        ("windbreak", False),
        ("two layers", False),
    ],
)
def test_what_lies_is_told_from_what_is_bound(said: str, lies: bool) -> None:
    assert lies_there(said) is lies
