"""Fills the templates: jinja2 with all that they may call, the stylesheet and the pictures."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable
from functools import cache
from hashlib import blake2b
from pathlib import Path
from typing import TYPE_CHECKING

from backbud import tongue, words
from backbud.pages import links, ways
from backbud.pages.history import late_in_words
from backbud.pages.isolated import isolated
from backbud.pages.kept_templates import kept_templates
from backbud.pages.template_code import quick_environment
from backbud.pages.tree import MOST_VIGOUR
from backbud.pages.work import REASON_LABELS
from backbud.tongue import decimal, phrase, spoken

if TYPE_CHECKING:
    from jinja2 import Environment, Template

TEMPLATES = Path(__file__).parent / "templates"
# HTML, 13.2.3.5: what a parser takes for an error.
_NO_CHARACTER = re.compile("[\x00-\x08\x0b\x0e-\x1f\x7f-\x9f\ufdd0-\ufdef\ufffe\uffff]")
# The same in octets: each of these alone is found in a hundredth of the time of the pattern.
_NO_OCTET = (*range(0x09), 0x0B, *range(0x0E, 0x20), 0x7F)
# By what they begin with, which is found sooner than a pattern.
_NO_OCTETS = {
    b"\xc2": re.compile(rb"\xc2[\x80-\x9f]"),
    b"\xef": re.compile(rb"\xef(?:\xb7[\x90-\xaf]|\xbf[\xbe\xbf])"),
}
# The assets by the name that templates use.
ASSETS = {"style": "backbud.css", "leaf": "leaf.svg"}


def assets() -> dict[str, tuple[str, bytes]]:
    """Each asset's path and bytes by the name that templates use."""
    return {name: asset(file) for name, file in ASSETS.items()}


def lone_page(name: str, shown: dict[str, object]) -> bytes:
    """A page that is no part of the set: asked for over the network, and made then."""
    return octets(template(name).render(shown))


def style() -> str:
    """The stylesheet, to stand in a page."""
    from markupsafe import Markup

    return Markup(stylesheet().decode())


def stylesheet() -> bytes:
    """The one stylesheet."""
    return (TEMPLATES / ASSETS["style"]).read_bytes()


def no_page(title: str) -> bytes:
    """What stands in the place of the page of a tree that could not be made: no template."""
    from markupsafe import escape

    said = phrase("This page could not be made, by a fault of backbud. backbud check tells which.")
    return (
        f'<!doctype html>\n<html lang="{spoken()}">\n<head>\n<meta charset="utf-8">\n'
        f"<title>{escape(title)}</title>\n</head>\n<body>\n<h1>{escape(title)}</h1>\n"
        f"<p>{escape(said)} "
        f'<a href="../{links.INDEX}">{escape(phrase("At the bench"))}</a></p>\n</body>\n</html>\n'
    ).encode()


def macro(file: str, name: str, *arguments: object) -> str:
    """What a macro of a template makes of these."""
    macro: Callable[..., str] = getattr(template(file).module, name)
    return macro(*arguments)


class PagePieces:
    """The markup of thousands of rows: in a page that is rendered a mark stands for them.

    No text of a journal passes for such a mark, since its `<` is written otherwise.
    """

    _MARK = re.compile(rb"<!--(\d+)-->")

    def __init__(self) -> None:
        self._pieces: list[Iterable[bytes]] = []

    def mark(self, pieces: Iterable[bytes]) -> str:
        """What stands for these pieces."""
        from markupsafe import Markup

        self._pieces.append(pieces)
        return Markup(f"<!--{len(self._pieces) - 1}-->")

    def put_in(self, page: bytes) -> bytes:
        """The page with the pieces where their marks stood."""
        parts = self._MARK.split(page)
        whole: list[bytes] = [parts[0]]
        for number, after in zip(parts[1::2], parts[2::2], strict=True):
            whole += self._pieces[int(number)]
            whole.append(after)
        return b"".join(whole)


