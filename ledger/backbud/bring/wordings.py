"""What the columns of a list may be called: for each sort of row the headings that mean a thing.

What a card has a label for is taken from the table of cards; beside it stand plain wordings. Common
practice, no source.
"""

from __future__ import annotations

import re
import unicodedata
from functools import cache

from backbud_grammar.kinds import KINDS
from backbud_grammar.measures import BY_WRITING, CURRENCIES

# What a row may be: a card of one of these kinds, or something that was done.
CARD_ROWS = {
    "trees": "tree",
    "places": "place",
    "pots": "pot",
    "persons": "person",
    "materials": "material",
}
WORKS = "works"
LEFT_OUT, NOTED, QUALIFIED_BY_ACT = "left out", "noted", "act "
ROWS = (WORKS, *CARD_ROWS, LEFT_OUT)

_NUMBER = "number, no, nr, id, tag, tag number, tree number, tree no, inventory number, reference"
_NOTES = "notes, remark, remarks, comment, comments, observations, details"
_SAID: dict[str, dict[str, str]] = {
    "trees": {
        "tree": "trees, tree name, called, name of tree, bonsai",
        "number": f"{_NUMBER}, tree id, code, label, handle, #",
        "kind": "species, variety, sort, botanical name, common name, type, cultivar, plant, taxon",
        "since": "acquired, date acquired, acquisition date, bought on, date bought, here since, "
        "arrived, in collection since, purchase date, date of purchase, received on",
        "owner": "customer, client, belongs to, whose",
        "place": "location, where, bench, position, stands, stands on, stands in, area",
        "pot": "container, pot name",
        "mix": "soil, substrate, soil mix, substrate mix",
        "trunk": "trunk diameter, trunk thickness, diameter, caliper, trunk width, trunk ø, ø",
        "height": "tall, tree height",
        "spread": "crown width, crown, canopy width",
        "nebari": "root flare, nebari width",
        "girth": "trunk girth, circumference, trunk circumference",
        "root ball": "rootball, root ball size",
        "style": "form, shape",
        "origin": "source, bought from, from, supplier, obtained from, acquired from, provenance",
        "passport": "plant passport, passport number, import number",
        "strength": "vigour, vigor, health, condition",
        "count": "quantity, qty, how many, amount",
        "value": "worth, estimated value",
        "wanted": "wanted back, due back",
        "note": _NOTES,
    },
    "places": {
        "place": "places, location, bench, area, name of place",
        "within": "part of, inside, belongs to",
        "elevation": "altitude, height",
        "note": _NOTES,
    },
    "pots": {
        "pot": "pots, container, pot name, name of pot",
        "number": f"{_NUMBER}, pot number, pot no, pot id, code, label, handle, #",
        "shape": "form, type",
        "inside": "inside size, inner size, inner dimensions, internal dimensions, "
        "inside dimensions",
        "outside": "size, outside size, outer size, outer dimensions, dimensions, "
        "outside dimensions, external dimensions",
        "holes": "drainage holes, number of holes",
        "colour": "color, glaze",
        "maker": "made by, potter, mark",
        "owner": "customer, client, belongs to",
        "value": "worth, estimated value",
        "note": _NOTES,
    },
    "persons": {
        "person": "persons, people, customer, customers, client, clients, owner, owners, "
        "full name, customer name, client name",
        "contact": "phone, telephone, email, e mail, mail, mobile, phone number",
        "address": "street, postal address",
        "town": "city, village",
        "rate": "hourly rate, price per hour",
        "note": _NOTES,
    },
    "materials": {
        "material": "materials, item, product, article, stock",
        "sold in": "unit, pack, pack size, package, sold as",
        "price": "cost, unit price, price each",
        "label": "npk, n p k, analysis",
        "note": _NOTES,
    },
    WORKS: {
        "date": "day, when, done on, date done, on, dates, date of work",
        "tree": "trees, tree name, plant, bonsai, subject, which tree, name of tree, tree no, "
        "tree number, tree id, name, handle",
        "act": "work, work done, task, what, action, activity, done, job, what was done, acts, "
        "operation, procedure, treatment, type of work",
        "details": "detail, description, specifics, how, what exactly, particulars",
        "tree and act": "summary, entry, event, title, subject and work, diary",
        "remark": "remarks, note, notes, comment, comments, observations",
        "kind": "species, variety, botanical name",
        "pot": "into pot, new pot, container",
        "place": "to place, moved to, location, where, place, bench",
        "worked": "hours, time, time spent, minutes, duration, hours worked, labour, labor",
        "used": "materials, materials used, material, used materials",
    },
}
# On an act these say when it was last done to a tree: `last repotted`, `date of repotting`.
_BEFORE_ACT = re.compile(r"^(?:last|date|date of|date last|last time|most recent|when) ")
_AFTER_ACT = re.compile(r" (?:on|date|in|last|year)$")
_UNIT = re.compile(r"\s*[(\[]([^()\[\]]{1,12})[)\]]\s*$|(?:,| in)?\s+(\S{1,8})\s*$")
_UNITS_SAID = {"hours": "h", "hrs": "h", "hr": "h", "minutes": "min", "mins": "min"}


