"""What stands beside a work and is about something else, and what could be how much was done.

The lines are ours, in the manner of a bench; what each does was worked out by hand, and no source
says how they are to be read. What means otherwise elsewhere stands beside what is read.
"""

from __future__ import annotations

from collections.abc import Callable

import pytest
from tests.scribbles.done import done

from backbud.session import Session

Written = Callable[..., Session]
TREE = "tree hoshi\n  kind trident maple\nplace tunnel\n  cover  open\n2026-06-01\nhoshi\n  "

# Nothing of these asks.
UNDERSTOOD = [
    # How a thing looks, with a limit of its own.
    # The weather, the hour, the tools, how it went, who said what.
    "pinched, no rain for 3 weeks",
    "watered, again 4pm",
    "plucked old needles, tweezers",
    "trimmed, slow job",
    "pruned hard, should have waited",
    "fed 0-10-10, Gwen says leaves look yellow",
    "wired 2 mm Al on left 1, pics front and back",
    # Figures of something else.
    "fed 0-10-10, lamp on 14 h",
    "pruned hard, wound 2,2 cm hollow",
    # That nothing is wrong, and how it was found.
    "pruned hard, no paste needed",
    "fed 0-10-10, bone dry under the moss",
    # What was left as it was.
    "pinched, inner ones let go",
    "trimmed, low left skipped",
    "wired 2 mm Al on left 1, the others too thin yet",
]
# These are asked: it may be how much, a limit of the work, or a plan.
ASKED = [
    # A limit or a figure is asked about wherever it stands: it may be one of the work.
    "pruned hard, buds behind not moving yet",
    "fed 0-10-10, roots hardly dry",
    "watered, leaves limp but soil still wet",
    "cleaned, 8 marks on bark",
    # What takes it back, puts it on another day or tells of an end.
    "pruned, she said leave left 1",
    "fleece off, frost tonight so on again",
    "moved tunnel, out again in the sun",
    "unwired, left low branches still soft",
    "moved tunnel, it was too heavy",
    "repotted same pot, next dry day",
    "repotted same pot, yesterday in the rain",
    "watered, sorry not yet",
    "treated soap 20 mL/L, in 8 days",
    "pinched, top later",
    "trimmed, but top still long",
    "fed 0-10-10, Hob thinks",
    "repotted same pot, tree dead",
    "watered, cuttings all dead",
    "pruned, Dell came for it",
    "protected fleece, wind blew it off",
    "new shoots nipped, deer",
    # How much it was, of what, or for how much.
    "fed, 3 scoops bonemeal",
    "treated sulphur, 2 teaspoonfuls heaped",
    "repotted same pot, ball 3 cm smaller",
    "pruned, 3 forks shortened",
    "decandled, 38 whorls done",
    "pruned, took 3 h altogether",
    "repotted same pot, told him tray-7",
    "pruned, dieback left 2",
    "repotted same pot, tied 2 cmm",
    "pruned hard, leaves big only",
    "pruned hard, 3 cm",
    "pruned hard, 5 at the top",
    "wired 2 mm Al on left 1, 3 clamps on trunk",
    "treated soap, 2 L used here",
    "watered, 12 of them dry",
    "pinched, Gwen says not the top",
    "fed 0-10-10, not touched",
    "moved tunnel, full sun in 2 weeks",
    "repotted, 2 cm fresh on top",
    "unwired, soil not dry",
]


@pytest.mark.parametrize("line", UNDERSTOOD)
def test_what_is_about_something_else_asks_nothing(written: Written, line: str) -> None:
    session = written(TREE + line + "\n")
    [entry] = session.histories.trees["hoshi"].entries
    # Each word stands in the history, among those kept or as the remark.
    behind = line.partition(", ")[2]
    assert behind in (*entry.event.kept, entry.event.remark)
    assert entry.event.act == line.split()[0].rstrip(",")


@pytest.mark.parametrize("line", ASKED)
def test_what_may_bear_on_it_is_asked(written: Written, line: str) -> None:
    session = written(TREE + line + "\n", any_problems=True)
    assert [one for one in session.problems() if one.line == 7], line


