"""A hand's lines go in, each on a tree of its own; how each was read comes out, and the messages.

A file of `hands/` has what the hand keeps (`# tree NAME | KIND | …`) and its lines: number,
subject, line, the acts that would be a right reading of what it tells first, and what it changes.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from datetime import date
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import NamedTuple

from backbud.collection.state import Tree
from backbud.session import Session, open_session
from backbud_grammar.problems import Problem

HANDS = ("one", "two", "three")
# Lines of the same hands that were written before anybody saw how they read.
OWN = tuple(f"{when}_{hand}" for when in ("first", "last") for hand in HANDS)
# A year of each hand, and what was written of it once more after the first was looked at.
YEARS = tuple(f"{when}_{hand}" for when in ("year", "again") for hand in HANDS)
# A terse grower, a talker in inches with slips of the pen, and who thinks in another language.
OTHERS = tuple(f"{when}_{hand}" for when in ("fresh", "later") for hand in HANDS)
# By writers who had not read the manual, in the three hands.
UNTOLD = tuple(f"unread_{hand}" for hand in HANDS)
# A year more of the third hand: days and parts said short, words of two other languages.
ROOF = ("roof_three",)
# What the third hand says of wire, ties, covers, feed, water, pests and looks, in lots of eighty.
KEEP = ("keep_three",)
FOLDER = Path(__file__).with_name("hands")
PAST = """\
2026-03-01

{trees}
  wired      3 mm Al on left 1, 2 mm Al on apex
  tied       2 mm x 2
  protected  fleece

2026-06-01
"""


class Line(NamedTuple):
    """A line of a hand, and what would be right."""

    number: int
    text: str
    acts: tuple[str, ...]
    effects: frozenset[str]
    # The handle of its tree's owner, "" of one's own.
    owner: str = ""


class Verdict(NamedTuple):
    """How a line was read. `acts`: in their order, of what is held back too."""

    line: Line
    how: str
    acts: tuple[str, ...]
    kept: str
    told: tuple[str, ...]
    problems: tuple[Problem, ...] = ()


def slug(name: str) -> str:
    plain = re.sub(r"[^a-z0-9]+", "-", name.lower()).strip("-")
    return plain if plain[:1].isalpha() else f"t-{plain}"


def lines_of(hand: str) -> tuple[str, list[Line]]:
    """The cards of all that a hand keeps, and its lines."""
    cards: dict[str, str] = {}
    owners: dict[str, str] = {}
    lines: list[Line] = []
    rows = (FOLDER / f"{hand.split('_')[-1]}.tsv").read_text(encoding="utf-8").splitlines()
    if "_" in hand:
        own = FOLDER.with_name("own") / f"{hand}.tsv"
        rows = [row for row in rows if row.startswith("# ")] + own.read_text("utf-8").splitlines()
    for row in rows:
        if not row.startswith("# "):
            number, subject, text, acts, effects = row.split("\t")
            owner = owners.get(subject.strip().casefold(), "")
            does = (*acts.split(),)
            lines.append(Line(int(number), text, does, frozenset(effects.split()), owner))
            continue
        kind, _, names = row[2:].split("|")[0].strip().partition(" ")
        if kind == "tree" and (whose := [*row.split("|"), "", "", ""][3].split(",")[0].strip()):
            owners[names.casefold()] = slug(whose)
            cards.setdefault(slug(whose), f"person {slug(whose)}\n  name  {whose}\n")
        many = kind in ("place", "person", "material")
        for name in names.split(",") if many else [names]:
            body = {
                "tree": "kind  field maple",
                "place": "within  yard",
                "pot": "shape  oval\n  inside  30 x 22 x 7 cm",
                "person": f"name  {name.strip()}",
                "mix": "akadama  1\n  pumice  1",
                "material": "sold in  bag of 10 L",
            }.get(kind)
            if body and slug(name) not in ("yard", "t-"):
                cards.setdefault(slug(name), f"{kind} {slug(name)}\n  {body}\n")
    return "\n".join(cards.values()), lines


def _changed(tree: Tree) -> set[str]:
    wires = [one for one in tree.on_tree if one.sort == "wire"]
    ties = [one for one in tree.on_tree if one.sort == "tie"]
    covers = [one for one in tree.on_tree if one.sort == "protection"]
    found = {
        "standing": tree.standing != "here",
        # What is no longer here stands nowhere.
        "place": tree.place not in ("yard", ""),
        "pot": bool(tree.pot),
        "wire": len(wires) != 2,
        "ties": len(ties) != 1,
        "protection": not covers,
    }
    return {name for name, is_so in found.items() if is_so}


@cache
def verdicts(hand: str) -> tuple[Verdict, ...]:
    """How each line of a hand is read."""
    return read_lines(hand, lines_of(hand)[1])


def read_lines(hand: str, lines: list[Line]) -> tuple[Verdict, ...]:
    """How lines are read in a hand's journal; each number is a tree, whose text may be acts."""
    cards, _ = lines_of(hand)
    trees = "\n".join(
        f"tree zz{one.number}\n  kind  field maple\n  since  2015\n  place  yard\n"
        + (f"  owner  {one.owner}\n" if one.owner else "")
        for one in lines
    )
    acts = {one.number: one.text.replace("\n", "\n  ") for one in lines}
    everyone = ", ".join(f"zz{one.number}" for one in lines)
    diary = PAST.format(trees=everyone) + "".join(
        f"\nzz{number}\n  {text}\n" for number, text in acts.items()
    )
    with TemporaryDirectory() as folder:
        Path(folder, "backbud.toml").write_text('language = 1\nhome = "yard"\ncurrency = "EUR"\n')
        Path(folder, "cards.txt").write_text(
            f"place yard\n  cover  open\n  latitude  52\n\n{cards}\n{trees}", encoding="utf-8"
        )
        Path(folder, "diary.txt").write_text(diary, encoding="utf-8")
        session = open_session(folder, date(2026, 6, 2))
        # All of them at once: what hangs on the day alone is worked out for the first.
        trees = session.plan([f"zz{one.number}" for one in lines]).trees
        told = [
            one for one in (*session.problems(), *session.words_kept()) if one.file == "diary.txt"
        ]
        return tuple(_verdict(session, one, diary, told, trees[f"zz{one.number}"]) for one in lines)


def _verdict(
    session: Session, line: Line, diary: str, of_all: Sequence[Problem], tree: Tree
) -> Verdict:
    history = session.histories.trees[f"zz{line.number}"]
    today = [one.event for one in history.entries if one.event.day == date(2026, 6, 1)]
    acts = tuple(event.said for event in today)
    at = diary.split("\n").index(f"zz{line.number}") + 2
    told = [one for one in of_all if at <= one.line <= at + line.text.count("\n")]
    is_flagged = any(one.severity != "kept" for one in told)
    changed = _changed(tree)
    kept = " ".join(word for event in today for word in event.kept)
    words = " ".join(f"{one.message} {one.hint}" for one in told)
    is_right = bool(acts) and acts[0] in line.acts
    if changed - line.effects or (not is_flagged and acts and not is_right and acts[0] != "noted"):
        how = "misread"
    elif is_right and not is_flagged and line.effects <= changed and not re.search(r"\d", kept):
        how = "right"
    elif is_right:
        how = "part"
    elif any(re.search(rf"\b{act}\b", words) for act in line.acts if act != "noted"):
        how = "hinted"
    else:
        how = "kept"
    messages = tuple(f"{one.message}. {one.hint}" for one in told)
    return Verdict(line, how, acts, kept, messages, tuple(told))
