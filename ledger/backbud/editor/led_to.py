"""Tells what a line of the diary led to: the follow-ups that grew from it, by the tree's plan."""

from __future__ import annotations

import asyncio
from collections.abc import Iterable, Iterator
from datetime import date

from lsprotocol import types as lsp
from msgspec import Struct

from backbud.editor.desk import AHEAD, Desk
from backbud.editor.pieces import TextPiece
from backbud.editor.text import OpenText
from backbud.plan.followups import FollowUp
from backbud.words import between, day, number
from backbud_grammar.dates import read_date
from backbud_grammar.problems import Flaw, Misread
from backbud_grammar.syntax import Act, Block

WHY = "backbud.why"
# So many trees of one line, and of all lines that are seen at once, are reckoned.
MOST_OF_LINE, MOST_AT_ONCE = 12, 40
# How long an answer waits until a new text was read and replayed, and its trees are planned.
READ_S, PLAN_S = 2.0, 0.9


class LineOfDiary(Struct, frozen=True):
    """An act of a page as it stands in a text (lines from 0), and the day of the page."""

    text: OpenText
    line: int
    block: Block
    act: Act
    first: int
    day: date | None

    @property
    def last(self) -> int:
        return self.first + (self.act.seams[-1].line if self.act.seams else self.act.line)


class Led(Struct, frozen=True):
    """A follow-up that grew from a line, and as it stands on the day it is looked at."""

    follow_up: FollowUp
    today: date

    @property
    def is_open(self) -> bool:
        return self.follow_up.is_open(self.today)

    @property
    def when(self) -> str:
        """`24 April to 19 May`; of what is settled `done 6 May 2027`."""
        one, year = self.follow_up, self.today.year
        window = one.window_on(self.today)
        if self.is_open:
            return between(window.opens, window.closes, year)
        settled = f" {day(one.settled.day, year)}" if one.settled is not None else ""
        return f"{one.state(self.today)}{settled}"


def day_of_page(piece: TextPiece, southern: bool) -> date | None:
    """The day of a page; None where it has none that is exact."""
    page = piece.page
    try:
        when = read_date(page.date, southern) if page is not None else None
    except Misread:
        return None
    return when.first if when is not None and when.exact else None


def acts_on(desk: Desk, text: OpenText, first: int, last: int) -> Iterator[LineOfDiary]:
    """The acts that stand on these lines."""
    for piece in desk.pieces(text).within(first, last):
        if piece.page is None:
            continue
        on = day_of_page(piece, desk.speech.southern)
        for block in piece.section.blocks:
            for act in block.acts:
                line = piece.first + act.line
                if block.subjects and first <= line <= last:
                    yield LineOfDiary(text, line, block, act, piece.first, on)


def trees_of(desk: Desk, one: LineOfDiary) -> list[str]:
    """The trees that a line is about, by the replay of this very text."""
    standing = desk.standing
    if standing is None or not desk.is_current(one.text):
        return []
    things = standing.snapshot.journal.things
    read = desk.speech.details.subjects(one.block.subjects)
    if not isinstance(read, Flaw) and not read.left_out:
        named = [things.find(item.words) for item in read.chosen if item.by == "handle"]
        plain = [thing.handle for thing in named if thing is not None and thing.kind == "tree"]
        if len(plain) == len(read.chosen):
            return plain
    acts = [one.first + act.line + 1 for act in one.block.acts]
    return desk.meant(one.text.name, one.first + one.block.line + 1, acts)


def grown(desk: Desk, one: LineOfDiary, handles: Iterable[str], on: date) -> list[Led] | None:
    """What grew from a line by the plans of its trees on a day, what is open first; None where one
    of them was not reckoned yet."""
    found: list[Led] = []
    for handle in handles:
        plan = desk.known_plan(handle, on)
        if plan is None:
            return None
        found += [Led(follow_up, on) for follow_up in plan.follow_ups if _from(follow_up, one)]
    return sorted(found, key=lambda led: (not led.is_open, led.follow_up.window.closes))


