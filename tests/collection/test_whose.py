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


@pytest.mark.parametrize(
    ("line", "held"),
    [
        ("Ty says yes to 150", False),
        ("Ty B says yes to 150", False),
        ("Ty Beas says yes to 150", True),
        ("Quillow says yes to 150", True),
        ("invoiced Ty 150", False),
        ("invoiced Quillow 150", True),
        ("back to Ty", False),
        ("back to Quillow", True),
    ],
)
def test_an_owner_may_be_called_by_the_first_of_their_names(written: Written, line, held) -> None:
    """Each of those named has a card; the tree is Ty Beasley's."""
    people = {"beasley": "Ty Beasley", "ty": "Ty", "b": "Ty B", "beas": "Ty Beas", "quillow": ""}
    cards = "".join(
        f"person {handle}\n  name {name or handle}\n" for handle, name in people.items()
    )
    session = written(
        f"{cards}tree hoshi\n  kind trident maple\n  owner beasley\n"
        f"2026-03-01\nhoshi\n  received from beasley\n2026-06-01\nhoshi\n  {line}\n",
        any_problems=True,
    )
    last = session.histories.trees["hoshi"].entries[-1]
    assert bool(last.event.held) is held
