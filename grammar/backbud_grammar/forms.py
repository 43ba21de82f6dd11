"""What a detail may look like: the forms from which the tables of acts and cards are made."""

from __future__ import annotations

from typing import Literal

from msgspec import Struct

from backbud_grammar.act_words import ActWord, DetailName, DetailWord

# How each sort is asked for in a message.
EXAMPLES = {
    "length": "a length such as 2 cm",
    "area": "an area such as 4 m2",
    "volume": "a volume such as 4.5 L",
    "mass": "a mass such as 250 g",
    "temperature": "a temperature such as 4 C",
    "duration": "a time such as 20 min, 1 h 20 or 3 weeks",
    "share": "a share such as 30 %",
    "concentration": "a concentration such as 100 ppm",
    "hardness": "a hardness such as 8 dH",
    "conductivity": "a conductivity such as 0.4 mS/cm",
    "speed": "a speed such as 2 m/s",
    "angle": "an angle such as 90 degrees",
    "size": "sizes such as 38 x 27 x 7 cm",
    "number": "a number",
    "fraction": "a fraction such as 1/3",
    "ratio": "a ratio such as 1:10",
    "npk": "N-P-K such as 20-10-20",
    "money": "an amount such as 120 EUR",
    "money rate": "a rate such as 45 EUR/h",
    "rate": "a rate such as 2 g/L",
    "list": "twelve numbers, January first, and one unit",
}

ANY_WORDS = ("…",)
# So many words of a closed list are named in a message; the manual names all.
SHOWN_WORDS = 8

# What a form with a reader of its own takes, as the manual shows it (see `READERS` in details.py).
SHOWN_OF_READER = {
    "ingredient": "NAME",
    "wedges": "N | NE | E | … | front | back | left | right | 1 … 12",
    "zone": "[ZONE] 1 … 5 | weak | fair | strong",
    "time": "14:30",
    "sighting": "what was seen",
}


class Form(Struct, frozen=True, gc=False):
    """One detail an act takes, or one label of a card.

    `name`: what code calls it. `labels`: the words it is written with, () when it stands bare.
    `sorts`: the measures it may carry; `bound`: one of them must be there.
    `refers`: the kinds of thing it may refer to. `words`: words it may carry, or ANY_WORDS.
    `part`: a part of the tree may follow after `on`. `date`: it takes a date or a span.
    `negative`: a number below zero makes sense. `prose`: everything after the label is text.
    `free_label`: the label itself is free, as an ingredient in a mix. `list_of`: what the numbers
    of a list measure.
    `reader`: it is read in a way of its own. `limits`: the least and the greatest number that can
    be meant. `whole`: it counts, so no decimals.
    `worded`: a word says what its number counts.
    `several`: it may stand more than once in an act,
    as forms with a part or with free words always may. `not_with`: forms it contradicts.
    `language`: the one that it came with.
    """

    name: str
    labels: tuple[str, ...] = ()
    sorts: tuple[str, ...] = ()
    bound: bool = False
    refers: tuple[str, ...] = ()
    words: tuple[str, ...] = ()
    part: bool = False
    date: bool = False
    negative: bool = False
    prose: bool = False
    free_label: bool = False
    about: str = ""
    list_of: str = ""
    reader: str = ""
    limits: tuple[int, int] | None = None
    whole: bool = False
    several: bool = False
    worded: bool = False
    not_with: tuple[str, ...] = ()
    language: int = 1

    @property
    def reads_anything(self) -> bool:
        """Whether its reader may take words that no table holds; what was seen is in closed words,
        behind a label of its own."""
        return self.reader not in ("", "sighting")

    @property
    def free(self) -> bool:
        """Whether any words may stand there, and nothing else is looked for."""
        return self.words == ANY_WORDS and not self.refers

    def shown(self) -> str:
        """The form as the manual shows it: `off below LENGTH`."""
        takes = []
        if self.reader:
            takes.append(SHOWN_OF_READER[self.reader])
        if self.refers:
            takes.append(" or ".join(kind.upper() for kind in self.refers))
        if self.sorts:
            text = " or ".join(s.upper() for s in self.sorts)
            if self.limits:
                text += f" {self.limits[0]} … {self.limits[1]}"
            takes.append(text if self.bound else f"[{text}]")
        if self.date:
            takes.append("DATE")
        if self.words == ANY_WORDS or self.prose:
            takes.append("words")
        elif self.words:
            takes.append(" | ".join(self.words))
        if self.part:
            takes.append("[on PART]")
        label = " | ".join(self.labels)
        return " ".join(filter(None, (label, *takes)))

    def wanted(self) -> str:
        """What belongs there, as a message says it: `a length such as 2 cm`."""
        takes = [EXAMPLES[sort] for sort in self.sorts]
        if len(takes) > 2:
            takes = [f"a {', '.join(self.sorts[:-1])} or {self.sorts[-1]}"]
        if self.limits and self.sorts[:1] == ("number",):
            takes[0] = f"a number from {self.limits[0]} to {self.limits[1]}"
        if self.refers:
            takes.append(f"the handle of a {' or a '.join(self.refers)}")
        if self.date:
            takes.append("a date such as 2027-03-06")
        if self.reader:
            takes.append(SHOWN_OF_READER[self.reader].replace(" | ", ", "))
        if self.words == ANY_WORDS or self.prose:
            takes.append("words")
        elif self.words and not (self.bound or self.refers):
            takes.insert(0, _first_of(self.words))
        return " or ".join(takes)


