"""Builders of the rows of the table of acts, and of the details they take."""

from __future__ import annotations

from typing import Literal

from backbud_grammar.act_words import ActWord
from backbud_grammar.forms import (
    ANY_WORDS,
    AS_USUAL,
    SHORT_MIN,
    ActForm,
    Bearing,
    Effort,
    Form,
    Trait,
    WorkName,
)

# What a line of the act does, and so how much of it must be understood (whole.py).
DOES: Bearing = "does"
ENDS: Bearing = "ends"
KEEPS: Bearing = "keeps"

METALS = ("Al", "Cu", "aluminium", "copper", "annealed")
TREE_OR_PLACE = ("tree", "place")


def listed(text: str) -> tuple[str, ...]:
    """A closed list of words and phrases with commas between them."""
    return tuple(text.split(", "))


def flag(*phrases: str, about: str = "") -> Form:
    """Words that say something by being there."""
    return Form(phrases[0], phrases, about=about)


def words(name: str, *words: str, part: bool = True, about: str = "") -> Form:
    """Bare words of a closed list, and perhaps a part of the tree."""
    return Form(name, words=words, part=part, about=about)


def to(labels: str | tuple[str, ...], *kinds: str, name: str = "", about: str = "") -> Form:
    labels = (labels,) if isinstance(labels, str) else labels
    return Form(name or labels[0], labels, refers=kinds, about=about)


def free(*labels: str, about: str = "") -> Form:
    """A label and then free words."""
    return Form(labels[0], labels, words=ANY_WORDS, about=about)


def measure(
    labels: str | tuple[str, ...],
    *sorts: str,
    about: str = "",
    words: tuple[str, ...] = (),
    negative: bool = False,
    part: bool = False,
    limits: tuple[int, int] | None = None,
    whole: bool = False,
) -> Form:
    """A label, or one of several, and a measure."""
    labels = (labels,) if isinstance(labels, str) else labels
    return Form(
        labels[0],
        labels,
        sorts,
        True,
        words=words,
        part=part,
        negative=negative,
        about=about,
        limits=limits,
        whole=whole,
    )


def bare(
    name: str,
    *sorts: str,
    words: tuple[str, ...] = (),
    part: bool = False,
    about: str = "",
    limits: tuple[int, int] | None = None,
    whole: bool = False,
    worded: bool = False,
) -> Form:
    """A measure with no label."""
    return Form(
        name,
        (),
        sorts,
        bound=True,
        words=words,
        part=part,
        about=about,
        limits=limits,
        whole=whole,
        worded=worded,
    )


def date(labels: str | tuple[str, ...], name: str = "", about: str = "") -> Form:
    labels = (labels,) if isinstance(labels, str) else labels
    return Form(name or labels[0], labels, date=True, about=about)


def span(label: str, about: str = "") -> Form:
    """A label and then a time, or free words."""
    return Form(label, (label,), ("duration",), words=ANY_WORDS, about=about)


# What was seen beside the work, in closed words (sightings.py).
OBSERVED = Form(
    "observed", ("observed",), reader="sighting", several=True, about="what was seen beside it"
)
# Works that no mark, wound or pest can be the object of: `sealed, 3 cracks` closed them.
_SEEN_BESIDE: tuple[WorkName, ...] = ("water", "feed", "shelter", "wire", "roots")
_COMES_AND_GOES: tuple[ActWord, ...] = ("received", "returned", "separated")
# What it leaves has a size of its own: `pruned left 1, wound 3 cm`.
_LEAVES_WOUNDS: tuple[ActWord, ...] = ("pruned",)
BY = Form("by", ("by",), refers=("person",), several=True, about="who did it, when not the keeper")


def act(
    group: str,
    word: str,
    bare: str,
    bearing: Bearing,
    *forms: Form,
    work: WorkName,
    on: tuple[str, ...] = ("tree",),
    about: str = "",
    prose: bool = False,
    shared: bool = False,
    names_act: bool = False,
    needs: bool = False,
    also: tuple[str, ...] = (),
    also_bare: tuple[str, ...] = (),
    undone_by: ActWord | Literal[""] = "",
    of_all: bool = False,
    by: bool = True,
    minutes: int = SHORT_MIN,
    traits: tuple[Trait, ...] = (),
    effort: Effort = AS_USUAL,
    called: tuple[str, ...] = (),
    cautions: tuple[str, ...] = (),
    plainly: str = "",
) -> ActForm:
    """A row of the table."""
    if word in (*_COMES_AND_GOES, *_LEAVES_WOUNDS) or work in _SEEN_BESIDE:
        forms = (*forms, OBSERVED)
    with_by = forms if prose or not by or any("by" in f.labels for f in forms) else (*forms, BY)
    said = f"also written {', '.join(also)}" if also else ""
    return ActForm(
        word,
        bare,
        group,
        with_by,
        on,
        prose,
        shared,
        names_act,
        needs,
        about="; ".join(filter(None, (about, said))),
        also=also,
        bearing=bearing,
        bare_words=frozenset({bare, *also_bare} - {word}),
        undone_by=undone_by,
        of_all=of_all,
        work=work,
        minutes=minutes,
        traits=traits,
        effort=effort,
        called=called,
        cautions=cautions,
        plainly=plainly,
    )
