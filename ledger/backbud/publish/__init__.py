"""Puts the output of a journal and its memory on the disk; in this file, only where they lie.

Imported on the way of a run that has nothing to do, so it imports nothing itself.
"""

from __future__ import annotations

MADE = "made"
MADE_ON = "made-on"  # looks back, each in a folder of its day
ASIDE = "made-aside"  # what came with the journal and made way
OUTPUTS = (MADE, MADE_ON, ASIDE)  # never read as a part of the journal
MANIFEST = ".manifest"
MEMORY = ".backbud"
STAGED = "staged"
COMMITMENT = "commitment"
REMEMBERED = "remembered"
# Nothing of a journal lies further down than so many folders: to look there could have no end.
DEEPEST = 100
