"""An act goes in; the minutes it usually takes come out."""

from __future__ import annotations

# Common practice, no source: one medium tree, tools at hand. What was learned from `worked` lines
# goes before these (hours.py).
USUAL_MINUTES = {
    "repotted": 60,
    "potted-on": 30,
    "slipped": 20,
    "root-pruned": 30,
    "opened": 10,
    "top-dressed": 10,
    "tied": 10,
    "untied": 10,
    "wired": 120,
    "unwired": 30,
    "guyed": 15,
    "unguyed": 5,
    "wrapped": 20,
    "unwrapped": 10,
    "pruned": 30,
    "trimmed": 20,
    "pinched": 20,
    "decandled": 40,
    "plucked": 45,
    "defoliated": 40,
    "disbudded": 20,
    "deadheaded": 30,
    "rubbed": 5,
    "thinned": 20,
    "fed": 5,
    "soaked": 10,
    "watered": 5,
    "moved": 5,
    "protected": 10,
    "unprotected": 5,
    "checked": 5,
    "treated": 15,
    "treated-deadwood": 30,
    "returned": 30,
}


def usual_minutes(act: str) -> int:
    """Return the minutes an act usually takes (10 where nothing is known)."""
    return USUAL_MINUTES.get(act, 10)