def _from(follow_up: FollowUp, one: LineOfDiary) -> bool:
    at = follow_up.because[0].origin if follow_up.because else None
    return at is not None and (at.file, at.line) == (one.text.name, one.line + 1)


async def until_current(desk: Desk, text: OpenText, patience_s: float = READ_S) -> bool:
    """Wait until the history was replayed with this text; whether it was in time."""
    waited = 0.0
    while not desk.is_current(text) and waited < patience_s:
        if desk.text(text.name) is not text:
            return False
        await asyncio.sleep(0.01)
        waited += 0.01
    return desk.is_current(text)


async def follows(desk: Desk, one: LineOfDiary) -> list[Led]:
    """What grew from a line: as it stands today; of one so old that no plan speaks of it, as it was
    known on its own day."""
    if not await until_current(desk, one.text):
        return []
    handles = trees_of(desk, one)[:MOST_OF_LINE]
    for on in dict.fromkeys((desk.today, one.day or desk.today)):
        asked = [asyncio.wrap_future(desk.planned(handle, on)) for handle in handles]
        if asked:
            await asyncio.wait(asked, timeout=PLAN_S)
        found = grown(desk, one, handles, on)
        if found:
            return found
    return []


# ------------------------------------------------------------------ beside the lines


def inlays(desk: Desk, text: OpenText, first: int, last: int) -> list[lsp.InlayHint]:
    """Behind each line what it led to, as far as it was reckoned; the rest is reckoned now."""
    out: list[lsp.InlayHint] = []
    missing: dict[str, None] = {}
    for one in acts_on(desk, text, first, last):
        handles = trees_of(desk, one)[:MOST_OF_LINE]
        found = grown(desk, one, handles, desk.today)
        if found is None:
            missing |= dict.fromkeys(handles)
        elif found:
            end = text.position(one.last, len(text.line(one.last).rstrip()))
            out.append(
                lsp.InlayHint(end, f"→ {_short(found)}", padding_left=True, tooltip=_all(found))
            )
    for handle in list(missing)[:MOST_AT_ONCE]:
        desk.planned(handle, desk.today, AHEAD)
    return out


def _short(found: list[Led]) -> str:
    """The first that is open, else the last that was settled, and how many more there are."""
    shown = [led for led in found if led.is_open] or found[-1:]
    first = shown[0]
    same = [led for led in shown if led.follow_up.title == first.follow_up.title]
    trees = len({led.follow_up.tree for led in same})
    whose = f" of {number(trees, 'tree')}" if trees > 1 else ""
    more = len(shown) - len(same)
    return f"{first.follow_up.title}{whose}: {first.when}{f', {more} more' if more else ''}"


def _all(found: list[Led]) -> str:
    return "\n".join(f"{led.follow_up.tree}: {led.follow_up.title}, {led.when}" for led in found)


def lenses(desk: Desk, text: OpenText) -> list[lsp.CodeLens]:
    """“why” above each line of which something is still open, as far as it was reckoned."""
    out: list[lsp.CodeLens] = []
    for one in acts_on(desk, text, 0, len(text.lines)):
        handles = trees_of(desk, one)[:MOST_OF_LINE]
        found = [led for led in grown(desk, one, handles, desk.today) or () if led.is_open]
        if found:
            title = f"why: {number(len(found), 'work')} from this line"
            command = lsp.Command(title, WHY, arguments=[text.uri, one.line])
            out.append(lsp.CodeLens(text.whole_lines(one.line, one.line), command))
    return out


async def why(desk: Desk, text: OpenText, line: int) -> str:
    """The reasons of all that grew from a line, as text."""
    one = next(acts_on(desk, text, line, line), None)
    found = await follows(desk, one) if one is not None else []
    if not found:
        return "Nothing follows from this line."
    return "\n\n".join("\n".join(_why(led)) for led in found)


def _why(led: Led) -> Iterator[str]:
    one = led.follow_up
    yield f"{one.title} – {one.tree}: {led.when}"
    yield from (f"  {'because' if n == 0 else '       '} {reason.told}"
                for n, reason in enumerate(one.because))  # fmt: skip
    yield from (f"  caution {caution}" for caution in one.safety_first)
