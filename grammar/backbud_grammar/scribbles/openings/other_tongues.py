"""The Dutch and German words for works, as they slip into a line of who thinks in them.

Past participles, each of one work alone; what could be two is not here.
"""

from __future__ import annotations

from backbud_grammar.scribbles.openings.row import ActOpening, rows

_DONE: dict[str, str] = {
    "watered": r"gegossen|gewässert|begossen|begoten|water gegeven|wasser gegeben",
    "soaked": r"getaucht|ondergedompeld|gedompeld",
    "fed": r"gedüngt|bemest|gevoed",
    "pruned": r"gesnoeid|zurückgeschnitten|teruggesnoeid|teruggeknipt",
    "pinched": r"pinziert|gepinzeerd|getopt",
    "defoliated": r"entlaubt|ontbladerd",
    "wired": r"gedrahtet|bedraad|gedraad",
    "unwired": r"entdrahtet|ontdraad",
    "treated": r"gespritzt|gespoten|bespoten",
    "moved": r"umgestellt|verplaatst|verzet(?= naar)",
    "turned": r"gedreht|gedraaid",
    "potted-on": r"eingetopft|opgepot|pikiert|verspeend",
    "repotted": r"umgetopft|verpot|verpotet",
    "weeded": r"gejätet|gewied",
    "protected": r"ingepakt|eingepackt|afgedekt|abgedeckt",
    "sown": r"gesät|ausgesät|gezaaid",
    "struck": r"gestekt|stecklinge gesteckt|stekken gestoken",
    "layered": r"abgemoost|gemarcotteerd",
    "grafted": r"gepfropft|veredelt|geënt",
    "measured": r"gemessen|gemeten",
    "paid": r"bezahlt|betaald",
    "bought": r"gekauft|gekocht",
    "sold": r"verkauft|verkocht",
}
OPENINGS: tuple[ActOpening, ...] = (
    *(row for act, said in _DONE.items() for row in rows(act, rf"(?:{said})(?=$|,| \d)")),
    *rows(
        "protected",
        r"vlies (?:drauf|drüber|erop|eroverheen|darüber|drum|om)(?=$|,)",
        details="fleece",
    ),
    *rows(
        "unprotected",
        r"vlies (?:ab|weg|eraf|runter)(?=$|,)",
    ),
    *rows("fed", r"(?:dünger|mest|düngekugeln) (?:drauf|erop|gegeben|gegeven)(?=$|,)"),
    *rows(
        "plucked",
        r"(?:alte nadeln|oude naalden) (?:gezupft|raus|geplukt|eruit|weg)",
        details="old needles",
    ),
)
