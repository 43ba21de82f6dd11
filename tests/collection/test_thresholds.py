"""Each threshold of what a tree was that decides what a keeper is told, on both sides of it."""

from __future__ import annotations

import pytest

from backbud.collection.replay import _Before, _Moment

CARDS = """
    tree hoshi
      kind  trident maple
"""


def diary(*pages: tuple[str, str], cards: str = CARDS) -> str:
    return cards + "".join(f"\n    {day}\n    hoshi\n      {act}\n" for day, act in pages)


# ------------------------------------------------------------------ fold.py


@pytest.mark.parametrize(
    ("zones", "strength"),
    [
        # (2 + 2 + 3) / 3 is under 2.5, (2 + 3) / 2 is 2.5; (3 + 4 + 4) / 3 is under 4.
        ("apex 2, middle 2, low 3", "weak"),
        ("apex 2, low 3", "fair"),
        ("apex 3, middle 4, low 4", "fair"),
        ("apex 4, low 4", "strong"),
    ],
)
def test_the_mean_of_the_zones_is_the_trees_strength(written, tree, zones, strength) -> None:
    assert tree(written(diary(("2026-05-01", f"vigour {zones}"))), "hoshi").strength == strength


@pytest.mark.parametrize(
    ("day", "strength"),
    [
        # 365 days after 1 May 2025 is 1 May 2026: (1 + 4) / 2 is fair; the 4 alone is strong.
        ("2026-05-01", "fair"),
        ("2026-05-02", "strong"),
    ],
)
def test_a_zones_vigour_speaks_for_the_tree_for_a_year(written, tree, day, strength) -> None:
    text = diary(("2025-05-01", "vigour low 1"), (day, "vigour apex 4"))
    assert tree(written(text), "hoshi").strength == strength


# ------------------------------------------------------------------ corrections.py


@pytest.mark.parametrize(
    ("correction", "on"),
    [
        # It was on left 3 and not on left 2: the only wire is another one.
        ("3 mm Al on left 3", ["wire: 3 mm Al on left 3"]),
        # The wire of that part only, since the line has it.
        ("2 mm Al on left 2", ["wire: 2 mm Al on left 2"]),
        # Without a part it is a correction of all of it.
        ("2 mm Al", ["wire: 2 mm Al"]),
    ],
)
def test_a_correction_of_a_part_that_the_line_has_not_replaces_all(
    written, tree, shown, correction, on
) -> None:
    text = diary(
        ("2026-05-01", "wired 3 mm Al on left 2"),
        ("2026-05-03", f"corrected wired 2026-05-01, {correction}"),
    )
    assert shown(tree(written(text), "hoshi")) == on


def test_a_correction_of_a_part_that_the_line_has_leaves_the_others(written, tree, shown) -> None:
    text = diary(
        ("2026-05-01", "wired 3 mm Al on left 2, 2 mm Al on apex"),
        ("2026-05-03", "corrected wired 2026-05-01, 2.5 mm Al on apex"),
    )
    assert sorted(shown(tree(written(text), "hoshi"))) == [
        "wire: 2.5 mm Al on apex",
        "wire: 3 mm Al on left 2",
    ]


@pytest.mark.parametrize(
    ("subjects", "corrected"),
    [
        ("pair", True),
        ("pair except yuki", True),
        # Who is left out did nothing that could be corrected.
        ("pair except hoshi", False),
    ],
)
def test_a_correction_finds_the_line_of_a_group_but_of_none_that_it_leaves_out(
    written, tree, subjects, corrected
) -> None:
    cards = (
        CARDS
        + "    tree yuki\n      kind  trident maple\n    group pair\n      trees hoshi, yuki\n"
    )
    text = f"\n    2026-05-01\n    {subjects}\n      repotted 2 cm off below\n" + diary(
        ("2026-05-03", "corrected repotted 2026-05-01, 3 cm off below"), cards=""
    )
    problems = () if corrected else ("nothing-to-correct",)
    found = tree(written(cards + text, problems=problems), "hoshi").last.get("repotted")
    assert (found.text.strip() if found else None) == ("3 cm off below" if corrected else None)


