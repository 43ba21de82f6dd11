"""What each act does, read by hand: and so how much of its line must be understood."""

from __future__ import annotations

from backbud_grammar.acts import ACTS, by_word

# Something is done or put on: it takes effect with what was read.
DOES = """
    sown struck grafted layered germinated rooted
    pruned trimmed pinched decandled plucked defoliated disbudded deadheaded rubbed wired guyed
    carved treated-deadwood thinned sealed notched bent wrapped styled refronted
    repotted potted-on slipped lifted root-pruned opened top-dressed tied
    watered misted soaked flushed fed turned shaded protected weeded cleaned treated quarantined
    ventilated
    agreed used counted priced planned
"""
# Whose it is, where it stands, whether it lives, what comes off it, what is found well or settled
# by a word: it is done only where all of its line was read.
ENDS = """
    received bought collected separated parted-off sold lent returned died lost
    unwired unguyed unwrapped untied unshaded unprotected moved planted-out released checked
    ready billed credited paid skipped put-off corrected
"""
# Words and figures are kept, and nothing else follows from them.
KEEPS = """
    noted private measured staged bloomed fruited vigour drained photographed
    shown valued quoted worked asked-after insured
"""


def test_every_act_says_what_it_does() -> None:
    assert {act.word for act in ACTS if act.bearing == "does"} == set(DOES.split())
    assert {act.word for act in ACTS if act.bearing == "ends"} == set(ENDS.split())
    assert {act.word for act in ACTS if act.bearing == "keeps"} == set(KEEPS.split())


def test_what_puts_on_names_the_act_that_takes_off_again() -> None:
    assert {act.word: act.undone_by for act in ACTS if act.undone_by} == {
        "wired": "unwired",
        "guyed": "unguyed",
        "wrapped": "unwrapped",
        "tied": "untied",
        "shaded": "unshaded",
        "protected": "unprotected",
    }


def test_a_bare_word_is_no_past_form() -> None:
    acts = by_word(ACTS)
    for word in ("wire", "tie", "shade", "repot", "dig", "clip", "spray", "air-layer", "photo"):
        assert word in acts[word].bare_words
    # These are past forms, or have no other.
    for word in ("wired", "dug", "cut-back", "put-off", "vigour", "ready", "private", "pricked"):
        assert word not in acts[word].bare_words
