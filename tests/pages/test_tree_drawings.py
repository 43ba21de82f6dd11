"""The plan of the root ball and the drawing of the zones: well-formed, true, and in words too."""

from __future__ import annotations

import re
from datetime import date
from math import hypot
from xml.etree import ElementTree

import pytest

from backbud.pages.drawings.root_ball import age_of, root_ball, sectors
from backbud.pages.drawings.vigour import uneven, vigour
from backbud.views.outline import OutlineView

TODAY = date(2026, 11, 25)
OPENED = {
    "N": date(2026, 3, 10),
    "E": date(2024, 3, 10),
    "SW": date(2020, 3, 10),
    "underside": date(2024, 3, 10),
}


def parsed(svg: str) -> ElementTree.Element:
    # The page declares the namespace; the parser must be told.
    return ElementTree.fromstring(
        svg.replace("<svg ", '<svg xmlns="http://www.w3.org/2000/svg" ', 1)
    )


def texts(svg: str) -> list[tuple[str, float, float]]:
    return [
        (node.text or "", float(node.get("x", "0").rstrip("%")), float(node.get("y", 0)))
        for node in parsed(svg).iter("{http://www.w3.org/2000/svg}text")
    ]


# ------------------------------------------------------------------ the root ball


def test_the_front_is_at_the_bottom_and_the_right_on_the_right() -> None:
    drawn = root_ball("roots", OPENED, (), 8, TODAY)
    where = {name: (x, y) for name, x, y in texts(drawn.svg)}
    assert where["N"][1] < where["E"][1] < where["S"][1]
    assert where["W"][0] < where["S"][0] < where["E"][0]
    assert where["front"][1] > where["S"][1]


def test_each_wedge_says_when_it_was_opened_and_how_long_ago_is_its_shade() -> None:
    drawn = root_ball("roots", OPENED, ("S", "NW"), 8, TODAY)
    shades = [
        node.get("class")
        for node in parsed(drawn.svg).iter("{http://www.w3.org/2000/svg}path")
        if (node.get("class") or "").startswith("wedge")
    ]
    # Clockwise from the back: N, NE, E, SE, S, SW, W, NW.
    assert shades == [
        "wedge recent",
        "wedge never",
        "wedge earlier",
        "wedge never",
        "wedge never coming",
        "wedge long",
        "wedge never",
        "wedge never coming",
    ]
    said = [text for text, _, _ in texts(drawn.svg)]
    assert "2026" in said and "never" in said
    # What comes next is outlined twice, by a broad line with one of paper on it.
    assert drawn.svg.count('class="next"') == drawn.svg.count('class="next between"') == 2


def test_the_table_says_the_same_the_longest_closed_first() -> None:
    drawn = root_ball("roots", OPENED, ("S",), 8, TODAY)
    assert drawn.table.heads == ("Wedge", "Last opened", "Ago", "Next")
    assert drawn.table.rows[0] == ("NE", "never", "", "")
    assert ("S, front", "never", "", "next") in drawn.table.rows
    assert drawn.table.rows[-4:] == (
        ("SW", "10 March 2020", "6 years", ""),
        ("E, right", "10 March 2024", "2 years", ""),
        ("underside", "10 March 2024", "2 years", ""),
        ("N, back", "10 March 2026", "9 months", ""),
    )
    # The drawing has a name; what it shows, the table beside it tells.
    title = parsed(drawn.svg).find("{http://www.w3.org/2000/svg}title")
    assert title is not None and (title.text or "").startswith("The root ball from above")


@pytest.mark.parametrize(
    ("opened", "count", "names"),
    [
        ((), None, ("N", "NE", "E", "SE", "S", "SW", "W", "NW")),
        (("N",), 4, ("N", "E", "S", "W")),
        (("12", "3"), None, ("12", "1", "2", "3", "4", "5", "6", "7", "8", "9", "10", "11")),
        ((), 6, ("12", "2", "4", "6", "8", "10")),
        ((), 5, ("12", "2:24", "4:48", "7:12", "9:36")),
        (("2", "6", "10"), 6, ("12", "2", "4", "6", "8", "10")),
        (("3",), 4, ("12", "3", "6", "9")),
    ],
)
def test_wedges_go_by_the_compass_or_by_the_clock(opened, count, names) -> None:
    assert sectors(opened, count).names == names


