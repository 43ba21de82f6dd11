"""Whether what was read of an act, as words, a part or a finding, limits it or ends nothing."""

from __future__ import annotations

import re
from collections.abc import Sequence
from functools import cache

from backbud_grammar.act_reading import ActReading
from backbud_grammar.act_words import ActWord, DetailName
from backbud_grammar.acts.watching import AWAITED
from backbud_grammar.elsewhen import elsewhen, in_thought
from backbud_grammar.elsewhere import named_elsewhere
from backbud_grammar.forms import ActForm, Form
from backbud_grammar.hints import PART_WORDS
from backbud_grammar.lexicon import Lexicon
from backbud_grammar.limiters import DENIES, LIMITS, LOOK, WORD, first_limiter, word_set
from backbud_grammar.parts import flaw_of_part, label_at, spelled_out
from backbud_grammar.scribbles.turns import end_that_turns, turn_of_part
from backbud_grammar.syntax import Detail

# How the words of another day begin.
_OF_A_DAY = re.compile(
    r"(?:tomorrow|yesterday|last|next|in|by|before|after|\w+ \w+ ago)\b", re.IGNORECASE
)
# No part of a tree is so called: these say more than where.
_NOT_OF_A_PART = word_set(
    "and then was were is are has have had still to need needs nearly almost maybe should "
    "except excepting excluding but not never yet rest partly only no without remaining off "
    "broke broken failed snapped slipped loose slack slackened holding held came fell cracked "
    "split marked biting bites healed growing fine ok looks lost missing "
    "this time year until i think guess tomorrow tmrw tmr soon later next week month yesterday"
)
# Who loses these does not lose the tree: `lost to squirrels all buds`, but `died of root rot`.
_OF_A_TREE = PART_WORDS | word_set(
    "leaf leaves bud buds flower flowers shoot shoots tip tips twig twigs needle needles candle "
    "candles jin shari graft layer pot"
)
_OF_ALL_LIMITS = LIMITS | {"on", "and"}
# `checked for biting wire` tells what was found, not what was looked for.
_ENDS_DENIES = DENIES | {"only", "biting", "fine"}
# What these say describes a tree, or what may become of it: `condition fine`.
_DESCRIBES: frozenset[DetailName] = frozenset({"condition", "risk"})
# Free words that say what with, or against what.
_WITH_WORDS: frozenset[DetailName] = frozenset({"with", "against", "product", "anchored to"})
_FOUND = word_set(
    "tight tighter loose looser slack slackened biting bites bit cutting digging marking marked"
    " fine ok okay eased easing loosened tightened slackening snug good gone changed moved redone"
    " checked controlled holding"
)
# A day, a reason or a spot of the nursery, and no part of any tree.
_NO_PART = word_set(
    "day days morning evening afternoon night noon midday weekend week monday tuesday wednesday"
    " thursday friday saturday sunday whim way purpose time holiday holidays phone advice request"
    " order orders occasion birthday trip visit bench turntable table lap"
)
# What was put on is so no longer.
_GONE = word_set("off removed loose undone snapped broke broken slipped gone")
# So many words name what a tree died of, or was lost to: `red spider mite`.
_LONGEST_CAUSE = 3
_GOES_ON = word_set("in at on behind under over for with waiting all")


def no_cause(reading: ActReading, forms: Sequence[Form]) -> tuple[str, int] | None:
    """What is said of a tree's end and names nothing that ends one: `died of 3`, `lost to view
    behind the pine`; `over winter` is a word of the act's own and says when."""
    free = {one.name for one in forms if one.free}
    counts = any(detail.name == "quantity" for detail in reading.details)
    for detail, start in zip(reading.details, reading.starts, strict=True):
        if detail.name not in free:
            continue
        if detail.measure is not None and not counts:
            # Of how many, where nobody said how many they were.
            return detail.name, start + detail.offset
        said = detail.words.split()
        if (
            len(said) > _LONGEST_CAUSE
            or not _GOES_ON.isdisjoint(map(str.casefold, said))
            or any(sign.isdigit() for sign in detail.words)
        ):
            return detail.words, start + detail.offset
    return None


def limiter_read(
    form: ActForm, word: str, reading: ActReading, forms: Sequence[Form]
) -> tuple[str, int] | None:
    """The first limiter in what was read as free words or as a part, and where its detail is."""
    strict = form.bearing == "ends" or word.casefold() in form.bare_words
    for detail, start in zip(reading.details, reading.starts, strict=True):
        found = _of_part(form, detail.part, strict=strict) if detail.part else ""
        if detail.part and not found and form.bearing != "keeps":
            found = named_elsewhere(detail.part)
        if detail.name in _WITH_WORDS and not found:
            # `against mites tomorrow` is for another day, `with water in theory` for none.
            found = "?" if "?" in detail.words else turn_behind(detail.words)
        if detail.name == "except" and not detail.part:
            # What it leaves out nobody read.
            found = detail.name
        if _is_of_nothing(form, detail):
            found = "0"
        if not found and detail.words and detail.name not in _DESCRIBES:
            found = _in_free(detail.words, of_all=form.of_all, ends=form.bearing == "ends")
            if not found and form.undone_by:
                found = _came_off(detail.words)
            if found and not any(one.free and one.name == detail.name for one in forms):
                found = ""
        if found:
            return found, start + detail.offset
    if form.word == LOOK:
        return _not_seen(form, reading)
    return _beside_not_done(reading) if form.names_act else None


