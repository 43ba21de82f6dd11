"""Who may read what is served: this machine alone, or the house too, below a secret path.

Loopback only, unless it is asked for; then only below a path that nobody can guess.
"""

from __future__ import annotations

import os
import re
import secrets
import socket
from ipaddress import ip_address

from backbud.publish import MEMORY, memory

LOOPBACK, EVERYWHERE = "127.0.0.1", "0.0.0.0"
PATH_FILE = "lan-path"
_SECRET_BYTES = 24
_NAMES = ("localhost",)


def secret_path(journal: str) -> str:
    """The path below which the journal is served to others: kept, so that a bookmark stays good.

    Raises PublishError or OSError where it cannot be kept.
    """
    known = memory.recall_bytes(journal, PATH_FILE)
    if known is not None:
        return known.decode()
    made = secrets.token_urlsafe(_SECRET_BYTES)
    memory.must_keep(journal, PATH_FILE, made.encode())
    os.chmod(os.path.join(journal, MEMORY, PATH_FILE), 0o600)
    return made


def host_is_ours(host: str, on_lan: bool) -> bool:
    """Whether a Host header names this machine, so that no foreign page can pass for ours.

    A site that lets its own name lead to this machine comes with that name. An address in figures
    cannot be so turned; on a LAN any of them may be ours.
    """
    name = _name_of(host)
    if name in _NAMES:
        return True
    try:
        address = ip_address(name)
    except ValueError:
        own = socket.gethostname().casefold()
        return on_lan and name in (own, f"{own.partition('.')[0]}.local")
    return address.is_loopback or on_lan


def _name_of(host: str) -> str:
    """The name in a Host header (RFC 9110, 7.2), without its port; "" where it is none."""
    found = re.fullmatch(r"(?:\[([0-9A-Fa-f:.]+)\]|([A-Za-z0-9.-]+))(?::\d{1,5})?", host)
    return (found[1] or found[2]).casefold() if found else ""


def lan_address() -> str:
    """This machine's address in the house, as far as the system tells; else its name."""
    try:
        with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as asked:
            # Sends nothing; the address is one of those kept for documents (RFC 5737).
            asked.connect(("192.0.2.1", 9))
            return str(asked.getsockname()[0])
    except OSError:
        return socket.gethostname()
