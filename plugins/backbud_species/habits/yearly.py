"""What comes round every year for every tree: feeding, wiring, a look for pests, the winter."""

from __future__ import annotations

from datetime import timedelta

from backbud.species import Fact, Proposal, Proposals, Tree, Window, Year
from backbud_species.habits.done import is_root_work, since
from backbud_species.habits.figures import COLD_NIGHT_DROP
from backbud_species.habits.warmth import UNKNOWN, under_cover

# Cut roots take up no feed for about six weeks; common practice, no source.
SIX_WEEKS = timedelta(weeks=6)
_COVERED = ("cold frame", "tunnel", "unheated glass", "heated glass", "indoors")

FROZEN_WOOD_SNAPS = "Frozen wood snaps: wire it thawed."
LABEL_DECIDES = (
    "If it must be treated, the label and local law decide, and a licence may be needed."
)


def feeding(tree: Tree, window: Window, because: str, datum: str, what: str = "") -> Proposals:
    """Feed, unless the roots were worked on so lately that feeding has to wait."""
    if since(tree, window.best - SIX_WEEKS, window.best, is_root_work):
        return
    yield Proposal("fed", window, what=what, because=because, datum=datum, lapses=True)


def wiring(
    tree: Tree, window: Window, because: str, datum: str, cautions: tuple[str, ...] = ()
) -> Proposals:
    """The season for wiring, where nothing is wired yet and the tree is not weak."""
    if not tree.weak and not tree.on("wire"):
        yield Proposal(
            "wired",
            window,
            what="what has to be set",
            because=because,
            datum=datum,
            cautions=cautions,
            lapses=True,
        )


def left_to_grow(window: Window, because: str) -> Proposal:
    """In the stead of a work that a weak tree does not bear: a look at its strength."""
    return Proposal(
        "checked",
        window,
        what="strength before any trimming",
        because=because,
        datum="The tree is written down as weak.",
        settled_by=("vigour", "checked strength"),
        lapses=True,
    )


def pests(
    window: Window, where: str, because: str, datum: str, cautions: tuple[str, ...] = ()
) -> Proposal:
    """A look for pests or disease, which lapses with its window."""
    return Proposal(
        "checked",
        window,
        what=f"for pests: {where}",
        because=because,
        datum=datum,
        cautions=(*cautions, LABEL_DECIDES),
        settled_by=("checked pests", "treated"),
        lapses=True,
    )


def winter_protection(tree: Tree, year: Year, limit: Fact[float], because: str) -> Proposals:
    """Protect before the cold, where nights colder than the roots bear must be expected.

    Nothing where the tree stands under cover, is planted out, or the winters are mild.
    """
    if under_cover(year, *_COVERED) or tree.planted_out:
        return
    bears = f"roots in a pot bear about {limit.value:g} °C ({limit.source})"
    datum = f"{UNKNOWN.removesuffix('.')}; {bears}."
    if year.low_c:
        mean = min(year.low_c)
        night = mean - COLD_NIGHT_DROP.of(year)
        if night > limit.value:
            return
        datum = (
            f"The coldest month's lows average {mean:g} °C, so a night of {night:g} °C can come "
            f"({COLD_NIGHT_DROP.name}, a setting of ours); {bears}."
        )
    opens, best = year.on((11, 1)), year.on((11, 15))
    yield Proposal(
        "protected",
        Window(opens, best, year.on((12, 31)) + SIX_WEEKS),
        what="against winter frost",
        because=because,
        datum=datum,
        settled_by=("protected", "moved"),
        lapses=True,
    )
