"""What is remembered in `.backbud/` of what was published and collected."""

from __future__ import annotations

from collections.abc import Mapping

import msgspec

from backbud.publish import memory

# By UID the description of each entry as it was published, to know a note in it.
TOLD = "told.json"
# By UID the tick of each task that became a diary line, or stood in the diary already.
COLLECTED = "collected.json"

_decoder = msgspec.json.Decoder(dict[str, str])
_encoder = msgspec.json.Encoder(order="sorted")


def recall_values(journal: str, name: str) -> dict[str, str]:
    """Return what was kept; nothing where it is lost, torn or foreign."""
    data = memory.recall_bytes(journal, name)
    try:
        return {} if data is None else _decoder.decode(data)
    except msgspec.DecodeError:  # another version's
        return {}


def keep_values(journal: str, name: str, values: Mapping[str, str]) -> None:
    """Keep the values whole, or, where the disk refuses, not at all."""
    memory.keep_bytes(journal, name, _encoder.encode(values))
