"""Where the name and password for a server come from: the environment or the keyring."""

from __future__ import annotations

import os
from collections.abc import Mapping
from contextlib import suppress
from pathlib import Path
from typing import NamedTuple

from backbud.person import folder_outside
from backbud.subscribe.address import Address
from backbud.subscribe.errors import SubscribeError

USER, PASSWORD = "BACKBUD_CALDAV_USER", "BACKBUD_CALDAV_PASSWORD"
_SERVERS = "servers"


class Login(NamedTuple):
    """A name and a password. It shows neither in a message or a traceback."""

    user: str
    password: str

    def __repr__(self) -> str:
        return "Login(…)"


def login_for(address: Address, named_now: bool, environ: Mapping[str, str], journal: str) -> Login:
    """Return the login for a server.

    `named_now`: the keeper named the server in this very command. A journal can come from somebody
    else, and its settings may name any server: the environment's password goes only to one that
    the keeper has named in a command before. A keyring keeps one for each server anyway.
    """
    user, password = environ.get(USER, ""), environ.get(PASSWORD, "")
    if user and password:
        if named_now:
            _remember(address.origin, journal)
        elif address.origin not in _named_before(journal):
            raise SubscribeError(
                f"the journal's settings name {address.origin}, and no password is sent there "
                f"before you name it yourself, once: --to {address.url}"
            )
        return Login(user, password)
    found = _from_keyring(address.origin, user)
    if found is None:
        raise SubscribeError(
            f"there is no name and password for {address.origin}. Set {USER} and {PASSWORD}, or "
            f'keep them in the keyring: keyring set "{service_of(address.origin)}" NAME'
        )
    return found


def service_of(origin: str) -> str:
    """What the keyring calls the password of a server."""
    return f"backbud {origin}"


def _from_keyring(origin: str, user: str) -> Login | None:
    try:
        import keyring  # type: ignore[import-not-found, unused-ignore]
    except ImportError:
        return None
    # A keyring that is locked, or that no desktop keeps, raises errors of its own.
    with suppress(Exception):
        found = keyring.get_credential(service_of(origin), user or None)
        if found is not None and found.password:
            return Login(str(found.username or user), str(found.password))
    return None


# ------------------------------------------------------------------ servers named before


def _file(journal: str) -> Path | None:
    """The list of servers, in the person's own folder and never in a journal."""
    folder = folder_outside(journal)
    return Path(folder) / _SERVERS if folder else None


def _named_before(journal: str) -> list[str]:
    path = _file(journal)
    try:
        return path.read_text("utf-8").splitlines() if path else []
    except (OSError, UnicodeDecodeError):
        return []


def _remember(origin: str, journal: str) -> None:
    """Add a server to the list; where it cannot be kept, it has to be named each time."""
    path = _file(journal)
    if path is None or origin in _named_before(journal):
        return
    with suppress(OSError):
        path.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
        with open(path, "a", encoding="utf-8", opener=_privately) as file:
            file.write(f"{origin}\n")


def _privately(path: str, flags: int) -> int:
    return os.open(path, flags, 0o600)
