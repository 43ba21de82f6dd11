"""For each command lines that work in the example journal, as its `--help` and the manual page have
them."""

from __future__ import annotations

from argparse import HelpFormatter

from backbud.commands.parser import ArgumentParser

# What is typed in the folder of the example journal, and what it does there.
EXAMPLES: dict[str, tuple[tuple[str, str], ...]] = {
    "begin": (("backbud begin ../my-trees", "a journal of your own beside this one"),),
    "jot": (
        ('backbud jot "heron watered" "anvil fed 20-10-20 0.5 g/L"', "two lines, on today's page"),
    ),
    "check": (("backbud check", "every problem, and words that were kept"),),
    "make": (("backbud make", "calendars and pages, in made/"),),
    "watch": (("backbud watch --port 8650", "at an address of this machine, until Ctrl-C"),),
    "due": (
        ("backbud due --within 14d", "what wants doing in the next two weeks"),
        ("backbud due --tree heron", "of one tree"),
    ),
    "tree": (("backbud tree heron", "all that is known of it"),),
    "trees": (("backbud trees --kind maple --by last", "those longest left alone first"),),
    "places": (("backbud places", "who stands where"),),
    "pots": (("backbud pots", "which are free, and what they hold"),),
    "why": (
        ("backbud why heron", "what is open of it, and why"),
        ("backbud why heron repot", "why it is to be repotted"),
    ),
    "since": (("backbud since HEAD", "what is not in the git repository yet"),),
    "reckon": (
        ('backbud reckon pot --inside "36 x 28 x 12 cm"', "what a pot holds"),
        ("backbud reckon feed --help", "what a sum asks for"),
    ),
    "publish": (("backbud publish --to https://dav.example/wren/", "asks before much goes"),),
    "collect": (("backbud collect --to https://dav.example/wren/", "asks for each tick"),),
    "species": (
        ("backbud species", "all that are known"),
        ('backbud species "trident maple"', "its year at this place"),
    ),
    "trust": (("backbud trust", "the code in plugins/, and a digest to say yes to"),),
    "stores": (("backbud stores", "on the shelf, and to buy"),),
    "visits": (("backbud visits", "customers' trees that are here"),),
    "account": (("backbud account marrow", "line by line"),),
    "registers": (("backbud registers --only treatments", "as plant protection rules ask"),),
    "papers": (
        ("backbud papers marrow", "what would be in them"),
        ("backbud papers marrow --tree gale --issue receipt", "kept as issued, in papers/"),
    ),
    "data": (("backbud data --for helper", "in made/data-for-helper/"),),
    "bring": (("backbud bring lists/winter-list.csv", "what it would become; nothing is written"),),
    "tidy": (("backbud tidy diary/2026.txt", "details in line, no meaning changed"),),
    "rest": (("backbud rest 2023", "what would be moved; --write moves it"),),
    "weather": (("backbud weather --help", "how to name the service and what it gives"),),
    "nightly": (("backbud nightly --install-help", "how to have it run every night"),),
    "editor": (("backbud editor", "what your editor starts; the README tells how"),),
    "completion": (
        ("backbud completion bash", 'for ~/.bashrc: eval "$(backbud completion bash)"'),
    ),
    "man": (("backbud man", "read it with: backbud man | man -l -"),),
}


def show_examples(parser: ArgumentParser, command: str) -> None:
    """Have the help of a command end with its examples."""
    lines = EXAMPLES.get(command, ())
    if lines:
        told = "\n".join(f"  {line}\n      {about}" for line, about in lines)
        parser.epilog = f"in the example journal:\n{told}"
        parser.formatter_class = _AsWritten


class _AsWritten(HelpFormatter):
    """Lays the examples out as they are written, and all else as argparse does."""

    def _fill_text(self, text: str, width: int, indent: str) -> str:
        if text.startswith("in the example journal:"):
            return text
        return super()._fill_text(text, width, indent)
