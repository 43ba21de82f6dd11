"""What to write for a whole line of which only part was understood: its acts, and a note below."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence

from msgspec.structs import replace

from backbud.journal.act_places import line_of
from backbud.journal.heard import HeardAct
from backbud_grammar.act_words import ActWord
from backbud_grammar.details import part_at_commas
from backbud_grammar.forms import ActForm
from backbud_grammar.held_back import HELD
from backbud_grammar.held_hints import has_lost_its_sum, may_be_of_some
from backbud_grammar.lexicon import REMARK_HINT
from backbud_grammar.limiters import ENDS_OF_TREES, LIMITING, REMOVED, limiter_among, word_set
from backbud_grammar.limiters_read import turn_behind
from backbud_grammar.problems import KEPT, Flaw, meant_in
from backbud_grammar.scribbles.turns import turns
from backbud_grammar.syntax import Act

# The place that a tree went to is a word; any other single one may be another's: `N side poor`.
_BY_ONE_WORD: tuple[ActWord, ...] = ("moved",)
# `in 28-9` is where it went, and when.
_WENT = re.compile(
    r"(?:back )?(?:in|out|inside|outside|indoors|outdoors) (?:on |since )?(\d{1,2}[./-]\d{1,2})",
    re.IGNORECASE,
)
_DONE, _ALL_OF_IT = "Where it was done", "Where it was all of the tree"
_CUT_TO = re.compile(r"to\b")
_BY_ITSELF = re.compile(r"\w+[.!;:]")
# What has sizes, and the unit that one without may be meant in; the other one is named beside it.
_SIZES: ActWord = "measured"
_UNIT, _OR_INCH = " cm", " Where it was inch, write that for cm."
# What mends a line takes the whole of what it names.
_MENDS: ActWord = "corrected"
# `bought off Gil`.
_OFF_IS_FROM: tuple[ActWord, ...] = ("bought", "received")
# With no sum they say nothing; what stands before more, or behind the sign, is the sum.
_OF_MONEY: tuple[ActWord, ...] = ("quoted", "agreed", "billed", "credited", "paid")
_SUM = re.compile(
    r"^(\d+(?:[.,]\d\d)?)(?= (?:\+|sent|in all|total)(?!\w))|= ?(\d+(?:[.,]\d\d)?)(?!\S)"
)
# It takes nothing off.
_LOOKS: ActWord = "checked"
# Whether an act would be read with nothing left to ask.
IsSound = Callable[[str, str], bool]
# A line this long is prose, and a hint as long is none.
LONGEST = 200
# Behind these stands what the words before them are of: `off 1/3` is not `off 1/3 of the left`.
_SAID_OF = word_set("of on in at than or and & + / - -> not no but")


def whole_hint(
    written: Act,
    heard: Sequence[HeardAct],
    form_of: Callable[[str], ActForm | None],
    is_sound: IsSound,
) -> str:
    """How to write a line whose acts were heard so that nothing is left to ask and no word is lost;
    "" where its acts would say more than was meant.

    `written`: the line as it stands. What is offered was read, and found sound.
    """
    acts: list[str] = []
    noted: list[str] = []
    in_doubt, asked = False, ""
    for one in heard:
        act, form = one.act, form_of(one.act.word)
        if form is None:
            return ""
        if form.prose:
            noted.append(act.text)
            continue
        wrong = [flaw for flaw in one.flaws if flaw.severity != KEPT]
        read, unread = act.text, list[str]()
        if wrong:
            no_unit = form.word == _SIZES and any(flaw.code == "no-unit" for flaw in wrong)
            read, unread = _parted(form.word, act.text, is_sound, has_no_unit=no_unit)
        by_itself = _BY_ITSELF.match(line_of(written)) is not None
        is_noun = act.word.casefold() in form.bare_words
        if wrong and is_noun and (form.undone_by or not read):
            # `guy on left 2 slackened` is one that was on, `repot needed` none that was done.
            return ""
        if wrong and not _may_be_offered(form, read, unread, is_sound, by_itself=by_itself):
            return ""
        if _tells_of_another(form, read, unread, wrong):
            return ""
        asked = _ALL_OF_IT if by_itself and form.word in ENDS_OF_TREES and wrong else asked
        in_doubt = (
            in_doubt
            or bool(asked)
            or (bool(unread) and not read)
            or _is_in_doubt(form, act, unread)
        )
        acts.append(f"{form.word} {read}".rstrip())
        noted += [*unread, *act.kept, act.remark]
    rest = ", ".join(dict.fromkeys(filter(None, noted)))
    if not acts or not rest:
        return ""
    said = ", below it ".join(f"“{line}”" for line in acts)
    said = f"rite {said}, and below it “noted {rest}”"
    said += _where_it_went(noted)
    unit = _OR_INCH if _UNIT in said and _UNIT not in line_of(written) else ""
    if not in_doubt:
        return f"W{said}.{unit}"
    whole = " -- ".join(filter(None, (line_of(written), written.remark)))
    return f"{asked or _DONE}, w{said}; where it was not, write “noted {whole}”.{unit}"


def _where_it_went(noted: Sequence[str]) -> str:
    """What to write where a note says that it went in or out on another day."""
    day = next((one[1] for one in map(_WENT.fullmatch, noted) if one is not None), "")
    return f" (“{_BY_ONE_WORD[0]}” and the place below the heading of {day})" if day else ""


def _parted(word: str, text: str, is_sound: IsSound, *, has_no_unit: bool) -> tuple[str, list[str]]:
    """The pieces of a text that are read together, and the rest of it."""
    read: list[str] = []
    unread: list[str] = []
    for _, piece in part_at_commas(text):
        if is_sound(word, ", ".join((*read, piece))):
            read.append(piece)
            continue
        total = _SUM.search(piece) if word in _OF_MONEY and not read else None
        if total is not None and is_sound(word, total[1] or total[2]):
            read.append(total[1] or total[2])
            unread.append(piece)
            continue
        words, turned = piece.split(), len(turn_behind(piece).split())
        for n in range(len(words) - 1, 0 if word in _BY_ONE_WORD else 1, -1):
            begun = " ".join(words[:n])
            if len(words) - n < turned:
                # `the can last` is none of `the can last week`.
                continue
            if begun[-1].isdecimal():
                # A figure is of the word behind it: `16.5 h`. But a length may have lost its unit.
                if not has_no_unit:
                    continue
                begun = f"{begun}{_UNIT}"
            if words[n][0].isdecimal() or words[n].casefold() in _SAID_OF | LIMITING:
                # `on left` is not `on left 1`, nor `fine` what is `fine except low down`.
                continue
            if is_sound(word, ", ".join((*read, begun))):
                read.append(begun)
                unread.append(" ".join(words[n:]))
                break
        else:
            unread.append(piece)
    return ", ".join(read), unread


def _may_be_offered(
    form: ActForm, read: str, unread: Sequence[str], is_sound: IsSound, *, by_itself: bool
) -> bool:
    """Whether an act may be offered by what was read of it; what comes off never without where.

    `by_itself`: the word was a sentence of its own.
    """
    if not unread or may_be_of_some(form, unread) or not is_sound(form.word, read):
        return False
    if form.word == _MENDS:
        return False
    if has_lost_its_sum(form, [read], unread):
        return False
    # Between two commas may stand nothing.
    first, *_ = unread[0].casefold().split() or ("",)
    if not read and first in LIMITING | REMOVED and form.word not in _OFF_IS_FROM:
        # `fed off` is cakes that were taken away.
        return False
    if form.of_all or form.word in ENDS_OF_TREES:
        # `lost leaves` is never that; `DEAD. pot scrubbed` may be, and is asked.
        return by_itself and not read
    if form.bearing == "ends" and form.word != _LOOKS and any(one.part for one in form.forms):
        return ", on " in f", {read}"
    says_nothing_bare = (
        form.undone_by or form.needs_detail or form.names_act or form.word in (_LOOKS, *_OF_MONEY)
    )
    return bool(read) or not says_nothing_bare


def _tells_of_another(
    form: ActForm, read: str, unread: Sequence[str], wrong: Sequence[Flaw]
) -> bool:
    """Whether what was not read says that the act was another: `watered 14 days, bottle wine` tells
    of who was away, and `candles 4 cm up, to half` that they were cut, not measured."""
    if form.word == _SIZES:
        return any(_CUT_TO.match(piece) for piece in unread)
    return not read and any(flaw.code == "wrong-measure" for flaw in wrong)


def _is_in_doubt(form: ActForm, act: Act, unread: Sequence[str]) -> bool:
    return any(limiter_among((one,), LIMITING) or turns(one) for one in unread) or (
        bool(unread) and act.word.casefold() in form.bare_words
    )


# Hints that say what an act takes, and not what to write.
_OF_THE_ACT = ("Expected", "Here may follow", "Write only what was done", "For example")
_OF_ONE_PIECE = (
    REMARK_HINT,
    "Where it was not all of the tree",
    "”, and below it “noted ",
    "where it was only seen, write “noted ",
)
_NEAR, _ON, _CAME_OFF = "Did you mean", "A part of the tree stands after", "Where it came off"
_MOST_OF_A_PART = 2
# Short words are like many.
_LONG_WORD = 5
# So many words of the language are no prose.
_SHORT_LINE = 6


def with_whole_hint(
    written: Act, heard: Sequence[HeardAct], found: Callable[[], str]
) -> list[HeardAct]:
    """What was heard of a line, with the one hint for all of it in the place of those that only say
    what an act takes. `found`: that hint, sought where there is such a place."""
    places = [] if _has_one_slip(written, heard) else _to_tell(heard)
    hint = found() if places else ""
    if not hint:
        return list(heard)
    return [
        HeardAct(
            one.act,
            one.past,
            tuple(
                replace(flaw, hint=hint if (n, m) == places[0] else "")
                if (n, m) in places
                else flaw
                for m, flaw in enumerate(one.flaws)
            ),
        )
        for n, one in enumerate(heard)
    ]


def _to_tell(heard: Sequence[HeardAct]) -> list[tuple[int, int]]:
    """The acts and flaws whose hints one for the whole line may stand for; none where a word is but
    a slip of another, or what is on the tree came off. The leftmost is the first."""
    flaws = [
        (n, m, flaw)
        for n, one in enumerate(heard)
        for m, flaw in enumerate(one.flaws)
        if flaw.severity != KEPT
    ]
    if any(_CAME_OFF in flaw.hint or _is_slip(flaw, len(flaws)) for _, _, flaw in flaws):
        return []
    flaws.sort(key=lambda one: (one[2].line, one[2].column))
    return [(n, m) for n, m, flaw in flaws if _is_of_the_act(flaw)]


def _has_one_slip(written: Act, heard: Sequence[HeardAct]) -> bool:
    """Whether a short line of the language has but one thing wrong, which says itself what."""
    wrong = [flaw for one in heard for flaw in one.flaws if flaw.severity != KEPT]
    return (
        len(wrong) == 1
        and heard[0].act is written
        and heard[0].past != HELD
        and len(line_of(written).split()) <= _SHORT_LINE
    )


def _is_slip(flaw: Flaw, of: int) -> bool:
    """Whether what was quoted is a word that another one is like: `wedgs`, `wedgs N`."""
    most = 2 if len(meant_in(flaw.hint)) >= _LONG_WORD else 1
    is_near = flaw.hint.startswith(_NEAR) and len(_quoted(flaw).split()) <= most
    return is_near and (of == 1 or flaw.code != "unknown-act")


def _is_of_the_act(flaw: Flaw) -> bool:
    hint = flaw.hint
    return (
        hint.startswith((*_OF_THE_ACT, _NEAR))
        or any(one in hint for one in _OF_ONE_PIECE)
        or (hint.startswith(_ON) and len(_quoted(flaw).split()) > _MOST_OF_A_PART)
    )


def _quoted(flaw: Flaw) -> str:
    return flaw.message.partition("“")[2].partition("”")[0]
