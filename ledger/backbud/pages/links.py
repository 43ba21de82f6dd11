"""Names the page and the calendar of each thing, the way to it from another page, and the place of
a work on it."""

from __future__ import annotations

import re
from hashlib import blake2b
from urllib.parse import quote

INDEX = "index.html"
TREES = "trees.html"
WEATHER = "weather.html"
# It keeps the address that it always had.
YEAR = "season.html"
YEAR_BACK = "year-back.html"
PEOPLE = "people.html"
STORES = "stores.html"
REGISTERS = "registers.html"
VISITS = "visits.html"
WEEK = "paper/week.html"
FIND = "find.html"
# The scripts that it loads, and nothing else, lie in here.
FIND_FOLDER = "find/"
# On the page of all trees: the keeper's own, those of other people, those that are gone.
OWN, OTHERS, GONE = "own", "others", "gone"
# The calendars: the folder of all, the keeper's weeks, and what is to be ticked off.
FEEDS, TASKS = "calendars/", "tasks/"
EVERYTHING = f"{FEEDS}all.ics"
ALL_TASKS = f"{FEEDS}{TASKS}all.ics"
# Names that Windows keeps for devices, whatever their ending (Microsoft, Naming Files).
_DEVICES = frozenset(
    {"con", "prn", "aux", "nul", *(f"{port}{n}" for port in ("com", "lpt") for n in "123456789")}
)
_NOT_IN_NAMES = re.compile(r"[\W_]+")
# A name with its ending may have 255 octets (POSIX, NAME_MAX of the usual file systems); the
# names of files on their way into place are a little longer than those of the pages.
LONGEST_NAME_OCTETS = 200


def tree_page(handle: str) -> str:
    """The path of a tree's page below the output: `trees/hoshi.html`."""
    return f"trees/{_file_name(handle)}.html"


def earlier_page(tree_page: str, number: int = 1) -> str:
    """The path of a page of a tree's earlier years, by that of its own; the first has the latest of
    them: `trees/hoshi/earlier.html`, `trees/hoshi/earlier-2.html`."""
    return f"{tree_page.removesuffix('.html')}/earlier{f'-{number}' if number > 1 else ''}.html"


def place_page(handle: str) -> str:
    """The path of a place's page below the output: `places/tunnel.html`; of no place, `places/_`,
    which is no handle."""
    return f"places/{_file_name(handle) if handle else '_'}.html"


def register_csv(name: str) -> str:
    """The path of a register as CSV: `registers/treatments.csv`."""
    return f"registers/{name}.csv"


def register_page(name: str, part: str) -> str:
    """The path of a part of a register: `registers/plants-2026.html`."""
    return f"registers/{name}-{part}.html"


def kind_page(title: str) -> str:
    """The path of the page of a kind of tree below the output: `kinds/trident-maple.html`."""
    return f"kinds/{_file_name(_NOT_IN_NAMES.sub('-', title.casefold()).strip('-') or '_')}.html"


def paper_page(person: str, name: str) -> str:
    """The path of a paper below the output: `papers/marrow/care-tarn.html`."""
    return f"papers/{_file_name(person)}/{_file_name(name)}.html"


def visits_page_of(person: str) -> str:
    """The path of a person's visits, where those of all are too many for one page:
    `visits/marrow.html`."""
    return f"visits/{_file_name(person)}.html"


def labels_page(place: str) -> str:
    """The path of the labels of a place's trees below the output: `paper/labels/tunnel.html`."""
    return f"paper/labels/{place_page(place).removeprefix('places/')}"


def letter_anchor(letter: str, part: str = OWN) -> str:
    """The anchor of the trees of a part whose names, or whose owners' names, begin with a letter,
    on the page of all trees: `own-a`."""
    return f"{part}-{letter if letter.isascii() and letter.isalnum() else letter.encode().hex()}"


def letter_page(letter: str, part: str = OWN) -> str:
    """The path of the list of these, where there are too many for one page: `trees-own-a.html`."""
    return f"trees-{letter_anchor(letter, part)}.html"


def week_page(place: str) -> str:
    """The path of a place's week on paper, where all are too many: `paper/week-tunnel.html`."""
    return f"paper/week-{place_page(place).removeprefix('places/')}"


def person_anchor(handle: str) -> str:
    """The anchor of a person on the page of the people."""
    return f"person-{handle}"


def label_anchor(tree: str) -> str:
    """The anchor of a tree's label on its sheet."""
    return "label-" + blake2b(tree.encode(), digest_size=6).hexdigest()


def feed_path(folder: str, handle: str) -> str:
    """The path of the calendar of a thing below the output, by its first handle, so that it stays
    when the thing is renamed: `calendars/trees/hoshi.ics`."""
    return f"{FEEDS}{folder}/{_file_name(handle)}.ics"


def _file_name(handle: str) -> str:
    """A file's name without its ending that every system takes."""
    name = f"{handle}_" if handle in _DEVICES else handle
    octets = name.encode()
    if len(octets) > LONGEST_NAME_OCTETS:
        start = octets[: LONGEST_NAME_OCTETS - 13].decode(errors="ignore")
        name = f"{start}-{blake2b(octets, digest_size=6).hexdigest()}"
    return name


def link(path: str, base: str = "", anchor: str = "") -> str:
    """A relative link to a path, from a page whose way to the top is `base`."""
    return base + quote(path) + (f"#{anchor}" if anchor else "")


def anchor_of(follow_up_id: str) -> str:
    """The anchor of a follow-up on its tree's page; an id may hold spaces, an anchor may not."""
    return "why-" + blake2b(follow_up_id.encode(), digest_size=6).hexdigest()
