"""Acts that keep a tree from day to day: water, feed, places, cover, hygiene."""

from __future__ import annotations

from backbud_grammar.acts.builders import (
    DOES,
    ENDS,
    TREE_OR_PLACE,
    act,
    bare,
    date,
    flag,
    free,
    listed,
    measure,
    span,
    to,
    words,
)
from backbud_grammar.acts.shared import (
    AT_STRENGTH,
    CANS,
    LIGHT,
    MATERIAL_WAYS,
    PART,
    PERCENT,
    STRENGTHS,
    TIMES,
)
from backbud_grammar.forms import ANY_WORDS, ActForm, Form

GROUP = "Keep"

# What solid feed and spoonfuls are counted in.
_FED_IN = listed(
    "cakes, cake, pieces, piece, pellets, spoons, spoon, handfuls, handful, lumps, "
    "lump, balls, ball, bags, bag, tablets, tablet, caps, cans, can"
)

ACTS: tuple[ActForm, ...] = (
    act(
        GROUP,
        "watered",
        "water",
        DOES,
        bare("quantity", "volume"),
        CANS,
        TIMES,
        words(
            "how",
            "well",
            "in",
            "hard",
            "deeply",
            *LIGHT,
            *listed(
                "twice, by hand, overhead, from below, morning, morning and evening, evening, "
                "rainwater, tap water"
            ),
            part=False,
        ),
        free("with"),
        on=TREE_OR_PLACE,
        work="water",
        minutes=5,
        traits=("keeps_day", "daily_keep", "not_told"),
        called=("watering",),
    ),
    act(
        GROUP,
        "misted",
        "mist",
        DOES,
        words("how", "twice", "morning", "morning and evening", "evening", part=False),
        TIMES,
        PART,
        on=TREE_OR_PLACE,
        about="water on the leaves",
        work="water",
    ),
    act(
        GROUP,
        "soaked",
        "soak",
        DOES,
        bare("quantity", "volume"),
        CANS,
        TIMES,
        measure("for", "duration"),
        bare("for", "duration"),
        words("how", "overnight", "rainwater", part=False),
        work="water",
        minutes=10,
        traits=("keeps_day", "daily_keep"),
    ),
    act(
        GROUP,
        "flushed",
        "flush",
        DOES,
        bare("quantity", "volume"),
        CANS,
        TIMES,
        words("how", "until clear", "well", "twice", "rainwater", part=False),
        work="water",
        traits=("daily_keep",),
    ),
    act(
        GROUP,
        "fed",
        "feed",
        DOES,
        bare("npk", "npk"),
        bare("strength", "rate", "share", "fraction", "concentration", words=("strength",)),
        Form(
            "strength",
            ("at",),
            ("rate", "share", "fraction", "concentration"),
            True,
            words=("strength",),
        ),
        bare("quantity", "number", words=_FED_IN, worded=True),
        # A figure alone counts what was laid: `2.50` is no count.
        bare("quantity", "number", whole=True),
        bare("quantity", "volume", "mass", words=_FED_IN),
        measure(
            ("one per", "one every"), "length", about="of solid feed: one to so much of the rim"
        ),
        words(
            "how",
            *STRENGTHS,
            *AT_STRENGTH,
            *MATERIAL_WAYS,
            *listed("foliar, first round, second round, third round"),
            part=False,
        ),
        # Of a kind that is on no card.
        Form(
            "kind",
            words=listed(
                "seaweed, kelp, fish, fish emulsion, fish blood and bone, bone meal, bonemeal, "
                "manure, guano, hoof and horn, rapeseed meal, cottonseed meal, tomato feed, "
                "rose feed, azalea feed, ericaceous feed, chelated iron, iron, magnesium, "
                "potash, humic acid, slow-release feed, cactus feed, orchid feed, bonsai feed, "
                "pine feed, conifer feed"
            ),
        ),
        Form("with", ("with",), refers=("material",), several=True),
        Form("with", refers=("material",), several=True, about="with or without `with`"),
        also=("fertilised", "fertilise", "fertilized", "fertilize"),
        also_bare=("fertilise", "fertilize"),
        work="feed",
        minutes=5,
        traits=("keeps_day", "daily_keep"),
        called=("feeding",),
    ),
    act(
        GROUP,
        "moved",
        "move",
        ENDS,
        Form(
            "to",
            ("to", "into", "onto", "back to", "back into", "out to", "out into"),
            refers=("place",),
        ),
        Form("to", refers=("place",), about="the place, with or without `to`"),
        to("from", "place"),
        free("for", about="what for"),
        needs=True,
        work="shelter",
        minutes=5,
        traits=("keeps_day", "not_told"),
    ),
    act(
        GROUP,
        "turned",
        "turn",
        DOES,
        bare("angle", "angle"),
        words("how", "quarter turn", "half turn", "quarter", "half", "round", part=False),
        about="on the bench, towards the light",
        also=("rotated", "rotate"),
        also_bare=("rotate",),
        work="shelter",
        traits=("daily_keep", "not_told"),
    ),
    act(
        GROUP,
        "shaded",
        "shade",
        DOES,
        bare("share", "share", limits=PERCENT),
        words("with", "net", "fleece", part=False),
        on=TREE_OR_PLACE,
        undone_by="unshaded",
        work="shelter",
        traits=("keeps_day",),
    ),
    act(
        GROUP,
        "unshaded",
        "unshade",
        ENDS,
        on=TREE_OR_PLACE,
        work="shelter",
        traits=("any_day", "keeps_day"),
        plainly="shade taken off",
    ),
    act(
        GROUP,
        "planted-out",
        "plant-out",
        ENDS,
        Form("to", ("in", "at", "to", "into"), refers=("place",)),
        Form("to", refers=("place",)),
        flag("on a tile"),
        about="into open ground, to grow",
        work="shelter",
    ),
    act(
        GROUP,
        "protected",
        "protect",
        DOES,
        free("with"),
        free("against", "from"),
        words(
            "how",
            *listed(
                "fleece, hessian, burlap, mulch, straw, bubble wrap, pot wrapped, pot in straw, "
                "heeled in, plunged, on the ground, net, windbreak, two layers, three layers"
            ),
            part=False,
        ),
        on=TREE_OR_PLACE,
        undone_by="unprotected",
        work="shelter",
        minutes=10,
        traits=("keeps_day",),
        plainly="sheltered from the cold",
    ),
    act(
        GROUP,
        "unprotected",
        "unprotect",
        ENDS,
        on=TREE_OR_PLACE,
        work="shelter",
        minutes=5,
        traits=("any_day", "keeps_day"),
        plainly="shelter taken off",
    ),
    act(
        GROUP,
        "weeded",
        "weed",
        DOES,
        on=TREE_OR_PLACE,
        work="health",
        called=("weeding",),
        traits=("daily_keep",),
    ),
    act(
        GROUP,
        "cleaned",
        "clean",
        DOES,
        words(
            "what",
            *listed(
                "trunk, bark, nebari, deadwood, jin, shari, moss off, moss off trunk, algae off, "
                "lichen off, scale off, cakes off, old cakes off, snow off, soil surface, pot, "
                "pots, bench, benches, tools, floor, dead leaves, fallen leaves, old needles, "
                "foliage, leaves, glass"
            ),
        ),
        free("with"),
        PART,
        on=("tree", "place", "pot"),
        work="health",
        called=("cleaning",),
        traits=("daily_keep",),
    ),
    act(
        GROUP,
        "treated",
        "treat",
        DOES,
        Form("product", ("with",), words=ANY_WORDS, about="the product"),
        words(
            "product",
            *listed(
                "lime sulphur, sulphur, copper, soap, soft soap, neem, neem oil, "
                "horticultural oil, winter oil, nematodes, predatory mites, sticky traps, "
                "fungicide, insecticide, acaricide, insecticidal soap, wettable sulphur, oil, "
                "captan, mancozeb, spinosad, abamectin, pyrethrum, Bt"
            ),
            part=False,
            about="the product, without `with`",
        ),
        free("number", about="authorisation number"),
        measure("dose", "rate", "volume", "mass", "share", "ratio"),
        bare("dose", "rate", "share", "ratio", "concentration"),
        bare("quantity", "volume", "mass"),
        CANS,
        TIMES,
        bare(
            "count",
            "number",
            words=listed(
                "caterpillars, adults, grubs, weevils, slugs, snails, beetles, moths, scale, "
                "galls, lumps, larvae, insects, million"
            ),
            whole=True,
            worded=True,
            about="how many were taken off",
        ),
        measure("area", "area"),
        free("against", "for", about="the target"),
        Form("operator", ("by",), refers=("person",), several=True),
        Form("at", ("at",), reader="time", about="the time of day"),
        measure("re-entry", "duration", about="as the label says"),
        measure("wind", "speed"),
        words(
            "how",
            *listed(
                "soil drench, drench, dip, painted on, winter wash, systemic, by hand, water jet, "
                "brushed off, cut out, burned, in the evening, in the morning, all over, "
                "under the leaves, first time, second time, third time, fourth time, again, last"
            ),
            part=False,
        ),
        on=TREE_OR_PLACE,
        about="pest or disease: the label and local law decide",
        also=("sprayed", "spray"),
        also_bare=("spray",),
        work="health",
        minutes=15,
        traits=("keeps_day",),
        called=("spraying",),
        cautions=(
            "The product's label and local law decide on dose, protection and re-entry; "
            "a licence may be needed.",
        ),
    ),
    act(
        GROUP,
        "quarantined",
        "quarantine",
        DOES,
        Form("to", ("in", "at", "to"), refers=("place",)),
        Form("to", refers=("place",)),
        date("until"),
        span("for", about="how long, or what for"),
        bare("for", "duration"),
        work="health",
        traits=("keeps_day", "keepers_affair"),
        plainly="kept apart from other trees",
    ),
    act(
        GROUP,
        "released",
        "release",
        ENDS,
        # From a pot it would be another thing.
        Form("from", ("from",), words=("quarantine", "the quarantine", "isolation")),
        to("from", "place"),
        about="from quarantine",
        work="health",
        traits=("any_day", "keeps_day", "keepers_affair"),
        plainly="out of quarantine",
    ),
    act(
        GROUP,
        "ventilated",
        "ventilate",
        DOES,
        words("how", "morning", "all day", "all night", "doors", "vents", part=False),
        on=("place",),
        about="a house or frame opened for air",
        work="shelter",
    ),
)
