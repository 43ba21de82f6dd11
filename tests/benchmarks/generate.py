"""A number of acts and a seed go in; a large invented journal comes out, always the same one.

python tests/benchmarks/generate.py FOLDER 100000 [SEED]
"""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterable
from dataclasses import dataclass, field
from datetime import date, timedelta
from pathlib import Path
from random import Random


def _words(text: str) -> list[str]:
    return text.split()


LAST_DAY = date(2026, 11, 14)
ACTS_A_TREE = 100
ACTS_A_PAGE = 6.2
ACTS_A_YEAR = 5_000
MOST_YEARS = 20

AZALEA, MAPLE, PINE, JUNIPER = KINDS = (
    "satsuki azalea",
    "trident maple",
    "Japanese black pine",
    "Chinese juniper",
)
CULTIVARS = {AZALEA: ("'Kaho'", "'Nikko'", "'Kozan'"), JUNIPER: ("'Itoigawa'",)}
USUAL_MIX = {AZALEA: "acid", MAPLE: "maple", PINE: "sharp", JUNIPER: "sharp"}
# Outdoor places, and the two where the tender ones winter.
PLACES = (
    "yard",
    "south-bench",
    "north-bench",
    "pine-bench",
    "hedge-row",
    "show-bench",
    "quay",
    "tunnel",
    "glass",
)
OUTDOORS = PLACES[:-2]
SHELTERS = PLACES[-2:]
MIXES = {
    "acid": (("kanuma", 4), ("moss", 1)),
    "maple": (("akadama", 2), ("pumice", 1), ("bark", 1)),
    "sharp": (("akadama", 1), ("pumice", 1), ("lava", 1)),
    "nursing": (("pumice", 3), ("bark", 1)),
}
MATERIALS = {
    "kanuma": ("bag of 14 L", "19 EUR"),
    "akadama": ("bag of 14 L", "17 EUR"),
    "pumice": ("bag of 30 L", "21 EUR"),
    "lava": ("bag of 20 L", "14 EUR"),
    "bark": ("bag of 40 L", "11 EUR"),
    "moss": ("bag of 5 L", "16 EUR"),
    "wire-al": ("roll of 1 kg", "24 EUR"),
    "wire-cu": ("roll of 1 kg", "38 EUR"),
    "cakes": ("box of 10 kg", "46 EUR"),
    "liquid-feed": ("bottle of 1 L", "13 EUR"),
}
FIRST_WORDS = _words("""amber ash bare bent black blue bold brave bright broad brown calm clear cold
copper crooked dark deep dry dusk early far fern fine flint fox frost gold green grey half high
hollow iron ivory keen kind late lean lichen little lone long low mild mist moss mute near north
oak old pale plain proud quiet quick raw red river rough round rust salt sea shy silver slate slow
small soft south stern still stone storm straw tall tarn thin warm west white wide wild wind winter
wise young""")
SECOND_WORDS = _words("""anvil badger barrow beacon bell bird boat bridge brook candle cloud crane
crow curlew dancer door drift ember fall feather fern finch fire ford gate giant ghost gull hare
harrow hawk hearth heron hill hound king kite ladder lantern lark maid marsh mast mill monk moon
moth needle owl path piper plough queen rain raven reed river road sail sentry shade sister smoke
snail spark spire star stork swan thorn tide tower traveller wader walker wave weaver wheel
willow wing witch wren yard""")
# Syllables for people who are nobody.
NAMES_A = _words("Brind Dram Fesk Grist Hask Murl Ploom Quill Skell Snett Tolv Vell Wesk Whin Yarr")
NAMES_B = _words("acke antle ebeck imber oddle ossick umble uttock attle ingo erro amp osk undy")
SIDES = ("left", "right", "back", "front")
NEEDLED = (PINE, JUNIPER)


@dataclass(eq=False)
class Tree:
    """A tree as the generator follows it, so that every line it writes can be true."""

    handle: str
    kind: str
    arrives: date
    owner: str
    place: str
    pot: str
    wires: list[str] = field(default_factory=list)
    guys: list[str] = field(default_factory=list)
    protected: bool = False
    shaded: bool = False
    repotted: date | None = None
    corrected: date | None = None
    wedge: int = 0
    agreed: int = 0


def _number(value: float) -> str:
    return f"{value:.1f}".removesuffix(".0")


