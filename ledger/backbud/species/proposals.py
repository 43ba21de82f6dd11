"""What a plugin's code answers: works that it expects, and sections of a tree's page."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from typing import Literal

from msgspec import Struct

from backbud.collection.hard_work import Extent
from backbud.species.schedule import NOTHING_SAID, Schedule
from backbud.species.weight import Weight
from backbud.species.windows import Window
from backbud_grammar.act_words import ActWord, SettledBy

# Of what takes shelter: under any winter cover, or where a heater keeps it warm.
Covers = Literal["", "any", "warm"]
ForetoldWhat = Literal["frost", "cold", "heat", "wind", "rain", "snow"]


class Foretold(Struct, frozen=True, gc=False):
    """What of a forecast a work is asked for against: frost, or the cold that a tender tree does
    not bear; heat, wind, rain, snow. The day it comes (of a night the morning that it ends on), and
    its figure with the unit. `coldest_on`, `coldest_c`: of several nights the coldest, in °C."""

    what: ForetoldWhat
    on: date
    figure: str
    coldest_on: date | None = None
    coldest_c: float | None = None


class ColdNight(Struct, frozen=True, gc=False):
    """The coldest night of one winter in ten where a tree stands, its ±, and the coldest that its
    roots bear: °C, K, °C. `since`: where it is of the rest of a winter alone, its first day."""

    coldest_c: float
    give_or_take_k: float
    bears_c: float
    since: date | None = None


class _Weighed(Struct, frozen=True, kw_only=True):
    weight: Weight


class Proposal(_Weighed, frozen=True):
    """What a rule yields: an act that is expected, when, and why.

    `act`: a word of the table of acts. `what`: the words that make the act plain ("wire on left
    2"); title and calendar show "check wire on left 2". `because`: the rule in one sentence.
    `datum`: the figure that decided, in one sentence; words put to one that came from the year go
    through `joined`, so that what is only expected stays known. `settled_by`: acts that settle it
    (the act itself when empty). `part`: tells apart equal acts of one tree and day. `weight`:
    how much it matters, and what becomes of it once its window has passed. `minutes`: 0 takes the
    usual time of the act. `early_days`: how many days before its window the act already counts as
    done; None takes the usual ones (four weeks; root work half a year; a check or a taking off, any
    day). `wedges`: the wedges of the root ball that are to be opened. `extent`: how far it is
    taken: only in part, as usual, or hard. `schedule`: what is said of it as its days pass, and
    when it comes again. `singly`: of what may be done, that there is a reason for it in
    this very tree. `foretold`: what it is asked for against, where a forecast has it. `bares`: it
    takes a cover away, so it waits while frost is foretold. `covers`: it brings shelter from cold,
    so of moves only one under such a cover settles it. `to_place`: the handle of the place that it
    is moved to, where `what` names it.
    """

    act: ActWord
    window: Window
    because: str
    what: str = ""
    datum: str = ""
    cautions: tuple[str, ...] = ()
    settled_by: tuple[SettledBy, ...] = ()
    part: str = ""
    minutes: int = 0
    early_days: int | None = None
    wedges: tuple[str, ...] = ()
    extent: Extent = "usual"
    schedule: Schedule = NOTHING_SAID
    singly: bool = False
    foretold: Foretold | None = None
    bares: bool = False
    covers: Covers = ""
    to_place: str = ""
    cold: ColdNight | None = None


Proposals = Iterator[Proposal]


class Section(Struct, frozen=True):
    """A part of a tree's page that a plugin writes: plain text, never HTML.

    `paragraphs` come first, then a table of `rows` under its `head`, where there are any.
    """

    title: str
    paragraphs: tuple[str, ...] = ()
    head: tuple[str, ...] = ()
    rows: tuple[tuple[str, ...], ...] = ()
