"""What a line makes of a batch, each figure counted by hand: the function alone, with no diary."""

from __future__ import annotations

from datetime import date

import pytest

from backbud.collection.batch import Batch, Misfit
from backbud.collection.batch_moves import Step, batch_parted, how_many_parted, moved
from backbud.journal.events import Event
from backbud_grammar.acts import ACTS, by_word
from backbud_grammar.dates import read_date
from backbud_grammar.parse import Details

WORDS = by_word(ACTS)
DETAILS = Details(WORDS)
JULY = date(2026, 7, 1)
ONE_TREE = "this handle is of one tree"


def line(said: str) -> Event:
    """An act of 1 July 2026 as the journal reads it."""
    act, _, text = said.partition(" ")
    reading = DETAILS.of(WORDS[act], text.strip())
    assert reading.flaws == (), reading.flaws
    row = WORDS[act]
    return Event(
        act, read_date("2026-07-01"), reading.details, text, "", "", "b", "d.txt", 1, 3, row=row
    )


def after(
    batch: Batch | None, said: str, *, here: bool = True, one_tree: bool = False
) -> Step | str:
    """What the line makes of it, or why it is held back."""
    try:
        return moved(batch, line(said), here=here, one_tree=one_tree)
    except Misfit as misfit:
        return misfit.message


CUTTINGS = Batch(50, "cuttings")
NOBODY_COUNTED = Batch(None, "seeds")
SEEDS = Batch(60, "seeds")
TRAYS = Batch(2, "trays")
TRAYS_OF_SEED = Batch(2, "trays of seed")


@pytest.mark.parametrize(
    ("batch", "said", "here", "one_tree", "left"),
    [
        # Cuttings of what stands there, or under another handle, make nothing of it.
        (None, "struck 50 cuttings", True, False, None),
        (CUTTINGS, "struck 20 cuttings", True, False, CUTTINGS),
        (None, "struck 50 cuttings, as reds", False, False, None),
        (None, "sown 60 seeds, as reds", False, False, None),
        # It begins.
        (None, "struck 50 cuttings", False, False, CUTTINGS),
        (None, "struck 1 cutting", False, False, None),
        (None, "struck 50 cuttings", False, True, None),
        # As its card says, or as went; a number of the line stands before either.
        (Batch(10, "whips"), "received", False, False, Batch(10, "whips")),
        (Batch(10, "whips"), "received 8 whips", False, False, Batch(8, "whips")),
        (Batch(10, "whips"), "received 8 whips", False, True, None),
        (None, "sown from the hedge", False, False, NOBODY_COUNTED),
        (None, "sown 40", False, False, Batch(40, "seeds")),
        (None, "struck 40", False, False, Batch(40, "cuttings")),
        # More of them come.
        (Batch(10, "whips"), "received", True, False, Batch(10, "whips")),
        (Batch(10, "whips"), "received 5 whips", True, False, Batch(15, "whips")),
        (Batch(10, "whips", up=3), "received 5 plants", True, False, Batch(15, "whips", up=3)),
        (Batch(10, "whips"), "received 1 whip", True, False, Batch(11, "whips")),
        (TRAYS, "received 1 tray", True, False, Batch(3, "trays")),
        # One tree, and it is said that one came.
        (None, "received 1 tree", True, False, None),
    ],
)
def test_how_a_batch_comes(batch, said, here, one_tree, left) -> None:
    assert after(batch, said, here=here, one_tree=one_tree) == Step(left)


@pytest.mark.parametrize(
    ("batch", "said", "one_tree", "told"),
    [
        (None, "received 5 whips", False, ONE_TREE),
        (None, "received 1 tree", True, ONE_TREE),
        (Batch(10, "whips"), "received 5 whips", True, ONE_TREE),
        (NOBODY_COUNTED, "received 5 seedlings", False, "nobody has said how many there are"),
        (
            Batch(10, "whips"), "received 2 trays", False,
            "there are 10 whips, and 2 trays cannot be added to them",
        ),
        (
            TRAYS, "received 5 plants", False,
            "there are 2 trays, and 5 plants cannot be added to them",
        ),
        (TRAYS, "received 3 rows", False, "there are 2 trays, and 3 rows cannot be added to them"),
    ],
)  # fmt: skip
def test_what_cannot_be_added(batch, said, one_tree, told) -> None:
    assert after(batch, said, one_tree=one_tree) == told


