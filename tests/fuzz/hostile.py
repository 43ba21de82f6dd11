"""A seed goes in; a small journal comes out, odd or hostile in one way or many: names and bytes.

Half of what it holds is sound, so that what is odd gets as far as the plan and the pages: lines of
the example journal and lines made from the table of acts, changed here and there.
"""

from __future__ import annotations

import random
import re
from collections.abc import Callable
from datetime import date, timedelta
from functools import cache
from pathlib import Path

from odd import (
    CARDS,
    DATES,
    KINDS_OF_TREE,
    LIMITERS,
    NUMBERS,
    ODD,
    SETTINGS,
    UNITS,
    WEATHER,
)

from backbud_grammar.acts import ACTS
from backbud_grammar.forms import ANY_WORDS
from backbud_grammar.kinds import KINDS

Files = dict[str, bytes]
Change = Callable[[random.Random, str], str]

EXAMPLE = Path(__file__).parents[2] / "example_journal"
TODAY = date(2027, 6, 1)

PLUGIN_FREE = re.compile(r"rowan|weather +weather/", re.IGNORECASE)


def hostile(seed: int) -> Files:
    """The journal of a seed; the same each time."""
    rng = random.Random(seed)
    cards, diary = _cards(rng), _diary(rng)
    files = {
        "backbud.toml": (_settings(rng) if rng.random() < 0.15 else SETTINGS).encode(),
        "cards.txt": cards.encode(errors="replace"),
        "diary.txt": diary.encode(errors="replace"),
    }
    if b"weather.csv" in files["cards.txt"]:
        files["weather.csv"] = _weather(rng).encode(errors="replace")
    if rng.random() < 0.25:
        name = rng.choice(sorted(files))
        files[name] = _bytes_changed(rng, files[name])
    return files


# ------------------------------------------------------------------ cards


def _cards(rng: random.Random) -> str:
    text = CARDS
    if rng.random() < 0.3:
        text = text.replace("place tunnel\n", f"{_changed_some(rng, WEATHER)}place tunnel\n", 1)
    if rng.random() < 0.1:
        text = text.replace("place tunnel\n", "  weather weather.csv\nplace tunnel\n", 1)
    kind = rng.choice(KINDS_OF_TREE)
    text += f"tree yuki\n  kind      {kind}\n  place     tunnel\n  owner     marrow\n"
    for _ in range(rng.randrange(3)):
        text += rng.choice((_card_from_table, _card_from_example))(rng)
    return _changed_some(rng, text) if rng.random() < 0.5 else text


def _card_from_table(rng: random.Random) -> str:
    kind = rng.choice(sorted(KINDS))
    lines = [f"{kind} {rng.choice((f'{kind}-2', *_handles(), 'Ωmega', 'all', 'x' * 300))}"]
    labels = [label for form in KINDS[kind].forms for label in form.labels] or ["akadama"]
    for _ in range(rng.randrange(6)):
        lines.append(f"  {rng.choice(labels)}  {_value(rng)}")
    return "\n".join(lines) + "\n"


def _card_from_example(rng: random.Random) -> str:
    return rng.choice(_example("cards"))


# ------------------------------------------------------------------ diary


def _diary(rng: random.Random) -> str:
    text = "".join(_page(rng) for _ in range(rng.randrange(1, 5)))
    return _changed_some(rng, text) if rng.random() < 0.6 else text


def _page(rng: random.Random) -> str:
    if rng.random() < 0.2:
        return rng.choice(_example("diary"))
    day = TODAY - timedelta(days=int(rng.paretovariate(0.7) * 20) % 4000)
    written = rng.choice(DATES) if rng.random() < 0.2 else day.isoformat()
    weather = f"   low {_number(rng)} C, rain {_number(rng)} mm" if rng.random() < 0.2 else ""
    lines = [f"{written}{weather}"]
    for _ in range(rng.randrange(1, 4)):
        lines.append(_subjects(rng))
        lines += [f"  {_act(rng)}" for _ in range(rng.randrange(1, 4))]
    return "\n".join(lines) + "\n"


def _subjects(rng: random.Random) -> str:
    if rng.random() < 0.7:
        return rng.choice(("hoshi", "yuki", "hoshi, yuki"))
    return rng.choice(
        ("all", "all in yard", "all of marrow", "all trident maple", "all except hoshi", "tray-1",
         "maple", "akadama", "marrow", "yard", "nobody", "each", "hoshi, hoshi", *ODD)
    )  # fmt: skip


