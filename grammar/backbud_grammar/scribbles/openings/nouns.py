"""The nouns and the trade's terms that name a work: what was skipped, put off or planned."""

from __future__ import annotations

WORK = (
    r"(?:repot(?:ted|ting)?|uekae|mekiri|metsumi|metsumi|momiage|hagari|decandl(?:ed?|ing)"
    r"|candle[- ]?cut(?:ting)?|candles cut|wir(?:ed|ing)|prun(?:ed?|ing)|pinch(?:ed|ing)?"
    r"|defoliat(?:ed?|ion|ing)|pluck(?:ed|ing)|needle (?:work|plucking|pulling)|thinn?(?:ed|ing)?"
    r"|f[ee]d(?:ing)?|feed|fed|root[- ]?work|root[- ]prun(?:ed?|ing)|trimm?(?:ed|ing)?"
    r"|water(?:ed|ing)|spray(?:ed|ing)|disbudd?(?:ed|ing)|deadhead(?:ed|ing)?)"
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
}