def page(name: str, shared: dict[str, object], own: dict[str, object]) -> bytes:
    """A page's octets, by its template. `shared`: what every page of a set is shown."""
    found = template(name)
    context = found.new_context(shared | own)
    try:
        return octets("".join(found.root_render_func(context)))
    finally:
        # A macro of the page holds the context that holds it. A run collects no such circles, so
        # without this it would hold all that its pages were shown until it ends.
        context.vars.clear()
        context.exported_vars.clear()


def _sentence(text: str) -> str:
    """A sentence of a template in the language it is compiled for, as it stands in HTML."""
    from markupsafe import Markup

    told = phrase(text).replace("&", "&amp;").replace("<", "&lt;").replace('"', "&quot;")
    return Markup(told)


def _beside_number(text: str) -> str:
    """The same with no place to break before what stands in it."""
    from markupsafe import Markup

    return text.replace(" {", Markup("&nbsp;{"))


def octets(text: str) -> bytes:
    """A page's octets, with a sign in the place of what no page may hold."""
    content = text.encode()
    if any(octet in content for octet in _NO_OCTET) or any(
        first in content and wrong.search(content) for first, wrong in _NO_OCTETS.items()
    ):
        return _NO_CHARACTER.sub("\N{REPLACEMENT CHARACTER}", text).encode()
    return content


@cache
def asset(name: str) -> tuple[str, bytes]:
    """An asset's path, its digest in the name so that no browser keeps an old one.

    Read once, as the templates are: they belong together.
    """
    content = (TEMPLATES / name).read_bytes().replace(b"\r\n", b"\n")
    stem, _, ending = name.rpartition(".")
    digest = blake2b(content, digest_size=4).hexdigest()
    return f"assets/{stem}.{digest}.{ending}", content


@cache
def _template(name: str, language: str) -> Template:
    """A template by its file's name, in a language; read once."""
    return _environment(language).get_template(name)


def template(name: str) -> Template:
    """A template by its file's name, in the language that is spoken now."""
    return _template(name, spoken())


def _compiled_by(language: str) -> tuple[Path, ...]:
    """The files of the filters that a template may ask while it is compiled, and of how it is."""
    isolating, coding = map(TEMPLATES.with_name, ("isolated.py", "template_code.py"))
    ours = map(Path, (__file__, tongue.__file__, words.__file__))
    return (*ours, isolating, coding, *tongue.catalogue_files(language))


@cache
def _environment(language: str) -> Environment:
    """The templates, escaped, with every unknown name an error; imported only here.

    Each language has its own: a sentence of a template is looked up once, when it is compiled.
    """
    from jinja2 import FileSystemLoader, StrictUndefined

    environment = quick_environment()(
        loader=FileSystemLoader(TEMPLATES),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
        auto_reload=False,
        bytecode_cache=kept_templates(language, _compiled_by(language)),
    )
    environment.filters["phrase"] = _sentence
    environment.filters["beside"] = _beside_number
    environment.filters["decimal"] = decimal
    environment.filters["days_unbroken"] = words.unbroken
    environment.filters["capital"] = words.sentence
    environment.filters["isolated"] = isolated
    environment.globals |= {
        "link": links.link,
        "subscription": ways.subscription,
        "language": language,
        "number": words.number,
        "sentence": words.sentence,
        "index_page": links.INDEX,
        "trees_page": links.TREES,
        "weather_page": links.WEATHER,
        "year_page": links.YEAR,
        "year_back_page": links.YEAR_BACK,
        "people_page": links.PEOPLE,
        "stores_page": links.STORES,
        "registers_page": links.REGISTERS,
        "visits_page": links.VISITS,
        "week_page": links.WEEK,
        "find_page": links.FIND,
        "letter_anchor": links.letter_anchor,
        "letter_page": links.letter_page,
        "most_vigour": MOST_VIGOUR,
        "late_in_words": late_in_words,
        "reason_labels": {sort: phrase(label) for sort, label in REASON_LABELS.items()},
        "date_written": words.written,
    }
    return environment
