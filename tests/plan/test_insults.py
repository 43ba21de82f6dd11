"""One insult a season, and none to a weak tree: cautions at the work itself."""

from __future__ import annotations

import pytest

CARDS = """
    place yard
      latitude  56
    tree hoshi
      kind      garden shrub
      strength  fair
"""
WEAK = "The tree is weak: leave this until it grows again."


def cautions(
    written, find, *pages: tuple[str, str], on: str = "2026-11-20", card: str = CARDS
) -> tuple[str, ...]:
    text = card + "".join(f"\n    {day}\n    hoshi\n      {act}\n" for day, act in pages)
    return find(written(text, on), "hoshi/planned/").cautions


@pytest.mark.parametrize(
    ("done", "planned", "said"),
    [
        ("repotted same pot", "defoliate", "it was repotted on 6 March 2026"),
        ("root-pruned off 30 %", "decandle", "it was root-pruned on 6 March 2026"),
        ("pruned hard on left 1", "repot", "it was pruned on 6 March 2026"),
        ("pruned to old wood", "repot", "it was pruned on 6 March 2026"),
        ("bent heavy on left 1", "repot", "it was bent on 6 March 2026"),
        ("repotted same pot", "prune, hard", "it was repotted on 6 March 2026"),
        # These take little.
        ("pruned light on left 1", "repot", ""),
        ("bent light on left 1", "repot", ""),
        ("repotted same pot, no root work", "defoliate", ""),
        ("defoliated large leaves", "repot", ""),
        ("repotted same pot", "prune, light", ""),
        ("repotted same pot", "feed", ""),
    ],
)
def test_a_second_insult_in_a_season(written, find, done, planned, said) -> None:
    found = cautions(
        written, find, ("2026-03-06", done), ("2026-04-01", f"planned {planned}, to 2026-06")
    )
    assert found == ((f"One insult a season: {said}.",) if said else ())


def test_a_season_later_it_has_recovered(written, find) -> None:
    # 150 days from 6 March is 3 August.
    for month, warned in (("2026-08-01", 1), ("2026-08-03", 0)):
        found = cautions(
            written,
            find,
            ("2026-03-06", "repotted same pot"),
            ("2026-04-01", f"planned defoliate, to {month}"),
        )
        assert len(found) == warned


def test_an_insult_inside_the_window_counts(written, find) -> None:
    found = cautions(
        written,
        find,
        ("2026-04-01", "planned repot, to 2026-04/2026-05"),
        ("2026-04-15", "pruned hard"),
        on="2026-04-16",
    )
    assert found == ("One insult a season: it was pruned on 15 April 2026.",)


def test_two_that_are_due_in_one_season_are_told_at_the_later(written, find) -> None:
    session = written(
        CARDS
        + """
    2026-11-01
    hoshi
      planned  repot, to 2027-03
      planned  defoliate, to 2027-06
    """
    )
    assert find(session, "planned/defoliated").cautions == (
        "One insult a season: it is due to repot as well.",
    )
    assert find(session, "planned/repotted").cautions == ()


def test_a_weak_tree_is_left_alone(written, find) -> None:
    weak = CARDS.replace("fair", "weak")
    planned = ("2026-11-01", "planned repot, to 2027-03")
    assert cautions(written, find, planned, card=weak) == (WEAK,)
    assert cautions(written, find, planned) == ()
    assert cautions(written, find, ("2026-10-01", "vigour apex 2, low 2"), planned) == (WEAK,)
    assert cautions(written, find, ("2026-10-01", "vigour apex 4, low 4"), planned, card=weak) == ()


def test_what_is_done_with_has_no_cautions_left(written, find) -> None:
    found = cautions(
        written,
        find,
        ("2026-03-06", "pruned hard"),
        ("2026-03-07", "planned repot, to 2026-04"),
        ("2026-04-10", "repotted same pot"),
    )
    assert found == ()


@pytest.mark.parametrize(("act", "words"), [
    ("treat-deadwood", "Lime sulphur burns eyes and skin"), ("carve", "eye and hand protection"),
    ("treat", "label and local law decide"), ("seal", "keep to the label"),
])  # fmt: skip
def test_work_that_can_hurt_carries_a_caution(written, find, act, words) -> None:
    (caution,) = cautions(written, find, ("2026-11-01", f"planned {act}, to 2027-06"))
    assert words in caution


def test_a_tree_found_sick_in_the_season_is_held_back_at_once(written, find) -> None:
    """Its repotting was due when the buds swelled; mould on its roots was seen a week later."""
    diary = """
    tree hoshi
      kind  trident maple
    2024-03-10
    hoshi
      repotted  same pot, 2 cm off below
    """
    sick = """
    2026-03-14
    hoshi
      checked  roots rotten
    """
    sound = written(diary, "2026-03-20")
    assert find(sound, "hoshi/trident-repot/2026").act == "repotted"
    session = written(diary + sick, "2026-03-20")
    held = find(session, "hoshi/trident-repot/2026")
    assert held.act == "checked"
    assert held.title.startswith("check strength, and hold the hard work back")


def test_what_was_done_in_its_season_stays_done(written, find) -> None:
    session = written(
        """
    tree hoshi
      kind  trident maple
    2024-03-10
    hoshi
      repotted  same pot, 2 cm off below
    2026-03-14
    hoshi
      repotted  same pot, 2 cm off below
    """,
        "2026-03-20",
    )
    done = find(session, "hoshi/trident-repot/2026")
    assert (done.act, done.outcome) == ("repotted", "done")


@pytest.mark.parametrize(
    ("planned", "warned"),
    [
        ("planned wire, to 2026-12", True),
        ("planned trim, to 2026-12", True),
        # It costs a weak tree nothing to be fed or freed.
        ("planned feed, to 2026-12", False),
        ("planned unwire, to 2026-12", False),
    ],
)
def test_a_promise_of_light_work_says_that_its_tree_is_weak(written, find, planned, warned) -> None:
    card = CARDS.replace("fair", "weak")
    found = cautions(written, find, ("2026-10-01", planned), card=card)
    assert (WEAK in found) is warned
    # A strong one is not warned of.
    assert WEAK not in cautions(written, find, ("2026-10-01", planned))
