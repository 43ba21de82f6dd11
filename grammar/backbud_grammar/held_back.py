"""What an act that is held back is called, and what its problem says of it."""

from __future__ import annotations

# The act of a line that is held back; nobody can write it, since it is two words.
HELD = "held back"
HELD_CODE = "held-back"
CHANGES_NOTHING = "so this line is held back and changes nothing"