# ------------------------------------------------------------------ subjects.py


@pytest.mark.parametrize(
    ("subjects", "code", "column"),
    [
        ("all in cellar", "unknown-handle", 8),
        ("all of kumo", "unknown-handle", 8),
        ("all in yard", "nobody-meant", 8),
        ("all rhododendron", "unknown-kind", 5),
        ("hoshi except kumo", "unknown-handle", 14),
    ],
)
def test_who_cannot_be_meant_is_told_on_the_line_that_says_so(
    written, subjects, code, column
) -> None:
    """The card is lines 2 and 3, the place 4 and 5, the day 6, so the subjects are line 7."""
    day = f"    2026-05-01\n    {subjects}\n      watered\n"
    session = written(f"{CARDS}    place yard\n      latitude 52\n{day}", problems=(code,))
    (found,) = [one for one in session.problems() if one.code == code]
    assert (found.line, found.column) == (7, column)


# ------------------------------------------------------------------ taken_down.py


def test_what_was_parted_off_a_batch_has_the_same_past_in_two_readings_and_another_has_not(
    written,
) -> None:
    text = """
        tree batch
          kind  trident maple

        2026-03-01
        batch
          sown 20 seeds
        2026-04-01
        batch
          {}
        2026-05-01
        batch
          parted-off as hoshi
        2026-05-02
        hoshi
          pruned
    """
    one, same, other = (
        written(text.format(act), any_problems=True).histories.trees["hoshi"].lines
        for act in ("watered", "watered", "fed")
    )
    assert [line.event.act for line in one.entries] == ["sown", "watered", "parted-off", "pruned"]
    assert one == same
    assert one != other


# ------------------------------------------------------------------ replay.py


def test_a_reading_goes_on_only_where_every_page_so_far_is_the_same(written) -> None:
    """All but the first of three pages stand as they were: nothing of the old reading counts."""
    text = diary(("2026-05-01", "watered"), ("2026-05-02", "fed"), ("2026-05-03", "pruned"))
    journal = written(text).journal
    pages = journal.pages
    before = _Before()
    before.moment = _Moment(pages[:2], [], {}, journal.things, (), {}, {}, {}, {}, frozenset(), ())
    assert before.moment_for(pages, journal.things) is before.moment
    assert before.moment_for(pages[:2], journal.things) is before.moment
    assert before.moment_for(pages[:1], journal.things) is None
    assert before.moment_for((pages[2], *pages[1:]), journal.things) is None
    assert before.moment_for((pages[0], pages[2], pages[1]), journal.things) is None


# ------------------------------------------------------------------ on_tree.py


@pytest.mark.parametrize(
    ("rewired", "on"),
    [
        ("3 mm Al, old wire off", ["wire: 3 mm Al"]),
        ("3 mm Al on left 2, old wire off", ["wire: 2 mm Al on apex", "wire: 3 mm Al on left 2"]),
        # Of some branches, or beside words that nobody read, nobody knows which came off.
        (
            "3 mm Al x 2, fine branches, old wire off",
            ["wire: 2 mm Al on apex", "wire: 2 mm Al on left 2", "wire: 3 mm Al x 2"],
        ),
        (
            "3 mm Al, old wire off, gently",
            ["wire: 2 mm Al on apex", "wire: 2 mm Al on left 2", "wire: 3 mm Al"],
        ),
    ],
)
def test_old_wire_comes_off_where_it_is_known_which(written, tree, shown, rewired, on) -> None:
    text = diary(
        ("2026-05-01", "wired 2 mm Al on left 2, 2 mm Al on apex"),
        ("2026-08-01", f"wired {rewired}"),
    )
    assert sorted(shown(tree(written(text), "hoshi"))) == on
