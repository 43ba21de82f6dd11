"""Who reads what: the one place where it is decided what anybody but the keeper is shown."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date
from hashlib import blake2b
from typing import Literal, TypeVar

from msgspec import Struct
from msgspec.structs import replace

from backbud.collection.state import Tree
from backbud.journal.events import Event
from backbud.photographs.named import marked_for
from backbud.plan.followups import FollowUp, Reason, ReasonSort
from backbud.tongue import act_phrase, full_day, phrase
from backbud.views.for_keeper import is_work_for_keeper
from backbud.views.grounds import Grounds
from backbud.views.hidden_names import EverybodysNames, HiddenNames, places
from backbud.views.history import EntryView
from backbud.views.less import nameless, unpriced
from backbud.views.lines_of_act import free_names
from backbud.views.people import PersonView
from backbud.views.plain_details import is_part_of_trade, plain_details
from backbud.views.plain_words import act_alone, is_plain_keep, told_plainly
from backbud.views.shelf import ShelfView
from backbud.views.tree import ThingView, TreeView
from backbud.views.work import SettledView, WorkView
from backbud_grammar.act_words import ActWord
from backbud_grammar.acts import ROWS
from backbud_grammar.details import part_at_commas

# What the programme says of its own accord names nobody, but that a season is told with its place.
_OWN_WORDS: tuple[ReasonSort, ...] = ("rule", "season")
# What its owner reads on a tree's card; whatever else may stand there is the keeper's.
_OWNERS_FACTS = frozenset({"front", "style", "origin", "passport", "nebari", "girth"})
# The works that anybody is shown.
_PUBLIC_WORKS = frozenset({"roots", "branches", "wire", "deadwood", "propagation"})
_PHOTOGRAPHED: ActWord = "photographed"

T = TypeVar("T")


class Eyes(Struct, frozen=True):
    """Whose eyes something is for.

    `keeper` reads all. `helper` reads every work and every tree, but neither money nor what is
    private. `owner`, the `person` of that handle, reads of the own trees alone, and of nobody
    else: what was done in words of the language, no price, no place, and of the keeper's own words
    and photographs those that are marked for the owner. `public` reads of trees whose card says
    `public yes`, another's only while their owner consents: what they are and what work was done
    when, with no name, place, price or word of it, and the photographs that are marked for it.
    """

    sort: Literal["keeper", "helper", "owner", "public"] = "keeper"
    person: str = ""


KEEPER, HELPER, PUBLIC = Eyes(), Eyes("helper"), Eyes("public")


def eyes_of(owner: str) -> Eyes:
    """The eyes of an owner, by their handle; of the keeper for ""."""
    return Eyes("owner", owner) if owner else KEEPER


class Audience:
    """What some eyes are shown of a collection. Whatever is shown to nobody else than the keeper
    passes through here last, and comes out without what these eyes are not to read; None where
    nothing of it is left."""

    def __init__(self, eyes: Eyes, grounds: Grounds, names: EverybodysNames | None = None) -> None:
        """`names`: those of the same grounds, for who makes the audiences of many owners."""
        self._eyes, self._grounds = eyes, grounds
        is_owner = eyes.sort == "owner"
        self._names = (names or EverybodysNames(grounds)) if is_owner else None
        named = tuple(places(grounds)) if is_owner else ()
        # Where anything stands is the keeper's matter. A rule speaks of glass and tunnels of its
        # own accord, so there only what a place is called that is named for somebody is hidden.
        self._places = HiddenNames(named)
        self._named_places = HiddenNames(filter(self._names_others, named))
        self._at_places = tuple(
            phrase(" at {name}", name=name) for name in sorted(named, key=len, reverse=True)
        )

    def _names_others(self, text: str) -> bool:
        """Whether a text names anybody else, or a tree of theirs, to an owner."""
        return self._names is not None and self._names.named_to(self._eyes.person, text)

    @property
    def eyes(self) -> Eyes:
        """Whose they are."""
        return self._eyes

    def sees(self, tree: Tree) -> bool:
        """Whether they are shown the tree at all."""
        match self._eyes.sort:
            case "owner":
                return self._grounds.owner_of(tree) == self._eyes.person
            case "public":
                owner = self._grounds.owner_of(tree)
                consents = not owner or owner in self._grounds.consenting
                return self.is_public(tree) and consents
        return True

    def is_public(self, tree: Tree) -> bool:
        """Whether its card asks for it to be shown to anybody."""
        return tree.facts.get("public", "").strip().casefold() == "yes"

    def readable(self, text: str) -> str:
        """A text that is about no tree, where it names nobody whom they are not to read."""
        return self._nobodys(text)

    def plan(self, plan: Sequence[FollowUp]) -> Sequence[FollowUp]:
        """What is planned of a tree, without what is the keeper's own business."""
        if self._eyes.sort == "keeper":
            return plan
        return tuple(one for one in plan if not is_work_for_keeper(one))

    def work(self, work: WorkView) -> WorkView | None:
        """A work as they may read it."""
        if not self.sees(self._grounds.trees[work.tree]) or self._eyes.sort == "public":
            return None
        if self._eyes.sort != "keeper" and work.private:
            return None
        return self._owners_work(work) if self._eyes.sort == "owner" else work

    def people(self, people: tuple[PersonView, ...]) -> tuple[PersonView, ...]:
        """Of people nobody reads but the keeper."""
        return people if self._eyes.sort == "keeper" else ()

    def of_the_house(self, found: tuple[T, ...]) -> tuple[T, ...]:
        """What stands where, and in what: for whoever works in the house."""
        return found if self._eyes.sort in ("keeper", "helper") else ()

    def keepers(self, found: T, nothing: T) -> T:
        """What nobody reads but the keeper; nothing for all others."""
        return found if self._eyes.sort == "keeper" else nothing

    def tree(self, tree: TreeView) -> TreeView | None:
        """A tree as they may read of it."""
        known = self._grounds.trees[tree.tree]
        if not self.sees(known):
            return None
        if self._eyes.sort == "keeper":
            return tree
        lines = zip(tree.history, known.history, strict=True)
        read = (self._entry(entry, line.event) for entry, line in lines)
        entries = tuple(one for one in read if one is not None)
        acts = {entry.act for entry in entries}
        shown = replace(
            tree,
            facts=tuple(fact for fact in tree.facts if not fact.private),
            history=entries,
            last={act: date for act, date in tree.last.items() if act in acts},
            due=tuple(filter(None, map(self.work, tree.due))),
            settled=tuple(filter(None, map(self.work, tree.settled))),
        )
        match self._eyes.sort:
            case "owner":
                return self._owners_tree(shown)
            case "public":
                return nameless(shown)
        return shown

    def shelf(self, shelf: ShelfView) -> ShelfView | None:
        """The shelf as they may read of it: a helper how much there is, and no price."""
        match self._eyes.sort:
            case "keeper":
                return shelf
            case "helper":
                return unpriced(shelf)
        return None

    # ------------------------------------------------------------------ a line of the diary

    def _entry(self, entry: EntryView, event: Event) -> EntryView | None:
        if entry.private:
            return None
        # When a line was written, and at which hour it was done, is the house's matter.
        if entry.late or entry.hour:
            entry = replace(entry, late=None, hour=entry.hour * (self._eyes.sort == "helper"))
        match self._eyes.sort:
            case "helper":
                # A line as written may tell of money beside the work.
                return replace(entry, own_words="") if entry.own_words else entry
            case "owner":
                return self._owners_entry(entry, event)
        # Only works on the tree, of what was understood; who came and what was shown names people.
        if event.row.work not in _PUBLIC_WORKS or event.row.prose or not entry.done:
            return None
        return replace(
            _without_origin(entry),
            details="",
            text="",
            remark="",
            shared_among=1,
            within="",
            count="",
            of=None,
            plainly=act_alone(event),
        )

    # ------------------------------------------------------------------ an owner's

    def _owners_entry(self, entry: EntryView, event: Event) -> EntryView | None:
        """A typed act in words of the language, and the keeper's own words where they are marked
        for the owner. What is held back may have been meant otherwise."""
        said = self._nobodys(entry.for_owner)
        if event.row.prose or event.act == _PHOTOGRAPHED:
            seen = not event.row.prose and marked_for(event, "owner")
            if not said and not seen:
                return None
        # What was done to some of a batch may never have been done to theirs.
        if entry.held_back or (entry.within and entry.of is not None):
            return None
        if event.was("used"):
            return None  # By the handles of the shelf; the account names it.
        text = said if event.row.prose else self._plain(event, _seen(entry.text, event))
        if event.was("treated") or is_plain_keep(event):
            text = ""  # Doses, hours and wind are the keeper's to know.
        elif entry.text and not text and event.row.needs_detail:
            return None  # Alone it says nothing: moved.
        remark = "" if event.row.prose else said
        plainly = told_plainly(event, text, self._grounds.stuff, self._hides)
        plainly = "" if event.row.prose else plainly
        within = self._nobodys(entry.within)
        count = "" if entry.within else entry.count
        return replace(
            _without_origin(entry),
            details=text,
            text=text,
            remark=remark,
            within=within,
            count=count,
            plainly=plainly,
        )

    def _plain(self, event: Event, text: str) -> str:
        """The details of a line in words of the language, with nobody's name and no place."""
        plain = plain_details(event.row, event.named_row, text, self._grounds.stuff)
        return "" if self._hides(plain) else plain

    def _hides(self, text: str) -> bool:
        """Whether an owner is not to read it: it names somebody else, or a place."""
        return self._names_others(text) or self._places.named_in(text)

    def _owners_work(self, work: WorkView) -> WorkView:
        """A reason that names others is left out, and of a title that does its act is left. No line
        of the diary is pointed to: its file may be named for somebody."""
        part = self._owners_part(work.part)
        return replace(
            work,
            id=self._owners_id(work),
            title=self._owners_title(work),
            own_words="",
            part=part,
            place="",
            place_name="",
            reasons=tuple(self._owners_reasons(work)),
            settled=SettledView(work.settled.day, "", "", "", 0) if work.settled else None,
        )

    def _owners_id(self, work: WorkView) -> str:
        """An id holds its tree's oldest handle and the words of its part; where they are not to be
        read, a digest stands for them."""
        first, _, rest = work.id.partition("/")
        known = first if first == work.tree else self._nobodys(first)
        if known == first and self._owners_part(work.part) == work.part:
            return work.id
        return f"{known or 'tree'}/{blake2b(rest.encode(), digest_size=12).hexdigest()}"

    def _owners_title(self, work: WorkView) -> str:
        """A work as it is called; by its act alone where a plan or a part holds words that are not
        the trade's."""
        is_plain = is_part_of_trade(work.own_words) and (
            not work.part or self._owners_part(work.part) != ""
        )
        if is_plain and not self._hides(work.title):
            return work.title
        row = ROWS.get(work.act)
        return act_phrase(row.bare if row else work.act)

    def _owners_part(self, part: str) -> str:
        """A part of the tree by the trade's words for it."""
        return self._nobodys(part) if is_part_of_trade(part) else ""

    def _owners_reasons(self, work: WorkView) -> Iterator[Reason]:
        at = (self._event_at(work.tree, reason) for reason in work.reasons)
        free = {words for event in at if event is not None for words in _free_words(event)}
        for reason in work.reasons:
            text = self._owners_sentence(work, reason)
            # A rule, too, may say what stands in the line.
            if text and not any(words in text for words in free):
                yield replace(reason, text=text, file="", line=0, column=0)

    def _owners_sentence(self, work: WorkView, reason: Reason) -> str:
        """One sentence of why, or "" where it names somebody."""
        text = reason.text
        if reason.sort in _OWN_WORDS:
            if reason.sort == "season":
                for at in self._at_places:
                    text = text.replace(at, "")
            hidden = self._named_places if reason.sort == "rule" else self._places
            return "" if hidden.named_in(text) else text
        event = self._event_at(work.tree, reason)
        if event is not None and reason.quotes:
            plain = self._plain(event, event.text)
            text = f"{full_day(event.day)}: {event.act} {plain}".rstrip() + "."
        elif event is None and reason.file:
            return ""
        return "" if self._hides(text) else text

    def _event_at(self, tree: str, reason: Reason | ThingView) -> Event | None:
        """The line of the tree's history that something stands on."""
        told = (entry.event for entry in self._grounds.trees[tree].history)
        return next((e for e in told if (e.line, e.file) == (reason.line, reason.file)), None)

    def _owners_tree(self, tree: TreeView) -> TreeView:
        return replace(
            tree,
            place="",
            place_name="",
            pot=self._nobodys(tree.pot),
            pot_name=self._nobodys(tree.pot_name),
            mix=self._nobodys(tree.mix),
            mix_name=self._nobodys(tree.mix_name),
            facts=tuple(
                fact
                for fact in tree.facts
                if fact.label in _OWNERS_FACTS and not self._names_others(fact.value)
            ),
            on_it=tuple(self._owners_thing(tree.tree, one) for one in tree.on_it),
            wires=tuple(replace(one, part=self._owners_part(one.part)) for one in tree.wires),
            photographs=tuple(replace(one, at="") for one in tree.photographs if one.for_owner),
            parted_from=self._nobodys(tree.parted_from),
            looks=self._owners_looks(tree.looks),
            vigour=self._by_zone(tree.vigour),
            vigour_seen=self._by_zone(tree.vigour_seen),
        )

    def _owners_looks(self, looks: dict[date, dict[str, int]]) -> dict[date, dict[str, int]]:
        seen = {day: self._by_zone(scores) for day, scores in looks.items()}
        return {day: scores for day, scores in seen.items() if scores}

    def _by_zone(self, zones: dict[str, T]) -> dict[str, T]:
        return {zone: value for zone, value in zones.items() if self._owners_part(zone)}

    def _owners_thing(self, tree: str, thing: ThingView) -> ThingView:
        event, what = self._event_at(tree, thing), ""
        if event is not None:
            free = free_names(event.row)
            is_free = any(
                d.words and d.words in thing.what for d in event.details if d.name in free
            )
            what = "" if is_free else self._plain(event, thing.what)
        return replace(_unsigned(thing), what=what, part=self._owners_part(thing.part))

    def _nobodys(self, text: str) -> str:
        """The text, where it names none of the others."""
        return "" if self._names_others(text) else text


def _free_words(event: Event) -> Iterator[str]:
    """What stands in a line that is no word of the language."""
    free = free_names(event.row)
    for detail in event.details:
        said = detail.words.strip('"')
        if detail.name in free and said:
            label = next((f.labels[0] for f in event.row.forms if f.name == detail.name
                          and f.labels), "")  # fmt: skip
            if not plain_details(event.row, event.named_row, f"{label} {said}".strip(), ()):
                yield said


def _seen(text: str, event: Event) -> str:
    """The details of a line without the words that say who may see its picture."""
    if event.act != _PHOTOGRAPHED:
        return text
    marks = {detail.words for detail in event.all("for")}
    return ", ".join(piece for _, piece in part_at_commas(text) if piece not in marks)


def _without_origin(entry: EntryView) -> EntryView:
    """A line with neither its file nor what it first read."""
    return replace(
        entry,
        at="",
        corrected_at=None,
        first_written=None,
        correction=None,
        kept=(),
        own_words="",
        for_owner="",
    )


def _unsigned(thing: ThingView) -> ThingView:
    return replace(thing, file="", line=0)
