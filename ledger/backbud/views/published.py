"""What programs read: the JSON of each command, made from a view, and the schema of it."""

from __future__ import annotations


def as_json(view: object) -> str:
    """A view as JSON: days as ISO 8601, money as text, so that it stays exact, figures to six
    significant digits."""
    from json import dumps

    from msgspec import to_builtins

    return dumps(_rounded(to_builtins(view, str_keys=True)), ensure_ascii=False, indent=2)


def _rounded(value: object) -> object:
    if isinstance(value, dict):
        return {key: _rounded(one) for key, one in value.items()}
    if isinstance(value, list | tuple):
        return [_rounded(one) for one in value]
    return float(f"{value:.6g}") if isinstance(value, float) else value
