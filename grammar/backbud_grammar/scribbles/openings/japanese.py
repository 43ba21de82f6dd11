"""The trade's Japanese terms, romanised, as a line may begin with them."""

from __future__ import annotations

from backbud_grammar.scribbles.openings.row import PART, ActOpening, rows

_TERMS: tuple[ActOpening, ...] = (
    # What is controlled was looked at, by who thinks in another language; of pests it is not said.
    *rows(
        "checked",
        r"(?:toriki|tori-ki) (?:is |was )?(?:controlled|checked|inspected)",
        details="layer",
    ),
    *rows(
        "checked",
        r"(?:toriki|tori-ki) (?:looked(?: at)?|opened(?: up)?|peeked(?: at)?|peeped)(?=$|,)",
        details="layer",
    ),
    *rows(
        "cleaned",
        r"(?:okigoe|oki-goe|tama) (?:pulled|taken up|lifted|tossed|scraped off|picked off)(?=$|,)",
        details="old cakes off",
    ),
    *rows("checked", r"harigane (?:is |was )?(?:controlled|checked|inspected)", details="wire"),
    *rows("unwired", rf"harigane (?:off|away|removed)(?: from| of)? (?={PART})", details="on"),
    *rows("repotted", r"ne-?arai", noun=True),
    *rows("sealed", r"(?:kirikuchi|kiri-kuchi)(?: paste)?(?: on)?", noun=True),
    *rows("deadheaded", r"hanagara(?:[- ]?(?:tsumi|zumi|tori))?(?: done)?", "hana-gara", noun=True),
    *rows("root-pruned", r"ne-?(?:kiri|giri)(?: done)?", noun=True),
    *rows("repotted", "hachi-?gae", noun=True),
    *rows("potted-on", "hachi-?age", noun=True),
    *rows("treated", "shodoku", noun=True),
    *rows("repotted", "uekae", r"(?:spring|fall|autumn) (?:uekae|repot(?:ting)?)", "ue-kae"),
    *rows("decandled", r"mekiri(?: done)?", "me-kiri", noun=True),
    *rows("pinched", r"metsumi(?: done)?", "me-tsumi", noun=True),
    *rows("plucked", r"momiage(?: done)?", "momi-age", details="old needles", noun=True),
    *rows("plucked", "hamushiri", "ha-mushiri", "furuba-tori", details="needles", noun=True),
    *rows("thinned", "hasukashi", "ha-sukashi", details="needles", noun=True),
    *rows("defoliated", "hagari", "ha-gari", "hakari", noun=True),
    *rows("rubbed", "mekaki", "me-kaki", details="buds", noun=True),
    *rows("trimmed", "hasami", "hasami-zukuri", "karikomi", "kari-komi", noun=True),
    *rows("pruned", "kiri-?modoshi", "kiri-?komi", "oi-?komi", noun=True),
    *rows("pinched", "me-?tsumami", noun=True),
    *rows("styled", "seishi", noun=True),
    *rows("pruned", "sentei", "edanuki", "eda-nuki", noun=True),
    *rows("wired", "harigane", "harigane-kake", "harigane kake", noun=True),
    *rows("unwired", "harigane off", "harigane-hazushi", noun=True),
    *rows("layered", "toriki", "tori-ki", "torimaki", noun=True),
    *rows("grafted", "tsugiki", "tsugi-ki", noun=True),
    *rows("grafted", "yobitsugi", "yobi-tsugi", details="approach", noun=True),
    *rows("struck", r"sashiki(?: of)?", "sashi-ki", noun=True),
    *rows("sown", "misho", "mimaki", noun=True),
    *rows("watered", "mizuyari", "mizu-yari", "hamizu", noun=True),
    *rows("fed", r"(?:okigoe|oki-goe|tamahi) on(?=$|,)"),
    *rows("fed", "okigoe", "oki-goe", "sehi", "hiryo", noun=True),
    *rows("treated-deadwood", r"lime s(?:ulphur)?", details="lime sulphur", noun=True),
)

# A term of the trade with this behind it tells that the work was done, and is no wish.
_DONE = r"[- ]?(?:tsumi)?(?: (?:all |is |was )?(?:done|made|completed?|finished|carried out))"
OPENINGS: tuple[ActOpening, ...] = (
    *(
        ActOpening(one.act, one.details, f"(?:{one.pattern}){_DONE}", language=one.language)
        for one in _TERMS
        if one.noun
    ),
    *_TERMS,
)
