"""A batch under one handle: how many there are on each day of a diary, counted by hand."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from functools import cache

import pytest

from backbud.collection.fold import tree_on
from backbud.collection.state import Tree
from backbud.session import Session, open_session

CARDS = """
place yard
  latitude 52
mix fine
  akadama  1
pot cell-1
  inside  9 x 9 x 9 cm
person marrow
tree mother
  kind   trident maple
  place  yard
"""
BATCH = CARDS + "tree little-red\n  kind  trident maple\n  place  yard\n"
YEAR = (
    BATCH
    + """
2026-06-10
mother
  struck      50 cuttings, as little-red

2026-07-20
little-red
  rooted      30
  died        3 -- damping off
  potted-on   20, mix fine 6 L together

2026-08-01
little-red
  lost        3 of them

2026-09-01
little-red
  parted-off  as hina, into cell-1
  sold        5 of them, 40 EUR to marrow

2026-10-01
little-red
  potted-on

2026-11-01
little-red
  counted     36
  died
"""
)

Many = Callable[..., tuple[Session, str]]


@pytest.fixture(scope="module")
def many(tmp_path_factory: pytest.TempPathFactory) -> Many:
    """One journal for many lines: each is written of a batch of its own, behind what comes before
    it. `many(COMING, line, before)` gives the session and the handle of that batch."""

    @cache
    def opened(lines: tuple[str, ...], before: str) -> Session:
        folder = tmp_path_factory.mktemp("batches")
        (folder / "backbud.toml").write_text('language = 1\ncurrency = "EUR"\n')
        text = CARDS + "".join(
            f"tree b{n}\n  kind  trident maple\n  place  yard\n" for n in range(len(lines))
        )
        for n, line in enumerate(lines):
            acts = "".join(f"  {act}\n" for act in line.split(" | "))
            text += f"{before.format(n)}\n2026-07-01\nb{n}\n{acts}"
        (folder / "journal.txt").write_text(text)
        return open_session(str(folder), date(2026, 11, 20))

    def of(lines: tuple[str, ...], line: str, before: str) -> tuple[Session, str]:
        return opened(lines, before), f"b{lines.index(line)}"

    return of


def now(session: Session, handle: str) -> Tree:
    return tree_on(session.histories, session.journal.things, handle, session.today)


def told_of(session: Session, handle: str) -> list[str]:
    """The messages about the line of a batch; what a short journal leaves unsaid is none."""
    [event] = [
        entry.event
        for entry in session.histories.trees[handle].entries
        if entry.event.day == date(2026, 7, 1)
    ][-1:]
    return [p.message for p in session.problems() if p.line == event.line]


CUT = "\n2026-06-10\nb{0}\n  struck  50 cuttings\n"


@pytest.fixture(scope="module")
def year(tmp_path_factory: pytest.TempPathFactory) -> Session:
    folder = tmp_path_factory.mktemp("year")
    (folder / "backbud.toml").write_text('language = 1\ncurrency = "EUR"\n')
    (folder / "journal.txt").write_text(YEAR)
    session = open_session(str(folder), date(2026, 11, 20))
    assert session.problems() == ()
    return session


@pytest.mark.parametrize(
    ("day", "counted", "standing"),
    [
        ("2026-06-09", "", "not yet"),
        ("2026-06-10", "50 cuttings", "here"),
        # Three of fifty died.
        ("2026-07-20", "47 cuttings", "here"),
        ("2026-08-01", "44 cuttings", "here"),
        # One was parted off, five were sold.
        ("2026-09-01", "38 cuttings", "here"),
        ("2026-10-31", "38 cuttings", "here"),
        # All that were left.
        ("2026-11-01", "", "died"),
    ],
)
def test_the_count_on_any_day(year, tree, day, counted, standing) -> None:
    batch = tree(year, "little-red", day)
    assert (batch.counted, batch.standing) == (counted, standing)


def test_how_far_they_got(year, tree) -> None:
    july = tree(year, "little-red", "2026-07-21").batch
    assert (july.rooted, str(july.rooted_on)) == (30, "2026-07-20")
    assert (july.potted_on, july.at_least) == (20, False)
    # Bare, it is all of them.
    assert tree(year, "little-red", "2026-10-02").batch.potted_on == 38


def test_the_mother_keeps_her_own_past(year, written, tree) -> None:
    for day in ("2026-01-01", "2026-12-01"):
        mother = tree(year, "mother", day)
        assert (mother.standing, mother.counted, mother.pot) == ("here", "", "")
    plan = written(YEAR, on="2026-07-01", as_of=True).plan(["mother", "little-red"])
    asked = {
        handle: [one for one in plan.follow_ups[handle] if "cutting-check" in one.id]
        for handle in ("mother", "little-red")
    }
    # Whether they have rooted is asked of the cuttings, once for all of them.
    assert [len(found) for found in asked.values()] == [0, 1]


def test_what_is_parted_off_has_the_history_of_its_batch(year, tree) -> None:
    hina = tree(year, "hina")
    assert (hina.standing, hina.counted, hina.parted_from) == ("here", "", "little-red")
    assert (hina.place, hina.pot, hina.kind) == ("yard", "cell-1", "trident maple")
    told = [(str(one.event.day), one.event.said, one.within) for one in hina.history]
    assert told == [
        ("2026-06-10", "struck", "little-red"),
        ("2026-07-20", "rooted", "little-red"),
        ("2026-07-20", "died", "little-red"),
        ("2026-07-20", "potted-on", "little-red"),
        ("2026-08-01", "lost", "little-red"),
        ("2026-09-01", "parted-off", ""),
    ]
    # Nobody knows whether it was among the twenty, and it did not die with the three.
    assert "potted-on" not in hina.last
    assert tree(year, "hina", "2026-08-31").standing == "not yet"


def test_what_is_parted_off_goes_its_own_way(written, tree) -> None:
    text = YEAR + "\n2026-12-01\nhina\n  wired  1 mm Al on trunk\n"
    session = written(text, on="2026-12-02")
    assert [thing.what for thing in tree(session, "hina").on_tree] == ["1 mm Al"]
    assert tree(session, "little-red").standing == "died"


def test_a_group_that_is_parted_off_is_a_batch(written, tree) -> None:
    text = YEAR.replace("parted-off  as hina, into cell-1", "parted-off  5, as reds")
    text = text.replace("counted     36", "counted     32")
    session = written(text)
    # Of 44 five were parted off and five sold.
    assert tree(session, "reds", "2026-09-02").counted == "5 cuttings"
    assert tree(session, "little-red", "2026-09-02").counted == "34 cuttings"


# ------------------------------------------------------------------ how they come


COMING = {
    "struck     50 cuttings": "50 cuttings",
    "struck     1 cutting": "",
    "struck     hardwood": "",
    "sown       60 seeds": "60 seeds",
    "sown       2 trays": "2 trays",
    "sown       1 tray": "1 tray",
    "sown       2 trays of seed": "2 trays of seed",
    "sown       from the hedge": "",
    "received   10 whips from marrow": "10 whips",
    "bought     10 whips, 30 EUR": "10 whips",
    "bought     30 EUR": "",
    "collected  4 seedlings with permit": "4 seedlings",
}


@pytest.mark.parametrize("line", COMING)
def test_how_many_come(many, line) -> None:
    session, handle = many(tuple(COMING), line, "")
    assert now(session, handle).counted == COMING[line]
    assert told_of(session, handle) == []


def test_a_card_may_count(written, tree) -> None:
    text = BATCH + "  count  12 whips\n\n2026-04-01\nlittle-red\n  died  2\n"
    session = written(text)
    assert tree(session, "little-red", "2026-03-01").counted == "12 whips"
    assert tree(session, "little-red").counted == "10 whips"


@pytest.mark.parametrize("label", ["trunk  3 cm", "front  the scar", "style  upright", "count  1"])
def test_a_card_of_one_tree_tells_what_it_was_raised_from(written, tree, label) -> None:
    text = BATCH + f"  {label}\n\n2008-04-01\nlittle-red\n  sown  60 seeds\n"
    assert tree(written(text), "little-red").counted == ""


def test_more_that_come_are_added(written, tree) -> None:
    text = BATCH + (
        "\n2026-04-01\nlittle-red\n  received  10 whips\n"
        "2026-04-08\nlittle-red\n  received  5 whips\n"
    )
    assert tree(written(text), "little-red").counted == "15 whips"


def test_what_comes_back_is_as_many_as_went(written, tree) -> None:
    text = BATCH + (
        "\n2026-04-01\nlittle-red\n  received  10 whips from marrow\n"
        "2026-05-01\nlittle-red\n  returned  to marrow\n"
        "2026-06-01\nlittle-red\n  received  from marrow\n"
    )
    session = written(text)
    assert tree(session, "little-red", "2026-05-02").counted == ""
    assert tree(session, "little-red").counted == "10 whips"


# ------------------------------------------------------------------ seed


SOWN = BATCH + "\n2026-03-01\nlittle-red\n  sown  60 seeds\n"


UP = {
    "germinated  44": "44 seedlings",
    "germinated  44 of 60": "44 seedlings",
    # A quarter of sixty.
    "germinated  25 %": "15 seedlings",
    "germinated  20 | germinated  12 more": "32 seedlings",
    "germinated  20 | germinated  32 in all": "32 seedlings",
    # Of 20 two died; 12 more came up, in all 32, so 30 are left.
    "germinated  20 | died  2 | germinated  32 in all": "30 seedlings",
    "germinated  20 | died  2 | germinated  12 more": "30 seedlings",
    # A count tells that so many have come up, and no fewer than were told before.
    "germinated  20 | counted  25 | germinated  30 in all": "30 seedlings",
    "germinated  20 | counted  15 | germinated  30 in all": "25 seedlings",
    "germinated": "60 seeds",
    "germinated  44 | died  6 | counted  37": "37 seedlings",
    "germinated  44 | died  43": "",
}


@pytest.mark.parametrize("lines", UP)
def test_seed_comes_up(many, lines) -> None:
    sown = "\n2026-03-01\nb{0}\n  sown  60 seeds\n"
    session, handle = many(tuple(UP), lines, sown)
    found = now(session, handle)
    assert (found.counted, found.standing) == (UP[lines], "here")
    assert told_of(session, handle) == []


def test_trays_hold_nobody_knows_how_many(written, tree) -> None:
    text = BATCH + (
        "\n2026-03-01\nlittle-red\n  sown  2 trays\n2026-05-01\nlittle-red\n"
        "  died  1 tray\n  germinated  44 seedlings\n  died  4\n"
    )
    session = written(text)
    assert tree(session, "little-red", "2026-03-01").counted == "2 trays"
    assert tree(session, "little-red").counted == "40 seedlings"


# ------------------------------------------------------------------ what cannot be


CANNOT_BE = {
    "died        51": "there are only 50 cuttings",
    "lost        51 of them": "there are only 50 cuttings",
    "sold        60 cuttings, 40 EUR": "there are only 50 cuttings",
    # Five of them, or all of them for 5 EUR.
    "sold        5": "“5” may be how many, or the price of all",
    "died        3 of 40": "there were 50 cuttings",
    "died        2-3": "“2-3” is no count",
    "died        1 tray": "there are 50 cuttings, no trays",
    "potted-on   51": "there are only 50 cuttings",
    "rooted      51": "there are only 50 cuttings",
    "rooted      33 %": "33 % of 50 cuttings is no whole number",
    "parted-off  51, as hina": "there are only 50 cuttings",
    "parted-off  50, as hina": "that would leave none under the old handle",
    "parted-off": "the new tree has no handle",
    "counted     4 L": "a batch is counted by the piece",
    "counted     0": "“0” counts nothing",
    "sold        5 of them to marrow, stays": "some of them would be another's, and stay",
}


@pytest.mark.parametrize("line", CANNOT_BE)
def test_a_number_that_cannot_be_holds_its_line_back(many, line) -> None:
    session, handle = many(tuple(CANNOT_BE), line, CUT)
    assert told_of(session, handle) == [
        f"“{handle}”: {CANNOT_BE[line]}, so this line is held back and changes nothing"
    ]
    batch = now(session, handle)
    assert (batch.counted, batch.standing, batch.batch.rooted) == ("50 cuttings", "here", None)
    assert "hina" not in session.histories.trees


HALF_READ = (
    "died  some",
    "died  a few of them",
    "died  all but 3",
    "died  3, not sure",
    "died  back on left 1",
    "lost  leaves",
    "lost  3 leaves",
    "died  -- but 3 are left",
    "sold  half of them",
)


@pytest.mark.parametrize("line", HALF_READ)
def test_all_of_them_go_only_where_every_word_was_read(many, line) -> None:
    session, handle = many(HALF_READ, line, CUT)
    batch = now(session, handle)
    assert (batch.counted, batch.standing) == ("50 cuttings", "here")
    assert len(told_of(session, handle)) == 1


LAST = ("died  all", "died  50", "lost  the lot", "died  50 of 50")


@pytest.mark.parametrize("line", LAST)
def test_the_last_of_them(many, line) -> None:
    session, handle = many(LAST, line, CUT)
    assert now(session, handle).standing == line.split()[0]


ONE = ("died  3", "lost  3 of them", "sold  2 plants, 9 EUR", "parted-off  as hina")


@pytest.mark.parametrize("line", ONE)
def test_one_tree_is_no_batch(many, line) -> None:
    session, handle = many(ONE, line, "")
    assert now(session, handle).standing == "here"
    [told] = told_of(session, handle)
    assert "this handle is of one tree" in told
    hint = "Where it is a batch, say on its card how many there are: count 50 cuttings."
    assert {p.hint for p in session.problems() if p.code == "wrong-count"} == {hint}


def test_bare_second_counts_are_asked_back(written, tree) -> None:
    session = written(
        SOWN + "\n2026-05-01\nlittle-red\n  germinated  20\n  germinated  12\n",
        problems=("wrong-count",),
    )
    assert tree(session, "little-red").counted == "20 seedlings"
    [hint] = [p.hint for p in session.problems() if p.code == "wrong-count"]
    assert hint == "Write germinated 12 more, or germinated 12 in all."


def test_a_handle_that_is_taken_parts_nothing_off(written, tree) -> None:
    text = BATCH + (
        "\n2026-06-10\nmother\n  watered\nlittle-red\n  struck  50 cuttings\n"
        "2026-07-01\nlittle-red\n  parted-off  as mother\n"
    )
    session = written(text, problems=("here-already",))
    assert tree(session, "little-red").counted == "50 cuttings"
    assert tree(session, "mother").parted_from == ""


def test_a_count_is_corrected(written, tree) -> None:
    text = BATCH + (
        "\n2026-06-10\nlittle-red\n  struck  50 cuttings\n2026-07-01\nlittle-red\n  died  3\n"
        "2026-07-02\nlittle-red\n  corrected  died 2026-07-01, 4\n"
    )
    assert tree(written(text), "little-red").counted == "46 cuttings"
    undone = text.replace("died 2026-07-01, 4", "died 2026-07-01, not done")
    assert tree(written(undone), "little-red").counted == "50 cuttings"


# ------------------------------------------------------------------ counted again, by line


TRAY = "\n2026-03-01\nb{0}\n  sown  2 trays\n"
SEEDS = "\n2026-03-01\nb{0}\n  sown  60 seeds\n"
WHIPS = "\n2026-03-01\nb{0}\n  received  10 whips\n"
COUNTED = {
    CUT: {
        "counted  50": ("50 cuttings", ""),
        "counted  51": ("50 cuttings", "51 were counted, but there were only 50 cuttings"),
    },
    # Seed comes up, trays are filled: there may be more of them than before.
    SEEDS: {
        "counted  61": ("61 seeds", ""),
        "germinated  20 | counted  21": ("21 seedlings", ""),
    },
    TRAY: {"counted  3": ("3 trays", ""), "counted  300 seedlings": ("300 seedlings", "")},
    WHIPS: {
        "counted  11": ("10 whips", "11 were counted, but there were only 10 whips"),
    },
}


@pytest.mark.parametrize(
    ("before", "line"), [(before, line) for before, lines in COUNTED.items() for line in lines]
)
def test_more_are_counted_only_where_more_may_have_come_up(many, before, line) -> None:
    session, handle = many(tuple(COUNTED[before]), line, before)
    counted, told = COUNTED[before][line]
    assert now(session, handle).counted == counted
    held = f"“{handle}”: {told}, so this line is held back and changes nothing"
    assert told_of(session, handle) == ([held] if told else [])


@pytest.mark.parametrize(
    ("line", "counted"), [("counted  13", "12 trees"), ("counted  13 seedlings", "13 seedlings")]
)
def test_of_what_a_card_counts_without_a_noun_only_seedlings_come_up(
    written, tree, line, counted
) -> None:
    text = BATCH + f"  count  12\n\n2026-04-01\nlittle-red\n  {line}\n"
    session = written(text, problems=("wrong-count",) if counted == "12 trees" else ())
    assert tree(session, "little-red").counted == counted


JULY = date(2026, 7, 1)
ROOTED = {
    CUT: {
        "rooted": (50, JULY),
        "rooted  30": (30, JULY),
        "rooted  60 %": (30, JULY),
        "rooted  20 | rooted  10 more": (30, JULY),
        "watered": (None, None),
    },
    # Nobody knows how many a tray holds, so what all of it comes to is not told either.
    TRAY: {
        "rooted": (None, JULY),
        "rooted  60 %": (None, None),
        "rooted  30": (30, JULY),
    },
}


@pytest.mark.parametrize(
    ("before", "line"), [(before, line) for before, lines in ROOTED.items() for line in lines]
)
def test_how_many_have_roots(many, before, line) -> None:
    session, handle = many(tuple(ROOTED[before]), line, before)
    batch = now(session, handle).batch
    assert (batch.rooted, batch.rooted_on) == ROOTED[before][line]
    assert told_of(session, handle) == []


POTTED = {
    CUT: {
        "potted-on": (50, False),
        "potted-on  50": (50, False),
        "potted-on  20": (20, False),
        # Told twice, the second may be others than the first.
        "potted-on  20 | potted-on  10": (20, True),
        "potted-on  20 | potted-on  30": (30, True),
        "potted-on  20 | potted-on  50": (50, False),
        "watered": (None, False),
    },
    TRAY: {"potted-on": (None, False), "potted-on  20": (20, False), "potted-on  2": (2, False)},
}


@pytest.mark.parametrize(
    ("before", "line"), [(before, line) for before, lines in POTTED.items() for line in lines]
)
def test_how_many_were_potted_on(many, before, line) -> None:
    session, handle = many(tuple(POTTED[before]), line, before)
    batch = now(session, handle).batch
    assert (batch.potted_on, batch.at_least) == POTTED[before][line]
    assert batch.potted_on_day == (None if line == "watered" else JULY)
    assert told_of(session, handle) == []


def test_of_trays_any_number_is_parted_off(written, tree) -> None:
    text = BATCH + (
        "\n2026-03-01\nlittle-red\n  sown  2 trays\n2026-05-01\nlittle-red\n"
        "  parted-off  5, as hina\n"
    )
    session = written(text)
    assert tree(session, "little-red").counted == "2 trays"
    assert tree(session, "hina").counted == "5 trees"


@pytest.mark.parametrize(
    ("label", "line", "held"),
    [
        # One more of what is one tree is none; five whips are not one tree.
        ("", "received  1 tree", False),
        ("", "received  5 whips", True),
        ("  count  1\n", "received  5 whips", True),
        ("  count  1\n", "received", False),
    ],
)
def test_what_comes_again_under_the_handle_of_one_tree(written, tree, label, line, held) -> None:
    text = BATCH + f"{label}\n2026-03-01\nlittle-red\n  received\n  {line}\n"
    session = written(text, problems=("wrong-count",) if held else ())
    assert tree(session, "little-red").counted == ""
    assert [p.message for p in session.problems() if p.code == "wrong-count"] == (
        ["“little-red”: this handle is of one tree, so this line is held back and changes nothing"]
        if held
        else []
    )


@pytest.mark.parametrize(
    ("label", "line", "counted"),
    [
        # Without a number it is as many as its card says.
        ("  count  60 seeds\n", "sown  from the hedge", "60 seeds"),
        ("  count  60 seeds\n", "sown  40 seeds", "40 seeds"),
        ("  count  10 whips\n", "received  from marrow", "10 whips"),
        ("  count  10 whips\n", "received  8 whips from marrow", "8 whips"),
        ("", "sown  from the hedge", ""),
        ("", "received  from marrow", ""),
    ],
)
def test_how_many_came_says_the_line_and_else_the_card(written, tree, label, line, counted) -> None:
    text = BATCH + f"{label}\n2026-03-01\nlittle-red\n  {line}\n"
    assert tree(written(text), "little-red").counted == counted


@pytest.mark.parametrize(
    ("lines", "said", "here"),
    [
        ("received  1 whip\n  watered", "10 whips", True),
        ("lent  to marrow\n  received\n  counted  1 whip", "1 whip", True),
        # Of ten that went one comes back: where the others are, nobody said.
        ("lent  to marrow\n  received  1 whip", "10 whips", False),
    ],
)
def test_one_that_comes_makes_no_tree_of_a_batch(written, tree, lines, said, here) -> None:
    is_held = "counted" not in lines
    text = BATCH + f"  count  10 whips\n\n2026-03-01\nlittle-red\n  {lines}\n"
    session = written(text, problems=("wrong-count",) if is_held else ())
    one = tree(session, "little-red")
    assert (one.batch.said, one.here) == (said, here)
    assert [(p.message, p.hint) for p in session.problems() if p.code == "wrong-count"] == (
        [
            (
                "“little-red”: its card, or a line before, says 10 whips, and one is one tree, so "
                "this line is held back and changes nothing",
                "Where one came and no more, write count 1 on its card; where one of several came "
                "back, received alone and, below it, counted 1.",
            )
        ]
        if is_held
        else []
    )


ADDED = {
    "  count  10 whips\n": {
        "received  5 whips": ("15 whips", ""),
        # They are counted together, under the name that they had.
        "received  5 plants": ("15 whips", ""),
        "received  1 tray": ("10 whips", "there are 10 whips, and 1 tray cannot be added to them"),
    },
    "  count  2 trays\n": {
        "received  1 tray": ("3 trays", ""),
        "received  3 rows": ("2 trays", "there are 2 trays, and 3 rows cannot be added to them"),
        "received  5 plants": (
            "2 trays",
            "there are 2 trays, and 5 plants cannot be added to them",
        ),
        "received": ("2 trays", ""),
    },
}


@pytest.mark.parametrize(
    ("label", "line"), [(label, line) for label, lines in ADDED.items() for line in lines]
)
def test_what_comes_is_added_only_to_its_like(written, tree, label, line) -> None:
    counted, told = ADDED[label][line]
    text = BATCH + f"{label}\n2026-04-01\nlittle-red\n  received\n  {line}\n"
    session = written(text, problems=("wrong-count",) if told else ())
    assert tree(session, "little-red").counted == counted
    assert [p.message for p in session.problems() if p.code == "wrong-count"] == (
        [f"“little-red”: {told}, so this line is held back and changes nothing"] if told else []
    )


def test_nothing_is_added_to_what_nobody_has_counted(written, tree) -> None:
    text = BATCH + (
        "\n2026-03-01\nlittle-red\n  sown  from the hedge\n"
        "2026-05-01\nlittle-red\n  received  5 seedlings\n"
    )
    session = written(text, problems=("wrong-count",))
    assert tree(session, "little-red").counted == ""
    [message] = [p.message for p in session.problems() if p.code == "wrong-count"]
    assert message.startswith("“little-red”: nobody has said how many there are, ")


def test_a_first_count_makes_a_batch(written, tree) -> None:
    text = BATCH + "\n2026-05-01\nlittle-red\n  counted  38 seedlings\n"
    assert tree(written(text), "little-red").counted == "38 seedlings"


@pytest.mark.parametrize(
    ("batch_since", "own_since", "since"),
    [
        # Its own card's, else its batch's, else the day on which it was parted off.
        ("2020-04-01", "2026-04-20", date(2026, 4, 20)),
        ("2020-04-01", "", date(2020, 4, 1)),
        ("", "", date(2026, 5, 1)),
    ],
)
def test_since_when_there_is_what_is_parted_off(
    written, tree, batch_since, own_since, since
) -> None:
    text = BATCH + "  count  12 plants\n"
    text += f"  since  {batch_since}\n" if batch_since else ""
    if own_since:
        text += f"tree hina\n  kind   trident maple\n  since  {own_since}\n"
    text += "\n2026-05-01\nlittle-red\n  parted-off  as hina\n"
    assert tree(written(text, any_problems=True), "hina").since == since
