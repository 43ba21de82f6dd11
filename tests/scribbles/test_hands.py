"""Lines as three invented keepers scribble them: how each is read, and that none is misread."""

from __future__ import annotations

import pytest
from tests.scribbles.score import HANDS, KEEP, OTHERS, OWN, ROOF, UNTOLD, YEARS, Verdict, verdicts

# Of the lines for which `noted` would not do. Raised with the tables, never lowered.
LEAST_RIGHT, LEAST_READ, LEAST_TOLD = 0.42, 0.86, 0.96


def _acts() -> list[Verdict]:
    return [one for hand in HANDS for one in verdicts(hand) if "noted" not in one.line.acts]


@pytest.mark.parametrize("hand", [*HANDS, *OWN, *YEARS, *OTHERS, *UNTOLD, *ROOF, *KEEP])
def test_nothing_is_misread(hand: str) -> None:
    assert [one for one in verdicts(hand) if one.how == "misread"] == []


@pytest.mark.parametrize("hand", [*HANDS, *OWN, *YEARS, *OTHERS, *UNTOLD, *ROOF, *KEEP])
def test_no_line_is_lost(hand: str) -> None:
    """Each line is an event of its tree, and what was not used stands among its words."""
    assert [one.line.text for one in verdicts(hand) if not one.acts] == []


def test_so_many_are_read() -> None:
    acts = _acts()
    shares = [
        sum(one.how in hows for one in acts) / len(acts)
        for hows in (("right",), ("right", "part"), ("right", "part", "hinted"))
    ]
    assert len(acts) == 91
    assert shares[0] >= LEAST_RIGHT
    assert shares[1] >= LEAST_READ
    assert shares[2] >= LEAST_TOLD


# Of lines of our own in the three hands, written before anybody saw how they read. Of the first 98
# that are no mere notes 12 % were right then, and the tables were widened by them; of the last 57
# then 56 % were right, 82 % right or in part, and two misread, which were mended.
LEAST_RIGHT_OWN, LEAST_READ_OWN = 0.59, 0.83


def test_so_many_of_our_own_are_read() -> None:
    acts = [one for hand in OWN for one in verdicts(hand) if "noted" not in one.line.acts]
    right = sum(one.how == "right" for one in acts) / len(acts)
    read = sum(one.how in ("right", "part") for one in acts) / len(acts)
    assert len(acts) == 155
    assert right >= LEAST_RIGHT_OWN
    assert read >= LEAST_READ_OWN


# Of a year of 360 lines (259 that are no mere notes) 10 % were right at the first touch, 48 % right
# or in part, 70 % told; of 120 more (100), written after the tables were widened by those, 33 %,
# 66 % and 89 %. Four and none misread; the four were mended.
LEAST_OF_YEARS = {"year": (0.27, 0.58, 0.90), "again": (0.48, 0.73, 0.89)}


@pytest.mark.parametrize("when", LEAST_OF_YEARS)
def test_so_many_of_a_year_are_read(when: str) -> None:
    acts = [
        one
        for hand in YEARS
        if hand.startswith(when)
        for one in verdicts(hand)
        if "noted" not in one.line.acts
    ]
    shares = tuple(
        sum(one.how in hows for one in acts) / len(acts)
        for hows in (("right",), ("right", "part"), ("right", "part", "hinted"))
    )
    assert all(is_so >= least for is_so, least in zip(shares, LEAST_OF_YEARS[when], strict=True))


# Of three other hands: 180 lines (162 that are no mere notes), at the first touch 22 % right, 52 %
# right or in part, 84 % told, none misread; the tables were widened by them. Of 120 more (109),
# written at the same time and first read after that: 38 %, 70 %, 87 %, and two misread (a potting
# on for a repotting, a sealed cut for the cut), which were mended; widened by those, too.
LEAST_OF_OTHERS = {"fresh": (0.56, 0.85, 0.93), "later": (0.50, 0.78, 0.90)}


@pytest.mark.parametrize("when", LEAST_OF_OTHERS)
def test_so_many_of_other_hands_are_read(when: str) -> None:
    acts = [
        one
        for hand in OTHERS
        if hand.startswith(when)
        for one in verdicts(hand)
        if "noted" not in one.line.acts
    ]
    shares = tuple(
        sum(one.how in hows for one in acts) / len(acts)
        for hows in (("right",), ("right", "part"), ("right", "part", "hinted"))
    )
    assert len(acts) == {"fresh": 162, "later": 109}[when]
    assert all(is_so >= least for is_so, least in zip(shares, LEAST_OF_OTHERS[when], strict=True))


