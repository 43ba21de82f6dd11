"""Says a bill that is reckoned out on its line as its table does, where its parts add up to it."""

from __future__ import annotations

import re
from decimal import Decimal, InvalidOperation

_HEAD = re.compile(
    r"(?P<head>(?:bill|inv|invoice)(?P<more>(?: (?:no\.? ?)?\d+-\d+)?(?: (?:sent )?to [^\W\d]+)?))"
    r"[:,]? (?=\S)",
    re.IGNORECASE,
)
_SUM_END = re.compile(r"(?<=\d)\.\s+(?=\D|\d+ days)|;\s|\s--\s|$")
_JOINS = re.compile(r"\s*=\s*|\s+(?:\+|&|plus|and)\s+|,\s+", re.IGNORECASE)
_AMOUNT = r"\d+(?:[.,]\d\d?)?"
_BY_THE_HOUR = re.compile(
    rf"(?P<hours>{_AMOUNT})\s?(?:hrs?|h)\s?(?:@|at|à|x)\s?(?P<rate>{_AMOUNT})(?:/h)?", re.IGNORECASE
)
_FOR = re.compile(
    rf"(?P<before>[^\W\d]+(?: [^\W\d]+)? )?(?P<amount>{_AMOUNT})"
    rf"(?: for {_AMOUNT}\s?(?:hrs?|h)(?: [^\W\d]+)?| [^\W\d]+(?: [^\W\d]+)?)?",
    re.IGNORECASE,
)
# What was billed before is no part of this bill.
_BEFORE = re.compile(r"\b(?:old|owed|last|balance|carried|left|deposit|dep|paid|less)\b", re.I)
_UNITS = re.compile(r"\d\s?(?:hrs?|h|mm|cm|kg|g|l|bags?|days?|weeks?)$", re.IGNORECASE)


def with_sums(line: str) -> str:
    """The line with the sum first, and what it is for, in quotation marks; the line as it is where
    the parts do not add up to the cent, or one of them was billed before.

    >>> with_sums("bill 140 for 5,5 h + 12,50 wire = 152,50")
    'bill 152,50, for "140 for 5,5 h + 12,50 wire"'
    >>> with_sums("bill 140 for 5,5 h + 12,50 wire = 162,50")
    'bill 140 for 5,5 h + 12,50 wire = 162,50'
    """
    head = _HEAD.match(line)
    if head is None or '"' in line:
        return line
    end = _SUM_END.search(line, head.end())
    body = line[head.end() : end.start()] if end is not None else line[head.end() :]
    *terms, total = _JOINS.split(body)
    values = [_value(term) for term in terms]
    whole = _amount(total)
    if not terms or whole is None or _BEFORE.search(body) or None in values:
        return line
    if len(terms) == 1 and not _BY_THE_HOUR.fullmatch(terms[0]):
        return line
    if sum((one for one in values if one is not None), Decimal(0)) != whole:
        return line
    for_what = body[: body.rindex(total)].rstrip(" =,")
    rest = re.sub(r"^\.\s+", ", ", line[head.end() + len(body) :])
    comma = "," if head["more"] else ""
    return f'{head["head"]}{comma} {total}, for "{for_what}"{rest}'


def _value(term: str) -> Decimal | None:
    """What a part of a bill comes to; None where it does not say."""
    found = _BY_THE_HOUR.fullmatch(term)
    if found is not None:
        hours, rate = _amount(found["hours"]), _amount(found["rate"])
        return None if hours is None or rate is None else hours * rate
    found = _FOR.fullmatch(term)
    return (
        None
        if found is None or (_UNITS.search(term) and " for " not in term)
        else _amount(found["amount"])
    )


def _amount(written: str) -> Decimal | None:
    if not re.fullmatch(_AMOUNT, written):
        return None
    try:
        return Decimal(written.replace(",", "."))
    except InvalidOperation:
        return None
