"""Makes a follow-up with its id and its reasons of what a rule proposed or the keeper planned.

A `Due` is that follow-up with what the later steps must know of its cause.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from datetime import timedelta
from functools import lru_cache

from msgspec import Struct
from msgspec.structs import replace

from backbud.collection.state import Tree
from backbud.journal.events import Event
from backbud.plan.followups import FollowUp, Reason
from backbud.species import NOTHING_SAID, Covers, Proposal, Schedule, is_expected
from backbud.tongue import ENGLISH, act_phrase, phrase, spoken, work_phrase
from backbud_grammar.act_words import SettledBy, as_act
from backbud_grammar.forms import ActForm

_SENTENCE_END = re.compile(r"(?<=[.!?]) (?=[^\W\d_])")


class Due(Struct, frozen=True):
    """A follow-up on its way through the plan, with what it hangs on.

    `at`: the place of its cause in the tree's history, -1 for a season's. `part`: as the rule
    gave it, and it may be a word that tells two works apart, or what is looked at there.
    `early`: how long before its window an act settles it; None takes the act's own. `by_sum`: what
    was done of it is a sum that was reckoned before, so no line alone settles it. `bares`: it takes
    a cover away; `covers`: it brings one, and of moves only one under it settles it.
    """

    follow_up: FollowUp
    rule: str
    cause: str
    event: Event | None = None
    at: int = -1
    part: str = ""
    early: timedelta | None = None
    by_sum: bool = False
    bares: bool = False
    covers: Covers = ""

    @property
    def where(self) -> str:
        """The part of the tree that it is about, "" for all of it."""
        return self.follow_up.part


def due_of(
    tree: Tree,
    proposal: Proposal,
    rule: str,
    cause: str,
    reason: Reason,
    acts: Mapping[str, ActForm],
    event: Event | None = None,
    at: int = -1,
    planned: bool = False,
    promised: bool = False,
) -> Due:
    """Name a proposal and give it its chain of reasons.

    The id is made of the tree's first handle, the rule, the cause and the part, and nothing else.
    """
    act = acts[proposal.act]
    part = f"/{_slug(proposal.part)}" if proposal.part else ""
    because = [reason]
    if proposal.because:
        because.append(Reason("rule", phrase(proposal.because)))
    if datum := _beyond(phrase(str(proposal.datum)), reason.text):
        because.append(Reason("datum", datum, expected=is_expected(proposal.datum)))
    follow_up = FollowUp(
        f"{tree.first_handle}/{rule}/{cause}{part}",
        tree.handle,
        as_act(act.word),
        title_of(proposal, act),
        proposal.window,
        tuple(because),
        cautions_for(proposal, act),
        proposal.minutes,
        _settled_by(proposal, acts),
        weight=proposal.weight,
        planned=planned,
        given_word=promised,
        wedges=proposal.wedges,
        extent=proposal.extent,
        row=act,
        part=_where(proposal, event),
        schedule=_told(proposal.schedule),
        singly=proposal.singly,
        group=f"{rule}/{cause}",
        foretold=proposal.foretold,
        what=proposal.what,
        to_place=proposal.to_place,
        cold=proposal.cold,
    )
    early = None if proposal.early_days is None else timedelta(days=proposal.early_days)
    return Due(
        follow_up,
        rule,
        cause,
        event,
        at,
        proposal.part,
        early,
        bares=proposal.bares,
        covers=proposal.covers,
    )


def _beyond(datum: str, said: str) -> str:
    """The sentences of a datum that the first reason does not say already."""
    return " ".join([one for one in _sentences(datum) if one not in said]) if datum else ""


# The weather of a place says the same to all its trees.
@lru_cache(maxsize=4096)
def _sentences(datum: str) -> tuple[str, ...]:
    return tuple(_SENTENCE_END.split(datum))


def _where(proposal: Proposal, event: Event | None) -> str:
    """The part of the tree among the words of a proposal's part: all of them, or those behind what
    is looked at, as in `wire left 2`."""
    if event is None or not proposal.part:
        return ""
    said = f" {proposal.part.casefold()}"
    found = [one for one in event.parts if said.endswith(f" {one.casefold()}")]
    return max(found, key=len, default="")


def title_of(proposal: Proposal, act: ActForm) -> str:
    """The work as a person says it."""
    return work_phrase(act_phrase(act.bare), phrase(proposal.what))


def _told(schedule: Schedule) -> Schedule:
    """What a rule says of days to come, in the language spoken."""
    if schedule is NOTHING_SAID or spoken() == ENGLISH:
        return schedule
    return replace(
        schedule,
        in_time=phrase(schedule.in_time),
        at_the_end=phrase(schedule.at_the_end),
        after=phrase(schedule.after),
    )


def cautions_for(proposal: Proposal, act: ActForm) -> tuple[str, ...]:
    """What to look out for: as the rule says, and as the act always asks."""
    if not (proposal.cautions or act.cautions):
        return ()
    return tuple(map(phrase, dict.fromkeys((*proposal.cautions, *act.cautions))))


def cause_of(event: Event) -> str:
    """The act and its date as written."""
    return f"{event.act}-{event.when.text}"


def _settled_by(proposal: Proposal, acts: Mapping[str, ActForm]) -> tuple[SettledBy, ...]:
    """The acts that settle it; where a repotting does, every potting does."""
    settled_by = proposal.settled_by or (proposal.act,)
    if "repotted" not in settled_by:
        return settled_by
    return tuple(dict.fromkeys((*settled_by, *_pottings(acts))))


def _pottings(acts: Mapping[str, ActForm]) -> tuple[SettledBy, ...]:
    """The acts of a journal's table that pot: told anew only of another table than the last."""
    table, found = _last_pottings[0]
    if table is not acts:
        found = tuple([as_act(one.word) for one in acts.values() if "potting" in one.traits])
        _last_pottings[0] = acts, found
    return found


_last_pottings: list[tuple[Mapping[str, ActForm] | None, tuple[SettledBy, ...]]] = [(None, ())]


def _slug(part: str) -> str:
    return "-".join(part.casefold().replace("/", " ").split())