# Three sets of 66, 60 and 60 lines (52, 51 and 44 that are no mere notes) by writers who had not
# read the manual, each read first before the tables were widened by it: right 13, 14 and 0 %, right
# or in part 50, 63 and 39 %, told 85, 78 and 73 %, none misread.
LEAST_OF_UNTOLD = (0.40, 0.70, 0.96)


def test_so_many_of_those_are_read_who_had_no_manual() -> None:
    acts = [one for hand in UNTOLD for one in verdicts(hand) if "noted" not in one.line.acts]
    shares = tuple(
        sum(one.how in hows for one in acts) / len(acts)
        for hows in (("right",), ("right", "part"), ("right", "part", "hinted"))
    )
    assert len(acts) == 147
    assert all(is_so >= least for is_so, least in zip(shares, LEAST_OF_UNTOLD, strict=True))


# Of 180 lines (154 that are no mere notes) in four lots, each read first before the tables were
# widened by it: right 12, 18, 24 and 37 %, right or in part 41, 54, 54 and 59 %, told 76, 82, 86
# and 85 %, and one misread (`not watered 5 d` as a plan), which was mended. `net off` and who
# agrees to a price are asked since: three lines that were right or in part are not.
LEAST_ON_THE_ROOF = (0.38, 0.62, 0.89)


def test_so_many_of_the_roof_are_read() -> None:
    acts = [one for hand in ROOF for one in verdicts(hand) if "noted" not in one.line.acts]
    shares = tuple(
        sum(one.how in hows for one in acts) / len(acts)
        for hows in (("right",), ("right", "part"), ("right", "part", "hinted"))
    )
    assert len(acts) == 154
    assert all(is_so >= least for is_so, least in zip(shares, LEAST_ON_THE_ROOF, strict=True))


# Of 320 lines (257 that are no mere notes) of what the same hand says of wire, ties, covers, feed,
# water, pests and looks, in four lots, each read first before the tables were widened by it: right
# 8, 24, 37 and 29 %, right or in part 58, 71, 71 and 68 %, told 85, 89, 94 and 87 %. A spray behind
# tips that were cut out, and a feeding that was skipped and why, were misread, and mended.
LEAST_OF_KEEP = (0.48, 0.77, 0.93)


def test_so_many_of_what_keeps_a_tree_are_read() -> None:
    acts = [one for hand in KEEP for one in verdicts(hand) if "noted" not in one.line.acts]
    shares = tuple(
        sum(one.how in hows for one in acts) / len(acts)
        for hows in (("right",), ("right", "part"), ("right", "part", "hinted"))
    )
    assert len(acts) == 257
    assert all(is_so >= least for is_so, least in zip(shares, LEAST_OF_KEEP, strict=True))


# What stands in a line, and all that is read of it.
READ = {
    "pinched top only, to first pr": ("pinched",),
    "ditto soap. fewer": ("treated",),
    "dead-headed, ovaries too. Gwen 5h": ("deadheaded", "worked"),
    "mildew. sulphur 2 g/l, worst lvs binned": ("treated",),
    "adelgid, white fluff in needle bases. toothbrush & soap": ("treated",),
    "into tunnel. fleece to hand": ("moved",),
    "shari brushed, ls neat 2 coats, soil covered": ("cleaned", "treated-deadwood"),
    "frosted bits rubbed off, buds behind sound": ("rubbed",),
    "wire, 1 mm al, 5 shoots, apex + R2": ("wired",),
    "soap #2, clean now": ("treated",),
    "metsumi even all over abt 1/2 in left": ("pinched",),
    "spent fl off, ovaries too, every one, Wren 2.5h": ("deadheaded", "worked"),
    "momiage, all last yrs off, this yrs down to 7 pr top 10 pr low, 5h": ("plucked", "worked"),
    "metsumi 2nd time this wk, what was open only": ("pinched",),
    "2nd spray done, few left underneath": ("treated",),
    "flowers all out incl. pods, 2 shoots left per place, 1,5 h": (
        "deadheaded",
        "thinned",
        "worked",
    ),
    "not done needles, too weak this yr": ("skipped",),
}


@pytest.mark.parametrize("text", READ)
def test_a_line_is_read_whole(text: str) -> None:
    found = next(one for hand in HANDS for one in verdicts(hand) if one.line.text == text)
    assert (found.how, found.acts) == ("right", READ[text])