def said_of(
    opened: dict[str, str], count: int | None, coming: tuple[str, ...] = ()
) -> dict[str, str]:
    """When each part of the ball was last opened, by the table beside the drawing."""
    days = {name: date.fromisoformat(day) for name, day in opened.items()}
    rows = root_ball("roots", days, coming, count, TODAY).table.rows
    return {name: day for name, day, *_ in rows if day != "never"}


def test_what_was_opened_by_the_compass_stays_when_the_clock_is_written_later() -> None:
    """E is 3 by the clock and S is 6: both stand 90 and 180 degrees on from the back."""
    by_compass = dict.fromkeys(("N", "E", "S"), "2018-03-10")
    by_clock = dict.fromkeys(("1", "2", "7"), "2020-03-10")
    assert said_of(by_compass | by_clock, None) == {
        "12": "10 March 2018",
        "3": "10 March 2018",
        "6": "10 March 2018",
        "1": "10 March 2020",
        "2": "10 March 2020",
        "7": "10 March 2020",
    }


@pytest.mark.parametrize(
    ("count", "said"),
    [
        # NE, at 45 degrees, lies just between N and E of four, so both were opened in part.
        (4, {"N, back": "10 March 2020", "E, right": "10 March 2020"}),
        # Of five the wedge at 72 degrees (2:24) goes from 36 to 108.
        (5, {"12": "10 March 2018", "2:24": "10 March 2020"}),
        # Of sixteen every second one lies at a point of the compass.
        (16, {"12": "10 March 2018", "1:30": "10 March 2020"}),
    ],
)
def test_an_opening_is_shown_in_the_wedge_it_lies_in(count, said) -> None:
    assert said_of({"N": "2018-03-10", "NE": "2020-03-10"}, count) == said


def test_a_wedge_whose_turn_is_next_is_found_by_where_it_lies() -> None:
    drawn = root_ball("roots", {"12": TODAY}, ("E",), 6, TODAY)
    # Of six E lies between 2 and 4.
    assert {row[0] for row in drawn.table.rows if row[3] == "next"} == {"2", "4"}


def rims(svg: str) -> list[tuple[float, float, str]]:
    """Where the way along the outline of each wedge begins, and that way."""
    found = []
    for node in parsed(svg).iter("{http://www.w3.org/2000/svg}path"):
        if (node.get("class") or "").startswith("wedge"):
            _, rim = (node.get("d") or "").split("L", 1)
            x, y = map(float, re.split("[LA]", rim)[0].split())
            found.append((x, y, rim))
    return found


@pytest.mark.parametrize("count", [3, 4, 5, 6, 8, 12, 16])
def test_any_number_of_wedges_fills_the_round(count) -> None:
    """The corners on the rim lie 122 from the middle, and each wedge begins where one ends."""
    wedges = rims(root_ball("roots", {}, (), count, TODAY).svg)
    assert len(wedges) == count
    for n, (x, y, _) in enumerate(wedges):
        assert hypot(x, y) == pytest.approx(122, abs=0.1)
        _, _, before = wedges[n - 1]
        end = re.search(r"A122 122\.0 0 0 1 (\S+) (\S+?)L", before)
        assert end and (float(end[1]), float(end[2])) == (x, y)


