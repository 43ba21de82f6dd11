"""A tree whose roots were cut under cover, and that leaves it before they have rested, is kept from
frost where it stands now."""

from __future__ import annotations

from datetime import date, timedelta

from backbud.collection.places import is_winter_cover
from backbud.species import (
    CARE,
    PROTECTION,
    ROOTS_REST,
    Event,
    Proposal,
    Proposals,
    Tree,
    Window,
    Year,
    after,
    frost_to_come,
    joined,
    last_cut_of_roots,
)
from backbud.tongue import phrase

FRESH_ROOTS = "fresh-roots-out"
# A fleece that was put over cut roots may come off from then on (weather_cover_off.py).
_FLEECE = timedelta(weeks=3)
# So long a winter lasts: roots cut in its autumn are young all through it.
_WINTER = timedelta(days=180)
_A_YEAR = timedelta(days=365)


@after(
    "moved",
    "quarantined",
    "received",
    "returned",
    "parted-off",
    "unprotected",
    rule=FRESH_ROOTS,
)
def kept_from_frost(tree: Tree, done: Event, year: Year) -> Proposals:
    """What the cut asked nothing of, since it was made under cover; not where it was made on an
    open bench, and the tree went to another. Common practice, no source: four weeks."""
    cut = last_cut_of_roots(tree)
    if cut is None or not tree.here or tree.planted_out or not _left_its_cover(tree, done, year):
        return
    # A tender tree comes in instead (tender_out.py).
    bears = year.bears(tree, done.day)
    if bears is None or year.comes_in_below_c is not None:
        return
    young_in_winter = _winter_took_them_for_mature(cut.day, done.day, year)
    rested = cut.day + ROOTS_REST
    rests_for = _FLEECE if done.act == "unprotected" else ROOTS_REST
    if done.day >= cut.day + rests_for and not young_in_winter:
        return
    until = cut.day + _WINTER if young_in_winter else rested
    frost = frost_to_come(year, bears.celsius, done.day, until)
    if frost is None:
        return
    yield Proposal(
        "protected",
        Window(done.day, done.day, max(frost.last, rested)),
        what=phrase("its fresh roots from frost"),
        because=phrase(
            "Roots that were cut have not grown into the soil yet, and frost in the pot kills them."
        ),
        datum=joined(f"{bears.because} {frost.because}", frost.because),
        cautions=(
            phrase("Back under its cover it is as well kept, and out of sun and wind."),
            phrase("No hard pruning, bending or leaf work now."),
        ),
        settled_by=("protected", "moved"),
        covers="any",
        weight=PROTECTION if frost.likely else CARE,
    )


def _left_its_cover(tree: Tree, done: Event, year: Year) -> bool:
    """Whether it stood under cover, or nobody knows where, and stands in the open from now on."""
    if is_winter_cover(year.cover) or tree.on("protection"):
        return False
    if done.act == "unprotected":
        return True
    move = tree.moved_by(done)
    if move is None:
        return False
    return move.came_from is None or is_winter_cover(year.cover_over(move.came_from))


def _winter_took_them_for_mature(cut: date, day: date, year: Year) -> bool:
    """Whether the rule of the winter of a day was asked before roots were cut that bear less."""
    young, mature = year.young_roots_bear, year.roots_bear
    if young is None or mature is None or young.celsius <= mature.celsius:
        return False
    autumn = year.on((9, 1))
    return cut >= (autumn if day >= autumn else autumn - _A_YEAR)
