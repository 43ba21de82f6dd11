"""Names of months and weekdays in common European languages, for lines meant as dates.

Names of months and weekdays in common European languages, without the marks on their letters;
from memory. Three letters are enough; where they begin an English name, that one is meant.
"""

from __future__ import annotations

from functools import lru_cache

from backbud_grammar.handles import fold

# English, German, French, Spanish, Italian, Portuguese, Dutch, Danish, Swedish, Finnish, Polish,
# Czech; each name once.
MONTHS = (
    "january januar janner janvier enero gennaio janeiro januari tammikuu styczen stycznia leden "
    "ledna",
    "february februar feber fevrier febrero febbraio fevereiro februari helmikuu luty lutego unor "
    "unora",
    "march marz maerz mars marzo marco maart marts maaliskuu marzec marca brezen brezna",
    "april avril abril aprile huhtikuu kwiecien kwietnia duben dubna",
    "may mai mayo maggio maio mei maj maja toukokuu kveten kvetna",
    "june juni juin junio giugno junho kesakuu czerwiec czerwca cerven cervna",
    "july juli juillet julio luglio julho heinakuu lipiec lipca cervenec cervence",
    "august aout agosto augustus augusti elokuu sierpien sierpnia srpen srpna",
    "september septembre septiembre settembre setembro syyskuu wrzesien wrzesnia zari",
    "october oktober octobre octubre ottobre outubro lokakuu pazdziernik pazdziernika rijen rijna",
    "november novembre noviembre novembro marraskuu listopad listopada",
    "december dezember decembre diciembre dicembre dezembro joulukuu grudzien grudnia prosinec "
    "prosince",
)
# Monday first.
WEEKDAYS = (
    "monday montag lundi lunes lunedi segunda maandag mandag maanantai poniedziałek pondeli",
    "tuesday dienstag mardi martes martedi terca dinsdag tirsdag tisdag tiistai wtorek utery",
    "wednesday mittwoch mercredi miercoles mercoledi quarta woensdag onsdag keskiviikko sroda "
    "streda",
    "thursday donnerstag jeudi jueves giovedi quinta donderdag torsdag torstai czwartek ctvrtek",
    "friday freitag vendredi viernes venerdi sexta vrijdag fredag perjantai piatek patek",
    "saturday samstag sonnabend samedi sabado sabato zaterdag lørdag lordag lauantai sobota",
    "sunday sonntag dimanche domingo domenica zondag søndag sondag sunnuntai niedziela nedele",
)
# What else heads a part of a diary; these name no date that could be offered.
OTHERS = [
    "spring",
    "summer",
    "autumn",
    "fall",
    "winter",
    "today",
    "yesterday",
    "tomorrow",
    "heute",
    "gestern",
    "hier",
    "ieri",
    "ayer",
]


def months_named(word: str) -> set[int]:
    """The months (1 to 12) that a word may name, in full or by its first three letters or more."""
    return {n + 1 for n in _named(word, MONTHS)}


def weekdays_named(word: str) -> set[int]:
    """The same for days of the week: Monday is 0."""
    return set(_named(word, WEEKDAYS))


def is_name(word: str) -> bool:
    """Whether a word names a month, a weekday, a season or a day as seen from today."""
    return fold(word) in OTHERS or bool(months_named(word) or weekdays_named(word))


@lru_cache(4096)
def _named(word: str, table: tuple[str, ...]) -> frozenset[int]:
    folded = fold(word)
    rows = [row.split() for row in table]
    whole = {n for n, names in enumerate(rows) if folded in names}
    if whole or len(folded) < 3:
        return frozenset(whole)
    english = {n for n, names in enumerate(rows) if names[0].startswith(folded)}
    return frozenset(
        english
        or {n for n, names in enumerate(rows) if any(name.startswith(folded) for name in names)}
    )