class Nursery:
    """All that changes while the diary is written."""

    def __init__(self, acts: int, seed: int) -> None:
        self.rng = Random(seed)
        self.acts = acts
        self.years = min(max(acts // ACTS_A_YEAR, 2), MOST_YEARS)
        self.first_day = LAST_DAY - timedelta(days=365 * self.years)
        self.people = self._people()
        self.cards: dict[str, list[str]] = {}
        self.spare_pots: list[str] = []
        self.pots = 0
        self.bills = 0
        self.trees = [self._tree(handle) for handle in self._handles()]
        self.to_come = sorted(
            (t for t in self.trees if t.arrives > self.first_day), key=lambda t: t.arrives
        )[::-1]
        self.about = [t for t in self.trees if t.arrives <= self.first_day and not t.owner]
        self.away = [t for t in self.trees if t.owner]
        for _ in range(max(len(self.trees) // 3, 4)):
            self.spare_pots.append(self._pot())

    # ------------------------------------------------------------------ cards

    def _people(self) -> list[tuple[str, str]]:
        names = [a + b for a in NAMES_A for b in NAMES_B]
        self.rng.shuffle(names)
        wanted = min(max(self.acts // ACTS_A_TREE // 12, 3), len(names))
        return [(name.casefold(), name) for name in names[:wanted]]

    def _handles(self) -> list[str]:
        wanted = max(self.acts // ACTS_A_TREE, 12)
        pairs = [f"{a}-{b}" for a in FIRST_WORDS for b in SECOND_WORDS if a != b]
        self.rng.shuffle(pairs)
        rounds = wanted // len(pairs) + 1
        names = [f"{pair}-{n}" if n > 1 else pair for n in range(1, rounds + 1) for pair in pairs]
        return names[:wanted]

    def _add_card(self, file: str, head: str, lines: Iterable[tuple[str, str]]) -> None:
        card = [head, *(f"  {label:<9} {value}" for label, value in lines)]
        self.cards.setdefault(file, []).append("\n".join(card))

    def _pot(self) -> str:
        self.pots += 1
        rng = self.rng
        shape = rng.choice(("rectangle", "oval", "round", "drum", "hexagon"))
        handle = f"{rng.choice(('tray', 'bowl', 'box', 'dish'))}-{self.pots}"
        width = rng.randint(14, 46)
        sizes = f"{width} x {max(width * 2 // 3, 10)} x {rng.randint(5, 12)} cm"
        if shape in ("round", "drum", "hexagon"):
            sizes = f"{width} x {rng.randint(5, 16)} cm"
        self._add_card(
            f"pots-{(self.pots - 1) // 200 + 1:02}",
            f"pot {handle}",
            (("shape", shape), ("inside", sizes), ("holes", str(rng.randint(1, 6)))),
        )
        return handle

    def _tree(self, handle: str) -> Tree:
        rng = self.rng
        kind = rng.choices(KINDS, (4, 3, 3, 3))[0]
        cultivar = rng.choice(CULTIVARS[kind]) if kind in CULTIVARS and rng.random() < 0.4 else ""
        owner = rng.choice(self.people)[0] if rng.random() < 0.2 else ""
        days = 365 * self.years
        arrives = self.first_day - timedelta(days=rng.randint(40, 9_000))
        since = rng.choice((f"{arrives:%Y-%m}", f"{arrives.year - 1}~", f"{arrives}"))
        if not owner and rng.random() < 0.3:
            arrives = self.first_day + timedelta(days=rng.randint(5, days * 9 // 10))
            since = str(arrives)
        place = rng.choice(OUTDOORS)
        pot = self._pot()
        lines = [
            ("kind", f"{kind} {cultivar}".rstrip()),
            ("since", since),
            ("trunk", f"{_number(rng.randint(20, 140) / 10)} cm"),
            ("height", f"{rng.randint(18, 90)} cm"),
        ]
        lines += [("owner", owner)] if owner else [("place", place)]
        lines += [("pot", pot), ("mix", USUAL_MIX[kind])]
        if rng.random() < 0.5:
            lines.append(("style", rng.choice(("upright", "slanting", "cascade", "twin trunk"))))
        self._add_card("trees", f"tree {handle}", lines)
        return Tree(handle, kind, arrives, owner, "" if owner else place, pot)

    def write_cards(self) -> dict[str, str]:
        """Return the text of each file of cards by its name."""
        rng = self.rng
        for i, place in enumerate(PLACES):
            lines = [("cover", {"tunnel": "tunnel", "glass": "unheated glass"}.get(place, "open"))]
            if i == 0:
                lines += [
                    ("town", "Harrowmouth"),
                    ("latitude", "56.4"),
                    ("longitude", "-4.1"),
                    ("elevation", "60 m"),
                    ("low", "0 0 1 3 5 8 10 10 8 5 3 1 C"),
                    ("high", "6 7 9 12 15 17 19 19 16 12 9 6 C"),
                    ("rain", "110 85 80 60 62 66 78 88 92 115 112 118 mm"),
                ]
            elif i < len(OUTDOORS):
                lines.append(("within", "yard"))
            self._add_card("places", f"place {place}", lines)
        for handle, name in [("keeper", "the keeper"), *self.people]:
            self._add_card(
                "people",
                f"person {handle}",
                (
                    ("name", name),
                    ("experience", rng.choice(("beginner", "some years", "many"))),
                    ("rate", f"{rng.randint(30, 48)} EUR/h"),
                ),
            )
        for mix, parts in MIXES.items():
            self._add_card("stores", f"mix {mix}", ((name, str(n)) for name, n in parts))
        for material, (sold_in, price) in MATERIALS.items():
            self._add_card(
                "stores", f"material {material}", (("sold in", sold_in), ("price", price))
            )
        files = {name: "\n\n".join(cards) + "\n" for name, cards in self.cards.items()}
        trees = self.cards["trees"]
        del files["trees"]
        for i in range(0, len(trees), 100):
            files[f"trees-{i // 100 + 1:02}"] = "\n\n".join(trees[i : i + 100]) + "\n"
        return files

    # ------------------------------------------------------------------ small helpers

    def pick(self, *choices: str) -> str:
        return self.rng.choice(choices)

    def part(self) -> str:
        side = self.rng.choice(SIDES)
        return self.rng.choice(
            (
                f"{side} {self.rng.randint(1, 9)}",
                f"low {side}",
                f"second {side}",
                "apex",
                "crown",
                f"{side} {self.rng.randint(1, 9)}",
                f"{side} {self.rng.randint(1, 9)} tip",
                f"upper {side}",
                f"{side} pad",
                "trunk line",
            )
        )

    def remark(self, odds: float) -> str:
        if self.rng.random() >= odds:
            return ""
        return f" -- {self.pick(*FINDINGS)}, {self.pick(*PLANS)}"

    def remove(self, tree: Tree, *, for_good: bool) -> None:
        self.about.remove(tree)
        if not for_good:
            self.away.append(tree)


FINDINGS = """buds fat and green|two roots crossed below the front|bark soft on the shaded side
surface hard as a crust|white tips all round|new buds after the wet spell|one branch stays behind
moss thin on the windy side|water stood on top at first|colour better than last year
a crack in the glaze near the foot|last year's wound half closed|scale on three twigs, wiped off
leaves small and even|some tips burnt by the east wind|the old wood is waking up
roots the colour of straw|an old stub still weeping|long shoots on the sunny side only
the owner wants it fuller|drier than its neighbours|growing away at last|a wren nests behind it
lighter than it looks|a blackbird had the moss off|hail marks on the upper leaves
the rain got under the mulch|one more wedge still dark and wet""".replace("\n", "|").split("|")
PLANS = """look again in a fortnight|left alone for now|turn it next week|more next spring
the rest when it has rained|keep it out of the wind|no feed until it moves|ask the owner first
shade if the sun lasts|less water meanwhile|photograph it before the work|deeper pot next time
not before the leaves harden|raise the back a little|a guy would do better than wire
let it run this year|start from the low branches|show it in two years|the same on the other side
wait for colour|put it nearer the path|sharper mix next time|check the label first
take a cutting of it|enough for one season|do it dry next time|nothing to be done today
move it under the lath""".replace("\n", "|").split("|")

# An act writer gives the line for one tree on one day, or "" where it does not fit.
Writer = Callable[[Nursery, Tree, date], str]


def _repotted(n: Nursery, t: Tree, day: date) -> str:
    if t.repotted and (day - t.repotted).days < 500:
        return ""
    rng = n.rng
    t.repotted = day
    where = "same pot"
    if n.spare_pots and rng.random() < 0.25:
        new = n.spare_pots.pop(rng.randrange(len(n.spare_pots)))
        where, t.pot = f"into {new}", _swap(n, t.pot, new)
    wedges = ("N E S", "W NW", "SW SE", "NE E", "N S", "12 4 8", "2 6 10")[t.wedge % 7]
    t.wedge += 1
    details = [
        where,
        f"{_number(rng.randint(4, 40) / 10)} cm off below",
        f"wedges {wedges}",
        f"mix {USUAL_MIX[t.kind]} {_number(rng.randint(6, 180) / 10)} L",
        f"tied {n.pick('2', '2.5', '3')} mm x {rng.randint(1, 4)}",
        n.pick("mesh", "old ties out", "moss", "soaked", f"mesh {rng.randint(1, 4)}"),
    ]
    kept = [d for i, d in enumerate(details) if i in (0, 3) or rng.random() < 0.8]
    return f"repotted {', '.join(kept)}{n.remark(0.3)}"


def _swap(n: Nursery, old: str, new: str) -> str:
    n.spare_pots.append(old)
    return new


def _wired(n: Nursery, t: Tree, day: date) -> str:
    if len(t.wires) > 6:
        return ""
    parts = list(dict.fromkeys(n.part() for _ in range(n.rng.randint(1, 3))))
    parts = [p for p in parts if p not in t.wires]
    if not parts:
        return ""
    t.wires += parts
    metal = n.pick("Al", "Al", "Al", "Cu")
    sizes = ("1", "1.5", "2", "2.5", "3", "3.5", "4")
    wires = [f"{n.pick(*sizes)} mm {metal} on {part}" for part in parts]
    return f"wired {', '.join(wires)}{n.remark(0.3)}"


def _unwired(n: Nursery, t: Tree, day: date) -> str:
    if not t.wires:
        return ""
    if n.rng.random() < 0.4:
        t.wires.clear()
        return f"unwired{n.remark(0.4)}"
    part = n.rng.choice(t.wires)
    words = set(part.split())
    t.wires = [w for w in t.wires if not words <= set(w.split())]
    return f"unwired on {part}{n.remark(0.2)}"


def _checked(n: Nursery, t: Tree, day: date) -> str:
    again = f", again in {n.rng.randint(1, 6)} weeks" if n.rng.random() < 0.5 else ""
    if t.wires and n.rng.random() < 0.7:
        part = f" on {n.rng.choice(t.wires)}" if n.rng.random() < 0.5 else ""
        return f"checked wire {n.pick('fine', 'biting', 'loose')}{part}{again}{n.remark(0.3)}"
    what = n.pick(
        "ties fine",
        "roots dry",
        "drainage fine",
        "pests clean",
        "buds",
        "moss dry",
        "wounds fine",
        "strength",
        "pests",
        "roots wet",
        "ties biting",
    )
    return f"checked {what}{again}{n.remark(0.3)}"


def _guyed(n: Nursery, t: Tree, day: date) -> str:
    part = n.part()
    if part in t.guys:
        return ""
    t.guys.append(part)
    return (
        f"guyed {n.pick('0.8', '1', '1.2')} mm Cu on {part}, "
        f"anchored to {n.pick('the pot rim', 'a root', 'the back foot', 'branch one')}"
    )


def _unguyed(n: Nursery, t: Tree, day: date) -> str:
    return f"unguyed on {t.guys.pop()}{n.remark(0.3)}" if t.guys else ""


def _pruned(n: Nursery, t: Tree, day: date) -> str:
    how = n.pick("light ", "hard ", "", "", "structural ")
    if n.rng.random() < 0.4:
        return f"pruned {how}off {n.rng.randint(1, 8) * 5} % on {n.part()}"
    unit = n.pick("shoots", "buds") if t.kind in NEEDLED else n.pick("leaves", "pairs", "buds")
    low = n.rng.randint(1, 4)
    high = low + n.rng.randint(1, 2)
    return f"pruned {how}back to {low}-{high} {unit} on {n.part()}{n.remark(0.2)}"


def _trimmed(n: Nursery, t: Tree, day: date) -> str:
    return f"trimmed {n.pick('outline', 'light', 'low', 'top')} on {n.part()}{n.remark(0.2)}"


def _pinched(n: Nursery, t: Tree, day: date) -> str:
    return f"pinched {n.pick('strong', 'outer', 'all', 'most')} on {n.part()}{n.remark(0.3)}"


def _decandled(n: Nursery, t: Tree, day: date) -> str:
    return (
        f"decandled {n.pick('strong', 'medium', 'all')}, stubs {n.rng.randint(2, 8)} mm "
        f"on {n.part()}{n.remark(0.25)}"
    )


def _plucked(n: Nursery, t: Tree, day: date) -> str:
    return f"plucked old needles, leaving {n.rng.randint(4, 9)} pairs on {n.part()}{n.remark(0.25)}"


def _defoliated(n: Nursery, t: Tree, day: date) -> str:
    return f"defoliated {n.pick('full', 'partial', 'outer', 'large leaves')} on {n.part()}"


def _deadheaded(n: Nursery, t: Tree, day: date) -> str:
    return f"deadheaded with the ovary on {n.part()}{n.remark(0.3)}"


def _disbudded(n: Nursery, t: Tree, day: date) -> str:
    return f"disbudded leaving {n.rng.randint(3, 60)} flowers on {n.part()}{n.remark(0.25)}"


def _bloomed(n: Nursery, t: Tree, day: date) -> str:
    return n.pick(
        f"bloomed first on {n.part()}",
        "bloomed full",
        "bloomed over",
        f"bloomed {n.rng.randint(2, 90)} flowers",
    ) + n.remark(0.2)


def _staged(n: Nursery, t: Tree, day: date) -> str:
    month = {3: (1, 7), 4: (7, 15), 5: (15, 39), 6: (60, 69)}.get(day.month, (91, 97))
    return f"staged {n.rng.randint(*month)} on {n.part()}"


def _jin(n: Nursery, t: Tree, day: date) -> str:
    return n.pick(
        f"carved jin on {n.part()}",
        f"carved shari on {n.part()}",
        f"treated-deadwood lime sulphur, diluted 1:{n.rng.randint(1, 4)} on {n.part()}",
    )


def _measured(n: Nursery, t: Tree, day: date) -> str:
    return (
        f"measured trunk {_number(n.rng.randint(20, 160) / 10)} cm, "
        f"height {n.rng.randint(18, 96)} cm"
    )


def _vigour(n: Nursery, t: Tree, day: date) -> str:
    return (
        f"vigour apex {n.rng.randint(1, 5)}, {n.pick('low', 'inner', 'back', 'left')} "
        f"{n.pick('weak', 'fair', 'strong', '2', '3', '4')}{n.remark(0.2)}"
    )


def _drained(n: Nursery, t: Tree, day: date) -> str:
    return f"drained {n.rng.randint(4, 95)} s{n.remark(0.3)}"


def _fed(n: Nursery, t: Tree, day: date) -> str:
    return n.pick(
        f"fed {n.rng.randint(3, 24)} cakes",
        f"fed {n.pick('20-10-20', '12-4-6', '7-6-19', '4-6-8')} "
        f"{_number(n.rng.randint(2, 20) / 10)} g/L, {_number(n.rng.randint(5, 90) / 10)} L",
        f"fed liquid half strength with liquid-feed, {_number(n.rng.randint(5, 60) / 10)} L",
    ) + n.remark(0.25)


def _watered(n: Nursery, t: Tree, day: date) -> str:
    return n.pick(
        "watered twice",
        "watered well",
        "watered light",
        f"soaked for {n.rng.randint(5, 60)} min",
        f"flushed {n.rng.randint(2, 6)} cans",
        f"watered {_number(n.rng.randint(5, 60) / 10)} L",
    ) + n.remark(0.5)


def _moved(n: Nursery, t: Tree, day: date) -> str:
    inside = day.month in (11, 12, 1, 2)
    places = [p for p in (SHELTERS if inside else OUTDOORS) if p != t.place]
    was, t.place = t.place, n.rng.choice(places)
    way = f"from {was} to {t.place}" if n.rng.random() < 0.2 else t.place
    return f"moved {way}{n.remark(0.3)}"


def _turned(n: Nursery, t: Tree, day: date) -> str:
    return f"turned {n.pick('90', '180', '45', '60')} degrees{n.remark(0.5)}"


def _kept(n: Nursery, t: Tree, day: date) -> str:
    return n.pick(
        "weeded",
        f"top-dressed moss {_number(n.rng.randint(2, 20) / 10)} L",
        "cleaned trunk",
        "cleaned algae off",
        "cleaned dead leaves",
        f"opened surface {n.rng.randint(5, 20)} mm",
    ) + n.remark(0.6)


def _protected(n: Nursery, t: Tree, day: date) -> str:
    if t.protected:
        return ""
    t.protected = True
    return f"protected {n.pick('fleece', 'mulch', 'pot wrapped', 'windbreak')}{n.remark(0.2)}"


def _unprotected(n: Nursery, t: Tree, day: date) -> str:
    if not t.protected:
        return ""
    t.protected = False
    return f"unprotected{n.remark(0.3)}"


def _shaded(n: Nursery, t: Tree, day: date) -> str:
    if t.shaded:
        return ""
    t.shaded = True
    return f"shaded {n.pick('30', '40', '50')} % {n.pick('net', 'fleece')}"


def _unshaded(n: Nursery, t: Tree, day: date) -> str:
    if not t.shaded:
        return ""
    t.shaded = False
    return f"unshaded{n.remark(0.2)}"


def _noted(n: Nursery, t: Tree, day: date) -> str:
    return f"noted {n.pick(*FINDINGS)} on {n.part()}; {n.pick(*PLANS)}"


def _private(n: Nursery, t: Tree, day: date) -> str:
    return f"private {n.pick(*FINDINGS)}: worth {n.rng.randint(8, 240) * 10} to the right person"


def _planned(n: Nursery, t: Tree, day: date) -> str:
    act = n.pick("repot", "wire", "prune", "unwire", "move", "feed", "trim", "carve")
    if n.rng.random() < 0.3:
        return f"skipped {act}{n.remark(1)}"
    word = n.pick("planned", "planned", "put-off")
    if n.rng.random() < 0.5:
        return f"{word} {act}, in {n.rng.randint(2, 20)} weeks{n.remark(0.5)}"
    return f"{word} {act}, to {day.year + 1}-{n.rng.randint(1, 12):02}{n.remark(0.5)}"


def _corrected(n: Nursery, t: Tree, day: date) -> str:
    when = t.repotted
    if when is None or when >= day or when == t.corrected:
        return ""
    t.corrected = when
    return (
        f"corrected repotted {when}, {_number(n.rng.randint(4, 40) / 10)} cm off below"
        f"{n.remark(0.4)}"
    )


def _worked(n: Nursery, t: Tree, day: date) -> str:
    time = n.pick(
        f"{n.rng.randint(5, 55)} min",
        f"{n.rng.randint(1, 3)} h",
        f"{n.rng.randint(1, 3)} h {n.rng.randint(5, 55):02}",
    )
    return f"worked {time}{n.remark(0.4)}"


def _used(n: Nursery, t: Tree, day: date) -> str:
    return n.pick(
        f"used {n.pick('wire-al', 'wire-cu')} {n.rng.randint(10, 400)} g",
        f"used {n.pick('pumice', 'akadama', 'kanuma', 'moss')} "
        f"{_number(n.rng.randint(5, 80) / 10)} L",
    )


def _treated(n: Nursery, t: Tree, day: date) -> str:
    return (
        f"treated with {n.pick('soft soap', 'rape oil')}, dose {n.rng.randint(5, 20)} mL/L, "
        f"against {n.pick('scale', 'aphids', 'spider mite', 'lace bug')}, "
        f"re-entry {n.rng.randint(2, 24)} h"
    )


def _agreed(n: Nursery, t: Tree, day: date) -> str:
    if not t.owner or t.agreed:
        return ""
    t.agreed = n.rng.randint(4, 60) * 10
    return f"agreed {t.agreed} EUR for {n.pick('repotting', 'the season', 'wire and trim')}"


ANY = frozenset(KINDS)
ALL_YEAR = (1, 12)
# How often, first and last month, which kinds, and who writes it.
WRITERS: tuple[tuple[int, tuple[int, int], frozenset[str], Writer], ...] = (
    (30, (3, 5), ANY, _repotted),
    (20, (6, 7), frozenset({AZALEA}), _repotted),
    (12, ALL_YEAR, ANY, _wired),
    (7, ALL_YEAR, ANY, _unwired),
    (12, ALL_YEAR, ANY, _checked),
    (3, ALL_YEAR, ANY, _guyed),
    (2, ALL_YEAR, ANY, _unguyed),
    (10, ALL_YEAR, ANY, _pruned),
    (8, (4, 10), ANY, _trimmed),
    (10, (5, 8), ANY, _pinched),
    (25, (6, 7), frozenset({PINE}), _decandled),
    (16, (10, 12), frozenset({PINE}), _plucked),
    (16, (6, 6), frozenset({MAPLE}), _defoliated),
    (20, (6, 7), frozenset({AZALEA}), _deadheaded),
    (12, (4, 5), frozenset({AZALEA}), _disbudded),
    (16, (5, 6), frozenset({AZALEA}), _bloomed),
    (6, (3, 11), ANY, _staged),
    (8, ALL_YEAR, frozenset({JUNIPER}), _jin),
    (4, ALL_YEAR, ANY, _measured),
    (6, (4, 10), ANY, _vigour),
    (5, ALL_YEAR, ANY, _drained),
    (8, (4, 10), ANY, _fed),
    (10, ALL_YEAR, ANY, _watered),
    (6, ALL_YEAR, ANY, _moved),
    (5, ALL_YEAR, ANY, _turned),
    (8, ALL_YEAR, ANY, _kept),
    (14, (11, 2), ANY, _protected),
    (14, (3, 4), ANY, _unprotected),
    (5, (5, 8), ANY, _shaded),
    (9, (8, 10), ANY, _unshaded),
    (20, ALL_YEAR, ANY, _noted),
    (2, ALL_YEAR, ANY, _private),
    (6, ALL_YEAR, ANY, _planned),
    (1, ALL_YEAR, ANY, _corrected),
    (9, ALL_YEAR, ANY, _worked),
    (4, ALL_YEAR, ANY, _used),
    (2, (4, 9), ANY, _treated),
    (6, ALL_YEAR, ANY, _agreed),
)


def _in_season(span: tuple[int, int], month: int) -> bool:
    first, last = span
    return first <= month <= last if first <= last else month >= first or month <= last


def _fitting(kind: str, month: int) -> tuple[list[Writer], list[int]]:
    fitting = [(w, n) for n, span, kinds, w in WRITERS if kind in kinds and _in_season(span, month)]
    return [w for w, _ in fitting], [n for _, n in fitting]


FITTING = {(kind, month): _fitting(kind, month) for kind in KINDS for month in range(1, 13)}


def _acts_on(n: Nursery, tree: Tree, day: date) -> list[str]:
    """One to four acts on one tree, no word twice."""
    writers, weights = FITTING[tree.kind, day.month]
    chosen = dict.fromkeys(n.rng.choices(writers, weights, k=n.rng.choice((2, 2, 3, 4))))
    return [line for writer in chosen if (line := writer(n, tree, day))]


# What is done to several trees at once, so it changes nothing that the generator follows.
TOGETHER: tuple[Writer, ...] = (
    _fed,
    _watered,
    _turned,
    _kept,
    _noted,
    _fed,
    _staged,
    _trimmed,
    _worked,
    _used,
)


def _block(n: Nursery, subjects: str, acts: list[str]) -> list[str]:
    """A subject line and its acts, now and then with a line that goes on below."""
    lines = [subjects]
    for act in acts:
        word, _, rest = act.partition(" ")
        head, comma, tail = rest.partition(", ")
        if comma and len(rest) > 60 and "-- " not in head and n.rng.random() < 0.5:
            lines += [f"  {word:<11} {head},", f"              {tail}"]
        else:
            lines.append(f"  {word:<11} {rest}".rstrip())
    return lines


def _single(n: Nursery, day: date) -> list[str]:
    tree = n.rng.choice(n.about)
    acts = _acts_on(n, tree, day)
    if tree.owner and n.rng.random() < 0.15:
        acts += _gone_home(n, tree)
    elif not tree.owner and n.rng.random() < 0.003 and len(n.about) > 8:
        acts.append(_lost(n, tree, day))
    return _block(n, tree.handle, acts) if acts else []


def _gone_home(n: Nursery, tree: Tree) -> list[str]:
    acts = ["ready"]
    if tree.agreed:
        n.bills += 1
        acts.append(f"billed {tree.agreed} EUR, number B-{n.bills}")
        acts.append(f"paid {tree.agreed} EUR cash")
        tree.agreed = 0
    n.remove(tree, for_good=False)
    return [*acts, f"returned to {tree.owner}"]


def _lost(n: Nursery, tree: Tree, day: date) -> str:
    n.remove(tree, for_good=True)
    if n.rng.random() < 0.5:
        return f"died of {n.pick('root rot', 'drought', 'hard frost', 'old age')}"
    buyer = n.rng.choice(n.people)[0]
    return f"sold to {buyer}, {n.rng.randint(6, 300) * 10} EUR{n.remark(0.3)}"


def _several(n: Nursery, day: date) -> list[str]:
    trees = n.rng.sample(n.about, min(n.rng.randint(2, 5), len(n.about)))
    writer = n.rng.choice(TOGETHER)
    return _block(n, ", ".join(t.handle for t in trees), [writer(n, trees[0], day)])


def _round(n: Nursery, day: date) -> list[str]:
    """A round of all trees of one place, kind or owner."""
    leader = n.rng.choice(n.about)
    meant = n.rng.choice(("in", "in", "in", "kind", "of"))
    if meant == "of" and leader.owner:
        subjects, same = f"all of {leader.owner}", [t for t in n.about if t.owner == leader.owner]
    elif meant == "kind":
        subjects, same = f"all {leader.kind}", [t for t in n.about if t.kind == leader.kind]
    else:
        subjects, same = f"all in {leader.place}", [t for t in n.about if t.place == leader.place]
    left_out = n.rng.sample(same, min(n.rng.randint(0, 2), len(same) - 1))
    if left_out:
        subjects += " except " + ", ".join(t.handle for t in left_out)
    return _block(n, subjects, [n.rng.choice((_fed, _watered, _fed, _kept))(n, leader, day)])


def _arrivals(n: Nursery, day: date) -> list[str]:
    lines: list[str] = []
    while n.to_come and n.to_come[-1].arrives <= day:
        tree = n.to_come.pop()
        n.about.append(tree)
        where = n.pick('"a garden sale"', '"an old collection"', "a grower up the coast")
        lines += _block(n, tree.handle, [f"bought from {where}, {n.rng.randint(3, 90) * 10} EUR"])
    if n.away and n.rng.random() < 0.12 * len(n.away) / (len(n.trees) * 0.2):
        tree = n.away.pop(n.rng.randrange(len(n.away)))
        tree.place = n.pick(*(p for p in OUTDOORS if p != tree.place))
        n.about.append(tree)
        acts = [
            f"received from {tree.owner} for {n.pick('repotting', 'a season', 'wiring')}",
            f"moved {tree.place}",
        ]
        lines += _block(n, tree.handle, acts)
    return lines


def _weather(n: Nursery, day: date) -> str:
    mean = (3, 4, 5, 8, 11, 13, 15, 15, 12, 9, 6, 4)[day.month - 1]
    low = mean - n.rng.randint(2, 8)
    words = [f"low {low} C", f"high {mean + n.rng.randint(1, 7)} C"]
    if n.rng.random() < 0.5:
        words.append(f"rain {_number(n.rng.randint(1, 260) / 10)} mm")
    return ", ".join(words)


def _page(n: Nursery, day: date, wanted: int, *, first: bool) -> tuple[list[str], int]:
    """The lines of one page of about `wanted` acts, and how many acts it holds."""
    lines = [f"{day}   {_weather(n, day)}" if first and n.rng.random() < 0.4 else str(day)]
    arrived = _arrivals(n, day) if first else []
    acts = sum(line.startswith("  ") and line[2] != " " for line in arrived)
    lines += ["", *arrived] if arrived else []
    while acts < wanted:
        kind = n.rng.random()
        write = _round if kind < 0.006 else _several if kind < 0.12 else _single
        block = write(n, day)
        if block:
            acts += sum(line.startswith("  ") and line[2] != " " for line in block)
            lines += ["", *block]
    return lines, acts


def _diary(n: Nursery) -> dict[str, str]:
    """The text of each diary file by its name: one for each month of each year."""
    pages = max(int(n.acts / ACTS_A_PAGE), 2)
    days = (LAST_DAY - n.first_day).days
    when = sorted(n.rng.randint(1, days) for _ in range(pages))
    files: dict[str, list[str]] = {}
    done, before = 0, -1
    for i, after in enumerate(when):
        left = (n.acts - done) / (pages - i)
        wanted = max(1, round(left * n.rng.uniform(0.3, 1.5)))
        day = n.first_day + timedelta(days=after)
        lines, acts = _page(n, day, wanted, first=after != before)
        before = after
        done += acts
        files.setdefault(f"{day:%Y-%m}", []).append("\n".join(lines) + "\n")
    return {name: "\n".join(texts) for name, texts in files.items()}


SETTINGS = """language = 1
name = "Harrowmouth trees"
home = "yard"
keeper = "keeper"
currency = "EUR"
hours_per_week = 40
journal_id = "harrowmouth"
"""


def generate(folder: Path, acts: int, seed: int = 1) -> None:
    """Write a journal of about `acts` act lines into `folder`, which is made if need be."""
    nursery = Nursery(acts, seed)
    diary = _diary(nursery)
    texts = {"backbud.toml": SETTINGS}
    texts |= {f"cards/{name}.txt": text for name, text in nursery.write_cards().items()}
    texts |= {f"diary/{name[:4]}/{name}.txt": text for name, text in diary.items()}
    for name, text in texts.items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8", newline="\n")


if __name__ == "__main__":
    generate(Path(sys.argv[1]), int(sys.argv[2]), *map(int, sys.argv[3:4]))
