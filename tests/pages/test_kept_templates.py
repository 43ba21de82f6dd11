"""Compiled templates are kept between runs, and only what this person's own run kept is run."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import jinja2
import pytest

from backbud.pages import templating
from backbud.pages.drawings.axes import Drawing, Table
from backbud.pages.kept_templates import kept_templates
from backbud.pages.templating import macro, template
from backbud.tongue import speak

_DRAWING = Drawing("<svg></svg>", (), Table(("Zone", "Day"), (("apex", "3"),)))


@pytest.fixture(autouse=True)
def cache(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Path]:
    """The person's cache folder, empty; templates are read anew."""
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path))
    _forget()
    yield tmp_path / "backbud"
    speak("en")
    _forget()


def _forget() -> None:
    templating._environment.cache_clear()
    templating._template.cache_clear()


def _kept(cache: Path) -> dict[str, bytes]:
    return {path.name: path.read_bytes() for path in cache.iterdir()}


def _compiled(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """The names of the templates that are compiled from here on."""
    found: list[str] = []
    compiling = jinja2.Environment.compile

    def noting(self, source, name=None, filename=None, raw=False, defer_init=False):  # type: ignore[no-untyped-def]
        found.append(name)
        return compiling(self, source, name, filename, raw, defer_init)

    monkeypatch.setattr(jinja2.Environment, "compile", noting)
    return found


def test_the_next_run_compiles_nothing(cache: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    compiled = _compiled(monkeypatch)
    first = macro("figure.html", "figure", _DRAWING, "In <words>")
    assert "In &lt;words&gt;" in first
    assert compiled == ["figure.html"]
    assert len(_kept(cache)) == 1
    _forget()
    assert macro("figure.html", "figure", _DRAWING, "In <words>") == first
    assert compiled == ["figure.html"]


@pytest.mark.parametrize("at", [0, 20, -1])
def test_what_is_foreign_or_torn_is_made_again(
    cache: Path, monkeypatch: pytest.MonkeyPatch, at: int
) -> None:
    """One octet of the mark, of the head or of the code that another wrote."""
    template("signs.html")
    ((name, whole),) = _kept(cache).items()
    other = bytearray(whole)
    other[at] ^= 1
    (cache / name).write_bytes(other)
    compiled = _compiled(monkeypatch)
    _forget()
    template("signs.html")
    assert compiled == ["signs.html"]
    assert _kept(cache) == {name: whole}


def test_what_others_may_write_is_not_run(cache: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    template("signs.html")
    (path,) = cache.iterdir()
    path.chmod(0o666)
    compiled = _compiled(monkeypatch)
    _forget()
    template("signs.html")
    assert compiled == ["signs.html"]


def test_each_language_has_its_own(cache: Path) -> None:
    """A sentence of a template is put into words while it is compiled."""
    english = template("lines.html")
    speak("de")
    assert template("lines.html") is not english
    assert {name.split("-")[1] for name in _kept(cache)} == {"en", "de"}


def test_another_sentence_in_the_catalogue_compiles_anew(
    cache: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """So does any file that decides what a template is compiled to."""
    catalogue = tmp_path / "de.mo"
    compiled = _compiled(monkeypatch)
    for sentences in (b"one", b"one", b"another"):
        catalogue.write_bytes(sentences)
        keeping = kept_templates("de", [catalogue])
        environment = jinja2.Environment(
            loader=jinja2.DictLoader({"a": "{{ b }}"}), bytecode_cache=keeping
        )
        assert environment.get_template("a").render(b=1) == "1"
    assert compiled == ["a", "a"]


def test_nothing_is_kept_where_there_is_no_folder(
    cache: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("backbud_grammar.cache_folder.cache_folder", lambda: None)
    compiled = _compiled(monkeypatch)
    for _ in range(2):
        template("signs.html")
        _forget()
    assert compiled == ["signs.html", "signs.html"]
    assert not cache.exists()
