"""Makes dues of what the keeper wrote down to be done: plans, and looks set for a later day.

A `put-off` of something due moves that due, in settle.py; of nothing due it is a plan, made here.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from msgspec.structs import replace

from backbud.collection.hard_work import extent_of
from backbud.collection.on_tree import is_meant
from backbud.collection.state import Tree
from backbud.journal.events import Event
from backbud.journal.read import Journal
from backbud.plan.common.parts import on_part
from backbud.plan.due import Due, cause_of, due_of
from backbud.plan.followups import reason_on
from backbud.plan.looks import Look, looks
from backbud.plan.quote import Quoter
from backbud.plan.windows import window_again, window_of_plan
from backbud.species import PRESSING, PROMISE, Proposal, Schedule, a_year_later
from backbud.tongue import phrase
from backbud_grammar.act_words import ActWord, SettledBy, as_act

# Ids of rules, which are never changed.
PLANNED, AGAIN = "planned", "check-again"
_SET_BY: tuple[ActWord, ...] = ("planned", "checked")
# What says when, and not what: `to 2028-03`, `in 6 weeks`, `next spring`; not `to 2 pairs`.
_TIME = re.compile(
    r"(to|until|in|next|this) (\d{4}|\.\.|/|(early |late )?(spring|summer|autumn|winter)\b"
    r"|[\d.,-]+ (days?|weeks?|months?|years?)\b)",
    re.IGNORECASE,
)


def set_by_keeper(tree: Tree, journal: Journal, quoter: Quoter) -> Iterator[Due]:
    """Every plan, and every check that a check set for later, oldest first."""
    for at, entry in enumerate(tree.history):
        event = entry.event
        # Hardly a line is one of these, so that is asked first.
        if event.act not in _SET_BY or not event.exact or entry.undone:
            continue
        # What was planned for a batch is done to the batch.
        if entry.within:
            continue
        if event.act == "planned" and event.named:
            yield from planned(tree, event, at, journal, quoter)
        elif event.act == "checked" and event.has("again"):
            yield from _again(tree, event, at, journal, quoter)


def planned(tree: Tree, event: Event, at: int, journal: Journal, quoter: Quoter) -> Iterator[Due]:
    """The work that a plan speaks of, on each part that it names; of a put-off too, where nothing
    was due that it moves."""
    row = event.named_row
    act = as_act(row.word)
    reason = reason_on("plan", quoter.reason(event, tree, remark=True), event.origin, quotes=True)
    pieces = _pieces(event, tree, quoter)
    for part in dict.fromkeys(event.parts or ("",)):
        proposal = Proposal(
            act,
            window_of_plan(event, journal.southern),
            "",
            ", ".join(piece for piece in pieces if _part_in(piece, event) in ("", part)),
            settled_by=_settled_by(event, act),
            part=part,
            extent=extent_of(replace(event, act=act, row=row)),
            weight=PROMISE,
        )
        yield due_of(
            tree,
            proposal,
            PLANNED,
            f"{act}-{event.when.text}",
            reason,
            journal.acts,
            event,
            at,
            planned=True,
            promised=True,
        )


def _settled_by(event: Event, act: ActWord) -> tuple[SettledBy, ...]:
    """What settles a plan: the act, but of a look only a look at the same."""
    if act != "checked":
        return ()
    return tuple(dict.fromkeys(by for look in looks(event) for by in look.settled_by))


def _pieces(event: Event, tree: Tree, quoter: Quoter) -> list[str]:
    """The details of a plan without its time: `into tray-9`, `mix maple`."""
    first, *rest = quoter.pieces(event, tree)
    pieces = [first.partition(" ")[2], *rest]
    return [piece for piece in pieces if piece and not _TIME.match(piece)]


def _part_in(piece: str, event: Event) -> str:
    """The part of the tree that a piece of a plan names, or ""."""
    named = (part for part in event.parts if is_meant(piece, (f"on {part}",)))
    return max(named, key=len, default="")


def _again(tree: Tree, event: Event, at: int, journal: Journal, quoter: Quoter) -> Iterator[Due]:
    """A look that is to be taken again, on the day that was said."""
    window = window_again(event, journal.southern)
    if window is None:
        return
    reason = reason_on("diary", quoter.reason(event, tree), event.origin, quotes=True)
    for (what, part), look in _looked_at(event).items():
        proposal = Proposal(
            "checked",
            window,
            phrase("The last look set the next."),
            on_part(phrase(what), part),
            settled_by=look.settled_by,
            part=f"{what} {part}".strip(),
            weight=PRESSING,
            schedule=Schedule(again=a_year_later(window)),
        )
        yield due_of(
            tree,
            proposal,
            AGAIN,
            cause_of(event),
            reason,
            journal.acts,
            event,
            at,
            planned=True,
        )


def _looked_at(event: Event) -> dict[tuple[str, str], Look]:
    """The looks of a line by what was looked at and on which part.

    Where wire bites is where it comes off; it is all of it that is looked at again.
    """
    return {
        (look.what, part): look
        for look in looks(event)
        for part in (("",) if look.finding == "biting" else look.parts or ("",))
    }
