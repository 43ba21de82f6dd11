"""Lines as people wrote them who had not read the manual: what is done of each, to the word."""

from __future__ import annotations

import pytest
from tests.scribbles.done import done

# Each line on a tree of its own, of Mrs Lowe, that is wired on left 1 and on its apex, tied in and
# fleeced; behind it all that is done.
DONE = {
    # What came off, beside how it was found or what stays.
    "top wire off, cutting in. bottom two stay on till Aug": [],
    "wire off apex, cutting in. bottom two stay on till Aug": ["unwired on apex"],
    "wire off apex only, it's set. branches keep theirs": ["unwired on apex"],
    "wire off, branches keep theirs": [],
    "wire off left 1, scarred a bit": ["unwired on left 1"],
    "ties cut, roots holding": ["untied"],
    "ties cut, roots not holding": [],
    "fleece off, no frost fcst": ["unprotected"],
    "fleece off, no frost cloth needed": [],
    "raffia off the big bend, held": ["unwrapped on big bend"],
    "raffia off the bench": [],
    # Where it went.
    "out of shade house onto tunnel, full sun now": ["moved tunnel"],
    "out of box into ground, field row, for thickening": ["planted-out field-row"],
    "into ground next year": [],
    "back to Mrs Lowe": ["returned to lowe"],
    "back to Mrs Lowe tomorrow": [],
    "back to Gwen": [],
    # Leaves, shoots, candles.
    "leaves off, outer only": ["defoliated outer leaves"],
    "leaves off, insides left": ["defoliated outer leaves"],
    "lvs off 2/3, left petioles": ["defoliated 2/3, leaving petioles"],
    "tip prune, left 2 lvs ea": ["trimmed to 2 leaves"],
    "tip prune later": [],
    "tendrils cut to 2 lvs": ["pruned long shoots, to 2 leaves"],
    "candles cut, 45": ["decandled 45 candles"],
    # The wind may have done it: it is asked.
    "fruits off": [],
    "fruits off the bench": [],
    # Roots, cuttings, grafts.
    "cuttings x40": ["struck 40 cuttings"],
    "3 cuttings set, just stuck in pumice": ["struck 3 cuttings"],
    "3 cuttings set aside": [],
    "approach graft set L side, tied w tape": ["grafted approach on left, taped"],
    # What was sprayed, fed, billed, turned.
    "sulphur, 2nd of 3": ["treated sulphur, second time"],
    "jin liquid 2x": ["treated-deadwood lime sulphur, two coats"],
    "jin liquid": [],
    "liquid feed 7-7-7 1 ml/L half dose": ["fed 7-7-7, 1 mL/L, half strength"],
    "bill 212.50 sent": ["billed 212.50"],
    "turned 180": ["turned 180 degrees"],
    "turned 90 cuttings": ["turned 90 cuttings"],
    "bent trunk w/ jack, 1/2 in": ["bent on trunk, with jack, 1/2 inch"],
    # Later.
    "repot NOT this yr, planned 3-2029": ["put-off repot, to 2029-03"],
    "looked at wire, apex tight": ["checked wire, tight on apex"],
    "no fert from now til 9/1": ["put-off feed, to 2026-09-01"],
    "repot next Apr not now, buds moving": ["planned repot, to 2027-04 -- buds moving"],
    # What was said of money.
    "Mrs Lowe approves 450 for restyle": ["agreed 450 for restyle"],
    "Gwen approves": [],
    "Mrs Lowe approves the quote for the other": [],
    "gone home with Mrs Lowe": ["returned to lowe"],
    "gone home with Mrs Lowe's other tree": [],
    "roots cut back 1/3 last year, same pot": [],
    "jin liquid on the shopping list": [],
    "fruits off next week": [],
    # What came off and came on again.
    "wire off left 1, new on": [],
    "fleece off then on again": [],
    # Words right behind a word of many meanings may be what it is said of.
    "layered look": [],
    "struck by lightning": [],
    "sown thoughts": [],
    "opened flowers": [],
    "opened up the centre": [],
    "lifted pot to turn": [],
    "isolated shower": [],
    "counted rings, 30": [],
    "rooted through pot into bench": [],
    # Other hands than the keeper's.
    "pruned by deer last night": [],
    "repot done by last owner": [],
    "defoliated itself after move": [],
    "treated itself to new leaves": [],
    "watered by hand": ["watered by hand"],
    # It broke, or nobody did it yet.
    "guy on right 1 broke": [],
    "wire left on L1": [],
    "guy left on": [],
    "tied left hand": [],
    "repot!": [],
    "cakes gone mouldy": [],
    "pellets blocked the drain": [],
    "okigoe on": ["fed"],
    # What is left is not off, and `left` no side.
    "candles pinched, 1/3 left, top only": ["pinched candles, 2/3 on top"],
    "thinned, half left": ["thinned 1/2"],
    "pruned 30 % on left": ["pruned 30 % on left"],
    "fleece round pot, -8": ["protected fleece -- -8"],
    "covered with mulch": ["protected with mulch"],
    "mekiri 2 of 2, weak": ["decandled second round, weak"],
    "checked wire ok, look again 6 wk": ["checked wire fine, again in 6 weeks"],
    "okigoe on, 6": ["fed 6"],
    "turned a corner": [],
    "sealed pot in bag": [],
    "bent out of shape": [],
    "paid 60, owes 60": ["paid 60"],
    # Where a comma parts what only together tells of a work.
    "root ball reduced by 1/3, same pot": ["repotted off 1/3, same pot"],
    "roots cut back 1/3, same pot": ["repotted off 1/3, same pot"],
    "same pot, 1/3 off below, moss on top": ["repotted same pot, 1/3 off below, moss on top"],
    "same pot, too big, 1/3 off wall": [],
    "same pot, no": [],
    "wire 1st left off": ["unwired on left 1"],
    "wire left 1 off tomorrow": [],
    "fl buds pulled": ["disbudded"],
    "second shoots pinched, 1 pair left, 45 min": ["pinched leaving 1 pairs", "worked 45 min"],
    "needles plucked, 8 pr top 12 low": ["plucked leaving 8 pairs on top, leaving 12 pairs on low"],
    "cutting 12 pcs under bag": ["struck 12 cuttings, under glass"],
    "inarch": [],
    "inarch seedling L": [],
    "stolen. police rept 4417": [],
    "rained off": [],
    # The weather in figures is why: it is the remark, as a keeper writes it.
    "into tunnel, -4 tonight": ["moved tunnel -- -4 tonight"],
    "into tunnel, 15": ["moved tunnel"],
    "into tunnel, 2 nights": ["moved tunnel"],
    "fleece on, -7": ["protected fleece -- -7"],
    "watered 2x, 104F": ["watered twice -- 104F"],
    "soaked overnight in a bucket": ["soaked overnight"],
    # What stays on, where a part was named.
    "wire off apex, rest on til spr": ["unwired on apex"],
    "wire off, rest on til spr": [],
    "momiage, 5 prs top, 8 mid, 12 low": [
        "plucked old needles, leaving 5 pairs on top, leaving 8 pairs on mid, "
        "leaving 12 pairs on low"
    ],
    "defol top half, stalks left on": ["defoliated on top half, leaving petioles"],
    "defoliated top half, not lower half": [],
    "lime S 1:1, shari only": ["treated-deadwood lime sulphur, 1:1, on shari"],
    "candles broken half, tops only": ["pinched candles, 1/2 on top"],
    "Mrs Lowe paid 450 check": ["paid 450, by cheque"],
    "Mrs Lowe paid 330 balance bank": ["paid 330, balance, by bank transfer"],
    "Mrs Lowe took it today": ["returned to lowe"],
    "Gwen took it": [],
}


@pytest.mark.parametrize("line", DONE)
def test_this_is_done_and_no_more(line: str) -> None:
    assert done(tuple(DONE))[line] == DONE[line]
