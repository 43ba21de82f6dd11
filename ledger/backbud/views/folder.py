"""Who has a folder of pages of their own, where it lies, and what everything public is called.

Nothing of a customer leaves the house unasked: a folder is made for whom their card says so
(`pages yes`), or for everybody where the settings do. What is in its name is a keyed digest, so it
cannot be guessed, and stays the same from run to run and when the person's card is renamed.
"""

from __future__ import annotations

from hashlib import blake2b

from backbud.journal.settings import Settings
from backbud.journal.things import Things
from backbud.views.grounds import Grounds

FOR, PUBLIC_ROOT = "for/", "public/"
# RFC 7693; 128 bits are beyond guessing (NIST SP 800-107 asks 112 of a security strength).
_DIGEST_BYTES = 16


class Secrets:
    """Names that nobody can guess, of one journal under a person's key."""

    def __init__(self, key: bytes, journal_id: str) -> None:
        self._key, self._journal = key, journal_id

    def name(self, sort: str, handle: str) -> str:
        """The name of a thing of a sort, by its first handle, in hexadecimal."""
        said = "\0".join((self._journal, sort, handle)).encode()
        return blake2b(said, key=self._key, digest_size=_DIGEST_BYTES).hexdigest()


def owners_folders(
    things: Things, grounds: Grounds, settings: Settings, secrets: Secrets
) -> dict[str, str]:
    """The folder of each owner who has one, by their handle: `for/9f…/`."""
    owners = {grounds.owner_of(tree) for tree in grounds.trees.values()}
    return {
        person.handle: f"{FOR}{secrets.name('owner', person.first_handle)}/"
        for person in things.of_kind("person")
        if person.handle in owners
        and person.handle not in things.hidden
        and (person.text("pages").casefold() or _unsaid(settings)) == "yes"
    }


def helpers_folders(things: Things, secrets: Secrets) -> dict[str, str]:
    """The folder of each person who helps and has one, by their handle."""
    return {
        person.handle: f"{FOR}{secrets.name('helper', person.first_handle)}/"
        for person in things.of_kind("person")
        if person.text("pages").casefold() == "as helper"
    }


def _unsaid(settings: Settings) -> str:
    return "yes" if settings.pages_for_owners else "no"
