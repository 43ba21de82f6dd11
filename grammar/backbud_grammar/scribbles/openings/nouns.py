"""The nouns and the trade's terms that name a work: what was skipped, put off or planned."""

from __future__ import annotations

WORK = (
    r"(?:leaf[- ]cut(?:ting)?|repot(?:ted|ting)?|uekae|mekiri|metsumi|metsumi|momiage|hagari|decandl(?:ed?|ing)"
    r"|candle[- ]?cut(?:ting)?|candles cut|wir(?:ed|ing)|prun(?:ed?|ing)|pinch(?:ed|ing)?"
    r"|defoliat(?:ed?|ion|ing)|pluck(?:ed|ing)|needle (?:work|plucking|pulling)|thinn?(?:ed|ing)?"
    r"|f[ee]d(?:ing)?|feed|fed|root[- ]?work|root[- ]prun(?:ed?|ing)|trimm?(?:ed|ing)?"
    r"|water(?:ed|ing)|spray(?:ed|ing)|disbudd?(?:ed|ing)|deadhead(?:ed|ing)?)"
)

# By these a work that is still to be done is named.
TO_DO = (
    r"(?:repot|uekae|mekiri|metsumi|momiage|hagari|wire|prune|pinch|decandle|defoliate|needle work"
    r"|root[- ]?work|root[- ]prune|trim|spray|feed(?:ing)?|fert(?:ili[sz]er)?|pot on|pot up|thin"
    r"|N|nitrogen|tama|okigoe|pellets|rapecake|cakes|liquid feed|fertili[sz]ing)"
)
# Of what was done, by the noun or the trade's term that names it.
NOUNS = {
    "repot": "repotted",
    "repotted": "repotted",
    "repotting": "repotted",
    "uekae": "repotted",
    "root-work": "repotted",
    "rootwork": "repotted",
    "root work": "repotted",
    "mekiri": "decandled",
    "decandle": "decandled",
    "decandled": "decandled",
    "decandling": "decandled",
    "candle cut": "decandled",
    "candle-cut": "decandled",
    "candle cutting": "decandled",
    "candle-cutting": "decandled",
    "candles cut": "decandled",
    "metsumi": "pinched",
    "pinch": "pinched",
    "pinched": "pinched",
    "pinching": "pinched",
    "momiage": "plucked",
    "needle work": "plucked",
    "needle plucking": "plucked",
    "needle pulling": "plucked",
    "plucked": "plucked",
    "plucking": "plucked",
    **dict.fromkeys(["leaf cut", "leaf-cut", "leaf cutting", "leaf-cutting"], "defoliated"),
    "hagari": "defoliated",
    "defoliate": "defoliated",
    "defoliated": "defoliated",
    "defoliation": "defoliated",
    "defoliating": "defoliated",
    "wired": "wired",
    "wiring": "wired",
    "prune": "pruned",
    "pruned": "pruned",
    "pruning": "pruned",
    "feed": "fed",
    "fed": "fed",
    "feeding": "fed",
    "thin": "thinned",
    "thinned": "thinned",
    "thinning": "thinned",
    "trim": "trimmed",
    "trimmed": "trimmed",
    "trimming": "trimmed",
    "watered": "watered",
    "watering": "watered",
    "sprayed": "treated",
    "spraying": "treated",
    "root-pruned": "root-pruned",
    "root pruned": "root-pruned",
    "root pruning": "root-pruned",
    "root-pruning": "root-pruned",
    "disbudded": "disbudded",
    "disbudding": "disbudded",
    "disbud": "disbudded",
    "deadheaded": "deadheaded",
    "deadheading": "deadheaded",
    "deadhead": "deadheaded",
    "needles": "plucked",
    "candles": "decandled",
    "wire": "wired",
    "pot on": "potted-on",
    "pot up": "potted-on",
    "root-prune": "root-pruned",
    "root prune": "root-pruned",
    "spray": "treated",
    **dict.fromkeys(
        [
            "n",
            "nitrogen",
            "tama",
            "okigoe",
            "pellets",
            "rapecake",
            "cakes",
            "fert",
            "fertiliser",
            "fertilizer",
            "fertilising",
            "fertilizing",
        ],
        "fed",
    ),
    "liquid feed": "fed",
    # What is to be looked at, and what is to come off.
    **{
        said: "checked"
        for what in ("", "wire", "ties", "guy", "guys", "layer", "graft", "roots")
        for said in (
            f"check {what}".strip(),
            f"check the {what}",
            f"look at {what}",
            f"look at the {what}",
        )
    },
    **dict.fromkeys(
        [
            f"{what} {look}"
            for what in ("wire", "layer", "next", "wire bite")
            for look in ("check", "look")
        ],
        "checked",
    ),
    **{
        f"{what}{must} off": work
        for what, work in (
            ("wire", "unwired"),
            ("guy", "unguyed"),
            ("guys", "unguyed"),
            ("ties", "untied"),
            ("raffia", "unwrapped"),
            ("fleece", "unprotected"),
            ("cover", "unprotected"),
            ("shade", "unshaded"),
            ("shade cloth", "unshaded"),
        )
        for must in (
            f" {one} {goes}"
            for one in ("must", "should", "has to", "is to", "to")
            for goes in ("come", "be")
        )
    },
}
