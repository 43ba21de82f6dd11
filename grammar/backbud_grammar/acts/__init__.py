"""The table of acts: every word that can open an act line, the details it takes, and what it is.

A row stands in the file of its group. A plugin adds an act by adding a row; the grammar does not
change.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from backbud_grammar.act_words import ActWord, as_act
from backbud_grammar.acts import (
    arrivals,
    branches,
    business,
    keeping,
    plans,
    roots,
    watching,
)
from backbud_grammar.acts.builders import flag, measure, to
from backbud_grammar.acts.shared import PERCENT
from backbud_grammar.forms import ActForm, Form, Trait

ACTS: tuple[ActForm, ...] = (
    *arrivals.ACTS,
    *branches.ACTS,
    *roots.ACTS,
    *keeping.ACTS,
    *watching.ACTS,
    *business.ACTS,
    *plans.ACTS,
)
# By their past form.
ROWS: Mapping[ActWord, ActForm] = {as_act(act.word): act for act in ACTS}

DAY_FORMS: tuple[Form, ...] = (
    measure("low", "temperature", negative=True),
    measure("high", "temperature", negative=True),
    measure("rain", "length"),
    measure("wind", "speed"),
    measure("sun", "duration"),
    measure("humidity", "share", limits=PERCENT),
    flag("frost"),
    flag("snow"),
    flag("hail"),
    to("at", "place"),
)


def by_word(acts: tuple[ActForm, ...]) -> dict[str, ActForm]:
    """Return the acts by each of their words: past, bare, and what else they are called.

    What has a hyphen may be written with a blank, unless an act begins so: `put off`, `handed
    back`, but not `treat deadwood`.
    """
    words = {word: act for act in acts for word in (*act.also, act.bare, act.word)}
    apart = {
        word.replace("-", " "): act
        for word, act in words.items()
        if word.partition("-")[0] not in words
    }
    return {**words, **apart}


def acts_with(*traits: Trait, acts: Iterable[ActForm] = ACTS) -> frozenset[ActWord]:
    """The past forms of the acts that have one of these traits.

    >>> sorted(acts_with("raised"))
    ['sown', 'struck']
    """
    return frozenset(as_act(act.word) for act in acts if not set(traits).isdisjoint(act.traits))