def _act(rng: random.Random) -> str:
    act = rng.choice(ACTS)
    word = rng.choice((act.word, act.bare))
    if act.names_act:
        named = rng.choice(ACTS)
        word = f"{word} {rng.choice((named.word, named.bare))}"
    pieces = [_detail(rng, act.forms) for _ in range(int(rng.expovariate(0.8)))]
    remark = f" -- {rng.choice(LIMITERS)} {rng.choice(ODD)}" if rng.random() < 0.1 else ""
    return f"{word} {', '.join(pieces)}".rstrip() + remark


def _detail(rng: random.Random, forms: tuple[object, ...]) -> str:
    form: object = rng.choice(forms) if forms else None
    labels: tuple[str, ...] = getattr(form, "labels", ())
    words = [w for w in getattr(form, "words", ()) if w not in ANY_WORDS]
    parts = [rng.choice(labels)] if labels else []
    if words and rng.random() < 0.6:
        parts.append(rng.choice(words))
    if rng.random() < 0.7:
        parts.append(_value(rng))
    if rng.random() < 0.2:
        parts.append(f"on {rng.choice(('left 2', 'apex', 'top', 'left', '3', ''))}")
    return " ".join(parts)


def _value(rng: random.Random) -> str:
    draw = rng.random()
    if draw < 0.45:
        count = rng.choice((1, 1, 1, 2, 3, 12))
        cross = " x " if count < 4 else " "
        return f"{cross.join(_number(rng) for _ in range(count))} {rng.choice(UNITS)}"
    if draw < 0.6:
        return rng.choice(_handles())
    if draw < 0.75:
        return rng.choice(DATES)
    if draw < 0.85:
        return f"{_number(rng)} {rng.choice(UNITS)} {rng.choice(_handles())}"
    return rng.choice((*ODD, *LIMITERS, "wedges N E S", "in 2-3 weeks", "to 2028-03/2028-04"))


def _number(rng: random.Random) -> str:
    return rng.choice(NUMBERS) if rng.random() < 0.5 else str(rng.randrange(1, 40))


@cache
def _handles() -> tuple[str, ...]:
    return ("hoshi", "yuki", "marrow", "yard", "tunnel", "maple", "tray-1", "akadama", "kaze")


@cache
def _example(folder: str) -> tuple[str, ...]:
    """The sections of the example journal's files, its plugin's own kind and its weather left."""
    text = "".join(path.read_text() for path in sorted((EXAMPLE / folder).glob("*.txt")))
    starts = r"\n(?=[0-9])" if folder == "diary" else rf"\n(?=(?:{'|'.join(KINDS)}) )"
    found = [f"{section.strip()}\n" for section in re.split(starts, f"\n{text}")]
    return tuple(s for s in found if not PLUGIN_FREE.search(s) and len(s) < 800 and s[0] != "#")


# ------------------------------------------------------------------ settings and weather


def _settings(rng: random.Random) -> str:
    keys = (
        "language", "name", "home", "keeper", "currency", "hours_per_week", "journal_id", "show",
        "base_url", "alarm_days", "alarm_hour", "settled", "publish", "figures.decandle_from_c",
        "figures.shade_heat_sum", "a.b",
    )  # fmt: skip
    values = (
        "1", "-1", "0", "2", "1e300", "-1e300", "nan", "inf", "9" * 40, '""', '"yard"', '"EUR"',
        '"XXX"', "true", "[]", "[[1]]", "[1, 2]", "[-1, 400]", '["all"]', "{}", "2027-06-01",
        "08:00:00", '"""a\n\nb"""', '"<b>\\u202e"', '"\\u0000"', '"a/../b"', "=", '"', "1 2",
    )  # fmt: skip
    more = [f"{rng.choice(keys)} = {rng.choice(values)}\n" for _ in range(rng.randrange(1, 4))]
    return _changed_some(rng, SETTINGS) + "".join(more)


def _weather(rng: random.Random) -> str:
    first = date(2027, 6, 1) - timedelta(days=rng.choice((3, 40, 400)))
    rows = [rng.choice(("date,low,high,rain", "date;low;high;rain", "date, low (F), high (F)", ""))]
    for n in range(rng.choice((1, 5, 60))):
        day = (first + timedelta(days=n)).isoformat()
        rows.append(f"{day},{rng.randrange(-9, 12)},{rng.randrange(8, 30)},{rng.randrange(9)}")
    text = "\n".join(rows) + "\n"
    return _changed_some(rng, text) if rng.random() < 0.8 else text


# ------------------------------------------------------------------ changes


def _changed_some(rng: random.Random, text: str) -> str:
    """The text with one to four of its lines changed, most of them a little."""
    lines = text.split("\n")
    for _ in range(rng.choice((1, 1, 2, 3, 4))):
        at = rng.randrange(len(lines))
        if rng.random() < 0.75:
            lines[at] = rng.choice(IN_A_LINE)(rng, lines[at])
        else:
            _moved_about(rng, lines, at)
    return rng.choice(("\n", "\n", "\n", "\n", "\n", "\n", "\r\n", "\r")).join(lines)


