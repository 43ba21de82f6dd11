"""What is wrong with one setting, or with one entry of a table of settings."""

from __future__ import annotations

from typing import NamedTuple


class WrongSetting(NamedTuple):
    """A message and a hint. `entry`: the entry of the table that is meant, or "" for the setting
    itself."""

    message: str
    hint: str
    entry: str = ""
