"""Holds the diary against the papers that were issued, where any were."""

from __future__ import annotations

import os
from collections.abc import Callable, Iterator

from backbud.collection.whereabouts import Histories
from backbud.issued.record import RECORD
from backbud.journal.problems import PlacedFlaw
from backbud.journal.read import Journal


def flaws_of_issued(journal: Journal, histories: Callable[[], Histories]) -> Iterator[PlacedFlaw]:
    """What of the diary says something else than a paper. `histories`: replays the journal."""
    if os.path.lexists(os.path.join(journal.folder, RECORD)):
        from backbud.issued.flaws import issued_flaws

        yield from issued_flaws(journal, histories)
