"""How heavy a pot is, dry and watered, how much water its mix holds, and who may lift it.

A litre of mix weighs so much dry, and so much at container capacity: watered through, and drained
until nothing drips. The difference is water, at 1 kg a litre. Right after watering a pot weighs
more still.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import NamedTuple

from msgspec import Struct

from backbud.bench.mixes import known_ingredient, litres_of_each, shares
from backbud.bench.pots import not_negative, positive
from backbud.tongue import phrase

_FROM_MEMORY = "from memory, a round figure; a weighed litre of your own is better"
_IJA_2012 = "International Journal of Agronomy 2012, article 978528, table 1"


class Density(NamedTuple):
    """The weight of a loose litre in kg, dry and at container capacity, and where it comes from."""

    dry_kg_per_litre: float
    wet_kg_per_litre: float
    source: str

    @property
    def water_share(self) -> float:
        """Litres of water that a litre holds at container capacity."""
        return self.wet_kg_per_litre - self.dry_kg_per_litre


# The table gives g/cm³ dry, and container capacity in percent of the volume: peat moss 0.11 and
# 87, pine bark 0.18 and 48. For perlite (and peat) the guide names 5.1 to 8.6 lb/ft³ dry, which
# is 0.08 to 0.14 kg/L; what perlite holds is from memory.
DENSITIES: Mapping[str, Density] = {
    "akadama": Density(0.60, 1.02, _FROM_MEMORY),
    "kanuma": Density(0.38, 0.85, _FROM_MEMORY),
    "pumice": Density(0.50, 0.85, _FROM_MEMORY),
    "lava": Density(0.85, 1.07, _FROM_MEMORY),
    "bark": Density(0.18, 0.66, _IJA_2012),
    "peat": Density(0.11, 0.98, _IJA_2012),
    "perlite": Density(
        0.11,
        0.46,
        "dry: perlite.info, Perlite Gradation and Peat/Perlite Mixture; water: from memory",
    ),
    "grit": Density(1.45, 1.55, _FROM_MEMORY),
    "sand": Density(1.50, 1.75, _FROM_MEMORY),
    "leaf mould": Density(0.25, 0.80, _FROM_MEMORY),
    "moss": Density(0.03, 0.63, _FROM_MEMORY),
    "coir": Density(0.08, 0.83, _FROM_MEMORY),
    "compost": Density(0.35, 0.95, _FROM_MEMORY),
    "loam": Density(1.10, 1.50, _FROM_MEMORY),
    "vermiculite": Density(0.12, 0.67, _FROM_MEMORY),
    "zeolite": Density(0.85, 1.20, _FROM_MEMORY),
    "charcoal": Density(0.25, 0.60, _FROM_MEMORY),
    "calcined clay": Density(0.60, 1.00, _FROM_MEMORY),
    "expanded clay": Density(0.45, 0.60, _FROM_MEMORY),
}
# Other words of the trade for the same thing.
_ALSO = {
    "hyuga": "pumice",
    "scoria": "lava",
    "leaf mold": "leaf mould",
    "sphagnum": "moss",
    "peat moss": "peat",
    "sphagnum peat": "peat",
    "bark compost": "bark",
    "gravel": "grit",
    "coco": "coir",
}

# kg a litre of fired clay, pores included; from memory.
CERAMIC_KG_PER_LITRE: Mapping[str, float] = {
    "stoneware": 2.3,
    "earthenware": 1.9,
    "terracotta": 1.9,
    "porcelain": 2.4,
}

# Green wood, bark and sap weigh about as much as water; from memory of wood handbooks.
GREEN_WOOD_KG_PER_LITRE = 1.0

# The guideline figure of the Health and Safety Executive (Great Britain) for a man who lifts now
# and then, with both hands, close to the body at waist height: 25 kg, for a woman 16 kg. From
# memory of its manual-handling guidance (INDG143, L23); a training page that reprints the filter
# agrees. It is a filter that calls for a closer look, no limit by law.
ONE_PERSON_KG = 25.0
# Two people together manage two thirds of what they manage singly; from memory of the same (L23).
_TOGETHER = 2 / 3


class PotWeight(Struct, frozen=True, gc=False):
    """A pot with its tree in kg, dry and at container capacity, and the parts of that.

    `sources`: where the weights of the ingredients come from, each once.
    """

    dry_kg: float
    wet_kg: float
    mix_dry_kg: float
    water_litres: float
    shell_kg: float
    tree_kg: float
    sources: tuple[str, ...]


def density_of(ingredient: str, own: Mapping[str, Density] | None = None) -> Density:
    """Return the weight of a litre of an ingredient; `own` figures, by its name, go first.

    ValueError, with what to give, for one that is not known.
    """
    if own and ingredient in own:
        return own[ingredient]
    known = known_ingredient(ingredient, (*DENSITIES, *_ALSO))
    if not known:
        raise ValueError(
            f"The weight of “{ingredient}” is not known: give its density in kg/L, dry and wet."
        )
    return DENSITIES[_ALSO.get(known, known)]


def mix_density(parts: Mapping[str, float], own: Mapping[str, Density] | None = None) -> Density:
    """Return the weight of a litre of mix: its ingredients by their shares of volume.

    `source` names each source once. ValueError as for `shares` and `density_of`.
    """
    found = [(share, density_of(name, own)) for name, share in shares(parts).items()]
    return Density(
        math.fsum(share * density.dry_kg_per_litre for share, density in found),
        math.fsum(share * density.wet_kg_per_litre for share, density in found),
        "; ".join(_sources(parts, own)),
    )


def water_held_litres(
    parts: Mapping[str, float], litres: float, own: Mapping[str, Density] | None = None
) -> float:
    """Return the water that so many litres of a mix hold between container capacity and dry.

    A tree reaches only a part of it: the last of it is held too fast. ValueError as `mix_density`.
    """
    return math.fsum(
        density_of(name, own).water_share * part
        for name, part in litres_of_each(parts, litres).items()
    )


def shell_kg(shell_litres: float, ware: str = "stoneware") -> float:
    """Return the weight in kg of a pot's clay from its volume in litres.

    ValueError for a ware that is not known, or a volume below zero.
    """
    if ware not in CERAMIC_KG_PER_LITRE:
        raise ValueError(f"Give the ware as one of {', '.join(CERAMIC_KG_PER_LITRE)}.")
    not_negative(shell_litres, "volume of the pot's clay in litres")
    return shell_litres * CERAMIC_KG_PER_LITRE[ware]


def trunk_kg(trunk_cm: float, height_cm: float) -> float:
    """Return the weight in kg of a trunk: a cone of green wood, pi d² h / 12, without branches.

    `trunk_cm`: diameter above the root base. ValueError for sizes below zero.
    """
    not_negative(trunk_cm, "thickness of the trunk in cm")
    not_negative(height_cm, "height of the tree in cm")
    return math.pi * trunk_cm**2 * height_cm / 12 / 1000 * GREEN_WOOD_KG_PER_LITRE


def pot_weight(
    parts: Mapping[str, float],
    litres: float,
    *,
    shell_kg: float = 0.0,
    tree_kg: float = 0.0,
    own: Mapping[str, Density] | None = None,
) -> PotWeight:
    """Return the weight in kg of a pot that holds so many litres of mix, with its tree.

    The root ball counts as the mix it stands in (ours, no source): for old dense roots the dry
    weight is a little low. ValueError as `mix_density`, and for weights below zero.
    """
    not_negative(litres, "litres of mix")
    not_negative(shell_kg, "weight of the pot in kg")
    not_negative(tree_kg, "weight of the tree in kg")
    density = mix_density(parts, own)
    dry = litres * density.dry_kg_per_litre
    water = litres * density.water_share
    still = dry + shell_kg + tree_kg
    return PotWeight(still, still + water, dry, water, shell_kg, tree_kg, _sources(parts, own))


def lifting_caution(weight_kg: float, one_person_kg: float = ONE_PERSON_KG) -> str:
    """Return the caution for lifting so many kg, "" up to what one person may lift.

    `one_person_kg`: from settings; the guideline's figure for a woman is 16. ValueError for a
    weight below zero or a person who lifts nothing.
    """
    not_negative(weight_kg, "weight in kg")
    positive(one_person_kg, "weight one person may lift in kg")
    if weight_kg <= one_person_kg:
        return ""
    enough = weight_kg <= _TOGETHER * 2 * one_person_kg
    how = (
        phrase("lift with two people")
        if enough
        else phrase("use a trolley or a hoist, not hands alone")
    )
    return phrase(
        "About {weight_kg:.0f} kg, above the {one_person_kg:g} kg guideline "
        "for one person with the load close to the body: {how}. Local law and "
        "your own back may set less.",
        weight_kg=weight_kg,
        one_person_kg=one_person_kg,
        how=how,
    )


def _sources(parts: Mapping[str, float], own: Mapping[str, Density] | None) -> tuple[str, ...]:
    """Where the weights of the ingredients come from, each once."""
    return tuple(dict.fromkeys(density_of(name, own).source for name in parts))
