"""Finds files that are mostly the same, one of them a copy that was edited, and what stands in
both: that counts once.

What stands in one alone counts too: somebody wrote it. Only where a line here may be another
version of one there, nobody knows which is right, and neither counts.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from functools import partial
from itertools import chain
from typing import NamedTuple

from backbud.journal.cards_again import CardsAgain, cards_again, without_cards
from backbud.journal.line_order import likelier_first, sorted_as
from backbud.journal.outlined import Outlined
from backbud.journal.page_text import PageText
from backbud.journal.remember import Kept
from backbud.journal.told_lines import (
    AGAIN_AND_AGAIN,
    IN_OWN_WORDS,
    OF_EACH,
    TO_AND_FRO,
    HeldAgainst,
    ToldLine,
    held_against,
    told_lines,
    without_told,
)
from backbud.memo import Identical, Memo
from backbud_grammar.outline import Known
from backbud_grammar.problems import Flaw

# So many acts are hardly written twice by chance, word for word, of the same days and trees.
MANY_ALIKE = 3
# Of what is done once to a tree on a day, the smaller of two files has at least this share in
# common with the other, if one is a copy. Two keepers word such lines each in their own way.
SHARE_OF_A_COPY = 0.5
# Hours and materials two may honestly write alike, who work together: there nearly all must be.
SHARE_OF_HOURS = 0.75
# So many lines are told each.
MOST_TOLD = 6


class Mended(NamedTuple):
    """The files as far as they count, and what is told of those of which some does not."""

    files: dict[str, Outlined]
    flaws: Sequence[tuple[str, Flaw]]


def without_edited_copies(files: Mapping[str, Outlined], known: Known, kept: Memo) -> Mended:
    """What two files have in common is left out of the likelier copy, what may be two versions of
    one line out of both; where the two are no copies, of those days on which both tell of the same
    work of one tree in the same words."""
    mended = dict(files)
    flaws: list[tuple[str, Flaw]] = []
    cards = cards_again(files)
    for name, other in sorted({*cards, *_perhaps_alike(files, kept)}, key=_in_order):
        again = cards.get((name, other), CardsAgain((), ()))
        first, second = mended[other], mended[name]
        held, is_copy = _held_against(first, second, bool(again.lines), known)
        if name == other or not (held.both or held.versions):
            if again.lines:
                flaws.append((name, _of_cards(name, other, second, again)))
                mended[name] = without_cards(second, again.lines)
            continue
        if is_copy:
            flaws.append((name, _of_copy(other, second, first, held, again)))
        else:
            flaws.append((name, _of_lines(f"in {other}", held)))
        if held.versions:
            flaws.append((other, _of_versions(f"{name} repeats this file", held)))
        second = without_told(second, (*held.both, *(there for _, there in held.versions)))
        mended[name] = without_cards(second, again.lines) if again.lines else second
        mended[other] = without_told(first, (here for here, _ in held.versions))
    return Mended(mended, flaws)


def _in_order(pair: tuple[str, str]) -> tuple[tuple[int, str, bool], ...]:
    return tuple(map(likelier_first, pair))


def without_pasted_pages(
    name: str, file: Outlined, known: Known
) -> tuple[Outlined, Sequence[tuple[str, Flaw]]]:
    """The second pages of a day in a file held against the first, where both tell of the same work
    of one tree in the same words."""
    first: dict[str, tuple[int, Kept[PageText]]] = {}
    later: list[tuple[int, Kept[PageText]]] = []
    for line, kept in file.pages:
        if first.setdefault(kept.section.date, (line, kept))[0] != line:
            later.append((line, kept))
    begun = dict(first[kept.section.date] for _, kept in later)
    here, there = file._replace(pages=[*begun.items()]), file._replace(pages=later)
    held, _ = _held_against(here, there, False, known)
    if not held.both:
        return file, ()
    flaws = [(name, _of_lines("further up", held))]
    if held.versions:
        flaws.append((name, _of_versions("a page further down repeats this one", held)))
    return without_told(file, (*held.both, *chain.from_iterable(held.versions))), flaws


def _held_against(
    first: Outlined, second: Outlined, same_cards: bool, known: Known
) -> tuple[HeldAgainst, bool]:
    """Two files held against each other, and whether one is a copy of the other: then all of their
    lines are. `same_cards`: they have cards of the same things."""
    here, there = told_lines(first, known), told_lines(second, known)
    held = held_against(here, there, is_copy=True)
    if _are_alike(here, there, held.both, same_cards):
        return held, True
    sure = {one.day for one in held.both if one.tells_a_copy and one.act not in TO_AND_FRO}
    here, there = ([one for one in lines if one.day in sure] for lines in (here, there))
    return held_against(here, there, is_copy=False), False


def _by_line(lines: Iterable[ToldLine]) -> dict[int, ToldLine]:
    return {one.line: one for one in lines}


# ------------------------------------------------------------------ which files are alike


def two_keepers(first: Outlined, second: Outlined, known: Known) -> bool:
    """Whether two files that are not alike each tell enough of their own."""
    lines = (told_lines(file, known) for file in (first, second))
    return min(sum(one.tells_a_copy for one in of) for of in lines) >= MANY_ALIKE


def days_of_several(files: Mapping[str, Outlined]) -> set[str]:
    """The days of which more than one file tells."""
    told = [{kept.section.date for _, kept in file.pages} for file in files.values()]
    if len(set[str]().union(*told)) == sum(map(len, told)):
        return set()
    return {day for day, count in Counter([d for days in told for d in days]).items() if count > 1}


def _perhaps_alike(files: Mapping[str, Outlined], kept: Memo) -> list[tuple[str, str]]:
    """Pairs of files, the likelier copy first, that have lines of the same day and subject in
    common which are hardly written twice."""
    if not days_of_several(files):
        return []
    names = sorted(files, key=likelier_first)
    keys = [
        kept.once(
            ("squeezed", name), (Identical(files[name]),), partial(_squeezed, files[name].data)
        )
        for name in names
    ]
    count: Counter[tuple[str, str]] = Counter()
    for weight, sets in zip((MANY_ALIKE, 1), zip(*keys, strict=True), strict=True):
        if len(set[bytes]().union(*sets)) == sum(map(len, sets)):
            continue
        first: dict[bytes, str] = {}
        for name, lines in zip(names, sets, strict=True):
            for line in lines:
                other = first.setdefault(line, name)
                if other != name:
                    count[name, other] += weight
    return [
        (name, other)
        for (name, other), alike in count.items()
        if alike >= MANY_ALIKE and sorted_as(name)[0] != sorted_as(other)[0]
    ]


# A note or measures of more letters are hardly worded so by two.
_A_SENTENCE = 24
_IN_OWN_WORDS = tuple([b"\1" + word.encode() for word in sorted(IN_OWN_WORDS)])
_NOTHING, _OF_EACH = (
    tuple([b"\1" + word.encode() for word in sorted(words)]) for words in (AGAIN_AND_AGAIN, OF_EACH)
)


def _squeezed(data: bytes) -> tuple[set[bytes], set[bytes]]:
    """The indented lines of a file, each behind its day and subject line, without their blanks and
    what is done again and again: what one does, and what each of two may."""
    telling: set[bytes] = set()
    of_each: set[bytes] = set()
    text = (b"\n" + data).replace(b"\t", b" ").replace(b"\n ", b"\n\1").translate(None, b" ")
    day = head = b""
    for line in text.split(b"\n"):
        sign = line[:1]
        if sign == b"\1":
            if day and len(line) > _A_SENTENCE and line.startswith(_IN_OWN_WORDS):
                telling.add(head + line)
            elif day and not line.startswith(_NOTHING):
                (of_each if line.startswith(_OF_EACH) else telling).add(head + line)
        elif sign.isdigit():
            # Behind the day stands its weather.
            day = head = line[:10]
        elif sign and sign != b"#":
            head = day + line
    return telling, of_each


def _are_alike(
    first: Sequence[ToldLine],
    second: Sequence[ToldLine],
    both: Sequence[ToldLine],
    same_cards: bool,
) -> bool:
    """Whether two files, of which these lines are in both, are so much the same that one is a copy
    of the other."""
    telling = sum(one.tells_a_copy for one in both)
    fewest = min(sum(one.tells_a_copy for one in lines) for lines in (first, second))
    if telling < SHARE_OF_A_COPY * fewest:
        return False
    if telling >= MANY_ALIKE or same_cards:
        return True
    # Nearly nothing is done here but what two may well write alike.
    adds_up = sum(not one.again_and_again for one in both)
    most = min(sum(not one.again_and_again for one in lines) for lines in (first, second))
    return adds_up >= MANY_ALIKE and adds_up >= SHARE_OF_HOURS * most


# ------------------------------------------------------------------ what is told


def _of_copy(
    other: str, second: Outlined, first: Outlined, held: HeldAgainst, cards: CardsAgain
) -> Flaw:
    alone = {one.page for one in held.second_alone}
    days = {kept.section.date for _, kept in first.pages}
    own = [line for line, kept in second.pages if line in alone and kept.section.date not in days]
    same, differ = len(second.pages) - len(alone), len(alone) - len(own)
    parts = [f"{same} {'is' if same == 1 else 'are'} the same"]
    parts += [f"{differ} differ{'s' * (differ == 1)}"] if differ else []
    if own:
        parts.append(f"{len(own)} {'is' if len(own) == 1 else 'are'} of a day that is only here")
    message = f"this file and {other} are copies of one another: of {_pages(len(second.pages))} "
    hint = "What stands in both counts once, what stands in one alone counts as well."
    hint += _alone("here", held.second_alone, held) + _alone("there", held.first_alone, held)
    hint += _of_both(held) + _of_card_lines(f"in {other}", cards)
    hint += " Bring what is right into one of the two, and take the other away."
    lines = second.data.count(b"\n") + 1
    return Flaw("edited-copy", 0, 1, 1, message + ", ".join(parts), hint, lines=lines)


def _of_lines(where: str, held: HeldAgainst) -> Flaw:
    """The same of files that are no copies, but tell of the same work on some days."""
    away = [*held.both, *(there for _, there in held.versions)]
    begin, end, more = min(away).begin, max(one.end for one in away), len(held.both) - 1
    numbers = sorted(one.line for one in held.both)
    also = f" and {more} more line{'s' * (more > 1)} stand" if more else " stands"
    message = f"“{min(held.both).words}”{also} {where} too, of the same day"
    hint = f"What stands in both counts once ({_lines(numbers)} here).{_of_both(held)}"
    hint += (
        " Take the second writing away; where it was done twice, a remark tells them apart: "
        "-- Ben, too."
    )
    return Flaw("repeated-lines", begin, 1, 1, message, hint, lines=end - begin)


def _of_versions(what: str, held: HeldAgainst) -> Flaw:
    """What is told of the first writing, of which lines are held back."""
    here = [one for one, _ in held.versions]
    begin, end = min(here).begin, max(one.end for one in here)
    return Flaw(
        "two-versions",
        begin,
        1,
        1,
        f"{what}, and tells {_lines(_those(held, 0))} otherwise",
        "Which is right is not known, so neither counts. Put it right in one of the two, and take "
        "the other away.",
        lines=end - begin,
    )


def _of_cards(name: str, other: str, second: Outlined, cards: CardsAgain) -> Flaw:
    count, all_cards = len(cards.lines), len(second.cards)
    where = "further up" if name == other else f"in {other}"
    message = f"{count} of the {all_cards} cards of this file stand {where} too"
    hint = _of_card_lines(where, cards).strip() + " Bring over what is right, and take these away."
    behind = [placed.line for placed in second.cards if placed.line > cards.lines[-1]]
    begin, end = cards.lines[0], min([*behind, second.data.count(b"\n") + 1])
    return Flaw("repeated-cards", begin, 1, 1, message, hint, lines=end - begin)


def _of_card_lines(where: str, cards: CardsAgain) -> str:
    """Which cards count, and which of this file say something else."""
    if not cards.lines:
        return ""
    told = f" Of {len(cards.lines)} cards that stand in both those {where} count"
    return told + (
        f"; {_lines(cards.differ)} here differ{'s' * (len(cards.differ) == 1)}."
        if cards.differ
        else "."
    )


def _of_both(held: HeldAgainst) -> str:
    if not held.versions:
        return ""
    return (
        f" What may be two versions of one line counts in neither: {_lines(_those(held, 1))} here, "
        f"{_lines(_those(held, 0))} there."
    )


def _those(held: HeldAgainst, which: int) -> list[int]:
    return sorted({pair[which].line for pair in held.versions})


def _alone(where: str, lines: Sequence[ToldLine], held: HeldAgainst) -> str:
    """What stands in one file alone and counts."""
    versions = {id(one) for pair in held.versions for one in pair}
    counts = [one.line for one in lines if id(one) not in versions]
    return f" Only {where}: {_lines(counts)}." if counts else ""


def _lines(numbers: Sequence[int]) -> str:
    """Lines (0 first) as a person counts them, the first few each."""
    told = ", ".join(str(number + 1) for number in numbers[:MOST_TOLD])
    more = f" and {len(numbers) - MOST_TOLD} more" if len(numbers) > MOST_TOLD else ""
    return f"line{'s' * (len(numbers) > 1)} {told}{more}"


def _pages(count: int) -> str:
    return f"{count} page{'s' * (count != 1)}"
