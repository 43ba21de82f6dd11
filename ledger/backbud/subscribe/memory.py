"""What was published and collected comes out of `.backbud/`, and goes back into it."""

from __future__ import annotations

import os
from collections.abc import Mapping
from contextlib import suppress

import msgspec

from backbud.publish import MEMORY
from backbud.publish.commit import memory_folder, write_whole

# By UID the description of each entry as it was published, to know a note in it.
TOLD = "told.json"
# By UID the tick of each task that became a diary line, or stood in the diary already.
COLLECTED = "collected.json"

_decoder = msgspec.json.Decoder(dict[str, str])
_encoder = msgspec.json.Encoder(order="sorted")


def recall(journal: str, name: str) -> dict[str, str]:
    """Return what was kept; nothing where it is lost, torn or foreign."""
    try:
        with open(os.path.join(journal, MEMORY, name), "rb") as file:
            return _decoder.decode(file.read())
    except (OSError, msgspec.DecodeError, UnicodeDecodeError):
        return {}


def keep(journal: str, name: str, values: Mapping[str, str]) -> None:
    """Keep the values whole, or, where the disk refuses, not at all."""
    with suppress(OSError):
        write_whole(memory_folder(journal), name, _encoder.encode(values))
