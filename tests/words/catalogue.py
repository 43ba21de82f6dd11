"""Gathers every sentence that is shown, as the catalogues have it.

`python -m tests.words.catalogue` writes the catalogues anew: what is new is added without a
translation, what is gone is left out, and each `.mo` is made of its `.po`.
"""

from __future__ import annotations

import ast
import io
import re
from collections.abc import Iterable, Iterator
from datetime import UTC, datetime
from functools import cache
from pathlib import Path
from types import FunctionType
from typing import Any, get_args

from babel.messages import Catalog
from babel.messages.catalog import Message as Entry
from babel.messages.mofile import write_mo
from babel.messages.pofile import read_po, write_po

from backbud.pages.templating import TEMPLATES
from backbud.species import ForetoldWhat
from backbud.tongue import CATALOGUES, ENGLISH, LANGUAGES
from backbud_grammar.acts.words import SettledBy

ROOT = Path(__file__).parents[2]
# What a strength is called on a card.
STRENGTHS = ("weak", "fair", "strong", "leanly", "well", "again", "same pot")
# Where sentences are made that pages, calendars and papers show.
SHOWN = (
    "ledger/backbud/pages", "ledger/backbud/views", "ledger/backbud/calendar",
    "ledger/backbud/papers", "ledger/backbud/plan", "ledger/backbud/visits",
    "ledger/backbud/climate", "ledger/backbud/bench", "ledger/backbud/species",
    "ledger/backbud/words.py", "ledger/backbud/handed.py", "plugins/backbud_species",
)  # fmt: skip
# What a care sheet says: its headings, too, which end in no point.
CARE_WORDS = "ledger/backbud/views/care_words.py"
# Whose constants are sentences that a follow-up or a species is told with.
TOLD = (
    "ledger/backbud/plan", "ledger/backbud/species", "plugins/backbud_species",
    CARE_WORDS, "ledger/backbud/views/paper.py",
)  # fmt: skip
# Tables whose every text is looked up, by whoever lays them out.
ALL_OF = frozenset(
    {
        "HEADINGS",
        "ABOUT",
        "WORKS",
        "OTHER",
        "SIGN_WORDS",
        "_AGES",
        "_OLDER",
        "_SORTS",
        "_KNOWN_FROM",
        "_ENDS_CARE",
        "_WINTER_QUARTERS",
        "STAGE_NAMES",
        "REASON_LABELS",
    }
)
SENTENCE = re.compile(r"[^\W\d_]{2,}[,:;]? +[^\W\d_(“]")
_IN_TEMPLATE = re.compile(r"""("[^"]+"|'[^']+') \| phrase""")
_COUNTED_IN_TEMPLATE = re.compile(
    r'number\([^()"]+(?:\([^()]*\))?[^()"]*, "([^"]+)"(?:, "([^"]+)")?\)'
)

# What settles a work, as rules have it.
SETTLING = get_args(SettledBy)

# Between the context of a word and the word, as gettext has it.
CONTEXT = "\x04"

# A sentence, or its singular and plural.
Message = str | tuple[str, str]


def modules() -> Iterator[Path]:
    """The files in which sentences are made."""
    for place in map(ROOT.joinpath, SHOWN):
        yield from sorted(place.rglob("*.py")) if place.is_dir() else [place]


def messages() -> dict[Message, list[str]]:
    """Every sentence, with the files it stands in."""
    found: dict[Message, list[str]] = {}
    for message, where in _all():
        if _letters(message):
            found.setdefault(message, [])
            if where not in found[message]:
                found[message].append(where)
    return found


def _letters(message: Message) -> bool:
    text = message if isinstance(message, str) else message[0]
    return any(letter.isalpha() for letter in text)


def _all() -> Iterator[tuple[Message, str]]:
    for path in modules():
        where = path.relative_to(ROOT).as_posix()
        yield from ((message, where) for message in _in_code(path))
    for path in sorted(TEMPLATES.glob("*.html")):
        where = path.relative_to(ROOT).as_posix()
        yield from ((message, where) for message in _in_template(path.read_text()))
    yield from _of_rows()
    yield from _of_species()


def _in_template(text: str) -> Iterator[Message]:
    for quoted in _IN_TEMPLATE.findall(text):
        yield str(ast.literal_eval(quoted))
    for one, many in _COUNTED_IN_TEMPLATE.findall(text):
        yield _counted(one, many)


def _counted(one: str, many: str) -> Message:
    return f"{{count}} {one}", f"{{count}} {many or one + 's'}"


# ------------------------------------------------------------------ code


def _in_code(path: Path) -> Iterator[Message]:
    """What is looked up by its own words, and the constants that are looked up by their names."""
    tree = ast.parse(path.read_text())
    named: set[str] = set()
    for node in ast.walk(tree):
        if isinstance(node, ast.Call):
            yield from _of_call(node, named)
    where = path.relative_to(ROOT).as_posix()
    is_told = where.startswith(TOLD)
    for name, value in constants(path).items():
        if name in named or name in ALL_OF:
            yield from strings(value)
        elif where == CARE_WORDS:
            yield from filter(SENTENCE.search, strings(value))
        elif is_told:
            yield from filter(_is_told, strings(value))
    for name in named - set(constants(path)):
        yield from strings(_imported(tree, name))