DONE: dict[str, list[str]] = {
    # What was cut off, how many, and where.
    "5 old low twigs cut": ["pruned 5 cut on low"],
    "3 snags on left 2 sawn off flush": ["pruned 3 cut on left 2"],
    "long shoots back to 2 buds": ["pruned long shoots, to 2 buds"],
    "gone round with scissors": ["trimmed"],
    "haws all off": ["thinned fruit, all off"],
    "last year's leaves pulled": ["cleaned dead leaves"],
    "snow knocked off": ["cleaned snow off"],
    "3 yr needles pulled, 2h": ["plucked old needles", "worked 2 h"],
    "5 galls off first, then copper 2 g/L": ["treated 5 galls, copper 2 g/L"],
    "mealy bug in forks, 6. alcohol w stick": ["treated with alcohol -- 6"],
    # It may have fallen, or be only seen, or other hands.
    "new shoots all off, deer": [],
    "twigs broken, snow": [],
    "two limbs off, storm": [],
    "long ends cut off, wire": [],
    "3 yr needles off, on their own": [],
    "wire off, 1 h, on again": ["worked 1 h, on again"],
    "fleece off, 1 h, back on": ["worked 1 h"],
    "back of bench, scale again": [],
    "dead branch off": [],
    "haws off": [],
    "old needles": [],
    "twigs on roof cut": [],
    "long whips cut back by the storm": [],
    "all candles broken off by hail": [],
    "2 grubs not found. soap": [],
    "unwired the worst": [],
    "went home, rain": [],
    # What together is a repotting.
    "40% off, one thick root back R sawn, pine mix, own pot, tied x3": [
        "repotted 40 % off, thick roots off, mix pine, same pot, tied 3"
    ],
    "potted back same pot, moss on top": ["repotted same pot, moss on top"],
    "own pot, tied x3": [],
    # Where it went; where seed was sown the mother does not stand.
    "repotted oval, tied, shade house": ["repotted into oval, tied", "moved shade-house"],
    "sown 40, tunnel": ["sown 40, tunnel"],
    # It is told of what went home.
    "home to Mrs Lowe, paid 310, told her twice": ["returned to lowe", "paid 310"],
    # A ring and where, a graft and where, needles that stay, a girth against last year's.
    "layer ringed, 1 in wide just over graft": ["layered ring, 1 inch"],
    "tsugiki, 6 scions low L, bagged": ["grafted 6 scions, on low left, bagged"],
    "momiage, 5 pr left ea, 1.5 h": ["plucked old needles, leaving 5 pairs", "worked 1.5 h"],
    "31 cm round at soil, 27 this time last yr": ["measured girth 31 cm -- 27 this time last yr"],
    "harigane, cu 10 - 18": ["wired gauge 10-18 Cu"],
    "fleece off, 2 soft lvs blacked, no harm": [
        'unprotected observed "2 soft leaves blacked"',
    ],
    "wire off left 1 + apex, biting": ["unwired on left 1, on apex"],
    "thumb + soap, again sat": ["treated by hand, soap", "planned treat, to 2026-06-06"],
    "clipped, Gwen all morning": ["trimmed by gwen"],
    "red spider, neem 5 ml/L after 3 d again": [
        "treated against red spider, neem 5 mL/L",
        "planned treat, in 3 days",
    ],
    "0-10-10 half str instead": ["fed 0-10-10 half strength"],
    "no uekae this yr. Mrs Lowe wants it full": ["skipped repot -- Mrs Lowe wants it full"],
    "wire ok, look again 6 wk": ["checked wire fine, again in 6 weeks"],
    "harigane whole tree, al 2. crown by Gwen": ["wired whole tree, 2 mm Al, on crown, by Gwen"],
    # Who fetched it, and which way, nobody said; what was not wired is asked.
    "fetched": [],
    "wired 2 mm Al on left 1, apex not": [],
    "fleece off, not the pot": [],
    # A work that was left out, and why.
    "candles not touched this yr, weak": ["skipped decandle, weak"],
    "not cutting candles": [],
}


@pytest.mark.parametrize("line", DONE)
def test_so_much_is_done(line: str) -> None:
    assert done(tuple(DONE))[line] == DONE[line]
