"""What was seen beside a work is a detail of it, and a work may be told by what it was done to.

Each line stands on a tree of its own (`done.py`); what is done of it was looked at line by line.
What could mean otherwise is asked: a count that the work may have been of, a price's rest, money,
wire, a day, a reason.
"""

from __future__ import annotations

import pytest
from tests.scribbles.done import done

from backbud_grammar.sightings import is_sighting, is_weather

DONE: dict[str, list[str]] = {
    "fleece off, 2 soft lvs blacked": ['unprotected observed "2 soft leaves blacked"'],
    "wire off left 1, 2 bites on the bark": ['unwired on left 1, observed "2 bites on the bark"'],
    "wire off left 1, roots 8 cm": ['unwired on left 1, observed "roots 8 cm"'],
    "repotted same pot, roots 8 cm": ["repotted same pot, roots 8 cm"],
    "moved tunnel, 4 C coming": ['moved tunnel, observed "4 C coming"'],
    "moved tunnel, wind 40 mph": ['moved tunnel, observed "wind 40 mph"'],
    "fed 7-3-6, 98F": ['fed 7-3-6, observed "98F"'],
    "unprotected, -4 C coming": [],
    "cleaned, 8 marks on bark": ["cleaned 8 marks on bark"],
    "pruned, 3 galls": ["pruned 3 galls"],
    "repotted in 30 cm box": ["repotted 30 cm pot"],
    "into 12 in pond basket, pine mix, 1/3 off": ["repotted 12 inch pot, mix pine, 1/3 off"],
    "uekae, tray 12 in, pine mix": ["repotted tray 12 inch, mix pine"],
    "repotted same pot, all pumice": ["repotted same pot, pumice"],
    "struck 30, kanuma + sand": ["struck 30, kanuma, sand"],
    "cuttings 30, hormone, under glass": ["struck 30, hormone"],
    "struck a dozen": ["struck 12"],
    "fed seaweed, 5 mL/L": ["fed seaweed, 5 mL/L"],
    "half str 0-10-10": ["fed half strength 0-10-10"],
    "watered twice today quite hard this time": ["watered twice hard"],
    "measured needles 8 cm, was 9": ["measured needles 8 cm, was 9"],
    "girth 34 cm, 31 in spring": ["measured girth 34 cm, was 31"],
    "left 1 shortened by half": ["pruned 1/2 on left 1"],
    "low left 1 branch cut back to 3 buds": ["pruned to 3 buds on low left 1"],
    "second flush cut back to 2 leaves": ["trimmed second flush, to 2 leaves"],
    "sacrifice branch sawn off": ["pruned sacrifice branch"],
    "3 crossing branches out": ["pruned 3 branches"],
    "1 thick branch off": ["pruned 1 branch"],
    "one heavy branch removed at left 2": ["pruned 1 branch on left 2"],
    # `left wired` is no part.
    "6 branches on left wired": ["wired 6 branches on left"],
    "vine weevil drench, 2": ["treated against vine weevil, soil drench, 2"],
    "mildew spray #2, sulphur 2 g/L": ["treated against mildew, second time, sulphur 2 g/L"],
    "soap round 2 of 3": ["treated soap, second time"],
    "treated soap, no 2 today": [],
    "aphids on tips, soap 20 ml/L": ["treated soap 20 mL/L"],
    "sawfly larvae, picked 30": ["treated against sawfly, 30 insects, by hand"],
    "red spider, hosed": ["treated against red spider, water jet"],
    "wire on left 1 ok": [],
    "wire on left 1 biting": [],
    "wire on left 1 eased": [],
    "wire on apex good still": [],
    "gegossen": ["watered"],
    "umgetopft, 1/3 weg": ["repotted off 1/3"],
    "draad eraf": ["unwired"],
    "bezahlt, noch nicht": [],
    "2 cans each, rain": ["watered 2 cans each, rainwater"],
    "rain water 2 L": ["watered rainwater, 2 L"],
    "okigoe pulled": ["cleaned old cakes off"],
    "surface scraped": ["opened surface"],
    "pots sunk in bark": ["protected plunged"],
    "toriki looked at": ["checked layer"],
    "repotted same pot, tied x6": ["repotted same pot, tied 6"],
    "repotted same pot, north side opened": ["repotted same pot, wedges N"],
    "layer off, potted 5 in": [],
    "cleaned up and unwired": ["cleaned up and unwired"],
    "agreed 80, plus pot": ["agreed 80, plus pot"],
    "repotted same pot, forty euro": ["repotted same pot, forty euro"],
    "bent left 1, wire and raffia": ["bent on left 1, wire and raffia"],
    "pruned, on the show day": [],
    "pruned, on a whim": [],
    "pruned on the show side": ["pruned on the show side"],
}


@pytest.mark.parametrize("line", DONE)
def test_so_much_is_done(line: str) -> None:
    assert done(tuple(DONE))[line] == DONE[line]


@pytest.mark.parametrize(
    "text",
    [
        "2 bites on left 2",
        "3 rings",
        "wound 1,4 cm",
        "1 twig cracked",
        "4 leaves yellow",
        "crack 3 cm long",
        "about 20 aphids on the tips",
        "2 cm callus",
    ],
)
def test_what_was_seen(text: str) -> None:
    assert is_sighting(text)


@pytest.mark.parametrize(
    "text",
    [
        "2 twigs off",
        "2 buds",
        "3 branches",
        "2 seedlings dead",
        "1 branch broken",
        "2 bites on left 2, off",
        "left 2 still on",
        "not biting",
        "2 leaves yellow yesterday",
        "3 aphids by Friday",
        "roots off",
    ],
)
def test_what_may_have_been_done_or_ended_is_no_sighting(text: str) -> None:
    assert not is_sighting(text)
    assert not is_weather(text)


@pytest.mark.parametrize("text", ["4 C coming", "lows 34 now", "-6 C tonight", "wind 40 mph"])
def test_the_weather_in_figures(text: str) -> None:
    assert is_weather(text)


@pytest.mark.parametrize("text", ["20 days", "34", "4 C tomorrow", "30 C water", "if -4 C"])
def test_other_figures_are_no_weather(text: str) -> None:
    assert not is_weather(text)