# What stands in tables for the program alone.
_KEYS = frozenset(
    {
        "bag roll bottle box tub sheet bale",
        "piece pieces cake cakes pellets spoon spoons handfuls seeds plants trees",
        "give way", "off below", "off sides", "off top",
        "North Carolina State University, Poisonous Plants: Rhododendron spp.",
    }
)  # fmt: skip


def _is_told(text: str) -> bool:
    """Whether it is a sentence, or part of one, and not where it comes from: a publication keeps
    its own name."""
    is_said = SENTENCE.search(text) and text not in _KEYS
    return bool(is_said) and (text.endswith(".") or text[0].islower())


def _of_call(node: ast.Call, named: set[str]) -> Iterator[Message]:
    called = (
        node.func.attr if isinstance(node.func, ast.Attribute) else getattr(node.func, "id", "")
    )
    texts = [one.value for one in node.args if isinstance(one, ast.Constant)]
    if called == "phrase" and node.args:
        yield from strings(node.args[0])
        named |= _names(node.args[0])
    elif called == "map" and isinstance(node.args[0], ast.Name) and node.args[0].id == "phrase":
        named |= _names(node.args[1])
    elif called == "counted_phrase":
        pair = [text for text in texts if isinstance(text, str)]
        if len(pair) == 2:
            yield pair[0], pair[1]
    elif called == "number" and texts and isinstance(texts[0], str):
        yield _counted(texts[0], *texts[1:2] or [""])


def _names(node: ast.AST) -> set[str]:
    return {one.id for one in ast.walk(node) if isinstance(one, ast.Name)} | {
        one.attr for one in ast.walk(node) if isinstance(one, ast.Attribute)
    }


def strings(node: ast.AST | None) -> Iterator[str]:
    """The texts of a value, but not the keys of a table nor what is compared."""
    if isinstance(node, ast.Constant):
        if isinstance(node.value, str):
            yield node.value
    elif isinstance(node, ast.Dict):
        for value in node.values:
            yield from strings(value)
    elif isinstance(node, ast.Subscript):
        yield from strings(node.value)
    elif isinstance(node, ast.BoolOp):
        for value in node.values:
            yield from strings(value)
    elif isinstance(node, ast.IfExp):
        yield from strings(node.body)
        yield from strings(node.orelse)
    elif isinstance(node, ast.Call) and getattr(node.func, "id", "") != "Figure":
        for value in (*node.args, *(one.value for one in node.keywords)):
            yield from strings(value)
        if isinstance(node.func, ast.Attribute):
            yield from strings(node.func.value)
    elif isinstance(node, (ast.Tuple, ast.List, ast.Set)):
        for value in node.elts:
            yield from strings(value)


@cache
def constants(path: Path) -> dict[str, ast.expr]:
    """What stands in a module under a name of its own."""
    found: dict[str, ast.expr] = {}
    for node in ast.parse(path.read_text()).body:
        if isinstance(node, ast.Assign) and isinstance(node.targets[0], ast.Name):
            found[node.targets[0].id] = node.value
        elif isinstance(node, ast.Assign) and isinstance(node.targets[0], ast.Tuple):
            pass
        elif isinstance(node, ast.AnnAssign) and isinstance(node.target, ast.Name) and node.value:
            found[node.target.id] = node.value
    return found


def _imported(tree: ast.Module, name: str) -> ast.expr | None:
    """A constant of the module that it is imported from, or of one that is imported by name."""
    for node in tree.body:
        if isinstance(node, ast.ImportFrom) and node.module and node.module.startswith("backbud"):
            for alias in node.names:
                for module in (node.module, f"{node.module}.{alias.name}"):
                    path = _file_of(module)
                    if path and (alias.name == name or module != node.module):
                        found = constants(path).get(name)
                        if found is not None:
                            return found
    return None


def _file_of(module: str) -> Path | None:
    for root in ("ledger", "grammar", "plugins"):
        path = ROOT / root / (module.replace(".", "/") + ".py")
        if path.exists():
            return path
    return None


# ------------------------------------------------------------------ tables and objects


