"""Whether a remark, or what was refused below an act, takes back what the act says."""

from __future__ import annotations

import re
from collections.abc import Sequence
from functools import lru_cache
from itertools import islice

from backbud_grammar.forms import ActForm
from backbud_grammar.held_back import CHANGES_NOTHING, HELD_CODE
from backbud_grammar.hints import PART_WORDS
from backbud_grammar.limiters import (
    ENDS_OF_TREES,
    LIMITING,
    LOOK,
    NOT,
    REMOVED,
    WORD,
    first_limiter,
    limiter_among,
    says_off,
    word_set,
)
from backbud_grammar.problems import Flaw
from backbud_grammar.scribbles.turns import remark_that_turns
from backbud_grammar.syntax import Act

# A remark is free; only its first words can turn what stands before it.
_FIRST_WORDS = {"does": 1, "keeps": 1, "ends": 3}
_OF_ALL_BUT = word_set("all everything nothing none any anything")
_IN_REMARK = word_set(
    "not except excepting excluding only but half partly rest yet off nearly almost hardly tried "
    "soon tomorrow later todo postponed cancelled canceled delayed forgot forgotten"
)
# The same in two words: `no time` was none to do it in, `no marks` is what was found.
_PAIRS_IN_REMARK = {
    "no": word_set("time need chance light strength tools wire pot soil mix longer"),
    "to": word_set("do"),
    "next": word_set("week month year spring summer autumn winter"),
}
# `not done -- tried, but the ground was frozen` says why.
_WHY_NOT_DONE = word_set("off tried")
# A remark that begins so says of an act that puts on what came off: `wired -- came off again`; of
# a word that may be a noun, more words do: `tie -- cut`.
_CAME_OFF = word_set("off removed remove taken came gone undone fell slipped")
# What nobody finds well.
_FOUND_WRONG = word_set("biting loose tight broken cracked damaged rotten dead eaten")
# A disease of seedlings, and what is done to them before they stand outside.
_DAMPING = re.compile(r"(?i)\b(?:damp|harden)(?:ing|ed)[ -]off\b")
_PLACES = PART_WORDS - word_set("first second third")
# Without one of these among its first three words a remark turns nothing.
_TURNS = frozenset().union(_IN_REMARK, _PAIRS_IN_REMARK, REMOVED, _FOUND_WRONG, _PLACES)
_LOOKED_AT = 80
# A remark that begins so takes back what stands before it: `lost -- no, karl had it`.
_TAKEN_BACK = re.compile(
    r"(?i)(?:no(?=\s*[,.;:!]|\s*$)|nope\b|nah\b|(?:just )?(?:a )?(?:joke|joking|kidding)\b|"
    r"(?:my )?mistake\b|false alarm\b|never ?mind\b|scratch that\b|forget that\b|or so\b|"
    r"found again\b|(?:turned|turns) up again\b|(?:the )?(?:cheque )?bounced\b|promised\b|wrong\b|"
    r"\?|or\b|draft\b|remind(?:er|ed)\b|by mistake\b|meant \w+|(?:and )?straight back\b|"
    r"(?:and )?(?:back )?on again\b|and on\s*$|too \w+, back\b|\d+ of (?:them|these)\b)"
)
# A count of some, or a word for it.
_SOME_OF = (
    r"(?:(?:just |only |about )?(?:one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve"
    r"|a dozen|both|some|a few|a couple|several|many|most|half|part|\d+))"
)
_MANY = (
    r"(?:\w+ )?(?:ones?|lot|batch|trees|whips|seedlings|cuttings|two|three|four|five|six|seven"
    r"|eight|nine|ten|eleven|twelve|\d+)"
)
# A remark that begins so makes less of what ends or goes away: `sold, 300 EUR -- if she agrees`,
# `died -- the weak ones`.
_LESS = re.compile(
    r"(?i)(?:if|unless|started|interrupted|reserved|refused|alive|maybe)\b|"
    r"(?:the )?(?:weak|weakest|best|small|smallest|big|biggest|first|last|other|ten \w+) ones\b|"
    rf"of (?:these|those|them)\b|of the {_MANY}\b|"
    r"first tray|more next|it lives\b|i think\b|still (?:green|alive)\b|"
    r"who knows|fell through|buyer never|no answer|"
    rf"{_SOME_OF} of (?:them|these|those|the|it)\b|"
    r"(?:he|she|they) (?:changed|was|were|is|are)(?: \w+)? (?:mind|out)\b|"
    r"(?:and )?(?:brought|came|took it) (?:it )?(?:back|home again)\b"
)
# And less of what comes off: `unwired -- apex stays`, `unwired -- most of it`.
_LESS_OFF = re.compile(
    r"(?i)(?:most|bar|save|part)\b|"
    r"(?:one|two|three|four|five|ten|\d+)(?: of\b|(?: branch(?:es)?)?\s*(?:[,.;]|$))|"
    r"(?:lower|upper|outer|inner|top|bottom) branch|everything (?:below|above|under)|"
    rf"(?:the )?(?:{'|'.join(sorted(PART_WORDS))})(?: \w+)? (?:stays?|still on|left on|lives?)\b|"
    r"left the [\w-]+ on|still (?:on|wired)\b|(?:and |then )?(?:re-?wired|wired again|new wire)\b"
)
# What is still to come has not ended anything yet: `returned -- she'll come on sunday`.
_TO_COME = re.compile(r"(?i)(?:\S+ ){0,3}(?:will\b|\S+['’]ll\b|going to\b|to be \w+)")
_NOT_DONE = re.compile(r"(?i)\bnot\s+done\b")


