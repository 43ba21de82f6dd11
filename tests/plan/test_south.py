"""In the south a growing year runs from July to June and crosses New Year."""

from __future__ import annotations

import pytest

CARDS = """
    place yard
      cover     open
      latitude  -41
    place glass
      cover     unheated glass
    tree hoshi
      kind      garden shrub
      place     yard
"""


def test_a_yearly_rule_has_its_growing_year_for_its_cause(
    written, states, find, days, pattern
) -> None:
    session = written(
        CARDS
        + """
    2026-08-01
    hoshi
      watered
    """,
        "2026-11-20",
        settings='home = "yard"\n',
    )
    feeds = states(session, "hoshi/feed", pattern)
    assert feeds == {
        "hoshi/feed-spring/2026-27": "overdue",
        "hoshi/feed-autumn/2026-27": "coming",
        "hoshi/feed-spring/2027-28": "coming",
    }
    # Northern 1 to 30 April is October; northern autumn of the same growing year is March.
    assert days(find(session, "feed-spring/2026-27", pattern)) == [
        "2026-10-01",
        "2026-10-10",
        "2026-10-30",
    ]
    assert days(find(session, "feed-autumn/2026-27", pattern)) == [
        "2027-03-15",
        "2027-04-01",
        "2027-04-15",
    ]
    assert find(session, "feed-spring/2026-27", pattern).because[0].text == (
        "Spring 2026/27 at yard."
    )


def test_new_year_changes_no_id(written, wanted, pattern) -> None:
    text = (
        CARDS
        + """
    2026-08-01
    hoshi
      watered
    """
    )
    before = wanted(written(text, "2026-12-31", settings='home = "yard"\n'), "", pattern)
    after = wanted(written(text, "2027-01-01", settings='home = "yard"\n'), "", pattern)
    assert before == after != set()


@pytest.mark.parametrize(
    ("day", "act", "rule", "window"),
    [
        # 20 May is the north's 20 November: wire waits for growth, from 1 October.
        ("2026-05-20", "wired 3 mm Al", "wire-check", ["2026-10-29", "2026-11-12", "2026-11-26"]),
        ("2026-11-01", "wired 3 mm Al", "wire-check", ["2026-11-29", "2026-12-13", "2026-12-27"]),
        ("2026-05-14", "moved glass", "winter-quarters-out",
         ["2026-09-10", "2026-10-05", "2026-11-10"]),
        ("2026-05-14", "protected fleece", "protection-off",
         ["2026-09-10", "2026-10-05", "2026-11-10"]),
        ("2026-08-14", "protected fleece", "protection-off",
         ["2026-09-10", "2026-10-05", "2026-11-10"]),
        ("2025-12-11", "shaded 40 %", "shade-off", ["2026-03-01", "2026-03-15", "2026-04-15"]),
        ("2026-05-01", "vigour apex 1", "strength-check",
         ["2026-10-15", "2026-11-01", "2026-11-30"]),
    ],
)  # fmt: skip
def test_the_seasons_are_turned(written, find, days, day, act, rule, window) -> None:
    session = written(
        CARDS + f"\n    {day}\n    hoshi\n      {act}\n", "2026-11-20", settings='home = "yard"\n'
    )
    assert days(find(session, f"/{rule}/")) == window


@pytest.mark.parametrize(
    ("to", "asked_as"),
    [
        # The growing year of the feed of October 2026 ends on 30 June 2027, and crosses New Year.
        ("2027-02", "hoshi/feed-spring/2026-27"),
        ("2027-06-30", "hoshi/feed-spring/2026-27"),
        ("2027-07-01", "hoshi/feed-spring/2027-28"),
        ("2027-10", "hoshi/feed-spring/2027-28"),
    ],
)
def test_what_is_put_off_over_new_year_is_still_of_its_growing_year(
    written, find, days, pattern, to, asked_as
) -> None:
    pages = f"""
    2026-08-01
    hoshi
      watered
    2026-10-05
    hoshi
      put-off feed, to {to}
    """
    session = written(CARDS + pages, "2026-11-20", settings='home = "yard"\n')
    asked = find(session, asked_as, pattern)
    assert (asked.outcome, days(asked)[0][:7]) == ("open", to[:7])
    # What it was before is replaced where it has the id of another year.
    first = find(session, "hoshi/feed-spring/2026-27", pattern)
    assert first.outcome == ("open" if first.id == asked_as else "replaced")
    assert first.group == "feed-spring/2026-27"
    assert asked.group == asked_as.removeprefix("hoshi/")
