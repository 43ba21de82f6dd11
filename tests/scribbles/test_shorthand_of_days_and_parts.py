"""Lines of who thinks in another language and writes days short: what is done of each."""

from __future__ import annotations

from datetime import date

import pytest
from tests.scribbles.done import done

# Each line on a page of 1 June 2026, on the tree of `done`.
DONE = {
    # Wire that bit and came off there, which a comma parts; what stays, and when it is looked at.
    "wire bites in 1st left, off at once": ["unwired on left 1"],
    "wire bites in 1st left, off at once, rest 1 wk more": [
        "unwired on left 1",
        "planned unwire, in 1 week",
    ],
    "wire eating in at 1st left, away; others look 1-8": [
        "unwired on left 1",
        "planned check, to 2026-08-01",
    ],
    "wire bites in left 1, not off yet": [],
    "wire bites in left 1, off tomorrow": [],
    "wire bites in left 1, off, new wire on": [],
    "wire bites, off": [],
    "air layer 2nd branch, sphagnum, foil, check 6 wk": [
        "layered on second branch, sphagnum, in plastic",
        "planned check, in 6 weeks",
    ],
    "pruned hard, no check": [],
    # Another day's work is not this page's.
    "repotted 14-3 oval, 1/3 off": [],
    "mekiri 24-6 weak first, 38 candles": [],
    "layered 8-6 back right, ring 2 cm": [],
    "wire off L1 14/3": [],
    "leaves off half, 25-6": [],
    # What is left, off, put on.
    "repot, 1/3 roots off under, oval, pine 4,2 L, 4 ties Cu 1,5": [
        "repotted off below 1/3, into oval, mix pine 4,2 L, tied 1,5 mm Cu x 4"
    ],
    "rubbed to 2": ["rubbed to 2"],
    "candles half broken, strong 2/3": ["pinched candles, 1/2, strong 2/3"],
    "candles to 1/3 w fingers": ["pinched candles, 2/3"],
    "needles of last yr pulled, 6 pr stay": ["plucked last year's needles, leaving 6 pairs"],
    "big lvs cut half, outside": ["defoliated half of each leaf, large leaves, outer"],
    "back to 2 lvs, 1 h": ["trimmed to 2 leaves", "worked 1 h"],
    "back to 2 pots": [],
    "whips to 4 lvs 2nd time": ["pruned long shoots, to 4 leaves, second round"],
    "alu 1 on 8 small ones": ["wired 1 mm Aluminium, 8 branches"],
    "alu 1 on order": [],
    "Cu 2 on the list": [],
    "2 left branches down w guy 1 mm Cu": ["guyed 1 mm Cu on 2 left branches, down"],
    "graft 2 whips from own top, parafilm, bag over": [
        "grafted 2 scions, own shoot, taped, bagged"
    ],
    "roots in layer seen, white, wait 2 wk": [
        "checked layer, roots showing, white roots, again in 2 weeks"
    ],
    "roots in layer not seen": [],
    "3 branches guyed down w 1 mm alu": ["guyed 1 mm aluminium on 3 branches, down"],
    "tips pinched w fingers 70 %": ["pinched 70 %"],
    "half defol, big ones": ["defoliated half, large leaves"],
    "2nd clip, 20 min": ["trimmed second round", "worked 20 min"],
    "2nd clip needed": [],
    "wires away all, scars at apex": ["unwired all"],
    "wires away all, scars at apex not healed": [],
    "repot next yr march": ["planned repot, to 2027-03"],
    "repot in march next yr": ["planned repot, to 2027-03"],
    "first feed, half dose 1 ml/L": ["fed 1 mL/L, half strength"],
    "brought back to Mrs Lowe": ["returned to lowe"],
    "brought back to Mrs Lowe's bench": [],
    "guyed 1st left down to pot, cu 1,5": ["guyed 1,5 mm Cu on left 1, down, to pot"],
    "guyed 1st left down to pot rim off": [],
    "wire 3 and 2,5 alu on trunk + 2nd right": [
        "wired 2,5-3 mm Al on trunk, 2,5-3 mm Al on right 2"
    ],
    "in tunnel since today, buds pink": ["moved tunnel"],
    "in tunnel since march": [],
    "apples thinned, 2 per cluster stay": ["thinned fruit, leaving 2"],
    "needle pull, only old, 8 pr at top, 12 below": [
        "plucked old needles, leaving 8 pairs on top, leaving 12 pairs on low"
    ],
    "deep soak 20 min in tub": ["soaked 20 min"],
    "soft soap 10 ml/L sprayed twice": ["treated soft soap 10 mL/L, times 2"],
    # How long it was not done is no plan; how long it is not to be done, is one.
    "not watered 5 d, dry leaf": [],
    "not fed 3 weeks, weak": [],
    "no feed 2 wk": ["put-off feed, in 2 weeks"],
    "moth net over": ["protected net, against moths"],
    "moth over net": [],
    "fleece on pot": ["protected fleece"],
    "fleece on pot of moll": [],
    "layer set on 2nd branch, foil": ["layered on second branch, in plastic"],
    "Mrs Lowe says yes to 150": ["agreed with lowe, 150"],
    "31 of 40 up": ["germinated 31, of 40"],
    "dH 0,5, pH 6,0": ["measured hardness 0,5 dH, pH 6,0"],
    "in oval, 1/3 off below, guy from jin to pot foot": [
        "repotted into oval, 1/3 off below",
        "guyed to pot foot, on jin",
    ],
    # It stays a problem of the repotting, and no guy is on.
    "in oval, 1/3 off below, guy from jin to pot foot off": [
        "repotted into oval, 1/3 off below, guy from jin to pot foot off"
    ],
    # A stage that only part of the line tells of is noted with the rest of its words.
    "fl. over, deadhead, 1 h": ["worked 1 h"],
    # What is sprayed; so thin it is no wash for deadwood.
    "scale, alcohol + brush": ["treated against scale, with alcohol, by hand"],
    "alcohol + brush needed": [],
    "soap agst spider mite 10 ml/L, again 8 d": [
        "treated soap against spider mite 10 mL/L",
        "planned treat, in 8 days",
    ],
    "caterpillars 4 by hand": ["treated caterpillars 4 by hand"],
    "caterpillars 4 by the hand rail": [],
    "lime sulphur 1:30 on bare wood": ["treated lime sulphur, 1:30, winter wash"],
    "lime sulphur 1:1 on jin": ["treated-deadwood 1:1 on jin"],
    "slug pellets round": ["treated with slug pellets, against slugs"],
    "slug pellets": [],
    "slug pellets out of stock": [],
    # What it stands under.
    "fleece double + stones on it, -9 tonight": ["protected fleece -- -9 tonight"],
    "fleece on nights": ["protected fleece"],
    "fleece on the roof": [],
    # What it measured before is no second measure.
    "trunk 11,4 cm at soil, was 11,0": ["measured trunk 11,4 cm -- was 11,0"],
    # Two words of their own language that any grower there writes.
    "draad eraf, all": ["unwired all"],
    "draad eraf, nog niet": [],
    "verpot, same pot, pine 3 L, 1/3 wortels weg": ["repotted same pot, mix pine 3 L, off 1/3"],
}


@pytest.mark.parametrize("line", DONE)
def test_so_much_is_done(line: str) -> None:
    assert done(tuple(DONE))[line] == DONE[line]


OWN_DAY = {
    "repotted 14-3 oval, 1/3 off": ["repotted into oval, 1/3 off"],
    "wire off L1 14/3": ["unwired on left 1"],
    "layered 14/3 back right, ring 2 cm": ["layered on back right, ring 2 cm"],
    "repotted 15-3 oval, 1/3 off": [],
    "moved tunnel since 14-3": [],
}


@pytest.mark.parametrize("line", OWN_DAY)
def test_the_day_of_the_page_may_stand_in_its_lines(line: str) -> None:
    assert done(tuple(OWN_DAY), date(2026, 3, 14))[line] == OWN_DAY[line]