def test_the_outline_is_the_pots_own() -> None:
    """38 x 27 cm at 122 pixels for half the length: half the width is 86.7, and the wedges meet the
    straight sides. The line between two of eight wedges leaves the middle at 22.5 degrees and
    meets the back at 86.7 x tan 22.5 = 35.9."""
    drawn = root_ball("roots", {}, (), 8, TODAY, OutlineView("rectangle", 38, 27))
    north, north_east = rims(drawn.svg)[:2]
    assert (north[0], north[1]) == (-35.9, -86.7)
    assert (north_east[0], north_east[1]) == (35.9, -86.7)
    # The wedge at the right of the back goes round the corner of the pot.
    assert "L122.0 -86.7L" in north_east[2]
    assert 'class="pot" d="M130.0 -94.7L130.0 94.7L-130.0 94.7L-130.0 -94.7Z"' in drawn.svg
    assert "in its rectangle pot" in drawn.svg
    oval = root_ball("roots", {}, (), 4, TODAY, OutlineView("oval", 40, 20)).svg
    assert '<ellipse class="pot" rx="130" ry="69.0"/>' in oval and "A122 61.0 0 0 1" in oval
    six = root_ball("roots", {}, (), 6, TODAY, OutlineView("hexagon", 24, 20.785)).svg
    # Its corners lie at the right and the left, its flat sides at the back and the front.
    assert "L130.0 0.0L" in six


def test_the_shades_change_after_one_and_three_years() -> None:
    assert age_of(None, TODAY) == "never"
    assert age_of(date(2025, 11, 26), TODAY) == "recent"
    assert age_of(date(2025, 11, 20), TODAY) == "earlier"
    assert age_of(date(2023, 11, 20), TODAY) == "long"


# ------------------------------------------------------------------ the zones

LOOKS = {
    date(2024, 5, 25): {"apex": 5, "low": 3},
    date(2026, 5, 16): {"low": 2, "apex": 5, "left 2": 4},
}


def test_zones_stand_as_on_the_tree_and_uneven_ones_are_marked() -> None:
    drawn = vigour("zones", LOOKS)
    rows = [(text, y) for text, x, y in texts(drawn.svg) if x == 0]
    assert [text for text, _ in sorted(rows, key=lambda row: row[1])] == ["apex", "left 2", "low"]
    leaves = [
        node.get("class") for node in parsed(drawn.svg).iter("{http://www.w3.org/2000/svg}use")
    ]
    assert leaves.count("leaf strongest") == 1
    assert leaves.count("leaf weakest") == 1
    assert leaves.count("leaf") == 3
    assert [key.words for key in drawn.keys] == ["grows strongest", "falls behind"]
    assert drawn.table.rows == (("apex", "5", "5"), ("left 2", "–", "4"), ("low", "3", "2"))


def test_even_zones_are_not_marked() -> None:
    assert uneven({"apex": 4, "low": 3}) == (frozenset(), frozenset())
    assert uneven({"apex": 5, "low": 3, "left": 3}) == ({"apex"}, {"low", "left"})
    assert vigour("zones", {TODAY: {"apex": 4, "low": 3}}).keys == ()


def test_what_is_written_in_the_diary_is_escaped() -> None:
    drawn = vigour("zones", {TODAY: {"<b>left</b> & right": 4, "low": 1}})
    assert "<b>" not in drawn.svg
    assert any(text == "<b>left</b> & right" for text, _, _ in texts(drawn.svg))


def test_looks_stand_on_true_days() -> None:
    """From the first look at 4 % to the last at 92 %: one a quarter of the time on is at 26 %."""
    looks = {
        date(2023, 1, 1): {"apex": 3},
        date(2024, 1, 1): {"apex": 4},
        date(2026, 12, 31): {"apex": 5},
    }
    svg = vigour("zones", looks).svg
    at = re.findall(r'<use class="leaf" href="#zones-(\d)" x="(\S+)%"', svg)
    # 365 of 1460 days.
    assert at == [("3", "4.0"), ("4", "26.0"), ("5", "92.0")]
    years = re.findall(r'class="when" x="(\S+)%" y="14">(\d+)<', svg)
    assert years == [("26.0", "2024"), ("48.1", "2025"), ("70.1", "2026")]
