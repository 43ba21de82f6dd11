"""Which addresses of a server may be spoken to, since a password is sent there."""

from __future__ import annotations

from ipaddress import ip_address
from typing import NamedTuple
from urllib.parse import urlsplit

from backbud.subscribe.errors import SubscribeError

_SCHEMES = {"https": 443, "http": 80}


class Address(NamedTuple):
    """A server's address, and its origin (RFC 6454 §4): scheme, host, and port where it is not the
    usual one."""

    url: str
    origin: str


def checked_address(url: str) -> Address:
    """Return the address if a password may be sent there.

    SubscribeError for anything but https, save on this machine, and where a name or password
    stands in the address, since addresses end up in files and logs.
    """
    try:
        parts = urlsplit(url.strip())
        host, port = parts.hostname or "", parts.port
    except ValueError:
        raise SubscribeError("the server's address cannot be read") from None
    if parts.scheme not in _SCHEMES or not host:
        raise SubscribeError(
            "the server's address is written out whole, such as https://calendar.example/"
        )
    if parts.username is not None or parts.password is not None:
        raise SubscribeError(
            f"a name or password stands in the address of {host}: take it out. They are read from "
            "the environment or the keyring"
        )
    if parts.scheme == "http" and not _is_this_machine(host):
        raise SubscribeError(
            f"{host} is not spoken to without https: the password could be read on the way"
        )
    shown = f"[{host}]" if ":" in host else host
    there = f":{port}" if port and port != _SCHEMES[parts.scheme] else ""
    return Address(parts.geturl(), f"{parts.scheme}://{shown}{there}")


def _is_this_machine(host: str) -> bool:
    try:
        return ip_address(host).is_loopback
    except ValueError:
        return host == "localhost"
