"""What is said at the bench in words that the tables do not have, and what to write instead.

What is here is said at the bench and stays a problem, because it could be meant in two ways, or
because a plain word of its own says more.
"""

from __future__ import annotations

from collections.abc import Mapping

from backbud_grammar.act_words import ActWord, as_act
from backbud_grammar.forms import ActForm

_ACTS: Mapping[str, str] = {
    said: hint
    for hint, words in {
        "Write pruned or trimmed: pruned back to 2 buds, pruned hard, trimmed outline.": (
            "cut shortened reduced topped"
        ),
        "Write pruned trunk chop, and the height after “ -- ”.": "chopped",
        "Write unwired, and where: unwired on left 1.": "freed",
        "Write what was picked: thinned fruit, deadheaded seed pods, disbudded, plucked old"
        " needles.": "picked",
        "Write carved, and where: carved jin on left 1.": "jinned stripped",
        "Write treated-deadwood lime sulphur.": "limed",
        "Write two lines: unwired, and then wired.": "rewired",
        "Write guyed, and to what: guyed 1 mm Al on left 1 to the pot.": "staked braced",
        "Write top-dressed moss.": "mossed",
        "Write protected, and with what: protected fleece, protected heeled in.": (
            "covered insulated mulched buried plunged heeled"
        ),
        "Write unprotected.": "uncovered",
        "Write moved, and the place: moved tunnel.": "brought took taken carried placed put",
        "Write planted-out in open ground, repotted in a pot.": "planted",
        "Write repotted, or lifted where it came out of open ground.": "transplanted",
        "Write separated.": "divided",
        "Write styled again.": "restyled",
        "Write cleaned, and what: cleaned floor.": "swept",
        "Write died, and of what: died of frost.": "killed discarded binned",
        "Write lost stolen.": "stolen",
        "Write returned to PERSON where it was theirs, sold where it is now, lent where it comes"
        " back.": "delivered given gave",
        "Write shown, and at what: shown at the spring show.": "entered",
        "Write worked, and on what: worked 2 h on show preparation.": "prepared groomed",
        "Write bloomed, fruited, or the stage: staged 07 is bud burst.": "leafed budded budding",
        "Write checked, and what was found: checked buds swelling.": "looked inspected examined",
        "Write noted, and then anything: noted new buds low left.": (
            "saw seen found heated told called phoned asked thought"
        ),
    }.items()
    for said in words.split()
}

