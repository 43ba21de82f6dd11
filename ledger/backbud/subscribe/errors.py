"""Whatever stands between a journal and its server goes in; a sentence for the keeper comes out."""

from __future__ import annotations


class SubscribeError(Exception):
    """What was asked cannot be done; the message is for the keeper, and holds no password."""
