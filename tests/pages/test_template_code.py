"""Templates compiled to plainer code write what jinja2's own write, and refuse what it refuses."""

from __future__ import annotations

from datetime import date
from types import SimpleNamespace

import pytest
from jinja2 import Environment, StrictUndefined
from markupsafe import Markup

from backbud.pages.template_code import quick_environment

TEXT = """\
{% macro row(one) %}<b title="{{ one.text }}">{{ one.text }}</b>{% endmacro %}
{{ value }}|{{ value | upper }}|{{ thing.value }}|{{ thing.inner.value ~ "<" }}|{{ words["key"] }}
{% for one in things if one.text %}{{ loop.index }}{{ row(one) }}{% else %}-{% endfor %}
{{ "<i>" }}{{ ("<i>" | safe) }}{% if thing.value %}{{ thing.value }}{% endif %}{{ thing.method() }}
"""
VALUES = [
    "plain", "<b>", "Tom & 'Ann' \"x\"", "Größe 3 µS", "", 7, -1, 0, 2.5, True, None,
    date(2027, 3, 6), Markup("<em>kept</em>"), ["<a>", 1], ("&",), {"<k>": "&"},
]  # fmt: skip


class _Html:
    def __html__(self) -> str:
        return "<u>itself</u>"


class _Text(str):
    """A text of another class."""


def _made(environment: type[Environment], value: object) -> str:
    made = environment(autoescape=True, undefined=StrictUndefined).from_string(TEXT)
    thing = SimpleNamespace(
        value=value, inner=SimpleNamespace(value=value), text=value, method=lambda: value
    )
    return made.render(value=value, thing=thing, things=[thing, thing], words={"key": value})


@pytest.mark.parametrize(
    "value",
    [*VALUES, _Html(), _Text("<s>"), _Text("plain")],
    ids=lambda value: type(value).__name__,
)
def test_a_value_stands_on_a_page_as_jinja2_writes_it(value: object) -> None:
    assert _made(quick_environment(), value) == _made(Environment, value)


def test_no_text_of_a_journal_is_html() -> None:
    made = _made(quick_environment(), "<script>alert('&\"')</script>")
    assert "<script" not in made and "alert('" not in made


@pytest.mark.parametrize("said", ["thing.missing", "missing", "missing.value"])
def test_what_is_unknown_is_an_error(said: str) -> None:
    made = quick_environment()(autoescape=True, undefined=StrictUndefined).from_string(
        f"{{{{ {said} }}}}"
    )
    with pytest.raises(Exception, match="missing"):
        made.render(thing=SimpleNamespace(value=1))