def _moved_about(rng: random.Random, lines: list[str], at: int) -> None:
    other = rng.randrange(len(lines))
    draw = rng.randrange(6)
    if draw == 0:
        lines[at], lines[other] = lines[other], lines[at]
    elif draw == 1:
        lines.insert(other, lines[at])
    elif draw == 2 and len(lines) > 1:
        del lines[at]
    elif draw == 3:
        lines.insert(at, rng.choice(("", " ", "\t", "#", "  # a", "0", "2027-05-31", "tree", "x")))
    elif draw == 4 and at:
        lines[at - 1] += lines.pop(at)
    else:
        lines[at] = (f"{lines[at]}\n" * rng.randrange(2, 6)).rstrip("\n")


def _one(pattern: str, made: Callable[[random.Random], str]) -> Change:
    """A change of one match of a pattern into something else."""
    compiled = re.compile(pattern)

    def change(rng: random.Random, line: str) -> str:
        found = list(compiled.finditer(line))
        if not found:
            return line
        one = rng.choice(found)
        return line[: one.start()] + made(rng) + line[one.end() :]

    return change


def _put_in(rng: random.Random, line: str) -> str:
    at = rng.randrange(len(line) + 1)
    return line[:at] + rng.choice(ODD) * rng.choice((1, 1, 1, 2, 40)) + line[at:]


def _put_word(rng: random.Random, line: str) -> str:
    words = line.split(" ")
    made = (rng.choice(LIMITERS), _value(rng), _act(rng), rng.choice(_handles()))
    words.insert(rng.randrange(len(words) + 1), rng.choice(made))
    return " ".join(words)


def _turned(rng: random.Random, line: str) -> str:
    words = line.split(" ")
    rng.shuffle(words)
    return " ".join(words)


def _set_in(rng: random.Random, line: str) -> str:
    return rng.choice(("", " ", "  ", "   ", "    ", "\t", "\t ", " \t", "      ")) + line.lstrip()


def _cut(rng: random.Random, line: str) -> str:
    a, b = sorted(rng.randrange(len(line) + 1) for _ in range(2))
    return line[:a] + line[b:]


def _cased(rng: random.Random, line: str) -> str:
    return rng.choice((line.upper(), line.title(), line.swapcase()))


def _drawn_out(rng: random.Random, line: str) -> str:
    words = line.split(" ")
    at = rng.randrange(len(words))
    words[at] = " ".join([words[at]] * rng.choice((2, 3, 30)))
    return " ".join(words)


IN_A_LINE: tuple[Change, ...] = (
    _one(r"\d+(?:[.,]\d+)?", _number),
    _one(r"\d+(?:[.,]\d+)?", _number),
    _one(r"\b(?:mm|cm|m|L|kg|g|C|EUR|days|weeks|%)(?!\w)", lambda rng: rng.choice(UNITS)),
    _one(r"\d{4}(?:-\d\d)*~?", lambda rng: rng.choice(DATES)),
    _one(r"\d{4}(?:-\d\d)*~?", lambda rng: rng.choice(DATES)),
    _one(r"[^\s,]+", lambda rng: rng.choice(_handles())),
    _one(r"[^\s,]+", _value),
    _one(r"[^\s,]+", lambda rng: rng.choice(ODD)),
    _put_in,
    _put_in,
    _put_word,
    _put_word,
    _turned,
    _set_in,
    _set_in,
    _cut,
    _cased,
    _drawn_out,
)


def _bytes_changed(rng: random.Random, data: bytes) -> bytes:
    draw = rng.randrange(9)
    if draw == 0:
        return b"\xef\xbb\xbf" + data
    if draw == 1:
        return data.decode(errors="replace").encode(rng.choice(("utf-16", "utf-16-le", "utf-32")))
    if draw == 2:
        return data.decode(errors="replace").encode("cp1252", errors="replace")
    if draw == 3:
        return data.replace(b"\n", rng.choice((b"\r", b"\r\n", b"\n\r", b"\n\n", b"\0", b"")))
    if draw == 4:
        return data[: rng.randrange(len(data) + 1)]
    if draw == 5:
        return data.rstrip(b"\n") + b"\0" * rng.randrange(40)
    out = bytearray(data)
    for _ in range(rng.choice((1, 1, 2, 20))):
        at = rng.randrange(len(out) + 1)
        if draw == 6:
            out[at:at] = rng.randbytes(rng.randrange(1, 5))
        elif draw == 7:
            out[at : at + 1] = rng.randbytes(1)
        else:
            del out[at : at + rng.randrange(1, 9)]
    return bytes(out)