def doubt_of(form: ActForm, act: Act) -> Flaw | None:
    """What holds back an act beside its text: what was refused below it, or its remark."""
    if form.prose:
        return None
    if act.left_out and (
        form.bearing == "ends"
        or act.word.casefold() in form.bare_words
        or limiter_among((act.left_out,), LIMITING - says_off(form.forms))
    ):
        return Flaw(
            HELD_CODE,
            0,
            0,
            0,
            f"“{_short(act.left_out)}” below may go on with this line, {CHANGES_NOTHING}",
            "If it goes on with it, join the two; if not, put it at the same depth.",
        )
    limiter = _limiter_in_remark(form, act) if act.remark else ""
    return _flaw_of_remark(form, act, limiter) if limiter else None


def _limiter_in_remark(form: ActForm, act: Act) -> str:
    """Return the word that turns what stands before the remark, or "".

    A plan, a skip and a correction give their reason there: `skipped repot -- not strong enough`.
    What takes a whole line back gives none that makes less of it.
    """
    if turns_nothing(act.remark):
        return ""
    text = act.remark[:_LOOKED_AT].casefold()
    turned = _TAKEN_BACK.match(text) if not form.names_act and form.bearing != "keeps" else None
    if turned is None and form.bearing == "ends" and form.word != LOOK and not form.names_act:
        turned = _TO_COME.match(text) or _LESS.match(text)
        if turned is None and any(one.part for one in form.forms):
            turned = _LESS_OFF.match(text)
    if turned is not None:
        return turned[0]
    if not form.names_act and form.bearing != "keeps" and (turn := remark_that_turns(act.remark)):
        return turn
    if "off" in text:
        text = _DAMPING.sub("", text)
    said = WORD.findall(text)
    words = _IN_REMARK - says_off(form.forms) if "off" in said else _IN_REMARK
    size = _FIRST_WORDS[form.bearing]
    if form.names_act:
        if not _NOT_DONE.search(act.text):
            return ""
        words -= _WHY_NOT_DONE
    first = said[:size]
    if "but" in first[1:] and first[0] not in _OF_ALL_BUT:
        # `fine, but look again` goes on; `all but the apex` takes back.
        words -= {"but"}
    if said[1:2] == ["than"]:
        # `later than usual` compares.
        words -= {"later"}
    limiter = first_limiter(first, words, question=False)
    if limiter or form.names_act:
        return limiter
    for word, after in zip(first, said[1:], strict=False):
        # `next year less` is a thought about what was done.
        if after in _PAIRS_IN_REMARK.get(word, ()) and (word != "next" or len(said) == 2):
            return f"{word} {after}"
    if form.undone_by:
        off = REMOVED if act.word.casefold() in form.bare_words else _CAME_OFF
        return first_limiter(said[:3], off, question=False)
    return _elsewhere_in_remark(form, act, said) if form.bearing == "ends" else ""


@lru_cache(maxsize=50_000)
def turns_nothing(remark: str) -> bool:
    """Whether a remark begins with no word that could turn what any act says, as most do."""
    text = remark[:_LOOKED_AT].casefold()
    if any(said.match(text) is not None for said in (_TAKEN_BACK, _TO_COME, _LESS, _LESS_OFF)):
        return False
    if remark_that_turns(remark):
        return False
    if "off" in text:
        text = _DAMPING.sub("", text)
    first = [found[0] for found in islice(WORD.finditer(text), 3)]
    return _TURNS.isdisjoint(first) and not any(ending in text for ending in NOT)


def _elsewhere_in_remark(form: ActForm, act: Act, said: Sequence[str]) -> str:
    """What was found wrong, or the part of the tree, that a remark begins with."""
    where = said[1:2] if said[:1] in (["on"], ["the"]) else said[:1]
    if form.word == LOOK:
        read = set(WORD.findall(act.text.casefold()))
        return first_limiter(said[:3], _FOUND_WRONG - read, question=False) or first_limiter(
            where, _PLACES, question=False
        )
    # `unwired -- left 1 has a faint mark` tells of what was under it.
    return first_limiter(where, _PLACES, question=False) if form.word in ENDS_OF_TREES else ""


def _flaw_of_remark(form: ActForm, act: Act, limiter: str) -> Flaw:
    """The problem of an act that its remark may take back."""
    return Flaw(
        HELD_CODE,
        0,
        0,
        0,
        f"the remark says “{limiter}”, {CHANGES_NOTHING}",
        _hint_of_remark(form, act, limiter),
    )


def _hint_of_remark(form: ActForm, act: Act, limiter: str) -> str:
    """How to write it; never the act without what made less of it."""
    written = f"{form.word} {act.text}".rstrip()
    as_words = f"write “noted {_short(written)} -- {_short(act.remark)}”."
    if form.bearing == "ends" and form.word != LOOK:
        if form.of_all:
            return f"Say how many before the dashes; where it is not so, {as_words}"
        if any(one.part for one in form.forms):
            return f"Say where it came off before the dashes; where it is not so, {as_words}"
        return f"Where it is not so, {as_words}"
    is_undone = bool(form.undone_by) and limiter.casefold() in REMOVED
    if is_undone or _TAKEN_BACK.match(act.remark.casefold()):
        return f"Where it is not so, {as_words}"
    rest = _short(act.remark)
    return f"Write only what was done, and the rest on a line of its own: noted {rest}"


def _short(words: str) -> str:
    return words if len(words) <= 120 else f"{words[:120].rsplit(' ', 1)[0]} …"