@pytest.mark.parametrize(
    ("batch", "said", "left"),
    [
        (CUTTINGS, "counted 50", Batch(50, "cuttings")),
        (CUTTINGS, "counted 49", Batch(49, "cuttings")),
        (CUTTINGS, "counted 51", "51 were counted, but there were only 50 cuttings"),
        (None, "counted 38 seedlings", Batch(38, "seedlings", up=38)),
        (None, "counted 38", Batch(38)),
        (NOBODY_COUNTED, "counted 70", Batch(70, "seeds")),
        # Seed comes up, trays are filled: there may be more.
        (SEEDS, "counted 61", Batch(61, "seeds")),
        (Batch(60, "seed"), "counted 61", Batch(61, "seed")),
        (Batch(20, "seedlings", up=20), "counted 21", Batch(21, "seedlings", up=21)),
        (Batch(20, "seedlings", up=20), "counted 15", Batch(15, "seedlings", up=20)),
        (TRAYS, "counted 3", Batch(3, "trays")),
        (TRAYS_OF_SEED, "counted 3", Batch(3, "trays of seed")),
        (TRAYS, "counted 300 seedlings", Batch(300, "seedlings", up=300)),
        (Batch(12), "counted 13 seedlings", Batch(13, "seedlings", up=13)),
        (Batch(12), "counted 13", "13 were counted, but there were only 12 trees"),
        (CUTTINGS, "counted 4 L", "a batch is counted by the piece"),
        (CUTTINGS, "counted 2-3", "“2-3” is no count"),
    ],
)
def test_how_many_were_counted(batch, said, left) -> None:
    assert after(batch, said) == (left if isinstance(left, str) else Step(left))


def test_one_tree_is_not_counted() -> None:
    assert after(None, "counted 38 seedlings", one_tree=True) == ONE_TREE


def test_a_tally_by_the_piece_names_what_was_said() -> None:
    with pytest.raises(Misfit) as told:
        moved(Batch(12), line("counted 13"), here=True, one_tree=False)
    assert told.value.said == "13"
    with pytest.raises(Misfit) as told:
        moved(None, line("died 3"), here=True, one_tree=False)
    assert told.value.said == "3"


@pytest.mark.parametrize(
    ("batch", "said", "left"),
    [
        # The first are up, and nobody has counted.
        (SEEDS, "germinated", SEEDS),
        (SEEDS, "germinated 44", Batch(44, "seedlings", up=44)),
        (SEEDS, "germinated 60", Batch(60, "seedlings", up=60)),
        (SEEDS, "germinated 61", "61 came up, but only 60 seeds were sown"),
        (SEEDS, "germinated 44 of 59", "there were 60 seeds"),
        # A quarter of sixty.
        (SEEDS, "germinated 25 %", Batch(15, "seedlings", up=15)),
        (Batch(60), "germinated 25 %", Batch(15, "seedlings", up=15)),
        (NOBODY_COUNTED, "germinated 61", Batch(61, "seedlings", up=61)),
        # Of how many a share is, is known of seed alone, and before any came up.
        (TRAYS, "germinated 25 %", TRAYS),
        (TRAYS, "germinated 44", Batch(44, "seedlings", up=44)),
        (Batch(18, "seedlings", up=20), "germinated 25 %", Batch(18, "seedlings", up=20)),
        (Batch(60, "seeds", up=1), "germinated 25 %", Batch(60, "seeds", up=1)),
        # Of twenty that came up two died; twelve more are thirty that live, thirty-two in all.
        (Batch(18, "seedlings", up=20), "germinated 12 more", Batch(30, "seedlings", up=32)),
        (Batch(18, "seedlings", up=20), "germinated 32 in all", Batch(30, "seedlings", up=32)),
        (
            Batch(18, "seedlings", up=20),
            "germinated 12",
            "20 had come up before, and these may be among them or come to them",
        ),
        # Seed that was sown again under the handle: some have come up, so it is no count of seed.
        (Batch(60, "seeds", up=1), "germinated 3 more", Batch(63, "seeds", up=4)),
        (Batch(None, "seedlings", up=20), "germinated 12 more", Batch(12, "seedlings", up=32)),
        # What never was seed does not germinate: five cuttings become no six seedlings.
        (Batch(5, "cuttings"), "germinated 6", "there are 5 cuttings, which came from no seed"),
        (Batch(1, "whips"), "germinated", "there is 1 whip, which came from no seed"),
        (Batch(None, "cuttings"), "germinated", "there are cuttings, which came from no seed"),
    ],
)
def test_how_many_came_up(batch, said, left) -> None:
    assert after(batch, said) == (left if isinstance(left, str) else Step(left))


