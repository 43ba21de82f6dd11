"""Which sums there are, and how the one that was asked for is done.

A new sum is a module of its own and a line in `SUMS`.
"""

from __future__ import annotations

from argparse import ArgumentParser, Namespace, RawDescriptionHelpFormatter
from collections.abc import Callable, Sequence
from importlib import import_module
from typing import Any, NamedTuple, NoReturn

from backbud.commands.reckon.asked import Asked, Option, as_sentence
from backbud.commands.reckon.sheet import SumSheet
from backbud.commands.status import MISUSE
from backbud.words import sentence


class BenchSum(NamedTuple):
    """A sum: its module's options, an example, and the function that does it."""

    options: Sequence[Option]
    example: str
    reckon: Callable[[Asked], SumSheet]


# Each with what it answers.
SUMS = {
    "pot": "what a pot holds, takes of mix in a repotting, and weighs",
    "mix": "litres and bags of each ingredient of a mix",
    "wire": "wire for a branch, anchors and mesh for a pot",
    "feed": "ppm of N, P and K in the water, and back; a season's grams",
    "roots": "the share of a root ball's volume that was cut off",
    "water": "what a tree in its pot loses on a day, to plan by",
}

WRITTEN = "Measures are written as in a journal: 9 mm, 3/8 inch, 0.5 g/L, 1 US gal, 57 F."


class _SumParser(ArgumentParser):
    """Learns the options of its sum once it is asked for; says in one sentence what is wrong."""

    name = ""

    def parse_known_args(self, *given: Any, **named: Any) -> Any:
        if self.get_default("sum") is None:
            _add_options(self, self.name)
        options, unknown = super().parse_known_args(*given, **named)
        if unknown:
            self.error(f"{unknown[0]} is not known here")
        return options, unknown

    def error(self, message: str) -> NoReturn:
        self.exit(MISUSE, f"backbud: {sentence(message)}; {self.prog} --help shows what to give.\n")


def add_sums(parser: ArgumentParser) -> None:
    """Add every sum to the parser of `reckon`."""
    sums = parser.add_subparsers(title="sums", metavar="SUM", parser_class=_SumParser)
    for name, about in SUMS.items():
        one = sums.add_parser(
            name,
            help=about,
            description=f"{sentence(about)}.",
            usage="%(prog)s [option ...]",
            formatter_class=RawDescriptionHelpFormatter,
        )
        one.name = name


def reckon(options: Namespace) -> SumSheet:
    """Do the sum that was asked for. ValueError, one sentence that says what to give."""
    one = _sum(options.sum)
    given = {option.flag: getattr(options, option.flag) for option in one.options}
    try:
        return one.reckon({flag: texts for flag, texts in given.items() if texts})
    except ValueError as error:
        raise ValueError(as_sentence(error)) from None


def _sum(name: str) -> BenchSum:
    module = import_module(f"backbud.commands.reckon.{name}")
    return BenchSum(module.OPTIONS, module.EXAMPLE, module.reckon)


def _add_options(parser: ArgumentParser, name: str) -> None:
    one = _sum(name)
    parser.epilog = f"example:\n  {one.example}\n\n{WRITTEN}"
    for option in one.options:
        about = f"{option.about}: {option.give}".replace("%", "%%")
        parser.add_argument(
            option.flag, dest=option.flag, action="append", metavar=option.metavar, help=about
        )
    parser.add_argument("--json", action="store_true", help="print JSON for a program")
    parser.set_defaults(sum=name)
