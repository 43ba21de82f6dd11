"""What goes wrong with a met service, in one line that tells what to do."""

from __future__ import annotations


class ServiceError(Exception):
    """The service gave nothing that can be used; the sentence says why."""


class NotNamed(Exception):
    """This person named no service, or not this one, on this machine; the sentence says what to
    do."""