@pytest.mark.parametrize(
    ("batch", "said", "rooted", "of"),
    [
        (CUTTINGS, "rooted", 50, None),
        (CUTTINGS, "rooted 30", 30, 30),
        (CUTTINGS, "rooted 50", 50, 50),
        (CUTTINGS, "rooted 60 %", 30, 30),
        (Batch(50, "cuttings", rooted=20), "rooted 10 more", 30, 10),
        (Batch(50, "cuttings", rooted=20), "rooted 30 in all", 30, 30),
        # Nobody knows how many a tray holds.
        (TRAYS, "rooted", None, None),
        (TRAYS, "rooted 30", 30, 30),
    ],
)
def test_how_many_rooted(batch, said, rooted, of) -> None:
    step = after(batch, said)
    assert isinstance(step, Step)
    assert step.batch is not None
    assert (step.batch.rooted, step.batch.rooted_on, step.of) == (rooted, JULY, of)
    assert (step.batch.count, step.batch.of) == (batch.count, batch.of)


@pytest.mark.parametrize(
    ("batch", "said", "left"),
    [
        (CUTTINGS, "rooted 51", "there are only 50 cuttings"),
        (
            Batch(50, "cuttings", rooted=20),
            "rooted 10",
            "20 had rooted before, and these may be among them or come to them",
        ),
        # Of nobody knows how many, a share tells no number.
        (TRAYS, "rooted 60 %", TRAYS),
    ],
)
def test_what_tells_no_number_of_roots(batch, said, left) -> None:
    assert after(batch, said) == (left if isinstance(left, str) else Step(left))


@pytest.mark.parametrize(
    ("batch", "said", "potted", "at_least", "of"),
    [
        (CUTTINGS, "potted-on", 50, False, None),
        (CUTTINGS, "potted-on 49", 49, False, 49),
        (CUTTINGS, "potted-on 50", 50, False, None),
        (Batch(50, "cuttings", potted_on=20), "potted-on 10", 20, True, 10),
        (Batch(50, "cuttings", potted_on=20), "potted-on 30", 30, True, 30),
        (Batch(50, "cuttings", potted_on=20, at_least=True), "potted-on", 50, False, None),
        (Batch(50, "cuttings", potted_on=20, at_least=True), "potted-on 50", 50, False, None),
        (Batch(50, "cuttings"), "repotted", 50, False, None),
        (TRAYS, "potted-on", None, False, None),
        (TRAYS, "potted-on 2", 2, False, 2),
        (TRAYS, "potted-on 20", 20, False, 20),
    ],
)
def test_how_many_were_potted_on(batch, said, potted, at_least, of) -> None:
    step = after(batch, said)
    assert isinstance(step, Step)
    assert step.batch is not None
    assert (step.batch.potted_on, step.batch.at_least, step.of) == (potted, at_least, of)
    assert step.batch.potted_on_day == JULY


