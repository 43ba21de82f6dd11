"""Nobody sells what is another's, and a line with an unread number is not done to a whole batch."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from backbud.session import Session

Written = Callable[..., Session]
CARDS = """\
person marrow
tree hoshi
  kind trident maple
  owner marrow
tree mother
  kind satsuki azalea
2026-03-01
hoshi
  received from marrow
mother
  struck 30 cuttings, as cut
2026-06-01
"""


@pytest.mark.parametrize(
    ("subject", "line", "hint"),
    [
        (
            "hoshi",
            "sold 400 EUR",
            "Where its owner has it back, write returned; where it was yours, write bought from"
            " marrow before this.",
        ),
        ("hoshi", "collected", "Where its owner came for it, write returned."),
    ],
)
def test_what_is_anothers_is_not_sold(written: Written, subject: str, line: str, hint: str) -> None:
    session = written(f"{CARDS}{subject}\n  {line}\n", any_problems=True)
    tree = session.plan().trees[subject]
    assert (tree.standing, tree.owner) == ("here", "marrow")
    assert [one.hint for one in session.problems() if one.code == "held-back"] == [hint]


def test_what_was_bought_first_is_sold(written: Written) -> None:
    session = written(f"{CARDS}hoshi\n  bought from marrow 300 EUR\n  sold 400 EUR\n")
    assert session.plan().trees["hoshi"].standing == "sold"


@pytest.mark.parametrize(
    "line", ["pinched 12 of them", "repotted 12 in 9 cm pots", "watered 12 from the left"]
)
def test_an_unread_number_holds_a_line_about_a_batch(written: Written, line: str) -> None:
    session = written(f"{CARDS}cut\n  {line}\n", any_problems=True)
    last = session.histories.trees["cut"].entries[-1]
    assert (last.event.held, last.batch) == (line.split()[0], None)
    assert "wrong-count" in {one.code for one in session.problems()}


def test_a_number_that_is_read_counts_so_many(written: Written) -> None:
    session = written(f"{CARDS}cut\n  potted-on 12 in 9 cm\n")
    last = session.histories.trees["cut"].entries[-1]
    assert last.of == 12
    assert last.batch is not None
    assert (last.batch.count, last.batch.potted_on) == (30, 12)


@pytest.mark.parametrize(
    ("line", "held"),
    [("Quillow says yes to 150", True), ("Marrow says yes to 150", False)],
)
def test_a_price_that_another_says_yes_to_is_not_agreed(written: Written, line, held) -> None:
    """The tree is Marrow's; a helper who says yes agrees to nothing."""
    cards = CARDS.replace("person marrow\n", "person marrow\nperson quillow\n")
    session = written(f"{cards}hoshi\n  {line}\n", any_problems=True)
    last = session.histories.trees["hoshi"].entries[-1]
    assert bool(last.event.held) is held
