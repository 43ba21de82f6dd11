"""Showing the person the code in a journal's plugins, and asking whether it may run."""

from __future__ import annotations

from backbud.consent.files import read_plugins
from backbud.consent.place import PLUGINS
from backbud.consent.record import record, take_back, trusted_files
from backbud.consent.show import CONSENT, set_lines
from backbud.say import ask, can_ask, say
from backbud.words import number


class NotThese(Exception):
    """The digest given is not that of the files; the sentence says so."""


def trust(journal: str, digest: str = "") -> bool:
    """Show the plugins and ask for consent; whether they are trusted now.

    `digest`: the answer of a script, which names the very set that it consents to. NotThese where
    it is another; CannotRecord where the answer cannot be kept.
    """
    # Read once: what is shown is what is recorded, whatever happens to the files meanwhile.
    found = read_plugins(journal)
    trusted = trusted_files(journal)
    say(*set_lines(found, trusted))
    if not found.files:
        say(f"There are no plugins here: no *.py in {PLUGINS}/.")
        return True
    say(f"{number(len(found.files), 'file')} with the digest", f"  {found.digest}")
    if trusted == found.files:
        say("You trust them as they are. To take that back: backbud trust --forget")
        return True
    say("", CONSENT, "")
    if digest and digest != found.digest:
        raise NotThese(
            "the files have another digest than the one you gave; nothing was recorded. "
            "Look at them again"
        )
    if not digest and not can_ask():
        say(
            "Nothing was recorded, since nobody can answer here. A script says: "
            f"backbud trust {journal} --yes DIGEST"
        )
        return False
    if not digest and ask("Trust them? yes or no: ") != "yes":
        say("Nothing was recorded; they stay left out.")
        return False
    record(journal, found.files)
    say("Trusted. Any change to any of them asks again.")
    return True


def take_consent_back(journal: str) -> None:
    """Forget the consent. CannotRecord where the record cannot be removed."""
    if take_back(journal):
        say("Forgotten: the plugins of this journal are left out from now on.")
    else:
        say("Nothing of this journal was trusted.")
