"""What comes round every year for every tree: feeding, wiring, a look for pests, the winter."""

from __future__ import annotations

from datetime import date, timedelta

from backbud.species import (
    CARE,
    CHANCE,
    ROUTINE,
    Proposal,
    Proposals,
    Tree,
    Window,
    Year,
    joined,
    out_of_the_heat,
    phrase,
)
from backbud_species.habits.done import is_root_work, since

# Cut roots take up no feed for about six weeks; common practice, no source.
SIX_WEEKS = timedelta(weeks=6)

# A feed that is given sooner is the last of the season before; common practice, no source.
FEED_EARLY_DAYS = 7
# After so long a tree has grown out of its shape; common practice, no source.
_YEARS_UNWIRED = timedelta(days=3 * 365)

WARMED = ("heated glass", "indoors")
FROZEN_WOOD_SNAPS = "Frozen wood snaps: wire it thawed."
CUT_ROOTS_FREEZE = "Keep it from frost afterwards: cut roots freeze first."
LABEL_DECIDES = (
    "If it must be treated, the label and local law decide, and a licence may be needed."
)


def feeding(
    tree: Tree, year: Year, window: Window, because: str, datum: str, what: str = ""
) -> Proposals:
    """Feed, unless the roots were worked on so lately that feeding has to wait.

    In the hot weeks of a place it rests: the window ends before them or begins after them.
    """
    if since(tree, window.best - SIX_WEEKS, window.best, is_root_work):
        return
    window, datum = out_of_the_heat(year, window, datum)
    ends = _feed_ends(year)
    if ends is not None and year.first < ends < window.closes:
        if ends <= window.opens:
            return
        window = Window(window.opens, min(window.best, ends), ends)
    yield Proposal(
        "fed",
        window,
        what=what,
        because=because,
        datum=datum,
        weight=ROUTINE,
        early_days=FEED_EARLY_DAYS,
    )


def _feed_ends(year: Year) -> date | None:
    """The usual first frost, from which on no feed goes to a tree outside; none for a tender tree,
    that winters in warmth. By months where nothing is known of the nights: common practice."""
    if year.comes_in_below_c is not None or year.cover.casefold().startswith(WARMED):
        return None
    if year.outlook is None:
        return year.on((10, 31))
    frost = year.cold_nights_begin(0.0)
    return frost.day if frost else None


def wiring(
    tree: Tree, window: Window, because: str, datum: str, cautions: tuple[str, ...] = ()
) -> Proposals:
    """The season for wiring, where nothing is wired yet and the tree is not weak."""
    if not tree.weak and not tree.on("wire"):
        unwired = _not_wired_for_years(tree, window.opens)
        yield Proposal(
            "wired",
            window,
            what=phrase("what has to be set"),
            because=because,
            datum=joined(f"{datum} {unwired}", datum) if unwired else datum,
            cautions=cautions,
            weight=CHANCE,
            singly=bool(unwired),
        )


def _not_wired_for_years(tree: Tree, day: date) -> str:
    """Since when a tree was not wired, where that is so long; "" otherwise."""
    wired, known = tree.last.get("wired"), tree.history[0].event if tree.history else None
    last = wired or known
    if last is None or last.day > day - _YEARS_UNWIRED:
        return ""
    if wired is None:
        return phrase("No wiring is written down since {text}.", text=last.when.day_or_text)
    return phrase("It was last wired {text}.", text=last.when.day_or_text)


def pests(
    window: Window, where: str, because: str, datum: str, cautions: tuple[str, ...] = ()
) -> Proposal:
    """A look for pests or disease, which lapses with its window."""
    return Proposal(
        "checked",
        window,
        what=phrase("for pests: {where}", where=phrase(where)),
        because=because,
        datum=datum,
        cautions=(*cautions, LABEL_DECIDES),
        settled_by=("checked pests", "treated"),
        weight=CARE,
    )
