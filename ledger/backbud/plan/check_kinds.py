"""Finds the trees whose kind no species here knows, so that a check can say so.

It remembers which kinds are known: to find the species takes longer than all else in a
small journal.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import TYPE_CHECKING

from backbud.journal import remember
from backbud.journal.events import Origin
from backbud.journal.problems import PlacedFlaw, WithFlaws, flaw_at, placed
from backbud.journal.read import Journal
from backbud.journal.settings import SETTINGS_FILE
from backbud.journal.things import Thing
from backbud_grammar.problems import did_you_mean, nearest

if TYPE_CHECKING:
    from backbud.plan.pack import Pack
    from backbud.plugins.added import OwnSpecies

_NO_SPECIES = "Only what holds for every tree is planned."


def check_kinds(
    journal: Journal, program: str, pack_of: Callable[[], Pack], own: tuple[OwnSpecies, ...]
) -> WithFlaws[bool]:
    """Whether some tree is of a species that is not this program's own; and each tree whose kind no
    species knows: it still gets what holds for every tree.

    To find the species takes longer than all else in a small journal, so what was found is
    remembered as long as `program`, its mark, is the same: nothing is installed or taken away, and
    no other code is trusted. Of a species that is not this program's own nothing is remembered.
    `own`: the species of the journal's own plugins.
    """
    memory, trees = journal.memory, journal.things.of_kind("tree")
    kinds = {_kind(tree) for tree in trees}
    if kinds <= remember.recall_names(memory, remember.KINDS_FILE, program):
        return WithFlaws(False)
    from backbud.plugins.faults import is_ours
    from backbud.plugins.offered import are_ours_alone

    if not own and are_ours_alone(kinds):
        # Nothing need be loaded: our own are held in order by the tests.
        remember.keep_names(memory, remember.KINDS_FILE, program, kinds)
        return WithFlaws(False)
    pack = pack_of()
    found = [pack.find(kind) for kind in kinds]
    are_others = any(one is not None and not is_ours(type(one)) for one in found)
    flaws = [flaw for file, one in pack.flaws for flaw in placed(file, 0, (one,))]
    flaws += [flaw for tree in trees if (flaw := _flaw_of_kind(tree, pack)) is not None]
    settings = Origin(SETTINGS_FILE, 1, 1)
    flaws += [flaw_at(settings, "species-failed", fault, "", 0, 1) for fault in pack.faults]
    faultless = not pack.faults and not pack.flaws
    if faultless and not are_others and None not in found:
        remember.keep_names(memory, remember.KINDS_FILE, program, kinds)
    return WithFlaws(are_others, tuple(flaws))


def _flaw_of_kind(tree: Thing, pack: Pack) -> PlacedFlaw | None:
    kind = _kind(tree)
    line = next((ln for ln in tree.lines if ln.detail.name == "kind"), None)
    if line is None:
        message, hint = (
            f"“{tree.handle}” has no kind",
            "Add a line with its own, such as: kind  trident maple",
        )
        return flaw_at(tree.origin, "no-kind", message, hint, 0, len(tree.kind), "warning")
    if pack.find(kind) is not None:
        return None
    message, hint = f"no species is called “{kind}”", _near_kind(kind, pack.names)
    at, length = line.detail.offset, len(kind)
    return flaw_at(line.origin, "unknown-species", message, hint, at, length, "warning")


def _near_kind(kind: str, names: Iterable[str]) -> str:
    """The species that may be meant: one word of two in common makes no near one, `common fig` is
    no slip of `common yew`."""
    near = nearest(kind, names)
    said, meant = set(kind.casefold().split()), set(near.casefold().split())
    if said & meant and not nearest(_others(said, meant), (_others(meant, said),)):
        return _NO_SPECIES
    return did_you_mean(kind, (near,), _NO_SPECIES) if near else _NO_SPECIES


def _others(words: set[str], among: set[str]) -> str:
    return " ".join(sorted(words - among))


def _kind(tree: Thing) -> str:
    """A tree's species as its card has it, without the cultivar."""
    return tree.text("kind").split("'")[0].strip()
