"""Where a tree grows all year it is trimmed and repotted by the last time, and by no stage.

Singapore's monthly means, 1991 to 2020, from memory. That shoots are trimmed every four to eight
weeks there is common practice, no source. Days are counted by hand.
"""

from __future__ import annotations

import pytest

SINGAPORE = """
place yard
  latitude   1.35 N
  longitude  103.8 E
  low  24.3 24.6 24.9 25.3 25.7 25.7 25.4 25.3 25.2 25 24.6 24.3 C
  high 30.6 31.5 32.2 32.4 32.3 31.9 31.4 31.4 31.6 31.9 31.2 30.5 C
"""
NICE = """
place yard
  latitude   43.7 N
  longitude  7.2 E
  low  6 6 8 10 14 18 20 20 17 14 9 6 C
  high 13 13 15 17 20 24 27 28 25 21 17 14 C
"""
HOME = 'home = "yard"\n'


def tree(*lines: str, strength: str = "strong", kind: str = "premna") -> str:
    pages = "".join(f"\n{day}\nhoshi\n  {act}\n" for day, act in (x.split(" ", 1) for x in lines))
    return f"tree hoshi\n  kind {kind}\n  place yard\n  strength {strength}\n{pages}"


def test_shoots_are_trimmed_again_four_to_eight_weeks_after_the_last_time(
    written, find, days
) -> None:
    """28, 42 and 56 days after 10 February."""
    session = written(SINGAPORE + tree("2026-02-10 trimmed"), "2026-03-10", settings=HOME)
    again = find(session, "trim-again/")
    assert days(again) == ["2026-03-10", "2026-03-24", "2026-04-07"]
    assert again.title == "trim what has run since" and not again.weight.must


def test_a_trim_or_a_pruning_settles_it_and_sets_the_next(written, states) -> None:
    first, next_ = "hoshi/trim-again/trimmed-2026-02-10", "hoshi/trim-again/trimmed-2026-03-20"
    text = SINGAPORE + tree("2026-02-10 trimmed", "2026-03-20 trimmed")
    session = written(text, "2026-03-21", settings=HOME)
    assert states(session, "trim-again/") == {first: "done", next_: "coming"}
    text = SINGAPORE + tree("2026-02-10 trimmed", "2026-03-20 pruned")
    assert states(written(text, "2026-03-21", settings=HOME), "trim-again/") == {first: "done"}


@pytest.mark.parametrize(
    ("yard", "more", "lines"),
    [
        # Where there is a winter the species' own weeks ask for it.
        (NICE, {}, ["2026-06-10 trimmed"]),
        (SINGAPORE, {"strength": "weak"}, ["2026-02-10 trimmed"]),
        # Its own second trim opens on 6 July or so: within the eight weeks from 20 May on.
        (SINGAPORE, {}, ["2026-05-20 trimmed"]),
        # A pine is not trimmed of its own accord.
        (SINGAPORE, {"kind": "Japanese black pine"}, ["2026-02-10 trimmed"]),
    ],
)
def test_nobody_is_asked_again(written, states, yard, more, lines) -> None:
    session = written(yard + tree(*lines, **more), "2026-06-20", settings=HOME)
    assert states(session, "trim-again/") == {}


@pytest.mark.parametrize(
    ("last", "window"),
    [
        # Premna wants it every two years: on 20 October 2026; four weeks before, twelve after.
        ("2024-10-20", ["2026-09-22", "2026-10-20", "2027-01-12"]),
        # Two years of 365.25 days end on the last day of 2025, whose work it is.
        ("2024-01-01", ["2025-12-03", "2025-12-31", "2026-03-25"]),
    ],
)
def test_it_is_repotted_round_the_day_of_the_last_time(written, find, days, last, window) -> None:
    text = SINGAPORE + tree(f"{last} repotted same pot")
    year = window[1][:4]
    session = written(text, "2026-01-20", settings=HOME)
    found = find(session, f"premna-repot/{year}")
    assert days(found) == window
    said = "It grows all year here, and no stage of growth decides the day."
    assert said in " ".join(reason.text for reason in found.because)
    assert not any(reason.expected for reason in found.because)


def test_what_is_long_due_is_asked_for_once_a_year(written, find, days) -> None:
    """Two years from 10 March 2022 were over two years ago: in the first weeks of each year."""
    text = SINGAPORE + tree("2022-03-10 repotted same pot")
    opens, _, closes = days(find(written(text, "2026-01-20", settings=HOME), "premna-repot/2026"))
    assert "2026-01-15" < opens < closes < "2026-04-15"
