"""What is wrong with a value that somebody else's code made, told in words before it is used."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from datetime import date
from itertools import chain
from typing import Any, get_args, get_type_hints

import msgspec

from backbud.species import INTERFACE, Fact, Proposal, Rule, Section, Species, Window
from backbud.species.year_told import SeasonName
from backbud_grammar.forms import EXAMPLES, SHOWN_OF_READER, ActForm, Form, Trait
from backbud_grammar.kinds import KINDS
from backbud_grammar.lexicon import Lexicon
from backbud_grammar.problems import nearest

# More than anybody reads, or plans.
LONGEST_BYTES = 20_000
LONGEST_WINDOW_DAYS = 3660
FURTHEST_YEARS = 100
# Names of rules stand in ids between slashes; words of acts are read without their case.
_RULE_ID = re.compile(r"[a-z0-9]+(?:-[a-z0-9]+)*")
_ACT_WORD = re.compile(r"[^\W\d_]+(?:-[^\W\d_]+)*")
# Facts of a class that are checked in a way of their own.
# Where a tree is and whether it is here, is known before the acts of plugins are.
_NOT_FOR_PLUGINS = ("arrival", "raised", "departure")
_BUILT_IN = "only the language's own acts bring a tree here, or take it away"
_NOT_FACTS = ("interface", "works")


def wrong_interface(interface: object) -> str:
    """Why a plugin for this version of the interface is not used; "" where it may be."""
    if interface == INTERFACE and not isinstance(interface, bool):
        return ""
    return f"it was written for interface {interface}, and this backbud offers {INTERFACE}"


def wrong_proposal(proposal: Proposal, today: date) -> str:
    """What is wrong with what a rule yielded, beside the names of its acts."""
    window = proposal.window
    if not isinstance(window, Window) or any(type(day) is not date for day in _days(window)):
        return f"it yielded a window of {_shown(window)}, and a Window is of three dates"
    if (window.closes - window.opens).days > LONGEST_WINDOW_DAYS:
        return f"its window is longer than ten years: {window.opens} to {window.closes}"
    if any(abs(day.year - today.year) > FURTHEST_YEARS for day in _days(window)):
        return f"its window is more than a hundred years off: {window.opens} to {window.closes}"
    wrong = _wrong_type(proposal, Proposal)
    return f"it yielded a Proposal that is not in order: {wrong}" if wrong else ""


def wrong_rule(rule: Rule, acts: Mapping[str, ActForm]) -> str:
    """What is wrong with how a rule was declared."""
    if not (isinstance(rule.id, str) and _RULE_ID.fullmatch(rule.id)):
        return "an id is small letters, digits and hyphens"
    if rule.hangs_on == "season" and rule.season not in get_args(SeasonName):
        return f"“{rule.season}” is no season: {', '.join(get_args(SeasonName))}"
    if rule.hangs_on == "stage" and not (type(rule.stage) is int and 0 <= rule.stage <= 99):
        return f"“{rule.stage}” is no BBCH stage: a number from 0 to 99"
    if rule.hangs_on == "act" and not (rule.acts or rule.having):
        return 'it hangs on no act: @after("repotted", rule="…")'
    for trait in rule.having:
        if trait not in get_args(Trait):
            return f"“{trait}” is no trait of acts: {', '.join(get_args(Trait))}"
    for act in rule.acts:
        wrong = wrong_act_name(act, acts)
        if wrong:
            return wrong
    return ""


def wrong_act_name(act: object, acts: Mapping[str, ActForm]) -> str:
    """What is wrong with a word that code asks for an act by: it is the past form, and no other."""
    known = acts.get(act) if isinstance(act, str) else None
    if known is not None and known.word == act:
        return ""
    near = known.word if known is not None else nearest(str(act), {a.word for a in acts.values()})
    return f"“{act}” is no act in its past form" + (f"; did you mean “{near}”?" if near else "")


def wrong_act(act: object) -> str:
    """What is wrong with an act for the table, by itself."""
    if not isinstance(act, ActForm):
        return f"{_shown(act)} is no ActForm"
    wrong = _wrong_type(act, ActForm)
    if wrong:
        return f"an act is not in order: {wrong}"
    for word in (act.word, act.bare, *act.also):
        if not _ACT_WORD.fullmatch(word) or word != word.casefold():
            return f"“{word}” is no word for an act: small letters and hyphens"
    if act.names_act:
        return f"“{act.word}” cannot speak of other acts"
    for trait in act.traits:
        if trait in _NOT_FOR_PLUGINS:
            return f"“{act.word}” cannot be of the trait “{trait}”: {_BUILT_IN}"
    if act.minutes < 1:
        return f"“{act.word}” takes a minute at least, not {act.minutes}"
    for kind in act.on:
        if kind not in KINDS:
            return f"“{kind}” is no kind of card"
    return wrong_forms(act.forms)


def wrong_forms(forms: object) -> str:
    """What is wrong with the details of an act."""
    if not isinstance(forms, tuple) or not all(isinstance(form, Form) for form in forms):
        return f"the details of an act are a tuple of Forms, not {_shown(forms)}"
    for form in forms:
        wrong = _wrong_type(form, Form)
        if wrong:
            return f"a Form is not in order: {wrong}"
        for said, known in (
            (form.sorts, EXAMPLES),
            (form.refers, KINDS),
            ((form.reader,) if form.reader else (), SHOWN_OF_READER),
        ):
            for word in said:
                if word not in known:
                    return f"“{word}” in the Form “{form.name}” is not known: {', '.join(known)}"
    try:
        Lexicon(forms)
    except Exception as error:
        return f"these Forms cannot be read with: {error}"
    return ""


def wrong_species(species: Species) -> str:
    """What is wrong with the facts of a species."""
    for name, hint in get_type_hints(Species).items():
        if name in _NOT_FACTS:
            continue
        value = getattr(species, name, None)
        if name in ("botanical", "common") and not value:
            return f"it has no “{name}” name"
        (wanted,) = get_args(hint)
        wrong = _wrong_type(value, wanted)
        if wrong:
            return f"“{name}” is not what the interface says: {wrong}"
    for code, days in species.stage_months.items():
        if not all(1 <= month <= 12 and 1 <= day <= 31 for month, day in days):
            return f"stage {code} has a day that no month has"
        if not days[0] <= days[1] <= days[2]:
            return f"the days of stage {code} are not in order"
    return ""


def wrong_section(section: object) -> str:
    """What is wrong with a section for a page."""
    if not isinstance(section, Section):
        return f"it returned {_shown(section)}, which is no Section"
    wrong = _wrong_type(section, Section)
    if wrong:
        return f"it returned a Section that is not in order: {wrong}"
    if not section.title.strip():
        return "it returned a Section with no title"
    if any(len(row) != len(section.head) for row in section.rows):
        return f"each row of its table has {len(section.head)} cells, as its head has"
    return ""


def wrong_facts(facts: object) -> str:
    """What is wrong with facts: `{"trident maple": {"label": Fact("…", FROM_MEMORY)}}`."""
    if not isinstance(facts, Mapping) or not all(
        isinstance(kind, str)
        and isinstance(some, Mapping)
        and all(isinstance(label, str) and isinstance(fact, Fact) for label, fact in some.items())
        for kind, some in facts.items()
    ):
        return "facts are Facts by label by kind, each label and kind a text"
    for some in facts.values():
        for label, fact in some.items():
            wrong = _wrong_type(fact, Fact[str | int | float])
            if wrong:
                return f"the fact “{label}” is a text or a number, with its source: {wrong}"
    return ""


def _days(window: Window) -> tuple[date, date, date]:
    return window.opens, window.best, window.closes


def _wrong_type(value: object, wanted: Any) -> str:
    """Why a value is not of a type, found by writing it out and reading it again."""
    # A text of a megabyte that stands in a tuple a million times is written out in one long step,
    # which nothing interrupts.
    if _is_too_long(value):
        return "it is too long"
    try:
        data = msgspec.json.encode(value)
        msgspec.json.decode(data, type=wanted)
    except (msgspec.MsgspecError, TypeError, ValueError, RecursionError, OverflowError) as error:
        return " ".join(str(error).split())
    return "" if len(data) <= LONGEST_BYTES else "it is too long"


def _is_too_long(value: object) -> bool:
    """Whether there is more in a value than is ever looked at; it is gone through no further."""
    room = LONGEST_BYTES
    waiting: list[Iterator[object]] = [iter((value,))]
    while waiting and room >= 0:
        one = next(waiting[-1], waiting)
        if one is waiting:
            waiting.pop()
            continue
        room -= 1
        if isinstance(one, (str, bytes)):
            room -= len(one)
        elif isinstance(one, int):
            room -= one.bit_length() // 4
        elif isinstance(one, msgspec.Struct):
            waiting.append(iter([getattr(one, name) for name in one.__struct_fields__]))
        elif isinstance(one, Mapping):
            waiting.append(chain(one, one.values()))
        elif isinstance(one, (tuple, list, set, frozenset)):
            waiting.append(iter(one))
    return room < 0


def _shown(value: object) -> str:
    try:
        shown = repr(value).encode(errors="replace").decode()
    except Exception:
        shown = type(value).__name__
    return shown if len(shown) <= 80 else f"{shown[:80]} …"
