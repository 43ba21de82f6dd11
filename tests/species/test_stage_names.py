"""BBCH stages have the numbers that a published scale gives them.

Source: the BBCH scale for the grapevine, a woody plant, as the encyclopedia's article "BBCH-scale
(grape)" reprints it, where these words were read; the other codes are from memory.
"""

from __future__ import annotations

import pytest

from backbud.species.stages import STAGE_NAMES, stage_name

# Its codes and words, beside the words of ours that have to say the same.
PUBLISHED = {
    0: ("Dormancy: winter buds pointed to rounded", "rest"),
    1: ("Beginning of bud swelling", "swelling"),
    7: ("Beginning of bud burst: green shoot tips just visible", "burst"),
    55: ("Inflorescences swelling", "flower buds"),
    65: ("Full flowering: 50 % of flowerhoods fallen", "full flower"),
    69: ("End of flowering", "end of flowering"),
    89: ("Berries ripe for harvest", "ripe"),
    93: ("Beginning of leaf-fall", "leaf fall begins"),
    97: ("End of leaf-fall", "leaf fall over"),
}
# Of the scale for stone and pome fruit (Meier 2001), from memory.
FROM_MEMORY = {
    10: ("First leaves separating", "first leaves"),
    31: ("Beginning of shoot growth", "shoots begin"),
    51: ("Inflorescence buds swelling", "flower buds swelling"),
    59: ("Most flowers with petals forming a hollow ball", "colouring"),
    60: ("First flowers open", "first flowers"),
    71: ("Fruit set: ovary growing", "fruit set"),
    81: ("Beginning of ripening, of fruit colouring", "fruit colouring"),
    91: ("Shoot growth completed", "growth complete"),
}


@pytest.mark.parametrize("code", PUBLISHED)
def test_a_stage_is_called_as_the_scale_means_it(code: int) -> None:
    assert PUBLISHED[code][1] in STAGE_NAMES[code].casefold()


@pytest.mark.parametrize("code", FROM_MEMORY)
def test_a_stage_is_called_as_it_is_remembered_of_the_scale(code: int) -> None:
    assert FROM_MEMORY[code][1] in STAGE_NAMES[code].casefold()
    assert FROM_MEMORY[code][1] in stage_name(code).casefold()


def test_stages_come_in_the_order_of_a_year() -> None:
    assert list(STAGE_NAMES) == sorted(STAGE_NAMES)