def _of_rows() -> Iterator[tuple[Message, str]]:
    """The acts as titles and papers have them, what they always ask to beware of, and the labels
    of cards."""
    from backbud.collection.state import Standing
    from backbud.plan.followups import State
    from backbud.plan.stores.materials import _CONTAINERS
    from backbud.views.bench import Heading
    from backbud_grammar.acts import ACTS
    from backbud_grammar.kinds import KINDS, POT_SHAPES

    for row in ACTS:
        where = f"grammar, the act {row.word}"
        yield f"act{CONTEXT}{row.bare}", where
        yield row.word, where
        yield row.plainly or row.word.replace("-", " "), where
        yield from ((caution, where) for caution in row.cautions)
    for shape in POT_SHAPES:
        yield shape, "grammar, the shapes of pots"
    for kind in KINDS.values():
        for form in kind.forms:
            yield form.name, f"grammar, the label {form.name}"
    for word in (*get_args(Standing), *get_args(State), *get_args(Heading), *STRENGTHS):
        yield word, "ledger, how a tree or a work stands"
    for word in get_args(ForetoldWhat):
        yield word, "ledger, what a forecast holds"
    for settling in SETTLING:
        if " " in settling:
            yield settling.partition(" ")[2], "grammar, what is looked at"
    for container in dict.fromkeys(_CONTAINERS.values()):
        many = f"{container}es" if container.endswith("x") else f"{container}s"
        yield (f"{{count}} {container}", f"{{count}} {many}"), "plan, what is sold in what"
        yield f"{{count}} {many}", "plan, what is sold in what"


# What a class has beside what it says: its names, and publications by their own.
_NAMES = ("common", "also", "botanical", "sources", "__doc__", "__module__", "__annotations__")


def _of_species() -> Iterator[tuple[Message, str]]:
    """What species say, as it stands in their classes once all is put together."""
    from importlib.metadata import entry_points

    for point in entry_points(group="backbud.species"):
        kind: Any = point.load()
        where = kind.__module__.replace(".", "/")
        for base in kind.__mro__:
            if base.__module__.startswith("backbud"):
                for name, value in vars(base).items():
                    if name not in _NAMES:
                        yield from ((text, where) for text in _texts(value, set()))


def _texts(value: Any, seen: set[int]) -> Iterator[str]:
    """The sentences in a value, and in what a rule's function holds."""
    if isinstance(value, str):
        if SENTENCE.search(value) and value not in SETTLING and value not in _KEYS:
            yield value
        return
    if id(value) in seen:
        return
    seen.add(id(value))
    if isinstance(value, FunctionType):
        inner: Iterable[Any] = [
            *(cell.cell_contents for cell in value.__closure__ or ()),
            *(value.__defaults__ or ()),
            *(value.__kwdefaults__ or {}).values(),
        ]
    elif isinstance(value, dict):
        inner = value.values()
    elif isinstance(value, (tuple, list)):
        inner = value
    elif hasattr(value, "__struct_fields__"):
        inner = [getattr(value, name) for name in value.__struct_fields__ if name != "source"]
    else:
        return
    for one in inner:
        yield from _texts(one, seen)


# ------------------------------------------------------------------ the files


def read(language: str) -> Catalog:
    """A language's catalogue as it was kept."""
    path = CATALOGUES / f"{language}.po"
    found = read_po(io.BytesIO(path.read_bytes() if path.exists() else b""), locale=language)
    # No day is kept, so that the same sentences give the same bytes.
    found.creation_date = found.revision_date = datetime(2000, 1, 1, tzinfo=UTC)
    return found


def renewed(language: str) -> Catalog:
    """The catalogue with every sentence of today, and what is known of each in the language."""
    old = {key_of(one): one.string for one in read(language) if one.id}
    new = Catalog(locale=language, project="backbud", fuzzy=False, charset="utf-8")
    for message, where in sorted(messages().items(), key=lambda one: (one[1][0], str(one[0]))):
        context, _, text = (
            message.rpartition(CONTEXT) if isinstance(message, str) else ("", "", message)
        )
        new.add(text, old.get(message), locations=[(where[0], 0)], context=context or None)
    return new


def key_of(one: Entry) -> Message:
    """A sentence of a catalogue as `messages` has it."""
    if isinstance(one.id, str):
        return f"{one.context}{CONTEXT}{one.id}" if one.context else one.id
    return tuple(one.id)


def po_bytes(catalogue: Catalog) -> bytes:
    """As a `.po` file, the same bytes for the same sentences."""
    out = io.BytesIO()
    write_po(out, catalogue, width=100, omit_header=False, include_lineno=False)
    lines = out.getvalue().decode().split("\n")
    dated = ('"POT-Creation-Date', '"PO-Revision-Date', '"Generated-By', "# ")
    return "\n".join(line for line in lines if not line.startswith(dated)).encode()


def mo_bytes(catalogue: Catalog) -> bytes:
    """As what `gettext` reads."""
    out = io.BytesIO()
    write_mo(out, catalogue)
    return out.getvalue()


def main() -> None:
    """Write every catalogue anew."""
    for language in LANGUAGES:
        if language != ENGLISH:
            catalogue = renewed(language)
            text = po_bytes(catalogue)
            (CATALOGUES / f"{language}.po").write_bytes(text)
            (CATALOGUES / f"{language}.mo").write_bytes(mo_bytes(read(language)))
            done = sum(bool(one.string) and one.string != ("", "") for one in catalogue if one.id)
            print(f"{language}: {done} of {len(catalogue)}")


if __name__ == "__main__":
    main()