# Wood is cut by pruning; what is cut of an outline may be trimmed.
_CUTS = ("cut", "shortened", "reduced", "topped")
_WOOD = frozenset(("leader", "trunk", "branch", "branches", "limb", "limbs"))
_PRUNED = "Write pruned: pruned back to 2 buds, or pruned hard."
_TWO: Mapping[str, str] = {
    **dict.fromkeys(
        ("cut off", "cut from"),
        "Write pruned where a branch came off, separated where a layer did.",
    ),
    "cut at": "Write pruned where a branch was cut, struck where cuttings were taken.",
    "picked up": "Write returned where its owner came for it, received where it came to you.",
}
_STAGES = (
    "Write the BBCH number: 01 bud swelling, 07 bud burst, 10 first leaves, 60 first flowers, "
    "65 full flower, 69 end of flowering, 91 growth complete, 93 leaf fall begins, 97 dormant."
)
_ON_A_SIDE = dict.fromkeys(
    ("left", "right", "trunk", "branch"), "A part of the tree stands after “on”: down on left 1."
)
_MONTHS = "january february march april may june july august september october november december"
_LATER = {
    "year": "Write in 1 year, which counts from this page, or to 2028.",
    **{
        month: f"Write the year and the month: to 2027-{number:02}."
        for number, month in enumerate(_MONTHS.split(), 1)
    },
}
# What a look finds under a name of its own: it was there, or was only looked for.
_FOUND_BY_NAME = (
    "caterpillars",
    "thrips",
    "whitefly",
    "sawfly larvae",
    "borers",
    "moths",
    "ants",
    "gnats",
    "leafhoppers",
    "psyllids",
    "adelgids",
    "woolly aphids",
    "galls",
    "grubs",
    "larvae",
    "rust",
    "canker",
)
# By the act that was written, and words in the detail.
_DETAILS: Mapping[ActWord, Mapping[str, str]] = {
    "protected": {
        "shade": "Against the sun write a line “shaded net 50 %”.",
    },
    "collected": {
        "by": "Where its owner came for it, write returned. Who dug it up stands after “ -- ”.",
    },
    "treated": {
        "jin": "For deadwood write a line “treated-deadwood lime sulphur, on jin 1”.",
        "shari": "For deadwood write a line “treated-deadwood lime sulphur, on shari”.",
        "deadwood": "For deadwood write a line “treated-deadwood lime sulphur”.",
        "scale": "A pest stands after “against”: against scale.",
        "aphids": "A pest stands after “against”: against aphids.",
        "mites": "A pest stands after “against”: against mites.",
        "mildew": "A disease stands after “against”: against mildew.",
    },
    "repotted": {
        "parts": "The parts of a mix stand on its card; here stands its handle: mix maple.",
        "times": "The count stands behind: tied 2 mm x 4.",
        "third": "Write off 1/3.",
        "half": "Write off 1/2, or half bare-rooted.",
        "slab": "Give the slab a card as a pot, and write its handle: onto slab-1.",
    },
    "bent": _ON_A_SIDE,
    "guyed": _ON_A_SIDE,
    "defoliated": {
        "but": "Write what comes off: strong, outer leaves, off 2/3.",
        "thirds": "Write off 2/3.",
    },
    "unwired": {
        "but": "Write where it comes off: on left 1, on left 2.",
    },
    "refronted": {
        "back": "Write how far it was turned: 180 degrees.",
        "left": "Write how far it was turned: 90 degrees anticlockwise.",
        "right": "Write how far it was turned: 90 degrees clockwise.",
    },
    "received": {
        "by": "Write wanted by 2027-05.",
    },
    "billed": {
        "h": "Write the sum, and the hours after “ -- ”: 120 EUR -- 3 h.",
    },
    "drained": {
        "min": "Write it in seconds: 90 s.",
        "slowly": "Write how long a can of water took: 90 s.",
    },
    "measured": {
        "caliper": "Write trunk 9.5 cm.",
    },
    "pruned": {
        **dict.fromkeys(
            ("branch", "leader", "trunk", "left", "right"),
            "A part of the tree stands after “on”: hard on left 2.",
        ),
        "roots": "For roots write a line “root-pruned off below 2 cm”.",
        "back buds": "Write pruned for light, or rubbed back buds where they came off.",
    },
    "fed": {
        "removed": "What comes off is cleaned: write a line “cleaned cakes off”.",
        "off": "What comes off is cleaned: write a line “cleaned cakes off”.",
    },
    "checked": {
        **{
            found: f"Where it was there, write “checked pests, some -- {found}”; where none was, "
            f"“checked pests, none -- {found}”."
            for found in _FOUND_BY_NAME
        },
        "biting in": "Write biting: wire biting on left 2.",
        "cutting in": "Write biting: wire biting on left 2.",
    },
    "layered": {
        "below": "A part of the tree stands after “on”: on trunk below the first branch.",
    },
    "moved": {
        "under": "Name a place that has a card: moved tunnel -- under the bench.",
        "behind": "Name a place that has a card: moved tunnel -- behind the door.",
        "beside": "Name a place that has a card: moved tunnel -- beside the door.",
        "until": "Going back is a plan: write a line “planned move yard, in 3 weeks”.",
    },
    "shaded": {
        "until": "Taking it off is a plan: write a line “planned unshade, to 2027-09”.",
        "for": "Taking it off is a plan: write a line “planned unshade, in 2 weeks”.",
    },
    "wired": {
        "and": "Part them with a comma, each with its part: 2 mm Al on left 1, 3 mm Al on left 2.",
    },
    "worked": {
        "half a day": "Write the hours: worked 4 h.",
    },
    "staged": dict.fromkeys(
        ("bud", "buds", "leaf", "leaves", "flower", "flowers", "growth", "dormant"), _STAGES
    ),
    "planned": _LATER,
    "put-off": _LATER,
    "skipped": {
        "this year": "It is skipped but once: skipped repot.",
        "too": "The reason stands after “ -- ”: skipped repot -- too weak.",
    },
}


def hint_for_act(word: str, text: str, acts: Mapping[str, ActForm]) -> str:
    """What to write for a word that is no act; `text` follows it. "" where nothing is known.

    >>> from backbud_grammar.acts import ACTS, by_word
    >>> hint_for_act("top", "dressed moss", by_word(ACTS))
    'Write it with a hyphen: top-dressed.'
    """
    following = text.split(None, 1)[:1]
    joined = "-".join((word, *following)).casefold().rstrip(",")
    if following and joined in acts:
        return f"Write it with a hyphen: {joined}."
    if word.casefold() == "took":
        return _taken(text)
    if word.casefold() in _CUTS and not _WOOD.isdisjoint(text.casefold().split()):
        return _PRUNED
    return _TWO.get(f"{word} {following[0]}".casefold() if following else "", "") or _ACTS.get(
        word.casefold(), ""
    )


def _taken(text: str) -> str:
    """What to write for `took 6 more`, `took the fleece off`."""
    words = text.casefold().split()
    if "cuttings" in words or text[:1].isdigit():
        number = next((word for word in words if word.isdigit()), "6")
        return f"Where cuttings were taken, write struck {number} cuttings."
    if "off" in words:
        return (
            "Write what came off: pruned 1 branch on left 1, unwired on left 1, unprotected, "
            "untied."
        )
    if any(word.startswith("photo") for word in words):
        return "Write photographed, and from where: photographed front."
    return _ACTS["took"]


def hint_for_detail(act: str, detail: str) -> str:
    """What to write for a detail that an act does not take; "" where nothing is known.

    >>> hint_for_detail("pruned", "roots")
    'For roots write a line “root-pruned off below 2 cm”.'
    """
    words = f" {detail.casefold()} "
    return next(
        (hint for said, hint in _DETAILS.get(as_act(act), {}).items() if f" {said} " in words), ""
    )