def _first_of(words: tuple[str, ...]) -> str:
    """The words of a closed list, no more than a message has room for."""
    return ", ".join(words if len(words) <= SHOWN_WORDS else (*words[:SHOWN_WORDS], "…"))


# What an act does: something is done or put on; something comes off, goes, ends or is found well;
# or words and figures are kept. The second changes nothing unless all of its line is understood.
Bearing = Literal["does", "ends", "keeps"]
# How far a work went, or is to go.
Extent = Literal["part", "usual", "hard"]
# The kind of work an act is counted as, each with a feed of its own.
WorkName = Literal[
    "roots",
    "branches",
    "wire",
    "deadwood",
    "feed",
    "water",
    "watch",
    "shelter",
    "health",
    "propagation",
    "business",
    "planning",
    "other",
]
# What else an act is, to those who plan with it:
#   arrival      the tree comes here, or begins
#   raised       an arrival that begins another tree where it is done to one that is here already
#   departure    the tree leaves, or is no more
#   potting      gives roots new soil or new room: one of these stands for another
#   fills_pot    takes mix, ties and mesh for a pot
#   root_work    the ball is opened, or roots are cut
#   cuts_roots   as it is usually done, roots are cut, and cannot make up yet for sun and wind
#   stresses     as it is usually done, it takes strength that a tree needs a season to regain
#   once_a_year  nobody does it twice in a year: a plan of it stands for what is proposed till then
#   any_day      takes off, or looks at, what was put on: it counts on whatever day it is done
#   one_part     is done to one part at a time by its nature: a plan of it means that part
#   keeps_day    hangs on the weather, on a rhythm or on another person, so nobody moves it
#   no_work      takes no time worth learning: words, money, growth that is seen in passing
#   anywhere     may be written of a tree that is not here
#   ahead        may be written of a tree before there is one
#   for_keeper   is nobody's to read but the keeper's
#   not_told     says where a tree stood or what it is worth: its owner is not told
#   keepers_affair  is between the keeper and another person: a plan of it is no advice to an owner
#   daily_keep   is done again and again: told once and together to whom the tree belongs
#   shapes       makes a tree what it is: it stands in its provenance
#   skilled      wants a practised hand: an owner is told to bring the tree
#   practised    wants a hand that has done it before: who is new to it is told to bring the tree
Trait = Literal[
    "arrival",
    "raised",
    "departure",
    "potting",
    "fills_pot",
    "root_work",
    "cuts_roots",
    "stresses",
    "once_a_year",
    "any_day",
    "one_part",
    "keeps_day",
    "no_work",
    "anywhere",
    "ahead",
    "for_keeper",
    "not_told",
    "keepers_affair",
    "daily_keep",
    "shapes",
    "skilled",
    "practised",
]
# Common practice, no source: what takes no time to speak of.
SHORT_MIN = 10


class Effort(Struct, frozen=True, gc=False):
    """How far an act went, by what its line says; the first that holds. Common practice, no source.

    `part`: words with which it was done only in part, `part_under` the share off under which it
    was. `hard`: words with which it was hard, `hard_details` details, `hard_from` the share off
    from which it was. `otherwise`: what it is where the line says none of these.
    """

    otherwise: Extent = "usual"
    part: tuple[DetailWord, ...] = ()
    part_under: float = 0.0
    hard: tuple[DetailWord, ...] = ()
    hard_details: tuple[DetailName, ...] = ()
    hard_from: float = 0.0


AS_USUAL = Effort()


class ActForm(Struct, frozen=True, gc=False):
    """An act: its past form, its bare form, what it may be done to, and its details.

    `group` is its heading in the manual. `on`: the kinds of subject. `prose`: everything is text.
    `shared`: measures are totals shared equally among the trees of the subject line.
    `needs_detail`: alone on its line it says nothing. `names_act`: the first word of its details
    is another act (planned, skipped …). `also`: other words for the same work. `bearing`: how much
    of its line must be understood. `bare_words`: those of its words that are no past form, and so
    may be a noun or a wish: `wire loose`, `repot soon`. `undone_by`: the act that takes off again
    what this one puts on. `of_all`: it is said of the whole tree, and never of a part of it.
    `work`: the kind of work it is counted as. `minutes`: how long it usually takes, for one medium
    tree with the tools at hand; common practice, no source. `traits`: what else it is. `effort`:
    how far it went, by what its line says. `called`: how `worked` names the work. `cautions`: what
    guards the person who does it. `plainly`: what was done, as its owner is told of it; "" where
    its own word says it. `language`: the one that it came with.
    """

    word: str
    bare: str
    group: str
    forms: tuple[Form, ...] = ()
    on: tuple[str, ...] = ("tree",)
    prose: bool = False
    shared: bool = False
    names_act: bool = False
    needs_detail: bool = False
    example: str = "repot"
    about: str = ""
    also: tuple[str, ...] = ()
    bearing: Bearing = "does"
    bare_words: frozenset[str] = frozenset()
    undone_by: ActWord | Literal[""] = ""
    of_all: bool = False
    work: WorkName = "other"
    minutes: int = SHORT_MIN
    traits: tuple[Trait, ...] = ()
    effort: Effort = AS_USUAL
    called: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()
    plainly: str = ""
    language: int = 1


# What stands for the row of what is no act: a line that is held back.
NO_ACT = ActForm("", "", "")


class KindForm(Struct, frozen=True, gc=False):
    """A kind of card and its labels."""

    kind: str
    forms: tuple[Form, ...]
    about: str