@cache
def headings(rows: str) -> dict[str, str]:
    """For each heading that a sort of rows knows, what it means."""
    out: dict[str, str] = {}
    if rows in CARD_ROWS:
        kind = KINDS[CARD_ROWS[rows]]
        for form in kind.forms:
            out |= {plain_heading(label): form.name for label in form.labels}
        out["name"] = CARD_ROWS[rows]
        # Older handles are none of a list's words; the place of a person is where their trees go
        # home to, and that of most lists a town.
        for label in ("formerly", *(["place"] if rows == "persons" else [])):
            out.pop(label, None)
    for meaning, said in _SAID[rows].items():
        out[plain_heading(meaning)] = meaning
        for word in said.split(","):
            out.setdefault(plain_heading(word), meaning)
    return out


def meanings(rows: str) -> frozenset[str]:
    """All that a column of such rows may mean, but for acts."""
    return frozenset((*headings(rows).values(), NOTED, LEFT_OUT))


def plain_heading(text: str) -> str:
    """A heading without case, marks and signs: `Trunk-Ø (cm):` is `trunk ø cm`."""
    if text.strip() == "#":
        return "#"
    letters = unicodedata.normalize("NFKC", text).casefold()
    kept = (c if unicodedata.category(c)[0] in "LMN" or c == "%" else " " for c in letters)
    return " ".join("".join(kept).split())


def with_unit(heading: str) -> tuple[str, str]:
    """A heading and the unit or currency at its end, "" where none stands there.

    >>> with_unit("Height (cm)"), with_unit("Trunk, mm"), with_unit("Value EUR"), with_unit("Pot")
    (('Height', 'cm'), ('Trunk', 'mm'), ('Value', 'EUR'), ('Pot', ''))
    """
    found = _UNIT.search(heading)
    if found is None:
        return heading, ""
    said = (found[1] or found[2]).strip()
    unit = _UNITS_SAID.get(said.casefold(), said)
    if unit in BY_WRITING or unit in CURRENCIES:
        return heading[: found.start()].strip(), unit
    return heading, ""


def act_of_heading(heading: str, words: frozenset[str]) -> str:
    """The act that a heading names, as `Repotted` or `Last wired` does; "" where none.
    `words`: those that an act may begin with."""
    plain = plain_heading(heading)
    bare = _AFTER_ACT.sub("", _BEFORE_ACT.sub("", plain))
    return next((one for one in (bare, bare.replace(" ", "-")) if one in words), "") or act_of_ing(
        bare, words
    )


def act_of_ing(text: str, words: frozenset[str]) -> str:
    """The act that a list calls by its one word in -ing, "" where it is another text.

    >>> act_of_ing("Wiring", frozenset({"wire"})), act_of_ing("Pruning?", frozenset({"prune"}))
    ('wire', '')
    """
    word = text.casefold()
    stems = (word[:-3], f"{word[:-3]}e", word[:-4]) if word.endswith("ing") else ()
    return next((one for one in stems if one in words), "")
