"""Which devices may jot: a code from the terminal pairs one; the key in its cookie is known again.

Only digests of the keys are kept, under the person's mark; without them no device is known.
"""

from __future__ import annotations

import hmac
import secrets
from collections.abc import Callable
from hashlib import blake2b

import msgspec

from backbud.publish import memory

DEVICES_FILE = "jot-devices"
# No letter or digit that could be taken for another; 31 ** 8 codes.
_SIGNS = "ABCDEFGHJKMNPQRSTUVWXYZ23456789"
CODE_SIGNS = 8
CODE_TRIES = 5
CODE_SECONDS = 600.0
MOST_DEVICES = 8
_KEY_BYTES = 32


class Pairing:
    """One code, for one device: five tries, ten minutes. `clock`: seconds that never go back."""

    def __init__(self, clock: Callable[[], float]) -> None:
        self._clock = clock
        self._ends = clock() + CODE_SECONDS
        self._left = CODE_TRIES
        self._code: str | None = "".join(secrets.choice(_SIGNS) for _ in range(CODE_SIGNS))

    @property
    def shown(self) -> str:
        """The code as it is shown to the keeper: two groups of four; "" where it is used up."""
        return f"{self._code[:4]}-{self._code[4:]}" if self._code else ""

    @property
    def is_open(self) -> bool:
        """Whether a device can still be paired with it."""
        if self._code is not None and (self._left <= 0 or self._clock() >= self._ends):
            self._code = None
        return self._code is not None

    def takes(self, written: str) -> bool:
        """Whether it is the code; each asking is a try, and a code that was right is used up."""
        if not self.is_open or self._code is None:
            return False
        self._left -= 1
        said = "".join(sign for sign in written.upper() if sign not in " -")
        if not hmac.compare_digest(said.encode(), self._code.encode()):
            return False
        self._code = None
        return True


class Devices:
    """The devices of one journal that may jot."""

    def __init__(self, journal: str) -> None:
        self._journal = journal

    def __len__(self) -> int:
        return len(_recalled(self._journal))

    def add(self) -> str:
        """A key for one more device; the oldest goes where they are too many.

        PublishError or OSError where it cannot be kept.
        """
        key = secrets.token_urlsafe(_KEY_BYTES)
        _keep(self._journal, [*_recalled(self._journal), _digest(key)][-MOST_DEVICES:])
        return key

    def knows(self, key: str) -> bool:
        """Whether a key is that of a paired device."""
        if not key or len(key) > 2 * _KEY_BYTES:
            return False
        # Read each time: another run may have forgotten it.
        return any(hmac.compare_digest(_digest(key), one) for one in _recalled(self._journal))


def forget_devices(journal: str) -> int:
    """Forget every device, and return how many there were. PublishError or OSError."""
    count = len(_recalled(journal))
    if count:
        _keep(journal, [])
    return count


def form_token(key: str) -> str:
    """What each form of a device bears, and no other page can know."""
    return blake2b(b"jot form", key=key.encode()[:64], digest_size=24).hexdigest()


def _digest(key: str) -> bytes:
    return blake2b(key.encode(), digest_size=32, person=b"backbud jot").digest()


def _recalled(journal: str) -> list[bytes]:
    data = memory.recall_bytes(journal, DEVICES_FILE)
    try:
        return [] if data is None else msgspec.msgpack.decode(data, type=list[bytes])
    except (msgspec.MsgspecError, UnicodeDecodeError):
        return []


def _keep(journal: str, known: list[bytes]) -> None:
    memory.must_keep(journal, DEVICES_FILE, msgspec.msgpack.encode(known))
