"""What can go wrong between a journal and its server, each told in a sentence for the keeper."""

from __future__ import annotations


class SubscribeError(Exception):
    """What was asked cannot be done; the message is for the keeper, and holds no password."""


class NotAgreed(SubscribeError):
    """Something wanted a yes and had none; nothing was written."""


class EntryRefused(SubscribeError):
    """The server does not take this one entry."""


class Unreachable(SubscribeError):
    """The server does not answer, or not in time: there is no point in going on."""
