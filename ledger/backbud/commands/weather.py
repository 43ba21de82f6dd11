"""`backbud weather`: fetch the forecast of the met service that this person named."""

from __future__ import annotations

from argparse import Namespace
from datetime import date
from typing import TYPE_CHECKING

from backbud.commands.answers import agreed_to, print_json
from backbud.commands.journal import folder_of, folder_option, json_option
from backbud.commands.parser import ArgumentParser
from backbud.commands.status import FAILED, FINE, Misuse
from backbud.say import ask_line, can_ask, say, warn

if TYPE_CHECKING:
    from backbud.journal.read import Journal
    from backbud.services.agreed import Agreed


def add_options(parser: ArgumentParser) -> None:
    """The journal; what is named, and whether it was agreed to beforehand."""
    folder_option(parser)
    json_option(parser)
    parser.add_argument(
        "--from",
        dest="service",
        metavar="SERVICE",
        default="",
        help="name the met service: met-norway or us-weather-service",
    )
    parser.add_argument("--place", default="", help="for which place (default: home)")
    parser.add_argument(
        "--contact", metavar="WHO", default="", help="how the service reaches you: e-mail or web"
    )
    parser.add_argument(
        "--station", metavar="ID", default="", help="fill gaps in past days from GHCN-Daily"
    )
    parser.add_argument(
        "--server", metavar="URL", default="", help="another server that speaks the same"
    )
    parser.add_argument(
        "--records", metavar="URL", default="", help="another server with files of GHCN-Daily"
    )
    parser.add_argument("--yes", action="store_true", help="agree to what will be sent")
    parser.add_argument("--forget", action="store_true", help="forget what was named")


def run(options: Namespace) -> int:
    """Name what was asked to be named, fetch, and tell what came."""
    from backbud.journal.read import read_journal
    from backbud.publish.refused import PublishError
    from backbud.services import run as services
    from backbud.services.agreed import agreed, forget_named
    from backbud.services.errors import NotNamed

    folder = folder_of(options.folder)
    if options.forget:
        say(
            "Forgotten: nobody is asked any more." if forget_named(folder) else "Nothing was named."
        )
        return FINE
    journal = read_journal(folder, date.today())
    try:
        named = agreed(folder)
        if named is None or _says_something(options):
            named = _named(journal, named, options)
            if named is None:
                return FAILED
        came = services.run(journal, named)
    except NotNamed as error:
        raise Misuse(str(error)) from None
    except PublishError as error:
        raise Misuse(str(error)) from None
    if options.json:
        print_json(came.view)
    else:
        say(*came.lines())
    warn(*(f"backbud: {said}" for said in came.failed))
    return FAILED if came.failed else FINE


def _says_something(options: Namespace) -> bool:
    said = (options.service, options.place, options.contact, options.station)
    return any((*said, options.server, options.records))


def _named(journal: Journal, known: Agreed | None, options: Namespace) -> Agreed | None:
    """What is named and agreed to now; None where it was not agreed to."""
    from msgspec.structs import replace

    from backbud.services.agreed import agree
    from backbud.services.asking import check_address
    from backbud.services.errors import NotNamed, ServiceError
    from backbud.services.naming import proposed, told_beforehand

    named = proposed(
        journal, known, options.service, options.place, options.contact, options.station
    )
    contact = named.contact
    if not contact and not options.json and can_ask():
        contact = ask_line("How may the service reach you (e-mail or web address)? ")
    if not contact:
        raise NotNamed("the service wants to know how to reach you: --contact you@example.org")
    named = replace(
        named,
        contact=contact,
        address=(options.server or named.address).rstrip("/"),
        records=(options.records or named.records).rstrip("/"),
    )
    try:
        for address in filter(None, (named.address, named.records)):
            check_address(address)
    except ServiceError as error:
        raise NotNamed(str(error)) from None
    if not options.json:
        say(*told_beforehand(named))
    if not options.yes and not agreed_to(
        "Ask it from now on?", "Nothing was asked. A script says --yes.", options.json
    ):
        return None
    agree(journal.folder, named)
    return named