def turn_behind(words: str) -> str:
    """The other day that free words end in, or the doubt: `mites tomorrow`; birds are what it is
    against."""
    if turn := end_that_turns(words):
        return turn
    each = words.split()
    runs = (" ".join(each[-n:]) for n in (1, 2, 3))
    return elsewhen(run for run in runs if _OF_A_DAY.match(run))


def is_plain_part(form: ActForm, word: str, written: str, lexicon: Lexicon) -> bool:
    """Whether words behind `on` are a part of the tree and nothing else, wherever they stand in a
    line of the act: nothing in them opens a detail, limits it, or asks.

    `word`: the act as it is written.
    """
    words = written.split()
    folded = [one.casefold() for one in words]
    if (
        not words
        or not lexicon.with_part
        or form.prose
        or form.names_act
        # What was found is no part: it may hold back a check.
        or form.word == "checked"
        or named_elsewhere(written)
        or any(label_at(folded, at, lexicon) for at in range(len(folded)))
        or "of" in folded
        or "?" in written
        or in_thought(written)
    ):
        return False
    part = " ".join(words)
    strict = form.bearing == "ends" or word.casefold() in form.bare_words
    return flaw_of_part(part) is None and not _of_part(form, spelled_out(part), strict=strict)


# A count of what is there may be nought, and so may what is left or cut to; what was given may not.
_COUNTS: tuple[ActWord, ...] = ("counted",)
_AMOUNTS = ("number", "volume", "rate", "mass", "concentration")
_LEFT = ("mix", "off", "leaving", "stubs", "to", "back to")


def _is_of_nothing(form: ActForm, detail: Detail) -> bool:
    """Whether what is put on is said to be 0 mm thick, or nothing was given: `fed 0` is no feed."""
    measure = detail.measure
    if measure is None or all(measure.numbers) or form.word in _COUNTS:
        return False
    if form.undone_by and measure.sort == "length":
        return True
    return form.bearing == "does" and (
        measure.sort in _AMOUNTS and detail.name not in _LEFT and not any(measure.numbers)
    )


def _beside_not_done(reading: ActReading) -> tuple[str, int] | None:
    """What never happened has no details; a part says of which line it is told."""
    if any(detail.name == "not done" for detail in reading.details):
        for detail, start in zip(reading.details, reading.starts, strict=True):
            if detail.name not in ("date", "not done", "part", "by"):
                return detail.words or detail.name, start + detail.offset
    return None


def _not_seen(form: ActForm, reading: ActReading) -> tuple[str, int] | None:
    """What a check says in a place where it may mean that nobody looked, or only elsewhere."""
    findings = {word for one in form.forms if one.name == "finding" for word in one.words}
    looked_at: list[str] = []
    for detail, start in zip(reading.details, reading.starts, strict=True):
        if detail.name == "what":
            looked_at = detail.words.split()
        elif detail.words.casefold().endswith("not yet") and not (
            looked_at and AWAITED.issuperset(looked_at)
        ):
            return detail.words, start + detail.offset
        last = detail.part.split()[-1:]
        if last and last[0].casefold() in findings:
            # `on left 1 fine`: what was found is no part.
            return last[0], start + detail.offset
    return None


@cache
def _in_free(said: str, *, of_all: bool, ends: bool) -> str:
    words = WORD.findall(said)
    if of_all:
        last = words[-1:] if words and words[-1].casefold() in _OF_A_TREE else []
        return first_limiter(words, _OF_ALL_LIMITS, question=False) or "".join(last)
    return first_limiter(words, _ENDS_DENIES if ends else DENIES, question=False)


def _of_part(form: ActForm, part: str, *, strict: bool) -> str:
    """What limits an act in the words for a part of the tree, or says how it was found there."""
    return _in_part(part, strict=strict) or (_found_there(part) if form.undone_by else "")


def _found_there(part: str) -> str:
    """What says in the end how the wire was found: `wire on left 1 tight` puts none on."""
    last = part.casefold().rpartition(" ")[2]
    return last if last in _FOUND else ""


def _came_off(said: str) -> str:
    """What says in the end that it is not on any more: `guyed to pot foot off`."""
    words = said.casefold().split()
    return words[-1] if len(words) > 1 and words[-1] in _GONE else ""


@cache
def _in_part(part: str, *, strict: bool) -> str:
    """`left half` is a part, and so is `the lower half`; `half of left 1` is less than one."""
    words = WORD.findall(part)
    if words and words[-1].casefold() in _NO_PART:
        # `pruned, on the show day` says when.
        return str(words[-1])
    if turn := turn_of_part(part):
        return turn
    if words[:1] == ["half"] or words[:2] == ["the", "half"]:
        return "half"
    return first_limiter(words, _NOT_OF_A_PART if strict else DENIES)
