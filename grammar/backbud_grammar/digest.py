"""A short digest that tells any bytes from any others."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from hashlib import blake2b
else:
    # hashlib loads a whole library of others with it, which takes longer than most of a run's work.
    try:
        from _blake2 import blake2b
    except ImportError:
        from hashlib import blake2b


def digest(*pieces: bytes) -> bytes:
    """Return the BLAKE2b digest (RFC 7693) of the pieces one after another, 16 bytes long."""
    whole = pieces[0] if len(pieces) == 1 else b"".join(pieces)
    return blake2b(whole, digest_size=16).digest()
