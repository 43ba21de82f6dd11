"""Trees and follow-ups, built with what a test cares about and defaults for the rest."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from datetime import date
from typing import Any

import pytest

from backbud.calendar.feeds import feeds_written
from backbud.calendar.revisions import Revisions
from backbud.calendar.which_feeds import feeds_of, shown_in_feeds
from backbud.collection.state import Tree
from backbud.journal.events import Event, Origin
from backbud.journal.settings import Settings
from backbud.pages.links import EVERYTHING
from backbud.plan.followups import FollowUp, Reason, reason_on
from backbud.publish.files import gathered
from backbud.species import CHANCE, AtStake, Weight, Window
from backbud.views.grounds import Grounds
from backbud_grammar.acts import ROWS
from backbud_grammar.dates import read_date
from backbud_grammar.forms import NO_ACT

TODAY = date(2027, 3, 1)


class Builders:
    """Makes values; `days` are ISO dates, the first, best and last of a window."""

    def window(self, *days: str) -> Window:
        return Window(*map(date.fromisoformat, days))

    def reason(self, text: str, place: str = "") -> Reason:
        file, _, line = place.rpartition(":")
        return reason_on(
            "diary" if place else "rule", text, Origin(file, int(line), 1) if place else None
        )

    def tree(self, handle: str, **known: Any) -> Tree:
        blank: dict[str, Any] = dict.fromkeys(
            ("name", "cultivar", "owner", "place", "pot", "mix", "strength", "wanted"), ""
        )
        blank |= {
            "first_handle": handle,
            "kind": "trident maple",
            "standing": "here",
            "standing_since": None,
            "planted_out": False,
            "quarantined": False,
            "sizes": {},
            "facts": {},
            "zones": (),
            "opened": (),
            "on_tree": (),
            "last": {},
            "history": (),
        }
        return Tree(handle=handle, **{**blank, **known})

    def follow_up(self, tree: str = "hoshi", *days: str, **known: Any) -> FollowUp:
        blank: dict[str, Any] = {
            "id": f"{tree}/maple-feed/repotted 2027-03-06",
            "act": "fed",
            "title": "feed",
            "window": self.window(*(days or ("2027-04-03", "2027-04-10", "2027-04-24"))),
            "because": (self.reason("Cut roots take up no feed for about four weeks."),),
            "cautions": (),
            "minutes": 0,
            "settled_by": ("fed",),
            # A promise, so that it stays open however late it is.
            "given_word": not known.get("lapses", False),
        }
        known = {"row": ROWS.get(known.get("act", "fed"), NO_ACT), **known}
        lapses = known.pop("lapses", False)
        known.setdefault("weight", _weight(lapses, known.get("act", "fed")))
        return FollowUp(tree=tree, **{**blank, **known})

    def done(self, day: str, act: str = "fed") -> Event:
        """An act that settled a follow-up."""
        return Event(act, read_date(day), (), "", "", "", "hoshi", "diary.txt", 1, 3, row=ROWS[act])

    def made(
        self,
        follow_ups: Sequence[FollowUp],
        *,
        today: date = TODAY,
        trees: Mapping[str, Tree] | None = None,
        names: Mapping[str, str] | None = None,
        remembered: Revisions | None = None,
        cards: Mapping[str, Any] | None = None,
        **settings: Any,
    ) -> tuple[dict[str, bytes], Revisions]:
        """Every feed of these follow-ups; trees that are not given are plain ones.

        `cards`: what the grounds know of places and persons.
        """
        trees = {f.tree: self.tree(f.tree) for f in follow_ups} | dict(trees or {})
        grounds = Grounds(trees, names or {}, **(cards or {}))
        chosen = Settings(**{"journal_id": "upper-yard", **settings})
        plans = {name: tuple(f for f in follow_ups if f.tree == name) for name in trees}
        shown = shown_in_feeds(plans, today, chosen.settled)
        feeds = feeds_of(shown, grounds)
        return gathered(feeds_written(feeds, shown, grounds, today, chosen, remembered or {}))

    def feed(self, follow_ups: Sequence[FollowUp], **known: Any) -> bytes:
        """The feed of the keeper's own trees: each work by itself."""
        return self.made(follow_ups, **known)[0]["calendars/own.ics"]

    def weeks(self, follow_ups: Sequence[FollowUp], **known: Any) -> bytes:
        """The feed of the keeper's weeks."""
        return self.made(follow_ups, **known)[0][EVERYTHING]

    def lines(self, feed: bytes) -> list[str]:
        """The content lines of a feed, unfolded as RFC 5545 §3.1 says."""
        return feed.replace(b"\r\n ", b"").decode().split("\r\n")[:-1]

    def events(self, feed: bytes, sort: str = "VEVENT") -> list[list[str]]:
        """The content lines of each event, or task, without its BEGIN and END."""
        lines = self.lines(feed)
        starts = [i for i, line in enumerate(lines) if line == f"BEGIN:{sort}"]
        return [lines[i + 1 : lines.index(f"END:{sort}", i)] for i in starts]

    def values(self, feed: bytes, name: str, sort: str = "VEVENT") -> list[str]:
        """The raw values of a property of events, or tasks, in the order of the feed."""
        return _values([line for event in self.events(feed, sort) for line in event], name)

    def calendar_values(self, feed: bytes, name: str) -> list[str]:
        """The raw values of a property of the calendar itself."""
        lines = self.lines(feed)
        end = min(i for i, line in enumerate(lines) if i and line.startswith(("BEGIN:", "END:")))
        return _values(lines[:end], name)


def _weight(lapses: bool, act: str) -> Weight:
    """A chance of the season; what scars a tree while it is on it; else what is only late."""
    if lapses:
        return CHANCE
    at_stake: AtStake = "harm" if act in ("unwired", "untied", "checked") else "style"
    return Weight(at_stake, must=True, once_past="grows")


def _values(lines: Sequence[str], name: str) -> list[str]:
    return [line.split(":", 1)[1] for line in lines if re.split("[;:]", line)[0] == name]


@pytest.fixture(scope="session")
def build() -> Builders:
    return Builders()