def test_no_more_are_potted_on_than_there_are() -> None:
    assert after(CUTTINGS, "potted-on 51") == "there are only 50 cuttings"


@pytest.mark.parametrize(
    ("batch", "said", "here", "left"),
    [
        # Bare, or all of them: all go, which the place where they stand tells.
        (CUTTINGS, "died", True, Step(CUTTINGS)),
        (CUTTINGS, "died 50", True, Step(CUTTINGS)),
        (CUTTINGS, "died 49", True, Step(Batch(1, "cuttings"), 49)),
        (CUTTINGS, "died 1", True, Step(Batch(49, "cuttings"), 1)),
        (CUTTINGS, "died 51", True, "there are only 50 cuttings"),
        (CUTTINGS, "died 3 of 50", True, Step(Batch(47, "cuttings"), 3)),
        (CUTTINGS, "died 3 of 40", True, "there were 50 cuttings"),
        (CUTTINGS, "died 3", False, "none of them is here"),
        (CUTTINGS, "died", False, Step(CUTTINGS)),
        (CUTTINGS, "sold 5 of them to marrow, stays", True,
         "some of them would be another's, and stay"),
        (CUTTINGS, "died 1 tray", True, "there are 50 cuttings, no trays"),
        (NOBODY_COUNTED, "died 3", True, "nobody has said how many there are"),
        (TRAYS, "died 1 tray", True, Step(Batch(1, "trays"), 1)),
        (TRAYS_OF_SEED, "died 1 tray", True, Step(Batch(1, "trays of seed"), 1)),
        (TRAYS, "died 2", True, "there are 2 trays, and nobody knows how many trees they hold"),
        (TRAYS, "died 1 row", True,
         "there are 2 trays, and nobody knows how many trees they hold"),
        (None, "died 3", True, ONE_TREE),
        (None, "died", True, Step(None)),
        # Said of a mother, too, it changes nothing of her.
        (None, "rooted 2 layers", True, Step(None)),
    ],
)  # fmt: skip
def test_how_many_go(batch, said, here, left) -> None:
    assert after(batch, said, here=here) == left


@pytest.mark.parametrize(
    ("batch", "said", "left"),
    [
        (CUTTINGS, "parted-off as hina", Step(Batch(49, "cuttings"), 1)),
        (CUTTINGS, "parted-off 49, as hina", Step(Batch(1, "cuttings"), 49)),
        (CUTTINGS, "parted-off 50, as hina", "that would leave none under the old handle"),
        (CUTTINGS, "parted-off 51, as hina", "there are only 50 cuttings"),
        (CUTTINGS, "parted-off", "the new tree has no handle"),
        (TRAYS, "parted-off 5, as hina", Step(TRAYS, 5)),
        (NOBODY_COUNTED, "parted-off 5, as hina", Step(NOBODY_COUNTED, 5)),
        (None, "parted-off as hina", ONE_TREE),
    ],
)
def test_how_many_are_parted_off(batch, said, left) -> None:
    assert after(batch, said) == left


@pytest.mark.parametrize(
    ("batch", "said", "parted"),
    [
        (CUTTINGS, "parted-off 5, as reds", Batch(5, "cuttings")),
        (CUTTINGS, "parted-off 2, as reds", Batch(2, "cuttings")),
        (CUTTINGS, "parted-off as hina", None),
        (CUTTINGS, "parted-off 1, as hina", None),
        (TRAYS, "parted-off 5, as reds", Batch(5)),
        (None, "parted-off 5, as reds", Batch(5)),
    ],
)
def test_what_is_parted_off_is_one_tree_or_so_many(batch, said, parted) -> None:
    event = line(said)
    assert batch_parted(batch, event) == parted
    assert how_many_parted(event) == (parted.count if parted else 1)


@pytest.mark.parametrize("said", ["watered", "pruned", "measured height 12 cm"])
def test_other_lines_count_nothing(said) -> None:
    assert after(CUTTINGS, said) == Step(CUTTINGS)
    assert after(None, said) == Step(None)
