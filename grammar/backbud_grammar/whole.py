"""How much of an act was understood, and whether what was not holds it back.

An act that takes off, takes away, ends or finds well is only done where all of its line is
understood. Any act is held back by an unread word that limits or takes back what it says.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from functools import cache, lru_cache
from itertools import islice

from msgspec.structs import replace

from backbud_grammar.act_words import ActWord, DetailName
from backbud_grammar.acts.watching import AWAITED
from backbud_grammar.elsewhen import elsewhen
from backbud_grammar.forms import ActForm, Form
from backbud_grammar.hints import PART_WORDS
from backbud_grammar.lexicon import REMARK_HINT, SHARES, Lexicon
from backbud_grammar.parse import ActReading
from backbud_grammar.parts import flaw_of_part, spelled_out
from backbud_grammar.problems import Flaw
from backbud_grammar.sayings import saying
from backbud_grammar.syntax import Act, Detail

# The act of a line that is held back; nobody can write it, since it is two words.
HELD = "held back"
HELD_CODE = "held-back"
CHANGES_NOTHING = "so this line is held back and changes nothing"


def _set(words: str) -> frozenset[str]:
    return frozenset(words.split())


# What takes back the words before or behind it.
_DENIES = _set(
    "not cannot never except excepting excluding exc excl apart but yet rest partly remaining"
)
# What makes less of an act than it says, or none of it yet.
_LIMITS = _DENIES | _set(
    "only half off nearly almost hardly barely tried try trying wanted want wants "
    "should would could might maybe perhaps probably failed"
)
_UNREAD = _LIMITS | _set(
    "if unless when "
    "no nor none nothing neither without next later soon tomorrow todo todo's need needs needed "
    "postponed cancelled canceled delayed forgot forgotten wait waits waiting til till until due "
    "will won't would overdue planned ordered booked considered considering intend intended "
    "suggested advised supposed refused declined"
)
# No word of a journal's own may hide one of these.
LIMITING = _UNREAD
# No part of a tree is so called: these say more than where.
_NOT_OF_A_PART = _set(
    "and then was were is are has have had still to need needs nearly almost maybe should "
    "except excepting excluding but not never yet rest partly only no without remaining off "
    "this time year until i think guess tomorrow tmrw tmr soon later next week month yesterday"
)
# An act that puts on says the contrary beside one of these: `tie removed`.
_REMOVED = _set(
    "off removed remove gone out away taken took cut came loose loosened undone down "
    "broke broken snapped fell slipped split torn"
)
_COMES_OFF = _REMOVED | _set("is was all of the it on")
# Who loses these does not lose the tree: `lost to squirrels all buds`, but `died of root rot`.
_OF_A_TREE = PART_WORDS | _set(
    "leaf leaves bud buds flower flowers shoot shoots tip tips twig twigs needle needles candle "
    "candles jin shari graft layer pot"
)
_WHAT_WAS_DONE = (
    "Write only what was done, each part in a detail of its own; the rest goes on a line that "
    "begins with noted."
)
_OF_ALL_LIMITS = _LIMITS | {"on", "and"}
# `checked for biting wire` tells what was found, not what was looked for.
_ENDS_DENIES = _DENIES | {"only", "biting", "fine"}
# What these say describes a tree, or what may become of it: `condition fine`.
_DESCRIBES: frozenset[DetailName] = frozenset({"condition", "risk"})
# A remark is free; only its first words can turn what stands before it.
_FIRST_WORDS = {"does": 1, "keeps": 1, "ends": 3}
_OF_ALL_BUT = _set("all everything nothing none any anything")
_IN_REMARK = _set(
    "not except excepting excluding only but half partly rest yet off nearly almost hardly tried "
    "soon tomorrow later todo postponed cancelled canceled delayed forgot forgotten"
)
# The same in two words: `no time` was none to do it in, `no marks` is what was found.
_PAIRS_IN_REMARK = {
    "no": _set("time need chance light strength tools wire pot soil mix longer"),
    "to": _set("do"),
    "next": _set("week month year spring summer autumn winter"),
}
# `not done -- tried, but the ground was frozen` says why.
_WHY_NOT_DONE = _set("off tried")
# A remark that begins so says of an act that puts on what came off: `wired -- came off again`; of
# a word that may be a noun, more words do: `tie -- cut`.
_CAME_OFF = _set("off removed remove taken came gone undone fell slipped")
# What nobody finds well.
_FOUND_WRONG = _set("biting loose tight broken cracked damaged rotten dead eaten")
# A disease of seedlings, and what is done to them before they stand outside.
_DAMPING = re.compile(r"(?i)\b(?:damp|harden)(?:ing|ed)[ -]off\b")
_PLACES = PART_WORDS - _set("first second third")
_WORD = re.compile(r"[^\W\d_]+(?:['’][^\W\d_]+)*|\?")
# Without one of these among its first three words a remark turns nothing.
_TURNS = frozenset().union(_IN_REMARK, _PAIRS_IN_REMARK, _REMOVED, _FOUND_WRONG, _PLACES)
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
SOME_OF = (
    r"(?:(?:just |only |about )?(?:one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve"
    r"|a dozen|both|some|a few|a couple|several|many|most|half|part|\d+))"
)
# A remark that begins so makes less of what ends or goes away: `sold, 300 EUR -- if she agrees`,
# `died -- the weak ones`.
_LESS = re.compile(
    r"(?i)(?:if|unless|started|interrupted|reserved|refused|alive|maybe)\b|"
    r"(?:the )?(?:weak|weakest|best|small|smallest|big|biggest|first|last|other|ten \w+) ones\b|"
    r"of the \w+ (?:\w+ )?ones\b|first tray|more next|it lives\b|i think\b|still (?:green|alive)\b|"
    r"who knows|fell through|buyer never|no answer|"
    rf"{SOME_OF} of (?:them|these|those|the|it)\b|"
    r"(?:he|she|they) (?:changed|was|were|is|are)(?: \w+)? (?:mind|out)\b|"
    r"(?:and )?(?:brought|came|took it) (?:it )?(?:back|home again)\b"
)
# And less of what comes off: `unwired -- apex stays`, `unwired -- most of it`.
_LESS_OFF = re.compile(
    r"(?i)(?:most|bar|save|part)\b|"
    r"(?:one|two|three|four|five|ten|\d+)(?: of\b|(?: branch(?:es)?)?\s*(?:[,.;]|$))|"
    r"(?:lower|upper|outer|inner|top|bottom) branch|everything (?:below|above|under)|"
    rf"(?:the )?(?:{'|'.join(sorted(PART_WORDS))})(?: \w+)? (?:stays?|still on|left on|lives?)\b|"
    r"left the [\w-]+ on|still (?:on|wired)\b"
)
# What is still to come has not ended anything yet: `returned -- she'll come on sunday`.
_TO_COME = re.compile(r"(?i)(?:\S+ ){0,3}(?:will\b|\S+['’]ll\b|going to\b|to be \w+)")
_NOT = ("n't", "n’t")
_RUN = re.compile(r"[^,\s][^,]*")
_NOT_DONE = re.compile(r"(?i)\bnot\s+done\b")
# Before a noun these tell what it is like: `potted beauty`.
_DESCRIBING = frozenset({"potted"})
# It finds what is there, and takes nothing off.
_LOOK: ActWord = "checked"
_MOVE: ActWord = "moved"
# What ends a tree is said of all of it: `died -- back on left 1` is said of a branch.
_ENDS_OF_TREES: tuple[ActWord, ...] = ("died", "lost")


def unread_in(text: str, reading: ActReading) -> tuple[str, ...]:
    """Return the runs of words, between commas, that belong to no detail.

    The act that a plan, a skip or a correction names is one of the words that were read.
    """
    left = list(text)

    def blank(start: int, end: int) -> None:
        left[start:end] = " " * (min(end, len(left)) - start) if start < len(left) else ""

    if reading.named:
        blank(0, len(text.split(None, 1)[0]))
    for detail, start in zip(reading.details, reading.starts, strict=True):
        blank(start + detail.offset, start + detail.offset + detail.length)
    runs = (found[0].rstrip() for found in _RUN.finditer("".join(left)))
    return tuple(run for run in runs if run not in SHARES)


def told(
    form: ActForm,
    word: str,
    text: str,
    reading: ActReading,
    flaws: Sequence[Flaw],
    forms: Sequence[Form],
) -> tuple[bool, tuple[Flaw, ...]]:
    """Return whether an act is held back by its own text, and its flaws, which then say so.

    `word`: as it is written. `flaws`: all that was found in the line. `forms`: those of the act,
    and of the act that it names.
    """
    if form.prose:
        return False, tuple(flaws)
    wrong = [flaw for flaw in flaws if flaw.code != "empty-detail"]
    turn = _turn_of_speech(form, text, reading, wrong)
    if turn:
        return True, (_of_speech(turn),)
    if wrong:
        unread = _not_understood(text, reading, wrong)
        if (
            form.bearing == "ends"
            or word.casefold() in form.bare_words
            or (form.names_act and not reading.named)
            or _is_undone(form, unread)
            or _is_of_roots(form, unread)
            or _puts_on_nothing_read(form, reading, wrong)
            or _limiter(unread, _UNREAD - _own(forms))
            or _done_elsewhen(form, text, unread)
            or (word.casefold() in _DESCRIBING and not reading.details)
        ):
            first = replace(
                wrong[0],
                message=f"{wrong[0].message}, {CHANGES_NOTHING}",
                hint=_hint(form, word, text, unread, wrong[0]),
            )
            return True, tuple(first if flaw is wrong[0] else flaw for flaw in flaws)
    if form.word == _MOVE and not any(detail.name == "to" for detail in reading.details):
        return True, (*flaws, _no_place())
    found = _limiter_read(form, word, reading, forms)
    if found is None and form.word in _ENDS_OF_TREES:
        found = _no_cause(reading)
    if found is None and form.bearing == "ends" and "?" in text:
        # Who asks does not say that it is so: `died of frost?`.
        found = "?", text.index("?")
    if found is None:
        return False, tuple(flaws)
    return True, (*flaws, _held(form, text, *found))


# So many words name what a tree died of, or was lost to: `red spider mite`.
_LONGEST_CAUSE = 3
_GOES_ON = _set("in at on behind under over for with waiting all")


def _no_cause(reading: ActReading) -> tuple[str, int] | None:
    """What is said of a tree's end and names nothing that ends one: `died of 3`, `lost to view
    behind the pine`."""
    for detail, start in zip(reading.details, reading.starts, strict=True):
        said = detail.words.split()
        if (
            len(said) > _LONGEST_CAUSE
            or not _GOES_ON.isdisjoint(map(str.casefold, said))
            or any(sign.isdigit() for sign in detail.words)
        ):
            return detail.words, start + detail.offset
    return None


def _turn_of_speech(form: ActForm, text: str, reading: ActReading, wrong: Sequence[Flaw]) -> str:
    """The turn of speech that a text begins with; "" where it is read all the same, as a place
    that is called so."""
    said = saying(form.word, text)
    is_read = not wrong and any(one.handle or one.measure for one in reading.details)
    return "" if is_read else said


def _of_speech(turn: str) -> Flaw:
    return Flaw(
        HELD_CODE,
        0,
        0,
        len(turn),
        f"“{turn}” here may be a turn of speech, {CHANGES_NOTHING}",
        "Where nothing was done to the tree, begin the line with noted.",
    )


def _no_place() -> Flaw:
    return Flaw(
        HELD_CODE,
        0,
        0,
        0,
        f"nobody said where to, {CHANGES_NOTHING}",
        "Name the place, and then what it was for: moved tunnel, for winter.",
    )


def _not_understood(text: str, reading: ActReading, wrong: Iterable[Flaw]) -> list[str]:
    """The words that no form took, and those that one took and that name nothing."""
    return [
        *unread_in(text, reading),
        *(text[flaw.column : flaw.column + flaw.length] for flaw in wrong),
    ]


def doubt_of(form: ActForm, act: Act) -> Flaw | None:
    """What holds back an act beside its text: what was refused below it, or its remark."""
    if form.prose:
        return None
    if act.left_out and (
        form.bearing == "ends"
        or act.word.casefold() in form.bare_words
        or _limiter((act.left_out,), _UNREAD - _own(form.forms))
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
    return _flaw_of_remark(limiter, act.remark) if limiter else None


def _limiter_in_remark(form: ActForm, act: Act) -> str:
    """Return the word that turns what stands before the remark, or "".

    A plan, a skip and a correction give their reason there: `skipped repot -- not strong enough`.
    What takes a whole line back gives none that makes less of it.
    """
    if _turns_nothing(act.remark):
        return ""
    text = act.remark[:_LOOKED_AT].casefold()
    turned = _TAKEN_BACK.match(text) if not form.names_act and form.bearing != "keeps" else None
    if turned is None and form.bearing == "ends" and form.word != _LOOK and not form.names_act:
        turned = _TO_COME.match(text) or _LESS.match(text)
        if turned is None and any(one.part for one in form.forms):
            turned = _LESS_OFF.match(text)
    if turned is not None:
        return turned[0]
    if "off" in text:
        text = _DAMPING.sub("", text)
    said = _WORD.findall(text)
    words = _IN_REMARK - _own(form.forms) if "off" in said else _IN_REMARK
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
    limiter = _first_of(first, words, question=False)
    if limiter or form.names_act:
        return limiter
    for word, after in zip(first, said[1:], strict=False):
        # `next year less` is a thought about what was done.
        if after in _PAIRS_IN_REMARK.get(word, ()) and (word != "next" or len(said) == 2):
            return f"{word} {after}"
    if form.undone_by:
        off = _REMOVED if act.word.casefold() in form.bare_words else _CAME_OFF
        return _first_of(said[:3], off, question=False)
    return _elsewhere_in_remark(form, act, said) if form.bearing == "ends" else ""


@lru_cache(maxsize=50_000)
def _turns_nothing(remark: str) -> bool:
    """Whether a remark begins with no word that could turn what any act says, as most do."""
    text = remark[:_LOOKED_AT].casefold()
    if any(said.match(text) is not None for said in (_TAKEN_BACK, _TO_COME, _LESS, _LESS_OFF)):
        return False
    if "off" in text:
        text = _DAMPING.sub("", text)
    first = [found[0] for found in islice(_WORD.finditer(text), 3)]
    return _TURNS.isdisjoint(first) and not any(ending in text for ending in _NOT)


def _elsewhere_in_remark(form: ActForm, act: Act, said: Sequence[str]) -> str:
    """What was found wrong, or the part of the tree, that a remark begins with."""
    where = said[1:2] if said[:1] in (["on"], ["the"]) else said[:1]
    if form.word == _LOOK:
        read = set(_WORD.findall(act.text.casefold()))
        return _first_of(said[:3], _FOUND_WRONG - read, question=False) or _first_of(
            where, _PLACES, question=False
        )
    # `unwired -- left 1 has a faint mark` tells of what was under it.
    return _first_of(where, _PLACES, question=False) if form.word in _ENDS_OF_TREES else ""


def _flaw_of_remark(limiter: str, remark: str) -> Flaw:
    """The problem of an act that its remark may take back."""
    return Flaw(
        HELD_CODE,
        0,
        0,
        0,
        f"the remark says “{limiter}”, {CHANGES_NOTHING}",
        f"Write only what was done, and the rest on a line of its own: noted {_short(remark)}",
    )


def _short(words: str) -> str:
    return words if len(words) <= 40 else f"{words[:40].rsplit(' ', 1)[0]} …"


def _own(forms: Iterable[Form]) -> frozenset[str]:
    """`off`, where the act itself says what came off: `pruned bits off` limits nothing."""
    says = any(
        "off" in phrase.split()
        for form in forms
        for phrase in (*form.labels, *form.words, form.name)
    )
    return frozenset({"off"}) if says else frozenset()


def limiter_in(text: str) -> str:
    """The first word of a text that may limit or take back what an act says, or ""."""
    return _first_of(_WORD.findall(text), _UNREAD)


def _limiter(unread: Iterable[str], words: frozenset[str]) -> str:
    return _first_of([w for run in unread for w in _WORD.findall(run)], words)


def _first_of(said: Iterable[str], words: frozenset[str], *, question: bool = True) -> str:
    for word in said:
        folded = word.casefold()
        if folded in words or folded.endswith(_NOT) or (question and word == "?"):
            return word
    return ""


def _is_undone(form: ActForm, unread: Sequence[str]) -> bool:
    """Whether an act that puts on is said of something that comes off."""
    if not form.undone_by or not unread:
        return False
    said = {w.casefold() for run in unread for w in _WORD.findall(run)}
    return not _REMOVED.isdisjoint(said)


def _is_of_roots(form: ActForm, unread: Sequence[str]) -> bool:
    """Whether what is cut is roots: `pruned roots by a third` is no pruning of branches."""
    return form.work == "branches" and any("root" in run.casefold() for run in unread)


def _done_elsewhen(form: ActForm, text: str, unread: Sequence[str]) -> str:
    """What puts an act that is done on another day, or into other hands; a plan is of one."""
    if form.bearing != "does" or form.names_act:
        return ""
    return elsewhen((*unread, *text.split(", ")))


def _puts_on_nothing_read(form: ActForm, reading: ActReading, wrong: Iterable[Flaw]) -> bool:
    """Whether what is put on, somewhere on a tree or its pot, is said in words of which none was
    read: `tied w wire` may be the cracked pot.

    Bare `wired` is understood; of `wired zyxxy` nobody could say what is on, or take it off.
    """
    refused = {flaw.column for flaw in wrong}
    return (
        bool(form.undone_by)
        and (form.word == "tied" or any(one.part for one in form.forms))
        and all(
            detail.name == "by" or start + detail.offset in refused
            for detail, start in zip(reading.details, reading.starts, strict=True)
        )
    )


def _limiter_read(
    form: ActForm, word: str, reading: ActReading, forms: Sequence[Form]
) -> tuple[str, int] | None:
    """The first limiter in what was read as free words or as a part, and where its detail is."""
    strict = form.bearing == "ends" or word.casefold() in form.bare_words
    for detail, start in zip(reading.details, reading.starts, strict=True):
        found = _in_part(detail.part, strict=strict) if detail.part else ""
        if _is_of_nothing(form, detail):
            found = "0"
        if not found and detail.words and detail.name not in _DESCRIBES:
            found = _in_free(detail.words, of_all=form.of_all, ends=form.bearing == "ends")
            if found and not any(one.free and one.name == detail.name for one in forms):
                found = ""
        if found:
            return found, start + detail.offset
    if form.word == _LOOK:
        return _not_seen(form, reading)
    return _beside_not_done(reading) if form.names_act else None


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
        or not lexicon.label_heads.isdisjoint(folded)
        or "of" in folded
        or "?" in written
    ):
        return False
    part = " ".join(words)
    strict = form.bearing == "ends" or word.casefold() in form.bare_words
    return flaw_of_part(part) is None and not _in_part(spelled_out(part), strict=strict)


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
    words = _WORD.findall(said)
    if of_all:
        last = words[-1:] if words and words[-1].casefold() in _OF_A_TREE else []
        return _first_of(words, _OF_ALL_LIMITS, question=False) or "".join(last)
    return _first_of(words, _ENDS_DENIES if ends else _DENIES, question=False)


@cache
def _in_part(part: str, *, strict: bool) -> str:
    """`left half` is a part, and so is `the lower half`; `half of left 1` is less than one."""
    words = _WORD.findall(part)
    if words[:1] == ["half"] or words[:2] == ["the", "half"]:
        return "half"
    return _first_of(words, _NOT_OF_A_PART if strict else _DENIES)


def _held(form: ActForm, text: str, limiter: str, at: int) -> Flaw:
    found = re.search(rf"\b{re.escape(limiter)}" if limiter != "?" else r"\?", text[at:])
    column = at + found.start() if found else at
    hint = _not_all_of_it(form, text) if form.of_all else _WHAT_WAS_DONE
    if limiter == "?":
        hint = _WHO_ASKS
    elif limiter.casefold() == "off" and form.undone_by:
        hint = _came_off(form, text)
    return Flaw(
        HELD_CODE,
        0,
        column,
        len(limiter),
        f"“{limiter}” may change what this line says, {CHANGES_NOTHING}",
        hint,
    )


def _hint(form: ActForm, word: str, text: str, unread: Sequence[str], flaw: Flaw) -> str:
    """How to write it: what was meant, before what was expected."""
    hint = flaw.hint
    if form.bearing == "ends":
        # Behind the dashes its words would no longer hold it back.
        hint = hint.replace(REMARK_HINT, "").rstrip()
    if "?" in " ".join(unread):
        return _WHO_ASKS
    if _is_undone(form, unread):
        return _came_off(form, text)
    if form.of_all and flaw.code in ("unknown-detail", "unknown-word", "unexpected-measure"):
        return " ".join(filter(None, (_not_all_of_it(form, text), hint)))
    if word.casefold() in form.bare_words and form.bearing != "ends":
        return f"Write {form.word} where it was done, noted where it was only seen. {hint}"
    if _limiter(unread, _UNREAD) and hint.startswith(("Did you mean", "Expected", "Give it")):
        return _WHAT_WAS_DONE
    return hint


_WHO_ASKS = "Who asks does not say that it is so: begin the whole line with noted."


def _came_off(form: ActForm, text: str) -> str:
    """`wire off right 2`: the act that takes it off again, and where."""
    words = [word.strip(",") for word in text.split()]
    part = [word for word in words if word.casefold() not in _COMES_OFF]
    takes_part = any(one.part for one in form.forms)
    where = f" on {' '.join(part)}" if takes_part and part and part[0] in PART_WORDS else ""
    return f"Where it came off, write {form.undone_by}{where}."


def _not_all_of_it(form: ActForm, text: str) -> str:
    return f"Where it was not all of the tree, write noted: noted {form.word} {text}."


def words_over(text: str, reading: ActReading) -> tuple[str, ...]:
    """Return the words of an act that were not used."""
    return unread_in(text, reading) if reading.flaws else ()
