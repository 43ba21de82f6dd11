"""What a care sheet says to every owner: how to water, what to leave alone, signs of trouble.

All of it is common practice of the trade, no source, where none is named.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from backbud.tongue import phrase
from backbud.views.paper import CareItem
from backbud_grammar.act_words import ActWord
from backbud_grammar.forms import Trait

# Somebody for whom everything is said in full, by a word of what the card says of experience.
BEGINNERS = (
    "beginner",
    "first",
    "new to",
    "novice",
    "inherited",
    "none",
    "little",
)

WATER = (
    "Push a finger into the soil as deep as your first joint. Water when it feels just damp "
    "there; wait when it is wet.",
    "Then water all over the soil, slowly, until water runs from the holes below, wait a minute, "
    "and do it once more.",
)
WATER_FULLER = (
    "Look every day, and twice on a hot or windy day; how often it needs water changes with the "
    "weather, so no calendar can tell you.",
    "Leaves shed rain: after a shower the soil may be as dry as before. Feel it all the same.",
    "Never let the pot stand in a dish of water.",
)

# What winter asks for, by how the tree goes through it: what, and how.
WINTER_BARE = (
    (
        "It stands outside and bare, and lives",
        "Once a week, on a mild morning, feel the soil and water it if it is dry. Do not water a "
        "frozen pot.",
    ),
    (
        "No heated room, and no feed",
        "Warmth wakes it too early, and bare roots take nothing up.",
    ),
)
WINTER_GREEN = (
    (
        "It stands outside, and drinks all winter",
        "Once a week, on a mild morning, feel the soil and water it if it is dry. Do not water a "
        "frozen pot, and shade it from sun and wind until it has thawed.",
    ),
    ("No heated room, and no feed", "It rests, and needs the cold to."),
    ("Shake heavy snow off", "It breaks branches that are wired or thin."),
)
WINTER_INDOORS = (
    (
        "The lightest window, and no radiator under it",
        "In little light it drinks less: feel the soil before you water, and do not let cold air "
        "from an open window fall on it.",
    ),
)
# When there is nothing else to bring it for.
ANY_TIME = ("Whenever something on it worries you", "Send us a picture first.")
SHALLOW = "This pot is shallow ({depth:g} cm): it dries within a day in summer, its rim first."
DEEP = "This pot is {depth:g} cm deep: it stays moist below when the top looks dry, so feel first."

# So many of the signs are of leaves that hang or burn, which a conifer's do not.
HANGS = 3
TROUBLE: Sequence[tuple[str, str]] = (
    (
        "Leaves or tips hang, and the soil is dry",
        "Water at once, all through, and stand it in shade until it has risen.",
    ),
    (
        "Leaves or tips hang, and the soil is wet",
        "Its roots get no air. Do not water. Let it dry a little, out of rain, and call us.",
    ),
    (
        "Edges turn brown",
        "Wind, sun or a dry day burned them. They stay brown; the next leaves tell you whether it "
        "is over.",
    ),
    (
        "Pale, speckled or sticky leaves, fine webs, small moving dots",
        "Something feeds on it. Stand it apart, wash it off with water, and send us a picture "
        "before you spray anything.",
    ),
    (
        "Water stands on the soil for more than a minute",
        "The soil has closed or the roots fill the pot. Bring it before its next spring.",
    ),
)
# A conifer does not hang: where its foliage shows thirst, it is late.
CONIFERS = (
    "pine", "juniper", "spruce", "cedar", "cypress", "yew", "hemlock", "fir", "podocarpus",
)  # fmt: skip
CONIFER_TROUBLE = (
    "The foliage turns dull, grey or yellow, or its tips go brittle",
    "Feel the soil: water all through if it is dry; if it is wet, keep it out of rain. Send us a "
    "picture the same day.",
)
WIRED_TROUBLE = (
    "The wire begins to sink into the bark",
    "Cut it off piece by piece with wire cutters, and never unwind it: unwinding breaks branches. "
    "Or bring it the same week.",
)

NOT_HARD = "Do not prune it hard this growing season"
NOT_FED = "Do not feed it"
NOT_MOVED = "Do not move it about in its pot; never lift it by the trunk"
NOT_FED_YET = "Do not feed it until the new leaves have hardened"
# What not to do after a work, by the trait or the act of what was done: what, until how many weeks
# after, and why.
LEAVE: Mapping[Trait | ActWord, tuple[tuple[str, int, str], ...]] = {
    "root_work": (
        (NOT_FED, 6, "Cut roots take up no feed, and salt in the soil burns them."),
        (
            "Do not stand it in strong wind or hot sun",
            3,
            "It cannot draw as much water as before until new roots have grown.",
        ),
        (
            NOT_MOVED,
            26,
            "New roots tear off; the wires below hold it still.",
        ),
    ),
    "stresses": (
        (
            NOT_HARD,
            22,
            "What was done to it took strength, and it needs the season to get it back.",
        ),
    ),
    "wired": (("Do not bend a wired branch further", 0, "It has been set; more may break it."),),
    "decandled": ((NOT_FED, 6, "Feed now makes the second needles long."),),
    "defoliated": ((NOT_FED_YET, 5, "Feed now makes large leaves."),),
}
# The work with which it ends, where that comes sooner: both are never told for one day.
ENDS_WITH: Mapping[str, str] = {NOT_FED: "fed", NOT_FED_YET: "fed", NOT_MOVED: "untied"}
# Told without its last day, which may fall where nobody prunes.
UNDATED = frozenset({NOT_HARD})
ALWAYS_LEAVE = (
    ("Do not bring it to live indoors", "It needs the seasons: warmth in winter weakens it."),
    ("Do not spray or feed by guess", "More than the label says harms it, and may harm you."),
)
INDOORS_KINDS = ("ficus", "fig", "carmona", "serissa", "portulacaria", "jade")


def trouble(kind: str, *, wired: bool, fuller: bool) -> tuple[CareItem, ...]:
    """Signs of trouble; somebody who knows is told of fewer."""
    signs = TROUBLE
    if any(word in kind.casefold().split() for word in CONIFERS):
        signs = (CONIFER_TROUBLE, *TROUBLE[HANGS:])
    found = [*([WIRED_TROUBLE] if wired else []), *signs]
    shown = found if fuller else found[: 4 if wired else 3]
    return tuple(CareItem(phrase(sign), "", phrase(means)) for sign, means in shown)
