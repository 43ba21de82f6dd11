"""What is looked for while new roots form on fine-rooted evergreens of acid soil.

Common practice, no source.
"""

from __future__ import annotations

from backbud.species import Rule
from backbud_species.habits.afterwards import checks_after
from backbud_species.habits.done import is_root_work
from backbud_species.habits.times import weeks


def watches_new_roots(rule_id: str) -> Rule:
    """Leaves and tips tell how the roots fare, some weeks after they were cut."""
    return checks_after(
        rule_id,
        ("repotted", "root-pruned"),
        weeks(2, 4, 7),
        look_at="strength",
        what="strength: leaves, new tips, and water that stands",
        because="Leaves that hang, or brown at the rim, tell late that fine roots dried or rot; "
        "new tips show that they hold.",
        cautions=(
            "If leaves hang in wet soil, water less and mist; if it is dry inside, soak the pot.",
        ),
        only_after=is_root_work,
    )


NEW_ROOTS = watches_new_roots("new-roots")
